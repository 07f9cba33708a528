"""Snow on outlines seen from above.

[SNW] EN 1991-1-3:2003, Table 5.2: mu_1 0.8 up to 30 degrees, as quoted in a public form,
      designforms.net/WebUser/Pub/ProductInfo.aspx?P=3310, with C_e and C_t 1.0.
"""

import pytest

from estimator.wind.snow import FLAT_SHAPE, lying_n


def test_snow_on_a_ledge():
    """[SNW]: 0.8 x 600 Pa on 4.9 m x 0.4 m."""
    assert FLAT_SHAPE == 0.8
    assert lying_n(600.0, 4.9 * 0.4) == pytest.approx(0.8 * 600 * 1.96)
