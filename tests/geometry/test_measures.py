"""Dimensions, regions and how regions combine."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.geometry.measures import Dims, Region, centred, combined, shifted, times
from estimator.geometry.shapes import measure

sizes = st.floats(0.01, 100)


def test_dimensions_not_given_are_blank():
    """A number stands for every part, and what was not given is NaN."""
    dims = Dims.of(length_m=[1.0, 2.0], width_m=0.5)

    assert dims.width_m.tolist() == [0.5, 0.5]
    assert np.isnan(dims.depth_m).tolist() == [True, True]


def test_no_dimensions_are_one_part_without_any():
    """A bought-in thing needs none."""
    assert np.isnan(Dims.of().length_m).tolist() == [True]


def test_an_unknown_dimension_is_refused():
    """A dimension with a misspelt name must not be lost."""
    with pytest.raises(TypeError, match="lenght_m"):
        Dims.of(lenght_m=1.0)


def test_parts_are_taken_by_index():
    """The same index takes every dimension."""
    taken = Dims.of(length_m=[1.0, 2.0, 3.0], width_m=[4.0, 5.0, 6.0]).taken([2, 0])

    assert taken.length_m.tolist() == [3.0, 1.0]
    assert taken.width_m.tolist() == [6.0, 4.0]


@given(sizes, sizes, sizes, sizes)
def test_two_blocks_end_to_end_are_one_block(first_m, second_m, width_m, depth_m):
    """Splitting a block changes neither its size, its middle nor its second moment."""
    one = measure("box", Dims.of(length_m=first_m + second_m, width_m=width_m, depth_m=depth_m))
    halves = [
        measure("box", Dims.of(length_m=length_m, width_m=width_m, depth_m=depth_m)).solid
        for length_m in (first_m, second_m)
    ]

    both = combined(
        shifted(halves[0], 0, -second_m / 2),
        shifted(halves[1], 0, first_m / 2),
    )

    scale_m2 = np.trace(one.solid.second_m2[0])
    assert both.size == pytest.approx(one.solid.size, rel=1e-9)
    assert both.middle_m == pytest.approx(np.zeros((1, 3)), abs=1e-9 * np.sqrt(scale_m2))
    assert both.second_m2 == pytest.approx(one.solid.second_m2, rel=1e-9, abs=1e-9 * scale_m2)


@given(sizes, sizes)
def test_what_is_taken_away_can_be_put_back(size, other):
    """A hole and its plug are nothing together."""
    whole = centred(np.array([size + other]), 1.0, 2.0, 3.0)
    plug = shifted(centred(np.array([size]), 0.1, 0.2, 0.3), 1, 0.5)

    again = combined(combined(whole, times(plug, -1.0)), plug)

    for now, before in zip(again, whole, strict=True):
        assert now == pytest.approx(before, rel=1e-6, abs=1e-6)


def test_a_layer_over_nothing_known_is_refused():
    """The message lists what a layer may lie over."""
    with pytest.raises(ValueError, match="nothing can lie over 'top'; the choices are length, one"):
        measure("sphere", Dims.of(diameter_m=1.0)).over("top")


@pytest.mark.parametrize(
    ("where", "size"),
    [("length", 2.0), ("one face", 2.0), ("both faces", 4.0), ("whole outside", 4.0), ("each", 1)],
)
def test_a_layer_finds_its_region(where, size):
    """A sheet of 2 m x 1 m, by a maker's own words."""
    region = measure("sheet", Dims.of(length_m=2.0, width_m=1.0)).over(where)

    assert isinstance(region, Region)
    assert region.size == pytest.approx([size])


def test_a_sheet_has_no_solid():
    """A layer over a solid that is not there is for the caller to ask about."""
    assert measure("sheet", Dims.of(length_m=2.0, width_m=1.0)).over("solid") is None
