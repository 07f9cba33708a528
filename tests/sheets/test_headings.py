"""Headings a person typed, matched with the headings a sheet may have."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.core.problems import Severity
from estimator.sheets.cells import Heading, RawRow, Sheet, column_letters
from estimator.sheets.columns import FORMS
from estimator.sheets.headings import edits, match_headings, nearest


def matched(*texts, sheet="parts", row=()):
    """Return the match of a sheet that has these headings, and one row under them."""
    headings = tuple(Heading(text, column_letters(i)) for i, text in enumerate(texts))
    cells = (*row, *[""] * (len(texts) - len(row)))
    return match_headings(Sheet(sheet, 1, headings, (RawRow(2, cells),)), FORMS[sheet])


def test_headings_are_found_in_any_order_case_and_spacing():
    """The column of a field is where its heading stands."""
    slots = matched("MADE OF", "Part", "kg_per_m", "cut-away [%]", "length (mm)").slots

    assert {field: slot.letters for field, slot in slots.items()} == {
        "made_of": "A", "part": "B", "kg_per_m": "C", "cut_away": "D", "length": "E",
    }  # fmt: skip


def test_the_unit_of_a_heading_is_the_unit_of_its_numbers():
    """Square or round brackets, with or without spaces."""
    slots = matched("length [mm]", "width( in )", "start").slots

    assert slots["length"].read(120.0) == pytest.approx(0.12)
    assert slots["width"].read(1.0) == pytest.approx(0.0254)
    assert slots["start"].read(180.0) == pytest.approx(3.14159265358979)


LENGTHS = "units for that are mm, cm, m, ft, yd, in"
PROBLEMS = [
    (
        "lenght [mm]", Severity.REFUSED,
        'the heading "lenght [mm]" is not known, and its column was not read',
        "a heading of this sheet", 'did you mean "length [mm]"?',
    ),
    (
        "Shapes", Severity.REFUSED,
        'the heading "Shapes" is not known, and its column was not read',
        "a heading of this sheet", 'did you mean "shape"?',
    ),
    (
        "length mm", Severity.REFUSED,
        'the heading "length mm" is not known, and its column was not read',
        "a heading of this sheet", 'did you mean "length [mm]"?',
    ),
    (
        "notes", Severity.NOTE, 'the heading "notes" is not known, and its column was not read',
        "a heading of this sheet", 'did you mean "note"?',
    ),
    (
        "drawing number", Severity.NOTE,
        'the heading "drawing number" is not one this sheet has', "",
        "its column was left aside",
    ),
    (
        "date", Severity.NOTE, 'the heading "date" is not one this sheet has', "",
        "its column was left aside",
    ),
    (
        "length [kg]", Severity.REFUSED, "the unit [kg] in this heading does not fit",
        "a length such as 120 mm", LENGTHS,
    ),
    (
        "count [mm]", Severity.QUESTION,
        'the heading "count [mm]" has a unit, but here stand plain numbers', '"count"',
        "the numbers were read without it",
    ),
]  # fmt: skip


@pytest.mark.parametrize(
    ("heading", "severity", "said"),
    [pytest.param(row[0], row[1], row[2:], id=row[0]) for row in PROBLEMS],
)
def test_a_heading_that_will_not_do_is_told(heading, severity, said):
    """A slip of the pen is refused, since its values were meant to count; the rest is a note."""
    (problem,) = matched("part", heading).problems

    assert problem.severity is severity
    assert (problem.found, problem.expected, problem.advice) == said
    assert str(problem.cell) == "parts!B1"


def test_the_second_of_two_equal_headings_is_refused():
    """Which column counts would otherwise hang on their order."""
    match = matched("length [mm]", "Length [m]")

    assert match.slots["length"].letters == "A"
    assert [str(problem) for problem in match.problems] == [
        (
            'parts!B1: the heading "Length [m]" stands in column A already\n'
            "    wanted: each heading once\n"
            "    this second column was not read; rename or empty one of them"
        )
    ]


def test_something_under_no_heading_is_asked_about():
    """A column that lost its heading would otherwise be lost without a word."""
    match = matched("part", "", "", row=("T1", "", 4.0))

    assert [str(problem) for problem in match.problems] == [
        (
            "parts!C2: there is something in a column without a heading\n"
            "    wanted: a heading above it\n"
            "    it was left aside"
        )
    ]


def test_a_heading_already_told_is_remembered():
    """Numbers under a wrong unit are not told once more for each row."""
    slots = matched("length [kg]", "width [mm]").slots

    assert slots["length"].told
    assert not slots["width"].told


@pytest.mark.parametrize("unit", ["GBP", "\u00a3", "each"])
def test_brackets_without_a_unit_in_them_are_no_problem(unit):
    """A currency or a word in the heading of a price says nothing the reader needs."""
    assert matched(f"price each [{unit}]").problems == ()


NEAREST = [
    ("lenght", "length"), ("legth", "length"), ("lengths", "length"), ("lneght", "length"),
    ("size", None), ("length", None), ("diamter", "diameter"), ("tpi", "tip"), ("id", None),
    ("upp", "up"), ("coun", "count"), ("", None), ("drawing_number", None),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "meant"), NEAREST)
def test_a_slip_of_the_pen_is_seen_through(typed, meant):
    """Two letters in a long word, one in a short word, where two would reach any other."""
    assert nearest(typed, ["length", "diameter", "tip", "up", "count", "shape"]) == meant


def test_nothing_is_near_to_nothing():
    """A list without words has no nearest word."""
    assert nearest("length", []) is None


words = st.text("abc", max_size=6)


@given(words, words)
def test_edits_count_the_same_both_ways(one, other):
    """Distance is symmetric, zero only for equal words, and no more than the longer word."""
    count = edits(one, other)

    assert count == edits(other, one)
    assert (count == 0) == (one == other)
    assert abs(len(one) - len(other)) <= count <= max(len(one), len(other))


@given(words, st.integers(0, 4))
def test_swapped_neighbours_are_one_slip(word, index):
    """Typing two letters in the wrong order is the commonest slip of all."""
    swapped = word[:index] + word[index : index + 2][::-1] + word[index + 2 :]

    assert edits(word, swapped) <= 1
