"""What the job sheet says of the wind: a stated pressure, or a site for a rule."""

from dataclasses import dataclass

from estimator.core.problems import Cell, Problem, Severity
from estimator.resolve.records import Facts
from estimator.supports.combinations import RULES, WindLevel, check_pair
from estimator.wind.en1991 import TERRAIN, Site

STATED = "stated pressure"
LEAST_YEARS = 50.0
"""Fewer years exposed do not lower the wind: what hangs over people is not taken as temporary."""
NEEDED = {
    "basic_wind_speed": "the basic wind speed",
    "datum_height": "the height of the datum",
}
"""What EN 1991-1-4 cannot do without."""
GUST_M_S = 40.0
"""A ten-minute mean above this is rarer than a gust typed in its place: program default."""


@dataclass(frozen=True, slots=True)
class Weather:
    """Where the wind figures come from; neither pressure nor site when nobody has said.

    Attributes:
        stated_pa: Pressure somebody gave.
        stated_source: Who gave it.
        site: For the rule of EN 1991-1-4.
        structural_factor: c_s c_d.
        datum_m: Datum above the ground, NaN when not told.
        building_m: Height of the building, None when not told.
    """

    stated_pa: float | None
    stated_source: str
    site: Site | None
    structural_factor: float
    datum_m: float
    building_m: float | None

    @property
    def known(self) -> bool:
        """Return whether there can be any wind figures."""
        return self.site is not None or self.stated_pa is not None


def resolve_weather(facts: Facts) -> tuple[Weather, tuple[Problem, ...]]:
    """Return where wind figures come from, and what stands in their way."""
    rule = facts.text("wind_rule")
    problems = _pair_problems(facts, rule)
    stated_pa, site, more = _figures(facts, rule)
    if problems:
        # Factors for one kind of wind on another would be wrong without looking wrong.
        stated_pa = site = None
    problems += more
    source = facts.values["stated_pressure"].source if facts.has("stated_pressure") else ""
    return Weather(
        stated_pa,
        source,
        site,
        facts.number("structural_factor"),
        facts.number("datum_height"),
        facts.number("building_height") if facts.has("building_height") else None,
    ), tuple(problems)


def _figures(facts: Facts, rule: str) -> tuple[float | None, Site | None, list[Problem]]:
    """Return a stated pressure, or the site for a rule, or why there is neither."""
    if rule == STATED and not facts.has("stated_pressure"):
        return None, None, [_no_wind(facts, "wind_rule", "no pressure is stated")]
    if rule == STATED:
        return facts.number("stated_pressure"), None, []
    if rule.startswith("ASCE") or facts.text("terrain") not in TERRAIN:
        found = f"{rule} in terrain {facts.text('terrain')} is not worked out yet"
        return None, None, [_no_wind(facts, "wind_rule", found)]
    for item, words in NEEDED.items():
        if not facts.has(item):
            return None, None, [_missing(facts, rule, item, words)]
    return None, _site(facts), [*_gust_questions(facts), *_years_questions(facts)]


def _missing(facts: Facts, rule: str, item: str, words: str) -> Problem:
    """Return what a rule lacks; a pressure that stands beside it is not passed over in silence."""
    if facts.has("stated_pressure"):
        return _no_wind(facts, "stated_pressure", f"a pressure is stated, but the rule is {rule}")
    return _no_wind(facts, item, f"{words} is not given")


def _site(facts: Facts) -> Site:
    return Site(
        basic_speed_m_s=facts.number("basic_wind_speed"),
        terrain=TERRAIN[facts.text("terrain")],
        direction_factor=facts.number("direction_factor"),
        season_factor=facts.number("season_factor"),
        return_period_years=max(facts.number("years_exposed"), LEAST_YEARS),
        orography=facts.number("orography"),
    )


def _pair_problems(facts: Facts, rule: str) -> list[Problem]:
    """Return why the wind and the combination rule do not belong together."""
    combining = facts.text("combination_rule")
    level = facts.text("stated_pressure_kind", WindLevel.CHARACTERISTIC)
    if rule != STATED:
        level = WindLevel.STRENGTH if rule.startswith("ASCE") else WindLevel.CHARACTERISTIC
    if combining not in RULES:
        found = f"{combining} is not worked out yet, so there are no wind figures"
        return [_at(facts, "combination_rule", found, "EN 1990 6.10 or EN 1990 6.10a/b")]
    why = check_pair(level, combining)
    found = f"{why}; so there are no wind figures"
    return [_at(facts, "combination_rule", found, "a pair that belongs together")] if why else []


def _gust_questions(facts: Facts) -> list[Problem]:
    speed_m_s = facts.number("basic_wind_speed")
    if speed_m_s <= GUST_M_S:
        return []
    found = f"{speed_m_s:g} m/s is very high for a ten-minute mean; is it a gust?"
    return [_at(facts, "basic_wind_speed", found, "the ten-minute mean of the wind map",
                Severity.QUESTION)]  # fmt: skip


def _years_questions(facts: Facts) -> list[Problem]:
    years = facts.number("years_exposed")
    if years >= LEAST_YEARS:
        return []
    found = f"{years:g} years exposed do not lower the wind here; {LEAST_YEARS:g} were used"
    return [_at(facts, "years_exposed", found, f"{LEAST_YEARS:g} or more", Severity.QUESTION)]


def _no_wind(facts: Facts, item: str, found: str) -> Problem:
    return _at(facts, item, f"{found}, so there are no wind figures",
               "basic wind speed and datum height for EN 1991-1-4, or a stated pressure with"
               ' the wind rule "stated pressure"',
               Severity.QUESTION)  # fmt: skip


def _at(
    facts: Facts, item: str, found: str, expected: str, severity: Severity = Severity.REFUSED
) -> Problem:
    fact = facts.values.get(item)
    cell = fact.cell if fact and fact.cell else Cell("job")
    return Problem(severity, cell, found, expected, "ask the engineer, and say who said so", "")
