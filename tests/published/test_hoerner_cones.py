"""Cones, discs and cylinders end-on by Hoerner, as told on a public page.

[AW] Drag of cylinders and cones, aerospaceweb.org, question q0231, after S. F. Hoerner,
     Fluid-Dynamic Drag: a disc 1.17; a cylinder end to the wind about 0.81 from twice as long as
     wide; a cone nearly linear with half of its apex angle from 0 to 90 degrees, there a disc.
"""

import numpy as np
import pytest

from estimator.wind.handbook import CONE, cone_drag, drag, end_on_drag


def test_cones_are_nearly_linear_with_their_angle():
    """[AW] no point lies more than 0.05 off the straight line through the first and the disc."""
    angles_deg, values = (np.array(row) for row in CONE)
    line = values[0] + (1.17 - values[0]) * (angles_deg - angles_deg[0]) / 80.0

    assert np.abs(values - line).max() <= 0.05
    assert cone_drag(np.pi / 2) == pytest.approx(1.17, abs=0.03)


@pytest.mark.parametrize("ratio", [2.0, 4.0, 7.0, 50.0])
def test_cylinders_end_on_are_not_below(ratio):
    """[AW] about 0.81; two other books print up to 0.99, and the higher is used."""
    assert end_on_drag(ratio) >= 0.81


def test_a_short_cylinder_becomes_a_disc():
    """[AW] as its length shrinks to nothing: 1.17, and 1.10 to 1.12 in other books."""
    assert end_on_drag(0.01) == pytest.approx(drag("disc").value, abs=0.03)
    assert end_on_drag(0.01) == pytest.approx(1.17, abs=0.08)
