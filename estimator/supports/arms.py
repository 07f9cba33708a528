"""Arms: a straight cantilever from the wall along out, and what it holds the body by.

Six-number arrays are (across, up, out) of force, movement, then the same of moment, rotation.
"""

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

A plain convention of this program, no source. Each acts in both senses here: a body that is
lifted off what it only rests on shows as a bracket that pulls down.
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


def tip_stiffness(length_m: float, section: ArmSection, e_pa: float, g_pa: float) -> Floats:
    """Return the action that each unit movement of an arm's tip calls up, (6, 6) float.

    Arguments and errors as `tip_flexibility`, of which this is the inverse.
    """
    return np.asarray(linalg.inv(tip_flexibility(length_m, section, e_pa, g_pa)))


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
