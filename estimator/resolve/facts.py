"""The facts of the job with their defaults, and what nobody has said."""

from typing import NamedTuple

from estimator.core.sourced import Origin, Sourced
from estimator.resolve.records import Facts
from estimator.sheets.facts import JOB_FACTS
from estimator.sheets.rows import Job

PROGRAM_DEFAULT = "the program's own default; change it on the job sheet"


RULE_FACTS = (
    "basic_wind_speed", "terrain", "orography", "direction_factor", "season_factor",
    "years_exposed",
)  # fmt: skip
STATED_FACTS = ("stated_pressure", "stated_pressure_kind")


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
    idle = _not_asked(job)
    untold = []
    for item, fact in JOB_FACTS.items():
        if item in values:
            continue
        used = None
        if fact.default is not None:
            used = Sourced(fact.default, Origin.DEFAULT, PROGRAM_DEFAULT)
            values[item] = used
        if item in idle:
            continue
        untold.append(Untold(fact.column.heading, used, fact.why))
    return Facts(values), tuple(untold)


def _not_asked(job: Job) -> set[str]:
    """Return the facts that do not matter, because another one takes their place."""
    rule = job.facts.get("wind_rule")
    stated = rule is not None and rule.value == "stated pressure"
    idle = set(RULE_FACTS if stated else STATED_FACTS)
    if "mark_up" in job.facts:
        idle.add("margin")
    if "margin" in job.facts:
        idle.add("mark_up")
    return idle
