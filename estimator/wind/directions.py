"""Wind that differs from side to side: which sides are looked at, and how hard it blows from each.

Directions are the side the wind comes from in the wall's frame, in degrees: 0 the street, 90 the
right, 180 behind, 270 the left.
"""

from collections.abc import Mapping, Sequence

import numpy as np

from estimator.wind.records import FloatArray

USUAL = 24
"""Directions that are looked at unless somebody says otherwise."""
FULL_TURN_DEG = 360.0


def evenly(count: int) -> tuple[float, ...]:
    """Return so many directions, evenly round from the street.

    Raises:
        ValueError: If there are none.
    """
    if count < 1:
        msg = f"at least one direction is needed, got {count}"
        raise ValueError(msg)
    return tuple(FULL_TURN_DEG / count * i for i in range(count))


def bearing(faces_deg: float, direction_deg: float) -> float:
    """Return the compass bearing a wind comes from, clockwise from north, in degrees.

    Args:
        faces_deg: Bearing the wall looks to.
        direction_deg: Side of the wind. The right of one who looks at the wall is 90 degrees less.
    """
    return (faces_deg - direction_deg) % FULL_TURN_DEG


def stated_around(stated_pa: Mapping[float, float], directions_deg: Sequence[float]) -> FloatArray:
    """Return pressures in Pa where somebody stated them from some sides only.

    Between two stated sides the larger of both holds: how it changes between them was not said.

    Args:
        stated_pa: Pressure by direction, at least one.
        directions_deg: Directions wanted.
    """
    sides = np.array(sorted(side % FULL_TURN_DEG for side in stated_pa))
    by_side = {side % FULL_TURN_DEG: pressure for side, pressure in stated_pa.items()}
    values = np.array([by_side[side] for side in sides.tolist()])
    wanted = np.asarray(directions_deg, dtype=np.float64) % FULL_TURN_DEG
    before = np.searchsorted(sides, wanted, side="right") - 1
    after = np.searchsorted(sides, wanted, side="left") % len(sides)
    around: FloatArray = np.maximum(values[before], values[after])
    return around


def shares(values: FloatArray, power: float = 1.0) -> tuple[float, ...]:
    """Return how much of the highest pressure blows from each direction.

    Args:
        values: Pressures, or factors on the speed.
        power: 1 for pressures, 2 for speeds: EN 1991-1-4:2005, 4.5(1), expression (4.10).
    """
    return tuple(((values / np.max(values)) ** power).tolist())
