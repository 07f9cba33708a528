"""Pointing, turning and setting out, by the frame the whole program uses."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.geometry.placing import AXES, about_axis, copies, pointing, rotation

ACROSS, UP, OUT = np.eye(3)
NAMED = {"across": ACROSS, "up": UP, "out": OUT}
angles = st.floats(-7, 7)

POINTINGS = [
    ("", "", ACROSS, UP, OUT),
    ("across", "out", ACROSS, UP, OUT),
    ("up", "", UP, -ACROSS, OUT),
    ("out", "", OUT, -UP, ACROSS),
    ("", "up", ACROSS, -OUT, UP),
    ("", "across", OUT, -UP, ACROSS),
    ("up", "across", UP, OUT, ACROSS),
    ("out", "up", OUT, ACROSS, UP),
]


@pytest.mark.parametrize(("along", "faces", "first", "second", "third"), POINTINGS)
def test_a_shape_points_where_it_is_told(along, faces, first, second, third):
    """Columns are where along, beside and faces go; a blank keeps its default if it can."""
    matrix = pointing(along, faces)

    assert matrix.T.tolist() == np.array([first, second, third]).tolist()


@pytest.mark.parametrize("along", ["", *AXES])
@pytest.mark.parametrize("faces", ["", *AXES])
def test_every_pointing_is_a_turn_and_no_mirror(along, faces):
    """Determinant one for every pair that can be."""
    if along == faces != "":
        with pytest.raises(ValueError, match="and face"):
            pointing(along, faces)
    else:
        assert np.linalg.det(pointing(along, faces)) == pytest.approx(1)


def test_an_unknown_axis_is_refused():
    """The message lists the axes."""
    with pytest.raises(ValueError, match="no axis 'left'; the axes are across, up, out"):
        pointing(along="left")


QUARTER = np.pi / 2
TURNS = [
    ("turn is anticlockwise from the street", {"turn_rad": QUARTER}, ACROSS, UP),
    ("tip leans the top out", {"tip_rad": QUARTER}, UP, OUT),
    ("swing turns the front to the right", {"swing_rad": QUARTER}, OUT, ACROSS),
]


@pytest.mark.parametrize(("said", "turned", "before", "after"), TURNS, ids=[t[0] for t in TURNS])
def test_each_angle_turns_as_said(said, turned, before, after):
    """The three sentences of the contract, a quarter turn each."""
    assert rotation(**turned) @ before == pytest.approx(after, abs=1e-15), said


def test_turn_comes_first_then_tip_then_swing():
    """A hand along across: turned up, tipped out, swung to the right, it is back."""
    hand = rotation(turn_rad=QUARTER, tip_rad=QUARTER, swing_rad=QUARTER) @ ACROSS

    assert hand == pytest.approx(ACROSS, abs=1e-15)


@given(angles, angles, angles)
def test_a_rotation_keeps_lengths_and_handedness(turn_rad, tip_rad, swing_rad):
    """R R^T is one, and so is its determinant."""
    matrix = rotation(turn_rad, tip_rad, swing_rad)

    assert matrix @ matrix.T == pytest.approx(np.eye(3), abs=1e-12)
    assert np.linalg.det(matrix) == pytest.approx(1)


@given(st.lists(angles, min_size=1, max_size=4), st.sampled_from(sorted(AXES)))
def test_rotations_about_one_axis_add_up(several_rad, axis):
    """Many at once, and each undone by its opposite."""
    there = about_axis(axis, several_rad)
    back = about_axis(axis, -np.array(several_rad))

    assert there @ back == pytest.approx(np.broadcast_to(np.eye(3), there.shape), abs=1e-12)
    assert there @ NAMED[axis] == pytest.approx(np.broadcast_to(NAMED[axis], (len(there), 3)))


def test_a_row_runs_from_end_to_end():
    """Five places over two metres, along across, unturned."""
    places = copies("row", 5, spread_m=2.0)

    assert places.offsets_m[:, 0].tolist() == [-1.0, -0.5, 0.0, 0.5, 1.0]
    assert np.abs(places.offsets_m[:, 1:]).max() == 0
    assert places.rotations.tolist() == np.broadcast_to(np.eye(3), (5, 3, 3)).tolist()


@pytest.mark.parametrize(("set_out", "axis"), [("row", 0), ("row up", 1), ("row out", 2)])
def test_a_row_runs_along_the_axis_it_names(set_out, axis):
    """Three places over one metre, on that axis and no other."""
    places = copies(set_out, 3, spread_m=1.0)

    assert places.offsets_m[:, axis].tolist() == [-0.5, 0.0, 0.5]
    assert not np.delete(places.offsets_m, axis, axis=1).any()


def test_a_ring_goes_anticlockwise_from_its_start():
    """Four round a circle of 2 m from the top; each turned by the angle it stands at."""
    places = copies("ring", 4, spread_m=2.0, start_rad=QUARTER)

    assert places.offsets_m == pytest.approx(np.array([UP, -ACROSS, -UP, ACROSS]), abs=1e-15)
    assert places.rotations @ ACROSS == pytest.approx(places.offsets_m, abs=1e-15)


@pytest.mark.parametrize("set_out", ["", "row", "row up", "row out", "scattered"])
def test_a_lone_part_stays_in_its_place(set_out):
    """One copy has nothing to be set out from."""
    assert copies(set_out, 1, spread_m=3.0).offsets_m.tolist() == [[0, 0, 0]]


def test_copies_without_a_set_out_share_one_place():
    """Blank stacks them."""
    assert not copies("", 3, spread_m=3.0).offsets_m.any()


@given(st.integers(1, 50), st.floats(0, 10))
def test_scattered_copies_have_the_moment_of_their_line(count, spread_m):
    """spread^2 / 12 for any count: what the offsets lack is in the smear."""
    places = copies("scattered", count, spread_m=spread_m)

    mean_square_m2 = (places.offsets_m[:, 0] ** 2).mean() + places.smear_m2[0, 0]

    assert mean_square_m2 == pytest.approx(spread_m**2 / 12, abs=1e-12)
    assert places.offsets_m[:, 0].sum() == pytest.approx(0, abs=1e-9)


def test_no_copies_are_refused():
    """A count of nought is for the caller to leave out."""
    with pytest.raises(ValueError, match="count of one or more, got 0"):
        copies("row", 0)


def test_an_unknown_set_out_is_refused():
    """The message lists the choices."""
    with pytest.raises(ValueError, match="no set-out 'spiral'; the choices are row, row up"):
        copies("spiral", 2)
