"""Loops to one shape with holes, and its area, middle and second moments.

Closed forms of circle, ellipse, annulus and half disc are textbook mechanics: a circle of radius r
has r^2 / 4 about each diameter, an ellipse a^2 / 4 and b^2 / 4, a half disc its middle 4 r / 3 pi
from its straight side. A polygon of n corners in a circle falls short of it by no more than
(2 pi / n)^2 / 6 in area; five times that is allowed for moments.
"""

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import dblquad

from estimator.geometry import flat, outlines
from estimator.geometry.joining import JOIN_M
from estimator.geometry.measures import Dims
from estimator.geometry.outlines import (
    MOST_MEETINGS,
    moments,
    nested,
    outline_measures,
    perimeter_m,
    traced,
)

CORNERS = 720
ROUND = 5 * (2 * math.pi / CORNERS) ** 2 / 6
SQUARE = np.array([[0, 0], [1, 0], [1, 1], [0, 1], [0, 0.0]])


def _ellipse(a, b=None, middle=(0, 0)):
    angle_rad = np.linspace(0, 2 * np.pi, CORNERS + 1)
    at = np.column_stack((a * np.cos(angle_rad), (b or a) * np.sin(angle_rad))) + middle
    at[-1] = at[0]
    return at


def _measured(*lines):
    """Return area, middle and the three mean squares of what lines enclose."""
    found = traced(lines)
    assert not found.outline.is_empty
    face = outline_measures(found.outline).face
    second = face.second_m2[0]
    return face.size[0], face.middle_m[0, :2], (second[0, 0], second[1, 1], second[0, 1])


CLOSED = [
    ((_ellipse(2),), 4 * math.pi, (0, 0), (1, 1, 0)),
    ((_ellipse(3, 1, (5, 7)),), 3 * math.pi, (5, 7), (9 / 4, 1 / 4, 0)),
    ((_ellipse(2), _ellipse(1)[::-1]), 3 * math.pi, (0, 0), (5 / 4, 5 / 4, 0)),
    ((np.concatenate((_ellipse(2)[: CORNERS // 2 + 1], [[2, 0]])),), 2 * math.pi,
     (0, 8 / 3 / math.pi), (1, 1 - (8 / 3 / math.pi) ** 2, 0)),
    ((np.array([[0, 0], [3, 0], [0, 6], [0, 0.0]]),), 9, (1, 2), (1 / 2, 2, -1 / 2)),
    ((SQUARE, SQUARE + np.array([3, 0])), 2, (2, 0.5), (1 / 12 + 9 / 4, 1 / 12, 0)),
]  # fmt: skip
"""Circle, ellipse, annulus, half disc, right triangle, two squares side by side."""


@pytest.mark.parametrize(("lines", "area", "middle", "squares"), CLOSED, ids=range(len(CLOSED)))
def test_closed_forms(lines, area, middle, squares):
    """Area, middle, and mean of x x^T about it."""
    found = _measured(*lines)

    assert found[0] == pytest.approx(area, rel=ROUND)
    assert found[1] == pytest.approx(middle, rel=ROUND, abs=ROUND)
    assert found[2] == pytest.approx(squares, rel=ROUND, abs=ROUND)


def test_a_sheet_is_an_outline():
    """Every region of a rectangle, but for the line, which an outline does not have."""
    own = flat.sheet(Dims.of(length_m=1.0, width_m=1.0))

    found = outline_measures(traced([SQUARE - 0.5]).outline)

    assert found.line is None
    assert found.box_m == pytest.approx(own.box_m)
    for name in ("each", "face", "faces", "outside"):
        for mine, other in zip(getattr(found, name), getattr(own, name), strict=True):
            assert mine == pytest.approx(other, abs=1e-15)


def test_moments_by_quadrature():
    """A wavy outline against the double integral over it in polar coordinates."""

    def radius(t):
        return 1 + 0.3 * math.cos(3 * t) + 0.1 * math.sin(t)

    def integral(power):
        value, _ = dblquad(
            lambda r, t: r * (r * math.cos(t)) ** power[0] * (r * math.sin(t)) ** power[1],
            0, 2 * math.pi, 0, radius, epsabs=1e-7,
        )  # fmt: skip
        return value

    angle_rad = np.linspace(0, 2 * np.pi, 4000, endpoint=False)
    r = np.array([radius(t) for t in angle_rad])
    loop = np.column_stack((r * np.cos(angle_rad), r * np.sin(angle_rad)))

    found = moments(shapely.MultiPolygon([shapely.Polygon(loop)]))

    assert found.area_m2 == pytest.approx(integral((0, 0)), rel=1e-5)
    assert found.first_m3 == pytest.approx([integral((1, 0)), integral((0, 1))], abs=1e-5)
    xx, yy, xy = integral((2, 0)), integral((0, 2)), integral((1, 1))
    assert found.second_m4 == pytest.approx(np.array([[xx, xy], [xy, yy]]), abs=1e-5)


def test_direction_of_loops_does_not_matter():
    """Outer loops and holes may run either way."""
    outer, hole = shapely.LinearRing(SQUARE), shapely.LinearRing(SQUARE / 2 + 0.25)
    ways = [
        moments(shapely.MultiPolygon([shapely.Polygon(o, [h])]))
        for o in (outer, outer.reverse())
        for h in (hole, hole.reverse())
    ]

    assert {found.area_m2 for found in ways} == {0.75}
    assert np.ptp([found.second_m4 for found in ways], axis=0).max() == 0


radii = st.lists(st.floats(0.2, 2), min_size=3, max_size=12)
angles = st.floats(-math.pi, math.pi)
steps = st.floats(-20, 20)


def _star(radii):
    angle_rad = np.linspace(0, 2 * np.pi, len(radii), endpoint=False)
    at = np.column_stack((np.cos(angle_rad), np.sin(angle_rad))) * np.array(radii)[:, None]
    return np.concatenate((at, at[:1]))


@given(radii, angles, steps, steps, st.floats(0.2, 50), st.booleans())
def test_a_shape_that_is_moved_measures_the_same(radii, angle_rad, x, y, scale, mirrored):
    """Areas go with the square of the scale, second moments turn with the shape."""
    c, s = math.cos(angle_rad), math.sin(angle_rad)
    linear = scale * np.array([[c, -s], [s, c]]) @ np.diag([1, -1 if mirrored else 1])
    area, middle, squares = _measured(_star(radii))
    second = np.array([[squares[0], squares[2]], [squares[2], squares[1]]])

    found = _measured(_star(radii) @ linear.T + [x, y])

    assert found[0] == pytest.approx(scale**2 * area, rel=1e-9)
    assert found[1] == pytest.approx(linear @ middle + [x, y], abs=1e-9 * scale + 1e-12)
    turned = linear @ second @ linear.T
    assert found[2] == pytest.approx((turned[0, 0], turned[1, 1], turned[0, 1]),
                                     rel=1e-9, abs=1e-9 * scale**2)  # fmt: skip


@given(radii, st.floats(0.05, 0.9))
def test_a_shape_and_what_was_cut_out_of_it_make_the_whole(radii, share):
    """Area, first and second moments add up."""
    outer, inner = _star(radii), share * _star(radii)
    assume(share > 0.1)
    whole, cut, ring = (
        moments(traced(lines).outline) for lines in ([outer], [inner], [outer, inner])
    )

    for together, one, other in zip(whole, cut, ring, strict=True):
        assert np.asarray(one) + other == pytest.approx(np.asarray(together), abs=1e-12)


def test_far_from_the_origin_no_digits_are_lost():
    """A square metre a hundred kilometres off: as map coordinates would have it."""
    area, middle, squares = _measured(SQUARE + np.array([1e5, -1e5]))

    assert area == pytest.approx(1.0, rel=1e-9)
    assert middle == pytest.approx([1e5 + 0.5, -1e5 + 0.5])
    assert squares == pytest.approx((1 / 12, 1 / 12, 0), abs=1e-9)


def test_holes_islands_and_holes_in_them():
    """Squares within squares, in any order: metal and air take turns."""
    sizes = (9, 7, 5, 3, 1)
    rings = [(SQUARE - 0.5) * size for size in sizes]
    beside = [SQUARE + 20, SQUARE / 2 + 20.25]

    outline = traced([*rings[::-2], *beside, *rings[-2::-2]]).outline

    assert outline.area == pytest.approx(81 - 49 + 25 - 9 + 1 + 0.75)
    assert sorted(len(polygon.interiors) for polygon in outline.geoms) == [0, 1, 1, 1]
    assert outline.is_valid
    assert perimeter_m(outline) == pytest.approx(4 * sum(sizes) + 6)


def test_loops_that_lie_too_deep_are_refused():
    """Nobody draws a hundred rings in each other."""
    with pytest.raises(ValueError, match="loops lie within loops more than 100 deep"):
        traced([(SQUARE - 0.5) * size for size in range(1, 110)])


def test_many_holes_are_found(monkeypatch):
    """More than are looked at together."""
    monkeypatch.setattr(outlines, "_AT_ONCE", 7)
    holes = [SQUARE / 10 + [0.15 * (i % 6) + 0.03, 0.15 * (i // 6) + 0.03] for i in range(36)]

    (polygon,) = traced([*holes, SQUARE]).outline.geoms

    assert len(polygon.interiors) == 36
    assert polygon.area == pytest.approx(0.64)


MEETING = [
    ([[0, 0], [2, 2], [2, 0], [0, 2], [0, 0]], [(1, 1)]),
    ([[0, 0], [2, 0], [2, 2], [1, 0], [0, 2], [0, 0]], [(1, 0)]),
    ([[0, 0], [2, 0], [3, 0], [2, 0], [2, 2], [0, 2], [0, 0]], [(2, 0)]),
]
"""A bow tie, a corner that touches a side, a spike that runs out and back."""


@pytest.mark.parametrize(("loop", "places"), MEETING, ids=("bow tie", "touch", "spike"))
def test_a_loop_that_meets_itself(loop, places):
    """It is told where, and no shape is made of it."""
    found = traced([np.array(loop, float)])

    assert found.outline.is_empty
    assert {tuple(meeting.at_m) for meeting in found.meetings} == {*places}
    assert all(meeting.itself for meeting in found.meetings)


OTHERS = [
    (SQUARE + 0.5, {(1, 0.5), (0.5, 1)}),
    (SQUARE + np.ones(2), {(1, 1)}),
    (SQUARE / 2 + [0.5, 0.25], {(1, 0.25), (1, 0.75)}),
]
"""Two corners crossed, corners that touch, a hole that runs along the edge."""


@pytest.mark.parametrize(("other", "places"), OTHERS, ids=("cross", "touch", "along"))
def test_loops_that_meet_others(other, places):
    """It is told where, and no shape is made of them."""
    found = traced([SQUARE, other])

    assert found.outline.is_empty
    assert {tuple(meeting.at_m) for meeting in found.meetings} == places
    assert not any(meeting.itself for meeting in found.meetings)


def test_no_more_than_a_few_meetings_are_looked_for():
    """A scribble has them by the million."""
    scribble = np.random.default_rng(1).random((2000, 2))

    found = traced([np.concatenate((scribble, scribble[:1]))])

    assert len(found.meetings) == MOST_MEETINGS


def test_loops_drawn_twice_count_once():
    """From another corner, the other way round, a hair beside it; or ten times."""
    again = np.roll(SQUARE[:-1], 1, axis=0)[[0, 1, 2, 3, 0]][::-1] + JOIN_M / 3
    split = np.array([[0, 0], [0.5, 0], [1, 0], [1, 1], [0, 1], [0, 0.0]])

    found = traced([SQUARE, again, split])

    assert (found.doubled, found.meetings) == (2, ())
    assert found.outline.area == pytest.approx(1.0)


def test_shapes_with_the_same_box_are_not_the_same():
    """Half a square touches it; one that lies within it by less than a gap is drawn twice."""
    corner = np.array([[0, 0], [1, 0], [1, 1], [0, 0.0]])
    moved_in = SQUARE * (1 - 1.2 * JOIN_M) + 0.6 * JOIN_M

    assert traced([SQUARE, corner]).doubled == 0
    assert traced([SQUARE, moved_in]).doubled == 1


def test_slivers_are_left_aside_and_told():
    """A loop narrower than a gap, one that runs out and back, one without a side."""
    sliver = np.array([[3, 3], [4, 3], [4, 3 + JOIN_M / 2], [3, 3 + JOIN_M / 2], [3, 3.0]])
    there_and_back = np.array([[5, 5], [6, 5], [5, 5.0]])

    found = traced([SQUARE, sliver, there_and_back])

    assert sorted(found.slivers_m.tolist()) == [[3, 3], [5, 5]]
    assert found.outline.area == pytest.approx(1.0)


def test_open_lines_make_no_shape():
    """The whole drawing waits for them: what they were to be is not known."""
    found = traced([SQUARE, SQUARE[:-1] + 3])
    crowded = traced([SQUARE[:3], SQUARE[2:], np.array([[1, 1], [2, 2.0]])])

    assert found.outline.is_empty
    assert len(found.gaps) == 1
    assert crowded.outline.is_empty
    assert crowded.junctions_m.tolist() == [[1, 1]]


def test_nothing_is_nothing():
    """No loops, no shape, no fault."""
    assert traced([]).outline.is_empty
    assert nested(np.array([], dtype=object)).is_empty
