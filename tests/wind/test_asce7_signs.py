"""Laws of signs by ASCE 7, chapter 29; the values of its figures are in published/."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind.asce7_frames import (
    chimney,
    lattice_tower,
    open_sign,
    round_members_factor,
    round_regime,
)
from estimator.wind.asce7_signs import (
    ASPECTS,
    CASE_C_ASPECT,
    CLEARANCES,
    PLACES,
    SIGN_TABLE,
    Sign,
    at_least,
    case_c_strips,
    least_coefficient,
    middle_cases,
    openings_factor,
    return_corner_factor,
    sign_cases,
    sign_coefficient,
    solid_sign,
)
from estimator.wind.asce7_walls import (
    HIGH,
    edge_notes,
    flat_on_wall,
    off_wall,
    reference_height,
    wall_component,
    wall_of,
)
from estimator.wind.coefficients import entered

aspects = st.floats(0.01, 80.0)
clearances = st.floats(0.05, 1.0)
sizes = st.floats(0.1, 20.0)


@given(aspects, clearances)
def test_between_cells_nothing_leaves_the_cells_around(aspect, clearance):
    """Bilinear: never above or below the four cells round a place, level outside the figure."""
    a = min(max(sum(x <= aspect for x in ASPECTS) - 1, 0), len(ASPECTS) - 2)
    c = min(max(sum(x <= clearance for x in CLEARANCES) - 1, 0), len(CLEARANCES) - 2)
    cells = [SIGN_TABLE[i][j] for i in (c, c + 1) for j in (a, a + 1)]

    assert min(cells) - 1e-12 <= sign_coefficient(aspect, clearance) <= max(cells) + 1e-12


@given(aspects, clearances)
def test_no_jump_anywhere(aspect, clearance):
    """A millionth wider or higher changes the coefficient by no more than a millionth or so."""
    here = sign_coefficient(aspect, clearance)

    assert sign_coefficient(aspect * (1 + 1e-6), clearance) == pytest.approx(here, abs=1e-5)
    assert sign_coefficient(aspect, clearance * (1 - 1e-6)) == pytest.approx(here, abs=1e-5)


@given(aspects)
def test_a_sign_nearer_the_ground_feels_no_more(aspect):
    """Down each column of the figure C_f never falls as s/h falls."""
    found = [sign_coefficient(aspect, c) for c in CLEARANCES]

    assert found == sorted(found, reverse=True)


@given(st.floats(2.0, 90.0), sizes, st.floats(1.0, 5.0))
def test_strips_cover_the_sign_once(aspect, height_m, up):
    """They follow one another from edge to edge."""
    sign = Sign(aspect * height_m, height_m, up * height_m)
    strips = case_c_strips(sign)

    assert strips[0].start_m == 0.0
    assert strips[-1].end_m == pytest.approx(sign.width_m)
    assert all(a.end_m == pytest.approx(b.start_m) for a, b in pairwise(strips))
    assert all(strip.end_m > strip.start_m for strip in strips)


@given(sizes, sizes, st.floats(0.0, 20.0), st.floats(0.71, 1.0))
def test_cases_of_a_sign_are_a_mirror(width_m, height_m, below_m, solidity):
    """Left and right are alike; A in the middle, B 0.2 of the width off, C only of the wide."""
    sign = Sign(width_m, height_m, below_m + height_m, solidity)
    case = dict(zip(PLACES, sign_cases(sign, solid_sign(sign)), strict=True))
    middle, right, left, from_right, from_left = case.values()

    assert middle.right_m == 0.0
    assert right == middle._replace(right_m=pytest.approx(0.2 * width_m))
    assert left == right._replace(right_m=-right.right_m)
    assert from_left == from_right._replace(right_m=-from_right.right_m)
    assert (from_right == middle) == (sign.aspect < CASE_C_ASPECT)
    assert 0.0 <= from_right.right_m < width_m / 2


@given(st.floats(2.0, 50.0), sizes, st.floats(0.71, 1.0))
def test_strips_and_openings_lower_the_whole_alike(aspect, height_m, solidity):
    """On the whole area both cases are times the same factor; on the closed part over solidity."""
    wide = Sign(aspect * height_m, height_m, 3 * height_m)
    pierced = wide._replace(solidity=solidity)
    factor = openings_factor(solidity) / solidity

    for closed, open_ in zip(
        sign_cases(wide, solid_sign(wide)), sign_cases(pierced, solid_sign(pierced)), strict=True
    ):
        assert open_.coefficient == pytest.approx(factor * closed.coefficient)
        assert open_.right_m == pytest.approx(closed.right_m)


def test_signs_on_the_ground_are_pushed_higher_up():
    """At s/h = 1 the force is 0.05 of the height above the middle, else in it."""
    ground, air = Sign(3.0, 2.0, 2.0), Sign(3.0, 2.0, 2.5)

    assert [p.up_m for p in middle_cases(ground, solid_sign(ground))] == [0.1] * 5
    assert [p.up_m for p in middle_cases(air, solid_sign(air))] == [0.0] * 5
    assert Sign(3.0, 2.0, 1.5).clearance == 1.0


def test_an_open_sign_goes_by_its_closed_part():
    """With 30 % or more of openings: 1.6 on flat members, and no strips."""
    sign = Sign(10.0, 2.0, 6.0, 0.7)
    board = solid_sign(sign)

    assert (board.value, board.rule) == (1.6, "open sign, 70% closed, flat members")
    assert sign_cases(sign, board)[3:] == (sign_cases(sign, board)[0],) * 2


def test_a_pierced_sign_says_so():
    """A quarter open."""
    assert solid_sign(Sign(2.0, 2.0, 6.0, 0.75)).rule == "solid sign, B/s 1.00, s/h 0.33, 25% open"


@given(st.floats(100.0, 5000.0), st.floats(0.5, 3.0))
def test_the_least_pressure_holds(pressure_pa, value):
    """No coefficient gives less than 770 Pa, and one that gives more is left alone."""
    given_ = entered(value, "engineer")
    found = at_least(given_, least_coefficient(pressure_pa))

    assert found.value * pressure_pa == pytest.approx(max(770.0, value * pressure_pa))
    assert (found is given_) == (value * pressure_pa >= 770.0 * (1 - 1e-12))


def test_strips_keep_to_the_least_pressure():
    """A mean of strips below the least is raised to it."""
    wall = Sign(20.0, 2.0, 2.0)

    assert sign_cases(wall, solid_sign(wall))[3].coefficient < 1.3
    assert sign_cases(wall, solid_sign(wall), least=1.9)[3].coefficient == 1.9


@given(st.floats(0.05, 100.0), st.floats(0.05, 100.0))
def test_larger_walls_feel_less(one_m2, other_m2):
    """Gusts do not fill a large area: (GC_p) never grows with it."""
    small, large = sorted((one_m2, other_m2))

    assert wall_component(small) >= wall_component(large)


def test_on_a_wall_nothing_is_confirmed():
    """That signs on a wall go by wall components is from memory; off a wall no clause speaks."""
    sign = Sign(1.0, 1.0, 5.0)
    flat, off = flat_on_wall(sign, 1.0, 0.85), off_wall(sign, 1.0, 0.85)

    assert not flat.confirmed
    assert not off.confirmed
    assert off.value == solid_sign(sign).value
    assert "from memory" in flat.source
    assert "outside what that figure covers" in off.source
    assert {rule for rule, _ in off.others} > {"wall itself, zone 4, suction, over G"}


def test_pressure_is_read_at_the_top_or_at_the_building():
    """29.3.1 top of the sign; a taller building takes its place (from memory)."""
    assert reference_height(6.0, None) == (6.0, "its top, as for a sign (ASCE 7 29.3.1)")
    assert reference_height(6.0, 5.0).height_m == 6.0
    assert reference_height(6.0, 9.0).height_m == 9.0
    assert "from memory" in reference_height(6.0, 9.0).reason


def test_edges_of_a_wall():
    """Past an edge the wall's own pressures are not for it; a parapet not told is asked for."""
    past = edge_notes(-0.1, -0.2, 9.0)

    assert "reaches past the end and the top of the wall" in past[1]
    assert len(past) == 2
    assert edge_notes(1.0, 1.0, 9.0) == past[:1]
    assert edge_notes(None, None, None)[2].startswith("Wind speeds up over a parapet")
    assert "no higher than 18.3 m (60 ft)" in edge_notes(1.0, 1.0, None)[1]


@pytest.mark.parametrize(
    ("building_m", "corner", "field", "pressed"),
    [(None, 1.4, 1.1, 1.0), (18.2, 1.4, 1.1, 1.0), (18.4, 1.8, 0.9, 0.9)],
)
def test_walls_above_sixty_feet_have_a_figure_of_their_own(building_m, corner, field, pressed):
    """Small areas: Figure 30.3-1 up to 60 ft; Figure 30.4-1 above it, from memory."""
    wall = wall_of(building_m)

    assert [wall_component(0.5, zone, wall) for zone in wall.zones] == [corner, field, pressed]
    found = flat_on_wall(Sign(0.7, 0.7, 9.0), 0.5, 0.85, wall)
    assert found.value == pytest.approx(corner / 0.85)
    assert wall.figure in found.source


@given(st.floats(0.05, 100.0))
def test_high_walls_suck_harder_at_their_corners(area_m2):
    """1.8 to 1.0 against 1.4 to 0.8: a quarter harder at least."""
    assert wall_component(area_m2, wall=HIGH) >= 1.25 * wall_component(area_m2) - 1e-12


@given(st.floats(0.3, 3.0), st.floats(5.0, 40.0))
def test_longer_returns_leave_less(length, aspect):
    """From 0.9 at 0.3 to 0.6 at 2 and beyond."""
    assert 0.6 <= return_corner_factor(length, aspect) <= 0.9


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: sign_coefficient(0.0, 0.5), "aspect"),
        (lambda: solid_sign(Sign(0.0, 1.0, 1.0)), "width_m"),
        (lambda: openings_factor(0.7), "closed by more than 0.7"),
        (lambda: wall_component(0.0), "area_m2"),
        (lambda: least_coefficient(0.0), "pressure_pa"),
        (lambda: round_regime(0.0, 1.0), "diameter_m"),
        (lambda: chimney("star", 1.0), "one of square, face"),
        (lambda: chimney("round, rough", 0.0), "slenderness"),
        (lambda: open_sign(0.71), "at most 0.7"),
        (lambda: open_sign(0.5, "bent"), "flat or round"),
        (lambda: lattice_tower("hexagon", 0.3), "square, triangle"),
        (lambda: lattice_tower("square", 1.0), "less than 1"),
        (lambda: round_members_factor(0.0), "more than 0"),
    ],
)
def test_what_no_sign_can_be_is_refused(call, message):
    """Refused in words."""
    with pytest.raises(ValueError, match=message):
        call()
