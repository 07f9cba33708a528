"""Models: the form of one part that dimensions alone do not describe, from a file or readings."""

from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.chunks import Chunks
from estimator.geometry.measures import Floats, Measures, Region

if TYPE_CHECKING:
    import shapely


class Mesh(NamedTuple):
    """A surface of triangles, in the part's own frame (along, beside, faces), full size.

    Attributes:
        points_m: (v, 3) corners.
        faces: (f, 3) rows of `points_m`, anticlockwise seen from outside.
    """

    points_m: Floats
    faces: npt.NDArray[np.intp]


class Model(NamedTuple):
    """What one part measures and looks like. Just one of the last three is given.

    Attributes:
        measures: Of one part, about the origin of its own frame.
        mesh: Its surface.
        outline: Its flat outline with holes, in the (along, beside) plane of its frame.
        stand_in: Convex pieces of one part that show the outline it was measured to have.
    """

    measures: Measures
    mesh: Mesh | None = None
    outline: "shapely.MultiPolygon | None" = None
    stand_in: Chunks | None = None


def repeated(measures: Measures, count: int) -> Measures:
    """Return the measures of one part as those of several alike."""
    regions = {name: _many(region, count) for name, region in measures._asdict().items()
               if isinstance(region, Region)}  # fmt: skip
    return measures._replace(box_m=np.repeat(measures.box_m, count, axis=0), **regions)


def _many(region: Region, count: int) -> Region:
    """Return a region of one part as one of several."""
    return Region(*(np.repeat(array, count, axis=0) for array in region))
