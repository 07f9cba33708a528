"""Blanks and forming on the page: what each sheet is cut from, in words, rows and line drawings."""

import math
from collections.abc import Sequence
from typing import NamedTuple

from markupsafe import Markup

from estimator.reports import figures, matrices, selection, sentences, signs
from estimator.reports.document import Document
from estimator.reports.drawing import SMALL_MM, Drawing, shortened

DRAWN = ("gores", "segments", "sector", "oval", "disc", "net")
"""Kinds of blank that are drawn, the largest of each; the others look like the part itself."""
FLAT = "cut flat"
_NONE = "\N{EN DASH}"
_DIMENSIONED = frozenset({"length", "width", "diameter", "width in the middle"})
"""Sizes that stand at the dimension lines of a drawing."""
_CELL_MM = (61.0, 54.0)
_ROOM_MM = (40.0, 24.0)
_TOP_MM = 12.0
_LEFT_MM = 4.0
_LEVEL_MM = 5.0
_ALIKE_M = 0.003
_LONGEST_NAME = 30
"""Letters of a name that stand in the table; all of it stands among the parts."""
_SAME = 0.005
"""Masses nearer than this share of one another are printed as the same."""


class Row(NamedTuple):
    """One sheet of one part, or of several alike, in the words of the table."""

    part: str
    sheet: str
    formed: str
    blank: str
    pieces: str
    joints: str
    blank_m2: str
    trim_m2: str
    by_blank: str
    by_area: str
    differs: str
    used: str
    mean_mm: str
    thinnest_mm: str
    marks: tuple[str, ...]


def rows(blanks: Sequence[Document]) -> tuple[list[Row], dict[str, str]]:
    """Return a row for each sheet, those alike in one, and the notes they refer to by marks."""
    marks = matrices.marked((note for blank in blanks for note in _notes(blank)), str)
    notes = {mark: text for text, mark in marks.items()}
    alike: dict[Row, list[Document]] = {}
    for blank in blanks:
        alike.setdefault(_row(blank, marks), []).append(blank)
    return [row._replace(part=_named(of)) for row, of in alike.items()], notes


def warnings(blanks: Sequence[Document]) -> list[str]:
    """Return a sentence for the parts that come out thinner than their sheet may be."""
    alike: dict[tuple[str, str], list[Document]] = {}
    for blank in blanks:
        if blank["warning"]:
            alike.setdefault((blank["forming"], blank["warning"]), []).append(blank)
    return [
        f"{_named(of)}, {'each ' if len(of) > 1 else ''}{forming}: {warning}."
        for (forming, warning), of in alike.items()
    ]


def formings(ways: Sequence[Document]) -> list[str]:
    """Return what forming makes of mass and thickness, a sentence for each way that moves metal."""
    return [
        f"{way['forming']}: {_times(way)} of finished area x gauge; trim"
        f" {_percents(way['trim_low'], way['trim_high'])} of the blank; where it is thinnest"
        f" {_percents(way['thinning_low'], way['thinning_high'])} of the thickness is lost"
        f" ({way['source']})."
        for way in ways
        if way["trim_high"] > 0
    ]


def _named(alike: Sequence[Document]) -> str:
    """Return the part with as much of its name as has room, or the marks of several."""
    if len(alike) > 1:
        return sentences.listed([blank["part"] for blank in alike])
    name = alike[0]["name"]
    cut = name if len(name) <= _LONGEST_NAME else name[: _LONGEST_NAME - 1].rstrip() + "…"
    return f"{alike[0]['part']} {cut}"


def _times(way: Document) -> str:
    return f"{way['mass_likely']:g} ({way['mass_low']:g} to {way['mass_high']:g})"


def _percents(low: float, high: float) -> str:
    return f"{100 * low:g} to {100 * high:g}{figures.GAP}%"


def _notes(blank: Document) -> list[str]:
    """Return the notes on one sheet, how its blank was found first."""
    found = [] if blank["why"] == FLAT or blank["kind"] in ("area", "sector") else [blank["why"]]
    if blank["kind"] == "area":
        found = [blank["why"]]
    return found + list(blank["notes"])


def _row(blank: Document, marks: dict[str, str]) -> Row:
    moved = blank["mean_m"] != blank["thickness_m"] or blank["thinnest_m"] != blank["mean_m"]
    return Row(
        part="",
        sheet=f"{blank['material']}, {blank['gauge'].split(' (')[0]}",
        formed=_formed(blank),
        blank=f"{blank['kind']}: {sizes(blank)}" if blank["sizes"] else "not laid out",
        pieces=pieces(blank),
        joints=joints(blank),
        blank_m2=figures.bare(blank["blank_m2"], "m²"),
        trim_m2=figures.bare(blank["trim_m2"], "m²") if blank["trim_m2"] else _NONE,
        by_blank=figures.mass(blank["by_blank_kg"]),
        by_area=figures.mass(blank["by_area_kg"]),
        differs=_difference(blank),
        used=blank["used"],
        mean_mm=_thickness(blank["mean_m"]),
        thinnest_mm=_thickness(blank["thinnest_m"]) if moved else _NONE,
        marks=tuple(marks[note] for note in _notes(blank)),
    )


def _formed(blank: Document) -> str:
    """Return how a sheet is formed, with the skin that hammering adds."""
    more = f", skin +{figures.percent(blank['relief'] - 1.0)}" if blank["relief"] > 1.0 else ""
    if blank["forming"]:
        return f"{blank['forming']}{more}"
    return "cut flat" if blank["why"] == FLAT and not more else f"not said{more}"


def _thickness(thick_m: float) -> str:
    return figures.bare_millimetres(thick_m, 2)


def _difference(blank: Document) -> str:
    """Return by how much blank less trim differs from finished area x gauge."""
    by_area_kg = blank["by_area_kg"]
    share = blank["by_blank_kg"] / by_area_kg - 1.0 if by_area_kg else 0.0
    return _NONE if abs(share) < _SAME else figures.percent(share)


def sizes(blank: Document) -> str:
    """Return what a blank is set out by, in millimetres and degrees."""
    return ", ".join(
        f"{size['name']} "
        + (
            figures.with_unit(figures.fixed(math.degrees(size["value"]), 1), "°")
            if size["unit"] == "rad"
            else figures.bare_millimetres(size["value"])
        )
        for size in blank["sizes"]
    )


def pieces(blank: Document) -> str:
    """Return the rectangles that one part is cut from, the alike together.

    Those that a joint of a few mm makes larger than the others are given as the larger.
    """
    sides = [[piece[side] for piece in blank["pieces"]] for side in ("length_m", "width_m")]
    if blank["pieces"] and all(max(side) - min(side) < _ALIKE_M for side in sides):
        number = sum(piece["number"] for piece in blank["pieces"])
        longest, widest = (figures.bare_millimetres(max(side)) for side in sides)
        return f"{number} of {longest} \N{MULTIPLICATION SIGN} {widest}"
    return "; ".join(
        f"{piece['number']} of {figures.bare_millimetres(piece['length_m'])}"
        f" \N{MULTIPLICATION SIGN} {figures.bare_millimetres(piece['width_m'])}"
        for piece in blank["pieces"]
    )


def joints(blank: Document) -> str:
    """Return how many joints one part has, how long, and what each takes."""
    if not blank["joints"]:
        return _NONE
    many = f"{blank['joints']}, {figures.metres(blank['joint_m'])}"
    if not blank["joint"]:
        return many
    low, high = (figures.bare_millimetres(blank[f"joint_{end}_m"]) for end in ("low", "high"))
    each = low if low == high else f"{low} to {high}"
    return f"{many}: {blank['joint']}, {each} {figures.head('mm')}"


def drawings(blanks: Sequence[Document]) -> list[Markup]:
    """Return a drawing of the largest blank of each kind that does not look like its part."""
    developed = [b for b in blanks if b["outline"] and b["kind"] in DRAWN and b["why"] != FLAT]
    groups = selection.grouped(developed, lambda blank: blank["kind"])
    return [
        _drawing(max(groups[kind], key=lambda blank: blank["blank_m2"]))
        for kind in DRAWN
        if kind in groups
    ]


def _drawing(blank: Document) -> Markup:
    """Draw one piece of a blank as developed, with its length, its width and what sets it out."""
    (across_m, up_m) = (max(x[i] for loop in blank["outline"] for x in loop) for i in (0, 1))
    scale = min(_ROOM_MM[0] / across_m, _ROOM_MM[1] / up_m)
    high_mm = up_m * scale
    drawing = Drawing(*_CELL_MM, f"{blank['part']}: {blank['kind']}")
    room_mm = _CELL_MM[0] - _LEFT_MM
    drawing.text((_LEFT_MM, SMALL_MM), shortened(f"{blank['part']} {blank['name']}", room_mm))
    drawing.text((_LEFT_MM, 2.3 * SMALL_MM), shortened(_headline(blank), room_mm), "tiny")
    corners = [
        [(_LEFT_MM + x * scale, _TOP_MM + high_mm - y * scale) for x, y in loop]
        for loop in blank["outline"]
    ]
    drawing.shape("outline", corners)
    right_mm, foot_mm = _LEFT_MM + across_m * scale, _TOP_MM + high_mm
    signs.dimension_across(
        drawing, (_LEFT_MM, foot_mm), (right_mm, foot_mm), foot_mm + _LEVEL_MM,
        figures.dimension(across_m),
    )  # fmt: skip
    signs.dimension_upright(
        drawing, (right_mm, _TOP_MM), (right_mm, foot_mm), right_mm + _LEVEL_MM,
        figures.dimension(up_m),
    )  # fmt: skip
    level_mm = foot_mm + 2 * _LEVEL_MM
    for size in blank["sizes"]:
        if size["name"] in _DIMENSIONED:
            continue
        drawing.text((_LEFT_MM, level_mm), sizes({"sizes": [size]}), "tiny")
        level_mm += SMALL_MM
    return drawing.svg()


def _headline(blank: Document) -> str:
    number = sum(piece["number"] for piece in blank["pieces"])
    return f"{blank['kind']}, {number} pieces" if number > 1 else blank["kind"]
