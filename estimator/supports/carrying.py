"""What an arm carries: what each cut through it passes on, its stay, and how its tip moves.

Six-number arrays are (across, up, out) of force, movement, then the same of moment, rotation. The
tip is where the load bears.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from estimator.supports.arms import BUILT_IN, Arm, Root, moved
from estimator.supports.stays import StayBar, arm_action, stay_pull, stayed_tip_flexibility

Floats = NDArray[np.float64]


class Carrier(NamedTuple):
    """An arm with what stays it.

    Attributes:
        arm: To where its load bears.
        stay: None for an arm alone.
        pulls_only: Whether the stay goes slack instead of pushing.
        root: How the wall holds both.
    """

    arm: Arm
    stay: StayBar | None = None
    pulls_only: bool = False
    root: Root = BUILT_IN


class Cuts(NamedTuple):
    """Sections through an arm where its stress can be largest.

    Attributes:
        at_m: (k,) float, from the wall face.
        action: (k, c, 6) float: what each passes on towards the wall in each case.
    """

    at_m: Floats
    action: Floats


def at_tip(action: Floats, bears_m: float) -> Floats:
    """Return the whole action of a bracket, known about its root, about where its load bears.

    Args:
        action: (c, 6) float, arm and stay together.
        bears_m: Wall face to there.
    """
    return moved(action, np.array([0.0, 0.0, -bears_m]))


def stay_pulls(carrier: Carrier, tip_action: Floats) -> Floats:
    """Return the pull of the stay in each case, (c,) float, N; below nought it pushes.

    Args:
        carrier: The arm.
        tip_action: (c, 6) float.
    """
    if carrier.stay is None:
        return np.zeros(len(tip_action))
    pull_n = tip_action @ stay_pull(carrier.arm, carrier.stay, carrier.root)
    return np.asarray(np.maximum(pull_n, 0.0) if carrier.pulls_only else pull_n)


def cuts(carrier: Carrier, tip_action: Floats) -> Cuts:
    """Return the cuts of an arm in which its stress can be largest.

    Between two of them what it passes on changes evenly, and a stress that depends on the size of
    what changes evenly is largest at an end.

    Args:
        carrier: The arm.
        tip_action: (c, 6) float.
    """
    bears_m = carrier.arm.length_m
    if carrier.stay is None:
        at_m = np.array([0.0, bears_m])
        return Cuts(at_m, np.array([moved(tip_action, _out(bears_m - x)) for x in at_m]))
    stay, pull_n = carrier.stay, stay_pulls(carrier, tip_action)
    at_m = np.array(sorted({0.0, stay.to_m, bears_m}))
    passed = [arm_action(stay, pull_n, tip_action, bears_m, x) for x in at_m]
    if stay.to_m < bears_m:
        # On its outer side the stay's own force is not there yet.
        at_m = np.append(at_m, stay.to_m)
        passed.append(moved(tip_action, _out(bears_m - stay.to_m)))
    return Cuts(at_m, np.array(passed))


def tip_movements(carrier: Carrier, tip_action: Floats) -> Floats:
    """Return how the tip of an arm moves and turns in each case, (c, 6) float, m and rad.

    The plate is taken not to give.

    Args:
        carrier: The arm.
        tip_action: (c, 6) float.
    """
    alone = tip_action @ stayed_tip_flexibility(carrier.arm, None, carrier.root)
    if carrier.stay is None:
        return np.asarray(alone)
    held = tip_action @ stayed_tip_flexibility(carrier.arm, carrier.stay, carrier.root)
    slack = carrier.pulls_only & (stay_pulls(carrier, tip_action) <= 0)
    return np.where(slack[:, None], alone, held)


def _out(distance_m: float) -> Floats:
    return np.array([0.0, 0.0, distance_m])
