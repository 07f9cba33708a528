"""Run the command line: `python -m estimator`."""

import sys

from estimator.cli import main

if __name__ == "__main__":
    sys.exit(main())
