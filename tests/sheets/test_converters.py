"""What each kind of column makes of what stands in a cell: a document of readings and refusals."""

import datetime as dt
import math

import pytest

from estimator.core.units import Amount, UnitError
from estimator.sheets.cells import ErrorValue, NoSavedValue, Percent
from estimator.sheets.columns import FORMS, Column, Reads
from estimator.sheets.converters import Doubtful, folded, quoted, reader
from estimator.sheets.facts import JOB_FACTS


def column_of(sheet, field):
    """Return a column of the contract."""
    return next(column for column in FORMS[sheet].columns if column.field == field)


def cases(table):
    """Return the rows of a table as (column and unit, cell, the rest), each with a name."""
    return [
        pytest.param(reader(column_of(*row[:2]), row[2]), row[3], row[4:], id=f"{n}-{row[1]}")
        for n, row in enumerate(table)
    ]


# sheet, field, unit in the heading, cell, value
READINGS = [
    ("parts", "name", "", "  dial  face ", "dial  face"),
    ("parts", "name", "", 12.0, "12"),
    ("parts", "note", "", dt.date(2026, 3, 4), "2026-03-04"),
    ("parts", "note", "", dt.datetime(2026, 3, 4, 5, 6), "2026-03-04"),  # noqa: DTZ001 - as cells
    ("parts", "note", "", Percent(0.18), "18 %"),
    ("parts", "part", "", "  T  15 ", "T 15"),
    ("parts", "part", "", 15.0, "15"),
    ("parts", "part", "", True, "TRUE"),
    ("parts", "count", "", 4.0, 4),
    ("parts", "count", "", 0, 0),
    ("parts", "shape", "", "Sheet", "sheet"),
    ("assemblies", "stands", "", "flat-to-wall", "flat to wall"),
    ("assemblies", "mirrored", "", True, "yes"),
    ("assemblies", "mirrored", "", False, "no"),
    ("parts", "length", "mm", 120.0, 0.12),
    ("parts", "length", "mm", "4 ft", 4 * 0.3048),
    ("parts", "length", "", "120 mm", 0.12),
    ("parts", "end_width", "mm", 0.0, 0.0),
    ("parts", "across", "mm", -120.0, -0.12),
    ("parts", "turn", "", 90.0, math.pi / 2),
    ("parts", "turn", "", "90 deg", math.pi / 2),
    ("parts", "kg_per_m", "", 0.6, 0.6),
    ("parts", "relief", "", 1.08, 1.08),
    ("parts", "cut_away", "", Percent(0.45), 0.45),
    ("parts", "cut_away", "%", 45.0, 0.45),
    ("parts", "cut_away", "%", Percent(0.45), 0.45),
    ("parts", "cut_away", "", "45 %", 0.45),
    ("parts", "scale", "", "1:10", 10.0),
    ("parts", "gauge", "", "18 SWG", "18 SWG"),
    ("parts", "gauge", "mm", 1.2, "1.2 mm"),
    ("parts", "gauge", "mm", "1.2", "1.2 mm"),
    ("parts", "gauge", "", 18.0, "18"),
    ("parts", "price_each", "", 12.5, 12.5),
    ("build-ups", "amount", "", "2.24 mm", Amount("length", pytest.approx(0.00224), "2.24 mm")),
    ("build-ups", "amount", "", "0.3 kg/m2", Amount("surface_mass", 0.3, "0.3 kg/m2")),
    ("build-ups", "amount", "", Percent(0.6), Amount("percent", pytest.approx(0.6), "60 %")),
    ("build-ups", "waste", "", "150 %", 1.5),
    ("stock", "size", "", "2000 x 1000 mm", (2.0, 1.0)),
    ("stock", "size", "", "2 m x 1000 mm", (2.0, 1.0)),
    ("stock", "size", "", "8 ft \u00d7 4 ft", (8 * 0.3048, 4 * 0.3048)),
    ("stock", "size", "mm", "2000 X 1000", (2.0, 1.0)),
    ("stock", "size", "", "3/4 x 1/2 in", (0.75 * 0.0254, 0.5 * 0.0254)),
    ("stock", "size", "", "6 m", (6.0,)),
    ("stock", "size", "m", 6.0, (6.0,)),
    ("hours", "likely", "", 6.0, 6.0),
    ("hours", "likely", "", "90 min", 1.5),
    ("stock", "priced_on", "", dt.date(2026, 3, 4), dt.date(2026, 3, 4)),
    ("stock", "priced_on", "", dt.datetime(2026, 3, 4, 5, 6), dt.date(2026, 3, 4)),  # noqa: DTZ001
    ("stock", "priced_on", "", "2026-03-04", dt.date(2026, 3, 4)),
]


@pytest.mark.parametrize(("read", "cell", "expected"), cases(READINGS))
def test_a_cell_is_read_as_its_column_says(read, cell, expected):
    """Each reading is SI, a whole number, a date, or text in the spelling of the list."""
    (value,) = expected

    assert read(cell) == (pytest.approx(value) if type(value) in {float, tuple} else value)


@pytest.mark.parametrize("typed", ["18 SWG", "Code 5", "code5", "16 oz", "20 ga"])
def test_a_gauge_is_kept_for_the_table_to_answer(typed):
    """What a gauge means depends on its system, which no reader of cells knows."""
    amount = reader(column_of("build-ups", "amount"))(typed)

    assert (amount.kind, amount.text) == ("gauge", typed)
    assert math.isnan(amount.value)


COMPASS = [
    ("S", 180.0), ("se", 135.0), ("South-East", 135.0), ("south south west", 202.5), ("NNW", 337.5),
    ("135 deg", 135.0), ("-45 deg", 315.0),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "bearing_deg"), COMPASS)
def test_a_wall_faces_a_point_of_the_compass(typed, bearing_deg):
    """The sixteen points stand 22.5 degrees apart, clockwise from north."""
    read = reader(JOB_FACTS["wall_faces"].column)

    assert math.degrees(read(typed)) == pytest.approx(bearing_deg)


@pytest.mark.parametrize(("typed", "years"), [("50 years", 50), (50.0, 50), ("50 Years", 50)])
def test_a_count_of_years_may_say_so(typed, years):
    """A count that has a word of its own may carry it."""
    assert reader(JOB_FACTS["years_exposed"].column)(typed) == years


LENGTH = "a length such as 120 mm"
MASS = "a mass such as 2.5 kg"
LAYER = (
    "a length such as 120 mm, or a mass per area such as 0.3 kg/m2, or a mass per length such as "
    "0.6 kg/m, or a mass such as 2.5 kg, or a percentage such as 18 %"
)
NAME = "a name"
COUNT = "a whole number, 0 or more"
A_PRICE = "type one plain number, such as 260"
PLAIN = "a plain number without a unit"
STANDS = "one of: flat to wall, off wall, projecting, free"
STOCK = "a size as sold, such as 2000 x 1000 mm or 6 m"
AS_TEXT = "Format the cell as text and type it again"
SAVE = "open the file in your spreadsheet program and save it, or type the value"

# sheet, field, unit in the heading, cell, found, expected, advice
REFUSALS = [
    (
        "parts", "length", "", dt.date(2026, 3, 4), 'the cell holds a date, "4 March 2026"', LENGTH,
        'did you mean 3/4 or 4/3? Type "3/4 in", with its unit',
    ),
    (
        "parts", "mass_each", "", dt.date(2026, 1, 2), 'the cell holds a date, "2 January 2026"',
        MASS, 'did you mean 1/2 or 2/1? Type "1/2 kg", with its unit',
    ),
    (
        "parts", "part", "", dt.date(2026, 10, 12), 'the cell holds a date, "12 October 2026"',
        NAME, f"did you mean 10/12 or 12/10? {AS_TEXT}",
    ),
    (
        "parts", "scale", "", dt.time(1, 10), "the cell holds a time of day, 1:10",
        "the scale of a model, such as 1:10", f"did you mean 1:10? {AS_TEXT}",
    ),
    (
        "parts", "scale", "", dt.timedelta(hours=25, minutes=5),
        "the cell holds a time of day, 25:05", "the scale of a model, such as 1:10",
        f"did you mean 25:05? {AS_TEXT}",
    ),
    (
        "parts", "length", "mm", NoSavedValue("A1*2"),
        'the formula "=A1*2" has no saved value', LENGTH, SAVE,
    ),
    (
        "parts", "length", "mm", NoSavedValue(""), "a formula here has no saved value", LENGTH,
        SAVE,
    ),
    (
        "parts", "count", "", ErrorValue("#REF!"), "#REF! is an error, not a value", COUNT,
        "put the formula right, or type the value",
    ),
    (
        "parts", "note", "", "x" * 2001, "the text is 2001 characters long", "text",
        "keep it below 2000",
    ),
    ("parts", "length", "", True, '"TRUE" is not a number', LENGTH, ""),
    (
        "parts", "length", "", 18.0, '"18" has no unit', LENGTH,
        'type "18 mm" if that is meant, or put [mm] in the heading',
    ),
    (
        "parts", "length", "mm", 0.0, '"0 mm" is zero', f"{LENGTH}, more than zero",
        "leave it out if there is no such thing",
    ),
    (
        "parts", "length", "mm", -5.0, '"-5 mm" is negative', f"{LENGTH}, more than zero",
        "leave it out if there is no such thing",
    ),
    (
        "build-ups", "amount", "", "0 mm", '"0 mm" is zero',
        f"{LAYER}, more than zero",
        "leave it out if there is no such thing",
    ),
    ("parts", "end_width", "mm", -1.0, '"-1 mm" is less than 0', LENGTH, ""),
    (
        "limits", "value", "", "-1 m", '"-1 m" is less than 0',
        "a length such as 120 mm, or a mass such as 2.5 kg", "",
    ),
    (
        "parts", "mass_each", "", "120 mm", '"120 mm" is a length', "a mass such as 2.5 kg",
        "units for that are kg, g, t, lb, oz",
    ),
    ("parts", "count", "", 2.5, '"2.5" is not a whole number', COUNT, ""),
    ("parts", "count", "", -1.0, '"-1" is less than 0', COUNT, ""),
    ("parts", "count", "", "four", '"four" is not a plain number', COUNT, ""),
    ("parts", "count", "", Percent(0.5), '"50 %" is not a plain number', COUNT, ""),
    ("parts", "count", "", math.inf, '"inf" is not a plain number', COUNT, ""),
    ("parts", "relief", "", 0.9, '"0.9" is less than 1', f"{PLAIN}, from 1 to 5", ""),
    (
        "parts", "price_each", "", "12,50", '"12,50" is not a plain number', PLAIN,
        'type "12.50", with a point',
    ),
    (
        "parts", "price_each", "", "1,200", '"1,200" is not a plain number', PLAIN,
        'type "1.200", with a point; "1200" if the comma parts thousands',
    ),
    (
        "parts", "price_each", "", "1,200.50", '"1,200.50" is not a plain number', PLAIN,
        'type "1200.50", without commas',
    ),
    (
        "parts", "relief", "", "1,200", '"1,200" is not a plain number', PLAIN,
        'type "1.200", with a point; "1200" if the comma parts thousands',
    ),
    (
        "parts", "count", "", "1,200", '"1,200" is not a plain number', COUNT,
        'type "1.200", with a point; "1200" if the comma parts thousands',
    ),
    (
        "parts", "length", "mm", "3/4", '"3/4" is a fraction, but the heading says mm', LENGTH,
        'type "3/4 in", or the decimal "0.75" if mm is meant',
    ),
    ("parts", "count", "", "9" * 400, f'"{"9" * 60}..." is not a plain number', COUNT, ""),
    ("parts", "relief", "", math.nan, '"nan" is not a plain number', PLAIN, ""),
    (
        "parts", "price_each", "", math.inf, '"inf" is not a plain number', PLAIN, A_PRICE,
    ),
    (
        "parts", "length", "", "9" * 400, f'"{"9" * 80}..." is not one number with a unit', LENGTH,
        'type it as in "120 mm"',
    ),
    (
        "parts", "length", "mm", math.inf, '"inf" is not one number with a unit', LENGTH,
        'type it as in "120 mm"',
    ),
    ("parts", "count", "", 250000.0, '"250000" is more than 100000', COUNT, ""),
    ("parts", "price_each", "", 2e9, '"2000000000" is more than 1000000000', PLAIN, ""),
    ("parts", "relief", "", 50.0, '"50" is more than 5', f"{PLAIN}, from 1 to 5", ""),
    ("assemblies", "coefficient", "", 12.0, '"12" is more than 5', f"{PLAIN}, from 0 to 5", ""),
    ("parts", "length", "mm", 0.001, '"0.001 mm" is less than 0.01 mm', LENGTH, ""),
    (
        "parts", "cut_away", "", "120 %", '"120 %" is more than 100 %',
        "a share from 0 % to 100 %", "",
    ),
    (
        "parts", "cut_away", "", Percent(-0.1), '"-10 %" is less than 0 %',
        "a share from 0 % to 100 %", "",
    ),
    (
        "parts", "cut_away", "", 0.45, '"0.45" has no unit', "a percentage such as 18 %",
        'type "0.45 %" if that is meant, or put [%] in the heading',
    ),
    (
        "assemblies", "stands", "", "flat to the wall", '"flat to the wall" is not a choice here',
        STANDS, "did you mean flat to wall?",
    ),
    ("assemblies", "stands", "", "tilted", '"tilted" is not a choice here', STANDS, ""),
    (
        "parts", "scale", "", 10.0, '"10" is not a scale', "the scale of a model, one to something",
        'type "1:10" if the real thing is ten times as long',
    ),
    (
        "stock", "size", "", "1 x 2 x 3 x 4 m", '"1 x 2 x 3 x 4 m" has more than 3 sides', STOCK,
        "",
    ),
    ("stock", "size", "", "0 x 2 m", '"0 x 2 m" is not more than zero', STOCK, ""),
    (
        "stock", "size", "", "2000 x 1000", '"2000 x 1000" has no unit', STOCK,
        'type "2000 x 1000 mm" if that is meant, or put [mm] in the heading',
    ),
    (
        "stock", "size", "", 6.0, '"6" has no unit', STOCK,
        'type "6 mm" if that is meant, or put [mm] in the heading',
    ),
    ("stock", "size", "", "0.001 x 20 mm", '"0.001 x 20 mm" is less than 0.01 mm', STOCK, ""),
    (
        "stock", "priced_on", "", "4/3/26", '"4/3/26" is not a date', "a date such as 2026-03-04",
        "type year-month-day",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("read", "cell", "said"), cases(REFUSALS))
def test_a_cell_that_will_not_do_is_refused_in_plain_words(read, cell, said):
    """Each refusal quotes the cell, says what is wanted, and what to type."""
    with pytest.raises(UnitError) as caught:
        read(cell)

    error = caught.value
    assert (error.found, error.expected, error.advice) == said


def test_a_wall_that_faces_nowhere_is_refused():
    """A bearing is asked for with its unit."""
    with pytest.raises(UnitError) as caught:
        reader(JOB_FACTS["wall_faces"].column)("seaward")

    error = caught.value
    assert error.found == '"seaward" is not one number with a unit'
    assert error.expected == "a compass point such as SE, or a bearing such as 135 deg"
    assert error.advice == 'type "SE" or "135 deg"'


FAR_OUT = [
    ("parts", "length", "", "2400 m", '"2400 m" is too large for anything here', LENGTH,
     "did you mean 2400 mm?"),
    ("parts", "length", "m", 2400.0, '"2400 m" is too large for anything here', LENGTH,
     "did you mean 2400 mm?"),
    ("parts", "mass_each", "t", 25.0, '"25 t" is too large for anything here',
     "a mass such as 2.5 kg", "did you mean 25 kg?"),
    ("parts", "across", "m", 1e9, '"1000000000 m" is too large for anything here', LENGTH, ""),
    ("stock", "size", "", "1e30 x 2 m", '"1e30 x 2 m" is too large for anything here', LENGTH, ""),
    ("parts", "across", "", "1e30 m", '"1e30 m" is too large for anything here', LENGTH, ""),
    ("parts", "across", "m", -1e300, '"-1e+300 m" is too large for anything here', LENGTH, ""),
    ("stock", "size", "", "2000 x 1000 m", '"2000 x 1000 m" is too large for anything here', LENGTH,
     "did you mean 2000 mm?"),
    ("limits", "value", "", "250 m", '"250 m" is too large for anything here', LENGTH,
     "did you mean 250 mm?"),
]  # fmt: skip


@pytest.mark.parametrize(("read", "cell", "said"), cases(FAR_OUT))
def test_a_size_no_such_thing_has_is_refused(read, cell, said):
    """Used as typed it would drown every total; the likely meaning is asked about."""
    with pytest.raises(UnitError) as caught:
        read(cell)

    error = caught.value
    assert (error.found, error.expected, error.advice) == said


PRICES = [
    ("\u00a3260", "260"), ("GBP 12.50", "12.50"), ("260 EUR", "260"), ("36/h", "36"),
    ("\u00a336 per hour", "36"), ("2 each", "2"), ("40 pounds", "40"), ("$ 5", "5"),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "number"), PRICES)
def test_a_price_is_asked_for_as_a_plain_number(typed, number):
    """The currency is that of the job, and what a price is for has a column of its own."""
    with pytest.raises(UnitError) as caught:
        reader(column_of("stock", "price"))(typed)

    assert caught.value.found == f'"{typed}" is not a plain number'
    assert caught.value.advice == f"type the plain number {number}"


@pytest.mark.parametrize("typed", ["fifty", "2.5k", "36-40", "5 %", "3 million", "1.2.3", "260+20"])
def test_a_price_that_could_be_another_number_is_not_guessed(typed):
    """Half of what is typed would be wrong a hundredfold or a thousandfold."""
    with pytest.raises(UnitError) as caught:
        reader(column_of("stock", "price"))(typed)

    assert caught.value.advice == A_PRICE


def test_a_price_with_currency_and_comma_has_two_readings():
    """Neither of the two is more likely than the other in every country."""
    with pytest.raises(UnitError) as caught:
        reader(column_of("stock", "price"))("\u00a31,200")

    assert caught.value.advice == 'type "1.200", with a point; "1200" if the comma parts thousands'


def test_a_cold_day_can_be_too_cold():
    """Below any temperature on earth the sign or the unit is wrong."""
    with pytest.raises(UnitError) as caught:
        reader(JOB_FACTS["lowest_temperature"].column)("-150 C")

    assert caught.value.found == '"-150 C" is too small for anything here'


DOUBTS = [
    ("parts", "count", "", "4", 4, '"4" is text, not a number', COUNT,
     "it was used as 4; format the cell as a number and type it again"),
    ("parts", "relief", "", "1.08", 1.08, '"1.08" is text, not a number', PLAIN,
     "it was used as 1.08; format the cell as a number and type it again"),
]  # fmt: skip


@pytest.mark.parametrize(("read", "cell", "expected"), cases(DOUBTS))
def test_a_doubtful_cell_is_used_and_asked_about(read, cell, expected):
    """The value is taken as typed, and a person is asked to look."""
    assert read(cell) == Doubtful(*expected)


def test_long_text_is_quoted_short():
    """A message does not repeat a whole paragraph."""
    assert quoted("x" * 61) == f'"{"x" * 60}..."'
    assert quoted("x" * 60) == f'"{"x" * 60}"'


def test_names_are_compared_without_case_and_hyphens():
    """Lead on wood, lead-on-wood and LEAD_ON_WOOD are one way of building."""
    assert folded("Lead-on  WOOD") == folded("lead_on wood") == "lead on wood"


def test_every_kind_of_column_has_a_reader():
    """No kind can be declared that nothing reads."""
    assert all(callable(reader(Column("x", reads))) for reads in Reads)
