"""The sum behind one figure, for a terminal: from the estimate document alone."""

import textwrap
from collections.abc import Iterable, Sequence
from difflib import get_close_matches

from estimator.core.problems import RequestError
from estimator.reports import figures, selection, sentences, why_arm, why_mass, why_wind
from estimator.reports.document import Document
from estimator.reports.why_side import THE_WORST, From

NEIGHBOURS = 3
"""Near names that are told."""


def why_text(
    document: Document, name: str, figure: str, side: From = THE_WORST, width: int = 88
) -> str:
    """Return how a figure of one part or assembly came about.

    Args:
        document: The estimate document.
        name: A part or an assembly; a bracket for its arm.
        figure: wind, mass or arm.
        side: Which wind; the governing one unless it says otherwise.
        width: Of the terminal, in letters.

    Raises:
        RequestError: There is no such part, assembly, bracket, direction or position.
    """
    with figures.us_beside(wanted=sentences.in_inches(document)):
        return _why_text(document, (name, figure), side, width)


def _why_text(document: Document, asked: tuple[str, str], side: From, width: int) -> str:
    name, figure = asked
    if figure == "arm":
        return _printed(document, why_arm.bracket(document, name), width)
    parts = [row for row in document["parts"] if _folded(row["part"]) == _folded(name)]
    assemblies = {row["assembly"]: row for row in document["assemblies"]}
    spelled = [key for key in assemblies if _folded(key) == _folded(name)]
    if not parts and not spelled:
        known = [*(row["part"] for row in document["parts"]), *assemblies]
        raise RequestError(_refused(document, name) or _unknown(name, known))
    if figure == "mass":
        told = why_mass.part(document, parts) if parts else why_mass.assembly(document, spelled[0])
    elif parts:
        owners = selection.grouped(parts, lambda row: row["assembly"])
        told = (line for key, rows in owners.items()
                for line in why_wind.part(document, key, rows[0]["part"], side))  # fmt: skip
    else:
        told = why_wind.assembly(document, spelled[0], side)
    return _printed(document, told, width)


def _printed(document: Document, told: Iterable[str], width: int) -> str:
    """Return what is told between the banner and who must sign."""
    banner = sentences.banner(document)
    lines = [*([banner, ""] if banner else []), *told, "", sentences.SIGN_OFF]
    return "\n".join(_wrapped(lines, width))


def _folded(name: str) -> str:
    return " ".join(name.casefold().split())


def _refused(document: Document, name: str) -> str:
    """Return that the row of a part was refused, with its cells and why; blank if it was not."""
    problems = [
        row
        for row in document["problems"]
        if row["severity"] == "refused" and row["part"] and _folded(row["part"]) == _folded(name)
    ]
    if not problems:
        return ""
    why = "; ".join(f"{row['cell'] or row['sheet']}: {row['found']}" for row in problems)
    return f'the row of "{problems[0]["part"]}" was refused, so there is no figure of it: {why}'


def _unknown(name: str, known: Sequence[str]) -> str:
    """Return that nothing goes by a name, with the names that are spelled most like it."""
    spelled = {_folded(one): one for one in known}
    near = get_close_matches(_folded(name), spelled, n=NEIGHBOURS, cutoff=0.0)
    choices = ", ".join(spelled[one] for one in near) or "none there yet"
    return f'there is no part or assembly "{name}"; the nearest names are: {choices}'


def _wrapped(lines: Iterable[str], width: int) -> Iterable[str]:
    """Yield the lines, what is too long going on in the next, set in a little further."""
    for told in lines:
        # What was typed may hold anything, and a terminal acts on more than letters.
        line = "".join(letter if letter.isprintable() else " " for letter in figures.plain(told))
        if len(line) <= width:
            yield line
            continue
        lead = " " * (len(line) - len(line.lstrip()))
        yield textwrap.fill(
            line.strip(), width, initial_indent=lead, subsequent_indent=f"{lead}    "
        )
