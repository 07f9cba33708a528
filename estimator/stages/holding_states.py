"""States of a set of brackets: as built, each slack, each half as stiff, each stage of erection."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from estimator.resolve.records import Assembly, Bracket
from estimator.stages.holding_demands import AS_BUILT
from estimator.stages.holding_frames import Frame, Setting
from estimator.stages.holding_loads import Desk
from estimator.supports.sharing import free_words

NOT_UP = "not up yet"
"""What carries an assembly that an earlier stage of erection does not have: no set is called so."""
_NUMBER = re.compile(r"\d+")


class State(NamedTuple):
    """Brackets of a set in one state.

    Attributes:
        name: `AS_BUILT`, "B2 slack", "B2 at half stiffness", "stage 1 ledge".
        setting: Who takes part, and how stiffly.
        desk: Where the loads come from in this state.
        free: What the brackets leave free, in words; blank when they hold the body.
    """

    name: str
    setting: Setting
    desk: Desk
    free: str

    @property
    def built(self) -> bool:
        """Return whether everything is there as the rows say."""
        return self.name == AS_BUILT


def states(desk: Desk, name: str, brackets: Sequence[Bracket], frame: Frame) -> Iterator[State]:
    """Yield the states of a set, as built first.

    Args:
        desk: Everything the loads come from.
        name: Of the set.
        brackets: Its brackets.
        frame: The same as numbers.
    """
    keys, every = [bracket.key for bracket in brackets], np.ones(len(brackets))
    built = _state(AS_BUILT, Setting(frame, every), desk, keys)
    yield built
    if built.free:
        return
    # A bracket alone holds all of the body, however stiff it is, and none of it when slack.
    for words, factor in (("slack", 0.0), ("at half stiffness", 0.5)) if len(keys) > 1 else ():
        for n, key in enumerate(keys):
            factors = every.copy()
            factors[n] = factor
            yield _state(f"{key} {words}", Setting(frame, factors), desk, keys)
    yield from _stages(desk, name, brackets, frame)


def _state(name: str, setting: Setting, desk: Desk, keys: Sequence[str]) -> State:
    stiffness = setting.stiffness(setting.at_work[0])
    return State(name, setting, desk, free_words(setting.frame.points_m, stiffness, keys))


def _stages(desk: Desk, name: str, brackets: Sequence[Bracket], frame: Frame) -> Iterator[State]:
    """Yield the stages at which a set carries something, but not yet all; the last is as built."""
    order = stages_in_order(desk)
    up_at = _up_at(desk.resolved.assemblies, order)
    starts = [order.get(bracket.stage, 0) for bracket in brackets]
    before: tuple[object, ...] = ()
    whole = _present(desk, name, starts, up_at, len(order))
    for stage, number in order.items():
        now = _present(desk, name, starts, up_at, number)
        if now in (before, whole) or not any(now[0]) or not now[1]:
            continue
        before = now
        factors = np.array(now[0], dtype=float)
        at_stage = _desk_at(desk, brackets, now[0], [up <= number for up in up_at])
        keys = [bracket.key for bracket in brackets]
        yield _state(f"stage {stage}", Setting(frame, factors), at_stage, keys)


def stages_in_order(desk: Desk) -> dict[str, int]:
    """Return the stages by the number they begin with, or as they are met; from 0."""
    brackets, assemblies = desk.resolved.brackets, desk.resolved.assemblies
    told = (*(row.stage for row in brackets), *(row.stage for row in assemblies))
    met = [stage for stage in dict.fromkeys(told) if stage]
    numbers = {stage: int(found[0]) for stage in met if (found := _NUMBER.match(stage))}
    ordered = sorted(met, key=numbers.__getitem__) if len(numbers) == len(met) else met
    return {stage: number for number, stage in enumerate(ordered)}


def _up_at(assemblies: Sequence[Assembly], order: dict[str, int]) -> list[int]:
    """Return from which stage each assembly hangs: its own, or that of what carries it."""
    by_key = {one.key: one for one in assemblies}
    found = []
    for one in assemblies:
        seen: Assembly | None = one
        while seen is not None and not seen.stage:
            seen = by_key.get(seen.carrier)
        found.append(order[seen.stage] if seen else 0)
    return found


def _present(
    desk: Desk, name: str, starts: Sequence[int], up_at: Sequence[int], number: int
) -> tuple[tuple[bool, ...], tuple[str, ...]]:
    """Return which brackets are up at a stage, and which assemblies they carry."""
    carried = (
        one.key
        for one, up in zip(desk.resolved.assemblies, up_at, strict=True)
        if one.carried_by == name and up <= number
    )
    return tuple(start <= number for start in starts), tuple(carried)


def _desk_at(
    desk: Desk, brackets: Sequence[Bracket], up: Sequence[bool], hangs: Sequence[bool]
) -> Desk:
    """Return what the loads come from with only a part of it up."""
    assemblies = tuple(
        one if there else replace(one, carried_by=NOT_UP)
        for one, there in zip(desk.resolved.assemblies, hangs, strict=True)
    )
    later = tuple(f"{b.key} " for b, there in zip(brackets, up, strict=True) if not there)
    weightless = [part.key.startswith(later) for part in desk.resolved.columns.parts]
    parts = desk.weights.parts
    parts = parts._replace(mass_kg=np.where(weightless, 0.0, parts.mass_kg))
    return desk._replace(
        resolved=replace(desk.resolved, assemblies=assemblies),
        weights=replace(desk.weights, parts=parts),
    )
