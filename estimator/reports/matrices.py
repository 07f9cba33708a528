"""Largest values side by side: a line for each thing, a column for each component and sense.

Beside a value stands a short reference to the case it comes from; the cases are listed once.
"""

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from estimator.reports import figures, selection, sentences
from estimator.reports.bracket_states import AS_BUILT
from estimator.reports.document import Document

Row = Document
Names = tuple[str, ...]

FORCE, MOMENT = "N", "N m"
LEAST = {FORCE: 0.5, MOMENT: 0.05}
"""What is less than this would be printed as nought, and has no case."""
ON_THE_WALL = (
    "shear to the right", "shear to the left", "uplift", "down", "pull-out", "push-in",
    "moment about across, + pulls the top", "moment about across, \N{MINUS SIGN} pulls the bottom",
    "moment about up, + pulls the left", "moment about up, \N{MINUS SIGN} pulls the right",
    "moment about out, +", "moment about out, \N{MINUS SIGN}",
)  # fmt: skip
"""Highest and lowest of each component of an action of a bracket on the wall."""
BY_THE_WIND = (
    "along the wall to the right", "to the left", "upwards", "downwards", "pull from the wall",
    "push onto the wall", "moment about across, +", "moment about across, \N{MINUS SIGN}",
    "moment about up, +", "moment about up, \N{MINUS SIGN}",
    "moment about out, +", "moment about out, \N{MINUS SIGN}",
)  # fmt: skip
"""The same twelve of what the wind does to an assembly."""
SHARINGS = {
    "rigid": "the set moves as one stiff body",
    "lever": "along its row each load goes to the brackets nearest to it",
    "beam": "the set bends as a beam over its brackets",
    "placed": "on an arm with a stay, each load at its own place along it",
}
"""What each way of sharing a load, among brackets or along an arm, takes for granted."""

_SENSES = tuple(
    (key, unit, axis, sign)
    for key, unit in (("force_n", FORCE), ("moment_nm", MOMENT))
    for axis in range(3)
    for sign in (1.0, -1.0)
)
_FINE = 100.0
"""From here on a moment is printed without decimals."""
_LETTERS = "abcdefghijklmnopqrstuvwxyz"


class Heading(NamedTuple):
    """What a column holds, and its unit."""

    words: str
    unit: str


class Cell(NamedTuple):
    """A value as it is printed, and the short reference beside it."""

    value: str
    reference: str


class Line(NamedTuple):
    """What a line is of, and what it holds; None where there is nothing."""

    names: Names
    cells: tuple[Cell | None, ...]


class Matrix(NamedTuple):
    """Headings, lines, and the lists that the references point to: word, then text by mark."""

    headings: tuple[Heading, ...]
    lines: tuple[Line, ...]
    lists: dict[str, dict[str, str]]


class _Listed(NamedTuple):
    """What is listed below a matrix: its word, a row's text of it, and how it is numbered."""

    word: str
    text: Callable[[Row], str]
    mark: Callable[[int], str]


class Sources(NamedTuple):
    """Short references to what values come from, and the lists that they point to."""

    marks: dict[str, dict[str, str]]

    def beside(self, row: Row) -> str:
        """Return the reference of a row: "A1a s1 R"."""
        marks = (self.marks[word].get(text(row), "") for word, text, _ in _SOURCES)
        return _reference(marks, row["sharing"])

    def lists(self) -> dict[str, dict[str, str]]:
        """Return what the references point to: word, then text by mark."""
        return {
            word: {mark.strip(): typeset(text) for text, mark in marks.items()}
            for word, marks in self.marks.items()
        }


def sources(rows: Iterable[Row]) -> Sources:
    """Return the references of rows with combination, case, position, state and sharing."""
    told = list(rows)
    return Sources({word: marked(map(text, told), mark) for word, text, mark in _SOURCES})


def envelope(rows: Sequence[Row]) -> Matrix:
    """Return the governing values: a line for each bracket, a column for each component.

    Args:
        rows: Rows of ``bracket_envelope``.
    """
    found = sources(row for row in rows if _is_told(row))
    units = {row["component"]: row["unit"] for row in rows}
    lines = []
    for bracket, own in selection.grouped(rows, lambda row: row["bracket"]).items():
        cells = {}
        for row in own:
            reference = found.beside(row) if _is_told(row) else ""
            cells[row["component"]] = Cell(_number(row["value"], row["unit"]), reference)
        lines.append(Line((bracket,), tuple(cells.get(component) for component in units)))
    return Matrix(
        tuple(Heading(typeset(words), figures.column(unit)[1]) for words, unit in units.items()),
        tuple(lines),
        found.lists(),
    )


def characteristic(rows: Iterable[Row]) -> Matrix:
    """Return the largest action of each cause at each bracket, in each sense.

    Args:
        rows: Rows of ``brackets``.
    """
    by_bracket = selection.grouped(rows, lambda row: row["bracket"])
    ordered = [row for own in by_bracket.values() for row in own]
    return _extremes(
        selection.grouped(ordered, lambda row: (row["bracket"], row["cause"])),
        ON_THE_WALL,
        (_Listed("Case", _load_case, str),),
        lambda row: str(row["sharing"]),
    )


def wind_loads(rows: Iterable[Row]) -> Matrix:
    """Return the largest wind load on each assembly, in each sense.

    Args:
        rows: Rows of ``loads`` of the wind.
    """
    return _extremes(
        selection.grouped(rows, lambda row: (row["assembly"],)),
        BY_THE_WIND,
        (
            _Listed("Case", _wind_case, str),
            _Listed("Position", lambda row: str(row["position"]), small),
        ),
        lambda _: "",
    )


def _state(row: Row) -> str:
    """Return the state of the brackets of a row; blank as built."""
    return "" if row["state"] == AS_BUILT else str(row["state"])


def _is_told(row: Row) -> bool:
    return abs(float(row["value"])) >= LEAST[row["unit"]]


def _extremes(
    groups: dict[Names, list[Row]],
    names: Names,
    lists: Sequence[_Listed],
    sharing: Callable[[Row], str],
) -> Matrix:
    """Return the largest of each sense of each group; senses that none has are left away.

    Args:
        groups: Rows with ``force_n`` and ``moment_nm``, by what their line is called.
        names: Heading of each of the twelve senses.
        lists: What is referred to.
        sharing: How the load of a row is shared; empty when it is not.
    """
    worst = {key: [_largest(rows, sense) for sense in _SENSES] for key, rows in groups.items()}
    used = [i for i in range(len(_SENSES)) if any(found[i] for found in worst.values())]
    told = [row for found in worst.values() for row in found if row]
    marks = [(word, text, marked(map(text, told), mark)) for word, text, mark in lists]

    def cell(row: Row | None, i: int) -> Cell | None:
        """Return one cell of a row; None where the row has none."""
        if row is None:
            return None
        key, unit, axis, _ = _SENSES[i]
        parts = [found.get(text(row), "") for _, text, found in marks]
        return Cell(_number(row[key][axis], unit), _reference(parts, sharing(row)))

    return Matrix(
        tuple(Heading(names[i], figures.column(_SENSES[i][1])[1]) for i in used),
        tuple(Line(key, tuple(cell(found[i], i) for i in used)) for key, found in worst.items()),
        {word: {mark: words for words, mark in found.items()} for word, _, found in marks},
    )


def _largest(rows: Sequence[Row], sense: tuple[str, str, int, float]) -> Row | None:
    """Return the first of the rows that are largest in a sense; None when it prints as nought."""
    key, unit, axis, sign = sense
    worst = max(rows, key=lambda row: sign * row[key][axis])
    return worst if sign * worst[key][axis] >= LEAST[unit] else None


def _load_case(row: Row) -> str:
    """Return what acts, where its cause does not say all of it."""
    if row["direction_deg"] is None:
        return "" if row["case"] == row["cause"] else str(row["case"])
    return _wind_case({**row, "compass": ""})


def _wind_case(row: Row) -> str:
    side = f"wind from {sentences.direction(row['direction_deg'], row['compass'])}"
    return ", ".join(filter(None, (side, row["case"])))


def marked(texts: Iterable[str], mark: Callable[[int], str]) -> dict[str, str]:
    """Return each text with its mark, numbered from one in the order met; blank ones have none."""
    different = dict.fromkeys(filter(None, texts))
    return {text: mark(number) for number, text in enumerate(different, start=1)}


def small(number: int) -> str:
    """Return a, b ... z, aa, ab ... for 1, 2 ... 26, 27, 28 ..."""
    letters = ""
    while number:
        number, place = divmod(number - 1, len(_LETTERS))
        letters = _LETTERS[place] + letters
    return letters


def capital(number: int) -> str:
    """Return A, B ... for 1, 2 ..."""
    return small(number).upper()


def initial(sharing: str) -> str:
    """Return the letter that stands for a way of sharing."""
    return sharing[:1].upper()


def typeset(words: str) -> str:
    """Return words with a true minus where a hyphen stands for one."""
    return f"{words} ".replace(" - ", f" {figures.MINUS} ").rstrip()


def _reference(marks: Iterable[str], sharing: str) -> str:
    return "\N{NO-BREAK SPACE}".join(filter(None, ("".join(marks), initial(sharing))))


def _number(value: float, unit: str) -> str:
    size, _ = figures.column(unit)
    decimals = 1 if unit == MOMENT and abs(value / size) < _FINE else 0
    return figures.fixed(value / size, decimals)


def _combination(row: Row) -> str:
    """Return the combination of a row with its clause, where that does not stand in it already."""
    clause = row.get("clause", "")
    return f"{row['combination']} ({clause})" if clause else str(row["combination"])


_SOURCES = (
    _Listed("Combination", _combination, capital),
    _Listed("Case", lambda row: str(row["case"]), str),
    _Listed("Position", lambda row: str(row["position"]), small),
    _Listed("State", _state, lambda number: f" s{number}"),
)
"""What a value with partial factors comes from, and how each is numbered."""
