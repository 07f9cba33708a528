"""Whole workbooks into typed rows and problems: what is typed, and what is said about it."""

import datetime as dt
import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from estimator.core.problems import Cell, Severity, UnreadableError
from estimator.core.sourced import Origin, Sourced
from estimator.core.units import Amount
from estimator.sheets.columns import FORMS, LISTS
from estimator.sheets.rows import Row, read_job

HEADER = ["part", "assembly", "count", "shape", "length [mm]", "width [mm]", "made of"]
T1 = ["T1", "dial", 4, "sheet", 300, 200, "copper"]
JOB = {
    "job": [
        ["item", "value", "source"],
        ["title", "Tide dial", None],
        ["datum height", "7.6 m", "taped"],
        ["Wind rule", "en 1991-1-4", None],
        ["not listed yet", ("percent", 0.05), "maker"],
        ["years exposed", 50, None],
        ["date", dt.date(2026, 3, 4), None],
    ],
    "assemblies": [
        ["assembly", "moves", "from", "to", "mirrored"],
        ["hand", "turns", "0 deg", "360 deg", "no"],
    ],
    "parts": [[*HEADER, "cut away", "option"], [*T1, ("percent", 0.45), "copper"]],
    "build-ups": [
        ["build-up", "layer", "material", "over", "amount", "option"],
        ["body", "skin", "lead", "one face", "Code 5", "lead on wood"],
        ["body", "felt", "felt", "One face", "0.3 kg/m2", "Copper"],
    ],
}


def problems_of(path):
    """Return the problems of a workbook as a person sees them."""
    return [f"{p.severity} {p}" for p in read_job(path).problems]


def parts(write, *rows, header=HEADER):
    """Write a workbook that has only a list of parts."""
    return write({"parts": [header, *rows]})


def test_a_job_reads_the_same_in_every_form(write):
    """Spreadsheet, open document and a folder under version control are one job."""
    xlsx, ods, folder = (read_job(write(JOB, suffix)) for suffix in (".xlsx", ".ods", ".csv"))

    assert xlsx.problems == ods.problems == folder.problems == ()
    assert xlsx.rows == ods.rows == folder.rows
    assert xlsx.facts == ods.facts == folder.facts
    assert xlsx.inputs_sha256 == ods.inputs_sha256 == folder.inputs_sha256


def test_values_are_si_and_know_their_cells(write):
    """A row gives text, numbers and addresses by field."""
    (row,) = read_job(write(JOB)).rows["parts"]

    assert row.values == {
        "part": "T1", "assembly": "dial", "count": 4, "shape": "sheet", "length": 0.3,
        "width": 0.2, "made_of": "copper", "cut_away": 0.45, "option": "copper",
    }  # fmt: skip
    assert row.has("length")
    assert not row.has("gauge")
    assert row.number("length") == 0.3
    assert math.isnan(row.number("depth"))
    assert row.text("gauge", "18 SWG") == "18 SWG"
    assert row.cell("made_of") == Cell("parts", "G", 2)
    assert row.cell("gauge") == row.cell() == Cell("parts", "", 2)


def test_amounts_keep_what_they_are(write):
    """From and to of a mover are angles here; a gauge waits for its table."""
    job = read_job(write(JOB))

    assert job.rows["assemblies"][0].values["to"] == Amount(
        "angle", pytest.approx(math.tau), "360 deg"
    )
    assert job.rows["build-ups"][0].values["amount"].kind == "gauge"


def test_facts_of_the_job_are_typed_and_sourced(write):
    """Only what was typed is a fact; defaults are for those who use them."""
    facts = read_job(write(JOB)).facts

    assert facts["datum_height"] == Sourced(7.6, Origin.TYPED, "taped", Cell("job", "B", 3))
    assert {item: fact.value for item, fact in facts.items()} == {
        "title": "Tide dial", "datum_height": 7.6, "wind_rule": "EN 1991-1-4",
        "not_listed_yet": 0.05, "years_exposed": 50, "date": "2026-03-04",
    }  # fmt: skip


def test_options_come_in_order_and_one_spelling(write):
    """Copper and copper are one way of building, spelled as it first was."""
    job = read_job(write(JOB))

    assert job.options == ("copper", "lead on wood")
    assert [row.text("option") for row in job.rows["build-ups"]] == ["lead on wood", "copper"]


def test_examples_and_blank_rows_do_not_count(write):
    """An example shows how to fill a sheet in, and is neither used nor refused."""
    path = parts(write, ["EXAMPLE T0", "dial", "four"], [None], T1, [" "])

    job = read_job(path)

    assert job.read["parts"] == 1
    assert job.problems == ()


def test_every_sheet_has_its_place_in_the_ledger(write):
    """Sheets a workbook does not have are counted as empty."""
    job = read_job(parts(write, T1))

    assert list(job.rows) == list(job.read) == list(job.refused) == list(FORMS)
    assert list(job.refused_rows) == list(FORMS)
    assert job.rows["brackets"] == ()
    assert job.read["brackets"] == 0


PART_PROBLEMS = {
    "a length without a unit in heading or cell": (
        [["T1", "dial", 4, "sheet", 300, 200, "copper"]],
        ["part", "assembly", "count", "shape", "length", "width [mm]", "made of"],
        [
            (
                'refused parts!E2 (T1): "300" has no unit\n'
                "    wanted: a length such as 120 mm\n"
                '    type "300 mm" if that is meant, or put [mm] in the heading'
            )
        ],
    ),
    "a whole column of lengths without a unit": (
        [[f"T{n}", "dial", 4, "sheet", 300, 200, "copper"] for n in range(12)],
        ["part", "assembly", "count", "shape", "length", "width [mm]", "made of"],
        [
            (
                'refused parts!E1: 12 numbers under "length" have no unit, from parts!E2 on\n'
                "    wanted: a length such as 120 mm\n"
                '    put the unit in the heading: "length [mm]"'
            )
        ],
    ),
    "a heading with the unit of something else": (
        [["T1", "dial", 4, "sheet", 300, 200, "copper"]],
        ["part", "assembly", "count", "shape", "length [kg]", "width [mm]", "made of"],
        [
            (
                "refused parts!E1: the unit [kg] in this heading does not fit\n"
                "    wanted: a length such as 120 mm\n"
                "    units for that are mm, cm, m, ft, yd, in"
            )
        ],
    ),
    "a mass where a length is wanted": (
        [["T1", "dial", 4, "sheet", "3 kg", 200, "copper"]],
        HEADER,
        [
            (
                'refused parts!E2 (T1): "3 kg" is a mass\n'
                "    wanted: a length such as 120 mm\n"
                "    units for that are mm, cm, m, ft, yd, in"
            )
        ],
    ),
    "a comma for a point": (
        [["T1", "dial", 4, "sheet", "2,24", 200, "copper"]],
        HEADER,
        [
            (
                'refused parts!E2 (T1): "2,24" has a comma in its number\n'
                "    wanted: a length such as 120 mm\n"
                '    type "2.24", with a point'
            )
        ],
    ),
    "a size that became a date": (
        [["T1", "dial", 4, "sheet", dt.date(2026, 3, 4), 200, "copper"]],
        HEADER,
        [
            (
                'refused parts!E2 (T1): the cell holds a date, "4 March 2026"\n'
                "    wanted: a length such as 120 mm\n"
                '    did you mean 3/4 or 4/3? Type "3/4 in", with its unit'
            )
        ],
    ),
    "a scale that became a time": (
        [["T1", "dial", 4, "sheet", dt.time(1, 10), "copper"]],
        ["part", "assembly", "count", "shape", "scale", "made of"],
        [
            (
                "refused parts!E2 (T1): the cell holds a time of day, 1:10\n"
                "    wanted: the scale of a model, such as 1:10\n"
                "    did you mean 1:10? Format the cell as text and type it again"
            )
        ],
    ),
    "a formula without a saved value": (
        [["T1", "dial", ("formula", "B1+1"), "sheet", 300, 200, "copper"]],
        HEADER,
        [
            (
                'refused parts!C2 (T1): the formula "=B1+1" has no saved value\n'
                "    wanted: a whole number, 0 or more\n"
                "    open the file in your spreadsheet program and save it, or type the value"
            )
        ],
    ),
    "an error in a cell": (
        [["T1", "dial", "#REF!", "sheet", 300, 200, "copper"]],
        HEADER,
        [
            (
                "refused parts!C2 (T1): #REF! is an error, not a value\n"
                "    wanted: a whole number, 0 or more\n"
                "    put the formula right, or type the value"
            )
        ],
    ),
    "a count typed as text": (
        [["T1", "dial", "4", "sheet", 300, 200, "copper"]],
        HEADER,
        [
            (
                'question parts!C2 (T1): "4" is text, not a number\n'
                "    wanted: a whole number, 0 or more\n"
                "    it was used as 4; format the cell as a number and type it again"
            )
        ],
    ),
    "half a part": (
        [["T1", "dial", 2.5, "sheet", 300, 200, "copper"]],
        HEADER,
        [
            (
                'refused parts!C2 (T1): "2.5" is not a whole number\n'
                "    wanted: a whole number, 0 or more"
            )
        ],
    ),
    "a part twice": (
        [T1, ["t1", "hand", 1, "sheet", 300, 200, "copper"]],
        HEADER,
        [
            (
                'refused parts!A3 (t1): "t1" stands in parts!A2 already\n'
                "    wanted: each name once\n"
                "    give it another name; the same name is for rows of different options only"
            )
        ],
    ),
    "a part of one option and of all": (
        [[*T1, "copper"], [*T1, None]],
        [*HEADER, "option"],
        [
            (
                'refused parts!A3 (T1): "T1" stands in parts!A2 already\n'
                "    wanted: each name once\n"
                "    give it another name; the same name is for rows of different options only"
            )
        ],
    ),
    "a part of two options": ([[*T1, "copper"], [*T1, "lead"]], [*HEADER, "option"], []),
    "a negative size": (
        [["T1", "dial", 4, "sheet", -300, 200, "copper"]],
        HEADER,
        [
            (
                'refused parts!E2 (T1): "-300 mm" is negative\n'
                "    wanted: a length such as 120 mm, more than zero\n"
                "    leave it out if there is no such thing"
            )
        ],
    ),
    "a size a thousand times too large": (
        [["T1", "dial", 4, "sheet", "2400 m", 200, "copper"]],
        HEADER,
        [
            (
                'refused parts!E2 (T1): "2400 m" is too large for anything here\n'
                "    wanted: a length such as 120 mm\n"
                "    did you mean 2400 mm?"
            )
        ],
    ),
    "a needed cell left blank": (
        [["T1", "dial", None, "sheet", 300, 200, "copper"]],
        HEADER,
        [
            (
                'refused parts!C2 (T1): "count" is blank\n'
                "    wanted: How many are alike; 0 parks the row\n"
                "    fill it in, or empty the whole row"
            )
        ],
    ),
    "no material and no mass either": (
        [["T1", "dial", 4, "sheet", 300, 200, None]],
        HEADER,
        [
            (
                'refused parts!G2 (T1): "made of" is blank\n'
                '    wanted: A material or a build-up or "mass each" or "kg per m"\n'
                "    fill it in, or empty the whole row"
            )
        ],
    ),
    "a mass instead of a material": (
        [["T1", "dial", 4, "bought", "1.2 kg"]],
        ["part", "assembly", "count", "shape", "mass each"],
        [],
    ),
    "a needed heading that is not there": (
        [["T1", "dial", "sheet", "copper"], ["T2", "dial", "sheet", "copper"]],
        ["part", "assembly", "shape", "made of"],
        [
            (
                'refused parts!1: no column is headed "count", which 2 rows need\n'
                "    wanted: How many are alike; 0 parks the row\n"
                '    add the heading "count" and fill it in'
            )
        ],
    ),
    "a needed heading that one row misses": (
        [["T1", "dial", "sheet", "copper"]],
        ["part", "assembly", "shape", "made of"],
        [
            (
                'refused parts!1: no column is headed "count", which 1 row needs\n'
                "    wanted: How many are alike; 0 parks the row\n"
                '    add the heading "count" and fill it in'
            )
        ],
    ),
    "a shape that is not in the list": (
        [["T1", "dial", 4, "dics", 300, 200, "copper"]],
        HEADER,
        [
            (
                'refused parts!D2 (T1): "dics" is not a choice here\n'
                "    wanted: one of: sheet, disc, ring, sector, blade, leaf, outline, box, flat, "
                "rod, tube, hollow, section, hoop, formed, cone, sphere, dome, ellipsoid, torus, "
                "mesh, measured, run, bought\n"
                "    did you mean disc?"
            )
        ],
    ),
    "more than all of it cut away": (
        [[*T1, ("percent", 1.2)]],
        [*HEADER, "cut away"],
        [
            (
                'refused parts!H2 (T1): "120 %" is more than 100 %\n'
                "    wanted: a share from 0 % to 100 %"
            )
        ],
    ),
    "a slip in a heading": (
        [[*T1, "oil gilt"]],
        [*HEADER, "finsh"],
        [
            (
                'refused parts!H1: the heading "finsh" is not known, and its column was not read\n'
                "    wanted: a heading of this sheet\n"
                '    did you mean "finish"?'
            )
        ],
    ),
}


@pytest.mark.parametrize(("rows", "header", "said"), PART_PROBLEMS.values(), ids=PART_PROBLEMS)
def test_what_is_wrong_in_a_list_of_parts_is_said(write, rows, header, said):
    """Table in, sentences out: found, wanted, advice."""
    assert problems_of(parts(write, *rows, header=header)) == said


def test_refused_rows_are_counted_and_left_out(write):
    """A row is used whole or not at all; a question does not keep it from being used."""
    path = parts(
        write,
        T1,
        ["T2", "dial", "4", "sheet", 300, 200, "copper"],
        ["T3", "dial", 2.5, "sheet", 300, 200, "copper"],
    )

    job = read_job(path)

    assert [row.text("part") for row in job.rows["parts"]] == ["T1", "T2"]
    assert (job.read["parts"], job.refused["parts"]) == (3, 1)


def test_what_could_be_read_of_a_refused_row_is_kept(write):
    """Its names can be looked up in the same run; the cell that was refused is missing."""
    job = read_job(parts(write, T1, ["T3", "dial", 2.5, "sheet", 300, 200, "coper"]))
    (row,) = job.refused_rows["parts"]

    assert row.cell("made_of") == Cell("parts", "G", 3)
    assert row.values == {
        "part": "T3", "assembly": "dial", "shape": "sheet", "length": 0.3, "width": 0.2,
        "made_of": "coper",
    }  # fmt: skip


def test_rows_under_a_wrong_unit_are_refused_without_a_word_each(write):
    """The heading is told once; its numbers mean nothing, but cells with a unit still do."""
    header = ["part", "assembly", "count", "shape", "length [kg]", "width [mm]", "made of"]
    path = parts(write, T1, ["T2", "dial", 4, "sheet", "300 mm", 200, "copper"], header=header)

    job = read_job(path)

    assert [row.text("part") for row in job.rows["parts"]] == ["T2"]
    assert job.refused["parts"] == 1
    assert len(job.problems) == 1


JOB_PROBLEMS = {
    "a slip in an item": (
        ["datum hieght", "7.6 m"],
        (
            'refused job!A2 (datum hieght): "datum hieght" is not a fact this program asks for\n'
            "    wanted: a listed fact\n"
            '    did you mean "datum height"?'
        ),
    ),
    "an item nobody asks for": (
        ["colour of the door", "red"],
        (
            'note job!A2 (colour of the door): "colour of the door" is not a fact this program '
            "asks for\n"
            "    it was left aside"
        ),
    ),
    "a fact without its unit": (
        ["basic wind speed", 24],
        (
            'refused job!B2 (basic wind speed): "24" has no unit\n'
            "    wanted: a speed such as 24 m/s\n"
            '    type its unit in the cell, as in "24 m/s"'
        ),
    ),
    "a fact of one option only": (
        ["issue", "B", "copper"],
        (
            "question job!C2 (issue): a fact of the job is the same for every option\n"
            "    wanted: a blank option\n"
            "    it was left aside"
        ),
    ),
    "a terrain in words": (
        ["terrain", "town"],
        (
            'refused job!B2 (terrain): "town" is not a choice here\n'
            "    wanted: one of: 0 sea, I lakes or flat, II low vegetation, "
            "III suburb or village, IV city, B town, suburb or wood, C open country, "
            "D flat shore"
        ),
    ),
    "a datum below the ground": (
        ["datum height", "-2 m"],
        ('refused job!B2 (datum height): "-2 m" is less than 0\n    wanted: a height such as 12 m'),
    ),
    "a mark-up below nothing": (
        ["mark-up", "-5 %"],
        ('refused job!B2 (mark-up): "-5 %" is less than 0\n    wanted: a percentage such as 18 %'),
    ),
    "an item without a value": (
        ["issue", None, "copper"],
        (
            'refused job!B2 (issue): "value" is blank\n'
            "    wanted: The fact, with its unit in the cell: 7.6 m\n"
            "    fill it in, or empty the whole row"
        ),
    ),
    "a wind rule that is none": (
        ["wind rule", "EN 1991"],
        (
            'refused job!B2 (wind rule): "EN 1991" is not a choice here\n'
            "    wanted: one of: EN 1991-1-4, ASCE 7-16, ASCE 7-22, stated pressure\n"
            "    did you mean EN 1991-1-4?"
        ),
    ),
}


@pytest.mark.parametrize(("row", "said"), JOB_PROBLEMS.values(), ids=JOB_PROBLEMS)
def test_what_is_wrong_on_the_job_sheet_is_said(write, row, said):
    """Each item is read as its own line of the list says."""
    path = write({"job": [["item", "value", "option"], row], "parts": [HEADER, T1]})

    assert problems_of(path) == [said]
    assert read_job(path).facts == {}


LIMIT_PROBLEMS = {
    "a mass without its unit": (
        "value", ["hand lift", 25],
        (
            'refused limits!B2 (hand lift): "25" has no unit\n'
            "    wanted: a mass such as 2.5 kg\n"
            '    type its unit in the cell, as in "25 kg"'
        ),
    ),
    "a length without its unit": (
        "value", ["Kerb gap", 450],
        (
            'refused limits!B2 (kerb gap): "450" has no unit\n'
            "    wanted: a length such as 120 mm\n"
            '    type its unit in the cell, as in "450 mm" or "450 m"'
        ),
    ),
    "a length for a mass": (
        "value", ["van payload", "3 m"],
        (
            'refused limits!B2 (van payload): "3 m" is a length\n'
            "    wanted: a mass such as 2.5 kg\n"
            "    units for that are kg, g, t, lb, oz"
        ),
    ),
    "no such limit": (
        "value [m]", ["reach of the crane", 3],
        (
            'refused limits!A2: "reach of the crane" is not a choice here\n'
            "    wanted: one of: headroom, projection, kerb gap, hand lift, door width, door "
            "height, van length, van width, van height, van payload"
        ),
    ),
}  # fmt: skip


@pytest.mark.parametrize(("heading", "row", "said"), LIMIT_PROBLEMS.values(), ids=LIMIT_PROBLEMS)
def test_what_is_wrong_with_a_limit_is_said(write, heading, row, said):
    """What is lifted is asked for as a mass, what must fit through a door as a length."""
    path = write({"limits": [["limit", heading], row], "parts": [HEADER, T1]})

    assert problems_of(path) == [said]


def test_a_limit_may_have_its_unit_in_the_heading(write):
    """One list of lengths needs the unit once."""
    path = write({"limits": [["limit", "value [m]"], ["headroom", 2.5]], "parts": [HEADER, T1]})

    (row,) = read_job(path).rows["limits"]
    assert row.values["value"] == Amount("length", 2.5, "2.5")


def test_limits_without_units_are_told_one_by_one(write):
    """No one unit in the heading would do for all of them."""
    names = ["headroom", "hand lift", "van payload", "door width"]
    table = [["limit", "value"], *([name, 3] for name in names)]

    said = problems_of(write({"limits": table, "parts": [HEADER, T1]}))

    assert len(said) == len(names)


def test_limits_under_a_wrong_unit_are_told_once(write):
    """The heading is the problem, and its rows are refused without a word each."""
    table = [["limit", "value [s]"], ["headroom", 3], ["hand lift", 25]]

    job = read_job(write({"limits": table, "parts": [HEADER, T1]}))

    assert [str(problem.cell) for problem in job.problems] == ["limits!B1"]
    assert job.refused["limits"] == 2


def test_a_fact_given_twice_is_named_as_it_is_headed(write):
    """The key of an item is nothing a person types."""
    table = [["item", "value"], ["mark-up", "5 %"], ["Mark up", "6 %"]]

    assert problems_of(write({"job": table, "parts": [HEADER, T1]})) == [
        (
            'refused job!A3 (mark-up): "mark-up" stands in job!A2 already\n'
            "    wanted: each name once\n"
            "    give it another name; the same name is for rows of different options only"
        )
    ]


def test_a_fact_left_unanswered_is_no_problem(write):
    """The blank workbook asks for every fact; one without an answer counts as a blank row."""
    path = write({"job": [["item", "value"], ["issue", None]], "parts": [HEADER, T1]})

    job = read_job(path)

    assert job.problems == ()
    assert job.read["job"] == 0


def test_each_missing_unit_of_the_job_sheet_is_told_by_itself(write):
    """Every item there wants another unit, so they are not said in one."""
    items = ["datum height", "altitude", "kerb distance", "building width", "basic wind speed"]
    table = [["item", "value"], *([item, 3] for item in items)]

    said = problems_of(write({"job": table, "parts": [HEADER, T1]}))

    assert len(said) == len(items)


def test_either_of_several_will_do_where_the_contract_says_so(write):
    """A scale reading is of an assembly, a lift unit or a part; a cost has a range or a figure."""
    tables = {
        "parts": [HEADER, T1],
        "weighed": [["lift unit", "mass [kg]"], ["L1", 120], [None, 12]],
        "costs": [["name", "likely", "amount"], ["van", None, 90], ["scaffold", None, None]],
    }

    job = read_job(write(tables))

    assert [len(job.rows[sheet]) for sheet in ("weighed", "costs")] == [1, 1]
    assert [str(problem.cell) for problem in job.problems] == ["costs!B3", "weighed!1"]


def test_sheets_are_matched_like_headings(write):
    """Build-ups, Build ups and build_ups are the same sheet."""
    tables = {"PARTS": [HEADER, T1], "Build_Ups": JOB["build-ups"]}

    job = read_job(write(tables))

    assert (job.read["parts"], job.read["build-ups"]) == (1, 2)


def test_sheets_that_are_not_part_of_a_job_are_listed(write):
    """A slip is asked about, a maker's own sheet is only noted."""
    path = write({"parts": [HEADER, T1], "bracket": [["x"]], "sketches": [["x"]]})

    assert problems_of(path) == [
        (
            'question bracket: the sheet "bracket" is not part of a job, and was not read\n'
            "    wanted: a sheet of the job\n"
            '    did you mean "brackets"?'
        ),
        (
            'note sketches: the sheet "sketches" is not part of a job, and was not read\n'
            "    it was left aside"
        ),
    ]


def test_the_lists_behind_the_pick_lists_are_no_sheet_of_the_job(write):
    """The blank workbook keeps its choices on a sheet of their own, which is passed over."""
    assert problems_of(write({LISTS: [["yes"], ["no"]], "parts": [HEADER, T1]})) == []


def test_a_job_without_parts_is_refused(write):
    """The other sheets are still read, so that all is said in one run."""
    assert problems_of(write({"job": [["item", "value"], ["title", "x"]]})) == [
        (
            "refused parts: there is no sheet of this name\n"
            "    wanted: a list of parts\n"
            "    without parts there is nothing to work out"
        )
    ]


def test_a_workbook_of_something_else_is_unreadable(write):
    """Without a single sheet of a job there is nothing to report on."""
    with pytest.raises(UnreadableError) as caught:
        read_job(write({"Sheet1": [["x"]]}))

    assert str(caught.value) == (
        "no sheet of job belongs to a job; `estimator new` makes one to fill in"
    )


def test_two_spellings_of_one_sheet_are_unreadable(write):
    """Which of them counts, nobody but the maker knows."""
    with pytest.raises(UnreadableError) as caught:
        read_job(write({"build-ups": [["x"]], "build ups": [["x"]]}))

    assert str(caught.value) == 'there are two sheets "build-ups"; rename one of them'


def test_problems_come_in_the_order_of_sheets_then_rows(write):
    """However the sheets stand in the workbook, a person is led through them in one order."""
    tables = {
        "parts": [[*HEADER, "finsh"], ["T1", "dial", 4, "dics", -1, 200, "copper"]],
        "job": [["item", "value"], ["altitude", 3]],
    }

    assert [str(problem.cell) for problem in read_job(write(tables)).problems] == [
        "job!B2", "parts!H1", "parts!D2", "parts!E2",
    ]  # fmt: skip


def test_the_digest_follows_the_values_and_nothing_else(write):
    """Order of columns, blank rows and how a unit is written do not change it; a value does."""
    plain = write({"parts": [HEADER, T1]}, name="a")
    turned = write({"parts": [HEADER[::-1], [None], T1[::-1]]}, name="b")
    in_metres = write({"parts": [HEADER, [*T1[:4], "0.3 m", 200, "copper"]]}, name="c")
    changed = write({"parts": [HEADER, [*T1[:4], 301, 200, "copper"]]}, name="d")

    digests = [read_job(path).inputs_sha256 for path in (plain, turned, in_metres, changed)]

    assert digests[0] == digests[1] == digests[2] != digests[3]


def test_the_digest_sees_a_refused_row_change(write):
    """What could not be used was read all the same."""
    first = write({"parts": [HEADER, ["T1", "dial", "four"]]}, name="a")
    second = write({"parts": [HEADER, ["T1", "dial", "five"]]}, name="b")

    assert read_job(first).inputs_sha256 != read_job(second).inputs_sha256


cells = st.one_of(
    st.none(),
    st.integers(-5, 5),
    st.floats(-1e6, 1e6).map(lambda number: round(number, 3)),
    st.sampled_from(["T1", "T2", "sheet", "copper", "120 mm", "3 kg", "EXAMPLE", "18 %", " ", "#"]),
    st.text(st.characters(exclude_categories=["C"]), max_size=8),
)
headings = st.lists(
    st.sampled_from([*HEADER, "length", "gauge", "option", "lenght", "mine", ""]), max_size=9
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(headings, st.lists(st.lists(cells, max_size=9), max_size=6))
def test_no_row_is_lost_whatever_is_typed(tmp_path, header, rows):
    """Rows read are rows used and rows refused, and every refused row has been told about."""
    lines = [header, *rows]
    text = "\n".join(",".join(_csv_cell(cell) for cell in line) for line in lines)
    (tmp_path / "parts.csv").write_text(text, encoding="utf-8")

    job = read_job(tmp_path)

    used, refused = job.rows["parts"], job.refused["parts"]
    assert job.read["parts"] == len(used) + refused
    assert all(isinstance(row, Row) for row in used)
    assert not refused or any(p.severity is Severity.REFUSED for p in job.problems)


def _csv_cell(cell):
    return "" if cell is None else '"{}"'.format(str(cell).replace('"', '""'))
