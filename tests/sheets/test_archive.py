"""Limits on what an archive may unpack to, and the cells that are marked in it."""

import zipfile

import pytest

from estimator.core.problems import UnreadableError
from estimator.sheets.archive import ods_marks, opened, xlsx_marks
from estimator.sheets.cells import ErrorValue, NoSavedValue, Percent

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"
WORKBOOK = (
    f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheets>'
    '<sheet name="parts" sheetId="1" r:id="rId1"/><sheet name="chart" sheetId="2" r:id="rId2"/>'
    "</sheets></workbook>"
)
RELATIONSHIPS = (
    f'<Relationships xmlns="{PACKAGE}">'
    f'<Relationship Id="rId1" Type="{OFFICE}/worksheet" Target="/xl/worksheets/a.xml"/>'
    f'<Relationship Id="rId2" Type="{OFFICE}/chartsheet" Target="chartsheets/b.xml"/>'
    "</Relationships>"
)
STYLES = (
    f'<styleSheet xmlns="{MAIN}"><numFmts><numFmt numFmtId="164" formatCode="0.0\\ %"/>'
    '<numFmt numFmtId="165" formatCode="0.0"/></numFmts>'
    '<cellXfs><xf numFmtId="0"/><xf numFmtId="9"/><xf numFmtId="164"/><xf numFmtId="165"/>'
    "</cellXfs></styleSheet>"
)
TOO_LARGE = (
    'sheet "parts" reaches further than 250000 rows or 200 columns, repeats its cells too often, '
    "or has cells without an address; copy what counts into a new workbook"
)


@pytest.fixture
def xlsx(tmp_path):
    """Return a function that makes an archive of the rows of a sheet, as an .xlsx file has them."""

    def make(rows, styles=STYLES):
        path = tmp_path / "job.xlsx"
        members = {
            "xl/workbook.xml": WORKBOOK,
            "xl/_rels/workbook.xml.rels": RELATIONSHIPS,
            "xl/worksheets/a.xml": f'<worksheet xmlns="{MAIN}">{rows}</worksheet>',
        } | ({"xl/styles.xml": styles} if styles else {})
        with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
            for name, text in members.items():
                archive.writestr(name, text)
        return path

    return make


@pytest.fixture
def ods(tmp_path):
    """Return a function that makes an archive of the rows of a sheet, as an .ods file has them."""
    office = "urn:oasis:names:tc:opendocument:xmlns:"
    spaces = (
        f'xmlns:office="{office}office:1.0" xmlns:table="{office}table:1.0" '
        f'xmlns:text="{office}text:1.0" '
        'xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0"'
    )

    def make(rows):
        path = tmp_path / "job.ods"
        with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
            text = f'<office:body {spaces}><table:table table:name="parts">{rows}</table:table>'
            archive.writestr("content.xml", f"{text}</office:body>")
        return path

    return make


XLSX_CELLS = [
    ('<c r="B3" s="1"><v>0.18</v></c>', {(2, 1): Percent}),
    ('<c r="B3" s="2"><v>0.18</v></c>', {(2, 1): Percent}),
    ('<c r="B3" s="3"><v>0.18</v></c>', {}),
    ('<c r="B3" s="1" t="s"><v>7</v></c>', {}),
    ('<c r="B3" s="1"/>', {}),
    ('<c r="B3"><f>A1*2</f></c>', {(2, 1): NoSavedValue("A1*2")}),
    ('<c r="B3"><f>A1*2</f><v></v></c>', {(2, 1): NoSavedValue("A1*2")}),
    ('<c r="B3"><f>A1*2</f><v/></c>', {(2, 1): NoSavedValue("A1*2")}),
    ('<c r="B3"><f t="shared" si="0"/></c>', {(2, 1): NoSavedValue("")}),
    ('<c r="B3"><f>A1*2</f><v>4</v></c>', {}),
    ('<c r="B3" s="1"><f>A1*2</f><v>0.4</v></c>', {(2, 1): Percent}),
    ('<c r="B3" t="str"><f>""</f><v></v></c>', {}),
    ('<c r="B3" t="e"><v>#REF!</v></c>', {(2, 1): ErrorValue("#REF!")}),
]


@pytest.mark.parametrize(("cell", "marks"), XLSX_CELLS)
def test_cells_of_an_xlsx_file_are_marked(xlsx, cell, marks):
    """Element names as in ECMA-376 part 1, 18.3.1; percent formats 9 and 10 as in 18.8.30.

    Both clauses from memory; the files of two spreadsheet programs agree with them.
    """
    with opened(xlsx(f'<sheetData><row r="3">{cell}</row></sheetData>')) as archive:
        assert xlsx_marks(archive).get("parts", {}) == marks


def test_a_sheet_of_plain_cells_is_only_glanced_through(xlsx):
    """Nothing of it has to be marked, so it is not in the answer at all."""
    rows = '<row r="1"><c r="A1"><v>1</v></c></row>'

    with opened(xlsx(rows, styles="")) as archive:
        assert xlsx_marks(archive) == {}


def test_a_mark_far_down_a_long_sheet_is_found(xlsx):
    """The sheet is glanced through in pieces; a cell across the seam of two is not lost."""
    cells = "".join(f'<row r="{n}"><c r="A{n}"><v>1</v></c></row>' for n in range(1, 150_001))
    last = '<row r="150001"><c r="A150001" t="e"><v>#REF!</v></c></row>'

    with opened(xlsx(cells + last)) as archive:
        assert xlsx_marks(archive) == {"parts": {(150_000, 0): ErrorValue("#REF!")}}


FAR_CELLS = [
    '<c r="GS1"><v>1</v></c>', '<c r="XFD1"><v>1</v></c>', '<c r="A250001"><v>1</v></c>',
    '<c r="A1048576"><v>1</v></c>', "<c><v>1</v></c>", "<c r='A1'><v>1</v></c>",
    '<x:c r="XFD1"><v>1</v></x:c>',
]  # fmt: skip
NEAR_CELLS = ['<c r="GR250000"><v>1</v></c>', '<c r="XFD1" s="3"/>', '<c s="3" r="ZZ9"/>']


@pytest.mark.parametrize("cell", FAR_CELLS)
def test_a_cell_at_the_end_of_the_world_is_refused(xlsx, cell):
    """A quick reader makes room for every cell between it and A1, filled or not."""
    with pytest.raises(UnreadableError) as caught, opened(xlsx(cell)) as archive:
        xlsx_marks(archive)

    assert str(caught.value) == TOO_LARGE


@pytest.mark.parametrize("cell", NEAR_CELLS)
def test_cells_that_take_no_room_may_be_anywhere(xlsx, cell):
    """A coloured cell without a value takes no room, however far out it is."""
    with opened(xlsx(cell)) as archive:
        assert xlsx_marks(archive) == {}


ODS_CELLS = [
    ('<table:table-cell office:value-type="percentage" office:value="0.18"/>', {(0, 0): Percent}),
    ('<table:table-cell office:value-type="float" office:value="0.18"/>', {}),
    ('<table:table-cell table:formula="of:=1+2"/>', {(0, 0): NoSavedValue("1+2")}),
    (
        (
            '<table:table-cell table:formula="of:=1+2" office:value-type="float" office:value="3">'
            "<text:p>3</text:p></table:table-cell>"
        ),
        {},
    ),
    (
        (
            '<table:table-cell table:formula="of:=A0" office:value-type="string" '
            'calcext:value-type="error"><text:p>#REF!</text:p></table:table-cell>'
        ),
        {(0, 0): ErrorValue("#REF!")},
    ),
    (
        (
            '<table:table-cell table:number-columns-repeated="2"/>'
            '<table:table-cell table:number-columns-repeated="2" office:value-type="percentage" '
            'office:value="0.18"/>'
        ),
        {(0, 2): Percent, (0, 3): Percent},
    ),
]


@pytest.mark.parametrize(("cells", "marks"), ODS_CELLS)
def test_cells_of_an_ods_file_are_marked(ods, cells, marks):
    """Element names as in OASIS OpenDocument 1.3 part 3, sections 9.1 and 19.385; from memory."""
    with opened(ods(f"<table:table-row>{cells}</table:table-row>")) as archive:
        assert ods_marks(archive) == {"parts": marks}


def test_rows_of_an_ods_file_may_be_repeated(ods):
    """Equal rows are written once with a count, and empty ones down to the end of the sheet."""
    percent = '<table:table-cell office:value-type="percentage" office:value="0.18"/>'
    rows = (
        f'<table:table-row table:number-rows-repeated="2">{percent}</table:table-row>'
        '<table:table-row table:number-rows-repeated="1048574">'
        '<table:table-cell table:number-columns-repeated="16384"/></table:table-row>'
    )

    with opened(ods(rows)) as archive:
        assert ods_marks(archive) == {"parts": {(0, 0): Percent, (1, 0): Percent}}


ODS_FAR = [
    (
        '<table:table-row table:number-rows-repeated="250001"><table:table-cell '
        'office:value-type="float" office:value="1"/></table:table-row>'
    ),
    (
        '<table:table-row table:number-rows-repeated="250000"><table:table-cell '
        f'office:value-type="string"><text:p>{"x" * 9_000}</text:p></table:table-cell>'
        "</table:table-row>"
    ),
    (
        '<table:table-row><table:table-cell table:number-columns-repeated="16384" '
        'office:value-type="float" office:value="1"/></table:table-row>'
    ),
]


@pytest.mark.parametrize("rows", ODS_FAR)
def test_one_cell_repeated_to_the_end_of_the_world_is_refused(ods, rows):
    """Sixteen thousand equal cells are a few letters in the file."""
    with pytest.raises(UnreadableError) as caught, opened(ods(rows)) as archive:
        ods_marks(archive)

    assert str(caught.value) == TOO_LARGE


def test_one_long_text_in_very_many_cells_is_refused(xlsx):
    """A text is stored once and read as often as it stands; 90 kB in 30 000 cells are 2.7 GB."""
    cells = "".join(f'<c r="A{n}" t="s"><v>0</v></c>' for n in range(1, 30_001))
    path = xlsx(cells)
    with zipfile.ZipFile(path, "a", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/sharedStrings.xml", f"<sst><si><t>{'x' * 90_000}</t></si></sst>")

    with pytest.raises(UnreadableError) as caught, opened(path) as archive:
        xlsx_marks(archive)

    assert str(caught.value) == (
        "its texts are far too long for so many cells; shorten the longest of them"
    )


def test_an_ods_file_behind_a_password_is_told_apart(ods):
    """Its manifest says so (OpenDocument 1.3 part 2, 4.4; from memory); the rest is noise."""
    path = ods("")
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr("META-INF/manifest.xml", "<manifest:encryption-data/>")

    with pytest.raises(UnreadableError) as caught, opened(path) as archive:
        ods_marks(archive)

    assert str(caught.value) == "the file is protected by a password; save it without one"


def test_an_archive_that_unpacks_to_far_more_is_refused(tmp_path):
    """Eleven megabytes of one letter pack a thousandfold; no list of parts does."""
    path = tmp_path / "bomb.xlsx"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", "x" * 11_000_000)

    with pytest.raises(UnreadableError) as caught, opened(path):
        pass

    assert str(caught.value) == (
        "it unpacks to 11 MB in 1 pieces, more than a job ever needs; copy its sheets into a new "
        "workbook"
    )


def test_an_archive_of_thousands_of_pieces_is_refused(tmp_path):
    """A workbook has some twenty."""
    path = tmp_path / "bomb.xlsx"
    with zipfile.ZipFile(path, "w") as archive:
        for n in range(2_001):
            archive.writestr(str(n), b"")

    with pytest.raises(UnreadableError, match="in 2001 pieces"), opened(path):
        pass


def test_a_piece_that_lies_about_its_size_is_damage(xlsx):
    """Sizes are checked by unpacking once, so that no later reader meets more than was said."""
    path = xlsx('<row r="1"><c r="A1"><v>1</v></c></row>')
    with zipfile.ZipFile(path) as archive:
        info = archive.getinfo("xl/worksheets/a.xml")
    content = path.read_bytes()
    said = info.file_size.to_bytes(4, "little")
    path.write_bytes(content.replace(said, (5).to_bytes(4, "little")))

    with pytest.raises(UnreadableError, match="the file is damaged"), opened(path):
        pass


def test_a_document_type_is_refused(xlsx):
    """Entities that grow by the million are declared in one; no spreadsheet program writes any."""
    path = xlsx("", styles=f'<!DOCTYPE a [<!ENTITY b "c">]>{STYLES}')

    with pytest.raises(UnreadableError, match="the file is damaged"), opened(path) as archive:
        xlsx_marks(archive)
