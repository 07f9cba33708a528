"""What an arm carries: its cuts, its stay, how its tip moves.

[STAY] Arm of 1.2 m with a rod of 12 mm from 0.8 m above its root to 1.0 m out, area 1470 mm2,
    I 1.37e6 mm4: PyNite 3.2.0 with a tension-only rod, worked out apart from this program.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.supports.arms import Arm, ArmSection, Root, moved
from estimator.supports.carrying import Carrier, at_tip, cuts, stay_pulls, tip_movements
from estimator.supports.stays import StayBar, arm_action, stay_on_wall
from estimator.supports.stresses import Moduli, stresses

SECTION = ArmSection(1470e-6, 1.37e-6, 1.37e-6, 2.17e-6)
ARM = Arm(1.2, SECTION, 210e9, 81e9)
ROD = StayBar(0.8, 1.0, 113.09733552923255e-6, 210e9)
ALONE, STAYED = Carrier(ARM), Carrier(ARM, ROD, pulls_only=True)
STRUTTED = Carrier(ARM, ROD)
LIFT = np.array([[0.0, 2000.0, 0.0, 0.0, 0.0, 0.0]])
ACTIONS = st.lists(st.floats(-1e3, 1e3), min_size=6, max_size=6).map(lambda x: np.array([x]))


def test_a_rod_goes_slack():
    """[STAY] 2 kN of lift: root moment 2400 N m, tip 4.004171 mm up."""
    found = cuts(STAYED, LIFT)

    assert stay_pulls(STAYED, LIFT) == pytest.approx([0.0])
    assert found.action[0, 0, 3] == pytest.approx(-2400.0)
    assert tip_movements(STAYED, LIFT)[0, 1] == pytest.approx(4.004171011470282e-3, rel=1e-9)


def test_a_strut_pushes():
    """[STAY] The same, the rod taken as one that can push: 3704.1159 N."""
    assert stay_pulls(STRUTTED, LIFT) == pytest.approx([-3704.1159], rel=1e-7)
    assert tip_movements(STRUTTED, LIFT)[0, 1] < tip_movements(STAYED, LIFT)[0, 1]


def test_an_arm_alone_has_no_stay():
    """Nothing pulls."""
    assert stay_pulls(ALONE, LIFT).tolist() == [0.0]
    assert cuts(ALONE, LIFT).at_m.tolist() == [0.0, 1.2]


def test_the_moment_can_be_largest_at_the_stay():
    """3 kN down on 0.2 m beyond it: 600 N m there, less at the root."""
    found = cuts(STAYED, -1.5 * LIFT)
    moment_nm = np.abs(found.action[:, 0, 3])

    assert found.at_m.tolist() == [0.0, 1.0, 1.2, 1.0]
    assert moment_nm[1] == pytest.approx(600.0)
    assert moment_nm[0] < moment_nm[1]


def test_a_load_inside_the_stay():
    """The piece between load and stay carries what the stay pulls, and nothing beside it."""
    inside = Carrier(ARM._replace(length_m=0.7), ROD, pulls_only=True)
    found = cuts(inside, -LIFT)

    assert found.at_m.tolist() == [0.0, 0.7, 1.0]
    assert found.action[2, 0, 2] == pytest.approx(-stay_pulls(inside, -LIFT)[0] / 1.64**0.5)


@given(ACTIONS)
def test_the_whole_action_comes_back(action):
    """Arm and stay at the wall make up the whole action about the root, and the tip gives it."""
    whole = moved(action, np.array([0.0, 0.0, ARM.length_m]))
    on_wall = stay_on_wall(ROD, stay_pulls(STRUTTED, action))

    assert at_tip(whole, ARM.length_m) == pytest.approx(action, abs=1e-9)
    assert cuts(STRUTTED, action).action[0] + on_wall == pytest.approx(whole, abs=1e-6)


@given(ACTIONS, st.floats(0.1, 10.0))
def test_movements_go_with_the_loads(action, times):
    """A stay that pulls only is slack or not whatever the size of the load."""
    once, more = tip_movements(STAYED, action), tip_movements(STAYED, times * action)

    assert more == pytest.approx(times * once, rel=1e-9, abs=1e-15)


@given(ACTIONS, st.sampled_from([0.4, 0.9, 1.2]), st.floats(0.0, 1.2))
def test_no_cut_in_between_is_worse(action, bears_m, at_m):
    """Anywhere along arms alone and stayed, the load before or beyond the stay."""
    moduli = Moduli(1470e-6, 34200e-9, 34200e-9, 735e-6, 735e-6, 49800e-9, is_hollow=True)
    arm = ARM._replace(length_m=bears_m)
    # All of it twisted: a twist too small to count would count at one cut and not at the next.
    action[0, 5] += 1e4
    for carrier in (Carrier(arm), Carrier(arm, ROD)):
        pull_n = stay_pulls(carrier, action)
        stay = carrier.stay or ROD
        between = arm_action(stay, pull_n, action, bears_m, at_m)
        worst_pa = stresses(cuts(carrier, action).action, moduli).von_mises_pa.max()

        assert stresses(between, moduli).von_mises_pa.max() <= worst_pa * (1 + 1e-9)


def test_a_wall_that_gives_lets_the_tip_down_further():
    """A plate that tilts 1 rad for 1 MN m adds M L / k; a stay beside it then pulls more."""
    press = -LIFT
    turned = Carrier(ARM, root=Root(turn_nm_rad=1e6))
    more_m = tip_movements(turned, press)[0, 1] - tip_movements(ALONE, press)[0, 1]

    assert more_m == pytest.approx(-2000 * 1.2**2 / 1e6)
    assert stay_pulls(STAYED._replace(root=turned.root), press) > stay_pulls(STAYED, press)
