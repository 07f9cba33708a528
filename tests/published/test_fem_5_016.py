"""Gust over mean wind, and the wind in which a load with much sail may be lifted.

[FEM]  EN 13000 / FEM 5.016 wind rule, as reproduced in two crane operator manuals:
       v_3s(z) = ((z / 10)^0.14 + 0.4) v_10min; values worked to three decimals. Sail area
       A_W = C_D A, 1.2 m2 per tonne on the load chart, C_D of an unknown shape 2.4, of a box 2.0,
       of a cylinder 1.0.
[ROOT] v = v_chart sqrt(1.2 m / A_W): FEM 5.016 from memory. One of the two manuals has the ratio
       without the root. Worked apart from this program for 0.25 t, 3 m2 and C_D 2.0.
"""

import pytest

from estimator.wind.air import gust_factor
from estimator.wind.working import (
    CHART_M2_T,
    LIFTING_DRAG,
    cautious_factor,
    lifting_factor,
    sail_area,
)


@pytest.mark.parametrize(
    ("height_m", "expected"), [(10, 1.400), (20, 1.502), (50, 1.653), (100, 1.780)]
)
def test_gust_factor(height_m, expected):
    """[FEM] three decimals."""
    assert gust_factor(height_m) == pytest.approx(expected, abs=6e-4)


def test_a_box_of_a_quarter_tonne():
    """[ROOT] A_W 6 m2, factor 0.2236 with the root and 0.05 without, to the digits given."""
    sail_m2 = sail_area(3.0, LIFTING_DRAG["box"])

    assert sail_m2 == pytest.approx(6.0)
    assert lifting_factor(250.0, sail_m2) == pytest.approx(0.2236, abs=5e-5)
    assert cautious_factor(250.0, sail_m2) == pytest.approx(0.05)


def test_the_figures_of_the_manuals():
    """[FEM] as reproduced."""
    assert CHART_M2_T == 1.2
    assert LIFTING_DRAG == {"unknown": 2.4, "box": 2.0, "cylinder": 1.0}
