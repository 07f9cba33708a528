"""Which loads from elsewhere act at the same time: by what their rows say."""

from collections.abc import Iterator, Sequence
from itertools import islice

from estimator.resolve.records import ExtraLoad

Together = tuple[int, ...]
"""Places of the loads of one case in the list of those of its cause."""
MOST_LOADS = 60
"""More loads of one cause on one set than this are not looked at one by one."""
MOST_SETS = 60
"""More sets of loads that may act together than this are not all looked at."""


def together(loads: Sequence[ExtraLoad]) -> tuple[Together, ...]:
    """Return the cases of loads of one cause: each alone, then those that may act together.

    Where no row says anything, all of them are the last case. Where one does, loads act together
    that all name one another, and who says nothing stays alone.
    """
    alone = tuple((n,) for n in range(len(loads)))
    if len(loads) <= 1:
        return alone
    if len(loads) > MOST_LOADS:
        return (tuple(range(len(loads))),)
    if all(load.together is None for load in loads):
        return (*alone, tuple(range(len(loads))))
    more = sorted(islice(_sets(loads), MOST_SETS))
    return (*alone, *(case for case in more if len(case) > 1))


def left_out(loads: Sequence[ExtraLoad]) -> str:
    """Return which cases of loads of one cause are not looked at, in words; blank for none."""
    if len(loads) > MOST_LOADS:
        return f"all {len(loads)} loads of cause {loads[0].cause} at once only, none by itself"
    said = any(load.together is not None for load in loads)
    if said and next(islice(_sets(loads), MOST_SETS, None), None):
        return (
            f"loads of cause {loads[0].cause} may act together in more than {MOST_SETS} ways, and "
            "only that many were looked at"
        )
    return ""


def _sets(loads: Sequence[ExtraLoad]) -> Iterator[Together]:
    """Yield the largest sets of loads that may act together."""
    friends = [
        {k for k, other in enumerate(loads) if k != n and _meet(load, other)}
        for n, load in enumerate(loads)
    ]
    return _largest((), set(range(len(loads))), set(), friends)


def _meet(one: ExtraLoad, other: ExtraLoad) -> bool:
    """Return whether either of two loads names the other."""
    return other.key in (one.together or ()) or one.key in (other.together or ())


def _largest(
    chosen: Together, open_: set[int], done: set[int], friends: Sequence[set[int]]
) -> Iterator[Together]:
    """Yield the largest sets in which all are friends.

    References:
        C. Bron, J. Kerbosch, Algorithm 457: Finding all cliques of an undirected graph,
        Communications of the ACM 16 (1973), 575-577, from memory. Leaving aside the friends of
        one load: E. Tomita and others, Theoretical Computer Science 363 (2006), 28-42, from
        memory; without that, n loads that are all friends take 2^n steps.
    """
    if not open_ and not done:
        yield tuple(sorted(chosen))
        return
    # A set that is as large as can be has this one in it, or one that is no friend of it.
    pivot = max(sorted(open_ | done), key=lambda n: len(open_ & friends[n]))
    for n in sorted(open_ - friends[pivot]):
        yield from _largest((*chosen, n), open_ & friends[n], done & friends[n], friends)
        open_, done = open_ - {n}, done | {n}
