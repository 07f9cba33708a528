"""Narrowing: which causes make the mass of the whole unsure, and by how much each widens it."""

from dataclasses import dataclass
from math import hypot
from typing import NamedTuple

import numpy as np

from estimator.masses.bands import Effects, effects, left_over
from estimator.resolve.records import Kind, Part, PartColumns, Spread
from estimator.stages.doubting import LayerColumns
from estimator.stages.weighing import Weights

MOST = 5
"""Causes that are told."""
TRACE = 1e-9
"""What readings have taken out leaves a rounding behind, less than this share of the whole."""
PARTS_TOLD = 3
"""Parts told of each: those that carry most of what it does."""
SQUARE_FOOT_M2 = 0.3048**2
SAMPLES = {
    Kind.GAUGE: (("0.1 m²", 0.1), ("1 square foot", SQUARE_FOOT_M2)),
    Kind.COAT: (("0.1 m²", 0.1), ("1 square foot", SQUARE_FOOT_M2)),
    Kind.DENSITY: (("1 litre", 1e-3),),
}
"""What is worth weighing to know a cause better: how much of it, m2 or m3."""
TOGETHER = {
    Kind.GAUGE: (Kind.GAUGE, Kind.DENSITY),
    Kind.DENSITY: (Kind.DENSITY, Kind.MOISTURE),
    Kind.COAT: (Kind.COAT,),
}
"""Causes that what is weighed varies with all at once."""


class Sample(NamedTuple):
    """What a piece of something weighs, before anybody has weighed it."""

    piece: str
    likely_kg: float
    low_kg: float
    high_kg: float


class Share(NamedTuple):
    """What a cause does to one part: it lies so far off either way."""

    part: Part
    off_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Widener:
    """A cause that makes the whole unsure.

    Attributes:
        cause: The cause.
        down_kg: How much lighter the whole is one time in twenty for this alone.
        up_kg: How much heavier.
        known_low_kg: Low mass of the whole, were this known exactly.
        known_high_kg: High mass, likewise.
        parts: How many parts vary with it.
        chief: Those that vary most.
        chief_low_kg: Low mass of the whole, were those alone known exactly in this.
        chief_high_kg: High mass, likewise.
        samples: What could be weighed to know it better.
    """

    cause: Spread
    down_kg: float
    up_kg: float
    known_low_kg: float
    known_high_kg: float
    parts: int
    chief: tuple[Share, ...]
    chief_low_kg: float
    chief_high_kg: float
    samples: tuple[Sample, ...]


def narrow(columns: PartColumns, weights: Weights) -> tuple[Widener, ...]:
    """Return the causes that widen the range of the whole most, the widest first.

    Args:
        columns: The parts.
        weights: What they weigh.
    """
    table = weights.layers
    mass_kg = table.mass_kg * (1.0 + weights.allowed[table.part])
    found = effects(mass_kg, np.zeros(len(mass_kg), dtype=np.intp), table.offs)
    least_kg = TRACE * float(mass_kg.sum())
    order = np.argsort(-(found.down_kg + found.up_kg), kind="stable")[:MOST]
    return tuple(
        _widener(columns, weights, found, int(at))
        for at in order
        if found.down_kg[at] + found.up_kg[at] > least_kg
    )


def _widener(columns: PartColumns, weights: Weights, found: Effects, at: int) -> Widener:
    table, number = weights.layers, int(found.cause[at])
    chief = _chief(columns, weights, number)
    off_kg = [share.off_kg for share in chief]
    share = sum(off_kg[:PARTS_TOLD]) / sum(off_kg)
    down_kg, up_kg = left_over(found, at)
    chief_down_kg, chief_up_kg = left_over(found, at, share)
    return Widener(
        cause=table.causes[number],
        down_kg=float(found.down_kg[at]),
        up_kg=float(found.up_kg[at]),
        known_low_kg=weights.whole_kg - down_kg,
        known_high_kg=weights.whole_kg + up_kg,
        parts=len(chief),
        chief=chief[:PARTS_TOLD],
        chief_low_kg=weights.whole_kg - chief_down_kg,
        chief_high_kg=weights.whole_kg + chief_up_kg,
        samples=_samples(table, number),
    )


def _chief(columns: PartColumns, weights: Weights, number: int) -> tuple[Share, ...]:
    """Return the parts that vary with a cause, those that vary most first."""
    table = weights.layers
    at = np.flatnonzero(table.offs.cause == number)
    layer = table.offs.row[at]
    ends_kg = [
        np.bincount(table.part[layer], table.mass_kg[layer] * off[at], len(columns.parts))
        for off in (table.offs.low, table.offs.high)
    ]
    off_kg = np.abs(ends_kg).mean(axis=0)
    order = np.argsort(-off_kg, kind="stable")
    least_kg = TRACE * float(table.mass_kg.sum())
    return tuple(Share(columns.parts[i], float(off_kg[i])) for i in order if off_kg[i] > least_kg)


def _samples(table: LayerColumns, number: int) -> tuple[Sample, ...]:
    """Return what pieces of the thing weigh that a cause is about."""
    cause = table.causes[number]
    if cause.kind not in SAMPLES:
        return ()
    layer = table.layers[table.offs.row[np.flatnonzero(table.offs.cause == number)[0]]]
    with_it = [spread for spread in layer.spreads if spread.kind in TOGETHER[cause.kind]]
    low, high = (hypot(*ends) for ends in zip(*((s.low, s.high) for s in with_it), strict=True))
    return tuple(
        Sample(piece, size * cause.likely, size * cause.likely * (1.0 - low),
               size * cause.likely * (1.0 + high))
        for piece, size in SAMPLES[cause.kind]
    )  # fmt: skip
