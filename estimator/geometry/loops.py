"""Outlines of flat pieces as closed loops of points: what a pattern looks like on the sheet.

The first loop runs round the piece, the others round its holes; a piece in several islands has a
loop for each. A point is inside where it lies within an odd number of loops. The rectangle round
a piece has its corner at the origin and its length along the first axis.
"""

from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats

Loop: TypeAlias = tuple[tuple[float, float], ...]
Loops: TypeAlias = tuple[Loop, ...]

SIDES = 96
"""Corners drawn for a full circle; areas are never taken from them."""
FULL_RAD = 2 * np.pi


def laid(*outlines_m: npt.ArrayLike) -> Loops:
    """Return (k, 2) outlines as loops, moved so that the rectangle round them is at the origin."""
    arrays = [np.asarray(outline, float) for outline in outlines_m]
    corner_m = np.min([array.min(axis=0) for array in arrays], axis=0)
    return tuple(tuple(map(tuple, (array - corner_m).tolist())) for array in arrays)


def size_m(loops: Loops) -> tuple[float, float]:
    """Return length and width of the rectangle round a piece."""
    length_m, width_m = np.max([np.max(loop, axis=0) for loop in loops], axis=0).tolist()
    return length_m, width_m


def rectangle(length_m: float, width_m: float) -> Loops:
    """Return a rectangle."""
    return laid([(0, 0), (length_m, 0), (length_m, width_m), (0, width_m)])


def oval(length_m: float, width_m: float, bore_m: float = 0.0) -> Loops:
    """Return an ellipse by its two axes, or a disc, with a round hole where a bore is given."""
    angle_rad = np.linspace(0, FULL_RAD, SIDES, endpoint=False)
    circle = np.column_stack((np.cos(angle_rad), np.sin(angle_rad))) / 2
    holes = (bore_m * circle,) if bore_m > 0 else ()
    return laid(circle * (length_m, width_m), *holes)


def sector(outer_m: float, inner_m: float, angle_rad: float) -> Loops:
    """Return a piece of a disc or ring by its radii; the middle of its arc points away from it."""
    if angle_rad >= FULL_RAD:
        return oval(2 * outer_m, 2 * outer_m, 2 * inner_m)
    steps = max(2, int(np.ceil(SIDES * angle_rad / FULL_RAD)) + 1)
    at_rad = np.linspace(-angle_rad / 2, angle_rad / 2, steps | 1)  # odd: the middle is a point
    # Where the arc turns back, its rectangle is as wide as the circle.
    at_rad = np.union1d(at_rad, [a for a in (-np.pi / 2, np.pi / 2) if abs(a) < angle_rad / 2])
    arc = np.column_stack((np.sin(at_rad), np.cos(at_rad)))
    inside = inner_m * arc[::-1] if inner_m > 0 else np.zeros((1, 2))
    return laid(np.concatenate((outer_m * arc, inside)))


def spindle(along_m: npt.ArrayLike, half_m: npt.ArrayLike) -> Loops:
    """Return a piece that is its own mirror image: half its width at stations along it."""
    along, half = np.asarray(along_m, float), np.asarray(half_m, float)
    near, far = np.column_stack((along, -half)), np.column_stack((along, half))[::-1]
    return laid(np.concatenate((near, far)))


def scaled(loops: Loops, factor: float) -> Loops:
    """Return a piece drawn larger or smaller."""
    return tuple(tuple((x * factor, y * factor) for x, y in loop) for loop in loops)


def crossing_m(loops: Loops, axis: int, at_m: float) -> float:
    """Return how long a straight cut is inside a piece.

    Args:
        loops: The piece.
        axis: Axis that the cut stands square to: 0 for one across the length.
        at_m: Where on that axis it is made.
    """
    marks_m = sorted(mark for loop in loops for mark in _met(np.array(loop), axis, at_m))
    return float(np.sum(marks_m[1::2]) - np.sum(marks_m[0::2]))


def _met(loop: Floats, axis: int, at_m: float) -> list[float]:
    """Return where a loop meets the line of a cut; a corner on the line counts to one side."""
    ends = np.roll(loop, -1, axis=0)
    before, after = loop[:, axis] - at_m, ends[:, axis] - at_m
    met = (before < 0) != (after < 0)
    share = before[met] / (before[met] - after[met])
    other = 1 - axis
    marks: list[float] = (loop[met, other] + share * (ends[met, other] - loop[met, other])).tolist()
    return marks
