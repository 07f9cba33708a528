"""Bars of regular polygonal section: EN 1991-1-4, 7.8, as a public transcription has its table."""

from collections.abc import Mapping
from types import MappingProxyType

from estimator.wind.charts import SUBCRITICAL
from estimator.wind.coefficients import Bar, end_effect
from estimator.wind.handbook import books
from estimator.wind.records import Coefficient

SIDES: Mapping[int, tuple[float, float]] = MappingProxyType(
    {
        5: (1.80, 1.80),
        6: (1.60, 1.60),
        8: (1.10, 1.45),
        10: (1.30, 1.30),
        12: (0.90, 1.30),
        16: (0.70, SUBCRITICAL),
        18: (0.70, SUBCRITICAL),
    }
)
"""Table 7.11: number of sides, and the least and largest c_f,0 by Reynolds number and corners. With
16 and 18 it sends slow flow to the circular cylinder."""


def polygonal_bar(sides: int, length_m: float, width_m: float) -> Coefficient:
    """Return c_f of a bar of regular polygonal section across the wind, on length times width.

    The largest value of the table is used; smooth faces and fast flow are not counted on.

    Args:
        sides: How many, one of `SIDES`.
        length_m: Of the bar.
        width_m: Diameter of the circle round its corners.

    References:
        EN 1991-1-4:2005, 7.8, Table 7.11, as a public transcription of the tables of SS EN
        1991-1-4:2009 has it; expression (7.13), from memory. For eight sides towing tests of real
        poles gave about 25 % more than the 1.2 (from memory) of a highway standard (K. C. Mehta and
        others, Wind drag coefficients for octagonal cylinders, FHWA/TX-90, 1990).
    """
    if sides not in SIDES:
        msg = f"Table 7.11 has {', '.join(map(str, SIDES))} sides, got {sides}"
        raise ValueError(msg)
    low, high = SIDES[sides]
    ends = end_effect(Bar(length_m, width_m, width_m))
    return Coefficient(
        high * ends,
        f"regular polygon of {sides} sides, with end effect",
        "EN 1991-1-4:2005, 7.8, Table 7.11, as in a public transcription of its tables; Figure "
        "7.36, as coded in open-source libraries from the 2005 edition",
        confirmed=True,
        others=(
            ("without end effect", high),
            ("lowest of Table 7.11, with end effect", low * ends),
            *books("long hexagon"),
        ),
    )
