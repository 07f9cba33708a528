"""Stays that go slack and bodies that lift off; against a frame library in tests/published."""

from typing import NamedTuple

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from scipy import optimize

from estimator.supports.arms import HOLDS, Arm, ArmSection, moved, released
from estimator.supports.sharing import imbalance, rigid_sharing
from estimator.supports.slackening import (
    MOST,
    NO_STATE,
    OneWay,
    consistent_state,
    rest_sense,
    state_sharing,
    states_of,
    stay_sense,
)
from estimator.supports.stays import StayBar, stay_pull, stayed_tip_stiffness

SECTION = ArmSection(1.5e-3, 1.4e-6, 0.8e-6, 2.2e-6)
ARMS = [Arm(length_m, SECTION, 210e9, 81e9) for length_m in (0.9, 0.7, 0.8)]
RODS = [
    StayBar(up_m, out_m, 1.1e-4, 210e9) for up_m, out_m in ((0.7, 0.8), (-0.6, 0.5), (0.5, 0.9))
]
POINTS_M = np.array([(-1.2, 0.1, 0.9), (0.1, -0.3, 0.7), (1.1, 0.2, 0.8)])
PINNED = HOLDS["pin"]
newtons = st.integers(-4000, 4000)


class Settled(NamedTuple):
    """Actions (m, n, 6), state (m,) and what one-way parts carry (m, k)."""

    actions: np.ndarray
    state: np.ndarray
    carried_n: np.ndarray


def settled(points_m, stiffness, ways, loads):
    """Return what loads do in the state that agrees with itself, and that state; NaN in none.

    As `estimator.supports.extremes` chooses it.
    """
    found = state_sharing(points_m, stiffness, ways, loads)
    at_work = states_of(len(ways))
    state, cases = consistent_state(found.carried_n, at_work), np.arange(len(loads))
    held = state != NO_STATE
    carried_n = np.where(at_work[state], found.carried_n[state, cases], 0.0)
    actions = np.where(held[:, None, None], found.actions[state, cases], np.nan)
    return Settled(actions, state, np.where(held[:, None], carried_n, np.nan))


def stayed_set(held=HOLDS["welded"]):
    """Return the stiffness of three stayed brackets in all states, their one-way stays, pulls."""
    states = states_of(3)
    stiffness = np.array(
        [
            [
                released(stayed_tip_stiffness(arm, rod if on else None), held)
                for arm, rod, on in zip(ARMS, RODS, state, strict=True)
            ]
            for state in states
        ]
    )
    pulls = [stay_pull(arm, rod) for arm, rod in zip(ARMS, RODS, strict=True)]
    ways = [OneWay(n, stay_sense(stiffness[0, n], pull)) for n, pull in enumerate(pulls)]
    return stiffness, ways, np.array(pulls)


WELDED, JOINTED = stayed_set(), stayed_set(PINNED)


@pytest.mark.parametrize("stayed", [WELDED, JOINTED], ids=["welded", "pinned to the body"])
@given(loads=arrays(float, (4, 6), elements=newtons))
def test_stays_pull_or_are_slack(stayed, loads):
    """In balance; no rod pushes; and a slack rod's place on its arm has come nearer to the wall."""
    stiffness, ways, pulls = stayed
    at_work = states_of(3)

    found = settled(POINTS_M, stiffness, ways, loads)

    size = max(1.0, np.abs(found.actions).max())
    assert imbalance(POINTS_M, found.actions, loads) < 1e-9
    assert np.all(found.carried_n >= -1e-7 * size)
    # With the action on an arm, its rod would pull by this, were it at work.
    would = np.einsum("mni,ni->mn", found.actions, pulls)
    assert np.maximum(would, 0) == pytest.approx(found.carried_n, abs=1e-6 * size)
    assert np.all(would[~at_work[found.state]] <= 1e-6 * size)


@pytest.mark.parametrize("stayed", [WELDED, JOINTED], ids=["welded", "pinned to the body"])
@given(loads=arrays(float, (4, 6), elements=newtons))
def test_actions_alone_tell_the_state(stayed, loads):
    """The sign of what a rod would pull by the action on its arm, state by state, is enough."""
    stiffness, ways, pulls = stayed
    shared = np.array([rigid_sharing(POINTS_M, k, loads).actions for k in stiffness])
    found = settled(POINTS_M, stiffness, ways, loads)

    state = consistent_state(np.einsum("smni,ni->smn", shared, pulls), states_of(3))

    here = shared[state, np.arange(len(loads))]
    size = max(1.0, np.abs(here).max())
    assert here == pytest.approx(found.actions, abs=1e-6 * size)


@given(arrays(float, 6, elements=newtons))
def test_least_energy(load):
    """The movement found is the one of least potential energy, by a search that knows no states.

    Energy of a rod counts only while it is stretched. Loads are scaled to the stiffest movement.
    """
    stiffness, ways, _ = WELDED
    found = settled(POINTS_M, stiffness, ways, load[np.newaxis])
    off, gains = stiffness[-1], stiffness[0] - stiffness[-1]
    senses = np.array([way.sense for way in ways])
    # A rod's own stiffness against its movement: gain = sense sense^T x this.
    factors = [np.trace(g) / (s @ s) for g, s in zip(gains, senses, strict=True)]
    to_points = np.tile(np.eye(6), (3, 1, 1))
    to_points[:, :3, 3:] = np.cross(np.eye(3), POINTS_M[:, np.newaxis]).transpose(0, 2, 1)

    def gradient(body):
        movements = to_points @ body
        stretched = np.maximum(np.einsum("ni,ni->n", senses, movements), 0)
        forces = np.einsum("nij,nj->ni", off, movements) + (factors * stretched)[:, None] * senses
        return np.einsum("nji,nj->i", to_points, forces) - load

    start = np.linalg.solve(np.einsum("nji,njk,nkl->il", to_points, off, to_points), load)
    body = optimize.root(gradient, start, tol=1e-12).x

    movements = to_points @ body
    forces = np.einsum("nij,nj->ni", off, movements)
    stretched = np.maximum(np.einsum("ni,ni->n", senses, movements), 0)
    forces += (factors * stretched)[:, None] * senses
    size = max(1.0, np.abs(load).max())
    assert np.abs(gradient(body)).max() <= 1e-6 * size
    assert found.actions[0] == pytest.approx(forces, abs=1e-4 * size)


@given(arrays(float, (2, 6), elements=newtons), st.floats(0.1, 50))
def test_more_of_the_same_load(loads, factor):
    """Nothing is stretched beforehand, so twice the load is twice the action, slack as before."""
    stiffness, ways, _ = WELDED

    once = settled(POINTS_M, stiffness, ways, loads)
    more = settled(POINTS_M, stiffness, ways, factor * loads)

    size = max(1.0, factor * np.abs(once.actions).max())
    assert more.actions == pytest.approx(factor * once.actions, abs=1e-7 * size)


def test_load_on_a_slack_stay_changes_nothing_until_it_tightens():
    """Uplift of 2000 N on one arm, then weight bit by bit: no pull before the sum is downwards."""
    stiffness = np.array(
        [[stayed_tip_stiffness(ARMS[0], RODS[0] if on else None)] for on in (1, 0)]
    )
    way = OneWay(0, stay_sense(stiffness[0, 0], stay_pull(ARMS[0], RODS[0])))
    weights_n = np.array([0, 500, 1500, 1999, 2001, 3000.0])
    loads = np.zeros((6, 6))
    loads[:, 1] = 2000 - weights_n

    at_origin = settled(np.zeros((1, 3)), stiffness, [way], loads)

    slack = weights_n < 2000
    assert at_origin.state.tolist() == [1, 1, 1, 1, 0, 0]
    assert np.all(at_origin.carried_n[slack, 0] == 0)
    assert np.all(at_origin.carried_n[~slack, 0] > 0)


def resting():
    """Return a body pinned at one end and resting at two brackets, one of them out of line."""
    points_m = np.array([(0.0, 0, 0.5), (1.0, 0, 0.5), (0.5, 0, 0.8)])
    arms = [Arm(out_m, SECTION, 210e9, 81e9) for out_m in points_m[:, 2]]
    whole = np.array([stayed_tip_stiffness(arm, None) for arm in arms])
    on = np.array(
        [released(k, HOLDS[h]) for k, h in zip(whole, ("pin", "rests", "rests"), strict=True)]
    )
    on[0, 4, 4] = 1e6  # a collar that keeps it from swinging sideways
    ways = [OneWay(n, rest_sense(on[n])) for n in (1, 2)]
    states = states_of(2)
    stiffness = np.array([[on[0], *(on[n + 1] * state[n] for n in range(2))] for state in states])
    return points_m, stiffness, ways


def test_body_at_rest_on_its_brackets():
    """Plane statics: weight in the middle of the three brackets presses a third on each."""
    points_m, stiffness, ways = resting()
    load = moved(np.array([0, -300.0, 0, 0, 0, 0]), points_m.mean(axis=0))

    found = settled(points_m, stiffness, ways, load[np.newaxis])

    assert found.actions[0, :, 1] == pytest.approx([-100] * 3)
    assert found.carried_n[0] == pytest.approx([100, 100])


def test_body_lifts_off_and_there_is_nothing_to_hold_it():
    """Pushed up it leaves what it rests on and turns about its pin: no answer."""
    points_m, stiffness, ways = resting()
    load = moved(np.array([0, 50.0, 0, 0, 0, 0]), points_m.mean(axis=0))

    found = settled(points_m, stiffness, ways, load[np.newaxis])

    assert found.state.tolist() == [NO_STATE]
    assert np.isnan(found.actions).all()
    assert np.isnan(found.carried_n).all()


def test_body_welded_at_one_end_lifts_off_the_other():
    """What remains is one bracket, which takes it all; weight again rests on both."""
    points_m = np.array([(0.0, 0, 0.5), (1.0, 0, 0.5)])
    welded = stayed_tip_stiffness(Arm(0.5, SECTION, 210e9, 81e9), None)
    rest = released(welded, HOLDS["rests"])
    stiffness = np.array([[welded, rest], [welded, 0 * rest]])
    loads = np.array([[0, 100.0, 0, 0, 0, 0], [0, -100.0, 0, 0, 0, 0]])
    loads = moved(loads, np.array([0.9, 0, 0.5]))

    found = settled(points_m, stiffness, [OneWay(1, rest_sense(rest))], loads)

    assert found.state.tolist() == [1, 0]
    assert found.actions[0, 0] == pytest.approx(moved(loads[0], -points_m[0]))
    assert found.actions[1, 1, 1] < 0
    assert found.carried_n[1] == pytest.approx(-found.actions[1, 1, 1])


def test_no_one_way_part_is_plain_sharing():
    """One state, with nothing to ask."""
    stiffness, _, _ = WELDED
    loads = np.array([[100.0, -200, 300, 40, 50, 60], [0, 0, 0, 0, 0, 0]])

    found = settled(POINTS_M, stiffness[:1], [], loads)

    assert found.state.tolist() == [0, 0]
    assert found.actions == pytest.approx(rigid_sharing(POINTS_M, stiffness[0], loads).actions)


def test_states_in_order():
    """All at work first, nothing last, each once."""
    assert states_of(2).tolist() == [[True, True], [True, False], [False, True], [False, False]]
    assert states_of(0).shape == (1, 0)
    assert len(states_of(MOST)) == 64


def test_too_many():
    """Said with what to do."""
    sentence = (
        "7 stays and rests that work one way only share one body, of which no more than 6 can be "
        "tried together: take some as struts, or split the set"
    )
    with pytest.raises(ValueError, match=f"^{sentence}$"):
        states_of(MOST + 1)


def test_first_state_that_agrees_and_none():
    """A tie at nothing counts for the first; where each state contradicts itself there is none."""
    would_carry_n = np.array([[[0.0], [-5.0], [np.nan]], [[0.0], [-3.0], [4.0]]])

    assert consistent_state(would_carry_n, states_of(1)).tolist() == [0, 1, NO_STATE]


def test_rounding_is_no_contradiction():
    """Loads that leave a stay alone give noise of either sign: the first state then stands."""
    noise_n = np.array([[[-1e-17], [1e-16]], [[1e-17], [1e-16]]])

    assert consistent_state(noise_n, states_of(1)).tolist() == [0, 0]


def test_body_that_no_state_holds():
    """Two ball joints with stays still let the body swing: nothing is known of any state."""
    points_m, ball = POINTS_M[:2], np.diag([1e6, 1e6, 1e6, 0, 0, 0])
    stiffness = np.array([[ball, ball * on] for on in (1.0, 0.5)])

    found = settled(points_m, stiffness, [OneWay(1, rest_sense(ball))], np.ones((1, 6)))

    assert found.state.tolist() == [NO_STATE]
    assert np.isnan(found.actions).all()
