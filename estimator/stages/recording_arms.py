"""Records of the arms and stays of brackets, for the estimate document."""

import math
from collections.abc import Sequence
from typing import Any

from estimator.reference.sections import Section
from estimator.resolve.limits import SagLimit
from estimator.stages.arm_figures import Move, Stress, moduli_of
from estimator.stages.arm_yields import Yielding
from estimator.stages.arming import Armed, Staying
from estimator.stages.holding_demands import Source
from estimator.stages.recording_loads import known, numbers
from estimator.stages.trying import Trial, Tried


def arm_records(arms: Sequence[Armed], limit: SagLimit) -> list[dict[str, Any]]:
    """Return a record for the arm of each bracket.

    Args:
        arms: What the arms do.
        limit: Of the movement of their ends.
    """
    return [_arm(one, limit) for one in arms]


def _arm(one: Armed, limit: SagLimit) -> dict[str, Any]:
    bracket, section, stress = one.bracket, one.bracket.section, one.figures.stress
    return {
        "bracket": bracket.key,
        "set": bracket.set_name,
        "section": section.key,
        "standard": section.standard or str(section.citation),
        "made": section.made,
        "reach_m": bracket.reach_m,
        "bears_m": bracket.bears_m,
        "arm_kg": one.mass.arm_kg if one.mass else None,
        **_yield(one.held_to, bracket.grade),
        "ratio": known(one.ratio),
        "stress": _stress(stress) if stress else None,
        "note": one.held_to.note or (stress.note if stress else ""),
        "moduli": _moduli(section),
        "moves": [_move(move, bracket.bears_m) for move in one.figures.moves],
        "sag_limit": limit._asdict(),
        "shaking": one.shaking._asdict() if one.shaking else None,
        "stay": _stay(one.staying) if one.staying else None,
        "trial": _tried(one.tried, bracket.bears_m) if one.tried else None,
    }


def _moduli(section: Section) -> dict[str, Any]:
    """Return what each stress is an action over, for whoever does the sum again."""
    found = moduli_of(section)
    return {**found._asdict(), "twists_m3": known(found.twists_m3)}


def _yield(held_to: Yielding, typed: str) -> dict[str, Any]:
    return {
        "grade": typed or "not told",
        "counted_as": held_to.grade,
        "yield_pa": known(held_to.yield_pa),
        "yield_source": held_to.yield_source,
        "gamma_m0": held_to.gamma_m0,
        "gamma_source": held_to.gamma_source,
        "galvanised": held_to.galvanised,
    }


def source_record(source: Source) -> dict[str, str]:
    """Return what a factored figure comes from, in words."""
    return {
        "combination": source.combination.name,
        "clause": source.combination.clause,
        "case": source.case,
        "position": source.position,
        "sharing": source.sharing,
        "state": source.state,
    }


def _stress(stress: Stress) -> dict[str, Any]:
    return {
        "von_mises_pa": stress.von_mises_pa,
        "axial_pa": stress.axial_pa,
        "bending_pa": stress.bending_pa,
        "shear_pa": stress.shear_pa,
        "torsion_pa": known(stress.torsion_pa),
        "at_m": stress.at_m,
        "action": numbers(stress.action),
        **source_record(stress.source),
    }


def _move(move: Move, bears_m: float) -> dict[str, Any]:
    return {
        "share": move.share,
        "down_m": move.down_m,
        "up_m": move.up_m,
        "sideways_m": move.sideways_m,
        "sag_m": move.sag_m,
        "over": _over(bears_m, move.sag_m),
        "tilt_deg": numbers(move.tilt_deg),
        **source_record(move.source),
    }


def _over(bears_m: float, sag_m: float) -> float | None:
    """Return the reach over a movement, None where nothing moves or it is not known."""
    return bears_m / sag_m if sag_m > 0 else None


def _stay(stay: Staying) -> dict[str, Any]:
    return {
        "section": stay.stay.section.key,
        "pulls_only": stay.stay.pulls_only,
        "length_m": stay.stay.length_m,
        "from_m": stay.stay.from_m,
        "to_m": stay.stay.to_m,
        "ratio": known(stay.ratio),
        "yield_pa": known(stay.held_to.yield_pa),
        "pull_n": stay.pull_n,
        "pull_source": source_record(stay.pull_source),
        "push_n": stay.push_n,
        "push_source": source_record(stay.push_source) if stay.push_source else None,
        "at_wall_n": numbers(stay.at_wall[:3]),
        "wall_source": source_record(stay.wall_source),
        "slack": stay.slack,
        "cases": stay.cases,
        "slenderness": stay.slenderness,
        "euler_n": stay.euler_n,
        "hinged_times": known(stay.hinged),
    }


def _tried(tried: Tried, bears_m: float) -> dict[str, Any]:
    return {
        "typed": tried.typed,
        "pick": tried.pick,
        "fits": tried.fits,
        "rows": [_trial(trial, bears_m) for trial in tried.trials],
    }


def _trial(trial: Trial, bears_m: float) -> dict[str, Any]:
    return {
        "section": trial.section.key,
        "standard": trial.section.standard,
        "made": trial.section.made,
        "ratio": known(trial.ratio),
        "note": trial.note,
        "sag_m": known(trial.sag_m),
        "over": None if math.isnan(trial.sag_m) else _over(bears_m, trial.sag_m),
        "variable_m": known(trial.variable_m),
        "tilt_deg": known(trial.tilt_deg),
        "arm_kg": trial.arm_kg,
        "cost": known(trial.cost),
        "within": trial.within,
    }
