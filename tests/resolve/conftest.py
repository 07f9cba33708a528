"""Small workbooks, written as a folder of .csv files, read and resolved."""

import csv

import pytest

from estimator import read_job
from estimator.core.problems import Severity
from estimator.files.shelf import Shelf
from estimator.reference.library import Library
from estimator.resolve.job import resolve
from estimator.resolve.options import default_option

SOME_PART = """
    part | assembly | count | shape | diameter | made of | gauge
    D1   | dial     | 1     | disc  | 1 m      | copper  | 1.5 mm
    """


@pytest.fixture(scope="session")
def library():
    """Return the tables as they come with the program."""
    return Library(None)


@pytest.fixture(scope="session")
def write_job():
    """Return a function that writes sheets into a folder and returns the folder.

    A sheet is a text with a line a row, headings first, cells parted by bars; the headings come
    to stand in row 1.
    """

    def write(folder, sheets):
        folder.mkdir(exist_ok=True)
        for name, table in sheets.items():
            lines = [[cell.strip() for cell in line.split("|")] for line in _filled(table)]
            with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as stream:
                csv.writer(stream).writerows(lines)
        return folder

    return write


@pytest.fixture
def read(tmp_path, write_job):
    """Return a function that reads sheets as a job; they need not list any parts."""

    def read_sheets(sheets):
        return read_job(write_job(tmp_path / "job", {"parts": SOME_PART} | sheets))

    return read_sheets


@pytest.fixture
def resolved(read, library):
    """Return a function that resolves sheets for an option, the default one when none is named."""

    def resolve_sheets(sheets, option=None):
        job = read(sheets)
        return resolve(
            job, library, default_option(job) if option is None else option, Shelf(job.folder)
        )

    return resolve_sheets


@pytest.fixture
def said():
    """Return a function that gives the full text of problems, of one severity if it is named."""

    def text_of(found, severity=None):
        kept = [p for p in found.problems if severity is None or p.severity is Severity(severity)]
        return "\n".join(str(problem) for problem in kept)

    return text_of


def _filled(table):
    return [line for line in table.splitlines() if line.strip()]
