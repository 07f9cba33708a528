"""Scale readings in the place of sums: what stood on the scale together comes to the reading."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from estimator.masses.bands import Floats, Indices, Offs


class OnScale(NamedTuple):
    """One reading.

    Attributes:
        rows: (r,) masses that stood on the scale together.
        mass_kg: What it showed.
        cause: Number of the scale among the causes: readings of one scale err together.
        off: Fraction the scale lies off, one time in twenty on each side.
    """

    rows: Indices
    mass_kg: float
    cause: int
    off: float


class Settled(NamedTuple):
    """Masses after the readings.

    Attributes:
        mass_kg: (m,).
        offs: How far they lie off.
        factors: Of each reading, what the masses that nothing else had fixed were multiplied by:
            made over estimated.
    """

    mass_kg: Floats
    offs: Offs
    factors: tuple[float, ...]


def settle(mass_kg: Floats, offs: Offs, readings: Sequence[OnScale]) -> Settled:
    """Return masses that come to the readings.

    What an earlier reading fixed stays as it is; the rest of what stood on the scale takes the
    remainder, every mass of it times one factor. To first order the masses then lie off by what
    their own causes do to them beyond what they do to the whole rest, and by the scale: what all
    of the rest shares falls out, and the sum lies off by the scale alone.

    Args:
        mass_kg: (m,) estimated.
        offs: How far the estimates lie off.
        readings: The smallest things first, so that a part goes before the assembly it is in.

    Raises:
        ValueError: A reading leaves nothing for the rest, or there is no rest with a mass.
    """
    masses_kg, settled = mass_kg.copy(), np.zeros(len(mass_kg), dtype=bool)
    factors = []
    for reading in readings:
        fixed, rest = reading.rows[settled[reading.rows]], reading.rows[~settled[reading.rows]]
        rest_kg = float(masses_kg[rest].sum())
        remainder_kg = reading.mass_kg - float(masses_kg[fixed].sum())
        if not (rest_kg > 0.0 and remainder_kg > 0.0):
            msg = f"{remainder_kg:g} kg is left for a rest of {rest_kg:g} kg; both must be above 0"
            raise ValueError(msg)
        sums_kg = [_by_cause(masses_kg, offs, rows) for rows in (rest, fixed)]
        factors.append(remainder_kg / rest_kg)
        masses_kg[rest] *= factors[-1]
        settled[rest] = True
        tied = sums_kg[0] / rest_kg + sums_kg[1] / remainder_kg
        offs = offs.joined(_tied(rest, -tied)).joined(_scale(rest, reading, remainder_kg))
    return Settled(masses_kg, offs, tuple(factors))


def _by_cause(mass_kg: Floats, offs: Offs, rows: Indices) -> Floats:
    """Return how much some masses together lie off, low and high, by cause: (2, causes) kg."""
    chosen = np.zeros(len(mass_kg), dtype=bool)
    chosen[rows] = True
    at = chosen[offs.row]
    causes = int(offs.cause.max(initial=-1)) + 1
    return np.array(
        [
            np.bincount(offs.cause[at], (mass_kg[offs.row] * off)[at], causes)
            for off in (offs.low, offs.high)
        ]
    )


def _tied(rows: Indices, shift: Floats) -> Offs:
    """Return the entries that shift every one of some masses alike by cause, (2, causes)."""
    causes = np.flatnonzero(shift.any(axis=0))
    low, high = (np.tile(end[causes], len(rows)) for end in shift)
    return Offs(np.repeat(rows, len(causes)), np.tile(causes, len(rows)), low, high)


def _scale(rows: Indices, reading: OnScale, remainder_kg: float) -> Offs:
    """Return the entries of the scale: all that it lies off is in the remainder."""
    off = np.full(len(rows), reading.off * reading.mass_kg / remainder_kg)
    return Offs(rows, np.full(len(rows), reading.cause, dtype=np.intp), off, off)
