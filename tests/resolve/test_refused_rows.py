"""One run tells everything: what refused rows name in vain, and what depends on a refused row."""

import pytest

DIAL = "part|assembly|count|shape|length|width|diameter|made of|gauge|finish|section|contents\n"


def _cells(text):
    """Return where each refusal is, in order."""
    return [
        line.split(" ")[0].rstrip(":") for line in text.splitlines() if not line.startswith("    ")
    ]


IN_VAIN = [
    ("D1|dial|two|sheet|1 m|1 m||coper|18 SWG|piant||", ["C2", "H2", "J2"]),
    ("D1|dial|two|sheet|1 m|1 m||copper|18|||", ["C2", "I2"]),
    ("D1|dial|1|dics|||1 m|copper|18|||watr", ["D2", "I2", "L2"]),
    ("D1|dial|1|section|1||| stel|||SHS 61|", ["E2", "H2", "K2"]),
    ("D1|dial|x|section|1 m|||steel||piant|SHS 60x60x4|", ["C2", "J2"]),
]


@pytest.mark.parametrize(("row", "cells"), IN_VAIN)
def test_a_part_that_could_not_be_read_is_looked_up_all_the_same(resolved, said, row, cells):
    """The maker mends a row once, not a cell a run."""
    found = resolved({"parts": DIAL + row})

    assert _cells(said(found, "refused")) == [f"parts!{cell}" for cell in cells]
    assert found.columns.parts == ()
    assert (found.accounts["parts"].read, found.accounts["parts"].refused) == (1, 1)


NOT_SAID = [
    "D1|dial|1|sheet|1 m|1 m|7|copper||||",
    "D1|dial|0|sheet|1|1 m||coper||||",
    "D1|dial|1|bought|1||| bronze eagle||||",
    "D1|dial|1|box|1|1 m|| copper||||",
]


@pytest.mark.parametrize("row", NOT_SAID)
def test_nothing_is_said_of_what_may_come_right_by_itself(resolved, said, row):
    """A blank may be what was not read; a parked row is not looked at; a mass may be to come."""
    text = said(resolved({"parts": DIAL + row}))

    assert text.count("parts!") == 1
    assert "has no unit" in text


def test_a_build_up_that_only_a_refused_part_has_is_looked_up(resolved, said):
    """What is wrong on another sheet is told as well."""
    found = resolved({
        "parts": DIAL + "D1|dial|two|box|1 m|1 m||clad||||",
        "build-ups": "build-up|layer|material|over|amount\nclad|skin|coper|one face|18 SWG",
    })  # fmt: skip

    assert _cells(said(found, "refused")) == ["parts!C2", "parts!H2", "build-ups!C2"]


LAYER = "build-up|layer|material|over|amount|finish|covers\n"
LAYERS = [
    ("clad|skin|coper|one face|20|piant|", ["C2", "E2", "F2"]),
    ("clad|skin|copper|one face|GA 18|piant|x", ["E2", "F2", "G2"]),
    ("clad|skin|copper|one fase|18 SWG||", ["D2"]),
    ("clad|skin||one face|18 SWG||", ["C2"]),
    ("clad|skin|copper|solid|18 SWG||x", ["E2", "G2"]),
]


@pytest.mark.parametrize(("row", "cells"), LAYERS)
def test_a_layer_that_could_not_be_read_is_looked_up(resolved, said, row, cells):
    """Its material, finish and gauge, as far as there are any."""
    found = resolved({"build-ups": LAYER + row})

    assert _cells(said(found, "refused")) == [f"build-ups!{cell}" for cell in cells]


def test_a_build_up_without_one_of_its_layers_weighs_nothing(resolved, said):
    """A part is never weighed with the layers that happen to be readable."""
    layers = (
        "clad|skin|copper|one face|18 SWG||\nClad|felt|felt|one face|x||\nwhole|s|copper|solid|9 %"
    )
    row = "D{}|dial|1|box|1 m|1 m||{}||||\n".replace("1 m||", "1 m|1 m|")
    found = resolved({
        "parts": DIAL.replace("diameter", "depth") + row.format(1, "CLAD") + row.format(2, "whole"),
        "build-ups": LAYER + layers,
    })  # fmt: skip

    assert 'parts!H2 (D1): the row "clad" of build-ups cannot be used; mend that first' in (
        said(found, "refused").splitlines()
    )
    assert [part.key for part in found.columns.parts] == ["D2"]


def test_a_build_up_that_has_no_other_layer_is_still_a_build_up(resolved, said):
    """Its name is no unknown material, and is offered for a slip."""
    found = resolved({
        "parts": DIAL + "D1|dial|1|rod|1 m||9 mm|clad||||\nD2|dial|1|rod|1 m||9 mm|cladd||||",
        "build-ups": LAYER + "clad|skin|copper|one face|x||",
    })  # fmt: skip

    text = said(found, "refused")
    assert 'parts!H2 (D1): the row "clad" of build-ups cannot be used; mend that first' in text
    assert "type one of: clad (build-up), " in text


OTHERS = [
    (
        {"brackets": "bracket|set|across|up|reach|section|grade|holds\n"
                     "B1|m|0|0 mm|300 mm|SHS 61|stel|pin"},
        ["brackets!C2", "brackets!F2", "brackets!G2"],
    ),
    ({"stock": "material|form|size|price\ncoper|bar|6 m|x"}, ["stock!A2", "stock!D2"]),
    (
        {"stock": "material|form|gauge|size|price\ncopper|sheet|18|1 x 1 m|x"},
        ["stock!C2", "stock!E2"],
    ),
    (
        {"stock": "material|form|section|size|price|per\nsteel|bar|fancy 12|6 m|x|kg"},
        ["stock!C2", "stock!E2"],
    ),
    ({"stock": "material|form|size|price\n|bar|6 m|x"}, ["stock!A2", "stock!D2"]),
    ({"stock": "material|form|size|price\nsteel|bra|6 m|9"}, ["stock!B2"]),
    ({"hours": "activity|likely|rate\nbeating|x|bench"}, ["hours!B2", "hours!C2"]),
    ({"hours": "activity|likely|rate\nbeating|x|"}, ["hours!B2", "hours!C2"]),
    ({"moving": "assembly|drum\ndail|x"}, ["moving!A2", "moving!B2"]),
    ({"extra loads": "load|assembly|force\nsnow|dail|x"}, ["extra!B2", "extra!C2"]),
    (
        {"assemblies": "assembly|mounted on|same as|carried by|up\ndial||||\nvane|sky|moon|set|x"},
        ["assemblies!B3", "assemblies!C3", "assemblies!D3", "assemblies!E3"],
    ),
]  # fmt: skip


@pytest.mark.parametrize(("sheets", "cells"), OTHERS)
def test_other_rows_that_could_not_be_read_are_looked_up_too(resolved, said, sheets, cells):
    """Metals, sections, gauges, rates and assemblies."""
    text = said(resolved(sheets), "refused").replace("extra loads!", "extra!")

    assert _cells(text) == cells


VANE = {
    "assemblies": """
        assembly | moves | to   | mounted on | same as | carried by
        dial     |       |      |            |         | dial-set
        Vane     | truns | 90 m |            |         |
        hand     | turns |      | vane       | VANE    | vane
        """,
    "parts": """
        part | assembly | count | shape | diameter | made of | gauge
        D1   | dial     | 1     | disc  | 1 m      | copper  | 1.5 mm
        D2   | vane     | 1     | disc  | 1 m      | copper  | 1.5 mm
        D3   | vain     | 1     | disc  | 1 m      | copper  | 1.5 mm
        """,
    "moving": "assembly\nvane\ndial",
    "extra loads": "load|assembly|force\nladder|vane|1 kN\nsnow|vain|1 kN",
    "brackets": """
        bracket | set      | across | up   | reach  | section     | holds
        B1      | Dial set | 0 mm   | 0 mm | 300 mm | SHS 60x60x4 |
        """,
    "rates": "name|amount\nBench|x\nsite|40",
    "hours": "activity|likely|rate\nbeating|2|bench\nhanging|2|sight",
}


def test_what_depends_on_a_refused_row_says_no_more_than_that(resolved, said):
    """Its name is on its sheet, so nobody may say that it is not; the choices count it in."""
    vane = 'the row "Vane" of assemblies cannot be used; mend that first'

    lines = [line for line in said(resolved(VANE), "refused").splitlines() if line[0] != " "]
    assert [line for line in lines if "cannot be used" in line] == [
        'assemblies!F2 (dial): the row "B1" of brackets cannot be used; mend that first',
        f"assemblies!D4 (hand): {vane}",
        f"assemblies!E4 (hand): {vane}",
        f"assemblies!F4 (hand): {vane}",
        f"parts!B3 (D2): {vane}",
        f"moving!A2 (vane): {vane}",
        f"extra loads!B2 (ladder): {vane}",
        'hours!C2 (beating): the row "Bench" of rates cannot be used; mend that first',
    ]


def test_names_of_refused_rows_are_among_the_choices(resolved, said):
    """They may be what was meant."""
    text = said(resolved(VANE), "refused")

    assert [line.strip() for line in text.splitlines() if "type one of" in line] == [
        "type one of: Vane, dial, hand",
        "type one of: hand",
        "type one of: dial, hand, Vane",
        "type one of: site, Bench",
    ]


def test_a_mover_that_was_refused_is_among_the_movers(resolved, said):
    """Its row says that it turns."""
    mended = VANE["assemblies"].replace("truns", "turns").replace("90 m ", "x    ")
    text = said(resolved(VANE | {"assemblies": mended}), "refused")

    assert '"dial" is not an assembly that turns or slides' in text
    assert "    type one of: Vane, hand" in text.splitlines()


def test_a_sheet_with_only_refused_rows_is_still_a_sheet(resolved, said):
    """Its assemblies are not put at the datum behind the maker's back."""
    found = resolved({"assemblies": "assembly|moves\ndial|truns"})

    assert found.assemblies == ()
    assert 'parts!B2 (D1): the row "dial" of assemblies cannot be used; mend that first' in said(
        found, "refused"
    )


def test_an_assembly_of_refused_parts_is_no_stranger(resolved, said):
    """Without an assemblies sheet the parts are what names it."""
    found = resolved({
        "parts": DIAL + "D1|vane|two|rod|1 m||9 mm|copper||||\nD2|dial|1|rod|1 m||9 mm|copper||||",
        "extra loads": "load|assembly|force\nladder|vane|1 kN",
    })  # fmt: skip

    assert _cells(said(found, "refused")) == ["parts!C2", "extra"]
    assert 'ladder): the row "D1" of parts cannot be used; mend that first' in said(found)


def test_a_set_goes_before_an_assembly_of_its_name_even_when_refused(resolved, said):
    """Nothing is said to be carried by itself."""
    found = resolved({
        "assemblies": "assembly|carried by\ndial|dial",
        "brackets": "bracket|set|across|up|reach|section|holds\n|Dial|0 mm|0 mm|1 m|flat 50x6|pin",
    })  # fmt: skip

    assert "assemblies!B2 (dial): row 2 of brackets cannot be used; mend that first" in said(found)
    assert "circle" not in said(found)


TWO_SETS = """
    bracket | set | across | up   | reach  | section     | holds
    B1      | one | 0 mm   | 0 mm | 300 mm | SHS 60x60x4 | pin
    B2      | two | 0 mm   | 0 mm | 300 mm | SHS 60x60x4 |
    """


@pytest.mark.parametrize("assemblies", ["assembly", "assembly|carried by\ndial|"])
def test_a_refused_set_is_still_a_second_set(resolved, said, assemblies):
    """The other one does not become the only one by it."""
    found = resolved({"assemblies": assemblies, "brackets": TWO_SETS})

    assert found.assemblies[0].carried_by == "wall"
    assert "so no bracket takes" in said(found, "question")


@pytest.mark.parametrize("assemblies", ["assembly", "assembly|carried by\ndial|"])
def test_the_only_set_may_be_refused(resolved, said, assemblies):
    """The refusal of its bracket has been told; nothing is asked on top of it."""
    brackets = "\n".join(line for line in TWO_SETS.splitlines() if "one" not in line)
    found = resolved({"assemblies": assemblies, "brackets": brackets})

    assert found.assemblies[0].carried_by == "wall"
    assert "assemblies" not in said(found)
