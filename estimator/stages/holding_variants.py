"""Variants: a set in one state by one way of sharing, its groups together in every stance."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import prod

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats
from estimator.stages.holding_frames import Shared
from estimator.stages.holding_loads import NOT_LISTED, OWN_WEIGHT
from estimator.stages.holding_states import State
from estimator.supports.extremes import Answers

MOST_STANCES = 400
"""More positions of movers together than this are not all looked at."""


@dataclass(frozen=True, slots=True)
class Variant:
    """One state of the brackets with one way of sharing.

    Attributes:
        state: The state.
        sharing: The way.
        answers: To every cause, in every stance.
        stances: (s, g) position of each group in each stance.
        kept: Which cases of each cause the answers are to: the others are the same again.
        counts: How many cases of each cause there are, the same again among them.
    """

    state: State
    sharing: str
    answers: Answers
    stances: npt.NDArray[np.intp]
    kept: Mapping[str, npt.NDArray[np.intp]]
    counts: Mapping[str, int]


def variant(state: State, sharing: str, shared: Sequence[Shared]) -> Variant:
    """Return the answers of all groups together, in every stance.

    Args:
        state: Of the brackets.
        sharing: The way.
        shared: Of each group.
    """
    stances = stances_of(shared)
    causes = dict.fromkeys(cause for one in shared for cause in one.causes)

    def added(of: str, cause: str) -> Floats:
        """Return one sort of answer of all groups together, in every stance."""
        return np.asarray(
            sum(
                getattr(one, of)[cause][:, stances[:, g]]
                for g, one in enumerate(shared)
                if cause in one.causes
            )
        )

    lasting = [cause for cause in (OWN_WEIGHT, NOT_LISTED) if cause in causes]
    variable = [cause for cause in causes if cause not in lasting]
    permanent, carried_n = (
        np.asarray(sum(added(of, cause)[:, :, 0] for cause in lasting))
        for of in ("causes", "carried")
    )
    cases = {cause: added("causes", cause) for cause in variable}
    kept = {cause: _different(answer) for cause, answer in cases.items()}
    answers = Answers(
        permanent, {cause: answer[:, :, kept[cause]] for cause, answer in cases.items()},
        shared[0].at_work,
        carried_n, {cause: added("carried", cause)[:, :, kept[cause]] for cause in variable},
    )  # fmt: skip
    counts = {cause: answer.shape[2] for cause, answer in cases.items()}
    return Variant(state, sharing, answers, stances, kept, counts)


def _different(answer: Floats) -> npt.NDArray[np.intp]:
    """Return the first of every lot of cases (t, s, k, n, 6) with one and the same answer."""
    rows = np.ascontiguousarray(np.moveaxis(answer, 2, 0)).reshape(answer.shape[2], -1) + 0.0
    seen: dict[bytes, int] = {}
    for k, row in enumerate(rows):
        seen.setdefault(row.tobytes(), k)
    return np.array(list(seen.values()), dtype=np.intp)


def stances_of(shared: Sequence[Shared]) -> npt.NDArray[np.intp]:
    """Return the stances that are looked at, (s, g) position of each group; as drawn first.

    All of them; where those are more than `MOST_STANCES`, each mover in every position with the
    others as drawn, and all of them where each by itself does most to a bracket.

    Args:
        shared: Of each group.
    """
    counts = positions_of(shared)
    if prod(counts) <= MOST_STANCES:
        return np.indices(counts).reshape(len(counts), -1).T
    alone = [
        [p if h == g else 0 for h in range(len(counts))]
        for g, count in enumerate(counts)
        for p in range(count)
    ]
    worst = np.stack([_worst_positions(one) for one in shared], axis=-1).reshape(-1, len(counts))
    return np.unique(np.concatenate([alone, worst]), axis=0)


def positions_of(shared: Sequence[Shared]) -> list[int]:
    """Return how many positions each group has."""
    return [one.causes[OWN_WEIGHT].shape[1] for one in shared]


def _worst_positions(one: Shared) -> npt.NDArray[np.intp]:
    """Return where a group does most to each number at each bracket, (2, n, 6): up and down."""
    answers = {cause: np.nan_to_num(answer[0]) for cause, answer in one.causes.items()}
    most = np.sum([answer.max(axis=1) for answer in answers.values()], axis=0)
    least = np.sum([answer.min(axis=1) for answer in answers.values()], axis=0)
    return np.stack([most.argmax(axis=0), least.argmin(axis=0)])
