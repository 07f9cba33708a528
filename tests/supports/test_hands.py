"""Laws of wind on a hand; worked values are in tests/published/test_brackets_hands.py."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.supports.hands import (
    Exposure,
    Hand,
    cupped_wind_torque,
    edge_wind_torque,
    face_wind,
    parts_in_wind,
    pitched_wind_torque,
    torque_cases,
)

hands = st.builds(
    Hand,
    blade_m=st.floats(0.2, 3),
    tail_m=st.floats(0, 1),
    width_m=st.floats(0.02, 0.4),
    thickness_m=st.floats(0.001, 0.05),
)
pressures = st.floats(10, 3000)


@given(hands, pressures, st.floats(0.1, 3))
def test_flat_hand_square_to_the_wind_never_turns(hand, pressure_pa, coefficient):
    """Statics: the force is parallel to the axle, whatever the balance; exactly 0."""
    assert face_wind(hand, coefficient, pressure_pa).axle_torque_nm == 0


@given(hands, pressures)
def test_hand_alike_on_both_sides_is_in_balance(hand, pressure_pa):
    """Statics: in an even wind a tail as long as the blade cancels it, on edge and on face."""
    alike = hand._replace(tail_m=hand.blade_m)

    assert edge_wind_torque(alike, 0.9, pressure_pa, pressure_pa) == 0
    assert pitched_wind_torque(alike, 2.0, 0.05, pressure_pa, pressure_pa) == 0


@given(hands, pressures, st.floats(0, math.pi / 2))
def test_torques_go_with_pressure_and_sine_of_the_pitch(hand, pressure_pa, pitch_rad):
    """Statics: linear in pressure, and in the sine of the pitch."""
    square = pitched_wind_torque(hand, 2.0, math.pi / 2, pressure_pa, 0.0)

    found = pitched_wind_torque(hand, 2.0, pitch_rad, 3 * pressure_pa, 0.0)

    assert found == pytest.approx(3 * square * math.sin(pitch_rad))


def test_gust_higher_up_turns_an_upright_hand():
    """Shear of the wind: the blade above feels more than the tail below, even if they are alike."""
    hand = Hand(1.0, 1.0, 0.1, 0.01)

    assert edge_wind_torque(hand, 0.9, 1000.0, 900.0) == pytest.approx(0.9 * 0.01 * 100 / 2)


def test_cups_alike_on_both_sides():
    """Half-tubes, 2.30 into the hollow and 1.20 on the back (drag tables): the difference turns.

    The coefficients are those of "Aeronautical Engineer's Data Book", Fig. 5.13(b), as quoted.
    """
    hand = Hand(1.0, 1.0, 0.1, 0.01)

    found = cupped_wind_torque(hand, 2.30, 1.20, 1000.0)

    assert found == pytest.approx((2.30 - 1.20) * 1000 * 0.1 / 2)


@given(hands, pressures)
def test_a_list_of_short_parts_is_a_hand(hand, pressure_pa):
    """The middle sum over 400 strips of the blade; exact for an even load but for rounding."""
    strips = 400
    length_m = hand.blade_m / strips
    radius_m = (np.arange(strips) + 0.5) * length_m
    area_m2 = np.full(strips, length_m * hand.thickness_m)

    torque_nm, side_n = parts_in_wind(pressure_pa, 0.9, area_m2, radius_m)

    assert torque_nm == pytest.approx(edge_wind_torque(hand, 0.9, pressure_pa, 0.0))
    assert side_n == pytest.approx(0.9 * pressure_pa * hand.blade_m * hand.thickness_m)


def test_cases_say_where_they_come_from():
    """Every case has its own name and a reason with the numbers it rests on."""
    hand = Hand(1.5, 0.4, 0.12, 0.006)
    cases = torque_cases(hand, Exposure(1000.0, 2.0, 0.9, math.radians(2), 0.01, 900.0))

    assert len({case.mechanism for case in cases}) == len(cases)
    assert "face twisted 2 deg; no wind on the tail" in [case.why for case in cases]
    assert cases[-1].why == "10 mm on the blade's face, hand level"
