"""Free movements named in words: kinematics of a rigid body, no outside values."""

import numpy as np
import pytest

from estimator.supports.arms import HOLDS
from estimator.supports.mechanisms import Movement, movement_words
from estimator.supports.sharing import free_movements

NAMES = ["B1", "B2", "B3", "B4"]


def words(points_m, *holds):
    """Return what is free when brackets at these points hold in these ways."""
    points_m = np.array(points_m, dtype=float)
    stiffness = np.array([np.diag(np.where(HOLDS[hold], 2e6, 0.0)) for hold in holds])
    free = free_movements(points_m, stiffness)
    return [movement_words(m, NAMES[: len(points_m)], points_m) for m in free]


def test_one_welded_bracket_holds_everything():
    """Six directions held at one place."""
    assert words([(5, 3, 0.4)], "welded") == []


def test_one_pin_turns_every_way():
    """Three turns, each about an axis through the pin."""
    assert sorted(words([(1, 2, 0.5)], "pin")) == [
        "free to turn about the axis across through B1",
        "free to turn about the axis out through B1",
        "free to turn about the axis up through B1",
    ]


def test_two_hooks_on_a_level():
    """They let the body slide off sideways and swing on the line through them."""
    assert words([(-1, 0, 0.3), (1, 0, 0.3)], "hook", "hook") == [
        "free to slide along across",
        "free to swing about the line through B1 and B2",
    ]


def test_three_pins_in_a_line():
    """Any number of pins in one line is a hinge."""
    assert words([(-1, 1, 0.2), (0, 1, 0.2), (2, 1, 0.2)], "pin", "pin", "pin") == [
        "free to swing about the line through B1, B2 and B3"
    ]


def test_three_pins_out_of_line():
    """A triangle of pins is enough."""
    assert words([(-1, 1, 0.2), (0, -1, 0.2), (2, 1, 0.2)], "pin", "pin", "pin") == []


def test_slides_let_the_body_rise():
    """Four slides hold out and across, never up."""
    corners = [(-1, 1, 0.2), (1, 1, 0.2), (-1, -1, 0.2), (1, -1, 0.2)]

    assert words(corners, *["slide"] * 4) == ["free to slide along up"]


def test_turn_about_an_axis_without_a_bracket():
    """Two hooks one above the other: a turn about out has its axis half-way between."""
    found = words([(0, 0, 0.3), (0, 1, 0.3)], "hook", "hook")

    assert sorted(found) == [
        "free to slide along across",
        "free to swing about the line through B1 and B2",
        "free to turn about the axis out through (0.000, 0.500, 0.300) m",
    ]


def test_slope_is_said_in_numbers():
    """A guide along a slope leaves a slide that is no axis."""
    level = np.array([1, 1, 0]) / np.sqrt(2)
    held = np.eye(6)
    held[:3, :3] -= np.outer(level, level)

    (free,) = free_movements(np.zeros((1, 3)), 1e6 * held[np.newaxis])

    assert free.kind == "slide"
    assert movement_words(free, ["B1"], np.zeros((1, 3))) == (
        "free to slide along (0.71, 0.71, 0.00)"
    )


def test_screw():
    """A nut on a thread: what turns it also moves it along, here 10 mm for each radian."""
    thread = np.array([0, 0, 0.01, 0, 0, 1.0])
    held = 1e6 * (np.eye(6) - np.outer(thread, thread) / (thread @ thread))

    (free,) = free_movements(np.zeros((1, 3)), held[np.newaxis])

    assert free.kind == "screw"
    assert movement_words(free, ["B1"], np.zeros((1, 3))) == (
        "free to turn about the axis out through B1 while sliding along it"
    )


def test_bracket_counts_as_on_a_line_within_a_millimetre():
    """A line that misses a bracket by more goes by its own point."""
    turn = Movement("turn", np.zeros(3), np.array([1.0, 0, 0]))

    assert "through B1" in movement_words(turn, ["B1"], np.array([[2, 0.0009, 0]]))
    assert "through (0.000" in movement_words(turn, ["B1"], np.array([[2, 0.0011, 0]]))


def test_nothing_held_is_free_in_all_six():
    """A bracket that holds nothing leaves three slides and three turns."""
    free = free_movements(np.zeros((1, 3)), np.zeros((1, 6, 6)))

    assert sorted(m.kind for m in free) == ["slide"] * 3 + ["turn"] * 3


@pytest.mark.parametrize("scale", [1e-3, 1.0, 1e3])
def test_size_of_the_job_does_not_matter(scale):
    """The rank test is on lengths relative to the spacing of the brackets."""
    hinge = np.array([(-1, 0, 0), (1, 0, 0)]) * scale
    triangle = np.array([(-1, 0, 0), (1, 0, 0), (0, 1, 0)]) * scale

    assert len(free_movements(hinge, np.tile(np.diag([1e6] * 3 + [0] * 3), (2, 1, 1)))) == 1
    assert free_movements(triangle, np.tile(np.diag([1e6] * 3 + [0] * 3), (3, 1, 1))) == ()
