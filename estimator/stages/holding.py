"""Holding: what every bracket passes to the wall, by cause, then in combinations."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from typing import NamedTuple

import numpy as np

from estimator.geometry.measures import Floats
from estimator.resolve.job import Resolved
from estimator.resolve.records import Bracket
from estimator.stages.blowing import Wind
from estimator.stages.holding_cases import Characteristic, listed
from estimator.stages.holding_demands import Demands
from estimator.stages.holding_loads import (
    NOT_LISTED,
    OWN_WEIGHT,
    Desk,
    Loads,
    about_datum,
    case_words,
    cases_of,
    group_loads,
    hung_groups,
)
from estimator.stages.holding_rules import rules_for
from estimator.stages.posing import Group
from estimator.stages.weighing import Weights
from estimator.supports.arms import HOLDS, ArmSection, moved, released, tip_stiffness
from estimator.supports.combinations import Combination, Kind
from estimator.supports.envelope import ABSENT, Envelope, Responses, envelope
from estimator.supports.lever import lever_sharing, longest_axis
from estimator.supports.mechanisms import movement_words
from estimator.supports.sharing import free_movements, imbalance, rigid_sharing

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
        demands: By bracket, every factored action that can govern its arm or its plate.
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
    demands: Mapping[str, Demands] = field(default_factory=dict)


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
    desk = Desk(resolved, weights, tuple(groups), wind, every_case)
    return tuple(_held(desk, name, brackets) for name, brackets in by_set.items())


def _held(desk: Desk, name: str, brackets: Sequence[Bracket]) -> HeldSet:
    frame = _frame(brackets)
    bears = frame.root_m + frame.bears_m
    free = free_movements(bears, frame.stiffness)
    words = "; ".join(movement_words(m, [b.key for b in brackets], bears) for m in free)
    frame = frame._replace(rigid=not free)
    responses, residual = _responses(desk, name, frame)
    actions = listed(
        [bracket.key for bracket in brackets],
        hung_groups(desk, name),
        {sharing: [one.causes for one in shared] for sharing, shared in responses.items()},
        partial(cases_of, desk, name),
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


def _responses(desk: Desk, name: str, frame: _Frame) -> tuple[Shared, float]:
    """Return for each sharing the responses of every group, and the largest imbalance."""
    found: Shared = {sharing: [] for sharing in SHARINGS if sharing == "lever" or frame.rigid}
    worst = 0.0
    for loads in group_loads(desk, name, frame.axis):
        for sharing, kept in found.items():
            causes = {}
            for cause, states in loads.items():
                causes[cause], off = _share_states(frame, states, sharing)
                worst = max(worst, off)
            kept.append(_Shared(causes))
    return found, worst


def _share_states(frame: _Frame, states: Sequence[Loads], sharing: str) -> tuple[Floats, float]:
    """Return the actions on the wall (p, m, n, 6) of m cases in p positions, and the imbalance."""
    if len({state.force_n.shape for state in states}) > 1:
        both = [_share(frame, state, sharing) for state in states]
        return np.array([actions for actions, _ in both]), max(off for _, off in both)
    # Positions with equally many loads are so many more cases.
    cases = Loads(*(np.concatenate(values) for values in zip(*states, strict=True)))
    actions, off = _share(frame, cases, sharing)
    return actions.reshape(len(states), -1, *actions.shape[1:]), off


def _share(frame: _Frame, loads: Loads, sharing: str) -> tuple[Floats, float]:
    """Return the actions on the wall (m, n, 6) of m cases, and how far they are off balance."""
    # Against a wall nearly half the directions of the wind do nothing.
    acting = np.any(loads.force_n, axis=(1, 2)) | np.any(loads.moment_nm, axis=(1, 2))
    actions, off = np.zeros((len(acting), len(frame.root_m), 6)), 0.0
    if acting.any():
        at_work = Loads(*(values[acting] for values in loads))
        actions[acting], off = _share_acting(frame, at_work, sharing)
    return actions, off


def _share_acting(frame: _Frame, loads: Loads, sharing: str) -> tuple[Floats, float]:
    """Return the actions and the imbalance of cases in which something acts, one or more."""
    cases = len(loads.force_n)
    wrench = about_datum(loads)
    if sharing == "rigid":
        bears_m = frame.root_m + frame.bears_m
        at_arm = rigid_sharing(bears_m, frame.stiffness, wrench)
        actions = moved(at_arm, frame.bears_m)
    else:
        flat = Loads(*(values.reshape(-1, *values.shape[2:]) for values in loads))
        each = lever_sharing(
            frame.root_m, frame.axis, flat.force_n, flat.at_m, flat.half_m, flat.moment_nm
        )
        actions = each.reshape(cases, -1, *each.shape[1:]).sum(axis=1)
    return actions, imbalance(frame.root_m, actions, wrench)


def _variable(shared: Sequence[_Shared]) -> list[str]:
    """Return the variable actions there are."""
    causes = dict.fromkeys(cause for one in shared for cause in one.causes)
    return [cause for cause in causes if cause not in (OWN_WEIGHT, NOT_LISTED)]


def _governing(
    desk: Desk, brackets: Sequence[Bracket], responses: Shared, kinds: Sequence[Kind]
) -> Iterator[Governing]:
    """Return the worst of every component at every bracket, the larger of the two sharings."""
    name = brackets[0].set_name
    groups = hung_groups(desk, name)
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
    desk: Desk, groups: Sequence[Group],
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
        case_words(desk, names[0], cause, int(cases[n, c]))
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
