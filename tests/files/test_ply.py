"""PLY files, text and binary of either order: whole ones, odd ones, and ones that lie."""

import struct

import numpy as np
import pytest
import trimesh

from estimator.files import lines

SQUARE = [(0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0)]
TRIANGLES = [[[0, 0, 0], [1, 0, 0], [1, 1, 0]], [[0, 0, 0], [1, 1, 0], [0, 1, 0]]]
WHOLE, AGAIN = "a PLY file that is whole", "save it again; it may be cut off"
POINT = "property float x\nproperty float y\nproperty float z\n"
FACE = "property list uchar int vertex_indices\n"
ORDERS = {"binary_little_endian": "<", "binary_big_endian": ">"}


def _head(written, vertices=4, faces=2, point=POINT, face=FACE):
    return (
        f"ply\nformat {written} 1.0\ncomment by hand\nelement vertex {vertices}\n{point}"
        f"element face {faces}\n{face}end_header\n"
    ).encode()


def _file(written, polygons):
    """Return a square as a file, with its faces as lists of corners."""
    head = _head(written, faces=len(polygons))
    if written == "ascii":
        rows = [*SQUARE, *((len(p), *p) for p in polygons)]
        return head + "".join(" ".join(map(str, row)) + "\n" for row in rows).encode()
    order = ORDERS[written]
    body = b"".join(struct.pack(f"{order}3f", *at) for at in SQUARE)
    return head + body + b"".join(struct.pack(f"{order}B{len(p)}i", len(p), *p) for p in polygons)


CUTS = {
    "triangles": [(0, 1, 2), (0, 2, 3)],
    "one quad": [(0, 1, 2, 3)],
    "one and the other": [(0, 1, 2), (0, 2, 3), (0, 1, 2, 3)],
    "a line among them": [(0, 1, 2), (0, 1), (0, 2, 3)],
}


@pytest.mark.parametrize("polygons", CUTS.values(), ids=CUTS)
@pytest.mark.parametrize("written", ["ascii", *ORDERS])
def test_a_square_reads_the_same_however_it_is_written(mesh, written, polygons):
    """Faces of one size, and of different sizes."""
    found = mesh("square.ply", _file(written, polygons))

    assert found.points[found.faces][:2] == pytest.approx(np.array(TRIANGLES))
    assert len(found.faces) == 2 * len(set(map(len, polygons)) - {2})


def test_a_text_file_is_read_in_blocks(mesh, monkeypatch):
    """Where a block ends makes no difference."""
    monkeypatch.setattr(lines, "BLOCK_BYTES", 9)

    found = mesh("square.ply", _file("ascii", CUTS["one quad"]))

    assert found.points[found.faces] == pytest.approx(np.array(TRIANGLES))


def test_further_columns_and_tables_are_left_aside(mesh):
    """Normals, colours, edges, and an empty table; names and types that other programs write."""
    data = (
        b"ply\r\nformat ascii 1.0\r\nobj_info scanned\r\nelement camera 0\r\n"
        b"property float view\r\nelement vertex 3\r\nproperty double nx\r\nproperty float32 x\r\n"
        b"property float y\r\nproperty float z\r\nproperty uint8 red\r\nelement empty 7\r\n"
        b"element face 1\r\nproperty uchar flags\r\nproperty list uint8 uint32 vertex_index\r\n"
        b"property list uchar float texcoord\r\nelement edge 1\r\nproperty int vertex1\r\n"
        b"end_header\r\n"
        b"9 0 0 0 255\r\n9 1 0 0 255\r\n9 0 1 0 255\r\n1 3 0 1 2 6 0 0 1 0 0 1\r\n5\r\n"
    )
    found = mesh("a.ply", data)

    assert found.points[found.faces] == pytest.approx(np.array([[[0, 0, 0], [1, 0, 0], [0, 1, 0]]]))


def test_no_texture_is_opened(mesh, monkeypatch):
    """Its name in a comment is only a comment."""
    data = _file("ascii", CUTS["one quad"]).replace(b"by hand", b"TextureFile ../secret.png")
    monkeypatch.setattr("builtins.open", lambda *a, **_: pytest.fail(f"opened {a}"))

    assert len(mesh("a.ply", data).faces) == 2


@pytest.mark.parametrize("encoding", ["ascii", "binary"])
def test_another_library_writes_files_that_read_back(mesh, encoding):
    """Trimesh writes eight decimals, or 32 bits."""
    ball = trimesh.creation.icosphere(subdivisions=2)
    data = trimesh.exchange.ply.export_ply(ball, encoding=encoding)
    found = mesh("ball.ply", data)

    assert found.points[found.faces] == pytest.approx(ball.vertices[ball.faces], abs=1e-7)


HEADS = [
    b"plx\nformat ascii 1.0\nend_header\n",
    b"ply\nformat ascii 1.0\nelement vertex 3\n",
    b"ply\nformat latin 1.0\nend_header\n",
    b"ply\nformat\nend_header\n",
    b"ply\n",
    b"ply\nformat ascii 1.0\nproperty float x\nend_header\n",
    b"ply\nformat ascii 1.0\nelement vertex many\nend_header\n",
    b"ply\nformat ascii 1.0\nelement vertex -1\nproperty float x\nend_header\n",
    b"ply\nformat ascii 1.0\nelement vertex 1\nproperty half x\nend_header\n",
    b"ply\nformat ascii 1.0\nelement vertex 1\nproperty int x\nproperty int x\nend_header\n",
    b"ply\n" * 30_000,
    b"\xff\xfe\0",
]


@pytest.mark.parametrize("data", HEADS)
def test_a_head_that_is_none_is_refused(refused, data):
    """Whatever is wrong with it, there is nothing to be read by."""
    assert refused("a.ply", data) == (
        'the head of "a.ply" is not that of a PLY file',
        "`ply`, a format, elements, `end_header`",
        AGAIN,
    )


HUGE = 10**15
LIES = [
    (_head("ascii", vertices=HUGE), f"says that it has {HUGE:,} of vertex, and has room for 0"),
    (_head("binary_big_endian", vertices=HUGE) + b"\0" * 24,
     f"says that it has {HUGE:,} of vertex, and has room for 2"),
    (_file("ascii", CUTS["triangles"]).replace(b"face 2", b"face 4"),
     "breaks off among its 4 of face"),
    (_file("ascii", CUTS["triangles"]).replace(b"face 2", b"face 1"),
     "holds more than its head says"),
    (_file("binary_little_endian", CUTS["triangles"])[:-3], "breaks off among its 2 of face"),
    (_file("binary_little_endian", CUTS["triangles"]) + b"more", "holds more than its head says"),
    (_file("ascii", CUTS["triangles"]).replace(b"\n3 0 2", b"\n-3 0 2"),
     "breaks off among its 2 of face"),
    (_file("ascii", CUTS["triangles"]).replace(b"\n3 0 2", b"\nnan 0 2"),
     "breaks off among its 2 of face"),
    (_file("ascii", CUTS["triangles"]).replace(b"\n3 0 2", b"\n1e300 0 2"),
     "breaks off among its 2 of face"),
    (_file("ascii", CUTS["triangles"]).replace(b"3 0 1 2", b"3 0 1.5 2"),
     "numbers corners of its faces with what are not whole numbers"),
    (_file("ascii", CUTS["triangles"]).replace(b"3 0 1 2", b"3 0 1e300 2"),
     "numbers corners of its faces with what are not whole numbers"),
    (_file("ascii", CUTS["triangles"]).replace(b"vertex_indices", b"strip"),
     "lists no faces with corners at x, y and z"),
    (_file("ascii", CUTS["triangles"]).replace(b"float z", b"float w"),
     "lists no faces with corners at x, y and z"),
]  # fmt: skip


@pytest.mark.parametrize(("data", "why"), LIES, ids=range(len(LIES)))
def test_numbers_that_do_not_fit_the_head_are_refused(refused, data, why):
    """A head that promises more than the file can hold makes no room for it."""
    assert refused("a.ply", data) == (f'"a.ply" {why}', WHOLE, AGAIN)


def test_a_line_that_is_no_numbers_is_told(refused):
    """By its number in the file, head included."""
    data = _file("ascii", CUTS["triangles"]).replace(b"\n1 1 0", b"\n1,0 1 0")

    assert refused("a.ply", data)[:2] == ('line 13 of "a.ply" is "1,0 1 0"', "plain numbers")


def test_corners_that_are_not_there_are_refused(refused):
    """Counted from 0 here."""
    data = _file("ascii", [(0, 1, 2), (0, 2, 9), (-1, 2, 3)])

    assert refused("a.ply", data)[0] == '2 faces of "a.ply" at corners that are not in the file'
