"""The brackets of a set as numbers, and what loads do to each of them by each way of sharing."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats
from estimator.resolve.job import Resolved
from estimator.resolve.records import Bracket, Facts
from estimator.stages.holding_loads import Loads, about_datum
from estimator.supports.arms import BUILT_IN, HOLDS, Arm, ArmSection, Root, moved, released
from estimator.supports.beams import Beam, beam_influence
from estimator.supports.lever import lever_sharing, longest_axis
from estimator.supports.sharing import changed, imbalance
from estimator.supports.slackening import (
    OneWay,
    rest_sense,
    state_sharing,
    states_of,
    stay_sense,
)
from estimator.supports.stays import StayBar, stay_pull, stayed_tip_stiffness

RIGID, LEVER, BEAM = "rigid", "lever", "beam"
SAME_M = 1e-6
"""Loads on a bending body nearer than this along it act in one place."""


class _Working(NamedTuple):
    """A part of a bracket that works one way only.

    Attributes:
        bracket: Its place in the set.
        sense: As in `OneWay`.
        without: (6, 6) stiffness of the bracket when it does not work.
    """

    bracket: int
    sense: Floats
    without: Floats


@dataclass(frozen=True, slots=True)
class Frame:
    """The brackets of a set as arrays.

    Attributes:
        root_m: (n, 3) middle of each plate.
        bears_m: (n, 3) from there to where the load bears.
        stiffness: (n, 6, 6) there, everything at work.
        axis: The row's axis.
        working: Parts that work one way only.
        bending_nm2: EI of the carried body along the row; NaN when nobody said.
        root: How the wall holds every plate.
    """

    root_m: Floats
    bears_m: Floats
    stiffness: Floats
    axis: int
    working: tuple[_Working, ...]
    bending_nm2: float
    root: Root = BUILT_IN

    @property
    def points_m(self) -> Floats:
        """Return where each bracket meets the body, (n, 3)."""
        return self.root_m + self.bears_m


class Setting(NamedTuple):
    """A frame in one state of its brackets.

    Attributes:
        frame: As built.
        factors: (n,) on the stiffness of each bracket; 0 for one that is not there.
    """

    frame: Frame
    factors: Floats

    @property
    def there(self) -> npt.NDArray[np.intp]:
        """Return the places of the brackets that take part."""
        return np.flatnonzero(self.factors)

    @property
    def working(self) -> tuple[_Working, ...]:
        """Return the one-way parts of the brackets that take part."""
        return tuple(one for one in self.frame.working if self.factors[one.bracket])

    @property
    def at_work(self) -> npt.NDArray[np.bool_]:
        """Return (t, o) which one-way parts work in each state of them."""
        return states_of(len(self.working))

    def stiffness(self, at_work: npt.NDArray[np.bool_]) -> Floats:
        """Return (n, 6, 6) stiffness with some one-way parts at work."""
        stiffness = self.frame.stiffness.copy()
        for one, works in zip(self.working, at_work, strict=True):
            if not works:
                stiffness[one.bracket] = one.without
        return changed(stiffness, self.factors)


def frame_of(resolved: Resolved, brackets: Sequence[Bracket], name: str) -> Frame:
    """Return the brackets of a set as arrays, each with the stiffness it holds the body with."""
    root_m = np.array([bracket.root_m for bracket in brackets])
    bears_m = np.array([(0.0, 0.0, bracket.bears_m) for bracket in brackets])
    root = root_of(resolved.facts)
    stiffness, working = [], []
    for n, bracket in enumerate(brackets):
        held, one_ways = _held(n, bracket, root)
        stiffness.append(held)
        working += one_ways
    bends = [
        a.stiffness_nm2 for a in resolved.assemblies if a.carried_by == name and a.stiffness_nm2 > 0
    ]
    return Frame(
        root_m, bears_m, np.array(stiffness), longest_axis(root_m), tuple(working),
        max(bends, default=float("nan")), root,
    )  # fmt: skip


def root_of(facts: Facts) -> Root:
    """Return how much the wall gives behind every plate; not at all where nobody said."""
    return Root(
        facts.number("wall_stiffness_pull", float("inf")),
        facts.number("wall_stiffness_turn", float("inf")),
    )


def _held(n: int, bracket: Bracket, root: Root) -> tuple[Floats, list[_Working]]:
    """Return the stiffness of one bracket, and what of it works one way only."""
    section, held = bracket.section, HOLDS[bracket.holds]
    bends = ArmSection(section.area_m2, section.iy_m4, section.iz_m4, section.it_m4)
    arm = Arm(bracket.bears_m, bends, *bracket.modulus_pa)
    stay = bracket.stay
    bar = stay and StayBar(stay.from_m, stay.to_m, stay.section.area_m2, bracket.modulus_pa[0])
    stiffness = released(stayed_tip_stiffness(arm, bar, root), held)
    working = []
    if stay and bar and stay.pulls_only:
        sense = stay_sense(stiffness, stay_pull(arm, bar, root))
        working.append(_Working(n, sense, released(stayed_tip_stiffness(arm, None, root), held)))
    if bracket.holds == "rests":
        # Listed last, so that a body that has lifted off hangs on no stay either.
        working.append(_Working(n, rest_sense(stiffness), np.zeros((6, 6))))
    return stiffness, working


@dataclass(frozen=True, slots=True)
class Shared:
    """What the loads on one group do to each bracket, by one way of sharing.

    Attributes:
        causes: Of each cause (t, p, k, n, 6) in p positions and k cases, in each of t states of
            the one-way parts; NaN in a state that holds nothing.
        carried: Of each cause (t, p, k, o): what each one-way part would carry.
        at_work: (t, o) which of them work in each state.
    """

    causes: Mapping[str, Floats]
    carried: Mapping[str, Floats]
    at_work: npt.NDArray[np.bool_]


def share(
    setting: Setting, sharing: str, causes: Mapping[str, Sequence[Loads]]
) -> tuple[Shared, float]:
    """Return what the loads of one group do to the wall, and the largest imbalance.

    Args:
        setting: Brackets.
        sharing: `RIGID`, `LEVER` or `BEAM`.
        causes: Of each cause its loads in each position.
    """
    way = _WAYS[sharing](setting)
    found, carried, worst = {}, {}, 0.0
    for cause, states in causes.items():
        found[cause], carried[cause], off = _share_states(way, states)
        worst = max(worst, off)
    return Shared(found, carried, way.at_work), worst


def _share_states(way: "_Way", states: Sequence[Loads]) -> tuple[Floats, Floats, float]:
    """Return actions (t, p, m, n, 6) in p positions, what is carried, and the imbalance."""
    if len({state.force_n.shape for state in states}) > 1:
        each = [_share(way, state) for state in states]
        actions, carried = (np.stack([one[i] for one in each], axis=1) for i in (0, 1))
        return actions, carried, max(off for _, _, off in each)
    # Positions with equally many loads are so many more cases.
    cases = Loads(*(np.concatenate(values) for values in zip(*states, strict=True)))
    actions, carried, off = _share(way, cases)
    parted = (len(actions), len(states), -1)
    return (
        actions.reshape(*parted, *actions.shape[2:]),
        carried.reshape(len(carried), len(states), cases.force_n.shape[0] // len(states), -1),
        off,
    )


class _Way:
    """A way of sharing, with what it needs worked out once."""

    def __init__(self, setting: Setting) -> None:
        self.setting = setting
        self.at_work = setting.at_work

    def actions(self, loads: Loads) -> tuple[Floats, Floats]:
        """Return actions on the wall (t, m, n, 6), and what one-way parts carry (t, m, o)."""
        raise NotImplementedError


class _Rigid(_Way):
    """The body moves as one."""

    def __init__(self, setting: Setting) -> None:
        super().__init__(setting)
        frame, there = setting.frame, setting.there
        stiffness = np.array([setting.stiffness(at_work)[there] for at_work in self.at_work])
        one_ways = [
            OneWay(int(np.searchsorted(there, one.bracket)), one.sense) for one in setting.working
        ]
        at_arm, self.carried = state_sharing(frame.points_m[there], stiffness, one_ways, np.eye(6))
        self.by_load = np.zeros((len(self.at_work), 6, len(frame.root_m), 6))
        self.by_load[:, :, there] = moved(at_arm, frame.bears_m[there])

    def actions(self, loads: Loads) -> tuple[Floats, Floats]:
        """Return the actions on the wall in each state, and what one-way parts would carry."""
        wrench = about_datum(loads)
        return (
            np.einsum("ml,tlni->tmni", wrench, self.by_load, optimize=True),
            np.einsum("ml,tlo->tmo", wrench, self.carried, optimize=True),
        )


class _Lever(_Way):
    """The body is a chain of simple spans; what is at work does not matter to it."""

    def __init__(self, setting: Setting) -> None:
        super().__init__(setting)
        self.at_work = states_of(0)

    def actions(self, loads: Loads) -> tuple[Floats, Floats]:
        """Return the actions on the wall in each state, and what one-way parts would carry."""
        frame, there = self.setting.frame, self.setting.there
        cases = len(loads.force_n)
        flat = Loads(*(values.reshape(-1, *values.shape[2:]) for values in loads))
        each = lever_sharing(
            frame.points_m[there], frame.axis, flat.force_n, flat.at_m, flat.half_m, flat.moment_nm
        )
        at_arm = each.reshape(cases, -1, *each.shape[1:]).sum(axis=1)
        actions = np.zeros((1, cases, len(frame.root_m), 6))
        actions[0][:, there] = moved(at_arm, frame.bears_m[there])
        return actions, np.zeros((1, cases, 0))


class _Beam(_Rigid):
    """The body bends along the row; what is at work is taken from the rigid body."""

    def actions(self, loads: Loads) -> tuple[Floats, Floats]:
        """Return the actions on the wall in each state, and what one-way parts would carry."""
        frame, there = self.setting.frame, self.setting.there
        _, carried = super().actions(loads)
        middle_m = frame.points_m[there].mean(axis=0)
        along = np.stack([loads.at_m[..., frame.axis], loads.half_m], axis=-1).reshape(-1, 2)
        places, number = np.unique(np.round(along / SAME_M), axis=0, return_inverse=True)
        number = number.reshape(loads.half_m.shape)
        at_m = np.tile(middle_m, (len(places), 1))
        at_m[:, frame.axis] = places[:, 0] * SAME_M
        there_n = moved(
            np.concatenate([loads.force_n, loads.moment_nm], axis=-1), loads.at_m - at_m[number]
        )
        gathered = _gathered(there_n, number, len(places))
        cases = len(loads.force_n)
        actions = np.full((len(self.at_work), cases, len(frame.root_m), 6), np.nan)
        for t, at_work in enumerate(self.at_work):
            if np.isnan(self.by_load[t]).any():
                continue
            influence = beam_influence(
                frame.points_m[there], self.setting.stiffness(at_work)[there],
                Beam(frame.axis, frame.bending_nm2), at_m, places[:, 1] * SAME_M,
            )  # fmt: skip
            actions[t] = 0.0
            at_arm = np.einsum("mpj,pnij->mni", gathered, influence, optimize=True)
            actions[t][:, there] = moved(at_arm, frame.bears_m[there])
        return actions, carried


_WAYS: Mapping[str, type[_Way]] = {RIGID: _Rigid, LEVER: _Lever, BEAM: _Beam}


def _gathered(actions: Floats, number: npt.NDArray[np.intp], count: int) -> Floats:
    """Return actions (m, l, 6) added up by the number of their place, (m, count, 6)."""
    cases = len(actions)
    total = np.zeros((cases * count, 6))
    at = (np.arange(cases)[:, np.newaxis] * count + number).ravel()
    np.add.at(total, at, actions.reshape(-1, 6))
    return total.reshape(cases, count, 6)


def _share(way: _Way, loads: Loads) -> tuple[Floats, Floats, float]:
    """Return actions (t, m, n, 6), what is carried (t, m, o), and the imbalance."""
    # Against a wall nearly half the directions of the wind do nothing.
    acting = np.any(loads.force_n, axis=(1, 2)) | np.any(loads.moment_nm, axis=(1, 2))
    root_m = way.setting.frame.root_m
    actions = np.zeros((len(way.at_work), len(acting), len(root_m), 6))
    carried = np.zeros((len(way.at_work), len(acting), way.at_work.shape[1]))
    if not acting.any():
        return actions, carried, 0.0
    some = Loads(*(values[acting] for values in loads))
    actions[:, acting], carried[:, acting] = way.actions(some)
    wrench = about_datum(some)
    held = [one[acting] for one in actions if not np.isnan(one).any()]
    return actions, carried, max((imbalance(root_m, one, wrench) for one in held), default=0.0)
