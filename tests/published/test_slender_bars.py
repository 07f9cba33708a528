"""Natural frequencies of cantilevers, and the winds that set bars swinging, against published ones.

[FE]    A flat bar 1250 x 75 x 30 mm, 200 GPa, 7800 kg/m3, built in at one end: the first two
        frequencies a finite-element program gave its user, 15.7483 and 39.2254 Hz
        (a thread of physicsforums.com, number 240751).
[TIP]   Frequency Equation of Flexural Vibrating Cantilever Beam Considering the Rotary Inertial
        Moment of an Attached Mass, Mathematical Problems in Engineering 2017, 1568019, Table 1,
        last column: a point mass as heavy as the bar at its tip, first root of omega
        sqrt(m L^4 / E I) = 1.557298 (hindawi.com/journals/mpe/2017/1568019/tab1).
[WEDGE] A bar that tapers to an edge, and to a point: 5.315 and 8.719 for omega sqrt(m L^4 / E I) by
        its foot. Kirchhoff's solutions, textbooks of vibration: from memory.
[STACK] "Take vortex shedding seriously", a consulting engineers' note on the web: a stack of
        1 Hz and 2 m with a Strouhal number of 0.2 has a critical wind speed of 10 m/s.
[TUM]   Structural Wind Engineering tutorials, TU Munich, structural effects to EN 1991-1-4,
        github.com/mpentek/SWELecture: 2500 kg/m3 x 12.5 m2, 4.75 m wide, damping ratio 0.005 so
        delta = 0.005 x 2 pi, rho 1.25, n 0.24 Hz, a_G 2.0: Sc 69.61978179700372, v_CG
        79.36655124858424 m/s as printed.
[CNR]   An open-source code of the Italian wind guide CNR-DT 207 R1/2018: Strouhal numbers 0.18 of a
        circle, 0.12 of a square.
"""

from math import pi

import numpy as np
import pytest

from estimator.supports.cantilevers import even_frequency, tapered_frequency
from estimator.wind.shedding import (
    ROUND,
    SHARP,
    STROUHAL,
    critical_speed,
    galloping_factor,
    galloping_speed,
    scruton_number,
)

FLAT = [(0.030, 0.075, 15.7483), (0.075, 0.030, 39.2254)]


@pytest.mark.parametrize(("side_m", "other_m", "printed_hz"), FLAT)
def test_a_flat_bar_both_ways(side_m, other_m, printed_hz):
    """[FE] solids, so that the foot and the shear of a stocky bar count: 0.5 % either way."""
    stiffness_nm2 = 200e9 * other_m * side_m**3 / 12

    found = even_frequency(stiffness_nm2, 7800 * side_m * other_m, 1.25)

    assert found == pytest.approx(printed_hz, rel=5e-3)


def test_a_mass_as_heavy_as_the_bar_at_its_tip():
    """[TIP] exact to seven digits: the iteration by its steps to 1e-5, Dunkerley 0.3 % below it."""
    ones = np.ones(401)

    assert 2 * pi * tapered_frequency(ones, ones, 1.0, 1.0) == pytest.approx(1.557298, rel=1e-5)
    assert 2 * pi * even_frequency(1.0, 1.0, 1.0, 1.0) == pytest.approx(1.557298, rel=3e-3)
    assert 2 * pi * even_frequency(1.0, 1.0, 1.0, 1.0) < 1.557298


@pytest.mark.parametrize(("powers", "root"), [((3, 1), 5.315), ((4, 2), 8.719)])
def test_a_wedge_and_a_cone(powers, root):
    """[WEDGE] four digits: 2e-4 and the steps of the iteration."""
    r = np.linspace(1.0, 0.0, 401)
    stiffness, mass = (r**power for power in powers)

    assert 2 * pi * tapered_frequency(stiffness, mass, 1.0) == pytest.approx(root, rel=3e-4)


def test_critical_speed_of_a_stack():
    """[STACK] 1 Hz x 2 m / 0.2."""
    assert critical_speed(2.0, 1.0, 0.2) == pytest.approx(10.0)


def test_scruton_number_and_galloping():
    """[TUM] prints every digit; twice as deep as wide has the a_G it uses."""
    scruton = scruton_number(2500 * 12.5, 4.75, 0.005 * 2 * pi, 1.25)

    assert scruton == pytest.approx(69.61978179700372, rel=1e-12)
    assert galloping_speed(scruton, 0.24, 4.75, 2.0) == pytest.approx(79.36655124858424, rel=1e-12)
    assert galloping_factor(SHARP, 2.0) == 2.0


def test_strouhal_numbers():
    """[CNR] for the circle, [TUM] and [CNR] for the square."""
    assert STROUHAL == {ROUND: 0.18, SHARP: 0.12}
