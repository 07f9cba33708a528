"""Which unfactored actions at the wall are listed: every one, or as drawn and the largest."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats
from estimator.stages.posing import AS_DRAWN, Group


class Characteristic(NamedTuple):
    """One unfactored action on the wall at one bracket.

    Attributes:
        bracket: Its mark.
        cause: own weight, not listed yet, wind, person, ...
        direction_deg: Of the wind, None otherwise.
        case: Sense of the wind, or the name of the load.
        action: (6,) force [N] and moment [Nm] at the middle of its plate on the wall face.
        sharing: rigid or lever.
        position: Of the movers.
    """

    bracket: str
    cause: str
    direction_deg: float | None
    case: str
    action: Floats
    sharing: str
    position: str


class Stance(NamedTuple):
    """One position of everything that hangs on a set: at most one mover off its first.

    Attributes:
        states: State of each group.
        label: For print.
    """

    states: tuple[int, ...]
    label: str


class Case(NamedTuple):
    """One case of a cause.

    Attributes:
        direction_deg: Of the wind, None otherwise.
        words: For print.
        main: Listed as drawn whether or not it is the largest.
        again: The same as an earlier case, and never listed.
    """

    direction_deg: float | None
    words: str
    main: bool = True
    again: bool = False


def stances(groups: Sequence[Group]) -> tuple[Stance, ...]:
    """Return every position of each mover, the others in their first."""
    first = (0,) * len(groups)
    drawn = ", ".join(group.states[0].label for group in groups if group.mover)
    others = [
        Stance((*first[:g], s, *first[g + 1 :]), group.states[s].label)
        for g, group in enumerate(groups)
        for s in range(1, len(group.states))
    ]
    return (Stance(first, drawn or AS_DRAWN), *others)


def listed(
    brackets: Sequence[str],
    groups: Sequence[Group],
    responses: Mapping[str, Sequence[Mapping[str, Floats]]],
    cases_of: Callable[[str, int], Sequence[Case]],
    *,
    every: bool,
) -> Iterator[Characteristic]:
    """Return the unfactored actions of a set of brackets.

    Args:
        brackets: Their marks.
        groups: What hangs on them.
        responses: By sharing, for each group and cause the actions (states, cases, brackets, 6).
        cases_of: Gives the cases of a cause, how many there are being known.
        every: List all, not only the main cases as drawn and the largest of each component.
    """
    positions = stances(groups)
    for sharing, shared in responses.items():
        for cause in dict.fromkeys(cause for one in shared for cause in one):
            actions = np.array(
                [
                    sum(one[cause][s] for one, s in zip(shared, stance.states, strict=True))
                    for stance in positions
                ]
            )
            cases = cases_of(cause, actions.shape[1])
            for p, k, n in np.argwhere(_wanted(actions, cases, every=every)):
                case = cases[k]
                yield Characteristic(
                    brackets[n],
                    cause,
                    case.direction_deg,
                    case.words,
                    actions[p, k, n],
                    sharing,
                    positions[p].label,
                )


def _wanted(actions: Floats, cases: Sequence[Case], *, every: bool) -> npt.NDArray[np.bool_]:
    """Return which of (positions, cases, brackets) are listed."""
    fresh = np.array([not case.again for case in cases])
    wanted = np.zeros(actions.shape[:3], dtype=bool)
    wanted[0, [case.main for case in cases]] = True
    if every:
        wanted[:] = True
    flat = np.where(fresh[:, None, None], actions, 0.0).reshape(-1, *actions.shape[2:])
    for largest in (flat.argmax(axis=0), flat.argmin(axis=0)):
        for n, of_component in enumerate(largest):
            wanted.reshape(-1, actions.shape[2])[of_component, n] = True
    kept: npt.NDArray[np.bool_] = wanted & fresh[:, None] & np.any(actions != 0.0, axis=-1)
    return kept
