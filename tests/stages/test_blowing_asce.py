"""Wind by ASCE 7 through the whole run: pressures, cases A to C, walls, and what is printed."""

import math

import jsonschema
import numpy as np
import pytest

from estimator.reports.document import schema
from estimator.reports.page import page_html
from estimator.reports.sentences import summary
from estimator.stages.blowing_rules import SENSES
from estimator.wind.asce7 import EDITIONS, Site, site_pressure
from estimator.wind.asce7_signs import PLACES, Sign, case_c_strips, sign_coefficient

RULES = sorted(EDITIONS)
SITE = {"basic wind speed": "50 m/s", "datum height": "8 m"}
BOARD = {"part": "B", "shape": "sheet", "length": "2 m", "width": "1 m", "made of": "copper",
         "gauge": "1 mm"}  # fmt: skip
WIDE = BOARD | {"length": "4 m"}
BRACKETS = [
    {"bracket": f"B{n}", "set": "s", "across": f"{n - 0.5} m", "up": "0 m", "reach": "300 mm",
     "section": "SHS 60x60x4", "grade": "mild steel", "holds": "welded"}
    for n in (0, 1)
]  # fmt: skip


@pytest.fixture(scope="module", params=RULES)
def rule(request):
    """Return each edition in turn."""
    return request.param


@pytest.fixture(scope="module")
def blow(steps):
    """Return a function that gives the wind on parts of one assembly by an edition."""

    def blow_parts(rule, *parts, job=None, **assembly):
        facts = SITE | {"wind rule": rule} | (job or {})
        rows = [{"assembly": "a"} | assembly]
        return steps(upto="wind", parts=parts, assemblies=rows, job=facts)["wind"]

    return blow_parts


def at(wind, direction_deg, place, sense=0):
    """Return force and moment of the only assembly in one case."""
    number = wind.cases.index((direction_deg, SENSES[sense], PLACES[place]))
    return wind.groups[0].wrench[0, 0, number]


def acting_pa(rule, height_m, **site):
    """Return what a coefficient multiplies, from the formulas alone."""
    return site_pressure(Site(EDITIONS[rule], 50.0, "C", **site), height_m).pressure_pa


def test_free_board_by_cases_a_and_b(blow, rule):
    """F = q G C_f A at the top of the sign, 8.5 m: B/s 2, s/h 1/8.5; B 0.2 x 2 m off the middle."""
    wind = blow(rule, BOARD, stands="free")
    force_n = acting_pa(rule, 8.5) * sign_coefficient(2.0, 1 / 8.5) * 2.0

    assert wind.catches[0].pressure.height_m == pytest.approx(8.5)
    assert at(wind, 0.0, 0) == pytest.approx([0, 0, -force_n, 0, 0, 0], abs=1e-6)
    assert at(wind, 0.0, 1)[4] == pytest.approx(0.4 * force_n)
    assert at(wind, 0.0, 2)[4] == pytest.approx(-0.4 * force_n)
    assert at(wind, 180.0, 0)[2] == pytest.approx(force_n)


def test_wide_board_by_case_c(blow, rule):
    """Strips of 2.90, 1.90, 1.30, 1.10 (B/s 4), 1 m each, from either edge: force and moment."""
    wind = blow(rule, WIDE, stands="free")
    pressure_pa = acting_pa(rule, 8.5)
    strips = np.array([2.90, 1.90, 1.30, 1.10])
    middles_m = np.array([1.5, 0.5, -0.5, -1.5])

    for place, side in ((3, 1.0), (4, -1.0)):
        found = at(wind, 0.0, place)
        assert found[2] == pytest.approx(-pressure_pa * strips.sum())
        # A push onto the wall, to the right of the datum, turns about up by +F x arm.
        assert found[4] == pytest.approx(side * pressure_pa * strips @ middles_m)


def test_narrow_boards_have_case_a_again_in_place_of_strips(blow, rule):
    """So that a board beside them on the same brackets has its strips with their full wind."""
    wind = blow(rule, BOARD | {"length": "1 m"}, stands="free")

    for place in (3, 4):
        assert at(wind, 30.0, place) == pytest.approx(at(wind, 30.0, 0))


def test_strips_that_are_not_looked_at_are_not_listed(document, rule):
    """The narrow board lists three places a direction, the wide one five where it shows B/s 2."""
    job = SITE | {"wind rule": rule}
    for board, listed in ((BOARD | {"length": "1 m"}, 3), (WIDE, 5)):
        found = document(
            parts=[board], assemblies=[{"assembly": "a", "stands": "free"}], job=job
        )  # fmt: skip
        loads = [row for row in found["wind"]["loads"] if row["direction_deg"] == 0.0]
        assert len(loads) == listed
        assert len({row["case"] for row in loads}) == listed


def test_each_load_carries_its_own_coefficient(document, rule):
    """Force is pressure times coefficient times outline, in every case of a free board."""
    found = document(
        parts=[WIDE], assemblies=[{"assembly": "a", "stands": "free"}],
        job=SITE | {"wind rule": rule},
    )  # fmt: skip
    (part,) = found["wind"]["parts"]

    assert found["wind"]["loads"]
    for load in found["wind"]["loads"]:
        assert math.hypot(*load["force_n"]) == pytest.approx(
            part["pressure_pa"] * load["coefficient"] * load["area_m2"]
        )


def test_a_sign_on_the_ground_is_pushed_above_its_middle(blow, rule):
    """s/h = 1: 0.05 x 1 m above the middle, 0.5 m up."""
    wind = blow(rule, BOARD, job={"datum height": "0.5 m"}, stands="free")
    found = at(wind, 0.0, 0)

    assert found[3] == pytest.approx(0.05 * found[2])


def test_a_pierced_board_goes_by_its_whole_area(blow, rule):
    """A fifth cut away: 1 - 0.2^1.5 = 0.9106 of the force on the closed board, not 0.8."""
    closed, pierced = (
        at(blow(rule, BOARD | {"cut away": cut}, stands="free"), 0.0, 0)[2]
        for cut in ("0 %", "20 %")
    )

    assert pierced / closed == pytest.approx(0.9106, abs=5e-5)


def test_a_ring_is_an_open_sign(blow, rule):
    """Bore 0.8 of the diameter leaves 36 % closed: 1.6 on that (Figure 29.4-2)."""
    ring = BOARD | {"shape": "ring", "length": "", "width": "", "diameter": "2 m", "bore": "1.6 m"}
    catch = blow(rule, ring, stands="free").catches[0]

    assert catch.coefficient.value == 1.6
    assert catch.seen.filled_m2 == pytest.approx(math.pi, rel=0.01)


def test_flat_on_a_wall_is_a_component_of_it(blow, rule):
    """(GC_p) 1.4 of the corner at 10 sq ft, 0.8 at 500, at the building's 12 m; both senses."""
    small = BOARD | {"length": "0.5 m", "width": "0.5 m"}
    wind = blow(rule, small, job={"building height": "12 m"}, stands="flat to wall")
    force_n = acting_pa(rule, 12.0, gust_factor=1.0) * 1.4 * 0.25

    assert at(wind, 0.0, 0)[2] == pytest.approx(-force_n)
    assert at(wind, 0.0, 0, sense=1)[2] == pytest.approx(force_n)
    assert at(wind, 0.0, 1, sense=1)[4] == pytest.approx(-0.2 * 0.5 * force_n)
    assert not np.any(at(wind, 180.0, 0))
    assert not wind.catches[0].coefficient.confirmed


def test_off_a_wall_is_as_a_free_sign(blow, rule):
    """C_f of the figure in both senses, assumed, at its top where no building is told."""
    wind = blow(rule, BOARD, stands="off wall")
    force_n = acting_pa(rule, 8.5) * sign_coefficient(2.0, 1 / 8.5) * 2.0

    assert at(wind, 0.0, 0, sense=1)[2] == pytest.approx(force_n)
    assert "assumed off a wall" in wind.catches[0].coefficient.rule


def test_a_board_edge_on_to_the_street_has_drag_along_the_wall(blow, rule):
    """From the street it shows nothing; the side outline of 2 m2 has 1.3 as by EN 1991-1-4."""
    wind = blow(rule, BOARD | {"faces": "across", "along": "up"}, stands="off wall")

    assert at(wind, 0.0, 0)[:3] == pytest.approx([0, 0, 0], abs=1e-9)
    assert at(wind, 90.0, 0)[0] == pytest.approx(-acting_pa(rule, 9.0) * 1.3 * 2.0)


def test_the_least_pressure_is_kept(blow, rule):
    """At 20 m/s: 770 Pa on the outline in every case, and the coefficient says so."""
    for assembly in ({"stands": "free"}, {"stands": "off wall"}, {"stands": "flat to wall"},
                     {"stands": "free", "coefficient": 1.2, "source": "engineer"}):  # fmt: skip
        wind = blow(rule, WIDE, job={"basic wind speed": "20 m/s"}, **assembly)
        for place in range(len(PLACES)):
            assert abs(at(wind, 0.0, place)[2]) == pytest.approx(770.0 * 4.0)
        assert "least pressure" in wind.catches[0].coefficient.rule


def test_an_entered_coefficient_has_no_strips(blow, rule):
    """C_f of 1.5 from somebody: q G x 1.5 x 4 m2 in A, B and again in place of C."""
    wind = blow(rule, WIDE, stands="free", coefficient=1.5, source="engineer, 2 May")

    for place in range(len(PLACES)):
        assert at(wind, 0.0, place)[2] == pytest.approx(-acting_pa(rule, 8.5) * 1.5 * 4.0)
    assert "2 May" in wind.catches[0].coefficient.source


def test_both_editions_give_nearly_the_same_load(blow):
    """K_d moved from the pressure to the load: it must not be counted twice or lost."""
    old, new = (at(blow(rule, BOARD, stands="free"), 0.0, 0)[2] for rule in RULES)

    assert new / old == pytest.approx(1.0, abs=0.01)


@pytest.fixture(scope="module")
def job(document, rule):
    """Return the document of a small job, in inches, with a free board on two brackets."""
    return document(
        parts=[WIDE | {"out": "300 mm"}],
        assemblies=[{"assembly": "a", "stands": "free", "carried by": "s"}],
        brackets=BRACKETS,
        job=SITE | {"wind rule": rule, "show units": "inch"},
    )


def test_the_document_says_what_level_the_wind_is(job, rule):
    """Steps, level and combinations belong together."""
    jsonschema.validate(job, schema())

    assert job["complete"]
    assert (job["wind"]["rule"], job["wind"]["level"]) == (rule, "strength level")
    assert [step["symbol"] for step in job["wind"]["steps"]][:3] == ["V", "z", "K_z"]
    assert all(f"{rule} strength" in row["combination"] for row in job["bracket_envelope"])


def test_wind_at_strength_level_is_not_factored_again(job):
    """The pull of 1.2 D + 1.0 W is that of W: the weight hangs straight down from two brackets."""
    pull = {
        row["bracket"]: row for row in job["bracket_envelope"] if row["component"] == "pull-out"
    }
    winds = [row for row in job["brackets"] if row["cause"] == "wind" and row["force_n"][2] > 0]
    own = {row["bracket"]: row["force_n"][2] for row in job["brackets"]
           if row["cause"] == "own weight" and row["sharing"] == "lever"}  # fmt: skip

    for mark, row in pull.items():
        largest_n = max(w["force_n"][2] for w in winds if w["bracket"] == mark)
        assert abs(own[mark]) < 1.0
        assert row["value"] == pytest.approx(largest_n, rel=1e-6)
        assert "1 wind" in row["combination"]


def test_the_page_prints_the_rule_and_its_units(job, rule):
    """Psf and pounds beside pascals and newtons; nothing is called characteristic but in words."""
    page = page_html(job)
    told = " ".join(summary(job))
    pressure_pa = job["wind"]["pressure_pa"]

    assert f"Rule: {rule}. Pressure on a coefficient" in page
    assert f"({pressure_pa / 47.88026:.1f}\N{NARROW NO-BREAK SPACE}psf), at strength level" in page
    assert "112\N{NARROW NO-BREAK SPACE}mph" in page
    assert "26.11.1, rigid; from memory: to be checked" in page
    assert "The wind in them is at strength level" in page
    assert "in strips from the right (case C)" in page
    assert "at strength level, on a" in told
    assert "largest unfactored pull on the wall" in told
    assert "characteristic" not in told


def test_the_worst_case_of_the_figure_governs(job):
    """Two brackets 1 m apart: case B puts 1/2 + 0.2 x 4 of the force on one, case C 6.6 / 7.2."""
    strips = np.array([s.coefficient for s in case_c_strips(Sign(4.0, 1.0, 8.5))])
    case_c = strips.sum() / 2 + strips @ np.array([1.5, 0.5, -0.5, -1.5])
    case_b = sign_coefficient(4.0, 1 / 8.5) * 4.0 * (0.5 + 0.8)
    pulls = [row for row in job["bracket_envelope"] if row["component"] == "pull-out"]

    assert case_b > case_c
    assert all("(case B)" in row["case"] for row in pulls)
    assert max(row["value"] for row in pulls) == pytest.approx(
        job["wind"]["pressure_pa"] * case_b, rel=1e-6
    )
