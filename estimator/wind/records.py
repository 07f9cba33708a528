"""What a wind rule hands back: steps to print, coefficients, loads. No rule lives here."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
Numbers = float | FloatArray
"""One number or an array of them; functions of ``Numbers`` follow numpy's broadcasting."""
Vector = tuple[float, float, float]
"""(across, up, out)."""


class Step(NamedTuple):
    """One printed line of the way to a pressure.

    Attributes:
        name: What the quantity is, in words.
        symbol: The standard's symbol for it.
        value: SI.
        unit: Unit of the value; empty for a ratio.
        clause: Where the standard says so.
        confirmed: Read in a public copy or worked example; False when from memory.
    """

    name: str
    symbol: str
    value: float
    unit: str
    clause: str
    confirmed: bool


class SitePressure(NamedTuple):
    """A pressure and the way to it.

    Attributes:
        pressure_pa: Peak pressure at the height asked for.
        steps: Every quantity in the order it was worked out.
        notes: Sentences that must be read with the number.
    """

    pressure_pa: float
    steps: tuple[Step, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Coefficient:
    """A force or pressure coefficient and the rule it comes from.

    Attributes:
        value: On the area the rule names; zero or more, the sense is the load's.
        rule: The rule that was applied, in words.
        source: Document, clause, and how it was seen.
        confirmed: Read in a public copy or worked example; False when from memory or judgement.
        others: What other defensible rules give for the same body: (rule, value).
    """

    value: float
    rule: str
    source: str
    confirmed: bool
    others: tuple[tuple[str, float], ...] = ()

    def __post_init__(self) -> None:
        """Refuse a value that is not a number of zero or more."""
        if not self.value >= 0:
            msg = f"a coefficient is zero or more, got {self.value} ({self.rule})"
            raise ValueError(msg)


class Placed(NamedTuple):
    """The force on an outline in one case: how large, and how far off the middle of the outline.

    Attributes:
        coefficient: On the outline.
        right_m: Level, to the right of one who looks along the wind.
        up_m: Upwards.
    """

    coefficient: float
    right_m: float
    up_m: float
