"""How long the wind takes on a list with a mover, and beside a plain loop over the same formulas.

    python tests/benchmarks/run_wind.py [--parts 1000] [--positions 13] [--moving 5]

Reading is not counted. The plain loop visits every part, position and direction by itself and asks
the same functions for one panel or one round length at a time, as a first program would.
"""

import argparse
import math
import sys
import tempfile
import time
import tracemalloc
from pathlib import Path

import numpy as np

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parents[1]), str(HERE)]

from parts_lists import tables, write_tables  # noqa: E402

from estimator.files.shelf import Shelf  # noqa: E402
from estimator.pipeline import STAGES  # noqa: E402
from estimator.reference.library import Library  # noqa: E402
from estimator.resolve.brackets import NOTHING_TRIED  # noqa: E402
from estimator.sheets.rows import read_job  # noqa: E402
from estimator.stages.blowing import blow  # noqa: E402
from estimator.stages.blowing_parts import gather  # noqa: E402
from estimator.wind.elements import Panels, Rounds, panel_forces, round_forces  # noqa: E402
from estimator.wind.figures import moment_about  # noqa: E402

WANTED_S = 2.0
FEW = 10
"""Directions and positions that the plain loop is timed on; the rest takes as long again."""


def a_job(parts: int, positions: int, moving: int, how: str) -> dict[str, list[list[object]]]:
    """Return a job in which all stands free, its first assemblies turning about an axle each."""
    sheets = tables(parts)
    headings = ["assembly", "across [mm]", "up [mm]", "stands", "wind", "moves", "axis",
                "positions", "to [deg]"]  # fmt: skip
    rows = [
        [*row[:3], "free", how, *(["turns", "out", positions, 360 * (positions - 1) / positions]
         if i < moving else ["fixed", "", "", ""])]
        for i, row in enumerate(sheets["assemblies"][1:])
    ]  # fmt: skip
    return sheets | {"assemblies": [headings, *rows]}


def found_for(folder: Path) -> dict[str, object]:
    """Return what the steps before the wind find of a job."""
    job = read_job(folder)
    found = {"job": job, "library": Library(), "option": "", "files": Shelf(job.folder),
             "tried": NOTHING_TRIED}  # fmt: skip
    for stage in STAGES:
        if stage.name == "wind":
            return found
        found[stage.name] = stage.run(*(found[need] for need in stage.needs))
        if stage.name == "resolved":
            found["columns"] = found["resolved"].columns
            found["assemblies"] = found["resolved"].assemblies
    return found


def plainly(found: dict[str, object]) -> tuple[float, int]:
    """Return the seconds of the plain loop over everything, and how many forces it works out."""
    resolved, shapes = found["resolved"], found["shapes"]
    sides_rad = np.deg2rad(resolved.weather.sides.directions_deg)
    seconds, forces = 0.0, 0
    for group in found["groups"]:
        turns, rows = group.rotation, group.members
        for i, row in enumerate(rows):
            gathered = gather(resolved.columns, shapes, row)
            began, few = time.perf_counter(), min(FEW, len(turns))
            counted = sum(_one(gathered, turns[s, i], group.origin_m[s, i], sides_rad)
                          for s in range(few))  # fmt: skip
            seconds += (time.perf_counter() - began) * len(turns) / few
            forces += round(counted * len(turns) / few)
    return seconds, forces


def _one(gathered: object, turn: np.ndarray, origin_m: np.ndarray, sides_rad: np.ndarray) -> int:
    """Work out the wrench of one assembly in one position; return how many forces it took."""
    wrench = np.zeros((len(sides_rad), 6))
    counted = 0
    for kind, elements, places_m, forces in (
        (Panels, gathered.panels, gathered.panels_at_m, panel_forces),
        (Rounds, gathered.rounds, gathered.rounds_at_m, round_forces),
    ):
        for k in range(len(places_m)):
            one = kind(*(field[k : k + 1] for field in elements)).turned(turn)
            at_m = turn @ places_m[k] + origin_m
            for d, side_rad in enumerate(sides_rad.tolist()):
                force_n = forces(one, 1000.0, np.array([side_rad]))[0, 0]
                wrench[d, :3] += force_n
                wrench[d, 3:] += moment_about(np.zeros(3), at_m, force_n)
                counted += 1
    return counted


def main() -> None:
    """Measure what was asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--parts", type=int, default=1000)
    parser.add_argument("--positions", type=int, default=13)
    parser.add_argument("--moving", type=int, default=5, help="assemblies that turn, of 20 parts")
    asked = parser.parse_args()
    print(f"{asked.parts} parts, {20 * asked.moving} of them in {asked.positions} positions")
    print(f"{'wind':<9}{'s':>7}{'wanted':>8}{'most MB':>9}{'plain s':>9}{'ratio':>7}")
    for how in ("outline", "parts"):
        with tempfile.TemporaryDirectory() as folder:
            sheets = a_job(asked.parts, asked.positions, asked.moving, how)
            path = write_tables(sheets, Path(folder) / "list")
            found = found_for(path)
        given = [found[need] for need in ("resolved", "shapes", "groups")]
        began = time.perf_counter()
        blow(*given)
        took_s = time.perf_counter() - began
        tracemalloc.start()
        blow(*given)
        peak_mb = tracemalloc.get_traced_memory()[1] / 2**20
        tracemalloc.stop()
        plain_s, forces = plainly(found) if how == "parts" else (math.nan, 0)
        beside = f"{plain_s:>9.1f}{plain_s / took_s:>7.0f}" if forces else ""
        print(f"{how:<9}{took_s:>7.2f}{WANTED_S:>8.1f}{peak_mb:>9.0f}{beside}", flush=True)


if __name__ == "__main__":
    main()
