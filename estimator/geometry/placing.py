"""Where a thing points, how it is turned, and where its copies stand.

A rotation is a (..., 3, 3) matrix that takes a column in the part's frame to (across, up, out).
"""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats

AXES = {"across": 0, "up": 1, "out": 2}
"""The fixed axes by name and place; right-handed."""
ROWS = {"row": 0, "row up": 1, "row out": 2}
"""Place of the axis that a row runs along."""
SET_OUTS = ("", *ROWS, "ring", "scattered")


class Copies(NamedTuple):
    """Where the copies of a part stand about the place it is given.

    Attributes:
        offsets_m: (count, 3).
        rotations: (count, 3, 3), to follow the part's own.
        smear_m2: (3, 3) mean of x x^T of what is spread about each offset, not standing there.
    """

    offsets_m: Floats
    rotations: Floats
    smear_m2: Floats


def pointing(along: str = "", faces: str = "") -> Floats:
    """Return the (3, 3) rotation from a shape's own frame (along, beside, faces).

    Both axes point the positive way, and `beside` = faces x along, which points the negative way
    for (across, up), (up, out) and (out, across). An axis left blank keeps its default (along
    across, faces out) unless the other one has taken it; then it takes the other's default, so
    that `beside` stays upright.

    Raises:
        ValueError: If a name is no axis, or both are the same.
    """
    for name in (along, faces):
        if name and name not in AXES:
            msg = f"there is no axis {name!r}; the axes are {', '.join(AXES)}"
            raise ValueError(msg)
    along_axis = along or ("out" if faces == "across" else "across")
    faces_axis = faces or ("across" if along == "out" else "out")
    if along_axis == faces_axis:
        msg = f"a part cannot run along {along_axis} and face {faces_axis} as well"
        raise ValueError(msg)
    first, third = np.eye(3)[AXES[along_axis]], np.eye(3)[AXES[faces_axis]]
    return np.column_stack((first, np.cross(third, first), third))


def about_axis(axis: str, angle_rad: npt.ArrayLike) -> Floats:
    """Return the (..., 3, 3) rotation by the right-hand rule about one fixed axis."""
    angle = np.asarray(angle_rad, float)
    first, second = ((AXES[axis] + step) % 3 for step in (1, 2))
    matrix = np.zeros((*angle.shape, 3, 3))
    matrix[..., AXES[axis], AXES[axis]] = 1.0
    matrix[..., first, first] = matrix[..., second, second] = np.cos(angle)
    matrix[..., second, first] = np.sin(angle)
    matrix[..., first, second] = -matrix[..., second, first]
    return matrix


def rotation(
    turn_rad: npt.ArrayLike = 0.0, tip_rad: npt.ArrayLike = 0.0, swing_rad: npt.ArrayLike = 0.0
) -> Floats:
    """Return the (..., 3, 3) rotation of turn, then tip, then swing, each about a fixed axis.

    Args:
        turn_rad: About out: anticlockwise seen from the street.
        tip_rad: About across: leans the top out.
        swing_rad: About up: turns the front to the right.
    """
    turned = about_axis("across", tip_rad) @ about_axis("out", turn_rad)
    both: Floats = about_axis("up", swing_rad) @ turned
    return both


def copies(set_out: str, count: int, spread_m: float = 0.0, start_rad: float = 0.0) -> Copies:
    """Return where the copies of a part stand about the place it is given.

    A `row` runs evenly along across (`row up` along up, `row out` along out), its first and last
    place `spread_m` apart. A `ring` is a circle of that diameter about out, the first copy at
    `start_rad` anticlockwise from across seen from the street, and each is turned by the angle it
    stands at. `scattered` copies lie anywhere on a line of that length along across: each takes an
    even share of the line, smeared over it, which together is the line's own spread^2 / 12 for any
    count. Blank stacks them in one place.

    Raises:
        ValueError: If there is no such set-out or no copies.
    """
    if count < 1:
        msg = f"a part that is set out needs a count of one or more, got {count}"
        raise ValueError(msg)
    if set_out not in SET_OUTS:
        choices = ", ".join(SET_OUTS[1:])
        msg = f"there is no set-out {set_out!r}; the choices are {choices} and blank"
        raise ValueError(msg)
    offsets_m = np.zeros((count, 3))
    rotations = np.broadcast_to(np.eye(3), (count, 3, 3))
    smear_m2 = np.zeros((3, 3))
    if set_out in ROWS and count > 1:
        offsets_m[:, ROWS[set_out]] = np.linspace(-spread_m / 2, spread_m / 2, count)
    elif set_out == "ring":
        angles_rad = start_rad + 2 * np.pi * np.arange(count) / count
        rotations = about_axis("out", angles_rad)
        offsets_m = spread_m / 2 * rotations[:, :, 0]
    elif set_out == "scattered":
        share_m = spread_m / count
        offsets_m[:, 0] = share_m * (np.arange(count) + 0.5) - spread_m / 2
        smear_m2[0, 0] = share_m**2 / 12
    return Copies(offsets_m, rotations, smear_m2)
