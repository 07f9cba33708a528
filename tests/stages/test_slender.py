"""Slender parts: frequencies and winds of bars in small jobs, worked by hand."""

import math

import numpy as np
import pytest

from estimator.stages.slender import SHARE
from estimator.supports.cantilevers import even_frequency, tapered_frequency
from estimator.wind.en1991 import TERRAIN, Site, profile

STEEL_PA, STEEL_KG_M3 = 210e9, 7850.0
SITE = {"basic wind speed": "24 m/s", "datum height": "8 m", "building height": "12 m"}
ROD = {"part": "r", "shape": "rod", "length": "1 m", "diameter": "10 mm", "along": "up",
       "made of": "mild steel"}  # fmt: skip


@pytest.fixture(scope="module")
def shaken(steps):
    """Return a function that gives the slender parts of a job."""

    def shake(*parts, **sheets):
        return steps(upto="slender", parts=parts, **sheets)["slender"]

    return shake


def rod_hz(length_m=1.0, tip_kg=0.0, diameter_m=0.010):
    """Return the frequency of a steel rod, by its section in closed form."""
    mass_kg_m = STEEL_KG_M3 * math.pi / 4 * diameter_m**2
    stiffness_nm2 = STEEL_PA * math.pi / 64 * diameter_m**4
    return even_frequency(stiffness_nm2, mass_kg_m, length_m, tip_kg)


def test_a_steel_rod(shaken):
    """10 mm, 1 m: 0.5596 x 0.0025 x sqrt(210e9 / 7850) = 7.236 Hz; v = 0.01 x 7.236 / 0.18."""
    (found,) = shaken(ROD, job=SITE).found

    assert found.hz == pytest.approx((7.236, 7.236), rel=2e-4)
    assert found.alone_hz == found.hz
    assert (found.held, found.tip, found.length_m) == ("one end", "", 1.0)
    assert found.speeds.critical_m_s == pytest.approx((0.402, 0.402), rel=2e-3)
    assert found.speeds.scruton == pytest.approx(2 * 0.012 * 0.6165 / (1.25 * 1e-4), rel=1e-3)
    assert math.isnan(found.speeds.galloping_m_s)
    assert (found.speeds.sheds, found.speeds.gallops) == (True, False)


def test_the_mean_wind_is_that_at_the_height_of_the_part(shaken):
    """8 m of datum and 2 m above it: the mean of EN 1991-1-4 section 4 at 10 m."""
    (found,) = shaken(ROD | {"up": "2 m"}, job=SITE).found

    expected = profile(Site(24.0, TERRAIN["II"]), 10.0).mean_speed_m_s
    assert found.speeds.height_m == pytest.approx(10.0)
    assert found.speeds.mean_m_s == pytest.approx(expected)


def test_without_a_site_nobody_knows_whether_it_is_met(shaken):
    """A stated pressure has no mean wind; the speeds themselves stand."""
    stated = {"wind rule": "stated pressure", "stated pressure": "800 Pa"}
    (found,) = shaken(ROD, job=stated).found

    assert math.isnan(found.speeds.mean_m_s)
    assert (found.speeds.sheds, found.speeds.gallops) == (None, None)
    assert found.speeds.critical_m_s[0] > 0


def test_what_is_not_in_the_wind_shakes_but_is_not_blown(shaken):
    """A spine inside a hand has a frequency, and no vortices."""
    (found,) = shaken(ROD | {"in wind": "no"}, job=SITE).found

    assert found.speeds is None
    assert found.hz[0] == pytest.approx(rod_hz())


def test_the_band_of_the_modulus(shaken):
    """Copper has 117 to 130 GPa: the frequency goes with the root."""
    (found,) = shaken(ROD | {"made of": "copper"}).found

    assert found.modulus_pa == (117e9, 130e9)
    assert found.hz[1] / found.hz[0] == pytest.approx(math.sqrt(130 / 117))


def test_only_long_bars_count(shaken):
    """Ten times as long as wide is not yet slender, and a sheet is no bar."""
    short = ROD | {"length": "100 mm"}
    sheet = {"part": "s", "shape": "sheet", "length": "2 m", "width": "50 mm",
             "made of": "copper", "gauge": "1 mm"}  # fmt: skip

    assert shaken(short, sheet).found == ()


BALL = {"part": "b", "shape": "sphere", "diameter": "100 mm", "made of": "lead"}


@pytest.mark.parametrize("up", ["550 mm", "-550 mm"])
def test_a_ball_on_the_end_of_a_rod(shaken, up):
    """Its middle is 50 mm beyond either end, so it sits there: 5.94 kg of lead at the tip."""
    ball_kg = 11340 * math.pi / 6 * 0.1**3
    (found,) = shaken(ROD, BALL | {"up": up}).found

    assert (found.tip, found.tip_kg) == ("b", pytest.approx(ball_kg))
    assert found.hz[0] == pytest.approx(rod_hz(tip_kg=ball_kg))
    assert found.alone_hz[0] == pytest.approx(rod_hz())


def test_a_ball_at_the_middle_or_in_another_assembly_is_no_tip(shaken):
    """Only what sits at an end and belongs to the same assembly is counted."""
    parts = (ROD, BALL, BALL | {"part": "c", "assembly": "other", "up": "550 mm"})
    found = shaken(*parts, assemblies=[{"assembly": "a"}, {"assembly": "other"}]).found

    assert found[0].tip == ""
    assert found[0].hz == found[0].alone_hz


def test_a_long_thing_beside_it_is_no_tip(shaken):
    """A second rod is as long as the first: its middle is not at an end, and it is no lump."""
    found = shaken(ROD, ROD | {"part": "q", "across": "50 mm"}).found

    assert [one.tip for one in found] == ["", ""]


def test_two_rods_in_one_row_share_what_is_at_their_end(shaken):
    """Count 2 in one place: half the ball each."""
    ball_kg = 11340 * math.pi / 6 * 0.1**3
    (found,) = shaken(ROD | {"count": 2}, BALL | {"up": "550 mm"}).found

    assert found.tip_kg == pytest.approx(ball_kg / 2)
    assert found.mass_kg_m == pytest.approx(STEEL_KG_M3 * math.pi / 4 * 1e-4)


HAND = [{"assembly": "a", "moves": "turns", "axis": "out", "positions": 4}]


def test_the_spine_of_a_hand_is_held_at_its_axle(shaken):
    """1 m with its middle 0.2 m above the axle: 0.7 m of blade is slower than 0.3 m of tail."""
    (found,) = shaken(ROD | {"up": "200 mm"}, assemblies=HAND).found

    assert found.held == "the axle"
    assert found.length_m == pytest.approx(0.7)
    assert found.hz[0] == pytest.approx(rod_hz(0.7))


def test_a_heavy_tail_may_be_slower_than_the_blade(shaken):
    """What sits at the end of the shorter side counts there alone."""
    ball = BALL | {"up": "-330 mm", "diameter": "200 mm"}
    (found,) = shaken(ROD | {"up": "200 mm"}, ball, assemblies=HAND).found

    assert found.length_m == pytest.approx(0.3)
    assert found.tip == "b"
    assert found.hz[0] == pytest.approx(rod_hz(0.3, found.tip_kg))


@pytest.mark.parametrize("at", [{"up": "600 mm"}, {"across": "150 mm"}, {"along": "out"}])
def test_a_bar_of_a_mover_that_does_not_run_over_the_axle(shaken, at):
    """Beyond it, beside it or along it, it is held at an end."""
    (found,) = shaken(ROD | at, assemblies=HAND).found

    assert (found.held, found.length_m) == ("one end", 1.0)


def test_a_flat_swings_its_weaker_way(shaken):
    """40 x 8 mm: across 8 mm, five times as deep along the wind, so a_G is the cautious one."""
    flat = {"part": "f", "shape": "flat", "length": "1 m", "width": "40 mm", "depth": "8 mm",
            "made of": "mild steel"}  # fmt: skip
    (found,) = shaken(flat, job=SITE).found

    by_hand = even_frequency(STEEL_PA * 0.040 * 0.008**3 / 12, STEEL_KG_M3 * 0.04 * 0.008, 1.0)
    assert found.hz[0] == pytest.approx(by_hand)
    assert found.across_m == 0.008
    assert found.speeds.critical_m_s[0] == pytest.approx(0.008 * by_hand / 0.12)
    assert found.speeds.galloping_factor == 10.0
    assert found.speeds.gallops is True


def test_a_square_gallops_by_the_table(shaken):
    """As deep as wide: 1.2."""
    bar = {"part": "f", "shape": "flat", "length": "1 m", "width": "8 mm", "depth": "8 mm",
           "made of": "mild steel"}  # fmt: skip
    (found,) = shaken(bar, job=SITE).found

    assert found.speeds.galloping_factor == pytest.approx(1.2)


def test_a_section_of_the_tables(shaken):
    """UPN 100: I_z 29.3 cm4 and 10.6 kg/m as printed, across its 50 mm flange."""
    upn = {"part": "u", "shape": "section", "section": "UPN 100", "length": "3 m",
           "made of": "mild steel"}  # fmt: skip
    (found,) = shaken(upn, job=SITE).found

    assert found.hz[0] == pytest.approx(even_frequency(STEEL_PA * 29.3e-8, 10.6, 3.0), rel=5e-3)
    assert found.across_m == pytest.approx(0.050)
    assert found.speeds.galloping_factor == 10.0


def test_a_pointed_finial_of_sheet(shaken):
    """A copper cone 1 mm thick, 60 mm at its foot: I = pi r^3 t and m = 2 pi r t by the radius."""
    cone = {"part": "c", "shape": "cone", "length": "900 mm", "diameter": "60 mm",
            "made of": "copper", "gauge": "1 mm"}  # fmt: skip
    (found,) = shaken(cone).found

    r_m = np.linspace(0.030, 0.0, 401)
    mass_kg_m = 2 * math.pi * r_m * 0.001 * 8930
    by_hand = tapered_frequency(117e9 * math.pi * r_m**3 * 0.001, mass_kg_m, 0.9)
    assert found.hz[0] == pytest.approx(by_hand, rel=0.03)  # its wall is not quite thin
    assert found.speeds.width_m == pytest.approx(0.060 / 6)  # mean of the outer third


def test_a_ball_counts_at_the_thin_end_of_a_cone_alone(shaken):
    """The thick end is held."""
    cone = {"part": "c", "shape": "cone", "length": "900 mm", "diameter": "60 mm",
            "end diameter": "20 mm", "made of": "mild steel", "along": "up"}  # fmt: skip
    on_top, below = (shaken(cone, BALL | {"up": up}).found[0].tip for up in ("480 mm", "-480 mm"))

    assert (on_top, below) == ("b", "")


def test_a_bent_bar_is_taken_as_straight(shaken):
    """Its developed length counts, and with no taper it is an even rod."""
    scroll = {"part": "s", "shape": "formed", "length": "1 m", "width": "700 mm",
              "diameter": "10 mm", "made of": "mild steel"}  # fmt: skip
    found = shaken(scroll).found

    assert found == () or found[0].hz[0] == pytest.approx(rod_hz(), rel=1e-3)
    assert found


def test_a_bar_of_no_known_stiffness_is_told(shaken):
    """Nothing is said of its modulus, so nothing is said of its frequency."""
    rod = ROD | {"made of": "", "mass each": "2 kg"}

    assert shaken(rod).unknown == (("r", "no modulus of elasticity is known for as given"),)


def test_the_slowest_comes_first(shaken):
    """Whatever the order of the rows."""
    long = ROD | {"part": "z", "length": "2 m"}

    assert [one.part for one in shaken(ROD, long).found] == ["z", "r"]


BRACKETS = [
    {"bracket": key, "set": "s", "across": across, "up": "0 m", "reach": "300 mm",
     "section": "SHS 60x60x4", "grade": "mild steel", "holds": "welded"}
    for key, across in (("B1", "-1 m"), ("B2", "1 m"))
]  # fmt: skip


def test_the_arm_of_a_bracket_carries_its_share(shaken):
    """A sign of 50 kg on two arms: 25 kg each, 0.3 m from the wall."""
    sign = {"part": "p", "shape": "bought", "mass each": "50 kg"}
    found = shaken(sign, brackets=BRACKETS).found

    arm = found[0]
    assert [one.part for one in found] == ["B1 arm", "B2 arm"]
    assert (arm.tip, arm.tip_kg, arm.held) == (SHARE, pytest.approx(25.0), "the wall")
    assert arm.speeds is None
    # SHS 60x60x4, EN 10219-2: I 43.6 cm4 and 6.71 kg/m, from memory of printed section tables.
    by_hand = even_frequency(STEEL_PA * 43.6e-8, 6.71, 0.3, 25.0)
    assert arm.hz[0] == pytest.approx(by_hand, rel=0.01)


def test_the_fixings_of_brackets_are_not_slender_parts(shaken):
    """Twelve diameters long, they lie in the wall."""
    fixed = [row | {"plate width": "200 mm", "plate height": "200 mm", "plate thickness": "10 mm",
                    "fixings across": 2, "fixings up": 2, "fixing diameter": "12 mm"}
             for row in BRACKETS]  # fmt: skip
    sign = {"part": "p", "shape": "bought", "mass each": "50 kg"}

    assert {one.part for one in shaken(sign, brackets=fixed).found} == {"B1 arm", "B2 arm"}


def test_a_section_by_its_kilograms_a_metre_is_told(shaken):
    """Typed as a mass by the metre, nothing says how its metal lies."""
    bar = {"part": "u", "shape": "section", "section": "UPN 100", "length": "3 m",
           "made of": "mild steel", "kg per m": "11 kg/m"}  # fmt: skip

    assert shaken(bar).unknown == (("u", "its section is not in the tables"),)


def test_a_bar_without_mass_is_told(shaken):
    """All of it cut away: nothing to shake."""
    assert shaken(ROD | {"cut away": "100 %"}).unknown == (("r", "it has no mass"),)
