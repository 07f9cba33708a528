"""Arms with a stay or a strut between the arm and the wall, above or below its root.

Six-number arrays are (across, up, out) of force, movement, then the same of moment, rotation.
The stay lies in the plane of up and out through the arm, is straight, pinned at both ends, and
acts along the arm's axis line. Its pull is + when it is stretched. What only pulls (a rod, a
chain) goes slack instead of pushing: `estimator.supports.slackening` finds out when.
"""

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy import linalg

from estimator.supports.arms import BUILT_IN, Arm, Root, carried, flexibility_between, moved

Floats = NDArray[np.float64]

_ABOUT_ACROSS = 3
"""Among six, the turn that a pinned root leaves free."""


class StayBar(NamedTuple):
    """A stay or strut.

    Attributes:
        from_m: Its wall point above the arm's root; below when negative; not zero.
        to_m: Where it meets the arm, out from the wall face: before or beyond where the load
            bears.
        area_m2: Of its cross-section.
        e_pa: Modulus of elasticity.
    """

    from_m: float
    to_m: float
    area_m2: float
    e_pa: float

    @property
    def length_m(self) -> float:
        """Return its length between the two points."""
        return math.hypot(self.from_m, self.to_m)

    @property
    def pull(self) -> Floats:
        """Return what a pull of one does to the arm where it meets it, (6,)."""
        return np.array([0.0, self.from_m, -self.to_m, 0.0, 0.0, 0.0]) / self.length_m


class _Stayed(NamedTuple):
    """The unknowns of the force method.

    Attributes:
        give: Lengthening, of stay, arm and wall together, that a pull of one takes up, m/N.
        turned: How far the stay shortens when the root turns by one about across.
        by_pull: 1 / `give` with the root built in; 0 with a pinned root.
        by_turn: 0 with the root built in; 1 / `turned` squared with a pinned root.
    """

    give: float
    turned: float
    by_pull: float
    by_turn: float


def stayed_flexibility(
    arm: Arm, stay: StayBar | None, at_m: float, acts_at_m: float, root: Root = BUILT_IN
) -> Floats:
    """Return the movement at one place of a stayed arm for each unit action at another.

    Args:
        arm: Its length does not matter here.
        stay: At work; None where there is none or it is slack.
        at_m: Where it moves, from the wall face.
        acts_at_m: Where the action is.
        root: How the wall holds arm and stay.

    Returns:
        (6, 6) float: m and rad from N and N m; the transpose of the same with the places
        exchanged.

    Raises:
        ValueError: A size that cannot be, or a pinned root without a stay.

    References:
        Force method with the stay's pull as the unknown. The pinned root is the limit of a root
        that gives more and more in turning.
    """
    plain = flexibility_between(arm, at_m, acts_at_m, root)
    if stay is None:
        if root.pinned:
            msg = "an arm with a pinned root and no stay at work falls down"
            raise ValueError(msg)
        return plain
    unknown = _unknowns(arm, stay, root)
    (pulled, turned), (pulls, turns) = (
        _columns(arm, stay, root, place_m) for place_m in (at_m, acts_at_m)
    )
    return np.asarray(
        plain
        - unknown.by_pull * np.outer(pulled, pulls)
        + unknown.by_turn * unknown.give * np.outer(turned, turns)
        - unknown.by_turn * unknown.turned * (np.outer(pulled, turns) + np.outer(turned, pulls))
    )


def stayed_tip_flexibility(arm: Arm, stay: StayBar | None, root: Root = BUILT_IN) -> Floats:
    """Return the movement of a stayed arm's tip, where its load bears, by unit actions there.

    Arguments and errors as `stayed_flexibility`; (6, 6) float, symmetric.
    """
    return stayed_flexibility(arm, stay, arm.length_m, arm.length_m, root)


def stayed_tip_stiffness(arm: Arm, stay: StayBar | None, root: Root = BUILT_IN) -> Floats:
    """Return the action that each unit movement of a stayed arm's tip calls up, (6, 6) float.

    Arguments and errors as `stayed_tip_flexibility`, of which this is the inverse.
    """
    return np.asarray(linalg.inv(stayed_tip_flexibility(arm, stay, root)))


def stay_pull(arm: Arm, stay: StayBar, root: Root = BUILT_IN, at_m: float | None = None) -> Floats:
    """Return the stay's pull for each unit action on the arm: ``stay_pull(...) @ action`` in N.

    Below zero it is a push: a strut carries it, a rod goes slack. The sign holds for an action
    found with the rod slack as well, so in the state that agrees with itself a rod carries
    ``max(pull, 0)``.

    Args:
        arm: To where its load bears.
        stay: At work.
        root: How the wall holds arm and stay.
        at_m: Where on the arm the action is, from the wall face; None for where its load bears.

    Returns:
        (6,) float: N from N and N m.

    Raises:
        ValueError: A size that cannot be.

    References:
        Force method, S = -(d . e) / (e . F e + l / E A) with d the movement without the stay;
        with a pinned root, moments about the root alone.
    """
    unknown = _unknowns(arm, stay, root)
    by_pull, by_turn = _columns(arm, stay, root, arm.length_m if at_m is None else at_m)
    return np.asarray(-unknown.by_pull * by_pull - unknown.by_turn * unknown.turned * by_turn)


def arm_action(
    stay: StayBar, pull_n: Floats, action: Floats, acts_at_m: float, cut_m: float = 0.0
) -> Floats:
    """Return what a cut through the arm passes on towards the wall.

    At the root it is the action on the arm's own plate.

    Args:
        stay: The stay.
        pull_n: (...) float: its pull; 0 where it is slack.
        action: (..., 6) float: on the arm, where its load bears.
        acts_at_m: Where that is, from the wall face.
        cut_m: Where the cut is; at the stay or the load itself, just on its wall side.

    Returns:
        (..., 6) float, about the middle of the arm at the cut.
    """
    of_stay = np.multiply.outer(pull_n, stay.pull)
    parts = ((action, acts_at_m), (of_stay, stay.to_m))
    passed = np.zeros(np.broadcast_shapes(action.shape, of_stay.shape))
    for acting, at_m in parts:
        if at_m >= cut_m:
            passed += moved(acting, np.array([0.0, 0.0, at_m - cut_m]))
    return passed


def stay_on_wall(stay: StayBar, pull_n: Floats) -> Floats:
    """Return what a stay does to the wall, about the root of its arm.

    Its force alone is the action on the stay's own plate. With `arm_action` at the root it makes
    up the whole action of the bracket.

    Args:
        stay: The stay.
        pull_n: (...) float.

    Returns:
        (..., 6) float.
    """
    return moved(-np.multiply.outer(pull_n, stay.pull), np.array([0.0, stay.from_m, 0.0]))


def _unknowns(arm: Arm, stay: StayBar, root: Root) -> _Stayed:
    """Return how the stay answers, refusing one that cannot hold the arm."""
    if not (stay.to_m > 0 and abs(stay.from_m) > 0 and stay.area_m2 > 0 and stay.e_pa > 0):
        msg = f"a stay needs two points apart along and up the wall, area and modulus, got {stay}"
        raise ValueError(msg)
    there = flexibility_between(arm, stay.to_m, stay.to_m, root)
    own = stay.length_m / (stay.e_pa * stay.area_m2) + stay.pull[2] ** 2 / root.out_n_m
    give = float(stay.pull @ there @ stay.pull + own)
    turned = float(stay.pull @ carried(stay.to_m)[:, _ABOUT_ACROSS])
    if root.pinned:
        return _Stayed(give, turned, 0.0, 1 / turned**2)
    return _Stayed(give, turned, 1 / give, 0.0)


def _columns(arm: Arm, stay: StayBar, root: Root, at_m: float) -> tuple[Floats, Floats]:
    """Return the movements at a place by a pull of one and by a root turned by one, (6,) each."""
    by_pull = flexibility_between(arm, at_m, stay.to_m, root) @ stay.pull
    return by_pull, carried(at_m)[:, _ABOUT_ACROSS]
