"""Gauges: every way of writing one, and the refusal to guess."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.reference.finding import Reason
from estimator.reference.gauges import find_gauge
from estimator.reference.library import Library
from estimator.reference.materials import find_material

WRITTEN = [
    ("18 SWG", "copper", "18 SWG (1.219 mm, 10.89 kg/m2)"),
    ("SWG 18", "copper", "18 SWG (1.219 mm, 10.89 kg/m2)"),
    ("swg18", "copper", "18 SWG (1.219 mm, 10.89 kg/m2)"),
    ("18.0 SWG", "copper", "18 SWG (1.219 mm, 10.89 kg/m2)"),
    ("No. 18 B&S gauge", "copper", "18 AWG (1.024 mm, 9.142 kg/m2)"),
    ("7/0 SWG", "copper", "7/0 SWG (12.7 mm, 113.4 kg/m2)"),
    ("Code 5", "lead", "Code 5 (2.24 mm, 25.4 kg/m2)"),
    ("code5", "lead", "Code 5 (2.24 mm, 25.4 kg/m2)"),
    ("5", "lead", "Code 5 (2.24 mm, 25.4 kg/m2)"),
    ("16 oz", "copper", "16 oz (0.547 mm, 4.882 kg/m2)"),
    ("1.5 mm", "copper", "1.5 mm (1.5 mm, 13.39 kg/m2)"),
    ("0.048 in", "copper", "0.048 in (1.219 mm, 10.89 kg/m2)"),
    ("10 mm", "mild steel", "10 mm (10 mm, 78.5 kg/m2)"),
    ("1/16 in", "mild steel", "1/16 in (1.587 mm, 12.46 kg/m2)"),
    ("18 US zinc", "zinc titanium", "18 US zinc (1.397 mm, 10.06 kg/m2)"),
]


@pytest.mark.parametrize(("typed", "material", "label"), WRITTEN)
def test_a_gauge_is_echoed_in_mm_and_mass(library, typed, material, label):
    """The maker sees at once whether the right sheet was meant."""
    assert find_gauge(library, typed, find_material(library, material)).label == label


@pytest.mark.parametrize("typed", ["18", "18 gauge", "18 ga", "gauge 18", "18g", "No. 18"])
def test_a_bare_gauge_is_asked_about(library, copper, typed):
    """Every system that has the number is named with its millimetres; none is preferred."""
    miss = find_gauge(library, typed, copper)

    assert miss.reason is Reason.AMBIGUOUS
    assert miss.choices == (
        "18 SWG (1.219 mm)",
        "18 BWG (1.245 mm)",
        "18 AWG (1.024 mm)",
        "18 USSG (1.27 mm)",
        "18 MSG (1.215 mm)",
        "18 GSG (1.31 mm)",
        "18 BG (1.26 mm)",
        "18 US steel wire (1.206 mm)",
        "18 oz (0.615 mm)",
    )


def test_a_number_not_in_the_system_gets_its_neighbours(library, lead):
    """Nearest by number, with the thickness to choose by."""
    miss = find_gauge(library, "Code 5.5", lead)

    assert miss.reason is Reason.UNKNOWN
    assert miss.choices == ("Code 5 (2.24 mm)", "Code 6 (2.65 mm)", "Code 4 (1.8 mm)")


def test_noughts_count_backwards(library, copper):
    """8/0 lies beyond 7/0, the thickest of the table."""
    assert find_gauge(library, "8/0 SWG", copper).choices == (
        "7/0 SWG (12.7 mm)",
        "6/0 SWG (11.79 mm)",
        "5/0 SWG (10.97 mm)",
    )


@pytest.mark.parametrize("typed", ["Code 5", "18 XYZ", "10 kg", "0 mm", "-1 mm"])
def test_a_system_or_unit_that_does_not_fit_is_unknown(library, copper, typed):
    """Lead codes are for lead; a mass is no thickness; nothing is thinner than nothing."""
    assert find_gauge(library, typed, copper).reason is Reason.UNKNOWN


def test_words_without_a_number_are_unknown(library, copper):
    """There is nothing near to offer."""
    miss = find_gauge(library, "thick", copper)

    assert (miss.reason, miss.choices) == (Reason.UNKNOWN, ())


def test_two_zinc_gauges_are_told_apart(library):
    """The American and the continental series differ, so "zinc gauge 12" is asked about."""
    zinc = find_material(library, "zinc titanium")

    assert find_gauge(library, "zinc gauge 12", zinc).choices == (
        "12 US zinc (0.711 mm)",
        "12 EU zinc (0.66 mm)",
    )


def test_the_tolerance_says_whose_it_is(library, lead, copper):
    """The lead standard's 5 % is quoted; the program's 5 % says that it is a default."""
    code, sheet = find_gauge(library, "Code 5", lead), find_gauge(library, "1 mm", copper)

    assert code.thickness_low_m == pytest.approx(0.95 * 2.24e-3)
    assert code.thickness_high_m == pytest.approx(1.05 * 2.24e-3)
    assert code.tolerance_note == "EN 12588: 5 % either way (as quoted)"
    assert sheet.tolerance_note.startswith("program default")


def test_a_typed_thickness_is_the_makers_word(library, copper):
    """Its source is the entry, not a table."""
    assert find_gauge(library, "1.5 mm", copper).source == "typed"


@given(st.floats(0.1, 50))
def test_mass_follows_from_thickness_and_density(thickness_mm):
    """Surface mass = thickness x density for any thickness typed."""
    library = Library()
    copper = find_material(library, "copper")

    gauge = find_gauge(library, f"{thickness_mm:.4f} mm", copper)

    assert gauge.surface_kg_m2 == pytest.approx(8930 * gauge.thickness_m, rel=1e-12)
    assert gauge.thickness_low_m < gauge.thickness_m < gauge.thickness_high_m


def test_a_maker_may_give_copper_a_system(makers):
    """A workshop that always means SWG says so once, in its own table."""
    library = makers(materials="key,gauge_system,source\ncopper,SWG,workshop habit\n")

    assert find_gauge(library, "18 gauge", find_material(library, "copper")).label.startswith(
        "18 SWG"
    )
