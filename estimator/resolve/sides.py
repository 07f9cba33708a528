"""What the job sheet says of the sides the wind comes from: which ones, and how hard from each."""

import math
import re
from typing import NamedTuple

import numpy as np

from estimator.core.problems import Cell, Problem, Severity
from estimator.core.sourced import Origin
from estimator.core.units import KINDS, UnitError, parse_quantity
from estimator.resolve.records import Facts
from estimator.wind import directions, uk_annex

DIRECTIONS_DEG = directions.evenly(directions.USUAL)
"""Looked at unless the job sheet says otherwise."""
MOST = 360
_SPLIT = re.compile(r"[;,]")
_DEGREES = re.compile(r"(-?\d+(?:\.\d+)?)\s*(?:deg|°)?")


class Sides(NamedTuple):
    """The sides the wind comes from.

    Attributes:
        directions_deg: Those that are looked at.
        shares: Of the highest pressure, from each.
        highest: What the shares are of: the largest direction factor, or pressure in Pa.
        note: How it differs from side to side, blank where it does not.
    """

    directions_deg: tuple[float, ...] = DIRECTIONS_DEG
    shares: tuple[float, ...] = (1.0,) * directions.USUAL
    highest: float = 1.0
    note: str = ""


EVERY_SIDE = Sides()
"""The usual directions, the wind the same from each."""


def resolve_directions(facts: Facts) -> tuple[tuple[float, ...], list[Problem]]:
    """Return the directions that are looked at, and what is wrong with what was typed."""
    typed = facts.text("wind_directions", str(directions.USUAL))
    found = _directions(typed)
    if found:
        return found, []
    return DIRECTIONS_DEG, [
        _question(
            facts, "wind_directions",
            f'"{typed}" is neither a count nor a list of directions; {directions.USUAL} were used',
            f"a count from 1 to {MOST}, or directions in degrees: 0; 45; 90",
        )
    ]  # fmt: skip


def _directions(typed: str) -> tuple[float, ...]:
    """Return the directions meant, none when it cannot be read."""
    if typed.strip().isdigit():
        count = int(typed)
        return directions.evenly(count) if 1 <= count <= MOST else ()
    read = [_DEGREES.fullmatch(part.strip()) for part in _SPLIT.split(typed) if part.strip()]
    sides = {float(one[1]) % directions.FULL_TURN_DEG for one in read if one}
    return tuple(sorted(sides)) if read and all(read) else ()


def resolve_stated(facts: Facts, directions_deg: tuple[float, ...]) -> tuple[Sides, list[Problem]]:
    """Return pressures somebody stated, by direction or one for all."""
    item = "stated_pressure_by_direction"
    if not facts.has(item):
        pressure_pa = facts.number("stated_pressure")
        return Sides(directions_deg, (1.0,) * len(directions_deg), pressure_pa), []
    by_side = _stated(facts.text(item))
    if not by_side:
        found = f'"{facts.text(item)}" is not a list of directions with a pressure each, so '
        found += "there are no wind figures"
        expected = "0: 900 Pa; 90: 700 Pa"
        return Sides(directions_deg, (), math.nan), [_question(facts, item, found, expected)]
    around_pa = directions.stated_around(by_side, directions_deg)
    note = (
        "The pressure was stated by direction; between two of them the larger of both was used: "
        + "; ".join(f"{side:g} deg {pressure:.4g} Pa" for side, pressure in sorted(by_side.items()))
    )
    sides = Sides(directions_deg, directions.shares(around_pa), float(around_pa.max()), note)
    if not facts.has("stated_pressure"):
        return sides, []
    found = "a pressure for every side stands beside it, and is not used"
    return sides, [_question(facts, "stated_pressure_by_direction", found, "one of the two")]


def _stated(typed: str) -> dict[float, float]:
    """Return pressures in Pa by direction, empty when they cannot be read."""
    by_side = {}
    for part in typed.split(";"):
        side, _, pressure = part.partition(":")
        read = _DEGREES.fullmatch(side.strip())
        try:
            pressure_pa = parse_quantity(pressure.strip(), KINDS["pressure"])
        except UnitError:
            return {}
        if read is None or not pressure_pa > 0:
            return {}
        by_side[float(read[1])] = pressure_pa
    return by_side


def resolve_factors(facts: Facts, directions_deg: tuple[float, ...]) -> Sides:
    """Return the direction factor of the rule: as typed, by the UK annex, or 1 for every side."""
    plain = Sides(
        directions_deg, (1.0,) * len(directions_deg), facts.number("direction_factor", 1.0)
    )
    typed = facts.values.get("direction_factor")
    british = facts.text("wind_rule") == "EN 1991-1-4" and facts.text("national_annex") == "UK"
    if not british or (typed and typed.origin is Origin.TYPED):
        return plain
    if not facts.has("wall_faces"):
        return plain._replace(
            note="The UK annex has direction factors below 1 by the compass; which way the wall "
            "faces was not told, so 1 was used for every side"
        )
    faces_deg = math.degrees(facts.number("wall_faces"))
    bearings = np.array([directions.bearing(faces_deg, side) for side in directions_deg])
    factors = np.asarray(uk_annex.direction_factor(bearings), dtype=np.float64)
    said = "; ".join(
        f"{side:g} deg (bearing {compass:.0f}) {factor:.3f}"
        for side, compass, factor in zip(
            directions_deg, bearings.tolist(), factors.tolist(), strict=True
        )
    )
    return Sides(
        directions_deg, directions.shares(factors, 2.0), float(factors.max()),
        "Direction factors of the UK annex, by the side of the wind; pressure goes with their "
        f"square, and the steps show the largest: {said}",
    )  # fmt: skip


def _question(facts: Facts, item: str, found: str, expected: str) -> Problem:
    fact = facts.values.get(item)
    cell = fact.cell if fact and fact.cell else Cell("job")
    return Problem(Severity.QUESTION, cell, found, expected,
                   "ask the engineer, and say who said so", "")  # fmt: skip
