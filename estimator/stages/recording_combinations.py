"""Records of how loads are combined, and of what lies on and in things, for the document."""

from collections.abc import Iterator, Sequence
from typing import Any

from estimator.reference.factors import Factor
from estimator.resolve.job import Resolved
from estimator.resolve.records import ExtraLoad
from estimator.stages.burdening import Burdens
from estimator.stages.holding import HeldSet
from estimator.stages.holding_loads import VARIATION, WIDE, Desk, actions_of, weight_range
from estimator.stages.holding_rules import by_asce, factors_used, psi0_symbol, rules_for
from estimator.supports.combinations import ICE, ICED_WIND, LIKELY, SNOW, WIND, Combination
from estimator.wind import ice, snow

LIKELY_WORDS = "Weights are the likely ones: none of what hangs on a set may be off by more than"
ONE_SOURCE = (
    "All that is permanent comes from one source and takes one factor: own weight and what is not "
    "listed yet together."
)
TYPED_ICE = (
    "No thickness of ice is stated: the ice that was typed goes with the bare wind, by the "
    "factors of ice."
)
AMERICAN_SNOW = (
    "ASCE 7 has 0.7 for snow on what is flat (7.3, from memory); the 0.8 of EN 1991-1-3 is taken, "
    "which is more."
)
CALM_ICE = "No wind is known, so there is no wind on what is iced."
LEFT_OUT = (
    "A variable action that helps is left out, so each choice of them is a combination of its own. "
    "Wind counts by direction, sense and place, never as a sum of sizes."
)
TWO_WEIGHTS = (
    f"That is a coefficient of variation of {VARIATION:g}; EN 1990 4.1.2 has 0.05 to 0.10, as "
    "quoted in other rules."
)


def combinations_record(desk: Desk, held: Sequence[HeldSet]) -> dict[str, Any]:
    """Return the combinations of the job, with every factor and where it is from."""
    facts = desk.resolved.facts
    rule = facts.text("combination_rule")
    actions = {one.name: actions_of(desk, one.name) for one in held}
    weights = {one.name: weight_range(desk, one.name) for one in held}
    every = tuple(dict.fromkeys(action for some in actions.values() for action in some))
    american = by_asce(rule)
    return {
        "rule": rule,
        "annex": None if american else facts.text("national_annex", "none"),
        "wind_level": str(desk.resolved.weather.level),
        "consequence_factor": None if american else facts.number("consequence_factor", 1.0),
        "actions": list(every),
        "factors": [_factor(factor) for factor in factors_used(desk.resolved, every)],
        "weights": [{"set": name, **weight._asdict()} for name, weight in weights.items()],
        "list": list(
            _listed(
                {name: rules_for(desk.resolved, actions[name], weights[name]) for name in actions}
            )
        ),
        "notes": list(_notes(desk, every, wide=any(w != LIKELY for w in weights.values()))),
    }


def _listed(rules: dict[str, tuple[Combination, ...]]) -> Iterator[dict[str, Any]]:
    """Yield every combination once, with the sets of brackets it is for."""
    made: dict[tuple[str, float], tuple[Combination, list[str]]] = {}
    for name, some in rules.items():
        for one in some:
            made.setdefault((one.name, one.permanent_factor), (one, []))[1].append(name)
    for one, sets in made.values():
        yield {
            "name": one.name,
            "clause": one.clause,
            "kind": str(one.kind),
            "permanent": one.permanent_factor,
            "weight": one.weight_ratio,
            "variable": [
                {"action": action, "factor": factor}
                for action, factor in one.variable_factors.items()
            ],
            "sets": sets,
        }


def _factor(factor: Factor) -> dict[str, Any]:
    return {
        "symbol": factor.symbol,
        "value": factor.value,
        "annex": factor.annex,
        "source": factor.source,
        "locator": factor.locator,
        "checked": factor.checked,
    }


def _notes(desk: Desk, actions: Sequence[str], *, wide: bool) -> Iterator[str]:
    """Yield what must be known to follow the combinations."""
    yield from (ONE_SOURCE, LEFT_OUT)
    resolved = desk.resolved
    american = by_asce(resolved.facts.text("combination_rule"))
    if not wide:
        yield f"{LIKELY_WORDS} {100 * WIDE:.0f} % one time in twenty. {TWO_WEIGHTS}"
    else:
        yield (
            f"Where the weight on a set may be off by more than {100 * WIDE:.0f} % one time in "
            "twenty, its lower or upper value stands in the place of the likely one. "
            + ("That is not of ASCE 7." if american else TWO_WEIGHTS)
        )
    if ICED_WIND in actions:
        yield from _with_ice(desk.burdens, american=american)
    elif ICE in actions:
        yield TYPED_ICE if WIND in actions else CALM_ICE
    if SNOW in actions:
        yield AMERICAN_SNOW if american else _at_altitude(resolved)


def _with_ice(burdens: Burdens, *, american: bool) -> Iterator[str]:
    ice_class = burdens.iced.ice_class or ice.ice_class(burdens.iced.thickness_m)
    yield (
        f"Wind on ice is every wind case again on the iced outlines, with "
        f"{100 * ice_class.reduction:g} % of the pressure for class {ice_class.name} (ISO 12494, "
        "from memory). From the street and along the wall the outlines are drawn with the ice on; "
        "from between, both growths are taken, each as far as it is seen. Bare wind never acts "
        "with ice or with the wind on it."
    )
    if american:
        yield (
            "Chapter 10 of ASCE 7 has a gust of its own that goes with ice; that share of the wind "
            "of the job stands in for it here."
        )


def _at_altitude(resolved: Resolved) -> str:
    told = resolved.facts.has("altitude")
    where = f"at {resolved.facts.number('altitude'):g} m" if told else "as the altitude is not told"
    high = "above" in psi0_symbol(resolved, SNOW)
    return f"psi_0 of snow {where}: the one for sites {'above' if high else 'up to'} 1000 m."


def burdens_record(resolved: Resolved, burdens: Burdens) -> dict[str, Any]:
    """Return the snow, the trapped water and the loads that somebody typed."""
    return {
        "snow": None
        if not burdens.ground_pa > 0
        else {
            "ground_pa": burdens.ground_pa,
            "shape": snow.FLAT_SHAPE,
            "assemblies": [one._asdict() for one in burdens.snowed],
            "typed": sorted(burdens.said(SNOW)),
        },
        "water": [
            {**one._asdict(), "parts": list(one.parts), "filled": list(one.filled)}
            for one in burdens.held
        ],
        "typed": [_typed(load) for load in burdens.extra],
        "not_held": sorted(_not_held(resolved, burdens)),
    }


def _not_held(resolved: Resolved, burdens: Burdens) -> set[str]:
    """Return the loads on what no listed bracket carries: they are in no figure."""
    sets = {bracket.set_name for bracket in resolved.brackets}
    carried = {a.key for a in resolved.assemblies if a.carried_by in sets}
    return {load.key for load in burdens.extra if load.assembly not in carried}


def _typed(load: ExtraLoad) -> dict[str, Any]:
    return {
        "load": load.key,
        "assembly": load.assembly,
        "cause": load.cause,
        "force_n": list(load.force_n),
        "at_m": list(load.at_m),
        "together": None if load.together is None else list(load.together),
        "source": load.source,
    }
