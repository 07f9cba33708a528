"""Weighing: layers to masses, centres and inertia of parts, assemblies, lift units, the whole."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from estimator.geometry.bodies import (
    Body,
    joined_by_group,
    moved,
    rotated,
    set_out,
)
from estimator.geometry.measures import Floats
from estimator.geometry.placing import copies
from estimator.resolve.job import Resolved
from estimator.resolve.records import Indices, Layer, PartColumns, Spread
from estimator.stages.measuring import GAINS, Shapes

CONFIDENCE = {"guess": 0.20, "drawn": 0.10, "quoted": 0.05, "weighed": 0.02}
"""How far sizes of each class lie off, one in twenty on each side: program defaults, no source."""


class Band(NamedTuple):
    """How sure a mass is; each (g,) kg.

    Attributes:
        low_kg, high_kg: One in twenty lies below, and above.
        straight_low_kg, straight_high_kg: Everything off the same way at once.
    """

    low_kg: Floats
    high_kg: Floats
    straight_low_kg: Floats
    straight_high_kg: Floats


@dataclass(frozen=True, slots=True)
class LayerColumns:
    """Every layer of every part, a row per layer.

    Attributes:
        part: (m,) row of the part.
        layers: The layers themselves.
        mass_kg: (m,) of all copies of the part together.
    """

    part: Indices
    layers: tuple[Layer, ...]
    mass_kg: Floats


@dataclass(frozen=True, slots=True)
class Weights:
    """What everything weighs; every mass is the likely one unless its name says otherwise.

    Attributes:
        layers: Mass by layer.
        parts: Bodies of the parts, all copies together, in their assemblies' frames.
        part_band: Of the parts.
        assemblies: Bodies of the assemblies' own parts, each in its own frame.
        assembly_band: Of the assemblies.
        whole_band: Of everything listed, (1,).
        not_listed: Fraction of the listed mass allowed for what is not listed yet.
    """

    layers: LayerColumns
    parts: Body
    part_band: Band
    assemblies: Body
    assembly_band: Band
    whole_band: Band
    not_listed: float

    @property
    def listed_kg(self) -> float:
        """Return the mass of everything listed."""
        return float(self.parts.mass_kg.sum())


def weigh(resolved: Resolved, shapes: Shapes) -> Weights:
    """Return what every part and assembly weighs, where its middle is, and how sure that is."""
    columns = resolved.columns
    rows, layers = _flattened(columns)
    one_kg, local = _weigh_layers(columns, shapes, rows, layers)
    mass_kg = one_kg * columns.count[rows]
    own = joined_by_group(local, rows, len(columns.parts))
    parts = _placed(columns, own)
    groups = len(resolved.assemblies)
    table = LayerColumns(rows, layers, mass_kg)
    spreads = spreads_of(columns, table)
    return Weights(
        layers=table,
        parts=parts,
        part_band=band(mass_kg, rows, spreads, len(columns.parts)),
        assemblies=joined_by_group(parts, columns.assembly, groups),
        assembly_band=band(mass_kg, columns.assembly[rows], spreads, groups),
        whole_band=band(mass_kg, np.zeros(len(rows), dtype=np.intp), spreads, 1),
        not_listed=resolved.facts.number("not_listed_yet", 0.0),
    )


def _flattened(columns: PartColumns) -> tuple[Indices, tuple[Layer, ...]]:
    rows = [i for i, part in enumerate(columns.parts) for _ in part.layers]
    layers = [layer for part in columns.parts for layer in part.layers]
    return np.array(rows, dtype=np.intp), tuple(layers)


def _weigh_layers(
    columns: PartColumns, shapes: Shapes, rows: Indices, layers: Sequence[Layer]
) -> tuple[Floats, Body]:
    """Return the mass of each layer of one copy, and its body in the frame of the shape."""
    factor = np.array([x.mass_per_size_kg * x.covers * (1.0 + x.laps) for x in layers], dtype=float)
    over = np.array([layer.over for layer in layers], dtype=object)
    factor *= np.where(np.isin(over, list(GAINS)), columns.relief[rows], 1.0)
    factor *= np.where(over == "each", 1.0, 1.0 - columns.cut_away[rows])
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
    mass_kg = factor * size
    return mass_kg, Body(mass_kg, middle_m, mass_kg[:, None, None] * second_m2)


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


def spreads_of(columns: PartColumns, table: LayerColumns) -> list[tuple[Spread, ...]]:
    """Return what the mass of each layer varies with, how sure its part's sizes are included."""
    sizes = {name: Spread(f"sizes of what is {name}", off, off) for name, off in CONFIDENCE.items()}
    return [
        (*layer.spreads, sizes[columns.parts[row].confidence])
        for row, layer in zip(table.part, table.layers, strict=True)
    ]


def band(
    mass_kg: Floats, group: Indices, spreads: Sequence[tuple[Spread, ...]], groups: int
) -> Band:
    """Return low and high mass of groups of layers.

    What shares a cause errs together and adds up; different causes are independent, so their
    effects add as squares. The straight sum lets all err together.

    Args:
        mass_kg: (m,) layers.
        group: (m,) the group each layer counts to.
        spreads: Of each layer.
        groups: How many groups.

    References:
        Law of propagation of uncertainty: JCGM 100:2008 (GUM), 5.2.2, with correlation 1 within
        a cause and 0 between causes; 5 % and 95 % points added as if the shares were normal.
    """
    causes: dict[str, int] = {}
    entries = [
        (causes.setdefault(spread.cause, len(causes)), i, spread.low, spread.high)
        for i, all_ in enumerate(spreads)
        for spread in all_
    ]
    total_kg: Floats = np.bincount(group, mass_kg, groups).astype(float)
    if not entries:
        return Band(total_kg, total_kg, total_kg, total_kg)
    cause, layer, low, high = (np.array(values) for values in zip(*entries, strict=True))
    pairs, pair = np.unique(group[layer] * len(causes) + cause, return_inverse=True)
    owner = pairs // len(causes)
    sides = []
    for off in (low, high):
        by_cause_kg: Floats = np.bincount(pair, mass_kg[layer] * off, len(pairs)).astype(float)
        sides.append(
            (np.sqrt(np.bincount(owner, by_cause_kg**2, groups)),
             np.bincount(owner, by_cause_kg, groups))
        )  # fmt: skip
    (low_kg, straight_low_kg), (high_kg, straight_high_kg) = sides
    return Band(
        total_kg - low_kg, total_kg + high_kg,
        total_kg - straight_low_kg, total_kg + straight_high_kg,
    )  # fmt: skip
