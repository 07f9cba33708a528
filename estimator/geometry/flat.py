"""Flat shapes: cut from sheet, taken as without thickness.

Each lies in its along-beside plane and looks along `faces`.
"""

import numpy as np

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


def _flat(along_m: Floats, beside_m: Floats, face: Region, line: Region | None) -> Measures:
    """Return the measures of a face without thickness."""
    both = times(face, 2.0)
    box_m = envelope(along_m, beside_m, np.zeros_like(along_m))
    return Measures(box_m, one(face), line=line, face=face, faces=both, outside=both)


def straight_line(length_m: Floats) -> Region:
    """Return a straight line along its length, about its middle."""
    return centred(length_m, length_m**2 / 12, 0, 0)


def disc_face(diameter_m: Floats) -> Region:
    """Return a full disc looking along `faces`."""
    return centred(np.pi * diameter_m**2 / 4, diameter_m**2 / 16, diameter_m**2 / 16, 0)


def sheet(dims: Dims) -> Measures:
    """Return a rectangle of length x width."""
    length_m, width_m = dims.length_m, dims.width_m
    face = centred(length_m * width_m, length_m**2 / 12, width_m**2 / 12, 0)
    return _flat(length_m, width_m, face, straight_line(length_m))


def disc(dims: Dims) -> Measures:
    """Return a disc, with a round hole in the middle where a bore is given."""
    face = combined(disc_face(dims.diameter_m), times(disc_face(given(dims.bore_m)), -1.0))
    return _flat(dims.diameter_m, dims.diameter_m, face, None)


def ring(dims: Dims) -> Measures:
    """Return a flat ring; its length is the circle half-way across its face."""
    face = combined(disc_face(dims.diameter_m), times(disc_face(dims.bore_m), -1.0))
    mean_m = (dims.diameter_m + dims.bore_m) / 2
    line = centred(np.pi * mean_m, mean_m**2 / 8, mean_m**2 / 8, 0)
    return _flat(dims.diameter_m, dims.diameter_m, face, line)


def sector_extent(dims: Dims) -> tuple[Floats, Floats, Floats]:
    """Return half the breadth of a sector, and its lowest and highest `beside` from the centre."""
    outer_m, inner_m = dims.diameter_m / 2, given(dims.bore_m) / 2
    half_rad = dims.angle_rad / 2
    half_breadth_m = outer_m * np.sin(np.minimum(half_rad, np.pi / 2))
    cosine = np.cos(half_rad)
    return half_breadth_m, -outer_m, -cosine * np.where(cosine > 0, inner_m, outer_m)


def _arc(
    size: Floats, half_rad: Floats, mean_radius_m: Floats, mean_square_radius_m2: Floats
) -> Region:
    """Return what is spread evenly over an angle each side of -beside, about the arc's centre."""
    middle_m = -mean_radius_m * np.sin(half_rad) / half_rad
    ripple = np.sin(2 * half_rad) / (2 * half_rad)
    along_m2 = mean_square_radius_m2 * (1 - ripple) / 2
    beside_m2 = mean_square_radius_m2 * (1 + ripple) / 2 - middle_m**2
    return shifted(centred(size, along_m2, beside_m2, 0), 1, middle_m)


def sector(dims: Dims) -> Measures:
    """Return a piece of a disc or ring; the middle of its arc points along -beside.

    In its default pointing 180 degrees is the lower half of a dial.
    """
    outer_m, inner_m, half_rad = dims.diameter_m / 2, given(dims.bore_m) / 2, dims.angle_rad / 2
    half_breadth_m, low_m, high_m = sector_extent(dims)
    to_middle_m = -(low_m + high_m) / 2
    radius_m = 2 / 3 * (outer_m**2 + outer_m * inner_m + inner_m**2) / (outer_m + inner_m)
    area_m2 = half_rad * (outer_m**2 - inner_m**2)
    face = _arc(area_m2, half_rad, radius_m, (outer_m**2 + inner_m**2) / 2)
    mean_m = (outer_m + inner_m) / 2
    line = _arc(2 * half_rad * mean_m, half_rad, mean_m, mean_m**2)
    face, line = (shifted(region, 1, to_middle_m) for region in (face, line))
    return _flat(2 * half_breadth_m, high_m - low_m, face, line)


def blade(dims: Dims) -> Measures:
    """Return a straight taper: width at the -along end, end width (0 is a point) at the other."""
    root_m, tip_m = dims.width_m, given(dims.end_width_m)
    middle_m = dims.length_m * (tip_m - root_m) / (6 * (root_m + tip_m))
    face = centred(
        dims.length_m * (root_m + tip_m) / 2,
        dims.length_m**2 / 12 - middle_m**2,
        (root_m**2 + tip_m**2) / 24,
        0,
    )
    breadth_m = np.maximum(root_m, tip_m)
    return _flat(dims.length_m, breadth_m, shifted(face, 0, middle_m), straight_line(dims.length_m))


def leaf(dims: Dims) -> Measures:
    """Return a leaf pointed at both ends, each edge a parabola: two thirds of its rectangle."""
    length_m, width_m = dims.length_m, dims.width_m
    face = centred(2 / 3 * length_m * width_m, length_m**2 / 20, 2 * width_m**2 / 35, 0)
    return _flat(length_m, width_m, face, straight_line(length_m))
