"""Checking a workbook without working anything out."""

from collections.abc import Mapping
from pathlib import Path

from estimator.core.problems import Problem
from estimator.files.shelf import Shelf
from estimator.reference.library import Library
from estimator.resolve.job import resolve
from estimator.resolve.options import Account, named_option, of_every_way
from estimator.sheets.rows import read_job


def check(
    path: Path, option: str | None = None, tables: Path | None = None
) -> tuple[tuple[Problem, ...], Mapping[str, Account]]:
    """Return everything that is wrong or missing, and what became of every row.

    Args:
        path: Workbook or folder.
        option: Way of building whose rows are accounted for; problems are those of every way.
        tables: A folder of lookup tables of the maker's own.

    Raises:
        UnreadableError: The file cannot be read as a job at all.
        RequestError: The job has no such option.
    """
    job, library = read_job(path), Library(tables)
    files = Shelf(job.folder)
    wanted = named_option(job, option)
    shown = resolve(job, library, wanted, files)
    others = (
        (other, resolve(job, library, other, files).problems)
        for other in job.options
        if other != wanted
    )
    return of_every_way(shown.problems, others, job), shown.accounts
