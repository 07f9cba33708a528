"""How sure sums of masses are, when what shares a cause errs together.

The model: each mass is its likely value times a product of factors, one for each cause it varies
with. A factor lies one time in twenty below ``1 - low`` and one in twenty above ``1 + high``, and
is the same for every mass that shares its cause. The sum is taken to first order in the factors,
and ends of different causes add as squares, as they would if each side of each factor were half a
normal distribution. Against draws from that very model: for factors alike on both sides the ends
of a plain sum are exact; of a product of two factors of 20 % each both ends come out too low, by
1.2 % of the mass at the low end and 1.3 % at the high one, and of two of 10 % by 0.3 %.

References:
    Law of propagation of uncertainty: JCGM 100:2008 (GUM), 5.1.2 and 5.2.2, with correlation 1
    within a cause and 0 between causes. That 5 % and 95 % points add as standard deviations do
    holds for normal distributions only: JCGM 100:2008, G.1 and G.2.
"""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Indices = npt.NDArray[np.intp]


class Offs(NamedTuple):
    """How far masses lie off: an entry for each mass and each cause it varies with, each (k,).

    Attributes:
        row: The mass.
        cause: Number of the cause.
        low: Fraction it lies below the likely value when its cause is at its low end. Below
            nought where it then lies above, as the rest does of what was weighed together.
        high: Fraction above, when its cause is at its high end.
    """

    row: Indices
    cause: Indices
    low: Floats
    high: Floats

    def joined(self, other: "Offs") -> "Offs":
        """Return the entries of both."""
        return Offs(*(np.concatenate(pair) for pair in zip(self, other, strict=True)))


class Effects(NamedTuple):
    """What causes do to sums: an entry for each group and each cause in it, each (p,).

    Attributes:
        group: The group.
        cause: Number of the cause.
        down_kg: How much lighter the group is one time in twenty for this cause alone.
        up_kg: How much heavier.
    """

    group: Indices
    cause: Indices
    down_kg: Floats
    up_kg: Floats


class Band(NamedTuple):
    """How sure the masses of groups are, each (g,) kg.

    Attributes:
        low_kg: One time in twenty it is less.
        high_kg: One in twenty it is more.
        straight_low_kg: Every cause at its worst the same way at once.
        straight_high_kg: Likewise upwards.
    """

    low_kg: Floats
    high_kg: Floats
    straight_low_kg: Floats
    straight_high_kg: Floats


def effects(mass_kg: Floats, group: Indices, offs: Offs) -> Effects:
    """Return what each cause does to the mass of each group.

    Args:
        mass_kg: (m,) likely masses.
        group: (m,) the group each counts to.
        offs: How far they lie off.
    """
    causes = int(offs.cause.max(initial=-1)) + 1
    pairs, pair = np.unique(group[offs.row] * causes + offs.cause, return_inverse=True)
    at_low, at_high = (
        np.bincount(pair, mass_kg[offs.row] * off, len(pairs)) for off in (offs.low, offs.high)
    )
    nought = np.zeros(len(pairs))
    # Where much of a group lies above when its cause is low, the high end makes it light.
    down_kg: Floats = np.maximum.reduce([at_low, -at_high, nought])
    up_kg: Floats = np.maximum.reduce([at_high, -at_low, nought])
    return Effects(*(np.divmod(pairs, causes) if causes else (pairs, pairs)), down_kg, up_kg)


def band(mass_kg: Floats, group: Indices, groups: int, offs: Offs) -> Band:
    """Return low and high mass of groups.

    Args:
        mass_kg: (m,) likely masses.
        group: (m,) the group each counts to.
        groups: How many groups there are.
        offs: How far the masses lie off.
    """
    likely_kg = np.bincount(group, mass_kg, groups).astype(float)
    found = effects(mass_kg, group, offs)
    (low_kg, straight_low_kg), (high_kg, straight_high_kg) = (
        (np.sqrt(np.bincount(found.group, by_cause_kg**2, groups)),
         np.bincount(found.group, by_cause_kg, groups))
        for by_cause_kg in (found.down_kg, found.up_kg)
    )  # fmt: skip
    return Band(
        likely_kg - low_kg, likely_kg + high_kg,
        likely_kg - straight_low_kg, likely_kg + straight_high_kg,
    )  # fmt: skip


def left_over(found: Effects, at: int, share: float = 1.0) -> tuple[float, float]:
    """Return how far a sum still lies off, down and up [kg], were a cause known exactly.

    Args:
        found: What each cause does to one group.
        at: The entry of the cause.
        share: Share of what it does that would be known, where only some masses are looked at.
    """
    ends = []
    for off_kg in (found.down_kg, found.up_kg):
        left_kg = off_kg.copy()
        left_kg[at] *= 1.0 - share
        ends.append(float(np.sqrt((left_kg**2).sum())))
    return ends[0], ends[1]
