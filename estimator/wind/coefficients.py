"""Force coefficients by kind of body, each with its rule, its source and its rivals.

EN 1991-1-4 section 7 where it speaks; judgement, said to be so, where it is silent. Areas:
length times width of a bar or plate, the disc of a sphere, the silhouette of a figure.
"""

from typing import NamedTuple

from estimator.wind.air import reynolds_number
from estimator.wind.asce7 import RIGID_GUST_FACTOR
from estimator.wind.asce7_frames import chimney
from estimator.wind.asce7_signs import CLEARANCES, sign_coefficient
from estimator.wind.boards import SIGNBOARD, plate_rivals
from estimator.wind.charts import (
    SUBCRITICAL,
    corner_factor,
    cylinder_coefficient,
    effective_slenderness,
    end_effect_factor,
    rectangle_coefficient,
    require_positive,
)
from estimator.wind.handbook import books, finite_cylinder_drag, long_rectangle_drag
from estimator.wind.records import Coefficient

_CODED = "as coded in open-source libraries from the 2005 edition"
_MEMORY = "from memory of the standard"
_JUDGEMENT = "engineering judgement; EN 1991-1-4 gives no coefficient for an irregular figure"

SLIM_PLATE = 0.2
"""Figure 7.23 is level up to this depth over width, so that anything flatter is a plate."""
NEARLY_SQUARE = (0.7, 1.4)
"""Depth over width between which a bar is set beside a square chimney."""
SPHERE = 0.5
SPHERE_FLOOR = 0.4
SPHERE_NEAR_GROUND = 1.6
SPHERE_UPLIFT = 0.60
CLOSED_FIGURE = 1.3
HOLLOW_FIGURE = 1.8
HOLLOW_RANGE = (1.6, 2.0)


def entered(value: float, source: str) -> Coefficient:
    """Return a coefficient somebody gave, with who said so."""
    return Coefficient(value, "entered", source or "no source given", confirmed=bool(source))


class Bar(NamedTuple):
    """A bar across the wind.

    Attributes:
        length_m: l.
        width_m: b, across the wind.
        depth_m: d, along the wind.
        corner_radius_m: r.
        sealed_ends: How many ends a wall closes off.
    """

    length_m: float
    width_m: float
    depth_m: float
    corner_radius_m: float = 0.0
    sealed_ends: int = 0


def rectangular_bar(bar: Bar) -> Coefficient:
    """Return c_f of a rectangular bar or block, on length times width.

    Where the length is the shorter side, the end effect is that of the width.

    References:
        EN 1991-1-4:2005, 7.6, expression (7.9): c_f,0 psi_r psi_lambda.
    """
    require_positive(length_m=bar.length_m, width_m=bar.width_m, depth_m=bar.depth_m)
    ratio = bar.depth_m / bar.width_m
    shape = float(rectangle_coefficient(ratio))
    corners = float(corner_factor(bar.corner_radius_m / bar.width_m))
    ends = end_effect(bar)
    # Figure 7.24 was only read for square sections.
    seen = bar.sealed_ends == 0 and (bar.corner_radius_m == 0 or bar.depth_m == bar.width_m)
    return Coefficient(
        shape * corners * ends,
        f"rectangular section, {ratio:.2g} times as deep as wide, with end effect {ends:.2f}"
        + (f" and rounded corners {corners:.2f}" if corners < 1 else ""),
        f"EN 1991-1-4:2005, 7.6 (7.9), Figures 7.23, 7.24, 7.36, {_CODED}",
        confirmed=seen,
        others=(
            *((("with sharp corners", shape * ends),) if corners < 1 else ()),
            ("without end effect", shape * corners),
            ("sharp and without end effect, smooth flow, handbook",
             float(long_rectangle_drag(ratio))),
            *_square_chimney(bar),
        ),
    )  # fmt: skip


def _square_chimney(bar: Bar) -> tuple[tuple[str, float], ...]:
    """Return what ASCE 7 gives for a bar that is nearly square; nothing for another."""
    low, high = NEARLY_SQUARE
    if not low <= bar.depth_m / bar.width_m <= high:
        return ()
    slender = max(bar.length_m, bar.width_m) / min(bar.length_m, bar.width_m)
    return (
        (
            "square chimney, ASCE 7 Figure 29.4-1",
            chimney("square, face to the wind", slender).value,
        ),
    )


def end_effect(bar: Bar) -> float:
    """Return psi_lambda of a bar; where its length is the shorter side, that of the width.

    References:
        EN 1991-1-4:2005, 7.13, Table 7.16, Figure 7.36.
    """
    long_m, short_m = max(bar.length_m, bar.width_m), min(bar.length_m, bar.width_m)
    return float(
        end_effect_factor(effective_slenderness(long_m, short_m, sealed_ends=bar.sealed_ends))
    )


def flat_plate(length_m: float, width_m: float, sealed_ends: int = 0) -> Coefficient:
    """Return c_f of a plate or blade face to the wind, on its face area.

    References:
        EN 1991-1-4:2005, Figure 7.23 at its flat end (2.0) with the end effect of Figure 7.36; 7.7
        gives the same for sharp-edged sections, from memory.
    """
    require_positive(length_m=length_m, width_m=width_m)
    bar = Bar(length_m, width_m, SLIM_PLATE * width_m, sealed_ends=sealed_ends)
    return Coefficient(
        rectangular_bar(bar).value,
        f"flat plate with end effect {end_effect(bar):.2f}",
        f"EN 1991-1-4:2005, Figures 7.23 (d/b up to 0.2) and 7.36, {_CODED}; 7.7 agrees {_MEMORY}",
        confirmed=sealed_ends == 0,
        others=(
            ("signboard, EN 1991-1-4 7.4.3", SIGNBOARD),
            *plate_rivals(length_m, width_m)[1:],
            *_signs(max(length_m, width_m) / min(length_m, width_m)),
        ),
    )


def _signs(aspect: float) -> tuple[tuple[str, float], ...]:
    """Return what ASCE 7 gives for a board, by how near the ground it is, gust factor and all."""
    return tuple(
        (
            f"{RIGID_GUST_FACTOR:g} x solid sign {where}, ASCE 7 Figure 29.3-1",
            RIGID_GUST_FACTOR * sign_coefficient(aspect, clearance),
        )
        for where, clearance in (("on the ground", 1.0), ("high up", CLEARANCES[0]))
    )


def sharp_section(length_m: float, width_m: float, sealed_ends: int = 0) -> Coefficient:
    """Return c_f of an angle, channel or other sharp-edged section, on length times width.

    References:
        EN 1991-1-4:2005, 7.7, recommended c_f,0 = 2.0: from memory.
    """
    ends = end_effect(Bar(length_m, width_m, width_m, sealed_ends=sealed_ends))
    return Coefficient(
        2.0 * ends,
        f"sharp-edged section with end effect {ends:.2f}",
        f"EN 1991-1-4:2005, 7.7, {_MEMORY}; Figure 7.36, {_CODED}",
        confirmed=False,
        others=(
            ("without end effect", 2.0),
            *books("long angle, the worse side"),
            *_square_chimney(Bar(length_m, width_m, width_m)),
        ),
    )


class Tube(NamedTuple):
    """A circular cylinder across the wind.

    Attributes:
        length_m: l.
        diameter_m: b.
        roughness_m: k, equivalent roughness of the surface (EN 1991-1-4 Table 7.13).
        sealed_ends: How many ends a wall closes off.
    """

    length_m: float
    diameter_m: float
    roughness_m: float = 0.0002
    sealed_ends: int = 0


def cylinder(tube: Tube, speed_m_s: float, *, supercritical: bool = False) -> Coefficient:
    """Return c_f of a circular cylinder, on length times diameter.

    Args:
        tube: The cylinder.
        speed_m_s: Peak velocity at its height, ``speed_of_pressure`` of the peak pressure.
        supercritical: Count on the lower force of smooth cylinders in fast flow.

    References:
        EN 1991-1-4:2005, 7.9.2, Figure 7.28 and expression (7.19), with Figure 7.36.
    """
    require_positive(length_m=tube.length_m, diameter_m=tube.diameter_m, speed_m_s=speed_m_s)
    reynolds = reynolds_number(tube.diameter_m, speed_m_s)
    rough = tube.roughness_m / tube.diameter_m
    slenderness = effective_slenderness(
        tube.length_m, tube.diameter_m, round_section=True, sealed_ends=tube.sealed_ends
    )
    ends = float(end_effect_factor(slenderness))
    chart = float(cylinder_coefficient(reynolds, rough, supercritical=True))
    slender = tube.length_m / tube.diameter_m
    return Coefficient(
        ends * (chart if supercritical else SUBCRITICAL),
        f"circular cylinder with end effect {ends:.2f}"
        + ("" if supercritical else ", no credit for supercritical flow"),
        f"EN 1991-1-4:2005, 7.9.2, Figures 7.28 and 7.36, {_CODED}",
        confirmed=tube.sealed_ends == 0,
        others=(
            (
                f"Figure 7.28 at Re {reynolds:.2g} and k/b {rough:.2g}, with end effect",
                ends * chart,
            ),
            ("finite cylinder in smooth flow, handbook", float(finite_cylinder_drag(slender))),
            (
                "round chimney in slow flow, ASCE 7 Figure 29.4-1",
                chimney("round, rough", slender).value,
            ),
        ),
    )


def sphere(diameter_m: float, clearance_m: float, *, supercritical: bool = False) -> Coefficient:
    """Return c_f,x of a sphere along the wind, on its disc.

    Args:
        diameter_m: b.
        clearance_m: z_g, under side above the ground or roof.
        supercritical: Take 0.4 for a rough ball in fast flow; never less, since gilding, rivets
            and weather roughen a ball.

    References:
        EN 1991-1-4:2005, 7.10, from memory; Figure 7.30 could not be read, so the subcritical value
        of handbooks is used. Rough ball at Re 1e6: Aeronautical Engineer's Data Book, p. 95.
    """
    factor = SPHERE_NEAR_GROUND if _near_ground(diameter_m, clearance_m) else 1.0
    base = SPHERE_FLOOR if supercritical else SPHERE
    return Coefficient(
        base * factor,
        "sphere" + (", near the ground" if factor > 1 else ""),
        f"EN 1991-1-4:2005, 7.10, {_MEMORY}; value on the cautious side of handbooks",
        confirmed=False,
        others=books("ball, subcritical", "ball, rough, at Re 1e6", "ball, smooth, at Re 1e6"),
    )


def _near_ground(diameter_m: float, clearance_m: float) -> bool:
    require_positive(diameter_m=diameter_m)
    return clearance_m < diameter_m / 2


def figure(*, hollows: bool) -> Coefficient:
    """Return the coefficient of an irregular figure, on its silhouette in the wind's direction.

    Args:
        hollows: It has wings, drapery or hollows that can hold the wind, or nobody knows that it
            has none; otherwise it is closed and rounded outwards.
    """
    if not hollows:
        return Coefficient(
            CLOSED_FIGURE,
            "closed figure, rounded outwards: the most that handbooks print for a standing person",
            _JUDGEMENT,
            confirmed=False,
            others=(*books(*_PERSONS, "cube, face to the wind", "ball, subcritical"),
                    ("figure with hollows", HOLLOW_FIGURE)),
        )  # fmt: skip
    return Coefficient(
        HOLLOW_FIGURE,
        "figure with wings, drapery or hollows: between a hollow bowl and a hollow trough",
        _JUDGEMENT,
        confirmed=False,
        others=(
            ("lower end of the range", HOLLOW_RANGE[0]),
            ("upper end of the range", HOLLOW_RANGE[1]),
            *books(*_HOLLOWS),
            ("closed figure, rounded outwards", CLOSED_FIGURE),
        ),
    )


_PERSONS = ("standing person, lower", "standing person, upper")
_HOLLOWS = ("bowl, hollow to the wind", "trough, hollow to the wind")
