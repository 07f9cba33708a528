"""Joints between pieces of sheet: how much sheet each takes, and whether it stays on."""

import math
from dataclasses import dataclass

from estimator.reference.allowances import find_allowance
from estimator.reference.finding import Miss, find_row
from estimator.reference.library import Library
from estimator.reference.rows import Cited, TableRow

SLOPE_RULE = "75 / sin(pitch)"
"""The one rule of the table: the lap keeps an upright cover of 75 mm."""
_LAP = "lap"
_MM = 1e-3
_TWICE = ("edge", "side of the row")
"""What an allowance is counted on of which a joint has two."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint(Cited):
    """A way of joining.

    Attributes:
        key: "lead lap on a wall".
        by_slope: Whether its lap follows from the slope, by `SLOPE_RULE`.
        low_m: Sheet that one joint takes, lower end; NaN where the slope says.
        high_m: Upper end.
        stays: Whether that sheet stays on and weighs; else it is cut or welded away.
        longest_m: Longest piece that is joined so.
        limit: Who says so; blank when nobody does.
    """

    key: str
    by_slope: bool
    low_m: float
    high_m: float
    stays: bool
    longest_m: float
    limit: str


def find_joint(library: Library, text: str) -> Joint | Miss:
    """Return a joint by its name, or why there is none."""
    row = find_row(library.table("joints"), text, _choice)
    return row if isinstance(row, Miss) else _joint(library, row)


def usual_joint(library: Library, family: str, slope_rad: float) -> Joint | Miss | None:
    """Return the usual joint of a family of materials on a face of some slope; None for none.

    Args:
        library: The tables.
        family: As the table of materials has it.
        slope_rad: Of the face from level, 0 to a right angle.
    """
    for row in library.table("joints").rows:
        low_rad, high_rad = row.si("usual_from_deg"), row.si("usual_to_deg")
        if low_rad is None or high_rad is None or family not in row.words("families"):
            continue
        if low_rad <= slope_rad < high_rad or high_rad >= math.pi / 2 <= slope_rad + 1e-9:
            return _joint(library, row)
    return None


def _choice(row: TableRow) -> str:
    stays = "stays on" if row.text("stays") == _LAP else "trimmed away"
    return f"{row.key} ({stays})"


def _joint(library: Library, row: TableRow) -> Joint | Miss:
    """Return a joint, or why the table of allowances does not know what it takes."""
    by_slope = row.text("rule") == SLOPE_RULE
    low_m = high_m = math.nan
    if not by_slope:
        found = find_allowance(library, row.text("allowance"))
        if isinstance(found, Miss):
            return found
        unit_m = row.need("rivet_mm") if found.unit == "diameters" else _MM
        times = 2 if found.per in _TWICE else 1
        low_m, high_m = found.low * unit_m * times, found.high * unit_m * times
    limit = find_allowance(library, row.text("limit")) if row.text("limit") else None
    if isinstance(limit, Miss):
        return limit
    return Joint(
        citation=row.citation,
        key=row.key,
        by_slope=by_slope,
        low_m=low_m,
        high_m=high_m,
        stays=row.text("stays") == _LAP,
        longest_m=limit.high * _MM if limit else math.inf,
        limit=f"{limit.key}, {limit.citation}" if limit else "",
    )
