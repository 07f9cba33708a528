"""Materials: names makers write, and what is asked about."""

import pytest

from estimator.reference.finding import Reason
from estimator.reference.materials import find_material

PLAIN = {
    "copper": "copper",
    "lead": "lead",
    "bronze": "bronze",
    "steel": "mild steel",
    "aluminium": "aluminium",
    "softwood": "softwood",
    "hardwood": "hardwood",
    "felt": "felt",
    "polymer tape": "polymer tape",
    "wax": "wax",
    "oil": "patination oil",
    "1.4404": "stainless 316",
    "304": "stainless 304",
    "phosphor bronze": "phosphor bronze",
    "c24": "C24",
    "ice": "ice",
}
ASKED = {"stainless": 3, "oak": 2, "larch": 2, "brass": 4, "plywood": 4, "zinc": 2, "iron": 2}


def every_material(library):
    """Return all of the table, as they are found by their names."""
    return [find_material(library, row.key) for row in library.table("materials").rows]


@pytest.mark.parametrize(("typed", "key"), PLAIN.items())
def test_a_plain_name_leads_to_one_material(library, typed, key):
    """What a maker writes on a list without thinking of tables."""
    assert find_material(library, typed).key == key


@pytest.mark.parametrize(("typed", "choices"), ASKED.items())
def test_a_name_of_several_is_asked_about(library, typed, choices):
    """Stainless may be 304, 316 or duplex: they differ in mass and in what they stand."""
    miss = find_material(library, typed)

    assert (miss.reason, len(miss.choices)) == (Reason.AMBIGUOUS, choices)
    assert all("kg/m3)" in choice for choice in miss.choices)


def test_a_miss_shows_the_density_to_choose_by(library):
    """The value lets the reader choose."""
    assert "copper (8930 kg/m3)" in find_material(library, "coper").choices


def test_only_lead_has_a_gauge_system_of_its_own(library):
    """Anything else needs its system said."""
    assert {m.key: m.gauge_system for m in every_material(library) if m.gauge_system} == {
        "lead": "Code"
    }


def test_figures_are_in_si(library):
    """GPa, 1e-6/K and percent of the table become Pa, 1/K and a fraction."""
    steel, oak = find_material(library, "mild steel"), find_material(library, "oak European")

    assert steel.youngs_modulus_low_pa == steel.youngs_modulus_high_pa == pytest.approx(210e9)
    assert steel.expansion_per_k == pytest.approx(12e-6)
    assert oak.moisture == pytest.approx(0.12)
    assert (oak.family, oak.group) == ("hardwood", "timber")


def test_every_density_lies_in_its_band(library):
    """Low, likely, high, for every material of the table."""
    for m in every_material(library):
        assert m.density_low_kg_m3 <= m.density_kg_m3 <= m.density_high_kg_m3, m.key


def test_a_record_carries_its_source(library):
    """Source, locator and how sure stand beside the figures."""
    c24 = find_material(library, "C24")

    assert (c24.source, c24.locator, c24.checked) == ("EN 338", "Table 1", "quoted")
