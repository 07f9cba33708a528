"""Loads as .csv, for an engineer's own spreadsheet: text that starts as a formula is not run."""

import csv
import io
from collections.abc import Iterable, Sequence
from typing import Any

from estimator.reports.document import Document

WAYS = (
    ("across", "+ to the right"),
    ("up", "+ uplift"),
    ("out", "+ pull-out"),
)
"""Axes, and what a force along them does to the wall."""
FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""How a text starts that a spreadsheet would run as a formula."""
UNFACTORED = "characteristic, unfactored"
AT_STRENGTH = "unfactored; wind at strength level"


def bracket_files(document: Document) -> dict[str, str]:
    """Return the text of the .csv files of actions at the brackets, by file name.

    ``brackets.csv`` has the unfactored actions by cause, as many as the document lists;
    ``brackets-factored.csv`` the largest of each component in combination.
    """
    short = "" if document["complete"] else "INCOMPLETE: rows left out; "
    level = AT_STRENGTH if document["wind"]["level"] == "strength level" else UNFACTORED
    fields = ("bracket", "set", "cause", "wind from [deg]", "case", "position", "sharing")
    places = [f"bracket {axis} [m]" for axis, _ in WAYS]
    acting = [f"force on the wall {axis}, {sign} [N]" for axis, sign in WAYS]
    turning = [f"moment on the wall about {axis}, right-hand rule [N m]" for axis, _ in WAYS]
    characteristic = (
        [
            *(row[name] for name in ("bracket", "set", "cause", "direction_deg", "case")),
            *(row[name] for name in ("position", "sharing")),
            short + level,
            *row["at_m"],
            *row["force_n"],
            *row["moment_nm"],
        ]
        for row in document["brackets"]
    )
    names = (
        "bracket", "component", "value", "unit", "combination", "case", "position", "sharing",
        "state",
    )  # fmt: skip
    factored = (
        [*(row[name] for name in names), f"{short}factored"] for row in document["bracket_envelope"]
    )
    return {
        "brackets.csv": _csv((*fields, "level", *places, *acting, *turning), characteristic),
        "brackets-factored.csv": _csv((*names, "level"), factored),
    }


def case_files(document: Document) -> dict[str, str]:
    """Return the text of the .csv of every wind load, by file name."""
    fields = ("assembly", "position", "direction_deg", "case")
    forces = [f"force_{axis}_n" for axis, _ in WAYS] + [f"moment_{axis}_nm" for axis, _ in WAYS]
    rows = (
        [*(row[name] for name in fields), *row["force_n"], *row["moment_nm"]]
        for row in document["wind"]["loads"]
    )
    return {"wind-loads.csv": _csv((*fields, *forces), rows)}


def _csv(headings: Sequence[str], rows: Iterable[Iterable[Any]]) -> str:
    """Return a heading and rows, every text of them harmless; lines end as RFC 4180 has it."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(headings)
    writer.writerows([harmless(cell) for cell in row] for row in rows)
    return text.getvalue()


def harmless(value: Any) -> Any:  # noqa: ANN401 - any plain value
    """Return a value that no spreadsheet runs as a formula."""
    if isinstance(value, str) and value.startswith(FORMULA):
        return f"'{value}"
    return value
