"""What hangs against a wall: both senses, the directions that reach it, the height, the edges."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind import walls
from estimator.wind.walls import Face, wall_forces

FACE = Face(front_area_m2=2.0, side_area_m2=0.5)


def test_forces_by_hand():
    """1.80 x 1000 Pa x 2 m2 = 3600 N; along (1.3 x 0.5 + 0.04 x 2) x 1000 Pa = 730 N."""
    normal, along = walls.assumed_on_wall().value, walls.ASSUMED_ALONG

    from_street, from_right = wall_forces(FACE, 1000.0, normal, along, np.deg2rad([0.0, 90.0]))

    assert from_street == pytest.approx(np.array([(0, 0, -3600), (0, 0, 3600)]))
    assert from_right == pytest.approx(np.array([(-730, 0, -3600), (-730, 0, 3600)]))


@given(st.floats(-np.pi / 2, np.pi / 2), st.floats(1.0, 3e3), st.floats(0.1, 3.0))
def test_suction_mirrors_pressure_and_left_mirrors_right(direction_rad, pressure_pa, factor):
    """Senses differ only in the sign of out, mirrored winds only in that of across; linear in q."""
    pressed, pulled = wall_forces(FACE, pressure_pa, 1.8, walls.ASSUMED_ALONG, direction_rad)
    mirrored = wall_forces(FACE, pressure_pa, 1.8, walls.ASSUMED_ALONG, -direction_rad)

    assert pressed * [1, 1, -1] == pytest.approx(pulled)
    assert mirrored[0] * [-1, 1, 1] == pytest.approx(pressed)
    assert wall_forces(FACE, factor * pressure_pa, 1.8, walls.ASSUMED_ALONG, direction_rad)[
        1
    ] == pytest.approx(factor * pulled)


def test_drag_along_the_wall_goes_with_the_square_of_the_wind_along_it():
    """From 30 degrees half the wind blows along the wall, so a quarter of 730 N, to the left."""
    found = wall_forces(FACE, 1000.0, 1.8, walls.ASSUMED_ALONG, np.deg2rad([30.0, -30.0]))

    assert found[:, 0, 0] == pytest.approx([-182.5, 182.5])


def test_wind_from_behind_is_refused():
    """What hangs against a wall is in the lee of it."""
    with pytest.raises(ValueError, match="270-0-90"):
        wall_forces(FACE, 1000.0, 1.8, walls.ASSUMED_ALONG, np.deg2rad([0.0, 135.0]))


@pytest.mark.parametrize(
    ("stands", "reached"),
    [
        ("flat to wall", {0, 45, 90, 270, 315}),
        ("off wall", {0, 45, 90, 270, 315}),
        ("projecting", {0, 45, 90, 270, 315}),
        ("free", {0, 45, 90, 135, 180, 225, 270, 315}),
    ],
)
def test_only_what_stands_free_is_reached_from_behind(stands, reached):
    """Directions from behind count only for what is clear of the building."""
    assert {d for d in range(0, 360, 45) if walls.reaches(stands, d)} == reached


@pytest.mark.parametrize(
    ("stands", "building_m", "expected_m", "said"),
    [
        ("flat to wall", 12.0, 12.0, "building's height"),
        ("off wall", 12.0, 12.0, "building's height"),
        ("flat to wall", 4.0, 5.0, "building's height"),
        ("off wall", None, 5.0, "not known"),
        ("projecting", 12.0, 5.0, "own middle"),
        ("free", 12.0, 5.0, "own middle"),
    ],
)
def test_height_the_rule_names(stands, building_m, expected_m, said):
    """A building's height for what lies against it, never below the thing itself."""
    found = walls.reference_height(stands, 5.0, building_m)

    assert found.height_m == expected_m
    assert said in found.reason


def test_assumed_values_are_marked_and_cover_the_wall_itself():
    """Nothing in the standard covers them, and no zone of the wall sucks harder than assumed."""
    normal, along = walls.assumed_on_wall(), walls.assumed_along_wall()

    assert normal.value == 1.80
    assert not normal.confirmed
    assert not along.confirmed
    assert "assumed" in normal.rule
    assert all(abs(value) <= normal.value for _, value in normal.others)
    assert all(value <= along.value for _, value in along.others)


@pytest.mark.parametrize(
    ("distance_m", "letter", "whole", "local"),
    [
        (0.0, "A", -1.2, -1.4),
        (3.9, "A", -1.2, -1.4),
        (4.0, "B", -0.8, -1.1),
        (19.9, "B", -0.8, -1.1),
        (20.0, "C", -0.5, -0.5),
    ],
)
def test_corner_zones(distance_m, letter, whole, local):
    """From memory of 7.2.2 and Table 7.1: h = 10 m, wide building, e = 20 m; A to e/5, B to e."""
    zone = walls.corner_zone(distance_m, 10.0)

    assert (zone.letter, zone.edge_m, zone.zone_a_m) == (letter, 20.0, 4.0)
    assert (zone.whole, zone.local) == (whole, local)
    assert "from memory" in zone.reason


def test_narrow_building_has_narrow_zones():
    """From memory of 7.2.2: e = min(b, 2h), so 6 m for a building 6 m across the wind."""
    assert walls.corner_zone(1.0, 10.0, 6.0).zone_a_m == pytest.approx(1.2)
    assert walls.corner_zone(1.3, 10.0, 6.0).letter == "B"


def test_edges_are_asked_for_or_spoken_of():
    """Unknown distances are asked for; what rises over the parapet is said."""
    unknown = walls.edge_notes(None, None, 10.0)
    known = walls.edge_notes(1.0, 2.0, 10.0)
    above = walls.edge_notes(1.0, -0.5, 10.0)

    assert "give the building height and the distance" in unknown[0]
    assert "give the distance to the top" in unknown[1]
    assert walls.edge_notes(1.0, 2.0, None)[0] == unknown[0]
    assert len(known) == 1
    assert "zone A" in known[0]
    assert "0.50 m above the top of the wall" in above[1]


def test_what_reaches_past_the_corner_is_said():
    """And the zone is that of the corner itself, as wide as a shallow building makes it."""
    zone, past = walls.edge_notes(-0.3, 1.0, 10.0, 6.0)

    assert zone.startswith("0.00 m from the corner is zone A")
    assert "reaches 1.20 m" in zone
    assert past.startswith("It reaches 0.30 m past the corner")
