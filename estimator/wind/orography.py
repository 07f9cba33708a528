"""EN 1991-1-4:2005+A1:2010, A.3: how much a hill upwind of a site speeds up the wind."""

from dataclasses import dataclass

import numpy as np

from estimator.wind.records import Numbers

FLAT_SLOPE = 0.05
"""(A.1): gentler ground counts as flat."""
STEEP_SLOPE = 0.3
"""(A.3): from here on a steeper slope changes nothing."""
HIGHEST_RATIO = 2.0
FURTHEST_RATIO = 1.5
"""Figures A.2 and A.3 end at z/L_e = 2 and X/L_u = -1.5."""


@dataclass(frozen=True, slots=True)
class Hill:
    """An isolated rise, seen along the wind, with the site on its upwind slope or its crest.

    Attributes:
        height_m: H, crest above the foot of the upwind slope.
        slope_length_m: L_u, level length of the upwind slope.
        distance_m: X, from the crest; negative before it, 0 on it.
    """

    height_m: float
    slope_length_m: float
    distance_m: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a rise without size, and a site behind the crest."""
        if not (self.height_m > 0 and self.slope_length_m > 0):
            msg = f"a hill needs a height and a slope length above zero, got {self}"
            raise ValueError(msg)
        if not self.distance_m <= 0:
            msg = (
                f"the site lies {self.distance_m} m behind the crest, which these expressions do "
                "not cover: enter the orography factor itself"
            )
            raise ValueError(msg)


def upwind_location_factor(height_m: Numbers, hill: Hill) -> Numbers:
    """Return s on the upwind slope or the crest; 0 far before the foot or high above.

    References:
        EN 1991-1-4:2005, A.3(3), Figures A.2 and A.3, upwind branch, as coded in one open-source
        file; that s is 0 outside the ranges is from memory.
    """
    effective_length_m = max(hill.slope_length_m, hill.height_m / STEEP_SLOPE)
    t = np.asarray(height_m / effective_length_m)
    x = hill.distance_m / hill.slope_length_m
    at_crest = np.polyval([0.1552, -0.8575, 1.8133, -1.9115, 1.0124], t)
    decay = np.polyval([0.3542, -1.0577, 2.6456], t)
    within = (t <= HIGHEST_RATIO) & (x >= -FURTHEST_RATIO)
    location: Numbers = np.where(within, at_crest * np.exp(decay * x), 0.0)
    return location


def orography_factor(height_m: Numbers, hill: Hill) -> Numbers:
    """Return c_o at a height above the ground on a hill.

    References:
        EN 1991-1-4:2005, A.3(1), expressions (A.1) to (A.3).
    """
    slope = hill.height_m / hill.slope_length_m
    if slope < FLAT_SLOPE:
        return 1.0 + 0.0 * height_m
    return 1 + 2 * min(slope, STEEP_SLOPE) * upwind_location_factor(height_m, hill)
