"""A round bar or tube bent to a circular arc, with or without a taper: necks and scrolls.

The arc lies in the along-beside plane, its chord along `along`, and bulges towards +beside.
"""

from typing import NamedTuple

import numpy as np

from estimator.geometry.measures import (
    Dims,
    Floats,
    Measures,
    Region,
    combined,
    given,
    one,
    times,
)
from estimator.geometry.turned import round_section

ENVELOPE_STATIONS = 129
"""Places along a bar at which its envelope is taken: within 1/5000 of the radius of the arc."""
HALVINGS = 52
"""Halvings of the interval for the angle of an arc: down to the last bit of a float."""


class Bow(NamedTuple):
    """The centre line of n bent bars at m stations, from the middle of their envelope.

    Attributes:
        at_m: (n, m, 3) points.
        normal: (n, m, 3) unit vectors in the plane of the arc, out from its centre.
        radius_m: (n, m) radius of the bar.
        curvature: (n,) one over the radius of the arc [1/m]; 0 when straight.
    """

    at_m: Floats
    normal: Floats
    radius_m: Floats
    curvature: Floats


def half_angle(ratio: Floats) -> Floats:
    """Return half the angle [rad] of an arc, from its chord over its length."""
    low, high = np.zeros_like(ratio), np.full_like(ratio, np.pi)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        flatter = np.sinc(middle / np.pi) > ratio  # sin(x) / x falls from 1 to 0
        low, high = np.where(flatter, middle, low), np.where(flatter, high, middle)
    return np.where(ratio < 1, low, 0.0)


def _from_crown(dims: Dims, stations: Floats) -> Bow:
    """Return the centre line at fractions -1/2 to 1/2 of its length, from its crown."""
    length_m, chord_m = dims.length_m, dims.width_m
    whole_rad = 2 * half_angle(chord_m / length_m)
    angle_rad = whole_rad[:, None] * stations
    run_m = length_m[:, None] * stations
    along_m = run_m * np.sinc(angle_rad / np.pi)
    beside_m = -run_m * np.sin(angle_rad / 2) * np.sinc(angle_rad / (2 * np.pi))
    flat = np.zeros_like(along_m)
    near_m = dims.diameter_m / 2
    far_m = given(dims.end_diameter_m, dims.diameter_m) / 2
    radius_m = near_m[:, None] + (far_m - near_m)[:, None] * (stations + 0.5)
    return Bow(
        np.stack((along_m, beside_m, flat), axis=-1),
        np.stack((np.sin(angle_rad), np.cos(angle_rad), flat), axis=-1),
        radius_m,
        whole_rad / length_m,
    )


def _extremes(dims: Dims) -> tuple[Floats, Floats]:
    """Return the (n, 3) lowest and highest corner of the envelope, from the crown."""
    line = _from_crown(dims, np.linspace(-0.5, 0.5, ENVELOPE_STATIONS))
    reach_m = line.radius_m[..., None] * (np.abs(line.normal) + np.array([0.0, 0.0, 1.0]))
    return (line.at_m - reach_m).min(axis=1), (line.at_m + reach_m).max(axis=1)


def bow(dims: Dims, stations: Floats) -> Bow:
    """Return the centre line at fractions -1/2 to 1/2 of its length, (m,) of them."""
    return _about(_from_crown(dims, stations), *_extremes(dims))


def _about(line: Bow, low_m: Floats, high_m: Floats) -> Bow:
    """Return a line from the crown as one from the middle of its envelope."""
    return line._replace(at_m=line.at_m - ((low_m + high_m) / 2)[:, None, :])


def _swept(line: Bow, weights: Floats, sections_m2: Floats) -> Region:
    """Return a region led along the line.

    Args:
        line: The line at the stations of a quadrature rule.
        weights: (n, m) size of the region at each station.
        sections_m2: (n, m) mean square of its cross-section about any axis in it.
    """
    size = weights.sum(axis=1)
    share = weights / size[:, None]
    # The outside of a bend is longer than the inside: the section's middle moves out by that.
    outwards_m = sections_m2 * line.curvature[:, None]
    points_m = line.at_m + outwards_m[..., None] * line.normal
    middle_m = np.einsum("nm,nmi->ni", share, points_m)
    off_m = points_m - middle_m[:, None, :]
    second_m2 = np.einsum("nm,nmi,nmj->nij", share, off_m, off_m)
    in_plane_m2 = sections_m2 - outwards_m**2
    second_m2 += np.einsum("nm,nmi,nmj->nij", share * in_plane_m2, line.normal, line.normal)
    second_m2[:, 2, 2] += (share * sections_m2).sum(axis=1)
    return Region(size, middle_m, second_m2)


def formed(dims: Dims) -> Measures:
    """Return a bar of given developed length bent to an arc of given chord (width).

    Round, from diameter at the -along end to end diameter at the other (blank: no taper), solid
    or with a wall. The slope of the skin by the taper is counted, its change by the bend is not.
    """
    low_m, high_m = _extremes(dims)
    knots, weights = np.polynomial.legendre.leggauss(32)
    line = _about(_from_crown(dims, knots / 2), low_m, high_m)
    step_m = dims.length_m[:, None] * weights / 2
    diameter_m = 2 * line.radius_m
    taper_m = (given(dims.end_diameter_m, dims.diameter_m) - dims.diameter_m) / 2
    slope = np.hypot(1.0, taper_m / dims.length_m)[:, None]
    skin = _swept(line, np.pi * diameter_m * slope * step_m, line.radius_m**2 / 2)
    material = round_section(diameter_m, dims.wall_m[:, None])
    ends = _about(_from_crown(dims, np.array([-0.5, 0.5])), low_m, high_m)
    caps = _swept(
        ends._replace(curvature=np.zeros_like(ends.curvature)),
        np.pi * ends.radius_m**2,
        ends.radius_m**2 / 4,
    )
    return Measures(
        high_m - low_m,
        one(skin),
        line=_swept(line, np.broadcast_to(step_m, diameter_m.shape), np.zeros_like(diameter_m)),
        face=skin,
        faces=times(skin, np.where(dims.wall_m > 0, 2.0, 1.0)),
        outside=combined(skin, caps),
        solid=_swept(line, material.size * step_m, material.second_m2[..., 1, 1]),
    )
