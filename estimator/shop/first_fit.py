"""First fit: bars filled one after another, the longest piece that still fits first.

A rule of thumb, fast on any list: where a search for something better starts, and what finishes it.
"""

import math
from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Sequence

import numpy as np

from estimator.shop.covering import Pattern, Plan, Task


class _Pile:
    """Pieces still to cut, longest first, with quick search for the next one that fits."""

    def __init__(self, needs: Sequence[int]) -> None:
        """Stack the needs, which come longest first."""
        self.needs = needs
        self._rising = [-need for need in needs]
        self._next = list(range(len(needs) + 1))

    def waiting(self, at: int) -> int:
        """Return the first place from `at` on that is still to cut."""
        follow = self._next
        while follow[at] != at:
            follow[at] = follow[follow[at]]
            at = follow[at]
        return at

    def fill(self, room: int) -> list[int]:
        """Return the places that a bar with this room would take."""
        taken: list[int] = []
        at = 0
        while True:
            at = self.waiting(max(at, bisect_left(self._rising, -room)))
            if at == len(self.needs):
                return taken
            taken.append(at)
            room -= self.needs[at]
            at += 1

    def take(self, places: Iterable[int]) -> None:
        """Mark places as cut."""
        for at in places:
            self._next[at] = at + 1

    @property
    def done(self) -> bool:
        """Return whether everything is cut."""
        return self.waiting(0) == len(self.needs)


def first_fits(task: Task) -> list[Plan]:
    """Return plans that fill bar by bar, one or more.

    Bars that are there already come first, the shortest first; then each stock length alone as far
    as it holds the pieces, and then a mixture that opens whichever costs least for what it takes.
    """
    falling = np.argsort(-task.needs, kind="stable")
    kinds = np.repeat(falling, task.demand[falling])
    bought = [k for k in range(len(task.rooms)) if math.isinf(task.limits[k])]
    longest = int(task.needs[task.demand > 0].max(initial=0))
    alone = [[k] for k in bought if task.rooms[k] >= longest]
    ways = [*alone, bought] if len(bought) > 1 or not alone else alone
    return [_filled(task, kinds.tolist(), way) for way in ways]


def _filled(task: Task, kinds: list[int], sizes: Sequence[int]) -> Plan:
    """Return a plan that fills owned bars, then bars of some sizes."""
    pile, plan = _Pile(task.needs[kinds].tolist()), Plan()
    for stock in np.argsort(task.rooms, kind="stable").tolist():
        if math.isinf(task.limits[stock]):
            continue
        for _ in range(int(task.limits[stock])):
            _cut(plan, pile, kinds, (stock, pile.fill(int(task.rooms[stock]))))
    while not pile.done:
        longest = pile.needs[pile.waiting(0)]
        fills = [(k, pile.fill(int(task.rooms[k]))) for k in sizes if task.rooms[k] >= longest]
        best = min(fills, key=lambda f: task.prices[f[0]] / sum(pile.needs[at] for at in f[1]))
        _cut(plan, pile, kinds, best)
    return plan


def _cut(plan: Plan, pile: _Pile, kinds: Sequence[int], bar: tuple[int, list[int]]) -> None:
    """Put one bar with what it takes into a plan; nothing when it takes nothing."""
    stock, places = bar
    if places:
        pattern = Pattern(stock, tuple(sorted(Counter(kinds[at] for at in places).items())))
        plan[pattern] = plan.get(pattern, 0) + 1
        pile.take(places)
