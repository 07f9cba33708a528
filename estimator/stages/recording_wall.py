"""Recording what the wall drawings show: plates, holes, zones not to fix in, brackets side-on."""

import math
from collections.abc import Iterator, Sequence
from typing import Any

from estimator.resolve.answers import Answer
from estimator.resolve.job import Resolved
from estimator.resolve.records import Bracket, Stay
from estimator.resolve.zones import Hole, Zone, holes
from estimator.sheets.topics import Sets
from estimator.stages.holding import COMPONENTS, Governing, HeldSet
from estimator.stages.recording_loads import known


def wall_record(resolved: Resolved) -> dict[str, Any]:
    """Return every plate and hole on the wall face from the datum, and the zones beside them."""
    every = list(holes(resolved.brackets))
    corner_m, top_m = (
        known(resolved.facts.number(item))
        for item in ("datum_to_nearest_corner", "datum_to_top_of_wall")
    )
    return {
        "corner_m": corner_m,
        "top_m": top_m,
        "plates": [_plate(bracket, every) for bracket in resolved.brackets],
        "holes": [
            {
                "number": hole.number,
                "bracket": hole.bracket,
                "at_m": list(hole.at_m),
                "diameter_m": known(hole.diameter_m),
                # Nobody says on which side that corner is, so the nearer of both is given.
                "corner_m": None if corner_m is None else corner_m - abs(hole.at_m[0]),
                "top_m": None if top_m is None else top_m - hole.at_m[1],
            }
            for hole in every
        ],
        "zones": [_zone(said, every) for said in resolved.answers.counting(Sets.ZONE)],
    }


def _plate(bracket: Bracket, every: Sequence[Hole]) -> dict[str, Any]:
    across_m, up_m, _ = bracket.root_m
    plate = bracket.plate
    return {
        "bracket": bracket.key,
        "set": bracket.set_name,
        "at_m": [across_m, up_m],
        "size_m": None if plate is None else [plate.width_m, plate.height_m],
        "holes": [hole.number for hole in every if hole.bracket == bracket.key],
    }


def _zone(said: Answer, every: Sequence[Hole]) -> dict[str, Any]:
    zone: Zone = said.value
    return {
        "zone": zone.name,
        "cell": str(zone.cell),
        "said_by": said.said_by,
        "box_m": list(zone.rectangle),
        "holes": [
            {"number": hole.number, "in_by_m": hole.in_by(zone)}
            for hole in every
            if hole.in_by(zone) >= 0
        ],
    }


def elevation_records(held: Sequence[HeldSet]) -> list[dict[str, Any]]:
    """Return every bracket as seen along the wall, with the most it passes on at the wall face."""
    return [_elevation(bracket, one) for one in held for bracket in one.brackets]


def _elevation(bracket: Bracket, held: HeldSet) -> dict[str, Any]:
    plate, fixings = bracket.plate, bracket.fixings
    levels = [] if fixings is None else sorted(set(fixings.points_m[:, 1].tolist()))
    return {
        "bracket": bracket.key,
        "set": held.name,
        "reach_m": bracket.reach_m,
        "bears_m": bracket.bears_m,
        "holds": bracket.holds,
        "section": bracket.section.key,
        "depth_m": bracket.section.height_m,
        "grade": bracket.grade,
        "trial": bool(bracket.trial),
        "plate_m": None if plate is None else [plate.width_m, plate.height_m, plate.thickness_m],
        "hole_levels_m": levels if all(math.isfinite(level) for level in levels) else [],
        "stay": None if bracket.stay is None else _stay(bracket.stay),
        "actions": list(_actions(bracket, held)),
    }


def _stay(stay: Stay) -> dict[str, Any]:
    return {
        "from_m": stay.from_m,
        "to_m": stay.to_m,
        "section": stay.section.key,
        "depth_m": stay.section.height_m,
        "pulls_only": stay.pulls_only,
    }


def _actions(bracket: Bracket, held: HeldSet) -> Iterator[dict[str, Any]]:
    """Yield the highest and the lowest of every component, characteristic and factored."""
    characteristic = _by_component(bracket, held.service)
    factored = _by_component(bracket, held.governing)
    for pair in COMPONENTS:
        if all(name in found for found in (characteristic, factored) for name in pair):
            yield {
                "components": list(pair),
                "unit": "N m" if pair[0].startswith("moment") else "N",
                "characteristic": [characteristic[name] for name in pair],
                "factored": [factored[name] for name in pair],
            }


def _by_component(bracket: Bracket, rows: Sequence[Governing]) -> dict[str, float]:
    return {row.component: row.value for row in rows if row.bracket == bracket.key}
