"""Forces and moments of wind: directions by hand, and laws for every direction."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind.coefficients import entered
from estimator.wind.figures import (
    crosswind,
    eccentric_cases,
    moment_about,
    travel,
    wind_force,
)

directions = st.floats(0.0, 2 * np.pi)
amounts = st.floats(0.01, 1e3)
parts = st.floats(-1.0, 1.0)


@pytest.mark.parametrize(
    ("direction_deg", "goes", "right"),
    [
        (0, (0, 0, -1), (1, 0, 0)),
        (90, (-1, 0, 0), (0, 0, -1)),
        (180, (0, 0, 1), (-1, 0, 0)),
        (270, (1, 0, 0), (0, 0, 1)),
    ],
)
def test_wind_blows_from_its_side(direction_deg, goes, right):
    """0 from the street, 90 from the right, 180 from behind, 270 from the left."""
    assert travel(np.deg2rad(direction_deg)) == pytest.approx(goes, abs=1e-12)
    assert crosswind(np.deg2rad(direction_deg)) == pytest.approx(right, abs=1e-12)


@given(directions)
def test_right_of_the_wind_is_level_and_square_to_it(direction_rad):
    """Travel, up and right of the wind are right-handed: up is right crossed with travel."""
    up = np.cross(crosswind(direction_rad), travel(direction_rad))

    assert up == pytest.approx([0.0, 1.0, 0.0], abs=1e-12)


@given(amounts, amounts, amounts, directions)
def test_force_goes_with_pressure_and_area(pressure_pa, area_m2, factor, direction_rad):
    """(5.3): double any of them and the force doubles; its length is their product."""
    force_n = wind_force(pressure_pa, 1.8, area_m2, direction_rad)

    assert np.linalg.norm(force_n) == pytest.approx(1.8 * pressure_pa * area_m2)
    assert wind_force(factor * pressure_pa, 1.8, area_m2, direction_rad) == pytest.approx(
        factor * force_n
    )
    assert wind_force(pressure_pa, 1.8, factor * area_m2, direction_rad) == pytest.approx(
        factor * force_n
    )
    assert wind_force(pressure_pa, 1.8, area_m2, direction_rad, factor) == pytest.approx(
        factor * force_n
    )


@given(directions)
def test_reversing_the_wind_reverses_the_force(direction_rad):
    """The same outline feels the same force the other way."""
    back_n = wind_force(900.0, 1.8, 2.0, direction_rad + np.pi)

    assert back_n == pytest.approx(-wind_force(900.0, 1.8, 2.0, direction_rad), abs=1e-9)


@given(st.tuples(parts, parts, parts), st.tuples(parts, parts, parts), directions)
def test_moment_shifts_with_its_datum(point_m, datum_m, direction_rad):
    """Varignon: moving the datum adds the shift crossed with the force."""
    force_n = wind_force(500.0, 1.3, 1.0, direction_rad)
    about_datum = moment_about(datum_m, point_m, force_n)
    about_zero = moment_about((0, 0, 0), point_m, force_n)

    assert about_datum == pytest.approx(about_zero - np.cross(datum_m, force_n), abs=1e-9)
    assert about_datum @ force_n == pytest.approx(0.0, abs=1e-6)


def test_moment_signs_by_hand():
    """100 N into the wall, 2 m up: about across -200 Nm, tipping the top towards the wall."""
    assert moment_about((0, 0, 0), (0.0, 2.0, 0.0), (0.0, 0.0, -100.0)) == pytest.approx(
        [-200.0, 0.0, 0.0]
    )


def test_a_board_takes_its_force_off_centre_too():
    """EN 1991-1-4 7.4.3(3): a quarter of 2 m to the right and to the left, as large each time."""
    board = entered(1.8, "EN 1991-1-4 7.4.3")

    found = eccentric_cases(board, 2.0)
    assert [case.right_m for case in found] == pytest.approx([0.0, 0.5, -0.5])
    assert {(case.coefficient, case.up_m) for case in found} == {(1.8, 0.0)}
