"""The `weighed` sheet: which readings count, and what stood on the scale."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.core.problems import Cell, Problem, Severity
from estimator.masses.bands import Floats, Offs
from estimator.reference.finding import NEIGHBOURS
from estimator.resolve.names import Names, nameless, refusal
from estimator.resolve.options import Chosen
from estimator.resolve.records import Assembly, Indices, PartColumns, Spread
from estimator.sheets.converters import folded
from estimator.sheets.rows import Job, Row

WEIGHED, PARTS = "weighed", "parts"
PART, ASSEMBLY, LIFT_UNIT = "part", "assembly", "lift unit"
FIELDS = {PART: "part", ASSEMBLY: "assembly", LIFT_UNIT: "lift_unit"}
"""What can be weighed, with the column that names it: the smallest things first."""
WANTED = {
    PART: ("is not on the parts sheet", "the mark of a part"),
    ASSEMBLY: ("is not an assembly of this workbook", "the name of an assembly"),
    LIFT_UNIT: ("is not a lift unit of the assemblies sheet", "the name of a lift unit"),
}
"""What to say of a name that there is not, and what is wanted."""
AGREES = 0.04
"""Two readings of the same thing that differ by less do not contradict: twice what is taken for
the spread of one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What a scale showed of one thing.

    Attributes:
        kind: part, assembly or lift unit.
        name: Of the thing.
        each_kg: What one of it weighs: the mean of the readings of its latest day.
        times: Readings that is the mean of.
        date: That day, blank when nobody said.
        scale: Which scale, as typed.
        rows: (r,) rows of the parts that stood on the scale.
        count: How many alike the reading goes for.
        cell: The reading, or the first of them.
    """

    kind: str
    name: str
    each_kg: float
    times: int
    date: str
    scale: str
    rows: Indices
    count: int
    cell: Cell

    @property
    def mass_kg(self) -> float:
        """Return the mass of all that the reading goes for."""
        return self.count * self.each_kg


class AsMade(NamedTuple):
    """What readings did to a job, to be done to it again at another size.

    Attributes:
        made: (m,) made over estimated, of each layer.
        whole: (n,) whether a part was weighed with all that holds it together.
        offs: How far the layers lie off.
        causes: What they vary with.
    """

    made: Floats
    whole: npt.NDArray[np.bool_]
    offs: Offs
    causes: tuple[Spread, ...]


class Weighed(NamedTuple):
    """What the sheet comes to.

    Attributes:
        readings: Those that count, the smallest things first.
        problems: What is wrong, and what was made of several readings.
        parked: Rows about parts with a count of nought.
        replaced: Rows by sheet whose figure gave way to a reading: parts, and earlier readings.
    """

    readings: tuple[Reading, ...]
    problems: tuple[Problem, ...]
    parked: int
    replaced: Mapping[str, int]


class Known(NamedTuple):
    """What the rows may name.

    Attributes:
        job: As read.
        columns: The parts.
        assemblies: The assemblies.
        names: Names of each kind of thing.
        parked: Names of parked parts, as names are compared.
    """

    job: Job
    columns: PartColumns
    assemblies: Sequence[Assembly]
    names: Mapping[str, Names]
    parked: frozenset[str]


def resolve_weighed(
    job: Job, chosen: Chosen, refused: Chosen, columns: PartColumns, assemblies: Sequence[Assembly]
) -> Weighed:
    """Return the readings that count, and what is wrong with the others.

    Args:
        job: As read.
        chosen: Rows of the option.
        refused: Rows of the option that could not be read.
        columns: The parts that could be used.
        assemblies: The assemblies.
    """
    known = _known(job, chosen, refused, columns, assemblies)
    sheet = _Sheet(known)
    for row in chosen.of(WEIGHED):
        sheet.take(row)
    for row in refused.of(WEIGHED):
        sheet.look_over(row)
    readings = [sheet.latest(kind, name) for kind in FIELDS for name in sheet.rows[kind]]
    good = tuple(sheet.consistent(readings))
    touched = {columns.parts[i].key for reading in good for i in reading.rows}
    typed = {row.text("part") for row in chosen.of(PARTS)}
    replaced = {WEIGHED: sheet.replaced, PARTS: len(touched & typed)}
    return Weighed(good, tuple(sheet.problems), sheet.parked, replaced)


def _known(
    job: Job, chosen: Chosen, refused: Chosen, columns: PartColumns, assemblies: Sequence[Assembly]
) -> Known:
    rows, keys = chosen.of(PARTS), {part.key for part in columns.parts}
    good = [row for row in rows if row.text("part") in keys]
    aside = [row for row in rows if row.text("part") not in keys]
    parked = frozenset(folded(row.text("part")) for row in aside if row.number("count", 1.0) == 0)
    lost = [row for row in aside if folded(row.text("part")) not in parked]
    names = {
        PART: Names.of("part", good, (*lost, *refused.of(PARTS))).and_of(
            part.key for part in columns.parts
        ),
        ASSEMBLY: Names.of("assembly", (), refused.of("assemblies")).and_of(
            one.key for one in assemblies
        ),
        LIFT_UNIT: Names().and_of(one.lift_unit for one in assemblies if one.lift_unit),
    }
    return Known(job, columns, assemblies, names, parked)


@dataclass
class _Sheet:
    """Reads the rows of the sheet, and collects what is wrong."""

    known: Known
    rows: dict[str, dict[str, list[Row]]] = field(default_factory=lambda: {k: {} for k in FIELDS})
    problems: list[Problem] = field(default_factory=list)
    parked: int = 0
    replaced: int = 0

    def take(self, row: Row) -> None:
        """Keep a row with what was weighed, or the problem of a row that names nothing."""
        kind = next(kind for kind, named in FIELDS.items() if row.has(named))
        name = self.known.names[kind][row.text(FIELDS[kind])]
        if not name and kind == PART and folded(row.text(PART)) in self.known.parked:
            self.parked += 1
            found = f'"{row.text(PART)}" is parked (count 0), so its reading replaces nothing'
            self.remark(Severity.NOTE, row, found)
        elif not name:
            self.problems.append(self.unknown(row, kind))
        elif not (wrong := [*self.misplaced(row, kind, name)]):
            self.rows[kind].setdefault(name, []).append(row)
        else:
            self.problems += wrong

    def look_over(self, row: Row) -> None:
        """Look up what a row that could not be read names."""
        for kind, named in FIELDS.items():
            if row.has(named) and not self.known.names[kind][row.text(named)]:
                self.problems.append(self.unknown(row, kind))

    def unknown(self, row: Row, kind: str) -> Problem:
        """Return the problem of a row that names nothing there is."""
        typed, names = row.text(FIELDS[kind]), self.known.names[kind]
        lacks, wanted = WANTED[kind]
        for other in self.others(kind, typed):
            found = f'"{typed}" belongs to another way of building: {other}'
            advice = f"type {other} under `option` in this row too"
            return refusal(row, FIELDS[kind], found, wanted, advice)
        near = get_close_matches(folded(typed), names.usable, n=NEIGHBOURS, cutoff=0.3)
        choices = [names.usable[word] for word in near] or list(names.all)[:NEIGHBOURS]
        return nameless(row, FIELDS[kind], (names,), (f'"{typed}" {lacks}', wanted), choices)

    def others(self, kind: str, typed: str) -> Iterator[str]:
        """Yield the other ways of building in which something goes by a name."""
        sheet = PARTS if kind == PART else "assemblies"
        for row in self.known.job.rows.get(sheet, ()):
            if row.has("option") and folded(row.text(FIELDS[kind])) == folded(typed):
                yield row.text("option")

    def misplaced(self, row: Row, kind: str, name: str) -> Iterator[Problem]:
        """Yield why what a row names as well is not what holds the thing."""
        holder = self.holder(kind, name)
        for wider in list(FIELDS)[list(FIELDS).index(kind) + 1 :]:
            typed = row.text(FIELDS[wider])
            if typed and folded(typed) != folded(holder[wider]):
                found = f'{name} is in {holder[wider] or "none"}, not in "{typed}"'
                advice = f"name one thing a row; here {name} is taken for what was weighed"
                yield refusal(row, FIELDS[wider], found, f"the {wider} that holds it", advice)

    def holder(self, kind: str, name: str) -> dict[str, str]:
        """Return the assembly and the lift unit of a thing."""
        if kind == LIFT_UNIT:
            return {}
        of_part = (part.assembly for part in self.known.columns.parts if part.key == name)
        assembly = next(of_part) if kind == PART else name
        unit = next(one.lift_unit for one in self.known.assemblies if one.key == assembly)
        return {ASSEMBLY: assembly, LIFT_UNIT: unit}

    def latest(self, kind: str, name: str) -> Reading:
        """Return the one reading of a thing: of its latest day, the mean if there are several.

        The order of the rows does not matter: a row without a date goes before every day.
        """
        rows = self.rows[kind][name]
        day = max(row.text("date") for row in rows)
        of_day = [row for row in rows if row.text("date") == day]
        masses_kg = sorted(row.number("mass") for row in of_day)
        each_kg = float(np.mean(masses_kg))
        when = f" of {day}" if day else " without a date"
        if len(of_day) > 1:
            told = ", ".join(f"{mass_kg:.4g}" for mass_kg in masses_kg)
            found = f"{len(of_day)} readings of {name}{when} count as one: {told}"
            self.remark(Severity.NOTE, of_day[0], f"{found}; mean {each_kg:.4g} kg")
        for row in (row for row in rows if row.text("date") != day):
            self.replaced += 1
            found = f"the reading of {name}{when} takes the place of this one"
            self.remark(Severity.NOTE, row, found)
        members = self.members(kind, name)
        count = self.known.columns.parts[members[0]].count if kind == PART else 1
        scales = sorted({" ".join(row.text("scale").split()) for row in of_day} - {""})
        return Reading(
            kind=kind, name=name, each_kg=each_kg, times=len(of_day), date=day,
            scale=" and ".join(scales), rows=members, count=count, cell=of_day[0].cell("mass"),
        )  # fmt: skip

    def members(self, kind: str, name: str) -> Indices:
        """Return the rows of the parts that a thing is or holds."""
        units = {one.key: one.lift_unit for one in self.known.assemblies}
        parts = self.known.columns.parts
        names = {
            PART: [part.key for part in parts],
            ASSEMBLY: [part.assembly for part in parts],
            LIFT_UNIT: [units[part.assembly] for part in parts],
        }[kind]
        return np.flatnonzero([other == name for other in names])

    def consistent(self, readings: Iterable[Reading]) -> Iterator[Reading]:
        """Yield the readings that leave something to the rest of what stood on the scale."""
        settled_kg = np.zeros(len(self.known.columns.parts))
        settled = np.zeros(len(settled_kg), dtype=bool)
        for reading in readings:
            if not len(reading.rows):
                self.problems.append(_uncarried(reading))
                continue
            fixed_kg = float(settled_kg[reading.rows].sum())
            if settled[reading.rows].all():
                self.compare(reading, fixed_kg)
                continue
            if fixed_kg >= reading.mass_kg:
                found = f"what was weighed of it on its own comes to {fixed_kg:.4g} kg already"
                self.set_aside(reading, found, "weigh again, or look at the readings of its parts")
                continue
            free = reading.rows[~settled[reading.rows]]
            # Where the remainder lies within the rest does not matter here, only that it is there.
            settled_kg[free] = (reading.mass_kg - fixed_kg) / len(free)
            settled[free] = True
            yield reading

    def compare(self, reading: Reading, fixed_kg: float) -> None:
        """Say how the reading of a whole agrees with those of all its parts."""
        found = f"every part of it was weighed on its own, {fixed_kg:.4g} kg together"
        apart = abs(reading.mass_kg - fixed_kg)
        if apart <= AGREES * fixed_kg:
            self.set_aside(reading, f"{found}; that agrees", "", Severity.NOTE)
        else:
            self.set_aside(reading, found, f"look for {apart:.3g} kg between the readings")

    def set_aside(
        self, reading: Reading, why: str, advice: str, severity: Severity = Severity.QUESTION
    ) -> None:
        """Say that a reading is not used."""
        self.replaced += 1
        found = f"{reading.name} weighed {reading.mass_kg:.4g} kg, but {why}: it is left aside"
        self.problems.append(Problem(severity, reading.cell, found, "", advice, reading.name))

    def remark(self, severity: Severity, row: Row, found: str) -> None:
        """Keep what does not keep a row from being used."""
        named = next(row.text(named) for named in FIELDS.values() if row.has(named))
        self.problems.append(Problem(severity, row.cell("mass"), found, "", "", named))


def _uncarried(reading: Reading) -> Problem:
    """Return the problem of a reading of something that has no part: its mass is in no total."""
    found = f"no part is listed in {reading.name}, so nothing carries its {reading.mass_kg:.4g} kg"
    advice = "list its parts, or one bought part of that mass"
    return Problem(
        Severity.REFUSED, reading.cell, found, "something that has parts", advice, reading.name
    )
