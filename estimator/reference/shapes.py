"""Shapes: which dimensions each one reads, how it lies by default, and what a face of it means."""

from collections.abc import Mapping
from dataclasses import dataclass

from estimator.reference.finding import Miss, find_row
from estimator.reference.library import Library
from estimator.reference.rows import Cited, TableRow


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeRule(Cited):
    """How one shape is read.

    Attributes:
        key: Name of the shape.
        needed: Columns of the parts sheet that must be filled, in snake case.
        either: Groups of columns of which one group must be filled as a whole; empty when
            `needed` says it all.
        optional: Columns that may be filled.
        along: Axis its length runs by default: across, up or out.
        faces: Axis it faces by default.
        one_face: What `one face` of it means.
        formula: How area and volume follow from the dimensions, in words.
        stock_form: Form of the stock it is cut from; empty when it has no blank.
        placed_by: `envelope` (middle of its bounding box) or `file` (the origin of its file).
    """

    key: str
    needed: tuple[str, ...]
    either: tuple[tuple[str, ...], ...]
    optional: tuple[str, ...]
    along: str
    faces: str
    one_face: str
    formula: str
    stock_form: str
    placed_by: str


def shape_rules(library: Library) -> Mapping[str, ShapeRule]:
    """Return every shape by its key."""
    return {row.key: _rule(row) for row in library.table("shapes").rows}


def find_shape(library: Library, text: str) -> ShapeRule | Miss:
    """Return the shape that goes by a name, or why there is none."""
    row = find_row(library.table("shapes"), text, _choice)
    return row if isinstance(row, Miss) else _rule(row)


def _choice(row: TableRow) -> str:
    columns = ", ".join(row.words("needed")) or " or ".join(row.words("either"))
    return f"{row.key} ({columns})"


def _rule(row: TableRow) -> ShapeRule:
    return ShapeRule(
        citation=row.citation,
        key=row.key,
        needed=row.words("needed"),
        either=tuple(tuple(group.split()) for group in row.words("either")),
        optional=row.words("optional"),
        along=row.text("along"),
        faces=row.text("faces"),
        one_face=row.text("one_face"),
        formula=row.text("formula"),
        stock_form=row.text("stock_form"),
        placed_by=row.text("placed_by"),
    )
