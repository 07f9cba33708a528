"""Offcuts: what is bought is all accounted for, and only what is worth keeping is kept."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.shop.bars import Bar, BarStock, cut_bars
from estimator.shop.offcuts import (
    Account,
    Keep,
    bar_account,
    kept_rectangles,
    sheet_account,
    summed,
)
from estimator.shop.sheets import CutSheet, Cutting, Placement, Rectangle, first_fit_sheets

sides = st.floats(0.02, 1.2)


def gap(account):
    """Return what was bought less everything it went to."""
    return account.stock - sum(account[1:])


def test_a_long_end_is_kept_and_a_short_one_is_scrap():
    """The threshold itself is still worth keeping."""
    bar = Bar(0, (0,), used_m=5.4, kerf_m=0.003, left_m=0.5)
    short = Bar(0, (0,), used_m=5.4, kerf_m=0.003, left_m=0.499)

    assert bar_account(bar, 5.923, 0.01, Keep(side_m=0.5)).offcuts == 0.5
    assert bar_account(short, 5.922, 0.01, Keep(side_m=0.5)).offcuts == 0.0
    assert bar_account(short, 5.922, 0.01, Keep(side_m=0.5)).scrap == 0.499


def test_a_leftover_needs_both_sides_and_the_area():
    """A strip is too narrow and a small square too small; the rest comes largest first."""
    strip = Rectangle(0, 0, 2.0, 0.1)
    square = Rectangle(0, 0, 0.16, 0.16)
    plate, panel = Rectangle(0, 0, 0.5, 0.3), Rectangle(0, 0, 0.6, 0.5)

    kept = kept_rectangles([strip, square, plate, panel], Keep(side_m=0.15, area_m2=0.05))

    assert kept == [panel, plate]


def test_a_sheet_splits_into_parts_offcuts_scrap_cutting_and_trim():
    """By hand: a 1 x 1 m sheet trimmed 10 mm all round, one part and two leftovers on it."""
    sheet = CutSheet(
        0,
        (Placement(0, 0.01, 0.01, 0.5, 0.5, turned=False),),
        (Rectangle(0.52, 0.01, 0.4, 0.5), Rectangle(0.01, 0.52, 0.9, 0.1)),
    )

    account = sheet_account(sheet, (1.0, 1.0), 0.01, Keep(side_m=0.2))

    assert account == pytest.approx(
        Account(stock=1.0, parts=0.25, offcuts=0.2, scrap=0.09, cutting=0.4204, trim=0.0396)
    )


def test_kilograms_and_money_are_the_same_account_in_another_unit():
    """A 2 x 1 m sheet at 180 the sheet and 10.9 kg/m2."""
    account = Account(stock=2.0, parts=1.5, offcuts=0.3, scrap=0.1, cutting=0.08, trim=0.02)

    assert account.times(10.9).stock == pytest.approx(21.8)
    assert account.times(180.0 / 2.0).scrap == pytest.approx(9.0)


def test_no_accounts_sum_to_nothing():
    """The empty order."""
    assert summed([]) == Account(0, 0, 0, 0, 0, 0)


@settings(deadline=None)
@given(
    st.lists(st.floats(0.02, 5.9), min_size=1, max_size=30),
    st.sampled_from([0.0, 0.003]),
    st.sampled_from([0.0, 0.01]),
    st.floats(0.0, 2.0),
)
def test_bars_account_for_every_metre(lengths_m, kerf_m, trim_m, keep_m):
    """Parts, offcuts, scrap, kerf and trim make the bars that were bought."""
    stock_m = [6.0, 4.0]
    stock = [BarStock(stock_m[0], 30.0), BarStock(stock_m[1], 22.0)]
    plan = cut_bars(lengths_m, stock, kerf_m, trim_m)
    accounts = [
        bar_account(bar, stock_m[bar.stock_index], trim_m, Keep(keep_m)) for bar in plan.bars
    ]

    assert all(entry >= 0 for account in accounts for entry in account)
    assert gap(summed(accounts)) == pytest.approx(0.0, abs=1e-9)
    assert summed(accounts).parts == pytest.approx(plan.length_m)


@settings(deadline=None)
@given(
    st.lists(st.tuples(sides, sides), min_size=1, max_size=20),
    st.sampled_from([0.0, 0.003]),
    st.sampled_from([0.0, 0.005]),
    st.floats(0.0, 0.5),
)
def test_sheets_account_for_every_square_metre(sizes_m, kerf_m, trim_m, keep_m):
    """Parts, offcuts, scrap, skeleton and trim make the sheets that were bought."""
    stock_m = [(2.5, 1.25), (2.0, 1.3)]
    plan = first_fit_sheets(sizes_m, stock_m, [90.0, 60.0], Cutting(kerf_m, trim_m))
    accounts = [
        sheet_account(sheet, stock_m[sheet.stock_index], trim_m, Keep(keep_m))
        for sheet in plan.sheets
    ]

    assert all(entry >= -1e-9 for account in accounts for entry in account)
    assert gap(summed(accounts)) == pytest.approx(0.0, abs=1e-9)
    assert summed(accounts).parts == pytest.approx(plan.bound_area_m2)
