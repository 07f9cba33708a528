"""The register, the issue and the drift of the document. All figures are invented."""

import jsonschema
import pytest

from estimator.reports.document import schema

LUMP = {"part": "L", "shape": "bought", "mass each": "100 kg"}
SIGNED = {"who": "J. Marsh", "date": "2026-03-04"}
ANSWERS = [
    SIGNED | {"about": "pressure", "answer": "1.1 kPa"},
    SIGNED | {"about": "coefficient", "which": "a", "answer": "1.4"},
    SIGNED | {"about": "not listed yet", "answer": "9 %", "date": "2026-02-01"},
    SIGNED | {"about": "not listed yet", "answer": "8 %"},
    SIGNED | {"about": "partial factor variable", "answer": "1.6"},
    SIGNED | {"about": "agreed drift", "answer": "5 %"},
    SIGNED | {"about": "beaten work", "answer": "agreed", "date": "2026-03-09"},
    SIGNED | {"about": "terrain", "answer": "III"},
]
JOB = {"issue": "B", "date": "2026-03-06", "terrain": "I"}


@pytest.fixture(scope="module")
def answered(document):
    """Return the document of a job with answers, one of them later than its issue."""
    return document(job=JOB, parts=[LUMP], answers=ANSWERS)


def test_the_register_holds_everything_once_and_numbered(answered):
    """Answers, then all that nobody told, then all that was assumed."""
    register = answered["register"]
    by_kind = {kind: [row["about"] for row in register if row["kind"] == kind]
               for kind in ("answer", "not told", "assumed")}  # fmt: skip

    assert [row["number"] for row in register] == list(range(1, len(register) + 1))
    assert len(by_kind["answer"]) == len(ANSWERS)
    assert by_kind["not told"] == [row["item"] for row in answered["untold"]]
    assert by_kind["assumed"] == [row["what"] for row in answered["assumptions"]]


EXPECTED = [  # about, before, value, state
    ("stated pressure", "that of EN 1991-1-4", "1100 Pa", "answered"),
    ("coefficient", "none was typed: that of the wind rule", "1.4", "answered"),
    ("not listed yet", "", "9 %", "replaced"),
    ("not listed yet", "5 %, by default", "8 %", "answered"),
    ("partial factor variable", "that of the combination rule", "1.6", "answered"),
    ("agreed drift", "", "5 %", "answered"),
    ("beaten work", "", "agreed", "kept"),
    ("terrain", "I", "III", "answered"),
]


@pytest.mark.parametrize("number", range(len(EXPECTED)))
def test_an_answer_shows_what_stood_there_before(answered, number):
    """Typed, by default, or by a rule; a later answer is named where one counts."""
    row = answered["register"][number]

    assert (row["about"], row["before"], row["value"], row["state"]) == EXPECTED[number]
    assert row["who"] == "J. Marsh"
    if row["state"] == "replaced":
        assert row["why"].startswith("a later answer counts, in answers!")


def test_what_the_maker_types_has_no_blank(answered):
    """An engineer is not asked for the title; the wind rule of a stated pressure is not open."""
    states = {row["about"]: row["state"] for row in answered["register"]}

    assert (states["title"], states["overhead"], states["wall thickness"]) == (
        "job", "job", "open",
    )  # fmt: skip
    assert "wind rule" not in states


def test_an_answer_in_words_closes_what_it_names(answered):
    """What no answer can set is still answered: it needs no blank any more."""
    row = next(row for row in answered["register"] if row["kind"] == "assumed"
               and row["about"] == "beaten work")  # fmt: skip

    assert (row["state"], row["who"], row["date"]) == ("kept", "J. Marsh", "2026-03-09")


def test_what_is_open_can_be_typed_back(answered, document):
    """The words of every blank line are taken under `about`, and none stays open after that."""
    opened = [row for row in answered["register"] if row["state"] == "open"]
    kept = [row for row in opened if row["kind"] == "assumed"]
    again = document(
        job=JOB, parts=[LUMP],
        answers=[*ANSWERS, *(SIGNED | {"about": row["about"], "answer": "so be it"}
                             for row in kept)],
    )  # fmt: skip

    assert len(kept) > 2
    assert [p["found"] for p in again["problems"] if p["severity"] == "refused"] == []
    assert not [row for row in again["register"]
                if row["kind"] == "assumed" and row["state"] == "open"]  # fmt: skip


def test_later_answers_are_not_in_the_issue(answered):
    """Those of the day and before are; so much is taken."""
    assert (answered["issue"]["issue"], answered["issue"]["date"]) == ("B", "2026-03-06")
    assert [(row["about"], row["date"]) for row in answered["issue"]["not_held"]] == [
        ("beaten work", "2026-03-09")
    ]
    assert answered["issue"]["undated"] == []


def test_without_a_date_nothing_can_be_told(document):
    """Neither of an issue without a date, nor of an answer without one."""
    bare = document(job={"issue": "B"}, parts=[LUMP], answers=ANSWERS[:1])
    undated = document(job=JOB, parts=[LUMP], answers=[{"about": "x", "answer": "y"}])

    assert bare["issue"]["undated"][0]["about"] == "stated pressure"
    assert bare["issue"]["not_held"] == []
    assert [row["about"] for row in undated["issue"]["undated"]] == ["x"]


def test_what_was_never_issued_is_not_out_of_date(document):
    """There is nothing that an answer could come after."""
    found = document(job={"date": "2026-01-01"}, parts=[LUMP], answers=ANSWERS)

    assert found["issue"] == {"issue": None, "date": None, "not_held": [], "undated": []}


def test_the_agreed_drift_is_recorded(answered, document):
    """Of the mass as a fraction, of the middle in metres; none where none is agreed."""
    both = document(parts=[LUMP], answers=[
        SIGNED | {"about": "agreed drift", "answer": "30 mm"},
    ])  # fmt: skip

    assert answered["agreed_drift"] == {"mass_fraction": 0.05, "cg_m": None}
    assert both["agreed_drift"] == {"mass_fraction": None, "cg_m": 0.03}


def test_the_document_is_as_the_schema_says(answered):
    """Every new key is described."""
    jsonschema.validate(answered, schema())


def test_the_default_of_the_rule_stood_before(document):
    """C of ASCE 7, not II; and nothing stood where nothing is assumed."""
    found = document(
        job={"wind rule": "ASCE 7-22"}, parts=[LUMP],
        answers=[SIGNED | {"about": "terrain", "answer": "B"},
                 SIGNED | {"about": "wall stiffness ratio", "answer": 15}],
    )  # fmt: skip

    assert [row["before"] for row in found["register"][:2]] == ["C, by default", "not told"]


def test_a_coefficient_somebody_typed_stood_before(document):
    """As the assemblies sheet has it."""
    found = document(
        parts=[LUMP], assemblies=[{"assembly": "a", "coefficient": 1.8}],
        answers=[SIGNED | {"about": "coefficient of a", "answer": 1.4}],
    )  # fmt: skip

    assert (found["register"][0]["before"], found["register"][0]["value"]) == ("1.8", "1.4")


def test_an_assumption_that_is_a_fact_is_closed_by_its_fact(answered):
    """The allowance was answered as "not listed yet"; typed by its other name it sets the same."""
    row = next(row for row in answered["register"]
               if row["about"] == "allowance for what is not listed yet")  # fmt: skip

    assert (row["state"], row["value"], row["cell"]) == ("answered", "8 %", "answers!D5")
