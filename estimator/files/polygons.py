"""Polygons as a file lists them, and the triangles they are cut into."""

from typing import NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt

Floats: TypeAlias = npt.NDArray[np.float64]
Indices: TypeAlias = npt.NDArray[np.intp]

TRIANGLE = 3
MOST_TRIANGLES = 2_000_000
"""More than this take too long to look through; a hand-made figure needs a hundredth."""
_MOST_STARTS = 16
"""Corners that a polygon is tried to be cut from."""


class Polygons(NamedTuple):
    """Polygons of a file, in its own units.

    Attributes:
        points: (v, 3).
        corners: (k,) rows of `points`, those of one polygon after those of another.
        sizes: (n,) corners of each polygon.
    """

    points: Floats
    corners: Indices
    sizes: Indices


class Cut(NamedTuple):
    """Polygons cut into triangles.

    Attributes:
        faces: (f, 3) rows of the points.
        cut: Polygons of more than three corners.
        doubtful: Those of them that fold back wherever they are cut from a corner, so that their
            area comes out too large.
    """

    faces: Indices
    cut: int
    doubtful: int


def cut_up(polygons: Polygons) -> Cut:
    """Return polygons as triangles, all around one of their corners, in the order of the file.

    The corner is the first from which every triangle looks the same way as the polygon; any will
    do for one that bulges outwards all around, and a few are tried for the others. Polygons of
    less than three corners have no area and give no triangle.
    """
    starts = np.cumsum(polygons.sizes) - polygons.sizes
    faces, order, cut, doubtful = [], [], 0, 0
    for size in np.flatnonzero(np.bincount(polygons.sizes)):
        rows = np.flatnonzero(polygons.sizes == size)
        corners = polygons.corners[starts[rows, None] + np.arange(size)]
        if size > TRIANGLE:
            corners, folded = _turned(polygons.points, corners)
            cut += len(rows)
            doubtful += folded
        if size >= TRIANGLE:
            hub = np.broadcast_to(corners[:, :1], (len(rows), int(size) - 2))
            fan = np.stack((hub, corners[:, 1:-1], corners[:, 2:]), axis=-1)
            faces.append(fan.reshape(-1, TRIANGLE))
            order.append(np.repeat(rows, size - 2))
    if not faces:
        return Cut(np.empty((0, TRIANGLE), dtype=np.intp), 0, 0)
    in_order = np.argsort(np.concatenate(order), kind="stable")
    return Cut(np.concatenate(faces)[in_order], cut, doubtful)


def _turned(points: Floats, corners: Indices) -> tuple[Indices, int]:
    """Return polygons of one size, each starting from the corner it can be cut from.

    Also returns how many have no such corner.
    """
    best = corners.copy()
    open_rows = np.arange(len(corners))
    for first in range(min(corners.shape[1], _MOST_STARTS)):
        tried = np.roll(corners[open_rows], -first, axis=1)
        good = _looks_one_way(points[tried])
        best[open_rows[good]] = tried[good]
        open_rows = open_rows[~good]
        if not len(open_rows):
            break
    return best, len(open_rows)


def _looks_one_way(at: Floats) -> npt.NDArray[np.bool_]:
    """Return which polygons (n, k, 3) are cut from their first corner without folding back."""
    spokes = at[:, 1:] - at[:, :1]
    areas = np.cross(spokes[:, :-1], spokes[:, 1:])
    whole = areas.sum(axis=1, keepdims=True)
    looks: npt.NDArray[np.bool_] = ((areas * whole).sum(axis=-1) >= 0).all(axis=-1)
    return looks
