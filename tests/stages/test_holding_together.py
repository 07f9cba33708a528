"""Which loads of one cause act at the same time."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.resolve.records import ExtraLoad
from estimator.stages.holding_together import MOST_LOADS, MOST_SETS, left_out, together

SAID = [
    ([], []),
    ([None], [(0,)]),
    # Nobody says anything: each alone, then all of them.
    ([None, None, None], [(0,), (1,), (2,), (0, 1, 2)]),
    # Each says that it acts alone.
    ([(), (), None], [(0,), (1,), (2,)]),
    # One names another; it goes both ways, and the third stays alone.
    ([("B",), None, None], [(0,), (1,), (2,), (0, 1)]),
    # A with B and A with C, but B not with C.
    ([("B", "C"), (), ()], [(0,), (1,), (2,), (0, 1), (0, 2)]),
    # All three name one another, so the pairs are in the whole.
    ([("B", "C"), ("C",), ()], [(0,), (1,), (2,), (0, 1, 2)]),
]


def loads(said):
    """Return loads A, B, C, ... with what they may act with."""
    return [
        ExtraLoad(key="ABCDEFGH"[n], assembly="a", cause="person", force_n=(0.0, -1.0, 0.0),
                  at_m=(0.0, 0.0, 0.0), source="", together=names)
        for n, names in enumerate(said)
    ]  # fmt: skip


@pytest.mark.parametrize(("said", "cases"), SAID)
def test_cases_of_one_cause(said, cases):
    """By hand: each load alone, then the largest sets that may act together."""
    assert list(together(loads(said))) == cases


@given(st.lists(st.lists(st.sampled_from("ABCDEF"), max_size=5).map(tuple), min_size=2, max_size=6))
def test_every_pair_that_may_act_together_does(said):
    """And none that may not; no case lies within another but a load alone."""
    found = loads(said)
    cases = together(found)

    def meet(i, k):
        return found[k].key in found[i].together or found[i].key in found[k].together

    pairs = {(i, k) for i in range(len(said)) for k in range(i + 1, len(said)) if meet(i, k)}
    more = [set(case) for case in cases if len(case) > 1]
    assert {(i, k) for case in more for i in case for k in case if i < k} == pairs
    assert not any(one < other for one in more for other in more)
    assert [case for case in cases if len(case) == 1] == [(n,) for n in range(len(said))]


def crowd(count, apart):
    """Return loads that name all others but those of their own lot of so many."""
    keys = [f"E{n}" for n in range(count)]
    return [
        ExtraLoad(key=key, assembly="a", cause="person", force_n=(0.0, -1.0, 0.0), at_m=(0.0,) * 3,
                  source="",
                  together=tuple(k for m, k in enumerate(keys) if m // apart != n // apart))
        for n, key in enumerate(keys)
    ]  # fmt: skip


def test_many_that_all_act_together_are_one_case():
    """Thirty friends have 2^30 sets among them, of which one is the largest."""
    found = crowd(30, apart=1)

    assert together(found)[30:] == (tuple(range(30)),)
    assert left_out(found) == ""


def test_ways_beyond_the_most_are_told():
    """Lots of three make 3^10 largest sets: J. Moon, L. Moser, 1965 (from memory)."""
    found = crowd(30, apart=3)

    assert len(together(found)) == 30 + MOST_SETS
    assert left_out(found) == (
        "loads of cause person may act together in more than 60 ways, and only that many were "
        "looked at"
    )
    assert left_out(crowd(9, apart=3)) == ""


def test_a_crowd_of_loads_acts_at_once_only_and_it_is_told():
    """One more than is looked at one by one."""
    found = crowd(MOST_LOADS + 1, apart=1)

    assert together(found) == (tuple(range(61)),)
    assert left_out(found) == "all 61 loads of cause person at once only, none by itself"
