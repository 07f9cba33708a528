"""What parts weigh: sums by hand, laws, and how sure a mass is."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.geometry.bodies import inertia_from_second
from estimator.stages.weighing import weigh

STEEL_KG_M3 = 7850.0  # EN 1993-1-1, 3.2.6
COPPER_KG_M3 = 8930.0  # EN 1172, Table A, as quoted in our table of materials
SHEET = {"part": "P", "shape": "sheet", "length": "2 m", "width": "1 m", "made of": "copper",
         "gauge": "1 mm"}  # fmt: skip
BOX = {"part": "B", "shape": "box", "length": "1 m", "width": "500 mm", "depth": "200 mm",
       "made of": "mild steel"}  # fmt: skip


def point(key, mass_kg, **cells):
    """Return a part that weighs what it says and has no size."""
    return {"part": key, "shape": "bought", "mass each": f"{mass_kg!r} kg"} | cells


@pytest.fixture(scope="module")
def weights(steps):
    """Return a function that weighs parts, with build-ups if there are any."""

    def weigh_parts(*parts, **sheets):
        return steps(upto="weights", parts=parts, **sheets)["weights"]

    return weigh_parts


def test_skin_by_gauge_and_solid_by_density(weights):
    """A copper sheet of 2 m2 x 1 mm x 8930, and a steel box of 0.1 m3 x 7850."""
    found = weights(SHEET, BOX)

    assert found.parts.mass_kg == pytest.approx([2 * 0.001 * COPPER_KG_M3, 0.1 * STEEL_KG_M3])
    assert found.listed_kg == pytest.approx(17.86 + 785.0)


def test_count_multiplies(weights):
    """Seven boxes weigh seven times one."""
    assert weights(BOX | {"count": 7}).listed_kg == pytest.approx(7 * 785.0)


def test_relief_multiplies_skin_mass_and_not_the_outline(steps):
    """Hammered by 1.1 the sheet weighs 17.86 x 1.1 and covers its 2 m2 as before."""
    stated = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}
    found = steps(parts=[SHEET | {"relief": 1.1}], job=stated)

    assert found["weights"].listed_kg == pytest.approx(19.646)
    assert found["wind"].catches[0].seen.area_m2 == pytest.approx(2.0)


def test_cut_away_takes_mass_and_outline(steps):
    """With 45 % cut away 55 % of 17.86 kg and of 2 m2 are left."""
    stated = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}
    found = steps(parts=[SHEET | {"cut away": "45 %"}], job=stated)

    assert found["weights"].listed_kg == pytest.approx(0.55 * 17.86)
    assert found["wind"].catches[0].seen.area_m2 == pytest.approx(1.1)


def test_mass_each_is_the_mass_whatever_is_cut_away(weights):
    """What was put on a scale or quoted is not reduced once more."""
    assert weights(point("L", 4.0, **{"cut away": "50 %", "count": 3})).listed_kg == 12.0


LAYERS = [  # cells of the layer, mass on the 2 m2 sheet [kg], sum
    ({"over": "one face", "amount": "3 kg/m2"}, 6.0),
    ({"over": "both faces", "amount": "3 kg/m2"}, 12.0),
    ({"over": "one face", "amount": "3 kg/m2", "covers": "40 %"}, 2.4),
    ({"over": "one face", "amount": "3 kg/m2", "laps": "10 %"}, 6.6),
    ({"over": "one face", "amount": "3 kg/m2", "waste": "30 %"}, 6.0),
    ({"over": "one face", "amount": "3 kg/m2", "covers": "40 %", "laps": "10 %"}, 2.64),
    ({"over": "each", "amount": "5 kg"}, 5.0),
]


@pytest.mark.parametrize(("cells", "expected_kg"), LAYERS)
def test_laps_weigh_and_waste_does_not(weights, cells, expected_kg):
    """Area x amount x covers x (1 + laps): laps stay on, waste is only bought."""
    layer = {"build-up": "u", "layer": "l", "material": "lead"} | cells
    found = weights(SHEET | {"made of": "u", "gauge": ""}, build_ups=[layer])

    assert found.listed_kg == pytest.approx(expected_kg)


def test_a_share_of_the_solid(weights):
    """A hollow core: 30 % of 0.1 m3 of steel."""
    layer = {"build-up": "u", "layer": "core", "material": "mild steel", "over": "solid",
             "amount": "30 %"}  # fmt: skip
    found = weights(BOX | {"made of": "u"}, build_ups=[layer])

    assert found.listed_kg == pytest.approx(0.3 * 785.0)


def test_a_finish_covers_both_faces_and_swells_with_relief(weights):
    """Wax at 0.015 kg/m2 (from memory, as in the table of finishes) on 2 faces x 2 m2 x 1.1."""
    found = weights(SHEET | {"finish": "wax", "relief": 1.1})

    assert found.listed_kg == pytest.approx(1.1 * (17.86 + 0.015 * 4.0))


def test_centre_of_two_masses(weights):
    """3 kg at 0 and 1 kg at 4 m balance at 1 m."""
    found = weights(point("a", 3.0), point("b", 1.0, across="4 m"))

    assert found.assemblies.centre_m[0] == pytest.approx([1.0, 0.0, 0.0])


def test_inertia_of_two_masses(weights):
    """10 kg at 1 m to either side: 20 kg m2 about up and out, none about across."""
    found = weights(point("a", 10.0, across="1 m"), point("b", 10.0, across="-1 m"))

    inertia = inertia_from_second(found.assemblies.second_kgm2)[0]
    assert inertia == pytest.approx(np.diag([0.0, 20.0, 20.0]), abs=1e-12)


def test_inertia_of_a_box(weights):
    """About across m (w2 + d2) / 12 = 785 (0.25 + 0.04) / 12, and so on round."""
    inertia = inertia_from_second(weights(BOX).assemblies.second_kgm2)[0]

    by_hand = [785 * (0.25 + 0.04) / 12, 785 * (1 + 0.04) / 12, 785 * (1 + 0.25) / 12]
    assert inertia == pytest.approx(np.diag(by_hand), abs=1e-9)


def test_a_layer_that_the_shape_lacks_is_never_weighed(steps):
    """Resolving refuses it; were one to come through, it is said and not counted as nothing."""
    found = steps(upto="shapes", parts=[SHEET])
    part = found["columns"].parts[0]
    solid = replace(part, layers=(replace(part.layers[0], over="solid"),))
    columns = replace(found["columns"], parts=(solid,))

    with pytest.raises(ValueError, match="a sheet has no solid"):
        weigh(replace(found["resolved"], columns=columns), found["shapes"])


places = st.floats(-3.0, 3.0)
box = st.fixed_dictionaries(
    {
        "size": st.tuples(*[st.floats(0.05, 2.0)] * 3),
        "at": st.tuples(places, places, places),
        "turned": st.tuples(*[st.floats(-180.0, 180.0)] * 3),
        "count": st.integers(1, 5),
    }
)


def box_row(number, made):
    """Return the row of a box from what hypothesis made."""
    names = ("length", "width", "depth")
    sizes = {name: f"{size!r} m" for name, size in zip(names, made["size"], strict=True)}
    at = {name: f"{x!r} m" for name, x in zip(("across", "up", "out"), made["at"], strict=True)}
    angles = zip(("turn", "tip", "swing"), made["turned"], strict=True)
    return {"part": f"P{number}", "shape": "box", "made of": "mild steel", "count": made["count"],
            } | sizes | at | {name: f"{angle!r} deg" for name, angle in angles}  # fmt: skip


def assert_same(one, other):
    """Check that two jobs weigh, balance, swing and vary alike."""
    mass, centre, second = one.assemblies
    assert other.assemblies.mass_kg == pytest.approx(mass, rel=1e-9)
    assert other.assemblies.centre_m == pytest.approx(centre, rel=1e-9, abs=1e-9)
    scale = float(np.abs(second).max())
    assert other.assemblies.second_kgm2 == pytest.approx(second, rel=1e-9, abs=1e-9 * scale)
    for mine, theirs in zip(one.whole_band, other.whole_band, strict=True):
        assert theirs == pytest.approx(mine, rel=1e-9)


@given(made=st.lists(box, min_size=2, max_size=6), data=st.data())
def test_the_order_of_rows_changes_nothing(weights, made, data):
    """Mass, centre, inertia and range are the same with the rows in any order."""
    rows = [box_row(number, one) for number, one in enumerate(made)]
    shuffled = data.draw(st.permutations(rows))

    assert_same(weights(*rows), weights(*shuffled))


@given(made=box, share=st.integers(1, 4))
def test_splitting_the_count_changes_nothing(weights, made, share):
    """Five boxes in one row are one box in a row and four in another."""
    row = box_row(1, made) | {"count": 5}
    first, second = row | {"count": share}, row | {"part": "P2", "count": 5 - share}

    assert_same(weights(row), weights(first, second))


@given(made=box, share=st.floats(0.1, 0.9))
def test_splitting_a_box_across_changes_nothing(weights, made, share):
    """A box sawn through is two boxes, each with its middle where it was."""
    length_m = made["size"][0]
    row = box_row(1, made | {"turned": (0.0, 0.0, 0.0)})
    across_m = made["at"][0]
    left = row | {"length": f"{share * length_m!r} m",
                  "across": f"{across_m - (1 - share) * length_m / 2!r} m"}  # fmt: skip
    right = row | {"part": "P2", "length": f"{(1 - share) * length_m!r} m",
                   "across": f"{across_m + share * length_m / 2!r} m"}  # fmt: skip

    assert_same(weights(row), weights(left, right))


@given(scale=st.floats(0.2, 5.0))
def test_skins_grow_by_the_square_and_solids_by_the_cube(weights, scale):
    """All sizes s times as large at the same gauge: skin s2, solid s3."""
    sheet = SHEET | {"length": f"{2 * scale!r} m", "width": f"{scale!r} m"}
    large = BOX | {"length": f"{scale!r} m", "width": f"{0.5 * scale!r} m",
                   "depth": f"{0.2 * scale!r} m"}  # fmt: skip
    mass_kg = weights(sheet, large).parts.mass_kg

    assert mass_kg == pytest.approx([17.86 * scale**2, 785.0 * scale**3], rel=1e-9)


@given(
    count=st.integers(2, 13), spread_m=st.floats(0.2, 4.0), start_deg=st.floats(0.0, 360.0),
    off=st.tuples(*[st.floats(-60.0, 60.0)] * 3),
)  # fmt: skip
def test_a_ring_balances_on_its_axis(weights, count, spread_m, start_deg, off):
    """However its copies are turned, a ring of two or more has its middle on its axis."""
    turn, tip, swing = (f"{angle!r} deg" for angle in off)
    ring = {"count": count, "set out": "ring", "spread": f"{spread_m!r} m",
            "start": f"{start_deg!r} deg", "turn": turn, "tip": tip, "swing": swing}  # fmt: skip
    cone = {"part": "C", "shape": "cone", "length": "1 m", "diameter": "300 mm",
            "end diameter": "0 mm", "made of": "mild steel"} | ring  # fmt: skip
    body = weights(cone | {"across": "0.7 m", "up": "-0.2 m"}).assemblies

    assert body.centre_m[0, :2] == pytest.approx([0.7, -0.2], abs=1e-9)


def test_a_ring_is_its_copies_laid_by_hand(weights):
    """Three boxes on a ring of 2 m, each turned with its place, against three rows."""
    ring = BOX | {"count": 3, "set out": "ring", "spread": "2 m", "start": "0 deg"}
    copies = [
        BOX | {"part": f"B{n}", "turn": f"{120 * n} deg",
               "across": f"{math.cos(math.radians(120 * n))!r} m",
               "up": f"{math.sin(math.radians(120 * n))!r} m"}
        for n in range(3)
    ]  # fmt: skip

    assert_same(weights(ring), weights(*copies))


def test_what_shares_a_cause_errs_together(weights):
    """Two drawn things of 100 and 50 kg, 10 % each: 15 kg together, not 11.2."""
    band = weights(point("a", 100.0), point("b", 50.0)).whole_band

    assert band.low_kg == pytest.approx([135.0])
    assert band.high_kg == pytest.approx([165.0])
    assert band.straight_high_kg == pytest.approx([165.0])


def test_different_causes_add_as_squares(weights):
    """100 kg drawn +-10 and 50 kg guessed +-10: 14.1 kg together, 20 in a straight sum."""
    band = weights(point("a", 100.0), point("b", 50.0, confidence="guess")).whole_band

    assert band.low_kg == pytest.approx([150 - math.sqrt(200)])
    assert band.high_kg == pytest.approx([150 + math.sqrt(200)])
    assert band.straight_low_kg == pytest.approx([130.0])
    assert band.straight_high_kg == pytest.approx([170.0])


def test_a_material_errs_together_in_all_its_parts(weights):
    """Two copper sheets share density and gauge; their sizes are quoted and guessed.

    Density +-30 in 8930 (8900 to 8960 in the table of materials), a typed gauge +-5 % (program
    default) and sizes 5 % and 20 %: the first two act on both sheets at once.
    """
    quoted = SHEET | {"confidence": "quoted"}
    guessed = SHEET | {"part": "Q", "confidence": "guess"}
    band = weights(quoted, guessed).whole_band

    both_kg = 2 * 17.86
    causes_kg = [both_kg * 30 / 8930, both_kg * 0.05, 17.86 * 0.05, 17.86 * 0.20]
    assert band.high_kg == pytest.approx([both_kg + math.hypot(*causes_kg)])
    assert band.straight_high_kg == pytest.approx([both_kg + sum(causes_kg)])


def test_the_range_of_each_part_and_assembly(weights):
    """A weighed thing is known to 2 %; each assembly has the range of its own parts."""
    found = weights(
        point("a", 100.0, confidence="weighed"), point("b", 50.0, assembly="b", confidence="guess")
    )

    assert found.part_band.low_kg == pytest.approx([98.0, 40.0])
    assert found.assembly_band.high_kg == pytest.approx([102.0, 60.0])


def test_nothing_listed_weighs_nothing(weights):
    """A job without parts has a range of nothing."""
    band = weights().whole_band

    assert [float(values[0]) for values in band] == [0.0, 0.0, 0.0, 0.0]


def test_what_is_not_listed_is_a_share_of_its_own(weights):
    """5 % is kept apart; the listed mass stays what is listed."""
    found = weights(BOX, job={"not listed yet": "5 %"})

    assert found.listed_kg == pytest.approx(785.0)
    assert found.not_listed == pytest.approx(0.05)
