"""Records of what brackets pass to the wall: by cause, governing, and in every state of them."""

import math
from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from estimator.resolve.records import Bracket, Facts
from estimator.stages.holding import COMPONENTS, HeldSet
from estimator.stages.holding_frames import root_of
from estimator.stages.holding_search import ENDS, Ends
from estimator.supports.arms import BUILT_IN, LIFTS_OFF

SHOWN = {
    "pull_out_n": (COMPONENTS[2][0],),
    "push_in_n": (COMPONENTS[2][1],),
    "down_n": (COMPONENTS[1][1],),
    "uplift_n": (COMPONENTS[1][0],),
    "sideways_n": COMPONENTS[0],
}
"""What is told of a bracket in each state, and the ends it is the largest of."""
LEVER_SILENT = (
    "the lever rule is not asked with a bracket at half stiffness, which is nothing to it, nor "
    "where one is slack that shares its place of the row with others: what is left there would "
    "have to hold their couple alone"
)


def set_record(held: HeldSet, facts: Facts) -> dict[str, Any]:
    """Return how the brackets of one set share, and the worst in every state of them.

    Args:
        held: The set.
        facts: Of the job.
    """
    return {
        "set": held.name,
        "brackets": [bracket.key for bracket in held.brackets],
        "long_axis": held.long_axis,
        "mechanism": held.mechanism or None,
        "stiffness_note": _note(held, facts),
        "residual": held.residual,
        "bending_nm2": None if math.isnan(held.bending_nm2) else held.bending_nm2,
        "cases": held.cases,
        "answers": [_answer(held, ends) for ends in held.ends],
        "free": [{"state": state, "words": words} for state, words in held.free.items()],
        "one_way": [words for bracket in held.brackets for words in _one_way(bracket)],
    }


def _note(held: HeldSet, facts: Facts) -> str:
    """Return what the sharing takes for granted."""
    gives = "gives as said" if root_of(facts) != BUILT_IN else "does not give"
    ways = f"rigid body and lever rule along {held.long_axis}"
    if held.bending_nm2 > 0:
        ways = f"rigid body, beam on springs and lever rule along {held.long_axis}"
    movers = "movers in every position one at a time, and together where each does most by itself"
    silent = (LEVER_SILENT,) if len(held.brackets) > 1 else ()
    given = f"arms as cantilevers from a wall that {gives}"
    thinned = (movers,) if held.thinned else ()
    return "; ".join((given, f"{ways}, the larger governs", *silent, *thinned, *held.left_out))


def _answer(held: HeldSet, ends: Ends) -> dict[str, Any]:
    """Return the worst at each bracket in one state by one way of sharing."""
    return {
        "state": ends.state,
        "sharing": ends.sharing,
        "unheld": ends.unheld,
        "brackets": [
            {"bracket": bracket.key, **{key: _largest(of, names) for key, names in SHOWN.items()}}
            for bracket, of in zip(held.brackets, ends.value, strict=True)
        ],
    }


def _largest(of: Sequence[float], names: Sequence[str]) -> float | None:
    """Return the size of the largest of some ends; None of a bracket that takes no part."""
    each = [-of[d] if side else of[d] for d, (_, side, name) in enumerate(ENDS) if name in names]
    return None if not np.isfinite(each).all() else max(0.0, *map(float, each))


def _one_way(bracket: Bracket) -> Iterator[str]:
    """Yield what is to be known of what works one way only at a bracket."""
    if bracket.holds in LIFTS_OFF:
        yield f"{bracket.key}: {LIFTS_OFF[bracket.holds]}"
    if bracket.stay is not None:
        what = "only pulls, and is slack in the cases in which it would have to push"
        yield f"{bracket.key}: its stay {what if bracket.stay.pulls_only else 'pulls and pushes'}"


def characteristic_records(held: HeldSet) -> Iterator[dict[str, Any]]:
    """Return the unfactored actions on the wall, by cause."""
    roots = {bracket.key: bracket.root_m for bracket in held.brackets}
    for row in held.characteristic:
        yield {
            "bracket": row.bracket,
            "set": held.name,
            "at_m": list(roots[row.bracket]),
            "cause": row.cause,
            "direction_deg": row.direction_deg,
            "case": row.case,
            "force_n": row.action[:3].tolist(),
            "moment_nm": row.action[3:].tolist(),
            "sharing": row.sharing,
            "position": row.position,
        }


def envelope_records(held: HeldSet) -> Iterator[dict[str, Any]]:
    """Return the governing value of every component, with the factors of its combination."""
    for row in held.governing:
        yield {
            "bracket": row.bracket,
            "component": row.component,
            "value": row.value,
            "unit": "N m" if row.component.startswith("moment") else "N",
            "combination": f"{row.combination.name} ({row.combination.clause})",
            "case": row.case,
            "sharing": row.sharing,
            "position": row.position,
            "state": row.state,
        }


def assumptions(held: Sequence[HeldSet], facts: Facts) -> Iterator[tuple[str, str, str]]:
    """Yield what is taken for granted of how brackets share: what, its value, why."""
    if not held:
        return
    root, why = root_of(facts), "a wall that gives moves load from one bracket to another"
    for what, stiffness, unit, per in (
        ("pulled", root.out_n_m, "kN/mm", 1e6),
        ("tilted", root.turn_nm_rad, "kN m/rad", 1e3),
    ):
        value = f"{stiffness / per:g} {unit}" if math.isfinite(stiffness) else "does not give"
        yield f"wall behind the brackets, {what}", value, why
    if any(one.bending_nm2 > 0 for one in held):
        yield (
            "a body that bends over its brackets", "the stiffest that hangs on the set",
            "everything that hangs there is taken to bend with it, and to be stiff otherwise",
        )  # fmt: skip
    yield (
        "states of the brackets",
        "as built, each slack in turn, each half as stiff, and every stage of erection",
        (
            "what is not sure to share is left out once; an assembly without a stage goes up with "
            "what carries it, a bracket without one is there from the first"
        ),
    )
