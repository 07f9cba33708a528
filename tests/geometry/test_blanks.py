"""Developed blanks: equal area, unrolled sides, and what has none."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.geometry.blanks import BLANKS, blank
from estimator.geometry.measures import Dims
from estimator.geometry.shapes import SHAPES, measure

lengths = st.floats(0.1, 3)


def test_every_shape_has_a_rule():
    """A cone's is apart, since it needs the gauge."""
    assert {*BLANKS, "cone"} == set(SHAPES)


KINDS = [
    ("sheet", "rectangle", 1),
    ("ring", "disc", 1),
    ("sector", "rectangle", 1),
    ("leaf", "rectangle", 1),
    ("flat", "bar", 1),
    ("hoop", "bar", 1),
    ("formed", "bar", 1),
    ("cone", "sector", 1),
    ("dome", "disc", 1),
    ("sphere", "disc", 2),
    ("box", "none", 0),
    ("torus", "none", 0),
    ("bought", "none", 0),
]


@pytest.mark.parametrize(("shape", "kind", "pieces"), KINDS)
def test_each_shape_is_cut_from_its_kind(shape, kind, pieces, example):
    """What a blank is cut from, in how many pieces, and why."""
    found = blank(shape, example(shape))

    assert (found.kind, found.pieces) == (kind, pieces)
    assert found.why


@pytest.mark.parametrize(
    "shape", ["sheet", "disc", "ring", "sector", "blade", "leaf", "cone", "dome", "sphere", "torus"]
)
def test_a_blank_has_the_area_of_its_skin(shape, example):
    """Nothing is stretched: the area before is the area after."""
    dims = example(shape)

    assert blank(shape, dims).area_m2 == pytest.approx(measure(shape, dims).face.size[0])


@given(lengths, lengths, st.floats(0, 1))
def test_a_cone_fits_the_rectangle_it_is_cut_from(length_m, diameter_m, taper):
    """Its sector covers no more than its rectangle, and has the area of the cone's side."""
    dims = Dims.of(length_m=length_m, diameter_m=diameter_m, end_diameter_m=diameter_m * taper)

    found = blank("cone", dims)

    assert found.area_m2 == pytest.approx(measure("cone", dims).face.size[0], rel=1e-6)
    assert found.area_m2 <= found.length_m * found.width_m * (1 + 1e-9)


def test_a_right_cone_unrolls_to_a_half_disc():
    """Slant twice the radius: 180 degrees of the slant's circle."""
    found = blank("cone", Dims.of(length_m=np.sqrt(0.75), diameter_m=1.0))

    assert (found.length_m, found.width_m) == pytest.approx((2.0, 1.0))
    assert found.why == "unrolled to a sector of radius 1 m over 180 degrees"


def test_a_cone_may_stand_on_its_point():
    """Which end is the wide one does not matter."""
    one = blank("cone", Dims.of(length_m=1.0, diameter_m=0.2, end_diameter_m=0.5))
    other = blank("cone", Dims.of(length_m=1.0, diameter_m=0.5, end_diameter_m=0.2))

    assert one == other


def test_a_hoop_is_as_long_as_the_middle_of_its_bar():
    """A flat 6 mm thick rolled to 2206 mm over all is 2200 pi mm long."""
    found = blank("hoop", Dims.of(diameter_m=2.206, width_m=0.05, depth_m=0.006))

    assert found.length_m == pytest.approx(2.2 * np.pi)


def test_the_blank_of_a_fault_is_refused():
    """As measuring it is."""
    with pytest.raises(ValueError, match="needs a diameter above zero"):
        blank("sphere", Dims.of())
