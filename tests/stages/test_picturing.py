"""Drawings: outlines in three views, boxes, sweeps, and what is too much to draw."""

import math

import numpy as np
import pytest

BOX = {"part": "B", "shape": "box", "length": "1 m", "width": "600 mm", "depth": "200 mm",
       "made of": "softwood"}  # fmt: skip


@pytest.fixture(scope="module")
def pictures(steps):
    """Return a function that draws a job."""
    return lambda **sheets: steps(upto="pictures", **sheets)["pictures"]


def corners(drawn):
    """Return the lowest and the highest corner of an outline."""
    return [drawn.loop.outer_m.min(axis=0), drawn.loop.outer_m.max(axis=0)]


VIEWS = [  # view, lowest corner, highest corner of a box at 2 m right, 3 m up, 0.5 m out
    ("front", (1.5, 2.7), (2.5, 3.3)),
    ("side", (0.4, 2.7), (0.6, 3.3)),
    ("plan", (1.5, 0.4), (2.5, 0.6)),
]


@pytest.mark.parametrize(("name", "low", "high"), VIEWS)
def test_a_box_in_every_view(pictures, name, low, high):
    """Front is across and up, side is out and up, plan is across and out."""
    at = {"across": "2 m", "up": "3 m", "out": "500 mm"}
    (drawn,) = pictures(parts=[BOX | at]).views[name]

    found = corners(drawn)
    assert found[0] == pytest.approx(low)
    assert found[1] == pytest.approx(high)
    assert (drawn.part, drawn.assembly, drawn.kind) == ("B", "a", "part")


def test_the_nearer_is_the_deeper(pictures):
    """Seen from the street what stands further out is nearer; in plan what is higher."""
    rows = [BOX | {"part": "far", "out": "100 mm", "up": "2 m"},
            BOX | {"part": "near", "out": "600 mm"}]  # fmt: skip
    views = pictures(parts=rows).views
    depths = {name: {d.part: d.depth_m for d in views[name]} for name in views}

    assert depths["front"]["near"] > depths["front"]["far"]
    assert depths["plan"]["far"] > depths["plan"]["near"]


def test_a_ring_is_drawn_with_its_hole(pictures):
    """A ring of 2.46 / 2.32 m has an outline and one hole."""
    ring = {"part": "R", "shape": "ring", "diameter": "2.46 m", "bore": "2.32 m",
            "made of": "copper", "gauge": "1 mm"}  # fmt: skip
    (drawn,) = pictures(parts=[ring]).views["front"]

    assert len(drawn.loop.holes_m) == 1
    radius_m = np.linalg.norm(drawn.loop.outer_m, axis=1)
    # A polygon with the area of the circle stands out by less than 0.2 %.
    assert radius_m == pytest.approx(np.full(len(radius_m), 1.23), rel=2e-3)


def test_brackets_and_movers_are_told_apart(pictures):
    """Arms and plates are brackets, what moves is a mover, all else is a part."""
    found = pictures(
        parts=[BOX, BOX | {"part": "H", "assembly": "hand"}],
        assemblies=[{"assembly": "a"}, {"assembly": "hand", "moves": "turns"}],
        brackets=[{"bracket": "B1", "set": "s", "across": "0 m", "up": "0 m", "reach": "300 mm",
                   "section": "SHS 60x60x4", "grade": "mild steel", "holds": "welded"}],
    )  # fmt: skip

    kinds = {d.assembly: d.kind for d in found.views["front"]}
    assert kinds == {"a": "part", "hand": "mover", "brackets s": "bracket"}


HAND = {"assembly": "hand", "moves": "turns", "axis": "out", "positions": 12}


def test_a_hand_sweeps_a_circle(pictures):
    """1 m long from its axle and 20 mm wide, 12 positions: within its circle, beyond 0.9 of it."""
    rod = BOX | {"assembly": "hand", "up": "500 mm", "along": "up", "width": "20 mm"}
    sweeps = pictures(parts=[rod], assemblies=[HAND]).sweeps["front"]

    ((mover, loop),) = sweeps
    reach_m = np.linalg.norm(loop.outer_m, axis=1)
    tip_m = math.hypot(1.0, 0.01)
    assert mover == "hand"
    assert reach_m.max() <= tip_m + 1e-6
    assert reach_m.min() >= 0.9


def test_what_is_fixed_sweeps_nothing(pictures):
    """No mover, no sweep."""
    assert pictures(parts=[BOX]).sweeps == {"front": (), "side": (), "plan": ()}


def test_boxes_follow_every_position(pictures):
    """A box at the end of 2 m, turned by 90 degrees about out: its box is turned as well."""
    found = pictures(
        parts=[BOX | {"assembly": "hand", "across": "2 m"}],
        assemblies=[{"assembly": "frame"}, HAND | {"to": "90 deg", "positions": 2, "up": "1 m"}],
    )
    hand = found.boxes_m[1]

    assert found.boxes_m[0] == ({},)
    assert hand[0][1] == pytest.approx(np.array([[1.5, 0.7, -0.1], [2.5, 1.3, 0.1]]))
    assert hand[1][1] == pytest.approx(np.array([[-0.3, 2.5, -0.1], [0.3, 3.5, 0.1]]))


def test_too_many_to_draw(pictures):
    """4001 copies are not drawn one by one; their box is still known."""
    row = BOX | {"count": 4001, "set out": "row", "spread": "8 m"}
    found = pictures(parts=[row])

    assert not found.drawn
    assert found.views == {"front": (), "side": (), "plan": ()}
    assert found.sweeps == {"front": (), "side": (), "plan": ()}
    assert found.boxes_m[0][0][0][1, 0] == pytest.approx(4.5, abs=0.5)


def test_a_flat_part_is_drawn_in_every_view(steps):
    """A disc that faces the street is a thin line from the side and from above, as long as wide."""
    disc = {"part": "D", "shape": "disc", "diameter": "800 mm", "made of": "copper",
            "gauge": "1 mm", "out": "300 mm"}  # fmt: skip
    ring = disc | {"part": "R", "shape": "ring", "bore": "600 mm"}
    pictures = steps(upto="pictures", parts=[disc, ring])["pictures"]

    for view, axis in (("side", 1), ("plan", 0)):
        for drawn in pictures.views[view]:
            assert np.ptp(drawn.loop.outer_m[:, axis]) == pytest.approx(0.8, abs=2e-3)
            assert np.ptp(drawn.loop.outer_m[:, 1 - axis]) == pytest.approx(1e-3, abs=1e-6)
        assert {drawn.part for drawn in pictures.views[view]} == {"D", "R"}
