"""Boards and walls face to the wind: EN 1991-1-4, 7.4, with the rules that disagree with it."""

from itertools import pairwise
from typing import NamedTuple

import numpy as np

from estimator.wind.charts import effective_slenderness, end_effect_factor, require_positive
from estimator.wind.handbook import drag
from estimator.wind.records import Coefficient

_SIGNBOARD = "EN 1991-1-4:2005, 7.4.3, as in a worked example (scribd.com/doc/179494512)"
_WALL = "EN 1991-1-4:2005, 7.4.1, Table 7.9, as coded in an open-source library"

SIGNBOARD = 1.80
ECCENTRICITY = 0.25
"""7.4.3(3): of the width, to either side."""
CLEARANCE_RATIO = 0.25
"""7.4.3(1): a board higher off the ground than this part of its height stands free."""
_WALL_RATIOS = (3.0, 5.0, 10.0)
_WALL_ENDS = (0.3, 2.0, 4.0)
"""Figure 7.19: where zones A, B and C end, in wall heights."""
_OPEN_WALL = ((2.3, 2.9, 3.4), (1.4, 1.8, 2.1), (1.2, 1.4, 1.7), (1.2, 1.2, 1.2))
_RETURNED_WALL = ((2.1,) * 3, (1.8,) * 3, (1.4,) * 3, (1.2,) * 3)
"""Table 7.9: zones A to D, by length over height as in ``_WALL_RATIOS``."""
_LEAST_SOLIDITY = 0.8
_POROUS_WALL = 1.2


class Board(NamedTuple):
    """How a board is loaded.

    Attributes:
        coefficient: On width times height.
        reference_height_m: Where the pressure is read, above the ground.
        eccentricity_m: Distance of the force from the middle, to either side.
    """

    coefficient: Coefficient
    reference_height_m: float
    eccentricity_m: float


def plate_rivals(length_m: float, width_m: float) -> tuple[tuple[str, float], ...]:
    """Return what rules other than the signboard's give for the same plate, face to the wind."""
    long_m, short_m = max(length_m, width_m), min(length_m, width_m)
    slender = float(end_effect_factor(effective_slenderness(long_m, short_m)))
    return (
        ("flat plate with end effect, EN 1991-1-4 Figures 7.23 and 7.36", 2.0 * slender),
        ("square plate in smooth flow, handbook", drag("square plate").value),
        ("endless plate in smooth flow, handbook", drag("long plate").value),
    )


def signboard(width_m: float, height_m: float, clearance_m: float) -> Board:
    """Return the coefficient of a board face to the wind, clear of any building.

    Args:
        width_m: b, level width.
        height_m: h, height of the board itself.
        clearance_m: z_g, under edge above the ground.

    References:
        EN 1991-1-4:2005, 7.4.3: 1.80 if z_g >= h/4 or b <= h, at z_g + h/2, off centre by 0.25 b.
        A wide board near the ground goes by 7.4.1 as a wall (that it does is from memory): mean of
        the strips, off centre by their resultant, read at the top.
    """
    require_positive(width_m=width_m, height_m=height_m)
    if not clearance_m >= 0:
        msg = f"a board's under edge is at or above the ground, got clearance_m={clearance_m}"
        raise ValueError(msg)
    rivals = plate_rivals(width_m, height_m)
    if clearance_m >= CLEARANCE_RATIO * height_m or width_m <= height_m:
        coefficient = Coefficient(SIGNBOARD, "signboard", _SIGNBOARD, confirmed=True, others=rivals)
        return Board(coefficient, clearance_m + height_m / 2, ECCENTRICITY * width_m)
    mean, arm_m = mean_and_arm(free_standing_wall(width_m, height_m))
    coefficient = Coefficient(
        mean,
        "wide board near the ground, as a free-standing wall, mean of its strips",
        f"{_WALL}; that 7.4.3 sends it there is from memory",
        confirmed=False,
        others=(("signboard, EN 1991-1-4 7.4.3", SIGNBOARD), *rivals),
    )
    return Board(coefficient, clearance_m + height_m, arm_m)


def cautious_board(
    width_m: float, height_m: float, clearance_m: float, top_over_middle: float = 1.0
) -> Coefficient:
    """Return the coefficient of a board on the pressure at its middle, at least a signboard's.

    A wide board near the ground goes by the larger of that and a free-standing wall, whose pressure
    is read at its top; that it goes by the wall is from memory.

    Args:
        width_m: b.
        height_m: h.
        clearance_m: z_g.
        top_over_middle: Pressure at its top over that at its middle.

    References:
        EN 1991-1-4:2005, 7.4.3 and 7.4.1.
    """
    found = signboard(width_m, height_m, clearance_m).coefficient
    if found.confirmed:
        return found
    ends, as_wall = free_standing_wall(width_m, height_m)[0], found.value * top_over_middle
    wall = f"{found.rule}, times {top_over_middle:.3g} for the pressure at its top"
    board = "signboard, though wide and near the ground"
    ways = (
        (as_wall, wall, found.source),
        (SIGNBOARD, board, f"{_SIGNBOARD}, outside its conditions"),
    )
    (value, rule, source), (less, other, _) = sorted(ways, reverse=True)
    return Coefficient(
        value,
        rule,
        source,
        confirmed=False,
        others=(
            (other, less),
            (
                "as a free-standing wall, the strip at its end, at its top",
                ends.coefficient * top_over_middle,
            ),
            *found.others[1:],
        ),
    )


class WallStrip(NamedTuple):
    """Part of a free-standing wall, by distance from the edge the wind meets first."""

    zone: str
    start_m: float
    end_m: float
    coefficient: float


def free_standing_wall(
    length_m: float, height_m: float, *, solidity: float = 1.0, return_corners: bool = False
) -> tuple[WallStrip, ...]:
    """Return the net pressure coefficients of a free-standing wall or parapet, strip by strip.

    Args:
        length_m: Level length.
        height_m: Height above the ground.
        solidity: Closed part of the area, 0.8 to 1; a more open one is a lattice.
        return_corners: The wall turns a corner at its ends, for at least its own height.

    References:
        EN 1991-1-4:2005, 7.4.1, Table 7.9, Figure 7.19, as coded in an open-source library; linear
        between its rows.
    """
    require_positive(length_m=length_m, height_m=height_m)
    if not _LEAST_SOLIDITY <= solidity <= 1:
        msg = f"a wall's solidity lies between {_LEAST_SOLIDITY} and 1, got {solidity}"
        raise ValueError(msg)
    table = _RETURNED_WALL if return_corners else _OPEN_WALL
    closed = (solidity - _LEAST_SOLIDITY) / (1 - _LEAST_SOLIDITY)
    bounds_m = (0.0, *(min(end * height_m, length_m) for end in _WALL_ENDS), length_m)
    strips = (
        WallStrip(
            zone,
            start_m,
            end_m,
            _POROUS_WALL + closed * (_between(length_m / height_m, row) - _POROUS_WALL),
        )
        for zone, (start_m, end_m), row in zip("ABCD", pairwise(bounds_m), table, strict=True)
    )
    return tuple(strip for strip in strips if strip.end_m > strip.start_m)


def mean_and_arm(strips: tuple[WallStrip, ...]) -> tuple[float, float]:
    """Return the mean coefficient, and how far its resultant lies from the middle in m."""
    length_m = strips[-1].end_m
    total = sum(s.coefficient * (s.end_m - s.start_m) for s in strips)
    turning = sum(s.coefficient * (s.end_m**2 - s.start_m**2) / 2 for s in strips)
    return total / length_m, length_m / 2 - turning / total


def _between(ratio: float, row: tuple[float, ...]) -> float:
    return float(np.interp(ratio, _WALL_RATIOS, row))
