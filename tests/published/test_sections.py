"""Sections against printed tables.

[SHS] [CHS] EN 10219-2, cold-formed hollow sections; [L] EN 10056-1, equal angles; [UPN] EN 10365,
channels: values as carried by the open library steelsnakes 0.0.1a11.
[FLAT] Width x thickness x 7850 kg/m3 (derived).
"""

import pytest

from estimator.reference.library import Library
from estimator.reference.sections import closed_form, find_section

PRINTED = [
    ("SHS 50x50x4", 5.45, 6.95, 23.7, 9.49),
    ("CHS 60.3x4", 5.55, 7.07, 28.2, 9.34),
    ("L 50x50x5", 3.77, 4.80, 11.0, 3.05),
    ("UPN 100", 10.6, 13.5, 206, 41.2),
]


@pytest.fixture(scope="module")
def library():
    """Return the tables as they come with the program."""
    return Library()


@pytest.mark.parametrize(("name", "kg_m", "a_cm2", "iy_cm4", "wy_cm3"), PRINTED)
def test_sections_of_the_tables(library, name, kg_m, a_cm2, iy_cm4, wy_cm3):
    """[SHS] [CHS] [L] [UPN] As printed, three figures."""
    section = find_section(library, name)

    assert section.mass_kg_m == kg_m
    assert section.area_m2 * 1e4 == pytest.approx(a_cm2)
    assert section.iy_m4 * 1e8 == pytest.approx(iy_cm4)
    assert section.wel_y_m3 * 1e6 == pytest.approx(wy_cm3)


@pytest.mark.parametrize(("name", "kg_m", "a_cm2", "iy_cm4", "wy_cm3"), PRINTED[:2])
def test_closed_forms_of_hollow_sections(name, kg_m, a_cm2, iy_cm4, wy_cm3):
    """[SHS] [CHS] Drawn with its corner radii: 0.5 %, three figures are printed."""
    section = closed_form(name)

    assert section.mass_kg_m == pytest.approx(kg_m, rel=0.005)
    assert section.area_m2 * 1e4 == pytest.approx(a_cm2, rel=0.005)
    assert section.iy_m4 * 1e8 == pytest.approx(iy_cm4, rel=0.005)
    assert section.wel_y_m3 * 1e6 == pytest.approx(wy_cm3, rel=0.005)


def test_the_middle_of_an_angle(library):
    """[L] 50x50x5: 1.40 cm from the back of a leg, 0.7 %."""
    (row,) = (row for row in library.table("sections").rows if row.key == "L 50x50x5")

    assert row.need("centroid_mm") * 100 == pytest.approx(1.40, rel=0.007)


def test_a_strap(library):
    """[FLAT] 25 x 3 is 0.589 kg/m, 0.1 %."""
    assert find_section(library, "flat 25x3").mass_kg_m == pytest.approx(0.589, rel=0.001)
