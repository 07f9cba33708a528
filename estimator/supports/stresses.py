"""Stresses in the section of an arm or a stay, elastic, and their ratio to the yield.

Six-number arrays are (across, up, out) of force, then of moment. The arm runs along out, so the
force along out stretches it and the moment about out twists it.
"""

from typing import NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Numbers = TypeVar("Numbers", float, NDArray[np.float64])

NO_TWIST = 1e-3
"""A moment about the arm below this part of what bends it counts as none: rounding, not load."""
WARPING = (
    "an open section that is twisted warps, and the stress of that is not worked out here, so "
    "there is no stress ratio; the other stresses are. Take a hollow section, or have the engineer "
    "look at it"
)


class Moduli(NamedTuple):
    """What the stresses in a section go by.

    Attributes:
        area_m2: Area.
        bends_m3: Section modulus for bending up and down, which is about across.
        sways_m3: Section modulus for bending sideways, which is about up.
        shear_up_m2: Area that a force up or down is divided by for its shear stress.
        shear_across_m2: The same for a force across.
        twists_m3: Torsion modulus; NaN for an open section.
        is_round: Round bar or tube: every way across it is alike.
        is_hollow: Closed; its sides carry the shear of one direction each.
    """

    area_m2: float
    bends_m3: float
    sways_m3: float
    shear_up_m2: float
    shear_across_m2: float
    twists_m3: float
    is_round: bool = False
    is_hollow: bool = False


class Stresses(NamedTuple):
    """Largest stress of each kind in a section, all (...) float, none below zero.

    Attributes:
        axial_pa: From the force along the arm.
        bending_pa: From both moments that bend it.
        shear_pa: From the forces across it.
        torsion_pa: From the moment that twists it; NaN for an open section that is twisted.
    """

    axial_pa: Floats
    bending_pa: Floats
    shear_pa: Floats
    torsion_pa: Floats

    @property
    def normal_pa(self) -> Floats:
        """Return the stress along the arm."""
        return self.axial_pa + self.bending_pa

    @property
    def tangential_pa(self) -> Floats:
        """Return the stress across it."""
        return self.shear_pa + self.torsion_pa

    @property
    def von_mises_pa(self) -> Floats:
        """Return the one stress that does as much as all of them.

        References:
            EN 1993-1-1, 6.2.1(5), expression (6.1), for one stress along the arm.
        """
        return np.asarray(np.sqrt(self.normal_pa**2 + 3 * self.tangential_pa**2))


def stresses(action: Floats, moduli: Moduli) -> Stresses:
    """Return the largest stresses in a section under what it passes on.

    The largest of each kind are taken to meet at one point, which is never less than what is
    there. In a hollow section the sides that carry one shear force carry little of the other, so
    the larger of the two counts.

    Args:
        action: (..., 6) float, about the axis of the arm at the section.
        moduli: Of the section.

    References:
        EN 1993-1-1, 6.2.1(5): elastic. Beam theory: N / A, M / W, V / A_v, T / C_t.
    """
    across, up, out = (np.abs(action[..., i]) for i in range(3))
    bends, sways = (
        np.abs(action[..., 3]) / moduli.bends_m3,
        np.abs(action[..., 4]) / moduli.sways_m3,
    )
    sheared = across / moduli.shear_across_m2, up / moduli.shear_up_m2
    return Stresses(
        out / moduli.area_m2,
        np.hypot(bends, sways) if moduli.is_round else bends + sways,
        np.maximum(*sheared) if moduli.is_hollow and not moduli.is_round else np.hypot(*sheared),
        np.where(twisted(action), np.abs(action[..., 5]), 0.0) / moduli.twists_m3
        if moduli.twists_m3 > 0
        else np.where(twisted(action), np.nan, 0.0),
    )


def twisted(action: Floats) -> Flags:
    """Return whether an action twists the arm, (...) bool; see `NO_TWIST`.

    Args:
        action: (..., 6) float.
    """
    bending = np.hypot(action[..., 3], action[..., 4])
    return np.asarray(np.abs(action[..., 5]) > NO_TWIST * bending)


def stress_ratio(von_mises_pa: Numbers, yield_pa: float, gamma_m0: float) -> Numbers:
    """Return a stress over the yield, (...) float; NaN where a stress is not known.

    Args:
        von_mises_pa: As of `Stresses`.
        yield_pa: Of its metal.
        gamma_m0: Partial factor that the yield is divided by.

    References:
        EN 1993-1-1, 6.2.1(5): the square root of expression (6.1).
    """
    return von_mises_pa * gamma_m0 / yield_pa


def euler_load(e_pa: float, second_m4: float, length_m: float) -> float:
    """Return the push at which a straight, slender, pin-ended bar would bow out without end.

    For information: a real bar, never quite straight, bows out below it.

    References:
        L. Euler: pi^2 E I / L^2. Textbooks of strength of materials.
    """
    return float(np.pi**2 * e_pa * second_m4 / length_m**2)
