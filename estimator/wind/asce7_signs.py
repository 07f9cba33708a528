"""ASCE/SEI 7-16 and 7-22, chapter 29: solid signs, and the least pressure.

Figure 29.3-1 was read in four public transcriptions of the Argentine regulation CIRSOC 102, which
adopts it, and in the regression test of a fifth; they agree cell by cell but for one slip.
Coefficients multiply the pressure of `asce7.site_pressure`, which holds G and, in 7-22, K_d.
"""

from collections.abc import Mapping
from dataclasses import replace
from math import inf
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from estimator.wind.asce7_frames import open_sign
from estimator.wind.boards import WallStrip, mean_and_arm
from estimator.wind.charts import require_positive
from estimator.wind.handbook import drag
from estimator.wind.records import Coefficient, Placed

_SEEN = "as in public transcriptions of a regulation that adopts it (CIRSOC 102)"
FIGURE = f"ASCE 7, 29.3.1, Figure 29.3-1, {_SEEN}"
"""Where the coefficients of signs come from."""
LEAST_PRESSURE_PA = 770.0
"""0.77 kN/m2 or 16 psf on the area seen from the wind, at strength level, as in a permit file; the
number of its section, 29.7, is from memory."""
CASE_B = 0.2
"""Figure 29.3-1, case B: off the middle by this part of the width, towards the windward edge."""
GROUND_RISE = 0.05
"""Figure 29.3-1: above the middle by this part of the height, for what stands on the ground."""
ON_GROUND = 0.999
"""s/h from which a sign stands on the ground: 1, but for rounding."""
CASE_C_ASPECT = 2.0
"""Figure 29.3-1: boards this many times as wide as high are looked at in strips as well."""
SOLID_FROM = 0.7
"""29.3.1: less than 30 % of openings; a more open sign goes by Figure 29.4-2."""
PLACES = (
    "in the middle (case A)",
    "off to the right (case B)",
    "off to the left (case B)",
    "in strips from the right (case C)",
    "in strips from the left (case C)",
)
"""Where the force on a sign may act, right and left of one who looks along the wind."""

ASPECTS = (0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 4.0, 5.0, 10.0, 20.0, 30.0, 45.0)
CLEARANCES = (0.16, 0.2, 0.3, 0.5, 0.7, 0.9, 1.0)
SIGN_TABLE = (
    (1.95, 1.90, 1.85, 1.85, 1.80, 1.80, 1.85, 1.85, 1.85, 1.90, 1.90, 1.95),
    (1.95, 1.90, 1.85, 1.80, 1.80, 1.80, 1.80, 1.80, 1.85, 1.90, 1.90, 1.95),
    (1.95, 1.90, 1.85, 1.80, 1.80, 1.80, 1.80, 1.80, 1.80, 1.85, 1.85, 1.85),
    (1.95, 1.85, 1.80, 1.75, 1.75, 1.70, 1.70, 1.70, 1.70, 1.70, 1.70, 1.75),
    (1.90, 1.85, 1.75, 1.70, 1.65, 1.60, 1.60, 1.55, 1.55, 1.55, 1.55, 1.55),
    (1.85, 1.75, 1.70, 1.60, 1.55, 1.50, 1.45, 1.45, 1.40, 1.40, 1.40, 1.40),
    (1.80, 1.70, 1.65, 1.55, 1.45, 1.40, 1.35, 1.35, 1.30, 1.30, 1.30, 1.30),
)
"""Figure 29.3-1, cases A and B: C_f by s/h (rows, `CLEARANCES`) and B/s (columns, `ASPECTS`)."""

STRIP_ASPECTS = (2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 13.0, 45.0)
STRIPS: Mapping[tuple[float, float], tuple[float, ...]] = MappingProxyType(
    {
        (0, 1): (2.25, 2.60, 2.90, 3.10, 3.30, 3.40, 3.55, 3.65, 3.75, 4.00, 4.30),
        (1, 2): (1.50, 1.70, 1.90, 2.00, 2.15, 2.25, 2.30, 2.35, 2.45, 2.60, 2.55),
        (2, 3): (1.15, 1.15, 1.30, 1.45, 1.55, 1.65, 1.70, 1.75, 1.85, 2.00, 1.95),
        (3, 4): (1.10, 1.10, 1.10, 1.05, 1.05, 1.05, 1.05, 1.00, 0.95, 1.50, 1.85),
        (4, 5): (1.10, 1.10, 1.10, 1.05, 1.05, 1.05, 1.05, 1.00, 0.95, 1.35, 1.85),
        (5, 10): (1.10, 1.10, 1.10, 1.05, 1.05, 1.05, 1.05, 1.00, 0.95, 0.90, 1.10),
        (10, inf): (0.55,) * 11,
    }
)
"""Figure 29.3-1, case C: C_f by strip from the windward edge, in heights of the sign, and by B/s
(`STRIP_ASPECTS`). Where a narrow sign has no such strip, its first printed value is repeated."""
STRIPS_REDUCED_FROM = 0.8
"""Figure 29.3-1, note 3: above this s/h the coefficients of the strips are times 1.8 - s/h."""
_RETURNS = ((0.3, 1.0, 2.0), (0.90, 0.75, 0.60))
"""Figure 29.3-1: length of a return corner over s, and what it leaves of the first strip."""
RETURNS_FROM_ASPECT = 5.0


class Sign(NamedTuple):
    """What a board or figure shows to the wind.

    Attributes:
        width_m: B, level.
        height_m: s, of the sign itself.
        top_m: h, its upper edge above the ground.
        solidity: Closed part of its outline.
    """

    width_m: float
    height_m: float
    top_m: float
    solidity: float = 1.0

    @property
    def aspect(self) -> float:
        """Return B/s."""
        return self.width_m / self.height_m

    @property
    def clearance(self) -> float:
        """Return s/h, at most 1: what reaches below the ground stands on it."""
        return self.height_m / max(self.top_m, self.height_m)


def sign_coefficient(aspect: float, clearance: float) -> float:
    """Return C_f of a solid sign in cases A and B.

    Args:
        aspect: B/s.
        clearance: s/h.

    References:
        ASCE 7-16 and 7-22, Figure 29.3-1: linear both ways between its cells, level outside.
    """
    require_positive(aspect=aspect, clearance=clearance)
    rows = [np.interp(aspect, ASPECTS, row) for row in SIGN_TABLE]
    return float(np.interp(clearance, CLEARANCES, rows))


def openings_factor(solidity: float) -> float:
    """Return by what openings lower the force on the whole area of a solid sign.

    Raises:
        ValueError: If 30 % or more is open; that is an open sign.

    References:
        ASCE 7-16 and 7-22, Figure 29.3-1, note 1: 1 - (1 - solidity)^1.5.
    """
    if not SOLID_FROM < solidity <= 1:
        msg = f"a solid sign is closed by more than {SOLID_FROM} of its area, got {solidity}"
        raise ValueError(msg)
    return float(1 - (1 - solidity) ** 1.5)


def box_sign_factor(least_ratio: float) -> float:
    """Return by what a closed box with two faces lowers C_f of cases A and B.

    Args:
        least_ratio: Depth along the wind over the larger of width and height.

    References:
        ASCE 7-16 and 7-22, Figure 29.3-1, note 2: 1 - 0.133 r, up to r = 0.75.
    """
    return 1 - 0.133 * least_ratio if least_ratio <= 0.75 else 1.0  # noqa: PLR2004 - note 2


def box_sign_offset(largest_ratio: float) -> float:
    """Return how far off the middle case B acts on a box with two faces, in widths.

    Args:
        largest_ratio: Depth along the wind over the smaller of width and height.

    References:
        ASCE 7-16 and 7-22, Figure 29.3-1, note 2: 0.2 - 0.25 r, up to r = 0.4.
    """
    return CASE_B - 0.25 * largest_ratio if largest_ratio <= 0.4 else CASE_B  # noqa: PLR2004


def return_corner_factor(length_over_height: float, aspect: float) -> float:
    """Return what a return corner leaves of the first strip of case C.

    References:
        ASCE 7-16 and 7-22, Figure 29.3-1: 0.90, 0.75 and 0.60 for 0.3, 1.0 and 2.0 heights, from
        five times as wide as high; a shorter corner leaves all of it.
    """
    ratios, factors = _RETURNS
    if aspect < RETURNS_FROM_ASPECT or length_over_height < ratios[0]:
        return 1.0
    return float(np.interp(length_over_height, ratios, factors))


def case_c_strips(sign: Sign, return_corner_m: float = 0.0) -> tuple[WallStrip, ...]:
    """Return C_f of a wide solid sign by strips from its windward edge; none of a narrow one.

    Args:
        sign: On its whole area; openings lower every strip alike.
        return_corner_m: Length of a return at the windward edge.

    References:
        ASCE 7-16 and 7-22, Figure 29.3-1, case C and note 3; linear in B/s between its columns.
    """
    if sign.aspect < CASE_C_ASPECT:
        return ()
    ground = 1.8 - sign.clearance if sign.clearance > STRIPS_REDUCED_FROM else 1.0
    corner = return_corner_factor(return_corner_m / sign.height_m, sign.aspect)
    return tuple(
        WallStrip(
            f"{start:g}s to {min(end, sign.aspect):g}s",
            start * sign.height_m,
            min(end * sign.height_m, sign.width_m),
            float(np.interp(sign.aspect, STRIP_ASPECTS, row)) * ground * (1 if start else corner),
        )
        for (start, end), row in STRIPS.items()
        if start * sign.height_m < sign.width_m
    )


def solid_sign(sign: Sign) -> Coefficient:
    """Return the coefficient of a board on the closed part of its outline, in cases A and B.

    References:
        ASCE 7-16 and 7-22, 29.3.1, Figure 29.3-1; with 30 % or more of openings 29.4, Figure
        29.4-2, flat members.
    """
    require_positive(width_m=sign.width_m, height_m=sign.height_m)
    if sign.solidity <= SOLID_FROM:
        return open_sign(sign.solidity)
    on_whole = sign_coefficient(sign.aspect, sign.clearance) * openings_factor(sign.solidity)
    strips = case_c_strips(sign)
    return Coefficient(
        on_whole / sign.solidity,
        f"solid sign, B/s {sign.aspect:.2f}, s/h {sign.clearance:.2f}"
        + (f", {1 - sign.solidity:.0%} open" if sign.solidity < 1 else ""),
        f"{FIGURE}; for a figure that is no board it is an assumption",
        confirmed=True,
        others=(
            *(("case C, strip at the windward edge", s.coefficient) for s in strips[:1]),
            ("square plate in smooth flow, handbook", drag("square plate").value),
        ),
    )


def middle_cases(sign: Sign, coefficient: Coefficient) -> tuple[Placed, ...]:
    """Return the force at each of `PLACES` where strips are not looked at: case C is case A.

    References:
        ASCE 7-16 and 7-22, Figure 29.3-1, cases A and B, with the note on signs on the ground.
    """
    up_m = GROUND_RISE * sign.height_m if sign.clearance >= ON_GROUND else 0.0
    arm_m = CASE_B * sign.width_m
    middle = Placed(coefficient.value, 0.0, up_m)
    off = (middle._replace(right_m=arm_m), middle._replace(right_m=-arm_m))
    return (middle, *off, middle, middle)


def sign_cases(sign: Sign, coefficient: Coefficient, least: float = 0.0) -> tuple[Placed, ...]:
    """Return the force on a free sign at each of `PLACES`.

    The strips of case C are those of the rectangle round the outline: their mean stands on the
    outline, their resultant off its middle.

    Args:
        sign: What it shows.
        coefficient: In cases A and B, on the closed part of its outline.
        least: `least_coefficient`, below which the mean of the strips is not taken.

    References:
        ASCE 7-16 and 7-22, Figure 29.3-1, cases A, B and C with its notes.
    """
    cases = middle_cases(sign, coefficient)
    strips = case_c_strips(sign)
    if not strips or sign.solidity <= SOLID_FROM:
        return cases
    mean, off_m = mean_and_arm(strips)
    stripped = max(mean * openings_factor(sign.solidity) / sign.solidity, least)
    up_m = cases[0].up_m
    return (*cases[:3], Placed(stripped, off_m, up_m), Placed(stripped, -off_m, up_m))


def least_coefficient(pressure_pa: float) -> float:
    """Return the coefficient that gives the least pressure of the rule.

    References:
        ASCE 7-16 and 7-22, 29.7: not less than 0.77 kN/m2 (16 psf) on the area.
    """
    require_positive(pressure_pa=pressure_pa)
    return LEAST_PRESSURE_PA / pressure_pa


def at_least(coefficient: Coefficient, least: float) -> Coefficient:
    """Return a coefficient, raised to the least where it is smaller, with that in words."""
    if coefficient.value >= least:
        return coefficient
    return replace(
        coefficient,
        value=least,
        rule=f"{coefficient.rule}; raised from {coefficient.value:.2f} to the least pressure of "
        "0.77 kN/m2 (16 psf)",
    )
