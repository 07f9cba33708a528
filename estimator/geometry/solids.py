"""Straight shapes with a body: blocks, bars, tubes, and what counts as a line or a lump.

Each runs along its length. A cross-section is a region in the beside-faces plane.
"""

import numpy as np

from estimator.geometry.flat import straight_line
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

CORNERS = ((0.006, 2.0, 1.0), (0.010, 2.5, 1.5), (np.inf, 3.0, 2.0))
"""Up to which wall [m], the outer and the inner corner radius of a cold formed hollow section in
wall thicknesses: EN 10219-2. The outer ones are the middles of its limits (1.6 to 2.4, 2 to 3 and
2.4 to 3.6, as quoted at nkcelik.com.tr/en/en-10219-toleranslar); the inner ones from memory."""


def circle_area(diameter_m: Floats) -> Region:
    """Return a round cross-section."""
    return centred(np.pi * diameter_m**2 / 4, 0, diameter_m**2 / 16, diameter_m**2 / 16)


def circle_line(diameter_m: Floats) -> Region:
    """Return the outline of a round cross-section."""
    return centred(np.pi * diameter_m, 0, diameter_m**2 / 8, diameter_m**2 / 8)


def rounded_area(width_m: Floats, depth_m: Floats, radius_m: Floats) -> Region:
    """Return a rectangular cross-section with round corners, radius 0 for sharp ones."""
    lost = 4 - np.pi
    full = centred(width_m * depth_m, 0, width_m**2 / 12, depth_m**2 / 12)
    # What a quarter circle leaves of its square: its middle from the corner, its own moment.
    inset_m = radius_m * (10 - 3 * np.pi) / (3 * lost)
    own_m2 = radius_m**2 * (4 * (1 / 3 - np.pi / 16) / lost - 1) + 2 * radius_m * inset_m
    own_m2 = own_m2 - inset_m**2
    corners = centred(
        -lost * radius_m**2,
        0,
        own_m2 + (width_m / 2 - inset_m) ** 2,
        own_m2 + (depth_m / 2 - inset_m) ** 2,
    )
    return combined(full, corners)


def rounded_line(width_m: Floats, depth_m: Floats, radius_m: Floats) -> Region:
    """Return the outline of a rectangular cross-section with round corners."""
    flat_w, flat_d = width_m - 2 * radius_m, depth_m - 2 * radius_m
    arc_m = 2 * radius_m / np.pi  # from a corner's centre of curvature to the middle of its arc
    own_m2 = radius_m**2 / 2 - arc_m**2
    return combined(
        centred(2 * flat_w, 0, flat_w**2 / 12, depth_m**2 / 4),
        centred(2 * flat_d, 0, width_m**2 / 4, flat_d**2 / 12),
        centred(
            2 * np.pi * radius_m,
            0,
            own_m2 + (flat_w / 2 + arc_m) ** 2,
            own_m2 + (flat_d / 2 + arc_m) ** 2,
        ),
    )


def extruded(section: Region, length_m: Floats) -> Region:
    """Return a cross-section drawn out to a length."""
    second_m2 = section.second_m2.copy()
    second_m2[..., 0, 0] = length_m**2 / 12
    return Region(section.size * length_m, section.middle_m, second_m2)


def closed(side: Region, length_m: Floats, near: Region, far: Region) -> Region:
    """Return a side skin with a flat end at each end of its length."""
    return combined(side, shifted(near, 0, -length_m / 2), shifted(far, 0, length_m / 2))


def _bar(box_m: Floats, around: Region, end: Region, material: Region) -> Measures:
    """Return a straight bar; without a cavity its one skin counts once for both faces."""
    length_m = box_m[..., 0]
    side = extruded(around, length_m)
    return Measures(
        box_m,
        one(side),
        line=straight_line(length_m),
        face=side,
        faces=side,
        outside=closed(side, length_m, end, end),
        solid=extruded(material, length_m),
    )


def _with_cavity(bar: Measures, side: Region, cavity: Region) -> Measures:
    """Return a bar with an inside, and an inside face taken as large as its outside."""
    return bar._replace(faces=times(side, 2.0), inside=cavity)


def box(dims: Dims) -> Measures:
    """Return a block; its face is length x width and lies at the side it faces."""
    length_m, width_m, depth_m = dims.length_m, dims.width_m, dims.depth_m
    front = shifted(
        centred(length_m * width_m, length_m**2 / 12, width_m**2 / 12, 0), 2, depth_m / 2
    )
    both = combined(front, shifted(front, 2, -depth_m))
    bar = flat(dims)
    return bar._replace(each=one(both), face=front, faces=both, inside=bar.solid)


def flat(dims: Dims) -> Measures:
    """Return a rectangular bar; its skin is its four long sides."""
    sharp = np.zeros_like(dims.width_m)
    section = rounded_area(dims.width_m, dims.depth_m, sharp)
    around = rounded_line(dims.width_m, dims.depth_m, sharp)
    return _bar(envelope(dims.length_m, dims.width_m, dims.depth_m), around, section, section)


def rod(dims: Dims) -> Measures:
    """Return a round bar."""
    section = circle_area(dims.diameter_m)
    box_m = envelope(dims.length_m, dims.diameter_m, dims.diameter_m)
    return _bar(box_m, circle_line(dims.diameter_m), section, section)


def tube(dims: Dims) -> Measures:
    """Return a round tube; its whole outside counts the ends as closed."""
    full, around = circle_area(dims.diameter_m), circle_line(dims.diameter_m)
    bore = circle_area(dims.diameter_m - 2 * dims.wall_m)
    material = combined(full, times(bore, -1.0))
    bar = _bar(envelope(dims.length_m, dims.diameter_m, dims.diameter_m), around, full, material)
    return _with_cavity(bar, extruded(around, dims.length_m), extruded(bore, dims.length_m))


def corner_radii(dims: Dims) -> tuple[Floats, Floats]:
    """Return the outer and inner corner radius [m] of a cold formed rectangular hollow section.

    References:
        EN 10219-2, as `CORNERS` says. A radius is kept within half the narrower side.
    """
    row = np.searchsorted([upto_m for upto_m, _, _ in CORNERS], dims.wall_m)
    narrow_m = np.minimum(dims.width_m, dims.depth_m)
    outer_m = np.minimum(np.asarray([r for _, r, _ in CORNERS])[row] * dims.wall_m, narrow_m / 2)
    inner_m = np.minimum(
        np.asarray([r for _, _, r in CORNERS])[row] * dims.wall_m, narrow_m / 2 - dims.wall_m
    )
    return outer_m, inner_m


def hollow(dims: Dims) -> Measures:
    """Return a rectangular hollow section with the corners of a cold formed one."""
    width_m, depth_m, wall_m = dims.width_m, dims.depth_m, dims.wall_m
    outer_m, inner_m = corner_radii(dims)
    full = rounded_area(width_m, depth_m, outer_m)
    bore = rounded_area(width_m - 2 * wall_m, depth_m - 2 * wall_m, inner_m)
    around = rounded_line(width_m, depth_m, outer_m)
    material = combined(full, times(bore, -1.0))
    bar = _bar(envelope(dims.length_m, width_m, depth_m), around, full, material)
    return _with_cavity(bar, extruded(around, dims.length_m), extruded(bore, dims.length_m))


def section(dims: Dims) -> Measures:
    """Return a rolled section as a line; its width and depth count only for what is seen."""
    line = straight_line(dims.length_m)
    box_m = envelope(dims.length_m, given(dims.width_m), given(dims.depth_m))
    return Measures(box_m, one(line), line=line)


def run(dims: Dims) -> Measures:
    """Return a length of something, such as cable or rope, without a breadth."""
    line = straight_line(dims.length_m)
    nothing = np.zeros_like(dims.length_m)
    return Measures(envelope(dims.length_m, nothing, nothing), one(line), line=line)


def bought_sizes_m(dims: Dims) -> tuple[Floats, Floats, Floats]:
    """Return the box of a bought-in thing: a size left blank is its diameter, if it has one."""
    blank_m = given(dims.diameter_m)
    return (
        given(dims.length_m, blank_m),
        given(dims.width_m, blank_m),
        given(dims.depth_m, blank_m),
    )


def bought(dims: Dims) -> Measures:
    """Return a bought-in thing: a lump spread over the box given for it, or a point."""
    length_m, width_m, depth_m = bought_sizes_m(dims)
    lump = centred(np.ones_like(length_m), length_m**2 / 12, width_m**2 / 12, depth_m**2 / 12)
    return Measures(envelope(length_m, width_m, depth_m), lump)
