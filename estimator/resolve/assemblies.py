"""Assemblies: what is mounted on what, how each moves, and which brackets take its load."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

import numpy as np

from estimator.core.problems import Cell, Problem, Severity
from estimator.resolve.names import Names, about, nameless, refusal
from estimator.resolve.options import Chosen
from estimator.resolve.records import Assembly
from estimator.sheets.converters import folded
from estimator.sheets.rows import Row

WALL = "wall"
FULL_TURN_POSITIONS = 12
END_TO_END_POSITIONS = 5
MOST_POSITIONS = 360
"""More positions of one mover than this are refused: a whole turn by the degree."""
MOST_TOGETHER = 500
"""More positions of movers on movers than this are refused: nobody could read the result."""
ASK_LESS = "ask for fewer"


def assembly_names(
    chosen: Chosen, refused: Chosen, part_rows: Sequence[Row], unread: Sequence[Row]
) -> Names:
    """Return the names of the assemblies; those on the parts sheet where no other lists them.

    Args:
        chosen: Rows of the option.
        refused: Rows of the option that could not be read.
        part_rows: Rows of the parts sheet that count.
        unread: Rows of the parts sheet that would count, but could not be read.
    """
    if chosen.of("assemblies") or refused.of("assemblies"):
        return Names.of("assembly", chosen.of("assemblies"), refused.of("assemblies"))
    return Names.of("assembly", part_rows, unread)


def resolve_assemblies(
    rows: Sequence[Row], names: Names, sets: Names
) -> tuple[tuple[Assembly, ...], tuple[Problem, ...]]:
    """Return the assemblies, and what is wrong with them.

    Without any row on the `assemblies` sheet each name on the parts sheet is an assembly that
    sits at the datum.

    Args:
        rows: Rows of the `assemblies` sheet.
        names: Names of the assemblies.
        sets: Names of the bracket sets.
    """
    if not rows:
        listed = tuple(names.usable.values())
        unsaid = (_which_set(sets),) if listed and len(sets.all) > 1 else ()
        return tuple(Assembly(key=name, carried_by=_only_set(sets)) for name in listed), unsaid
    problems: list[Problem] = []
    by_key = {names[row.text("assembly")]: row for row in rows}
    carriers = {key: _known(row, "mounted_on", names, problems) for key, row in by_key.items()}
    _break_circles(carriers, by_key, "mounted_on", problems)
    holders = _holders(by_key, carriers, (sets, names), problems)
    found = [
        replace(
            _assembly(row, problems),
            carrier=carriers[key],
            carried_by=holders[key],
            same_as=_repeated(row, by_key, names, problems),
        )
        for key, row in by_key.items()
    ]
    return tuple(_readable(_lifted(found), by_key, problems)), tuple(problems)


def look_over(rows: Iterable[Row], names: Names, sets: Names) -> list[Problem]:
    """Return what rows that could not be read name in vain."""
    problems: list[Problem] = []
    for row in rows:
        for field in ("mounted_on", "same_as"):
            _known(row, field, names, problems)
        if row.has("carried_by"):
            _passes_to(row, "", (sets, names), problems)
    return problems


def _only_set(sets: Names) -> str:
    """Return the bracket set if there is just one, else the wall."""
    return (sets[sets.all[0]] if len(sets.all) == 1 else "") or WALL


def _which_set(sets: Names) -> Problem:
    return Problem(
        Severity.QUESTION,
        Cell("assemblies"),
        f"nothing says which of {', '.join(sets.all)} carries what, so no bracket takes any load",
        "a row for each assembly",
        "name its bracket set under carried by",
    )


def _known(row: Row, field: str, names: Names, problems: list[Problem]) -> str:
    """Return the assembly a cell names, or blank with a problem where there is none."""
    typed = row.text(field)
    if typed and not names[typed]:
        found = f'"{typed}" is not an assembly of this workbook'
        wanted = "a name from the assemblies sheet, or a blank for the building"
        problems.append(nameless(row, field, (names,), (found, wanted), _others(row, names)))
    return names[typed]


def _others(row: Row, names: Names) -> list[str]:
    return [name for name in names.all if name != about(row)]


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
        found = f"{link.join([*chain, key])}: that goes round in a circle"
        wanted = "a chain that ends at the building"
        advice = "leave the cell of the one that hangs from the building blank"
        problems.append(refusal(rows[key], field, found, wanted, advice))
        above[key] = ""


def _holders(
    rows: Mapping[str, Row],
    carriers: Mapping[str, str],
    kinds: tuple[Names, Names],
    problems: list[Problem],
) -> dict[str, str]:
    """Return the bracket set, or `wall`, that takes each assembly's load."""
    sets = set(kinds[0].usable.values())
    passed = {key: _passes_to(row, carriers[key], kinds, problems) for key, row in rows.items()}
    onward = {key: to if to in rows and to not in sets else "" for key, to in passed.items()}
    _break_circles(onward, rows, "carried_by", problems)
    holders = {}
    for key in rows:
        last = key
        while onward[last]:
            last = onward[last]
        holders[key] = passed[last] if passed[last] in sets else WALL
    return holders


def _passes_to(row: Row, carrier: str, kinds: tuple[Names, Names], problems: list[Problem]) -> str:
    """Return what one assembly hands its load to: a bracket set, an assembly or the wall.

    A bracket set goes before an assembly of the same name.
    """
    typed, (sets, names) = row.text("carried_by"), kinds
    if folded(typed) == WALL:
        return WALL
    named = sets[typed] or ("" if sets.of_refused(typed) else names[typed])
    if named:
        return named
    if not typed and (carrier or len(sets.all) <= 1):
        return carrier or _only_set(sets)
    lost = "no bracket takes the load of this assembly"
    wanted = "a bracket set, an assembly, or wall"
    if typed:
        found = f'"{typed}" is neither a bracket set nor an assembly, so {lost}'
        choices = (*sets.all, *_others(row, names), WALL)
        problems.append(nameless(row, "carried_by", kinds, (found, wanted), choices))
    else:
        found, choices = f"nothing is said, so {lost}", (*sets.all, WALL)
        unsaid = refusal(row, "carried_by", found, wanted, f"type one of: {', '.join(choices)}")
        problems.append(replace(unsaid, severity=Severity.QUESTION))
    return WALL


def _assembly(row: Row, problems: list[Problem]) -> Assembly:
    """Return what a row says of an assembly by itself."""
    key = row.text("assembly")
    return Assembly(
        key=key,
        origin_m=(row.number("across", 0.0), row.number("up", 0.0), row.number("out", 0.0)),
        stands=row.text("stands", "off wall"),
        moves=row.text("moves", "fixed"),
        axis=row.text("axis", "out"),
        positions=_positions(row, problems),
        lift_unit=row.text("lift_unit") or key,
        wind=row.text("wind", "outline"),
        coefficient=row.number("coefficient"),
        coefficient_source=row.text("source"),
        mirrored=row.text("mirrored") == "yes",
        stage=row.text("stage"),
        stiffness_nm2=row.number("stiffness", math.nan),
        cell=row.cell("assembly"),
    )


def _lifted(assemblies: Iterable[Assembly]) -> list[Assembly]:
    """Return the assemblies with one spelling of each lift unit."""
    units: dict[str, str] = {}
    return [
        replace(one, lift_unit=units.setdefault(folded(one.lift_unit), one.lift_unit))
        for one in assemblies
    ]


def _repeated(row: Row, by_key: Mapping[str, Row], names: Names, problems: list[Problem]) -> str:
    """Return the assembly whose parts a row repeats; it must have parts of its own to repeat."""
    key, name = row.text("assembly"), _known(row, "same_as", names, problems)
    if not name or not by_key[name].has("same_as"):
        return name
    why = "itself" if name == key else f"{name}, which repeats {by_key[name].text('same_as')}"
    wanted = "an assembly that repeats no other"
    advice = "name the assembly whose parts are on the parts sheet"
    problems.append(refusal(row, "same_as", f"{key} cannot repeat {why}", wanted, advice))
    return ""


def _readable(
    assemblies: Sequence[Assembly], rows: Mapping[str, Row], problems: list[Problem]
) -> list[Assembly]:
    """Return the assemblies; movers on movers with too many positions only as they are drawn."""
    too_many: set[str] = set()
    for movers in _on_one_another(assemblies):
        count = math.prod(len(mover.positions) for mover in movers)
        if count <= MOST_TOGETHER:
            continue
        too_many.update(mover.key for mover in movers)
        most = max(movers, key=lambda mover: len(mover.positions))
        names = ", ".join(mover.key for mover in movers)
        found = f"{names} stand on one another and make {count} positions together"
        wanted = f"{MOST_TOGETHER} together at most"
        problems.append(refusal(rows[most.key], "positions", found, wanted, ASK_LESS))
    return [replace(a, positions=(0.0,)) if a.key in too_many else a for a in assemblies]


def _on_one_another(assemblies: Sequence[Assembly]) -> list[list[Assembly]]:
    """Return the movers, each with those that hang from it, by the one nearest the building."""
    by_key = {assembly.key: assembly for assembly in assemblies}
    groups: dict[str, list[Assembly]] = {}
    for mover in (assembly for assembly in assemblies if assembly.moves != "fixed"):
        nearest = link = mover
        while link.carrier:
            link = by_key[link.carrier]
            nearest = nearest if link.moves == "fixed" else link
        groups.setdefault(nearest.key, []).append(mover)
    return list(groups.values())


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
    if count > MOST_POSITIONS:
        found = f"{count} positions of one mover are more than anybody could read"
        problems.append(refusal(row, "positions", found, f"{MOST_POSITIONS} at most", ASK_LESS))
        return (0.0,)
    return tuple(float(p) for p in np.linspace(ends[0], ends[1], count, endpoint=not whole))


def _wrong_end(row: Row, field: str, text: str, wanted: str) -> Problem:
    example = {"angle": "an angle such as 90 deg", "length": "a length such as 300 mm"}[wanted]
    found = f"{text} is no end position for something that {row.text('moves')}"
    return refusal(row, field, found, example, "type both ends with their unit")
