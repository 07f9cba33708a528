"""How brackets in a row share loads when the body between them is a chain of simple spans.

The lever rule: what hangs between two neighbours is shared between those two alone. Beyond the
last support the end span's lever goes on, so that its neighbour is lifted. It is the opposite
limit to a rigid body, and asks nothing of the brackets' stiffness.

Only what acts square to the row has a lever. What twists the body about the row, or pushes it
along the row, comes from beyond the last support into that one alone.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from estimator.supports.arms import moved

Floats = NDArray[np.float64]

SAME_PLACE_M = 1e-3
"""Supports nearer than this along the row count as one place, and share alike."""
_POINT_M = 1e-9
"""Half-length given to a point load, so that one on a support belongs to both its spans."""


class _Row(NamedTuple):
    """Supports gathered into stations along the row.

    Attributes:
        stations_m: (s,) float, rising.
        members: (s, n) float: part of a station's load that each support takes.
    """

    stations_m: Floats
    members: Floats


def longest_axis(points_m: Floats) -> int:
    """Return the axis (0 across, 1 up, 2 out) along which points (n, 3) are spread most."""
    return int(np.argmax(np.ptp(points_m, axis=0)))


def lever_shares(positions_m: Floats, centre_m: Floats, half_length_m: Floats) -> Floats:
    """Return the part of each load that each support in a row carries.

    Args:
        positions_m: (n,) float: supports along the row, in any order, one or more.
        centre_m: (m,) float: middle of each load.
        half_length_m: (m,) float: each load is even over centre +- this; 0 is a point load.

    Returns:
        (m, n) float: every row sums to 1. Beyond the end supports parts above 1 and below 0.

    References:
        Plane statics of simple spans with overhanging ends; no code rule.
    """
    row = _row(positions_m)
    if len(row.stations_m) == 1:
        return np.repeat(row.members, len(centre_m), axis=0)
    weight, middle_m = _pieces(row.stations_m, centre_m, half_length_m)
    to_right = (middle_m - row.stations_m[:-1]) / np.diff(row.stations_m)
    return _on_both_ends(weight * (1 - to_right), weight * to_right) @ row.members


def lever_slopes(positions_m: Floats, centre_m: Floats, half_length_m: Floats) -> Floats:
    """Return how fast `lever_shares` changes as each load moves along the row.

    A couple is a pair of opposite forces close together, so it loads the supports by this.

    Args:
        positions_m: (n,) float.
        centre_m: (m,) float.
        half_length_m: (m,) float.

    Returns:
        (m, n) float, 1/m: every row sums to 0, and times the positions to 1; all zero when
        there is only one place of support.
    """
    row = _row(positions_m)
    if len(row.stations_m) == 1:
        return np.zeros((len(centre_m), len(positions_m)))
    weight, _ = _pieces(row.stations_m, centre_m, half_length_m)
    slope = weight / np.diff(row.stations_m)
    return _on_both_ends(-slope, slope) @ row.members


def lever_sharing(
    points_m: Floats,
    axis: int,
    force_n: Floats,
    at_m: Floats,
    half_length_m: Floats,
    moment_nm: Floats,
) -> Floats:
    """Return what loads on a row of brackets do to each, by the lever rule.

    A bracket takes its share of each load as a cantilever: the load's distance from the
    bracket square to the row goes into the moment there. A couple about the row is
    shared like a force, but for the lever beyond the last support; a couple about the other two
    axes becomes a pair of forces on the supports of its span. With a single place of support
    everything goes there. Brackets one above the other at one place of the row share what comes
    there by the same rule along the axis they are spread on, so that its moment pulls on the top
    one and pushes on the bottom.

    Args:
        points_m: (n, 3) float: where each bracket meets the body.
        axis: The row runs along this one: 0 across, 1 up, 2 out.
        force_n: (m, 3) float.
        at_m: (m, 3) float: middle of each load.
        half_length_m: (m,) float: how far it spreads along the row, each way.
        moment_nm: (m, 3) float: couple that comes with the load, about its middle.

    Returns:
        (m, n, 6) float: action on each bracket at its point, in equilibrium with the loads.
        `moved` takes it to the wall.
    """
    stations = _stations(points_m[:, axis])
    middles_m = np.array([points_m[members].mean(axis=0) for members in stations])
    there = _along_row(middles_m, axis, force_n, at_m, half_length_m, moment_nm)
    actions = np.empty((len(force_n), len(points_m), 6))
    for s, members in enumerate(stations):
        own_m = points_m[members]
        spread_m = np.ptp(own_m, axis=0)
        spread_m[axis] = 0.0
        second = int(np.argmax(spread_m))
        middle_m = np.broadcast_to(middles_m[s], (len(force_n), 3))
        reach_m = np.full(len(force_n), spread_m[second] / 2)
        force, moment = there[:, s, :3], there[:, s, 3:]
        actions[:, members] = _along_row(own_m, second, force, middle_m, reach_m, moment)
    return actions


def parts_a_station(positions_m: Floats, there: NDArray[np.bool_]) -> bool:
    """Return whether a place of the row has lost some of its supports, but not all of them.

    What is left of a pair would have to hold the couple that the pair shared, as if the body had
    no other support to twist against: no answer, so the lever rule is not asked then.

    Args:
        positions_m: (n,) float: supports along the row.
        there: (n,) bool: which take part.
    """
    return any(there[some].any() and not there[some].all() for some in _stations(positions_m))


def _along_row(
    points_m: Floats,
    axis: int,
    force_n: Floats,
    at_m: Floats,
    half_length_m: Floats,
    moment_nm: Floats,
) -> Floats:
    """Return the actions of loads on brackets that stand one behind the other along an axis."""
    along = np.eye(3)[axis]
    loads = points_m[:, axis], at_m[:, axis], half_length_m
    shares, slopes = lever_shares(*loads), lever_slopes(*loads)
    held, held_slopes = _held_shares(*loads)
    # A pair of forces q apart by one unit of length along the row makes the couple along x q.
    pair_n = np.cross(moment_nm, along)
    square_n = force_n * (1 - along)
    on_each_n = _outer(shares, square_n) + _outer(slopes, pair_n) + _outer(held, force_n * along)
    # As a cantilever each bracket takes what it is given where the load is, but for the lever.
    beside_m = (at_m[:, np.newaxis] - points_m) * (1 - along)
    without_lever_n = _outer(held, force_n) + _outer(held_slopes, pair_n)
    moments_nm = np.cross(beside_m, without_lever_n)
    # What is left over: the couple about the row and, with one place of support, the rest.
    so_far = np.concatenate([on_each_n, moments_nm], axis=-1)
    whole = moved(np.concatenate([force_n, moment_nm], axis=-1), at_m)
    left_nm = (whole - moved(so_far, points_m).sum(axis=1))[:, 3:]
    return np.concatenate([on_each_n, moments_nm + _outer(held, left_nm)], axis=-1)


def _outer(shares: Floats, of: Floats) -> Floats:
    """Return the share (m, n) of each support in vectors (m, 3): (m, n, 3)."""
    return np.asarray(shares[..., np.newaxis] * of[:, np.newaxis])


def _held_shares(
    positions_m: Floats, centre_m: Floats, half_length_m: Floats
) -> tuple[Floats, Floats]:
    """Return shares and slopes of what has no lever, (m, n) each: beyond an end all goes there."""
    row = _row(positions_m)
    stations_m = row.stations_m
    if len(stations_m) == 1:
        shares = np.repeat(row.members, len(centre_m), axis=0)
        return shares, np.zeros_like(shares)
    # Spans added beyond both ends hold the parts of a load that hang over.
    over_m = np.concatenate([stations_m[:1] - 1.0, stations_m, stations_m[-1:] + 1.0])
    weight, middle_m = _pieces(over_m, centre_m, half_length_m)
    span_m = np.diff(stations_m)
    to_right = (middle_m[:, 1:-1] - stations_m[:-1]) / span_m
    shares = _on_both_ends(weight[:, 1:-1] * (1 - to_right), weight[:, 1:-1] * to_right)
    shares[:, 0] += weight[:, 0]
    shares[:, -1] += weight[:, -1]
    slope = weight[:, 1:-1] / span_m
    return shares @ row.members, _on_both_ends(-slope, slope) @ row.members


def _stations(positions_m: Floats) -> list[NDArray[np.intp]]:
    """Return the supports at each place along the row, in rising order."""
    members = _row(positions_m).members
    return [np.flatnonzero(row > 0) for row in members]


def _row(positions_m: Floats) -> _Row:
    """Return the stations of supports: those in one place share alike."""
    order = np.argsort(positions_m, kind="stable")
    new_place = np.diff(positions_m[order], prepend=-np.inf) > SAME_PLACE_M
    station = np.empty(len(order), dtype=int)
    station[order] = np.cumsum(new_place) - 1
    belongs = np.equal.outer(np.arange(station.max() + 1), station)
    members = belongs / belongs.sum(axis=1, keepdims=True)
    return _Row(members @ positions_m, members)


def _pieces(stations_m: Floats, centre_m: Floats, half_length_m: Floats) -> tuple[Floats, Floats]:
    """Return the part of each load over each span (m, s - 1), and the middle of that part."""
    half_m = np.maximum(half_length_m, _POINT_M)[:, np.newaxis]
    centre_m = centre_m[:, np.newaxis]
    inner = stations_m[1:-1]
    left = np.maximum(centre_m - half_m, np.concatenate([[-np.inf], inner]))
    right = np.minimum(centre_m + half_m, np.concatenate([inner, [np.inf]]))
    length = np.maximum(right - left, 0.0)
    return length / length.sum(axis=1, keepdims=True), (left + right) / 2


def _on_both_ends(left: Floats, right: Floats) -> Floats:
    """Return what each station gets from the spans beside it: (m, s - 1) twice -> (m, s)."""
    return np.pad(left, ((0, 0), (0, 1))) + np.pad(right, ((0, 0), (1, 0)))
