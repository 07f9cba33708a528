"""Convex pieces: where they reach, and that placing them moves nothing else."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.geometry.chunks import CHUNKS, boxes, chunks, placed
from estimator.geometry.measures import Dims
from estimator.geometry.placing import rotation
from estimator.geometry.shapes import measure

EXACT = sorted(set(CHUNKS) - {"ring", "disc", "sector", "leaf", "hoop", "torus", "formed"})
WHOLE = np.eye(3)


@pytest.mark.parametrize("shape", CHUNKS)
def test_pieces_fill_the_envelope(shape, example):
    """Exactly for what is not bent or cut from a ring, else to a thousandth."""
    dims = example(shape)
    low_m, high_m = boxes(chunks(shape, dims))[0]

    rel = 1e-12 if shape in EXACT else 1e-3
    assert high_m - low_m == pytest.approx(measure(shape, dims).box_m[0], rel=rel, abs=1e-12)
    assert (low_m + high_m) / 2 == pytest.approx(np.zeros(3), abs=rel)


@given(*3 * [st.floats(-7, 7)])
def test_the_box_of_a_turned_rod_is_exact(turn_rad, tip_rad, swing_rad):
    """Along each axis it reaches |axis| l / 2 + sqrt(1 - axis^2) d / 2."""
    turn = rotation(turn_rad, tip_rad, swing_rad)
    rod = chunks("rod", Dims.of(length_m=2.0, diameter_m=0.3))

    low_m, high_m = boxes(placed(rod, turn, np.array([1.0, 2.0, 3.0])))[0]

    axis = turn[:, 0]
    reach_m = np.abs(axis) * 1.0 + np.sqrt(np.maximum(1 - axis**2, 0)) * 0.15
    assert high_m - [1, 2, 3] == pytest.approx(reach_m, abs=1e-7)
    assert low_m - [1, 2, 3] == pytest.approx(-reach_m, abs=1e-7)


def test_parts_are_placed_each_by_its_own():
    """Two boxes of one batch go to two places, and one turns."""
    pair = chunks("box", Dims.of(length_m=[1.0, 1.0], width_m=0.2, depth_m=0.2))
    turns = rotation(np.array([0.0, np.pi / 2]), np.zeros(2), np.zeros(2))

    there = boxes(placed(pair, turns, np.array([[0.0, 0, 0], [5, 0, 0]])))

    assert there[0] == pytest.approx(np.array([[-0.5, -0.1, -0.1], [0.5, 0.1, 0.1]]))
    assert there[1] == pytest.approx(np.array([[4.9, -0.5, -0.1], [5.1, 0.5, 0.1]]))


@pytest.mark.parametrize("shape", ["box", "rod"])
def test_a_part_may_be_taken_many_times(shape, example):
    """Copies of one part, with and without round corners."""
    three = chunks(shape, example(shape)).taken([0, 0, 0])

    assert len(boxes(three)) == 3


def test_flat_and_round_hoops_go_together():
    """A batch of both reaches as far as each alone."""
    flat = {"diameter_m": 1.2, "width_m": 0.3, "depth_m": 0.1}
    bar = {"diameter_m": 1.2, "end_diameter_m": 0.2}
    both = Dims.of(
        diameter_m=[1.2, 1.2],
        width_m=[0.3, np.nan],
        depth_m=[0.1, np.nan],
        end_diameter_m=[np.nan, 0.2],
    )

    together = boxes(chunks("hoop", both))

    assert together[0] == pytest.approx(boxes(chunks("hoop", Dims.of(**flat)))[0])
    assert together[1] == pytest.approx(boxes(chunks("hoop", Dims.of(**bar)))[0])


def test_a_mirror_puts_the_tip_on_the_other_side():
    """A cone mirrored across is as long and points left."""
    cone = chunks("cone", Dims.of(length_m=2.0, diameter_m=0.4))

    mirrored = placed(cone, np.diag([-1.0, 1, 1]), np.zeros(3))

    assert mirrored.points_m[0, 0, 1].tolist() == [-1, 0, 0]
    assert boxes(mirrored) == pytest.approx(boxes(cone))
