"""Where a surface of triangles runs through itself."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats
from estimator.geometry.mesh_faults import Flags, Spot, face_spot
from estimator.geometry.models import Mesh

if TYPE_CHECKING:
    from scipy.spatial import cKDTree

Indices: TypeAlias = npt.NDArray[np.intp]

MOST_PAIRS = 20_000_000
"""Pairs of triangles near each other that are compared: some ten seconds."""
BATCH_PAIRS = 1_000_000
FIRST_BATCH = 50_000
MOST_RATIO = 2.0**20
"""Largest to smallest triangle that still is a group of its own size."""
STEPS = 4
"""Groups from one size to half of it: more of them reach less far, and are more to go through."""
SAMPLE = 16
"""One triangle in so many is counted to tell how many pairs a batch will have."""
CLEAR = 1e-9
"""A corner is off a plane from this share of the triangle's size on: beyond rounding."""


class Crossings(NamedTuple):
    """Triangles that run through others without sharing a corner with them.

    Attributes:
        found: How many do, and the first place.
        looked_at: Triangles that were compared with all others.
        faces: Triangles there are.
    """

    found: Spot
    looked_at: int
    faces: int


class _Group(NamedTuple):
    """Triangles of about one size, in an order of places, with a tree of their middles.

    Attributes:
        rows: (k,) of the triangles.
        tree: Of their middles.
        reaches_m: (k,) from its middle to the furthest corner of each.
        reach_m: The longest of those.
    """

    rows: Indices
    tree: "cKDTree[None]"
    reaches_m: Floats
    reach_m: float


def crossings(mesh: Mesh, most_pairs: int = MOST_PAIRS) -> Crossings:
    """Return where a mesh runs through itself.

    Triangles that share a corner, and those that lie in one plane, are not compared.

    Args:
        mesh: Its triangles, one at least.
        most_pairs: Pairs compared before it is left at that.
    """
    at_m = mesh.points_m[mesh.faces]
    low_m, high_m = at_m.min(axis=1), at_m.max(axis=1)
    through = np.zeros(len(mesh.faces), dtype=bool)
    looked = 0
    for batch in _near(at_m, most_pairs):
        looked += batch.done
        first, second = batch.pairs
        boxed = (low_m[first] <= high_m[second]) & (low_m[second] <= high_m[first])
        first, second = batch.pairs[:, boxed.all(axis=1)]
        apart = ~_touching(mesh.faces, first, second)
        first, second = first[apart], second[apart]
        cross = _cross(at_m, first, second)
        through[first[cross]] = through[second[cross]] = True
    return Crossings(face_spot(at_m, through), looked, len(mesh.faces))


class _Batch(NamedTuple):
    """Triangles that no longer need to be compared with any others, and their pairs (2, k)."""

    done: int
    pairs: Indices


def _near(at_m: Floats, most_pairs: int) -> Iterator[_Batch]:
    """Yield pairs of triangles that are near each other, until all are compared with all.

    The large ones come first, each with those of its size and smaller; it ends when there would
    be more pairs than the most.
    """
    middles_m = at_m.mean(axis=1)
    reach_m = np.linalg.norm(at_m - middles_m[:, None], axis=-1).max(axis=1)
    groups = _by_size(middles_m, reach_m)
    for n, group in enumerate(groups):
        start, batch = 0, FIRST_BATCH
        while start < len(group.rows):
            at_m = middles_m[group.rows[start : start + batch]]
            count = _count(at_m, group, groups[n:])
            if count > most_pairs:
                return
            if count > BATCH_PAIRS and batch > 1:
                batch = max(batch * BATCH_PAIRS // (2 * count), 1)
                continue
            tree = _tree(at_m)
            pairs = np.concatenate([_pairs(tree, start, group, g) for g in groups[n:]], axis=1)
            yield _Batch(tree.n, pairs)
            most_pairs -= pairs.shape[1]
            start += batch


def _tree(at_m: Floats) -> "cKDTree[None]":
    from scipy.spatial import cKDTree  # noqa: PLC0415 - slow to load, and few jobs have a mesh

    return cKDTree(at_m)


def _by_size(middles_m: Floats, reach_m: Floats) -> list[_Group]:
    """Return the triangles by size, a few groups to each halving, the largest first."""
    largest_m = reach_m.max()
    halvings = np.log2(largest_m / np.maximum(reach_m, largest_m / MOST_RATIO))
    steps = np.floor(STEPS * halvings)
    groups = []
    for step in np.unique(steps):
        rows = np.flatnonzero(steps == step)
        rows = rows[_tree(middles_m[rows]).indices]
        reaches_m = reach_m[rows]
        groups.append(_Group(rows, _tree(middles_m[rows]), reaches_m, float(reaches_m.max())))
    return groups


def _count(at_m: Floats, group: _Group, others: list[_Group]) -> int:
    """Return about how many pairs some of a group (k, 3) have, without making them.

    Within the group each would be found from both of its ends, and counts half.
    """
    step = SAMPLE if len(at_m) > SAMPLE**2 else 1
    some = _tree(at_m[::step])
    counts = [some.count_neighbors(g.tree, group.reach_m + g.reach_m) for g in others]
    return int(step * (sum(counts) - counts[0] / 2))


def _pairs(tree: "cKDTree[None]", start: int, group: _Group, other: _Group) -> Indices:
    """Return the pairs (2, k) of a tree of some of a group and of another group that may reach.

    Within a group each pair counts once, where its earlier one is among the some.
    """
    reach_m = group.reach_m + other.reach_m
    near = tree.sparse_distance_matrix(other.tree, reach_m, output_type="ndarray")
    first, second = near["i"] + start, near["j"]
    may = near["v"] <= group.reaches_m[first] + other.reaches_m[second]
    if other is group:
        may &= first < second
    return np.stack((group.rows[first[may]], other.rows[second[may]]))


def _touching(faces: Indices, first: Indices, second: Indices) -> Flags:
    """Return which pairs of triangles share a corner."""
    shared = np.zeros(len(first), dtype=bool)
    for a in range(3):
        own = faces[first, a]
        for b in range(3):
            shared |= own == faces[second, b]
    return shared


def _cross(at_m: Floats, first: Indices, second: Indices) -> Flags:
    """Return which pairs of triangles (f, 3, 3) run through each other.

    Each must have corners on both sides of the other's plane, and then an edge of one must go
    through the other.

    References:
        T. Moller, A Fast Triangle-Triangle Intersection Test, J. Graphics Tools 2(2), 1997, for
        the planes first; from memory.
    """
    one, other = _heights(at_m, first, second), _heights(at_m, second, first)
    cut = np.flatnonzero(_both_sides(one) & _both_sides(other))
    a, b = at_m[first[cut]], at_m[second[cut]]
    crossed = np.zeros(len(first), dtype=bool)
    crossed[cut] = _pierced(a, one[cut], b) | _pierced(b, other[cut], a)
    return crossed


def _heights(at_m: Floats, first: Indices, second: Indices) -> Floats:
    """Return how high the corners of the first triangles are over the planes of the second.

    (k, 3), in units of the size of the second; those within rounding of it are zero.
    """
    base = at_m[second, 0]
    normal = np.cross(at_m[second, 1] - base, at_m[second, 2] - base)
    length = np.linalg.norm(normal, axis=1, keepdims=True)
    normal /= np.maximum(length, np.finfo(float).tiny) ** 1.5
    heights = np.einsum("kci,ki->kc", at_m[first] - base[:, None], normal)
    return np.where(np.abs(heights) > CLEAR, heights, 0.0)


def _both_sides(heights: Floats) -> Flags:
    sides: Flags = (heights.min(axis=1) < 0) & (heights.max(axis=1) > 0)
    return sides


def _pierced(a: Floats, heights: Floats, b: Floats) -> Flags:
    """Return which triangles b (k, 3, 3) an edge of their a goes through.

    Args:
        a: The triangles with the edges.
        heights: (k, 3) of their corners over the planes of b.
        b: The triangles that may be gone through.
    """
    sides = np.roll(b, -1, axis=1) - b
    normal = np.cross(sides[:, 0], sides[:, 1])
    hit = np.zeros(len(a), dtype=bool)
    for start, end in ((0, 1), (1, 2), (2, 0)):
        from_m, to_m = heights[:, start], heights[:, end]
        crosses = from_m * to_m < 0
        share = np.where(crosses, from_m / np.where(crosses, from_m - to_m, 1.0), 0.0)
        at_m = a[:, start] + share[:, None] * (a[:, end] - a[:, start])
        turns = np.einsum("ksi,ki->ks", np.cross(sides, at_m[:, None] - b), normal)
        inside = (turns >= -CLEAR * np.einsum("ki,ki->k", normal, normal)[:, None]).all(axis=1)
        hit |= crosses & inside
    return hit
