"""How a problem reads: where it is, what is there, what is wanted, what to do."""

import pytest

from estimator.core.problems import Cell, Problem, Severity

ADDRESSES = [
    (Cell("parts", "D", 9), "parts!D9"),
    (Cell("parts", "", 9), "parts!9"),
    (Cell("parts"), "parts"),
]


@pytest.mark.parametrize(("cell", "address"), ADDRESSES)
def test_an_address_is_what_a_spreadsheet_shows(cell, address):
    """Sheet, column and row are written together, and what is missing is left out."""
    assert str(cell) == address


def test_a_problem_says_where_what_wanted_and_what_to_do():
    """The part stands beside the address, the rest on lines of its own."""
    problem = Problem(
        Severity.REFUSED,
        Cell("parts", "F", 14),
        '"18" has no unit',
        "a length such as 120 mm",
        'type "18 mm"',
        "T15",
    )

    assert str(problem) == (
        'parts!F14 (T15): "18" has no unit\n    wanted: a length such as 120 mm\n    type "18 mm"'
    )


def test_a_problem_with_nothing_to_add_is_one_line():
    """Blank parts of a problem leave no blank lines."""
    problem = Problem(Severity.NOTE, Cell("parts", "X", 1), "there is no such heading", "", "")

    assert str(problem) == "parts!X1: there is no such heading"
