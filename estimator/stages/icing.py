"""Icing: what ice of the stated thickness weighs, how it widens outlines, and the wind with it."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np
import shapely

from estimator.core.constants import GRAVITY_M_S2
from estimator.geometry.measures import Floats
from estimator.geometry.silhouettes import FRONT, SIDE, united
from estimator.reference.finding import Miss
from estimator.reference.sections import find_section
from estimator.resolve.job import Resolved
from estimator.stages.blowing import WIND_FINENESS, Catch, Wind
from estimator.stages.icing_wind import Added, iced_winds
from estimator.stages.measuring import ALIKE_DECIMALS, Shapes
from estimator.stages.outlining import Outliner
from estimator.stages.posing import Group
from estimator.stages.weighing import Weights
from estimator.stages.whole import frames
from estimator.wind import ice, walls

BARS = frozenset({"rod", "tube", "flat", "hollow", "section", "formed"})
"""Shapes with the same outline all along: ice goes round it by the metre."""
EDGE_M = 1e-6
"""Thickness given to what is seen edge-on, so that ice has something to lie round."""


class IcedPart(NamedTuple):
    """Ice on one part, all copies together."""

    part: str
    ice_kg: float


class IcedAssembly(NamedTuple):
    """Ice on one assembly as drawn.

    Attributes:
        assembly: Its name.
        ice_kg: All round what is in the wind.
        centre_m: Of the ice, in the job's frame.
        weight_n: Of the ice.
        front_m2: Outline from the street, bare and iced.
        side_m2: Outline along the wall, bare and iced.
        front_n: Wind from the street with the ice on, reduced as its class says; NaN without one.
        side_n: Wind along the wall, likewise.
    """

    assembly: str
    ice_kg: float
    centre_m: Floats
    weight_n: float
    front_m2: tuple[float, float]
    side_m2: tuple[float, float]
    front_n: float
    side_n: float


class Iced(NamedTuple):
    """Ice on the job.

    Attributes:
        thickness_m: As stated; nought for none.
        ice_class: Its class; None without ice.
        level: What the wind pressure already holds.
        parts: Every part with ice on it.
        assemblies: Every assembly with ice on it.
        ice_kg: On everything.
        centre_m: Of all the ice, in the job's frame.
        bare: Marks of parts in the wind whose surface is not known.
        part_kg: (n,) on every part, all copies together.
        winds: For each group the wind with the ice on, (s, a, k, 6) as without it; none where
            there is no ice or no wind.
        density_kg_m3: Of the ice.
    """

    thickness_m: float
    ice_class: ice.IceClass | None
    level: str
    parts: tuple[IcedPart, ...]
    assemblies: tuple[IcedAssembly, ...]
    ice_kg: float
    centre_m: Floats
    bare: tuple[str, ...]
    part_kg: Floats
    winds: tuple[Floats, ...]
    density_kg_m3: float = ice.GLAZE_KG_M3


def ice_up(
    resolved: Resolved, shapes: Shapes, weights: Weights, groups: Sequence[Group], wind: Wind
) -> Iced:
    """Return the ice on everything that is in the wind; for print movers in their first position.

    The wind with the ice on is that of every position.
    """
    thickness_m = resolved.facts.number("ice_thickness", 0.0)
    columns = resolved.columns
    if not thickness_m > 0:
        nothing = np.zeros(len(columns.parts))
        return Iced(0.0, None, "", (), (), 0.0, np.zeros(3), (), nothing, ())
    density_kg_m3 = resolved.facts.number("ice_density", ice.GLAZE_KG_M3)
    each_kg = _each_kg(resolved, shapes, thickness_m) * density_kg_m3 / ice.GLAZE_KG_M3
    out = columns.in_wind
    iced_kg = np.where(out & (each_kg > 0), each_kg * columns.count, 0.0)
    rotation, origin_m = frames(len(resolved.assemblies), groups)
    centre_m = origin_m[columns.assembly] + np.einsum(
        "nij,nj->ni", rotation[columns.assembly], weights.parts.centre_m
    )
    worded = [part.key for part in columns.parts]
    grown = _grower(resolved, shapes, thickness_m)
    owners = set(columns.assembly[columns.in_wind & (columns.cut_away < 1.0)].tolist())
    outlines = {row: grown(row, rotation[row]) for row in owners}
    total_kg = float(iced_kg.sum())
    ice_class = ice.ice_class(thickness_m)
    share = resolved.facts.number("wind_with_ice", ice_class.reduction)
    if share != ice_class.reduction:
        ice_class = ice.IceClass(f"{ice_class.name}, its share of the wind as typed", share)
    return Iced(
        thickness_m,
        ice_class,
        str(resolved.weather.level),
        tuple(IcedPart(worded[i], float(iced_kg[i])) for i in np.flatnonzero(iced_kg)),
        tuple(_assemblies(resolved, (iced_kg, centre_m), outlines, wind.catches, share)),
        total_kg,
        _middle_m(iced_kg, centre_m),
        tuple(worded[i] for i in np.flatnonzero(out & np.isnan(each_kg))),
        iced_kg,
        iced_winds(resolved, groups, wind, _adder(grown), share) if wind.known else (),
        density_kg_m3,
    )


def _middle_m(mass_kg: Floats, centre_m: Floats) -> Floats:
    total_kg = mass_kg.sum()
    return np.asarray(mass_kg @ centre_m / total_kg if total_kg > 0 else np.zeros(3))


def _each_kg(resolved: Resolved, shapes: Shapes, thickness_m: float) -> Floats:
    """Return the ice on one copy of each part, (n,); NaN where its surface is not known."""
    columns = resolved.columns
    each_kg = np.full(len(columns.parts), np.nan)
    for form, rows in columns.shape_rows.items():
        found = shapes.measures[form]
        length_m = columns.dims.length_m[rows]
        if form == "section":
            girth_m = np.array([_girth_m(resolved, int(row)) for row in rows])
            each_kg[rows] = ice.bar_kg_m(girth_m, thickness_m) * length_m
        elif form in BARS and found.face is not None:
            girth_m = found.face.size * columns.relief[rows] / length_m
            each_kg[rows] = ice.bar_kg_m(girth_m, thickness_m) * length_m
        elif found.outside is not None:
            area_m2 = found.outside.size * columns.relief[rows]
            each_kg[rows] = ice.body_kg(area_m2, found.box_m.sum(axis=-1), thickness_m)
    return np.asarray(each_kg * (1.0 - columns.cut_away))


def _girth_m(resolved: Resolved, row: int) -> float:
    """Return the outline of a rolled section; of its box where the tables have none."""
    part = resolved.columns.parts[row]
    for layer in part.layers:
        section = find_section(resolved.library, layer.gauge) if layer.gauge else None
        if section and not isinstance(section, Miss) and section.girth_m is not None:
            return section.girth_m
    return 2 * (part.dims[1] + part.dims[2])


class _Outlines(NamedTuple):
    """Areas of the outline of one assembly, bare and iced, from the street and along the wall.

    Bare it is less what is cut away; ice is taken to close that.
    """

    front_m2: tuple[float, float] = (0.0, 0.0)
    side_m2: tuple[float, float] = (0.0, 0.0)


Grower = Callable[[int, Floats], _Outlines]
"""Gives the outlines of an assembly, by its row and how its frame is turned."""


def _grower(resolved: Resolved, shapes: Shapes, thickness_m: float) -> Grower:
    """Return what draws outlines, each way of standing once."""
    columns = resolved.columns
    keep = columns.in_wind & (columns.cut_away < 1.0)
    outliner = Outliner.of(columns, shapes, keep, WIND_FINENESS)
    outliner = replace(outliner, edge_m=EDGE_M)
    drawn: dict[tuple[int, bytes], _Outlines] = {}

    def areas_m2(row: int, turn: Floats, projection: Floats) -> tuple[float, float]:
        """Return the outline of an assembly, bare and iced, seen one way."""
        _, shadows = outliner.shadows(projection, [row], turn)
        # Nobody knows how wide the openings are that are cut away, so that ice may close them.
        iced = shapely.buffer(united(shadows), thickness_m, quad_segs=WIND_FINENESS // 4)
        bare = outliner.seen(projection, [row], turn).get(row)
        return (bare.area_m2 if bare else 0.0), float(shapely.area(iced))

    def grown(row: int, turn: Floats) -> _Outlines:
        """Return the outlines of an assembly turned so, drawn once for all that are alike."""
        key = (row, (np.round(turn, ALIKE_DECIMALS) + 0.0).tobytes())
        if key not in drawn:
            drawn[key] = _Outlines(areas_m2(row, turn, FRONT), areas_m2(row, turn, SIDE))
        return drawn[key]

    return grown


def _adder(grown: Grower) -> Added:
    """Return what gives the area that ice adds to each outline."""

    def added(row: int, turn: Floats) -> tuple[float, float]:
        """Return what ice adds to the front and to the side."""
        shown = grown(row, turn)
        return shown.front_m2[1] - shown.front_m2[0], shown.side_m2[1] - shown.side_m2[0]

    return added


def _assemblies(
    resolved: Resolved, iced: tuple[Floats, Floats], outlines: Mapping[int, _Outlines],
    catches: Sequence[Catch], share: float,
) -> Iterator[IcedAssembly]:  # fmt: skip
    """Yield the ice on each assembly and the wind with it."""
    iced_kg, centre_m = iced
    caught = {catch.assembly: catch for catch in catches}
    for row, assembly in enumerate(resolved.assemblies):
        own = resolved.columns.assembly == row
        own_kg = np.where(own, iced_kg, 0.0)
        if not own_kg.sum() > 0:
            continue
        shown = outlines.get(row, _Outlines())
        front_n, side_n = np.nan, np.nan
        if assembly.key in caught:
            pressure_pa = caught[assembly.key].pressure.pressure_pa
            drag = caught[assembly.key].coefficient.value
            on_wall = walls.STANDINGS[assembly.stands].both_senses
            along = resolved.weather.along.drag.value if on_wall else drag
            front_n = ice.iced_wind(pressure_pa, drag, shown.front_m2[1], share)
            side_n = ice.iced_wind(pressure_pa, along, shown.side_m2[1], share)
        yield IcedAssembly(
            assembly.key, float(own_kg.sum()), _middle_m(own_kg, centre_m),
            float(own_kg.sum()) * GRAVITY_M_S2, shown.front_m2, shown.side_m2, front_n, side_n,
        )  # fmt: skip
