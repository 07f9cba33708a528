"""Burdening: what lies on and in the things that brackets carry: ice, snow and trapped water."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from estimator.core.constants import GRAVITY_M_S2
from estimator.geometry.measures import Floats
from estimator.geometry.silhouettes import PLAN
from estimator.resolve.assemblies import WALL
from estimator.resolve.job import Resolved
from estimator.resolve.records import ExtraLoad, Kind, Layer, PartColumns
from estimator.stages.blowing import WIND_FINENESS
from estimator.stages.icing import BARS, Iced
from estimator.stages.measuring import Shapes
from estimator.stages.outlining import Outliner, Seen
from estimator.stages.posing import Group
from estimator.supports.combinations import SNOW
from estimator.wind import snow

WATER_KG_M3 = 1000.0
NEARLY_FULL = 0.95
"""More than this of a solid is all of it: damp timber is not as dense as its table says."""
FILLING = frozenset({"solid", "inside"})
"""What a layer lies over that fills a closed shape."""


class Lying(NamedTuple):
    """Snow on one assembly in one position, by the copies of its parts.

    Attributes:
        weight_n: (n,).
        at_m: (n, 3) middle of each from the datum; the height is that of the assembly's origin,
            which nothing goes by.
        half_m: (n, 3) half the box of each.
    """

    weight_n: Floats
    at_m: Floats
    half_m: Floats


class Snowed(NamedTuple):
    """Snow on one assembly as drawn, for print."""

    assembly: str
    plan_m2: float
    weight_n: float


class Held(NamedTuple):
    """Water that the hollow shapes of one assembly can hold.

    Attributes:
        load: Name of the row that asks for it.
        assembly: Its assembly.
        parts: Parts that count.
        filled: Closed parts that a solid fills, which do not; beside one that fills a share of
            its part the rest counts.
        volume_m3: Of those that count.
        mass_kg: Of the water.
    """

    load: str
    assembly: str
    parts: tuple[str, ...]
    filled: tuple[str, ...]
    volume_m3: float
    mass_kg: float


class _Hollow(NamedTuple):
    """A part that is closed, with what room all its copies leave and the middle of that."""

    part: str
    room_m3: float
    middle_m: Floats


@dataclass(frozen=True, slots=True)
class Burdens:
    """What lies on and in what the brackets carry.

    Attributes:
        iced: The ice.
        ground_pa: Snow on the level ground; nought for none.
        snow: Of each group, position and member, by their numbers, the snow on it.
        snowed: The same as drawn, for print.
        extra: Loads from elsewhere, trapped water with its weight.
        held: What water can be trapped in.
    """

    iced: Iced
    ground_pa: float
    snow: Mapping[tuple[int, int, int], Lying]
    snowed: tuple[Snowed, ...]
    extra: tuple[ExtraLoad, ...]
    held: tuple[Held, ...]

    def said(self, cause: str) -> frozenset[str]:
        """Return the assemblies with a load of this cause of their own, in the place of ours."""
        return frozenset(load.assembly for load in self.extra if load.cause == cause)


def burden(resolved: Resolved, shapes: Shapes, groups: Sequence[Group], iced: Iced) -> Burdens:
    """Return the snow on everything that brackets carry, and the water in it."""
    held = tuple(
        _held(resolved, shapes, load) if load.fills else None for load in resolved.extra_loads
    )
    extra = tuple(
        load if water is None else _filled(load, *water)
        for load, water in zip(resolved.extra_loads, held, strict=True)
    )
    ground_pa = resolved.facts.number("snow_load", 0.0)
    found = Burdens(
        iced, ground_pa, {}, (), extra, tuple(water[0] for water in held if water is not None)
    )
    if not ground_pa > 0:
        return found
    lying = dict(_snow(resolved, shapes, groups, found))
    return replace(found, snow=lying, snowed=tuple(_drawn(resolved, groups, lying, ground_pa)))


def _snow(
    resolved: Resolved, shapes: Shapes, groups: Sequence[Group], burdens: Burdens
) -> Iterator[tuple[tuple[int, int, int], Lying]]:
    """Yield the snow on every assembly that brackets carry, in every position."""
    columns = resolved.columns
    keep = columns.in_wind & (columns.cut_away < 1.0)
    outliner = Outliner.of(columns, shapes, keep, WIND_FINENESS)
    said = burdens.said(SNOW)
    for g, group in enumerate(groups):
        for i, row in enumerate(group.members):
            assembly = resolved.assemblies[row]
            if assembly.carried_by == WALL or assembly.key in said:
                continue
            for s in range(len(group.states)):
                seen = outliner.seen(PLAN, [row], group.rotation[s, i]).get(row)
                if seen is not None:
                    yield (g, s, i), _lying(seen, group.origin_m[s, i], burdens.ground_pa)


def _lying(seen: Seen, origin_m: Floats, ground_pa: float) -> Lying:
    """Return the snow on an outline; each copy bears the share of its own outline."""
    shares = seen.areas_m2 / seen.areas_m2.sum()
    level = np.zeros(len(shares))
    middles_m = np.stack([seen.middles_m[:, 0], level, seen.middles_m[:, 1]], axis=-1)
    # The sum bears at the middle of what is covered, each spot counted once.
    off_m = np.array([seen.middle_m[0], 0.0, seen.middle_m[1]]) - shares @ middles_m
    return Lying(
        snow.lying_n(ground_pa, seen.area_m2) * shares,
        origin_m + middles_m + off_m,
        np.stack([seen.halves_m[:, 0], level, seen.halves_m[:, 1]], axis=-1),
    )


def _drawn(
    resolved: Resolved, groups: Sequence[Group], lying: Mapping[tuple[int, int, int], Lying],
    ground_pa: float,
) -> Iterator[Snowed]:  # fmt: skip
    for (g, s, i), snow_on in lying.items():
        if s == 0:
            weight_n = float(snow_on.weight_n.sum())
            plan_m2 = weight_n / float(snow.lying_n(ground_pa, 1.0))
            yield Snowed(resolved.assemblies[groups[g].members[i]].key, plan_m2, weight_n)


def _held(resolved: Resolved, shapes: Shapes, load: ExtraLoad) -> tuple[Held, Floats]:
    """Return the water that the closed shapes of an assembly hold, and its middle (3,)."""
    closed = list(_closed(resolved.columns, shapes, load.assembly))
    rooms_m3 = np.array([one.room_m3 for one in closed])
    total_m3 = float(rooms_m3.sum())
    middle_m = np.zeros(3)
    if total_m3 > 0:
        middle_m = rooms_m3 @ np.array([one.middle_m for one in closed]) / total_m3
    held = Held(
        load.key,
        load.assembly,
        tuple(one.part for one in closed if one.room_m3 > 0),
        tuple(one.part for one in closed if not one.room_m3 > 0),
        total_m3,
        WATER_KG_M3 * total_m3,
    )
    return held, middle_m


def _closed(columns: PartColumns, shapes: Shapes, assembly: str) -> Iterator[_Hollow]:
    """Yield the closed shapes of an assembly that nothing is cut from; bars are not taken so."""
    for form, rows in columns.shape_rows.items():
        inside = None if form in BARS else shapes.measures[form].inside
        if inside is None:
            continue
        for n, row in enumerate(rows):
            part = columns.parts[row]
            if part.assembly == assembly and not columns.cut_away[row] > 0:
                room_m3 = _room(part.layers) * float(inside.size[n]) * part.count
                yield _Hollow(part.key, room_m3, _middle_m(shapes, int(row), inside.middle_m[n]))


def _room(layers: Sequence[Layer]) -> float:
    """Return what share of a closed shape its layers leave empty."""
    return max(1.0 - sum(_share(layer) for layer in layers if layer.over in FILLING), 0.0)


def _share(layer: Layer) -> float:
    """Return what share of a shape a layer fills: all of it, where its density is not known."""
    densities = [s.likely for s in layer.spreads if s.kind is Kind.DENSITY and s.likely > 0]
    if not densities:
        return 1.0
    share = layer.mass_per_size_kg / densities[0]
    return share if share < NEARLY_FULL else 1.0


def _middle_m(shapes: Shapes, row: int, middle_m: Floats) -> Floats:
    """Return the middle of what all copies of a part hold, in its assembly's frame."""
    places = shapes.places
    own = places.part == row
    return np.asarray((places.rotation[own] @ middle_m + places.at_m[own]).mean(axis=0))


def _filled(load: ExtraLoad, held: Held, middle_m: Floats) -> ExtraLoad:
    across_m, up_m, out_m = middle_m.tolist()
    weight_n = held.mass_kg * GRAVITY_M_S2
    return replace(load, force_n=(0.0, -weight_n, 0.0), at_m=(across_m, up_m, out_m))
