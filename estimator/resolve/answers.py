"""What the engineer said: each answer read as what it is about, and put in its place."""

import datetime as dt
import math
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from estimator.core.problems import Cell, Problem, Severity
from estimator.core.sourced import Origin, Sourced
from estimator.core.units import MissingUnitError, UnitError
from estimator.resolve.names import Names, nameless, refusal
from estimator.resolve.records import Assembly, Facts
from estimator.resolve.zones import Zone, read_zone
from estimator.sheets.columns import Column, Reads, field_of
from estimator.sheets.converters import Doubtful, reader
from estimator.sheets.headings import nearest
from estimator.sheets.rows import Row
from estimator.sheets.topics import ALSO_CALLED, TOPICS, Sets, Topic

RULE = "stated pressure"
PRESSURES = ("stated_pressure", "stated_pressure_by_direction")
NOBODY = "nobody is named"
_UNDATED = dt.date.min
_KEPT = Topic(Column("", Reads.TEXT), Sets.NOTHING)
_NAMES = {field_of(name): topic for name, topic in TOPICS.items()} | {
    field_of(name): TOPICS[also] for name, also in ALSO_CALLED.items()
}


class Answer(NamedTuple):
    """One answer.

    Attributes:
        about: What it is about, by its usual name; as typed where it sets nothing.
        which: The assembly, the zone; blank for the job as a whole.
        typed: The answer as typed.
        value: What it was read as, SI or text.
        who: Who said it; blank when nobody is named.
        date: When; None when nobody said.
        cell: Where the answer stands.
        topic: What it sets.
        before: What stood in its place; None where nothing did.
        later: Cell of the answer that took its place; None for one that counts.
    """

    about: str
    which: str
    typed: str
    value: Any
    who: str
    date: dt.date | None
    cell: Cell
    topic: Topic = _KEPT
    before: Sourced | None = None
    later: Cell | None = None

    @property
    def said_by(self) -> str:
        """Return who said it and when: "J. Marsh, 2026-03-04"."""
        return f"{self.who or NOBODY}, {self.date or 'without a date'}"


@dataclass(frozen=True, slots=True)
class Answers:
    """What was said, and what it changes.

    Attributes:
        given: Every answer that could be read, in the order of the sheet.
        facts: The facts of the job with the answers in their place.
        problems: What could not be read, or is worth a look.
    """

    given: tuple[Answer, ...] = ()
    facts: Mapping[str, Sourced] | None = None
    problems: tuple[Problem, ...] = ()

    def counting(self, sets: Sets) -> list[Answer]:
        """Return the answers that set something of one sort and hold."""
        return [one for one in self.given if one.topic.sets is sets and one.later is None]

    @property
    def zones(self) -> tuple[Zone, ...]:
        """The zones not to fix in."""
        return tuple(one.value for one in self.counting(Sets.ZONE))

    @property
    def replaced(self) -> int:
        """How many answers gave way to later ones."""
        return sum(one.later is not None for one in self.given)


NO_ANSWERS = Answers()


def resolve_answers(rows: Sequence[Row], told: Mapping[str, Sourced], names: Names) -> Answers:
    """Return the answers, with the facts of the job as they are after them.

    Args:
        rows: Of the `answers` sheet.
        told: Facts of the job as typed.
        names: Of assemblies.
    """
    problems: list[Problem] = []
    read = [one for row in rows if (one := _read(row, names, problems)) is not None]
    given = _later_counts(read, problems)
    facts = dict(told)
    for one in sorted(given, key=lambda one: one.date or _UNDATED):
        if one.topic.sets is Sets.FACT and one.later is None:
            _put(one, facts)
    settled = (
        one._replace(before=told.get(one.topic.key)) if one.topic.sets is Sets.FACT else one
        for one in given
    )
    return Answers(tuple(settled), facts, tuple(problems))


def with_coefficients(
    answers: Answers, assemblies: Sequence[Assembly]
) -> tuple[Answers, tuple[Assembly, ...]]:
    """Return the answers with the coefficients they took the place of, and the assemblies."""
    said = {one.which: one for one in answers.counting(Sets.COEFFICIENT)}
    before = {one.key: one for one in assemblies if one.key in said}
    given = tuple(
        one._replace(before=_coefficient(before[one.which])) if one in said.values() else one
        for one in answers.given
    )
    return replace(answers, given=given), tuple(
        replace(one, coefficient=said[one.key].value, coefficient_source=said[one.key].said_by)
        if one.key in said
        else one
        for one in assemblies
    )


def _coefficient(assembly: Assembly) -> Sourced | None:
    """Return the coefficient typed on the assemblies sheet; None where none is."""
    if math.isnan(assembly.coefficient):
        return None
    return Sourced(assembly.coefficient, Origin.TYPED, assembly.coefficient_source, assembly.cell)


def without_effect(answers: Answers, facts: Facts, idle: Collection[str]) -> list[Problem]:
    """Return what to say of answers that change nothing, since another fact decides.

    Args:
        answers: As resolved.
        facts: Of the job, answers in place.
        idle: Keys of facts that do not matter in this job.
    """
    rule, combined = facts.text("wind_rule"), facts.text("combination_rule")
    unused = [
        (one, f"the wind rule is {rule}, and what goes with this fact is not told or not used")
        for one in answers.counting(Sets.FACT)
        if one.topic.key in idle
    ]
    if combined.startswith("ASCE"):
        unused += [(one, f"{combined} has no such factor") for one in answers.counting(Sets.FACTOR)]
    return [
        Problem(
            Severity.QUESTION, one.cell, f"the answer changes nothing: {why}",
            "an answer that fits the rules of the job",
            "ask the engineer which rule is meant", one.about,
        )
        for one, why in unused
    ]  # fmt: skip


def _put(answer: Answer, facts: dict[str, Sourced]) -> None:
    """Put an answer in the place of a fact; a stated pressure is a rule of its own."""
    key = answer.topic.key
    if key in PRESSURES:
        for other in PRESSURES:
            facts.pop(other, None)
        facts["wind_rule"] = Sourced(RULE, Origin.TYPED, answer.said_by, answer.cell)
    facts[key] = Sourced(answer.value, Origin.TYPED, answer.said_by, answer.cell)


def _read(row: Row, names: Names, problems: list[Problem]) -> Answer | None:
    """Return the answer of a row; None, with a problem, when it cannot be read."""
    topic, which = _topic(row)
    found = _misspelled(row) if topic is _KEPT else _misnamed(row, topic, which, names)
    if found:
        problems.append(found)
        return None
    try:
        value, typed = _value(row, topic, which)
    except UnitError as error:
        advice = error.in_cell if isinstance(error, MissingUnitError) else error.advice
        problems.append(refusal(row, "answer", error.found, error.expected, advice))
        return None
    problems += [_kept(row)] if topic is _KEPT else []
    problems += [] if row.has("who") and row.has("date") else [_unsigned(row)]
    return Answer(
        topic.name or row.text("about"),
        names[which] if topic.sets is Sets.COEFFICIENT else which,
        typed,
        value,
        row.text("who"),
        row.values.get("date"),
        row.cell("answer"),
        topic,
    )


def _value(row: Row, topic: Topic, which: str) -> tuple[Any, str]:
    """Return an answer as what it is about is read, and as typed.

    Raises:
        UnitError: It cannot be read so.
    """
    raw = row.values["answer"]
    value = reader(topic.column)(raw)
    if isinstance(value, Doubtful):
        # An answer is copied from a letter; a number that came as text is still that number.
        value = value.value
    if topic.sets is Sets.ZONE:
        value = read_zone(value, which, row.cell("answer"))
    return value, str(reader(_KEPT.column)(raw))


def _topic(row: Row) -> tuple[Topic, str]:
    """Return what a row is about, and which; "coefficient of dial" names both."""
    about, which = row.text("about"), row.text("which")
    topic = _NAMES.get(field_of(about))
    if topic is None and not which and " of " in about:
        first, _, last = about.partition(" of ")
        found = _NAMES.get(field_of(first))
        if found and found.which:
            return found, last.strip()
    return topic or _KEPT, which


def _misnamed(row: Row, topic: Topic, which: str, names: Names) -> Problem | None:
    """Return what is wrong with what `which` names; None when nothing is."""
    if topic.which and not which:
        found = f'"{topic.name}" is of one {topic.which}, and "which" is blank'
        return refusal(row, "which", found, f"the name of an {topic.which}", _one_of(names))
    if topic.which and not names[which]:
        what = f"an {topic.which} of this workbook"
        if row.has("which"):
            return nameless(row, "which", (names,), (f'"{which}" is not {what}', what), names.all)
        return refusal(row, "about", f'"{which}" is not {what}', what, _one_of(names))
    if which and topic.sets not in (Sets.COEFFICIENT, Sets.ZONE):
        found = f'"{topic.name}" is one for the whole job, and "{which}" stands under "which"'
        return refusal(row, "which", found, "a blank cell",
                       "empty it, or say it as free text under another name")  # fmt: skip
    return None


def _one_of(names: Names) -> str:
    return f"type one of: {', '.join(names.all) or 'none there yet'}"


def _misspelled(row: Row) -> Problem | None:
    """Return what to say where something that can be set is probably meant; None where not."""
    near = nearest(field_of(row.text("about")), _NAMES)
    if near is None:
        return None
    found = f'"{row.text("about")}" is nothing that can be set'
    return refusal(row, "about", found, "what the answer is about",
                   f'did you mean "{_NAMES[near].name}"?')  # fmt: skip


def _kept(row: Row) -> Problem:
    """Return what to say of an answer that sets nothing."""
    found = f'"{row.text("about")}" sets no figure; it is kept in the register'
    advice = "the note on the heading `about` says what can be set"
    return Problem(Severity.NOTE, row.cell("about"), found, "", advice, row.text("about"))


def _unsigned(row: Row) -> Problem:
    blank = [field for field in ("who", "date") if not row.has(field)]
    quoted = " and ".join(f'"{field}"' for field in blank)
    return Problem(
        Severity.QUESTION, row.cell(blank[0]),
        f"{quoted} {'is' if len(blank) == 1 else 'are'} blank", "who said so, and when",
        "without both nobody can tell which issue holds it", row.text("about"),
    )  # fmt: skip


def _later_counts(read: Iterable[Answer], problems: list[Problem]) -> list[Answer]:
    """Return the answers, each that gave way with the cell of the one that counts in its place."""
    given = list(read)
    subjects: dict[Any, list[int]] = {}
    for i, one in enumerate(given):
        subjects.setdefault(_subject(one, i), []).append(i)
    for rows in subjects.values():
        # Of one date, the lower row counts.
        *earlier, last = sorted(rows, key=lambda i: (given[i].date or _UNDATED, i))
        for i in earlier:
            problems.append(_two(given[i], given[last]))
            given[i] = given[i]._replace(later=given[last].cell)
    return given


def _subject(answer: Answer, row: int) -> tuple[Any, ...]:
    """Return what only one answer can hold for; zones and free text stand beside each other."""
    topic = answer.topic
    if topic.sets in (Sets.ZONE, Sets.NOTHING):
        return (row,)
    if topic.sets is Sets.DRIFT:
        return topic.name, answer.value.kind
    return ("pressure",) if topic.key in PRESSURES else (topic.name, answer.which)


def _two(earlier: Answer, later: Answer) -> Problem:
    """Return what to say where two answers are about the same thing."""
    sure = None not in (earlier.date, later.date) and earlier.date != later.date
    found = (
        f'"{earlier.typed}" ({earlier.said_by}) gave way to "{later.typed}" ({later.said_by})'
        f" in {later.cell}"
    )
    if sure:
        return Problem(Severity.NOTE, earlier.cell, found, "", "the later date counts",
                       earlier.about)  # fmt: skip
    return Problem(Severity.QUESTION, earlier.cell, found, "two dates, of which the later counts",
                   "type the date of each", earlier.about)  # fmt: skip
