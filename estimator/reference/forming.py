"""Ways of forming sheet: how much lighter the skin comes out than by its area, and how thin."""

from dataclasses import dataclass

from estimator.reference.finding import Miss, find_row
from estimator.reference.library import Library
from estimator.reference.rows import Cited, TableRow

ONE_WAY = "one way"


@dataclass(frozen=True, slots=True, kw_only=True)
class Forming(Cited):
    """A way of forming; shares of one.

    Attributes:
        key: "sunk".
        bent: Whether the sheet is only bent one way, and not hammered hollow.
        mass_low: Mass of the formed skin over finished area x gauge, lower end.
        mass_likely: The same, most likely.
        mass_high: Upper end.
        trim_low: Share of the blank that is cut off after forming, lower end.
        trim_high: Upper end.
        thinning_low: Share of the thickness lost where it is thinnest, lower end.
        thinning_high: Upper end.
    """

    key: str
    bent: bool
    mass_low: float
    mass_likely: float
    mass_high: float
    trim_low: float
    trim_high: float
    thinning_low: float
    thinning_high: float

    @property
    def trim(self) -> float:
        """Return the share of the blank that is likely to be cut off: the middle of its range."""
        return (self.trim_low + self.trim_high) / 2


def find_forming(library: Library, text: str) -> Forming | Miss:
    """Return a way of forming, or why there is none."""
    row = find_row(library.table("forming"), text, _choice)
    if isinstance(row, Miss):
        return row
    return Forming(
        citation=row.citation,
        key=row.key,
        bent=row.text("bends") == ONE_WAY,
        mass_low=row.need("mass_low_ratio"),
        mass_likely=row.need("mass_likely_ratio"),
        mass_high=row.need("mass_high_ratio"),
        trim_low=row.need("trim_low_pct"),
        trim_high=row.need("trim_high_pct"),
        thinning_low=row.need("thinning_low_pct"),
        thinning_high=row.need("thinning_high_pct"),
    )


def _choice(row: TableRow) -> str:
    return f"{row.key} ({row.text('mass_likely_ratio')} of finished area x gauge)"
