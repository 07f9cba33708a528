"""Assemblies: what is mounted on what, how each moves, and which brackets take its load."""

import math
from collections.abc import Mapping, Sequence

import numpy as np

from estimator.core.problems import Cell, Problem, Severity
from estimator.resolve.records import Assembly
from estimator.sheets.rows import Row

WALL = "wall"
FULL_TURN_POSITIONS = 12
END_TO_END_POSITIONS = 5


def resolve_assemblies(
    rows: Sequence[Row], part_rows: Sequence[Row], sets: Sequence[str]
) -> tuple[tuple[Assembly, ...], tuple[Problem, ...]]:
    """Return the assemblies, and what is wrong with them.

    Without any row on the `assemblies` sheet each name on the parts sheet is an assembly that
    sits at the datum.

    Args:
        rows: Rows of the `assemblies` sheet.
        part_rows: Rows of the `parts` sheet.
        sets: Names of the bracket sets.
    """
    if not rows:
        names = dict.fromkeys(row.text("assembly") for row in part_rows)
        only = sets[0] if len(sets) == 1 else WALL
        unsaid = (_which_set(sets),) if len(sets) > 1 else ()
        return tuple(Assembly(key=name, carried_by=only) for name in names), unsaid
    problems: list[Problem] = []
    by_key = {row.text("assembly"): row for row in rows}
    carriers = {key: _known(row, "mounted_on", by_key, problems) for key, row in by_key.items()}
    _break_circles(carriers, by_key, "mounted_on", problems)
    holders = _holders(by_key, carriers, sets, problems)
    found = tuple(
        _assembly(row, (carriers[key], holders[key]), by_key, problems)
        for key, row in by_key.items()
    )
    return found, tuple(problems)


def _which_set(sets: Sequence[str]) -> Problem:
    return Problem(
        Severity.QUESTION,
        Cell("assemblies"),
        f"nothing says which of {', '.join(sets)} carries what, so no bracket takes any load",
        "a row for each assembly",
        "name its bracket set under carried by",
    )


def _known(row: Row, field: str, names: Mapping[str, Row], problems: list[Problem]) -> str:
    """Return the assembly a cell names, or blank with a problem where there is none."""
    name = row.text(field)
    if not name or name in names:
        return name
    problems.append(
        Problem(
            Severity.REFUSED,
            row.cell(field),
            f'"{name}" is not an assembly of this workbook',
            "a name from the assemblies sheet, or a blank for the building",
            f"type one of: {', '.join(names)}",
            row.text("assembly"),
        )
    )
    return ""


def _break_circles(
    above: dict[str, str], rows: Mapping[str, Row], field: str, problems: list[Problem]
) -> None:
    """Report every assembly that leads back to itself, and let it hang from the building."""
    link = f" is {field.replace('_', ' ')} "
    for key in list(above):
        chain = [key]
        while (carrier := above[chain[-1]]) and carrier not in chain:
            chain.append(carrier)
        if carrier != key:
            continue
        row = rows[key]
        problems.append(
            Problem(
                Severity.REFUSED,
                row.cell(field),
                f"{link.join([*chain, key])}: that goes round in a circle",
                "a chain that ends at the building",
                "leave the cell of the one that hangs from the building blank",
                key,
            )
        )
        above[key] = ""


def _holders(
    rows: Mapping[str, Row],
    carriers: Mapping[str, str],
    sets: Sequence[str],
    problems: list[Problem],
) -> dict[str, str]:
    """Return the bracket set, or `wall`, that takes each assembly's load."""
    passed = {
        key: _passes_to(row, carriers[key], rows, sets, problems) for key, row in rows.items()
    }
    onward = {key: to if to in rows and to not in sets else "" for key, to in passed.items()}
    _break_circles(onward, rows, "carried_by", problems)
    holders = {}
    for key in rows:
        last = key
        while onward[last]:
            last = onward[last]
        holders[key] = passed[last] if passed[last] in sets else WALL
    return holders


def _passes_to(
    row: Row, carrier: str, rows: Mapping[str, Row], sets: Sequence[str], problems: list[Problem]
) -> str:
    """Return what one assembly hands its load to: a bracket set, an assembly or the wall.

    A bracket set goes before an assembly of the same name.
    """
    name = row.text("carried_by")
    if name.casefold() == WALL or name in sets or name in rows:
        return WALL if name.casefold() == WALL else name
    if not name and carrier:
        return carrier
    if not name and len(sets) <= 1:
        return sets[0] if sets else WALL
    found = f'"{name}" is neither a bracket set nor an assembly' if name else "nothing is said"
    problems.append(
        Problem(
            Severity.REFUSED if name else Severity.QUESTION,
            row.cell("carried_by"),
            f"{found}, so no bracket takes the load of this assembly",
            "a bracket set, an assembly, or wall",
            f"type one of: {', '.join((*sets, WALL))}",
            row.text("assembly"),
        )
    )
    return WALL


def _assembly(
    row: Row, hung: tuple[str, str], by_key: Mapping[str, Row], problems: list[Problem]
) -> Assembly:
    key, (carrier, holder) = row.text("assembly"), hung
    return Assembly(
        key=key,
        carrier=carrier,
        origin_m=(row.number("across", 0.0), row.number("up", 0.0), row.number("out", 0.0)),
        stands=row.text("stands", "off wall"),
        moves=row.text("moves", "fixed"),
        axis=row.text("axis", "out"),
        positions=_positions(row, problems),
        carried_by=holder,
        lift_unit=row.text("lift_unit") or key,
        wind=row.text("wind", "outline"),
        coefficient=row.number("coefficient"),
        coefficient_source=row.text("source"),
        same_as=_repeated(row, by_key, problems),
        mirrored=row.text("mirrored") == "yes",
        cell=row.cell("assembly"),
    )


def _repeated(row: Row, by_key: Mapping[str, Row], problems: list[Problem]) -> str:
    """Return the assembly whose parts a row repeats; it must have parts of its own to repeat."""
    key, name = row.text("assembly"), _known(row, "same_as", by_key, problems)
    if not name or not by_key[name].has("same_as"):
        return name
    why = "itself" if name == key else f"{name}, which repeats {by_key[name].text('same_as')}"
    problems.append(
        Problem(
            Severity.REFUSED,
            row.cell("same_as"),
            f"{key} cannot repeat {why}",
            "an assembly that repeats no other",
            "name the assembly whose parts are on the parts sheet",
            key,
        )
    )
    return ""


def _positions(row: Row, problems: list[Problem]) -> tuple[float, ...]:
    """Return where a mover is worked out: evenly from `from` to `to`, both ends included."""
    moves = row.text("moves", "fixed")
    if moves == "fixed":
        return (0.0,)
    wanted = {"turns": "angle", "slides": "length"}[moves]
    ends = []
    for field, blank in (("from", 0.0), ("to", 2 * math.pi if moves == "turns" else math.nan)):
        amount = row.values.get(field)
        if amount is not None and amount.kind != wanted:
            problems.append(_wrong_end(row, field, amount.text, wanted))
            return (0.0,)
        ends.append(blank if amount is None else amount.value)
    if math.isnan(ends[1]):
        problems.append(_wrong_end(row, "to", "nothing", wanted))
        return (0.0,)
    whole = moves == "turns" and math.isclose(abs(ends[1] - ends[0]), 2 * math.pi)
    count = int(row.number("positions", FULL_TURN_POSITIONS if whole else END_TO_END_POSITIONS))
    return tuple(float(p) for p in np.linspace(ends[0], ends[1], count, endpoint=not whole))


def _wrong_end(row: Row, field: str, text: str, wanted: str) -> Problem:
    example = {"angle": "an angle such as 90 deg", "length": "a length such as 300 mm"}[wanted]
    return Problem(
        Severity.REFUSED,
        row.cell(field),
        f"{text} is no end position for something that {row.text('moves')}",
        example,
        "type both ends with their unit",
        row.text("assembly"),
    )
