"""Sums that a reader can do again with the figures as printed."""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.reports import sums

POSITIVE = st.floats(1e-4, 1e5)


@pytest.mark.parametrize(
    ("value", "count", "printed"),
    [
        (868.7385, 4, "868.7"),
        (123456.0, 3, "123000"),
        (0.00012345, 2, "0.00012"),
        (1.0, 4, "1"),
        (-0.0, 4, "0"),
        (-2.50, 4, "-2.5"),
    ],
)
def test_figures_are_printed_without_powers_of_ten(value, count, printed):
    """As they are typed into a pocket calculator."""
    assert sums.digits(value, count) == printed


@given(st.lists(POSITIVE, min_size=1, max_size=7))
def test_a_printed_product_comes_out(factors):
    """Multiplying what is printed gives what is printed, to its last figure."""
    text = sums.product([(factor, "kg") for factor in factors], math.prod(factors), "N")
    left, right = text.split(" = ")
    again = math.prod(float(number) for number in re.findall(r"[\d.]+", left))

    assert f"{sums.digits(again)} N" == right


@given(st.lists(st.floats(-1e5, 1e5).filter(lambda x: abs(x) > 1e-3), min_size=1, max_size=7))
def test_a_printed_total_adds_up(terms):
    """Adding what is printed gives the total; also where terms nearly cancel."""
    printed = sums.total(terms, math.fsum(terms))

    assert len(printed) == len(terms)
    again, whole = math.fsum(map(float, printed)), math.fsum(terms)
    assert again == pytest.approx(whole, rel=1e-3, abs=1e-9)


def test_no_more_figures_are_printed_than_it_takes():
    """1.5 x 1.5 needs no more than it has; a third times three needs four."""
    assert sums.product([(1.5, "m"), (1.5, "m")], 2.25, "m2") == "1.5 m x 1.5 m = 2.25 m2"
    assert sums.settled([1 / 3], lambda values: 3 * values[0], 1.0) == ["0.33333"]


def test_a_sum_that_never_settles_is_printed_in_full():
    """What a formula and its result do not agree on is left for the reader to see."""
    assert sums.settled([1 / 3], lambda values: values[0], 1.0) == ["0.333333333333333"]
