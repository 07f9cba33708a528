"""Finishes: what coats of paint, zinc, gold or wax weigh, and how rough they are to the wind."""

import re
from dataclasses import dataclass

from estimator.reference.finding import Miss, find_row
from estimator.reference.library import Library
from estimator.reference.rows import Cited, TableRow

_JOINT = re.compile(r"\s\+\s|,")
_REMARK = re.compile(r"\([^)]*\)")
_COATS = re.compile(r"([1-9])\s*(?:x|coats?(?:\s+of)?)\s+(.+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Coat(Cited):
    """One row of the table of finishes, applied a number of times.

    Attributes:
        key: Name of the finish.
        coats: How many times it is put on.
        mass_low_kg_m2: Dry mass of all its coats on one square metre of surface, lower end.
        mass_likely_kg_m2: Likely.
        mass_high_kg_m2: Upper end.
        roughness_m: Equivalent roughness k, None when the standard has none for it.
        by_thickness: Its mass follows from the thickness of the steel under it.
    """

    key: str
    coats: int
    mass_low_kg_m2: float
    mass_likely_kg_m2: float
    mass_high_kg_m2: float
    roughness_m: float | None
    by_thickness: bool


@dataclass(frozen=True, slots=True)
class Finish:
    """Everything that is put on a surface, innermost first.

    Attributes:
        parts: The coats.
    """

    parts: tuple[Coat, ...]

    @property
    def mass_low_kg_m2(self) -> float:
        """Dry mass on one square metre of surface, lower end."""
        return sum(coat.mass_low_kg_m2 for coat in self.parts)

    @property
    def mass_likely_kg_m2(self) -> float:
        """Dry mass on one square metre of surface."""
        return sum(coat.mass_likely_kg_m2 for coat in self.parts)

    @property
    def mass_high_kg_m2(self) -> float:
        """Dry mass on one square metre of surface, upper end."""
        return sum(coat.mass_high_kg_m2 for coat in self.parts)

    @property
    def roughness_m(self) -> float | None:
        """Equivalent roughness of the outermost coat that has one."""
        known = [coat.roughness_m for coat in self.parts if coat.roughness_m is not None]
        return known[-1] if known else None


def find_finish(
    library: Library, text: str, steel_thickness_m: float | None = None
) -> Finish | Miss:
    """Return a finish, or why one of its coats is not known.

    Args:
        library: The tables.
        text: Coats from the metal outwards, joined by " + " or commas: "galvanised + 2 x alkyd
            gloss (dark red)". Words in brackets, such as a colour, are the maker's own.
        steel_thickness_m: Thickness of the steel, for zinc whose mass depends on it; without
            it the whole range of the standard is the band.
    """
    words = [part.strip() for part in _JOINT.split(_REMARK.sub("", text))]
    coats: list[Coat] = []
    for word in [word for word in words if word] or [text]:
        times, name = _times(word)
        row = find_row(library.table("finishes"), name, _choice)
        if isinstance(row, Miss):
            return row
        coats.append(_coat(row, times, _zinc(library, row, steel_thickness_m)))
    return Finish(tuple(coats))


def galvanizing_kg_m2(library: Library, steel_thickness_m: float) -> tuple[float, float]:
    """Return the least local and least mean mass of hot-dip zinc on one square metre of surface.

    Args:
        library: The tables.
        steel_thickness_m: Thickness of the steel; castings have rows of their own.

    References:
        EN ISO 1461, Table 3; the row of the table cites where it was seen.
    """
    rows = [row for row in library.table("galvanizing").rows if row.text("article") == "steel"]
    thick_first = sorted(rows, key=lambda row: -row.need("steel_over_mm"))
    fits = (row for row in thick_first if _reaches(row, steel_thickness_m))
    row = next(fits, thick_first[-1])
    return row.need("local_g_m2"), row.need("mean_g_m2")


def _reaches(row: TableRow, thickness_m: float) -> bool:
    """Return whether steel is thick enough for a row; a bound that counts says so itself."""
    bound_m = row.need("steel_over_mm")
    return thickness_m >= bound_m if row.text("bound_counts") == "yes" else thickness_m > bound_m


def _times(word: str) -> tuple[int, str]:
    """Return how often a coat is put on, and its name: "2 x wax" gives 2 and wax."""
    match = _COATS.fullmatch(word)
    return (int(match.group(1)), match.group(2)) if match else (1, word)


def _zinc(
    library: Library, row: TableRow, steel_thickness_m: float | None
) -> tuple[float, float, float] | None:
    """Return the band of a coat that depends on the steel, when the steel is known."""
    if steel_thickness_m is None or row.text("by_thickness") != "yes":
        return None
    local, mean = galvanizing_kg_m2(library, steel_thickness_m)
    return local, mean, max(mean, row.need("dry_mass_high_kg_m2"))


def _coat(row: TableRow, times: int, band: tuple[float, float, float] | None) -> Coat:
    headings = (f"dry_mass_{end}_kg_m2" for end in ("low", "likely", "high"))
    low, likely, high = band or tuple(row.need(heading) for heading in headings)
    return Coat(
        citation=row.citation,
        key=row.key,
        coats=times,
        mass_low_kg_m2=times * low,
        mass_likely_kg_m2=times * likely,
        mass_high_kg_m2=times * high,
        roughness_m=row.si("roughness_mm"),
        by_thickness=row.text("by_thickness") == "yes",
    )


def _choice(row: TableRow) -> str:
    return f"{row.key} ({row.need('dry_mass_likely_kg_m2'):g} kg/m2)"
