"""Combinations: which there are, what they are called, and what is refused.

Values against documents are in tests/published/test_brackets_combinations.py.
"""

import pytest

from estimator.supports.combinations import (
    ASCE_LETTERS,
    RULES,
    Factors,
    Kind,
    WindLevel,
    asce_combinations,
    check_pair,
    combinations,
)

PSI0 = {"wind": 0.6, "ice": 0.5, "person": 0.7}


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
    assert [c.permanent_factor for c in asce_combinations({}, "ASCE ASD")] == [1.0, 0.6, 1.0]


@pytest.mark.parametrize("rule", ["ASCE 7-16 strength", "ASCE 7-22 strength", "ASCE ASD"])
def test_asce_has_every_choice_without_factors(rule):
    """To compare ways of building by: four choices of two actions, no factor but 1."""
    found = [
        c for c in asce_combinations({"wind": "W", "person": "L"}, rule) if c.kind is Kind.SERVICE
    ]

    assert [c.name for c in found] == ["1 D", "1 D + 1 wind", "1 D + 1 person",
                                       "1 D + 1 wind + 1 person"]  # fmt: skip
    assert {f for c in found for f in (c.permanent_factor, *c.variable_factors.values())} == {1.0}


def test_every_cause_has_a_letter_in_asce():
    """Snow by its own letter; what ASCE 7 treats elsewhere as a live load, on the heavy side."""
    assert ASCE_LETTERS == {"wind": "W", "snow": "S", "person": "L", "ice": "L",
                            "water trapped": "L", "mechanism": "L"}  # fmt: skip


def test_action_without_a_combination_factor_is_refused():
    """A missing factor is not guessed."""
    with pytest.raises(ValueError, match="no combination factor psi0 for crowd"):
        combinations(["wind", "crowd"], Factors(psi0=PSI0))


def test_unknown_rules_and_letters_are_refused():
    """The message lists what there is."""
    with pytest.raises(ValueError, match=r"'6\.10' is not one of EN 1990 6\.10, EN 1990 6\.10a/b"):
        combinations(["wind"], Factors(psi0=PSI0), "6.10")
    with pytest.raises(
        ValueError, match="'LRFD' is not one of ASCE 7-16 strength, ASCE 7-22 strength, ASCE ASD"
    ):
        asce_combinations({"wind": "W"}, "LRFD")
    with pytest.raises(ValueError, match="ASCE letters are W, L and S, got E"):
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
