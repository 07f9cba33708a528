"""The load combinations of a job: by the rule it names, with the factors of the tables."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from estimator.reference.factors import RECOMMENDED, Factor
from estimator.reference.factors import factors as factor_table
from estimator.resolve.answers import Answer
from estimator.resolve.job import Resolved
from estimator.sheets.topics import Sets
from estimator.supports.combinations import (
    ASCE_LETTERS,
    ICED_WIND,
    LIKELY,
    SNOW,
    WIND,
    Combination,
    Factors,
    WeightRange,
    asce_combinations,
    check_pair,
    combinations,
)

HIGH_SITE_M = 1000.0
"""Above it snow lies longer: EN 1990:2002, Table A1.1."""
SYMBOLS: Mapping[str, str] = {
    "gamma_g_sup": "gamma_g_sup",
    "gamma_g_inf": "gamma_g_inf",
    "gamma_q": "gamma_q",
    "xi": "xi",
    "equ_g_sup": "gamma_g_sup_equ",
    "equ_g_inf": "gamma_g_inf_equ",
    "equ_q": "gamma_q_equ",
}
"""Names of the factors of EN 1990, and what the table calls them."""


def rules_for(
    resolved: Resolved, actions: Sequence[str], weight: WeightRange = LIKELY
) -> tuple[Combination, ...]:
    """Return the combinations of the job's rule.

    Args:
        resolved: The job.
        actions: Causes of the variable actions there are.
        weight: How far the weight may lie off, where that is wide.

    Raises:
        ValueError: There is a wind, and it is not one that the rule was written for.
    """
    rule = resolved.facts.text("combination_rule")
    if not {WIND, ICED_WIND}.isdisjoint(actions):
        why_not = check_pair(str(resolved.weather.level), rule)
        if why_not:
            raise ValueError(why_not)
    if by_asce(rule):
        return asce_combinations({action: ASCE_LETTERS[action] for action in actions}, rule, weight)
    table = factors_of(resolved)
    values = {name: table[symbol].value for name, symbol in SYMBOLS.items()}
    psi0 = {action: table[psi0_symbol(resolved, action)].value for action in actions}
    factors = Factors(psi0=psi0, k_fi=resolved.facts.number("consequence_factor", 1.0), **values)
    return combinations(actions, factors, rule, weight)


def by_asce(rule: str) -> bool:
    """Return whether a combination rule is one of ASCE 7."""
    return rule.startswith("ASCE")


def factors_of(resolved: Resolved) -> Mapping[str, Factor]:
    """Return the factors of EN 1990 by symbol: as answered, else of the job's national annex."""
    annex = resolved.facts.text("national_annex", "none")
    table = factor_table(resolved.library, RECOMMENDED if annex == "none" else annex)
    said = {one.topic.key: one for one in resolved.answers.counting(Sets.FACTOR)}
    return {
        symbol: _as_answered(factor, said[key])
        if (key := symbol.partition(" above ")[0]) in said
        else factor
        for symbol, factor in table.items()
    }


def _as_answered(factor: Factor, answer: Answer) -> Factor:
    """Return a factor with what somebody said it is, and who."""
    citation = replace(
        factor.citation,
        source=answer.said_by,
        document=answer.said_by,
        locator=str(answer.cell),
        checked="document",
    )
    return replace(factor, value=float(answer.value), citation=citation)


def psi0_symbol(resolved: Resolved, action: str) -> str:
    """Return what the table calls the combination factor of an action at the job's altitude."""
    high = action == SNOW and resolved.facts.number("altitude", 0.0) > HIGH_SITE_M
    return f"psi0 {action}{f' above {HIGH_SITE_M:g} m' if high else ''}"


def factors_used(resolved: Resolved, actions: Sequence[str]) -> Iterator[Factor]:
    """Yield the factors that the job's combinations rest on; the lines of ASCE 7 hold their own."""
    rule = resolved.facts.text("combination_rule")
    if by_asce(rule):
        return
    table = factors_of(resolved)
    unused = {"xi"} if rule == "EN 1990 6.10" else set()
    symbols = [symbol for name, symbol in SYMBOLS.items() if name not in unused]
    for symbol in (*symbols, *(psi0_symbol(resolved, action) for action in actions)):
        yield table[symbol]
