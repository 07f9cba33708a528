"""Reading meshes: the triangles of a file as they stand there, and what was done to get them."""

from collections.abc import Callable, Mapping
from typing import NamedTuple

import numpy as np

from estimator.files.obj import read_obj
from estimator.files.ply import read_ply
from estimator.files.polygons import MOST_TRIANGLES, TRIANGLE, Floats, Indices, Polygons, cut_up
from estimator.files.shelf import FileError, Found, shown
from estimator.files.stl import read_stl

READERS: Mapping[str, Callable[[Found], Polygons]] = {
    ".stl": read_stl, ".obj": read_obj, ".ply": read_ply,
}  # fmt: skip
FURTHEST = 1e9
"""Of any coordinate, in units of the file: more is no size of a thing in any unit."""


class RawMesh(NamedTuple):
    """A surface of triangles, in the units and axes of its file.

    Attributes:
        points: (v, 3) corners, each place once.
        faces: (f, 3) rows of `points`.
        notes: What was done to get them, as sentences with figures.
        doubts: What may be wrong with them, likewise.
    """

    points: Floats
    faces: Indices
    notes: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()


def read_mesh(found: Found) -> RawMesh:
    """Return the triangles of an .stl, .obj or .ply file.

    Corners at exactly one place become one corner, and polygons are cut into triangles; both are
    said. Nothing else is changed: what is wrong with the surface is for others to find.

    Raises:
        FileError: It cannot be read, or is no surface.
    """
    polygons = READERS[found.suffix](found)
    _refuse_count(found, polygons)
    _refuse_places(found, polygons)
    faces, cut, doubtful = cut_up(polygons)
    points, faces, folds = _merged(polygons.points, faces)
    if not len(faces):
        raise _no_triangles(found)
    lone = int((np.bincount(polygons.corners, minlength=len(polygons.points)) == 0).sum())
    thin = int((polygons.sizes < TRIANGLE).sum())
    notes = (
        (len(polygons.points) - lone - len(points),
         "{} at the same place as another to the last digit, taken as one with it", "corner"),
        (cut, "{} of more than three corners, cut into triangles", "face"),
        (lone, "{} of no face, left aside", "corner"),
        (thin, "{} of less than three corners, left aside", "face"),
        (folds, "{} with two corners at one place, left aside", "triangle"),
    )  # fmt: skip
    folded = "{} of more than three corners folds back on itself, so that its area is too large"
    said = tuple(words.format(counted(n, noun)) for n, words, noun in notes if n)
    return RawMesh(
        points, faces, said, (folded.format(counted(doubtful, "face")),) * (doubtful > 0)
    )


def counted(number: int, noun: str) -> str:
    """Return a number with what it counts: "1 face", "4,812 faces"."""
    return f"{number:,} {noun}{'s' * (number != 1)}"


def _refuse_count(found: Found, polygons: Polygons) -> None:
    count = int(np.maximum(polygons.sizes - 2, 0).sum())
    if not count:
        raise _no_triangles(found)
    if count > MOST_TRIANGLES:
        words = f"{shown(found.name)} has {counted(count, 'triangle')}"
        advice = "save it with fewer triangles"
        raise FileError(words, f"{MOST_TRIANGLES:,} triangles at most", advice)


def _no_triangles(found: Found) -> FileError:
    words = f"{shown(found.name)} holds no triangles"
    return FileError(words, "a surface of triangles", "save the surface, not points or lines")


def _refuse_places(found: Found, polygons: Polygons) -> None:
    """Refuse faces whose corners are not there, and corners that are nowhere."""
    lost = (polygons.corners < 0) | (polygons.corners >= len(polygons.points))
    if lost.any():
        rows = np.repeat(np.arange(len(polygons.sizes)), polygons.sizes)[lost]
        some = counted(int((np.bincount(rows) > 0).sum()), "face")
        words = f"{some} of {shown(found.name)} at corners that are not in the file"
        raise FileError(words, f"corners 1 to {len(polygons.points):,}", "save it again")
    nowhere = ~(np.abs(polygons.points) <= FURTHEST).all(axis=1)
    if nowhere.any():
        some = counted(int(nowhere.sum()), "corner")
        words = f"{some} of {shown(found.name)} without a place (not a number, or endless)"
        raise FileError(words, f"coordinates up to {FURTHEST:g}", "look for them in the model")


def _merged(points: Floats, faces: Indices) -> tuple[Floats, Indices, int]:
    """Return points with each place once, and the faces between them.

    Points of no face, and faces with two corners at one place, are left out; also returns how
    many faces that was.
    """
    points = points + 0.0  # a minus zero is a zero
    order = np.lexsort(points.T)
    steps = (np.diff(points[order], axis=0) != 0).any(axis=1)
    place = np.empty(len(points), dtype=np.intp)
    place[order] = np.concatenate([[0], np.cumsum(steps)])
    first = order[np.concatenate([[True], steps])]
    a, b, c = place[faces].T
    wide = (a != b) & (b != c) & (c != a)
    kept = place[faces[wide]]
    used = np.zeros(len(first), dtype=bool)
    used[kept] = True
    return points[first[used]], (np.cumsum(used) - 1)[kept], int((~wide).sum())
