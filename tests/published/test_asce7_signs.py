"""Force coefficients of ASCE 7-16 and 7-22, chapter 29, against public examples.

The standards themselves were not at hand; every number below is as quoted in one of these.

[C102]  Four public transcriptions of the Argentine regulation CIRSOC 102-2025, chapter 4, which
        adopts chapter 29 of ASCE 7-16. One has 1.55 for 1.60 at s/h 0.7 and B/s 4.
[ARG]   Regression test of a fifth, an open-source program by E. Di Loreto (2018-2026).
[ZEP1]  City of Zephyrhills, Florida, permit file of a pylon sign 6.5 x 6.0 ft on grade:
        archives.ci.zephyrhills.fl.us/WebLink/0/doc/177503/Page8.aspx. It puts 0.77, a factor on
        speeds, on the pressure, and C_f 1.4 in place of the figure's: an arithmetic chain only.
[ZEP3]  The same city, .../96804/Page12.aspx, with the same two departures.
[EVER]  City of Everett, Washington, permit file of an open structure:
        lfportal.everettwa.gov/WebLink/0/doc/1852116/Page79.aspx.
[SW12]  Printed sheet of a wall and sign by ASCE 7-05, whose figure 6-20 is the same: B 100, s 8,
        h 35 ft. scribd.com/document/828657211.
[SW100] Another, of a wall on the ground: B 689, s = h = 6.6 ft. scribd.com/document/458377490.
[SIGN10] Printed sheet, ASCE 7-10: B = s = 3, h 20 ft. ro.scribd.com/document/391952847.
[GCP]   Wall coefficients as coded in an open-source program (github.com/kangeles47/DPBWE).
[EXACT] Arithmetic, worked apart from this program.
"""

import numpy as np
import pytest

from estimator.wind.asce7_frames import (
    CHIMNEYS,
    HEIGHTS,
    ROUND_REGIME,
    chimney,
    diagonal_factor,
    lattice_tower,
    open_sign,
    round_members_factor,
    round_regime,
)
from estimator.wind.asce7_signs import (
    Sign,
    at_least,
    box_sign_factor,
    box_sign_offset,
    case_c_strips,
    least_coefficient,
    openings_factor,
    return_corner_factor,
    sign_cases,
    sign_coefficient,
    solid_sign,
)
from estimator.wind.asce7_walls import flat_on_wall, wall_component
from estimator.wind.figures import moment_about, wind_force

FT_M, PSF_PA, LB_N = 0.3048, 47.880259, 4.4482216
G = 0.85

ASPECTS = [0.05, 0.1, 0.2, 0.5, 1, 2, 4, 5, 10, 20, 30, 45]
FIGURE = [
    (1.0, [1.80, 1.70, 1.65, 1.55, 1.45, 1.40, 1.35, 1.35, 1.30, 1.30, 1.30, 1.30]),
    (0.9, [1.85, 1.75, 1.70, 1.60, 1.55, 1.50, 1.45, 1.45, 1.40, 1.40, 1.40, 1.40]),
    (0.7, [1.90, 1.85, 1.75, 1.70, 1.65, 1.60, 1.60, 1.55, 1.55, 1.55, 1.55, 1.55]),
    (0.5, [1.95, 1.85, 1.80, 1.75, 1.75, 1.70, 1.70, 1.70, 1.70, 1.70, 1.70, 1.75]),
    (0.3, [1.95, 1.90, 1.85, 1.80, 1.80, 1.80, 1.80, 1.80, 1.80, 1.85, 1.85, 1.85]),
    (0.2, [1.95, 1.90, 1.85, 1.80, 1.80, 1.80, 1.80, 1.80, 1.85, 1.90, 1.90, 1.95]),
    (0.16, [1.95, 1.90, 1.85, 1.85, 1.80, 1.80, 1.85, 1.85, 1.85, 1.90, 1.90, 1.95]),
]


@pytest.mark.parametrize(("clearance", "row"), FIGURE)
def test_every_cell_of_the_figure(clearance, row):
    """[C102] 84 cells, digit by digit."""
    assert [sign_coefficient(aspect, clearance) for aspect in ASPECTS] == pytest.approx(
        row, abs=1e-12
    )


CELLS = [((0, 5, 5), 1.45), ((1, 9, 18), 1.50), ((3, 7, 35), 1.55), ((5, 5, 10), 1.70),
         ((7, 3, 60), 1.85), ((20, 5, 20), 1.80), ((35, 5, 50), 1.85), ((0, 5, 500), 1.30),
         ((0, 5, 0.1), 1.80), ((3, 5, 7.5), 1.6625)]  # fmt: skip


@pytest.mark.parametrize(("sizes", "printed"), CELLS)
def test_cells_ends_and_between(sizes, printed):
    """[ARG] (clearance, height, width in m); the last lies between cells both ways: exact."""
    below_m, height_m, width_m = sizes
    sign = Sign(width_m, height_m, below_m + height_m)

    assert solid_sign(sign).value == pytest.approx(printed, abs=1e-12)


def test_wide_wall_between_four_cells():
    """[SW12] F 22.37 kips = q G C_f A, q 17.80 psf: C_f 1.848; M 693.57 is about the middle."""
    sign = Sign(100 * FT_M, 8 * FT_M, 35 * FT_M)
    case_a = sign_cases(sign, solid_sign(sign))[0]

    assert case_a.coefficient == pytest.approx(1.848, abs=0.0005)
    assert 17.80 * G * case_a.coefficient * 800 == pytest.approx(22_370, rel=0.001)
    assert 22.37 * (35 - 8 / 2 + case_a.up_m / FT_M) == pytest.approx(693.57, abs=0.2)


def test_case_b_of_a_wide_wall():
    """[SW12] and [SW100] print the torsion of 0.2 B: 447.46 and 14 728.22 kip ft."""
    for width_ft, height_ft, top_ft, force_kip, printed in [
        (100, 8, 35, 22.37, 447.46),
        (689, 6.6, 6.6, 106.88, 14_728.22),
    ]:
        sign = Sign(width_ft * FT_M, height_ft * FT_M, top_ft * FT_M)
        off = sign_cases(sign, solid_sign(sign))[1]
        assert force_kip * off.right_m / FT_M == pytest.approx(printed, rel=5e-4)


def test_wall_on_the_ground():
    """[SW100] F 106.88 kips with q 21.27 psf, C_f 1.30; it acts 0.55 h up, as M 387.98 shows."""
    sign = Sign(689 * FT_M, 6.6 * FT_M, 6.6 * FT_M)
    case_a = sign_cases(sign, solid_sign(sign))[0]
    area_ft2 = 689 * 6.6

    assert 21.27 * G * case_a.coefficient * area_ft2 == pytest.approx(106_880, rel=5e-4)
    up_ft = 6.6 / 2 + case_a.up_m / FT_M
    assert up_ft == pytest.approx(0.55 * 6.6)
    assert 106.88 * up_ft == pytest.approx(387.98, abs=0.02)


def test_small_sign_high_up():
    """[SIGN10] s/h 0.15, B/s 1: C_f 1.80, F 648 lb on 7.48 sq ft with q 56.62 psf; no case C."""
    sign = Sign(3 * FT_M, 3 * FT_M, 20 * FT_M)
    board = solid_sign(sign)

    assert board.value == pytest.approx(1.80, abs=1e-12)
    assert 56.62 * G * board.value * 7.48 == pytest.approx(648, abs=0.5)
    assert sign_cases(sign, board)[1].right_m == pytest.approx(0.60 * FT_M)
    assert case_c_strips(sign) == ()


def test_sign_of_the_argentine_regulation():
    """[ARG] 10 x 5 m, top at 10 m, q 744.71 Pa: 1076.108 Pa, 53 805.4 N; case C 1424.26 Pa."""
    sign = Sign(10.0, 5.0, 10.0)
    acting_pa = 744.7116314504742 * G

    assert acting_pa * solid_sign(sign).value == pytest.approx(1076.1083074459352, rel=1e-12)
    assert acting_pa * solid_sign(sign).value * 50 == pytest.approx(53_805.41537229676, rel=1e-12)
    assert acting_pa * case_c_strips(sign)[0].coefficient == pytest.approx(1424.260995149032)


STRIPS = [
    (2, [2.25, 1.50]),
    (3, [2.60, 1.70, 1.15]),
    (4, [2.90, 1.90, 1.30, 1.10]),
    (5, [3.10, 2.00, 1.45, 1.05]),
    (6, [3.30, 2.15, 1.55, 1.05]),
    (7, [3.40, 2.25, 1.65, 1.05]),
    (8, [3.55, 2.30, 1.70, 1.05]),
    (9, [3.65, 2.35, 1.75, 1.00]),
    (10, [3.75, 2.45, 1.85, 0.95]),
]


@pytest.mark.parametrize(("aspect", "printed"), STRIPS)
def test_strips_of_case_c(aspect, printed):
    """[C102] each column to B/s 10; from 3 s on one strip, here in three pieces alike."""
    found = [strip.coefficient for strip in case_c_strips(Sign(5.0 * aspect, 5.0, 10.0))]

    assert list(dict.fromkeys(found)) == pytest.approx(printed, abs=1e-12)


WIDE = [(22.5, [3.00, 1.95, 1.375, 1.075, 1.075]),
        (57.5, [3.875, 2.525, 1.925, 1.225, 1.15, 0.925, 0.55]),
        (225, [4.30, 2.55, 1.95, 1.85, 1.85, 1.10, 0.55]),
        (450, [4.30, 2.55, 1.95, 1.85, 1.85, 1.10, 0.55])]  # fmt: skip


@pytest.mark.parametrize(("width_m", "printed"), WIDE)
def test_strips_between_columns_and_beyond(width_m, printed):
    """[ARG] 5 m high, B/s 4.5, 11.5, 45 and 90; its fourth strip of the first is here two."""
    found = [strip.coefficient for strip in case_c_strips(Sign(width_m, 5.0, 10.0))]

    assert found == pytest.approx(printed, abs=1e-12)


@pytest.mark.parametrize("rise", [(1, 9, 18), (0, 6.6, 689)])
def test_strips_near_the_ground(rise):
    """[ARG] s/h 0.9: times 0.9. [SW100] s/h 1: 2.58 becomes 2.064, times 0.8."""
    below, height, width = rise
    sign = Sign(width, height, below + height)
    high = Sign(width, height, 4 * height)
    factor = 1.8 - sign.clearance

    for near, far in zip(case_c_strips(sign), case_c_strips(high), strict=True):
        assert near.coefficient == pytest.approx(factor * far.coefficient)


def test_first_strip_of_a_wall_with_returns():
    """[SW100] 4.30 x 0.6 = 2.58, x 0.8 = 2.064, 37 psf; its second strip 2.55 x 0.8 = 2.040."""
    first, second = case_c_strips(Sign(689, 6.6, 6.6), return_corner_m=1821.3)[:2]

    assert (first.coefficient, second.coefficient) == pytest.approx((2.064, 2.040), abs=5e-4)
    assert 21.27 * G * first.coefficient == pytest.approx(37, abs=0.5)


RETURNS = [(0, 2.64), (1, 2.64), (1.5, 2.376), (5, 1.98), (7.5, 1.782), (10, 1.584), (30, 1.584)]


@pytest.mark.parametrize(("return_m", "printed"), RETURNS)
def test_return_corners(return_m, printed):
    """[ARG] 30 x 5 m on the ground, B/s 6: the first strip alone is lowered."""
    strips = case_c_strips(Sign(30.0, 5.0, 5.0), return_corner_m=return_m)

    assert strips[0].coefficient == pytest.approx(printed, abs=1e-12)
    assert strips[1].coefficient == pytest.approx(2.15 * 0.8)
    assert return_corner_factor(1.0, 2.0) == 1.0


def test_openings():
    """[C102] 1 - (1 - 0.8)^1.5 = 0.9106, 0.7: 0.8357; [ARG] times 1.70 on the whole area."""
    assert openings_factor(0.8) == pytest.approx(0.9106, abs=5e-5)
    assert openings_factor(0.7000001) == pytest.approx(0.8357, abs=5e-5)
    assert solid_sign(Sign(10, 5, 10, 0.8)).value * 0.8 == pytest.approx(1.70 * 0.910557, rel=1e-6)


def test_box_signs():
    """[ARG] 0.4 m deep, 10 x 5 m: r 0.08 and 0.04; 5 m deep: 1.0 and 0.5, nothing taken off."""
    assert box_sign_factor(0.08) == pytest.approx(1 - 0.133 * 0.08)
    assert box_sign_offset(0.04) == pytest.approx(0.2 - 0.25 * 0.04)
    assert (box_sign_factor(1.0), box_sign_offset(0.5)) == (1.0, 0.2)


def permit_chain(q_psf, area_ft2):
    """Return pressure [psf] and force [lb] with the permit files' 0.77 and 1.4."""
    acting_pa = q_psf * 0.77 * G * PSF_PA
    force_n = wind_force(acting_pa, 1.4, area_ft2 * FT_M**2, 0.0)
    return -force_n[2] / area_ft2 / FT_M**2 / PSF_PA, -force_n[2] / LB_N


def test_permit_chain_of_a_sign_on_grade():
    """[ZEP1] q 50.2 x 0.77 x 0.85 x 1.4 = 46.0 psf; 39 sq ft 1794 lb; 5382 lb ft at 3.0 ft."""
    pressure_psf, force_lb = permit_chain(50.2, 6.5 * 6.0)
    moment_nm = moment_about((0, 0, 0), (0, 3.0 * FT_M, 0), (0, 0, -force_lb * LB_N))

    assert pressure_psf == pytest.approx(45.998, abs=5e-4)
    assert force_lb == pytest.approx(1794, rel=0.001)
    assert -moment_nm[0] / LB_N / FT_M == pytest.approx(5382, rel=0.001)


def test_permit_chain_of_a_sign_in_the_air():
    """[ZEP3] q 43.3 x 0.77 x 0.85 x 1.4 = 39.7 psf."""
    assert permit_chain(43.3, 1.0)[0] == pytest.approx(39.676, abs=5e-4)


@pytest.mark.parametrize(
    ("sign", "exact"), [(Sign(6.5, 6.0, 6.0), 1.446), (Sign(3.18, 1.0, 1 / 0.45), 1.725)]
)
def test_the_permit_files_coefficient_is_not_produced(sign, exact):
    """[ZEP1], [ZEP3]: 1.4 for any sign, where the figure has 1.446 and 1.725."""
    found = solid_sign(sign).value

    assert found == pytest.approx(exact, abs=5e-4)
    assert abs(found - 1.4) > 0.04


@pytest.mark.parametrize(("solidity", "flat", "slow", "fast"), [
    (0.05, 2.0, 1.2, 0.8), (0.1, 1.8, 1.3, 0.9), (0.153, 1.8, 1.3, 0.9), (0.29, 1.8, 1.3, 0.9),
    (0.3, 1.6, 1.5, 1.1), (0.5, 1.6, 1.5, 1.1), (0.7, 1.6, 1.5, 1.1),
])  # fmt: skip
def test_open_signs(solidity, flat, slow, fast):
    """[C102] and, of flat members, [EVER]: every value of the figure and the edges between."""
    assert open_sign(solidity).value == flat
    assert open_sign(solidity, "round", ROUND_REGIME).value == slow
    assert open_sign(solidity, "round", ROUND_REGIME + 0.01).value == fast


def test_open_structure_and_least_pressure():
    """[EVER] solidity 0.153: p = max(q G C_f, 16) = 17.86 psf with q 11.67 psf, +-0.01."""
    acting_pa = 11.67 * PSF_PA * G
    least = least_coefficient(acting_pa)

    assert acting_pa * at_least(open_sign(0.153), least).value / PSF_PA == pytest.approx(
        17.86, abs=0.01
    )
    # Half the wind would give 8.9 psf; 16 psf (0.77 kN/m2, 0.5 % more) is the least.
    calm = at_least(open_sign(0.153), 2 * least)
    assert acting_pa / 2 * calm.value / PSF_PA == pytest.approx(16.0, rel=0.006)
    assert "raised from 1.80" in calm.rule


def test_regime_of_round_members_in_both_units():
    """[EXACT] 2.5 ft sqrt(psf) = 5.273 m sqrt(N/m2); the standard prints 5.3."""
    assert round_regime(2.5 * FT_M, PSF_PA) == pytest.approx(5.273, abs=5e-4)
    assert pytest.approx(5.273, abs=0.03) == ROUND_REGIME


def test_regime_is_not_taken_in_kilopascals():
    """[C102] a post of 1 m in 1 kN/m2 is at 31.6, fast; the root of 1 kN/m2 would say slow."""
    regime = round_regime(1.0, 1000.0)

    assert chimney("round, moderately smooth", 7.0, regime).value == 0.6
    assert chimney("round, moderately smooth", 7.0, round_regime(1.0, 1.0)).value == 0.8


@pytest.mark.parametrize(("shape", "row"), [
    ("square, face to the wind", (1.3, 1.4, 2.0)), ("square, edge to the wind", (1.0, 1.1, 1.5)),
    ("six or eight sides", (1.0, 1.2, 1.4)), ("round, moderately smooth", (0.5, 0.6, 0.7)),
    ("round, rough", (0.7, 0.8, 0.9)), ("round, very rough", (0.8, 1.0, 1.2)),
])  # fmt: skip
def test_chimneys(shape, row):
    """[C102] heights of 1, 7 and 25 widths; slow flow round a tube 0.7, 0.8, 1.2."""
    assert [chimney(shape, h, 10.0).value for h in HEIGHTS] == pytest.approx(row)
    assert chimney(shape, 4.0, 10.0).value == pytest.approx((row[0] + row[1]) / 2)
    slow = [chimney(shape, h).value for h in HEIGHTS]
    assert slow == pytest.approx((0.7, 0.8, 1.2) if shape.startswith("round") else row)
    assert len(CHIMNEYS) == 6


def test_lattice_towers():
    """[C102] 4.0 e2 - 5.9 e + 4.0 and 3.4 e2 - 4.7 e + 3.4; round members, and the diagonal."""
    closed = np.array([0.1, 0.25, 0.5])

    assert [lattice_tower("square", e).value for e in closed] == pytest.approx(
        4.0 * closed**2 - 5.9 * closed + 4.0
    )
    assert [lattice_tower("triangle", e).value for e in closed] == pytest.approx(
        3.4 * closed**2 - 4.7 * closed + 3.4
    )
    assert [round_members_factor(e) for e in (0.2, 0.95)] == pytest.approx([0.5904, 1.0])
    assert [diagonal_factor(e) for e in (0.2, 0.5)] == pytest.approx([1.15, 1.2])


def test_walls_of_low_buildings():
    """[GCP] 10 and 500 sq ft: zone 4 1.1 to 0.8, zone 5 1.4 to 0.8, pressure 1.0 to 0.7."""
    ends_m2 = [5 * FT_M**2, 10 * FT_M**2, 500 * FT_M**2, 900 * FT_M**2]

    for zone, large, small in [
        ("zone 4, suction", 1.1, 0.8),
        ("zone 5, near a corner, suction", 1.4, 0.8),
        ("zones 4 and 5, pressure", 1.0, 0.7),
    ]:
        found = [wall_component(area_m2, zone) for area_m2 in ends_m2]
        assert found == pytest.approx([large, large, small, small], abs=1e-4)


def test_wall_component_as_a_coefficient_beside_g():
    """[GCP] (GC_p) 1.4 holds G, which stands with the pressure: 1.4 / 0.85, from memory."""
    found = flat_on_wall(Sign(0.5, 0.5, 5.0), 0.25, G)

    assert found.value * G == pytest.approx(1.4)
    assert not found.confirmed
    assert dict(found.others)["free-standing solid sign"] == pytest.approx(1.80)
