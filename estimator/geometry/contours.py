"""Contours: the outline that a mesh shows from any side, with its holes.

Every triangle covers its own projection, so a mesh covers the union of them. They are not united
one by one. Walk round each triangle the way that is anticlockwise in the view: neighbours walk
the side they share in opposite ways and cancel, but for where the surface folds over, front to
back, or ends. What is left are closed loops, few of them, and the times they wind round a spot
are the layers of surface that lie over it: the outline is where that is not nought. This is exact
for any set of triangles, whichever way they were given: closed or open, doubled, crossing.
"""

from collections.abc import Iterator
from typing import NamedTuple, Self

import numpy as np
import numpy.typing as npt
import shapely

from estimator.geometry.measures import Floats
from estimator.geometry.models import Mesh

Indices = npt.NDArray[np.intp]

GRID_DECIMALS = 8
"""Corners in a view are rounded to so many decimals of a metre, so that what is one is one."""
UPRIGHT = 1e-9
"""A triangle that shows less than this share of itself is seen edge-on, and covers nothing."""
HAIR_M = 1e-6
"""A hole or a piece narrower than this is a rounding, and is left out."""
MOST_FOLDS = 10_000
"""A mesh with more sides in its contour is outlined in pieces: loops that are many cross often."""
PIECE = 8_000
"""Triangles of such a piece; measured to be the quickest for a mesh as rough as a scan."""


class Surface(NamedTuple):
    """A mesh with its edges, ready to be looked at.

    Attributes:
        points_m: (v, 3) corners.
        faces: (f, 3) rows of `points_m`.
        normals_m2: (f, 3) across each triangle, twice its area long.
        edges: (e, 2) rows of `points_m`, the lower first.
        sides: (f, 3) row of `edges` of each side of a triangle.
        senses: (f, 3) 1 where the triangle walks it from the lower row to the higher, else -1.
        closed: Whether as many triangles walk each edge one way as the other, so that all that
            look at the viewer cover as much as all that look away.
        pieces: Of a large rough mesh: its parts, outlined one by one.
    """

    points_m: Floats
    faces: Indices
    normals_m2: Floats
    edges: Indices
    sides: Indices
    senses: npt.NDArray[np.int8]
    closed: bool
    pieces: tuple["Surface", ...] = ()

    @classmethod
    def of(cls, mesh: Mesh) -> Self:
        """Return a mesh made ready."""
        whole = cls._of(mesh.points_m, mesh.faces)
        whole = whole._replace(closed=bool(np.all(_walks(whole, np.ones(len(mesh.faces))) == 0)))
        most = max((len(_contour(whole, _shown(whole, axis))[0]) for axis in np.eye(3)), default=0)
        if most <= MOST_FOLDS:
            return whole
        return whole._replace(pieces=tuple(cls._cut(whole)))

    @classmethod
    def _of(cls, points_m: Floats, faces: Indices) -> Self:
        corners_m = points_m[faces]
        normals_m2 = np.cross(corners_m[:, 1] - corners_m[:, 0], corners_m[:, 2] - corners_m[:, 0])
        start, end = faces, np.roll(faces, -1, axis=1)
        low, high = np.minimum(start, end), np.maximum(start, end)
        codes, sides = np.unique(low * len(points_m) + high, return_inverse=True)
        edges = np.stack(np.divmod(codes, max(len(points_m), 1)), axis=-1)
        senses = np.where(start < end, 1, -1).astype(np.int8)
        return cls(points_m, faces, normals_m2, edges, sides.reshape(-1, 3), senses, closed=False)

    @classmethod
    def _cut(cls, whole: "Surface") -> Iterator["Surface"]:
        """Return a mesh in pieces, halved along its longest side again and again."""
        middles_m = whole.points_m[whole.faces].mean(axis=1)
        waiting = [np.arange(len(whole.faces))]
        while waiting:
            rows = waiting.pop()
            if len(rows) > PIECE:
                axis = int(np.ptp(middles_m[rows], axis=0).argmax())
                order = np.argsort(middles_m[rows, axis])
                waiting += np.array_split(rows[order], 2)
                continue
            used, faces = np.unique(whole.faces[rows], return_inverse=True)
            piece = cls._of(whole.points_m[used], faces.reshape(-1, 3))
            yield piece._replace(closed=whole.closed)


def outline(surface: Surface, projection: Floats) -> shapely.Geometry:
    """Return what a mesh covers in a view; empty for one that is seen edge-on.

    Args:
        surface: The mesh.
        projection: (2, 3) rows of the view, in the frame of the mesh.
    """
    if surface.pieces:
        return _tidied(shapely.union_all([outline(piece, projection) for piece in surface.pieces]))
    return outline_of(surface, projection, _shown(surface, np.cross(*projection)))


def outline_of(surface: Surface, projection: Floats, shown: Floats) -> shapely.Geometry:
    """Return what some triangles of a mesh cover in a view.

    Args:
        surface: The mesh.
        projection: (2, 3) rows of the view.
        shown: (f,) 1 for a triangle that runs anticlockwise in the view, -1 for one that runs
            clockwise, 0 for one that does not count.
    """
    rows, times = _contour(surface, shown)
    ends_m = np.round(surface.points_m @ projection.T, GRID_DECIMALS)[surface.edges[rows]]
    apart = np.any(ends_m[:, 0] != ends_m[:, 1], axis=-1)
    return _tidied(_enclosed(ends_m[apart], times[apart]))


def facing(surface: Surface, sight: Floats) -> Floats:
    """Return (f,) 1 for triangles whose outside looks along (3,), -1 away from it, 0 edge-on."""
    slant_m2 = surface.normals_m2 @ sight
    least_m2 = UPRIGHT * np.linalg.norm(surface.normals_m2, axis=-1)
    ways: Floats = np.sign(slant_m2) * (np.abs(slant_m2) > least_m2)
    return ways


def _shown(surface: Surface, sight: Floats) -> Floats:
    """Return the triangles that count: one layer of a closed mesh, both of an open one."""
    ways = facing(surface, sight)
    return np.maximum(ways, 0.0) if surface.closed else ways


def _walks(surface: Surface, ways: Floats) -> Floats:
    """Return (e,) how often each edge is walked from its lower row, less how often back."""
    walked = surface.senses * ways[:, None]
    return _summed(surface.sides.ravel(), walked.ravel(), len(surface.edges))


def _summed(rows: Indices, values: Floats, count: int) -> Floats:
    """Return (count,) the sum of the values of each row."""
    return np.bincount(rows, values, count).astype(float)


def _contour(surface: Surface, ways: Floats) -> tuple[Indices, Floats]:
    """Return the edges whose walks do not cancel, and how often each is walked."""
    walked = _walks(surface, ways)
    rows = np.flatnonzero(walked)
    return rows, walked[rows]


def _enclosed(ends_m: Floats, times: Floats) -> shapely.Geometry:
    """Return where closed loops wind round.

    Args:
        ends_m: (e, 2, 2) start and end of each side of the loops.
        times: (e,) how often it is walked; negative from end to start.
    """
    lines = np.asarray(shapely.linestrings(ends_m))
    noded = shapely.union_all(shapely.line_merge(shapely.multilinestrings(lines)))
    cells = np.asarray(shapely.get_parts(shapely.polygonize([noded])))
    if len(cells) <= 1:
        return shapely.union_all(cells)
    spots_m = shapely.get_coordinates(shapely.point_on_surface(cells))
    wound = _windings(spots_m, ends_m, times, shapely.STRtree(lines))
    return shapely.coverage_union_all(cells[wound != 0])


def _windings(spots_m: Floats, ends_m: Floats, times: Floats, tree: shapely.STRtree) -> Floats:
    """Return (s,) how often loops wind round each spot: their sides that a level ray meets."""
    far_m = np.stack((np.full(len(spots_m), ends_m[..., 0].min() - 1.0), spots_m[:, 1]), axis=-1)
    ray, side = tree.query(shapely.linestrings(np.stack((far_m, spots_m), axis=1)))
    spot_m, (start_m, end_m) = spots_m[ray], np.swapaxes(ends_m[side], 0, 1)
    rises = (end_m[:, 1] > spot_m[:, 1]).astype(float) - (start_m[:, 1] > spot_m[:, 1])
    along_m, from_m = end_m - start_m, spot_m - start_m
    turn_m2 = along_m[:, 0] * from_m[:, 1] - from_m[:, 0] * along_m[:, 1]
    met = np.where(rises * turn_m2 < 0, -rises, 0.0) * times[side]
    return _summed(ray, met, len(spots_m))


def _tidied(covered: shapely.Geometry) -> shapely.Geometry:
    """Return an outline without holes and pieces that are only roundings."""
    pieces = np.asarray(shapely.get_parts(covered))
    rings, owner = shapely.get_rings(pieces, return_index=True)
    wide = shapely.area(shapely.polygons(rings)) > HAIR_M * shapely.length(rings) / 2
    if wide.all():
        return covered
    first = np.diff(owner, prepend=-1) > 0
    return shapely.MultiPolygon([
        shapely.Polygon(rings[(owner == i) & first][0], rings[(owner == i) & ~first & wide])
        for i in owner[first & wide]
    ])  # fmt: skip
