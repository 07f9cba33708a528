"""Laws of stayed arms; values from documents are in tests/published/test_brackets_stays.py."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from estimator.supports.arms import Arm, ArmSection, Root, moved
from estimator.supports.stays import (
    StayBar,
    arm_action,
    stay_on_wall,
    stay_pull,
    stayed_flexibility,
    stayed_tip_flexibility,
    stayed_tip_stiffness,
)

ARM = Arm(0.9, ArmSection(1.5e-3, 1.4e-6, 0.8e-6, 2.2e-6), 210e9, 81e9)
STAY = StayBar(0.7, 0.6, 1.1e-4, 210e9)
NOTHING = StayBar(0.7, 0.6, 1e-15, 210e9)
GIVES = Root(3e7, 2e5)

sixes = arrays(float, 6, elements=st.integers(-3000, 3000))
stays = st.builds(
    StayBar,
    st.sampled_from([-1, 1]).flatmap(lambda sign: st.floats(0.2, 1.5).map(lambda x: sign * x)),
    st.floats(0.2, 1.5),
    st.floats(1e-5, 1e-3),
    st.just(210e9),
)
roots = st.builds(Root, st.floats(1e6, 1e9), st.floats(1e4, 1e7), st.booleans())


@given(stays, roots, sixes)
def test_arm_and_stay_make_up_the_whole(stay, root, action):
    """Statics: what arm and stay do to the wall is what acts at the tip, taken to the root."""
    pull_n = np.float64(stay_pull(ARM, stay, root) @ action)

    whole = arm_action(stay, pull_n, action, ARM.length_m) + stay_on_wall(stay, pull_n)

    size = max(1.0, np.abs(action).max(), abs(pull_n))
    assert whole == pytest.approx(moved(action, np.array([0, 0, 0.9])), abs=1e-9 * size)


@given(stays, sixes)
def test_pinned_root_carries_no_moment_about_across(stay, action):
    """That is what pinned means: to rounding."""
    pull_n = np.float64(stay_pull(ARM, stay, Root(pinned=True)) @ action)

    at_root = arm_action(stay, pull_n, action, ARM.length_m)

    assert at_root[3] == pytest.approx(0, abs=1e-9 * max(1.0, np.abs(action).max(), abs(pull_n)))


@given(stays, roots, st.floats(0.1, 1.5), st.floats(0.1, 1.5))
def test_movement_and_action_may_change_places(stay, root, here_m, there_m):
    """Maxwell's reciprocal theorem."""
    one = stayed_flexibility(ARM, stay, here_m, there_m, root)
    other = stayed_flexibility(ARM, stay, there_m, here_m, root)

    assert one == pytest.approx(other.T, rel=1e-9, abs=1e-9 * np.abs(one).max())


@given(stays, roots)
def test_tip_is_held_in_every_direction(stay, root):
    """Positive definite, symmetric, and stiffness is the inverse; lengths scaled to rotations."""
    flexibility = stayed_tip_flexibility(ARM, stay, root)

    assert flexibility == pytest.approx(flexibility.T, rel=1e-9, abs=1e-9 * flexibility.max())
    assert np.linalg.eigvalsh((flexibility + flexibility.T) / 2).min() > 0
    product = stayed_tip_stiffness(ARM, stay, root) @ flexibility
    assert product == pytest.approx(np.eye(6), abs=1e-6)


@given(stays, sixes)
def test_a_stay_only_stiffens(stay, action):
    """Energy: the same action does no more work on a stayed tip than on a plain one."""
    plain, stayed = (stayed_tip_flexibility(ARM, s) for s in (None, stay))

    assert action @ stayed @ action <= action @ plain @ action * (1 + 1e-9) + 1e-12


def test_a_stay_of_no_area_does_nothing():
    """The plain arm is the limit."""
    plain = stayed_tip_flexibility(ARM, None)

    assert stayed_tip_flexibility(ARM, NOTHING) == pytest.approx(plain, rel=1e-6)
    assert stay_pull(ARM, NOTHING) == pytest.approx(np.zeros(6), abs=1e-8)


@pytest.mark.parametrize("root", [Root(), GIVES])
def test_pinned_root_is_the_limit_of_one_that_gives(root):
    """A root that turns a million times more easily is all but pinned; sideways it is held."""
    soft = ARM._replace(length_m=STAY.to_m)
    pinned = stayed_tip_flexibility(soft, STAY, root._replace(pinned=True))[1:4, 1:4]

    loose = stayed_tip_flexibility(soft, STAY, root._replace(turn_nm_rad=1.0))[1:4, 1:4]

    assert loose == pytest.approx(pinned, rel=1e-3)


def test_wall_that_gives_shifts_load_to_the_stay():
    """A root that tilts more leaves more to the stay; and the tip moves more."""
    down = np.array([0, -1000.0, 0, 0, 0, 0])

    tilting = Root(turn_nm_rad=1e5)

    assert stay_pull(ARM, STAY, tilting) @ down > stay_pull(ARM, STAY) @ down > 0
    assert (stayed_tip_flexibility(ARM, STAY, tilting) - stayed_tip_flexibility(ARM, STAY))[
        1, 1
    ] > 0


def test_wall_that_gives_under_a_plain_arm():
    """By hand: out by P / k, and a tilt of M / k carried out to the tip."""
    found = stayed_tip_flexibility(ARM, None, GIVES) - stayed_tip_flexibility(ARM, None)

    expected = [0.9**2 / 2e5, 0.9**2 / 2e5, 1 / 3e7, 1 / 2e5, 1 / 2e5, 0]
    assert np.diag(found) == pytest.approx(expected, abs=1e-15)


def test_strut_below_pushes_where_a_stay_above_pulls():
    """Mirrored up and down: the same force with the other sign, and weight presses it."""
    down = np.array([0, -1000.0, 0, 0, 0, 0])
    strut = STAY._replace(from_m=-STAY.from_m)

    assert stay_pull(ARM, strut) @ down == pytest.approx(-stay_pull(ARM, STAY) @ down)
    assert stay_pull(ARM, strut) @ down < 0


def test_stay_works_in_its_own_plane_only():
    """What acts across, and moments about up and out, leave it alone."""
    assert stay_pull(ARM, STAY)[[0, 4, 5]] == pytest.approx(np.zeros(3), abs=1e-15)


def test_cut_between_stay_and_load():
    """Beyond the stay the arm carries the load alone; inside it, stay and load; by hand."""
    action, pull_n = np.array([0, -100.0, 0, 0, 0, 0]), np.float64(50)
    up_n, in_n = 50 * 0.7 / np.hypot(0.7, 0.6), 50 * 0.6 / np.hypot(0.7, 0.6)

    beyond = arm_action(STAY, pull_n, action, 0.9, cut_m=0.7)
    inside = arm_action(STAY, pull_n, action, 0.9, cut_m=0.5)
    further = arm_action(STAY._replace(to_m=1.0), pull_n, action, 0.9, cut_m=0.95)

    assert beyond == pytest.approx([0, -100, 0, 20, 0, 0])
    assert inside == pytest.approx([0, up_n - 100, -in_n, 40 - 0.1 * up_n, 0, 0])
    assert further[1] > 0
    assert further[1] == pytest.approx(50 * 0.7 / np.hypot(0.7, 1.0))


def test_many_actions_at_once():
    """A row of pulls and actions gives a row of answers."""
    actions = np.arange(24.0).reshape(4, 6)
    pulls = actions @ stay_pull(ARM, STAY)

    at_root, on_wall = arm_action(STAY, pulls, actions, 0.9), stay_on_wall(STAY, pulls)

    assert at_root[2] == pytest.approx(arm_action(STAY, pulls[2], actions[2], 0.9))
    assert on_wall[2] == pytest.approx(stay_on_wall(STAY, pulls[2]))
    assert at_root.shape == on_wall.shape == (4, 6)


@pytest.mark.parametrize(
    "wrong", [{"to_m": 0.0}, {"from_m": 0.0}, {"area_m2": -1}, {"e_pa": np.nan}]
)
def test_stay_that_cannot_be(wrong):
    """Nothing that would divide by nothing goes in."""
    with pytest.raises(ValueError, match="a stay needs two points apart along and up the wall"):
        stay_pull(ARM, STAY._replace(**wrong))


@pytest.mark.parametrize("root", [Root(out_n_m=0.0), Root(turn_nm_rad=-1.0), Root(np.nan)])
def test_wall_without_stiffness(root):
    """Zero is no stiffness."""
    with pytest.raises(ValueError, match="a wall needs stiffnesses above zero"):
        stayed_tip_flexibility(ARM, None, root)


def test_pinned_root_without_a_stay():
    """Said plainly, not as a singular matrix."""
    with pytest.raises(
        ValueError, match="an arm with a pinned root and no stay at work falls down"
    ):
        stayed_tip_stiffness(ARM, None, Root(pinned=True))
