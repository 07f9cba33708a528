"""Timber at another moisture: laws. Outside figures are in tests/published."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.masses.moisture import FIBRE_SATURATION, density_at, gravity_of, moved_to

densities = st.floats(250.0, 1100.0)
moistures = st.floats(0.0, 0.29)


@given(density_kg_m3=densities, at=moistures, wanted=moistures)
def test_there_and_back(density_kg_m3, at, wanted):
    """Moved to another moisture and back the density is as it was."""
    moved = moved_to(density_kg_m3, at, wanted)

    assert moved_to(moved, wanted, at) == pytest.approx(density_kg_m3)
    assert density_at(gravity_of(density_kg_m3, at), at) == pytest.approx(density_kg_m3)


@given(density_kg_m3=densities, at=moistures, more=st.floats(0.001, 0.5))
def test_damp_timber_is_heavier(density_kg_m3, at, more):
    """Water adds more than the swelling takes away, below fibre saturation and above."""
    assert moved_to(density_kg_m3, at, at + more) > density_kg_m3


def test_oven_dry_wood_has_its_own_gravity():
    """0.5 is 500 kg/m3 without any water."""
    assert density_at(0.5, 0.0) == pytest.approx(500.0)


def test_beyond_fibre_saturation_wood_swells_no_more():
    """Its volume stays, so that the density goes as 1 + moisture."""
    ratio = density_at(0.5, 0.6) / density_at(0.5, FIBRE_SATURATION)

    assert ratio == pytest.approx(1.6 / 1.3)
