"""Outlines of meshes against closed forms, unions of their triangles, and laws.

The outline of a torus is worked by hand: it is swept by a disc of the tube's radius r whose middle
runs round the ellipse that its circle of radius R is seen as. Steiner's formula for the area
inside and outside a curve at an even distance (from memory) gives A + r L + pi r^2 without the
hole, and A - r L + pi r^2 for the hole, L and A of the ellipse.
"""

import numpy as np
import pytest
import shapely
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.special import ellipe

from estimator.geometry.contours import MOST_FOLDS, PIECE, Surface, outline
from estimator.geometry.models import Mesh
from estimator.geometry.placing import about_axis, rotation
from estimator.geometry.silhouettes import FRONT, SIDE, loops, shifted, view

PROMISED = 1e-3
"""The promise: areas to 0.1 %."""
turns = st.tuples(*3 * [st.floats(0, 2 * np.pi)])
FEW = settings(max_examples=15, deadline=None)


def ready(made):
    """Return a trimesh body ready to be looked at."""
    return Surface.of(Mesh(np.array(made.vertices), np.array(made.faces, dtype=np.intp)))


def seen(made, turned_rad=(0.0, 0.0, 0.0)):
    """Return the area of a body turned, from the front, and the sight line in its frame."""
    turn = rotation(*turned_rad)
    return shapely.area(outline(ready(made), FRONT @ turn)), turn[2]


BALL = trimesh.creation.icosphere(5)
EGG = trimesh.Trimesh(BALL.vertices * (1.0, 0.6, 0.3), BALL.faces)
BOX = trimesh.creation.box((2.0, 1.0, 0.5))
LOBED = trimesh.creation.icosphere(3)
LOBED.vertices *= (
    1 + 0.3 * np.sin(5 * LOBED.vertices[:, :1]) + 0.2 * np.cos(7 * LOBED.vertices[:, 1:2])
)
"""A body with hollows and bulges, which hides parts of itself from most sides."""


@FEW
@given(turns)
def test_a_ball_is_seen_as_a_disc(turned_rad):
    """Pi, from any side; inscribed in the ball it is smaller by less than what is promised."""
    assert seen(BALL, turned_rad)[0] == pytest.approx(np.pi, rel=PROMISED)


@FEW
@given(turns)
def test_an_ellipsoid_is_seen_as_an_ellipse(turned_rad):
    """Its area is pi sqrt(b^2 c^2 x^2 + c^2 a^2 y^2 + a^2 b^2 z^2) (from memory)."""
    area_m2, sight = seen(EGG, turned_rad)

    products = np.array([0.6 * 0.3, 1.0 * 0.3, 1.0 * 0.6])
    assert area_m2 == pytest.approx(np.pi * np.linalg.norm(products * sight), rel=PROMISED)


@FEW
@given(turns)
def test_a_box_is_seen_by_its_three_faces(turned_rad):
    """The sum of its faces times their slants, to the rounding of its corners."""
    area_m2, sight = seen(BOX, turned_rad)

    assert area_m2 == pytest.approx(np.abs(sight) @ [0.5, 1.0, 2.0], rel=1e-6)


TORUS = (1.0, 0.25)
"""R and r."""
SLANTS_DEG = [0.0, 20.0, 45.0, 55.0, 59.0, 80.0, 90.0]
"""The hole is an even distance inside the ellipse while r <= R cos^2: up to 60 degrees."""


@pytest.mark.parametrize("slant_deg", SLANTS_DEG)
def test_a_torus_is_seen_with_its_hole(slant_deg):
    """The hole is there up to 60 degrees; from 75.5, where R cos = r, there is surely none."""
    large_m, small_m = TORUS
    made = trimesh.creation.torus(large_m, small_m, major_sections=256, minor_sections=96)
    shown = outline(ready(made), FRONT @ about_axis("across", np.deg2rad(slant_deg)))

    sine2 = np.sin(np.deg2rad(slant_deg)) ** 2
    length_m = 4 * large_m * ellipe(sine2)
    inside_m2 = np.pi * large_m**2 * np.sqrt(1 - sine2)
    round_m2 = small_m * length_m + np.pi * small_m**2
    open_ = slant_deg <= 60.0
    hole_m2 = inside_m2 - small_m * length_m + np.pi * small_m**2 if open_ else 0.0
    (loop,) = loops(shown)
    assert shapely.area(shown) == pytest.approx(inside_m2 + round_m2 - hole_m2, rel=PROMISED)
    assert len(loop.holes_m) == open_
    assert sum(shapely.Polygon(hole).area for hole in loop.holes_m) == pytest.approx(
        hole_m2, rel=5e-3
    )


@pytest.mark.parametrize("height_deg", [0.0, 20.0, 40.0, 60.0, 90.0])
def test_a_cone_is_seen_as_its_base_and_its_point(height_deg):
    """The hull of an ellipse and a point: squeezed to a circle, two tangents and the rest of it."""
    made = trimesh.creation.cone(0.5, 1.2, sections=256)  # along z from its base
    turn = about_axis("across", np.deg2rad(height_deg - 90.0))
    shown = outline(ready(made), FRONT @ turn)

    sine, cosine = np.sin(np.deg2rad(height_deg)), np.cos(np.deg2rad(height_deg))
    if 1.2 * cosine <= 0.5 * sine:
        area_m2 = np.pi * 0.25 * sine
    elif sine == 0:
        area_m2 = 0.5 * 1.2
    else:
        off = 1.2 * cosine / (0.5 * sine)  # of the point, in radii of the circle
        area_m2 = 0.25 * sine * (np.sqrt(off**2 - 1) + np.pi - np.arccos(1 / off))
    assert shapely.area(shown) == pytest.approx(area_m2, rel=PROMISED)


def frame():
    """Return a picture frame of 1 x 0.8 m, 0.1 m wide and 0.05 m thick, and its outline."""
    rim = shapely.box(0, 0, 1, 0.8).difference(shapely.box(0.1, 0.1, 0.9, 0.7))
    bars = []
    for size_m, at_m in [
        ((1.0, 0.1), (0.5, 0.05)),
        ((1.0, 0.1), (0.5, 0.75)),
        ((0.1, 0.6), (0.05, 0.4)),
        ((0.1, 0.6), (0.95, 0.4)),
    ]:
        bars.append(trimesh.creation.box((*size_m, 0.05)))
        bars[-1].apply_translation((*at_m, 0.0))
    return trimesh.util.concatenate(bars), rim


def test_a_frame_is_not_filled_in():
    """Four bars that touch: the rim with one hole, though their ends lie on one another."""
    made, rim = frame()
    shown = outline(ready(made), FRONT)

    assert shapely.area(shapely.symmetric_difference(shown, rim)) == pytest.approx(0.0, abs=1e-7)
    (loop,) = loops(shown)
    assert len(loop.holes_m) == 1


def sheet(columns, rows, bend):
    """Return an open sheet of triangles over the unit square, raised by a function of it."""
    across, up = np.meshgrid(np.linspace(0, 1, columns + 1), np.linspace(0, 1, rows + 1))
    points_m = np.stack((across, up, bend(across, up)), axis=-1).reshape(-1, 3)
    at = np.arange(len(points_m)).reshape(rows + 1, columns + 1)
    low, right, high, both = at[:-1, :-1], at[:-1, 1:], at[1:, :-1], at[1:, 1:]
    faces = [np.stack((low, right, both), axis=-1), np.stack((low, both, high), axis=-1)]
    return Mesh(points_m, np.concatenate([f.reshape(-1, 3) for f in faces]))


def test_an_open_sheet_is_seen_from_both_sides():
    """A flat square covers itself from the front and from behind, and nothing on its edge."""
    flat = Surface.of(sheet(5, 4, lambda a, _: 0 * a))

    assert not flat.closed
    assert shapely.area(outline(flat, FRONT)) == pytest.approx(1.0)
    assert shapely.area(outline(flat, view(np.pi))) == pytest.approx(1.0)
    assert shapely.is_empty(outline(flat, SIDE))


def test_a_sheet_that_doubles_back_counts_once():
    """A wave seen along its folds covers its height times one, though it lies in many layers."""
    wave = Surface.of(sheet(200, 3, lambda a, _: 0.1 * np.sin(6 * np.pi * a)))

    from_end = outline(wave, SIDE)
    assert shapely.area(from_end) == pytest.approx(0.2, rel=PROMISED)
    assert shapely.get_num_geometries(from_end) == 1


def test_sheets_one_before_another_count_once():
    """Two squares half over one another cover one and a half."""
    near, far = sheet(4, 4, lambda a, _: 0 * a), sheet(3, 3, lambda a, _: 0 * a + 0.3)
    both = Mesh(
        np.concatenate((near.points_m, far.points_m + np.array([0.5, 0.0, 0.0]))),
        np.concatenate((near.faces, far.faces + len(near.points_m))),
    )

    assert shapely.area(outline(Surface.of(both), FRONT)) == pytest.approx(1.5)


def union_of_triangles(surface, projection):
    """Return the union of all triangles in a view, each united with the rest by brute force."""
    corners_m = np.round(surface.points_m[surface.faces] @ projection.T, 12)
    triangles = shapely.polygons(corners_m)
    return shapely.union_all(triangles[shapely.area(triangles) > 1e-15])


@FEW
@given(turns)
def test_the_outline_is_the_union_of_the_triangles(turned_rad):
    """A body with hollows, against every triangle drawn by itself."""
    surface, projection = ready(LOBED), FRONT @ rotation(*turned_rad)
    brute = union_of_triangles(surface, projection)

    shown = outline(surface, projection)

    assert shapely.is_valid(shown)
    assert shapely.area(shapely.symmetric_difference(shown, brute)) < 1e-6


@FEW
@given(st.lists(st.tuples(*9 * [st.floats(-1, 1)]), min_size=1, max_size=12))
def test_any_triangles_are_united(corners):
    """A heap of triangles with nothing in common, some of them slivers, none in any order."""
    points_m = np.array(corners).reshape(-1, 3)
    heap = Surface.of(Mesh(points_m, np.arange(len(points_m)).reshape(-1, 3)))

    shown = outline(heap, FRONT)

    alone_m2 = np.abs(heap.normals_m2[:, 2]) / 2
    brute = union_of_triangles(heap, FRONT)
    assert shapely.area(shown) == pytest.approx(shapely.area(brute), rel=1e-5, abs=1e-5)
    assert shapely.area(shown) <= alone_m2.sum() + 1e-6


@FEW
@given(turns, turns)
def test_turning_the_view_is_turning_the_body(first_rad, second_rad):
    """Looking at a turned body is looking at the body from the other side."""
    turn, before = rotation(*first_rad), rotation(*second_rad)
    body = ready(LOBED)
    turned = body._replace(points_m=body.points_m @ turn.T, normals_m2=body.normals_m2 @ turn.T)

    assert shapely.area(outline(turned, FRONT @ before)) == pytest.approx(
        shapely.area(outline(body, FRONT @ before @ turn)), rel=1e-6
    )


@FEW
@given(st.tuples(*3 * [st.floats(-5, 5)]), turns)
def test_a_step_only_moves_it(step_m, turned_rad):
    """The outline steps along with the body."""
    turn, body = rotation(*turned_rad), ready(LOBED)
    stepped = body._replace(points_m=body.points_m + np.array(step_m))

    moved = shifted(outline(body, FRONT @ turn), FRONT @ turn @ np.array(step_m))
    apart = shapely.symmetric_difference(outline(stepped, FRONT @ turn), moved)
    assert shapely.area(apart) < 1e-6


@FEW
@given(turns)
def test_from_behind_it_is_a_mirror(turned_rad):
    """The same area, its middle on the other side."""
    turn, body = rotation(*turned_rad), ready(LOBED)
    before, behind = outline(body, FRONT @ turn), outline(body, view(np.pi) @ turn)

    assert shapely.area(behind) == pytest.approx(shapely.area(before), rel=1e-6)
    (left,), (right,) = (shapely.get_coordinates(shapely.centroid(o)) for o in (before, behind))
    assert right == pytest.approx(left * [-1, 1], abs=1e-6)


@pytest.mark.parametrize("flipped", [False, True], ids=["the same way", "inside out"])
@FEW
@given(turned_rad=turns)
def test_a_body_with_itself_is_itself(flipped, turned_rad):
    """Every triangle twice, either way round, covers what it covers once."""
    projection = FRONT @ rotation(*turned_rad)
    points_m, faces = np.array(LOBED.vertices), np.array(LOBED.faces)
    again = faces[:, ::-1] if flipped else faces
    twice = Surface.of(Mesh(points_m, np.concatenate((faces, again))))

    once_m2 = shapely.area(outline(ready(LOBED), projection))
    assert shapely.area(outline(twice, projection)) == pytest.approx(once_m2, rel=1e-9)


@FEW
@given(turns, st.randoms(use_true_random=False))
def test_a_body_cut_in_two_covers_the_same(turned_rad, dice):
    """Wherever its triangles go, the two outlines unite to the one."""
    projection = FRONT @ rotation(*turned_rad)
    points_m, faces = np.array(LOBED.vertices), np.array(LOBED.faces)
    cut = dice.uniform(-0.5, 0.5) > points_m[faces].mean(axis=1) @ rotation(*turned_rad)[0]
    parts = [outline(Surface.of(Mesh(points_m, faces[own])), projection) for own in (cut, ~cut)]

    whole_m2 = shapely.area(outline(ready(LOBED), projection))
    assert shapely.area(shapely.union_all(parts)) == pytest.approx(whole_m2, rel=1e-6)


def test_triangles_may_look_any_way():
    """Turned over at random they cover the same; nobody then knows what is inside."""
    faces = np.array(LOBED.faces)
    over = np.random.default_rng(1).random(len(faces)) < 0.5
    faces[over] = faces[over][:, ::-1]
    mixed = Surface.of(Mesh(np.array(LOBED.vertices), faces))

    assert not mixed.closed
    assert shapely.area(outline(mixed, FRONT)) == pytest.approx(
        shapely.area(outline(ready(LOBED), FRONT)), rel=1e-9
    )


def rough(sides):
    """Return a torus as rough as a scan: its corners off by a sixth of the mean edge."""
    made = trimesh.creation.torus(1.0, 0.4, major_sections=2 * sides, minor_sections=sides)
    edge_m = made.edges_unique_length.mean()
    off_m = np.random.default_rng(1).normal(0, edge_m / 6, made.vertices.shape)
    return Mesh(np.array(made.vertices) + off_m, np.array(made.faces, dtype=np.intp))


def test_a_large_rough_mesh_is_outlined_in_pieces():
    """160,000 triangles: in pieces of a few thousand it covers what it covers as a whole."""
    surface = Surface.of(rough(200))
    projection = FRONT @ rotation(0.3, 0.5, 0.7)

    assert len(surface.faces) > MOST_FOLDS
    assert len(surface.pieces) > 1
    assert max(len(piece.faces) for piece in surface.pieces) <= PIECE
    assert sum(len(piece.faces) for piece in surface.pieces) == len(surface.faces)
    whole = outline(surface._replace(pieces=()), projection)
    assert shapely.area(shapely.symmetric_difference(outline(surface, projection), whole)) < 1e-6
    assert len(loops(whole)[0].holes_m) == len(loops(outline(surface, projection))[0].holes_m) == 1


def test_a_crack_of_rounding_is_no_hole():
    """Two halves that miss one another by a tenth of a micrometre are one."""
    hair_m = 1e-7
    rectangles = [(0, 0, 1, 1), (1 + hair_m, 0, 2, 1), (0.5, -1, 1.5, 0.1), (0.5, 0.9, 1.5, 2)]
    points_m = [(x, y, 0.0) for a, b, c, d in rectangles
                for x, y in ((a, b), (c, b), (c, d), (a, d))]  # fmt: skip
    faces = np.array([(0, 1, 2), (0, 2, 3)])
    heap = Surface.of(Mesh(np.array(points_m), np.concatenate([faces + 4 * i for i in range(4)])))

    (loop,) = loops(outline(heap, FRONT))
    assert loop.holes_m == ()


def test_a_hair_is_no_piece():
    """A strip of a tenth of a micrometre beside a square is left out, the square is not."""
    points_m = np.array([(0, 0, 0), (1, 0, 0), (1, 1, 0), (2, 0, 0), (2, 1, 0), (2 + 1e-7, 1, 0)])
    heap = Surface.of(Mesh(points_m, np.array([(0, 1, 2), (3, 4, 5)])))

    assert shapely.get_num_geometries(outline(heap, FRONT)) == 1
    assert shapely.area(outline(heap, FRONT)) == pytest.approx(0.5)


def test_nothing_covers_nothing():
    """A mesh without triangles is no error."""
    nothing = Surface.of(Mesh(np.zeros((0, 3)), np.zeros((0, 3), dtype=np.intp)))

    assert shapely.is_empty(outline(nothing, FRONT))
