"""Drag of plain bodies against a textbook of fluid mechanics.

[MYO] B. R. Munson, D. F. Young, T. H. Okiishi and others, Fundamentals of Fluid Mechanics, Figures
      9.19 and 9.20, pp. 354-355, as shown at scribd.com/document/591607266. Its cones are told by
      half of their apex angle: 90 degrees is a disc.
"""

import math

import numpy as np
import pytest

from estimator.wind.charts import corner_factor, rectangle_coefficient
from estimator.wind.coefficients import flat_plate, sharp_section
from estimator.wind.handbook import cone_drag, drag, end_on_drag, long_rectangle_drag
from estimator.wind.sided import bowl, half_tube


@pytest.mark.parametrize(("half_deg", "printed"), [(10, 0.30), (30, 0.55), (60, 0.80), (90, 1.15)])
def test_cones(half_deg, printed):
    """[MYO] point to the wind: its own points, to the last digit."""
    assert cone_drag(math.radians(half_deg)) == pytest.approx(printed)


@pytest.mark.parametrize(("ratio", "printed"), [(0.5, 1.1), (1.0, 0.93), (2.0, 0.83), (4.0, 0.85)])
def test_rods_end_to_the_wind(ratio, printed):
    """[MYO] circular rod parallel to the flow; another book prints up to 0.02 more from 2 on."""
    assert printed <= end_on_drag(ratio) <= printed + 0.021


@pytest.mark.parametrize(
    ("ratio", "printed"), [(0.1, 1.9), (0.5, 2.5), (0.65, 2.9), (1.0, 2.2), (2.0, 1.6), (3.0, 1.3)]
)
def test_rectangles_in_smooth_flow(ratio, printed):
    """[MYO] depth over width, Re 1e5, as the rival of Figure 7.23 of EN 1991-1-4."""
    assert long_rectangle_drag(ratio) == pytest.approx(printed)


def test_the_charts_of_rectangles_agree_on_where_they_are_worst():
    """[MYO] 0.65, EN 0.7; in gusts the peak is lower (2.4 for 2.9), a square within 3 %."""
    ratios = np.geomspace(0.1, 3.0, 500)
    book, standard = (ratios[np.argmax(chart(ratios))]
                      for chart in (long_rectangle_drag, rectangle_coefficient))  # fmt: skip

    assert book == pytest.approx(0.65, abs=0.01)
    assert standard == pytest.approx(0.7, abs=0.01)
    assert rectangle_coefficient(1.0) == pytest.approx(2.2, rel=0.03)


@pytest.mark.parametrize(("ratio", "printed"), [(0.0, 2.2), (0.02, 2.0), (0.17, 1.2), (0.33, 1.0)])
def test_rounding_the_corners_of_a_square(ratio, printed):
    """[MYO] R/D, over its own sharp square: EN takes off as much or up to 0.05 less."""
    measured = printed / 2.2

    assert measured - 1e-9 <= corner_factor(ratio) <= measured + 0.05


BODIES = [
    ("cube, face to the wind", 1.05),
    ("cube, edge to the wind", 0.80),
    ("bowl, hollow to the wind", 1.42),
    ("bowl, dome to the wind", 0.38),
    ("solid half ball, flat to the wind", 1.17),
    ("solid half ball, round to the wind", 0.42),
    ("trough, hollow to the wind", 2.3),
    ("long angle, the worse side", 1.98),
    ("long hexagon", 1.0),
]


@pytest.mark.parametrize(("body", "printed"), BODIES)
def test_printed_bodies(body, printed):
    """[MYO] prints two decimals, and the same as other books for bowls and troughs."""
    assert drag(body).value == printed
    assert drag(body).confirmed


def test_a_shell_is_heavier_from_its_hollow_side():
    """[MYO] semicircular shell 2.3 and 1.1, hollow half ball 1.42 and 0.38."""
    shell, ball = half_tube(), bowl(1.0, 0.5)

    assert (shell.back.value, ball.back.value) == (2.3, pytest.approx(1.42))
    assert 1.1 <= shell.front.value <= 1.2
    assert ball.front.value == pytest.approx(0.38)


def test_sharp_edged_sections_are_not_below_the_book():
    """[MYO] angle 1.98 and 1.82, T 1.80 and 1.65, long; I beam 2.05: 2.0 is within 3 % of all."""
    endless = sharp_section(1.0, 0.1, sealed_ends=2).value

    assert endless >= 1.98
    assert endless == pytest.approx(2.05, rel=0.03)


def test_a_disc_is_not_below_the_book():
    """[MYO] thin disc 1.1: the plate of the standard, as wide as long, is above it."""
    assert flat_plate(1.0, 1.0).value >= 1.1
