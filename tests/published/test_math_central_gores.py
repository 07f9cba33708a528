"""Gores of a ball against a worked answer.

[HERMAN] Math Central, University of Regina, question from Herman on plates for domes
    (mathcentral.uregina.ca/QQ/database/QQ.09.08/h/herman1.html): a hemisphere in 18 plates, each
    pi/2 r high; at the nth of 45 stations of 2 degrees its width is cos(2 n) of that at the foot,
    which is 2 r sin(10 degrees) = 0.3473 r where plates are bent and meet the ball at their edges.
"""

import numpy as np
import pytest

from estimator.geometry.gores import ellipsoid_gores

WIDTHS = [(0, 1.0), (1, 0.9994), (2, 0.9976), (43, 0.0698), (44, 0.0349), (45, 0.0)]
"""[HERMAN] station and width over that at the foot."""
GORES = ellipsoid_gores((2.0, 2.0, 2.0), 18)


def test_a_plate_is_a_quarter_of_a_great_circle_high():
    """[HERMAN] 1.5708 r; a gore runs from pole to pole and is two of them."""
    assert GORES.length_m / 2 == pytest.approx(1.5708, abs=5e-5)


@pytest.mark.parametrize(("station", "printed"), WIDTHS)
def test_the_outline_of_a_plate(station, printed):
    """[HERMAN] prints four decimals; between our own stations the width is read off straight.

    With stations 3.75 degrees apart that is up to 0.0005 too narrow.
    """
    at_m = np.radians(2.0 * station)
    width = np.interp(at_m, GORES.along_m, GORES.half_m) / max(GORES.half_m)

    assert width == pytest.approx(printed, abs=6e-4)


def test_plates_that_meet_the_ball_at_their_edges_are_a_little_narrower():
    """[HERMAN] 0.3473 r is the chord; ours is the arc, and bent ones touch in the middle.

    sin x < x < tan x: 0.5 % and 1.6 % wider, for 18 plates.
    """
    bent = ellipsoid_gores((2.0, 2.0, 2.0), 18, bent=True)

    assert 0.3473 < GORES.width_m < bent.width_m
    assert GORES.width_m == pytest.approx(0.3473, rel=0.006)
    assert bent.width_m == pytest.approx(0.3473, rel=0.016)
