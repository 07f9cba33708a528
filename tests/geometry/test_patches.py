"""Meshes as line drawings: what is white, what is a line, and what is hidden."""

import numpy as np
import pytest
import shapely
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.geometry import patches as drawing
from estimator.geometry.contours import Surface, outline
from estimator.geometry.models import Mesh
from estimator.geometry.patches import Sight, patches, thinned
from estimator.geometry.placing import about_axis, rotation
from estimator.geometry.silhouettes import FRONT

FINE_M = 1e-3
MOST = 40
OBLIQUE = rotation(0.3, 0.5, 0.4)


def ready(made):
    """Return a trimesh body ready to be looked at."""
    return Surface.of(Mesh(np.array(made.vertices), np.array(made.faces, dtype=np.intp)))


def drawn(made, turn=OBLIQUE, most=MOST):
    """Return the patches of a body that is turned, seen from the street."""
    return patches(ready(made), Sight(FRONT @ turn, turn[2], FINE_M, most))


def lines(found, *, wide):
    """Return the lines of patches as one geometry, each place once."""
    return shapely.union_all([
        shapely.LineString(stroke.points_m)
        for patch in found for stroke in patch.strokes if stroke.wide == wide
    ])  # fmt: skip


def near(first, other):
    """Return whether two sets of lines are alike within a few times the fineness."""
    return shapely.hausdorff_distance(first, other, densify=0.01) < 4 * FINE_M


BOX = trimesh.creation.box((2.0, 1.0, 0.5))
BALL = trimesh.creation.icosphere(4)


def test_a_box_is_drawn_as_three_faces():
    """The whole, then three faces of four corners; the edges between them are three lines."""
    under, *faces = drawn(BOX)

    assert under.strokes == ()
    assert [len(shapely.get_coordinates(face.area)) for face in faces] == [5, 5, 5]
    assert sum(shapely.area(face.area) for face in faces) == pytest.approx(
        shapely.area(under.area), rel=1e-6
    )
    corner_m = (FRONT @ OBLIQUE) @ (np.sign(OBLIQUE[2]) * (1.0, 0.5, 0.25))
    ends_m = [corner_m - (FRONT @ OBLIQUE)[:, i] * np.sign(OBLIQUE[2, i]) * size
              for i, size in enumerate((2.0, 1.0, 0.5))]  # fmt: skip
    inner = shapely.union_all([shapely.LineString([corner_m, end_m]) for end_m in ends_m])
    assert near(lines(faces, wide=False), inner)
    assert near(lines(faces, wide=True), shapely.boundary(under.area))


def test_what_is_near_comes_last():
    """Faces are in the order of their middles towards the viewer."""
    depths_m = [patch.depth_m for patch in drawn(BOX)]

    assert depths_m == sorted(depths_m)
    middles_m = np.sort(np.abs(OBLIQUE[2]) * (1.0, 0.5, 0.25))
    assert depths_m[1:] == pytest.approx(middles_m)


def test_a_ball_has_no_line_in_it():
    """One smooth face, and its outline."""
    under, *faces = drawn(BALL)

    assert len(faces) == 1
    assert all(stroke.wide for stroke in faces[0].strokes)
    assert near(lines(faces, wide=True), shapely.boundary(under.area))


def test_a_ring_hides_its_far_rim():
    """A torus seen so flat that its hole is closed: the near wall of the hole is a line inside.

    The line lies the tube's radius inside the ellipse that the middle of the tube is seen as, and
    all on one side of the long axis: the far wall's line is hidden.
    """
    torus = trimesh.creation.torus(1.0, 0.3, major_sections=120, minor_sections=60)
    slant_rad = np.deg2rad(76.0)
    found = drawn(torus, about_axis("across", slant_rad))

    inner = lines(found, wide=False)
    around = np.linspace(0, 2 * np.pi, 721)
    squeeze = np.cos(slant_rad)
    outwards = np.stack((squeeze * np.cos(around), np.sin(around)), axis=-1)
    outwards /= np.linalg.norm(outwards, axis=1, keepdims=True)
    middle = np.stack((np.cos(around), squeeze * np.sin(around)), axis=-1)
    wall = shapely.LineString(middle - 0.3 * outwards)
    points = shapely.points(shapely.get_coordinates(inner))
    assert shapely.get_num_geometries(found[0].area) == 1
    assert len(shapely.get_rings(found[0].area)) == 1
    assert shapely.distance(points, wall).max() < 0.01
    assert len(set(np.sign(shapely.get_y(points)))) == 1
    assert shapely.length(inner) > 1.0


ARMED = trimesh.util.concatenate([
    trimesh.creation.icosphere(3, 0.5),
    trimesh.creation.capsule(0.8, 0.12, transform=trimesh.transformations.translation_matrix(
        (0.0, -0.4, 0.8))),
])  # fmt: skip


def test_an_arm_before_a_body_is_drawn_over_it():
    """A bar 0.3 m before a ball: two patches, the bar last, with a line all round it."""
    turn = np.eye(3)
    found = drawn(ARMED, turn)

    assert len(found) >= 3
    bar = found[-1]
    assert bar.depth_m > found[1].depth_m
    inside = shapely.intersection(shapely.boundary(bar.area), shapely.Point(0, 0).buffer(0.49))
    assert shapely.length(lines([bar], wide=False)) == pytest.approx(
        shapely.length(inside), rel=0.1
    )


def test_a_surface_that_lies_over_itself_is_cut():
    """A strip wound one and a half times: what lies over itself is two patches and more."""
    angle = np.linspace(0, 3 * np.pi, 181)
    rim = np.stack((np.cos(angle), np.sin(angle), 0.1 * angle), axis=-1)
    points_m = np.concatenate((rim, rim * (0.5, 0.5, 1.0)))
    k = np.arange(180)
    faces = np.concatenate(
        (np.stack((k, k + 1, k + 181), -1), np.stack((k + 1, k + 182, k + 181), -1))
    )
    surface = Surface.of(Mesh(points_m, faces))
    found = patches(surface, Sight(FRONT, np.array([0.0, 0.0, 1.0]), FINE_M, MOST))

    assert len(found) > 2
    assert shapely.area(found[0].area) == pytest.approx(np.pi * 0.75, rel=2e-3)
    assert max(shapely.area(patch.area) for patch in found[1:]) < np.pi * 0.75 * 0.99


def test_from_behind_an_open_sheet_is_drawn_as_well():
    """Both sides of it are skin."""
    flat = trimesh.Trimesh([(0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0)], [(0, 1, 2), (0, 2, 3)])
    for turn in (np.eye(3), about_axis("up", np.pi)):
        under, sheet = drawn(flat, turn)
        assert shapely.area(under.area) == pytest.approx(1.0)
        assert shapely.length(lines([sheet], wide=True)) == pytest.approx(4.0, rel=1e-2)


def test_edge_on_there_is_nothing_to_draw():
    """A flat sheet along the view has no patches."""
    flat = trimesh.Trimesh([(0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0)], [(0, 1, 2), (0, 2, 3)])

    assert drawn(flat, about_axis("up", np.pi / 2)) == []


def knobbly(rough):
    """Return a ball of 20,480 triangles with bumps, its corners off by so much of an edge."""
    made = trimesh.creation.icosphere(5)
    made.vertices *= 1 + 0.1 * np.sin(9 * made.vertices[:, :1]) * np.cos(8 * made.vertices[:, 1:2])
    off = np.random.default_rng(1).normal(0, rough, made.vertices.shape)
    made.vertices += off * made.edges_unique_length.mean()
    return made


@pytest.mark.parametrize("rough", [0.0, 0.2])
@pytest.mark.parametrize("most", [5, MOST])
def test_there_are_no_more_patches_than_asked_for(rough, most):
    """However rough a mesh is; and their points do not come near the number of its triangles."""
    found = drawn(knobbly(rough), most=most)

    assert 2 <= len(found) <= most + 1
    points = sum(len(shapely.get_coordinates(patch.area)) for patch in found)
    points += sum(len(stroke.points_m) for patch in found for stroke in patch.strokes)
    assert points < 5000


@settings(max_examples=15, deadline=None)
@given(st.tuples(*3 * [st.floats(-3, 3)]))
def test_patches_lie_within_the_outline_and_fill_it(turned_rad):
    """Together they cover what the mesh covers, but for what is too small to be shown."""
    turn = rotation(*turned_rad)
    body = trimesh.creation.annulus(0.6, 1.0, 0.5)
    found = drawn(body, turn)
    whole = outline(ready(body), FRONT @ turn)

    together = shapely.union_all([patch.area for patch in found[1:]])
    apart_m2 = shapely.area(shapely.symmetric_difference(together, whole))
    assert apart_m2 < 2 * FINE_M * shapely.length(whole) + (drawing.SMALL * FINE_M) ** 2 * MOST
    assert shapely.area(shapely.symmetric_difference(found[0].area, whole)) < FINE_M * 40


def test_a_mesh_too_large_to_draw_is_thinned(monkeypatch):
    """To about the triangles wanted; its outline moves by less than a cell."""
    monkeypatch.setattr(drawing, "MOST_TRIANGLES", 2000)
    whole = ready(knobbly(0.0))
    fewer = thinned(whole)

    cell_m = np.sqrt(np.linalg.norm(whole.normals_m2, axis=-1).sum() / 2000)
    assert len(fewer.faces) < 2 * 2000
    assert fewer.closed
    apart = shapely.hausdorff_distance(outline(fewer, FRONT), outline(whole, FRONT), densify=0.05)
    assert apart < cell_m
    assert shapely.area(outline(fewer, FRONT)) == pytest.approx(
        shapely.area(outline(whole, FRONT)), rel=0.02
    )


def test_a_mesh_small_enough_is_left_as_it_is():
    """Nothing is thinned without need."""
    surface = ready(BALL)

    assert thinned(surface) is surface
