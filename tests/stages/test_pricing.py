"""From hours, materials and other costs to the price, through the sheets of a workbook.

[PS] R. R. Panko, R. H. Sprague, "Hitting the wall: errors in developing and code inspecting a
     'simple' spreadsheet model" (title from memory), Decision Support Systems 22(4), 1998,
     pp. 337-353; task text as quoted in a bibliography page of the paper. Two people, three days
     of eight hours, 10 dollars an hour and 20 % on wages; a wall of 20 x 6 x 2 ft in lava at 3 or
     brick at 2 dollars a cubic foot; 30 % profit is added to cost. The bids were worked out from
     that text, by hand.
"""

import pytest

from estimator.stages.pricing import WHOLE

RATE = {"name": "masons", "likely": 12, "per": "hour"}  # 10 dollars and a fifth on top
DAYS = {"activity": "building", "people": 2, "likely": "24 h", "rate": "masons"}
STONE = {"lava": 3 * 20 * 6 * 2, "brick": 2 * 20 * 6 * 2}


@pytest.fixture(scope="module")
def pricing(steps):
    """Return a function that prices a job."""
    return lambda **sheets: steps(upto="pricing", **({"parts": []} | sheets))["pricing"]


def wall(pricing, stone, **terms):
    """Return the bid for the wall."""
    costs = [{"name": stone, "amount": STONE[stone]}]
    facts = {name.replace("_", " "): value for name, value in terms.items()}
    return pricing(hours=[DAYS], rates=[RATE], costs=costs, job=facts)


BIDS = [  # stone, cost, bid with 30 % on cost, bid with 30 % of price
    ("lava", 1296.00, 1684.80, 1851.43),
    ("brick", 1056.00, 1372.80, 1508.57),
]


@pytest.mark.parametrize(("stone", "cost", "bid", "_margin_bid"), BIDS)
def test_bid_with_profit_on_cost(pricing, stone, cost, bid, _margin_bid):
    """[PS] 2 x 24 h x 12 = 576 and the stone; whole cents, so half a cent is the tolerance."""
    found = wall(pricing, stone, mark_up="30 %")

    assert found.hours[0].cost.likely == pytest.approx(576.0)
    assert found.price_of("cost").likely == pytest.approx(cost, abs=0.005)
    assert found.price_of("price").likely == pytest.approx(bid, abs=0.005)


@pytest.mark.parametrize(("stone", "_cost", "_bid", "margin_bid"), BIDS)
def test_bid_with_margin_on_price(pricing, stone, _cost, _bid, margin_bid):
    """The other reading of 30 %: cost / 0.7."""
    found = wall(pricing, stone, margin="30 %")

    assert found.price_of("price").likely == pytest.approx(margin_bid, abs=0.005)


def test_both_mark_up_and_margin(pricing):
    """The mark-up on cost is used, and it is said."""
    found = wall(pricing, "lava", mark_up="30 %", margin="30 %")

    assert found.price_of("price").likely == pytest.approx(1684.80)
    assert found.notes == ("mark-up and margin are both given: the mark-up on cost was used",)


def test_neither_mark_up_nor_margin(pricing):
    """The price is the cost, and it is said."""
    found = wall(pricing, "lava")

    assert found.price_of("price").likely == pytest.approx(1296.0)
    assert found.notes == ("neither mark-up nor margin is given: the price is the cost",)


def test_every_term_in_its_place(pricing):
    """1296 + 12 % = 1451.52; + 8 % = 1567.6416; + 15 % = 1802.78784; + 20 % tax = 2163.345408."""
    found = wall(pricing, "lava", overhead="12 %", contingency="8 %", mark_up="15 %", tax="20 %")

    assert found.price_of("cost with overhead and contingency").likely == pytest.approx(1567.6416)
    assert found.price_of("price before tax").likely == pytest.approx(1802.78784)
    assert found.price_of("price").likely == pytest.approx(2163.345408)


def test_hours_have_a_range(pricing):
    """Two people, 10, 12 and 20 h each: 20, 24 and 40 person-hours, in the mean 28."""
    three = {"low": "10 h", "likely": "12 h", "high": "20 h"}
    found = pricing(hours=[DAYS | three], rates=[RATE])

    assert found.person_hours[:3] == pytest.approx((20.0, 24.0, 40.0))
    assert found.person_hours.mean == pytest.approx(28.0)
    assert found.hours[0].cost.likely == pytest.approx(24 * 12)


@pytest.mark.parametrize(("per", "hours"), [("hour", 1), ("day", 8), ("week", 40)])
def test_rates_by_the_hour_day_and_week(pricing, per, hours):
    """A day is 8 hours and a week 40: common practice, no source."""
    found = pricing(hours=[DAYS], rates=[RATE | {"likely": 12 * hours, "per": per}])

    assert found.hours[0].rate == pytest.approx(12.0)


def test_quotes_and_costs_are_lines(pricing):
    """A quote has the category quotes unless it says otherwise, and its own words."""
    quote = {"name": "movement", "amount": 4850, "source": "movement maker, letter"}
    cost = {"name": "van", "low": 420, "likely": 520, "high": 780, "category": "transport"}
    lines = {line.name: line for line in pricing(quotes=[quote], costs=[cost]).lines}

    assert lines["movement"].amount.likely == 4850.0
    assert (lines["movement"].category, lines["van"].category) == ("quotes", "transport")
    assert lines["movement"].how == "movement maker, letter"
    assert lines["van"].amount.mean == pytest.approx((420 + 520 + 780) / 3)


def bought(number, price=""):
    """Return a thing that is bought in."""
    return {"part": f"L{number}", "name": f"lamp {number}", "made of": "glass", "shape": "bought",
            "mass each": "1 kg", "price each": price}  # fmt: skip


def test_materials_are_what_was_ordered(pricing):
    """Two lamps at 95, nothing missing."""
    line = pricing(parts=[bought(1, 95), bought(2, 95)]).lines[0]

    assert line.amount.likely == 190.0
    assert (
        line.how
        == "whole pieces, and areas without a layout; nothing credited for what is left over"
    )


def test_what_has_no_price_is_named(pricing):
    """Three by name, and how many more."""
    line = pricing(parts=[bought(n) for n in range(1, 6)]).lines[0]

    assert line.how == (
        f"{WHOLE}; no price yet for glass lamp 1, glass lamp 2, glass lamp 3 and 2 more"
    )


def test_a_price_line_that_is_not_there(pricing):
    """Asking for a line by a wrong name is a mistake of the program."""
    with pytest.raises(StopIteration):
        wall(pricing, "lava").price_of("discount")
