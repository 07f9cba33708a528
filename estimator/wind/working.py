"""Wind to work and lift in: the Beaufort scale, and the crane rule for things with much sail.

EN 13000 / FEM 5.016, as reproduced in two crane operator manuals.
"""

from bisect import bisect_right
from collections.abc import Mapping
from math import sqrt
from types import MappingProxyType

from estimator.wind.air import gust_factor
from estimator.wind.charts import require_positive

LOWER_LIMITS_M_S = (0.3, 1.6, 3.4, 5.5, 8.0, 10.8, 13.9, 17.2, 20.8, 24.5, 28.5, 32.7)
"""From where Beaufort 1 to 12 begin, ten-minute means at 10 m: public tables of a meteorological
service (infotextmanuscripts.org/clio, delta-s.org/weer)."""
NAMES = (
    "calm", "light air", "light breeze", "gentle breeze", "moderate breeze", "fresh breeze",
    "strong breeze", "near gale", "gale", "strong gale", "storm", "violent storm", "hurricane",
)  # fmt: skip
CHART_M2_T = 1.2
"""Sail area per tonne of load that the wind limit on a load chart is for."""
LIFTING_DRAG: Mapping[str, float] = MappingProxyType({"unknown": 2.4, "box": 2.0, "cylinder": 1.0})
"""Drag coefficient of a load on the hook, by its shape."""
_TONNE_KG = 1000.0


def beaufort(mean_speed_m_s: float) -> int:
    """Return the Beaufort force of a ten-minute mean at 10 m; an edge belongs to the higher force.

    Raises:
        ValueError: If the speed is below zero.
    """
    if not mean_speed_m_s >= 0:
        msg = f"a wind speed is zero or more, got {mean_speed_m_s}"
        raise ValueError(msg)
    return bisect_right(LOWER_LIMITS_M_S, mean_speed_m_s)


def mean_of_gust(gust_m_s: float, height_m: float) -> float:
    """Return the ten-minute mean at 10 m in m/s that has gusts this strong at a height.

    References:
        EN 13000 / FEM 5.016: v_3s(z) = ((z / 10)^0.14 + 0.4) v_10min.
    """
    return float(gust_m_s / gust_factor(height_m))


def sail_area(outline_m2: float, drag: float = LIFTING_DRAG["unknown"]) -> float:
    """Return A_W in m2: the outline that the wind meets times the drag coefficient.

    References:
        EN 13000 / FEM 5.016: A_W = C_D A_p.
    """
    return drag * outline_m2


def lifting_factor(mass_kg: float, sail_m2: float) -> float:
    """Return the share of the wind speed on the load chart up to which a load may be lifted.

    Args:
        mass_kg: Of the load.
        sail_m2: A_W.

    References:
        v = v_chart sqrt(1.2 m / A_W), m in tonnes, never above v_chart: FEM 5.016, from memory.
    """
    return sqrt(cautious_factor(mass_kg, sail_m2))


def cautious_factor(mass_kg: float, sail_m2: float) -> float:
    """Return the same without the square root, as one of the two manuals has it: lower still."""
    require_positive(mass_kg=mass_kg, sail_m2=sail_m2)
    return min(1.0, CHART_M2_T * mass_kg / _TONNE_KG / sail_m2)
