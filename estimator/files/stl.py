"""Reading STL files, binary and text: triangles, each with corners of its own."""

import re
from typing import BinaryIO

import numpy as np

from estimator.files.lines import blocks, numbers
from estimator.files.polygons import MOST_TRIANGLES, TRIANGLE, Floats, Polygons
from estimator.files.shelf import FileError, Found, shown

HEAD_BYTES = 84
"""A title of 80 bytes and the number of triangles."""
RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
"""One triangle of a binary file: 50 bytes."""
_TEXT = re.compile(rb"\s*solid\b[^\0]*?\b(?:facet|endsolid)\b", re.IGNORECASE)
_GLANCE_BYTES = 4_096
_LOOP = b"vvve"
"""Three lines `vertex`, then one `endloop`."""


def read_stl(found: Found) -> Polygons:
    """Return the triangles of an STL file.

    A file as long as its head says is binary, whatever its title: many start with `solid`, too.

    Raises:
        FileError: It is cut off, or no STL file at all.

    References:
        Stereolithography Interface Specification, 3D Systems, 1988; from memory.
    """
    with found.path.open("rb") as stream:
        head = stream.read(_GLANCE_BYTES)
        told = int.from_bytes(head[HEAD_BYTES - 4 : HEAD_BYTES], "little")
        if len(head) >= HEAD_BYTES and found.size == HEAD_BYTES + told * RECORD.itemsize:
            stream.seek(HEAD_BYTES)
            return _triangles(_binary(found, stream, told))
        if _TEXT.match(head):
            stream.seek(0)
            return _triangles(_text(found, stream))
    held = max(found.size - HEAD_BYTES, 0) / RECORD.itemsize
    says = f"says that it has {told:,} triangles, and has room for {held:,.1f}"
    words = f"{shown(found.name)} {says}"
    raise FileError(words, "an STL file that is whole", "save it again; it may be cut off")


def _triangles(corners: Floats) -> Polygons:
    count = len(corners) // TRIANGLE
    return Polygons(corners, np.arange(len(corners)), np.full(count, TRIANGLE))


def _binary(found: Found, stream: BinaryIO, told: int) -> Floats:
    if told > MOST_TRIANGLES:
        words = f"{shown(found.name)} has {told:,} triangles"
        advice = "save it with fewer triangles"
        raise FileError(words, f"{MOST_TRIANGLES:,} triangles at most", advice)
    records = np.frombuffer(stream.read(told * RECORD.itemsize), dtype=RECORD)
    return records["corners"].astype(float).reshape(-1, TRIANGLE)


def _text(found: Found, stream: BinaryIO) -> Floats:
    corners, marks, last = [], [], b""
    for block in blocks(stream):
        lines = [line for line in block.lines if line[:2].lower() in (b"ve", b"en")]
        kept = [line for line in lines if line[:4].lower() in (b"vert", b"endl")]
        marks.append(bytes(line[0] | 0x20 for line in kept))
        corners.append(numbers(found, block, [ln for ln in kept if ln[:1] in b"vV"], TRIANGLE))
        last = lines[-1] if lines else last
    loops = b"".join(marks)
    if loops != _LOOP * (len(loops) // len(_LOOP)) or not last.lower().startswith(b"endsolid"):
        at = next((i for i in range(0, len(loops), 4) if loops[i : i + 4] != _LOOP), len(loops))
        words = f"{shown(found.name)} breaks off or goes wrong after {at // 4:,} triangles"
        wanted = "three lines `vertex` for every `endloop`, and `endsolid` at the end"
        raise FileError(words, wanted, "save it again; it may be cut off")
    return np.concatenate(corners)
