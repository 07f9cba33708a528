"""Holding: what every bracket passes to the wall, by cause, then in combinations."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import islice
from math import prod
from typing import NamedTuple

import numpy as np

from estimator.geometry.measures import Floats
from estimator.resolve.job import Resolved
from estimator.resolve.records import Bracket
from estimator.stages.blowing import Wind
from estimator.stages.burdening import Burdens
from estimator.stages.holding_cases import Characteristic, listed
from estimator.stages.holding_demands import FACTORED, Demands, Placed
from estimator.stages.holding_frames import (
    BEAM,
    LEVER,
    RIGID,
    Frame,
    Setting,
    Shared,
    frame_of,
    share,
)
from estimator.stages.holding_loads import (
    AS_A_RULE,
    Asked,
    Desk,
    cases_of,
    causes_of,
    group_loads,
    hung_groups,
    weight_range,
)
from estimator.stages.holding_places import placed
from estimator.stages.holding_rules import rules_for
from estimator.stages.holding_search import (
    COMPONENTS,
    ENDS,
    Ends,
    Governing,
    Search,
    demands,
    directions,
    governing,
)
from estimator.stages.holding_states import State, states
from estimator.stages.holding_together import left_out
from estimator.stages.holding_variants import Variant, positions_of, variant
from estimator.stages.posing import Group
from estimator.stages.weighing import Weights
from estimator.supports.combinations import Combination, Kind
from estimator.supports.lever import parts_a_station
from estimator.supports.mechanisms import movement_words
from estimator.supports.sharing import free_movements

__all__ = ["COMPONENTS", "Governing", "HeldSet", "hold"]

AXIS_NAMES = ("across", "up", "out")


@dataclass(frozen=True, slots=True)
class HeldSet:
    """What one set of brackets passes to the wall.

    Attributes:
        name: Of the set.
        brackets: Its brackets.
        long_axis: The row's axis, along which the lever rule shares.
        mechanism: What the brackets leave free, in words; blank when nothing.
        residual: Largest imbalance of any case, as a part of the largest number in it.
        characteristic: Unfactored actions: as drawn, and the largest over all positions.
        governing: Worst of every component in combination.
        service: The same with every factor 1, as built, for comparing ways of building.
        demands: By bracket, every factored action that can govern its arm or its plate.
        ends: The worst of every component in each state, by each way of sharing.
        free: What is free in the states that do not hold, in words, by the state's name.
        bending_nm2: EI of what the brackets carry; NaN when nobody said.
        thinned: Whether its movers have too many positions together to look at all of them.
        left_out: Which loads from elsewhere were not looked at in every case, in words.
        placed: A stayed arm alone, with every load at its own place; None of any other set.
        cases: How many factored cases were looked at, all states and ways of sharing together.
    """

    name: str
    brackets: tuple[Bracket, ...]
    long_axis: str
    mechanism: str
    residual: float
    characteristic: tuple[Characteristic, ...]
    governing: tuple[Governing, ...]
    service: tuple[Governing, ...]
    demands: Mapping[str, Demands] = field(default_factory=dict)
    ends: tuple[Ends, ...] = ()
    free: Mapping[str, str] = field(default_factory=dict)
    bending_nm2: float = float("nan")
    thinned: bool = False
    left_out: tuple[str, ...] = ()
    placed: Placed | None = None
    cases: int = 0


def hold(
    resolved: Resolved,
    weights: Weights,
    groups: Sequence[Group],
    wind: Wind,
    burdens: Burdens,
    asked: Asked = AS_A_RULE,
) -> tuple[HeldSet, ...]:
    """Return what every set of brackets passes to the wall.

    Args:
        resolved: The job.
        weights: What everything weighs.
        groups: Where everything is.
        wind: On everything.
        burdens: What lies on and in what the brackets carry.
        asked: How much is asked.
    """
    by_set: dict[str, list[Bracket]] = {}
    for bracket in resolved.brackets:
        by_set.setdefault(bracket.set_name, []).append(bracket)
    desk = Desk(resolved, weights, tuple(groups), wind, burdens, asked)
    return tuple(_held(desk, name, brackets) for name, brackets in by_set.items())


class Looked(NamedTuple):
    """A set in every state, by every way of sharing.

    Attributes:
        frame: Its brackets as numbers.
        states: Of them, as built first.
        variants: States by ways of sharing.
        built: As built, of each way of sharing the answers of every group.
        residual: Largest imbalance.
    """

    frame: Frame
    states: tuple[State, ...]
    variants: tuple[Variant, ...]
    built: Mapping[str, Sequence[Shared]]
    residual: float


def look(desk: Desk, name: str, brackets: Sequence[Bracket]) -> Looked:
    """Return what every cause does to the brackets of a set, in every state of them.

    Args:
        desk: Everything the loads come from.
        name: Of the set.
        brackets: Its brackets.
    """
    frame = frame_of(desk.resolved, brackets, name)
    every = tuple(islice(states(desk, name, brackets, frame), 1 if desk.asked.compared else None))
    loads = {id(state.desk): list(group_loads(state.desk, name, frame.axis)) for state in every}
    built, residual, variants = {}, 0.0, []
    for state in every:
        for sharing in _ways(state):
            both = [share(state.setting, sharing, one) for one in loads[id(state.desk)]]
            groups = [one for one, _ in both]
            if state.built:
                built[sharing] = groups
            residual = max(residual, *(off for _, off in both))
            variants.append(variant(state, sharing, groups))
    return Looked(frame, every, tuple(variants), built, residual)


def searched(looked: Looked, name: str, brackets: Sequence[Bracket], *, brief: bool) -> Search:
    """Return the furthest of every combination in all that was looked at.

    Args:
        looked: At one set.
        name: Of the set.
        brackets: Its brackets.
        brief: Only the ends of each component.
    """
    ways = directions(brackets, _sizes(looked.variants), looked.frame.root)
    search = Search(brackets, ways[:, : len(ENDS)] if brief else ways)
    for one in looked.variants:
        search.look(one, _rules(one, name))
    return search


def _held(desk: Desk, name: str, brackets: Sequence[Bracket]) -> HeldSet:
    looked = look(desk, name, brackets)
    # What a stay and its arm each do to the wall is in the demands alone.
    brief = desk.asked.compared and not any(bracket.stay for bracket in brackets)
    search = searched(looked, name, brackets, brief=brief)
    return HeldSet(
        name=name,
        brackets=tuple(brackets),
        long_axis=AXIS_NAMES[looked.frame.axis],
        mechanism=_mechanism(brackets, looked.frame),
        residual=looked.residual,
        characteristic=tuple(_by_cause(desk, name, brackets, looked.built)),
        governing=tuple(governing(search, FACTORED)),
        service=tuple(governing(search, (Kind.SERVICE,))),
        demands={} if brief else demands(search),
        ends=tuple(search.ends),
        free={one.name: one.free for one in looked.states if one.free and not one.built},
        bending_nm2=looked.frame.bending_nm2,
        thinned=_thinned(looked),
        left_out=_left_out(desk, name),
        placed=placed(desk, looked.frame, brackets[0], weight_range(desk, name))
        if len(brackets) == 1 and not looked.states[0].free
        else None,
        cases=search.cases,
    )


def _thinned(looked: Looked) -> bool:
    """Return whether not every position of each mover was looked at with all of the others."""
    whole = prod(positions_of(next(iter(looked.built.values()))))
    return any(one.state.built and len(one.stances) < whole for one in looked.variants)


def _left_out(desk: Desk, name: str) -> tuple[str, ...]:
    """Return which loads from elsewhere were not looked at in every case, in words."""
    words = (left_out(cause.typed) for cause in causes_of(desk, name).values())
    return tuple(filter(None, words))


def _mechanism(brackets: Sequence[Bracket], frame: Frame) -> str:
    """Return what a set is free to do with everything at work, in words."""
    free = free_movements(frame.points_m, frame.stiffness)
    keys = [bracket.key for bracket in brackets]
    return "; ".join(movement_words(movement, keys, frame.points_m) for movement in free)


def _ways(state: State) -> Iterator[str]:
    """Yield the ways of sharing that a state has an answer by."""
    if not state.free:
        yield RIGID
    if (state.built or not state.free) and _levered(state.setting):
        yield LEVER
    if not state.free and state.setting.frame.bending_nm2 > 0:
        yield BEAM


def _levered(setting: Setting) -> bool:
    """Return whether the lever rule has an answer of its own for a state.

    It asks nothing of stiffness, so half of it is the same again.
    """
    frame, factors = setting.frame, setting.factors
    along_m = frame.root_m[:, frame.axis]
    return bool(np.isin(factors, (0.0, 1.0)).all()) and not parts_a_station(along_m, factors > 0)


def _sizes(variants: Sequence[Variant]) -> Floats:
    """Return how large each number gets at each bracket, (n, 6), none of them nought."""
    each = [
        np.abs(np.nan_to_num(answer)).max(axis=tuple(range(answer.ndim - 2)))
        for one in variants
        if one.state.built
        for answer in (one.answers.permanent, *one.answers.cases.values())
    ]
    sizes = np.max(each, axis=0)
    floor = 1e-3 * np.repeat([sizes[:, :3].max(axis=1), sizes[:, 3:].max(axis=1)], 3, axis=0).T
    return np.asarray(np.maximum(np.maximum(sizes, floor), 1e-9))


def _rules(one: Variant, name: str) -> Sequence[Combination]:
    """Return the combinations of what acts in a state; where ways are compared, for service."""
    desk = one.state.desk
    every = rules_for(desk.resolved, list(one.answers.cases), weight_range(desk, name))
    if not desk.asked.compared:
        return every
    return [rule for rule in every if rule.kind is Kind.SERVICE]


def _by_cause(
    desk: Desk, name: str, brackets: Sequence[Bracket], shared: Mapping[str, Sequence[Shared]]
) -> Iterator[Characteristic]:
    """Yield the unfactored actions as built, every one-way part at work."""
    return listed(
        [bracket.key for bracket in brackets],
        hung_groups(desk, name),
        {
            sharing: [{cause: x[0] for cause, x in one.causes.items()} for one in groups]
            for sharing, groups in shared.items()
        },
        partial(cases_of, desk, name),
        every=desk.asked.every_case,
    )
