"""Loads on a set of brackets: of every group that hangs on it, by cause and position."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from estimator.core.constants import GRAVITY_M_S2
from estimator.geometry.measures import Floats
from estimator.resolve.job import Resolved
from estimator.stages.blowing import ALONG, Wind
from estimator.stages.blowing_rules import SENSES
from estimator.stages.holding_cases import Case
from estimator.stages.posing import Group
from estimator.stages.weighing import Weights
from estimator.wind.walls import STANDINGS

WIND = "wind"
OWN_WEIGHT, NOT_LISTED = "own weight", "not listed yet"
CENTRED = 0
"""Place in a direction's wind cases of the one with the force in the middle."""


class Loads(NamedTuple):
    """Point loads in m cases: the parts of each are summed over one axis.

    Attributes:
        force_n: (m, l, 3).
        at_m: (m, l, 3).
        half_m: (m, l) spread along the row, each way.
        moment_nm: (m, l, 3) couple that comes with it.
    """

    force_n: Floats
    at_m: Floats
    half_m: Floats
    moment_nm: Floats


class Desk(NamedTuple):
    """Everything the loads come from."""

    resolved: Resolved
    weights: Weights
    groups: tuple[Group, ...]
    wind: Wind
    every_case: bool


def about_datum(loads: Loads) -> Floats:
    """Return the sum of each case's loads about the datum, (m, 6)."""
    moment_nm = loads.moment_nm + np.cross(loads.at_m, loads.force_n)
    return np.concatenate([loads.force_n.sum(axis=1), moment_nm.sum(axis=1)], axis=-1)


def group_loads(desk: Desk, name: str, axis: int) -> Iterator[dict[str, list[Loads]]]:
    """Return for each group that hangs on a set its loads by cause, one entry a position."""
    extra = extra_causes(desk, name)
    for g, group in enumerate(desk.groups):
        hung = [
            i for i, row in enumerate(group.members)
            if desk.resolved.assemblies[row].carried_by == name
        ]  # fmt: skip
        if not hung:
            continue
        states = range(len(group.states))
        own = [_weight(desk, group, hung, s, axis) for s in states]
        loads = {OWN_WEIGHT: own}
        rows = [np.flatnonzero(desk.resolved.columns.assembly == group.members[i]) for i in hung]
        allowed = desk.weights.allowed[np.concatenate(rows)][:, None]
        loads[NOT_LISTED] = [load._replace(force_n=allowed * load.force_n) for load in own]
        if desk.wind.known:
            loads[WIND] = [_wind(desk, g, hung, s, axis) for s in states]
        for cause, names in extra.items():
            loads[cause] = [_extra(desk, group, names, s) for s in states]
        yield loads


def _weight(desk: Desk, group: Group, hung: Sequence[int], s: int, axis: int) -> Loads:
    """Return the weight of every part that hangs on a set, in one position."""
    columns, bodies = desk.resolved.columns, desk.weights.parts
    at_m, half_m, mass_kg = [], [], []
    for i in hung:
        rows = np.flatnonzero(columns.assembly == group.members[i])
        rotation, origin_m = group.rotation[s, i], group.origin_m[s, i]
        at_m.append(bodies.centre_m[rows] @ rotation.T + origin_m)
        mass_kg.append(bodies.mass_kg[rows])
        # A mass spread evenly over +-h has a mean square of h^2 / 3.
        second = rotation @ bodies.second_kgm2[rows] @ rotation.T
        mean_m2 = second[:, axis, axis] / np.maximum(bodies.mass_kg[rows], 1e-12)
        half_m.append(np.sqrt(3.0 * np.maximum(mean_m2, 0.0)))
    at, half, mass = np.concatenate(at_m), np.concatenate(half_m), np.concatenate(mass_kg)
    force_n = np.zeros_like(at)
    force_n[:, 1] = -GRAVITY_M_S2 * mass
    return Loads(force_n[None], at[None], half[None], np.zeros_like(at)[None])


def _wind(desk: Desk, g: int, hung: Sequence[int], s: int, axis: int) -> Loads:
    """Return the wind on every assembly that hangs on a set, in every case, in one position."""
    wind = desk.wind.groups[g]
    force_n, at_m, half_m, moment_nm = [], [], [], []
    for i in hung:
        spots = wind.spots[s, i]
        if spots is None:
            continue
        wrench, middle_m = wind.wrench[s, i], wind.at_m[s, i]
        off_m = spots.middle_m - spots.share @ spots.middle_m
        force = spots.share[:, None] * wrench[:, None, :3]
        couple = wrench[:, 3:] - np.cross(middle_m, wrench[:, :3])
        force_n.append(force)
        at_m.append(np.broadcast_to(middle_m + off_m, force.shape))
        half_m.append(np.broadcast_to(spots.half_m[:, axis], force.shape[:2]))
        moment_nm.append(spots.share[:, None] * couple[:, None])
    if not force_n:
        nothing = np.zeros((len(desk.wind.cases), 1, 3))
        return Loads(nothing, nothing, nothing[..., 0], nothing)
    return Loads(*(np.concatenate(x, axis=1) for x in (force_n, at_m, half_m, moment_nm)))


def extra_causes(desk: Desk, name: str) -> dict[str, list[int]]:
    """Return the loads from elsewhere on a set, by cause."""
    holders = {a.key: a.carried_by for a in desk.resolved.assemblies}
    causes: dict[str, list[int]] = {}
    for i, load in enumerate(desk.resolved.extra_loads):
        if holders[load.assembly] == name:
            causes.setdefault(load.cause, []).append(i)
    return causes


def _extra(desk: Desk, group: Group, names: Sequence[int], s: int) -> Loads:
    """Return the loads from elsewhere of one cause on this group: each alone, then all of them."""
    alone = len(names)
    cases = alone + 1 if alone > 1 else alone
    force_n, at_m = np.zeros((cases, alone, 3)), np.zeros((cases, alone, 3))
    rows = {desk.resolved.assemblies[row].key: i for i, row in enumerate(group.members)}
    for k, number in enumerate(names):
        load = desk.resolved.extra_loads[number]
        if load.assembly in rows:
            i = rows[load.assembly]
            at = [k] if cases == alone else [k, alone]
            force_n[at, k] = load.force_n
            at_m[at, k] = group.rotation[s, i] @ np.array(load.at_m) + group.origin_m[s, i]
    return Loads(force_n, at_m, np.zeros((cases, alone)), np.zeros_like(force_n))


def hung_groups(desk: Desk, name: str) -> list[Group]:
    """Return the groups of which anything hangs on a set."""
    return [
        group
        for group in desk.groups
        if any(desk.resolved.assemblies[row].carried_by == name for row in group.members)
    ]


def case_words(desk: Desk, name: str, cause: str, case: int) -> str:
    """Return a case of an action on a set of brackets in words."""
    if cause == WIND:
        direction_deg, sense, place = desk.wind.cases[case]
        blown = sense if _both_senses(desk, name) else ALONG
        return f"wind from {direction_deg:.0f} deg, {blown}, {place}"
    loads = [desk.resolved.extra_loads[number].key for number in extra_causes(desk, name)[cause]]
    return f"{cause}: {loads[case] if case < len(loads) else ' and '.join(loads)}"


def _both_senses(desk: Desk, name: str) -> bool:
    """Return whether anything on a set of brackets is blown to the wall and off it."""
    return any(
        STANDINGS[assembly.stands].both_senses
        for assembly in desk.resolved.assemblies
        if assembly.carried_by == name and assembly.wind != "none"
    )


def cases_of(desk: Desk, name: str, cause: str, count: int) -> tuple[Case, ...]:
    """Return the cases of a cause; of the wind the main ones have the force in the middle."""
    if cause in (OWN_WEIGHT, NOT_LISTED):
        return (Case(None, cause),)
    if cause != WIND:
        return tuple(Case(None, case_words(desk, name, cause, k)) for k in range(count))
    both, centre = _both_senses(desk, name), desk.wind.cases[CENTRED].place
    return tuple(
        Case(
            direction_deg,
            ", ".join((sense if both else ALONG, *([] if place == centre else [place]))),
            main=place == centre,
            again=not both and sense != SENSES[0],
        )
        for direction_deg, sense, place in desk.wind.cases
    )
