"""Blanking: mass by blank beside mass by area, how thin a skin gets, and what is said of it."""

import math

import pytest

from estimator.stages.blanking import BY_AREA, BY_BLANK, lay_out

COPPER_KG_M2 = 8.93  # 1 mm at 8930 kg/m3: EN 1172, as quoted in our table of materials
DOME = {"part": "D", "shape": "dome", "diameter": "1 m", "depth": "300 mm", "made of": "copper",
        "gauge": "1 mm"}  # fmt: skip
DOME_M2 = math.pi * (0.5**2 + 0.3**2)
FLASHING = {"part": "F", "shape": "sheet", "length": "5 m", "width": "300 mm", "made of": "lead",
            "gauge": "Code 4", "pieces": 4}  # fmt: skip


@pytest.fixture(scope="module")
def blanked(steps):
    """Return a function that gives the sheets of parts."""

    def lay(*parts, **sheets):
        return lay_out(steps(upto="resolved", parts=parts, **sheets)["resolved"])

    return lay


def test_sunk_work_counts_by_its_blank(blanked):
    """0.9 of 1.068 m2 x 8.93 kg, two of them; 0.9 mm thick in the mean, 0.75 where it is thinnest.

    The thinning of sunk work is from memory, and is said to be in the table.
    """
    (one,) = blanked(DOME | {"forming": "sunk", "count": 2})

    assert one.by_area_kg == pytest.approx(2 * DOME_M2 * COPPER_KG_M2)
    assert one.by_blank_kg == pytest.approx(0.9 * 2 * DOME_M2 * COPPER_KG_M2)
    assert one.used == BY_BLANK
    assert (one.mean_m, one.thinnest_m) == (pytest.approx(0.0009), pytest.approx(0.00075))


def test_what_counts_is_what_is_weighed(steps):
    """The mass of the part is that of the blanks less trim when a forming is named."""
    for forming in ("sunk", "raised", "chased", "spun", "rolled", ""):
        found = steps(upto="weights", parts=[DOME | {"forming": forming, "relief": 1.1}])
        (one,) = lay_out(found["resolved"])
        counted_kg = one.by_blank_kg if forming else one.by_area_kg

        assert found["weights"].listed_kg == pytest.approx(counted_kg), forming


def test_a_skin_that_nobody_said_was_formed_counts_by_its_area(blanked):
    """As before; it is said, and how much hammering adds."""
    (one,) = blanked(DOME | {"relief": 1.08})

    assert one.used == BY_AREA
    assert one.by_area_kg == pytest.approx(1.08 * DOME_M2 * COPPER_KG_M2)
    assert one.mean_m == one.thinnest_m == 0.001
    assert one.notes == (
        "hammering adds skin, and no way of forming is named: finished area x gauge counts",
    )
    assert one.warning == ""


def test_a_skin_thinner_than_its_sheet_may_be_is_warned_of(blanked):
    """10 % under, where a typed thickness may be 10 % under as well, is not; 17.5 % under is."""
    (sunk,) = blanked(DOME | {"forming": "sunk", "gauge": "18 SWG"})
    (chased,) = blanked(DOME | {"forming": "chased", "gauge": "18 SWG"})
    off = next(s.low for s in chased.layer.spreads if s.cause.startswith("gauge"))

    assert (sunk.warning == "") == (off >= 0.1)
    assert chased.warning == (
        "its mean thickness is 1.01 mm, 18 % under the 1.22 mm of the sheet; the sheet itself may"
        f" be {100 * off:.0f} % under"
    )


def test_raised_work_is_not_warned_of(blanked):
    """Equal area is the mean thickness of the sheet."""
    (one,) = blanked(DOME | {"forming": "raised"})

    assert one.warning == ""
    assert one.by_blank_kg == pytest.approx(one.by_area_kg)


def test_laps_that_count_are_said(blanked):
    """4.5 % on a flashing in four; they are in both masses."""
    (one,) = blanked(FLASHING)

    assert one.notes == ("laps of 4.5 % count in its mass, since its build-up types none",)
    assert one.by_area_kg == pytest.approx(1.5 * 1.045 * 20.41, rel=1e-3)  # EN 12588, 20.41 kg/m2


def test_laps_that_are_typed_stand_beside_those_worked_out(blanked):
    """Which of the two counts is said; of a body also the slope its joints count as on."""
    skin = {"build-up": "u", "layer": "skin", "material": "lead", "over": "one face",
            "amount": "Code 4", "laps": "10 %"}  # fmt: skip
    ball = {"part": "B", "shape": "sphere", "diameter": "1 m", "made of": "u", "pieces": 8}
    (one,) = blanked(ball, build_ups=[skin])
    share = 100 * 8 * math.pi / 2 * 0.15 / math.pi

    assert one.notes == (
        f"its build-up types laps of 10 %, which count; worked out they come to {share:.1f} %",
        "its joints count as on a slope of 60 degrees",
    )


def test_pieces_beyond_those_asked_for_are_said(blanked):
    """5 m with none over 1.5 m takes four where one was asked for."""
    (one,) = blanked(FLASHING | {"pieces": 1, "longest piece": "1500 mm"})

    assert one.notes[0] == "in 4 pieces, for the longest piece that was asked for"


def test_joints_of_what_the_tables_do_not_join_are_said(blanked):
    """Nothing is added for them."""
    board = {"build-up": "u", "layer": "board", "material": "softwood", "over": "one face",
             "amount": "28 mm"}  # fmt: skip
    (one,) = blanked(FLASHING | {"made of": "u", "gauge": "", "pieces": 2}, build_ups=[board])

    assert one.notes == ("no joint of softwood is in the tables, so that nothing is added for it",)


def test_pieces_of_what_is_not_laid_out_are_said(blanked):
    """A ring of tube in two has a joint that nobody measures."""
    ring = {"part": "R", "shape": "torus", "diameter": "1 m", "end diameter": "100 mm",
            "made of": "copper", "gauge": "1 mm", "pieces": 2}  # fmt: skip
    (one,) = blanked(ring)

    assert one.notes == ("its 2 pieces are not laid out, so that no joint between them counts",)


def test_what_is_cut_away_is_off_both_masses(blanked):
    """A fifth of the outline is lost from the same blank."""
    (whole,), (pierced,) = (blanked(DOME | {"cut away": cut}) for cut in ("0 %", "20 %"))

    assert pierced.by_area_kg == pytest.approx(0.8 * whole.by_area_kg)
    assert pierced.pattern.blank_m2 == whole.pattern.blank_m2


def test_only_sheets_over_faces_are_listed(blanked):
    """Bars, cores and coats are cut from no blank."""
    rod = {"part": "R", "shape": "rod", "length": "1 m", "diameter": "20 mm",
           "made of": "mild steel"}  # fmt: skip

    assert [one.part.key for one in blanked(rod, DOME | {"finish": "oil gilt"})] == ["D"]
