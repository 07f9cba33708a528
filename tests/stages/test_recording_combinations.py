"""Combinations and burdens in the document of small jobs."""

import pytest

from estimator.core.constants import GRAVITY_M_S2

STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa",
          "stated pressure kind": "peak characteristic"}  # fmt: skip
BRACKET = {"bracket": "B1", "set": "s", "across": "0 m", "up": "0 m", "reach": "300 mm",
           "section": "SHS 60x60x4", "grade": "mild steel", "holds": "welded"}  # fmt: skip
BALL = {"part": "ball", "shape": "sphere", "diameter": "600 mm", "made of": "copper",
        "gauge": "1 mm"}  # fmt: skip
BOUGHT = {"part": "lump", "shape": "bought", "mass each": "100 kg"}
HUNG = [{"assembly": "a", "carried by": "s"}]


@pytest.fixture(scope="module")
def found(document):
    """Return a function that gives the document of what hangs on one bracket."""

    def of(*parts, assemblies=HUNG, **sheets):
        return document(parts=list(parts), brackets=[BRACKET], assemblies=assemblies, **sheets)

    return of


def test_every_combination_has_its_factors(found):
    """As the envelope names them, with clause and kind, and the sets they are for."""
    doc = found(BALL, job=STATED | {"snow load": "400 Pa"})
    listed = {row["name"]: row for row in doc["combinations"]["list"]}

    assert doc["combinations"]["actions"] == ["wind", "snow"]
    for row in doc["bracket_envelope"]:
        assert any(row["combination"].startswith(name) for name in listed), row["combination"]
    assert {tuple(row["sets"]) for row in listed.values()} == {("s",)}
    plain = next(row for name, row in listed.items() if name.endswith("snow leading with wind"))
    factors = {one["action"]: one["factor"] for one in plain["variable"]}
    assert factors == pytest.approx({"snow": 1.5, "wind": 0.9})


def test_a_narrow_weight_is_the_likely_one(found):
    """A mass as quoted is off by 5 %."""
    doc = found(BOUGHT | {"confidence": "quoted"})

    assert doc["combinations"]["weights"] == [{"set": "s", "low": 1.0, "high": 1.0}]
    assert {row["weight"] for row in doc["combinations"]["list"]} == {1.0}


def test_a_wide_weight_enters_by_its_side(found):
    """A mass as guessed is off by 20 %: 0.8 and 1.2 of it, as said in the notes."""
    job = {"not listed yet": "0 %"}
    doc = found(BOUGHT | {"confidence": "guess"}, job=job)
    (weight,) = doc["combinations"]["weights"]
    whole_n = doc["mass"]["listed_kg"] * GRAVITY_M_S2
    down = min(row["value"] for row in doc["bracket_envelope"] if row["component"] == "down")

    assert (weight["low"], weight["high"]) == pytest.approx((0.8, 1.2), abs=0.01)
    assert down == pytest.approx(-1.35 * weight["high"] * whole_n, rel=1e-9)
    assert any("stands in the place of the likely one" in n for n in doc["combinations"]["notes"])


def test_ice_is_noted_with_what_it_rests_on(found):
    """The class, its share of the pressure, where it is from, and the gust that ASCE 7 has."""
    ice = {"ice thickness": "30 mm"}
    notes = found(BALL, job=STATED | ice)["combinations"]["notes"]
    american = STATED | {"stated pressure kind": "strength level",
                         "combination rule": "ASCE 7-16 strength"}  # fmt: skip
    more = found(BALL, job=american | ice)["combinations"]["notes"]

    assert any("50 % of the pressure for class G3 (ISO 12494, from memory)" in n for n in notes)
    assert not any("Chapter 10 of ASCE 7" in note for note in notes)
    assert any("Chapter 10 of ASCE 7" in note for note in more)


def test_typed_ice_goes_with_the_bare_wind(found):
    """Without a thickness nothing is known of the iced shape."""
    typed = {"load": "I1", "assembly": "a", "mass": "10 kg", "cause": "ice"}
    combined = found(BALL, job=STATED, extra_loads=[typed])["combinations"]

    assert combined["actions"] == ["wind", "ice"]
    assert any("goes with the bare wind" in note for note in combined["notes"])


def test_ice_without_wind_says_so(found):
    """There is its weight alone."""
    doc = found(BALL, job={"ice thickness": "30 mm"})

    assert doc["combinations"]["actions"] == ["ice"]
    assert "No wind is known, so there is no wind on what is iced." in doc["combinations"]["notes"]


@pytest.mark.parametrize(
    ("altitude", "said"),
    [
        ({}, "psi_0 of snow as the altitude is not told: the one for sites up to 1000 m."),
        ({"altitude": "1200 m"}, "psi_0 of snow at 1200 m: the one for sites above 1000 m."),
    ],
)
def test_the_altitude_of_snow_is_said(found, altitude, said):
    """psi0 goes by it."""
    notes = found(BALL, job={"snow load": "400 Pa"} | altitude)["combinations"]["notes"]

    assert said in notes


def test_american_rules_have_no_annex(found):
    """Nor a consequence factor, nor factors of the table."""
    american = STATED | {"stated pressure kind": "strength level",
                         "combination rule": "ASCE 7-16 ASD"}  # fmt: skip
    combined = found(BALL, job=american | {"snow load": "400 Pa"})["combinations"]

    assert any("ASCE 7 has 0.7 for snow" in note for note in combined["notes"])
    assert (combined["annex"], combined["consequence_factor"], combined["factors"]) == (
        None, None, [])  # fmt: skip
    assert combined["wind_level"] == "strength level"


def test_burdens_are_recorded(found):
    """Snow by outline, water by volume, what was typed, and what counts nowhere."""
    loads = [
        {"load": "W", "assembly": "a", "cause": "water trapped"},
        {"load": "P", "assembly": "b", "cause": "person", "force": "1 kN", "together with": "none"},
    ]
    assemblies = [*HUNG, {"assembly": "b", "carried by": "wall"}]
    other = BOUGHT | {"assembly": "b"}
    doc = found(BALL, other, assemblies=assemblies, extra_loads=loads,
                job={"snow load": "400 Pa"})  # fmt: skip
    burdens = doc["burdens"]

    assert [row["assembly"] for row in burdens["snow"]["assemblies"]] == ["a"]
    assert burdens["water"][0]["parts"] == ["ball"]
    assert [(row["load"], row["together"]) for row in burdens["typed"]] == [("W", None), ("P", [])]
    assert burdens["not_held"] == ["P"]


def test_without_burdens(found):
    """No snow is stated, nothing is typed."""
    assert found(BALL)["burdens"] == {"snow": None, "water": [], "typed": [], "not_held": []}
