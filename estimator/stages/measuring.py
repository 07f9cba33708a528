"""Measuring: skin, volume and silhouette pieces of every part, copies set out."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from estimator.geometry.chunks import FINENESS, chunks, placed
from estimator.geometry.contours import Surface
from estimator.geometry.forms import Form, Pieced, Plate, Solid
from estimator.geometry.measures import Floats, Measures
from estimator.geometry.placing import copies
from estimator.resolve.records import Indices, PartColumns

GAINS = frozenset({"one face", "both faces", "whole outside"})
"""What hammering (`relief`) makes more of: everything measured by its area."""
ALIKE_DECIMALS = 12
"""Copies whose rotations are alike to so many decimals are turned alike."""


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
        surfaces: The meshes among the models, by key, ready to be looked at.
    """

    measures: Mapping[str, Measures]
    skin_area_m2: Floats
    volume_m3: Floats
    places: CopyTable
    surfaces: Mapping[str, Surface]


@dataclass(frozen=True, slots=True)
class Pieces:
    """Copies of parts of one form in their assemblies' frames, those turned alike looked at once.

    Attributes:
        part: (k,) row of the part each copy belongs to.
        which: (k,) number of the form it looks like.
        at_m: (k, 3) where it stands.
        form: The forms, as they are turned.
    """

    part: Indices
    which: Indices
    at_m: Floats
    form: Form


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
    meshes = {form: columns.models[form].model.mesh for form in columns.shape_rows
              if form in columns.models}  # fmt: skip
    surfaces = {form: Surface.of(mesh) for form, mesh in meshes.items() if mesh is not None}
    return Shapes(
        measures, skin_m2 * columns.relief * left, volume_m3 * left, _places(columns), surfaces
    )


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
    """Return the copies of some parts, by form.

    Args:
        columns: The parts.
        shapes: What they measure.
        keep: (n,) bool: which parts.
        fineness: Corners of a circle.
    """
    table = shapes.places
    found = []
    for form, rows in columns.shape_rows.items():
        at = np.flatnonzero(np.isin(table.part, rows[keep[rows]]))
        if not len(at):
            continue
        part, rotation = table.part[at], table.rotation[at]
        # What its model says of a part does not lie in its dimensions.
        told = () if form in columns.models else (np.stack(columns.dims.taken(part), axis=-1),)
        first, which = _alike(rotation.reshape(-1, 9), *told)
        turned = _turned(columns, shapes, (form, part[first], rotation[first]), fineness)
        found.append(Pieces(part, which, table.at_m[at], turned))
    return found


def _alike(*columns: Floats) -> tuple[Indices, Indices]:
    """Return the first of the rows that differ, and which of those each row is like."""
    table = np.round(np.concatenate(columns, axis=1), ALIKE_DECIMALS) + 0.0
    numbers: dict[bytes, int] = {}
    which = np.array([numbers.setdefault(row.tobytes(), len(numbers)) for row in table])
    return np.unique(which, return_index=True)[1], which


def _turned(
    columns: PartColumns, shapes: Shapes, turned: tuple[str, Indices, Floats], fineness: int
) -> Form:
    """Return parts of one form, each turned its own way."""
    name, part, rotation = turned
    if name in shapes.surfaces:
        return Solid(shapes.surfaces[name], rotation)
    model = columns.models[name].model if name in columns.models else None
    if model and model.outline is not None:
        return Plate(model.outline, rotation)
    if model and model.stand_in is not None:
        own = model.stand_in.taken(np.zeros(len(part), dtype=np.intp))
    else:
        own = chunks(name, columns.dims.taken(part), fineness)
    return Pieced(placed(own, rotation, np.zeros(3)))
