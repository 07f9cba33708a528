"""Finding a row by what a maker typed: by key, by alias, or not at all with the nearest named."""

from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum

from estimator.reference.rows import Table, TableRow, fold

NEIGHBOURS = 3
"""How many near names a message shows."""


class Reason(StrEnum):
    """Why a name was not found."""

    UNKNOWN = "unknown"
    AMBIGUOUS = "ambiguous"


@dataclass(frozen=True, slots=True)
class Miss:
    """A name that leads to no single row.

    Attributes:
        found: What was typed, exactly.
        reason: Unknown, or one of several.
        choices: Names that would do, each with its value: "copper (8930 kg/m3)". For an
            ambiguous name all of them, for an unknown one the nearest.
        table: Table that was searched; empty when it is the table itself that is unknown.
    """

    found: str
    reason: Reason
    choices: tuple[str, ...]
    table: str

    @property
    def sentence(self) -> str:
        """What is wrong, for the finding of a problem."""
        if self.reason is Reason.AMBIGUOUS:
            return f'"{self.found}" could mean {len(self.choices)} things'
        if not self.table:
            return f'"{self.found}" is not the name of a table'
        return f'"{self.found}" is not in tables/{self.table}.csv'

    @property
    def advice(self) -> str:
        """What to type instead, for the advice of a problem."""
        if self.choices:
            return "type one of: " + ", ".join(self.choices)
        return f"see `estimator tables {self.table}`, or add a row in a folder of your own"


def find_row(table: Table, text: str, describe: Callable[[TableRow], str]) -> TableRow | Miss:
    """Return the row that goes by a name, or why there is none.

    A key is looked for before aliases, so that a key which is also somebody's alias is never
    ambiguous.

    Args:
        table: Table to search.
        text: Name as typed.
        describe: Gives the choice to print for a row: name and telling value.
    """
    word = fold(text)
    if word in table.by_key:
        return table.by_key[word]
    rows = table.by_alias.get(word, ())
    if len(rows) == 1:
        return rows[0]
    reason = Reason.AMBIGUOUS if rows else Reason.UNKNOWN
    near = rows or nearest(table, word)
    return Miss(text, reason, tuple(describe(row) for row in near), table.name)


def nearest(table: Table, word: str) -> tuple[TableRow, ...]:
    """Return up to three rows whose key, name or alias is spelled most like a folded word."""
    close = get_close_matches(word, table.by_alias, n=2 * NEIGHBOURS)
    rows = {row.key: row for name in close for row in table.by_alias[name]}
    return tuple(rows.values())[:NEIGHBOURS]
