"""Rows of the maquette sheet: what was read, how sure it is, and whether a part waits for it."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from estimator.core.problems import Problem, Severity
from estimator.core.units import KINDS, Amount, wanted
from estimator.geometry.maquettes import SEEN_FROM, Figure, averaged
from estimator.resolve.names import Names, nameless, refusal
from estimator.sheets.converters import folded
from estimator.sheets.rows import Row

MEASURED = "measured"
WATER_KG_M3 = 998.2
"""Density of what a maquette is sunk in: fresh water at 20 C (IAPWS), as `tables/materials.csv`."""
FOIL, FOIL_PER_M2, WATER = "foil mass", "foil per m2", "water displaced"
SHADOWS = tuple(f"shadow area {side}" for side in SEEN_FROM)
LINES = ("hang line across", "hang line up", "hang line out")
"""Readings by the axis a shadow is seen along, or a balance point lies along."""
LINE_OFF_M = 0.003
"""How far a plumb line drawn on a maquette lies off: program default, no source."""
LEFT_OUT = "the figures are as if this row were not there"


class Way(NamedTuple):
    """How a reading is taken: what it may be typed as, and how far it lies off by default."""

    kinds: tuple[str, ...]
    off: float


WAYS: Mapping[str, Way] = {
    FOIL: Way(("mass",), 0.10),
    FOIL_PER_M2: Way(("surface_mass",), 0.02),
    WATER: Way(("volume", "mass"), 0.05),
    **dict.fromkeys(SHADOWS, Way(("area",), 0.05)),
    **dict.fromkeys(LINES, Way(("length",), math.nan)),
}
"""Every reading. Foil laps and creases, so that it reads high and unevenly. How far readings lie
off, as a fraction, is a program default without a source."""


class Taken(NamedTuple):
    """The readings on one maquette, at its own size.

    Attributes:
        figures: By the name of the reading.
        how: How it is known how far each may lie off, likewise.
    """

    figures: Mapping[str, Figure]
    how: Mapping[str, str]

    def told(self, names: Sequence[str]) -> str:
        """Return how it is known how far some readings may lie off, for print."""
        return "; ".join(f"{name}: {self.how[name]}" for name in names)


def question(row: Row, field: str, found: str, advice: str) -> Problem:
    """Return a problem of a row that is used as said: what was found, and what to do."""
    return replace(refusal(row, field, found, "", advice), severity=Severity.QUESTION)


def taken(readings: Sequence[Row], found: list[Problem]) -> Taken:
    """Return what was read, as far as it can be used."""
    by_name: dict[str, list[Row]] = {}
    for row in readings:
        by_name.setdefault(row.text("reading"), []).append(row)
    figures, how = {}, {}
    for name, rows in by_name.items():
        wrong = [problem for row in rows for problem in _wrong(row, WAYS[name])]
        figure, told = (None, "") if wrong else _figure(name, rows, wrong)
        found += wrong
        if figure is not None:
            figures[name], how[name] = figure, told
    for one, other in ((FOIL, FOIL_PER_M2), (FOIL_PER_M2, FOIL)):
        if one in by_name and other not in by_name:
            words = (f"{one} gives an area only together with {other}", f"a row of {other}",
                     f"add it, or delete the row of {one}")  # fmt: skip
            found.append(refusal(by_name[one][0], "reading", *words))
    return Taken(figures, how)


def _wrong(row: Row, way: Way) -> Iterable[Problem]:
    """Yield why a reading, or how far it lay off, cannot be used."""
    value, name = row.values["value"], row.text("reading")
    kinds = tuple(KINDS[kind] for kind in way.kinds)
    if value.kind not in way.kinds:
        found = f'"{value.text}" is not what {name} is read in'
        yield refusal(row, "value", found, wanted(kinds), "type the reading with its unit")
    elif not value.value > 0 and name not in LINES:
        found = f'"{value.text}" is nothing at all'
        yield refusal(row, "value", found, wanted(kinds), "delete the row if it was not read")
    if row.has("spread") and row.values["spread"].kind not in ("percent", *way.kinds):
        found = f'"{row.values["spread"].text}" cannot be the spread of {name}'
        expected = wanted((KINDS["percent"], *kinds))
        yield refusal(row, "spread", found, expected, "type it as the reading, or in %")


def _figure(name: str, rows: Sequence[Row], found: list[Problem]) -> tuple[Figure | None, str]:
    """Return a reading with how far it may lie off, and how that is known.

    Rows of one reading are repeats. Of a single one the typed spread counts whole to each side:
    two readings that far apart give nearly that, 1.645 / (1.128 sqrt 2), and nobody says that
    there were more (1.128: range over standard deviation of two readings, from memory).
    """
    values = [_si(name, row.values["value"]) for row in rows]
    if len(values) == 1:
        figure, told = _single(name, rows[0], values[0])
    else:
        figure, told = _repeated(name, values)
        found += [
            question(row, "spread", "how far repeats lie apart is found from their rows",
                      "it was left aside; leave it blank")
            for row in rows if row.has("spread")
        ]  # fmt: skip
    if name not in LINES and not figure.share < 1:
        typed = ", ".join(row.values["value"].text for row in rows)
        off = f"{typed}: the reading lies {100 * figure.share:.0f} % off to either side"
        words = ("readings that lie closer together", "read it again, or type the spread you saw")
        found.append(refusal(rows[0], "value", off, *words))
        return None, ""
    return figure, told


def _repeated(name: str, values: Sequence[float]) -> tuple[Figure, str]:
    """Return the mean of repeats; where all are alike they do not show how far they may lie off."""
    if min(values) == max(values):
        return _default(name, values[0]), f"{len(values)} readings alike, program default"
    return averaged(values), f"mean of {len(values)} readings"


def _single(name: str, row: Row, value: float) -> tuple[Figure, str]:
    if not row.has("spread"):
        return _default(name, value), "program default"
    spread = row.values["spread"]
    half = spread.value * value if spread.kind == "percent" else _si(name, spread)
    return Figure(value, half), "as typed"


def _default(name: str, value: float) -> Figure:
    return Figure(value, LINE_OFF_M if name in LINES else WAYS[name].off * value)


def _si(name: str, amount: Amount) -> float:
    """Return a reading in SI; a mass of water as its volume."""
    return amount.value / WATER_KG_M3 if (name, amount.kind) == (WATER, "mass") else amount.value


def scale_of(row: Row, readings: Sequence[Row], found: list[Problem]) -> float:
    """Return the one scale of the maquette; a foil by the area has none."""
    scaled = [other for other in readings if other.text("reading") != FOIL_PER_M2]
    said = [other for other in (row, *scaled) if other.has("scale")]
    for other in said[1:]:
        if other.number("scale") != said[0].number("scale"):
            first = f"1:{said[0].number('scale'):g} at {said[0].cell('scale')}"
            words = (f"the scale is 1:{other.number('scale'):g} here and {first}",
                     "one scale for all readings on a model",
                     "mend one of the two; of two models keep the readings of one")  # fmt: skip
            found.append(refusal(other, "scale", *words))
    if not said and scaled:
        words = ("nothing says the scale of this model", "the scale, such as 1:10",
                 "type it here, or on the row of the part")  # fmt: skip
        found.append(refusal(scaled[0], "scale", *words))
    return said[0].number("scale") if said else 1.0


def unused_readings(
    rows: Sequence[Row], unread: Sequence[Row], parts: Sequence[Row], unread_parts: Sequence[Row]
) -> list[Problem]:
    """Return the problems of readings on what is not a part of shape `measured`.

    Args:
        rows: Rows of the maquette sheet.
        unread: Rows of it that could not be read; what they name is looked up.
        parts: Rows of the parts sheet of every option, parked ones too: a reading may wait for
            its part to be used.
        unread_parts: Rows of it that could not be read.
    """
    names = Names.of("part", parts, unread_parts)
    shapes: dict[str, set[str]] = {}
    for part in (*parts, *unread_parts):
        shapes.setdefault(folded(part.text("part")), set()).add(part.text("shape"))
    wanted_part = f"a part of shape {MEASURED}"
    measured = [name for name in names.all if MEASURED in shapes[folded(name)]]
    problems = []
    for row in (*rows, *unread):
        typed = row.text("part")
        if typed and not names[typed]:
            words = (f'"{typed}" is not on the parts sheet', wanted_part)
            problems.append(nameless(row, "part", (names,), words, measured))
        elif typed and MEASURED not in (has := shapes[folded(typed)]):
            found = f"{names[typed]} is of shape {sorted(has)[0]}, which needs no readings"
            advice = f"type {MEASURED} under its shape; {LEFT_OUT}"
            problems.append(refusal(row, "part", found, wanted_part, advice))
    return problems


def waiting_readings(rows: Sequence[Row], parts: Sequence[Row], counted: Sequence[Row]) -> int:
    """Return how many readings belong to parts that are parked or of another option.

    Args:
        rows: Rows of the maquette sheet.
        parts: Rows of the parts sheet of every option, parked ones too.
        counted: Those that count.
    """
    measured = {folded(part.text("part")) for part in parts if part.text("shape") == MEASURED}
    waiting = measured - {folded(part.text("part")) for part in counted}
    return sum(folded(row.text("part")) in waiting for row in rows)
