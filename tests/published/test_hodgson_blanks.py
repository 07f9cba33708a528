"""Blanks of vessels against worked examples of two books on sheet metal.

[HODGSON] R. B. Hodgson, Machines and tools employed in the working of sheet metals, chapter XX,
    "Blank dimensions": fig. 271, a vessel 4 in wide at the top, 2 in at the bottom and 2.5 in
    high; surface 28.519 square inches, blank 6.026 in (as quoted at chestofbooks.com).
[PANS] Sheet and plate metal work, chapter XXVIII, "Solid pans": the rule that the radius of the
    disc is the root of the square of the radius of the bottom and twice that radius times the
    depth; a pan of 2 ft, 18 in deep (as quoted at chestofbooks.com; its result is left out there
    and follows from the rule: 24 in).
"""

import numpy as np
import pytest

from estimator.geometry.blanks import equal_area_diameter
from estimator.geometry.measures import Dims
from estimator.geometry.shapes import measure


def test_the_surface_of_a_flaring_vessel():
    """[HODGSON] to its last figure: 28.519 square inches, side and bottom."""
    side = measure("cone", Dims.of(length_m=2.5, diameter_m=2.0, end_diameter_m=4.0)).face.size[0]

    assert side + np.pi == pytest.approx(28.519, abs=6e-4)


def test_the_blank_of_a_flaring_vessel():
    """[HODGSON] 6.026 in, to its last figure."""
    assert equal_area_diameter(28.519) == pytest.approx(6.026, abs=6e-4)


def test_the_blank_of_a_pan():
    """[PANS] radius 12 in, depth 18: the root of 144 and 432 is 24."""
    bottom = measure("disc", Dims.of(diameter_m=24.0)).face.size[0]

    assert equal_area_diameter(bottom + np.pi * 24.0 * 18.0) / 2 == pytest.approx(24.0)
