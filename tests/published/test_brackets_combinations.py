"""Load combinations against the factors of EN 1990 and ASCE 7.

[SBE] Steel Buildings in Europe, Multi-storey Steel Buildings, Part 3 Actions, page 3-5:
      expressions 6.10, 6.10a, 6.10b with gamma_G 1.35 / 1.00, gamma_Q 1.50, xi 0.85, and
      1.10 / 0.90 for equilibrium; psi0 of wind 0.6 and of snow 0.5 read from its worked lines
      1.35 G + 1.5 S + 0.9 W and 1.35 G + 1.5 W + 0.75 S.
      infosteel.eu/images/Steel-Buildings-in-Europe/MSB03/14
[WEE] Worked Examples to Eurocode 2 (extract): xi 0.925 of the UK annex, 0.925 x 1.35 = 1.25.
      eurocode.us/concrete-structures-eurocode-3/design-axial-load-ground-st-floor-ned.html
[NYC] New York City Building Code, BC 1605.2 (eq. 16-1 to 16-7) and BC 1605.3.1: the combinations
      of ASCE 7. BC 1605.3.1 prints 0.75 W where ASCE 7-10 and later have 0.75 x 0.6 W.
      nacmiaslaw.com/resources/legal-codes/21362 and /21364
[A22] ASCE 7-22, 2.3.1, combinations 1a to 5a, as transcribed in two public repositories; that snow
      is at strength level, 1.2 D + 1.0 S: M. Maguire and others, Ground Snow Loads for ASCE 7-22,
      structuremag.org/?p=19724.

[SB1] Steel Buildings in Europe, Single-storey Steel Buildings, Part 3 Actions, page 3-6: the
      characteristic combination, 6.14b, in its lines G + S + 0.6 W and G + W + 0.5 S.
      infosteel.be/images/Steel-Buildings-in-Europe/SSB03/16
[WE1] Worked Examples to Eurocode 2, axial load of a column at ground floor: 1.35 x 5553.6 +
      1.5 x 0.6 x 2237.5 + 0.7 x 1.5 x 42.0 = 9555.3 kN by 6.10, 8933.4 by 6.10a, 9000.0 by 6.10b
      with 0.925 x 1.35 rounded to 1.25. eurocode.us/concrete-structures-eurocode-3/
      design-axial-load-ground-st-floor-ned.html
[WE2] The same book, combinations at ground floor with the UK annex: 1.35 (214.6 + 50.1) +
      1.5 x 502.9 + 1.5 x 0.7 x 35.7 = 1149.2 kN/m; with the imposed load leading and psi0 of wind
      0.5, 788.1 kN/m; imposed load that helps times 0.
      eurocode.us/concrete-structures-eurocode-3/combinations-of-actions-at-ground-st-floor.html

[DBS] Spanish building code, DB SE, 4.2: a permanent action has an upper and a lower characteristic
      value, 95 and 5 % fractiles of a normal distribution, where its coefficient of variation is
      above 0.05 to 0.1; quoted at scribd.com/doc/201568344. A. Arteaga, Classification of actions,
      4.2, has the same of EN 1990: 1library.net/article/
      characteristic-values-general-introduction-background-materials.y9mo5vwq

Effects: permanent 10, wind 6 (or -6 where it lifts), snow 2. The sums were worked apart from this
program from the factors, so they must agree to rounding.
"""

from statistics import NormalDist
from types import MappingProxyType

import numpy as np
import pytest

from estimator.stages.holding_loads import WIDE
from estimator.supports.arms import moved
from estimator.supports.combinations import (
    Factors,
    Kind,
    asce_combinations,
    check_pair,
    combinations,
)
from estimator.supports.extremes import ABSENT, Answers, furthest
from estimator.supports.slackening import states_of

PRESSING = MappingProxyType({"wind": 6.0, "snow": 2.0})
LIFTING = MappingProxyType({"wind": -6.0, "snow": 2.0})
RECOMMENDED = Factors(psi0={"wind": 0.6, "snow": 0.5})
UK = Factors(psi0={"wind": 0.5, "snow": 0.5}, xi=0.925)

EN_CASES = [
    ("EN 1990 6.10", RECOMMENDED, "6.10 sup: permanent only", PRESSING, 13.5),  # [SBE]
    ("EN 1990 6.10", RECOMMENDED, "6.10 sup: wind leading with snow", PRESSING, 24.0),  # [SBE]
    ("EN 1990 6.10", RECOMMENDED, "6.10 sup: snow leading with wind", PRESSING, 21.9),  # [SBE]
    ("EN 1990 6.10", RECOMMENDED, "6.10 inf: wind leading", LIFTING, 1.0),  # [SBE]
    ("EN 1990 6.10", RECOMMENDED, "EQU inf: wind leading", LIFTING, 0.0),  # [SBE]
    ("EN 1990 6.10", RECOMMENDED, "EQU sup: wind leading", PRESSING, 20.0),  # [SBE]
    ("EN 1990 6.10a/b", RECOMMENDED, "6.10a sup: wind and snow", PRESSING, 20.4),  # [SBE]
    (
        "EN 1990 6.10a/b",
        RECOMMENDED,
        "6.10b sup: wind leading with snow",
        PRESSING,
        21.975,
    ),  # [SBE]
    ("EN 1990 6.10a/b", UK, "6.10b sup: wind leading with snow", PRESSING, 22.9875),  # [WEE]
    ("EN 1990 6.10", UK, "6.10 sup: snow leading with wind", PRESSING, 21.0),  # [WE2]
    ("EN 1990 6.10", RECOMMENDED, "6.14b: wind leading with snow", PRESSING, 17.0),  # [SB1]
    ("EN 1990 6.10", RECOMMENDED, "6.14b: snow leading with wind", PRESSING, 15.6),  # [SB1]
]

ASCE_CASES = [
    ("ASCE 7-16 strength", "ASCE 7-16 strength 1.4 D", PRESSING, 14.0),
    ("ASCE 7-16 strength", "ASCE 7-16 strength 1.2 D + 1.6 snow + 0.5 wind", PRESSING, 18.2),
    ("ASCE 7-16 strength", "ASCE 7-16 strength 1.2 D + 1 wind + 0.5 snow", PRESSING, 19.0),
    ("ASCE 7-16 strength", "ASCE 7-16 strength 0.9 D + 1 wind", LIFTING, 3.0),
    ("ASCE 7-22 strength", "ASCE 7-22 strength 1.4 D", PRESSING, 14.0),
    ("ASCE 7-22 strength", "ASCE 7-22 strength 1.2 D + 1 snow + 0.5 wind", PRESSING, 17.0),
    ("ASCE 7-22 strength", "ASCE 7-22 strength 1.2 D + 1 wind + 0.3 snow", PRESSING, 18.6),
    ("ASCE 7-22 strength", "ASCE 7-22 strength 0.9 D + 1 wind", LIFTING, 3.0),
    ("ASCE 7-16 ASD", "ASCE 7-16 ASD 1 D + 0.6 wind", PRESSING, 13.6),
    ("ASCE 7-16 ASD", "ASCE 7-16 ASD 1 D + 0.45 wind + 0.75 snow", PRESSING, 14.2),
    ("ASCE 7-16 ASD", "ASCE 7-16 ASD 0.6 D + 0.6 wind", LIFTING, 2.4),
]


def effect(combination, permanent, variable):
    """Return the combined effect of characteristic effects, numbers or arrays alike."""
    factors = combination.variable_factors
    return combination.permanent_factor * permanent + sum(
        factor * variable[cause] for cause, factor in factors.items()
    )


@pytest.mark.parametrize(("rule", "factors", "name", "variable", "expected"), EN_CASES)
def test_combination_of_en_1990(rule, factors, name, variable, expected):
    """[SBE] and [WEE]: a sum of products of printed factors, so rounding only."""
    found = {c.name: c for c in combinations(["wind", "snow"], factors, rule)}

    assert effect(found[name], 10.0, variable) == pytest.approx(expected, abs=1e-9)


# The floors are reduced for their number, and in its line by 6.10a the roof with them.
COLUMN = Factors(psi0={"floors": 0.7, "roof": 0.7}, xi=0.925)
COLUMN_CASES = [
    ("EN 1990 6.10", "6.10 sup: floors leading with roof", 42.0, 9555.3, 0.15),
    ("EN 1990 6.10a/b", "6.10a sup: floors and roof", 0.6 * 42.0, 8933.4, 0.15),
    ("EN 1990 6.10a/b", "6.10b sup: floors leading with roof", 42.0, 9000.0, 7.1),
]


@pytest.mark.parametrize(("rule", "name", "roof", "expected", "tolerance"), COLUMN_CASES)
def test_column_of_the_worked_examples(rule, name, roof, expected, tolerance):
    """[WE1]: sums of three terms of one decimal; 1.25 for 1.24875 of 5553.6 is 6.94 more."""
    found = {c.name: c for c in combinations(["floors", "roof"], COLUMN, rule)}

    variable = {"floors": 0.6 * 2237.5, "roof": roof}
    assert effect(found[name], 5553.6, variable) == pytest.approx(expected, abs=tolerance)


WALL = MappingProxyType({"wind": 502.9, "floors": 35.7})
WALL_CASES = [
    ("6.10 sup: wind leading with floors", 1149.2),
    ("6.10 sup: floors leading with wind", 788.1),
]


@pytest.mark.parametrize(("name", "expected"), WALL_CASES)
def test_wall_of_the_worked_examples(name, expected):
    """[WE2]: the first decimal of each term is rounded, three terms, so 0.15."""
    factors = Factors(psi0={"wind": 0.5, "floors": 0.7})
    found = {c.name: c for c in combinations(["wind", "floors"], factors)}

    assert effect(found[name], 214.6 + 50.1, WALL) == pytest.approx(expected, abs=0.15)


@pytest.mark.parametrize(("rule", "name", "variable", "expected"), ASCE_CASES)
def test_combination_of_asce_7(rule, name, variable, expected):
    """[NYC] and [A22]: a sum of products of printed factors, so rounding only."""
    found = {c.name: c for c in asce_combinations({"wind": "W", "snow": "S"}, rule)}

    assert effect(found[name], 10.0, variable) == pytest.approx(expected, abs=1e-9)


def test_strength_level_wind_belongs_to_asce():
    """IBC 2009 1605.2.1: factors of 1.0 W came with strength-level speeds; before, 1.6 W."""
    assert check_pair("strength level", "ASCE 7-16 strength") is None
    assert check_pair("peak characteristic", "ASCE 7-16 strength") == (
        "ASCE 7-16 strength is written for a strength level wind; with a peak characteristic wind "
        "its factor on wind would leave out the partial factor"
    )


# A body of 180 kg at 1050 out, 400 below and 100 to the left of the root of its one arm; wind
# +-900 N out or +-1200 N sideways at 1050 out, 350 below, 80 to the left; 250 N of ice at the mass.
# Root actions by EN 1990 6.10 with the psi0 of [SBE] (ice taken as snow), from plane statics worked
# apart from this program, to 0.001 in axes X out, Y up, Z to the left, N and N mm:
# (N, VY, VZ, MX, MY, MZ).
ROOT_CASES = [
    (
        "6.10 sup: wind leading with ice",
        0,
        (1350.0, -2570.516, 0, 257051.595, 108000, -2226541.748),
    ),
    ("6.10 inf: wind leading", 0, (1350.0, -1765.197, 0, 176519.700, 108000, -1380956.850)),
    ("6.10 sup: ice leading with wind", 0, (810.0, -2758.016, 0, 275801.595, 64800, -2612416.748)),
    (
        "6.10 sup: wind leading with ice",
        1,
        (-1350.0, -2570.516, 0, 257051.595, -108000, -3171541.748),
    ),
    (
        "6.10 sup: ice leading with wind",
        1,
        (-810.0, -2758.016, 0, 275801.595, -64800, -3179416.748),
    ),
    ("6.10 inf: wind leading", 2, (0, -1765.197, 1800, -453480.300, -1890000, -1853456.850)),
    (
        "6.10 sup: ice leading with wind",
        2,
        (0, -2758.016, 1080, -102198.405, -1134000, -2895916.748),
    ),
    (
        "6.10 sup: wind leading with ice",
        3,
        (0, -2570.516, -1800, 887051.595, 1890000, -2699041.748),
    ),
    (
        "6.10 sup: ice leading with wind",
        3,
        (0, -2758.016, -1080, 653801.595, 1134000, -2895916.748),
    ),
    ("6.10 inf: wind leading", 1, (-1350.0, -1765.197, 0, 176519.700, -108000, -2325956.850)),
    (
        "6.10 sup: wind leading with ice",
        2,
        (0, -2570.516, 1800, -372948.405, -1890000, -2699041.748),
    ),
    ("6.10 inf: wind leading", 3, (0, -1765.197, -1800, 806519.700, 1890000, -1853456.850)),
    ("6.10 sup: permanent only", 0, (0, -2383.016, 0, 238301.595, 0, -2502166.748)),
]
XYZ_TO_OURS = np.array([[0, 0, -1], [0, 1, 0], [1, 0, 0]])  # across = -Z, up = Y, out = X


def _root_actions():
    """Return the permanent, wind (4 cases) and ice actions at the root, N and N m, our axes."""

    def action(force, at_mm):
        at_m = XYZ_TO_OURS @ np.array(at_mm) / 1e3
        return moved(np.concatenate([XYZ_TO_OURS @ np.array(force), np.zeros(3)]), at_m)

    mass, wind = (1050.0, -400.0, 100.0), (1050.0, -350.0, 80.0)
    senses = [(900.0, 0, 0), (-900.0, 0, 0), (0, 0, 1200.0), (0, 0, -1200.0)]
    return (
        action((0, -180 * 9.80665, 0), mass),
        np.array([action(force, wind) for force in senses]),
        action((0, -250.0, 0), mass),
    )


@pytest.mark.parametrize(("name", "case", "printed"), ROOT_CASES)
def test_root_actions_of_one_arm(name, case, printed):
    """The printed sums have three decimals of N and N mm, so 0.001 of each is the tolerance."""
    permanent, wind, ice = _root_actions()
    rules = combinations(["wind", "ice"], Factors(psi0={"wind": 0.6, "ice": 0.5}))
    rule = next(c for c in rules if c.name == name)

    found = effect(rule, permanent, {"wind": wind[case], "ice": ice})

    assert found[:3] == pytest.approx(XYZ_TO_OURS @ printed[:3], abs=1e-3)
    assert found[3:] * 1e3 == pytest.approx(XYZ_TO_OURS @ printed[3:], abs=1e-3)


def test_governing_combination_of_one_arm():
    """From the same table, the greatest pull and sideways moment, and where weight helps."""
    permanent, wind, ice = _root_actions()
    rules = combinations(["wind", "ice"], Factors(psi0={"wind": 0.6, "ice": 0.5}))
    strength = [c for c in rules if c.kind is Kind.STRENGTH]
    # One state, stance and bracket; the cases of wind and of ice after the stance.
    causes = {"wind": wind.reshape(1, 1, 4, 1, 6), "ice": ice.reshape(1, 1, 1, 1, 6)}
    nothing = {cause: np.zeros((*of.shape[:3], 0)) for cause, of in causes.items()}
    answers = Answers(
        permanent.reshape(1, 1, 1, 6), causes, states_of(0), np.zeros((1, 1, 0)), nothing
    )

    found = furthest(answers, strength, np.concatenate([np.eye(6), -np.eye(6)])[np.newaxis])

    governing = found.value[:, 0].argmax(axis=0)
    value = found.value[:, 0].max(axis=0)
    highest, lowest = value[:6], -value[6:]
    names = [strength[i].name for i in governing[6:]]
    assert highest[2] == pytest.approx(1350.0)
    assert lowest[1] == pytest.approx(-2758.016, abs=1e-3)
    assert names[1] == "6.10 sup: ice leading"
    # Turning about out (X): the weight works against wind from the left, so the favourable
    # weight governs one side (-453.480 N m) and the unfavourable one the other (887.052 N m).
    assert names[5] == "6.10 inf: wind leading"
    assert lowest[5] == pytest.approx(-453.480300, abs=1e-6)
    assert highest[5] == pytest.approx(887.051595, abs=1e-6)
    assert found.cases[:, governing[11], 0, 11].tolist() == [2, ABSENT]


def test_variation_above_which_a_weight_has_two_values():
    """[DBS]: a coefficient of variation of 0.10, at fractiles of 5 and 95 % of a normal one."""
    assert pytest.approx(0.10 * NormalDist().inv_cdf(0.95), rel=1e-3) == WIDE
