"""Plate figures: pull and shear of every fixing of one plate, over all cases and walls."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from estimator.geometry.measures import Floats
from estimator.stages.arm_figures import of_kind
from estimator.stages.holding_demands import FACTORED, Demands, Source
from estimator.supports.combinations import Combination, Kind
from estimator.supports.contact import Contact, WallPlate, contact, zone
from estimator.supports.fixings import centroid_pulls, edge_tilt_pulls, group_shear


class Pair(NamedTuple):
    """Pull and shear of one fixing in one case.

    Attributes:
        pull_n: None below nought.
        shear_n: Whichever way.
        ratio: Stiffness ratio of the wall that the pull is for.
        source: What they come from.
    """

    pull_n: float
    shear_n: float
    ratio: float
    source: Source


class FixingLoad(NamedTuple):
    """The worst of one fixing.

    Attributes:
        number: Row by row from the bottom, left to right, from 1.
        at_m: (2,) from the middle of the plate.
        pull: Largest pull, with the shear of that case.
        shear: Largest shear, with the pull of that case.
        service: Largest pull with every factor 1; None where no such case is known.
    """

    number: int
    at_m: Floats
    pull: Pair
    shear: Pair
    service: Pair | None


class InCombination(NamedTuple):
    """The largest pull and the largest shear of each fixing in one combination.

    Attributes:
        combination: It.
        pull_n: (k,) not all from one case.
        shear_n: (k,) likewise.
    """

    combination: Combination
    pull_n: Floats
    shear_n: Floats


class OnWall(NamedTuple):
    """What a wall of one stiffness comes to.

    Attributes:
        ratio: Stiffness of the fixings' metal over the wall's.
        pull_n: Largest of any fixing.
        peak_pa: Largest pressure.
        peak_source: What that comes from.
    """

    ratio: float
    pull_n: float
    peak_pa: float
    peak_source: Source


class Rules(NamedTuple):
    """The largest pull by rules of thumb: tilting about an edge, turning about the fixings."""

    edge_n: float
    centroid_n: float


class Governing(NamedTuple):
    """The case with the largest pull of all, to be drawn.

    Attributes:
        source: What it comes from.
        ratio: Stiffness ratio of the wall.
        action: (6,) of the plate on the wall.
        pull_n: (k,).
        shear_n: (k, 2) across and up.
        outline_m: (v, 2) of the part that presses.
        pressed_n: Sum of the pressure.
        peak_pa: Largest pressure of this case.
    """

    source: Source
    ratio: float
    action: Floats
    pull_n: Floats
    shear_n: Floats
    outline_m: Floats
    pressed_n: float
    peak_pa: float


class Found(NamedTuple):
    """What a plate and its fixings do.

    Attributes:
        fixings: The worst of each.
        combinations: The largest in each combination.
        walls: By stiffness ratio, the stiffest wall first.
        rules: Beside it, by rules of thumb.
        governing: The case with the largest pull.
        cases: How many were worked out for each wall.
        residual: Largest imbalance of any of them, as a part of its load.
        turn_nm: Turn in the plane of the plate that a single fixing cannot hold; 0 else.
    """

    fixings: tuple[FixingLoad, ...]
    combinations: tuple[InCombination, ...]
    walls: tuple[OnWall, ...]
    rules: Rules
    governing: Governing
    cases: int
    residual: float
    turn_nm: float


class _Solved(NamedTuple):
    """Every case of a plate: c cases, k fixings, r walls."""

    sources: tuple[Source, ...]
    action: Floats
    contact: Contact
    shear: Floats
    ratios: tuple[float, ...]

    @property
    def shear_n(self) -> Floats:
        """Return shears whichever way, (c, k)."""
        return np.asarray(np.linalg.norm(self.shear, axis=-1))


def plate_figures(plate_: WallPlate, demands: Demands, ratios: tuple[float, ...]) -> Found:
    """Return what a plate and its fixings do.

    Every case is worked out on every wall: a pull is not convex in the load, so no hull of loads
    holds the worst of it.

    Args:
        plate_: With its fixings.
        demands: One factored action or more, of the arm alone where there is a stay.
        ratios: Stiffness ratios of the wall.

    Raises:
        NoEquilibriumError: Nothing balances one of the actions.
    """
    solved, turn_nm = _solved(plate_, of_kind(demands, *FACTORED), ratios)
    service, _ = _solved(plate_, of_kind(demands, Kind.SERVICE), ratios)
    pull_n = solved.contact.pull_n
    r, c, _ = _largest(pull_n)
    return Found(
        fixings=tuple(_fixing_loads(plate_, solved, service)),
        combinations=tuple(_in_combinations(solved)),
        walls=tuple(_on_walls(solved)),
        rules=_rules(plate_, solved.action),
        governing=_governing(plate_, solved, r, c),
        cases=len(solved.sources),
        residual=float(solved.contact.residual.max()),
        turn_nm=turn_nm,
    )


def _solved(
    plate_: WallPlate, some: tuple[Floats, tuple[Source, ...]], ratios: tuple[float, ...]
) -> tuple[_Solved, float]:
    """Return every case worked out, and the turn that a single fixing leaves unheld."""
    action, sources = some
    single = len(plate_.points_m) == 1
    held = action * [1, 1, 1, 1, 1, 0] if single else action
    walls = np.array(ratios)[:, np.newaxis]
    bedded = contact(plate_, action[np.newaxis], walls)
    turn_nm = float(np.abs(action[:, 5]).max(initial=0.0)) if single else 0.0
    return _Solved(sources, action, bedded, group_shear(plate_.points_m, held), ratios), turn_nm


def _largest(values: Floats) -> tuple[int, ...]:
    """Return where the largest of an array is."""
    return tuple(int(i) for i in np.unravel_index(int(values.argmax()), values.shape))


def _fixing_loads(plate_: WallPlate, solved: _Solved, service: _Solved) -> Iterator[FixingLoad]:
    for k, at_m in enumerate(plate_.points_m):
        sheared = int(solved.shear_n[:, k].argmax())
        with_it = int(solved.contact.pull_n[:, sheared, k].argmax())
        yield FixingLoad(
            k + 1,
            at_m,
            _most_pulled(solved, k),
            _pair(solved, k, with_it, sheared),
            _most_pulled(service, k) if service.sources else None,
        )


def _most_pulled(solved: _Solved, k: int) -> Pair:
    """Return the case in which a fixing pulls most."""
    r, c = _largest(solved.contact.pull_n[..., k])
    return _pair(solved, k, r, c)


def _pair(solved: _Solved, k: int, r: int, c: int) -> Pair:
    """Return pull and shear of a fixing on one wall in one case."""
    return Pair(
        float(solved.contact.pull_n[r, c, k]), float(solved.shear_n[c, k]), solved.ratios[r],
        solved.sources[c],
    )  # fmt: skip


def _in_combinations(solved: _Solved) -> Iterator[InCombination]:
    pull_n, shear_n = solved.contact.pull_n.max(axis=0), solved.shear_n
    rows: dict[str, list[int]] = {}
    for c, one in enumerate(solved.sources):
        rows.setdefault(one.combination.name, []).append(c)
    for cases in rows.values():
        combination = solved.sources[cases[0]].combination
        yield InCombination(combination, pull_n[cases].max(axis=0), shear_n[cases].max(axis=0))


def _on_walls(solved: _Solved) -> Iterator[OnWall]:
    for ratio, pulls_n, peaks_pa in zip(
        solved.ratios, solved.contact.pull_n, solved.contact.peak_pa, strict=True
    ):
        most = int(peaks_pa.argmax())
        yield OnWall(ratio, float(pulls_n.max()), float(peaks_pa[most]), solved.sources[most])


def _rules(plate_: WallPlate, action: Floats) -> Rules:
    return Rules(
        float(edge_tilt_pulls(plate_.points_m, plate_.half_m, action).max()),
        float(centroid_pulls(plate_.points_m, action).max()),
    )


def _governing(plate_: WallPlate, solved: _Solved, r: int, c: int) -> Governing:
    found = solved.contact
    return Governing(
        source=solved.sources[c],
        ratio=solved.ratios[r],
        action=solved.action[c],
        pull_n=found.pull_n[r, c],
        shear_n=solved.shear[c],
        outline_m=zone(plate_, found.plane_pa[r, c]),
        pressed_n=float(found.pressed_n[r, c]),
        peak_pa=float(found.peak_pa[r, c]),
    )
