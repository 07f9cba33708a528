"""Weighing: layers to masses, centres and inertia of parts, assemblies, lift units, the whole."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from estimator.core.problems import Problem
from estimator.geometry.bodies import (
    Body,
    joined_by_group,
    moved,
    rotated,
    set_out,
)
from estimator.geometry.measures import Floats
from estimator.geometry.placing import copies
from estimator.masses.bands import Band, band
from estimator.resolve.job import Resolved
from estimator.resolve.records import Indices, Layer, PartColumns
from estimator.resolve.weighed import AsMade
from estimator.stages.doubting import LayerColumns, columns_of
from estimator.stages.measuring import GAINS, Shapes
from estimator.stages.reweighing import Weighing, remade, reweigh


class Sums(NamedTuple):
    """What the mass of each layer of one copy is the product of, beside its own figures.

    Attributes:
        size: (m,) of what it lies over: m, m2, m3 or pieces.
        gained: (m,) skin gained by hammering, as a factor.
        left: (m,) what is left after cutting away.
    """

    size: Floats
    gained: Floats
    left: Floats


@dataclass(frozen=True, slots=True)
class Weights:
    """What everything weighs; every mass is the likely one unless its name says otherwise.

    What was put on a scale weighs what the scale showed.

    Attributes:
        layers: Mass by layer.
        sums: What those masses are products of.
        parts: Bodies of the parts, all copies together, in their assemblies' frames.
        part_band: Of the parts.
        assemblies: Bodies of the assemblies' own parts, each in its own frame.
        assembly_band: Of the assemblies.
        whole_band: Of everything, with what is allowed for what is not listed yet, (1,).
        not_listed: Fraction allowed for what is not listed yet.
        allowed: (n,) that fraction for each part: nought for what was weighed as a whole, with
            its welds and rivets on.
        weighings: Readings beside what was worked out.
        problems: What a reading made doubtful.
        as_made: What the readings did, for the same job at another size.
    """

    layers: LayerColumns
    sums: Sums
    parts: Body
    part_band: Band
    assemblies: Body
    assembly_band: Band
    whole_band: Band
    not_listed: float
    allowed: Floats
    weighings: tuple[Weighing, ...]
    problems: tuple[Problem, ...]
    as_made: AsMade

    @property
    def listed_kg(self) -> float:
        """Return the mass of everything listed."""
        return float(self.parts.mass_kg.sum())

    @property
    def not_listed_kg(self) -> float:
        """Return what is allowed for what is not listed yet."""
        return float((self.allowed * self.parts.mass_kg).sum())

    @property
    def whole_kg(self) -> float:
        """Return the mass of everything, listed and not."""
        return self.listed_kg + self.not_listed_kg


def weigh(resolved: Resolved, shapes: Shapes) -> Weights:
    """Return what every part and assembly weighs, where its middle is, and how sure that is."""
    columns = resolved.columns
    rows, layers = _flattened(columns)
    sums, local = _weigh_layers(columns, shapes, rows, layers)
    listed = columns_of(columns, rows, layers, local.mass_kg * columns.count[rows])
    if resolved.as_made is None:
        found = reweigh(resolved.readings, columns, listed)
    else:
        found = remade(resolved.as_made, listed)
    table, many = found.layers, len(columns.parts)
    parts = _placed(columns, joined_by_group(_as_heavy(local, found.made), rows, many))
    groups = len(resolved.assemblies)
    not_listed = resolved.facts.number("not_listed_yet", 0.0)
    allowed = np.where(found.whole, 0.0, not_listed)
    everything = np.zeros(len(rows), dtype=np.intp)
    return Weights(
        layers=table,
        sums=sums,
        parts=parts,
        part_band=band(table.mass_kg, rows, many, table.offs),
        assemblies=joined_by_group(parts, columns.assembly, groups),
        assembly_band=band(table.mass_kg, columns.assembly[rows], groups, table.offs),
        whole_band=band(table.mass_kg * (1.0 + allowed[rows]), everything, 1, table.offs),
        not_listed=not_listed,
        allowed=allowed,
        weighings=found.weighings,
        problems=found.problems,
        as_made=AsMade(found.made, found.whole, table.offs, table.causes),
    )


def _as_heavy(local: Body, made: Floats) -> Body:
    """Return the layers of one copy, as heavy as the readings make them."""
    return Body(local.mass_kg * made, local.centre_m, local.second_kgm2 * made[:, None, None])


def _flattened(columns: PartColumns) -> tuple[Indices, tuple[Layer, ...]]:
    rows = [i for i, part in enumerate(columns.parts) for _ in part.layers]
    layers = [layer for part in columns.parts for layer in part.layers]
    return np.array(rows, dtype=np.intp), tuple(layers)


def _weigh_layers(
    columns: PartColumns, shapes: Shapes, rows: Indices, layers: Sequence[Layer]
) -> tuple[Sums, Body]:
    """Return what each layer of one copy is a product of, and its body in the shape's frame."""
    factor = np.array([x.mass_per_size_kg * x.covers for x in layers], dtype=float)
    factor *= [(1.0 + x.laps) * x.formed for x in layers]
    over = np.array([layer.over for layer in layers], dtype=object)
    gained = np.where(np.isin(over, list(GAINS)), columns.relief[rows], 1.0)
    left = np.where(over == "each", 1.0, 1.0 - columns.cut_away[rows])
    size = np.zeros(len(rows))
    middle_m, second_m2 = np.zeros((len(rows), 3)), np.zeros((len(rows), 3, 3))
    place = np.empty(len(columns.parts), dtype=np.intp)
    shape_of = np.empty(len(columns.parts), dtype=object)
    for shape, members in columns.shape_rows.items():
        place[members], shape_of[members] = np.arange(len(members)), shape
    for shape, where in {(shape_of[r], o) for r, o in zip(rows, over, strict=True)}:
        region = shapes.measures[shape].over(where)
        if region is None:
            msg = f"a {shape} has no {where}; resolving should have refused the part"
            raise ValueError(msg)
        at = np.flatnonzero((shape_of[rows] == shape) & (over == where))
        local = place[rows[at]]
        size[at] = region.size[local]
        middle_m[at], second_m2[at] = region.middle_m[local], region.second_m2[local]
    mass_kg = factor * gained * left * size
    return Sums(size, gained, left), Body(mass_kg, middle_m, mass_kg[:, None, None] * second_m2)


def _placed(columns: PartColumns, own: Body) -> Body:
    """Return the bodies of the parts, all copies together, in their assemblies' frames."""
    turned = rotated(own, columns.rotation)
    many = Body(
        turned.mass_kg * columns.count,
        turned.centre_m,
        turned.second_kgm2 * columns.count[:, None, None],
    )
    for i in np.flatnonzero([part.set_out[0] != "" for part in columns.parts]):
        kind, spread_m, start_rad = columns.parts[i].set_out
        stand = copies(kind, columns.parts[i].count, spread_m, start_rad)
        single = Body(turned.mass_kg[i], turned.centre_m[i], turned.second_kgm2[i])
        group = set_out(single, stand)
        many.mass_kg[i], many.centre_m[i], many.second_kgm2[i] = group
    return moved(many, columns.at_m)
