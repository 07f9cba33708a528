"""Bars that the wind can set swinging: vortex shedding and galloping, EN 1991-1-4 Annex E.

Expressions as used in a public university tutorial (TU Munich, Structural Wind Engineering) and in
two open-source codes; the standard itself was not seen. Nothing here says how far a bar swings:
where it matters that is an engineer's work.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from estimator.wind.charts import require_positive
from estimator.wind.en1991 import AIR_DENSITY_KG_M3, STIFF_HZ

ROUND, SHARP = "round", "sharp-edged"
"""Kinds of section."""
STROUHAL: Mapping[str, float] = MappingProxyType({ROUND: 0.18, SHARP: 0.12})
"""Table E.1. Square: as in the tutorial. Circle: as an open-source code of the Italian wind guide
CNR-DT 207 R1/2018 has it, and from memory of EN 1991-1-4. Other rectangles have 0.06 to 0.16 there;
the square's is used for every section with edges."""
WELDED_DECREMENT = 0.012
"""Logarithmic decrement of a welded metal bar: Table F.2, unlined welded steel stack, from memory.
The lowest there; timber and bolted bars lose more at each swing."""
MARGIN = 1.25
"""E.1.2(2), E.2.2(3): how far beyond the mean wind velocity it is looked at."""
UNKNOWN_GALLOPING = 10.0
"""E.2.2(2), where no factor of galloping instability is known: from memory."""
GALLOPING_KNOTS = ((1 / 3, 1 / 2, 2 / 3, 1.0, 1.5, 2.0), (0.4, 0.7, 1.0, 1.2, 1.7, 2.0))
"""Table E.7, rectangles: depth along the wind over width, and a_G. 2.0 at 2 as used in the
tutorial, the rest from memory."""
FLEXIBLE_HZ = 1.0
"""ASCE 7-16, 26.2 and 26.11.5: what is slower counts as flexible, as quoted in a
consulting engineers' note on the web, "ASCE 7 flexible gust factor"."""


class Line(NamedTuple):
    """A natural frequency below which a standard asks for a dynamic treatment.

    Attributes:
        rule: The standard and clause.
        hz: Where the line is.
        asks: What it asks for below.
        confirmed: Whether the clause was read as quoted, or comes from memory.
    """

    rule: str
    hz: float
    asks: str
    confirmed: bool


LINES = (
    Line(
        "EN 1991-1-4 6.2(1)",
        STIFF_HZ,
        "a structural factor c_s c_d of 1 is not given to it",
        confirmed=False,
    ),
    Line("ASCE 7-16 26.11.5", FLEXIBLE_HZ, "it counts as flexible", confirmed=True),
)


def critical_speed(width_m: float, frequency_hz: float, strouhal: float) -> float:
    """Return the mean wind speed in m/s at which vortices leave a bar in step with its swing.

    Args:
        width_m: b, across the wind.
        frequency_hz: n, of the swing across the wind.
        strouhal: St, of ``STROUHAL``.

    References:
        EN 1991-1-4:2005, E.1.3.1, expression (E.2): v_crit = b n / St.
    """
    require_positive(width_m=width_m, frequency_hz=frequency_hz, strouhal=strouhal)
    return width_m * frequency_hz / strouhal


def scruton_number(
    mass_kg_m: float,
    width_m: float,
    decrement: float = WELDED_DECREMENT,
    density_kg_m3: float = AIR_DENSITY_KG_M3,
) -> float:
    """Return Sc: how heavy and damped a bar is against the air it stirs; a low one swings far.

    References:
        EN 1991-1-4:2005, E.1.3.3, expression (E.4): Sc = 2 delta m / (rho b^2).
    """
    require_positive(mass_kg_m=mass_kg_m, width_m=width_m, decrement=decrement)
    return 2 * decrement * mass_kg_m / (density_kg_m3 * width_m**2)


def galloping_factor(kind: str, depth_over_width: float) -> float | None:
    """Return a_G of a section, None for a round one, which does not gallop until it is iced.

    Args:
        kind: ``ROUND`` or ``SHARP``.
        depth_over_width: Depth along the wind over width across it; NaN where the section is not a
            plain rectangle.

    References:
        EN 1991-1-4:2005, E.2.2, Table E.7; 10 where a section is not in it.
    """
    if kind == ROUND:
        return None
    if not depth_over_width <= GALLOPING_KNOTS[0][-1]:
        return UNKNOWN_GALLOPING
    return float(np.interp(depth_over_width, *GALLOPING_KNOTS))


def galloping_speed(scruton: float, frequency_hz: float, width_m: float, factor: float) -> float:
    """Return the wind speed in m/s from which a bar may swing ever further across the wind.

    References:
        EN 1991-1-4:2005, E.2.2(1), expression (E.18): v_CG = 2 Sc n b / a_G.
    """
    require_positive(scruton=scruton, frequency_hz=frequency_hz, width_m=width_m, factor=factor)
    return 2 * scruton * frequency_hz * width_m / factor


def met(speed_m_s: float, mean_speed_m_s: float) -> bool:
    """Return whether a speed lies within 1.25 times the mean wind velocity at the bar.

    References:
        EN 1991-1-4:2005, E.1.2(2), as used in the tutorial; E.2.2(3) for galloping, from memory.
    """
    return speed_m_s < MARGIN * mean_speed_m_s
