"""Comparing: one line of figures for each way of building, and for each size."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from estimator.geometry.bodies import joined
from estimator.geometry.measures import Floats
from estimator.resolve.job import Resolved
from estimator.stages.blowing import Wind
from estimator.stages.holding import HeldSet
from estimator.stages.holding_frames import root_of
from estimator.stages.posing import Group
from estimator.stages.pricing import Pricing
from estimator.stages.wall_points import wall_points
from estimator.stages.weighing import Weights
from estimator.stages.whole import in_job
from estimator.supports.arms import Root


class Pull(NamedTuple):
    """What pulls hardest on one set of brackets, characteristic.

    Attributes:
        set_name: The set.
        bracket: Bracket with the greatest moment about across, which pulls its top fixings.
        moment_nm: That moment, at the wall face; of an arm with a stay on its own plate.
        pull_out_n: Greatest pull-out at any bracket or stay of the set.
    """

    set_name: str
    bracket: str
    moment_nm: float
    pull_out_n: float


class One(NamedTuple):
    """The figures of one assembly as it is drawn.

    Attributes:
        assembly: Its name.
        mass_kg: Likely, without the allowance for what is not listed.
        low_kg: One in twenty below.
        high_kg: One in twenty above.
        cg_m: (3,) from the datum; without mass the middle of its parts.
        wind_n: Largest wind force in any direction and position, 0 where none blows.
    """

    assembly: str
    mass_kg: float
    low_kg: float
    high_kg: float
    cg_m: Floats
    wind_n: float


class Line(NamedTuple):
    """The figures of one way of building.

    Attributes:
        option: Its name.
        mass_kg: Likely, with the allowance for what is not listed.
        low_kg: One in twenty below.
        high_kg: One in twenty above.
        cg_m: (3,) of what is listed.
        wind_n: Largest characteristic wind force on everything together, None without wind.
        assemblies: By assembly.
        pulls: What pulls hardest on each set of brackets.
        person_hours_likely: Sum of the likely hours.
        person_hours_mean: Sum of their triangular means.
        cost_mean: Before overhead.
        price_mean: With tax.
    """

    option: str
    mass_kg: float
    low_kg: float
    high_kg: float
    cg_m: Floats
    wind_n: float | None
    assemblies: tuple[One, ...]
    pulls: tuple[Pull, ...]
    person_hours_likely: float
    person_hours_mean: float
    cost_mean: float
    price_mean: float

    @property
    def windiest(self) -> One | None:
        """Return the assembly with the largest wind force, None without wind."""
        return max(self.assemblies, key=lambda one: one.wind_n) if self.wind_n else None


def compare(
    resolved: Resolved, weights: Weights, groups: tuple[Group, ...], wind: Wind,
    held: tuple[HeldSet, ...], pricing: Pricing,
) -> Line:  # fmt: skip
    """Return the figures of one way of building."""
    whole = joined(in_job(weights, groups))
    return Line(
        option=resolved.chosen.option,
        mass_kg=weights.whole_kg,
        low_kg=float(weights.whole_band.low_kg[0]),
        high_kg=float(weights.whole_band.high_kg[0]),
        cg_m=np.asarray(whole.centre_m),
        wind_n=_wind_on_all(wind) if wind.known else None,
        assemblies=tuple(_ones(resolved, weights, groups, wind)),
        pulls=tuple(_worst_pull(one, root_of(resolved.facts)) for one in held),
        person_hours_likely=pricing.person_hours.likely,
        person_hours_mean=pricing.person_hours.mean,
        cost_mean=pricing.price_of("cost").mean,
        price_mean=pricing.price_of("price").mean,
    )


def _ones(resolved: Resolved, weights: Weights, groups: Sequence[Group], wind: Wind) -> list[One]:
    """Return the figures of each assembly, in the order of their rows."""
    bodies, band = in_job(weights, groups), weights.assembly_band
    wind_n = np.zeros(len(resolved.assemblies))
    for group, blown in zip(groups, wind.groups, strict=True):
        sizes_n = np.linalg.norm(blown.wrench[..., :3], axis=-1)
        wind_n[list(group.members)] = sizes_n.max(axis=(0, 2))
    return [
        One(
            assembly.key,
            float(bodies.mass_kg[row]),
            float(band.low_kg[row]),
            float(band.high_kg[row]),
            np.asarray(bodies.centre_m[row]),
            float(wind_n[row]),
        )
        for row, assembly in enumerate(resolved.assemblies)
    ]


def _wind_on_all(wind: Wind) -> float:
    """Return the largest wind force on everything, blown alike at once.

    Each mover, with what it carries, is in the position in which it catches most.
    """
    total_n = np.zeros(3)
    for blown in wind.groups:
        force_n = blown.wrench[..., :3].sum(axis=1)
        most = np.linalg.norm(force_n, axis=-1).argmax(axis=0)
        total_n = total_n + force_n[most, np.arange(force_n.shape[1])]
    return float(np.linalg.norm(total_n, axis=-1).max())


def _worst_pull(held: HeldSet, root: Root) -> Pull:
    points = list(wall_points(held, root))
    tilt = max(points, key=lambda point: point.tilt_nm)
    pull_out_n = max(point.pull_out_n for point in points)
    return Pull(held.name, tilt.bracket, tilt.tilt_nm, pull_out_n)
