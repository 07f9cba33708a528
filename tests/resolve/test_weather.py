"""Where wind figures come from: a site for EN 1991-1-4, a stated pressure, or nothing yet."""

import math

import pytest

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
        SITE | {"terrain": "B"},
        "job: EN 1991-1-4 in terrain B is not worked out yet, so there are no wind figures",
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


@pytest.mark.parametrize("rule", ["ASCE 7-16", "ASCE 7-22"])
def test_asce_is_not_worked_out_yet(told, said, rule):
    """Neither its wind nor its combinations; the pair as such belongs together."""
    found = told(SITE | {"wind rule": rule, "terrain": "C", "combination rule": f"{rule} strength"})

    assert not found.weather.known
    assert said(found, "question") == (
        f"job!B4: {rule} in terrain C is not worked out yet, so there are no wind figures\n{NEEDED}"
    )
    assert said(found, "refused") == (
        f"job!B6: {rule} strength is not worked out yet, so there are no wind figures\n"
        "    wanted: EN 1990 6.10 or EN 1990 6.10a/b\n"
        "    ask the engineer, and say who said so"
    )


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
      "stated pressure kind": "strength level"}, "job"),
    ({"wind rule": "ASCE 7-22"}, "job"),
    ({"wind rule": "ASCE 7-22", "combination rule": "EN 1990 6.10"}, "job!B3"),
]  # fmt: skip


@pytest.mark.parametrize(("facts", "cell"), PAIRS)
def test_a_strength_level_wind_does_not_go_with_en_1990(told, said, facts, cell):
    """The load factor would be counted twice (EN 1990, 6.10, against ASCE 7 wind since 2010)."""
    found = told(facts)

    assert said(found, "refused") == (
        f"{cell}: EN 1990 6.10 is written for a peak characteristic wind; with a strength level "
        "wind its partial factor would be counted a second time; so there are no wind figures\n"
        "    wanted: a pair that belongs together\n"
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
