"""Facing: what everything covers from the front and from the side, and its front to be drawn."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
import shapely

from estimator.geometry.measures import Floats
from estimator.geometry.silhouettes import FRONT, SIDE, Loop, loops
from estimator.resolve.job import Resolved
from estimator.stages.measuring import Shapes
from estimator.stages.outlining import Outliner
from estimator.stages.picturing import EDGE_M, MOST_SHAPES
from estimator.stages.posing import Group
from estimator.stages.whole import frames

SIMPLE_M = 2e-3
"""Corners nearer to a line than this are left out: a tenth of a millimetre at a scale of 1:20."""


class Faced(NamedTuple):
    """What something covers, each spot once, less what is cut away."""

    front_m2: float
    side_m2: float


NOTHING = Faced(0.0, 0.0)


class Front(NamedTuple):
    """One outline of the front: the part, how near the street it is, and its loop."""

    part: str
    depth_m: float
    loop: Loop


@dataclass(frozen=True, slots=True)
class Faces:
    """What everything shows as it is drawn, brackets included.

    Attributes:
        whole: Of everything together.
        assemblies: Of each assembly alone, by name.
        front: Outlines of the parts from the street, far ones first; none where the parts are too
            many to tell apart.
    """

    whole: Faced
    assemblies: Mapping[str, Faced]
    front: tuple[Front, ...]


def face(resolved: Resolved, shapes: Shapes, groups: Sequence[Group]) -> Faces:
    """Return what everything shows to the street and to who looks along the wall."""
    placed = _in_job(resolved, shapes, groups)
    everything = np.ones(len(resolved.columns.parts), dtype=bool)
    outliner = Outliner.of(resolved.columns, placed, everything)
    together = replace(outliner, part_assembly=np.zeros_like(outliner.part_assembly))
    areas_m2 = [_areas_m2(outliner, view) for view in (FRONT, SIDE)]
    whole_m2 = [_areas_m2(together, view).get(0, 0.0) for view in (FRONT, SIDE)]
    few = len(shapes.places.part) <= MOST_SHAPES
    return Faces(
        Faced(*whole_m2),
        {
            assembly.key: Faced(*(found.get(row, 0.0) for found in areas_m2))
            for row, assembly in enumerate(resolved.assemblies)
        },
        tuple(_front(resolved, placed, outliner)) if few else (),
    )


def _in_job(resolved: Resolved, shapes: Shapes, groups: Sequence[Group]) -> Shapes:
    """Return the shapes with the places of all copies in the job's frame, as drawn."""
    rotation, origin_m = frames(len(resolved.assemblies), groups)
    places = shapes.places
    owner = resolved.columns.assembly[places.part]
    at_m: Floats = (rotation[owner] @ places.at_m[..., None])[..., 0] + origin_m[owner]
    own = replace(places, rotation=rotation[owner] @ places.rotation, at_m=at_m)
    return replace(shapes, places=own)


def _areas_m2(outliner: Outliner, view: Floats) -> dict[int, float]:
    """Return what each assembly covers, by its row."""
    return {row: seen.area_m2 for row, seen in outliner.seen(view).items()}


def _front(resolved: Resolved, placed: Shapes, outliner: Outliner) -> Iterator[Front]:
    """Return the outlines from the street, far ones first; what is edge-on as a thin line."""
    out_m = np.zeros(len(resolved.columns.parts))
    out_m[placed.places.part] = placed.places.at_m[:, 2]
    parts, shadows = replace(outliner, edge_m=EDGE_M).shadows(FRONT)
    for k in np.argsort(out_m[parts], kind="stable"):
        for loop in loops(shapely.simplify(shadows[k], SIMPLE_M)):
            yield Front(resolved.columns.parts[parts[k]].key, float(out_m[parts[k]]), loop)
