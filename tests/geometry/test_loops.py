"""Outlines of flat pieces: how large they are, and how long a cut through them is."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.geometry import loops

lengths = st.floats(0.05, 3)


def area_m2(outline):
    """Return the area inside an odd number of loops, by the shoelace rule; none cross."""
    areas = []
    for loop in outline:
        x, y = np.array(loop).T
        areas.append(abs(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2)
    return areas[0] - sum(areas[1:])


SHAPES = [  # outline, length, width, area
    (loops.rectangle(2.0, 0.5), 2.0, 0.5, 1.0),
    (loops.oval(2.0, 1.0), 2.0, 1.0, np.pi / 2),
    (loops.oval(1.0, 1.0, 0.6), 1.0, 1.0, np.pi / 4 * (1 - 0.36)),
    # A quarter of a disc stands on its corner: as wide as its chord, as high as its radius.
    (loops.sector(1.0, 0.0, np.pi / 2), np.sqrt(2), 1.0, np.pi / 4),
    # From the chord of the inside arc, r cos 45, to the top of the outside one.
    (loops.sector(1.0, 0.5, np.pi / 2), np.sqrt(2), 1 - np.sqrt(0.125), np.pi / 4 * 0.75),
    # Three quarters reach back beyond the middle, and are as wide as the disc.
    (loops.sector(1.0, 0.0, 1.5 * np.pi), 2.0, 1 + np.sqrt(0.5), 0.75 * np.pi),
    (loops.sector(1.0, 0.5, 2 * np.pi), 2.0, 2.0, 0.75 * np.pi),
    (loops.spindle((0.0, 2.0), (0.5, 0.25)), 2.0, 1.0, 1.5),
]


@pytest.mark.parametrize(("outline", "length_m", "width_m", "expected_m2"), SHAPES)
def test_a_piece_lies_in_its_rectangle(outline, length_m, width_m, expected_m2):
    """By hand; polygons of 96 sides are 0.07 % smaller than a circle."""
    assert loops.size_m(outline) == pytest.approx((length_m, width_m), rel=1e-9)
    assert min(min(point) for loop in outline for point in loop) == pytest.approx(0.0, abs=1e-12)
    assert area_m2(outline) == pytest.approx(expected_m2, rel=1e-3)


CUTS = [  # outline, axis, at, length
    (loops.rectangle(2.0, 0.5), 0, 1.3, 0.5),
    (loops.rectangle(2.0, 0.5), 1, 0.2, 2.0),
    (loops.oval(1.0, 1.0), 0, 0.5, 1.0),
    (loops.oval(1.0, 1.0), 0, 0.8, 0.8),  # 3-4-5
    (loops.oval(1.0, 1.0, 0.6), 1, 0.5, 0.4),  # the hole is not cut
    (loops.oval(1.0, 1.0), 0, 1.5, 0.0),
]


@pytest.mark.parametrize(("outline", "axis", "at_m", "length_m"), CUTS)
def test_a_cut_is_as_long_as_it_is_inside(outline, axis, at_m, length_m):
    """By hand; a polygon of 96 sides lies within 0.06 % of its radius."""
    assert loops.crossing_m(outline, axis, at_m) == pytest.approx(length_m, abs=1.5e-3)


@given(lengths, lengths, st.floats(0.01, 0.99))
def test_cuts_add_up_to_the_area(length_m, width_m, start):
    """Cavalieri: many cuts side by side cover the piece."""
    outline = loops.oval(length_m, width_m)
    count = 400
    at_m = (np.arange(count) + start) * length_m / count

    found_m2 = sum(loops.crossing_m(outline, 0, float(at)) for at in at_m) * length_m / count

    assert found_m2 == pytest.approx(area_m2(outline), rel=5e-3)


@given(lengths, lengths, st.floats(0.1, 10))
def test_a_piece_scales(length_m, width_m, factor):
    """Lengths by the factor, areas by its square."""
    outline = loops.oval(length_m, width_m)
    larger = loops.scaled(outline, factor)

    assert loops.size_m(larger) == pytest.approx((factor * length_m, factor * width_m))
    assert area_m2(larger) == pytest.approx(factor**2 * area_m2(outline))
