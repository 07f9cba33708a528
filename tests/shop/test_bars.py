"""Bars: what a saw can do, laws of a cutting plan, and the bound beside it."""

import math
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.shop.bars import BarStock, cut_bars

lengths = st.lists(st.floats(0.02, 7.0), max_size=40)
stocks = st.lists(st.tuples(st.floats(1.0, 7.0), st.floats(1.0, 90.0)), min_size=1, max_size=4)
kerfs = st.sampled_from([0.0, 0.002, 0.003])
trims = st.sampled_from([0.0, 0.01])


def plan_of(lengths_m, stock, kerf_m=0.0, trim_m=0.0):
    """Return a plan for stock written as (length, price) pairs."""
    return cut_bars(lengths_m, [BarStock(*s) for s in stock], kerf_m, trim_m)


@pytest.mark.parametrize(
    ("length_m", "trim_m", "to_a_bar"),
    [(0.997, 0.0, 6), (0.998, 0.0, 5), (0.994, 0.010, 6), (0.995, 0.010, 5)],
)
def test_kerf_lies_between_pieces_only(length_m, trim_m, to_a_bar):
    """Plane arithmetic: six pieces of 997 and five cuts of 3 make 5997 of 6000 mm."""
    plan = plan_of([length_m] * to_a_bar, [(6.0, 1.0)], kerf_m=0.003, trim_m=trim_m)
    one_more = plan_of([length_m] * (to_a_bar + 1), [(6.0, 1.0)], kerf_m=0.003, trim_m=trim_m)

    assert len(plan.bars) == 1
    assert len(one_more.bars) == 2


def test_a_last_cut_costs_its_kerf_when_something_remains():
    """Plane arithmetic: two of 1 m from 3 m lose two cuts of 4 mm and leave 992 mm."""
    (bar,) = plan_of([1.0, 1.0], [(3.0, 1.0)], kerf_m=0.004).bars

    assert bar.used_m == pytest.approx(2.0)
    assert bar.kerf_m == pytest.approx(0.008)
    assert bar.left_m == pytest.approx(0.992)


def test_lengths_that_add_up_exactly_fill_the_bar():
    """Ten times a tenth is one, although the sum in binary falls short of it or passes it."""
    assert len(plan_of([0.1] * 10, [(1.0, 1.0)]).bars) == 1


def test_nothing_to_cut_buys_nothing():
    """An empty list is an empty plan with empty bounds."""
    plan = plan_of([], [(6.0, 10.0)])

    assert plan.bars == ()
    assert (plan.cost, plan.bound_cost, plan.length_m) == (0, 0, 0)


def test_a_length_over_every_bar_is_named_and_left_out():
    """A 6.5 m piece is in no 6 m bar; the others are cut all the same."""
    plan = plan_of([1.0, 6.5, 2.0], [(6.0, 10.0), (3.0, 6.0)])

    assert plan.too_long == (1,)
    assert [sorted(bar.pieces) for bar in plan.bars] == [[0, 2]]
    assert plan.cost == 6.0


def test_without_stock_every_length_is_too_long():
    """A list cannot be cut from nothing."""
    assert plan_of([1.0, 2.0], []).too_long == (0, 1)


def test_a_mixture_beats_each_length_alone():
    """By hand: 5 m and 2 m cost 50 + 22 apart, 100 from two bars of 5 m."""
    plan = plan_of([5.0, 2.0], [(5.0, 50.0), (2.0, 22.0)])

    assert plan.cost == 72.0
    assert [bar.stock_index for bar in plan.bars] == [0, 1]


@pytest.mark.parametrize(
    ("lengths_m", "stock", "kerf_m", "words"),
    [
        ([1.0, 0.0], [(6.0, 1.0)], 0.0, "every length must be above zero"),
        ([math.nan], [(6.0, 1.0)], 0.0, "every length must be above zero"),
        ([1.0], [(0.0, 1.0)], 0.0, "a length above zero and a price"),
        ([1.0], [(6.0, -1.0)], 0.0, "a length above zero and a price"),
        ([1.0], [(6.0, 1.0)], -0.001, "kerf and trim must not be negative"),
    ],
)
def test_what_cannot_be_sawn_is_refused(lengths_m, stock, kerf_m, words):
    """A caller's mistake is an error that says what it was."""
    with pytest.raises(ValueError, match=words):
        plan_of(lengths_m, stock, kerf_m)


@settings(deadline=None)
@given(lengths, stocks, kerfs, trims)
def test_each_piece_is_cut_once_and_fits(lengths_m, stock, kerf_m, trim_m):
    """Every index is in one bar or named too long, and no bar holds more than a saw can give."""
    plan = plan_of(lengths_m, stock, kerf_m, trim_m)
    placed = [i for bar in plan.bars for i in bar.pieces]

    assert sorted([*placed, *plan.too_long]) == list(range(len(lengths_m)))
    for bar in plan.bars:
        inside_m = stock[bar.stock_index][0] - 2 * trim_m
        used_m = math.fsum(lengths_m[i] for i in bar.pieces)
        rounding_m = 0.5e-4 * (len(bar.pieces) + 1)  # half of what a long bar is counted in, each
        assert used_m + kerf_m * (len(bar.pieces) - 1) <= inside_m + rounding_m


@settings(deadline=None)
@given(lengths, stocks, kerfs, trims)
def test_no_plan_is_under_its_bound(lengths_m, stock, kerf_m, trim_m):
    """Length alone must be bought, and the plan pays for its bars."""
    plan = plan_of(lengths_m, stock, kerf_m, trim_m)

    assert plan.cost >= plan.bound_cost * (1 - 1e-9)
    assert plan.bound_cost >= min(
        (price * plan.length_m / length_m for length_m, price in stock), default=0.0
    ) * (1 - 1e-9)
    assert plan.cost == pytest.approx(sum(stock[bar.stock_index][1] for bar in plan.bars))


@settings(deadline=None)
@given(lengths, stocks, kerfs)
def test_double_prices_double_the_cost(lengths_m, stock, kerf_m):
    """Money has no scale."""
    dear = [(length_m, 2 * price) for length_m, price in stock]

    assert plan_of(lengths_m, dear, kerf_m).cost == 2 * plan_of(lengths_m, stock, kerf_m).cost


@settings(deadline=None)
@given(lengths, stocks)
def test_a_second_stock_length_never_costs_more(lengths_m, stock):
    """What can be cut from one length can still be cut from it when another is on offer."""
    placeable = [length_m for length_m in lengths_m if length_m <= stock[0][0]]

    one, two = plan_of(placeable, stock[:1]), plan_of(placeable, stock[:2])

    assert two.cost <= one.cost


@settings(deadline=None)
@given(lengths, stocks, kerfs)
def test_the_same_list_gives_the_same_plan(lengths_m, stock, kerf_m):
    """Nothing is left to chance."""
    assert plan_of(lengths_m, stock, kerf_m) == plan_of(lengths_m, stock, kerf_m)


def test_twice_the_demand_costs_at_most_twice():
    """A wave of mixed lengths, bought once and bought double."""
    lengths_m = [0.3 + 0.017 * i for i in range(60)]
    stock = [(6.0, 30.0), (3.0, 16.0)]

    once, twice = plan_of(lengths_m, stock, 0.003), plan_of(lengths_m * 2, stock, 0.003)

    assert twice.cost <= 2 * once.cost


def test_dropping_the_kerf_does_not_cost_more():
    """The same wave sawn with a blade of no width."""
    lengths_m = [0.3 + 0.017 * i for i in range(60)]
    stock = [(6.0, 30.0), (3.0, 16.0)]

    assert plan_of(lengths_m, stock).cost <= plan_of(lengths_m, stock, 0.003).cost


def test_time_grows_in_step_with_the_list():
    """Ten times the pieces take far less than a hundred times as long."""

    def seconds(count):
        lengths_m = [0.05 + (i * 7919 % count) / count * 2.9 for i in range(count)]
        start = time.process_time()
        plan_of(lengths_m, [(6.0, 30.0), (3.0, 16.0)], 0.003)
        return time.process_time() - start

    assert seconds(20_000) < 40 * max(seconds(2_000), 0.005)
