"""The largest and smallest of every component, over combinations, cases and positions."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, Self, TypeVar

import numpy as np
from numpy.typing import NDArray

from estimator.supports.combinations import Combination

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]
Scalar = TypeVar("Scalar", np.float64, np.intp)

ABSENT = -1
"""Case index of an action that the governing combination leaves out."""


@dataclass(frozen=True, slots=True)
class Responses:
    """Characteristic responses to one thing: all that is fixed, or one mover.

    Attributes:
        permanent: (p, n, 6) float: to its own weight in each of its p positions.
        cases: For each variable action (p, k, n, 6) float: to each of its k cases, the same
            cases in the same order for everything (say a wind from each direction).
    """

    permanent: Floats
    cases: Mapping[str, Floats]

    @classmethod
    def fixed(cls, permanent: Floats, cases: Mapping[str, Floats]) -> Self:
        """Return the responses of what does not move: (n, 6), and (k, n, 6) for each action."""
        return cls(
            permanent[np.newaxis],
            {action: response[np.newaxis] for action, response in cases.items()},
        )


class Extreme(NamedTuple):
    """The governing value of every component, and what it came from.

    Attributes:
        value: (n, 6) float.
        combination: (n, 6) int: which of the combinations; the first of equals.
        cases: For each action (n, 6) int: which of its cases, or `ABSENT`.
        positions: (g, n, 6) int: which position of each of the g things.
    """

    value: Floats
    combination: Indices
    cases: Mapping[str, Indices]
    positions: Indices


class Envelope(NamedTuple):
    """The largest and the smallest value of every component."""

    highest: Extreme
    lowest: Extreme


class _Peak(NamedTuple):
    """The largest value of every component in one combination."""

    value: Floats
    cases: Mapping[str, Indices]
    positions: Indices


def envelope(things: Sequence[Responses], combinations: Sequence[Combination]) -> Envelope:
    """Return the envelope of linear responses.

    One case of each action acts on all things at once (the wind has one direction), while
    each mover stands in whichever of its positions is worst for the component in question.

    Args:
        things: One or more; all give n components of the same kind, such as action on a bracket.
        combinations: One or more.

    Raises:
        ValueError: A combination names an action that no thing responds to.
    """
    known = set().union(*(thing.cases for thing in things))
    strangers = {a for c in combinations for a in c.variable_factors} - known
    if strangers:
        msg = f"no responses to {', '.join(sorted(strangers))}, which a combination names"
        raise ValueError(msg)
    return Envelope(_extreme(things, combinations, 1), _extreme(things, combinations, -1))


def _extreme(
    things: Sequence[Responses], combinations: Sequence[Combination], sign: int
) -> Extreme:
    """Return the largest values of the responses times sign, given back with their own sign."""
    peaks = [_peak(things, combination, sign) for combination in combinations]
    values = np.array([peak.value for peak in peaks])
    governing = values.argmax(axis=0)
    actions = sorted(set().union(*(peak.cases for peak in peaks)))
    absent = np.full(governing.shape, ABSENT)
    return Extreme(
        value=sign * _picked(values, governing),
        combination=governing,
        cases={
            action: _picked(np.array([peak.cases.get(action, absent) for peak in peaks]), governing)
            for action in actions
        },
        positions=_picked(np.array([peak.positions for peak in peaks]), governing),
    )


def _peak(things: Sequence[Responses], combination: Combination, sign: int) -> _Peak:
    """Return the largest values of the responses times sign in one combination."""
    actions = list(combination.variable_factors)
    effects = [sign * _effect(thing, combination, actions) for thing in things]
    over_cases = sum(effect.max(axis=0) for effect in effects)
    crossed = np.broadcast_shapes(*(effect.shape[1:-2] for effect in effects))
    shape = over_cases.shape[-2:]
    worst = over_cases.reshape(-1, *shape).argmax(axis=0)
    return _Peak(
        value=_picked(over_cases.reshape(-1, *shape), worst),
        cases=dict(zip(actions, np.unravel_index(worst, crossed), strict=True)) if actions else {},
        positions=np.array(
            [
                _picked(
                    np.broadcast_to(e.argmax(axis=0), (*crossed, *shape)).reshape(-1, *shape), worst
                )
                for e in effects
            ]
        ),
    )


def _effect(thing: Responses, combination: Combination, actions: Sequence[str]) -> Floats:
    """Return the combined effect, (p, k of the first action, k of the next, ..., n, 6)."""
    rank = len(actions)
    crossed = {}
    for place, action in enumerate(actions):
        if action in thing.cases:
            others = (*range(1, place + 1), *range(place + 2, rank + 1))
            crossed[action] = np.expand_dims(thing.cases[action], others)
    nothing = np.zeros(1)
    everything = {action: crossed.get(action, nothing) for action in actions}
    alone = np.expand_dims(thing.permanent, tuple(range(1, rank + 1)))
    return combination.effect(alone, everything)


def _picked(stack: NDArray[Scalar], index: Indices) -> NDArray[Scalar]:
    """Return the entries of a stack (s, ..., n, 6) at an index (n, 6) of its first axis."""
    where = index.reshape((1,) * (stack.ndim - index.ndim) + index.shape)
    picked: NDArray[Scalar] = np.take_along_axis(stack, where, axis=0)[0]
    return picked
