"""Lines and words on a piece of paper, in millimetres from its top left corner, written as SVG.

Line widths and types follow ISO 128-2:2020 (narrow and wide one to two, types 01, 02, 04 and 05;
from memory). Lettering is of 9 points, of 7 where it only refers to something. The signs that are
made of several lines are in `estimator.reports.signs`.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from markupsafe import Markup

Spot = tuple[float, float]
"""A place on the paper, millimetres right and down from the top left corner."""
Pair = Sequence[float]
"""A point of a view, metres: (x, y)."""
Box = tuple[float, float, float, float]
"""(left, top, right, bottom) on the paper."""

INK = "#000"
PAPER = "#fff"
FORCE = "#b00020"
"""The one accent, kept for forces; reads as a dark grey in black and white."""
TINY_MM = 2.5
"""Type size of 7 points, for what is looked up rather than read."""
SMALL_MM = 3.2
"""Type size of 9 points."""
LARGE_MM = 4.2
"""Type size of 12 points."""
MM_PER_M = 1000.0

_SIZES_MM = {"tiny": TINY_MM, "large": LARGE_MM}
_UPRIGHT = 0.25
"""Words led off steeper than this stand in the middle over or under their leader."""
_TYPE_WIDTH = 0.56
"""Mean width of a character of a sans-serif face, over the type size; common practice."""
_LABEL_REACHES_MM = (2.4, 5.0, 8.0, 12.0, 16.0, 21.0, 27.0)
_LABEL_SIDES = 16
"""Directions in which a place for a label is looked for."""
_CELL_MM = 0.8
"""Side of the squares that are known to have a line in them or not."""
_OVER_LINES_MM, _OVER_WORDS_MM = 0.8, 40.0
"""So much further a label is led to keep clear of one square with a line, of other words."""
_BALLOON_MM = 2.7
"""Radius of the circle round an item number."""


class Line(NamedTuple):
    """How a kind of line is drawn."""

    width_mm: float
    dashes: str = ""
    colour: str = INK
    fill: str = "none"


LINES = {
    "outline": Line(0.35, fill=PAPER),
    "fine outline": Line(0.18, fill=PAPER),
    "area": Line(0.09, colour=PAPER, fill=PAPER),
    "edge": Line(0.35),
    "wide": Line(0.5),
    "narrow": Line(0.18),
    "hidden": Line(0.18, "2.2 0.55"),
    "centre": Line(0.18, "4.3 0.7 0.4 0.7"),
    "phantom": Line(0.18, "4.3 0.7 0.4 0.7 0.4 0.7"),
    "grid": Line(0.09),
    "solid": Line(0.1, fill=INK),
    "force": Line(0.4, colour=FORCE),
    "force narrow": Line(0.18, colour=FORCE),
    "force solid": Line(0.1, colour=FORCE, fill=FORCE),
}

SCALES = (1, 2, 5, 10, 20, 25, 40, 50, 75, 100, 200, 500, 1000)
"""One to so many: ISO 5455:1979, with 25, 40 and 75 between (common practice, no source)."""


def standard_scale(size_m: Pair, room_mm: Pair) -> int:
    """Return the n of the largest standard scale 1:n at which a size fits into a room.

    Args:
        size_m: Width and height.
        room_mm: Width and height on the paper, more than zero.
    """
    needed = max(size * MM_PER_M / room for size, room in zip(size_m, room_mm, strict=True))
    return next((scale for scale in SCALES if scale >= needed), SCALES[-1])


@dataclass(frozen=True, slots=True)
class Viewport:
    """Where a view lies on the paper.

    Attributes:
        left_mm: Left edge on the paper.
        top_mm: Top edge on the paper.
        scale: The n of 1:n.
        box_m: What of the view is shown: x0, y0, x1, y1.
        y_down: Whether y grows downwards on the paper, as in a plan with the wall at the top.
    """

    left_mm: float
    top_mm: float
    scale: float
    box_m: Sequence[float]
    y_down: bool = False

    def at(self, point: Pair) -> Spot:
        """Return the place on the paper of a point of the view."""
        x0, y0, _, y1 = self.box_m
        down_m = point[1] - y0 if self.y_down else y1 - point[1]
        return (
            self.left_mm + self.millimetres(point[0] - x0),
            self.top_mm + self.millimetres(down_m),
        )

    def shows(self, point: Pair) -> bool:
        """Return whether a point of the view lies in what of it is shown."""
        x0, y0, x1, y1 = self.box_m
        return x0 <= point[0] <= x1 and y0 <= point[1] <= y1

    def millimetres(self, length_m: float) -> float:
        """Return a length on the paper."""
        return length_m * MM_PER_M / self.scale

    @property
    def paper(self) -> Box:
        """The box on the paper."""
        x0, y0, x1, y1 = self.box_m
        right_mm = self.left_mm + self.millimetres(x1 - x0)
        return self.left_mm, self.top_mm, right_mm, self.top_mm + self.millimetres(y1 - y0)


class _Place(NamedTuple):
    """Which way and how far from what it names a label stands."""

    right: float
    down: float
    reach_mm: float

    def off(self, spot: Spot, more_mm: float = 0.0) -> Spot:
        """Return the place so far from a spot, and a little more."""
        length_mm = self.reach_mm + more_mm
        return spot[0] + self.right * length_mm, spot[1] + self.down * length_mm


def _apart(first: Box, second: Box) -> bool:
    return (
        first[2] <= second[0]
        or second[2] <= first[0]
        or first[3] <= second[1]
        or second[3] <= first[1]
    )


def _along(start: Spot, end: Spot) -> list[Spot]:
    """Return places from one to another, no further apart than the squares are wide."""
    steps = math.ceil(math.dist(start, end) / _CELL_MM) or 1
    dx, dy = (end[0] - start[0]) / steps, (end[1] - start[1]) / steps
    return [(start[0] + i * dx, start[1] + i * dy) for i in range(steps + 1)]


def _around() -> Iterator[_Place]:
    """Yield where a label may stand, near places first."""
    for reach_mm in _LABEL_REACHES_MM:
        for side in range(_LABEL_SIDES):
            turn = 2 * math.pi * (side + 0.5) / _LABEL_SIDES
            yield _Place(math.cos(turn), math.sin(turn), reach_mm)


def _square(middle: Spot, half_mm: float) -> Box:
    x, y = middle
    return x - half_mm, y - half_mm, x + half_mm, y + half_mm


def _path(rings: Iterable[Sequence[Spot]], end: str) -> str:
    return " ".join("M" + "L".join(f"{x:.2f} {y:.2f}" for x, y in ring) + end for ring in rings)


class Drawing:
    """A piece of paper being drawn on; what comes later lies on top, words above all lines."""

    def __init__(self, width_mm: float, height_mm: float, title: str) -> None:
        """Start with a blank paper.

        Args:
            width_mm: Width of the paper.
            height_mm: Height of the paper.
            title: What the drawing shows, for those who cannot see it.
        """
        self.width_mm = width_mm
        self.height_mm = height_mm
        self._title = title
        self._lines: list[Markup] = []
        self._words: list[Markup] = []
        self._taken: list[Box] = []
        self._inked: set[tuple[int, int]] = set()

    def line(self, kind: str, *spots: Spot) -> None:
        """Draw an open line through the places given."""
        self._ink(spots)
        self._stroke(kind, _path([spots], ""))

    def shape(self, kind: str, rings: Sequence[Sequence[Spot]], tip: str = "") -> None:
        """Draw closed rings; what lies in an odd number of them is filled as the kind says.

        Args:
            kind: Key of `LINES`.
            rings: Outline first, then the holes; each of one place or more.
            tip: Words shown when the pointer rests on it.
        """
        for ring in rings if LINES[kind].colour != PAPER else ():
            self._ink((*ring, ring[0]))
        self._stroke(kind, _path(rings, "Z"), tip)

    def circle(self, kind: str, middle: Spot, radius_mm: float) -> None:
        """Draw a circle."""
        (x, y), r = middle, radius_mm
        arc = f"A{r:.2f} {r:.2f} 0 1 0"
        self._stroke(
            kind, f"M{x - r:.2f} {y:.2f}{arc} {x + r:.2f} {y:.2f}{arc} {x - r:.2f} {y:.2f}Z"
        )

    def text(self, spot: Spot, words: str, style: str = "") -> None:
        """Write words whose baseline starts at a place.

        Args:
            spot: Where.
            words: What; escaped here.
            style: Any of "middle", "end" (which point of the words is there), "tiny", "large",
                "force" (in the accent), "turned" (reading upwards).
        """
        styles = style.split()
        size_mm = next((_SIZES_MM[name] for name in styles if name in _SIZES_MM), SMALL_MM)
        anchor = next((name for name in ("middle", "end") if name in styles), "start")
        x, y = spot
        turn = Markup(' transform="rotate(-90 {:.2f} {:.2f})"').format(x, y)
        self._words.append(
            Markup(
                '<text x="{:.2f}" y="{:.2f}" font-size="{}" text-anchor="{}" fill="{}"{}>{}</text>'
            ).format(
                x,
                y,
                size_mm,
                anchor,
                FORCE if "force" in styles else INK,
                turn if "turned" in styles else "",
                words,
            )
        )
        if "turned" not in styles:
            self._taken.append(text_box(spot, words, size_mm, anchor))

    def keep_clear(self, box: Box) -> None:
        """Let no label be written over a part of the paper."""
        self._taken.append(box)

    def label(self, spot: Spot, words: str, style: str = "") -> None:
        """Write words near a place, clear of other words and as clear of lines as can be.

        What stands further off has a leader.
        """

        def written(place: _Place) -> tuple[Spot, str]:
            """Return where words stand in a place, and which end of them."""
            anchor = "middle" if abs(place.right) < _UPRIGHT else ("start", "end")[place.right < 0]
            x, y = place.off(spot)
            return (x, y + SMALL_MM / 3), anchor

        def box(place: _Place) -> Box:
            """Return the paper that the words take in a place."""
            start, anchor = written(place)
            return text_box(start, words, SMALL_MM, anchor)

        place = self._best(spot, box)
        if place is None:
            self.text(spot, words, style)
            return
        start, anchor = written(place)
        if place.reach_mm > _LABEL_REACHES_MM[0]:
            self.line("narrow", spot, place.off(spot))
        self.text(start, words, f"{style} {anchor}")

    def balloon(self, spot: Spot, number: str) -> None:
        """Write an item number in a circle near a place, with a leader that ends there."""
        place = self._best(spot, lambda place: _square(place.off(spot, _BALLOON_MM), _BALLOON_MM))
        middle = spot
        if place is not None:
            middle = place.off(spot, _BALLOON_MM)
            self.line("narrow", spot, place.off(spot))
            self.circle("solid", spot, 0.4)
        self.circle("fine outline", middle, _BALLOON_MM)
        self.text((middle[0], middle[1] + SMALL_MM * 0.36), number, "middle")
        self.keep_clear(_square(middle, _BALLOON_MM + 0.3))

    def svg(self) -> Markup:
        """Return the drawing as one SVG element, true to size, that needs nothing else."""
        return Markup(
            '<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{w:g}mm" height="{h:g}mm"'
            ' viewBox="0 0 {w:g} {h:g}" font-family="Arial, Liberation Sans, Helvetica, sans-serif"'
            ' stroke-linejoin="round"><title>{title}</title>\n{lines}\n'
            '<g paint-order="stroke" stroke="#fff" stroke-width="0.9">{words}</g></svg>'
        ).format(
            w=self.width_mm,
            h=self.height_mm,
            title=self._title,
            lines=Markup("\n").join(self._lines),
            words=Markup("\n").join(self._words),
        )

    def _free(self, box: Box) -> bool:
        inside = box[0] >= 0 and box[1] >= 0
        inside = inside and box[2] <= self.width_mm and box[3] <= self.height_mm
        return inside and all(_apart(box, taken) for taken in self._taken)

    def _best(self, spot: Spot, box_at: Callable[[_Place], Box]) -> _Place | None:
        """Return where a label covers least, the nearer of two alike; None when none is free."""
        best, least_mm = None, math.inf
        for place in _around():
            if place.reach_mm >= least_mm:
                break
            box = box_at(place)
            if self._free(box):
                price_mm = place.reach_mm + self._covered_mm(box, spot, place.off(spot))
                if price_mm < least_mm:
                    best, least_mm = place, price_mm
        return best

    def _covered_mm(self, box: Box, spot: Spot, foot: Spot) -> float:
        """Return what the lines below a label and the words below its leader count for."""
        lines = sum(
            (i, j) in self._inked
            for i in range(int(box[0] / _CELL_MM), int(box[2] / _CELL_MM) + 1)
            for j in range(int(box[1] / _CELL_MM), int(box[3] / _CELL_MM) + 1)
        )
        beyond_its_sign = _along(spot, foot)[4::2]
        words = sum(
            not _apart((*at, *at), taken) for at in beyond_its_sign for taken in self._taken
        )
        return _OVER_LINES_MM * lines + _OVER_WORDS_MM * words

    def _ink(self, spots: Sequence[Spot]) -> None:
        for start, end in pairwise(spots):
            self._inked.update(
                (int(x / _CELL_MM), int(y / _CELL_MM)) for x, y in _along(start, end)
            )

    def _stroke(self, kind: str, path: str, tip: str = "") -> None:
        width_mm, dashes, colour, fill = LINES[kind]
        self._lines.append(
            Markup(
                '<path d="{}" stroke="{}" stroke-width="{}" fill="{}" fill-rule="evenodd"{}>{}'
                "</path>"
            ).format(
                path,
                colour,
                width_mm,
                fill,
                Markup(' stroke-dasharray="{}"').format(dashes) if dashes else "",
                Markup("<title>{}</title>").format(tip) if tip else "",
            )
        )


def text_width_mm(words: str, size_mm: float = SMALL_MM) -> float:
    """Return about how wide words are on the paper."""
    return len(words) * size_mm * _TYPE_WIDTH


def shortened(words: str, room_mm: float, size_mm: float = SMALL_MM) -> str:
    """Return the words, cut and marked with dots where they are wider than the room."""
    most = int(room_mm / (size_mm * _TYPE_WIDTH))
    return words if len(words) <= most else words[: most - 1].rstrip() + "…"


def text_box(spot: Spot, words: str, size_mm: float, anchor: str) -> Box:
    """Return about the box that words fill when written at a place."""
    width_mm = text_width_mm(words, size_mm)
    left_mm = spot[0] - {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * width_mm
    return left_mm, spot[1] - size_mm * 0.8, left_mm + width_mm, spot[1] + size_mm * 0.25
