"""The whole job resolved for one option: the last place where names and cells are looked at."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from estimator.core.problems import Cell, Problem, Severity
from estimator.reference.library import Library
from estimator.resolve import brackets as bracket_rows
from estimator.resolve.assemblies import assembly_names, resolve_assemblies
from estimator.resolve.assemblies import look_over as look_over_assemblies
from estimator.resolve.attached import resolve_drives, resolve_extra_loads
from estimator.resolve.facts import Untold, resolve_facts
from estimator.resolve.layers import Maker
from estimator.resolve.options import Account, Chosen, accounts, choose, in_order
from estimator.resolve.parts import columns, repeats, resolve_parts
from estimator.resolve.parts import look_over as look_over_parts
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
from estimator.sheets.converters import folded
from estimator.sheets.rows import Job, Row

NOT_USED_YET = {
    "limits": "nothing is compared with these limits yet",
    **dict.fromkeys(
        ("maquette", "answers", "weighed", "timesheet", "rack"),
        "nothing is worked out from this sheet yet",
    ),
}
COLUMNS_NOT_USED_YET = {
    "parts": ("forming", "longest_piece", "roll_way"),
    "assemblies": ("stage", "stiffness"),
    "brackets": ("stay_from", "stay_to", "stage", "pitch_across", "pitch_up"),
    "moving": ("friction",),
    "extra loads": ("together_with",),
}
"""What is read and kept, but not worked with yet."""
LEFT_OUT = {"friction": "friction is left out of the torque"}
"""What to say of such a column that would change a figure."""


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
    refused = choose(replace(job, rows=job.refused_rows), option)
    facts, untold = resolve_facts(job)
    build_ups = _by_build_up(chosen.of("build-ups")), _by_build_up(refused.of("build-ups"))
    maker = Maker(library, *build_ups)
    found: Sequence[Problem]
    brackets, own_parts, sets, problems = bracket_rows.resolve_brackets(
        chosen.of("brackets"), refused.of("brackets"), library
    )
    counted, unread = _counted(chosen), _counted(refused)
    names = assembly_names(chosen, refused, counted, unread)
    named, found = resolve_assemblies(chosen.of("assemblies"), names, sets)
    problems += [*found, *look_over_assemblies(refused.of("assemblies"), names, sets)]
    parts, found = resolve_parts(counted, names, library, maker)
    problems += [*found, *look_over_parts(unread, names, library, maker)]
    for row in refused.of("build-ups"):
        maker.look_over(row)
    parts += repeats(parts, named)
    assemblies = (*named, *bracket_rows.set_metal(sets))
    drives, found = resolve_drives(chosen.of("moving"), refused.of("moving"), named, names)
    problems += found
    loads = chosen.of("extra loads"), refused.of("extra loads")
    extra, found = resolve_extra_loads(*loads, names)
    problems += found
    weather, found = resolve_weather(facts)
    problems += found
    trade, found = resolve_trade(chosen, refused, library)
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


def _counted(chosen: Chosen) -> list[Row]:
    """Return the rows of parts that are not parked; one whose count was not read counts."""
    return [row for row in chosen.of("parts") if row.number("count", 1.0) > 0]


def _by_build_up(rows: Sequence[Row]) -> dict[str, list[Row]]:
    named: dict[str, list[Row]] = {}
    for row in rows:
        named.setdefault(folded(row.text("build_up")), []).append(row)
    return named


def _unused(chosen: Chosen) -> list[Problem]:
    """Return a note for each sheet and column that is read and kept, but not worked with yet."""
    notes = [
        Problem(
            Severity.NOTE,
            Cell(sheet),
            f"{why}; rows read: {len(rows)}",
            "",
            "the figures are as if the sheet were empty",
        )
        for sheet, why in NOT_USED_YET.items()
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
        LEFT_OUT.get(name, "the figures are as if the column were empty"),
    )
