"""The facts of the job with their defaults, and what nobody has said."""

from typing import NamedTuple

from estimator.core.sourced import Origin, Sourced
from estimator.resolve.records import Facts
from estimator.sheets.facts import JOB_FACTS, RULE_DEFAULTS
from estimator.sheets.rows import Job

PROGRAM_DEFAULT = "the program's own default; change it on the job sheet"


EN_FACTS = (
    "season_factor", "years_exposed", "national_annex", "distance_to_smoother_terrain",
    "air_density",
)  # fmt: skip
"""Asked by EN 1991-1-4 alone: the maps of ASCE 7 hold the first two."""
RULE_FACTS = (
    "basic_wind_speed", "terrain", "orography", "direction_factor", "hill_or_cliff", *EN_FACTS,
)  # fmt: skip
STATED_FACTS = ("stated_pressure", "stated_pressure_kind", "stated_pressure_by_direction")
GATED = {
    "hill_height": "hill_or_cliff",
    "hill_upwind_length": "hill_or_cliff",
    "hill_downwind_length": "hill_or_cliff",
    "distance_from_crest": "hill_or_cliff",
    "hill_slope_faces": "hill_or_cliff",
    "smoother_terrain": "distance_to_smoother_terrain",
    "ice_density": "ice_thickness",
    "wind_with_ice": "ice_thickness",
}
"""Facts that are asked only when another one was told."""


class Untold(NamedTuple):
    """A fact nobody gave.

    Attributes:
        item: The fact, in words.
        used: What stands in for it; blank when nothing does.
        why: What it changes.
    """

    item: str
    used: Sourced | None
    why: str


def resolve_facts(job: Job) -> tuple[Facts, tuple[Untold, ...]]:
    """Return every fact that has a value, and the list of those nobody gave."""
    values = dict(job.facts)
    idle = not_asked(job)
    by_rule = RULE_DEFAULTS.get(_wind_rule(job), {})
    untold = []
    for item, fact in JOB_FACTS.items():
        if item in values or item in idle:
            continue
        used, default = None, by_rule.get(item, fact.default)
        if default is not None:
            used = Sourced(default, Origin.DEFAULT, PROGRAM_DEFAULT)
            values[item] = used
        untold.append(Untold(fact.column.heading, used, fact.why))
    return Facts(values), tuple(untold)


def not_asked(job: Job) -> set[str]:
    """Return the keys of facts that change nothing, because another one takes their place."""
    rule = _wind_rule(job)
    idle = set(RULE_FACTS if rule == "stated pressure" else STATED_FACTS)
    if rule in RULE_DEFAULTS:
        idle.update(EN_FACTS)
    idle.update(item for item, gate in GATED.items() if gate not in job.facts)
    if "mark_up" in job.facts:
        idle.add("margin")
    if "margin" in job.facts:
        idle.add("mark_up")
    return idle


def _wind_rule(job: Job) -> str:
    """Return the wind rule that was typed; blank when none was."""
    rule = job.facts.get("wind_rule")
    return str(rule.value) if rule else ""
