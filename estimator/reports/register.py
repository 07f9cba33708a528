"""The register as it is printed: what figures rest on, with blanks to fill in."""

from typing import NamedTuple

from estimator.reports import sentences
from estimator.reports.document import Document

_STATES = {"job": "typed on the job sheet", "replaced": "does not count"}
"""What is said of a state that does not speak for itself."""


class Line(NamedTuple):
    """One line of the register.

    Attributes:
        number: Its number.
        about: What it is about.
        used: What figures rest on: with what stood there before.
        why: What it changes.
        said: Who said it, when and where; blank where nobody did.
        blank: Whether an answer is wanted.
    """

    number: int
    about: str
    used: str
    why: str
    said: str
    blank: bool


def lines(document: Document) -> list[Line]:
    """Return the register line by line."""
    return [_line(row) for row in document["register"]]


def _line(row: Document) -> Line:
    told = ", ".join(filter(None, (row["who"], row["date"], row["cell"])))
    about = f"{row['about']}: {row['which']}" if row["which"] else row["about"]
    said = "; ".join(filter(None, (told, _STATES.get(row["state"]))))
    return Line(row["number"], about, _used(row), row["why"], said, row["state"] == "open")


def _used(row: Document) -> str:
    if row["kind"] == "not told":
        return sentences.stood_in({"item": row["about"], "used": row["value"]})
    before = f" (before: {row['before']})" if row["before"] else ""
    return f"{row['value']}{before}"
