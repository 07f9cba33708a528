"""Bolts and threaded rods: their sizes, stressed areas and masses.

What a fixing or a wall resists is for an engineer and is not here.
"""

from dataclasses import dataclass

from estimator.reference.finding import Miss, find_row
from estimator.reference.library import Library
from estimator.reference.rows import Cited, TableRow


@dataclass(frozen=True, slots=True, kw_only=True)
class Bolt(Cited):
    """A metric coarse thread and what goes with it.

    Attributes:
        key: "M12".
        diameter_m: Nominal diameter.
        stress_area_m2: Tensile stress area.
        rod_kg_m: Mass per metre of threaded rod.
    """

    key: str
    diameter_m: float
    stress_area_m2: float
    rod_kg_m: float


def find_bolt(library: Library, text: str) -> Bolt | Miss:
    """Return a bolt size, or why there is none."""
    row = find_row(library.table("bolts"), text, _bolt_choice)
    if isinstance(row, Miss):
        return row
    return Bolt(
        citation=row.citation,
        key=row.key,
        diameter_m=row.need("diameter_mm"),
        stress_area_m2=row.need("stress_area_mm2"),
        rod_kg_m=row.need("rod_kg_m"),
    )


def _bolt_choice(row: TableRow) -> str:
    return f"{row.key} ({row.text('rod_kg_m')} kg/m of rod)"
