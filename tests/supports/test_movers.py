"""Balance, torque and drive; worked values are in tests/published/test_brackets_hands.py."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from estimator.core.constants import GRAVITY_M_S2
from estimator.supports.movers import (
    axle_inertia,
    axle_torque,
    counterweight_kg,
    drive_torque,
    gravity_torque,
    greatest_gravity_torque,
    out_of_balance,
    stepping_torque,
    turned,
)

ACROSS, UP, OUT = np.eye(3)
AXLE = np.array([0.5, 1.0, 0.2])

vectors = arrays(float, 3, elements=st.integers(-20, 20).map(lambda n: n / 10))
axes = vectors.filter(np.any).map(lambda v: v / np.linalg.norm(v))
angles = arrays(float, 7, elements=st.floats(-7, 7))
masses = arrays(float, 4, elements=st.integers(1, 400).map(lambda n: n / 10))
centres = arrays(float, (4, 3), elements=st.integers(-20, 20).map(lambda n: n / 10))


def test_out_of_balance_lies_in_the_plane_of_turning():
    """Statics: what stands out along the axle turns nothing."""
    found = out_of_balance(np.array([2.0]), (AXLE + np.array([0.3, 0, 5]))[np.newaxis], AXLE, OUT)

    assert found == pytest.approx([0.6, 0, 0])


@given(masses, centres, axes)
def test_counterweight_balances(mass_kg, centre_m, axis):
    """Statics: with the counterweight opposite the heavy side nothing is left, 1e-9."""
    unbalance = out_of_balance(mass_kg, centre_m, AXLE, axis)
    size = np.linalg.norm(unbalance)
    opposite = -unbalance / max(size, 1e-12)
    extra_kg = counterweight_kg(unbalance, 0.4)

    left = out_of_balance(
        np.append(mass_kg, extra_kg), np.vstack([centre_m, AXLE + 0.4 * opposite]), AXLE, axis
    )

    assert left == pytest.approx(np.zeros(3), abs=1e-9 * (1 + size))


def test_counterweight_without_radius_is_refused():
    """Nothing balances at the axle."""
    with pytest.raises(ValueError, match="a counterweight needs a radius above zero"):
        counterweight_kg(UP, 0.0)


def test_turning_is_anticlockwise_seen_from_the_street():
    """Right-hand rule about out: twelve o'clock goes to nine, and three to twelve."""
    quarter = np.array([math.pi / 2])

    assert turned(UP, OUT, quarter) == pytest.approx(np.array([-ACROSS]))
    assert turned(ACROSS, OUT, quarter) == pytest.approx(np.array([UP]))


@given(vectors, axes, angles)
def test_turning_keeps_length_and_place_along_the_axis(vector, axis, angle_rad):
    """Geometry of a rotation."""
    found = turned(vector, axis, angle_rad)

    assert np.linalg.norm(found, axis=1) == pytest.approx(np.full(7, np.linalg.norm(vector)))
    assert found @ axis == pytest.approx(np.full(7, vector @ axis), abs=1e-9)


def test_heavy_hand_at_nine_turns_on_down():
    """Statics: past twelve towards nine, its weight turns it on, anticlockwise."""
    angle_rad = np.array([0, math.pi / 2, math.pi, -math.pi / 2])

    found = gravity_torque(2.0 * UP, OUT, angle_rad)

    assert found == pytest.approx(2 * GRAVITY_M_S2 * np.array([0, 1, 0, -1]), abs=1e-12)


@given(masses, centres, axes, angles)
def test_gravity_torque_is_the_moment_of_every_weight(mass_kg, centre_m, axis, angle_rad):
    """Statics: the same as turning each mass and adding up, and never above the greatest."""
    unbalance = out_of_balance(mass_kg, centre_m, AXLE, axis)
    each = [
        axle_torque(
            np.zeros(3), axis, turned(centre - AXLE, axis, angle_rad), -kg * GRAVITY_M_S2 * UP
        )
        for kg, centre in zip(mass_kg, centre_m, strict=True)
    ]

    found = gravity_torque(unbalance, axis, angle_rad)

    assert found == pytest.approx(sum(each), abs=1e-6)
    assert np.abs(found).max() <= greatest_gravity_torque(unbalance, axis) + 1e-6


def test_greatest_gravity_torque_is_reached():
    """On a sloping axle too: a turn right round comes within 1e-4 of the greatest."""
    axis = np.array([0, 0.6, 0.8])
    unbalance = 3.0 * ACROSS
    round_it = np.linspace(0, 2 * math.pi, 721)

    greatest = greatest_gravity_torque(unbalance, axis)

    assert gravity_torque(unbalance, axis, round_it).max() == pytest.approx(greatest, rel=1e-4)
    assert greatest == pytest.approx(3 * GRAVITY_M_S2 * 0.8)


def test_vane_on_an_upright_axle_feels_no_weight():
    """Statics: gravity is along the axle."""
    assert gravity_torque(5.0 * ACROSS, UP, np.array([0.3, 2.0])) == pytest.approx([0, 0])
    assert greatest_gravity_torque(5.0 * ACROSS, UP) == 0


def test_force_along_the_axle_turns_nothing():
    """Statics: exactly zero, wherever it acts, and however many forces."""
    found = axle_torque(AXLE, OUT, np.arange(12.0).reshape(2, 2, 3), 456.0 * OUT)

    assert found.shape == (2, 2)
    assert not found.any()


def test_wind_from_the_street_on_a_vane_arm():
    """Right-hand rule: pressed in at its right-hand end, a vane on an upright axle swings out."""
    found = axle_torque(np.zeros(3), UP, np.array([0.5, 0, 0]), np.array([0, 0, -100.0]))

    assert found == pytest.approx(50.0)


def test_inertia_of_point_masses():
    """Mass times radius squared; the place along the axle does not count."""
    found = axle_inertia(
        np.array([2.0, 3.0]),
        AXLE + np.array([(0.3, 0.4, 9), (0, -1, 0)]),
        np.zeros((2, 3, 3)),
        AXLE,
        OUT,
    )

    assert found == pytest.approx(2 * 0.25 + 3 * 1.0)


def test_drive_through_tackle_and_train():
    """Statics: two falls halve it, a mover twice as fast as the drum halves it, losses come off."""
    plain = drive_torque(40.0, 0.18)

    assert drive_torque(40.0, 0.18, falls=2) == pytest.approx(plain / 2)
    assert drive_torque(40.0, 0.18, ratio=2.0) == pytest.approx(plain / 2)
    assert drive_torque(40.0, 0.18, ratio=0.5, efficiency=0.7) == pytest.approx(plain * 1.4)


def test_drive_without_falls_is_refused():
    """A line that carries nothing drives nothing."""
    with pytest.raises(ValueError, match="falls and ratio must be above zero, got falls=0"):
        drive_torque(40.0, 0.18, falls=0)


def test_step_from_rest_to_rest():
    """Motion: at that torque for half the time, then against it, the angle is the step."""
    inertia, step_rad, time_s = 7.28, 0.1, 2.0

    acceleration = stepping_torque(inertia, step_rad, time_s) / inertia

    assert 2 * acceleration * (time_s / 2) ** 2 / 2 == pytest.approx(step_rad)
    with pytest.raises(ValueError, match="a step needs a time above zero"):
        stepping_torque(inertia, step_rad, 0.0)
