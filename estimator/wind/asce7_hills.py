"""ASCE/SEI 7-16 and 7-22, 26.8: how hills, ridges and escarpments speed up the wind.

The constants were read in two independent public codes, which agree with one another: one gives
them by exposure, the other tabulates those of exposure C.
"""

from collections.abc import Mapping
from math import exp
from types import MappingProxyType
from typing import NamedTuple

from estimator.wind.charts import require_positive

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


def topographic_factor(height_m: float, feature: Feature, exposure: str) -> float:
    """Return K_zt at a height above the ground; it multiplies the pressure.

    Raises:
        ValueError: If the kind is unknown or a size is not above zero.

    References:
        ASCE 7-16 and 7-22, 26.8.2, (26.8-1), Figure 26.8-1: (1 + K_1 K_2 K_3)^2.
    """
    if feature.kind not in KINDS:
        msg = f"a hill is one of {', '.join(KINDS)}, got {feature.kind!r}"
        raise ValueError(msg)
    require_positive(height_m=feature.height_m, half_length_m=feature.half_length_m)
    kind, slope = KINDS[feature.kind], feature.height_m / feature.half_length_m
    if slope < GENTLE_SLOPE:
        return 1.0
    length_m = max(feature.half_length_m, feature.height_m / STEEP_SLOPE)
    reach = UPWIND_REACH if feature.distance_m < 0 else kind.downwind_reach
    k_1 = kind.shape[exposure] * min(slope, STEEP_SLOPE)
    k_2 = max(1.0 - abs(feature.distance_m) / (reach * length_m), 0.0)
    k_3 = exp(-kind.decay * height_m / length_m)
    return float((1.0 + k_1 * k_2 * k_3) ** 2)
