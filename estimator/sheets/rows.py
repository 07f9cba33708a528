"""Typed rows: what a workbook says, in SI units, each value with the cell it was typed in."""

import datetime as dt
import hashlib
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, NamedTuple

from estimator.core.problems import Cell, Problem, Severity, UnreadableError
from estimator.core.sourced import Origin, Sourced
from estimator.core.units import MissingUnitError, UnitError
from estimator.sheets.cells import Raw, RawRow, Sheet, Workbook
from estimator.sheets.columns import FORMS, LIMIT_KINDS, LISTS, Form, field_of
from estimator.sheets.converters import Doubtful, Reader, folded, quoted, reader
from estimator.sheets.facts import JOB_FACTS
from estimator.sheets.headings import Headings, Slot, match_headings, nearest
from estimator.sheets.workbook import read_workbook

_EXAMPLE = "EXAMPLE"
_TOLD = "told"
_NO_HEADING = "heading "
_UNIT_IN_CELL = frozenset({"job", "limits"})
"""Sheets whose values are of many kinds, so that no heading could hold their unit."""
_MOST_ALIKE = 3
"""Rows that may each carry the same missing unit before it is said once for the column."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a sheet.

    Attributes:
        sheet: Name of the sheet.
        line: Row number as the spreadsheet shows it.
        values: What was filled in, by field, as `estimator.sheets.columns.Reads` says; a field
            that was left blank, or could not be read, is missing.
        columns: Letters of the column of each field the sheet has.
    """

    sheet: str
    line: int
    values: Mapping[str, Any]
    columns: Mapping[str, str]

    def has(self, field: str) -> bool:
        """Return whether anything was typed under this field."""
        return field in self.values

    def text(self, field: str, default: str = "") -> str:
        """Return a value as text, or the default where the cell was blank."""
        return str(self.values.get(field, default))

    def number(self, field: str, default: float = math.nan) -> float:
        """Return a count or an SI value, or the default where the cell was blank."""
        return float(self.values.get(field, default))

    def cell(self, field: str = "") -> Cell:
        """Return where this field of the row is, filled or not; without a field the whole row."""
        return Cell(self.sheet, self.columns.get(field, ""), self.line)


@dataclass(frozen=True, slots=True)
class Job:
    """Everything a workbook says.

    Attributes:
        name: Name of the file without its suffix.
        path: The workbook, or the folder of .csv files.
        rows: Usable rows by sheet; every sheet of the contract has an entry.
        facts: Items of the `job` sheet that were given, by key, SI; defaults are not filled in.
        problems: What is wrong or worth a look, in sheet order, then row order.
        read: Rows read by sheet: usable and refused ones, not blank rows, nor examples, nor facts
            of the job that were left unanswered.
        refused: Rows that could not be used, by sheet.
        refused_rows: Those rows with what could be read of them, by sheet; nothing may be worked
            out from them, but what they name can be looked up.
        inputs_sha256: Digest of the values read; a save without a change keeps it.
        options: Names of the ways of building, in order of appearance.
    """

    name: str
    path: Path
    rows: Mapping[str, tuple[Row, ...]]
    facts: Mapping[str, Sourced]
    problems: tuple[Problem, ...]
    read: Mapping[str, int]
    refused: Mapping[str, int]
    refused_rows: Mapping[str, tuple[Row, ...]]
    inputs_sha256: str
    options: tuple[str, ...]

    @property
    def folder(self) -> Path:
        """Return the folder that holds the job, and the files that its rows name."""
        return self.path if self.path.is_dir() else self.path.parent


class _Finding(NamedTuple):
    """Something to say about a cell; findings of one group are said once where there are many."""

    severity: Severity
    field: str
    found: str
    expected: str
    advice: str
    group: str = ""
    in_cell: str = ""
    """Advice where the heading can have no unit."""


class _Told(NamedTuple):
    """A finding with the row it is about."""

    cell: Cell
    part: str
    finding: _Finding


class _Reading(NamedTuple):
    """What one sheet says."""

    rows: tuple[Row, ...] = ()
    problems: tuple[Problem, ...] = ()
    refused: tuple[Row, ...] = ()
    inputs: tuple[str, ...] = ()


def read_job(path: Path) -> Job:
    """Read a job workbook, or a folder of .csv files, into typed rows and problems.

    Raises:
        UnreadableError: The file cannot be read as a job at all.
    """
    book = read_workbook(path)
    sheets, problems = _sheets_of_the_job(book)
    options: dict[str, str] = {}
    readings = {
        name: _read_sheet(sheets[name], form, options) if name in sheets else _Reading()
        for name, form in FORMS.items()
    }
    return Job(
        name=book.name,
        path=path,
        rows={name: reading.rows for name, reading in readings.items()},
        facts=_facts(readings["job"].rows),
        problems=(*problems, *(p for reading in readings.values() for p in reading.problems)),
        read={name: len(reading.rows) + len(reading.refused) for name, reading in readings.items()},
        refused={name: len(reading.refused) for name, reading in readings.items()},
        refused_rows={name: reading.refused for name, reading in readings.items()},
        inputs_sha256=_digest(readings),
        options=tuple(options.values()),
    )


def _digest(readings: Mapping[str, _Reading]) -> str:
    digest = hashlib.sha256()
    for name, reading in readings.items():
        digest.update(repr((name, reading.inputs)).encode())
    return digest.hexdigest()


def _sheets_of_the_job(book: Workbook) -> tuple[dict[str, Sheet], list[Problem]]:
    known = {field_of(name): name for name in FORMS}
    sheets: dict[str, Sheet] = {}
    problems = []
    for name, sheet in book.sheets.items():
        if name == LISTS:
            continue
        form = known.get(field_of(name))
        if form is None:
            problems.append(_unknown_sheet(name, known))
        elif form in sheets:
            msg = f'there are two sheets "{form}"; rename one of them'
            raise UnreadableError(msg)
        else:
            sheets[form] = sheet
    if not sheets:
        msg = f"no sheet of {book.name} belongs to a job; `estimator new` makes one to fill in"
        raise UnreadableError(msg)
    if "parts" not in sheets:
        found = "there is no sheet of this name"
        advice = "without parts there is nothing to work out"
        problems.append(Problem(Severity.REFUSED, Cell("parts"), found, "a list of parts", advice))
    return sheets, problems


def _unknown_sheet(name: str, known: Mapping[str, str]) -> Problem:
    found = f"the sheet {quoted(name)} is not part of a job, and was not read"
    near = nearest(field_of(name), known)
    if near:
        advice = f'did you mean "{known[near]}"?'
        return Problem(Severity.QUESTION, Cell(name), found, "a sheet of the job", advice)
    return Problem(Severity.NOTE, Cell(name), found, "", "it was left aside")


def _facts(rows: tuple[Row, ...]) -> dict[str, Sourced]:
    """Return the facts that hold for every option, by item."""
    return {
        row.text("item"): Sourced(
            row.values["value"], Origin.TYPED, row.text("source"), row.cell("value")
        )
        for row in rows
        if row.text("item") in JOB_FACTS and not row.has("option")
    }


def _read_sheet(sheet: Sheet, form: Form, options: dict[str, str]) -> _Reading:
    """Read one sheet; options maps each way of building, folded, to its first spelling."""
    headings = match_headings(sheet, form)
    columns = {field: slot.letters for field, slot in headings.slots.items()}
    rows: list[Row] = []
    told: list[_Told] = []
    inputs: list[str] = []
    refused: list[Row] = []
    names: dict[str, list[tuple[str, Cell]]] = {}
    for raw in sheet.rows:
        values, findings = _row_values(raw, _slots_of(raw, headings.slots, form))
        if _is_example(raw, headings, form) or _is_unanswered(values, findings, form):
            continue
        findings += _read_fact(values) if form.sheet == "job" else []
        if form.sheet in _UNIT_IN_CELL:
            findings = [_asked_in_cell(finding) for finding in findings]
        findings += _missing(values, findings, headings, form)
        if "option" in values:
            values["option"] = options.setdefault(folded(values["option"]), values["option"])
        row = Row(form.sheet, raw.line, values, columns)
        if form.unique:
            findings += _used_name(row, form, names)
        usable = all(finding.severity is not Severity.REFUSED for finding in findings)
        (rows if usable else refused).append(row)
        inputs.append(repr(sorted(values.items()) if usable else raw.values))
        told += [_Told(row.cell(f.field), _named(row, form), f) for f in findings]
    problems = (*headings.problems, *_said_once(told, form, headings))
    return _Reading(tuple(rows), problems, tuple(refused), tuple(inputs))


def _slots_of(raw: RawRow, slots: Mapping[str, Slot], form: Form) -> Mapping[str, Slot]:
    """Return the columns as one row has them: the value of a limit is of that limit's kind."""
    if form.sheet != "limits" or not {"limit", "value"} <= slots.keys():
        return slots
    kind = LIMIT_KINDS.get(folded(str(raw.values[slots["limit"].index])))
    if kind is None:
        return slots
    slot = slots["value"]
    column = replace(slot.column, kinds=(kind,))
    return {**slots, "value": replace(slot, column=column, read=reader(column, slot.unit))}


def _asked_in_cell(finding: _Finding) -> _Finding:
    """Return a finding about a missing unit as one of its own, with what to type in the cell."""
    if not finding.in_cell or finding.group == _TOLD:
        return finding
    return finding._replace(advice=finding.in_cell, group="")


def _named(row: Row, form: Form) -> str:
    """Return what a row is about as a person would type it."""
    name = row.text(form.names)
    return JOB_FACTS[name].column.heading if form.sheet == "job" and name in JOB_FACTS else name


def _is_example(raw: RawRow, headings: Headings, form: Form) -> bool:
    """Return whether the first key filled in marks the row as an example."""
    for column in form.columns[1:]:
        slot = headings.slots.get(column.field)
        if slot and raw.values[slot.index] != "":
            text = raw.values[slot.index]
            return isinstance(text, str) and text.lstrip().startswith(_EXAMPLE)
    return False


def _is_unanswered(values: Mapping[str, Any], findings: list[_Finding], form: Form) -> bool:
    """Return whether a row of the `job` sheet only asks for a fact, as the blank workbook does."""
    asks = form.sheet == "job" and field_of(values.get("item", "")) in JOB_FACTS
    return asks and values.keys() <= {"item", "note"} and not findings


def _row_values(raw: RawRow, slots: Mapping[str, Slot]) -> tuple[dict[str, Any], list[_Finding]]:
    """Read the cells of a row that are filled."""
    values: dict[str, Any] = {}
    findings: list[_Finding] = []
    cells = raw.values
    for field, slot in slots.items():
        cell = cells[slot.index]
        if cell == "" or (cell.__class__ is str and cell.isspace()):
            continue
        value, finding = _value(slot.read, cell, field, told=slot.told)
        if finding:
            findings.append(finding)
        if value is not None:
            values[field] = value
    return values, findings


def _value(read: Reader, cell: Raw, field: str, *, told: bool) -> tuple[Any, _Finding | None]:
    """Return the value of a cell, None where it is refused, and what there is to say about it."""
    try:
        value = read(cell)
    except MissingUnitError as error:
        group = _TOLD if told else f"unit of {field}"
        said = (error.found, error.expected, error.advice, group, error.in_cell)
        return None, _Finding(Severity.REFUSED, field, *said)
    except UnitError as error:
        return None, _Finding(Severity.REFUSED, field, error.found, error.expected, error.advice)
    if value.__class__ is Doubtful:
        value, *doubt = value
        return value, _Finding(Severity.QUESTION, field, *doubt)
    return value, None


def _read_fact(values: dict[str, Any]) -> list[_Finding]:
    """Read the value of a row of the `job` sheet as its item says, in place."""
    if "item" not in values or "value" not in values:
        return []
    item = field_of(values["item"])
    if item not in JOB_FACTS:
        return [_unknown_fact(values["item"])]
    value, finding = _value(reader(JOB_FACTS[item].column), values["value"], "value", told=False)
    values["item"] = item
    values["value"] = value.isoformat() if isinstance(value, dt.date) else value
    findings = [finding] if finding else []
    if "option" in values:
        found = "a fact of the job is the same for every option"
        advice = "it was left aside"
        findings.append(_Finding(Severity.QUESTION, "option", found, "a blank option", advice))
    return findings


def _unknown_fact(item: str) -> _Finding:
    found = f"{quoted(item)} is not a fact this program asks for"
    near = nearest(field_of(item), JOB_FACTS)
    if near:
        advice = f'did you mean "{JOB_FACTS[near].column.heading}"?'
        return _Finding(Severity.REFUSED, "item", found, "a listed fact", advice)
    return _Finding(Severity.NOTE, "item", found, "", "it was left aside")


def _missing(
    values: Mapping[str, Any], findings: list[_Finding], headings: Headings, form: Form
) -> list[_Finding]:
    """Return what a row must say and does not."""
    said = values.keys() | {finding.field for finding in findings}
    return [
        _Finding(
            Severity.REFUSED,
            column.field,
            f'"{column.heading}" is blank',
            " or ".join(
                [column.words, *(f'"{other.replace("_", " ")}"' for other in column.unless)]
            ),
            "fill it in, or empty the whole row",
            "" if column.field in headings.slots else f"{_NO_HEADING}{column.field}",
        )
        for column in form.columns
        if column.needed and column.field not in said and not said.intersection(column.unless)
    ]


def _used_name(row: Row, form: Form, names: dict[str, list[tuple[str, Cell]]]) -> list[_Finding]:
    """Return a finding if a row of the same option has this name already."""
    if not row.has(form.names):
        return []
    option = row.text("option")
    earlier = names.setdefault(folded(row.text(form.names)), [])
    clash = next(
        (cell for other, cell in earlier if other == option or not (other and option)), None
    )
    earlier.append((option, row.cell(form.names)))
    if clash is None:
        return []
    found = f"{quoted(_named(row, form))} stands in {clash} already"
    advice = "give it another name; the same name is for rows of different options only"
    return [_Finding(Severity.REFUSED, form.names, found, "each name once", advice)]


def _said_once(told: list[_Told], form: Form, headings: Headings) -> Iterator[Problem]:
    """Yield the problems of the rows; what many rows share is said at the first of them."""
    groups: dict[str, list[_Told]] = {}
    for one in told:
        groups.setdefault(one.finding.group, []).append(one)
    for one in told:
        severity, _, found, expected, advice, group, _ = one.finding
        alike = groups[group] if group else []
        if group.startswith(_NO_HEADING) or (len(alike) > _MOST_ALIKE and group != _TOLD):
            if one is alike[0]:
                yield _of_the_column(alike, form, headings)
        elif group != _TOLD:
            yield Problem(severity, one.cell, found, expected, advice, one.part)


def _of_the_column(alike: list[_Told], form: Form, headings: Headings) -> Problem:
    """Return the one problem of a column that many rows have."""
    first = alike[0].finding
    column = next(column for column in form.columns if column.field == first.field)
    cell = Cell(form.sheet, alike[0].cell.column, headings.line)
    if first.group.startswith(_NO_HEADING):
        need = "1 row needs" if len(alike) == 1 else f"{len(alike)} rows need"
        found = f'no column is headed "{column.heading}", which {need}'
        advice = f'add the heading "{column.heading}" and fill it in'
    else:
        found = (
            f'{len(alike)} numbers under "{column.heading}" have no unit, from {alike[0].cell} on'
        )
        advice = f'put the unit in the heading: "{column.heading} [{column.unit or "mm"}]"'
    return Problem(first.severity, cell, found, first.expected, advice)
