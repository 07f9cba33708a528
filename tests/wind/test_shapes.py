"""Every shape of the workbook has its rule; what each catches by hand, and laws of all of them."""

import csv
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.reference.library import tables_dir
from estimator.wind.coefficients import (
    Bar,
    Tube,
    cylinder,
    figure,
    flat_plate,
    rectangular_bar,
    sharp_section,
)
from estimator.wind.elements import Panels, Rounds, panel_forces, round_forces
from estimator.wind.figures import travel
from estimator.wind.shapes import RULES, Body, caught
from estimator.wind.sided import bar_end

PLATE = Body(length_m=2.0, width_m=1.0, face_m2=2.0)
BAR = Body(length_m=2.0, width_m=0.05, depth_m=0.006)
SIZES = {
    "sheet": PLATE,
    "disc": Body(diameter_m=1.0, face_m2=math.pi / 4),
    "ring": Body(diameter_m=2.4, bore_m=2.2, face_m2=math.pi / 4 * (2.4**2 - 2.2**2)),
    "sector": Body(diameter_m=2.4, bore_m=2.2, angle_rad=1.0, face_m2=0.115),
    "blade": Body(length_m=1.5, width_m=0.12, face_m2=0.12),
    "leaf": Body(length_m=1.0, width_m=0.3, face_m2=0.2),
    "outline": PLATE,
    "dome": Body(diameter_m=2.4, depth_m=0.09),
    "rod": Body(length_m=2.0, diameter_m=0.02),
    "tube": Body(length_m=3.0, diameter_m=0.3, roughness_m=6e-6),
    "formed": Body(length_m=2.0, width_m=1.8, diameter_m=0.04),
    "cone": Body(length_m=0.9, diameter_m=0.3),
    "flat": BAR,
    "hollow": Body(length_m=2.0, width_m=0.1, depth_m=0.05, corner_m=0.008),
    "section": Body(length_m=2.0, width_m=0.05, depth_m=0.05, family="L"),
    "box": Body(length_m=1.0, width_m=0.5, depth_m=0.2),
    "hoop": Body(diameter_m=1.0, width_m=0.03, depth_m=0.005),
    "torus": Body(diameter_m=1.0, end_diameter_m=0.06),
    "sphere": Body(diameter_m=0.5),
}
"""Of every shape that does not go by its outline."""
ANGLES = np.radians(np.arange(0.0, 360.0, 15.0))


def force(shape, body, directions_rad=ANGLES):
    """Return the force of 1 Pa on a shape in its own frame, (d, 3)."""
    found = caught(shape, body)
    flat = panel_forces(Panels.of(found.panels), 1.0, np.asarray(directions_rad))
    bent = round_forces(Rounds.of(found.rounds), 1.0, np.asarray(directions_rad))
    return flat.sum(axis=0) + bent.sum(axis=0)


def test_every_shape_of_the_tables_has_a_rule():
    """A shape that can be typed can be blown at."""
    with (tables_dir() / "shapes.csv").open(encoding="utf-8") as stream:
        shapes = {row["key"] for row in csv.DictReader(stream)}

    assert set(RULES) == shapes


@pytest.mark.parametrize("shape", sorted(RULES))
def test_every_side_says_its_rule_its_source_and_its_rivals(shape):
    """No coefficient without a reason; by its outline goes only what has no element."""
    found = caught(shape, SIZES.get(shape, Body()))

    assert found.by_outline == (shape not in SIZES)
    for side in found.sides:
        assert side.coefficient.rule
        assert side.coefficient.source
        assert side.coefficient.others or side.meets == "edge to the wind"


@pytest.mark.parametrize("shape", sorted(set(SIZES) - {"dome", "cone"}))
def test_reversing_the_wind_reverses_the_force(shape):
    """Alike on both sides: the same size, the other way."""
    assert force(shape, SIZES[shape], ANGLES + math.pi) == pytest.approx(
        -force(shape, SIZES[shape]), abs=1e-9
    )


@pytest.mark.parametrize("shape", sorted(SIZES))
def test_nothing_is_pushed_against_the_wind_or_jumps(shape):
    """Downwind in every direction, and a hair of direction is a hair of force."""
    directions = np.radians(np.arange(0.0, 360.0, 0.1))
    found = force(shape, SIZES[shape], directions)

    assert np.sum(found * travel(directions), axis=-1).min() >= -1e-9
    largest = np.linalg.norm(found, axis=-1).max()
    assert np.abs(np.diff(found, axis=0)).max() < 0.01 * largest


@pytest.mark.parametrize("shape", sorted(SIZES))
def test_less_of_an_outline_never_feels_more(shape):
    """Cutting away lets the wind through."""
    body = SIZES[shape]
    sizes = [np.linalg.norm(force(shape, body._replace(solidity=left)), axis=-1)
             for left in (0.1, 0.4, 0.69, 0.71, 1.0)]  # fmt: skip

    assert np.all(np.diff(sizes, axis=0) >= -1e-9)


@given(st.floats(0.5, 4.0))
def test_shapes_scale(times):
    """So many times as large, its square in area and force: slenderness is the same."""
    for shape in ("sheet", "dome", "rod", "cone", "box", "hoop", "sphere"):
        body = SIZES[shape]
        lengths = {name: times * value for name, value in body._asdict().items()
                   if name.endswith("_m")}  # fmt: skip
        large = body._replace(**lengths, face_m2=times**2 * body.face_m2)
        assert force(shape, large) == pytest.approx(
            times**2 * force(shape, body), rel=1e-6, abs=1e-9
        )


FACE_ON = [  # shape, body, force of 1 Pa from the front [N]
    ("sheet", PLATE, flat_plate(2.0, 1.0).value * 2.0),
    # a blade of 120 to 40 mm is as wide as its area asks for: 80 mm
    ("blade", SIZES["blade"], flat_plate(1.5, 0.08).value * 0.12),
    # a leaf is two thirds of its box
    ("leaf", SIZES["leaf"], flat_plate(1.0, 0.2).value * 0.2),
    # a ring is a bent strip of pi x 2.3 x 0.1 m
    ("ring", SIZES["ring"], flat_plate(math.pi * 2.3, 0.1).value * math.pi * 0.23),
    ("sector", SIZES["sector"], flat_plate(1.15, 0.1).value * 0.115),
    ("rod", SIZES["rod"], cylinder(Tube(2.0, 0.02), 1.0).value * 0.04),
    ("cone", SIZES["cone"], cylinder(Tube(0.9, 0.3), 1.0).value * 0.135),
    ("flat", BAR, rectangular_bar(Bar(2.0, 0.05, 0.006)).value * 0.1),
    ("hollow", SIZES["hollow"], rectangular_bar(Bar(2.0, 0.1, 0.05, 0.008)).value * 0.2),
    ("section", SIZES["section"], sharp_section(2.0, 0.05).value * 0.1),
    ("box", SIZES["box"], rectangular_bar(Bar(1.0, 0.5, 0.2)).value * 0.5),
    ("torus", SIZES["torus"],
     cylinder(Tube(math.pi * 0.94, 0.06), 1.0).value * math.pi * 0.94 * 0.06),
    ("sphere", SIZES["sphere"], 0.5 * math.pi / 4 * 0.25),
]  # fmt: skip


@pytest.mark.parametrize(("shape", "body", "expected"), FACE_ON)
def test_from_the_front(shape, body, expected):
    """The rule's coefficient times the area it is on, straight back."""
    assert force(shape, body, [0.0])[0] == pytest.approx([0, 0, -expected], rel=1e-9, abs=1e-9)


EDGE_ON = [  # shape, body, force of 1 Pa from the right [N]
    ("sheet", PLATE, 0.0),
    ("rod", SIZES["rod"], bar_end(2.0, 0.02).value * math.pi / 4 * 0.02**2),
    ("flat", BAR, bar_end(2.0, math.sqrt(4 * 0.0003 / math.pi)).value * 0.0003),
    ("sphere", SIZES["sphere"], 0.5 * math.pi / 4 * 0.25),
]


@pytest.mark.parametrize(("shape", "body", "expected"), EDGE_ON)
def test_from_the_side(shape, body, expected):
    """Length runs across: what is seen from the right is an edge or an end."""
    assert force(shape, body, [math.pi / 2])[0] == pytest.approx([-expected, 0, 0], abs=1e-9)


def test_a_flat_turned_edge_on_feels_little():
    """50 x 6 mm: 0.9 x psi on its 6 mm against 2.0 x psi on its 50 mm, by its own width each."""
    width, depth, _ = caught("flat", BAR).sides

    assert (width.meets, depth.meets) == ("width across the wind", "depth across the wind")
    assert depth.area_m2 == pytest.approx(0.012)
    assert depth.coefficient.value == rectangular_bar(Bar(2.0, 0.006, 0.05)).value


def test_a_dish_by_the_side_that_meets_the_wind():
    """A bowl of 0.4 m and 0.2 m: 0.38 from the front it bulges to, 1.42 from behind.

    Aeronautical Engineer's Data Book, Fig. 5.13(b), p. 95; half a disc at 1.3 from the side.
    """
    bowl = Body(diameter_m=0.4, depth_m=0.2)
    front, right, behind = force("dome", bowl, np.radians([0.0, 90.0, 180.0]))
    disc_m2 = math.pi * 0.04

    assert front == pytest.approx([0, 0, -0.38 * disc_m2])
    assert behind == pytest.approx([0, 0, 1.42 * disc_m2])
    assert right == pytest.approx([-1.3 * disc_m2 / 2, 0, 0])
    closed = force("dome", bowl._replace(closed=True), np.radians([0.0, 180.0]))
    assert closed[:, 2] == pytest.approx([-0.42 * disc_m2, 1.17 * disc_m2])


def test_a_cone_by_the_end_that_meets_the_wind():
    """Its point is the end without a diameter: from the right it is met point first."""
    cone = SIZES["cone"]
    base_m2 = math.pi / 4 * 0.3**2
    point, base = force("cone", cone, np.radians([90.0, 270.0]))[:, 0]
    _, pointed, based = caught("cone", cone).sides

    assert -point == pytest.approx(pointed.coefficient.value * base_m2)
    assert base == pytest.approx(based.coefficient.value * base_m2)
    assert point > -base
    turned = Body(length_m=0.9, diameter_m=0.1, end_diameter_m=0.3)
    narrow, wide = force("cone", turned, np.radians([270.0, 90.0]))[:, 0]
    assert narrow < -wide


def test_a_ring_of_short_lengths_is_a_circle():
    """In its plane the cross-flow adds up to 8/3 r c q d, face on to 2 pi r c q d: by integration.

    Round the circle the force along the wind is that of |sin| cubed, whose mean is 4 / (3 pi).
    """
    torus = SIZES["torus"]
    value = caught("torus", torus).sides[0].coefficient.value
    face_on, edge_on = (np.linalg.norm(row) for row in force("torus", torus, [0.0, math.pi / 2]))

    assert face_on == pytest.approx(2 * math.pi * 0.47 * value * 0.06)
    assert edge_on == pytest.approx(8 / 3 * 0.47 * value * 0.06, rel=1e-3)


def test_a_hoop_of_a_rod_is_a_torus():
    """The same bent bar by either name; one of flat bar goes by its two sides."""
    assert force("hoop", SIZES["torus"]) == pytest.approx(force("torus", SIZES["torus"]))
    flat = SIZES["hoop"]
    length_m = math.pi * 0.995
    straight = rectangular_bar(Bar(length_m, 0.005, 0.03)).value
    assert force("hoop", flat, [0.0])[0, 2] == pytest.approx(-straight * length_m * 0.005)


SECTIONS = [  # family, the same as
    ("Flat", "flat"),
    ("SHS", "flat"),
    ("RHS", "flat"),
    ("L", "section"),
    ("UPN", "section"),
]


@pytest.mark.parametrize(("family", "shape"), SECTIONS)
def test_rolled_sections_by_their_family(family, shape):
    """Rectangular ones by Figure 7.23, open ones as sharp-edged, round ones as cylinders."""
    body = Body(length_m=2.0, width_m=0.06, depth_m=0.06, family=family)
    expected = force(shape, body._replace(family="L"))

    assert force("section", body) == pytest.approx(expected)


def test_round_sections_are_tubes():
    """A CHS has its diameter as width and depth."""
    section = Body(length_m=2.0, width_m=0.0483, depth_m=0.0483, family="CHS")
    tube = Body(length_m=2.0, diameter_m=0.0483)

    assert force("section", section) == pytest.approx(force("tube", tube))


def test_a_box_end_on_is_no_lighter_than_a_bar():
    """Far deeper than wide, the end effect of 7.6 would give less than handbooks print."""
    end = caught("box", SIZES["box"]).sides[1]

    assert end.coefficient.value == bar_end(1.0, math.sqrt(4 * 0.1 / math.pi)).value
    assert end.coefficient.value > rectangular_bar(Bar(0.5, 0.2, 1.0)).value


def test_openings_of_a_plate():
    """45 % cut away: 1.6 x 0.55 of the whole area, with what the other rules give."""
    (side,) = caught("sheet", PLATE._replace(solidity=0.55)).sides

    assert side.area_m2 == 2.0
    assert side.coefficient.value == pytest.approx(1.6 * 0.55)
    assert side.coefficient.rule.startswith("55% closed, as a sign with openings")


def test_the_finish_tells_the_roughness():
    """Polished or rusty: only what Figure 7.28 would give changes, no dip is taken."""
    smooth, rough = (
        caught("tube", SIZES["tube"]._replace(roughness_m=k, speed_m_s=40.0)).sides[0].coefficient
        for k in (2e-6, 2e-3)
    )

    assert smooth.value == rough.value
    assert smooth.others[0][1] < rough.others[0][1]


@pytest.mark.parametrize("speed_m_s", [1.0, 40.0, 100.0])
def test_no_dip_is_taken_at_any_speed(speed_m_s):
    """A ball of 2 m and a tube of 1 m keep the subcritical 0.5 and 1.2 with the end effect."""
    ball = caught("sphere", Body(diameter_m=2.0, speed_m_s=speed_m_s)).sides[0].coefficient
    tube = caught("tube", Body(length_m=10.0, diameter_m=1.0, speed_m_s=speed_m_s)).sides[0]

    assert ball.value == 0.5
    assert tube.coefficient.value == pytest.approx(1.2 * 0.698)


def test_what_goes_by_its_outline():
    """A mesh may have hollows, an egg has none."""
    assert caught("mesh", Body()).sides[0].coefficient == figure(hollows=True)
    assert caught("ellipsoid", Body()).sides[0].coefficient == figure(hollows=False)
    assert math.isnan(caught("mesh", Body()).sides[0].area_m2)
