"""Lines that meet end to end, joined into closed loops; what does not close is told, not mended."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats

JOIN_M = 50e-6
"""Ends this close at full size are taken as one: program default, no source."""
_SAME_M = 1e-9
"""Gaps below this are rounding, and not counted as bridged."""
_NEAREST = 4
"""An end, and the three nearest to it: those it may be joined to."""
_ALONE = -1

Indices = npt.NDArray[np.intp]


class Gap(NamedTuple):
    """Where a line ends and none goes on.

    Attributes:
        at_m: (2,) its end.
        next_m: (2,) the nearest other end of that kind; itself where there is none.
        size_m: How far that is.
    """

    at_m: Floats
    next_m: Floats
    size_m: float


class Joined(NamedTuple):
    """Lines joined into loops.

    Attributes:
        loops: (k, 2) corners of each, the first not repeated.
        junctions_m: (k, 2) ends that are over where two others were joined.
        gaps: Where lines end, nearest first; none if all are closed.
        bridged: Gaps within reach that were closed.
        widest_m: The widest of them.
        doubled: Lines left out because they were drawn before.
        dots: Lines left out that have no length.
    """

    loops: tuple[Floats, ...]
    junctions_m: Floats
    gaps: tuple[Gap, ...]
    bridged: int
    widest_m: float
    doubled: int
    dots: int


def joined(lines: Sequence[Floats], join_m: float = JOIN_M) -> Joined:
    """Return lines joined end to end into closed loops, in any order and direction.

    Args:
        lines: (k, 2) points of each.
        join_m: Ends up to this far apart are joined, at the middle between them.
    """
    drawn = [_without_repeats(line) for line in lines]
    long = [line for line in drawn if len(line) > 1]
    single = _each_once(long)
    rings = [line for line in single if _length_m(line[0] - line[-1]) <= _SAME_M]
    loose = [line for line in single if _length_m(line[0] - line[-1]) > _SAME_M]
    ends_m = np.array([line[[0, -1]] for line in loose]).reshape(-1, 2)
    around_m = [float(np.hypot(*np.diff(line, axis=0).T).sum()) for line in loose]
    partner = _paired(ends_m, np.array(around_m) > 2 * join_m, join_m)
    bridges_m = np.array([_length_m(ends_m[i] - ends_m[j]) for i, j in enumerate(partner) if i < j])
    bridged_m = bridges_m[bridges_m > _SAME_M]
    alone = np.flatnonzero(partner == _ALONE)
    crowded = _crowded(ends_m, alone, join_m) if len(alone) else np.zeros(0, dtype=bool)
    return Joined(
        (*(ring[:-1] for ring in rings), *_chained(loose, ends_m, partner)),
        ends_m[alone[crowded]],
        tuple(_gaps(ends_m[alone[~crowded]])),
        len(bridged_m),
        float(bridged_m.max(initial=0.0)),
        len(long) - len(single),
        len(drawn) - len(long),
    )


def _length_m(step_m: Floats) -> float:
    return float(np.hypot(*step_m))


def _without_repeats(line: Floats) -> Floats:
    """Return a line without points that repeat the one before."""
    kept: Floats = line[np.any(np.diff(line, axis=0, prepend=np.nan) != 0, axis=1)]
    return kept


def _each_once(lines: Sequence[Floats]) -> list[Floats]:
    """Return lines without those that run where another one does, in either direction."""
    found: dict[bytes, Floats] = {}
    for line in lines:
        rounded = np.round(line / _SAME_M) + 0.0  # no negative zero
        forth, back = rounded.tobytes(), rounded[::-1].tobytes()
        found.setdefault(min(forth, back), line)
    return [*found.values()]


def _paired(ends_m: Floats, closable: npt.NDArray[np.bool_], join_m: float) -> Indices:
    """Return, for each end, the one it is joined to, nearest pairs first; -1 where there is none.

    Args:
        ends_m: (2 n, 2) both ends of line after line.
        closable: (n,) whether a line is long enough for its two ends to be joined.
        join_m: How far apart they may be.
    """
    partner = np.full(len(ends_m), _ALONE, dtype=np.intp)
    if not len(ends_m):
        return partner
    reach_m, near = _nearest(ends_m, ends_m, _NEAREST)
    start, rank = np.nonzero(reach_m <= join_m)
    end = near[start, rank]
    fit = (start != end) & ((start // 2 != end // 2) | closable[start // 2])
    pairs = np.sort(np.stack((start[fit], end[fit])), axis=0)
    order = np.lexsort((pairs[1], pairs[0], reach_m[start, rank][fit]))
    for i, j in pairs[:, order].T.tolist():
        if partner[i] == partner[j] == _ALONE:
            partner[i], partner[j] = j, i
    return partner


def _crowded(ends_m: Floats, alone: Indices, join_m: float) -> npt.NDArray[np.bool_]:
    """Return which ends that nothing goes on from lie where other lines end."""
    reach_m, near = _nearest(ends_m, ends_m[alone], _NEAREST)
    others = (reach_m <= join_m) & (near // 2 != alone[:, None] // 2)
    crowded: npt.NDArray[np.bool_] = others.any(axis=1)
    return crowded


def _gaps(ends_m: Floats) -> Iterator[Gap]:
    """Yield ends that nothing goes on from, each with the nearest other one, nearest first."""
    if len(ends_m) == 1:
        yield Gap(ends_m[0], ends_m[0], 0.0)
    if len(ends_m) <= 1:
        return
    reach_m, near = _nearest(ends_m, ends_m, 2)
    # Of two ends at one point the second nearest may be the end itself.
    other = np.where(near[:, 1] == np.arange(len(ends_m)), near[:, 0], near[:, 1])
    for i in np.argsort(reach_m[:, 1], kind="stable").tolist():
        j = int(other[i])
        if not (other[j] == i and j < i):
            yield Gap(ends_m[i], ends_m[j], float(reach_m[i, 1]))


def _nearest(among_m: Floats, points_m: Floats, count: int) -> tuple[Floats, Indices]:
    """Return how far the nearest few points are, and which; endless where there are not as many."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy

    reach_m, near = cKDTree(among_m).query(points_m, k=count)
    return np.asarray(reach_m), np.asarray(near)


def _chained(lines: Sequence[Floats], ends_m: Floats, partner: Indices) -> Iterator[Floats]:
    """Yield the loops that joined lines make."""
    seen = np.zeros(len(lines), dtype=bool)
    for first in range(len(lines)):
        chain, end = list[Floats](), 2 * first
        while end != _ALONE and not seen[end // 2]:
            line, far = end // 2, end ^ 1
            seen[line] = True
            run_m = (lines[line] if end < far else lines[line][::-1]).copy()
            beyond = partner[[end, far]]
            run_m[0] = (ends_m[end] + ends_m[beyond[0]]) / 2
            chain.append(run_m[:-1])
            end = int(beyond[1])
        if end == 2 * first and chain:
            yield np.concatenate(chain)
