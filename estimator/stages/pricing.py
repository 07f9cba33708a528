"""Pricing: material, hours at their rates, other costs and quotes, then the price."""

from dataclasses import dataclass
from typing import NamedTuple

from estimator.resolve.job import Resolved
from estimator.resolve.records import Facts
from estimator.resolve.trade import Activity, Expense
from estimator.shop.price import Cost, PriceLine, Terms, build_up, labour_cost
from estimator.shop.three_point import Estimate, known, total
from estimator.stages.buying import Order

WHOLE = "whole pieces, and areas without a layout; nothing credited for what is left over"
NAMED = 3
"""How many unpriced things a line names."""


class HoursLine(NamedTuple):
    """One activity.

    Attributes:
        activity: What is done.
        people: How many at once.
        person_hours: Of all of them together.
        rate: What an hour of one costs, the likely value.
        cost: Of the activity.
    """

    activity: str
    people: int
    person_hours: Estimate
    rate: float
    cost: Estimate


@dataclass(frozen=True, slots=True)
class Pricing:
    """What it costs and what to ask.

    Attributes:
        hours: By activity.
        lines: By kind of cost.
        price: From cost to price.
        notes: What was taken for granted.
    """

    hours: tuple[HoursLine, ...]
    lines: tuple[Expense, ...]
    price: tuple[PriceLine, ...]
    notes: tuple[str, ...]

    @property
    def person_hours(self) -> Estimate:
        """Return the hours of everybody together."""
        return total(line.person_hours for line in self.hours)

    def price_of(self, name: str) -> PriceLine:
        """Return one line of the price by name."""
        return next(line for line in self.price if line.name == name)


def price(resolved: Resolved, order: Order) -> Pricing:
    """Return the cost by line and the price."""
    hours = tuple(_hours_line(activity) for activity in resolved.trade.activities)
    lines = (
        Expense("materials and bought-in parts", "materials", known(order.cost),
                _material_words(order)),
        Expense("hours", "hours", total(h.cost for h in hours), "people x hours x rate"),
        *resolved.trade.expenses,
    )  # fmt: skip
    terms, notes = _terms(resolved.facts)
    costs = [Cost(line.name, line.amount, line.how) for line in lines]
    return Pricing(hours, lines, tuple(build_up(costs, terms)), notes)


def _material_words(order: Order) -> str:
    if not order.unpriced:
        return WHOLE
    more = len(order.unpriced) - NAMED
    names = ", ".join(order.unpriced[:NAMED]) + (f" and {more} more" if more > 0 else "")
    return f"{WHOLE}; no price yet for {names}"


def _hours_line(activity: Activity) -> HoursLine:
    return HoursLine(
        activity.name,
        activity.people,
        Estimate(*(activity.people * hours for hours in activity.hours_each)),
        activity.rate.likely,
        labour_cost(activity.people, activity.hours_each, activity.rate),
    )


def _terms(facts: Facts) -> tuple[Terms, tuple[str, ...]]:
    """Return the maker's terms; without mark-up or margin the price is the cost."""
    notes = []
    mark_up = facts.number("mark_up") if facts.has("mark_up") else None
    margin = facts.number("margin") if facts.has("margin") else None
    if mark_up is not None and margin is not None:
        notes.append("mark-up and margin are both given: the mark-up on cost was used")
        margin = None
    if mark_up is None and margin is None:
        notes.append("neither mark-up nor margin is given: the price is the cost")
        mark_up = 0.0
    terms = Terms(
        overhead=facts.number("overhead", 0.0),
        contingency=facts.number("contingency", 0.0),
        mark_up=mark_up,
        margin=margin,
        tax=facts.number("tax", 0.0),
    )
    return terms, tuple(notes)
