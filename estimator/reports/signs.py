"""Signs of a drawing: dimensions, centre of gravity, forces, wall and ground, scale bar.

Each function draws one sign on a `Drawing`, at places on the paper in millimetres.
Arrow heads and extension lines follow ISO 129-1:2018 in habit (from memory).
"""

import math
from collections.abc import Mapping
from types import MappingProxyType

from estimator.reports import figures
from estimator.reports.drawing import (
    LARGE_MM,
    MM_PER_M,
    SMALL_MM,
    Drawing,
    Spot,
    Viewport,
    text_width_mm,
)

CENTRE_RADIUS_MM = 2.0
_HEAD_MM = 2.4
_HEAD_HALF_MM = 0.42
_CLEAR_MM = 1.0
"""Between a thing and its extension line, and from the dimension line to that line's end."""
_HATCH_STEP_MM = 2.0
_ARC_DEG, _ARC_STEPS = (-150.0, 240.0), 24
"""Where the arc of a moment starts, from above and with the turn, and how far it goes."""
_BAR_STEPS: Mapping[str, tuple[float, ...]] = MappingProxyType(
    {
        "mm": (10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000),
        "in": (0.5, 1, 2, 3, 6, 12, 24, 60, 120, 240, 480),
    }
)
_BAR_MM = 14.0
"""Least length of one step of a scale bar."""


def dimension_across(drawing: Drawing, start: Spot, end: Spot, level_mm: float, words: str) -> None:
    """Dimension a distance across the paper.

    Args:
        drawing: What is drawn on.
        start: A measured place.
        end: Another measured place.
        level_mm: Where down the paper the dimension line lies.
        words: The distance.
    """
    left, right = sorted((start, end))
    for x, y in (left, right):
        sense = math.copysign(_CLEAR_MM, level_mm - y)
        drawing.line("narrow", (x, y + sense), (x, level_mm + sense))
    middle = (left[0] + right[0]) / 2
    _dimension_line(drawing, (left[0], level_mm), (right[0], level_mm))
    if right[0] - left[0] > text_width_mm(words):
        drawing.text((middle, level_mm - 0.8), words, "middle")
    else:
        drawing.text((right[0] + _HEAD_MM + 1.2, level_mm - 0.8), words)


def dimension_upright(
    drawing: Drawing, start: Spot, end: Spot, level_mm: float, words: str
) -> None:
    """Dimension a distance up the paper.

    Args:
        drawing: What is drawn on.
        start: A measured place.
        end: Another measured place.
        level_mm: Where across the paper the dimension line lies.
        words: The distance.
    """
    top, bottom = sorted((start, end), key=lambda spot: spot[1])
    for x, y in (top, bottom):
        sense = math.copysign(_CLEAR_MM, level_mm - x)
        drawing.line("narrow", (x + sense, y), (level_mm + sense, y))
    _dimension_line(drawing, (level_mm, top[1]), (level_mm, bottom[1]))
    width_mm = text_width_mm(words)
    if bottom[1] - top[1] > width_mm:
        spot = (level_mm - 0.8, (top[1] + bottom[1]) / 2)
        drawing.text(spot, words, "middle turned")
        drawing.keep_clear(
            (spot[0] - SMALL_MM, spot[1] - width_mm / 2, level_mm, spot[1] + width_mm / 2)
        )
    else:
        drawing.text((level_mm - 0.8, top[1] - _HEAD_MM - 1.2), words, "turned")


def head(drawing: Drawing, tip: Spot, toward: Spot, kind: str = "solid", size: float = 1.0) -> None:
    """Draw a filled arrow head whose tip is at a place, pointing on from another place."""
    dx, dy = tip[0] - toward[0], tip[1] - toward[1]
    length = math.hypot(dx, dy)
    ux, uy = dx / length, dy / length
    back = (tip[0] - ux * _HEAD_MM * size, tip[1] - uy * _HEAD_MM * size)
    half_mm = _HEAD_HALF_MM * size
    left = (back[0] - uy * half_mm, back[1] + ux * half_mm)
    right = (back[0] + uy * half_mm, back[1] - ux * half_mm)
    drawing.shape(kind, [(tip, left, right)])


def force(drawing: Drawing, tail: Spot, tip: Spot) -> None:
    """Draw a force from its tail to its tip, in the accent kept for forces."""
    drawing.line("force", tail, tip)
    head(drawing, tip, tail, "force solid", 1.3)


def turning(drawing: Drawing, middle: Spot, radius_mm: float, clockwise: float) -> Spot:
    """Draw a moment as an arc with an arrow head round a place; return where the head is.

    Args:
        drawing: What is drawn on.
        middle: What it turns about.
        radius_mm: Of the arc.
        clockwise: 1 as a clock turns, -1 the other way.
    """
    turns = [
        math.radians(_ARC_DEG[0] + i * _ARC_DEG[1] / _ARC_STEPS) for i in range(_ARC_STEPS + 1)
    ]
    spots = [
        (
            middle[0] + clockwise * radius_mm * math.sin(turn),
            middle[1] - radius_mm * math.cos(turn),
        )
        for turn in turns
    ]
    drawing.line("force", *spots)
    head(drawing, spots[-1], spots[-2], "force solid", 1.3)
    return spots[-1]


def centre_of_gravity(drawing: Drawing, spot: Spot, radius_mm: float = CENTRE_RADIUS_MM) -> None:
    """Draw the quartered circle of a centre of gravity."""
    x, y = spot
    r = radius_mm
    drawing.circle("fine outline", spot, r)
    steps = [i * math.pi / 16 for i in range(9)]
    for turn in (0.0, math.pi):
        arc = [(x + r * math.cos(turn + a), y - r * math.sin(turn + a)) for a in steps]
        drawing.shape("solid", [[spot, *arc]])
    drawing.circle("narrow", spot, r)
    drawing.keep_clear((x - r, y - r, x + r, y + r))


def wind_centre(drawing: Drawing, spot: Spot) -> None:
    """Draw the middle of the outline the wind sees: a crossed circle in the accent."""
    (x, y), r = spot, 1.3
    drawing.circle("force narrow", spot, r)
    for sign in (1, -1):
        drawing.line("force narrow", (x - r, y - sign * r), (x + r, y + sign * r))
    drawing.keep_clear((x - r, y - r, x + r, y + r))


def bracket(drawing: Drawing, spot: Spot) -> None:
    """Draw where a bracket meets the wall: a square with centre lines."""
    (x, y), r = spot, 1.0
    corners = ((x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r))
    drawing.shape("outline", [corners])
    drawing.line("narrow", (x - 2 * r, y), (x + 2 * r, y))
    drawing.line("narrow", (x, y - 2 * r), (x, y + 2 * r))
    drawing.keep_clear((x - r, y - r, x + r, y + r))


def datum(drawing: Drawing, spot: Spot) -> None:
    """Draw the datum mark: two centre lines that cross in a small circle."""
    (x, y), r = spot, 4.0
    drawing.line("centre", (x - r, y), (x + r, y))
    drawing.line("centre", (x, y - r), (x, y + r))
    drawing.circle("narrow", spot, 0.7)


def wall_upright(drawing: Drawing, top: Spot, bottom: Spot) -> None:
    """Draw a wall cut through, its face to the right."""
    drawing.line("wide", top, bottom)
    y = top[1]
    while y + _HATCH_STEP_MM <= bottom[1]:
        drawing.line("narrow", (top[0], y), (top[0] - _HATCH_STEP_MM, y + _HATCH_STEP_MM))
        y += _HATCH_STEP_MM


def wall_across(drawing: Drawing, left: Spot, right: Spot) -> None:
    """Draw a wall cut through, its face downwards, as in a plan."""
    drawing.line("wide", left, right)
    x = left[0]
    while x + _HATCH_STEP_MM <= right[0]:
        drawing.line("narrow", (x, left[1]), (x + _HATCH_STEP_MM, left[1] - _HATCH_STEP_MM))
        x += _HATCH_STEP_MM


def ground(drawing: Drawing, left: Spot, right: Spot, words: str) -> None:
    """Draw the pavement: a wide line hatched below, with its name."""
    drawing.line("wide", left, right)
    x = left[0] + _HATCH_STEP_MM
    while x <= right[0]:
        drawing.line("narrow", (x, left[1]), (x - _HATCH_STEP_MM, left[1] + _HATCH_STEP_MM))
        x += 2 * _HATCH_STEP_MM
    drawing.text((left[0] + 1, left[1] + 2 * SMALL_MM), words)


def break_mark(drawing: Drawing, spot: Spot) -> None:
    """Draw the zigzag that says a line is not to scale here."""
    x, y = spot
    drawing.shape("fine outline", [_band(x, y)])
    for shift in (-0.7, 0.7):
        drawing.line(
            "narrow", (x - 2.5, y + shift), (x - 0.6, y + shift), (x - 0.3, y + shift - 1.2),
            (x + 0.3, y + shift + 1.2), (x + 0.6, y + shift), (x + 2.5, y + shift),
        )  # fmt: skip


def scale_bar(drawing: Drawing, spot: Spot, view: Viewport) -> None:
    """Draw a bar of four steps, true however large the page is printed."""
    size_mm, unit = figures.column("mm")
    steps = {step: view.millimetres(step * size_mm / MM_PER_M) for step in _BAR_STEPS[unit]}
    step = next((one for one, long_mm in steps.items() if long_mm >= _BAR_MM / 2), max(steps))
    step_mm = steps[step]
    x, y = spot
    for i in range(4):
        left, right = x + i * step_mm, x + (i + 1) * step_mm
        ring = ((left, y), (right, y), (right, y - 1.2), (left, y - 1.2))
        drawing.shape("solid" if i % 2 else "fine outline", [ring])
    for i in range(0, 5, 2):
        drawing.text((x + i * step_mm, y + SMALL_MM), f"{i * step:g}", "middle")
    drawing.text((x + 4 * step_mm + 5, y + SMALL_MM), unit)


def view_title(drawing: Drawing, spot: Spot, words: str) -> None:
    """Write the name of a view below it, underlined."""
    drawing.text(spot, words, "large")
    width_mm = text_width_mm(words, LARGE_MM)
    drawing.line("narrow", (spot[0], spot[1] + 1), (spot[0] + width_mm, spot[1] + 1))


def projection_sign(drawing: Drawing, spot: Spot) -> None:
    """Draw the sign of first-angle projection: a cut cone beside its view from the left."""
    x, y = spot
    drawing.shape("outline", [((x, y - 1.5), (x + 6, y - 3), (x + 6, y + 3), (x, y + 1.5))])
    drawing.circle("outline", (x + 12, y), 3)
    drawing.circle("outline", (x + 12, y), 1.5)
    drawing.line("centre", (x - 1.5, y), (x + 16.5, y))
    drawing.line("centre", (x + 12, y - 4.5), (x + 12, y + 4.5))


def _band(x: float, y: float) -> tuple[Spot, ...]:
    return ((x - 2.5, y - 0.7), (x + 2.5, y - 0.7), (x + 2.5, y + 0.7), (x - 2.5, y + 0.7))


def _dimension_line(drawing: Drawing, start: Spot, end: Spot) -> None:
    span_mm = math.dist(start, end)
    if span_mm > 2 * _HEAD_MM:
        drawing.line("narrow", start, end)
        head(drawing, start, end)
        head(drawing, end, start)
        return
    ux, uy = (1.0, 0.0) if start[1] == end[1] else (0.0, 1.0)
    before = (start[0] - ux * _HEAD_MM, start[1] - uy * _HEAD_MM)
    after = (end[0] + ux * _HEAD_MM, end[1] + uy * _HEAD_MM)
    drawing.line("narrow", before, after)
    head(drawing, start, before)
    head(drawing, end, after)
