"""Developed blanks: the flat piece or the length of bar that a part is made from.

Areas and sizes are of the blank before trimming, relief and joints.
"""

from typing import NamedTuple

import numpy as np

from estimator.geometry.measures import Dims, Measures, given
from estimator.geometry.shapes import measure

STRAIGHT = 1e-6
"""A cone that tapers by less than this share of its radius is unrolled as a cylinder."""


class Blank(NamedTuple):
    """What a part is cut from.

    Attributes:
        kind: rectangle, disc, sector, bar, or none when there is no blank to lay out.
        pieces: How many such pieces make one part.
        length_m: Of the rectangle that one piece is cut from, or of the bar.
        width_m: The same; 0 for a bar.
        area_m2: Of all pieces; 0 for a bar.
        why: How it was found, a sentence without a full stop.
    """

    kind: str
    pieces: int
    length_m: float
    width_m: float
    area_m2: float
    why: str


def equal_area_diameter(area_m2: float) -> float:
    """Return the diameter [m] of the disc with the area of a finished skin.

    References:
        Sheet and plate metal work, "Spherical bowl": the area of the blank is the area of the
        finished surface (as quoted at chestofbooks.com).
    """
    return float(np.sqrt(4 * area_m2 / np.pi))


def unrolled_width(outside_diameter_m: float, gauge_m: float) -> float:
    """Return the width [m] of a rolled sheet laid flat: round the middle of its thickness."""
    return float(np.pi * (outside_diameter_m - gauge_m))


def _skin_m2(measures: Measures) -> float:
    """Return the area of one face."""
    return 0.0 if measures.face is None else float(measures.face.size[0])


def _as_it_is(measures: Measures, kind: str) -> Blank:
    """Return a flat part by its own outline."""
    length_m, width_m, _ = (float(size_m) for size_m in measures.box_m[0])
    why = "cut flat from the rectangle round it"
    return Blank(kind, 1, length_m, width_m, _skin_m2(measures), why)


def _rectangle(measures: Measures) -> Blank:
    """Return a flat part with corners or points."""
    return _as_it_is(measures, "rectangle")


def _disc(measures: Measures) -> Blank:
    """Return a round flat part."""
    return _as_it_is(measures, "disc")


def _bar(measures: Measures) -> Blank:
    """Return a length of bar."""
    length_m = 0.0 if measures.line is None else float(measures.line.size[0])
    return Blank("bar", 1, length_m, 0.0, 0.0, "its length through the middle of the bar")


def _dome(measures: Measures) -> Blank:
    """Return a dome as one disc."""
    area_m2 = _skin_m2(measures)
    diameter_m = equal_area_diameter(area_m2)
    return Blank("disc", 1, diameter_m, diameter_m, area_m2, "a disc of equal area")


def _sphere(measures: Measures) -> Blank:
    """Return a ball as two halves."""
    area_m2 = _skin_m2(measures)
    diameter_m = equal_area_diameter(area_m2 / 2)
    why = "two halves, each from a disc of equal area"
    return Blank("disc", 2, diameter_m, diameter_m, area_m2, why)


def _no_blank(measures: Measures) -> Blank:
    """Return an area to buy at most."""
    return Blank("none", 0, 0.0, 0.0, _skin_m2(measures), "no one blank; not laid out")


def _cone(dims: Dims, gauge_m: float) -> Blank:
    """Return a cone's side laid flat: a rectangle when it does not taper, else a sector."""
    length_m = float(dims.length_m[0])
    near_m, far_m = (
        max(float(diameter_m[0]) - gauge_m, 0.0) / 2
        for diameter_m in (dims.diameter_m, given(dims.end_diameter_m))
    )
    taper_m = abs(near_m - far_m)
    if taper_m <= STRAIGHT * near_m:
        width_m = unrolled_width(float(dims.diameter_m[0]), gauge_m)
        why = "unrolled round the middle of its thickness"
        return Blank("rectangle", 1, width_m, length_m, width_m * length_m, why)
    slant_m = float(np.hypot(length_m, taper_m))
    inner_m, outer_m = (
        slant_m * radius_m / taper_m for radius_m in (min(near_m, far_m), max(near_m, far_m))
    )
    angle_rad = 2 * np.pi * taper_m / slant_m
    pattern = Dims.of(diameter_m=2 * outer_m, bore_m=2 * inner_m, angle_rad=angle_rad)
    why = f"unrolled to a sector of radius {outer_m:.4g} m over {np.degrees(angle_rad):.4g} degrees"
    return _as_it_is(measure("sector", pattern), "sector")._replace(why=why)


BLANKS = {
    "sheet": _rectangle,
    "disc": _disc,
    "ring": _disc,
    "sector": _rectangle,
    "blade": _rectangle,
    "leaf": _rectangle,
    "box": _no_blank,
    "flat": _bar,
    "rod": _bar,
    "tube": _bar,
    "hollow": _bar,
    "section": _bar,
    "hoop": _bar,
    "formed": _bar,
    "sphere": _sphere,
    "dome": _dome,
    "ellipsoid": _no_blank,
    "torus": _no_blank,
    "run": _bar,
    "bought": _no_blank,
}
"""How the blank is found from what a shape measures; a cone's needs its gauge as well."""


def blank(shape: str, dims: Dims, gauge_m: float = 0.0) -> Blank:
    """Return the blank of one part.

    Args:
        shape: A shape of `shapes.SHAPES`.
        dims: Its dimensions, one part.
        gauge_m: Thickness of the sheet of a cone: the diameters of rolled work are outside, and
            its blank is measured round the middle of the thickness.

    Raises:
        ValueError: If there is no such shape or a dimension will not do.
    """
    measures = measure(shape, dims)
    return _cone(dims, gauge_m) if shape == "cone" else BLANKS[shape](measures)
