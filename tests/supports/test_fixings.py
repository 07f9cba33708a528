"""Fixings by rules: shares of a group, tilting rules and closed forms."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.supports.contact import WallPlate, contact
from estimator.supports.fixings import (
    PROOF_TESTS,
    Row,
    centroid_pulls,
    edge_tilt_pulls,
    group_shear,
    peak_in_a_corner,
    peak_without_fixings,
    proof_tests,
    row_by_moment,
    row_by_push,
    row_by_uniform_push,
)

FOUR_M = np.array([(0.085, -0.135), (-0.085, -0.135), (0.085, 0.135), (-0.085, 0.135)])
PLATE = WallPlate(0.25, 0.35, FOUR_M, 157e-6)
ROW = Row(0.25, 0.35, 0.135, 314e-6, 7.0)
newtons = st.floats(-5e3, 5e3)
patterns = st.lists(
    st.tuples(st.floats(-0.1, 0.1), st.floats(-0.15, 0.15)), min_size=2, max_size=9, unique=True
).filter(lambda spots: np.ptp(np.array(spots), axis=0).max() > 0.02)


@given(patterns, st.lists(newtons, min_size=6, max_size=6))
def test_shear_is_in_balance(spots, action):
    """Shears add up to the force, and their moments about the plate's middle to the turn."""
    points_m = np.array(spots)

    shear_n = group_shear(points_m, action)

    turn_nm = points_m[:, 0] @ shear_n[:, 1] - points_m[:, 1] @ shear_n[:, 0]
    assert shear_n.sum(axis=0) == pytest.approx(action[:2], abs=1e-6)
    assert turn_nm == pytest.approx(action[5], abs=1e-6)


@given(patterns, st.lists(newtons, min_size=6, max_size=6))
def test_pulls_about_the_bolts_are_in_balance(spots, action):
    """Where fixings stand both ways, pulls and pushes alone balance pull and both moments."""
    points_m = np.array(spots)
    ways_m = points_m - points_m.mean(axis=0)
    if np.linalg.eigvalsh(ways_m.T @ ways_m)[0] < 1e-5:
        return

    pulls_n = centroid_pulls(points_m, action)

    assert pulls_n.sum() == pytest.approx(action[2], abs=1e-5)
    assert points_m[:, 1] @ pulls_n == pytest.approx(action[3], abs=1e-5)
    assert -points_m[:, 0] @ pulls_n == pytest.approx(action[4], abs=1e-5)


def test_many_actions_at_once():
    """Actions in a table give the same as one by one."""
    actions = np.arange(24.0).reshape(2, 2, 6) - 7

    for rule in (group_shear, centroid_pulls):
        assert rule(FOUR_M, actions)[1, 0] == pytest.approx(rule(FOUR_M, actions[1, 0]))
    tilted = edge_tilt_pulls(FOUR_M, PLATE.half_m, actions)
    assert tilted[0, 1] == pytest.approx(edge_tilt_pulls(FOUR_M, PLATE.half_m, actions[0, 1]))


def test_single_fixing_takes_all_shear_but_no_turn():
    """One fixing shares nothing, and nothing but friction would stop it turning."""
    one_m = np.zeros((1, 2))

    assert group_shear(one_m, [3, -4, 0, 0, 0, 0]) == pytest.approx(np.array([[3, -4]]))
    with pytest.raises(ValueError, match="a single fixing cannot hold a plate against turning"):
        group_shear(one_m, [0, 0, 0, 0, 0, 1])


TILTED = [((100, 0), (2, 3)), ((-100, 0), (0, 1)), ((0, 100), (1, 3)), ((0, -100), (0, 2))]


@pytest.mark.parametrize(("moment", "tilted"), TILTED)
def test_tilt_pulls_the_far_side_most(moment, tilted):
    """About across + pulls the top, about up + the left side."""
    pulls_n = edge_tilt_pulls(FOUR_M, PLATE.half_m, [0, 0, 0, *moment, 0])

    assert set(np.argsort(pulls_n)[2:]) == set(tilted)
    assert pulls_n.min() > 0


def test_push_does_not_relieve_the_edge_tilt_rule():
    """A push in the middle leaves its pulls as they are."""
    pushed, free = ([0, 0, force, 200, 50, 0] for force in (-500, 0))

    assert edge_tilt_pulls(FOUR_M, PLATE.half_m, pushed) == pytest.approx(
        edge_tilt_pulls(FOUR_M, PLATE.half_m, free)
    )


def test_tilting_rule_is_what_a_hard_wall_comes_to():
    """With a wall ever harder the zone shrinks to the edge and pulls go by their distance."""
    found = contact(PLATE, [0, 0, 0, 2500, 0, 0], 1e-6)

    tilted = edge_tilt_pulls(FOUR_M, PLATE.half_m, [0, 0, 0, 2500, 0, 0])
    assert found.pull_n == pytest.approx(tilted, rel=2e-3)


def test_one_row_by_moment():
    """[C9] 250 x 350 mm, two fixings at 310 mm, n 7, 2.5 kNm: zone 65.56 mm, 4338.07 N each.

    Worked by hand from the cracked section, and by a fibre grid and a cracked-section library.
    """
    block = row_by_moment(ROW, 2500)

    assert block.zone_m * 1e3 == pytest.approx(65.56080266405564, rel=1e-12)
    assert block.pull_n / 2 == pytest.approx(4338.0726, abs=1e-4)
    assert block.peak_pa / 1e6 == pytest.approx(1.0586990831, rel=1e-10)


@given(st.floats(100, 5000), st.floats(0.11, 2.0))
def test_one_row_by_push_is_in_balance(push_n, off_m):
    """Zone, row and push balance in force, in moment and in strains."""
    block = row_by_push(ROW, push_n, off_m)

    pressed_n = block.peak_pa * ROW.breadth_m * block.zone_m / 2
    to_row_m = ROW.depth_m / 2 + ROW.to_row_m
    row_stress = block.pull_n / (ROW.ratio * ROW.area_m2)
    assert pressed_n - block.pull_n == pytest.approx(push_n)
    assert pressed_n * (ROW.depth_m / 2 - block.zone_m / 3) + block.pull_n * ROW.to_row_m == (
        pytest.approx(push_n * off_m)
    )
    assert row_stress / block.peak_pa == pytest.approx((to_row_m - block.zone_m) / block.zone_m)


def test_push_that_does_not_pull_the_row():
    """The wall presses as far as the row: there is no cubic to solve."""
    with pytest.raises(ValueError, match="presses as far as the row and does not pull it"):
        row_by_push(ROW, 1000, 0.05)


def test_uniform_push_that_pulls_nothing_or_is_too_much():
    """A push near the middle leaves the row slack; one too far off finds no zone."""
    assert row_by_uniform_push(ROW, 1000, 0.05, 1e6).pull_n == 0
    with pytest.raises(ValueError, match="no zone of 1e\\+06 Pa holds this load"):
        row_by_uniform_push(ROW, 1e5, 2.0, 1e6)


def test_peaks_without_fixings():
    """[BR-15, BR-16] 8 kN on 300 x 300 mm: 0.8333 MPa 60 mm from two sides, 0.3556 at e = 100.

    A pyramid over a corner and a wedge over an edge; both by hand.
    """
    assert peak_in_a_corner(8000, (0.06, 0.06)) == pytest.approx(0.8333333333e6)
    assert peak_without_fixings(0.3, 0.3, 8000, 0.1) == pytest.approx(0.3555555556e6)
    assert peak_without_fixings(0.3, 0.3, 9000, 0.0) == pytest.approx(1e5)
    assert peak_without_fixings(0.3, 0.3, 9000, 0.05) == pytest.approx(2e5)


@given(st.integers(1, 4000))
def test_proof_tests_are_three_and_the_share_at_the_least(count):
    """Rounded up, and never fewer than three."""
    for test in PROOF_TESTS:
        (wanted,) = proof_tests([count], test)

        assert wanted >= 3
        assert wanted >= test.share * count - 1e-6
        assert wanted == 3 or wanted - 1 < test.share * count
