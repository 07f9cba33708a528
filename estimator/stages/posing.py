"""Posing: every position of every mover, and where each assembly then is."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from estimator.core.problems import RequestError
from estimator.geometry.measures import Floats
from estimator.geometry.placing import AXES, about_axis
from estimator.resolve.records import Assembly

FIXED = ""
AS_DRAWN = "as drawn"
AT_REST = 1e-9
"""A position this close to nought is the one as drawn: rad or m."""
MOST_STATES = 500
"""More positions of movers on movers than this are refused: nobody could read the result."""


@dataclass(frozen=True, slots=True)
class State:
    """One position of the movers of a group.

    Attributes:
        label: For print: "hand at 90 deg".
        values: Angle [rad] or way [m] by mover.
    """

    label: str
    values: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Group:
    """Assemblies that move together: all that is fixed, or one mover with what it carries.

    Attributes:
        mover: The mover nearest the building; blank for what is fixed.
        members: Rows of the assemblies.
        states: Positions, at least one; the one as drawn first, where it is among them.
        rotation: (s, a, 3, 3) from each member's frame to the job's.
        origin_m: (s, a, 3).
    """

    mover: str
    members: tuple[int, ...]
    states: tuple[State, ...]
    rotation: Floats
    origin_m: Floats


def pose(assemblies: Sequence[Assembly]) -> tuple[Group, ...]:
    """Return the groups of assemblies that move together, each in all its positions.

    Raises:
        RequestError: Movers on movers make more than `MOST_STATES` positions.
    """
    by_key = {assembly.key: assembly for assembly in assemblies}
    members: dict[str, list[int]] = {FIXED: []}
    for row, assembly in enumerate(assemblies):
        members.setdefault(_first_mover(assembly, by_key), []).append(row)
    return tuple(_group(mover, rows, assemblies, by_key) for mover, rows in members.items() if rows)


def _chain(assembly: Assembly, by_key: Mapping[str, Assembly]) -> Iterator[Assembly]:
    """Return an assembly and all that carries it, the building last."""
    yield assembly
    while assembly.carrier:
        assembly = by_key[assembly.carrier]
        yield assembly


def _first_mover(assembly: Assembly, by_key: Mapping[str, Assembly]) -> str:
    """Return the mover nearest the building that an assembly hangs from; blank for none."""
    moving = [link.key for link in _chain(assembly, by_key) if link.moves != "fixed"]
    return moving[-1] if moving else FIXED


def _group(
    mover: str, rows: Sequence[int], assemblies: Sequence[Assembly], by_key: Mapping[str, Assembly]
) -> Group:
    movers = [assemblies[row] for row in rows if assemblies[row].moves != "fixed"]
    states = tuple(_states(movers))
    poses = [[pose_of(assemblies[row], state.values, by_key) for row in rows] for state in states]
    return Group(
        mover, tuple(rows), states,
        np.array([[rotation for rotation, _ in row] for row in poses]),
        np.array([[origin for _, origin in row] for row in poses]),
    )  # fmt: skip


def _states(movers: Sequence[Assembly]) -> Iterator[State]:
    count = int(np.prod([len(mover.positions) for mover in movers])) if movers else 1
    if count > MOST_STATES:
        names = ", ".join(mover.key for mover in movers)
        msg = f"{names} stand on one another and make {count} positions; ask for fewer of each"
        raise RequestError(msg)
    for values in product(*(_drawn_first(mover.positions) for mover in movers)):
        words = [_words(m, value) for m, value in zip(movers, values, strict=True)]
        yield State(", ".join(words) or AS_DRAWN, {
            m.key: value for m, value in zip(movers, values, strict=True)
        })  # fmt: skip


def _drawn_first(positions: Sequence[float]) -> list[float]:
    """Return positions with the one as drawn, where it is among them, before the others."""
    return sorted(positions, key=lambda position: abs(position) > AT_REST)


def _words(mover: Assembly, value: float) -> str:
    amount = f"{np.degrees(value):.0f} deg" if mover.moves == "turns" else f"{1000 * value:.0f} mm"
    return f"{mover.key} at {amount}"


def carried(assembly: Assembly, by_key: Mapping[str, Assembly]) -> tuple[str, ...]:
    """Return an assembly and all that carries it, the one nearest the building last."""
    return tuple(link.key for link in _chain(assembly, by_key))


def pose_of(
    assembly: Assembly, values: Mapping[str, float], by_key: Mapping[str, Assembly]
) -> tuple[Floats, Floats]:
    """Return the rotation (3, 3) and the origin (3,) of an assembly in the job's frame.

    Args:
        assembly: The assembly.
        values: Angle [rad] or way [m] of each mover; one that is not named is as drawn.
        by_key: Every assembly.
    """
    rotation, origin_m = np.eye(3), np.zeros(3)
    for link in _chain(assembly, by_key):
        value = values.get(link.key, 0.0)
        if link.moves == "turns":
            turn = about_axis(link.axis, value)
            rotation, origin_m = turn @ rotation, turn @ origin_m
        elif link.moves == "slides":
            origin_m = origin_m + value * np.eye(3)[AXES[link.axis]]
        origin_m = origin_m + np.array(link.origin_m)
    return rotation, origin_m
