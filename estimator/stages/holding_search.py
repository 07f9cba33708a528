"""What governs at every bracket: the furthest of all combinations, states and ways of sharing."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import product
from math import prod
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats
from estimator.resolve.records import Bracket
from estimator.stages.arm_figures import carrier_of, moduli_of
from estimator.stages.holding_demands import FACTORED, Demands, Source
from estimator.stages.holding_loads import case_words, hung_groups
from estimator.stages.holding_variants import Variant
from estimator.supports.arms import BUILT_IN, Root, carried
from estimator.supports.combinations import Combination, Kind
from estimator.supports.extremes import ABSENT, Furthest, action_of, furthest
from estimator.supports.stays import stay_on_wall, stay_pull

COMPONENTS = (
    ("shear to the right", "shear to the left"),
    ("uplift", "down"),
    ("pull-out", "push-in"),
    ("moment about across, + pulls the top", "moment about across, - pulls the bottom"),
    ("moment about up, +", "moment about up, -"),
    ("moment about out, +", "moment about out, -"),
)
"""Name of the highest and the lowest of each of the six components of an action on the wall."""
ENDS = tuple((c, side, name) for c, pair in enumerate(COMPONENTS) for side, name in enumerate(pair))
"""Component, side and name of each end; the first directions of a search, in this order."""
AROUND = 48
"""Directions of pull and both tilting moments, evenly spread over a sphere."""
MIXED = (0.25,)
"""Angles between stress along an arm and stress across it."""
PER_COMBINATION = 26
"""Directions, after the ends, in which every factored combination is kept: those of `_corners`."""
SAME = 1e-9
"""What is larger by less than this part of itself is the same, and the first of them counts."""


class Governing(NamedTuple):
    """The worst of one component at one bracket.

    Attributes:
        bracket: Its mark.
        component: One of `COMPONENTS`.
        value: N or Nm, factored as the combination says.
        combination: Its name and clause.
        case: Wind case and loads that govern.
        position: Of the movers.
        sharing: Rigid, lever or beam, whichever is larger.
        state: Of the brackets.
    """

    bracket: str
    component: str
    value: float
    combination: Combination
    case: str
    position: str
    sharing: str
    state: str


class Ends(NamedTuple):
    """The twelve ends of one variant at each bracket, factored: (n, 12), NaN where none."""

    state: str
    sharing: str
    value: Floats
    unheld: int


def directions(brackets: Sequence[Bracket], sizes: Floats, root: Root = BUILT_IN) -> Floats:
    """Return the directions to look in, (n, d, 6).

    First the twelve ends, then the corners of the plate and of its shear, then all round the
    pull and the tilting moments, those that stress the arm most, and where there is a stay those
    of its pull and of the ends that it leaves to the arm's own plate.

    Args:
        brackets: The brackets.
        sizes: (n, 6) how large each number gets.
        root: How the wall holds arms and stays.
    """
    ends = np.zeros((len(ENDS), 6))
    for row, (c, side, _) in enumerate(ENDS):
        ends[row, c] = -1.0 if side else 1.0
    scaled = np.concatenate([_corners(), _all_round()])
    each = []
    for bracket, size in zip(brackets, sizes, strict=True):
        one = np.concatenate([ends, scaled / size, _of_arm(bracket)])
        if any(other.stay for other in brackets):
            one = np.concatenate([one, _of_stay(bracket, ends, root)])
        each.append(one / np.linalg.norm(one * size, axis=1, keepdims=True))
    return np.array(each)


def _corners() -> Floats:
    """Return what pulls most at each corner of a plate, and shears most at each."""
    pulls = [(0, 0, 1, x, y, 0) for x, y in product((1, -1), repeat=2)]
    shears = [(x, y, 0, 0, 0, 0) for x, y in product((1, -1), repeat=2)]
    twists = [(x, y, 0, 0, 0, z) for x, y, z in product((1, -1, 0), repeat=3) if z]
    return np.array([*pulls, *shears, *twists], dtype=float)


def _all_round() -> Floats:
    """Return points spread evenly over a sphere of pull and both tilting moments.

    References:
        Spiral with the golden angle: common practice, no source.
    """
    turn = np.arange(AROUND) * np.pi * (3.0 - np.sqrt(5.0))
    height = 1.0 - (2.0 * np.arange(AROUND) + 1.0) / AROUND
    wide = np.sqrt(1.0 - height**2)
    found = np.zeros((AROUND, 6))
    found[:, 2], found[:, 3], found[:, 4] = height, wide * np.cos(turn), wide * np.sin(turn)
    return found


def stress_ways(bracket: Bracket) -> tuple[Floats, Floats]:
    """Return the directions in which the stress along an arm grows at a cut, and that across it.

    Both are sums of sizes; every sign of each of their parts is a direction, (8, 6) each.

    Args:
        bracket: With its section.
    """
    moduli = moduli_of(bracket.section)
    along = np.zeros((8, 6))
    across = np.zeros((8, 6))
    twist = 1.0 / moduli.twists_m3 if moduli.twists_m3 > 0 else 0.0
    for row, (x, y, z) in enumerate(product((1, -1), repeat=3)):
        along[row, 2:5] = x / moduli.area_m2, y / moduli.bends_m3, z / moduli.sways_m3
        across[row, [0, 1, 5]] = x / moduli.shear_across_m2, y / moduli.shear_up_m2, z * twist
    return along, across * np.sqrt(3.0)


def _of_arm(bracket: Bracket) -> Floats:
    """Return the directions in which an arm's stress grows, at its root and at its tip.

    Besides those along and across also mixtures of both.
    """
    along, across = stress_ways(bracket)
    at_root = [along, across]
    for angle in MIXED:
        both = np.cos(angle) * along[:, np.newaxis] + np.sin(angle) * across
        at_root.append(both.reshape(-1, 6))
    # A weight at the tip is a weight at the root: action there = transpose of the carrier.
    to_tip = np.linalg.inv(carried(bracket.bears_m).T)
    return np.concatenate([*at_root, np.concatenate([along, across]) @ to_tip])


def _of_stay(bracket: Bracket, ends: Floats, root: Root) -> Floats:
    """Return the directions of a stay's pull, and of the ends on the arm's own plate beside it."""
    carrier = carrier_of(bracket, bracket.section, root)
    if carrier.stay is None:
        return np.concatenate([ends[:1], ends])
    at_tip_n = stay_pull(carrier.arm, carrier.stay, root)
    pull = np.linalg.inv(carried(bracket.bears_m)) @ at_tip_n
    by_stay = np.outer(stay_on_wall(carrier.stay, np.array(1.0)), pull)
    return np.concatenate([pull[np.newaxis], ends @ (np.eye(6) - by_stay)])


class Search:
    """Keeps the furthest of every combination in every direction as variants are looked at."""

    def __init__(self, brackets: Sequence[Bracket], ways: Floats) -> None:
        """Begin with nothing looked at.

        Args:
            brackets: Of one set.
            ways: (n, d, 6) directions, the ends first.
        """
        self.brackets, self.ways = brackets, ways
        self.rules: dict[tuple[str, float], Combination] = {}
        self.variants: list[Variant] = []
        self.ends: list[Ends] = []
        self.cases = 0
        self.name = brackets[0].set_name
        self._words: dict[tuple[str, str, int], str] = {}
        count = len(brackets)
        self.value = np.zeros((0, count, ways.shape[1]))
        self.found: list[list[tuple[int, Furthest, int]]] = []
        self.from_ = np.zeros((0, count, ways.shape[1]), dtype=np.intp)

    def look(self, one: Variant, rules: Sequence[Combination]) -> None:
        """Look at one more variant; service combinations only as built.

        Args:
            one: The variant.
            rules: Combinations of the job.
        """
        ours = [rule for rule in rules if one.state.built or rule.kind in FACTORED]
        seen = furthest(one.answers, ours, self.ways)
        value = seen.value
        self.cases += sum(_cases(one, rule) for rule in ours) * len(one.state.setting.there)
        absent = np.setdiff1d(np.arange(len(self.brackets)), one.state.setting.there)
        number = len(self.variants)
        self.variants.append(one)
        factored = [c for c, rule in enumerate(ours) if rule.kind in FACTORED]
        self._keep_ends(one, value[factored], absent, int(seen.unheld[factored].sum()))
        value = value.copy()
        value[:, absent] = -np.inf
        for c, rule in enumerate(ours):
            row = self._row(rule)
            best = self.value[row]
            better = value[c] > best + SAME * np.where(np.isinf(best), 0.0, np.abs(best))
            self.value[row][better] = value[c][better]
            self.from_[row][better] = len(self.found[row])
            self.found[row].append((number, seen, c))

    def _keep_ends(
        self, one: Variant, value: Floats, absent: npt.NDArray[np.intp], unheld: int
    ) -> None:
        worst = value[:, :, : len(ENDS)].max(axis=0, initial=-np.inf)
        worst[absent] = np.nan
        worst[np.isneginf(worst)] = np.nan
        signs = np.array([-1.0 if side else 1.0 for _, side, _ in ENDS])
        lengths = np.abs(self.ways[:, : len(ENDS)]).sum(axis=2)
        self.ends.append(Ends(one.state.name, one.sharing, signs * worst / lengths, unheld))

    def words(self, one: Variant, cause: str, case: int) -> str:
        """Return a case of a cause in words."""
        key = (one.state.name, cause, int(one.kept[cause][case]))
        if key not in self._words:
            self._words[key] = case_words(one.state.desk, self.name, cause, key[2])
        return self._words[key]

    def _row(self, rule: Combination) -> int:
        """Return the row of a combination, a new one where it was not met yet."""
        key = (rule.name, rule.permanent_factor)
        if key not in self.rules:
            self.rules[key] = rule
            nothing = np.full((1, *self.value.shape[1:]), -np.inf)
            self.value = np.concatenate([self.value, nothing])
            self.from_ = np.concatenate([self.from_, np.zeros(nothing.shape, dtype=np.intp)])
            self.found.append([])
        return list(self.rules).index(key)

    def picked(self, kinds: Sequence[Kind], n: int, d: int) -> "Pick | None":
        """Return the furthest of some kinds of combination at a bracket in a direction."""
        rows = [r for r, rule in enumerate(self.rules.values()) if rule.kind in kinds]
        if not rows:
            return None
        row = rows[int(self.value[rows, n, d].argmax())]
        return self.pick(row, n, d)

    def pick(self, row: int, n: int, d: int) -> "Pick | None":
        """Return what one combination goes furthest with at a bracket in a direction."""
        if np.isneginf(self.value[row, n, d]):
            return None
        number, seen, c = self.found[row][self.from_[row, n, d]]
        cases = (int(of[c, n, d]) for of in seen.cases)
        return Pick(row, number, (int(seen.state[c, n, d]), int(seen.stance[c, n, d]), *cases))


def _cases(one: Variant, rule: Combination) -> int:
    """Return how many cases a combination has: stances, times the cases of each of its causes."""
    return len(one.stances) * prod(one.counts[cause] for cause in rule.variable_factors)


class Pick(NamedTuple):
    """One factored case: combination, variant, and state, stance and case of each cause."""

    rule: int
    variant: int
    at: tuple[int, ...]


def governing(search: Search, kinds: Sequence[Kind]) -> Iterator[Governing]:
    """Yield the worst of every component at every bracket.

    Args:
        search: With every variant looked at.
        kinds: Of combinations.
    """
    for n, bracket in enumerate(search.brackets):
        for d, (c, _, name) in enumerate(ENDS):
            pick = search.picked(kinds, n, d)
            if pick is not None:
                source = source_of(search, pick)
                value = float(_action(search, pick)[n, c])
                yield Governing(bracket.key, name, value, *source)


def demands(search: Search) -> Mapping[str, Demands]:
    """Return for every bracket the factored actions that can govern an arm or a plate.

    Args:
        search: With every variant looked at.
    """
    found = {}
    for n, bracket in enumerate(search.brackets):
        picks = dict.fromkeys(pick for pick in _wanted(search, n) if pick is not None)
        actions = np.array([_action(search, pick)[n] for pick in picks]).reshape(-1, 6)
        sources = tuple(source_of(search, pick) for pick in picks)
        found[bracket.key] = Demands(actions, sources)
    return found


def _wanted(search: Search, n: int) -> Iterator[Pick | None]:
    """Yield what to keep for one bracket, the same case more than once."""
    for kinds in ((Kind.STRENGTH,), (Kind.EQUILIBRIUM,)):
        for d in range(search.ways.shape[1]):
            yield search.picked(kinds, n, d)
    lasting = [r for r, rule in enumerate(search.rules.values())
               if rule.kind is Kind.SERVICE and not rule.variable_factors]  # fmt: skip
    for d in range(search.ways.shape[1]):
        pick = search.picked((Kind.SERVICE,), n, d)
        yield pick
        if pick is not None and lasting:
            # What a movement adds is measured from the permanent actions in the same stance.
            state, stance, *cases = pick.at
            yield Pick(lasting[0], pick.variant, (state, stance, *(ABSENT for _ in cases)))
    for row, rule in enumerate(search.rules.values()):
        if rule.kind not in FACTORED:
            continue
        for d in range(len(ENDS), len(ENDS) + PER_COMBINATION):
            yield search.pick(row, n, d)


def _action(search: Search, pick: Pick) -> Floats:
    return action_of(search.variants[pick.variant].answers, _rule(search, pick), pick.at)


def _rule(search: Search, pick: Pick) -> Combination:
    return list(search.rules.values())[pick.rule]


def source_of(search: Search, pick: Pick) -> Source:
    """Return what a factored case comes from, in words."""
    one = search.variants[pick.variant]
    desk, name = one.state.desk, search.name
    _, stance, *cases = pick.at
    words = [
        search.words(one, cause, case)
        for cause, case in zip(one.answers.cases, cases, strict=True)
        if case != ABSENT
    ]
    position = [
        group.states[int(p)].label
        for group, p in zip(hung_groups(desk, name), one.stances[stance], strict=True)
        if group.mover
    ]
    return Source(
        _rule(search, pick), "; ".join(words) or "no variable action",
        ", ".join(position) or "as drawn", one.sharing, one.state.name,
    )  # fmt: skip
