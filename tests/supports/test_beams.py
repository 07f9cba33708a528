"""Laws of bodies that bend; printed answers and frame libraries are in tests/published."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from estimator.supports.arms import HOLDS, Arm, ArmSection, moved, released
from estimator.supports.beams import Beam, beam_influence
from estimator.supports.lever import lever_shares
from estimator.supports.mechanisms import MechanismError
from estimator.supports.sharing import changed, imbalance, rigid_sharing
from estimator.supports.stays import StayBar, stayed_tip_stiffness

SECTION = ArmSection(1.5e-3, 1.4e-6, 0.8e-6, 2.2e-6)
RODS = (None, StayBar(0.6, 0.5, 1e-4, 210e9))
few = settings(max_examples=30)
newtons = st.integers(-3000, 3000)
metres = st.floats(-3, 3)


def beam_sharing(points_m, stiffness, beam, at_m, half_m, action):
    """Return what each load (m, 6) does to each bracket, (m, n, 6)."""
    influence = beam_influence(points_m, stiffness, beam, at_m, half_m)
    return np.einsum("mnij,mj->mni", influence, action)


@st.composite
def rows(draw):
    """Return points, stiffnesses, a beam along any axis, and three loads of any kind."""
    count = draw(st.integers(1, 5))
    points_m = draw(arrays(float, (count, 3), elements=metres))
    stiffness = np.array(
        [
            stayed_tip_stiffness(
                Arm(draw(st.floats(0.2, 1.0)), SECTION, 210e9, 81e9), draw(st.sampled_from(RODS))
            )
            for _ in range(count)
        ]
    )
    bending = 10.0 ** draw(arrays(float, 3, elements=st.floats(1, 12)))
    beam = Beam(draw(st.integers(0, 2)), bending)
    at_m = draw(arrays(float, (3, 3), elements=metres))
    half_m = draw(arrays(float, 3, elements=st.sampled_from([0.0, 0.3, 2.0])))
    return points_m, stiffness, beam, at_m, half_m, draw(arrays(float, (3, 6), elements=newtons))


@few
@given(rows())
def test_reactions_hold_the_body_still(case):
    """Equilibrium of forces and moments, to 1e-9 of the largest, however limber or stiff."""
    points_m, _, _, at_m, _, action = case

    assert imbalance(points_m, beam_sharing(*case), moved(action, at_m)) < 1e-9


@few
@given(rows())
def test_a_stiff_bar_is_a_rigid_body(case):
    """The limit of rigid sharing: 1e15 N m2 against arms of 3e5."""
    points_m, stiffness, beam, at_m, half_m, action = case
    rigid = rigid_sharing(points_m, stiffness, moved(action, at_m)).actions

    found = beam_sharing(points_m, stiffness, Beam(beam.axis, 1e15), at_m, half_m, action)

    assert found == pytest.approx(rigid, rel=1e-5, abs=1e-4 * max(1.0, np.abs(rigid).max()))


@few
@given(rows(), arrays(float, 3, elements=st.floats(-20, 20)))
def test_the_datum_may_be_anywhere(case, shift_m):
    """Moving the datum changes the numbers of places, not what a bracket takes."""
    points_m, stiffness, beam, at_m, half_m, action = case
    here = beam_sharing(*case)

    there = beam_sharing(points_m + shift_m, stiffness, beam, at_m + shift_m, half_m, action)

    assert there == pytest.approx(here, rel=1e-6, abs=1e-5 * max(1.0, np.abs(here).max()))


@few
@given(rows())
def test_mirror(case):
    """Seen in a mirror: across forces change sign, and so do moments about up and out."""
    points_m, stiffness, beam, at_m, half_m, action = case
    mirror = np.array([-1, 1, 1, 1, -1, -1])
    plain = beam_sharing(*case)

    mirrored = beam_sharing(
        points_m * mirror[:3],
        mirror[:, np.newaxis] * stiffness * mirror,
        beam,
        at_m * mirror[:3],
        half_m,
        action * mirror,
    )

    assert mirrored == pytest.approx(
        plain * mirror, rel=1e-6, abs=1e-5 * np.abs(plain).max() + 1e-6
    )


@few
@given(rows())
def test_a_spread_load_is_the_sum_of_its_pieces(case):
    """Cut in two halves: by linearity the same, exactly where a bracket stands in between too."""
    points_m, stiffness, beam, at_m, _, action = case
    half_m = np.full(3, 1.5)
    step_m = 0.75 * np.eye(3)[beam.axis]

    whole = beam_sharing(points_m, stiffness, beam, at_m, half_m, action)
    left, right = (
        beam_sharing(points_m, stiffness, beam, at_m + side * step_m, half_m / 2, action / 2)
        for side in (-1, 1)
    )

    assert left + right == pytest.approx(whole, rel=1e-7, abs=1e-7 * max(1.0, np.abs(whole).max()))


@few
@given(rows(), st.randoms(use_true_random=False))
def test_what_one_load_does_another_feels(case, random):
    """Maxwell and Betti: swapping bracket and load places leaves the work the same.

    Two brackets' worth of unit loads at the brackets' own points: the shares times the
    brackets' give are the movements there, which are symmetric.
    """
    points_m, stiffness, beam, _, _, _ = case
    count = len(points_m)
    at = beam_influence(points_m, stiffness, beam, points_m, np.zeros(count))
    give = np.linalg.inv(stiffness)
    movement = np.einsum("nij,mnjk->nimk", give, at).reshape(6 * count, 6 * count)
    random.shuffle(order := list(range(6 * count)))

    shuffled = movement[np.ix_(order, order)]

    assert shuffled == pytest.approx(shuffled.T, rel=1e-5, abs=1e-6 * np.abs(movement).max())


def test_two_brackets_need_no_stiffness():
    """Plane statics: ball-jointed bodies on two supports share by the lever, whatever bends."""
    points_m = np.array([(0.0, 0, 0.4), (2.0, 0, 0.4)])
    arm = stayed_tip_stiffness(Arm(0.4, SECTION, 210e9, 81e9), None)
    stiffness = np.array([released(arm, HOLDS["pin"])] * 2)
    stiffness[:, 3, 3] = 1e5  # neither joint lets the body roll over
    at_m, half_m = np.array([(0.5, 0, 0.4), (2.6, 0, 0.4), (1.4, 0, 0.4)]), np.array([0, 0, 0.9])
    action = np.tile([0, -100.0, 0, 0, 0, 0], (3, 1))

    for bending in (1e2, 1e5, 1e9):
        found = beam_sharing(points_m, stiffness, Beam(0, bending), at_m, half_m, action)
        lever = lever_shares(points_m[:, 0], at_m[:, 0], half_m)
        assert found[:, :, 1] == pytest.approx(-100 * lever, abs=1e-5)


def test_one_bracket_takes_everything():
    """Statics: force, and moment with its lever arm."""
    action, at_m = np.array([[10.0, -200, 30, 4, 5, 6]]), np.array([[1.0, 2, 0.5]])
    arm = stayed_tip_stiffness(Arm(0.5, SECTION, 210e9, 81e9), None)[np.newaxis]

    found = beam_sharing(np.zeros((1, 3)), arm, Beam(0, 1e4), at_m, np.zeros(1), action)

    assert found[0] == pytest.approx(moved(action, at_m))


def test_two_brackets_in_one_place_of_the_row():
    """One above the other they share along; equal ones take equal parts of what acts midway."""
    points_m = np.array([(-1.0, 0, 0.4), (1.0, -0.2, 0.4), (1.0, 0.2, 0.4)])
    stiffness = np.tile(stayed_tip_stiffness(Arm(0.4, SECTION, 210e9, 81e9), None), (3, 1, 1))
    action, at_m = np.array([[0, -300.0, 0, 0, 0, 0]]), np.array([[0.6, 0, 0.4]])

    found = beam_sharing(points_m, stiffness, Beam(0, 1e5), at_m, np.zeros(1), action)[0]

    assert found[1, 1] == pytest.approx(found[2, 1])
    assert found[1, 1] + found[2, 1] < -0.7 * 300


def test_slack_bracket_takes_nothing():
    """The others share as if it were not there."""
    points_m = np.array([(x, 0.0, 0.4) for x in (-2, -0.5, 1, 2)])
    stiffness = np.tile(stayed_tip_stiffness(Arm(0.4, SECTION, 210e9, 81e9), None), (4, 1, 1))
    at_m, action = np.array([[0.4, 0.1, 0.6]]), np.array([[100, -300.0, 50, 0, 20, 0]])
    there = [0, 2, 3]
    bar, half_m = Beam(0, 1e5), np.zeros(1)

    slack = changed(stiffness, np.array([1.0, 0, 1, 1]))
    found = beam_sharing(points_m, slack, bar, at_m, half_m, action)[0]

    assert not found[1].any()
    # The axis of the bar runs through the middle of the points, here in one line with all.
    without = beam_sharing(points_m[there], stiffness[there], bar, at_m, half_m, action)[0]
    assert found[there] == pytest.approx(without, rel=1e-7, abs=1e-6)


def test_body_that_bends_no_way_at_all_is_rigid():
    """Infinite stiffness is not refused: it is the rigid body."""
    points_m = np.array([(x, 0.0, 0.4) for x in (-2, -0.5, 1)])
    stiffness = np.tile(stayed_tip_stiffness(Arm(0.4, SECTION, 210e9, 81e9), None), (3, 1, 1))
    at_m, action = np.array([[0.4, 0.1, 0.6]]), np.array([[100, -300.0, 50, 0, 20, 0]])

    found = beam_sharing(points_m, stiffness, Beam(0, np.inf), at_m, np.zeros(1), action)

    rigid = rigid_sharing(points_m, stiffness, moved(action, at_m)).actions
    assert found == pytest.approx(rigid, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("bending", [0.0, -1.0, np.nan, np.array([1.0, 0.0, 1.0])])
def test_bar_without_stiffness(bending):
    """Nothing to divide by."""
    with pytest.raises(ValueError, match="a body that bends needs E I above zero"):
        beam_influence(
            np.zeros((1, 3)), np.eye(6)[None], Beam(0, bending), np.zeros((1, 3)), np.zeros(1)
        )


def test_body_that_is_not_held():
    """Named as for a rigid body."""
    points_m = np.array([(-1.0, 0, 0.4), (1.0, 0, 0.4)])
    balls = np.array([np.diag([1e6, 1e6, 1e6, 0, 0, 0])] * 2)

    with pytest.raises(MechanismError, match="free to swing about the line through bracket 1 and"):
        beam_influence(points_m, balls, Beam(0, 1e5), np.zeros((1, 3)), np.zeros(1))
