"""Bars cut from published lists of lengths: the fewest bars are known, and no bound passes them.

[ESICUP], [BPPLIB] Sources and optima: data/SOURCES.md. All have bars of one length and no kerf.
The jobs with prices are invented; their bounds were proven by an earlier program of our own.
Longer runs on all of the lists: tests/benchmarks/run_cutting.py.
"""

import json
import math
from pathlib import Path

import pytest

from estimator.shop.bars import BarStock, cut_bars

DATA = Path(__file__).parent / "data"
MM = 1e-3


def _cases(name, count):
    lines = (DATA / f"1d_{name}.jsonl").read_text("utf-8").splitlines()[:count]
    return [pytest.param(json.loads(line), id=json.loads(line)["name"]) for line in lines]


def _plan(case):
    """Return the plan of a case, its lengths taken as millimetres."""
    bought = [BarStock(length * MM, price) for length, price in case["stock"]]
    owned = [BarStock(length * MM, 0.0, 1.0, trimmed=False) for length in case.get("rack", [])]
    trim_m = case.get("trim_each_end_of_bought_bars", 0) * MM
    pieces_m = [length * MM for length, number in case["items"] for _ in range(number)]
    return cut_bars(pieces_m, [*bought, *owned], case.get("kerf", 0) * MM, trim_m, seconds=30.0)


@pytest.mark.parametrize(
    "case", [*_cases("schwerin", 2), *_cases("scholl1", 6), *_cases("falkenauer", 2)]
)
def test_the_fewest_bars_are_found_and_proven(case):
    """[ESICUP] [BPPLIB] As many bars as the published optimum, and the bound says the same."""
    plan = _plan(case)

    assert len(plan.bars) == case["opt"]
    assert plan.bound_cost == pytest.approx(case["opt"])


@pytest.mark.parametrize("case", _cases("jobs_multistock", 4))
def test_bars_of_several_prices_cost_what_was_proven(case):
    """No less than the proven bound, no more than an earlier search paid; pence."""
    plan = _plan(case)

    assert case["purchase_lb"] <= plan.cost <= case["purchase_ub"]
    assert plan.bound_cost <= case["purchase_lb"] + 1e-6
    owned = [bar.stock_index for bar in plan.bars if bar.stock_index >= len(case["stock"])]
    assert len(owned) == len(set(owned))


def test_kerf_counts_between_owned_ends_too():
    """By hand: two pieces of 500 and a cut of 3 need 1003 mm, which a sawn end of 1003 has."""
    exact = cut_bars([0.5, 0.5], [BarStock(6.0, 9.0), BarStock(1.003, 0.0, 1.0, trimmed=False)],
                     kerf_m=0.003, trim_m=0.01)  # fmt: skip
    short = cut_bars([0.5, 0.5], [BarStock(6.0, 9.0), BarStock(1.002, 0.0, 1.0, trimmed=False)],
                     kerf_m=0.003, trim_m=0.01)  # fmt: skip

    assert (exact.cost, short.cost) == (0.0, 9.0)
    assert math.isclose(exact.bars[0].left_m, 0.0, abs_tol=1e-9)
