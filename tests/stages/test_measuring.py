"""What parts measure: closed forms worked by hand, and how sizes scale."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.stages.measuring import pieces_of

SHEET = {"part": "P", "shape": "sheet", "length": "2 m", "width": "1 m"}
COPPER = {"made of": "copper", "gauge": "1 mm"}
BOX = {"part": "B", "shape": "box", "length": "1 m", "width": "500 mm", "depth": "200 mm"}
STEEL = {"made of": "mild steel"}


@pytest.fixture(scope="module")
def shapes(steps):
    """Return a function that measures parts."""
    return lambda *parts: steps(upto="shapes", parts=parts)["shapes"]


def test_one_face_and_the_solid(shapes):
    """One face of the sheet is 2 x 1 m, of the box length x width; its solid 1 x 0.5 x 0.2."""
    found = shapes(SHEET | COPPER, BOX | STEEL)

    assert found.skin_area_m2 == pytest.approx([2.0, 0.5])
    assert found.volume_m3 == pytest.approx([0.0, 0.1])


def test_relief_gains_skin_and_no_volume(shapes):
    """Hammering by 1.08 makes 8 % more skin; the core keeps its 0.1 m3."""
    found = shapes(SHEET | COPPER | {"relief": 1.08}, BOX | STEEL | {"relief": 1.08})

    assert found.skin_area_m2[0] == pytest.approx(2.16)
    assert found.volume_m3[1] == pytest.approx(0.1)


def test_cutting_away_takes_skin_and_volume(shapes):
    """With 45 % cut away 55 % is left: 2 x 0.55 and 0.1 x 0.55."""
    cut = {"cut away": "45 %"}
    found = shapes(SHEET | COPPER | cut, BOX | STEEL | cut)

    assert found.skin_area_m2[0] == pytest.approx(1.10)
    assert found.volume_m3[1] == pytest.approx(0.055)


def test_what_has_no_skin_measures_nothing(shapes):
    """A thing bought by the piece has neither face nor volume of its own."""
    found = shapes({"part": "L", "shape": "bought", "mass each": "2 kg"})

    assert found.skin_area_m2 == pytest.approx([0.0])
    assert found.volume_m3 == pytest.approx([0.0])


def test_copies_that_are_not_set_out_share_one_place(shapes):
    """Five alike in one place are one row of places, at the place that was typed."""
    places = shapes(SHEET | COPPER | {"count": 5, "across": "300 mm", "up": "-1 m"}).places

    assert places.part.tolist() == [0]
    assert places.at_m == pytest.approx(np.array([[0.3, -1.0, 0.0]]))


def test_a_ring_of_copies_stands_on_its_circle(shapes):
    """Four on a ring of 2 m, from 90 degrees anticlockwise: top, left, bottom, right."""
    ring = {"count": 4, "set out": "ring", "spread": "2 m", "start": "90 deg", "up": "3 m"}
    places = shapes(SHEET | COPPER | ring).places

    assert places.part.tolist() == [0, 0, 0, 0]
    expected = [(0, 4, 0), (-1, 3, 0), (0, 2, 0), (1, 3, 0)]
    assert places.at_m == pytest.approx(np.array(expected, dtype=float), abs=1e-12)


def test_lone_parts_and_rings_keep_their_rows(shapes):
    """Places of a lone part come with those of a ring, each with the row of its part."""
    ring = SHEET | COPPER | {"part": "R", "count": 3, "set out": "ring", "spread": "2 m"}
    places = shapes(ring, BOX | STEEL).places

    assert sorted(places.part.tolist()) == [0, 0, 0, 1]


def test_pieces_of_some_parts_only(steps):
    """Parts that are not kept give no pieces, and a shape without any is left out."""
    found = steps(upto="shapes", parts=[SHEET | COPPER, BOX | STEEL])
    keep = np.array([False, True])

    pieces = pieces_of(found["columns"], found["shapes"], keep)

    assert [piece.part.tolist() for piece in pieces] == [[1]]


SCALED = [  # shape, sizes in metres
    ("sheet", {"length": 0.8, "width": 0.5}),
    ("disc", {"diameter": 1.2, "bore": 0.3}),
    ("leaf", {"length": 0.9, "width": 0.2}),
    ("box", {"length": 0.4, "width": 0.3, "depth": 0.2}),
    ("cone", {"length": 0.6, "diameter": 0.15, "end diameter": 0.08}),
    ("sphere", {"diameter": 0.22}),
    ("dome", {"diameter": 2.4, "depth": 0.09}),
    ("ellipsoid", {"length": 0.9, "width": 0.4, "depth": 0.3}),
    ("torus", {"diameter": 1.0, "end diameter": 0.1}),
]


@pytest.mark.parametrize(("shape", "sizes"), SCALED)
@given(scale=st.floats(0.2, 5.0))
def test_area_grows_by_the_square_and_volume_by_the_cube(shapes, shape, sizes, scale):
    """Everything s times as large has s2 the skin and s3 the volume."""
    one, other = (
        {"part": name, "shape": shape, "made of": "copper", "gauge": "1 mm"}
        | {heading: f"{by * size!r} m" for heading, size in sizes.items()}
        for name, by in (("one", 1.0), ("other", scale))
    )
    found = shapes(one, other)

    area, volume = found.skin_area_m2, found.volume_m3
    assert area[1] == pytest.approx(scale**2 * area[0], rel=1e-9)
    assert volume[1] == pytest.approx(scale**3 * volume[0], rel=1e-9)
    assert area[0] > 0
    assert math.isfinite(volume[0])
