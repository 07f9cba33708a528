"""Lines joined into loops: any order, any direction, small gaps, and what does not close."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.geometry.joining import JOIN_M, joined

SQUARE = np.array([[0, 0], [2, 0], [2, 1], [0, 1.0]])


def _sides(loop):
    return [np.stack((loop[i], loop[(i + 1) % len(loop)])) for i in range(len(loop))]


def _area(loop):
    x, y = loop.T
    return abs(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2


@given(st.permutations(range(4)), st.lists(st.booleans(), min_size=4, max_size=4))
def test_order_and_direction_do_not_matter(order, turned):
    """Four sides make the rectangle, however they come."""
    sides = [side[::-1] if turned[i] else side for i, side in enumerate(_sides(SQUARE))]

    found = joined([sides[i] for i in order])

    (loop,) = found.loops
    assert {*map(tuple, loop.tolist())} == {*map(tuple, SQUARE.tolist())}
    assert _area(loop) == pytest.approx(2.0)
    assert (found.gaps, found.bridged, found.doubled, found.dots) == ((), 0, 0, 0)


@given(st.integers(3, 40), st.integers(1, 30), st.randoms(use_true_random=False))
def test_splitting_a_loop_does_not_matter(corners, pieces, random):
    """A polygon in pieces of any number of sides is the polygon."""
    angle_rad = np.linspace(0, 2 * np.pi, corners, endpoint=False)
    loop = np.column_stack((np.cos(angle_rad), np.sin(angle_rad)))
    around = np.concatenate((loop, loop[:1]))
    cuts = sorted({0, corners, *(random.randint(0, corners) for _ in range(pieces))})
    lines = [around[a : b + 1] for a, b in pairwise(cuts)]
    random.shuffle(lines)

    (found,) = joined(lines).loops

    assert len(found) == corners
    assert _area(found) == pytest.approx(_area(loop))


def test_a_closed_line_is_a_loop_by_itself():
    """Its first corner is not repeated."""
    (loop,) = joined([np.concatenate((SQUARE, SQUARE[:1]))]).loops

    assert loop.tolist() == SQUARE.tolist()


def test_gaps_within_reach_are_bridged_and_counted():
    """Both ends move to the middle between them."""
    first, second = SQUARE[:3] + np.array([0, 0.4 * JOIN_M]), SQUARE[[2, 3, 0]]

    found = joined([first, second])

    assert (found.gaps, found.bridged) == ((), 2)
    assert found.widest_m == pytest.approx(0.4 * JOIN_M)
    (loop,) = found.loops
    assert loop[0] == pytest.approx([0, 0.2 * JOIN_M])


def test_lines_that_overshoot_a_corner_do_not_cross_there():
    """Each goes past the other by less than a gap: the corner is between their ends."""
    over = 0.4 * JOIN_M
    side = np.array([[0, 0], [2 + over, 0.0]])
    rest = np.array([[2, -over], [2, 1], [0, 1], [0, 0.0]])

    (loop,) = joined([side, rest]).loops

    assert [2 + over / 2, -over / 2] == pytest.approx(loop[1])


def test_an_open_line_is_told_with_both_ends():
    """A gap of a millimetre is no rounding."""
    found = joined([np.concatenate((SQUARE, [[0, 0.001]]))])

    (gap,) = found.gaps
    assert found.loops == ()
    assert sorted((gap.at_m.tolist(), gap.next_m.tolist())) == [[0, 0], [0, 0.001]]
    assert gap.size_m == pytest.approx(0.001)


def test_the_nearest_gap_comes_first():
    """Two halves that miss each other by 2 mm at one end and 1 mm at the other."""
    left = np.array([[1, 0], [0, 0], [0, 1], [1, 1.0]])
    right = np.array([[1.002, 0], [2, 0], [2, 1], [1.001, 1.0]])

    found = joined([left, right])

    assert [gap.size_m for gap in found.gaps] == pytest.approx([0.001, 0.002])


def test_where_three_lines_meet_one_end_is_over():
    """A tail at a corner: one end is too much there, and its other end is open by itself."""
    found = joined([*_sides(SQUARE), np.array([[0, 0], [-1, 0.0]])])

    assert found.junctions_m.tolist() == [[0, 0]]
    (gap,) = found.gaps
    assert (gap.at_m.tolist(), gap.size_m) == ([-1, 0], 0)


def test_where_four_lines_meet_they_are_joined_two_by_two():
    """Two loops that touch at a corner: whether they may is not decided here."""
    found = joined([*_sides(SQUARE), *_sides(-SQUARE)])

    assert not len(found.junctions_m)
    assert sum(_area(loop) for loop in found.loops) == pytest.approx(4.0)


def test_lines_drawn_twice_count_once():
    """The same way or the other way round."""
    sides = _sides(SQUARE)

    found = joined([*sides, sides[0], sides[1][::-1]])

    assert (len(found.loops), found.gaps, found.doubled) == (1, (), 2)


def test_dots_are_left_out_and_counted():
    """Points that repeat the one before are no sides."""
    dot = np.zeros((2, 2))

    found = joined([dot, np.repeat(np.concatenate((SQUARE, SQUARE[:1])), 2, axis=0), dot])

    assert found.dots == 2
    assert found.loops[0].tolist() == SQUARE.tolist()


def test_lines_shorter_than_a_gap_join_like_others():
    """A side in four pieces, each within reach of all the others, is still one side."""
    step = JOIN_M / 5
    x = np.array([0, step, 2 * step, 3 * step])
    short = [np.array([[a, 0], [b, 0.0]]) for a, b in pairwise(x)]
    rest = np.array([[x[-1], 0], [2, 0], [2, 1], [0, 1], [0, 0.0]])

    found = joined([short[1], rest, short[0][::-1], short[2]])

    (loop,) = found.loops
    assert (len(loop), found.bridged) == (7, 0)


def test_a_loop_smaller_than_a_gap_is_closed_if_it_is():
    """Nothing is bridged to close it; a short open line stays open."""
    assert len(joined([np.concatenate((SQUARE, SQUARE[:1])) * JOIN_M / 9]).loops) == 1
    assert len(joined([SQUARE[:2] * JOIN_M / 9]).gaps) == 1


def test_nothing_makes_nothing():
    """No lines, no loops."""
    found = joined([])

    assert (found.loops, found.gaps, found.widest_m, len(found.junctions_m)) == ((), (), 0.0, 0)


def test_a_star_of_lines_is_told_and_not_gone_through_pair_by_pair():
    """Five thousand ends at one point."""
    angle_rad = np.linspace(0, 6, 5000)
    rays = np.stack(
        (np.zeros((5000, 2)), np.column_stack((np.cos(angle_rad), np.sin(angle_rad)))), 1
    )

    found = joined([*rays])

    assert found.loops == ()
    assert len(found.gaps) > 2500
