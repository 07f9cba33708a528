"""Reading OBJ files: corners and faces alone; no other file that it names is opened."""

import re
from itertools import chain
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.files.lines import Block, blocks, numbers, unreadable
from estimator.files.polygons import TRIANGLE, Floats, Indices, Polygons
from estimator.files.shelf import Found

_CORNER, _FACE = b"v", b"f"
_TEXTURE = re.compile(rb"/\S*")
"""What follows the number of a corner: its texture and its normal."""


class _Piece(NamedTuple):
    """What one block adds to `Polygons`, with corners counted from 0 over the whole file."""

    points: Floats
    corners: Indices
    sizes: Indices


def read_obj(found: Found) -> Polygons:
    """Return the faces of an OBJ file.

    Raises:
        FileError: A corner or a face cannot be read.

    References:
        Wavefront Advanced Visualizer, object files (.obj), version 3.0; from memory: `v x y z`,
        `f v/vt/vn ...` counted from 1, or backwards from the last corner so far where negative.
    """
    pieces: list[_Piece] = []
    known = 0
    with found.path.open("rb") as stream:
        for block in blocks(stream):
            pieces.append(_piece(found, block, known))
            known += len(pieces[-1].points)
    return Polygons(*(np.concatenate(parts) for parts in zip(*pieces, strict=True)))


def _piece(found: Found, block: Block, known: int) -> _Piece:
    """Return what one block says, with so many corners known before it."""
    firsts = np.array([line.split(None, 1)[0][:2] if line else b"" for line in block.lines])
    rows = {kind: np.flatnonzero(firsts == kind) for kind in (_CORNER, _FACE)}
    points = numbers(found, block, [block.lines[i] for i in rows[_CORNER]], TRIANGLE)
    words = _face_words(block, rows[_FACE])
    sizes = np.fromiter(map(len, words), np.intp, len(words))
    try:
        corners = np.fromiter(map(int, chain.from_iterable(words)), np.intp, sizes.sum())
    except (ValueError, OverflowError) as error:
        bad = next(i for i, some in enumerate(words) if not _whole(some))
        line = block.lines[rows[_FACE][bad]]
        raise unreadable(found, block, line, "whole numbers of corners") from error
    so_far = known + np.searchsorted(rows[_CORNER], rows[_FACE])
    corners += np.where(corners < 0, np.repeat(so_far, sizes), -1)
    return _Piece(points, corners, sizes)


def _face_words(block: Block, rows: npt.NDArray[np.intp]) -> list[list[bytes]]:
    """Return the numbers of corners in some lines, as they are typed."""
    if not len(rows):
        return []
    text = b"\n".join([block.lines[i] for i in rows])
    return [line.split()[1:] for line in _TEXTURE.sub(b"", text).split(b"\n")]


def _whole(words: list[bytes]) -> bool:
    """Return whether all words are whole numbers that a file could mean."""
    try:
        np.fromiter(map(int, words), np.intp)
    except (ValueError, OverflowError):
        return False
    return True
