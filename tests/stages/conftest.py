"""What the tests of the steps share: small jobs as folders of .csv, run step by step."""

import csv

import pytest

import estimator
from estimator.core.problems import Severity
from estimator.files.shelf import Shelf
from estimator.pipeline import Given, run
from estimator.reference.library import Library
from estimator.resolve.options import named_option
from estimator.sheets.columns import FORMS, field_of

SHEETS = {field_of(sheet): sheet for sheet in FORMS}
USUAL = {"parts": {"assembly": "a", "count": 1}}
"""Cells that a row of a sheet has unless a test says otherwise."""


@pytest.fixture(scope="session")
def library():
    """Return the tables as they come with the program."""
    return Library()


@pytest.fixture(scope="session")
def written(tmp_path_factory):
    """Return a function that writes a job as a folder of .csv, and returns the folder.

    Sheets are lists of rows, each a dict of cells; the job sheet is a dict of facts. Every cell
    carries its own unit, as in "1.5 m".
    """

    def write(sheets):
        folder = tmp_path_factory.mktemp("job")
        facts = sheets.get("job", {})
        tables = sheets | {"job": [{"item": k, "value": v} for k, v in facts.items()]}
        for name, some in tables.items():
            rows = [USUAL.get(name, {}) | row for row in some]
            headings = dict.fromkeys(heading for row in rows for heading in row)
            path = folder / f"{SHEETS[name]}.csv"
            with path.open("w", encoding="utf-8", newline="") as stream:
                writer = csv.DictWriter(stream, list(headings))
                writer.writeheader()
                writer.writerows(rows)
        return folder

    return write


@pytest.fixture(scope="session")
def steps(written, library):
    """Return a function that runs a job, `steps(parts=[...], ...)`, and gives what each step found.

    Nothing is allowed for what is not listed unless the job says so, and no row may be refused.
    """

    def run_job(upto="", option=None, *, every_case=False, **sheets):
        facts = {"not listed yet": "0 %"} | sheets.get("job", {})
        job = estimator.read_job(written(sheets | {"job": facts}))
        given = Given(job, library, Shelf(job.folder), every_case)
        found = run(given, named_option(job, option), upto=upto)
        problems = found["resolved"].problems
        refused = [str(p) for p in problems if p.severity is Severity.REFUSED]
        assert not refused, refused
        return found

    return run_job


@pytest.fixture(scope="session")
def document(written):
    """Return a function that gives the estimate document of a job, whatever is wrong with it."""

    def estimate_job(option=None, **sheets):
        return estimator.estimate(estimator.read_job(written(sheets)), option).document

    return estimate_job
