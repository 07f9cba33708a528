"""Stops: what keeps a thing that hangs freely on its axle from swinging further."""

import math
from collections.abc import Iterator, Mapping, Sequence

from estimator.core.problems import Problem, Severity
from estimator.resolve.names import Names, about, refusal
from estimator.resolve.records import Assembly, Drive
from estimator.sheets.rows import Row
from estimator.supports.swinging import Stops

WANTED = {
    "stops_from": "the angle of the first stop, from its place as drawn, such as -12 deg",
    "stops_to": "the angle of the last stop, further on than the first",
    "stop_arm": "how far from the axle the stops bear, such as 90 mm",
}
"""What stops need, as soon as one of them is given, by field."""
SAME_RAD = 1e-6
"""How far a position may lie beyond a stop and still be at it: finer than anybody could set."""


def driven(drive: Drive | None) -> bool:
    """Return whether anything drives a mover: a torque, or a weight on a drum."""
    if drive is None:
        return False
    return not (math.isnan(drive.drive_torque_nm) and math.isnan(drive.drive_mass_kg))


def hangs_free(assembly: Assembly, drive: Drive | None) -> bool:
    """Return whether a mover hangs on a level axle with nothing to turn it but weight and wind."""
    return assembly.moves == "turns" and assembly.axis != "up" and not driven(drive)


def resolve_stops(
    rows: Sequence[Row],
    assemblies: Sequence[Assembly],
    names: Names,
    drives: Mapping[str, Drive],
) -> tuple[dict[str, Stops], list[Problem]]:
    """Return the stops of each mover that has any, and what is wrong with the others.

    Args:
        rows: Rows of the `moving` sheet.
        assemblies: Every assembly that can be used.
        names: Names of the assemblies.
        drives: What the sheet says of each mover.
    """
    movers = {assembly.key: assembly for assembly in assemblies if assembly.moves != "fixed"}
    found, problems = {}, []
    for row in rows:
        key = names[row.text("assembly")]
        if key not in movers or not any(row.has(field) for field in WANTED):
            continue
        wrong = list(_faults(row))
        problems += wrong
        if not wrong:
            stops = Stops(*(row.number(field) for field in WANTED))
            problems += _doubts(row, movers[key], drives.get(key), stops)
            found[key] = stops
    return found, problems


def _faults(row: Row) -> Iterator[Problem]:
    """Yield what keeps stops from being used."""
    missing = [field for field in WANTED if not row.has(field)]
    for field in missing:
        heading = field.replace("_", " ")
        advice = "type all three of stops from, stops to and stop arm, or none"
        yield refusal(row, field, f'"{heading}" is blank', WANTED[field], advice)
    low_rad, high_rad = row.number("stops_from"), row.number("stops_to")
    if not missing and not low_rad < high_rad:
        found = f"its stops go from {_deg(low_rad)} to {_deg(high_rad)}, which leaves no room"
        yield refusal(row, "stops_to", found, WANTED["stops_to"], "look at both angles")


def _doubts(row: Row, assembly: Assembly, drive: Drive | None, stops: Stops) -> Iterator[Problem]:
    """Yield what there is to say of stops that can be used."""
    if not hangs_free(assembly, drive):
        why = "it is driven" if driven(drive) else "its weight does not turn it back"
        found = f"nothing is worked out from the stops of {assembly.key}: {why}"
        yield Problem(Severity.NOTE, row.cell("stops_from"), found, "", "they are kept", about(row))
        return
    low_rad, high_rad = min(assembly.positions), max(assembly.positions)
    if low_rad < stops.low_rad - SAME_RAD or high_rad > stops.high_rad + SAME_RAD:
        found = (
            f"{assembly.key} is worked out from {_deg(low_rad)} to {_deg(high_rad)}, but its stops "
            f"stand at {_deg(stops.low_rad)} and {_deg(stops.high_rad)}"
        )
        wanted = "positions between the stops"
        advice = "look at from and to on the assemblies sheet"
        yield Problem(Severity.QUESTION, row.cell("stops_from"), found, wanted, advice, about(row))


def _deg(angle_rad: float) -> str:
    return f"{math.degrees(angle_rad):g} deg"
