"""Which sides the wind comes from, and how hard it blows from each."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind import directions, uk_annex

sides = st.floats(0.0, 359.0)
whole_sides = st.integers(0, 359).map(float)
"""A full turn on, these are the same number again: nothing is lost to rounding."""


def test_the_usual_directions_are_every_fifteen_degrees():
    """Twenty-four, from the street on."""
    found = directions.evenly(directions.USUAL)

    assert found[:3] == (0.0, 15.0, 30.0)
    assert len(found) == 24


def test_there_is_at_least_one_direction():
    """None at all would give no wind in silence."""
    with pytest.raises(ValueError, match="at least one"):
        directions.evenly(0)


@pytest.mark.parametrize(
    ("faces_deg", "direction_deg", "expected"),
    [(180.0, 0.0, 180.0), (180.0, 90.0, 90.0), (180.0, 270.0, 270.0), (0.0, 90.0, 270.0)],
)
def test_the_bearing_of_a_wind(faces_deg, direction_deg, expected):
    """Before a wall that looks south one looks north: from the right is from the east."""
    assert directions.bearing(faces_deg, direction_deg) == expected


@given(sides, sides)
def test_a_full_turn_changes_no_factor(faces_deg, direction_deg):
    """360 degrees on, wall or wind, the direction factor of the UK annex is the same."""
    found = uk_annex.direction_factor(directions.bearing(faces_deg, direction_deg))
    again = uk_annex.direction_factor(directions.bearing(faces_deg + 360.0, direction_deg - 360.0))

    assert found == pytest.approx(again)


def test_north_is_north_from_both_ends():
    """C_dir at 0 and at 360 degrees is one number: UK annex, 0.78."""
    assert uk_annex.direction_factor(0.0) == uk_annex.direction_factor(360.0) == 0.78


def test_between_two_stated_sides_the_larger_holds():
    """900 Pa from 0, 700 Pa from 90: 900 up to 90, 700 there, and 900 again back round to 0."""
    found = directions.stated_around({0.0: 900.0, 90.0: 700.0}, [0.0, 45.0, 90.0, 180.0, 359.0])

    assert found.tolist() == [900.0, 900.0, 700.0, 900.0, 900.0]


stated = st.dictionaries(whole_sides, st.floats(1.0, 3000.0), min_size=1, max_size=6)


@given(stated, whole_sides)
def test_stated_pressures_are_met_and_never_undercut(stated_pa, between_deg):
    """At its own side each holds; anywhere it is one of them, a full turn on the same."""
    at_own = directions.stated_around(stated_pa, list(stated_pa))
    between = directions.stated_around(stated_pa, [between_deg, between_deg + 360.0])

    assert at_own.tolist() == list(stated_pa.values())
    assert between[0] == between[1]
    assert between[0] in stated_pa.values()


def test_shares_of_a_speed_are_squared():
    """(4.10): half the speed is a quarter of the pressure."""
    values = np.array([0.5, 1.0])

    assert directions.shares(values) == (0.5, 1.0)
    assert directions.shares(values, 2.0) == (0.25, 1.0)
