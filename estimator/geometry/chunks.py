"""Convex pieces of each shape, whose projected hulls unite to its silhouette.

A piece is the hull of a few points, or of an ellipsoid or disc round each of them, so that a ball
or the end of a rod is exact from every side. What is bent or has a hole is a chain of pieces.
"""

from collections.abc import Callable
from typing import NamedTuple, Self

import numpy as np
import numpy.typing as npt

from estimator.geometry.bent import bow
from estimator.geometry.flat import sector_extent
from estimator.geometry.measures import Dims, Floats, given
from estimator.geometry.solids import bought_sizes_m, corner_radii
from estimator.geometry.turned import hoop_section_m

FINENESS = 72
"""Sides of the polygon for a full circle; with it a silhouette's area holds to 0.1 %."""
BEND_SHARE, DOME_SHARE = 2, 2
"""How many times fewer pieces the arc of a bent bar and circles of a dome are made of."""


class Chunks(NamedTuple):
    """c convex pieces of each of n parts, or one flat piece with its own outline.

    Attributes:
        points_m: (n, c, k, 3) points, in the part's frame until they are placed.
        axes_m: (n, c, k, 3, 3) half axes, as columns, of the ellipsoid round each point, a zero
            one for a disc; None where all points are sharp.
        hole_m: (n, h, 3) outline of the hole in a flat piece; no points where it has none.
            `points_m` is then its outer outline in order, c is 1, and no hull is taken. None for
            convex pieces.
    """

    points_m: Floats
    axes_m: Floats | None = None
    hole_m: Floats | None = None

    def taken(self, index: npt.ArrayLike) -> Self:
        """Return the pieces of the parts at an index, one may be named many times."""
        at = np.asarray(index)
        axes_m = None if self.axes_m is None else self.axes_m[at]
        hole_m = None if self.hole_m is None else self.hole_m[at]
        return type(self)(self.points_m[at], axes_m, hole_m)


def placed(chunks: Chunks, rotation: Floats, by_m: Floats) -> Chunks:
    """Return pieces turned about the origin by (3, 3) or (n, 3, 3), then moved by (3,) or (n, 3).

    A mirror matrix does as well.
    """
    turn = np.broadcast_to(rotation, (len(chunks.points_m), 3, 3))[:, None, None]
    step_m = np.broadcast_to(by_m, (len(chunks.points_m), 3))[:, None, None]
    points_m = (turn @ chunks.points_m[..., None])[..., 0] + step_m
    axes_m = None if chunks.axes_m is None else turn @ chunks.axes_m
    hole_m = chunks.hole_m
    if hole_m is not None:
        hole_m = (turn[:, 0] @ hole_m[..., None])[..., 0] + step_m[:, 0]
    return Chunks(points_m, axes_m, hole_m)


def boxes(chunks: Chunks) -> Floats:
    """Return (n, 2, 3): the lowest and the highest corner of the box round each part.

    Exact for what is not bent or cut from a ring; those come out at most 0.1 % large.
    """
    reach_m = np.zeros(3) if chunks.axes_m is None else np.linalg.norm(chunks.axes_m, axis=-1)
    low_m = (chunks.points_m - reach_m).min(axis=(1, 2))
    high_m = (chunks.points_m + reach_m).max(axis=(1, 2))
    return np.stack((low_m, high_m), axis=1)


def _diagonal(along_m: Floats, beside_m: Floats, faces_m: Floats) -> Floats:
    """Return (..., 3, 3) half axes along the axes of the shape."""
    axes_m: Floats = np.stack((along_m, beside_m, faces_m), axis=-1)[..., None, :] * np.eye(3)
    return axes_m


def _corners(length_m: Floats, width_m: Floats, depth_m: Floats) -> Floats:
    """Return (n, 1, 8, 3) corners of a block."""
    signs = np.array([(a, b, c) for a in (-1, 1) for b in (-1, 1) for c in (-1, 1)])
    sizes_m = np.stack((length_m, width_m, depth_m), axis=-1)
    corners_m: Floats = sizes_m[:, None, None, :] * signs / 2
    return corners_m


def _in_plane(along_m: Floats, beside_m: Floats) -> Floats:
    """Return (..., 3) points of a flat shape."""
    return np.stack(np.broadcast_arrays(along_m, beside_m, 0.0), axis=-1)


def _block(dims: Dims, _: int) -> Chunks:
    """Return a block; a section without a width or a depth is seen edge-on."""
    return Chunks(_corners(dims.length_m, given(dims.width_m), given(dims.depth_m)))


def _sheet(dims: Dims, _: int) -> Chunks:
    """Return a rectangle."""
    return Chunks(_corners(dims.length_m, dims.width_m, np.zeros_like(dims.length_m)))


def _run(dims: Dims, _: int) -> Chunks:
    """Return a line."""
    nothing = np.zeros_like(dims.length_m)
    return Chunks(_corners(dims.length_m, nothing, nothing))


def _bought(dims: Dims, _: int) -> Chunks:
    """Return the box of a bought-in thing."""
    return Chunks(_corners(*bought_sizes_m(dims)))


def _blade(dims: Dims, _: int) -> Chunks:
    """Return a taper."""
    along_m = dims.length_m[:, None] / 2 * np.array([-1, -1, 1, 1])
    half_m = np.stack((dims.width_m, given(dims.end_width_m)), axis=-1) / 2
    beside_m = half_m[:, [0, 0, 1, 1]] * np.array([-1, 1, 1, -1])
    return Chunks(_in_plane(along_m, beside_m)[:, None])


def _leaf(dims: Dims, fineness: int) -> Chunks:
    """Return a leaf as a polygon of the same area, inscribed but for that."""
    u = np.linspace(-1, 1, fineness + 1)
    edge = 1 - u**2
    edge *= (4 / 3) / np.trapezoid(edge, u)
    along_m = dims.length_m[:, None] / 2 * u
    half_m = dims.width_m[:, None] / 2 * edge
    sides = (_in_plane(along_m, half_m), _in_plane(along_m, -half_m))
    return Chunks(np.concatenate(sides, axis=1)[:, None])


def _disc(dims: Dims, fineness: int) -> Chunks:
    """Return a disc, in pieces round its hole if there is one."""
    if np.any(given(dims.bore_m) > 0):
        return _ring(dims, fineness)
    half_m = dims.diameter_m / 2
    axes_m = _diagonal(half_m, half_m, np.zeros_like(half_m))
    return Chunks(np.zeros((len(half_m), 1, 1, 3)), axes_m[:, None, None])


def _arc(diameter_m: Floats, from_rad: Floats, to_rad: Floats, fineness: int) -> Floats:
    """Return (n, fineness + 1, 3) points of an arc whose polygon has the area of the round one."""
    step_rad = (to_rad - from_rad) / fineness
    angles_rad = from_rad[:, None] + step_rad[:, None] * np.arange(fineness + 1)
    radius_m = (np.sqrt(step_rad / np.sin(step_rad)) * diameter_m / 2)[:, None]
    return _in_plane(radius_m * np.cos(angles_rad), radius_m * np.sin(angles_rad))


def _ring(dims: Dims, fineness: int) -> Chunks:
    """Return a flat ring as its two circles."""
    start_rad = np.zeros_like(dims.diameter_m)
    outer_m, inner_m = (
        _arc(diameter_m, start_rad, start_rad + 2 * np.pi, fineness)[:, :-1]
        for diameter_m in (dims.diameter_m, given(dims.bore_m))
    )
    return Chunks(outer_m[:, None], hole_m=inner_m)


def _sector(dims: Dims, fineness: int) -> Chunks:
    """Return a sector as its outline, the middle of its arc towards -beside.

    The inner arc is walked backwards; of a full turn the two cuts lie on one another.
    """
    half_rad = dims.angle_rad / 2
    _, low_m, high_m = sector_extent(dims)
    outer_m, inner_m = (
        _arc(diameter_m, -np.pi / 2 - half_rad, -np.pi / 2 + half_rad, fineness)
        for diameter_m in (dims.diameter_m, given(dims.bore_m))
    )
    points_m = np.concatenate((outer_m, inner_m[:, ::-1]), axis=1)
    points_m[..., 1] -= ((low_m + high_m) / 2)[:, None]
    return Chunks(points_m[:, None], hole_m=points_m[:, :0])


def _round_bar(dims: Dims, _: int) -> Chunks:
    """Return a round bar as the hull of its two ends."""
    return _two_ends(dims.length_m, dims.diameter_m, dims.diameter_m)


def _cone(dims: Dims, _: int) -> Chunks:
    """Return a frustum as the hull of its two ends."""
    return _two_ends(dims.length_m, dims.diameter_m, given(dims.end_diameter_m))


def _two_ends(length_m: Floats, near_m: Floats, far_m: Floats) -> Chunks:
    """Return the hull of two discs."""
    ends_m = length_m[:, None] / 2 * np.array([-1.0, 1.0])
    points_m = np.stack((ends_m, np.zeros_like(ends_m), np.zeros_like(ends_m)), axis=-1)
    half_m = np.stack((near_m, far_m), axis=-1) / 2
    axes_m = _diagonal(np.zeros_like(half_m), half_m, half_m)
    return Chunks(points_m[:, None], axes_m[:, None])


def _hollow(dims: Dims, _: int) -> Chunks:
    """Return a hollow section as the hull of the discs in its eight corners."""
    outer_m, _inner_m = corner_radii(dims)
    points_m = _corners(dims.length_m, dims.width_m - 2 * outer_m, dims.depth_m - 2 * outer_m)
    axes_m = _diagonal(np.zeros_like(outer_m), outer_m, outer_m)
    return Chunks(points_m, np.broadcast_to(axes_m[:, None, None], (*points_m.shape, 3)))


def _ellipsoid(dims: Dims, _: int) -> Chunks:
    """Return an ellipsoid."""
    axes_m = _diagonal(dims.length_m / 2, dims.width_m / 2, dims.depth_m / 2)
    return Chunks(np.zeros((len(axes_m), 1, 1, 3)), axes_m[:, None, None])


def _sphere(dims: Dims, fineness: int) -> Chunks:
    """Return a ball."""
    across_m = dims.diameter_m
    return _ellipsoid(
        dims._replace(length_m=across_m, width_m=across_m, depth_m=across_m), fineness
    )


def _dome(dims: Dims, fineness: int) -> Chunks:
    """Return a cap as the hull of circles from rim to crown."""
    rim_m, rise_m = dims.diameter_m[:, None] / 2, dims.depth_m[:, None]
    share = np.linspace(0, 1, fineness // DOME_SHARE + 1)
    polar_rad = 2 * np.arctan(rise_m / rim_m) * share
    sphere_m = (rim_m**2 + rise_m**2) / (2 * rise_m)
    circle_m = sphere_m * np.sin(polar_rad)
    # 1 - cos as a square: a flat dome's sphere is large and its rise small.
    faces_m = rise_m / 2 - 2 * sphere_m * np.sin(polar_rad / 2) ** 2
    points_m = np.stack((np.zeros_like(faces_m), np.zeros_like(faces_m), faces_m), axis=-1)
    axes_m = _diagonal(circle_m, circle_m, np.zeros_like(circle_m))
    return Chunks(points_m[:, None], axes_m[:, None])


def _chained(stations: Floats) -> Floats:
    """Return (n, m, 2 k, ...) pieces between neighbours of (n, m + 1, k, ...) stations."""
    return np.concatenate((stations[:, :-1], stations[:, 1:]), axis=2)


def _formed(dims: Dims, fineness: int) -> Chunks:
    """Return a bent bar as a chain of hulls of neighbouring cross-sections."""
    line = bow(dims, np.linspace(-0.5, 0.5, fineness // BEND_SHARE + 1))
    radius_m = line.radius_m[..., None]
    up = np.broadcast_to([0.0, 0.0, 1.0], line.normal.shape)
    axes = np.stack((line.normal * radius_m, up * radius_m, np.zeros_like(up)), axis=-1)
    return Chunks(_chained(line.at_m[:, :, None]), _chained(axes[:, :, None]))


def _hoop(dims: Dims, fineness: int) -> Chunks:
    """Return a rolled ring as a chain of hulls of neighbouring cross-sections.

    Its polygon has the length of the circle, so that it errs as much to either side seen from
    the front and from the side.
    """
    depth_m, width_m = hoop_section_m(dims)
    is_round = dims.end_diameter_m > 0
    half_step = np.pi / fineness
    radius_m = (dims.diameter_m - depth_m) / 2 * half_step / np.sin(half_step)
    angles_rad = 2 * half_step * (np.arange(fineness + 1) % fineness)
    normal = _in_plane(np.cos(angles_rad), np.sin(angles_rad))[:, None]  # (m, 1, 3)
    signs = np.zeros((1, 2)) if is_round.all() else np.array([(-1, -1), (-1, 1), (1, 1), (1, -1)])
    half_m = np.where(is_round[:, None], 0.0, np.stack((depth_m, width_m), axis=-1) / 2)
    offsets_m = half_m[:, None, None] * signs  # (n, 1, k, 2)
    radial_m = radius_m[:, None, None, None] + offsets_m[..., :1]
    points_m = radial_m * normal + offsets_m[..., 1:] * np.array([0.0, 0.0, 1.0])
    if not is_round.any():
        return Chunks(_chained(points_m))
    bar_m = np.where(is_round, depth_m / 2, 0.0)[:, None, None, None]
    up = np.broadcast_to([0.0, 0.0, 1.0], points_m.shape)
    axes = np.stack((normal * bar_m + 0 * up, up * bar_m, np.zeros_like(up)), axis=-1)
    return Chunks(_chained(points_m), _chained(axes))


CHUNKS: dict[str, Callable[[Dims, int], Chunks]] = {
    "sheet": _sheet,
    "disc": _disc,
    "ring": _ring,
    "sector": _sector,
    "blade": _blade,
    "leaf": _leaf,
    "box": _block,
    "flat": _block,
    "rod": _round_bar,
    "tube": _round_bar,
    "hollow": _hollow,
    "section": _block,
    "hoop": _hoop,
    "formed": _formed,
    "cone": _cone,
    "sphere": _sphere,
    "dome": _dome,
    "ellipsoid": _ellipsoid,
    "torus": _hoop,
    "run": _run,
    "bought": _bought,
}
"""How each shape is cut into convex pieces."""


def chunks(shape: str, dims: Dims, fineness: int = FINENESS) -> Chunks:
    """Return the convex pieces of n parts of one shape, in its own frame.

    Args:
        shape: A shape of `shapes.SHAPES`, its dimensions without faults.
        dims: Dimensions of n parts.
        fineness: Pieces of a full ring; a multiple of four.
    """
    return CHUNKS[shape](dims, fineness)
