"""Models: the form of one part that dimensions alone do not describe, from a file or readings."""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt
import shapely

from estimator.geometry.chunks import Chunks
from estimator.geometry.measures import Floats, Measures, Region

POWERS = {"each": 0, "line": 1, "face": 2, "faces": 2, "outside": 2, "solid": 3, "inside": 3}
"""What the size of each region grows with: this power of the size of the model."""


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
    outline: shapely.MultiPolygon | None = None
    stand_in: Chunks | None = None


def repeated(measures: Measures, count: int) -> Measures:
    """Return the measures of one part as those of several alike."""
    regions = {name: _many(region, count) for name, region in measures._asdict().items()
               if isinstance(region, Region)}  # fmt: skip
    return measures._replace(box_m=np.repeat(measures.box_m, count, axis=0), **regions)


def _many(region: Region, count: int) -> Region:
    """Return a region of one part as one of several."""
    return Region(*(np.repeat(array, count, axis=0) for array in region))


def scaled(model: Model, times: float) -> Model:
    """Return a model so many times as large: lengths grow as that, areas as its square.

    Where a skin was taken to lie half its thickness inside what the file shows, that step grows
    too: with a kept gauge the area is then off by half of thickness over radius times the change
    of size, which is of the second order in what is thin.
    """
    mesh, outline, stand_in = model.mesh, model.outline, model.stand_in
    return Model(
        _grown(model.measures, times),
        None if mesh is None else mesh._replace(points_m=times * mesh.points_m),
        None if outline is None else shapely.transform(outline, lambda at_m: times * at_m),
        None if stand_in is None else _grown_pieces(stand_in, times),
    )


def _grown_pieces(pieces: Chunks, times: float) -> Chunks:
    """Return pieces so many times as large."""
    grown = {name: times * array for name, array in pieces._asdict().items() if array is not None}
    return pieces._replace(**grown)


def _grown(measures: Measures, times: float) -> Measures:
    """Return measures of parts so many times as large."""
    regions = {
        name: Region(times**power * region.size, times * region.middle_m,
                     times**2 * region.second_m2)
        for name, power in POWERS.items()
        if (region := getattr(measures, name)) is not None
    }  # fmt: skip
    return measures._replace(box_m=times * measures.box_m, **regions)
