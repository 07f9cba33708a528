"""How long it takes to share and to search every case at the brackets.

    python tests/benchmarks/run_brackets.py [JOB]

Seconds of processor time for sharing, searching, arms and plates of a job, and how many factored
actions that covers: combinations, cases, positions, brackets, states and ways of sharing.
"""

import argparse
import sys
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parents[1])]

import estimator  # noqa: E402
from estimator.files.shelf import Shelf  # noqa: E402
from estimator.pipeline import Given, run  # noqa: E402
from estimator.reference.library import Library  # noqa: E402
from estimator.resolve.options import named_option  # noqa: E402
from estimator.stages.arming import arm  # noqa: E402
from estimator.stages.holding import hold  # noqa: E402
from estimator.stages.plating import plate  # noqa: E402

DEMO = HERE.parents[1] / "examples" / "tide-dial" / "tide-dial.xlsx"


def main() -> None:
    """Time one job."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("job", nargs="?", type=Path, default=DEMO)
    job = estimator.read_job(parser.parse_args().job)
    given = Given(job, Library(None), Shelf(job.folder))
    found = run(given, named_option(job, None), upto="burdens")
    loads = (found[name] for name in ("weights", "groups", "wind", "burdens"))
    begun = time.process_time()
    held = hold(found["resolved"], *loads)
    shared = time.process_time()
    arm(found["resolved"], found["weights"], held)
    armed = time.process_time()
    plate(found["resolved"], held)
    plated = time.process_time()
    print(
        f"held {shared - begun:.2f} s, arms {armed - shared:.2f} s, plates {plated - armed:.2f} s"
    )
    for one in held:
        kept = [len(demand.sources) for demand in one.demands.values()]
        variants = len(one.ends)
        print(f"{one.name}: {one.cases} factored actions, {variants} states by ways; kept {kept}")
    print(f"largest imbalance {max(one.residual for one in held):.1e}")


if __name__ == "__main__":
    main()
