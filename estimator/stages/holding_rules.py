"""The load combinations of a job: by the rule it names, with the factors of the tables."""

from collections.abc import Sequence

from estimator.reference.factors import factors as factor_table
from estimator.resolve.job import Resolved
from estimator.supports.combinations import (
    ASCE_LETTERS,
    Combination,
    Factors,
    asce_combinations,
    combinations,
)


def rules_for(resolved: Resolved, actions: Sequence[str]) -> tuple[Combination, ...]:
    """Return the combinations of the job's rule.

    Args:
        resolved: The job.
        actions: Causes of the variable actions there are.
    """
    rule = resolved.facts.text("combination_rule")
    if rule.startswith("ASCE"):
        return asce_combinations({action: ASCE_LETTERS[action] for action in actions}, rule)
    table = factor_table(resolved.library)
    psi0 = {action: table[f"psi0 {action}"].value for action in actions}
    return combinations(actions, Factors(psi0=psi0), rule)
