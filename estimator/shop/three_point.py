"""Three-point estimates: low, likely and high of an hour or a price, and how they add up.

The triangular distribution runs from low to high and peaks at likely. Estimates on one job may be
independent of each other or may all go wrong together; both ends are given.
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


def triangular_variance(point: ThreePoint) -> float:
    """Return the variance, (a2 + m2 + b2 - am - ab - mb) / 18, as a sum of squares.

    The three differences give the same value without the loss of digits.
    """
    low, likely, high = point
    return ((likely - low) ** 2 + (high - likely) ** 2 + (high - low) ** 2) / 36.0


def triangular_sd(point: ThreePoint) -> float:
    """Return the standard deviation of a triangular distribution."""
    return math.sqrt(triangular_variance(point))


def triangular_quantile(point: ThreePoint, chance: float) -> float:
    """Return the value that is not passed with the given chance.

    Args:
        point: Low, likely and high.
        chance: From 0 to 1; 0.8 gives the value that one in five still passes.

    Raises:
        ValueError: The chance is not from 0 to 1.
    """
    if not 0.0 <= chance <= 1.0:
        msg = f"a chance lies from 0 to 1, got {chance}"
        raise ValueError(msg)
    low, likely, high = point
    span = high - low
    if chance * span <= likely - low:
        return low + math.sqrt(chance * span * (likely - low))
    return high - math.sqrt((1.0 - chance) * span * (high - likely))


def pert_mean(point: ThreePoint) -> float:
    """Return the classic PERT mean, (a + 4 m + b) / 6."""
    return (point.low + 4.0 * point.likely + point.high) / 6.0


def pert_sd(point: ThreePoint) -> float:
    """Return the classic PERT standard deviation, (b - a) / 6."""
    return (point.high - point.low) / 6.0


def independent_sd(sds: Iterable[float]) -> float:
    """Return the standard deviation of a sum whose terms know nothing of each other."""
    return math.hypot(*sds)


def together_quantile(points: Iterable[ThreePoint], chance: float) -> float:
    """Return the quantile of a sum whose terms all go wrong together (comonotonic)."""
    return math.fsum(triangular_quantile(point, chance) for point in points)


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
