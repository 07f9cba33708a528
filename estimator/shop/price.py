"""From cost to price: overhead, contingency, mark-up or margin, tax.

A mark-up is a share of the cost; a margin is a share of the price. The two words are never
interchanged here: a line always says which it is.
"""

from collections.abc import Sequence
from typing import NamedTuple

from estimator.shop.three_point import Estimate, known, product, total


class Cost(NamedTuple):
    """One line of cost.

    Attributes:
        name: What it is for.
        amount: Low, likely, high and mean, in the job's currency.
        how: Where the figure comes from, in words.
    """

    name: str
    amount: Estimate
    how: str


class Terms(NamedTuple):
    """The maker's terms, each a fraction: 0.2 is 20 %.

    Attributes:
        overhead: Share of the cost.
        contingency: Share of the cost with overhead.
        mark_up: Share of that total, or None when a margin is asked.
        margin: Share of the price before tax, below 1, or None when a mark-up is asked.
        tax: Share of the price before tax.
    """

    overhead: float = 0.0
    contingency: float = 0.0
    mark_up: float | None = None
    margin: float | None = None
    tax: float = 0.0


class PriceLine(NamedTuple):
    """One line of the price as it is built up.

    Attributes:
        name: What the line is.
        low: Sum of the lows.
        likely: Sum of the likely values, which is not the likely sum.
        high: Sum of the highs.
        mean: Sum of the triangular means.
        how: The arithmetic in words.
    """

    name: str
    low: float
    likely: float
    high: float
    mean: float
    how: str


def mark_up_of(margin: float) -> float:
    """Return the mark-up on cost that gives this margin on price.

    Raises:
        ValueError: The margin is not from 0 to below 1.
    """
    if not 0.0 <= margin < 1.0:
        msg = f"a margin is a share of the price, from 0 to below 1, got {margin}"
        raise ValueError(msg)
    return margin / (1.0 - margin)


def margin_of(mark_up: float) -> float:
    """Return the margin on price that this mark-up on cost gives.

    Raises:
        ValueError: The mark-up is negative.
    """
    if not mark_up >= 0.0:
        msg = f"a mark-up is a share of the cost, zero or more, got {mark_up}"
        raise ValueError(msg)
    return mark_up / (1.0 + mark_up)


def labour_cost(people: int, hours_each: Estimate, rate_per_hour: Estimate) -> Estimate:
    """Return people x hours each x rate: two people for a day are two days of pay."""
    return product(product(known(float(people)), hours_each), rate_per_hour)


def _profit(terms: Terms) -> tuple[str, float, str]:
    """Return the name, the factor on cost and the arithmetic of the profit line."""
    if (terms.mark_up is None) == (terms.margin is None):
        msg = f"give a mark-up or a margin, one of the two, got {terms.mark_up} and {terms.margin}"
        raise ValueError(msg)
    if terms.mark_up is not None:
        as_margin = margin_of(terms.mark_up)
        how = f"{_percent(terms.mark_up)} of cost, which is {_percent(as_margin)} of price"
        return "mark-up on cost", terms.mark_up, how
    margin = terms.margin or 0.0
    mark_up = mark_up_of(margin)
    how = f"{_percent(margin)} of price, which is {_percent(mark_up)} of cost"
    return "margin on price", mark_up, how


def _percent(share: float) -> str:
    """Return a share in words, to a tenth of a per cent."""
    return f"{round(100.0 * share, 1):g} %"


def _share(name: str, share: float, of: Estimate, how: str) -> Cost:
    """Return a line that is a share of an amount."""
    return Cost(name, product(known(share), of), how)


def build_up(costs: Sequence[Cost], terms: Terms) -> list[PriceLine]:
    """Return the price line by line, from each cost down to the price with tax.

    Args:
        costs: Materials, hours, hire, quotes and so on, in the order to print.
        terms: Overhead, contingency, mark-up or margin, tax.

    Raises:
        ValueError: Both or neither of mark-up and margin, or a share that cannot be.
    """
    if not min(terms.overhead, terms.contingency, terms.tax) >= 0:
        msg = f"overhead, contingency and tax must not be negative, got {terms}"
        raise ValueError(msg)
    profit_name, mark_up, profit_how = _profit(terms)
    cost = total(c.amount for c in costs)
    overhead = _share("overhead", terms.overhead, cost, f"{_percent(terms.overhead)} of cost")
    with_overhead = total([cost, overhead.amount])
    contingency = _share(
        "contingency",
        terms.contingency,
        with_overhead,
        f"{_percent(terms.contingency)} of cost with overhead",
    )
    whole_cost = total([with_overhead, contingency.amount])
    profit = _share(profit_name, mark_up, whole_cost, profit_how)
    net = total([whole_cost, profit.amount])
    tax = _share("tax", terms.tax, net, f"{_percent(terms.tax)} of price before tax")
    lines = [
        *costs,
        Cost("cost", cost, "sum of the lines above"),
        overhead,
        contingency,
        Cost("cost with overhead and contingency", whole_cost, "sum"),
        profit,
        Cost("price before tax", net, "sum"),
        tax,
        Cost("price", total([net, tax.amount]), "sum"),
    ]
    return [PriceLine(line.name, *line.amount, line.how) for line in lines]
