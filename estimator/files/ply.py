"""Reading PLY files, binary and text: points and faces alone; no texture is opened."""

import struct
from collections.abc import Mapping
from typing import BinaryIO, NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.files.lines import blocks, plain_numbers, unreadable
from estimator.files.polygons import Indices, Polygons
from estimator.files.shelf import FileError, Found, shown

TYPES: Mapping[str, str] = {
    "char": "b", "int8": "b", "uchar": "B", "uint8": "B",
    "short": "h", "int16": "h", "ushort": "H", "uint16": "H",
    "int": "i", "int32": "i", "uint": "I", "uint32": "I",
    "float": "f", "float32": "f", "double": "d", "float64": "d",
}  # fmt: skip
"""Types of a head, as the letters `struct` has for them."""
FORMATS: Mapping[str, str] = {"ascii": "", "binary_little_endian": "<", "binary_big_endian": ">"}
"""How the numbers are written, as the order of their bytes; blank for text."""
CORNERS = ("vertex_indices", "vertex_index")
"""Names that programs give to the list of corners of a face."""
_NUMBER = "d"
"""Every number of a text file, once it is read."""
_MOST_HEAD_BYTES = 64_000
_MOST_WHOLE = 2.0**53
"""Below this every whole number is exact."""
_END = b"end_header"
_AGAIN = "save it again; it may be cut off"


class _Property(NamedTuple):
    """A column of an element; one with a type of its length is a list."""

    name: str
    type: str
    length_type: str = ""


class _Element(NamedTuple):
    """A table of the file."""

    name: str
    rows: int
    properties: tuple[_Property, ...]

    @property
    def repeats(self) -> bool:
        """Return whether two columns go by one name."""
        return len({column.name for column in self.properties}) < len(self.properties)


class _Lists(NamedTuple):
    """Lists of different lengths, one after the other."""

    values: npt.NDArray[np.float64]
    sizes: Indices


class _Tape(NamedTuple):
    """The numbers of a file as bytes.

    Attributes:
        found: The file.
        data: The bytes.
        order: Which byte of a number comes first, as `struct` says it.
    """

    found: Found
    data: bytes
    order: str

    def dtype(self, element: _Element, lengths: Mapping[str, int]) -> np.dtype[np.void]:
        """Return the layout of a row whose lists have these lengths, nothing where not given."""
        fields: list[tuple[str, str, int]] = []
        for name, kind, length_kind in element.properties:
            if length_kind:
                fields.append((_length(name), self.order + length_kind, 1))
            fields.append((name, self.order + kind, lengths.get(name, 0) if length_kind else 1))
        layout = [(name, kind, (n,)) for name, kind, n in fields]
        return np.dtype(layout)

    def broken(self, why: str) -> FileError:
        """Return why the file cannot be used."""
        return FileError(f"{shown(self.found.name)} {why}", "a PLY file that is whole", _AGAIN)


def read_ply(found: Found) -> Polygons:
    """Return the faces of a PLY file.

    Raises:
        FileError: Its head or its numbers cannot be read, or disagree.

    References:
        G. Turk, The PLY Polygon File Format, 1994; from memory.
    """
    with found.path.open("rb") as stream:
        order, elements, lines = _head(found, stream)
        if order:
            tape = _Tape(found, stream.read(), order)
        else:
            elements = [_all_numbers(element) for element in elements]
            tape = _Tape(found, _numbers(found, stream, lines), "=")
    at, tables = 0, dict[str, Mapping[str, _Lists]]()
    for element in elements:
        tables[element.name], at = _table(tape, element, at)
    if tape.data[at:].strip(b" \t\r\n\0"):
        why = "holds more than its head says"
        raise tape.broken(why)
    return _polygons(tape, tables)


def _head(found: Found, stream: BinaryIO) -> tuple[str, list[_Element], int]:
    """Return the order of bytes, the elements, and how many lines the head has."""
    words, lines = [], 0
    while stream.tell() < _MOST_HEAD_BYTES and (line := stream.readline(_MOST_HEAD_BYTES)):
        lines += 1
        words.append(line.decode("ascii", "replace").split())
        if line.strip() == _END:
            break
    try:
        (_, (_, written, *_), *body, _) = words
        order, elements = FORMATS[written], _elements(body)
    except (ValueError, KeyError, IndexError) as error:
        raise _no_head(found) from error
    if words[0] != ["ply"] or words[-1] != [_END.decode()]:
        raise _no_head(found)
    return order, elements, lines


def _no_head(found: Found) -> FileError:
    said = f"the head of {shown(found.name)} is not that of a PLY file"
    return FileError(said, "`ply`, a format, elements, `end_header`", _AGAIN)


def _elements(words: list[list[str]]) -> list[_Element]:
    """Return what the lines of a head describe."""
    elements: list[_Element] = []
    for line in words:
        match line:
            case ["element", name, count]:
                elements.append(_Element(name, int(count), ()))
            case ["property", "list", length_type, kind, name]:
                listed = _Property(name, TYPES[kind], TYPES[length_type])
                elements.append(_with(elements.pop(), listed))
            case ["property", kind, name]:
                elements.append(_with(elements.pop(), _Property(name, TYPES[kind])))
    if any(element.rows < 0 or element.repeats for element in elements):
        raise ValueError
    return elements


def _with(element: _Element, last: _Property) -> _Element:
    return element._replace(properties=(*element.properties, last))


def _all_numbers(element: _Element) -> _Element:
    """Return an element as it is once its text was read: each number of eight bytes."""
    properties = (
        _Property(name, _NUMBER, length_kind and _NUMBER)
        for name, _, length_kind in element.properties
    )
    return element._replace(properties=tuple(properties))


def _numbers(found: Found, stream: BinaryIO, head_lines: int) -> bytes:
    """Return the numbers of a text file as bytes."""
    some = []
    for block in blocks(stream):
        values = plain_numbers(b" ".join(block.lines))
        if values is None:
            bad = next(line for line in block.lines if plain_numbers(line) is None)
            here = block._replace(first=block.first + head_lines)
            raise unreadable(found, here, bad, "plain numbers")
        some.append(values.tobytes())
    return b"".join(some)


def _table(tape: _Tape, element: _Element, at: int) -> tuple[Mapping[str, _Lists], int]:
    """Return the columns of an element that starts at a byte, and where the next one starts."""
    least = tape.dtype(element, {}).itemsize
    if element.rows * least > len(tape.data) - at:
        room = (len(tape.data) - at) // least
        why = f"says that it has {element.rows:,} of {element.name}, and has room for {room:,}"
        raise tape.broken(why)
    if not element.rows * least:
        return {}, at
    layout = tape.dtype(element, _first_lengths(tape, element, at))
    end = at + element.rows * layout.itemsize
    if end <= len(tape.data):
        rows = np.frombuffer(tape.data, layout, element.rows, at)
        lists = [name for name, _, length_kind in element.properties if length_kind]
        if all((rows[_length(name)] == layout[name].shape[0]).all() for name in lists):
            return {name: _alike(rows[name]) for name, _, _ in element.properties}, end
    return _walked(tape, element, at)


def _length(name: str) -> str:
    """Return the name of the column that holds the length of a list."""
    return f"length of {name}"


def _alike(rows: npt.NDArray[np.generic]) -> _Lists:
    count, size = rows.shape
    return _Lists(rows.astype(float).ravel(), np.full(count, size))


def _first_lengths(tape: _Tape, element: _Element, at: int) -> Mapping[str, int]:
    """Return the lengths of the lists in the first row of an element."""
    columns, _ = _walked(tape, element._replace(rows=1), at)
    return {name: int(columns[name].sizes[0]) for name, _, _ in element.properties}


def _walked(tape: _Tape, element: _Element, at: int) -> tuple[Mapping[str, _Lists], int]:
    """Return the columns of an element, row by row: where each starts hangs on those before."""
    values: dict[str, list[float]] = {name: [] for name, _, _ in element.properties}
    sizes: dict[str, list[int]] = {name: [] for name, _, _ in element.properties}
    try:
        for _ in range(element.rows):
            for name, kind, length_kind in element.properties:
                size = 1
                if length_kind:
                    (told,) = struct.unpack_from(tape.order + length_kind, tape.data, at)
                    size = int(told)
                    at += struct.calcsize(tape.order + length_kind)
                row = f"{tape.order}{size}{kind}"
                values[name] += struct.unpack_from(row, tape.data, at)
                sizes[name].append(size)
                at += struct.calcsize(row)
    except (struct.error, ValueError, OverflowError) as error:
        why = f"breaks off among its {element.rows:,} of {element.name}"
        raise tape.broken(why) from error
    columns = {name: _Lists(np.array(values[name], float), np.array(sizes[name], np.intp))
               for name in values}  # fmt: skip
    return columns, at


def _polygons(tape: _Tape, tables: Mapping[str, Mapping[str, _Lists]]) -> Polygons:
    points, faces = tables.get("vertex", {}), tables.get("face", {})
    name = next((name for name in CORNERS if name in faces), "")
    if not name or not points.keys() >= {"x", "y", "z"}:
        why = "lists no faces with corners at x, y and z"
        raise tape.broken(why)
    corners, sizes = faces[name]
    if not ((corners == np.floor(corners)) & (np.abs(corners) < _MOST_WHOLE)).all():
        why = "numbers corners of its faces with what are not whole numbers"
        raise tape.broken(why)
    at = np.stack([points[axis].values for axis in "xyz"], axis=-1)
    return Polygons(at, corners.astype(np.intp), sizes)
