"""Read a workbook, or a folder of .csv files, into cells with addresses. Writes nothing."""

import csv
import io
import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import islice
from pathlib import Path
from zipfile import ZipFile

import python_calamine

from estimator.core.problems import UnreadableError
from estimator.sheets.archive import (
    MAX_BYTES,
    MAX_CELLS,
    MAX_COLUMNS,
    MAX_ROWS,
    Marks,
    ods_marks,
    opened,
    xlsx_marks,
)
from estimator.sheets.cells import (
    ErrorValue,
    Heading,
    NoSavedValue,
    Percent,
    Raw,
    RawRow,
    Sheet,
    Workbook,
    cleaned,
    column_letters,
)

_MARKS: Mapping[str, Callable[[ZipFile], Mapping[str, Marks]]] = {
    ".xlsx": xlsx_marks,
    ".ods": ods_marks,
}
_COMPOUND_FILE = b"\xd0\xcf\x11\xe0"
"""First bytes of an old .xls file, and of an .xlsx file behind a password."""
_PLAIN_NUMBER = re.compile(r"-?(?:0|[1-9]\d{0,14})(?:\.\d+)?", re.ASCII)
"""Numbers a spreadsheet would show the same; "007" and "1e5" may be names."""
_SEPARATORS = ",;\t"
_LINE_LIMIT = 100_000


def read_workbook(path: Path) -> Workbook:
    """Return the cells of an .xlsx or .ods workbook, or of a folder with a .csv file a sheet.

    Raises:
        UnreadableError: It is missing, of another kind, protected, damaged or far too large.
    """
    if path.is_dir():
        return Workbook(cleaned(path.resolve().name), _by_name(_csv_sheets(path)))
    if not path.is_file():
        msg = f"there is no file {path}"
        raise UnreadableError(msg)
    suffix = path.suffix.lower()
    if suffix not in _MARKS:
        msg = f"{path.name} is not a workbook this program reads; save it as .xlsx or .ods"
        raise UnreadableError(msg)
    with path.open("rb") as stream:
        if stream.read(4) == _COMPOUND_FILE:
            msg = (
                f"{path.name} is protected by a password, or an old .xls file; save it as .xlsx "
                "without a password"
            )
            raise UnreadableError(msg)
    with opened(path) as archive:
        marks = _MARKS[suffix](archive)
    return Workbook(cleaned(path.stem), _by_name(_book_sheets(path, marks)))


def _by_name(sheets: Iterable[Sheet]) -> dict[str, Sheet]:
    found: dict[str, Sheet] = {}
    for sheet in sheets:
        if sheet.name in found:
            msg = f'there are two sheets "{sheet.name}"; rename one of them'
            raise UnreadableError(msg)
        found[sheet.name] = sheet
    return found


def _book_sheets(path: Path, marks: Mapping[str, Marks]) -> Iterator[Sheet]:
    try:
        with python_calamine.CalamineWorkbook.from_path(path) as book:
            for meta in book.sheets_metadata:
                if meta.typ == python_calamine.SheetTypeEnum.WorkSheet:
                    sheet = book.get_sheet_by_name(meta.name)
                    last_row, last_column = sheet.end or (0, 0)
                    if (last_row + 1) * (last_column + 1) > MAX_CELLS:
                        raise _too_many_cells(meta.name)
                    cells = sheet.to_python(skip_empty_area=False)
                    yield _sheet(meta.name, _marked(cells, marks.get(meta.name, {})))
    except python_calamine.CalamineError as error:
        said = cleaned(str(error))
        msg = f"{path.name} is damaged ({said}); open it in your spreadsheet program and save it"
        raise UnreadableError(msg) from error


def _marked(values: Iterable[Iterable[Raw]], marks: Marks) -> list[list[Raw]]:
    """Put the marks where they belong; a marked cell may lie beyond the last filled one."""
    cells = [list(line) for line in values]
    for (row, column), mark in marks.items():
        cells.extend([] for _ in range(row + 1 - len(cells)))
        line = cells[row]
        line.extend("" for _ in range(column + 1 - len(line)))
        value = line[column]
        if isinstance(mark, type):
            line[column] = Percent(value) if isinstance(value, float | int) else value
        else:
            line[column] = mark
    return cells


def _csv_sheets(folder: Path) -> Iterator[Sheet]:
    files = sorted(file for file in folder.iterdir() if file.suffix.lower() == ".csv")
    for file in files:
        _refuse_elsewhere(file, folder.resolve())
    if not files:
        msg = f"the folder {folder} holds no .csv file"
        raise UnreadableError(msg)
    if sum(file.stat().st_size for file in files) > MAX_BYTES:
        msg = f"the files in {folder} hold more than {MAX_BYTES / 1e6:.0f} MB"
        raise UnreadableError(msg)
    for file in files:
        try:
            with file.open(encoding="utf-8-sig", newline="") as stream:
                yield _sheet(file.stem, _csv_cells(stream.read()))
        except UnicodeDecodeError as error:
            msg = f"{cleaned(file.name)} is not in UTF-8; save it as CSV UTF-8"
            raise UnreadableError(msg) from error
        except (csv.Error, OSError) as error:
            msg = f"{cleaned(file.name)} cannot be read ({cleaned(str(error))})"
            raise UnreadableError(msg) from error


def _refuse_elsewhere(file: Path, folder: Path) -> None:
    """Refuse what is no file, such as a pipe that never ends, or a link out of the folder."""
    if not file.is_file():
        msg = f"{cleaned(file.name)} is not a file; take it out of the folder"
        raise UnreadableError(msg)
    if not file.resolve().is_relative_to(folder):
        msg = f"{cleaned(file.name)} is a link out of the folder; put the file itself there"
        raise UnreadableError(msg)


def _csv_cells(text: str) -> list[list[Raw]]:
    header = next((line for line in io.StringIO(text) if line.strip()), "")
    separator = max(_SEPARATORS, key=header.count)
    lines = csv.reader(_bounded(io.StringIO(text, newline="")), delimiter=separator)
    number = _PLAIN_NUMBER.fullmatch
    return [
        [float(cell) if number(cell) else cell for cell in line]
        for line in islice(lines, MAX_ROWS + 1)
    ]


def _bounded(lines: Iterable[str]) -> Iterator[str]:
    for line in lines:
        if sum(map(line.count, _SEPARATORS)) > _LINE_LIMIT:
            msg = "a line has far too many separators"
            raise csv.Error(msg)
        yield line


def _sheet(name: str, cells: Sequence[list[Raw]]) -> Sheet:
    """Return a sheet whose first filled row is its headings, every row as wide as the widest."""
    name = cleaned(name)
    cells = [
        [cell if cell.__class__ is float or cell == "" else _clean(cell) for cell in line]
        for line in cells
    ]
    width = max(map(len, cells), default=0)
    if len(cells) > MAX_ROWS or width > MAX_COLUMNS or len(cells) * width > MAX_CELLS:
        raise _too_many_cells(name)
    lines = (
        RawRow(number, (*line, *[""] * (width - len(line))))
        for number, line in enumerate(cells, start=1)
        if _filled(line)
    )
    header = next(lines, RawRow(0, ()))
    headings = tuple(
        Heading(str(text).strip(), column_letters(index))
        for index, text in enumerate(header.values)
    )
    return Sheet(name, header.line, headings, tuple(lines))


def _clean(cell: Raw) -> Raw:
    match cell:
        case str():
            return cleaned(cell)
        case NoSavedValue():
            return NoSavedValue(cleaned(cell.formula))
        case ErrorValue():
            return ErrorValue(cleaned(cell.text))
        case _:
            return cell


def _too_many_cells(sheet: str) -> UnreadableError:
    return UnreadableError(
        f'sheet "{sheet}" has more than {MAX_ROWS} rows, {MAX_COLUMNS} columns or {MAX_CELLS} cells'
    )


def _filled(line: Sequence[Raw]) -> bool:
    return any(cell != "" and (not isinstance(cell, str) or cell.strip()) for cell in line)
