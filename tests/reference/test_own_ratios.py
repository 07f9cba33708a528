"""A maker's own record of weighings: read as it was kept, or said what is wrong."""

import pytest

from estimator.core.problems import Severity
from estimator.reference.own_ratios import Ratio, job_label, read_ratios

HEAD = "key,job,part_or_assembly,material,shape,estimated_kg,weighed_kg,ratio,date\n"
ROW = "heron: T1,heron,T1,copper,sheet,10,11.5,1.15,2026-03-04\n"


def test_a_record_is_read(makers):
    """The ratio is worked out from the masses, whatever stands in its column."""
    ratios, problems = read_ratios(makers(own_ratios=HEAD + ROW.replace("1.15", "9")))

    assert ratios == (Ratio("heron", "copper", "sheet", 10.0, 11.5),)
    assert ratios[0].made_per_estimated == pytest.approx(1.15)
    assert problems == ()


def test_without_a_record_there_is_nothing(library, makers):
    """Neither with our tables alone, nor in a folder that holds none."""
    assert read_ratios(library) == ((), ())
    assert read_ratios(makers(kerfs="key,kerf_low_mm,kerf_high_mm,source\nwire,1,2,me\n")) == (
        (),
        (),
    )


def test_the_record_is_no_stranger_among_the_tables(makers):
    """The check of the names of tables has nothing to say of it."""
    library = makers(own_ratios=HEAD + ROW)

    assert library.problems() == ()
    assert "own_ratios" not in library.names


WRONG = [  # row, problem
    (ROW.replace(",11.5,", ",eleven,"), 'G2: weighed_kg is "eleven"'),
    (ROW.replace(",10,", ",0,"), 'F2: estimated_kg is "0"'),
    (ROW.replace(",10,", ",inf,"), 'F2: estimated_kg is "inf"'),
    (ROW.replace(",copper,", ",,"), "D2: material is blank"),
    (ROW.replace(",10,", ",,"), "F2: estimated_kg is blank"),
    ("one,two\n", "2: 2 cells under 9 headings"),
]


@pytest.mark.parametrize(("row", "problem"), WRONG)
def test_a_row_that_cannot_be_read_is_left_out_and_said(makers, row, problem):
    """The others are read."""
    ratios, problems = read_ratios(makers(own_ratios=HEAD + row + ROW.replace("T1", "T2")))

    assert [str(one).split("\n")[0] for one in problems] == [f"mine/own_ratios.csv!{problem}"]
    assert problems[0].severity is Severity.REFUSED
    assert len(ratios) == 1


def test_a_heading_that_is_missing_is_said(makers):
    """Without masses a row is of no use."""
    _, problems = read_ratios(makers(own_ratios="key,job,material,shape\na,b,c,d\n"))

    assert [str(one).split("\n")[0] for one in problems] == [
        "mine/own_ratios.csv!2: estimated_kg is blank",
        "mine/own_ratios.csv!2: weighed_kg is blank",
    ]


def test_what_a_job_goes_by():
    """Two jobs may have files of one name; the title tells them apart."""
    assert job_label("heron", "") == "heron"
    assert job_label("heron", "Heron at the mill") == "heron (Heron at the mill)"
