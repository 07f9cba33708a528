"""Brackets the whole way: from rows of a workbook to what every fixing and every stay does.

[C8] A mass of 180 kg at 1050 mm out, 400 mm below and 100 mm beside a bracket, wind of 900 N out or
in and 1200 N either way along the wall at 1050 mm out, 350 mm below and 80 mm beside it, ice of
250 N on the mass; EN 1990 6.10, psi0 of wind 0.6 and of ice 0.5; a plate of 250 x 350 mm with four
fixings of 157 mm2, 170 x 270 mm apart, stiffness ratio 7. Worked out by an exact polygon Newton
method, a fibre grid, an energy minimum and a frame library with one-sided springs.
"""

import numpy as np
import pytest

from estimator.core.constants import GRAVITY_M_S2
from estimator.stages.holding import look, searched
from estimator.stages.holding_demands import AS_BUILT
from estimator.stages.holding_frames import BUILT_IN
from estimator.stages.holding_loads import Desk, about_datum, group_loads
from estimator.stages.holding_search import ENDS, demands
from estimator.stages.wall_points import parted, wall_points
from estimator.supports.arms import moved
from estimator.supports.combinations import Kind
from estimator.supports.extremes import ABSENT

DOWN = next(d for d, end in enumerate(ENDS) if end[2] == "down")
PLATE = {"plate width": "250 mm", "plate height": "350 mm", "plate thickness": "0.01 mm",
         "fixings across": 2, "fixings up": 2, "pitch across": "170 mm", "pitch up": "270 mm",
         "fixing diameter": f"{2000 * (157e-6 / np.pi) ** 0.5!r} mm"}  # fmt: skip
"""Fixings with a stressed area of 157 mm2, as of no size in the tables: plain round bars."""


def bracket(key, across_m=0.0, up_m=0.0, **cells):
    """Return a short bracket of square hollow section."""
    return {"bracket": key, "set": "s", "across": f"{across_m!r} m", "up": f"{up_m!r} m",
            "reach": "300 mm", "section": "SHS 60x60x4", "grade": "mild steel",
            "holds": "welded"} | cells  # fmt: skip


def lump(key, mass_kg, at_m, **cells):
    """Return a part that weighs what it says and stands at a place."""
    at = {axis: f"{x!r} m" for axis, x in zip(("across", "up", "out"), at_m, strict=True)}
    return {"part": key, "shape": "bought", "mass each": f"{mass_kg!r} kg"} | at | cells


def push(key, newtons, way, at_m, cause):
    """Return a load from elsewhere that acts with no other of its cause."""
    at = {axis: f"{x!r} m" for axis, x in zip(("across", "up", "out"), at_m, strict=True)}
    return {"load": key, "assembly": "a", "force": f"{newtons!r} N", "direction": way,
            "cause": cause, "together with": "none"} | at  # fmt: skip


def eight(side):
    """Return the sheets of [C8], its loads to the left of the bracket (-1) or to the right (1)."""
    blown = (0.08 * side, -0.35, 1.05)
    return {
        "parts": [lump("mass", 180.0, (0.1 * side, -0.4, 1.05))],
        # Next to nothing of an arm, so that it weighs next to nothing.
        "brackets": [bracket("B1", reach="1 mm", section="flat 1x1", **PLATE)],
        "extra_loads": [
            push("W1", 900, "out", blown, "person"), push("W2", 900, "in", blown, "person"),
            push("W3", 1200, "left", blown, "person"), push("W4", 1200, "right", blown, "person"),
            push("I1", 250, "down", (0.1 * side, -0.4, 1.05), "ice"),
        ],
        "answers": [{"about": "combination factor person", "answer": "0.6", "who": "a test",
                     "date": "2026-03-04"}],
        "weighed": [{"assembly": "brackets s", "mass": "0.001 kg"}],
        "job": {"wall stiffness ratio": 7},
    }  # fmt: skip


@pytest.fixture(scope="module")
def fixings(steps):
    """Return a function that gives the largest (pulls, shears) of [C8] by 6.10, (4,) each."""

    def of(side):
        found = steps(upto="plates", **eight(side))["plates"].plated[0].found
        some = [one for one in found.combinations if one.combination.name.startswith("6.10")]
        return (np.max([one.pull_n for one in some], axis=0),
                np.max([one.shear_n for one in some], axis=0))  # fmt: skip

    return of


def test_every_fixing_of_a_plate_from_the_rows_of_a_workbook(fixings):
    """[C8] The envelope of thirteen combinations: 3607.20 twice, 7555.57 twice, shear 2135.06 N.

    Plate and fixings of the workbook are weighed as next to nothing; +-0.02 N for what is printed.
    """
    pull_n, shear_n = fixings(-1.0)

    assert pull_n == pytest.approx([3607.20, 3607.20, 7555.57, 7555.57], abs=0.02)
    assert shear_n.max() == pytest.approx(2135.06, abs=0.02)


def test_mirrored_rows_pull_at_the_other_fixings(fixings):
    """Everything on the other side: left and right change places, in pull and in shear."""
    swapped = [1, 0, 3, 2]

    for one, other in zip(fixings(-1.0), fixings(1.0), strict=True):
        assert one == pytest.approx(other[swapped], rel=1e-9)


def test_a_bird_at_each_end_of_a_long_ledge(steps):
    """Five arms a metre apart, 100 kg at 1.7 m on either side of the middle.

    On the outer arm 0.40 of one bird by a rigid body, which is two birds on five; 0.70 by the lever
    rule; 0.622 by three moments on supports that do not give, own derivation, to which flat arms of
    50 mm and 300 mm, hardly twisting the ledge, come within 0.02 under one of 20 kN m2.
    """
    found = steps(
        upto="held",
        parts=[lump(key, 100.0, (x, 0.0, 0.3)) for key, x in (("left", -1.7), ("right", 1.7))],
        assemblies=[{"assembly": "a", "carried by": "s", "stiffness": "20 kNm2"}],
        brackets=[bracket(f"L{n}", n - 3.0, section="flat 50x10") for n in range(1, 6)],
    )  # fmt: skip
    (held,) = found["held"]
    arm_n = -1.35 * GRAVITY_M_S2 * found["weights"].parts.mass_kg[-1]

    shares = {
        ends.sharing: (ends.value[:, DOWN] - arm_n) / (-1.35 * GRAVITY_M_S2 * 100.0)
        for ends in held.ends if ends.state == AS_BUILT
    }  # fmt: skip
    assert shares["rigid"] == pytest.approx([0.4] * 5, abs=1e-3)
    assert shares["lever"] == pytest.approx([0.7, 0.3, 0.0, 0.3, 0.7], abs=1e-3)
    assert shares["beam"][[0, -1]] == pytest.approx([0.622] * 2, abs=0.02)


SQUARE = [bracket(f"D{n}", x, y) for n, (x, y) in
          enumerate([(0.6, 0.6), (-0.6, 0.6), (-0.6, -0.6), (0.6, -0.6)], start=1)]  # fmt: skip


def desk_of(found):
    """Return what the loads of a run come from."""
    return Desk(found["resolved"], found["weights"], tuple(found["groups"]), found["wind"],
                found["burdens"])  # fmt: skip


@pytest.fixture(scope="module", params=["square", "row"])
def search(request, steps):
    """Return everything looked at of four stubs, or of a row of three with a stay."""
    stay = {"stay from": "600 mm", "stay to": "280 mm", "stay section": "round 12"}
    row = [bracket("B1", -1.0), bracket("B2", 0.0, **stay), bracket("B3", 1.0)]
    found = steps(
        upto="held",
        parts=[{"part": "board", "shape": "sheet", "length": "2 m", "width": "1 m",
                "made of": "copper", "gauge": "1 mm", "out": "250 mm", "across": "200 mm"},
               lump("lump", 40.0, (0.7, 0.2, 0.35))],
        brackets=SQUARE if request.param == "square" else row,
        extra_loads=[push("E1", 500, "down", (0.9, 0.0, 0.4), "person")],
        job={"wind rule": "stated pressure", "stated pressure": "1 kPa"},
    )  # fmt: skip
    (held,) = found["held"]
    looked = look(desk_of(found), "s", held.brackets)
    return held, looked, searched(looked, "s", held.brackets, brief=False)


def test_the_demands_of_one_case_hold_its_factored_loads(search):
    """Actions of all brackets in one factored case add up to factor x load, to 1e-9.

    As built, with each bracket slack, and with each at half stiffness; by every way of sharing.
    The loads are added up here from the parts, the wind and the typed load themselves.
    """
    held, looked, everything = search
    roots = np.array([one.root_m for one in held.brackets])
    kept = demands(everything)
    seen = set()
    for n, one in enumerate(held.brackets):
        picks = {pick for d in range(everything.ways.shape[1])
                 if (pick := everything.picked((Kind.STRENGTH,), n, d)) is not None}  # fmt: skip
        for pick in picks:
            rule = list(everything.rules.values())[pick.rule]
            variant = everything.variants[pick.variant]
            state, stance, *cases = pick.at
            action = rule.permanent_factor * variant.answers.permanent[state, stance]
            whole = np.zeros(6)
            loads = list(group_loads(variant.state.desk, "s", looked.frame.axis))
            for causes, position in zip(loads, variant.stances[stance], strict=True):
                for cause in ("own weight", "not listed yet"):
                    whole += rule.permanent_factor * about_datum(causes[cause][position])[0]
            for cause, case in zip(variant.answers.cases, cases, strict=True):
                if case == ABSENT:
                    continue
                factor = rule.variable_factors[cause]
                action = action + factor * variant.answers.cases[cause][state, stance, case]
                for causes, position in zip(loads, variant.stances[stance], strict=True):
                    number = variant.kept[cause][case]
                    whole += factor * about_datum(causes[cause][position])[number]
            assert any(np.array_equal(action[n], row) for row in kept[one.key].action)
            total = moved(action, roots).sum(axis=0)
            assert total == pytest.approx(whole, abs=1e-9 * np.abs(action).max())
            seen.add((variant.state.name, variant.sharing))
    assert {sharing for _, sharing in seen} == {"rigid", "lever"}
    assert any("slack" in state for state, _ in seen)


def test_what_is_left_of_a_pair_does_not_hold_its_couple(search):
    """With one of four stubs slack the lever rule would twist the one above or below it.

    In a plain row it has an answer of its own: two arms left of three are still a row.
    """
    held, *_ = search
    ways = {ends.sharing for ends in held.ends if ends.state.endswith("slack")}

    assert ways == ({"rigid"} if held.brackets[0].key == "D1" else {"rigid", "lever"})


STAYED = bracket("B1", reach="1 m", **{"bears at": "800 mm", "stay from": "600 mm",
                                       "stay to": "1 m", "stay section": "round 12"})  # fmt: skip


def test_a_stay_pulls_at_its_own_point_while_the_arm_pushes(steps):
    """By hand: the arm's push and the stay's pull are one number, so the whole pull is nought.

    Stay and push from its slope: out / up = 1.0 / 0.6 at the wall.
    """
    found = steps(upto="plates", parts=[lump("lump", 100.0, (0.0, -0.5, 0.8))], brackets=[STAYED])
    (held,) = found["held"]
    plate, stay = wall_points(held, BUILT_IN)

    assert (plate.of_stay, stay.of_stay) == (False, True)
    assert stay.at_m == (0.0, 0.6, 0.0)
    assert stay.pull_out_n > 500.0
    assert stay.shear_n == pytest.approx(0.6 * stay.pull_out_n)
    assert plate.pull_out_n == 0.0
    weight_n = GRAVITY_M_S2 * found["weights"].parts.mass_kg.sum()
    assert plate.shear_n + stay.shear_n == pytest.approx(weight_n, rel=0.02)
    strong = max(row.value for row in held.governing if row.component == "pull-out")
    assert strong == pytest.approx(0.0, abs=1e-6)
    (plated,) = found["plates"].plated
    assert plated.stay.pull.pull_n == pytest.approx(1.35 * stay.pull_out_n)
    assert plated.own.pull.pull_n == pytest.approx(0.0, abs=1e-9)


def test_arm_and_stay_add_up_to_the_whole(steps):
    """Whatever acts, what the plate and the stay do to the wall is what the bracket does."""
    (held,) = steps(upto="held", parts=[lump("lump", 9.0, (0.4, -0.5, 0.8))],
                    brackets=[STAYED])["held"]  # fmt: skip
    action = held.demands["B1"].action

    own, by_stay = parted(held.brackets[0], action, BUILT_IN)
    assert own + by_stay == pytest.approx(action, rel=1e-12, abs=1e-9)
    assert by_stay[:, 4:] == pytest.approx(0.0, abs=1e-12)


def by_hand(x_m, section, stay_m2):
    """Return the pull of the stay of STAYED for a weight of one at a place on its arm.

    Force method, built-in root: w(a) = x^2 (3 a - x) / 6 E I for x up to a, the arm's squeeze and
    the stay's stretch beside its own w(a) = a^3 / 3 E I; E cancels out.
    """
    a_m, up_m = 1.0, 0.6
    long_m = np.hypot(a_m, up_m)
    sine, cosine = up_m / long_m, a_m / long_m
    gives = (sine**2 * a_m**3 / 3 / section.iy_m4 + cosine**2 * a_m / section.area_m2
             + long_m / stay_m2)  # fmt: skip
    return sine * x_m**2 * (3 * a_m - x_m) / 6 / section.iy_m4 / gives


def test_a_stay_by_the_places_of_the_loads(steps):
    """60 kg at 200 mm and 40 kg at 1 m out, the row bearing at 800 mm: each at its own place.

    The stay pulls more than where both bear together at 800 mm with their couple, which bends the
    arm the other way at the wall; the pull that is told is the larger.
    """
    found = steps(
        upto="arms",
        parts=[lump("near", 60.0, (0.0, -0.5, 0.2)), lump("far", 40.0, (0.0, -0.5, 1.0))],
        brackets=[STAYED],
    )  # fmt: skip
    (held,) = found["held"]
    (armed,) = found["arms"]
    (one,) = held.brackets
    parts = dict(zip((part.key for part in found["columns"].parts),
                     found["weights"].parts.mass_kg, strict=True))  # fmt: skip
    middle_m = dict(zip(parts, found["weights"].parts.centre_m[:, 2], strict=True))
    pull_n = 1.35 * GRAVITY_M_S2 * sum(
        kg * by_hand(min(max(middle_m[key], 0.0), 1.0), one.section, one.stay.section.area_m2)
        for key, kg in parts.items()
    )  # fmt: skip

    strong = held.placed.of_kind(Kind.STRENGTH)
    assert strong.pull_n.max() == pytest.approx(pull_n, rel=1e-3)  # places to 1 mm
    assert armed.staying.pull_n == pytest.approx(pull_n, rel=1e-3)
    assert armed.staying.pull_source.sharing == "placed"


def test_cuts_hold_what_lies_beyond_them(steps):
    """By hand: at the root all of the weight less the stay's lift; beyond the last load nothing."""
    (held,) = steps(upto="held", parts=[lump("lump", 50.0, (0.0, 0.0, 0.5))],
                    brackets=[STAYED])["held"]  # fmt: skip
    total = held.demands["B1"]
    placed = held.placed

    c = next(i for i, s in enumerate(placed.sources) if s.combination.kind is Kind.SERVICE)
    same = next(i for i, s in enumerate(total.sources)
                if s.combination == placed.sources[c].combination)  # fmt: skip
    lift_n = placed.pull_n[c] * 0.6 / np.hypot(1.0, 0.6)
    root = placed.action[0, c]
    assert root[1] == pytest.approx(total.action[same][1] + lift_n)
    assert root[2] == pytest.approx(-lift_n / 0.6)
    assert root[3] == pytest.approx(total.action[same][3] - lift_n * 1.0)
    assert placed.at_m[0] == 0.0
    assert np.abs(placed.action[-1, c]).max() == pytest.approx(0.0, abs=1e-9)


def test_the_summary_names_the_stay(document):
    """The pull that is told is that of the stay's wall point, with factors and without."""
    told = document(parts=[lump("lump", 100.0, (0.0, -0.5, 0.8))], brackets=[STAYED])
    marks = told["marks"]["brackets"]

    assert [mark["bracket"] for mark in marks] == ["B1", "B1 stay"]
    assert told["options_table"][0]["pulls"][0]["pull_out_n"] == marks[1]["pull_out_n"]
    assert not told["bracket_sets"][0]["free"]


def test_what_is_left_out_of_arms_is_said(document):
    """The lever rule where it has no answer; the wind on the arms, with their area in m2.

    By hand: four arms of 300 x 60 mm are 0.072 m2.
    """
    told = document(parts=[lump("lump", 40.0, (0.0, 0.0, 0.3))], brackets=SQUARE)

    assert "the lever rule is not asked" in told["bracket_sets"][0]["stiffness_note"]
    (wind,) = (one for one in told["assumptions"]
               if one["what"] == "wind on the arms and stays of brackets")  # fmt: skip
    assert "0.072 m2" in wind["why"]
