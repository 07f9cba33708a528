"""Wind: a pressure for every assembly, and its force in every direction, sense and position."""

import math
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats
from estimator.geometry.silhouettes import view
from estimator.resolve.job import Resolved
from estimator.resolve.records import Assembly
from estimator.resolve.weather import Weather
from estimator.stages.blowing_parts import Stand, blow_parts
from estimator.stages.measuring import Shapes
from estimator.stages.outlining import Outliner, Seen
from estimator.stages.posing import Group
from estimator.wind import coefficients, walls
from estimator.wind.en1991 import HIGHEST_M, site_pressure
from estimator.wind.figures import (
    OFFSET_NAMES,
    crosswind,
    eccentric_points,
    moment_about,
    wind_force,
)
from estimator.wind.records import Coefficient, Step, Vector

DIRECTIONS_DEG = tuple(15.0 * i for i in range(24))
HALF_ROUND = len(DIRECTIONS_DEG) // 2
FRONT, RIGHT, LEFT = (DIRECTIONS_DEG.index(deg) for deg in (0.0, 90.0, 270.0))
"""Numbers of the directions seen from the street, and along the wall."""
SENSES = tuple(name for _, name in walls.SENSES)
WIND_FINENESS = 36
"""Corners of a circle when areas are united: with it an area holds to 0.1 %, in half the time."""
ALONG = "along the wind"
"""The one sense of what stands clear of the wall."""
CASES = tuple(
    (direction, sense, place)
    for direction in DIRECTIONS_DEG
    for sense in SENSES
    for place in OFFSET_NAMES
)
"""Every wind case of the run, in the order of every array of wind forces."""


class Pressure(NamedTuple):
    """The pressure on one assembly, with the way to it."""

    pressure_pa: float
    height_m: float
    why: str
    steps: tuple[Step, ...]


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
        wrench: (s, a, k, 6) force [N] and moment about the datum [Nm] in each of `CASES`.
        at_m: (s, a, 3) middle of the outline in the job's frame.
        half_m: (s, a, 3) half its box.
        spots: (s, a) where along it the wind bears, None for what catches none.
        area_m2: (s, a, d) outline seen in each direction.
    """

    wrench: Floats
    at_m: Floats
    half_m: Floats
    area_m2: Floats
    spots: npt.NDArray[np.object_]


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
    """

    known: bool
    steps: tuple[Step, ...]
    groups: tuple[GroupWind, ...]
    catches: tuple[Catch, ...]
    notes: tuple[str, ...]


def blow(resolved: Resolved, shapes: Shapes, groups: Sequence[Group]) -> Wind:
    """Return the wind on every assembly in every position."""
    known = resolved.weather.known
    catching = [a.wind != "none" for a in resolved.assemblies]
    keep = resolved.columns.in_wind & np.array(catching, dtype=bool)[resolved.columns.assembly]
    outliner = Outliner.of(resolved.columns, shapes, keep & known, WIND_FINENESS)
    desk = _Desk(resolved, shapes, outliner)
    blown = [_blow_group(desk, group) for group in groups]
    catches = [catch for _, found in blown for catch in found]
    reach_m = _reach_m([wind for wind, _ in blown])
    highest = max(catches, key=lambda catch: catch.pressure.pressure_pa, default=None)
    return Wind(
        known=known,
        steps=highest.pressure.steps if highest else (),
        groups=tuple(wind for wind, _ in blown),
        catches=tuple(catches),
        notes=(*_notes(resolved, reach_m), *_odd_heights(resolved, catches)),
    )


def _odd_heights(resolved: Resolved, catches: Sequence[Catch]) -> Iterator[str]:
    """Return a sentence for each thing that lies outside the heights the rule is written for."""
    for catch in catches:
        if catch.pressure.height_m in (0.0, HIGHEST_M):
            yield (
                f"{catch.assembly} lies at or below the ground, or above {HIGHEST_M:g} m, by the "
                f"datum height of {resolved.weather.datum_m:g} m: look whether that is right"
            )


def _pressure(weather: Weather, assembly: Assembly, middle_up_m: float) -> Pressure:
    """Return the pressure on an assembly whose middle is so far above the datum."""
    if weather.stated_pa is not None:
        step = Step("stated pressure", "q", weather.stated_pa, "Pa", weather.stated_source,
                    confirmed=bool(weather.stated_source))  # fmt: skip
        return Pressure(weather.stated_pa, math.nan, "as stated on the job sheet", (step,))
    height = walls.reference_height(
        assembly.stands, weather.datum_m + middle_up_m, weather.building_m
    )
    if weather.site is None:
        msg = "a pressure was asked for without a site"
        raise ValueError(msg)
    within_m = min(max(height.height_m, 0.0), HIGHEST_M)
    worked = site_pressure(weather.site, within_m)
    return Pressure(
        worked.pressure_pa * weather.structural_factor, within_m, height.reason, worked.steps
    )


class _Desk(NamedTuple):
    """Everything the wind blows on."""

    resolved: Resolved
    shapes: Shapes
    outliner: Outliner


def _blow_group(desk: _Desk, group: Group) -> tuple[GroupWind, list[Catch]]:
    """Return the wind on one group, and what each of its assemblies catches."""
    states, members = group.rotation.shape[:2]
    wind = GroupWind(
        np.zeros((states, members, len(CASES), 6)), np.zeros((states, members, 3)),
        np.zeros((states, members, 3)), np.zeros((states, members, len(DIRECTIONS_DEG))),
        np.full((states, members), None, dtype=object),
    )  # fmt: skip
    catches: list[Catch] = []
    for s in range(states):
        for turn, columns in _by_turn(group.rotation[s]):
            rows = [group.members[i] for i in columns]
            looks = _Looks.of(desk, rows, turn)
            for i in columns:
                catch = _blow_one(looks, group.members[i], group.origin_m[s, i], wind, (s, i))
                if catch is not None and s == 0:
                    catches.append(catch)
    return wind, catches


def _stands_clear(assembly: Assembly) -> bool:
    """Return whether the wind goes round an assembly, instead of pressing it to a wall."""
    return not walls.STANDINGS[assembly.stands].both_senses


def _by_turn(rotation: Floats) -> list[tuple[Floats, list[int]]]:
    """Return the members of a group by how their frames are turned."""
    kinds, which = np.unique(np.round(rotation, 12).reshape(len(rotation), 9), axis=0,
                             return_inverse=True)  # fmt: skip
    return [
        (kind.reshape(3, 3), np.flatnonzero(which.ravel() == k).tolist())
        for k, kind in enumerate(kinds)
    ]


@dataclass(frozen=True, slots=True)
class _Looks:
    """What some assemblies cover from every side; from behind is a mirror.

    Attributes:
        desk: Everything the wind blows on.
        turn: How the frames of the assemblies are turned.
        seen: What each covers from one half of the directions, by its row. What stands at a wall
            is only seen from the front and the side.
    """

    desk: _Desk
    turn: Floats
    seen: Sequence[Mapping[int, Seen]]

    @classmethod
    def of(cls, desk: _Desk, rows: list[int], turn: Floats) -> "_Looks":
        """Return what assemblies cover, the directions drawn side by side."""
        clear = [row for row in rows if _stands_clear(desk.resolved.assemblies[row])]

        def drawn(half: int) -> Mapping[int, Seen]:
            wanted = rows if half in (FRONT, RIGHT) else clear
            projection = view(math.radians(DIRECTIONS_DEG[half]))
            return desk.outliner.seen(projection, wanted, turn) if wanted else {}

        # Uniting outlines is most of the work of a long list, and leaves Python free meanwhile.
        with ThreadPoolExecutor() as pool:
            return cls(desk, turn, list(pool.map(drawn, range(HALF_ROUND))))

    def at(self, number: int, row: int) -> Seen | None:
        """Return what one assembly covers seen from one of `DIRECTIONS_DEG`; None for nothing."""
        seen = self.seen[number % HALF_ROUND].get(row)
        return seen.from_behind() if seen and number >= HALF_ROUND else seen


def _blow_one(
    looks: _Looks, row: int, origin_m: Floats, wind: GroupWind, at: tuple[int, int]
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
    pressure = _pressure(looks.desk.resolved.weather, assembly, float(middle_m[1]))
    wind.at_m[at] = middle_m
    wind.half_m[at] = _half_box(front, side)
    wind.spots[at] = _spots(front, wind.half_m[at])
    if not _stands_clear(assembly):
        coefficient = _blow_on_wall(assembly, (front, side), middle_m, pressure, wind, at)
    elif added_up(assembly):
        stand = Stand(row, looks.turn, origin_m, pressure.pressure_pa)
        coefficient = _blow_one_by_one(assembly, looks, stand, wind, at)
    else:
        coefficient = _blow_clear(assembly, row, looks, (origin_m, pressure), wind, at)
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


def _area_m2(assembly: Assembly, seen: Seen | None) -> float:
    """Return the area that counts: each spot once, or the parts added up."""
    if seen is None:
        return 0.0
    return seen.summed_m2 if assembly.wind == "parts" else seen.area_m2


def _blow_on_wall(
    assembly: Assembly, views: tuple[Seen | None, Seen | None], middle_m: Floats,
    pressure: Pressure, wind: GroupWind, at: tuple[int, int],
) -> Coefficient:  # fmt: skip
    """Fill in the wind on what hangs against a wall: both senses, and along it."""
    front, side = views
    normal = walls.assumed_on_wall()
    if not math.isnan(assembly.coefficient):
        normal = coefficients.entered(assembly.coefficient, assembly.coefficient_source)
    width_m = float(front.high_m[0] - front.low_m[0]) if front else 0.0
    place: Vector = (float(middle_m[0]), float(middle_m[1]), float(middle_m[2]))
    face = walls.Face(_area_m2(assembly, front), width_m, _area_m2(assembly, side), place)
    reached = [i for i, d in enumerate(DIRECTIONS_DEG) if walls.reaches(assembly.stands, d)]
    directions_rad = np.deg2rad(np.array(DIRECTIONS_DEG)[reached])
    force_n = walls.wall_forces(
        face, pressure.pressure_pa, normal.value, walls.assumed_along_wall().value, directions_rad
    )
    points_m = eccentric_points(middle_m, width_m, 0.0)
    forces_n = np.broadcast_to(force_n[:, :, None, :], (len(reached), 2, len(points_m), 3))
    moments_nm = moment_about(np.zeros(3), points_m, forces_n)
    cases = wind.wrench[at].reshape(len(DIRECTIONS_DEG), -1, 6)
    cases[reached] = np.concatenate([forces_n, moments_nm], axis=-1).reshape(len(reached), -1, 6)
    wind.area_m2[at][reached] = face.front_area_m2
    return normal


def _blow_clear(
    assembly: Assembly, row: int, looks: _Looks, where: tuple[Floats, Pressure],
    wind: GroupWind, at: tuple[int, int],
) -> Coefficient:  # fmt: skip
    """Fill in the wind on what stands clear: along the wind, on the outline it meets."""
    origin_m, pressure = where
    drag = coefficients.figure(hollows=True)
    if not math.isnan(assembly.coefficient):
        drag = coefficients.entered(assembly.coefficient, assembly.coefficient_source)
    reached = [i for i, d in enumerate(DIRECTIONS_DEG) if walls.reaches(assembly.stands, d)]
    looked = {i: one for i in reached if (one := looks.at(i, row)) is not None}
    seen, at_rows = list(looked.values()), list(looked)
    directions_rad = np.deg2rad(np.array(DIRECTIONS_DEG)[at_rows])
    area_m2 = np.array([_area_m2(assembly, one) for one in seen])
    level_m, up_m = np.array([one.middle_m for one in seen]).reshape(-1, 2).T
    width_m = np.array([one.high_m[0] - one.low_m[0] for one in seen])
    middle_m = origin_m + level_m[:, None] * crosswind(directions_rad)
    middle_m[:, 1] += up_m
    points_m = eccentric_points(middle_m, width_m, directions_rad)
    force_n = wind_force(pressure.pressure_pa, drag.value, area_m2, directions_rad)
    forces_n = np.broadcast_to(force_n[:, None], points_m.shape)
    moments_nm = moment_about(np.zeros(3), points_m, forces_n)
    cases = wind.wrench[at].reshape(len(DIRECTIONS_DEG), len(SENSES), len(OFFSET_NAMES), 6)
    cases[at_rows] = np.concatenate([forces_n, moments_nm], axis=-1)[:, None]
    wind.area_m2[at][at_rows] = area_m2
    return drag


def _blow_one_by_one(
    assembly: Assembly, looks: _Looks, stand: Stand, wind: GroupWind, at: tuple[int, int]
) -> Coefficient:
    """Fill in the wind on what stands clear, each part by its own rule; no eccentric case."""
    reached = [i for i, d in enumerate(DIRECTIONS_DEG) if walls.reaches(assembly.stands, d)]
    directions_rad = np.deg2rad(np.array(DIRECTIONS_DEG)[reached])
    blown = blow_parts(*looks.desk, stand, directions_rad)
    cases = wind.wrench[at].reshape(len(DIRECTIONS_DEG), -1, 6)
    cases[reached] = blown.wrench[:, None, :]
    wind.area_m2[at][reached] = blown.area_m2
    largest_n = np.linalg.norm(blown.wrench[:, :3], axis=-1)
    worst = int(np.argmax(largest_n))
    mean = float(largest_n[worst] / (stand.pressure_pa * max(blown.area_m2[worst], 1e-12)))
    return Coefficient(
        mean,
        "each part by the rule for its shape; this is their mean in the worst direction",
        "EN 1991-1-4:2005, 7.6, 7.7, 7.9, 7.10 and 7.13 as each part's shape asks",
        confirmed=False,
    )


def added_up(assembly: Assembly) -> bool:
    """Return whether each part of an assembly is blown by the rule for its own shape."""
    alone = assembly.wind == "parts" and math.isnan(assembly.coefficient)
    return alone and _stands_clear(assembly)


def _why(assembly: Assembly) -> str:
    how = {
        "outline": "united outline of its parts, each spot counted once",
        "parts": "parts added up one by one",
    }[assembly.wind]
    where = "pushed along the wind, on the outline it meets in each direction"
    if not _stands_clear(assembly):
        where = "pressed to the wall and pulled off it, with drag along the wall"
    elif added_up(assembly):
        where = (
            "plates along their own normal, bars square to their length, the rest along the wind"
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


def _notes(resolved: Resolved, reach_m: tuple[float, float]) -> tuple[str, ...]:
    """Return the sentences to read with every wind number of the job."""
    facts, weather = resolved.facts, resolved.weather
    if not weather.known:
        return ("No wind figures: see what has not been told.",)

    def stated(item: str) -> float | None:
        return facts.number(item) if facts.has(item) else None

    def less(distance_m: float | None, reach: float) -> float | None:
        return None if distance_m is None else distance_m - reach

    notes = list(
        walls.edge_notes(
            less(stated("datum_to_nearest_corner"), reach_m[0]),
            less(stated("datum_to_top_of_wall"), reach_m[1]),
            weather.building_m,
        )
    )
    notes.append(
        "Assemblies that stand before one another are each given the full wind: shelter "
        "is not taken"
    )
    if resolved.brackets:
        notes.append("Wind on the brackets' own arms and plates is left out")
    if weather.stated_pa is None:
        notes.append(
            "EN 1991-1-4 gives no coefficient for an irregular figure or for what hangs "
            "against a wall: what is assumed is named beside each"
        )
    if facts.number("ice_thickness") > 0 or facts.number("snow_load") > 0:
        notes.append("Ice and snow on the job sheet are not worked out yet, but for ice on a hand")
    return tuple(notes)
