"""Factors and terrain: what a rule module is handed."""

import pytest

from estimator.reference.factors import factors
from estimator.wind.en1991 import TERRAIN


def test_an_annex_replaces_what_it_changes(library):
    """The UK annex changes xi and psi0; the partial factors stay as recommended."""
    eurocode, uk = factors(library), factors(library, "UK")

    assert (eurocode["psi0 wind"].value, uk["psi0 wind"].value) == (0.6, 0.5)
    assert (eurocode["xi"].value, uk["xi"].value) == (0.85, 0.925)
    assert uk["gamma_g_sup"] == eurocode["gamma_g_sup"]
    assert uk["xi"].annex == "UK"


def test_an_annex_that_is_not_there_is_a_slip(library):
    """The message names those there are."""
    with pytest.raises(KeyError, match=r"no annex 'FR'.*UK.*recommended"):
        factors(library, "FR")


def test_what_the_standard_does_not_list_is_marked(library):
    """Trapped water and mechanism are the program's choice, and say so; ice has a rule."""
    own = {symbol for symbol, factor in factors(library).items() if factor.source == "program"}

    assert own == {"psi0 water trapped", "psi0 mechanism"}
    assert {factors(library)[f"psi0 {name}"].checked for name in ("ice", "wind on ice")} == {
        "memory"
    }


def test_the_yield_goes_with_the_loads(library):
    """AISC 360, from memory: 1 / 0.90 beside strength loads, Omega 1.67 beside unfactored ones."""
    strength, allowable = factors(library, "ASCE"), factors(library, "ASCE ASD")

    assert strength["gamma_m0"].value == pytest.approx(1 / 0.90, abs=1e-4)
    assert allowable["gamma_m0"].value == 1.67


def test_the_table_of_terrain_is_what_the_rule_takes(library):
    """z0 and z_min of every category, as they are printed for whoever looks them up."""
    rows = library.table("terrain").rows

    assert {
        row.key: (row.need("roughness_length_m"), row.need("min_height_m")) for row in rows
    } == {key: tuple(terrain) for key, terrain in TERRAIN.items()}
