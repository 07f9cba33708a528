"""The table of wind coefficients: part, rule, coefficient, why, and what other rules would give."""

from typing import Any

from estimator.reports import figures, matrices, selection
from estimator.reports.document import Document

SHOWN = 40
"""More lines than this are cut to those that catch most; all are in estimate.json."""
LEAST = 0.03
"""A side that catches less than this share of the chief side of the same part has no line."""
PARTS_NAMED = 4
"""More parts of one line than this are told by their number."""
_KNOWN = {True: "seen", False: "to be checked"}


def context(document: Document) -> dict[str, Any]:
    """Return the lines of the table, what catches most first, and its notes."""
    every = document["wind"]["coefficients"]
    things = selection.grouped(every, lambda row: (row["assembly"], *row["parts"]))
    chief = sorted(things.values(), key=lambda rows: max(map(_catches, rows)), reverse=True)
    rows = [
        row
        for sides in chief
        for row in sides
        if _catches(row) >= LEAST * max(map(_catches, sides))
    ][:SHOWN]
    marks = matrices.marked((text for row in rows for text in _texts(row)), str)
    return {
        "coefficient_rows": [
            {
                **row,
                "of": of(row),
                "known": _KNOWN[row["confirmed"]],
                "range": spread(row),
                "notes": [marks[text] for text in _texts(row)],
            }
            for row in rows
        ],
        "coefficient_notes": {mark: text for text, mark in marks.items()},
        "more_coefficients": len(every) - len(rows),
    }


def _catches(row: Document) -> float:
    """Return coefficient times area; what changes its outline with the direction comes first."""
    return float("inf") if row["area_m2"] is None else float(row["coefficient"] * row["area_m2"])


def of(row: Document) -> str:
    """Return the parts of a line, or that it is the whole of an assembly."""
    parts = row["parts"]
    if not parts:
        return "the whole"
    if len(parts) <= PARTS_NAMED:
        return ", ".join(parts)
    return f"{', '.join(parts[: PARTS_NAMED - 1])} and {len(parts) - PARTS_NAMED + 1} more"


def spread(row: Document) -> str:
    """Return the least and the most that the other rules give; blank when none was looked at."""
    values = [value for _, value in row["others"]]
    if not values:
        return ""
    low, high = (figures.fixed(value, 2) for value in (min(values), max(values)))
    return low if low == high else f"{low} to {high}"


def _texts(row: Document) -> list[str]:
    """Return the notes of a line: where its rule is from, and what every other rule gives."""
    told = "; ".join(f"{rule}: {figures.fixed(value, 2)}" for rule, value in row["others"])
    return [row["source"], *([f"other rules: {told}"] if told else [])]
