"""Bracket rows: the arm, the wall plate and the fixings they make, and what cannot be one.

[SHS] EN 10219-2, as quoted: SHS 60x60x4 weighs 6.71 kg/m in steel of 7850 kg/m3.
[E]   EN 1993-1-1, 3.2.6, from memory: E = 210 000 N/mm2, G = 81 000 N/mm2.
"""

import math

import numpy as np
import pytest

from estimator.geometry.shapes import measure
from estimator.resolve.brackets import assumptions, resolve_brackets
from estimator.sheets.rows import Row

HEADINGS = (
    "bracket | set | across | up | reach | bears at | section | grade | holds | plate width "
    "| plate height | plate thickness | fixings across | fixings up | fixing diameter"
)
WHOLE = (
    "B1 | main | 250 mm | -1 m | 300 mm | 280 mm | SHS 60x60x4 | S275 | welded | 120 mm | 200 mm "
    "| 10 mm | 2 | 3 | 12 mm"
)
BARE = "B1 | main | 250 mm | -1 m | 300 mm | | SHS 60x60x4 | | pin | | | | | |"


def _sheets(*rows):
    return {"brackets": "\n".join([HEADINGS, *rows])}


def _own(found):
    return {part.key: part for part in found.columns.parts if part.cell.sheet == "brackets"}


def _mass_kg(found, part):
    """Return what all copies of one part weigh."""
    row = found.columns.parts.index(part)
    measures = measure(part.shape, found.columns.dims.taken([row]))
    return sum(
        float(measures.over(layer.over).size[0]) * layer.mass_per_size_kg * part.count
        for layer in part.layers
    )


def test_a_row_becomes_a_bracket(resolved):
    """Root on the wall face, metal by its grade: [E]."""
    (bracket,) = resolved(_sheets(WHOLE)).brackets

    assert (bracket.key, bracket.set_name, bracket.holds) == ("B1", "main", "welded")
    assert bracket.root_m == (0.25, -1.0, 0.0)
    assert (bracket.reach_m, bracket.bears_m) == (0.3, 0.28)
    assert bracket.section.key == "SHS 60x60x4"
    assert bracket.modulus_pa == pytest.approx((210e9, 81e9))
    assert str(bracket.cell) == "brackets!A2"


def test_blank_cells_have_stated_meanings(resolved):
    """The load bears at the end of the arm, which is of mild steel."""
    found = resolved(_sheets(BARE))
    (bracket,) = found.brackets

    assert bracket.bears_m == bracket.reach_m
    assert bracket.modulus_pa[0] == pytest.approx(210e9)
    assert list(_own(found)) == ["B1 arm"]
    assert _own(found)["B1 arm"].layers[0].material == "mild steel"


def test_a_bracket_makes_its_own_parts_with_their_mass(resolved):
    """An arm of [SHS] from plate to tip, a plate, and rods of twelve diameters (program default).

    The arm agrees with the printed mass to 0.1 %, as printed; the others follow from the density.
    """
    found = resolved(_sheets(WHOLE))
    own = _own(found)

    assert [(key, part.count, part.shape) for key, part in own.items()] == [
        ("B1 arm", 1, "section"), ("B1 wall plate", 1, "flat"), ("B1 fixings", 6, "rod")
    ]  # fmt: skip
    assert _mass_kg(found, own["B1 arm"]) == pytest.approx(6.71 * 0.29, rel=1e-3)
    assert _mass_kg(found, own["B1 wall plate"]) == pytest.approx(0.12 * 0.2 * 0.01 * 7850)
    assert _mass_kg(found, own["B1 fixings"]) == pytest.approx(
        6 * math.pi / 4 * 0.012**2 * 0.144 * 7850
    )


def test_its_parts_stand_on_the_wall_and_in_it(resolved):
    """Plate on the face, arm before it, fixings from its outer side inwards; none in the wind."""
    own = _own(resolved(_sheets(WHOLE)))

    assert own["B1 wall plate"].at_m == pytest.approx((0.25, -1.0, 0.005))
    assert own["B1 arm"].at_m == pytest.approx((0.25, -1.0, 0.155))
    assert own["B1 fixings"].at_m == pytest.approx((0.25, -1.0, 0.01 - 0.072))
    assert own["B1 arm"].pointing == own["B1 fixings"].pointing == ("out", "")
    assert not any(part.in_wind for part in own.values())


def test_its_parts_say_how_they_are_bought(resolved):
    """A bar by its section, a plate by its thickness, fixings as they come."""
    own = _own(resolved(_sheets(WHOLE)))

    assert (own["B1 arm"].layers[0].form, own["B1 arm"].layers[0].gauge) == ("bar", "SHS 60x60x4")
    plate = own["B1 wall plate"].layers[0]
    assert (plate.form, plate.gauge) == ("sheet", "10 mm")
    assert [part.get_by for part in own.values()] == ["make", "make", "buy"]


def test_a_plate_needs_no_fixings_and_fixings_need_a_diameter(resolved):
    """How many there are is not enough to weigh them."""
    some = WHOLE.replace("| 12 mm", "|")
    none = WHOLE.replace("2 | 3 | 12 mm", " | | 12 mm")

    assert list(_own(resolved(_sheets(some)))) == ["B1 arm", "B1 wall plate"]
    assert list(_own(resolved(_sheets(none)))) == ["B1 arm", "B1 wall plate"]


def test_each_set_makes_an_assembly_of_its_own_metal(resolved):
    """It is carried by the set, lifted by itself, and out of the wind."""
    second = BARE.replace("B1 | main", "B2 | top ")
    found = resolved(_sheets(WHOLE, second, BARE.replace("B1", "B3")))

    assert [(a.key, a.carried_by, a.lift_unit, a.wind) for a in found.assemblies[1:]] == [
        ("brackets main", "main", "brackets main", "none"),
        ("brackets top", "top", "brackets top", "none"),
    ]
    assert {part.assembly for part in _own(found).values()} == {"brackets main", "brackets top"}


@pytest.mark.parametrize(("typed", "first"), [
    ("Trial", "SHS 25x25x2"), ("trial HFRHS", "HFRHS 50x30x3.2"),
])  # fmt: skip
def test_a_trial_begins_with_the_lightest(resolved, typed, first):
    """What was typed is kept, for whoever picks the next."""
    (bracket,) = resolved(_sheets(WHOLE.replace("SHS 60x60x4", typed))).brackets

    assert (bracket.trial, bracket.section.key) == (typed, first)


def test_a_section_that_is_tried_now(library):
    """It takes the place of the lightest, in the arm as well."""
    cells = {"bracket": "B1", "set": "main", "across": 0.0, "up": 0.0, "reach": 0.3,
             "section": "trial SHS", "holds": "welded"}  # fmt: skip
    row = Row("brackets", 2, cells, dict.fromkeys(cells, "A"))
    (bracket,), parts, _, problems = resolve_brackets([row], [], library, {"B1": "SHS 50x50x4"})

    assert (bracket.section.key, parts[0].made_of) == ("SHS 50x50x4", "SHS 50x50x4")
    assert problems == []


def test_a_family_that_cannot_be_tried(resolved, said):
    """What may follow the word is told."""
    found = resolved(_sheets(WHOLE.replace("SHS 60x60x4", "trial girder")))

    assert said(found, "refused") == (
        'brackets!G2 (B1): "trial girder" names no family that can be tried\n'
        "    wanted: a section of the arm, such as SHS 60x60x4\n"
        "    type trial, or trial with a family: SHS, RHS, CHS, HFSHS (hot-finished), CFSHS, Flat, "
        "Round"
    )
    assert found.brackets == ()
    assert found.accounts["brackets"].refused == 1


MISSING = [
    ("reach", "E", "300 mm", "how far the arm reaches from the wall face"),
    ("section", "G", "SHS 60x60x4", "a section of the arm, such as SHS 60x60x4"),
    ("holds", "I", "welded", "one of: welded, pin, hook, slide, rests"),
    ("plate width", "J", "120 mm", "the size of the wall plate along the wall"),
    ("plate height", "K", "200 mm", "the size of the wall plate upwards"),
    ("plate thickness", "L", " 10 mm", "the thickness of the wall plate, less than the reach"),
]


@pytest.mark.parametrize(("heading", "column", "text", "wanted"), MISSING)
def test_a_bracket_needs_certain_cells(resolved, said, heading, column, text, wanted):
    """A wall plate needs all of its sizes once it has one."""
    found = resolved(_sheets(WHOLE.replace(text, "")))

    assert said(found, "refused") == (
        f'brackets!{column}2 (B1): "{heading}" is blank\n'
        f"    wanted: {wanted}\n"
        "    it decides what the bracket carries"
    )
    assert _own(found) == {}


def test_a_column_that_is_not_there_is_named(resolved, said):
    """There is no cell to open, so the row is shown."""
    found = resolved(
        {"brackets": "bracket|set|across|up|section|holds\nB1|m|0 m|0 m|flat 50x6|pin"}
    )

    assert said(found, "refused").splitlines()[0] == 'brackets!2 (B1): "reach" is blank'


def test_everything_that_is_missing_is_said_at_once(resolved, said):
    """One run shows every blank cell, and nothing more about them."""
    found = resolved(_sheets("B1 | main | 0 mm | 0 mm"))

    cells = [line.split(":")[0] for line in said(found, "refused").splitlines()[::3]]
    assert cells == ["brackets!E2 (B1)", "brackets!G2 (B1)", "brackets!I2 (B1)"]


WRONG = [
    (
        WHOLE.replace("SHS 60x60x4", "SHS 60x60x7x"),
        (
            'brackets!G2 (B1): "SHS 60x60x7x" is not in tables/sections.csv\n'
            "    wanted: a section of the arm, such as SHS 60x60x4\n"
            "    type one of: SHS 60x60x5 (8.13 kg/m), SHS 60x60x4 (6.71 kg/m), SHS 60x60x3 "
            "(5.19 kg/m)"
        ),
    ),
    (
        WHOLE.replace("S275", "stainless"),
        (
            'brackets!H2 (B1): "stainless" could mean 3 things\n'
            "    wanted: the grade of a metal, such as S275\n"
            "    type one of: stainless 304 (7900 kg/m3), stainless 316 (8000 kg/m3), "
            "stainless 2205 (7800 kg/m3)"
        ),
    ),
    (
        WHOLE.replace("S275", "softwood"),
        (
            "brackets!H2 (B1): tables/materials.csv has no modulus of elasticity for softwood\n"
            "    wanted: the grade of a metal, such as S275\n"
            "    type the grade of a metal"
        ),
    ),
    *(
        (
            WHOLE.replace("280 mm", bears),
            (
                "brackets!F2 (B1): there is no arm where the load bears\n"
                "    wanted: where the load bears on the arm: more than zero, no further than its "
                "reach\n"
                "    look at it and at the reach, both from the wall face; blank is the end of the "
                "arm"
            ),
        )
        for bears in ("0 mm", "-20 mm", "301 mm")
    ),
    (
        WHOLE.replace("| 10 mm", "| 300 mm"),
        (
            "brackets!L2 (B1): the wall plate is as thick as the arm is long\n"
            "    wanted: the thickness of the wall plate, less than the reach\n"
            "    look at both sizes"
        ),
    ),
]


@pytest.mark.parametrize(("row", "expected"), WRONG)
def test_what_cannot_be_a_bracket_is_refused(resolved, said, row, expected):
    """It makes no parts and carries nothing."""
    found = resolved(_sheets(row))

    assert said(found, "refused") == expected
    assert (found.brackets, _own(found)) == ((), {})
    assert [a.key for a in found.assemblies] == ["dial"]


def test_what_is_taken_for_granted_is_listed(resolved):
    """Fixings are only weighed; nothing here chooses them."""
    found = resolved(_sheets(BARE))

    assert [(a.what, a.value, a.why) for a in found.assumptions] == [
        (
            "fixings, for their mass only", "12 diameters of threaded rod",
            "type and length are for the engineer; nothing here chooses them",
        ),
    ]  # fmt: skip
    assert assumptions([]) == []


def test_a_set_is_spelled_as_in_its_first_row_that_can_be_used(resolved):
    """Brackets of one set belong together, however it is typed."""
    lost = BARE.replace("300 mm", "").replace("B1 | main", "B0 | MAIN")
    second = BARE.replace("B1 | main", "B2 | MAIN")
    found = resolved(_sheets(lost, BARE, second))

    assert [bracket.set_name for bracket in found.brackets] == ["main", "main"]
    assert [a.key for a in found.assemblies] == ["dial", "brackets main"]


STAYED = (
    "bracket | set | across | up | reach | section | holds | stay from | stay to | stay section\n"
    "B1 | main | 250 mm | -1 m | 1.2 m | SHS 60x60x4 | pin | {from_} | {to} | {section}"
)


def _stayed(from_="800 mm", to="1 m", section="round 12"):
    return {"brackets": STAYED.format(from_=from_, to=to, section=section)}


def test_a_stay_is_a_part_from_its_wall_point_to_the_arm(resolved):
    """800 up and 1000 out are 1281 mm, and its middle is half way: Pythagoras."""
    found = resolved(_stayed())
    (bracket,) = found.brackets
    part = _own(found)["B1 stay"]
    along = found.columns.rotation[found.columns.parts.index(part)]

    assert bracket.stay.length_m == pytest.approx(1.280625, abs=1e-6)
    assert part.dims[0] == pytest.approx(1.280625, abs=1e-6)
    assert part.at_m == pytest.approx((0.25, -0.6, 0.5))
    assert _mass_kg(found, part) == pytest.approx(
        1.280625 * math.pi / 4 * 0.012**2 * 7850, rel=1e-4
    )
    assert along[:, 0] * 1.280625 == pytest.approx(np.array([0.0, 0.8, -1.0]), abs=1e-6)


@pytest.mark.parametrize(
    ("section", "pulls_only"), [("round 12", True), ("flat 40x6", True), ("SHS 40x40x3", False)]
)
def test_a_rod_only_pulls(resolved, section, pulls_only):
    """Common practice, no source: a rod or a flat buckles before it pushes."""
    (bracket,) = resolved(_stayed(section=section)).brackets

    assert bracket.stay.pulls_only is pulls_only


def test_a_stay_meets_the_end_of_the_arm_unless_told_otherwise(resolved):
    """And may come from below, as a strut does."""
    (bracket,) = resolved(_stayed(from_="-500 mm", to="")).brackets

    assert (bracket.stay.from_m, bracket.stay.to_m) == (-0.5, 1.2)


BAD_STAYS = [
    ({"from_": ""}, 'brackets!H2 (B1): "stay from" is blank'),
    ({"section": ""}, 'brackets!J2 (B1): "stay section" is blank'),
    ({"section": "rope"}, 'brackets!J2 (B1): "rope" is not in tables/sections.csv'),
    ({"from_": "0 mm"}, "brackets!H2 (B1): a stay here would not hold the arm"),
    ({"to": "1.3 m"}, "brackets!I2 (B1): a stay here would not hold the arm"),
]


@pytest.mark.parametrize(("changed", "found_words"), BAD_STAYS)
def test_a_stay_that_cannot_be_is_refused(resolved, said, changed, found_words):
    """The bracket with it: its arm would carry another load without the stay."""
    found = resolved(_stayed(**changed))

    assert said(found, "refused").splitlines()[0] == found_words
    assert found.brackets == ()


def test_a_bracket_knows_its_plate_its_fixings_and_its_stage(resolved):
    """Places row by row from the bottom, from the middle of the plate."""
    headings = HEADINGS + " | pitch across | pitch up | stage"
    (bracket,) = resolved(
        {"brackets": "\n".join([headings, WHOLE + " | 80 mm | 70 mm | 1 ledge"])}
    ).brackets

    assert bracket.plate == (0.12, 0.2, 0.01)
    assert bracket.fixings.points_m == pytest.approx(
        np.array([(-40, -70), (40, -70), (-40, 0), (40, 0), (-40, 70), (40, 70)]) / 1000
    )
    assert (bracket.stage, bracket.grade, bracket.metal) == ("1 ledge", "S275", "mild steel")


def test_a_set_with_more_rests_than_can_be_tried_is_refused(resolved, said):
    """Each choice of those at work is tried, which doubles with each: six are the most."""
    rows = [BARE.replace("B1", f"B{n}").replace("pin", "rests") for n in range(1, 8)]
    found, fewer = resolved(_sheets(*rows)), resolved(_sheets(*rows[:6]))

    assert said(found, "refused").splitlines()[:3] == [
        "brackets!B2 (B1): 7 rests and stays of the set main work one way only",
        "    wanted: no more than 6 in one set, as each choice of them is tried",
        "    split the set, take stays as struts of tube, or say that some hold down: welded, pin",
    ]
    assert (len(found.brackets), found.accounts["brackets"].refused) == (0, 7)
    assert (len(fewer.brackets), said(fewer, "refused")) == (6, "")
