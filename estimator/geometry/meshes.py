"""What a surface of triangles measures: skin, solid, edges, and the same a little further in.

The skin of a mesh has two faces with some thickness between them, and the file shows one of them.
The areas and volumes at a depth below what it shows follow from the area, the volume and the sum
of the bends of the surface: Steiner's formula.
"""

import math
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats, Measures, Region, one, times
from estimator.geometry.models import Mesh


class Edges(NamedTuple):
    """The edges of a mesh, each once.

    Attributes:
        ends: (e, 2) rows of the points, the lower one first.
        forward: (e,) triangles that run along it from the lower to the higher one.
        backward: (e,) those that run the other way.
        of_face: (f, 3) the edges of each triangle, from its first corner on.
    """

    ends: npt.NDArray[np.intp]
    forward: npt.NDArray[np.intp]
    backward: npt.NDArray[np.intp]
    of_face: npt.NDArray[np.intp]

    @property
    def shared(self) -> npt.NDArray[np.intp]:
        """Return how many triangles meet in each edge."""
        return self.forward + self.backward


class Depths(NamedTuple):
    """How far below what a mesh shows things lie [m], inwards positive.

    Attributes:
        outer: The outside of the skin.
        middle: The middle of its thickness.
        inner: Its inside.
    """

    outer: float = 0.0
    middle: float = 0.0
    inner: float = 0.0


SHOWS = {"outside": 0.0, "middle": 0.5, "inside": 1.0}
"""Which face of the skin a mesh is, as its share of the thickness from the outside."""
BLUNT = 0.5
"""Length of the mean of the normals around a corner below which it is too sharp to be moved on."""
LOOKS_IN = 0.02
"""Volume over area^1.5 from which an open surface counts as hollow: a ball has 0.094, half a ball
0.1. Program default, no source."""


def depths(shows: str, skin_m: float) -> Depths:
    """Return where the faces of a skin of this thickness lie under what a mesh shows."""
    return Depths(*((at - SHOWS[shows]) * skin_m for at in (0.0, 0.5, 1.0)))


def edges_of(faces: npt.NDArray[np.intp]) -> Edges:
    """Return the edges of triangles (f, 3), and which way each triangle runs along them."""
    starts, ends = faces.ravel(), np.roll(faces, -1, axis=1).ravel()
    low, high = np.minimum(starts, ends), np.maximum(starts, ends)
    span = int(faces.max(initial=0)) + 1
    keys, of_face = np.unique(low * span + high, return_inverse=True)
    forward = np.bincount(of_face, starts < ends, len(keys)).astype(np.intp)
    backward = np.bincount(of_face, starts > ends, len(keys)).astype(np.intp)
    pairs = np.stack(np.divmod(keys, span), axis=-1)
    return Edges(pairs, forward, backward, of_face.reshape(-1, 3))


def vector_areas(mesh: Mesh) -> Floats:
    """Return the normals of the triangles (f, 3), as long as their areas [m2]."""
    a, b, c = mesh.points_m[mesh.faces.T]
    halves: Floats = np.cross(b - a, c - a) / 2
    return halves


def skin(mesh: Mesh) -> Region:
    """Return the surface of a mesh as a region [m2] of one part.

    References:
        Of a triangle with corners v and their sum s, the integral of x x^T is A/12 times
        (sum of v v^T + s s^T): the rule for a simplex, exact for squares of a coordinate.
    """
    areas = np.linalg.norm(vector_areas(mesh), axis=1)
    return _gathered(mesh, areas, 3)


def solid(mesh: Mesh) -> Region:
    """Return what a closed mesh encloses as a region [m3] of one part; negative when inside out.

    References:
        Divergence theorem, as signed tetrahedra from one point to each triangle: Mirtich, Fast and
        Accurate Computation of Polyhedral Mass Properties, J. Graphics Tools 1(2), 1996, solves
        the same integrals; over a tetrahedron with one corner at the origin that of x x^T is
        V/20 (sum of v v^T + s s^T).
    """
    return _gathered(mesh, signed_volumes(mesh), 4)


def signed_volumes(mesh: Mesh) -> Floats:
    """Return the volumes (f,) [m3] between each triangle and the middle of the corners."""
    a, b, c = _about_middle(mesh)[mesh.faces.T]
    volumes: Floats = np.einsum("fi,fi->f", a, np.cross(b, c)) / 6
    return volumes


def _about_middle(mesh: Mesh) -> Floats:
    """Return the points from the middle of them all, so that far away ones lose no digits."""
    at_m: Floats = mesh.points_m - mesh.points_m.mean(axis=0)
    return at_m


def _gathered(mesh: Mesh, sizes: Floats, corners: int) -> Region:
    """Return the region that simplices make: triangles, or tetrahedra from the middle point.

    Args:
        mesh: The mesh.
        sizes: (f,) of the simplices.
        corners: 3 for triangles, 4 for tetrahedra; the fourth adds nothing to sums.
    """
    at_m = _about_middle(mesh)[mesh.faces.T]
    sums = at_m.sum(axis=0)
    size = sizes.sum()
    if not abs(size) > 0:
        zeros = np.zeros((1, 3))
        return Region(np.zeros(1), zeros + mesh.points_m.mean(axis=0), np.zeros((1, 3, 3)))
    middle_m = sizes @ sums / (corners * size)
    squares = sum((sizes[:, None] * each_m).T @ each_m for each_m in (*at_m, sums))
    second_m2 = squares / (corners * (corners + 1) * size) - np.outer(middle_m, middle_m)
    return Region(np.array([size]), (middle_m + mesh.points_m.mean(axis=0))[None], second_m2[None])


def bend(mesh: Mesh, edges: Edges) -> float:
    """Return the integral of mean curvature [m] over the edges of a mesh: + where it bulges.

    It is half the sum of the edges' lengths times the angles by which the surface turns there.
    Edges that do not join just two triangles wound alike are left out.

    References:
        As Steiner's formula has it for polyhedra: R. Schneider, Convex Bodies: The Brunn-Minkowski
        Theory, 4.2; from memory.
    """
    joined = (edges.forward == 1) & (edges.backward == 1)
    ends_m = mesh.points_m[edges.ends]
    lengths_m = np.linalg.norm(ends_m[:, 1] - ends_m[:, 0], axis=1)
    return float(0.5 * (lengths_m * turning_angles(mesh, edges))[joined].sum())


def turning_angles(mesh: Mesh, edges: Edges) -> Floats:
    """Return by how much the surface turns at each edge (e,) [rad], + where it bulges outwards.

    Only for edges that join two triangles wound alike; what it says of others means nothing.
    """
    normals = vector_areas(mesh)
    starts, ends = mesh.faces, np.roll(mesh.faces, -1, axis=1)
    ahead, behind = np.zeros((2, len(edges.ends)), dtype=np.intp)
    rows = np.repeat(np.arange(len(mesh.faces)), 3)
    runs_up = (starts < ends).ravel()
    ahead[edges.of_face.ravel()[runs_up]] = rows[runs_up]
    behind[edges.of_face.ravel()[~runs_up]] = rows[~runs_up]
    along_m = mesh.points_m[edges.ends[:, 1]] - mesh.points_m[edges.ends[:, 0]]
    along_m /= np.maximum(np.linalg.norm(along_m, axis=1, keepdims=True), np.finfo(float).tiny)
    left, right = normals[ahead], normals[behind]
    across = np.einsum("ei,ei->e", np.cross(left, right), along_m)
    angles: Floats = np.arctan2(across, np.einsum("ei,ei->e", left, right))
    return angles


class Shell(NamedTuple):
    """A surface and what it encloses, with what it takes to say the same a little further in.

    Attributes:
        mesh: The surface.
        skin: Its area [m2].
        solid: What it encloses [m3]; None for one that does not close.
        bend_m: Integral of its mean curvature.
        turn: Integral of its Gaussian curvature: 4 pi for every closed piece without holes.
    """

    mesh: Mesh
    skin: Region
    solid: Region | None
    bend_m: float
    turn: float

    def area_m2(self, depth_m: float) -> float:
        """Return the area at a depth inside the surface; outside where negative.

        References:
            Steiner's formula, A - 2 M t + K t^2: exact for smooth surfaces until they fold over
            themselves (Weyl 1939), and outside convex ones with edges, each of which counts as
            rounded; from memory. Inside a sharp edge the true area is smaller, by
            2 (tan(a/2) - a/2) t for each length of an edge that turns by a.
        """
        return float(self.skin.size[0]) - 2 * self.bend_m * depth_m + self.turn * depth_m**2

    def volume_m3(self, depth_m: float) -> float:
        """Return what is enclosed at a depth inside the surface, likewise: V - A t + M t^2 - ...

        Raises:
            ValueError: If the surface does not close.
        """
        if self.solid is None:
            msg = "a surface that does not close has no volume"
            raise ValueError(msg)
        area_m2 = float(self.skin.size[0])
        left_m3 = self.bend_m * depth_m**2 - self.turn * depth_m**3 / 3
        return float(self.solid.size[0]) - area_m2 * depth_m + left_m3

    def reaches(self, depth_m: float) -> bool:
        """Return whether there is some surface left all the way to a depth."""
        low_m, high_m = sorted((0.0, depth_m))
        # Where the area is least: at an end, unless its parabola opens upwards in between.
        turns_m = self.bend_m / self.turn if self.turn > 0 else depth_m
        least_m = min(max(turns_m, low_m), high_m)
        return min(self.area_m2(least_m), self.area_m2(depth_m)) > 0


def shell(mesh: Mesh, edges: Edges, *, closed: bool) -> Shell:
    """Return the surface of a mesh, each of its points in use, with what it encloses if closed.

    The integral of Gaussian curvature follows from Gauss and Bonnet: 2 pi (V - E + F). What an
    open surface lacks to that, the turning along its border, is left out.
    """
    turn = 2 * math.pi * (len(mesh.points_m) - len(edges.ends) + len(mesh.faces)) if closed else 0.0
    return Shell(mesh, skin(mesh), solid(mesh) if closed else None, bend(mesh, edges), turn)


def looks_in(shell: Shell) -> bool:
    """Return whether a surface is clearly hollow, and has its outside on the hollow side."""
    return bool(signed_volumes(shell.mesh).sum() < -LOOKS_IN * shell.skin.size[0] ** 1.5)


def moved_in(mesh: Mesh, depth_m: float) -> Mesh:
    """Return a mesh with each corner moved inwards, along the mean of the normals around it.

    A sharp corner moves further than the depth, so that the faces around it move as far on the
    mean; twice as far at the most.
    """
    if not depth_m:
        return mesh
    areas = vector_areas(mesh)
    sums = [_around(mesh, sizes) for sizes in (*areas.T, np.linalg.norm(areas, axis=1))]
    means = np.stack(sums[:3], axis=-1) / np.maximum(sums[3], np.finfo(float).tiny)[:, None]
    steps = means / np.maximum((means**2).sum(axis=1, keepdims=True), BLUNT**2)
    return mesh._replace(points_m=mesh.points_m - depth_m * steps)


def _around(mesh: Mesh, sizes: Floats) -> Floats:
    """Return (v,) the sums of what triangles have (f,) around each point."""
    corners = mesh.faces.T.ravel()
    return np.bincount(corners, np.tile(sizes, 3), len(mesh.points_m)).astype(float)


def measures(shell: Shell, at: Depths) -> Measures:
    """Return what one part of a mesh measures, with a skin whose faces lie at these depths.

    Sizes are by Steiner's formula. Middles and second moments are those of the mesh with its
    corners moved in, so they are off by less than the depth. There is no solid, and no inside,
    where the surface does not close, or the skin leaves nothing inside.

    Raises:
        ValueError: If the skin is so thick that nothing is left of it.
    """
    face, outside = (_skin_at(shell, depth_m) for depth_m in (at.middle, at.outer))
    inside = _solid_at(shell, at.inner)
    span_m = np.ptp(shell.mesh.points_m, axis=0)
    return Measures(
        box_m=(span_m - 2 * at.outer)[None],
        each=one(face),
        face=face,
        faces=times(face, 2.0),
        outside=outside,
        solid=inside,
        inside=inside,
    )


def _skin_at(shell: Shell, depth_m: float) -> Region:
    if not depth_m:
        return shell.skin
    if not shell.reaches(depth_m):
        msg = f"nothing is left of the surface {1000 * depth_m:g} mm inside it"
        raise ValueError(msg)
    return skin(moved_in(shell.mesh, depth_m))._replace(size=np.array([shell.area_m2(depth_m)]))


def _solid_at(shell: Shell, depth_m: float) -> Region | None:
    if shell.solid is None or not depth_m:
        return shell.solid
    if not shell.reaches(depth_m):
        return None
    size_m3 = shell.volume_m3(depth_m)
    if not size_m3 > 0:
        return None
    return solid(moved_in(shell.mesh, depth_m))._replace(size=np.array([size_m3]))
