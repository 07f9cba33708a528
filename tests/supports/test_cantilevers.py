"""Cantilevers that shake: laws of the lowest frequency, and where a bar cannot be told."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.supports.cantilevers import FIRST_ROOT, even_frequency, tapered_frequency

values = st.floats(0.1, 10.0)
masses = st.floats(0.0, 10.0)
STATIONS = 201


def even(stiffness_nm2, mass_kg_m):
    """Return a bar that is the same all along, at stations."""
    return np.full(STATIONS, stiffness_nm2), np.full(STATIONS, mass_kg_m)


def test_the_root_is_one_of_the_frequency_equation():
    """Euler and Bernoulli: cosh x cos x = -1 for a bar built in at one end."""
    assert math.cosh(FIRST_ROOT) * math.cos(FIRST_ROOT) == pytest.approx(-1, abs=1e-8)


@given(values, values, values)
def test_a_bar_alone_follows_the_closed_form(stiffness_nm2, mass_kg_m, length_m):
    """1.8751^2 / (2 pi) sqrt(E I / (m L^4)), exactly."""
    by_hand = 1.8751040687**2 / (2 * math.pi) * math.sqrt(stiffness_nm2 / mass_kg_m) / length_m**2

    assert even_frequency(stiffness_nm2, mass_kg_m, length_m) == pytest.approx(by_hand, rel=1e-9)


@given(values, values, values, values)
def test_a_mass_on_a_weightless_bar_is_a_spring(stiffness_nm2, tip_kg, length_m, times):
    """Stiffness 3 E I / L^3; four times the mass is half as fast."""
    by_hand = math.sqrt(3 * stiffness_nm2 / length_m**3 / tip_kg) / (2 * math.pi)
    found = even_frequency(stiffness_nm2, 0.0, length_m, tip_kg)

    assert found == pytest.approx(by_hand, rel=1e-9)
    slower = even_frequency(stiffness_nm2, 0.0, length_m, times**2 * tip_kg)
    assert slower * times == pytest.approx(found, rel=1e-9)


@given(values, values, values, masses)
def test_both_ways_agree_on_an_even_bar(stiffness_nm2, mass_kg_m, length_m, tip_kg):
    """Dunkerley's rule is below the truth by 0.4 % at most; the iteration is the truth."""
    rule = even_frequency(stiffness_nm2, mass_kg_m, length_m, tip_kg)
    truth = tapered_frequency(*even(stiffness_nm2, mass_kg_m), length_m, tip_kg)

    assert 0.996 * truth < rule < 1.0001 * truth


@given(values, values, values, masses)
def test_rayleigh_with_a_tip_load_is_above_and_dunkerley_below(
    stiffness_nm2, mass_kg_m, length_m, tip_kg
):
    """33/140 of its own mass at the tip, the usual estimate, is an upper bound."""
    shaken_kg = tip_kg + 33 / 140 * mass_kg_m * length_m
    rayleigh = math.sqrt(3 * stiffness_nm2 / (shaken_kg * length_m**3)) / (2 * math.pi)

    found = even_frequency(stiffness_nm2, mass_kg_m, length_m, tip_kg)

    assert 0.98 * rayleigh < found < rayleigh


@given(st.floats(1.0, 5.0))
def test_twice_as_large_is_half_as_fast(times):
    """Geometric similarity: the frequency goes as one over the size."""
    r = np.linspace(1.0, 0.2, STATIONS)
    found = tapered_frequency(r**4, r**2, 1.0)
    larger = tapered_frequency(times**4 * r**4, times**2 * r**2, times)

    assert larger * times == pytest.approx(found, rel=1e-9)


@given(st.floats(0.0, 1.0))
def test_held_at_the_thick_end_a_taper_is_faster(thin):
    """Less mass at the tip, and less of it to hold, for the same foot."""
    r = np.linspace(1.0, thin, STATIONS)

    assert tapered_frequency(r**4, r**2, 1.0) >= even_frequency(1.0, 1.0, 1.0) * 0.999


WRONG = [
    (0.0, 1.0, 1.0, 0.0, "above zero"),
    (1.0, 0.0, 1.0, 0.0, "above zero"),
    (1.0, 1.0, 0.0, 1.0, "above zero"),
    (math.nan, 1.0, 1.0, 0.0, "above zero"),
    (1.0, -1.0, 1.0, 5.0, "zero or more"),
    (1.0, 5.0, 1.0, -1.0, "zero or more"),
]


@pytest.mark.parametrize(("stiffness_nm2", "mass_kg_m", "length_m", "tip_kg", "why"), WRONG)
def test_what_cannot_shake_is_refused(stiffness_nm2, mass_kg_m, length_m, tip_kg, why):
    """Nothing to bend, nothing to move, or a mass below nothing."""
    with pytest.raises(ValueError, match=why):
        even_frequency(stiffness_nm2, mass_kg_m, length_m, tip_kg)
    with pytest.raises(ValueError, match=why):
        tapered_frequency(*even(stiffness_nm2, mass_kg_m), length_m, tip_kg)
