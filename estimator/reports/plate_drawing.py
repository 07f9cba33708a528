"""A wall plate in elevation, to scale: its fixings, what presses, and what each fixing carries."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from markupsafe import Markup

from estimator.reports import figures, signs
from estimator.reports.document import Document
from estimator.reports.drawing import (
    SMALL_MM,
    Drawing,
    Pair,
    Spot,
    Viewport,
    standard_scale,
    text_width_mm,
)

WIDE_MM = 62.0
ROOM_MM = (40.0, 40.0)
"""Largest plate on the paper."""
_MIDDLE_MM = (33.5, 22.0)
_HATCH_MM = 1.5
_TOLD_FROM_MM, _NEXT_ROW_MM, _TITLE_MM = 57.5, 1.25 * SMALL_MM, 6.5
"""Down to what the fixings carry, from row to row of it, and below it for the title."""
_LEAST_FIXING_MM = 0.7
_LONGEST_MM = 9.0
"""Arrow of the largest shear."""
_FIRST_MM, _NEXT_MM = 4.5, 5.0
"""From the plate to the first dimension line, and from that to the next."""


def plate_drawing(one: Document) -> Markup:
    """Return the plate of a bracket in the case with the largest pull, as SVG.

    Args:
        one: A row of the document's plates that has something found.
    """
    plate, governing = one["plate"], one["found"]["governing"]
    half_m = (plate["width_m"] / 2, plate["height_m"] / 2)
    scale = standard_scale((2 * half_m[0], 2 * half_m[1]), ROOM_MM)
    rows = _told(governing)
    high_mm = _TOLD_FROM_MM + _NEXT_ROW_MM * len(rows) + _TITLE_MM
    drawing = Drawing(WIDE_MM, high_mm, f"Wall plate of {one['bracket']}")
    view = _view(half_m, scale)
    corners = [(-half_m[0], -half_m[1]), (half_m[0], -half_m[1]), half_m, (-half_m[0], half_m[1])]
    drawing.shape("outline", [[view.at(corner) for corner in corners]])
    _pressed(drawing, view, governing["outline_m"])
    left, right = view.at((-half_m[0], 0)), view.at((half_m[0], 0))
    top, bottom = view.at((0, half_m[1])), view.at((0, -half_m[1]))
    drawing.line("centre", (left[0] - 2, left[1]), (right[0] + 2, right[1]))
    drawing.line("centre", (top[0], top[1] - 2), (bottom[0], bottom[1] + 2))
    _dimensions(drawing, view, half_m, [fixing["at_m"] for fixing in one["found"]["fixings"]])
    _fixings(drawing, view, one)
    for row, cells in enumerate(rows):
        for column, cell in enumerate(cells):
            spot = (0.5 + column * WIDE_MM / 2, _TOLD_FROM_MM + _NEXT_ROW_MM * row)
            drawing.text(spot, cell, "force")
    signs.view_title(drawing, (2.0, high_mm - 3.0), f"{one['bracket']}  1:{scale}")
    return drawing.svg()


def _view(half_m: Pair, scale: float) -> Viewport:
    """Return the plate about the middle kept for it."""
    box = (-half_m[0], -half_m[1], half_m[0], half_m[1])
    sized = Viewport(0.0, 0.0, scale, box)
    left_mm = _MIDDLE_MM[0] - sized.millimetres(half_m[0])
    return Viewport(left_mm, _MIDDLE_MM[1] - sized.millimetres(half_m[1]), scale, box)


def _pressed(drawing: Drawing, view: Viewport, outline_m: Sequence[Pair]) -> None:
    """Hatch the part that presses on the wall."""
    ring = [view.at(corner) for corner in outline_m]
    if not ring:
        return
    for start, end in _hatching(ring):
        drawing.line("narrow", start, end)
    drawing.line("narrow", *ring, ring[0])


def _hatching(ring: Sequence[Spot]) -> Iterator[tuple[Spot, Spot]]:
    """Yield lines at 45 degrees that fill a convex ring."""
    sums = [x + y for x, y in ring]
    for step in range(math.ceil(min(sums) / _HATCH_MM), math.floor(max(sums) / _HATCH_MM) + 1):
        cut = [
            (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
            for a, b in pairwise([*ring, ring[0]])
            for t in _crossing(sum(a), sum(b), step * _HATCH_MM)
        ]
        if len(cut) > 1:
            yield min(cut), max(cut)


def _crossing(start: float, end: float, wanted: float) -> Iterator[float]:
    """Yield how far from one value to another a wanted one is met, if it is."""
    if start != end and 0 <= (wanted - start) / (end - start) <= 1:
        yield (wanted - start) / (end - start)


def _dimensions(drawing: Drawing, view: Viewport, half_m: Pair, points_m: Sequence[Pair]) -> None:
    """Dimension the pitches of the fixings, then the plate."""
    bottom_mm = view.at((0, -half_m[1]))[1]
    left_mm = view.at((-half_m[0], 0))[0]
    rows = [sorted({round(point[way], 6) for point in points_m}) for way in (0, 1)]
    for start, end in pairwise(rows[0]):
        lowest = min(point[1] for point in points_m)
        spots = view.at((start, lowest)), view.at((end, lowest))
        signs.dimension_across(
            drawing, *spots, bottom_mm + _FIRST_MM, figures.dimension(end - start)
        )
    for start, end in pairwise(rows[1]):
        leftmost = min(point[0] for point in points_m)
        spots = view.at((leftmost, start)), view.at((leftmost, end))
        signs.dimension_upright(
            drawing, *spots, left_mm - _FIRST_MM, figures.dimension(end - start)
        )
    low, high = (-half_m[0], -half_m[1]), (half_m[0], half_m[1])
    signs.dimension_across(
        drawing, view.at(low), view.at((high[0], low[1])), bottom_mm + _FIRST_MM + _NEXT_MM,
        figures.dimension(2 * half_m[0]),
    )  # fmt: skip
    signs.dimension_upright(
        drawing, view.at(low), view.at((low[0], high[1])), left_mm - _FIRST_MM - _NEXT_MM,
        figures.dimension(2 * half_m[1]),
    )  # fmt: skip


def _fixings(drawing: Drawing, view: Viewport, one: Document) -> None:
    """Draw the fixings with their shears as arrows, and say what each carries."""
    governing, fixings = one["found"]["governing"], one["found"]["fixings"]
    largest_n = max(math.hypot(*shear) for shear in governing["shear_n"])
    radius_mm = max(view.millimetres(one["diameter_m"] / 2), _LEAST_FIXING_MM)
    for fixing, shear in zip(fixings, governing["shear_n"], strict=True):
        x, y = view.at(fixing["at_m"])
        drawing.circle("fine outline", (x, y), radius_mm)
        for dx, dy in ((1.0, 0.0), (0.0, 1.0)):
            reach = 1.8 * radius_mm
            drawing.line(
                "narrow", (x - reach * dx, y - reach * dy), (x + reach * dx, y + reach * dy)
            )
        if largest_n > 0 and math.hypot(*shear) > 0.02 * largest_n:
            tip = (x + _LONGEST_MM * shear[0] / largest_n, y - _LONGEST_MM * shear[1] / largest_n)
            signs.force(drawing, (x, y), tip)
            drawing.keep_clear((min(x, tip[0]), min(y, tip[1]), max(x, tip[0]), max(y, tip[1])))
    for fixing in fixings:
        drawing.balloon(view.at(fixing["at_m"]), str(fixing["number"]))


def _told(governing: Document) -> list[list[str]]:
    """Return what each fixing carries, in rows of two; of one where two have no room."""
    cells = [
        f"{number}: {figures.newtons(pull_n)} / {figures.newtons(math.hypot(*shear))}"
        for number, (pull_n, shear) in enumerate(
            zip(governing["pull_n"], governing["shear_n"], strict=True), start=1
        )
    ]
    roomy = max(text_width_mm(cell) for cell in cells) <= WIDE_MM / 2
    down = math.ceil(len(cells) / 2) if roomy else len(cells)
    return [cells[row::down] for row in range(down)]
