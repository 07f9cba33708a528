"""Comparing: one line of figures for each way of building."""

from typing import NamedTuple

import numpy as np

from estimator.geometry.bodies import joined
from estimator.geometry.measures import Floats
from estimator.stages.holding import COMPONENTS, HeldSet
from estimator.stages.posing import Group
from estimator.stages.pricing import Pricing
from estimator.stages.weighing import Weights
from estimator.stages.whole import in_job

PULL_OUT, TILT = COMPONENTS[2][0], COMPONENTS[3][0]


class Pull(NamedTuple):
    """What pulls hardest on one set of brackets, characteristic.

    Attributes:
        set_name: The set.
        bracket: Bracket with the greatest moment about across, which pulls its top fixings.
        moment_nm: That moment, at the wall face.
        pull_out_n: Greatest pull-out at any bracket of the set.
    """

    set_name: str
    bracket: str
    moment_nm: float
    pull_out_n: float


class Line(NamedTuple):
    """The figures of one way of building.

    Attributes:
        option: Its name.
        mass_kg: Likely, with the allowance for what is not listed.
        low_kg: One in twenty below.
        high_kg: One in twenty above.
        cg_m: (3,) of what is listed.
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
    pulls: tuple[Pull, ...]
    person_hours_likely: float
    person_hours_mean: float
    cost_mean: float
    price_mean: float


def compare(
    option: str, weights: Weights, groups: tuple[Group, ...], held: tuple[HeldSet, ...],
    pricing: Pricing,
) -> Line:  # fmt: skip
    """Return the figures of one way of building."""
    factor = 1.0 + weights.not_listed
    pulls = tuple(_worst_pull(one) for one in held)
    whole = joined(in_job(weights, groups))
    return Line(
        option=option,
        mass_kg=factor * weights.listed_kg,
        low_kg=float(factor * weights.whole_band.low_kg[0]),
        high_kg=float(factor * weights.whole_band.high_kg[0]),
        cg_m=np.asarray(whole.centre_m),
        pulls=pulls,
        person_hours_likely=pricing.person_hours.likely,
        person_hours_mean=pricing.person_hours.mean,
        cost_mean=pricing.price_of("cost").mean,
        price_mean=pricing.price_of("price").mean,
    )


def _worst_pull(held: HeldSet) -> Pull:
    tilt = max((g for g in held.service if g.component == TILT), key=lambda g: g.value)
    pull = max((g for g in held.service if g.component == PULL_OUT), key=lambda g: g.value)
    return Pull(held.name, tilt.bracket, tilt.value, pull.value)
