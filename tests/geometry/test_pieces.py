"""Dividing blanks: how many pieces, how large, and how much joint there is between them."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from estimator.geometry.blanks import BLANKS, Making, blank
from estimator.geometry.measures import Dims
from estimator.geometry.pieces import Joining, divided, fewest_pieces, slope_lap_m

lengths = st.floats(0.1, 3)
counts = st.integers(1, 12)
laps = st.floats(0, 0.1)
SHEETS = sorted(set(BLANKS) - {"run", "bought", "section", "hoop", "formed"})


def rectangles_m2(cut):
    """Return the area of the rectangles that the pieces are cut from."""
    return sum(piece.number * piece.length_m * piece.width_m for piece in cut.pieces)


def sizes(cut):
    """Return number, length and width of the pieces, in mm."""
    return [(p.number, round(1000 * p.length_m), round(1000 * p.width_m)) for p in cut.pieces]


def sheet(length_m, width_m):
    """Return the blank of a rectangle."""
    return blank("sheet", Dims.of(length_m=length_m, width_m=width_m))


def test_a_flashing_in_four_lengths():
    """5 m in four with laps of 75: three carry one, and three joints are 300 mm each."""
    cut = divided(sheet(5.0, 0.3), Joining(4, 1.5, 0.075))

    assert sizes(cut) == [(3, 1325, 300), (1, 1250, 300)]
    assert (cut.joints, cut.joint_m) == (3, pytest.approx(0.9))


def test_the_longest_piece_makes_more_of_them():
    """4 m of pieces up to 1.5 m take three; with a lap of 0.3 each covers 1.2, and it takes four.

    A piece that is short enough as a whole carries no lap, and needs no dividing.
    """
    assert sizes(divided(sheet(4.0, 0.3), Joining(1, 1.5))) == [(3, 1333, 300)]
    assert sizes(divided(sheet(4.0, 0.3), Joining(1, 1.5, 0.3))) == [(3, 1300, 300), (1, 1000, 300)]
    assert sizes(divided(sheet(1.5, 0.3), Joining(1, 1.5, 0.3))) == [(1, 1500, 300)]


def test_a_square_is_divided_both_ways():
    """2 x 2 m in four: four squares, four joints of a metre; one piece has a lap on neither side.

    The rectangles together are (2 + lap) squared.
    """
    cut = divided(sheet(2.0, 2.0), Joining(4, allowance_m=0.1))

    assert sizes(cut) == [(1, 1100, 1100), (1, 1100, 1000), (1, 1000, 1100), (1, 1000, 1000)]
    assert (cut.joints, cut.joint_m) == (4, pytest.approx(4.0))
    assert rectangles_m2(cut) == pytest.approx(2.1**2)


def test_a_disc_is_joined_only_inside_its_outline():
    """1 m in four: two cuts of a metre, in four joints; in nine: four chords a third out."""
    disc = blank("disc", Dims.of(diameter_m=1.0))

    assert divided(disc, Joining(4)).joint_m == pytest.approx(2.0, rel=1e-3)
    assert divided(disc, Joining(9)).joint_m == pytest.approx(4 * np.sqrt(1 - 1 / 9), rel=1e-3)


def test_a_ring_is_cut_as_arcs():
    """1000 over 900 in 8: each arc of 45 degrees lies in 383 x 84, and has one joint of 50.

    By hand: chord 1000 sin 22.5 = 382.7; 500 - 450 cos 22.5 = 84.3.
    """
    ring = blank("ring", Dims.of(diameter_m=1.0, bore_m=0.9))
    cut = divided(ring, Joining(8, allowance_m=0.01))

    assert sizes(cut) == [(8, 393, 84)]
    assert (cut.joints, cut.joint_m) == (8, pytest.approx(0.4))
    assert divided(ring, Joining(1)).joints == 0


def test_a_half_ring_is_open():
    """In four arcs it has three joints, and one arc without a lap."""
    half = blank("sector", Dims.of(diameter_m=2.0, bore_m=1.4, angle_rad=np.pi))
    cut = divided(half, Joining(4, allowance_m=0.01))

    assert [piece.number for piece in cut.pieces] == [3, 1]
    assert (cut.joints, cut.joint_m) == (3, pytest.approx(0.9))


def test_arcs_are_as_short_as_is_asked_for():
    """A ring of 2 m with no piece over 700 mm takes nine: 2 sin(20) = 0.684, 2 sin(22.5) = 0.765.

    Shorter arcs do not help where the slant of a cone is too long.
    """
    ring = blank("ring", Dims.of(diameter_m=2.0, bore_m=1.8))
    cone = blank("cone", Dims.of(length_m=1.0, diameter_m=0.6, end_diameter_m=0.2))

    assert divided(ring, Joining(1, 0.7)).number == 9
    assert divided(cone, Joining(1, 0.5)).number < 5
    assert divided(cone, Joining(1, 0.5)).longest_m > 0.5


def test_a_rolled_cone_is_closed_by_one_seam():
    """One piece has one seam as long as its slant; two halves have two."""
    cone = blank("cone", Dims.of(length_m=0.8, diameter_m=1.4, end_diameter_m=0.2))

    assert (divided(cone, Joining(1)).joints, divided(cone, Joining(2)).joints) == (1, 2)
    assert divided(cone, Joining(2)).joint_m == pytest.approx(2.0)


def test_what_is_in_pieces_already_is_not_divided_again():
    """Six gores wanted are six gores; no more than 700 mm long, they are cut across."""
    ball = blank("sphere", Dims.of(diameter_m=0.5), Making(pieces=6))

    assert divided(ball, Joining(6)).number == 6
    assert divided(ball, Joining(6)).joint_m == pytest.approx(6 * np.pi * 0.25)
    assert divided(ball, Joining(6, 0.7)).number == 12


def test_a_bar_is_divided_along_its_length():
    """9 m in two, or with none over 4 m in three; a bar takes no allowance."""
    bar = blank("rod", Dims.of(length_m=9.0, diameter_m=0.02))

    assert sizes(divided(bar, Joining(2, allowance_m=0.1))) == [(2, 4500, 0)]
    assert divided(bar, Joining(1, 4.0)).number == 3


def test_what_is_not_laid_out_has_no_pieces():
    """A ring of tube that nobody said a number of pieces for."""
    cut = divided(blank("torus", Dims.of(diameter_m=1.0, end_diameter_m=0.1)), Joining(4))

    assert (cut.pieces, cut.joints, cut.longest_m) == ((), 0, 0.0)


@given(st.sampled_from(SHEETS), counts, st.floats(0.2, 3), laps)
def test_dividing_never_loses_area(shape, pieces, longest_m, lap_m):
    """The rectangles cover the blank and its laps, whatever the division."""
    making = Making(pieces=pieces, over="whole outside" if shape == "box" else "one face")
    dims = Dims.of(
        length_m=1.5, width_m=0.5, depth_m=0.3, diameter_m=0.8, end_diameter_m=0.2, wall_m=0.01,
        angle_rad=2.0, bore_m=0.4, end_width_m=0.2,
    )  # fmt: skip
    flat = blank(shape, dims, making)
    cut = divided(flat, Joining(pieces, longest_m, lap_m))
    assume(cut.pieces)

    assert rectangles_m2(cut) >= flat.area_m2 * (1 - 1e-9)
    assert cut.number >= pieces


@given(lengths, lengths, counts, st.floats(0.2, 3), laps)
def test_a_rectangle_divided_covers_itself_and_its_laps_exactly(long_m, wide_m, pieces, most, lap):
    """Sides add up with a lap for each joint, and no piece is longer than asked for."""
    cut = divided(sheet(long_m, wide_m), Joining(pieces, most, lap))
    rows = {p.length_m for p in cut.pieces}

    lapped_m2 = cut.joint_m * lap
    corners_m2 = (cut.joints + 1) * lap**2
    assert -1e-9 <= rectangles_m2(cut) - long_m * wide_m - lapped_m2 <= corners_m2 + 1e-9
    assert cut.longest_m <= most * (1 + 1e-6)
    assert len(rows) <= 2
    assert cut.number >= max(pieces, fewest_pieces(sheet(long_m, wide_m), most))


def test_how_few_pieces_there_can_be():
    """4 x 2 m with none over 1.5 m: three by two."""
    assert fewest_pieces(sheet(4.0, 2.0), 1.5) == 6
    assert fewest_pieces(sheet(4.0, 2.0), math.inf) == 1
    assert fewest_pieces(sheet(4.5, 1.5), 1.5) == 3


def test_an_allowance_longer_than_the_longest_piece_does_not_count():
    """There is no way to keep to it; the pieces are as many as without one."""
    assert divided(sheet(1.0, 0.1), Joining(1, 0.2, 0.5)).number == 5


@pytest.mark.parametrize("slope_deg", [0.0, -10.0])
def test_no_lap_keeps_cover_on_the_level(slope_deg):
    """It would be endless."""
    with pytest.raises(ValueError, match="a lap needs a slope above level"):
        slope_lap_m(math.radians(slope_deg))
