"""What brackets pass to the wall: equilibrium of every case, and small frames by hand."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.core.constants import GRAVITY_M_S2
from estimator.stages.blowing_rules import CASES, SENSES
from estimator.stages.holding import COMPONENTS
from estimator.stages.holding_search import ENDS
from estimator.supports.arms import moved

STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}
EN_PERMANENT = 1.35  # EN 1990:2002, Table A1.2(B), gamma_G,sup
EN_VARIABLE = 1.50  # EN 1990:2002, Table A1.2(B), gamma_Q
DOWN, PULL_OUT = COMPONENTS[1][1], COMPONENTS[2][0]


def bracket(key, across_m, up_m=0.0, **cells):
    """Return a bracket of square hollow section, bearing 300 mm off the wall."""
    return {"bracket": key, "set": "s", "across": f"{across_m!r} m", "up": f"{up_m!r} m",
            "reach": "300 mm", "section": "SHS 60x60x4", "grade": "mild steel",
            "holds": "welded"} | cells  # fmt: skip


def load(key, mass_kg, at_m, **cells):
    """Return a part that weighs what it says and stands at a place."""
    at = {axis: f"{x!r} m" for axis, x in zip(("across", "up", "out"), at_m, strict=True)}
    return {"part": key, "shape": "bought", "mass each": f"{mass_kg!r} kg"} | at | cells


BOARD = {"part": "board", "shape": "sheet", "length": "2 m", "width": "1 m", "made of": "copper",
         "gauge": "1 mm", "up": "500 mm", "out": "250 mm"}  # fmt: skip


@pytest.fixture(scope="module")
def held(steps):
    """Return a function that gives everything found, up to the brackets."""

    def hold(parts, brackets, **sheets):
        found = steps(upto="held", every_case=True, parts=parts, brackets=brackets, **sheets)
        return found, found["held"][0]

    return hold


def by_case(one):
    """Return {(sharing, cause, direction, case): {bracket: action}} of a set."""
    cases = {}
    for row in one.characteristic:
        key = (row.sharing, row.cause, row.direction_deg, row.case)
        cases.setdefault(key, {})[row.bracket] = row.action
    return cases


def about_datum(one, actions):
    """Return force and moment about the datum of the actions of one case."""
    roots = {b.key: np.array(b.root_m) for b in one.brackets}
    return sum(moved(action, roots[key]) for key, action in actions.items())


def weight_of(found, set_name="s"):
    """Return weight and its moment about the datum of all parts that hang on a set."""
    columns, bodies = found["columns"], found["weights"].parts
    hung = [i for i, part in enumerate(columns.parts)
            if found["assemblies"][columns.assembly[i]].carried_by == set_name]  # fmt: skip
    force_n = np.zeros((len(hung), 3))
    force_n[:, 1] = -GRAVITY_M_S2 * bodies.mass_kg[hung]
    moment_nm = np.cross(bodies.centre_m[hung], force_n)
    return np.concatenate([force_n.sum(axis=0), moment_nm.sum(axis=0)])


def loads_of(found, cause, direction_deg, case):
    """Return what a case puts on the brackets, about the datum, from the loads themselves."""
    if cause == "own weight":
        return weight_of(found)
    if cause == "not listed yet":
        return found["weights"].not_listed * weight_of(found)
    if cause == "wind":
        sense, place = case.split(", ") if ", " in case else (case, "in the middle")
        number = CASES.index((direction_deg, sense, place))
        return sum(group.wrench[0, :, number].sum(axis=0) for group in found["wind"].groups)
    name = case.split(": ")[1]
    extra = next(x for x in found["resolved"].extra_loads if x.key == name)
    force_n, at_m = np.array(extra.force_n), np.array(extra.at_m)
    return np.concatenate([force_n, np.cross(at_m, force_n)])


def assert_balanced(found, one):
    """Check that every case is held: its actions on the wall are its loads, to 1e-9."""
    cases = by_case(one)
    assert cases
    for (_, cause, direction_deg, case), actions in cases.items():
        whole = about_datum(one, actions)
        wanted = loads_of(found, cause, direction_deg, case)
        largest = max(np.abs(wanted).max(), *(np.abs(a).max() for a in actions.values()))
        assert np.abs(whole - wanted).max() <= 1e-9 * largest, (cause, direction_deg, case)
    assert one.residual <= 1e-9


PERSON = {"load": "E1", "assembly": "a", "force": "500 N", "across": "1200 mm", "up": "-100 mm",
          "out": "400 mm", "cause": "person"}  # fmt: skip
FRAMES = {
    "one": [bracket("B1", 0.2)],
    "row": [bracket(f"B{n}", n - 1.0) for n in range(3)],
    "square": [bracket(f"B{n}", a, u) for n, (a, u) in
               enumerate([(-0.6, -0.6), (0.6, -0.6), (0.6, 0.6), (-0.6, 0.6)])],
    "pins": [bracket("B1", -1.0, holds="pin"), bracket("B2", 1.0, holds="pin"),
             bracket("B3", 0.0, 1.0, holds="pin")],
    "hooks over rests": [bracket("B1", -0.5, 1.0, holds="hook"),
                         bracket("B2", 0.5, 1.0, holds="welded"),
                         bracket("B3", 0.0, -1.0, holds="rests")],
    "column": [bracket("B1", 0.0, 0.0), bracket("B2", 0.1, 1.5), bracket("B3", 0.0, -1.5)],
}  # fmt: skip


@pytest.mark.parametrize("name", FRAMES)
def test_every_case_is_held(held, name):
    """Weight, what is not listed, wind in every direction and a person, by both sharings."""
    found, one = held(
        [BOARD, load("lump", 40.0, (0.7, 0.2, 0.35))],
        FRAMES[name],
        job=STATED | {"not listed yet": "5 %"},
        extra_loads=[PERSON, PERSON | {"load": "E2", "cause": "snow", "mass": "20 kg",
                                       "force": ""}],
    )  # fmt: skip

    assert {row.cause for row in one.characteristic} == {
        "own weight", "not listed yet", "wind", "person", "snow"
    }  # fmt: skip
    assert {row.sharing for row in one.characteristic} == {"rigid", "lever"}
    assert_balanced(found, one)


place = st.tuples(st.floats(-3, 3), st.floats(-3, 3))


@settings(max_examples=30)  # each is a whole run
@given(
    roots=st.lists(place, min_size=1, max_size=5),
    lump=st.tuples(st.floats(-4, 4), st.floats(-4, 4), st.floats(0, 1)),
    mass_kg=st.floats(1, 500),
)
def test_any_welded_set_is_in_balance(held, roots, lump, mass_kg):
    """Wherever brackets and loads are, the wall holds weight and wind, forces and moments."""
    brackets = [bracket(f"B{n}", *root) for n, root in enumerate(roots)]
    found, one = held([BOARD, load("lump", mass_kg, lump)], brackets, job=STATED)

    assert_balanced(found, one)


def actions_of(one, cause, sharing):
    """Return the actions of a cause with one case, by bracket."""
    return {row.bracket: row.action for row in one.characteristic
            if (row.cause, row.sharing) == (cause, sharing)}  # fmt: skip


def arm_kg(found, key):
    """Return the mass of a bracket's own arm, which hangs on it as well."""
    return sum(kg for kg, part in zip(found["weights"].parts.mass_kg, found["columns"].parts,
                                      strict=True) if part.key == f"{key} arm")  # fmt: skip


def test_two_pins_and_a_weight_off_the_middle(held):
    """100 kg, 0.5 m right of the middle of two pins 2 m apart: 75 kg at the right, 25 at the left.

    Each arm weighs on its own bracket. 400 mm off the wall the right one's share tips it out by
    75 g 0.4 Nm, and its arm by its own mass at 150 mm.
    """
    pins = [bracket("B1", -1.0, holds="pin"), bracket("B2", 1.0, holds="pin")]
    found, one = held([load("lump", 100.0, (0.5, 0.0, 0.4))], pins)
    lever = actions_of(one, "own weight", "lever")

    own_kg = arm_kg(found, "B2")
    assert own_kg > 0
    assert lever["B1"][1] == pytest.approx(-GRAVITY_M_S2 * (25 + own_kg))
    assert lever["B2"][1] == pytest.approx(-GRAVITY_M_S2 * (75 + own_kg))
    assert lever["B2"][3] == pytest.approx(GRAVITY_M_S2 * (75 * 0.4 + own_kg * 0.15))
    assert lever["B2"][[0, 2, 4, 5]] == pytest.approx([0, 0, 0, 0], abs=1e-9)


def test_a_mechanism_is_named_in_words(held):
    """Two pins let the body swing about their line; only the lever rule can be given."""
    pins = [bracket("B1", -1.0, holds="pin"), bracket("B2", 1.0, holds="pin")]
    _, one = held([load("lump", 100.0, (0.5, 0.0, 0.4))], pins)

    assert one.mechanism == "free to swing about the line through B1 and B2"
    assert {row.sharing for row in one.characteristic} == {"lever"}
    assert {row.sharing for row in one.governing} == {"lever"}


def test_what_is_held_has_no_mechanism(held):
    """Two welded arms hold a body, and the row runs across."""
    _, one = held([load("lump", 100.0, (0, 0, 0.4))], [bracket("B1", -1.0), bracket("B2", 1.0)])

    assert one.mechanism == ""
    assert one.long_axis == "across"


def test_a_tall_set_shares_along_its_height(held):
    """The lever rule goes along the longer way of the set."""
    _, one = held([load("lump", 100.0, (0, 0, 0.4))], [bracket("B1", 0, 0), bracket("B2", 0, 2)])

    assert one.long_axis == "up"


def as_built(one):
    """Return the factored ends of a set as built by (sharing, bracket, component)."""
    return {
        (ends.sharing, key.key, name): ends.value[n, d]
        for ends in one.ends if ends.state == "as built"
        for n, key in enumerate(one.brackets)
        for d, (_, _, name) in enumerate(ENDS)
    }  # fmt: skip


def test_rigid_against_lever(held):
    """A weight over the middle one of three: all of it by lever, a third each if rigid.

    Equal arms in a row under a load in the middle give alike, so that a rigid body puts the same
    on each; a chain of simple spans puts it all on the one beneath.
    """
    found, one = held([load("lump", 90.0, (0.0, 0.0, 0.3))], FRAMES["row"])
    rigid, lever = (actions_of(one, "own weight", s) for s in ("rigid", "lever"))
    own_kg = arm_kg(found, "B1")

    assert rigid["B1"][1] == pytest.approx(-GRAVITY_M_S2 * (30 + own_kg))
    assert lever["B0"][1] == pytest.approx(-GRAVITY_M_S2 * own_kg)
    assert lever["B1"][1] == pytest.approx(-GRAVITY_M_S2 * (90 + own_kg))
    by_name = as_built(one)
    assert by_name["lever", "B1", DOWN] == pytest.approx(
        -EN_PERMANENT * GRAVITY_M_S2 * (90 + own_kg)
    )
    assert by_name["rigid", "B0", DOWN] == pytest.approx(
        -EN_PERMANENT * GRAVITY_M_S2 * (30 + own_kg)
    )


@settings(max_examples=30)  # each is a whole run
@given(across_m=st.floats(-2.5, 2.5))
def test_the_larger_of_both_sharings_governs(held, across_m):
    """As built every component is the worse of both, by 1.35, 1.10, 1.00 or 0.90.

    With weight alone; what governs takes in slack brackets, too, and is never less.
    """
    _, one = held([load("lump", 90.0, (across_m, 0.0, 0.3))], FRAMES["row"])
    both = [actions_of(one, "own weight", s) for s in ("rigid", "lever")]
    names = [(c, end) for c, ends in enumerate(COMPONENTS) for end in enumerate(ends)]
    factors = (1.35, 1.10, 1.00, 0.90)  # EN 1990:2002, Tables A1.2(A) and A1.2(B)

    by_name, governs = as_built(one), {(g.bracket, g.component): g.value for g in one.governing}
    for key in ("B0", "B1", "B2"):
        for c, (side, component) in names:
            pick = min if side else max
            worst = pick(f * actions[key][c] for actions in both for f in factors)
            found = pick(by_name[sharing, key, component] for sharing in ("rigid", "lever"))
            assert found == pytest.approx(worst, rel=1e-9, abs=1e-9)
            assert (
                pick(governs[key, component], worst + (1e-9 if side else -1e-9))
                == (governs[key, component])
            )


def test_a_person_leans_on_it(held):
    """500 N down at 1.2 m right, 0.4 m out, on one bracket at 0.2 m: moments by hand.

    r x F with r = (1.0, -0.1, 0.4) and F = (0, -500, 0) is (200, 0, -500) Nm.
    """
    _, one = held([load("lump", 10.0, (0, 0, 0.3))], FRAMES["one"], extra_loads=[PERSON])
    rows = [row for row in one.characteristic if row.cause == "person"]

    assert {row.case for row in rows} == {"person: E1"}
    for row in rows:
        assert row.action == pytest.approx([0, -500, 0, 200, 0, -500], abs=1e-6)
    worst = next(g for g in one.governing if g.component == DOWN)
    assert worst.case == "person: E1"
    own_n = actions_of(one, "own weight", "lever")["B1"][1]
    assert worst.value == pytest.approx(EN_PERMANENT * own_n - EN_VARIABLE * 500)


def test_service_has_every_factor_one(held):
    """For comparing ways of building: weight and person as they are."""
    _, one = held([load("lump", 10.0, (0, 0, 0.3))], FRAMES["one"], extra_loads=[PERSON])

    worst = next(g for g in one.service if g.component == DOWN)
    own_n = actions_of(one, "own weight", "lever")["B1"][1]
    assert worst.value == pytest.approx(own_n - 500)


def test_loads_that_may_act_together(held):
    """Wind pulls with 3.6 kN, a person with 500 N: wind leads, the person at 0.7.

    psi_0 of a person: EN 1990, Table A1.1, categories A and B (from memory).
    """
    pull = PERSON | {"direction": "out"}
    _, one = held([BOARD], FRAMES["one"], job=STATED, extra_loads=[pull])
    worst = next(g for g in one.governing if g.component == PULL_OUT)

    assert worst.value == pytest.approx(EN_VARIABLE * (1.8 * 1000 * 2.0 + 0.7 * 500), rel=1e-6)
    assert worst.combination.name.startswith("6.10")
    assert "pulled off the wall" in worst.case
    assert "person: E1" in worst.case


def test_wind_pulls_and_presses(held):
    """1.80 x 1 kPa x 2 m2 on one bracket, both senses; every other direction beside."""
    _, one = held([BOARD], FRAMES["one"], job=STATED)
    street = {
        row.case: row.action[2]
        for row in one.characteristic
        if (row.cause, row.direction_deg, row.sharing) == ("wind", 0.0, "lever")
    }

    assert {case: street[case] for case in SENSES} == {
        SENSES[0]: pytest.approx(-3600.0),
        SENSES[1]: pytest.approx(3600.0),
    }


def test_no_wind_no_wind_rows(held):
    """Without a pressure there are no actions of wind; nothing stands in for them."""
    _, one = held([BOARD], FRAMES["one"])

    assert {row.cause for row in one.characteristic} == {"own weight"}
    assert {g.case for g in one.governing} == {"no variable action"}


def test_what_hangs_on_the_wall_is_not_on_the_brackets(held):
    """A flashing fixed straight to the wall adds nothing to the set, nor does a load on it."""
    found, one = held(
        [load("lump", 10.0, (0, 0, 0.3)), load("lead", 99.0, (0, 0, 0.1), assembly="flashing")],
        FRAMES["one"],
        assemblies=[{"assembly": "a", "carried by": "s"},
                    {"assembly": "flashing", "carried by": "wall"}],
        extra_loads=[PERSON | {"assembly": "flashing"}],
    )  # fmt: skip
    own = actions_of(one, "own weight", "lever")["B1"]

    assert own[1] == pytest.approx(-GRAVITY_M_S2 * (10 + arm_kg(found, "B1")))
    assert {row.cause for row in one.characteristic} == {"own weight"}


def test_each_set_carries_its_own(steps):
    """Two sets, a thing on each: each holds its own weight and no more."""
    found = steps(
        upto="held",
        parts=[load("lump", 10.0, (0, 0, 0.3)), load("other", 20.0, (0, 0, 0.3), assembly="b")],
        brackets=[bracket("B1", 0), bracket("T1", 5) | {"set": "t"}],
        assemblies=[{"assembly": "a", "carried by": "s"}, {"assembly": "b", "carried by": "t"}],
    )

    for one, mass_kg in zip(found["held"], (10.0, 20.0), strict=True):
        key = one.brackets[0].key
        down_n = actions_of(one, "own weight", "lever")[key][1]
        assert down_n == pytest.approx(-GRAVITY_M_S2 * (mass_kg + arm_kg(found, key)))


def test_a_mover_is_held_in_its_worst_position(held):
    """30 kg on an arm of 1 m that turns about out, on one bracket: worst when level.

    The moment about out is 1.35 x 30 g x 1 m to the left and to the right; the sentence names
    the position. Drawn at 0 degrees the arm points to the right and weighs clockwise.
    """
    found, one = held(
        [load("lump", 30.0, (1.0, 0.0, 0.3))],
        [bracket("B1", 0.0)],
        assemblies=[{"assembly": "a", "moves": "turns", "axis": "out", "from": "0 deg",
                     "to": "180 deg", "positions": 3, "carried by": "s"}],
    )  # fmt: skip
    left, right = (next(g for g in one.governing if g.component == c) for c in COMPONENTS[5])

    own_nm = EN_PERMANENT * 30 * GRAVITY_M_S2
    assert left.value == pytest.approx(own_nm)
    assert left.position == "a at 180 deg"
    assert right.value == pytest.approx(-own_nm)
    assert right.position == "a at 0 deg"
    assert len(found["groups"]) == 2


def test_a_load_moves_with_what_it_acts_on(held):
    """A person on the end of an arm that turns: 500 N at 1 m right as drawn, at 1 m left turned."""
    arm = {"assembly": "a", "moves": "turns", "axis": "out", "from": "0 deg", "to": "180 deg",
           "positions": 2, "carried by": "s"}  # fmt: skip
    at_end = PERSON | {"across": "1 m", "up": "0 m"}
    _, one = held([load("lump", 1.0, (0, 0, 0.3))], [bracket("B1", 0.0)], assemblies=[arm],
                  extra_loads=[at_end])  # fmt: skip
    left, right = (next(g for g in one.governing if g.component == c) for c in COMPONENTS[5])

    assert left.value == pytest.approx(EN_VARIABLE * 500)
    assert right.value == pytest.approx(-EN_VARIABLE * 500)


def test_the_pair_of_expressions(held):
    """6.10a and 6.10b: 1.35 G with 1.5 x 0.7 Q, or 0.85 x 1.35 G with 1.5 Q; the worse one.

    EN 1990:2002, Table A1.2(B). Own weight and a person's 500 N, 0.7 (Table A1.1, from memory).
    """
    _, one = held(
        [load("lump", 10.0, (0, 0, 0.3))], FRAMES["one"], extra_loads=[PERSON],
        job={"combination rule": "EN 1990 6.10a/b"},
    )  # fmt: skip
    worst = next(g for g in one.governing if g.component == DOWN)
    own_n = -actions_of(one, "own weight", "lever")["B1"][1]

    pair = (1.35 * own_n + 1.5 * 0.7 * 500, 0.85 * 1.35 * own_n + 1.5 * 500)
    assert worst.value == pytest.approx(-max(pair))


@pytest.mark.parametrize("rule", ["ASCE 7-16", "ASCE 7-22"])
def test_combinations_of_asce(held, rule):
    """A person is a live load: 1.2 D + 1.6 L (2.3.1); unfactored, every factor 1."""
    _, one = held(
        [load("lump", 10.0, (0, 0, 0.3))], FRAMES["one"], extra_loads=[PERSON],
        job={"wind rule": rule, "combination rule": f"{rule} strength"},
    )  # fmt: skip
    worst = next(g for g in one.governing if g.component == DOWN)
    plain = next(g for g in one.service if g.component == DOWN)
    own_n = -actions_of(one, "own weight", "lever")["B1"][1]

    assert worst.value == pytest.approx(-(1.2 * own_n + 1.6 * 500))
    assert worst.combination.name == f"{rule} strength 1.2 D + 1.6 person"
    assert plain.value == pytest.approx(-(own_n + 500))


def test_weights_are_combined_though_the_wind_does_not_fit(document):
    """A wind at the other level is refused; what hangs is still combined by the rule named."""
    found = document(
        parts=[load("lump", 10.0, (0, 0, 0.3))],
        brackets=FRAMES["one"],
        job={"combination rule": "ASCE 7-16 strength"},
    )

    assert {row["combination"] for row in found["bracket_envelope"]} >= {
        "ASCE 7-16 strength 1.4 D (ASCE 7-16 2.3.1)"
    }
    assert any("so there are no wind figures" in p["found"] for p in found["problems"])


def test_each_load_from_elsewhere_is_named_by_its_own_set(steps):
    """Two people on two sets: the second set's case is not called by the first one's load."""
    found = steps(
        upto="held",
        parts=[load("left", 10.0, (0, 0, 0.3)), load("right", 9.0, (0, 0, 0.3), assembly="b")],
        assemblies=[{"assembly": "a", "carried by": "s"}, {"assembly": "b", "carried by": "t"}],
        brackets=[bracket("S1", 0), bracket("T1", 5) | {"set": "t"}],
        extra_loads=[
            {"load": "E1", "assembly": "a", "force": "500 N", "cause": "person"},
            {"load": "E2", "assembly": "b", "force": "700 N", "cause": "person"},
        ],
    )  # fmt: skip
    cases = {
        (row.bracket, row.case)
        for held in found["held"]
        for row in held.characteristic
        if row.cause == "person"
    }

    assert cases == {("S1", "person: E1"), ("T1", "person: E2")}


def test_the_list_holds_what_is_drawn_and_the_largest(steps):
    """A hand that turns: every direction as drawn, and each extreme over all its positions."""
    job = {
        "parts": [{"part": "H", "assembly": "hand", "shape": "flat", "length": "2 m",
                   "width": "200 mm", "depth": "20 mm", "made of": "copper", "across": "800 mm"}],
        "assemblies": [{"assembly": "hand", "out": "300 mm", "moves": "turns", "axis": "out",
                        "from": "0 deg", "to": "270 deg", "positions": 4, "carried by": "s"}],
        "brackets": [bracket("B1", -1.0), bracket("B2", 1.0)],
        "job": STATED,
    }  # fmt: skip
    (some,) = steps(upto="held", **job)["held"]
    (every,) = steps(upto="held", every_case=True, **job)["held"]
    drawn = [row for row in some.characteristic if row.position == "hand at 0 deg"]

    assert len(some.characteristic) < len(every.characteristic) / 3
    assert {row.direction_deg for row in drawn if row.cause == "wind"} >= {270.0, 0.0, 90.0}
    assert {row.position for row in every.characteristic} == {
        "hand at 0 deg", "hand at 90 deg", "hand at 180 deg", "hand at 270 deg"
    }  # fmt: skip
    for cause in ("own weight", "wind"):
        for pick in (np.max, np.min):
            of_some, of_every = (
                pick([row.action for row in one.characteristic if row.cause == cause], axis=0)
                for one in (some, every)
            )
            assert of_some == pytest.approx(of_every)


def test_loads_of_one_cause_act_alone_and_all_together(held):
    """Two snow loads of 400 N at one bracket: each alone, and 800 N; 1.5 x 800 governs."""
    snow = PERSON | {"cause": "snow", "force": "400 N"}
    _, one = held(
        [load("lump", 10.0, (0, 0, 0.3))], FRAMES["one"],
        extra_loads=[snow | {"load": "S1"}, snow | {"load": "S2"}],
    )  # fmt: skip
    rows = [row for row in one.characteristic if row.cause == "snow" and row.sharing == "lever"]

    assert {(row.case, round(row.action[1])) for row in rows} == {
        ("snow: S1", -400), ("snow: S2", -400), ("snow: S1 and S2", -800)
    }  # fmt: skip
    worst = next(g for g in one.governing if g.component == DOWN)
    own_n = actions_of(one, "own weight", "lever")["B1"][1]
    assert worst.value == pytest.approx(EN_PERMANENT * own_n - EN_VARIABLE * 800)


def test_wind_on_two_clumps_goes_where_they_are(held):
    """Plates at both ends of a row of three: nothing of their wind goes to the middle bracket.

    One assembly, its box as long as the row: spread evenly over the box half of the wind would
    go to the middle.
    """
    plate = BOARD | {"length": "200 mm", "width": "1 m"}
    parts = [plate | {"part": f"P{x}", "across": f"{x} m"} for x in (-1, 1)]
    _, one = held(parts, [bracket(f"B{n}", n - 1.0) for n in range(3)], job=STATED)
    pulled = {
        row.bracket: row.action[2] for row in one.characteristic
        if (row.direction_deg, row.case, row.sharing) == (0.0, SENSES[1], "lever")
    }  # fmt: skip

    # Each plate stands evenly about the place of its bracket: 1.80 x 1 kPa x 0.2 m2 goes there.
    assert abs(pulled.get("B1", 0.0)) < 1e-6
    assert pulled["B0"] == pytest.approx(360.0)
    assert pulled["B2"] == pytest.approx(360.0)
