"""Blanks of drawn shells against a handbook.

[MH] Machinery's Handbook, 31st edition, Industrial Press, "Diameters of shell blanks", pages 1426
    to 1428 (as quoted at online.flippingbook.com): D = sqrt(d2 + 4 d h) for sharp corners, with
    examples 1 and 2, in inches.
"""

import numpy as np
import pytest

from estimator.geometry.blanks import equal_area_diameter
from estimator.geometry.measures import Dims
from estimator.geometry.shapes import measure

SHELLS = [  # diameter, height, blank
    (1.5, 2.0, 3.78),
    (2.0, 3.0, 5.29),
]


@pytest.mark.parametrize(("diameter", "height", "printed"), SHELLS)
def test_a_plain_shell(diameter, height, printed):
    """[MH] prints two decimals; equal area of bottom and side."""
    bottom = measure("disc", Dims.of(diameter_m=diameter)).face.size[0]
    found = equal_area_diameter(bottom + np.pi * diameter * height)

    assert found == pytest.approx(printed, abs=0.006)
    assert found == pytest.approx(np.sqrt(diameter**2 + 4 * diameter * height))
