"""Wind and ice on a hand or pointer: what bends it and what turns its axle.

No published rule was found for the torque of wind on a hand, so this is an envelope of simple
mechanisms, each from plain statics. A flat hand square to the wind has none at all; real hands
are bent, so a twist of the blade is always among the cases.
"""

from typing import NamedTuple

from estimator.core.constants import GRAVITY_M_S2

ECCENTRICITY = 0.25
"""Of the width: how far off its middle the force on a board may act, EN 1991-1-4:2005, 7.4.3."""


class Side(NamedTuple):
    """An outline on one side of the axle: the blade, or the tail opposite.

    Attributes:
        area_m2: What the wind sees of it.
        radius_m: Axle to its middle.
        reach_m: Axle to its furthest point.
    """

    area_m2: float
    radius_m: float
    reach_m: float

    @property
    def moment_m3(self) -> float:
        """Return its area moment about the axle."""
        return self.area_m2 * self.radius_m


NO_SIDE = Side(0.0, 0.0, 0.0)
"""A hand that ends at its axle, or a gust that leaves the other side alone."""


class FaceWind(NamedTuple):
    """What wind square to the plane of turning does; none of it turns the axle.

    Attributes:
        force_n: On blade and tail, along the axle.
        root_moment_nm: Bending of the blade at the axle.
        twist_nm: Twisting of the blade about its own length, wind off its middle.
    """

    force_n: float
    root_moment_nm: float
    twist_nm: float


def face_wind(blade: Side, tail: Side, push_pa: float) -> FaceWind:
    """Return what wind square to the plane of turning does to a hand.

    Args:
        blade: Seen along the axle; its width is taken even along its length.
        tail: The same.
        push_pa: Pressure times the force coefficient of the face.
    """
    width_m = blade.area_m2 / blade.reach_m if blade.reach_m > 0 else 0.0
    return FaceWind(
        force_n=push_pa * (blade.area_m2 + tail.area_m2),
        root_moment_nm=push_pa * blade.moment_m3,
        twist_nm=push_pa * blade.area_m2 * ECCENTRICITY * width_m,
    )


def wind_torque(
    push_pa: float, blade: Side, tail: Side = NO_SIDE, tail_share: float = 1.0
) -> float:
    """Return the size of the torque of wind on a blade and, working against it, on its tail, N m.

    Args:
        push_pa: Pressure at the blade times the force coefficient of what the wind meets: of the
            edge, or of the face times the sine of its twist out of the plane of turning.
        blade: As the wind meets it.
        tail: The same; left out for a gust on the blade alone.
        tail_share: Push on the tail as a share of that on the blade: lower down, or on the back of
            what is hollow, it is another.
    """
    return abs(push_pa * (blade.moment_m3 - tail_share * tail.moment_m3))


def ice_torque(blade: Side, ice_m: float, ice_kg_m3: float) -> float:
    """Return the torque of ice on one face of the blade alone, the hand level, N m.

    Args:
        blade: Its face.
        ice_m: Thickness of the ice.
        ice_kg_m3: Its density.
    """
    return ice_kg_m3 * ice_m * GRAVITY_M_S2 * blade.moment_m3
