"""Addresses of cells."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.sheets.cells import column_index, column_letters


@pytest.mark.parametrize(
    ("index", "letters"), [(0, "A"), (25, "Z"), (26, "AA"), (701, "ZZ"), (702, "AAA")]
)
def test_columns_are_lettered_as_spreadsheets_do(index, letters):
    """After Z comes AA, after ZZ comes AAA: common practice of every spreadsheet program."""
    assert column_letters(index) == letters


@given(st.integers(0, 20_000))
def test_letters_and_numbers_of_columns_agree(index):
    """Turning a number into letters and back is no change."""
    assert column_index(column_letters(index)) == index
