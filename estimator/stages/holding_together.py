"""Which loads from elsewhere act at the same time: by what their rows say."""

from collections.abc import Iterator, Sequence

from estimator.resolve.records import ExtraLoad

Together = tuple[int, ...]
"""Places of the loads of one case in the list of those of its cause."""


def together(loads: Sequence[ExtraLoad]) -> tuple[Together, ...]:
    """Return the cases of loads of one cause: each alone, then those that may act together.

    Where no row says anything, all of them are the last case. Where one does, loads act together
    that all name one another, and who says nothing stays alone.
    """
    alone = tuple((n,) for n in range(len(loads)))
    if len(loads) <= 1:
        return alone
    if all(load.together is None for load in loads):
        return (*alone, tuple(range(len(loads))))
    friends = [
        {k for k, other in enumerate(loads) if k != n and _meet(load, other)}
        for n, load in enumerate(loads)
    ]
    more = sorted(_largest((), set(range(len(loads))), set(), friends))
    return (*alone, *(case for case in more if len(case) > 1))


def _meet(one: ExtraLoad, other: ExtraLoad) -> bool:
    """Return whether either of two loads names the other."""
    return other.key in (one.together or ()) or one.key in (other.together or ())


def _largest(
    chosen: Together, open_: set[int], done: set[int], friends: Sequence[set[int]]
) -> Iterator[Together]:
    """Yield the largest sets in which all are friends.

    References:
        C. Bron, J. Kerbosch, Algorithm 457: Finding all cliques of an undirected graph,
        Communications of the ACM 16 (1973), 575-577: the plain version, from memory.
    """
    if not open_ and not done:
        yield tuple(sorted(chosen))
    for n in sorted(open_):
        yield from _largest((*chosen, n), open_ & friends[n], done & friends[n], friends)
        open_, done = open_ - {n}, done | {n}
