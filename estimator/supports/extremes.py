"""The furthest that combined actions go in given directions, at every bracket.

A direction is a weight for each of the six numbers of an action: what is furthest in it is a
corner of the hull of all actions. One case of each cause acts at a time, on all that moves alike,
and everything stands in one stance, which is one position of each mover.
"""

from collections.abc import Mapping, Sequence
from math import prod
from typing import NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

from estimator.supports.combinations import Combination
from estimator.supports.slackening import NO_STATE, consistent_state

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Whole = NDArray[np.intp]
Entries = TypeVar("Entries", bound=np.generic)

AT_ONCE = 5_000_000
"""Numbers that are held at once where every case has to be looked at by itself."""
ABSENT = -1
"""Case of a cause that a combination leaves out."""


class Answers(NamedTuple):
    """Unfactored actions in s stances at n brackets, in each of t states of one-way parts.

    Attributes:
        permanent: (t, s, n, 6) float.
        cases: Of each cause (t, s, k, n, 6) float.
        at_work: (t, o) bool: which of o one-way parts work in each state; (1, 0) without any.
        carried_permanent: (t, s, o) float: what each would carry, N.
        carried: Of each cause (t, s, k, o) float.
    """

    permanent: Floats
    cases: Mapping[str, Floats]
    at_work: Flags
    carried_permanent: Floats
    carried: Mapping[str, Floats]


class Furthest(NamedTuple):
    """The furthest of each of c combinations at n brackets in d directions.

    Attributes:
        value: (c, n, d) float; -inf where no case of the combination is held.
        stance: (c, n, d) int.
        state: (c, n, d) int, of the one-way parts.
        cases: (a, c, n, d) int: case of each cause in the order of `Answers.cases`, or `ABSENT`.
        unheld: (c,) int: cases in which nothing holds the body.
    """

    value: Floats
    stance: Whole
    state: Whole
    cases: Whole
    unheld: Whole


def furthest(answers: Answers, combinations: Sequence[Combination], directions: Floats) -> Furthest:
    """Return the furthest of every combination in every direction.

    Args:
        answers: To every cause.
        combinations: With factors that are not negative; causes without an answer count as none.
        directions: (n, d, 6) float, of each bracket.
    """
    tops, places = _tops(answers, directions)
    return _stacked(
        [
            _furthest_linear(_factors(answers, one), tops, places)
            if _all_at_work(answers, one)
            else _furthest_one_way(answers, one, directions)
            for one in combinations
        ]
    )


def action_of(answers: Answers, combination: Combination, at: Sequence[int]) -> Floats:
    """Return the combined action on every bracket, (n, 6) float.

    Args:
        answers: To every cause.
        combination: Factors.
        at: State of one-way parts, stance, then the case of each cause as in `Furthest.cases`.
    """
    state, stance, *cases = at
    action = combination.permanent_factor * answers.permanent[state, stance]
    for (cause, answer), case in zip(answers.cases.items(), cases, strict=True):
        if case != ABSENT:
            action = action + combination.variable_factors[cause] * answer[state, stance, case]
    return np.asarray(action)


def _all_at_work(answers: Answers, combination: Combination) -> bool:
    """Return whether every one-way part works in every case of a combination.

    In one stance it carries the least where each cause by itself leaves it the least. Where that
    is not below nought, the first state, in which all work, agrees with itself in every case.
    """
    least = combination.permanent_factor * answers.carried_permanent[0]
    for cause, carried in answers.carried.items():
        factor = combination.variable_factors.get(cause, 0.0)
        least = least + factor * carried[0].min(axis=1)
    return bool((least >= 0).all())


def _tops(answers: Answers, directions: Floats) -> tuple[Floats, Whole]:
    """Return how far each cause goes with all at work, weight first, and in which of its cases.

    Returns:
        (1 + a, n, s, d) float and (a, n, s, d) int.
    """
    weight = _along(answers.permanent[0][:, np.newaxis], directions)[:, :, 0]
    tops, places = [weight], []
    for answer in answers.cases.values():
        along = _along(answer[0], directions)
        place = along.argmax(axis=2)
        tops.append(_taken(along, place, 2))
        places.append(place)
    return np.array(tops), np.array(places, dtype=np.intp).reshape(len(places), *weight.shape)


def _furthest_linear(factors: Sequence[float], tops: Floats, places: Whole) -> Furthest:
    """Return the furthest of one combination in which everything works.

    In one stance the causes go their furthest each by itself, as no factor is negative.

    Args:
        factors: On weight, then on each cause; nought where it is left out.
        tops: As `_tops`.
        places: As `_tops`.
    """
    totals = np.tensordot(np.array(factors), tops, axes=1)
    stance = totals.argmax(axis=1)
    taken = np.array(factors[1:]) > 0
    cases = np.full((len(places), *stance.shape), ABSENT, dtype=np.intp)
    for a in np.flatnonzero(taken):
        cases[a] = _taken(places[a], stance, 1)
    value = _taken(totals, stance, 1)
    return Furthest(value, stance, np.zeros_like(stance), cases, np.array(0))


def _furthest_one_way(answers: Answers, combination: Combination, directions: Floats) -> Furthest:
    """Return the furthest of one combination, every case with what works in it."""
    names = list(answers.cases)
    ours = [a for a, name in enumerate(names) if name in combination.variable_factors]
    crossed = (
        answers.permanent.shape[1],
        *(answers.cases[names[a]].shape[2] for a in ours),
    )
    shape = directions.shape[:2]
    best, state = np.full(shape, -np.inf), np.zeros(shape, dtype=np.intp)
    at, unheld = np.zeros(shape, dtype=np.intp), 0
    # All cases crossed with one another are too many to hold at once.
    block = max(1, AT_ONCE // directions[..., 0].size)
    for start in range(0, prod(crossed), block):
        numbers = np.arange(start, min(start + block, prod(crossed)))
        places = np.unravel_index(numbers, crossed)
        chosen, acting = _as_it_works(answers, combination, [names[a] for a in ours], places)
        held = chosen != NO_STATE
        unheld += int((~held).sum())
        along = _along(acting[:, np.newaxis], directions)[:, :, 0]
        along[:, ~held] = -np.inf
        place = along.argmax(axis=1)
        value = _taken(along, place, 1)
        better = value > best
        best[better], state[better] = value[better], chosen[place][better]
        at[better] = numbers[place][better]
    stance, *cases = np.unravel_index(at, crossed)
    every = np.full((len(names), *shape), ABSENT, dtype=np.intp)
    if ours:
        every[ours] = np.array(cases)
    return Furthest(best, np.asarray(stance), state, every, np.array(unheld))


def _as_it_works(
    answers: Answers, combination: Combination, names: Sequence[str], places: Sequence[Whole]
) -> tuple[Whole, Floats]:
    """Return the state (m,) of the one-way parts in each case, and the actions in it (m, n, 6).

    Args:
        answers: To every cause.
        combination: Factors.
        names: Of the causes that it takes.
        places: Stance, then case of each of those causes, (m,) each.
    """
    stance, *cases = places
    factors = [combination.variable_factors[name] for name in names]
    carried = combination.permanent_factor * answers.carried_permanent[:, stance]
    for name, factor, case in zip(names, factors, cases, strict=True):
        carried = carried + factor * answers.carried[name][:, stance, case]
    chosen = consistent_state(carried, answers.at_work)
    held = np.where(chosen == NO_STATE, 0, chosen)
    acting = combination.permanent_factor * answers.permanent[held, stance]
    for name, factor, case in zip(names, factors, cases, strict=True):
        acting = acting + factor * answers.cases[name][held, stance, case]
    acting[chosen == NO_STATE] = 0.0
    return chosen, acting


def _factors(answers: Answers, combination: Combination) -> list[float]:
    variable = combination.variable_factors
    return [combination.permanent_factor, *(variable.get(cause, 0.0) for cause in answers.cases)]


def _along(actions: Floats, directions: Floats) -> Floats:
    """Return how far actions (s, k, n, 6) go in directions (n, d, 6): (n, s, k, d)."""
    stances, cases, brackets, _ = actions.shape
    flat = actions.transpose(2, 0, 1, 3).reshape(brackets, -1, 6)
    along = flat @ directions.transpose(0, 2, 1)
    return np.asarray(along.reshape(brackets, stances, cases, -1))


def _taken(values: NDArray[Entries], place: Whole, axis: int) -> NDArray[Entries]:
    """Return the entries at a place along an axis, which falls away."""
    return np.take_along_axis(values, np.expand_dims(place, axis), axis).squeeze(axis)


def _stacked(found: Sequence[Furthest]) -> Furthest:
    """Return what was found for each combination as one."""
    value, stance, state, cases, unheld = (list(some) for some in zip(*found, strict=True))
    return Furthest(
        np.array(value), np.array(stance), np.array(state), np.stack(cases, axis=1),
        np.array(unheld),
    )  # fmt: skip
