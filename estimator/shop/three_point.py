"""Three-point estimates: low, likely and high of an hour or a price, and how they add up.

The triangular distribution runs from low to high and peaks at likely.
"""

import math
from collections.abc import Iterable
from typing import NamedTuple


class ThreePoint(NamedTuple):
    """Lowest, likeliest and highest value of one thing, in any one unit."""

    low: float
    likely: float
    high: float

    @classmethod
    def checked(cls, low: float, likely: float, high: float) -> "ThreePoint":
        """Return the three values.

        Raises:
            ValueError: They do not rise.
        """
        if not low <= likely <= high:
            msg = f"low, likely and high must rise, got {low}, {likely}, {high}"
            raise ValueError(msg)
        return cls(low, likely, high)


class Estimate(NamedTuple):
    """A three-point value with its mean, which is what such values add up by."""

    low: float
    likely: float
    high: float
    mean: float


EXACTLY_NOTHING = Estimate(0.0, 0.0, 0.0, 0.0)
"""The sum of no estimates."""


def triangular_mean(point: ThreePoint) -> float:
    """Return the mean of a triangular distribution, (a + m + b) / 3."""
    return (point.low + point.likely + point.high) / 3.0


def estimated(point: ThreePoint) -> Estimate:
    """Return the three points with their triangular mean."""
    return Estimate(*point, triangular_mean(point))


def known(value: float) -> Estimate:
    """Return a value that has no range."""
    return Estimate(value, value, value, value)


def total(estimates: Iterable[Estimate]) -> Estimate:
    """Return the straight sum: lows, likelies, highs and means each added up.

    The mean of a sum is the sum of the means, however the terms hang together. The sum of the
    lows and of the highs is the far end of the range, reached only if all go the same way.
    """
    columns = list(zip(EXACTLY_NOTHING, *estimates, strict=True))
    return Estimate(*(math.fsum(column) for column in columns))


def product(one: Estimate, other: Estimate) -> Estimate:
    """Return the product of two estimates that know nothing of each other, such as hours x rate.

    Raises:
        ValueError: One of them may be negative, so that ends would change places.
    """
    if min(one.low, other.low) < 0:
        msg = f"a product needs values of zero or more, got {one} and {other}"
        raise ValueError(msg)
    return Estimate(*(a * b for a, b in zip(one, other, strict=True)))
