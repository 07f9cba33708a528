"""The sides of the wind as the job sheet tells them: which, and how hard from each."""

import pytest

from estimator.resolve.sides import DIRECTIONS_DEG

SITE = {"basic wind speed": "24 m/s", "datum height": "7.6 m"}
BRITISH = SITE | {"national annex": "UK", "altitude": "83 m"}
STATED = {"wind rule": "stated pressure"}
ADVICE = "    ask the engineer, and say who said so"


@pytest.fixture
def told(resolved):
    """Return a function that resolves a job with these facts."""

    def resolve_facts(facts):
        lines = [f"{item} | {value}" for item, value in facts.items()]
        return resolved({"job": "\n".join(["item | value | source", *lines])})

    return resolve_facts


READ = [
    ("24", DIRECTIONS_DEG),
    ("4", (0.0, 90.0, 180.0, 270.0)),
    ("1", (0.0,)),
    ("270; 0; 45 deg", (0.0, 45.0, 270.0)),
    ("0, 22.5", (0.0, 22.5)),
    ("-90; 360", (0.0, 270.0)),
]


@pytest.mark.parametrize(("typed", "expected"), READ)
def test_directions_are_a_count_or_a_list(told, said, typed, expected):
    """A whole number alone is how many, evenly round from the street."""
    found = told(SITE | {"wind directions": typed})

    assert said(found) == ""
    assert found.weather.sides.directions_deg == pytest.approx(expected)
    assert found.weather.sides.shares == (1.0,) * len(expected)


@pytest.mark.parametrize("typed", ["0", "361", "all", "0; east", ";"])
def test_directions_that_cannot_be_read_are_asked_about(told, said, typed):
    """The usual ones stand in, and that is said."""
    found = told(SITE | {"wind directions": typed})

    assert said(found) == (
        f'job!B4: "{typed}" is neither a count nor a list of directions; 24 were used\n'
        f"    wanted: a count from 1 to 360, or directions in degrees: 0; 45; 90\n{ADVICE}"
    )
    assert found.weather.sides.directions_deg == DIRECTIONS_DEG


def test_the_uk_annex_by_the_compass(told, said):
    """A wall facing 240 deg: c_dir 1.00 from the street, 0.99 at 270, as [UKNA] has it.

    [UKNA] UK National Annex to BS EN 1991-1-4:2005+A1:2010, as reproduced in
    scribd.com/document/451235066: 1.00 at 240, 0.85 at 180, 0.80 at 150 and 0.73 at 60 degrees.
    """
    found = told(BRITISH | {"wall faces": "240 deg", "wind directions": "0; 60; 90; 180"})
    sides, site = found.weather.sides, found.weather.site

    assert said(found) == ""
    assert site.direction_factor == sides.highest == pytest.approx(1.0)
    assert sides.shares == pytest.approx([1.0, 0.85**2, 0.80**2, 0.73**2])
    assert site.uk_altitude_m == 83.0
    assert "60 deg (bearing 180) 0.850" in sides.note


def test_a_typed_direction_factor_goes_before_the_annex(told):
    """The engineer's own is used for every side."""
    found = told(BRITISH | {"wall faces": "SW", "direction factor": "0.9"}).weather

    assert found.site.direction_factor == 0.9
    assert set(found.sides.shares) == {1.0}


def test_without_the_compass_the_annex_has_no_direction_factor(told):
    """One for every side is the cautious reading, and it is said."""
    sides = told(BRITISH).weather.sides

    assert set(sides.shares) == {1.0}
    assert "which way the wall faces was not told" in sides.note


def test_pressures_stated_by_direction(told, said):
    """900 Pa from the street, 700 from the right: the rest of the way round is the larger."""
    found = told(STATED | {
        "stated pressure by direction": "0: 900 Pa; 90: 0.7 kPa | A. Smith", "wind directions": "4",
    })  # fmt: skip
    weather = found.weather

    assert said(found) == ""
    assert (weather.stated_pa, weather.stated_source) == (pytest.approx(900.0), "A. Smith")
    assert weather.sides.shares == pytest.approx([1.0, 7 / 9, 1.0, 1.0])
    assert "0 deg 900 Pa; 90 deg 700 Pa" in weather.sides.note


def test_pressure_by_direction_goes_before_one_for_all(told, said):
    """Both were typed: the finer one is used, and that is asked about."""
    found = told(STATED | {
        "stated pressure": "1 kPa", "stated pressure by direction": "0: 900 Pa",
    })  # fmt: skip

    assert found.weather.stated_pa == pytest.approx(900.0)
    assert said(found) == (
        "job!B4: a pressure for every side stands beside it, and is not used\n"
        f"    wanted: one of the two\n{ADVICE}"
    )


@pytest.mark.parametrize("typed", ["900 Pa", "east: 900 Pa", "0: 900", "0: 0 Pa"])
def test_pressures_by_direction_that_cannot_be_read(told, said, typed):
    """There is no wind then; nothing is guessed."""
    found = told(STATED | {"stated pressure by direction": typed})

    assert not found.weather.known
    assert said(found) == (
        f'job!B3: "{typed}" is not a list of directions with a pressure each, so there are no '
        f"wind figures\n    wanted: 0: 900 Pa; 90: 700 Pa\n{ADVICE}"
    )
