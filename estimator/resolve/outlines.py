"""Parts whose form is a flat outline in a drawing: from its row to what it measures."""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from estimator.core.problems import Problem, Severity
from estimator.files.curves import METRES, Drawing, lines
from estimator.files.drawings import read_dxf
from estimator.files.shelf import FileError, Found, Shelf
from estimator.files.svg import read_svg
from estimator.geometry.joining import JOIN_M
from estimator.geometry.measures import Floats
from estimator.geometry.models import Model
from estimator.geometry.outlines import Traced, outline_measures, perimeter_m, traced
from estimator.resolve.doubts import LIKELY_M, SIZE_DIFFERS, Doubt, problems_of
from estimator.resolve.names import refusal
from estimator.resolve.records import Layer, Modelled
from estimator.sheets.columns import FILE_UNITS
from estimator.sheets.rows import Row

READERS: Mapping[str, Callable[[Found], Drawing]] = {".dxf": read_dxf, ".svg": read_svg}
"""Kinds of drawing that are read, by the end of their name."""
CHORD_M = 1e-4
"""Straight lines stay this close to the curves they follow, full size: program default."""
DOTS = "px"
"""Unit of a drawing that does not say how large it is, where CSS has 96 to the inch."""
NARROWEST_M = 1e-3
"""Metal that is narrower than this on the average is asked about: program default, no source."""
_MOST_TOLD = 3
_LOOK = "look at it in the program it was drawn with"
_SIDES = ("length", "width")
_PLACES: Mapping[str, int] = {"m": 5, "ft": 5, "cm": 3, "in": 4}
"""Decimals of a coordinate, where it is not two."""
_MM_M = 1000


class _Read(NamedTuple):
    """A drawing as its row says it is to be taken.

    Attributes:
        found: The file.
        drawing: What it shows.
        unit: In which its coordinates are said.
        unit_m: Length of one unit of its coordinates, as drawn.
        scale: Full size is so many times as large.
    """

    found: Found
    drawing: Drawing
    unit: str
    unit_m: float
    scale: float

    @property
    def metres(self) -> float:
        """Return the full size of one unit of the coordinates."""
        return self.unit_m * self.scale

    @property
    def said(self) -> str:
        """Return how it is taken: "mm at 1:10"."""
        return f"{self.unit} at 1:{self.scale:g}"

    def taken_as(self, unit: str) -> "_Read":
        """Return the same drawing with its coordinates in a unit."""
        return self._replace(unit=unit, unit_m=METRES[unit])

    def size(self) -> str:
        """Return how large what it shows is at full size."""
        points = np.concatenate(lines(self.drawing.paths, math.inf))
        return _by(self.metres * np.ptp(points, axis=0))

    def place(self, at_m: Floats) -> str:
        """Return where a point is in the drawing."""
        x, y = at_m / (self.scale * METRES[self.unit])
        digits = _PLACES.get(self.unit, 2)
        return f"({x:.{digits}f}, {(-y if self.drawing.falls else y) + 0.0:.{digits}f})"

    def places(self, points_m: Sequence[Floats]) -> str:
        """Return where the first few of some points are."""
        told = [self.place(at_m) for at_m in points_m[:_MOST_TOLD]]
        more = " and elsewhere" if len(points_m) > _MOST_TOLD else ""
        down = ", y downwards" if self.drawing.falls else ""
        return f"{', '.join(told)}{more} ({self.unit} in the drawing{down})"


def outline_model(
    row: Row, shelf: Shelf, layers: tuple[Layer, ...], problems: list[Problem]
) -> Modelled | None:
    """Return the model of a part from its drawing; None, with a problem, when there is none.

    Args:
        row: Its row of the parts sheet.
        shelf: Where the files of the job lie.
        layers: What the part is made of; an outline has no thickness whatever that is.
        problems: What is found wrong is added here.
    """
    del layers
    try:
        read = _read(row, shelf)
        drawn = shelf.kept(
            ("outline", read.found.sha256, read.found.suffix, read.metres), lambda: _drawn(read)
        )
    except FileError as error:
        field = "file_unit" if isinstance(error, _NoUnitError) else "file"
        problems.append(refusal(row, field, error.found, error.expected, error.advice))
        return None
    doubts = [*_faults(read, drawn), *_doubts(row, read, drawn)]
    problems += problems_of(row, doubts)
    if any(doubt.severity is Severity.REFUSED for doubt in doubts):
        return None
    return Modelled(
        key=f"{read.found.name}, {read.said}",
        shape="outline",
        model=Model(outline_measures(drawn.outline), outline=drawn.outline),
        file=read.found.name,
        sha256=read.found.sha256,
        scale=read.scale,
        unit=read.unit,
        facts=tuple(_facts(row, read, drawn)),
    )


class _NoUnitError(FileError):
    """A drawing without a unit: its row can give one."""


def _read(row: Row, shelf: Shelf) -> _Read:
    """Return what the drawing of a row shows, and how it is to be taken.

    Raises:
        FileError: It cannot be read, shows nothing, or has no unit.
    """
    found = shelf.find(row.text("file"), tuple(READERS))
    key = ("drawing", found.sha256, found.suffix)
    drawing = shelf.kept(key, lambda: _of_file(found))
    read = _Read(found, drawing, drawing.unit, drawing.unit_m, row.number("scale", 1.0))
    typed = row.text("file_unit")
    if typed and typed != drawing.unit:
        return read.taken_as(typed)
    if math.isnan(read.unit_m):
        raise _no_unit(read)
    return read


def _of_file(found: Found) -> Drawing:
    """Return what a drawing shows; what is wrong with it is said with its name.

    Raises:
        FileError: It cannot be read, or shows nothing.
    """
    try:
        drawing = READERS[found.suffix](found)
    except FileError as error:
        words = f"{found.name} cannot be used: {error.found}"
        raise FileError(words, error.expected, error.advice) from error
    if not drawing.paths:
        aside = f"; left aside: {_aside(drawing)}" if drawing.aside else ""
        words = f"{found.name} shows no lines{aside}"
        raise FileError(words, "an outline", _LOOK)
    return drawing


def _no_unit(read: _Read) -> FileError:
    sizes = [f"{read.taken_as(unit).size()} in {unit}" for unit in FILE_UNITS]
    return _NoUnitError(
        f"{read.found.name} does not say in which unit it is drawn",
        f"one of: {', '.join(FILE_UNITS)}",
        f"at 1:{read.scale:g} it would be {', '.join(sizes)}",
    )


def _drawn(read: _Read) -> Traced:
    """Return the shape of a drawing at full size.

    Raises:
        FileError: It cannot be followed.
    """
    try:
        drawn = lines(read.drawing.paths, CHORD_M / read.metres)
        return traced([read.metres * line for line in drawn])
    except FileError as error:
        words = f"{read.found.name} cannot be used: {error.found}"
        raise FileError(words, error.expected, error.advice) from error
    except ValueError as error:
        words = f"{read.found.name} cannot be used: its {error}"
        raise FileError(words, "an outline, its holes, and islands in them", _LOOK) from error


def _faults(read: _Read, drawn: Traced) -> Iterator[Doubt]:
    """Yield why a drawing encloses no shape."""
    name, refused = read.found.name, Severity.REFUSED
    if len(drawn.junctions_m):
        words = f"more than two lines of {name} end at {read.places([*drawn.junctions_m])}"
        advice = "take out lines that are not part of the outline"
        yield Doubt(words, "lines that go on from one to the next", advice, severity=refused)
    if drawn.gaps:
        gap = drawn.gaps[0]
        words = f"{name} is open: a line ends at {read.place(gap.at_m)}"
        if gap.size_m:
            words += f", {_length(gap.size_m)} at full size from one that ends at "
            words += read.places([gap.next_m])
        if len(drawn.gaps) > 1:
            words += f"; there are {len(drawn.gaps) - 1} more such gaps"
        wanted = f"lines that meet end to end within {_length(JOIN_M)}"
        yield Doubt(words, wanted, "join the ends in the drawing", severity=refused)
    for itself, what in ((True, "a loop of {} meets itself"), (False, "loops of {} meet")):
        points = [meeting.at_m for meeting in drawn.meetings if meeting.itself is itself]
        if points:
            words = f"{what.format(name)} at {read.places(points)}"
            advice = "unite the shapes in the drawing, or take out the one that is too much"
            wanted = "loops that neither cross nor touch"
            yield Doubt(words, wanted, advice, severity=refused)
    if drawn.outline.is_empty and not (len(drawn.junctions_m) or drawn.gaps or drawn.meetings):
        words = f"the lines of {name} enclose nothing"
        yield Doubt(words, "a closed outline", "look at its scale and its unit", severity=refused)


def _doubts(row: Row, read: _Read, drawn: Traced) -> Iterator[Doubt]:
    """Yield what should be looked at in a drawing."""
    name, drawing = read.found.name, read.drawing
    if read.unit == DOTS:
        words = f"{name} does not say how large it is; 96 {DOTS} to the inch make it {read.size()}"
        advice = "some programs count 72: type a unit, or save it with its width in mm"
        yield Doubt(words, "a drawing with its size in mm", advice, "file_unit")
    elif drawing.unit not in ("", DOTS, read.unit):
        own = read._replace(unit=drawing.unit, unit_m=drawing.unit_m).size()
        words = f"{name} is in {drawing.unit}, which makes it {own}; {read.unit} makes it "
        advice = f"{read.unit} was used, as the row says; look at the size"
        yield Doubt(words + read.size(), drawing.unit, advice, "file_unit")
    if drawn.doubled:
        words = f"{_many(drawn.doubled, 'line')} of {name} drawn twice"
        yield Doubt(words, "each line once", "it counts once; take the second one out")
    if len(drawn.slivers_m):
        at = read.places([*drawn.slivers_m])
        words = f"{_many(len(drawn.slivers_m), 'loop')} of {name} narrower than "
        yield Doubt(f"{words}{_length(JOIN_M)}, at {at}", "", "it does not count; take it out")
    yield from (Doubt(f"{name}: {note}".rstrip("."), "", _LOOK) for note in drawing.notes)
    if drawing.aside:
        yield Doubt(f"{name}: left aside: {_aside(drawing)}", "", "", severity=Severity.NOTE)
    if not drawn.outline.is_empty:
        yield from _sizes(row, read, _box_m(drawn))
        width_m = 2 * drawn.outline.area / perimeter_m(drawn.outline)
        if width_m < NARROWEST_M:
            words = f"what {name} encloses is {_length(width_m)} wide on the average"
            advice = "if it shows both edges of a pen stroke, take one of them out"
            yield Doubt(words, f"metal wider than {_length(NARROWEST_M)}", advice)


def _sizes(row: Row, read: _Read, box_m: Floats) -> Iterator[Doubt]:
    """Yield what is odd about the size of an outline."""
    shortest_m, furthest_m = LIKELY_M
    if not shortest_m <= box_m.max() <= furthest_m:
        found = f"{read.found.name} is {_by(box_m)} at full size, taken as {read.said}"
        wanted = f"a thing of {_length(shortest_m)} to {_length(furthest_m)}"
        yield Doubt(found, wanted, "look whether the unit and the scale are right", "file_unit")
    for side, axis, own_m in zip(_SIDES, "xy", box_m.tolist(), strict=True):
        typed_m = row.number(side)
        if abs(typed_m - own_m) > SIZE_DIFFERS * typed_m:
            found = (
                f"the {side} is typed as {_length(typed_m)}, and {read.found.name} is "
                f"{_length(own_m)} along its {axis}, taken as {read.said}"
            )
            advice = "the drawing was used; look at its scale, its unit and its axes"
            yield Doubt(found, f"the same within {100 * SIZE_DIFFERS:g} %", advice, side)


def _facts(row: Row, read: _Read, drawn: Traced) -> Iterator[str]:
    """Yield what there is to say of an outline, as sentences."""
    outline, drawing = drawn.outline, read.drawing
    holes = sum(len(polygon.interiors) for polygon in outline.geoms)
    scale = f"1:{read.scale:g}" if row.has("scale") else f"1:{read.scale:g} as no scale is given"
    whose = "from the file" if read.unit == drawing.unit else "as typed"
    whose = "of which 96 are taken to the inch" if read.unit == DOTS else whose
    pierced = f" with {_many(holes, 'hole')}" if holes else ""
    yield (
        f"{read.found.name}: {_many(len(outline.geoms), 'outline')}"
        f"{pierced}, {scale}, {read.unit} {whose}; {_by(_box_m(drawn))}; {outline.area:.4g} m2, "
        f"{_length(perimeter_m(outline))} round; curves to within {_length(CHORD_M)}."
    )
    size, unit = _shown_in(_box_m(drawn))
    low_x, low_y, high_x, high_y = (edge / size for edge in outline.bounds)
    yield (
        f"From the origin of the file it reaches {low_x:.4g} to {high_x:.4g} {unit} along and "
        f"{low_y:.4g} to {high_y:.4g} {unit} beside."
    )
    if drawn.bridged:
        yield (f"{_many(drawn.bridged, 'gap')} bridged, {_length(drawn.widest_m)} at the widest, "
               "full size.")  # fmt: skip
    if drawn.doubled:
        yield f"{_many(drawn.doubled, 'line')} drawn twice, and counted once."
    if len(drawn.slivers_m) or drawn.dots:
        yield (f"Left aside as too small to count: {_many(len(drawn.slivers_m), 'loop')} and "
               f"{_many(drawn.dots, 'dot')}.")  # fmt: skip
    if drawing.aside:
        yield f"Left aside: {_aside(drawing)}."
    yield from drawing.notes


def _box_m(drawn: Traced) -> Floats:
    low_x, low_y, high_x, high_y = drawn.outline.bounds
    return np.array([high_x - low_x, high_y - low_y])


def _aside(drawing: Drawing) -> str:
    """Return what was left aside: "3 x text, 1 x hatch"."""
    return ", ".join(f"{count} x {kind}" for kind, count in drawing.aside.items())


def _many(count: int, noun: str) -> str:
    return f"{count:,} {noun}{'' if count == 1 else 's'}"


def _length(length_m: float) -> str:
    """Return a length to four digits, in millimetres below a metre."""
    return f"{length_m:.4g} m" if length_m >= 1 else f"{_MM_M * length_m:.4g} mm"


def _by(box_m: Floats) -> str:
    """Return two lengths: "1.204 x 0.655 m"."""
    size, unit = _shown_in(box_m)
    along, beside = (box_m / size).tolist()
    return f"{along:.4g} x {beside:.4g} {unit}"


def _shown_in(box_m: Floats) -> tuple[float, str]:
    """Return the unit that all sizes of a thing are told in, in metres, and its name."""
    return (1.0, "m") if box_m.max() >= 1 else (1 / _MM_M, "mm")
