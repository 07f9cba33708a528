"""Blanks as records, and dividing them into pieces that can be cut, with joints between them.

A blank with straight sides, a disc or an oval is divided by straight cuts from side to side into
equal rows and columns; a ring or a sector into shorter arcs. Every joint takes an allowance of
sheet, on one of the two pieces that meet.
"""

import math
from collections.abc import Iterator
from typing import NamedTuple

from estimator.geometry import loops
from estimator.geometry.loops import Loops

COVER_M = 0.075
"""Upright cover that a lap on a slope keeps. Roofing tips 4 of a consultant (roofconsult.co.uk,
as quoted): 150 mm at 30 degrees, 290 mm at 15."""
ROUND_UP = 1e-9
"""A length this share over a whole number of pieces is still that number."""
ALIKE = 1e-6
"""A piece this share longer than the longest is no longer than it."""


class Size(NamedTuple):
    """A dimension to set a pattern out by: in m, or in rad where it is an angle."""

    name: str
    value: float
    unit: str = "m"


class Piece(NamedTuple):
    """Flat pieces alike, or lengths of bar.

    Attributes:
        number: How many.
        length_m: Of the rectangle that one is cut from, or of the bar.
        width_m: The same; 0 for a bar.
        loops: Outline of one, as `estimator.geometry.loops` has it; none for a bar.
        edges: How many laps of the seams that close the part it carries along its length, and
            along its width.
    """

    number: int
    length_m: float
    width_m: float
    loops: Loops = ()
    edges: tuple[int, int] = (0, 0)


class Blank(NamedTuple):
    """What a part is cut from.

    Attributes:
        kind: rectangle, disc, oval, ring, sector, outline, gores, segments, faces, net or bar;
            area for what is not laid out.
        pieces: The pieces that make one part.
        area_m2: Of all pieces, by their own outlines; 0 for a bar.
        why: How it was found, a sentence without a full stop.
        sizes: What its pieces are set out by.
        seams: Joints that close the part, however few pieces it is made from.
        seam_m: Their length together.
    """

    kind: str
    pieces: tuple[Piece, ...]
    area_m2: float
    why: str
    sizes: tuple[Size, ...] = ()
    seams: int = 0
    seam_m: float = 0.0

    @property
    def number(self) -> int:
        """Return how many pieces there are."""
        return sum(piece.number for piece in self.pieces)

    def scaled(self, factor: float) -> "Blank":
        """Return the blank with every length multiplied, and so its area by the square."""
        pieces = tuple(
            piece._replace(length_m=piece.length_m * factor, width_m=piece.width_m * factor,
                           loops=loops.scaled(piece.loops, factor))
            for piece in self.pieces
        )  # fmt: skip
        sizes = tuple(
            size._replace(value=size.value * factor) if size.unit == "m" else size
            for size in self.sizes
        )
        return self._replace(
            pieces=pieces, sizes=sizes, area_m2=self.area_m2 * factor**2,
            seam_m=self.seam_m * factor,
        )  # fmt: skip


class Joining(NamedTuple):
    """Into what a blank is divided.

    Attributes:
        pieces: Pieces wanted in all.
        longest_m: No piece may be longer, its allowance for joints included.
        allowance_m: Sheet that each joint takes.
    """

    pieces: int = 1
    longest_m: float = math.inf
    allowance_m: float = 0.0


class Cut(NamedTuple):
    """A blank divided.

    Attributes:
        pieces: Rectangles to cut the pieces from, joints allowed for; the alike together.
        joints: How many, each between two pieces or the two edges of one.
        joint_m: Their length together.
    """

    pieces: tuple[Piece, ...]
    joints: int
    joint_m: float

    @property
    def number(self) -> int:
        """Return how many pieces there are."""
        return sum(piece.number for piece in self.pieces)

    @property
    def longest_m(self) -> float:
        """Return the longest side of any piece; 0 when there is none."""
        return max((max(piece.length_m, piece.width_m) for piece in self.pieces), default=0.0)


class _Grid(NamedTuple):
    """Into how many a rectangle is divided along its length and along its width."""

    rows: int
    columns: int


def slope_lap_m(slope_rad: float, cover_m: float = COVER_M) -> float:
    """Return the lap [m] on a slope that keeps an upright cover.

    Raises:
        ValueError: The slope is level or turned over, where no lap keeps it.
    """
    if not math.sin(slope_rad) > 0:
        msg = f"a lap needs a slope above level, got {math.degrees(slope_rad):g} degrees"
        raise ValueError(msg)
    return cover_m / math.sin(slope_rad)


def fewest_pieces(blank: Blank, longest_m: float) -> int:
    """Return how many pieces no division of the blank can do with less than, joints left out."""
    return sum(
        piece.number * _whole(piece.length_m / longest_m) * _whole(piece.width_m / longest_m)
        for piece in blank.pieces
    )


def _whole(pieces: float) -> int:
    """Return a number of pieces rounded up, one at the least."""
    return max(1, math.ceil(pieces * (1 - ROUND_UP)))


def divided(blank: Blank, joining: Joining) -> Cut:
    """Return a blank divided into as many pieces as are wanted, or as its longest piece makes.

    What is made from several pieces already is divided only as far as those are too few or too
    long.

    Args:
        blank: The blank, as large as it is to be before its joints.
        joining: Into what.
    """
    if blank.kind in ("ring", "sector"):
        return _arcs(blank, joining)
    share = math.ceil(joining.pieces / blank.number) if blank.number else 1
    pieces: list[Piece] = []
    joints, joint_m = blank.seams, blank.seam_m
    for piece in blank.pieces:
        grid = _grid(piece, share, joining)
        between, between_m = _between(piece, grid)
        joints += piece.number * between
        joint_m += piece.number * between_m
        pieces += _parts(piece, grid, joining.allowance_m if piece.width_m else 0.0)
    return Cut(tuple(pieces), joints, joint_m)


def _grid(piece: Piece, share: int, joining: Joining) -> _Grid:
    """Return the most compact division into as few pieces as will do.

    A length of bar is divided along its length alone.
    """
    rows = _needed(piece.length_m, piece.edges[0], joining)
    columns = _needed(piece.width_m, piece.edges[1], joining)
    if not piece.width_m:
        return _Grid(max(rows, share), 1)
    ways: list[_Grid] = []
    count = max(share, rows * columns)
    while not ways:
        ways = [
            _Grid(n, count // n)
            for n in range(rows, count // columns + 1)
            if count % n == 0 and count // n >= columns
        ]
        count += 1
    return min(ways, key=lambda g: max(piece.length_m / g.rows, piece.width_m / g.columns))


def _needed(side_m: float, laps: int, joining: Joining) -> int:
    """Return into how many a side must be divided to keep within the longest piece."""
    most_m, lap_m = joining.longest_m, joining.allowance_m
    if side_m + laps * lap_m <= most_m * (1 + ROUND_UP):
        return 1
    return _whole(side_m / (most_m - lap_m if most_m > lap_m else most_m))


def _between(piece: Piece, grid: _Grid) -> tuple[int, float]:
    """Return how many joints a division makes in one piece, and their length inside its outline."""
    across = [(0, piece.length_m * n / grid.rows) for n in range(1, grid.rows)]
    along = [(1, piece.width_m * n / grid.columns) for n in range(1, grid.columns)]
    length_m = math.fsum(loops.crossing_m(piece.loops, *at) for at in (*across, *along))
    joints = grid.columns * (grid.rows - 1) + grid.rows * (grid.columns - 1)
    return joints, length_m if piece.loops else 0.0


def _parts(piece: Piece, grid: _Grid, allowance_m: float) -> Iterator[Piece]:
    """Yield the rectangles of a division: those with an allowance on a side, and those without."""
    lengths = _sides(piece.length_m, grid.rows, piece.edges[0], allowance_m)
    widths = _sides(piece.width_m, grid.columns, piece.edges[1], allowance_m)
    for rows, length_m in lengths:
        for columns, width_m in widths:
            yield Piece(piece.number * rows * columns, length_m, width_m)


def _sides(side_m: float, count: int, laps: int, allowance_m: float) -> list[tuple[int, float]]:
    """Return how many sides have which length, when a side is divided and its laps are added."""
    if not allowance_m:
        return [(count, side_m / count)]
    joined = count - 1 + laps
    sides = [(joined, side_m / count + allowance_m), (count - joined, side_m / count)]
    return [(number, length_m) for number, length_m in sides if number]


def _arcs(blank: Blank, joining: Joining) -> Cut:
    """Return a ring or sector in shorter arcs, each joined to the next by a straight edge."""
    sizes = {size.name: size.value for size in blank.sizes}
    outer_m, inner_m = sizes["outer radius"], sizes["inner radius"]
    whole_rad = sizes.get("angle", loops.FULL_RAD)
    depth_m = outer_m - inner_m
    most_m = joining.longest_m * (1 + ALIKE)
    lap_m = joining.allowance_m if joining.allowance_m < most_m else 0.0
    count = max(joining.pieces, 1)
    while True:
        length_m, width_m = loops.size_m(loops.sector(outer_m, inner_m, whole_rad / count))
        # Shorter arcs do not help where it is their depth that is too long.
        if length_m + lap_m <= most_m and (width_m <= most_m or depth_m > joining.longest_m):
            break
        count += 1
    closed = blank.seams > 0 or (blank.kind == "ring" and count > 1)
    joints = count if closed else count - 1
    sides = [(joints, length_m + joining.allowance_m), (count - joints, length_m)]
    pieces = tuple(Piece(n, long_m, width_m) for n, long_m in sides if n)
    return Cut(pieces, joints, joints * depth_m)
