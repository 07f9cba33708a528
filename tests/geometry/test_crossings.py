"""Where a mesh runs through itself, against pairs compared one by one, and made on purpose."""

from fractions import Fraction
from itertools import combinations

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.geometry import crossings as module
from estimator.geometry.crossings import crossings
from estimator.geometry.models import Mesh


def _mesh(body):
    return Mesh(np.array(body.vertices), np.array(body.faces, np.intp))


def _joined(*some):
    starts = np.cumsum([0, *(len(mesh.points_m) for mesh in some)])
    faces = [mesh.faces + start for mesh, start in zip(some, starts, strict=False)]
    return Mesh(np.concatenate([mesh.points_m for mesh in some]), np.concatenate(faces))


def _moved(mesh, by_m):
    return mesh._replace(points_m=mesh.points_m + np.array(by_m))


BALL = _mesh(trimesh.creation.icosphere(subdivisions=3))
BOX = _mesh(trimesh.creation.box((1, 1, 1)))


@pytest.mark.parametrize("mesh", [BALL, BOX, _mesh(trimesh.creation.torus(0.4, 0.1, 40, 20))])
def test_a_sound_body_does_not_run_through_itself(mesh):
    """All of it was looked at."""
    found = crossings(mesh)

    assert found.found.found == 0
    assert found.looked_at == found.faces == len(mesh.faces)


def test_two_balls_run_through_each_other_where_they_meet():
    """All places lie on the circle that two spheres one apart have in common."""
    found = crossings(_joined(BALL, _moved(BALL, [1, 0, 0])))

    assert found.found.found > 50
    along, beside, faces = found.found.at_m
    assert along == pytest.approx(0.5, abs=0.1)
    assert np.hypot(beside, faces) == pytest.approx(np.sqrt(0.75), abs=0.1)


@pytest.mark.parametrize("at", [(2, 0, 0), (0, 0, 3), (2.1, 2.1, 2.1)])
def test_bodies_that_do_not_meet_do_not_run_through_each_other(at):
    """Touching at one point is not running through."""
    assert crossings(_joined(BALL, _moved(BALL, at))).found.found == 0


def test_an_edge_through_the_seam_of_two_triangles_counts():
    """A box shifted by half along each axis: its edges meet the diagonals of the other's sides."""
    found = crossings(_joined(BOX, _moved(BOX, 0.5)))

    assert found.found.found == 12


def test_sides_that_touch_do_not_count():
    """Two boxes side by side share a plane, and run through nothing."""
    assert crossings(_joined(BOX, _moved(BOX, [1, 0, 0]))).found.found == 0


def test_a_large_triangle_is_compared_with_small_ones():
    """A plate through a fine ball: triangles of very different sizes."""
    plate = Mesh(np.array([[-5.0, -5, 0.1], [5, -5, 0.1], [0, 9, 0.1]]), np.array([[0, 1, 2]]))
    found = crossings(_joined(BALL, plate))

    heights = BALL.points_m[BALL.faces][..., 2] - 0.1
    cut = ((heights.min(axis=1) < 0) & (heights.max(axis=1) > 0)).sum()
    assert found.found.found == cut + 1


def test_what_is_left_out_is_told():
    """With only so many pairs to look at, the largest triangles come first."""
    found = crossings(_joined(BALL, BALL._replace(points_m=BALL.points_m / 9)), most_pairs=11_000)

    assert found.looked_at == len(BALL.faces)
    assert crossings(BALL, most_pairs=0).looked_at == 0


def test_small_batches_find_the_same(monkeypatch):
    """How many pairs are held at a time changes nothing."""
    both = _joined(BALL, _moved(BALL, [1, 0, 0]))
    whole = crossings(both)
    monkeypatch.setattr(module, "BATCH_PAIRS", 500)

    assert crossings(both) == whole


def _side(corners, point):
    """Return which side of a plane through three corners a point is on, without rounding."""
    a, b, c, d = ([Fraction(x) for x in at] for at in (*corners, point))
    u, v, w = ([x - y for x, y in zip(at, a, strict=True)] for at in (b, c, d))
    det = (
        u[0] * (v[1] * w[2] - v[2] * w[1])
        - u[1] * (v[0] * w[2] - v[2] * w[0])
        + u[2] * (v[0] * w[1] - v[1] * w[0])
    )
    return (det > 0) - (det < 0)


def _pierces(start, end, corners):
    """Return whether an edge goes through the inside of a triangle, without rounding."""
    if _side(corners, start) * _side(corners, end) >= 0:
        return False
    a, b, c = corners
    turns = {_side((start, end, p), q) for p, q in ((a, b), (b, c), (c, a))}
    return turns in ({1}, {-1})


def _run_through(one, other):
    return any(
        _pierces(a[i], a[i - 1], b) for a, b in ((one, other), (other, one)) for i in range(3)
    )


@settings(max_examples=60)
@given(st.integers(0, 1_000_000))
def test_pairs_compared_one_by_one_agree(seed):
    """Ten triangles here and there, by exact fractions."""
    at_m = np.random.default_rng(seed).integers(-50, 50, size=(10, 3, 3)).astype(float)
    at_m *= np.random.default_rng(seed).choice([1.0, 0.1], size=(10, 1, 1))
    expected = set()
    for i, j in combinations(range(10), 2):
        if _run_through(at_m[i], at_m[j]):
            expected |= {i, j}
    mesh = Mesh(at_m.reshape(-1, 3), np.arange(30).reshape(-1, 3))

    assert crossings(mesh).found.found == len(expected)
