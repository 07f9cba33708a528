"""Envelopes: against trying everything, and by hand on small numbers."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.supports.combinations import Combination, Factors, Kind, combinations
from estimator.supports.envelope import ABSENT, Responses, envelope

FACTORS = Factors(psi0={"wind": 0.6, "ice": 0.5})
COMBOS = combinations(["wind", "ice"], FACTORS)
FIRST = (0, 0)


def only(number):
    """Return n = 1 bracket with one number in its first component."""
    return np.array([[number, 0.0, 0, 0, 0, 0]])


def test_weight_that_helps_and_weight_that_does_not():
    """Pull of 10 by weight, wind of 6 either way: 1.35 G + 1.5 W against 1.0 G - 1.5 W."""
    strength = [c for c in combinations(["wind"], FACTORS) if c.kind is Kind.STRENGTH]
    wind = np.array([only(6.0), only(-6.0)])

    highest, lowest = envelope([Responses.fixed(only(10.0), {"wind": wind})], strength)

    assert highest.value[FIRST] == pytest.approx(22.5)
    assert strength[highest.combination[FIRST]].name == "6.10 sup: wind leading"
    assert highest.cases["wind"][FIRST] == 0
    assert lowest.value[FIRST] == pytest.approx(1.0)
    assert strength[lowest.combination[FIRST]].name == "6.10 inf: wind leading"
    assert lowest.cases["wind"][FIRST] == 1


def test_action_that_helps_is_left_out():
    """Ice that only relieves takes no part in the largest value, and says so."""
    things = [Responses.fixed(only(10.0), {"wind": np.array([only(6.0)]), "ice": -only(2.0)[None]})]

    highest, _ = envelope(things, COMBOS)

    assert COMBOS[highest.combination[FIRST]].name == "6.10 sup: wind leading"
    assert highest.cases["ice"][FIRST] == ABSENT


def test_movers_add_in_their_worst_positions_under_one_wind():
    """Each mover stands where it is worst, but the wind comes from one side for both."""
    service = [Combination("G + W", "", Kind.SERVICE, 1.0, {"wind": 1.0})]
    # Two positions each; winds from two sides that favour opposite movers.
    left = Responses(
        np.array([only(1.0), only(2.0)]),
        {"wind": np.array([[only(5.0), only(0.0)], [only(3.0), only(0.0)]])},
    )
    right = Responses(
        np.array([only(0.0), only(-1.0)]),
        {"wind": np.array([[only(0.0), only(4.0)], [only(0.0), only(6.0)]])},
    )

    highest, lowest = envelope([left, right], service)

    # First wind: max(6, 5) + max(0, -1) = 6; second: max(1, 2) + max(4, 5) = 7.
    assert highest.value[FIRST] == pytest.approx(7.0)
    assert highest.cases["wind"][FIRST] == 1
    assert highest.positions[:, 0, 0].tolist() == [1, 1]
    # First wind: min(6, 5) + min(0, -1) = 4; second: min(1, 2) + min(4, 5) = 5.
    assert lowest.value[FIRST] == pytest.approx(4.0)
    assert lowest.positions[:, 0, 0].tolist() == [1, 1]


def test_thing_without_an_action_does_not_feel_it():
    """A mover indoors has no wind; the fixed part still has."""
    things = [
        Responses.fixed(only(1.0), {"wind": np.array([only(6.0)])}),
        Responses(np.array([only(2.0), only(3.0)]), {}),
    ]
    service = [Combination("G + W", "", Kind.SERVICE, 1.0, {"wind": 1.0})]

    highest, lowest = envelope(things, service)

    assert highest.value[FIRST] == pytest.approx(10.0)
    assert lowest.value[FIRST] == pytest.approx(9.0)
    assert highest.positions[:, 0, 0].tolist() == [0, 1]


def test_action_without_responses_is_refused():
    """A wind that nobody worked out must not count as nothing."""
    with pytest.raises(ValueError, match="no responses to ice, wind, which a combination names"):
        envelope([Responses.fixed(only(1.0), {})], COMBOS)


def test_permanent_actions_alone():
    """Without variable actions the factors on weight are all there is."""
    highest, lowest = envelope([Responses.fixed(only(10.0), {})], combinations([], FACTORS))

    assert highest.value[FIRST] == pytest.approx(13.5)
    assert lowest.value[FIRST] == pytest.approx(9.0)
    assert highest.cases == {}


def _everything(things, combination):
    """Yield every sum that a combination allows, one case of each action, any positions."""
    actions = combination.variable_factors
    counts = [things[0].cases[action].shape[1] for action in actions]
    for cases in product(*map(range, counts)):
        for positions in product(*(range(len(thing.permanent)) for thing in things)):
            yield sum(
                combination.effect(
                    thing.permanent[p],
                    {a: thing.cases[a][p, k] for a, k in zip(actions, cases, strict=True)},
                )
                for thing, p in zip(things, positions, strict=True)
            )


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_nothing_is_worse_than_the_envelope(seed):
    """Against trying every combination, case and position; and the indices give the value back."""
    numbers = np.random.default_rng(seed)
    things = [
        Responses(
            numbers.normal(size=(p, 2, 6)),
            {"wind": numbers.normal(size=(p, 3, 2, 6)), "ice": numbers.normal(size=(p, 2, 2, 6))},
        )
        for p in (1, 3, 2)
    ]
    tried = np.array([total for c in COMBOS for total in _everything(things, c)])

    found = envelope(things, COMBOS)

    assert found.highest.value == pytest.approx(tried.max(axis=0))
    assert found.lowest.value == pytest.approx(tried.min(axis=0))
    for extreme in found:
        for place in np.ndindex(2, 6):
            combination = COMBOS[extreme.combination[place]]
            total = sum(
                combination.effect(
                    thing.permanent[p][place],
                    {
                        a: thing.cases[a][p, extreme.cases[a][place]][place]
                        for a in combination.variable_factors
                    },
                )
                for thing, p in zip(things, extreme.positions[(slice(None), *place)], strict=True)
            )
            assert total == pytest.approx(extreme.value[place])
            left_out = set(extreme.cases) - set(combination.variable_factors)
            assert all(extreme.cases[a][place] == ABSENT for a in left_out)
