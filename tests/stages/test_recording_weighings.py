"""What the document says of how sure the mass is."""

import json

import jsonschema
import pytest

import estimator
from estimator.reports.document import schema
from estimator.reports.keeping import keep

SHEET = {"part": "S", "name": "skin", "shape": "sheet", "length": "2 m", "width": "1 m",
         "made of": "copper", "gauge": "1 mm", "relief": 1.1}  # fmt: skip
READING = {"part": "S", "mass": "20 kg", "date": "2026-03-04", "scale": "platform"}
LUMP = {"part": "L", "shape": "bought", "mass each": "100 kg"}


def test_widest_and_weighings_are_as_the_schema_says(document):
    """Every key is described, and it is plain JSON."""
    found = document(parts=[SHEET | {"count": 2}, LUMP], weighed=[READING])

    again = json.loads(json.dumps(found, allow_nan=False))
    jsonschema.Draft202012Validator(schema()).validate(again)
    assert [one["kind"] for one in found["widest"]] == ["sizes", "scale"]
    (weighing,) = found["weighings"]
    assert weighing["weighed_kg"] == 40.0
    assert weighing["ratio"] == weighing["rest_ratio"] == pytest.approx(20 / (17.86 * 1.1))
    assert weighing["cell"] == "weighed!B2"


def test_what_stood_on_a_scale_is_summed(document):
    """Of 140 kg listed 40 were weighed; each part says with what."""
    found = document(parts=[SHEET | {"count": 2}, LUMP], weighed=[READING])

    assert found["mass"]["weighed_kg"] == pytest.approx(40.0)
    assert [part["weighed"] for part in found["parts"]] == ["S", ""]


def test_how_much_narrower(document):
    """100 kg drawn and 40 on a scale: off hypot(10, 0.8), and 0.8 once the sizes are known."""
    found = document(parts=[SHEET | {"count": 2}, LUMP], weighed=[READING],
                     job={"not listed yet": "0 %"})  # fmt: skip
    sizes = found["widest"][0]

    width_kg = found["mass"]["high_kg"] - found["mass"]["low_kg"]
    assert sizes["narrower_kg"] == pytest.approx(width_kg - 1.6)
    assert sizes["narrower_fraction"] == pytest.approx(1 - 1.6 / width_kg)


def test_a_question_of_the_scale_is_among_the_problems(document):
    """It is found while weighing, and stands with what was found while reading."""
    found = document(parts=[SHEET], weighed=[READING | {"mass": "200 kg"}])

    assert ("question", "weighed!B2") in [(p["severity"], p["cell"]) for p in found["problems"]]


def test_tolerances_of_gauges_are_said(document):
    """Each note once, with the gauges it goes for."""
    two = [SHEET, SHEET | {"part": "T", "gauge": "18 SWG"}, SHEET | {"part": "R", "made of": "lead",
                                                                   "gauge": "Code 5"}]  # fmt: skip
    notes = {a["value"]: a["why"] for a in document(parts=two)["assumptions"]
             if a["what"] == "tolerance of gauges"}  # fmt: skip

    assert sorted(notes) == [
        "EN 12588: 5 % either way (as quoted)",
        "program default: 5 % either way, change it to what your merchant states",
    ]
    assert notes["EN 12588: 5 % either way (as quoted)"] == "Code 5 (2.24 mm, 25.4 kg/m2)"


@pytest.fixture
def made(written, tmp_path):
    """Return a function that estimates a job with what was kept of others before."""

    def estimate_with(*kept, **sheets):
        for i, reading_kg in enumerate(kept):
            facts = {"title": f"job {i}"}
            rows = [{"part": "S", "mass": f"{reading_kg} kg"}]
            job = estimator.read_job(written({"parts": [SHEET], "weighed": rows, "job": facts}))
            keep(estimator.estimate(job).document, tmp_path)
        job = estimator.read_job(written(sheets))
        return estimator.estimate(job, tables=tmp_path).document

    return estimate_with


def test_the_own_record_is_offered_and_not_applied(made, document):
    """Three sheets of 19.646 kg that weighed 18, 20 and 22: told beside, masses as without it."""
    found = made(18, 20, 22, parts=[SHEET, LUMP])

    (offer,) = found["own_record"]
    assert (offer["material"], offer["shape"], offer["number"]) == ("copper, hammered", "sheet", 3)
    ends = [offer[name] for name in ("low", "mean", "high", "deviation")]
    assert ends == pytest.approx([kg / 19.646 for kg in (18, 20, 22, 2)], rel=1e-5)
    assert (offer["parts"], offer["estimated_kg"]) == (["S"], pytest.approx(19.646))
    assert offer["jobs"] == [f"{job.split(' (')[0]} (job {i})" for i, job in
                             enumerate(offer["jobs"])]  # fmt: skip
    assert found["parts"] == document(parts=[SHEET, LUMP])["parts"]


NOT_LIKE = [  # parts, readings: nothing like what is in the record, or it was weighed
    ([SHEET | {"relief": 1.0}], []),
    ([SHEET | {"shape": "disc", "diameter": "1 m", "length": "", "width": ""}], []),
    ([SHEET | {"mass each": "5 kg"}], []),
    ([SHEET], [READING]),
]


@pytest.mark.parametrize(("parts", "weighed"), NOT_LIKE)
def test_nothing_is_offered_for_what_is_not_like_it(made, parts, weighed):
    """Flat metal, another shape, a mass that was typed, or a part that was weighed itself."""
    assert made(18, parts=parts, weighed=weighed)["own_record"] == []


def test_a_job_is_not_offered_its_own_weighings(written, tmp_path):
    """They are in its masses already."""
    job = estimator.read_job(written({"parts": [SHEET, SHEET | {"part": "T"}],
                                      "weighed": [READING]}))  # fmt: skip
    keep(estimator.estimate(job).document, tmp_path)

    assert estimator.estimate(job, tables=tmp_path).document["own_record"] == []


def test_two_ratios_have_no_deviation(made):
    """None, never NaN."""
    (offer,) = made(18, 20, parts=[SHEET])["own_record"]

    assert offer["deviation"] is None
