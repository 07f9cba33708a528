"""Reading one file of a table: its rows, and what is wrong with those that cannot be used."""

import csv
import math
from collections.abc import Iterator, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from estimator.core.problems import Cell, Problem, Severity
from estimator.reference.rows import unit_factor

MAX_BYTES = 5_000_000
"""A larger file is not read; the largest of ours holds some 400 rows in 50 kB."""

CHECKED = ("document", "quoted", "memory")
"""How sure a row is: read in the document, read where another text carries it, or neither."""

SOURCES = "sources"
"""The table that the `source` column of every other table points into."""

NEEDED_NUMBERS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "allowances": ("low", "high"),
        "bolts": ("diameter_mm", "pitch_mm", "stress_area_mm2", "rod_kg_m"),
        "copper_ounces": ("surface_oz_ft2", "surface_kg_m2", "thickness_mm"),
        "finishes": ("dry_mass_low_kg_m2", "dry_mass_likely_kg_m2", "dry_mass_high_kg_m2"),
        "forming": (
            *("mass_low_ratio", "mass_likely_ratio", "mass_high_ratio"),
            *("trim_low_pct", "trim_high_pct", "thinning_low_pct", "thinning_high_pct"),
        ),
        "galvanizing": ("steel_over_mm", "local_g_m2", "mean_g_m2"),
        "gauge_systems": ("tolerance_pct",),
        "gauges": ("thickness_mm",),
        "kerfs": ("kerf_low_mm", "kerf_high_mm"),
        "lead_sheet": ("thickness_mm", "surface_kg_m2"),
        "lines": ("mass_kg_m",),
        "materials": ("density_kg_m3",),
        "psi_and_gamma": ("value_ratio",),
        "roughness": ("roughness_mm",),
        "sections": (
            *("height_mm", "width_mm", "wall_mm", "area_mm2", "mass_kg_m"),
            *("iy_mm4", "iz_mm4", "it_mm4", "wel_y_mm3", "wel_z_mm3"),
        ),
        "stock": ("length_mm",),
        "strength_classes": ("yield_mpa", "ultimate_mpa"),
        "terrain": ("roughness_length_m", "min_height_m"),
    }
)
"""Table -> number columns without which a row is of no use."""

ABOVE_ZERO = ("density_kg_m3", "thickness_mm", "surface_kg_m2", "area_mm2", "length_mm")
"""Number columns where a zero would make a part vanish."""


class RawRow(NamedTuple):
    """A row as read: the file it stands in, the row a spreadsheet shows, heading -> text."""

    file: str
    line: int
    cells: Mapping[str, str]


class RawTable(NamedTuple):
    """A file as read. What could not be read is among the problems."""

    headings: tuple[str, ...]
    rows: tuple[RawRow, ...]
    problems: tuple[Problem, ...]


class Said(NamedTuple):
    """The words of a problem."""

    found: str
    expected: str
    advice: str


def read_table(path: Path) -> RawTable:
    """Return the rows of a CSV file; a file that cannot be read is a problem and no rows.

    Args:
        path: A file in UTF-8, with or without a byte-order mark, headings in the first row,
            one of them `key` (`id` in the table of sources).
    """
    file = f"{path.parent.name}/{path.name}"
    if path.stat().st_size > MAX_BYTES:
        return _unreadable(file, f"is larger than {MAX_BYTES / 1e6:g} MB")
    try:
        with path.open(encoding="utf-8-sig", newline="") as stream:
            records = [[cell.strip() for cell in record] for record in csv.reader(stream)]
    except UnicodeDecodeError:
        return _unreadable(file, "is not UTF-8 text")
    except csv.Error as error:
        return _unreadable(file, f"is not a CSV file: {error}")
    headings = tuple(heading.casefold() for heading in records[0]) if records else ()
    if path.stem == SOURCES:
        headings = tuple("key" if heading == "id" else heading for heading in headings)
    if "key" not in headings:
        return _unreadable(file, "has no key column")
    return _raw_rows(file, headings, records[1:])


def _raw_rows(file: str, headings: tuple[str, ...], records: list[list[str]]) -> RawTable:
    """Return the filled records as rows, with a problem for each of the wrong length."""
    rows, problems = [], []
    for line, record in enumerate(records, start=2):
        if not any(record):
            continue
        if len(record) == len(headings):
            rows.append(RawRow(file, line, dict(zip(headings, record, strict=True))))
            continue
        found = f"{len(record)} cells under {len(headings)} headings"
        advice = "put quotes round a cell that holds a comma; until then the row is left out"
        problems.append(problem(Cell(file, row=line), Said(found, "a cell per heading", advice)))
    return RawTable(headings, tuple(rows), tuple(problems))


def faults(table: str, headings: tuple[str, ...], row: RawRow) -> Iterator[Problem]:
    """Yield what makes a row unusable.

    Args:
        table: Name of the table.
        headings: Its headings in the order of the row's file, to name the column.
        row: The row.
    """
    for heading, found, expected in _findings(table, row.cells):
        letters = column_letters(headings.index(heading)) if heading in headings else ""
        cell = Cell(row.file, letters, row.line)
        yield problem(cell, Said(found, expected, "correct it; until then the row is left out"))


def _findings(table: str, cells: Mapping[str, str]) -> Iterator[tuple[str, str, str]]:
    """Yield heading, what is there, what is wanted."""
    for heading in ("key", "document" if table == SOURCES else "source"):
        if not cells.get(heading):
            yield heading, f"{heading} is blank", "a word"
    if (checked := cells.get("checked", "")) and checked not in CHECKED:
        yield "checked", f'checked is "{checked}"', " or ".join(CHECKED)
    for heading in NEEDED_NUMBERS.get(table, ()):
        if not cells.get(heading):
            yield heading, f"{heading} is blank", "a number"
    numbers = {heading: text for heading, text in cells.items() if unit_factor(heading) is not None}
    for heading, text in numbers.items():
        if text and not _is_number(text):
            yield heading, f'{heading} is "{text}"', "a number, zero or more, with a point"
    values = {heading: float(text) for heading, text in numbers.items() if _is_number(text)}
    yield from _out_of_range(values)


def _out_of_range(values: Mapping[str, float]) -> Iterator[tuple[str, str, str]]:
    """Yield each zero that would make a part vanish, and each band that does not rise."""
    for heading, value in values.items():
        if heading in ABOVE_ZERO and value == 0:
            yield heading, f"{heading} is zero", "a number above zero"
        if "low" not in heading:
            continue
        names = (heading, heading.replace("low", "likely"), heading.replace("low", "high"))
        band = [values[name] for name in dict.fromkeys(names) if name in values]
        if band != sorted(band):
            shown = ", ".join(f"{number:g}" for number in band)
            yield heading, f"{heading} begins a band {shown}", "numbers that rise"


def problem(cell: Cell, said: Said) -> Problem:
    """Return a problem that keeps a row or a file of a table from being used."""
    return Problem(Severity.REFUSED, cell, *said)


def _unreadable(file: str, why: str) -> RawTable:
    said = Said(f"the file {why}", "a table with headings", "save it again as CSV (UTF-8)")
    return RawTable((), (), (problem(Cell(file), said),))


def _is_number(text: str) -> bool:
    try:
        value = float(text)
    except ValueError:
        return False
    return math.isfinite(value) and value >= 0


def column_letters(index: int) -> str:
    """Return the letters a spreadsheet program gives to a column counted from 0."""
    text = ""
    left = index + 1
    while left:
        left, letter = divmod(left - 1, 26)
        text = chr(ord("A") + letter) + text
    return text
