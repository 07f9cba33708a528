"""Lattice towers and the largest topographic factor against published sheets.

[NSCP] Printed sheet of the wind on an elevated tank by the National Structural Code of the
       Philippines 2010, which adopts chapter 6 of ASCE 7-05, whose figure of lattice towers is that
       of later editions: square in plan, 0.3 closed, C_f 2.59 of flat and 1.60 of round members, by
       1.20 along the diagonal; scribd.com/doc/274564109.
[OPEN] Notes with a script for open structures by ASCE 7-10, github.com/tutajrobert/scripts: K_1 at
       most 0.72, K_zt at most 2.9584.
"""

import pytest

from estimator.wind.asce7_frames import diagonal_factor, lattice_tower, round_members_factor
from estimator.wind.asce7_hills import KINDS, Feature, topographic_factor
from estimator.wind.likenesses import LIKENESSES
from estimator.wind.shapes import Body


def test_a_square_tower_of_flats_and_of_rounds():
    """[NSCP] prints two decimals: 4.0 x 0.09 - 5.9 x 0.3 + 4.0 = 2.59, x 0.6159 = 1.595."""
    flat = lattice_tower("square", 0.3).value

    assert flat == pytest.approx(2.59, abs=0.005)
    assert flat * round_members_factor(0.3) == pytest.approx(1.60, abs=0.0051)
    assert diagonal_factor(0.3) == 1.20


@pytest.mark.parametrize(
    ("name", "printed"), [("lattice tower", 2.59), ("lattice tower of rounds", 1.60)]
)
def test_a_part_that_is_a_tower_takes_the_diagonal(name, printed):
    """[NSCP] its worse direction, 1.20 of the face, for every side the wind comes from."""
    tower = Body(length_m=3.0, width_m=1.0, depth_m=1.0, solidity=0.3)
    found = LIKENESSES[name].catches(tower).sides[0].coefficient

    assert found.value == pytest.approx(1.20 * printed, rel=0.004)


def test_no_hill_gives_more_than_the_largest_topographic_factor():
    """[OPEN] (1 + 0.72)^2 = 2.9584, of a ridge in exposure C; its table rounds 1.45 / 2 = 0.725."""
    steepest = topographic_factor(0.0, Feature("ridge", 50.0, 50.0), "C")

    assert steepest == pytest.approx(2.9584, rel=0.006)
    assert KINDS["ridge"].shape["C"] / 2 == pytest.approx(0.72, abs=0.0051)
