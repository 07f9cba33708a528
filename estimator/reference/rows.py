"""Rows of a lookup table: key, aliases, numbers with the unit in the heading, source."""

import math
import unicodedata
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

UNITS: Mapping[str, float] = MappingProxyType(
    {
        "_kg_m3": 1.0,
        "_kg_m2": 1.0,
        "_kg_m": 1.0,
        "_g_m2": 1e-3,
        "_g": 1e-3,
        "_mm4": 1e-12,
        "_mm3": 1e-9,
        "_mm2": 1e-6,
        "_mm": 1e-3,
        "_um": 1e-6,
        "_m2_m": 1.0,
        "_m2": 1.0,
        "_m": 1.0,
        "_gpa": 1e9,
        "_mpa": 1e6,
        "_1e-6_per_k": 1e-6,
        "_pct": 0.01,
        "_ratio": 1.0,
        "_count": 1.0,
        "_deg": math.radians(1.0),
        "_in": 0.0254,
        "_lb_ft2": 4.882427636,
        "_oz_ft2": 4.882427636 / 16,
    }
)
"""Ending of a heading -> factor to SI. 1 lb = 0.45359237 kg and 1 in = 25.4 mm exactly
(international yard and pound agreement, 1959)."""

PLAIN_NUMBERS = ("low", "high")
"""Number columns whose unit stands in the row's own `unit` column."""

_FOLDED = MappingProxyType(
    dict.fromkeys(map(ord, " -_\u2010\u2011\u2012\u2013\u2014\u2212")) | {0xD7: "x"}
)
"""Spaces, hyphens and dashes go; the multiplication sign becomes an x."""


def fold(text: str) -> str:
    """Return the text as names are matched: without case, spaces, hyphens, underscores."""
    plain = unicodedata.normalize("NFKD", text).casefold()
    # a second time, since what stood on both sides of a space may now combine
    return unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", plain).translate(_FOLDED))


def unit_factor(heading: str) -> float | None:
    """Return what turns a column's numbers into SI, or None when it is a column of words."""
    if heading in PLAIN_NUMBERS:
        return 1.0
    endings = [ending for ending in UNITS if heading.endswith(ending)]
    return UNITS[max(endings, key=len)] if endings else None


@dataclass(frozen=True, slots=True)
class Citation:
    """Who says so.

    Attributes:
        source: Id in the table of sources, or the maker's own words in a table of their own.
        document: Title and edition of that document.
        locator: Clause, table or page.
        checked: `document` when read in the document itself, `quoted` when read where another
            text carries it, `memory` when neither.
        own: The row comes from the maker's own folder of tables.
    """

    source: str
    document: str
    locator: str
    checked: str
    own: bool = False

    def __str__(self) -> str:
        """Return the citation as it is printed beside a figure."""
        how = {"quoted": " (as quoted)", "memory": " (from memory)"}.get(self.checked, "")
        mine = " [own table]" if self.own else ""
        place = f", {self.locator}" if self.locator else ""
        return f"{self.document}{place}{how}{mine}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cited:
    """What every looked-up record carries: where its figures were found."""

    citation: Citation

    @property
    def source(self) -> str:
        """Id of the document in the table of sources."""
        return self.citation.source

    @property
    def locator(self) -> str:
        """Clause, table or page in that document."""
        return self.citation.locator

    @property
    def checked(self) -> str:
        """How sure: document, quoted or memory."""
        return self.citation.checked


@dataclass(frozen=True, slots=True)
class TableRow:
    """One row of one table.

    Attributes:
        table: Name of the table, such as `gauges`.
        key: What the row is called.
        cells: Heading -> text.
        citation: Where the row comes from.
    """

    table: str
    key: str
    cells: Mapping[str, str]
    citation: Citation

    def text(self, heading: str) -> str:
        """Return a cell of words; empty when the table has no such cell."""
        return self.cells.get(heading, "")

    def words(self, heading: str) -> tuple[str, ...]:
        """Return the parts of a cell that lists several words with `;` between them."""
        return tuple(part.strip() for part in self.text(heading).split(";") if part.strip())

    def si(self, heading: str) -> float | None:
        """Return a number in SI units, or None when the cell is blank.

        Raises:
            KeyError: The heading names no unit, so it holds no number.
        """
        factor = unit_factor(heading)
        if factor is None:
            msg = f"heading {heading!r} of tables/{self.table}.csv names no unit"
            raise KeyError(msg)
        typed = self.text(heading)
        return float(typed) * factor if typed else None

    def need(self, heading: str, default: float | None = None) -> float:
        """Return a number in SI units that must be there, or the default for a blank cell.

        Raises:
            ValueError: The cell is blank and there is no default.
        """
        value = self.si(heading)
        if value is None:
            value = default
        if value is None:
            msg = f"{self.key!r} in tables/{self.table}.csv has no {heading}"
            raise ValueError(msg)
        return value


@dataclass(frozen=True)
class Table:
    """A lookup table as read: its rows in file order, a maker's own rows last.

    Attributes:
        name: Name of the table, such as `gauges`.
        rows: The rows, keys unique.
    """

    name: str
    rows: tuple[TableRow, ...]

    @cached_property
    def by_key(self) -> Mapping[str, TableRow]:
        """Folded key -> row."""
        return {fold(row.key): row for row in self.rows}

    @cached_property
    def by_alias(self) -> Mapping[str, tuple[TableRow, ...]]:
        """Folded key, name or alias -> every row that goes by it."""
        found: defaultdict[str, dict[str, TableRow]] = defaultdict(dict)
        for row in self.rows:
            for word in (row.key, row.text("name"), *row.words("alias")):
                if word:
                    found[fold(word)][row.key] = row
        return {word: tuple(rows.values()) for word, rows in found.items()}
