"""A maker's own record of what things came to weigh beside what they were worked out at."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from estimator.core.problems import Cell, Problem, Severity
from estimator.reference.library import RECORDS, Library
from estimator.reference.reading import RawRow, RawTable, column_letters, read_table

(NAME,) = RECORDS
HEADINGS = (
    "key", "job", "part_or_assembly", "material", "shape", "estimated_kg", "weighed_kg", "ratio",
    "date",
)  # fmt: skip
NEEDED = ("key", "job", "material", "shape", "estimated_kg", "weighed_kg")
NUMBERS = ("estimated_kg", "weighed_kg")


@dataclass(frozen=True, slots=True)
class Ratio:
    """One thing that was weighed.

    Attributes:
        job: Where it was made for.
        material: What it was chiefly made of.
        shape: What it was worked out as.
        estimated_kg: What it was worked out at.
        weighed_kg: What it came to weigh.
    """

    job: str
    material: str
    shape: str
    estimated_kg: float
    weighed_kg: float

    @property
    def made_per_estimated(self) -> float:
        """Return what it came to weigh over what it was worked out at."""
        return self.weighed_kg / self.estimated_kg


def record_path(folder: Path) -> Path:
    """Return where a folder of a maker's own keeps the record."""
    return folder / f"{NAME}.csv"


def job_label(file: str, title: str) -> str:
    """Return what a job goes by in the record: its file, with its title where it has one."""
    return f"{file} ({title})" if title else file


def read_ratios(library: Library) -> tuple[tuple[Ratio, ...], tuple[Problem, ...]]:
    """Return the record of the maker's own folder, and what is wrong in it.

    The ratio is worked out again from the two masses; the column is for the eye.
    """
    path = library.own_file(NAME)
    if path is None:
        return (), ()
    table = read_table(path)
    wrong = {row.line: faults_of(row, table) for row in table.rows}
    ratios = (_ratio(row.cells) for row in table.rows if not wrong[row.line])
    return tuple(ratios), (*table.problems, *(one for found in wrong.values() for one in found))


def faults_of(row: RawRow, table: RawTable) -> tuple[Problem, ...]:
    """Return what makes a row of the record unusable."""
    findings = [(heading, "is blank", "a word") for heading in NEEDED if not row.cells.get(heading)]
    for heading in NUMBERS:
        text = row.cells.get(heading, "")
        if text and not _is_mass(text):
            findings.append((heading, f'is "{text}"', "a number above zero, with a point"))
    return tuple(
        Problem(
            Severity.REFUSED, _cell(row, table, heading), f"{heading} {found}", expected,
            "correct it; until then the row is left out",
        )
        for heading, found, expected in findings
    )  # fmt: skip


def _cell(row: RawRow, table: RawTable, heading: str) -> Cell:
    known = heading in table.headings
    return Cell(row.file, column_letters(table.headings.index(heading)) if known else "", row.line)


def _is_mass(text: str) -> bool:
    try:
        mass_kg = float(text)
    except ValueError:
        return False
    return math.isfinite(mass_kg) and mass_kg > 0


def _ratio(cells: Mapping[str, str]) -> Ratio:
    return Ratio(
        job=cells["job"], material=cells["material"], shape=cells["shape"],
        estimated_kg=float(cells["estimated_kg"]), weighed_kg=float(cells["weighed_kg"]),
    )  # fmt: skip
