"""Grades: the yield of the metal that an arm or a stay is made of, by what its maker typed."""

import math
import re
from dataclasses import dataclass

from estimator.reference.finding import Miss, find_row
from estimator.reference.library import Library
from estimator.reference.rows import Cited, TableRow

THIN_M, THICK_M = 0.016, 0.040
"""Up to how thick the yield of the table holds, then the one for what is thicker: EN 10025-2,
Table 7 (as quoted)."""
_ZINC = re.compile(
    r"[\s,+-]*\b(?:hot[ -]?dip(?:ped)?|galvani[sz]ed|hdg|galv)\b[\s,+-]*", re.IGNORECASE
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade(Cited):
    """A grade of metal.

    Attributes:
        key: "S275".
        yield_pa: Of the thickness that was asked about; NaN where the table ends before it.
        gamma: Ending of the name of its partial factor: blank, or `stainless`.
        galvanised: Whether the maker named it galvanised.
    """

    key: str
    yield_pa: float
    gamma: str
    galvanised: bool


def without_zinc(text: str) -> str:
    """Return the grade as typed without the words for a coat of zinc: "S275 galvanised"."""
    bare = _ZINC.sub(" ", text).strip()
    return bare or ("mild steel" if text.strip() else "")


def find_grade(library: Library, text: str, thickness_m: float) -> Grade | Miss:
    """Return the grade of a metal, or why there is none.

    A coat of zinc leaves the yield as it is.

    Args:
        library: The tables.
        text: As typed: "S275", "S275 galvanised", "stainless 316".
        thickness_m: Of the wall, leg or bar.
    """
    bare = without_zinc(text)
    row = find_row(library.table("strength_classes"), bare, _choice)
    if isinstance(row, Miss):
        return row
    return Grade(
        citation=row.citation,
        key=row.key,
        yield_pa=_yield_pa(row, thickness_m),
        gamma=row.text("gamma"),
        galvanised=bare != text.strip(),
    )


def _yield_pa(row: TableRow, thickness_m: float) -> float:
    thick_pa = row.si("thick_yield_mpa")
    # A tube of 16 mm is no thicker than 16 mm for a rounding of its metres.
    if thickness_m <= THIN_M * (1 + 1e-9):
        return row.need("yield_mpa")
    known = thick_pa is not None and thickness_m <= THICK_M * (1 + 1e-9)
    return thick_pa if known and thick_pa else math.nan


def _choice(row: TableRow) -> str:
    return f"{row.key} ({row.text('yield_mpa')} MPa)"
