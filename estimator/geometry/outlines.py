"""Flat outlines: closed loops to one shape with holes, and what it measures.

A point is metal where it lies within an odd number of loops, so that a loop within a loop is a
hole, and one within a hole an island. Nothing is mended: loops that meet are told.
"""

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt
import shapely

from estimator.geometry.joining import JOIN_M, Gap, joined
from estimator.geometry.measures import Floats, Measures, Region, one, times

MOST_MEETINGS = 10
"""Places where loops meet are looked for no further than this many."""
DEEPEST = 100
"""Loops within loops."""
_AT_ONCE = 64
"""Sides, or loops, that are compared with all others at a time: bounds the memory."""
_TRIANGLE = 3

Polygons: TypeAlias = npt.NDArray[np.object_]
"""Loops as polygons without holes."""


class Meeting(NamedTuple):
    """Where a loop crosses, touches or runs along itself or another one.

    Attributes:
        at_m: (2,).
        itself: Whether it is one loop.
    """

    at_m: Floats
    itself: bool


class Traced(NamedTuple):
    """Lines as one flat shape.

    Attributes:
        outline: The shape; empty where lines are open, loops meet, or nothing is enclosed.
        junctions_m: (k, 2) where more than two lines end.
        gaps: Where lines end and none goes on, nearest first.
        meetings: Where loops meet, the first few.
        bridged: Gaps within reach that were closed.
        widest_m: The widest of them.
        doubled: Lines and loops that were drawn before, and count once.
        dots: Lines without length.
        slivers_m: (k, 2) a point of each loop that is narrower than a gap, and left aside.
    """

    outline: shapely.MultiPolygon
    junctions_m: Floats
    gaps: tuple[Gap, ...]
    meetings: tuple[Meeting, ...]
    bridged: int
    widest_m: float
    doubled: int
    dots: int
    slivers_m: Floats


class Moments(NamedTuple):
    """Integrals over a flat shape about the origin of its plane.

    Attributes:
        area_m2: Of one.
        first_m3: (2,) of x.
        second_m4: (2, 2) of x x^T.
    """

    area_m2: float
    first_m3: Floats
    second_m4: Floats


def traced(lines: Sequence[Floats], join_m: float = JOIN_M) -> Traced:
    """Return the flat shape that lines enclose.

    Args:
        lines: (k, 2) points of each, full size, in the (along, beside) plane.
        join_m: Ends up to this far apart are joined; a loop narrower than that is a sliver.

    Raises:
        ValueError: Loops lie within loops deeper than any drawing has them.
    """
    found = joined(lines, join_m)
    wide, thin_m = _wide(found.loops, join_m)
    single = _each_once(wide, join_m)
    meetings = tuple(islice(_meetings(single), MOST_MEETINGS))
    whole = not (len(found.junctions_m) or found.gaps or meetings)
    return Traced(
        nested(single) if whole else shapely.MultiPolygon(),
        found.junctions_m,
        found.gaps,
        meetings,
        found.bridged,
        found.widest_m,
        found.doubled + len(wide) - len(single),
        found.dots,
        thin_m,
    )


def _wide(loops: Sequence[Floats], join_m: float) -> tuple[Polygons, Floats]:
    """Return loops as polygons, and a point of each that is left out because it is too narrow."""
    long = [loop for loop in loops if len(loop) >= _TRIANGLE]
    polygons = np.array([shapely.Polygon(loop) for loop in long], dtype=object)
    thin = np.array(shapely.area(polygons) < join_m * shapely.length(polygons) / 2, dtype=bool)
    # What crosses itself may enclose as much to its left as to its right.
    thin[thin] = shapely.is_valid(polygons[thin])
    short = [loop for loop in loops if len(loop) < _TRIANGLE]
    at_m = [loop[0] for loop in (*short, *(long[i] for i in np.flatnonzero(thin)))]
    return polygons[~thin], np.array(at_m).reshape(-1, 2)


def _each_once(loops: Polygons, join_m: float) -> Polygons:
    """Return loops without those that run along another one all the way."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy

    again = np.zeros(len(loops), dtype=bool)
    bounds_m = shapely.bounds(loops)
    tree = cKDTree(bounds_m.reshape(-1, 4))
    for i, ring in enumerate(shapely.get_exterior_ring(loops)):
        near = [] if again[i] else tree.query_ball_point(bounds_m[i], join_m, p=np.inf)
        for j in near:
            again[j] |= j > i and _alike(ring, loops[j].exterior, join_m)
    return loops[~again]


def _alike(ring: shapely.LinearRing, other: shapely.LinearRing, join_m: float) -> bool:
    """Return whether two loops run along each other all the way."""
    shapely.prepare([ring, other])
    return all(
        shapely.dwithin(line, shapely.points(shapely.get_coordinates(other_line)), join_m).all()
        for line, other_line in ((ring, other), (other, ring))
    )


def _meetings(loops: Polygons) -> Iterator[Meeting]:
    """Yield where loops meet themselves or others, each place once."""
    at_m, owner = shapely.get_coordinates(loops, return_index=True)
    inside = owner[:-1] == owner[1:]
    sides_m = np.stack((at_m[:-1], at_m[1:]), axis=1)[inside]
    owner = owner[:-1][inside]
    first = np.searchsorted(owner, owner)  # first side of the same loop
    last = np.searchsorted(owner, owner, side="right") - 1
    sides = shapely.linestrings(sides_m)
    tree = shapely.STRtree(sides)
    told = set[tuple[float, ...]]()
    for start in range(0, len(sides), _AT_ONCE):
        i, j = tree.query(sides[start : start + _AT_ONCE], "intersects")
        i, j = i[j > i + start] + start, j[j > i + start]
        joint = (j == i + 1) & (owner[i] == owner[j]) | (i == first[i]) & (j == last[i])
        apart = ~joint | _folded(sides_m[i], sides_m[j])
        for one_side, other in zip(i[apart].tolist(), j[apart].tolist(), strict=True):
            place_m = shapely.get_coordinates(shapely.intersection(sides[one_side], sides[other]))[
                0
            ]
            key = tuple(np.round(place_m / JOIN_M).tolist())
            if key not in told:
                told.add(key)
                yield Meeting(place_m, itself=bool(owner[one_side] == owner[other]))


def _folded(sides_m: Floats, others_m: Floats) -> npt.NDArray[np.bool_]:
    """Return which sides, each with a corner in common with another, run back along it."""
    p, q = np.diff(sides_m, axis=1)[:, 0], np.diff(others_m, axis=1)[:, 0]
    cross = p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]
    folded: npt.NDArray[np.bool_] = (cross == 0) & ((p * q).sum(axis=1) < 0)
    return folded


def nested(loops: Polygons) -> shapely.MultiPolygon:
    """Return loops that do not meet as one shape: those within an odd number of others are holes.

    Args:
        loops: Polygons without holes.

    Raises:
        ValueError: They lie within each other deeper than any drawing has them.
    """
    if not len(loops):
        return shapely.MultiPolygon()
    by_size = loops[np.argsort(-shapely.area(loops), kind="stable")]
    within, tree = shapely.point_on_surface(by_size), shapely.STRtree(by_size)
    depth = np.zeros(len(by_size), dtype=np.intp)
    holder = np.full(len(by_size), -1, dtype=np.intp)
    for first in range(0, len(by_size), _AT_ONCE):
        some, around = tree.query(within[first : first + _AT_ONCE], "within")
        some = some + first
        # Of loops that do not meet only a larger one lies around another; the last is the closest.
        some, around = some[around < some], around[around < some]
        np.add.at(depth, some, 1)
        if depth.max() > DEEPEST:
            msg = f"loops lie within loops more than {DEEPEST} deep"
            raise ValueError(msg)
        np.maximum.at(holder, some, around)
    rings = shapely.get_exterior_ring(by_size)
    holes: dict[int, list[shapely.LinearRing]] = {}
    for i in np.flatnonzero(depth % 2).tolist():
        holes.setdefault(int(holder[i]), []).append(rings[i])
    outers = np.flatnonzero(depth % 2 == 0).tolist()
    return shapely.MultiPolygon([shapely.Polygon(rings[i], holes.get(i)) for i in outers])


def moments(outline: shapely.MultiPolygon) -> Moments:
    """Return area, first and second moments of a shape with holes about the origin.

    Green's theorem turns each into a sum over the sides of its loops: with the outer loops taken
    anticlockwise and the holes clockwise, a side from p to q adds c / 2 to the area, c (p + q) / 6
    to the first and c ((p + q)(p + q)^T + p p^T + q q^T) / 24 to the second moment, c = p x q.

    References:
        G. Green, An Essay on the Application of Mathematical Analysis ..., 1828; the sums for
        polygons as in C. Steger, On the Calculation of Arbitrary Moments of Polygons, TU Muenchen
        FGBV-96-05, 1996 (from memory).
    """
    area_m2, first_m3, second_m4 = 0.0, np.zeros(2), np.zeros((2, 2))
    for polygon in outline.geoms:
        for ring, sign in ((polygon.exterior, 1), *((hole, -1) for hole in polygon.interiors)):
            at = shapely.get_coordinates(ring)
            p, q = at[:-1], at[1:]
            c = p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]
            turn = sign * np.sign(c.sum())
            both = p + q
            area_m2 += turn * c.sum() / 2
            first_m3 += turn * (c @ both) / 6
            second_m4 += turn * ((c * both.T) @ both + (c * p.T) @ p + (c * q.T) @ q) / 24
    return Moments(float(area_m2), first_m3, second_m4)


def perimeter_m(outline: shapely.MultiPolygon) -> float:
    """Return the length of all edges, round the holes as well."""
    return float(outline.length)


def outline_measures(outline: shapely.MultiPolygon) -> Measures:
    """Return what one part with this outline measures, about the origin of its file.

    Args:
        outline: In the (along, beside) plane, not empty. It has no thickness.
    """
    low_along_m, low_beside_m, high_along_m, high_beside_m = outline.bounds
    # Far from the origin of the file the moments about it would lose the digits that count.
    near_m = np.array([low_along_m + high_along_m, low_beside_m + high_beside_m]) / 2
    about = moments(shapely.transform(outline, lambda at_m: at_m - near_m))
    off_m = about.first_m3 / about.area_m2
    middle_m, second_m2 = np.zeros((1, 3)), np.zeros((1, 3, 3))
    middle_m[0, :2] = near_m + off_m
    second_m2[0, :2, :2] = about.second_m4 / about.area_m2 - np.outer(off_m, off_m)
    face = Region(np.array([about.area_m2]), middle_m, second_m2)
    size_m = np.array([high_along_m - low_along_m, high_beside_m - low_beside_m, 0.0])
    both = times(face, 2.0)
    return Measures(size_m[None], one(face), face=face, faces=both, outside=both)
