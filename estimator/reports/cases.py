"""Every case as .csv, for an engineer's own spreadsheet: written only when asked for."""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from estimator.reports.document import Document

AXES = ("across", "up", "out")
FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""How a text starts that a spreadsheet would run as a formula."""


def case_files(document: Document) -> dict[str, str]:
    """Return the text of a .csv of wind loads and one of bracket actions, by file name."""
    return {
        "wind-loads.csv": _csv(
            ("assembly", "position", "direction_deg", "case"), document["wind"]["loads"]
        ),
        "bracket-actions.csv": _csv(
            ("bracket", "set", "cause", "direction_deg", "case", "sharing"), document["brackets"]
        ),
    }


def _csv(fields: Sequence[str], rows: Iterable[Mapping[str, Any]]) -> str:
    """Return rows with their force and moment; characteristic, unfactored."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    forces = [f"force_{axis}_n" for axis in AXES] + [f"moment_{axis}_nm" for axis in AXES]
    writer.writerow([*fields, *forces])
    for row in rows:
        names = [harmless(row[name]) for name in fields]
        writer.writerow([*names, *row["force_n"], *row["moment_nm"]])
    return text.getvalue()


def harmless(value: Any) -> Any:  # noqa: ANN401 - any plain value
    """Return a value that no spreadsheet runs as a formula."""
    if isinstance(value, str) and value.startswith(FORMULA):
        return f"'{value}"
    return value
