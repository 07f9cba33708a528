"""Arm figures: the worst stress in an arm and how far its tip moves, in one section."""

import math
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from estimator.geometry.measures import Floats
from estimator.reference.moduli import section_moduli
from estimator.reference.sections import Section
from estimator.resolve.records import Bracket
from estimator.stages.holding_demands import AS_BUILT, Demands, Placed, Source
from estimator.supports.arms import BUILT_IN, Arm, ArmSection, Root
from estimator.supports.carrying import Carrier, Cuts, at_tip, cuts, tip_movements
from estimator.supports.combinations import Kind
from estimator.supports.stays import StayBar
from estimator.supports.stresses import WARPING, Moduli, stresses

PERMANENT, VARIABLE, BOTH = "permanent", "variable", "both"
"""What a movement comes from."""


class Stress(NamedTuple):
    """The worst stress in an arm.

    Attributes:
        von_mises_pa: The one stress that does as much as all of them.
        axial_pa: From the force along the arm.
        bending_pa: From both bending moments.
        shear_pa: From the forces across it.
        torsion_pa: From the moment that twists it; NaN where that is not worked out.
        at_m: Where, from the wall face.
        action: (6,) what the cut there passes on.
        source: What it comes from.
        note: Why the torsion is not worked out, blank when it is.
    """

    von_mises_pa: float
    axial_pa: float
    bending_pa: float
    shear_pa: float
    torsion_pa: float
    at_m: float
    action: Floats
    source: Source
    note: str


class Move(NamedTuple):
    """How far the tip of an arm moves, every figure the largest of its own kind.

    Attributes:
        share: What it comes from.
        down_m: Furthest down, none below nought.
        up_m: Furthest up.
        sideways_m: Furthest along the wall, either way.
        sag_m: Largest of down and sideways together: the length of the way, along the wall.
        tilt_deg: (3,) largest turn about across, up, out, with its sign.
        source: What `sag_m` comes from.
    """

    share: str
    down_m: float
    up_m: float
    sideways_m: float
    sag_m: float
    tilt_deg: Floats
    source: Source


class Figures(NamedTuple):
    """What an arm does in one section; None and nothing where no demand is known."""

    stress: Stress | None
    moves: tuple[Move, ...]

    def sag_m(self, share: str) -> float:
        """Return the largest movement from one cause, NaN when it is not known."""
        return next((move.sag_m for move in self.moves if move.share == share), math.nan)

    @property
    def largest_tilt_deg(self) -> float:
        """Return the largest turn about any axis."""
        return max((float(np.abs(move.tilt_deg).max()) for move in self.moves), default=math.nan)


def carrier_of(bracket: Bracket, section: Section, root: Root = BUILT_IN) -> Carrier:
    """Return an arm, in a section, with its stay and how the wall holds both."""
    e_pa, g_pa = bracket.modulus_pa
    bends = ArmSection(section.area_m2, section.iy_m4, section.iz_m4, section.it_m4)
    arm = Arm(bracket.bears_m, bends, e_pa, g_pa)
    stay = bracket.stay
    if stay is None:
        return Carrier(arm, root=root)
    bar = StayBar(stay.from_m, stay.to_m, stay.section.area_m2, e_pa)
    return Carrier(arm, bar, stay.pulls_only, root)


def moduli_of(section: Section) -> Moduli:
    """Return what the stresses in an arm go by, its stronger way standing upright."""
    return Moduli(section.area_m2, *section_moduli(section))


class Cases(NamedTuple):
    """The actions that one arm is worked out for, parted once for every section that is tried.

    Attributes:
        strong: (s, 6) those of strength combinations.
        strong_from: Of each, (s,).
        served: (v, 6) those of service combinations, brackets as built.
        served_from: Of each, (v,).
        alone: (v,) row of the permanent actions alone beside each, -1 where there is none.
        root: How the wall holds the arm.
        placed: Cases with every load at its own place on a stayed arm, in the section it has.
    """

    strong: Floats
    strong_from: tuple[Source, ...]
    served: Floats
    served_from: tuple[Source, ...]
    alone: npt.NDArray[np.intp]
    root: Root
    placed: Placed | None = None


def of_kind(demands: Demands, *kinds: Kind) -> tuple[Floats, tuple[Source, ...]]:
    """Return the actions of some kinds of combination, and what each comes from."""
    return _kept(demands, lambda one: one.combination.kind in kinds)


def cases_of(demands: Demands, root: Root, placed: Placed | None = None) -> Cases:
    """Return the actions of one bracket as its arm needs them."""
    served, served_from = _kept(
        demands,
        lambda one: one.combination.kind is Kind.SERVICE and one.state == AS_BUILT,
    )
    alone = {_beside(one): i for i, one in enumerate(served_from) if _lasts(one)}
    beside = [alone.get(_beside(one), -1) for one in served_from]
    return Cases(
        *of_kind(demands, Kind.STRENGTH), served, served_from, np.array(beside, dtype=np.intp),
        root, placed and placed.of_kind(Kind.STRENGTH),
    )  # fmt: skip


def _kept(demands: Demands, wanted: Callable[[Source], bool]) -> tuple[Floats, tuple[Source, ...]]:
    rows = [i for i, one in enumerate(demands.sources) if wanted(one)]
    return demands.action[rows], tuple(demands.sources[i] for i in rows)


def _lasts(source: Source) -> bool:
    """Return whether nothing but permanent actions is in a combination."""
    return not source.combination.variable_factors


def _beside(source: Source) -> tuple[str, ...]:
    """Return what permanent actions share with the variable ones that stand on top of them."""
    return source.position, source.sharing


def figures(bracket: Bracket, section: Section, cases: Cases) -> Figures:
    """Return the worst stress and the movements of an arm in a section."""
    carrier = carrier_of(bracket, section, cases.root)
    return Figures(
        _worst(carrier, moduli_of(section), cases) if cases.strong_from else None,
        tuple(_moves(carrier, cases)) if cases.served_from else (),
    )


def _worst(carrier: Carrier, moduli: Moduli, cases: Cases) -> Stress:
    found_at = cuts(carrier, at_tip(cases.strong, carrier.arm.length_m))
    found = _worst_at(found_at, moduli, cases.strong_from)
    if cases.placed is None:
        return found
    placed = Cuts(cases.placed.at_m, cases.placed.action)
    other = _worst_at(placed, moduli, cases.placed.sources)
    return max(found, other, key=lambda one: one.von_mises_pa)


def _worst_at(found_at: Cuts, moduli: Moduli, sources: Sequence[Source]) -> Stress:
    found = stresses(found_at.action, moduli)
    unknown = bool(np.isnan(found.torsion_pa).any())
    known = found._replace(torsion_pa=np.nan_to_num(found.torsion_pa)) if unknown else found
    k, c = divmod(int(known.von_mises_pa.argmax()), len(sources))
    return Stress(
        von_mises_pa=float(known.von_mises_pa[k, c]),
        axial_pa=float(known.axial_pa[k, c]),
        bending_pa=float(known.bending_pa[k, c]),
        shear_pa=float(known.shear_pa[k, c]),
        torsion_pa=math.nan if unknown else float(known.torsion_pa[k, c]),
        at_m=float(found_at.at_m[k]),
        action=found_at.action[k, c],
        source=sources[c],
        note=WARPING if unknown else "",
    )


def _moves(carrier: Carrier, cases: Cases) -> Iterator[Move]:
    """Yield what permanent actions do, what variable ones add, and both."""
    moved = tip_movements(carrier, at_tip(cases.served, carrier.arm.length_m))
    sources = cases.served_from
    lasting = np.array([_lasts(one) for one in sources])
    if lasting.any():
        yield _move(PERMANENT, moved[lasting], [sources[i] for i in np.flatnonzero(lasting)])
    paired = np.flatnonzero((cases.alone >= 0) & ~lasting)
    if len(paired):
        added = moved[paired] - moved[cases.alone[paired]]
        yield _move(VARIABLE, added, [sources[i] for i in paired])
    yield _move(BOTH, moved, sources)


def _move(share: str, moved: Floats, sources: Sequence[Source]) -> Move:
    way_m = np.hypot(moved[:, 0], moved[:, 1])
    largest = np.abs(moved[:, 3:]).argmax(axis=0)
    return Move(
        share,
        max(0.0, -float(moved[:, 1].min())), max(0.0, float(moved[:, 1].max())),
        float(np.abs(moved[:, 0]).max()), float(way_m.max()),
        np.degrees(moved[largest, np.arange(3, 6)]), sources[int(way_m.argmax())],
    )  # fmt: skip
