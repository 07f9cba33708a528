"""Sheets: nothing overlaps, every layout can be cut edge to edge, and the bound beside it."""

import math
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.shop.sheets import Cutting, Placement, first_fit_sheets

sides = st.floats(0.02, 1.6)
sizes = st.lists(st.tuples(sides, sides), max_size=25)
stocks = st.lists(
    st.tuples(st.floats(0.5, 3.0), st.floats(0.5, 3.0), st.floats(1.0, 400.0)),
    min_size=1,
    max_size=3,
)
cuttings = st.builds(
    Cutting,
    kerf_m=st.sampled_from([0.0, 0.003]),
    trim_m=st.sampled_from([0.0, 0.005]),
    may_turn=st.booleans(),
)


def plan_of(sizes_m, stock, cutting=Cutting()):  # noqa: B008 - a tuple cannot change
    """Return a plan for stock written as (width, height, price)."""
    return first_fit_sheets(sizes_m, [s[:2] for s in stock], [s[2] for s in stock], cutting)


def apart(one, other, gap_m):
    """Return whether two rectangles keep a gap, in one direction or the other."""
    across = one.x_m + one.width_m + gap_m <= other.x_m + 1e-8
    across = across or other.x_m + other.width_m + gap_m <= one.x_m + 1e-8
    up = one.y_m + one.height_m + gap_m <= other.y_m + 1e-8
    return across or up or other.y_m + other.height_m + gap_m <= one.y_m + 1e-8


def cuts_apart(pieces):
    """Return whether edge-to-edge cuts alone can free every piece."""
    if len(pieces) <= 1:
        return True
    for start, size in (("x_m", "width_m"), ("y_m", "height_m")):
        row = sorted(pieces, key=lambda p: getattr(p, start))
        reach = -math.inf
        for k, piece in enumerate(row):
            if k and getattr(piece, start) >= reach - 1e-8:
                return cuts_apart(row[:k]) and cuts_apart(row[k:])
            reach = max(reach, getattr(piece, start) + getattr(piece, size))
    return False


@pytest.mark.parametrize(("side_m", "to_a_sheet"), [(0.247, 16), (0.248, 9)])
def test_kerf_lies_between_neighbours_only(side_m, to_a_sheet):
    """Plane arithmetic: four of 247 and three cuts of 4 make 1000; four of 248 do not fit."""
    cutting = Cutting(kerf_m=0.004)

    full = plan_of([(side_m, side_m)] * to_a_sheet, [(1.0, 1.0, 1.0)], cutting)
    over = plan_of([(side_m, side_m)] * (to_a_sheet + 1), [(1.0, 1.0, 1.0)], cutting)

    assert len(full.sheets) == 1
    assert len(over.sheets) == 2


def test_trim_moves_the_first_piece_off_the_edge():
    """A piece lies one trim in from both edges, and one as large as the inside still fits."""
    (sheet,) = plan_of([(0.98, 0.98)], [(1.0, 1.0, 1.0)], Cutting(trim_m=0.01)).sheets

    assert sheet.placements == (
        Placement(0, 0.01, 0.01, pytest.approx(0.98), pytest.approx(0.98), turned=False),
    )
    assert sheet.leftovers == ()


def test_a_piece_turns_only_where_it_may():
    """A 1 x 2 m piece lies on a 2 x 1 m sheet turned, or not at all."""
    turned = plan_of([(1.0, 2.0)], [(2.0, 1.0, 5.0)], Cutting(may_turn=True))
    fixed = plan_of([(1.0, 2.0)], [(2.0, 1.0, 5.0)], Cutting(may_turn=False))

    assert [p.turned for p in turned.sheets[0].placements] == [True]
    assert fixed.too_large == (0,)
    assert fixed.sheets == ()


def test_first_fit_fills_shelves_from_the_highest():
    """By hand: heights 0.6, 0.5, 0.3 on 1 x 1 m; the low piece stands beside the highest."""
    plan = plan_of([(0.3, 0.3), (0.7, 0.6), (0.9, 0.4)], [(1.0, 1.0, 1.0)], Cutting(may_turn=False))

    places = {p.piece: (p.x_m, p.y_m) for p in plan.sheets[0].placements}
    assert places == {1: (0.0, 0.0), 0: (0.7, 0.0), 2: (0.0, 0.6)}


def test_each_size_serves_what_only_it_can_hold():
    """A long strip and a broad plate fit different sheets; each is bought for its own."""
    plan = plan_of(
        [(2.9, 0.2), (1.4, 1.4)],
        [(3.0, 1.0, 30.0), (1.5, 1.5, 25.0)],
        Cutting(may_turn=False),
    )

    assert plan.cost == 55.0
    assert {(s.stock_index, s.placements[0].piece) for s in plan.sheets} == {(0, 0), (1, 1)}


def test_the_last_sheet_is_swapped_for_a_cheaper_size():
    """Five plates: four fill the large sheet, the fifth comes from the small one."""
    plan = plan_of([(0.9, 0.9)] * 5, [(1.8, 1.8, 30.0), (0.9, 0.9, 9.0)])

    assert plan.cost == 39.0


def test_leftovers_are_the_shelf_end_and_the_strip_beyond():
    """By hand: 0.6 x 0.4 m from 1 x 1 m with a 10 mm cut leaves 0.39 x 0.4 and 1 x 0.59."""
    (sheet,) = plan_of([(0.6, 0.4)], [(1.0, 1.0, 1.0)], Cutting(kerf_m=0.01, may_turn=False)).sheets

    assert [(r.width_m, r.height_m) for r in sheet.leftovers] == [
        (pytest.approx(0.39), pytest.approx(0.4)),
        (pytest.approx(1.0), pytest.approx(0.59)),
    ]


def test_nothing_to_cut_buys_nothing():
    """An empty list is an empty plan with empty bounds."""
    plan = plan_of([], [(2.0, 1.0, 10.0)])

    assert plan.sheets == ()
    assert (plan.cost, plan.bound_sheets, plan.bound_cost, plan.bound_area_m2) == (0, 0, 0, 0)


@pytest.mark.parametrize(
    ("sizes_m", "stock", "cutting", "words"),
    [
        ([(1.0, 0.0)], [(2.0, 1.0, 1.0)], Cutting(), "two sides above zero"),
        ([(1.0, 1.0)], [(2.0, -1.0, 1.0)], Cutting(), "two sides above zero"),
        ([(1.0, 1.0)], [(2.0, 1.0, -1.0)], Cutting(), "prices must be zero or more"),
        ([(1.0, 1.0)], [(2.0, 1.0, 1.0)], Cutting(kerf_m=-0.1), "kerf and trim"),
    ],
)
def test_what_cannot_be_cut_is_refused(sizes_m, stock, cutting, words):
    """A caller's mistake is an error that says what it was."""
    with pytest.raises(ValueError, match=words):
        plan_of(sizes_m, stock, cutting)


def test_every_size_needs_its_price():
    """Two sizes and one price is a mistake."""
    with pytest.raises(ValueError, match="one price for each stock size, got 1 for 2"):
        first_fit_sheets([(1.0, 1.0)], [(2.0, 1.0), (3.0, 1.5)], [9.0], Cutting())


@settings(deadline=None)
@given(sizes, stocks, cuttings)
def test_each_piece_lies_once_inside_and_apart(sizes_m, stock, cutting):
    """Every index is placed once or named too large; pieces and leftovers never overlap."""
    plan = plan_of(sizes_m, stock, cutting)
    placed = [p.piece for sheet in plan.sheets for p in sheet.placements]

    assert sorted([*placed, *plan.too_large]) == list(range(len(sizes_m)))
    for sheet in plan.sheets:
        width_m, height_m, _ = stock[sheet.stock_index]
        for p in sheet.placements:
            drawn = sizes_m[p.piece][::-1] if p.turned else sizes_m[p.piece]
            assert (p.width_m, p.height_m) == pytest.approx(drawn)
            assert cutting.may_turn or not p.turned
        for r in (*sheet.placements, *sheet.leftovers):
            assert min(r.x_m, r.y_m) >= cutting.trim_m
            assert r.x_m + r.width_m <= width_m - cutting.trim_m + 1e-8
            assert r.y_m + r.height_m <= height_m - cutting.trim_m + 1e-8
        for one, other in combinations((*sheet.placements, *sheet.leftovers), 2):
            assert apart(one, other, cutting.kerf_m)
        assert cuts_apart(sheet.placements)


@settings(deadline=None)
@given(sizes, stocks, cuttings)
def test_no_plan_is_under_its_bound(sizes_m, stock, cutting):
    """Area alone must be bought, and the plan pays for its sheets."""
    plan = plan_of(sizes_m, stock, cutting)

    assert len(plan.sheets) >= plan.bound_sheets
    assert plan.cost >= plan.bound_cost * (1 - 1e-9)
    assert plan.cost == pytest.approx(sum(stock[s.stock_index][2] for s in plan.sheets))


@settings(deadline=None)
@given(sizes, stocks, cuttings)
def test_double_prices_double_the_cost(sizes_m, stock, cutting):
    """Money has no scale."""
    dear = [(w, h, 2 * price) for w, h, price in stock]

    assert plan_of(sizes_m, dear, cutting).cost == 2 * plan_of(sizes_m, stock, cutting).cost


@settings(deadline=None)
@given(sizes, stocks)
def test_leave_to_turn_never_costs_more(sizes_m, stock):
    """What lies as drawn may still lie as drawn."""
    placeable = [(w, h) for w, h in sizes_m if w <= stock[0][0] and h <= stock[0][1]]

    turned = plan_of(placeable, stock[:1], Cutting(may_turn=True))

    assert turned.cost <= plan_of(placeable, stock[:1], Cutting(may_turn=False)).cost


@settings(deadline=None)
@given(sizes, stocks, cuttings)
def test_another_size_never_costs_more(sizes_m, stock, cutting):
    """What can be cut from the sizes there were can still be cut from them."""
    placeable = [(w, h) for w, h in sizes_m if w <= stock[0][0] - 0.01 and h <= stock[0][1] - 0.01]

    fewer, more = plan_of(placeable, stock[:1], cutting), plan_of(placeable, stock, cutting)

    assert more.cost <= fewer.cost


@settings(deadline=None)
@given(sizes, stocks, cuttings)
def test_the_same_list_gives_the_same_plan(sizes_m, stock, cutting):
    """Nothing is left to chance."""
    assert plan_of(sizes_m, stock, cutting) == plan_of(sizes_m, stock, cutting)


@given(st.lists(st.booleans(), min_size=1, max_size=12))
def test_pieces_that_are_fixed_lie_as_drawn(fixed):
    """The others may be turned, and are where that alone fits."""
    numbers = frozenset(i for i, keep in enumerate(fixed) if keep)
    sizes_m = [(0.9, 0.4) if keep else (0.4, 0.9) for keep in fixed]
    plan = first_fit_sheets(sizes_m, [(1.0, 0.5)], [1.0], Cutting(fixed=numbers))

    placed = {p.piece: p.turned for sheet in plan.sheets for p in sheet.placements}
    assert plan.too_large == ()
    assert placed == {i: not keep for i, keep in enumerate(fixed)}


def test_a_fixed_piece_that_fits_only_turned_is_too_large():
    """900 along a sheet of 500 x 1000."""
    plan = first_fit_sheets([(0.9, 0.4)] * 2, [(0.5, 1.0)], [1.0], Cutting(fixed=frozenset({1})))

    assert plan.too_large == (1,)
