"""Rectangles on the wall face."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point, box

from estimator.geometry.rectangles import Rectangle, inside_by

WALL = Rectangle(-0.3, 0.0, 0.3, 0.4)
PLACES = [  # by hand: to the nearest side from within, minus the shortest way from without
    ((0.0, 0.1), 0.1),
    ((0.25, 0.2), 0.05),
    ((0.3, 0.2), 0.0),
    ((0.5, 0.2), -0.2),
    ((0.6, 0.8), -0.5),
    ((-0.3, -0.1), -0.1),
]


@pytest.mark.parametrize(("at_m", "expected_m"), PLACES)
def test_how_far_a_place_is_inside(at_m, expected_m):
    """Nought on a side; a corner is passed at 3, 4, 5."""
    assert inside_by(at_m, WALL) == pytest.approx(expected_m, abs=1e-15)


@given(st.floats(-2, 2), st.floats(-2, 2))
def test_the_distance_is_that_of_another_library(across_m, up_m):
    """Shapely measures to the ring of the same rectangle; it gives no sign."""
    ring = box(*WALL).exterior

    found = inside_by((across_m, up_m), WALL)

    assert abs(found) == pytest.approx(ring.distance(Point(across_m, up_m)), abs=1e-12)
    assert math.copysign(1, found) > 0 or not box(*WALL).contains(Point(across_m, up_m))
