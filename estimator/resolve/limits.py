"""Limits of movement that a job is held against: settings, with who set them."""

import re
from typing import NamedTuple

from estimator.core.problems import Cell, Problem, Severity
from estimator.core.sourced import Origin
from estimator.resolve.records import Facts

ITEM = "sag_limit"
SOURCE = (
    "cantilevers under variable load, BS 5950-1:2000 Table 8 (as quoted); "
    "EN 1993-1-1 sets none: agree it with whoever looks at it"
)
"""Who says L/180."""
_RATIO = re.compile(r"(?:l\s*/|1\s*[:/])?\s*(\d+(?:\.\d+)?)", re.IGNORECASE)
_USUAL = 180.0


class SagLimit(NamedTuple):
    """How little the end of an arm may move, by the job sheet or by default.

    Attributes:
        over: Reach of the arm over its movement: 180 for L/180.
        source: Who says so.
    """

    over: float = _USUAL
    source: str = SOURCE


USUAL_SAG = SagLimit()


def resolve_sag_limit(facts: Facts) -> tuple[SagLimit, list[Problem]]:
    """Return the limit of movement at the end of an arm, and what is wrong with what was typed."""
    fact = facts.values.get(ITEM)
    if fact is None or fact.origin is Origin.DEFAULT:
        return USUAL_SAG, []
    read = _RATIO.fullmatch(str(fact.value).strip())
    if read and float(read[1]) > 0:
        return SagLimit(float(read[1]), fact.source or "the job sheet"), []
    found = f'"{fact.value}" is not a ratio of the reach; L/{_USUAL:g} was used'
    problem = Problem(Severity.QUESTION, fact.cell or Cell("job"), found, "L/180 or 1:180",
                      "ask the engineer, and say who said so", "")  # fmt: skip
    return USUAL_SAG, [problem]
