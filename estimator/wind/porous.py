"""Panels with openings: pierced, woven or open frames, each rule by its name, and which is used.

All on the whole area, openings and all. The rules disagree: a mesh of round wires lets more through
than a sheet with sharp-edged holes, and nothing on a parts list tells the two apart. None is ever
given more than the solid panel, though a nearly closed screen of fibres was measured to feel a
little more (Marchand and others, Journal of Fluid Mechanics, 2024).
"""

from collections.abc import Callable, Mapping
from itertools import pairwise
from types import MappingProxyType
from typing import NamedTuple

from estimator.wind.asce7_frames import OPEN_SIGNS, SOLIDITIES
from estimator.wind.asce7_signs import SOLID_FROM, openings_factor
from estimator.wind.records import Coefficient

LATTICE = 1.6
"""EN 1991-1-4:2005, 7.11, Figure 7.33: c_f,0 of flat members on the closed area. Read there at a
solidity of 0.31 in one published example; that it holds for others is from memory."""
_FULL = 1.0


class _Rule(NamedTuple):
    """One rule for panels with openings.

    Attributes:
        name: The rule, in words.
        source: Document, clause, how it was seen.
        confirmed: Read in a public copy or worked example.
        value: On the whole area, from the coefficient without openings and the closed part.
    """

    name: str
    source: str
    confirmed: bool
    value: Callable[[float, float], float]


def _asce(solid: float, solidity: float) -> float:
    """Return what ASCE 7 gives on the whole area: Figure 29.3-1, or 29.4-2 from 30 % of openings.

    Never less than a more open panel: its columns step down as the panel closes, and the wind does
    not.
    """
    more_open = _open(min(solidity, SOLID_FROM))
    if solidity > SOLID_FROM:
        return min(max(solid * openings_factor(solidity), more_open), solid)
    return min(more_open, solid)


def _open(solidity: float) -> float:
    """Return the largest that Figure 29.4-2 gives on the whole area up to a solidity."""
    bounds = pairwise((0.0, *SOLIDITIES))
    return max(
        column * min(solidity, end)
        for column, (start, end) in zip(OPEN_SIGNS["flat"], bounds, strict=True)
        if solidity >= start
    )


RULES: Mapping[str, _Rule] = MappingProxyType(
    {
        "round wires": _Rule(
            "as a mesh of round wires: what is closed of the force on the solid panel",
            "Richards and Robinson, J. Wind Eng. Ind. Aerodyn. 83 (1999) 455-465, abstract",
            confirmed=True,
            value=lambda solid, solidity: solidity * solid,
        ),
        "openings": _Rule(
            "as a sign with openings, or an open sign of flat members from 30 % of them",
            "ASCE 7, Figures 29.3-1 note 1 and 29.4-2, as in public transcriptions of a regulation "
            "that adopts them (CIRSOC 102)",
            confirmed=True,
            value=_asce,
        ),
        "lattice": _Rule(
            "as a lattice of flat members, no end effect",
            "EN 1991-1-4:2005, 7.11, Figure 7.33, from memory but for one published example",
            confirmed=False,
            value=lambda solid, solidity: min(LATTICE * solidity, solid),
        ),
    }
)
"""The rules by short names. An open panel is never given more than the solid one."""
_CHOICE = ("round wires", "openings")
"""Those of which the larger is used."""


def panel(solid: Coefficient, solidity: float) -> Coefficient:
    """Return the coefficient of a panel with openings, on its whole area.

    The larger of the two rules that were read in print: the one holds for round wires, the other
    for flat members and holes.

    Args:
        solid: Of the same panel without openings.
        solidity: Closed part of its area.
    """
    require_solidity(solidity)
    if solidity == _FULL:
        return solid
    found = {name: rule.value(solid.value, solidity) for name, rule in RULES.items()}
    used = max(_CHOICE, key=found.__getitem__)
    rule = RULES[used]
    return Coefficient(
        found[used],
        f"{solidity:.0%} closed, {rule.name}; of: {solid.rule}",
        f"{rule.source}; the larger of what it and {_named(used)} give, on {solid.source}",
        solid.confirmed and rule.confirmed,
        others=(
            *((RULES[name].name, value) for name, value in found.items() if name != used),
            ("the same without openings", solid.value),
        ),
    )


def _named(used: str) -> str:
    (other,) = set(_CHOICE) - {used}
    return f"the rule for {other}"


def require_solidity(solidity: float) -> None:
    """Raise a ``ValueError`` unless some of an area is closed, and at most all of it."""
    if not 0 < solidity <= _FULL:
        msg = f"a panel is closed by more than 0 and at most 1 of its area, got {solidity}"
        raise ValueError(msg)
