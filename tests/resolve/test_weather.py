"""Where wind figures come from: a site for EN 1991-1-4, a stated pressure, or nothing yet."""

import math

import pytest

from estimator.supports.combinations import WindLevel
from estimator.wind.asce7 import EDITIONS
from estimator.wind.en1991 import TERRAIN

SITE = {"basic wind speed": "24 m/s", "datum height": "7.6 m"}
NEEDED = (
    "    wanted: basic wind speed and datum height for EN 1991-1-4, or a stated pressure with"
    ' the wind rule "stated pressure"\n'
    "    ask the engineer, and say who said so"
)


@pytest.fixture
def told(resolved):
    """Return a function that resolves a job with these facts, each (item: value [| source])."""

    def resolve_facts(facts):
        lines = [f"{item} | {value}" for item, value in facts.items()]
        return resolved({"job": "\n".join(["item | value | source", *lines])})

    return resolve_facts


def test_speed_and_datum_make_a_site(told, said):
    """All other facts have stated defaults."""
    found = told(SITE)
    weather = found.weather

    assert said(found) == ""
    assert weather.known
    assert (weather.site.basic_speed_m_s, weather.site.terrain) == (24.0, TERRAIN["II"])
    assert (weather.site.direction_factor, weather.site.season_factor) == (1.0, 1.0)
    assert (weather.site.orography, weather.structural_factor) == (1.0, 1.0)
    assert (weather.datum_m, weather.building_m) == (7.6, None)
    assert (weather.stated_pa, weather.stated_source) == (None, "")


def test_a_site_keeps_every_fact_that_was_said(told):
    """The facts of the job sheet reach the rule as they are."""
    weather = told(SITE | {
        "terrain": "III", "orography": "1.1", "direction factor": "0.9", "season factor": "0.8",
        "structural factor": "1.05", "years exposed": "100", "building height": "12 m",
    }).weather  # fmt: skip

    assert weather.site.terrain == TERRAIN["III"]
    assert (weather.site.orography, weather.site.direction_factor) == (1.1, 0.9)
    assert (weather.site.season_factor, weather.site.return_period_years) == (0.8, 100.0)
    assert (weather.structural_factor, weather.building_m) == (1.05, 12.0)


def test_a_short_exposure_does_not_lower_the_wind(told):
    """What hangs over people is not taken as temporary: program default, no source."""
    assert told(SITE | {"years exposed": "5"}).weather.site.return_period_years == 50.0


UNKNOWN = [
    ({}, "job: the basic wind speed is not given, so there are no wind figures"),
    (
        {"basic wind speed": "24 m/s"},
        "job: the height of the datum is not given, so there are no wind figures",
    ),
    (
        {"stated pressure": "800 Pa"},
        "job!B2: a pressure is stated, but the rule is EN 1991-1-4, so there are no wind figures",
    ),
    (
        {"datum height": "7.6 m"},
        "job: the basic wind speed is not given, so there are no wind figures",
    ),
    (
        {"wind rule": "stated pressure"},
        "job!B2: no pressure is stated, so there are no wind figures",
    ),
]


@pytest.mark.parametrize(("facts", "found"), UNKNOWN)
def test_without_a_figure_wind_is_a_question(told, said, facts, found):
    """Nothing stands in for it, and all that does not hang on it is still worked out."""
    job = told(facts)

    assert said(job) == f"{found}\n{NEEDED}"
    assert said(job, "question") == said(job)
    assert not job.weather.known
    assert job.complete


NO_TERRAIN = [
    ({"terrain": "B"}, "EN 1991-1-4 has no terrain B", "0, I, II, III or IV"),
    ({"terrain": "II", "wind rule": "ASCE 7-16"}, "ASCE 7-16 has no terrain II", "B, C or D"),
]


@pytest.mark.parametrize(("facts", "found", "wanted"), NO_TERRAIN)
def test_a_terrain_of_another_rule_is_a_question(told, said, facts, found, wanted):
    """Categories 0 to IV are of EN 1991-1-4 (Table 4.1), exposures B to D of ASCE 7 (26.7)."""
    job = told(SITE | facts)

    assert said(job) == (
        f"job!B4: {found}, so there are no wind figures\n"
        f"    wanted: {wanted}\n"
        "    ask the engineer, and say who said so"
    )
    assert not job.weather.known


GUST = SITE | {"basic wind speed": "115 mph"}


@pytest.mark.parametrize("rule", ["ASCE 7-16", "ASCE 7-22"])
def test_asce_needs_speed_and_datum_alone(told, said, rule):
    """Open country, K_d and G of signs, K_e 1 and the combinations of its edition stand in."""
    found = told(GUST | {"wind rule": rule})
    weather, site = found.weather, found.weather.site

    assert said(found) == ""
    assert (weather.rule, weather.level) == (rule, WindLevel.STRENGTH)
    assert site.basic_speed_m_s == pytest.approx(51.41, abs=0.005)
    assert (site.edition, site.exposure) == (EDITIONS[rule], "C")
    assert (site.directionality, site.gust_factor, site.altitude_m) == (0.85, 0.85, None)
    assert (site.topography, weather.structural_factor) == (1.0, 1.0)
    assert found.facts.text("combination_rule") == f"{rule} strength"


@pytest.mark.parametrize("rule", ["ASCE 7-16", "ASCE 7-22"])
def test_what_stands_in_is_told_by_its_own_rule(told, rule):
    """The list of what nobody said names the values that were used, not those of EN 1991-1-4."""
    untold = {
        one.item: one.used and one.used.value for one in told(GUST | {"wind rule": rule}).untold
    }

    assert untold["terrain"] == "C"
    assert (untold["direction factor"], untold["structural factor"]) == (0.85, 0.85)
    assert untold["combination rule"] == f"{rule} strength"
    assert not {"season factor", "years exposed"} & set(untold)


def test_an_asce_site_keeps_every_fact_that_was_said(told):
    """The facts of the job sheet reach the rule as they are."""
    site = told(GUST | {
        "wind rule": "ASCE 7-22", "terrain": "D", "orography": "1.3", "direction factor": "0.95",
        "structural factor": "0.9", "altitude": "1000 ft",
    }).weather.site  # fmt: skip

    assert (site.exposure, site.topography, site.directionality) == ("D", 1.3, 0.95)
    assert (site.gust_factor, site.altitude_m) == (0.9, pytest.approx(304.8))


def test_without_a_speed_asce_asks_for_its_own(told, said):
    """The question names the rule that was chosen."""
    assert said(told({"wind rule": "ASCE 7-16", "datum height": "3 m"})) == (
        "job: the basic wind speed is not given, so there are no wind figures\n"
        + NEEDED.replace("EN 1991-1-4", "ASCE 7-16")
    )


ODD = [
    (
        {"basic wind speed": "24 m/s"},
        (
            "job!B2: 24 m/s (53.7 mph) is very low for a 3-second gust at strength level; is it a "
            "mean, or a speed at service level?\n"
            "    wanted: the 3-second gust of the ASCE 7 map for the risk category\n"
        ),
    ),
    (
        {"combination rule": "ASCE 7-22 strength"},
        (
            "job!B5: ASCE 7-22 strength goes with loads of its own edition, but the wind is by "
            "ASCE 7-16\n"
            "    wanted: ASCE 7-16 strength\n"
        ),
    ),
    (
        {"season factor": "0.9"},
        (
            "job!B5: ASCE 7-16 has no season factor; it was left out\n"
            "    wanted: nothing: the map of the risk category holds it\n"
        ),
    ),
    (
        {"years exposed": "5"},
        (
            "job!B5: ASCE 7-16 has no years exposed; it was left out\n"
            "    wanted: nothing: the map of the risk category holds it\n"
        ),
    ),
    ({"basic wind speed": "85 mph"}, ""),
    ({"season factor": "1"}, ""),
]


@pytest.mark.parametrize(("facts", "expected"), ODD)
def test_what_looks_odd_by_asce_is_asked_about(told, said, facts, expected):
    """A speed below 37.5 m/s (84 mph) is on no map: program default, no source."""
    found = told(GUST | {"wind rule": "ASCE 7-16"} | facts)

    advice = "    ask the engineer, and say who said so"
    assert said(found, "question") == (expected + advice if expected else "")
    assert found.weather.known


def test_a_stated_pressure_takes_the_place_of_a_rule(told, said):
    """It needs no speed, and it keeps who said it."""
    found = told({
        "wind rule": "stated pressure", "stated pressure": "0.9 kPa | A. Smith, 3 March",
        "stated pressure kind": "peak characteristic",
    })  # fmt: skip

    assert said(found) == ""
    assert found.weather.known
    assert found.weather.stated_pa == pytest.approx(900.0)
    assert found.weather.stated_source == "A. Smith, 3 March"
    assert found.weather.site is None
    assert math.isnan(found.weather.datum_m)


PAIRS = [
    ({"wind rule": "stated pressure", "stated pressure": "900 Pa",
      "stated pressure kind": "strength level"}, "job",
     "; or as `stated pressure kind` what the pressure really is"),
    ({"wind rule": "ASCE 7-22", "combination rule": "EN 1990 6.10"}, "job!B3", ""),
]  # fmt: skip


@pytest.mark.parametrize(("facts", "cell", "or_else"), PAIRS)
def test_a_strength_level_wind_does_not_go_with_en_1990(told, said, facts, cell, or_else):
    """The load factor would be counted twice (EN 1990, 6.10, against ASCE 7 wind since 2010)."""
    found = told(facts)

    assert said(found, "refused") == (
        f"{cell}: EN 1990 6.10 is written for a peak characteristic wind; with a strength level "
        "wind its partial factor would be counted a second time; so there are no wind figures\n"
        "    wanted: as `combination rule` one of: ASCE 7-16 strength, ASCE 7-22 strength, "
        f"ASCE 7-16 ASD, ASCE 7-22 ASD{or_else}\n"
        "    ask the engineer, and say who said so"
    )
    assert not found.complete
    assert not found.weather.known


@pytest.mark.parametrize(("speed", "asked"), [("40 m/s", False), ("41 m/s", True)])
def test_a_gust_in_place_of_a_mean_is_asked_about(told, said, speed, asked):
    """A ten-minute mean above 40 m/s is rarer than the slip: program default, no source."""
    found = told(SITE | {"basic wind speed": speed})

    expected = (
        "job!B2: 41 m/s is very high for a ten-minute mean; is it a gust?\n"
        "    wanted: the ten-minute mean of the wind map\n"
        "    ask the engineer, and say who said so"
    )
    assert said(found, "question") == (expected if asked else "")
    assert found.weather.known
