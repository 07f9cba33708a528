"""Plating: what plates and fixings carry, from factored actions made by hand.

The plate, its fixings and the actions marked [C8] are those of a bracket worked out by hand and by
a fibre grid: thirteen combinations, four fixings.
"""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from estimator.core.problems import Cell
from estimator.core.sourced import Origin, Sourced
from estimator.reference.sections import find_section
from estimator.resolve.records import Bracket, Facts, Fixings, Plate, Stay
from estimator.stages.holding_demands import Demands, Source
from estimator.stages.plating import plate
from estimator.stages.recording_plates import SOFTER, assumptions, plates_record
from estimator.supports.combinations import Combination, Kind
from estimator.supports.contact import RATIOS

SUP, INF = (Combination(name, "clause", Kind.STRENGTH, factor, {"wind": 1.5})
            for name, factor in (("sup", 1.35), ("inf", 1.0)))  # fmt: skip
SERVICE = Combination("6.14b", "clause", Kind.SERVICE, 1.0, {"wind": 1.0})

# combination, case, force and moment (across, up, out), shears of the four fixings; N and Nm
C8 = [
    (SUP, "right", (-1800, -2570.516, 0, 2699.041748, -1890, -372.948405),
     (1342.54, 1000.97, 955.07, 334.21)),
    (INF, "right", (-1800, -1765.197, 0, 1853.456850, -1890, -453.480300),
     (1333.30, 1053.24, 833.80, 163.83)),
    (SUP, "left", (1800, -2570.516, 0, 2699.041748, 1890, 887.051595),
     (1629.30, 2135.06, 732.93, 1562.39)),
    (INF, "left", (1800, -1765.197, 0, 1853.456850, 1890, 806.519700),
     (1537.18, 1884.58, 661.61, 1275.32)),
]  # fmt: skip


@pytest.fixture(scope="module")
def bracket(library):
    """Return the bracket of [C8], its fixings numbered as here: from the bottom, left to right."""
    return Bracket(
        key="B1", set_name="all", root_m=(0, 0, 0), reach_m=1.05, bears_m=1.05,
        section=find_section(library, "SHS 70x70x5"), modulus_pa=(210e9, 81e9), holds="welded",
        cell=Cell("brackets"), plate=Plate(0.25, 0.35, 0.012),
        fixings=Fixings(2, 2, 0.17, 0.27, 0.016),
    )  # fmt: skip


def demands(rows):
    """Return actions with where each comes from."""
    sources = tuple(
        Source(combination, case, "as drawn", "rigid") for combination, case, *_ in rows
    )
    return Demands(np.array([row[2] for row in rows], dtype=float), sources)


def plated(library, bracket, rows, **facts):
    """Return what the plate of one bracket does under some actions."""
    given = {key: Sourced(value, Origin.TYPED, "a test") for key, value in facts.items()}
    resolved = SimpleNamespace(library=library, facts=Facts(given), brackets=(bracket,))
    held = SimpleNamespace(demands={bracket.key: demands(rows)} if rows else {}, placed=None)
    return plate(resolved, [held])


def test_each_fixing_has_its_own_governing_case(library, bracket):
    """[C8] The low fixings pull most with favourable weight, the high with unfavourable.

    M16 of the tables has 156.7 mm2, not 157: pulls within 0.1 %.
    """
    found = plated(library, bracket, C8, wall_stiffness_ratio=7.0).plated[0].found

    low_left, low_right, high_left, high_right = found.fixings
    assert [f.pull.pull_n for f in found.fixings] == pytest.approx(
        [3607.20, 3607.20, 7555.57, 7555.57], rel=1e-3
    )
    assert [f.pull.source.combination.name for f in found.fixings] == ["inf", "inf", "sup", "sup"]
    assert [f.pull.source.case for f in found.fixings] == ["left", "right", "left", "right"]
    assert max(f.shear.shear_n for f in found.fixings) == pytest.approx(2135.06, abs=0.01)
    assert low_left.shear.shear_n == pytest.approx(2135.06, abs=0.01)
    assert low_right.pull.shear_n == pytest.approx(1333.30, abs=0.01)
    assert high_left.at_m == pytest.approx([-0.085, 0.135])
    assert high_right.number == 4


def test_shear_of_every_fixing_in_every_case(library, bracket):
    """[C8] The elastic group with torsion; its fixings 1 to 4 are ours 2, 1, 4, 3."""
    for row in C8:
        found = plated(library, bracket, [row]).plated[0].found
        shear_n = [fixing.shear.shear_n for fixing in found.fixings]
        assert [shear_n[i] for i in (1, 0, 3, 2)] == pytest.approx(row[3], abs=0.01)


def test_the_envelope_over_walls(library, bracket):
    """Four walls unless somebody gave the ratio; the softest pulls most and is pressed least."""
    plates = plated(library, bracket, C8)
    found = plates.plated[0].found

    assert plates.ratios == RATIOS
    assert not plates.told
    pulls_n, peaks_pa = ([getattr(w, k) for w in found.walls] for k in ("pull_n", "peak_pa"))
    assert pulls_n == sorted(pulls_n)
    assert peaks_pa == sorted(peaks_pa, reverse=True)
    assert found.fixings[2].pull.ratio == 60
    assert found.governing.ratio == 60
    assert found.cases == len(C8)
    assert found.residual < 1e-12


def test_a_ratio_that_somebody_gave_narrows_it(library, bracket):
    """One wall is worked out, and nothing is assumed of it."""
    plates = plated(library, bracket, C8, wall_stiffness_ratio=15.0)

    assert (plates.ratios, plates.told) == ((15.0,), True)
    assert [what for what, _, _ in assumptions(plates)] == ["wall plates", "holes of the fixings"]
    assert list(assumptions(plated(library, bracket, C8)))[-1] == (
        "wall stiffness ratio", "7, 15, 30, 60 in turn, the worst of each told", SOFTER,
    )  # fmt: skip


def test_what_each_combination_comes_to(library, bracket):
    """The largest of the cases of one combination, pull and shear apart; all at most the worst."""
    found = plated(library, bracket, C8).plated[0].found

    assert [one.combination.name for one in found.combinations] == ["sup", "inf"]
    for k, fixing in enumerate(found.fixings):
        pulls_n = [one.pull_n[k] for one in found.combinations]
        shears_n = [one.shear_n[k] for one in found.combinations]
        assert max(pulls_n) == fixing.pull.pull_n
        assert max(shears_n) == fixing.shear.shear_n


def test_rules_of_thumb_stand_beside(library, bracket):
    """Bent one way, the edge-tilt figure is below contact on any wall, that of the bolts above."""
    found = plated(library, bracket, [(SUP, "", (0, 0, 0, 2500, 0, 0))]).plated[0].found

    assert found.rules.edge_n < min(wall.pull_n for wall in found.walls)
    assert found.rules.centroid_n > found.walls[0].pull_n
    assert found.rules.centroid_n == pytest.approx(2500 * 0.135 / (4 * 0.135**2))


def test_governing_case_is_whole(library, bracket):
    """What is drawn balances: pulls less pressure are the pull-out, shears the forces along."""
    governing = plated(library, bracket, C8).plated[0].found.governing

    assert governing.pull_n.sum() - governing.pressed_n == pytest.approx(
        governing.action[2], abs=1e-8
    )
    assert governing.shear_n.sum(axis=0) == pytest.approx(governing.action[:2])
    assert 3 <= len(governing.outline_m) <= 5


def test_service_cases_count_for_proof_tests_only(library, bracket):
    """A larger action with every factor 1 governs nothing, and is what tests are set by."""
    service = (SERVICE, "storm", (0, 0, 9000, 9000, 0, 0))

    plates = plated(library, bracket, [*C8, service])

    found = plates.plated[0].found
    assert {f.pull.source.combination.kind for f in found.fixings} == {Kind.STRENGTH}
    largest_n = max(f.service.pull_n for f in found.fixings)
    assert largest_n > max(f.pull.pull_n for f in found.fixings)
    assert [(t["tests"], t["load_n"]) for t in plates_record(plates)["proof_tests"]] == [
        (3, pytest.approx(1.5 * largest_n)), (3, pytest.approx(1.25 * largest_n)),
    ]  # fmt: skip
    assert plates_record(plated(library, bracket, C8))["proof_tests"] == []


MISSING = [
    ({"plate": None}, "plate width, height and thickness"),
    ({"fixings": None}, "fixings across and fixings up"),
    ({"fixings": Fixings(2, 1, np.nan, np.nan, np.nan)}, "pitch across, fixing diameter"),
    ({"fixings": Fixings(1, 3, np.nan, np.nan, 0.012)}, "pitch up"),
]


@pytest.mark.parametrize(("change", "blank"), MISSING)
def test_what_is_missing_is_said(library, bracket, change, blank):
    """A plate without its pattern says what is blank, and carries no figures."""
    one = plated(library, replace(bracket, **change), C8).plated[0]

    assert one.missing == f"not worked out: {blank} blank on the brackets sheet"
    assert one.found is None


def test_no_actions_and_no_room(library, bracket):
    """Nothing known of the load, and fixings outside the plate, are said in words."""
    wide = replace(bracket, fixings=Fixings(2, 2, 0.3, 0.27, 0.016))

    assert plated(library, bracket, []).plated[0].missing == (
        "not worked out: nothing is known of what this bracket passes to the wall"
    )
    assert plated(library, wide, C8).plated[0].missing == (
        "not worked out: a fixing lies beyond the edge of a 0.25 x 0.35 m plate"
    )
    assert not list(assumptions(plated(library, wide, C8)))


def test_single_fixing_leaves_the_turn_unheld(library, bracket):
    """One fixing takes the shear, and the turn it cannot hold is told."""
    single = replace(bracket, fixings=Fixings(1, 1, np.nan, np.nan, 0.016))

    found = plated(library, single, C8[:1]).plated[0].found

    assert found.turn_nm == pytest.approx(372.948405)
    assert found.fixings[0].shear.shear_n == pytest.approx(np.hypot(1800, 2570.516))


def test_area_of_a_fixing(library, bracket):
    """A thread of the tables by its stress area, any other size as a round bar."""
    odd = replace(bracket, fixings=Fixings(2, 2, 0.17, 0.27, 0.017))

    threaded, plain = (plated(library, one, C8).plated[0] for one in (bracket, odd))

    assert threaded.area_m2 == pytest.approx(156.7e-6)
    assert threaded.area_from.startswith("M16, ISO 898-1")
    assert plain.area_m2 == pytest.approx(np.pi / 4 * 0.017**2)
    assert plain.area_from == "a plain round bar"


def test_a_stay_takes_its_share_to_its_own_point(library, bracket):
    """What the plate and the stay pass on adds up to what the bracket passes on."""
    stay = Stay(0.8, 1.05, find_section(library, "SHS 50x50x4"), pulls_only=False)
    stayed = replace(bracket, stay=stay)
    down = (SUP, "weight", (0, -2000, 0, 2100, 0, 0))

    one = plated(library, stayed, [down]).plated[0]

    own, out_n, along_n = one.found.governing.action, one.stay.pull.pull_n, one.stay.pull.shear_n
    # The stay pulls its wall point out and down in the ratio of its run to its rise.
    assert out_n / along_n == pytest.approx(1.05 / 0.8)
    assert own[2] == pytest.approx(-out_n)
    assert own[1] == pytest.approx(-2000 + along_n)
    assert own[3] == pytest.approx(2100 - 0.8 * out_n)
    assert own[3] < 0.2 * 2100
    assert np.isnan(one.stay.pull.ratio)


def test_a_slack_stay_takes_nothing(library, bracket):
    """Pushed up, a rod carries no load and the plate all of it; only a service case, nothing."""
    rod = Stay(0.8, 1.05, find_section(library, "SHS 50x50x4"), pulls_only=True)
    stayed = replace(bracket, stay=rod)

    slack = plated(library, stayed, [(SUP, "uplift", (0, 900, 0, -945, 0, 0))]).plated[0]
    service = plated(library, stayed, [(SERVICE, "uplift", (0, 900, 0, -945, 0, 0))]).plated[0]

    assert slack.stay.pull.pull_n == 0
    assert slack.found.governing.action == pytest.approx([0, 900, 0, -945, 0, 0])
    assert service.stay is None
