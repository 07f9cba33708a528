"""Fixings by rules: shares of a group and tilting rules."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.supports.contact import WallPlate, contact
from estimator.supports.fixings import (
    PROOF_TESTS,
    centroid_pulls,
    edge_tilt_pulls,
    group_shear,
    proof_tests,
)

FOUR_M = np.array([(0.085, -0.135), (-0.085, -0.135), (0.085, 0.135), (-0.085, 0.135)])
PLATE = WallPlate(0.25, 0.35, FOUR_M, 157e-6)
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


@given(patterns, st.lists(newtons, min_size=6, max_size=6), st.floats(-50, 50))
def test_shear_goes_with_the_load(spots, action, times):
    """So many times the load is so many times every shear; turned round it turns round."""
    points_m = np.array(spots)
    once_n = group_shear(points_m, action)

    tol_n = 1e-9 * (1 + 50 * np.abs(once_n).max())
    assert group_shear(points_m, times * np.array(action)) == pytest.approx(
        times * once_n, abs=tol_n
    )


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


@given(st.integers(1, 4000))
def test_proof_tests_are_three_and_the_share_at_the_least(count):
    """Rounded up, and never fewer than three."""
    for test in PROOF_TESTS:
        (wanted,) = proof_tests([count], test)

        assert wanted >= 3
        assert wanted >= test.share * count - 1e-6
        assert wanted == 3 or wanted - 1 < test.share * count
