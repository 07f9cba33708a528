"""Gauges: what "18 SWG", "Code 5", "16 oz" or "1.5 mm" of a material measures and weighs.

A gauge number without its system is never guessed: "18 gauge" spans 1.0 to 1.3 mm.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from estimator.core.units import KINDS, UnitError, parse_quantity
from estimator.reference.finding import NEIGHBOURS, Miss, Reason
from estimator.reference.library import Library
from estimator.reference.materials import Material
from estimator.reference.rows import Citation, Cited, TableRow, fold

TYPED = "typed"
"""Row of the table of systems for a thickness that was typed, and its source."""

_NUMBER = re.compile(r"\d+(?:/0|\.\d+)?")
_GAUGE_WORDS = re.compile(r"gauge|gage|no\.?|#")
_BARE = ("", "g", "ga")


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetGauge(Cited):
    """A thickness of a material.

    Attributes:
        thickness_m: Nominal thickness.
        thickness_low_m: Lower end of the rolling tolerance.
        thickness_high_m: Upper end.
        surface_kg_m2: Mass of one square metre of one sheet.
        label: Gauge with its thickness and mass: "Code 5 (2.24 mm, 25.4 kg/m2)".
        tolerance_note: Where the tolerance comes from.
    """

    thickness_m: float
    thickness_low_m: float
    thickness_high_m: float
    surface_kg_m2: float
    label: str
    tolerance_note: str


def find_gauge(library: Library, text: str, material: Material) -> SheetGauge | Miss:
    """Return what a gauge of a material measures and weighs, or why that cannot be said.

    Args:
        library: The tables.
        text: A gauge with its system ("18 SWG", "SWG 18", "Code 5", "16 oz"), a thickness with
            its unit ("1.5 mm", "0.048 in"), or a bare number where the material has a system.
        material: What the sheet is of.
    """
    systems = _systems(library, material)
    word = fold(text)
    match = _NUMBER.search(word)
    if not match:
        return Miss(text, Reason.UNKNOWN, (), "gauges")
    number = match.group().removesuffix(".0")
    rest = _GAUGE_WORDS.sub("", word[: match.start()] + word[match.end() :])
    if rest in _BARE:
        meant = [s for s in systems if s.key == material.gauge_system] or systems
    else:
        meant = [s for s in systems if rest in _names(s)]
    if not meant:
        typed = _typed(library, text, material)
        return typed or replace(_unread(library, text, number, systems), reason=Reason.UNKNOWN)
    rows = [(s, row) for s in meant if (row := _numbered(library, s, number))]
    if len(rows) == 1:
        return _gauge(*rows[0], material)
    return _unread(library, text, number, meant)


def gauge_names(library: Library) -> tuple[str, ...]:
    """Return every gauge as it is typed, for pick lists: "18 SWG", "Code 5", "16 oz"."""
    systems = [row for row in library.table("gauge_systems").rows if row.key != TYPED]
    return tuple(
        _written(system, row)
        for system in systems
        for row in library.table(system.text("holds")).rows
        if row.text("system") == system.key
    )


def _systems(library: Library, material: Material) -> list[TableRow]:
    """Return the systems that a number of this material may belong to."""
    rows = [row for row in library.table("gauge_systems").rows if row.key != TYPED]
    return [row for row in rows if material.family in (row.words("families") or (material.family,))]


def _names(system: TableRow) -> set[str]:
    """Return what a system may be called beside a number, folded."""
    return {_GAUGE_WORDS.sub("", fold(word)) for word in (system.key, *system.words("alias"))}


def _numbered(library: Library, system: TableRow, number: str) -> TableRow | None:
    """Return the row of a number in a system, if it has one."""
    return library.table(system.text("holds")).by_key.get(fold(f"{system.key} {number}"))


def _unread(library: Library, text: str, number: str, systems: Sequence[TableRow]) -> Miss:
    """Return the miss of a number that more than one system has, or none."""
    rows = [(s, row) for s in systems if (row := _numbered(library, s, number))]
    if rows:
        return Miss(text, Reason.AMBIGUOUS, tuple(_choice(*pair) for pair in rows), "gauges")
    near = _neighbours(library, systems[0], number) if len(systems) == 1 else ()
    return Miss(text, Reason.UNKNOWN, near, "gauges")


def _neighbours(library: Library, system: TableRow, number: str) -> tuple[str, ...]:
    """Return the gauges of a system whose numbers are nearest to one it does not have."""
    table = library.table(system.text("holds"))
    rows = [row for row in table.rows if row.text("system") == system.key]
    rows.sort(key=lambda row: abs(_ordinal(row.text("number")) - _ordinal(number)))
    return tuple(_choice(system, row) for row in rows[:NEIGHBOURS])


def _ordinal(number: str) -> float:
    """Return where a gauge number stands in its series: 1/0 is 0, 2/0 is -1."""
    noughts = number.removesuffix("/0")
    return float(number) if noughts == number else 1.0 - float(noughts)


def _written(system: TableRow, row: TableRow) -> str:
    """Return a gauge as the trade writes it: "18 SWG", "Code 5"."""
    return system.text("written").replace("#", row.text("number"))


def _choice(system: TableRow, row: TableRow) -> str:
    return f"{_written(system, row)} ({row.need('thickness_mm') * 1e3:.4g} mm)"


def _gauge(system: TableRow, row: TableRow, material: Material) -> SheetGauge:
    """Return the gauge of a row; a table that prints its own kg/m2 is taken at its word."""
    thickness_m = row.need("thickness_mm")
    surface_kg_m2 = row.need("surface_kg_m2", thickness_m * material.density_kg_m3)
    return _made(system, row.citation, _written(system, row), (thickness_m, surface_kg_m2))


def _typed(library: Library, text: str, material: Material) -> SheetGauge | None:
    """Return the gauge of a thickness with its unit, or None when the text is none."""
    try:
        thickness_m = parse_quantity(text, KINDS["length"])
    except UnitError:
        return None
    if not thickness_m > 0:
        return None
    system = library.table("gauge_systems").by_key[TYPED]
    figures = (thickness_m, thickness_m * material.density_kg_m3)
    return _made(system, system.citation, text.strip(), figures)


def _made(
    system: TableRow, citation: Citation, written: str, figures: tuple[float, float]
) -> SheetGauge:
    thickness_m, surface_kg_m2 = figures
    tolerance = system.need("tolerance_pct")
    return SheetGauge(
        citation=citation,
        thickness_m=thickness_m,
        thickness_low_m=thickness_m * (1 - tolerance),
        thickness_high_m=thickness_m * (1 + tolerance),
        surface_kg_m2=surface_kg_m2,
        label=f"{written} ({thickness_m * 1e3:.4g} mm, {surface_kg_m2:.4g} kg/m2)",
        tolerance_note=system.text("tolerance_note"),
    )
