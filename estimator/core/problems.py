"""Problems: what is wrong in an input, where, and what to do about it.

A check returns problems and goes on, so that one run shows all of them; raising is for
programmer error and for a file that cannot be read at all.
"""

from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """What a problem does to the row it is in."""

    REFUSED = "refused"
    """The row could not be used; the result is INCOMPLETE."""
    QUESTION = "question"
    """The row was used as said, but a person should look at it."""
    NOTE = "note"
    """Something was left aside that does not count, such as an unknown heading."""


@dataclass(frozen=True, slots=True)
class Cell:
    """Where a value was typed.

    Attributes:
        sheet: Name of the sheet.
        column: Column letters; empty for a whole row.
        row: Row number as the spreadsheet shows it; 0 for a whole sheet.
    """

    sheet: str
    column: str = ""
    row: int = 0

    def __str__(self) -> str:
        """Return the address a spreadsheet program would show, such as ``parts!D9``."""
        place = f"{self.column}{self.row or ''}"
        return f"{self.sheet}!{place}" if place else self.sheet


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing to put right, or to look at, before an estimate can be trusted.

    Attributes:
        severity: What it does to the row.
        cell: The cell to open.
        found: What is there and why it will not do; one sentence, no full stop.
        expected: What is wanted there.
        advice: What to type instead, or which file to extend.
        part: The part, assembly or bracket the row is about, when it has a name.
    """

    severity: Severity
    cell: Cell
    found: str
    expected: str
    advice: str
    part: str = ""

    def __str__(self) -> str:
        """Return the address and finding on one line, what to do on the next."""
        about = f" ({self.part})" if self.part else ""
        lines = [f"{self.cell}{about}: {self.found}"]
        if self.expected:
            lines.append(f"    wanted: {self.expected}")
        if self.advice:
            lines.append(f"    {self.advice}")
        return "\n".join(lines)

    def record(self) -> dict[str, str]:
        """Return the problem for another program to read."""
        return {
            "severity": str(self.severity),
            "sheet": self.cell.sheet,
            "cell": str(self.cell),
            "part": self.part,
            "found": self.found,
            "expected": self.expected,
            "advice": self.advice,
        }


class UnreadableError(Exception):
    """The file cannot be read as a job at all; nothing is written."""


class RequestError(ValueError):
    """What was asked for cannot be done as it was asked; nothing is written."""
