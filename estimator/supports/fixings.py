"""Fixings of a wall plate by rules: shear of a group, and pulls by where the plate is said to turn.

The rules of thumb stand beside the general answer of `estimator.supports.contact`, to show what
they leave out. Actions are (across, up, out) of force, then of moment,
on the wall about the middle of the plate. What a fixing or a wall can carry is not here.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

FEWEST_TESTS = 3
"""Proof tests in each area that differs, at the least."""


class ProofTest(NamedTuple):
    """One way of proof testing.

    Attributes:
        share: Of the fixings in an area that are tested.
        times: The characteristic action they are tested to.
    """

    share: float
    times: float


PROOF_TESTS = (ProofTest(0.025, 1.5), ProofTest(0.05, 1.25))
"""BS 8539:2012 Annex B.3, as quoted on a fixings page; the standard itself was not seen."""


def group_shear(points_m: Floats, action: ArrayLike) -> Floats:
    """Return the shear of each fixing, shared evenly and by a turn about their middle.

    All fixings take part, so their holes must be filled; friction takes nothing.

    Args:
        points_m: (k, 2) float: fixings (across, up) from the middle of the plate, one or more.
        action: (..., 6) float: only the forces across and up and the moment about out count here.

    Returns:
        (..., k, 2) float: what each passes to the wall across and up.

    Raises:
        ValueError: A single fixing, or several at one place, cannot hold a turn about out.

    References:
        Elastic group of fixings, as in Budynas and Nisbett, Shigley's Mechanical Engineering
        Design, 8-12.
    """
    actions = np.asarray(action, dtype=float)
    middle_m = points_m.mean(axis=0)
    ways_m = points_m - middle_m
    polar_m2 = float(np.sum(ways_m**2))
    force = actions[..., :2]
    turn_nm = actions[..., 5] - (middle_m[0] * force[..., 1] - middle_m[1] * force[..., 0])
    if not polar_m2 > 0:
        if not np.allclose(turn_nm, 0.0):
            msg = "a single fixing cannot hold a plate against turning in its own plane"
            raise ValueError(msg)
        polar_m2 = math.inf
    # A turn about out moves what lies to the right upwards, and what lies above to the left.
    across = np.stack([-ways_m[:, 1], ways_m[:, 0]], axis=-1)
    shared = force[..., None, :] / len(points_m)
    return np.asarray(shared + turn_nm[..., None, None] / polar_m2 * across)


def edge_tilt_pulls(points_m: Floats, half_m: Floats, action: ArrayLike) -> Floats:
    """Return pulls as if the plate tilted about an edge, each in proportion to its distance.

    The wall is taken as hard as can be and the lever arm as long as can be: bent one way, a rule
    that under-reads the fixings furthest from the edge. A pull-out is shared evenly beside that; a
    push relieves nothing. Moments about across and about up are taken one at a time and added.

    Args:
        points_m: (k, 2) float.
        half_m: (2,) float: half the width and half the height of the plate.
        action: (..., 6) float.

    Returns:
        (..., k) float.

    References:
        V. B. Bhandari, Design of Machine Elements, 7.9 (bracket bolts, load parallel to the wall).
    """
    actions = np.asarray(action, dtype=float)
    moments = np.stack([-actions[..., 4], actions[..., 3]], axis=-1)
    pull_n = np.maximum(actions[..., 2], 0.0)
    pulls = (pull_n / len(points_m))[..., None] * np.ones(len(points_m))
    for axis, half in enumerate(half_m):
        side = np.sign(moments[..., axis])[..., None]
        from_edge_m = half + side * points_m[:, axis]
        square_m2 = np.sum(from_edge_m**2, axis=-1, keepdims=True)
        pulls = pulls + np.abs(moments[..., axis])[..., None] * from_edge_m / square_m2
    return np.asarray(pulls)


def centroid_pulls(points_m: Floats, action: ArrayLike) -> Floats:
    """Return pulls as if the plate turned about the middle of its fixings; below 0 is a push.

    No wall helps, so the far fixings read high.

    Args:
        points_m: (k, 2) float.
        action: (..., 6) float.

    Returns:
        (..., k) float. Where the fixings stand in one line they hold no moment across it here,
        and that part is left out.

    References:
        AISC Steel Construction Manual, Part 7, "Case II" (from memory).
    """
    actions = np.asarray(action, dtype=float)
    middle_m = points_m.mean(axis=0)
    ways_m = points_m - middle_m
    pull_n = actions[..., 2]
    first_nm = np.stack([-actions[..., 4], actions[..., 3]], axis=-1) - pull_n[..., None] * middle_m
    second_m2 = ways_m.T @ ways_m
    turned = first_nm @ np.linalg.pinv(second_m2) @ ways_m.T
    return np.asarray(pull_n[..., None] / len(points_m) + turned)


def proof_tests(fixings: Sequence[int], test: ProofTest) -> list[int]:
    """Return how many fixings would be proof tested in each area.

    Args:
        fixings: How many there are in each area where fixing, wall or condition differs.
        test: One of `PROOF_TESTS`.

    References:
        BS 8539:2012 Annex B.3, as quoted on a fixings page: a share of the fixings, at least
        three. Rounding up is this program's own.
    """
    # A share of a whole number may come out a hair above it.
    wanted = (math.ceil(round(test.share * count, 9)) for count in fixings)
    return [max(FEWEST_TESTS, count) for count in wanted]
