"""Records of the wind coefficients of assemblies and parts, each with its rule and its rivals."""

import math
from collections.abc import Iterator
from typing import Any, NamedTuple

import numpy as np

from estimator.resolve.job import Resolved
from estimator.stages.blowing import Catch, Wind
from estimator.stages.blowing_looks import added_up
from estimator.stages.blowing_parts import caught_by
from estimator.stages.blowing_rules import rule_of
from estimator.stages.measuring import Shapes
from estimator.wind.air import speed_of_pressure
from estimator.wind.records import Coefficient

AREA_DECIMALS = 9
"""Areas alike to so many decimals of a square metre share a line."""
ON_OUTLINE = "on its outline"


class _Line(NamedTuple):
    """What parts that share a line have in common."""

    assembly: str
    meets: str
    area_m2: float | None
    coefficient: Coefficient


def coefficient_records(resolved: Resolved, shapes: Shapes, wind: Wind) -> list[dict[str, Any]]:
    """Return every coefficient in use; parts of one assembly alike in every figure share a line.

    An assembly that goes by its outline has one line, of none of its parts by itself.
    """
    assemblies = {assembly.key: assembly for assembly in resolved.assemblies}
    lines: dict[_Line, list[str]] = {}
    for catch in wind.catches:
        if not added_up(assemblies[catch.assembly]):
            outline = _Line(catch.assembly, ON_OUTLINE, catch.seen.area_m2, catch.coefficient)
            lines[outline] = []
            continue
        for part, line in _parts(resolved, shapes, catch):
            alike = lines.setdefault(line, [])
            if part not in alike:
                alike.append(part)
    return [_record(line, parts) for line, parts in lines.items()]


def _parts(resolved: Resolved, shapes: Shapes, catch: Catch) -> Iterator[tuple[str, _Line]]:
    """Yield the parts of an assembly, and every way the wind meets them."""
    columns = resolved.columns
    # What gust factor a rule has is no part of the speed.
    speed_m_s = float(speed_of_pressure(catch.pressure.pressure_pa / catch.pressure.gust_factor))
    book = rule_of(resolved.weather).book(resolved.weather)
    for i in np.flatnonzero(columns.in_wind):
        part = columns.parts[i]
        if part.assembly != catch.assembly or part.cut_away >= 1.0:
            continue
        found = caught_by(part, columns, shapes, int(i), book=book, speed_m_s=speed_m_s)
        for side in found.sides:
            area_m2 = None if math.isnan(side.area_m2) else round(side.area_m2, AREA_DECIMALS)
            yield part.key, _Line(catch.assembly, side.meets, area_m2, side.coefficient)


def _record(line: _Line, parts: list[str]) -> dict[str, Any]:
    found = line.coefficient
    return {
        "assembly": line.assembly,
        "parts": parts,
        "meets": line.meets,
        "area_m2": line.area_m2,
        "coefficient": found.value,
        "rule": found.rule,
        "source": found.source,
        "confirmed": found.confirmed,
        "others": [list(other) for other in found.others],
    }
