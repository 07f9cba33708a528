"""Closed forms of sections against the laws they must keep."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.reference.profiles import (
    box_tube,
    corner_radii_mm,
    flat_bar,
    round_bar,
    round_tube,
)

sizes = st.floats(30, 200)
walls = st.floats(1, 5)


@given(sizes, sizes, walls, st.floats(0.2, 5))
def test_a_section_scales_with_its_size(h_mm, b_mm, wall_mm, scale):
    """Areas go with the square, inertias with the fourth power, moduli with the cube.

    Walls stay in one class of corner radii, where the drawing is similar.
    """
    small = box_tube(h_mm, b_mm, 1.0)
    large = box_tube(h_mm * scale, b_mm * scale, scale)

    assert large.area_mm2 == pytest.approx(small.area_mm2 * scale**2)
    assert large.iy_mm4 == pytest.approx(small.iy_mm4 * scale**4)
    assert large.it_mm4 == pytest.approx(small.it_mm4 * scale**4)
    assert large.wel_z_mm3 == pytest.approx(small.wel_z_mm3 * scale**3)
    assert box_tube(h_mm, b_mm, wall_mm).area_mm2 < h_mm * b_mm


@given(sizes, sizes, walls)
def test_turning_a_section_swaps_its_axes(h_mm, b_mm, wall_mm):
    """Height and width, y and z change places; area and torsion stay."""
    upright, lying = box_tube(h_mm, b_mm, wall_mm), box_tube(b_mm, h_mm, wall_mm)

    assert upright.iy_mm4 == pytest.approx(lying.iz_mm4)
    assert upright.wel_z_mm3 == pytest.approx(lying.wel_y_mm3)
    assert upright.area_mm2 == pytest.approx(lying.area_mm2)
    assert upright.it_mm4 == pytest.approx(lying.it_mm4)


@given(sizes, walls)
def test_a_tube_is_a_bar_less_its_bore(diameter_mm, wall_mm):
    """Area, inertia and torsion of the hole are taken away."""
    tube = round_tube(diameter_mm, wall_mm)
    bar, hole = round_bar(diameter_mm), round_bar(diameter_mm - 2 * wall_mm)

    assert tube.area_mm2 == pytest.approx(bar.area_mm2 - hole.area_mm2)
    assert tube.iy_mm4 == pytest.approx(bar.iy_mm4 - hole.iy_mm4)
    assert tube.it_mm4 == pytest.approx(2 * tube.iy_mm4)


def test_rounded_corners_take_from_the_square():
    """Against adding up thin strips of the section numerically: area and inertia."""
    h_mm, b_mm, t_mm = 60.0, 40.0, 4.0
    outer_mm, inner_mm = corner_radii_mm(t_mm)

    def width(y_mm, h_mm, b_mm, radius_mm):
        into = y_mm - (h_mm / 2 - radius_mm)
        cut = radius_mm - (radius_mm**2 - into**2) ** 0.5 if into > 0 else 0.0
        return b_mm - 2 * cut

    strips, area_mm2, iy_mm4 = 60_000, 0.0, 0.0
    for strip in range(strips):
        y_mm = (strip + 0.5) * h_mm / 2 / strips
        solid = width(y_mm, h_mm, b_mm, outer_mm)
        if y_mm < h_mm / 2 - t_mm:
            solid -= width(y_mm, h_mm - 2 * t_mm, b_mm - 2 * t_mm, inner_mm)
        area_mm2 += 2 * solid * h_mm / 2 / strips
        iy_mm4 += 2 * solid * y_mm**2 * h_mm / 2 / strips

    profile = box_tube(h_mm, b_mm, t_mm)
    assert profile.area_mm2 == pytest.approx(area_mm2, rel=1e-5)
    assert profile.iy_mm4 == pytest.approx(iy_mm4, rel=1e-5)


def test_a_square_bar_twists_as_saint_venant_found():
    """0.1406 a4: S. Timoshenko, Theory of Elasticity, table for rectangles (from memory)."""
    assert flat_bar(10, 10).it_mm4 == pytest.approx(0.1406e4, rel=0.005)


def test_a_thin_strip_twists_as_a_third_of_its_wall():
    """One third of b t3 is the limit of a very thin rectangle."""
    assert flat_bar(1000, 1).it_mm4 == pytest.approx(1000 / 3, rel=1e-3)


@pytest.mark.parametrize(("wall_mm", "outer", "inner"), [(6, 2, 1), (8, 2.5, 1.5), (12, 3, 2)])
def test_corner_radii_grow_with_the_wall(wall_mm, outer, inner):
    """EN 10219-2 in three classes (from memory)."""
    assert corner_radii_mm(wall_mm) == (outer * wall_mm, inner * wall_mm)


def test_girth_is_the_outline_that_paint_covers():
    """A flat has four sides; a round its circumference; a box loses a little at the corners."""
    assert flat_bar(50, 6).girth_mm == 112
    assert round_bar(20).girth_mm == pytest.approx(20 * pi)
    assert box_tube(60, 60, 4).girth_mm == pytest.approx(240 - 16 * (4 - pi))
