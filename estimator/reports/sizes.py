"""The job larger and smaller: one table of figures by size, and one picture of how they grow."""

from collections.abc import Callable, Iterator, Sequence
from typing import Any, NamedTuple

from markupsafe import Markup

from estimator.reports import figures, signs
from estimator.reports.charts import WIDE_MM
from estimator.reports.document import Document
from estimator.reports.drawing import SMALL_MM, TINY_MM, Drawing, Spot, text_box

AS_DRAWN = 1.0
NOT_TOLD = "\N{EN DASH}"
"""Printed where no power of the size can be said."""
_PANELS = 3
_HEIGHT_MM = 54.0
_HEAD_MM = 11.0
_FOOT_MM = 9.0
_LEFT_MM, _RIGHT_MM = 5.0, 11.0
"""Beside the first and the last size: half a number, and the names of the powers."""
_TICK_MM = 1.6
_HEADED_MM = 5.0
"""A shorter range line is drawn without arrow heads."""
_POWERS = (2, 3)
"""Powers of the size that are drawn for comparison: of a skin, and of a solid."""
_CURVE_STEPS = 24

_Line = Document


class Row(NamedTuple):
    """One figure at every size, as printed, and the power of the size it follows."""

    words: str
    cells: tuple[str, ...]
    power: str


class Point(NamedTuple):
    """A figure at one size: its range, which may be of no length, and what is likely."""

    times: float
    low: float
    likely: float
    high: float


class Panel(NamedTuple):
    """One of the small drawings.

    Attributes:
        title: What grows.
        power: The power of the size it follows, as printed.
        points: In rising order of size.
        printed: How a number is printed.
        kind: Line it is drawn in.
        ends: Whether the ends of the ranges are printed, not what is likely.
    """

    title: str
    power: str
    points: Sequence[Point]
    printed: Callable[[float], str]
    kind: str = "narrow"
    ends: bool = False


def heading(line: _Line) -> str:
    """Return what a size is called."""
    return "as drawn" if line["times"] == AS_DRAWN else f"\N{MULTIPLICATION SIGN} {line['times']:g}"


def rows(document: Document) -> list[Row]:
    """Return the figures of the whole job at every size; none of a job without parts."""
    if not document["sizes"]["lines"]:
        return []
    return [*_of_the_whole(document), *_of_the_brackets(document), *_of_the_money(document)]


def _of_the_whole(document: Document) -> Iterator[Row]:
    lines = document["sizes"]["lines"]
    yield _row(document, "mass, likely", "mass_kg", figures.kilograms)
    yield _row(document, "one time in twenty lower", "low_kg", figures.kilograms)
    yield _row(document, "one time in twenty higher", "high_kg", figures.kilograms)
    for axis, words in enumerate(("across", "up", "out")):
        cells = tuple(figures.millimetres(line["cg_m"][axis]) for line in lines)
        yield Row(f"centre of gravity from the datum, {words}", cells, "")
    yield _row(document, "skin area of what is made, one face", "skin_area_m2", _square_metres)
    if _told(document, "wind_n"):
        yield _row(document, "largest wind force on everything together", "wind_n", figures.newtons)
        words = f"largest wind force on one assembly, {_windiest(lines)}"
        yield _row(document, words, "windiest_n", figures.newtons)


def _windiest(lines: Sequence[_Line]) -> str:
    """Return which assemblies have the largest wind force, at whatever size."""
    return " or ".join(dict.fromkeys(line["windiest"] for line in lines if line["windiest"]))


def _of_the_brackets(document: Document) -> Iterator[Row]:
    lines, growth = document["sizes"]["lines"], document["sizes"]["growth"]
    for number, pull in enumerate(growth["pulls"]):
        for words, key, printed in (
            ("pull-out of a bracket", "pull_out_n", figures.newtons),
            ("moment about across, which pulls the top fixings", "moment_nm",
             figures.newton_metres),
        ):  # fmt: skip
            cells = tuple(printed(line["pulls"][number][key]) for line in lines)
            yield Row(f"largest {words}, set {pull['set']}", cells, _power(pull[key]))


def _of_the_money(document: Document) -> Iterator[Row]:
    currency = document["cost"]["currency"]

    def money(amount: float) -> str:
        """Return an amount in the currency of the job."""
        return figures.money(amount, currency)

    for words, key, printed in (
        ("materials and bought-in parts", "material_cost", money),
        ("order lines without a price, not in it", "unpriced", figures.fixed),
        ("likely person-hours, as listed", "hours_listed", figures.fixed),
        ("likely person-hours, by skin area", "hours_by_skin", figures.fixed),
        ("price, mean, hours as listed", "price_listed", money),
        ("price, mean, hours by skin area", "price_by_skin", money),
    ):
        if _told(document, key):
            yield _row(document, words, key, printed)


def _told(document: Document, key: str) -> bool:
    """Return whether a figure is more than nought at any size."""
    return any(line[key] for line in document["sizes"]["lines"])


def _row(document: Document, words: str, key: str, printed: Callable[[Any], str]) -> Row:
    """Return a figure at every size; the power of the size only of figures that have one."""
    sizes = document["sizes"]
    power = _power(sizes["growth"][key]) if key in sizes["growth"] else ""
    return Row(words, tuple(printed(line[key]) for line in sizes["lines"]), power)


def _power(power: float | None) -> str:
    return NOT_TOLD if power is None else figures.fixed(power, 1)


def _square_metres(area_m2: float) -> str:
    return figures.square_metres(area_m2)


def growth_lines(document: Document) -> Markup | None:
    """Return mass, wind force and price against size, side by side; None when there are no sizes.

    Each has its own upright axis from nought; the dashed lines are what a pure skin (power 2) and a
    pure solid (power 3) would do.
    """
    panels = [panel for panel in _panels(document) if any(p.high > 0 for p in panel.points)]
    if not panels or len(panels[0].points) == 1:
        return None
    width_mm = WIDE_MM / _PANELS
    title = "Mass, wind force and price against size"
    drawing = Drawing(width_mm * len(panels), _HEIGHT_MM, title)
    for number, panel in enumerate(panels):
        _paint(drawing, panel, number * width_mm, (number + 1) * width_mm)
    return drawing.svg()


def _panels(document: Document) -> Iterator[Panel]:
    lines, growth = document["sizes"]["lines"], document["sizes"]["growth"]
    if not lines:
        return
    yield Panel(
        f"mass, {figures.head('kg')}",
        _power(growth["mass_kg"]),
        [Point(x["times"], x["low_kg"], x["mass_kg"], x["high_kg"]) for x in lines],
        figures.mass,
    )
    yield Panel(
        f"wind force on everything, {figures.head('kN')}",
        _power(growth["wind_n"]),
        [Point(x["times"], *[(x["wind_n"] or 0.0) / 1000] * 3) for x in lines],
        lambda force_kn: figures.bare(force_kn, "kN"),
        "force",
    )
    low, high = _power(growth["price_listed"]), _power(growth["price_by_skin"])
    yield Panel(
        f"price, {document['cost']['currency']}",
        low if low == high else f"{low} to {high}",
        [Point(x["times"], *_ends(x)) for x in lines],
        figures.money,
        ends=True,
    )


def _ends(line: _Line) -> tuple[float, float, float]:
    """Return the lower price, the one with hours as listed, and the higher one."""
    listed, by_skin = line["price_listed"], line["price_by_skin"]
    return min(listed, by_skin), listed, max(listed, by_skin)


class _Axes(NamedTuple):
    """Where sizes and values lie on the paper."""

    left_mm: float
    foot_mm: float
    per_size_mm: float
    per_value_mm: float
    first: float

    def at(self, times: float, value: float) -> Spot:
        """Return the spot of a size and a value."""
        x = self.left_mm + (times - self.first) * self.per_size_mm
        return x, self.foot_mm - value * self.per_value_mm


def _paint(drawing: Drawing, panel: Panel, left_mm: float, right_mm: float) -> None:
    """Draw one figure against size between two edges of the paper."""
    first, last = panel.points[0].times, panel.points[-1].times
    drawn = next(point.likely for point in panel.points if point.times == AS_DRAWN)
    most = max(drawn * last ** _POWERS[-1], *(point.high for point in panel.points))
    axes = _Axes(
        left_mm + _LEFT_MM,
        _HEIGHT_MM - _FOOT_MM,
        (right_mm - left_mm - _LEFT_MM - _RIGHT_MM) / (last - first),
        (_HEIGHT_MM - _FOOT_MM - _HEAD_MM) / most,
        first,
    )
    words = f"{panel.title}: as size to the power {panel.power}"
    drawing.text((left_mm, SMALL_MM), words if panel.power != NOT_TOLD else panel.title)
    for power in _POWERS:
        steps = [first + i * (last - first) / _CURVE_STEPS for i in range(_CURVE_STEPS + 1)]
        drawing.line("hidden", *(axes.at(times, drawn * times**power) for times in steps))
        x, y = axes.at(last, drawn * last**power)
        drawing.text((x + 5.5, y + TINY_MM / 3), f"size{'²³'[power - 2]}", "tiny")
    for spot, figure in _figures(panel, axes):
        # The lines of comparison stop short of a figure.
        left, top, right, bottom = text_box(spot, figure, TINY_MM, "middle")
        drawing.shape("area", [((left, top), (right, top), (right, bottom), (left, bottom))])
        drawing.text(spot, figure, "middle tiny")
    drawing.line("narrow", axes.at(first, 0), axes.at(last, 0))
    drawing.line(panel.kind, *(axes.at(point.times, point.likely) for point in panel.points))
    for point in panel.points:
        _range(drawing, panel, point, axes)


def _range(drawing: Drawing, panel: Panel, point: Point, axes: _Axes) -> None:
    """Draw the range of one size as an upright dimensioned line, its size at the foot."""
    low, likely, high = (axes.at(point.times, v) for v in (point.low, point.likely, point.high))
    foot = axes.at(point.times, 0)
    drawing.line("narrow", foot, (foot[0], foot[1] + 1))
    drawing.text((foot[0], foot[1] + 1 + SMALL_MM), f"{point.times:g}", "middle")
    if low[1] - high[1] > 0:
        drawing.line("narrow", low, high)
    if low[1] - high[1] > _HEADED_MM:
        signs.head(drawing, low, high)
        signs.head(drawing, high, low)
    kind = "wide" if panel.kind == "narrow" else panel.kind
    drawing.line(kind, (likely[0] - _TICK_MM, likely[1]), (likely[0] + _TICK_MM, likely[1]))


def _figures(panel: Panel, axes: _Axes) -> Iterator[tuple[Spot, str]]:
    """Yield where the figures of a panel are written, and what they are."""
    for point in panel.points:
        low, high = axes.at(point.times, point.low), axes.at(point.times, point.high)
        above = (high[0], high[1] - 1)
        if panel.ends and point.high > point.low:
            yield (low[0], low[1] + 1 + TINY_MM), panel.printed(point.low)
            yield above, panel.printed(point.high)
        else:
            yield above, panel.printed(point.likely)
