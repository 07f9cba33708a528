"""Vanes: what turns freely about an upright spindle and points by the wind.

A vane settles with the side of the larger area moment about its spindle behind it, downwind. Its
balance of mass is another matter: on an upright spindle gravity does not turn it, but a heavy side
swings down as soon as the spindle is out of plumb, and bends it at any time.
"""

from typing import NamedTuple

ALIKE = 0.01
"""Two moments this alike, as a share of both together, do not tell which way it settles."""


class Vane(NamedTuple):
    """A vane about its spindle, seen from its broad side.

    Attributes:
        tip_m3: Area moment about the spindle on the side of its furthest point.
        other_m3: On the other side.
        tip_kgm: Mass moment about the spindle, above zero where the side of the tip is heavier.
        aside_kgm: Mass moment square to that.
        mass_m_kg: Sum of mass times reach: what it could be out of balance at most, kg m.
    """

    tip_m3: float
    other_m3: float
    tip_kgm: float
    aside_kgm: float
    mass_m_kg: float

    @property
    def settles(self) -> str:
        """Return the side that comes to lie downwind: "tip", "other", or blank for neither."""
        both_m3 = self.tip_m3 + self.other_m3
        if abs(self.tip_m3 - self.other_m3) <= ALIKE * both_m3:
            return ""
        return "tip" if self.tip_m3 > self.other_m3 else "other"

    @property
    def balanced(self) -> bool:
        """Return whether its mass moment about the spindle is nothing to speak of."""
        out_kgm = (self.tip_kgm**2 + self.aside_kgm**2) ** 0.5
        return bool(out_kgm <= ALIKE * self.mass_m_kg)
