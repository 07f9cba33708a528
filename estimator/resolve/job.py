"""The whole job resolved for one option: the last place where names and cells are looked at."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from estimator.core.constants import GRAVITY_M_S2
from estimator.core.problems import Cell, Problem, Severity
from estimator.reference.library import Library
from estimator.resolve import brackets as bracket_rows
from estimator.resolve.assemblies import resolve_assemblies
from estimator.resolve.facts import Untold, resolve_facts
from estimator.resolve.layers import Maker
from estimator.resolve.options import Account, Chosen, accounts, choose, in_order
from estimator.resolve.parts import columns, repeats, resolve_parts
from estimator.resolve.records import (
    Assembly,
    Assumption,
    Bracket,
    Drive,
    ExtraLoad,
    Facts,
    PartColumns,
)  # fmt: skip
from estimator.resolve.trade import Trade, resolve_trade
from estimator.resolve.weather import Weather, resolve_weather
from estimator.sheets.rows import Job, Row

BLADE_TWIST_RAD = math.radians(2.0)
"""How far a hammered blade is taken to be out of flat: program default, no source."""
TOWARDS = {
    "down": (0.0, -1.0, 0.0), "up": (0.0, 1.0, 0.0), "in": (0.0, 0.0, -1.0), "out": (0.0, 0.0, 1.0),
    "left": (-1.0, 0.0, 0.0), "right": (1.0, 0.0, 0.0),
}  # fmt: skip
NOT_USED_YET = ("maquette", "answers", "weighed", "timesheet", "rack")
COLUMNS_NOT_USED_YET = {
    "parts": ("forming", "longest_piece", "roll_way"),
    "assemblies": ("stage", "stiffness"),
    "brackets": ("stay_from", "stay_to", "stage", "pitch_across", "pitch_up"),
    "moving": ("friction",),
    "extra loads": ("together_with",),
}
"""What is read and kept, but not worked with yet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Resolved:
    """A job, resolved for one option.

    Attributes:
        job: As read.
        chosen: Rows of the option.
        library: The lookup tables.
        facts: Facts with their defaults.
        untold: What nobody said.
        columns: The parts as one table.
        assemblies: In the order of `columns.assembly`.
        brackets: Every bracket.
        drives: By assembly.
        extra_loads: From elsewhere.
        weather: Where wind figures come from.
        trade: Stock, hours, costs and quotes.
        assumptions: What was taken for granted.
        problems: Everything found, reading included, in sheet and row order.
        accounts: What became of every row.
    """

    job: Job
    chosen: Chosen
    library: Library
    facts: Facts
    untold: tuple[Untold, ...]
    columns: PartColumns
    assemblies: tuple[Assembly, ...]
    brackets: tuple[Bracket, ...]
    drives: Mapping[str, Drive]
    extra_loads: tuple[ExtraLoad, ...]
    weather: Weather
    trade: Trade
    assumptions: tuple[Assumption, ...]
    problems: tuple[Problem, ...]
    accounts: Mapping[str, Account]

    @property
    def complete(self) -> bool:
        """Return whether every row that was read could be used."""
        return not any(problem.severity is Severity.REFUSED for problem in self.problems)


def resolve(job: Job, library: Library, option: str) -> Resolved:
    """Return a job with every name looked up, and every problem found on the way."""
    chosen = choose(job, option)
    facts, untold = resolve_facts(job)
    maker = Maker(library, _by_build_up(chosen.of("build-ups")))
    problems: list[Problem] = []
    found: Sequence[Problem]
    brackets, own_parts, own_assemblies, found = bracket_rows.resolve_brackets(
        chosen.of("brackets"), library
    )
    problems += found
    sets = list(dict.fromkeys(bracket.set_name for bracket in brackets))
    counted = [row for row in chosen.of("parts") if row.number("count") > 0]
    named, found = resolve_assemblies(chosen.of("assemblies"), counted, sets)
    problems.extend(found)
    parts, found = resolve_parts(counted, named, library, maker)
    problems.extend(found)
    parts += repeats(parts, named)
    assemblies = (*named, *own_assemblies)
    drives, found = _drives(chosen.of("moving"), named)
    problems.extend(found)
    extra, found = _extra_loads(chosen.of("extra loads"), named)
    problems.extend(found)
    weather, found = resolve_weather(facts)
    problems.extend(found)
    trade, found = resolve_trade(chosen, library)
    problems += [*found, *maker.problems, *library.problems(), *_unused(chosen)]
    parked = {"parts": len(chosen.of("parts")) - len(counted)}
    return Resolved(
        job=job,
        chosen=chosen,
        library=library,
        facts=facts,
        untold=untold,
        columns=columns([*parts, *own_parts], assemblies),
        assemblies=assemblies,
        brackets=tuple(brackets),
        drives=drives,
        extra_loads=extra,
        weather=weather,
        trade=trade,
        assumptions=tuple(bracket_rows.assumptions(chosen.of("brackets"))),
        problems=in_order((*job.problems, *problems), job),
        accounts=accounts(job, chosen, parked, problems),
    )


def _by_build_up(rows: Sequence[Row]) -> dict[str, list[Row]]:
    named: dict[str, list[Row]] = {}
    for row in rows:
        named.setdefault(row.text("build_up").casefold(), []).append(row)
    return named


def _drives(
    rows: Sequence[Row], assemblies: Sequence[Assembly]
) -> tuple[dict[str, Drive], list[Problem]]:
    """Return what the `moving` sheet says of each mover."""
    movers = {assembly.key for assembly in assemblies if assembly.moves != "fixed"}
    drives, problems = {}, []
    for row in rows:
        key = row.text("assembly")
        if key not in movers:
            problems.append(_not_a(row, "assembly", "an assembly that turns or slides", movers))
            continue
        drives[key] = Drive(
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
    return drives, problems


def _extra_loads(
    rows: Sequence[Row], assemblies: Sequence[Assembly]
) -> tuple[tuple[ExtraLoad, ...], list[Problem]]:
    """Return the loads from elsewhere; a mass bears with its weight, downwards."""
    known = {assembly.key for assembly in assemblies}
    loads, problems = [], []
    for row in rows:
        if row.text("assembly") not in known:
            problems.append(_not_a(row, "assembly", "an assembly of this workbook", known))
            continue
        size_n = row.number("force", row.number("mass", 0.0) * GRAVITY_M_S2)
        towards = TOWARDS[row.text("direction", "down")]
        loads.append(
            ExtraLoad(
                key=row.text("load"),
                assembly=row.text("assembly"),
                cause=row.text("cause", "person"),
                force_n=(size_n * towards[0], size_n * towards[1], size_n * towards[2]),
                at_m=(row.number("across", 0.0), row.number("up", 0.0),
                      row.number("out", 0.0)),
                source=row.text("source") or str(row.cell("load")),
            )
        )  # fmt: skip
    return tuple(loads), problems


def _not_a(row: Row, field: str, wanted: str, choices: set[str]) -> Problem:
    return Problem(
        Severity.REFUSED,
        row.cell(field),
        f'"{row.text(field)}" is not {wanted}',
        wanted,
        f"type one of: {', '.join(sorted(choices)) or 'none there yet'}",
        row.text(field),
    )


def _unused(chosen: Chosen) -> list[Problem]:
    """Return a note for each sheet and column that is read and kept, but not worked with yet."""
    notes = [
        Problem(
            Severity.NOTE,
            Cell(sheet),
            f"nothing is worked out from this sheet yet; rows read: {len(rows)}",
            "",
            "they do no harm; the figures are as if the sheet were empty",
        )
        for sheet in NOT_USED_YET
        if (rows := chosen.of(sheet))
    ]
    for sheet, fields in COLUMNS_NOT_USED_YET.items():
        for name in fields:
            filled = [row for row in chosen.of(sheet) if row.has(name)]
            if filled:
                notes.append(_unused_column(filled, sheet, name))
    return notes


def _unused_column(filled: Sequence[Row], sheet: str, name: str) -> Problem:
    heading = name.replace("_", " ")
    return Problem(
        Severity.NOTE,
        Cell(sheet, filled[0].columns[name]),
        f"nothing is worked out from `{heading}` yet; rows that fill it: {len(filled)}",
        "",
        "it does no harm; the figures are as if the column were empty",
    )
