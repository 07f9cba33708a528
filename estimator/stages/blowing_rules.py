"""How each wind rule is worked out: where it reads the pressure, its coefficients, its cases."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, NamedTuple

import numpy as np

from estimator.geometry.measures import Floats
from estimator.resolve.records import Assembly
from estimator.resolve.sides import DIRECTIONS_DEG
from estimator.resolve.weather import STATED, Weather
from estimator.stages.blowing_looks import added_up
from estimator.stages.blowing_parts import Raising
from estimator.wind import (
    asce7,
    asce7_shapes,
    asce7_signs,
    asce7_walls,
    coefficients,
    en1991,
    walls,
)
from estimator.wind.boards import ECCENTRICITY, cautious_board
from estimator.wind.en1991 import HIGHEST_M
from estimator.wind.figures import OFFSET_NAMES, OFFSETS, eccentric_cases
from estimator.wind.records import Coefficient, Placed, SitePressure, Step
from estimator.wind.shapes import EUROCODE, Book

SENSES = tuple(name for _, name in walls.SENSES)


class Case(NamedTuple):
    """A wind case: the side the wind comes from, the sense of the force, and where it acts."""

    direction_deg: float
    sense: str
    place: str


def cases_at(
    places: tuple[str, ...], directions_deg: tuple[float, ...] = DIRECTIONS_DEG
) -> tuple[Case, ...]:
    """Return every case of a run, in the order of every array of wind forces."""
    return tuple(
        Case(direction, sense, place)
        for direction in directions_deg
        for sense in SENSES
        for place in places
    )


CASES = cases_at(OFFSET_NAMES)
"""The cases of EN 1991-1-4, from the usual directions."""


def _eurocode(_weather: Weather) -> Book:
    """Return what parts go by under EN 1991-1-4 and a stated pressure."""
    return EUROCODE


def _not_raised(force_n: Floats, _area_m2: Floats) -> Floats:
    """Return that forces stand as they are: a rule without a least pressure."""
    return np.ones_like(force_n)


class Pressure(NamedTuple):
    """The pressure on one assembly, with the way to it.

    Attributes:
        pressure_pa: What a coefficient multiplies.
        height_m: Where it was read, above the ground; NaN for a stated one.
        why: Why there.
        steps: The way to it.
        gust_factor: What of it is a gust factor; 1 where the rule has none of its own.
        shares: What of it blows from each direction.
    """

    pressure_pa: float
    height_m: float
    why: str
    steps: tuple[Step, ...]
    gust_factor: float = 1.0
    shares: tuple[float, ...] = ()


class Extent(NamedTuple):
    """What an assembly shows from one side.

    Attributes:
        width_m: Level width of its outline.
        height_m: Its height.
        top_m: Its upper edge above the datum.
        middle_m: Its middle above the datum.
        area_m2: What counts of its outline.
        filled_m2: The outline with its holes filled.
        reach_m: How far it reaches to either side of the datum, the further one.
    """

    width_m: float
    height_m: float
    top_m: float
    middle_m: float
    area_m2: float
    filled_m2: float
    reach_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Rule:
    """How a wind rule is worked out.

    Attributes:
        places: Where the force on an outline may act, in the middle first.
        offsets: How far that is off the middle of a part that is blown by itself, in its widths to
            the right.
        pressure: On what stands in some way and shows an extent.
        clear: Coefficient of what stands clear, and the force at each of `places`; an entered
            coefficient takes the place of the rule's own.
        on_wall: The same, normal to the wall, for what hangs against one.
        notes: Sentences to be read with all its numbers.
        book: What parts go by that are blown one by one.
        shape_source: Where that stands.
        raise_to: What forces (d,) on areas (d,) are times, for the least pressure of the rule.
        edges: What to say of the corner and the top of the wall, by how far off they are, and the
            height of the building.
    """

    places: tuple[str, ...]
    offsets: tuple[float, ...]
    pressure: Callable[[Weather, Assembly, Extent], Pressure]
    clear: Callable[[Weather, Assembly, Extent, Pressure], tuple[Coefficient, tuple[Placed, ...]]]
    on_wall: Callable[[Weather, Assembly, Extent, Pressure], tuple[Coefficient, tuple[Placed, ...]]]
    notes: Callable[[Weather], tuple[str, ...]]
    book: Callable[[Weather], Book] = _eurocode
    shape_source: str = "EN 1991-1-4:2005, 7.6, 7.7, 7.9, 7.10 and 7.13 as each part's shape asks"
    raise_to: Raising = _not_raised
    edges: Callable[[float | None, float | None, float | None, float], tuple[str, ...]] = (
        walls.edge_notes
    )


def rule_of(weather: Weather) -> Rule:
    """Return how the wind rule of a job is worked out."""
    return RULES[weather.rule]


def _entered(assembly: Assembly) -> Coefficient | None:
    """Return the coefficient somebody gave for an assembly, if any."""
    if math.isnan(assembly.coefficient):
        return None
    return coefficients.entered(assembly.coefficient, assembly.coefficient_source)


def _by_side(
    weather: Weather, pressure_at: Callable[[Any], SitePressure]
) -> tuple[SitePressure, tuple[float, ...]]:
    """Return the pressure where the ground speeds it up most, and what of it is on each side."""
    if not weather.sites:
        return pressure_at(weather.site), weather.sides.shares
    worked = {id(site): pressure_at(site) for sites in weather.sites for site in sites}
    by_side = [max(worked[id(site)].pressure_pa for site in sites) for sites in weather.sites]
    highest = max(worked.values(), key=lambda one: one.pressure_pa)
    return highest, tuple(
        share * one_pa / highest.pressure_pa
        for share, one_pa in zip(weather.sides.shares, by_side, strict=True)
    )


def _site_missing() -> ValueError:
    return ValueError("a pressure was asked for without a site")


# EN 1991-1-4, whose coefficients also go with a stated pressure.


def _en_pressure(weather: Weather, assembly: Assembly, extent: Extent) -> Pressure:
    if not isinstance(weather.site, en1991.Site):
        raise _site_missing()
    height = (
        walls.top_height(weather.datum_m + extent.top_m)
        if added_up(assembly)
        else walls.reference_height(
            assembly.stands, weather.datum_m + extent.middle_m, weather.building_m
        )
    )
    within_m = min(max(height.height_m, 0.0), HIGHEST_M)
    worked, shares = _by_side(weather, lambda site: en1991.site_pressure(site, within_m))
    return Pressure(
        worked.pressure_pa * weather.structural_factor, within_m, height.reason, worked.steps,
        shares=shares,
    )  # fmt: skip


def _stated(weather: Weather, _assembly: Assembly, _extent: Extent) -> Pressure:
    if weather.stated_pa is None:
        raise _site_missing()
    step = Step("stated pressure", "q", weather.stated_pa, "Pa", weather.stated_source,
                confirmed=bool(weather.stated_source))  # fmt: skip
    return Pressure(weather.stated_pa, math.nan, "as stated on the job sheet", (step,),
                    shares=weather.sides.shares)  # fmt: skip


BOARD_FILLS = 0.98
"""What of its box an outline fills that is a board: program default."""


def _board(weather: Weather, extent: Extent) -> Coefficient | None:
    """Return the coefficient of a board; None for what does not fill its box, or hangs unknown."""
    below_m = weather.datum_m + extent.top_m - extent.height_m
    filled = extent.area_m2 >= BOARD_FILLS * extent.width_m * extent.height_m
    if not filled or math.isnan(below_m):
        return None
    return cautious_board(
        extent.width_m, extent.height_m, max(below_m, 0.0), _top_over_middle(weather, extent)
    )


def _top_over_middle(weather: Weather, extent: Extent) -> float:
    """Return the pressure at the top of a thing over that at its middle; 1 for a stated one."""
    if not isinstance(weather.site, en1991.Site):
        return 1.0
    top_pa, middle_pa = (
        en1991.site_pressure(
            weather.site, min(max(weather.datum_m + up_m, 0.0), HIGHEST_M)
        ).pressure_pa
        for up_m in (extent.top_m, extent.middle_m)
    )
    return top_pa / middle_pa


def _en_clear(
    weather: Weather, assembly: Assembly, extent: Extent, _pressure: Pressure
) -> tuple[Coefficient, tuple[Placed, ...]]:
    drag = _entered(assembly) or _board(weather, extent) or coefficients.figure(hollows=True)
    return drag, eccentric_cases(drag, extent.width_m)


def _en_on_wall(
    weather: Weather, assembly: Assembly, extent: Extent, _pressure: Pressure
) -> tuple[Coefficient, tuple[Placed, ...]]:
    normal = _entered(assembly) or walls.assumed_on_wall(_on_the_wall_itself(weather, extent))
    return normal, eccentric_cases(normal, extent.width_m)


def _on_the_wall_itself(weather: Weather, extent: Extent) -> tuple[tuple[str, float], ...]:
    """Return what the wall has where a thing hangs, by its own distance from the corner."""
    if weather.corner_m is None or weather.building_m is None:
        return walls.anywhere()
    distance_m = max(weather.corner_m - extent.reach_m, 0.0)
    deep_m = math.inf if weather.deep_m is None else weather.deep_m
    zone = walls.corner_zone(distance_m, weather.building_m, deep_m)
    return walls.on_the_spot(zone, distance_m, extent.area_m2)


def _stated_notes(weather: Weather) -> tuple[str, ...]:
    return tuple(note for note in (weather.sides.note, weather.hill_note) if note)


def _en_notes(weather: Weather) -> tuple[str, ...]:
    height_m = weather.datum_m if weather.building_m is None else weather.building_m
    factor = en1991.structural_factor_note(height_m) if weather.structural_factor == 1 else ""
    return (
        *_stated_notes(weather),
        *((factor,) if factor else ()),
        (
            "EN 1991-1-4 gives no coefficient for an irregular figure or for what hangs "
            "against a wall: what is assumed is named beside each"
        ),
    )


# ASCE 7.


def _asce_pressure(weather: Weather, assembly: Assembly, extent: Extent) -> Pressure:
    if not isinstance(weather.site, asce7.Site):
        raise _site_missing()
    height = asce7_walls.reference_height(
        weather.datum_m + extent.top_m,
        weather.building_m if walls.STANDINGS[assembly.stands].by_building else None,
    )
    within_m = min(max(height.height_m, 0.0), HIGHEST_M)
    worked, shares = _by_side(weather, lambda site: asce7.site_pressure(site, within_m))
    return Pressure(
        worked.pressure_pa, within_m, height.reason, worked.steps, weather.site.gust_factor, shares
    )


def _sign(weather: Weather, extent: Extent) -> asce7_signs.Sign:
    return asce7_signs.Sign(
        extent.width_m,
        extent.height_m,
        weather.datum_m + extent.top_m,
        min(extent.area_m2 / extent.filled_m2, 1.0),
    )


def _asce_clear(
    weather: Weather, assembly: Assembly, extent: Extent, pressure: Pressure
) -> tuple[Coefficient, tuple[Placed, ...]]:
    sign, entered = _sign(weather, extent), _entered(assembly)
    least = asce7_signs.least_coefficient(pressure.pressure_pa)
    drag = asce7_signs.at_least(entered or asce7_signs.solid_sign(sign), least)
    if entered is None:
        return drag, asce7_signs.sign_cases(sign, drag, least)
    return drag, asce7_signs.middle_cases(sign, drag)


def _asce_on_wall(
    weather: Weather, assembly: Assembly, extent: Extent, pressure: Pressure
) -> tuple[Coefficient, tuple[Placed, ...]]:
    sign = _sign(weather, extent)
    worked = asce7_walls.ON_WALL[assembly.stands](
        sign, extent.area_m2, pressure.gust_factor, asce7_walls.wall_of(weather.building_m)
    )
    least = asce7_signs.least_coefficient(pressure.pressure_pa)
    normal = asce7_signs.at_least(_entered(assembly) or worked, least)
    return normal, asce7_signs.middle_cases(sign, normal)


def _asce_notes(weather: Weather) -> tuple[str, ...]:
    notes = asce7.site_notes(weather.site) if isinstance(weather.site, asce7.Site) else ()
    return (
        *notes,
        *_stated_notes(weather),
        (
            f"{weather.rule} gives coefficients for boards, not for figures, and its pressures on "
            "a wall are used for what lies flat on one: what is assumed is named beside each. "
            "Parts added up one by one go by its boards, chimneys, box signs and open frames; "
            "balls, dishes, cones, ends and figures, which it has not, by handbooks"
        ),
    )


def _american(weather: Weather) -> Book:
    """Return what parts go by, with the K_d that is in the pressure."""
    if not isinstance(weather.site, asce7.Site):
        raise _site_missing()
    return asce7_shapes.american(weather.site.directionality)


_ASCE = Rule(
    asce7_signs.PLACES,
    (0.0, asce7_signs.CASE_B, -asce7_signs.CASE_B, 0.0, 0.0),
    _asce_pressure,
    _asce_clear,
    _asce_on_wall,
    _asce_notes,
    _american,
    "ASCE 7, 29.3 and 29.4, Figures 29.3-1 to 29.4-3 as each part's shape asks; handbooks for what "
    "they have not",
    asce7_shapes.raised,
    asce7_walls.edge_notes,
)
_EN_OFFSETS = tuple(ECCENTRICITY * offset for offset in OFFSETS)
RULES: Mapping[str, Rule] = MappingProxyType(
    {
        "EN 1991-1-4": Rule(
            OFFSET_NAMES, _EN_OFFSETS, _en_pressure, _en_clear, _en_on_wall, _en_notes
        ),
        STATED: Rule(OFFSET_NAMES, _EN_OFFSETS, _stated, _en_clear, _en_on_wall, _stated_notes),
        **dict.fromkeys(asce7.EDITIONS, _ASCE),
    }
)
"""Every wind rule by its name on the job sheet."""
