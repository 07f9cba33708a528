"""Recording facts of the job: as records, and in words."""

from typing import Any

from estimator.core.sourced import Sourced
from estimator.core.units import KINDS
from estimator.sheets.facts import JOB_FACTS


def fact_record(item: str, fact: Sourced) -> dict[str, Any]:
    """Return one fact of the job with its SI unit."""
    column = JOB_FACTS[item].column
    kinds = column.kinds
    unit = ("%" if kinds == ("percent",) else KINDS[kinds[0]].si) if kinds else ""
    if column.reads == "compass":
        unit = "rad"
    value = fact.value
    plain = value if isinstance(value, int | float) else str(value)
    return {
        "value": plain,
        "unit": unit,
        "origin": str(fact.origin),
        "cell": str(fact.cell) if fact.cell else None,
        "source": fact.source,
    }


def fact_words(item: str, used: Sourced) -> str:
    """Return a fact in words, with its unit."""
    fact = fact_record(item, used)
    if fact["unit"] == "%":
        return f"{100 * float(used.value):g} %"
    number = f"{used.value:g}" if isinstance(used.value, int | float) else str(used.value)
    return f"{number} {fact['unit']}".strip()
