"""Silhouettes against closed forms, convexity and laws of union.

[CAUCHY] Cauchy's formula: the mean silhouette of a convex body is a quarter of its skin (from
         memory).
"""

import numpy as np
import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

from estimator.geometry.chunks import Chunks, chunks, placed
from estimator.geometry.measures import Dims
from estimator.geometry.placing import about_axis, rotation
from estimator.geometry.shapes import SHAPES, measure
from estimator.geometry.silhouettes import (
    FRONT,
    PLAN,
    SIDE,
    area_and_middle,
    loops,
    silhouettes,
    united,
    united_by_group,
    view,
)

PROMISED = 1e-3
"""The promise: areas to 0.1 %."""
directions = st.floats(0, 2 * np.pi)
turns = st.tuples(*3 * [st.floats(0, 2 * np.pi)])


def seen(shape, turned_rad=(0.0, 0.0, 0.0), direction_rad=0.0, **given_m):
    """Return the area of one turned part in the view of a wind, and the sight line in its frame."""
    turn = rotation(*turned_rad)
    part = placed(chunks(shape, Dims.of(**given_m)), turn, np.array([0.3, -0.2, 0.1]))
    (area_m2,), _ = area_and_middle(silhouettes(part, view(direction_rad)))
    sight = np.array([np.sin(direction_rad), 0.0, np.cos(direction_rad)])
    return area_m2, np.abs(turn.T @ sight)


@pytest.mark.parametrize(
    ("degrees", "horizontal"),
    [(0, (1, 0, 0)), (90, (0, 0, -1)), (180, (-1, 0, 0)), (270, (0, 0, 1))],
)
def test_a_view_is_what_the_wind_sees(degrees, horizontal):
    """From the right it has the wall on its left hand's far side: out runs to its left."""
    assert view(np.radians(degrees)) == pytest.approx(
        np.array([horizontal, (0, 1, 0)], float), abs=1e-15
    )


def test_the_drawn_views_are_those_of_three_sides():
    """The front is the wind from the street, the side the wind from the left; the plan is above."""
    assert view(0.0) == pytest.approx(FRONT)
    assert view(1.5 * np.pi) == pytest.approx(SIDE, abs=1e-15)
    assert (PLAN @ [1, 2, 3]).tolist() == [1, 3]


@given(turns, directions)
def test_a_disc_is_seen_by_its_slant(turned_rad, direction_rad):
    """Its area times |cos|, exactly as an ellipse."""
    area_m2, sight = seen("disc", turned_rad, direction_rad, diameter_m=1.0)

    assert area_m2 == pytest.approx(np.pi / 4 * sight[2], abs=2e-9)


@given(turns, directions)
def test_a_box_is_seen_by_its_three_faces(turned_rad, direction_rad):
    """The sum of its faces times their slants."""
    area_m2, sight = seen("box", turned_rad, direction_rad, length_m=2.0, width_m=1.0, depth_m=0.5)

    assert area_m2 == pytest.approx(sight @ [0.5, 1.0, 2.0], rel=1e-9)


@given(turns, directions)
@example((1e-160, 0.0, 0.0), 0.0)
def test_a_rod_is_seen_by_its_side_and_its_end(turned_rad, direction_rad):
    """Length x d sin + pi d^2 / 4 cos of the angle to its axis."""
    area_m2, sight = seen("rod", turned_rad, direction_rad, length_m=1.5, diameter_m=0.2)

    sine = np.hypot(sight[1], sight[2])
    assert area_m2 == pytest.approx(0.3 * sine + np.pi * 0.01 * sight[0], rel=PROMISED)


@given(turns, directions)
def test_an_ellipsoid_is_seen_as_an_ellipse(turned_rad, direction_rad):
    """Its area is pi sqrt(b^2 c^2 x^2 + c^2 a^2 y^2 + a^2 b^2 z^2) (from memory)."""
    area_m2, sight = seen(
        "ellipsoid", turned_rad, direction_rad, length_m=2.0, width_m=1.2, depth_m=0.6
    )

    products = np.array([0.6 * 0.3, 1.0 * 0.3, 1.0 * 0.6])
    assert area_m2 == pytest.approx(np.pi * np.linalg.norm(products * sight), rel=1e-9)


def test_a_sphere_is_seen_as_a_disc():
    """From any side."""
    assert seen("sphere", (1.0, 2.0, 3.0), 4.0, diameter_m=0.4)[0] == pytest.approx(np.pi * 0.04)


CONVEX = [
    ("box", {"length_m": 2.0, "width_m": 1.0, "depth_m": 0.5}),
    ("rod", {"length_m": 1.5, "diameter_m": 0.5}),
    ("hollow", {"length_m": 1.0, "width_m": 0.3, "depth_m": 0.2, "wall_m": 0.01}),
    ("cone", {"length_m": 1.5, "diameter_m": 0.8, "end_diameter_m": 0.3}),
    ("dome", {"diameter_m": 1.0, "depth_m": 0.4}),
    ("ellipsoid", {"length_m": 2.0, "width_m": 1.0, "depth_m": 0.5}),
    ("leaf", {"length_m": 1.5, "width_m": 0.5}),
    ("blade", {"length_m": 1.5, "width_m": 0.5, "end_width_m": 0.2}),
]


@pytest.mark.parametrize(("shape", "given_m"), CONVEX, ids=[s for s, _ in CONVEX])
def test_the_mean_silhouette_of_a_convex_body_is_a_quarter_of_its_skin(shape, given_m):
    """[CAUCHY] over a rule of 110 x 40 sides of the sphere, two areas worked out unlike."""
    cosine, weight = np.polynomial.legendre.leggauss(40)
    around_rad = 2 * np.pi * (np.arange(110) + 0.5) / 110
    turn = (
        about_axis("across", np.arcsin(cosine))[:, None] @ about_axis("up", around_rad)
    ).reshape(-1, 3, 3)
    dims = Dims.of(**given_m)
    many = placed(chunks(shape, dims).taken(np.zeros(len(turn), int)), turn, np.zeros(3))

    areas_m2, _ = area_and_middle(silhouettes(many, FRONT))

    mean_m2 = np.average(areas_m2, weights=np.repeat(weight, len(around_rad)))
    assert mean_m2 == pytest.approx(measure(shape, dims).outside.size[0] / 4, rel=PROMISED)


FROM_THE_FRONT = [
    ("ring", {"diameter_m": 1.0, "bore_m": 0.8}, np.pi / 4 * 0.36),
    ("disc", {"diameter_m": 1.0, "bore_m": 0.2}, np.pi / 4 * 0.96),
    ("sector", {"diameter_m": 1.0, "bore_m": 0.8, "angle_rad": np.pi}, np.pi / 8 * 0.36),
    ("torus", {"diameter_m": 1.0, "end_diameter_m": 0.1}, np.pi / 4 * 0.36),
    ("hoop", {"diameter_m": 1.0, "width_m": 0.05, "depth_m": 0.1}, np.pi / 4 * 0.36),
    ("leaf", {"length_m": 0.9, "width_m": 0.2}, 0.12),
    ("blade", {"length_m": 0.9, "width_m": 0.2}, 0.09),
    (
        "formed",
        {"length_m": np.pi / 2, "width_m": 1.0, "diameter_m": 0.1},
        np.pi / 2 * 0.1,
    ),
]


@pytest.mark.parametrize(
    ("shape", "given_m", "area_m2"), FROM_THE_FRONT, ids=[s for s, _, _ in FROM_THE_FRONT]
)
def test_what_is_bent_or_cut_covers_its_own_area_from_the_front(shape, given_m, area_m2):
    """A ring is not filled in; a half circle of bar covers its length times its thickness."""
    assert seen(shape, **given_m)[0] == pytest.approx(area_m2, rel=PROMISED)


FROM_THE_SIDE = [
    ("torus", {"diameter_m": 1.0, "end_diameter_m": 0.1}, 0.9 * 0.1 + np.pi / 4 * 0.01),
    ("hoop", {"diameter_m": 1.0, "width_m": 0.05, "depth_m": 0.1}, 0.05),
    ("dome", {"diameter_m": 2.0, "depth_m": 1.0}, np.pi / 2),
    ("cone", {"length_m": 1.0, "diameter_m": 0.4}, np.pi * 0.04),
]


@pytest.mark.parametrize(
    ("shape", "given_m", "area_m2"), FROM_THE_SIDE, ids=[s for s, _, _ in FROM_THE_SIDE]
)
def test_what_is_round_covers_its_profile_from_the_side(shape, given_m, area_m2):
    """A torus a slot, a hoop a rectangle, a dome half a disc, a cone end-on its base."""
    assert seen(shape, direction_rad=np.pi / 2, **given_m)[0] == pytest.approx(
        area_m2, rel=PROMISED
    )


@pytest.mark.parametrize("shape", ["sheet", "disc", "ring", "sector", "blade", "leaf"])
def test_a_flat_thing_covers_nothing_edge_on(shape, example):
    """Its area is nought and its middle a number."""
    edge_on = silhouettes(chunks(shape, example(shape)), view(np.pi / 2))

    area_m2, middle_m = area_and_middle(edge_on)
    assert area_m2.tolist() == [0]
    assert middle_m.tolist() == [[0, 0]]
    assert loops(edge_on[0]) == ()


@pytest.mark.parametrize("shape", ["run", "bought"])
def test_what_has_no_breadth_covers_nothing(shape):
    """A cable, and a bought-in thing without a box."""
    (area_m2,), _ = area_and_middle(silhouettes(chunks(shape, Dims.of(length_m=1.0)), FRONT))

    assert area_m2 == 0


@pytest.mark.parametrize("shape", SHAPES)
def test_no_parts_have_no_silhouettes(shape):
    """An empty batch is no error."""
    nobody = Dims.of(length_m=[])

    assert len(measure(shape, nobody).box_m) == 0
    assert len(silhouettes(chunks(shape, nobody), FRONT)) == 0


@pytest.mark.parametrize("shape", sorted(set(SHAPES) - {"run"}))
@given(turned_rad=turns, direction_rad=directions)
@settings(max_examples=5)
def test_a_silhouette_lies_where_the_part_is(shape, turned_rad, direction_rad):
    """From behind it is the mirror of the front, and it never covers more than its box."""
    dims = Dims.of(
        length_m=1.5,
        width_m=0.8,
        depth_m=0.3,
        diameter_m=1.1,
        bore_m=0.3,
        end_width_m=0.2,
        end_diameter_m=0.2,
        wall_m=0.01,
        angle_rad=1.0,
    )
    part = placed(chunks(shape, dims), rotation(*turned_rad), np.array([2.0, 1.0, 0.5]))

    before, behind = (
        area_and_middle(silhouettes(part, view(a))) for a in (direction_rad, direction_rad + np.pi)
    )

    assert behind[0] == pytest.approx(before[0], rel=1e-4, abs=1e-8)
    assert behind[1] == pytest.approx(before[1] * [-1, 1], abs=1e-4)


def test_the_middle_is_where_the_part_is_placed():
    """A sheet at (2, 1) is seen there from the street and mirrored from behind."""
    sheet = placed(
        chunks("sheet", Dims.of(length_m=1.0, width_m=0.5)), np.eye(3), np.array([2.0, 1.0, 0.5])
    )

    assert area_and_middle(silhouettes(sheet, FRONT))[1] == pytest.approx(np.array([[2.0, 1.0]]))
    assert area_and_middle(silhouettes(sheet, view(np.pi)))[1] == pytest.approx(
        np.array([[-2.0, 1.0]])
    )


@given(st.lists(st.tuples(*4 * [st.floats(0.1, 2)]), min_size=1, max_size=6))
def test_a_union_covers_at_least_each_and_at_most_all(sheets):
    """Overlaps count once."""
    across_m, up_m, length_m, width_m = np.array(sheets).T
    at_m = np.stack((across_m, up_m, 0 * up_m), axis=-1)
    parts = placed(chunks("sheet", Dims.of(length_m=length_m, width_m=width_m)), np.eye(3), at_m)

    areas_m2, _ = area_and_middle(silhouettes(parts, FRONT))
    (together_m2,), _ = area_and_middle(united(silhouettes(parts, FRONT)))

    assert areas_m2.max() - 1e-4 <= together_m2 <= areas_m2.sum() + 1e-4


def test_a_ring_is_drawn_with_its_hole():
    """One closed line round it and one round the bore, each ending where it starts."""
    (shadow,) = silhouettes(chunks("ring", Dims.of(diameter_m=1.0, bore_m=0.8)), FRONT)

    (outline,) = loops(shadow)

    assert len(outline.holes_m) == 1
    assert outline.outer_m[0].tolist() == outline.outer_m[-1].tolist()
    assert np.abs(outline.holes_m[0]).max() == pytest.approx(0.4, rel=PROMISED)


def test_one_piece_is_its_own_hull():
    """Pieces may be given without a shape, such as a plate's corners."""
    triangle = Chunks(np.array([[[[0.0, 0, 0], [1, 0, 0], [0, 1, 0]]]]))

    assert area_and_middle(silhouettes(triangle, FRONT))[0] == pytest.approx([0.5])


def test_groups_are_united_each_for_itself():
    """Two unit squares half over one another cover 1.5; a group of none covers nothing."""
    squares = shapely.box([0.0, 5.0, 0.5], 0.0, [1.0, 6.0, 1.5], 1.0)
    together = united_by_group(squares, np.array([2, 0, 2]), 3)

    assert shapely.area(together) == pytest.approx([1.0, 0.0, 1.5])
    assert together[2].equals(united(squares[[0, 2]]))
    assert len(united_by_group(squares[:0], np.zeros(0, dtype=np.intp), 0)) == 0
