"""Hands and pointers against plain statics; no published rule for wind torque was found.

[STATICS] Sums worked apart from this program from the inputs shown, to the digits shown: balance,
          edge wind on a list of parts, drum torque, inertia of a slender bar (textbook statics
          and dynamics).
[DERIVED] A set of mechanisms of wind and ice on a straight hand, worked apart from this program
          and given to three figures, so 0.5 %: blade 1.5 m, tail 0.4 m, width 0.12 m, edge 6 mm,
          pressure 1000 Pa, force coefficient 2.0 on the face and 0.9 on the edge
          (EN 1991-1-4:2005, 7.6: a rectangle ten times as deep as wide), eccentricity 0.25 of
          the width (7.4.3). The ice is glaze of 900 kg/m3 (from memory, ISO 12494).
"""

import math

import numpy as np
import pytest

from estimator.supports.hands import Side, face_wind, ice_torque, wind_torque
from estimator.supports.movers import (
    axle_inertia,
    counterweight_kg,
    drive_torque,
    gravity_torque,
    greatest_gravity_torque,
    out_of_balance,
)

FACE = Side(1.5 * 0.12, 0.75, 1.5), Side(0.4 * 0.12, 0.2, 0.4)
EDGE = Side(1.5 * 0.006, 0.75, 1.5), Side(0.4 * 0.006, 0.2, 0.4)
Q_PA = 1000.0
OUT = np.array([0.0, 0.0, 1.0])
AXLE = np.zeros(3)


def unbalance(*masses_at):
    """Return the out-of-balance of (kg, m up the hand) pairs, the hand at twelve o'clock."""
    mass_kg, up_m = np.transpose(masses_at)
    return out_of_balance(mass_kg, np.outer(up_m, [0, 1, 0]), AXLE, OUT)


@pytest.mark.parametrize(
    ("counterweight", "torque_nm"), [(0.0, 85.121722), (20.0, 16.475172), (24.8, 0.0)]
)
def test_blade_and_counterweight(counterweight, torque_nm):
    """[STATICS] 14 kg at 0.62 m against an arm of 0.35 m; torque level, at three o'clock."""
    moment_kgm = unbalance((14, 0.62), (counterweight, -0.35))
    at_three = np.array([-math.pi / 2])

    assert counterweight_kg(unbalance((14, 0.62)), 0.35) == pytest.approx(24.8, rel=1e-9)
    assert gravity_torque(moment_kgm, OUT, at_three) == pytest.approx([-torque_nm], abs=1e-6)
    assert greatest_gravity_torque(moment_kgm, OUT) == pytest.approx(torque_nm, abs=1e-6)


def test_edge_wind_on_a_list_of_parts():
    """[STATICS] 600 Pa, coefficient 1.8; 0.04 m2 on the tail's side works against the rest."""
    area_m2 = np.array([0.05, 0.06, 0.05, 0.03, 0.04])
    radius_m = np.array([0.2, 0.6, 1.0, 1.4, -0.3])

    blade = Side(area_m2[:4].sum(), np.average(radius_m[:4], weights=area_m2[:4]), 1.4)

    found = wind_torque(600.0 * 1.8, blade, Side(area_m2[4], -radius_m[4], 0.3))

    assert found == pytest.approx(136.08, rel=1e-9)


def test_drive_weight_on_a_drum():
    """[STATICS] 40 kg on a drum 0.18 m in diameter, a single fall."""
    assert drive_torque(40.0, 0.18) == pytest.approx(35.303940, rel=1e-9)


def test_inertia_of_a_slender_hand():
    """[STATICS] 14 kg, 1.8 m long, pivoted 0.4 m from the end of its tail: 7.28 kg m2."""
    own = np.diag([14 * 1.8**2 / 12, 0.0, 14 * 1.8**2 / 12])

    found = axle_inertia(np.array([14.0]), np.array([[0, 0.5, 0]]), own[np.newaxis], AXLE, OUT)

    assert found == pytest.approx(7.28, rel=1e-9)


def test_face_wind():
    """[DERIVED] 456 N, 270 N m at the root, 10.8 N m of twist, and no torque at all."""
    assert face_wind(*FACE, 2.0 * Q_PA) == pytest.approx((456, 270, 10.8), rel=5e-3)


MECHANISMS = [
    ("wind square to a flat hand", FACE, 2.0 * math.sin(0.0), 0.0),
    ("edge wind, even", EDGE, 0.9, 5.64),
    ("edge wind, on the blade alone", EDGE[:1], 0.9, 6.08),
    ("twisted by 2 degrees, even", FACE, 2.0 * math.sin(math.radians(2)), 8.75),
    ("twisted by 2 degrees, on the blade alone", FACE[:1], 2.0 * math.sin(math.radians(2)), 9.42),
]


@pytest.mark.parametrize(("mechanism", "sides", "coefficient", "torque_nm"), MECHANISMS)
def test_wind_on_the_hand(mechanism, sides, coefficient, torque_nm):
    """[DERIVED] An even wind, and a gust on the blade alone; nothing on a flat hand, exactly."""
    found = wind_torque(coefficient * Q_PA, *sides)

    assert found == pytest.approx(torque_nm, rel=5e-3, abs=0), mechanism


def test_ice_on_the_blade():
    """[DERIVED] 10 mm of glaze on the face of the blade."""
    assert ice_torque(FACE[0], 0.010, 900.0) == pytest.approx(11.9, rel=5e-3)
