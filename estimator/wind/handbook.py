"""Drag coefficients of plain bodies in smooth, steady flow, as handbooks print them.

They stand beside a standard's value for comparison, and alone where a standard gives none. On
frontal area, with the peak pressure, never with a mean one.
"""

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from estimator.wind.charts import interpolate_on_log, require_positive
from estimator.wind.records import Coefficient, Numbers

_DATA_BOOK = "Aeronautical Engineer's Data Book, Fig. 5.13(b), p. 95"
_PHYSICS = "College Physics (OpenStax), Table 5.2"
_TABLE_PAGE = "public reference table of drag coefficients (diracdelta.co.uk)"
_TEXTBOOK = "Munson and others, Fundamentals of Fluid Mechanics, Figures 9.19 and 9.20, pp. 354-355"
_MEMORY = "handbook value from memory"

DRAG: Mapping[str, tuple[float, str]] = MappingProxyType(
    {
        "square plate": (1.17, _DATA_BOOK),
        "long plate": (1.98, _DATA_BOOK),
        "disc": (1.12, _PHYSICS),
        "bowl, hollow to the wind": (1.42, _DATA_BOOK),
        "bowl, dome to the wind": (0.38, _DATA_BOOK),
        "solid half ball, flat to the wind": (1.17, _TABLE_PAGE),
        "solid half ball, round to the wind": (0.42, _TEXTBOOK),
        "trough, hollow to the wind": (2.30, _DATA_BOOK),
        "trough, round to the wind": (1.20, _DATA_BOOK),
        "cone of 60 degrees, point to the wind": (0.51, _DATA_BOOK),
        "cone of 30 degrees, point to the wind": (0.34, _DATA_BOOK),
        "cone, base to the wind": (1.20, _MEMORY),
        "cube, face to the wind": (1.05, _TEXTBOOK),
        "cube, edge to the wind": (0.80, _TEXTBOOK),
        "long square bar, corners rounded by a sixth": (1.2, _TEXTBOOK),
        "long angle, the worse side": (1.98, _TEXTBOOK),
        "long hexagon": (1.0, _TEXTBOOK),
        "ball, subcritical": (0.45, _PHYSICS),
        "ball, rough, at Re 1e6": (0.40, _DATA_BOOK),
        "ball, smooth, at Re 1e6": (0.10, _DATA_BOOK),
        "standing person, upper": (1.3, _TABLE_PAGE),
        "standing person, lower": (1.0, _TABLE_PAGE),
    }
)
"""Body -> (C_D, source). A bowl is a thin half ball, a trough a thin half tube across the wind. The
data book calls both the light side of the bowl and the heavy side of the trough "facing"; here the
hollow side to the wind is always the larger, as it must be."""

CYLINDER_ACROSS = ((1.0, 2.0, 5.0, 10.0, 40.0), (0.63, 0.68, 0.74, 0.82, 0.98))
"""Length over diameter and C_D of a finite cylinder across the wind, subcritical: the data book."""
RECTANGLE = ((0.1, 0.5, 0.65, 1.0, 2.0, 3.0), (1.9, 2.5, 2.9, 2.2, 1.6, 1.3))
"""Depth along the wind over width and C_D of a long sharp rectangle: the textbook."""
CYLINDER_ALONG = ((0.5, 1.0, 2.0, 4.0, 7.0), (1.10, 0.93, 0.85, 0.87, 0.99))
"""Length over diameter and C_D of a cylinder end to the wind, on its end: where the textbook and
the data book differ (0.93 and 0.91, 0.83 and 0.85, 0.85 and 0.87) the higher."""
CONE = ((10.0, 30.0, 60.0, 90.0), (0.30, 0.55, 0.80, 1.15))
"""Half of the apex angle in degrees and C_D of a cone point to the wind, on its base: the textbook,
whose points lie near a straight line, as a page on Hoerner's measurements says they do
(aerospaceweb.org, question q0231). The data book prints 0.34 at 15 and 0.51 at 30."""


def drag(body: str) -> Coefficient:
    """Return the handbook coefficient of a plain body, a key of ``DRAG``.

    Raises:
        ValueError: If no such body is listed; the message names those that are.
    """
    if body not in DRAG:
        msg = f'no handbook value for "{body}"; listed are {", ".join(sorted(DRAG))}'
        raise ValueError(msg)
    value, source = DRAG[body]
    return Coefficient(value, f"{body}, in smooth flow", source, confirmed=source is not _MEMORY)


def finite_cylinder_drag(length_over_width: Numbers) -> Numbers:
    """Return C_D of a cylinder across the wind by its slenderness, subcritical, smooth flow.

    References:
        Aeronautical Engineer's Data Book, Fig. 5.13(b), p. 95; interpolated on a log axis,
        level beyond 40, though an endless one has 1.20.
    """
    require_positive(length_over_width=length_over_width)
    return interpolate_on_log(length_over_width, CYLINDER_ACROSS)


def long_rectangle_drag(depth_over_width: Numbers) -> Numbers:
    """Return C_D of an endless sharp-cornered rectangle in smooth flow.

    References:
        Munson and others, Fundamentals of Fluid Mechanics, Figure 9.19; interpolated on a log axis,
        level outside.
    """
    require_positive(depth_over_width=depth_over_width)
    return interpolate_on_log(depth_over_width, RECTANGLE)


def books(*bodies: str) -> tuple[tuple[str, float], ...]:
    """Return handbook bodies as what other rules give: name and value."""
    return tuple((f"{body}, handbook", drag(body).value) for body in bodies)


def end_on_drag(length_over_width: Numbers) -> Numbers:
    """Return C_D of a cylinder end to the wind, on its end, by its length; smooth flow.

    References:
        Munson and others, Fundamentals of Fluid Mechanics, Figure 9.20, and Aeronautical Engineer's
        Data Book, Fig. 5.13(b); interpolated on a log axis, level beyond 7.
    """
    require_positive(length_over_width=length_over_width)
    return interpolate_on_log(length_over_width, CYLINDER_ALONG)


def cone_drag(half_angle_rad: Numbers) -> Numbers:
    """Return C_D of a cone point to the wind, on its base, by half of its apex angle.

    References:
        Munson and others, Fundamentals of Fluid Mechanics, Figure 9.20; straight between its
        points, level below 10 degrees.
    """
    require_positive(half_angle_rad=half_angle_rad)
    read: Numbers = np.interp(np.rad2deg(half_angle_rad), *CONE)
    return read
