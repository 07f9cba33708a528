"""Reweighing: scale readings in the place of what was worked out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from estimator.core.problems import Problem, Severity
from estimator.geometry.measures import Floats
from estimator.masses.readings import OnScale, Settled, settle
from estimator.resolve.records import Indices, Kind, Part, PartColumns, Spread
from estimator.resolve.weighed import ASSEMBLY, LIFT_UNIT, AsMade, Reading
from estimator.stages.doubting import CONFIDENCE, LayerColumns

SCALE_OFF = CONFIDENCE["weighed"]
"""How far a scale lies off, one in twenty on each side."""
BELIEVABLE = (0.5, 2.0)
"""Made over estimated: beyond this somebody is asked which of the two is wrong."""
CHIEFLY = 0.80
"""Share of its mass from which a thing counts as made of one material, or as of one shape."""
MIXED = "mixed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """A reading beside what was worked out.

    Attributes:
        reading: The reading.
        estimated_kg: What all of it was worked out at.
        alone_kg: What was weighed of it on its own.
        factor: What the rest, or all of it, was multiplied by: made over estimated.
        material: What it is made of chiefly; `mixed` where nothing makes up four fifths of it.
        shape: Likewise.
        not_kept: Why its ratio tells nothing of a material; blank when it does.
    """

    reading: Reading
    estimated_kg: float
    alone_kg: float
    factor: float
    material: str
    shape: str
    not_kept: str


@dataclass(frozen=True, slots=True)
class Reweighed:
    """Layers after the readings.

    Attributes:
        layers: The layers.
        made: (m,) made over estimated, of each.
        whole: (n,) whether a part was weighed with all that holds it together.
        weighings: Each reading beside the estimate.
        problems: Readings that are far from what was worked out.
    """

    layers: LayerColumns
    made: Floats
    whole: npt.NDArray[np.bool_]
    weighings: tuple[Weighing, ...]
    problems: tuple[Problem, ...]


def reweigh(readings: Sequence[Reading], columns: PartColumns, listed: LayerColumns) -> Reweighed:
    """Return the layers with the readings in the place of what they were worked out at.

    Args:
        readings: The smallest things first.
        columns: The parts.
        listed: The layers as worked out.
    """
    estimated_kg = np.bincount(listed.part, listed.mass_kg, len(columns.parts))
    known = [reading for reading in readings if estimated_kg[reading.rows].sum() > 0.0]
    causes, on_scale = _on_scale(known, listed)
    found = settle(listed.mass_kg, listed.offs, on_scale)
    layers = replace(listed, mass_kg=found.mass_kg, offs=found.offs,
                     causes=(*listed.causes, *causes))  # fmt: skip
    weighings = tuple(_weighings(known, found, columns, listed))
    whole = np.zeros(len(columns.parts), dtype=bool)
    for reading in known:
        whole[reading.rows] |= reading.kind in (ASSEMBLY, LIFT_UNIT)
    massless = (_massless(reading) for reading in readings if reading not in known)
    made = found.mass_kg / np.where(listed.mass_kg > 0.0, listed.mass_kg, 1.0)
    return Reweighed(layers, made, whole, weighings, (*massless, *_doubtful(weighings)))


def remade(as_made: AsMade, listed: LayerColumns) -> Reweighed:
    """Return the layers of a job at another size, as heavy as readings of it say they come out."""
    layers = replace(
        listed,
        mass_kg=as_made.made * listed.mass_kg,
        offs=as_made.offs,
        causes=as_made.causes,
    )
    return Reweighed(layers, as_made.made, as_made.whole, (), ())


def _on_scale(
    readings: Sequence[Reading], listed: LayerColumns
) -> tuple[list[Spread], list[OnScale]]:
    """Return the scales as causes, and what stood on them."""
    scales = {scale: i for i, scale in enumerate(dict.fromkeys(r.scale for r in readings))}
    why = f"program default for what is weighed: {100 * SCALE_OFF:g} % either way"
    names = [f"the scale ({scale})" if scale else "the scale that is not named" for scale in scales]
    causes = [Spread(name, SCALE_OFF, SCALE_OFF, Kind.SCALE, why=why) for name in names]
    first = len(listed.causes)
    return causes, [
        OnScale(np.flatnonzero(np.isin(listed.part, reading.rows)), reading.mass_kg,
                first + scales[reading.scale], SCALE_OFF)
        for reading in readings
    ]  # fmt: skip


def _weighings(
    readings: Sequence[Reading], found: Settled, columns: PartColumns, listed: LayerColumns
) -> Iterator[Weighing]:
    """Yield each reading beside what was worked out."""
    alone = np.zeros(len(columns.parts), dtype=bool)
    made_kg = np.bincount(listed.part, found.mass_kg, len(columns.parts))
    estimated_kg = np.bincount(listed.part, listed.mass_kg, len(columns.parts))
    for reading, factor in zip(readings, found.factors, strict=True):
        fixed = reading.rows[alone[reading.rows]]
        layers = np.flatnonzero(np.isin(listed.part, reading.rows))
        material, shape = likeness(columns, listed, layers)
        yield Weighing(
            reading=reading,
            estimated_kg=float(estimated_kg[reading.rows].sum()),
            alone_kg=float(made_kg[fixed].sum()),
            factor=factor,
            material=material,
            shape=shape,
            not_kept=_not_kept(reading, columns, fixed, material) or _beyond(factor),
        )
        alone[reading.rows] = True


def _not_kept(reading: Reading, columns: PartColumns, fixed: Indices, material: str) -> str:
    """Return why a reading tells nothing of a material; blank when it does."""
    parts = [columns.parts[i] for i in reading.rows]
    if reading.kind == LIFT_UNIT:
        return "a lift unit is of many things"
    if len(fixed):
        return "parts of it were weighed on their own, so two readings are in the rest"
    if any(is_told(part) for part in parts):
        return "a mass that was typed is in it, so not all was worked out"
    if reading.kind == ASSEMBLY and material == MIXED:
        return f"no material makes up {100 * CHIEFLY:g} % of it"
    return ""


def _beyond(factor: float) -> str:
    """Return why a ratio is not to be believed yet; blank when it is."""
    low, high = BELIEVABLE
    return "" if low <= factor <= high else f"beyond {low:g} to {high:g}; look at it first"


def is_told(part: Part) -> bool:
    """Return whether the mass of a part was typed, not worked out from its form."""
    return any(layer.name == "as given" for layer in part.layers)


def likeness(columns: PartColumns, table: LayerColumns, layers: Indices) -> tuple[str, str]:
    """Return what layers are chiefly of, and on which shape: what ratios are gathered by.

    One part of several materials goes by its build-up. Hammered metal is a material of its own.
    """
    parts, mass_kg = [columns.parts[i] for i in table.part[layers]], table.mass_kg[layers]
    materials = [table.layers[i].material for i in layers]
    material = _chief([*map(_worked, materials, parts)], mass_kg)
    if material == MIXED and len(set(table.part[layers].tolist())) == 1:
        material = parts[0].made_of or MIXED
    return material, _chief([part.shape for part in parts], mass_kg)


def _worked(material: str, part: Part) -> str:
    """Return a material with whether it was hammered, which is what makes it unsure."""
    return f"{material}, hammered" if part.relief > 1.0 else material


def _chief(names: Sequence[str], mass_kg: Floats) -> str:
    """Return the name that makes up four fifths of a mass, or that none does."""
    sums: dict[str, float] = {}
    for name, kg in zip(names, mass_kg, strict=True):
        sums[name] = sums.get(name, 0.0) + float(kg)
    chief = max(sums, key=lambda name: sums[name], default=MIXED)
    return chief if sums and sums[chief] > CHIEFLY * sum(sums.values()) else MIXED


def _massless(reading: Reading) -> Problem:
    found = (f"{reading.name} weighed {reading.mass_kg:.4g} kg, but nothing in it has a mass that "
             "could be brought to that: it is left aside")  # fmt: skip
    return Problem(Severity.QUESTION, reading.cell, found, "", "list what it is made of",
                   reading.name)  # fmt: skip


def _doubtful(weighings: Sequence[Weighing]) -> Iterator[Problem]:
    """Yield a question for each reading that is far from what was worked out."""
    for one in weighings:
        if BELIEVABLE[0] <= one.factor <= BELIEVABLE[1]:
            continue
        name, made_kg = one.reading.name, one.reading.mass_kg - one.alone_kg
        of = f"what is left of {name}" if one.alone_kg else name
        found = (f"{of} weighed {made_kg:.4g} kg and was worked out at "
                 f"{made_kg / one.factor:.4g} kg: {one.factor:.2f} times")  # fmt: skip
        yield Problem(
            Severity.QUESTION, one.reading.cell, found,
            f"{BELIEVABLE[0]:g} to {BELIEVABLE[1]:g} times",
            "look at the unit of the reading, at what stood on the scale, and at sizes and count",
            name,
        )  # fmt: skip
