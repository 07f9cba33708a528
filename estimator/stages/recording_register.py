"""Recording what figures rest on: answers, what nobody told, what was assumed; and the issue."""

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from estimator.core.sourced import Origin, Sourced
from estimator.resolve.answers import PRESSURES, Answer
from estimator.resolve.job import Resolved
from estimator.resolve.records import Facts
from estimator.sheets.columns import field_of
from estimator.sheets.facts import JOB_FACTS, RULE_DEFAULTS
from estimator.sheets.topics import ALSO_CALLED, MAKERS_OWN, Sets
from estimator.stages.recording_facts import fact_words

_BLANK: Mapping[str, Any] = {
    "kind": "", "about": "", "which": "", "before": "", "value": "", "why": "", "who": "",
    "date": None, "cell": None, "state": "",
}  # fmt: skip
_USUAL_RULE = JOB_FACTS["wind_rule"].default
_KEPT_ONLY = "no figure; kept here only"
_BEFORE = {
    Sets.COEFFICIENT: "none was typed: that of the wind rule",
    Sets.FACTOR: "that of the combination rule",
}
"""What stood where an answer set something that nobody had typed."""


def register_records(
    resolved: Resolved,
    assumptions: Sequence[Mapping[str, str]],
    untold: Sequence[Mapping[str, str]],
) -> list[dict[str, Any]]:
    """Return everything that figures rest on and nobody measured, numbered through.

    Answers first, then what nobody told, then what was assumed. Its state is `open` where an
    answer is still wanted, `job` where the maker types it on the job sheet, `answered`, `kept`
    where an answer sets no figure, or `replaced` where a later one counts.

    Args:
        resolved: The job.
        assumptions: As the document lists them.
        untold: Likewise.
    """
    given = resolved.answers.given
    said = {field_of(one.about): one for one in given if one.later is None}
    rows = (
        *(_answered(one, resolved) for one in given),
        *(_not_told(row, said) for row in untold),
        *(_assumed(row, said) for row in assumptions),
    )
    return [{"number": number, **row} for number, row in enumerate(rows, start=1)]


def _answered(answer: Answer, resolved: Resolved) -> dict[str, Any]:
    return {
        **_BLANK,
        "kind": "answer",
        "about": answer.about,
        "which": answer.which,
        "before": _before(answer, resolved.job.facts),
        "value": _after(answer, resolved.facts),
        "why": _why(answer),
        "who": answer.who,
        "date": _iso(answer.date),
        "cell": str(answer.cell),
        "state": "replaced" if answer.later else _state(answer),
    }


def _before(answer: Answer, typed: Mapping[str, Sourced]) -> str:
    """Return in words what an answer took the place of; blank where it takes no place."""
    key = answer.topic.key
    if answer.topic.sets is Sets.FACT and not answer.later:
        if answer.before:
            return fact_words(key, answer.before)
        rule = str(typed["wind_rule"].value if "wind_rule" in typed else _USUAL_RULE)
        if key in PRESSURES:
            return f"that of {rule}"
        default = RULE_DEFAULTS.get(rule, {}).get(key, JOB_FACTS[key].default)
        if default is None:
            return "not told"
        return f"{fact_words(key, Sourced(default, Origin.DEFAULT, ''))}, by default"
    if answer.before:
        return f"{answer.before.value:g}"
    return _BEFORE.get(answer.topic.sets, "")


def _after(answer: Answer, facts: Facts) -> str:
    """Return in words what holds after an answer."""
    key = answer.topic.key
    if answer.topic.sets is Sets.FACT and key in facts.values and not answer.later:
        return fact_words(key, facts.values[key])
    return answer.typed


def _why(answer: Answer) -> str:
    """Return what an answer does."""
    if answer.later:
        return f"a later answer counts, in {answer.later}"
    if answer.topic.sets is Sets.FACT:
        return JOB_FACTS[answer.topic.key].why
    return answer.topic.column.words or _KEPT_ONLY


def _not_told(row: Mapping[str, str], said: Mapping[str, Answer]) -> dict[str, Any]:
    own = field_of(row["item"]) in MAKERS_OWN
    return {
        **_BLANK, "kind": "not told", "about": row["item"], "value": row["used"],
        "why": row["why"], "state": "job" if own else "open", **_said(row["item"], said),
    }  # fmt: skip


def _assumed(row: Mapping[str, str], said: Mapping[str, Answer]) -> dict[str, Any]:
    return {
        **_BLANK, "kind": "assumed", "about": row["what"], "value": row["value"],
        "why": row["why"], "state": "open", **_said(row["what"], said),
    }  # fmt: skip


def _said(about: str, said: Mapping[str, Answer]) -> dict[str, Any]:
    """Return who answered something, by its own words or by what it is called on the job sheet."""
    answer = said.get(field_of(ALSO_CALLED.get(about, about)))
    if answer is None:
        return {}
    return {
        "state": _state(answer),
        "who": answer.who,
        "date": _iso(answer.date),
        "cell": str(answer.cell),
    }


def _state(answer: Answer) -> str:
    """Return what became of an answer that holds."""
    return "kept" if answer.topic.sets is Sets.NOTHING else "answered"


def issue_record(resolved: Resolved) -> dict[str, Any]:
    """Return the issue that this is, and which answers came after it.

    What was handed out under it is out of date as soon as one did.
    """
    facts = resolved.facts
    typed = facts.values.get("issue")
    issued = typed is not None and typed.origin is Origin.TYPED
    date = facts.text("date") if facts.has("date") else None
    given = resolved.answers.given if issued else ()
    late = [one for one in given if date and one.date and one.date.isoformat() > date]
    unsure = [one for one in given if not (date and one.date)]
    return {
        "issue": facts.text("issue") if issued else None,
        "date": date if issued else None,
        "not_held": list(_briefly(late)),
        "undated": list(_briefly(unsure)),
    }


def _briefly(answers: Iterable[Answer]) -> Iterator[dict[str, Any]]:
    for one in answers:
        yield {
            "about": one.about, "which": one.which, "who": one.who, "date": _iso(one.date),
            "cell": str(one.cell),
        }  # fmt: skip


def drift_record(resolved: Resolved) -> dict[str, float | None]:
    """Return how far things may move from what was issued, as agreed with the engineer."""
    agreed = {one.value.kind: one.value.value for one in resolved.answers.counting(Sets.DRIFT)}
    return {"mass_fraction": agreed.get("percent"), "cg_m": agreed.get("length")}


def _iso(date: dt.date | None) -> str | None:
    return date.isoformat() if date else None
