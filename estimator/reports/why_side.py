"""Which wind is asked about: the side it comes from and the position of what moves."""

from collections.abc import Sequence
from difflib import get_close_matches
from typing import NamedTuple

from estimator.core.problems import RequestError
from estimator.reports import selection
from estimator.reports.document import Document

_SAME_DEG = 0.05
"""Directions no further apart are the same."""


class From(NamedTuple):
    """Which wind is asked about.

    Attributes:
        direction_deg: Side it comes from; that of the largest force when None.
        position: Of the movers; that of the largest force when blank.
    """

    direction_deg: float | None = None
    position: str = ""


THE_WORST = From()


class Found(NamedTuple):
    """What the document holds of one assembly in one position and direction.

    Attributes:
        loads: Every case of it, the governing one first.
        chain: How they came about.
        pressure: On it.
        outline: Of it in that direction; None where it was not kept.
        of: How many cases there are in all.
    """

    loads: Sequence[Document]
    chain: Document
    pressure: Document
    outline: Document | None
    of: int


def find(document: Document, name: str, loads: Sequence[Document], side: From) -> Found:
    """Return what is asked about, the governing case of it first.

    Args:
        document: The estimate document.
        name: Of the assembly.
        loads: All on it, one or more.
        side: Which wind.

    Raises:
        RequestError: That direction or position was not looked at.
    """
    of, wind = len(loads), document["wind"]
    if side.position:
        position = _position(side.position, list(dict.fromkeys(x["position"] for x in loads)))
        loads = [row for row in loads if row["position"] == position]
    if side.direction_deg is not None:
        direction_deg = _direction(side.direction_deg, {x["direction_deg"] for x in loads})
        loads = [row for row in loads if row["direction_deg"] == direction_deg]
    worst = max(loads, key=lambda row: selection.resultant(row["force_n"]))
    same = [row for row in loads if _where(row) == _where(worst)]
    chain = next(
        row
        for row in wind["chains"]
        if (row["assembly"], row["position"]) == (name, worst["position"])
    )
    outlines = {row["direction_deg"]: row for row in chain["outlines"]}
    return Found(
        [worst, *(row for row in same if row is not worst)],
        chain,
        wind["pressures"][chain["pressure"]],
        outlines.get(worst["direction_deg"]),
        of,
    )


def _where(load: Document) -> tuple[str, float]:
    return load["position"], load["direction_deg"]


def _position(typed: str, known: Sequence[str]) -> str:
    """Return the one position that is meant.

    Raises:
        RequestError: It is none of them, or could be several.
    """
    word = typed.casefold().strip()
    meant = [one for one in known if one.casefold() == word] or [
        one for one in known if word in one.casefold()
    ]
    if len(meant) == 1:
        return meant[0]
    near = meant[:3] or get_close_matches(typed, known, n=3, cutoff=0.0)
    what = "could be several positions" if meant else "is none of the positions"
    msg = f'position "{typed}" {what}; type one of: {", ".join(near)}'
    raise RequestError(msg)


def apart(one_deg: float, other_deg: float) -> float:
    """Return how far one direction lies from another, -180 to 180."""
    return (one_deg - other_deg + 180.0) % 360.0 - 180.0


def _direction(typed_deg: float, known_deg: set[float]) -> float:
    """Return the direction that is meant.

    Raises:
        RequestError: It was not looked at, or has no force.
    """
    near = sorted(known_deg, key=lambda one: abs(apart(one, typed_deg)))
    if abs(apart(near[0], typed_deg)) < _SAME_DEG:
        return near[0]
    told = " and ".join(f"{one:g}" for one in sorted(near[:2]))
    msg = (
        f"there is no wind force from {typed_deg:g} degrees: that side was not looked at, or"
        f" nothing is caught from it; the nearest are {told}"
    )
    raise RequestError(msg)
