"""Lead and copper sheet against what is sold.

[LEAD]   BS EN 12588:2006, rolled lead sheet, sizes and masses as listed on merchants' pages
         (archived): 1.32, 1.80, 2.24, 3.15, 3.55 mm weigh 14.97, 20.41, 25.40, 35.72, 40.26 kg/m2.
[COPPER] Copper roofing guide of a trade body that reproduces BS EN 1172, Table A
         (issuu.com copperinarchitecture pub156): 22 SWG 6.35 kg/m2.
[INCH]   Historic copper roofing manual, p. 53 (roofonline.com): copper 1 in thick is 46.5 lb/ft2.
[OZ]     Definition: one ounce avoirdupois on one square foot is 0.30515 kg/m2.
[LAP]    Roofing tips of a consultant, lead laps (roofconsult.co.uk tips 4): 75 mm of vertical
         cover is 150 mm at 30 degrees and 290 mm at 15 degrees.
[SEAM]   Historic copper roofing manual, p. 6 (roofonline.com): 24 in sheet in full 1 in standing
         seams gives 21 1/4 in from seam to seam.
[LENGTH] Timber guide of a builders' merchant (archived): 16 ft is 77 mm more than 4.8 m.
"""

from math import radians, sin

import pytest

from estimator.core.units import KINDS, parse_quantity
from estimator.reference.allowances import find_allowance
from estimator.reference.gauges import find_gauge
from estimator.reference.library import Library
from estimator.reference.materials import find_material

LEAD = [(3, 14.97), (4, 20.41), (5, 25.40), (7, 35.72), (8, 40.26)]
LB_FT2_KG_M2 = 4.882428


@pytest.fixture(scope="module")
def library():
    """Return the tables as they come with the program."""
    return Library()


@pytest.fixture(scope="module")
def lead(library):
    """Return the lead of the table."""
    return find_material(library, "lead")


@pytest.fixture(scope="module")
def copper(library):
    """Return the copper of the table."""
    return find_material(library, "copper")


@pytest.mark.parametrize(("code", "sold_kg_m2"), LEAD)
def test_lead_codes(library, lead, code, sold_kg_m2):
    """[LEAD] Mass as sold, and thickness x density, to the 0.05 % of four printed figures."""
    gauge = find_gauge(library, f"Code {code}", lead)

    assert gauge.surface_kg_m2 == pytest.approx(sold_kg_m2, rel=0.0005)
    assert gauge.thickness_m * lead.density_kg_m3 == pytest.approx(sold_kg_m2, rel=0.0005)


def test_a_code_is_not_its_pounds(library, lead):
    """[LEAD] Code 4 as sold is 4.5 % heavier than 4 lb per square foot, 19.53 kg/m2."""
    gauge = find_gauge(library, "Code 4", lead)

    assert gauge.surface_kg_m2 / (4 * LB_FT2_KG_M2) == pytest.approx(1.045, rel=0.001)


def test_a_roll_of_lead(library, lead):
    """[LEAD] Code 4, 300 mm x 6 m: 36.7 kg (derived), to the 0.3 % of three figures."""
    roll_kg = find_gauge(library, "Code 4", lead).surface_kg_m2 * 0.300 * 6.0

    assert roll_kg == pytest.approx(36.7, rel=0.003)


def test_copper_of_the_trade_table(library, copper):
    """[COPPER] 22 SWG is 6.35 kg/m2; 18 SWG, by the same density, 10.89 kg/m2: 0.1 %."""
    assert find_gauge(library, "22 SWG", copper).surface_kg_m2 == pytest.approx(6.35, rel=0.001)
    assert find_gauge(library, "18 SWG", copper).surface_kg_m2 == pytest.approx(10.89, rel=0.001)


def test_rounded_millimetres_are_another_sheet(library, copper):
    """[COPPER] The table's 6.35 kg/m2 beside "0.7 mm" belongs to 0.711 mm: 1.6 % apart."""
    rounded = find_gauge(library, "0.7 mm", copper).surface_kg_m2
    (printed,) = (
        row.need("surface_kg_m2")
        for row in library.table("copper_sheet_metric").rows
        if row.text("swg") == "22"
    )

    assert printed / rounded == pytest.approx(1.016, abs=0.001)


def test_copper_an_inch_thick(copper):
    """[INCH] 46.5 lb per square foot is 8938 kg/m3, within 0.1 % of the density used."""
    assert copper.density_kg_m3 == pytest.approx(46.5 * LB_FT2_KG_M2 / 0.0254, rel=0.001)


def test_sixteen_ounce_copper(library, copper):
    """[OZ] 16 oz is a pound on a square foot, 4.882 kg/m2, and 0.547 mm: 0.1 %."""
    gauge = find_gauge(library, "16 oz", copper)

    assert gauge.surface_kg_m2 == pytest.approx(4.882, rel=0.001)
    assert gauge.thickness_m * 1000 == pytest.approx(0.547, rel=0.001)


def test_laps_of_lead(library):
    """[LAP] 75 mm of cover over sin(pitch): 150 mm at 30 and 290 mm at 15 degrees, 1 mm."""
    cover = find_allowance(library, "lead lap vertical cladding")
    at_thirty = find_allowance(library, "lead lap at 30 degrees and steeper")

    assert cover.low / sin(radians(30)) == pytest.approx(at_thirty.low, abs=1)
    assert cover.low / sin(radians(15)) == pytest.approx(290, abs=1)


def test_standing_seams_of_copper(library):
    """[SEAM] 24 in less 21 1/4 in is 69.9 mm of metal in a seam, to half a millimetre."""
    seam = find_allowance(library, "copper standing seam 1 in")

    assert seam.low == pytest.approx((24 - 21.25) * 25.4, abs=0.5)


def test_feet_and_metres_do_not_swap():
    """[LENGTH] A stock length in feet is another length: 77 mm, to half a millimetre."""
    sixteen_feet_m = parse_quantity("16 ft", KINDS["length"])

    assert (sixteen_feet_m - 4.8) * 1000 == pytest.approx(77, abs=0.5)
