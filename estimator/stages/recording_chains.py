"""Recording the way to each wind load: the pressure, the outline, where it acts, part by part."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any, NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats
from estimator.resolve.job import Resolved
from estimator.stages.blowing import GroupWind, Wind, counted_m2, extent_of
from estimator.stages.blowing_looks import FRONT, LEFT, Looks, added_up, stands_clear
from estimator.stages.blowing_parts import Stand, blow_parts, gather
from estimator.stages.blowing_rules import SENSES, Pressure, rule_of
from estimator.stages.measuring import Shapes
from estimator.stages.outlining import Seen
from estimator.stages.posing import Group
from estimator.wind import asce7, en1991
from estimator.wind.figures import crosswind
from estimator.wind.records import Coefficient, Step

MOST_OUTLINES = 6000
"""Of more outlines only those of the governing direction of each assembly are recorded."""
MOST_PARTS = 250
"""Of more parts that are added up the force is recorded from the worst side only."""


class _Stood(NamedTuple):
    """One assembly in one position.

    Attributes:
        row: Of the assembly.
        label: Of the position.
        origin_m: Of its frame.
        blown: Wind on its group.
        at: Where in the arrays of that it is.
        directions_deg: The sides that were looked at.
    """

    row: int
    label: str
    origin_m: Floats
    blown: GroupWind
    at: tuple[int, int]
    directions_deg: tuple[float, ...]

    @property
    def looks(self) -> Looks:
        """Return what it covers from every side."""
        looks: Looks = self.blown.found[self.at][0]
        return looks

    @property
    def pressure(self) -> Pressure:
        """Return the pressure on it."""
        pressure: Pressure = self.blown.found[self.at][1].pressure
        return pressure

    @property
    def force_n(self) -> Floats:
        """Return the force in every case, (d, sense, place, 3)."""
        cases_n: Floats = self.blown.wrench[self.at][:, :3]
        return cases_n.reshape(len(self.directions_deg), len(SENSES), -1, 3)

    @property
    def largest_n(self) -> Floats:
        """Return the largest force in each direction, (d,)."""
        size_n: Floats = np.linalg.norm(self.force_n, axis=-1)
        return np.asarray(size_n.max(axis=(1, 2)))


def chain_records(
    resolved: Resolved, shapes: Shapes, groups: Sequence[Group], wind: Wind
) -> dict[str, Any]:
    """Return the keys of the wind that tell how each load came about."""
    stood = list(_stood(groups, wind))
    pressures: dict[Pressure, int] = {}
    for one in stood:
        pressures.setdefault(one.pressure, len(pressures))
    every = sum(len(one.directions_deg) for one in stood) <= MOST_OUTLINES
    return {
        "pressures": [_pressure(resolved, pressure) for pressure in pressures],
        "chains": [
            _chain(resolved, one, every=every) | {"pressure": pressures[one.pressure]}
            for one in stood
        ],
        "shown": [_shown(resolved, shapes, one) for one in _governing(stood)],
    }


def _stood(groups: Sequence[Group], wind: Wind) -> Iterator[_Stood]:
    directions_deg = tuple(dict.fromkeys(case.direction_deg for case in wind.cases))
    for group, blown in zip(groups, wind.groups, strict=True):
        for s, state in enumerate(group.states):
            for i, row in enumerate(group.members):
                if blown.found[s, i] is not None:
                    origin_m = group.origin_m[s, i]
                    yield _Stood(row, state.label, origin_m, blown, (s, i), directions_deg)


def _governing(stood: Sequence[_Stood]) -> Iterable[_Stood]:
    """Return each assembly in the position in which its force is largest."""
    worst: dict[int, _Stood] = {}
    for one in stood:
        known = worst.setdefault(one.row, one)
        if one.largest_n.max() > known.largest_n.max():
            worst[one.row] = one
    return worst.values()


def _pressure(resolved: Resolved, pressure: Pressure) -> dict[str, Any]:
    """Return a pressure, with what stands between it and the coefficient as its last steps."""
    steps = [*pressure.steps]
    if isinstance(resolved.weather.site, en1991.Site):
        factor = resolved.weather.structural_factor
        steps += [
            Step("structural factor", "c_s c_d", factor, "", "6.2(1)", confirmed=False),
            Step("pressure on the coefficient", "q_p c_s c_d", pressure.pressure_pa, "Pa",
                 "5.3(2), (5.3)", confirmed=True),
        ]  # fmt: skip
    return {
        "height_m": None if math.isnan(pressure.height_m) else pressure.height_m,
        "why": pressure.why,
        "pressure_pa": pressure.pressure_pa,
        "steps": [step._asdict() for step in steps],
    }


def _chain(resolved: Resolved, one: _Stood, *, every: bool) -> dict[str, Any]:
    assembly = resolved.assemblies[one.row]
    on_wall = not stands_clear(assembly)
    front, side = one.looks.at(FRONT, one.row), one.looks.at(LEFT, one.row)
    numbers = np.flatnonzero(one.largest_n) if every else [int(np.argmax(one.largest_n))]
    outlines = (
        _outline(resolved, one, int(number), (front or side) if on_wall else None)
        for number in numbers
    )
    return {
        "assembly": assembly.key,
        "position": one.label,
        "stands": assembly.stands,
        "way": "wall" if on_wall else "parts" if added_up(assembly) else "outline",
        "along": _coefficient(resolved.weather.along.drag) if on_wall else None,
        "friction": resolved.weather.along.friction if on_wall else None,
        "front_m2": counted_m2(assembly, front),
        "side_m2": counted_m2(assembly, side),
        "off_middle": _off_middle(resolved),
        "outlines": [outline for outline in outlines if outline],
    }


def _outline(
    resolved: Resolved, one: _Stood, number: int, at_wall: Seen | None
) -> dict[str, Any] | None:
    """Return the outline that one direction meets: at a wall that from the street, for all."""
    assembly, direction_deg = resolved.assemblies[one.row], one.directions_deg[number]
    seen = at_wall or one.looks.at(direction_deg, one.row)
    if seen is None:
        return None
    extent = extent_of(assembly, seen, one.origin_m)
    level_m, up_m = seen.middle_m.tolist()
    middle_m = one.origin_m + level_m * crosswind(math.radians(direction_deg)) + [0.0, up_m, 0.0]
    return {
        "direction_deg": direction_deg,
        "width_m": extent.width_m,
        "height_m": extent.height_m,
        "area_m2": seen.area_m2,
        "summed_area_m2": seen.summed_m2,
        "filled_area_m2": seen.filled_m2,
        "middle_m": (one.blown.at_m[one.at] if at_wall else middle_m).tolist(),
        "share": one.pressure.shares[number],
    }


def _off_middle(resolved: Resolved) -> str:
    if isinstance(resolved.weather.site, asce7.Site):
        return "ASCE 7 Figure 29.3-1, cases B and C"
    return "EN 1991-1-4 7.4.3(3), and for what is no board an assumption"


def _coefficient(found: Coefficient) -> dict[str, Any]:
    return {
        "value": found.value,
        "rule": found.rule,
        "source": found.source,
        "confirmed": found.confirmed,
        "others": [list(other) for other in found.others],
    }


def _shown(resolved: Resolved, shapes: Shapes, one: _Stood) -> dict[str, Any]:
    """Return what each part shows by itself in the direction of the largest force.

    Where parts are added up one by one, with the force on each from every side.
    """
    assembly, worst = resolved.assemblies[one.row], int(np.argmax(one.largest_n))
    direction_deg = one.directions_deg[worst]
    seen = one.looks.at(direction_deg if stands_clear(assembly) else FRONT, one.row)
    areas_m2: dict[int, float] = {}
    for part, area_m2 in zip(seen.parts.tolist(), seen.areas_m2, strict=True) if seen else ():
        areas_m2[part] = areas_m2.get(part, 0.0) + float(area_m2)
    keys = [part.key for part in resolved.columns.parts]
    record: dict[str, Any] = {
        "assembly": assembly.key,
        "position": one.label,
        "direction_deg": direction_deg,
        "areas": [{"part": keys[i], "area_m2": area_m2} for i, area_m2 in areas_m2.items()],
    }
    if not added_up(assembly):
        return record | {"forces": []}
    numbers = np.flatnonzero(one.largest_n) if len(areas_m2) <= MOST_PARTS else np.array([worst])
    rows = np.flatnonzero(resolved.columns.assembly == one.row).tolist()
    return record | {
        "forces": [
            {"part": keys[i], "from_n": _alone(resolved, shapes, one, (i, numbers))} for i in rows
        ]
    }


def _alone(
    resolved: Resolved, shapes: Shapes, one: _Stood, which: tuple[int, npt.NDArray[np.intp]]
) -> list[list[float]]:
    """Return the force on one part of an assembly whose parts are added up, by direction."""
    part, numbers = which
    only = np.zeros(len(resolved.columns.parts), dtype=bool)
    only[part] = resolved.columns.in_wind[part]
    turned, rule = [one.directions_deg[i] for i in numbers], rule_of(resolved.weather)
    stand = Stand(
        one.row,
        one.looks.turn,
        one.origin_m,
        one.pressure.pressure_pa,
        np.zeros(1),
        resolved.weather.datum_m,
        np.array(one.pressure.shares)[numbers],
        # The least pressure is for the whole, not for each part.
        lambda size_n, _area_m2: np.ones_like(size_n),
    )
    book = rule.book(resolved.weather)
    alone = gather(replace(resolved.columns, in_wind=only), shapes, one.row, book)
    seen = [one.looks.at(direction_deg, one.row) for direction_deg in turned]
    found = blow_parts(alone, seen, stand, np.deg2rad(turned))
    return [
        [deg, *map(float, row)] for deg, row in zip(turned, found.wrench[:, 0, :3], strict=True)
    ]
