"""Rolls cut from a paper machine: the well-known example of the cutting-stock problem.

[CSP] "Cutting stock problem", Wikipedia; copies at
      wiki-offline.jakearchibald.com/wiki/Cutting_stock_problem and
      graphsearch.epfl.ch/en/concept/826868. A machine 5600 mm wide, 13 widths, 219 rolls ordered;
      the best plan takes 73 master rolls with 0.401 % waste. Data in data/1d_textbook.jsonl:
      `stock` is [length, price], `items` are [length, number], in millimetres, `opt` the best.
"""

import json
from pathlib import Path

import pytest

from estimator.shop.bars import BarStock, cut_bars

CASE = json.loads((Path(__file__).parent / "data" / "1d_textbook.jsonl").read_text("utf-8"))
WIDTH_M = CASE["stock"][0][0] / 1000
PIECES_M = [width / 1000 for width, number in CASE["items"] for _ in range(number)]


@pytest.fixture(scope="module")
def plan():
    """Return the plan of the example, without kerf or trim."""
    return cut_bars(PIECES_M, [BarStock(WIDTH_M, 1.0)])


def test_length_of_the_example(plan):
    """[CSP] 73 rolls with 0.401 % waste are 72.7 rolls of paper, to the tenth printed."""
    assert plan.length_m / WIDTH_M == pytest.approx(73 * (1 - 0.00401), abs=0.001)
    assert plan.length_m / WIDTH_M == pytest.approx(72.7, abs=0.05)


def test_the_plan_is_the_best_there_is_and_says_so(plan):
    """[CSP] 73 rolls, and the bound beside it is 73 too."""
    assert len(plan.bars) == CASE["opt"] == 73
    assert plan.bound_cost == pytest.approx(73)


def test_every_roll_of_the_example_is_cut(plan):
    """[CSP] 219 rolls ordered, each cut once."""
    assert sorted(i for bar in plan.bars for i in bar.pieces) == list(range(219))
