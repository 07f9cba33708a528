"""Zones of the wall that no fixing may go into, and the holes that lie in one."""

import math
import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from estimator.core.problems import Cell, Problem, Severity
from estimator.core.units import KINDS, UnitError, parse_quantity
from estimator.geometry.rectangles import Rectangle, inside_by
from estimator.resolve.records import Bracket

EXAMPLE = "across -300 to 300 mm, up 0 to 400 mm"
_WANTED = f"a rectangle on the wall face, from the datum: {EXAMPLE}"
_ZONE = re.compile(
    r"across (?P<left>.+?) to (?P<right>.+?)[,;]? up (?P<foot>.+?) to (?P<head>.+)", re.IGNORECASE
)
_UNIT = re.compile(r"[^\d\s.,+-].*")


class Zone(NamedTuple):
    """A rectangle on the wall face that no fixing may go into.

    Attributes:
        name: What is there; blank when nobody said.
        rectangle: Across and up from the datum.
        cell: Where it was typed.
    """

    name: str
    rectangle: Rectangle
    cell: Cell

    def __str__(self) -> str:
        """Return what it is called: "rainwater pipe (answers!C4)"."""
        return f"{self.name} ({self.cell})" if self.name else str(self.cell)


class Hole(NamedTuple):
    """A hole for a fixing.

    Attributes:
        number: From 1, row by row from the bottom of its plate, left to right.
        bracket: Mark of its bracket.
        at_m: Across and up from the datum.
        diameter_m: NaN when nobody said.
    """

    number: int
    bracket: str
    at_m: tuple[float, float]
    diameter_m: float

    def in_by(self, zone: Zone) -> float:
        """Return how far the edge of the hole reaches into a zone; negative when it is clear."""
        radius_m = 0.0 if math.isnan(self.diameter_m) else self.diameter_m / 2
        return inside_by(self.at_m, zone.rectangle) + radius_m


def read_zone(text: str, name: str, cell: Cell) -> Zone:
    """Return the zone that a text describes.

    Raises:
        UnitError: It is no rectangle with units.
    """
    read = _ZONE.fullmatch(" ".join(text.replace("\N{MINUS SIGN}", "-").split()))
    if read is None:
        found = f'"{text}" is no rectangle'
        raise UnitError(found, _WANTED, f"type it as in: {EXAMPLE}")
    left_m, right_m = _ends(read["left"], read["right"])
    foot_m, head_m = _ends(read["foot"], read["head"])
    if left_m >= right_m or foot_m >= head_m:
        found = f'"{text}" has no width or no height'
        raise UnitError(found, _WANTED, "type the smaller number first, - for left or below")
    return Zone(name, Rectangle(left_m, foot_m, right_m, head_m), cell)


def _ends(first: str, last: str) -> tuple[float, float]:
    """Return two lengths; the first has the unit of the last where it has none."""
    unit = _UNIT.search(last)
    if unit and not _UNIT.search(first):
        first = f"{first} {unit[0]}"
    kind = KINDS["length"]
    return parse_quantity(first.strip(), kind), parse_quantity(last.strip(), kind)


def holes(brackets: Sequence[Bracket]) -> Iterator[Hole]:
    """Yield every hole of every wall plate, numbered through; none whose place is not known."""
    number = 0
    for bracket in brackets:
        if bracket.fixings is None:
            continue
        across_m, up_m, _ = bracket.root_m
        points_m = bracket.fixings.points_m
        for right_m, above_m in points_m.tolist() if np.isfinite(points_m).all() else ():
            number += 1
            at_m = (across_m + right_m, up_m + above_m)
            yield Hole(number, bracket.key, at_m, bracket.fixings.diameter_m)


def zone_problems(brackets: Sequence[Bracket], zones: Sequence[Zone]) -> list[Problem]:
    """Return for each bracket what lies in a zone that no fixing may go into."""
    every = list(holes(brackets))
    problems = []
    for zone in zones:
        for bracket in brackets:
            told = [
                f"hole {hole.number} (across {_mm(hole.at_m[0])}, up {_mm(hole.at_m[1])} mm)"
                for hole in every
                if hole.bracket == bracket.key and hole.in_by(zone) >= 0
            ]
            if told:
                found = f"{'; '.join(told)}: in the zone not to fix in, {zone}"
                problems.append(
                    Problem(Severity.QUESTION, bracket.cell, found, "no fixing in it",
                            "move the bracket or its fixings, or ask the engineer again",
                            bracket.key)
                )  # fmt: skip
    return problems


def _mm(length_m: float) -> str:
    return f"{1000 * length_m:.0f}"
