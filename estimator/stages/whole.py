"""The whole: bodies of the assemblies in the job's frame, in any position."""

from collections.abc import Sequence

import numpy as np

from estimator.geometry.bodies import Body, moved, rotated
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
    rotation = np.tile(np.eye(3), (len(own.mass_kg), 1, 1))
    origin_m = np.zeros((len(own.mass_kg), 3))
    for group in groups:
        s = state if state < len(group.states) else 0
        rotation[list(group.members)] = group.rotation[s]
        origin_m[list(group.members)] = group.origin_m[s]
    return moved(rotated(own, rotation), origin_m)
