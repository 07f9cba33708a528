"""What merchants sell and what a workshop keeps: stock sizes, kerfs, offcuts worth keeping."""

from dataclasses import dataclass

from estimator.reference.finding import Miss, find_row
from estimator.reference.library import Library
from estimator.reference.materials import Material
from estimator.reference.rows import Cited, TableRow


@dataclass(frozen=True, slots=True, kw_only=True)
class StockSize(Cited):
    """A size that is commonly sold; prices are the maker's to enter.

    Attributes:
        key: "copper sheet 2000 x 1000".
        families: Families of materials sold in it.
        form: sheet, roll, board, bar, tube or timber.
        length_m: Length; the longer side of a sheet.
        width_m: Width; None for what is sold by length.
    """

    key: str
    families: tuple[str, ...]
    form: str
    length_m: float
    width_m: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Kerf(Cited):
    """Width of metal or wood that a cut turns to dust.

    Attributes:
        key: How it is cut.
        low_m: Lower end.
        high_m: Upper end.
    """

    key: str
    low_m: float
    high_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OffcutRule(Cited):
    """When a piece left over is worth keeping: a setting of the workshop, not a fact.

    Attributes:
        key: What it is about.
        min_side_m: Least of the two sides; for what is sold by length, least length.
        min_area_m2: Least area; zero when only the sides count.
    """

    key: str
    min_side_m: float
    min_area_m2: float


def stock_sizes(library: Library, material: Material, form: str) -> tuple[StockSize, ...]:
    """Return the sizes in which a material is commonly sold in a form, longest first."""
    rows = library.table("stock").rows
    sizes = [_stock_size(row) for row in rows if _sold_as(row, material.family, form)]
    return tuple(sorted(sizes, key=lambda size: (-size.length_m, -(size.width_m or 0.0))))


def offcut_rule(library: Library, material: Material, form: str) -> OffcutRule | None:
    """Return the rule for what is left of a material in a form, or None when there is none.

    A row for the family comes before a row for every family.
    """
    rows = [
        row for row in library.table("offcut_rules").rows if _sold_as(row, material.family, form)
    ]
    rows.sort(key=lambda row: not row.words("families"))
    return _offcut_rule(rows[0]) if rows else None


def find_kerf(library: Library, text: str) -> Kerf | Miss:
    """Return the kerf of a way of cutting, or why there is none."""
    row = find_row(library.table("kerfs"), text, _kerf_choice)
    if isinstance(row, Miss):
        return row
    low_m, high_m = row.need("kerf_low_mm"), row.need("kerf_high_mm")
    return Kerf(citation=row.citation, key=row.key, low_m=low_m, high_m=high_m)


def _sold_as(row: TableRow, family: str, form: str) -> bool:
    """Return whether a row is about a form and a family; a row without families is about all."""
    return form in row.words("form") and family in (row.words("families") or (family,))


def _kerf_choice(row: TableRow) -> str:
    return f"{row.key} ({row.text('kerf_low_mm')} to {row.text('kerf_high_mm')} mm)"


def _stock_size(row: TableRow) -> StockSize:
    return StockSize(
        citation=row.citation,
        key=row.key,
        families=row.words("families"),
        form=row.text("form"),
        length_m=row.need("length_mm"),
        width_m=row.si("width_mm"),
    )


def _offcut_rule(row: TableRow) -> OffcutRule:
    return OffcutRule(
        citation=row.citation,
        key=row.key,
        min_side_m=row.need("min_side_mm", 0.0),
        min_area_m2=row.need("min_area_m2", 0.0),
    )
