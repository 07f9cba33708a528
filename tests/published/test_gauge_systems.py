"""Gauge numbers against published tables and the laws behind them.

[SWG]  Standard wire gauge: engineeringtoolbox.com/swg-standard-wire-gauge-d_1779.html;
       7/0 and 50 also at sdiy.info and simetric.co.uk/siwire.htm. No 28 is 0.0148 in on both
       web tables; open library fluids 1.3.1 prints 0.0149.
[AWG]  ASTM B258: d = 0.127 x 92^((36 - n)/39) mm; its table prints 0.0403 in for 18 and 0.4600 in
       for 4/0.
[BWG]  Machinery's Handbook, as carried by open library fluids 1.3.1.
[USC]  15 U.S.C. 206, standard gauge for sheet and plate iron and steel (casetext.com): a law of
       weights, no 18 is 2 lb per square foot and 0.05 in, no 7/0 is 20 lb and 0.5 in.
[MSG]  Manufacturers' Standard Gage charts: offroaders.com, eicac.co.uk (archived); weight law
       41.82 lb per square foot and inch.
[GSG]  Galvanized sheet gage chart at eicac.co.uk (archived); the last value is rounded to 0.052 in.
"""

import pytest

from estimator.reference.finding import Reason
from estimator.reference.gauges import find_gauge
from estimator.reference.library import Library
from estimator.reference.materials import find_material

LB_FT2_KG_M2 = 4.882428
IN_M = 0.0254

MM = [
    ("16 SWG", 1.626, 0.001),
    ("18 SWG", 1.219, 0.001),
    ("20 SWG", 0.914, 0.001),
    ("22 SWG", 0.711, 0.001),
    ("24 SWG", 0.559, 0.001),
    ("7/0 SWG", 12.700, 1e-9),
    ("50 SWG", 0.0254, 1e-9),
    ("18 AWG", 1.0237, 0.0005),
    ("4/0 AWG", 11.684, 0.0005),
    ("18 BWG", 1.245, 0.0005),
]
INCHES = [
    ("28 SWG", 0.0148),
    ("18 BWG", 0.049),
    ("18 USSG", 0.05),
    ("10 MSG", 0.1345),
    ("18 MSG", 0.0478),
    ("20 MSG", 0.0359),
    ("9 GSG", 0.1532),
    ("12 GSG", 0.1084),
    ("15 GSG", 0.0710),
    ("18 GSG", 0.0516),
]


@pytest.fixture(scope="module")
def library():
    """Return the tables as they come with the program."""
    return Library()


@pytest.fixture(scope="module")
def steel(library):
    """Return the steel of the table, which has no gauge system of its own."""
    return find_material(library, "mild steel")


@pytest.mark.parametrize(("gauge", "printed_mm", "rounding_mm"), MM)
def test_gauges_printed_in_millimetres(library, steel, gauge, printed_mm, rounding_mm):
    """[SWG] [AWG] [BWG] Within the last printed figure."""
    assert find_gauge(library, gauge, steel).thickness_m * 1000 == pytest.approx(
        printed_mm, abs=rounding_mm
    )


@pytest.mark.parametrize(("gauge", "printed_in"), INCHES)
def test_gauges_printed_in_inches(library, steel, gauge, printed_in):
    """[SWG] [BWG] [USC] [MSG] [GSG] Within one of the fourth decimal of an inch."""
    assert find_gauge(library, gauge, steel).thickness_m / IN_M == pytest.approx(
        printed_in, abs=0.0001
    )


def test_american_wire_gauge_is_its_formula(library):
    """[AWG] Every number of the table, 6/0 to 40, to the 0.0001 mm it is rounded to."""
    for row in library.table("gauges").rows:
        if row.text("system") == "AWG":
            number = row.text("number")
            n = 1 - int(number[0]) if number.endswith("/0") else int(number)
            assert row.need("thickness_mm") == pytest.approx(
                0.127e-3 * 92 ** ((36 - n) / 39), abs=0.6e-7
            ), row.key


def test_the_united_states_law_is_wrought_iron(library, steel):
    """[USC] 20 lb per square foot on 0.5 in is 7689 kg/m3: wrought iron, 0.05 %."""
    half_inch_m = find_gauge(library, "7/0 USSG", steel).thickness_m
    implied_kg_m3 = 20 * LB_FT2_KG_M2 / half_inch_m

    assert implied_kg_m3 == pytest.approx(7689, rel=0.0005)
    assert find_material(library, "wrought iron").density_kg_m3 == pytest.approx(
        implied_kg_m3, rel=0.0005
    )


def test_wrought_iron_weighs_what_the_law_says(library):
    """[USC] No 18 is 2 lb per square foot, 9.765 kg/m2, in the metal the law was made for."""
    iron = find_material(library, "wrought iron")

    assert find_gauge(library, "18 USSG", iron).surface_kg_m2 == pytest.approx(9.765, rel=0.0005)


def test_the_manufacturers_weight_law_is_no_density(library, steel):
    """[MSG] 41.82 lb per square foot and inch implies 8039 kg/m3; sheet is weighed at 7850."""
    implied_kg_m3 = 41.82 * LB_FT2_KG_M2 / IN_M
    gauge = find_gauge(library, "18 MSG", steel)

    assert implied_kg_m3 == pytest.approx(8039, rel=0.0005)
    assert gauge.surface_kg_m2 / gauge.thickness_m == pytest.approx(7850)


def test_eighteen_gauge_is_refused(library, steel):
    """[SWG] [AWG] [BWG] [USC] [MSG] [GSG] Between 1.02 and 1.31 mm, so nothing is guessed."""
    miss = find_gauge(library, "18 gauge", steel)
    found_mm = [float(choice.rsplit("(", 1)[1].split()[0]) for choice in miss.choices]

    assert miss.reason is Reason.AMBIGUOUS
    assert (min(found_mm), max(found_mm)) == (1.024, 1.31)
