"""What parts are made of: names looked up, build-ups laid, and what cannot be said.

[LEAD] BS EN 12588:2006, rolled lead sheet, as listed on merchants' pages: Code 5 is 2.24 mm and
       25.40 kg/m2.
[SWG]  BS 3737, imperial standard wire gauge, as quoted: 18 SWG is 0.048 in = 1.219 mm.
[CU]   EN 1172: copper sheet at 8930 kg/m3, as quoted.
"""

import math

import pytest

from estimator.resolve.layers import Maker
from estimator.sheets.rows import Row

HEADINGS = (
    "part | assembly | shape | made of | gauge | finish | mass each | kg per m | length | width "
    "| depth | diameter | count | wall"
)
SIZES = {
    "sheet": "1 m | 1 m | | ",
    "disc": " | | | 1 m",
    "box": "1 m | 1 m | 1 m |",
    "rod": "1 m | | | 20 mm",
    "tube": "1 m | | | 60 mm",
    "hoop": " | 40 mm | 20 mm | 2 m",
    "run": "1 m | | |",
    "bought": "1 m | 1 m | 1 m |",
}


def _parts(*rows):
    """Return a parts sheet of (shape, made of, gauge, finish, mass each, kg per m)."""
    lines = []
    for number, row in enumerate(rows, start=1):
        shape, *cells = (*row, *[""] * (6 - len(row)))
        lines.append(f"T{number} | dial | {shape} | {' | '.join(cells)} | {SIZES[shape]} | 1 |")
    return {"parts": "\n".join([HEADINGS, *lines])}


def _layers(found):
    return [(x.name, x.material, x.over, x.mass_per_size_kg) for x in found.columns.parts[0].layers]


NOT_THERE = [
    (
        ("sheet", "coper", "1 mm"),
        (
            'parts!D2 (T1): "coper" is not in tables/materials.csv\n'
            "    wanted: a material of the tables\n"
            "    type one of: copper (8930 kg/m3), western red cedar (370 kg/m3)"
        ),
    ),
    (
        ("rod", "larc"),
        (
            'parts!D2 (T1): "larc" is not in tables/materials.csv\n'
            "    wanted: a material of the tables\n"
            "    type one of: larch European (590 kg/m3), larch Siberian (610 kg/m3), "
            "ice (917 kg/m3)"
        ),
    ),
    (
        ("rod", "xyzzy"),
        (
            'parts!D2 (T1): "xyzzy" is not in tables/materials.csv\n'
            "    wanted: a material of the tables\n"
            "    see `estimator tables materials`, or add a row in a folder of your own"
        ),
    ),
    (
        ("sheet", "stainless", "1 mm"),
        (
            'parts!D2 (T1): "stainless" could mean 3 things\n'
            "    wanted: a material of the tables\n"
            "    type one of: stainless 304 (7900 kg/m3), stainless 316 (8000 kg/m3), "
            "stainless 2205 (7800 kg/m3)"
        ),
    ),
    (
        ("sheet", "mild steel", "18"),
        (
            'parts!E2 (T1): "18" could mean 8 things\n'
            "    wanted: a gauge of the tables\n"
            "    type one of: 18 SWG (1.219 mm), 18 BWG (1.245 mm), 18 AWG (1.024 mm), 18 USSG "
            "(1.27 mm), 18 MSG (1.215 mm), 18 GSG (1.31 mm), 18 BG (1.26 mm), 18 US steel wire "
            "(1.206 mm)"
        ),
    ),
    (
        ("sheet", "lead", "Code 5.5"),
        (
            'parts!E2 (T1): "Code 5.5" is not in tables/gauges.csv\n'
            "    wanted: a gauge of the tables\n"
            "    type one of: Code 5 (2.24 mm), Code 6 (2.65 mm), Code 4 (1.8 mm)"
        ),
    ),
    (
        ("sheet", "copper", "thick"),
        (
            'parts!E2 (T1): "thick" is not in tables/gauges.csv\n'
            "    wanted: a gauge of the tables\n"
            "    see `estimator tables gauges`, or add a row in a folder of your own"
        ),
    ),
    (
        ("sheet", "copper", "1 mm", "oil gilt + wx"),
        (
            'parts!F2 (T1): "wx" is not in tables/finishes.csv\n'
            "    wanted: a finish of the tables\n"
            "    type one of: wax (0.015 kg/m2)"
        ),
    ),
    (
        ("sheet", "copper"),
        (
            "parts!E2 (T1): the sheet of copper has no gauge\n"
            "    wanted: a gauge with its system, or a thickness\n"
            "    type 18 SWG, Code 5 or 1.2 mm"
        ),
    ),
]


@pytest.mark.parametrize(("cells", "expected"), NOT_THERE)
def test_a_name_that_leads_nowhere_is_refused_with_what_is_near(resolved, said, cells, expected):
    """What was typed is quoted, and each choice shows the value that tells it from the others."""
    found = resolved(_parts(cells))

    assert said(found, "refused") == expected
    assert found.columns.parts == ()
    assert found.accounts["parts"].refused == 1


def test_a_name_that_leads_nowhere_is_told_in_every_row(resolved, said):
    """It is looked up once, but each cell has to be mended."""
    found = resolved(_parts(("rod", "xyzzy"), ("rod", "xyzzy")))

    cells = [line.split(":")[0] for line in said(found, "refused").splitlines()[::3]]
    assert cells == ["parts!D2 (T1)", "parts!D3 (T2)"]


GAUGES = [
    ("lead", "Code 5", 2.24e-3, 25.40, "Code 5 (2.24 mm, 25.4 kg/m2)"),
    ("lead", "5", 2.24e-3, 25.40, "Code 5 (2.24 mm, 25.4 kg/m2)"),
    ("copper", "18 SWG", 0.048 * 0.0254, 10.887, "18 SWG (1.219 mm, 10.89 kg/m2)"),
    ("copper", "1.2 mm", 1.2e-3, 10.716, "1.2 mm (1.2 mm, 10.72 kg/m2)"),
]


@pytest.mark.parametrize(("material", "gauge", "thickness_m", "kg_m2", "label"), GAUGES)
def test_a_gauge_makes_a_skin(resolved, material, gauge, thickness_m, kg_m2, label):
    """[LEAD] prints thickness and mass; [SWG] thickness, times [CU] to the printed four figures."""
    layer = resolved(_parts(("sheet", material, gauge))).columns.parts[0].layers[0]

    assert (layer.name, layer.material, layer.over, layer.form) == ("skin", material, "one face",
                                                                    "sheet")  # fmt: skip
    assert layer.thickness_m == pytest.approx(thickness_m, rel=1e-6)
    assert layer.mass_per_size_kg == pytest.approx(kg_m2, rel=1e-4)
    assert (layer.amount, layer.gauge) == (label, label)


def test_a_skin_varies_with_its_gauge_and_its_metal(resolved):
    """Two parts of one gauge share the causes, and so err together."""
    parts = resolved(_parts(("sheet", "copper", "18 SWG"), ("disc", "copper", "18 SWG")))
    one, other = (part.layers[0].spreads for part in parts.columns.parts)

    assert [spread.cause for spread in one] == [
        "density of copper", "gauge 18 SWG (1.219 mm, 10.89 kg/m2)"
    ]  # fmt: skip
    assert one == other
    density = one[0]
    assert (density.low, density.high) == pytest.approx((30 / 8930, 30 / 8930))


def test_what_has_no_published_band_has_no_spread(resolved):
    """Structural steel is taken as 7850 kg/m3 (EN 1991-1-1, as quoted), without a band."""
    layer = resolved(_parts(("rod", "mild steel"))).columns.parts[0].layers[0]

    assert layer.spreads == ()
    assert (layer.mass_per_size_kg, layer.form, layer.skin) == (7850.0, "bar", False)


def test_a_body_of_metal_without_a_gauge_is_asked_about(resolved, said):
    """A solid copper box is more often a slip than a wish."""
    found = resolved(_parts(("box", "copper")))

    assert (
        "parts!E2 (T1): no gauge is given, so it counts as solid copper\n"
        "    look whether that is what you mean"
    ) in said(found, "question")
    assert _layers(found) == [("solid", "copper", "solid", 8930.0)]


AS_LISTED = {"job": "item | value\ntimber moisture | 12 %"}
"""Timber as the table has it."""


def test_a_body_of_timber_without_a_gauge_is_solid(resolved, said):
    """Nobody beats oak over a former."""
    found = resolved(_parts(("box", "oak European")) | AS_LISTED)

    assert "box" not in said(found)
    assert _layers(found) == [("solid", "oak European", "solid", pytest.approx(700.0))]


def test_a_body_with_a_gauge_is_a_skin(resolved):
    """The gauge says that it is hollow."""
    assert _layers(resolved(_parts(("box", "copper", "1 mm")))) == [
        ("skin", "copper", "one face", pytest.approx(8.93))
    ]


@pytest.mark.parametrize(
    ("shape", "mass_each", "kg_per_m", "layer"),
    [
        ("bought", "2 kg", "", ("as given", "as given", "each", 2.0)),
        ("run", "", "0.5 kg/m", ("as given", "as given", "length", 0.5)),
        ("rod", "3 kg", "9 kg/m", ("as given", "as given", "each", 3.0)),
    ],
)
def test_a_typed_mass_goes_before_everything(resolved, shape, mass_each, kg_per_m, layer):
    """A mass each goes before a mass by the metre, and either before a material."""
    found = resolved(_parts((shape, "", "", "", mass_each, kg_per_m)))

    assert _layers(found) == [layer]
    assert found.columns.parts[0].layers[0].amount == (
        "0.5 kg/m as typed" if shape == "run" else f"{mass_each} as typed"
    )


def test_a_typed_mass_keeps_the_name_of_its_material(resolved):
    """The order list says what it is of."""
    found = resolved(_parts(("rod", "brass rod", "", "", "3 kg")))

    assert _layers(found) == [("as given", "brass rod", "each", 3.0)]


def test_a_finish_lies_over_the_whole_outside(resolved):
    """Each coat of a finish is a layer, at the mass the table has."""
    found = resolved(_parts(("sheet", "copper", "1 mm", "lacquer + wax")))

    assert _layers(found)[1:] == [
        ("finish", "lacquer", "whole outside", 0.03), ("finish", "wax", "whole outside", 0.015)
    ]  # fmt: skip
    assert [x.cause for x in found.columns.parts[0].layers[1].spreads] == ["mass of lacquer"]


def test_no_coat_adds_nothing(resolved):
    """A bare finish is no layer that weighs."""
    found = resolved(_parts(("sheet", "copper", "1 mm", "bare")))

    assert sum(layer[3] for layer in _layers(found)[1:]) == 0


def test_a_finish_on_what_has_no_known_skin_is_left_out(resolved):
    """What is bought comes painted."""
    found = resolved(_parts(("bought", "", "", "painted", "2 kg")))

    assert len(_layers(found)) == 1


@pytest.mark.parametrize(
    ("finish", "roughness_m"), [("polished", 2e-6), ("lacquer", math.nan), ("", math.nan)]
)
def test_a_finish_says_how_rough_it_is_to_the_wind(resolved, finish, roughness_m):
    """EN 1991-1-4, Table 7.13, as quoted: polished metal 0.002 mm; NaN where nothing is known."""
    part = resolved(_parts(("sheet", "copper", "1 mm", finish))).columns.parts[0]

    assert part.roughness_m == pytest.approx(roughness_m, nan_ok=True)


def test_a_build_up_says_how_rough_it_is(resolved):
    """Without a finish of its own a part has the roughest of its build-up's; its own goes first.

    EN 1991-1-4, Table 7.13: galvanised 0.2 mm, polished metal 0.002 mm, fine paint 0.006 mm.
    """
    sheets = {
        "parts": """
            part | assembly | count | shape | length | width | made of | finish
            P    | a        | 1     | sheet | 1 m    | 1 m   | B       |
            Q    | a        | 1     | sheet | 1 m    | 1 m   | B       | painted
            """,
        "build-ups": """
            build-up | layer | material   | over     | amount | finish
            B        | 1     | mild steel | one face | 1 mm   | galvanised
            B        | 2     | mild steel | one face | 1 mm   | polished
            B        | 3     | mild steel | one face | 1 mm   |
            """,
    }
    found = resolved(sheets).columns.parts

    assert [part.roughness_m for part in found] == pytest.approx([2e-4, 6e-6])


def test_the_wall_of_a_tube_may_be_given_as_a_gauge(resolved):
    """[SWG] 18 is 0.048 in."""
    part = resolved(_parts(("tube", "copper", "18 SWG"))).columns.parts[0]

    assert part.dims[7] == pytest.approx(0.048 * 0.0254, rel=1e-6)


def test_the_wall_of_a_tube_may_not_be_an_unknown_gauge(resolved, said):
    """It is told once, and the tube does not count."""
    found = resolved(_parts(("tube", "lead", "Code 55")))

    assert said(found, "refused").splitlines()[0] == (
        'parts!E2 (T1): "Code 55" is not in tables/gauges.csv'
    )
    assert found.columns.parts == ()


@pytest.mark.parametrize("cells", [("", "", "", "2 kg"), ("core", "", "", ""), ("lead",)])
def test_a_hoop_needs_no_wall(resolved, said, cells):
    """A flat bent to a ring may have its mass typed, or be of a build-up, or of a metal."""
    found = resolved(_parts(("hoop", *cells)) | {"build-ups": BUILD_UPS})

    assert said(found, "refused") == ""
    assert len(found.columns.parts) == 1


BUILD_UPS = """
    option | build-up | layer | material | over       | amount   | covers | laps | waste | finish
           | Skin     | lead  | lead     | one face   | Code 5   | 90 %   | 12 % | 8 %   | wax
    copper | skin     | cu    | copper   | both faces | 18 SWG   |        |      |       |
           | core     | ply   | softwood | solid      | 60 %     |        |      |       | painted
           | core     | felt  | felt     | whole outside | 0.3 kg/m2 |    |      |       |
           | core     | wire  | copper   | length     | 0.6 kg/m |        |      |       |
           | core     | eye   | lead     | each       | 2 kg     |        |      |       |
    """


def test_a_build_up_lays_its_layers_in_order(resolved):
    """A share of the solid, a mass by area, by length and by piece, and the coats on the first."""
    found = resolved(_parts(("box", "core")) | {"build-ups": BUILD_UPS} | AS_LISTED)

    assert _layers(found) == [
        ("ply", "softwood", "solid", pytest.approx(0.6 * 480)),
        ("finish", "alkyd paint system", "whole outside", 0.165),
        ("felt", "felt", "whole outside", 0.3),
        ("wire", "copper", "length", 0.6),
        ("eye", "lead", "each", 2.0),
    ]
    assert [layer.amount for layer in found.columns.parts[0].layers] == [
        "60 %", "0.165 kg/m2", "0.3 kg/m2", "0.6 kg/m", "2 kg"
    ]  # fmt: skip


def test_a_layer_keeps_what_it_covers_laps_and_wastes(resolved):
    """Its coats cover as much as it does, but are not lapped."""
    found = resolved(_parts(("sheet", "SKIN")) | {"build-ups": BUILD_UPS}, "")
    lead, wax = found.columns.parts[0].layers

    assert (lead.covers, lead.laps, lead.waste) == pytest.approx((0.9, 0.12, 0.08))
    assert (wax.name, wax.over, wax.covers, wax.laps) == ("finish", "one face", 0.9, 0.0)


def test_a_build_up_is_that_of_the_option(resolved):
    """The rows of an option are laid beside the rows of every option."""
    found = resolved(_parts(("sheet", "skin")) | {"build-ups": BUILD_UPS}, "copper")

    assert [layer[0] for layer in _layers(found)] == ["lead", "finish", "cu"]
    assert _layers(found)[2][2:] == ("both faces", pytest.approx(10.887, rel=1e-4))


def test_a_gauge_beside_a_build_up_is_asked_about(resolved, said):
    """Two thicknesses cannot both be meant."""
    found = resolved(_parts(("tube", "skin", "3 mm")) | {"build-ups": BUILD_UPS})

    assert (
        'parts!E2 (T1): the build-up "skin" says its own thickness\n'
        "    look whether that is what you mean"
    ) in said(found, "question")


def test_a_slip_in_the_name_of_a_build_up_is_offered_the_build_up(resolved, said):
    """Materials and build-ups share one pick list, and at most three are near."""
    found = resolved(_parts(("box", "corre")) | {"build-ups": BUILD_UPS})

    assert said(found, "refused").splitlines()[2].startswith("    type one of: core (build-up), ")
    assert said(found, "refused").splitlines()[2].count("(") == 3


def test_a_layer_is_not_offered_a_build_up(resolved, said):
    """A build-up is made of materials only, whatever a part could be made of."""
    rows = "build-up|layer|material|over|amount\ncopers|x|coper|one face|1 mm"
    found = resolved(_parts(("box", "coper"), ("box", "copers")) | {"build-ups": rows})

    offers = [line for line in said(found, "refused").splitlines() if "type one of" in line]
    assert offers == [
        "    type one of: copers (build-up), copper (8930 kg/m3), western red cedar (370 kg/m3)",
        "    type one of: copper (8930 kg/m3), western red cedar (370 kg/m3)",
    ]


def test_build_ups_do_not_make_a_name_more_ambiguous(resolved, said):
    """What stainless could mean has nothing to do with them."""
    named = BUILD_UPS.replace("core", "stainless core")
    found = resolved(_parts(("rod", "stainless")) | {"build-ups": named})

    assert '"stainless" could mean 3 things' in said(found, "refused")
    assert "build-up" not in said(found, "refused")


MISLAID = [
    ("1 mm", "solid", "%", ""),
    ("1 mm", "length", "kg/m", ""),
    ("18 SWG", "each", "kg", ""),
    ("60 %", "one face", "kg/m2", ", or a thickness"),
    ("2 kg", "both faces", "kg/m2", ", or a thickness"),
    ("0.3 kg/m2", "length", "kg/m", ""),
    ("0.6 kg/m", "whole outside", "kg/m2", ", or a thickness"),
]


@pytest.mark.parametrize(("amount", "over", "unit", "more"), MISLAID)
def test_an_amount_that_cannot_lie_there_is_refused(resolved, said, amount, over, unit, more):
    """A thickness does not fill a solid, nor a mass by the metre cover a face."""
    rows = f"build-up|layer|material|over|amount\ncore|x|copper|{over}|{amount}"
    found = resolved(_parts(("box", "core"), ("box", "core")) | {"build-ups": rows})

    assert (
        f'build-ups!E2 (core): "{amount}" cannot lie over {over}\n'
        f"    wanted: an amount in {unit}{more}\n"
        "    change the amount or what it lies over"
    ) in said(found, "refused")
    assert said(found).count("cannot lie over") == 1


@pytest.mark.parametrize(
    "row",
    [
        "core | x | coper | one face | 1 mm | ",
        "core | x | lead | one face | Code 55 | ",
        "core | x | lead | one face | Code 5 | piant",
        "core | x | lead | solid | Code 5 | ",
    ],
)
def test_a_part_of_a_build_up_with_a_bad_row_is_refused_too(resolved, said, row):
    """It could only be weighed in part, and the account says so."""
    good = "core | y | copper | one face | 1 mm |"
    rows = f"build-up|layer|material|over|amount|finish\n{good}\n{row}"
    found = resolved(_parts(("box", "core")) | {"build-ups": rows})

    assert ('parts!D2 (T1): the row "core" of build-ups cannot be used; mend that first\n') in said(
        found, "refused"
    )
    assert found.columns.parts == ()
    assert (found.accounts["parts"].refused, found.accounts["build-ups"].refused) == (1, 1)


@pytest.mark.parametrize(("over", "amount"), [("length", "0.6 kg/m"), ("each", "2 kg")])
def test_a_finish_over_something_without_an_area_is_asked_about(resolved, said, over, amount):
    """It cannot be weighed, and is not."""
    rows = f"build-up|layer|material|over|amount|finish\ncore|x|copper|{over}|{amount}|painted"
    found = resolved(_parts(("box", "core")) | {"build-ups": rows})

    assert (
        f"build-ups!F2 (core): the area under this finish over {over} is not known: no mass\n"
        "    look whether that is what you mean"
    ) in said(found, "question")
    assert len(_layers(found)) == 1


FILLED = (
    "part | assembly | count | shape | length | width | depth | diameter | wall | made of | gauge "
    "| contents"
)


def _filled(cells):
    return {"parts": f"{FILLED}\nT1 | dial | 1 | {cells}"}


FILLINGS = [("water", 1000.0, "100 % full"), ("water 62.5 %", 625.0, "62.5 % full")]


@pytest.mark.parametrize(("contents", "kg_m3", "amount"), FILLINGS)
def test_what_fills_a_part_is_a_layer_inside_it(resolved, contents, kg_m3, amount):
    """Water weighs 1000 kg/m3 (fresh, 4 C, as quoted of TEOS-10); a share fills that much of it."""
    found = resolved(_filled(f"box | 1 m | 1 m | 1 m | | | copper | 1 mm | {contents}"))

    assert _layers(found)[1:] == [("contents", "water", "inside", kg_m3)]
    assert found.columns.parts[0].layers[1].amount == f"{amount}, 1000 kg/m3"


WRONG_FILLINGS = [
    (
        "watr",
        (
            'parts!L2 (T1): "watr" is not in tables/materials.csv\n'
            "    wanted: a material of the tables\n"
            "    type one of: water (1000 kg/m3), sea water (1027 kg/m3)"
        ),
    ),
    ("water 150 %", "parts!L2 (T1): 150 % is more than full\n    wanted: 0 to 100 %"),
]


@pytest.mark.parametrize(("contents", "expected"), WRONG_FILLINGS)
def test_what_cannot_fill_a_part_is_refused(resolved, said, contents, expected):
    """The part does not count without it."""
    found = resolved(_filled(f"box | 1 m | 1 m | 1 m | | | copper | 1 mm | {contents}"))

    assert said(found, "refused") == expected
    assert found.columns.parts == ()


def test_what_has_no_inside_cannot_be_filled(resolved, said):
    """A rod is metal all through."""
    found = resolved(_filled("rod | 1 m | | | 50 mm | | copper | | water"))

    assert said(found, "refused") == (
        "parts!L2 (T1): contents need an inside, which the shape rod lacks\n"
        "    wanted: a shape that can be filled\n"
        "    mend the row; see `estimator tables shapes`"
    )


def test_a_solid_that_is_filled_as_well_is_asked_about(resolved, said):
    """Its own stuff and its contents would stand in the same place."""
    found = resolved(_filled("box | 1 m | 1 m | 1 m | | | softwood | | water"))

    assert (
        "parts!L2 (T1): it is solid, and filled as well\n    look whether that is what you mean"
    ) in said(found, "question")


def test_a_part_of_nothing_cannot_be_weighed(library):
    """Reading refuses such a row already; nobody else may slip one in."""
    maker = Maker(library, {})

    assert maker.layers_of(Row("parts", 2, {"part": "T1"}, {"made_of": "H"}), "rod") is None
    assert [str(problem) for problem in maker.problems] == [
        (
            "parts!H2 (T1): nothing says what it is made of or weighs\n"
            "    wanted: a material, a build-up, or a mass each\n"
            "    fill one of them"
        )
    ]


def test_a_layer_of_a_bare_gauge_is_offered_what_it_could_mean(resolved, said):
    """[SWG] 20 is 0.036 in = 0.9144 mm; the choices are those of a part's gauge."""
    rows = "build-up|layer|material|over|amount\nskin|x|copper|one face|20 gauge"
    found = resolved(_parts(("box", "skin"), ("box", "copper", "20 gauge")) | {"build-ups": rows})

    offers = [line for line in said(found, "refused").splitlines() if "type one of" in line]
    assert len(offers) == 2
    assert offers[0] == offers[1]
    assert offers[0].startswith("    type one of: 20 SWG (0.9144 mm), ")
