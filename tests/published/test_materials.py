"""Densities of the table of materials against published values.

[EN338]  EN 338:2016, Structural timber, Strength classes, Tables 1 and 3: as carried by the open
         library blue-prints 0.8.0; open library eurocodepy agrees.
[EN1991] EN 1991-1-1:2002, Table A.3: as quoted in a public article on unit weights,
         structville.com/2020/12/unit-weight-of-construction-materials.html.
[NDS]    National Design Specification for Wood Construction: density from specific gravity and
         moisture, rho = 62.4 G / (1 + 0.009 G M) (1 + M/100) lb/ft3, as quoted at
         americans-world.org; G = 0.50 of Douglas fir-larch from a public copy of its Table 12.3.3A.
[PLY]    A plywood maker's page on okoume plywood (archived): 12 mm 5.4, 18 mm 8.1 kg/m2.
[IAPWS]  IAPWS releases on ice and water, open library iapws 1.5.5: ice at 0 C 916.7, water at
         20 C 998.2 kg/m3. [TEOS] TEOS-10, open library gsw 3.6.23: sea water of salinity 35 at
         10 C 1027.0 kg/m3.
[GRP]    Rule of mixtures with 30 % by mass of glass 2560 in polyester 1200 kg/m3 (derived).
[LUEGER] O. Lueger, Lexikon der gesamten Technik (1904), article Blech: kg per m2 and mm of sheet,
         zeno.org/nid/20005975069.
"""

import pytest

from estimator.reference.library import Library
from estimator.reference.materials import find_material

LB_FT3_KG_M3 = 16.018463

EN338 = [
    ("C16", 370, 310),
    ("C24", 420, 350),
    ("D30", 640, 530),
    ("D40", 660, 550),
    ("D70", 960, 800),
]
EN1991_A3 = [("C22", 4.1), ("C30", 4.6)]
PLY = [(12, 5.4), (18, 8.1)]
LUEGER = [
    ("copper", 8.9),
    ("mild steel", 7.85),
    ("zinc titanium", 7.2),
    ("lead", 11.37),
    ("bronze", 8.6),
]


@pytest.fixture(scope="module")
def library():
    """Return the tables as they come with the program."""
    return Library()


@pytest.mark.parametrize(("key", "mean", "characteristic"), EN338)
def test_strength_classes(library, key, mean, characteristic):
    """[EN338] Mean and characteristic density are whole numbers in the standard: exact."""
    timber = find_material(library, key)

    assert timber.density_kg_m3 == mean
    assert timber.density_low_kg_m3 == characteristic


@pytest.mark.parametrize(("key", "weight_kn_m3"), EN1991_A3)
def test_weights_of_strength_classes(library, key, weight_kn_m3):
    """[EN1991] Table A.3 is the mean density of EN 338 times 10, to its printed decimal."""
    assert find_material(library, key).density_kg_m3 * 10 / 1000 == pytest.approx(weight_kn_m3)


def test_an_older_edition_disagrees(library):
    """[EN1991] D50 is 7.8 kN/m3 there, from an older EN 338; the edition of 2016 has 740 kg/m3."""
    assert find_material(library, "D50").density_kg_m3 * 10 / 1000 < 7.8 * 0.96


def test_douglas_fir_at_twelve_per_cent(library):
    """[NDS] G = 0.50 at 12 % is 33.15 lb/ft3, 531 kg/m3; merchants round that to 530."""
    rho_lb_ft3 = 62.4 * 0.50 / (1 + 0.009 * 0.50 * 12) * (1 + 12 / 100)
    fir = find_material(library, "Douglas fir")

    assert rho_lb_ft3 == pytest.approx(33.15, rel=0.002)
    assert rho_lb_ft3 * LB_FT3_KG_M3 == pytest.approx(531, rel=0.002)
    assert fir.density_kg_m3 == pytest.approx(rho_lb_ft3 * LB_FT3_KG_M3, abs=5)
    assert fir.moisture == pytest.approx(0.12)


@pytest.mark.parametrize(("thickness_mm", "surface_kg_m2"), PLY)
def test_okoume_plywood(library, thickness_mm, surface_kg_m2):
    """[PLY] Two figures are printed: 0.5 %."""
    ply = find_material(library, "okoume marine plywood")

    assert ply.density_kg_m3 * thickness_mm / 1000 == pytest.approx(surface_kg_m2, rel=0.005)


def test_ice_and_waters(library):
    """[IAPWS] [TEOS] Rounded to whole kg/m3 in the table: 0.1 %."""
    assert find_material(library, "ice").density_kg_m3 == pytest.approx(916.7, rel=0.001)
    assert find_material(library, "sea water").density_kg_m3 == pytest.approx(1027.0, rel=0.001)
    assert find_material(library, "water").density_low_kg_m3 == pytest.approx(998.2, rel=0.001)


def test_chopped_strand_mat(library):
    """[GRP] 1 / (0.3 / 2560 + 0.7 / 1200) = 1428 kg/m3; the table rounds to 1430 (0.5 %)."""
    mixture_kg_m3 = 1 / (0.3 / 2560 + 0.7 / 1200)

    assert mixture_kg_m3 == pytest.approx(1428, rel=0.001)
    assert find_material(library, "GRP").density_kg_m3 == pytest.approx(mixture_kg_m3, rel=0.005)


@pytest.mark.parametrize(("key", "kg_m2_mm"), LUEGER)
def test_an_old_table_of_sheet(library, key, kg_m2_mm):
    """[LUEGER] An independent table of 1904, two or three figures, alloys of its time: 1.2 %."""
    assert find_material(library, key).density_kg_m3 / 1000 == pytest.approx(kg_m2_mm, rel=0.012)
