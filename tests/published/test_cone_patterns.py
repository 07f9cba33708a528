"""Cones laid flat against patterns printed elsewhere.

[ANVIL] anvilfire.com, 21st century blacksmithing, page on cones: the layout radius is the side of
    the cone, the layout angle the base over the side; a cone with a point of 90 degrees is laid
    out over 254.6 degrees.
[MECHANIC] Builder and mechanic, "How to strike the side of a flaring vessel" (as quoted at
    chestofbooks.com): 12 in at the top, 9 at the bottom, side 8 in deep: struck from 24 in.
[DRAFTING] E. M. Longfield, Sheet metal drafting, section 43 (as quoted at wikisource.org): the side
    of a frustum is half the sum of its circumferences times its slant height.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.geometry.blanks import blank
from estimator.geometry.measures import Dims

lengths = st.floats(0.1, 3)


def sizes(**dims):
    """Return what a cone's pattern is set out by."""
    return {size.name: size.value for size in blank("cone", Dims.of(**dims)).sizes}


def test_a_cone_with_a_point_of_90_degrees():
    """[ANVIL] as high as its radius; printed to a tenth of a degree."""
    found = sizes(length_m=1.0, diameter_m=2.0)

    assert np.degrees(found["angle"]) == pytest.approx(254.6, abs=0.05)
    assert found["outer radius"] == pytest.approx(np.sqrt(2))


def test_the_side_of_a_flaring_vessel():
    """[MECHANIC] the smaller circle from 24 in, the larger 8 in further out; depth is the slant."""
    upright = np.sqrt(8**2 - 1.5**2)
    found = sizes(length_m=upright, diameter_m=12.0, end_diameter_m=9.0)

    assert found["inner radius"] == pytest.approx(24.0)
    assert found["outer radius"] == pytest.approx(32.0)


@given(lengths, lengths, st.floats(0.05, 0.95))
def test_the_side_of_a_frustum(length_m, diameter_m, taper):
    """[DRAFTING] for any frustum, and so for its pattern."""
    dims = Dims.of(length_m=length_m, diameter_m=diameter_m, end_diameter_m=diameter_m * taper)
    slant_m = np.hypot(length_m, diameter_m * (1 - taper) / 2)
    mean_m = np.pi * diameter_m * (1 + taper) / 2

    assert blank("cone", dims).area_m2 == pytest.approx(mean_m * slant_m)
