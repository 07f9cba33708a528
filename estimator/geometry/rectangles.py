"""Rectangles that lie square on the wall face: how far in or out of one a place is."""

import math
from typing import NamedTuple


class Rectangle(NamedTuple):
    """A rectangle by its sides, metres from the datum."""

    left_m: float
    foot_m: float
    right_m: float
    head_m: float


def inside_by(at_m: tuple[float, float], rectangle: Rectangle) -> float:
    """Return how far a place lies inside a rectangle: to its nearest side; negative outside.

    Args:
        at_m: Across and up.
        rectangle: The rectangle.

    Returns:
        Metres to the nearest side from within, or minus the shortest way to it from without.
    """
    across_m, up_m = at_m
    within_across_m = min(across_m - rectangle.left_m, rectangle.right_m - across_m)
    within_up_m = min(up_m - rectangle.foot_m, rectangle.head_m - up_m)
    if within_across_m >= 0 and within_up_m >= 0:
        return min(within_across_m, within_up_m)
    return -math.hypot(min(within_across_m, 0.0), min(within_up_m, 0.0))
