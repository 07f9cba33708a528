"""What the sheets of money say: merchants' sizes, hours at their rates, other costs, quotes."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from estimator.core.problems import Problem, Severity
from estimator.reference.finding import Miss
from estimator.reference.gauges import find_gauge
from estimator.reference.library import Library
from estimator.reference.materials import Material, find_material
from estimator.reference.sections import find_section
from estimator.resolve.names import Names, about, nameless, refusal
from estimator.resolve.options import Chosen
from estimator.sheets.rows import Row
from estimator.shop.three_point import Estimate, ThreePoint, estimated, known

SHEETS, BARS = "sheet", "bar"
FLAT_FORMS = ("sheet", "roll", "board")
LONG_FORMS = ("bar", "tube", "section", "timber")
PLAIN_BARS = "flat 50x6, round 20, CHS 48.3x3.2, SHS 60x60x4 or RHS 100x50x4"
HOURS_PER = {"hour": 1.0, "day": 8.0, "week": 40.0}
"""Working hours that a rate for a day or a week stands for: common practice, no source."""


class Want(NamedTuple):
    """What is bought together: one material in one thickness or section.

    Attributes:
        material: Its key.
        form: sheet or bar.
        size: Thickness in micrometres, or the section.
    """

    material: str
    form: str
    size: int | str


class Offer(NamedTuple):
    """One size that is sold; price NaN when nobody has said."""

    size_m: tuple[float, ...]
    price: float


class Activity(NamedTuple):
    """A piece of work: hours each for so many people, at a rate an hour."""

    name: str
    people: int
    hours_each: Estimate
    rate: Estimate


class Expense(NamedTuple):
    """Another cost, or a quote received."""

    name: str
    category: str
    amount: Estimate
    how: str


@dataclass(frozen=True, slots=True)
class Trade:
    """Everything about money, resolved.

    Attributes:
        offers: Sizes sold, by what they are bought as.
        activities: Hours.
        expenses: Costs and quotes.
    """

    offers: Mapping[Want, Sequence[Offer]]
    activities: tuple[Activity, ...]
    expenses: tuple[Expense, ...]


@dataclass
class _Reader:
    """Reads the rows of money, and collects what is wrong."""

    library: Library
    problems: list[Problem] = field(default_factory=list)

    def refuse(self, row: Row, column: str, *words: str) -> None:
        """Keep a problem: what was found, what is wanted, what to do."""
        found, expected, advice = words
        self.problems.append(refusal(row, column, found, expected, advice))

    def remark(self, severity: Severity, row: Row, column: str, *words: str) -> None:
        """Keep what does not keep a row from being used: what was found, what to do."""
        found, advice = words
        problem = refusal(row, column, found, "", advice)
        self.problems.append(replace(problem, severity=severity))


def resolve_trade(
    chosen: Chosen, refused: Chosen, library: Library
) -> tuple[Trade, tuple[Problem, ...]]:
    """Return what the sheets of money say, and what is wrong there.

    Args:
        chosen: Rows of the option.
        refused: Rows of the option that could not be read; what they name is looked up.
        library: The lookup tables.
    """
    reader = _Reader(library)
    offers: dict[Want, list[Offer]] = {}
    for row in chosen.of("stock"):
        sold = _offer(row, reader)
        if sold is not None:
            offers.setdefault(sold[0], []).append(sold[1])
    for row in refused.of("stock"):
        _look_over(row, reader)
    worked = _activities(chosen, refused, reader)
    spent = [
        _expense(row, category, reader)
        for sheet, category in (("costs", "other costs"), ("quotes", "quotes"))
        for row in chosen.of(sheet)
    ]
    trade = Trade(offers, worked, tuple(x for x in spent if x))
    return trade, tuple(reader.problems)


def section_key(library: Library, words: str) -> str:
    """Return one spelling for a section, however it was written."""
    found = find_section(library, words)
    return words.casefold() if isinstance(found, Miss) else found.key


def _offer(row: Row, reader: _Reader) -> tuple[Want, Offer] | None:
    """Return one row of the stock sheet, or None with a problem."""
    material = _material(row, reader)
    size_m: tuple[float, ...] = row.values["size"]
    flat = row.text("form") in FLAT_FORMS
    if len(size_m) != (2 if flat else 1):
        wanted = "two sides, such as 2000 x 1000 mm" if flat else "one length, such as 6 m"
        found = f"a {row.text('form')} is sold by {'length and width' if flat else 'length'}"
        reader.refuse(row, "size", found, wanted, "type it as the merchant sells it")
        return None
    if material is None:
        return None
    kind = _sheet(row, material, reader) if flat else _bar(row, material, reader)
    if kind is None:
        return None
    want, kg_per_size = kind
    mass_kg = kg_per_size * math.prod(size_m)
    per = {"piece": 1.0, "kg": mass_kg, "m": size_m[0]}[row.text("per", "piece")]
    return want, Offer(size_m, row.number("price") * per)


def _look_over(row: Row, reader: _Reader) -> None:
    """Look up what a row of the stock sheet that could not be read names."""
    material = _material(row, reader) if row.has("material") else None
    if material is None:
        return
    if row.text("form") in FLAT_FORMS and row.has("gauge"):
        _sheet(row, material, reader)
    elif row.text("form") in LONG_FORMS and row.has("section"):
        _bar(row, material, reader)


def _material(row: Row, reader: _Reader) -> Material | None:
    found = find_material(reader.library, row.text("material"))
    if isinstance(found, Miss):
        reader.refuse(row, "material", found.sentence, "a material", found.advice)
        return None
    return found


def _sheet(row: Row, material: Material, reader: _Reader) -> tuple[Want, float] | None:
    """Return what a flat thing is bought as, and its kg/m2; None with a problem."""
    gauge = find_gauge(reader.library, row.text("gauge"), material)
    if isinstance(gauge, Miss):
        reader.refuse(row, "gauge", gauge.sentence, "a gauge with its system", gauge.advice)
        return None
    return Want(material.key, SHEETS, round(1e6 * gauge.thickness_m)), gauge.surface_kg_m2


def _bar(row: Row, material: Material, reader: _Reader) -> tuple[Want, float] | None:
    """Return what a long thing is bought as, and its kg/m, NaN where that is not known.

    Without a known section it has a price only by the piece or the metre, and no part asks for it.
    """
    typed = row.text("section")
    section = find_section(reader.library, typed)
    if not isinstance(section, Miss):
        return Want(material.key, BARS, section.key), section.area_m2 * material.density_kg_m3
    if row.text("per") == "kg":
        wanted = "a section with a known mass"
        advice = "give the price of a piece or a metre, or a listed section"
        reader.refuse(row, "section", section.sentence, wanted, advice)
        return None
    what = f'"{typed}" is no listed section and no plain bar' if typed else "no section is given"
    found, advice = f"{what}, so no part is cut from it", f"type a section, such as {PLAIN_BARS}"
    reader.remark(Severity.NOTE, row, "section", found, advice)
    return Want(material.key, BARS, section_key(reader.library, typed)), math.nan


def _rates(rows: Sequence[Row], reader: _Reader) -> dict[str, Estimate]:
    """Return what an hour costs, by name."""
    rates = {}
    for row in rows:
        amount = _three(row, reader)
        if amount is not None:
            hours = HOURS_PER[row.text("per", "hour")]
            rates[row.text("name")] = Estimate(*(value / hours for value in amount))
    return rates


def _activities(chosen: Chosen, refused: Chosen, reader: _Reader) -> tuple[Activity, ...]:
    """Return the hours that can be priced, and look over those that could not be read."""
    rows, unread = chosen.of("hours"), refused.of("hours")
    rates = _rates(chosen.of("rates"), reader)
    good = (row for row in chosen.of("rates") if row.text("name") in rates)
    names = Names.of("name", good, (*chosen.of("rates"), *refused.of("rates")))
    for row in unread:
        if row.has("rate"):
            _rate(row, names, reader)
    _ask_what_comes_first((*rows, *unread), reader)
    worked = [_activity(row, names, rates, reader) for row in rows]
    return tuple(activity for activity in worked if activity)


def _ask_what_comes_first(rows: Sequence[Row], reader: _Reader) -> None:
    """Ask about every row that comes after an activity that there is not."""
    activities = Names.of("activity", rows)
    for row in rows:
        if row.has("after") and not activities[row.text("after")]:
            found = f'"{row.text("after")}" is not an activity of this sheet'
            others = [name for name in activities.all if name != about(row)]
            advice = f"type one of: {', '.join(others) or 'none there yet'}"
            reader.remark(Severity.QUESTION, row, "after", found, advice)


def _activity(
    row: Row, names: Names, rates: Mapping[str, Estimate], reader: _Reader
) -> Activity | None:
    rate = _rate(row, names, reader)
    hours_each = _three(row, reader)
    if not rate or hours_each is None:
        return None
    people = int(row.number("people", 1.0))
    return Activity(row.text("activity"), people, hours_each, rates[rate])


def _rate(row: Row, names: Names, reader: _Reader) -> str:
    """Return the name of the rate of a row, blank with a problem where there is none."""
    rate = names[row.text("rate")]
    if not rate:
        words = (f'"{row.text("rate")}" is not on the rates sheet', "the name of a rate")
        reader.problems.append(nameless(row, "rate", (names,), words, names.all))
    return rate


def _expense(row: Row, category: str, reader: _Reader) -> Expense | None:
    amount = _three(row, reader)
    if amount is None:
        return None
    said = row.text("source") or str(row.cell("name"))
    date = f", {row.text('date')}" if row.has("date") else ""
    return Expense(row.text("name"), row.text("category", category), amount, said + date)


def _three(row: Row, reader: _Reader) -> Estimate | None:
    """Return low, likely and high of a row: one figure stands for all three."""
    if row.has("amount") and not row.has("likely"):
        return known(row.number("amount"))
    likely = row.number("likely")
    ends = (row.number("low", likely), likely, row.number("high", likely))
    if not ends[0] <= ends[1] <= ends[2]:
        text = ", ".join(f"{value:g}" for value in ends)
        reader.refuse(
            row,
            "likely",
            f"low, likely and high do not rise: {text}",
            "low, then likely, then high",
            "look whether two of them changed places",
        )
        return None
    return estimated(ThreePoint(*ends))
