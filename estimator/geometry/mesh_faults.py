"""What is wrong with a surface of triangles: found and counted, with a place, never mended."""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt
from scipy import sparse
from scipy.sparse import csgraph

from estimator.geometry.measures import Floats
from estimator.geometry.meshes import Edges, signed_volumes, vector_areas
from estimator.geometry.models import Mesh

Flags = npt.NDArray[np.bool_]
PAIR = 2
"""Triangles that meet in an edge of a surface."""
FLAT = 1e-12
"""A triangle whose area is less than this share of its longest side squared has none."""


class Spot(NamedTuple):
    """Something found in several places.

    Attributes:
        found: In how many.
        at_m: One of them, as (along, beside, faces); NaN where there is none.
        size: How much in all, as what is counted says: a length [m], an area [m2].
    """

    found: int
    at_m: tuple[float, float, float]
    size: float = 0.0


class Faults(NamedTuple):
    """What was found in a mesh.

    Attributes:
        closed: Whether it bounds something: every edge is run along as often both ways.
        inverted: Whether it is closed and all of it is turned inside out.
        borders: Open borders: edges of one triangle that hang together; place of the longest.
        open_edges: Edges of one triangle; their length.
        crowded: Edges in which more than two triangles meet; their length.
        flipped: Edges along which two neighbours run the same way: one is inside out; length.
        doubled: Triangles with the same corners as another; their area.
        flat: Triangles without an area.
        pieces: Pieces that share no corner with another; size is the area of the largest.
        hollows: Closed pieces turned inside out within the box of another: taken off; volume.
        astray: Closed pieces turned inside out elsewhere; volume.
    """

    closed: bool
    inverted: bool
    borders: Spot
    open_edges: Spot
    crowded: Spot
    flipped: Spot
    doubled: Spot
    flat: Spot
    pieces: Spot
    hollows: Spot
    astray: Spot


NOWHERE = (float("nan"),) * 3
NONE = Spot(0, NOWHERE)


def faults(mesh: Mesh, edges: Edges) -> Faults:
    """Return what is wrong with a mesh.

    Args:
        mesh: Its triangles, one at least, none with one corner twice.
        edges: Its edges.
    """
    areas = np.linalg.norm(vector_areas(mesh), axis=1)
    at_m = mesh.points_m[mesh.faces]
    piece, count = _pieces(mesh, edges)
    balanced = edges.forward == edges.backward
    volumes: Floats = np.bincount(piece, signed_volumes(mesh), count).astype(float)
    closed, inside_out = bool(balanced.all()), volumes < 0
    inverted = closed and bool(inside_out.all())
    loose = inside_out & (closed and not inverted)
    held = loose & _held(mesh, piece, inside_out) if loose.any() else loose
    astray = loose & ~held
    piece_areas = np.bincount(piece, areas, count)
    largest = face_spot(at_m, piece == piece_areas.argmax())
    return Faults(
        closed=closed and not astray.any(),
        inverted=inverted,
        borders=_borders(mesh, edges),
        open_edges=_edge_spot(mesh, edges, edges.shared == 1),
        crowded=_edge_spot(mesh, edges, edges.shared > PAIR),
        flipped=_edge_spot(mesh, edges, (edges.shared == PAIR) & ~balanced),
        doubled=face_spot(at_m, _repeats(mesh)),
        flat=face_spot(at_m, _without_area(at_m, areas)),
        pieces=largest._replace(found=count),
        hollows=_piece_spot(mesh, piece, volumes, held),
        astray=_piece_spot(mesh, piece, volumes, astray),
    )


def _pieces(mesh: Mesh, edges: Edges) -> tuple[npt.NDArray[np.intp], int]:
    """Return the piece of each triangle, and how many pieces there are."""
    count, label = _joined(edges.ends, len(mesh.points_m))
    used = np.zeros(count, dtype=bool)
    used[label[mesh.faces[:, 0]]] = True
    renamed = np.cumsum(used) - 1
    return renamed[label[mesh.faces[:, 0]]], int(used.sum())


def _joined(pairs: npt.NDArray[np.intp], count: int) -> tuple[int, npt.NDArray[np.intp]]:
    """Return how many groups pairs (e, 2) make of so many points, and the group of each."""
    links = sparse.coo_array((np.ones(len(pairs), dtype=bool), pairs.T), shape=(count, count))
    groups, label = csgraph.connected_components(links, directed=False)
    return int(groups), label.astype(np.intp)


def _held(mesh: Mesh, piece: npt.NDArray[np.intp], inside_out: Flags) -> Flags:
    """Return which pieces lie in the box round a piece that is not turned inside out."""
    low_m = np.full((len(inside_out), 3), np.inf)
    high_m = -low_m
    at_m = mesh.points_m[mesh.faces]
    np.minimum.at(low_m, piece, at_m.min(axis=1))
    np.maximum.at(high_m, piece, at_m.max(axis=1))
    held = np.zeros(len(inside_out), dtype=bool)
    for n in np.flatnonzero(inside_out):
        around = (low_m <= low_m[n]).all(axis=1) & (high_m >= high_m[n]).all(axis=1)
        held[n] = (around & ~inside_out).any()
    return held


def _borders(mesh: Mesh, edges: Edges) -> Spot:
    """Return how many open borders there are, with length and middle of the longest."""
    pairs = edges.ends[edges.shared == 1]
    if not len(pairs):
        return NONE
    _, label = _joined(pairs, len(mesh.points_m))
    ends_m = mesh.points_m[pairs]
    of_edge = label[pairs[:, 0]]
    length_m = np.bincount(of_edge, np.linalg.norm(ends_m[:, 1] - ends_m[:, 0], axis=1))
    longest = length_m.argmax()
    at_m = ends_m[of_edge == longest].mean(axis=(0, 1))
    return Spot(int(np.count_nonzero(np.bincount(of_edge))), place(at_m), length_m[longest])


def _edge_spot(mesh: Mesh, edges: Edges, which: Flags) -> Spot:
    """Return how many edges there are of a kind, their length, and where the longest is."""
    if not which.any():
        return NONE
    ends_m = mesh.points_m[edges.ends[which]]
    length_m = np.linalg.norm(ends_m[:, 1] - ends_m[:, 0], axis=1)
    at_m = ends_m[length_m.argmax()].mean(axis=0)
    return Spot(len(length_m), place(at_m), float(length_m.sum()))


def face_spot(at_m: Floats, which: Flags) -> Spot:
    """Return how many triangles (f, 3, 3) there are of a kind, their area, where the first is."""
    if not which.any():
        return NONE
    a, b, c = at_m[which].transpose(1, 0, 2)
    area_m2 = np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2
    return Spot(int(which.sum()), place(at_m[which.argmax()].mean(axis=0)), float(area_m2))


def _piece_spot(mesh: Mesh, piece: npt.NDArray[np.intp], volumes: Floats, which: Flags) -> Spot:
    """Return how many pieces there are of a kind, their volume, and where the largest is."""
    if not which.any():
        return NONE
    largest = np.where(which, -volumes, -np.inf).argmax()
    at_m = mesh.points_m[mesh.faces[piece == largest]].mean(axis=(0, 1))
    return Spot(int(which.sum()), place(at_m), float(-volumes[which].sum()))


def _repeats(mesh: Mesh) -> Flags:
    """Return which triangles have the same corners as one before them."""
    low, middle, high = np.sort(mesh.faces, axis=1).T
    order = np.lexsort((high, middle, low))
    alike = np.zeros(len(order), dtype=bool)
    same = [np.diff(corner[order]) == 0 for corner in (low, middle, high)]
    alike[order[1:]] = np.logical_and.reduce(same)
    return alike


def _without_area(at_m: Floats, areas: Floats) -> Flags:
    sides_m2 = ((np.roll(at_m, -1, axis=1) - at_m) ** 2).sum(axis=-1).max(axis=1)
    flat: Flags = areas <= FLAT * sides_m2
    return flat


def place(at_m: Floats) -> tuple[float, float, float]:
    """Return a point (3,) as a place to tell."""
    along, beside, faces = at_m.tolist()
    return along, beside, faces
