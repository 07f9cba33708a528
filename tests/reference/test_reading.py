"""Reading a file: what is refused, and the words it is refused in."""

import pytest

from estimator.reference import reading
from estimator.reference.reading import RawRow, column_letters, faults, read_table

HEADINGS = ("key", "density_kg_m3", "density_low_kg_m3", "density_high_kg_m3", "source", "checked")
GOOD = ("tin", "7310", "7287", "7310", "S", "quoted")

FAULTS = [
    ("key", "", "!A7: key is blank", "a word"),
    ("source", "", "!E7: source is blank", "a word"),
    ("checked", "sure", '!F7: checked is "sure"', "document or quoted or memory"),
    ("density_kg_m3", "", "!B7: density_kg_m3 is blank", "a number"),
    ("density_kg_m3", "0", "!B7: density_kg_m3 is zero", "a number above zero"),
    ("density_high_kg_m3", "7,3", '!D7: density_high_kg_m3 is "7,3"', "with a point"),
    ("density_high_kg_m3", "nan", '!D7: density_high_kg_m3 is "nan"', "with a point"),
    ("density_high_kg_m3", "-1", '!D7: density_high_kg_m3 is "-1"', "with a point"),
    ("density_high_kg_m3", "7000", "!C7: density_low_kg_m3 begins a band 7287, 7000", "that rise"),
]


@pytest.fixture
def file(tmp_path):
    """Return a function that writes a table and reads it."""

    def read(content, name="things"):
        path = tmp_path / f"{name}.csv"
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return read_table(path)

    return read


def test_rows_keep_the_line_a_spreadsheet_shows(file):
    """Empty rows are passed over and still counted; a byte-order mark is no part of a heading."""
    read = file("\ufeffKey,note\na, x \n\n,\nb,\n")

    assert [(row.line, row.cells) for row in read.rows] == [
        (2, {"key": "a", "note": "x"}),
        (5, {"key": "b", "note": ""}),
    ]
    assert read.problems == ()


def test_a_comma_without_quotes_is_pointed_at(file, tmp_path):
    """The row that grew a cell is left out and says how to mend it."""
    read = file("key,note\na,one, two\n")

    assert read.rows == ()
    assert str(read.problems[0]) == (
        f"{tmp_path.name}/things.csv!2: 3 cells under 2 headings\n"
        "    wanted: a cell per heading\n"
        "    put quotes round a cell that holds a comma; until then the row is left out"
    )


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"key,note\n\xff\xfe,\n", "the file is not UTF-8 text"),
        ("name,note\na,b\n", "the file has no key column"),
        ("", "the file has no key column"),
        ('key\n"' + "x" * 140_000 + '"\n', "the file is not a CSV file: field larger than"),
    ],
)
def test_a_file_that_is_no_table_is_a_problem(file, content, said):
    """It is never a traceback: a maker's folder may hold anything."""
    read = file(content)

    assert read.rows == ()
    assert said in str(read.problems[0])


def test_a_giant_file_is_not_read(file, monkeypatch):
    """The size is looked at before the file is opened."""
    monkeypatch.setattr(reading, "MAX_BYTES", 10)

    assert "the file is larger than" in str(file("key,note\na,b\n").problems[0])


def test_the_table_of_sources_calls_its_key_id(file):
    """Its first column is `id`, as other tables cite it."""
    assert file("id,document\nS,A standard\n", "sources").rows[0].cells["key"] == "S"


def test_a_good_row_has_no_fault():
    """What the faults below are measured against."""
    cells = dict(zip(HEADINGS, GOOD, strict=True))

    assert not list(faults("materials", HEADINGS, RawRow("mine/materials.csv", 7, cells)))


@pytest.mark.parametrize(("heading", "text", "found", "wanted"), FAULTS)
def test_a_fault_names_its_cell(heading, text, found, wanted):
    """Each says which cell of which file, what is there and what is wanted."""
    cells = dict(zip(HEADINGS, GOOD, strict=True)) | {heading: text}

    said = [str(p) for p in faults("materials", HEADINGS, RawRow("mine/materials.csv", 7, cells))]

    assert len(said) == 1
    assert said[0].startswith(f"mine/materials.csv{found}\n")
    assert wanted in said[0]
    assert said[0].endswith("correct it; until then the row is left out")


@pytest.mark.parametrize(
    ("index", "letters"), [(0, "A"), (25, "Z"), (26, "AA"), (51, "AZ"), (52, "BA")]
)
def test_columns_are_lettered_as_in_a_spreadsheet(index, letters):
    """Z is followed by AA."""
    assert column_letters(index) == letters
