"""The folder of a job: what a row may name there, and what is said of the rest."""

import hashlib
import os

import pytest

from estimator.files.shelf import LARGEST_BYTES, FileError, Shelf, shown

BESIDE = "a file that lies beside the workbook, or in a folder beside it"


@pytest.fixture
def folder(tmp_path):
    """Return the folder of a job with a mesh, a drawing, one more in a folder, and a secret."""
    job = tmp_path / "job"
    (job / "models").mkdir(parents=True)
    (job / "bird.stl").write_bytes(b"a bird")
    (job / "leaf.svg").write_bytes(b"a leaf")
    (job / "models" / "Wing.OBJ").write_bytes(b"a wing")
    (job / "models" / "notes.txt").write_bytes(b"words")
    (tmp_path / "secret.stl").write_bytes(b"not of this job")
    return job


@pytest.fixture
def refused(folder):
    """Return a function that gives what is said of a name that cannot be used."""

    def words(name, *suffixes):
        with pytest.raises(FileError) as caught:
            Shelf(folder).find(name, *suffixes)
        return caught.value.found, caught.value.expected, caught.value.advice

    return words


def test_a_file_is_found_with_its_digest_and_size(folder):
    """The digest is of what is in it, so that it does not depend on where it lies."""
    found = Shelf(folder).find("bird.stl")

    assert found.path == folder.resolve() / "bird.stl"
    assert found.sha256 == hashlib.sha256(b"a bird").hexdigest()
    assert (found.name, found.suffix, found.size) == ("bird.stl", ".stl", 6)


@pytest.mark.parametrize("typed", ["models/Wing.OBJ", "models\\Wing.OBJ", "./models//Wing.OBJ"])
def test_a_folder_beside_the_workbook_will_do(folder, typed):
    """A path typed on one system reads the same on another."""
    found = Shelf(folder).find(typed)

    assert (found.name, found.suffix) == ("models/Wing.OBJ", ".obj")


OUTSIDE = ["../secret.stl", "models/../../secret.stl", "/etc/x.stl", "C:\\x.stl", "C:x.stl",
           "..\\secret.stl", "\\\\server\\share\\x.stl", "models/../bird.stl"]  # fmt: skip


@pytest.mark.parametrize("typed", OUTSIDE)
def test_no_name_leads_out_of_the_folder(refused, typed):
    """Roots, drives and steps upwards are refused before anything is looked at."""
    found, expected, advice = refused(typed)

    assert found == f'"{typed}" leads out of the folder of the job'
    assert expected == BESIDE
    assert advice == "put the file beside the workbook and type its name alone"


def test_no_link_leads_out_of_the_folder(folder, refused):
    """A link is followed before it is said to be inside."""
    (folder / "out.stl").symlink_to(folder.parent / "secret.stl")
    (folder / "elsewhere").symlink_to(folder.parent)

    assert refused("out.stl") == (
        '"out.stl" is a link out of the folder of the job', BESIDE, "put the file itself there"
    )  # fmt: skip
    assert refused("elsewhere/secret.stl")[0].endswith("is a link out of the folder of the job")


def test_the_names_of_files_outside_are_not_told(folder, refused):
    """Advice lists what lies in the folder only: neither links out of it nor folders."""
    (folder / "elsewhere").symlink_to(folder.parent)
    (folder / "secre.stl").symlink_to(folder.parent / "secret.stl")
    (folder / "secr.stl").mkdir()

    found, _, advice = refused("elsewhere/secre.stl")

    assert found == 'there is no file "elsewhere/secre.stl" in the folder of the job'
    assert advice == 'type one of: "bird.stl", "leaf.svg", "models/Wing.OBJ"'


def test_an_empty_folder_has_nothing_to_name(tmp_path):
    """Then the file is still to be put there."""
    with pytest.raises(FileError) as caught:
        Shelf(tmp_path).find("bird.stl", (".stl",))

    assert caught.value.advice == "put it there; no file there ends in .stl yet"


def test_a_link_inside_the_folder_is_followed(folder):
    """It is the file that counts."""
    (folder / "again.stl").symlink_to(folder / "bird.stl")

    assert Shelf(folder).find("again.stl").sha256 == Shelf(folder).find("bird.stl").sha256


def test_a_link_in_a_circle_is_no_file(folder, refused):
    """Following it would never end."""
    (folder / "round.stl").symlink_to(folder / "round.stl")

    assert refused("round.stl")[0] == 'there is no file "round.stl" in the folder of the job'


MISSING = [
    ("brid.stl", 'type one of: "bird.stl"'),
    ("Bird.STL", 'type one of: "bird.stl"'),
    ("models/wing.obj", 'type one of: "models/Wing.OBJ"'),
    ("wing.obj", 'type one of: "models/Wing.OBJ"'),
    ("nowhere/bird.stl", 'type one of: "bird.stl"'),
    ("https://a.b/bird.stl", 'type one of: "bird.stl"'),
    ("zzz.stl", 'type one of: "bird.stl", "leaf.svg", "models/Wing.OBJ"'),
]


@pytest.mark.parametrize(("typed", "advice"), MISSING)
def test_a_missing_file_is_told_with_those_that_may_be_meant(refused, typed, advice):
    """Names that are near, in any folder, come first, then whatever there is."""
    assert refused(typed) == (
        f'there is no file "{typed}" in the folder of the job', BESIDE, advice
    )  # fmt: skip


def test_a_name_with_a_nul_is_no_file(refused):
    """It is shown without what cannot be printed."""
    assert refused("a\0.stl")[0] == 'there is no file "a?.stl" in the folder of the job'


@pytest.mark.parametrize("typed", ["", "  "])
def test_a_blank_name_is_refused(refused, typed):
    """There is nothing to look for."""
    assert refused(typed) == ("no file is named", BESIDE, "type its name, such as bird.stl")


def test_a_kind_that_is_not_read_is_refused(refused):
    """What can be read is listed; one that is read elsewhere is of no use here."""
    known = "a file that ends in .stl, .obj, .ply, .dxf, .svg"

    assert refused("bird.step")[:2] == ('"bird.step" is not a kind of file that is read', known)
    assert refused("bird")[:2] == ('"bird" does not say what kind of file it is', known)
    assert refused("bird.stl", (".dxf", ".svg"))[:2] == (
        '"bird.stl" is of no use here', "a file that ends in .dxf, .svg"
    )  # fmt: skip


def test_a_folder_is_no_file(folder, refused):
    """Nor is a pipe, which would never end."""
    (folder / "odd.stl").mkdir()
    os.mkfifo(folder / "pipe.stl")

    assert refused("odd.stl")[0] == '"odd.stl" is a folder or a device, not a file'
    assert refused("pipe.stl")[0] == '"pipe.stl" is a folder or a device, not a file'


def test_an_empty_file_and_one_that_is_too_large_are_refused(folder, refused):
    """Its size is known before it is read: this one has no bytes on the disk."""
    (folder / "empty.svg").touch()
    with (folder / "huge.svg").open("wb") as stream:
        stream.truncate(LARGEST_BYTES[".svg"] + 1)

    assert refused("empty.svg")[:2] == ('"empty.svg" is empty', "a file with something in it")
    assert refused("huge.svg")[:2] == ('"huge.svg" holds 30 MB', "30 MB at most")


def test_a_file_that_cannot_be_opened_is_told(refused, monkeypatch):
    """The words of the system say why."""

    def closed(*_args):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("pathlib.Path.open", closed)

    assert refused("bird.stl")[0] == '"bird.stl" cannot be opened (Permission denied)'


def test_what_was_made_is_kept(folder):
    """Two ways of building read a file once."""
    shelf, made = Shelf(folder), []

    first = shelf.kept(("mesh", "digest"), lambda: made.append(1) or "mesh")
    second = shelf.kept(("mesh", "digest"), lambda: made.append(1) or "mesh")

    assert first == second == "mesh"
    assert made == [1]
    assert shelf.find("bird.stl") is shelf.find("bird.stl")


def test_what_could_not_be_read_is_kept_too(folder):
    """A broken file is not read again for every row that names it."""
    shelf, tried = Shelf(folder), []

    def broken():
        tried.append(1)
        raise FileError("broken", "a whole one", "mend it")  # noqa: EM101 - three words of a test

    for _ in range(2):
        with pytest.raises(FileError, match="broken"):
            shelf.kept("key", broken)

    assert tried == [1]


def test_long_names_are_shown_short():
    """A message stays a line."""
    assert shown("a" * 100) == f'"{"a" * 60}..."'
