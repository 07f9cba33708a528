"""What is wrong with a mesh: each fault made on purpose in a sound one, and found where it is."""

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st

from estimator.geometry.mesh_faults import NONE, faults
from estimator.geometry.meshes import edges_of
from estimator.geometry.models import Mesh

KINDS = ("borders", "open_edges", "crowded", "flipped", "doubled", "flat", "hollows", "astray")
CUBE_M3, EDGE_M = 8.0, 2.0


def _box(size=2.0, at=(0, 0, 0)):
    body = trimesh.creation.box((size,) * 3)
    return Mesh(np.array(body.vertices) + at, np.array(body.faces, np.intp))


def _joined(*some):
    starts = np.cumsum([0, *(len(mesh.points_m) for mesh in some)])
    faces = [mesh.faces + start for mesh, start in zip(some, starts, strict=False)]
    return Mesh(np.concatenate([mesh.points_m for mesh in some]), np.concatenate(faces))


def _turned(mesh):
    return mesh._replace(faces=mesh.faces[:, ::-1])


def _found(mesh):
    return faults(mesh, edges_of(mesh.faces))


def _kinds(found):
    return {kind for kind in KINDS if getattr(found, kind).found}


def _on_top(mesh):
    """Return the rows of the two triangles of a box that face up its third axis."""
    return np.flatnonzero((mesh.points_m[mesh.faces][..., 2] == 1).all(axis=1))


def test_a_sound_mesh_has_no_faults():
    """Every edge joins two triangles that run along it opposite ways."""
    found = _found(_box())

    assert found.closed
    assert not found.inverted
    assert _kinds(found) == set()
    assert found.borders is found.hollows is NONE
    assert (found.pieces.found, found.pieces.size) == (1, pytest.approx(24))


def test_a_hole_is_found_with_its_border():
    """The lid of a box two metres wide is missing: four edges, eight metres, around its middle."""
    box = _box()
    found = _found(box._replace(faces=np.delete(box.faces, _on_top(box), axis=0)))

    assert not found.closed
    assert not found.inverted
    assert _kinds(found) == {"borders", "open_edges"}
    assert (found.open_edges.found, found.open_edges.size) == (4, pytest.approx(4 * EDGE_M))
    assert (found.borders.found, found.borders.size) == (1, pytest.approx(4 * EDGE_M))
    assert found.borders.at_m == pytest.approx((0, 0, 1))


def test_of_several_borders_the_longest_is_told():
    """A small box without a lid beside a large one without a lid."""
    large, small = _box(), _box(1.0, (5, 0, 0.5))
    open_boxes = (b._replace(faces=np.delete(b.faces, _on_top(b), axis=0)) for b in (small, large))
    found = _found(_joined(*open_boxes))

    assert (found.borders.found, found.borders.size) == (2, pytest.approx(4 * EDGE_M))
    assert found.borders.at_m == pytest.approx((0, 0, 1))
    assert found.open_edges.size == pytest.approx(6 * EDGE_M)
    assert found.pieces.found == 2


def test_one_triangle_inside_out_is_found_at_its_edges():
    """Its three neighbours run along them the same way as it does."""
    box = _box()
    faces = box.faces.copy()
    faces[0] = faces[0][::-1]
    found = _found(box._replace(faces=faces))

    assert not found.closed
    assert _kinds(found) == {"flipped"}
    assert found.flipped.found == 3
    assert found.flipped.size == pytest.approx(2 * EDGE_M + np.sqrt(8))


def test_everything_inside_out_is_told_apart():
    """It closes; its volume only has the wrong sign."""
    found = _found(_turned(_box()))

    assert found.closed
    assert found.inverted
    assert _kinds(found) == set()


def test_a_triangle_twice_is_found():
    """Three triangles meet at each of its edges, and its skin counts twice."""
    box = _box()
    found = _found(box._replace(faces=np.vstack([box.faces, np.roll(box.faces[3], 1)])))

    assert not found.closed
    assert _kinds(found) == {"doubled", "crowded"}
    assert (found.doubled.found, found.doubled.size) == (1, pytest.approx(2))
    assert found.crowded.found == 3


def test_two_bodies_along_one_edge_still_close():
    """Four triangles meet there, two each way: the volume is that of both."""
    other = _box(at=(2, 2, 0))
    both = _joined(_box(), other)
    _, faces = np.unique(both.points_m, axis=0, return_inverse=True)
    found = _found(Mesh(np.unique(both.points_m, axis=0), faces.reshape(-1)[both.faces]))

    assert found.closed
    assert _kinds(found) == {"crowded"}
    assert (found.crowded.found, found.crowded.size) == (1, pytest.approx(EDGE_M))
    assert found.crowded.at_m == pytest.approx((1, 1, 0))
    assert found.pieces.found == 1


def test_a_triangle_without_area_is_found():
    """Its three corners lie on a line; it closes a crack, so it is no hole."""
    points = np.array([[0.0, 0, 0], [2, 0, 0], [1, 0, 0]])
    found = _found(Mesh(points, np.array([[0, 1, 2]])))

    assert (found.flat.found, found.flat.size) == (1, 0)


def test_a_hollow_is_taken_for_one():
    """A box turned inside out within a larger one."""
    found = _found(_joined(_box(), _turned(_box(1.0))))

    assert found.closed
    assert _kinds(found) == {"hollows"}
    assert (found.hollows.found, found.hollows.size) == (1, pytest.approx(1.0))
    assert found.hollows.at_m == pytest.approx((0, 0, 0), abs=1e-9)
    assert found.pieces.found == 2


def test_a_piece_inside_out_elsewhere_is_a_fault():
    """It would take its volume off that of the other."""
    found = _found(_joined(_box(), _turned(_box(1.0, (5, 0, 0)))))

    assert not found.closed
    assert not found.inverted
    assert _kinds(found) == {"astray"}
    assert (found.astray.found, found.astray.size) == (1, pytest.approx(1.0))
    assert found.astray.at_m == pytest.approx((5, 0, 0), abs=0.01)


def test_the_largest_piece_is_told():
    """By its area, of three."""
    found = _found(_joined(_box(1.0, (9, 9, 9)), _box(), _box(1.0, (5, 0, 0))))

    assert (found.pieces.found, found.pieces.size) == (3, pytest.approx(24))
    assert np.abs(found.pieces.at_m).max() <= 1


def test_points_of_no_triangle_make_no_piece():
    """They are not part of the surface."""
    box = _box()
    found = _found(box._replace(points_m=np.vstack([box.points_m, [[50.0, 0, 0]]])))

    assert found.pieces.found == 1


@given(st.sets(st.integers(0, 319), min_size=1, max_size=40))
def test_it_is_open_by_as_many_edges_as_triangles_taken_out_had_outside(rows):
    """Of triangles taken out of a ball, edges between them are gone, the others are open."""
    ball = trimesh.creation.icosphere(subdivisions=2)
    faces = np.array(ball.faces, np.intp)
    gone = faces[sorted(rows)]
    found = _found(Mesh(np.array(ball.vertices), np.delete(faces, sorted(rows), axis=0)))

    assert found.open_edges.found == (edges_of(gone).shared == 1).sum()
    assert not found.closed
