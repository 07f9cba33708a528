"""The blank job workbook: every sheet with its headings, notes, pick lists and example rows."""

import io
import math
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from openpyxl import Workbook
from openpyxl.comments import Comment
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation

from estimator.core.problems import RequestError
from estimator.reference.gauges import gauge_names
from estimator.reference.library import Library
from estimator.reports.blank_examples import EXAMPLES, MARK, Filled
from estimator.reports.blank_notes import fact_default, fact_note, heading_note
from estimator.sheets.columns import FORMS, LISTS, Column, Form, Reads
from estimator.sheets.facts import JOB_FACTS
from estimator.sheets.topics import TOPICS

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell
    from openpyxl.worksheet.worksheet import Worksheet

LAST_ROW = 5000
"""As far down as the pick lists reach."""
OPEN: Mapping[str, str] = {
    "made_of": "materials", "material": "materials", "gauge": "gauges", "finish": "finishes",
    "section": "sections", "forming": "forming", "joint": "joints", "about": "answers",
}  # fmt: skip
"""Fields whose pick list does not forbid anything else, and the list."""
TEXT = "@"
"""Keeps a spreadsheet from making a date of 3/4 and a time of 1:10."""
PERCENT = "0 %"

Lists = Mapping[str, tuple[str, ...]]
"""Pick lists by the heading they have on their own sheet."""

_FORMATS: Mapping[Reads, str] = {
    Reads.COUNT: "General", Reads.NUMBER: "General", Reads.QUANTITY: "General",
    Reads.SIZE: "General", Reads.MONEY: "#,##0.00", Reads.DATE: "yyyy-mm-dd",
}  # fmt: skip
_WIDTHS: Mapping[str, float] = {
    "about": 26, "activity": 26, "answer": 30, "assembly": 17, "bracket": 13, "build_up": 20,
    "finish": 20, "item": 26, "layer": 16, "limit": 20, "load": 18, "made_of": 20, "material": 20,
    "name": 24, "note": 44, "part": 13, "size": 18, "source": 28, "value": 22,
}  # fmt: skip
_NARROWEST, _PER_LETTER = 10, 1.2
_NOTE_WIDTH_PX, _NOTE_LETTERS, _LINE_PX = 380, 56, 18

_GREY = "808080"
_HEADER_FILL = PatternFill("solid", fgColor="EDEDED")
_HEADER_LINE = Border(bottom=Side("thin", color=_GREY))
_EXAMPLE_FONT = Font(italic=True, color=_GREY)
_DEFAULT_FONT = Font(color=_GREY)


def write_blank(path: Path) -> Path:
    """Write a job workbook to fill in, whole or not at all.

    Returns:
        The file written.

    Raises:
        RequestError: The name does not end in .xlsx.
        FileExistsError: There is a file of that name; it is left as it is.
        OSError: The file cannot be written.
    """
    if path.suffix.lower() != ".xlsx":
        msg = f"the blank workbook is an .xlsx file: call it {path.with_suffix('.xlsx').name}"
        raise RequestError(msg)
    content = io.BytesIO()
    _book(pick_lists(Library())).save(content)
    try:
        stream = path.open("xb")
    except FileExistsError as error:
        msg = f"{path} is there already, and was left as it is; give another name"
        raise FileExistsError(msg) from error
    try:
        with stream:
            stream.write(content.getvalue())
    except BaseException:
        path.unlink()
        raise
    return path


def pick_lists(library: Library) -> Lists:
    """Return everything that is picked from a list: names of the tables, then closed choices."""
    lists = {name: tuple(row.key for row in library.table(name).rows)
             for name in ("materials", "finishes", "sections", "forming", "joints")}  # fmt: skip
    lists["gauges"] = gauge_names(library)
    lists["answers"] = tuple(TOPICS)
    columns = [column for form in FORMS.values() for column in form.columns]
    columns += [fact.column for fact in JOB_FACTS.values()]
    for column in columns:
        if column.choices and column.choices not in lists.values():
            lists[f"{column.heading}: {column.choices[0]}, ..."] = column.choices
    return lists


def _book(lists: Lists) -> Workbook:
    """Return the workbook: the sheets of a job, then the pick lists."""
    book = Workbook()
    book.remove(book.worksheets[0])
    for form in FORMS.values():
        sheet = book.create_sheet(form.sheet)
        columns = _columns(form)
        for index, column in enumerate(columns, start=1):
            _head(sheet, index, column)
            _offer(sheet, index, column, lists)
        sheet.freeze_panes = sheet.cell(2, columns.index(form.columns[1]) + 2)
        for row, filled in enumerate(EXAMPLES.get(form.sheet, ()), start=2):
            _show_example(sheet, row, columns, filled)
    _fill_job(book["job"], lists)
    _fill_lists(book.create_sheet(LISTS), lists)
    book.active = book["parts"]
    return book


def _columns(form: Form) -> Sequence[Column]:
    """Return the headings of a sheet; the facts of a job are the same for every option."""
    return form.columns[1:] if form.sheet == "job" else form.columns


def _head(sheet: "Worksheet", index: int, column: Column) -> None:
    """Write a heading with its note, and say how the column under it is shown."""
    text = f"{column.heading} [{column.unit}]" if column.unit else column.heading
    cell = _heading_cell(sheet, index, text, bold=column.needed)
    cell.comment = _note(heading_note(column))
    below = sheet.column_dimensions[get_column_letter(index)]
    below.number_format = _format(column)
    below.width = max(_WIDTHS.get(column.field, _NARROWEST), math.ceil(_PER_LETTER * len(text)) + 1)


def _heading_cell(sheet: "Worksheet", index: int, text: str, *, bold: bool) -> "Cell":
    cell: Cell = sheet.cell(1, index, text)
    cell.font, cell.fill, cell.border = Font(bold=bold), _HEADER_FILL, _HEADER_LINE
    cell.alignment = Alignment(vertical="center")
    return cell


def _format(column: Column) -> str:
    """Return how a spreadsheet is to show what is typed under a heading."""
    return PERCENT if column.kinds == ("percent",) else _FORMATS.get(column.reads, TEXT)


def _note(text: str) -> Comment:
    """Return a note large enough for its text."""
    lines = sum(max(1, math.ceil(len(line) / _NOTE_LETTERS)) for line in text.split("\n"))
    return Comment(text, "estimator", height=(lines + 2) * _LINE_PX, width=_NOTE_WIDTH_PX)


def _offer(sheet: "Worksheet", index: int, column: Column, lists: Lists, row: int = 0) -> None:
    """Give a column, or one cell of it, its pick list, if it has one."""
    values = column.choices or lists.get(OPEN.get(column.field, ""), ())
    if not values:
        return
    letter = get_column_letter(index)
    at = list(lists.values()).index(values) + 1
    source = get_column_letter(at)
    is_open = column.field in OPEN
    offer = DataValidation(
        type="list",
        formula1=f"{LISTS}!${source}$2:${source}${len(values) + 1}",
        allow_blank=True,
        errorStyle="information" if is_open else "stop",
        errorTitle=column.heading,
        error=_OTHER[column.field] if is_open else f"Pick one of the list: {_short(values)}.",
        showErrorMessage=True,
    )
    offer.add(f"{letter}{row}" if row else f"{letter}2:{letter}{LAST_ROW}")
    sheet.add_data_validation(offer)


_OTHER: Mapping[str, str] = {
    "made_of": "Not a material of the tables. A name of the sheet build-ups is right as well.",
    "material": "Not a material of the tables. One of a table of your own is right as well.",
    "gauge": "Not a listed gauge. A thickness with its unit is right as well: 1.2 mm.",
    "finish": "Not one listed finish. Several, joined by +, are right as well: oil gilding + wax.",
    "forming": "Not a listed way of forming. One of a table of your own is right as well.",
    "joint": "Not a listed joint. One of a table of your own is right as well.",
    "about": "Nothing that an answer can set. Other words are kept in the register only.",
    "section": "Not a listed section. Flat, round, CHS, SHS and RHS of any size are right as well.",
}
_LONGEST_ERROR = 180


def _short(values: Sequence[str]) -> str:
    text = ", ".join(values)
    return text if len(text) <= _LONGEST_ERROR else f"{text[:_LONGEST_ERROR]}..."


def _show_example(sheet: "Worksheet", row: int, columns: Sequence[Column], filled: Filled) -> None:
    """Write a row that shows how one is filled in, and is never counted."""
    first = next(iter(filled))
    for index, column in enumerate(columns, start=1):
        if column.field in filled:
            value = filled[column.field]
            shown = f"{MARK} {value}" if column.field == first else value
            cell = sheet.cell(row, index, shown)
            cell.font, cell.number_format = _EXAMPLE_FONT, _format(column)


def _fill_job(sheet: "Worksheet", lists: Lists) -> None:
    """List every fact of the job: what to type for it, what it means when blank, and why."""
    places = {column.field: i for i, column in enumerate(_columns(FORMS["job"]), start=1)}
    for row, fact in enumerate(JOB_FACTS.values(), start=2):
        item = sheet.cell(row, places["item"], fact.column.heading)
        if words := fact_note(fact):
            item.comment = _note(words)
        sheet.cell(row, places["value"]).number_format = _format(fact.column)
        _offer(sheet, places["value"], fact.column, lists, row)
        note = sheet.cell(row, places["note"], fact_default(fact))
        note.font = _DEFAULT_FONT


def _fill_lists(sheet: "Worksheet", lists: Lists) -> None:
    """Write the pick lists, one a column."""
    for index, (name, values) in enumerate(lists.items(), start=1):
        _heading_cell(sheet, index, name, bold=False)
        for row, value in enumerate(values, start=2):
            sheet.cell(row, index, value)
        sheet.column_dimensions[get_column_letter(index)].width = max(
            _NARROWEST, math.ceil(_PER_LETTER * max(map(len, (name, *values))))
        )
    sheet.cell(1, 1).comment = _note("The pick lists of the other sheets. Nothing here is read.")
    sheet.freeze_panes = "A2"
