"""Swinging on a free axle: the statics of a pendulum in a side wind, worked by hand."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.core.constants import GRAVITY_M_S2
from estimator.supports.swinging import (
    Pendulum,
    Stops,
    leaned_rad,
    pendulum,
    stop_force,
    touching_share,
)

ACROSS, UP, OUT = np.eye(3)
DEG = math.pi / 180
HUNG = Pendulum(200.0, 0.0)
STOPS = Stops(-12 * DEG, 12 * DEG, 0.1)

pulls = st.floats(1.0, 1e4)
winds = st.floats(-1e5, 1e5)
leans = st.floats(-1.5, 1.5)


@pytest.mark.parametrize(
    ("unbalance_kgm", "axis", "plumb_deg"),
    [
        (-20 * UP, OUT, 0),
        (-20 * UP, ACROSS, 0),
        (20 * ACROSS, OUT, -90),
        (-20 * ACROSS, OUT, 90),
        (20 * OUT, ACROSS, 90),
        (20 * UP, OUT, 180),
    ],
)
def test_it_hangs_with_its_weight_below(unbalance_kgm, axis, plumb_deg):
    """Statics: 20 kg m turn back by 20 g; a heavy right side goes down clockwise, a quarter turn.

    About across a turn above nought carries the foot in to the wall, and so the front down.
    """
    found = pendulum(unbalance_kgm, axis)

    assert found.greatest_nm == pytest.approx(20 * GRAVITY_M_S2)
    assert math.cos(found.plumb_rad - plumb_deg * DEG) == pytest.approx(1.0)


@given(pulls, leans, st.floats(-1.0, 1.0))
def test_where_it_rests_weight_and_wind_balance(greatest_nm, plumb_rad, share):
    """Statics: the two torques are nought together, and a little further on it is turned back."""
    hung = Pendulum(greatest_nm, plumb_rad)

    rest_rad = leaned_rad(hung, share * greatest_nm)

    assert share * greatest_nm + hung.torque_nm(rest_rad) == pytest.approx(0, abs=1e-6)
    assert abs(rest_rad - plumb_rad) <= math.pi / 2 + 1e-9


def test_a_sign_leans_as_the_sine_of_wind_over_weight():
    """Half the greatest torque of the weight: the angle whose sine is 1/2."""
    assert leaned_rad(HUNG, 100.0) == pytest.approx(30 * DEG)
    assert leaned_rad(HUNG, -100.0) == pytest.approx(-30 * DEG)


@pytest.mark.parametrize("way", [-1.0, 1.0])
def test_more_wind_than_the_weight_can_hold_has_no_rest(way):
    """Beyond the greatest torque of the weight nothing but a stop holds it."""
    assert leaned_rad(HUNG, way * 200.1) == way * math.inf
    assert leaned_rad(Pendulum(0.0, 0.0), way) == way * math.inf


def test_what_is_in_balance_stays_where_it_is_without_wind():
    """Nothing turns it, so it is as drawn."""
    assert leaned_rad(Pendulum(0.0, 0.0), 0.0) == 0


def test_the_force_on_a_stop_by_hand():
    """300 Nm of wind less 200 sin 12 deg of weight, on an arm of 0.1 m: 2 584 N, on the lee side.

    sin 12 deg = 0.2079117 (five-figure tables).
    """
    found = stop_force(HUNG, STOPS, 300.0)

    assert found.high_n == pytest.approx((300 - 200 * 0.2079117) / 0.1, rel=1e-6)
    assert found.low_n == 0
    assert stop_force(HUNG, STOPS, -300.0) == (found.high_n, 0.0)


@given(pulls, leans, winds)
def test_the_stops_take_what_the_weight_does_not(greatest_nm, plumb_rad, wind_nm):
    """Statics: at the stop it lies against, wind, weight and stop are nought together."""
    hung = Pendulum(greatest_nm, plumb_rad)

    low_n, high_n = stop_force(hung, STOPS, wind_nm)

    for force_n, stop_rad, way in ((low_n, STOPS.low_rad, 1), (high_n, STOPS.high_rad, -1)):
        left_nm = wind_nm + hung.torque_nm(stop_rad) + way * force_n * STOPS.arm_m
        assert force_n == 0 or left_nm == pytest.approx(0, abs=1e-6)


@given(winds)
def test_a_stop_is_touched_when_the_free_angle_reaches_it(wind_nm):
    """What it rests at without stops, and the force on them, say the same."""
    free_rad = leaned_rad(HUNG, wind_nm)

    low_n, high_n = stop_force(HUNG, STOPS, wind_nm)

    assert (low_n > 1e-6) == (free_rad < STOPS.low_rad - 1e-9)
    assert (high_n > 1e-6) == (free_rad > STOPS.high_rad + 1e-9)


@given(winds.filter(lambda wind_nm: abs(wind_nm) > 1e-3))
def test_at_the_touching_share_the_stop_only_just_holds(wind_nm):
    """That share of the wind brings it to its stop, with no force on it."""
    share = touching_share(HUNG, STOPS, wind_nm)

    assert max(stop_force(HUNG, STOPS, share * wind_nm)) == pytest.approx(0, abs=1e-6)
    stop_rad = math.copysign(STOPS.high_rad, wind_nm)
    assert leaned_rad(HUNG, share * wind_nm) == pytest.approx(stop_rad)


def test_beyond_level_the_weight_helps_the_wind():
    """A stop at 150 degrees: once past 90 it falls to it, so 200 Nm are enough."""
    far = Stops(-1.0, 150 * DEG, 0.1)

    assert touching_share(HUNG, far, 400.0) == pytest.approx(0.5)
    assert stop_force(HUNG, far, 400.0).high_n == pytest.approx((400 - 100) / 0.1)


def test_what_leans_on_its_stop_needs_no_wind():
    """Plumb lies 30 degrees beyond the stop: 200 sin 30 deg = 100 Nm press on it in still air."""
    hung, stops = Pendulum(200.0, 0.0), Stops(-60 * DEG, -30 * DEG, 0.5)

    assert stop_force(hung, stops, 0.0).high_n == pytest.approx(200.0)
    assert touching_share(hung, stops, 10.0) == 0
    assert touching_share(hung, stops, 0.0) == math.inf


@pytest.mark.parametrize("stops", [Stops(-0.2, 0.2, 0.0), Stops(0.2, 0.2, 0.1)])
def test_stops_that_cannot_be_are_refused(stops):
    """Without an arm the force has no end; without room nothing swings."""
    with pytest.raises(ValueError, match="stops need an arm above zero and room"):
        stop_force(HUNG, stops, 1.0)
