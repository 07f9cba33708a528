"""Bolts and lines: sizes and masses."""

import pytest

from estimator.reference.fixings import find_bolt, find_line, find_strength_class


def test_a_stud_weighs_its_rod_nuts_and_washers(library):
    """180 mm of M12 with two nuts and one washer: 0.18 x 0.728 + 2 x 0.0155 + 0.00627."""
    bolt = find_bolt(library, "m12")

    assert bolt.stud_kg(0.18, nuts=2) == pytest.approx(0.18 * 0.728 + 2 * 0.0155 + 0.00627)
    assert (bolt.diameter_m, bolt.hole_m) == pytest.approx((0.012, 0.0135))


def test_misses_show_what_to_choose_by(library):
    """A mass for bolts and lines, a strength for classes."""
    assert "M16 (1.332 kg/m of rod)" in find_bolt(library, "M166").choices
    assert "8.8 (800 MPa)" in find_strength_class(library, "8.88").choices
    assert find_line(library, "nylon rope 12").choices[0] == "nylon rope 12 mm (0.094 kg/m)"


def test_a_class_goes_by_both_steels(library):
    """A4-70 has the strengths of A2-70."""
    assert find_strength_class(library, "A4-70").ultimate_pa == pytest.approx(700e6)


def test_a_line_is_found_by_its_name(library):
    """Rope by construction, core and size."""
    assert find_line(library, "wire rope 6x19 steel core 6 mm").mass_kg_m == 0.144
