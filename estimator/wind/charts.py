"""EN 1991-1-4:2005 charts of sections 7.6, 7.9 and 7.13 as functions of their axes.

The read points come from an open-source finite-element library and an open-source
structural-dynamics code, both written from the 2005 edition; the figures themselves were not seen.
Every axis that is logarithmic in the standard is interpolated on its logarithm: between the knots
given here the curves are straight on paper.
"""

import numpy as np

from estimator.wind.records import FloatArray, Numbers

RECTANGLE_KNOTS = ((0.2, 0.7, 5.0, 10.0), (2.0, 2.4, 1.0, 0.9))
"""Figure 7.23: depth along the wind over width across it, and c_f,0; level outside."""
CORNER_KNOTS = ((0.0, 0.2), (1.0, 0.5))
"""Figure 7.24: corner radius over width, and psi_r; read for square sections."""
END_EFFECT_KNOTS = ((1.0, 10.0, 70.0, 200.0), (0.60, 0.698, 0.9182, 1.0))
"""Figure 7.36, solidity 1: effective slenderness and psi_lambda. The knot at 70 was
worked back from a published regression value at 37.5 (a reading gives 0.918); the last knot is from
memory."""
SLENDERNESS_CAP = 70.0
"""Table 7.16."""
LENGTH_KNOTS_M = (15.0, 50.0)
"""Table 7.16: lengths below and above which the factor on l/b stays the same."""
SHARP_FACTORS = (2.0, 1.4)
ROUND_FACTORS = (1.0, 0.7)
SUBCRITICAL = 1.2
"""Figure 7.28: c_f,0 of a cylinder before the flow turns supercritical."""
LOWEST_REYNOLDS = 1e5
"""Figure 7.28 begins here; below, the flow stays subcritical."""
ROUGHNESS_RANGE = (1e-5, 0.1)
"""k/b: below the first nothing changes; at the second the curves meet the subcritical value."""


def require_positive(**values: Numbers) -> None:
    """Raise a ``ValueError`` that names the first value not above zero."""
    for name, value in values.items():
        if not np.all(np.asarray(value) > 0):
            msg = f"{name} must be above zero, got {value}"
            raise ValueError(msg)


def interpolate_on_log(ratio: Numbers, knots: tuple[tuple[float, ...], ...]) -> Numbers:
    """Return the chart value at a ratio above zero, straight on a log axis, level beyond its ends.

    Args:
        ratio: Where to read.
        knots: The axis values, rising, and the chart values.
    """
    axis, values = knots
    read: Numbers = np.interp(np.log(ratio), np.log(axis), values)
    return read


def rectangle_coefficient(depth_over_width: Numbers) -> Numbers:
    """Return c_f,0 of a sharp-cornered rectangular section; chart reading +-0.03.

    References:
        EN 1991-1-4:2005, 7.6(1), Figure 7.23.
    """
    require_positive(depth_over_width=depth_over_width)
    return interpolate_on_log(depth_over_width, RECTANGLE_KNOTS)


def corner_factor(radius_over_width: Numbers) -> Numbers:
    """Return psi_r, by which rounded corners lower the force.

    References:
        EN 1991-1-4:2005, 7.6(1), Figure 7.24; its use for other than square sections is from
        memory.
    """
    if not np.all(np.asarray(radius_over_width) >= 0):
        msg = f"a corner radius is zero or more, got r/b = {radius_over_width}"
        raise ValueError(msg)
    factor: Numbers = np.interp(radius_over_width, *CORNER_KNOTS)
    return factor


def effective_slenderness(
    length_m: Numbers, width_m: Numbers, *, round_section: bool = False, sealed_ends: int = 0
) -> Numbers:
    """Return lambda of a bar in the wind.

    Args:
        length_m: Length of the bar.
        width_m: Width across the wind.
        round_section: A circular cylinder, rather than anything with edges.
        sealed_ends: Ends closed by a wall larger than the section. One doubles the length, since
            no air passes there, as in a mirror; with two nothing is lost at all.

    References:
        EN 1991-1-4:2005, 7.13, Table 7.16, capped at 70, linear between 15 m and 50 m. Sealed ends
        are from memory and plain reasoning.
    """
    require_positive(length_m=length_m, width_m=width_m)
    if sealed_ends not in {0, 1, 2}:
        msg = f"a bar has two ends, got sealed_ends={sealed_ends}"
        raise ValueError(msg)
    if sealed_ends == 2:  # noqa: PLR2004 - both of them
        return END_EFFECT_KNOTS[0][-1] + 0.0 * (length_m / width_m)
    open_length_m = length_m * (1 + sealed_ends)
    factors = ROUND_FACTORS if round_section else SHARP_FACTORS
    factor = np.interp(open_length_m, LENGTH_KNOTS_M, factors)
    slenderness: Numbers = np.minimum(factor * open_length_m / width_m, SLENDERNESS_CAP)
    return slenderness


def end_effect_factor(slenderness: Numbers) -> Numbers:
    """Return psi_lambda, by which air slipping round the ends lowers the force; reading +-0.02.

    References:
        EN 1991-1-4:2005, 7.13, Figure 7.36, the curve for solidity 1, which is the highest.
    """
    require_positive(slenderness=slenderness)
    return interpolate_on_log(slenderness, END_EFFECT_KNOTS)


def cylinder_coefficient(
    reynolds: Numbers, roughness_over_width: Numbers, *, supercritical: bool = False
) -> Numbers:
    """Return c_f,0 of a circular cylinder across the wind.

    Above a Reynolds number of about 180 000 a smooth cylinder in smooth flow feels much less. That
    is not counted on unless asked for: made things are rough and edged, and gusts pass through
    every lower speed on their way up.

    Args:
        reynolds: With the width and the peak velocity.
        roughness_over_width: k/b, equivalent roughness over diameter.
        supercritical: Take the lower value beyond the critical Reynolds number.

    References:
        EN 1991-1-4:2005, 7.9.2, Figure 7.28: the larger of its two curves.
    """
    require_positive(reynolds=reynolds)
    millions = np.maximum(reynolds, LOWEST_REYNOLDS) / 1e6
    smooth: FloatArray = np.clip(0.11 / millions**1.4, 0.4, SUBCRITICAL)
    roughness = np.clip(roughness_over_width, *ROUGHNESS_RANGE)
    rough: FloatArray = SUBCRITICAL + 0.18 * np.log10(10 * roughness) / (
        1 + 0.4 * np.log10(millions)
    )
    chart: Numbers = np.maximum(smooth, rough)
    return chart if supercritical else SUBCRITICAL + 0.0 * chart
