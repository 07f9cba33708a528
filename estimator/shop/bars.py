"""Cutting lengths from stock bars, tubes and boards: first-fit decreasing, and a length bound.

Lengths that share a bar are one saw cut apart. With a kerf g, a bar of length L and a trim t at
each end, pieces fit when the sum of (piece + g) is at most L - 2 t + g: the last cut may run out of
the bar, so a remainder thinner than the blade is sawn away.
"""

import math
from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

FIT_M = 1e-9
"""Slack of one nanometre, so that lengths that add up exactly are not lost to rounding."""


class BarStock(NamedTuple):
    """A length that can be bought.

    Attributes:
        length_m: Length as sold.
        price: Price of one, in the job's currency.
    """

    length_m: float
    price: float


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
        too_long: Indices of lengths that no stock bar can hold; they are in no bar.
        cost: Price of all bars.
        bound_length_m: Sum of the placed lengths.
        bound_bars: Fewest bars any plan could do with, by length alone.
        bound_cost: Least cost any plan could have, by length alone.
    """

    bars: tuple[Bar, ...]
    too_long: tuple[int, ...]
    cost: float
    bound_length_m: float
    bound_bars: int
    bound_cost: float


class _Saw(NamedTuple):
    """The stock seen by the saw: room and need both counted with one kerf a piece."""

    stock: tuple[BarStock, ...]
    kerf_m: float
    trim_m: float

    def room_m(self, index: int) -> float:
        """Return what the pieces, each with its kerf, may add up to."""
        return self.stock[index].length_m - 2.0 * self.trim_m + self.kerf_m

    def cheapest_holding(self, need_m: float) -> int:
        """Return the cheapest stock length with room for the need, the shortest of equals."""
        holding = (k for k in range(len(self.stock)) if self.room_m(k) + FIT_M >= need_m)
        return min(holding, key=lambda k: (self.stock[k].price, self.stock[k].length_m))

    def bar(self, pieces: tuple[int, ...], lengths_m: Sequence[float]) -> Bar:
        """Return the cheapest bar that these pieces can be cut from."""
        used_m = math.fsum(lengths_m[i] for i in pieces)
        need_m = used_m + len(pieces) * self.kerf_m
        index = self.cheapest_holding(need_m)
        inside_m = self.stock[index].length_m - 2.0 * self.trim_m
        left_m = max(0.0, inside_m - need_m)
        return Bar(index, pieces, used_m, max(0.0, inside_m - used_m - left_m), left_m)


class _Pile:
    """Lengths still to cut, longest first, with quick search for the next one that fits."""

    def __init__(self, needs_m: Sequence[float]) -> None:
        """Stack the needs, which come longest first."""
        self.needs_m = needs_m
        self._rising = [-need_m for need_m in needs_m]
        self._next = list(range(len(needs_m) + 1))

    def waiting(self, at: int) -> int:
        """Return the first position from `at` on that is still to cut."""
        follow = self._next
        while follow[at] != at:
            follow[at] = follow[follow[at]]
            at = follow[at]
        return at

    def fill(self, room_m: float) -> list[int]:
        """Return the positions a first-fit bar with this room would take."""
        taken: list[int] = []
        at = 0
        while True:
            at = self.waiting(max(at, bisect_left(self._rising, -(room_m + FIT_M))))
            if at == len(self.needs_m):
                return taken
            taken.append(at)
            room_m -= self.needs_m[at]
            at += 1

    def take(self, positions: Iterable[int]) -> None:
        """Mark positions as cut."""
        for at in positions:
            self._next[at] = at + 1


def _bars_in_turn(pile: _Pile, fill_next: Callable[[_Pile], list[int]]) -> Iterator[list[int]]:
    """Yield the positions of each bar until the pile is cut."""
    while pile.waiting(0) < len(pile.needs_m):
        taken = fill_next(pile)
        pile.take(taken)
        yield taken


def _fill_best_value(saw: _Saw) -> Callable[[_Pile], list[int]]:
    """Return a filler that takes the stock length with the least price per metre used."""

    def fill(pile: _Pile) -> list[int]:
        longest_m = pile.needs_m[pile.waiting(0)]
        fills = (
            (saw.stock[k].price, pile.fill(saw.room_m(k)))
            for k in range(len(saw.stock))
            if saw.room_m(k) + FIT_M >= longest_m
        )
        return min(fills, key=lambda f: f[0] / math.fsum(pile.needs_m[i] for i in f[1]))[1]

    return fill


def _fill_one_size(room_m: float) -> Callable[[_Pile], list[int]]:
    """Return a filler that always opens the same stock length."""
    return lambda pile: pile.fill(room_m)


def _ways(saw: _Saw, longest_m: float) -> list[Callable[[_Pile], list[int]]]:
    """Return the ways of filling to try: each stock length alone, then a mixture."""
    rooms_m = [saw.room_m(k) for k in range(len(saw.stock))]
    alone = [_fill_one_size(room_m) for room_m in rooms_m if room_m + FIT_M >= longest_m]
    return [*alone, _fill_best_value(saw)] if len(rooms_m) > 1 else alone


def _checked(lengths_m: Sequence[float], saw: _Saw) -> None:
    """Refuse what cannot be sawn."""
    if not all(length_m > 0 for length_m in lengths_m):
        msg = f"every length must be above zero, got {min(lengths_m)}"
        raise ValueError(msg)
    if not all(s.length_m > 0 and s.price >= 0 for s in saw.stock):
        msg = f"stock needs a length above zero and a price of zero or more, got {saw.stock}"
        raise ValueError(msg)
    if not (saw.kerf_m >= 0 and saw.trim_m >= 0):
        msg = f"kerf and trim must not be negative, got {saw.kerf_m} and {saw.trim_m}"
        raise ValueError(msg)


def first_fit_bars(
    lengths_m: Sequence[float],
    stock_lengths_m: Sequence[float],
    prices: Sequence[float],
    kerf_m: float = 0.0,
    trim_m: float = 0.0,
) -> BarPlan:
    """Return whole bars to buy for a list of lengths, and the bound that length alone sets.

    Longest first, each length goes into the first open bar with room for it. Every stock length is
    tried alone, and a mixture that opens whichever length costs least per metre used; each bar is
    then swapped for the cheapest that still holds its pieces, and the cheapest plan is returned.
    First fit is a rule of thumb, not a proof: the bound says how far off it can be at most.
    Where no price is known, the stock lengths themselves will do as prices.

    Args:
        lengths_m: Finished lengths, one entry a piece.
        stock_lengths_m: Lengths that can be bought, any number of each.
        prices: Price of each stock length.
        kerf_m: Width of a saw cut.
        trim_m: Cut off each end of a bought bar before use.

    Raises:
        ValueError: A length, price, kerf or trim that cannot be.
    """
    stock = tuple(BarStock(*pair) for pair in zip(stock_lengths_m, prices, strict=True))
    saw = _Saw(stock, kerf_m, trim_m)
    _checked(lengths_m, saw)
    order = sorted(range(len(lengths_m)), key=lambda i: (-lengths_m[i], i))
    longest_m = max((saw.room_m(k) for k in range(len(stock))), default=-math.inf) - kerf_m
    too_long = sum(lengths_m[i] > longest_m + FIT_M for i in order)
    cut = order[too_long:]
    bars = _cheapest_plan([lengths_m[i] for i in cut], saw) if cut else []
    bound_bars, bound_cost = _bounds([lengths_m[i] + kerf_m for i in cut], saw)
    return BarPlan(
        bars=tuple(bar._replace(pieces=tuple(cut[at] for at in bar.pieces)) for bar in bars),
        too_long=tuple(sorted(order[:too_long])),
        cost=math.fsum(stock[bar.stock_index].price for bar in bars),
        bound_length_m=math.fsum(lengths_m[i] for i in cut),
        bound_bars=bound_bars,
        bound_cost=bound_cost,
    )


def _cheapest_plan(falling_m: Sequence[float], saw: _Saw) -> list[Bar]:
    """Return the cheapest of the ways to fill bars, of equals the one with least length."""
    needs_m = [length_m + saw.kerf_m for length_m in falling_m]
    plans = [
        [saw.bar(tuple(taken), falling_m) for taken in _bars_in_turn(_Pile(needs_m), way)]
        for way in _ways(saw, needs_m[0])
    ]

    def worth(bars: list[Bar]) -> tuple[float, float]:
        bought = [saw.stock[bar.stock_index] for bar in bars]
        return math.fsum(s.price for s in bought), math.fsum(s.length_m for s in bought)

    return min(plans, key=worth)


def _bounds(needs_m: Sequence[float], saw: _Saw) -> tuple[int, float]:
    """Return the fewest bars and the least cost that length alone allows."""
    if not needs_m:
        return 0, 0.0
    need_m = math.fsum(needs_m)
    rooms_m = [(saw.room_m(k), s.price) for k, s in enumerate(saw.stock)]
    usable = [(room_m, price) for room_m, price in rooms_m if room_m > 0]
    longest_m = max(usable)[0]
    return math.ceil(need_m / longest_m - FIT_M), need_m * min(p / r for r, p in usable)
