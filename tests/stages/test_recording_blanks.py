"""Records of blanks: plain numbers, as the schema describes them."""

import json
import math

import jsonschema
import pytest

from estimator.reports.document import schema
from estimator.stages.blanking import lay_out
from estimator.stages.recording_blanks import blank_records, forming_records, lap_assumptions

BALL = {"part": "B", "shape": "sphere", "diameter": "1 m", "made of": "copper", "gauge": "1 mm",
        "pieces": 8, "forming": "raised"}  # fmt: skip
FLASHING = {"part": "F", "shape": "sheet", "length": "5 m", "width": "300 mm", "made of": "lead",
            "gauge": "Code 4", "pieces": 4}  # fmt: skip


@pytest.fixture(scope="module")
def blanks(steps):
    """Return the sheets of a ball and of a flashing."""
    return lay_out(steps(upto="resolved", parts=[BALL, FLASHING])["resolved"])


def test_records_are_as_the_schema_says(blanks, library):
    """Every key is described, and there is no NaN for JSON to choke on."""
    parts = schema()["properties"]
    kinds = schema()["$defs"]
    for name, records in (("blanks", blank_records(blanks)),
                          ("formings", forming_records(library))):  # fmt: skip
        jsonschema.validate(records, parts[name] | {"$defs": kinds})
        json.dumps(records, allow_nan=False)


def test_a_gore_is_recorded_with_its_outline(blanks):
    """Half a great circle long and an eighth of the girth wide, eight times."""
    record = blank_records(blanks)[0]

    assert (record["kind"], record["forming"]) == ("gores", "raised")
    assert {s["name"]: round(s["value"], 3) for s in record["sizes"]} == {
        "length": round(math.pi / 2, 3), "width in the middle": round(math.pi / 8, 3),
    }  # fmt: skip
    assert [piece["number"] for piece in record["pieces"]] == [8]
    assert max(x for x, _ in record["outline"][0]) == pytest.approx(math.pi / 2, abs=1e-4)
    assert record["slope_deg"] is None


def test_a_rectangle_needs_no_outline(blanks):
    """Its joints are recorded with who says what they take."""
    record = blank_records(blanks)[1]

    assert record["outline"] == []
    assert (record["joint"], record["joints"], record["slope_deg"]) == (
        "lead lap on a wall", 3, pytest.approx(90.0),
    )  # fmt: skip
    assert record["joint_source"].startswith("Roofing tips of a consultant")
    assert [(p["number"], p["length_m"]) for p in record["pieces"]] == [
        (3, pytest.approx(1.325)), (1, pytest.approx(1.25)),
    ]  # fmt: skip


def test_laps_that_nobody_typed_are_an_assumption(blanks):
    """Named by their joint; what is welded is none."""
    assert lap_assumptions(blanks) == [
        (
            "laps at joints",
            "lead lap on a wall",
            "no build-up types them, so that those worked out count: F 4.5 %",
        )
    ]


def test_ways_of_forming_say_that_they_are_from_memory(library):
    """Every figure of the table is, until a workshop weighs its own."""
    for record in forming_records(library):
        assert "from memory" in record["source"], record["forming"]
