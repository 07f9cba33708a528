"""Moduli: what the stresses in a section go by, in closed form from what the table says of it."""

import math
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import NamedTuple

from estimator.reference.profiles import corner_radii_mm, hot_corners_mm, middle_line
from estimator.reference.sections import Section

_MM = 1e3


class SectionModuli(NamedTuple):
    """Areas and moduli for stresses, y being the axis of the stronger bending.

    Attributes:
        bends_y_m3: Section modulus about y, free to bow sideways.
        bends_z_m3: Section modulus about z.
        shear_h_m2: Area that a shear force along the height is divided by.
        shear_b_m2: The same along the width.
        twists_m3: Torsion modulus; NaN for an open section.
        is_round: Round bar or tube.
        is_hollow: Closed.
    """

    bends_y_m3: float
    bends_z_m3: float
    shear_h_m2: float
    shear_b_m2: float
    twists_m3: float
    is_round: bool = False
    is_hollow: bool = False


def section_moduli(section: Section) -> SectionModuli:
    """Return what the stresses in a section go by; a family nobody knows counts as open."""
    return _FAMILIES.get(section.family, _open)(section)


def _box(section: Section) -> SectionModuli:
    """Return a square or rectangular hollow section.

    References:
        C_t = I_t / (t + K / t), K = 2 A_h t / h on the middle line: EN 10210-2 and EN 10219-2,
        annex on the calculation of properties (from memory; agrees with printed values to three
        figures). Shear areas A h / (b + h) and A b / (b + h): EN 1993-1-1, 6.2.6(3) (from
        memory).
    """
    h_m, b_m, t_m = section.height_m, section.width_m, section.wall_m
    corners = (hot_corners_mm if section.hot else corner_radii_mm)(t_m * _MM)
    line_mm, held_mm2 = middle_line(h_m * _MM, b_m * _MM, t_m * _MM, corners)
    k_over_t_m = 2 * held_mm2 / line_mm / _MM
    return SectionModuli(
        section.wel_y_m3, section.wel_z_m3,
        section.area_m2 * h_m / (h_m + b_m), section.area_m2 * b_m / (h_m + b_m),
        section.it_m4 / (t_m + k_over_t_m), is_hollow=True,
    )  # fmt: skip


def _round(section: Section) -> SectionModuli:
    """Return a round tube or bar.

    References:
        Torsion: I_t over the outer radius. Largest shear of a ring: 4 V / 3 A times
        (r2^2 + r2 r1 + r1^2) / (r2^2 + r1^2). Textbooks of strength of materials.
    """
    outer_m = section.height_m / 2
    inner_m = outer_m - section.wall_m if section.family == "CHS" else 0.0
    squares_m2 = outer_m**2 + inner_m**2
    shear_m2 = 0.75 * section.area_m2 * squares_m2 / (squares_m2 + outer_m * inner_m)
    return SectionModuli(
        section.wel_y_m3, section.wel_z_m3, shear_m2, shear_m2, section.it_m4 / outer_m,
        is_round=True, is_hollow=inner_m > 0,
    )  # fmt: skip


def _flat(section: Section) -> SectionModuli:
    """Return a flat bar.

    References:
        Largest shear 1.5 V / A; torsion h b^2 / 3 over a series in b / h: W. C. Young, Roark's
        Formulas for Stress and Strain, torsion of a solid rectangle (from memory; 0.2 % of the
        exact 0.208 h b^2 of a square).
    """
    h_m, b_m = section.height_m, section.width_m
    r = b_m / h_m
    series = 1 + 0.6095 * r + 0.8865 * r**2 - 1.8023 * r**3 + 0.9100 * r**4
    shear_m2 = section.area_m2 / 1.5
    return SectionModuli(
        section.wel_y_m3, section.wel_z_m3, shear_m2, shear_m2, h_m * b_m**2 / (3 * series)
    )


def _angle(section: Section) -> SectionModuli:
    """Return an equal angle, which bows sideways under a load along one leg.

    References:
        Bending of a section without an axis of symmetry in the plane of the load, at heel and
        toes: textbooks of strength of materials. Product of inertia from i_v of the table.
    """
    leg_m, t_m, i_m4 = section.height_m, section.wall_m, section.iy_m4
    c_m, v_m = section.centroid_m or math.nan, section.radius_v_m or math.nan
    mixed_m4 = section.area_m2 * v_m**2 - i_m4
    points_m = [(-c_m, -c_m), (leg_m - c_m, -c_m), (leg_m - c_m, t_m - c_m),
                (-c_m, leg_m - c_m), (t_m - c_m, leg_m - c_m)]  # fmt: skip
    most = max(abs(i_m4 * z_m - mixed_m4 * y_m) for y_m, z_m in points_m)
    free_m3 = (i_m4**2 - mixed_m4**2) / most
    return SectionModuli(free_m3, free_m3, leg_m * t_m, leg_m * t_m, math.nan)


def _open(section: Section) -> SectionModuli:
    """Return a channel: its web carries what acts along it, its flanges the rest."""
    web_m2 = section.height_m * section.wall_m
    return SectionModuli(
        section.wel_y_m3, section.wel_z_m3, web_m2, section.area_m2 - web_m2, math.nan
    )


_FAMILIES: Mapping[str, Callable[[Section], SectionModuli]] = MappingProxyType(
    {"SHS": _box, "RHS": _box, "CHS": _round, "Round": _round, "Flat": _flat, "L": _angle}
)
