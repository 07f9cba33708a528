"""Gust over mean wind, for speeds that are given as gusts.

[FEM] EN 13000 / FEM 5.016 wind rule, as reproduced in two crane operator manuals:
      v_3s(z) = ((z / 10)^0.14 + 0.4) v_10min; values worked to three decimals.
"""

import pytest

from estimator.wind.air import gust_factor


@pytest.mark.parametrize(
    ("height_m", "expected"), [(10, 1.400), (20, 1.502), (50, 1.653), (100, 1.780)]
)
def test_gust_factor(height_m, expected):
    """[FEM] three decimals."""
    assert gust_factor(height_m) == pytest.approx(expected, abs=6e-4)
