"""The lever rule: simple spans by plane statics, no outside values."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from estimator.supports.arms import moved
from estimator.supports.lever import (
    lever_shares,
    lever_sharing,
    lever_slopes,
    longest_axis,
    parts_a_station,
)
from estimator.supports.sharing import imbalance

ROW = np.array([-2.0, -1, 0, 1, 2])
NONE = np.zeros(1)

metres = st.floats(-4, 4)


def share(positions, centre, half=0.0):
    """Return the shares of one load."""
    return lever_shares(np.array(positions, dtype=float), np.array([centre]), np.array([half]))[0]


@pytest.mark.parametrize(
    ("centre", "half", "expected"),
    [
        (1.7, 0.0, (0, 0, 0, 0.3, 0.7)),  # a bird between two supports goes to those two
        (-1.7, 0.0, (0.7, 0.3, 0, 0, 0)),
        (1.0, 0.0, (0, 0, 0, 1, 0)),  # on a support
        (2.2, 0.0, (0, 0, 0, -0.2, 1.2)),  # beyond the end: the neighbour is lifted
        (-2.2, 0.0, (1.2, -0.2, 0, 0, 0)),
        (0.0, 2.0, (0.125, 0.25, 0.25, 0.25, 0.125)),  # even over four spans
        (0.5, 0.5, (0, 0, 0.5, 0.5, 0)),  # even over one span
        (1.0, 0.5, (0, 0, 0.125, 0.75, 0.125)),  # even over two half spans
    ],
)
def test_shares_on_a_row_of_five(centre, half, expected):
    """Simple spans of 1 m: the shares are those of a beam cut over every support."""
    assert share(ROW, centre, half) == pytest.approx(expected, abs=1e-8)


def test_order_of_supports_does_not_matter():
    """Shares come back in the order the supports were given in."""
    assert share([2, -2, 0], 1.5) == pytest.approx([0.75, 0, 0.25])


def test_supports_in_one_place_share_alike():
    """Two brackets half a millimetre apart are one station, at their middle."""
    assert share([0, 1, 0.0005, 1], 0.00025 + 0.25 * 0.99975) == pytest.approx(
        [0.375, 0.125, 0.375, 0.125]
    )


def test_single_place_of_support_takes_everything():
    """There is no lever on one support; two in one place take half each."""
    assert share([0.3], 5.0, 1.0) == pytest.approx([1])
    assert share([0.3, 0.3], 5.0, 1.0) == pytest.approx([0.5, 0.5])
    assert lever_slopes(np.array([0.3]), np.array([5.0]), NONE) == pytest.approx(np.zeros((1, 1)))


@given(
    st.lists(st.integers(-30, 30), min_size=1, max_size=6),
    arrays(float, 4, elements=metres),
    arrays(float, 4, elements=st.floats(0, 3)),
)
def test_shares_balance(tenths, centre, half):
    """Shares add up to the load, and their moment along the row is the load's."""
    positions = np.array(tenths) / 10

    shares = lever_shares(positions, centre, half)
    slopes = lever_slopes(positions, centre, half)

    assert shares.sum(axis=1) == pytest.approx(np.ones(4))
    assert slopes.sum(axis=1) == pytest.approx(np.zeros(4), abs=1e-9)
    if len(set(tenths)) > 1:
        assert shares @ positions == pytest.approx(centre, abs=1e-9)
        assert slopes @ positions == pytest.approx(np.ones(4))


@given(metres, st.floats(0.01, 2))
def test_slope_is_the_change_of_share(centre, half):
    """The difference of shares a little to each side, over the distance; 1e-4 for its error."""
    step = 1e-6
    either = lever_shares(ROW, np.array([centre - step, centre + step]), np.full(2, half))

    slope = lever_slopes(ROW, np.array([centre]), np.array([half]))[0]

    assert (either[1] - either[0]) / (2 * step) == pytest.approx(slope, abs=1e-4)


def test_couple_on_a_support_belongs_to_both_spans():
    """By symmetry a point couple over a support loads the supports on both sides alike."""
    slope = lever_slopes(ROW, np.array([0.0]), NONE)[0]

    assert slope == pytest.approx([0, -0.5, 0, 0.5, 0], abs=1e-6)


@st.composite
def rows(draw):
    """Return brackets on a wall, and loads with couples anywhere near."""
    count, cases = draw(st.integers(1, 5)), 3
    tenths = draw(st.lists(st.integers(-30, 30), min_size=3 * count, max_size=3 * count))
    return (
        np.array(tenths).reshape(count, 3) / 10,
        draw(st.integers(0, 2)),
        draw(arrays(float, (cases, 3), elements=st.floats(-5e3, 5e3))),
        draw(arrays(float, (cases, 3), elements=metres)),
        draw(arrays(float, cases, elements=st.floats(0, 3))),
        draw(arrays(float, (cases, 3), elements=st.floats(-2e3, 2e3))),
    )


@given(rows())
def test_lever_sharing_is_in_equilibrium(case):
    """Forces and moments about the datum, to 1e-9 of the largest."""
    points_m, axis, force_n, at_m, half_length_m, moment_nm = case
    loads = moved(np.concatenate([force_n, moment_nm], axis=1), at_m)

    actions = lever_sharing(points_m, axis, force_n, at_m, half_length_m, moment_nm)

    assert imbalance(points_m, actions, loads) < 1e-9


@given(rows(), st.floats(-3, 3))
def test_actions_grow_with_the_loads(case, factor):
    """Linear in force and couple together."""
    points_m, axis, force_n, at_m, half_length_m, moment_nm = case

    once = lever_sharing(points_m, axis, force_n, at_m, half_length_m, moment_nm)
    more = lever_sharing(points_m, axis, factor * force_n, at_m, half_length_m, factor * moment_nm)

    assert more == pytest.approx(factor * once, rel=1e-9, abs=1e-6)


def one(points_m, at_m, force_n=(0, 0, 0), moment_nm=(0, 0, 0)):
    """Return the actions of one point load with a couple, the row across."""
    load, where, couple = (np.array([v], dtype=float) for v in (force_n, at_m, moment_nm))
    return lever_sharing(np.array(points_m, dtype=float), 0, load, where, NONE, couple)[0]


def test_bird_on_a_ledge():
    """Each bracket takes its share of the weight, at the bird's distance from the wall."""
    found = one([(x, 0, 0) for x in ROW], (1.7, 0.6, 0.25), force_n=(0, -100, 0))

    assert found[4] == pytest.approx([0, -70, 0, 17.5, 0, 0])
    assert found[3] == pytest.approx([0, -30, 0, 7.5, 0, 0])
    assert found[:3] == pytest.approx(np.zeros((3, 6)))


def test_couple_about_out_is_a_pair_up_and_down():
    """Anticlockwise seen from the street: the right-hand bracket is pushed up."""
    found = one([(0, 0, 0), (2, 0, 0)], (0.7, 0, 0), moment_nm=(0, 0, 100))

    assert found == pytest.approx(np.array([[0, -50, 0, 0, 0, 0], [0, 50, 0, 0, 0, 0]]))


def test_couple_about_up_is_a_pair_in_and_out():
    """Front swung to the right: the right-hand bracket is pushed in, the left pulled out."""
    found = one([(0, 0, 0), (2, 0, 0)], (0.7, 0, 0), moment_nm=(0, 100, 0))

    assert found == pytest.approx(np.array([[0, 0, 50, 0, 0, 0], [0, 0, -50, 0, 0, 0]]))


def test_couple_about_the_row_is_shared():
    """No lever resists it, so each bracket twists in its share."""
    found = one([(0, 0, 0), (2, 0, 0)], (0.5, 0, 0), moment_nm=(100, 0, 0))

    assert found == pytest.approx(np.array([[0, 0, 0, 75, 0, 0], [0, 0, 0, 25, 0, 0]]))


def test_single_bracket_takes_force_couple_and_lever_arm():
    """Statics of one cantilever."""
    found = one([(1, 0, 0)], (3, 0.5, 0.2), force_n=(5, -100, 20), moment_nm=(1, 2, 3))

    expected = moved(np.array([5.0, -100, 20, 1, 2, 3]), np.array([2, 0.5, 0.2]))
    assert found[0] == pytest.approx(expected)


def test_beyond_the_end_a_twist_has_no_lever():
    """1000 N out at 1.2 m above the row, 0.75 m beyond its end: by hand.

    The pull has the end span's lever, 1750 and -750 N; its 1200 Nm about the row come into the
    last support alone, for nothing beyond it holds the body against twisting.
    """
    found = one([(0, 0, 0), (1, 0, 0)], (-0.75, 1.2, 0), force_n=(0, 0, 1000))

    assert found == pytest.approx(
        np.array([[0, 0, 1750, 1200, 0, 0], [0, 0, -750, 0, 0, 0]]), abs=1e-9
    )


def test_beyond_the_end_a_push_along_the_row_has_no_lever():
    """1000 N to the right, 0.5 m above the row and beyond its end: the last support takes it."""
    found = one([(0, 0, 0), (1, 0, 0)], (-0.75, 0.5, 0), force_n=(1000, 0, 0))

    assert found == pytest.approx(
        np.array([[1000, 0, 0, 0, 0, -500], [0, 0, 0, 0, 0, 0]]), abs=1e-9
    )


def test_a_load_that_hangs_over_half_way_twists_by_its_parts():
    """Even over 1 m on either side of the end: half of the twist there, a quarter of it further on.

    The half between both supports, with its middle half-way, is shared alike by both.
    """
    found = lever_sharing(
        np.array([(0.0, 0, 0), (1, 0, 0)]), 0, np.zeros((1, 3)), np.zeros((1, 3)),
        np.array([1.0]), np.array([[100.0, 0, 0]]),
    )[0]  # fmt: skip

    assert found[:, 3] == pytest.approx([75.0, 25.0])


@given(st.floats(-4, 4), st.floats(0, 2), st.floats(-2, 2))
def test_inside_the_row_a_bracket_takes_what_it_carries_where_it_acts(middle, half, height):
    """Between the first and the last support twist and pull are shared alike."""
    half_m = min(half, max(0.0, 2 - abs(middle)))
    middle_m = float(np.clip(middle, -2, 2))
    points_m = np.array([(x, 0, 0) for x in ROW])

    found = lever_sharing(
        points_m, 0, np.array([[0.0, 0, 1000]]), np.array([[middle_m, height, 0]]),
        np.array([half_m]), np.zeros((1, 3)),
    )[0]  # fmt: skip

    assert found[:, 3] == pytest.approx(found[:, 2] * height, abs=1e-4)


@pytest.mark.parametrize(
    ("there", "parted"),
    [((1, 1, 1, 1), False), ((1, 1, 1, 0), True), ((1, 0, 0, 1), False), ((1, 0, 1, 0), True)],
)
def test_a_place_that_has_lost_one_of_two(there, parted):
    """Two places of two supports each: whole, one gone, a whole place gone, one gone of each."""
    positions_m = np.array([-0.6, 0.6, 0.6, -0.6])

    assert parts_a_station(positions_m, np.array(there, dtype=bool)) is parted


def test_longest_axis():
    """A ledge runs across, a post up."""
    assert longest_axis(np.array([(0, 0, 0), (3, 1, 0.0)])) == 0
    assert longest_axis(np.array([(0, 0, 0), (1, 3, 0.0)])) == 1


def test_a_tilting_load_pulls_the_top_pair_and_pushes_the_bottom_pair():
    """Four brackets at the corners of a square: the couple goes into their distance apart.

    By hand: 1000 N at 0.2 m out is a couple of 200 Nm, over a height of 0.5 m 400 N, half of it
    at each of the pair; the weight itself is shared alike.
    """
    points_m = np.array([(-0.4, 0.5, 0.0), (0.4, 0.5, 0.0), (-0.4, 0.0, 0.0), (0.4, 0.0, 0.0)])

    actions = lever_sharing(
        points_m,
        0,
        np.array([[0.0, -1000.0, 0.0]]),
        np.array([[0.0, 0.3, 0.2]]),
        np.array([0.0]),
        np.zeros((1, 3)),
    )[0]

    assert actions[:, 1] == pytest.approx([-250.0] * 4)
    assert actions[:, 2] == pytest.approx([200.0, 200.0, -200.0, -200.0])
    assert actions[:, 3:] == pytest.approx(np.zeros((4, 3)), abs=1e-9)
