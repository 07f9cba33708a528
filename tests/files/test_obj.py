"""OBJ files: corners and faces as programs write them, and nothing else that they name."""

import io

import numpy as np
import pytest
import trimesh

from estimator.files import lines
from estimator.files.obj import read_obj

SQUARE = b"v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\n"
TRIANGLES = [[[0, 0, 0], [1, 0, 0], [1, 1, 0]], [[0, 0, 0], [1, 1, 0], [0, 1, 0]]]

WRITTEN = {
    "one by one": SQUARE + b"f 1 2 3\nf 1 3 4\n",
    "a quad": SQUARE + b"f 1 2 3 4\n",
    "counted backwards": SQUARE + b"f -4 -3 -2\nf -4 -2 -1\n",
    "with textures and normals": SQUARE
    + b"vt 0 0\nvn 0 0 1\nf 1/1/1 2/1/1 3/1/1\nf 1//1 3//1 4/1\n",
    "with tabs and blanks": SQUARE.replace(b"v ", b"\tv\t") + b"\n  f\t1  2\t3 \nf 1 3 4",
    "with colours": SQUARE.replace(b" 0\n", b" 0 0.5 0.5 0.5\n") + b"f 1 2 3 4\n",
    "some with a weight": SQUARE.replace(b"1 1 0\n", b"1 1 0 1.0\n") + b"f 1 2 3 4\n",
    "going on in the next line": SQUARE + b"f 1 2 \\\n3 \\\n4\n",
    "faces before their corners": b"f 1 2 3 4\n" + SQUARE,
    "lines of another system": (SQUARE + b"f 1 2 3 4\n").replace(b"\n", b"\r\n"),
    "with names": b"# by hand\nmtllib a.mtl\no bird\ng wing\ns 1\n"
    + SQUARE
    + b"usemtl x\nf 1 2 3 4",
    "with lines and points": SQUARE + b"l 1 2\np 3\nf 1 2 3 4\n",
}


@pytest.mark.parametrize("block", [10, 8_000_000])
@pytest.mark.parametrize("data", WRITTEN.values(), ids=WRITTEN)
def test_a_square_reads_the_same_however_it_is_written(mesh, monkeypatch, data, block):
    """Whole, and a few bytes at a time."""
    monkeypatch.setattr(lines, "BLOCK_BYTES", block)

    found = mesh("square.obj", data)

    assert found.points[found.faces] == pytest.approx(np.array(TRIANGLES))


def test_counting_backwards_starts_at_the_face(mesh):
    """From the last corner that stands above it, not from the end of the file."""
    again = SQUARE.replace(b" 0\n", b" 7\n") + b"f -4 -3 -2 -1\n"
    found = mesh("two.obj", SQUARE + b"f -4 -3 -2 -1\n" + again)

    assert found.points[found.faces][:2] == pytest.approx(np.array(TRIANGLES))
    assert found.points[found.faces][2:, :, 2] == pytest.approx(7)


def test_no_other_file_is_opened(tmp_path, found, monkeypatch):
    """Materials and textures are left where they are, wherever the file says that is."""
    names = b"mtllib secret.mtl ../secret.mtl /etc/passwd\nusemtl x\nmap_Kd secret.png\n"
    (tmp_path / "secret.mtl").write_bytes(b"newmtl x\n")
    file = found("a.obj", names + SQUARE + b"f 1 2 3 4\n")
    opened = []
    own = io.open
    monkeypatch.setattr("io.open", lambda path, *a: opened.append(path.name) or own(path, *a))
    monkeypatch.setattr("builtins.open", lambda *a: pytest.fail(f"opened {a}"))

    read_obj(file)

    assert opened == ["a.obj"]


def test_another_library_writes_files_that_read_back(mesh):
    """Trimesh writes eight decimals."""
    ball = trimesh.creation.icosphere(subdivisions=2)
    found = mesh("ball.obj", trimesh.exchange.obj.export_obj(ball).encode())

    assert found.points[found.faces] == pytest.approx(ball.vertices[ball.faces], abs=1e-8)


WRONG = [
    (b"v 1 2\n", "v 1 2", "3 plain numbers"),
    (b"v 1 2 north\n", "v 1 2 north", "3 plain numbers"),
    (b"f 1 2 three\n", "f 1 2 three", "whole numbers of corners"),
    (b"f 1 2 3\rf 2 3 4\n", "f 1 2 3?f 2 3 4", "whole numbers of corners"),
    (b"f 1 2.5 3\n", "f 1 2.5 3", "whole numbers of corners"),
    (b"f 1 2 99999999999999999999\n", "f 1 2 99999999999999999999", "whole numbers of corners"),
]


@pytest.mark.parametrize(("line", "shown", "expected"), WRONG)
def test_a_line_that_cannot_be_read_is_told(refused, line, shown, expected):
    """By its number, as it stands there."""
    assert refused("a.obj", SQUARE + b"f 1 2 3\n" + line)[:2] == (
        f'line 6 of "a.obj" is "{shown}"', expected
    )  # fmt: skip


@pytest.mark.parametrize("face", [b"f 1 2 5\n", b"f 0 1 2\n", b"f -1 -2 -5\n"])
def test_faces_at_corners_that_are_not_there_are_refused(refused, face):
    """Numbers start at 1, and end with the corners of the file."""
    assert refused("a.obj", SQUARE + b"f 1 2 3\n" + face) == (
        '1 face of "a.obj" at corners that are not in the file', "corners 1 to 4", "save it again"
    )  # fmt: skip


@pytest.mark.parametrize("data", [SQUARE, b"# nothing\n", SQUARE + b"f 1 2\n", b"f\n", b"\0\xff\n"])
def test_a_file_without_triangles_is_no_surface(refused, data):
    """Points and lines alone have no skin."""
    assert refused("a.obj", data)[0] == '"a.obj" holds no triangles'
