"""Whether what was handed out as an issue still holds: later answers, and other figures since."""

import json
import math
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from estimator.reports import figures
from estimator.reports.document import Document
from estimator.reports.sentences import capital

FILE = "estimate.json"
_LARGEST_BYTES = 200_000_000
"""A larger file is not one of ours."""
_AGAIN = "Type a new issue and its date on the job sheet before anything is handed out again."


def out_of_date(document: Document) -> list[str]:
    """Return why what was handed out under this issue does not hold, in sentences; none if it does.

    An answer of the day of the issue itself is taken to be in it.
    """
    told = [*_later_answers(document["issue"]), *_other_figures(document)]
    return [*told, _AGAIN] if told else [*_undated(document["issue"])]


def stamp(document: Document) -> str:
    """Return what stands on every page of an issue that is out of date; blank otherwise."""
    late = document["issue"]["not_held"] or document["earlier"]
    return f"{capital(of_date(document['issue']))} IS OUT OF DATE" if late else ""


def of_date(issue: Document) -> str:
    """Return "issue C of 2026-05-11"; without its date where it has none."""
    return f"issue {issue['issue']}{' of ' + issue['date'] if issue['date'] else ''}"


def with_earlier(document: Document, folder: str | Path) -> Document:
    """Return the document with what stands in a folder under its issue, and is not the same.

    What is found there is kept from run to run, until the issue or its date is typed anew.
    """
    return {**document, "earlier": _earlier(document, Path(folder) / FILE)}


def _later_answers(issue: Document) -> Iterator[str]:
    if issue["not_held"]:
        named = capital(of_date(issue))
        yield (
            f"{named} does not hold these answers: {_listed(issue['not_held'])}. What was handed"
            f" out as issue {issue['issue']} is out of date."
        )


def _undated(issue: Document) -> Iterator[str]:
    """Yield what cannot be told, for want of a date."""
    if not issue["undated"]:
        return
    answers = _listed(issue["undated"])
    if issue["date"] is None:
        yield (
            f"{capital(of_date(issue))} has no date, so nobody can tell whether it holds these"
            f" answers: {answers}. Type its date on the job sheet."
        )
        return
    yield (
        f"These answers have no date, so nobody can tell whether {of_date(issue)} holds them:"
        f" {answers}. Type their dates on the sheet answers."
    )


def _other_figures(document: Document) -> Iterator[str]:
    """Yield what changed since figures of the same issue were written to the same folder."""
    earlier = document["earlier"]
    if earlier is None:
        return
    yield (
        f"The inputs have changed under the same {of_date(document['issue'])}: figures of it were"
        f" written here on {earlier['made_on']}{_moved(document, earlier)}."
    )
    yield from _beyond(document, earlier)


def _moved(document: Document, earlier: Document) -> str:
    """Return how far mass and middle have moved; blank where they cannot be compared."""
    before_kg, now_kg = earlier["mass_kg"], document["mass"]["likely_kg"]
    if earlier["option"] != document["option"] or not before_kg:
        return ""
    off_m = _off_m(document, earlier)
    if now_kg == before_kg and not off_m:
        return ". Mass and centre of gravity are as they were"
    middle = "" if off_m is None else f"; its centre lies {figures.millimetres(off_m)} from there"
    change = figures.fixed(100 * (now_kg / before_kg - 1), 1)
    return (
        f". The mass was {figures.kilograms(before_kg)}, now it is {figures.kilograms(now_kg)}"
        f" ({change} %){middle}"
    )


def _beyond(document: Document, earlier: Document) -> Iterator[str]:
    """Yield what has moved further than was agreed with the engineer."""
    agreed, before_kg = document["agreed_drift"], earlier["mass_kg"]
    if earlier["option"] != document["option"]:
        return
    share = agreed["mass_fraction"]
    if share is not None and before_kg:
        drift = abs(document["mass"]["likely_kg"] / before_kg - 1)
        if drift > share:
            yield (
                f"The mass has moved by {figures.percent(drift)}, more than the"
                f" {figures.percent(share)} agreed: tell the engineer."
            )
    off_m = _off_m(document, earlier)
    if None not in (off_m, agreed["cg_m"]) and off_m > agreed["cg_m"]:
        yield (
            f"The centre of gravity has moved by {figures.millimetres(off_m)}, more than the"
            f" {figures.millimetres(agreed['cg_m'])} agreed: tell the engineer."
        )


def _off_m(document: Document, earlier: Document) -> Any:  # noqa: ANN401 - a length or None
    now_m, before_m = document["mass"]["cg_m"], earlier["cg_m"]
    return None if None in (now_m, before_m) else math.dist(now_m, before_m)


def _earlier(document: Document, path: Path) -> Document | None:
    """Return what was first written under the same issue, where its inputs were other ones."""
    issue = document["issue"]
    there = _read(path) if issue["issue"] else None
    if there is None or _name(there.get("issue")) != _name(issue):
        return None
    first: Document = there.get("earlier") or {
        "issue": issue["issue"],
        "date": issue["date"],
        "made_on": there["made_on"],
        "option": there["option"],
        "inputs_sha256": there["inputs_sha256"],
        "mass_kg": there["mass"]["likely_kg"],
        "cg_m": there["mass"]["cg_m"],
    }
    return None if first["inputs_sha256"] == document["inputs_sha256"] else first


def _name(issue: Any) -> tuple[Any, Any] | None:  # noqa: ANN401 - whatever stands in the file
    return (issue["issue"], issue["date"]) if isinstance(issue, dict) else None


def _read(path: Path) -> dict[str, Any] | None:
    """Return the document in a file; None where there is none that this program could have made."""
    try:
        if path.stat().st_size > _LARGEST_BYTES:
            return None
        found = json.loads(path.read_text("utf-8"))
    except (OSError, ValueError):
        return None
    keys = {"issue", "earlier", "made_on", "option", "inputs_sha256", "mass", "program_version"}
    return found if isinstance(found, dict) and keys <= found.keys() else None


def _listed(answers: Sequence[Document]) -> str:
    return "; ".join(
        f"{': '.join(filter(None, (one['about'], one['which'])))}"
        f" ({', '.join(filter(None, (one['who'], one['date']))) or one['cell']})"
        for one in answers
    )
