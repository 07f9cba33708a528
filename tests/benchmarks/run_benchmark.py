"""How long the commands take, and the run from reading to wind, for lists of growing length.

    python tests/benchmarks/run_benchmark.py [--sizes 100 1000] [--kind .xlsx] [--until weights]
    python tests/benchmarks/run_benchmark.py --profile 1000

Each measurement is a process of its own: wall time, and the most memory it ever held.
"""

import argparse
import cProfile
import json
import os
import pstats
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

HERE = Path(__file__).resolve().parent
CHECKOUT = HERE.parents[1]
EXAMPLE = CHECKOUT / "examples" / "tide-dial" / "tide-dial.xlsx"
sys.path[:0] = [str(CHECKOUT), str(HERE)]
WANTED_S = {"--help": 0.3, "check": 1.0, "report": 4.0, 10_000: 4.0, 100_000: 30.0}
STEPS = ("read", "resolved", "shapes", "weights", "groups", "wind")
ALONE, UNTIL = "--alone", "--until"


class Measured(NamedTuple):
    """What one process took."""

    wall_s: float
    peak_mb: float
    said: str


def measured(command: list[str], repeats: int = 1) -> Measured:
    """Return the quickest of some runs of a command; ends the benchmark when one goes wrong."""
    runs = [_once(command) for _ in range(repeats)]
    return min(runs)


def _once(command: list[str]) -> Measured:
    began = time.perf_counter()
    child = subprocess.Popen(command, cwd=CHECKOUT, stdout=subprocess.PIPE, text=True)
    said = child.stdout.read()
    _, status, used = os.wait4(child.pid, 0)
    wall_s = time.perf_counter() - began
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode:
        sys.exit(f"{' '.join(command)} ended with {child.returncode}")
    kilobytes = used.ru_maxrss / (1024 if sys.platform == "darwin" else 1)
    return Measured(wall_s, kilobytes / 1024, said)


def run_alone(path: Path, until: str) -> dict[str, float]:
    """Return the seconds each step takes, from reading a list to the last one wanted."""
    from estimator.files.shelf import Shelf  # noqa: PLC0415
    from estimator.pipeline import STAGES  # noqa: PLC0415 - loading it is not measured elsewhere
    from estimator.reference.library import Library  # noqa: PLC0415
    from estimator.sheets.rows import read_job  # noqa: PLC0415

    seconds = {}
    began = time.perf_counter()
    job = read_job(path)
    found = {"job": job, "library": Library(), "option": "", "files": Shelf(job.folder)}
    seconds["read"] = time.perf_counter() - began
    for stage in STAGES[: STEPS.index(until)]:
        began = time.perf_counter()
        found[stage.name] = stage.run(*(found[need] for need in stage.needs))
        seconds[stage.name] = time.perf_counter() - began
        if stage.name == "resolved":
            found["columns"] = found["resolved"].columns
            found["assemblies"] = found["resolved"].assemblies
            refused = [p for p in found["resolved"].problems if p.severity == "refused"]
            if refused:
                sys.exit(f"the list itself is wrong: {refused[0]}")
    return seconds


def commands() -> None:
    """Print the table of commands."""
    print(f"{'command':<34}{'s':>8}{'wanted':>8}{'MB':>8}")
    with tempfile.TemporaryDirectory() as folder:
        for name, arguments in (
            ("--help", ["--help"]),
            ("check", ["check", str(EXAMPLE)]),
            ("report", ["report", str(EXAMPLE), "--out", folder]),
        ):
            took = measured([sys.executable, "-m", "estimator", *arguments], repeats=3)
            shown = name if name == "--help" else f"{name} {EXAMPLE.name}"
            print(f"{shown:<34}{took.wall_s:>8.2f}{WANTED_S[name]:>8.1f}{took.peak_mb:>8.0f}")


def lists(sizes: list[int], kind: str, until: str) -> None:
    """Print the table of lists."""
    from parts_lists import write_list  # noqa: PLC0415 - beside this file, found once path is set

    steps = STEPS[: STEPS.index(until) + 1]
    print(f"\n{'parts (' + kind + ')':<16}{'whole s':>9}{'wanted':>8}{'MB':>7}", end="")
    print("".join(f"{step:>10}" for step in steps))
    for size in sizes:
        with tempfile.TemporaryDirectory() as folder:
            path = write_list(size, Path(folder) / (f"list{kind}" if kind == ".xlsx" else "list"))
            took = measured([sys.executable, __file__, ALONE, str(path), UNTIL, until])
        seconds = json.loads(took.said)
        wanted = f"{WANTED_S[size]:.0f}" if size in WANTED_S else ""
        print(f"{size:<16,}{took.wall_s:>9.2f}{wanted:>8}{took.peak_mb:>7.0f}", end="")
        print("".join(f"{seconds[step]:>10.2f}" for step in steps), flush=True)


def profile(size: int, kind: str) -> None:
    """Print the functions in which a list of this length spends its time."""
    from parts_lists import write_list  # noqa: PLC0415

    with tempfile.TemporaryDirectory() as folder:
        path = write_list(size, Path(folder) / (f"list{kind}" if kind == ".xlsx" else "list"))
        profiler = cProfile.Profile()
        profiler.runcall(run_alone, path, "wind")
    stats = pstats.Stats(profiler)
    stats.sort_stats("tottime").print_stats(25)
    stats.sort_stats("cumulative").print_stats("estimator", 40)


def main() -> None:
    """Measure what was asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--sizes", type=int, nargs="+", default=[100, 1_000, 10_000, 100_000])
    parser.add_argument("--kind", choices=(".csv", ".xlsx"), default=".csv")
    parser.add_argument("--profile", type=int, metavar="PARTS")
    parser.add_argument(UNTIL, choices=STEPS, default=STEPS[-1])
    parser.add_argument(ALONE, type=Path, help=argparse.SUPPRESS)
    asked = parser.parse_args()
    if asked.alone:
        print(json.dumps(run_alone(asked.alone, asked.until)))
    elif asked.profile:
        profile(asked.profile, asked.kind)
    else:
        commands()
        lists(asked.sizes, asked.kind, asked.until)


if __name__ == "__main__":
    main()
