"""Wind on parts one by one: plates along their normal, bars across their length, the rest whole."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.stages.blowing_rules import CASES, DIRECTIONS_DEG
from estimator.wind.coefficients import Bar, Tube, cylinder, flat_plate, rectangular_bar

STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}
PRESSURE_PA = 1000.0
SPEED_M_S = math.sqrt(2 * PRESSURE_PA / 1.25)  # EN 1991-1-4:2005, (4.10), rho 1.25 kg/m3
CLOSED = 1.3  # closed figure, rounded outwards: engineering judgement
BALL = 0.5  # subcritical, on the cautious side of handbooks
SHEET = {"part": "P", "shape": "sheet", "length": "2 m", "width": "1 m", "made of": "copper",
         "gauge": "1 mm"}  # fmt: skip
ROD = {"part": "R", "shape": "rod", "length": "2 m", "diameter": "20 mm", "along": "up",
       "made of": "mild steel"}  # fmt: skip
MIDDLE = [k for k, (_, sense, place) in enumerate(CASES)
          if place == "in the middle" and "pressed" in sense]  # fmt: skip


@pytest.fixture(scope="module")
def wrench(steps):
    """Return a function that gives force and moment by direction, (24, 6), of parts added up."""

    def blow(*parts, **assembly):
        rows = [{"assembly": "a", "stands": "free", "wind": "parts"} | assembly]
        wind = steps(upto="wind", parts=parts, assemblies=rows, job=STATED)["wind"]
        return wind.groups[0].wrench[0, 0, MIDDLE]

    return blow


def at(direction_deg):
    """Return the row of a direction."""
    return DIRECTIONS_DEG.index(direction_deg)


PLATE_N = PRESSURE_PA * flat_plate(2.0, 1.0).value * 2.0
INCIDENCE = [  # direction, share of the face-on force, along -out or +out
    (0.0, -1.0),
    (30.0, -1.0),
    (45.0, -1.0),
    (60.0, -math.cos(math.radians(60)) / math.cos(math.radians(45))),
    (90.0, 0.0),
    (180.0, 1.0),
]


@pytest.mark.parametrize(("direction_deg", "share"), INCIDENCE)
def test_a_plate_is_pushed_along_its_normal(wrench, direction_deg, share):
    """In full up to 45 degrees, then with the cosine (common practice, no source)."""
    force_n = wrench(SHEET)[at(direction_deg), :3]

    assert force_n == pytest.approx([0, 0, share * PLATE_N], abs=1e-6)


def test_a_slanted_plate_is_pushed_up(wrench):
    """Leaning out by 30 degrees at the top its normal points down by 30: the wind lifts it.

    The normal (0, 0, 1) tipped by +30 about across is (0, -sin 30, cos 30), pushed the other way.
    """
    force_n = wrench(SHEET | {"tip": "30 deg"})[at(0.0), :3]

    assert force_n == pytest.approx([0, PLATE_N * 0.5, -PLATE_N * math.cos(math.pi / 6)])


def test_a_rod_is_pushed_alike_from_all_sides(wrench):
    """Upright, 2 m of 20 mm: q c d l along the wind, c of a circular cylinder."""
    size_n = PRESSURE_PA * cylinder(Tube(2.0, 0.02), SPEED_M_S).value * 0.02 * 2.0
    force_n = wrench(ROD)[:, :3]

    angles = np.radians(DIRECTIONS_DEG)
    along = np.stack([-np.sin(angles), 0 * angles, -np.cos(angles)], axis=-1)
    assert force_n == pytest.approx(size_n * along, abs=1e-9)


def test_a_rod_along_the_wind_is_not_pushed(wrench):
    """Only what crosses it counts: square from the street, from the end nothing."""
    force_n = wrench(ROD | {"along": "across"})[:, :3]

    assert np.linalg.norm(force_n[at(0.0)]) > 10.0
    assert force_n[at(90.0)] == pytest.approx([0, 0, 0], abs=1e-9)


@given(slant_deg=st.floats(0.0, 85.0))
def test_a_slanted_rod_feels_the_square_of_the_cosine(wrench, slant_deg):
    """Tipped out of the plane across the wind, v2 cos2 is left, square to the rod."""
    upright = np.linalg.norm(wrench(ROD)[at(0.0), :3])
    slanted = wrench(ROD | {"tip": f"{slant_deg!r} deg"})[at(0.0), :3]

    share = math.cos(math.radians(slant_deg)) ** 2
    assert np.linalg.norm(slanted) == pytest.approx(share * upright, rel=1e-6)
    rod = [0, math.cos(math.radians(slant_deg)), math.sin(math.radians(slant_deg))]
    assert slanted @ rod == pytest.approx(0.0, abs=1e-9)


BARS = [  # cells, coefficient, area on which it is [m2]
    ({"shape": "tube", "diameter": "22 mm", "wall": "1.2 mm"},
     cylinder(Tube(2.0, 0.022), SPEED_M_S), 2.0 * 0.022),
    ({"shape": "flat", "width": "50 mm", "depth": "6 mm"},
     rectangular_bar(Bar(2.0, 0.05, 0.006)), 2.0 * 0.05),
    ({"shape": "hollow", "width": "100 mm", "depth": "50 mm", "wall": "4 mm"},
     rectangular_bar(Bar(2.0, 0.1, 0.05)), 2.0 * 0.1),
    ({"shape": "section", "section": "SHS 60x60x4"},
     rectangular_bar(Bar(2.0, 0.06, 0.06)), 2.0 * 0.06),
    ({"shape": "cone", "diameter": "150 mm", "end diameter": "85 mm"},
     cylinder(Tube(2.0, 0.15), SPEED_M_S), 2.0 * (0.15 + 0.085) / 2),
    ({"shape": "cone", "diameter": "150 mm"},
     cylinder(Tube(2.0, 0.15), SPEED_M_S), 2.0 * 0.15 / 2),
]  # fmt: skip


@pytest.mark.parametrize(("cells", "coefficient", "area_m2"), BARS)
def test_bars_by_their_section(wrench, cells, coefficient, area_m2):
    """Length times width, at the coefficient of its section, square from the street."""
    bar = {"part": "B", "length": "2 m", "along": "up", "made of": "mild steel"} | cells

    force_n = wrench(bar)[at(0.0), :3]
    assert force_n == pytest.approx([0, 0, -PRESSURE_PA * coefficient.value * area_m2], abs=1e-6)


def test_a_rough_finish_may_count(wrench):
    """Round bars have no credit for fast flow, so that galvanising changes nothing."""
    plain, rough = wrench(ROD), wrench(ROD | {"finish": "galvanised"})

    assert rough == pytest.approx(plain)


OTHERS = [  # cells, coefficient, area it shows to the street [m2]
    ({"shape": "sphere", "diameter": "220 mm"}, BALL, math.pi / 4 * 0.22**2),
    ({"shape": "ellipsoid", "length": "920 mm", "width": "430 mm", "depth": "330 mm"}, CLOSED,
     math.pi / 4 * 0.92 * 0.43),
    ({"shape": "box", "length": "1 m", "width": "500 mm", "depth": "200 mm"}, CLOSED, 0.5),
]  # fmt: skip


@pytest.mark.parametrize(("cells", "coefficient", "area_m2"), OTHERS)
def test_what_is_neither_plate_nor_bar(wrench, cells, coefficient, area_m2):
    """Along the wind, on the outline it shows."""
    force_n = wrench({"part": "O", "made of": "softwood"} | cells)[at(0.0), :3]

    assert force_n == pytest.approx([0, 0, -PRESSURE_PA * coefficient * area_m2], rel=1e-5,
                                    abs=1e-9)  # fmt: skip


def test_a_box_shows_its_side_to_the_side(wrench):
    """0.2 x 0.5 m from the right."""
    box = {"part": "O", "shape": "box", "length": "1 m", "width": "500 mm", "depth": "200 mm",
           "made of": "softwood"}  # fmt: skip

    assert wrench(box)[at(90.0), 0] == pytest.approx(-PRESSURE_PA * CLOSED * 0.1)


def test_a_dome_is_a_round_plate(wrench):
    """A dish of 2.4 m and 90 mm: its disc, at the coefficient of a plate as wide as long."""
    dish = {"part": "D", "shape": "dome", "diameter": "2.4 m", "depth": "90 mm",
            "made of": "copper", "gauge": "1 mm", "relief": 1.02}  # fmt: skip
    size_n = PRESSURE_PA * flat_plate(2.4, 2.4).value * math.pi / 4 * 2.4**2

    assert wrench(dish)[at(0.0), 2] == pytest.approx(-size_n)


def test_relief_does_not_catch_more_wind(wrench):
    """Hammering gains skin, not outline."""
    assert wrench(SHEET | {"relief": 1.3}) == pytest.approx(wrench(SHEET))


def test_copies_add_up(wrench):
    """Five in one place, and five in a row, push five times as hard as one."""
    one = wrench(ROD)[:, :3]

    assert wrench(ROD | {"count": 5})[:, :3] == pytest.approx(5 * one)
    row = {"count": 5, "set out": "row", "spread": "1 m"}
    assert wrench(ROD | row)[:, :3] == pytest.approx(5 * one)


@pytest.mark.parametrize(("cut", "left"), [("45 %", 0.55), ("100 %", 0.0)])
def test_what_is_cut_away_lets_the_wind_through(wrench, cut, left):
    """A plate and a box, with a share of their outline left."""
    box = {"part": "O", "shape": "box", "length": "1 m", "width": "500 mm", "depth": "200 mm",
           "made of": "softwood"}  # fmt: skip
    for part in (SHEET, box):
        whole = wrench(part)
        assert wrench(part | {"cut away": cut}) == pytest.approx(left * whole, abs=1e-9)


def test_what_is_all_cut_away_beside_another_part(wrench):
    """Nothing is left of the plate; the rod is pushed as before."""
    assert wrench(ROD, SHEET | {"cut away": "100 %"}) == pytest.approx(wrench(ROD))


STRIPS = [({"shape": "ring"}, 1.0), ({"shape": "sector", "angle": "180 deg"}, 0.5)]


@pytest.mark.parametrize(("cells", "share"), STRIPS)
def test_a_ring_is_a_bent_strip(wrench, cells, share):
    """Of 2.46 / 2.32 m: a strip of 70 mm, pi x 2.39 m long, or half of that."""
    ring = {"part": "D", "diameter": "2.46 m", "bore": "2.32 m", "made of": "copper",
            "gauge": "1 mm"} | cells  # fmt: skip
    length_m = share * math.pi * 2.39
    size_n = PRESSURE_PA * flat_plate(length_m, 0.07).value * length_m * 0.07

    assert wrench(ring)[at(0.0), 2] == pytest.approx(-size_n)


def test_parts_out_of_the_wind_are_left_out(wrench):
    """A spine inside the blade is not in the wind."""
    assert wrench(SHEET, ROD | {"in wind": "no"}) == pytest.approx(wrench(SHEET))


@given(place=st.tuples(*[st.floats(-3.0, 3.0)] * 3))
def test_each_part_acts_at_its_own_middle(wrench, place):
    """The moment about the datum is the place crossed with the force, in every direction."""
    cells = {axis: f"{x!r} m" for axis, x in zip(("across", "up", "out"), place, strict=True)}
    box = {"part": "O", "shape": "box", "length": "1 m", "width": "500 mm", "depth": "200 mm",
           "made of": "softwood"}  # fmt: skip
    for part in (SHEET, ROD, box):
        found = wrench(part | cells)
        by_hand = np.cross(np.array(place), found[:, :3])
        assert found[:, 3:] == pytest.approx(by_hand, rel=1e-6, abs=1e-2)


def test_what_projects_is_not_reached_from_behind(wrench):
    """13 directions of 24."""
    found = wrench(ROD, stands="projecting")

    assert np.count_nonzero(np.any(found[:, :3] != 0.0, axis=-1)) == 13


def test_a_coefficient_that_was_entered_is_on_the_outline(wrench):
    """Somebody's coefficient is for the whole: 1.4 x 1 kPa x 2 m2 along the wind."""
    found = wrench(SHEET, coefficient=1.4)

    assert found[at(0.0), 2] == pytest.approx(-2800.0)


def test_the_mean_coefficient_is_recorded(steps):
    """The plate's own value where there is only a plate, and it is not confirmed."""
    rows = [{"assembly": "a", "stands": "free", "wind": "parts"}]
    (catch,) = steps(upto="wind", parts=[SHEET], assemblies=rows, job=STATED)["wind"].catches

    assert catch.coefficient.value >= flat_plate(2.0, 1.0).value
    assert not catch.coefficient.confirmed
    assert "mean in the worst direction" in catch.coefficient.rule
