"""How brackets in a row share loads when the body between them bends: a beam on springs.

Between the rigid body, which moves all brackets together, and spans that each stand alone. On
brackets that hardly give it is the continuous beam of the textbooks. The body bends along the row
and is stiff in stretch, shear and twist; its axis runs through the middle of the brackets' points.
"""

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy import linalg

from estimator.supports.arms import moved
from estimator.supports.sharing import held_body

Floats = NDArray[np.float64]

GAUSS_POINTS = (0.5 - math.sqrt(1 / 12), 0.5 + math.sqrt(1 / 12))
"""Places in a length of 1 at which the mean of any cubic is its mean over the length."""


class Beam(NamedTuple):
    """A body that bends along a row of brackets.

    Attributes:
        axis: The row runs along this one: 0 across, 1 up, 2 out.
        bending_nm2: E I, more than zero: one for both ways it bends, or three, of bending that
            moves it along across, up and out (that of `axis` is not used).
    """

    axis: int
    bending_nm2: float | Floats


def beam_influence(
    points_m: Floats, stiffness: Floats, beam: Beam, at_m: Floats, half_length_m: Floats
) -> Floats:
    """Return what each unit action of loads on a body that bends along a row does to each bracket.

    Args:
        points_m: (n, 3) float: where each bracket meets the body.
        stiffness: (n, 6, 6) float: of each bracket there, symmetric; zeros for one that is slack.
        beam: How the body bends.
        at_m: (m, 3) float: middle of each load.
        half_length_m: (m,) float: how far it spreads evenly along the row, each way; 0 at a point.

    Returns:
        (m, n, 6, 6) float: times a load's force and couple about its middle, the action on each
        bracket at its point. Those of all brackets are in equilibrium with the load; `moved` takes
        them to the wall.

    Raises:
        MechanismError: The brackets leave the body free to move.
        ValueError: A stiffness in bending that is not above zero.

    References:
        Force method: brackets and loads act on a free bar (`_bent`), which moves as a whole to
        where forces and moments add up to nothing.
    """
    _require(beam)
    body = held_body(points_m, stiffness)
    count, places = len(points_m), len(at_m)
    along_m = points_m[:, beam.axis]
    here, there = (_to_axis(p - body.centre_m, beam.axis) for p in (points_m, at_m))
    between = _bent(beam, along_m, along_m, np.zeros(count))
    by_load = _bent(beam, along_m, at_m[:, beam.axis], half_length_m)
    # Movement of each bracket's point by what each bracket, and each load, does to the bar.
    by_brackets = np.einsum("iba,ijbc,jcd->iajd", here, between, here, optimize=True)
    by_loads = np.einsum("iba,imbc,mcd->iamd", here, by_load, there, optimize=True)
    whole = np.einsum("mab->amb", _about(at_m - body.centre_m)).reshape(6, -1)

    size = 6 * count
    soft = np.einsum("iab,ibjd->iajd", stiffness, by_brackets).reshape(size, size)
    rigid = np.einsum("iab,ibc->iac", stiffness, body.carriers).reshape(size, 6)
    gather = body.carriers.reshape(size, 6).T
    pushed = np.einsum("iab,ibmd->iamd", stiffness, by_loads).reshape(size, -1)
    left = np.block([[np.eye(size) + soft, -rigid], [gather, np.zeros((6, 6))]])
    found = _solved(left, np.vstack([pushed, whole]))[:size]
    return found.reshape(count, 6, places, 6).transpose(2, 0, 1, 3)


def _bent(beam: Beam, along_m: Floats, acts_m: Floats, half_m: Floats) -> Floats:
    """Return how a free bar bends, but for a movement as a whole, which the brackets decide.

    Returns:
        (n, m, 6, 6) float: movement of its axis at `along_m` for a unit action about its axis,
        spread evenly over `acts_m` +- `half_m`.

    References:
        Euler and Bernoulli's bar: by a force it bends to |d|^3 / 12 E I; derivatives of this give
        slopes and couples.
    """
    cubed, squared, single = _mean_gaps(along_m, acts_m, half_m)
    axes = np.eye(3)
    movement = np.zeros((*cubed.shape, 6, 6))
    for way, bending_nm2 in enumerate(np.broadcast_to(beam.bending_nm2, 3)):
        if way == beam.axis:
            continue
        turns = np.cross(axes[beam.axis], axes[way])
        about, slope = 3 + int(np.argmax(np.abs(turns))), turns.sum() * squared / 4
        movement[..., way, way] = cubed / 12 / bending_nm2
        movement[..., about, way] = slope / bending_nm2
        movement[..., way, about] = -slope / bending_nm2
        movement[..., about, about] = -single / 2 / bending_nm2
    return movement


def _mean_gaps(along_m: Floats, acts_m: Floats, half_m: Floats) -> tuple[Floats, Floats, Floats]:
    """Return the means of |d|^3, d |d| and |d| over each load, (n, m) each; d from load to place.

    On either side of a place they are cubics of where the load is, so two points are exact.
    """
    place_m = along_m[:, np.newaxis]
    start_m, end_m = acts_m - half_m, acts_m + half_m
    kink_m = np.clip(place_m, start_m, end_m)
    part = np.divide(kink_m - start_m, 2 * half_m, out=np.ones_like(kink_m), where=half_m > 0)
    means = np.zeros((3, *kink_m.shape))
    for share, first_m, last_m in ((part, start_m, kink_m), (1 - part, kink_m, end_m)):
        for at in GAUSS_POINTS:
            gap_m = place_m - first_m - at * (last_m - first_m)
            size_m = np.abs(gap_m)
            means += share / len(GAUSS_POINTS) * np.array([size_m**3, gap_m * size_m, size_m])
    cubed, squared, single = means
    return cubed, squared, single


def _about(offset_m: Floats) -> Floats:
    """Return what takes actions at points so far off (n, 3) to the origin: (n, 6, 6) float."""
    units = np.broadcast_to(np.eye(6), (len(offset_m), 6, 6))
    return moved(units, offset_m[:, np.newaxis]).transpose(0, 2, 1)


def _to_axis(offset_m: Floats, axis: int) -> Floats:
    """Return what takes actions square to the axis of the bar, (n, 6, 6) float."""
    return _about(offset_m * (1 - np.eye(3)[axis]))


def _solved(left: Floats, right: Floats) -> Floats:
    """Return the solution of equations whose rows are of very unequal size, refined once."""
    size = np.abs(left).max(axis=1, keepdims=True)
    left, right = left / size, right / size
    factors = linalg.lu_factor(left)
    found = linalg.lu_solve(factors, right)
    return np.asarray(found + linalg.lu_solve(factors, right - left @ found))


def _require(beam: Beam) -> None:
    """Refuse a body that does not resist bending at all."""
    if not np.all(np.asarray(beam.bending_nm2) > 0):
        msg = f"a body that bends needs E I above zero, got {beam.bending_nm2}"
        raise ValueError(msg)
