"""What else is said of an assembly: what drives it, and the loads from elsewhere that it bears."""

import math
from collections.abc import Sequence

from estimator.core.constants import GRAVITY_M_S2
from estimator.core.problems import Problem
from estimator.resolve.names import Names, nameless
from estimator.resolve.records import Assembly, Drive, ExtraLoad
from estimator.sheets.rows import Row

BLADE_TWIST_RAD = math.radians(2.0)
"""How far a hammered blade is taken to be out of flat: program default, no source."""
TOWARDS = {
    "down": (0.0, -1.0, 0.0), "up": (0.0, 1.0, 0.0), "in": (0.0, 0.0, -1.0), "out": (0.0, 0.0, 1.0),
    "left": (-1.0, 0.0, 0.0), "right": (1.0, 0.0, 0.0),
}  # fmt: skip


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


def resolve_extra_loads(
    rows: Sequence[Row], unread: Sequence[Row], names: Names
) -> tuple[tuple[ExtraLoad, ...], list[Problem]]:
    """Return the loads from elsewhere, and what is wrong with the others.

    Args:
        rows: Rows of the `extra loads` sheet.
        unread: Rows of it that could not be read; what they name is looked up.
        names: Names of the assemblies.
    """
    wanted = "an assembly of this workbook"
    problems = [
        nameless(row, "assembly", (names,), (f'"{typed}" is not {wanted}', wanted), names.all)
        for row in (*rows, *unread)
        if (typed := row.text("assembly")) and not names[typed]
    ]
    keys = [names[row.text("assembly")] for row in rows]
    return tuple(_load(row, key) for key, row in zip(keys, rows, strict=True) if key), problems


def _load(row: Row, key: str) -> ExtraLoad:
    """Return a load; a mass bears with its weight, downwards unless the row says otherwise."""
    size_n = row.number("force", row.number("mass", 0.0) * GRAVITY_M_S2)
    across, up, out = TOWARDS[row.text("direction", "down")]
    return ExtraLoad(
        key=row.text("load"),
        assembly=key,
        cause=row.text("cause", "person"),
        force_n=(size_n * across, size_n * up, size_n * out),
        at_m=(row.number("across", 0.0), row.number("up", 0.0), row.number("out", 0.0)),
        source=row.text("source") or str(row.cell("load")),
    )
