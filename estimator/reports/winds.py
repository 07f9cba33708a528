"""The largest wind on each assembly, as arrows on the drawing."""

import math
from collections.abc import Mapping, Sequence
from itertools import combinations

from estimator.reports import figures, selection, signs
from estimator.reports.document import Document
from estimator.reports.drawing import Drawing, Spot, Viewport, shortened

MOST_ARROWS = 3
"""Assemblies whose wind is drawn: those that catch most."""
_LONGEST_MM, _SHORTEST_MM = 8.5, 4.5
_STEEP = 0.05
"""A force is not drawn in a view in which less than this share of it shows."""
_LEAST_MOMENT = 0.01
"""A moment is not drawn in a view in which less than this share of it turns."""
_RADIUS_MM = 5.5
_NAME_MM = 20.0
"""Longest name of what has no number on the sheet."""
AXES: Mapping[str, tuple[tuple[int, int], int, float]] = {
    "front": ((0, 1), 2, -1.0),
    "side": ((2, 1), 0, 1.0),
    "plan": ((0, 2), 1, -1.0),
}
"""Of a view: what it shows to the right and up or down; the axis that a moment turns about, and
which way one above nought turns on the paper: 1 as a clock does."""


def drawn(document: Document) -> list[Document]:
    """Return the largest load on those assemblies that catch most, as drawn, largest first."""
    first = {row["assembly"]: row["position"] for row in reversed(document["assemblies"])}
    loads = [
        row for row in document["wind"]["loads"] if row["position"] == first.get(row["assembly"])
    ]
    marked = {mark["assembly"] for mark in document["marks"]["wind_centres"]}
    groups = selection.grouped(loads, lambda row: row["assembly"])
    worst = [max(rows, key=_size_n) for name, rows in groups.items() if name in marked]
    return sorted(worst, key=lambda row: -_size_n(row))[:MOST_ARROWS]


def _size_n(load: Document) -> float:
    return selection.resultant(load["force_n"])


def arrows(
    drawing: Drawing, views: Mapping[str, Viewport], document: Document, numbers: Mapping[str, str]
) -> None:
    """Draw the wind on those assemblies that catch most, and the moment of the largest.

    Args:
        drawing: What is drawn on.
        views: Front, side and plan.
        document: The estimate document.
        numbers: Of the items named on the sheet.
    """
    loads = drawn(document)
    centres = {mark["assembly"]: mark["at_m"] for mark in document["marks"]["wind_centres"]}
    free: dict[str, dict[str, Spot]] = {"side": {}, "plan": {}}
    for load in loads:
        name = load["assembly"]
        length_mm = max(_LONGEST_MM * _size_n(load) / _size_n(loads[0]), _SHORTEST_MM)
        for view, spots in free.items():
            ends = _ends(views[view], view, centres[name], (load["force_n"], length_mm))
            if ends is not None:
                signs.force(drawing, *ends)
                spots[name] = _free_end(ends, load["force_n"])
    # Named where the arrows are told apart best.
    named = max(free.values(), key=lambda spots: (len(spots), _apart_mm(list(spots.values()))))
    called = {name: numbers.get(name) or shortened(name, _NAME_MM) for name in centres}
    for load in loads:
        if load["assembly"] in named:
            words = f"{called[load['assembly']]}: {figures.newtons(_size_n(load))}"
            drawing.label(named[load["assembly"]], words, "force")
    for load in loads[:1]:
        for view, viewport in views.items():
            _moment(drawing, viewport, view, load["moment_nm"], called[load["assembly"]])


def _ends(
    viewport: Viewport, view: str, at_m: Sequence[float], force: tuple[Sequence[float], float]
) -> tuple[Spot, Spot] | None:
    """Return tail and tip of a force in a view; None where it shows no length.

    What presses towards the wall ends at the wind centre, what pulls off it starts there.
    """
    force_n, length_mm = force
    (right, upright), _, _ = AXES[view]
    x, y = force_n[right], force_n[upright] if viewport.y_down else -force_n[upright]
    size = math.hypot(x, y)
    if size < _STEEP * selection.resultant(force_n):
        return None
    spot = viewport.at((at_m[right], at_m[upright]))
    way = (length_mm * x / size, length_mm * y / size)
    if force_n[2] > 0:
        return spot, (spot[0] + way[0], spot[1] + way[1])
    return (spot[0] - way[0], spot[1] - way[1]), spot


def _apart_mm(spots: Sequence[Spot]) -> float:
    """Return how far the two nearest of some places lie from each other."""
    return min((math.dist(*pair) for pair in combinations(spots, 2)), default=0.0)


def _free_end(ends: tuple[Spot, Spot], force_n: Sequence[float]) -> Spot:
    """Return the end that is not at the wind centre."""
    return ends[1] if force_n[2] > 0 else ends[0]


def _moment(
    drawing: Drawing, viewport: Viewport, view: str, moments_nm: Sequence[float], name: str
) -> None:
    """Draw how a moment turns about the datum, where the datum is on the paper.

    The arc stands away from what the wind blows on, so it says by number what that is.
    """
    _, axis, clockwise = AXES[view]
    moment_nm = moments_nm[axis]
    x0, y0, x1, y1 = viewport.box_m
    inside = x0 <= 0.0 <= x1 and y0 <= 0.0 <= y1
    share = abs(moment_nm) / (selection.resultant(moments_nm) or 1.0)
    if not inside or share < _LEAST_MOMENT:
        return
    datum = viewport.at((0.0, 0.0))
    tip = signs.turning(drawing, datum, _RADIUS_MM, clockwise * math.copysign(1.0, moment_nm))
    drawing.label(tip, f"{name}: {figures.newton_metres(abs(moment_nm))}", "force")
