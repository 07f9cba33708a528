"""Wind force on outlines, and the moment of any: vectors, any number at once.

Directions are the side the wind comes from: 0 the street, 90 the right, 180 behind, 270 the left.
Arrays of three are (across, up, out); ``...`` stands for whatever numpy can broadcast.
"""

from typing import NamedTuple

import numpy as np

from estimator.wind.boards import ECCENTRICITY
from estimator.wind.records import Coefficient, FloatArray, Load, Numbers, Placed, Vector

OFFSETS = (0.0, 1.0, -1.0)
OFFSET_NAMES = ("in the middle", "off to the right", "off to the left")
"""Right and left of one who looks along the wind."""


class View(NamedTuple):
    """What a figure shows to one wind direction.

    Attributes:
        area_m2: Silhouette.
        width_m: Its level width.
        middle_m: Middle of the silhouette, from the datum.
    """

    area_m2: float
    width_m: float
    middle_m: Vector


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


def eccentric_points(
    middle_m: FloatArray | Vector,
    width_m: Numbers,
    direction_rad: Numbers,
    ratio: float = ECCENTRICITY,
) -> FloatArray:
    """Return where the force may act: middle, right, left, a (..., 3, 3) array in m.

    References:
        EN 1991-1-4:2005, 7.4.3(3): 0.25 of the width to either side, level.
    """
    arm_m = ratio * np.asarray(width_m)[..., np.newaxis] * crosswind(direction_rad)
    middle = np.asarray(middle_m, dtype=np.float64)
    return (
        middle[..., np.newaxis, :]
        + np.asarray(OFFSETS)[:, np.newaxis] * (arm_m[..., np.newaxis, :])
    )


def eccentric_cases(coefficient: Coefficient, width_m: float) -> tuple[Placed, ...]:
    """Return the force on an outline at each of `OFFSET_NAMES`.

    References:
        EN 1991-1-4:2005, 7.4.3(3): 0.25 of the width to either side, level.
    """
    return tuple(
        Placed(coefficient.value, offset * ECCENTRICITY * width_m, 0.0) for offset in OFFSETS
    )


def as_vector(array: FloatArray) -> Vector:
    """Return an array of three as plain numbers."""
    across, up, out = array.tolist()
    return across, up, out


def figure_loads(
    view: View, pressure_pa: float, coefficient: Coefficient, direction_deg: float
) -> tuple[Load, ...]:
    """Return the loads on a figure clear of any wall, in one direction: middle, right, left.

    Args:
        view: Its silhouette in that direction.
        pressure_pa: Peak pressure at its height, times c_s c_d where that is not 1.
        coefficient: On the silhouette.
        direction_deg: Side the wind comes from.
    """
    direction_rad = np.deg2rad(direction_deg)
    force_n = wind_force(pressure_pa, coefficient.value, view.area_m2, direction_rad)
    points_m = eccentric_points(view.middle_m, view.width_m, direction_rad)
    return tuple(
        Load(
            direction_deg,
            f"along the wind, {name}",
            as_vector(force_n),
            as_vector(point_m),
            as_vector(moment_about((0.0, 0.0, 0.0), point_m, force_n)),
            f"{coefficient.rule}; off centre by {ECCENTRICITY:g} of the width as EN 1991-1-4 7.4.3",
        )
        for name, point_m in zip(OFFSET_NAMES, points_m, strict=True)
    )
