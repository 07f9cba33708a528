"""A value that remembers where it came from."""

from dataclasses import dataclass
from enum import StrEnum

from estimator.core.problems import Cell


class Origin(StrEnum):
    """How a value came to be used."""

    TYPED = "typed"
    DEFAULT = "default"
    TABLE = "table"


@dataclass(frozen=True, slots=True)
class Sourced:
    """A value with its origin, for the register of what a result rests on.

    Attributes:
        value: SI float, count or text.
        origin: Typed by the maker, a stated default, or looked up.
        source: Who said so: the maker's own note, a table's source id, or the reason for a default.
        cell: Where it was typed, if it was.
    """

    value: float | str
    origin: Origin
    source: str
    cell: Cell | None = None
