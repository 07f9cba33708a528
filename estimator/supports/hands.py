"""Wind and ice on a hand or pointer: what bends it and what turns its axle.

No published rule was found for the torque of wind on a hand, so this is an envelope of simple
mechanisms, each from plain statics. A flat hand square to the wind has none at all; real hands
are bent, so a twist of the blade is always among the cases.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from estimator.core.constants import GRAVITY_M_S2

Floats = NDArray[np.float64]

ECCENTRICITY = 0.25
"""Of the width: how far off its middle the force on a board may act, EN 1991-1-4:2005, 7.4.3."""


class Hand(NamedTuple):
    """A straight hand of even width: a blade and, beyond the axle, a tail.

    Attributes:
        blade_m: Axle to tip.
        tail_m: Axle to the end of the tail; 0 without one.
        width_m: Across the hand, in the plane of turning.
        thickness_m: Of its edge.
    """

    blade_m: float
    tail_m: float
    width_m: float
    thickness_m: float


class FaceWind(NamedTuple):
    """What wind square to the plane of turning does.

    Attributes:
        force_n: On blade and tail, along the axle.
        root_moment_nm: Bending of the blade at the axle.
        twist_nm: Twisting of the blade about its own length, wind off its middle.
        axle_torque_nm: None: the force is parallel to the axle.
    """

    force_n: float
    root_moment_nm: float
    twist_nm: float
    axle_torque_nm: float


class Exposure(NamedTuple):
    """What a hand is exposed to.

    Attributes:
        pressure_pa: Wind pressure at the blade.
        face_coefficient: Force coefficient of the hand's face.
        edge_coefficient: Force coefficient of its edge.
        pitch_rad: Twist or bend of the hand out of its plane.
        ice_m: Thickness of ice on one half; 0 for none.
        ice_kg_m3: Density of the ice.
    """

    pressure_pa: float
    face_coefficient: float
    edge_coefficient: float
    pitch_rad: float
    ice_m: float
    ice_kg_m3: float


class TorqueCase(NamedTuple):
    """One way for a hand to be turned, with the size of the torque; it can act either way.

    Attributes:
        mechanism: What happens, in a few words.
        torque_nm: About the axle.
        why: How the figure comes about.
    """

    mechanism: str
    torque_nm: float
    why: str


def face_wind(hand: Hand, coefficient: float, pressure_pa: float) -> FaceWind:
    """Return what wind square to the plane of turning does to a hand.

    Args:
        hand: The hand.
        coefficient: Force coefficient of its face.
        pressure_pa: The same all over.
    """
    line_n_m = coefficient * pressure_pa * hand.width_m
    return FaceWind(
        force_n=line_n_m * (hand.blade_m + hand.tail_m),
        root_moment_nm=line_n_m * hand.blade_m**2 / 2,
        twist_nm=line_n_m * hand.blade_m * ECCENTRICITY * hand.width_m,
        axle_torque_nm=pitched_wind_torque(hand, coefficient, 0.0, pressure_pa, pressure_pa),
    )


def edge_wind_torque(
    hand: Hand, coefficient: float, pressure_pa: float, tail_pressure_pa: float
) -> float:
    """Return the torque of wind along the plane of turning, square to the hand's edge, N m.

    Args:
        hand: The hand.
        coefficient: Force coefficient of its edge.
        pressure_pa: At the blade.
        tail_pressure_pa: At the tail: the same in an even wind, 0 for a gust on the blade
            alone, its own height's pressure for an upright hand.
    """
    return coefficient * hand.thickness_m * _first_moment(hand, pressure_pa, tail_pressure_pa)


def pitched_wind_torque(
    hand: Hand, coefficient: float, pitch_rad: float, pressure_pa: float, tail_pressure_pa: float
) -> float:
    """Return the torque of wind square to the plane of turning on a twisted or bent hand, N m.

    Args:
        hand: The hand.
        coefficient: Force coefficient of its face.
        pitch_rad: Angle of the hand's face out of the plane of turning.
        pressure_pa: At the blade.
        tail_pressure_pa: At the tail, as in `edge_wind_torque`.
    """
    across_n_m = coefficient * hand.width_m * np.sin(pitch_rad)
    return float(across_n_m * _first_moment(hand, pressure_pa, tail_pressure_pa))


def cupped_wind_torque(
    hand: Hand, hollow_coefficient: float, back_coefficient: float, pressure_pa: float
) -> float:
    """Return the torque of wind into a half-tube hand whose hollow looks along its plane, N m.

    The blade takes the wind in its hollow and the tail on its back, as a cup wheel does.

    Args:
        hand: The hand; its width is the opening of the hollow.
        hollow_coefficient: Force coefficient, wind into the hollow.
        back_coefficient: Force coefficient, wind on the back.
        pressure_pa: The same all over.
    """
    return hand.width_m * _first_moment(
        hand, hollow_coefficient * pressure_pa, back_coefficient * pressure_pa
    )


def blade_ice_torque(hand: Hand, ice_m: float, ice_kg_m3: float) -> float:
    """Return the torque of ice on one face of the blade alone, the hand level, N m."""
    area_m2 = hand.blade_m * hand.width_m
    return face_ice_torque(area_m2, hand.blade_m / 2, ice_m, ice_kg_m3)


def face_ice_torque(area_m2: float, radius_m: float, ice_m: float, ice_kg_m3: float) -> float:
    """Return the torque of ice on one face to one side of the axle, that side level, N m.

    Args:
        area_m2: The face.
        radius_m: Axle to the middle of the face.
        ice_m: Thickness of the ice.
        ice_kg_m3: Its density.
    """
    return ice_kg_m3 * ice_m * area_m2 * GRAVITY_M_S2 * radius_m


def parts_in_wind(
    pressure_pa: float, coefficient: float, area_m2: Floats, radius_m: Floats
) -> tuple[float, float]:
    """Return the torque (N m) and side force (N) of wind on the edges of a hand's parts.

    Args:
        pressure_pa: The same all over.
        coefficient: Force coefficient of an edge.
        area_m2: (n,) float: edge area of each part.
        radius_m: (n,) float: axle to its middle, negative on the tail's side.
    """
    force_n = pressure_pa * coefficient * area_m2
    return float(force_n @ radius_m), float(force_n.sum())


def torque_cases(hand: Hand, exposure: Exposure) -> tuple[TorqueCase, ...]:
    """Return every mechanism that can turn a hand, with its torque."""
    face, edge, q = exposure.face_coefficient, exposure.edge_coefficient, exposure.pressure_pa
    pitch, degrees = exposure.pitch_rad, f"{np.degrees(exposure.pitch_rad):g} deg"
    return (
        TorqueCase(
            "wind square to a flat hand",
            face_wind(hand, face, q).axle_torque_nm,
            "the force is parallel to the axle",
        ),
        TorqueCase(
            "wind square to a twisted hand, even",
            pitched_wind_torque(hand, face, pitch, q, q),
            f"face twisted {degrees}; the tail works against the blade",
        ),
        TorqueCase(
            "wind square to a twisted hand, gust on the blade alone",
            pitched_wind_torque(hand, face, pitch, q, 0.0),
            f"face twisted {degrees}; no wind on the tail",
        ),
        TorqueCase(
            "wind along the plane, even",
            edge_wind_torque(hand, edge, q, q),
            "on the edge; the tail works against the blade",
        ),
        TorqueCase(
            "wind along the plane, gust on the blade alone",
            edge_wind_torque(hand, edge, q, 0.0),
            "on the edge; no wind on the tail",
        ),
        TorqueCase(
            "ice on one side",
            blade_ice_torque(hand, exposure.ice_m, exposure.ice_kg_m3),
            f"{exposure.ice_m * 1e3:g} mm on the blade's face, hand level",
        ),
    )


def _first_moment(hand: Hand, on_blade: float, on_tail: float) -> float:
    """Return the moment about the axle of two even loads per metre, blade less tail."""
    return (on_blade * hand.blade_m**2 - on_tail * hand.tail_m**2) / 2
