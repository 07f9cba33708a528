"""Doubting: what the mass of every layer varies with, as columns the formulas take."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from estimator.geometry.measures import Floats
from estimator.masses.bands import Offs
from estimator.resolve.records import Indices, Kind, Layer, PartColumns, Spread

CONFIDENCE = {"guess": 0.20, "drawn": 0.10, "quoted": 0.05, "weighed": 0.02}
"""How far sizes of each class lie off, one in twenty on each side: program defaults, no source."""


@dataclass(frozen=True, slots=True)
class LayerColumns:
    """Every layer of every part, a row per layer.

    Attributes:
        part: (m,) row of the part.
        layers: The layers themselves.
        mass_kg: (m,) of all copies of the part together.
        offs: How far the masses lie off.
        causes: What they vary with, in the order of its numbers.
    """

    part: Indices
    layers: tuple[Layer, ...]
    mass_kg: Floats
    offs: Offs
    causes: tuple[Spread, ...]


def columns_of(
    columns: PartColumns, part: Indices, layers: Sequence[Layer], mass_kg: Floats
) -> LayerColumns:
    """Return layers with what each varies with, how sure its part's sizes are included."""
    sizes = {name: _sizes(name, off) for name, off in CONFIDENCE.items()}
    causes: dict[str, Spread] = {}
    numbers: dict[str, int] = {}
    entries = []
    for i, (row, layer) in enumerate(zip(part, layers, strict=True)):
        for spread in (*layer.spreads, sizes[columns.parts[row].confidence]):
            causes.setdefault(spread.cause, spread)
            number = numbers.setdefault(spread.cause, len(numbers))
            entries.append((i, number, spread.low, spread.high))
    row_, cause, low, high = zip(*entries, strict=True) if entries else ((), (), (), ())
    offs = Offs(np.array(row_, dtype=np.intp), np.array(cause, dtype=np.intp),
                np.array(low, dtype=float), np.array(high, dtype=float))  # fmt: skip
    return LayerColumns(part, tuple(layers), mass_kg, offs, tuple(causes.values()))


def _sizes(confidence: str, off: float) -> Spread:
    word = {"guess": "guessed"}.get(confidence, confidence)
    why = f"program default for what is {word}: {100 * off:g} % either way"
    return Spread(f"the sizes of what is {word}", off, off, Kind.SIZES, why=why)
