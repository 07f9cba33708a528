"""Workbooks and folders into cells with addresses, and what is not a workbook at all."""

import datetime as dt
import os
import zipfile

import openpyxl
import pytest

from estimator.core.problems import UnreadableError
from estimator.sheets.cells import ErrorValue, Heading, NoSavedValue, Percent
from estimator.sheets.workbook import read_workbook

TABLE = [
    ["Part", "count", "waste", "priced on"],
    ["T1", 4, ("percent", 0.18), dt.date(2026, 3, 4)],
    [None, None, None, None],
    ["T2", 2.5, ("percent", 0.125), None],
]


def test_cells_keep_their_place_in_every_form(write, suffix):
    """Headings have letters, rows their number in the spreadsheet; blank rows are left out."""
    book = read_workbook(write({"parts": TABLE}, suffix))

    sheet = book.sheets["parts"]
    assert book.name == "job"
    assert sheet.header_line == 1
    assert sheet.headings[2] == Heading("waste", "C")
    assert [row.line for row in sheet.rows] == [2, 4]
    assert sheet.rows[1].values[:2] == ("T2", 2.5)


@pytest.mark.parametrize("suffix", [".xlsx", ".ods"])
def test_a_percentage_is_known_by_its_look(write, suffix):
    """The file holds 0.18; only the format of the cell says that a person sees 18 %."""
    rows = read_workbook(write({"parts": TABLE}, suffix)).sheets["parts"].rows

    assert [row.values[2] for row in rows] == [Percent(0.18), Percent(0.125)]
    assert rows[0].values[1] == 4.0


@pytest.mark.parametrize("suffix", [".xlsx", ".ods"])
def test_a_formula_never_saved_with_its_value_is_marked(write, suffix):
    """Such a cell would otherwise pass for a blank one, also at the end of a row and a sheet."""
    table = [["part", "count"], ["T1", ("formula", "1+2")], [("formula", "A2"), None]]

    rows = read_workbook(write({"parts": table}, suffix)).sheets["parts"].rows

    assert [row.values for row in rows] == [
        ("T1", NoSavedValue("1+2")),
        (NoSavedValue("A2"), ""),
    ]


def test_an_error_is_marked(write):
    """Such a cell would otherwise pass for a blank one."""
    rows = read_workbook(write({"parts": [["part"], ["#REF!"]]})).sheets["parts"].rows

    assert rows[0].values == (ErrorValue("#REF!"),)


def test_dates_come_as_dates(write):
    """What a spreadsheet made a date of is not silently turned into a number."""
    table = [["size", "scale"], [dt.date(2026, 3, 4), dt.time(1, 10)]]

    rows = read_workbook(write({"parts": table})).sheets["parts"].rows

    assert rows[0].values == (dt.date(2026, 3, 4), dt.time(1, 10))


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_csv_files_of_any_locale_are_read(tmp_path, separator, mark):
    """The separator is the one of the header line; a byte order mark is no part of it."""
    text = f'{mark}part{separator}name\nT1{separator}"a, b; c"\n'
    (tmp_path / "parts.csv").write_text(text, encoding="utf-8")

    sheet = read_workbook(tmp_path).sheets["parts"]

    assert [heading.text for heading in sheet.headings] == ["part", "name"]
    assert sheet.rows[0].values == ("T1", "a, b; c")


CSV_CELLS = [
    ("12", 12.0), ("-0.5", -0.5), ("007", "007"), ("1e5", "1e5"), ("18 %", "18 %"), ("1,5", "1,5"),
    ("", ""), ("nan", "nan"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "value"), CSV_CELLS)
def test_plain_numbers_of_a_csv_file_are_numbers(tmp_path, text, value):
    """Only what could be nothing else: marks such as 007 and 1e5 stay as they are."""
    (tmp_path / "parts.csv").write_text(f'part,x\nT1,"{text}"\n', encoding="utf-8")

    assert read_workbook(tmp_path).sheets["parts"].rows[0].values[1] == value


def test_headings_may_start_lower_down(write):
    """The first row with anything in it is the header; short rows are filled up with blanks."""
    sheet = read_workbook(write({"parts": [[None], ["part", "name"], ["T1"]]}, ".csv"))

    assert sheet.sheets["parts"].header_line == 2
    assert sheet.sheets["parts"].rows[0].values == ("T1", "")


def test_a_sheet_that_is_a_drawing_is_passed_over(write):
    """A chart on a sheet of its own has no cells."""
    path = write({"parts": TABLE})
    book = openpyxl.load_workbook(path)
    book.create_chartsheet("costs")
    book.save(path)

    assert list(read_workbook(path).sheets) == ["parts"]


def test_an_empty_sheet_has_nothing(write, suffix):
    """No header, no rows, no complaint."""
    sheet = read_workbook(write({"parts": []}, suffix)).sheets["parts"]

    assert (sheet.headings, sheet.rows, sheet.header_line) == ((), (), 0)


def _refusal(path):
    with pytest.raises(UnreadableError) as caught:
        read_workbook(path)
    return str(caught.value)


def test_a_missing_file_is_named(tmp_path):
    """A slip in the file name is the commonest reason."""
    path = tmp_path / "heron.xlsx"

    assert _refusal(path) == f"there is no file {path}"


def test_another_kind_of_file_is_told_what_to_become(tmp_path):
    """The suffix decides, before anything is opened."""
    path = tmp_path / "heron.doc"
    path.write_bytes(b"")

    assert _refusal(path) == (
        "heron.doc is not a workbook this program reads; save it as .xlsx or .ods"
    )


def test_a_protected_workbook_is_told_apart(tmp_path):
    """Behind a password an .xlsx is a compound file, as an old .xls is."""
    path = tmp_path / "heron.xlsx"
    path.write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600))

    assert _refusal(path) == (
        "heron.xlsx is protected by a password, or an old .xls file; save it as .xlsx without a "
        "password"
    )


def test_a_text_called_xlsx_is_no_workbook(tmp_path):
    """What is not an archive is damaged, whatever its name."""
    path = tmp_path / "heron.xlsx"
    path.write_text("part,count\n", encoding="utf-8")

    assert _refusal(path) == (
        "the file is damaged (File is not a zip file); open it in your spreadsheet program and "
        "save it anew"
    )


def test_an_archive_without_sheets_is_no_workbook(tmp_path):
    """A zip file of photographs is not read as an empty job."""
    path = tmp_path / "heron.xlsx"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("photo.jpg", b"x")

    assert _refusal(path).startswith("the file is damaged (")


def test_a_sheet_that_the_quick_reader_cannot_read_is_damage(write, tmp_path):
    """Damage that only the quick reader meets is told in the same words."""
    source = write({"parts": TABLE})
    path = tmp_path / "cut.xlsx"
    with zipfile.ZipFile(source) as archive, zipfile.ZipFile(path, "w") as copy:
        for member in archive.namelist():
            if member != "[Content_Types].xml":
                text = archive.read(member)
                copy.writestr(member, text.replace(b"<v>4</v>", b"<v>four</v>"))

    assert _refusal(path).startswith("cut.xlsx is damaged (")


def test_a_folder_without_csv_files_is_no_job(tmp_path):
    """A folder is read for its .csv files and nothing else."""
    assert _refusal(tmp_path) == f"the folder {tmp_path} holds no .csv file"


def test_a_csv_file_in_another_encoding_is_told_what_to_become(tmp_path):
    """Guessing an encoding would turn a pound sign into something else."""
    (tmp_path / "parts.csv").write_bytes("part\n\u00a3\n".encode("latin-1"))

    assert _refusal(tmp_path) == "parts.csv is not in UTF-8; save it as CSV UTF-8"


def test_a_csv_file_with_an_endless_cell_is_refused(tmp_path):
    """A quote that is never closed swallows the rest of the file."""
    (tmp_path / "parts.csv").write_text('part\n"' + "x" * 200_000, encoding="utf-8")

    assert _refusal(tmp_path) == (
        "parts.csv cannot be read (field larger than field limit (131072))"
    )


def test_a_csv_line_of_separators_is_refused(tmp_path):
    """A few hundred thousand commas would become as many cells."""
    (tmp_path / "parts.csv").write_text("part\n" + "," * 200_000, encoding="utf-8")

    assert _refusal(tmp_path) == "parts.csv cannot be read (a line has far too many separators)"


def test_too_many_columns_are_refused(tmp_path):
    """No sheet of a job is wider than two hundred columns."""
    (tmp_path / "parts.csv").write_text("," * 200 + "\n", encoding="utf-8")

    assert _refusal(tmp_path) == (
        'sheet "parts" has more than 250000 rows, 200 columns or 12500000 cells'
    )


def test_one_cell_far_down_and_one_far_across_are_refused(write):
    """Each is within the limits, but together they span fourteen million cells."""
    book = openpyxl.Workbook()
    book.active["GR1"] = 1
    book.active["A70000"] = 1
    path = write({"parts": [["part"]]})
    book.save(path)

    assert _refusal(path) == (
        'sheet "Sheet" has more than 250000 rows, 200 columns or 12500000 cells'
    )


def test_a_folder_of_huge_files_is_refused_unread(tmp_path):
    """The sizes are looked at first; the file here is a hole in the disk."""
    with (tmp_path / "parts.csv").open("wb") as stream:
        stream.truncate(300_000_001)

    assert _refusal(tmp_path) == f"the files in {tmp_path} hold more than 300 MB"


def test_two_files_of_one_name_are_refused(tmp_path):
    """Which of the two is meant, nobody but the maker knows."""
    for name in ("parts.csv", "parts.CSV"):
        (tmp_path / name).write_text("part\n", encoding="utf-8")

    assert _refusal(tmp_path) == 'there are two sheets "parts"; rename one of them'


def test_a_pipe_in_the_folder_is_refused(tmp_path):
    """Reading it would wait for ever."""
    os.mkfifo(tmp_path / "parts.csv")

    assert _refusal(tmp_path) == "parts.csv is not a file; take it out of the folder"


@pytest.mark.parametrize("target", ["nowhere.txt", "parts.csv", "."])
def test_a_link_to_no_file_is_refused(tmp_path, target):
    """One that leads nowhere, to itself, or to a folder."""
    (tmp_path / "parts.csv").symlink_to(target)

    assert _refusal(tmp_path) == "parts.csv is not a file; take it out of the folder"


def test_a_link_out_of_the_folder_is_refused(write, tmp_path):
    """A folder from somebody else must not print what is in the files of this machine."""
    folder = write({"costs": TABLE}, ".csv")
    (tmp_path / "secret").write_text("part\n", encoding="utf-8")
    (folder / "parts.csv").symlink_to("../secret")

    assert _refusal(folder) == "parts.csv is a link out of the folder; put the file itself there"


def test_a_link_within_the_folder_and_one_to_the_job_are_followed(write, tmp_path):
    """Both stay with what the maker asked for."""
    folder = write({"parts": TABLE}, ".csv")
    (folder / "quotes.csv").symlink_to("parts.csv")
    (tmp_path / "link").symlink_to(folder)

    sheets = read_workbook(tmp_path / "link").sheets

    assert sheets["quotes"].rows == sheets["parts"].rows


STEERING = [
    ("red\x1b[31m", "red[31m"), ("a\u202egnp", "agnp"), ("a\u2066b\u2069", "ab"),
    ("a\x00b\x7fc\x9bd", "abcd"), ("two\nlines", "two lines"), ("a\tb", "a b"),
    ("a\u200bb\u200f", "ab"), ("caf\u00e9 \u00bd\u00a0\u2033", "caf\u00e9 \u00bd\u00a0\u2033"),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "read"), STEERING)
def test_nothing_read_can_steer_the_screen(tmp_path, typed, read):
    """Neither headings nor cells keep control characters or marks that turn letters around."""
    text = f'part,"{typed}"\nT1,"{typed}"\n'
    (tmp_path / "parts.csv").write_text(text, encoding="utf-8")

    sheet = read_workbook(tmp_path).sheets["parts"]

    assert sheet.headings[1].text == read
    assert sheet.rows[0].values[1] == read


def test_names_of_files_cannot_steer_the_screen(tmp_path):
    """They become names of sheets, and stand in messages."""
    (tmp_path / "my\x1b[7m parts.csv").write_text("part\n", encoding="utf-8")

    assert list(read_workbook(tmp_path).sheets) == ["my[7m parts"]


def test_a_formula_and_an_error_cannot_steer_the_screen(write):
    """What stands in place of a value is quoted, too."""
    table = [["part"], [("formula", "A\u202e1")], ["#REF!\u202e"]]

    rows = read_workbook(write({"parts": table}, ".ods")).sheets["parts"].rows

    assert rows[0].values == (NoSavedValue("A1"),)
    assert rows[1].values == ("#REF!",)
