"""Brackets drawn from the side, with the forces of each on the wall face as arrows to scale."""

import math
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from markupsafe import Markup

from estimator.reports import figures, selection, signs
from estimator.reports.document import Document
from estimator.reports.drawing import (
    LARGE_MM,
    TINY_MM,
    Drawing,
    Spot,
    Viewport,
    shortened,
    standard_scale,
)

WIDE_MM, _HEIGHT_MM = 246.0, 61.0
_FACE_MM, _TOP_MM = 46.0, 14.0
_ROOM_MM = (56.0, 34.0)
"""For the view itself: beyond it stand its dimensions."""
_LONGEST_MM = 17.0
"""Longest arrow; the scale is the first of 1, 2 or 5 at which all are shorter."""
_SHORTEST_MM = 0.4
"""A shorter arrow is not drawn; its figure still stands."""
_STEPS = (1.0, 2.0, 5.0, 10.0)
_HEAD_MM = 2.4
_APART_MM = 2.9
"""Between the line of a characteristic arrow and that of the factored one."""
_ROW_MM = 15.0
_COLUMNS_MM = (137.0, 206.0)
_FIRST_ROW_MM = 17.0
_LEVEL_MM, _UPRIGHT_MM, _ARC_MM = _FACE_MM - 8.0, _FACE_MM - 4.2, 8.0
"""Where the arrows beside the wall are: the tip of the level one, the upright one, the arc."""
_ARC_DEG = 240.0
"""How far round the arc of a moment goes."""

_NAMES: Sequence[tuple[str, str]] = (
    ("to the left", "to the right"),
    ("down", "uplift"),
    ("push-in", "pull-out"),
    ("about across \N{MINUS SIGN}, pulls the bottom", "about across +, pulls the top"),
    ("about up \N{MINUS SIGN}, pulls the right", "about up +, pulls the left"),
    ("about out \N{MINUS SIGN}, clockwise", "about out +, anticlockwise"),
)
"""The lowest and the highest of each component, in the order of the document."""
_UP, _OUT, _TILT = 1, 2, 3
"""Components that lie in the plane of the side view."""
_SHAPE = ("set", "reach_m", "bears_m", "section", "depth_m", "plate_m", "hole_levels_m", "stay")
"""What brackets that are drawn once have in common."""
_MOST_DRAWN = 12
_LONGEST_NAMES = 40
"""Letters; more are named below the drawing only."""


class Elevation(NamedTuple):
    """One drawing.

    Attributes:
        svg: The drawing.
        scale: The n of 1:n of the side view.
        words: What it shows.
    """

    svg: Markup
    scale: int
    words: str


class _Action(NamedTuple):
    """One sense of one component: the most of all brackets that look alike.

    Attributes:
        characteristic: N or N m; not below nought.
        factored: Likewise.
        bracket: Where the factored one is.
    """

    characteristic: float
    factored: float
    bracket: str


class _Pair(NamedTuple):
    """Both senses of one component, and how they are printed."""

    low: _Action
    high: _Action
    printed: Callable[[float | None], str]


class _Scales(NamedTuple):
    """Newtons and newton metres that a millimetre of arrow stands for."""

    force: float
    moment: float

    def of(self, component: int) -> float:
        """Return the one that a component is drawn to."""
        return self.force if component < _TILT else self.moment


def elevations(document: Document) -> list[Elevation]:
    """Return a drawing of every bracket that looks unlike the others, at most `_MOST_DRAWN`."""
    return [_elevation(rows) for rows in alike(document)[:_MOST_DRAWN]]


def left_out(document: Document) -> int:
    """Return how many unlike brackets are not drawn."""
    return max(len(alike(document)) - _MOST_DRAWN, 0)


def alike(document: Document) -> list[list[Document]]:
    """Return the brackets in groups that look alike."""
    groups = selection.grouped(
        document["elevations"], lambda row: repr([row[key] for key in _SHAPE])
    )
    return list(groups.values())


def _elevation(rows: Sequence[Document]) -> Elevation:
    first, pairs = rows[0], list(_pairs(rows))
    scales = _Scales(*(_step(pairs[part]) for part in (slice(0, _TILT), slice(_TILT, None))))
    names = ", ".join(row["bracket"] for row in rows)
    drawing = Drawing(WIDE_MM, _HEIGHT_MM, f"Bracket {names} from the side")
    called = names if len(names) <= _LONGEST_NAMES else f"{first['bracket']} and others like it"
    title = shortened(f"{called}: {_what(first)}", WIDE_MM, LARGE_MM)
    signs.view_title(drawing, (0.0, 5.0), title)
    view = _view(first)
    _bracket(drawing, view, first)
    _dimensions(drawing, view, first)
    if pairs:
        _at_the_wall(drawing, view, pairs, scales)
        _chart(drawing, pairs, scales, several=len(rows) > 1)
    return Elevation(drawing.svg(), int(view.scale), names)


def _what(row: Document) -> str:
    """Return what a bracket is made of."""
    words = [f"{row['section']}{' (trial)' if row['trial'] else ''}", row["grade"], row["holds"]]
    if row["plate_m"]:
        sizes = " \N{MULTIPLICATION SIGN} ".join(figures.dimension(x) for x in row["plate_m"])
        words.append(f"plate {sizes}")
    if row["stay"]:
        words.append(f"stay {row['stay']['section']}")
    return ", ".join(filter(None, words))


def _pairs(rows: Sequence[Document]) -> Iterator[_Pair]:
    """Yield for each component the most in either sense of brackets that look alike."""
    for number, action in enumerate(rows[0]["actions"]):
        printed = figures.newtons if action["unit"] == "N" else figures.newton_metres
        low, high = (_most(rows, number, side, sign) for side, sign in ((1, -1.0), (0, 1.0)))
        yield _Pair(low, high, printed)


def _most(rows: Sequence[Document], number: int, side: int, sign: float) -> _Action:
    """Return the most in one sense, each kind by itself: two brackets may have one each."""
    characteristic, factored = (
        [max(sign * row["actions"][number][kind][side], 0.0) for row in rows]
        for kind in ("characteristic", "factored")
    )
    worst = factored.index(max(factored))
    return _Action(max(characteristic), factored[worst], str(rows[worst]["bracket"]))


def _step(pairs: Sequence[_Pair]) -> float:
    """Return how much a millimetre stands for: a round figure at which every arrow has room."""
    ends = [end for pair in pairs for end in (pair.low, pair.high)]
    most = max((max(end.characteristic, end.factored) for end in ends), default=0.0)
    if most <= 0:
        return 1.0
    power = 10.0 ** math.floor(math.log10(most / _LONGEST_MM))
    return next(step * power for step in _STEPS if most / (step * power) <= _LONGEST_MM)


def _view(row: Document) -> Viewport:
    half_m = max(row["depth_m"], (row["plate_m"] or [0.0, 0.0])[1]) / 2
    stay = row["stay"] or {"from_m": 0.0, "to_m": 0.0, "depth_m": 0.0}
    box_m = (
        0.0,
        min(-half_m, stay["from_m"] - stay["depth_m"]),
        max(row["reach_m"], stay["to_m"]),
        max(half_m, stay["from_m"] + stay["depth_m"]),
    )
    size_m = box_m[2] - box_m[0], box_m[3] - box_m[1]
    scale = standard_scale(size_m, _ROOM_MM)
    spare_mm = _ROOM_MM[1] - 1000 * size_m[1] / scale
    return Viewport(_FACE_MM, _TOP_MM + max(spare_mm, 0.0) / 2, scale, box_m)


def _bracket(drawing: Drawing, view: Viewport, row: Document) -> None:
    """Draw wall, stay, arm, plate with the levels of its holes, and where the load bears."""
    _, top, _, bottom = view.paper
    signs.wall_upright(drawing, (_FACE_MM, top - 4), (_FACE_MM, bottom + 4))
    half_m, (_, height_m, thick_m) = row["depth_m"] / 2, row["plate_m"] or (0.0, 0.0, 0.0)
    if row["stay"]:
        drawing.shape("outline", [_stay(view, row["stay"])])
    drawing.shape("outline", [_box(view, (thick_m, -half_m), (row["reach_m"], half_m))])
    if thick_m:
        drawing.shape("outline", [_box(view, (0.0, -height_m / 2), (thick_m, height_m / 2))])
    for level_m in row["hole_levels_m"]:
        x, y = view.at((thick_m, level_m))
        drawing.line("centre", (_FACE_MM - 4.5, y), (x + 3.5, y))
    x, y = view.at((row["bears_m"], half_m))
    drawing.shape("solid", [((x, y), (x - 1.1, y - 2.4), (x + 1.1, y - 2.4))])


def _box(view: Viewport, low: Spot, high: Spot) -> list[Spot]:
    corners = (low, (high[0], low[1]), high, (low[0], high[1]))
    return [view.at(corner) for corner in corners]


def _stay(view: Viewport, stay: Document) -> list[Spot]:
    """Return the outline of a stay between its two points."""
    out_m, up_m = stay["to_m"], -stay["from_m"]
    length_m = math.hypot(out_m, up_m)
    off = tuple(stay["depth_m"] / 2 / length_m * way for way in (-up_m, out_m))
    ends = ((0.0, stay["from_m"]), (out_m, 0.0))
    (a, b), (c, d) = ends
    return [
        view.at(point)
        for point in (
            (a + off[0], b + off[1]), (c + off[0], d + off[1]),
            (c - off[0], d - off[1]), (a - off[0], b - off[1]),
        )
    ]  # fmt: skip


def _dimensions(drawing: Drawing, view: Viewport, row: Document) -> None:
    _, _, right, bottom = view.paper
    words = figures.dimension
    outs_m = {row["bears_m"], row["reach_m"], *([row["stay"]["to_m"]] if row["stay"] else [])}
    level = bottom + 5.5
    for out_m in sorted(outs_m):
        signs.dimension_across(
            drawing, (_FACE_MM, bottom + 3), view.at((out_m, -row["depth_m"] / 2)), level,
            words(out_m),
        )  # fmt: skip
        level += 5.0
    if row["stay"]:
        root, end = view.at((0.0, 0.0)), view.at((0.0, row["stay"]["from_m"]))
        signs.dimension_upright(
            drawing, (right, root[1]), (right, end[1]), right + 6, words(abs(row["stay"]["from_m"]))
        )


def _at_the_wall(drawing: Drawing, view: Viewport, pairs: Sequence[_Pair], scales: _Scales) -> None:
    """Draw what acts in the plane of the view at the wall face, the larger sense of each."""
    level = view.at((0.0, 0.0))[1]
    for kind, off_mm in (("characteristic", -_APART_MM / 2), ("factored", _APART_MM / 2)):
        long_mm, outwards = _larger(pairs[_OUT], kind, scales.force)
        ends = ((_LEVEL_MM - long_mm, level + off_mm), (_LEVEL_MM, level + off_mm))
        _arrow(drawing, *(ends if outwards else ends[::-1]), kind)
        long_mm, upwards = _larger(pairs[_UP], kind, scales.force)
        across = _UPRIGHT_MM + off_mm * 0.6
        _arrow(drawing, (across, level), (across, level + (-long_mm if upwards else long_mm)), kind)
    upright_mm, upwards = _larger(pairs[_UP], "factored", scales.force)
    beyond_mm = max(upright_mm, 2 * _APART_MM)
    told = level - beyond_mm if upwards else level + beyond_mm + TINY_MM / 3
    _tell(drawing, (_UPRIGHT_MM - 2.8, told), pairs[_UP], _UP)
    _tell(drawing, (_LEVEL_MM, level + (2 if upwards else -1) * _APART_MM), pairs[_OUT], _OUT)
    long_mm, clockwise = _larger(pairs[_TILT], "factored", scales.moment)
    if long_mm > 2 * _HEAD_MM:
        radius_mm = long_mm / math.radians(_ARC_DEG)
        signs.turning(drawing, (_ARC_MM, _TOP_MM), radius_mm, 1.0 if clockwise else -1.0)
        drawing.text((_ARC_MM + 6.0, _TOP_MM - 2), _larger_words(pairs[_TILT], _TILT), "tiny")


def _tell(drawing: Drawing, spot: Spot, pair: _Pair, number: int) -> None:
    drawing.text(spot, _larger_words(pair, number), "end tiny")


def _larger_words(pair: _Pair, number: int) -> str:
    """Return the larger sense of a component with partial factors: "pull-out 6.65 kN"."""
    high = pair.high.factored >= pair.low.factored
    name = "" if number == _TILT else f"{_NAMES[number][high]} "
    return f"{name}{pair.printed((pair.high if high else pair.low).factored)}"


def _larger(pair: _Pair, kind: str, per_mm: float) -> tuple[float, bool]:
    """Return how long the arrow of the larger sense is, and whether that is the higher one."""
    low, high = (getattr(end, kind) for end in (pair.low, pair.high))
    return max(low, high) / per_mm, high >= low


def _arrow(drawing: Drawing, tail: Spot, tip: Spot, kind: str) -> None:
    """Draw an arrow: wide and filled with partial factors, narrow without."""
    length_mm = math.dist(tail, tip)
    if length_mm < _SHORTEST_MM:
        return
    wide = kind == "factored"
    drawing.line("force" if wide else "force narrow", tail, tip)
    size = min(1.2 if wide else 0.8, length_mm / _HEAD_MM)
    signs.head(drawing, tip, tail, "force solid", size)


def _chart(drawing: Drawing, pairs: Sequence[_Pair], scales: _Scales, *, several: bool) -> None:
    """Draw all six components as arrows from a line of nought, with their figures."""
    for number, pair in enumerate(pairs):
        at = (_COLUMNS_MM[number // _TILT], _FIRST_ROW_MM + _ROW_MM * (number % _TILT))
        drawing.line("narrow", (at[0], at[1] - 4.6), (at[0], at[1] + 4.4))
        for end, sense in ((pair.low, -1), (pair.high, 1)):
            anchor = "start" if sense > 0 else "end"
            drawing.text((at[0] + 1.4 * sense, at[1] - 2.6), _NAMES[number][sense > 0],
                         f"{anchor} tiny")  # fmt: skip
            for kind, down_mm in (("characteristic", 0.0), ("factored", _APART_MM)):
                value, y = getattr(end, kind), at[1] + down_mm
                tip = at[0] + sense * value / scales.of(number)
                _arrow(drawing, (at[0], y), (tip, y), kind)
                named = f" {end.bracket}" if several and down_mm and value > 0 else ""
                words = f"{pair.printed(value)}{named}" if value > 0 else "none"
                drawing.text((tip + 1.4 * sense, y + 0.9), words, f"{anchor} tiny")
    foot = _FIRST_ROW_MM + _ROW_MM * _TILT - 4.0
    for across, words in zip(
        _COLUMNS_MM,
        (
            f"forces: 1 mm of arrow is {figures.newtons(scales.force)}",
            f"moments: 1 mm of arrow is {figures.newton_metres(scales.moment)}",
        ),
        strict=True,
    ):
        drawing.text((across, foot), words, "middle tiny")


def sign_key() -> Markup:
    """Return the signs of forces and moments, drawn once: three views of a bracket."""
    drawing = Drawing(WIDE_MM, 37.0, "Signs of forces and moments on the wall")
    views: Sequence[tuple[float, str, str, str, str, float]] = (
        (0.0, "from the street", "up: uplift", "across: to the right", "about out", -1.0),
        (82.0, "from the left", "up: uplift", "out: pull-out", "about across", 1.0),
        (164.0, "from above", "", "across: to the right", "about up", -1.0),
    )
    for left, seen, upright, level, about, clockwise in views:
        _sign(drawing, left, (seen, upright, level, about), clockwise)
    return drawing.svg()


def _sign(drawing: Drawing, left: float, words: Sequence[str], clockwise: float) -> None:
    """Draw one view of a bracket's plate with the forces and the moment that show in it."""
    seen, upright, level, about = words
    x, y = left + 14.0, 19.0
    half, thin = 5.0, 1.5
    if seen == "from the left":
        signs.wall_upright(drawing, (x, y - 10), (x, y + 10))
        _plate(drawing, (x, y - half), (x + thin, y + half))
    elif seen == "from above":
        signs.wall_across(drawing, (x - 10, y), (x + 10, y))
        _plate(drawing, (x - half, y), (x + half, y + thin))
    else:
        _plate(drawing, (x - half, y - half), (x + half, y + half))
    signs.turning(drawing, (x, y), 8.0, clockwise)
    drawing.text((x + 9.5, y - 6.5), f"{about} +")
    signs.force(drawing, (x + 2, y), (x + 19, y))
    drawing.text((x + 20.5, y + 1.0), level)
    way = -1 if upright else 1
    signs.force(drawing, (x, y + 2 * way), (x, y + 15 * way))
    drawing.text((x + 2.0, y + (15.0 if way > 0 else -13.2)), upright or "out: pull-out")
    drawing.text((x + 9.5, y + 9.0), seen, "tiny")


def _plate(drawing: Drawing, low: Spot, high: Spot) -> None:
    drawing.shape("outline", [(low, (high[0], low[1]), high, (low[0], high[1]))])
