"""Joints: what each takes, which is usual where, and how long a piece may be."""

import math

import pytest

from estimator.reference.joints import find_joint, usual_joint

SHEET = [  # name, low mm, high mm, stays
    ("lead lap on a wall", 75, 75, True),
    ("lead lap", 150, 150, True),
    ("lead welt", 75, 75, True),
    ("butt weld", 0, 2, False),  # a millimetre of each edge
    ("soldered lap", 6, 12, True),
    ("rivets", 15, 18, True),  # 2.5 to 3 diameters of 3 mm on each side of the row
    ("standing seam", 70, 70, True),
]


@pytest.mark.parametrize(("name", "low_mm", "high_mm", "stays"), SHEET)
def test_what_a_joint_takes(library, name, low_mm, high_mm, stays):
    """From the table of allowances, whatever it is counted on there."""
    joint = find_joint(library, name)

    assert (1000 * joint.low_m, 1000 * joint.high_m) == pytest.approx((low_mm, high_mm))
    assert joint.stays is stays


def test_a_lap_on_a_low_slope_goes_by_the_slope(library):
    """It has no figure of its own."""
    joint = find_joint(library, "lead lap on a low slope")

    assert joint.by_slope
    assert math.isnan(joint.low_m)


USUAL = [  # family, slope in degrees, joint
    ("lead", 90, "lead lap on a wall"),
    ("lead", 80, "lead lap on a wall"),
    ("lead", 79, "lead lap on a slope"),
    ("lead", 30, "lead lap on a slope"),
    ("lead", 29, "lead lap on a low slope"),
    ("lead", 11, "lead lap on a low slope"),
    ("lead", 0, "lead roll"),
    ("copper", 0, "butt weld"),
    ("copper", 90, "butt weld"),
    ("stainless", 45, "butt weld"),
]


@pytest.mark.parametrize(("family", "slope_deg", "key"), USUAL)
def test_the_usual_joint(library, family, slope_deg, key):
    """By the material and the slope of the face, the ends of a range belonging to the steeper."""
    assert usual_joint(library, family, math.radians(slope_deg)).key == key


def test_wood_has_no_usual_joint(library):
    """Its boards are glued, which takes nothing that the tables know of."""
    assert usual_joint(library, "softwood", 1.0) is None


@pytest.mark.parametrize("family", ["lead", "copper"])
def test_there_is_one_usual_joint_at_every_slope(library, family):
    """Ranges of a family meet and do not overlap, from level to upright."""
    rows = [r for r in library.table("joints").rows if family in r.words("families")]
    pairs = ((row.si("usual_from_deg"), row.si("usual_to_deg")) for row in rows)
    ends = sorted(pair for pair in pairs if None not in pair)

    assert [low for low, _ in ends[1:]] == [high for _, high in ends[:-1]]
    assert (ends[0][0], ends[-1][1]) == pytest.approx((0.0, math.pi / 2))


def test_lead_is_not_joined_in_lengths_over_a_metre_and_a_half(library):
    """EN 12588 practice, as merchants have it; a copper seam is limited to its bay."""
    joint = find_joint(library, "lead lap on a wall")

    assert joint.longest_m == pytest.approx(1.5)
    assert joint.limit.startswith("lead flashing length, EN 12588")
    assert find_joint(library, "standing seam").longest_m == pytest.approx(1.8)
    assert find_joint(library, "butt weld").longest_m == math.inf


def test_every_joint_of_the_table_can_be_used(library):
    """Each names an allowance that is there, and says whether it stays."""
    for row in library.table("joints").rows:
        joint = find_joint(library, row.key)
        assert joint.by_slope or 0 <= joint.low_m <= joint.high_m, row.key
        assert row.text("stays") in ("lap", "trim"), row.key


@pytest.mark.parametrize("heading", ["allowance", "limit"])
def test_a_joint_of_a_makers_own_may_name_an_allowance_in_vain(makers, heading):
    """Then it is a miss like any other, with the table that was searched."""
    filled = {"allowance": "brazed lap"} | {heading: "thin air"}
    cells = ",".join(filled.values())
    own = makers(joints=f"key,{','.join(filled)},stays,source\nmine,{cells},lap,me\n")
    found = find_joint(own, "mine")

    assert found.sentence == '"thin air" is not in tables/allowances.csv'


def test_a_miss_says_what_stays_on(library):
    """So that the right one can be chosen."""
    assert find_joint(library, "single welts").choices[0] == "single welt (stays on)"
