"""Arming: the stress in every arm and stay, how far its end moves, how fast it shakes."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from estimator.geometry.measures import Floats
from estimator.resolve.job import Resolved
from estimator.resolve.records import Bracket, Stay
from estimator.stages.arm_figures import Figures, carrier_of, cases_of, figures, of_kind
from estimator.stages.arm_masses import ArmMass, arm_mass
from estimator.stages.arm_yields import Yielding, yielding
from estimator.stages.holding import HeldSet
from estimator.stages.holding_demands import NOTHING, Acting, Source
from estimator.stages.holding_frames import root_of
from estimator.stages.trying import Tried, try_sections
from estimator.stages.weighing import Weights
from estimator.supports.cantilevers import exact_frequency
from estimator.supports.carrying import at_tip, stay_pulls
from estimator.supports.combinations import Kind
from estimator.supports.stays import stay_on_wall
from estimator.supports.stresses import euler_load

FITS = "the first by weight whose stress ratio is at most 1 and movement within the limit"
NONE_FITS = "the heaviest of those tried: none was within both stress ratio 1 and the limit"
"""How a trial ended."""
SETTLED = (
    "the job was worked out again until it stayed the same, beginning with the lightest and never "
    "going back to a lighter one. For pricing and for the engineer to choose from"
)


class Shaking(NamedTuple):
    """How fast an arm shakes, in Hz, with its share of what hangs from its set at its end.

    Attributes:
        up_and_down: Bending up and down.
        sideways: Bending along the wall.
        arm_kg_m: Of the arm, by the metre.
        share_kg: At its end.
    """

    up_and_down: float
    sideways: float
    arm_kg_m: float
    share_kg: float


class Staying(NamedTuple):
    """What a stay carries.

    Attributes:
        stay: It.
        held_to: Yield of its metal.
        pull_n: Largest pull, none below nought.
        pull_source: What that comes from.
        push_n: Largest push, none below nought.
        push_source: What that comes from; None when it never pushes.
        at_wall: (6,) force and moment on the wall at the largest pull-out there, about the root
            of the arm.
        wall_source: What that comes from.
        slack: In how many of the cases it goes slack.
        cases: Of how many.
        slenderness: Length over its smallest radius of gyration.
        euler_n: Push at which it would bow out if it were straight and slender.
        hinged: Largest pull were the arm's root a hinge, over that with it built in; NaN when
            the stay does not pull.
    """

    stay: Stay
    held_to: Yielding
    pull_n: float
    pull_source: Source
    push_n: float
    push_source: Source | None
    at_wall: Floats
    wall_source: Source
    slack: int
    cases: int
    slenderness: float
    euler_n: float
    hinged: float

    @property
    def ratio(self) -> float:
        """Return the stress ratio of its largest pull or push, NaN when it is not known."""
        return self.held_to.ratio(max(self.pull_n, self.push_n) / self.stay.section.area_m2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Armed:
    """What one arm does.

    Attributes:
        bracket: Its bracket.
        held_to: Yield of its metal.
        figures: Worst stress and movements.
        mass: What it weighs and carries; None where its part was refused.
        shaking: How fast it shakes; None where its mass is not known.
        staying: Its stay; None for an arm alone, or where no demand is known.
        tried: Sections that were tried for it; None where the maker chose one.
    """

    bracket: Bracket
    held_to: Yielding
    figures: Figures
    mass: ArmMass | None
    shaking: Shaking | None
    staying: Staying | None
    tried: Tried | None

    @property
    def ratio(self) -> float:
        """Return the stress ratio, NaN when it is not known."""
        stress = self.figures.stress
        if stress is None or stress.note:
            return math.nan
        return self.held_to.ratio(stress.von_mises_pa)


def arm(resolved: Resolved, weights: Weights, held: Sequence[HeldSet]) -> tuple[Armed, ...]:
    """Return what the arm of every bracket does, in the order of the brackets sheet.

    Args:
        resolved: The job.
        weights: What everything weighs.
        held: What each set of brackets passes to the wall.
    """
    acting = {k: Acting(d, one.placed) for one in held for k, d in one.demands.items()}
    return tuple(
        _armed(resolved, weights, bracket, acting.get(bracket.key, NOTHING))
        for bracket in resolved.brackets
        if bracket.bears_m > 0
    )


def picked(arms: Sequence[Armed]) -> Mapping[str, str]:
    """Return the section that each bracket on trial is to have, by its mark; none if all stay."""
    tried = {
        one.bracket.key: (one.bracket.section.key, one.tried.pick) for one in arms if one.tried
    }
    if all(now == pick for now, pick in tried.values()):
        return {}
    return {key: pick for key, (_, pick) in tried.items()}


def _armed(resolved: Resolved, weights: Weights, bracket: Bracket, acting: Acting) -> Armed:
    mass = arm_mass(resolved, weights, bracket)
    cases = cases_of(acting.demands, root_of(resolved.facts), acting.placed)
    return Armed(
        bracket=bracket,
        held_to=yielding(resolved, bracket, bracket.section),
        figures=figures(bracket, bracket.section, cases),
        mass=mass,
        shaking=_shaking(bracket, mass) if mass else None,
        staying=_staying(resolved, bracket, bracket.stay, acting) if bracket.stay else None,
        tried=try_sections(resolved, bracket, cases) if bracket.trial else None,
    )


def _shaking(bracket: Bracket, mass: ArmMass) -> Shaking:
    section, e_pa = bracket.section, bracket.modulus_pa[0]
    up_and_down, sideways = (
        exact_frequency(e_pa * second_m4, mass.arm_kg_m, bracket.bears_m, mass.share_kg)
        for second_m4 in (section.iy_m4, section.iz_m4)
    )
    return Shaking(up_and_down, sideways, mass.arm_kg_m, mass.share_kg)


def _staying(resolved: Resolved, bracket: Bracket, stay: Stay, acting: Acting) -> Staying | None:
    kinds = Kind.STRENGTH, Kind.EQUILIBRIUM
    action, sources = of_kind(acting.demands, *kinds)
    carrier = carrier_of(bracket, bracket.section, root_of(resolved.facts))
    if not sources or carrier.stay is None:
        return None
    tip = at_tip(action, bracket.bears_m)
    pull_n = stay_pulls(carrier, tip)
    hinged = stay_pulls(carrier._replace(root=carrier.root._replace(pinned=True)), tip).max()
    times = float(hinged / pull_n.max()) if pull_n.max() > 0 else math.nan
    if acting.placed is not None:
        placed = acting.placed.of_kind(*kinds)
        pull_n, sources = np.append(pull_n, placed.pull_n), (*sources, *placed.sources)
    on_wall = stay_on_wall(carrier.stay, pull_n)
    most, least, out = int(pull_n.argmax()), int(pull_n.argmin()), int(on_wall[:, 2].argmax())
    section = stay.section
    weak_m4 = min(section.iy_m4, section.iz_m4)
    return Staying(
        stay, yielding(resolved, bracket, section),
        max(0.0, float(pull_n[most])), sources[most],
        max(0.0, -float(pull_n[least])), sources[least] if pull_n[least] < 0 else None,
        on_wall[out], sources[out], int((pull_n == 0).sum()) if stay.pulls_only else 0,
        len(sources), stay.length_m / math.sqrt(weak_m4 / section.area_m2),
        euler_load(bracket.modulus_pa[0], weak_m4, stay.length_m), times,
    )  # fmt: skip


def _side_m2(bracket: Bracket) -> float:
    """Return what an arm and its stay cover, seen along the wall."""
    stay = bracket.stay
    beside = stay.length_m * stay.section.height_m if stay else 0.0
    return bracket.reach_m * bracket.section.height_m + beside


def assumptions(arms: Sequence[Armed]) -> Iterator[tuple[str, str, str]]:
    """Yield what was taken for granted of the arms: what, its value, why."""
    if arms:
        yield ("arms", "straight, built in at their plates, their own weight where the load bears",
               "a plate that gives makes them sag more and shake slower")  # fmt: skip
        area_m2 = sum(map(_side_m2, (one.bracket for one in arms)))
        yield (
            "wind on the arms and stays of brackets",
            "left out",
            (
                f"from the side they are {area_m2:.3g} m2 in all; those that stand clear of what "
                "they hold are to be listed as parts of no mass that stand in the wind"
            ),
        )
    for one in arms:
        if one.bracket.stay:
            yield (f"loads on the arm of {one.bracket.key} and its stay",
                   "all where it bears; of a bracket alone also each at its own place",
                   "the larger stress, and the larger pull of the stay, is told")  # fmt: skip
        if one.tried:
            what = f"section of {one.bracket.key}, typed as {one.tried.typed}"
            ended = FITS if one.tried.fits else NONE_FITS
            yield what, one.bracket.section.key, f"{ended}; {SETTLED}"
