"""Bodies with a heavy and a light side: order, ends of their range, and no jumps between."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind import sided
from estimator.wind.coefficients import flat_plate
from estimator.wind.handbook import drag

rises = st.floats(0.001, 0.5)


@given(rises, rises, st.booleans())
def test_a_deeper_bowl_differs_more_between_its_sides(one, other, closed):
    """The dome grows lighter with its depth, the open side no lighter; the open one is heavier."""
    shallow, deep = (sided.bowl(1.0, rise, closed=closed) for rise in sorted((one, other)))

    assert deep.front.value <= shallow.front.value <= shallow.back.value + 1e-12
    assert deep.front.value <= deep.back.value


@pytest.mark.parametrize("closed", [False, True])
def test_a_dish_without_depth_is_a_plate(closed):
    """2.0 psi(2) = 1.259 on either side, as a disc by itself."""
    flat = sided.bowl(2.4, 1e-9, closed=closed)

    assert flat.front.value == pytest.approx(flat_plate(2.4, 2.4).value, abs=1e-6)
    assert flat.back.value == pytest.approx(flat_plate(2.4, 2.4).value, abs=1e-6)
    assert not flat.front.confirmed


def test_a_half_ball_is_the_books():
    """Open 0.38 and 1.42, closed behind 0.42 and 1.17; in between half way, and judgement."""
    assert [side.value for side in sided.bowl(0.4, 0.2)] == pytest.approx([0.38, 1.42])
    closed = sided.bowl(0.4, 0.2, closed=True)
    assert [side.value for side in closed] == pytest.approx([0.42, 1.17])
    half = sided.bowl(0.4, 0.1).front
    plate = flat_plate(0.4, 0.4).value
    assert half.value == pytest.approx((plate + 0.38) / 2)
    assert not half.confirmed
    assert dict(half.others)["bowl, dome to the wind, handbook"] == 0.38


def test_the_side_of_a_dish_is_a_segment_of_a_circle():
    """Half a disc at full depth; two thirds of width times depth when shallow."""
    assert sided.profile_m2(0.4, 0.2) == pytest.approx(math.pi * 0.2**2 / 2)
    assert sided.profile_m2(2.4, 0.09) == pytest.approx(2 / 3 * 2.4 * 0.09, rel=2e-3)
    assert not sided.edge_of_bowl().confirmed


def test_a_trough_is_heavier_open_to_the_wind():
    """2.30 against 1.20, the data book."""
    found = sided.half_tube()

    assert (found.front.value, found.back.value) == (1.20, 2.30)


@pytest.mark.parametrize(("half_deg", "printed"), [(30.0, 0.55), (10.0, 0.30)])
def test_a_cone_by_its_point(half_deg, printed):
    """Munson and others, Figure 9.20; base to the wind 1.2, from memory."""
    found = sided.cone_end(0.1 / math.tan(math.radians(half_deg)), 0.2)

    assert found.front.value == pytest.approx(printed)
    assert found.front.confirmed
    assert found.back.value == 1.2
    assert not found.back.confirmed


@given(st.floats(0.05, 5.0), st.floats(0.0, 0.2), st.floats(0.0, 0.2))
def test_a_blunter_cone_feels_more(length_m, one, other):
    """A flat end of its own size is worse than a point; the base to the wind is the worst."""
    sharp, blunt = (sided.cone_end(length_m, 0.2, tip) for tip in sorted((one, other)))

    assert sharp.front.value <= blunt.front.value + 1e-9
    assert blunt.front.value <= blunt.back.value


def test_a_cone_as_wide_at_both_ends_is_a_bar():
    """Cut off square it is a cylinder end to the wind."""
    cut = sided.cone_end(1.0, 0.2, 0.2).front

    assert cut.value == pytest.approx(sided.bar_end(1.0, 0.2).value)
    assert not cut.confirmed


def test_charts_of_ends_have_no_jumps():
    """A hair along the axis is a hair in the value."""
    lengths_m = np.geomspace(0.01, 10.0, 2001)
    for values in (
        [sided.bar_end(x, 0.2).value for x in lengths_m],
        [sided.cone_end(x, 0.2).front.value for x in lengths_m],
    ):
        assert np.abs(np.diff(values)).max() < 0.01


def test_rivals_of_ends():
    """A disc stands beside the end of a bar and the base of a cone."""
    assert dict(sided.bar_end(1.0, 0.2).others)["disc, handbook"] == drag("disc").value
    assert dict(sided.cone_end(1.0, 0.2).back.others)["disc, handbook"] == drag("disc").value
