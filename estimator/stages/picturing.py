"""Picturing: the outlines of every part in front, side and plan view, and where movers sweep."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
import shapely

from estimator.geometry.forms import Solid
from estimator.geometry.measures import Floats
from estimator.geometry.patches import Sight, Stroke, patches, thinned
from estimator.geometry.silhouettes import FRONT, PLAN, SIDE, Loop, loops, shifted
from estimator.resolve.job import Resolved
from estimator.stages.measuring import Pieces, Shapes
from estimator.stages.outlining import Outliner
from estimator.stages.posing import Group

MOST_SHAPES = 4000
"""More copies than this are not drawn one by one: nobody could tell them apart on paper."""
EDGE_M = 1e-3
"""Thickness a flat part is drawn with where it is seen edge-on."""
SIMPLE_M = 2e-4
"""Corners nearer to a line than this are left out of a drawing: thinner than the line itself."""
FINE = 1 / 4000
"""The same for a mesh, as a share of all that is drawn: half a narrow line on a sheet of A4."""
MOST_PATCHES, MOST_OF_ONE = 1500, 60
"""Patches that all meshes of a view are drawn with at most, and one of them."""
SPOT = 1 / 60
"""A mesh smaller than this share of all that is drawn shows its outline alone."""


class View(NamedTuple):
    """One side something is drawn from: rows of the projection, and the way to the viewer."""

    projection: Floats
    towards: Floats


VIEWS: Mapping[str, View] = {
    "front": View(FRONT, np.array([0.0, 0.0, 1.0])),
    "side": View(SIDE, np.array([-1.0, 0.0, 0.0])),
    "plan": View(PLAN, np.array([0.0, 1.0, 0.0])),
}


class Drawn(NamedTuple):
    """One outline of a view.

    Attributes:
        part: Mark of the part.
        assembly: Its assembly.
        kind: part, bracket or mover.
        depth_m: How near the viewer, for what is drawn over what.
        loop: Outline and holes, in the view.
        strokes: Lines to be drawn instead of the outline; None where it is drawn itself.
    """

    part: str
    assembly: str
    kind: str
    depth_m: float
    loop: Loop
    strokes: tuple[Stroke, ...] | None = None


@dataclass(frozen=True, slots=True)
class Pictures:
    """Everything drawn.

    Attributes:
        views: Outlines by view, movers in their first position.
        sweeps: By view, the outline of all a mover covers over its positions.
        boxes_m: Box (2, 3) of each assembly in each state, by group.
        drawn: Whether the parts were few enough to draw.
    """

    views: Mapping[str, tuple[Drawn, ...]]
    sweeps: Mapping[str, tuple[tuple[str, Loop], ...]]
    boxes_m: tuple[tuple[Mapping[int, Floats], ...], ...]
    drawn: bool


def picture(resolved: Resolved, shapes: Shapes, groups: Sequence[Group]) -> Pictures:
    """Return the outlines of every part in three views, and the box round every assembly."""
    everything = np.ones(len(resolved.columns.parts), dtype=bool)
    outliner = replace(Outliner.of(resolved.columns, shapes, everything), edge_m=EDGE_M)
    few = len(shapes.places.part) <= MOST_SHAPES
    boxes_m = tuple(tuple(_boxes(outliner, group)) for group in groups)
    easel = _Easel.of(resolved, outliner, [box for states in boxes_m for box in states[0].values()])
    views = {name: tuple(_drawn(easel, groups, v)) if few else () for name, v in VIEWS.items()}
    sweeps = {name: tuple(_sweeps(outliner, groups, v)) if few else () for name, v in VIEWS.items()}
    return Pictures(views, sweeps, boxes_m, few)


def _boxes(outliner: Outliner, group: Group) -> Iterator[dict[int, Floats]]:
    """Return the box round each member of a group in the job's frame, a state at a time."""
    for s in range(len(group.states)):
        kinds, which = np.unique(
            np.round(group.rotation[s], 12).reshape(-1, 9), axis=0, return_inverse=True
        )
        found: dict[int, Floats] = {}
        for k, kind in enumerate(kinds):
            at = np.flatnonzero(which.ravel() == k)
            rows = [group.members[i] for i in at]
            boxes_m = outliner.boxes(rows, kind.reshape(3, 3))
            origins_m = dict(zip(rows, group.origin_m[s, at], strict=True))
            found |= {row: box + origins_m[row] for row, box in boxes_m.items()}
        yield found


class _Easel(NamedTuple):
    """What is drawn, and how finely.

    Attributes:
        resolved: The job.
        outliner: Draws outlines; its meshes are thinned to what a drawing can show.
        size_m: Largest size of all that is drawn.
        most: Patches of one mesh at most.
    """

    resolved: Resolved
    outliner: Outliner
    size_m: float
    most: int

    @classmethod
    def of(cls, resolved: Resolved, outliner: Outliner, boxes_m: Sequence[Floats]) -> "_Easel":
        """Return what is drawn, with the boxes round all of it."""
        corners_m = np.array(boxes_m).reshape(-1, 3)
        size_m = float(np.ptp(corners_m, axis=0).max()) if len(corners_m) else 0.0
        pieces, meshes = [], 0
        for piece in outliner.pieces:
            form = piece.form
            if isinstance(form, Solid):
                meshes += len(piece.part)
                form = form._replace(surface=thinned(form.surface))
            pieces.append(replace(piece, form=form))
        most = min(MOST_OF_ONE, MOST_PATCHES // max(meshes, 1))
        return cls(resolved, replace(outliner, pieces=tuple(pieces)), size_m, most)


class _Placed(NamedTuple):
    """An assembly in its first position, seen from one side.

    Attributes:
        row: Which.
        view: The side, in its own frame as it is turned.
        by_m: (2,) its origin in the view.
        depth_m: How near the viewer its origin is.
    """

    row: int
    view: View
    by_m: Floats
    depth_m: float

    @classmethod
    def of(cls, group: Group, member: int, view: View) -> "_Placed":
        """Return a member of a group."""
        rotation, origin_m = group.rotation[0, member], group.origin_m[0, member]
        own = View(view.projection @ rotation, view.towards @ rotation)
        return cls(group.members[member], own, view.projection @ origin_m,
                   float(view.towards @ origin_m))  # fmt: skip


def _drawn(easel: _Easel, groups: Sequence[Group], view: View) -> Iterator[Drawn]:
    """Return the outlines of a view, movers in their first position."""
    for group in groups:
        for member, row in enumerate(group.members):
            placed = _Placed.of(group, member, view)
            kind = _kind(easel.resolved, row, group)
            assembly = easel.resolved.assemblies[row].key
            for part, patch in _patches(easel, placed):
                key = easel.resolved.columns.parts[part].key
                strokes = patch.strokes
                for loop in loops(patch.area):
                    yield Drawn(key, assembly, kind, patch.depth_m, loop, strokes)
                    strokes = None if strokes is None else ()


def _patches(easel: _Easel, placed: _Placed) -> Iterator[tuple[int, "_Area"]]:
    """Return the areas that an assembly is drawn with, and the row of the part of each."""
    for piece, wanted in easel.outliner.copies([placed.row]):
        forms, again = np.unique(piece.which[wanted], return_inverse=True)
        looks = [tuple(_looks(easel, piece, form, placed.view)) for form in forms]
        for copy, which in zip(wanted, again, strict=True):
            by_m = placed.by_m + placed.view.projection @ piece.at_m[copy]
            nearer_m = placed.depth_m + float(placed.view.towards @ piece.at_m[copy])
            for area in looks[which]:
                yield int(piece.part[copy]), area.moved(by_m, nearer_m)


class _Area(NamedTuple):
    """Something white with lines on it, or round it where there are none."""

    depth_m: float
    area: shapely.Geometry
    strokes: tuple[Stroke, ...] | None

    def moved(self, by_m: Floats, nearer_m: float) -> "_Area":
        """Return it in another place."""
        strokes = self.strokes
        if strokes is not None:
            strokes = tuple(stroke._replace(points_m=stroke.points_m + by_m) for stroke in strokes)
        return _Area(self.depth_m + nearer_m, shifted(self.area, by_m), strokes)


def _looks(easel: _Easel, piece: Pieces, number: int, view: View) -> Iterator[_Area]:
    """Return what one form is drawn with: a mesh in patches, anything else as its outline."""
    at = np.array([number])
    box_m = piece.form.boxes(at, np.eye(3))[0]
    large = np.ptp(box_m, axis=0).max() > SPOT * easel.size_m
    if isinstance(piece.form, Solid) and easel.most > 1 and large:
        turn = piece.form.rotation[number]
        fine_m = max(SIMPLE_M, FINE * easel.size_m)
        sight = Sight(view.projection @ turn, view.towards @ turn, fine_m, easel.most)
        found = patches(piece.form.surface, sight)
        yield from (_Area(*patch) for patch in found)
        if found:
            return
    (shadow,) = piece.form.shadows(at, view.projection, easel.outliner.fineness, EDGE_M)
    depth_m = float(view.towards @ box_m.mean(axis=0))
    yield _Area(depth_m, shapely.simplify(shadow, SIMPLE_M), None)


def _kind(resolved: Resolved, row: int, group: Group) -> str:
    if group.mover:
        return "mover"
    own = resolved.assemblies[row].key.startswith("brackets ")
    return "bracket" if own else "part"


def _sweeps(outliner: Outliner, groups: Sequence[Group], view: View) -> Iterator[tuple[str, Loop]]:
    """Return what each mover covers over all its positions."""
    for group in groups:
        if not group.mover:
            continue
        covered = []
        for s in range(len(group.states)):
            for i, row in enumerate(group.members):
                _, shadows = outliner.shadows(view.projection, [row], group.rotation[s, i])
                by_m = view.projection @ group.origin_m[s, i]
                whole = shapely.union_all(shadows)
                covered.append(shifted(whole, by_m))
        hull = shapely.union_all([shapely.convex_hull(outline) for outline in covered])
        for loop in loops(shapely.convex_hull(hull)):
            yield group.mover, loop
