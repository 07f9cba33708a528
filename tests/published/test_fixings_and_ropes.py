"""Bolts, studs, ropes and chains against printed tables.

[ISO898]  ISO 898-1, tensile stress areas: as carried by the open library eurocodepy.
[DIN976]  A stud bolt mass table to DIN 976 (archived page of a fastener maker).
[EN1993]  EN 1993-1-8, Table 3.1: as carried by the open library blue-prints 0.8.0.
[EN12385] EN 12385-4, mass factors of wire ropes: article on wire ropes, Table 1.9
          (what-when-how.com).
[API9A]   API 9A / ISO 10425, Table C.1, ropes 6x7 with fibre core, kg per 100 m (123doc.top).
[NYLON]   Nylon rope strength, engineeringtoolbox.com d_1513.
[CHAIN]   A component list of ISO 606 chains (archived): 08B-1 0.69; usual tables have 0.70.
"""

import pytest

from estimator.reference.fixings import find_bolt, find_line, find_strength_class
from estimator.reference.library import Library

STRESS_AREAS = [("M12", 84.3), ("M16", 157), ("M20", 245), ("M24", 353)]
RODS = [("M10", 0.502), ("M12", 0.728), ("M16", 1.33), ("M20", 2.08), ("M30", 4.74)]
ROPES_6X7 = [(8, 22.1), (10, 34.5), (12, 49.7)]


@pytest.fixture(scope="module")
def library():
    """Return the tables as they come with the program."""
    return Library()


@pytest.mark.parametrize(("size", "area_mm2"), STRESS_AREAS)
def test_stress_areas(library, size, area_mm2):
    """[ISO898] Three figures are printed: 0.3 %."""
    assert find_bolt(library, size).stress_area_m2 * 1e6 == pytest.approx(area_mm2, rel=0.003)


@pytest.mark.parametrize(("size", "rod_kg_m"), RODS)
def test_threaded_rod(library, size, rod_kg_m):
    """[DIN976] Three figures are printed: 0.4 %."""
    assert find_bolt(library, size).rod_kg_m == pytest.approx(rod_kg_m, rel=0.004)


def test_class_8_8(library):
    """[EN1993] Yield 640, ultimate 800 MPa: exact."""
    found = find_strength_class(library, "8.8")

    assert (found.yield_pa, found.ultimate_pa) == (640e6, 800e6)


def test_rope_6x19(library):
    """[EN12385] Fibre core, 10 mm: 0.359 kg/m."""
    line = find_line(library, "wire rope 6x19 fibre core 10 mm")

    assert line.mass_kg_m == pytest.approx(0.359, rel=0.001)


@pytest.mark.parametrize(("size_mm", "kg_100_m"), ROPES_6X7)
def test_rope_6x7(library, size_mm, kg_100_m):
    """[API9A] against the factor of [EN12385]: 0.3 %."""
    line = find_line(library, f"wire rope 6x7 fibre core {size_mm} mm")

    assert line.mass_kg_m * 100 == pytest.approx(kg_100_m, rel=0.003)


def test_nylon_rope(library):
    """[NYLON] 12 mm, two figures: 1 %."""
    assert find_line(library, "nylon rope 12 mm").mass_kg_m == pytest.approx(0.094, rel=0.01)


def test_roller_chain(library):
    """[CHAIN] 08B-1 between 0.69 and 0.70 kg/m; lists differ by 3 %."""
    assert find_line(library, "roller chain 08B-1").mass_kg_m == pytest.approx(0.695, rel=0.03)
