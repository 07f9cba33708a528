"""Loads as .csv."""

import csv
import io

import pytest

from estimator.reports.cases import bracket_files, case_files


def rows_of(text):
    """Return the lines of a .csv by heading."""
    return list(csv.DictReader(io.StringIO(text)))


def test_every_wind_load_has_its_line(document):
    """As many as in the document, with force and moment along the three axes."""
    loads = rows_of(case_files(document)["wind-loads.csv"])

    assert len(loads) == len(document["wind"]["loads"])
    assert float(loads[0]["force_out_n"]) == document["wind"]["loads"][0]["force_n"][2]


def test_every_action_has_its_line(document):
    """Where, by what, in which case and position; units and signs are in the headings."""
    actions = rows_of(bracket_files(document)["brackets.csv"])
    first, recorded = actions[0], document["brackets"][0]

    assert len(actions) == len(document["brackets"])
    assert [first[name] for name in ("bracket", "set", "cause", "case", "position", "sharing")] == [
        recorded[name] for name in ("bracket", "set", "cause", "case", "position", "sharing")
    ]
    assert {
        "wind from [deg]",
        "bracket up [m]",
        "force on the wall across, + to the right [N]",
        "force on the wall up, + uplift [N]",
        "force on the wall out, + pull-out [N]",
        "moment on the wall about across, right-hand rule [N m]",
    } <= first.keys()
    assert float(first["force on the wall out, + pull-out [N]"]) == recorded["force_n"][2]
    assert float(first["bracket across [m]"]) == recorded["at_m"][0]


def test_every_governing_value_has_its_line(document):
    """With its combination; never beside unfactored ones."""
    rows = rows_of(bracket_files(document)["brackets-factored.csv"])

    assert len(rows) == len(document["bracket_envelope"])
    assert float(rows[0]["value"]) == document["bracket_envelope"][0]["value"]
    assert {row["level"] for row in rows} == {"factored"}


@pytest.mark.parametrize(
    ("level", "said"),
    [
        ("peak characteristic", "characteristic, unfactored"),
        ("strength level", "unfactored; wind at strength level"),
    ],
)
def test_every_line_says_whether_it_is_factored(document, level, said):
    """A file may be read apart from the page."""
    document["wind"]["level"] = level

    assert {row["level"] for row in rows_of(bracket_files(document)["brackets.csv"])} == {said}


def test_what_is_incomplete_says_so_on_every_line(document):
    """Rows were left out, so the figures are short."""
    document["complete"] = False

    for text in bracket_files(document).values():
        assert all(row["level"].startswith("INCOMPLETE") for row in rows_of(text))


def test_no_bracket_no_line(document):
    """The heading alone, so that a file of an earlier run does not stay."""
    document["brackets"], document["bracket_envelope"] = [], []

    assert [text.count("\n") for text in bracket_files(document).values()] == [1, 1]


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_no_name_is_run_as_a_formula(document, start):
    """A name that starts as a formula does is led by an apostrophe; numbers keep their minus."""
    document["wind"]["loads"][0].update(assembly=f"{start}1+1", force_n=[-1.0, 0.0, 0.0])
    document["brackets"][0].update(bracket=f"{start}1+1", force_n=[-1.0, 0.0, 0.0])
    load = rows_of(case_files(document)["wind-loads.csv"])[0]
    action = rows_of(bracket_files(document)["brackets.csv"])[0]

    assert load["assembly"] == action["bracket"] == f"'{start}1+1"
    assert load["force_across_n"] == "-1.0"
    assert action["force on the wall across, + to the right [N]"] == "-1.0"
