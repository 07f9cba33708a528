"""The blank job workbook: it reads back as nothing said, and as its examples once they count."""

import io
from itertools import chain
from pathlib import Path

import openpyxl
import pytest
from openpyxl.utils import range_boundaries

from estimator.core.problems import RequestError
from estimator.files.shelf import Shelf
from estimator.reference.library import Library
from estimator.reports.blank import LAST_ROW, OPEN, pick_lists, write_blank
from estimator.reports.blank_examples import EXAMPLES, MARK
from estimator.reports.blank_notes import SKETCHES, fact_default, heading_note
from estimator.resolve.job import resolve
from estimator.sheets.columns import FORMS, LISTS
from estimator.sheets.facts import JOB_FACTS
from estimator.sheets.rows import read_job

NAMES = [*FORMS]


@pytest.fixture(scope="module")
def blank(tmp_path_factory):
    """Return a blank workbook, written once."""
    return write_blank(tmp_path_factory.mktemp("blank") / "job.xlsx")


@pytest.fixture(scope="module")
def book(blank):
    """Return the blank workbook as a spreadsheet program would open it."""
    return openpyxl.load_workbook(blank)


@pytest.fixture
def counted(blank, tmp_path):
    """Return the blank workbook with the mark taken off every example row."""
    book = openpyxl.load_workbook(blank)
    for sheet in book:
        for cell in chain.from_iterable(sheet.iter_rows(min_row=2)):
            if isinstance(cell.value, str):
                cell.value = cell.value.removeprefix(f"{MARK} ")
    path = tmp_path / "counted.xlsx"
    book.save(path)
    return path


def headings(sheet):
    """Return the cell of each heading by its text without the unit."""
    return {cell.value.split(" [")[0]: cell for cell in sheet[1]}


def offers(sheet):
    """Return the pick lists of a sheet by the first cell they are for."""
    found = {}
    for offer in sheet.data_validations.dataValidation:
        column, row, _, last = range_boundaries(str(offer.sqref))
        found[sheet.cell(row, column).coordinate] = (offer, last)
    return found


def listed(book, offer):
    """Return the values a pick list points at."""
    sheet, cells = offer.formula1.split("!")
    return [row[0].value for row in book[sheet][cells.replace("$", "")]]


def test_a_blank_workbook_says_nothing_and_has_nothing_wrong(blank):
    """Examples, unanswered facts and the pick lists are no rows and no problems."""
    job = read_job(blank)

    assert job.problems == ()
    assert set(job.read.values()) == {0}
    assert job.facts == {}
    assert job.options == ()


def test_every_fact_of_the_job_has_an_empty_cell_to_fill(book):
    """The item as it is read, a blank value, what blank means, and why it is asked."""
    sheet = book["job"]
    places = {text: cell.column for text, cell in headings(sheet).items()}
    rows = list(sheet.iter_rows(min_row=2))

    assert [row[places["item"] - 1].value for row in rows] == [
        fact.column.heading for fact in JOB_FACTS.values()
    ]
    assert {row[places["value"] - 1].value for row in rows} == {None}
    assert [row[places["note"] - 1].value for row in rows] == [
        fact_default(fact) for fact in JOB_FACTS.values()
    ]


@pytest.mark.parametrize(
    ("item", "words"),
    [
        ("not_listed_yet", "Blank: 5 %."),
        ("ice_thickness", "Blank: 0 mm."),
        ("years_exposed", "Blank: 50 years."),
        ("air_density", "Blank: 1.25 kg/m3."),
        ("currency", "Blank: GBP."),
        ("basic_wind_speed", "Blank: left out."),
    ],
)
def test_a_default_is_said_as_a_person_would_type_it(item, words):
    """Percent, lengths and counts have their unit; where nothing is assumed, that is said."""
    assert fact_default(JOB_FACTS[item]).startswith(words)


def test_a_fact_with_a_source_but_no_value_is_asked_about(blank, tmp_path):
    """Only a row nobody wrote in counts as unanswered."""
    book = openpyxl.load_workbook(blank)
    sheet = book["job"]
    sheet.cell(3, headings(sheet)["source"].column, "their letter")
    path = tmp_path / "half.xlsx"
    book.save(path)

    (problem,) = read_job(path).problems

    assert problem.found == '"value" is blank'
    assert problem.cell.row == 3


def test_a_fact_that_is_filled_in_is_read(blank, tmp_path):
    """The defaults printed beside it do no harm."""
    book = openpyxl.load_workbook(blank)
    sheet = book["job"]
    places = headings(sheet)
    for row in sheet.iter_rows(min_row=2):
        if row[places["item"].column - 1].value == "datum height":
            row[places["value"].column - 1].value = "7.6 m"
    path = tmp_path / "filled.xlsx"
    book.save(path)

    job = read_job(path)

    assert job.problems == ()
    assert job.facts["datum_height"].value == pytest.approx(7.6)
    assert job.read["job"] == 1


def test_sheets_and_headings_are_those_the_reader_knows(book):
    """In the order of the contract, each heading with its unit in brackets, pick lists last."""
    assert book.sheetnames == [*NAMES, LISTS]
    for name, form in FORMS.items():
        wanted = [f"{c.heading} [{c.unit}]" if c.unit else c.heading for c in form.columns]
        found = [cell.value for cell in book[name][1]]
        assert found == (wanted[1:] if name == "job" else wanted), name


@pytest.mark.parametrize("name", NAMES)
def test_every_heading_has_a_note_that_says_what_to_type(book, name):
    """The note starts with the words of the heading and says whether it is needed."""
    found = headings(book[name])
    for column in FORMS[name].columns:
        if column.heading in found:
            note = found[column.heading].comment.text
            assert note == heading_note(column)
            assert note.startswith(column.words)
            assert ("Needed" in note) is column.needed
            assert found[column.heading].font.bold is column.needed


@pytest.mark.parametrize(
    ("field", "words"),
    [
        ("turn", "anticlockwise seen from the street"),
        ("tip", "leans the top out"),
        ("swing", "turns its front to the right"),
        ("across", "towards you"),
        ("up", "towards you"),
        ("out", "towards you"),
        ("axis", "anticlockwise seen from the street"),
        ("along", "across"),
        ("faces", "out"),
        ("start", "anticlockwise"),
    ],
)
def test_angles_and_axes_are_said_and_drawn(field, words):
    """Which way is plus stands in words, and a sketch follows."""
    form = FORMS["assemblies" if field == "axis" else "parts"]
    column = next(column for column in form.columns if column.field == field)

    note = heading_note(column)

    assert words in note
    assert note.endswith(SKETCHES[field])
    assert "o-------" in note


@pytest.mark.parametrize("name", NAMES)
def test_the_header_row_stays_in_sight_and_is_grey(book, name):
    """Nothing else is filled with a colour."""
    sheet = book[name]

    assert sheet.freeze_panes == ("B2" if name == "job" else "C2")
    filled = {
        cell.row: cell.fill.fgColor.rgb
        for cell in chain.from_iterable(sheet.iter_rows())
        if cell.fill.fill_type
    }
    assert filled == {1: "00EDEDED"}


@pytest.mark.parametrize("name", NAMES)
def test_columns_are_wide_enough_and_shown_as_they_are_read(book, name):
    """Percent columns read 18 as 18 %, and text columns make no date of 3/4."""
    for heading, cell in headings(book[name]).items():
        column = next(c for c in FORMS[name].columns if c.heading == heading)
        below = book[name].column_dimensions[cell.column_letter]
        assert below.width > len(cell.value)
        if column.unit == "%":
            assert below.number_format == "0 %"
        elif column.reads in ("scale", "gauge", "layer amount", "stock size", "name", "text"):
            assert below.number_format == "@"


@pytest.mark.parametrize("name", NAMES)
def test_every_choice_is_picked_from_its_list(book, name):
    """A closed list refuses other words, a list of the tables only mentions them."""
    sheet, found = book[name], offers(book[name])
    for heading, cell in headings(sheet).items():
        column = next(c for c in FORMS[name].columns if c.heading == heading)
        offer, last = found.pop(f"{cell.column_letter}2", (None, 0))
        if column.choices:
            assert listed(book, offer) == list(column.choices)
            assert (offer.errorStyle, last) == ("stop", LAST_ROW)
        elif column.field in OPEN:
            assert (offer.errorStyle, last) == ("information", LAST_ROW)
        else:
            assert offer is None
    assert name == "job" or not found


def test_facts_that_are_choices_have_a_list_each(book):
    """The `job` sheet has one cell a fact, and so one pick list a cell."""
    sheet, found = book["job"], offers(book["job"])
    value = headings(sheet)["value"].column_letter
    wanted = {
        f"{value}{row}": list(fact.column.choices)
        for row, fact in enumerate(JOB_FACTS.values(), start=2)
        if fact.column.choices
    }

    assert {cell: listed(book, offer) for cell, (offer, _) in found.items()} == wanted


def test_lists_hold_what_the_tables_hold():
    """Materials, finishes, sections and gauges, each as it would be typed."""
    lists = pick_lists(Library())

    assert {"copper", "lead", "birch plywood"} <= set(lists["materials"])
    assert {"oil gilding", "wax"} <= set(lists["finishes"])
    assert {"SHS 60x60x4"} <= set(lists["sections"])
    assert {"raised", "sunk", "spun"} <= set(lists["forming"])
    assert {"butt weld", "lead welt"} <= set(lists["joints"])
    assert {"coefficient", "zone not to fix in", "sag limit"} <= set(lists["answers"])
    assert {"18 SWG", "Code 5", "16 oz"} <= set(lists["gauges"])
    assert "typed" not in " ".join(lists["gauges"])
    assert any("hoop" in values and "dome" in values for values in lists.values())


@pytest.mark.parametrize("name", [name for name in NAMES if name != "job"])
def test_every_sheet_shows_how_a_row_is_filled_in(book, name):
    """Grey italics, the mark in the first cell after the option."""
    for row, filled in enumerate(EXAMPLES[name], start=2):
        cells = [cell for cell in book[name][row] if cell.value is not None]
        assert len(cells) == len(filled)
        assert cells[0].coordinate == f"B{row}"
        assert cells[0].value.startswith(f"{MARK} ")
        assert all(cell.font.italic and cell.font.color.rgb == "00808080" for cell in cells)


def test_the_examples_are_a_job_with_nothing_to_put_right(counted):
    """With the mark taken off, every row is read, and every name in it is found."""
    job = read_job(counted)
    resolved = resolve(job, Library(), "", Shelf(job.folder))

    assert job.problems == ()
    assert {name: job.read[name] for name in EXAMPLES} == {
        name: len(rows) for name, rows in EXAMPLES.items()
    }
    assert [str(p) for p in resolved.problems if p.severity == "refused"] == []


def test_a_file_that_is_there_is_never_overwritten(tmp_path):
    """The sentence names the file and says it was left alone."""
    path = tmp_path / "job.xlsx"
    path.write_bytes(b"a week of work")

    with pytest.raises(FileExistsError, match=r"job\.xlsx is there already, and was left as it is"):
        write_blank(path)

    assert path.read_bytes() == b"a week of work"


@pytest.mark.parametrize("name", ["job", "job.ods", "job.csv"])
def test_another_kind_of_file_is_not_written(tmp_path, name):
    """The reader would not know it; the message says what to call it."""
    with pytest.raises(RequestError, match=r"call it job\.xlsx"):
        write_blank(tmp_path / name)

    assert list(tmp_path.iterdir()) == []


class FullDisk(type(Path())):
    """A path on a disk that takes a hundred bytes."""

    def open(self, mode):
        """Return a stream that gives up."""

        class Stream(io.FileIO):
            def write(self, data):
                super().write(data[:100])
                msg = "no space left on device"
                raise OSError(msg)

        return Stream(self, mode)


def test_a_disk_that_is_full_leaves_nothing_behind(tmp_path):
    """Whole or not at all."""
    with pytest.raises(OSError, match="no space"):
        write_blank(FullDisk(tmp_path / "job.xlsx"))

    assert list(tmp_path.iterdir()) == []


def test_a_stranger_called_lists_is_the_only_sheet_passed_over_in_silence(blank, tmp_path):
    """Any other name is still said to be left aside."""
    book = openpyxl.load_workbook(blank)
    book[LISTS].title = "my lists"
    path = tmp_path / "renamed.xlsx"
    book.save(path)

    (problem,) = read_job(path).problems

    assert (problem.severity, problem.cell.sheet) == ("note", "my lists")
