"""Patterns: what sheets and bars are cut from, how forming and joints change what they weigh."""

import math

import pytest

from estimator.files.shelf import Shelf
from estimator.reference.library import Library
from estimator.resolve.job import resolve
from estimator.resolve.patterns import patterned
from estimator.resolve.records import Kind


@pytest.fixture
def one(resolved):
    """Return a function that resolves one part, by its cells, and gives it with what was found."""

    def resolve_part(build_ups="", **cells):
        row = {"part": "P", "assembly": "a", "count": 1} | {
            name.replace("_", " "): value for name, value in cells.items()
        }
        lines = [" | ".join(map(str, row)), " | ".join(map(str, row.values()))]
        sheets = {"parts": "\n".join(lines)}
        if build_ups:
            sheets["build-ups"] = build_ups
        found = resolved(sheets)
        parts = [part for part in found.columns.parts if part.key == "P"]
        return (parts[0] if parts else None), found

    return resolve_part


SHEET = {"shape": "sheet", "length": "5 m", "width": "300 mm"}
LEAD = SHEET | {"made_of": "lead", "gauge": "Code 4"}
COPPER = {"made_of": "copper", "gauge": "1 mm"}
BALL = {"shape": "sphere", "diameter": "1 m", **COPPER}


def test_laps_between_lengths_of_lead_count(one):
    """5 m in four on a wall: three laps of 75 x 300 mm are 4.5 % of 1.5 m2."""
    part, _ = one(**LEAD, pieces=4)
    (layer,) = part.layers

    assert layer.pattern.seam.joint == "lead lap on a wall"
    assert layer.pattern.seam.slope_rad == pytest.approx(math.pi / 2)
    assert layer.laps == pytest.approx(3 * 0.075 * 0.3 / 1.5)
    assert layer.formed == 1.0
    assert not layer.pattern.laps_typed


SLOPES = [  # turn of the face about across from upright, joint, lap in mm
    ("0 deg", "lead lap on a wall", 75),
    ("-45 deg", "lead lap on a slope", 150),
    ("-75 deg", "lead lap on a low slope", 75 / math.sin(math.radians(15))),
    ("-90 deg", "lead roll", 237.5),  # middle of 200 to 275
    ("135 deg", "lead lap on a slope", 150),  # looks down, as steep
]


@pytest.mark.parametrize(("tip", "joint", "lap_mm"), SLOPES)
def test_the_slope_of_a_face_chooses_the_lap(one, tip, joint, lap_mm):
    """A sheet that faces the street is upright; tipped, it slopes as much less."""
    part, _ = one(**LEAD, pieces=4, tip=tip)
    seam = part.layers[0].pattern.seam

    assert seam.joint == joint
    assert 1000 * seam.allowance_m == pytest.approx(lap_mm)


def test_a_face_that_looks_up_lies_level(one):
    """Faces says so without an angle."""
    part, _ = one(**LEAD, pieces=2, faces="up")

    assert part.layers[0].pattern.seam.slope_rad == pytest.approx(0.0)


def test_the_joints_of_a_body_count_as_on_a_steep_slope(one):
    """Its faces lie at all slopes: 60 degrees is a default, and it is said that it is one."""
    part, _ = one(**(BALL | {"made_of": "lead", "gauge": "Code 4"}), pieces=8)
    seam = part.layers[0].pattern.seam

    assert math.isnan(seam.slope_rad)
    assert seam.joint == "lead lap on a slope"


def test_laps_beyond_all_practice_are_asked_about(one, said):
    """Eight gores 393 mm wide with 150 mm on each are 60 % more: 8 x pi/2 x 0.15 over pi m2.

    Nothing is asked where a joint takes less, or nothing of it stays.
    """
    ball = BALL | {"made_of": "lead", "gauge": "Code 4", "pieces": 8}
    _, wide = one(**ball)
    _, named = one(**(ball | {"diameter": "4 m"}), joint="lead welt")
    _, welded = one(**BALL, pieces=8)

    assert (
        "laps worked out for lead lap on a slope are 60 % of the skin, and count in its mass\n"
        "    name the joint it has, or type its laps in a build-up"
    ) in said(wide, "question")
    assert "laps worked out" not in said(named)
    assert "laps worked out" not in said(welded)


def test_a_joint_that_is_named_is_used(one):
    """Welts where laps are usual."""
    part, found = one(**LEAD, pieces=4, joint="lead welt")

    assert part.layers[0].pattern.seam.joint == "lead welt"
    assert not [p for p in found.problems if p.cell.sheet == "parts"]


def test_a_lap_on_a_face_that_is_nearly_level_is_that_of_eleven_degrees(one):
    """Named there, it would be endless by its rule."""
    part, _ = one(**LEAD, pieces=4, faces="up", joint="lead lap on a low slope")

    expected_m = 0.075 / math.sin(math.radians(11))
    assert part.layers[0].pattern.seam.allowance_m == pytest.approx(expected_m)


def test_butt_welds_take_a_trim_and_weigh_nothing(one):
    """A ball of copper in two halves: the blanks are larger by a millimetre, the skin is not."""
    part, _ = one(**BALL)
    (layer,) = part.layers
    blank, cut = layer.pattern.blank, layer.pattern.cut

    assert (layer.pattern.seam.joint, layer.pattern.seam.stays) == ("butt weld", False)
    assert layer.laps == 0.0
    assert cut.pieces[0].length_m == pytest.approx(blank.pieces[0].length_m + 0.001)


BUILD_UP = """
    build-up | layer | material | over     | amount | laps
    skin     | skin  | lead     | one face | Code 4 | {laps}
    """


def test_laps_that_are_typed_count_and_those_worked_out_stand_beside(one):
    """10 % as the build-up says; the joints come to 4.5 %, and take no sheet of their own."""
    part, _ = one(BUILD_UP.format(laps="10 %"), **SHEET, made_of="skin", pieces=4)
    (layer,) = part.layers

    assert (layer.laps, layer.pattern.laps_typed) == (0.1, True)
    assert layer.pattern.joint_share == pytest.approx(0.045)
    assert layer.pattern.cut.pieces[0].length_m == pytest.approx(1.25 * math.sqrt(1.1))
    assert not [spread for spread in layer.spreads if spread.kind is Kind.LAPS]


def test_laps_with_a_range_make_the_mass_less_sure(one):
    """A standing seam has none, a soldered lap of 6 to 12 mm has one: 9 mm is likely."""
    sure, _ = one(**SHEET, **COPPER, pieces=4, joint="standing seam")
    unsure, _ = one(**SHEET, **COPPER, pieces=4, joint="soldered lap")
    (spread,) = (s for s in unsure.layers[0].spreads if s.kind is Kind.LAPS)
    laps = 3 * 0.009 * 0.3 / 1.5

    assert not [s for s in sure.layers[0].spreads if s.kind is Kind.LAPS]
    assert unsure.layers[0].laps == pytest.approx(laps)
    assert spread.cause == "laps: brazed lap"
    assert spread.low == spread.high == pytest.approx(laps / 3 / (1 + laps))


def test_sunk_work_weighs_less_than_its_area(one):
    """0.9 of finished area x gauge, 0.85 to 0.95; the blank is smaller, and trimmed by 5.5 %."""
    part, _ = one(shape="dome", diameter="1 m", depth="300 mm", **COPPER, forming="sunk")
    (layer,) = part.layers
    (spread,) = (s for s in layer.spreads if s.kind is Kind.FORMING)
    area_m2 = math.pi * (0.5**2 + 0.3**2)

    assert layer.formed == pytest.approx(0.9)
    assert (spread.cause, spread.likely) == ("forming: sunk", 0.9)
    assert (spread.low, spread.high) == (pytest.approx(1 / 18), pytest.approx(1 / 18))
    assert layer.pattern.blank_m2 == pytest.approx(area_m2 * 0.9 * 1.055)
    assert layer.pattern.trim_m2 == pytest.approx(area_m2 * 0.9 * 0.055)
    diameter_m = math.sqrt(4 * area_m2 * 0.9 * 1.055 / math.pi)
    assert layer.pattern.cut.pieces[0].length_m == pytest.approx(diameter_m)


def test_relief_is_in_the_blank_and_not_counted_twice(one):
    """Finished area with relief x 0.9."""
    part, _ = one(**BALL, forming="sunk", relief=1.2)
    pattern = part.layers[0].pattern

    assert part.layers[0].formed == pytest.approx(0.9)
    assert pattern.finished_m2 == pytest.approx(1.2 * math.pi)
    assert pattern.blank_m2 - pattern.trim_m2 == pytest.approx(0.9 * 1.2 * math.pi)


def test_a_rolled_cylinder_is_as_heavy_as_its_middle_says(one):
    """100 mm outside in 5 mm: round the middle it is 95 % of the outside; thickness is kept."""
    tube = {"shape": "cone", "diameter": "100 mm", "end_diameter": "100 mm", "length": "1 m"}
    rolled, _ = one(**tube, made_of="copper", gauge="5 mm", forming="rolled")
    unsaid, _ = one(**tube, made_of="copper", gauge="5 mm")

    assert rolled.layers[0].formed == pytest.approx(0.95)
    assert unsaid.layers[0].formed == 1.0
    assert not [s for s in rolled.layers[0].spreads if s.kind is Kind.FORMING]


def test_gores_that_are_only_bent_make_a_larger_body(one):
    """Six of them: 10.3 % more skin, and so more mass."""
    part, _ = one(**BALL, pieces=6, forming="bent")

    assert part.layers[0].formed == pytest.approx(1.1027, abs=5e-5)


def test_a_way_of_forming_that_nobody_knows_is_asked_about(one, said):
    """It counts as not said; the part is still weighed."""
    part, found = one(**BALL, forming="hammered")

    assert part.layers[0].formed == 1.0
    assert part.layers[0].pattern.forming is None
    assert '"hammered" could mean 3 things, so it counts as not said' in said(found, "question")
    assert "type one of: raised (1 of finished area x gauge), sunk (0.9 of" in said(found)


def test_a_ball_that_is_rolled_in_one_is_asked_about(one, said):
    """Sheet bends round a cylinder or a cone; in gores it comes near a ball all the same."""
    _, whole = one(**BALL, forming="rolled")
    _, gored = one(**BALL, forming="rolled", pieces=8)
    _, raised = one(**BALL, forming="raised")

    assert (
        "this sphere is round both ways, and what is rolled is not\n"
        "    type how it is hammered or spun; a ball or a ring can also be bent in pieces"
    ) in said(whole, "question")
    assert "round both ways" not in said(gored) + said(raised)


def test_a_joint_that_nobody_knows_is_asked_about(one, said):
    """The usual one counts."""
    part, found = one(**LEAD, pieces=4, joint="glue")

    assert part.layers[0].pattern.seam.joint == "lead lap on a wall"
    assert '"glue" is not in tables/joints.csv, so it counts as not said' in said(found)


def test_lead_in_long_pieces_is_asked_about(one, said):
    """5 m in two are 2.575 m with a lap, where 1.5 m is the most."""
    _, found = one(**LEAD, pieces=2)
    text = said(found, "question")

    assert "lead in pieces of 2575 mm; they are to be 1500 mm at the most" in text
    assert "type 1500 mm under longest piece, or more pieces" in text


def test_the_longest_piece_is_kept_to(one, said):
    """5 m with none over 1.5 m, laps included, takes four, and nothing is asked."""
    part, found = one(**LEAD, longest_piece="1500 mm")
    cut = part.layers[0].pattern.cut

    assert cut.number == 4
    assert cut.longest_m == pytest.approx(1.325)
    assert "parts!" not in said(found)


def test_a_longest_piece_that_cannot_be_kept_to_is_asked_about(one, said):
    """A cone is cut in arcs, so that its slant of 2006 mm stays whole; a cylinder is not."""
    cone = {"shape": "cone", "length": "2 m", "diameter": "600 mm", "longest_piece": "800 mm"}
    _, tapered = one(**cone, **COPPER, end_diameter="300 mm")
    _, straight = one(**cone, **COPPER, end_diameter="600 mm")
    text = said(tapered, "question")

    assert "its pieces come out 2012 mm long all the same" in text  # with the bow of the arc
    assert "type a longer one; a ring or a cone is cut in arcs alone: make it two parts" in text
    assert "all the same" not in said(straight)


def test_a_part_in_crumbs_is_refused(one, said):
    """A millimetre for a metre is a slip of the keyboard, and would never be laid out."""
    part, found = one(**LEAD, longest_piece="1 mm")

    assert part is None
    assert "pieces so short would be 1500000 of them" in said(found, "refused")


def test_a_bar_in_crumbs_is_refused(one, said):
    """Of a bar as well."""
    part, found = one(shape="rod", length="11 m", diameter="20 mm", made_of="mild steel",
                      longest_piece="1 mm")  # fmt: skip

    assert part is None
    assert "pieces so short would be 11000 of them" in said(found, "refused")


def test_both_faces_are_two_skins(one):
    """Each in as many pieces as the part."""
    wing = """
        build-up | layer | material | over       | amount
        wing     | skins | copper   | both faces | 1 mm
        """
    part, _ = one(wing, **SHEET, made_of="wing", pieces=3)
    pattern = part.layers[0].pattern

    assert (pattern.copies, pattern.cut.number) == (2, 3)
    assert pattern.finished_m2 == pytest.approx(3.0)


UNLAID = [  # over, covers, shape cells, why
    ("one face", "55 %", SHEET, "it covers only a share of what it lies over"),
    ("whole outside", "100 %", {"shape": "cone", "length": "1 m", "diameter": "300 mm"},
     "it covers ends that are not laid out"),
]  # fmt: skip


@pytest.mark.parametrize(("over", "covers", "cells", "why"), UNLAID)
def test_what_is_not_laid_out_says_why(one, over, covers, cells, why):
    """Its area is ordered instead."""
    build_up = f"""
        build-up | layer | material | over   | amount | covers
        skin     | skin  | copper   | {over} | 1 mm   | {covers}
        """
    part, _ = one(build_up, **cells, made_of="skin", pieces=2)
    pattern = part.layers[0].pattern

    assert (pattern.blank.kind, pattern.blank.why) == ("area", f"not laid out: {why}")
    assert pattern.cut.number == 0


def test_a_box_is_clad_in_six_faces_or_one(one):
    """As its forming says."""
    build_up = """
        build-up | layer | material | over          | amount
        skin     | skin  | copper   | whole outside | 1 mm
        """
    box = {"shape": "box", "length": "1 m", "width": "400 mm", "depth": "200 mm"}
    faces, _ = one(build_up, **box, made_of="skin")
    net, _ = one(build_up, **box, made_of="skin", forming="folded")

    assert (faces.layers[0].pattern.blank.kind, faces.layers[0].pattern.copies) == ("faces", 1)
    assert net.layers[0].pattern.blank.kind == "net"
    assert net.layers[0].formed == 1.0


def test_wood_is_not_lapped(one):
    """A board in two has a joint, but the tables have none for it."""
    build_up = """
        build-up | layer | material | over     | amount
        board    | board | softwood | one face | 28 mm
        """
    part, _ = one(build_up, **SHEET, made_of="board", pieces=2)

    assert part.layers[0].laps == 0.0
    assert part.layers[0].pattern.seam.joint == ""


def test_new_patterns_replace_the_old(one, library):
    """Done twice, nothing is counted twice."""
    for cells in (LEAD | {"pieces": 4}, BALL | {"forming": "sunk"}):
        part, found = one(**cells)

        again, problems = patterned([part], found.chosen.of("parts"), library, {})

        assert again == [part]
        assert problems == []


def test_parts_of_a_bracket_have_patterns_as_well(resolved):
    """An arm and a plate of no row: as long, and as large, as they are. The plate takes 10 mm."""
    bracket = {
        "bracket": "B1", "set": "s", "across": "0 m", "up": "0 m", "reach": "0.3 m",
        "section": "SHS 60x60x4", "grade": "mild steel", "holds": "welded",
        "plate width": "200 mm", "plate height": "150 mm", "plate thickness": "10 mm",
    }  # fmt: skip
    found = resolved({"brackets": "\n".join((" | ".join(bracket), " | ".join(bracket.values())))})
    cuts = {
        part.shape: part.layers[0].pattern.cut.pieces[0]
        for part in found.columns.parts
        if part.key.startswith("B1") and part.layers[0].pattern
    }

    assert cuts["section"].length_m == pytest.approx(0.29)
    assert (cuts["flat"].length_m, cuts["flat"].width_m) == (0.2, 0.15)


def test_a_joint_of_a_makers_own_that_takes_nothing_known_is_asked_about(read, tmp_path, said):
    """Its allowance is not in the table: joints take nothing, and it is said."""
    mine = tmp_path / "mine"
    mine.mkdir()
    (mine / "joints.csv").write_text("key,allowance,source\nbutt weld,thin air,me\n")
    job = read(
        {
            "parts": """
        part | assembly | count | shape  | diameter | made of | gauge
        B    | a        | 1     | sphere | 1 m      | copper  | 1 mm
        """
        }
    )
    found = resolve(job, Library(mine), "", Shelf(job.folder))

    assert '"thin air" is not in tables/allowances.csv, so joints take nothing' in said(found)
    assert found.columns.parts[0].layers[0].pattern.seam.joint == ""
