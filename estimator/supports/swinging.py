"""Swinging: what hangs freely on a level axle, between its weight, the wind and its stops.

Weight turns it back to where it hangs plumb, the wind turns it out, and past its stops the stops
hold it. All of it is statics: nothing here says how hard it hits a stop, or how it swings in
gusts. The torque of the wind is taken to be the same however far it leans, as that of an even
pressure square to a flat face is; a real one falls off.

Angles are from its place as drawn, by the right-hand rule about the axle; so are torques.
"""

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from estimator.supports.movers import gravity_torque

Floats = NDArray[np.float64]

QUARTER_RAD = math.pi / 2
"""From plumb: so far out the weight turns back most, and beyond it ever less."""


class Pendulum(NamedTuple):
    """What gravity does to a thing on a free axle.

    Attributes:
        greatest_nm: The most that its weight can turn it back by.
        plumb_rad: Where it hangs without wind.
    """

    greatest_nm: float
    plumb_rad: float

    def torque_nm(self, angle_rad: float) -> float:
        """Return the torque of gravity at an angle: 0 where it hangs plumb, back towards it."""
        return -self.greatest_nm * math.sin(angle_rad - self.plumb_rad)


class Stops(NamedTuple):
    """What keeps a thing from swinging further.

    Attributes:
        low_rad: Least angle.
        high_rad: Greatest angle.
        arm_m: From the axle to where a stop bears, square to the way it bears.
    """

    low_rad: float
    high_rad: float
    arm_m: float


class StopForce(NamedTuple):
    """The force on the stops of either side, N; 0 where they are not touched."""

    low_n: float
    high_n: float


def pendulum(unbalance_kgm: Floats, axis: Floats) -> Pendulum:
    """Return what gravity does to a thing on a free axle.

    Args:
        unbalance_kgm: (3,) float: its mass times the way from the axle to its centre, as drawn.
        axis: (3,) float: unit vector of the axle.

    References:
        The torque of a weight about a fixed axle is a sine of the angle of turn: statics.
    """
    drawn_nm, quarter_nm = gravity_torque(unbalance_kgm, axis, np.array([0.0, QUARTER_RAD]))
    return Pendulum(math.hypot(drawn_nm, quarter_nm), math.atan2(drawn_nm, -quarter_nm))


def leaned_rad(hung: Pendulum, wind_nm: float) -> float:
    """Return the angle at which weight and wind balance; infinite when the weight is too little.

    A thing in perfect balance stays as drawn without wind, and is turned over by any.
    """
    if abs(wind_nm) > hung.greatest_nm:
        return math.copysign(math.inf, wind_nm)
    if not hung.greatest_nm > 0:
        return hung.plumb_rad
    return hung.plumb_rad + math.asin(wind_nm / hung.greatest_nm)


def stop_force(hung: Pendulum, stops: Stops, wind_nm: float) -> StopForce:
    """Return what the stops must hold at rest against them: wind less what the weight takes.

    Raises:
        ValueError: The stops have no lever arm, or no room between them.
    """
    if not (stops.arm_m > 0 and stops.low_rad < stops.high_rad):
        msg = f"stops need an arm above zero and room to swing between them, got {stops}"
        raise ValueError(msg)
    low_nm = -(wind_nm + hung.torque_nm(stops.low_rad))
    high_nm = wind_nm + hung.torque_nm(stops.high_rad)
    return StopForce(max(low_nm, 0.0) / stops.arm_m, max(high_nm, 0.0) / stops.arm_m)


def touching_share(hung: Pendulum, stops: Stops, wind_nm: float) -> float:
    """Return the share of a wind's torque at which it first touches the stop on its lee side.

    Nought when it lies against that stop without wind; infinite without wind.
    """
    if wind_nm == 0:
        return math.inf
    stop_rad = stops.high_rad if wind_nm > 0 else stops.low_rad
    way = math.copysign(1.0, wind_nm)
    # Once out as far as the weight can hold at all, it goes over to the stop by itself.
    room_rad = min(way * (stop_rad - hung.plumb_rad), QUARTER_RAD)
    return max(hung.greatest_nm * math.sin(room_rad), 0.0) / abs(wind_nm)
