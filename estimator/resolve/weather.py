"""What the job sheet says of the wind: a stated pressure, or a site for a rule."""

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import NamedTuple

from estimator.core.problems import Cell, Problem, Severity
from estimator.core.sourced import Origin
from estimator.resolve.ground import (
    Doubt,
    Sections,
    ground_doubts,
    hill_doubts,
    orography,
    sections,
)
from estimator.resolve.records import Facts
from estimator.resolve.sides import (
    EVERY_SIDE,
    Sides,
    resolve_directions,
    resolve_factors,
    resolve_stated,
)
from estimator.supports.combinations import RULES, WindLevel, check_pair
from estimator.wind import asce7, coefficients, en1991, slopes, walls
from estimator.wind.asce7_hills import Feature
from estimator.wind.orography import Hill

Site = en1991.Site | asce7.Site

STATED = "stated pressure"
LEAST_YEARS = 50.0
"""Fewer years exposed do not lower the wind: what hangs over people is not taken as temporary."""
NEEDED = {
    "basic_wind_speed": "the basic wind speed",
    "datum_height": "the height of the datum",
}
"""What no rule can do without."""
GUST_M_S = 40.0
"""A ten-minute mean above this is rarer than a gust typed in its place: program default."""
LEAST_GUST_M_S = 37.5
"""A gust at strength level below this (84 mph) is on no map of ASCE 7; it is a mean, or a speed at
service level, in its place: program default."""
MPH_M_S = 0.44704
CHOSEN_IN_EN = {"national_annex": "none"}
"""What only EN 1991-1-4 is worked out with here, with the choice that changes nothing."""
NOT_IN_ASCE = {"season_factor": 1.0, "years_exposed": 50.0, "consequence_factor": 1.0}
"""What the Eurocodes ask for and ASCE 7 has in its maps, with the value that changes nothing."""


@dataclass(frozen=True, slots=True)
class Weather:
    """Where the wind figures come from; neither pressure nor site when nobody has said.

    Attributes:
        rule: The wind rule.
        level: What a pressure by it already holds.
        stated_pa: Pressure somebody gave.
        stated_source: Who gave it.
        site: For the rule, where it needs one.
        structural_factor: c_s c_d of EN 1991-1-4; the G of ASCE 7 belongs to its site.
        datum_m: Datum above the ground, NaN when not told.
        building_m: Height of the building, None when not told.
        sides: Directions that are looked at, and what of the pressure blows from each.
        deep_m: Depth of the building back from the wall, None when not told.
        corner_m: Datum to the nearest corner of the wall, None when not told.
        sites: For each direction the sites it is the worst of; empty where one is for all.
        hill_note: Which winds a hill speeds up; blank without one.
        along: What drags along the wall what hangs against it.
    """

    rule: str
    level: WindLevel
    stated_pa: float | None
    stated_source: str
    site: Site | None
    structural_factor: float
    datum_m: float
    building_m: float | None
    sides: Sides = EVERY_SIDE
    deep_m: float | None = None
    corner_m: float | None = None
    sites: tuple[tuple[Site, ...], ...] = ()
    hill_note: str = ""
    along: walls.Along = walls.ASSUMED_ALONG

    @property
    def known(self) -> bool:
        """Return whether there can be any wind figures."""
        return self.site is not None or self.stated_pa is not None


def resolve_weather(facts: Facts) -> tuple[Weather, tuple[Problem, ...]]:
    """Return where wind figures come from, and what stands in their way."""
    rule = facts.text("wind_rule")
    level = _level(facts, rule)
    problems = _pair_problems(facts, level)
    directions_deg, odd = resolve_directions(facts)
    stated_pa, site, sides, more = _figures(facts, rule, directions_deg)
    more += odd
    if problems:
        # Factors for one kind of wind on another would be wrong without looking wrong.
        stated_pa = site = None
    problems += more
    hilly = sections(facts, directions_deg) if site else Sections()
    site, sites = _on_the_hill(facts, site, hilly)
    return Weather(
        rule,
        level,
        stated_pa,
        _stated_source(facts),
        site,
        1.0 if isinstance(site, asce7.Site) else facts.number("structural_factor"),
        facts.number("datum_height"),
        _told(facts, "building_height"),
        sides,
        _told(facts, "building_depth"),
        _told(facts, "datum_to_nearest_corner"),
        sites,
        hilly.note,
        _along(facts),
    ), tuple(problems)


def _along(facts: Facts) -> walls.Along:
    """Return what drags along a wall what hangs against it: as typed, or as assumed."""
    typed = facts.values.get("drag_along_wall")
    drag = walls.assumed_along_wall()
    if typed is not None and typed.origin is Origin.TYPED:
        drag = coefficients.entered(facts.number("drag_along_wall"), typed.source)
    return walls.Along(drag, facts.number("friction_along_wall", walls.FRICTION))


def _on_the_hill(
    facts: Facts, site: Site | None, hilly: Sections
) -> tuple[Site | None, tuple[tuple[Site, ...], ...]]:
    """Return the site as the wind meets it that a hill speeds up most, and that of each side."""
    if site is None or not hilly.met:
        return site, ()
    grounds = {hill: _placed(facts, site, hill) for hills in hilly.met for hill in hills}
    flat = _placed(facts, site, None)
    at_m = max(facts.number("datum_height"), 0.0)
    worst = max((flat, *grounds.values()), key=lambda one: _speeded_up(one, at_m))
    by_side = tuple(tuple(grounds[hill] for hill in hills) or (flat,) for hills in hilly.met)
    return worst, by_side


def _placed(facts: Facts, site: Site, hill: Hill | None) -> Site:
    """Return a site on a hill, or on flat ground."""
    if isinstance(site, asce7.Site):
        return replace(site, topography=_topography(facts, 1.0 if hill is None else hill))
    return replace(site, orography=1.0 if hill is None else hill)


def _speeded_up(site: Site, height_m: float) -> float:
    if isinstance(site, asce7.Site):
        return asce7.topography_at(site, height_m)
    return float(en1991.orography_at(site, height_m))


def _topography(facts: Facts, ground: float | Hill) -> float | Feature:
    """Return the ground of a job as ASCE 7 has it."""
    return (
        slopes.feature(facts.text("hill_or_cliff"), ground) if isinstance(ground, Hill) else ground
    )


def _told(facts: Facts, item: str) -> float | None:
    return facts.number(item) if facts.has(item) else None


def _stated_source(facts: Facts) -> str:
    """Return who stated the pressure."""
    items = ("stated_pressure_by_direction", "stated_pressure")
    return next((facts.values[item].source for item in items if facts.has(item)), "")


def _level(facts: Facts, rule: str) -> WindLevel:
    """Return what the pressure of a rule already holds."""
    if rule == STATED:
        return WindLevel(facts.text("stated_pressure_kind", WindLevel.CHARACTERISTIC))
    return WindLevel.STRENGTH if rule in asce7.EDITIONS else WindLevel.CHARACTERISTIC


class _Rule(NamedTuple):
    """How the facts of a job become a site.

    Attributes:
        terrains: Those the rule has.
        site: From the facts, and the largest direction factor.
        questions: What looks odd about them.
    """

    terrains: frozenset[str]
    site: Callable[[Facts, Sides], Site]
    questions: Callable[[Facts], list[Problem]]


def _figures(
    facts: Facts, rule: str, directions_deg: tuple[float, ...]
) -> tuple[float | None, Site | None, Sides, list[Problem]]:
    """Return a stated pressure, or the site for a rule, or why there is neither; and the sides."""
    if rule == STATED:
        return _stated_figures(facts, directions_deg)
    working, sides = _RULES[rule], resolve_factors(facts, directions_deg)
    if facts.text("terrain") not in working.terrains:
        found = f"{rule} has no terrain {facts.text('terrain')}"
        return None, None, sides, [_no_wind(facts, "terrain", found, _one_of(working.terrains))]
    for item, words in NEEDED.items():
        if not facts.has(item):
            return None, None, sides, [_missing(facts, rule, item, words)]
    return None, working.site(facts, sides), sides, working.questions(facts)


def _stated_figures(
    facts: Facts, directions_deg: tuple[float, ...]
) -> tuple[float | None, None, Sides, list[Problem]]:
    sides, odd = resolve_stated(facts, directions_deg)
    if not math.isnan(sides.highest):
        return sides.highest, None, sides, odd
    none = [_no_wind(facts, "wind_rule", "no pressure is stated")]
    return None, None, Sides(directions_deg, (1.0,) * len(directions_deg)), odd or none


def _one_of(terrains: frozenset[str]) -> str:
    *others, last = sorted(terrains)
    return f"{', '.join(others)} or {last}"


def _missing(facts: Facts, rule: str, item: str, words: str) -> Problem:
    """Return what a rule lacks; a pressure that stands beside it is not passed over in silence."""
    if facts.has("stated_pressure"):
        return _no_wind(facts, "stated_pressure", f"a pressure is stated, but the rule is {rule}")
    return _no_wind(facts, item, f"{words} is not given")


def _en_site(facts: Facts, sides: Sides) -> Site:
    british = facts.text("national_annex") == "UK"
    return en1991.Site(
        basic_speed_m_s=facts.number("basic_wind_speed"),
        terrain=en1991.TERRAIN[facts.text("terrain")],
        direction_factor=sides.highest,
        season_factor=facts.number("season_factor"),
        return_period_years=max(facts.number("years_exposed"), LEAST_YEARS),
        orography=orography(facts),
        uk_altitude_m=_told(facts, "altitude") if british else None,
        density_kg_m3=facts.number("air_density"),
    )


def _asce_site(facts: Facts, _sides: Sides) -> Site:
    return asce7.Site(
        edition=asce7.EDITIONS[facts.text("wind_rule")],
        basic_speed_m_s=facts.number("basic_wind_speed"),
        exposure=facts.text("terrain"),
        topography=_topography(facts, orography(facts)),
        directionality=facts.number("direction_factor"),
        altitude_m=facts.number("altitude") if facts.has("altitude") else None,
        gust_factor=facts.number("structural_factor"),
    )


def _pair_problems(facts: Facts, level: WindLevel) -> list[Problem]:
    """Return why the wind and the combination rule do not belong together."""
    why = check_pair(level, facts.text("combination_rule"))
    if not why:
        return []
    fitting = ", ".join(rule for rule, wanted in RULES.items() if wanted is level)
    wanted = f"as `combination rule` one of: {fitting}"
    if facts.text("wind_rule") == STATED:
        wanted += "; or as `stated pressure kind` what the pressure really is"
    found = f"{why}; so there are no wind figures"
    return [_at(facts, "combination_rule", found, wanted)]


def _en_questions(facts: Facts) -> list[Problem]:
    return [
        *_gust_questions(facts),
        *_years_questions(facts),
        *_density_questions(facts),
        *_annex_questions(facts),
        *_ground_questions(facts, ground_doubts(facts)),
    ]


def _asce_questions(facts: Facts) -> list[Problem]:
    return [
        *_mean_questions(facts),
        *_edition_questions(facts),
        *_idle_questions(facts),
        *_ground_questions(facts, hill_doubts(facts)),
    ]


def _ground_questions(facts: Facts, doubts: Iterable[Doubt]) -> list[Problem]:
    return [_at(facts, item, found, wanted, Severity.QUESTION) for item, found, wanted in doubts]


def _gust_questions(facts: Facts) -> list[Problem]:
    speed_m_s = facts.number("basic_wind_speed")
    if speed_m_s <= GUST_M_S:
        return []
    found = f"{speed_m_s:g} m/s is very high for a ten-minute mean; is it a gust?"
    return [_at(facts, "basic_wind_speed", found, "the ten-minute mean of the wind map",
                Severity.QUESTION)]  # fmt: skip


def _mean_questions(facts: Facts) -> list[Problem]:
    speed_m_s = facts.number("basic_wind_speed")
    if speed_m_s >= LEAST_GUST_M_S:
        return []
    found = (
        f"{speed_m_s:.3g} m/s ({speed_m_s / MPH_M_S:.3g} mph) is very low for a 3-second gust at "
        "strength level; is it a mean, or a speed at service level?"
    )
    wanted = "the 3-second gust of the ASCE 7 map for the risk category"
    return [_at(facts, "basic_wind_speed", found, wanted, Severity.QUESTION)]


def _edition_questions(facts: Facts) -> list[Problem]:
    wind, combining = facts.text("wind_rule"), facts.text("combination_rule")
    if combining.startswith(wind):
        return []
    found = f"{combining} goes with loads of its own edition, but the wind is by {wind}"
    return [_at(facts, "combination_rule", found, f"{wind} strength", Severity.QUESTION)]


def _idle_questions(facts: Facts) -> list[Problem]:
    """Return what was told that ASCE 7 has no place for, where it would change something."""
    rule = facts.text("wind_rule")
    return [
        _at(facts, item, f"{rule} has no {item.replace('_', ' ')}; it was left out",
            "nothing: the map of the risk category holds it", Severity.QUESTION)
        for item, nothing in NOT_IN_ASCE.items()
        if facts.has(item) and facts.number(item) != nothing
    ] + [
        _at(facts, item, f"{rule} has no {item.replace('_', ' ')} here; it was left out",
            "K_d as the direction factor", Severity.QUESTION)
        for item, nothing in CHOSEN_IN_EN.items()
        if facts.text(item, nothing) != nothing
    ]  # fmt: skip


def _density_questions(facts: Facts) -> list[Problem]:
    """Return what to ask of an air density that is not the standard's own."""
    density, usual = facts.number("air_density"), en1991.AIR_DENSITY_KG_M3
    if density == usual or facts.text("national_annex") != "none":
        return []
    why = (
        "only a national annex lowers it"
        if density < usual
        else "cold air of a day does not go with a wind speed of fifty years"
    )
    found = (
        f"{density:g} kg/m3 of air changes the pressure by {100 * (density / usual - 1):+.0f} %: "
        f"EN 1991-1-4 has {usual:g}, and {why}"
    )
    return [_at(facts, "air_density", found, f"{usual:g} kg/m3, or the annex it is from",
                Severity.QUESTION)]  # fmt: skip


def _annex_questions(facts: Facts) -> list[Problem]:
    if facts.text("national_annex") != "UK" or facts.has("altitude"):
        return []
    found = "the UK annex raises the wind with the altitude of the site, which is not given"
    return [_at(facts, "national_annex", found, "altitude", Severity.QUESTION)]


def _years_questions(facts: Facts) -> list[Problem]:
    years = facts.number("years_exposed")
    if years >= LEAST_YEARS:
        return []
    found = f"{years:g} years exposed do not lower the wind here; {LEAST_YEARS:g} were used"
    return [_at(facts, "years_exposed", found, f"{LEAST_YEARS:g} or more", Severity.QUESTION)]


_ASCE = _Rule(frozenset("BCD"), _asce_site, _asce_questions)
_RULES: Mapping[str, _Rule] = MappingProxyType(
    {
        "EN 1991-1-4": _Rule(frozenset(en1991.TERRAIN), _en_site, _en_questions),
        **dict.fromkeys(asce7.EDITIONS, _ASCE),
    }
)
"""Every wind rule that needs a site."""


def _no_wind(facts: Facts, item: str, found: str, expected: str = "") -> Problem:
    rule = facts.text("wind_rule") if facts.text("wind_rule") in _RULES else "EN 1991-1-4"
    wanted = (
        f"basic wind speed and datum height for {rule}, or a stated pressure with"
        f' the wind rule "{STATED}"'
    )
    return _at(facts, item, f"{found}, so there are no wind figures", expected or wanted,
               Severity.QUESTION)  # fmt: skip


def _at(
    facts: Facts, item: str, found: str, expected: str, severity: Severity = Severity.REFUSED
) -> Problem:
    fact = facts.values.get(item)
    cell = fact.cell if fact and fact.cell else Cell("job")
    return Problem(severity, cell, found, expected, "ask the engineer, and say who said so", "")
