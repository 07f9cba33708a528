"""Timber at the moisture of the job: its density moved there from the moisture of the table."""

from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import NamedTuple

from estimator.core.sourced import Origin
from estimator.masses.moisture import FIBRE_SATURATION, moved_to
from estimator.reference.materials import Material
from estimator.resolve.facts import Untold
from estimator.resolve.records import Assumption, Facts, Kind, PartColumns, Spread
from estimator.sheets.facts import JOB_FACTS

FACT = "timber_moisture"
CAUSE = "moisture of the timber"
TIMBER = "timber"
"""Group of the materials that take up the moisture of the place; boards and metals do not."""
OUTDOORS, BY_METER = 0.05, 0.02
"""How far moisture lies off, one in twenty on each side. Outdoors wood goes from 11 to 15 % in
summer to 19 to 23 % in winter (svenskttra.se, wood and moisture; Swedish weather), so 17 % and 5
either way; for moisture that was measured a program default, no source."""
LEAST_SEASONED = 0.08
"""Wood that the table holds at less is modified: it stays there and takes up no more."""


class Moisture(NamedTuple):
    """Water as a fraction of the dry mass."""

    low: float
    likely: float
    high: float
    told: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Timber(Material):
    """Timber as it is at this job.

    Attributes:
        listed_kg_m3: Its density at the moisture of the table.
        listed_moisture: That moisture.
        damp: What it varies with.
    """

    listed_kg_m3: float
    listed_moisture: float
    damp: Spread


def moisture_of(facts: Facts) -> Moisture:
    """Return the moisture of all timber of a job, told or assumed."""
    likely = facts.number(FACT)
    told = facts.values[FACT].origin is Origin.TYPED
    off = BY_METER if told else OUTDOORS
    return Moisture(max(likely - off, 0.0), likely, likely + off, told)


def conditioned(material: Material, moisture: Moisture | None) -> Material:
    """Return seasoned timber at the moisture of the job; every other material as it is.

    Green timber is kept as the table has it: that it is wet is in its name.
    """
    listed = material.moisture
    if moisture is None or listed is None or material.group != TIMBER:
        return material
    if not LEAST_SEASONED <= listed <= FIBRE_SATURATION:
        return material
    low, likely, high = (
        moved_to(material.density_kg_m3, listed, at)
        for at in (moisture.low, moisture.likely, moisture.high)
    )
    kept = {one.name: getattr(material, one.name) for one in fields(material)}
    ends = {name: moved_to(kept[name], listed, moisture.likely) for name in
            ("density_low_kg_m3", "density_high_kg_m3")}  # fmt: skip
    why = f"{_percent(moisture.low)} to {_percent(moisture.high)}, {_says(moisture)}"
    off = 1.0 - low / likely, high / likely - 1.0
    damp = Spread(CAUSE, *off, Kind.MOISTURE, moisture.likely, why)
    return Timber(
        **kept | ends | {"density_kg_m3": likely, "moisture": moisture.likely},
        listed_kg_m3=material.density_kg_m3, listed_moisture=listed, damp=damp,
    )  # fmt: skip


def density_words(material: Material) -> str:
    """Return a density for print; of timber with its moisture, and as the table has it."""
    words = f"{material.density_kg_m3:.0f} kg/m3"
    if not isinstance(material, Timber):
        return words
    at = _percent(material.damp.likely)
    listed = f"{material.listed_kg_m3:g} at {_percent(material.listed_moisture)}"
    return f"{words} at {at} moisture ({listed})"


def asked(untold: Sequence[Untold], columns: PartColumns) -> tuple[Untold, ...]:
    """Return what nobody said, without the moisture where no timber takes it up."""
    heading = JOB_FACTS[FACT].column.heading
    return tuple(one for one in untold if one.item != heading or _takes_up(columns))


def assumptions(moisture: Moisture | None, columns: PartColumns) -> tuple[Assumption, ...]:
    """Return what is taken for granted of the timber of a job, if it has any."""
    if moisture is None or not _takes_up(columns):
        return ()
    return (
        Assumption(
            CAUSE,
            f"{_percent(moisture.likely)}, {_percent(moisture.low)} to {_percent(moisture.high)}",
            f"{_says(moisture)}; densities are moved there from the moisture of the table by the "
            "NDS form, all timber together; boards, modified and green timber stay as listed",
        ),
    )


def _takes_up(columns: PartColumns) -> bool:
    """Return whether any part has timber that goes by the moisture of the place."""
    layers = (layer for part in columns.parts for layer in part.layers)
    return any(spread.kind is Kind.MOISTURE for layer in layers for spread in layer.spreads)


def _says(moisture: Moisture) -> str:
    return "as told" if moisture.told else "program default: outdoors, summer to winter"


def _percent(share: float) -> str:
    return f"{100 * share:.3g} %"
