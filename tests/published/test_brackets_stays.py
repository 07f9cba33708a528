"""An arm propped by a stay, with its root fixed or pinned, and with the stay slack.

[FRAME] Runs of two open-source frame libraries, PyNiteFEA 3.2.0 (space, tension-only members) and
        anastruct 1.7.0 (plane), and the force method by hand, which agree. Arm of 1200 mm,
        A 1470 mm2, I 1.37e6 mm4; rod of 12 mm from the arm at 1000 mm to the wall 800 mm above
        its root; E 210 000 MPa; 3000 N down at the tip and 0.12 N/mm along the arm. Printed in N
        and mm to 10 digits and more: 1e-9.
[BOOK] Cantilever tied at its tip by a hanger of its own height, even load, as textbooks have it
       (own derivation; from memory that books print it).
"""

import numpy as np
import pytest

from estimator.supports.arms import BUILT_IN, Arm, ArmSection, Root, moved
from estimator.supports.stays import (
    StayBar,
    arm_action,
    stay_on_wall,
    stay_pull,
    stayed_flexibility,
    stayed_tip_flexibility,
)

ARM = Arm(1.2, ArmSection(1470e-6, 1.37e-6, 1.37e-6, 2.17e-6), 210e9, 81e9)
STAY = StayBar(0.8, 1.0, 113.09733552923255e-6, 210e9)
TIP = np.array([0.0, -3000, 0, 0, 0, 0])
OWN_N_M = np.array([0.0, -120, 0])
FIXED, PINNED = Root(), Root(pinned=True)


def even_points(reach_m, *kinks_m):
    """Return places that stand for an even load, and their lengths: Gauss, exact between kinks."""
    bounds_m = np.unique(np.clip((0.0, *kinks_m, reach_m), 0.0, reach_m))
    middles_m, halves_m = (bounds_m[1:] + bounds_m[:-1]) / 2, np.diff(bounds_m) / 2
    at, shares = np.polynomial.legendre.leggauss(2)
    return (middles_m[:, None] + np.outer(halves_m, at)).ravel(), np.outer(halves_m, shares).ravel()


def spread_pull(arm, stay, reach_m, root=BUILT_IN):
    """Return the pull (3,) by an even load of one a metre from the wall face to there."""
    places_m, lengths_m = even_points(reach_m, stay.to_m)
    return lengths_m @ [stay_pull(arm, stay, root, at_m)[:3] for at_m in places_m]


def pull(root):
    """Return the pull by tip load and own weight."""
    return np.float64(
        stay_pull(ARM, STAY, root) @ TIP + spread_pull(ARM, STAY, 1.2, root) @ OWN_N_M
    )


def at_root(root):
    """Return the arm's own action on the wall, own weight included."""
    own = moved(np.array([*(1.2 * OWN_N_M), 0, 0, 0]), np.array([0, 0, 0.6]))
    return arm_action(STAY, pull(root), TIP, 1.2) + own


def tip_down_mm(root):
    """Return how far the tip sinks."""
    at_m, lengths_m = even_points(1.2, STAY.to_m, ARM.length_m)
    own = sum(
        length_m * stayed_flexibility(ARM, STAY, 1.2, m, root)[:, :3] @ OWN_N_M
        for m, length_m in zip(at_m, lengths_m, strict=True)
    )
    return -1e3 * (stayed_tip_flexibility(ARM, STAY, root) @ TIP + own)[1]


PRINTED = [
    (FIXED, 5659.6041661606, 4419.408367148642, 391.5266937189135, 150873.30628108652,
     0.7891638259360585),
    (PINNED, 5901.119297218113, 4608.0, 542.4, 0.0, 0.7976152311370904),
]  # fmt: skip


@pytest.mark.parametrize(
    ("root", "pull_n", "push_in_n", "lift_n", "moment_nmm", "down_mm"), PRINTED
)
def test_propped_arm(root, pull_n, push_in_n, lift_n, moment_nmm, down_mm):
    """[FRAME] Pull; the root pushed in, lifted, its top pulled; how far the tip sinks."""
    expected = [0, lift_n, -push_in_n, moment_nmm / 1e3, 0, 0]

    assert pull(root) == pytest.approx(pull_n, rel=1e-9)
    assert at_root(root) == pytest.approx(expected, rel=1e-9, abs=1e-9)
    assert tip_down_mm(root) == pytest.approx(down_mm, rel=1e-9)


def test_wall_point_of_the_stay():
    """[FRAME] The stay pulls its own plate out by what it pushes the arm's root in, and down."""
    expected = [0, -3535.526693718878, 4419.408367148642]

    assert stay_on_wall(STAY, pull(FIXED))[:3] == pytest.approx(expected, rel=1e-9)


def test_moment_in_the_arm_at_the_stay():
    """[FRAME] 602 400 N mm, from the overhang of 200 mm alone."""
    own = moved(np.array([*(0.2 * OWN_N_M), 0, 0, 0]), np.array([0, 0, 0.1]))

    cut = arm_action(STAY, pull(FIXED), TIP, 1.2, cut_m=1.0) + own

    assert cut[3] == pytest.approx(602.4, rel=1e-9)


def test_fixing_the_root_matters_little_to_the_stay():
    """[FRAME] 4 % more pull with a pinned root, though the moment there is gone."""
    assert pull(PINNED) / pull(FIXED) == pytest.approx(1.04, abs=0.005)


def test_uplift_slackens_a_rod():
    """[FRAME] 2000 N up at the tip: a strut would carry 3704 N; with a slack rod 2.4e6 N mm."""
    up = -TIP * 2 / 3

    assert stay_pull(ARM, STAY) @ up == pytest.approx(-3704.1159, rel=1e-8)
    assert arm_action(STAY, np.float64(0), up, 1.2)[3] == pytest.approx(-2400.0, rel=1e-12)
    tip_m = stayed_tip_flexibility(ARM, None) @ up
    assert tip_m[1] == pytest.approx(4.004171011470282e-3, rel=1e-9)


def test_cantilever_tied_at_its_tip():
    """[BOOK] Even load q: S = 3 q A L^4 / (8 A L^3 + 24 I H); a wall point so high is a hanger."""
    hanger_m, height_m = 1e4, 2.0  # as limber as a hanger of 2 m, and upright to 1e-4
    area_m2, arm = 1e-4, ARM._replace(length_m=1.5)
    tie = StayBar(hanger_m, 1.5, area_m2 * hanger_m / height_m, 210e9)
    length_m, i_m4 = 1.5, 1.37e-6
    expected = 3 * 500 * area_m2 * length_m**4 / (8 * area_m2 * length_m**3 + 24 * i_m4 * height_m)

    assert spread_pull(arm, tie, 1.5) @ [0, -500, 0] == pytest.approx(expected, rel=1e-6)
