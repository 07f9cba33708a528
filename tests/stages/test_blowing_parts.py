"""Wind on parts one by one: plates along their normal, bars across their length, the rest whole."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.stages.blowing_rules import CASES, DIRECTIONS_DEG
from estimator.wind.coefficients import (
    Bar,
    Tube,
    cylinder,
    flat_plate,
    rectangular_bar,
    sharp_section,
)
from estimator.wind.sided import bar_end, bowl

STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}
PRESSURE_PA = 1000.0
SPEED_M_S = math.sqrt(2 * PRESSURE_PA / 1.25)  # EN 1991-1-4:2005, (4.10), rho 1.25 kg/m3
CLOSED = 1.3  # closed figure, rounded outwards: engineering judgement
BALL = 0.5  # subcritical, on the cautious side of handbooks
SHEET = {"part": "P", "shape": "sheet", "length": "2 m", "width": "1 m", "made of": "copper",
         "gauge": "1 mm"}  # fmt: skip
ROD = {"part": "R", "shape": "rod", "length": "2 m", "diameter": "20 mm", "along": "up",
       "made of": "mild steel"}  # fmt: skip
BOX = {"part": "O", "shape": "box", "length": "1 m", "width": "500 mm", "depth": "200 mm",
       "made of": "softwood"}  # fmt: skip
MIDDLE = [k for k, (_, sense, place) in enumerate(CASES)
          if place == "in the middle" and "pressed" in sense]  # fmt: skip


@pytest.fixture(scope="module")
def blown(steps):
    """Return a function that gives the wind on parts that are added up."""

    def blow(*parts, job=None, **assembly):
        rows = [{"assembly": "a", "stands": "free", "wind": "parts"} | assembly]
        return steps(upto="wind", parts=parts, assemblies=rows, job=job or STATED)["wind"]

    return blow


@pytest.fixture(scope="module")
def wrench(blown):
    """Return a function that gives force and moment by direction, (24, 6), of parts added up."""
    return lambda *parts, **assembly: blown(*parts, **assembly).groups[0].wrench[0, 0, MIDDLE]


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


def test_a_rod_along_the_wind_is_pushed_on_its_end(wrench):
    """Square from the street; from the side its end of 314 mm2 at 0.99, a third of a newton."""
    force_n = wrench(ROD | {"along": "across"})[:, :3]
    end_n = PRESSURE_PA * bar_end(2.0, 0.02).value * math.pi / 4 * 0.02**2

    assert np.linalg.norm(force_n[at(0.0)]) > 10.0
    assert force_n[at(90.0)] == pytest.approx([-end_n, 0, 0], abs=1e-9)


def test_a_boss_that_faces_the_street_is_pushed(wrench):
    """A short round block, 200 mm across and 100 mm deep: 1.1 on its disc, a handbook's."""
    boss = {"part": "B", "shape": "rod", "length": "100 mm", "diameter": "200 mm", "along": "out",
            "made of": "softwood"}  # fmt: skip

    found = wrench(boss)[at(0.0), 2]
    assert found == pytest.approx(-PRESSURE_PA * 1.10 * math.pi / 4 * 0.2**2)


@given(slant_deg=st.floats(0.0, 85.0))
def test_a_slanted_rod_feels_the_square_of_the_cosine(wrench, slant_deg):
    """Tipped out of the plane across the wind, v2 cos2 is left square to the rod.

    Along it there is only what its end feels, by the sine.
    """
    upright = np.linalg.norm(wrench(ROD)[at(0.0), :3])
    slanted = wrench(ROD | {"tip": f"{slant_deg!r} deg"})[at(0.0), :3]
    end_n = PRESSURE_PA * bar_end(2.0, 0.02).value * math.pi / 4 * 0.02**2

    slant = math.radians(slant_deg)
    rod = np.array([0, math.cos(slant), math.sin(slant)])
    lengthwise = slanted @ rod
    square = np.linalg.norm(slanted - lengthwise * rod)
    assert square == pytest.approx(math.cos(slant) ** 2 * upright, rel=1e-6)
    assert abs(lengthwise) == pytest.approx(math.sin(slant) * end_n, abs=1e-9)


BARS = [  # cells, coefficient, area on which it is [m2]
    ({"shape": "tube", "diameter": "22 mm", "wall": "1.2 mm"},
     cylinder(Tube(2.0, 0.022), SPEED_M_S), 2.0 * 0.022),
    ({"shape": "flat", "width": "50 mm", "depth": "6 mm"},
     rectangular_bar(Bar(2.0, 0.05, 0.006)), 2.0 * 0.05),
    ({"shape": "hollow", "width": "100 mm", "depth": "50 mm", "wall": "4 mm"},
     rectangular_bar(Bar(2.0, 0.1, 0.05, corner_radius_m=0.008)), 2.0 * 0.1),
    ({"shape": "section", "section": "SHS 60x60x4"},
     rectangular_bar(Bar(2.0, 0.06, 0.06, corner_radius_m=0.008)), 2.0 * 0.06),
    ({"shape": "section", "section": "CHS 48.3x3.2"},
     cylinder(Tube(2.0, 0.0483), SPEED_M_S), 2.0 * 0.0483),
    ({"shape": "section", "section": "L 40x40x4"}, sharp_section(2.0, 0.04), 2.0 * 0.04),
    ({"shape": "cone", "diameter": "150 mm", "end diameter": "85 mm"},
     cylinder(Tube(2.0, 0.15), SPEED_M_S), 2.0 * (0.15 + 0.085) / 2),
    ({"shape": "cone", "diameter": "150 mm"},
     cylinder(Tube(2.0, 0.15), SPEED_M_S), 2.0 * 0.15 / 2),
]  # fmt: skip


@pytest.mark.parametrize(("cells", "coefficient", "area_m2"), BARS)
def test_bars_by_their_section(wrench, cells, coefficient, area_m2):
    """Length times width, at the coefficient of its section, square from the street.

    A cold formed hollow bar has corners of twice its wall (EN 10219-2, middle of the limits).
    """
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
]  # fmt: skip


@pytest.mark.parametrize(("cells", "coefficient", "area_m2"), OTHERS)
def test_what_is_neither_plate_nor_bar(wrench, cells, coefficient, area_m2):
    """Along the wind, on the outline it shows."""
    force_n = wrench({"part": "O", "made of": "softwood"} | cells)[at(0.0), :3]

    assert force_n == pytest.approx([0, 0, -PRESSURE_PA * coefficient * area_m2], rel=1e-5,
                                    abs=1e-9)  # fmt: skip


def test_a_box_is_a_short_bar_on_each_face(wrench):
    """1 x 0.5 m, 0.2 m deep, from the street; 0.5 x 0.2 m, 1 m deep, from the right."""
    found = wrench(BOX)
    front_n = PRESSURE_PA * rectangular_bar(Bar(1.0, 0.5, 0.2)).value * 0.5
    side_n = PRESSURE_PA * bar_end(1.0, math.sqrt(4 * 0.1 / math.pi)).value * 0.1

    assert found[at(0.0), :3] == pytest.approx([0, 0, -front_n], abs=1e-9)
    assert found[at(90.0), :3] == pytest.approx([-side_n, 0, 0], abs=1e-9)


DISH = {"part": "D", "shape": "dome", "diameter": "2.4 m", "depth": "90 mm",
        "made of": "copper", "gauge": "1 mm", "relief": 1.02}  # fmt: skip


LAYERS = [  # over, amount, whether it closes a dome behind
    ("solid", "100 %", True),
    ("whole outside", "1 mm", True),
    ("one face", "1 mm", False),
    ("both faces", "1 mm", False),
]


@pytest.mark.parametrize(("over", "amount", "closed"), LAYERS)
def test_a_dome_by_the_side_that_meets_the_wind(steps, over, amount, closed):
    """A dish of 2.4 m and 90 mm: heavier from behind, where it is open, or flat when closed."""
    layer = {"build-up": "B", "layer": "L", "material": "copper", "over": over, "amount": amount}
    rows = [{"assembly": "a", "stands": "free", "wind": "parts"}]
    dish = {name: DISH[name] for name in ("part", "shape", "diameter", "depth")}
    wind = steps(upto="wind", parts=[dish | {"made of": "B"}], build_ups=[layer],
                 assemblies=rows, job=STATED)["wind"]  # fmt: skip
    found = wind.groups[0].wrench[0, 0, MIDDLE]
    front, back = bowl(2.4, 0.09, closed=closed)
    disc_n = PRESSURE_PA * math.pi / 4 * 2.4**2

    assert found[at(0.0), 2] == pytest.approx(-disc_n * front.value)
    assert found[at(180.0), 2] == pytest.approx(disc_n * back.value)


def test_a_coat_does_not_close_a_dome(wrench):
    """Paint goes all over it, and leaves it open behind."""
    assert wrench(DISH | {"finish": "painted"}) == pytest.approx(wrench(DISH))


def test_a_bowl_open_to_the_street_catches_the_most(wrench):
    """Swung round by 180 degrees the open side is met from the street: 1.42 against 0.38."""
    deep = DISH | {"diameter": "400 mm", "depth": "200 mm", "relief": 1.0}
    away, towards = wrench(deep), wrench(deep | {"swing": "180 deg"})

    assert towards[at(0.0), 2] / away[at(0.0), 2] == pytest.approx(1.42 / 0.38)


def test_relief_does_not_catch_more_wind(wrench):
    """Hammering gains skin, not outline."""
    assert wrench(SHEET | {"relief": 1.3}) == pytest.approx(wrench(SHEET))


def test_copies_add_up(wrench):
    """Five in one place, and five in a row, push five times as hard as one."""
    one = wrench(ROD)[:, :3]

    assert wrench(ROD | {"count": 5})[:, :3] == pytest.approx(5 * one)
    row = {"count": 5, "set out": "row", "spread": "1 m"}
    assert wrench(ROD | row)[:, :3] == pytest.approx(5 * one)


@pytest.mark.parametrize("shape", [BOX, ROD], ids=["box", "rod"])
@pytest.mark.parametrize(("cut", "left"), [("45 %", 0.55), ("100 %", 0.0)])
def test_what_is_cut_away_lets_the_wind_through(wrench, shape, cut, left):
    """A box and a rod, with a share of their outline left."""
    whole = wrench(shape)

    assert wrench(shape | {"cut away": cut}) == pytest.approx(left * whole, abs=1e-9)


@pytest.mark.parametrize(("cut", "value"), [("45 %", 1.6 * 0.55), ("100 %", 0.0)])
def test_a_pierced_plate_is_an_open_sign(wrench, cut, value):
    """ASCE 7 Figure 29.4-2, flat members: 1.6 on what is closed, more than 0.55 of the plate."""
    found = wrench(SHEET | {"cut away": cut})

    assert found[at(0.0), 2] == pytest.approx(-PRESSURE_PA * value * 2.0, abs=1e-9)


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
    for part in (SHEET, ROD, BOX):
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


EGG = {"part": "E", "shape": "ellipsoid", "length": "920 mm", "width": "430 mm",
       "depth": "330 mm", "made of": "softwood"}  # fmt: skip
OFFSETS = [  # part, how far off its middle the force from the street may act
    (SHEET, 0.25 * 2.0),
    (SHEET | {"turn": "90 deg"}, 0.25 * 1.0),
    ({"part": "D", "shape": "disc", "diameter": "1 m", "made of": "copper", "gauge": "1 mm"}, 0.25),
    (BOX, 0.25 * 1.0),
    (EGG, 0.25 * 0.92),
    (ROD, 0.0),
]


@pytest.mark.parametrize(("part", "offset_m"), OFFSETS)
def test_boards_and_figures_have_their_eccentric_case(blown, part, offset_m):
    """EN 1991-1-4, 7.4.3(3): a quarter of their own level width to either side; a rod has none."""
    found = blown(part).groups[0].wrench[0, 0]
    middle, right, left = found[[CASES.index((0.0, CASES[0].sense, place))
                                 for place in ("in the middle", "off to the right",
                                               "off to the left")]]  # fmt: skip

    assert right[:3] == pytest.approx(middle[:3])
    # Wind from the street goes to -out: to its right is across, and r x F turns about up. The
    # outline of an egg has 36 corners, so that its width is good to a quarter of a per cent.
    gained_nm = -offset_m * middle[2]
    assert right[3:] - middle[3:] == pytest.approx([0, gained_nm, 0], rel=3e-3, abs=1e-6)
    assert left[3:] - middle[3:] == pytest.approx([0, -gained_nm, 0], rel=3e-3, abs=1e-6)


def test_the_eccentric_case_is_the_rules_own(blown):
    """ASCE 7, Figure 29.3-1, case B: a fifth of the width; case C is not looked at by parts."""
    job = {"wind rule": "ASCE 7-22", "basic wind speed": "45 m/s", "datum height": "5 m"}
    wind = blown(SHEET, job=job)
    found = wind.groups[0].wrench[0, 0]
    by_place = {case.place: found[k] for k, case in enumerate(wind.cases)
                if case.direction_deg == 0.0 and "pressed" in case.sense}  # fmt: skip
    middle, right, left, strips, other = by_place.values()

    assert abs(right[4] - middle[4]) == pytest.approx(0.2 * 2.0 * abs(middle[2]))
    assert left[4] - middle[4] == pytest.approx(middle[4] - right[4])
    assert strips == pytest.approx(middle)
    assert other == pytest.approx(middle)


def test_all_boards_bear_off_to_the_same_side(blown):
    """Two boards gain twice what one does: nobody knows that the gusts do not come together."""

    def gain(*parts):
        found = blown(*parts).groups[0].wrench[0, 0]
        return found[1] - found[0]

    assert gain(SHEET, SHEET | {"part": "Q", "up": "3 m"}) == pytest.approx(2 * gain(SHEET))


def test_a_ball_close_to_the_ground(blown):
    """EN 1991-1-4, 7.10, from memory: with less than b/2 below it 1.6 times, and 0.60 upwards.

    b = 1 m, 1 kPa, by hand: 392.7 N clear of the ground; near it 628.3 N and 471.2 N up.
    """
    ball = {"part": "K", "shape": "sphere", "diameter": "1 m", "made of": "copper",
            "gauge": "1 mm"}  # fmt: skip
    job = {**STATED, "datum height": "0.9 m"}
    low, high = (blown(ball | {"up": up}, job=job).groups[0].wrench[0, 0, 0, :3]
                 for up in ("0 m", "0.2 m"))  # fmt: skip

    assert high == pytest.approx([0, 0, -392.7], abs=0.05)
    assert low == pytest.approx([0, 471.2, -628.3], abs=0.05)


def test_no_dip_is_taken_on_the_whole_path(blown):
    """A polished tube of 0.5 m and a ball of 2 m in 60 m/s: subcritical, though Re is past 1e6.

    Figure 7.28 would give 0.4 or so times the end effect for the tube, and stands beside.
    """
    job = {"wind rule": "stated pressure", "stated pressure": "2.25 kPa"}
    tube = {"part": "T", "shape": "tube", "length": "5 m", "diameter": "500 mm", "wall": "3 mm",
            "along": "up", "made of": "stainless 304", "finish": "polished"}  # fmt: skip
    ball = {"part": "K", "shape": "sphere", "diameter": "2 m", "made of": "copper",
            "gauge": "1 mm"}  # fmt: skip
    round_n, ball_n = (-blown(part, job=job).groups[0].wrench[0, 0, 0, 2] for part in (tube, ball))

    assert round_n == pytest.approx(2250 * 1.2 * 0.698 * 2.5)
    assert ball_n == pytest.approx(2250 * 0.5 * math.pi)
