"""How numbers are printed: the spelling is part of what every report promises."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.reports import figures

PRINTED = [
    (figures.kilograms, 446.4, "446 kg"),
    (figures.kilograms, 30.04, "30.0 kg"),
    (figures.kilograms, 0.01234, "0.0123 kg"),
    (figures.kilograms, 12345.6, "12 346 kg"),
    (figures.kilograms, 0.0, "0 kg"),
    (figures.kilograms, None, "not known"),
    (figures.newtons, 411.6, "412 N"),
    (figures.newtons, -2710.0, "-2.71 kN"),
    (figures.newtons, -0.2, "0 N"),
    (figures.newton_metres, 18.44, "18.4 N m"),
    (figures.newton_metres, 1522.4, "1.52 kN m"),
    (figures.millimetres, -1.5654, "-1 565 mm"),
    (figures.millimetres, None, "not known"),
    (figures.metres, 5.874, "5.87 m"),
    (figures.pascals, 812.4, "812 Pa"),
    (figures.percent, 0.05, "5.0 %"),
    (figures.percent, None, "not known"),
    (figures.degrees, 22.5, "22°"),
    (figures.money, 9660.4, "9 660"),
    (figures.money, 35.0, "35.00"),
]


@pytest.mark.parametrize(("printed", "value", "words"), PRINTED)
def test_a_number_is_rounded_grouped_and_given_its_unit(printed, value, words):
    """Mass to three figures, force to the newton or in kN to two decimals, lengths in mm."""
    assert figures.plain(printed(value)) == words


QUANTITIES = [
    (24.0, "m/s", "24 m/s"),
    (0.19, "", "0.19"),
    (7.6, "m", "7.6 m"),
    (0.05, "%", "5.0 %"),
    (math.pi / 4, "rad", "45°"),
    (261.15, "K", "-12 °C"),
    (2710.0, "N", "2.71 kN"),
    (52.4, "N m", "52.4 N m"),
    (90.0, "°", "90°"),
    (12000.0, "m", "12 000 m"),
    ("II", "", "II"),
    (None, "m", "not known"),
    (True, "", "yes"),
    (False, "", "no"),
]


@pytest.mark.parametrize(("value", "unit", "words"), QUANTITIES)
def test_any_value_of_the_document_has_a_spelling(value, unit, words):
    """Numbers by their unit, text as it is, null and yes or no as words."""
    assert figures.plain(figures.quantity(value, unit)) == words


def test_the_currency_stands_before_the_amount():
    """An amount that is not known has no currency."""
    assert figures.plain(figures.money(8400.0, "GBP")) == "GBP 8 400"
    assert figures.money(None, "GBP") == "not known"


def test_a_range_names_its_unit_once():
    """Low to high; not known when either end is not."""
    assert figures.plain(figures.spread(126.0, 181.4, "kg")) == "126 to 181 kg"
    assert figures.spread(None, 181.4, "kg") == "not known"


def test_a_place_is_told_in_words():
    """Right, above and out are positive; a minus is never printed."""
    assert figures.plain(figures.place([-0.002, 0.789, 0.18])) == (
        "2 mm to the left, 789 mm above, 180 mm out"
    )
    assert figures.place(None) == "not known"


@given(st.floats(-1e6, 1e6))
def test_significant_figures_keep_the_value(value):
    """Three figures are within half a percent of the number, or it prints as nought."""
    text = figures.plain(figures.significant(value)).replace(" ", "")

    assert float(text) == pytest.approx(value, rel=0.00501, abs=1e-5)
    assert text != "-0"


@given(st.floats(-1e9, 1e9), st.integers(0, 3))
def test_fixed_decimals_read_back(value, decimals):
    """What is printed differs from the number by half of its last decimal at most."""
    text = figures.plain(figures.fixed(value, decimals)).replace(" ", "")

    assert math.isclose(float(text), value, abs_tol=0.51 * 10.0**-decimals)


BESIDE = [
    (4448.222, "N", "4.45 kN (1 000 lb)"),
    (1000.0, "Pa", "1 000 Pa (20.9 psf)"),
    (135.5818, "N m", "136 N m (100 lb ft)"),
    (51.4096, "m/s", "51.41 m/s (115 mph)"),
    (6.096, "m", "6.096 m (20.0 ft)"),
    (0.85, "", "0.85"),
    (12.0, "kg", "12.0 kg (26.5 lb)"),
    (53_378.66, "N", "53.38 kN (12.0 kip)"),
    (13_558_180.0, "N m", "13 558.18 kN m (10 000.0 kip ft)"),
    (30.0, "°", "30°"),
    (None, "N", "not known"),
    ("ASCE 7-22", "", "ASCE 7-22"),
    (True, "m", "yes"),
]


@pytest.mark.parametrize(("value", "unit", "words"), BESIDE)
def test_us_units_stand_beside(value, unit, words):
    """By definition: 1 lbf 4.448222 N, 1 psf 47.88026 Pa, 1 mph 0.44704 m/s, 1 ft 0.3048 m."""
    with figures.us_beside():
        assert figures.plain(figures.quantity(value, unit)) == words


PRINTED = [
    (figures.newtons, 4448.222, "4.45 kN (1 000 lb)"),
    (figures.newton_metres, 135.5818, "136 N m (100 lb ft)"),
    (figures.pascals, 1000.0, "1 000 Pa (20.9 psf)"),
    (figures.kilograms, 45.359237, "45.4 kg (100 lb)"),
    (figures.metres, 3.048, "3.05 m (10.0 ft)"),
    (figures.millimetres, 0.254, "254 mm (10.0 in)"),
    (figures.metres_per_second, 44.704, "44.7 m/s (100 mph)"),
    (figures.square_metres, 0.9290304, "0.929 m² (10.0 ft²)"),
    (figures.newtons, None, "not known"),
]


@pytest.mark.parametrize(("printer", "value", "words"), PRINTED)
def test_us_units_stand_beside_wherever_a_number_has_its_unit(printer, value, words):
    """One switch for tables, charts and drawings; it holds for one piece of printing."""
    with figures.us_beside():
        assert figures.plain(printer(value)) == words
    assert "(" not in printer(value)


def test_a_column_has_one_unit():
    """Bare numbers under a heading are in the US unit, or in the SI unit, never in both."""
    assert figures.column("N") == (1.0, "N")
    with figures.us_beside():
        assert figures.column("N") == (4.448222, "lb")
        assert figures.column("1/s") == (1.0, "1/s")


COLUMNS = [
    (figures.mass, (45.359237,), "45.4", "100"),
    (figures.mass, (453.59237,), "454", "1 000"),
    (figures.bare_millimetres, (1.27,), "1 270", "50.00"),
    (figures.bare_millimetres, (0.0127, 1), "12.7", "0.500"),
    (figures.bare_fixed, (3.048, "m", 2), "3.05", "10.00"),
    (figures.bare_fixed, (250.0, "MPa"), "250", "36.3"),
    (figures.bare, (1.858061, "m²"), "1.86", "20.0"),
    (figures.bare, (4.214011, "kg m²"), "4.21", "100"),
    (figures.bare, (1.355818, "N m"), "1.36", "1.00"),
    (figures.bare, (44.48222, "kN"), "44.5", "10.0"),
    (figures.bare, (None, "kg"), "not known", "not known"),
    (figures.spread, (45.359237, 90.718474), "45.4 to 90.7", "100 to 200"),
    (figures.spread, (45.359237, 90.718474, "kg"), "45.4 to 90.7 kg",
     "45.4 to 90.7 kg (100 to 200 lb)"),
]  # fmt: skip


@pytest.mark.parametrize(("printer", "given", "metric", "inch"), COLUMNS)
def test_bare_numbers_are_of_the_unit_at_the_head(printer, given, metric, inch):
    """By definition: 1 lb 0.45359237 kg, 1 in 25.4 mm; 1 ksi 6.894757 MPa, 1 kip 4448.222 N."""
    assert figures.plain(printer(*given)) == metric
    with figures.us_beside():
        assert figures.plain(printer(*given)) == inch


HEADS = [
    ("mm", "in"),
    ("kg", "lb"),
    ("m²", "ft²"),
    ("kg m²", "lb ft²"),
    ("MPa", "ksi"),
    ("Hz", "Hz"),
]


@pytest.mark.parametrize(("metric", "inch"), HEADS)
def test_a_head_names_the_unit_of_its_column(metric, inch):
    """What has no US unit keeps its own."""
    assert figures.plain(figures.head(metric)) == metric
    with figures.us_beside():
        assert figures.plain(figures.head(metric)) == inch


DIMENSIONS = [
    (1.3716, "1 372", "4\N{PRIME}-6\N{DOUBLE PRIME}"),
    (1.37795, "1 378", "4\N{PRIME}-6 1/4\N{DOUBLE PRIME}"),
    (0.3048, "305", "1\N{PRIME}-0\N{DOUBLE PRIME}"),
    (0.309563, "310", "1\N{PRIME}-3/16\N{DOUBLE PRIME}"),
    (0.30479, "305", "1\N{PRIME}-0\N{DOUBLE PRIME}"),
    (0.0238125, "24", "15/16\N{DOUBLE PRIME}"),
    (-0.254, "-254", "-10\N{DOUBLE PRIME}"),
    (-1e-6, "0", "0\N{DOUBLE PRIME}"),
    (None, "not known", "not known"),
]


@pytest.mark.parametrize(("length_m", "metric", "inch"), DIMENSIONS)
def test_a_drawing_has_feet_and_inches_to_a_sixteenth(length_m, metric, inch):
    """Twelve inches make a foot, also where rounding makes them: common practice, no source."""
    assert figures.plain(figures.dimension(length_m)) == metric
    with figures.us_beside():
        assert figures.plain(figures.dimension(length_m)) == inch


@given(st.floats(0.0, 50.0))
def test_feet_and_inches_read_back(length_m):
    """What is dimensioned differs from the length by half of a sixteenth at most."""
    with figures.us_beside():
        words = figures.dimension(length_m).rstrip("\N{DOUBLE PRIME}")
    feet, _, inches = words.rpartition("\N{PRIME}-")
    read = sum(float(Fraction(word)) for word in inches.split())

    assert read < 12
    assert math.isclose(12 * float(feet or 0) + read, length_m / 0.0254, abs_tol=1 / 32 + 1e-6)
