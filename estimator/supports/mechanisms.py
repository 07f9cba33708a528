"""Movements that a set of brackets leaves free, and how to say them in words."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy import linalg

Floats = NDArray[np.float64]

AXES = ("across", "up", "out")
ON_LINE_M = 1e-3
"""A bracket this near a line counts as on it: finer than anything is built or typed."""
_ZERO = 1e-6
"""Part of a unit movement below which it counts as none: far above rounding."""


class Movement(NamedTuple):
    """A small movement of the whole body that no bracket resists.

    Attributes:
        kind: ``slide``, ``turn``, or ``screw`` (turning while sliding along the axis).
        point_m: (3,) float: a point of the axis; of a slide, the middle of the brackets.
        direction: (3,) float: unit vector of the slide or of the axis.
    """

    kind: str
    point_m: Floats
    direction: Floats


class MechanismError(ValueError):
    """The brackets leave the body free to move, so they cannot share a load.

    Attributes:
        movements: What is free.
    """

    def __init__(self, message: str, movements: tuple[Movement, ...]) -> None:
        """Keep the movements beside the sentence."""
        super().__init__(message)
        self.movements = movements


def movements_of(twists: Floats, centre_m: Floats, length_m: float) -> tuple[Movement, ...]:
    """Return free movements in the plainest form: slides first, then turns about axes.

    Args:
        twists: (6, k) float, orthonormal: movement of the centre, then rotation x `length_m`.
        centre_m: (3,) float.
        length_m: Length that makes a rotation comparable with a movement.

    References:
        Kinematics of a rigid body: any small movement is a slide or a turn about an axis with,
        in general, a slide along it.
    """
    _, sizes, mix = linalg.svd(twists[3:])
    turning = int(np.count_nonzero(sizes > _ZERO))
    slides = twists[:3] @ mix[turning:].T
    turns = _along_axes(twists @ mix[:turning].T, slice(3, 6))
    # What a slide can undo is no part of a turn.
    turns[:3] -= slides @ (slides.T @ turns[:3])
    return (
        *(Movement("slide", centre_m, _unit(s)) for s in _along_axes(slides, slice(0, 3)).T),
        *(_turn(twist, centre_m, length_m) for twist in turns.T),
    )


def movement_words(movement: Movement, names: Sequence[str], points_m: Floats) -> str:
    """Return a free movement as a plain phrase, such as ``free to slide along across``.

    Args:
        movement: From `free_movements`.
        names: Of the brackets.
        points_m: (n, 3) float: where each bracket meets the body.
    """
    along = _axis_words(movement.direction)
    if movement.kind == "slide":
        return f"free to slide along {along}"
    off_line = np.cross(points_m - movement.point_m, movement.direction)
    off_m = np.sqrt((off_line**2).sum(axis=1))
    on_line = [name for name, gap_m in zip(names, off_m, strict=True) if gap_m <= ON_LINE_M]
    also = " while sliding along it" if movement.kind == "screw" else ""
    if len(on_line) > 1:
        return f"free to swing about the line through {_listed(on_line)}{also}"
    where = on_line[0] if on_line else f"({', '.join(f'{x:.3f}' for x in movement.point_m)}) m"
    return f"free to turn about the axis {along} through {where}{also}"


def _along_axes(columns: Floats, rows: slice) -> Floats:
    """Return other columns with the same span, as far as can be along across, up and out."""
    if not columns.shape[1]:
        return columns
    part = columns[rows]
    _, _, order = linalg.qr(part.T, pivoting=True)
    return np.asarray(columns @ linalg.inv(part[order[: part.shape[1]]]))


def _turn(twist: Floats, centre_m: Floats, length_m: float) -> Movement:
    """Return the axis of one small turn."""
    movement, rotation = twist[:3], twist[3:]
    squared = float(rotation @ rotation)
    point_m = centre_m + length_m * np.cross(rotation, movement) / squared
    pitch = abs(float(rotation @ movement)) / squared
    return Movement("screw" if pitch > _ZERO else "turn", point_m, _unit(rotation))


def _unit(vector: Floats) -> Floats:
    """Return the unit vector of a line, its largest part positive."""
    length = linalg.norm(vector)
    return np.asarray(vector / np.copysign(length, vector[np.argmax(np.abs(vector))]))


def _axis_words(direction: Floats) -> str:
    """Return the name of an axis, or the direction in numbers."""
    for name, part in zip(AXES, direction, strict=True):
        if part > 1 - _ZERO:
            return name
    return f"({', '.join(f'{x + 0.0:.2f}' for x in direction)})"


def _listed(names: Sequence[str]) -> str:
    """Return ``B1, B2 and B3``."""
    return f"{', '.join(names[:-1])} and {names[-1]}"
