"""Match what stands at the top of a sheet with the columns it may have."""

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from estimator.core.problems import Cell, Problem, Severity
from estimator.core.units import KINDS, unit_named, wanted
from estimator.sheets.cells import Heading, Sheet
from estimator.sheets.columns import FORMS, NOTE, Column, Form, Reads, field_of
from estimator.sheets.converters import Reader, quoted, reader

_UNIT_IN_BRACKETS = re.compile(r"(?P<heading>.*?)\s*[\[(](?P<unit>[^\[\]()]*)[\])]\s*")
_SHORT_WORD = 4
_MOST_SLIPS = 2
_KNOWN_ANYWHERE = frozenset(column.field for form in FORMS.values() for column in form.columns)
_MEASURED = frozenset({Reads.QUANTITY, Reads.SIZE, Reads.SHARE, Reads.AMOUNT, Reads.LAYER,
                       Reads.STOCK_SIZE})  # fmt: skip
_UNITLESS = frozenset({Reads.COUNT, Reads.NUMBER})


@dataclass(frozen=True, slots=True)
class Slot:
    """A column of a sheet that is read.

    Attributes:
        index: Its place in a raw row.
        letters: Letters of the column.
        column: What it holds.
        unit: Unit in its heading; blank for none, and for one that does not fit.
        read: What turns a cell of it into a value.
        told: Whether its heading is already a problem, so that a number without a unit is not
            told again.
    """

    index: int
    letters: str
    column: Column
    unit: str
    read: Reader
    told: bool


@dataclass(frozen=True, slots=True)
class Headings:
    """The columns of a sheet that are read, what is wrong with its headings, and their row."""

    slots: Mapping[str, Slot]
    problems: tuple[Problem, ...]
    line: int


def match_headings(sheet: Sheet, form: Form) -> Headings:
    """Return which column of a sheet holds which field."""
    columns = {column.field: column for column in form.columns}
    slots: dict[str, Slot] = {}
    problems: list[Problem] = []
    for index, heading in enumerate(sheet.headings):
        cell = Cell(form.sheet, heading.letters, sheet.header_line)
        match = _UNIT_IN_BRACKETS.fullmatch(heading.text)
        name, unit = (match["heading"], match["unit"].strip()) if match else (heading.text, "")
        column = columns.get(field_of(name))
        if column is None:
            problems += (
                _unknown(heading, (name, unit), cell, columns) if name else _nameless(sheet, index)
            )
        elif column.field in slots:
            problems.append(_twice(heading, cell, slots[column.field]))
        else:
            wrong = _wrong_unit(column, unit, heading, cell)
            problems += wrong
            unit = "" if wrong else unit
            slots[column.field] = Slot(
                index, heading.letters, column, unit, reader(column, unit), told=bool(wrong)
            )
    return Headings(slots, tuple(problems), sheet.header_line)


def _unknown(
    heading: Heading, name_and_unit: tuple[str, str], cell: Cell, columns: Mapping[str, Column]
) -> list[Problem]:
    """Return a problem for a slip of the pen, a note for anything else."""
    name, unit = name_and_unit
    words = name.split()
    without_unit = columns.get(field_of(" ".join(words[:-1])))
    if without_unit and any(unit_named(words[-1], KINDS[kind]) for kind in without_unit.kinds):
        column, unit = without_unit, words[-1]
    elif field_of(name) not in _KNOWN_ANYWHERE and (near := nearest(field_of(name), columns)):
        column = columns[near]
    else:
        found = f"the heading {quoted(heading.text)} is not one this sheet has"
        return [Problem(Severity.NOTE, cell, found, "", "its column was left aside")]
    found = f"the heading {quoted(heading.text)} is not known, and its column was not read"
    advice = f'did you mean "{column.heading}{f" [{unit}]" if unit else ""}"?'
    severity = Severity.NOTE if column is NOTE else Severity.REFUSED
    return [Problem(severity, cell, found, "a heading of this sheet", advice)]


def _nameless(sheet: Sheet, index: int) -> list[Problem]:
    """Return a problem for a column that holds something under no heading."""
    lines = [row.line for row in sheet.rows if index < len(row.values) and row.values[index] != ""]
    if not lines:
        return []
    cell = Cell(sheet.name, sheet.headings[index].letters, lines[0])
    found = "there is something in a column without a heading"
    return [Problem(Severity.QUESTION, cell, found, "a heading above it", "it was left aside")]


def _twice(heading: Heading, cell: Cell, first: Slot) -> Problem:
    found = f"the heading {quoted(heading.text)} stands in column {first.letters} already"
    advice = "this second column was not read; rename or empty one of them"
    return Problem(Severity.REFUSED, cell, found, "each heading once", advice)


def _wrong_unit(column: Column, unit: str, heading: Heading, cell: Cell) -> list[Problem]:
    if not unit:
        return []
    if column.reads in _UNITLESS:
        found = f"the heading {quoted(heading.text)} has a unit, but here stand plain numbers"
        advice = "the numbers were read without it"
        return [Problem(Severity.QUESTION, cell, found, f'"{column.heading}"', advice)]
    kinds = tuple(KINDS[name] for name in column.kinds)
    if column.reads not in _MEASURED or any(unit_named(unit, kind) for kind in kinds):
        return []
    found = f"the unit [{unit}] in this heading does not fit"
    units = ", ".join(name for kind in kinds for name in kind.units if name not in {"'", '"'})
    advice = f"units for that are {units}"
    return [Problem(Severity.REFUSED, cell, found, wanted(kinds), advice)]


def nearest(text: str, known: Collection[str]) -> str | None:
    """Return the known word that a slip of the pen would turn into this text, if there is one.

    Two letters may be wrong, missing, added or swapped; in words of up to four letters one, since
    otherwise every short word is near to some other.
    """
    alike = [word for word in known if abs(len(word) - len(text)) <= _MOST_SLIPS]
    best = min(alike, key=lambda word: (edits(text, word), word), default=None)
    if best is None:
        return None
    allowed = 1 if min(len(best), len(text)) <= _SHORT_WORD else _MOST_SLIPS
    return best if 0 < edits(text, best) <= allowed else None


def edits(one: str, other: str) -> int:
    """Return how many letters to change, add, drop or swap with their neighbour.

    References:
        Optimal string alignment distance; textbook recurrence.
    """
    before: list[int] = []
    above = list(range(len(other) + 1))
    for i, letter in enumerate(one, start=1):
        line = [i]
        for j, wanted_letter in enumerate(other, start=1):
            cost = min(above[j] + 1, line[-1] + 1, above[j - 1] + (letter != wanted_letter))
            swapped = i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == wanted_letter
            line.append(min(cost, before[j - 2] + 1) if swapped else cost)
        before, above = above, line
    return above[-1]
