"""Assemblies: what is mounted on what, what takes its load, how it moves, what it repeats."""

import math

import numpy as np
import pytest

from estimator.resolve.assemblies import MOST_TOGETHER
from estimator.stages.posing import MOST_STATES

PARTS = """
    part | assembly | count | shape | diameter | made of | gauge
    D1   | dial     | 1     | disc  | 1 m      | copper  | 1.5 mm
    D2   | dial     | 1     | disc  | 2 m      | copper  | 1.5 mm
    """
BRACKETS = """
    bracket | set   | across | up   | reach  | section     | holds
    B1      | upper | 0 mm   | 0 mm | 300 mm | SHS 60x60x4 | welded
    B2      | lower | 0 mm   | -1 m | 300 mm | SHS 60x60x4 | welded
    """
ONE_SET = "\n".join(BRACKETS.splitlines()[:3])


def _dialled(rows):
    return {"parts": PARTS, "assemblies": rows}


def _by_key(found):
    return {assembly.key: assembly for assembly in found.assemblies}


def test_without_the_sheet_each_name_is_an_assembly_at_the_datum(resolved, said):
    """A maker who thinks in the job's own coordinates needs no assemblies sheet."""
    found = resolved({"parts": PARTS.replace("D2   | dial", "D2   | hand")})

    assert [(a.key, a.origin_m, a.carried_by) for a in found.assemblies] == [
        ("dial", (0.0, 0.0, 0.0), "wall"),
        ("hand", (0.0, 0.0, 0.0), "wall"),
    ]
    assert said(found, "refused") == ""


def test_without_the_sheet_the_only_bracket_set_carries_everything(resolved):
    """There is no other that could."""
    found = resolved({"brackets": ONE_SET})

    assert _by_key(found)["dial"].carried_by == "upper"


def test_without_the_sheet_several_sets_are_asked_about(resolved, said):
    """A load that no bracket takes is never left unsaid."""
    found = resolved({"brackets": BRACKETS})

    assert _by_key(found)["dial"].carried_by == "wall"
    assert (
        "assemblies: nothing says which of upper, lower carries what, so no bracket takes any "
        "load\n"
        "    wanted: a row for each assembly\n"
        "    name its bracket set under carried by"
    ) in said(found, "question")


def test_an_assembly_keeps_what_its_row_says(resolved):
    """Origin in metres, and every choice as it was made."""
    found = resolved(_dialled("""
        assembly | across | up  | out  | stands       | wind  | coefficient | source   | lift unit
        dial     | 100 mm | 2 m | 1 in | flat to wall | parts | 1.8         | A. Smith | lift 1
        """))  # fmt: skip
    dial = _by_key(found)["dial"]

    assert dial.origin_m == pytest.approx((0.1, 2.0, 0.0254))
    assert (dial.stands, dial.wind, dial.lift_unit) == ("flat to wall", "parts", "lift 1")
    assert (dial.coefficient, dial.coefficient_source) == (1.8, "A. Smith")
    assert dial.cell.column == "A"


def test_blank_cells_have_stated_meanings(resolved):
    """Off the wall, fixed, lifted by itself, its outline in the wind, no coefficient given."""
    dial = _by_key(resolved(_dialled("assembly\ndial")))["dial"]

    assert (dial.carrier, dial.stands, dial.moves, dial.axis) == ("", "off wall", "fixed", "out")
    assert (dial.lift_unit, dial.wind, dial.positions) == ("dial", "outline", (0.0,))
    assert math.isnan(dial.coefficient)


def test_a_part_of_no_known_assembly_is_refused(resolved, said):
    """With an assemblies sheet a slip in a name would lose the part."""
    found = resolved(_dialled("assembly\nface\nhand"))

    assert (
        'parts!B2 (D1): "dial" is not on the assemblies sheet\n'
        "    wanted: an assembly of that sheet\n"
        "    type one of: face, hand"
    ) in said(found, "refused")
    assert found.accounts["parts"].refused == 2


def test_a_carrier_that_is_not_there_is_refused(resolved, said):
    """It is worked out as if it hung from the building, and the result is not complete."""
    found = resolved(_dialled("assembly | mounted on\ndial | \nhand | dail"))

    assert said(found, "refused") == (
        'assemblies!B3 (hand): "dail" is not an assembly of this workbook\n'
        "    wanted: a name from the assemblies sheet, or a blank for the building\n"
        "    type one of: dial"
    )
    assert _by_key(found)["hand"].carrier == ""
    assert not found.complete


def test_mounted_in_a_circle_is_said_once_and_broken(resolved, said):
    """The first of the ring hangs from the building, so that the rest can be worked out."""
    found = resolved(_dialled("""
        assembly | mounted on
        dial     |
        d        | a
        a        | c
        b        | a
        c        | b
        """))  # fmt: skip

    assert said(found, "refused") == (
        "assemblies!B4 (a): a is mounted on c is mounted on b is mounted on a: that goes round in "
        "a circle\n"
        "    wanted: a chain that ends at the building\n"
        "    leave the cell of the one that hangs from the building blank"
    )
    assert {a.key: a.carrier for a in found.assemblies} == {
        "dial": "", "a": "", "b": "a", "c": "b", "d": "a"
    }  # fmt: skip


def test_carried_in_a_circle_is_said_once_and_ends_at_the_wall(resolved, said):
    """Two assemblies that carry each other are carried by nothing."""
    found = resolved(_dialled("""
        assembly | carried by
        dial     | wall
        a        | b
        b        | a
        """))  # fmt: skip

    assert said(found, "refused").splitlines()[0] == (
        "assemblies!B3 (a): a is carried by b is carried by a: that goes round in a circle"
    )
    assert {a.carried_by for a in found.assemblies} == {"wall"}


CARRIED = """
    assembly | mounted on | carried by
    dial     |            | upper
    boss     | dial       |
    hand     | boss       |
    tail     | hand       | lower
    sign     |            | tail
    plaque   |            | WALL
    """


def test_a_load_is_handed_on_until_a_bracket_set_takes_it(resolved):
    """What is mounted on something is carried with it, unless its row says otherwise."""
    found = resolved(_dialled(CARRIED) | {"brackets": BRACKETS})

    assert {a.key: a.carried_by for a in found.assemblies} == {
        "dial": "upper", "boss": "upper", "hand": "upper", "tail": "lower", "sign": "lower",
        "plaque": "wall", "brackets upper": "upper", "brackets lower": "lower",
    }  # fmt: skip


def test_a_blank_carrier_means_the_only_set(resolved):
    """With one set there is nothing to ask."""
    found = resolved(_dialled("assembly\ndial") | {"brackets": ONE_SET})

    assert _by_key(found)["dial"].carried_by == "upper"


def test_a_blank_carrier_means_the_wall_where_there_is_no_bracket(resolved, said):
    """A job without brackets is fixed straight on."""
    found = resolved(_dialled("assembly\ndial"))

    assert _by_key(found)["dial"].carried_by == "wall"
    assert "bracket" not in said(found)


def test_a_blank_carrier_is_asked_about_where_there_are_several_sets(resolved, said):
    """Which brackets take it is for the maker to say."""
    found = resolved(_dialled("assembly | carried by\ndial |") | {"brackets": BRACKETS})

    assert (
        "assemblies!B2 (dial): nothing is said, so no bracket takes the load of this assembly\n"
        "    wanted: a bracket set, an assembly, or wall\n"
        "    type one of: upper, lower, wall"
    ) in said(found, "question")


def test_an_unknown_carrier_is_refused(resolved, said):
    """A slip in the name of a set must not send the load to the wall unseen."""
    found = resolved(_dialled("assembly | carried by\ndial | uper") | {"brackets": BRACKETS})

    assert said(found, "refused") == (
        'assemblies!B2 (dial): "uper" is neither a bracket set nor an assembly, so no bracket '
        "takes the load of this assembly\n"
        "    wanted: a bracket set, an assembly, or wall\n"
        "    type one of: upper, lower, wall"
    )


POSITIONS = [
    ("turns |        |        |  ", [i * 30 for i in range(12)]),
    ("turns |        |        | 4", [0, 90, 180, 270]),
    ("turns | 0 deg  | 90 deg |  ", [0, 22.5, 45, 67.5, 90]),
    ("turns | 90 deg | -90 deg| 3", [90, 0, -90]),
    ("turns |-180 deg| 180 deg| 2", [-180, 0]),
    ("turns | 10 deg | 20 deg | 1", [10]),
]


@pytest.mark.parametrize(("cells", "expected_deg"), POSITIONS)
def test_a_mover_is_worked_out_evenly_over_its_turn(resolved, cells, expected_deg):
    """Both ends count, but a full turn does not count its first position twice."""
    found = resolved(_dialled(f"assembly | moves | from | to | positions\ndial | {cells}"))

    assert np.degrees(_by_key(found)["dial"].positions) == pytest.approx(expected_deg)


def test_a_slide_is_worked_out_evenly_from_end_to_end(resolved):
    """It starts as drawn where no first end is given."""
    found = resolved(_dialled("assembly | moves | to\ndial | slides | 400 mm"))

    assert _by_key(found)["dial"].positions == pytest.approx((0.0, 0.1, 0.2, 0.3, 0.4))


def test_a_turn_does_not_end_at_a_length(resolved, said):
    """A length is no angle."""
    found = resolved(_dialled("assembly | moves | to\ndial | turns | 300 mm"))

    assert said(found, "refused") == (
        "assemblies!C2 (dial): 300 mm is no end position for something that turns\n"
        "    wanted: an angle such as 90 deg\n"
        "    type both ends with their unit"
    )
    assert _by_key(found)["dial"].positions == (0.0,)


def test_a_slide_needs_an_end(resolved, said):
    """Nothing stands in for how far it slides."""
    found = resolved(_dialled("assembly | moves | to\ndial | slides |"))

    assert said(found, "refused") == (
        "assemblies!C2 (dial): nothing is no end position for something that slides\n"
        "    wanted: a length such as 300 mm\n"
        "    type both ends with their unit"
    )


def test_an_assembly_repeats_the_parts_of_another(resolved):
    """Its own parts count as well."""
    found = resolved(_dialled("assembly | same as\ndial | \ntwin | dial") | {
        "parts": PARTS + "\n T1 | twin | 3 | disc | 0.2 m | lead | Code 5"
    })  # fmt: skip

    assert [(part.key, part.assembly) for part in found.columns.parts] == [
        ("D1", "dial"), ("D2", "dial"), ("T1", "twin"), ("D1 of twin", "twin"),
        ("D2 of twin", "twin"),
    ]  # fmt: skip
    assert not any(part.mirrored for part in found.columns.parts)


REPEATS = [
    ("dial | dial", "assemblies!B2 (dial): dial cannot repeat itself"),
    (
        "dial | \ntwin | dial\nthird | twin",
        "assemblies!B4 (third): third cannot repeat twin, which repeats dial",
    ),
]


@pytest.mark.parametrize(("rows", "found"), REPEATS)
def test_only_an_assembly_with_parts_of_its_own_is_repeated(resolved, said, rows, found):
    """A repeat of itself would count twice, a repeat of a repeat not at all."""
    job = resolved(_dialled(f"assembly | same as\n{rows}"))

    assert said(job, "refused") == (
        f"{found}\n    wanted: an assembly that repeats no other\n"
        "    name the assembly whose parts are on the parts sheet"
    )
    assert len({part.key for part in job.columns.parts}) == len(job.columns.parts)


def test_an_assembly_cannot_repeat_one_that_is_not_there(resolved, said):
    """A slip in the name would lose all its parts."""
    found = resolved(_dialled("assembly | same as\ndial | \ntwin | dail"))

    assert 'assemblies!B3 (twin): "dail" is not an assembly of this workbook' in said(found)


HOWEVER_TYPED = {
    "parts": PARTS.replace("D2   | dial", "D2   | DIAL").replace("D1   | dial", "D1   | dial "),
    "assemblies": """
        assembly   | mounted on | same as | carried by   | lift unit | moves
        Dial       |            |         | lower-set    | First     |
        Heron-vane | DIAL       |         |              | first     | turns
        twin       |            | dial    | heron VANE   |           |
        plaque     |            |         | WALL         | TWIN      |
        """,
    "brackets": BRACKETS.replace("upper |", "Lower Set |").replace("lower |", "LOWER-SET |"),
    "moving": "assembly | drum\nheron vane | 200 mm",
    "extra loads": "load | assembly | force\nsnow | HERON-VANE | 1 kN",
}


def test_names_are_one_however_they_are_typed(resolved, said):
    """Without case and hyphens, as materials are, and printed as in the first row."""
    found = resolved(HOWEVER_TYPED)

    assert said(found, "refused") == ""
    assert [(a.key, a.carrier, a.same_as, a.carried_by, a.lift_unit) for a in found.assemblies] == [
        ("Dial", "", "", "Lower Set", "First"),
        ("Heron-vane", "Dial", "", "Lower Set", "First"),
        ("twin", "", "Dial", "Lower Set", "twin"),
        ("plaque", "", "", "wall", "twin"),
        ("brackets Lower Set", "", "", "Lower Set", "brackets Lower Set"),
    ]
    assert {part.assembly for part in found.columns.parts} == {
        "Dial", "twin", "brackets Lower Set"
    }  # fmt: skip
    assert {bracket.set_name for bracket in found.brackets} == {"Lower Set"}
    assert list(found.drives) == [found.extra_loads[0].assembly] == ["Heron-vane"]


def test_without_the_sheet_the_first_part_spells_the_assembly(resolved):
    """Two spellings are one assembly."""
    found = resolved({"parts": PARTS.replace("D2   | dial", "D2   | DIAL")})

    assert [assembly.key for assembly in found.assemblies] == ["dial"]
    assert found.columns.assembly.tolist() == [0, 0]


def test_more_positions_than_anybody_reads_are_refused(resolved, said):
    """By the degree is fine; more is told at the cell and worked out as drawn."""
    head = "assembly | moves | positions\ndial | turns | "
    found = resolved(_dialled(head + "361"))

    assert said(found, "refused") == (
        "assemblies!C2 (dial): 361 positions of one mover are more than anybody could read\n"
        "    wanted: 360 at most\n"
        "    ask for fewer"
    )
    assert _by_key(found)["dial"].positions == (0.0,)
    assert len(_by_key(resolved(_dialled(head + "360")))["dial"].positions) == 360


ON_ONE_ANOTHER = """
    assembly | mounted on | moves  | positions | to
    dial     |            | turns  | 300       |
    arm      |            | turns  |           |
    bar      | arm        |        |           |
    hand     | bar        | turns  | 14        |
    tail     | hand       | slides | 3         | 1 m
    other    | arm        |        | 100       |
    """


def test_movers_on_movers_may_not_make_too_many_positions(resolved, said):
    """12 times 14 times 3 is 504; what stands beside them does not count."""
    found = resolved(_dialled(ON_ONE_ANOTHER))

    assert said(found, "refused") == (
        "assemblies!D5 (hand): arm, hand, tail stand on one another and make 504 positions "
        "together\n"
        "    wanted: 500 together at most\n"
        "    ask for fewer"
    )
    assert {a.key: len(a.positions) for a in found.assemblies} == {
        "dial": 300, "arm": 1, "bar": 1, "hand": 1, "tail": 1, "other": 1
    }  # fmt: skip


def test_as_many_positions_are_read_as_can_be_posed(resolved, said):
    """The limit here is the guard there, so that no job gets that far and stops."""
    found = resolved(_dialled(ON_ONE_ANOTHER.replace("| 14  ", "| 13  ")))

    assert said(found, "refused") == ""
    assert MOST_TOGETHER == MOST_STATES
