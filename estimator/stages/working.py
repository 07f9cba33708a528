"""Working wind: what the winds of the job are called, and in which wind each unit can be lifted."""

import math
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from typing import NamedTuple

import numpy as np
import shapely

from estimator.geometry.measures import Floats
from estimator.geometry.silhouettes import moved, united, view
from estimator.resolve.job import Resolved
from estimator.resolve.records import Indices
from estimator.stages.measuring import Shapes
from estimator.stages.outlining import Outliner
from estimator.stages.posing import Group
from estimator.stages.weighing import Weights
from estimator.stages.whole import frames
from estimator.wind import working
from estimator.wind.air import gust_factor, standard_density
from estimator.wind.en1991 import Site

FORCES = range(3, 9)
"""Beaufort forces in which people think of working or of stopping."""
LOOKS_DEG = (0.0, 30.0, 60.0, 90.0, 120.0, 150.0)
"""Directions in which the outline of a lift unit is looked at; between them it is 3.5 % larger at
the most. From behind it is the same in a mirror."""
COARSE = 24
"""Corners of a circle when outlines are united: an area holds to half a per cent."""
MEAN_HEIGHT_M = 10.0
"""Height that the Beaufort scale is for."""


class Spoken(NamedTuple):
    """A wind speed of the job, and what it is called."""

    what: str
    speed_m_s: float
    beaufort: int


class Force(NamedTuple):
    """One Beaufort force and its gusts.

    Attributes:
        beaufort: The force.
        low_m_s: Lower end of its mean at 10 m.
        high_m_s: Where the next begins.
        gust_m_s: Gust at 10 m that its upper end has.
        gust_high_m_s: The same at a greater height, NaN without one.
    """

    beaufort: int
    low_m_s: float
    high_m_s: float
    gust_m_s: float
    gust_high_m_s: float


class Lift(NamedTuple):
    """One lift unit in the wind.

    Attributes:
        lift_unit: Its name.
        mass_kg: Likely.
        outline_m2: Largest outline over all directions, as drawn.
        direction_deg: Side of the wind that meets it.
        sail_m2: A_W.
        factor: Share of the crane's own wind limit.
        cautious_factor: The same by the more cautious rule.
        limit_m_s: Gust in which lifting stops, NaN while the crane's own limit is not known.
        cautious_m_s: The same by the more cautious rule.
    """

    lift_unit: str
    mass_kg: float
    outline_m2: float
    direction_deg: float
    sail_m2: float
    factor: float
    cautious_factor: float
    limit_m_s: float
    cautious_m_s: float


class Working(NamedTuple):
    """Wind to work in.

    Attributes:
        spoken: Speeds of the job by name.
        forces: Beaufort forces with their gusts.
        height_m: Height of the datum, where it is above that of the scale; else NaN.
        lifts: Every lift unit.
        crane_m_s: The crane's own wind limit, NaN when nobody said.
        altitude_m: Of the ground above the sea, NaN likewise.
        density_kg_m3: Of the standard atmosphere there, NaN likewise.
        used_kg_m3: Density the pressures are worked out with, NaN where they need none.
    """

    spoken: tuple[Spoken, ...]
    forces: tuple[Force, ...]
    height_m: float
    lifts: tuple[Lift, ...]
    crane_m_s: float
    altitude_m: float
    density_kg_m3: float
    used_kg_m3: float


def work(resolved: Resolved, shapes: Shapes, weights: Weights, groups: Sequence[Group]) -> Working:
    """Return the winds to work and lift in."""
    facts, site = resolved.facts, resolved.weather.site
    datum_m = resolved.weather.datum_m
    height_m = datum_m if datum_m > MEAN_HEIGHT_M else math.nan
    crane_m_s = facts.number("lifting_wind_limit")
    altitude_m = facts.number("altitude")
    return Working(
        tuple(_spoken(resolved, crane_m_s, height_m)),
        tuple(_forces(height_m)),
        height_m,
        tuple(_lifts(resolved, shapes, weights, groups)),
        crane_m_s,
        altitude_m,
        math.nan if math.isnan(altitude_m) else float(standard_density(altitude_m)),
        site.density_kg_m3 if isinstance(site, Site) else math.nan,
    )


def _spoken(resolved: Resolved, crane_m_s: float, height_m: float) -> Iterator[Spoken]:
    """Yield the speeds of the job that have a Beaufort force."""
    site = resolved.weather.site
    if isinstance(site, Site):
        yield _said("the basic wind speed", site.basic_speed_m_s)
    elif site is not None:
        mean_m_s = working.mean_of_gust(site.basic_speed_m_s, MEAN_HEIGHT_M)
        yield _said("the mean whose gusts reach the basic wind speed of the map", mean_m_s)
    if not math.isnan(crane_m_s):
        at_m = MEAN_HEIGHT_M if math.isnan(height_m) else height_m
        mean_m_s = working.mean_of_gust(crane_m_s, at_m)
        what = f"the mean whose gusts reach the crane's limit at {at_m:g} m above the ground"
        yield _said(what, mean_m_s)


def _said(what: str, mean_m_s: float) -> Spoken:
    return Spoken(what, mean_m_s, working.beaufort(mean_m_s))


def _forces(height_m: float) -> Iterator[Force]:
    """Yield the Beaufort forces with the gusts their upper ends have."""
    for force in FORCES:
        low_m_s, high_m_s = working.LOWER_LIMITS_M_S[force - 1 : force + 1]
        yield Force(
            force, low_m_s, high_m_s,
            float(gust_factor(MEAN_HEIGHT_M)) * high_m_s,
            math.nan if math.isnan(height_m) else float(gust_factor(height_m)) * high_m_s,
        )  # fmt: skip


def _lifts(
    resolved: Resolved, shapes: Shapes, weights: Weights, groups: Sequence[Group]
) -> Iterator[Lift]:
    """Yield every lift unit with its sail, as drawn."""
    names = list(dict.fromkeys(assembly.lift_unit for assembly in resolved.assemblies))
    unit = np.array([names.index(a.lift_unit) for a in resolved.assemblies], dtype=np.intp)
    mass_kg = np.bincount(unit, weights.assemblies.mass_kg, len(names))
    outlines_m2 = _outlines_m2(resolved, shapes, groups, unit)
    crane_m_s = resolved.facts.number("lifting_wind_limit")
    for name, own_kg, areas_m2 in zip(names, mass_kg.tolist(), outlines_m2.tolist(), strict=True):
        largest_m2 = max(areas_m2)
        if not (own_kg > 0 and largest_m2 > 0):
            continue
        sail_m2 = working.sail_area(largest_m2)
        factor = working.lifting_factor(own_kg, sail_m2)
        cautious = working.cautious_factor(own_kg, sail_m2)
        yield Lift(
            name, own_kg, largest_m2, LOOKS_DEG[areas_m2.index(largest_m2)], sail_m2,
            factor, cautious, factor * crane_m_s, cautious * crane_m_s,
        )  # fmt: skip


def _outlines_m2(
    resolved: Resolved, shapes: Shapes, groups: Sequence[Group], unit: Indices
) -> Floats:
    """Return the area of the united outline of each lift unit, (units, looks), as drawn.

    Args:
        resolved: The job.
        shapes: What its parts measure.
        groups: Where its assemblies are.
        unit: (a,) number of the lift unit of each assembly.
    """
    columns = resolved.columns
    everything = np.ones(len(columns.parts), dtype=bool)
    outliner = Outliner.of(columns, shapes, everything, COARSE)
    rotation, origin_m = frames(len(unit), groups)
    turns, turn_of = np.unique(np.round(rotation, 12).reshape(-1, 9), axis=0, return_inverse=True)

    def seen(look_deg: float) -> Floats:
        """Return the outlines seen along one direction."""
        projection = view(math.radians(look_deg))
        owners, drawn = [np.zeros(0, dtype=np.intp)], [np.zeros(0, dtype=object)]
        for number, turn in enumerate(turns.reshape(-1, 3, 3)):
            rows = np.flatnonzero(turn_of.ravel() == number)
            parts, shadows = outliner.shadows(projection, rows.tolist(), turn)
            at = columns.assembly[parts]
            owners.append(unit[at])
            drawn.append(moved(shadows, origin_m[at] @ projection.T))
        owner, outlines = np.concatenate(owners), np.concatenate(drawn)
        every = range(int(unit.max(initial=-1)) + 1)
        return np.array([shapely.area(united(outlines[owner == one])) for one in every])

    # Uniting outlines is most of the work of a long list, and leaves Python free meanwhile.
    with ThreadPoolExecutor() as pool:
        return np.stack(list(pool.map(seen, LOOKS_DEG)), axis=-1)
