"""STL files, binary and text: whole ones, cut off ones, and ones that are not what they say."""

import struct

import numpy as np
import pytest
import trimesh

from estimator.files import lines
from estimator.files.polygons import MOST_TRIANGLES

SQUARE = np.array([[[0, 0, 0], [1, 0, 0], [1, 1, 0]], [[0, 0, 0], [1, 1, 0], [0, 1, 0]]], float)
WHOLE = "an STL file that is whole"
AGAIN = "save it again; it may be cut off"


def _binary(triangles, told=None, title=b"a title"):
    head = title.ljust(80, b" ") + struct.pack("<I", len(triangles) if told is None else told)
    records = (struct.pack("<12fH", 0, 0, 0, *corners.ravel(), 0) for corners in triangles)
    return head + b"".join(records)


def _text(triangles, title="a square"):
    facets = (
        "facet normal 0 0 1\n outer loop\n"
        + "".join(f"  vertex {x:e} {y:g} {z:g}\n" for x, y, z in corners)
        + " endloop\nendfacet\n"
        for corners in triangles
    )
    return f"solid {title}\n{''.join(facets)}endsolid {title}\n".encode()


def _same(mesh, triangles):
    assert mesh.points[mesh.faces] == pytest.approx(triangles)


@pytest.mark.parametrize("title", [b"a title", b"solid but binary", b"solid facet", b"\0"])
def test_a_binary_file_is_one_whatever_its_title(mesh, title):
    """It is as long as its head says, even where it starts with `solid`."""
    found = mesh("square.stl", _binary(SQUARE, title=title))

    _same(found, SQUARE)
    assert len(found.points) == 4
    assert found.notes == (
        "2 corners at the same place as another to the last digit, taken as one with it",
    )


@pytest.mark.parametrize("change", [bytes.upper, lambda b: b.replace(b"\n", b"\r\n"), bytes])
def test_a_text_file_reads_the_same(mesh, change):
    """Capitals and ends of lines of other systems make no difference."""
    _same(mesh("square.stl", change(_text(SQUARE))), SQUARE)


@pytest.mark.parametrize("title", ["vertex of the facet", "endsolid", "", "endloop\\"])
def test_words_in_the_title_of_a_text_file_are_no_corners(mesh, title):
    """Only what starts a line counts."""
    _same(mesh("square.stl", _text(SQUARE, title)), SQUARE)


def test_several_solids_in_one_text_file_are_one_mesh(mesh):
    """Each has an end of its own."""
    found = mesh("two.stl", _text(SQUARE) + _text(SQUARE + np.array([0, 0, 5])))

    assert len(found.faces) == 4


def test_a_text_file_is_read_in_blocks(mesh, monkeypatch):
    """Where a block ends, even within a triangle, makes no difference."""
    monkeypatch.setattr(lines, "BLOCK_BYTES", 50)

    _same(mesh("square.stl", _text(SQUARE)), SQUARE)


def test_another_library_writes_files_that_read_back(mesh):
    """Trimesh's binary and text, to the digits of a 32-bit number."""
    ball = trimesh.creation.icosphere(subdivisions=2)
    corners = ball.vertices[ball.faces]

    binary = mesh("a.stl", trimesh.exchange.stl.export_stl(ball))
    text = mesh("b.stl", trimesh.exchange.stl.export_stl_ascii(ball).encode())

    assert binary.points[binary.faces] == pytest.approx(corners, abs=1e-7)
    assert text.points[text.faces] == pytest.approx(corners, abs=1e-15)
    assert len(binary.points) == len(ball.vertices)


@pytest.mark.parametrize(
    ("data", "told", "room"),
    [
        (_binary(SQUARE)[:-7], "2", "1.9"),
        (_binary(SQUARE, told=3), "3", "2.0"),
        (_binary(SQUARE, told=1), "1", "2.0"),
        (_binary(SQUARE, told=0xFFFFFFFF), "4,294,967,295", "2.0"),
        (b"\x07" * 40, "0", "0.0"),
    ],
)
def test_a_count_that_does_not_fit_the_file_is_refused(refused, data, told, room):
    """Cut off, or with a head that lies: a million triangles are not made room for."""
    assert refused("a.stl", data) == (
        f'"a.stl" says that it has {told} triangles, and has room for {room}', WHOLE, AGAIN
    )  # fmt: skip


BROKEN = [
    (_text(SQUARE).replace(b"endsolid a square\n", b""), 2),
    (_text(SQUARE)[: -len(b"endloop\nendfacet\nendsolid a square\n")], 1),
    (_text(SQUARE).replace(b"  vertex 1.000000e+00 1 0\n", b"", 1), 0),
]


@pytest.mark.parametrize(("data", "whole"), BROKEN)
def test_a_text_file_that_breaks_off_is_refused(refused, data, whole):
    """Three corners for each triangle, and an end."""
    assert refused("a.stl", data) == (
        f'"a.stl" breaks off or goes wrong after {whole} triangles',
        "three lines `vertex` for every `endloop`, and `endsolid` at the end",
        AGAIN,
    )


def test_a_line_without_three_numbers_is_told(refused):
    """By its number, as it stands there."""
    typed = _text(SQUARE).replace(b"vertex 1.000000e+00 0 0", b"vertex 1,5 0 0")

    assert refused("a.stl", typed) == (
        'line 5 of "a.stl" is "vertex 1,5 0 0"',
        "3 plain numbers",
        "save the file again, with points in its numbers",
    )
    short = _text(SQUARE).replace(b"vertex 1.000000e+00 0 0", b"vertex 1")
    assert refused("a.stl", short)[0] == 'line 5 of "a.stl" is "vertex 1"'


def test_a_file_with_no_triangles_is_no_surface(refused):
    """Binary, or text."""
    words = ('"a.stl" holds no triangles', "a surface of triangles",
             "save the surface, not points or lines")  # fmt: skip

    assert refused("a.stl", _binary([])) == words
    assert refused("a.stl", b"solid empty\nendsolid empty\n") == words


def test_too_many_triangles_are_refused_before_they_are_read(tmp_path, refused):
    """The file is as long as it says, with nothing on the disk."""
    told = MOST_TRIANGLES + 1
    path = tmp_path / "a.stl"
    path.write_bytes(_binary([], told=told))
    with path.open("r+b") as stream:
        stream.truncate(84 + 50 * told)
    data = path.read_bytes()

    assert refused("a.stl", data) == (
        '"a.stl" has 2,000,001 triangles', "2,000,000 triangles at most",
        "save it with fewer triangles",
    )  # fmt: skip
