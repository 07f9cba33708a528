"""What is odd about a file that gives the form of a part, and about the size it comes to."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import NamedTuple

from estimator.core.problems import Problem, Severity
from estimator.resolve.names import refusal
from estimator.sheets.rows import Row

LIKELY_M = (0.005, 50.0)
"""Shortest and longest thing that is likely: program default, no source."""
SIZE_DIFFERS = 0.02
"""Share from which a typed size is asked about."""


class Doubt(NamedTuple):
    """Something to look at.

    Attributes:
        found: What there is; one sentence, no full stop.
        wanted: What is wanted there.
        advice: What to do.
        field: Field of the row that it is about.
        severity: What it does to the row.
    """

    found: str
    wanted: str
    advice: str
    field: str = "file"
    severity: Severity = Severity.QUESTION


def problems_of(row: Row, doubts: Iterable[Doubt]) -> Iterator[Problem]:
    """Yield doubts as problems, at the cells of a row."""
    for doubt in doubts:
        said = refusal(row, doubt.field, doubt.found, doubt.wanted, doubt.advice)
        yield replace(said, severity=doubt.severity)
