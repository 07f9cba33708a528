"""What else is said of an assembly: what drives it, and the loads from elsewhere that it bears."""

import math
from collections.abc import Sequence

from estimator.core.constants import GRAVITY_M_S2
from estimator.core.problems import Problem
from estimator.resolve.names import Names, nameless, refusal
from estimator.resolve.records import Assembly, Drive, ExtraLoad
from estimator.sheets.converters import folded
from estimator.sheets.rows import Job, Row

BLADE_TWIST_RAD = math.radians(2.0)
"""How far a hammered blade is taken to be out of flat: program default, no source."""
TOWARDS = {
    "down": (0.0, -1.0, 0.0), "up": (0.0, 1.0, 0.0), "in": (0.0, 0.0, -1.0), "out": (0.0, 0.0, 1.0),
    "left": (-1.0, 0.0, 0.0), "right": (1.0, 0.0, 0.0),
}  # fmt: skip
TOGETHER, NO_OTHER = "together_with", "none"
WATER = "water trapped"
"""The cause whose size may be left blank: as much as the hollow shapes hold."""


def resolve_drives(
    rows: Sequence[Row], unread: Sequence[Row], assemblies: Sequence[Assembly], names: Names
) -> tuple[dict[str, Drive], list[Problem]]:
    """Return what the `moving` sheet says of each mover, and what is wrong there.

    Args:
        rows: Rows of the sheet.
        unread: Rows of it that could not be read; what they name is looked up.
        assemblies: Every assembly that can be used.
        names: Names of the assemblies.
    """
    movers = {assembly.key for assembly in assemblies if assembly.moves != "fixed"}
    wanted = "an assembly that turns or slides"
    lost = (row.text("assembly") for row in names.refused.values() if row.has("moves"))
    choices = sorted({*movers, *lost})
    problems = [
        nameless(row, "assembly", (names,), (f'"{typed}" is not {wanted}', wanted), choices)
        for row in (*rows, *unread)
        if (typed := row.text("assembly")) and names[typed] not in movers
    ]
    keys = [names[row.text("assembly")] for row in rows]
    drives = {key: _drive(row, key) for key, row in zip(keys, rows, strict=True) if key in movers}
    return drives, problems


def _drive(row: Row, key: str) -> Drive:
    return Drive(
        assembly=key,
        drive_torque_nm=row.number("drive_torque"),
        drive_mass_kg=row.number("drive_weight"),
        drum_m=row.number("drum"),
        falls=row.number("falls", 1.0),
        counterweight=row.text("counterweight_part"),
        radius_m=row.number("radius"),
        twist_rad=row.number("blade_twist", BLADE_TWIST_RAD),
        twist_assumed=not row.has("blade_twist"),
    )


def load_names(job: Job) -> Names:
    """Return the names of every load from elsewhere, whichever way of building it is for."""
    return Names.of("load", (*job.rows["extra loads"], *job.refused_rows["extra loads"]))


def resolve_extra_loads(
    rows: Sequence[Row], unread: Sequence[Row], names: Names, loads: Names
) -> tuple[tuple[ExtraLoad, ...], list[Problem]]:
    """Return the loads from elsewhere, and what is wrong with the others.

    Args:
        rows: Rows of the `extra loads` sheet.
        unread: Rows of it that could not be read; what they name is looked up.
        names: Names of the assemblies.
        loads: Names of the loads, of every way of building.
    """
    found, problems = (
        [],
        [problem for row in unread for problem in (*_lost(row, names), *_strange(row, loads))],
    )
    for row in rows:
        wrong = [*_lost(row, names), *_strange(row, loads), *_sizeless(row)]
        problems += wrong
        if not wrong:
            found.append(_load(row, names[row.text("assembly")], loads))
    return tuple(found), problems


def _lost(row: Row, names: Names) -> list[Problem]:
    """Return a problem if a load acts on no assembly of the workbook."""
    wanted, typed = "an assembly of this workbook", row.text("assembly")
    if not typed or names[typed]:
        return []
    return [nameless(row, "assembly", (names,), (f'"{typed}" is not {wanted}', wanted), names.all)]


def _strange(row: Row, loads: Names) -> list[Problem]:
    """Return a problem for each load that a row names and that is none."""
    wanted = "names of other loads with commas between, or none"
    return [
        nameless(row, TOGETHER, (loads,), (f'"{typed}" is not a load of this sheet', wanted),
                 loads.all)
        for typed in _named(row) or ()
        if not loads[typed]
    ]  # fmt: skip


def _sizeless(row: Row) -> list[Problem]:
    """Return a problem if a load says neither force nor mass, and is not water up to the brim."""
    if row.has("force") or row.has("mass") or not row.has("cause"):
        return []
    if row.text("cause") == WATER:
        return []
    return [
        refusal(row, "force", '"force" is blank', 'Characteristic force or "mass"',
                "fill it in, or empty the whole row")
    ]  # fmt: skip


def _named(row: Row) -> tuple[str, ...] | None:
    """Return the loads that a row names; None where it says nothing."""
    typed = [word.strip() for word in row.text(TOGETHER).replace(";", ",").split(",")]
    named = tuple(word for word in typed if word)
    if not named:
        return None
    return () if tuple(map(folded, named)) == (NO_OTHER,) else named


def _load(row: Row, key: str, loads: Names) -> ExtraLoad:
    """Return a load; a mass bears with its weight, downwards unless the row says otherwise."""
    size_n = row.number("force", row.number("mass", 0.0) * GRAVITY_M_S2)
    across, up, out = TOWARDS[row.text("direction", "down")]
    named = _named(row)
    return ExtraLoad(
        key=row.text("load"),
        assembly=key,
        cause=row.text("cause", "person"),
        force_n=(size_n * across, size_n * up, size_n * out),
        at_m=(row.number("across", 0.0), row.number("up", 0.0), row.number("out", 0.0)),
        source=row.text("source") or str(row.cell("load")),
        together=None if named is None else tuple(loads[name] for name in named),
        fills=not (row.has("force") or row.has("mass")),
    )
