"""Stresses: each kind by hand, how they go together, and what is not worked out.

[VM] EN 1993-1-1, 6.2.1(5), expression (6.1), as quoted at blueprints.readthedocs.io.
"""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.supports.stresses import (
    NO_TWIST,
    Moduli,
    euler_load,
    stress_ratio,
    stresses,
    twisted,
)

BOX = Moduli(2.0, 4.0, 5.0, 8.0, 10.0, 16.0, is_hollow=True)
BAR = BOX._replace(is_hollow=False)
RING = BOX._replace(is_round=True)
OPEN = BAR._replace(twists_m3=math.nan)
ACTIONS = st.lists(st.floats(-1e3, 1e3), min_size=6, max_size=6).map(np.array)


@pytest.mark.parametrize(
    ("action", "kind", "wanted_pa"),
    [
        ((0, 0, -6, 0, 0, 0), "axial_pa", 3.0),
        ((0, 0, 0, 8, 0, 0), "bending_pa", 2.0),
        ((0, 0, 0, 0, -10, 0), "bending_pa", 2.0),
        ((20, 0, 0, 0, 0, 0), "shear_pa", 2.0),
        ((0, -16, 0, 0, 0, 0), "shear_pa", 2.0),
        ((0, 0, 0, 0, 0, -32), "torsion_pa", 2.0),
    ],
)
def test_each_stress_by_hand(action, kind, wanted_pa):
    """Force over area, moment over modulus, whichever the sign."""
    found = stresses(np.array(action, dtype=float), BOX)

    assert float(getattr(found, kind)) == pytest.approx(wanted_pa)
    assert sum(float(one) for one in found) == pytest.approx(wanted_pa)


@pytest.mark.parametrize(("moduli", "bending_pa", "shear_pa"), [
    (BOX, 3.0 + 4.0, max(3.0, 4.0)), (BAR, 3.0 + 4.0, 5.0), (RING, 5.0, 5.0),
])  # fmt: skip
def test_two_directions_together(moduli, bending_pa, shear_pa):
    """Both bend a corner; a round has none; the sides of a box share the shear out."""
    found = stresses(np.array([40.0, 24.0, 0.0, 12.0, 20.0, 0.0]), moduli)

    assert float(found.bending_pa) == pytest.approx(bending_pa)
    assert float(found.shear_pa) == pytest.approx(shear_pa)


def test_all_in_one():
    """[VM] 3 along and 4 across make sqrt(9 + 48); a factor on the yield raises the ratio."""
    found = stresses(np.array([0.0, 32.0, 6.0, 0.0, 0.0, 0.0]), BOX)

    assert float(found.von_mises_pa) == pytest.approx(math.sqrt(57))
    assert float(stress_ratio(found.von_mises_pa, 10.0, 1.1)) == pytest.approx(0.11 * math.sqrt(57))


def test_an_open_section_that_is_twisted():
    """What warping does is not made up; bending is still known."""
    found = stresses(np.array([[0, 0, 0, 8.0, 0, 1.0], [0, 0, 0, 8.0, 0, 0.0]]), OPEN)

    assert found.bending_pa.tolist() == [2.0, 2.0]
    assert np.isnan(found.torsion_pa).tolist() == [True, False]
    assert np.isnan(stress_ratio(found.von_mises_pa, 1.0, 1.0)).tolist() == [True, False]


@pytest.mark.parametrize(("share", "is_twisted"), [(0.9, False), (1.1, True)])
def test_rounding_is_no_twist(share, is_twisted):
    """A thousandth of the bending moment is where twisting begins."""
    action = np.array([0, 0, 0, 3.0, 4.0, share * 5.0 * NO_TWIST])

    assert bool(twisted(action)) is is_twisted


def test_euler():
    """A bar twice as long bows out under a quarter of the push."""
    assert euler_load(210e9, 1e-8, 2.0) == pytest.approx(math.pi**2 * 2100 / 4)


@given(ACTIONS, st.floats(0.1, 10.0))
def test_stresses_go_with_the_loads(action, times):
    """So many times the load is so many times every stress."""
    once, more = stresses(action, BAR), stresses(times * action, BAR)

    assert more.von_mises_pa == pytest.approx(times * once.von_mises_pa)


@given(ACTIONS)
def test_stresses_do_not_ask_which_way(action):
    """Turned round, an action does as much."""
    assert stresses(-action, RING) == stresses(action, RING)


@given(ACTIONS, ACTIONS, st.floats(0.0, 1.0))
def test_between_two_loads_the_stress_is_no_larger(one, other, share):
    """So the ends of a straight piece of arm are all there is to look at."""
    # Below the share that counts as twisting the torsion is left out: all have it here.
    one[5], other[5] = (1.0 + abs(load[3]) + abs(load[4]) for load in (one, other))
    ends = [float(stresses(load, BOX).von_mises_pa) for load in (one, other)]
    between = stresses(share * one + (1 - share) * other, BOX)

    assert float(between.von_mises_pa) <= max(ends) * (1 + 1e-9)
