"""Picturing: the outlines of every part in front, side and plan view, and where movers sweep."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
import shapely

from estimator.geometry.measures import Floats
from estimator.geometry.silhouettes import FRONT, PLAN, SIDE, Loop, loops, shifted
from estimator.resolve.job import Resolved
from estimator.stages.measuring import Shapes
from estimator.stages.outlining import Outliner
from estimator.stages.posing import Group

MOST_SHAPES = 4000
"""More copies than this are not drawn one by one: nobody could tell them apart on paper."""
EDGE_M = 1e-3
"""Thickness a flat part is drawn with where it is seen edge-on."""
SIMPLE_M = 2e-4
"""Corners nearer to a line than this are left out of a drawing: thinner than the line itself."""


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
    """

    part: str
    assembly: str
    kind: str
    depth_m: float
    loop: Loop


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
    views = {name: tuple(_drawn(resolved, outliner, groups, v)) if few else ()
             for name, v in VIEWS.items()}  # fmt: skip
    sweeps = {name: tuple(_sweeps(outliner, groups, v)) if few else () for name, v in VIEWS.items()}
    boxes_m = tuple(tuple(_boxes(outliner, group)) for group in groups)
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


def _drawn(
    resolved: Resolved, outliner: Outliner, groups: Sequence[Group], view: View
) -> Iterator[Drawn]:
    """Return the outlines of a view, movers in their first position."""
    for group in groups:
        for i, row in enumerate(group.members):
            rotation, origin_m = group.rotation[0, i], group.origin_m[0, i]
            parts, shadows = outliner.shadows(view.projection, [row], rotation)
            by_m = view.projection @ origin_m
            for part, shadow in zip(parts, shadows, strict=True):
                depth_m = float(view.towards @ (rotation @ resolved.columns.at_m[part] + origin_m))
                for loop in loops(shapely.simplify(shadow, SIMPLE_M)):
                    yield Drawn(
                        resolved.columns.parts[part].key,
                        resolved.assemblies[row].key,
                        _kind(resolved, row, group),
                        depth_m,
                        _moved(loop, by_m),
                    )


def _kind(resolved: Resolved, row: int, group: Group) -> str:
    if group.mover:
        return "mover"
    own = resolved.assemblies[row].key.startswith("brackets ")
    return "bracket" if own else "part"


def _moved(loop: Loop, by_m: Floats) -> Loop:
    return Loop(loop.outer_m + by_m, tuple(hole + by_m for hole in loop.holes_m))


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
