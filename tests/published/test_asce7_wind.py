"""Velocity pressure by ASCE 7-16 and 7-22 against public examples.

The standards themselves were not at hand; every number below is as quoted in one of these.

[ZEP]    City of Zephyrhills, Florida, permit files of pylon signs: q of Florida Building Code Table
         1609.6.2(1), every K being 1. archives.ci.zephyrhills.fl.us/WebLink/0/doc/177503/
         Page8.aspx, .../96802/Page11.aspx and .../96804/Page12.aspx.
[XC]     Regression test of an open-source finite-element program, with the profile of ASCE 7-16,
         exposure C, 52 m/s, 110 m above the sea: github.com/xcfem/xc,
         verif/tests/actions/wind/test_windASCE7.py.
[ARG]    Regression test of an open-source program for the Argentine regulation CIRSOC 102-2025, by
         E. Di Loreto (2018-2026); it has the exposure constants of ASCE 7-22, but begins its
         profile at 5 m.
[SIGN10] Printed sheet of a sign's lateral load, ASCE 7-10, whose profile is that of 7-16:
         ro.scribd.com/document/391952847.
[TABLE]  ASCE 7-16, Table 26.10-1: from memory.
[TABLE9] ASCE 7-16 and 7-22, Table 26.9-1, as quoted in an open-source test with its heading.
[EXACT]  Arithmetic from the expressions of 26.10, worked apart from this program.
[K]      Figure 26.8-1 for exposure C as tabulated in [XC]'s program.
"""

import numpy as np
import pytest

from estimator.supports.combinations import asce_combinations
from estimator.wind.asce7 import (
    EDITIONS,
    Site,
    elevation_factor,
    exposure_coefficient,
    site_pressure,
    velocity_pressure,
)
from estimator.wind.asce7_hills import Feature, topographic_factor

FT_M, MPH_M_S, PSF_PA = 0.3048, 0.44704, 47.880259
NEW, OLD = EDITIONS["ASCE 7-22"], EDITIONS["ASCE 7-16"]


def steps_of(site, height_m):
    """Return the steps to a pressure by their symbols."""
    return {step.symbol: step.value for step in site_pressure(site, height_m).steps}


@pytest.mark.parametrize(("speed_mph", "printed_psf"), [(140, 50.2), (130, 43.3)])
def test_permit_files_with_every_factor_one(speed_mph, printed_psf):
    """[ZEP] prints one decimal: 0.05 psf; 0.613 in place of 0.00256 is another 0.03 psf."""
    pressure_pa = velocity_pressure(speed_mph * MPH_M_S, 1.0, 1.0, 1.0, 1.0)

    assert pressure_pa / PSF_PA == pytest.approx(printed_psf, abs=0.08)
    assert pressure_pa / PSF_PA == pytest.approx(0.00256 * speed_mph**2, rel=6e-4)  # [EXACT]


HEIGHTS_FT = [15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100]
PRINTED = {
    "B": [0.57, 0.62, 0.66, 0.70, 0.76, 0.81, 0.85, 0.89, 0.93, 0.96, 0.99],
    "C": [0.85, 0.90, 0.94, 0.98, 1.04, 1.09, 1.13, 1.17, 1.21, 1.24, 1.26],
    "D": [1.03, 1.08, 1.12, 1.16, 1.22, 1.27, 1.31, 1.34, 1.38, 1.40, 1.43],
}


@pytest.mark.parametrize("exposure", PRINTED)
def test_table_of_exposure_coefficients(exposure):
    """[TABLE] rounds the expression of its own note to two decimals, not always the nearest."""
    found = exposure_coefficient(np.array(HEIGHTS_FT) * FT_M, OLD, exposure)

    assert found == pytest.approx(PRINTED[exposure], abs=0.01)


EXACT = [
    (OLD, {"B": [0.575, 0.624, 0.701, 0.811, 0.988], "C": [0.849, 0.902, 0.982, 1.094, 1.266],
           "D": [1.030, 1.083, 1.162, 1.270, 1.433]}),
    (NEW, {"B": [0.573, 0.619, 0.689, 0.790, 0.950], "C": [0.851, 0.903, 0.980, 1.088, 1.254],
           "D": [1.035, 1.088, 1.168, 1.276, 1.440]}),
]  # fmt: skip


@pytest.mark.parametrize("exposure", "BCD")
@pytest.mark.parametrize(("edition", "table"), EXACT, ids=["7-16", "7-22"])
def test_both_editions_at_five_heights(edition, table, exposure):
    """[EXACT] prints three decimals, in feet; 4.6 m for 15 ft is another 0.001."""
    found = exposure_coefficient(np.array([15, 20, 30, 50, 100]) * FT_M, edition, exposure)

    assert found == pytest.approx(table[exposure], abs=0.0016)
    assert found[1:] == pytest.approx(table[exposure][1:], abs=0.0006)


def test_building_in_open_country_by_the_old_edition():
    """[XC] prints every digit, K_d inside q."""
    site = Site(OLD, 52.0, "C", altitude_m=110.0)

    for height_m, k_z, q_pa in [
        (5.0, 0.8650282179175907, 1202.9053251380185),
        (6.5, 0.9141518634861495, 1271.2165011443503),
    ]:
        found = steps_of(site, height_m)
        assert found["K_e"] == pytest.approx(0.9869953014457066, rel=1e-12)
        assert found["K_z"] == pytest.approx(k_z, rel=1e-12)
        assert found["q_h"] == pytest.approx(q_pa, rel=1e-12)


def test_town_by_the_new_constants():
    """[ARG] 45 m/s in B at 10 m: every digit of its test; K_d is inside its q."""
    found = steps_of(Site(NEW, 45.0, "B"), 10.0)

    assert found["K_z"] == pytest.approx(0.7058033400746822, rel=1e-12)
    assert found["q_h"] * found["K_d"] == pytest.approx(744.7116314504742, rel=1e-9)


PROFILE = [(5.0, 0.587, 864.14), (8.0, 0.665, 979.52), (10.0, 0.706, 1039.58),
           (15.0, 0.787, 1158.28), (20.0, 0.849, 1250.64)]  # fmt: skip


@pytest.mark.parametrize(("height_m", "k_z", "q_pa"), PROFILE)
def test_town_high_above_the_sea(height_m, k_z, q_pa):
    """[ARG] 55.1 m/s, 600 m above the sea: tolerances of its own test."""
    found = steps_of(Site(NEW, 55.1, "B", altitude_m=600.0), height_m)

    assert found["K_e"] == pytest.approx(0.931084, abs=1e-4)
    assert found["K_z"] == pytest.approx(k_z, abs=0.001)
    assert found["q_h"] * found["K_d"] == pytest.approx(q_pa, abs=0.1)


def test_sign_on_the_shore():
    """[SIGN10] 155 mph, D, 20 ft: K_z 1.083 and q 56.62 psf; 0.613 is 0.06 % below 0.00256."""
    found = steps_of(Site(OLD, 155 * MPH_M_S, "D"), 20 * FT_M)

    assert found["K_z"] == pytest.approx(1.083, abs=0.0005)
    assert found["q_h"] / PSF_PA == pytest.approx(56.62, abs=0.06)


@pytest.mark.parametrize(
    ("altitude_ft", "printed"),
    [(2000, 0.93), (3000, 0.90), (4000, 0.86), (5000, 0.83), (6000, 0.80)],
)
def test_ground_elevation(altitude_ft, printed):
    """[TABLE9] prints two decimals."""
    assert elevation_factor(altitude_ft * FT_M) == pytest.approx(printed, abs=0.0055)


SHAPES = [("ridge", [0.29, 0.36, 0.43, 0.51, 0.58, 0.65, 0.72]),
          ("escarpment", [0.17, 0.21, 0.26, 0.30, 0.34, 0.38, 0.43]),
          ("hill", [0.21, 0.26, 0.32, 0.37, 0.42, 0.47, 0.53])]  # fmt: skip


@pytest.mark.parametrize(("kind", "k_1"), SHAPES)
def test_crests_in_open_country(kind, k_1):
    """[K] at the crest and the ground K_2 = K_3 = 1: K_zt = (1 + K_1)^2, K_1 to two decimals."""
    for slope, printed in zip(np.arange(0.20, 0.51, 0.05), k_1, strict=True):
        found = topographic_factor(0.0, Feature(kind, 100 * slope, 100.0), "C")
        assert found**0.5 - 1 == pytest.approx(printed, abs=0.0055)


def test_a_speed_factor_is_not_put_on_a_pressure():
    """[ZEP] multiplies q by 0.77, the root of 0.6, where ASCE 7-16 2.4.1 has 0.6 on the wind."""
    on_wind = {c.variable_factors["wind"] for c in asce_combinations({"wind": "W"}, "ASCE 7-16 ASD")
               if "wind" in c.variable_factors and c.kind == "strength"}  # fmt: skip

    assert max(on_wind) == 0.6
    assert 0.77 not in {round(factor, 2) for factor in on_wind}
