"""Which rows count for one way of building, and the account of every row read."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from estimator.core.problems import Cell, Problem, RequestError, Severity
from estimator.sheets.converters import folded
from estimator.sheets.rows import Job, Row

_MILDEST = tuple(Severity)[::-1]


@dataclass(frozen=True, slots=True)
class Account:
    """What became of the rows of one sheet; read is the sum of the others."""

    read: int
    used: int
    other_option: int
    parked: int
    replaced: int
    refused: int


@dataclass(frozen=True, slots=True)
class Chosen:
    """The rows of one option.

    Attributes:
        option: Its name; blank where the job has only one way of building.
        rows: Rows by sheet.
        others: How many rows of each sheet belong to other options.
    """

    option: str
    rows: Mapping[str, tuple[Row, ...]]
    others: Mapping[str, int]

    def of(self, sheet: str) -> tuple[Row, ...]:
        """Return the rows of one sheet; none where the workbook has no such sheet."""
        return self.rows.get(sheet, ())


def default_option(job: Job) -> str:
    """Return the option the job sheet names, else the first one used, else blank."""
    named = str(job.facts["option_shown"].value) if "option_shown" in job.facts else ""
    matches = [option for option in job.options if option.casefold() == named.casefold()]
    return (matches or list(job.options) or [""])[0]


def named_option(job: Job, name: str | None) -> str:
    """Return an option in the workbook's own spelling, or the default one when none is named.

    Raises:
        RequestError: The job has no such option.
    """
    if name is None:
        return default_option(job)
    matches = [option for option in job.options if folded(option) == folded(name)]
    if not matches and (name or job.options):
        msg = f'no option "{name}" in {job.name}; there are {", ".join(job.options) or "none"}'
        raise RequestError(msg)
    return (matches or [""])[0]


def choose(job: Job, option: str) -> Chosen:
    """Return the rows that count for an option: its own and those of every option."""
    rows = {sheet: tuple(r for r in all_ if _counts(r, option)) for sheet, all_ in job.rows.items()}
    others = {sheet: len(job.rows[sheet]) - len(rows[sheet]) for sheet in rows}
    return Chosen(option, rows, others)


def _counts(row: Row, option: str) -> bool:
    return row.text("option").casefold() in ("", option.casefold())


def in_order(problems: Iterable[Problem], job: Job) -> tuple[Problem, ...]:
    """Return problems once each, by sheet, row and column in the order of the workbook's sheets."""
    order = {sheet: i for i, sheet in enumerate(job.read)}

    def place(problem: Problem) -> tuple[int, int, int, str]:
        """Return where a problem stands, sheets in the order of the job."""
        cell = problem.cell
        return order.get(cell.sheet, -1), cell.row, len(cell.column), cell.column

    return tuple(sorted(dict.fromkeys(problems), key=place))


def of_every_way(
    shown: Iterable[Problem], others: Iterable[tuple[str, Iterable[Problem]]], job: Job
) -> tuple[Problem, ...]:
    """Return the problems of every way of building once each; those of other ways name them.

    Args:
        shown: Those of the way that is shown.
        others: Each other way, with its problems.
        job: As read.
    """
    ways: dict[Problem, list[str]] = {problem: [] for problem in shown}
    of_shown = set(ways)
    for option, problems in others:
        for problem in dict.fromkeys(problems):
            if problem not in of_shown:
                ways.setdefault(problem, []).append(option)
    # Said at one place with two severities, the graver one is enough.
    gravest: dict[tuple[Cell, str, str], Severity] = {}
    for one in sorted(ways, key=lambda problem: _MILDEST.index(problem.severity)):
        gravest[one.cell, one.found, one.part] = one.severity
    return in_order(
        (
            replace(one, found=f"{one.found} (in the way {' and '.join(named)})") if named else one
            for one, named in ways.items()
            if one.severity is gravest[one.cell, one.found, one.part]
        ),
        job,
    )


def accounts(
    job: Job,
    chosen: Chosen,
    parked: Mapping[str, int],
    problems: Iterable[Problem],
    replaced: Mapping[str, int],
) -> dict[str, Account]:
    """Return for each sheet what became of its rows.

    Args:
        job: As read.
        chosen: Rows of the option.
        parked: Rows with count 0, by sheet.
        problems: Found while resolving; a refused row is one that has a refusing problem.
        replaced: Rows whose figure gave way to a scale reading, by sheet.
    """
    late: dict[str, set[int]] = {}
    for problem in problems:
        if problem.severity is Severity.REFUSED:
            late.setdefault(problem.cell.sheet, set()).add(problem.cell.row)
    table = {}
    for sheet, read in job.read.items():
        taken = {row.line for row in chosen.of(sheet)}
        refused = len(late.get(sheet, set()) & taken)
        aside = parked.get(sheet, 0) + replaced.get(sheet, 0)
        table[sheet] = Account(
            read=read,
            used=len(taken) - aside - refused,
            other_option=chosen.others.get(sheet, 0),
            parked=parked.get(sheet, 0),
            replaced=replaced.get(sheet, 0),
            refused=job.refused.get(sheet, 0) + refused,
        )
    return table
