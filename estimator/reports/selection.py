"""Which of the document's many rows a page prints: those that govern. The rest are in the file."""

import math
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from typing import Any, TypeVar

from estimator.reports.document import Document

Row = Document
Item = TypeVar("Item")


def resultant(vector: Sequence[float]) -> float:
    """Return the length of a force or a moment, by which rows are put in order."""
    return math.hypot(*vector)


def grouped(rows: Iterable[Row], group: Callable[[Row], Any]) -> dict[Any, list[Row]]:
    """Return the rows by group, groups and rows in the order met."""
    groups: dict[Any, list[Row]] = {}
    for row in rows:
        groups.setdefault(group(row), []).append(row)
    return groups


def repeated(texts: Iterable[str]) -> list[str]:
    """Return the texts that are there more than once, in the order met."""
    return [text for text, count in Counter(texts).items() if count > 1]


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
