"""What a surface of triangles measures, against closed forms, another library, and laws.

[BH]  Bronshtein and Semendyayev, Handbook of Mathematics, areas and volumes of solids; from memory.
[ST]  Steiner's formula for parallel bodies, from memory: a convex body with volume V, area A and
      integral of mean curvature M has, at a distance t outside it, the area A + 2 M t + 4 pi t2
      and the volume V + A t + M t2 + 4/3 pi t3. M of a box is pi times the sum of its three
      sides, of a ball 4 pi r, of a torus 2 pi2 R.
"""

import math

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate

from estimator.geometry import meshes
from estimator.geometry.measures import combined
from estimator.geometry.meshes import Depths, depths, edges_of, measures, shell, skin, solid
from estimator.geometry.models import Mesh

FINE = 256
"""Corners of a circle: its area is off by 1e-4."""
ROUND = 4e-4


def _mesh(body):
    return Mesh(np.array(body.vertices, float), np.array(body.faces, np.intp))


def _shell(mesh, *, closed=True):
    return shell(mesh, edges_of(mesh.faces), closed=closed)


def _revolved(profile):
    return _mesh(trimesh.creation.revolve(np.array(profile, float), sections=FINE))


def _ellipsoid(a, b, c):
    ball = trimesh.creation.icosphere(subdivisions=5)
    return _mesh(ball.apply_scale([a, b, c]))


def _lump(seed):
    """Return a closed surface without any symmetry."""
    ball = trimesh.creation.icosphere(subdivisions=2)
    points = np.array(ball.vertices)
    waves = np.random.default_rng(seed).normal(size=(3, 3))
    points *= 1 + 0.2 * np.sin(points @ waves.T).sum(axis=1, keepdims=True)
    return Mesh(points * [0.5, 0.3, 0.2] + [0.4, -0.1, 0.2], np.array(ball.faces, np.intp))


def _inertia(region):
    second = region.size[0] * region.second_m2[0]
    return np.trace(second) * np.eye(3) - second


CONE = [(0, 0), (0.3, 0), (0, 0.9)]
FRUSTUM = [(0, 0), (0.4, 0), (0.25, 0.6), (0, 0.6)]
CAP = [(0, 0.0), *((math.sin(a) * 0.5, math.cos(a) * 0.5 - 0.3)
                   for a in np.linspace(math.acos(0.6), 0, 200))]  # fmt: skip
CLOSED_FORMS = [
    ("cone", CONE, math.pi * 0.3 * (0.3 + math.hypot(0.3, 0.9)), math.pi * 0.09 * 0.9 / 3, 0.225),
    ("frustum", FRUSTUM,
     math.pi * (0.4**2 + 0.25**2 + 0.65 * math.hypot(0.15, 0.6)),
     math.pi * 0.6 / 3 * (0.4**2 + 0.4 * 0.25 + 0.25**2),
     0.6 / 4 * (0.4**2 + 2 * 0.4 * 0.25 + 3 * 0.25**2) / (0.4**2 + 0.4 * 0.25 + 0.25**2)),
    ("cap with its base", CAP, math.pi * (2 * 0.5 * 0.2 + 0.4**2),
     math.pi * 0.2**2 * (1.5 - 0.2) / 3, 0.75 * 0.8**2 / 1.3 - 0.3),
]  # fmt: skip


@pytest.mark.parametrize(("name", "profile", "area", "volume", "height"), CLOSED_FORMS)
def test_turned_bodies_have_their_closed_forms(name, profile, area, volume, height):
    """[BH] area, volume and height of the middle over the base; circles have 256 corners."""
    mesh = _revolved(profile)

    assert skin(mesh).size[0] == pytest.approx(area, rel=ROUND), name
    assert abs(solid(mesh).size[0]) == pytest.approx(volume, rel=ROUND), name
    assert solid(mesh).middle_m[0] == pytest.approx([0, 0, height], abs=1e-4), name


def test_a_torus_has_its_closed_forms():
    """[BH], and [ST] for the integral of mean curvature; that of the other curvature is nothing."""
    found = _shell(_mesh(trimesh.creation.torus(0.4, 0.1, FINE, FINE)))

    assert found.skin.size[0] == pytest.approx(4 * math.pi**2 * 0.4 * 0.1, rel=ROUND)
    assert found.solid.size[0] == pytest.approx(2 * math.pi**2 * 0.4 * 0.1**2, rel=ROUND)
    assert found.bend_m == pytest.approx(2 * math.pi**2 * 0.4, rel=ROUND)
    assert found.turn == 0


def test_the_area_of_an_ellipsoid_is_its_integral():
    """By quadrature over its angles; 20 480 triangles come out 3e-4 too small."""
    a, b, c = 0.5, 0.3, 0.2

    def element(v, u):
        normal = (math.cos(u) * math.sin(v) / a, math.sin(u) * math.sin(v) / b, math.cos(v) / c)
        return a * b * c * math.sin(v) * math.hypot(*normal)

    area, _ = integrate.dblquad(element, 0, 2 * math.pi, 0, math.pi)
    mesh = _ellipsoid(a, b, c)

    assert skin(mesh).size[0] == pytest.approx(area, rel=1e-3)
    assert solid(mesh).size[0] == pytest.approx(4 / 3 * math.pi * a * b * c, rel=1e-3)
    expected = np.diag(np.square([a, b, c])) / 5
    assert solid(mesh).second_m2[0] == pytest.approx(expected, rel=1e-3, abs=1e-9)


def test_a_thin_ball_has_the_moment_of_a_shell():
    """[BH] a shell of radius r has a mean square of r2 / 3 along each axis."""
    second_m2 = skin(_ellipsoid(0.5, 0.5, 0.5)).second_m2[0]

    assert second_m2 == pytest.approx(np.eye(3) * 0.25 / 3, rel=1e-3, abs=1e-9)


@pytest.mark.parametrize("seed", range(5))
def test_another_library_finds_the_same(seed):
    """Trimesh works the same integrals out by another formula: D. Eberly's polynomials."""
    mesh = _lump(seed)
    other = trimesh.Trimesh(mesh.points_m, mesh.faces, process=False)
    region = solid(mesh)

    assert region.size[0] == pytest.approx(other.volume, rel=1e-12)
    assert region.middle_m[0] == pytest.approx(other.center_mass, rel=1e-10)
    assert _inertia(region) == pytest.approx(other.moment_inertia, rel=1e-9, abs=1e-12)
    assert skin(mesh).size[0] == pytest.approx(other.area, rel=1e-12)
    assert _shell(mesh).bend_m == pytest.approx(other.integral_mean_curvature, rel=1e-9)


BOX = (0.3, 0.5, 0.7)


def test_the_bend_of_a_box_is_pi_times_its_sides():
    """[ST] twelve edges, each turning by a right angle; flat diagonals add nothing."""
    found = _shell(_mesh(trimesh.creation.box(BOX)))

    assert found.bend_m == pytest.approx(math.pi * sum(BOX))
    assert found.turn == pytest.approx(4 * math.pi)


def test_outside_a_box_it_grows_as_steiner_says():
    """[ST] exactly: faces, quarter cylinders along the edges, eighths of a ball at the corners."""
    found, t = _shell(_mesh(trimesh.creation.box(BOX))), 0.04
    a, b, c = BOX
    faces, edges = 2 * (a * b + b * c + c * a), 4 * (a + b + c)
    area = faces + edges * math.pi / 2 * t + 4 * math.pi * t**2
    volume = a * b * c + faces * t + edges * math.pi / 4 * t**2 + 4 / 3 * math.pi * t**3

    assert found.area_m2(-t) == pytest.approx(area)
    assert found.volume_m3(-t) == pytest.approx(volume)


@pytest.mark.parametrize("depth_m", [-0.05, 0.02, 0.1])
def test_inside_a_ball_it_shrinks_as_a_ball(depth_m):
    """[ST] the ball a depth further in; 20 480 triangles are off by 1e-3."""
    found = _shell(_ellipsoid(0.5, 0.5, 0.5))
    radius_m = 0.5 - depth_m

    assert found.area_m2(depth_m) == pytest.approx(4 * math.pi * radius_m**2, rel=2e-3)
    assert found.volume_m3(depth_m) == pytest.approx(4 / 3 * math.pi * radius_m**3, rel=2e-3)


SKIN_M = 0.02
SHOWN = [("outside", 0.5), ("middle", 0.49), ("inside", 0.48)]


@pytest.mark.parametrize(("shows", "radius_m"), SHOWN)
def test_one_skin_is_the_same_whichever_face_is_shown(shows, radius_m):
    """A ball of half a metre with 20 mm of skin, by its outside, its inside and in between."""
    found = measures(_shell(_ellipsoid(*[radius_m] * 3)), depths(shows, SKIN_M))

    assert found.box_m[0] == pytest.approx([1, 1, 1], rel=1e-6)
    assert found.outside.size[0] == pytest.approx(4 * math.pi * 0.5**2, rel=2e-3)
    assert found.face.size[0] == pytest.approx(4 * math.pi * 0.49**2, rel=2e-3)
    assert found.face.second_m2[0] == pytest.approx(np.eye(3) * 0.49**2 / 3, rel=2e-3, abs=1e-9)
    assert found.faces.size[0] == 2 * found.face.size[0]
    assert found.solid.size[0] == pytest.approx(4 / 3 * math.pi * 0.48**3, rel=2e-3)
    assert found.solid.second_m2[0] == pytest.approx(np.eye(3) * 0.48**2 / 5, rel=2e-3, abs=1e-9)
    assert found.inside is found.solid
    assert found.each.size[0] == 1
    assert found.line is None


def test_a_skin_and_what_is_inside_make_up_the_whole():
    """The skin's middle area times its thickness is what lies between, to t3 / 12 of its turn."""
    mesh = _lump(1)
    found = _shell(mesh)
    at = depths("outside", 0.01)
    parts = measures(found, at)

    between = found.solid.size[0] - parts.solid.size[0]
    assert parts.face.size[0] * 0.01 == pytest.approx(between, abs=4 * math.pi * 0.01**3 / 11)


def test_without_a_skin_nothing_is_moved():
    """What the file shows is what there is."""
    found = _shell(_lump(2))
    parts = measures(found, Depths())

    assert parts.face.size == pytest.approx(found.skin.size)
    assert parts.solid.size == pytest.approx(found.solid.size)
    assert parts.box_m[0] == pytest.approx(np.ptp(found.mesh.points_m, axis=0))


def test_an_open_surface_has_a_skin_and_no_volume():
    """Its border keeps it from having an inside."""
    mesh = _lump(3)
    mesh = mesh._replace(faces=mesh.faces[1:])
    found = _shell(mesh, closed=False)
    parts = measures(found, Depths())

    assert parts.face is not None
    assert parts.solid is parts.inside is found.solid is None
    with pytest.raises(ValueError, match="does not close"):
        found.volume_m3(0.0)


def test_a_skin_that_leaves_nothing_inside_has_no_solid():
    """The sheet itself, drawn with both faces, has no room for another skin."""
    plate = _mesh(trimesh.creation.box((1.0, 0.5, 0.002)))
    parts = measures(_shell(plate), depths("outside", 0.002))

    assert parts.solid is None
    assert parts.inside is None


def test_a_skin_thicker_than_half_the_thing_has_no_solid():
    """150 mm round the inside of a ball of 200 mm: its middle is there, its inside is not."""
    parts = measures(_shell(_ellipsoid(0.1, 0.1, 0.1)), depths("outside", 0.15))

    assert parts.face.size[0] == pytest.approx(4 * math.pi * 0.025**2, rel=0.05)
    assert parts.solid is None


def test_a_skin_thicker_than_the_thing_is_refused():
    """There would be no surface left in its middle."""
    with pytest.raises(ValueError, match="nothing is left of the surface 250 mm inside it"):
        measures(_shell(_mesh(trimesh.creation.box((0.1, 0.1, 0.1)))), depths("outside", 0.5))


def test_a_surface_without_area_has_a_middle_and_nothing_else():
    """Its triangles lie on a line."""
    flat = Mesh(np.array([[0.0, 0, 0], [1, 0, 0], [2, 0, 0]]), np.array([[0, 1, 2]]))

    assert skin(flat).size[0] == 0
    assert skin(flat).middle_m[0] == pytest.approx([1, 0, 0])


def _cut(mesh, times):
    """Return a mesh with each triangle cut into four, so often."""
    points, faces = trimesh.remesh.subdivide_loop(mesh.points_m, mesh.faces, 0)
    for _ in range(times):
        points, faces = trimesh.remesh.subdivide(points, faces)
    return Mesh(np.array(points), np.array(faces, np.intp))


def _same(one, other, rel=1e-9):
    assert one.size == pytest.approx(other.size, rel=rel)
    assert one.middle_m == pytest.approx(other.middle_m, rel=rel, abs=1e-12)
    assert one.second_m2 == pytest.approx(other.second_m2, rel=rel, abs=1e-12)


seeds = st.integers(0, 10_000)
angles = st.floats(-math.pi, math.pi)
places = st.tuples(*[st.floats(-5, 5)] * 3)


@settings(max_examples=20)
@given(seeds)
def test_cutting_triangles_up_changes_nothing(seed):
    """Four triangles in the place of one: the same skin, solid and bend."""
    mesh = _lump(seed)
    fine = _cut(mesh, 1)

    _same(skin(fine), skin(mesh))
    _same(solid(fine), solid(mesh))
    assert _shell(fine).bend_m == pytest.approx(_shell(mesh).bend_m, rel=1e-6)


@settings(max_examples=20)
@given(seeds, st.floats(-0.15, 0.15))
def test_two_halves_are_the_whole(seed, at):
    """Cut across, closed there and measured each, they make up what was cut."""
    mesh = _lump(seed)
    middle = solid(mesh).middle_m[0] + np.array([at, 0, 0])
    halves = [_half(mesh, middle, side) for side in (1.0, -1.0)]

    _same(combined(*halves), solid(mesh), rel=1e-7)


def _half(mesh, at_m, side):
    """Return the solid on one side of a plane across, closed by triangles from one point of it."""
    points, faces, _ = trimesh.intersections.slice_faces_plane(
        mesh.points_m, mesh.faces, np.array([side, 0, 0]), at_m
    )
    edges = edges_of(np.array(faces, np.intp))
    rim = edges.ends[edges.shared == 1]
    ahead = edges.forward[edges.shared == 1] == 1
    rim[ahead] = rim[ahead][:, ::-1]
    lid = np.column_stack([rim, np.full(len(rim), len(points))])
    return solid(Mesh(np.vstack([points, at_m]), np.vstack([faces, lid])))


@settings(max_examples=25)
@given(seeds, angles, angles, places)
def test_turning_and_moving_takes_everything_along(seed, turn, tip, by_m):
    """Sizes stay, middles move along, second moments turn along."""
    mesh = _lump(seed)
    c, s = math.cos(turn), math.sin(turn)
    d, r = math.cos(tip), math.sin(tip)
    rotation = np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]]) @ [[1, 0, 0], [0, d, -r], [0, r, d]]
    moved = mesh._replace(points_m=mesh.points_m @ rotation.T + by_m)

    for region in (skin, solid):
        before, after = region(mesh), region(moved)
        assert after.size == pytest.approx(before.size, rel=1e-9)
        assert after.middle_m[0] == pytest.approx(rotation @ before.middle_m[0] + by_m, abs=1e-9)
        turned = rotation @ before.second_m2[0] @ rotation.T
        assert after.second_m2[0] == pytest.approx(turned, abs=1e-9)
    assert _shell(moved).bend_m == pytest.approx(_shell(mesh).bend_m, rel=1e-9)


@settings(max_examples=20)
@given(seeds)
def test_a_mirror_turns_it_inside_out(seed):
    """The same skin; the solid is negative until its triangles are turned as well."""
    mesh = _lump(seed)
    mirrored = mesh._replace(points_m=mesh.points_m * [-1, 1, 1])
    mended = mirrored._replace(faces=mirrored.faces[:, ::-1])

    assert skin(mirrored).size == pytest.approx(skin(mesh).size)
    assert solid(mirrored).size == pytest.approx(-solid(mesh).size)
    assert solid(mended).size == pytest.approx(solid(mesh).size)
    assert solid(mended).middle_m[0] == pytest.approx(solid(mesh).middle_m[0] * [-1, 1, 1])
    assert _shell(mended).bend_m == pytest.approx(_shell(mesh).bend_m)


@settings(max_examples=20)
@given(seeds, st.floats(0.1, 30.0))
def test_size_goes_by_its_powers(seed, times):
    """Ten times as long: a hundred times the skin, a thousand times the volume."""
    mesh = _lump(seed)
    large = mesh._replace(points_m=mesh.points_m * times)

    assert skin(large).size == pytest.approx(times**2 * skin(mesh).size)
    assert solid(large).size == pytest.approx(times**3 * solid(mesh).size)
    assert solid(large).second_m2 == pytest.approx(times**2 * solid(mesh).second_m2)
    assert _shell(large).bend_m == pytest.approx(times * _shell(mesh).bend_m)


def test_far_from_the_origin_no_digits_are_lost():
    """A file drawn in the coordinates of a town: ten kilometres away, to nine digits."""
    mesh = _lump(4)
    far = mesh._replace(points_m=mesh.points_m + 1e4)

    assert solid(far).size == pytest.approx(solid(mesh).size, rel=1e-9)
    assert solid(far).second_m2 == pytest.approx(solid(mesh).second_m2, rel=1e-7, abs=1e-10)


def test_the_skin_of_a_box_lies_where_its_faces_moved():
    """[BH] mean squares of the surface and of the inside of a cube of 390 and 380 mm.

    Corners that one triangle more meets on one side than on another are moved askew: 1 %.
    """
    found = measures(_shell(_mesh(trimesh.creation.box([0.4] * 3))), depths("outside", 0.01))

    of_faces = 0.39**2 * (2 / 4 + 4 / 12) / 6
    assert np.diag(found.face.second_m2[0]) == pytest.approx([of_faces] * 3, rel=0.01)
    assert np.diag(found.solid.second_m2[0]) == pytest.approx([0.38**2 / 12] * 3, rel=0.01)


def test_a_hollow_side_is_told_from_a_bulge():
    """Half a ball looks out or in; a flat sheet does neither."""
    ball = _ellipsoid(0.5, 0.5, 0.5)
    half = ball._replace(faces=ball.faces[ball.points_m[ball.faces][..., 2].min(axis=1) > -1e-9])
    turned = half._replace(faces=half.faces[:, ::-1])
    flat = Mesh(np.array([[0.0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0]]),
                np.array([[0, 1, 2], [0, 2, 3]]))  # fmt: skip

    told = [meshes.looks_in(_shell(mesh, closed=False)) for mesh in (half, turned, flat)]
    assert told == [False, True, False]


def test_corners_are_moved_along_the_normals_around_them():
    """All corners of a fine ball move towards its middle; nothing moves by nothing."""
    ball = _ellipsoid(0.5, 0.5, 0.5)
    inner = meshes.moved_in(ball, 0.1)

    assert np.linalg.norm(inner.points_m, axis=1) == pytest.approx(0.4, rel=1e-3)
    assert meshes.moved_in(ball, 0.0) is ball
