"""How good and how fast cutting plans of bars are, on published lists with known optima.

    python tests/benchmarks/run_cutting.py [--seconds 10] [--sets schwerin hard28 ...]

Sources of the lists: tests/published/data/SOURCES.md.
"""

import argparse
import json
import statistics
import sys
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE.parents[1])]

from estimator.shop.bars import BarStock, cut_bars  # noqa: E402

DATA = HERE.parent / "published" / "data"
SETS = ("textbook", "schwerin", "waescher", "scholl1", "scholl2", "hard28", "falkenauer", "scholl3",
        "jobs_multistock")  # fmt: skip
MM = 1e-3


def plan_of(case, seconds):
    """Return the plan of a case, its lengths taken as millimetres."""
    bought = [BarStock(length * MM, price) for length, price in case["stock"]]
    owned = [BarStock(length * MM, 0.0, 1.0, trimmed=False) for length in case.get("rack", [])]
    trim_m = case.get("trim_each_end_of_bought_bars", 0) * MM
    pieces_m = [length * MM for length, number in case["items"] for _ in range(number)]
    return cut_bars(pieces_m, [*bought, *owned], case.get("kerf", 0) * MM, trim_m, seconds)


def run(name, seconds):
    """Print how one set comes out."""
    cases = [json.loads(line) for line in (DATA / f"1d_{name}.jsonl").read_text().splitlines()]
    took, best, bound, gaps, misses = [], 0, 0, [], []
    for case in cases:
        start = time.perf_counter()
        plan = plan_of(case, seconds)
        took.append(time.perf_counter() - start)
        known = case.get("opt") or case.get("purchase_lb")
        gaps.append(100 * (plan.cost / plan.bound_cost - 1))
        best += plan.cost <= plan.bound_cost * (1 + 1e-9) or plan.cost == case.get("opt")
        bound += bool(known) and abs(plan.bound_cost - known) < 1e-6 * known
        if case.get("opt") and plan.cost > case["opt"] + 1e-6:
            misses.append(f"{case['name']} {plan.cost:g} for {case['opt']:g}")
    mean_s, most_s = statistics.fmean(took), max(took)
    print(f"{name:16} {len(cases):4} lists, best plan in {best}, bound tight in {bound};")
    print(f"    proven gap {statistics.fmean(gaps):.2f} % mean, {max(gaps):.2f} % most;", end="")
    print(f" {mean_s:.2f} s mean, {statistics.median(took):.2f} median, {most_s:.2f} most")
    print(*(f"    {miss}\n" for miss in misses), sep="", end="", flush=True)


def main():
    """Run the sets that were asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=float, default=10.0)
    parser.add_argument("--sets", nargs="*", default=SETS)
    asked = parser.parse_args()
    for name in asked.sets:
        run(name, asked.seconds)


if __name__ == "__main__":
    main()
