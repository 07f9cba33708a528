"""The furthest of combined actions, against every case worked out one by one."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.supports.combinations import Combination, Factors, Kind, combinations
from estimator.supports.extremes import ABSENT, Answers, action_of, furthest
from estimator.supports.slackening import NO_STATE, consistent_state, states_of

RULES = combinations(("wind", "snow"), Factors({"wind": 0.6, "snow": 0.5}))


def answers_of(seed, parts):
    """Return random answers: 3 stances, 2 brackets, 4 cases of wind and 2 of snow."""
    rng = np.random.default_rng(seed)
    at_work = states_of(parts)
    states = len(at_work)
    sizes = {"wind": 4, "snow": 2}
    return Answers(
        rng.normal(size=(states, 3, 2, 6)),
        {cause: rng.normal(size=(states, 3, k, 2, 6)) for cause, k in sizes.items()},
        at_work,
        rng.normal(size=(states, 3, parts)),
        {cause: rng.normal(size=(states, 3, k, parts)) for cause, k in sizes.items()},
    )


def every_case(answers, rule):
    """Yield the state, stance and cases of a combination, one by one."""
    ranges = [range(a.shape[2]) if cause in rule.variable_factors else (ABSENT,)
              for cause, a in answers.cases.items()]  # fmt: skip
    for stance, cases in product(range(3), product(*ranges)):
        carried = rule.permanent_factor * answers.carried_permanent[:, stance]
        for (cause, each), case in zip(answers.carried.items(), cases, strict=True):
            if case != ABSENT:
                carried = carried + rule.variable_factors[cause] * each[:, stance, case]
        state = 0
        if answers.at_work.shape[1]:
            state = int(consistent_state(carried[:, np.newaxis], answers.at_work)[0])
        yield (state, stance, *cases)


@settings(max_examples=40)
@given(seed=st.integers(0, 10_000), parts=st.integers(0, 2), pulled=st.sampled_from([0, 4, 20]))
def test_no_case_goes_further(seed, parts, pulled):
    """In twenty directions and every combination it is the largest of all cases, and a case.

    By what the weight pulls at one-way parts all work in no, in some or in every combination.
    """
    answers = answers_of(seed, parts)
    answers = answers._replace(carried_permanent=answers.carried_permanent + pulled)
    ways = np.random.default_rng(seed + 1).normal(size=(2, 20, 6))
    found = furthest(answers, RULES, ways)
    for c, rule in enumerate(RULES):
        held = [at for at in every_case(answers, rule) if at[0] != NO_STATE]
        assert found.unheld[c] == len(list(every_case(answers, rule))) - len(held)
        if not held:
            assert np.isneginf(found.value[c]).all()
            continue
        actions = np.array([action_of(answers, rule, at) for at in held])
        along = np.einsum("mnj,ndj->mnd", actions, ways)
        assert found.value[c] == pytest.approx(along.max(axis=0))
        for n, d in product(range(2), range(20)):
            at = (found.state[c, n, d], found.stance[c, n, d], *found.cases[:, c, n, d])
            whole = action_of(answers, rule, tuple(int(i) for i in at))
            assert whole[n] @ ways[n, d] == pytest.approx(found.value[c, n, d])


def test_cases_looked_at_in_lots_give_the_same(monkeypatch):
    """However few are held at once; seven cases of 24 leave a smaller last lot."""
    answers, ways = answers_of(1, 2), np.random.default_rng(2).normal(size=(2, 20, 6))
    whole = furthest(answers, RULES, ways)
    monkeypatch.setattr("estimator.supports.extremes.AT_ONCE", 7 * 2 * 20)

    for one, other in zip(whole, furthest(answers, RULES, ways), strict=True):
        assert np.array_equal(one, other)


def still(permanent, **causes):
    """Return answers of one bracket with nothing one-way: an across force by stance, by cases."""
    sizes = {cause: np.array(of, dtype=float) for cause, of in causes.items()}

    def across(values):
        return np.multiply.outer(np.array(values, dtype=float), np.eye(6)[:1])

    return Answers(
        across(permanent)[np.newaxis],
        {cause: across(of)[np.newaxis] for cause, of in sizes.items()},
        states_of(0),
        np.zeros((1, len(permanent), 0)),
        {cause: np.zeros((1, *of.shape, 0)) for cause, of in sizes.items()},
    )


BOTH_WAYS = np.array([[[1.0, 0, 0, 0, 0, 0], [-1.0, 0, 0, 0, 0, 0]]])


def test_weight_that_helps_and_weight_that_does_not():
    """Pull of 10 by weight, wind of 6 either way: 1.35 G + 1.5 W against 1.0 G - 1.5 W."""
    rules = combinations(("wind",), Factors({"wind": 0.6}))
    strength = [rule for rule in rules if rule.kind is Kind.STRENGTH]

    found = furthest(still([10], wind=[[6, -6]]), strength, BOTH_WAYS)

    best = found.value[:, 0].argmax(axis=0)
    assert found.value[:, 0].max(axis=0) == pytest.approx([22.5, -1.0])
    assert [strength[c].name for c in best] == ["6.10 sup: wind leading", "6.10 inf: wind leading"]
    assert [found.cases[0, c, 0, way] for way, c in enumerate(best)] == [0, 1]


def test_one_wind_blows_on_all_that_moves_in_one_stance():
    """Weight and wind of a stance go together: 2 + 3 and 1 + 5 are sums of it, 2 + 5 is none."""
    service = [Combination("G + W", "", Kind.SERVICE, 1.0, {"wind": 1.0})]

    found = furthest(still([1, 2], wind=[[5, 0], [3, 0]]), service, BOTH_WAYS)

    assert found.value[0, 0] == pytest.approx([6.0, -1.0])
    assert found.stance[0, 0].tolist() == [0, 0]
    assert found.cases[0, 0, 0].tolist() == [0, 1]


def test_a_cause_that_is_left_out_has_no_case():
    """Permanent actions alone name no case of wind or snow."""
    found = furthest(answers_of(1, 0), RULES[:1], np.eye(6)[np.newaxis].repeat(2, axis=0))

    assert not RULES[0].variable_factors
    assert (found.cases == ABSENT).all()
