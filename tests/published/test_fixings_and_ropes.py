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

from estimator.reference.finding import find_row
from estimator.reference.fixings import find_bolt
from estimator.reference.library import Library

STRESS_AREAS = [("M12", 84.3), ("M16", 157), ("M20", 245), ("M24", 353)]
RODS = [("M10", 0.502), ("M12", 0.728), ("M16", 1.33), ("M20", 2.08), ("M30", 4.74)]
ROPES_6X7 = [(8, 22.1), (10, 34.5), (12, 49.7)]


@pytest.fixture(scope="module")
def library():
    """Return the tables as they come with the program."""
    return Library()


def kg_m(library, name):
    """Return the mass of a metre of chain or rope, by its name."""
    return find_row(library.table("lines"), name, str).need("mass_kg_m")


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
    found = find_row(library.table("strength_classes"), "8.8", str)

    assert (found.need("yield_mpa"), found.need("ultimate_mpa")) == (640e6, 800e6)


def test_rope_6x19(library):
    """[EN12385] Fibre core, 10 mm: 0.359 kg/m."""
    assert kg_m(library, "wire rope 6x19 fibre core 10 mm") == pytest.approx(0.359, rel=0.001)


@pytest.mark.parametrize(("size_mm", "kg_100_m"), ROPES_6X7)
def test_rope_6x7(library, size_mm, kg_100_m):
    """[API9A] against the factor of [EN12385]: 0.3 %."""
    found_kg_m = kg_m(library, f"wire rope 6x7 fibre core {size_mm} mm")

    assert found_kg_m * 100 == pytest.approx(kg_100_m, rel=0.003)


def test_nylon_rope(library):
    """[NYLON] 12 mm, two figures: 1 %."""
    assert kg_m(library, "nylon rope 12 mm") == pytest.approx(0.094, rel=0.01)


def test_roller_chain(library):
    """[CHAIN] 08B-1 between 0.69 and 0.70 kg/m; lists differ by 3 %."""
    assert kg_m(library, "roller chain 08B-1") == pytest.approx(0.695, rel=0.03)
