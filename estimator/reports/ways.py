"""The ways of building side by side: a front view of each to one scale, and what differs."""

import math
from collections.abc import Callable, Iterator, Sequence
from typing import Any, NamedTuple

from markupsafe import Markup

from estimator.reports import figures, signs
from estimator.reports.charts import WIDE_MM
from estimator.reports.document import Document
from estimator.reports.drawing import (
    MM_PER_M,
    SMALL_MM,
    Drawing,
    Viewport,
    shortened,
    standard_scale,
)
from estimator.reports.matrices import Cell

MOST_ABREAST = 4
"""Front views in one row of the drawing."""
LEAST_SHARE, LEAST_MOVE_M = 5e-4, 5e-4
"""What differs by less would be printed as nought."""
_TALL_MM, _LEAST_MM = 72.0, 15.0
"""Height of all front views with their words, and the least that one of many has."""
_BETWEEN_MM = 6.0
_WORDS_MM = 3 * (SMALL_MM + 0.9) + 2
"""Below a view: its name and two lines of figures."""
_MARK_MM = 1.6

_Way = Document


class Fronts(NamedTuple):
    """The drawing and its scale, 1 to so many."""

    svg: Markup
    scale: int


class Row(NamedTuple):
    """One figure of every way, with how it differs from the first."""

    words: str
    cells: tuple[Cell, ...]


class InWay(NamedTuple):
    """One assembly in one way of building; None where the way does not have it."""

    assembly: str
    option: str
    figures: Document | None


def rows(document: Document) -> list[Row]:
    """Return what each way shows and catches, with how it differs from the first."""
    ways = document["options_table"]
    return [
        Row("mass, likely", tuple(_mass(way) for way in ways)),
        Row("one time in twenty lower", _plain(ways, "low_kg", figures.kilograms)),
        Row("one time in twenty higher", _plain(ways, "high_kg", figures.kilograms)),
        Row("centre of gravity from the datum", tuple(_centre(way) for way in ways)),
        Row("outline from the street", _area(ways, "front")),
        Row("outline along the wall", _area(ways, "side")),
        Row("largest wind force on everything together", tuple(_wind(way) for way in ways)),
        Row(
            "largest wind force on one assembly",
            tuple(Cell(figures.newtons(way["windiest_n"]), way["windiest"] or "") for way in ways),
        ),
    ]


def _plain(ways: Sequence[_Way], key: str, printed: Callable[[Any], str]) -> tuple[Cell, ...]:
    return tuple(Cell(printed(way[key]), "") for way in ways)


def _mass(way: _Way) -> Cell:
    more = way["differs"]
    words = ""
    if more is not None:
        share = more["mass_share"]
        told = "" if share is None else f" ({signed(share, figures.percent)})"
        words = signed(more["mass_kg"], figures.kilograms) + told
    return Cell(figures.kilograms(way["mass_kg"]), words)


def _centre(way: _Way) -> Cell:
    more = way["differs"]
    words = f"{figures.millimetres(more['moved_m'])} away" if more is not None else ""
    return Cell(figures.place(way["cg_m"]), words)


def _area(ways: Sequence[_Way], side: str) -> tuple[Cell, ...]:
    return tuple(
        Cell(
            figures.square_metres(way[f"{side}_area_m2"]),
            share(way["differs"], f"{side}_share"),
        )
        for way in ways
    )


def _wind(way: _Way) -> Cell:
    return Cell(figures.newtons(way["wind_n"]), share(way["differs"], "wind_share"))


def share(differs: Document | None, key: str) -> str:
    """Return how much more something is as a signed percentage; empty where it cannot be said."""
    value = None if differs is None else differs[key]
    return "" if value is None else signed(value, figures.percent)


def signed(value: float, printed: Callable[[float], str]) -> str:
    """Return a printed number with a plus where it is more than nought."""
    words = printed(value)
    return f"+{words}" if value > 0 and words != printed(0.0) else words


def by_assembly(document: Document) -> list[InWay]:
    """Return the assemblies that differ between ways, each in every way, the first way first."""
    ways = document["options_table"]
    found = [{one["assembly"]: one for one in way["assemblies"]} for way in ways]
    names = dict.fromkeys(name for way in found for name in way)
    return [
        InWay(name, way["option"], one.get(name))
        for name in names
        if len(ways) > 1 and _is_different([one.get(name) for one in found])
        for way, one in zip(ways, found, strict=True)
    ]


def _is_different(ones: Sequence[Document | None]) -> bool:
    """Return whether an assembly is missing from a way, or its print would differ."""
    if None in ones:
        return True
    return any(_told(one["differs"]) for one in ones if one and one["differs"])


def _told(differs: Document) -> bool:
    shares = (differs[f"{what}_share"] or 0.0 for what in ("mass", "front", "side", "wind"))
    return differs["moved_m"] >= LEAST_MOVE_M or any(abs(one) >= LEAST_SHARE for one in shares)


def fronts(document: Document) -> Fronts | None:
    """Return a front view of every way, to one scale and about one datum; None for a single way."""
    ways = document["options_table"]
    boxes_m = [way["front"]["box_m"] for way in ways if way["front"]["shapes"]]
    if len(ways) <= 1 or not boxes_m:
        return None
    low_m = [min(box_m[axis] for box_m in boxes_m) for axis in (0, 1)]
    high_m = [max(box_m[axis] for box_m in boxes_m) for axis in (2, 3)]
    box_m = (*low_m, *high_m)
    size_m = (box_m[2] - box_m[0], box_m[3] - box_m[1])
    abreast, scale = _arranged(len(ways), size_m)
    wide_mm = WIDE_MM / abreast
    tall_mm = size_m[1] * MM_PER_M / scale + _WORDS_MM
    deep = math.ceil(len(ways) / abreast)
    drawing = Drawing(WIDE_MM, deep * tall_mm, "Front of every way of building")
    for number, way in enumerate(ways):
        corner = (number % abreast * wide_mm, number // abreast * tall_mm)
        _paint(drawing, way, Viewport(*corner, scale, box_m), wide_mm - _BETWEEN_MM)
    return Fronts(drawing.svg(), scale)


def _arranged(count: int, size_m: tuple[float, float]) -> tuple[int, int]:
    """Return how many views stand side by side so that they come out largest, and their scale."""
    ways = []
    for abreast in range(min(count, MOST_ABREAST), 0, -1):
        deep = math.ceil(count / abreast)
        room_mm = (WIDE_MM / abreast - _BETWEEN_MM, max(_TALL_MM / deep - _WORDS_MM, _LEAST_MM))
        ways.append((abreast, standard_scale(size_m, room_mm)))
    return min(ways, key=lambda way: way[1])


def _paint(drawing: Drawing, way: _Way, view: Viewport, wide_mm: float) -> None:
    """Draw one way and write its figures below."""
    for shape in way["front"]["shapes"]:
        rings = [[view.at(point) for point in ring] for ring in (shape["outer"], *shape["holes"])]
        drawing.shape("fine outline", rings, shape["part"])
    signs.centre_of_gravity(drawing, view.at(way["cg_m"][:2]), _MARK_MM)
    left, _, _, foot = view.paper
    for number, words in enumerate(_below(way), start=1):
        spot = (left, foot + 1 + number * (SMALL_MM + 0.9))
        drawing.text(spot, shortened(words, wide_mm))


def _below(way: _Way) -> Iterator[str]:
    """Yield the name of a way and what it comes to, with how it differs from the first."""
    yield way["option"]
    area = figures.square_metres(way["front_area_m2"])
    yield f"{figures.kilograms(way['mass_kg'])}, front {area}"
    more = way["differs"]
    if more is not None:
        front = share(more, "front_share")
        yield f"{_mass(way).reference}, front {front}" if front else _mass(way).reference
