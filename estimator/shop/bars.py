"""Cutting lengths from stock bars, tubes and boards: what to buy, and what no plan could beat.

Lengths that share a bar are one saw cut apart. With a kerf g, a bar of length L and a trim t at
each end, pieces fit when the sum of (piece + g) is at most L - 2 t + g: the last cut may run out of
the bar, so a remainder thinner than the blade is sawn away.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from estimator.shop.covering import Pattern, Task
from estimator.shop.lengths import Solution, cut_lengths

FINEST_M, COARSEST_M = 1e-5, 1e-4
"""Lengths count to the nearest hundredth of a millimetre, to the nearest tenth on long bars."""
LONG_M = 7.0
"""A bar longer than this is long."""
SAME = 1e-4
"""Part of a cost within which a plan is as good as its bound."""
SECONDS = 2.0
"""Longest search for one material and section."""


class BarStock(NamedTuple):
    """A length that can be bought, or is there already.

    Attributes:
        length_m: Length as sold.
        price: Price of one, in the job's currency.
        limit: How many there are; infinite where it can be bought.
        trimmed: Whether its ends are cut off before use, as of a bar from the mill.
    """

    length_m: float
    price: float
    limit: float = math.inf
    trimmed: bool = True


class Bar(NamedTuple):
    """One bar to buy and what is cut from it.

    Attributes:
        stock_index: Which stock length.
        pieces: Indices of the lengths cut from it, longest first.
        used_m: Sum of those lengths.
        kerf_m: Length turned to sawdust.
        left_m: What remains behind the last cut, end trims taken off.
    """

    stock_index: int
    pieces: tuple[int, ...]
    used_m: float
    kerf_m: float
    left_m: float


@dataclass(frozen=True, slots=True)
class BarPlan:
    """Bars to buy, and what no plan could beat.

    Attributes:
        bars: The bars, in the order they are cut.
        too_long: Indices of lengths that no bar can hold; they are in no bar.
        cost: Price of all bars.
        bound_cost: Least cost that any plan could have.
        why: What that bound rests on.
        length_m: Sum of the placed lengths.
    """

    bars: tuple[Bar, ...]
    too_long: tuple[int, ...]
    cost: float
    bound_cost: float
    why: str
    length_m: float

    @property
    def proven(self) -> bool:
        """Return whether no plan can cost less."""
        return self.cost - self.bound_cost <= SAME * self.cost


class _Saw(NamedTuple):
    """The stock as the saw sees it, in whole units: room and need both with one kerf a piece."""

    stock: tuple[BarStock, ...]
    kerf_m: float
    trim_m: float
    unit_m: float

    def inside_m(self, index: int) -> float:
        """Return the usable length of a bar."""
        stock = self.stock[index]
        return stock.length_m - (2.0 * self.trim_m if stock.trimmed else 0.0)

    def room(self, index: int) -> int:
        """Return what the pieces, each with its kerf, may add up to."""
        return max(round((self.inside_m(index) + self.kerf_m) / self.unit_m), 0)

    def need(self, length_m: float) -> int:
        """Return what a piece takes."""
        return max(round((length_m + self.kerf_m) / self.unit_m), 1)

    def bar(self, index: int, pieces: Sequence[int], lengths_m: Sequence[float]) -> Bar:
        """Return a bar with the pieces cut from it."""
        inside_m = self.inside_m(index)
        # Counting to the unit may overfill a bar by a few hundredths of a millimetre.
        used_m = min(math.fsum(lengths_m[i] for i in pieces), inside_m)
        left_m = max(0.0, inside_m - used_m - len(pieces) * self.kerf_m)
        return Bar(index, tuple(pieces), used_m, max(0.0, inside_m - used_m - left_m), left_m)


def cut_bars(
    lengths_m: Sequence[float],
    stock: Sequence[BarStock],
    kerf_m: float = 0.0,
    trim_m: float = 0.0,
    seconds: float = SECONDS,
) -> BarPlan:
    """Return whole bars to buy for a list of lengths, and the proven bound on any plan's cost.

    Where no price is known, the stock lengths themselves will do as prices.

    Args:
        lengths_m: Finished lengths, one entry a piece.
        stock: What can be bought, and what is there already.
        kerf_m: Width of a saw cut.
        trim_m: Cut off each end of a bought bar before use.
        seconds: Longest to look.

    Raises:
        ValueError: A length, price, kerf or trim that cannot be.
    """
    saw = _Saw(tuple(stock), kerf_m, trim_m, FINEST_M)
    _check(lengths_m, saw)
    saw = saw._replace(unit_m=_unit_m(saw))
    most = max((saw.room(k) for k, s in enumerate(stock) if math.isinf(s.limit)), default=0)
    cut = [i for i, length_m in enumerate(lengths_m) if saw.need(length_m) <= most]
    too_long = tuple(sorted(set(range(len(lengths_m))) - set(cut)))
    if not cut:
        return BarPlan((), too_long, 0.0, 0.0, "nothing to cut", 0.0)
    kinds, found = _solved([saw.need(lengths_m[i]) for i in cut], saw, seconds)
    bars = tuple(
        saw.bar(stock_index, [cut[at] for at in places], lengths_m)
        for stock_index, places in _dealt(kinds, found.bars)
    )
    return BarPlan(
        bars,
        too_long,
        math.fsum(stock[bar.stock_index].price for bar in bars),
        found.bound,
        found.why,
        math.fsum(lengths_m[i] for i in cut),
    )


def _unit_m(saw: _Saw) -> float:
    """Return the unit in which lengths are counted."""
    longest_m = max((s.length_m for s in saw.stock), default=0.0)
    return COARSEST_M if longest_m > LONG_M else FINEST_M


def _solved(needs: Sequence[int], saw: _Saw, seconds: float) -> tuple[list[int], Solution]:
    """Return the type of each piece, and the plan for the types."""
    types, kinds, demand = np.unique(np.array(needs), return_inverse=True, return_counts=True)
    rooms = np.array([saw.room(k) for k in range(len(saw.stock))])
    # In the largest unit that all have in common nothing is lost, and tables are short.
    common = int(np.gcd.reduce(types))
    task = Task(
        needs=types // common,
        demand=demand,
        rooms=rooms // common,
        prices=np.array([s.price for s in saw.stock], dtype=float),
        limits=np.array([s.limit for s in saw.stock], dtype=float),
    )
    return kinds.tolist(), cut_lengths(task, seconds)


def _dealt(kinds: Sequence[int], plan: dict[Pattern, int]) -> Iterator[tuple[int, list[int]]]:
    """Yield for each bar its stock and the places of its pieces, the largest type first.

    A plan may cover more than is wanted: what is not wanted is not cut.
    """
    waiting: dict[int, list[int]] = {}
    for place, kind in reversed(list(enumerate(kinds))):
        waiting.setdefault(kind, []).append(place)
    for pattern, times in plan.items():
        for _ in range(times):
            places = [
                waiting[kind].pop()
                for kind, count in reversed(pattern.pieces)
                for _ in range(min(count, len(waiting[kind])))
            ]
            if places:
                yield pattern.stock, places


def _check(lengths_m: Sequence[float], saw: _Saw) -> None:
    """Refuse what cannot be sawn."""
    if not all(length_m > 0 for length_m in lengths_m):
        msg = f"every length must be above zero, got {min(lengths_m)}"
        raise ValueError(msg)
    if not all(s.length_m > 0 and s.price >= 0 and s.limit >= 0 for s in saw.stock):
        msg = f"stock needs a length above zero and a price of zero or more, got {saw.stock}"
        raise ValueError(msg)
    if not (saw.kerf_m >= 0 and saw.trim_m >= 0):
        msg = f"kerf and trim must not be negative, got {saw.kerf_m} and {saw.trim_m}"
        raise ValueError(msg)
