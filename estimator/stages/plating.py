"""Plating: what every fixing of every wall plate carries, on walls of every likely stiffness."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from estimator.reference.finding import Miss
from estimator.reference.fixings import find_bolt
from estimator.reference.library import Library
from estimator.resolve.job import Resolved
from estimator.resolve.records import Bracket, Facts, Fixings, Plate
from estimator.stages.arm_figures import of_kind
from estimator.stages.holding import HeldSet
from estimator.stages.holding_demands import FACTORED, NOTHING, Acting, Demands
from estimator.stages.holding_frames import root_of
from estimator.stages.plate_figures import Found, Pair, plate_figures
from estimator.stages.wall_points import beside_stay
from estimator.supports.arms import Root
from estimator.supports.contact import RATIOS, UnsolvedError, WallPlate


class StayPoint(NamedTuple):
    """What a stay, or the arm's plate beside it, does to the wall at its own point.

    Attributes:
        pull: Largest pull-out, with the shear of that case.
        shear: Largest shear, with the pull-out of that case.
    """

    pull: Pair
    shear: Pair


@dataclass(frozen=True, slots=True)
class Plated:
    """The plate of one bracket.

    Attributes:
        bracket: Its bracket.
        area_m2: Stressed area of one fixing, NaN when it is not known.
        area_from: Where that comes from.
        missing: What nobody said, or why there is nothing to say, as a sentence; blank else.
        found: What it does; None where something is missing.
        stay: The wall point of its stay; None where it has none.
        own: The arm's own plate beside a stay; None where it has none.
    """

    bracket: Bracket
    area_m2: float
    area_from: str
    missing: str
    found: Found | None
    stay: StayPoint | None
    own: StayPoint | None


@dataclass(frozen=True, slots=True)
class Plates:
    """The plates of all brackets.

    Attributes:
        ratios: Stiffness ratios of the wall that were tried.
        told: Whether somebody gave the ratio.
        plated: In the order of the brackets sheet.
    """

    ratios: tuple[float, ...]
    told: bool
    plated: tuple[Plated, ...]


class _Wall(NamedTuple):
    """How stiff the wall is: under pressure beside a fixing, and under an arm as a whole."""

    ratios: tuple[float, ...]
    root: Root


def plate(resolved: Resolved, held: Sequence[HeldSet]) -> Plates:
    """Return what the plate and the fixings of every bracket do.

    Args:
        resolved: The job.
        held: What each set of brackets passes to the wall.
    """
    ratios, told = stiffness_ratios(resolved.facts)
    acting = {k: Acting(d, one.placed) for one in held for k, d in one.demands.items()}
    wall = _Wall(ratios, root_of(resolved.facts))
    plated = (
        _plated(resolved.library, bracket, acting.get(bracket.key, NOTHING), wall)
        for bracket in resolved.brackets
    )
    return Plates(ratios, told, tuple(plated))


def stiffness_ratios(facts: Facts) -> tuple[tuple[float, ...], bool]:
    """Return the stiffness ratios of the wall to try, and whether somebody gave one."""
    told = facts.number("wall_stiffness_ratio")
    return ((told,), True) if told > 0 else (RATIOS, False)


def _plated(library: Library, bracket: Bracket, acting: Acting, wall: _Wall) -> Plated:
    own, stay, beside = _parted(bracket, acting, wall.root)
    area_m2, area_from = _area(library, bracket.fixings)
    missing, found = _missing(bracket, acting.demands), None
    if bracket.plate and bracket.fixings and not missing:
        try:
            described = _wall_plate(bracket.plate, bracket.fixings, area_m2)
            found = plate_figures(described, own, wall.ratios)
        except (ValueError, UnsolvedError) as error:
            missing = f"not worked out: {error}"
    return Plated(bracket, area_m2, area_from, missing, found, stay, beside)


def _parted(
    bracket: Bracket, acting: Acting, root: Root
) -> tuple[Demands, StayPoint | None, StayPoint | None]:
    """Return what the arm's own plate passes on, and what stay and plate do to the wall."""
    if bracket.stay is None or not acting.demands.sources:
        return acting.demands, None, None
    own, by_stay = beside_stay(bracket, acting, root)
    return own, _stay_point(by_stay), _stay_point(own)


def _stay_point(demands: Demands) -> StayPoint | None:
    action, sources = of_kind(demands, *FACTORED)
    if not sources:
        return None
    pull_n, shear_n = np.maximum(action[:, 2], 0.0), np.linalg.norm(action[:, :2], axis=1)
    pairs = (
        Pair(float(pull_n[c]), float(shear_n[c]), math.nan, sources[c])
        for c in (int(pull_n.argmax()), int(shear_n.argmax()))
    )
    return StayPoint(*pairs)


def _area(library: Library, fixings: Fixings | None) -> tuple[float, str]:
    """Return the stressed area of one fixing by its trial size, and where that is from."""
    if fixings is None or not fixings.diameter_m > 0:
        return math.nan, ""
    size = f"M{1000 * fixings.diameter_m:g}"
    bolt = find_bolt(library, size)
    if isinstance(bolt, Miss):
        return math.pi / 4 * fixings.diameter_m**2, "a plain round bar"
    return bolt.stress_area_m2, f"{size}, {bolt.citation}"


def _missing(bracket: Bracket, demands: Demands) -> str:
    """Return what nobody said of a plate, as a sentence; blank when all is known."""
    blank = ["plate width, height and thickness"] if bracket.plate is None else []
    blank += _blank_of(bracket.fixings)
    if blank:
        return f"not worked out: {', '.join(blank)} blank on the brackets sheet"
    if not any(one.combination.kind in FACTORED for one in demands.sources):
        return "not worked out: nothing is known of what this bracket passes to the wall"
    return ""


def _blank_of(fixings: Fixings | None) -> list[str]:
    """Return the headings that describe fixings and are blank."""
    if fixings is None:
        return ["fixings across and fixings up"]
    wanted = {
        "pitch across": fixings.across == 1 or fixings.pitch_across_m > 0,
        "pitch up": fixings.up == 1 or fixings.pitch_up_m > 0,
        "fixing diameter": fixings.diameter_m > 0,
    }
    return [heading for heading, told in wanted.items() if not told]


def _wall_plate(size: Plate, fixings: Fixings, area_m2: float) -> WallPlate:
    return WallPlate(size.width_m, size.height_m, fixings.points_m, area_m2)
