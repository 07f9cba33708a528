"""Forms: what casts a silhouette, as it is turned but not yet moved to its place.

Copies that are of one form and turned alike differ only in where they stand. Each form is looked
at once, and what it shows is then moved to every place.
"""

from typing import NamedTuple, Protocol

import numpy as np
import numpy.typing as npt
import shapely

from estimator.geometry.chunks import Chunks, boxes, placed
from estimator.geometry.contours import Surface, outline
from estimator.geometry.measures import Floats
from estimator.geometry.silhouettes import THIN_M2, Shadows, edged, silhouettes

Indices = npt.NDArray[np.intp]


class Form(Protocol):
    """Some forms as they are turned, numbered from nought."""

    def shadows(
        self, at: Indices, projection: Floats, fineness: int, edge_m: float = 0.0
    ) -> Shadows:
        """Return (k,) silhouettes of the forms of some numbers, about their origin.

        Args:
            at: (k,) numbers of the forms wanted.
            projection: (2, 3) rows of the view.
            fineness: Corners of a circle.
            edge_m: Thickness to give to what is seen edge-on.
        """

    def boxes(self, at: Indices, turn: Floats) -> Floats:
        """Return (k, 2, 3): lowest and highest corner of the box round each, turned by (3, 3)."""


class Pieced(NamedTuple):
    """Forms made of convex pieces."""

    chunks: Chunks

    def shadows(
        self, at: Indices, projection: Floats, fineness: int, edge_m: float = 0.0
    ) -> Shadows:
        """Return silhouettes; see `Form`."""
        return silhouettes(self.chunks.taken(at), projection, fineness, edge_m)

    def boxes(self, at: Indices, turn: Floats) -> Floats:
        """Return boxes; see `Form`."""
        return boxes(placed(self.chunks.taken(at), turn, np.zeros(3)))


class Solid(NamedTuple):
    """One mesh turned many ways.

    Attributes:
        surface: The mesh.
        rotation: (n, 3, 3) from its frame; a mirror does as well.
    """

    surface: Surface
    rotation: Floats

    def shadows(
        self, at: Indices, projection: Floats, fineness: int, edge_m: float = 0.0
    ) -> Shadows:
        """Return silhouettes; see `Form`. A mesh is as fine as its triangles are."""
        del fineness
        shown = np.empty(len(at), dtype=object)
        for i, turned in enumerate(projection @ self.rotation[at]):
            shown[i] = outline(self.surface, turned)
            if edge_m > 0 and shapely.area(shown[i]) <= THIN_M2:
                corners_m = shapely.multipoints(self.surface.points_m @ turned.T)
                shown[i] = edged(shown[i : i + 1], np.array([corners_m]), edge_m)[0]
        return shown

    def boxes(self, at: Indices, turn: Floats) -> Floats:
        """Return boxes; see `Form`."""
        return _boxes(self.surface.points_m, turn @ self.rotation[at])


class Plate(NamedTuple):
    """One flat outline turned many ways.

    Attributes:
        outline: In the first two axes of its frame.
        rotation: (n, 3, 3) from its frame; a mirror does as well.
    """

    outline: shapely.MultiPolygon
    rotation: Floats

    def shadows(
        self, at: Indices, projection: Floats, fineness: int, edge_m: float = 0.0
    ) -> Shadows:
        """Return silhouettes; see `Form`. An outline is as fine as it was drawn."""
        del fineness
        corners_m = shapely.get_coordinates(self.outline)
        seen_m = corners_m @ np.swapaxes((projection @ self.rotation[at])[..., :2], 1, 2)
        shown = np.full(len(at), self.outline, dtype=object)
        shapely.set_coordinates(shown, seen_m.reshape(-1, 2))
        return edged(shown, shown, edge_m)

    def boxes(self, at: Indices, turn: Floats) -> Floats:
        """Return boxes; see `Form`."""
        rim_m = shapely.get_coordinates(shapely.convex_hull(self.outline))
        return _boxes(np.pad(rim_m, ((0, 0), (0, 1))), turn @ self.rotation[at])


def _boxes(points_m: Floats, rotation: Floats) -> Floats:
    """Return (k, 2, 3) boxes round (v, 3) points turned by (k, 3, 3)."""
    found_m = np.zeros((len(rotation), 2, 3))
    for box_m, turn in zip(found_m, rotation, strict=True):
        turned_m = points_m @ turn.T
        box_m[:] = turned_m.min(axis=0), turned_m.max(axis=0)
    return found_m
