"""EN 1991-1-4:2005+A1:2010, A.3: how much a hill or a cliff speeds up the wind.

The coefficients of Figures A.1 to A.3 were read in one open-source file. Two things in it do not
fit its own figures and are put right here: downwind of a hill, distance goes by the downwind
slope, and just behind a cliff the figure is read at a tenth of the effective length.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from estimator.wind.records import FloatArray, Numbers, Step

FLAT_SLOPE = 0.05
"""(A.1): gentler ground counts as flat."""
STEEP_SLOPE = 0.3
"""(A.3): from here on a steeper slope changes nothing."""
HIGHEST_RATIO = 2.0
FURTHEST_RATIO = 1.5
"""Figures A.2 and A.3 end at z/L_e = 2 and X/L_u = -1.5."""
BEHIND_HILL_RATIO = 2.0
"""Figure A.3 ends at X/L_d = 2 behind a hill. From memory."""
NEAR_CLIFF_RATIO, BEHIND_CLIFF_RATIO = 0.1, 3.5
"""Figure A.2 behind a cliff is given from X/L_e = 0.1 to 3.5."""
LOW_RATIO = 0.1
"""Behind a cliff it begins at z/L_e = 0.1, which also holds below that."""


@dataclass(frozen=True, slots=True)
class Hill:
    """An isolated rise, seen along the wind, and where the site stands on it.

    Attributes:
        height_m: H, crest above the foot of the upwind slope.
        slope_length_m: L_u, level length of the upwind slope.
        distance_m: X, from the crest; negative before it, 0 on it.
        downwind_length_m: L_d, level length of the slope behind the crest; None for a cliff or an
            escarpment, where the ground stays up.
    """

    height_m: float
    slope_length_m: float
    distance_m: float = 0.0
    downwind_length_m: float | None = None

    def __post_init__(self) -> None:
        """Refuse a rise without size."""
        behind_m = 1.0 if self.downwind_length_m is None else self.downwind_length_m
        if not (self.height_m > 0 and self.slope_length_m > 0 and behind_m > 0):
            msg = f"a hill needs a height and slope lengths above zero, got {self}"
            raise ValueError(msg)

    @property
    def effective_length_m(self) -> float:
        """Return L_e, the upwind slope or, where that is steep, the height over 0.3."""
        return max(self.slope_length_m, self.height_m / STEEP_SLOPE)


def location_factor(height_m: Numbers, hill: Hill) -> Numbers:
    """Return s at a height above the ground; 0 outside the figures.

    References:
        EN 1991-1-4:2005, A.3(3), Figures A.2 and A.3; that s is 0 outside is from memory.
    """
    t = np.asarray(height_m / hill.effective_length_m, dtype=np.float64)
    if hill.distance_m <= 0:
        found = _upwind(t, hill.distance_m / hill.slope_length_m)
    elif hill.downwind_length_m is None:
        found = _behind_cliff(t, hill.distance_m / hill.effective_length_m)
    else:
        found = _behind_hill(t, hill.distance_m / hill.downwind_length_m)
    location: Numbers = np.where(t <= HIGHEST_RATIO, np.maximum(found, 0.0), 0.0)
    return location


def _polynomial(coefficients: Sequence[float], at: FloatArray) -> FloatArray:
    values: FloatArray = np.polyval(np.asarray(coefficients), at)
    return values


def _at_crest(t: FloatArray) -> FloatArray:
    return _polynomial([0.1552, -0.8575, 1.8133, -1.9115, 1.0124], t)


def _upwind(t: FloatArray, x: float) -> FloatArray:
    """Return s before the crest, by z/L_e and X/L_u."""
    decay = _polynomial([0.3542, -1.0577, 2.6456], t)
    return _at_crest(t) * np.exp(decay * x) * float(x >= -FURTHEST_RATIO)


def _behind_hill(t: FloatArray, x: float) -> FloatArray:
    """Return s behind the crest of a hill, by z/L_e and X/L_d: by L_d from memory."""
    decay = _polynomial([-0.3056, 1.0212, -1.7637], t)
    return _at_crest(t) * np.exp(decay * x) * float(x <= BEHIND_HILL_RATIO)


def _behind_cliff(t: FloatArray, x: float) -> FloatArray:
    """Return s behind the edge of a cliff, by z/L_e and X/L_e; straight from the edge to 0.1."""
    u, within = np.log10(np.maximum(t, LOW_RATIO)), float(x <= BEHIND_CLIFF_RATIO)
    terms = (
        _polynomial([-1.3420, -0.8222, 0.4609, -0.0791], u),
        _polynomial([-1.0196, -0.8910, 0.5343, -0.1156], u),
        _polynomial([0.8030, 0.4236, -0.5738, 0.1606], u),
    )
    x_log = np.log10(max(x, NEAR_CLIFF_RATIO))
    far = terms[0] * x_log**2 + terms[1] * x_log + terms[2]
    share = min(x / NEAR_CLIFF_RATIO, 1.0)
    behind: FloatArray = (share * far + (1.0 - share) * _at_crest(t)) * within
    return behind


def orography_factor(height_m: Numbers, hill: Hill) -> Numbers:
    """Return c_o at a height above the ground on or behind a hill or a cliff.

    References:
        EN 1991-1-4:2005, A.3(1), expressions (A.1) to (A.3).
    """
    slope = hill.height_m / hill.slope_length_m
    if slope < FLAT_SLOPE:
        flat: Numbers = 1.0 + 0.0 * height_m
        return flat
    factor: Numbers = 1 + 2 * min(slope, STEEP_SLOPE) * location_factor(height_m, hill)
    return factor


def orography_steps(height_m: float, hill: Hill) -> tuple[Step, ...]:
    """Return the way from the sizes of a hill or a cliff to c_o, less c_o itself.

    Args:
        height_m: Above the ground of the site.
        hill: Seen along the wind.
    """
    behind = hill.distance_m > 0 and hill.downwind_length_m is not None
    figure = "A.3" if hill.downwind_length_m is not None else "A.2"
    location = float(location_factor(height_m, hill))
    return (
        Step("height of the hill or cliff", "H", hill.height_m, "m", "A.3(1)", confirmed=True),
        Step("level length of the slope the wind climbs", "L_u", hill.slope_length_m, "m",
             "A.3(1)", confirmed=True),
        *(
            (Step("level length of the slope behind the crest", "L_d", hill.downwind_length_m,
                  "m", "A.3(1)", confirmed=False),)
            if behind and hill.downwind_length_m is not None
            else ()
        ),
        Step("site from the crest, behind it above 0", "X", hill.distance_m, "m", "A.3(1)",
             confirmed=True),
        Step("slope the wind climbs", "Phi", hill.height_m / hill.slope_length_m, "",
             "A.3(1)", confirmed=True),
        Step("effective length of the slope", "L_e", hill.effective_length_m, "m",
             "A.3(1), Table A.2", confirmed=True),
        Step("orographic location factor", "s", location, "", f"A.3(3), Figure {figure}",
             confirmed=not behind),
    )  # fmt: skip
