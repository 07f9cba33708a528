"""ASCE/SEI 7-16 and 7-22: what hangs on a wall or stands off it, and where its pressure is read.

That a sign flat on a wall goes by the pressures on the wall itself (29.3.2) is from memory; those
pressures were read in an open-source code. Pressures hold G, and so does (GC_p): one is taken out.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace
from math import inf, log
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from estimator.wind.asce7_signs import FIGURE, Sign, solid_sign
from estimator.wind.charts import require_positive
from estimator.wind.records import Coefficient
from estimator.wind.walls import ReferenceHeight

_ATTACHED = (
    "ASCE 7, 29.3.2 with {} and no internal pressure: that a sign on a wall goes there "
    "is from memory; the values of Figure 30.3-1 as coded in an open-source library"
)

LOW_WALL_M = 18.3
"""30.3 and 30.4: 60 ft, up to which a building's walls go by Figure 30.3-1."""
CORNER_ZONE = "zone 5, near a corner, suction"


class Wall(NamedTuple):
    """The walls of buildings of some height: sizes of (GC_p) on the logarithm of the area.

    Attributes:
        figure: Of the standard.
        areas_m2: The small and the large area; level outside them.
        zones: What there is at each of these, by zone.
    """

    figure: str
    areas_m2: tuple[float, float]
    zones: Mapping[str, tuple[float, float]]


LOW = Wall(
    "Figure 30.3-1",
    (0.929, 46.45),
    MappingProxyType(
        {
            CORNER_ZONE: (1.4, 0.8),
            "zone 4, suction": (1.1, 0.8),
            "zones 4 and 5, pressure": (1.0, 0.7),
        }
    ),
)
"""Up to `LOW_WALL_M`; 10 and 500 square feet."""
HIGH = Wall(
    "Figure 30.4-1 for buildings above 60 ft, its values from memory",
    (1.858, 46.45),
    MappingProxyType(
        {
            CORNER_ZONE: (1.8, 1.0),
            "zone 4, suction": (0.9, 0.7),
            "zones 4 and 5, pressure": (0.9, 0.6),
        }
    ),
)
"""Higher ones; 20 and 500 square feet. From memory."""


def wall_of(building_height_m: float | None) -> Wall:
    """Return the walls of a building; one whose height is not known is taken as a low one."""
    return HIGH if building_height_m is not None and building_height_m > LOW_WALL_M else LOW


def wall_component(area_m2: float, zone: str = CORNER_ZONE, wall: Wall = LOW) -> float:
    """Return the size of (GC_p) of a component of a wall.

    References:
        ASCE 7-16 and 7-22, Figure 30.3-1, walls of buildings up to 60 ft (18.3 m); Figure 30.4-1,
        higher ones: from memory.
    """
    require_positive(area_m2=area_m2)
    axis = [log(edge) for edge in wall.areas_m2]
    return float(np.interp(log(area_m2), axis, wall.zones[zone]))


def flat_on_wall(sign: Sign, area_m2: float, gust_factor: float, wall: Wall = LOW) -> Coefficient:
    """Return the coefficient normal to a wall of what lies flat on it, both senses alike.

    Args:
        sign: What it shows to the street.
        area_m2: Its outline.
        gust_factor: G, which stands with the pressure and is already in (GC_p).
        wall: What it lies on.

    References:
        ASCE 7-16 and 7-22, 29.3.2: signs flat on a wall, within 3 ft of it and not past its edges,
        by the pressures on the wall itself: from memory.
    """
    return Coefficient(
        wall_component(area_m2, wall=wall) / gust_factor,
        f"on a wall, as a component of it: (GC_p) of {CORNER_ZONE}, over G",
        _ATTACHED.format(wall.figure),
        confirmed=False,
        others=(
            *(
                (f"{zone}, over G", wall_component(area_m2, zone, wall) / gust_factor)
                for zone in wall.zones
                if zone != CORNER_ZONE
            ),
            ("free-standing solid sign", solid_sign(sign).value),
        ),
    )


def off_wall(sign: Sign, area_m2: float, gust_factor: float, wall: Wall = LOW) -> Coefficient:
    """Return the coefficient normal to a wall of what stands off it: as a free sign, both senses.

    Args:
        sign: What it shows to the street.
        area_m2: Its outline.
        gust_factor: G.
        wall: What it stands before.
    """
    return replace(
        solid_sign(sign),
        rule="assumed off a wall: as a free-standing solid sign, in both senses",
        source=f"{FIGURE}, outside what that figure covers",
        confirmed=False,
        others=tuple(
            (f"wall itself, {zone}, over G", wall_component(area_m2, zone, wall) / gust_factor)
            for zone in wall.zones
        ),
    )


ON_WALL: Mapping[str, Callable[[Sign, float, float, Wall], Coefficient]] = MappingProxyType(
    {"flat to wall": flat_on_wall, "off wall": off_wall}
)
"""The coefficient normal to a wall by how something stands at it."""


def reference_height(top_m: float, building_height_m: float | None) -> ReferenceHeight:
    """Return the height at which ASCE 7 reads the pressure.

    Args:
        top_m: Upper edge above the ground.
        building_height_m: Of the building something hangs against; None for what stands free, or
            where it is not known.

    References:
        ASCE 7-16 and 7-22, 29.3.1: q_h at the top of the sign. 29.3.2 and 30.3: for walls at mean
        roof height, from memory; the height of the building is no less.
    """
    if building_height_m is None or building_height_m <= top_m:
        return ReferenceHeight(top_m, "its top, as for a sign (ASCE 7 29.3.1)")
    return ReferenceHeight(
        building_height_m, "the building's height, as for its walls (ASCE 7 30.3, from memory)"
    )


def edge_notes(
    to_corner_m: float | None,
    to_top_m: float | None,
    building_height_m: float | None,
    _crosswind_width_m: float = inf,
) -> tuple[str, ...]:
    """Return what to say about corner and parapet; distances from the outline's nearest edges.

    References:
        ASCE 7-16 and 7-22, 29.3.2 and Figure 30.3-1: from memory.
    """
    notes = [
        (
            "On a wall the suction of the corner zone is taken, wherever it hangs; the middle of "
            "a wall gives less"
        )
    ]
    if building_height_m is None:
        notes.append(
            f"The building was taken as no higher than {LOW_WALL_M:g} m (60 ft): the corners of a "
            "higher one suck a quarter harder or more, so give its height"
        )
    past = [
        name
        for name, distance_m in (("end", to_corner_m), ("top", to_top_m))
        if distance_m is not None and distance_m < 0
    ]
    if past:
        notes.append(
            f"It reaches past the {' and the '.join(past)} of the wall, where the pressures on a "
            "wall are not for it (ASCE 7 29.3.2, from memory)"
        )
    if to_top_m is None:
        notes.append("Wind speeds up over a parapet: give the distance to the top of the wall")
    return tuple(notes)
