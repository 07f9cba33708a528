"""Round shapes with a body: cones, balls, domes, and bars rolled to a full ring.

Cones run along `along`; domes bulge towards `faces`; tori and hoops lie flat, their axis `faces`.
"""

import numpy as np
from scipy.special import elliprg

from estimator.geometry.flat import disc_face, straight_line
from estimator.geometry.measures import (
    Dims,
    Floats,
    Measures,
    Region,
    centred,
    combined,
    envelope,
    given,
    one,
    shifted,
    times,
)
from estimator.geometry.solids import circle_area, circle_line, closed, rounded_area, rounded_line

ELLIPSOID_STEP = 0.5
ELLIPSOID_STATIONS = np.arange(-30.0, 70.0, ELLIPSOID_STEP)
"""Stations in ln(t) for `_skin_mean_square_m2`: the trapezoid rule converges there like
exp(-2 pi^2 / step), and the ends are far enough out for axes of up to 1 : 1000."""
ELLIPSOID_STATIONS.setflags(write=False)


def cone(dims: Dims) -> Measures:
    """Return a frustum: diameter at the -along end, end diameter (0 is a point) at the other.

    Its face is the side skin only; the whole outside counts both ends.
    """
    length_m, near_m, far_m = dims.length_m, dims.diameter_m / 2, given(dims.end_diameter_m) / 2
    total_m = near_m + far_m
    middle_m = length_m * (far_m - near_m) / (6 * total_m)
    side = centred(
        np.pi * total_m * np.hypot(length_m, near_m - far_m),
        length_m**2 / 12 - middle_m**2,
        (near_m**2 + far_m**2) / 4,
        (near_m**2 + far_m**2) / 4,
    )
    side = shifted(side, 0, middle_m)
    widest_m = 2 * np.maximum(near_m, far_m)
    solid = _frustum(length_m, total_m / 2, far_m - near_m)
    return Measures(
        envelope(length_m, widest_m, widest_m),
        one(side),
        line=straight_line(length_m),
        face=side,
        faces=times(side, 2.0),
        outside=closed(side, length_m, circle_area(2 * near_m), circle_area(2 * far_m)),
        solid=solid,
        inside=solid,
    )


def _frustum(length_m: Floats, mean_m: Floats, taper_m: Floats) -> Region:
    """Return a solid frustum by its mean radius and the growth of the radius along it."""
    mean_square_m2 = mean_m**2 + taper_m**2 / 12
    middle_m = length_m * mean_m * taper_m / (6 * mean_square_m2)
    along_m2 = length_m**2 * (mean_m**2 / 12 + taper_m**2 / 80) / mean_square_m2 - middle_m**2
    fourth_m4 = mean_m**4 + mean_m**2 * taper_m**2 / 2 + taper_m**4 / 80
    across_m2 = fourth_m4 / (4 * mean_square_m2)
    solid = centred(np.pi * length_m * mean_square_m2, along_m2, across_m2, across_m2)
    return shifted(solid, 0, middle_m)


def sphere(dims: Dims) -> Measures:
    """Return a ball."""
    square_m2 = dims.diameter_m**2
    skin = centred(np.pi * square_m2, *3 * (square_m2 / 12,))
    solid = centred(np.pi * dims.diameter_m**3 / 6, *3 * (square_m2 / 20,))
    box_m = envelope(dims.diameter_m, dims.diameter_m, dims.diameter_m)
    return _ball(box_m, skin, solid)


def _ball(box_m: Floats, skin: Region, solid: Region) -> Measures:
    """Return a body with one closed skin and no length to speak of."""
    return Measures(
        box_m,
        one(skin),
        face=skin,
        faces=times(skin, 2.0),
        outside=skin,
        solid=solid,
        inside=solid,
    )


def ellipsoid(dims: Dims) -> Measures:
    """Return an ellipsoid by its three full axes.

    References:
        Skin: NIST Digital Library of Mathematical Functions, 19.33.1 (number from memory).
    """
    box_m = envelope(dims.length_m, dims.width_m, dims.depth_m)
    half_m = box_m / 2
    volume_m3 = 4 / 3 * np.pi * half_m.prod(axis=-1)
    stretch = np.asarray(elliprg(*np.moveaxis(half_m**-2, -1, 0)), float)
    skin = centred(3 * volume_m3 * stretch, *_skin_mean_square_m2(half_m, stretch))
    solid = centred(volume_m3, *np.moveaxis(half_m**2 / 5, -1, 0))
    return _ball(box_m, skin, solid)


def _skin_mean_square_m2(half_m: Floats, stretch: Floats) -> tuple[Floats, ...]:
    """Return the mean squares of an ellipsoid's skin along its three axes.

    The mean of u_i^2 sqrt(p . u^2) over the unit sphere, p the inverse squares of the axes, is a
    third of Carlson's R_(1/2)(b; p) with b = 3/2 on axis i and 1/2 on the others. It is raised one
    step, so that the integral converges, and integrated over ln(t).

    References:
        NIST Digital Library of Mathematical Functions, 19.16.9 and 19.18 (numbers from memory).
    """
    largest = (half_m**-2).max(axis=-1)
    p = half_m**-2 / largest[:, None]
    t = np.exp(ELLIPSOID_STATIONS)
    gaps = t + p[:, :, None]  # (n, 3, stations)
    kernel = t**3 / np.sqrt(gaps.prod(axis=1)) * ELLIPSOID_STEP
    # mean[n, i, j]: the integral with one more power of axis i and one more of axis j.
    mean = np.einsum("nit,njt,nt->nij", 1 / gaps, 1 / gaps, kernel)
    weights = np.full((3, 3), 0.5) + np.eye(3)
    beta = 16 / 15  # the Beta function of 1/2 and 3
    r_half = (weights * p[:, None, :] * mean).sum(axis=-1) / (2.5 * beta)
    mean_square_m2 = half_m**2 * r_half * (np.sqrt(largest) / (3 * stretch))[:, None]
    return tuple(np.moveaxis(mean_square_m2, -1, 0))


def dome(dims: Dims) -> Measures:
    """Return a cap of a sphere by the diameter of its rim and its rise, at most half of that.

    Its face is the cap; the whole outside closes it over the rim.
    """
    rise_m, rim_m2 = dims.depth_m, dims.diameter_m**2 / 4
    cap = centred(
        np.pi * (rim_m2 + rise_m**2),
        *2 * ((rim_m2 + rise_m**2) / 4 - rise_m**2 / 6,),
        rise_m**2 / 12,
    )
    return Measures(
        envelope(dims.diameter_m, dims.diameter_m, rise_m),
        one(cap),
        face=cap,
        faces=times(cap, 2.0),
        outside=combined(cap, shifted(disc_face(dims.diameter_m), 2, -rise_m / 2)),
        solid=_cap_solid(rise_m, (rim_m2 + rise_m**2) / 2),
    )


def _cap_solid(rise_m: Floats, half_square_m2: Floats) -> Region:
    """Return a solid cap, by its rise and the product of rise and radius of the sphere."""
    rise_m2 = rise_m**2
    area_m2 = half_square_m2 - rise_m2 / 3  # mean section over pi
    depth_m = rise_m * (2 * half_square_m2 / 3 - rise_m2 / 4) / area_m2  # below the crown
    faces_m2 = rise_m2 * (half_square_m2 / 2 - rise_m2 / 5) / area_m2 - depth_m**2
    rim_m2 = (half_square_m2**2 / 3 - half_square_m2 * rise_m2 / 4 + rise_m2**2 / 20) / area_m2
    solid = centred(np.pi * rise_m * area_m2, rim_m2, rim_m2, faces_m2)
    return shifted(solid, 2, rise_m / 2 - depth_m)


def revolved(section: Region, radius_m: Floats) -> Region:
    """Return a cross-section led round a circle, its `beside` pointing out from the centre.

    The section must be symmetrical about the line of that circle.

    References:
        Second theorem of Pappus, and its like for second moments.
    """
    radial_m2 = (radius_m**2 + 3 * section.second_m2[..., 1, 1]) / 2
    size = 2 * np.pi * radius_m * section.size
    return centred(size, radial_m2, radial_m2, section.second_m2[..., 2, 2])


def torus(dims: Dims) -> Measures:
    """Return a round ring by its overall diameter and that of its tube (end diameter)."""
    radius_m = (dims.diameter_m - dims.end_diameter_m) / 2
    skin = revolved(circle_line(dims.end_diameter_m), radius_m)
    solid = revolved(circle_area(dims.end_diameter_m), radius_m)
    box_m = envelope(dims.diameter_m, dims.diameter_m, dims.end_diameter_m)
    return _ball(box_m, skin, solid)._replace(line=_circle(radius_m))


def _circle(radius_m: Floats) -> Region:
    """Return a circle as a line."""
    return centred(2 * np.pi * radius_m, radius_m**2 / 2, radius_m**2 / 2, 0)


def round_section(diameter_m: Floats, wall_m: Floats) -> Region:
    """Return a round cross-section, solid where no wall is given."""
    bore_m = np.where(wall_m > 0, np.maximum(diameter_m - 2 * wall_m, 0), 0)
    return combined(circle_area(diameter_m), times(circle_area(bore_m), -1.0))


def hoop_section_m(dims: Dims) -> tuple[Floats, Floats]:
    """Return the radial depth and the width along the axis of a hoop's cross-section."""
    is_round = dims.end_diameter_m > 0
    return (
        np.where(is_round, dims.end_diameter_m, dims.depth_m),
        np.where(is_round, dims.end_diameter_m, dims.width_m),
    )


def hoop(dims: Dims) -> Measures:
    """Return a bar rolled to a ring by its overall diameter.

    The bar is a flat, width along the axis and depth radial, or with an end diameter a round bar,
    or with a wall as well a tube. Its length is the circle through the middle of the bar.
    """
    depth_m, width_m = hoop_section_m(dims)
    radius_m = (dims.diameter_m - depth_m) / 2
    is_round = dims.end_diameter_m > 0
    sharp = np.zeros_like(depth_m)
    around = _either(is_round, circle_line(depth_m), rounded_line(depth_m, width_m, sharp))
    material = _either(
        is_round, round_section(depth_m, dims.wall_m), rounded_area(depth_m, width_m, sharp)
    )
    skin = revolved(around, radius_m)
    box_m = envelope(dims.diameter_m, dims.diameter_m, width_m)
    hooped = _ball(box_m, skin, revolved(material, radius_m))
    cavity = is_round & (dims.wall_m > 0)
    return hooped._replace(line=_circle(radius_m), faces=times(skin, np.where(cavity, 2.0, 1.0)))


def _either(which: np.ndarray, yes: Region, no: Region) -> Region:
    """Return one region where a mask holds and the other where it does not."""
    return Region(
        np.where(which, yes.size, no.size),
        np.where(which[:, None], yes.middle_m, no.middle_m),
        np.where(which[:, None, None], yes.second_m2, no.second_m2),
    )
