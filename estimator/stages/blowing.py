"""Wind: a pressure for every assembly, and its force in every direction, sense and position."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats
from estimator.resolve.job import Resolved
from estimator.resolve.records import Assembly
from estimator.resolve.weather import Weather
from estimator.stages.blowing_looks import (
    FRONT,
    LEFT,
    Desk,
    Looks,
    added_up,
    looks_of,
    stands_clear,
)
from estimator.stages.blowing_notes import notes_on
from estimator.stages.blowing_parts import Stand, blow_parts, gather, outlines_said
from estimator.stages.blowing_rules import (
    CASES,
    SENSES,
    Case,
    Extent,
    Pressure,
    cases_at,
    rule_of,
)
from estimator.stages.measuring import Shapes
from estimator.stages.outlining import Outliner, Seen
from estimator.stages.posing import Group
from estimator.wind import walls
from estimator.wind.figures import crosswind, moment_about, wind_force
from estimator.wind.records import Coefficient, Step

WIND_FINENESS = 36
"""Corners of a circle when areas are united: with it areas and widths hold to 0.25 %."""
ALONG = "along the wind"
"""The one sense of what stands clear of the wall."""


class Catch(NamedTuple):
    """What one assembly catches of the wind, for the record.

    Attributes:
        assembly: Its name.
        pressure: On it.
        coefficient: On its outline face-on.
        seen: Its outline from the street, or from the side that shows most.
        why: How it was worked out.
    """

    assembly: str
    pressure: Pressure
    coefficient: Coefficient
    seen: Seen
    why: str


@dataclass(frozen=True, slots=True)
class GroupWind:
    """Wind on the assemblies of one group.

    Attributes:
        wrench: (s, a, k, 6) force [N] and moment about the datum [Nm] in each case.
        coefficient: (s, a, k) on the outline in each case.
        at_m: (s, a, 3) middle of the outline in the job's frame.
        points_m: (s, a, d, p, 3) where the force acts in each direction and place; NaN where it is
            the sum of many.
        half_m: (s, a, 3) half its box.
        spots: (s, a) where along it the wind bears, None for what catches none.
        found: (s, a) its `Looks` and its `Catch`, for print; None for what catches none.
        area_m2: (s, a, d) outline seen in each direction.
    """

    wrench: Floats
    coefficient: Floats
    at_m: Floats
    points_m: Floats
    half_m: Floats
    area_m2: Floats
    spots: npt.NDArray[np.object_]
    found: npt.NDArray[np.object_]


class Spots(NamedTuple):
    """Where on an assembly the wind bears: by the outlines of its copies seen from the street.

    Attributes:
        share: (n,) of its force, one in all.
        middle_m: (n, 3) from the origin of its frame as it is turned.
        half_m: (n, 3) half the box of each.
    """

    share: Floats
    middle_m: Floats
    half_m: Floats


@dataclass(frozen=True, slots=True)
class Wind:
    """The wind on everything.

    Attributes:
        known: Whether there is a pressure at all.
        steps: Way to the pressure that most assemblies have.
        groups: In the order of the posed groups.
        catches: One for each assembly that catches wind, in its first position.
        notes: Sentences to be read with the numbers.
        cases: Every wind case, in the order of every array of wind forces.
    """

    known: bool
    steps: tuple[Step, ...]
    groups: tuple[GroupWind, ...]
    catches: tuple[Catch, ...]
    notes: tuple[str, ...]
    cases: tuple[Case, ...] = CASES


def blow(resolved: Resolved, shapes: Shapes, groups: Sequence[Group]) -> Wind:
    """Return the wind on every assembly in every position."""
    known = resolved.weather.known
    catching = [a.wind != "none" for a in resolved.assemblies]
    keep = resolved.columns.in_wind & np.array(catching, dtype=bool)[resolved.columns.assembly]
    outliner = Outliner.of(resolved.columns, shapes, keep & known, WIND_FINENESS)
    gathered = {
        row: gather(resolved.columns, shapes, row, rule_of(resolved.weather).book(resolved.weather))
        for row, assembly in enumerate(resolved.assemblies)
        if known and added_up(assembly)
    }
    desk = Desk(resolved, shapes, outliner, gathered)
    blown = [
        _blow_group(desk, group, looks)
        for group, looks in zip(groups, looks_of(desk, groups), strict=True)
    ]
    catches = [catch for _, found in blown for catch in found]
    reach_m = _reach_m([wind for wind, _ in blown])
    highest = max(catches, key=lambda catch: catch.pressure.pressure_pa, default=None)
    return Wind(
        known=known,
        steps=highest.pressure.steps if highest else (),
        groups=tuple(wind for wind, _ in blown),
        catches=tuple(catches),
        notes=notes_on(resolved, reach_m, {c.assembly: c.pressure.height_m for c in catches}),
        cases=cases_at(rule_of(resolved.weather).places, resolved.weather.sides.directions_deg),
    )


def _blow_group(
    desk: Desk, group: Group, looks: Sequence[Sequence[Looks]]
) -> tuple[GroupWind, list[Catch]]:
    """Return the wind on one group, and what each of its assemblies catches."""
    states, members = group.rotation.shape[:2]
    places = len(rule_of(desk.resolved.weather).places)
    directions = len(desk.resolved.weather.sides.directions_deg)
    cases = directions * len(SENSES) * places
    wind = GroupWind(
        np.zeros((states, members, cases, 6)), np.zeros((states, members, cases)),
        np.zeros((states, members, 3)),
        np.full((states, members, directions, places, 3), np.nan),
        np.zeros((states, members, 3)),
        np.zeros((states, members, directions)),
        np.full((states, members), None, dtype=object),
        np.full((states, members), None, dtype=object),
    )  # fmt: skip
    catches: list[Catch] = []
    for s in range(states):
        for i, row in enumerate(group.members):
            catch = _blow_one(looks[s][i], row, group.origin_m[s, i], wind, (s, i))
            if catch is None:
                continue
            wind.found[s, i] = (looks[s][i], catch)
            if s == 0:
                catches.append(catch)
    return wind, catches


def _blow_one(
    looks: Looks, row: int, origin_m: Floats, wind: GroupWind, at: tuple[int, int]
) -> Catch | None:
    """Fill in the wind on one assembly in one position; return what it catches."""
    assembly = looks.desk.resolved.assemblies[row]
    if assembly.wind == "none":
        return None
    front, side = looks.at(FRONT, row), looks.at(LEFT, row)
    shown = front or side
    if shown is None:
        return None
    out_m = side.middle_m[0] if side else 0.0
    middle_m = origin_m + np.array([front.middle_m[0] if front else 0.0, shown.middle_m[1], out_m])
    weather = looks.desk.resolved.weather
    extent = extent_of(assembly, shown, origin_m)
    pressure = rule_of(weather).pressure(weather, assembly, extent)
    wind.at_m[at] = middle_m
    wind.half_m[at] = _half_box(front, side)
    wind.spots[at] = _spots(front, wind.half_m[at])
    if not stands_clear(assembly):
        coefficient = _blow_on_wall(looks, row, (middle_m, extent, pressure), wind, at)
    elif added_up(assembly):
        coefficient = _blow_one_by_one(looks, row, (origin_m, pressure), wind, at)
    else:
        coefficient = _blow_clear(looks, row, (origin_m, extent, pressure), wind, at)
    return Catch(assembly.key, pressure, coefficient, shown, _why(assembly))


def _spots(seen: Seen | None, half_m: Floats) -> Spots:
    """Return where the wind bears; evenly over its box on what is edge-on to the street."""
    if seen is None:
        return Spots(np.ones(1), np.zeros((1, 3)), half_m[None])
    level = np.zeros((len(seen.areas_m2), 1))
    return Spots(
        seen.areas_m2 / seen.areas_m2.sum(),
        np.concatenate((seen.middles_m, level), axis=1),
        np.concatenate((seen.halves_m, level), axis=1),
    )


def _half_box(front: Seen | None, side: Seen | None) -> Floats:
    half_m = np.zeros(3)
    if front:
        half_m[:2] = (front.high_m - front.low_m) / 2
    if side:
        half_m[2] = (side.high_m[0] - side.low_m[0]) / 2
        half_m[1] = max(half_m[1], (side.high_m[1] - side.low_m[1]) / 2)
    return half_m


def counted_m2(assembly: Assembly, seen: Seen | None) -> float:
    """Return the area that counts: each spot once, or the parts added up."""
    if seen is None:
        return 0.0
    return seen.summed_m2 if assembly.wind == "parts" else seen.area_m2


def extent_of(assembly: Assembly, seen: Seen, origin_m: Floats) -> Extent:
    """Return what an assembly shows from one side."""
    up_m = float(origin_m[1])
    width_m, height_m = (seen.high_m - seen.low_m).tolist()
    return Extent(
        width_m, height_m, up_m + float(seen.high_m[1]), up_m + float(seen.middle_m[1]),
        counted_m2(assembly, seen), seen.filled_m2,
        float(np.max(np.abs(origin_m[0] + np.array([seen.low_m[0], seen.high_m[0]])))),
    )  # fmt: skip


def _blow_on_wall(
    looks: Looks, row: int, where: tuple[Floats, Extent, Pressure], wind: GroupWind,
    at: tuple[int, int],
) -> Coefficient:  # fmt: skip
    """Fill in the wind on what hangs against a wall: both senses, and along it."""
    assembly, weather = looks.desk.resolved.assemblies[row], looks.desk.resolved.weather
    middle_m, extent, pressure = where
    front, side = looks.at(FRONT, row), looks.at(LEFT, row)
    normal, placed = rule_of(weather).on_wall(weather, assembly, extent, pressure)
    face = walls.Face(counted_m2(assembly, front), counted_m2(assembly, side))
    reached, directions_rad = _reached(assembly, weather)
    force_n = (
        walls.wall_forces(
            face,
            pressure.pressure_pa,
            normal.value,
            weather.along,
            directions_rad,
        )
        * np.array(pressure.shares)[reached, None, None]
    )
    points_m = _points_m(middle_m[np.newaxis], np.array([placed]), np.zeros(1))[0]
    forces_n = np.broadcast_to(force_n[:, :, None, :], (len(reached), 2, len(points_m), 3))
    _fill(wind, at, reached, (forces_n, points_m))
    wind.coefficient[at] = normal.value
    wind.area_m2[at][reached] = face.front_area_m2
    return normal


def _reached(assembly: Assembly, weather: Weather) -> tuple[list[int], Floats]:
    """Return which directions reach an assembly: their numbers, and angles in radians."""
    sides_deg = weather.sides.directions_deg
    reached = [i for i, d in enumerate(sides_deg) if walls.reaches(assembly.stands, d)]
    return reached, np.deg2rad(np.array(sides_deg)[reached])


def _points_m(middle_m: Floats, placed: Floats, directions_rad: Floats) -> Floats:
    """Return where the force acts in each direction and place, (d, k, 3).

    Args:
        middle_m: (d, 3) middle of the outline.
        placed: (d, k, 3) records of `Placed`.
        directions_rad: (d,).
    """
    right = placed[..., 1, None] * crosswind(directions_rad)[:, None]
    points_m: Floats = middle_m[:, None] + right + placed[..., 2, None] * np.array([0.0, 1.0, 0.0])
    return points_m


def _fill(
    wind: GroupWind, at: tuple[int, int], reached: Sequence[int], acting: tuple[Floats, Floats]
) -> None:
    """Write the wrench of forces and where they act, in the directions that reach a thing."""
    forces_n, points_m = acting
    moments_nm = moment_about(np.zeros(3), points_m, forces_n)
    wrench = np.concatenate([forces_n, moments_nm], axis=-1)
    cases = wind.wrench[at].reshape(wind.area_m2.shape[-1], len(SENSES), -1, 6)
    cases[reached] = wrench
    # Alike in every direction at a wall; otherwise both senses act in the same place.
    wind.points_m[at][reached] = points_m.reshape(-1, *points_m.shape[-2:])


def _blow_clear(
    looks: Looks, row: int, where: tuple[Floats, Extent, Pressure], wind: GroupWind,
    at: tuple[int, int],
) -> Coefficient:  # fmt: skip
    """Fill in the wind on what stands clear: along the wind, on the outline it meets."""
    assembly, weather = looks.desk.resolved.assemblies[row], looks.desk.resolved.weather
    origin_m, extent, pressure = where
    clear = rule_of(weather).clear
    sides = weather.sides
    reached, _ = _reached(assembly, weather)
    looked = {
        i: one for i in reached if (one := looks.at(sides.directions_deg[i], row)) is not None
    }
    seen, at_rows = list(looked.values()), list(looked)
    extents = [extent_of(assembly, one, origin_m) for one in seen]
    placed = np.array([clear(weather, assembly, one, pressure)[1] for one in extents])
    directions_rad = np.deg2rad(np.array(sides.directions_deg)[at_rows])
    area_m2 = np.array([one.area_m2 for one in extents])
    level_m, up_m = np.array([one.middle_m for one in seen]).reshape(-1, 2).T
    middle_m = origin_m + level_m[:, None] * crosswind(directions_rad)
    middle_m[:, 1] += up_m
    pressure_pa = pressure.pressure_pa * np.array(pressure.shares)[at_rows, None]
    force_n = wind_force(pressure_pa, placed[..., 0], area_m2[:, None], directions_rad[:, None])
    points_m = _points_m(middle_m, placed, directions_rad)
    _fill(wind, at, at_rows, (force_n[:, None], points_m[:, None]))
    coefficients = wind.coefficient[at].reshape(len(sides.shares), len(SENSES), -1)
    coefficients[at_rows] = placed[:, None, :, 0]
    wind.area_m2[at][at_rows] = area_m2
    return clear(weather, assembly, extent, pressure)[0]


def _blow_one_by_one(
    looks: Looks, row: int, where: tuple[Floats, Pressure], wind: GroupWind, at: tuple[int, int]
) -> Coefficient:
    """Fill in the wind on what stands clear, each part by its own rule."""
    (origin_m, pressure), desk = where, looks.desk
    weather, rule = desk.resolved.weather, rule_of(desk.resolved.weather)
    reached, directions_rad = _reached(desk.resolved.assemblies[row], weather)
    stand = Stand(
        row, looks.turn, origin_m, pressure.pressure_pa, np.array(rule.offsets), weather.datum_m,
        np.array(pressure.shares)[reached], rule.raise_to,
    )  # fmt: skip
    seen = [looks.at(weather.sides.directions_deg[i], row) for i in reached]
    blown = blow_parts(desk.gathered[row], seen, stand, directions_rad)
    cases = wind.wrench[at].reshape(len(pressure.shares), len(SENSES), -1, 6)
    cases[reached] = blown.wrench[:, None]
    wind.area_m2[at][reached] = blown.area_m2
    largest_n = np.linalg.norm(blown.wrench[:, 0, :3], axis=-1)
    worst = int(np.argmax(largest_n))
    acting_pa = stand.pressure_pa * max(float(stand.shares[worst]), 1e-12)
    mean = float(largest_n[worst] / (acting_pa * max(blown.area_m2[worst], 1e-12)))
    wind.coefficient[at] = mean
    return Coefficient(
        mean,
        "each part by the rule for its shape; this is their mean in the worst direction"
        + outlines_said(desk.resolved.columns, row) + _raised_said(blown.raised),
        rule.shape_source,
        confirmed=False,
    )  # fmt: skip


def _raised_said(raised: Floats) -> str:
    """Return from how many sides the least pressure of the rule was taken; blank for none."""
    sides = int(np.count_nonzero(raised > 1.0))
    if not sides:
        return ""
    return (
        f"; from {sides} of {len(raised)} sides raised to the least pressure of 0.77 kN/m2 (16 psf)"
        " on what its parts show"
    )


def _why(assembly: Assembly) -> str:
    how = {
        "outline": "united outline of its parts, each spot counted once",
        "parts": "parts added up one by one",
    }[assembly.wind]
    where = "pushed along the wind, on the outline it meets in each direction"
    if not stands_clear(assembly):
        where = "pressed to the wall and pulled off it, with drag along the wall"
    elif added_up(assembly):
        where = (
            "plates along their own normal, bars square to their length, the rest along the wind; "
            "boards and figures off their middle as well, all to one side"
        )
    return f"{assembly.stands}: {how}; {where}"


def _reach_m(blown: Sequence[GroupWind]) -> tuple[float, float]:
    """Return how far anything in the wind reaches to either side of the datum, and upwards."""
    sides, tops = [0.0], [0.0]
    for wind in blown:
        caught = np.array([one is not None for one in wind.spots.ravel()], dtype=bool)
        caught = caught.reshape(wind.spots.shape)
        sides += (np.abs(wind.at_m[..., 0]) + wind.half_m[..., 0])[caught].tolist()
        tops += (wind.at_m[..., 1] + wind.half_m[..., 1])[caught].tolist()
    return max(sides), max(tops)
