"""Holding: what every bracket passes to the wall, by cause, then in combinations."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import NamedTuple

import numpy as np

from estimator.core.constants import GRAVITY_M_S2
from estimator.geometry.measures import Floats
from estimator.resolve.job import Resolved
from estimator.resolve.records import Bracket
from estimator.stages.blowing import ALONG, Wind
from estimator.stages.blowing_rules import SENSES
from estimator.stages.holding_cases import Case, Characteristic, listed
from estimator.stages.holding_rules import rules_for
from estimator.stages.posing import Group
from estimator.stages.weighing import Weights
from estimator.supports.arms import HOLDS, ArmSection, moved, released, tip_stiffness
from estimator.supports.combinations import Combination, Kind
from estimator.supports.envelope import ABSENT, Envelope, Responses, envelope
from estimator.supports.lever import lever_sharing, longest_axis
from estimator.supports.mechanisms import movement_words
from estimator.supports.sharing import free_movements, imbalance, rigid_sharing
from estimator.wind.walls import STANDINGS

WIND = "wind"
OWN_WEIGHT, NOT_LISTED = "own weight", "not listed yet"
AXIS_NAMES = ("across", "up", "out")
SHARINGS = ("rigid", "lever")
COMPONENTS = (
    ("shear to the right", "shear to the left"),
    ("uplift", "down"),
    ("pull-out", "push-in"),
    ("moment about across, + pulls the top", "moment about across, - pulls the bottom"),
    ("moment about up, +", "moment about up, -"),
    ("moment about out, +", "moment about out, -"),
)
"""Name of the highest and the lowest of each of the six components of an action on the wall."""
CENTRED = 0
"""Place in a direction's wind cases of the one with the force in the middle."""


class Governing(NamedTuple):
    """The worst of one component at one bracket.

    Attributes:
        bracket: Its mark.
        component: One of `COMPONENTS`.
        value: N or Nm, factored as the combination says.
        combination: Its name and clause.
        case: Wind case and loads that govern.
        position: Of the movers.
        sharing: Rigid or lever, whichever is larger.
    """

    bracket: str
    component: str
    value: float
    combination: Combination
    case: str
    position: str
    sharing: str


@dataclass(frozen=True, slots=True)
class HeldSet:
    """What one set of brackets passes to the wall.

    Attributes:
        name: Of the set.
        brackets: Its brackets.
        carries: Assemblies that hang on it.
        long_axis: The row's axis, along which the lever rule shares.
        mechanism: What the brackets leave free, in words; blank when nothing.
        residual: Largest imbalance of any case, as a part of the largest number in it.
        characteristic: Unfactored actions: as drawn, and the largest over all positions.
        governing: Worst of every component in combination.
        service: The same with every factor 1, for comparing ways of building.
    """

    name: str
    brackets: tuple[Bracket, ...]
    carries: tuple[str, ...]
    long_axis: str
    mechanism: str
    residual: float
    characteristic: tuple[Characteristic, ...]
    governing: tuple[Governing, ...]
    service: tuple[Governing, ...]


class _Loads(NamedTuple):
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


class _Frame(NamedTuple):
    """The brackets of a set as arrays."""

    root_m: Floats
    bears_m: Floats
    stiffness: Floats
    axis: int
    rigid: bool


def hold(
    resolved: Resolved,
    weights: Weights,
    groups: Sequence[Group],
    wind: Wind,
    every_case: bool = False,  # noqa: FBT001, FBT002 - the run gives every step by place
) -> tuple[HeldSet, ...]:
    """Return what every set of brackets passes to the wall.

    Args:
        resolved: The job.
        weights: What everything weighs.
        groups: Where everything is.
        wind: On everything.
        every_case: List every unfactored action, not only as drawn and the largest.
    """
    by_set: dict[str, list[Bracket]] = {}
    for bracket in resolved.brackets:
        by_set.setdefault(bracket.set_name, []).append(bracket)
    desk = _Desk(resolved, weights, tuple(groups), wind, every_case)
    return tuple(_held(desk, name, brackets) for name, brackets in by_set.items())


class _Desk(NamedTuple):
    """Everything the loads come from."""

    resolved: Resolved
    weights: Weights
    groups: tuple[Group, ...]
    wind: Wind
    every_case: bool


def _held(desk: _Desk, name: str, brackets: Sequence[Bracket]) -> HeldSet:
    frame = _frame(brackets)
    bears = frame.root_m + frame.bears_m
    free = free_movements(bears, frame.stiffness)
    words = "; ".join(movement_words(m, [b.key for b in brackets], bears) for m in free)
    frame = frame._replace(rigid=not free)
    responses, residual = _responses(desk, name, frame)
    actions = listed(
        [bracket.key for bracket in brackets],
        _hung_groups(desk, name),
        {sharing: [one.causes for one in shared] for sharing, shared in responses.items()},
        partial(_cases, desk, name),
        every=desk.every_case,
    )
    governing = _governing(desk, brackets, responses, (Kind.STRENGTH, Kind.EQUILIBRIUM))
    service = _governing(desk, brackets, responses, (Kind.SERVICE,))
    return HeldSet(
        name=name,
        brackets=tuple(brackets),
        carries=tuple(a.key for a in desk.resolved.assemblies if a.carried_by == name),
        long_axis=AXIS_NAMES[frame.axis],
        mechanism=words,
        residual=residual,
        characteristic=tuple(actions),
        governing=tuple(governing),
        service=tuple(service),
    )


def _frame(brackets: Sequence[Bracket]) -> _Frame:
    """Return the brackets as arrays, each with the stiffness it holds the body with."""
    root_m = np.array([bracket.root_m for bracket in brackets])
    bears_m = np.array([(0.0, 0.0, bracket.bears_m) for bracket in brackets])
    stiffness = []
    for bracket in brackets:
        section = bracket.section
        arm = ArmSection(section.area_m2, section.iy_m4, section.iz_m4, section.it_m4)
        tip = tip_stiffness(bracket.bears_m, arm, *bracket.modulus_pa)
        stiffness.append(released(tip, HOLDS[bracket.holds]))
    return _Frame(root_m, bears_m, np.array(stiffness), longest_axis(root_m), rigid=True)


@dataclass(frozen=True, slots=True)
class _Shared:
    """Responses of one group to each cause, by one way of sharing; (p, k, n, 6) each."""

    causes: Mapping[str, Floats]


Shared = dict[str, list[_Shared]]


def _responses(desk: _Desk, name: str, frame: _Frame) -> tuple[Shared, float]:
    """Return for each sharing the responses of every group, and the largest imbalance."""
    found: Shared = {sharing: [] for sharing in SHARINGS if sharing == "lever" or frame.rigid}
    worst = 0.0
    for loads in _group_loads(desk, name, frame.axis):
        for sharing, kept in found.items():
            causes = {}
            for cause, states in loads.items():
                causes[cause], off = _share_states(frame, states, sharing)
                worst = max(worst, off)
            kept.append(_Shared(causes))
    return found, worst


def _share_states(frame: _Frame, states: Sequence[_Loads], sharing: str) -> tuple[Floats, float]:
    """Return the actions on the wall (p, m, n, 6) of m cases in p positions, and the imbalance."""
    if len({state.force_n.shape for state in states}) > 1:
        both = [_share(frame, state, sharing) for state in states]
        return np.array([actions for actions, _ in both]), max(off for _, off in both)
    # Positions with equally many loads are so many more cases.
    cases = _Loads(*(np.concatenate(values) for values in zip(*states, strict=True)))
    actions, off = _share(frame, cases, sharing)
    return actions.reshape(len(states), -1, *actions.shape[1:]), off


def _share(frame: _Frame, loads: _Loads, sharing: str) -> tuple[Floats, float]:
    """Return the actions on the wall (m, n, 6) of m cases, and how far they are off balance."""
    # Against a wall nearly half the directions of the wind do nothing.
    acting = np.any(loads.force_n, axis=(1, 2)) | np.any(loads.moment_nm, axis=(1, 2))
    actions, off = np.zeros((len(acting), len(frame.root_m), 6)), 0.0
    if acting.any():
        at_work = _Loads(*(values[acting] for values in loads))
        actions[acting], off = _share_acting(frame, at_work, sharing)
    return actions, off


def _share_acting(frame: _Frame, loads: _Loads, sharing: str) -> tuple[Floats, float]:
    """Return the actions and the imbalance of cases in which something acts, one or more."""
    cases = len(loads.force_n)
    wrench = _about_datum(loads)
    if sharing == "rigid":
        bears_m = frame.root_m + frame.bears_m
        at_arm = rigid_sharing(bears_m, frame.stiffness, wrench)
        actions = moved(at_arm, frame.bears_m)
    else:
        flat = _Loads(*(values.reshape(-1, *values.shape[2:]) for values in loads))
        each = lever_sharing(
            frame.root_m, frame.axis, flat.force_n, flat.at_m, flat.half_m, flat.moment_nm
        )
        actions = each.reshape(cases, -1, *each.shape[1:]).sum(axis=1)
    return actions, imbalance(frame.root_m, actions, wrench)


def _about_datum(loads: _Loads) -> Floats:
    """Return the sum of each case's loads about the datum, (m, 6)."""
    moment_nm = loads.moment_nm + np.cross(loads.at_m, loads.force_n)
    return np.concatenate([loads.force_n.sum(axis=1), moment_nm.sum(axis=1)], axis=-1)


def _group_loads(desk: _Desk, name: str, axis: int) -> Iterator[dict[str, list[_Loads]]]:
    """Return for each group that hangs on a set its loads by cause, one entry a position."""
    extra = _extra_causes(desk, name)
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


def _weight(desk: _Desk, group: Group, hung: Sequence[int], s: int, axis: int) -> _Loads:
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
    return _Loads(force_n[None], at[None], half[None], np.zeros_like(at)[None])


def _wind(desk: _Desk, g: int, hung: Sequence[int], s: int, axis: int) -> _Loads:
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
        return _Loads(nothing, nothing, nothing[..., 0], nothing)
    return _Loads(*(np.concatenate(x, axis=1) for x in (force_n, at_m, half_m, moment_nm)))


def _extra_causes(desk: _Desk, name: str) -> dict[str, list[int]]:
    """Return the loads from elsewhere on a set, by cause."""
    holders = {a.key: a.carried_by for a in desk.resolved.assemblies}
    causes: dict[str, list[int]] = {}
    for i, load in enumerate(desk.resolved.extra_loads):
        if holders[load.assembly] == name:
            causes.setdefault(load.cause, []).append(i)
    return causes


def _extra(desk: _Desk, group: Group, names: Sequence[int], s: int) -> _Loads:
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
    return _Loads(force_n, at_m, np.zeros((cases, alone)), np.zeros_like(force_n))


def _variable(shared: Sequence[_Shared]) -> list[str]:
    """Return the variable actions there are."""
    causes = dict.fromkeys(cause for one in shared for cause in one.causes)
    return [cause for cause in causes if cause not in (OWN_WEIGHT, NOT_LISTED)]


def _governing(
    desk: _Desk, brackets: Sequence[Bracket], responses: Shared, kinds: Sequence[Kind]
) -> Iterator[Governing]:
    """Return the worst of every component at every bracket, the larger of the two sharings."""
    name = brackets[0].set_name
    groups = _hung_groups(desk, name)
    sets = {}
    for sharing, shared in responses.items():
        rules = [rule for rule in rules_for(desk.resolved, _variable(shared)) if rule.kind in kinds]
        things = [
            Responses(
                (one.causes[OWN_WEIGHT] + one.causes[NOT_LISTED])[:, 0],
                {cause: one.causes[cause] for cause in _variable(shared)},
            )
            for one in shared
        ]
        sets[sharing] = (envelope(things, rules), rules)
    for n, bracket in enumerate(brackets):
        for c, names in enumerate(COMPONENTS):
            for side, component in enumerate(names):
                yield _worst(desk, groups, sets, (name, bracket.key, component), (side, n, c))


def _worst(
    desk: _Desk, groups: Sequence[Group],
    sets: Mapping[str, tuple[Envelope, Sequence[Combination]]],
    names: tuple[str, str, str], at: tuple[int, int, int],
) -> Governing:  # fmt: skip
    """Return the larger of the two sharings for one end of one component."""
    side, n, c = at
    sign = 1.0 if side == 0 else -1.0
    sharing = max(sets, key=lambda s: sign * sets[s][0][side].value[n, c])
    extreme, rules = sets[sharing][0][side], sets[sharing][1]
    combination = rules[extreme.combination[n, c]]
    words = [
        _case_words(desk, names[0], cause, int(cases[n, c]))
        for cause, cases in extreme.cases.items()
        if cases[n, c] != ABSENT
    ]
    position = [
        group.states[int(p)].label
        for group, p in zip(groups, extreme.positions[:, n, c], strict=True)
        if group.mover
    ]
    return Governing(
        names[1], names[2], float(extreme.value[n, c]), combination,
        "; ".join(words) or "no variable action", ", ".join(position) or "as drawn", sharing,
    )  # fmt: skip


def _hung_groups(desk: _Desk, name: str) -> list[Group]:
    return [
        group
        for group in desk.groups
        if any(desk.resolved.assemblies[row].carried_by == name for row in group.members)
    ]


def _case_words(desk: _Desk, name: str, cause: str, case: int) -> str:
    """Return a case of an action on a set of brackets in words."""
    if cause == WIND:
        direction_deg, sense, place = desk.wind.cases[case]
        blown = sense if _both_senses(desk, name) else ALONG
        return f"wind from {direction_deg:.0f} deg, {blown}, {place}"
    loads = [desk.resolved.extra_loads[number].key for number in _extra_causes(desk, name)[cause]]
    return f"{cause}: {loads[case] if case < len(loads) else ' and '.join(loads)}"


def _both_senses(desk: _Desk, name: str) -> bool:
    """Return whether anything on a set of brackets is blown to the wall and off it."""
    return any(
        STANDINGS[assembly.stands].both_senses
        for assembly in desk.resolved.assemblies
        if assembly.carried_by == name and assembly.wind != "none"
    )


def _cases(desk: _Desk, name: str, cause: str, count: int) -> tuple[Case, ...]:
    """Return the cases of a cause; of the wind the main ones have the force in the middle."""
    if cause in (OWN_WEIGHT, NOT_LISTED):
        return (Case(None, cause),)
    if cause != WIND:
        return tuple(Case(None, _case_words(desk, name, cause, k)) for k in range(count))
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
