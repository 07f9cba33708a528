"""A maker's own record of weighings: one table in a folder of their own, kept from job to job."""

import csv
import io
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import NamedTuple
from uuid import uuid4

from estimator.core.problems import RequestError
from estimator.reference.own_ratios import HEADINGS, faults_of, job_label, record_path
from estimator.reference.reading import read_table
from estimator.reports import figures, sentences
from estimator.reports.cases import harmless
from estimator.reports.document import Document


class Kept(NamedTuple):
    """What became of the record.

    Attributes:
        path: Where it is.
        kept: Rows of this job that stand in it now.
        before: Rows of this job that stood in it before and were replaced.
        others: Rows of other jobs.
        left: What was weighed but tells nothing of a material, as sentences.
    """

    path: Path
    kept: int
    before: int
    others: int
    left: tuple[str, ...]


def keep(document: Document, folder: Path) -> Kept:
    """Write what was weighed of a job into the record of a folder, whole or not at all.

    Rows of the same job are replaced, so that keeping a job twice changes nothing. Columns that
    the maker added stay.

    Args:
        document: The estimate document.
        folder: The maker's own folder of tables.

    Raises:
        RequestError: The record that is there cannot be read wholly, so it is not written over.
        OSError: The folder cannot be written to.
    """
    path = record_path(folder)
    headings, rows = _read(path)
    job = harmless(job_name(document))
    others = [row for row in rows if row["job"] != job]
    mine = [_row(job, one) for one in document["weighings"] if not one["not_kept"]]
    if rows or mine:
        _write(path, _text(headings, [*others, *mine]))
    left = tuple(f"{w['name']}: {w['not_kept']}" for w in document["weighings"] if w["not_kept"])
    return Kept(path, len(mine), len(rows) - len(others), len(others), left)


def kept_text(kept: Kept) -> str:
    """Return what was kept, for the terminal."""
    lines = [
        (
            f"{kept.path}: {sentences.in_words(kept.kept, 'weighing')} of this job"
            f" ({kept.before} before), {kept.others} of other jobs."
        )
    ]
    lines += [f"  left out: {why}" for why in kept.left]
    if not kept.kept and not kept.left:
        lines.append("  nothing is on the sheet `weighed` that counts")
    return figures.plain("\n".join(lines))


def job_name(document: Document) -> str:
    """Return what a job goes by in the record."""
    title = document["job"]["title"]
    return job_label(document["file"], title["value"] if title["origin"] == "typed" else "")


def _read(path: Path) -> tuple[tuple[str, ...], list[Mapping[str, str]]]:
    """Return headings and rows of the record that is there, and ours if there is none."""
    if not path.exists():
        return HEADINGS, []
    table = read_table(path)
    wrong = [*table.problems, *(one for row in table.rows for one in faults_of(row, table))]
    if wrong:
        msg = f"{wrong[0]}\n{path} was not written over; mend it, or move it away"
        raise RequestError(msg)
    more = tuple(heading for heading in table.headings if heading not in HEADINGS)
    return (*HEADINGS, *more), [row.cells for row in table.rows]


def _row(job: str, weighing: Document) -> dict[str, str]:
    each = 1.0 / weighing["count"]
    cells = {
        "key": f"{job}: {weighing['name']}",
        "job": job,
        "part_or_assembly": weighing["name"],
        "material": weighing["material"],
        "shape": weighing["shape"],
        "estimated_kg": f"{each * weighing['estimated_kg']:.6g}",
        "weighed_kg": f"{each * weighing['weighed_kg']:.6g}",
        "ratio": f"{weighing['ratio']:.4f}",
        "date": weighing["date"],
    }
    return {heading: harmless(text) for heading, text in cells.items()}


def _text(headings: tuple[str, ...], rows: Iterable[Mapping[str, str]]) -> str:
    text = io.StringIO()
    writer = csv.DictWriter(text, headings, restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def _write(path: Path, text: str) -> None:
    """Write beside the final name, then move: a failure leaves the old record."""
    draft = path.with_name(f".{path.name}.{uuid4().hex}")
    try:
        draft.write_text(text, encoding="utf-8", newline="\n")
        draft.replace(path)
    finally:
        draft.unlink(missing_ok=True)
