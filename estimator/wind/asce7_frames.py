"""ASCE/SEI 7-16 and 7-22, 29.4: chimney-like shapes, open signs and lattice frames.

Read in public transcriptions of the Argentine regulation CIRSOC 102, which adopts these figures,
and for open signs in a permit file as well. A round member is told apart by D sqrt(q_z), its
diameter and the velocity pressure: 2.5 in feet and psf is 5.3 in metres and N/m2, never kN/m2.
"""

from collections.abc import Mapping
from math import sqrt
from types import MappingProxyType

import numpy as np

from estimator.wind.charts import require_positive
from estimator.wind.records import Coefficient

_SEEN = "as in public transcriptions of a regulation that adopts it (CIRSOC 102)"

ROUND_REGIME = 5.3
"""Figures 29.4-1 and 29.4-2: D sqrt(q_z) in m sqrt(N/m2), the diameter and the pressure as told."""
HEIGHTS = (1.0, 7.0, 25.0)
"""Figure 29.4-1: height over least width or diameter; linear between, level outside."""
CHIMNEYS: Mapping[str, tuple[float, float, float]] = MappingProxyType(
    {
        "square, face to the wind": (1.3, 1.4, 2.0),
        "square, edge to the wind": (1.0, 1.1, 1.5),
        "six or eight sides": (1.0, 1.2, 1.4),
        "round, moderately smooth": (0.5, 0.6, 0.7),
        "round, rough": (0.7, 0.8, 0.9),
        "round, very rough": (0.8, 1.0, 1.2),
    }
)
ROUND_BELOW = (0.7, 0.8, 1.2)
"""Figure 29.4-1: any round shape up to `ROUND_REGIME`."""
OPEN_SIGNS: Mapping[str, tuple[float, float, float]] = MappingProxyType(
    {"flat": (2.0, 1.8, 1.6), "round, slow": (1.2, 1.3, 1.5), "round, fast": (0.8, 0.9, 1.1)}
)
SOLIDITIES = (0.1, 0.3, 0.7)
"""Figure 29.4-2: where one column of `OPEN_SIGNS` ends and the next begins, and its last end."""
TOWERS: Mapping[str, tuple[float, float, float]] = MappingProxyType(
    {"square": (4.0, -5.9, 4.0), "triangle": (3.4, -4.7, 3.4)}
)
"""Figure 29.4-3: factors on solidity squared, solidity and 1."""


def round_regime(diameter_m: float, pressure_pa: float) -> float:
    """Return D sqrt(q_z) in m sqrt(N/m2).

    References:
        ASCE 7-16 and 7-22, Figures 29.4-1 and 29.4-2, whose SI edition takes q_z in N/m2.
    """
    require_positive(diameter_m=diameter_m, pressure_pa=pressure_pa)
    return diameter_m * sqrt(pressure_pa)


def chimney(shape: str, slenderness: float, regime: float = 0.0) -> Coefficient:
    """Return C_f of a chimney, a tank or a post of one section, on height times width.

    Args:
        shape: One of `CHIMNEYS`.
        slenderness: Height over least width or diameter.
        regime: `round_regime` of a round one.

    References:
        ASCE 7-16 and 7-22, 29.4, Figure 29.4-1.
    """
    if shape not in CHIMNEYS:
        msg = f"a shape of Figure 29.4-1 is one of {'; '.join(CHIMNEYS)}, got {shape!r}"
        raise ValueError(msg)
    require_positive(slenderness=slenderness)
    slow = shape.startswith("round") and regime <= ROUND_REGIME
    row = ROUND_BELOW if slow else CHIMNEYS[shape]
    return Coefficient(
        float(np.interp(slenderness, HEIGHTS, row)),
        f"{shape}, {slenderness:.3g} times as high as wide" + (", slow flow" if slow else ""),
        f"ASCE 7, 29.4, Figure 29.4-1, {_SEEN}",
        confirmed=True,
    )


def open_sign(solidity: float, member: str = "flat", regime: float = 0.0) -> Coefficient:
    """Return C_f of an open sign or a lattice frame in one plane, on its closed area.

    Args:
        solidity: Closed part of its whole area, up to 0.7.
        member: flat or round.
        regime: `round_regime` of round members.

    References:
        ASCE 7-16 and 7-22, 29.4, Figure 29.4-2.
    """
    if not 0 < solidity <= SOLIDITIES[-1]:
        msg = f"an open sign is closed by more than 0 and at most 0.7 of its area, got {solidity}"
        raise ValueError(msg)
    if member not in {"flat", "round"}:
        msg = f"members are flat or round, got {member!r}"
        raise ValueError(msg)
    if member == "round":
        member = "round, slow" if regime <= ROUND_REGIME else "round, fast"
    column = int(np.searchsorted(SOLIDITIES[:-1], solidity, side="right"))
    return Coefficient(
        OPEN_SIGNS[member][column],
        f"open sign, {solidity:.0%} closed, {member} members",
        f"ASCE 7, 29.4, Figure 29.4-2, {_SEEN} and in a permit file",
        confirmed=True,
    )


def lattice_tower(plan: str, solidity: float) -> Coefficient:
    """Return C_f of a lattice tower of flat members, face to the wind, on one face's closed area.

    References:
        ASCE 7-16 and 7-22, 29.4, Figure 29.4-3.
    """
    if plan not in TOWERS:
        msg = f"a lattice tower is one of {', '.join(TOWERS)} in plan, got {plan!r}"
        raise ValueError(msg)
    return Coefficient(
        float(np.polyval(TOWERS[plan], _closed(solidity))),
        f"lattice tower, {plan} in plan, {solidity:.0%} closed",
        f"ASCE 7, 29.4, Figure 29.4-3, {_SEEN}",
        confirmed=True,
    )


def round_members_factor(solidity: float) -> float:
    """Return by what round members lower the force on a lattice tower.

    References:
        ASCE 7-16 and 7-22, Figure 29.4-3, note 3: 0.51 solidity^2 + 0.57, at most 1.
    """
    return min(0.51 * _closed(solidity) ** 2 + 0.57, 1.0)


def diagonal_factor(solidity: float) -> float:
    """Return by what wind along the diagonal raises the force on a square lattice tower.

    References:
        ASCE 7-16 and 7-22, Figure 29.4-3, note 4: 1 + 0.75 solidity, at most 1.2.
    """
    return min(1 + 0.75 * _closed(solidity), 1.2)


def _closed(solidity: float) -> float:
    if not 0 < solidity < 1:
        msg = f"a lattice is closed by more than 0 and less than 1 of its area, got {solidity}"
        raise ValueError(msg)
    return solidity
