"""The sheet `weighed`: which readings count, and what is said of the others."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator import read_job
from estimator.core.problems import Severity
from estimator.files.shelf import Shelf
from estimator.resolve.job import resolve
from estimator.resolve.options import default_option

SHEETS = {
    "job": """
        item                 | value
        wind rule            | stated pressure
        stated pressure      | 1 kPa
        stated pressure kind | peak characteristic
        """,
    "assemblies": """
        assembly | lift unit
        bird     | top
        post     | top
        dial     |
        """,
    "parts": """
        part | assembly | count | shape  | mass each | option
        T1   | bird     | 1     | bought | 6 kg      |
        T2   | bird     | 3     | bought | 2 kg      |
        T3   | post     | 1     | bought | 4 kg      |
        T4   | dial     | 0     | bought | 4 kg      |
        T5   | dial     | 1     | bought | 5 kg      |
        """,
}


@pytest.fixture
def weighed(resolved):
    """Return a function that resolves the small job with rows of the sheet `weighed`."""

    def resolve_rows(rows, **sheets):
        return resolved(SHEETS | {"weighed": rows} | sheets)

    return resolve_rows


def test_readings_are_of_the_smallest_things_first(weighed):
    """Whatever the order of the rows: a part, then the assembly, then the lift unit."""
    found = weighed("""
        lift unit | assembly | part | mass  | date       | scale
        top       |          |      | 20 kg |            | platform
                  | bird     |      | 13 kg | 2026-03-04 |
                  |          | T2   | 2.1 kg |           | kitchen
        """)

    told = [(r.kind, r.name, r.mass_kg, r.count, r.date, r.scale) for r in found.readings]
    assert told == [
        ("part", "T2", pytest.approx(6.3), 3, "", "kitchen"),
        ("assembly", "bird", 13.0, 1, "2026-03-04", ""),
        ("lift unit", "top", 20.0, 1, "", "platform"),
    ]
    keys = [[found.columns.parts[i].key for i in r.rows] for r in found.readings]
    assert keys == [["T2"], ["T1", "T2"], ["T1", "T2", "T3"]]
    assert found.complete


def test_the_ledger_closes(weighed):
    """Parts whose estimate gave way are replaced, and so is a reading that a later one follows."""
    found = weighed("""
        assembly | part | mass  | date
        bird     |      | 13 kg | 2026-03-04
        bird     |      | 14 kg | 2026-02-04
                 | T4   | 4 kg  |
                 | T9   | 1 kg  |
        """)

    parts, rows = found.accounts["parts"], found.accounts["weighed"]
    assert (parts.read, parts.used, parts.parked, parts.replaced) == (5, 2, 1, 2)
    assert (rows.used, rows.parked, rows.replaced, rows.refused) == (1, 1, 1, 1)
    for account in found.accounts.values():
        rest = (account.used, account.other_option, account.parked, account.replaced)
        assert account.read == sum(rest) + account.refused


def test_readings_of_the_latest_day_are_averaged(weighed, said):
    """Both things are said, with the numbers."""
    found = weighed("""
        part | mass   | date
        T2   | 2.4 kg | 2026-02-01
        T2   | 2.2 kg | 2026-03-01
        T2   | 2.0 kg | 2026-03-01
        T2   | 9.0 kg |
        """)

    (reading,) = found.readings
    assert (reading.each_kg, reading.times, reading.date) == (pytest.approx(2.1), 2, "2026-03-01")
    assert said(found, "note") == (
        "weighed!B2 (T2): the reading of T2 of 2026-03-01 takes the place of this one\n"
        "weighed!B3 (T2): 2 readings of T2 of 2026-03-01 count as one: 2, 2.2; mean 2.1 kg\n"
        "weighed!B5 (T2): the reading of T2 of 2026-03-01 takes the place of this one"
    )


ROWS = [
    "T1 | 6.1 kg | 2026-03-01", "T1 | 6.2 kg | 2026-03-01", "T1 | 6.7 kg | 2026-01-01",
    "T2 | 2.3 kg |", "T2 | 2.1 kg |", "T3 | 4.4 kg | 2026-03-01",
]  # fmt: skip


@given(rows=st.permutations(ROWS))
def test_the_order_of_readings_does_not_matter(rows, tmp_path_factory, write_job, library):
    """The same readings, to the last digit, from rows in any order."""
    found = []
    for order in (ROWS, rows):
        table = "\n".join(["part | mass | date", *order])
        job = read_job(write_job(tmp_path_factory.mktemp("job"), SHEETS | {"weighed": table}))
        readings = resolve(job, library, default_option(job), Shelf(job.folder)).readings
        found.append({(r.name, r.each_kg, r.times, r.date) for r in readings})

    assert found[0] == found[1]


UNKNOWN = {  # row, problem
    "| | T22 | 1 kg": """\
weighed!C2: "T22" is not on the parts sheet
    wanted: the mark of a part
    type one of: T2, T5, T3""",
    "| brid | | 1 kg": """\
weighed!B2 (brid): "brid" is not an assembly of this workbook
    wanted: the name of an assembly
    type one of: bird""",
    "tip | | | 1 kg": """\
weighed!A2: "tip" is not a lift unit of the assemblies sheet
    wanted: the name of a lift unit
    type one of: top""",
    "| dial | T1 | 1 kg": """\
weighed!B2 (dial): T1 is in bird, not in "dial"
    wanted: the assembly that holds it
    name one thing a row; here T1 is taken for what was weighed""",
}


@pytest.mark.parametrize(("row", "problem"), UNKNOWN.items())
def test_a_name_of_nothing_is_refused(weighed, said, row, problem):
    """As elsewhere: the cell, what stands there, what may."""
    found = weighed(f"lift unit | assembly | part | mass\n{row}")

    assert said(found, "refused") == problem
    assert found.readings == ()
    assert not found.complete


def test_a_part_may_be_named_with_what_holds_it(weighed, said):
    """The narrowest thing is what was weighed; the rest only says where it is."""
    found = weighed("lift unit | assembly | part | mass\ntop | bird | T1 | 6 kg")

    assert said(found) == said(weighed("part | mass\nT1 | 6 kg"))
    assert [reading.name for reading in found.readings] == ["T1"]


def test_a_parked_part_is_said_to_replace_nothing(weighed, said):
    """It was weighed, but counts for nothing; that is worth a note and no more."""
    found = weighed("part | mass\nT4 | 6 kg")

    assert said(found, "note") == (
        'weighed!B2 (T4): "T4" is parked (count 0), so its reading replaces nothing'
    )
    assert found.complete


def test_a_part_that_cannot_be_used_is_pointed_at(weighed, said):
    """The row of the parts sheet is to be mended, not that of the reading."""
    parts = "part | assembly | count | shape | made of\nT1 | bird | 1 | box | coper"
    found = weighed("part | mass\nT1 | 6 kg", parts=parts)

    assert 'weighed!A2: the row "T1" of parts cannot be used; mend that first' in said(found)


def test_a_thing_of_another_way_of_building_is_pointed_at(weighed, said):
    """A blank option is every way of building, and this part is in one only."""
    parts = SHEETS["parts"] + "T6 | dial | 1 | bought | 4 kg | lead\nT7|dial|1|bought|4 kg|copper"
    found = weighed("part | mass\nT7 | 6 kg", parts=parts)

    assert said(found, "refused") == (
        'weighed!A2: "T7" belongs to another way of building: copper\n'
        "    wanted: the mark of a part\n    type copper under `option` in this row too"
    )


def test_a_whole_lighter_than_its_parts_is_asked_about(weighed, said):
    """Nothing would be left for the rest; the parts stand."""
    found = weighed("assembly | part | mass\nbird | | 5 kg\n | T1 | 6 kg")

    assert [reading.name for reading in found.readings] == ["T1"]
    assert said(found, "question") == (
        "weighed!C2 (bird): bird weighed 5 kg, but what was weighed of it on its own comes to 6 kg "
        "already: it is left aside\n"
        "    weigh again, or look at the readings of its parts"
    )
    assert found.accounts["weighed"].replaced == 1


ALL_WEIGHED = [  # mass of the whole, severity, what is said
    ("12.4 kg", Severity.NOTE, "12 kg together; that agrees: it is left aside"),
    ("14 kg", Severity.QUESTION, "left aside\n    look for 2 kg between the readings"),
]


@pytest.mark.parametrize(("whole", "severity", "words"), ALL_WEIGHED)
def test_a_whole_of_weighed_parts_is_compared(weighed, said, whole, severity, words):
    """T1 is 6 kg and three of T2 2 kg each, 12 kg; 12.4 is within twice 2 % of it, 14 is not."""
    found = weighed(f"assembly | part | mass\nbird | | {whole}\n | T1 | 6 kg\n | T2 | 2 kg")

    assert words in said(found, severity)
    assert [reading.name for reading in found.readings] == ["T1", "T2"]


def test_an_assembly_without_parts_carries_nothing(weighed, said):
    """Its mass would be in no total, so the result is not complete."""
    empty = SHEETS["assemblies"] + "nest |\n"
    found = weighed("assembly | mass\nnest | 3 kg", assemblies=empty)

    assert said(found, "refused") == (
        "weighed!B2 (nest): no part is listed in nest, so nothing carries its 3 kg\n"
        "    wanted: something that has parts\n"
        "    list its parts, or one bought part of that mass"
    )
    assert found.accounts["weighed"].refused == 1


def test_a_repeated_part_and_a_bracket_go_by_their_own_names(resolved):
    """What repeats an assembly, and what a bracket makes, can be weighed too."""
    found = resolved(
        SHEETS
        | {
            "assemblies": "assembly | same as\nbird |\npost |\ndial|\nmate | bird",
            "brackets": "bracket | set | across | up | reach | section | holds\n"
            "B1 | s | 0 mm | 0 mm | 300 mm | SHS 60x60x4 | welded",
            "weighed": "part | mass\nT1 of mate | 6.5 kg\nB1 arm | 2 kg",
        }
    )

    assert [reading.name for reading in found.readings] == ["T1 of mate", "B1 arm"]
    assert found.accounts["parts"].replaced == 0


def test_a_row_without_a_reading_is_looked_up_all_the_same(weighed, said):
    """One run tells every problem: the mass that is missing, and the name that leads nowhere."""
    found = weighed("assembly | part | mass\nbird | T22 |")

    told = said(found, "refused")
    assert 'weighed!B2 (bird): "T22" is not on the parts sheet' in told
    assert 'weighed!C2 (bird): "mass" is blank' in told
    assert found.accounts["weighed"].refused == 1
