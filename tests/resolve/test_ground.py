"""The ground about the site as the job sheet tells it: hills, cliffs, smoother terrain, air."""

import pytest

from estimator.wind.asce7_hills import Feature
from estimator.wind.orography import Hill

SITE = {"basic wind speed": "24 m/s", "datum height": "7.6 m"}
HILL = {
    "hill or cliff": "hill", "hill height": "20 m", "hill upwind length": "100 m",
    "distance from crest": "-50 m",
}  # fmt: skip


@pytest.fixture
def told(resolved):
    """Return a function that resolves a job with these facts at a site."""

    def resolve_facts(facts):
        lines = [f"{item} | {value}" for item, value in (SITE | facts).items()]
        return resolved({"job": "\n".join(["item | value | source", *lines])})

    return resolve_facts


SITES = [
    ({}, 1.0),
    ({"orography": "1.2"}, 1.2),
    (HILL, Hill(20.0, 100.0, -50.0, 100.0)),
    (HILL | {"hill or cliff": "cliff"}, Hill(20.0, 100.0, -50.0)),
    (HILL | {"hill downwind length": "300 m"}, Hill(20.0, 100.0, -50.0, 300.0)),
]


@pytest.mark.parametrize(("facts", "expected"), SITES)
def test_the_orography_of_a_site(told, said, facts, expected):
    """A factor as entered, or the hill or cliff it follows from (EN 1991-1-4 A.3)."""
    found = told(facts)

    assert said(found) == ""
    assert found.weather.site.orography == expected


DOUBTS = [
    (
        HILL | {"orography": "1.2"},
        "job!B8: an orography factor and a hill were given; the factor was used",
    ),
    (
        {"hill or cliff": "cliff", "hill height": "20 m"},
        (
            "job!B4: a cliff without its upwind length, distance from the crest gives no orography "
            "factor; 1 was used"
        ),
    ),
    (
        HILL | {"distance from crest": "50 m"},
        (
            "job!B4: how long the slope behind the crest is was not told; it was taken as long as "
            "the one before it"
        ),
    ),
    (
        {"terrain": "III", "distance to smoother terrain": "800 m", "smoother terrain": "II"},
        (
            "job!B4: terrain III, but terrain II lies 800 m upwind: within 1000 m the smoother one "
            "holds (EN 1991-1-4 A.2, procedure 1)"
        ),
    ),
    (
        {"terrain": "IV", "distance to smoother terrain": "1.9 km", "smoother terrain": "0"},
        (
            "job!B4: terrain IV, but terrain 0 lies 1900 m upwind: within 2000 m the smoother one "
            "holds (EN 1991-1-4 A.2, procedure 1)"
        ),
    ),
    (
        {"distance to smoother terrain": "800 m"},
        "job!B4: smoother terrain lies upwind, but not of which category",
    ),
    (
        {"national annex": "UK"},
        "job!B4: the UK annex raises the wind with the altitude of the site, which is not given",
    ),
    (
        {"air density": "1.1 kg/m3"},
        (
            "job!B4: 1.1 kg/m3 of air changes the pressure by -12 %: EN 1991-1-4 has 1.25, and "
            "only a national annex lowers it"
        ),
    ),
    (
        {"air density": "1.34 kg/m3"},
        (
            "job!B4: 1.34 kg/m3 of air changes the pressure by +7 %: EN 1991-1-4 has 1.25, and "
            "cold air of a day does not go with a wind speed of fifty years"
        ),
    ),
]


@pytest.mark.parametrize(("facts", "found"), DOUBTS)
def test_what_looks_odd_about_the_ground_is_asked_about(told, said, facts, found):
    """The figures are still worked out, by what the sentence says."""
    job = told(facts)

    assert said(job, "question").splitlines()[0] == found
    assert job.weather.known


QUIET = [
    {"terrain": "III", "distance to smoother terrain": "1.2 km", "smoother terrain": "II"},
    {"terrain": "II", "distance to smoother terrain": "100 m", "smoother terrain": "II"},
    {"air density": "1.226 kg/m3", "national annex": "UK", "altitude": "10 m"},
]


@pytest.mark.parametrize("facts", QUIET)
def test_what_is_as_it_should_be_is_not_asked_about(told, said, facts):
    """Far off, no smoother than the site itself, or a density that an annex gives."""
    assert said(told(facts)) == ""


def test_the_density_reaches_the_site(told):
    """(4.10) takes it as it is."""
    assert told({"air density": "1.2 kg/m3"}).weather.site.density_kg_m3 == 1.2


def test_what_only_the_european_rule_has_is_said_to_be_left_out(told, said):
    """A national annex to EN 1991-1-4 has no place in ASCE 7."""
    found = told({"basic wind speed": "51 m/s", "wind rule": "ASCE 7-16", "national annex": "UK"})

    assert said(found, "question") == (
        "job!B5: ASCE 7-16 has no national annex here; it was left out\n"
        "    wanted: K_d as the direction factor\n"
        "    ask the engineer, and say who said so"
    )


@pytest.mark.parametrize(
    ("kind", "feature"),
    [("hill", "hill"), ("ridge", "ridge"), ("cliff", "escarpment")],
)
def test_the_same_sizes_give_the_hill_of_the_american_rule(told, said, kind, feature):
    """ASCE 7 Figure 26.8-1: L_h is half the level length of a straight slope."""
    american = {"basic wind speed": "51 m/s", "wind rule": "ASCE 7-22"}
    found = told(HILL | american | {"hill or cliff": kind})

    assert said(found) == ""
    assert found.weather.site.topography == Feature(feature, 20.0, 50.0, -50.0)


UP = Hill(20.0, 100.0, -50.0, 300.0)
BACK = Hill(20.0, 300.0, 50.0, 100.0)
FLAT = 1.0
BY_SIDE = [
    ("ridge", (UP, FLAT, BACK, FLAT)),
    ("cliff", (Hill(20.0, 100.0, -50.0), FLAT, FLAT, FLAT)),
]


@pytest.mark.parametrize(("kind", "expected"), BY_SIDE, ids=["ridge", "cliff"])
def test_a_ridge_or_cliff_is_met_from_two_sides_or_one(told, kind, expected):
    """A wall that looks south, a slope that looks south: wind from the street climbs it."""
    sizes = HILL | {"hill downwind length": "300 m", "hill or cliff": kind}
    towards = {"wall faces": "S", "hill slope faces": "S", "wind directions": "4"}
    weather = told(sizes | towards).weather

    assert [site.orography for (site,) in weather.sites] == list(expected)
    assert "Winds within 45 deg of 0 deg (bearing 180) climb the slope" in weather.hill_note


def test_beside_a_round_hill_the_worse_of_both_ways_holds(told):
    """Nothing in A.3 says what wind across a hill meets, so nothing is taken off."""
    towards = {"wall faces": "S", "hill slope faces": "E", "wind directions": "4"}
    weather = told(HILL | {"hill downwind length": "300 m"} | towards).weather

    met = [[site.orography for site in sites] for sites in weather.sites]
    assert met == [[UP, BACK], [UP], [UP, BACK], [BACK]]


def test_a_slope_that_nobody_told_the_way_of_is_climbed_by_every_wind(told):
    """The note says which fact would tell."""
    weather = told(HILL | {"wall faces": "S"}).weather

    assert weather.sites == ()
    assert weather.hill_note == (
        "Every wind was taken to climb the slope of the hill, whichever side it comes from: hill "
        "slope faces would tell which do"
    )
