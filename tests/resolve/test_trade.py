"""Sheets of money: sizes sold, hours at their rates, other costs, quotes.

[LEAD] BS EN 12588:2006, as listed on merchants' pages: Code 5 weighs 25.40 kg/m2.
[SHS]  EN 10219-2, as quoted: SHS 60x60x4 weighs 6.71 kg/m.
"""

import pytest

from estimator.resolve.trade import Offer, Want, section_key

STOCK = "material | form | gauge | section | size | price | per"


def _stock(*rows):
    return {"stock": "\n".join([STOCK, *rows])}


def _only_offer(found):
    ((want, (offer,)),) = found.trade.offers.items()
    return want, offer


PRICES = [
    ("copper | sheet | 1.5 mm | | 2000 x 1000 mm | 100 | ", ("copper", "sheet", 1500), 100.0),
    ("copper | sheet | 1.5 mm | | 2000 x 1000 mm | 9 | kg",
     ("copper", "sheet", 1500), 9 * 2 * 0.0015 * 8930),
    ("lead | roll | 5 | | 3000 x 150 mm | 2 | kg", ("lead", "sheet", 2240), 2 * 0.45 * 25.40),
    ("lead | roll | 5 | | 6000 x 300 mm | 20 | m", ("lead", "sheet", 2240), 120.0),
    ("steel | bar | | shs60x60x4 | 6 m | 60 | piece", ("mild steel", "bar", "SHS 60x60x4"), 60.0),
    ("steel | tube | | SHS 60x60x4 | 6 m | 3 | m", ("mild steel", "bar", "SHS 60x60x4"), 18.0),
    ("steel | section | | SHS 60x60x4 | 6 m | 2 | kg",
     ("mild steel", "bar", "SHS 60x60x4"), 2 * 6 * 6.71),
    ("softwood | timber | | 50 X 100 | 4.8 m | 3 | m", ("softwood", "bar", "50 x 100"), 14.4),
    ("steel | bar | | | 6 m | 60 |", ("mild steel", "bar", ""), 60.0),
]  # fmt: skip


@pytest.mark.parametrize(("row", "want", "price"), PRICES)
def test_a_price_is_that_of_a_piece(resolved, said, row, want, price):
    """A price by the kg or the metre is turned into one of the size sold; [SHS] to 0.1 %."""
    found = resolved(_stock(row))

    assert said(found, "refused") == ""
    assert _only_offer(found)[0] == Want(*want)
    assert _only_offer(found)[1].price == pytest.approx(price, rel=1e-3)


def test_sizes_of_one_thing_are_offered_together(resolved):
    """They stand in the order of the sheet, however the thing was written."""
    found = resolved(_stock(
        "Cu | sheet | 1.5 mm | | 2 x 1 m | 100 |",
        "copper | sheet | 0.0015 m | | 1220 x 610 mm | 40 |",
    ))  # fmt: skip

    assert found.trade.offers == {
        Want("copper", "sheet", 1500): [Offer((2.0, 1.0), 100.0), Offer((1.22, 0.61), 40.0)]
    }


WRONG_STOCK = [
    (
        "coper | sheet | 1.5 mm | | 2 x 1 m | 100 |",
        (
            'stock!A2 (coper): "coper" is not in tables/materials.csv\n'
            "    wanted: a material\n"
            "    type one of: copper (8930 kg/m3), western red cedar (370 kg/m3)"
        ),
    ),
    (
        "lead | sheet | Code 5.5 | | 2 x 1 m | 100 |",
        (
            'stock!C2 (lead): "Code 5.5" is not in tables/gauges.csv\n'
            "    wanted: a gauge with its system\n"
            "    type one of: Code 5 (2.24 mm), Code 6 (2.65 mm), Code 4 (1.8 mm)"
        ),
    ),
    (
        "copper | sheet | | | 2 x 1 m | 100 |",
        (
            'stock!C2 (copper): "" is not in tables/gauges.csv\n'
            "    wanted: a gauge with its system\n"
            "    see `estimator tables gauges`, or add a row in a folder of your own"
        ),
    ),
    (
        "copper | sheet | 1.5 mm | | 2 m | 100 |",
        (
            "stock!E2 (copper): a sheet is sold by length and width\n"
            "    wanted: two sides, such as 2000 x 1000 mm\n"
            "    type it as the merchant sells it"
        ),
    ),
    (
        "steel | bar | | SHS 60x60x4 | 6 x 1 m | 100 |",
        (
            "stock!E2 (steel): a bar is sold by length\n"
            "    wanted: one length, such as 6 m\n"
            "    type it as the merchant sells it"
        ),
    ),
    (
        "softwood | timber | | 50 x 100 | 6 m | 2 | kg",
        (
            'stock!D2 (softwood): "50 x 100" is not in tables/sections.csv\n'
            "    wanted: a section with a known mass\n"
            "    give the price of a piece or a metre, or a listed section"
        ),
    ),
]


@pytest.mark.parametrize(("row", "expected"), WRONG_STOCK)
def test_what_cannot_be_sold_so_is_refused(resolved, said, row, expected):
    """A price is never dropped unseen."""
    found = resolved(_stock(row))

    assert said(found, "refused") == expected
    assert found.trade.offers == {}
    assert found.accounts["stock"].refused == 1


NOTED_STOCK = [
    ("steel | bar | | Round 17 | 6 m | 60 |", ""),
    ("steel | bar | | UPN 100 | 6 m | 60 |", ""),
    (
        "steel | bar | | fancy 12 | 6 m | 60 |",
        (
            'stock!D2 (steel): "fancy 12" is no listed section and no plain bar, so no part is cut '
            "from it\n"
            "    type a section, such as flat 50x6, round 20, CHS 48.3x3.2, SHS 60x60x4 or RHS "
            "100x50x4"
        ),
    ),
    (
        "steel | bar | | | 6 m | 60 |",
        (
            "stock!D2 (steel): no section is given, so no part is cut from it\n"
            "    type a section, such as flat 50x6, round 20, CHS 48.3x3.2, SHS 60x60x4 or RHS "
            "100x50x4"
        ),
    ),
]


@pytest.mark.parametrize(("row", "note"), NOTED_STOCK)
def test_a_bar_that_no_part_can_ask_for_is_noted(resolved, said, row, note):
    """It is kept, but its price will meet nothing."""
    found = resolved(_stock(row))

    assert said(found, "note") == note
    assert len(found.trade.offers) == 1
    assert found.complete


@pytest.mark.parametrize(
    ("words", "key"),
    [("shs 60 x 60 x 4", "SHS 60x60x4"), ("flat 6x50", "Flat 50x6"), ("50 X 100", "50 x 100")],
)
def test_a_section_has_one_spelling(library, words, key):
    """What is bought as parts need it finds what is sold."""
    assert section_key(library, words) == key


RATES = """
    name  | low | likely | high | amount | per
    Bench | 30  | 40     | 60   |        |
    site  |     |        |      | 400    | day
    week  |     | 1600   |      |        | week
    """
HOURS = "activity | people | low | likely | high | rate"


def _hours(*rows):
    return {"rates": RATES, "hours": "\n".join([HOURS, *rows])}


def test_hours_are_worked_at_a_rate(resolved):
    """People, hours each and the rate stand apart; the mean is that of the triangle, (a+b+c)/3."""
    (work,) = resolved(_hours("beating | 2 | 10 | 12 | 20 | bench")).trade.activities

    assert (work.name, work.people) == ("beating", 2)
    assert work.hours_each == pytest.approx((10, 12, 20, 14))
    assert work.rate == pytest.approx((30, 40, 60, 130 / 3))


@pytest.mark.parametrize(("rate", "an_hour"), [("SITE", 50.0), ("week", 40.0)])
def test_a_rate_for_a_day_or_a_week_is_one_for_its_hours(resolved, rate, an_hour):
    """Eight hours a day and forty a week: common practice, no source."""
    (work,) = resolved(_hours(f"hanging | | | 4 | | {rate}")).trade.activities

    assert work.people == 1
    assert work.rate == pytest.approx((an_hour,) * 4)


def test_a_rate_that_is_not_listed_is_refused(resolved, said):
    """The names of the sheet are offered."""
    found = resolved(_hours("beating | 2 | | 12 | | bnech"))

    assert said(found, "refused") == (
        'hours!F2 (beating): "bnech" is not on the rates sheet\n'
        "    wanted: the name of a rate\n"
        "    type one of: Bench, site, week"
    )
    assert found.trade.activities == ()


@pytest.mark.parametrize("rate", ["BENCH", "night shift", "Night-Shift"])
def test_a_rate_is_found_however_it_is_typed(resolved, said, rate):
    """Without case and hyphens."""
    rates = f"{RATES}\n    night-shift | | | | 60 |"
    found = resolved({"rates": rates, "hours": f"{HOURS}\nbeating | | | 12 | | {rate}"})

    assert said(found, "refused") == ""
    assert len(found.trade.activities) == 1


@pytest.mark.parametrize(
    ("after", "question"),
    [
        ("Cutting-out", ""),
        (
            "casting",
            (
                'hours!D2 (beating): "casting" is not an activity of this sheet\n'
                "    type one of: cutting out"
            ),
        ),
    ],
)
def test_an_activity_that_comes_after_none_is_asked_about(resolved, said, after, question):
    """The hours count all the same."""
    hours = f"activity|likely|rate|after\nbeating|2|bench|{after}\ncutting out|3|bench|"
    found = resolved({"rates": RATES, "hours": hours})

    assert ("hours!" in said(found, "question")) == bool(question)
    assert question in said(found, "question")
    assert len(found.trade.activities) == 2


def test_without_rates_there_is_none_to_offer(resolved, said):
    """The sheet is what is missing."""
    found = resolved(_hours("beating | 2 | | 12 | | bench") | {"rates": "name | amount"})

    assert said(found, "refused").endswith("    type one of: none there yet")


FALLING = [
    ("hours", _hours("beating | 2 | 20 | 12 | 10 | bench"), "hours!D2 (beating)", "20, 12, 10"),
    ("hours", _hours("beating | 2 | 20 | 12 | | bench"), "hours!D2 (beating)", "20, 12, 12"),
    ("rates", {"rates": "name|low|likely|high\nsite|9|8|7"}, "rates!C2 (site)", "9, 8, 7"),
    ("costs", {"costs": "name|likely|high\ncrane|800|700"}, "costs!B2 (crane)", "800, 800, 700"),
    ("quotes", {"quotes": "name|low|likely\ncast|900|800"}, "quotes!C2 (cast)", "900, 800, 800"),
]


@pytest.mark.parametrize(("sheet", "sheets", "cell", "figures"), FALLING)
def test_low_likely_and_high_must_rise(resolved, said, sheet, sheets, cell, figures):
    """Two of them changed places, and nobody can say which."""
    found = resolved(sheets)

    assert said(found, "refused") == (
        f"{cell}: low, likely and high do not rise: {figures}\n"
        "    wanted: low, then likely, then high\n"
        "    look whether two of them changed places"
    )
    assert found.accounts[sheet].refused == 1


def test_costs_and_quotes_are_expenses(resolved):
    """One figure stands for all three; a blank end is the likely figure."""
    found = resolved({
        "costs": """
            name    | category  | low | likely | high | amount | date       | source
            crane   | transport | 500 | 600    | 900  |        |            |
            permit  |           |     |        |      | 120    | 2026-03-04 | the council
            gilding |           |     | 300    |      | 200    |            | the gilder
            """,
        "quotes": "name | amount\ncasting | 950",
    })  # fmt: skip

    assert [(e.name, e.category, e.how) for e in found.trade.expenses] == [
        ("crane", "transport", "costs!A2"),
        ("permit", "other costs", "the council, 2026-03-04"),
        ("gilding", "other costs", "the gilder"),
        ("casting", "quotes", "quotes!A2"),
    ]
    assert [e.amount[:3] for e in found.trade.expenses] == [
        (500, 600, 900), (120, 120, 120), (300, 300, 300), (950, 950, 950)
    ]  # fmt: skip


def test_a_job_without_money_has_none(resolved):
    """Nothing is made up."""
    trade = resolved({}).trade

    assert (trade.offers, trade.activities, trade.expenses) == ({}, (), ())
