"""Path data and transforms of SVG, read letter by letter.

References:
    [SVG] W3C Recommendation Scalable Vector Graphics (SVG) 1.1, second edition, 2011: 8.3 path
    data, 7.6 the transform attribute, appendix F.6 elliptical arcs. Clauses from memory.
"""

import cmath
import math
import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np

from estimator.files.curves import (
    FARTHEST,
    MOST_POINTS,
    TOO_MANY_POINTS,
    UNMEASURABLE,
    Arc,
    Curve,
    Floats,
    Path,
    Points,
    joined_cubics,
)
from estimator.files.shelf import FileError, shown

_NUMBER = r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
_NUMBERS = re.compile(_NUMBER)
_GAP = r"[\s,]*+"
_ONE = rf"((?>{_NUMBER})){_GAP}"  # never taken apart again: a text of digits stays cheap to refuse
_ARC = re.compile(rf"{_GAP}{_ONE}{_ONE}{_ONE}([01]){_GAP}([01]){_GAP}{_ONE}{_ONE}")
_COMMANDS = re.compile(r"([MmZzLlHhVvCcSsQqTtAa])([^MmZzLlHhVvCcSsQqTtAa]*)")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
"""Numbers after each command."""
_TRANSFORM = re.compile(r"[\s,]*+([A-Za-z]++)\s*+\(([^()]*+)\)[\s,]*+")
_NOWHERE = 1e-100
"""Share of its radius that an arc must lead anywhere by."""
_BLANKS = " \t\r\n\f,"

Rows: TypeAlias = Sequence[Sequence[float]]


def plain_numbers(text: str) -> list[float]:
    """Return the numbers of a text, parted by blanks and commas.

    Raises:
        FileError: Something else is in it.
    """
    if _NUMBERS.sub(" ", text).strip(_BLANKS):
        raise unreadable(text)
    return _measurable(_NUMBERS.findall(text))


def _measurable(words: Iterable[str]) -> list[float]:
    numbers = [float(word) for word in words]
    if not all(abs(number) < FARTHEST for number in numbers):
        raise FileError(*UNMEASURABLE)
    return numbers


def _in_turn(pattern: re.Pattern[str], text: str) -> Iterator[re.Match[str]]:
    """Yield what matches, one right after the other, to the end of a text.

    Raises:
        FileError: Something else is in it.
    """
    read = 0
    while read < len(text):
        match = pattern.match(text, read)
        if match is None:
            raise unreadable(text[read:])
        yield match
        read = match.end()


def path_of(data: str) -> tuple[Path, ...]:
    """Return path data as paths, one for each time the pen was put down.

    Args:
        data: The attribute d.

    Raises:
        FileError: It is not path data, or there is far too much of it.
    """
    if data.count("M") + data.count("m") == 0:
        if data.strip(_BLANKS) not in ("", "none"):
            raise unreadable(data)
        return ()
    pen = _Pen()
    read = 0
    for match in _COMMANDS.finditer(data):
        if data[read : match.start()].strip(_BLANKS) or (not pen.steps and match[1] not in "Mm"):
            raise unreadable(data)
        pen.follow(match[1], _rows(match[1], match[2]))
        read = match.end()
    pen.lift()
    return tuple(pen.paths)


def _rows(command: str, text: str) -> Rows:
    """Return the numbers of a command, in rows of as many as it takes."""
    if command in "Aa":
        found = [_measurable(match.groups()) for match in _in_turn(_ARC, text)]
        if not found:
            raise unreadable(command)
        return found
    numbers, size = plain_numbers(text), _TAKES[command.upper()]
    if not size:
        if numbers:
            raise unreadable(command + text)
        return [[]]
    if not numbers or len(numbers) % size:
        raise unreadable(command + text)
    return [numbers[i : i + size] for i in range(0, len(numbers), size)]


def unreadable(text: str) -> FileError:
    """Return why a drawing cannot be used that has this in it."""
    return FileError(
        f"{shown(text.strip())} in it cannot be read",
        "path data, transforms and lengths as SVG has them",
        "open the drawing where it was made, and save it again",
    )


@dataclass
class _Pen:
    """A pen that follows commands. Points are complex numbers, y down as in the file.

    Attributes:
        at: Where it is.
        start: Where the path began.
        handle: Last control point of the last curve, for one that goes on smoothly.
        kind: Letter of the last curve.
        steps: Commands followed so far.
        path: Curves of the path being drawn.
        run: Points, or control points, of the curve being drawn.
        bent: Whether `run` holds control points.
        paths: Those that are done.
    """

    at: complex = 0j
    start: complex = 0j
    handle: complex = 0j
    kind: str = ""
    steps: int = 0
    path: list[Curve] = field(default_factory=list)
    run: list[complex] = field(default_factory=list)
    bent: bool = False
    paths: list[Path] = field(default_factory=list)

    def follow(self, command: str, rows: Rows) -> None:
        """Draw what one command says, row by row of its numbers."""
        letter = command.upper()
        for row in rows:
            self.steps += 1
            if self.steps > MOST_POINTS:
                raise FileError(*TOO_MANY_POINTS)
            origin = self.at if command.islower() else 0j
            _DRAWS[letter](self, row, origin)
            self.kind = letter
            letter = "L" if letter == "M" else letter

    def line_to(self, end: complex) -> None:
        """Draw a straight line."""
        self._begin(bent=False)
        self.run.append(end)
        self.at = end

    def cubic_to(self, first: complex, second: complex, end: complex) -> None:
        """Draw a cubic Bezier curve by its two control points and its end."""
        self._begin(bent=True)
        self.run += (first, second, end)
        self.at = end

    def quadratic_to(self, control: complex, end: complex) -> None:
        """Draw a quadratic Bezier curve, which is a cubic one as well."""
        self.handle = control
        self.cubic_to(self.at + 2 / 3 * (control - self.at), end + 2 / 3 * (control - end), end)

    def arc_to(self, arc: Arc, end: complex) -> None:
        """Draw an arc."""
        self._end_run()
        self.path.append(arc)
        self.at = end

    def lift(self) -> None:
        """End the path; a dot is none."""
        self._end_run()
        if self.path:
            self.paths.append(tuple(self.path))
        self.path = []

    def smooth(self, kinds: str) -> complex:
        """Return the control point that goes on smoothly after a curve of some kinds."""
        return 2 * self.at - self.handle if self.kind and self.kind in kinds else self.at

    def _begin(self, *, bent: bool) -> None:
        if self.run and self.bent != bent:
            self._end_run()
        if not self.run:
            self.run, self.bent = [self.at], bent

    def _end_run(self) -> None:
        if self.run:
            at = np.array(self.run)
            points = np.column_stack((at.real, at.imag))
            self.path.append(joined_cubics(points) if self.bent else Points(points))
        self.run = []


def _point(row: Sequence[float], origin: complex, which: int = 0) -> complex:
    return complex(row[2 * which], row[2 * which + 1]) + origin


def _move(pen: _Pen, row: Sequence[float], origin: complex) -> None:
    pen.lift()
    pen.at = pen.start = _point(row, origin)


def _close(pen: _Pen, _row: Sequence[float], _origin: complex) -> None:
    if pen.at != pen.start:
        pen.line_to(pen.start)
    pen.lift()


def _line(pen: _Pen, row: Sequence[float], origin: complex) -> None:
    pen.line_to(_point(row, origin))


def _level(pen: _Pen, row: Sequence[float], origin: complex) -> None:
    pen.line_to(complex(row[0] + origin.real, pen.at.imag))


def _upright(pen: _Pen, row: Sequence[float], origin: complex) -> None:
    pen.line_to(complex(pen.at.real, row[0] + origin.imag))


def _cubic(pen: _Pen, row: Sequence[float], origin: complex) -> None:
    first, second, end = (_point(row, origin, which) for which in range(3))
    pen.handle = second
    pen.cubic_to(first, second, end)


def _smooth_cubic(pen: _Pen, row: Sequence[float], origin: complex) -> None:
    first, second = pen.smooth("CS"), _point(row, origin)
    pen.handle = second
    pen.cubic_to(first, second, _point(row, origin, 1))


def _quadratic(pen: _Pen, row: Sequence[float], origin: complex) -> None:
    pen.quadratic_to(_point(row, origin), _point(row, origin, 1))


def _smooth_quadratic(pen: _Pen, row: Sequence[float], origin: complex) -> None:
    pen.quadratic_to(pen.smooth("QT"), _point(row, origin))


def _elliptic(pen: _Pen, row: Sequence[float], origin: complex) -> None:
    end = complex(row[5], row[6]) + origin
    radii = (abs(row[0]), abs(row[1]))
    if end == pen.at:
        return
    if not all(radii) or abs(end - pen.at) < _NOWHERE * max(radii):
        pen.line_to(end)
        return
    arc = _arc(pen.at, end, radii, math.radians(row[2]), (bool(row[3]), bool(row[4])))
    pen.arc_to(arc, end)


_DRAWS: Mapping[str, Callable[[_Pen, Sequence[float], complex], None]] = {
    "M": _move, "Z": _close, "L": _line, "H": _level, "V": _upright, "C": _cubic,
    "S": _smooth_cubic, "Q": _quadratic, "T": _smooth_quadratic, "A": _elliptic,
}  # fmt: skip


def _arc(
    start: complex, end: complex, radii: tuple[float, float], turn_rad: float,
    flags: tuple[bool, bool],
) -> Arc:  # fmt: skip
    """Return the arc between two points: [SVG] F.6.5, radii that are too small grown as in F.6.6.

    Args:
        start: First point.
        end: Last point.
        radii: Half axes of the ellipse.
        turn_rad: From x to its first axis.
        flags: Whether the arc is the larger one, and whether its angle grows.
    """
    large, grows = flags
    axis = cmath.rect(1.0, turn_rad)
    half = (start - end) / 2 / axis
    scaled = complex(half.real / radii[0], half.imag / radii[1])
    grown = max(1.0, abs(scaled))
    unit = scaled / grown
    # Where the ellipse is a circle of radius one: the middle is square off the chord.
    off = math.sqrt(max(0.0, 1 / abs(unit) ** 2 - 1)) * (1 if large == grows else -1)
    middle = unit * complex(0, off)
    from_rad, to_rad = cmath.phase(unit - middle), cmath.phase(-unit - middle)
    full_rad = 2 * math.pi
    sweep_rad = (to_rad - from_rad) % full_rad if grows else -((from_rad - to_rad) % full_rad)
    first, second = grown * radii[0] * axis, grown * radii[1] * axis * 1j
    at = (start + end) / 2 + (middle.real * first + middle.imag * second)
    middle_at, first_at, second_at = (np.array([z.real, z.imag]) for z in (at, first, second))
    return Arc(middle_at, first_at, second_at, from_rad, from_rad + sweep_rad)


def matrix_of(text: str) -> Floats:
    """Return a transform attribute as a (2, 3) matrix: what is linear, then the shift.

    Raises:
        FileError: It is not one.
    """
    whole = np.eye(3)
    for match in _in_turn(_TRANSFORM, text.strip()):
        numbers = plain_numbers(match[2])
        make = _MAKES.get((match[1], len(numbers)))
        if make is None:
            raise unreadable(match[0])
        whole = whole @ np.array([*make(*numbers), [0, 0, 1]])
    return whole[:2]


Matrix: TypeAlias = list[list[float]]


def _rotation(degrees: float, x: float = 0.0, y: float = 0.0) -> Matrix:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return [[c, -s, x - c * x + s * y], [s, c, y - s * x - c * y]]


_MAKES: Mapping[tuple[str, int], Callable[..., Matrix]] = {
    ("matrix", 6): lambda a, b, c, d, e, f: [[a, c, e], [b, d, f]],
    ("translate", 1): lambda x: [[1, 0, x], [0, 1, 0]],
    ("translate", 2): lambda x, y: [[1, 0, x], [0, 1, y]],
    ("scale", 1): lambda k: [[k, 0, 0], [0, k, 0]],
    ("scale", 2): lambda x, y: [[x, 0, 0], [0, y, 0]],
    ("rotate", 1): _rotation,
    ("rotate", 3): _rotation,
    ("skewX", 1): lambda angle: [[1, math.tan(math.radians(angle)), 0], [0, 1, 0]],
    ("skewY", 1): lambda angle: [[1, 0, 0], [math.tan(math.radians(angle)), 1, 0]],
}
"""Transforms by name and how many numbers they have."""
