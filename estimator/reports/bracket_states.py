"""Bracket states: the ways of sharing side by side, and what a slack bracket or a stage changes."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from estimator.reports.document import Document

AS_BUILT = "as built"
SIDE_BY_SIDE = (("pull_out_n", "pull-out"), ("down_n", "down"), ("sideways_n", "sideways"))
"""What is told of every bracket by each way of sharing."""
LOOKED_AT = ("pull_out_n", "down_n")
"""What is told of every state of the brackets."""


class Side(NamedTuple):
    """One bracket as built: of each of `SIDE_BY_SIDE` a value by each way of sharing."""

    bracket: str
    values: tuple[tuple[float | None, ...], ...]


class Worst(NamedTuple):
    """The largest of one force at any bracket in a state, and what it is there as built."""

    value: float
    bracket: str
    built: float | None


class StateLine(NamedTuple):
    """One state: the largest of each of `LOOKED_AT`, or what is free in it."""

    state: str
    worst: tuple[Worst, ...]
    free: str


class SetStates(NamedTuple):
    """One set of brackets.

    Attributes:
        name: Of the set.
        sharings: Ways it has an answer by, as built.
        sides: Of each bracket.
        lines: Of each state but the one as built.
        one_way: What is to be known of what works one way only.
        unheld: Cases in which what works one way only holds nothing, as built.
        cases: How many factored actions were looked at.
    """

    name: str
    sharings: tuple[str, ...]
    sides: tuple[Side, ...]
    lines: tuple[StateLine, ...]
    one_way: tuple[str, ...]
    unheld: int
    cases: int


def set_states(document: Document) -> list[SetStates]:
    """Return the states of every set of brackets."""
    return [_set_states(one) for one in document["bracket_sets"] if one["answers"]]


def _set_states(one: Document) -> SetStates:
    built = [answer for answer in one["answers"] if answer["state"] == AS_BUILT]
    others = dict.fromkeys(a["state"] for a in one["answers"] if a["state"] != AS_BUILT)
    lines = [StateLine(state, tuple(_worst(one, state)), "") for state in others]
    lines += [StateLine(row["state"], (), row["words"]) for row in one["free"]]
    return SetStates(
        one["set"],
        tuple(answer["sharing"] for answer in built),
        tuple(_side(built, n, bracket) for n, bracket in enumerate(one["brackets"])),
        tuple(lines),
        tuple(one["one_way"]),
        max((answer["unheld"] for answer in built), default=0),
        one["cases"],
    )


def _side(built: Sequence[Document], n: int, bracket: str) -> Side:
    values = (tuple(answer["brackets"][n][key] for answer in built) for key, _ in SIDE_BY_SIDE)
    return Side(bracket, tuple(values))


def _worst(one: Document, state: str) -> Iterator[Worst]:
    """Yield the largest of each force at any bracket in a state, by whichever way of sharing."""
    for key in LOOKED_AT:
        value, bracket = max(_values(one, state, key), key=lambda pair: pair[0])
        as_built = [v for v, b in _values(one, AS_BUILT, key) if b == bracket]
        yield Worst(value, bracket, max(as_built, default=None))


def _values(one: Document, state: str, key: str) -> list[tuple[float, str]]:
    return [
        (row[key], row["bracket"])
        for answer in one["answers"]
        if answer["state"] == state
        for row in answer["brackets"]
        if row[key] is not None
    ]
