"""Wall plates and fixings against worked examples and an independent program.

[BHANDARI] V. B. Bhandari, Design of Machine Elements, Examples 7.4 to 7.8, pages 235 to 239; inputs
           and method from the Scilab textbook companion (FOSSEE/Scilab-TBC-Uploads on GitHub,
           764/CH7/EX7.4 to EX7.8), which prints the core areas.
[TOWER]    Calculation sheet for the base plate of a tower leg, scribd.com/document/381402416, pages
           116-118: a cubic with a wrong sign. Its inputs as printed, its answer put right.
[FOOTING]  eykaraduman/RectFootingBiaxialBending on GitHub, data/Test.txt: corner pressures under
           five loads by the formulas of Bellos and Bakas, Complete Analytical Solution for Linear
           Soil Pressure Distribution under Rigid Rectangular Spread Footings, International Journal
           of Geomechanics, 2017. Printed to four decimals of a tonne per square metre.
[DG1]      AISC Design Guide 1, 2nd edition, 2006, 3.4, large moment, uniform block of pressure;
           outline of the method at iec-ingenieria/documentacion on GitHub,
           docs/anclajes/large_moments.md; numbers of its example from memory, worked out again.
[BS 8539]  BS 8539:2012 Annex B.3, number and load of proof tests, as quoted on a fixings page.
"""

import numpy as np
import pytest

from estimator.supports.contact import WallPlate, contact
from estimator.supports.fixings import (
    PROOF_TESTS,
    centroid_pulls,
    edge_tilt_pulls,
    group_shear,
    proof_tests,
)


def test_three_bolts_in_a_line():
    """[BHANDARI 7.4] 5 kN at 305 mm from three bolts 75 mm apart: 5/3 + 5 x 305/150 kN at one end.

    The companion prints only the size that follows, M20.
    """
    points_m = np.array([(-0.075, 0), (0, 0), (0.075, 0)])

    shear_n = group_shear(points_m, [0, -5000, 0, 0, 0, -5000 * 0.305])

    assert shear_n[2] == pytest.approx([0, -5000 / 3 - 5000 * 305 / 150], rel=1e-12)
    assert shear_n[1] == pytest.approx([0, -5000 / 3], rel=1e-12)


# name, heights of the rows over the tilting edge [mm], bolts in a row, force [kN], arm [mm],
# pull per bolt of the far row [N]
TILTING = [
    ("7.5", (150, 25), 2, 25, 100, 8108.108),
    ("7.6", (550, 50), 2, 25, 500, 25e3 * 500 * 550 / (2 * (550**2 + 50**2))),
    ("7.7", (300, 200, 100), 2, 50, 250, 133.928571 * 100),
]


@pytest.mark.parametrize(("name", "heights_mm", "in_row", "force_kn", "arm_mm", "pull_n"), TILTING)
def test_edge_tilt(name, heights_mm, in_row, force_kn, arm_mm, pull_n):
    """[BHANDARI] A load along the wall tilts the plate about its edge."""
    half_m = (sum(heights_mm) / len(heights_mm)) / 1e3
    points_m = np.array([(a * 0.05, h / 1e3 - half_m) for h in heights_mm for a in range(in_row)])
    points_m[:, 0] -= points_m[:, 0].mean()

    pulls_n = edge_tilt_pulls(points_m, np.array([0.1, half_m]), [0, 0, 0, force_kn * arm_mm, 0, 0])

    assert pulls_n[:in_row] == pytest.approx(pull_n, rel=1e-7), name


def test_edge_tilt_with_shear_needs_the_printed_core():
    """[BHANDARI 7.5, 7.6] The printed core areas follow from pull and direct shear."""
    shear_n = np.linalg.norm(group_shear(np.eye(4)[:, :2], [0, -25e3, 0, 0, 0, 0]).mean(axis=0))
    pulls_n = np.array([8108.108, 25e3 * 500 * 550 / (2 * (550**2 + 50**2))])

    largest_shear_n = np.hypot(pulls_n[0] / 2, shear_n)
    largest_pull_n = pulls_n[1] / 2 + np.hypot(pulls_n[1] / 2, shear_n)

    assert largest_shear_n / (0.5 * 380 / 2.5) == pytest.approx(98.022213, rel=1e-6)
    assert largest_pull_n / 35 == pytest.approx(401.446244, rel=1e-8)


def test_pull_away_from_the_wall_and_tilt():
    """[BHANDARI 7.8] 20 kN off the wall, shared evenly, and 550 mm of tilt; core at 75 N/mm2."""
    points_m = np.array([(0, 0.2), (0, -0.2)])

    pulls_n = edge_tilt_pulls(points_m, np.array([0.1, 0.25]), [0, 0, 20e3, 20e3 * 0.55, 0, 0])

    assert pulls_n[0] / 75 == pytest.approx(455.284553, rel=1e-8)


SIDE_M, TO_ROW_M, ROW_M2, RATIO = 0.3, 0.086, 390.781748e-6, 10.0
PUSH, OFF_M = 1075, 1096875 / 1075 / 1e3
TO_EDGE_M = SIDE_M / 2 + TO_ROW_M


def by_the_cubic():
    """Return zone [m] and pull [kg] of [TOWER] by Y^3 + K1 Y^2 + K2 Y + K3 = 0, K1 = 3 (e - D/2).

    The sheet prints 3 (e + D/2), which the strains of its own plate contradict.
    """
    k1 = 3 * (OFF_M - SIDE_M / 2)
    k2 = 6 * RATIO * ROW_M2 * (TO_ROW_M + OFF_M) / SIDE_M
    roots = np.roots([1, k1, k2, -k2 * TO_EDGE_M])
    zone_m = float(roots[(np.abs(roots.imag) < 1e-12) & (roots.real > 0)].real.min())
    pull = PUSH * (OFF_M - SIDE_M / 2 + zone_m / 3) / (TO_EDGE_M - zone_m / 3)
    return zone_m, pull


def test_contact_agrees_with_the_cubic():
    """[TOWER] The solver, the row as two fixings: zone 72.566851 mm, 4540.028119 kg, 0.515848770.

    The peak is in kg/mm2. To the digits printed, and to ten against the cubic itself.
    """
    points_m = np.array([(-0.1, TO_ROW_M), (0.1, TO_ROW_M)])
    plate = WallPlate(SIDE_M, SIDE_M, points_m, ROW_M2 / 2)

    found = contact(plate, [0, 0, -PUSH, PUSH * OFF_M, 0, 0], RATIO)

    zone_m, pull = by_the_cubic()
    assert zone_m * 1e3 == pytest.approx(72.566851, rel=1e-8)
    assert found.pull_n.sum() == pytest.approx(4540.028119, rel=1e-9)
    assert found.pull_n == pytest.approx([pull / 2] * 2, rel=1e-10)
    assert found.peak_pa / 1e6 == pytest.approx(0.515848770, rel=1e-8)


def test_wrong_sign_is_not_followed():
    """[TOWER] prints 4469 kg; the strains of its zone of 64.417 mm contradict its own forces."""
    printed_m, printed_kg = 0.064417, 4469
    peak = 2 * (printed_kg + PUSH) / (SIDE_M * printed_m)

    strains = printed_kg / (RATIO * ROW_M2) / peak

    assert strains == pytest.approx(1.993, abs=0.01)
    assert (TO_EDGE_M - printed_m) / printed_m == pytest.approx(2.664, abs=0.001)
    assert abs(by_the_cubic()[1] - printed_kg) > 70


HEIGHTS_M = np.array([-0.1125, -0.0375, 0.0375, 0.1125])
PATTERN_M = np.array([(a, u) for u in HEIGHTS_M for a in (-0.05, 0.05)])
THREE_WAYS = [
    ("tilts about its edge", (2446.483, 5504.587, 8562.691, 11620.795)),
    ("contact", (0, 3208.643, 9484.676, 15760.708)),
    ("turns about the bolts", (-24000, -8000, 8000, 24000)),
]


@pytest.mark.parametrize(("name", "rows_n"), THREE_WAYS)
def test_three_places_of_the_neutral_axis(name, rows_n):
    """Three rules on one plate, 160 x 345 mm, 12 kNm, 8 fixings of 157 mm2, n = 7.

    The edge-tilt rule reads least, and is not to stand alone: 11.6 where contact has 15.8 kN.
    """
    plate = WallPlate(0.16, 0.345, PATTERN_M, 157e-6)
    action = [0, 0, 0, 12000, 0, 0]
    pulls_n = {
        "tilts about its edge": lambda: edge_tilt_pulls(PATTERN_M, plate.half_m, action),
        "contact": lambda: contact(plate, action, 7).pull_n,
        "turns about the bolts": lambda: centroid_pulls(PATTERN_M, action),
    }[name]()

    for row, wanted_n in enumerate(rows_n):
        assert pulls_n[2 * row : 2 * row + 2] == pytest.approx(wanted_n, abs=6e-4), name


def test_fixed_neutral_axis_lies_between():
    """A practice with a fixed axis at h/7, from memory: 13463.500 N at the top.

    Pulls go by their distance from that axis, and the pressure acts a third of it from the edge.
    """
    heights_m = PATTERN_M[:, 1] + 0.345 / 2 - 0.345 / 7
    above_m = heights_m[heights_m > 0]
    pulls_n = 12000 * above_m / (above_m @ (above_m + 2 / 3 * 0.345 / 7))
    plate, action = WallPlate(0.16, 0.345, PATTERN_M, 157e-6), [0, 0, 0, 12000, 0, 0]

    assert pulls_n.max() == pytest.approx(13463.500, abs=6e-4)
    assert edge_tilt_pulls(PATTERN_M, plate.half_m, action).max() < pulls_n.max()
    assert contact(plate, action, 7).pull_n.max() > pulls_n.max()


def test_uniform_block_of_pressure():
    """[DG1] 376 kip, 3600 kip in, 20 x 20 in, bolts 8.5 in off the middle: 181.187 kip.

    The block, 12.606 in of it, is pressed evenly at 2.21 ksi. Whatever the pressure, statics ties
    the pull to where it acts. Elastic pressure on the softest wall ends at the bolts, 18.5 in from
    its edge, and acts a third of that from there: a pull of 175.0 kip, less on any harder wall.
    """
    push, moment, half, bolts = 376.0, 3600.0, 10.0, 8.5
    line_load, off = 2.21 * 20, moment / push
    block = bolts + half - np.sqrt((bolts + half) ** 2 - 2 * push * (off + bolts) / line_load)
    plate = WallPlate(20.0, 20.0, np.array([(-7.0, bolts), (7.0, bolts)]), 1.0)

    def by_statics(from_edge):
        return (moment - push * (half - from_edge)) / (bolts + half - from_edge)

    found = [contact(plate, [0, 0, -push, moment, 0, 0], n) for n in (1, 7, 30, 1e7)]
    pulls = [float(one.pull_n.sum()) for one in found]

    assert block == pytest.approx(12.606047, rel=1e-7)
    assert by_statics(block / 2) == pytest.approx(181.187256, rel=1e-7)
    for one, pull in zip(found, pulls, strict=True):
        assert pull == pytest.approx(by_statics(half + one.pressed_at_m[1]), rel=1e-9)
    assert pulls == sorted(pulls)
    assert pulls[-1] == pytest.approx(by_statics((bolts + half) / 3), rel=1e-3)


# load [t], Mx, My [tm], pressures at (x, y) = (+, +), (-, +), (-, -), (+, -) corners [t/m2]
FOOTINGS = [
    (553.04, -203.67, 51.51, (8.7797, 6.9215, 14.5627, 16.4209)),
    (595.75, -729.94, 51.51, (0.0, 0.0, 25.3563, 27.3029)),
    (476.80, -282.20, 11.05, (4.9678, 4.5692, 15.1567, 15.5553)),
    (521.71, -878.72, 8.71, (0.0, 0.0, 29.0960, 29.5142)),
    (420.30, -350.69, -46.60, (1.4508, 3.1319, 16.2890, 14.6079)),
]


@pytest.mark.parametrize(("load_t", "mx_tm", "my_tm", "corners_t_m2"), FOOTINGS)
def test_footing_off_its_middle_both_ways(load_t, mx_tm, my_tm, corners_t_m2):
    """[FOOTING] 7.02 x 6.75 m without fixings; half the last printed digit."""
    plate = WallPlate(7.02, 6.75, np.zeros((0, 2)), 0.0)
    # The load pushes: off to the right it turns the plate the positive way about up.
    found = contact(plate, [0, 0, -load_t, -mx_tm, my_tm, 0])

    corners = np.array([(1, 1), (-1, 1), (-1, -1), (1, -1)]) * plate.half_m
    pressures = np.maximum(-(found.plane_pa[0] + corners @ found.plane_pa[1:]), 0.0)
    assert pressures == pytest.approx(corners_t_m2, abs=6e-5)


PROOFS = [
    ((60, 30), 0.025, 1.5, [3, 3]),
    ((60, 30), 0.05, 1.25, [3, 3]),
    ((200, 8), 0.025, 1.5, [5, 3]),
    ((121,), 0.025, 1.5, [4]),
]


@pytest.mark.parametrize(("areas", "share", "times", "wanted"), PROOFS)
def test_number_of_proof_tests(areas, share, times, wanted):
    """[BS 8539] 2.5 % at 1.5 times or 5 % at 1.25 times, three in each area at the least."""
    test = next(test for test in PROOF_TESTS if test.share == share)

    assert test.times == times
    assert proof_tests(areas, test) == wanted
