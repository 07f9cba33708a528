"""Ice on rods and hands.

[ISO]   ISO 12494, masses of glaze on rods, kg/m, by thickness and diameter: as rounded from memory;
        by m = pi rho t (D + t) at 900 kg/m3, to two decimals, worked apart from this program. The
        same expression stands in public codes for the ice on overhead conductors.
[PLATE] One-sided glaze of 10 mm, 900 kg/m3, on the face of a blade 1.5 m long and 0.12 m wide, the
        blade level: 900 x 0.010 x 1.5 x 0.12 x 9.80665 x 0.75 = 11.9 N m, worked apart from this
        program.
"""

from math import pi

import pytest

from estimator.supports.hands import Side, ice_torque
from estimator.wind.ice import GLAZE_KG_M3, bar_kg_m

DIAMETERS_MM = (10, 30, 100, 300)
WORKED = [
    (10, (0.57, 1.13, 3.11, 8.77)),
    (20, (1.70, 2.83, 6.79, 18.10)),
    (30, (3.39, 5.09, 11.03, 27.99)),
    (40, (5.65, 7.92, 15.83, 38.45)),
    (50, (8.48, 11.31, 21.21, 49.48)),
]
REMEMBERED = [
    (10, (0.6, 1.1, 3.1, 8.8)),
    (20, (1.7, 2.8, 6.8, 18.1)),
    (30, (3.4, 5.1, 11.0, 28.0)),
    (40, (5.7, 7.9, 15.8, 38.5)),
    (50, (8.5, 11.3, 21.2, 49.5)),
]


@pytest.mark.parametrize(("table", "half_digit"), [(WORKED, 0.0051), (REMEMBERED, 0.051)])
def test_ice_on_rods(table, half_digit):
    """[ISO] all twenty cells, to the digits given."""
    for thick_mm, row in table:
        found = [bar_kg_m(pi * d_mm / 1000, thick_mm / 1000) for d_mm in DIAMETERS_MM]
        assert found == pytest.approx(row, abs=half_digit), thick_mm


def test_ice_on_one_side_of_a_hand():
    """[PLATE] 11.9 N m on the face of a blade 1.5 m long and 0.12 m wide."""
    blade = Side(1.5 * 0.12, 0.75, 1.5)

    assert ice_torque(blade, 0.010, GLAZE_KG_M3) == pytest.approx(11.9, rel=5e-3)
