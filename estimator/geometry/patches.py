"""Patches: a mesh as a line drawing, laid down from the back to the front.

What looks at the viewer falls into patches, which end where the surface folds over, ends or has a
sharp edge. Each is a white area with its own lines on it. Laid down by their depth, what is near
hides the lines of what is behind it, of the mesh itself and of everything else.
"""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
import shapely
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from estimator.geometry.contours import Indices, Surface, facing, outline_of
from estimator.geometry.measures import Floats
from estimator.geometry.models import Mesh

Bools = npt.NDArray[np.bool_]

CREASE_RAD = np.deg2rad(35.0)
"""Where the surface bends by more than this from triangle to triangle, a line is drawn."""
MOST_TRIANGLES = 100_000
"""A mesh with more is drawn with the corners that lie in one small cell as one corner."""
SMALL, SHORT, SHORT_RIM = 20.0, 50.0, 2.0
"""A patch, a line inside the outline and a piece of the outline smaller than so many times the
fineness is not shown by itself."""
DOUBLE = 1.02
"""A patch that lies over itself covers less than its triangles do: by more than this it is cut."""
CUTS = 4
"""How many times such a patch is halved at most."""


class Stroke(NamedTuple):
    """A line of a drawing: (k, 2) points, and whether it is part of the outline of the whole."""

    points_m: Floats
    wide: bool


class Patch(NamedTuple):
    """A white area with lines on it.

    Attributes:
        depth_m: How near the viewer its middle is, from the origin of the mesh.
        area: What it covers in the view.
        strokes: Its lines.
    """

    depth_m: float
    area: shapely.Geometry
    strokes: tuple[Stroke, ...]


class Sight(NamedTuple):
    """How a mesh is looked at, in its own frame.

    Attributes:
        projection: (2, 3) rows of the view.
        towards: (3,) unit way to the viewer.
        fine_m: What is nearer together than this cannot be told apart.
        most: How many patches there may be.
    """

    projection: Floats
    towards: Floats
    fine_m: float
    most: int


def thinned(surface: Surface) -> Surface:
    """Return a mesh with few enough triangles to be drawn.

    Corners that lie in one cell become one at their middle, so none moves by more than the
    diagonal of a cell, whose side is so that an even mesh keeps `MOST_TRIANGLES`.
    """
    if len(surface.faces) <= MOST_TRIANGLES:
        return surface
    skin_m2 = np.linalg.norm(surface.normals_m2, axis=-1).sum() / 2
    cell_m = np.sqrt(2 * skin_m2 / MOST_TRIANGLES)
    cells = np.round(surface.points_m / cell_m).astype(np.intp)
    _, which, count = np.unique(cells, axis=0, return_inverse=True, return_counts=True)
    which = which.ravel()
    points_m = np.stack([np.bincount(which, x) for x in surface.points_m.T], axis=-1)
    faces = which[surface.faces]
    apart = np.all(faces != np.roll(faces, 1, axis=1), axis=1)
    return Surface.of(Mesh(points_m / count[:, None], faces[apart]))


def patches(surface: Surface, sight: Sight) -> list[Patch]:
    """Return the patches of a mesh, the furthest first; the first is the whole, without lines.

    Args:
        surface: The mesh.
        sight: How it is looked at.
    """
    ways = facing(surface, sight.towards)
    if surface.closed:
        ways = np.maximum(ways, 0.0)
    whole = outline_of(surface, sight.projection, ways)
    if shapely.is_empty(whole):
        return []
    desk = _Desk.of(surface, sight, ways)
    labels = _cut_where_double(desk)
    found = sorted(_drawn(desk, labels, whole), key=lambda patch: patch.depth_m)
    under = Patch(found[0].depth_m if found else 0.0, shapely.simplify(whole, sight.fine_m), ())
    return [under, *found]


class _Desk(NamedTuple):
    """A mesh as it is seen.

    Attributes:
        surface: The mesh.
        sight: How it is looked at.
        ways: (f,) nought for a triangle that is not seen.
        shown_m2: (f,) what each triangle covers.
        depth_m: (f,) of the middle of each triangle.
        edges: (k,) rows of the edges between two triangles that are seen.
        pairs: (k, 2) those triangles.
        smooth: (k,) whether the surface runs on over the edge without a sharp bend.
        fold: (e,) whether the surface folds over, or ends, at an edge.
    """

    surface: Surface
    sight: Sight
    ways: Floats
    shown_m2: Floats
    depth_m: Floats
    edges: Indices
    pairs: Indices
    smooth: Bools
    fold: Bools

    @classmethod
    def of(cls, surface: Surface, sight: Sight, ways: Floats) -> "_Desk":
        """Return a mesh as it is seen."""
        shown_m2 = np.abs(surface.normals_m2 @ sight.towards) / 2 * (ways != 0)
        depth_m = (surface.points_m @ sight.towards)[surface.faces].mean(axis=1)
        rows, triangle = np.divmod(np.argsort(surface.sides, axis=None, kind="stable"), 3)[::-1]
        edge, sense = surface.sides[triangle, rows], surface.senses[triangle, rows]
        count = np.bincount(edge, minlength=len(surface.edges))
        first = (np.cumsum(count) - count)[count == 2]  # noqa: PLR2004 - an edge of two
        pairs = np.stack((triangle[first], triangle[first + 1]), axis=-1)
        facing_alike = -(sense[first] * sense[first + 1]).astype(float)
        normals = surface.normals_m2 / np.maximum(
            np.linalg.norm(surface.normals_m2, axis=-1, keepdims=True), np.finfo(float).tiny
        )
        cosine = facing_alike * np.sum(normals[pairs[:, 0]] * normals[pairs[:, 1]], axis=-1)
        runs_on = facing_alike * ways[pairs[:, 0]] * ways[pairs[:, 1]] > 0
        walked = np.bincount(
            surface.sides.ravel(), (surface.senses * ways[:, None]).ravel(), len(surface.edges)
        )
        smooth = cosine[runs_on] > np.cos(CREASE_RAD)
        return cls(surface, sight, ways, shown_m2, depth_m, edge[first][runs_on],
                   pairs[runs_on], smooth, walked != 0)  # fmt: skip

    def in_view(self, edges: Indices) -> Floats:
        """Return (k, 2, 2) the ends of edges in the view."""
        return self.surface.points_m[self.surface.edges[edges]] @ self.sight.projection.T


def _joined(desk: _Desk, level: Indices) -> Indices:
    """Return (f,) the patch of each triangle: joined over smooth edges within one level."""
    one, other = desk.pairs.T
    kept = desk.smooth & (level[one] == level[other])
    links = coo_matrix((np.ones(kept.sum()), (one[kept], other[kept])), shape=2 * desk.ways.shape)
    labels = connected_components(links, directed=False)[1]
    return _merged(desk, labels.astype(np.intp))


def _merged(desk: _Desk, labels: Indices) -> Indices:
    """Return patches with the small ones joined to the neighbour they share most edge with."""
    ends_m = desk.in_view(desk.edges)
    length_m: Floats = np.linalg.norm(ends_m[:, 1] - ends_m[:, 0], axis=-1)
    small_m2 = (SMALL * desk.sight.fine_m) ** 2
    while True:
        area_m2: Floats = np.bincount(labels, desk.shown_m2).astype(float)
        most_m2 = np.sort(area_m2)[-desk.sight.most - 1] if len(area_m2) > desk.sight.most else 0.0
        small = area_m2 <= max(small_m2, most_m2)
        between = labels[desk.pairs]
        open_ = (between[:, 0] != between[:, 1]) & small[between].any(axis=1)
        if not open_.any():
            return labels
        labels = _joined_to_longest(between[open_], length_m[open_], area_m2, labels)


def _joined_to_longest(
    between: Indices, length_m: Floats, area_m2: Floats, labels: Indices
) -> Indices:
    """Return patches with each smaller one of some neighbours joined over its longest edge."""
    both = np.sort(between, axis=1)
    pairs, which = np.unique(both, axis=0, return_inverse=True)
    shared_m = np.bincount(which.ravel(), length_m)
    lesser = np.where(area_m2[pairs[:, 0]] <= area_m2[pairs[:, 1]], pairs[:, 0], pairs[:, 1])
    order = np.lexsort((shared_m, lesser))
    last = np.flatnonzero(np.diff(lesser[order], append=-1))
    chosen = pairs[order[last]]
    links = coo_matrix((np.ones(len(chosen)), chosen.T), shape=2 * area_m2.shape)
    joined = connected_components(links, directed=False)[1].astype(np.intp)
    return joined[labels]


def _cut_where_double(desk: _Desk) -> Indices:
    """Return patches of which none lies over itself, as an arm over the body it belongs to."""
    level = np.zeros(len(desk.ways), dtype=np.intp)
    labels = _joined(desk, level)
    for _ in range(CUTS):
        double = [k for k in _large(desk, labels) if _is_double(desk, labels == k)]
        if not double or len(double) >= desk.sight.most:
            break
        for k in double:
            own = labels == k
            level[own] = 2 * level[own] + (desk.depth_m[own] > np.median(desk.depth_m[own]))
        labels = _joined(desk, level)
    return labels


def _large(desk: _Desk, labels: Indices) -> list[int]:
    """Return the patches that are shown by themselves: the largest of those not too small."""
    area_m2 = np.bincount(labels, desk.shown_m2)
    order = np.argsort(-area_m2)[: desk.sight.most]
    found: list[int] = order[area_m2[order] > (SMALL * desk.sight.fine_m) ** 2 / 4].tolist()
    return found


def _is_double(desk: _Desk, own: Bools) -> bool:
    covered_m2 = shapely.area(_area(desk, own))
    return bool(desk.shown_m2[own].sum() > DOUBLE * covered_m2)


def _area(desk: _Desk, own: Bools) -> shapely.Geometry:
    return outline_of(desk.surface, desk.sight.projection, desk.ways * own)


def _drawn(desk: _Desk, labels: Indices, whole: shapely.Geometry) -> Iterator[Patch]:
    """Return every patch with its lines."""
    rim = shapely.simplify(shapely.boundary(whole), desk.sight.fine_m)
    lined = _lined(desk, labels, rim)
    for k in _large(desk, labels):
        own = (labels == k) & (desk.ways != 0)
        edges = np.unique(desk.surface.sides[own])
        inner = _chained(desk.in_view(edges[lined[edges]]), desk.sight.fine_m)
        area = shapely.simplify(_area(desk, own), desk.sight.fine_m)
        near = shapely.buffer(area, 2 * desk.sight.fine_m, quad_segs=2)
        outer = shapely.line_merge(shapely.intersection(rim, near))
        strokes = (*_strokes(inner, desk, wide=False), *_strokes(outer, desk, wide=True))
        depth_m = float(np.average(desk.depth_m[own], weights=desk.shown_m2[own]))
        yield Patch(depth_m, area, strokes)


def _lined(desk: _Desk, labels: Indices, rim: shapely.Geometry) -> Bools:
    """Return (e,) the edges drawn as lines inside the outline: folds and sharp edges in sight."""
    sharp = np.zeros(len(desk.fold), dtype=bool)
    sharp[desk.edges] = ~desk.smooth & (labels[desk.pairs[:, 0]] != labels[desk.pairs[:, 1]])
    edges = np.flatnonzero(desk.fold | sharp)
    middles = shapely.points(desk.in_view(edges).mean(axis=1))
    shapely.prepare(rim)
    edges = edges[~shapely.dwithin(rim, middles, desk.sight.fine_m)]
    lined = np.zeros(len(desk.fold), dtype=bool)
    lined[edges[~_hidden(desk, edges)]] = True
    return lined


def _hidden(desk: _Desk, edges: Indices) -> Bools:
    """Return which edges lie further behind the mesh itself than they are long."""
    shown = np.flatnonzero(desk.ways)
    corners_m = desk.surface.points_m[desk.surface.faces[shown]]
    triangles = np.asarray(shapely.polygons(corners_m @ desk.sight.projection.T))
    tree = shapely.STRtree(triangles)
    ends_m = desk.surface.points_m[desk.surface.edges[edges]]
    middles_m = ends_m.mean(axis=1)
    spots = shapely.points(middles_m @ desk.sight.projection.T)
    edge, triangle = tree.query(spots, predicate="within")
    normals_m2 = desk.surface.normals_m2[shown[triangle]]
    from_m = corners_m[triangle, 0] - middles_m[edge]
    before_m = np.sum(normals_m2 * from_m, axis=-1) / (normals_m2 @ desk.sight.towards)
    least_m = np.linalg.norm(ends_m[:, 1] - ends_m[:, 0], axis=-1) + desk.sight.fine_m
    hidden = np.zeros(len(edges), dtype=bool)
    hidden[edge[before_m > least_m[edge]]] = True
    return hidden


def _chained(ends_m: Floats, fine_m: float) -> shapely.Geometry:
    """Return edges (k, 2, 2) as lines as long as can be."""
    apart = np.any(ends_m[:, 0] != ends_m[:, 1], axis=-1)
    chained = shapely.line_merge(shapely.MultiLineString([*ends_m[apart]]))
    return shapely.simplify(chained, fine_m)


def _strokes(lines: shapely.Geometry, desk: _Desk, *, wide: bool) -> Iterator[Stroke]:
    """Return lines as strokes, but for what is too short to be told from a spot."""
    least_m = (SHORT_RIM if wide else SHORT) * desk.sight.fine_m
    for line in shapely.get_parts(lines):
        if shapely.length(line) > least_m:
            yield Stroke(shapely.get_coordinates(line), wide)
