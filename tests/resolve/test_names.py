"""Names: one spelling however they are typed, and one sentence where their row was refused."""

import pytest

from estimator.core.problems import Severity
from estimator.resolve.names import Names, cannot_be_used, nameless
from estimator.sheets.rows import Row


def _row(line, **values):
    return Row("assemblies", line, values, {"assembly": "A", "mounted_on": "B"})


VANE = Names.of("assembly", [_row(2, assembly="Heron-Vane")], [_row(3, assembly="Sun disc")])


@pytest.mark.parametrize("typed", ["Heron-Vane", "heron vane", "HERON  VANE", "heron_vane"])
def test_a_name_is_found_however_it_is_typed(typed):
    """Without case, hyphens as spaces, and in the spelling of its row."""
    assert VANE[typed] == "Heron-Vane"


def test_a_name_of_a_refused_row_cannot_be_used_but_may_be_typed():
    """Once its row is mended it will do."""
    assert VANE["sun-disc"] == ""
    assert VANE.all == ("Heron-Vane", "Sun disc")
    assert VANE.of_refused("SUN DISC") == (
        'the row "Sun disc" of assemblies cannot be used; mend that first'
    )


def test_a_name_that_stands_in_a_good_row_too_can_be_used():
    """The second row of a name is refused, which does not hurt the first."""
    names = Names.of("assembly", [_row(2, assembly="vane")], [_row(3, assembly="Vane")])

    assert (names["VANE"], names.of_refused("vane"), names.all) == ("vane", "", ("vane",))


def test_a_refused_row_without_a_name_names_nothing():
    """A blank cell elsewhere does not lead to it; where it is meant, its number tells it."""
    names = Names.of("assembly", [], [_row(7)])

    assert (names.all, names.of_refused("")) == ((), "")
    assert cannot_be_used(_row(7)) == "row 7 of assemblies cannot be used; mend that first"


NAMELESS = [
    ("Sun-Disc", 'the row "Sun disc" of assemblies cannot be used; mend that first', "", ""),
    ("moon", "no such thing", "a thing", "type one of: Heron-Vane, Sun disc"),
]


@pytest.mark.parametrize(("typed", "found", "wanted", "advice"), NAMELESS)
def test_a_cell_that_names_nothing_is_refused(typed, found, wanted, advice):
    """Where its row was refused, that is all there is to say."""
    row = _row(9, assembly="hand", mounted_on=typed)
    problem = nameless(row, "mounted_on", (VANE,), ("no such thing", "a thing"), VANE.all)

    assert (problem.found, problem.expected, problem.advice) == (found, wanted, advice)
    assert (problem.severity, str(problem.cell), problem.part) == (
        Severity.REFUSED, "assemblies!B9", "hand"
    )  # fmt: skip


def test_without_any_name_there_is_none_to_offer():
    """The sheet is what is missing."""
    problem = nameless(_row(2, mounted_on="x"), "mounted_on", (Names(),), ("f", "w"), ())

    assert problem.advice == "type one of: none there yet"
