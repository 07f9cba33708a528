"""Cutting lengths near the best possible: patterns by column generation, and a bound with proof."""

import heapq
import math
import time
from collections.abc import Callable, Iterator
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.shop.covering import Duals, Effort, Master, Pattern, Plan, Task
from estimator.shop.first_fit import first_fits
from estimator.shop.knapsack import Knapsack, parcels
from estimator.shop.purchases import next_total, price_step

Floats = npt.NDArray[np.float64]

EVEN = 1e-9
"""Part of a cost within which two costs are one."""
NEARLY_A_STEP = 0.999
"""Part of a step of price by which a plan must be dearer than its bound to leave room for one."""
SPREAD = 6
"""Patterns taken from one table at most: each saves a round."""
NODES = 20_000
"""Branches looked at when choosing in whole numbers."""
FEW = 4
"""Fewer pieces than this are finished by first fit."""
DIVES = 4
"""Plans rounded down between two choices in whole numbers."""
MOST_PATTERNS = 15_000
"""More patterns than this are not listed for a proof."""
MOST_STEPS = 300_000
"""Nor is the listing itself carried on for longer."""
MOST_CELLS = 20_000_000
"""Tables larger than this are not made: first fit and the length bound have to do."""


class Solution(NamedTuple):
    """A plan and what no plan could beat.

    Attributes:
        bars: Each pattern with how often it is cut.
        cost: Of all bars.
        bound: Least cost that any plan could have.
        why: What the bound rests on.
    """

    bars: Plan
    cost: float
    bound: float
    why: str


def cut_lengths(task: Task, seconds: float) -> Solution:
    """Return the cheapest plan found, with the bound that is proven.

    Args:
        task: Every piece fits at least one stock length that can be bought.
        seconds: Longest to look. A search that ends by itself always finds the same.

    References:
        Gilmore and Gomory (1961): column generation for cutting stock. Farley (1990): a bound from
        duals that are not yet the best.
    """
    if len(task.needs) * int(task.rooms.max()) > MOST_CELLS:
        return _roughly(task)
    search = _Search(task, seconds)
    search.raise_bound(0.0, "length alone")
    steps: tuple[Callable[[_Search], None], ...] = (_generate, _dive, _choose, _prove, _shake)
    for step in steps:
        if not search.done():
            step(search)
    return Solution(search.best, search.cost, search.bound, search.why)


def _roughly(task: Task) -> Solution:
    """Return the best of the first fits, with the bound that length alone sets."""
    plan = min(first_fits(task), key=lambda p: _cost(p, task))
    least = _lifted(task, task.rooms.astype(float), 0.0)
    return Solution(plan, _cost(plan, task), least, "length alone")


class _Search:
    """A search: its patterns, the best plan so far, and the best bound so far."""

    def __init__(self, task: Task, seconds: float) -> None:
        """Start from plans that fill bar by bar, the longest first."""
        self.task = task
        self.until = time.monotonic() + seconds
        self.master = Master(task.demand, task.prices, task.limits)
        self.step = price_step(task.prices.tolist())
        self.table = Knapsack(task.needs, task.demand, int(task.rooms.max()))
        self.reach = self.table.fill(task.needs.astype(float))[task.rooms]
        self.bound, self.why = 0.0, "nothing"
        self.best: Plan = {}
        self.cost = math.inf
        for plan in first_fits(task):
            self.keep(plan)

    def left_s(self) -> float:
        """Return the seconds there are still."""
        return self.until - time.monotonic()

    def keep(self, plan: Plan) -> None:
        """Take over the patterns of a plan, and the plan itself where it is the cheapest."""
        for pattern in plan:
            self.master.add(pattern)
        cost = _cost(plan, self.task)
        if cost < self.cost - EVEN * max(cost, 1.0):
            self.best, self.cost = dict(plan), cost

    def raise_bound(self, least: float, why: str) -> None:
        """Take over a bound where it is the best."""
        least = _lifted(self.task, self.reach, max(least, 0.0))
        if least > self.bound + EVEN * max(least, 1.0):
            self.bound, self.why = least, why

    def done(self) -> bool:
        """Return whether no plan can be cheaper, or the time is up."""
        room = max(NEARLY_A_STEP * self.step, EVEN * self.cost)
        return self.cost - self.bound <= room or self.left_s() < 0

    def chosen(self, master: Master) -> float:
        """Choose among the patterns of a master in whole numbers; return the bound on that."""
        effort = Effort(NODES, self.left_s() / 3, self.step / 2)
        whole, least = master.solve_whole(effort)
        if whole is not None:
            pairs = zip(master.patterns, whole, strict=True)
            self.keep({pattern: int(times) for pattern, times in pairs if times})
        return least


def _cost(plan: Plan, task: Task) -> float:
    """Return what the bars of a plan cost."""
    return math.fsum(float(task.prices[p.stock]) * times for p, times in plan.items())


def _lifted(task: Task, reach: Floats, least: float) -> float:
    """Return a bound lifted to the next total that buys room enough.

    Args:
        task: What is cut.
        reach: (k,) most of each stock length that any pieces can fill.
        least: The bound.
    """
    bought = np.isinf(task.limits)
    if task.prices[~bought].any():
        return least
    owned = float(reach[~bought] @ task.limits[~bought])
    need = float(task.needs @ task.demand)
    return next_total(least, need, reach[bought], task.prices[bought], owned)


def _generate(search: _Search) -> None:
    """Add patterns until none would lower the cost of the linear program."""
    task, table = search.task, search.table
    while not search.done():
        duals, _ = search.master.solve()
        values = table.fill(duals.pieces)
        search.raise_bound(_farley(task, duals, values), "patterns")
        added = [search.master.add(p) for p in _priced(task, table, duals, values)]
        if not any(added):
            return


def _farley(task: Task, duals: Duals, values: Floats) -> float:
    """Return what any plan must cost, from duals that may still be too high for some pattern.

    Brought down until no bar that can be bought is worth more than it costs, they are a solution of
    the dual program; what bars of limited number are worth beyond their cost is taken off.
    """
    worth = values[task.rooms]
    bought = np.isinf(task.limits)
    over = worth[bought] / np.maximum(task.prices[bought], EVEN)
    scale = 1.0 / max(1.0, float(over.max(initial=0.0)))
    gift = np.minimum(task.prices - scale * worth, 0.0)[~bought] @ task.limits[~bought]
    return float(scale * duals.pieces @ task.demand + gift)


def _priced(task: Task, table: Knapsack, duals: Duals, values: Floats) -> Iterator[Pattern]:
    """Yield patterns that a table of values shows to be worth more than they cost."""
    for stock, room in enumerate(task.rooms):
        cost = float(task.prices[stock] - duals.stock[stock])
        steps = np.flatnonzero(np.diff(values[: room + 1]) > 0) + 1
        worth = steps[values[steps] > cost + EVEN * max(cost, 1.0)]
        if len(worth):
            for at in np.unique(np.linspace(0, len(worth) - 1, SPREAD).astype(int)):
                yield Pattern.of(stock, table.chosen(int(worth[at])))


def _dive(search: _Search, start: Plan | None = None) -> None:
    """Fix what the linear program takes whole of, plan the rest again, and so on to the end.

    Args:
        search: Where the plan is kept.
        start: Bars already fixed.
    """
    plan = dict(start or {})
    rest = _without(search.task, plan)
    while rest.demand.any():
        part = _whole_part(rest, search.left_s())
        for pattern, times in part.items():
            plan[pattern] = plan.get(pattern, 0) + times
        rest = _without(rest, part)
    search.keep(plan)


def _whole_part(rest: Task, seconds: float) -> Plan:
    """Return the whole bars that the linear program of a rest takes, or the most wanted one."""
    if rest.demand.sum() < FEW or seconds < 0:
        return min(first_fits(rest), key=lambda plan: _cost(plan, rest))
    wanted = np.flatnonzero(rest.demand)
    inner = _Search(
        rest._replace(needs=rest.needs[wanted], demand=rest.demand[wanted]), seconds / DIVES
    )
    _generate(inner)
    _, amounts = inner.master.solve()
    whole = np.floor(amounts + EVEN * len(amounts)).astype(int)
    if not whole.any():
        whole[int(np.argmax(amounts))] = 1
    part: Plan = {}
    for at in np.flatnonzero(whole):
        stock, pieces = inner.master.patterns[at]
        part[Pattern(stock, tuple((int(wanted[kind]), n) for kind, n in pieces))] = int(whole[at])
    return part


def _without(rest: Task, part: Plan) -> Task:
    """Return what is left to cut, and to cut it from, after some bars."""
    demand, limits = rest.demand.copy(), rest.limits.copy()
    for pattern, times in part.items():
        for kind, count in pattern.pieces:
            demand[kind] = max(int(demand[kind]) - times * count, 0)
        limits[pattern.stock] -= times
    return rest._replace(demand=demand, limits=limits)


def _choose(search: _Search) -> None:
    """Choose among all patterns in whole numbers."""
    search.chosen(search.master)


def _shake(search: _Search) -> None:
    """Take bars out of the best plan by chance, plan them again, and choose among all patterns."""
    random = np.random.default_rng(len(search.task.needs))
    while not search.done():
        for _ in range(DIVES):
            bars = list(search.best)
            some = random.permutation(len(bars))[: int(len(bars) * random.uniform(0.1, 0.6))]
            _dive(search, {bars[i]: search.best[bars[i]] for i in some})
        _choose(search)


def _prove(search: _Search) -> None:
    """Choose among every pattern that a cheaper plan could hold; among the best where too many.

    In a plan that costs less than the best known, no pattern can be dearer than its pieces are
    worth by more than the gap between that plan and the linear program.
    """
    task = search.task
    duals, _ = search.master.solve()
    gap = search.cost - max(search.step, EVEN * search.cost) - duals.cost + EVEN * search.cost
    listed, every = _listed(search, duals, gap)
    full = Master(task.demand, task.prices, task.limits)
    for pattern in listed if every else (*listed, *search.master.patterns):
        full.add(pattern)
    if search.done():
        return
    least = search.chosen(full)
    if every:
        search.raise_bound(min(least, search.cost), "every pattern that a cheaper plan could hold")


def _listed(search: _Search, duals: Duals, gap: float) -> tuple[list[Pattern], bool]:
    """Return the patterns within a gap, the cheapest first, and whether these are all."""
    listed: list[Pattern] = []
    for steps, pattern in enumerate(_within(search.task, duals, gap)):
        if pattern is not None:
            listed.append(pattern)
        if len(listed) > MOST_PATTERNS or steps > MOST_STEPS or search.done():
            return listed, False
    return listed, True


class _Half(NamedTuple):
    """A pattern in the making, ordered by what it will at least cost above its pieces' worth."""

    above: float
    depth: int
    rest: int
    stock: int
    counts: tuple[int, ...]


def _within(task: Task, duals: Duals, gap: float) -> Iterator[Pattern | None]:
    """Yield full patterns in order of what they cost above the worth of their pieces, to a gap.

    Between them, None for every step that found none.
    """
    order = np.argsort(-task.needs, kind="stable")
    needs, most = task.needs[order].tolist(), task.demand[order].tolist()
    values = duals.pieces[order].tolist()
    tables = _suffixes(needs, most, values, int(task.rooms.max()))
    heap = [
        _Half(float(task.prices[k] - duals.stock[k] - tables[0][room]), 0, int(room), k, ())
        for k, room in enumerate(task.rooms)
    ]
    heapq.heapify(heap)
    while heap and heap[0].above <= gap + EVEN * max(abs(gap), 1.0):
        half = heapq.heappop(heap)
        at, found = -half.depth, None
        if at < len(needs):
            for n in range(min(most[at], half.rest // needs[at]) + 1):
                rest = half.rest - n * needs[at]
                lost = float(tables[at][half.rest] - tables[at + 1][rest]) - n * values[at]
                grown = _Half(half.above + lost, -at - 1, rest, half.stock, (*half.counts, n))
                heapq.heappush(heap, grown)
        elif _full(half, needs, most):
            counts = np.zeros(len(needs), dtype=int)
            counts[order] = half.counts
            found = Pattern.of(half.stock, counts)
        yield found


def _full(half: _Half, needs: list[int], most: list[int]) -> bool:
    """Return whether no further piece would fit."""
    return all(
        half.rest < need or count >= limit
        for need, count, limit in zip(needs, half.counts, most, strict=True)
    )


def _suffixes(needs: list[int], most: list[int], values: list[float], room: int) -> list[Floats]:
    """Return for each type the most value that it and those behind it bring, for every room."""
    tables = [np.zeros(room + 1)]
    for need, copies, value in zip(needs[::-1], most[::-1], values[::-1], strict=True):
        table = tables[-1].copy()
        for parcel in parcels(min(copies, room // need)):
            take = need * parcel
            np.maximum(table[take:], table[: room + 1 - take] + value * parcel, out=table[take:])
        tables.append(table)
    return tables[::-1]
