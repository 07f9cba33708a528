"""Wall points: what an arm's own plate and its stay do where each of them meets the wall."""

import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from estimator.geometry.measures import Floats
from estimator.resolve.records import Bracket, Stay
from estimator.stages.arm_figures import carrier_of, of_kind
from estimator.stages.holding import COMPONENTS, HeldSet
from estimator.stages.holding_demands import NOTHING, Acting, Demands
from estimator.supports.arms import Root
from estimator.supports.carrying import at_tip, stay_pulls
from estimator.supports.combinations import Kind
from estimator.supports.stays import stay_on_wall

PULL_OUT, TILT = COMPONENTS[2][0], COMPONENTS[3][0]


class WallPoint(NamedTuple):
    """The largest characteristic actions at one point of the wall, none below nought.

    Attributes:
        bracket: Mark of the bracket.
        of_stay: Whether it is the wall point of the bracket's stay.
        at_m: (3,) on the wall face.
        bears_m: (3,) where the load bears, or where the stay meets the arm.
        pull_out_n: Pull-out; NaN when it is not known.
        shear_n: Greatest level and upright shear, as if they came together; NaN likewise.
        tilt_nm: Moment about across that pulls the top fixings; 0 of a stay.
    """

    bracket: str
    of_stay: bool
    at_m: tuple[float, float, float]
    bears_m: tuple[float, float, float]
    pull_out_n: float
    shear_n: float
    tilt_nm: float


def beside_stay(bracket: Bracket, acting: Acting, root: Root) -> tuple[Demands, Demands]:
    """Return what an arm's own plate does to the wall and what its stay does, in the same cases.

    Args:
        bracket: The bracket, with a stay.
        acting: On both together.
        root: How the wall holds both.
    """
    own, by_stay = parted(bracket, acting.demands.action, root)
    sources, placed = acting.demands.sources, acting.placed
    bar = carrier_of(bracket, bracket.section, root).stay
    if placed is not None and bar is not None:
        own = np.concatenate([own, placed.action[0]])
        by_stay = np.concatenate([by_stay, stay_on_wall(bar, placed.pull_n)])
        sources = (*sources, *placed.sources)
    return Demands(own, sources), Demands(by_stay, sources)


def parted(bracket: Bracket, action: Floats, root: Root) -> tuple[Floats, Floats]:
    """Return what an arm's own plate does to the wall and what its stay does, (c, 6) each.

    Args:
        bracket: The bracket.
        action: (c, 6) of both together, about the middle of the arm's plate.
        root: How the wall holds both.

    Returns:
        Both about the middle of the arm's plate; they add up to `action`.
    """
    carrier = carrier_of(bracket, bracket.section, root)
    if carrier.stay is None:
        return action, np.zeros_like(action)
    pull_n = stay_pulls(carrier, at_tip(action, bracket.bears_m))
    by_stay = stay_on_wall(carrier.stay, pull_n)
    return action - by_stay, by_stay


def wall_points(held: HeldSet, root: Root) -> Iterator[WallPoint]:
    """Yield the wall points of the brackets of a set, the stay of each behind its arm's plate.

    Args:
        held: The set.
        root: How the wall holds arms and stays.
    """
    for bracket in held.brackets:
        if bracket.stay is None:
            yield _of_plate(bracket, held)
        else:
            yield from _both(bracket, bracket.stay, held, root)


def _of_plate(bracket: Bracket, held: HeldSet) -> WallPoint:
    worst = {row.component: row.value for row in held.service if row.bracket == bracket.key}
    level, upright = (
        max((abs(value) for name, value in worst.items() if name.startswith(names)), default=0.0)
        for names in (("shear",), ("down", "uplift"))
    )
    at_m, bears_m = _places(bracket, 0.0, bracket.bears_m)
    return WallPoint(
        bracket=bracket.key,
        of_stay=False,
        at_m=at_m,
        bears_m=bears_m,
        pull_out_n=worst.get(PULL_OUT, math.nan),
        shear_n=math.hypot(level, upright) if worst else math.nan,
        tilt_nm=worst.get(TILT, math.nan),
    )


def _both(bracket: Bracket, stay: Stay, held: HeldSet, root: Root) -> Iterator[WallPoint]:
    """Yield the arm's plate and the stay's point: where one pulls the other pushes."""
    known = held.demands.get(bracket.key, NOTHING.demands)
    both = beside_stay(bracket, Acting(known, held.placed), root)
    places = (0.0, bracket.bears_m), (stay.from_m, stay.to_m)
    for of_stay, (demands, (up_m, out_m)) in enumerate(zip(both, places, strict=True)):
        some, _ = of_kind(demands, Kind.SERVICE)
        level, upright = (np.abs(some[:, i]).max(initial=0.0) for i in range(2))
        yield WallPoint(
            bracket.key, bool(of_stay), *_places(bracket, up_m, out_m),
            max(0.0, float(some[:, 2].max(initial=0.0))) if len(some) else math.nan,
            math.hypot(level, upright) if len(some) else math.nan,
            0.0 if of_stay else float(some[:, 3].max(initial=0.0)),
        )  # fmt: skip


def _places(
    bracket: Bracket, up_m: float, out_m: float
) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    """Return a point of the wall so far above a bracket's root, and how far out on the arm."""
    across, up, out = bracket.root_m
    return (across, up + up_m, out), (across, up, out_m)
