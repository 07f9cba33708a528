"""Arms: a straight cantilever from the wall along out, and what it holds the body by.

Six-number arrays are (across, up, out) of force, movement, then the same of moment, rotation.
"""

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy import linalg

Floats = NDArray[np.float64]
Held = tuple[bool, bool, bool, bool, bool, bool]

HOLDS: Mapping[str, Held] = MappingProxyType(
    {
        "welded": (True, True, True, True, True, True),
        "pin": (True, True, True, False, False, False),
        "hook": (False, True, True, False, False, False),
        "slide": (True, False, True, False, False, False),
        "rests": (False, True, False, False, False, False),
    }
)
"""What each way of holding the body resists: force, then moment, (across, up, out).

A plain convention of this program, no source. Each acts in both senses here, as long as it is at
work: `LIFTS_OFF` says which do not.
"""
LIFTS_OFF: Mapping[str, str] = MappingProxyType(
    {
        "rests": "the body only lies on this bracket, and lifts off where it is pushed up",
        "hook": "taken as hooked in: whether it can jump out when pushed up is not looked at",
    }
)
"""What to say of a way of holding that bears down but does not keep the body down.

Of these ``rests`` is worked out one way only (`estimator.supports.slackening`).
"""


class ArmSection(NamedTuple):
    """Cross-section of an arm that points out from the wall.

    Attributes:
        area_m2: Area.
        i_vertical_m4: Second moment of area about across: resists bending up and down.
        i_sideways_m4: Second moment of area about up: resists bending sideways.
        j_m4: Torsion constant.
    """

    area_m2: float
    i_vertical_m4: float
    i_sideways_m4: float
    j_m4: float


class Arm(NamedTuple):
    """A straight arm out from the wall.

    Attributes:
        length_m: Wall face to where the load bears, more than zero; the arm may go on beyond.
        section: Its cross-section.
        e_pa: Modulus of elasticity.
        g_pa: Shear modulus.
    """

    length_m: float
    section: ArmSection
    e_pa: float
    g_pa: float


class Root(NamedTuple):
    """How the wall holds an arm.

    Attributes:
        out_n_m: Force that pulls or pushes a plate one metre off its place: of the arm's plate,
            and of the stay's, each by itself.
        turn_nm_rad: Moment that tilts the arm's plate by one radian, about across and about up.
        pinned: The root turns freely about across, as on a hinge bolt. Only a stay holds it then.
    """

    out_n_m: float = math.inf
    turn_nm_rad: float = math.inf
    pinned: bool = False


BUILT_IN = Root()


def tip_flexibility(length_m: float, section: ArmSection, e_pa: float, g_pa: float) -> Floats:
    """Return the movement of an arm's tip for each unit action there, built in at the wall.

    Shear deformation and the give of wall and plate are left out.

    Args:
        length_m: Wall face to tip, more than zero.
        section: All entries more than zero.
        e_pa: Modulus of elasticity.
        g_pa: Shear modulus.

    Returns:
        (6, 6) float, symmetric: m and rad from N and N m.

    Raises:
        ValueError: A length, section value or modulus is not more than zero.

    References:
        Textbook deflections of a cantilever: end load and end couple.
    """
    if not all(value > 0 for value in (length_m, *section, e_pa, g_pa)):
        msg = f"an arm needs values above zero, got {length_m=}, {section}, {e_pa=}, {g_pa=}"
        raise ValueError(msg)
    vertical, sideways = e_pa * section.i_vertical_m4, e_pa * section.i_sideways_m4
    third, half = length_m**3 / 3, length_m**2 / 2
    flexibility = np.diag(
        [
            third / sideways,
            third / vertical,
            length_m / (e_pa * section.area_m2),
            length_m / vertical,
            length_m / sideways,
            length_m / (g_pa * section.j_m4),
        ]
    )
    # A tip pushed up turns its end face up too, which is a negative turn about across.
    flexibility[1, 3] = flexibility[3, 1] = -half / vertical
    flexibility[0, 4] = flexibility[4, 0] = half / sideways
    return flexibility


def carried(offset_m: float) -> Floats:
    """Return the movement further out for each unit movement of a point of a stiff arm.

    Args:
        offset_m: How much further out.

    Returns:
        (6, 6) float. Its transpose takes an action back to the point further in.
    """
    carrier = np.eye(6)
    carrier[0, 4], carrier[1, 3] = offset_m, -offset_m
    return carrier


def flexibility_between(arm: Arm, at_m: float, acts_at_m: float, root: Root = BUILT_IN) -> Floats:
    """Return the movement at one place of an arm for each unit action at another.

    A root that is pinned counts as built in here: alone it would not hold the arm.

    Args:
        arm: Its length does not matter.
        at_m: Where it moves, from the wall face.
        acts_at_m: Where the action is.
        root: How the wall gives.

    Returns:
        (6, 6) float; the transpose of the same with the places exchanged.

    Raises:
        ValueError: A size that is not more than zero.

    References:
        Cantilever; beyond the action the arm stays straight. Maxwell's reciprocal theorem.
    """
    if not (root.out_n_m > 0 and root.turn_nm_rad > 0):
        msg = f"a wall needs stiffnesses above zero, got {root}"
        raise ValueError(msg)
    nearer_m = min(at_m, acts_at_m)
    bent = tip_flexibility(nearer_m, *arm[1:])
    turn = 1 / root.turn_nm_rad
    wall = np.diag([0.0, 0.0, 1 / root.out_n_m, turn, turn, 0.0])
    bent += carried(nearer_m) @ wall @ carried(nearer_m).T
    return np.asarray(carried(at_m - nearer_m) @ bent @ carried(acts_at_m - nearer_m).T)


def released(stiffness: Floats, held: Held) -> Floats:
    """Return a stiffness with some directions freed, for a joint between arm and body.

    The freed directions carry nothing, and the arm is free to move in them.

    Args:
        stiffness: (6, 6) float, of the arm's tip.
        held: Which directions the joint still holds, as in `HOLDS`.

    Returns:
        (6, 6) float, zero in the rows and columns of the freed directions.

    References:
        Static condensation.
    """
    kept, freed = np.flatnonzero(held), np.flatnonzero(np.logical_not(held))
    condensed = np.zeros_like(stiffness)
    condensed[np.ix_(kept, kept)] = stiffness[np.ix_(kept, kept)]
    if freed.size:
        coupling = stiffness[np.ix_(kept, freed)]
        give = linalg.pinvh(stiffness[np.ix_(freed, freed)])
        condensed[np.ix_(kept, kept)] -= coupling @ give @ coupling.T
    return condensed


def moved(action: Floats, offset_m: Floats) -> Floats:
    """Return the same action taken about another point: a force brings its lever arm along.

    With the way from a bracket's wall-face middle to its bearing point this gives the action on
    the wall; with the way from the datum to a load's point, the load about the datum.

    Args:
        action: (..., 6) float: force and moment.
        offset_m: (..., 3) float: from the new point to the old one.
    """
    force, moment = action[..., :3], action[..., 3:]
    carried = moment + np.cross(offset_m, force)
    return np.concatenate([np.broadcast_to(force, carried.shape), carried], axis=-1)
