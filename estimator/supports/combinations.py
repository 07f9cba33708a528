"""Load combinations: which actions stand together, and with what factor on each.

The tables read like the standards: a line for each expression. A variable action that helps is
left out (factor 0), so every choice of accompanying actions is a combination of its own and
carries its own name. The wind on what is iced takes the place of the bare wind wherever ice takes
part: the two never act together.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import chain, product
from itertools import combinations as choices
from operator import attrgetter
from types import MappingProxyType
from typing import NamedTuple, TypeVar

from estimator.supports.asce_lines import LETTERS, LINES, Line


class Kind(StrEnum):
    """What a combination is for."""

    STRENGTH = "strength"
    EQUILIBRIUM = "equilibrium"
    SERVICE = "service"


WIND, ICE, ICED_WIND, SNOW = "wind", "ice", "wind on ice", "snow"


class WindLevel(StrEnum):
    """What a wind pressure already contains, and so which factors may follow it."""

    CHARACTERISTIC = "peak characteristic"
    STRENGTH = "strength level"


class WeightRange(NamedTuple):
    """Lower and upper characteristic weight over the likely one, for all permanent actions alike.

    Attributes:
        low: One time in twenty it is less.
        high: One in twenty it is more.
    """

    low: float = 1.0
    high: float = 1.0


LIKELY = WeightRange()
"""The likely weight alone, which does where its range is narrow."""


@dataclass(frozen=True, slots=True)
class Factors:
    """Partial and combination factors of EN 1990; a national annex may set others.

    The defaults are the recommended values of EN 1990:2002, Table A1.2(B) (strength) and
    Table A1.2(A) (equilibrium), as quoted in Steel Buildings in Europe, Multi-storey, Part 3
    Actions, page 3-5.

    Attributes:
        psi0: Combination factor of each variable action, by the action's name.
        gamma_g_sup: On permanent actions that are unfavourable as a whole.
        gamma_g_inf: On permanent actions that are favourable as a whole.
        gamma_q: On unfavourable variable actions.
        xi: Reduction of `gamma_g_sup` in expression 6.10b.
        equ_g_sup: On unfavourable permanent actions in a check of equilibrium.
        equ_g_inf: On favourable permanent actions in a check of equilibrium.
        equ_q: On unfavourable variable actions in a check of equilibrium.
        k_fi: By the consequence of failure, on what is unfavourable for strength and equilibrium:
            EN 1990:2002, B3.3 and Table B3, from memory.
    """

    psi0: Mapping[str, float]
    gamma_g_sup: float = 1.35
    gamma_g_inf: float = 1.00
    gamma_q: float = 1.50
    xi: float = 0.85
    equ_g_sup: float = 1.10
    equ_g_inf: float = 0.90
    equ_q: float = 1.50
    k_fi: float = 1.0


@dataclass(frozen=True, slots=True)
class Combination:
    """Actions that are taken to act together.

    Attributes:
        name: What to print beside a result that this combination governs.
        clause: Where the factors come from.
        kind: Strength, equilibrium or service.
        permanent_factor: On the likely value of all permanent actions alike: they come from one
            source.
        variable_factors: On each variable action that takes part, by its name.
        weight_ratio: Characteristic over likely weight, which `permanent_factor` holds already.
    """

    name: str
    clause: str
    kind: Kind
    permanent_factor: float
    variable_factors: Mapping[str, float]
    weight_ratio: float = 1.0


class _Expression(NamedTuple):
    """A line of EN 1990: factors on the permanent, leading and accompanying actions."""

    name: str
    clause: str
    kind: Kind
    permanent: Callable[[Factors], float]
    variable: Callable[[Factors], float] = lambda f: f.k_fi * f.gamma_q
    weight: Callable[[WeightRange], float] = lambda w: w.high
    leading_in_full: bool = True


def _upper(factors: Factors) -> float:
    return factors.k_fi * factors.gamma_g_sup


def _reduced(factors: Factors) -> float:
    return factors.xi * _upper(factors)


def _tipping(factors: Factors) -> float:
    return factors.k_fi * factors.equ_q


_lower, _lightest = attrgetter("gamma_g_inf"), attrgetter("low")
_STR = ("EN 1990:2002 6.4.3.2 and Table A1.2(B)", Kind.STRENGTH)
_EQU = ("EN 1990:2002 6.4.3.1 and Table A1.2(A)", Kind.EQUILIBRIUM)
_SLS = ("EN 1990:2002 6.5.3", Kind.SERVICE)
_STRENGTH: Mapping[str, tuple[_Expression, ...]] = MappingProxyType(
    {
        "EN 1990 6.10": (
            _Expression("6.10 sup", *_STR, _upper),
            _Expression("6.10 inf", *_STR, _lower, weight=_lightest),
        ),
        "EN 1990 6.10a/b": (
            _Expression("6.10a sup", *_STR, _upper, leading_in_full=False),
            _Expression("6.10a inf", *_STR, _lower, weight=_lightest, leading_in_full=False),
            _Expression("6.10b sup", *_STR, _reduced),
            _Expression("6.10b inf", *_STR, _lower, weight=_lightest),
        ),
    }
)
_ALWAYS = (
    _Expression("EQU sup", *_EQU, lambda f: f.k_fi * f.equ_g_sup, _tipping),
    _Expression("EQU inf", *_EQU, lambda f: f.equ_g_inf, _tipping, _lightest),
    _Expression("6.14b", *_SLS, lambda _: 1.0, lambda _: 1.0, lambda _: 1.0),
)


ASCE_LETTERS: Mapping[str, str] = MappingProxyType(
    {
        "wind": "W",
        "snow": "S",
        "person": "L",
        "ice": "Di",
        "wind on ice": "Wi",
        "water trapped": "L",
        "mechanism": "L",
    }
)
"""Letters of ASCE 7 by cause. Trapped water and mechanisms as live loads are on the heavy side:
water is F or R (from memory)."""
UNFACTORED = "every factor 1"

RULES: Mapping[str, WindLevel] = MappingProxyType(
    dict.fromkeys(_STRENGTH, WindLevel.CHARACTERISTIC) | dict.fromkeys(LINES, WindLevel.STRENGTH)
)
"""The combination rules, each with the level of wind its factors were written for.

ASCE 7 has had strength-level wind speeds since its 2010 edition; before, its factor was 1.6 on a
service-level wind (International Building Code 2009, 1605.2.1).
"""

_WHY_NOT: Mapping[WindLevel, str] = MappingProxyType(
    {
        WindLevel.CHARACTERISTIC: "its partial factor would be counted a second time",
        WindLevel.STRENGTH: "its factor on wind would leave out the partial factor",
    }
)


def check_pair(wind_level: str, rule: str) -> str | None:
    """Return why a wind and a combination rule do not belong together, or None if they do.

    Args:
        wind_level: What the wind pressure is, a `WindLevel` or its text.
        rule: One of `RULES`.

    Raises:
        ValueError: The level or the rule is unknown.
    """
    given, wanted = WindLevel(wind_level), _known(rule, RULES)
    if given is wanted:
        return None
    return f"{rule} is written for a {wanted} wind; with a {given} wind {_WHY_NOT[wanted]}"


def combinations(
    variable_actions: Sequence[str], factors: Factors, rule: str = "EN 1990 6.10",
    weight: WeightRange = LIKELY,
) -> tuple[Combination, ...]:  # fmt: skip
    """Return the combinations of EN 1990 for strength, equilibrium and service.

    Every expression gives the permanent actions alone, then each variable action as the leading
    one, with every choice of the others beside it at their combination value.

    Args:
        variable_actions: Names of the variable actions, such as wind, ice, person.
        factors: With a `psi0` for each of them.
        rule: ``EN 1990 6.10``, or ``EN 1990 6.10a/b`` where the national annex takes the worse
            of that pair.
        weight: How far the weight may lie off, where that is wide: the upper one goes with what
            is unfavourable, the lower with what is favourable, the likely one with service.

    Raises:
        ValueError: The rule is unknown, or an action has no combination factor.

    References:
        EN 1990:2002, 6.4.3.1, 6.4.3.2 (expressions 6.10, 6.10a, 6.10b), 6.5.3 (6.14b), Tables
        A1.2(A) and A1.2(B), as quoted in Steel Buildings in Europe, Single-storey, Part 3
        Actions, pages 3-5 and 3-6. Two characteristic weights: 4.1.2, as quoted by A. Arteaga,
        Classification of actions, 4.2. That a favourable variable action counts 0 (Table
        A1.2(B)) is from memory. Ice with wind: EN 1993-3-1 Annex C and ISO 12494, from memory.
    """
    missing = [action for action in variable_actions if action not in factors.psi0]
    if missing:
        msg = f"no combination factor psi0 for {', '.join(missing)}"
        raise ValueError(msg)
    expressions = (*_known(rule, _STRENGTH), *_ALWAYS)
    return tuple(
        chain.from_iterable(_en(e, variable_actions, factors, weight) for e in expressions)
    )


def asce_combinations(
    actions: Mapping[str, str], rule: str = "ASCE 7-16 strength", weight: WeightRange = LIKELY
) -> tuple[Combination, ...]:
    """Return the combinations of ASCE 7 for dead load with wind, live, snow and ice loads.

    Beside those for strength there is every choice of actions with every factor 1, to compare ways
    of building by; ASCE 7 has no combination of that kind.

    Args:
        actions: For each variable action the letter it goes by in ASCE 7: W wind, L live, Di ice,
            Wi wind on ice, S for snow, in 7-16 also for a roof live load or rain. Of several
            under S, one at a time is taken.
        rule: ``ASCE 7-16 strength``, ``ASCE 7-16 ASD``, or one of these of 7-22.
        weight: How far the weight may lie off, where that is wide: the lower goes with factors
            on D below 1, the upper with the others. That is of EN 1990, not of ASCE 7.

    Raises:
        ValueError: The rule or a letter is unknown.

    References:
        ASCE 7-16, 2.3.1 and 2.4.1, as reprinted in the New York City Building Code, BC 1605.2
        and 1605.3.1. ASCE 7-22, 2.3.1, combinations 1a to 5a, as in a public transcription: its
        snow is at strength level. Ice: 2.3.3 and 2.4.3, from memory.
    """
    strangers = sorted(set(actions.values()) - set(LETTERS))
    if strangers:
        msg = f"ASCE letters are {', '.join(LETTERS)}, got {', '.join(strangers)}"
        raise ValueError(msg)
    made: dict[tuple[float, tuple[tuple[str, float], ...]], Combination] = {}
    for clause, lines in _known(rule, LINES):
        for line in lines:
            for factors in _asce_choices(line, actions):
                key = (line.dead, tuple(sorted(factors.items())))
                # Without ice, its lines are those of the clause before them.
                made.setdefault(key, _asce(rule, clause, line.dead, factors, weight))
    return (*made.values(), *_unfactored(actions))


def _asce(
    rule: str, clause: str, dead: float, factors: Mapping[str, float], weight: WeightRange
) -> Combination:
    """Return one combination of ASCE 7."""
    ratio = weight.low if dead < 1.0 else weight.high
    name = " + ".join(
        [f"{rule} {dead:g} D{_weight_words(ratio)}", *(f"{f:g} {a}" for a, f in factors.items())]
    )
    return Combination(name, clause, Kind.STRENGTH, dead * ratio, factors, ratio)


def _weight_words(ratio: float) -> str:
    """Return which weight counts, blank for the likely one."""
    if ratio == 1.0:
        return ""
    return " (high weight)" if ratio > 1.0 else " (low weight)"


def _meet(chosen: Collection[str], every: Collection[str]) -> bool:
    """Return whether actions may act together: no bare wind with ice, where that has a wind."""
    iced = ICED_WIND in every and WIND in chosen
    return not (iced and (ICE in chosen or ICED_WIND in chosen))


def _unfactored(actions: Iterable[str]) -> Iterator[Combination]:
    """Yield every choice of actions with every factor 1."""
    names = tuple(actions)
    for chosen in (some for some in _subsets(names) if _meet(some, names)):
        yield Combination(
            " + ".join(["1 D", *(f"1 {action}" for action in chosen)]),
            UNFACTORED,
            Kind.SERVICE,
            1.0,
            dict.fromkeys(chosen, 1.0),
        )


def _en(
    expression: _Expression, actions: Sequence[str], factors: Factors, weight: WeightRange
) -> Iterator[Combination]:
    """Yield the combinations of one expression, the plainest first."""
    gamma, ratio = expression.variable(factors), expression.weight(weight)
    seen: list[dict[str, float]] = []
    for first, others in _leaders(actions):
        # Where every action is reduced none leads, and A with B is B with A.
        leading, reduced = (first, others) if expression.leading_in_full else ((), first + others)
        variable = dict.fromkeys(leading, gamma)
        variable |= {action: gamma * factors.psi0[action] for action in reduced}
        if variable in seen:
            continue
        seen.append(variable)
        yield Combination(
            f"{expression.name}{_weight_words(ratio)}: {_en_name(leading, reduced)}",
            expression.clause,
            expression.kind,
            expression.permanent(factors) * ratio,
            variable,
            ratio,
        )


def _leaders(actions: Sequence[str]) -> Iterator[tuple[tuple[str, ...], tuple[str, ...]]]:
    """Yield every leading action with every choice of others; first nothing at all."""
    yield (), ()
    for leading in actions:
        others = [action for action in actions if action != leading]
        for chosen in _subsets(others):
            if _meet((leading, *chosen), actions):
                yield (leading,), chosen


def _subsets(names: Sequence[str]) -> Iterable[tuple[str, ...]]:
    """Return every choice from the names, from none to all."""
    return chain.from_iterable(choices(names, size) for size in range(len(names) + 1))


def _en_name(leading: tuple[str, ...], reduced: tuple[str, ...]) -> str:
    """Return the actions of a combination in words."""
    beside = " and ".join(reduced)
    if not leading:
        return beside or "permanent only"
    return f"{leading[0]} leading with {beside}" if beside else f"{leading[0]} leading"


def _asce_choices(line: Line, actions: Mapping[str, str]) -> Iterator[dict[str, float]]:
    """Yield the factors of a line for every choice of the actions it names."""
    options = []
    for letter in line.others:
        names = [action for action, known_as in actions.items() if known_as == letter]
        most = 1 if letter == "S" else len(names)
        options.append([chosen for chosen in _subsets(names) if len(chosen) <= most])
    for picked in product(*options):
        yield {
            action: factor
            for factor, chosen in zip(line.others.values(), picked, strict=True)
            for action in chosen
        }


Entry = TypeVar("Entry")


def _known(rule: str, table: Mapping[str, Entry]) -> Entry:
    """Return a rule's entry, or say which rules there are."""
    if rule not in table:
        msg = f"combination rule {rule!r} is not one of {', '.join(table)}"
        raise ValueError(msg)
    return table[rule]
