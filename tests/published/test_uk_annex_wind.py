"""Factors of the UK National Annex on the basic wind velocity.

[UKNA] UK National Annex to BS EN 1991-1-4:2005+A1:2010, as reproduced in
       scribd.com/document/451235066.
"""

import pytest

from estimator.wind import uk_annex
from estimator.wind.en1991 import TERRAIN, Site, profile


@pytest.mark.parametrize(
    ("altitude_m", "height_m", "expected"), [(83, 10, 1.083), (83, 4, 1.083), (150, 20, 1.1306)]
)
def test_altitude_factor(altitude_m, height_m, expected):
    """[UKNA] 1 + 0.001 A, falling above 10 m, worked to four decimals."""
    assert uk_annex.altitude_factor(altitude_m, height_m) == pytest.approx(expected, abs=5e-5)


@pytest.mark.parametrize(
    ("azimuth_deg", "expected"), [(240, 1.00), (30, 0.73), (255, 0.995), (345, 0.80), (360, 0.78)]
)
def test_direction_factor(azimuth_deg, expected):
    """[UKNA] every 30 degrees, interpolated between, and round through north."""
    assert uk_annex.direction_factor(azimuth_deg) == pytest.approx(expected, abs=1e-9)


def test_altitude_enters_the_basic_velocity():
    """[UKNA] c_alt multiplies the speed of the map before anything else."""
    found = profile(Site(22.0, TERRAIN["II"], uk_altitude_m=83.0), 10.0)

    assert found.basic_speed_m_s == pytest.approx(22.0 * 1.083)
