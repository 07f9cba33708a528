"""How brackets share loads when the body between them is rigid.

Loads and reactions are six numbers, force then moment, (across, up, out). All are actions on the
bracket: what the body does to it.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy import linalg

from estimator.supports.arms import moved
from estimator.supports.mechanisms import MechanismError, Movement, movement_words, movements_of

Floats = NDArray[np.float64]

LOWEST_RATIO = 1e-9
"""Smallest stiffness, as a part of the largest, that still counts as holding the body."""


class RigidBody(NamedTuple):
    """A rigid body on brackets, seen from the middle of the brackets.

    Attributes:
        carriers: (n, 6, 6) float: movement of the centre -> movement at each bracket.
        stiffness: (6, 6) float of the whole, rotations x `length_m` so that all are lengths.
        centre_m: (3,) float.
        length_m: Length that makes a rotation comparable with a movement.
        scale: (6,) float: 1 for movements, 1 / `length_m` for rotations.
    """

    carriers: Floats
    stiffness: Floats
    centre_m: Floats
    length_m: float
    scale: Floats


class RigidShares(NamedTuple):
    """What m loads on a rigid body do to each of its n brackets.

    Attributes:
        actions: (m, n, 6) float: on each bracket where it meets the body.
        movements: (m, n, 6) float: of the body there, movement [m], then rotation [rad].
    """

    actions: Floats
    movements: Floats


def rigid_sharing(points_m: Floats, stiffness: Floats, loads: Floats) -> RigidShares:
    """Return what a rigid body puts on each of its brackets; small movements.

    Args:
        points_m: (n, 3) float: where each bracket meets the body.
        stiffness: (n, 6, 6) float: of each bracket there, symmetric, no direction negative.
        loads: (m, 6) float: load cases about the datum, N and N m.

    Returns:
        Actions at the brackets' points, which `moved` takes to the wall, and movements.

    Raises:
        MechanismError: The brackets leave the body free to move.

    References:
        Stiffness method for a rigid body: K = sum of B^T k B, with B the movement of a
        bracket's point for a movement of the body.
    """
    body = held_body(points_m, stiffness)
    about_centre = moved(loads, -body.centre_m) * body.scale
    movement = linalg.solve(body.stiffness, about_centre.T, assume_a="pos").T * body.scale
    movements = np.einsum("nij,mj->mni", body.carriers, movement)
    return RigidShares(np.einsum("nij,mnj->mni", stiffness, movements), movements)


def held_body(points_m: Floats, stiffness: Floats) -> RigidBody:
    """Return a rigid body on its brackets, refusing one that can move.

    Args:
        points_m: (n, 3) float.
        stiffness: (n, 6, 6) float.

    Raises:
        MechanismError: The brackets leave the body free to move.
    """
    body = _assembled(points_m, stiffness)
    free = _free_movements(body)
    if free:
        names = [f"bracket {number}" for number in range(1, len(points_m) + 1)]
        words = "; ".join(movement_words(movement, names, points_m) for movement in free)
        msg = f"the brackets do not hold the body: it is {words}"
        raise MechanismError(msg, free)
    return body


def changed(stiffness: Floats, factors: Floats) -> Floats:
    """Return brackets of which some are softer, or not there at all.

    Args:
        stiffness: (n, 6, 6) float.
        factors: (n,) float: 1 as calculated, 0.5 half as stiff, 0 slack or not up yet.
    """
    return np.asarray(stiffness * factors[:, np.newaxis, np.newaxis])


def free_words(points_m: Floats, stiffness: Floats, names: Sequence[str]) -> str:
    """Return what brackets leave free, in words; blank when they hold the body.

    A bracket without any stiffness is not there: nothing swings about it.

    Args:
        points_m: (n, 3) float.
        stiffness: (n, 6, 6) float.
        names: (n,) of the brackets.
    """
    there = np.flatnonzero(stiffness.any(axis=(1, 2)))
    if not there.size:
        return "free to fall"
    at_m, kept = points_m[there], [names[int(n)] for n in there]
    free = free_movements(at_m, stiffness[there])
    return "; ".join(movement_words(movement, kept, at_m) for movement in free)


def free_movements(points_m: Floats, stiffness: Floats) -> tuple[Movement, ...]:
    """Return the movements that brackets leave free; none when they hold the body.

    Counting what is held is not enough (two ball joints hold six and still let the body swing),
    so this asks which movements of the body call up no force.

    Args:
        points_m: (n, 3) float, one bracket or more.
        stiffness: (n, 6, 6) float.
    """
    return _free_movements(_assembled(points_m, stiffness))


def imbalance(points_m: Floats, reactions: Floats, loads: Floats) -> float:
    """Return how far reactions are from holding their loads: rounding only, or a mistake.

    Args:
        points_m: (n, 3) float: where the reactions act.
        reactions: (m, n, 6) float.
        loads: (m, 6) float: about the datum.

    Returns:
        The largest number left over, as a part of the largest number in its load case.
    """
    left_over = np.abs(moved(reactions, points_m).sum(axis=1) - loads).max(axis=1)
    largest = np.maximum(np.abs(loads).max(axis=1), np.abs(reactions).max(axis=(1, 2)))
    return float(np.max(left_over / np.where(largest > 0, largest, 1.0)))


def _assembled(points_m: Floats, stiffness: Floats) -> RigidBody:
    """Return the stiffness of the body on all its brackets, about their middle."""
    centre_m = points_m.mean(axis=0)
    arms_m = points_m - centre_m
    carriers = np.tile(np.eye(6), (len(points_m), 1, 1))
    # A turn moves a point by turn x arm: column j is unit turn j crossed with the arm.
    carriers[:, :3, 3:] = np.cross(np.eye(3), arms_m[:, np.newaxis, :]).transpose(0, 2, 1)
    whole = np.einsum("nji,njk,nkl->il", carriers, stiffness, carriers, optimize=True)
    along, about = np.trace(whole[:3, :3]), np.trace(whole[3:, 3:])
    length_m = float(np.sqrt(about / along)) if about > 0 and along > 0 else 1.0
    scale = np.repeat([1.0, 1.0 / length_m], 3)
    return RigidBody(carriers, scale[:, np.newaxis] * whole * scale, centre_m, length_m, scale)


def _free_movements(body: RigidBody) -> tuple[Movement, ...]:
    """Return the movements that the body's stiffness does not resist."""
    stiffnesses, twists = linalg.eigh(body.stiffness)
    free = stiffnesses <= LOWEST_RATIO * stiffnesses[-1]
    if not free.any():
        return ()
    return movements_of(twists[:, free], body.centre_m, body.length_m)
