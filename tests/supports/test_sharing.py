"""Laws of rigid sharing; values against documents are in tests/published/test_brackets_*.py."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from estimator.supports.arms import HOLDS, Arm, ArmSection, moved, released
from estimator.supports.sharing import (
    changed,
    free_words,
    imbalance,
    rigid_sharing,
)
from estimator.supports.stays import stayed_tip_stiffness

STEEL = (210e9, 81e9)
ARM = ArmSection(1.5e-3, 1.4e-6, 1.4e-6, 2.2e-6)
ROW = np.array([(x, 0.0, 0.4) for x in (-2, -1, 0, 1, 2)])

coordinates = st.floats(-3, 3)
newtons = st.integers(-5000, 5000)


@st.composite
def supported(draw):
    """Return brackets with real arms of any length, and load cases about the datum."""
    count = draw(st.integers(1, 5))
    points_m = draw(arrays(float, (count, 3), elements=coordinates))
    lengths_m = draw(st.lists(st.floats(0.1, 1.5), min_size=count, max_size=count))
    stiffness = np.array(
        [stayed_tip_stiffness(Arm(length, ARM, *STEEL), None) for length in lengths_m]
    )
    loads = draw(arrays(float, (3, 6), elements=newtons))
    return points_m, stiffness, loads


@given(supported())
def test_reactions_hold_the_body_still(case):
    """Equilibrium: forces and moments about the datum, to 1e-9 of the largest."""
    points_m, stiffness, loads = case

    reactions = rigid_sharing(points_m, stiffness, loads).actions

    assert imbalance(points_m, reactions, loads) < 1e-9


@given(supported(), st.floats(-3, 3))
def test_reactions_grow_with_the_loads(case, factor):
    """Linear: twice the load, twice the reaction; rounding of sums in the metre and newton."""
    points_m, stiffness, loads = case

    once = rigid_sharing(points_m, stiffness, loads).actions

    assert rigid_sharing(points_m, stiffness, factor * loads).actions == pytest.approx(
        factor * once, rel=1e-9, abs=1e-6
    )


@given(supported())
def test_mirror(case):
    """Seen in a mirror: across forces change sign, and so do moments about up and out."""
    points_m, stiffness, loads = case
    mirror = np.array([-1, 1, 1, 1, -1, -1])

    plain = rigid_sharing(points_m, stiffness, loads).actions
    mirrored = rigid_sharing(
        points_m * mirror[:3], mirror[:, np.newaxis] * stiffness * mirror, loads * mirror
    ).actions

    assert mirrored == pytest.approx(plain * mirror, rel=1e-8, abs=1e-5)


@given(supported(), arrays(float, 3, elements=st.floats(-50, 50)))
def test_the_datum_may_be_anywhere(case, shift_m):
    """Moving the datum changes the numbers of points and loads, not what a bracket takes."""
    points_m, stiffness, loads = case

    here = rigid_sharing(points_m, stiffness, loads).actions
    there = rigid_sharing(points_m + shift_m, stiffness, moved(loads, shift_m)).actions

    assert there == pytest.approx(here, rel=1e-8, abs=1e-5)


@given(supported())
def test_a_very_stiff_extra_bracket_takes_the_load(case):
    """Far stiffer than the rest in every direction, it takes all but a thousandth."""
    points_m, stiffness, loads = case
    stiff_at = np.array([0.3, -0.2, 0.4])
    points_m = np.vstack([points_m, stiff_at])
    stiff = 1e8 * stayed_tip_stiffness(Arm(0.1, ARM, *STEEL), None)
    stiffness = np.concatenate([stiffness, stiff[np.newaxis]])

    on_stiff = rigid_sharing(points_m, stiffness, loads).actions[:, -1]

    size = 1e-3 * max(1.0, np.abs(loads).max())
    assert on_stiff == pytest.approx(moved(loads, -stiff_at), rel=1e-3, abs=size)


def test_one_bracket_takes_everything():
    """Statics: force, and moment with its lever arm."""
    loads = np.array([[10.0, -200, 30, 4, 5, 6]])
    point_m = np.array([[1.0, 2, 0.5]])

    found = rigid_sharing(
        point_m, stayed_tip_stiffness(Arm(0.5, ARM, *STEEL), None)[np.newaxis], loads
    ).actions

    assert found[0] == pytest.approx(moved(loads, -point_m))


def test_two_equal_birds_on_a_rigid_ledge():
    """By symmetry every one of five equal brackets takes two fifths of one bird."""
    stiffness = np.tile(stayed_tip_stiffness(Arm(0.4, ARM, *STEEL), None), (5, 1, 1))
    bird_n = np.array([0, -1.0, 0, 0, 0, 0])
    both = moved(bird_n, np.array([1.7, 0, 0.4])) + moved(bird_n, np.array([-1.7, 0, 0.4]))

    found = rigid_sharing(ROW, stiffness, both[np.newaxis]).actions

    assert found[0, :, 1] == pytest.approx([-0.4] * 5)


def test_no_load_no_reaction():
    """And nothing is out of balance."""
    stiffness = np.tile(stayed_tip_stiffness(Arm(0.4, ARM, *STEEL), None), (5, 1, 1))
    loads = np.zeros((1, 6))

    found = rigid_sharing(ROW, stiffness, loads).actions

    assert not found.any()
    assert imbalance(ROW, found, loads) == 0


def test_imbalance_sees_a_lost_load():
    """A tenth of the load left out is an imbalance of a tenth."""
    loads = np.array([[0, -100.0, 0, 0, 0, 0]])
    reactions = np.array([[[0, -90.0, 0, 0, 0, 0]]])

    assert imbalance(np.zeros((1, 3)), reactions, loads) == pytest.approx(0.1)


def test_a_number_that_is_not_one_is_refused():
    """Not-a-number in a stiffness stops the run and does not reach a report."""
    stiffness = np.full((1, 6, 6), np.nan)

    with pytest.raises(ValueError, match="infs or NaNs"):
        rigid_sharing(np.zeros((1, 3)), stiffness, np.ones((1, 6)))


@given(supported())
def test_body_moves_as_one(case):
    """Every bracket sees the same rotation, and its own movement by where it is."""
    points_m, stiffness, loads = case

    movements = rigid_sharing(points_m, stiffness, loads).movements

    first, turn = movements[:, :1], movements[:, :1, 3:]
    expected = first[..., :3] + np.cross(turn, points_m - points_m[0])
    size = np.abs(movements).max()
    assert movements[..., 3:] == pytest.approx(
        np.broadcast_to(turn, expected.shape), abs=1e-9 * size
    )
    assert movements[..., :3] == pytest.approx(expected, abs=1e-9 * size)


PINS = np.tile(released(stayed_tip_stiffness(Arm(0.4, ARM, *STEEL), None), HOLDS["pin"]), (4, 1, 1))
CORNERS = np.array([(-1, 0, 0.4), (1, 0, 0.4), (0, 0.8, 0.4), (0, 0, 0.4)])
NAMES = ("B1", "B2", "B3", "B4")


def test_half_and_slack():
    """A half stiff bracket among equal ones takes half as much; a slack one nothing; statics."""
    body = np.array([[0, -100.0, 0, 0, 0, 0]])
    row_m = np.array([(0, 0, 0.4), (0, 0, 0.4), (0, 0, 0.4)])
    equal = np.tile(stayed_tip_stiffness(Arm(0.4, ARM, *STEEL), None), (3, 1, 1))
    at_arms = moved(body, np.array([0, 0, 0.4]))

    softer = changed(equal, np.array([1, 0.5, 1]))
    slack = changed(equal, np.array([1, 0, 1]))

    assert rigid_sharing(row_m, softer, at_arms).actions[0, :, 1] == pytest.approx([-40, -20, -40])
    assert rigid_sharing(row_m, slack, at_arms).actions[0, :, 1] == pytest.approx([-50, 0, -50])


def test_what_a_slack_bracket_frees_is_named():
    """Pins in a row let go of what the one beside the row held; the slack one is not named."""
    words = {
        (1, 1, 1, 1): "",
        (1, 1, 0, 1): "free to swing about the line through B1, B2 and B4",
        (1, 1, 0, 0): "free to swing about the line through B1 and B2",
        (1, 0, 0, 1): "free to swing about the line through B1 and B4",
        (0, 0, 0, 0): "free to fall",
    }

    for factors, expected in words.items():
        stiffness = changed(PINS, np.array(factors, dtype=float))
        assert free_words(CORNERS, stiffness, NAMES) == expected, factors
