"""A small bid for a garden wall, set as a task in spreadsheet research.

[PS] R. R. Panko, R. H. Sprague, "Hitting the wall: errors in developing and code inspecting a
     'simple' spreadsheet model" (title from memory), Decision Support Systems 22(4), 1998,
     pp. 337-353; task text as quoted in a bibliography page of the paper. The task: two people,
     three days of eight hours, 10 dollars an hour, 20 % on wages; a wall 20 x 6 x 2 ft in lava at
     3 or brick at 2 dollars a cubic foot; a profit of 30 % is added to cost. The bids were worked
     out from that text, by hand; they are not printed in the page seen.
"""

import pytest

from estimator.shop.price import Cost, Terms, build_up, labour_cost
from estimator.shop.three_point import known

WALL_FT3 = 20 * 6 * 2

BIDS = [  # stone, dollars a cubic foot, cost, bid at 30 % on cost, bid at 30 % of price
    ("lava", 3.0, 1296.00, 1684.80, 1851.43),
    ("brick", 2.0, 1056.00, 1372.80, 1508.57),
]


def bid_lines(price_ft3, terms):
    """Return the lines of the bid, by name."""
    wages = labour_cost(2, known(3 * 8.0), known(10.0 * 1.20))
    costs = [
        Cost("labour", wages, "wages and 20 % on them"),
        Cost("stone", known(WALL_FT3 * price_ft3), "volume x price"),
    ]
    return {line.name: line for line in build_up(costs, terms)}


def test_labour_of_the_wall():
    """[PS] 2 x 24 h x 10 dollars and a fifth on top: 576."""
    assert bid_lines(3.0, Terms(mark_up=0.30))["labour"].likely == pytest.approx(576.0)


@pytest.mark.parametrize(("stone", "price_ft3", "cost", "bid", "_margin_bid"), BIDS)
def test_bid_with_profit_added_to_cost(stone, price_ft3, cost, bid, _margin_bid):
    """[PS] Whole cents, so the tolerance is half a cent."""
    lines = bid_lines(price_ft3, Terms(mark_up=0.30))

    assert lines["cost"].likely == pytest.approx(cost, abs=0.005), stone
    assert lines["price"].likely == pytest.approx(bid, abs=0.005), stone


@pytest.mark.parametrize(("stone", "price_ft3", "_cost", "bid", "margin_bid"), BIDS)
def test_one_word_changes_the_bid_by_a_tenth(stone, price_ft3, _cost, bid, margin_bid):
    """Taking the 30 % as margin on price makes both bids 9.9 % dearer."""
    wrong = bid_lines(price_ft3, Terms(margin=0.30))["price"].likely

    assert wrong == pytest.approx(margin_bid, abs=0.005), stone
    assert wrong / bid - 1 == pytest.approx(0.099, abs=0.0005), stone
