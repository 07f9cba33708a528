"""Whether what was handed out still holds. The document is invented."""

import copy
import json

import jsonschema
import pytest

from estimator.reports import reissue
from estimator.reports.document import schema
from estimator.reports.page import page_html
from estimator.reports.reissue import of_date, out_of_date, stamp, with_earlier
from estimator.reports.summary import summary_text
from estimator.reports.writing import write_reports

LATE = {"about": "wall stiffness ratio", "which": "", "who": "J. Marsh", "date": "2026-06-01",
        "cell": "answers!C2"}  # fmt: skip
COEFFICIENT = LATE | {"about": "coefficient", "which": "dial", "date": None}
AGAIN = "Type a new issue and its date on the job sheet before anything is handed out again."
SHARED = {"$defs": schema()["$defs"]}
OTHER = "ab" * 32


@pytest.fixture
def issued(document, tmp_path):
    """Return a document after the same issue was written to a folder with other inputs."""
    before = copy.deepcopy(document)
    before["inputs_sha256"] = OTHER
    before["mass"] |= {"likely_kg": 400.0, "cg_m": [-0.002, -0.789, 0.14]}
    write_reports(before, tmp_path)
    return document


def test_an_issue_that_holds_everything_says_nothing(document, tmp_path):
    """Nor when the same inputs are written again."""
    write_reports(document, tmp_path)

    assert out_of_date(with_earlier(document, tmp_path)) == []
    assert stamp(document) == ""


def test_answers_after_the_issue_are_named(document):
    """Who said so and when; what was handed out is out of date, and so is every page."""
    document["issue"]["not_held"] = [LATE, COEFFICIENT | {"date": "2026-06-02"}]

    assert out_of_date(document) == [
        (
            "Issue C of 2026-05-11 does not hold these answers: wall stiffness ratio (J. Marsh,"
            " 2026-06-01); coefficient: dial (J. Marsh, 2026-06-02). What was handed out as issue"
            " C is out of date."
        ),
        AGAIN,
    ]
    assert stamp(document) == "Issue C of 2026-05-11 IS OUT OF DATE"
    assert summary_text(document).splitlines()[2].startswith("Issue C of 2026-05-11 does not hold")


def test_answers_without_a_date_are_doubtful(document):
    """Nothing is out of date for sure, so nothing is stamped."""
    document["issue"]["undated"] = [COEFFICIENT | {"who": ""}]

    assert out_of_date(document) == [
        (
            "These answers have no date, so nobody can tell whether issue C of 2026-05-11 holds"
            " them: coefficient: dial (answers!C2). Type their dates on the sheet answers."
        )
    ]
    assert stamp(document) == ""


def test_an_issue_without_a_date_is_doubtful(document):
    """Its date is asked for."""
    document["issue"] |= {"date": None, "undated": [LATE]}

    assert of_date(document["issue"]) == "issue C"
    assert out_of_date(document) == [
        (
            "Issue C has no date, so nobody can tell whether it holds these answers: wall stiffness"
            " ratio (J. Marsh, 2026-06-01). Type its date on the job sheet."
        )
    ]


def test_other_inputs_under_one_issue_are_told(issued, tmp_path):
    """With what mass and middle were: 0.04 m apart, and 446 kg for 400 kg."""
    found = with_earlier(issued, tmp_path)

    assert out_of_date(found) == [
        (
            "The inputs have changed under the same issue C of 2026-05-11: figures of it were"
            " written here on 2026-05-12. The mass was 400\u202fkg, now it is 446\u202fkg"
            " (11.5 %); its centre lies 40\u202fmm from there."
        ),
        AGAIN,
    ]
    assert stamp(found) == "Issue C of 2026-05-11 IS OUT OF DATE"
    assert page_html(found).count("IS OUT OF DATE") == 2


def test_more_than_was_agreed_is_told_to_the_engineer(issued, tmp_path):
    """Of the mass and of the middle, each against its own."""
    issued["agreed_drift"] = {"mass_fraction": 0.05, "cg_m": 0.03}

    told = out_of_date(with_earlier(issued, tmp_path))

    assert told[1:-1] == [
        "The mass has moved by 11.5\u202f%, more than the 5.0\u202f% agreed: tell the engineer.",
        (
            "The centre of gravity has moved by 40\u202fmm, more than the 30\u202fmm agreed: tell"
            " the engineer."
        ),
    ]
    issued["agreed_drift"] = {"mass_fraction": 0.12, "cg_m": 0.05}
    assert len(out_of_date(with_earlier(issued, tmp_path))) == 2


def test_what_changed_is_not_forgotten_by_writing_again(issued, tmp_path):
    """The first figures of an issue are kept until the issue or its date is typed anew."""
    write_reports(issued, tmp_path)
    again = with_earlier(issued, tmp_path)

    assert again["earlier"]["inputs_sha256"] == OTHER
    jsonschema.validate(again["earlier"], {**schema()["properties"]["earlier"], **SHARED})
    assert (
        json.loads((tmp_path / "estimate.json").read_text("utf-8"))["earlier"] == (again["earlier"])
    )
    issued["issue"]["date"] = "2026-05-12"
    assert with_earlier(issued, tmp_path)["earlier"] is None


def test_going_back_to_the_first_inputs_is_no_change(issued, tmp_path):
    """The same values as were handed out give the same figures."""
    write_reports(issued, tmp_path)
    issued["inputs_sha256"] = OTHER

    assert with_earlier(issued, tmp_path)["earlier"] is None


def test_another_way_of_building_is_not_compared(issued, tmp_path):
    """The inputs changed all the same; mass and centre are those of something else."""
    issued["option"] = "lead on wood"
    issued["agreed_drift"] = {"mass_fraction": 0.0, "cg_m": 0.0}

    told = out_of_date(with_earlier(issued, tmp_path))

    assert told[0].endswith("figures of it were written here on 2026-05-12.")
    assert len(told) == 2


def test_the_same_mass_is_said_to_be_the_same(document, tmp_path):
    """An answer may change the pressure alone."""
    write_reports(document | {"inputs_sha256": OTHER}, tmp_path)

    assert out_of_date(with_earlier(document, tmp_path))[0].endswith(
        "written here on 2026-05-12. Mass and centre of gravity are as they were."
    )


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"issue": 3}', "\udce4"])
def test_another_file_of_that_name_is_left_alone(document, tmp_path, text):
    """What this program did not write tells nothing of an issue."""
    (tmp_path / "estimate.json").write_bytes(text.encode("utf-8", "surrogateescape"))

    assert with_earlier(document, tmp_path)["earlier"] is None


def test_what_is_not_issued_is_not_compared(document, tmp_path):
    """Working figures may change as often as they like."""
    document["issue"] |= {"issue": None, "date": None}
    write_reports(document | {"inputs_sha256": OTHER}, tmp_path)

    assert with_earlier(document, tmp_path)["earlier"] is None


def test_a_file_too_large_to_be_ours_is_not_read(issued, tmp_path, monkeypatch):
    """Reading it would only take memory."""
    assert with_earlier(issued, tmp_path)["earlier"] is not None
    monkeypatch.setattr(reissue, "_LARGEST_BYTES", 10)

    assert with_earlier(issued, tmp_path)["earlier"] is None
