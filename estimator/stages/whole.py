"""The whole: bodies of the assemblies in the job's frame, in any position."""

from collections.abc import Sequence

import numpy as np

from estimator.geometry.bodies import Body, moved, rotated
from estimator.geometry.measures import Floats
from estimator.stages.posing import Group
from estimator.stages.weighing import Weights


def in_job(weights: Weights, groups: Sequence[Group], state: int = 0) -> Body:
    """Return the bodies of all assemblies in the job's frame, in the order of their rows.

    Args:
        weights: What they weigh.
        groups: Where they are.
        state: Position of the movers, the same number in every group; as drawn where a group has
            fewer.
    """
    own = weights.assemblies
    rotation, origin_m = frames(len(own.mass_kg), groups, state)
    return moved(rotated(own, rotation), origin_m)


def frames(count: int, groups: Sequence[Group], state: int = 0) -> tuple[Floats, Floats]:
    """Return where the frames of so many assemblies are: rotations (n, 3, 3), origins (n, 3)."""
    rotation, origin_m = np.tile(np.eye(3), (count, 1, 1)), np.zeros((count, 3))
    for group in groups:
        s = state if state < len(group.states) else 0
        rotation[list(group.members)] = group.rotation[s]
        origin_m[list(group.members)] = group.origin_m[s]
    return rotation, origin_m
