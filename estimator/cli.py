"""The commands: arguments, exit codes, printing. No arithmetic.

Exit codes: 0 nothing wrong; 1 something in the workbook could not be used; 2 could not run.
"""

import argparse
import json
import os
import sys
import time
from collections.abc import Callable, Sequence
from importlib.metadata import version
from pathlib import Path
from shutil import get_terminal_size
from typing import Any

FINE, PROBLEMS, CANNOT_RUN = 0, 1, 2
PAPER = (100, 24)
"""Letters and lines of a terminal that does not say how large it is."""
THREADS = ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS", "VECLIB_MAXIMUM_THREADS")
"""What the libraries for linear algebra look at when they are loaded."""
PATIENCE_S = 1.0
"""Anything longer than this shows what it is doing."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    from estimator.core.problems import RequestError, UnreadableError

    # The matrices here are so small that threads for them wait longer than they work.
    for name in THREADS:
        os.environ.setdefault(name, "1")
    asked = _parser().parse_args(arguments)
    command: Callable[[argparse.Namespace], int] = asked.run
    try:
        return command(asked)
    except BrokenPipeError:
        # Whoever reads the output, such as a pager, has seen enough; nothing is left to tell.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINE
    except (UnreadableError, RequestError, OSError) as wrong:
        print(f"estimator: {wrong}", file=sys.stderr)
        return CANNOT_RUN


def _parser() -> argparse.ArgumentParser:
    """Return what can be typed after `estimator`."""
    parser = argparse.ArgumentParser(
        prog="estimator",
        description="Mass, balance, wind, wall-bracket forces, order list and price of a one-off "
        "outdoor assembly, from a parts list in a spreadsheet. Estimates only: a structural "
        "engineer must sign off the fixings.",
        epilog="Start with: estimator new job.xlsx",
    )
    parser.add_argument("--version", action="version", version=f"estimator {version('estimator')}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    new = _command(commands, "new", _new, "write a blank job workbook to fill in")
    new.add_argument("job", type=Path, metavar="JOB.xlsx", help="file to make; never overwritten")
    check = _command(commands, "check", _check, "say what is wrong or missing, cell by cell")
    _job_options(check)
    check.add_argument("--json", action="store_true", help="the same list for another program")
    report = _command(commands, "report", _report, "work everything out and write the report")
    _job_options(report)
    report.add_argument("--out", type=Path, metavar="FOLDER",
                        help="where to write; beside the workbook when not given")  # fmt: skip
    report.add_argument("--cases", action="store_true",
                        help="write every wind load and bracket action as .csv too")  # fmt: skip
    kept = _command(commands, "keep", _keep, "keep what was weighed in a record of your own")
    kept.add_argument("job", type=Path, metavar="JOB",
                      help="workbook (.xlsx, .ods) or folder of .csv files")  # fmt: skip
    kept.add_argument("--option", metavar="NAME", help="way of building that was weighed")
    kept.add_argument("--tables", type=Path, metavar="FOLDER", required=True,
                      help="your own folder of tables, for own_ratios.csv")  # fmt: skip
    why = _command(commands, "why", _why, "show the sum behind one figure, with every source")
    _job_options(why)
    why.add_argument("name", metavar="PART", help="a part or an assembly; a bracket for its arm")
    why.add_argument("figure", choices=("wind", "mass", "arm"), help="what about it")
    why.add_argument("--from", dest="direction_deg", type=float, metavar="DEGREES",
                     help="wind from this side: 0 the street, 90 the right; the worst when left "
                     "out")  # fmt: skip
    why.add_argument("--position", default="", metavar="TEXT",
                     help="position of what moves; the worst when left out")  # fmt: skip
    tables = _command(commands, "tables", _tables, "look in the lookup tables")
    tables.add_argument("name", nargs="?", default="", metavar="NAME", help="such as gauges")
    tables.add_argument("word", nargs="?", default="", metavar="WORD", help="rows with this word")
    _tables_option(tables)
    return parser


def _command(
    commands: Any,  # noqa: ANN401 - argparse keeps the type to itself
    name: str,
    run: Callable[[argparse.Namespace], int],
    words: str,
) -> argparse.ArgumentParser:
    """Return the parser of one command."""
    command: argparse.ArgumentParser = commands.add_parser(
        name, help=words, description=f"{words[0].upper()}{words[1:]}."
    )
    command.set_defaults(run=run)
    return command


def _job_options(command: argparse.ArgumentParser) -> None:
    command.add_argument("job", type=Path, metavar="JOB",
                         help="workbook (.xlsx, .ods) or folder of .csv files")  # fmt: skip
    command.add_argument("--option", metavar="NAME", help="way of building to work out")
    _tables_option(command)


def _tables_option(command: argparse.ArgumentParser) -> None:
    command.add_argument("--tables", type=Path, metavar="FOLDER",
                         help="your own lookup tables, laid over the program's")  # fmt: skip


def _new(asked: argparse.Namespace) -> int:
    from estimator.reports.blank import write_blank

    path = write_blank(asked.job)
    print(f"{path} is ready to fill in: start with the sheet `parts`.")
    return FINE


def _check(asked: argparse.Namespace) -> int:
    from estimator.resolve.checking import check

    problems, accounts = check(asked.job, asked.option, asked.tables)
    if asked.json:
        print(json.dumps([problem.record() for problem in problems], indent=1, ensure_ascii=False))
    else:
        for problem in problems:
            print(problem)
        _print_accounts(accounts)
        _print_count(asked.job, problems)
    return _code(problems)


def _print_accounts(accounts: Any) -> None:  # noqa: ANN401 - imported late
    """Print what became of every row that was read."""
    heads = f"{'read':>7}{'used':>7}{'other option':>14}{'parked':>8}{'replaced':>10}{'refused':>9}"
    print(f"\n{'rows':<12}{heads}")
    for sheet, a in accounts.items():
        if a.read:
            print(f"{sheet:<12}{a.read:>7}{a.used:>7}{a.other_option:>14}{a.parked:>8}"
                  f"{a.replaced:>10}{a.refused:>9}")  # fmt: skip


def _print_count(job: Path, problems: Sequence[Any]) -> None:
    counts = {"refused": 0, "question": 0, "note": 0}
    for problem in problems:
        counts[str(problem.severity)] += 1
    print(f"\n{job.name}: {counts['refused']} to put right, {counts['question']} to look at, "
          f"{counts['note']} notes.")  # fmt: skip


def _code(problems: Sequence[Any]) -> int:
    return PROBLEMS if any(str(p.severity) == "refused" for p in problems) else FINE


def _report(asked: argparse.Namespace) -> int:
    import estimator
    from estimator.reports.cases import case_files
    from estimator.reports.reissue import with_earlier
    from estimator.reports.summary import summary_text

    tell = _Progress()
    tell("reading")
    job = estimator.read_job(asked.job)
    result = estimator.estimate(
        job, asked.option, tables=asked.tables, tell=tell, every_case=asked.cases
    )
    tell("writing")
    folder = asked.out or asked.job.resolve().parent / f"{job.name} report"
    more = case_files(result.document) if asked.cases else {}
    document = with_earlier(result.document, folder)
    written = estimator.write_reports(document, folder, more)
    tell.done()
    print(summary_text(document))
    page = next(path for path in written if path.name == "page.html")
    print(f"Open {page}")
    return FINE if result.complete else PROBLEMS


def _keep(asked: argparse.Namespace) -> int:
    import estimator
    from estimator.reports.keeping import keep, kept_text

    result = estimator.estimate(estimator.read_job(asked.job), asked.option, tables=asked.tables)
    print(kept_text(keep(result.document, asked.tables)))
    return FINE if result.complete else PROBLEMS


def _why(asked: argparse.Namespace) -> int:
    import estimator
    from estimator.reports.why import why_text
    from estimator.reports.why_side import From

    result = estimator.estimate(estimator.read_job(asked.job), asked.option, tables=asked.tables)
    side = From(asked.direction_deg, asked.position)
    width = get_terminal_size(PAPER).columns
    print(why_text(result.document, asked.name, asked.figure, side, width))
    return FINE if result.complete else PROBLEMS


class _Progress:
    """Shows what is being done, once it takes longer than anybody waits for."""

    def __init__(self) -> None:
        self._since = time.monotonic()
        self._shown = False

    def __call__(self, words: str) -> None:
        """Say what comes next."""
        if time.monotonic() - self._since > PATIENCE_S and sys.stderr.isatty():
            print(f"\r{words} ...".ljust(40), end="", file=sys.stderr, flush=True)
            self._shown = True

    def done(self) -> None:
        """Clear the line."""
        if self._shown:
            print("\r".ljust(41) + "\r", end="", file=sys.stderr, flush=True)


def _tables(asked: argparse.Namespace) -> int:
    from estimator.reference.finding import Miss
    from estimator.reference.library import Library
    from estimator.reference.lookup import show_table
    from estimator.reports.tables_text import table_text

    library = Library(asked.tables)
    if not asked.name:
        print("\n".join(library.names))
        return FINE
    view = show_table(library, asked.name, asked.word)
    if isinstance(view, Miss):
        print(f"estimator: {view.sentence}; {view.advice}", file=sys.stderr)
        return CANNOT_RUN
    print(table_text(view, get_terminal_size(PAPER).columns))
    return FINE
