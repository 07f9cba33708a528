"""Looking in a table from the command line: the rows in which a word stands."""

import re
from difflib import get_close_matches
from typing import NamedTuple

from estimator.reference.finding import Miss, Reason
from estimator.reference.library import Library
from estimator.reference.rows import TableRow, fold

_BETWEEN_WORDS = re.compile(r"[\s;,]+")


class View(NamedTuple):
    """Rows of a table, ready to print.

    Attributes:
        name: Name of the table.
        headings: Headings with something under them.
        rows: One tuple of cells a row, in the order of the headings; the last cell says where
            the row comes from.
    """

    name: str
    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def show_table(library: Library, name: str, word: str = "") -> View | Miss:
    """Return the rows of a table in which a word stands, or the names nearest to no table's.

    Args:
        library: The tables.
        name: Name of a table: "gauges".
        word: What to look for in any cell, without regard to case, spaces and hyphens; where
            it stands as a whole word, rows with it inside another are left out; all rows when
            empty.
    """
    known = {fold(table): table for table in library.names}
    if fold(name) not in known:
        near = get_close_matches(fold(name), known, n=3)
        return Miss(name, Reason.UNKNOWN, tuple(known[word] for word in near) or library.names, "")
    table = library.table(known[fold(name)])
    holding = [row for row in table.rows if _holds(row, fold(word))]
    rows = [row for row in holding if fold(word) in _words(row)] or holding
    cells = list(
        dict.fromkeys(heading for row in rows for heading, text in row.cells.items() if text)
    )
    headings = tuple(
        heading for heading in cells if heading not in ("source", "locator", "checked")
    )
    shown = ((*(row.text(h) for h in headings), str(row.citation)) for row in rows)
    return View(table.name, (*headings, "from"), tuple(shown))


def _holds(row: TableRow, word: str) -> bool:
    return any(word in fold(text) for text in row.cells.values())


def _words(row: TableRow) -> set[str]:
    """Return the cells of a row and the words in them, folded."""
    cells = row.cells.values()
    words = (word for text in cells for word in _BETWEEN_WORDS.split(text))
    return {fold(text) for text in (*cells, *words)} - {""}
