"""Models: several alike, and the same thing larger or smaller."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from estimator.geometry.chunks import chunks
from estimator.geometry.measures import Dims, Region
from estimator.geometry.models import POWERS, Mesh, Model, repeated, scaled
from estimator.geometry.shapes import measure

FORMS = {
    "box": {"length_m": 0.6, "width_m": 0.4, "depth_m": 0.3},
    "cone": {"length_m": 0.6, "diameter_m": 0.2, "end_diameter_m": 0.1},
    "ellipsoid": {"length_m": 0.9, "width_m": 0.4, "depth_m": 0.3},
    "sector": {"diameter_m": 2.0, "bore_m": 1.2, "angle_rad": 1.3},
    "formed": {"length_m": 0.7, "width_m": 0.5, "diameter_m": 0.1, "end_diameter_m": 0.06},
}
"""Shapes whose every size grows, as a model of each would."""
LENGTHS = {name: {k for k in sizes if k.endswith("_m")} for name, sizes in FORMS.items()}


def dims(form, times=1.0):
    """Return a shape so many times as large."""
    sizes = {
        name: value * (times if name in LENGTHS[form] else 1.0)
        for name, value in FORMS[form].items()
    }
    return Dims.of(**sizes)


@pytest.mark.parametrize("form", FORMS)
@given(times=st.floats(0.1, 10.0))
def test_a_grown_model_measures_as_the_grown_thing(form, times):
    """Area as the square, volume as the cube, second moments as the square: every region agrees."""
    grown = scaled(Model(measure(form, dims(form))), times).measures
    wanted = measure(form, dims(form, times))

    assert grown.box_m == pytest.approx(wanted.box_m)
    for name in POWERS:
        found, true = getattr(grown, name), getattr(wanted, name)
        assert (found is None) == (true is None), name
        if true is not None:
            for got, want in zip(found, true, strict=True):
                assert got == pytest.approx(want, rel=1e-6, abs=1e-9 * times**2), name


def test_every_region_of_a_model_has_its_power():
    """A region that is added to the measures must say how it grows."""
    every = Model(measure("box", dims("box"))).measures

    assert set(every._fields) - {"box_m"} == set(POWERS)


@given(times=st.floats(0.1, 10.0))
def test_what_a_model_looks_like_grows_with_it(times):
    """Corners of a mesh, outlines with holes and stand-ins are times as far from the origin."""
    one = measure("box", dims("box"))
    points_m = np.array([[0.0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]])
    mesh = Mesh(points_m, np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]], dtype=np.intp))
    ring = shapely.MultiPolygon([shapely.Point(1, 1).buffer(2) - shapely.Point(1, 1).buffer(1)])
    ball = chunks("ellipsoid", dims("ellipsoid"))

    grown = scaled(Model(one, mesh=mesh), times).mesh
    assert grown.points_m == pytest.approx(times * points_m)
    assert grown.faces is mesh.faces

    outline = scaled(Model(one, outline=ring), times).outline
    assert outline.area == pytest.approx(times**2 * ring.area)
    assert outline.centroid.coords[0] == pytest.approx((times, times))
    assert len(outline.geoms[0].interiors) == 1

    pieces = scaled(Model(one, stand_in=ball), times).stand_in
    assert pieces.axes_m == pytest.approx(chunks("ellipsoid", dims("ellipsoid", times)).axes_m)
    assert pieces.hole_m is None


@given(first=st.floats(0.2, 5.0), second=st.floats(0.2, 5.0))
def test_growing_twice_is_growing_once(first, second):
    """Sizes multiply."""
    model = Model(measure("cone", dims("cone")))
    twice = scaled(scaled(model, first), second).measures
    once = scaled(model, first * second).measures

    assert twice.face.size == pytest.approx(once.face.size)
    assert twice.solid.second_m2 == pytest.approx(once.solid.second_m2)


def test_several_alike():
    """Each of three measures what the one does; what it lacks, they lack."""
    one = measure("sector", dims("sector"))
    many = repeated(one, 3)

    assert many.box_m == pytest.approx(np.tile(one.box_m, (3, 1)))
    assert isinstance(many.face, Region)
    assert many.face.size == pytest.approx(np.repeat(one.face.size, 3))
    assert many.solid is None
