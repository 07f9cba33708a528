"""Loads on a set of brackets: of every group that hangs on it, by cause and position."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from estimator.core.constants import GRAVITY_M_S2
from estimator.geometry.measures import Floats
from estimator.masses.bands import band
from estimator.resolve.job import Resolved
from estimator.resolve.records import ExtraLoad
from estimator.stages.blowing import ALONG, Wind
from estimator.stages.blowing_rules import SENSES
from estimator.stages.burdening import Burdens
from estimator.stages.holding_cases import Case
from estimator.stages.holding_together import Together, together
from estimator.stages.posing import Group
from estimator.stages.weighing import Weights
from estimator.supports.combinations import ICE, ICED_WIND, LIKELY, SNOW, WIND, WeightRange
from estimator.wind.walls import STANDINGS

OWN_WEIGHT, NOT_LISTED = "own weight", "not listed yet"
BLOWING = frozenset({WIND, ICED_WIND})
"""The causes that have the cases of the wind."""
WORKED_OUT = {ICE: "all over", SNOW: "by the outline from above"}
"""What a burden that the program works out is called among those that somebody typed."""
VARIATION = 0.10
"""Coefficient of variation above which a weight enters as its lower or upper value: the upper end
of the 0.05 to 0.10 of EN 1990:2002, 4.1.2, as quoted in the Spanish rules that follow it (DB SE,
4.2)."""
WIDE = 1.645 * VARIATION
"""What that is one time in twenty on either side, as a share of the likely weight."""
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


class Cause(NamedTuple):
    """What a cause of loads on a set is made of.

    Attributes:
        typed: Loads that somebody typed.
        worked: Whether the program works some of it out beside them.
    """

    typed: tuple[ExtraLoad, ...]
    worked: bool

    @property
    def cases(self) -> tuple[Together, ...]:
        """Return which typed loads are in each case; what was worked out is in all of them."""
        typed = together(self.typed)
        return ((), *typed) if self.worked else typed


class Asked(NamedTuple):
    """How much is asked of the brackets.

    Attributes:
        every_case: List every unfactored action, not only as drawn and the largest.
        compared: Only what ways and sizes are compared by: as built, no demands.
    """

    every_case: bool = False
    compared: bool = False


AS_A_RULE = Asked()


class Desk(NamedTuple):
    """Everything the loads come from."""

    resolved: Resolved
    weights: Weights
    groups: tuple[Group, ...]
    wind: Wind
    burdens: Burdens
    asked: Asked = AS_A_RULE


def about_datum(loads: Loads) -> Floats:
    """Return the sum of each case's loads about the datum, (m, 6)."""
    moment_nm = loads.moment_nm + np.cross(loads.at_m, loads.force_n)
    return np.concatenate([loads.force_n.sum(axis=1), moment_nm.sum(axis=1)], axis=-1)


def group_loads(desk: Desk, name: str, axis: int) -> Iterator[dict[str, list[Loads]]]:
    """Return for each group that hangs on a set its loads by cause, one entry a position."""
    burdens, columns = desk.burdens, desk.resolved.columns
    causes = causes_of(desk, name)
    iced_kg = _worked_out_kg(desk)
    for g, group in enumerate(desk.groups):
        hung = [
            i for i, row in enumerate(group.members)
            if desk.resolved.assemblies[row].carried_by == name
        ]  # fmt: skip
        if not hung:
            continue
        states = range(len(group.states))
        own = [_weight(desk, group, hung, (s, axis)) for s in states]
        loads = {OWN_WEIGHT: own}
        rows = [np.flatnonzero(columns.assembly == group.members[i]) for i in hung]
        allowed = desk.weights.allowed[np.concatenate(rows)][:, None]
        loads[NOT_LISTED] = [load._replace(force_n=allowed * load.force_n) for load in own]
        if desk.wind.known:
            bare = desk.wind.groups[g].wrench
            loads[WIND] = [_wind(desk, g, hung, (s, axis), bare[s]) for s in states]
        if burdens.iced.winds:
            iced = burdens.iced.winds[g]
            loads[ICED_WIND] = [_wind(desk, g, hung, (s, axis), iced[s]) for s in states]
        for cause, made_of in causes.items():
            ours = [_ours(desk, (g, cause), hung, (s, axis), iced_kg) for s in states]
            loads[cause] = [_extra(desk, group, made_of, s, some) for s, some in enumerate(ours)]
        yield loads


def _worked_out_kg(desk: Desk) -> Floats:
    """Return the ice on every part, (n,), but for assemblies with ice of their own typed."""
    said = desk.burdens.said(ICE)
    own = np.array([a.key in said for a in desk.resolved.assemblies], dtype=bool)
    kept: Floats = np.where(own[desk.resolved.columns.assembly], 0.0, desk.burdens.iced.part_kg)
    return kept


def _weight(
    desk: Desk,
    group: Group,
    hung: Sequence[int],
    at: tuple[int, int],
    mass_kg: Floats | None = None,
) -> Loads:
    """Return the weight of every part that hangs on a set, in one position.

    Args:
        desk: Everything the loads come from.
        group: What moves together.
        hung: Its members that hang on the set.
        at: Number of the position, and the axis of the row of brackets.
        mass_kg: (n,) spread as the parts themselves are, in the place of their own mass.
    """
    (s, axis), columns, bodies = at, desk.resolved.columns, desk.weights.parts
    counted_kg = bodies.mass_kg if mass_kg is None else mass_kg
    at_m, half_m, mass = [], [], []
    for i in hung:
        rows = np.flatnonzero(columns.assembly == group.members[i])
        rotation, origin_m = group.rotation[s, i], group.origin_m[s, i]
        at_m.append(bodies.centre_m[rows] @ rotation.T + origin_m)
        mass.append(counted_kg[rows])
        # A mass spread evenly over +-h has a mean square of h^2 / 3.
        second = rotation @ bodies.second_kgm2[rows] @ rotation.T
        mean_m2 = second[:, axis, axis] / np.maximum(bodies.mass_kg[rows], 1e-12)
        half_m.append(np.sqrt(3.0 * np.maximum(mean_m2, 0.0)))
    return _downwards(
        GRAVITY_M_S2 * np.concatenate(mass), np.concatenate(at_m), np.concatenate(half_m)
    )


def _downwards(weight_n: Floats, at_m: Floats, half_m: Floats) -> Loads:
    """Return one case of weights (l,) at their places."""
    force_n = np.zeros_like(at_m)
    force_n[:, 1] = -weight_n
    return Loads(force_n[None], at_m[None], half_m[None], np.zeros_like(at_m)[None])


def _ours(
    desk: Desk, of: tuple[int, str], hung: Sequence[int], at: tuple[int, int], iced_kg: Floats
) -> Loads | None:
    """Return the ice or the snow that was worked out for one group, in one position."""
    g, cause = of
    if cause == ICE and iced_kg.any():
        return _weight(desk, desk.groups[g], hung, at, iced_kg)
    if cause != SNOW:
        return None
    s, axis = at
    lying = [x for i in hung if (x := desk.burdens.snow.get((g, s, i))) is not None]
    if not lying:
        return None
    weight_n, at_m, half_m = (np.concatenate(values) for values in zip(*lying, strict=True))
    return _downwards(weight_n, at_m, half_m[:, axis])


def _wind(desk: Desk, g: int, hung: Sequence[int], at: tuple[int, int], wrenches: Floats) -> Loads:
    """Return the wind on every assembly that hangs on a set, in every case, in one position.

    Args:
        desk: Everything the loads come from.
        g: Number of the group.
        hung: Its members that hang on the set.
        at: Number of the position, and the axis of the row of brackets.
        wrenches: (a, k, 6) of its members there, without ice or with it.
    """
    (s, axis), wind = at, desk.wind.groups[g]
    force_n, at_m, half_m, moment_nm = [], [], [], []
    for i in hung:
        spots = wind.spots[s, i]
        if spots is None:
            continue
        wrench, middle_m = wrenches[i], wind.at_m[s, i]
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


def causes_of(desk: Desk, name: str) -> dict[str, Cause]:
    """Return the causes of loads on a set beside weight and wind, with what they are made of."""
    holders = {a.key: a.carried_by for a in desk.resolved.assemblies}
    typed: dict[str, list[ExtraLoad]] = {}
    for load in desk.burdens.extra:
        if holders[load.assembly] == name:
            typed.setdefault(load.cause, []).append(load)
    worked = set(_worked_out(desk, name))
    return {
        cause: Cause(tuple(typed.get(cause, ())), cause in worked)
        for cause in dict.fromkeys((*typed, *sorted(worked)))
    }


def _worked_out(desk: Desk, name: str) -> Iterator[str]:
    """Yield the causes that the program works out and that a set carries any of."""
    hung = [row for row, a in enumerate(desk.resolved.assemblies) if a.carried_by == name]
    if _worked_out_kg(desk)[np.isin(desk.resolved.columns.assembly, hung)].any():
        yield ICE
    if any(desk.groups[g].members[i] in hung for g, _, i in desk.burdens.snow):
        yield SNOW


def _extra(desk: Desk, group: Group, cause: Cause, s: int, ours: Loads | None) -> Loads:
    """Return the loads of one cause on this group, in each of its cases, in one position."""
    cases, many = cause.cases, max(len(cause.typed), 1)
    force_n, at_m = np.zeros((len(cases), many, 3)), np.zeros((len(cases), many, 3))
    rows = {desk.resolved.assemblies[row].key: i for i, row in enumerate(group.members)}
    for k, load in enumerate(cause.typed):
        if load.assembly in rows:
            i = rows[load.assembly]
            at = [number for number, case in enumerate(cases) if k in case]
            force_n[at, k] = load.force_n
            at_m[at, k] = group.rotation[s, i] @ np.array(load.at_m) + group.origin_m[s, i]
    loads = Loads(force_n, at_m, np.zeros((len(cases), many)), np.zeros_like(force_n))
    return loads if ours is None else _beside(loads, ours)


def _beside(loads: Loads, ours: Loads) -> Loads:
    """Return cases of loads with more of them beside, the same in every case."""
    cases = len(loads.force_n)
    return Loads(
        *(
            np.concatenate([some, np.broadcast_to(more, (cases, *more.shape[1:]))], axis=1)
            for some, more in zip(loads, ours, strict=True)
        )
    )


def weight_range(desk: Desk, name: str) -> WeightRange:
    """Return how far the weight on a set may lie off, where that is far enough to count.

    All that hangs on it together: what is permanent comes from one source.

    References:
        EN 1990:2002, 4.1.2: lower and upper characteristic values, one time in twenty on either
        side, as quoted by A. Arteaga, Classification of actions, 4.2.
    """
    layers = desk.weights.layers
    holders = np.array([a.carried_by == name for a in desk.resolved.assemblies], dtype=bool)
    hung = holders[desk.resolved.columns.assembly[layers.part]]
    mass_kg = layers.mass_kg * (1.0 + desk.weights.allowed[layers.part]) * hung
    likely_kg = float(mass_kg.sum())
    if not likely_kg > 0:
        return LIKELY
    whole = band(mass_kg, np.zeros(len(mass_kg), dtype=np.intp), 1, layers.offs)
    low, high = float(whole.low_kg[0]) / likely_kg, float(whole.high_kg[0]) / likely_kg
    return WeightRange(max(low, 0.0), high) if max(1.0 - low, high - 1.0) > WIDE else LIKELY


def hung_groups(desk: Desk, name: str) -> list[Group]:
    """Return the groups of which anything hangs on a set."""
    return [
        group
        for group in desk.groups
        if any(desk.resolved.assemblies[row].carried_by == name for row in group.members)
    ]


def case_words(desk: Desk, name: str, cause: str, case: int) -> str:
    """Return a case of an action on a set of brackets in words."""
    if cause in BLOWING:
        direction_deg, sense, place = desk.wind.cases[case]
        blown = sense if _both_senses(desk, name) else ALONG
        return f"{cause} from {direction_deg:.0f} deg, {blown}, {place}"
    made_of = causes_of(desk, name)[cause]
    words = [made_of.typed[k].key for k in made_of.cases[case]]
    return f"{cause}: {' and '.join([*([WORKED_OUT[cause]] if made_of.worked else []), *words])}"


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
    if cause not in BLOWING:
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


def actions_of(desk: Desk, name: str) -> tuple[str, ...]:
    """Return the causes of the variable actions on a set, in the order of its loads."""
    winds = [WIND] if desk.wind.known else []
    winds += [ICED_WIND] if desk.burdens.iced.winds else []
    return (*winds, *causes_of(desk, name))
