"""Wind force on outlines, and the moment of any: vectors, any number at once.

Directions are the side the wind comes from: 0 the street, 90 the right, 180 behind, 270 the left.
Arrays of three are (across, up, out); ``...`` stands for whatever numpy can broadcast.
"""

import numpy as np

from estimator.wind.boards import ECCENTRICITY
from estimator.wind.records import Coefficient, FloatArray, Numbers, Placed, Vector

OFFSETS = (0.0, 1.0, -1.0)
OFFSET_NAMES = ("in the middle", "off to the right", "off to the left")
"""Right and left of one who looks along the wind."""


def travel(direction_rad: Numbers) -> FloatArray:
    """Return the way the wind goes, a (..., 3) array of unit vectors."""
    angle = np.asarray(direction_rad, dtype=np.float64)
    return np.stack([-np.sin(angle), np.zeros_like(angle), -np.cos(angle)], axis=-1)


def crosswind(direction_rad: Numbers) -> FloatArray:
    """Return the level way to the right of one who looks along the wind, (..., 3) unit vectors."""
    angle = np.asarray(direction_rad, dtype=np.float64)
    return np.stack([np.cos(angle), np.zeros_like(angle), -np.sin(angle)], axis=-1)


def wind_force(
    pressure_pa: Numbers,
    coefficient: Numbers,
    area_m2: Numbers,
    direction_rad: Numbers,
    structural_factor: float = 1.0,
) -> FloatArray:
    """Return the force along the wind on an outline, a (..., 3) array in N.

    References:
        EN 1991-1-4:2005, 5.3(2), expression (5.3): F_w = c_s c_d c_f q_p(z_e) A_ref.
    """
    size_n = np.asarray(structural_factor * coefficient * pressure_pa * area_m2)
    force_n: FloatArray = size_n[..., np.newaxis] * travel(direction_rad)
    return force_n


def moment_about(
    datum_m: FloatArray | Vector, point_m: FloatArray | Vector, force_n: FloatArray | Vector
) -> FloatArray:
    """Return the moment of a force about a datum, a (..., 3) array in Nm, right-hand rule."""
    arm_m = np.asarray(point_m, dtype=np.float64) - np.asarray(datum_m, dtype=np.float64)
    return np.cross(arm_m, np.asarray(force_n, dtype=np.float64))


def eccentric_cases(coefficient: Coefficient, width_m: float) -> tuple[Placed, ...]:
    """Return the force on an outline at each of `OFFSET_NAMES`.

    References:
        EN 1991-1-4:2005, 7.4.3(3): 0.25 of the width to either side, level.
    """
    return tuple(
        Placed(coefficient.value, offset * ECCENTRICITY * width_m, 0.0) for offset in OFFSETS
    )
