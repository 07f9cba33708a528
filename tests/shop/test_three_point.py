"""Three-point estimates: the triangle integrated, and the laws of sums."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from estimator.shop.three_point import (
    Estimate,
    ThreePoint,
    estimated,
    known,
    product,
    total,
    triangular_mean,
)

points = st.tuples(*[st.floats(0.0, 1e4)] * 3).map(lambda values: ThreePoint(*sorted(values)))
ABC = ThreePoint(4.0, 6.0, 12.0)


def scipy_triangle(point):
    """Return the same distribution from scipy, which works it out in its own way."""
    span = point.high - point.low
    return stats.triang((point.likely - point.low) / span, loc=point.low, scale=span)


def test_mean_agrees_with_an_independent_implementation():
    """scipy.stats.triang for 4, 6, 12."""
    assert triangular_mean(ABC) == pytest.approx(scipy_triangle(ABC).mean())


def test_three_points_must_rise():
    """Likely above high is a slip of the pen."""
    with pytest.raises(ValueError, match=r"must rise, got 4\.0, 13\.0, 12\.0"):
        ThreePoint.checked(4.0, 13.0, 12.0)
    assert ThreePoint.checked(4.0, 6.0, 12.0) == ABC


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
