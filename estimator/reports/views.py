"""The assembly drawn: front, side and plan on one sheet, in first-angle projection.

The side is seen from the left and stands to the right of the front, the wall at its left; the
plan is seen from above and lies below the front, the wall at its top. All three are to one scale.
"""

import textwrap
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from markupsafe import Markup

from estimator.reports import figures, selection, sentences, signs, winds
from estimator.reports.document import Document
from estimator.reports.drawing import (
    MM_PER_M,
    SMALL_MM,
    TINY_MM,
    Drawing,
    Spot,
    Viewport,
    shortened,
    standard_scale,
    text_width_mm,
)

WIDTH_MM = 246.0
HEIGHT_MM = 139.5
"""What A4 and Letter, lying, both leave beside the filing strip and above the title block."""

_LEFT_MM, _TOP_MM, _RIGHT_MM, _BOTTOM_MM = 16.0, 14.5, 16.0, 13.5
_BETWEEN_ACROSS_MM = 50.0
"""Front to side: room for the forces on the wall."""
_BETWEEN_UP_MM = 17.0
_NEAR_MM, _FAR_MM = 5.0, 10.5
"""Dimension lines off their view: the centre of gravity, then the whole."""
_FINE_MM = 2.5
"""What is smaller than this on the paper is drawn in narrow lines."""
_APART_MM = 1.0
"""What is nearer to the datum than this on the paper is not dimensioned; the words give it."""
_MARK_MM = 30.0
"""Longest name of a bracket in the front view."""
_SAME_HEIGHT_MM = 1.5
_TOLD_MM = 2.9
"""From one line to the next of what is said of the forces."""
_FORCE_LINES_MM = 3 * SMALL_MM + 3
_NOTES_MM = 2 * SMALL_MM + 3.2
"""Pavement to the first line about a limit that is not drawn, below its name."""
_BROKEN_MM = 18.0
"""Side view to a pavement that is too far down to be drawn to scale."""

MOST_ITEMS = 15
"""Assemblies that have their number on the sheet; more would hide what they name."""

_AXES = {"front": (0, 1), "side": (2, 1), "plan": (0, 2)}
"""Which of (across, up, out) a view shows to the right, and which up or down."""


class Sheet(NamedTuple):
    """The drawing and the scale in its title block."""

    svg: Markup
    scale: int


class _Layout(NamedTuple):
    front: Viewport
    side: Viewport
    plan: Viewport

    def named(self) -> dict[str, Viewport]:
        """Return the views by name."""
        return self._asdict()


class _Ground(NamedTuple):
    """The pavement: where it is, the lowest point above it, and how it is drawn."""

    up_m: float
    lowest_m: float
    level_mm: float
    broken: bool


def assembly_sheet(document: Document) -> Sheet:
    """Return the sheet with the three views of everything that hangs on the wall."""
    layout = _layout(document)
    drawing = Drawing(WIDTH_MM, HEIGHT_MM, "Front, side and plan of the assembly")
    for name, view in layout.named().items():
        _paint(drawing, view, document["views"][name])
    _walls(drawing, layout)
    _dimensions(drawing, layout, document)
    ground = _ground(layout.side, document)
    if ground is not None:
        _pavement(drawing, layout.side, ground)
    _limits(drawing, layout.side, document["marks"], ground)
    numbers = {row["assembly"]: number for number, row in items(document)}
    told = _told(document, numbers)
    below_mm = layout.side.paper[1] - _FAR_MM + _TOLD_MM * (len(told) + 2)
    _forces_on_the_wall(drawing, layout.side, document["marks"]["brackets"], below_mm)
    for name, view in layout.named().items():
        _marks(drawing, view, _AXES[name], document["marks"])
    # Titles keep their places; names find theirs beside them.
    _titles(drawing, layout, told)
    _names(drawing, layout.front, document)
    winds.arrows(drawing, layout.named(), document, numbers)
    return Sheet(drawing.svg(), int(layout.front.scale))


def key() -> Markup:
    """Return the key to the lines and signs of the sheet."""
    drawing = Drawing(79, 28, "Key to the signs and lines")
    signs.centre_of_gravity(drawing, (5, 3))
    signs.wind_centre(drawing, (5, 8))
    signs.bracket(drawing, (5, 13))
    signs.datum(drawing, (5, 18.8))
    signs.force(drawing, (1, 24.3), (9, 24.3))
    signs.turning(drawing, (25, 24.3), 2.2, 1.0)
    drawing.text((29, 25.0), "moment")
    for row, words in enumerate(("centre of gravity", "wind centre", "bracket", "datum", "force")):
        drawing.text((11, 4.2 + row * 5.2), words)
    for row, (kind, words) in enumerate(
        (("outline", "outline"), ("hidden", "hidden bracket"), ("centre", "sweep of a mover"),
         ("phantom", "limit"))
    ):  # fmt: skip
        drawing.line(kind, (41, 2.6 + row * 4.7), (51, 2.6 + row * 4.7))
        drawing.text((53, 3.8 + row * 4.7), words)
    signs.projection_sign(drawing, (53, 23))
    return drawing.svg()


def items(document: Document) -> list[tuple[str, Document]]:
    """Return (number, assembly) of the items named on the sheet: the heaviest, as listed."""
    firsts: dict[str, Document] = {}
    for row in document["assemblies"]:
        firsts.setdefault(row["assembly"], row)
    chief = selection.chief(list(firsts.values()), MOST_ITEMS, lambda row: row["mass_kg"])
    return [(str(number), row) for number, row in enumerate(chief, start=1)]


def _layout(document: Document) -> _Layout:
    across, up, out = (_extent(document, axis) for axis in range(3))
    width_m, height_m = across[1] - across[0], up[1] - up[0]
    depth_m = out[1] - out[0]
    room_mm = (
        WIDTH_MM - _LEFT_MM - _BETWEEN_ACROSS_MM - _RIGHT_MM,
        HEIGHT_MM - _TOP_MM - _BETWEEN_UP_MM - _BOTTOM_MM,
    )
    scale = standard_scale((width_m + depth_m, height_m + depth_m), room_mm)
    spare_mm = room_mm[0] - (width_m + depth_m) * MM_PER_M / scale
    left_mm = _LEFT_MM + max(spare_mm, 0.0) / 2
    front = Viewport(left_mm, _TOP_MM, scale, (across[0], up[0], across[1], up[1]))
    side_left_mm = front.paper[2] + _BETWEEN_ACROSS_MM
    plan_top_mm = front.paper[3] + _BETWEEN_UP_MM
    return _Layout(
        front,
        Viewport(side_left_mm, _TOP_MM, scale, (out[0], up[0], out[1], up[1])),
        Viewport(left_mm, plan_top_mm, scale, (across[0], out[0], across[1], out[1]), y_down=True),
    )


def _extent(document: Document, axis: int) -> tuple[float, float]:
    """Return the least and greatest of an axis that any view or mark needs, wall included."""
    values = [bracket["at_m"][axis] for bracket in document["marks"]["brackets"]]
    for name, axes in _AXES.items():
        if axis in axes:
            i, box_m = axes.index(axis), document["views"][name]["box_m"]
            values += [box_m[i], box_m[i + 2]]
            sweeps = document["views"][name]["sweeps"]
            values += [point[i] for sweep in sweeps for point in sweep["points"]]
    if axis == 2:  # noqa: PLR2004 - out: the wall face is always drawn
        values.append(0.0)
    return min(values), max(values)


def _paint(drawing: Drawing, view: Viewport, content: Mapping[str, Any]) -> None:
    """Draw what is far first, so that what is near hides it; then the brackets behind, dashed."""
    shapes = sorted(content["shapes"], key=lambda shape: shape["depth_m"])
    for shape in shapes:
        rings = _rings(view, shape)
        tip = ", ".join(filter(None, (shape["part"], shape["assembly"])))
        if shape["lines"] is None:
            drawing.shape("fine outline" if _is_fine(rings[0]) else "outline", rings, tip)
            continue
        drawing.shape("area", rings, tip)
        for line in shape["lines"]:
            spots = [view.at(point) for point in line["points"]]
            drawing.line("edge" if line["wide"] else "narrow", *spots)
    for shape in shapes:
        if shape["kind"] == "bracket":
            drawing.shape("hidden", _rings(view, shape))
    for sweep in content["sweeps"]:
        drawing.shape("centre", [[view.at(point) for point in sweep["points"]]])


def _rings(view: Viewport, shape: Mapping[str, Any]) -> list[list[Spot]]:
    return [[view.at(point) for point in ring] for ring in (shape["outer"], *shape["holes"])]


def _is_fine(ring: Iterable[Spot]) -> bool:
    sides = ([spot[axis] for spot in ring] for axis in range(2))
    return min(max(side) - min(side) for side in sides) < _FINE_MM


def _walls(drawing: Drawing, layout: _Layout) -> None:
    _, top, _, bottom = layout.side.paper
    face = layout.side.at((0, 0))[0]
    signs.wall_upright(drawing, (face, top - 3), (face, bottom + 3))
    left, _, right, _ = layout.plan.paper
    face = layout.plan.at((0, 0))[1]
    signs.wall_across(drawing, (left - 3, face), (right + 3, face))


def _dimensions(drawing: Drawing, layout: _Layout, document: Document) -> None:
    front, side = layout.front, layout.side
    x0, y0, x1, y1 = document["views"]["front"]["box_m"]
    furthest_m = document["views"]["side"]["box_m"][2]
    left, top, _, bottom = front.paper
    words = figures.dimension
    if min(x1 - x0, y1 - y0) <= 0:
        return
    signs.dimension_across(
        drawing, front.at((x0, y1)), front.at((x1, y1)), top - _FAR_MM, words(x1 - x0)
    )
    signs.dimension_upright(
        drawing, front.at((x0, y0)), front.at((x0, y1)), left - _FAR_MM, words(y1 - y0)
    )
    face, furthest = side.at((0, y1)), side.at((furthest_m, y1))
    signs.dimension_across(drawing, face, furthest, top - _FAR_MM, words(furthest_m))
    cg_m = document["marks"]["cg_m"]
    if cg_m is None:
        return
    across_m, up_m, out_m = cg_m
    centre = side.at((out_m, up_m))
    signs.dimension_across(drawing, (face[0], centre[1]), centre, top - _NEAR_MM, words(out_m))
    if front.shows((0, 0)):
        zero, centre = front.at((0, 0)), front.at((across_m, up_m))
        signs.datum(drawing, zero)
        if abs(centre[0] - zero[0]) > _APART_MM:
            signs.dimension_across(drawing, zero, centre, bottom + _NEAR_MM, words(abs(across_m)))
        if abs(centre[1] - zero[1]) > _APART_MM:
            signs.dimension_upright(drawing, zero, centre, left - _NEAR_MM, words(abs(up_m)))


def _ground(side: Viewport, document: Document) -> _Ground | None:
    """Return the pavement below the side view; None when how far down it is is not known."""
    ground_m = document["marks"]["ground_m"]
    heights_m = [a["lowest_m"] for a in document["assemblies"] if a["lowest_m"] is not None]
    if ground_m is None or not heights_m:
        return None
    true_level = side.at((0, ground_m))[1]
    broken = true_level > HEIGHT_MM - _BOTTOM_MM
    level = side.paper[3] + _BROKEN_MM if broken else true_level
    return _Ground(ground_m, min(heights_m), level, broken)


def _pavement(drawing: Drawing, side: Viewport, ground: _Ground) -> None:
    """Draw the pavement below the side view, to scale or broken, and how far down it is."""
    ground_m, lowest_m, level, broken = ground
    _, _, right, bottom = side.paper
    face = side.at((0, ground_m))[0]
    signs.wall_upright(drawing, (face, bottom + 3), (face, level))
    signs.ground(drawing, (face, level), (min(right + 14, WIDTH_MM), level), "pavement")
    lowest = side.at((0, ground_m + lowest_m))
    across = right + _NEAR_MM
    signs.dimension_upright(
        drawing, (right, lowest[1]), (right, level), across, figures.dimension(lowest_m)
    )
    if broken:
        for x in (face, across):
            signs.break_mark(drawing, (x, level - 3.5))


def _limits(
    drawing: Drawing, side: Viewport, marks: Mapping[str, Any], ground: _Ground | None
) -> None:
    """Draw limits in their true place; note those that have none: below a break, off the paper."""
    noted = []
    for limit in marks["limits"]:
        drawn = next((_DRAWN[word] for word in _DRAWN if word in limit["limit"].casefold()), None)
        if drawn is None or limit["value_m"] is None:
            continue
        words = f"{limit['limit']} {figures.dimension(limit['value_m'])}"
        if not drawn(drawing, side, ground, (limit["value_m"], words)):
            noted.append(words)
    face = side.at((0, 0))[0]
    foot = side.paper[3] if ground is None else ground.level_mm
    room = int((WIDTH_MM - face - 1) / text_width_mm("n", TINY_MM))
    lines = [line for words in noted for line in textwrap.wrap(f"not drawn: {words}", room)]
    for number, line in enumerate(lines):
        drawing.text((face + 1, foot + _NOTES_MM + 3 * number), line, "tiny")


def _projection(
    drawing: Drawing, side: Viewport, _: _Ground | None, limit: tuple[float, str]
) -> bool:
    """Draw how far out of the wall anything may stand; return whether it is on the paper."""
    value_m, words = limit
    top, bottom = side.paper[1::2]
    x = side.at((value_m, 0))[0]
    if x >= WIDTH_MM - SMALL_MM:
        return False
    drawing.line("phantom", (x, top - 3), (x, bottom + 3))
    drawing.label((x, bottom + 3), words)
    return True


def _headroom(
    drawing: Drawing, side: Viewport, ground: _Ground | None, limit: tuple[float, str]
) -> bool:
    """Draw how much room is to stay above the pavement; return whether its place is true."""
    if ground is None:
        return False
    value_m, words = limit
    _, top, right, bottom = side.paper
    face, y = side.at((0, ground.up_m + value_m))
    if not top <= y <= (bottom if ground.broken else ground.level_mm):
        return False
    end = (min(right + 14, WIDTH_MM), y)
    drawing.line("phantom", (face, y), end)
    drawing.label(end, words)
    return True


_DRAWN = {"projection": _projection, "headroom": _headroom}
"""Limits that have a place in the side view, by a word of their name."""


def _forces_on_the_wall(
    drawing: Drawing, side: Viewport, brackets: Sequence[Mapping[str, Any]], below_mm: float
) -> None:
    """Draw the largest pull-out of the brackets at each height, left of the wall.

    Args:
        drawing: What is drawn on.
        side: Where.
        brackets: The marks.
        below_mm: Words stand no higher than this.
    """
    rows: list[tuple[float, list[Mapping[str, Any]]]] = []
    for bracket in sorted(brackets, key=lambda b: -b["at_m"][1]):
        y = side.at((0, bracket["at_m"][1]))[1]
        if rows and y - rows[-1][0] < _SAME_HEIGHT_MM:
            rows[-1][1].append(bracket)
        else:
            rows.append((y, [bracket]))
    face, free_from = side.at((0, 0))[0], below_mm + SMALL_MM
    for y, group in rows:
        level = max(y, free_from)
        free_from = level + _FORCE_LINES_MM
        tail, words_end = (face - 9, y), face - 13
        signs.force(drawing, tail, (face, y))
        drawing.line("force narrow", (words_end, level), tail)
        for i, words in enumerate(_force_words(group)):
            spot = (words_end - 1, level + 0.8 + (i - 0.5) * (SMALL_MM + 0.4))
            drawing.text(spot, words, "end force" if i else "end")


def _force_words(group: Sequence[Mapping[str, Any]]) -> tuple[str, ...]:
    names = ", ".join(bracket["bracket"] for bracket in group)
    if text_width_mm(names) > _BETWEEN_ACROSS_MM - 16:
        names = f"{len(group)} brackets"
    largest = {
        words: max((b[key_n] for b in group if b[key_n] is not None), default=None)
        for words, key_n in (("pull-out", "pull_out_n"), ("shear", "shear_n"))
    }
    return names, *(f"{words} {figures.newtons(value)}" for words, value in largest.items())


def _marks(
    drawing: Drawing, view: Viewport, axes: tuple[int, int], marks: Mapping[str, Any]
) -> None:
    for mark in marks["brackets"]:
        if axes == _AXES["front"]:
            signs.bracket(drawing, _on(view, axes, mark["at_m"]))
    for mark in marks["wind_centres"]:
        signs.wind_centre(drawing, _on(view, axes, mark["at_m"]))
    if marks["cg_m"] is not None:
        signs.centre_of_gravity(drawing, _on(view, axes, marks["cg_m"]))


def _on(view: Viewport, axes: tuple[int, int], point_m: Sequence[float]) -> Spot:
    return view.at((point_m[axes[0]], point_m[axes[1]]))


def _names(drawing: Drawing, front: Viewport, document: Document) -> None:
    """Name what the front view shows; the brackets first, since forces are told by their names."""
    axes, marks = _AXES["front"], document["marks"]
    if marks["cg_m"] is not None:
        mass = figures.kilograms(document["mass"]["likely_kg"])
        drawing.label(_on(front, axes, marks["cg_m"]), f"G {mass}")
    for mark in marks["brackets"]:
        name = shortened(mark["bracket"], _MARK_MM)
        drawing.label(_on(front, axes, mark["at_m"]), name)
    centres_m: dict[str, Sequence[float]] = {
        mark["assembly"]: mark["at_m"] for mark in marks["wind_centres"]
    }
    for number, row in items(document):
        at_m = centres_m.get(row["assembly"]) or row["cg_m"]
        drawing.balloon(_on(front, axes, at_m), number)


def _told(document: Document, numbers: Mapping[str, str]) -> list[str]:
    """Return what the forces on the sheet are."""
    told = ["forces: the largest of the", f"brackets named, {sentences.characteristic(document)}"]
    names = (load["assembly"] for load in winds.drawn(document))
    drawn = [numbers.get(name) or shortened(name, _MARK_MM / 3) for name in names]
    if drawn:
        told.append(f"wind: the largest on {sentences.listed(drawn)};")
        told += [f"arc: moment of that on {drawn[0]},", "about the datum"]
    return told


def _titles(drawing: Drawing, layout: _Layout, told: Sequence[str]) -> None:
    below_mm = 9.0
    for view, words in (
        (layout.front, "Front, from the street"),
        (layout.plan, "Plan, from above"),
    ):
        left, _, _, bottom = view.paper
        signs.view_title(drawing, (left, bottom + below_mm), words)
    left, top, _, _ = layout.side.paper
    signs.view_title(drawing, (left - 44, top - _FAR_MM), "Side, from the left")
    for line, words in enumerate(told):
        drawing.text((left - 44, top - _FAR_MM + 4.4 + _TOLD_MM * line), words, "tiny")
    left, _, _, bottom = layout.plan.paper
    signs.scale_bar(drawing, (left + 55, bottom + below_mm), layout.plan)
