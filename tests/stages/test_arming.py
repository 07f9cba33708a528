"""Arms in small jobs: stress, movement, stays and trials, by hand-made actions at the wall.

[CHAIN] One bracket of 0.9 m with 180 kg, wind and ice: stress ratios in S235 and movements worked
    out apart from this program with hand formulas and PyNite 3.2.0.
[STAY] Arm of 1.2 m with a rod of 12 mm: PyNite 3.2.0 with a tension-only rod.
"""

import math
from dataclasses import replace

import numpy as np
import pytest

from estimator.stages.arm_figures import BOTH, PERMANENT, VARIABLE
from estimator.stages.arm_yields import THICKER, UNKNOWN
from estimator.stages.arming import arm, assumptions, picked
from estimator.stages.holding_demands import Demands, Source
from estimator.supports.combinations import Combination, Kind
from estimator.supports.stresses import WARPING

G_M_S2 = 9.80665
ICED = Combination("ice", "6.10", Kind.STRENGTH, 1.35, {"ice": 1.5})
EQUAL = Combination("EQU", "6.4.3.1", Kind.EQUILIBRIUM, 0.9, {"wind": 1.5})
SERVED = Combination("all", "6.14b", Kind.SERVICE, 1.0, {"wind": 1.0})
LASTING = Combination("permanent only", "6.14b", Kind.SERVICE, 1.0, {})
ARM = {"bracket": "B1", "set": "s", "across": "0 mm", "up": "0 mm", "reach": "900 mm",
       "section": "HFSHS 80x80x5", "grade": "S235", "holds": "welded"}  # fmt: skip
STAYED = {"reach": "1200 mm", "stay from": "800 mm", "stay to": "1000 mm",
          "stay section": "round 12"}  # fmt: skip
LUMP = {"part": "lump", "shape": "bought", "mass each": "180 kg", "out": "900 mm"}


def source(combination, **more):
    """Return where a hand-made action comes from."""
    return Source(combination, "by hand", "as drawn", "rigid", **more)


@pytest.fixture(scope="module")
def armed(steps):
    """Return a function that gives what one arm does under pairs of action and source."""

    def run(demands, job=None, **cells):
        found = steps(
            upto="held", parts=[LUMP], assemblies=[{"assembly": "a", "carried by": "s"}],
            brackets=[ARM | cells], job=job or {},
        )  # fmt: skip
        actions, sources = zip(*demands, strict=True) if demands else ((), ())
        some = Demands(np.array(actions, dtype=float).reshape(-1, 6), tuple(sources))
        held = [replace(found["held"][0], demands={"B1": some}, placed=None)]
        (one,) = arm(found["resolved"], found["weights"], held)
        return one

    return run


def at_root(force_n, at_m):
    """Return a force as an action about the root."""
    return np.concatenate([force_n, np.cross(at_m, force_n)])


def chain(g, ice, wind, combination):
    """Yield the actions of [CHAIN] for four winds."""
    down_n = (0, -g * 180 * G_M_S2 - ice * 250, 0)
    for blown_n in ((0, 0, 900), (0, 0, -900), (-1200, 0, 0), (1200, 0, 0)):
        action = at_root(down_n, (-0.1, -0.4, 1.05))
        yield action + wind * at_root(blown_n, (-0.08, -0.35, 1.05)), source(combination)


CHAIN = [
    *chain(1.35, 0.75, 1.5, ICED), *chain(1.0, 0.0, 1.5, ICED), *chain(1.35, 1.5, 0.9, ICED),
    *chain(1.0, 0.5, 1.0, SERVED), *chain(1.0, 1.0, 0.6, SERVED), *chain(1.0, 0.0, 0.0, LASTING),
]  # fmt: skip
TRIED = [
    ("HFSHS 50x50x4", 2.01869, 67.21, False), ("HFSHS 60x60x4", 1.33457, 122.16, False),
    ("HFSHS 60x60x5", 1.13743, 143.32, False), ("HFSHS 70x70x5", 0.79968, 238.17, True),
    ("HFSHS 80x80x5", 0.59294, 367.64, True),
]  # fmt: skip


@pytest.mark.parametrize(("name", "ratio", "over", "within"), TRIED)
def test_sections_tried_for_one_bracket(armed, name, ratio, over, within):
    """[CHAIN] 0.5 %: the table prints three figures of each section."""
    tried = armed(CHAIN, section="trial HFSHS").tried
    (trial,) = (one for one in tried.trials if one.section.key == name)

    assert trial.ratio == pytest.approx(ratio, rel=0.005)
    assert 0.9 / trial.sag_m == pytest.approx(over, rel=0.005)
    assert trial.within is within


def test_the_lightest_within_both_is_picked(armed):
    """Of the whole table it is a thinner one than of [CHAIN]; a limit of L/300 asks for more."""
    (usual, strict) = (
        armed(CHAIN, section="trial HFSHS", job=job).tried for job in ({}, {"sag limit": "L/300"})
    )
    weights = [one.arm_kg for one in usual.trials]

    assert (usual.pick, usual.fits) == ("HFSHS 80x80x3.2", True)
    assert (strict.pick, strict.fits) == ("HFSHS 80x80x4", True)
    assert weights == sorted(weights)
    assert next(one for one in usual.trials if one.within).section.key == usual.pick


def test_the_heaviest_where_none_will_do(armed):
    """It is said."""
    one = armed([(50 * action, comes) for action, comes in CHAIN], section="trial SHS")
    told = list(assumptions([one]))

    assert (one.tried.pick, one.tried.fits) == ("HFSHS 100x100x6.3", False)
    assert picked([one]) == {"B1": "HFSHS 100x100x6.3"}
    assert "none was within both" in told[-1][2]


def test_a_trial_without_any_action_stays_with_the_lightest(armed):
    """Nothing is known of any, so nothing is picked over another."""
    tried = armed([], section="trial SHS").tried

    assert (tried.pick, tried.fits) == (tried.trials[0].section.key, False)
    assert math.isnan(tried.trials[0].ratio)


def test_a_price_of_a_trial(steps):
    """60 for a bar of 6 m is 10 a metre: 9 for 0.9 m; the others have no price."""
    found = steps(
        upto="held", parts=[LUMP], brackets=[ARM | {"section": "trial HFSHS"}],
        assemblies=[{"assembly": "a", "carried by": "s"}],
        stock=[{"material": "mild steel", "form": "bar", "section": "HFSHS 60x60x4", "size": "6 m",
                "price": "60"}],
    )  # fmt: skip
    (one,) = arm(found["resolved"], found["weights"], found["held"])
    costs = {trial.section.key: trial.cost for trial in one.tried.trials}

    assert costs.pop("HFSHS 60x60x4") == pytest.approx(9.0)
    assert all(math.isnan(cost) for cost in costs.values())


def test_movements_from_permanent_and_variable_actions(armed):
    """1 kN down for good and 2 kN sideways by wind on 0.9 m: P L^3 / 3 E I each, exact."""
    still, blown = at_root((0, -1000, 0), (0, 0, 0.9)), at_root((2000, 0, 0), (0, 0, 0.9))
    one = armed([(still, source(LASTING)), (still + blown, source(SERVED))])
    moves = {move.share: move for move in one.figures.moves}
    sag_m = 1000 * 0.9**3 / (3 * 210e9 * 137e-8)

    assert moves[PERMANENT].down_m == pytest.approx(sag_m)
    assert moves[PERMANENT].sideways_m == pytest.approx(0.0, abs=1e-12)
    assert moves[VARIABLE].sideways_m == pytest.approx(2 * sag_m)
    assert moves[VARIABLE].down_m == pytest.approx(0.0, abs=1e-12)
    assert moves[BOTH].sag_m == pytest.approx(math.sqrt(5) * sag_m)
    assert moves[VARIABLE].tilt_deg[1] == pytest.approx(math.degrees(2 * sag_m * 1.5 / 0.9))


def test_a_neighbour_that_is_slack_is_no_service(armed):
    """Its stress counts, its movement does not."""
    action = at_root((0, -1000, 0), (0, 0, 0.9))
    one = armed([(action, source(ICED, state="B2 slack")), (action, source(SERVED, state="x"))])

    assert one.figures.stress.source.state == "B2 slack"
    assert one.figures.moves == ()


def test_an_arm_in_a_stronger_grade(armed):
    """The ratio goes with the yield, and stainless has a partial factor of 1.1."""
    ratios = {grade: armed(CHAIN, grade=grade).ratio
              for grade in ("S235", "S355 galvanised", "stainless 316")}  # fmt: skip

    assert ratios["S355 galvanised"] == pytest.approx(ratios["S235"] * 235 / 355)
    assert ratios["stainless 316"] == pytest.approx(ratios["S235"] * 235 / 220 * 1.1)


@pytest.mark.parametrize(("rule", "gamma_m0"), [
    ("EN 1990 6.10", 1.0), ("EN 1990 6.10a/b", 1.0), ("ASCE 7-16 strength", 1 / 0.9),
    ("ASCE 7-16 ASD", 1.67),
])  # fmt: skip
def test_the_factor_belongs_to_the_combinations(steps, rule, gamma_m0):
    """EN 1993-1-1 6.1 and AISC 360 F1, phi 0.90 and omega 1.67 (from memory)."""
    wind = {"wind rule": "ASCE 7-16"} if rule.startswith("ASCE") else {}
    found = steps(upto="arms", parts=[LUMP], brackets=[ARM], job=wind | {"combination rule": rule})

    assert found["arms"][0].held_to.gamma_m0 == pytest.approx(gamma_m0, rel=1e-4)


@pytest.mark.parametrize(("cells", "note"), [
    ({"grade": "aluminium 6082"}, UNKNOWN), ({"section": "round 50", "grade": "S235"}, THICKER),
])  # fmt: skip
def test_a_yield_that_is_not_known(armed, cells, note):
    """Stresses are there, a ratio is not."""
    one = armed(CHAIN, **cells)

    assert one.held_to.note == note
    assert math.isnan(one.ratio)
    assert one.figures.stress.von_mises_pa > 0


def test_an_open_section_that_is_twisted(armed):
    """The ratio is left open with the reason; without a twist it is there."""
    straight = armed([(at_root((0, -1000, 0), (0, 0, 0.9)), source(ICED))], section="UPN 80")
    twisted = armed(CHAIN, section="UPN 80")

    assert straight.ratio == pytest.approx(900 / 26.5e-6 / 235e6, rel=0.01)
    assert twisted.figures.stress.note == WARPING
    assert math.isnan(twisted.ratio)
    assert math.isnan(twisted.figures.stress.torsion_pa)


def test_a_stay_that_is_lifted_goes_slack(armed):
    """[STAY] The root moment is that of the bare arm; pushed down the rod pulls."""
    lift, press = (at_root((0, force_n, 0), (0, 0, 1.2)) for force_n in (2000, -3000))
    one = armed([(lift, source(EQUAL)), (press, source(ICED))], **STAYED)
    stay = one.staying

    assert (stay.slack, stay.cases, stay.push_n) == (1, 2, 0.0)
    assert stay.pull_source.combination is ICED
    assert stay.at_wall[2] == pytest.approx(stay.pull_n / math.hypot(0.8, 1.0))
    assert stay.at_wall[1] == pytest.approx(-0.8 * stay.at_wall[2])
    assert stay.ratio == pytest.approx(stay.pull_n / 113.1e-6 / 235e6, rel=1e-3)
    # On a hinged root by statics: 3000 N at 1.2 m against the stay's upright part at 1 m.
    assert stay.hinged * stay.pull_n == pytest.approx(3000 * 1.2 / (0.8 / math.hypot(0.8, 1.0)))


def test_a_strut_that_pushes(armed):
    """Its slenderness and Euler load are there to be looked at: pi^2 E I / L^2."""
    press = at_root((0, -3000, 0), (0, 0, 1.2))
    cells = STAYED | {"stay from": "-800 mm", "stay section": "CHS 33.7x3"}
    stay = armed([(press, source(ICED))], **cells).staying
    long_m = math.hypot(0.8, 1.0)

    assert stay.push_n > 0
    assert stay.pull_n == 0.0
    assert math.isnan(stay.hinged)
    assert stay.euler_n == pytest.approx(math.pi**2 * 210e9 * 3.44e-8 / long_m**2)
    assert stay.slenderness == pytest.approx(long_m / 10.9e-3, rel=0.005)


def test_an_arm_shakes_with_its_share(armed):
    """180 kg at the end of 0.9 m of HFSHS 80x80x5: 12.80 Hz worked out apart, 0.3 %."""
    shaking = armed([]).shaking

    assert shaking.share_kg == pytest.approx(180.0)
    assert shaking.up_and_down == pytest.approx(12.802573, rel=0.003)
    assert shaking.sideways == shaking.up_and_down


def test_what_is_not_known_without_actions(armed):
    """No stress, no movement, no stay; the frequency is there all the same."""
    one = armed([], **STAYED)

    assert (one.figures.stress, one.figures.moves, one.staying) == (None, (), None)
    assert math.isnan(one.ratio)
    assert one.shaking is not None
