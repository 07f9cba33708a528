"""What the quick reader of .xlsx and .ods files does not say, and limits so none eats the memory.

The quick reader gives values only: a percentage comes as a bare fraction, an error and a formula
whose result was never saved come as blanks. Here those cells are marked. Big lists without such
cells are only glanced through.
"""

import re
import zipfile
import zlib
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from itertools import product
from pathlib import Path
from typing import IO, NamedTuple
from xml.etree.ElementTree import Element, ParseError

from defusedxml import DefusedXmlException
from defusedxml.ElementTree import iterparse

from estimator.core.problems import UnreadableError
from estimator.sheets.cells import ErrorValue, NoSavedValue, Percent, cleaned, column_index

MAX_ROWS = 250_000
MAX_COLUMNS = 200
MAX_CELLS = 12_500_000
"""Of the rectangle that holds all the cells of one sheet."""
MAX_BYTES = 300_000_000
"""Of everything in the archive, unpacked."""
MAX_TEXT_BYTES = 2_000_000_000
"""Of the texts of all cells, each counted where it stands though it is stored once."""
MAX_RATIO = 200
"""Unpacked to packed; real lists stay below 60."""
MAX_MEMBERS = 2_000
_SMALL_BYTES = 10_000_000
_CHUNK_BYTES = 4_000_000
_PREFIX_BYTES = 40

Mark = type[Percent] | NoSavedValue | ErrorValue
"""Percent to wrap the value of a cell; anything else takes its place."""
Marks = Mapping[tuple[int, int], Mark]
"""By row and column, both counted from 0."""

# Names as in ECMA-376 part 1 (.xlsx) and OASIS OpenDocument 1.3 part 3 (.ods).
_CELL_OUT_OF_BOUNDS = re.compile(
    rb"<(?:\w+:)?c(?=[\s>])"
    rb'(?![^>]*\sr="(?:[A-Z]|[A-F][A-Z]|G[A-R])(?:\d{1,5}|1\d{5}|2[0-4]\d{4}|250000)")[^>]*(?<!/)>'
)
_FORMULA_WITHOUT_VALUE = re.compile(
    rb"</(?:\w+:)?f>\s*<(?:/|(?:\w+:)?v\s*/|(?:\w+:)?v>\s*<)"
    rb"|<(?:\w+:)?f(?=[\s/])[^>]*/>\s*<(?:/|(?:\w+:)?v\s*/|(?:\w+:)?v>\s*<)"
)
_ERROR = re.compile(rb'\st="e"')
_ADDRESS = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_STYLES = "xl/styles.xml"
_TEXTS = "xl/sharedStrings.xml"
_TEXT_START = re.compile(rb"<(?:\w+:)?si[\s>]")
_PERCENT_FORMATS = frozenset({"9", "10"})
_MANIFEST = "META-INF/manifest.xml"
_TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
_OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
_CALCEXT = "{urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0}"
_ERRORS = ("#", "Err:")
_DAMAGE = (
    zipfile.BadZipFile,
    zlib.error,
    OSError,
    EOFError,
    KeyError,
    ValueError,
    RuntimeError,
    ParseError,
    DefusedXmlException,
)


@contextmanager
def opened(path: Path) -> Iterator[zipfile.ZipFile]:
    """Yield the archive of a workbook, once its sizes are known to be bearable.

    Raises:
        UnreadableError: It is damaged, or it would unpack to more than the limits; raised for
            damage found while the archive is in use, too.
    """
    try:
        with zipfile.ZipFile(path) as archive:
            _refuse_bombs(archive)
            if damaged := archive.testzip():
                msg = f"{damaged} does not unpack to what it should"
                raise zipfile.BadZipFile(msg)
            yield archive
    except _DAMAGE as error:
        said = cleaned(str(error))
        msg = f"the file is damaged ({said}); open it in your spreadsheet program and save it anew"
        raise UnreadableError(msg) from error


def _refuse_bombs(archive: zipfile.ZipFile) -> None:
    members = archive.infolist()
    whole = sum(member.file_size for member in members)
    dense = any(
        member.file_size > max(_SMALL_BYTES, MAX_RATIO * member.compress_size) for member in members
    )
    if dense or whole > MAX_BYTES or len(members) > MAX_MEMBERS:
        msg = (
            f"it unpacks to {whole / 1e6:.0f} MB in {len(members)} pieces, more than a job ever "
            "needs; copy its sheets into a new workbook"
        )
        raise UnreadableError(msg)


def xlsx_marks(archive: zipfile.ZipFile) -> Mapping[str, Marks]:
    """Return the marks of each sheet of an .xlsx file by name; a sheet without any may be missing.

    Raises:
        UnreadableError: A sheet is larger than the limits.
    """
    percent = _percent_styles(archive)
    patterns = [_FORMULA_WITHOUT_VALUE, _ERROR]
    if percent:
        patterns.append(re.compile(rb'\ss="(?:' + "|".join(sorted(percent)).encode() + rb')"'))
    members = _sheet_members(archive)
    glances = {name: _glance(archive, member, name, patterns) for name, member in members}
    texts = sum(glance.texts for glance in glances.values())
    if texts * _longest_text(archive) > MAX_TEXT_BYTES:
        msg = "its texts are far too long for so many cells; shorten the longest of them"
        raise UnreadableError(msg)
    return {
        name: dict(_xlsx_sheet(archive, member, percent))
        for name, member in members
        if glances[name].needs_a_look
    }


class _Glance(NamedTuple):
    """Whether a sheet has cells to mark, and how many of its cells hold shared texts."""

    needs_a_look: bool
    texts: int


def _glance(
    archive: zipfile.ZipFile, member: str, sheet: str, patterns: list[re.Pattern[bytes]]
) -> _Glance:
    """Glance through the bytes of a sheet; a whole look takes ten times as long."""
    needed, texts = False, 0
    with archive.open(member) as stream:
        for chunk in _chunks(stream):
            if _CELL_OUT_OF_BOUNDS.search(chunk):
                raise _too_large(sheet)
            needed = needed or any(pattern.search(chunk) for pattern in patterns)
            texts += chunk.count(b't="s"')
    return _Glance(needed, texts)


def _longest_text(archive: zipfile.ZipFile) -> int:
    """Return the bytes of the longest of the texts that cells share, its markup included."""
    if _TEXTS not in archive.namelist():
        return 0
    return max(map(len, _TEXT_START.split(archive.read(_TEXTS))))


def _chunks(stream: IO[bytes]) -> Iterator[bytes]:
    """Yield a stream in pieces, each beginning with the last cell of the one before."""
    carry = b""
    while block := stream.read(_CHUNK_BYTES):
        piece = carry + block
        yield piece
        last = max(piece.rfind(b"<c "), piece.rfind(b":c "))
        carry = piece[max(last - _PREFIX_BYTES, 0) :] if last >= 0 else piece[-_PREFIX_BYTES:]


def _sheet_members(archive: zipfile.ZipFile) -> list[tuple[str, str]]:
    """Return the name of each sheet and its member of the archive."""
    targets = {
        element.get("Id"): element.get("Target", "")
        for element in _elements(archive, "xl/_rels/workbook.xml.rels", "Relationship")
    }
    present = set(archive.namelist())
    members = []
    for element in _elements(archive, "xl/workbook.xml", "sheet"):
        key = next((value for name, value in element.attrib.items() if name.endswith("}id")), "")
        target = targets.get(key, "")
        member = target[1:] if target.startswith("/") else f"xl/{target}"
        if member in present:
            members.append((element.get("name", ""), member))
    return members


def _percent_styles(archive: zipfile.ZipFile) -> frozenset[str]:
    """Return the cell styles that show a number as a percentage, by index."""
    if _STYLES not in archive.namelist():
        return frozenset()
    formats = _PERCENT_FORMATS | {
        element.get("numFmtId", "")
        for element in _elements(archive, _STYLES, "numFmt")
        if "%" in element.get("formatCode", "")
    }
    cell_formats = next(_elements(archive, _STYLES, "cellXfs"), ())
    return frozenset(
        str(index)
        for index, element in enumerate(cell_formats)
        if element.get("numFmtId") in formats
    )


def _xlsx_sheet(
    archive: zipfile.ZipFile, member: str, percent: frozenset[str]
) -> Iterator[tuple[tuple[int, int], Mark]]:
    for row in _elements(archive, member, "row"):
        for cell in row:
            mark = _xlsx_mark(cell, percent)
            address = _ADDRESS.fullmatch(cell.get("r", ""))
            if mark and address:
                yield (int(address[2]) - 1, column_index(address[1])), mark
        row.clear()


def _xlsx_mark(cell: Element, percent: frozenset[str]) -> Mark | None:
    children = {_local(child): child.text or "" for child in cell}
    kind = cell.get("t", "n")
    if kind == "e":
        return ErrorValue(children.get("v", ""))
    if "f" in children and not children.get("v") and kind != "str":
        return NoSavedValue(children["f"])
    if kind == "n" and children.get("v") and cell.get("s") in percent:
        return Percent
    return None


def ods_marks(archive: zipfile.ZipFile) -> Mapping[str, Marks]:
    """Return the marks of each sheet of an .ods file by name.

    Raises:
        UnreadableError: It is behind a password, or a sheet is larger than the limits.
    """
    if _MANIFEST in archive.namelist() and b"encryption-data" in archive.read(_MANIFEST):
        msg = "the file is protected by a password; save it without one"
        raise UnreadableError(msg)
    marks: dict[str, dict[tuple[int, int], Mark]] = {}
    name, line, text_bytes = "", 0, 0
    with archive.open("content.xml") as stream:
        for event, element in iterparse(stream, events=("start", "end"), forbid_dtd=True):
            tag = _local(element)
            if event == "start" and tag == "table":
                name, line = element.get(f"{_TABLE}name", ""), 0
                marks[name] = {}
            elif event == "end" and tag == "table-row":
                repeats = int(element.get(f"{_TABLE}number-rows-repeated", "1"))
                lines = range(line, line + repeats)
                for columns, mark, length in _ods_row(element):
                    text_bytes += len(lines) * len(columns) * length
                    if (
                        lines.stop > MAX_ROWS
                        or columns.stop > MAX_COLUMNS
                        or text_bytes > MAX_TEXT_BYTES
                    ):
                        raise _too_large(name)
                    if mark:
                        marks[name].update(dict.fromkeys(product(lines, columns), mark))
                line = lines.stop
                element.clear()
    return marks


def _ods_row(row: Element) -> Iterator[tuple[range, Mark | None, int]]:
    """Yield columns, mark and length of text of the cells of a row that hold anything."""
    column = 0
    for cell in row:
        repeats = int(cell.get(f"{_TABLE}number-columns-repeated", "1"))
        columns = range(column, column + repeats)
        column = columns.stop
        if len(cell) or cell.get(f"{_OFFICE}value-type") or cell.get(f"{_TABLE}formula"):
            yield columns, _ods_mark(cell), sum(map(len, cell.itertext()))


def _ods_mark(cell: Element) -> Mark | None:
    kind = cell.get(f"{_OFFICE}value-type", "")
    formula = cell.get(f"{_TABLE}formula", "")
    shown = "".join(cell.itertext()).strip()
    if cell.get(f"{_CALCEXT}value-type") == "error" or (formula and shown.startswith(_ERRORS)):
        return ErrorValue(shown)
    if formula and not kind:
        return NoSavedValue(formula.removeprefix("of:="))
    return Percent if kind == "percentage" else None


def _elements(archive: zipfile.ZipFile, member: str, tag: str) -> Iterator[Element]:
    with archive.open(member) as stream:
        for _, element in iterparse(stream, events=("end",), forbid_dtd=True):
            if _local(element) == tag:
                yield element


def _local(element: Element) -> str:
    """Return a tag without its namespace: the strict form of the standard has another one."""
    return str(element.tag).rpartition("}")[2]


def _too_large(sheet: str) -> UnreadableError:
    return UnreadableError(
        f'sheet "{sheet}" reaches further than {MAX_ROWS} rows or {MAX_COLUMNS} columns, repeats '
        "its cells too often, or has cells without an address; copy what counts into a new workbook"
    )
