"""Forms turned: meshes, plates and pieces give the same silhouettes and boxes."""

import numpy as np
import pytest
import shapely
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.geometry.chunks import chunks, placed
from estimator.geometry.contours import Surface
from estimator.geometry.forms import Pieced, Plate, Solid
from estimator.geometry.measures import Dims
from estimator.geometry.models import Mesh
from estimator.geometry.placing import about_axis, rotation
from estimator.geometry.silhouettes import FRONT, PLAN, SIDE, moved

FINENESS = 72
MIRROR = np.diag([-1.0, 1.0, 1.0])
turns = st.tuples(*3 * [st.floats(-3, 3)])
FEW = settings(max_examples=20, deadline=None)
BOX = trimesh.creation.box((2.0, 1.0, 0.5))
SURFACE = Surface.of(Mesh(np.array(BOX.vertices), np.array(BOX.faces, dtype=np.intp)))
SQUARE = shapely.MultiPolygon([shapely.box(-1, -0.5, 1, 0.5)])
RING = shapely.MultiPolygon([shapely.box(0, 0, 4, 2).difference(shapely.box(1, 0.5, 3, 1.5))])


def pieced(shape, turn, **sizes):
    """Return the simple shape of some sizes, turned."""
    return Pieced(placed(chunks(shape, Dims.of(**sizes)), turn, np.zeros(3)))


def pairs(turn):
    """Return models and the simple shapes that they are."""
    turn = np.asarray(turn)
    return [
        (Solid(SURFACE, turn[None]), pieced("box", turn, length_m=2, width_m=1, depth_m=0.5)),
        (Plate(SQUARE, turn[None]), pieced("sheet", turn, length_m=2, width_m=1)),
    ]


@FEW
@given(turns, st.booleans())
def test_a_model_is_seen_as_the_shape_it_is(turned_rad, mirrored):
    """A box as a mesh and a square as an outline, from the front, turned and in a mirror too."""
    turn = rotation(*turned_rad) @ (MIRROR if mirrored else np.eye(3))
    at = np.array([0])
    for model, shape in pairs(turn):
        apart = shapely.symmetric_difference(
            model.shadows(at, FRONT, FINENESS), shape.shadows(at, FRONT, FINENESS)
        )
        assert shapely.area(apart) == pytest.approx([0.0], abs=1e-6)


@FEW
@given(turns, turns)
def test_a_model_has_the_box_of_the_shape_it_is(turned_rad, again_rad):
    """Turned as a part, and once more with its assembly."""
    at, frame = np.array([0]), rotation(*again_rad)
    for model, shape in pairs(rotation(*turned_rad)):
        assert model.boxes(at, frame) == pytest.approx(shape.boxes(at, frame), abs=1e-9)


def test_only_the_numbers_asked_for_are_drawn():
    """Three ways of turning; the last and the first, in the order asked for."""
    turns = np.stack([np.eye(3), about_axis("up", np.pi / 4), about_axis("up", np.pi / 2)])
    for form, areas_m2 in (
        (Solid(SURFACE, turns), [0.5, 2.0]),
        (Plate(SQUARE, turns), [0.0, 2.0]),
    ):
        found = form.shadows(np.array([2, 0]), FRONT, FINENESS)
        assert shapely.area(found) == pytest.approx(areas_m2)
        assert form.boxes(np.array([2, 0]), np.eye(3))[:, 1, 2] == pytest.approx(
            [1.0, form.boxes(np.array([0]), np.eye(3))[0, 1, 2]]
        )


def test_a_plate_keeps_its_holes():
    """A ring of 4 x 2 m with a hole of 2 x 1 covers 6, leaning by 60 degrees 3."""
    leaning = Plate(RING, np.stack([np.eye(3), about_axis("across", np.pi / 3)]))

    found = leaning.shadows(np.arange(2), FRONT, FINENESS)
    assert shapely.area(found) == pytest.approx([6.0, 3.0])
    assert [len(shapely.get_parts(one)[0].interiors) for one in found] == [1, 1]


@pytest.mark.parametrize("projection", [SIDE, PLAN], ids=["side", "plan"])
def test_what_is_seen_edge_on_is_a_thin_line_where_that_is_wanted(projection):
    """A plate and a flat mesh cover nothing, or an area as thick as was asked for."""
    flat = trimesh.Trimesh([(-1, -0.5, 0), (1, -0.5, 0), (1, 0.5, 0), (-1, 0.5, 0)],
                           [(0, 1, 2), (0, 2, 3)])  # fmt: skip
    surface = Surface.of(Mesh(np.array(flat.vertices), np.array(flat.faces, dtype=np.intp)))
    length_m = 1.0 if projection is SIDE else 2.0
    for form in (Plate(SQUARE, np.eye(3)[None]), Solid(surface, np.eye(3)[None])):
        assert shapely.is_empty(form.shadows(np.array([0]), projection, FINENESS)).all()
        (edge,) = form.shadows(np.array([0]), projection, FINENESS, 1e-3)
        assert shapely.area(edge) == pytest.approx(1e-3 * length_m, rel=2e-2)


def test_every_outline_is_moved_by_its_own_step():
    """Two squares of one outline, one step each; an empty one stays empty."""
    squares = np.array([SQUARE, shapely.Polygon(), SQUARE], dtype=object)
    found = moved(squares, np.array([(1.0, 2.0), (5.0, 5.0), (-3.0, 0.0)]))

    assert shapely.bounds(found[[0, 2]]).tolist() == [[0, 1.5, 2, 2.5], [-4, -0.5, -2, 0.5]]
    assert shapely.is_empty(found[1])
    assert shapely.bounds(squares[0]).tolist() == [-1, -0.5, 1, 0.5]
