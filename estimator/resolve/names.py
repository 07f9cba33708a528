"""Names that rows of one sheet give to things, and what to say of a row that names none of them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from estimator.core.problems import Problem, Severity
from estimator.sheets.columns import FORMS
from estimator.sheets.converters import folded
from estimator.sheets.rows import Row


@dataclass(frozen=True, slots=True)
class Names:
    """Names found without regard to case and hyphens, each in the spelling of its first row.

    Attributes:
        usable: Names that can be used, by how they are compared.
        refused: For a name that stands only in rows that cannot be used: the first such row.
    """

    usable: Mapping[str, str] = field(default_factory=dict)
    refused: Mapping[str, Row] = field(default_factory=dict)
    _spelled: Mapping[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, name_field: str, rows: Iterable[Row], refused: Iterable[Row] = ()) -> "Names":
        """Return the names under one field of rows that can be used and of rows that cannot."""
        usable: dict[str, str] = {}
        for row in rows:
            usable.setdefault(folded(row.text(name_field)), row.text(name_field))
        broken: dict[str, Row] = {}
        for row in refused:
            name = folded(row.text(name_field))
            if name and name not in usable:
                broken.setdefault(name, row)
        spelled = usable | {name: row.text(name_field) for name, row in broken.items()}
        return cls(usable, broken, spelled)

    def and_of(self, names: Iterable[str]) -> "Names":
        """Return these names and more that can be used, which stand in no row of their own."""
        more = {folded(name): name for name in names}
        return replace(self, usable={**more, **self.usable}, _spelled={**more, **self._spelled})

    def __getitem__(self, typed: str) -> str:
        """Return the one spelling of a name that can be used; blank where there is none."""
        return self.usable.get(folded(typed), "")

    @property
    def all(self) -> tuple[str, ...]:
        """Every name there is, those of refused rows last: what may be typed."""
        return tuple(self._spelled.values())

    def of_refused(self, typed: str) -> str:
        """Return what to say of a name that stands only in refused rows; blank if it does not."""
        row = self.refused.get(folded(typed))
        return "" if row is None else cannot_be_used(row)


def about(row: Row) -> str:
    """Return the name of what a row is about, as its sheet says."""
    return row.text(FORMS[row.sheet].names)


def cannot_be_used(row: Row) -> str:
    """Return what to say where something depends on a row that was refused."""
    which = f'the row "{about(row)}"' if about(row) else f"row {row.line}"
    return f"{which} of {row.sheet} cannot be used; mend that first"


def refusal(row: Row, name_field: str, found: str, expected: str, advice: str) -> Problem:
    """Return a problem that keeps a row from being used, at one of its cells."""
    return Problem(Severity.REFUSED, row.cell(name_field), found, expected, advice, about(row))


def nameless(
    row: Row,
    name_field: str,
    kinds: Iterable[Names],
    words: tuple[str, str],
    choices: Iterable[str],
) -> Problem:
    """Return the problem of a cell that names nothing that can be used.

    Args:
        row: The row of the cell.
        name_field: Its field.
        kinds: Names it could have been.
        words: What to say where nothing at all goes by that name, and what is wanted.
        choices: What may be typed.
    """
    typed = row.text(name_field)
    said = next((said for names in kinds if (said := names.of_refused(typed))), "")
    if said:
        return refusal(row, name_field, said, "", "")
    advice = f"type one of: {', '.join(choices) or 'none there yet'}"
    return refusal(row, name_field, *words, advice)
