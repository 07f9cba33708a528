"""Assemblies and parts as the page lists them: one line for what differs in its place alone."""

from collections.abc import Callable, Iterable, Sequence
from typing import Any, NamedTuple

from estimator.reports import figures, selection, sentences, sure
from estimator.reports.document import Document

_Words = Callable[[float | None], str]

MOST_POSITIONS = 3
"""A mover with more positions has one line, from the least to the most of each number."""
_SEEN = ("mass_each_kg", "skin_area_m2", "mass_kg", "low_kg", "high_kg")
"""Numbers that parts of one line have in common."""


class Body(NamedTuple):
    """An assembly in one position, or in all of them, as printed."""

    assembly: str
    position: str
    mass: tuple[str, str, str]
    at_mm: tuple[str, str, str]
    inertia: tuple[str, str, str]
    lowest_m: str
    furthest_mm: str


class Piece(NamedTuple):
    """A part, or parts that differ in their place alone, as printed; its figures are each one's."""

    part: str
    name: str
    assembly: str
    copies: str
    shape: str
    made_of: str
    skin: str
    mass: tuple[str, str, str]
    at_mm: tuple[str, str, str]
    known: str


def bodies(document: Document) -> list[Body]:
    """Return the lines of the assemblies, those of a mover with many positions in one."""
    groups = selection.grouped(document["assemblies"], lambda row: row["assembly"])
    return [
        _body(some)
        for rows in groups.values()
        for some in ([rows] if len(rows) > MOST_POSITIONS else [[row] for row in rows])
    ]


def pieces(parts: Iterable[Document]) -> list[Piece]:
    """Return the lines of the parts; those alike but for their place share one."""
    groups: dict[Piece, list[Document]] = {}
    for part in parts:
        groups.setdefault(_piece([part])._replace(part="", at_mm=("", "", "")), []).append(part)
    return [_piece(alike) for alike in groups.values()]


def context(document: Document, most: int) -> dict[str, Any]:
    """Return what the section is printed from.

    Args:
        document: The estimate document.
        most: So many parts are listed, the heaviest.
    """
    shown = selection.heaviest(document["parts"], most)
    return {
        "bodies": bodies(document),
        "pieces": pieces(shown),
        "more_parts": len(document["parts"]) - len(shown),
    }


def _body(rows: Sequence[Document]) -> Body:
    first = rows[0]
    return Body(
        str(first["assembly"]),
        str(first["position"]) if len(rows) == 1 else f"{len(rows)} positions",
        (figures.mass(first["mass_kg"]), figures.mass(first["low_kg"]),
         figures.mass(first["high_kg"])),
        _places(rows),
        _three([row["inertia_kgm2"][:3] for row in rows], _inertia),
        _span([row["lowest_m"] for row in rows], lambda height: figures.bare_fixed(height, "m", 2)),
        _span([row["furthest_m"] for row in rows], figures.bare_millimetres),
    )  # fmt: skip


def _piece(alike: Sequence[Document]) -> Piece:
    part = alike[0]
    each, skin, *masses = (part[key] for key in _SEEN)
    likely, low, high = (figures.mass(mass) for mass in masses)
    return Piece(
        ", ".join(str(one["part"]) for one in alike),
        str(part["name"]),
        str(part["assembly"]),
        f"{part['count']} \N{MULTIPLICATION SIGN} {figures.mass(each)}",
        str(part["shape"]),
        sentences.made_of(part),
        figures.bare(skin, "m²"),
        (likely, low, high),
        _places(alike),
        sure.known_by(part),
    )


def _inertia(about_kgm2: float | None) -> str:
    return figures.bare(about_kgm2, "kg m²")


def _places(rows: Sequence[Document]) -> tuple[str, str, str]:
    return _three([row["cg_m"] for row in rows], figures.bare_millimetres)


def _three(vectors: Sequence[Sequence[float]], words: _Words) -> tuple[str, str, str]:
    across, up, out = (_span(values, words) for values in zip(*vectors, strict=True))
    return across, up, out


def _span(values: Sequence[float | None], words: _Words) -> str:
    """Return one number as printed, or the least and the most where those are printed apart."""
    known = [value for value in values if value is not None]
    if not known:
        return words(None)
    low, high = words(min(known)), words(max(known))
    return low if low == high else f"{low} to {high}"
