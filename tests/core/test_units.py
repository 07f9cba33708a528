"""Units as people write them, into SI and out again.

[YP] International yard and pound agreement (1959): 1 yd = 0.9144 m, 1 lb = 0.453 592 37 kg, both
     exact; an inch is a 36th of the yard, a foot a third of it, an ounce a 16th of the pound.
     Figures from memory.
[CGPM] 3rd CGPM (1901): standard gravity 9.80665 m/s2, so 1 lbf = 4.448 221 615 260 5 N; from
     memory.
[SI] BIPM, The International System of Units, 9th edition (2019), tables 4, 7 and 8: prefixes,
     degree, minute, hour, day, litre, tonne; degree Celsius = kelvin less 273.15. From memory.
[NM] First International Extraordinary Hydrographic Conference, Monaco (1929): nautical mile
     1852 m; a knot is one an hour. From memory.
"""

import math
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.core.units import (
    KINDS,
    Amount,
    MissingUnitError,
    UnitError,
    conversion,
    format_quantity,
    parse_amount,
    parse_quantity,
    parse_scale,
)

# kind, typed, SI value from the definition named
DEFINED = [
    ("length", "1 in", 0.0254, "YP"),
    ("length", "1 ft", 0.3048, "YP"),
    ("length", "1 yd", 0.9144, "YP"),
    ("mass", "1 lb", 0.45359237, "YP"),
    ("mass", "16 oz", 0.45359237, "YP"),
    ("mass", "1 t", 1000.0, "SI"),
    ("force", "1 lbf", 4.4482216152605, "CGPM"),
    ("force", "2 kips", 8896.443230521, "CGPM"),
    ("moment", "1.5 kip ft", 2033.7269224971, "CGPM"),
    ("moment", "300 ft lb", 406.74538449942, "CGPM"),
    ("pressure", "1 psi", 4.4482216152605 / 0.0254**2, "CGPM"),
    ("pressure", "1 psf", 4.4482216152605 / 0.3048**2, "CGPM"),
    ("pressure", "1 ksf", 4448.2216152605 / 0.3048**2, "CGPM"),
    ("pressure", "1 ksi", 4448.2216152605 / 0.0254**2, "CGPM"),
    ("pressure", "1 N/mm2", 1e6, "SI"),
    ("moment", "300 lb-ft", 406.74538449942, "CGPM"),
    ("moment", "1.5 kip-ft", 2033.7269224971, "CGPM"),
    ("density", "1 pcf", 0.45359237 / 0.3048**3, "YP"),
    ("line_force", "1 plf", 4.4482216152605 / 0.3048, "CGPM"),
    ("line_mass", "1 lb/ft", 0.45359237 / 0.3048, "YP"),
    ("surface_mass", "16 oz/ft2", 0.45359237 / 0.3048**2, "YP"),
    ("speed", "1 mph", 1609.344 / 3600, "YP"),
    ("speed", "1 kn", 1852 / 3600, "NM"),
    ("speed", "36 km/h", 10.0, "SI"),
    ("temperature", "0 C", 273.15, "SI"),
    ("temperature", "-15 C", 258.15, "SI"),
    ("angle", "180 deg", math.pi, "SI"),
    ("time", "30 min", 0.5, "SI"),
    ("time", "1 day", 24.0, "SI"),
    ("volume", "1 L", 1e-3, "SI"),
    ("volume", "1 ml", 1e-6, "SI"),
    ("area", "120 cm2", 0.012, "SI"),
    ("moment", "2 kNm", 2000.0, "SI"),
    ("stiffness", "12 kNm2", 12000.0, "SI"),
    ("line_force", "0.5 kN/m", 500.0, "SI"),
    ("density", "480 kg/m3", 480.0, "SI"),
    ("percent", "18 %", 0.18, "SI"),
    ("height", "1 km", 1000.0, "SI"),
]

# Ways people write a length; the values are the arithmetic of [YP]
WRITTEN = [
    ("120 mm", 0.12),
    ("120mm", 0.12),
    ("120 MM", 0.12),
    (".5 m", 0.5),
    ("1.2e3 mm", 1.2),
    ("+12 mm", 0.012),
    ("-12 mm", -0.012),
    ("\u221212\u00a0mm", -0.012),
    ("3/4 in", 0.75 * 0.0254),
    ("1 1/2 in", 1.5 * 0.0254),
    ("1-1/2 in", 1.5 * 0.0254),
    ("1\u00bd in", 1.5 * 0.0254),
    ("\u00be inches", 0.75 * 0.0254),
    ("3\u20444 in", 0.75 * 0.0254),
    ("-3/4 in", -0.75 * 0.0254),
    ("4 ft 6 in", 54 * 0.0254),
    ("4' 6\"", 54 * 0.0254),
    ("4\u2032 6\u2033", 54 * 0.0254),
    ("4\u2019 6\u201d", 54 * 0.0254),
    ("4'6 1/2\"", 54.5 * 0.0254),
    ("4 ft 6''", 54 * 0.0254),
    ("-4 ft 6 in", -54 * 0.0254),
    ("6'", 6 * 0.3048),
    ("6 feet", 6 * 0.3048),
    ('9"', 9 * 0.0254),
    ("2 metres", 2.0),
]

MM = "a length such as 120 mm"
LISTED = "units for that are mm, cm, m, ft, yd, in"

# typed, what is found, what to do
REFUSED = [
    ("18", '"18" has no unit', 'type "18 mm" if that is meant, or put [mm] in the heading'),
    (18.0, '"18" has no unit', 'type "18 mm" if that is meant, or put [mm] in the heading'),
    ("3/4", '"3/4" has no unit', 'type "3/4 mm" if that is meant, or put [mm] in the heading'),
    ("3 kg", '"3 kg" is a mass', LISTED),
    ("3 mmm", '"mmm" is not a unit this program knows', f"did you mean mm? {LISTED}"),
    ("3 furlongs", '"furlongs" is not a unit this program knows', LISTED),
    ("2,24 mm", '"2,24 mm" has a comma in its number', 'type "2.24 mm", with a point'),
    (",5 mm", '",5 mm" has a comma in its number', 'type "0.5 mm", with a point'),
    (
        "1,250 mm",
        '"1,250 mm" has a comma in its number',
        'type "1.250 mm", with a point; "1250 mm" if the comma parts thousands',
    ),
    (
        "0,125 mm",
        '"0,125 mm" has a comma in its number',
        'type "0.125 mm", with a point',
    ),
    (
        "1,234,567.5 mm",
        '"1,234,567.5 mm" has a comma in its number',
        'type "1234567.5 mm", without commas',
    ),
    (
        "1.234,5 mm",
        '"1.234,5 mm" has a comma in its number',
        "type it with a point for the decimals, and without commas",
    ),
    ("about 3 mm", '"about 3 mm" is not one number with a unit', 'type it as in "120 mm"'),
    ("4 to 6 mm", '"to 6 mm" is not a unit this program knows', LISTED),
    ("4-6 mm", '"4-6 mm" is not one number with a unit', 'type it as in "120 mm"'),
    ("5*3 mm", '"5*3 mm" is not one number with a unit', 'type it as in "120 mm"'),
    ("4 ft 6", '"ft 6" is not a unit this program knows', f"did you mean ft? {LISTED}"),
    ("4 ft 6 mm", '"ft 6 mm" is not a unit this program knows', LISTED),
    ("4 ft 1/0 in", '"4 ft 1/0 in" is not one number with a unit', 'type it as in "120 mm"'),
    ("1/0 in", '"1/0 in" is not one number with a unit', 'type it as in "120 mm"'),
    ("1e999 mm", '"1e999 mm" is not one number with a unit', 'type it as in "120 mm"'),
    (math.nan, '"nan" is not one number with a unit', 'type it as in "120 mm"'),
    ("mm", '"mm" is not one number with a unit', 'type it as in "120 mm"'),
    (
        "9" * 100,
        f'"{"9" * 80}..." is not one number with a unit',
        'type it as in "120 mm"',
    ),
]


@pytest.mark.parametrize(("kind", "typed", "value", "source"), DEFINED)
def test_a_unit_is_what_its_definition_says(kind, typed, value, source):
    """The definitions are exact, so only the last bit of a float may differ."""
    assert parse_quantity(typed, KINDS[kind]) == pytest.approx(value, rel=1e-14), source


@pytest.mark.parametrize(("typed", "length_m"), WRITTEN)
def test_a_length_may_be_written_as_people_write_it(typed, length_m):
    """Fractions, feet with inches, and what a word processor makes of quotes and signs."""
    assert parse_quantity(typed, KINDS["length"]) == pytest.approx(length_m, rel=1e-14)


@pytest.mark.parametrize(("typed", "found", "advice"), REFUSED)
def test_what_is_not_a_length_is_refused_in_plain_words(typed, found, advice):
    """Nothing is guessed: each refusal says what is there and what to type."""
    with pytest.raises(UnitError) as caught:
        parse_quantity(typed, KINDS["length"])

    assert (caught.value.found, caught.value.expected, caught.value.advice) == (found, MM, advice)


def test_a_number_has_the_unit_of_its_heading():
    """A bare number, and a text without a unit, take the unit of the heading."""
    assert parse_quantity(120, KINDS["length"], "mm") == pytest.approx(0.12)
    assert parse_quantity("3/4", KINDS["length"], "in") == pytest.approx(0.75 * 0.0254)


FRACTIONS = [
    ("3/4", "mm", "0.75"), ("1 1/2", "cm", "1.5"), ("1/3", "m", "0.3333"), ("3/4", "yd", "0.75"),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "unit", "decimal"), FRACTIONS)
def test_a_bare_fraction_is_none_of_a_millimetre(typed, unit, decimal):
    """Who writes 3/4 thinks in inches, whatever the heading says."""
    with pytest.raises(UnitError) as caught:
        parse_quantity(typed, KINDS["length"], unit)

    error = caught.value
    assert error.found == f'"{typed}" is a fraction, but the heading says {unit}'
    assert error.advice == f'type "{typed} in", or the decimal "{decimal}" if {unit} is meant'


@pytest.mark.parametrize(
    ("typed", "kind", "unit", "value"),
    [
        ("1/2", "length", "ft", 0.1524),
        ("3/4 mm", "length", "in", 0.00075),
        ("1/2", "time", "h", 0.5),
    ],
)
def test_a_fraction_is_taken_where_it_can_mean_one_thing(typed, kind, unit, value):
    """Feet and hours are halved; who types a fraction of a millimetre with its unit means it."""
    assert parse_quantity(typed, KINDS[kind], unit) == pytest.approx(value, rel=1e-14)


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_no_kind_holds_what_is_not_finite(kind):
    """Every kind has ends, so that no overflow gets through."""
    assert kind.holds(kind.high)
    assert not any(kind.holds(value) for value in (math.inf, -math.inf, math.nan, -1e300))


def test_a_unit_in_the_cell_goes_before_the_heading():
    """Somebody who types 2 m under [mm] means two metres."""
    assert parse_quantity("2 m", KINDS["length"], "mm") == 2.0


def test_a_missing_unit_is_told_from_other_refusals():
    """The reader says it once for a whole column, so it must be able to tell."""
    with pytest.raises(MissingUnitError) as caught:
        parse_quantity(18.0, KINDS["length"])

    assert caught.value.in_cell == 'type its unit in the cell, as in "18 mm" or "18 m"'


def test_the_kind_follows_the_unit_where_several_are_possible():
    """A layer may be given as a thickness, as mass per area, or as a share."""
    kinds = (KINDS["length"], KINDS["surface_mass"], KINDS["percent"])

    assert parse_amount("0.3 kg/m\u00b2", kinds) == Amount("surface_mass", 0.3, "0.3 kg/m\u00b2")
    assert parse_amount(60.0, kinds, "%") == Amount("percent", 0.6, "60")


def test_knots_are_no_kilonewtons():
    """Case is forgiven within a kind, but kn is a speed and kN a force."""
    assert parse_quantity("2 KN", KINDS["force"]) == 2000.0
    assert parse_quantity("36 kn", KINDS["speed"]) == pytest.approx(36 * 1852 / 3600)


def test_a_heading_with_the_unit_of_something_else_is_refused():
    """The unit alone is quoted, because no number was typed with it."""
    with pytest.raises(UnitError) as caught:
        conversion("kg", "length")

    assert caught.value.found == '"kg" is for a mass'


def test_a_kind_with_symbols_only_lists_them():
    """A percentage has no unit made of letters to offer."""
    with pytest.raises(UnitError) as caught:
        parse_quantity("3 mm", KINDS["percent"])

    assert caught.value.advice == "units for that are %"


def test_feet_and_inches_are_no_mass():
    """A compound length is refused where no length is wanted."""
    with pytest.raises(UnitError) as caught:
        parse_quantity("4 ft 6 in", KINDS["mass"])

    assert caught.value.found == '"4 ft 6 in" is a length'


@pytest.mark.parametrize(("typed", "scale"), [("1:10", 10.0), ("1 : 2.5", 2.5)])
def test_a_scale_is_one_to_something(typed, scale):
    """The figure is how many times the real thing is longer."""
    assert parse_scale(typed) == scale


@pytest.mark.parametrize("typed", ["10:1", "1/10", "10", "1:0", "2:10", "", "1:99999"])
def test_no_other_scale_is_taken(typed):
    """Written the other way round it would be wrong a hundredfold; no model is a speck."""
    with pytest.raises(UnitError) as caught:
        parse_scale(typed)

    assert caught.value.found == f'"{typed}" is not a scale'
    assert caught.value.advice == 'type "1:10" if the real thing is ten times as long'


def test_a_value_is_printed_in_the_unit_asked_for():
    """Print rounds, the program does not."""
    assert format_quantity(1.2345, "mm", 0) == "1234 mm"
    assert format_quantity(0.18, "%", 1) == "18.0 %"
    assert format_quantity(288.15, "C", 1) == "15.0 C"


UNITS = [(kind, unit) for kind in KINDS.values() for unit in kind.units]


@given(
    st.sampled_from(UNITS),
    st.decimals(min_value=-9999, max_value=9999, places=3, allow_nan=False),
)
def test_text_to_si_to_text_is_the_same_text(kind_and_unit, number):
    """What is read and written in the same unit with three decimals comes back unchanged."""
    kind, unit = kind_and_unit
    typed = f"{float(number):.3f} {unit}"

    printed = format_quantity(parse_quantity(typed, kind), unit, 3)

    assert float(printed.split()[0]) == pytest.approx(float(number), abs=1e-9)
    assert printed.split()[1] == unit


def _outcome(text, kind):
    try:
        return parse_quantity(text, kind)
    except UnitError as error:
        return error.found, error.expected, error.advice


@given(st.text(max_size=100), st.sampled_from(list(KINDS.values())))
def test_any_text_is_a_finite_number_or_refused(text, kind):
    """No text can do worse than be refused, and every refusal says all three things."""
    outcome = _outcome(text, kind)

    assert all(outcome) if isinstance(outcome, tuple) else math.isfinite(outcome)


def test_the_library_of_units_is_loaded_late():
    """Importing the module does not load pint, so that `--help` need not wait for it."""
    code = "import sys, estimator.core.units; sys.exit('pint' in sys.modules)"

    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
