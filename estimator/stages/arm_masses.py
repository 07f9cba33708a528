"""Arm masses: what the arm of a bracket weighs by the metre, and what it carries at its end."""

from typing import NamedTuple

from estimator.resolve.brackets import BRACKETS
from estimator.resolve.job import Resolved
from estimator.resolve.records import Bracket
from estimator.stages.weighing import Weights


class ArmMass(NamedTuple):
    """Masses that an arm shakes with.

    Attributes:
        arm_kg: All of it.
        arm_kg_m: By the metre.
        share_kg: An even share of what hangs from its set, the set's own metal left out.
    """

    arm_kg: float
    arm_kg_m: float
    share_kg: float


def arm_key(bracket: Bracket) -> str:
    """Return the mark of the part that is the arm of a bracket."""
    return f"{bracket.key} arm"


def arm_mass(resolved: Resolved, weights: Weights, bracket: Bracket) -> ArmMass | None:
    """Return the masses of an arm; None where its part was refused."""
    parts = resolved.columns.parts
    key = arm_key(bracket)
    row = next((i for i, part in enumerate(parts) if part.key == key), None)
    if row is None:
        return None
    carried_kg = sum(
        float(weights.assemblies.mass_kg[i])
        for i, assembly in enumerate(resolved.assemblies)
        if assembly.carried_by == bracket.set_name and not assembly.key.startswith(BRACKETS)
    )
    sharing = sum(other.set_name == bracket.set_name for other in resolved.brackets)
    arm_kg = float(weights.parts.mass_kg[row])
    return ArmMass(arm_kg, arm_kg / parts[row].dims[0], carried_kg / sharing)
