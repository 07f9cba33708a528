"""Arms in the estimate document: what is known and what is not, by the schema."""

import json
from dataclasses import replace

import jsonschema
import numpy as np
import pytest

from estimator.reports.document import schema
from estimator.stages.arming import arm
from estimator.stages.holding_demands import Demands, Source
from estimator.stages.recording_arms import arm_records
from estimator.supports.combinations import Combination, Kind

PRESSED = np.array([0.0, -1000.0, 200.0, 900.0, 0.0, 10.0])
"""Down, out and a little twisted, on an arm of 0.9 m."""
RULES = [
    Combination("sup", "6.10", Kind.STRENGTH, 1.35, {"wind": 1.5}),
    Combination("all", "6.14b", Kind.SERVICE, 1.0, {"wind": 1.0}),
    Combination("permanent only", "6.14b", Kind.SERVICE, 1.0, {}),
]
DEMANDS = Demands(
    np.array([1.5 * PRESSED, PRESSED, 0.5 * PRESSED]),
    tuple(Source(rule, "by hand", "as drawn", "rigid") for rule in RULES),
)
BRACKET = {"bracket": "B1", "set": "s", "across": "0 mm", "up": "0 mm", "reach": "900 mm",
           "section": "HFSHS 80x80x5", "grade": "S235", "holds": "welded"}  # fmt: skip
JOBS = [
    {},
    {"section": "trial SHS"},
    {"section": "UPN 80"},
    {"grade": "copper"},
    {"stay from": "500 mm", "stay section": "round 12"},
    {"stay from": "-500 mm", "stay section": "CHS 33.7x3"},
]


@pytest.fixture(scope="module")
def recorded(steps):
    """Return a function that gives the record of one arm under some demands."""

    def run(cells, demands):
        found = steps(
            upto="held", brackets=[BRACKET | cells],
            parts=[{"part": "p", "shape": "bought", "mass each": "20 kg"}],
            assemblies=[{"assembly": "a", "carried by": "s"}],
        )  # fmt: skip
        held = [replace(found["held"][0], demands={"B1": demands} if demands else {})]
        arms = arm(found["resolved"], found["weights"], held)
        return arm_records(arms, found["resolved"].sag_limit)

    return run


@pytest.mark.parametrize("demands", [DEMANDS, None])
@pytest.mark.parametrize("cells", JOBS)
def test_the_records_keep_the_schema(recorded, cells, demands):
    """Whatever is known or not, without a number that is none."""
    described = schema()
    records = recorded(cells, demands)

    jsonschema.validate(records, described["properties"]["arms"] | {"$defs": described["$defs"]})
    json.dumps(records, allow_nan=False)


def test_what_is_recorded_of_an_arm(recorded):
    """The ratio is the stress by the yield, and the movement a part of where the load bears."""
    (record,) = recorded({}, DEMANDS)

    assert record["ratio"] == pytest.approx(record["stress"]["von_mises_pa"] / 235e6)
    assert record["stress"]["action"] == pytest.approx(1.5 * PRESSED)
    assert [move["share"] for move in record["moves"]] == ["permanent", "variable", "both"]
    assert all(m["over"] * m["sag_m"] == pytest.approx(0.9) for m in record["moves"])
    assert record["made"] == "hot-finished"
    assert record["sag_limit"]["over"] == 180.0


def test_a_copper_arm_has_no_ratio(recorded):
    """No yield is made up for it, and it says so."""
    (record,) = recorded({"grade": "copper"}, DEMANDS)

    assert (record["ratio"], record["yield_pa"]) == (None, None)
    assert "not in the tables" in record["note"]
