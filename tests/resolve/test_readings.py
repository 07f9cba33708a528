"""Rows of the maquette sheet: what was read, how sure it is, and which rows wait or are idle.

[WATER] Fresh water at 20 C: 998.2 kg/m3 (IAPWS-95, from memory).
[TN]    NIST Technical Note 1297, table B.1 (nist.gov): t for 90 % is 2.92 for two degrees of
        freedom, 6.31 for one.
"""

import math

import pytest

from estimator.resolve.readings import scale_of, taken, unused_readings, waiting_readings

HEADINGS = "part | scale | reading | value | spread\n"
NAMES = """
    part | assembly | count | shape    | diameter | made of | gauge  | option
    T15  | dial     | 1     | measured |          | copper  | 1.5 mm |
    T16  | dial     | 0     | measured |          | copper  | 1.5 mm |
    T17  | dial     | 1     | measured |          | copper  | 1.5 mm | gilt
    D1   | dial     | 1     | disc     | 1 m      | copper  | 1.5 mm |
    """


@pytest.fixture
def rows(read):
    """Return a function that reads rows of the maquette sheet."""

    def read_rows(*lines):
        return read({"maquette": HEADINGS + "\n".join(lines)}).rows["maquette"]

    return read_rows


FIGURES = [
    ("foil mass | 41 g |", 0.041, 0.1 * 0.041, "program default"),
    ("foil per m2 | 34 g/m2 |", 0.034, 0.02 * 0.034, "program default"),
    ("water displaced | 0.8 L |", 0.0008, 0.05 * 0.0008, "program default"),
    ("water displaced | 800 g |", 0.8 / 998.2, 0.05 * 0.8 / 998.2, "program default"),
    ("shadow area front | 120 cm2 |", 0.012, 0.05 * 0.012, "program default"),
    ("hang line up | 90 mm |", 0.09, 0.003, "program default"),
    ("hang line up | 0 mm |", 0.0, 0.003, "program default"),
    ("foil mass | 41 g | 3 %", 0.041, 0.03 * 0.041, "as typed"),
    ("foil mass | 41 g | 2 g", 0.041, 0.002, "as typed"),
    ("foil mass | 41 g | 0 g", 0.041, 0.0, "as typed"),
    ("water displaced | 0.8 L | 20 g", 0.0008, 0.02 / 998.2, "as typed"),
    ("hang line out | 90 mm | 5 mm", 0.09, 0.005, "as typed"),
]


@pytest.mark.parametrize(("line", "value", "half", "how"), FIGURES)
def test_a_reading_has_its_spread(rows, line, value, half, how):
    """[WATER] As typed, or the default that is named so."""
    found = []
    read = taken(rows(f"T15 | 1:10 | {line}"), found)

    ((name, figure),) = read.figures.items()
    assert figure == pytest.approx((value, half))
    assert read.how == {name: how}
    assert [problem for problem in found if "only together" not in problem.found] == []


def test_rows_of_one_reading_are_repeats(rows):
    """[TN] 40, 41 and 42 g: deviation 1 g, so 2.92 / sqrt 3 g to either side, to 0.2 %."""
    found = []
    read = taken(rows(*(f"T15 | 1:10 | hang line up | {mm} mm |" for mm in (40, 41, 42))), found)

    figure = read.figures["hang line up"]
    assert figure.value == pytest.approx(0.041)
    assert figure.half == pytest.approx(0.001 * 2.92 / math.sqrt(3), rel=2e-3)
    assert read.how == {"hang line up": "mean of 3 readings"}
    assert found == []


def test_repeats_that_are_alike_show_no_spread(rows):
    """A scale that reads to the gram would else be held for exact."""
    lines = ["T15 | 1:10 | water displaced | 0.8 L |"] * 3
    read = taken(rows(*lines), [])

    assert read.figures["water displaced"] == pytest.approx((0.0008, 0.00004))
    assert read.how == {"water displaced": "3 readings alike, program default"}


def test_the_spread_of_repeats_is_not_typed_as_well(rows):
    """It is left aside, and asked about."""
    found = []
    read = taken(
        rows("T15 | 1:10 | hang line up | 40 mm |", "T15 | 1:10 | hang line up | 41 mm | 5 %"),
        found,
    )

    assert read.how == {"hang line up": "mean of 2 readings"}
    assert [(p.severity, str(p)) for p in found] == [
        ("question", ("maquette!E3 (T15): how far repeats lie apart is found from their rows\n"
                     "    it was left aside; leave it blank")),
    ]  # fmt: skip


WRONG = [
    ("foil mass | 120 cm2 |",
     ('maquette!D2 (T15): "120 cm2" is not what foil mass is read in\n'
     "    wanted: a mass such as 2.5 kg\n    type the reading with its unit")),
    ("shadow area side | 0 cm2 |",
     ('maquette!D2 (T15): "0 cm2" is nothing at all\n'
     "    wanted: an area such as 120 cm2\n    delete the row if it was not read")),
    ("water displaced | 0.8 L | 3 mm",
     ('maquette!E2 (T15): "3 mm" cannot be the spread of water displaced\n'
     "    wanted: a percentage such as 18 %, or a volume such as 0.8 L, or a mass such as 2.5 kg\n"
     "    type it as the reading, or in %")),
    ("water displaced | 0.8 L | 120 %",
     ("maquette!D2 (T15): 0.8 L: the reading lies 120 % off to either side\n"
     "    wanted: readings that lie closer together\n"
     "    read it again, or type the spread you saw")),
]  # fmt: skip


@pytest.mark.parametrize(("line", "text"), WRONG)
def test_a_reading_that_cannot_be_used_is_refused(rows, line, text):
    """With what it is read in, and what to do."""
    found = []
    read = taken(rows(f"T15 | 1:10 | {line}"), found)

    assert text in [str(problem) for problem in found]
    assert all(problem.severity == "refused" for problem in found)
    assert read.figures == {}


def test_repeats_too_far_apart_say_nothing(rows):
    """[TN] 0.5 and 0.9 L: 6.31 x 0.283 / sqrt 2 is 1.26 L either side of 0.7 L."""
    found = []
    lines = ("T15 | 1:10 | water displaced | 0.5 L |", "T15 | 1:10 | water displaced | 0.9 L |")
    read = taken(rows(*lines), found)

    assert read.figures == {}
    assert [problem.found for problem in found] == [
        "0.5 L, 0.9 L: the reading lies 180 % off to either side"
    ]


@pytest.mark.parametrize(
    ("one", "other", "value"),
    [("foil mass", "foil per m2", "41 g"), ("foil per m2", "foil mass", "34 g/m2")],
)
def test_foil_alone_gives_no_area(rows, one, other, value):
    """It takes the mass, and the mass of a square metre."""
    found = []
    taken(rows(f"T15 | 1:10 | {one} | {value} |"), found)

    assert [str(problem) for problem in found] == [
        (
            f"maquette!C2 (T15): {one} gives an area only together with {other}\n"
            f"    wanted: a row of {other}\n    add it, or delete the row of {one}"
        )
    ]


def test_one_scale_holds_for_all_readings(read, rows):
    """Typed at any of them, or at the part; a foil by the area has none."""
    headings = "part | assembly | count | shape | scale | mass each\n"
    parts = f"{headings}T15 | dial | 1 | measured | 1:12.5 | 1 kg"
    (part,) = read({"parts": parts}).rows["parts"]
    found = []

    assert scale_of(part, (), found) == 12.5
    assert scale_of(part, rows("T15 | | hang line up | 90 mm |"), found) == 12.5
    assert scale_of(part, rows("T15 | 1:1 | foil per m2 | 9 g/m2 |"), found) == 12.5
    assert found == []


@pytest.fixture
def part(read):
    """Return the row of a part whose own scale is blank."""
    parts = "part | assembly | count | shape | mass each\nT15 | dial | 1 | measured | 1 kg"
    (row,) = read({"parts": parts}).rows["parts"]
    return row


def test_two_scales_contradict_each_other(part, rows):
    """Readings of two models cannot be taken together."""
    found = []
    lines = ("T15 | 1:10 | hang line up | 90 mm |", "T15 | | hang line out | 90 mm |",
             "T15 | 1:5 | hang line across | 90 mm |")  # fmt: skip
    scale_of(part, rows(*lines), found)

    assert [str(problem) for problem in found] == [
        (
            "maquette!B4 (T15): the scale is 1:5 here and 1:10 at maquette!B2\n"
            "    wanted: one scale for all readings on a model\n"
            "    mend one of the two; of two models keep the readings of one"
        )
    ]


def test_a_model_needs_a_scale(part, rows):
    """Nothing can be guessed from its readings."""
    found = []
    scale_of(part, rows("T15 | | hang line up | 90 mm |"), found)

    assert [str(problem) for problem in found] == [
        (
            "maquette!B2 (T15): nothing says the scale of this model\n"
            "    wanted: the scale, such as 1:10\n"
            "    type it here, or on the row of the part"
        )
    ]


def test_where_nothing_was_read_there_is_no_scale(part, rows):
    """Nor does foil by the area need one."""
    found = []

    assert scale_of(part, (), found) == 1.0
    assert scale_of(part, rows("T15 | | foil per m2 | 34 g/m2 |"), found) == 1.0
    assert found == []


@pytest.fixture
def idle(read):
    """Return a function that gives the problems of idle readings, and how many wait."""

    def look(*lines, parts=NAMES):
        job = read({"parts": parts, "maquette": HEADINGS + "\n".join(lines)})
        counted = [r for r in job.rows["parts"] if r.number("count") and not r.has("option")]
        problems = unused_readings(
            job.rows["maquette"], job.refused_rows["maquette"],
            job.rows["parts"], job.refused_rows["parts"],
        )  # fmt: skip
        told = [str(problem) for problem in problems]
        return told, waiting_readings(job.rows["maquette"], job.rows["parts"], counted)

    return look


def test_readings_of_measured_parts_are_used_or_wait(idle):
    """T16 is parked and T17 belongs to another option: nothing is wrong with their readings."""
    lines = [f"{part} | 1:10 | hang line up | 90 mm |" for part in ("t15", "T16", "T17")]

    assert idle(*lines) == ([], 2)


def test_readings_of_no_part_are_refused(idle):
    """They would be lost; the parts that readings may be of are listed. None of them waits."""
    told, waiting = idle("T51 | 1:10 | hang line up | 90 mm |")

    assert waiting == 0

    assert told == [
        (
            'maquette!A2 (T51): "T51" is not on the parts sheet\n'
            "    wanted: a part of shape measured\n"
            "    type one of: T15, T16, T17"
        )
    ]


def test_readings_of_another_shape_are_refused(idle):
    """A disc is worked out from its dimensions."""
    told, _ = idle("D1 | 1:10 | hang line up | 90 mm |")

    assert told == [
        (
            "maquette!A2 (D1): D1 is of shape disc, which needs no readings\n"
            "    wanted: a part of shape measured\n"
            "    type measured under its shape; the figures are as if this row were not there"
        )
    ]


def test_what_refused_readings_name_is_looked_up(idle):
    """One run tells every problem; a row that names nothing was told already."""
    told, _ = idle("T51 | 1:10 | hang line up | 90 |", " | 1:10 | hang line up | 90 mm |")

    assert [text.splitlines()[0] for text in told] == [
        'maquette!A2 (T51): "T51" is not on the parts sheet'
    ]


def test_readings_of_a_refused_part_say_so(idle):
    """Its row comes first."""
    parts = NAMES.replace("| 1     | measured", "| one   | measured", 1)
    told, _ = idle("T15 | 1:10 | hang line up | 90 mm |", parts=parts)

    assert told == ['maquette!A2 (T15): the row "T15" of parts cannot be used; mend that first']
