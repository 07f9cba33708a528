"""Rows of a lookup table as text for a terminal."""

import pytest

from estimator.reference.lookup import View
from estimator.reports.tables_text import table_text

NARROW = View(
    "kerfs",
    ("key", "kerf_mm", "note", "from"),
    (
        ("laser", "0.1", "", "A guide (as quoted)"),
        ("plasma", "1.5", "worn nozzles cut wider than new ones do", "A guide (as quoted)"),
        ("bandsaw", "12", "", "Habit (from memory)"),
    ),
)


def test_numbers_stand_right_and_sources_are_said_once():
    """Digits line up; the same document is one line below the table."""
    assert table_text(NARROW, 100).splitlines() == [
        "key      kerf_mm  note                                     from",
        "laser        0.1                                           [1]",
        "plasma       1.5  worn nozzles cut wider than new ones do  [1]",
        "bandsaw       12                                           [2]",
        "",
        "[1] A guide (as quoted)",
        "[2] Habit (from memory)",
    ]


def test_long_words_go_on_in_the_next_line():
    """The widest column gives way first."""
    lines = table_text(NARROW, 48).splitlines()

    assert lines[2:4] == [
        "plasma       1.5  worn nozzles cut wider    [1]",
        "                  than new ones do",
    ]


def test_columns_that_cannot_fit_become_a_block_a_row():
    """Blank cells are left out, and each block says where it comes from."""
    assert table_text(NARROW, 30).split("\n\n")[0].splitlines() == [
        "key      laser",
        "kerf_mm  0.1",
        "from     A guide (as quoted)",
    ]


@pytest.mark.parametrize("width", [35, 40, 60, 80, 200])
def test_no_line_is_longer_than_the_terminal(width):
    """However wide that is."""
    assert max(map(len, table_text(NARROW, width).splitlines())) <= width


def test_no_row_is_said_in_words():
    """Nothing printed at all would look like a fault."""
    empty = View("kerfs", ("from",), ())

    assert table_text(empty, 80) == "No row of kerfs has that word."
