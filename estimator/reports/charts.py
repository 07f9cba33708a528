"""Line drawings of what is not a place: ranges, wind by direction, bracket forces, torques."""

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

from markupsafe import Markup

from estimator.reports import figures, selection, signs
from estimator.reports.document import Document
from estimator.reports.drawing import SMALL_MM, Drawing, Spot, shortened

WIDE_MM = 246.0
"""Width of what A4 and Letter, lying, both leave beside the filing strip."""

MOST_ROWS = 16
"""What a drawing of one row each holds beside other things on a sheet; the largest are drawn."""
MOST_ROSES = 5
"""Wind by direction is drawn of the assemblies that catch most; of all it is in the table."""

_NAMES_MM = 58.0
"""Left of every range line: what it is of."""
_ROW_MM = 4.6
_ENDS_MM = 70.0
"""Right of the longest range line: room for its three numbers."""
_HEADED_MM = 6.0
"""A shorter range line is drawn without arrow heads."""
_POLAR_MM = 48.5
_POLAR_RADIUS_MM = 14.5
_POLAR_HEAD_MM = 9.0
_RINGS = 2
_GRAZING = 1e-6
"""Less than this, as a cosine, is along the wall."""
_NICE = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)
_GRAPH_MM = (112.0, 44.0)


class Span(NamedTuple):
    """One range: low, likely, high."""

    name: str
    low: float
    likely: float
    high: float


def range_lines(spans: Sequence[Span], printed: Callable[[float], str], title: str) -> Markup:
    """Return ranges as dimensioned lines above one another, all from nought on one axis.

    Args:
        spans: The ranges, top row first, none below nought; the largest are drawn.
        printed: How a number is printed.
        title: What the drawing shows.
    """
    spans = selection.chief(spans, MOST_ROWS, lambda span: span.high)
    drawing = Drawing(WIDE_MM, _ROW_MM * len(spans) + 2, title)
    length_mm = WIDE_MM - _NAMES_MM - _ENDS_MM
    most = max((span.high for span in spans), default=0.0) or 1.0
    drawing.line("centre", (_NAMES_MM, 0), (_NAMES_MM, _ROW_MM * len(spans) + 2))
    for row, span in enumerate(spans):
        y = row * _ROW_MM + 3.0
        low, likely, high = (
            (_NAMES_MM + length_mm * value / most, y)
            for value in (span.low, span.likely, span.high)
        )
        drawing.text((_NAMES_MM - 2, y + SMALL_MM / 3), shortened(span.name, _NAMES_MM - 2), "end")
        _range_line(drawing, low, high)
        drawing.line("wide", (likely[0], y - 1.6), (likely[0], y + 1.6))
        words = f"{printed(span.likely)} ({printed(span.low)} to {printed(span.high)})"
        drawing.text((high[0] + 2, y + SMALL_MM / 3), words)
    return drawing.svg()


def wind_rose(assembly: str, loads: Sequence[Document]) -> Markup:
    """Return the largest wind force on an assembly by the side the wind comes from, in plan.

    The wall is at the top as in the plan, the street at the bottom; a point lies on the side its
    wind comes from, as far from the middle as the force is large.

    Args:
        assembly: Its name.
        loads: Its wind loads, one or more.
    """
    forces = selection.by_direction(loads)
    behind = any(math.cos(math.radians(turn)) < -_GRAZING and force_n for turn, force_n in forces)
    above_mm = _POLAR_RADIUS_MM + 3 if behind else 3.0
    height_mm = _POLAR_HEAD_MM + above_mm + _POLAR_RADIUS_MM + 7
    drawing = Drawing(_POLAR_MM, height_mm, f"Wind on {assembly} by direction")
    middle = (_POLAR_MM / 2, _POLAR_HEAD_MM + above_mm)
    step_n = _nice(max(force for _, force in forces) / _RINGS)
    per_n = _POLAR_RADIUS_MM / (_RINGS * step_n)
    _rose_paper(drawing, middle, step_n, behind=behind)
    spots = [_polar(middle, turn, force_n * per_n) for turn, force_n in forces]
    drawing.shape("force", [spots])
    for spot in spots:
        drawing.line("force narrow", middle, spot)
        drawing.circle("force solid", spot, 0.4)
    turn, force_n = max(forces, key=lambda pair: pair[1])
    drawing.text((middle[0], 3.2), shortened(assembly, _POLAR_MM), "middle")
    drawing.text((middle[0], 7), f"{figures.newtons(force_n)} from {turn:g}°", "middle force")
    return drawing.svg()


def torque_graph(mover: Document) -> Markup:
    """Return a mover's gravity torque against its angle as a line.

    Args:
        mover: A row of ``moving``, with two or more angles.
    """
    points = mover["gravity_by_angle"]
    width_mm, height_mm = _GRAPH_MM
    drawing = Drawing(width_mm, height_mm, f"Gravity torque of {mover['assembly']} by angle")
    left, right, middle = 18.0, width_mm - 8, height_mm / 2 + 1
    first, last = points[0][0], points[-1][0]
    most = max(abs(torque) for _, torque in points) or 1.0
    half_mm = height_mm / 2 - 8
    spots = [
        (left + (right - left) * (a - first) / (last - first), middle - half_mm * torque / most)
        for a, torque in points
    ]
    drawing.line("narrow", (left, middle - half_mm - 2), (left, middle + half_mm + 2))
    drawing.line("narrow", (left, middle), (right, middle))
    for sense in (1.0, 0.0, -1.0):
        y = middle - sense * half_mm
        drawing.line("narrow", (left - 1, y), (left, y))
        drawing.text((left - 2, y + SMALL_MM / 3), figures.bare(sense * most, "N m"), "end")
    for (x, _), (angle, _) in zip(spots, points, strict=True):
        drawing.line("narrow", (x, middle), (x, middle + 1))
        if angle % 90 == 0:
            drawing.text((x, middle + half_mm + 5), f"{angle:g}°", "middle")
    drawing.text(
        (left, 3.5), f"{mover['assembly']}: gravity torque by angle, {figures.head('N m')}"
    )
    drawing.line("force", *spots)
    return drawing.svg()


def _range_line(drawing: Drawing, low: Spot, high: Spot) -> None:
    drawing.line("narrow", low, high)
    for x, y in (low, high):
        drawing.line("narrow", (x, y - 1.6), (x, y + 1.6))
    if high[0] - low[0] > _HEADED_MM:
        signs.head(drawing, low, high)
        signs.head(drawing, high, low)


def _rose_paper(drawing: Drawing, middle: Spot, step_n: float, *, behind: bool) -> None:
    """Draw the wall and the rings; the half behind the wall only where wind comes from there."""
    x, y = middle
    reach_mm = _POLAR_RADIUS_MM + 2
    signs.wall_across(drawing, (x - reach_mm, y), (x + reach_mm, y))
    drawing.line("centre", (x, y - reach_mm if behind else y), (x, y + reach_mm))
    for ring in range(1, _RINGS + 1):
        radius_mm = _POLAR_RADIUS_MM * ring / _RINGS
        turns = range(-90, 271 if behind else 91, 6)
        drawing.line("narrow", *(_polar(middle, turn, radius_mm) for turn in turns))
    spot = _polar(middle, 52.0, _POLAR_RADIUS_MM)
    drawing.text((spot[0] + 0.6, spot[1] + 1.4), figures.newtons(_RINGS * step_n), "tiny")
    drawing.text((x, y + reach_mm + 2.6), "0°, street", "middle tiny")
    if behind:
        drawing.text((x, y - reach_mm - 0.8), "180°, behind", "middle tiny")
    for sense, anchor, words in ((1.0, "", ("90°", "right")), (-1.0, "end", ("270°", "left"))):
        for line, word in enumerate(words):
            spot = (x + sense * (reach_mm + 0.4), y + 1 + 2.6 * line)
            drawing.text(spot, word, f"{anchor} tiny")


def _polar(middle: Spot, direction_deg: float, radius_mm: float) -> Spot:
    turn = math.radians(direction_deg)
    return middle[0] + radius_mm * math.sin(turn), middle[1] + radius_mm * math.cos(turn)


def _nice(value: float) -> float:
    """Return a round number that is not less; one for nought."""
    if value <= 0:
        return 1.0
    tens = 10.0 ** math.floor(math.log10(value))
    return next(step * tens for step in _NICE if step * tens >= value * (1 - 1e-9))
