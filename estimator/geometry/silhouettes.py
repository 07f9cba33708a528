"""Silhouettes: what a part or an assembly covers, seen from any side.

A projection is two rows that take (across, up, out) to the horizontal and the vertical of a view.
"""

from typing import Any, NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt
import shapely

from estimator.geometry.chunks import FINENESS, Chunks
from estimator.geometry.measures import Floats

Shadows: TypeAlias = npt.NDArray[Any]
"""An array of shapely polygons, one a part."""

THIN_M2 = 1e-9
"""A piece that covers less than this is seen edge-on, and covers nothing."""
DUST = 1e-9
NOTHING = shapely.Polygon()


def _fixed(*rows: tuple[float, float, float]) -> Floats:
    """Return a projection that nobody can change."""
    projection = np.array(rows)
    projection.setflags(write=False)
    return projection


FRONT = _fixed((1, 0, 0), (0, 1, 0))
"""From the street: across to the right, up."""
SIDE = _fixed((0, 0, 1), (0, 1, 0))
"""From the left along the wall: the wall at the left, out to the right, up."""
PLAN = _fixed((1, 0, 0), (0, 0, 1))
"""Across to the right, out up the page."""


class Loop(NamedTuple):
    """One closed outline with its holes; each (k, 2), the first point again at the end."""

    outer_m: Floats
    holes_m: tuple[Floats, ...]


def view(direction_rad: float) -> Floats:
    """Return the projection that the wind sees that comes from a direction.

    Args:
        direction_rad: The side it comes from: 0 the street, pi/2 the right.
    """
    return np.array([(np.cos(direction_rad), 0.0, -np.sin(direction_rad)), (0.0, 1.0, 0.0)])


def _circle(fineness: int) -> Floats:
    """Return (fineness, 2) corners of a polygon with the area of the unit circle."""
    step_rad = 2 * np.pi / fineness
    angles_rad = step_rad * np.arange(fineness)
    swell = np.sqrt(step_rad / np.sin(step_rad))
    corners: Floats = swell * np.stack((np.cos(angles_rad), np.sin(angles_rad)), axis=-1)
    return corners


def _flattened(chunks: Chunks, projection: Floats, fineness: int) -> Floats:
    """Return (n, c, points, 2): the corners of each piece in the view."""
    centres_m: Floats = chunks.points_m @ projection.T
    if chunks.axes_m is None:
        return centres_m
    # An ellipsoid x = A u is seen as the ellipse of Q = P A A^T P^T, drawn by a root of Q.
    seen = projection @ chunks.axes_m
    q = seen @ np.swapaxes(seen, -1, -2)
    # Narrower than a billionth of its height it is a line, and the root would divide dust by dust.
    is_line = q[..., 0, 0] <= DUST**2 * q[..., 1, 1]
    first_m = np.sqrt(np.where(is_line, 0.0, q[..., 0, 0]))
    lean_m = np.divide(q[..., 0, 1], first_m, out=np.zeros_like(first_m), where=first_m > 0)
    second_m = np.sqrt(np.maximum(q[..., 1, 1] - lean_m**2, 0.0))
    circle = _circle(fineness)
    horizontal_m = first_m[..., None] * circle[:, 0]
    vertical_m = lean_m[..., None] * circle[:, 0] + second_m[..., None] * circle[:, 1]
    corners_m: Floats = centres_m[..., None, :] + np.stack((horizontal_m, vertical_m), axis=-1)
    n, pieces, points, _ = centres_m.shape
    return corners_m.reshape(n, pieces, points * fineness, 2)


def silhouettes(
    chunks: Chunks, projection: Floats, fineness: int = FINENESS, edge_m: float = 0.0
) -> Shadows:
    """Return (n,) polygons: what each of n parts covers in a view, empty when edge-on.

    Args:
        chunks: Their convex pieces, placed.
        projection: (2, 3) rows of the view.
        fineness: Corners of a circle.
        edge_m: Thickness to give to what is seen edge-on, so that a drawing shows it.
    """
    corners_m = _flattened(chunks, projection, fineness)
    if chunks.hole_m is not None:
        return _flat(corners_m[:, 0], chunks.hole_m @ projection.T, edge_m)
    hulls = shapely.convex_hull(shapely.linestrings(corners_m))
    pieces = edged(np.asarray(hulls), np.asarray(hulls), edge_m)
    return pieces[:, 0] if pieces.shape[1] == 1 else np.asarray(shapely.union_all(pieces, axis=1))


def edged(shadows: Shadows, outlines: Shadows, edge_m: float) -> Shadows:
    """Return silhouettes with what is seen edge-on as a thin polygon, or as nothing.

    Args:
        shadows: Silhouettes.
        outlines: Of the same shape: geometries with all their corners.
        edge_m: Thickness to give to what covers nothing; none makes it nothing.
    """
    thin = np.asarray(shapely.area(shadows) <= THIN_M2)
    shown: Shadows = shadows.copy()
    shown[thin] = _edges(outlines[thin], edge_m)
    return shown


def _edges(outlines: Shadows, edge_m: float) -> Shadows:
    """Return what is seen edge-on as thin polygons; nothing without thickness, or for a point."""
    if not edge_m > 0:
        return np.full(len(outlines), NOTHING, dtype=object)
    hulls = np.asarray(shapely.convex_hull(outlines))
    edges: Shadows = np.asarray(shapely.buffer(hulls, edge_m / 2, quad_segs=1))
    edges[shapely.length(hulls) <= 0] = NOTHING
    return edges


def _flat(outer_m: Floats, hole_m: Floats, edge_m: float) -> Shadows:
    """Return (n,) polygons of flat pieces by their outlines (n, k, 2) and holes (n, h, 2)."""
    outer = np.asarray(shapely.linearrings(outer_m))
    pieces: Shadows = np.asarray(shapely.polygons(outer))
    if hole_m.shape[1]:
        holes = shapely.linearrings(hole_m)
        pieces = np.asarray(shapely.polygons(outer, np.asarray(holes)[:, None]))
    return edged(pieces, outer, edge_m)


def united(shadows: Shadows) -> shapely.Geometry:
    """Return the one outline of many parts: what they cover together, each spot once."""
    return shapely.union_all(shadows)


def united_by_group(shadows: Shadows, group: npt.NDArray[np.intp], groups: int) -> Shadows:
    """Return (groups,) outlines, each of the parts that are in its group; empty for none.

    Args:
        shadows: (n,) silhouettes.
        group: (n,) number of the group each belongs to, from 0.
        groups: How many groups there are.
    """
    order = np.argsort(group, kind="stable")
    counts = np.bincount(group, minlength=groups)
    slot = np.arange(len(order)) - np.repeat(np.cumsum(counts) - counts, counts)
    table = np.full((groups, counts.max(initial=0)), None, dtype=object)
    table[group[order], slot] = shadows[order]
    # In one call, which leaves Python to others for as long as it takes.
    united_ones: Shadows = np.asarray(shapely.union_all(table, axis=1))
    return united_ones


def shifted(outline: shapely.Geometry, by_m: Floats) -> shapely.Geometry:
    """Return an outline moved by (2,) in its view."""
    return shapely.transform(outline, lambda corners_m: corners_m + by_m)


def moved(shadows: Shadows, by_m: Floats) -> Shadows:
    """Return (n,) outlines, each moved by its own row of (n, 2)."""
    corners_m, owner = shapely.get_coordinates(shadows, return_index=True)
    stepped: Shadows = shapely.set_coordinates(shadows.copy(), corners_m + by_m[owner])
    return stepped


def area_and_middle(shadows: Shadows) -> tuple[Floats, Floats]:
    """Return the areas (n,) and middles (n, 2) of outlines; 0 at the origin for an empty one."""
    outlines = np.atleast_1d(shadows)
    areas_m2 = np.asarray(shapely.area(outlines))
    middles_m = np.zeros((len(outlines), 2))
    seen = areas_m2 > 0
    middles_m[seen] = shapely.get_coordinates(shapely.centroid(outlines[seen]))
    return areas_m2, middles_m


def loops(shadow: shapely.Geometry) -> tuple[Loop, ...]:
    """Return the closed outlines of a silhouette, to be drawn."""
    return tuple(
        Loop(
            shapely.get_coordinates(shapely.get_exterior_ring(piece)),
            tuple(shapely.get_coordinates(hole) for hole in shapely.get_rings(piece)[1:]),
        )
        for piece in shapely.get_parts(shadow)
        if not shapely.is_empty(piece)
    )
