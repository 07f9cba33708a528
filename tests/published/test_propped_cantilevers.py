"""Cantilevers with a tie or a prop at the tip, against printed answers.

[TIE] Question with its answer at transtutors.com/questions/13679850 (as printed there, source of
      the question not named): cantilever of length 2 L, a vertical tie of length L and area A at
      its end, w per length on the outer half: P = 41 w L^4 / 24 I (L / A + 8 L^3 / 3 I).
[PROP] Question 2.7 at holooly.com/solutions-v20, "reaction in the prop of the propped cantilever"
       (as printed there): even load w over l, elastic prop of length L at the end:
       V = w l^4 / 8 E I (l^3 / 3 E I + L / A E); on a stiff prop 3 w l / 8.
[CONSISTENT] expertsmind.com, "Numerical example of propped cantilever": load P at a from the
             fixed end, stiff prop at the end: V = P a^2 (3 L - a) / 2 L^3.

A vertical tie is a stay to a wall point 10 km up, as limber as the tie: upright to 1e-4.
"""

import numpy as np
import pytest

from estimator.supports.arms import BUILT_IN, Arm, ArmSection
from estimator.supports.stays import StayBar, stay_pull

E_PA, I_M4 = 200e9, 3e-6
HIGH_M = 1e4
SECTION = ArmSection(2e-3, I_M4, I_M4, 4e-6)


def even_points(reach_m, *kinks_m):
    """Return places that stand for an even load, and their lengths: Gauss, exact between kinks."""
    bounds_m = np.unique(np.clip((0.0, *kinks_m, reach_m), 0.0, reach_m))
    middles_m, halves_m = (bounds_m[1:] + bounds_m[:-1]) / 2, np.diff(bounds_m) / 2
    at, shares = np.polynomial.legendre.leggauss(2)
    return (middles_m[:, None] + np.outer(halves_m, at)).ravel(), np.outer(halves_m, shares).ravel()


def spread_pull(arm, stay, reach_m, root=BUILT_IN):
    """Return the pull (3,) by an even load of one a metre from the wall face to there."""
    places_m, lengths_m = even_points(reach_m, stay.to_m)
    return lengths_m @ [stay_pull(arm, stay, root, at_m)[:3] for at_m in places_m]


def arm(length_m):
    """Return an arm that is loaded at its end."""
    return Arm(length_m, SECTION, E_PA, 80e9)


def tie(at_m, area_m2, length_m):
    """Return a stay as limber as an upright tie of this area and length."""
    return StayBar(HIGH_M, at_m, area_m2 * HIGH_M / length_m, E_PA)


@pytest.mark.parametrize("area_m2", [2e-6, 5e-5, 1e-3])
def test_tie_of_a_cantilever_loaded_on_its_outer_half(area_m2):
    """[TIE] The load on the outer half is that on the whole less that on the inner half: 1e-6."""
    length_m, w_n_m = 0.7, -900.0
    beam, rod = arm(2 * length_m), tie(2 * length_m, area_m2, length_m)

    found = spread_pull(beam, rod, 2 * length_m) - spread_pull(beam, rod, length_m)

    give = length_m / area_m2 + 8 * length_m**3 / (3 * I_M4)
    assert found[1] * w_n_m == pytest.approx(
        41 * -w_n_m * length_m**4 / (24 * I_M4 * give), rel=1e-6
    )


@pytest.mark.parametrize("area_m2", [2e-6, 5e-5, 1e-3])
def test_elastic_prop(area_m2):
    """[PROP] The prop pushes with what an upright tie pulls: 1e-6."""
    length_m, prop_m, w_n_m = 1.3, 0.5, -400.0

    found = spread_pull(arm(length_m), tie(length_m, area_m2, prop_m), length_m)[1] * w_n_m

    give = length_m**3 / (3 * E_PA * I_M4) + prop_m / (area_m2 * E_PA)
    assert found == pytest.approx(-w_n_m * length_m**4 / (8 * E_PA * I_M4 * give), rel=1e-6)


def test_stiff_prop():
    """[PROP] Three eighths of the load; a prop of a square metre still gives 1e-4."""
    found = spread_pull(arm(1.3), tie(1.3, 1.0, 0.01), 1.3)[1]

    assert found == pytest.approx(-3 * 1.3 / 8, rel=1e-4)


@pytest.mark.parametrize("at_m", [0.2, 0.65, 1.0, 1.3])
def test_load_anywhere_on_a_stiff_prop(at_m):
    """[CONSISTENT] By where the load is; the prop gives 1e-4."""
    found = stay_pull(arm(1.3), tie(1.3, 1.0, 0.01), at_m=at_m)[1]

    assert -found == pytest.approx(at_m**2 * (3 * 1.3 - at_m) / (2 * 1.3**3), rel=1e-4)
