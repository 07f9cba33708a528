"""Meshes of any kind of file: what is done to get them, and what cannot be one."""

import numpy as np
import pytest

from estimator.files import meshes, stl
from estimator.files.meshes import counted

SQUARE = b"v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\n"
COMB = (
    b"v 0 0 0\nv 5 0 0\nv 5 3 0\nv 4 1 0\nv 3 3 0\nv 2 1 0\nv 1 3 0\nv 0 1 0\nf 1 2 3 4 5 6 7 8\n"
)


def test_whatever_was_done_is_said(mesh):
    """Corners at one place, quads, points of no face, and what has no inside to it."""
    seam = b"v 1 0 -0\nv 2 0 0\nv 7 7 7\n"
    faces = b"f 1 2 3 4\nf 5 6 3\nf 1 2\nf 2 5 3\n"
    found = mesh("a.obj", SQUARE + seam + faces)

    assert found.notes == (
        "1 corner at the same place as another to the last digit, taken as one with it",
        "1 face of more than three corners, cut into triangles",
        "1 corner of no face, left aside",
        "1 face of less than three corners, left aside",
        "1 triangle with two corners at one place, left aside",
    )
    assert found.doubts == ()
    assert (len(found.points), len(found.faces)) == (5, 3)


def test_a_face_that_folds_back_is_doubted(mesh):
    """Its area is too large however it is cut."""
    assert mesh("a.obj", COMB).doubts == (
        "1 face of more than three corners folds back on itself, so that its area is too large",
    )


def test_a_sound_file_needs_no_words(mesh):
    """Nothing was done."""
    found = mesh("a.obj", SQUARE + b"f 1 2 3\nf 1 3 4\n")

    assert found.notes == found.doubts == ()


@pytest.mark.parametrize("typed", [b"nan", b"inf", b"-inf", b"1e300", b"-2e9"])
def test_corners_without_a_place_are_refused(refused, typed):
    """Not a number, endless, or further off than anything is."""
    assert refused("a.obj", SQUARE + b"v 0 0 %b\nv %b 0 0\nf 1 2 3\n" % (typed, typed)) == (
        '2 corners of "a.obj" without a place (not a number, or endless)',
        "coordinates up to 1e+09",
        "look for them in the model",
    )


def test_triangles_with_corners_at_one_place_alone_are_no_surface(refused):
    """Nothing is left of them."""
    assert refused("a.obj", b"v 0 0 0\nv 0 0 0\nv 1 0 0\nf 1 2 3\n")[0] == (
        '"a.obj" holds no triangles'
    )


def test_too_many_triangles_are_refused(refused, monkeypatch):
    """As many as the polygons are cut into."""
    monkeypatch.setattr(meshes, "MOST_TRIANGLES", 1)

    assert refused("a.obj", SQUARE + b"f 1 2 3 4\n") == (
        '"a.obj" has 2 triangles', "1 triangles at most", "save it with fewer triangles"
    )  # fmt: skip


def test_a_polygon_of_very_many_corners_is_tried_from_a_few(mesh):
    """A disc drawn as one face of twenty thousand corners, dented at the first thirty."""
    angles = np.linspace(0, 2 * np.pi, 20_000, endpoint=False)
    reach = np.where(np.arange(20_000) < 30, 1 + np.arange(20_000) % 2, 2)
    outline = zip(reach * np.cos(angles), reach * np.sin(angles), strict=True)
    lines = "".join(f"v {x:.9f} {y:.9f} 0\n" for x, y in outline)
    face = "f " + " ".join(map(str, range(1, 20_001)))

    found = mesh("a.obj", (lines + face).encode())

    assert len(found.faces) == 19_998
    assert len(found.doubts) == 1


def test_numbers_are_told_with_what_they_count():
    """One, many, and thousands parted."""
    assert [counted(n, "face") for n in (0, 1, 2, 4812)] == [
        "0 faces", "1 face", "2 faces", "4,812 faces"
    ]  # fmt: skip


def test_a_record_of_a_binary_file_has_fifty_bytes():
    """Twelve numbers of four bytes, and two bytes that mean nothing."""
    assert stl.RECORD.itemsize == 12 * 4 + 2
