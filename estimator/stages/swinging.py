"""Swinging: how far the wind leans what hangs free on a level axle, and what its stops feel."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from estimator.geometry.measures import Floats
from estimator.geometry.placing import AXES
from estimator.resolve.job import Resolved
from estimator.resolve.stops import hangs_free
from estimator.stages.blowing import Wind
from estimator.stages.posing import Group, carried
from estimator.stages.turning import Turned
from estimator.supports.swinging import (
    Pendulum,
    StopForce,
    Stops,
    leaned_rad,
    pendulum,
    stop_force,
    touching_share,
)

LIGHTER = 0.5
"""Speed of the lighter wind as a share of the one used: its pressure is the square of that."""
STILL_NM = 1e-9
"""A torque no larger than this turns nothing."""


class Lean(NamedTuple):
    """What one wind does.

    Attributes:
        direction_deg: Side it comes from.
        speed: As a share of the speed of the wind used.
        torque_nm: Of the wind about the axle: the largest of any position, sense and place.
        free_rad: Where it would come to rest without stops; infinite where it is turned over.
        rests_rad: Where it comes to rest: the same, or at a stop.
        stop_n: On the stops of either side together; None without stops.
        touches: Speed at which it first touches a stop, as a share of the wind used; NaN without
            stops, infinite where it never does.
    """

    direction_deg: float
    speed: float
    torque_nm: float
    free_rad: float
    rests_rad: float
    stop_n: StopForce | None
    touches: float


@dataclass(frozen=True, slots=True)
class Swung:
    """What hangs free on a level axle.

    Attributes:
        assembly: The mover.
        axis: Axis its axle lies along.
        axle_m: A point of the axle, as drawn, from the datum.
        hung: What gravity does.
        stops: None until somebody enters them.
        resting: On the stops without wind; None without stops.
        leans: By direction, the wind used before the lighter one.
    """

    assembly: str
    axis: str
    axle_m: tuple[float, float, float]
    hung: Pendulum
    stops: Stops | None
    resting: StopForce | None
    leans: tuple[Lean, ...]


def swing(
    resolved: Resolved, groups: Sequence[Group], wind: Wind, moving: Sequence[Turned]
) -> tuple[Swung, ...]:
    """Return everything that hangs free on a level axle.

    Args:
        resolved: The job.
        groups: Where everything is.
        wind: On everything.
        moving: What turns, for its balance.
    """
    unbalance = {turned.assembly: turned.unbalance_kgm for turned in moving}
    return tuple(
        _swung(resolved, groups, wind, row, unbalance[assembly.key])
        for row, assembly in enumerate(resolved.assemblies)
        if hangs_free(assembly, resolved.drives.get(assembly.key))
    )


def _swung(
    resolved: Resolved, groups: Sequence[Group], wind: Wind, row: int, unbalance_kgm: Floats
) -> Swung:
    assembly = resolved.assemblies[row]
    stops = resolved.stops.get(assembly.key)
    hung = pendulum(unbalance_kgm, np.eye(3)[AXES[assembly.axis]])
    g = next(n for n, group in enumerate(groups) if row in group.members)
    group = groups[g]
    origin_m = group.origin_m[0, group.members.index(row)]
    torques_nm = _torques_nm(resolved, group, wind.groups[g].wrench, row)
    return Swung(
        assembly=assembly.key,
        axis=assembly.axis,
        axle_m=(float(origin_m[0]), float(origin_m[1]), float(origin_m[2])),
        hung=hung,
        stops=stops,
        resting=stop_force(hung, stops, 0.0) if stops else None,
        leans=tuple(_leans(hung, stops, wind, torques_nm)) if wind.known else (),
    )


def _torques_nm(resolved: Resolved, group: Group, wrench: Floats, row: int) -> Floats:
    """Return the torque of the wind about the axle, (s, k), in each position and case.

    Args:
        resolved: The job.
        group: What moves with the mover.
        wrench: (s, a, k, 6) of the wind on it about the datum.
        row: Of the mover.
    """
    by_key = {assembly.key: assembly for assembly in resolved.assemblies}
    mover = resolved.assemblies[row]
    on_it = [
        i
        for i, member in enumerate(group.members)
        if mover.key in carried(resolved.assemblies[member], by_key)
    ]
    own = group.members.index(row)
    axis = group.rotation[:, own, :, AXES[mover.axis]]
    acting = wrench[:, on_it].sum(axis=1)
    at_datum_nm = np.cross(group.origin_m[:, own, None], acting[..., :3])
    return np.asarray(np.einsum("ski,si->sk", acting[..., 3:] - at_datum_nm, axis))


def _leans(hung: Pendulum, stops: Stops | None, wind: Wind, torques_nm: Floats) -> Iterator[Lean]:
    """Yield what the wind does from each side that turns it, the larger torque each way."""
    sides_deg = np.array([case.direction_deg for case in wind.cases])
    for direction_deg in dict.fromkeys(sides_deg.tolist()):
        there_nm = torques_nm[:, sides_deg == direction_deg]
        for torque_nm in (min(float(there_nm.min()), 0.0), max(float(there_nm.max()), 0.0)):
            if abs(torque_nm) <= STILL_NM:
                continue
            for speed in (1.0, LIGHTER):
                yield _lean(hung, stops, (direction_deg, speed), speed**2 * torque_nm)


def _lean(
    hung: Pendulum, stops: Stops | None, blown: tuple[float, float], torque_nm: float
) -> Lean:
    free_rad = leaned_rad(hung, torque_nm)
    if stops is None:
        return Lean(*blown, torque_nm, free_rad, free_rad, None, math.nan)
    rests_rad = min(max(free_rad, stops.low_rad), stops.high_rad)
    touches = blown[1] * math.sqrt(touching_share(hung, stops, torque_nm))
    held = stop_force(hung, stops, torque_nm)
    return Lean(*blown, torque_nm, free_rad, rests_rad, held, touches)
