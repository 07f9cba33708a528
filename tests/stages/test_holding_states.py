"""States of a set of brackets: slack ones, half stiffness, stages of erection, stays, a beam."""

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.core.constants import GRAVITY_M_S2
from estimator.stages.arm_figures import moduli_of
from estimator.stages.holding import look, searched
from estimator.stages.holding_demands import FACTORED
from estimator.stages.holding_loads import Desk, about_datum, group_loads
from estimator.stages.holding_search import ENDS, demands
from estimator.supports.arms import moved
from estimator.supports.combinations import Kind
from estimator.supports.contact import WallPlate, contact
from estimator.supports.extremes import action_of
from estimator.supports.fixings import group_shear
from estimator.supports.stresses import stresses

STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}
PULL, DOWN = (
    next(d for d, end in enumerate(ENDS) if end[2] == name) for name in ("pull-out", "down")
)
BOARD = {"part": "board", "shape": "sheet", "length": "2 m", "width": "1 m", "made of": "copper",
         "gauge": "1 mm", "up": "500 mm", "out": "250 mm"}  # fmt: skip


def bracket(key, across_m, up_m=0.0, **cells):
    """Return a bracket of square hollow section, bearing 300 mm off the wall."""
    return {"bracket": key, "set": "s", "across": f"{across_m!r} m", "up": f"{up_m!r} m",
            "reach": "300 mm", "section": "SHS 60x60x4", "grade": "mild steel",
            "holds": "welded"} | cells  # fmt: skip


def lump(mass_kg, at_m=(0.0, 0.0, 0.3), **cells):
    """Return a part that weighs what it says and stands at a place."""
    at = {axis: f"{x!r} m" for axis, x in zip(("across", "up", "out"), at_m, strict=True)}
    return {"part": "lump", "shape": "bought", "mass each": f"{mass_kg!r} kg"} | at | cells


ROW = [bracket(f"B{n}", n - 1.0) for n in range(3)]


@pytest.fixture(scope="module")
def found(steps):
    """Return a function that gives everything found, up to the brackets."""
    return lambda **sheets: steps(upto="held", **sheets)


def desk_of(one):
    """Return what the loads of a run come from."""
    return Desk(one["resolved"], one["weights"], tuple(one["groups"]), one["wind"],
                one["burdens"])  # fmt: skip


def ends(one, state, sharing):
    """Return the factored ends (n, 12) in a state by a way of sharing."""
    return next(e.value for e in one.ends if (e.state, e.sharing) == (state, sharing))


def test_a_slack_bracket_carries_nothing(found):
    """Each of three slack: nothing is known of it, and with two left the load is between two.

    90 kg over the middle of the row of three, B1 slack: by both ways half of it each, plus half
    of the arms' own weight.
    """
    (one,) = found(parts=[lump(90.0)], brackets=ROW)["held"]
    states = {e.state for e in one.ends}

    assert states == {
        "as built",
        *(f"B{n} {s}" for n in range(3) for s in ("slack", "at half stiffness")),
    }
    arms_n = -sum(ends(one, "as built", "rigid")[:, DOWN]) - 1.35 * 90 * GRAVITY_M_S2
    for sharing in ("rigid", "lever"):
        value = ends(one, "B1 slack", sharing)
        assert np.isnan(value[1]).all()
        half_n = (1.35 * 90 * GRAVITY_M_S2 + arms_n) / 2
        assert value[[0, 2], DOWN] == pytest.approx([-half_n, -half_n])


def test_a_bracket_at_half_stiffness_carries_less(found):
    """The middle one of three equal arms under a load in the middle: 1/5 in the place of 1/3."""
    (one,) = found(parts=[lump(90.0)], brackets=ROW)["held"]
    whole_n = -ends(one, "as built", "rigid")[:, DOWN].sum()

    value = ends(one, "B1 at half stiffness", "rigid")
    assert -value[:, DOWN] == pytest.approx(np.array([2, 1, 2]) / 5 * whole_n)


def test_without_one_pin_the_rest_do_not_hold(found):
    """Three pins hold a body; with one slack it turns about the line through the others."""
    pins = [bracket("B0", -1.0, holds="pin"), bracket("B1", 1.0, holds="pin"),
            bracket("B2", 0.0, 1.0, holds="pin")]  # fmt: skip
    (one,) = found(parts=[lump(90.0)], brackets=pins)["held"]

    assert one.mechanism == ""
    assert set(one.free) == {"B0 slack", "B1 slack", "B2 slack"}
    assert "about the line through B0 and B1" in one.free["B2 slack"]
    assert not [e for e in one.ends if e.state == "B2 slack"]


def test_a_bracket_alone_has_nothing_to_share(found):
    """With the only bracket slack everything falls, which goes without saying; half is all."""
    (one,) = found(parts=[lump(9.0)], brackets=ROW[:1])["held"]

    assert not one.free
    assert {e.state for e in one.ends} == {"as built"}


def test_stages_hold_only_what_is_up(found):
    """Ten kilograms first on two brackets, a hundred more with the third: numbers set the order."""
    rows = [dict(row, stage=stage) for row, stage in zip(ROW, ("1 ledge", "1 ledge", "10 bird"),
                                                         strict=True)]  # fmt: skip
    run = found(
        parts=[lump(10.0, (-0.5, 0, 0.3)), lump(100.0, part="late", assembly="b")],
        assemblies=[{"assembly": "a", "carried by": "s", "stage": "1 ledge"},
                    {"assembly": "b", "carried by": "s", "stage": "10 bird"}],
        brackets=rows,
    )  # fmt: skip
    (one,) = run["held"]
    arm_kg = run["weights"].parts.mass_kg[-1]

    value = ends(one, "stage 1 ledge", "rigid")
    assert np.isnan(value[2]).all()
    assert -value[:2, DOWN].sum() == pytest.approx(1.35 * GRAVITY_M_S2 * (10 + 2 * arm_kg))
    assert not any(e.state == "stage 10 bird" for e in one.ends)


def test_a_stiff_fourth_bracket_takes_the_load(found):
    """Arms of 60x60 beside one of 250x250 right under the load: that one carries nearly all."""
    big = bracket("B3", 0.0, section="SHS 250x250x10", reach="100 mm")
    (one,) = found(parts=[lump(90.0, (0, 0, 0.1))], brackets=[*ROW, big])["held"]

    value = -ends(one, "as built", "rigid")[:, DOWN]
    assert value[3] > 0.97 * value.sum()


@settings(max_examples=10)  # each is a whole run
@given(times=st.floats(0.1, 20.0))
def test_twice_the_load_is_twice_the_force(found, times):
    """What hangs and every force times a number: the ends of that set less its arms, too."""

    def governing(factor):
        push = {"load": "E1", "assembly": "a", "force": f"{500 * factor!r} N", "cause": "person",
                "across": "700 mm", "up": "0 m", "out": "400 mm"}  # fmt: skip
        (one,) = found(parts=[lump(90.0 * factor)], brackets=ROW, extra_loads=[push])["held"]
        return ends(one, "as built", "rigid")[1]

    bare = governing(1e-9)
    assert governing(times) - bare == pytest.approx(
        times * (governing(1.0) - bare), rel=1e-6, abs=1e-4
    )


def test_mirrored_it_is_the_other_way_round(found):
    """The load on the other side: first and last bracket change places, right is left."""
    values = []
    for across_m in (0.7, -0.7):
        (one,) = found(parts=[lump(90.0, (across_m, 0, 0.3))], brackets=ROW)["held"]
        values.append(ends(one, "as built", "lever"))
    names = [end[2] for end in ENDS]
    swapped = values[1][::-1]
    for name in ("down", "pull-out", "moment about across, + pulls the top"):
        assert values[0][:, names.index(name)] == pytest.approx(swapped[:, names.index(name)])
    right, left = names.index("shear to the right"), names.index("shear to the left")
    assert values[0][:, right] == pytest.approx(-swapped[:, left])


STAY = {"stay up": "600 mm", "stay out": "280 mm", "stay section": "CHS 21.3x2.3"}


def test_a_long_body_bends_over_its_brackets(found):
    """A body of given EI on three arms: between the rigid body's and the lever rule's share."""
    near_end = lump(90.0, (0.9, 0, 0.3))
    shares = {}
    for ei in ("0.02 kNm2", "1e7 kNm2"):
        (one,) = found(parts=[near_end], brackets=ROW,
                       assemblies=[{"assembly": "a", "carried by": "s", "stiffness": ei}],
        )["held"]  # fmt: skip
        shares[ei] = {s: -ends(one, "as built", s)[2, DOWN] for s in ("rigid", "beam", "lever")}

    soft, stiff = shares.values()
    assert stiff["beam"] == pytest.approx(stiff["rigid"], rel=1e-3)
    assert soft["rigid"] < soft["beam"] <= soft["lever"] * 1.1


def every_action(one, rules):
    """Yield (rule, actions (m, n, 6)) of every case of every variant, one after the other."""
    for variant in one.variants:
        for rule in rules(variant):
            names = list(variant.answers.cases)
            ranges = [range(variant.answers.cases[a].shape[2]) if a in rule.variable_factors
                      else (-1,) for a in names]  # fmt: skip
            yield variant, rule, np.array([
                action_of(variant.answers, rule, (0, stance, *cases))
                for stance in range(len(variant.stances))
                for cases in itertools.product(*ranges)
            ])  # fmt: skip


@pytest.fixture(scope="module")
def brute(found):
    """Return the demands of a set with a mover, wind and a person, and every action of it."""
    run = found(
        parts=[BOARD, lump(40.0, (0.6, 0.2, 0.4), assembly="hand")],
        assemblies=[{"assembly": "a", "carried by": "s"},
                    {"assembly": "hand", "moves": "turns", "axis": "out", "from": "0 deg",
                     "to": "270 deg", "positions": 4, "carried by": "s"}],
        brackets=[bracket("B0", -0.7), bracket("B1", 0.8, 0.3, reach="400 mm")],
        extra_loads=[{"load": "E1", "assembly": "a", "force": "600 N", "cause": "person",
                      "across": "900 mm", "up": "0 m", "out": "500 mm"}],
        job=STATED,
    )  # fmt: skip
    desk, (held,) = desk_of(run), run["held"]
    looked = look(desk, "s", held.brackets)
    search = searched(looked, "s", held.brackets, brief=False)
    rules = [rule for rule in search.rules.values() if rule.kind in FACTORED]
    every = list(every_action(looked, lambda _: rules))
    return run, held, looked, demands(search), every


def test_every_factored_case_is_in_equilibrium(brute):
    """As built, factors on loads and on answers come to the same about the datum, to 1e-9."""
    run, held, looked, _, every = brute
    desk = desk_of(run)
    loads = list(group_loads(desk, "s", looked.frame.axis))
    roots = np.array([b.root_m for b in held.brackets])
    for variant, rule, actions in every:
        if variant.state.name != "as built":
            continue
        names = list(variant.answers.cases)
        ranges = [variant.kept[a] if a in rule.variable_factors else (None,) for a in names]
        cases = itertools.product(range(len(variant.stances)), itertools.product(*ranges))
        for action, (stance, chosen) in zip(actions, cases, strict=True):
            whole = np.zeros(6)
            for causes, position in zip(loads, variant.stances[stance], strict=True):
                for cause in ("own weight", "not listed yet"):
                    whole += rule.permanent_factor * about_datum(causes[cause][position])[0]
                for cause, case in zip(names, chosen, strict=True):
                    if case is not None and cause in causes:
                        factor = rule.variable_factors[cause]
                        whole += factor * about_datum(causes[cause][position])[case]
            found = moved(action, roots).sum(axis=0)
            assert found == pytest.approx(whole, rel=1e-9, abs=1e-9 * np.abs(action).max())


def test_the_worst_stress_is_among_the_demands(brute):
    """Every factored action worked out: no arm has a larger stress than by what was kept."""
    _, held, _, kept, every = brute
    for n, one in enumerate(held.brackets):
        moduli = moduli_of(one.section)
        worst = max(
            stresses(actions[:, n], moduli).von_mises_pa.max()
            for variant, rule, actions in every if rule.kind is Kind.STRENGTH
        )  # fmt: skip
        demand = kept[one.key]
        rows = [i for i, s in enumerate(demand.sources) if s.combination.kind is Kind.STRENGTH]
        found = stresses(demand.action[rows], moduli).von_mises_pa.max()
        assert found == pytest.approx(worst, rel=1e-12)


@pytest.mark.parametrize("ratio", [7.0, 60.0])
def test_the_worst_pull_on_a_fixing_is_among_the_demands(brute, ratio):
    """Every factored action on a plate worked out: the largest pull of each fixing was kept."""
    _, held, _, kept, every = brute
    x, y = 0.085, 0.135
    points_m = np.array([(-x, -y), (x, -y), (-x, y), (x, y)])
    plate = WallPlate(0.25, 0.35, points_m, 157e-6)
    for n, one in enumerate(held.brackets):
        actions = np.concatenate([actions[:, n] for _, _, actions in every])
        worst = contact(plate, actions, ratio).pull_n.max(axis=0)
        demand = kept[one.key]
        rows = [i for i, s in enumerate(demand.sources) if s.combination.kind in FACTORED]
        found = contact(plate, demand.action[rows], ratio).pull_n.max(axis=0)
        assert found == pytest.approx(worst, rel=1e-9)
        assert len(demand.sources) < 600
        assert len(actions) > 20 * len(rows)


def test_the_worst_shear_in_each_combination_is_among_the_demands(brute):
    """Every factored action on a plate worked out: the largest shear of each fixing was kept."""
    _, held, _, kept, every = brute
    x, y = 0.085, 0.135
    points_m = np.array([(-x, -y), (x, -y), (-x, y), (x, y)])

    def most(actions):
        return np.linalg.norm(group_shear(points_m, actions), axis=-1).max(axis=0)

    for n, one in enumerate(held.brackets):
        demand, worst = kept[one.key], {}
        for _, rule, actions in every:
            worst[rule.name] = np.maximum(worst.get(rule.name, 0.0), most(actions[:, n]))
        for name, shear_n in worst.items():
            rows = [i for i, s in enumerate(demand.sources) if s.combination.name == name]
            assert most(demand.action[rows]) == pytest.approx(shear_n, rel=1e-9)


def test_a_stay_that_only_pulls_is_slack_under_uplift(found):
    """Three arms, the middle one on a rod from above: down it takes most, up a third like the rest.

    The load is in the middle, so that three equal arms carry alike.
    """
    stay = {"stay from": "600 mm", "stay to": "280 mm", "stay section": "round 12"}
    trio = [ROW[0], bracket("B1", 0.0, **stay), ROW[2]]
    shares = {}
    for way, name in (("down", "down"), ("up", "uplift")):
        push = {"load": "E1", "assembly": "a", "force": "90 kN", "direction": way,
                "cause": "person", "across": "0 m", "up": "0 m", "out": "300 mm"}  # fmt: skip
        (one,) = found(parts=[lump(1e-6)], brackets=trio, extra_loads=[push])["held"]
        d = next(d for d, end in enumerate(ENDS) if end[2] == name)
        value = ends(one, "as built", "rigid")[:, d]
        shares[way] = value[1] / value.sum()

    assert shares["down"] > 0.6
    assert shares["up"] == pytest.approx(1 / 3, abs=1e-3)  # but for the arms' own weight


def test_what_rests_lifts_off(found):
    """A body that rests on one bracket and is pushed up beyond its own weight there: none held.

    The other bracket holds it whole, so it is that one alone which is pulled up.
    """
    pair = [bracket("B0", -1.0), bracket("B1", 1.0, holds="rests")]
    push = {"load": "E1", "assembly": "a", "force": "2 kN", "direction": "up", "cause": "person",
            "across": "1 m", "up": "0 m", "out": "300 mm"}  # fmt: skip
    (one,) = found(parts=[lump(10.0)], brackets=pair, extra_loads=[push])["held"]
    up = next(d for d, end in enumerate(ENDS) if end[2] == "uplift")

    value = ends(one, "as built", "rigid")
    assert value[1, up] == pytest.approx(0.0, abs=1e-6)
    assert value[0, up] > 1.4 * 2000 * 0.9


def test_many_movers_are_looked_at_one_at_a_time(found):
    """Three hands of twelve positions make 1728 stances; each is still found in its worst.

    With weights alone each does its worst whatever the others do, so the moment about out is the
    sum of all three, level: 1.35 x 30 g x 1 m.
    """
    hands = {f"h{n}": 10.0 for n in range(3)}
    (one,) = found(
        parts=[lump(kg, (1.0, 0, 0.3), part=key, assembly=key) for key, kg in hands.items()],
        assemblies=[{"assembly": key, "moves": "turns", "axis": "out", "from": "0 deg",
                     "to": "330 deg", "positions": 12, "carried by": "s"} for key in hands],
        brackets=ROW[1:2],
    )["held"]  # fmt: skip
    names = [end[2] for end in ENDS]

    assert one.thinned
    value = ends(one, "as built", "rigid")[0, names.index("moment about out, +")]
    assert value == pytest.approx(1.35 * 30 * GRAVITY_M_S2)


def test_a_wall_that_gives_evens_out_unequal_arms(found):
    """A short stiff arm between two long ones: on a wall that tilts easily it takes less."""
    trio = [ROW[0], bracket("B1", 0.0, reach="100 mm"), ROW[2]]
    shares = []
    for job in ({}, {"wall stiffness turn": "20 kNm/rad", "wall stiffness pull": "5 kN/mm"}):
        (one,) = found(parts=[lump(90.0, (0, 0, 0.2))], brackets=trio, job=job)["held"]
        value = ends(one, "as built", "rigid")[:, DOWN]
        shares.append(value[1] / value.sum())

    hard, soft = shares
    assert 1 / 3 < soft < hard
