"""Pulls at points of the wall in words: of a bracket, of a stay and of the arm beside it."""

from collections.abc import Iterator
from typing import Any

from estimator.reports.document import Document

SHARED = {"placed": "each load at its own place along the arm"}
"""Ways of sharing between an arm and its stay, beside those between brackets."""


def shared(sharing: str) -> str:
    """Return a way of sharing as it stands behind a case."""
    return SHARED.get(sharing, f"{sharing} sharing")


def factored(document: Document) -> Iterator[dict[str, Any]]:
    """Yield the factored pulls of the brackets; of one with a stay what each point does.

    The stay pulls where the arm pushes, so that both together say nothing of either.
    """
    stayed = {}
    for plated in document["plates"]["brackets"]:
        if plated["stay"] is not None:
            stayed[plated["bracket"]] = [
                (f"{plated['bracket']} stay", True, plated["stay"]["pull"]),
                (plated["bracket"], False, plated["own"]["pull"]),
            ]
    for row in document["bracket_envelope"]:
        if row["component"] == "pull-out" and row["bracket"] not in stayed:
            yield {**row, "of_stay": False}
    for bracket, of_stay, pair in (point for both in stayed.values() for point in both):
        named = f"{pair['combination']} ({pair['clause']})"
        told = {"bracket": bracket, "of_stay": of_stay, "value": pair["pull_n"]}
        yield {**pair, **told, "combination": named}


def point(mark: str, *, of_stay: bool) -> str:
    """Return a wall point by its mark: "bracket B1", "the stay of bracket B1"."""
    return f"the stay of bracket {mark.removesuffix(' stay')}" if of_stay else f"bracket {mark}"
