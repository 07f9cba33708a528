"""Closed forms for bars and hollow sections of any size: areas, inertias, section moduli.

Plain floats in millimetres, as section tables print them. y is the axis of the stronger
bending (the height h stands across it), z the other one.
"""

from math import pi
from typing import NamedTuple

_THIN_MM, _MIDDLE_MM = 6.0, 10.0


class Corners(NamedTuple):
    """Radii that a hollow section is calculated with, outside and inside."""

    outer_mm: float
    inner_mm: float


class Profile(NamedTuple):
    """A cross-section.

    Attributes:
        area_mm2: Area of the material.
        iy_mm4: Second moment of area, stronger axis.
        iz_mm4: Second moment of area, weaker axis.
        it_mm4: Torsion constant.
        wel_y_mm3: Elastic modulus, stronger axis.
        wel_z_mm3: Elastic modulus, weaker axis.
        girth_mm: Outline outside, which is what paint sees.
    """

    area_mm2: float
    iy_mm4: float
    iz_mm4: float
    it_mm4: float
    wel_y_mm3: float
    wel_z_mm3: float
    girth_mm: float


def flat_bar(h_mm: float, b_mm: float) -> Profile:
    """Return a solid rectangle; h is the longer side.

    References:
        Torsion constant: W. C. Young, Roark's Formulas for Stress and Strain, table of torsion
        of solid sections, rectangle (from memory); within 0.5 % of the exact series.
    """
    iy_mm4, iz_mm4 = b_mm * h_mm**3 / 12, h_mm * b_mm**3 / 12
    slender = b_mm / h_mm
    it_mm4 = h_mm * b_mm**3 * (1 / 3 - 0.21 * slender * (1 - slender**4 / 12))
    moduli = (2 * iy_mm4 / h_mm, 2 * iz_mm4 / b_mm)
    return Profile(h_mm * b_mm, iy_mm4, iz_mm4, it_mm4, *moduli, 2 * (h_mm + b_mm))


def round_bar(diameter_mm: float) -> Profile:
    """Return a solid circle."""
    return round_tube(diameter_mm, diameter_mm / 2)


def round_tube(diameter_mm: float, wall_mm: float) -> Profile:
    """Return a ring.

    References:
        EN 10219-2, annex on the calculation of properties, circular sections (from memory).
    """
    inside_mm = diameter_mm - 2 * wall_mm
    area_mm2 = pi / 4 * (diameter_mm**2 - inside_mm**2)
    i_mm4 = pi / 64 * (diameter_mm**4 - inside_mm**4)
    modulus_mm3 = 2 * i_mm4 / diameter_mm
    girth_mm = pi * diameter_mm
    return Profile(area_mm2, i_mm4, i_mm4, 2 * i_mm4, modulus_mm3, modulus_mm3, girth_mm)


def corner_radii_mm(wall_mm: float) -> Corners:
    """Return the outer and inner corner radius that a cold-formed section is calculated with.

    References:
        EN 10219-2, annex on the calculation of properties: 2 t and 1 t up to 6 mm, 2.5 t and
        1.5 t up to 10 mm, 3 t and 2 t above (from memory; the first agrees with printed
        properties).
    """
    if wall_mm <= _THIN_MM:
        return Corners(2.0 * wall_mm, wall_mm)
    if wall_mm <= _MIDDLE_MM:
        return Corners(2.5 * wall_mm, 1.5 * wall_mm)
    return Corners(3.0 * wall_mm, 2.0 * wall_mm)


def hot_corners_mm(wall_mm: float) -> Corners:
    """Return the corner radii that a hot-finished section is calculated with.

    References:
        EN 10210-2, annex on the calculation of properties: 1.5 t and 1 t (from memory; agrees
        with printed properties).
    """
    return Corners(1.5 * wall_mm, wall_mm)


def box_tube(h_mm: float, b_mm: float, wall_mm: float, corners: Corners | None = None) -> Profile:
    """Return a square or rectangular hollow section; h is the longer side.

    Args:
        h_mm: Longer side.
        b_mm: Shorter side.
        wall_mm: Thickness.
        corners: Radii; those of a cold-formed section when None.

    References:
        EN 10219-2 and EN 10210-2, annex on the calculation of properties; torsion constant
        t^3 h / 3 + 2 K A_h on the middle line (from memory).
    """
    outer_mm, inner_mm = corners or corner_radii_mm(wall_mm)
    inside_h_mm, inside_b_mm = h_mm - 2 * wall_mm, b_mm - 2 * wall_mm
    area_mm2 = _rounded_area(h_mm, b_mm, outer_mm) - _rounded_area(
        inside_h_mm, inside_b_mm, inner_mm
    )
    iy_mm4 = _rounded_inertia(h_mm, b_mm, outer_mm) - _rounded_inertia(
        inside_h_mm, inside_b_mm, inner_mm
    )
    iz_mm4 = _rounded_inertia(b_mm, h_mm, outer_mm) - _rounded_inertia(
        inside_b_mm, inside_h_mm, inner_mm
    )
    line_mm, held_mm2 = middle_line(h_mm, b_mm, wall_mm, Corners(outer_mm, inner_mm))
    it_mm4 = wall_mm**3 * line_mm / 3 + 4 * held_mm2**2 * wall_mm / line_mm
    girth_mm = 2 * (h_mm + b_mm) - 2 * outer_mm * (4 - pi)
    moduli = (2 * iy_mm4 / h_mm, 2 * iz_mm4 / b_mm)
    return Profile(area_mm2, iy_mm4, iz_mm4, it_mm4, *moduli, girth_mm)


def middle_line(h_mm: float, b_mm: float, wall_mm: float, corners: Corners) -> tuple[float, float]:
    """Return how long the middle line of a hollow section's wall is, and the area inside it."""
    middle_mm = (corners.outer_mm + corners.inner_mm) / 2
    line_mm = 2 * (h_mm + b_mm - 2 * wall_mm) - 2 * middle_mm * (4 - pi)
    return line_mm, _rounded_area(h_mm - wall_mm, b_mm - wall_mm, middle_mm)


def _rounded_area(h_mm: float, b_mm: float, radius_mm: float) -> float:
    """Return the area of a rectangle with rounded corners."""
    return h_mm * b_mm - (4 - pi) * radius_mm**2


def _rounded_inertia(h_mm: float, b_mm: float, radius_mm: float) -> float:
    """Return its second moment about the axis that h stands across.

    From the rectangle, the four corner squares go and the four quarter circles come back.
    """
    corner_mm2 = (1 - pi / 4) * radius_mm**2
    own_mm4 = (1 / 3 - pi / 16 - 1 / (9 * (4 - pi))) * radius_mm**4
    arm_mm = h_mm / 2 - (10 - 3 * pi) / (12 - 3 * pi) * radius_mm
    return b_mm * h_mm**3 / 12 - 4 * (own_mm4 + corner_mm2 * arm_mm**2)
