"""A wall plate in one-sided contact: the wall only presses, the fixings only pull.

The plate stays plane. The gap between it and the wall is ``a + b across + c up``; where it would
be less than nought the wall presses in proportion, and where it is more a fixing that stands
there is stretched in proportion. That is the strain plane of a cracked section, bent both ways.

The energy of such a plate is convex in (a, b, c), so Newton's method with a search along each
step finds its least value; the pressed zone is the plate cut by a line, and its moments are exact.
All cases are solved at once. Actions are (across, up, out) of force, then of moment, on the wall
about the middle of the plate: out is + for a pull, about across + pulls at the top.

Not in it: prying, bending of the plate, friction, and fixings that are stressed beforehand.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

RATIOS = (7.0, 15.0, 30.0, 60.0)
"""Stiffness of a fixing's metal over the wall's: about 7 is steel in concrete (210/30 GPa), and
masonry is softer by an amount that nobody knows without a test; program defaults, no source."""
UNTIL = 1e-13
"""Imbalance at which a case is solved: share of its load, or of its pulls and pressure if more."""
AT_MOST = 1e-10
"""Imbalance above which a case is not called solved."""

_OUT, _ABOUT_ACROSS, _ABOUT_UP = 2, 3, 4
_STEPS, _SEARCHES = 80, 40
_TURNED = 0.5
"""A step may end where the energy rises again by this share of how it fell at first."""
_SHORTEST, _LONGEST = 0.1, 0.9
_DAMPING, _TINY, _ALL_BUT = 1e-8, 1e-15, 1e-11
_SIDE = 1e-9
"""Share of half the plate within which a fixing stands on its very side."""
_CORNERS = np.array([(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)])
_PRESSED = np.array([(-1.0, 0.0, 0.0)])
"""A plane (a, b, c) that presses all over."""
_LEANS = np.array([(1.0, 1.0, 0.0), (1.0, -1.0, 0.0), (1.0, 0.0, 1.0), (1.0, 0.0, -1.0)])
"""Gaps (a, b, c) of a plate that turns about one of its sides, away from the wall."""
_SIDES = ("left", "right", "bottom", "top")
"""That side, in the same order."""


class NoEquilibriumError(ValueError):
    """No pressure on the wall and no pull of the fixings hold the plate; says why."""


class UnsolvedError(ArithmeticError):
    """The plane of a plate was not found; says how far off it is."""


@dataclass(frozen=True, slots=True)
class WallPlate:
    """A plate on the wall and the fixings that hold it.

    Attributes:
        width_m: Across.
        height_m: Up.
        points_m: (k, 2) float: fixings (across, up) from the middle of the plate; k may be 0.
        area_m2: Stressed area of one fixing.
    """

    width_m: float
    height_m: float
    points_m: Floats
    area_m2: float

    def __post_init__(self) -> None:
        """Refuse a plate that cannot be."""
        if not (self.width_m > 0 and self.height_m > 0):
            msg = f"a plate needs sizes above zero, got {self.width_m} x {self.height_m} m"
            raise ValueError(msg)
        if len(self.points_m) and not self.area_m2 > 0:
            msg = f"fixings need an area above zero, got {self.area_m2} m2"
            raise ValueError(msg)
        if not np.all(np.abs(self.points_m) <= self.half_m * (1 + _SIDE)):
            msg = f"a fixing lies beyond the edge of a {self.width_m} x {self.height_m} m plate"
            raise ValueError(msg)

    @property
    def half_m(self) -> Floats:
        """Return half the sizes, (2,)."""
        return np.array([self.width_m, self.height_m]) / 2


class Contact(NamedTuple):
    """What the wall and the fixings do, for each case (...).

    Attributes:
        pull_n: (..., k) pull of each fixing.
        pressed_n: (...) sum of what presses on the wall.
        pressed_at_m: (..., 2) where that acts, from the middle of the plate; NaN if nothing does.
        peak_pa: (...) largest pressure on the wall.
        plane_pa: (..., 3) pressure at (across, up) is ``-(a + b across + c up)`` where above 0.
        residual: (...) imbalance, moments over half the plate's sizes; a share of the load, or of
            the sum of pulls and pressure where that is more.
        steps: (...) int: how many steps of Newton's method it took.
    """

    pull_n: Floats
    pressed_n: Floats
    pressed_at_m: Floats
    peak_pa: Floats
    plane_pa: Floats
    residual: Floats
    steps: NDArray[np.intp]


class _Scaled(NamedTuple):
    """Cases as numbers about 1, lengths from the middle of the fixings over half the plate.

    From there the gap at a stiff fixing near an edge is not lost in the rounding of large slopes.

    Attributes:
        load: (m, 3) pull, and its first moments.
        stiffness: (m,) of one fixing.
        corners: (4, 2).
        fixings: (k, 3): 1, across, up.
        origin: (2,) middle of the fixings from that of the plate.
    """

    load: Floats
    stiffness: Floats
    corners: Floats
    fixings: Floats
    origin: Floats

    def some(self, cases: NDArray[np.intp]) -> "_Scaled":
        """Return some of the cases."""
        return self._replace(load=self.load[cases], stiffness=self.stiffness[cases])


class _State(NamedTuple):
    """What a trial plane leaves unbalanced, how stiff it is, and how large its forces are."""

    imbalance: Floats
    stiffness: Floats
    size: Floats

    @property
    def residual(self) -> Floats:
        """Return how far each case is off balance, as a share of its size."""
        share: Floats = np.linalg.norm(self.imbalance, axis=-1) / np.maximum(self.size, 1.0)
        return share


def contact(plate: WallPlate, action: ArrayLike, ratio: ArrayLike = RATIOS[0]) -> Contact:
    """Return pressure and pulls of a plate under each action.

    Args:
        plate: With its fixings, equally long and equally stiff.
        action: (..., 6) float: only out and the moments about across and up count here.
        ratio: (...) float that fits the actions, above zero: stiffness of the fixings' metal
            over the wall's. Only its product with the area counts.

    Raises:
        NoEquilibriumError: An action that nothing can balance.
        UnsolvedError: A case that the steps did not solve.
        ValueError: A ratio or an action that is no number, or a ratio of nought.

    References:
        Linear strains over a flat plate and equally stiff fixings: EN 1992-4 (as described in
        Li, Stahlbau 88 (2019) no. 8, which warns that few plates are stiff enough for it).
        Energy and its derivatives: own derivation.
    """
    load, ratios = _loads(plate, action, ratio)
    refused = unheld(plate, action)
    if refused.any():
        raise NoEquilibriumError(why_unheld(plate, np.asarray(action)[refused][0]))
    cases = _scaled(plate, load.reshape(-1, 3), ratios.reshape(-1))
    size = np.linalg.norm(cases.load, axis=-1)
    acting = np.flatnonzero(size)
    planes = np.zeros_like(cases.load)
    residual, steps = np.zeros(len(size)), np.zeros(len(size), dtype=np.intp)
    if len(acting):
        unit = cases._replace(load=cases.load / np.where(size > 0, size, 1.0)[:, None])
        planes[acting], residual[acting], steps[acting] = _solved(unit.some(acting))
    worst = float(residual.max(initial=0.0))
    if not worst <= AT_MOST:
        msg = f"a plate was not solved: {worst:.1e} of its load is out of balance"
        raise UnsolvedError(msg)
    shape = load.shape[:-1]
    return _answers(plate, cases, planes * size[:, None], shape)._replace(
        residual=residual.reshape(shape), steps=steps.reshape(shape)
    )


def unheld(plate: WallPlate, action: ArrayLike) -> Bools:
    """Return which actions no pressure and no pull can balance, (...).

    A fixing inside the plate holds it whatever acts, for it need only pull hard enough. Without
    one, the plate comes off by turning about a side that all fixings stand on, or about any.

    Args:
        plate: With its fixings, if any.
        action: (..., 6) float.
    """
    load, _ = _loads(plate, action, 1.0)
    works = load @ _LEANS[_free_sides(plate)].T
    refused: Bools = np.any(works >= 0, axis=-1) & np.any(load != 0, axis=-1)
    return refused


def why_unheld(plate: WallPlate, action: ArrayLike) -> str:
    """Return in words why nothing balances one action, (6,); blank when something does."""
    load, _ = _loads(plate, action, 1.0)
    sides = [_SIDES[side] for side in _free_sides(plate) if load @ _LEANS[side] >= 0]
    if not sides or not load.any():
        return ""
    held = "all its fixings stand on that side" if len(plate.points_m) else "it has no fixings"
    if load[0] >= 0:
        return f"no equilibrium: the plate is pulled or turned off the wall, and {held}"
    return f"no equilibrium: the load presses beyond the {sides[0]} side of the plate, and {held}"


def zone(plate: WallPlate, plane_pa: Floats) -> Floats:
    """Return the outline of the part that presses on the wall, (v, 2) [m]; v is 0 or 3 to 5.

    Args:
        plate: The plate.
        plane_pa: (3,) of one case, as in `Contact`.
    """
    corners = _CORNERS * plate.half_m
    gaps = plane_pa[0] + corners @ plane_pa[1:]
    outline = []
    for here, there, gap, next_gap in zip(
        corners, np.roll(corners, -1, axis=0), gaps, np.roll(gaps, -1), strict=True
    ):
        if gap < 0:
            outline.append(here)
        if (gap < 0) != (next_gap < 0):
            outline.append(here + (there - here) * gap / (gap - next_gap))
    return np.array(outline).reshape(-1, 2)


def _loads(plate: WallPlate, action: ArrayLike, ratio: ArrayLike) -> tuple[Floats, Floats]:
    """Return pull, and its first moments over half the plate, (..., 3), with ratios (...)."""
    actions, ratios = np.asarray(action, dtype=float), np.asarray(ratio, dtype=float)
    if not (np.all(np.isfinite(actions)) and np.all(ratios > 0)):
        msg = "a plate needs actions that are numbers and stiffness ratios above zero"
        raise ValueError(msg)
    half_across, half_up = plate.half_m
    # A pull to the right of the middle turns the plate the negative way about up.
    load = np.stack(
        [
            actions[..., _OUT],
            -actions[..., _ABOUT_UP] / half_across,
            actions[..., _ABOUT_ACROSS] / half_up,
        ],
        axis=-1,
    )
    shape = np.broadcast_shapes(load.shape[:-1], ratios.shape)
    return np.broadcast_to(load, (*shape, 3)), np.broadcast_to(ratios, shape)


def _free_sides(plate: WallPlate) -> list[int]:
    """Return the sides that every fixing stands on; all four where there are no fixings."""
    off = np.column_stack([np.ones(len(plate.points_m)), plate.points_m / plate.half_m])
    return [side for side, lean in enumerate(_LEANS) if np.all(off @ lean <= _SIDE)]


def _scaled(plate: WallPlate, load: Floats, ratios: Floats) -> _Scaled:
    spots = plate.points_m / plate.half_m
    origin = spots.mean(axis=0) if len(spots) else np.zeros(2)
    about = np.concatenate([load[..., :1], load[..., 1:] - load[..., :1] * origin], axis=-1)
    fixings = np.column_stack([np.ones(len(spots)), spots - origin])
    stiffness = ratios * plate.area_m2 / plate.half_m.prod()
    return _Scaled(about, stiffness, _CORNERS - origin, fixings, origin)


def _solved(cases: _Scaled) -> tuple[Floats, Floats, NDArray[np.intp]]:
    """Return the planes (m, 3), what is left unbalanced (m,), and the steps taken (m,)."""
    whole = _pressed_moments(cases.corners, _PRESSED)
    full = whole + cases.stiffness[:, None, None] * (cases.fixings.T @ cases.fixings)
    planes = np.asarray(np.linalg.solve(full, cases.load[..., None])[..., 0], dtype=np.float64)
    state = _state(cases, planes)
    steps = np.zeros(len(planes), dtype=np.intp)
    left = np.arange(len(planes))
    for _ in range(_STEPS):
        left = left[state.residual[left] > UNTIL]
        if not len(left):
            break
        before = _State(*(part[left] for part in state))
        moved, found = _step(cases.some(left), planes[left], before)
        # Rounding can hold up a case that is all but solved; the best it came to is kept.
        onward = (found.residual < before.residual) | (before.residual > _ALL_BUT)
        left = left[onward]
        planes[left], steps[left] = moved[onward], steps[left] + 1
        for part, new in zip(state, found, strict=True):
            part[left] = new[onward]
    return planes, state.residual, steps


def _step(cases: _Scaled, planes: Floats, state: _State) -> tuple[Floats, _State]:
    """Return planes one step of Newton's method on, shortened where the energy rises again."""
    slack = _DAMPING * np.linalg.norm(state.imbalance, axis=-1) + _TINY
    damped = state.stiffness + slack[:, None, None] * np.eye(3)
    way = -np.linalg.solve(damped, state.imbalance[..., None])[..., 0]
    slope = np.sum(way * state.imbalance, axis=-1)
    share = np.ones(len(planes))
    trial = planes + way
    found = _state(cases, trial)
    for _ in range(_SEARCHES):
        rising = np.sum(way * found.imbalance, axis=-1)
        beyond = rising > -_TURNED * slope
        if not beyond.any():
            break
        # Where a straight line through the two slopes crosses nought.
        nearer = -slope[beyond] / (rising[beyond] - slope[beyond])
        share[beyond] *= np.clip(nearer, _SHORTEST, _LONGEST)
        trial = planes + share[:, None] * way
        found = _state(cases, trial)
    return trial, found


def _state(cases: _Scaled, planes: Floats) -> _State:
    pressing = _pressed_moments(cases.corners, planes)
    gaps = planes @ cases.fixings.T
    pulling = np.where(gaps > 0, cases.stiffness[:, None], 0.0)
    products = cases.fixings[:, :, None] * cases.fixings[:, None, :]
    stiffness = pressing + (pulling @ products.reshape(-1, 9)).reshape(-1, 3, 3)
    called_up = np.einsum("mij,mj->mi", stiffness, planes)
    size = np.sum(pulling * gaps, axis=-1) - np.einsum("mj,mj->m", pressing[:, 0], planes)
    return _State(called_up - cases.load, stiffness, size)


def _pressed_moments(corners: Floats, planes: Floats) -> Floats:
    """Return moments (1, u, v) x (1, u, v) of the part of the plate with a gap below nought.

    A fan of triangles from a place where the line of no gap crosses the outline, one to each side
    of the plate: those of its sides, cut off at that line, that are pressed.

    Args:
        corners: (4, 2) float: of the plate, in order.
        planes: (m, 3) float.

    Returns:
        (m, 3, 3) float.
    """
    following = np.roll(corners, -1, axis=0)
    start = planes[:, :1] + planes[:, 1:] @ corners.T
    end = np.roll(start, -1, axis=1)
    crossed = (start < 0) != (end < 0)
    with np.errstate(divide="ignore", invalid="ignore"):
        at = np.where(crossed, start / (start - end), 0.0)
    cut = corners + at[..., None] * (following - corners)
    first = np.where((start < 0)[..., None], corners, cut)
    last = np.where((end < 0)[..., None], following, cut)
    tip = np.take_along_axis(cut, crossed.argmax(axis=1)[:, None, None], axis=1)
    one, other = first - tip, last - tip
    area = (one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0]) / 2
    together = tip + first + last
    moments = np.empty((len(planes), 3, 3))
    moments[:, 0, 0] = area.sum(axis=-1)
    moments[:, 0, 1:] = moments[:, 1:, 0] = np.sum(area[..., None] / 3 * together, axis=1)
    for i, j in ((0, 0), (0, 1), (1, 1)):
        # Over a triangle: area/12 of the products at its corners and of the product of the sums.
        products = sum(spot[..., i] * spot[..., j] for spot in (tip, first, last, together))
        moments[:, i + 1, j + 1] = moments[:, j + 1, i + 1] = np.sum(area / 12 * products, axis=1)
    return moments


def _answers(plate: WallPlate, cases: _Scaled, planes: Floats, shape: tuple[int, ...]) -> Contact:
    """Return what m planes call up, by cases (...); the residual and the steps are left blank."""
    moments = _pressed_moments(cases.corners, planes)
    pressed = -np.einsum("mij,mj->mi", moments, planes)
    force_n = pressed[:, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        at = np.where(force_n[:, None] > 0, pressed[:, 1:] / force_n[:, None], np.nan)
    corner_gaps = planes[:, :1] + planes[:, 1:] @ cases.corners.T
    in_middle = planes[:, :1] - planes[:, 1:] @ cases.origin[:, None]
    quarter_m2 = plate.half_m.prod()
    pull_n = cases.stiffness[:, None] * np.maximum(planes @ cases.fixings.T, 0.0)
    plane = np.concatenate([in_middle, planes[:, 1:] / plate.half_m], axis=-1)
    peak_pa = np.maximum(-corner_gaps.min(axis=-1), 0.0) / quarter_m2
    return Contact(
        pull_n=pull_n.reshape((*shape, len(cases.fixings))),
        pressed_n=force_n.reshape(shape),
        pressed_at_m=((at + cases.origin) * plate.half_m).reshape((*shape, 2)),
        peak_pa=peak_pa.reshape(shape),
        plane_pa=(plane / quarter_m2).reshape((*shape, 3)),
        residual=np.zeros(shape),
        steps=np.zeros(shape, dtype=np.intp),
    )
