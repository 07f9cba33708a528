"""Measuring: skin, volume and silhouette pieces of every part, copies set out."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from estimator.geometry.chunks import FINENESS, Chunks, chunks, placed
from estimator.geometry.measures import Floats, Measures
from estimator.geometry.placing import copies
from estimator.resolve.records import Indices, PartColumns

GAINS = frozenset({"one face", "both faces", "whole outside"})
"""What hammering (`relief`) makes more of: everything measured by its area."""


@dataclass(frozen=True, slots=True)
class CopyTable:
    """Where every copy of every part stands, a row per copy.

    Copies that are not set out stand in one place and have one row together.

    Attributes:
        part: (k,) row of the part.
        rotation: (k, 3, 3) from the shape's own frame to the assembly's.
        at_m: (k, 3) in the assembly's frame.
    """

    part: Indices
    rotation: Floats
    at_m: Floats


@dataclass(frozen=True, slots=True)
class Shapes:
    """What the parts measure.

    Attributes:
        measures: For each form, of the parts in `PartColumns.shape_rows`, in that order.
        skin_area_m2: (n,) one face of one copy, after relief and cutting away.
        volume_m3: (n,) material of one copy, after cutting away.
        places: Where the copies stand.
    """

    measures: Mapping[str, Measures]
    skin_area_m2: Floats
    volume_m3: Floats
    places: CopyTable


@dataclass(frozen=True, slots=True)
class Pieces:
    """Convex pieces of the parts of one shape, placed in their assemblies' frames.

    Attributes:
        part: (k,) row of the part each copy belongs to.
        chunks: Of the k copies.
    """

    part: Indices
    chunks: Chunks


def measure_parts(columns: PartColumns) -> Shapes:
    """Return what every part measures."""
    measures = {form: columns.measures(form, rows) for form, rows in columns.shape_rows.items()}
    skin_m2, volume_m3 = np.zeros(len(columns.parts)), np.zeros(len(columns.parts))
    for shape, rows in columns.shape_rows.items():
        found = measures[shape]
        if found.face is not None:
            skin_m2[rows] = found.face.size
        if found.solid is not None:
            volume_m3[rows] = found.solid.size
    left = 1.0 - columns.cut_away
    return Shapes(measures, skin_m2 * columns.relief * left, volume_m3 * left, _places(columns))


def _places(columns: PartColumns) -> CopyTable:
    """Return where the copies stand; only parts that are set out need more than one row."""
    spread = np.array([part.set_out[0] != "" for part in columns.parts], dtype=bool)
    lone = np.flatnonzero(~spread)
    part, rotation, at_m = [lone], [columns.rotation[lone]], [columns.at_m[lone]]
    for i in np.flatnonzero(spread):
        kind, spread_m, start_rad = columns.parts[i].set_out
        stand = copies(kind, columns.parts[i].count, spread_m, start_rad)
        part.append(np.full(len(stand.offsets_m), i))
        rotation.append(stand.rotations @ columns.rotation[i])
        at_m.append(columns.at_m[i] + stand.offsets_m)
    return CopyTable(
        np.concatenate(part).astype(np.intp), np.concatenate(rotation), np.concatenate(at_m)
    )


def pieces_of(
    columns: PartColumns, shapes: Shapes, keep: np.ndarray, fineness: int = FINENESS
) -> list[Pieces]:
    """Return the convex pieces of the copies of some parts, by shape.

    Args:
        columns: The parts.
        shapes: What they measure.
        keep: (n,) bool: which parts.
        fineness: Corners of a circle.
    """
    table = shapes.places
    found = []
    for shape, rows in columns.shape_rows.items():
        at = np.flatnonzero(np.isin(table.part, rows[keep[rows]]))
        if not len(at):
            continue
        own = chunks(shape, columns.dims.taken(table.part[at]), fineness)
        found.append(Pieces(table.part[at], placed(own, table.rotation[at], table.at_m[at])))
    return found
