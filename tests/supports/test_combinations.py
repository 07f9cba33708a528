"""Combinations: which there are, what they are called, and what is refused.

Values against documents are in tests/published/test_brackets_combinations.py.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.supports.combinations import (
    ASCE_LETTERS,
    LIKELY,
    RULES,
    Factors,
    Kind,
    WeightRange,
    WindLevel,
    asce_combinations,
    check_pair,
    combinations,
)

PSI0 = {"wind": 0.6, "ice": 0.5, "person": 0.7}
ICY = {"wind": 0.6, "wind on ice": 0.5, "ice": 0.5, "snow": 0.5}
EUROPEAN = ["EN 1990 6.10", "EN 1990 6.10a/b"]
AMERICAN = ["ASCE 7-16 strength", "ASCE 7-22 strength", "ASCE 7-16 ASD", "ASCE 7-22 ASD"]


def effect(combination, permanent, variable):
    """Return the combined effect of characteristic effects, numbers or arrays alike."""
    factors = combination.variable_factors
    return combination.permanent_factor * permanent + sum(
        factor * variable[cause] for cause, factor in factors.items()
    )


def made(rule, actions, weight=LIKELY):
    """Return the combinations of a rule for some causes, whichever standard it is of."""
    if rule in EUROPEAN:
        return combinations(list(actions), Factors(psi0=ICY | PSI0), rule, weight)
    return asce_combinations({a: ASCE_LETTERS[a] for a in actions}, rule, weight)


def named(found):
    """Return the combinations by name, which must be unique."""
    names = {c.name: c for c in found}
    assert len(names) == len(found)
    return names


def test_one_action_alone():
    """With one variable action every expression has it in and out, nothing else."""
    found = combinations(["wind"], Factors(psi0=PSI0))

    assert [(c.name, c.permanent_factor, dict(c.variable_factors)) for c in found] == [
        ("6.10 sup: permanent only", 1.35, {}),
        ("6.10 sup: wind leading", 1.35, {"wind": 1.5}),
        ("6.10 inf: permanent only", 1.0, {}),
        ("6.10 inf: wind leading", 1.0, {"wind": 1.5}),
        ("EQU sup: permanent only", 1.1, {}),
        ("EQU sup: wind leading", 1.1, {"wind": 1.5}),
        ("EQU inf: permanent only", 0.9, {}),
        ("EQU inf: wind leading", 0.9, {"wind": 1.5}),
        ("6.14b: permanent only", 1.0, {}),
        ("6.14b: wind leading", 1.0, {"wind": 1.0}),
    ]


def test_every_choice_of_accompanying_actions():
    """A favourable action counts nothing (EN 1990 Table A1.2(B), from memory): any may be out."""
    found = named(combinations(list(PSI0), Factors(psi0=PSI0)))
    leading_wind = {n: c for n, c in found.items() if n.startswith("6.10 sup: wind")}

    assert {n: dict(c.variable_factors) for n, c in leading_wind.items()} == {
        "6.10 sup: wind leading": {"wind": 1.5},
        "6.10 sup: wind leading with ice": {"wind": 1.5, "ice": 0.75},
        "6.10 sup: wind leading with person": {"wind": 1.5, "person": pytest.approx(1.05)},
        "6.10 sup: wind leading with ice and person": {
            "wind": 1.5,
            "ice": 0.75,
            "person": pytest.approx(1.05),
        },
    }


def test_nothing_leads_in_6_10a():
    """Every variable action is reduced in 6.10a, so each choice of them comes once."""
    found = named(combinations(["wind", "ice"], Factors(psi0=PSI0), "EN 1990 6.10a/b"))

    assert [name for name in found if name.startswith("6.10a sup")] == [
        "6.10a sup: permanent only",
        "6.10a sup: wind",
        "6.10a sup: wind and ice",
        "6.10a sup: ice",
    ]
    assert found["6.10a sup: wind"].variable_factors == {"wind": pytest.approx(0.9)}


def test_kinds_are_told_apart():
    """A service combination has no partial factor; strength and equilibrium are not mixed."""
    found = combinations(["wind"], Factors(psi0=PSI0))

    assert {c.name.split(":")[0]: c.kind for c in found} == {
        "6.10 sup": Kind.STRENGTH,
        "6.10 inf": Kind.STRENGTH,
        "EQU sup": Kind.EQUILIBRIUM,
        "EQU inf": Kind.EQUILIBRIUM,
        "6.14b": Kind.SERVICE,
    }


def test_one_roof_load_at_a_time():
    """ASCE 7 writes Lr or S or R: never two of them together; live loads do add."""
    found = asce_combinations({"snow": "S", "rain": "S", "crew": "L", "tools": "L"})
    together = [set(c.variable_factors) for c in found if c.kind is Kind.STRENGTH]

    assert {"snow", "rain"} not in together
    assert not any({"snow", "rain"} <= actions for actions in together)
    assert {"snow", "crew", "tools"} in together


def test_asce_without_variable_actions():
    """Only the dead-load lines are left, each factor on it once, and the one without factors."""
    for rule in ("ASCE 7-16 strength", "ASCE 7-22 strength"):
        assert [c.permanent_factor for c in asce_combinations({}, rule)] == [1.4, 1.2, 0.9, 1.0]
    for rule in ("ASCE 7-16 ASD", "ASCE 7-22 ASD"):
        assert [c.permanent_factor for c in asce_combinations({}, rule)] == [1.0, 0.6, 1.0]


@pytest.mark.parametrize("rule", AMERICAN)
def test_asce_has_every_choice_without_factors(rule):
    """To compare ways of building by: four choices of two actions, no factor but 1."""
    found = [
        c for c in asce_combinations({"wind": "W", "person": "L"}, rule) if c.kind is Kind.SERVICE
    ]

    assert [c.name for c in found] == ["1 D", "1 D + 1 wind", "1 D + 1 person",
                                       "1 D + 1 wind + 1 person"]  # fmt: skip
    assert {f for c in found for f in (c.permanent_factor, *c.variable_factors.values())} == {1.0}


def test_every_cause_has_a_letter_in_asce():
    """Snow and ice by their own; what ASCE 7 treats elsewhere as a live load, the heavy side."""
    assert ASCE_LETTERS == {"wind": "W", "snow": "S", "person": "L", "ice": "Di",
                            "wind on ice": "Wi", "water trapped": "L",
                            "mechanism": "L"}  # fmt: skip


def test_action_without_a_combination_factor_is_refused():
    """A missing factor is not guessed."""
    with pytest.raises(ValueError, match="no combination factor psi0 for crowd"):
        combinations(["wind", "crowd"], Factors(psi0=PSI0))


def test_unknown_rules_and_letters_are_refused():
    """The message lists what there is."""
    with pytest.raises(ValueError, match=r"'6\.10' is not one of EN 1990 6\.10, EN 1990 6\.10a/b"):
        combinations(["wind"], Factors(psi0=PSI0), "6.10")
    with pytest.raises(
        ValueError, match="'LRFD' is not one of ASCE 7-16 strength, ASCE 7-22 strength, ASCE 7-16"
    ):
        asce_combinations({"wind": "W"}, "LRFD")
    with pytest.raises(ValueError, match="ASCE letters are W, L, S, Di, Wi, got E"):
        asce_combinations({"quake": "E"})


@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize("level", WindLevel)
def test_a_mismatched_pair_is_told(rule, level):
    """A wind belongs to the rules of its own standard and to no other."""
    message = check_pair(level, rule)

    assert (message is None) == (rule.startswith("ASCE") == (level is WindLevel.STRENGTH))
    assert message is None or (rule in message and level in message)


def test_strength_level_wind_in_en_1990():
    """The partial factor must not be counted twice."""
    assert check_pair("strength level", "EN 1990 6.10") == (
        "EN 1990 6.10 is written for a peak characteristic wind; with a strength level wind its "
        "partial factor would be counted a second time"
    )


def test_unknown_wind_level_is_refused():
    """A level that is not known cannot be compared."""
    with pytest.raises(ValueError, match="gusty"):
        check_pair("gusty", "ASCE 7-16 strength")


@pytest.mark.parametrize("rule", [*EUROPEAN, *AMERICAN])
def test_bare_wind_never_meets_ice(rule):
    """Wind on what is iced takes its place (EN 1993-3-1 Annex C, ASCE 7 2.3.3, from memory)."""
    together = [set(c.variable_factors) for c in made(rule, ICY)]

    assert not [actions for actions in together if "wind" in actions and actions & {
        "ice", "wind on ice"}]  # fmt: skip
    assert {"wind", "snow"} in together
    assert {"ice", "wind on ice", "snow"} in together


def test_typed_ice_without_a_wind_of_its_own_goes_with_the_bare_wind():
    """Where nothing says how much ice there is, wind on the bare shape is all there is."""
    found = named(combinations(["wind", "ice"], Factors(psi0=PSI0)))

    assert found["6.10 sup: ice leading with wind"].variable_factors == {
        "ice": 1.5, "wind": pytest.approx(0.9)}  # fmt: skip


def test_dominant_ice_and_dominant_wind():
    """One in full, the other with psi 0.5 (EN 1993-3-1 Annex C / ISO 12494, from memory)."""
    found = named(made("EN 1990 6.10", ["wind", "wind on ice", "ice"]))

    assert found["6.10 sup: ice leading with wind on ice"].variable_factors == {
        "ice": 1.5, "wind on ice": 0.75}  # fmt: skip
    assert found["6.10 sup: wind on ice leading with ice"].variable_factors == {
        "wind on ice": 1.5, "ice": 0.75}  # fmt: skip


# From memory, as in the lines of 7-10 in labsuelos/CIRSOC_402, cirsoc_402/load/asce.py (GitHub).
ICE_LINES = [
    ("ASCE 7-16 strength", 1.2, {"person": 1.6, "ice": 0.2, "snow": 0.5}),
    ("ASCE 7-16 strength", 1.2, {"ice": 1.0, "wind on ice": 1.0, "person": 1.0, "snow": 0.5}),
    ("ASCE 7-16 strength", 0.9, {"ice": 1.0, "wind on ice": 1.0}),
    ("ASCE 7-16 ASD", 1.0, {"person": 1.0, "ice": 0.7}),
    ("ASCE 7-16 ASD", 1.0, {"ice": 0.7, "wind on ice": 0.7, "snow": 1.0}),
    ("ASCE 7-16 ASD", 0.6, {"ice": 0.7, "wind on ice": 0.7}),
    ("ASCE 7-22 ASD", 1.0, {"ice": 0.7, "wind on ice": 0.7, "snow": 0.7}),
]


@pytest.mark.parametrize(("rule", "dead", "factors"), ICE_LINES)
def test_ice_in_asce(rule, dead, factors):
    """Clauses 2.3.3 and 2.4.3, and they say that they are from memory."""
    found = [
        c for c in made(rule, [*ICY, "person"])
        if c.permanent_factor == dead and c.variable_factors == factors
    ]  # fmt: skip

    assert len(found) == 1
    assert "from memory" in found[0].clause


@pytest.mark.parametrize("rule", AMERICAN)
def test_without_ice_no_line_is_from_memory_for_it(rule):
    """The same lines as before, each once, by their first clause."""
    found = made(rule, ["wind", "snow"])

    assert not [c for c in found if ".3, from memory" in c.clause]
    named(found)


def test_the_consequence_factor_is_on_what_is_unfavourable():
    """K_FI 1.1 (EN 1990 Table B3, from memory): 1.485 and 1.65; not on 1.00 and 0.90."""
    found = named(combinations(["wind"], Factors(psi0=PSI0, k_fi=1.1)))
    factors = {
        name.removesuffix(": wind leading"): (c.permanent_factor, c.variable_factors["wind"])
        for name, c in found.items() if "wind" in c.variable_factors
    }  # fmt: skip

    assert factors == {
        "6.10 sup": pytest.approx((1.485, 1.65)),
        "6.10 inf": pytest.approx((1.0, 1.65)),
        "EQU sup": pytest.approx((1.21, 1.65)),
        "EQU inf": pytest.approx((0.9, 1.65)),
        "6.14b": (1.0, 1.0),
    }


def test_a_wide_weight_goes_with_its_side():
    """The upper weight with what is unfavourable, the lower with what helps, neither in 6.14b."""
    found = combinations(["wind"], Factors(psi0=PSI0), weight=WeightRange(0.8, 1.3))

    assert {c.name: c.permanent_factor for c in found if not c.variable_factors} == {
        "6.10 sup (high weight): permanent only": pytest.approx(1.35 * 1.3),
        "6.10 inf (low weight): permanent only": pytest.approx(1.0 * 0.8),
        "EQU sup (high weight): permanent only": pytest.approx(1.1 * 1.3),
        "EQU inf (low weight): permanent only": pytest.approx(0.9 * 0.8),
        "6.14b: permanent only": 1.0,
    }


@pytest.mark.parametrize("rule", AMERICAN)
def test_a_wide_weight_in_asce(rule):
    """A factor on D below 1 is there because weight helps: the lower one goes with it."""
    found = [c for c in made(rule, ["wind"], WeightRange(0.8, 1.3)) if c.kind is Kind.STRENGTH]

    assert {c.weight_ratio for c in found if " 0.9 D" in c.name or " 0.6 D" in c.name} == {0.8}
    assert {c.weight_ratio for c in found if "(high weight)" in c.name} == {1.3}


effects = st.floats(-1e4, 1e4)
weights = st.tuples(st.floats(0.5, 1.0), st.floats(1.0, 2.0)).map(lambda w: WeightRange(*w))


@pytest.mark.parametrize("rule", [*EUROPEAN, *AMERICAN])
@given(permanent=effects, wind=effects, snow=effects, person=effects, weight=weights)
def test_a_favourable_action_never_raises_an_effect(rule, permanent, wind, snow, person, weight):
    """The most of all combinations is the same when an action that helps is not there at all."""
    every = {"wind": wind, "snow": snow, "person": person}
    harmful = {action: effect for action, effect in every.items() if effect > 0}

    def most(actions):
        return max(effect(c, permanent, actions) for c in made(rule, actions, weight))

    assert most(every) == pytest.approx(most(harmful), rel=1e-12, abs=1e-9)


@pytest.mark.parametrize("rule", [*EUROPEAN, *AMERICAN])
@given(permanent=effects, wind=effects, snow=effects)
def test_a_combination_is_linear(rule, permanent, wind, snow):
    """Reversed loads reverse the effect of each combination: no size is taken, no sum of sizes."""
    for c in made(rule, ["wind", "snow"]):
        loads = {"wind": wind, "snow": snow}
        back = {action: -effect for action, effect in loads.items()}
        assert effect(c, -permanent, back) == pytest.approx(-effect(c, permanent, loads))


@pytest.mark.parametrize("rule", EUROPEAN)
def test_an_action_beside_another_never_counts_more_than_leading(rule):
    """psi0 is at most 1, so a smaller factor stands beside, in every expression."""
    for c in made(rule, [*ICY, "person"]):
        leading = 1.0 if c.kind is Kind.SERVICE else 1.5
        assert all(factor <= leading for factor in c.variable_factors.values())
        assert sum(factor == leading for factor in c.variable_factors.values()) <= 1


@pytest.mark.parametrize("rule", [*EUROPEAN, *AMERICAN])
def test_all_permanent_actions_take_one_factor(rule):
    """One source (EN 1990 Table A1.2(B), note, from memory): a combination has one such factor."""
    for c in made(rule, ["wind"]):
        whole = effect(c, 7.0, {"wind": 0.0})
        assert whole == pytest.approx(effect(c, 3.0, {"wind": 0.0}) + effect(c, 4.0, {"wind": 0.0}))


@pytest.mark.parametrize("rule", AMERICAN)
def test_a_strength_level_wind_is_never_raised(rule):
    """It holds its load factor already: 1 at most, and 0.6 with allowable stresses."""
    strength = [c for c in made(rule, ["wind"]) if c.kind is Kind.STRENGTH]
    most = max(c.variable_factors.get("wind", 0.0) for c in strength)

    assert most == (0.6 if rule.endswith("ASD") else 1.0)
