"""Rows of a lookup table as text: columns that line up, or a block a row where they do not fit."""

import textwrap
from collections.abc import Iterator, Sequence
from itertools import zip_longest

from estimator.reference.lookup import View

GAP = "  "
NARROWEST = 16
"""Letters a column of words is never squeezed below; what is shorter keeps its own width."""


def table_text(view: View, width: int) -> str:
    """Return the rows of a table for a terminal.

    Where every column fits, rows stand under each other, and where they come from is said once
    below; otherwise each row is a block of its own.

    Args:
        view: What was found.
        width: Of the terminal, in letters.
    """
    if not view.rows:
        return f"No row of {view.name} has that word."
    sources = {
        source: f"[{n}]" for n, source in enumerate(dict.fromkeys(r[-1] for r in view.rows), 1)
    }
    rows = [(*cells, sources[source]) for *cells, source in view.rows]
    lines = [view.headings, *rows]
    widths = _squeezed([max(map(len, column)) for column in zip(*lines, strict=True)], width)
    if widths is None:
        return "\n\n".join(_block(view.headings, row, width) for row in view.rows)
    right = [_all_numbers(column) for column in zip(*rows, strict=True)]
    table = [line for row in lines for line in _aligned(row, widths, right)]
    notes = [_hung(f"{mark} ", source, width) for source, mark in sources.items()]
    return "\n".join([*table, "", *notes])


def _squeezed(natural: Sequence[int], width: int) -> list[int] | None:
    """Return the width of each column, the widest squeezed until all fit; None if they cannot."""
    widths = list(natural)
    excess = sum(widths) + len(GAP) * (len(widths) - 1) - width
    while excess > 0:
        widest = max(widths)
        if widest <= NARROWEST:
            return None
        widths[widths.index(widest)] -= 1
        excess -= 1
    return widths


def _all_numbers(cells: Sequence[str]) -> bool:
    return all(_is_number(cell) for cell in cells if cell)


def _is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True


def _aligned(row: Sequence[str], widths: Sequence[int], right: Sequence[bool]) -> Iterator[str]:
    """Yield the lines of one row; words go on in the next line, numbers stand to the right."""
    pieces = [textwrap.wrap(cell, wide) for cell, wide in zip(row, widths, strict=True)]
    for line in zip_longest(*pieces, fillvalue=""):
        yield GAP.join(
            piece.rjust(wide) if to_right else piece.ljust(wide)
            for piece, wide, to_right in zip(line, widths, right, strict=True)
        ).rstrip()


def _block(headings: Sequence[str], row: Sequence[str], width: int) -> str:
    """Return one row as a line for each cell that is filled."""
    wide = max(map(len, headings))
    return "\n".join(
        _hung(heading.ljust(wide) + GAP, cell, width)
        for heading, cell in zip(headings, row, strict=True)
        if cell
    )


def _hung(start: str, words: str, width: int) -> str:
    """Return words after a start, further lines set in as far."""
    return textwrap.fill(
        words, max(width, len(start) + NARROWEST), initial_indent=start,
        subsequent_indent=" " * len(start),
    )  # fmt: skip
