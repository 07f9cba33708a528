"""Wind on what hangs against a building or in front of it.

EN 1991-1-4 has no coefficient for a thing fixed to a wall. So both senses are taken at full size,
pressed to the wall and pulled off it, from every direction the wall can be reached from, with the
drag along the wall beside them.

The zones and coefficients of 7.2.2 were read in public places that agree: a transcription of Table
7.1, a code by the Danish annex and, for the coefficients, the Spanish rules, which have the same
ones. The bound e/5 and the heights are from memory.
"""

from collections.abc import Mapping
from math import cos, inf, radians
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from estimator.wind.boards import SIGNBOARD
from estimator.wind.charts import rectangle_coefficient, require_positive
from estimator.wind.figures import travel
from estimator.wind.handbook import drag
from estimator.wind.records import Coefficient, FloatArray, Numbers

BEHIND_TOLERANCE = 1e-9
"""Rounding of 90 degrees in radians must not put it behind the wall."""
FRICTION = 0.04
"""EN 1991-1-4:2005, 7.5, Table 7.10, surfaces with ripples, ribs or folds, as in a public
transcription of the tables of SS EN 1991-1-4:2009. Steel Buildings in Europe, Part 3, 8.2.2, prints
0.03 for it."""
ALONG_WALL = 1.3
"""As a closed body: engineering judgement."""
SENSES = ((-1.0, "pressed to the wall"), (1.0, "pulled off the wall"))
EDGE_PARTS = 5.0
"""7.2.2(2), Figure 7.5: zone A ends at e/5 from the corner, as coded in a public program for zones
of the same shape, and from memory."""


class Standing(NamedTuple):
    """How the wind meets what stands in one way.

    Attributes:
        both_senses: Loaded normal to the wall, in and out.
        from_behind: Reached by wind over the building.
        by_building: The pressure is read at the height of the building.
    """

    both_senses: bool
    from_behind: bool
    by_building: bool


STANDINGS: Mapping[str, Standing] = MappingProxyType(
    {
        "flat to wall": Standing(both_senses=True, from_behind=False, by_building=True),
        "off wall": Standing(both_senses=True, from_behind=False, by_building=True),
        "projecting": Standing(both_senses=False, from_behind=False, by_building=False),
        "free": Standing(both_senses=False, from_behind=True, by_building=False),
    }
)


class ReferenceHeight(NamedTuple):
    """A height above the ground, and why it is that one."""

    height_m: float
    reason: str


class Face(NamedTuple):
    """What an assembly on a wall shows to the wind.

    Attributes:
        front_area_m2: Outline from the street.
        side_area_m2: Outline along the wall.
    """

    front_area_m2: float
    side_area_m2: float


class CornerZone(NamedTuple):
    """Where on a side wall a place lies.

    Attributes:
        letter: A next to the corner, then B, then C.
        edge_m: e, the smaller of the building's width across the wind and twice its height.
        zone_a_m: Width of zone A from the corner.
        whole: External pressure coefficient for 10 m2 and more.
        local: The same for 1 m2 and less.
        reason: In a sentence.
    """

    letter: str
    edge_m: float
    zone_a_m: float
    whole: float
    local: float
    reason: str


ZONES: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"A": (-1.2, -1.4), "B": (-0.8, -1.1), "C": (-0.5, -0.5), "D": (0.8, 1.0)}
)
"""Table 7.1: c_pe,10 and c_pe,1 of walls along the wind from the corner on, and facing it (D, for a
building at least as high as it is deep; less for a lower one)."""
WHOLE_AREA_M2, LOCAL_AREA_M2 = 10.0, 1.0


def reaches(stands: str, direction_deg: float) -> bool:
    """Return whether wind from a direction is looked at for what stands in this way."""
    from_behind = cos(radians(direction_deg)) < -BEHIND_TOLERANCE
    return STANDINGS[stands].from_behind or not from_behind


def top_height(top_height_m: float) -> ReferenceHeight:
    """Return the height at which EN 1991-1-4 reads the pressure on bars, parts added up one by one.

    References:
        EN 1991-1-4:2005, 7.6, 7.7, 7.8, 7.9.2 and 7.11: the highest point of the section looked at,
        from memory. Boards (7.4.3) and balls (7.10) are read at their middle, which is less.
    """
    return ReferenceHeight(
        top_height_m,
        "its top, as for bars, the highest point of what is looked at (EN 1991-1-4 7.6 to 7.9 and "
        "7.11, from memory)",
    )


def reference_height(
    stands: str, middle_height_m: float, building_height_m: float | None
) -> ReferenceHeight:
    """Return the height at which EN 1991-1-4 reads the pressure on a board, or at a wall.

    Args:
        stands: A key of ``STANDINGS``.
        middle_height_m: Middle of the thing above the ground.
        building_height_m: Height of the building, where known.

    References:
        EN 1991-1-4:2005, 7.4.3(1) for boards: z_g + h/2. 7.2.2(1) for walls: the building's height
        where that is no more than its width, from memory; for taller buildings this is cautious.
    """
    if not STANDINGS[stands].by_building:
        return ReferenceHeight(
            middle_height_m, "its own middle, as for a free board (EN 1991-1-4 7.4.3)"
        )
    if building_height_m is None:
        return ReferenceHeight(
            middle_height_m,
            "its own middle, because the building height is not known: the rule for what lies "
            "against a wall asks for the building height, which gives more",
        )
    return ReferenceHeight(
        max(building_height_m, middle_height_m),
        "the building's height, as for its walls (EN 1991-1-4 7.2.2, from memory)",
    )


def by_area(letter: str, area_m2: float) -> float:
    """Return the external pressure coefficient of a zone for a loaded area.

    References:
        EN 1991-1-4:2005, 7.2.1(1), Figure 7.2: straight on a logarithmic axis between 1 and
        10 m2. From memory.
    """
    whole, local = ZONES[letter]
    share = float(np.log10(np.clip(area_m2, LOCAL_AREA_M2, WHOLE_AREA_M2)))
    return local + share * (whole - local)


def anywhere() -> tuple[tuple[str, float], ...]:
    """Return what a wall itself has in each of its zones, for what may hang in any of them."""
    return tuple(
        (f"the wall itself, zone {letter}, c_pe,1", local) for letter, (_, local) in ZONES.items()
    )


def on_the_spot(
    zone: CornerZone, distance_m: float, area_m2: float
) -> tuple[tuple[str, float], ...]:
    """Return what a wall itself has where a thing hangs, suction and pressure."""
    return (
        (
            (
                f"suction on the wall itself, zone {zone.letter}, {distance_m:.2f} m from the "
                f"corner, over {area_m2:.2g} m2"
            ),
            by_area(zone.letter, area_m2),
        ),
        (f"pressure on the wall itself, zone D, over {area_m2:.2g} m2", by_area("D", area_m2)),
    )


def assumed_on_wall(others: tuple[tuple[str, float], ...] | None = None) -> Coefficient:
    """Return the coefficient normal to a wall until somebody enters one; both senses.

    Args:
        others: What the wall itself has there; every zone when not told.
    """
    return Coefficient(
        SIGNBOARD,
        "assumed on a wall: the free-standing board value, in both senses",
        "EN 1991-1-4:2005, 7.4.3, outside what that clause covers",
        confirmed=False,
        others=anywhere() if others is None else others,
    )


class Along(NamedTuple):
    """What drags a thing along the wall it hangs against.

    Attributes:
        drag: On its side outline.
        friction: On its front outline, c_fr.
    """

    drag: Coefficient
    friction: float = FRICTION


def assumed_along_wall() -> Coefficient:
    """Return the drag coefficient along a wall, on the side outline, until one is entered."""
    return Coefficient(
        ALONG_WALL,
        "assumed along a wall: as a closed body",
        "engineering judgement; no clause covers it",
        confirmed=False,
        others=(
            ("cube in smooth flow, handbook", drag("cube, face to the wind").value),
            ("long block, EN 1991-1-4 Figure 7.23", float(rectangle_coefficient(10.0))),
        ),
    )


ASSUMED_ALONG = Along(assumed_along_wall())
"""Until somebody enters either."""


def corner_zone(
    distance_m: float, building_height_m: float, crosswind_width_m: float = inf
) -> CornerZone:
    """Return the zone of a side wall that a place lies in, by its distance from the corner.

    Args:
        distance_m: From the corner the wind meets first.
        building_height_m: h.
        crosswind_width_m: b, of the building across a wind along this wall; where it is not known
            the zones come out at their widest.

    References:
        EN 1991-1-4:2005, 7.2.2, Figure 7.5 (e/5 from memory) and Table 7.1.
    """
    require_positive(building_height_m=building_height_m, crosswind_width_m=crosswind_width_m)
    edge_m = min(crosswind_width_m, 2 * building_height_m)
    zone_a_m = edge_m / EDGE_PARTS
    letter = "A" if distance_m < zone_a_m else "B" if distance_m < edge_m else "C"
    whole, local = ZONES[letter]
    return CornerZone(
        letter,
        edge_m,
        zone_a_m,
        whole,
        local,
        f"{distance_m:.2f} m from the corner is zone {letter} of a wall along the wind; zone A, "
        f"where suction is strongest, reaches {zone_a_m:.2f} m (EN 1991-1-4 7.2.2; e/5 from "
        "memory)",
    )


def edge_notes(
    to_corner_m: float | None,
    to_top_m: float | None,
    building_height_m: float | None,
    crosswind_width_m: float = inf,
) -> tuple[str, ...]:
    """Return what to say about corner and parapet; distances from the outline's nearest edges.

    Args:
        to_corner_m: Nearest edge of the outline to the nearest corner of the wall.
        to_top_m: Upper edge to the top of the wall; negative when it stands higher.
        building_height_m: Height of the building.
        crosswind_width_m: b, of the building across a wind along this wall, where it is known.
    """
    notes = []
    if to_corner_m is None or building_height_m is None:
        notes.append(
            "Suction grows near the corner of a building: give the building height and the "
            "distance to the nearest corner"
        )
    else:
        distance_m = max(to_corner_m, 0.0)
        notes.append(corner_zone(distance_m, building_height_m, crosswind_width_m).reason)
        if to_corner_m < 0:
            notes.append(
                f"It reaches {-to_corner_m:.2f} m past the corner, where the wind goes round it as "
                "round a free-standing board"
            )
    if to_top_m is None:
        notes.append("Wind speeds up over a parapet: give the distance to the top of the wall")
    elif to_top_m < 0:
        notes.append(
            f"It stands {-to_top_m:.2f} m above the top of the wall, where wind from behind "
            "reaches it and EN 1991-1-4 7.4.1 treats parapets as free-standing walls"
        )
    return tuple(notes)


def wall_forces(
    face: Face, pressure_pa: float, normal: float, along: Along, directions_rad: Numbers
) -> FloatArray:
    """Return the forces on what hangs against a wall, (..., 2, 3) in N: pressed, then pulled off.

    Normal to the wall, full size in both senses whatever the direction. Along the wall, drag of the
    side outline and friction on the front, with the part of the wind that blows that way.

    Args:
        face: The outlines.
        pressure_pa: Peak pressure.
        normal: Coefficient on the front outline.
        along: Drag on the side outline, friction on the front.
        directions_rad: Sides the wind comes from, none behind the wall.

    Raises:
        ValueError: If a direction lies behind the wall.
    """
    wind = travel(directions_rad)
    if np.any(wind[..., 2] > BEHIND_TOLERANCE):
        msg = "wind from behind does not reach what hangs against a wall: keep to 270-0-90 degrees"
        raise ValueError(msg)
    across = wind[..., 0]
    dragged_m2 = along.drag.value * face.side_area_m2 + along.friction * face.front_area_m2
    drag_n = pressure_pa * dragged_m2
    normal_n = pressure_pa * normal * face.front_area_m2
    forces_n = np.zeros((*across.shape, len(SENSES), 3))
    forces_n[..., 0] = (drag_n * across * np.abs(across))[..., np.newaxis]
    forces_n[..., 2] = [sign * normal_n for sign, _ in SENSES]
    return forces_n
