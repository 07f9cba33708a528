"""Gores: their length, width and area, and that they close the body they are cut for."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.geometry.gores import (
    ellipsoid_gores,
    girth_m,
    ring_gores,
    share_rad,
    spheroid_skin_m2,
)
from estimator.geometry.measures import Dims
from estimator.geometry.shapes import measure

lengths = st.floats(0.1, 3)
counts = st.integers(3, 60)


def skin_m2(axes_m):
    """Return the skin of an ellipsoid by its three axes."""
    dims = Dims.of(length_m=axes_m[0], width_m=axes_m[1], depth_m=axes_m[2])
    return measure("ellipsoid", dims).face.size[0]


def drawn_m2(gores):
    """Return the area between the edges of a gore as it is drawn, by the trapezoid rule."""
    return 2 * np.trapezoid(gores.half_m, gores.along_m)


def test_a_ball_in_twelve_gores():
    """Diameter 1 m: half a great circle long, a twelfth of it wide, together its surface."""
    gores = ellipsoid_gores((1.0, 1.0, 1.0), 12)

    assert gores.length_m == pytest.approx(np.pi / 2)
    assert gores.width_m == pytest.approx(np.pi / 12)
    assert 12 * gores.area_m2 == pytest.approx(np.pi)


def test_the_outline_of_a_gore_of_a_ball_is_a_cosine():
    """The width at a latitude is the girth there over the count."""
    gores = ellipsoid_gores((2.0, 2.0, 2.0), 8)
    along_m = np.array(gores.along_m)

    assert np.array(gores.half_m) == pytest.approx(np.pi / 8 * np.cos(along_m), abs=1e-9)


@given(st.tuples(lengths, lengths, lengths), counts, st.booleans())
def test_a_gore_has_the_area_that_is_drawn(axes_m, count, bent):
    """The closed form against the trapezoid rule over its own stations: half a per cent."""
    gores = ellipsoid_gores(axes_m, count, bent=bent)

    assert drawn_m2(gores) == pytest.approx(gores.area_m2, rel=5e-3)


@given(lengths, lengths, counts)
def test_gores_hammered_hollow_have_the_area_of_the_body(length_m, belt_m, count):
    """Of a body of revolution, however many there are: the first theorem of Pappus."""
    axes_m = (max(length_m, belt_m), min(length_m, belt_m), min(length_m, belt_m))

    assert count * ellipsoid_gores(axes_m, count).area_m2 == pytest.approx(skin_m2(axes_m))


@given(lengths, lengths, counts)
def test_bent_gores_come_nearer_to_the_body_the_more_there_are(length_m, belt_m, count):
    """They touch the body from outside: tan(pi/n) over pi/n too large, which goes to nothing."""
    axes_m = (max(length_m, belt_m), min(length_m, belt_m), min(length_m, belt_m))
    few, many = (
        n * ellipsoid_gores(axes_m, n, bent=True).area_m2 / skin_m2(axes_m)
        for n in (count, 2 * count)
    )

    assert 1 < many < few
    assert many - 1 < (few - 1) / 3.9  # the excess falls with the square of the count
    assert few - 1 == pytest.approx(np.tan(np.pi / count) / (np.pi / count) - 1, rel=1e-6)


@given(st.tuples(lengths, lengths, lengths))
def test_gores_of_a_body_that_is_not_round_are_near_its_area(axes_m):
    """Taken alike by the mean girth; up to 3 to 1 across they are within 7 %, a coin worst."""
    long_m, wide_m, thick_m = sorted(axes_m, reverse=True)
    thick_m = max(thick_m, wide_m / 3)
    axes_m = (long_m, wide_m, thick_m)

    assert 6 * ellipsoid_gores(axes_m, 6).area_m2 == pytest.approx(skin_m2(axes_m), rel=0.07)


@given(lengths, lengths)
def test_the_girth_of_an_ellipse(first_m, second_m):
    """Ramanujan's second approximation (from memory): better than 1 in 2000 to 10 to 1."""
    long_m, short_m = max(first_m, second_m), max(min(first_m, second_m), first_m / 10)
    long_m = max(long_m, short_m)
    a, b = long_m / 2, short_m / 2
    h = ((a - b) / (a + b)) ** 2
    expected_m = np.pi * (a + b) * (1 + 3 * h / (10 + np.sqrt(4 - 3 * h)))

    assert girth_m(long_m, short_m) == pytest.approx(expected_m, rel=5e-4)
    assert girth_m(short_m, long_m) == girth_m(long_m, short_m)


@given(lengths, lengths)
def test_the_skin_of_a_spheroid_is_that_of_an_ellipsoid(length_m, belt_m):
    """The elementary form against Carlson's integral."""
    long_m, belt_m = max(length_m, belt_m), min(length_m, belt_m)

    assert spheroid_skin_m2(long_m / 2, belt_m / 2) == pytest.approx(
        skin_m2((long_m, belt_m, belt_m)), rel=1e-9
    )


@given(lengths, st.floats(0.05, 0.45), counts)
def test_pieces_of_a_ring_have_the_area_of_its_skin(diameter_m, share, count):
    """And each is as drawn; mitred straight pieces of tube are larger by the same rule."""
    tube_m = share * diameter_m
    skin = measure("torus", Dims.of(diameter_m=diameter_m, end_diameter_m=tube_m)).face.size[0]
    hollow, bent = (ring_gores(diameter_m, tube_m, count, bent=b) for b in (False, True))

    assert count * hollow.area_m2 == pytest.approx(skin)
    assert drawn_m2(hollow) == pytest.approx(hollow.area_m2, rel=5e-3)
    assert bent.area_m2 / hollow.area_m2 == pytest.approx(np.tan(np.pi / count) / (np.pi / count))
    assert hollow.length_m == pytest.approx(np.pi * tube_m)


@given(counts)
def test_straight_pieces_of_tube_meet_on_the_outside_of_a_ring(count):
    """Their widest is the side of the polygon round the ring: 2 R tan(pi/n)."""
    bent = ring_gores(1.0, 0.1, count, bent=True)

    assert bent.width_m == pytest.approx(2 * 0.5 * np.tan(np.pi / count))


@pytest.mark.parametrize("count", [0, 1, 2])
def test_two_gores_close_nothing(count):
    """Their sides would never meet."""
    with pytest.raises(ValueError, match=f"3 gores or more, got {count}"):
        share_rad(count, bent=True)
