"""The lines of ASCE 7: factors on dead load and on the others, by rule and clause.

2.3.1 and 2.4.1 of ASCE 7-16 as reprinted in the New York City Building Code, BC 1605.2 and
1605.3.1; of ASCE 7-22 as in a public transcription. The lines with ice, 2.3.3 and 2.4.3, are from
memory; a public transcription of those of 7-10 (GitHub, labsuelos/CIRSOC_402, load/asce.py) has
the same, but leaves the weight of the ice out of the last one of 2.3.3.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple


class Line(NamedTuple):
    """A line of ASCE 7: the factor on D, then on the others by their letters.

    S stands, in 7-16, for Lr, S or R; D_i for the weight of ice and W_i for the wind on it.
    """

    dead: float
    others: Mapping[str, float]


class Clause(NamedTuple):
    """Lines of one clause of ASCE 7."""

    clause: str
    lines: tuple[Line, ...]


def _strength(edition: str, leading: float, beside: float) -> tuple[Clause, Clause]:
    """Return the lines for strength, with an edition's factors on snow."""
    return (
        Clause(
            f"{edition} 2.3.1",
            (
                Line(1.4, {}),
                Line(1.2, {"L": 1.6, "S": beside}),
                Line(1.2, {"S": leading, "L": 1.0}),
                Line(1.2, {"S": leading, "W": 0.5}),
                Line(1.2, {"W": 1.0, "L": 1.0, "S": beside}),
                Line(0.9, {"W": 1.0}),
            ),
        ),
        Clause(
            f"{edition} 2.3.3, from memory",
            (
                Line(1.2, {"L": 1.6, "Di": 0.2, "S": beside}),
                Line(1.2, {"Di": 1.0, "Wi": 1.0, "L": 1.0, "S": beside}),
                Line(0.9, {"Di": 1.0, "Wi": 1.0}),
            ),
        ),
    )


def _allowable(edition: str, snow: float, said: str = "") -> tuple[Clause, Clause]:
    """Return the lines for allowable stress, with an edition's factor on snow."""
    return (
        Clause(
            f"{edition} 2.4.1{said}",
            (
                Line(1.0, {"L": 1.0}),
                Line(1.0, {"S": snow}),
                Line(1.0, {"L": 0.75, "S": 0.75 * snow}),
                Line(1.0, {"W": 0.6}),
                Line(1.0, {"W": 0.75 * 0.6, "L": 0.75, "S": 0.75 * snow}),
                Line(0.6, {"W": 0.6}),
            ),
        ),
        Clause(
            f"{edition} 2.4.3, from memory",
            (
                Line(1.0, {"L": 1.0, "Di": 0.7}),
                Line(1.0, {"Di": 0.7, "Wi": 0.7, "S": snow}),
                Line(0.6, {"Di": 0.7, "Wi": 0.7}),
            ),
        ),
    )


LINES: Mapping[str, tuple[Clause, ...]] = MappingProxyType(
    {
        "ASCE 7-16 strength": _strength("ASCE 7-16", leading=1.6, beside=0.5),
        "ASCE 7-22 strength": _strength("ASCE 7-22", leading=1.0, beside=0.3),
        "ASCE 7-16 ASD": _allowable("ASCE 7-16", 1.0),
        "ASCE 7-22 ASD": _allowable("ASCE 7-22", 0.7, ", its 0.7 on snow from memory"),
    }
)
"""By rule. 2.3.1 and 2.4.1 first: without ice the lines of the clause after them are the same."""
LETTERS = ("W", "L", "S", "Di", "Wi")
"""Every letter that stands in a line beside D."""
