"""What a purchase can cost at all: the totals that whole pieces of stock come to."""

import math
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]

CENT = 0.01
MOST_TOTALS = 3_000_000
"""Totals looked at; a purchase of more steps than this keeps the bound it has."""
ROUNDING = 1e-6


def price_step(prices: Sequence[float]) -> float:
    """Return the largest step that every price is a whole number of; 0 where there is none.

    Args:
        prices: Of one piece of each size, zero or more.
    """
    cents = [price / CENT for price in prices]
    if any(abs(value - round(value)) > ROUNDING * max(value, 1.0) for value in cents):
        return 0.0
    return math.gcd(*(round(value) for value in cents)) * CENT


def next_total(least: float, need: float, rooms: Floats, prices: Floats, owned: float) -> float:
    """Return the lowest total that is at least so much and buys room for the need.

    A bound that lies between two totals that can be paid is lifted to the upper one, and past every
    total whose most room is too little.

    Args:
        least: A bound already proven.
        need: Room wanted in all.
        rooms: (k,) usable room of each size that can be bought without limit.
        prices: (k,) of each, zero or more.
        owned: Room of the pieces there are already, all of them.

    Returns:
        The total; where prices have no common step, no more than the price of the room.
    """
    useful = rooms > 0
    rooms, prices = rooms[useful], prices[useful]
    if need <= owned or not len(rooms):
        return least
    per_room = float(np.min(prices / rooms))
    least = max(least, (need - owned) * per_room)
    step = price_step(prices.tolist())
    if step == 0.0:
        return least
    first = math.ceil(least / step - ROUNDING)
    last = first + math.ceil((need * per_room + 2.0 * float(prices.max())) / step) + 1
    if last > MOST_TOTALS:
        return first * step
    most = np.full(last + 1, -math.inf)
    most[0] = owned
    for room, price in zip(rooms, prices, strict=True):
        _buy_any_number(most, round(price / step), float(room))
    enough = np.flatnonzero(most[first:] + ROUNDING >= need)
    return (first + int(enough[0])) * step


def _buy_any_number(most: Floats, cost: int, room: float) -> None:
    """Raise the most room for each total by any number of one size, in place."""
    if cost == 0:
        most += math.inf
        return
    rows = -(-len(most) // cost)
    padded = np.full(rows * cost, -math.inf)
    padded[: len(most)] = most
    ladder = padded.reshape(rows, cost) - room * np.arange(rows)[:, None]
    best = np.maximum.accumulate(ladder, axis=0) + room * np.arange(rows)[:, None]
    most[:] = best.reshape(-1)[: len(most)]
