"""Lines of a text file, a block at a time, and the numbers in them."""

from collections.abc import Iterator, Sequence
from itertools import chain
from typing import BinaryIO, NamedTuple

import numpy as np

from estimator.files.polygons import Floats
from estimator.files.shelf import FileError, Found, shown

BLOCK_BYTES = 8_000_000
_GOES_ON = b"\\"


class Block(NamedTuple):
    """Some lines of a file.

    Attributes:
        first: Number of the first, counted from 1.
        lines: Without what surrounds them.
    """

    first: int
    lines: list[bytes]


def blocks(stream: BinaryIO) -> Iterator[Block]:
    """Yield the lines of a file, some megabytes at a time.

    A line that ends in a back slash goes on in the next, which is left blank.
    """
    first = 1
    while lines := stream.readlines(BLOCK_BYTES):
        while lines[-1].rstrip().endswith(_GOES_ON) and (more := stream.readline()):
            lines.append(more)
        yield Block(first, _joined([line.strip() for line in lines]))
        first += len(lines)


def _joined(lines: list[bytes]) -> list[bytes]:
    for i in reversed(range(len(lines) - 1)):
        if lines[i].endswith(_GOES_ON):
            lines[i] = lines[i][:-1] + b" " + lines[i + 1]
            lines[i + 1] = b""
    return lines


def numbers(found: Found, block: Block, lines: Sequence[bytes], wanted: int) -> Floats:
    """Return the numbers that follow the first word of each line, (n, wanted) float.

    Args:
        found: The file.
        block: Where the lines are from.
        lines: Some of its lines.
        wanted: Numbers that each must have; what follows them is left aside.

    Raises:
        FileError: A line has too few, or something else.
    """
    words = [line.split(None, wanted + 1)[1 : wanted + 1] for line in lines]
    values = plain_numbers(b" ".join(chain.from_iterable(words)))
    if values is None or any(len(some) < wanted for some in words):
        bad = next(line for line in lines if not _holds(line, wanted))
        raise unreadable(found, block, bad, f"{wanted} plain numbers")
    return values.reshape(-1, wanted)


def plain_numbers(text: bytes) -> Floats | None:
    """Return the numbers of a text, parted by blanks; None if anything else is in it."""
    try:
        return np.fromiter(map(float, text.split()), dtype=float)
    except ValueError:
        return None


def unreadable(found: Found, block: Block, line: bytes, wanted: str) -> FileError:
    """Return why one line of a file cannot be used."""
    number = block.first + block.lines.index(line)
    typed = shown(line.decode("utf-8", "replace"))
    words = f"line {number:,} of {shown(found.name)} is {typed}"
    return FileError(words, wanted, "save the file again, with points in its numbers")


def _holds(line: bytes, wanted: int) -> bool:
    words = line.split(None, wanted + 1)[1 : wanted + 1]
    return len(words) == wanted and plain_numbers(b" ".join(words)) is not None
