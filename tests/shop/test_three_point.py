"""Three-point estimates: the triangle integrated, and the laws of sums."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from estimator.shop.three_point import (
    Estimate,
    ThreePoint,
    estimated,
    independent_sd,
    known,
    pert_mean,
    pert_sd,
    product,
    together_quantile,
    total,
    triangular_mean,
    triangular_quantile,
    triangular_sd,
    triangular_variance,
)

points = st.tuples(*[st.floats(0.0, 1e4)] * 3).map(lambda values: ThreePoint(*sorted(values)))
chances = st.floats(0.0, 1.0)
ABC = ThreePoint(4.0, 6.0, 12.0)


def scipy_triangle(point):
    """Return the same distribution from scipy, which works it out in its own way."""
    span = point.high - point.low
    return stats.triang((point.likely - point.low) / span, loc=point.low, scale=span)


def test_mean_and_spread_agree_with_an_independent_implementation():
    """scipy.stats.triang for 4, 6, 12."""
    assert triangular_mean(ABC) == pytest.approx(scipy_triangle(ABC).mean())
    assert triangular_variance(ABC) == pytest.approx(scipy_triangle(ABC).var())
    assert triangular_sd(ABC) == pytest.approx(scipy_triangle(ABC).std())


@pytest.mark.parametrize("chance", [0.0, 0.1, 0.25, 0.5, 0.8, 1.0])
def test_quantiles_agree_with_an_independent_implementation(chance):
    """scipy.stats.triang for 4, 6, 12, both sides of the peak and on it."""
    assert triangular_quantile(ABC, chance) == pytest.approx(scipy_triangle(ABC).ppf(chance))


@given(points)
def test_variance_is_the_textbook_polynomial(point):
    """(a2 + m2 + b2 - am - ab - mb) / 18, the form found in handbooks."""
    a, m, b = point
    polynomial = (a * a + m * m + b * b - a * m - a * b - m * b) / 18

    assert triangular_variance(point) == pytest.approx(polynomial, rel=1e-9, abs=1e-6)


@given(points, chances, chances)
def test_a_greater_chance_never_gives_a_smaller_value(point, one, other):
    """A quantile rises, from low at nought to high at one."""
    lower, upper = sorted([one, other])
    slack = 1e-9 * (1 + point.high)

    assert triangular_quantile(point, lower) <= triangular_quantile(point, upper) + slack
    assert triangular_quantile(point, 0.0) == pytest.approx(point.low, abs=slack)
    assert triangular_quantile(point, 1.0) == pytest.approx(point.high, abs=slack)


@given(chances)
def test_a_value_without_range_is_itself_at_any_chance(chance):
    """Low, likely and high alike."""
    assert triangular_quantile(ThreePoint(7.0, 7.0, 7.0), chance) == 7.0


@pytest.mark.parametrize("chance", [-0.1, 1.1, math.nan])
def test_a_chance_lies_from_nought_to_one(chance):
    """80 typed for 0.80 is refused."""
    with pytest.raises(ValueError, match="a chance lies from 0 to 1"):
        triangular_quantile(ABC, chance)


def test_three_points_must_rise():
    """Likely above high is a slip of the pen."""
    with pytest.raises(ValueError, match=r"must rise, got 4\.0, 13\.0, 12\.0"):
        ThreePoint.checked(4.0, 13.0, 12.0)
    assert ThreePoint.checked(4.0, 6.0, 12.0) == ABC


def test_classic_pert_leans_on_the_likely_value():
    """By hand: (4 + 24 + 12) / 6 and (12 - 4) / 6."""
    assert pert_mean(ABC) == pytest.approx(40 / 6)
    assert pert_sd(ABC) == pytest.approx(8 / 6)


def test_independent_spreads_add_as_the_sides_of_a_right_angle():
    """Three and four make five."""
    assert independent_sd([3.0, 4.0]) == pytest.approx(5.0)
    assert independent_sd([]) == 0.0


@given(st.lists(points, max_size=6), chances)
def test_together_is_never_inside_the_straight_ends(estimates, chance):
    """A sum that goes wrong together runs from the sum of lows to the sum of highs."""
    value = together_quantile(estimates, chance)
    lows, highs = sum(p.low for p in estimates), sum(p.high for p in estimates)
    slack = 1e-9 * (1 + highs)

    assert lows - slack <= value <= highs + slack


@given(st.lists(points, max_size=6))
def test_the_mean_of_a_sum_is_the_sum_of_means(estimates):
    """Lows, likelies, highs and means each add up."""
    whole = total(estimated(p) for p in estimates)

    assert whole.low == pytest.approx(sum(p.low for p in estimates))
    assert whole.high == pytest.approx(sum(p.high for p in estimates))
    assert whole.mean == pytest.approx(sum(triangular_mean(p) for p in estimates))


def test_hours_times_rate_multiplies_end_by_end():
    """By hand: 4, 6, 12 hours (mean 22/3) at 30 an hour, known."""
    assert product(estimated(ABC), known(30.0)) == pytest.approx(Estimate(120, 180, 360, 220))


def test_a_product_of_negatives_is_refused():
    """Ends would change places."""
    with pytest.raises(ValueError, match="values of zero or more"):
        product(known(-1.0), known(2.0))
