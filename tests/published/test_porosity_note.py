"""Openings of a solid sign.

[POR] An engineers' note on the web on the porosity of louvres, signs and fences, on ASCE 7 Figure
      29.3-1, note 1: a surface a quarter open counts as 0.875 of a solid one.
"""

import pytest

from estimator.wind.asce7_signs import openings_factor
from estimator.wind.coefficients import flat_plate
from estimator.wind.porous import panel


def test_a_surface_a_quarter_open():
    """[POR] 1 - (1 - 0.75)^1.5 = 0.875, exactly, and 0.875 of a plate by itself."""
    assert openings_factor(0.75) == 0.875
    plate = flat_plate(2.0, 1.0)
    assert panel(plate, 0.75).value == pytest.approx(0.875 * plate.value)
