"""Laws of wind on a hand; worked values are in tests/published/test_brackets_hands.py."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.supports.hands import NO_SIDE, Side, face_wind, ice_torque, wind_torque

sides = st.builds(
    lambda area_m2, radius_m, beyond: Side(area_m2, radius_m, radius_m * (1 + beyond)),
    st.floats(1e-4, 1.0), st.floats(0.05, 2.0), st.floats(0.0, 1.0),
)  # fmt: skip
pushes = st.floats(1, 5000)


@given(sides, pushes)
def test_hand_alike_on_both_sides_is_in_balance(side, push_pa):
    """Statics: in an even wind a tail like the blade cancels it."""
    assert wind_torque(push_pa, side, side) == 0


@given(sides, sides, pushes, st.floats(0.1, 10))
def test_torques_go_with_the_push(blade, tail, push_pa, times):
    """Statics: linear in pressure and coefficient, and the same whichever side is called blade."""
    once = wind_torque(push_pa, blade, tail)

    assert wind_torque(times * push_pa, blade, tail) == pytest.approx(times * once)
    assert wind_torque(push_pa, tail, blade) == pytest.approx(once)
    assert once <= max(wind_torque(push_pa, blade), wind_torque(push_pa, tail))


@given(sides, pushes, st.floats(0.0, 1.0))
def test_gust_higher_up_turns_an_upright_hand(side, push_pa, share):
    """Shear of the wind: the blade above feels more than the tail below, even if they are alike."""
    found = wind_torque(push_pa, side, side, tail_share=share)

    assert found == pytest.approx((1 - share) * wind_torque(push_pa, side))


@given(sides, sides, pushes)
def test_wind_on_the_face_goes_with_area_and_moment(blade, tail, push_pa):
    """Statics: force by area, bending by the blade's area moment; without a blade nothing bends."""
    found = face_wind(blade, tail, push_pa)

    assert found.force_n == pytest.approx(push_pa * (blade.area_m2 + tail.area_m2))
    assert found.root_moment_nm == pytest.approx(wind_torque(push_pa, blade))
    assert face_wind(NO_SIDE, tail, push_pa)[1:] == (0, 0)


@given(sides, st.floats(0.001, 0.05))
def test_ice_weighs_on_the_blade_alone(blade, ice_m):
    """Statics: mass of the slab of ice times g times its radius; twice as thick, twice as much."""
    mass_kg = 900.0 * ice_m * blade.area_m2

    assert ice_torque(blade, ice_m, 900.0) == pytest.approx(mass_kg * 9.80665 * blade.radius_m)
    assert ice_torque(blade, 2 * ice_m, 900.0) == pytest.approx(2 * ice_torque(blade, ice_m, 900.0))
