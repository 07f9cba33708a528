"""The order list: whole sheets and bars by hand, prices, and what nobody has laid out."""

import math
from dataclasses import replace

import pytest

from estimator.geometry.models import Model
from estimator.reference.stock import find_kerf
from estimator.resolve.patterns import patterned
from estimator.resolve.records import Modelled
from estimator.resolve.trade import Want
from estimator.shop.bars import BarPlan
from estimator.stages.buying import CUT_BY, _add_blanks, _bar_bound, _Demand, _lines

COPPER_KG_M3 = 8930.0  # EN 1172, Table A, as quoted in our table of materials
STOCK = {"material": "copper", "form": "sheet", "gauge": "1 mm", "size": "2000 x 1000 mm",
         "price": 100}  # fmt: skip
SHEET = {"part": "P", "shape": "sheet", "length": "900 mm", "width": "900 mm", "count": 5,
         "made of": "copper", "gauge": "1 mm"}  # fmt: skip
BAR = {"part": "F", "shape": "flat", "length": "1.9 m", "width": "50 mm", "depth": "6 mm",
       "count": 7, "made of": "mild steel"}  # fmt: skip
BARS = {"material": "mild steel", "form": "bar", "section": "flat 50x6", "size": "6 m",
        "price": 40}  # fmt: skip


@pytest.fixture(scope="module")
def order(steps):
    """Return a function that gives the order list of parts, with the sizes sold."""

    def buy(*parts, stock=(), **sheets):
        return steps(upto="order", parts=parts, stock=list(stock), **sheets)["order"]

    return buy


def test_five_squares_take_three_sheets(order):
    """Two of 900 mm on a sheet of 2000 x 1000: three sheets at 100, 6 m2 of 8.93 kg/m2.

    What is left: on two sheets 2 - 1.62 = 0.38 m2, on the last 2 - 0.81 = 1.19 m2.
    """
    (line,) = order(SHEET, stock=[STOCK]).lines

    assert (line.pieces, line.count_to_buy) == (5, 3)
    assert line.stock_size == "2000 x 1000 mm"
    assert (line.price_each, line.cost) == (100.0, 300.0)
    assert line.mass_kg == pytest.approx(6 * 8.93)
    assert line.offcut_kg + line.scrap_kg == pytest.approx((2 * 0.38 + 1.19) * 8.93)
    assert line.scrap_money == pytest.approx(300 * line.scrap_kg / line.mass_kg)
    # 5 x 0.81 = 4.05 m2 fill more than two sheets of 2 m2.
    assert line.bound_text == "by area alone at least 3; this plan 3"


def test_seven_bars_take_three_lengths(order):
    """Three of 1.9 m and two cuts out of 6 m: 3 + 3 + 1; 6 m of 50 x 6 mm steel weigh 14.13 kg."""
    (line,) = order(BAR, stock=[BARS]).lines

    assert (line.pieces, line.count_to_buy, line.cost) == (7, 3, 120.0)
    assert line.mass_kg == pytest.approx(3 * 6 * 0.05 * 0.006 * 7850)
    assert line.size_text == "flat 50x6"
    # 7 x 1.9 = 13.3 m do not go into two lengths.
    assert line.bound_text == "proven: no plan has less cost"
    assert line.how == "best cutting plan found"


@pytest.mark.parametrize(
    ("bound", "priced", "words"),
    [
        (98.0, True, "proven: no plan can save more than 2.0 % of the cost"),
        (98.0, False, "proven: no plan can save more than 2.0 % of the length"),
        (99.999, True, "proven: no plan has less cost"),
    ],
)
def test_a_bound_says_how_much_could_be_saved(bound, priced, words):
    """By hand: a plan of 100 whose bound is 98 can lose 2 in 100; a cent in a thousand is none."""
    plan = BarPlan((), (), 100.0, bound, "patterns", 1.0)

    assert _bar_bound(plan, priced) == words


def test_a_plan_that_the_clock_ended_says_so(order, monkeypatch):
    """Another machine may find another, so that the time stands with it."""
    monkeypatch.setattr(BarPlan, "proven", False)

    (line,) = order(BAR, stock=[BARS]).lines

    assert line.how == "best cutting plan found in up to 2 s of looking"


def test_the_kerf_counts(order):
    """Three of 2 m exactly do not come out of 6 m: two cuts take their width as well."""
    (line,) = order(BAR | {"length": "2 m", "count": 3}, stock=[BARS]).lines

    assert line.count_to_buy == 2


def test_every_way_of_cutting_is_in_the_table(library):
    """A kerf that is not found would be counted as nothing."""
    for by in CUT_BY.values():
        assert find_kerf(library, by).high_m >= 0.0
    assert find_kerf(library, CUT_BY["bar"]).high_m > 0.0


def test_parts_alike_are_bought_together(order):
    """Squares of two parts share sheets; another gauge does not."""
    other = SHEET | {"part": "Q", "count": 1}
    thick = SHEET | {"part": "T", "gauge": "2 mm", "count": 1}
    lines = order(SHEET, other, thick, stock=[STOCK]).lines

    assert [(line.pieces, line.count_to_buy) for line in lines] == [(6, 3), (1, 1)]


def test_a_part_in_pieces(order):
    """3 x 0.9 m fits no sheet; in two pieces each is 1.5 x 0.9 m, and takes one sheet."""
    (line,) = order(SHEET | {"length": "3 m", "count": 1, "pieces": 2}, stock=[STOCK]).lines

    assert (line.pieces, line.count_to_buy) == (2, 2)


def test_four_pieces_are_cut_two_by_two(order):
    """1.9 x 1.9 m in four: four squares of 0.95 m, two on a sheet."""
    square = SHEET | {"length": "1.9 m", "width": "1.9 m", "count": 1, "pieces": 4}
    (line,) = order(square, stock=[STOCK]).lines

    assert (line.pieces, line.count_to_buy) == (4, 2)


def test_a_bar_in_pieces(order):
    """One of 9 m in two pieces is two of 4.5 m, each from a bar of 6 m."""
    (line,) = order(BAR | {"length": "9 m", "count": 1, "pieces": 2}, stock=[BARS]).lines

    assert (line.pieces, line.count_to_buy) == (2, 2)


def test_relief_and_laps_make_the_blank_larger(order):
    """1.21 of the area is 1.1 of each side: 950 mm becomes 1045, more than a sheet is wide."""
    plain = SHEET | {"length": "950 mm", "width": "950 mm", "count": 1}

    assert order(plain, stock=[STOCK]).lines[0].count_to_buy == 1
    assert order(plain | {"relief": 1.21}, stock=[STOCK]).lines[0].count_to_buy == 0


def test_both_faces_take_two_blanks(order):
    """A wing with a skin on each face is cut twice."""
    skins = {"build-up": "u", "layer": "skins", "material": "copper", "over": "both faces",
             "amount": "1 mm"}  # fmt: skip
    wing = SHEET | {"made of": "u", "gauge": "", "count": 1}
    (line,) = order(wing, stock=[STOCK], build_ups=[skins]).lines

    assert (line.pieces, line.count_to_buy) == (2, 1)


PRICES = [  # price, per, price of one sheet or bar
    (STOCK | {"price": 100, "per": "piece"}, SHEET, 100.0),
    (STOCK | {"price": 10, "per": "kg"}, SHEET, 10 * 2 * 8.93),
    (STOCK | {"price": 30, "per": "m"}, SHEET, 60.0),
    (BARS | {"price": 2, "per": "kg"}, BAR, 2 * 14.13),
    (BARS | {"price": 5, "per": "m"}, BAR, 30.0),
]


@pytest.mark.parametrize(("sold", "part", "each"), PRICES)
def test_prices_by_piece_by_kilogram_and_by_metre(order, sold, part, each):
    """2 m2 of 1 mm copper weigh 17.86 kg, 6 m of 50 x 6 mm steel 14.13 kg."""
    (line,) = order(part, stock=[sold]).lines

    assert line.price_each == pytest.approx(each)


def test_a_body_without_a_blank_is_area_to_buy(order):
    """A torus has no blank: pi2 (D - d) d of skin, a tenth more for waste, at 50 a square metre."""
    skin = {"build-up": "u", "layer": "skin", "material": "copper", "over": "one face",
            "amount": "1 mm", "laps": "5 %", "waste": "10 %"}  # fmt: skip
    ring = {"part": "R", "shape": "torus", "diameter": "1 m", "end diameter": "100 mm",
            "made of": "u", "count": 2, "relief": 1.08}  # fmt: skip
    (line,) = order(ring, stock=[STOCK], build_ups=[skin]).lines

    area_m2 = math.pi**2 * 0.9 * 0.1 * 2 * 1.08 * 1.05 * 1.10
    assert line.not_laid_out_m2 == pytest.approx(area_m2)
    assert line.cost == pytest.approx(50 * area_m2)
    assert line.mass_kg == pytest.approx(area_m2 * 8.93)
    assert line.how == "area to buy, not laid out: R"
    assert (line.pieces, line.count_to_buy) == (0, 0)


def test_a_layer_that_covers_a_share_is_area_to_buy(order):
    """Lead on 55 % of a sheet cannot be laid out from its outline."""
    skin = {"build-up": "u", "layer": "skin", "material": "copper", "over": "one face",
            "amount": "1 mm", "covers": "55 %"}  # fmt: skip
    (line,) = order(SHEET | {"made of": "u", "gauge": ""}, build_ups=[skin]).lines

    assert line.not_laid_out_m2 == pytest.approx(0.55 * 5 * 0.81)


def test_what_is_larger_than_any_sheet_is_said(order):
    """Two of 3 x 0.9 m from 2 x 1 m: 5.4 m2 to be pieced up, priced at 50 a square metre."""
    found = order(SHEET | {"length": "3 m", "count": 2}, stock=[STOCK])
    (line,) = found.lines

    assert line.how == (
        "2 pieces up to 3000 x 900 mm are larger than any size sold: to be pieced up"
    )
    assert line.not_laid_out_m2 == pytest.approx(5.4)
    assert line.cost == pytest.approx(270.0)
    assert found.cost == pytest.approx(270.0)


def test_a_bar_longer_than_any_sold_is_said(order):
    """7 m from lengths of 6 m has no plan, and no price is made up for it; it still weighs."""
    found = order(BAR | {"length": "7 m", "count": 1}, stock=[BARS])
    (line,) = found.lines

    assert "1 pieces up to 7 m are larger" in line.how
    assert math.isnan(line.cost)
    assert line.mass_kg == pytest.approx(7 * 0.05 * 0.006 * 7850)
    assert line.not_laid_out_m2 == 0.0
    assert found.unpriced == ("mild steel flat 50x6",)


def test_without_a_price_common_sizes_are_used(order):
    """Copper is commonly sold; the plan is there, its price is not."""
    found = order(SHEET)

    assert all(line.count_to_buy > 0 for line in found.lines)
    assert all(math.isnan(line.cost) for line in found.lines)
    assert all("no price given" in line.how for line in found.lines)
    assert found.cost == 0.0
    assert found.unpriced == ("copper",)


def test_without_a_known_size_the_area_is_listed(order):
    """Nobody lists sheets of gold: the area is ordered, and it is said why."""
    (line,) = order(SHEET | {"made of": "gold"}).lines

    assert line.how == "no size is known that it is sold in"
    assert line.not_laid_out_m2 == pytest.approx(5 * 0.81)
    assert math.isnan(line.cost)


def test_what_is_bought_in_costs_its_price(order):
    """Four lamps at 95; one without a price is named."""
    lamp = {"part": "L", "shape": "bought", "name": "spot lamps", "count": 4, "mass each": "0.9 kg",
            "price each": 95}  # fmt: skip
    found = order(lamp, lamp | {"part": "M", "name": "motor", "count": 1, "price each": ""})

    assert found.lines[0].cost == 380.0
    assert found.lines[0].mass_kg == pytest.approx(3.6)
    assert found.lines[0].how == "L"
    assert found.cost == 380.0
    assert found.unpriced == ("motor motor",)


def test_a_core_is_bought_by_mass_with_its_waste(order):
    """0.1 m3 of the box at 60 % of softwood, and 45 % more to buy."""
    core = {"build-up": "u", "layer": "core", "material": "softwood", "over": "solid",
            "amount": "60 %", "waste": "45 %"}  # fmt: skip
    box = {"part": "B", "shape": "box", "length": "1 m", "width": "500 mm", "depth": "200 mm",
           "made of": "u", "count": 2}  # fmt: skip
    found = order(box, build_ups=[core])
    (line,) = found.lines

    assert line.form == "by mass"
    assert math.isnan(line.cost)
    in_it_kg = line.mass_kg / 1.45
    assert in_it_kg / (2 * 0.1 * 0.6) == pytest.approx(450, rel=0.2)  # softwood, common practice


@pytest.mark.parametrize(("count", "words"), [(1, "8.93 kg"), (400, "3572 kg")])
def test_what_is_bought_by_mass_has_no_power_of_ten(order, count, words):
    """Litres of solid copper at 8930 kg/m3: three figures, and whole kilograms when heavy."""
    cube = {"part": "B", "shape": "sphere", "diameter": f"{(6 / math.pi) ** (1 / 3) * 100:.6f} mm",
            "made of": "copper", "count": count}  # fmt: skip

    assert order(cube).lines[0].size_text == words


def test_what_is_in_the_rack_is_not_ordered(order):
    """A slug from own scrap is not on the list."""
    assert order(SHEET | {"get by": "rack"}, stock=[STOCK]).lines == ()


SECTIONS = [  # part, words on the order
    ({"shape": "rod", "diameter": "18 mm"}, "round 18"),
    ({"shape": "tube", "diameter": "48.3 mm", "wall": "3.2 mm"}, "CHS 48.3x3.2"),
    ({"shape": "hollow", "width": "60 mm", "depth": "60 mm", "wall": "4 mm"}, "SHS 60x60x4"),
    ({"shape": "hollow", "width": "100 mm", "depth": "50 mm", "wall": "4 mm"}, "RHS 100x50x4"),
    ({"shape": "section", "section": "SHS 60x60x4"}, "SHS 60x60x4"),
]


@pytest.mark.parametrize(("cells", "words"), SECTIONS)
def test_sections_as_a_merchant_writes_them(order, cells, words):
    """Every long shape is bought as the section it is."""
    row = {"part": "S", "length": "1 m", "made of": "mild steel"} | cells
    lines = order(row).lines

    assert [line.size_text for line in lines] == [words]


def test_a_rolled_hoop_is_bought_as_flat(order):
    """A flat of 50 x 6 rolled to 2.206 m outside: pi x 2.2 = 6.91 m in two halves of 3.46 m."""
    hoop = {"part": "H", "shape": "hoop", "width": "50 mm", "depth": "6 mm", "diameter": "2206 mm",
            "made of": "mild steel", "pieces": 2}  # fmt: skip
    (line,) = order(hoop, stock=[BARS]).lines

    assert (line.size_text, line.pieces, line.count_to_buy) == ("flat 50x6", 2, 2)


BY_MASS = [
    {"shape": "hoop", "diameter": "2 m", "end diameter": "20 mm"},
    {"shape": "formed", "length": "900 mm", "width": "700 mm", "diameter": "20 mm"},
]


@pytest.mark.parametrize("cells", BY_MASS)
def test_what_is_no_stock_section_is_bought_by_mass(order, cells):
    """A bent rod has no section to look for, so that its mass is on the list instead."""
    (line,) = order({"part": "N", "made of": "mild steel"} | cells).lines

    assert line.form == "by mass"
    assert line.mass_kg > 0


def test_a_wall_plate_is_cut_from_plate(steps):
    """Four plates of 200 x 200 x 10 mm come from one sheet of a square metre."""
    arm = {"set": "s", "reach": "300 mm", "section": "SHS 60x60x4", "grade": "mild steel",
           "holds": "welded", "plate width": "200 mm", "plate height": "200 mm",
           "plate thickness": "10 mm", "up": "0 m"}  # fmt: skip
    plate = {"material": "mild steel", "form": "sheet", "gauge": "10 mm",
             "size": "1000 x 1000 mm", "price": 300}  # fmt: skip
    found = steps(
        upto="order",
        parts=[SHEET],
        stock=[plate, STOCK],
        brackets=[arm | {"bracket": f"B{n}", "across": f"{n} m"} for n in range(4)],
    )
    line = next(x for x in found["order"].lines if x.gauge.startswith("10 mm"))

    assert (line.pieces, line.count_to_buy, line.cost) == (4, 1, 300.0)


def test_a_material_that_is_gone_is_a_mistake_of_the_program(library):
    """It was found while resolving, so that it must be there."""
    with pytest.raises(TypeError, match="unobtainium was found before and is gone"):
        list(_lines(library, Want("unobtainium", "sheet", 1), _Demand("", 1.0), ()))


def test_a_ring_in_pieces_is_cut_as_arcs(steps):
    """A ring of 1000 over 900 in 8 pieces: each arc of 45 degrees fits in 383 x 84 mm.

    By hand: chord 1000 sin 22.5 = 382.7; 500 - 450 cos 22.5 = 84.3.
    """
    ring = {"part": "R", "shape": "ring", "diameter": "1 m", "bore": "900 mm", "pieces": 8,
            "made of": "copper", "gauge": "1 mm"}  # fmt: skip
    stock = {"material": "copper", "form": "sheet", "gauge": "1 mm", "size": "390 x 350 mm",
             "price": 10}  # fmt: skip
    order = steps(upto="order", parts=[ring], stock=[stock])["order"]

    assert [(line.pieces, line.count_to_buy) for line in order.lines] == [(8, 2)]


def test_a_body_in_gores_is_laid_out(order):
    """A ball of 500 mm in eight: each lies in 786 x 198 mm with its trim of a weld."""
    ball = {"part": "B", "shape": "sphere", "diameter": "500 mm", "pieces": 8, "made of": "copper",
            "gauge": "1 mm"}  # fmt: skip
    fits = STOCK | {"size": "786 x 198 mm"}
    (line,) = order(ball, stock=[fits]).lines

    assert (line.pieces, line.count_to_buy) == (8, 8)
    assert order(ball, stock=[STOCK | {"size": "786 x 196 mm"}]).lines[0].count_to_buy == 0


def test_forming_and_its_trim_are_in_the_blank(order):
    """A dome of 1 m2 sunk is 0.9 of that, with 5.5 % of trim on it: 1099 mm across, not 1128."""
    radius_mm = 1000 / math.sqrt(math.pi)
    dome = {"part": "D", "shape": "dome", "diameter": f"{2 * radius_mm * 0.8} mm",
            "depth": f"{radius_mm * 0.6} mm", "made of": "copper", "gauge": "1 mm"}  # fmt: skip
    sold = [STOCK | {"size": "1100 x 1100 mm"}]

    assert order(dome, stock=sold).lines[0].count_to_buy == 0
    assert order(dome | {"forming": "sunk"}, stock=sold).lines[0].count_to_buy == 1


def test_laps_are_in_the_pieces(order):
    """Four lengths of a flashing with laps of 75 mm are 5.225 m: a roll of 5.2 m is too short."""
    lead = {"part": "F", "shape": "sheet", "length": "5 m", "width": "300 mm", "pieces": 4,
            "made of": "lead", "gauge": "Code 4"}  # fmt: skip
    roll = {"material": "lead", "form": "roll", "gauge": "Code 4", "price": 100}

    for length, count in (("5200 x 300 mm", 2), ("5250 x 300 mm", 1)):
        (line,) = order(lead, stock=[roll | {"size": length}]).lines
        assert (line.pieces, line.count_to_buy) == (4, count)


def test_the_longest_piece_is_kept_to(order):
    """A sheet of 1.9 m in pieces up to 1 m is two, and a bar of 9 m in pieces up to 4 m three."""
    (sheet,) = order(SHEET | {"length": "1.9 m", "count": 1, "longest piece": "1 m"},
                     stock=[STOCK]).lines  # fmt: skip
    (bar,) = order(BAR | {"length": "9 m", "count": 1, "longest piece": "4 m"}, stock=[BARS]).lines

    assert (sheet.pieces, bar.pieces) == (2, 3)


ROLLS = [("", 1), ("any", 1), ("length", 0), ("width", 1)]
"""Roll way, and sheets of 1000 x 1250 mm bought for a piece of 1200 x 800 mm."""


@pytest.mark.parametrize(("way", "count"), ROLLS)
def test_the_side_that_lies_along_the_roll_is_kept(order, way, count):
    """The roll runs along the first size, 1000 mm: 1200 mm fits across it but not along it."""
    part = SHEET | {"length": "1200 mm", "width": "800 mm", "count": 1, "roll way": way}
    (line,) = order(part, stock=[STOCK | {"size": "1000 x 1250 mm"}]).lines

    assert line.count_to_buy == count


def test_only_the_part_that_says_so_is_kept_from_turning(order):
    """Its neighbour on the same list still turns to fit."""
    part = SHEET | {"length": "1200 mm", "width": "800 mm", "count": 1}
    other = part | {"part": "Q", "roll way": "length"}
    lines = order(part, other, stock=[STOCK | {"size": "1000 x 1250 mm"}]).lines

    assert [(line.pieces, line.count_to_buy) for line in lines] == [(1, 1), (0, 0)]
    assert "1 pieces up to 1200 x 800 mm are larger" in lines[1].how


def test_a_skin_from_a_model_is_bought_with_what_fitting_takes(steps):
    """Nobody said how much is wasted: 15 %, the middle of 10 to 20, common practice."""
    mesh = {"part": "M", "shape": "sheet", "length": "1 m", "width": "1 m", "made of": "copper",
            "gauge": "1 mm"}  # fmt: skip
    found = steps(upto="resolved", parts=[mesh])["resolved"]
    (part,) = found.columns.parts
    measured = replace(part, shape="measured", model="m")
    model = Modelled("m", "measured", Model(found.columns.measures("sheet", [0])))
    (cut,), _ = patterned([measured], (), found.library, {"m": model})
    demand = _Demand("", 1.0)

    _add_blanks(demand, cut, cut.layers[0])

    assert demand.loose_m2 == pytest.approx(1.15)
    assert demand.pieces == []


def test_a_layer_without_a_pattern_is_a_mistake_of_the_program(steps):
    """Resolving gives one to everything that is cut."""
    (part,) = steps(upto="resolved", parts=[SHEET])["resolved"].columns.parts

    with pytest.raises(TypeError, match="a layer of copper sheet has no pattern"):
        _add_blanks(_Demand("", 1.0), part, replace(part.layers[0], pattern=None))
