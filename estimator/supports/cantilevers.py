"""Cantilevers that shake: the lowest natural frequency of a straight bar held at one end.

The held end is taken as built in: nothing gives there. A real foot gives, so a real bar is slower.
"""

from math import cos, cosh, pi, sin, sinh, sqrt

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

FIRST_ROOT = 1.8751040687
"""First root of cosh(x) cos(x) = -1, which sets the first bending mode of an even cantilever."""
OWN_SHARE = 3.0 / FIRST_ROOT**4
"""Share of its own mass, 0.243, that an even bar shakes with as if it sat at its tip."""
LIGHT = 1e-6
"""A bar that weighs less than this part of what is at its end has no weight worth a root."""
ROUNDS = 12
"""Of the iteration: each takes away all but a fortieth or so of what the second mode puts in."""


def even_frequency(
    stiffness_nm2: float, mass_kg_m: float, length_m: float, tip_kg: float = 0.0
) -> float:
    """Return the lowest natural frequency in Hz of an even bar, with a mass at its free end.

    Exact for a bar alone and for a mass on a bar without weight; in between a trifle too low, never
    too high.

    Args:
        stiffness_nm2: E I in the direction it moves.
        mass_kg_m: Of the bar with all that is spread along it.
        length_m: Held end to tip.
        tip_kg: At the tip, as a point.

    Raises:
        ValueError: If stiffness, length, or both masses together are not above zero.

    References:
        Bar alone: 1.8751^2 / (2 pi) sqrt(E I / (m L^4)), as in EN 1991-1-4 Annex F and textbooks of
        vibration. With a tip mass: Dunkerley's rule, 1/n^2 = 1/n_bar^2 + 1/n_tip^2, textbooks.
    """
    shaken_kg = tip_kg + OWN_SHARE * mass_kg_m * length_m
    _require(stiffness_nm2, length_m, shaken_kg, mass_kg_m, tip_kg)
    return sqrt(3 * stiffness_nm2 / (shaken_kg * length_m**3)) / (2 * pi)


def even_root(tip_over_own: float, mode: int = 1) -> float:
    """Return the root b of the frequency equation of an even bar with a mass at its free end.

    1 + cos b cosh b + mu b (cos b sinh b - sin b cosh b) = 0, mu the mass at the end over the
    bar's own; its frequency is b^2 / (2 pi) sqrt(E I / (m L^4)).

    Args:
        tip_over_own: mu, none or more.
        mode: Which root, from 1.

    References:
        Euler-Bernoulli beam with a point mass; textbooks of vibration.
    """
    from scipy.optimize import brentq  # noqa: PLC0415 - slow to load

    def equation(b: float) -> float:
        """Return the frequency equation, over cosh b to keep it small."""
        turn = cos(b) * sinh(b) - sin(b) * cosh(b)
        return (1 + cos(b) * cosh(b) + tip_over_own * b * turn) / cosh(b)

    # A heavier end slows each mode, but never below the next lower one of a bar held there.
    low, high = (mode - 1) * pi, mode * pi
    return float(brentq(equation, max(low, 1e-9), high, xtol=1e-14))


def exact_frequency(
    stiffness_nm2: float, mass_kg_m: float, length_m: float, tip_kg: float = 0.0
) -> float:
    """Return the lowest natural frequency in Hz of an even bar with a mass at its free end.

    Arguments and errors as `even_frequency`, of which this is the check: here the shape of the
    bar is exact.

    References:
        `even_root`.
    """
    _require(stiffness_nm2, length_m, tip_kg + mass_kg_m * length_m, mass_kg_m, tip_kg)
    if mass_kg_m * length_m < LIGHT * tip_kg:
        return even_frequency(stiffness_nm2, mass_kg_m, length_m, tip_kg)
    root = even_root(tip_kg / (mass_kg_m * length_m))
    return root**2 * sqrt(stiffness_nm2 / (mass_kg_m * length_m**4)) / (2 * pi)


def tapered_frequency(
    stiffness_nm2: Floats, mass_kg_m: Floats, length_m: float, tip_kg: float = 0.0
) -> float:
    """Return the lowest natural frequency in Hz of a bar that changes along its length.

    Args:
        stiffness_nm2: (n,) E I at even steps from the held end to the tip; it may end in nothing.
        mass_kg_m: (n,) mass per metre there.
        length_m: Held end to tip.
        tip_kg: At the tip, as a point.

    Raises:
        ValueError: If the held end has no stiffness, or there is no length or no mass.

    References:
        Stodola's iteration: the bar is bent by the inertia of the shape it bent to before, until
        the shape stays. Textbooks of vibration.
    """
    step_m = length_m / (len(stiffness_nm2) - 1)
    whole_kg = tip_kg + float(np.trapezoid(mass_kg_m, dx=step_m))
    _require(float(stiffness_nm2[0]), length_m, whole_kg, float(mass_kg_m.min()), tip_kg)
    shape, square = np.linspace(0.0, 1.0, len(mass_kg_m)) ** 2, 0.0
    for _ in range(ROUNDS):
        beyond = tip_kg * shape[-1] + _from_tip(mass_kg_m * shape, step_m)
        arm = _from_tip(beyond, step_m)
        # At a point that runs out to nothing the arm vanishes faster than the stiffness.
        bend = np.divide(arm, stiffness_nm2, out=np.zeros_like(arm), where=stiffness_nm2 > 0)
        sag = _from_root(_from_root(bend, step_m), step_m)
        square, shape = 1.0 / float(sag[-1]), sag / sag[-1]
    return sqrt(square) / (2 * pi)


def _from_root(values: Floats, step_m: float) -> Floats:
    """Return the running integral from the held end, (n,)."""
    steps = (values[1:] + values[:-1]) / 2 * step_m
    return np.concatenate((np.zeros(1), np.cumsum(steps)))


def _from_tip(values: Floats, step_m: float) -> Floats:
    """Return the running integral from the tip back, (n,)."""
    return _from_root(values[::-1], step_m)[::-1]


def _require(
    stiffness_nm2: float, length_m: float, shaken_kg: float, mass_kg_m: float, tip_kg: float
) -> None:
    """Refuse what cannot shake."""
    if not (stiffness_nm2 > 0 and length_m > 0 and shaken_kg > 0):
        msg = (
            f"a cantilever needs stiffness, length and mass above zero, got {stiffness_nm2=}, "
            f"{length_m=}, {shaken_kg=}"
        )
        raise ValueError(msg)
    if not (mass_kg_m >= 0 and tip_kg >= 0):
        msg = f"a mass is zero or more, got {mass_kg_m=}, {tip_kg=}"
        raise ValueError(msg)
