"""What a part is said to be like to the wind: half tubes, polygons, towers, panels of wires."""

import math

import numpy as np
import pytest

from estimator.sheets.columns import WIND_AS
from estimator.wind.asce7_frames import (
    chimney,
    diagonal_factor,
    lattice_tower,
    open_sign,
    round_members_factor,
)
from estimator.wind.asce7_shapes import american
from estimator.wind.coefficients import flat_plate
from estimator.wind.elements import Panels, Rounds, panel_forces, round_forces
from estimator.wind.likenesses import LIKENESSES, unlike
from estimator.wind.polygons import polygonal_bar
from estimator.wind.shapes import Body

TROUGH = Body(length_m=2.0, width_m=0.2)
POST = Body(length_m=2.0, diameter_m=0.1)
MESH = Body(length_m=2.0, width_m=1.0, face_m2=2.0, solidity=0.4)
ANGLES = np.radians(np.arange(0.0, 360.0, 15.0))


def force(likeness, body, directions_rad=ANGLES):
    """Return the force of 1 Pa on a part in its own frame, (d, 3)."""
    found = LIKENESSES[likeness].catches(body)
    flat = panel_forces(Panels.of(found.panels), 1.0, np.asarray(directions_rad))
    bent = round_forces(Rounds.of(found.rounds), 1.0, np.asarray(directions_rad))
    return flat.sum(axis=0) + bent.sum(axis=0)


def test_the_workbook_offers_every_one():
    """The column has these to choose from, in this order."""
    assert tuple(LIKENESSES) == WIND_AS


def test_a_half_tube_by_the_side_that_meets_the_wind():
    """2.30 hollow, 1.20 round ("Aeronautical Engineer's Data Book", as quoted); 0.4 m2 of front.

    It bulges the way it faces, which is out: wind from the street meets the round side.
    """
    pushed = force("half tube", TROUGH, [0.0, math.pi])

    assert pushed[:, 2] == pytest.approx([-1.20 * 0.4, 2.30 * 0.4])


def test_a_half_tube_has_an_edge():
    """Half as deep as wide unless its depth is told; a closed figure, 1.3."""
    beside = Body(length_m=2.0, width_m=0.2, depth_m=0.1)
    meets = {side.meets: side for side in LIKENESSES["half tube"].catches(beside).sides}

    assert meets["edge to the wind"].area_m2 == pytest.approx(0.2)
    assert meets["edge to the wind"].coefficient.value == 1.3
    assert LIKENESSES["half tube"].catches(TROUGH).sides == tuple(meets.values())


@pytest.mark.parametrize("sides", [5, 6, 8, 10, 12, 16, 18])
def test_a_polygon_is_pushed_alike_from_all_sides(sides):
    """Its largest value of Table 7.11 on length times width, all across."""
    upright = np.array([[0.0, -1.0, 0.0], [1.0, 0.0, 0.0], [0.0, 0.0, 1.0]])
    found = LIKENESSES[f"{sides} sides"].catches(POST)
    pushed = round_forces(Rounds.of(found.rounds).turned(upright), 1.0, ANGLES)[0]

    expected = polygonal_bar(sides, 2.0, 0.1).value * 0.2
    assert np.linalg.norm(pushed, axis=1) == pytest.approx(np.full(24, expected))
    assert found.sides[0].coefficient.confirmed


@pytest.mark.parametrize(
    ("sides", "shape"),
    [(5, "square, face to the wind"), (6, "six or eight sides"), (8, "six or eight sides"),
     (12, "round, rough")],
)  # fmt: skip
def test_a_polygon_is_a_chimney_in_the_american_rule(sides, shape):
    """Figure 29.4-1 at a height of 20 widths; what it has no row for takes a heavier one."""
    post = POST._replace(book=american(1.0))
    found = LIKENESSES[f"{sides} sides"].catches(post).sides[0].coefficient

    assert found.value == chimney(shape, 20.0).value
    assert found.confirmed == (sides in {6, 8})


def test_a_tower_on_what_is_closed_of_one_face():
    """Figure 29.4-3 with 30 % closed: 4.0 e2 - 5.9 e + 4.0 = 2.59, diagonal 1.2; rounds 0.6159."""
    tower = Body(length_m=3.0, width_m=0.4, depth_m=0.5, solidity=0.3)
    flats, rounds = (
        LIKENESSES[name].catches(tower).sides[0]
        for name in ("lattice tower", "lattice tower of rounds")
    )

    assert lattice_tower("square", 0.3).value == pytest.approx(2.59)
    assert flats.area_m2 == pytest.approx(0.3 * 3.0 * 0.5)
    assert flats.coefficient.value == pytest.approx(2.59 * diagonal_factor(0.3))
    assert rounds.coefficient.value == pytest.approx(
        flats.coefficient.value * round_members_factor(0.3)
    )


def test_round_wires_by_the_larger_of_two_rules():
    """0.4 closed: a mesh 0.4 of the plate, an open sign of rounds 0.4 x 1.5 = 0.6 of the whole."""
    found = LIKENESSES["round wires"].catches(MESH).sides[0].coefficient

    assert found.value == pytest.approx(0.4 * open_sign(0.4, "round").value)
    assert dict(found.others)["the same without openings"] == flat_plate(2.0, 1.0).value
    assert found.value < 0.4 * open_sign(0.4).value


@pytest.mark.parametrize("name", LIKENESSES)
def test_nothing_is_pushed_against_the_wind(name):
    """Whatever it is like, from every side."""
    body = MESH if name == "round wires" else TROUGH._replace(depth_m=0.1, solidity=0.5)
    wind = -np.stack([np.sin(ANGLES), np.zeros(24), np.cos(ANGLES)], axis=-1)

    assert (np.einsum("di,di->d", force(name, body), wind) >= -1e-12).all()


SIZED = {"length": 2.0, "width": math.nan, "diameter": 0.1}


@pytest.mark.parametrize(
    ("name", "shape", "sizes", "why"),
    [
        ("6 sides", "rod", SIZED, ""),
        ("round wires", "sheet", SIZED, ""),
        ("round wires", "rod", SIZED, "a rod is no flat panel"),
        ("half tube", "sphere", SIZED | {"length": math.nan},
         "a sphere of these sizes has no length with a width or diameter across it"),
    ],
)  # fmt: skip
def test_what_cannot_be_like_that(name, shape, sizes, why):
    """The message goes on with what is wanted."""
    assert unlike(name, shape, sizes) == why
