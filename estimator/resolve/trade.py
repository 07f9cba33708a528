"""What the sheets of money say: merchants' sizes, hours at their rates, other costs, quotes."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from estimator.core.problems import Problem, Severity
from estimator.reference.finding import Miss
from estimator.reference.gauges import find_gauge
from estimator.reference.library import Library
from estimator.reference.materials import find_material
from estimator.reference.sections import find_section
from estimator.resolve.options import Chosen
from estimator.sheets.rows import Row
from estimator.shop.three_point import Estimate, ThreePoint, estimated, known

SHEETS, BARS = "sheet", "bar"
FLAT_FORMS = ("sheet", "roll", "board")
LONG_FORMS = ("bar", "tube", "section", "timber")
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
        about = row.text("name") or row.text("activity") or row.text("material")
        self.problems.append(
            Problem(Severity.REFUSED, row.cell(column), found, expected, advice, about)
        )


def resolve_trade(chosen: Chosen, library: Library) -> tuple[Trade, tuple[Problem, ...]]:
    """Return what the sheets of money say, and what is wrong there."""
    reader = _Reader(library)
    offers: dict[Want, list[Offer]] = {}
    for row in chosen.of("stock"):
        sold = _offer(row, reader)
        if sold is not None:
            offers.setdefault(sold[0], []).append(sold[1])
    rates = _rates(chosen.of("rates"), reader)
    worked = [_activity(row, rates, reader) for row in chosen.of("hours")]
    spent = [
        _expense(row, category, reader)
        for sheet, category in (("costs", "other costs"), ("quotes", "quotes"))
        for row in chosen.of(sheet)
    ]
    trade = Trade(offers, tuple(x for x in worked if x), tuple(x for x in spent if x))
    return trade, tuple(reader.problems)


def section_key(library: Library, words: str) -> str:
    """Return one spelling for a section, however it was written."""
    found = find_section(library, words)
    return words.casefold() if isinstance(found, Miss) else found.key


def _offer(row: Row, reader: _Reader) -> tuple[Want, Offer] | None:
    """Return one row of the stock sheet, or None with a problem."""
    material = find_material(reader.library, row.text("material"))
    if isinstance(material, Miss):
        reader.refuse(row, "material", material.sentence, "a material", material.advice)
        return None
    size_m: tuple[float, ...] = row.values["size"]
    flat = row.text("form") in FLAT_FORMS
    if len(size_m) != (2 if flat else 1):
        wanted = "two sides, such as 2000 x 1000 mm" if flat else "one length, such as 6 m"
        found = f"a {row.text('form')} is sold by {'length and width' if flat else 'length'}"
        reader.refuse(row, "size", found, wanted, "type it as the merchant sells it")
        return None
    if flat:
        gauge = find_gauge(reader.library, row.text("gauge"), material)
        if isinstance(gauge, Miss):
            reader.refuse(row, "gauge", gauge.sentence, "a gauge with its system", gauge.advice)
            return None
        want = Want(material.key, SHEETS, round(1e6 * gauge.thickness_m))
        mass_kg = gauge.surface_kg_m2 * math.prod(size_m)
    else:
        section = find_section(reader.library, row.text("section"))
        if isinstance(section, Miss) and row.text("per") == "kg":
            reader.refuse(
                row,
                "section",
                section.sentence,
                "a section with a known mass",
                "give the price of a piece or a metre, or a listed section",
            )
            return None
        area_m2 = math.nan if isinstance(section, Miss) else section.area_m2
        want = Want(material.key, BARS, section_key(reader.library, row.text("section")))
        mass_kg = area_m2 * material.density_kg_m3 * size_m[0]
    per = {"piece": 1.0, "kg": mass_kg, "m": size_m[0]}[row.text("per", "piece")]
    return want, Offer(size_m, row.number("price") * per)


def _rates(rows: Sequence[Row], reader: _Reader) -> dict[str, Estimate]:
    """Return what an hour costs, by name without case."""
    rates = {}
    for row in rows:
        amount = _three(row, reader)
        if amount is not None:
            hours = HOURS_PER[row.text("per", "hour")]
            rates[row.text("name").casefold()] = Estimate(*(value / hours for value in amount))
    return rates


def _activity(row: Row, rates: Mapping[str, Estimate], reader: _Reader) -> Activity | None:
    rate = rates.get(row.text("rate").casefold())
    if rate is None:
        reader.refuse(
            row,
            "rate",
            f'"{row.text("rate")}" is not on the rates sheet',
            "the name of a rate",
            f"type one of: {', '.join(rates) or 'none there yet'}",
        )
    hours_each = _three(row, reader)
    if rate is None or hours_each is None:
        return None
    return Activity(row.text("activity"), int(row.number("people", 1.0)), hours_each, rate)


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
