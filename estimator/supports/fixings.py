"""Fixings of a wall plate by rules: shear of a group, and pulls by where the plate is said to turn.

Closed forms stand beside the general answer of `estimator.supports.contact`, to check it by and
to show what a rule of thumb leaves out. Actions are (across, up, out) of force, then of moment,
on the wall about the middle of the plate. What a fixing or a wall can carry is not here.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.optimize import brentq

Floats = NDArray[np.float64]

TURNS_BY = 7.0
"""A fixed neutral axis lies at this part of the height: practice with IS 800, from memory."""
FEWEST_TESTS = 3
"""Proof tests in each area that differs, at the least."""


class ProofTest(NamedTuple):
    """One way of proof testing.

    Attributes:
        share: Of the fixings in an area that are tested.
        times: The characteristic action they are tested to.
    """

    share: float
    times: float


PROOF_TESTS = (ProofTest(0.025, 1.5), ProofTest(0.05, 1.25))
"""BS 8539:2012 Annex B.3, as quoted on a fixings page; the standard itself was not seen."""


class Row(NamedTuple):
    """A plate with one row of fixings on the side that is pulled.

    Attributes:
        breadth_m: Along the pressed edge.
        depth_m: Across it: the size that the load turns.
        to_row_m: From the middle of the plate to the row, on the pulled side.
        area_m2: Stressed area of the whole row.
        ratio: Stiffness of the fixings' metal over the wall's.
    """

    breadth_m: float
    depth_m: float
    to_row_m: float
    area_m2: float
    ratio: float


class Block(NamedTuple):
    """What holds a plate with one row of fixings.

    Attributes:
        zone_m: Depth of the pressed zone from the edge.
        pull_n: Of the whole row.
        peak_pa: Largest pressure.
    """

    zone_m: float
    pull_n: float
    peak_pa: float


def group_shear(points_m: Floats, action: ArrayLike) -> Floats:
    """Return the shear of each fixing, shared evenly and by a turn about their middle.

    All fixings take part, so their holes must be filled; friction takes nothing.

    Args:
        points_m: (k, 2) float: fixings (across, up) from the middle of the plate, one or more.
        action: (..., 6) float: only the forces across and up and the moment about out count here.

    Returns:
        (..., k, 2) float: what each passes to the wall across and up.

    Raises:
        ValueError: A single fixing, or several at one place, cannot hold a turn about out.

    References:
        Elastic group of fixings, as in Budynas and Nisbett, Shigley's Mechanical Engineering
        Design, 8-12.
    """
    actions = np.asarray(action, dtype=float)
    middle_m = points_m.mean(axis=0)
    ways_m = points_m - middle_m
    polar_m2 = float(np.sum(ways_m**2))
    force = actions[..., :2]
    turn_nm = actions[..., 5] - (middle_m[0] * force[..., 1] - middle_m[1] * force[..., 0])
    if not polar_m2 > 0:
        if not np.allclose(turn_nm, 0.0):
            msg = "a single fixing cannot hold a plate against turning in its own plane"
            raise ValueError(msg)
        polar_m2 = math.inf
    # A turn about out moves what lies to the right upwards, and what lies above to the left.
    across = np.stack([-ways_m[:, 1], ways_m[:, 0]], axis=-1)
    shared = force[..., None, :] / len(points_m)
    return np.asarray(shared + turn_nm[..., None, None] / polar_m2 * across)


def edge_tilt_pulls(points_m: Floats, half_m: Floats, action: ArrayLike) -> Floats:
    """Return pulls as if the plate tilted about an edge, each in proportion to its distance.

    The wall is taken as hard as can be and the lever arm as long as can be: bent one way, a rule
    that under-reads the fixings furthest from the edge. A pull-out is shared evenly beside that; a
    push relieves nothing. Moments about across and about up are taken one at a time and added.

    Args:
        points_m: (k, 2) float.
        half_m: (2,) float: half the width and half the height of the plate.
        action: (..., 6) float.

    Returns:
        (..., k) float.

    References:
        V. B. Bhandari, Design of Machine Elements, 7.9 (bracket bolts, load parallel to the wall).
    """
    actions = np.asarray(action, dtype=float)
    moments = np.stack([-actions[..., 4], actions[..., 3]], axis=-1)
    pull_n = np.maximum(actions[..., 2], 0.0)
    pulls = (pull_n / len(points_m))[..., None] * np.ones(len(points_m))
    for axis, half in enumerate(half_m):
        side = np.sign(moments[..., axis])[..., None]
        from_edge_m = half + side * points_m[:, axis]
        square_m2 = np.sum(from_edge_m**2, axis=-1, keepdims=True)
        pulls = pulls + np.abs(moments[..., axis])[..., None] * from_edge_m / square_m2
    return np.asarray(pulls)


def centroid_pulls(points_m: Floats, action: ArrayLike) -> Floats:
    """Return pulls as if the plate turned about the middle of its fixings; below 0 is a push.

    No wall helps, so the far fixings read high.

    Args:
        points_m: (k, 2) float.
        action: (..., 6) float.

    Returns:
        (..., k) float. Where the fixings stand in one line they hold no moment across it here,
        and that part is left out.

    References:
        AISC Steel Construction Manual, Part 7, "Case II" (from memory).
    """
    actions = np.asarray(action, dtype=float)
    middle_m = points_m.mean(axis=0)
    ways_m = points_m - middle_m
    pull_n = actions[..., 2]
    first_nm = np.stack([-actions[..., 4], actions[..., 3]], axis=-1) - pull_n[..., None] * middle_m
    second_m2 = ways_m.T @ ways_m
    turned = first_nm @ np.linalg.pinv(second_m2) @ ways_m.T
    return np.asarray(pull_n[..., None] / len(points_m) + turned)


def fixed_axis_pulls(heights_m: Floats, height_m: float, moment_nm: float) -> Floats:
    """Return pulls as if the pressed zone always reached one seventh of the height.

    Args:
        heights_m: (k,) float: fixings above the pressed edge.
        height_m: Of the plate.
        moment_nm: That pulls the far fixings, above 0.

    References:
        Practice with IS 800 texts (from memory).
    """
    zone_m = height_m / TURNS_BY
    pulled_m = np.maximum(heights_m - zone_m, 0.0)
    # The pressure's middle lies a third of the zone below the edge of it, so two thirds of it
    # below the axis.
    lever_nm = np.sum(pulled_m**2) + 2 * zone_m / 3 * np.sum(pulled_m)
    return np.asarray(moment_nm * pulled_m / lever_nm)


def row_by_moment(row: Row, moment_nm: float) -> Block:
    """Return zone, pull and pressure under a moment alone.

    Args:
        row: The plate; the fixings on the pressed side are left out.
        moment_nm: Above zero.

    References:
        Cracked section with one layer of bars: c = (n A / b) (sqrt(1 + 2 b d / (n A)) - 1).
    """
    to_edge_m = row.depth_m / 2 + row.to_row_m
    bed_m = row.ratio * row.area_m2 / row.breadth_m
    zone_m = bed_m * (math.sqrt(1 + 2 * to_edge_m / bed_m) - 1)
    pull_n = moment_nm / (to_edge_m - zone_m / 3)
    return Block(zone_m, pull_n, 2 * pull_n / (row.breadth_m * zone_m))


def row_by_push(row: Row, push_n: float, off_m: float) -> Block:
    """Return zone, pull and pressure under a push off the middle, with pressure like a wedge.

    Args:
        row: The plate.
        push_n: Above zero.
        off_m: Of the push from the middle towards the pressed edge, so far that the row is pulled.

    Raises:
        ValueError: The wall presses all the way to the row.

    References:
        Cubic of the base-plate texts, Y^3 + K1 Y^2 + K2 Y + K3 = 0. Here K1 = 3 (e - D/2): a
        published sheet (a tower leg, scribd.com/document/381402416, pages 116 to 118) prints
        3 (e + D/2), which the strains of its own plate contradict.
    """
    half_m = row.depth_m / 2
    if not row.to_row_m + 3 * off_m > row.depth_m:
        msg = f"a push {off_m} m off the middle presses as far as the row and does not pull it"
        raise ValueError(msg)
    k1 = 3 * (off_m - half_m)
    k2 = 6 * row.ratio * row.area_m2 * (row.to_row_m + off_m) / row.breadth_m
    k3 = -k2 * (half_m + row.to_row_m)

    def cubic(zone_m: float) -> float:
        return ((zone_m + k1) * zone_m + k2) * zone_m + k3

    # It is below nought at the pressed edge and above at the row.
    zone_m = float(brentq(cubic, 0.0, half_m + row.to_row_m, xtol=1e-15))
    lever_m = half_m + row.to_row_m - zone_m / 3
    pull_n = push_n * (off_m - half_m + zone_m / 3) / lever_m
    return Block(zone_m, pull_n, 2 * (push_n + pull_n) / (row.breadth_m * zone_m))


def row_by_uniform_push(row: Row, push_n: float, off_m: float, pressure_pa: float) -> Block:
    """Return zone and pull with the same pressure all over the pressed zone.

    Args:
        row: The plate; neither the area of its fixings nor the stiffness ratio counts here.
        push_n: Above zero.
        off_m: Of the push from the middle.
        pressure_pa: What the zone is taken to press with.

    Raises:
        ValueError: The wall would have to press harder than that.

    References:
        AISC Design Guide 1, 2nd edition (2006), 3.4 (from memory).
    """
    line_n_m = pressure_pa * row.breadth_m
    lever_m = row.to_row_m + row.depth_m / 2
    if off_m <= row.depth_m / 2 - push_n / (2 * line_n_m):
        return Block(push_n / line_n_m, 0.0, pressure_pa)
    under = lever_m**2 - 2 * push_n * (off_m + row.to_row_m) / line_n_m
    if under < 0:
        msg = f"no zone of {pressure_pa:g} Pa holds this load"
        raise ValueError(msg)
    zone_m = lever_m - math.sqrt(under)
    return Block(zone_m, line_n_m * zone_m - push_n, pressure_pa)


def peak_without_fixings(breadth_m: float, depth_m: float, push_n: float, off_m: float) -> float:
    """Return the peak pressure [Pa] of a push off the middle of one axis, no fixings.

    Args:
        breadth_m: Along the pressed edge.
        depth_m: Across it.
        push_n: Above zero.
        off_m: Of the push from the middle, under half the depth.

    References:
        P/A (1 + 6 e/D) up to D/6; beyond, 2 P / (3 b (D/2 - e)). Textbook footing.
    """
    if 6 * off_m <= depth_m:
        return push_n / (breadth_m * depth_m) * (1 + 6 * off_m / depth_m)
    return 2 * push_n / (3 * breadth_m * (depth_m / 2 - off_m))


def peak_in_a_corner(push_n: float, from_sides_m: tuple[float, float]) -> float:
    """Return the peak pressure [Pa] where a triangle in a corner presses, no fixings.

    Args:
        push_n: Above zero.
        from_sides_m: Of the push from the two sides of that corner; four times each must lie
            within the plate.

    References:
        Volume and middle of a pyramid over a triangle; own derivation.
    """
    one_m, other_m = from_sides_m
    return 3 * push_n / (8 * one_m * other_m)


def proof_tests(fixings: Sequence[int], test: ProofTest) -> list[int]:
    """Return how many fixings would be proof tested in each area.

    Args:
        fixings: How many there are in each area where fixing, wall or condition differs.
        test: One of `PROOF_TESTS`.

    References:
        BS 8539:2012 Annex B.3, as quoted on a fixings page: a share of the fixings, at least
        three. Rounding up is this program's own.
    """
    # A share of a whole number may come out a hair above it.
    wanted = (math.ceil(round(test.share * count, 9)) for count in fixings)
    return [max(FEWEST_TESTS, count) for count in wanted]
