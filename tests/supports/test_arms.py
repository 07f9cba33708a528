"""Arms and joints; values against a frame are in tests/published/test_brackets_frames.py."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.supports.arms import (
    HOLDS,
    LIFTS_OFF,
    Arm,
    ArmSection,
    Root,
    carried,
    flexibility_between,
    moved,
    released,
    tip_flexibility,
)
from estimator.supports.stays import stayed_tip_stiffness

SECTION = ArmSection(1.5e-3, 2e-6, 1e-6, 2.2e-6)
STEEL = (210e9, 81e9)
LENGTH_M = 0.8
sixes = st.lists(st.floats(-1e4, 1e4), min_size=6, max_size=6).map(np.array)
threes = st.lists(st.floats(-5, 5), min_size=3, max_size=3).map(np.array)


def test_weight_makes_the_tip_sag_and_nod():
    """Plane statics: a load down moves the tip down and turns it top forward, + about across."""
    movement = tip_flexibility(LENGTH_M, SECTION, *STEEL) @ [0, -1000, 0, 0, 0, 0]

    assert movement[1] < 0
    assert movement[3] > 0
    assert np.count_nonzero(movement) == 2


def test_push_to_the_right_swings_the_tip_right():
    """Plane statics: a load to the right turns the tip's front to the right, + about up."""
    movement = tip_flexibility(LENGTH_M, SECTION, *STEEL) @ [1000, 0, 0, 0, 0, 0]

    assert movement[0] > 0
    assert movement[4] > 0
    assert np.count_nonzero(movement) == 2


def test_each_second_moment_serves_its_own_direction():
    """End load on a cantilever, P L^3 / 3 E I: half the second moment, twice the movement."""
    flexibility = tip_flexibility(LENGTH_M, SECTION, *STEEL)

    assert flexibility[0, 0] == pytest.approx(2 * flexibility[1, 1])
    assert flexibility[1, 1] == pytest.approx(LENGTH_M**3 / (3 * 210e9 * 2e-6))


def test_stiffness_of_a_built_in_arm():
    """Textbook beam stiffness 12 E I / L^3, 6 E I / L^2, 4 E I / L, with the tip held level."""
    stiffness = stayed_tip_stiffness(Arm(LENGTH_M, SECTION, *STEEL), None)
    bending = 210e9 * 2e-6

    assert stiffness[1, 1] == pytest.approx(12 * bending / LENGTH_M**3)
    assert stiffness[1, 3] == pytest.approx(6 * bending / LENGTH_M**2)
    assert stiffness[3, 3] == pytest.approx(4 * bending / LENGTH_M)
    assert stiffness == pytest.approx(stiffness.T)


@pytest.mark.parametrize("wrong", [0.0, -0.1, float("nan")])
def test_arm_without_length_is_refused(wrong):
    """Nothing to divide by."""
    with pytest.raises(ValueError, match="an arm needs values above zero"):
        tip_flexibility(wrong, SECTION, *STEEL)
    with pytest.raises(ValueError, match="an arm needs values above zero"):
        stayed_tip_stiffness(Arm(LENGTH_M, SECTION._replace(j_m4=wrong), *STEEL), None)


def test_pin_halves_to_a_simple_cantilever():
    """Freed of its end moments an arm has the textbook 3 E I / L^3 and E A / L."""
    pinned = released(stayed_tip_stiffness(Arm(LENGTH_M, SECTION, *STEEL), None), HOLDS["pin"])

    assert np.diag(pinned) == pytest.approx(
        [
            3 * 210e9 * 1e-6 / LENGTH_M**3,
            3 * 210e9 * 2e-6 / LENGTH_M**3,
            210e9 * 1.5e-3 / LENGTH_M,
            0,
            0,
            0,
        ]
    )


@pytest.mark.parametrize("held", HOLDS.values(), ids=HOLDS)
def test_freed_directions_carry_nothing(held):
    """Whatever the movement, a freed direction has no action; and freeing twice is freeing once."""
    stiffness = released(stayed_tip_stiffness(Arm(LENGTH_M, SECTION, *STEEL), None), held)
    freed = ~np.array(held)

    assert not stiffness[freed].any()
    assert not stiffness[:, freed].any()
    assert np.all(np.diag(stiffness)[list(held)] > 0)
    assert released(stiffness, held) == pytest.approx(stiffness, rel=1e-12)


def test_welded_holds_everything():
    """Nothing is freed, so nothing changes."""
    stiffness = stayed_tip_stiffness(Arm(LENGTH_M, SECTION, *STEEL), None)

    assert released(stiffness, HOLDS["welded"]) == pytest.approx(stiffness, rel=0)


def test_weight_out_from_the_wall_pulls_the_top_fixings():
    """Plane statics: 100 N down at 0.5 m out is +50 N m about across at the wall."""
    on_wall = moved(np.array([0, -100.0, 0, 0, 0, 0]), np.array([0, 0, 0.5]))

    assert on_wall == pytest.approx([0, -100, 0, 50, 0, 0])


@given(sixes, threes, threes)
def test_moving_twice_is_moving_once(action, first, second):
    """Statics: lever arms add."""
    once = moved(action, first + second)

    assert moved(moved(action, first), second) == pytest.approx(once, rel=1e-9, abs=1e-6)


def test_moving_many_at_once():
    """One action to many points, and many actions to one, broadcast."""
    action, ways = np.arange(6.0), np.arange(12.0).reshape(4, 3)

    assert moved(action, ways) == pytest.approx(np.array([moved(action, w) for w in ways]))
    assert moved(np.tile(action, (4, 1)), ways[0]).shape == (4, 6)


def test_arm_is_straight_beyond_its_load():
    """By hand: further out it moves by its slope, and a load further out brings a moment along."""
    arm = Arm(LENGTH_M, SECTION, *STEEL)
    tip = tip_flexibility(0.5, SECTION, *STEEL)

    beyond = flexibility_between(arm, 0.8, 0.5)

    assert beyond[1, 1] == pytest.approx(tip[1, 1] - 0.3 * tip[3, 1])
    assert beyond[0, 0] == pytest.approx(tip[0, 0] + 0.3 * tip[4, 0])
    assert flexibility_between(arm, 0.5, 0.8) == pytest.approx(beyond.T)
    assert flexibility_between(arm, 0.5, 0.5) == pytest.approx(tip)


def test_carrying_is_moving_turned_round():
    """Work: the movement carried out does with an action what the action taken back does."""
    action = np.array([1.0, -2, 3, 4, -5, 6])

    assert carried(0.7).T @ action == pytest.approx(moved(action, np.array([0, 0, 0.7])))


def test_wall_gives_by_pulling_and_tilting_only():
    """By hand: pull over its stiffness, moment over its; sliding and twisting are left stiff."""
    arm, root = Arm(LENGTH_M, SECTION, *STEEL), Root(out_n_m=2e7, turn_nm_rad=5e5)

    found = flexibility_between(arm, 0.5, 0.8, root) - flexibility_between(arm, 0.5, 0.8)

    diagonal = [0.5 * 0.8 / 5e5, 0.5 * 0.8 / 5e5, 1 / 2e7, 1 / 5e5, 1 / 5e5, 0]
    assert np.diag(found) == pytest.approx(diagonal, abs=1e-15)


def test_what_lifts_off_is_a_way_of_holding():
    """Words for those that bear down only; nothing else."""
    assert set(LIFTS_OFF) < set(HOLDS)
    assert all(HOLDS[name][1] for name in LIFTS_OFF)
