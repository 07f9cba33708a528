"""The wall from the street as a map of holes: plates, fixings, zones that no fixing may go into."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from markupsafe import Markup

from estimator.reports import figures, signs
from estimator.reports.document import Document
from estimator.reports.drawing import (
    MM_PER_M,
    SMALL_MM,
    Box,
    Drawing,
    Spot,
    Viewport,
    standard_scale,
)

BESIDE = 28
"""So many holes have their table beside the drawing; more have it below a wider one."""
_WIDE_MM, _NARROW_MM, _HIGHEST_MM = 246.0, 150.0, 132.0
_LEFT_MM, _TOP_MM, _RIGHT_MM, _BOTTOM_MM = 16.0, 13.0, 12.0, 14.0
_AROUND = 0.06
"""Of the larger side, left free round the plates."""
_LEAST_M = 0.3
"""A smaller piece of wall is not worth a drawing of its own."""
_NUMBERED_MM = 6.0
"""Holes further apart than this on the paper have each its number."""
_HATCH_MM = 4.0
_DOT_MM = 0.35
_CROSS_MM = 1.3
_FAR_MM = 7.0


class HoleMap(NamedTuple):
    """The drawing, its scale, and whether its table stands beside it."""

    svg: Markup
    scale: int
    beside: bool


def hole_map(document: Document) -> HoleMap | None:
    """Return the drawing; None where no plate is known."""
    wall = document["wall"]
    if not wall["plates"]:
        return None
    beside = len(wall["holes"]) <= BESIDE
    view, height_mm = _view(wall, _NARROW_MM if beside else _WIDE_MM)
    drawing = Drawing(
        _NARROW_MM if beside else _WIDE_MM, height_mm, "Holes in the wall, from the street"
    )
    for zone in wall["zones"]:
        _zone(drawing, view, zone)
    for plate in wall["plates"]:
        _plate(drawing, view, plate)
    for hole in wall["holes"]:
        _hole(drawing, view, hole)
    if view.shows((0.0, 0.0)):
        signs.datum(drawing, view.at((0.0, 0.0)))
        drawing.keep_clear(_around(view.at((0.0, 0.0)), 3.0))
    _dimensions(drawing, view, wall)
    _names(drawing, view, wall)
    signs.view_title(drawing, (0.0, 5.0), "Wall, from the street")
    signs.scale_bar(drawing, (_LEFT_MM, height_mm - 4.5), view)
    return HoleMap(drawing.svg(), int(view.scale), beside)


def sentences(document: Document) -> list[str]:
    """Return each hole that lies in a zone not to fix in, in a sentence."""
    wall = document["wall"]
    holes = {hole["number"]: hole for hole in wall["holes"]}
    return [
        f"Hole {hole['number']} of {holes[hole['number']]['bracket']}, at across"
        f" {figures.millimetres(holes[hole['number']]['at_m'][0])}, up"
        f" {figures.millimetres(holes[hole['number']]['at_m'][1])}, reaches"
        f" {figures.millimetres(hole['in_by_m'])} into the zone not to fix in,"
        f" {_called(zone)} ({zone['said_by']})."
        for zone in wall["zones"]
        for hole in zone["holes"]
    ]


def not_on_it(document: Document) -> str:
    """Return in words what stands on the wall and has no hole on the map."""
    stays = [row["bracket"] for row in document["plates"]["brackets"] if row["stay"]]
    points = f"the wall point of the stay of {', '.join(stays)}, and " if stays else ""
    return (
        f"Not on this map: {points}plates, feet and fixings that are listed as parts or stand"
        " straight on the wall. How those are fixed is not known here, so they have no hole."
    )


def zone_words(zone: Document) -> str:
    """Return where a zone lies, in words."""
    left, foot, right, head = (figures.bare_millimetres(value) for value in zone["box_m"])
    unit = figures.head("mm")
    return f"{_called(zone)}: across {left} to {right} {unit}, up {foot} to {head} {unit}"


def _called(zone: Document) -> str:
    return str(zone["zone"] or zone["cell"])


def _view(wall: Document, wide_mm: float) -> tuple[Viewport, float]:
    """Return where the wall lies on the paper, and how high the paper is."""
    boxes = [_plate_box(plate) for plate in wall["plates"]]
    x0, y0 = (min(box[i] for box in boxes) for i in (0, 1))
    x1, y1 = (max(box[i] for box in boxes) for i in (2, 3))
    more_m = max(_AROUND * max(x1 - x0, y1 - y0), (_LEAST_M - min(x1 - x0, y1 - y0)) / 2, 0.0)
    box_m = (x0 - more_m, y0 - more_m, x1 + more_m, y1 + more_m)
    size_m = (box_m[2] - box_m[0], box_m[3] - box_m[1])
    room_mm = (wide_mm - _LEFT_MM - _RIGHT_MM, _HIGHEST_MM - _TOP_MM - _BOTTOM_MM)
    scale = standard_scale(size_m, room_mm)
    spare_mm = room_mm[0] - size_m[0] * MM_PER_M / scale
    view = Viewport(_LEFT_MM + max(spare_mm, 0.0) / 2, _TOP_MM, scale, box_m)
    return view, view.paper[3] + _BOTTOM_MM


def _plate_box(plate: Document) -> Box:
    (x, y), (wide_m, high_m) = plate["at_m"], plate["size_m"] or (0.0, 0.0)
    return x - wide_m / 2, y - high_m / 2, x + wide_m / 2, y + high_m / 2


def _around(spot: Spot, half_mm: float) -> Box:
    return spot[0] - half_mm, spot[1] - half_mm, spot[0] + half_mm, spot[1] + half_mm


def _plate(drawing: Drawing, view: Viewport, plate: Document) -> None:
    left, foot, right, head = _plate_box(plate)
    if right > left:
        corners = ((left, foot), (right, foot), (right, head), (left, head))
        drawing.shape("edge", [[view.at(corner) for corner in corners]])
    else:
        signs.bracket(drawing, view.at(plate["at_m"]))


def _hole(drawing: Drawing, view: Viewport, hole: Document) -> None:
    x, y = view.at(hole["at_m"])
    radius_mm = view.millimetres((hole["diameter_m"] or 0.0) / 2)
    if radius_mm > _DOT_MM:
        drawing.circle("fine outline", (x, y), radius_mm)
    else:
        drawing.circle("solid", (x, y), _DOT_MM)
    reach_mm = max(_CROSS_MM, radius_mm + 0.6)
    drawing.line("grid", (x - reach_mm, y), (x + reach_mm, y))
    drawing.line("grid", (x, y - reach_mm), (x, y + reach_mm))


def _zone(drawing: Drawing, view: Viewport, zone: Document) -> None:
    """Draw as much of a zone as lies on the paper: hatched, its own sides as phantom lines."""
    left, top = view.at(
        (max(zone["box_m"][0], view.box_m[0]), min(zone["box_m"][3], view.box_m[3]))
    )
    right, foot = view.at(
        (min(zone["box_m"][2], view.box_m[2]), max(zone["box_m"][1], view.box_m[1]))
    )
    if right <= left or foot <= top:
        return
    for start, end in _hatching((left, top, right, foot)):
        drawing.line("grid", start, end)
    drawing.shape("phantom", [((left, top), (right, top), (right, foot), (left, foot))])


def _hatching(box: Box) -> Iterator[tuple[Spot, Spot]]:
    """Yield lines that rise to the right across a box."""
    left, top, right, foot = box
    wide, high = right - left, foot - top
    off = _HATCH_MM
    while off < wide + high:
        start = (left, top + off) if off <= high else (left + off - high, foot)
        end = (left + off, top) if off <= wide else (right, top + off - wide)
        yield start, end
        off += _HATCH_MM


def _dimensions(drawing: Drawing, view: Viewport, wall: Document) -> None:
    """Dimension the outermost holes, and say how far corner and top of the wall are."""
    places = [hole["at_m"] for hole in wall["holes"]] or [plate["at_m"] for plate in wall["plates"]]
    (x0, x1), (y0, y1) = ((min(v), max(v)) for v in zip(*places, strict=True))
    left, top, right, bottom = view.paper
    words = figures.dimension
    if x1 > x0:
        signs.dimension_across(
            drawing, view.at((x0, y1)), view.at((x1, y1)), top - 2.5, words(x1 - x0)
        )
    if y1 > y0:
        signs.dimension_upright(
            drawing, view.at((x0, y0)), view.at((x0, y1)), left - _FAR_MM, words(y1 - y0)
        )
    told = [
        f"{name} {words(wall[key])} from the datum"
        for name, key in (("nearest corner", "corner_m"), ("top of wall", "top_m"))
        if wall[key] is not None
    ]
    drawing.text((right, bottom + SMALL_MM + 1), "; ".join(told), "end tiny")


def _names(drawing: Drawing, view: Viewport, wall: Document) -> None:
    """Name plates and zones; number holes where there is room between them."""
    at = {hole["number"]: view.at(hole["at_m"]) for hole in wall["holes"]}
    for plate in wall["plates"]:
        spots = [at[number] for number in plate["holes"]]
        roomy = _apart_mm(spots) >= _NUMBERED_MM
        for number, (x, y) in zip(plate["holes"], spots, strict=True) if roomy else ():
            drawing.text((x + 1.0, y - 1.0), str(number), "tiny")
        box = _plate_box(plate)
        name = str(plate["bracket"])
        if plate["holes"] and not roomy:
            name = f"{name}: {_range(plate['holes'])}"
        drawing.keep_clear((*view.at((box[0], box[3])), *view.at((box[2], box[1]))))
        drawing.label(view.at((plate["at_m"][0], box[3])), name)
    for zone in wall["zones"]:
        x0, y0, x1, y1 = zone["box_m"]
        middle = (
            min(max((x0 + x1) / 2, view.box_m[0]), view.box_m[2]),
            min(max((y0 + y1) / 2, view.box_m[1]), view.box_m[3]),
        )
        drawing.label(view.at(middle), f"not to fix in: {_called(zone)}")


def _apart_mm(spots: Sequence[Spot]) -> float:
    """Return how near any two holes of a plate are on the paper, along the paper's own sides."""
    return min(
        (
            max(abs(a[0] - b[0]), abs(a[1] - b[1]))
            for i, a in enumerate(spots)
            for b in spots[i + 1 :]
        ),
        default=_NUMBERED_MM,
    )


def _range(numbers: Sequence[int]) -> str:
    return str(numbers[0]) if len(numbers) == 1 else f"{numbers[0]} to {numbers[-1]}"
