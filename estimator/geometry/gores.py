"""Gores: long pieces from pole to pole that a closed body is put together from.

A gore as wide as its share of the girth has just the area of the body, and is hammered hollow to
fit. One that is only bent one way is a strip of cylinder: where its edges meet those of its
neighbours it is wider than its share, since the body is then flat-sided between the seams.
"""

import math
from typing import NamedTuple

import numpy as np
from scipy.special import ellipe, ellipeinc

FEWEST = 3
"""Fewer gores than this do not close a body."""
STATIONS = 49
"""Places along a gore at which its width is given."""


class Gores(NamedTuple):
    """Gores alike.

    Attributes:
        along_m: Stations along one.
        half_m: Half its width there.
        area_m2: Of one.
    """

    along_m: tuple[float, ...]
    half_m: tuple[float, ...]
    area_m2: float

    @property
    def length_m(self) -> float:
        """Return the length of one, along its middle."""
        return self.along_m[-1] - self.along_m[0]

    @property
    def width_m(self) -> float:
        """Return the greatest width of one."""
        return 2 * max(self.half_m)


def share_rad(count: int, *, bent: bool) -> float:
    """Return half the width of a gore over the radius it lies at.

    Args:
        count: How many close the body.
        bent: Whether they are bent one way only, and not hammered hollow.

    Raises:
        ValueError: If they cannot close a body.
    """
    if count < FEWEST:
        msg = f"a body is closed by {FEWEST} gores or more, got {count}"
        raise ValueError(msg)
    return float(np.tan(np.pi / count) if bent else np.pi / count)


def girth_m(first_m: float, second_m: float) -> float:
    """Return the girth of an ellipse by its two full axes."""
    long_m, short_m = max(first_m, second_m), min(first_m, second_m)
    return float(2 * long_m * ellipe(1 - (short_m / long_m) ** 2))


def ellipsoid_gores(axes_m: tuple[float, float, float], count: int, *, bent: bool = False) -> Gores:
    """Return the gores of an ellipsoid by its three full axes; poles on its longest.

    All are taken alike: on a body that is not round about that axis, the true ones next to its
    flatter sides are a little longer and those next to its narrower ones shorter.
    """
    long_m, wide_m, thick_m = sorted(axes_m, reverse=True)
    pole_m, belt_m = long_m / 2, girth_m(wide_m, thick_m) / (2 * np.pi)
    latitude_rad = np.linspace(-np.pi / 2, np.pi / 2, STATIONS)
    along_m = pole_m * ellipeinc(latitude_rad, max(0.0, 1 - (belt_m / pole_m) ** 2))
    share = share_rad(count, bent=bent)
    half_m = share * belt_m * np.cos(latitude_rad)
    return Gores(
        tuple(along_m.tolist()), tuple(half_m.tolist()),
        share / np.pi * spheroid_skin_m2(pole_m, belt_m),
    )  # fmt: skip


def spheroid_skin_m2(pole_m: float, belt_m: float) -> float:
    """Return the skin of a long body of revolution by its half length and half breadth [m]."""
    eccentricity = math.sqrt(max(0.0, 1 - (belt_m / pole_m) ** 2))
    bulge = math.asin(eccentricity) / eccentricity if eccentricity else 1.0
    return 2 * math.pi * belt_m * (belt_m + pole_m * bulge)


def ring_gores(diameter_m: float, tube_m: float, count: int, *, bent: bool = False) -> Gores:
    """Return the pieces of a round ring: cut square to it, their seams in planes of its axis.

    Each is laid flat round its tube, from the inside of the ring over its outside and back.

    Args:
        diameter_m: Over all.
        tube_m: Diameter of the tube.
        count: Pieces round the ring.
        bent: Whether each is a straight piece of tube, mitred at its ends.
    """
    radius_m, tube_radius_m = (diameter_m - tube_m) / 2, tube_m / 2
    around_rad = np.linspace(-np.pi, np.pi, STATIONS)
    share = share_rad(count, bent=bent)
    half_m = share * (radius_m + tube_radius_m * np.cos(around_rad))
    along_m = tube_radius_m * around_rad
    area_m2 = 4 * np.pi * share * radius_m * tube_radius_m
    return Gores(tuple(along_m.tolist()), tuple(half_m.tolist()), area_m2)
