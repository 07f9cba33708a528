"""Density of the standard atmosphere.

[ISA] US Standard Atmosphere 1976, the same as ISO 2533:1975 below 32 km, as coded in the
      open-source library fluids 1.3.1 (ATMOSPHERE_1976).
[GAS] rho = p / (287.053 T) at 101325 Pa, worked apart from this program.
"""

import pytest
from fluids import ATMOSPHERE_1976

from estimator.wind.air import dry_density, standard_density


@pytest.mark.parametrize(
    ("altitude_m", "expected"),
    [
        (0, 1.22500),
        (100, 1.21328),
        (200, 1.20165),
        (500, 1.16727),
        (1000, 1.11166),
        (1500, 1.05810),
        (2000, 1.00655),
        (3000, 0.90925),
    ],
)
def test_density_by_altitude(altitude_m, expected):
    """[ISA] prints five decimals; the constants of the two agree to more than that."""
    assert standard_density(altitude_m) == pytest.approx(expected, abs=1e-5)


def test_density_agrees_with_an_independent_library_up_to_the_tropopause():
    """[ISA] run here, every 500 m."""
    for altitude_m in range(0, 11_000, 500):
        expected = ATMOSPHERE_1976(altitude_m).rho
        assert standard_density(altitude_m) == pytest.approx(expected, rel=1e-5), altitude_m


@pytest.mark.parametrize(
    ("celsius", "expected"), [(-10, 1.3414), (0, 1.2923), (15, 1.2250), (30, 1.1644)]
)
def test_density_by_temperature(celsius, expected):
    """[GAS] to four decimals: cold air is heavier."""
    assert dry_density(101325.0, celsius + 273.15) == pytest.approx(expected, abs=6e-5)


def test_density_refuses_the_stratosphere():
    """The lapse rate ends at 11 km."""
    with pytest.raises(ValueError, match="ends at 11000 m"):
        standard_density(12_000.0)
