"""Trade allowances: laps, seams, trims, and what they are measured in."""

from dataclasses import dataclass

from estimator.reference.finding import Miss, find_row
from estimator.reference.library import Library
from estimator.reference.rows import Cited, TableRow


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance(Cited):
    """A range the trade works to, in the unit it states.

    Attributes:
        key: What it is for.
        low: Lower end.
        high: Upper end.
        unit: Unit of both: mm, kg/m, kg/m2, % or a plain ratio.
        per: What it is counted on: a joint, a seam, an edge.
    """

    key: str
    low: float
    high: float
    unit: str
    per: str


def find_allowance(library: Library, text: str) -> Allowance | Miss:
    """Return an allowance, or why there is none."""
    row = find_row(library.table("allowances"), text, _choice)
    if isinstance(row, Miss):
        return row
    return Allowance(
        citation=row.citation,
        key=row.key,
        low=row.need("low"),
        high=row.need("high"),
        unit=row.text("unit"),
        per=row.text("per"),
    )


def _choice(row: TableRow) -> str:
    return f"{row.key} ({row.text('low')} to {row.text('high')} {row.text('unit')})"
