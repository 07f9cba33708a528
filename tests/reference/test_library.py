"""The library: a maker's own rows over ours, what is cited, and that a wheel carries the tables."""

import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from estimator.core.problems import Severity, UnreadableError
from estimator.reference import library as module
from estimator.reference.library import Library, tables_dir
from estimator.reference.materials import find_material

ROOT = Path(module.__file__).resolve().parents[2]


def test_our_tables_have_no_problem(library):
    """Every row of every table can be used."""
    assert [str(problem) for problem in library.problems()] == []


def test_a_maker_changes_the_cells_that_are_filled(makers):
    """Density and source are the maker's; the expansion of the shipped row stays."""
    library = makers(
        materials="key,density_kg_m3,density_low_kg_m3,source\nCopper,8940,8930,mill certificate\n"
    )

    copper = find_material(library, "cu")

    assert (copper.density_kg_m3, copper.density_low_kg_m3) == (8940, 8930)
    assert copper.expansion_per_k == pytest.approx(17e-6, rel=1e-12)
    assert str(copper.citation) == "mill certificate (from memory) [own table]"
    assert library.problems() == ()


def test_a_maker_adds_a_row(makers):
    """A new key is one more material, found by its alias."""
    library = makers(
        materials="key,alias,density_kg_m3,source,checked\nbog oak,morta,900,weighed,document\n"
    )

    assert find_material(library, "Morta").density_kg_m3 == 900
    assert len(library.table("materials").rows) == len(Library().table("materials").rows) + 1


def test_a_maker_may_cite_a_document_of_ours_or_add_one(makers):
    """An id of the table of sources is shown by its title; other words stand as they are."""
    library = makers(
        sources="id,document,edition\nCert 12,Mill certificate 12,2031\n",
        materials="key,density_kg_m3,source,locator,checked\nlead,11300,Cert 12,line 4,document\n",
    )

    assert str(find_material(library, "lead").citation) == (
        "Mill certificate 12, 2031, line 4 [own table]"
    )


def test_a_bad_row_of_a_maker_is_left_out_and_said(makers):
    """The shipped value is not used in its place without a word."""
    library = makers(materials="key,density_kg_m3,source\nlead,eleven,me\n")

    assert [str(problem).split("\n")[0] for problem in library.problems()] == [
        'mine/materials.csv!B2: density_kg_m3 is "eleven"'
    ]
    assert find_material(library, "lead").found == "lead"


def test_a_row_without_a_source_is_refused(makers):
    """Nobody's say-so is not enough, even for the maker's own figure."""
    library = makers(materials="key,density_kg_m3\nlead,11300\n")

    assert str(library.problems()[0]).startswith("mine/materials.csv!2: source is blank")


def test_a_key_stands_once_in_a_file(makers):
    """The second is refused and points at the first."""
    library = makers(kerfs="key,kerf_low_mm,kerf_high_mm,source\nwire,1,2,me\nWire,1,3,me\n")

    assert str(library.problems()[0]).startswith(
        'mine/kerfs.csv!3: key "Wire" stands in row 2 already'
    )


def test_blank_keys_are_each_pointed_at(makers):
    """Two rows without a key are two slips, not one row twice."""
    library = makers(kerfs="key,kerf_low_mm,kerf_high_mm,source\n,1,2,me\n,1,3,me\n")

    assert [problem.found for problem in library.problems()] == ["key is blank"] * 2


def test_a_file_that_is_no_table_of_ours_is_asked_about(makers):
    """A name close to one of ours is taken for a slip; nothing is read from it."""
    library = makers(material="key\na\n", prices="key\na\n")

    first, second = library.problems()

    assert first.severity is second.severity is Severity.QUESTION
    assert str(first) == (
        "mine/material.csv: material.csv is not the name of a table, so it was not read\n"
        "    wanted: a table's name\n    did you mean materials.csv?"
    )
    assert second.advice == "see `estimator tables` for the names"


def test_only_csv_files_of_the_folder_itself_are_read(tmp_path):
    """No folder below it, no other ending, no link that leads elsewhere."""
    (tmp_path / "below").mkdir()
    rows = "key,density_kg_m3,source\nlead,1,me\n"
    for name in ("below/materials.csv", "materials.txt", "elsewhere.txt"):
        (tmp_path / name).write_text(rows)
    (tmp_path / "materials.csv").symlink_to(tmp_path / "elsewhere.txt")

    assert find_material(Library(tmp_path), "lead").density_kg_m3 == 11340


def test_a_folder_that_is_not_there_is_said(tmp_path):
    """Nothing can be estimated with tables that are not there."""
    with pytest.raises(UnreadableError, match="--tables wants one that is there, even empty"):
        Library(tmp_path / "gone")


def test_an_unknown_table_names_those_there_are(library):
    """Asking for one is a slip in the program."""
    with pytest.raises(KeyError, match="no table 'metals'; there are allowances, bolts"):
        library.table("metals")


def test_a_shipped_row_cites_a_listed_document(monkeypatch, tmp_path):
    """A slip in our own tables is found the same way as one in a maker's."""
    (tmp_path / "sources.csv").write_text("id,document\nS,A standard\n")
    (tmp_path / "kerfs.csv").write_text("key,kerf_low_mm,kerf_high_mm,source\nsaw,1,2,T\n")
    monkeypatch.setattr(module, "tables_dir", lambda: tmp_path)

    assert str(Library().problems()[0]).split("\n") == [
        f'{tmp_path.name}/kerfs.csv!2: source "T" is not in sources.csv',
        "    wanted: an id of that table",
        "    list the document",
    ]


def test_documents_are_listed_with_what_they_are(library):
    """The register of sources prints title, edition, publisher and where it was seen."""
    document = library.documents()["EN 338"]

    assert str(document) == "EN 338 Structural timber - Strength classes, 2016"
    assert (document.publisher, "blue-prints" in document.where) == ("CEN", True)


def test_the_digest_follows_every_file(makers, library):
    """It is the same for the same files, and moves when a maker's file changes."""
    mine = makers(kerfs="key,kerf_low_mm,kerf_high_mm,source\nwire,1,2,me\n")
    first = mine.digest()
    second = makers(kerfs="key,kerf_low_mm,kerf_high_mm,source\nwire,1,3,me\n").digest()

    assert Library().digest() == library.digest()
    assert len({first, second, library.digest()}) == 3


def test_a_copy_without_tables_says_so(monkeypatch, tmp_path):
    """A folder called tables that is not ours does not count: it has no list of sources."""
    (tmp_path / "tables").mkdir()
    monkeypatch.setattr(module, "__file__", str(tmp_path / "estimator/reference/library.py"))

    with pytest.raises(FileNotFoundError, match=r"holds sources\.csv; install estimator again"):
        tables_dir()


def test_a_wheel_carries_the_tables_byte_for_byte(tmp_path):
    """The wheel's tables are those of the checkout, and nothing else is called tables."""
    source = tmp_path / "source"
    source.mkdir()
    for name in ("estimator", "tables"):
        shutil.copytree(ROOT / name, source / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md"):
        shutil.copy(ROOT / name, source)
    command = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "-o", str(tmp_path)]
    subprocess.run([*command, str(source)], check=True, capture_output=True)
    (wheel,) = tmp_path.glob("*.whl")

    with zipfile.ZipFile(wheel) as packed:
        names = [name for name in packed.namelist() if name.endswith(".csv")]
        carried = {Path(name).name: packed.read(name) for name in names}

    assert all(name.startswith("estimator/_tables/") for name in names)
    assert carried == {path.name: path.read_bytes() for path in (ROOT / "tables").glob("*.csv")}
