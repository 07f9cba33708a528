"""Price: the build-up line by line, and mark-up kept apart from margin."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.shop.price import (
    Cost,
    Terms,
    build_up,
    labour_cost,
    margin_of,
    mark_up_of,
)
from estimator.shop.three_point import Estimate, ThreePoint, estimated, known

amounts = st.tuples(*[st.floats(0.0, 1e5)] * 3).map(
    lambda values: estimated(ThreePoint(*sorted(values)))
)
shares = st.floats(0.0, 0.9)
COSTS = [
    Cost("materials", Estimate(900.0, 1000.0, 1300.0, 1066.0), "whole pieces"),
    Cost("hours", Estimate(100.0, 200.0, 300.0, 200.0), "hours x rate"),
]


def test_a_price_is_built_line_by_line():
    """By hand: 1200 + 10 % = 1320, + 5 % = 1386, + 15 % = 1593.90, + 20 % tax = 1912.68."""
    lines = build_up(COSTS, Terms(overhead=0.10, contingency=0.05, mark_up=0.15, tax=0.20))

    assert [(line.name, round(line.likely, 2)) for line in lines] == [
        ("materials", 1000.0),
        ("hours", 200.0),
        ("cost", 1200.0),
        ("overhead", 120.0),
        ("contingency", 66.0),
        ("cost with overhead and contingency", 1386.0),
        ("mark-up on cost", 207.9),
        ("price before tax", 1593.9),
        ("tax", 318.78),
        ("price", 1912.68),
    ]


def test_each_line_says_how_it_came_about():
    """A mark-up line gives the margin it amounts to, so that the words cannot be confused."""
    how = {line.name: line.how for line in build_up(COSTS, Terms(mark_up=0.25, tax=0.2))}

    assert how["materials"] == "whole pieces"
    assert how["mark-up on cost"] == "25 % of cost, which is 20 % of price"
    assert how["tax"] == "20 % of price before tax"


def test_a_margin_is_a_share_of_the_price():
    """By hand: a fifth of the price is a quarter of the cost, 300 on 1200."""
    lines = {line.name: line for line in build_up(COSTS, Terms(margin=0.20))}

    assert lines["margin on price"].likely == pytest.approx(300.0)
    assert lines["margin on price"].how == "20 % of price, which is 25 % of cost"
    assert lines["margin on price"].likely / lines["price before tax"].likely == pytest.approx(0.2)


@pytest.mark.parametrize("terms", [Terms(), Terms(mark_up=0.1, margin=0.1)])
def test_one_of_mark_up_and_margin_is_wanted(terms):
    """Neither and both are refused; nought is an answer."""
    with pytest.raises(ValueError, match="give a mark-up or a margin, one of the two"):
        build_up(COSTS, terms)
    assert build_up(COSTS, Terms(margin=0.0))[-1].likely == pytest.approx(1200.0)


@pytest.mark.parametrize("field", ["overhead", "contingency", "tax"])
def test_shares_are_not_negative(field):
    """A discount is not a negative overhead."""
    with pytest.raises(ValueError, match="must not be negative"):
        build_up(COSTS, Terms(mark_up=0.1)._replace(**{field: -0.01}))


@pytest.mark.parametrize("margin", [1.0, 1.5, -0.1, math.nan])
def test_a_margin_stays_below_the_price(margin):
    """No mark-up gives a margin of the entire price."""
    with pytest.raises(ValueError, match="a margin is a share of the price"):
        mark_up_of(margin)


def test_a_mark_up_is_not_negative():
    """Selling below cost is not a mark-up."""
    with pytest.raises(ValueError, match="a mark-up is a share of the cost"):
        margin_of(-0.1)


@given(shares)
def test_mark_up_and_margin_undo_each_other(margin):
    """From margin to mark-up and back."""
    assert margin_of(mark_up_of(margin)) == pytest.approx(margin)


@given(st.lists(amounts, max_size=5), shares, shares)
def test_margin_and_the_mark_up_it_gives_make_the_same_price(costs, margin, tax):
    """Two ways of saying one profit, for low, likely, high and mean."""
    lines = [Cost("a line", amount, "typed") for amount in costs]

    by_margin = build_up(lines, Terms(margin=margin, tax=tax))[-1]
    by_mark_up = build_up(lines, Terms(mark_up=mark_up_of(margin), tax=tax))[-1]

    assert by_margin[1:5] == pytest.approx(by_mark_up[1:5])


@given(st.lists(amounts, max_size=5), shares, shares, shares)
def test_the_price_is_the_sum_of_its_steps(costs, overhead, contingency, tax):
    """Costs, overhead, contingency, mark-up and tax make the price; no line goes missing."""
    lines = build_up(
        [Cost("a line", amount, "typed") for amount in costs],
        Terms(overhead=overhead, contingency=contingency, mark_up=0.3, tax=tax),
    )
    sums = {"cost", "cost with overhead and contingency", "price before tax", "price"}

    steps = sum(line.mean for line in lines if line.name not in sums)

    assert steps == pytest.approx(lines[-1].mean)


def test_two_people_for_a_day_are_two_days_of_pay():
    """By hand: 2 people x 8 h x 25."""
    assert labour_cost(2, known(8.0), known(25.0)).likely == 400.0
