"""What works one way only: stays that go slack, and bodies that lift off what they rest on.

Which of them are at work depends on the whole load, so it is judged on factored, combined
actions, never cause by cause.
"""

from collections.abc import Sequence
from itertools import product
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from estimator.supports.mechanisms import MechanismError
from estimator.supports.sharing import rigid_sharing

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Whole = NDArray[np.intp]

MOST = 6
"""Things that work one way in one set: every combination of them is tried, 64 at the most."""
NO_STATE = -1
"""Nothing holds the body in this case: it lifts off, or leans on what can only pull."""
_ROUNDING = 1e-9
"""Part of the largest force of a case below which a force counts as none."""


class OneWay(NamedTuple):
    """Something of a bracket that works one way only.

    Attributes:
        bracket: Its place in the row of brackets, from 0.
        sense: (6,) float: force it would carry, N, for each unit movement of the body where it
            meets that bracket; above zero while it works. See `stay_sense` and `rest_sense`.
    """

    bracket: int
    sense: Floats


class StateShares(NamedTuple):
    """What loads on a rigid body would do in every state of the one-way parts of its brackets.

    Attributes:
        actions: (s, m, n, 6) float, at each bracket's point; NaN in a state that holds nothing.
        carried_n: (s, m, k) float: what each one-way part carries, or would carry at once if the
            same movement found it at work; as `consistent_state` takes it.
    """

    actions: Floats
    carried_n: Floats


def states_of(count: int) -> Flags:
    """Return every combination of so many one-way things: (2^count, count), all at work first.

    Raises:
        ValueError: More than `MOST`.
    """
    if count > MOST:
        msg = (
            f"{count} stays and rests that work one way only share one body, of which no more "
            f"than {MOST} can be tried together: take some as struts, or split the set"
        )
        raise ValueError(msg)
    return np.array(list(product((True, False), repeat=count)), dtype=bool).reshape(2**count, count)


def stay_sense(stiffness: Floats, pull: Floats) -> Floats:
    """Return the sense, (6,) float, of a stay that only pulls.

    Args:
        stiffness: (6, 6) float: of the bracket with its stay at work, joint to the body included.
        pull: (6,) float: the stay's pull for each unit action on the bracket.
    """
    return np.asarray(pull @ stiffness)


def rest_sense(stiffness: Floats) -> Floats:
    """Return the sense, (6,) float, of a body that rests on a bracket of this stiffness (6, 6)."""
    up = np.zeros(6)
    up[1] = -1.0
    return np.asarray(up @ stiffness)


def consistent_state(would_carry_n: Floats, at_work: Flags) -> Whole:
    """Return for each load case the state that agrees with itself.

    In it, what is at work carries a force in its own sense, and what is not would have to carry
    one against it: a slack stay has become shorter, what has lifted off stands clear.

    Args:
        would_carry_n: (s, m, k) float: in each state and case, what each one-way thing carries
            or, where not at work, would carry at once if the same movement (of a stay: the same
            action on its arm) found it at work. All NaN in a state that does not hold the body.
        at_work: (s, k) bool, as `states_of`.

    Returns:
        (m,) int: which state; the first where several agree, for they share alike; `NO_STATE`
        where none does.

    References:
        Linear complementarity: of a body that every state holds, exactly one state agrees with
        itself, but for ties.
    """
    cases = np.arange(would_carry_n.shape[1])
    margins = np.where(at_work[:, np.newaxis], would_carry_n, -would_carry_n)
    worst = np.nan_to_num(margins, nan=-np.inf).min(axis=2, initial=np.inf)
    best = worst.argmax(axis=0)
    least = worst[best, cases]
    sizes = np.abs(would_carry_n[best, cases]).max(axis=1, initial=0.0)
    # Where every state holds the body one of them must agree, so that it fails to is rounding.
    holds = (worst > -np.inf).all(axis=0)
    slip = np.maximum(_ROUNDING * sizes, np.where(holds, -least, 0.0))
    agree = worst >= -slip
    return np.where(agree.any(axis=0), agree.argmax(axis=0), NO_STATE)


def state_sharing(
    points_m: Floats, stiffness: Floats, one_ways: Sequence[OneWay], loads: Floats
) -> StateShares:
    """Return what a rigid body would put on each bracket in every state of its one-way parts.

    Args:
        points_m: (n, 3) float: where each bracket meets the body.
        stiffness: (s, n, 6, 6) float: of every bracket in every state, in the order of
            `states_of`.
        one_ways: (k,) one-way parts, s = 2^k.
        loads: (m, 6) float: about the datum. Within a state everything is proportional to them.
    """
    states, cases = len(stiffness), len(loads)
    actions = np.full((states, cases, len(points_m), 6), np.nan)
    carried_n = np.full((states, cases, len(one_ways)), np.nan)
    for state, here in enumerate(stiffness):
        try:
            shares = rigid_sharing(points_m, here, loads)
        except MechanismError:
            continue
        actions[state] = shares.actions
        for k, one in enumerate(one_ways):
            carried_n[state, :, k] = shares.movements[:, one.bracket] @ one.sense
    return StateShares(actions, carried_n)
