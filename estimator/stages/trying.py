"""Trying: the sections of the table for an arm whose maker has not chosen one, lightest first."""

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from estimator.reference.finding import Miss
from estimator.reference.materials import find_material
from estimator.reference.sections import Section
from estimator.reference.trials import trial_sections
from estimator.resolve.job import Resolved
from estimator.resolve.records import Bracket
from estimator.resolve.trade import BARS, Want
from estimator.stages.arm_figures import BOTH, VARIABLE, Cases, Figures, figures
from estimator.stages.arm_yields import yielding


class Trial(NamedTuple):
    """One section that was tried for an arm.

    Attributes:
        section: It.
        ratio: Stress ratio; NaN where it is not known.
        note: Why it is not, blank where it is.
        sag_m: Largest movement of the tip, everything together.
        variable_m: From variable actions alone.
        tilt_deg: Largest turn of the tip about any axis.
        arm_kg: Mass of the arm.
        cost: Of the metal of the arm by the metre; NaN where no price is known.
        within: Whether stress ratio and movements are within 1 and the limit.
    """

    section: Section
    ratio: float
    note: str
    sag_m: float
    variable_m: float
    tilt_deg: float
    arm_kg: float
    cost: float
    within: bool


class Tried(NamedTuple):
    """Every section that was tried for one bracket.

    Attributes:
        typed: What the maker typed.
        trials: Lightest first.
        pick: Key of the section that the job is worked out with next.
        fits: Whether that one is within both; if none is it is the heaviest.
    """

    typed: str
    trials: tuple[Trial, ...]
    pick: str
    fits: bool


def try_sections(resolved: Resolved, bracket: Bracket, cases: Cases) -> Tried:
    """Return the sections of the table with the figures that a bracket's actions give in each.

    The actions are those of the section the job is worked out with now. Sections lighter than it
    are not picked any more: a heavier arm brings more load, never less, so the search ends.
    """
    material = find_material(resolved.library, bracket.metal)
    family = "" if isinstance(material, Miss) else material.family
    sections = trial_sections(resolved.library, bracket.trial, family)
    trials = tuple(_tried(resolved, bracket, cases, sections))
    now_m2 = bracket.section.area_m2
    open_to = [one for one in trials if one.section.area_m2 >= now_m2] or [trials[-1]]
    fitting = next((one for one in open_to if one.within), None)
    known = any(not math.isnan(one.ratio) for one in trials)
    pick = fitting or (open_to[-1] if known else open_to[0])
    return Tried(bracket.trial, trials, pick.section.key, fitting is not None)


def _tried(
    resolved: Resolved, bracket: Bracket, cases: Cases, sections: Sequence[Section]
) -> Iterator[Trial]:
    thick_m = bracket.plate.thickness_m if bracket.plate else 0.0
    long_m = bracket.reach_m - thick_m
    for section in sections:
        held_to, found = yielding(resolved, bracket, section), figures(bracket, section, cases)
        stress = found.stress
        note = held_to.note or (stress.note if stress else "")
        ratio = math.nan if note or stress is None else held_to.ratio(stress.von_mises_pa)
        yield Trial(
            section, ratio, note, found.sag_m(BOTH), found.sag_m(VARIABLE), found.largest_tilt_deg,
            section.area_m2 * bracket.density_kg_m3 * long_m,
            _metre_price(resolved, bracket, section) * long_m,
            ratio <= 1.0 and _within(resolved, bracket, found),
        )  # fmt: skip


def _within(resolved: Resolved, bracket: Bracket, found: Figures) -> bool:
    """Return whether no movement of the tip is beyond the limit."""
    most_m = bracket.bears_m / resolved.sag_limit.over
    return all(move.sag_m <= most_m for move in found.moves if move.share in (BOTH, VARIABLE))


def _metre_price(resolved: Resolved, bracket: Bracket, section: Section) -> float:
    """Return the least price of a metre of a section, NaN when nobody has said."""
    offers = resolved.trade.offers.get(Want(bracket.metal, BARS, section.key), ())
    prices = [one.price / one.size_m[0] for one in offers if not math.isnan(one.price)]
    return min(prices, default=math.nan)
