"""Ways of building: which rows count, and the account of every row read."""

import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from estimator import read_job
from estimator.core.problems import Cell, Problem, RequestError, Severity
from estimator.files.shelf import Shelf
from estimator.resolve.job import resolve
from estimator.resolve.options import (
    Account,
    choose,
    default_option,
    named_option,
    of_every_way,
)

TWO_WAYS = {
    "parts": """
    option | part | assembly | count | shape | diameter | made of | gauge
           | D1   | dial     | 1     | disc  | 1 m      | copper  | 1.5 mm
    Copper | D2   | dial     | 2     | disc  | 1 m      | copper  | 1.5 mm
    lead   | D2   | dial     | 3     | disc  | 1 m      | lead    | Code 5
    copper | D3   | dial     | 0     | disc  | 1 m      | coper   | 1.5 mm
    copper | D4   | dial     | 1     | disc  | 1 m      | coper   | 1.5 mm
           | D5   | dial     | two   | disc  | 1 m      | copper  | 1.5 mm
    """
}


def test_rows_of_the_option_and_rows_of_every_option_count(read):
    """A blank option belongs to every way of building, and case does not matter."""
    chosen = choose(read(TWO_WAYS), "copper")

    assert [row.text("part") for row in chosen.of("parts")] == ["D1", "D2", "D3", "D4"]
    assert chosen.others["parts"] == 1
    assert chosen.of("no such sheet") == ()


def test_the_account_says_what_became_of_each_row(resolved):
    """One row is another option's, one is parked, one cannot be read, one has no material."""
    found = resolved(TWO_WAYS, "Copper")

    assert found.accounts["parts"] == Account(
        read=6, used=2, other_option=1, parked=1, replaced=0, refused=2
    )
    assert [part.count for part in found.columns.parts] == [1, 2]


@pytest.mark.parametrize(
    ("shown", "expected"), [("LEAD", "lead"), ("copper", "Copper"), ("zinc", "Copper")]
)
def test_the_job_sheet_names_the_option_that_is_shown(read, shown, expected):
    """Without a match it is the first option in the workbook."""
    job = read(TWO_WAYS | {"job": f"item | value\n option shown | {shown}"})

    assert default_option(job) == expected


@pytest.mark.parametrize(
    ("name", "expected"), [("copper", "Copper"), ("LEAD", "lead"), (None, "Copper")]
)
def test_an_option_is_named_without_regard_to_case(read, name, expected):
    """It comes back in the workbook's own spelling."""
    assert named_option(read(TWO_WAYS), name) == expected


@pytest.mark.parametrize(
    ("sheets", "choices"), [(TWO_WAYS, "Copper, lead"), ({}, "none")], ids=["two", "none"]
)
def test_an_option_that_is_not_there_is_refused(read, sheets, choices):
    """The report would be about another way of building than the one that was asked for."""
    with pytest.raises(RequestError) as raised:
        named_option(read(sheets), "zinc")

    assert str(raised.value) == f'no option "zinc" in job; there are {choices}'


def test_a_job_with_one_way_of_building_has_a_blank_option(read):
    """No row names an option, so there is none to name."""
    assert default_option(read({})) == ""


MATERIALS = st.sampled_from(["copper", "lead", "coper", "stainless", "skin", "broken", "softwood"])
PART_ROWS = st.lists(
    st.tuples(
        st.sampled_from(["", "one", "two"]),
        st.sampled_from(["dial", "hand", "nowhere"]),
        st.sampled_from(["0", "1", "3", "x"]),
        st.sampled_from(["disc", "sheet", "box", "tube", "hoop", "section", "mesh", "blob", "run"]),
        MATERIALS,
        st.sampled_from(["", "1.5 mm", "18", "Code 5", "90 mm"]),
        st.sampled_from(["", "painted", "piant"]),
        st.sampled_from(["", "2 kg"]),
    ),
    max_size=6,
)
ASSEMBLY_ROWS = st.lists(
    st.tuples(
        st.sampled_from(["", "dial", "hand", "sign"]),
        st.sampled_from(["", "B", "wall", "hand", "none such"]),
        st.sampled_from(["", "dial", "hand"]),
        st.sampled_from(["fixed", "turns", "slides"]),
        st.sampled_from(["", "90 deg", "300 mm"]),
    ),
    max_size=4,
)
BRACKET_ROWS = st.lists(
    st.tuples(
        st.sampled_from(["B", "C"]),
        st.sampled_from(["", "300 mm", "5 mm"]),
        st.sampled_from(["", "SHS 60x60x4", "SHS 61", "trial"]),
        st.sampled_from(["", "S275", "softwood"]),
        st.sampled_from(["", "10 mm"]),
        st.sampled_from(["", "120 mm"]),
    ),
    max_size=3,
)
MONEY_ROWS = st.lists(
    st.tuples(*[st.sampled_from(["", "1", "2", "3"])] * 3, st.sampled_from(["bench", "site"])),
    max_size=3,
)
BUILD_UPS = """
    build-up | layer | material | over     | amount | finish
    skin     | sheet | copper   | one face | 1 mm   | painted
    broken   | sheet | copper   | solid    | 1 mm   |
    """


def _table(headings, rows):
    return "\n".join(["|".join(headings), *("|".join(row) for row in rows)])


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.tuples(PART_ROWS, ASSEMBLY_ROWS, BRACKET_ROWS, MONEY_ROWS),
    st.sampled_from(["", "one", "two"]),
)
def test_the_account_adds_up_on_any_workbook(write_job, library, rows, option):
    """Every row read has one fate, and what is counted as used is what the tables hold."""
    parts, assemblies, brackets, money = rows
    sheets = {
        "parts": _table(
            ["part", "option", "assembly", "count", "shape", "made of", "gauge", "finish",
             "mass each", "length", "width", "depth", "diameter", "section"],
            [(f"P{i}", *row, "1 m", "0.5 m", "0.1 m", "0.8 m", "flat 50x6")
             for i, row in enumerate(parts)],
        ),
        "assemblies": _table(
            ["assembly", "carried by", "mounted on", "moves", "to"], assemblies
        ),
        "brackets": _table(
            ["bracket", "set", "reach", "section", "grade", "plate thickness", "plate width",
             "plate height", "across", "up", "holds"],
            [(f"B{i}", *row, "200 mm", "0 mm", "0 mm", "welded")
             for i, row in enumerate(brackets)],
        ),
        "build-ups": BUILD_UPS,
        "rates": "name | amount\n bench | 40",
        "hours": _table(["activity", "low", "likely", "high", "rate"],
                        [(f"A{i}", *row) for i, row in enumerate(money)]),
        "costs": _table(["name", "low", "likely", "high"],
                        [(f"C{i}", *row[:3]) for i, row in enumerate(money)]),
    }  # fmt: skip
    with tempfile.TemporaryDirectory() as folder:
        job = read_job(write_job(Path(folder), sheets))
        found = resolve(job, library, option, Shelf(job.folder))

    for sheet, account in found.accounts.items():
        total = (account.used + account.other_option + account.parked + account.replaced
                 + account.refused)  # fmt: skip
        assert account.read == total, sheet
        assert min(account.used, account.parked, account.refused) >= 0, sheet
    listed = [part for part in found.columns.parts if part.cell.sheet == "parts"]
    assert found.accounts["parts"].used == len({part.cell for part in listed})
    assert found.accounts["brackets"].used == len(found.brackets)
    assert found.accounts["hours"].used == len(found.trade.activities)
    assert found.accounts["costs"].used == len(found.trade.expenses)
    assert found.complete == (not any(account.refused for account in found.accounts.values()))


def test_the_graver_of_two_is_told(write_job, tmp_path):
    """One place with one finding is told once: as a question where it is a note in another way."""
    job = read_job(write_job(tmp_path / "job", {"parts": "part | assembly\nT1 | dial"}))
    note = Problem(Severity.NOTE, Cell("parts", "A", 2), "it is open", "", "close it", "T1")
    question = replace(note, severity=Severity.QUESTION)

    assert of_every_way([note], [("lead", [question])], job) == (
        replace(question, found="it is open (in the way lead)"),
    )
    assert of_every_way([question], [("lead", [note]), ("zinc", [note])], job) == (question,)


def test_a_problem_of_several_other_ways_names_them_all(write_job, tmp_path):
    """What holds for the way that is shown names none."""
    job = read_job(write_job(tmp_path / "job", {"parts": "part | assembly\nT1 | dial"}))
    one = Problem(Severity.REFUSED, Cell("parts", "A", 2), "it is open", "", "close it", "T1")
    two = replace(one, found="it is empty")

    said = of_every_way([one], [("lead", [one, two]), ("zinc", [two])], job)

    assert [problem.found for problem in said] == [
        "it is open", "it is empty (in the way lead and zinc)"
    ]  # fmt: skip
