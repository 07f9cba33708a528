"""Where every metre or square metre that was bought goes: parts, offcuts, scrap, cutting, trim."""

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from estimator.shop.bars import Bar
from estimator.shop.sheets import CutSheet, Rectangle


class Keep(NamedTuple):
    """What is worth putting back on the rack.

    Attributes:
        side_m: Shortest side, or shortest length of a bar.
        area_m2: Smallest area of a sheet offcut; nothing to a bar.
    """

    side_m: float = 0.0
    area_m2: float = 0.0


class Account(NamedTuple):
    """What was bought and where it went, in one unit: metres, square metres, kilograms or money.

    Attributes:
        stock: Bought.
        parts: In the work.
        offcuts: Left over and worth keeping.
        scrap: Left over and not worth keeping.
        cutting: Kerf and skeleton.
        trim: Ends or edges cut off before use.
    """

    stock: float
    parts: float
    offcuts: float
    scrap: float
    cutting: float
    trim: float

    def times(self, factor: float) -> "Account":
        """Return the account in another unit, such as kilograms by kg per metre."""
        return Account(*(factor * entry for entry in self))


def bar_account(bar: Bar, stock_length_m: float, trim_m: float, keep: Keep) -> Account:
    """Return where one bar goes, in metres."""
    kept_m = bar.left_m if bar.left_m >= keep.side_m else 0.0
    return Account(
        stock=stock_length_m,
        parts=bar.used_m,
        offcuts=kept_m,
        scrap=bar.left_m - kept_m,
        cutting=bar.kerf_m,
        trim=2.0 * trim_m,
    )


def kept_rectangles(leftovers: Iterable[Rectangle], keep: Keep) -> list[Rectangle]:
    """Return the leftovers of a sheet that are worth keeping, the largest first."""
    worth = (
        r
        for r in leftovers
        if min(r.width_m, r.height_m) >= keep.side_m and r.width_m * r.height_m >= keep.area_m2
    )
    return sorted(worth, key=lambda r: -r.width_m * r.height_m)


def sheet_account(
    sheet: CutSheet, stock_size_m: tuple[float, float], trim_m: float, keep: Keep
) -> Account:
    """Return where one sheet goes, in square metres."""
    width_m, height_m = stock_size_m
    stock_m2 = width_m * height_m
    inside_m2 = (width_m - 2.0 * trim_m) * (height_m - 2.0 * trim_m)
    parts_m2 = math.fsum(p.width_m * p.height_m for p in sheet.placements)
    left_m2 = _area_m2(sheet.leftovers)
    kept_m2 = _area_m2(kept_rectangles(sheet.leftovers, keep))
    return Account(
        stock=stock_m2,
        parts=parts_m2,
        offcuts=kept_m2,
        scrap=left_m2 - kept_m2,
        cutting=inside_m2 - parts_m2 - left_m2,
        trim=stock_m2 - inside_m2,
    )


def _area_m2(rectangles: Sequence[Rectangle]) -> float:
    """Return the area of rectangles that do not overlap."""
    return math.fsum(r.width_m * r.height_m for r in rectangles)


def summed(accounts: Iterable[Account]) -> Account:
    """Return one account for several, all in the same unit."""
    entries = list(zip(Account(0.0, 0.0, 0.0, 0.0, 0.0, 0.0), *accounts, strict=True))
    return Account(*(math.fsum(entry) for entry in entries))
