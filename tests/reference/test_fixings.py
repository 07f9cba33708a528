"""Bolts: sizes and masses."""

import pytest

from estimator.reference.fixings import find_bolt


def test_a_bolt_is_found_by_its_size(library):
    """M12: 84.3 mm2 stressed, 0.728 kg/m of rod, as in the table."""
    bolt = find_bolt(library, "m12")

    assert bolt.diameter_m == pytest.approx(0.012)
    assert bolt.stress_area_m2 == pytest.approx(84.3e-6)
    assert bolt.rod_kg_m == pytest.approx(0.728)


def test_misses_show_what_to_choose_by(library):
    """The mass of a metre of rod."""
    assert "M16 (1.332 kg/m of rod)" in find_bolt(library, "M166").choices
