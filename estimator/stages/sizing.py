"""Sizing: the whole job larger and smaller, and the power of its size that each figure follows."""

import math
from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from estimator.resolve.job import Resolved
from estimator.resolve.scaling import with_hours
from estimator.stages.buying import Order
from estimator.stages.comparing import Line
from estimator.stages.measuring import Shapes
from estimator.stages.pricing import Pricing, price

SIZES = (0.8, 0.9, 1.0, 1.1, 1.25)
"""Times the size it is drawn at; one of them is that size."""
AS_DRAWN = 1.0


class Worked(NamedTuple):
    """What the steps found of the job at one size."""

    resolved: Resolved
    shapes: Shapes
    order: Order
    pricing: Pricing
    comparison: Line


class Sized(NamedTuple):
    """The job at one size.

    Attributes:
        times: Its size, 1 as drawn.
        line: Masses, wind and pulls; prices by the hours as listed.
        skin_m2: One face of all that is made.
        material_cost: Of the order list, as far as prices are told.
        unpriced: How many lines of it have no price.
        hours_listed: Likely person-hours as they are listed for the job as drawn.
        hours_by_skin: The same in proportion to the skin.
        price_listed: Mean price with the hours as listed.
        price_by_skin: Mean price with hours in proportion to the skin.
    """

    times: float
    line: Line
    skin_m2: float
    material_cost: float
    unpriced: int
    hours_listed: float
    hours_by_skin: float
    price_listed: float
    price_by_skin: float


class PullGrowth(NamedTuple):
    """How what pulls hardest on one set of brackets grows."""

    set_name: str
    pull_out: float | None
    moment: float | None


class Growth(NamedTuple):
    """The power of the size that each figure follows, None where that cannot be said.

    Attributes:
        mass: Of everything.
        skin: Its area.
        wind: On everything together.
        windiest: On the assembly it is largest on.
        material_cost, price_listed, price_by_skin: None as well where not as many lines of the
            order list have a price at both sizes.
        pulls: By set of brackets.
    """

    mass: float | None
    skin: float | None
    wind: float | None
    windiest: float | None
    material_cost: float | None
    price_listed: float | None
    price_by_skin: float | None
    pulls: tuple[PullGrowth, ...]


class Sizes(NamedTuple):
    """The job at every size.

    Attributes:
        sized: One a size, in rising order.
        growth: Between the smallest and the largest of these; None without any.
        misfits: (size, why) of the sizes at which some part cannot be.
    """

    sized: tuple[Sized, ...]
    growth: Growth | None
    misfits: tuple[tuple[float, str], ...]


def size_up(worked: Mapping[float, Worked], misfits: Sequence[tuple[float, str]] = ()) -> Sizes:
    """Return the figures of a job at every size it was worked out at.

    Args:
        worked: What the steps found, by size; as drawn is one of them unless there is none.
        misfits: Sizes that were not worked out, and why.
    """
    if not worked:
        return Sizes((), None, ())
    drawn_m2 = _skin_m2(worked[AS_DRAWN])
    sized = tuple(_sized(times, worked[times], drawn_m2) for times in sorted(worked))
    return Sizes(sized, _growth(sized[0], sized[-1]), tuple(misfits))


def _skin_m2(worked: Worked) -> float:
    """Return one face of all that is made."""
    columns = worked.resolved.columns
    made = np.array([part.get_by != "buy" for part in columns.parts], dtype=bool)
    return float((worked.shapes.skin_area_m2 * columns.count)[made].sum())


def _sized(times: float, worked: Worked, drawn_m2: float) -> Sized:
    skin_m2 = _skin_m2(worked)
    share = skin_m2 / drawn_m2 if drawn_m2 > 0 else 1.0
    busier = price(with_hours(worked.resolved, share), worked.order)
    return Sized(
        times,
        worked.comparison,
        skin_m2,
        worked.order.cost,
        sum(math.isnan(line.cost) for line in worked.order.lines),
        worked.pricing.person_hours.likely,
        busier.person_hours.likely,
        worked.pricing.price_of("price").mean,
        busier.price_of("price").mean,
    )


def _most_wind_n(sized: Sized) -> float:
    """Return the largest wind force on one assembly, whichever it is at this size."""
    return max((one.wind_n for one in sized.line.assemblies), default=0.0)


def _growth(first: Sized, last: Sized) -> Growth:
    """Return the power of every figure from one size to another."""
    ratio, priced = last.times / first.times, first.unpriced == last.unpriced

    def of(value: Callable[[Sized], float]) -> float | None:
        """Return the power of the size that a figure grows with."""
        return power(value(first), value(last), ratio)

    return Growth(
        mass=of(lambda sized: sized.line.mass_kg),
        skin=of(lambda sized: sized.skin_m2),
        wind=of(lambda sized: sized.line.wind_n or 0.0),
        windiest=of(_most_wind_n),
        material_cost=of(lambda sized: sized.material_cost) if priced else None,
        price_listed=of(lambda sized: sized.price_listed) if priced else None,
        price_by_skin=of(lambda sized: sized.price_by_skin) if priced else None,
        pulls=tuple(
            PullGrowth(
                small.set_name,
                power(small.pull_out_n, large.pull_out_n, ratio),
                power(small.moment_nm, large.moment_nm, ratio),
            )
            for small, large in zip(first.line.pulls, last.line.pulls, strict=True)
        ),
    )


def power(first: float, last: float, ratio: float) -> float | None:
    """Return the power of the size that a figure follows; None where that cannot be said.

    Args:
        first: The figure at one size, and
        last: at another,
        ratio: which is so many times as large.
    """
    if not (first > 0 and last > 0 and ratio > 0 and ratio != 1.0):
        return None
    return math.log(last / first) / math.log(ratio)
