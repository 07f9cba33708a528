"""Developed blanks: the flat pieces or the length of bar that a part is made from.

Areas and sizes are of the blank before trimming, hammering and joints.
"""

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from estimator.geometry import loops
from estimator.geometry.gores import FEWEST, Gores, ellipsoid_gores, girth_m, ring_gores
from estimator.geometry.loops import Loops
from estimator.geometry.measures import Dims, Floats, Measures, given
from estimator.geometry.models import Model
from estimator.geometry.pieces import Blank, Piece, Size
from estimator.geometry.shapes import measure

if TYPE_CHECKING:
    import shapely

STRAIGHT = 1e-6
"""A cone that tapers by less than this share of its radius is unrolled as a cylinder."""
HALVES = 2


class Making(NamedTuple):
    """How a part is made, as far as its blank depends on it.

    Attributes:
        gauge_m: Thickness of the sheet of a rolled part: its diameters are outside, and its blank
            is measured round the middle of the thickness.
        pieces: Pieces it is made from, as far as anybody said.
        over: What the sheet lies over, by the words of `measures.OVER`; blank for a bar.
        bent: Whether sheet is only bent or rolled one way, and not hammered hollow.
    """

    gauge_m: float = 0.0
    pieces: int = 1
    over: str = ""
    bent: bool = False


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


def _only(values: Floats) -> float:
    """Return the dimension of the one part there is; 0 for a blank one."""
    return float(given(values)[0])


def _skin_m2(measures: Measures) -> float:
    """Return the area of one face."""
    return 0.0 if measures.face is None else float(measures.face.size[0])


def _drawn(kind: str, outline: Loops, area_m2: float, why: str) -> Blank:
    """Return one piece by its outline, with its length and width."""
    length_m, width_m = loops.size_m(outline)
    sizes = (Size("length", length_m), Size("width", width_m))
    return Blank(kind, (Piece(1, length_m, width_m, outline),), area_m2, why, sizes)


FLAT = "cut flat"


def _sheet(dims: Dims, measures: Measures, _: Making) -> Blank:
    """Return a rectangle."""
    outline = loops.rectangle(_only(dims.length_m), _only(dims.width_m))
    return _drawn("rectangle", outline, _skin_m2(measures), FLAT)


def _disc(dims: Dims, measures: Measures, _: Making) -> Blank:
    """Return a round flat part."""
    across_m, bore_m = _only(dims.diameter_m), _only(dims.bore_m)
    if bore_m > 0:
        return _sector_blank(across_m / 2, bore_m / 2, loops.FULL_RAD, FLAT)
    return _round("disc", across_m, across_m, _skin_m2(measures), FLAT)


def _round(kind: str, length_m: float, width_m: float, area_m2: float, why: str) -> Blank:
    """Return one disc or oval."""
    sizes = (Size("diameter", length_m),) if kind == "disc" else (
        Size("length", length_m), Size("width", width_m))  # fmt: skip
    outline = loops.oval(length_m, width_m)
    return Blank(kind, (Piece(1, length_m, width_m, outline),), area_m2, why, sizes)


def _sector_blank(outer_m: float, inner_m: float, angle_rad: float, why: str) -> Blank:
    """Return a ring or a piece of one by its radii."""
    outline = loops.sector(outer_m, inner_m, angle_rad)
    length_m, width_m = loops.size_m(outline)
    full = angle_rad >= loops.FULL_RAD
    sizes = (Size("outer radius", outer_m), Size("inner radius", inner_m),
             Size("angle", angle_rad, "rad"))  # fmt: skip
    return Blank(
        "ring" if full else "sector", (Piece(1, length_m, width_m, outline),),
        angle_rad * (outer_m**2 - inner_m**2) / 2, why, sizes[:2] if full else sizes,
    )  # fmt: skip


def _sector(dims: Dims, _: Measures, __: Making) -> Blank:
    """Return a flat piece of a disc or ring."""
    angle_rad = min(_only(dims.angle_rad), loops.FULL_RAD)
    return _sector_blank(_only(dims.diameter_m) / 2, _only(dims.bore_m) / 2, angle_rad, FLAT)


def _blade(dims: Dims, measures: Measures, _: Making) -> Blank:
    """Return a taper."""
    halves_m = (_only(dims.width_m) / 2, _only(dims.end_width_m) / 2)
    outline = loops.spindle((0.0, _only(dims.length_m)), halves_m)
    return _drawn("outline", outline, _skin_m2(measures), FLAT)


def _leaf(dims: Dims, measures: Measures, _: Making) -> Blank:
    """Return a leaf."""
    at = np.linspace(-1, 1, loops.SIDES // 2 + 1)
    outline = loops.spindle(_only(dims.length_m) / 2 * at, _only(dims.width_m) / 2 * (1 - at**2))
    return _drawn("outline", outline, _skin_m2(measures), FLAT)


def _box(dims: Dims, measures: Measures, making: Making) -> Blank:
    """Return a box as its front, its six faces, or one sheet folded round it."""
    if making.over != "whole outside":
        return _sheet(dims, measures, making)
    return _net(dims) if making.bent else _faces(dims)


def _three(dims: Dims) -> tuple[float, float, float]:
    """Return length, width and depth."""
    return _only(dims.length_m), _only(dims.width_m), _only(dims.depth_m)


def _faces(dims: Dims) -> Blank:
    """Return the six faces of a box, a seam on each of its edges."""
    long_m, wide_m, deep_m = _three(dims)
    pairs = ((long_m, wide_m), (long_m, deep_m), (wide_m, deep_m))
    pieces = tuple(Piece(2, a, b, loops.rectangle(a, b), (1, 1)) for a, b in pairs)
    sizes = tuple(map(Size, ("length", "width", "depth"), _three(dims)))
    area_m2 = 2 * sum(a * b for a, b in pairs)
    return Blank("faces", pieces, area_m2, "its six faces", sizes, 12,
                 4 * (long_m + wide_m + deep_m))  # fmt: skip


def _net(dims: Dims) -> Blank:
    """Return a box as one sheet: a strip round its length with an end at each side of it."""
    long_m, wide_m, deep_m = _three(dims)
    girth, after = 2 * (wide_m + deep_m), long_m + 2 * deep_m
    cross = [
        (0, deep_m), (deep_m, deep_m), (deep_m, 0), (deep_m + wide_m, 0),
        (deep_m + wide_m, deep_m), (girth, deep_m), (girth, deep_m + long_m),
        (deep_m + wide_m, deep_m + long_m), (deep_m + wide_m, after), (deep_m, after),
        (deep_m, deep_m + long_m), (0, deep_m + long_m),
    ]  # fmt: skip
    sizes = tuple(map(Size, ("length", "width", "depth"), _three(dims)))
    piece = Piece(1, girth, after, loops.laid(cross), (1, 1))
    area_m2 = 2 * (long_m * wide_m + long_m * deep_m + wide_m * deep_m)
    seam_m = long_m + 2 * (wide_m + 2 * deep_m)
    return Blank("net", (piece,), area_m2, "folded from one sheet", sizes, 7, seam_m)


def _bar(_: Dims, measures: Measures, making: Making) -> Blank:
    """Return a length of bar, or the sheet that is wrapped round a straight one."""
    length_m = 0.0 if measures.line is None else float(measures.line.size[0])
    if not making.over or not length_m > 0:
        why = "its length through the middle of the bar"
        return Blank("bar", (Piece(1, length_m, 0.0),), 0.0, why, (Size("length", length_m),))
    area_m2 = _skin_m2(measures)
    return _wrapped(length_m, area_m2 / length_m, "wrapped round it once")


def _wrapped(length_m: float, girth: float, why: str) -> Blank:
    """Return a rectangle that is closed round a part by one seam along its length."""
    outline = loops.rectangle(girth, length_m)
    blank_ = _drawn("rectangle", outline, girth * length_m, why)
    (piece,) = blank_.pieces
    return blank_._replace(pieces=(piece._replace(edges=(1, 0)),), seams=1, seam_m=length_m)


def _bent_bar(dims: Dims, measures: Measures, making: Making) -> Blank:
    """Return a length of bar that is bent; a skin of sheet on it is not laid out."""
    return _area(dims, measures, making) if making.over else _bar(dims, measures, making)


def _area(_: Dims, measures: Measures, __: Making) -> Blank:
    """Return an area to buy."""
    return Blank("area", (), _skin_m2(measures), "no one blank; not laid out")


def _dome(_: Dims, measures: Measures, __: Making) -> Blank:
    """Return a dome as one disc."""
    area_m2 = _skin_m2(measures)
    diameter_m = equal_area_diameter(area_m2)
    return _round("disc", diameter_m, diameter_m, area_m2, "a disc of equal area")


def _closed(_: Dims, measures: Measures, making: Making) -> Blank:
    """Return a ball or an ellipsoid as two halves or as gores."""
    axes_m = (float(size_m) for size_m in measures.box_m[0])
    long_m, wide_m, thick_m = sorted(axes_m, reverse=True)
    area_m2 = _skin_m2(measures)
    if making.pieces >= FEWEST:
        gores = ellipsoid_gores((long_m, wide_m, thick_m), making.pieces, bent=making.bent)
        return _gored("gores", gores, area_m2, making)._replace(
            seams=making.pieces, seam_m=making.pieces * gores.length_m
        )
    # The oval of equal area, in the shape of the rim: for a ball the disc of equal area.
    grown = float(np.sqrt(area_m2 / 2 / (np.pi * long_m * wide_m / 4)))
    round_ = wide_m == long_m
    why = f"two halves, each from {'a disc' if round_ else 'an oval'} of equal area"
    half = _round("disc" if round_ else "oval", grown * long_m, grown * wide_m, area_m2, why)
    piece = half.pieces[0]._replace(number=HALVES, edges=(1, 1))
    return half._replace(pieces=(piece,), seams=1, seam_m=girth_m(long_m, wide_m))


def _gored(kind: str, gores: Gores, body_m2: float, making: Making) -> Blank:
    """Return gores laid flat, and by how much they differ from the body in area."""
    outline = loops.spindle(gores.along_m, gores.half_m)
    area_m2 = making.pieces * gores.area_m2
    more = 100 * (area_m2 / body_m2 - 1)
    how = "bent one way, which leaves flat sides" if making.bent else "hammered hollow"
    why = f"{making.pieces} {kind}, {how}: together {more:+.1f} % on the area of the body"
    sizes = (Size("length", gores.length_m), Size("width in the middle", gores.width_m))
    piece = Piece(making.pieces, gores.length_m, gores.width_m, outline, (0, 1))
    return Blank(kind, (piece,), area_m2, why, sizes)


def _torus(dims: Dims, measures: Measures, making: Making) -> Blank:
    """Return a round ring as pieces of tube; no blank when nobody said how many."""
    if making.pieces < FEWEST:
        return _area(dims, measures, making)
    tube_m = _only(dims.end_diameter_m)
    gores = ring_gores(_only(dims.diameter_m), tube_m, making.pieces, bent=making.bent)
    flat = _gored("segments", gores, _skin_m2(measures), making)
    ends_m = 2 * gores.half_m[0]
    # Each is closed round its tube, on the inside of the ring, and sewn to the next one.
    return flat._replace(
        pieces=(flat.pieces[0]._replace(edges=(1, 1)),),
        sizes=(*flat.sizes, Size("width at the ends", ends_m)),
        seams=2 * making.pieces,
        seam_m=making.pieces * (ends_m + gores.length_m),
    )


def _cone(dims: Dims, _: Measures, making: Making) -> Blank:
    """Return a cone's side laid flat: a rectangle when it does not taper, else a sector."""
    length_m, gauge_m = _only(dims.length_m), making.gauge_m
    near_m, far_m = (
        max(_only(diameter_m) - gauge_m, 0.0) / 2
        for diameter_m in (dims.diameter_m, dims.end_diameter_m)
    )
    taper_m = abs(near_m - far_m)
    if taper_m <= STRAIGHT * near_m:
        width_m = unrolled_width(_only(dims.diameter_m), gauge_m)
        return _wrapped(length_m, width_m, "unrolled round the middle of its thickness")
    slant_m = float(np.hypot(length_m, taper_m))
    inner_m, outer_m = (
        slant_m * radius_m / taper_m for radius_m in (min(near_m, far_m), max(near_m, far_m))
    )
    angle_rad = 2 * np.pi * taper_m / slant_m
    why = f"unrolled to a sector of radius {outer_m:.4g} m over {np.degrees(angle_rad):.4g} degrees"
    flat = _sector_blank(outer_m, inner_m, angle_rad, why)
    return flat._replace(seams=1, seam_m=slant_m)


BLANKS: Mapping[str, Callable[[Dims, Measures, Making], Blank]] = {
    "sheet": _sheet,
    "disc": _disc,
    "ring": _disc,
    "sector": _sector,
    "blade": _blade,
    "leaf": _leaf,
    "box": _box,
    "flat": _bar,
    "rod": _bar,
    "tube": _bar,
    "hollow": _bar,
    "section": _bar,
    "hoop": _bent_bar,
    "formed": _bent_bar,
    "cone": _cone,
    "sphere": _closed,
    "dome": _dome,
    "ellipsoid": _closed,
    "torus": _torus,
    "run": _bar,
    "bought": _area,
}
"""How the blank of each shape is found."""


def blank(shape: str, dims: Dims, making: Making = Making()) -> Blank:  # noqa: B008 - immutable
    """Return the blank of one part.

    Args:
        shape: A shape of `shapes.SHAPES`.
        dims: Its dimensions, one part.
        making: How it is made.

    Raises:
        ValueError: If there is no such shape or a dimension will not do.
    """
    return BLANKS[shape](dims, measure(shape, dims), making)


def blank_of_model(model: Model) -> Blank:
    """Return the blank of a part from a file or readings: its own outline, or else an area."""
    if model.outline is None:
        return _area(Dims.of(), model.measures, Making())
    return _drawn("outline", _traced(model.outline), _skin_m2(model.measures), FLAT)


def _traced(outline: "shapely.MultiPolygon") -> Loops:
    """Return an outline with holes as loops."""
    rings = [ring for part in outline.geoms for ring in (part.exterior, *part.interiors)]
    return loops.laid(*(np.asarray(ring.coords)[:-1] for ring in rings))
