"""Cutting rectangles from stock sheets: shelves by first-fit decreasing height, and an area bound.

Pieces stand in shelves across the sheet and shelves are stacked, so every layout can be cut with
straight cuts from edge to edge. With a kerf g each piece and the sheet inside its edge trim are
counted g wider and higher than they are: exactly what a saw needs between neighbours.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

FIT_M = 1e-9
"""Slack of one nanometre, so that sizes that add up exactly are not lost to rounding."""


class Cutting(NamedTuple):
    """How the sheets are cut.

    Attributes:
        kerf_m: Width of a cut, or the gap wanted between pieces where that is more.
        trim_m: Cut off each edge of a sheet before use.
        may_turn: Whether pieces may be turned by a right angle; no, where grain, rolling or finish
            has a direction.
        fixed: Numbers of the pieces that may not, where the others may.
    """

    kerf_m: float = 0.0
    trim_m: float = 0.0
    may_turn: bool = True
    fixed: frozenset[int] = frozenset()


class Rectangle(NamedTuple):
    """A rectangle on a sheet, from the sheet's own corner."""

    x_m: float
    y_m: float
    width_m: float
    height_m: float


class Placement(NamedTuple):
    """A piece on a sheet; width and height are as it lies."""

    piece: int
    x_m: float
    y_m: float
    width_m: float
    height_m: float
    turned: bool


class CutSheet(NamedTuple):
    """One sheet to buy and what is cut from it.

    Attributes:
        stock_index: Which stock size.
        placements: Pieces where they lie.
        leftovers: Whole rectangles left at shelf ends and beyond the last shelf; none overlap.
    """

    stock_index: int
    placements: tuple[Placement, ...]
    leftovers: tuple[Rectangle, ...]


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """Sheets to buy, and what no plan could beat.

    Attributes:
        sheets: The sheets, in the order they are cut.
        too_large: Indices of pieces that no stock size can hold; they are on no sheet.
        cost: Price of all sheets.
        bound_area_m2: Sum of the placed pieces' areas.
        bound_sheets: Fewest sheets any plan could do with, by area alone.
        bound_cost: Least cost any plan could have, by area alone.
    """

    sheets: tuple[CutSheet, ...]
    too_large: tuple[int, ...]
    cost: float
    bound_area_m2: float
    bound_sheets: int
    bound_cost: float


class _Piece(NamedTuple):
    """A piece as it would lie, one kerf wider and higher than it is."""

    number: int
    width_m: float
    height_m: float
    turned: bool
    fixed: bool

    def quarter_turned(self) -> "_Piece":
        """Return the piece turned by a right angle, as it lies if it may not be."""
        if self.fixed:
            return self
        return self._replace(width_m=self.height_m, height_m=self.width_m, turned=not self.turned)

    def fits(self, room: tuple[float, float]) -> bool:
        """Return whether the piece lies within the room as it is."""
        return self.width_m <= room[0] + FIT_M and self.height_m <= room[1] + FIT_M


class _Shelf:
    """Pieces side by side, as high as the first of them."""

    def __init__(self, first: _Piece) -> None:
        """Open a shelf with its highest piece."""
        self.pieces = [first]
        self.height_m = first.height_m
        self.used_m = first.width_m

    def add(self, piece: _Piece) -> None:
        """Set a piece beside the last one."""
        self.pieces.append(piece)
        self.used_m += piece.width_m


class _Rooms:
    """Room left in shelves or sheets in the order they were opened, searched as a tournament."""

    def __init__(self, most: int) -> None:
        """Allow for as many rooms as there could be."""
        self._leaves = 1 << (most - 1).bit_length()
        self._best = [-math.inf] * (2 * self._leaves)
        self.count = 0

    def first_for(self, need_m: float) -> int:
        """Return the first room wide enough, or the number of rooms if there is none."""
        need_m -= FIT_M
        if self._best[1] < need_m:
            return self.count
        at = 1
        while at < self._leaves:
            at *= 2
            if self._best[at] < need_m:
                at += 1
        return at - self._leaves

    def left(self, index: int) -> float:
        """Return what is left in a room."""
        return self._best[index + self._leaves]

    def leave(self, index: int, room_m: float) -> None:
        """Say what is left in a room, which opens it if it is the next."""
        self.count = max(self.count, index + 1)
        best = self._best
        at = index + self._leaves
        best[at] = room_m
        while at > 1:
            at //= 2
            best[at] = max(best[2 * at], best[2 * at + 1])


def _shelved(pieces: Sequence[_Piece], width_m: float) -> list[_Shelf]:
    """Return shelves, the highest first: each piece goes on the first with room for it."""
    shelves: list[_Shelf] = []
    rooms = _Rooms(len(pieces))
    for piece in sorted(pieces, key=lambda p: (-p.height_m, -p.width_m, p.number)):
        at = rooms.first_for(piece.width_m)
        if at == len(shelves):
            shelves.append(_Shelf(piece))
        else:
            shelves[at].add(piece)
        rooms.leave(at, width_m - shelves[at].used_m)
    return shelves


def _stacked(shelves: Sequence[_Shelf], height_m: float) -> list[list[_Shelf]]:
    """Return the shelves of each sheet: each shelf goes on the first sheet with room for it."""
    sheets: list[list[_Shelf]] = []
    rooms = _Rooms(len(shelves))
    for shelf in shelves:
        at = rooms.first_for(shelf.height_m)
        if at == len(sheets):
            sheets.append([])
            rooms.leave(at, height_m)
        sheets[at].append(shelf)
        rooms.leave(at, rooms.left(at) - shelf.height_m)
    return sheets


def _as_drawn(piece: _Piece) -> _Piece:
    return piece


def _lying(piece: _Piece) -> _Piece:
    return piece if piece.width_m >= piece.height_m else piece.quarter_turned()


def _upright(piece: _Piece) -> _Piece:
    return piece if piece.width_m <= piece.height_m else piece.quarter_turned()


class _Job(NamedTuple):
    """The stock and how it is cut."""

    stock: tuple[tuple[float, float], ...]
    prices: tuple[float, ...]
    cutting: Cutting

    def room(self, index: int) -> tuple[float, float]:
        """Return width and height that pieces, each with its kerf, may add up to."""
        inside = self.cutting.kerf_m - 2.0 * self.cutting.trim_m
        width_m, height_m = self.stock[index]
        return width_m + inside, height_m + inside

    def fits(self, piece: _Piece, index: int) -> bool:
        """Return whether a piece can lie on a stock size one way or the other."""
        room = self.room(index)
        return piece.fits(room) or piece.quarter_turned().fits(room)

    def worth(self, sheets: Sequence[CutSheet]) -> tuple[float, float]:
        """Return price and area bought, which rank plans."""
        bought = [sheet.stock_index for sheet in sheets]
        area_m2 = math.fsum(self.stock[k][0] * self.stock[k][1] for k in bought)
        return math.fsum(self.prices[k] for k in bought), area_m2

    def cheapest_holding(self, need: tuple[float, float]) -> int:
        """Return the cheapest stock size with room for the need, the smallest of equals."""
        holding = [
            k
            for k in range(len(self.stock))
            if all(n <= r + FIT_M for n, r in zip(need, self.room(k), strict=True))
        ]
        return min(holding, key=lambda k: (self.prices[k], math.prod(self.stock[k])))


def _flipped(pair: tuple[float, float], *, flip: bool) -> tuple[float, float]:
    """Return the pair with its ends changed over, where shelves run up the sheet."""
    return (pair[1], pair[0]) if flip else pair


def _cut_sheet(shelves: Sequence[_Shelf], job: _Job, *, flip: bool) -> CutSheet:
    """Return the shelves of one sheet laid out on the cheapest size that holds them."""
    need = (max(s.used_m for s in shelves), math.fsum(s.height_m for s in shelves))
    index = job.cheapest_holding(_flipped(need, flip=flip))
    trim_m, kerf_m = job.cutting.trim_m, job.cutting.kerf_m
    width_m, height_m = (r - kerf_m for r in _flipped(job.room(index), flip=flip))

    def on_sheet(x_m: float, y_m: float, size: tuple[float, float]) -> Rectangle:
        """Return a rectangle from the sheet's own corner."""
        corner = _flipped((x_m + trim_m, y_m + trim_m), flip=flip)
        return Rectangle(*corner, *_flipped(size, flip=flip))

    placements: list[Placement] = []
    leftovers: list[Rectangle] = []
    y_m = 0.0
    for shelf in shelves:
        x_m = 0.0
        for piece in shelf.pieces:
            size = (piece.width_m - kerf_m, piece.height_m - kerf_m)
            placements.append(Placement(piece.number, *on_sheet(x_m, y_m, size), piece.turned))
            x_m += piece.width_m
        leftovers.append(on_sheet(x_m, y_m, (width_m - x_m, shelf.height_m - kerf_m)))
        y_m += shelf.height_m
    leftovers.append(on_sheet(0.0, y_m, (width_m, height_m - y_m)))
    real = (r for r in leftovers if min(r.width_m, r.height_m) > FIT_M)
    return CutSheet(index, tuple(placements), tuple(real))


def _laid(
    pieces: Sequence[_Piece], room: tuple[float, float], way: Callable[[_Piece], _Piece]
) -> list[_Piece]:
    """Return the pieces turned the way wanted, or the other way where that alone fits."""
    wanted = [way(piece) for piece in pieces]
    return [piece if piece.fits(room) else piece.quarter_turned() for piece in wanted]


def _on_one_size(pieces: Sequence[_Piece], index: int, job: _Job) -> list[CutSheet]:
    """Return the cheapest of the ways to shelve pieces on one stock size, all of which fit it."""
    ways = (_as_drawn,) if all(piece.fixed for piece in pieces) else (_as_drawn, _lying, _upright)
    plans = []
    for flip in (False, True):
        room = _flipped(job.room(index), flip=flip)
        seen = [
            _Piece(p.number, *_flipped((p.width_m, p.height_m), flip=flip), p.turned, p.fixed)
            for p in pieces
        ]
        for way in ways:
            sheets = _stacked(_shelved(_laid(seen, room, way), room[0]), room[1])
            plans.append([_cut_sheet(shelves, job, flip=flip) for shelves in sheets])
    return min(plans, key=job.worth)


def _on_sizes(
    pieces: Sequence[_Piece], job: _Job, known: dict[tuple[int, ...], list[CutSheet]]
) -> list[CutSheet]:
    """Return the cheapest plan that cuts all it can from one size and the rest from the others.

    Many sizes leave the same rest: its plan is worked out once.
    """
    key = tuple(piece.number for piece in pieces)
    if key not in known:
        plans = []
        for index in range(len(job.stock)):
            here = [piece for piece in pieces if job.fits(piece, index)]
            if here:
                rest = [piece for piece in pieces if not job.fits(piece, index)]
                plans.append([*_on_one_size(here, index, job), *_on_sizes(rest, job, known)])
        known[key] = min(plans, key=job.worth, default=[])
    return known[key]


def _checked(sizes_m: Sequence[tuple[float, float]], job: _Job) -> None:
    """Refuse what cannot be cut."""
    if not all(min(size) > 0 for size in [*sizes_m, *job.stock]):
        msg = "every piece and every sheet must have two sides above zero"
        raise ValueError(msg)
    if not all(price >= 0 for price in job.prices):
        msg = f"prices must be zero or more, got {job.prices}"
        raise ValueError(msg)
    if not min(job.cutting.kerf_m, job.cutting.trim_m) >= 0:
        msg = f"kerf and trim must not be negative, got {job.cutting}"
        raise ValueError(msg)


def first_fit_sheets(
    sizes_m: Sequence[tuple[float, float]],
    stock_sizes_m: Sequence[tuple[float, float]],
    prices: Sequence[float],
    cutting: Cutting,
) -> SheetPlan:
    """Return whole sheets to buy for a list of rectangles, and the bound that area alone sets.

    Each stock size is tried as the main one, with shelves along its width and along its height and,
    where pieces may turn, with all of them lying, upright and as drawn; what the main size cannot
    hold goes on the others. Each sheet is then swapped for the cheapest that still holds its
    layout, and the cheapest plan is returned. First fit is a rule of thumb, not a proof: the bound
    says how far off it can be at most. Where no price is known, areas will do as prices.

    Args:
        sizes_m: Width and height of each piece, one entry a piece.
        stock_sizes_m: Width and height that can be bought, any number of each.
        prices: Price of each stock size.
        cutting: Kerf, trim, and whether pieces may turn.

    Raises:
        ValueError: A size, price, kerf or trim that cannot be.
    """
    if len(prices) != len(stock_sizes_m):
        msg = f"one price for each stock size, got {len(prices)} for {len(stock_sizes_m)}"
        raise ValueError(msg)
    job = _Job(tuple((w, h) for w, h in stock_sizes_m), tuple(prices), cutting)
    _checked(sizes_m, job)
    kerf_m = cutting.kerf_m
    pieces = [
        _Piece(i, w + kerf_m, h + kerf_m, turned=False,
               fixed=not cutting.may_turn or i in cutting.fixed)
        for i, (w, h) in enumerate(sizes_m)
    ]  # fmt: skip
    placed = [p for p in pieces if any(job.fits(p, k) for k in range(len(job.stock)))]
    on_sheets = {piece.number for piece in placed}
    sheets = _on_sizes(placed, job, {})
    bound_sheets, bound_cost = _bounds(placed, job)
    return SheetPlan(
        sheets=tuple(sheets),
        too_large=tuple(i for i in range(len(pieces)) if i not in on_sheets),
        cost=job.worth(sheets)[0],
        bound_area_m2=math.fsum(math.prod(sizes_m[i]) for i in sorted(on_sheets)),
        bound_sheets=bound_sheets,
        bound_cost=bound_cost,
    )


def _bounds(placed: Sequence[_Piece], job: _Job) -> tuple[int, float]:
    """Return the fewest sheets and the least cost that area alone allows."""
    if not placed:
        return 0, 0.0
    need_m2 = math.fsum(piece.width_m * piece.height_m for piece in placed)
    rooms = [job.room(k) for k in range(len(job.stock))]
    usable = [(math.prod(r), p) for r, p in zip(rooms, job.prices, strict=True) if min(r) > 0]
    largest_m2 = max(usable)[0]
    return math.ceil(need_m2 / largest_m2 - FIT_M), need_m2 * min(p / m2 for m2, p in usable)
