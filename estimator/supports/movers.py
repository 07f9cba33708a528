"""Things that turn about an axle: balance, torque, inertia and the weight that drives them.

Torques are about the axle's axis by the right-hand rule: with the axis out of the wall, a
positive one turns anticlockwise as seen from the street.
"""

import numpy as np
from numpy.typing import NDArray
from scipy import linalg

from estimator.core.constants import GRAVITY_M_S2

Floats = NDArray[np.float64]

UP = (0.0, 1.0, 0.0)


def out_of_balance(mass_kg: Floats, centre_m: Floats, axle_m: Floats, axis: Floats) -> Floats:
    """Return the first moment of masses about an axle, in the plane of turning, kg m.

    Args:
        mass_kg: (n,) float.
        centre_m: (n, 3) float: centres of gravity.
        axle_m: (3,) float: a point of the axle.
        axis: (3,) float: unit vector of the axle.

    Returns:
        (3,) float: from the axle towards the heavy side; zero when balanced.
    """
    moment_kgm = np.asarray(mass_kg @ (centre_m - axle_m))
    return moment_kgm - (moment_kgm @ axis) * axis


def turned(vector: Floats, axis: Floats, angle_rad: Floats) -> Floats:
    """Return a vector (3,) turned about a unit axis by each of k angles, (k, 3) float.

    References:
        Rodrigues' rotation formula.
    """
    cosine, sine = np.cos(angle_rad)[:, np.newaxis], np.sin(angle_rad)[:, np.newaxis]
    along = (vector @ axis) * axis
    return along + cosine * (vector - along) + sine * np.cross(axis, vector)


def axle_torque(axle_m: Floats, axis: Floats, at_m: Floats, force_n: Floats) -> Floats:
    """Return the torque of forces about an axle, N m.

    Args:
        axle_m: (3,) float: a point of the axle.
        axis: (3,) float: unit vector of the axle.
        at_m: (..., 3) float: where each force acts.
        force_n: (..., 3) float.
    """
    return np.asarray(np.cross(at_m - axle_m, force_n) @ axis)


def gravity_torque(unbalance_kgm: Floats, axis: Floats, angle_rad: Floats) -> Floats:
    """Return the torque of gravity about an axle at each angle of turn, (k,) float, N m.

    Args:
        unbalance_kgm: (3,) float: from `out_of_balance`, at angle 0.
        axis: (3,) float: unit vector of the axle.
        angle_rad: (k,) float: turn about the axis.
    """
    arms_kgm = turned(unbalance_kgm, axis, angle_rad)
    return axle_torque(np.zeros(3), axis, arms_kgm, -GRAVITY_M_S2 * np.array(UP))


def greatest_gravity_torque(unbalance_kgm: Floats, axis: Floats) -> float:
    """Return the greatest torque of gravity at any angle of turn, N m; 0 on an upright axle."""
    level = linalg.norm(np.cross(UP, axis))
    return float(GRAVITY_M_S2 * linalg.norm(unbalance_kgm) * level)


def counterweight_kg(unbalance_kgm: Floats, radius_m: float) -> float:
    """Return the mass that balances a mover, hung opposite its heavy side.

    Args:
        unbalance_kgm: (3,) float: without the counterweight.
        radius_m: Axle to the middle of the counterweight, more than zero.

    Raises:
        ValueError: The radius is not more than zero.
    """
    if not radius_m > 0:
        msg = f"a counterweight needs a radius above zero, got {radius_m=}"
        raise ValueError(msg)
    return float(linalg.norm(unbalance_kgm)) / radius_m


def axle_inertia(
    mass_kg: Floats, centre_m: Floats, own_kgm2: Floats, axle_m: Floats, axis: Floats
) -> float:
    """Return the moment of inertia of bodies about an axle, kg m2.

    Args:
        mass_kg: (n,) float.
        centre_m: (n, 3) float: centres of gravity.
        own_kgm2: (n, 3, 3) float: tensor of each about its own centre; zero for a point mass.
        axle_m: (3,) float: a point of the axle.
        axis: (3,) float: unit vector of the axle.

    References:
        Parallel-axis theorem.
    """
    radius_m = linalg.norm(np.cross(centre_m - axle_m, axis), axis=1)
    return float(np.sum(mass_kg * radius_m**2 + axis @ own_kgm2 @ axis))


def drive_torque(
    mass_kg: float,
    drum_diameter_m: float,
    falls: int = 1,
    ratio: float = 1.0,
    efficiency: float = 1.0,
) -> float:
    """Return the torque that a drive weight gives at the mover, N m.

    Args:
        mass_kg: Drive weight.
        drum_diameter_m: To the middle of the line on the drum.
        falls: Parts of line that carry the weight.
        ratio: Turns of the mover for one turn of the drum.
        efficiency: Of tackle and train together, 1 without loss.

    Raises:
        ValueError: Falls or ratio not more than zero.
    """
    if not (falls > 0 and ratio > 0):
        msg = f"falls and ratio must be above zero, got {falls=}, {ratio=}"
        raise ValueError(msg)
    return mass_kg * GRAVITY_M_S2 * drum_diameter_m / 2 / falls / ratio * efficiency


def stepping_torque(inertia_kgm2: float, step_rad: float, time_s: float) -> float:
    """Return the torque that moves a mover by a step, from rest to rest, N m.

    The speed rises evenly to half-time and falls evenly again; friction and weight come on top.

    Raises:
        ValueError: The time is not more than zero.
    """
    if not time_s > 0:
        msg = f"a step needs a time above zero, got {time_s=}"
        raise ValueError(msg)
    return inertia_kgm2 * 4 * step_rad / time_s**2
