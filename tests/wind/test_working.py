"""Wind to work in: the Beaufort scale, gusts and the crane rule, as laws."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind.air import gust_factor
from estimator.wind.working import (
    LOWER_LIMITS_M_S,
    NAMES,
    beaufort,
    cautious_factor,
    lifting_factor,
    mean_of_gust,
    sail_area,
)


@given(st.floats(0.0, 60.0), st.floats(0.0, 10.0))
def test_more_wind_never_has_a_lower_force(speed_m_s, more_m_s):
    """The scale rises."""
    assert beaufort(speed_m_s + more_m_s) >= beaufort(speed_m_s)


def test_every_force_has_a_name():
    """Thirteen, from calm to hurricane."""
    assert len(NAMES) == len(LOWER_LIMITS_M_S) + 1
    assert NAMES[beaufort(0.0)] == "calm"
    assert NAMES[beaufort(100.0)] == "hurricane"


def test_a_wind_below_nothing_is_refused():
    """Not a number is no wind either."""
    for speed_m_s in (-0.1, math.nan):
        with pytest.raises(ValueError, match="zero or more"):
            beaufort(speed_m_s)


@given(st.floats(1.0, 60.0), st.floats(10.0, 200.0))
def test_a_mean_and_its_gust_go_there_and_back(mean_m_s, height_m):
    """The mean of the gust of a mean is that mean."""
    gust_m_s = gust_factor(height_m) * mean_m_s
    assert mean_of_gust(gust_m_s, height_m) == pytest.approx(mean_m_s, rel=1e-12)


@given(st.floats(1.0, 5000.0), st.floats(0.01, 100.0))
def test_the_factor_never_passes_one_and_the_cautious_one_never_passes_it(mass_kg, sail_m2):
    """Both are 1 for what has the sail of the chart; below, the root is the larger."""
    factor, cautious = lifting_factor(mass_kg, sail_m2), cautious_factor(mass_kg, sail_m2)

    assert 0 < cautious <= factor <= 1
    assert factor**2 == pytest.approx(cautious)


@given(st.floats(1.0, 5000.0))
def test_the_sail_of_the_chart_is_lifted_at_the_limit_of_the_chart(mass_kg):
    """1.2 m2 per tonne is what the chart is for."""
    assert lifting_factor(mass_kg, 1.2 * mass_kg / 1000) == pytest.approx(1.0)


def test_an_unknown_shape_is_the_worst():
    """2.4 without a word on the shape."""
    assert sail_area(3.0) == pytest.approx(7.2)
    assert sail_area(3.0) > sail_area(3.0, 2.0)


def test_a_load_without_mass_or_sail_is_refused():
    """Kilograms and square metres above nothing."""
    with pytest.raises(ValueError, match="mass_kg must be above zero"):
        lifting_factor(0.0, 1.0)
    with pytest.raises(ValueError, match="sail_m2 must be above zero"):
        cautious_factor(1.0, 0.0)
