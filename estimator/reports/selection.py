"""Which of the document's many rows a page prints: those that govern. The rest are in the file."""

import math
from collections.abc import Callable, Iterable, Sequence
from typing import Any, NamedTuple, TypeVar

from estimator.reports.document import Document

Row = Document
Item = TypeVar("Item")


class Governing(NamedTuple):
    """A row that is printed, and what it is the largest of."""

    row: Row
    because: tuple[str, ...]


_SENSES = (
    ("pull from the wall", "force_n", 2, 1.0),
    ("push onto the wall", "force_n", 2, -1.0),
    ("to the right", "force_n", 0, 1.0),
    ("to the left", "force_n", 0, -1.0),
    ("uplift", "force_n", 1, 1.0),
    ("downwards", "force_n", 1, -1.0),
)
_LEAST_N = 0.5
"""A force that would be printed as 0 N governs nothing."""


def resultant(vector: Sequence[float]) -> float:
    """Return the length of a force or a moment, by which rows are put in order."""
    return math.hypot(*vector)


def governing(rows: Iterable[Row], group: Callable[[Row], Any]) -> list[Governing]:
    """Return, group by group, the rows that hold the largest force of some sense.

    Args:
        rows: Records with ``force_n``.
        group: What the rows are told apart by, such as their assembly.
    """
    chosen: list[Governing] = []
    for members in grouped(rows, group).values():
        reasons: dict[int, list[str]] = {}
        for words, key, axis, sign in _SENSES:
            values = [sign * row[key][axis] for row in members]
            largest = max(values)
            if largest >= _LEAST_N:
                reasons.setdefault(values.index(largest), []).append(words)
        chosen += [Governing(members[i], tuple(words)) for i, words in sorted(reasons.items())]
    return chosen


def grouped(rows: Iterable[Row], group: Callable[[Row], Any]) -> dict[Any, list[Row]]:
    """Return the rows by group, groups and rows in the order met."""
    groups: dict[Any, list[Row]] = {}
    for row in rows:
        groups.setdefault(group(row), []).append(row)
    return groups


def numbered(rows: Iterable[Row], key: str) -> dict[str, int]:
    """Return the different texts under a key, each with the number it is printed by."""
    texts = dict.fromkeys(row[key] for row in rows)
    return {text: number for number, text in enumerate(filter(None, texts), start=1)}


def heaviest(parts: Iterable[Row], most: int) -> list[Row]:
    """Return the heaviest parts, heaviest first."""
    return sorted(parts, key=lambda part: -part["mass_kg"])[:most]


def widest(parts: Iterable[Row], most: int) -> list[Row]:
    """Return the parts whose mass is least sure, widest range first."""
    return sorted(parts, key=lambda part: part["low_kg"] - part["high_kg"])[:most]


def largest(rows: Iterable[Row], key: str) -> Row | None:
    """Return the row with the largest value under a key; None when no row has one."""
    known = [row for row in rows if row[key] is not None]
    return max(known, key=lambda row: row[key], default=None)


def chief(items: Sequence[Item], most: int, size: Callable[[Item], float]) -> list[Item]:
    """Return the largest few of the items, in the order they came in."""
    ranked = sorted(range(len(items)), key=lambda i: -size(items[i]))
    return [items[i] for i in sorted(ranked[:most])]


def by_direction(loads: Iterable[Row]) -> list[tuple[float, float]]:
    """Return (direction in degrees, largest force in newtons) round the compass."""
    groups = grouped(loads, lambda load: load["direction_deg"] % 360)
    return sorted((turn, max(resultant(x["force_n"]) for x in g)) for turn, g in groups.items())
