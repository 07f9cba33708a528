"""What was made over what was estimated: how many, their mean, how far apart."""

import math
import statistics
from collections.abc import Sequence
from typing import NamedTuple

FEWEST_FOR_DEVIATION = 3
"""A standard deviation of fewer says nothing."""


class Tally(NamedTuple):
    """Some ratios summed up.

    Attributes:
        number: How many.
        mean: Arithmetic.
        low: The least.
        high: The greatest.
        deviation: Sample standard deviation, NaN of fewer than three.
    """

    number: int
    mean: float
    low: float
    high: float
    deviation: float


def tally(ratios: Sequence[float]) -> Tally:
    """Return one or more ratios summed up."""
    many = len(ratios) >= FEWEST_FOR_DEVIATION
    return Tally(
        number=len(ratios),
        mean=statistics.fmean(ratios),
        low=min(ratios),
        high=max(ratios),
        deviation=statistics.stdev(ratios) if many else math.nan,
    )
