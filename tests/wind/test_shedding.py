"""Vortices and galloping: laws, and the traps of widths and names."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind import shedding
from estimator.wind.shedding import (
    ROUND,
    SHARP,
    STROUHAL,
    critical_speed,
    galloping_factor,
    galloping_speed,
    met,
    scruton_number,
)

values = st.floats(0.01, 100.0)


@given(values, values, st.floats(1.1, 10.0))
def test_twice_as_wide_or_fast_needs_twice_the_wind(width_m, hz, times):
    """The speed b n / St goes with width and frequency alike."""
    found = critical_speed(width_m, hz, STROUHAL[ROUND])

    assert critical_speed(times * width_m, hz, STROUHAL[ROUND]) == pytest.approx(times * found)
    assert critical_speed(width_m, times * hz, STROUHAL[ROUND]) == pytest.approx(times * found)


def test_edges_need_more_wind_than_a_round_bar():
    """A lower Strouhal number means fewer vortices a second in the same wind."""
    assert critical_speed(0.05, 8.0, STROUHAL[SHARP]) > critical_speed(0.05, 8.0, STROUHAL[ROUND])


@given(values, values, values)
def test_galloping_begins_at_a_speed_that_mass_and_damping_set(mass_kg_m, width_m, hz):
    """2 Sc n b / a_G = 4 delta m n / (rho b a_G): wider is sooner for the same mass."""
    scruton = scruton_number(mass_kg_m, width_m, 0.02, 1.25)

    by_hand = 4 * 0.02 * mass_kg_m * hz / (1.25 * width_m * 1.2)
    assert galloping_speed(scruton, hz, width_m, 1.2) == pytest.approx(by_hand, rel=1e-9)


FACTORS = [(1 / 3, 0.4), (0.2, 0.4), (1.0, 1.2), (1.25, 1.45), (2.0, 2.0), (2.01, 10.0), (5, 10.0)]


@pytest.mark.parametrize(("ratio", "factor"), FACTORS)
def test_galloping_factor_of_a_rectangle(ratio, factor):
    """EN 1991-1-4 Table E.7, from memory: linear between its rows, cautious beyond the last."""
    assert galloping_factor(SHARP, ratio) == pytest.approx(factor)


def test_a_section_of_which_nothing_is_known_gets_the_cautious_factor():
    """An angle or channel has no depth over width; not a number must not slip through."""
    assert galloping_factor(SHARP, math.nan) == shedding.UNKNOWN_GALLOPING


def test_a_round_bar_does_not_gallop():
    """It feels the same from every side."""
    assert galloping_factor(ROUND, 1.0) is None


@pytest.mark.parametrize(("speed_m_s", "yes"), [(24.99, True), (25.0, False), (25.01, False)])
def test_the_margin(speed_m_s, yes):
    """EN 1991-1-4 E.1.2(2): not needed where v_crit > 1.25 v_m; 1.25 x 20 = 25 m/s."""
    assert met(speed_m_s, 20.0) is yes


def test_the_lines_say_how_sure_they_are():
    """5 Hz is from memory of EN 1991-1-4; 1 Hz was read as quoted from ASCE 7-16."""
    assert {line.hz: line.confirmed for line in shedding.LINES} == {5.0: False, 1.0: True}


def test_nothing_has_no_speed():
    """A width of nothing is a mistake, not a speed of nothing."""
    with pytest.raises(ValueError, match="width_m must be above zero"):
        critical_speed(0.0, 5.0, 0.18)
    with pytest.raises(ValueError, match="mass_kg_m must be above zero"):
        scruton_number(0.0, 0.1)
    with pytest.raises(ValueError, match="factor must be above zero"):
        galloping_speed(1.0, 5.0, 0.1, 0.0)
