"""The whole job resolved for one option: the last place where names and cells are looked at."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple, TypeVar

from estimator.core.problems import Cell, Problem, Severity
from estimator.files.shelf import Shelf
from estimator.reference.library import Library
from estimator.reference.own_ratios import Ratio, read_ratios
from estimator.resolve import brackets as bracket_rows
from estimator.resolve import moisture
from estimator.resolve.answers import (
    NO_ANSWERS,
    Answers,
    resolve_answers,
    with_coefficients,
    without_effect,
)
from estimator.resolve.assemblies import assembly_names, resolve_assemblies
from estimator.resolve.assemblies import look_over as look_over_assemblies
from estimator.resolve.attached import load_names, resolve_drives, resolve_extra_loads
from estimator.resolve.facts import Untold, not_asked, resolve_facts
from estimator.resolve.layers import Maker
from estimator.resolve.limits import USUAL_SAG, SagLimit, resolve_sag_limit
from estimator.resolve.modelled import Modeller, by_part
from estimator.resolve.names import Names
from estimator.resolve.options import Account, Chosen, accounts, choose, in_order
from estimator.resolve.parts import Known, columns, repeats, resolve_parts
from estimator.resolve.parts import look_over as look_over_parts
from estimator.resolve.patterns import patterned
from estimator.resolve.readings import unused_readings, waiting_readings
from estimator.resolve.records import (
    Assembly,
    Assumption,
    Bracket,
    Drive,
    ExtraLoad,
    Facts,
    Part,
    PartColumns,
)  # fmt: skip
from estimator.resolve.stops import resolve_stops
from estimator.resolve.trade import Trade, resolve_trade
from estimator.resolve.weather import Weather, resolve_weather
from estimator.resolve.weighed import AsMade, Reading, Weighed, resolve_weighed
from estimator.resolve.zones import zone_problems
from estimator.sheets.converters import folded
from estimator.sheets.rows import Job, Row
from estimator.supports.swinging import Stops

Found = TypeVar("Found")

NOT_USED_YET = {
    "limits": "nothing is compared with these limits yet",
    **dict.fromkeys(("timesheet", "rack"), "nothing is worked out from this sheet yet"),
}
COLUMNS_NOT_USED_YET = {
    "moving": ("friction",),
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
        stops: Of what hangs free on its axle, by assembly.
        extra_loads: From elsewhere.
        weather: Where wind figures come from.
        trade: Stock, hours, costs and quotes.
        readings: What a scale showed, the smallest things first.
        own_ratios: Made over estimated, from the maker's own record.
        assumptions: What was taken for granted.
        problems: Everything found, reading included, in sheet and row order.
        accounts: What became of every row.
        as_made: What readings of it at another size did, in the place of the readings.
        answers: What the engineer said; its facts and coefficients are in place already.
        sag_limit: How little the end of an arm may move.
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
    stops: Mapping[str, Stops]
    extra_loads: tuple[ExtraLoad, ...]
    weather: Weather
    trade: Trade
    readings: tuple[Reading, ...]
    own_ratios: tuple[Ratio, ...]
    assumptions: tuple[Assumption, ...]
    problems: tuple[Problem, ...]
    accounts: Mapping[str, Account]
    as_made: AsMade | None = None
    answers: Answers = NO_ANSWERS
    sag_limit: SagLimit = USUAL_SAG

    @property
    def complete(self) -> bool:
        """Return whether every row that was read could be used."""
        return not any(problem.severity is Severity.REFUSED for problem in self.problems)


class _Rows(NamedTuple):
    """Rows of one option: those that can be used, and those that could not be read.

    Attributes:
        job: As read.
        chosen: That can be used.
        refused: That cannot.
        counted: Parts that are not parked.
        unread: The same of those that cannot be used.
    """

    job: Job
    chosen: Chosen
    refused: Chosen
    counted: Sequence[Row]
    unread: Sequence[Row]

    def of(self, sheet: str) -> tuple[Sequence[Row], Sequence[Row]]:
        """Return the rows of a sheet: that can be used, that cannot."""
        return self.chosen.of(sheet), self.refused.of(sheet)


class _Built(NamedTuple):
    """What hangs on the wall.

    Attributes:
        columns: The parts, those that brackets make included.
        named: Assemblies of the assemblies sheet.
        assemblies: All of them.
        names: Of assemblies.
        brackets: The brackets.
    """

    columns: PartColumns
    named: Sequence[Assembly]
    assemblies: tuple[Assembly, ...]
    names: Names
    brackets: tuple[Bracket, ...]


def resolve(
    job: Job, library: Library, option: str, files: Shelf,
    tried: Mapping[str, str] = bracket_rows.NOTHING_TRIED,
) -> Resolved:  # fmt: skip
    """Return a job with every name looked up, and every problem found on the way.

    Args:
        job: As read.
        library: The lookup tables.
        option: The way of building.
        files: Where the files lie that rows name; what is read from them is kept there.
        tried: Section of each bracket whose section is to be tried, by its mark.
    """
    rows = _rows(job, option)
    answers = resolve_answers(rows.chosen.of("answers"), job.facts, _names(rows))
    answered = replace(job, facts=answers.facts or {})
    facts, untold = resolve_facts(answered)
    damp = moisture.moisture_of(facts)
    problems: list[Problem] = [*answers.problems]
    problems += without_effect(answers, facts, not_asked(answered))
    built = _built(rows, Maker(library, *_build_ups(rows), moisture=damp), files, tried, problems)
    columns, names = built.columns, built.names
    answers, assemblies = with_coefficients(answers, built.assemblies)
    problems += zone_problems(built.brackets, answers.zones)
    drives, stops = _movers(rows, built, problems)
    extra = _kept(resolve_extra_loads(*rows.of("extra loads"), names, load_names(job)), problems)
    weather = _kept(resolve_weather(facts), problems)
    sag_limit = _kept(resolve_sag_limit(facts), problems)
    trade = _kept(resolve_trade(rows.chosen, rows.refused, library), problems)
    weighed = resolve_weighed(job, rows.chosen, rows.refused, columns, assemblies)
    own_ratios = _kept(read_ratios(library), problems)
    problems += [*weighed.problems, *library.problems(), *_unused(rows.chosen)]
    return Resolved(
        job=job,
        chosen=rows.chosen,
        library=library,
        facts=facts,
        untold=moisture.asked(untold, columns),
        columns=columns,
        assemblies=assemblies,
        brackets=built.brackets,
        drives=drives,
        stops=stops,
        extra_loads=extra,
        weather=weather,
        sag_limit=sag_limit,
        trade=trade,
        readings=weighed.readings,
        own_ratios=own_ratios,
        assumptions=_assumed(rows, damp, columns),
        problems=in_order((*job.problems, *problems), job),
        accounts=accounts(job, rows.chosen, _parked(rows, weighed), problems,
                          {**weighed.replaced, "answers": answers.replaced}),
        answers=answers,
    )  # fmt: skip


def _movers(
    rows: _Rows, built: _Built, problems: list[Problem]
) -> tuple[Mapping[str, Drive], Mapping[str, Stops]]:
    """Return what drives each mover, and what stops those that hang free."""
    drives = _kept(resolve_drives(*rows.of("moving"), built.named, built.names), problems)
    chosen = rows.chosen.of("moving")
    return drives, _kept(resolve_stops(chosen, built.named, built.names, drives), problems)


def _assumed(rows: _Rows, damp: moisture.Moisture, columns: PartColumns) -> tuple[Assumption, ...]:
    """Return what was taken for granted of brackets and of timber."""
    at_brackets = bracket_rows.assumptions(rows.chosen.of("brackets"))
    return (*at_brackets, *moisture.assumptions(damp, columns))


def _names(rows: _Rows) -> Names:
    """Return the names of assemblies."""
    return assembly_names(rows.chosen, rows.refused, rows.counted, rows.unread)


def _rows(job: Job, option: str) -> _Rows:
    """Return the rows of one option."""
    chosen = choose(job, option)
    refused = choose(replace(job, rows=job.refused_rows), option)
    return _Rows(job, chosen, refused, _counted(chosen), _counted(refused))


def _kept(result: tuple[Found, Iterable[Problem]], problems: list[Problem]) -> Found:
    """Return what was found, its problems put with the others."""
    found, told = result
    problems += told
    return found


def _built(
    rows: _Rows, maker: Maker, files: Shelf, tried: Mapping[str, str], problems: list[Problem]
) -> _Built:
    """Return the parts, assemblies and brackets; what is wrong with them goes to the problems."""
    library = maker.library
    usable, unread = rows.of("brackets")
    brackets, own_parts, sets, found = bracket_rows.resolve_brackets(usable, unread, library, tried)
    problems += found
    names = _names(rows)
    usable, unread = rows.of("assemblies")
    named = _kept(resolve_assemblies(usable, names, sets), problems)
    problems += look_over_assemblies(unread, names, sets)
    usable, unread = rows.of("maquette")
    modeller = Modeller(files, by_part(usable), by_part(unread))
    parts = _parts(rows, Known(names, library, maker, modeller), problems)
    own_parts = _kept(patterned(own_parts, (), library, modeller.models), problems)
    assemblies = (*named, *bracket_rows.set_metal(sets))
    every = [*parts, *repeats(parts, named), *own_parts]
    table = columns(every, assemblies, modeller.models)
    return _Built(table, named, assemblies, names, tuple(brackets))


def _parts(rows: _Rows, known: Known, problems: list[Problem]) -> list[Part]:
    """Return the parts of the parts sheet, with what they are cut from."""
    every_part = rows.job.rows["parts"], rows.job.refused_rows["parts"]
    problems += unused_readings(*rows.of("maquette"), *every_part)
    parts = _kept(resolve_parts(rows.counted, known), problems)
    problems += look_over_parts(rows.unread, known)
    for row in rows.refused.of("build-ups"):
        known.maker.look_over(row)
    problems += known.maker.problems
    found = patterned(parts, rows.counted, known.library, known.modeller.models)
    return _kept(found, problems)


def _parked(rows: _Rows, weighed: Weighed) -> dict[str, int]:
    """Return how many rows of a sheet wait for something, by sheet."""
    return {
        "parts": len(rows.chosen.of("parts")) - len(rows.counted),
        "maquette": waiting_readings(
            rows.chosen.of("maquette"), rows.job.rows["parts"], rows.counted
        ),
        "weighed": weighed.parked,
    }


def _build_ups(rows: _Rows) -> tuple[dict[str, list[Row]], dict[str, list[Row]]]:
    """Return the rows of build-ups by name: that can be used, that cannot."""
    usable, unread = map(_by_build_up, rows.of("build-ups"))
    return usable, unread


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
