"""Laws of wind on elements: reversal, scaling, never against the wind, no jumps by direction."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind.elements import (
    STALL_RAD,
    Panel,
    Panels,
    Round,
    Rounds,
    panel_forces,
    round_forces,
    stall_of,
    wandering,
)
from estimator.wind.figures import crosswind, travel

ALL_ROUND = np.radians(np.arange(0.0, 360.0, 15.0))
ways = st.tuples(*[st.floats(-1.0, 1.0)] * 3).filter(lambda way: np.linalg.norm(way) > 0.1)
angles = st.floats(0.0, 2 * math.pi)


def unit(way):
    """Return a vector of length one."""
    return tuple(np.asarray(way) / np.linalg.norm(way))


@given(ways, angles)
def test_a_plate_is_pushed_along_its_normal(normal, direction_rad):
    """Pressure acts square to a plate, whichever face its normal was drawn on."""
    out = np.array(unit(normal))
    sides = Panels.of([Panel(2.0, way, 1.8, 1.8) for way in (tuple(out), tuple(-out))])
    one, other = panel_forces(sides, 900.0, np.array([direction_rad]))[:, 0]

    assert np.cross(one, out) == pytest.approx(np.zeros(3), abs=1e-9)
    assert other == pytest.approx(one)


SLANTS = [(0, 1.0), (30, 1.0), (45, 1.0), (60, 0.7071), (90, 0.0)]


@pytest.mark.parametrize(("slant_deg", "share"), SLANTS)
def test_a_plate_keeps_its_force_to_45_degrees(slant_deg, share):
    """Common practice, no source: full to 45 degrees, then cos(60)/cos(45) = 0.7071, then none."""
    plate = Panels.of([Panel(2.0, (0.0, 0.0, 1.0), 1.8, 1.8)])
    found = panel_forces(plate, 900.0, np.radians([slant_deg]))[0, 0]

    assert found == pytest.approx([0, 0, -900.0 * 1.8 * 2.0 * share], abs=0.1)


@pytest.mark.parametrize(("slant_deg", "share"), [(0, 1.0), (60, 0.25), (90, 0.0)])
def test_a_slanting_bar_feels_the_square_of_the_cross_flow(slant_deg, share):
    """Leaning 60 degrees into the wind it is crossed by half of it, so by a quarter of q."""
    slant = math.radians(slant_deg)
    axis = (0.0, math.cos(slant), math.sin(slant))
    found = round_forces(Rounds.of([Round(0.5, 1.2, axis)]), 1000.0, np.zeros(1))[0, 0]

    assert np.linalg.norm(found) == pytest.approx(600.0 * share, abs=1e-9)
    assert found @ axis == pytest.approx(0.0, abs=1e-9)


@given(angles)
def test_a_ball_is_pushed_along_the_wind(direction_rad):
    """Alike from all sides: q c A."""
    (found,) = round_forces(Rounds.of([Round(0.5, 0.5)]), 900.0, np.array([direction_rad]))[0]

    assert found == pytest.approx(900.0 * 0.5 * 0.5 * travel(direction_rad))


@given(st.lists(st.tuples(ways, st.floats(0.1, 3.0)), min_size=1, max_size=4))
def test_many_come_out_as_each_by_itself(some):
    """Panels and directions together are the same as one at a time."""
    panels = [Panel(area_m2, unit(normal), 1.2, 0.4) for normal, area_m2 in some]
    together = panel_forces(Panels.of(panels), 800.0, ALL_ROUND)

    for i, panel in enumerate(panels):
        for j, direction_rad in enumerate(ALL_ROUND):
            alone = panel_forces(Panels.of([panel]), 800.0, np.array([direction_rad]))
            assert together[i, j] == pytest.approx(alone[0, 0])


@given(ways, ways, angles, st.sampled_from([0.0, 0.4, STALL_RAD]))
def test_reversing_the_wind_swaps_the_sides(normal, along, direction_rad, stall_rad):
    """Same size the other way for equal sides; for unequal ones that of the turned panel."""
    ahead, behind = np.array([direction_rad]), np.array([direction_rad + math.pi])
    along = unit(np.cross(normal, along) + np.array([1e-3, 0, 0]))
    equal = Panels.of([Panel(1.0, unit(normal), 1.3, 1.3, along, stall_rad)])
    sided = Panels.of([Panel(1.0, unit(normal), 0.4, 1.4, along, stall_rad)])
    swapped = Panels.of([Panel(1.0, unit(normal), 1.4, 0.4, along, stall_rad)])

    assert panel_forces(equal, 1.0, behind) == pytest.approx(
        -panel_forces(equal, 1.0, ahead), abs=1e-9
    )
    assert panel_forces(sided, 1.0, behind) == pytest.approx(
        -panel_forces(swapped, 1.0, ahead), abs=1e-9
    )


@given(ways, angles, st.floats(1.0, 3000.0), st.floats(0.01, 10.0))
def test_force_grows_with_pressure_and_area(normal, direction_rad, pressure_pa, area_m2):
    """Both once: F = c q A."""
    directions = np.array([direction_rad])
    one = panel_forces(Panels.of([Panel(1.0, unit(normal), 1.2, 0.7)]), 1.0, directions)
    many = panel_forces(
        Panels.of([Panel(area_m2, unit(normal), 1.2, 0.7)]), pressure_pa, directions
    )

    assert many == pytest.approx(pressure_pa * area_m2 * one, rel=1e-9, abs=1e-9)


@given(ways, ways, angles, st.floats(0.0, STALL_RAD))
def test_no_element_is_pushed_against_the_wind(normal, along, direction_rad, stall_rad):
    """Pressure pushes downwind, whichever way a thing leans."""
    directions = np.array([direction_rad])
    wind = travel(direction_rad)
    along = unit(along)
    across = np.asarray(normal) - np.dot(normal, along) * np.asarray(along)
    if np.linalg.norm(across) < 0.01:
        return
    panels = Panels.of([Panel(1.0, unit(across), 1.2, 0.4, along, stall_rad)])

    assert panel_forces(panels, 1.0, directions)[0, 0] @ wind >= -1e-9
    assert round_forces(Rounds.of([Round(1.0, 1.2, along)]), 1.0, directions)[0, 0] @ wind >= -1e-9


@pytest.mark.parametrize("depth_over_width", [0.02, 0.2, 0.5, 1.0, 3.0])
def test_nothing_jumps_by_direction(depth_over_width):
    """A hair of direction is a hair of force, from face-on to edge-on and round again."""
    directions = np.radians(np.arange(0.0, 360.0, 0.05))
    panels = Panels.of([Panel(1.0, (0.0, 0.0, 1.0), 1.4, 0.4,
                              stall_rad=stall_of(depth_over_width))])  # fmt: skip
    found = panel_forces(panels, 1.0, directions)[0]

    assert np.abs(np.diff(found, axis=0)).max() < 2e-3


def test_how_a_side_stalls():
    """A plate until 45 degrees, a square and anything deeper not at all, between them less."""
    depths = np.geomspace(0.05, 5.0, 200)
    stalls = [stall_of(depth) for depth in depths]

    assert (stall_of(0.1), stall_of(0.2)) == (STALL_RAD, STALL_RAD)
    assert (stall_of(1.0), stall_of(4.0)) == (0.0, 0.0)
    assert stalls == sorted(stalls, reverse=True)


def test_a_square_bar_feels_alike_from_all_sides():
    """Face-on c q A, and with its edge to the wind the same: handbooks print 1.04 times it."""
    up = (0.0, 1.0, 0.0)
    panels = Panels.of([Panel(1.0, (0.0, 0.0, 1.0), 1.5, 1.5, up, 0.0),
                        Panel(1.0, (1.0, 0.0, 0.0), 1.5, 1.5, up, 0.0)])  # fmt: skip
    found = panel_forces(panels, 1000.0, ALL_ROUND).sum(axis=0)

    assert found == pytest.approx(1500.0 * travel(ALL_ROUND))


def test_slanting_wind_on_a_long_side():
    """Half of the speed squared is left at 45 degrees along the bar, and no more along it."""
    panels = Panels.of([Panel(1.0, (0.0, 0.0, 1.0), 1.5, 1.5, (1.0, 0.0, 0.0), 0.0)])
    face_on, slanting, lengthwise = panel_forces(panels, 1.0, np.radians([0.0, 45.0, 90.0]))[0]

    assert face_on == pytest.approx([0, 0, -1.5])
    assert slanting == pytest.approx([0, 0, -0.75])
    assert lengthwise == pytest.approx([0, 0, 0], abs=1e-9)


def board(spread_m, *, rounded=False, normal=(0.0, 0.0, 1.0)):
    """Return one board as panels."""
    return Panels.of([Panel(1.0, normal, 1.0, 1.0, spread_m=spread_m, rounded=rounded)])


def test_a_force_wanders_by_the_level_width():
    """A board of 2 x 1 m: 2 m to the right of the wind's way; stood on end 1 m."""
    wide = board(((2.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
    tall = board(((0.0, 2.0, 0.0), (-1.0, 0.0, 0.0)))

    assert wandering(wide, np.array([0.0]))[0, 0] == pytest.approx(2.0 * crosswind(0.0))
    assert wandering(wide, np.array([math.pi]))[0, 0] == pytest.approx(2.0 * crosswind(math.pi))
    assert wandering(tall, np.array([0.0]))[0, 0] == pytest.approx(1.0 * crosswind(0.0))


@given(angles)
def test_a_disc_is_as_wide_however_it_is_turned(turn_rad):
    """2 m, though the sides of a square would be 2.8 m across its corners."""
    cos, sin = 2 * math.cos(turn_rad), 2 * math.sin(turn_rad)
    spread = ((cos, sin, 0.0), (-sin, cos, 0.0))

    found = np.linalg.norm(wandering(board(spread, rounded=True), np.array([0.0])))
    square = np.linalg.norm(wandering(board(spread), np.array([0.0])))
    assert found == pytest.approx(2.0)
    assert square >= found - 1e-9


def test_a_board_that_lies_level_has_no_level_width_of_its_own():
    """The level wind does not push it either."""
    flat = board(((2.0, 0.0, 0.0), (0.0, 0.0, 1.0)), normal=(0.0, 1.0, 0.0))

    assert wandering(flat, ALL_ROUND) == pytest.approx(0.0)
    assert panel_forces(flat, 1000.0, ALL_ROUND) == pytest.approx(0.0)


def test_nothing_gathered_is_no_force():
    """Without any element there is nothing to add up."""
    assert panel_forces(Panels.of([]), 1.0, ALL_ROUND).shape == (0, 24, 3)
    assert round_forces(Rounds.of([]), 1.0, ALL_ROUND).shape == (0, 24, 3)


@given(ways, angles, angles)
def test_turning_the_parts_turns_the_force(normal, direction_rad, turn_rad):
    """Parts swung about up feel what they felt from a wind that much further round, turned too."""
    cos, sin = math.cos(turn_rad), math.sin(turn_rad)
    swing = np.array([[cos, 0.0, sin], [0.0, 1.0, 0.0], [-sin, 0.0, cos]])
    sides = ((0.6, 0.0, 0.0), (0.0, 0.4, 0.0))
    panels = Panels.of([Panel(1.0, unit(normal), 1.2, 0.4, spread_m=sides)])
    rounds = Rounds.of([Round(1.0, 1.2, unit(normal))])
    ahead, round_again = np.array([direction_rad]), np.array([direction_rad + turn_rad])

    for elements, forces in ((panels, panel_forces), (rounds, round_forces)):
        found = forces(elements.turned(swing), 1.0, round_again)
        assert found == pytest.approx(forces(elements, 1.0, ahead) @ swing.T, abs=1e-9)
    assert panels.turned(swing).spread_m == pytest.approx(panels.spread_m @ swing.T)
