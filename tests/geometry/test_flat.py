"""Flat shapes: closed forms and special cases.

[CRC] CRC Standard Mathematical Tables, geometry: areas and centroids of plane figures (the
      formulas quoted here are from memory).
"""

import numpy as np
import pytest

from estimator.geometry.measures import Dims
from estimator.geometry.shapes import measure


def test_a_half_ring_hangs_below_its_centre():
    """[CRC] the centroid of a semicircle is 4 r / 3 pi from its diameter.

    In the shape's own frame the envelope is r high with its middle r / 2 below the diameter.
    """
    measures = measure("sector", Dims.of(diameter_m=2.0, angle_rad=np.pi))

    assert measures.box_m[0] == pytest.approx([2.0, 1.0, 0.0])
    assert measures.face.size == pytest.approx([np.pi / 2])
    assert measures.face.middle_m[0] == pytest.approx([0, 0.5 - 4 / (3 * np.pi), 0])


def test_the_length_of_a_half_ring_hangs_lower_than_its_face():
    """[CRC] the centroid of a semicircular arc is 2 r / pi from its diameter."""
    line = measure("sector", Dims.of(diameter_m=2.0, bore_m=1.0, angle_rad=np.pi)).line

    assert line.size == pytest.approx([0.75 * np.pi])
    assert line.middle_m[0, 1] == pytest.approx(0.5 - 2 * 0.75 / np.pi)
    assert line.second_m2[0, 0, 0] == pytest.approx(0.75**2 / 2)


@pytest.mark.parametrize("bore_m", [0.0, 0.7])
def test_a_sector_all_the_way_round_is_a_ring(bore_m):
    """360 degrees close the ring, and its middle is the centre."""
    turned = measure("sector", Dims.of(diameter_m=1.0, bore_m=bore_m, angle_rad=2 * np.pi))
    closed = measure("disc", Dims.of(diameter_m=1.0, bore_m=bore_m))

    for part, whole in zip(turned.face, closed.face, strict=True):
        assert part == pytest.approx(whole, abs=1e-12)
    assert turned.box_m == pytest.approx(closed.box_m)


def test_a_wide_sector_reaches_above_its_centre():
    """At 270 degrees the outer corners stand at r / sqrt 2 above, and the breadth is full."""
    box_m = measure("sector", Dims.of(diameter_m=2.0, bore_m=1.0, angle_rad=1.5 * np.pi)).box_m

    assert box_m[0] == pytest.approx([2.0, 1.0 + np.sqrt(0.5), 0.0])


def test_a_narrow_sector_ends_at_its_bore():
    """At 60 degrees the highest corners are on the bore, and the breadth is the chord."""
    box_m = measure("sector", Dims.of(diameter_m=2.0, bore_m=1.0, angle_rad=np.pi / 3)).box_m

    assert box_m[0] == pytest.approx([1.0, 1.0 - 0.5 * np.cos(np.pi / 6), 0.0])


def test_a_pointed_blade_balances_a_third_from_its_root():
    """[CRC] a triangle; a blank end width is a point."""
    measures = measure("blade", Dims.of(length_m=1.2, width_m=0.1))

    assert measures.face.size == pytest.approx([0.06])
    assert measures.face.middle_m[0] == pytest.approx([-0.2, 0, 0])


def test_a_blade_of_one_width_is_a_sheet():
    """Without a taper nothing is left of it."""
    blade = measure("blade", Dims.of(length_m=1.2, width_m=0.1, end_width_m=0.1))
    sheet = measure("sheet", Dims.of(length_m=1.2, width_m=0.1))

    for one, other in zip(blade.face, sheet.face, strict=True):
        assert one == pytest.approx(other, abs=1e-15)


def test_a_leaf_covers_two_thirds_of_its_rectangle():
    """[CRC] Archimedes' parabola, twice."""
    assert measure("leaf", Dims.of(length_m=0.9, width_m=0.2)).face.size == pytest.approx([0.12])


def test_the_length_of_a_ring_is_its_middle_circle():
    """A ring 1.0 over 0.8 is 0.9 pi long."""
    assert measure("ring", Dims.of(diameter_m=1.0, bore_m=0.8)).line.size == pytest.approx(
        [0.9 * np.pi]
    )
