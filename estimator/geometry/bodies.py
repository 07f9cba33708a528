"""Bodies: a mass, its centre and its second moment, and how they move and join.

The second moment tensor S = integral of x x^T dm about the body's own centre is kept in place of
the inertia I = tr(S) 1 - S: it turns as R S R^T and joins by adding m d d^T.
"""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats
from estimator.geometry.placing import Copies

SIX = ((0, 0), (1, 1), (2, 2), (0, 1), (1, 2), (2, 0))
"""Where the six numbers of an inertia stand in its tensor: cc, uu, oo, cu, uo, co."""


class Body(NamedTuple):
    """One or many bodies.

    Attributes:
        mass_kg: (...).
        centre_m: (..., 3).
        second_kgm2: (..., 3, 3) second moment tensor about the centre.
    """

    mass_kg: Floats
    centre_m: Floats
    second_kgm2: Floats


def moved(body: Body, by_m: npt.ArrayLike) -> Body:
    """Return bodies moved by (..., 3)."""
    return body._replace(centre_m=body.centre_m + np.asarray(by_m))


def rotated(body: Body, rotation: Floats) -> Body:
    """Return bodies turned about the origin by (..., 3, 3); a mirror matrix does as well.

    Leading axes broadcast: (m, 1, 3, 3) turns n bodies to m positions.
    """
    centre_m = np.einsum("...ij,...j->...i", rotation, body.centre_m)
    second_kgm2 = rotation @ body.second_kgm2 @ np.swapaxes(rotation, -1, -2)
    mass_kg = np.broadcast_to(body.mass_kg, centre_m.shape[:-1])
    return Body(mass_kg, centre_m, second_kgm2)


def joined(body: Body) -> Body:
    """Return the one body that several on the first axis make together."""
    one = joined_by_group(body, np.zeros(len(body.mass_kg), dtype=np.intp), 1)
    return Body(one.mass_kg[0], one.centre_m[0], one.second_kgm2[0])


def joined_by_group(body: Body, group: npt.NDArray[np.intp], groups: int) -> Body:
    """Return the bodies that n bodies make together in groups.

    Args:
        body: n bodies.
        group: (n,) number of the group each belongs to, from 0.
        groups: How many groups there are. One without mass has its centre at the plain middle of
            its bodies, one without bodies at the origin.
    """
    mass_kg = _summed(body.mass_kg, group, groups)
    weight = np.where(mass_kg[group] > 0, body.mass_kg, 1.0)
    total = _summed(weight, group, groups)
    moment = _summed(weight[:, None] * body.centre_m, group, groups)
    centre_m = moment / np.where(total > 0, total, 1.0)[:, None]
    off_m = body.centre_m - centre_m[group]
    about = body.second_kgm2 + body.mass_kg[:, None, None] * off_m[:, :, None] * off_m[:, None, :]
    return Body(mass_kg, centre_m, _summed(about, group, groups))


def _summed(values: Floats, group: npt.NDArray[np.intp], groups: int) -> Floats:
    """Return sums over the first axis by group."""
    total = np.zeros((groups, *values.shape[1:]))
    np.add.at(total, group, values)
    return total


def set_out(body: Body, copies: Copies) -> Body:
    """Return the one body that the copies of a body make, each turned with its place."""
    places = rotated(body, copies.rotations)
    smear_kgm2 = places.mass_kg[:, None, None] * copies.smear_m2
    return joined(
        Body(
            places.mass_kg,
            places.centre_m + copies.offsets_m,
            places.second_kgm2 + smear_kgm2,
        )
    )


def inertia_from_second(second_kgm2: Floats) -> Floats:
    """Return the (..., 3, 3) inertia tensors [kg m2] of second moment tensors."""
    trace = np.trace(second_kgm2, axis1=-2, axis2=-1)
    inertia_kgm2: Floats = trace[..., None, None] * np.eye(3) - second_kgm2
    return inertia_kgm2


def six_numbers(inertia_kgm2: Floats) -> Floats:
    """Return (..., 6): cc, uu, oo, cu, uo, co as they stand in the tensor.

    The products carry the tensor's sign: cu is minus the integral of across x up dm.
    """
    return np.stack([inertia_kgm2[..., i, j] for i, j in SIX], axis=-1)
