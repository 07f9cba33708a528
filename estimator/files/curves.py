"""Curves of a drawing as its file gives them, and the short straight lines that follow them."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt

from estimator.files.shelf import FileError

Floats: TypeAlias = npt.NDArray[np.float64]

METRES: Mapping[str, float] = {
    "mm": 0.001, "cm": 0.01, "dm": 0.1, "m": 1.0, "km": 1000.0,
    "in": 0.0254, "ft": 0.3048, "yd": 0.9144, "mil": 25.4e-6, "micron": 1e-6,
    "pt": 0.0254 / 72, "pc": 0.0254 / 6, "px": 0.0254 / 96,
}  # fmt: skip
"""Length of each unit a drawing may name; those in the last line as CSS has them."""
MOST_POINTS = 500_000
"""More than this take too long to look through; an outline needs a hundredth."""
FINEST = 2.5e-4
"""The chord height is at most this share of the size of a curve, so that small holes stay round."""
FARTHEST = 1e12
"""Coordinates beyond this mean nothing in any unit."""
TOO_MANY_POINTS = (
    f"its lines have more than {MOST_POINTS:,} points",
    "an outline with fewer points",
    "simplify the traced path, or draw the outline alone and type its many holes as cut away",
)
UNMEASURABLE = (
    "some of its coordinates are not numbers, or far too large",
    "plain coordinates",
    "look at what lies far off, and save the drawing again",
)
_QUARTERS = np.linspace(0, 1, 5)
_SLACK = 1.01
"""A first or last step of an arc may be this much longer than the others."""
_QUARTER_RAD = np.pi / 2


class Points(NamedTuple):
    """Straight lines from point to point.

    Attributes:
        at: (k, d) points in the plane or in space.
    """

    at: Floats


class Arc(NamedTuple):
    """A piece of an ellipse: middle + first cos t + second sin t.

    Attributes:
        middle: (d,).
        first: (d,) from the middle to where t is zero.
        second: (d,) from the middle to where t is a right angle.
        start_rad: Where t starts.
        end_rad: Where t ends.
    """

    middle: Floats
    first: Floats
    second: Floats
    start_rad: float = 0.0
    end_rad: float = 2 * np.pi


class Spline(NamedTuple):
    """A B-spline, rational if its weights are not all alike.

    Attributes:
        controls: (k, d) control points.
        knots: (k + degree + 1,), never falling.
        weights: (k,), above zero.
        degree: Of its polynomials.
    """

    controls: Floats
    knots: Floats
    weights: Floats
    degree: int


Curve: TypeAlias = Points | Arc | Spline
Path: TypeAlias = tuple[Curve, ...]
"""Curves end to end."""


class Drawing(NamedTuple):
    """What a drawing shows. Its y points up, and its x to the right.

    Attributes:
        paths: What was drawn, in units of the drawing, about its own origin.
        unit: Unit its lengths are said in; blank when the file does not say it.
        unit_m: Length of one unit of its coordinates; NaN likewise.
        falls: Whether y points down where the drawing is made, so that it is printed that way.
        aside: How many things of each kind were left aside.
        notes: What else there is to say of it, as sentences.
    """

    paths: tuple[Path, ...]
    unit: str
    unit_m: float
    falls: bool
    aside: Mapping[str, int]
    notes: tuple[str, ...] = ()


def moved(curve: Curve, linear: Floats, shift: npt.ArrayLike) -> Curve:
    """Return a curve that was turned, scaled, skewed and shifted: linear x + shift.

    Args:
        curve: In d dimensions.
        linear: (e, d), into a plane or space of e dimensions.
        shift: (e,).

    Raises:
        FileError: Something in it is not a number, or far too large.
    """
    by = np.asarray(shift, float)
    for values in (linear, by, anchors(curve)):
        refuse_unmeasurable(values)
    match curve:
        case Points(at):
            return Points(at @ linear.T + by)
        case Arc(middle, first, second):
            return curve._replace(
                middle=linear @ middle + by, first=linear @ first, second=linear @ second
            )
    return curve._replace(controls=curve.controls @ linear.T + by)


def anchors(curve: Curve) -> Floats:
    """Return (k, d) points that a curve lies within, or on."""
    match curve:
        case Points(at):
            return at
        case Arc(middle, first, second):
            return middle + np.stack((first + second, first - second, second - first,
                                      -first - second))  # fmt: skip
    return curve.controls


def between(start: Floats, end: Floats, bulge: float) -> Arc:
    """Return the arc from one point of the plane to another.

    Args:
        start: (2,).
        end: (2,).
        bulge: Tangent of a quarter of the angle it turns by, above zero anticlockwise.
    """
    chord = end - start
    left = np.array([-chord[1], chord[0]])
    middle = start + chord / 2 + left * (1 - bulge**2) / (4 * bulge)
    first = start - middle
    return Arc(middle, first, np.array([-first[1], first[0]]), 0.0, 4 * float(np.arctan(bulge)))


def joined_cubics(controls: Floats) -> Spline:
    """Return cubic Bezier curves end to end as one curve.

    Args:
        controls: (3 n + 1, 2) control points; every third is an end.
    """
    count = len(controls) // 3
    knots = np.repeat(np.arange(count + 1.0), 3)
    return Spline(controls, np.concatenate(([0.0], knots, [count])), np.ones(len(controls)), 3)


def lines(paths: Iterable[Path], chord: float) -> tuple[Floats, ...]:
    """Return (k, 2) points along each path.

    Args:
        paths: In the plane.
        chord: Straight lines may leave their curve by this much, and by no more.

    Raises:
        FileError: There are too many, or some that no number can be given to.
    """
    left, found = MOST_POINTS, []
    for path in paths:
        pieces = [_followed(curve, chord, left) for curve in path]
        line = np.concatenate([pieces[0], *(piece[1:] for piece in pieces[1:])])
        left -= len(line)
        if left < 0:
            raise FileError(*TOO_MANY_POINTS)
        found.append(line)
    return tuple(found)


def refuse_unmeasurable(values: Floats) -> None:
    """Keep out what is not a number, or far too large to be one of a drawing.

    Raises:
        FileError: There is such a value.
    """
    if not (np.abs(values) < FARTHEST).all():
        raise FileError(*UNMEASURABLE)


def _followed(curve: Curve, chord: float, most: int) -> Floats:
    """Return (k, 2) points on a curve."""
    within = anchors(curve)
    refuse_unmeasurable(within)
    size = float(np.ptp(within, axis=0).max())
    if isinstance(curve, Points) or not size:
        return within
    fine = min(chord, FINEST * size)
    if isinstance(curve, Arc):
        refuse_unmeasurable(np.array([curve.start_rad, curve.end_rad]))
        return _round(curve, fine, most)
    return _bent(curve, fine, most)


def _round(arc: Arc, chord: float, most: int) -> Floats:
    """Return points on an arc, so that those furthest along its two axes are among them.

    An ellipse leaves its chords by no more than a circle of its longer half axis does.
    """
    radius = float(np.linalg.norm(np.stack((arc.first, arc.second)), 2))
    step_rad = 2 * np.arccos(1 - min(1.0, chord / radius)) / _SLACK
    step_rad = _QUARTER_RAD / np.ceil(_QUARTER_RAD / step_rad)
    low_rad, high_rad = sorted((arc.start_rad, arc.end_rad))
    if (high_rad - low_rad) / step_rad > most:
        raise FileError(*TOO_MANY_POINTS)
    at_rad = step_rad * np.arange(np.floor(low_rad / step_rad), np.ceil(high_rad / step_rad) + 1)
    short_rad = (_SLACK - 1) * step_rad
    inside = (at_rad > low_rad + short_rad) & (at_rad < high_rad - short_rad)
    at_rad = np.concatenate(([low_rad], at_rad[inside], [high_rad]))
    if arc.start_rad > arc.end_rad:
        at_rad = at_rad[::-1]
    spokes = np.stack((np.cos(at_rad), np.sin(at_rad)), axis=-1)
    points: Floats = arc.middle + spokes @ np.stack((arc.first, arc.second))
    return points


def _bent(spline: Spline, chord: float, most: int) -> Floats:
    """Return points on a spline: stretches are halved until each keeps to its curve."""
    from scipy.interpolate import BSpline  # noqa: PLC0415 - heavy

    degree, knots = spline.degree, spline.knots
    weighed = np.column_stack((spline.controls * spline.weights[:, None], spline.weights))
    curve = BSpline(knots, weighed, degree)

    def points(at: Floats) -> Floats:
        """Return the points of the curve, weights divided out."""
        values = np.asarray(curve(at), float)
        found: Floats = values[..., :-1] / values[..., -1:]
        return found

    first, last = knots[degree], knots[-degree - 1]
    spans = np.unique(np.clip(knots, first, last))
    at = np.union1d(spans, (spans[1:] + spans[:-1]) / 2)
    while len(at) <= most:
        steps = np.diff(at)
        stray = np.flatnonzero(_strays(points(at[:-1, None] + steps[:, None] * _QUARTERS)) > chord)
        if not len(stray):
            return points(at)
        at = np.insert(at, stray + 1, at[stray] + steps[stray] / 2)
    raise FileError(*TOO_MANY_POINTS)


def _strays(points: Floats) -> Floats:
    """Return how far stretches of a curve may leave their chords.

    A point of the curve is off the point of the chord at the same parameter by at most step^2 / 8
    times the largest second derivative: twice the second difference over quarters of the step.
    That of a cubic changes evenly, so it is largest at one of the ends.

    Args:
        points: (n, 5, d) points of each stretch, at even steps.
    """
    bends = np.diff(points, 2, axis=1)
    ends = 2 * bends[:, [0, 2]] - bends[:, [1]]
    off: Floats = 2 * np.linalg.norm(np.concatenate((bends, ends), axis=1), axis=-1).max(axis=1)
    return off
