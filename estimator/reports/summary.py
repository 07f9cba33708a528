"""The answer as plain text for a terminal: at most `MOST_LINES` lines, no colour, no drawing."""

import textwrap

from estimator.reports import figures, reissue, sentences
from estimator.reports.document import Document

MOST_LINES = 60
_WIDTH = 88
_ROWS = 6
"""Lines given to a list before it says how many more there are."""
_RULE = "-" * _WIDTH


def summary_text(document: Document) -> str:
    """Return what a maker wants to know first, with what was left out above it.

    Args:
        document: The estimate document.
    """
    with figures.us_beside(wanted=sentences.in_inches(document)):
        return figures.plain("\n".join(_cut(_lines(document)))) + "\n"


def _lines(document: Document) -> list[str]:
    title = sentences.fact(document, "title") or document["file"]
    head = [title, sentences.issue(document), document["option"], document["made_on"]]
    banner = sentences.banner(document)
    sections = (
        [*_wrapped(", ".join(filter(None, head))), _RULE],
        [banner, *_problems(document), ""] if banner else [],
        [
            line
            for sentence in (*reissue.out_of_date(document), *sentences.summary(document))
            for line in _wrapped(sentence)
        ],
        ["", *_masses(document)] if document["parts"] else [],
        ["", *_untold(document)],
        ["", *_wrapped(sentences.SIGN_OFF)],
    )
    return [line for section in sections for line in section]


def _wrapped(words: str, indent: str = "") -> list[str]:
    return textwrap.wrap(words, _WIDTH, initial_indent=indent, subsequent_indent=indent + "  ")


def _some(rows: list[str], what: str) -> list[str]:
    more = len(rows) - _ROWS
    return [*rows[:_ROWS], f"  and {more} more {what}"] if more > 0 else rows


def _problems(document: Document) -> list[str]:
    rows = [
        textwrap.shorten(f"{p['cell']}: {p['found']}", _WIDTH - 2, placeholder=" ...")
        for p in document["problems"]
        if p["severity"] == "refused"
    ]
    return _some([f"  {row}" for row in rows], "refused; the page lists them all")


def _masses(document: Document) -> list[str]:
    firsts: dict[str, Document] = {}
    for row in document["assemblies"]:
        firsts.setdefault(row["assembly"], row)
    rows = sorted(firsts.values(), key=lambda row: -row["mass_kg"])
    lines = [
        f"  {row['assembly'][:36]:<36} {figures.mass(row['mass_kg']):>8} {figures.head('kg')}"
        f"   {figures.spread(row['low_kg'], row['high_kg'])}"
        for row in rows
    ]
    heading = "Assemblies, heaviest first (likely; one in twenty lower, higher):"
    return [heading, *_some(lines, "assemblies")]


def _untold(document: Document) -> list[str]:
    rows = [
        textwrap.shorten(
            f"{row['item']}: {sentences.stood_in(row)}", _WIDTH - 2, placeholder=" ..."
        )
        for row in document["untold"]
    ]
    if not rows:
        return ["Nothing that was asked for is missing."]
    return [
        "What you have not told me, and what stands in for it:",
        *_some([f"  {row}" for row in rows], "on the page"),
    ]


def _cut(lines: list[str]) -> list[str]:
    """Keep the head and the line about the engineer when all of it is too long."""
    if len(lines) <= MOST_LINES:
        return lines
    tail = ["...", *_wrapped(sentences.SIGN_OFF)]
    return [*lines[: MOST_LINES - len(tail)], *tail]
