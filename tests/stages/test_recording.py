"""The estimate document: keys, numbers and words that every report is printed from."""

import json
import math

import jsonschema
import pytest

import estimator
from estimator.reports.document import schema
from estimator.stages import recording_loads
from estimator.stages.recording import CAUTIONS

STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}
BOX = {"part": "B", "shape": "box", "length": "1 m", "width": "600 mm", "depth": "200 mm",
       "made of": "softwood", "finish": "alkyd gloss"}  # fmt: skip
LUMP = {"part": "L", "shape": "bought", "mass each": "100 kg", "out": "400 mm", "price each": 95}
ARM = {"set": "s", "up": "0 m", "reach": "300 mm", "section": "SHS 60x60x4",
       "grade": "mild steel", "holds": "welded", "plate width": "200 mm", "plate height": "200 mm",
       "plate thickness": "10 mm", "fixings across": 2, "fixings up": 2,
       "fixing diameter": "12 mm"}  # fmt: skip
EVERYTHING = {
    "job": STATED | {
        "title": "Vane", "date": "2026-11-02", "datum height": "7.6 m", "wall faces": "SE",
        "ice thickness": "6 mm", "mark-up": "30 %", "not listed yet": "5 %",
    },
    "limits": [{"limit": "headroom", "value": "2.5 m", "source": "licence"},
               {"limit": "hand lift", "value": "25 kg"}],
    "assemblies": [
        {"assembly": "a", "carried by": "s", "lift unit": "one"},
        {"assembly": "hand", "mounted on": "a", "moves": "turns", "axis": "out", "out": "300 mm",
         "positions": 4, "lift unit": "one"},
        {"assembly": "lift", "moves": "slides", "axis": "up", "to": "300 mm", "positions": 2,
         "carried by": "wall"},
    ],
    "parts": [
        BOX, LUMP | {"confidence": "weighed"}, BOX | {"part": "parked", "count": 0},
        {"part": "H", "assembly": "hand", "shape": "flat", "length": "1 m", "width": "100 mm",
         "depth": "10 mm", "along": "up", "up": "400 mm", "made of": "u"},
        {"part": "C", "assembly": "hand", "shape": "bought", "mass each": "3 kg", "up": "-300 mm"},
        LUMP | {"part": "S", "assembly": "lift", "mass each": "20 kg"},
    ],
    "build_ups": [{"build-up": "u", "layer": "skin", "material": "copper", "over": "one face",
                   "amount": "1 mm", "covers": "80 %", "laps": "10 %"}],
    "brackets": [ARM | {"bracket": f"B{n}", "across": f"{a} m"} for n, a in enumerate((-1, 1))],
    "moving": [{"assembly": "hand", "drive torque": "25 Nm", "counterweight part": "C"}],
    "extra_loads": [{"load": "E1", "assembly": "a", "force": "500 N", "cause": "person"}],
    "hours": [{"activity": "making", "likely": "40 h", "rate": "shop"}],
    "rates": [{"name": "shop", "likely": 36}],
    "costs": [{"name": "van", "low": 420, "likely": 520, "high": 780}],
}  # fmt: skip


@pytest.fixture(scope="module")
def full(document):
    """Return the document of a job that has something on most sheets."""
    return document(**EVERYTHING)


def numbers_in(value):
    """Return every number of a document, wherever it is."""
    if isinstance(value, dict):
        return [n for inner in value.values() for n in numbers_in(inner)]
    if isinstance(value, list):
        return [n for inner in value for n in numbers_in(inner)]
    return [value] if isinstance(value, float) else []


JOBS = {
    "everything": EVERYTHING,
    "nothing": {"parts": []},
    "no parts sheet": {},
    "one part": {"parts": [LUMP]},
    "refused": {"parts": [LUMP, {"part": "X", "shape": "sheet", "length": "2 m"}]},
    "mechanism": EVERYTHING | {"brackets": [ARM | {"bracket": "B1", "across": "0 m",
                                                   "holds": "pin"}]},
    "site": EVERYTHING | {"job": {"basic wind speed": "24 m/s", "datum height": "7.6 m"}},
}  # fmt: skip


@pytest.mark.parametrize("name", JOBS)
def test_the_document_is_as_its_schema_says(document, name):
    """Every key is described, nothing else is there, and it is plain JSON without NaN."""
    found = document(**JOBS[name])

    again = json.loads(json.dumps(found, allow_nan=False))
    jsonschema.Draft202012Validator(schema()).validate(again)
    assert all(math.isfinite(number) for number in numbers_in(found))


def test_two_runs_are_equal(written):
    """The same cells give the same document, to the last digit."""
    folder = written(EVERYTHING)
    one, other = (estimator.estimate(estimator.read_job(folder)).document for _ in range(2))

    assert json.dumps(one) == json.dumps(other)


def test_masses_are_listed_and_not_listed(full):
    """What is listed, 5 % of it beside, and the sum; the range carries the allowance as well."""
    mass = full["mass"]

    assert mass["not_listed_kg"] == pytest.approx(0.05 * mass["listed_kg"])
    assert mass["likely_kg"] == pytest.approx(1.05 * mass["listed_kg"])
    assert mass["listed_kg"] == pytest.approx(sum(p["mass_kg"] for p in full["parts"]))
    assert mass["straight_low_kg"] < mass["low_kg"] < mass["likely_kg"]
    assert mass["likely_kg"] < mass["high_kg"] < mass["straight_high_kg"]


def test_parts_and_lift_units_add_up_to_the_whole(full):
    """Mass and centre of all parts, of all lift units, and of the job are the same."""
    listed_kg = full["mass"]["listed_kg"]
    for rows in (full["parts"], full["lift_units"]):
        assert sum(row["mass_kg"] for row in rows) == pytest.approx(listed_kg)
        for axis in range(3):
            moment = sum(row["mass_kg"] * row["cg_m"][axis] for row in rows)
            assert moment / listed_kg == pytest.approx(full["mass"]["cg_m"][axis], abs=1e-9)


def test_what_is_lifted_together(full):
    """Assemblies with one lift unit are lifted as one; the others by their own names."""
    units = {unit["lift_unit"]: unit["assemblies"] for unit in full["lift_units"]}

    assert units == {"one": ["a", "hand"], "lift": ["lift"], "brackets s": ["brackets s"]}


def test_a_lift_unit_has_the_range_of_its_parts(document):
    """100 kg weighed (2 %) and 50 kg guessed (20 %): hypot(2, 10) = 10.2 kg either way."""
    parts = [LUMP | {"confidence": "weighed"},
             LUMP | {"part": "M", "mass each": "50 kg", "confidence": "guess"}]  # fmt: skip
    (unit,) = document(parts=parts)["lift_units"]

    assert unit["high_kg"] - 150 == pytest.approx(math.hypot(2, 10))
    assert 150 - unit["low_kg"] == pytest.approx(math.hypot(2, 10))


def test_an_assembly_that_weighs_nothing_is_not_lifted(document):
    """An assembly without parts is no lift unit."""
    rows = [{"assembly": "a"}, {"assembly": "empty"}]

    assert [u["lift_unit"] for u in document(parts=[LUMP], assemblies=rows)["lift_units"]] == ["a"]


def test_inertia_as_six_numbers(document):
    """10 kg 1 m to either side: cc, uu, oo, cu, uo, co are 0, 20, 20, 0, 0, 0 kg m2."""
    parts = [LUMP | {"part": n, "mass each": "10 kg", "across": a} for n, a in
             (("l", "-1 m"), ("r", "1 m"))]  # fmt: skip
    (row,) = document(parts=parts)["assemblies"]

    assert row["inertia_kgm2"] == pytest.approx([0, 20, 20, 0, 0, 0], abs=1e-9)


def test_every_position_of_a_mover(full):
    """The hand in four positions with its angle, the slider in two without one."""
    rows = full["assemblies"]
    hand = [row for row in rows if row["assembly"] == "hand"]
    slider = [row for row in rows if row["assembly"] == "lift"]

    assert [row["angle_deg"] for row in hand] == pytest.approx([0, 90, 180, 270])
    assert [row["position"] for row in slider] == ["lift at 0 mm", "lift at 300 mm"]
    assert {row["angle_deg"] for row in slider} == {None}


def test_lowest_and_furthest(document):
    """A box of 0.6 x 0.2 m, 3 m below a datum at 7.6 m, 0.5 m out: lowest 4.3 m, furthest 0.6."""
    low = BOX | {"up": "-3 m", "out": "500 mm"}
    (row,) = document(parts=[low], job={"datum height": "7.6 m"})["assemblies"]

    assert row["lowest_m"] == pytest.approx(4.3)
    assert row["furthest_m"] == pytest.approx(0.6)


def test_without_a_datum_height_nothing_is_lowest(document):
    """Nobody said how high the datum is: None, and the ground is not drawn."""
    found = document(parts=[BOX])

    assert found["assemblies"][0]["lowest_m"] is None
    assert found["marks"]["ground_m"] is None


def test_layers_carry_their_words(full):
    """Covers and laps are printed with the layer they belong to."""
    layers = {p["part"]: p["layers"] for p in full["parts"]}

    assert layers["H"][0]["why"] == "covers 80 %, laps 10 %"
    assert layers["L"][0]["why"] == ""
    assert sum(x["mass_kg"] for x in layers["B"]) == pytest.approx(full["parts"][0]["mass_kg"])


def test_sources_are_listed_with_what_they_are_for(full):
    """Each document once, with the materials and finishes that rest on it."""
    ids = [source["id"] for source in full["sources"]]

    assert ids == sorted(set(ids))
    used_for = " ".join(source["used_for"] for source in full["sources"])
    assert "copper" in used_for
    assert "softwood" in used_for


def test_rows_are_accounted_for(full):
    """Six parts read: five used, one parked."""
    parts = full["rows"]["parts"]

    assert (parts["read"], parts["used"], parts["parked"], parts["refused"]) == (6, 5, 1, 0)
    assert full["complete"]


def test_a_refused_row_makes_it_incomplete(document):
    """The rest is worked out, and the problem says where it is."""
    found = document(parts=[LUMP, {"part": "X", "shape": "sheet", "made of": "copper"}])

    assert not found["complete"]
    assert found["mass"]["listed_kg"] == pytest.approx(100.0)
    refused = [p for p in found["problems"] if p["severity"] == "refused"]
    assert refused
    assert all(p["sheet"] == "parts" and p["part"] == "X" for p in refused)


def test_facts_carry_unit_and_source(full):
    """A length in metres, a share in %, a bearing in radians, a date as text; defaults say so."""
    job = full["job"]

    assert (job["datum_height"]["value"], job["datum_height"]["unit"]) == (7.6, "m")
    assert (job["not_listed_yet"]["value"], job["not_listed_yet"]["unit"]) == (0.05, "%")
    assert job["wall_faces"]["unit"] == "rad"
    assert job["date"]["value"] == "2026-11-02"
    assert job["title"]["unit"] == ""
    assert job["currency"]["origin"] == "default"
    assert job["client"]["value"] is None


def test_what_nobody_said_is_listed_with_its_default(document):
    """Shares in %, quantities with their unit, text as it is, and nothing where nothing stands."""
    untold = {row["item"]: row["used"] for row in document(parts=[LUMP])["untold"]}

    assert untold["not listed yet"] == "5 %"
    assert untold["ice thickness"] == "0 m"
    assert untold["currency"] == "GBP"
    assert untold["basic wind speed"] == "nothing"


def test_assumptions_are_collected(full):
    """The general ones, those of brackets, cutting and price, and of what turns."""
    what = [row["what"] for row in full["assumptions"]]

    assert what[:4] == ["allowance for what is not listed yet", "low and high", "a finish",
                        "beaten work"]  # fmt: skip
    assert {"cutting", "hand, turning", "wall behind the brackets, pulled"} <= set(what)
    assert full["assumptions"][0]["value"] == "5 %"


def test_what_is_not_drawn_is_said(document):
    """4001 copies are too many to tell apart; the price note is there as well."""
    row = BOX | {"count": 4001, "set out": "row", "spread": "8 m"}
    rows = {x["what"]: x["value"] for x in document(parts=[row])["assumptions"]}

    assert rows["drawings"] == "left out"
    assert rows["price"] == "neither mark-up nor margin is given: the price is the cost"


def test_cautions_are_always_there(document):
    """Whatever the job, the cautions are printed, the engineer among them."""
    cautions = document(parts=[])["cautions"]

    assert cautions == list(CAUTIONS)
    assert any("A structural engineer must choose and check fixings" in c for c in cautions)


FORBIDDEN = (" safe", "approved", " OK", "passes", "capacity")


def test_nothing_is_approved(full):
    """No sentence of the document says that anything will do."""
    text = json.dumps(full)

    assert not [word for word in FORBIDDEN if word in text]


def test_wind_directions_have_compass_points(full):
    """The wall faces SE: from the street is south-east, from the right, 90 deg, north-east."""
    points = {load["direction_deg"]: load["compass"] for load in full["wind"]["loads"]}

    assert points[0.0] == "south-east"
    assert points[90.0] == "north-east"
    assert points[270.0] == "south-west"


def test_without_a_bearing_there_is_no_compass(document):
    """Nobody said which way the wall faces: the point is left blank."""
    loads = document(parts=[BOX], job=STATED)["wind"]["loads"]

    assert {load["compass"] for load in loads} == {""}


def test_wind_loads_of_a_wall_and_of_a_free_thing(document):
    """13 directions, 2 senses, 3 places on a wall; 24 directions, one sense, 3 places free."""
    on_wall, free = (
        document(parts=[BOX], job=STATED, assemblies=[{"assembly": "a", "stands": stands}])
        for stands in ("off wall", "free")
    )

    assert len(on_wall["wind"]["loads"]) == 13 * 2 * 3
    assert len(free["wind"]["loads"]) == 24 * 3
    assert {load["case"].split(",")[0] for load in free["wind"]["loads"]} == {"along the wind"}
    assert {load["case"].split(",")[0] for load in on_wall["wind"]["loads"]} == {
        "pressed to the wall", "pulled off the wall"
    }  # fmt: skip


def test_very_many_loads_are_listed_by_main_direction(document, monkeypatch):
    """Beyond the limit only 0, 90, 180 and 270 degrees are listed, and it is said."""
    monkeypatch.setattr(recording_loads, "MOST_LOADS", 50)
    wind = document(parts=[BOX], job=STATED)["wind"]

    assert {load["direction_deg"] for load in wind["loads"]} == {0.0, 90.0, 270.0}
    assert any("60 wind loads between the four main directions" in note for note in wind["notes"])


def test_no_wind_has_no_pressure(document):
    """None, not zero."""
    wind = document(parts=[BOX])["wind"]

    assert wind["pressure_pa"] is None
    assert (wind["loads"], wind["parts"], wind["steps"]) == ([], [], [])


def test_a_stated_pressure_has_no_height(document):
    """It was not worked out for a height, so that there is none to print."""
    assert document(parts=[BOX], job=STATED)["wind"]["parts"][0]["height_m"] is None


def test_what_moves_is_recorded(full):
    """Balance by angle, the counterweight, the drive; what it has not does not count."""
    (hand,) = full["moving"]

    assert len(hand["gravity_by_angle"]) == 24
    assert hand["counterweight_part"] == "C"
    assert hand["counterweight_radius_m"] == pytest.approx(0.3)
    assert hand["drive_torque_nm"] == 25.0
    idle = ("ice", "only were")
    wind = [
        c["torque_nm"] for c in hand["cases"] if not any(word in c["mechanism"] for word in idle)
    ]
    assert hand["wind_torque_nm"] == max(wind)


def test_what_is_not_known_of_a_mover_is_none(document):
    """No drive, no counterweight, no wind: None everywhere, never NaN."""
    mover = {"assembly": "a", "moves": "turns"}
    (row,) = document(parts=[LUMP], assemblies=[mover])["moving"]

    names = ("counterweight_kg", "counterweight_part", "drive_torque_nm", "wind_torque_nm")
    assert [row[name] for name in names] == [None] * 4


def test_brackets_and_their_envelope(full):
    """A set with its brackets, actions by cause at their place, twelve components each."""
    (one,) = full["bracket_sets"]

    assert one["brackets"] == ["B0", "B1"]
    assert one["mechanism"] is None
    assert one["residual"] <= 1e-9
    assert {tuple(row["at_m"]) for row in full["brackets"]} == {(-1.0, 0.0, 0.0), (1.0, 0.0, 0.0)}
    assert len(full["bracket_envelope"]) == 2 * 12
    assert {row["unit"] for row in full["bracket_envelope"]} == {"N", "N m"}


def test_a_mechanism_is_recorded_in_words(document):
    """One pin lets it swing every way; the record says so."""
    pin = ARM | {"bracket": "B1", "across": "0 m", "holds": "pin"}
    (one,) = document(parts=[LUMP], brackets=[pin])["bracket_sets"]

    assert "free to turn about" in one["mechanism"]


def test_marks_on_the_drawings(full):
    """Centre of gravity, brackets with their characteristic pull, wind centres, ground, limits."""
    marks = full["marks"]

    assert marks["cg_m"] == pytest.approx(full["mass"]["cg_m"])
    assert marks["ground_m"] == pytest.approx(-7.6)
    assert [row["bracket"] for row in marks["brackets"]] == ["B0", "B1"]
    assert marks["brackets"][0]["bears_m"] == [-1.0, 0.0, 0.3]
    assert marks["brackets"][0]["pull_out_n"] > 0
    assert {row["assembly"] for row in marks["wind_centres"]} == {"a", "hand"}
    limits = {row["limit"]: (row["value_m"], row["source"]) for row in marks["limits"]}
    assert limits == {"headroom": (2.5, "licence"), "hand lift": (None, "not said")}


def test_cost_lines_add_up(full):
    """40 h x 36 = 1440, and the van; the price is 30 % on the cost."""
    cost = full["cost"]
    by_name = {line["name"]: line["likely"] for line in cost["lines"]}

    assert by_name["hours"] == pytest.approx(1440.0)
    assert cost["sum_of_likely"] == pytest.approx(sum(by_name.values()))
    price = next(line for line in cost["price_lines"] if line["name"] == "price")
    assert price["likely"] == pytest.approx(1.3 * cost["sum_of_likely"])


def test_the_order_has_no_nan(full):
    """A price nobody gave is None."""
    prices = [line["price_each"] for line in full["order"]["lines"]]

    assert None in prices
    assert 95.0 in prices


def test_views_are_drawn_from_far_to_near(full):
    """Each view has its shapes in the order they are drawn over one another."""
    for view in full["views"].values():
        depths = [shape["depth_m"] for shape in view["shapes"]]
        assert depths == sorted(depths)
    assert [sweep["assembly"] for sweep in full["views"]["front"]["sweeps"]] == ["hand"]


def test_a_view_of_nothing(document):
    """An empty sheet has an empty box."""
    assert document(parts=[LUMP])["views"]["front"] == {
        "box_m": [0.0, 0.0, 0.0, 0.0], "shapes": [], "sweeps": []
    }  # fmt: skip


def test_one_line_for_each_way_of_building(document):
    """Two options: each has its mass; rows without an option count for both."""
    parts = [LUMP, LUMP | {"part": "M", "option": "iron", "mass each": "50 kg"},
             LUMP | {"part": "N", "option": "wood", "mass each": "20 kg"}]  # fmt: skip
    found = document(parts=parts, job={"not listed yet": "0 %"})

    masses = {row["option"]: row["mass_kg"] for row in found["options_table"]}
    assert masses == pytest.approx({"iron": 150.0, "wood": 120.0})
    assert found["option"] == "iron"


def test_pulls_of_each_way_of_building(full):
    """What pulls hardest on each set is beside mass and price."""
    (row,) = full["options_table"]
    (pull,) = row["pulls"]

    assert set(pull) == {"set", "bracket", "moment_nm", "pull_out_n"}
    assert (pull["set"], pull["bracket"] in {"B0", "B1"}) == ("s", True)


def test_parts_blown_one_by_one_have_cases_of_their_own(document):
    """Each at its own middle, and boards off it to either side; a rod has only the first."""
    shown = document(
        parts=[{"part": "P", "shape": "sheet", "length": "1 m", "width": "1 m",
                "made of": "copper", "gauge": "1 mm"}],
        assemblies=[{"assembly": "a", "stands": "free", "wind": "parts"}],
        job={"wind rule": "stated pressure", "stated pressure": "1 kPa"},
    )  # fmt: skip
    cases = [(load["direction_deg"], load["case"]) for load in shown["wind"]["loads"]]

    assert len(set(cases)) == len(cases)
    assert {case for _, case in cases} == {
        "along the wind, each part at its own middle",
        "along the wind, boards and figures off to the right",
        "along the wind, boards and figures off to the left",
    }
    rod = {"part": "R", "shape": "rod", "length": "1 m", "diameter": "20 mm", "along": "up",
           "made of": "copper"}  # fmt: skip
    shown = document(
        parts=[rod], job={"wind rule": "stated pressure", "stated pressure": "1 kPa"},
        assemblies=[{"assembly": "a", "stands": "free", "wind": "parts"}],
    )  # fmt: skip
    assert {load["case"] for load in shown["wind"]["loads"]} == {
        "along the wind, each part at its own middle"
    }
