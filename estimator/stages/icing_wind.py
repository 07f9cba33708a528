"""Wind on what ice has widened: every wind case again, on iced outlines, at the pressure with ice.

The outlines from the street and along the wall are drawn with the ice on. What ice adds to the
outline from any other side is taken as both of those, each as far as it is seen from there.
"""

from collections.abc import Callable, Sequence

import numpy as np

from estimator.geometry.measures import Floats
from estimator.resolve.job import Resolved
from estimator.stages.blowing import GroupWind, Wind, counted_m2
from estimator.stages.blowing_looks import FRONT, LEFT, stands_clear
from estimator.stages.blowing_rules import SENSES
from estimator.stages.posing import Group
from estimator.wind import ice, walls
from estimator.wind.figures import moment_about, travel

Added = Callable[[int, Floats], tuple[float, float]]
"""Gives what ice adds to the outline of an assembly (its row), turned so, in m2: from the street
and along the wall."""


def iced_winds(
    resolved: Resolved, groups: Sequence[Group], wind: Wind, added: Added, share: float
) -> tuple[Floats, ...]:
    """Return for each group the wind on what is iced, (s, a, k, 6) as its wind without ice.

    Args:
        resolved: The job.
        groups: Where everything is.
        wind: Without ice.
        added: What ice adds to outlines.
        share: Of the pressure, that goes with ice.
    """
    return tuple(
        share * _on_group(resolved, group, blown, added)
        for group, blown in zip(groups, wind.groups, strict=True)
    )


def _on_group(resolved: Resolved, group: Group, blown: GroupWind, added: Added) -> Floats:
    """Return the wind on the iced outlines of a group, at the whole pressure."""
    wrench = np.zeros_like(blown.wrench)
    for s, i in np.ndindex(blown.found.shape):
        if blown.found[s, i] is None:
            continue
        row = group.members[i]
        more_m2 = added(row, group.rotation[s, i])
        one = _on_clear if stands_clear(resolved.assemblies[row]) else _at_wall
        wrench[s, i] = one(resolved, row, blown, (s, i), more_m2)
    return wrench


def _reached(resolved: Resolved, row: int) -> list[int]:
    """Return the numbers of the directions that reach an assembly."""
    stands = resolved.assemblies[row].stands
    directions_deg = resolved.weather.sides.directions_deg
    return [n for n, d in enumerate(directions_deg) if walls.reaches(stands, d)]


def _at_wall(
    resolved: Resolved, row: int, blown: GroupWind, at: tuple[int, int],
    more_m2: tuple[float, float],
) -> Floats:  # fmt: skip
    """Return the wind (k, 6) on an assembly at a wall: both senses, and along it."""
    looks, catch = blown.found[at]
    assembly = resolved.assemblies[row]
    front_m2, side_m2 = (
        counted_m2(assembly, looks.at(direction, row)) + more
        for direction, more in zip((FRONT, LEFT), more_m2, strict=True)
    )
    reached = _reached(resolved, row)
    sides = resolved.weather.sides
    forces_n = walls.wall_forces(
        walls.Face(front_m2, side_m2),
        catch.pressure.pressure_pa,
        catch.coefficient.value,
        resolved.weather.along,
        np.deg2rad(np.array(sides.directions_deg)[reached]),
    )
    points_m = blown.points_m[at][reached][:, None]
    shares = np.array(catch.pressure.shares)[reached, None, None, None]
    forces_n = np.broadcast_to(
        shares * forces_n[:, :, None], (*forces_n.shape[:2], points_m.shape[2], 3)
    )
    moments_nm = moment_about(np.zeros(3), points_m, forces_n)
    wrench = np.zeros((len(sides.shares), len(SENSES), points_m.shape[2], 6))
    wrench[reached] = np.concatenate([forces_n, moments_nm], axis=-1)
    return wrench.reshape(-1, 6)


def _on_clear(
    resolved: Resolved, row: int, blown: GroupWind, at: tuple[int, int],
    more_m2: tuple[float, float],
) -> Floats:  # fmt: skip
    """Return the wind (k, 6) on what stands clear, larger as its outline from each side is.

    What was edge-on without ice is pushed at its middle.
    """
    sides, catch = resolved.weather.sides, blown.found[at][1]
    angles_rad = np.deg2rad(np.array(sides.directions_deg))
    bare_m2 = blown.area_m2[at]
    grown_m2 = np.asarray(ice.grown_m2(more_m2, angles_rad))
    wrench: Floats = blown.wrench[at].reshape(len(angles_rad), -1, 6).copy()
    shown = bare_m2 > 0
    wrench[shown] *= (1.0 + grown_m2[shown] / bare_m2[shown])[:, None, None]
    edge_on = [n for n in _reached(resolved, row) if not shown[n]]
    push_pa = catch.pressure.pressure_pa * catch.coefficient.value
    push_pa = push_pa * np.array(catch.pressure.shares)
    force_n = (push_pa * grown_m2)[edge_on, None] * travel(angles_rad[edge_on])
    moment_nm = moment_about(np.zeros(3), blown.at_m[at], force_n)
    wrench[edge_on] = np.concatenate([force_n, moment_nm], axis=-1)[:, None]
    return wrench.reshape(-1, 6)
