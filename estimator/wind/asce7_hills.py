"""ASCE/SEI 7-16 and 7-22, 26.8: how hills, ridges and escarpments speed up the wind.

The constants were read in two independent public codes, which agree with one another: one gives
them by exposure, the other tabulates those of exposure C.
"""

from collections.abc import Mapping
from math import exp
from types import MappingProxyType
from typing import NamedTuple

from estimator.wind.charts import require_positive
from estimator.wind.records import Step

GENTLE_SLOPE = 0.2
"""26.8.1: a slope H / L_h below this does not count; the table of the figure begins here."""
STEEP_SLOPE = 0.5
"""Figure 26.8-1, note 2: a steeper one is taken as this steep, with L_h = 2 H."""
UPWIND_REACH = 1.5


class _Kind(NamedTuple):
    """A form of the ground in Figure 26.8-1.

    Attributes:
        shape: K_1 / (H / L_h) by exposure.
        decay: gamma, with height.
        downwind_reach: mu downwind of the crest; upwind it is `UPWIND_REACH`.
    """

    shape: Mapping[str, float]
    decay: float
    downwind_reach: float


KINDS: Mapping[str, _Kind] = MappingProxyType(
    {
        "ridge": _Kind(MappingProxyType({"B": 1.30, "C": 1.45, "D": 1.55}), 3.0, 1.5),
        "escarpment": _Kind(MappingProxyType({"B": 0.75, "C": 0.85, "D": 0.95}), 2.5, 4.0),
        "hill": _Kind(MappingProxyType({"B": 0.95, "C": 1.05, "D": 1.15}), 4.0, 1.5),
    }
)


class Feature(NamedTuple):
    """A hill and where a site stands on it.

    Attributes:
        kind: ridge, escarpment or hill (round).
        height_m: H, above the ground upwind.
        half_length_m: L_h, upwind from the crest to half its height.
        distance_m: x from the crest, downwind above zero, upwind below.
    """

    kind: str
    height_m: float
    half_length_m: float
    distance_m: float = 0.0


class Multipliers(NamedTuple):
    """What K_zt is made of: the slope as it counts, its length, and K_1, K_2 and K_3."""

    slope: float
    length_m: float
    k_1: float
    k_2: float
    k_3: float

    @property
    def factor(self) -> float:
        """Return K_zt, (26.8-1)."""
        return float((1.0 + self.k_1 * self.k_2 * self.k_3) ** 2)


def multipliers(height_m: float, feature: Feature, exposure: str) -> Multipliers:
    """Return what K_zt is made of at a height above the ground.

    Raises:
        ValueError: If the kind is unknown or a size is not above zero.

    References:
        ASCE 7-16 and 7-22, 26.8, Figure 26.8-1.
    """
    if feature.kind not in KINDS:
        msg = f"a hill is one of {', '.join(KINDS)}, got {feature.kind!r}"
        raise ValueError(msg)
    require_positive(height_m=feature.height_m, half_length_m=feature.half_length_m)
    kind, slope = KINDS[feature.kind], feature.height_m / feature.half_length_m
    length_m = max(feature.half_length_m, feature.height_m / STEEP_SLOPE)
    reach = UPWIND_REACH if feature.distance_m < 0 else kind.downwind_reach
    counts = 0.0 if slope < GENTLE_SLOPE else min(slope, STEEP_SLOPE)
    return Multipliers(
        slope,
        length_m,
        kind.shape[exposure] * counts,
        max(1.0 - abs(feature.distance_m) / (reach * length_m), 0.0),
        exp(-kind.decay * height_m / length_m),
    )


def topographic_factor(height_m: float, feature: Feature, exposure: str) -> float:
    """Return K_zt at a height above the ground; it multiplies the pressure.

    Raises:
        ValueError: If the kind is unknown or a size is not above zero.

    References:
        ASCE 7-16 and 7-22, 26.8.2, (26.8-1), Figure 26.8-1: (1 + K_1 K_2 K_3)^2.
    """
    return multipliers(height_m, feature, exposure).factor


def topographic_steps(height_m: float, feature: Feature, exposure: str) -> tuple[Step, ...]:
    """Return the way from the sizes of a hill to K_zt, less K_zt itself."""
    found = multipliers(height_m, feature, exposure)
    figure = "26.8.2, Figure 26.8-1"
    return (
        Step(f"height of the {feature.kind}", "H", feature.height_m, "m", figure, confirmed=True),
        Step("crest to half the height, of a straight slope", "L_h", feature.half_length_m, "m",
             figure, confirmed=True),
        Step("site from the crest, behind it above 0", "x", feature.distance_m, "m", figure,
             confirmed=True),
        Step("slope", "H / L_h", found.slope, "", figure, confirmed=True),
        Step("for the shape and how steep it is", "K_1", found.k_1, "", figure, confirmed=True),
        Step("for the distance from the crest", "K_2", found.k_2, "", figure, confirmed=True),
        Step("for the height above the ground", "K_3", found.k_3, "", figure, confirmed=True),
    )  # fmt: skip
