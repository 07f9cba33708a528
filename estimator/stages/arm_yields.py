"""Arm yields: what the stress in an arm or a stay is held against, and who says so."""

import math
from typing import NamedTuple

from estimator.reference.factors import RECOMMENDED, factors
from estimator.reference.finding import Miss
from estimator.reference.grades import find_grade
from estimator.reference.sections import Section
from estimator.resolve.brackets import STEEL
from estimator.resolve.job import Resolved
from estimator.resolve.records import Bracket
from estimator.supports.stresses import stress_ratio

ASCE, ASD = "ASCE", "ASD"
UNKNOWN = "the yield of this grade is not in the tables, so there is no stress ratio"
THICKER = "the tables have no yield for metal so thick, so there is no stress ratio"


class Yielding(NamedTuple):
    """Yield of a metal and the factor it is divided by.

    Attributes:
        grade: Key of the grade in the tables; blank where it is not there.
        yield_pa: NaN where it is not known.
        yield_source: Document and place.
        gamma_m0: Partial factor.
        gamma_source: Document and place.
        note: Why there is no yield, blank where there is.
        galvanised: Whether the maker named it so.
        sources: Ids of both documents.
    """

    grade: str
    yield_pa: float
    yield_source: str
    gamma_m0: float
    gamma_source: str
    note: str = ""
    galvanised: bool = False
    sources: tuple[str, ...] = ()

    def ratio(self, von_mises_pa: float) -> float:
        """Return a stress over the yield; NaN where this is not known."""
        return stress_ratio(von_mises_pa, self.yield_pa, self.gamma_m0)


def yielding(resolved: Resolved, bracket: Bracket, section: Section) -> Yielding:
    """Return what the stress in a section of a bracket's metal is held against."""
    found = find_grade(resolved.library, bracket.grade or STEEL, section.wall_m)
    table = factors(resolved.library, _annex(resolved.facts.text("combination_rule")))
    if isinstance(found, Miss):
        gamma = table["gamma_m0"]
        return Yielding("", math.nan, "", gamma.value, str(gamma.citation), note=UNKNOWN)
    gamma = table[f"gamma_m0 {found.gamma}".strip()]
    return Yielding(
        found.key, found.yield_pa, str(found.citation), gamma.value, str(gamma.citation),
        note=THICKER if math.isnan(found.yield_pa) else "", galvanised=found.galvanised,
        sources=(found.source, gamma.source),
    )  # fmt: skip


def _annex(rule: str) -> str:
    """Return whose factor on the yield belongs to a rule of combinations."""
    if not rule.startswith(ASCE):
        return RECOMMENDED
    return f"{ASCE} {ASD}" if rule.endswith(ASD) else ASCE
