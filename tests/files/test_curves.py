"""Curves and the lines that follow them: how close they stay, and what is too much.

The height of a chord of a circle, r (1 - cos(t / 2)), and the length of a circle are textbook
geometry; splines are compared with integrals of their own formula.
"""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.interpolate import BSpline

from estimator.files import curves
from estimator.files.curves import (
    METRES,
    Arc,
    Points,
    Spline,
    anchors,
    between,
    joined_cubics,
    lines,
    moved,
)
from estimator.files.shelf import FileError

CIRCLE = Arc(np.array([3.0, 1.0]), np.array([2.0, 0.0]), np.array([0.0, 2.0]))
CUBIC = joined_cubics(np.array([[0, 0], [0, 2], [3, 2], [3, 0], [3, -2], [6, -2], [6, 0.0]]))
QUARTER = Spline(
    np.array([[1, 0], [1, 1], [0, 1.0]]), np.array([0, 0, 0, 1, 1, 1.0]),
    np.array([1, math.sqrt(0.5), 1]), 2,
)  # fmt: skip
"""A quarter of a circle of radius one, as every book on NURBS has it."""


def _line(curve, chord=1e-3):
    (line,) = lines([(curve,)], chord)
    return line


def _length(line):
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


def _heights(line, middle, radius):
    """Return how far the middle of each chord lies inside a circle."""
    return radius - np.hypot(*((line[1:] + line[:-1]) / 2 - middle).T)


@given(st.floats(1e-3, 1e2), st.floats(1e-4, 10), st.floats(-7, 7), st.floats(-7, 7))
def test_an_arc_stays_within_the_chord_height(radius, chord, start_rad, end_rad):
    """Of the height that was asked for, or 2.5 in ten thousand of the circle if that is less."""
    arc = CIRCLE._replace(first=np.array([radius, 0]), second=np.array([0, radius]),
                          start_rad=start_rad, end_rad=end_rad)  # fmt: skip

    line = _line(arc, chord)

    allowed = min(chord, curves.FINEST * 2 * radius)
    assert _heights(line, arc.middle, radius).max() <= allowed * (1 + 1e-6) + 1e-12 * radius
    ends = arc.middle + radius * np.array(
        [[math.cos(t), math.sin(t)] for t in (start_rad, end_rad)]
    )
    assert line[[0, -1]] == pytest.approx(ends, abs=1e-9 * radius)


def test_a_circle_is_as_wide_as_it_is():
    """Its four furthest points are among those it is followed by."""
    line = _line(CIRCLE, 0.1)

    assert line.min(axis=0) == pytest.approx([1, -1], abs=1e-12)
    assert line.max(axis=0) == pytest.approx([5, 3], abs=1e-12)


def test_a_finer_chord_needs_more_points():
    """The height goes with the square of the step: a ninth of it takes three times as many."""
    coarse, fine = (len(_line(CIRCLE, chord)) for chord in (9e-4, 1e-4))

    assert fine == pytest.approx(3 * coarse, rel=0.1)


def test_an_arc_may_turn_the_other_way():
    """From a quarter back to nothing."""
    line = _line(CIRCLE._replace(start_rad=math.pi / 2, end_rad=0.0))

    assert line[[0, -1]] == pytest.approx(np.array([[3, 3], [5, 1.0]]))
    assert _length(line) == pytest.approx(math.pi, rel=1e-3)


@pytest.mark.parametrize("bulge", [1.0, -1.0, 0.25, -3.0, math.tan(math.pi / 8)])
def test_a_bulge_is_the_tangent_of_a_quarter_of_the_angle(bulge):
    """The arc leaves its chord by bulge x half the chord, to the right when it is above zero."""
    start, end = np.array([1.0, 2.0]), np.array([4.0, 6.0])

    line = _line(between(start, end, bulge), 1e-6)

    assert line[[0, -1]] == pytest.approx(np.array([start, end]))
    right = np.array([0.8, -0.6])
    off = (line - start) @ right
    assert (off.max() if bulge > 0 else off.min()) == pytest.approx(bulge * 2.5, rel=1e-4)
    angle_rad = 4 * math.atan(abs(bulge))
    radius = 2.5 / math.sin(angle_rad / 2)
    assert _length(line) == pytest.approx(radius * angle_rad, rel=1e-5)


def test_a_quarter_of_a_circle_as_a_rational_spline():
    """Every point of it is one from the middle."""
    line = _line(QUARTER, 1e-6)

    assert np.hypot(*line.T) == pytest.approx(1.0)
    assert _heights(line, 0.0, 1.0).max() <= 1.05e-6
    assert _length(line) == pytest.approx(math.pi / 2, rel=1e-5)


def test_the_area_under_a_spline():
    """Against the integral of y dx over its parameter, by adaptive quadrature."""
    controls = np.array([[0, 0], [1, 3], [2, -1], [4, 4], [5, 1], [6, 0.0]])
    knots = np.array([0, 0, 0, 0, 0.3, 0.7, 1, 1, 1, 1])
    curve = BSpline(knots, controls, 3)
    slope = curve.derivative()
    area, _ = quad(lambda t: curve(t)[1] * slope(t)[0], 0, 1, points=[0.3, 0.7])

    line = _line(Spline(controls, knots, np.ones(6), 3), 1e-5)

    assert np.trapezoid(line[:, 1], line[:, 0]) == pytest.approx(area, abs=2e-5 * 6)


def test_a_spline_that_is_not_clamped_runs_between_its_inner_knots():
    """A uniform cubic through three equal steps of controls is that straight line."""
    controls = np.column_stack((np.arange(6.0), np.zeros(6)))

    line = _line(Spline(controls, np.arange(10.0), np.ones(6), 3))

    assert line[[0, -1], 0] == pytest.approx([1, 4])
    assert not line[:, 1].any()


def test_a_curve_that_doubles_back_is_followed_to_its_tip():
    """All controls on one line: it overshoots both of its ends."""
    line = _line(joined_cubics(np.array([[0, 0], [3, 0], [-2, 0], [1, 0.0]])), 1e-4)

    t = np.linspace(0, 1, 100_001)
    x = 9 * t * (1 - t) ** 2 - 6 * t**2 * (1 - t) + t**3
    assert line[:, 0].max() == pytest.approx(x.max(), abs=1e-3)
    assert line[:, 0].min() == pytest.approx(x.min(), abs=1e-3)


@given(st.floats(-3, 3), st.floats(-5, 5), st.floats(0.1, 4), st.booleans())
def test_moving_a_curve_moves_its_points(angle_rad, shift, scale, mirrored):
    """Turned, scaled, mirrored and shifted before it is followed, or after."""
    c, s = scale * math.cos(angle_rad), scale * math.sin(angle_rad)
    linear = np.array([[c, -s], [s, c]]) @ np.diag([1.0, -1.0 if mirrored else 1.0])
    by = np.array([shift, 2 * shift])
    for curve in (CIRCLE, CUBIC, QUARTER, Points(np.eye(2))):
        before, after = _line(moved(curve, linear, by), scale * 1e-4), _line(curve, 1e-4)
        assert before[[0, -1]] == pytest.approx(after[[0, -1]] @ linear.T + by, abs=1e-9)
        assert _length(before) == pytest.approx(scale * _length(after), rel=1e-5)


def test_a_path_is_one_line_through_all_its_curves():
    """Where one curve begins the other has ended: that point comes once."""
    (line,) = lines([(Points(np.array([[0, 0], [5, 1.0]])), CIRCLE)], 0.5)

    assert line[:2].tolist() == [[0, 0], [5, 1]]
    assert (np.hypot(*np.diff(line, axis=0).T) > 0).all()


def test_a_curve_without_size_is_a_dot():
    """It has its own points and no others."""
    dot = CIRCLE._replace(first=np.zeros(2), second=np.zeros(2))

    assert not np.ptp(_line(dot), axis=0).any()


def test_anchors_hold_the_curve():
    """The box of an ellipse, the controls of a spline."""
    assert np.ptp(anchors(CIRCLE), axis=0).tolist() == [4, 4]
    assert anchors(CUBIC) is CUBIC.controls


FLAWED = [
    Points(np.array([[0, 0], [math.nan, 1]])),
    Points(np.array([[0, 0], [1e13, 1]])),
    CIRCLE._replace(middle=np.array([math.inf, 0])),
    CIRCLE._replace(end_rad=math.nan),
]


@pytest.mark.parametrize("curve", FLAWED, ids=str)
def test_what_is_not_a_number_is_refused(curve):
    """So is what no unit of length could bring near."""
    with pytest.raises(FileError, match="not numbers, or far too large"):
        lines([(curve,)], 1.0)


def test_a_place_that_is_not_a_number_is_refused():
    """A transform of a drawing can be one."""
    with pytest.raises(FileError, match="not numbers"):
        moved(CIRCLE, np.full((2, 2), math.inf), np.zeros(2))


@pytest.mark.parametrize("curve", [CIRCLE, CUBIC, Points(np.zeros((40, 2)))])
def test_points_without_number_are_refused(monkeypatch, curve):
    """Curves are told before their points are made."""
    monkeypatch.setattr(curves, "MOST_POINTS", 30)

    with pytest.raises(FileError, match="more than 500,000 points"):
        lines([(curve,)], 1e-9)


def test_units_against_the_inch():
    """The inch is 25.4 mm exactly (international yard and pound agreement, 1959)."""
    assert METRES["in"] == pytest.approx(25.4 * METRES["mm"])
    assert METRES["ft"] == pytest.approx(12 * METRES["in"])
    assert METRES["yd"] == pytest.approx(3 * METRES["ft"])
    assert 96 * METRES["px"] == pytest.approx(72 * METRES["pt"]) == pytest.approx(6 * METRES["pc"])
