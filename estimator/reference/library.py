"""The library: where the tables are, a maker's own rows laid over them, and what was read."""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import NamedTuple

from estimator.core.problems import Cell, Problem, Severity, UnreadableError
from estimator.reference.reading import SOURCES, RawRow, Said, faults, problem, read_table
from estimator.reference.rows import Citation, Table, TableRow, fold

MARK = "sources.csv"
"""File that tells our folder of tables from anybody else's."""

RECORDS = ("own_ratios",)
"""Files of a maker's own folder that a command writes: no tables of ours."""
MAKERS_OWN = ("source", "locator", "checked", "note")
"""Cells that a maker's row never takes over from the row it replaces."""


@dataclass(frozen=True, slots=True)
class Document:
    """A document that tables cite.

    Attributes:
        key: What the `source` column of a table holds.
        document: Title.
        edition: Edition or year; may be empty.
        publisher: Who issued it; may be empty.
        where: Where it, or the text that carries it, was found.
    """

    key: str
    document: str
    edition: str
    publisher: str
    where: str

    def __str__(self) -> str:
        """Return title and edition, as printed beside a figure."""
        return f"{self.document}, {self.edition}" if self.edition else self.document


class _Laid(NamedTuple):
    """A row after a maker's cells were laid over ours."""

    raw: RawRow
    headings: tuple[str, ...]
    own: bool


def tables_dir() -> Path:
    """Return the folder of tables that came with this copy of the package.

    A wheel carries them inside the package; a checkout and an editable install have them
    beside it. The marking file is looked for because, in an installed tree, the second place
    may be a folder of the same name that belongs to another package.

    Raises:
        FileNotFoundError: The package was installed without its tables.
    """
    package = Path(__file__).resolve().parents[1]
    homes = (package / "_tables", package.parent / "tables")
    for home in homes:
        if (home / MARK).is_file():
            return home
    msg = f"neither {homes[0]} nor {homes[1]} holds {MARK}; install estimator again"
    raise FileNotFoundError(msg)


class Library:
    """The lookup tables, each read when it is first asked for.

    A row in the maker's own folder with a key of ours replaces the cells it fills and keeps
    the others; a row with a new key is added. It always names its own source.
    """

    def __init__(self, extra: Path | None = None) -> None:
        """Find the files; none is read yet.

        Args:
            extra: The maker's own folder of tables.

        Raises:
            UnreadableError: The maker's folder is not there.
        """
        if extra is not None and not extra.is_dir():
            msg = f"{extra} is not a folder: --tables wants one that is there, even empty"
            raise UnreadableError(msg)
        self._shipped = _csv_files(tables_dir())
        self._own = _csv_files(extra) if extra else {}
        self._tables: dict[str, Table] = {}
        self._problems: dict[str, tuple[Problem, ...]] = {}

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the tables, in alphabetical order."""
        return tuple(sorted(self._shipped))

    def table(self, name: str) -> Table:
        """Return a table, a maker's own rows laid over ours.

        Raises:
            KeyError: There is no table of that name.
        """
        if name not in self._shipped:
            msg = f"no table {name!r}; there are {', '.join(self.names)}"
            raise KeyError(msg)
        if name not in self._tables:
            self._tables[name], self._problems[name] = self._load(name)
        return self._tables[name]

    def documents(self) -> Mapping[str, Document]:
        """Return every document that tables may cite, by its id."""
        return {row.key: _document(row) for row in self.table(SOURCES).rows}

    def problems(self) -> tuple[Problem, ...]:
        """Read every table and return what is wrong in their files."""
        for name in self.names:
            self.table(name)
        others = set(self._own) - set(self._shipped) - set(RECORDS)
        strangers = [self._stranger(name) for name in sorted(others)]
        return (*strangers, *(found for name in self.names for found in self._problems[name]))

    def own_file(self, name: str) -> Path | None:
        """Return a file of the maker's own folder, None where there is none of that name."""
        return self._own.get(name)

    def digest(self) -> str:
        """Return the SHA-256 over every file that rows are taken from, ours and the maker's."""
        total = hashlib.sha256()
        for files in (self._shipped, self._own):
            for name in sorted(set(files) & set(self._shipped)):
                total.update(name.encode() + hashlib.sha256(files[name].read_bytes()).digest())
        return total.hexdigest()

    def _load(self, name: str) -> tuple[Table, tuple[Problem, ...]]:
        """Return a table and what is wrong in its files."""
        documents = {} if name == SOURCES else self.documents()
        laid, problems = self._laid(name)
        rows: dict[str, TableRow] = {}
        for raw, headings, own in laid:
            wrong = [*faults(name, headings, raw), *_uncited(raw, documents, own=own)]
            problems += wrong
            if not wrong:
                citation = _citation(raw.cells, documents, own=own)
                rows[raw.cells["key"]] = TableRow(name, raw.cells["key"], raw.cells, citation)
        return Table(name, tuple(rows.values())), tuple(problems)

    def _laid(self, name: str) -> tuple[list[_Laid], list[Problem]]:
        """Return ours and the maker's rows of a table, one a key, and what went wrong."""
        laid: dict[str, _Laid] = {}
        problems: list[Problem] = []
        for files, own in ((self._shipped, False), (self._own, True)):
            if name not in files:
                continue
            read = read_table(files[name])
            problems += read.problems
            seen: dict[str, int] = {}
            for raw in read.rows:
                key = fold(raw.cells["key"]) or f"row {raw.line}"
                if key in seen:
                    problems.append(_repeated(raw, seen[key]))
                    continue
                seen[key] = raw.line
                cells = _over(laid[key].raw.cells, raw.cells) if key in laid else raw.cells
                laid[key] = _Laid(raw._replace(cells=cells), read.headings, own)
        return list(laid.values()), problems

    def _stranger(self, name: str) -> Problem:
        """Return the note that a file of the maker's folder is no table of ours."""
        path = self._own[name]
        near = get_close_matches(name, self.names, n=1, cutoff=0.75)
        advice = f"did you mean {near[0]}.csv?" if near else "see `estimator tables` for the names"
        found = f"{path.name} is not the name of a table, so it was not read"
        cell = Cell(f"{path.parent.name}/{path.name}")
        return Problem(Severity.QUESTION, cell, found, "a table's name", advice)


def _csv_files(folder: Path) -> dict[str, Path]:
    """Return the CSV files that lie in a folder itself, by name; links are not followed."""
    found = sorted(folder.glob("*.csv"))
    return {path.stem: path for path in found if path.is_file() and not path.is_symlink()}


def _over(ours: Mapping[str, str], makers: Mapping[str, str]) -> dict[str, str]:
    """Return our cells with the maker's filled cells in their place."""
    kept = {heading: "" if heading in MAKERS_OWN else text for heading, text in ours.items()}
    return kept | {heading: text for heading, text in makers.items() if text} | {"key": ours["key"]}


def _repeated(raw: RawRow, first: int) -> Problem:
    found = f'key "{raw.cells["key"]}" stands in row {first} already'
    return problem(Cell(raw.file, row=raw.line), Said(found, "a key once", "rename one of them"))


def _uncited(raw: RawRow, documents: Mapping[str, Document], *, own: bool) -> list[Problem]:
    """Return the problem of a shipped row whose source is not listed; a maker may use words."""
    source = raw.cells.get("source", "")
    if own or not source or source in documents:
        return []
    said = Said(f'source "{source}" is not in {MARK}', "an id of that table", "list the document")
    return [problem(Cell(raw.file, row=raw.line), said)]


def _citation(
    cells: Mapping[str, str], documents: Mapping[str, Document], *, own: bool
) -> Citation:
    """Return who says so; the table of sources is its own source."""
    source = cells.get("source") or cells["key"]
    title = str(documents[source]) if source in documents else source
    return Citation(source, title, cells.get("locator", ""), cells.get("checked") or "memory", own)


def _document(row: TableRow) -> Document:
    words = (row.text(heading) for heading in ("document", "edition", "publisher", "where"))
    return Document(row.key, *words)
