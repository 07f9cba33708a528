"""How sure the mass is, in words: what widens it and what to measure, weighings, own record."""

from collections.abc import Iterator
from typing import Any

from estimator.reports import figures
from estimator.reports.document import Document

_FEWEST = 2
"""From so many parts on, measuring the chief ones is told apart from measuring all."""


def measure(row: Document) -> str:
    """Return what to measure or to weigh to know a cause better.

    Args:
        row: A row of ``widest``.
    """
    parts = ", ".join(one["part"] for one in row["chief"])
    pieces = "; ".join(_piece(sample) for sample in row["samples"])
    return {
        "gauge": f"gauge it with a micrometer in five places, or weigh a flat piece: {pieces}",
        "density": f"weigh an offcut and measure it: {pieces}",
        "coat": f"weigh a test piece bare and coated; the coat alone: {pieces}",
        "moisture": "put a moisture meter on it, and type `timber moisture` on the job sheet",
        "sizes": f"measure or weigh {parts} as made{_those(row)}",
        "laps": f"measure the laps as they lie on {parts}",
        "forming": f"weigh the blank and what was made of it: {parts}",
        "scale": "have the scale checked, or weigh again on another",
        "other": f"measure or weigh {parts}{_those(row)}",
    }[row["kind"]]


def _piece(sample: Document) -> str:
    likely = figures.kilograms(sample["likely_kg"])
    ends = _spread(sample["low_kg"], sample["high_kg"])
    return f"{sample['piece']} is likely {likely}, {ends}"


def _those(row: Document) -> str:
    """Return what knowing the chief parts alone would do, where there are more."""
    if row["parts"] <= len(row["chief"]) or len(row["chief"]) < _FEWEST:
        return ""
    narrower = figures.kilograms(row["chief_narrower_kg"])
    return f": these {len(row['chief'])} of {row['parts']} alone narrow it by {narrower}"


def chiefly(row: Document) -> str:
    """Return the parts that a cause is chiefly in, with what each lies off either way."""
    told = ", ".join(f"{one['part']} ±{figures.kilograms(one['off_kg'])}" for one in row["chief"])
    more = row["parts"] - len(row["chief"])
    return f"{told}, and {more} more" if more > 0 else told


def known_by(part: Document) -> str:
    """Return how sure a part is: weighed by itself, with something, or its confidence."""
    if not part["weighed"]:
        return str(part["confidence"])
    return "weighed" if part["weighed"] == part["part"] else f"weighed with {part['weighed']}"


def summary(document: Document) -> Iterator[str]:
    """Yield what was weighed and what widens the range of the whole most."""
    mass = document["mass"]
    if mass["weighed_kg"]:
        yield f"Of the mass {figures.kilograms(mass['weighed_kg'])} stood on a scale."
    for row in document["widest"][:1]:
        range_ = _spread(row["known_low_kg"], row["known_high_kg"])
        yield f"It is least sure for {row['cause']}: were that known, it would be {range_}."
        yield f"To narrow it, {measure(row)}."


def straight(document: Document) -> str:
    """Return what the range would be if everything went the same way at once."""
    mass = document["mass"]
    ends = _spread(mass["straight_low_kg"], mass["straight_high_kg"])
    return (
        f"The whole is {_spread(mass['low_kg'], mass['high_kg'])}, one time in twenty beyond"
        f" either end. With every cause at its worst the same way at once it would be {ends}."
    )


def weighing(row: Document) -> dict[str, str]:
    """Return what is told of a reading, by column.

    Args:
        row: A row of ``weighings``.
    """
    many = f", {row['count']} alike" if row["count"] > 1 else ""
    mean = f", mean of {row['times']}" if row["times"] > 1 else ""
    alone = f", {figures.kilograms(row['alone_kg'])} of it on its own" if row["alone_kg"] else ""
    return {
        "what": f"{row['name']}{many}{alone}",
        "when": f"{row['date'] or 'no date'}{mean}",
        "scale": row["scale"] or "not said",
        "ratio": figures.fixed(row["ratio"], 2),
        "rest": figures.fixed(row["rest_ratio"], 2),
        "like": f"not kept: {row['not_kept']}" if row["not_kept"] else _like(row),
    }


def offer(row: Document) -> str:
    """Return what the maker's own record says of parts like some of this job.

    Args:
        row: A row of ``own_record``.
    """
    mean, low, high = (figures.fixed(row[name], 2) for name in ("mean", "low", "high"))
    deviation = row["deviation"]
    spread = "" if deviation is None else f", standard deviation {figures.fixed(deviation, 2)}"
    return (
        f"{_like(row)}: {row['number']} weighed, made/estimated {mean} ({low} to {high}){spread},"
        f" from {', '.join(row['jobs'])}. Like it here: {', '.join(row['parts'])}, worked out at"
        f" {figures.kilograms(row['estimated_kg'])}."
    )


def _like(row: Document) -> str:
    return f"{row['material']}, {row['shape']}"


def _spread(low_kg: float, high_kg: float) -> str:
    return figures.spread(low_kg, high_kg, "kg")


def context(document: Document) -> dict[str, Any]:
    """Return what the page says of it."""
    return {
        "straight": straight(document),
        "widest": [
            {**row, "measure": measure(row), "chiefly": chiefly(row)} for row in document["widest"]
        ],
        "weighings": [{**row, "words": weighing(row)} for row in document["weighings"]],
        "offers": [offer(row) for row in document["own_record"]],
    }
