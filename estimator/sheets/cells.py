"""Cells with addresses and no meaning: what any kind of workbook is read into."""

import datetime as dt
from collections.abc import Mapping
from typing import NamedTuple

_C0_AND_C1 = (*range(0x20), *range(0x7F, 0xA0))
_MARKS = (
    0x061C, 0x200B, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A), 0xFEFF,
)  # fmt: skip
"""They turn the order of letters around, or are no letters at all."""
_CLEAN: Mapping[int, str | None] = dict.fromkeys((*_C0_AND_C1, *_MARKS)) | dict.fromkeys(
    map(ord, "\t\n\r\x85\u2028\u2029"), " "
)


class Percent(NamedTuple):
    """A number in a cell that is shown as a percentage: 0.18 shown as 18 %."""

    value: float


class NoSavedValue(NamedTuple):
    """A formula whose result was never saved with the file."""

    formula: str


class ErrorValue(NamedTuple):
    """What a spreadsheet shows where a formula went wrong, such as #REF!."""

    text: str


Raw = str | float | bool | dt.date | dt.time | dt.timedelta | Percent | NoSavedValue | ErrorValue
"""What can stand in a cell; a blank one is the empty text."""


class Heading(NamedTuple):
    """What stands at the top of a column, and the letters of that column."""

    text: str
    letters: str


class RawRow(NamedTuple):
    """A row under the headings: its number in the spreadsheet, and a cell for each heading."""

    line: int
    values: tuple[Raw, ...]


class Sheet(NamedTuple):
    """One sheet: its headings from column A on, blank ones included, and the rows under them."""

    name: str
    header_line: int
    headings: tuple[Heading, ...]
    rows: tuple[RawRow, ...]


class Workbook(NamedTuple):
    """A workbook: its name without a suffix, and its sheets by name."""

    name: str
    sheets: Mapping[str, Sheet]


def cleaned(text: str) -> str:
    """Return text without what could steer a screen, with plain spaces for tabs and new lines."""
    return text if text.isprintable() else text.translate(_CLEAN)


def column_letters(index: int) -> str:
    """Return the letters of a column counted from 0: A, B, ... Z, AA, AB."""
    letters = ""
    number = index + 1
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def column_index(letters: str) -> int:
    """Return the number of a column counted from 0: A is 0, AA is 26."""
    number = 0
    for letter in letters:
        number = 26 * number + ord(letter) - ord("A") + 1
    return number - 1
