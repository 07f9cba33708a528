"""What everything shows from the front and from the side, each spot once."""

import math

import pytest

SIGN = {"part": "S", "assembly": "sign", "shape": "sheet", "length": "2 m", "width": "1 m",
        "mass each": "1 kg", "out": "300 mm"}  # fmt: skip
POST = {"part": "P", "assembly": "post", "shape": "box", "length": "0.2 m", "width": "3 m",
        "depth": "0.1 m", "mass each": "1 kg", "out": "100 mm"}  # fmt: skip


@pytest.fixture(scope="module")
def faces(steps):
    """Return a function that gives what a job shows."""
    return lambda **sheets: steps(upto="faces", **sheets)["faces"]


def test_each_spot_counts_once(faces):
    """2 x 1 m before 0.2 x 3 m: 2 + 0.6 - 0.2 from the front; 0.1 x 3 m alone from the side."""
    found = faces(parts=[SIGN, POST])

    assert found.whole == pytest.approx((2.4, 0.3))
    assert found.assemblies["sign"] == pytest.approx((2.0, 0.0))
    assert found.assemblies["post"] == pytest.approx((0.6, 0.3))


def test_origins_and_turns_count(faces):
    """Two alike a metre apart cover half of each other's 2 m: 3 m2; a quarter turn changes none."""
    rows = [{"assembly": "sign", "across": "0.5 m"}, {"assembly": "other", "across": "-0.5 m"}]
    found = faces(parts=[SIGN, SIGN | {"part": "O", "assembly": "other"}], assemblies=rows)

    assert found.whole.front_m2 == pytest.approx(3.0)


def test_a_mover_is_in_its_first_position(faces):
    """Turned from 90 degrees on about the wall's normal the sign stands upright over the post."""
    turns = {"moves": "turns", "axis": "out", "from": "90 deg", "to": "180 deg"}
    rows = [{"assembly": "sign"} | turns, {"assembly": "post"}]
    found = faces(parts=[SIGN, POST], assemblies=rows)

    assert found.whole.front_m2 == pytest.approx(2.0 + 0.6 - 0.4)


def test_what_is_cut_away_does_not_cover(faces):
    """Half of a grating is cut away; where the post is behind it, it covers all the same."""
    found = faces(parts=[SIGN | {"cut away": "50 %"}, POST])

    assert found.whole.front_m2 == pytest.approx(0.6 + 1.8 / 2)
    assert found.assemblies["sign"].front_m2 == pytest.approx(1.0)


def test_the_front_is_drawn_far_things_first(faces):
    """The post is behind the sign; what is seen edge-on is a thin line, all the same there."""
    edge = SIGN | {"part": "E", "faces": "up", "out": "0 mm"}
    found = faces(parts=[SIGN, POST, edge])

    assert [one.part for one in found.front] == ["E", "P", "S"]
    assert [one.depth_m for one in found.front] == pytest.approx([0.0, 0.1, 0.3])
    low, high = found.front[2].loop.outer_m.min(axis=0), found.front[2].loop.outer_m.max(axis=0)
    assert (*low, *high) == pytest.approx((-1.0, -0.5, 1.0, 0.5))


def test_a_ring_has_its_hole(faces):
    """A ring of 1 m with a bore of 0.6 m: one outline with one hole."""
    ring = {"part": "R", "shape": "ring", "diameter": "1 m", "bore": "0.6 m", "mass each": "1 kg"}
    found = faces(parts=[ring])

    (one,) = found.front
    assert len(one.loop.holes_m) == 1
    assert found.whole.front_m2 == pytest.approx(math.pi / 4 * (1 - 0.36), rel=2e-3)


def test_too_many_to_tell_apart(faces):
    """5000 rivets are not drawn one by one, but cover what they cover."""
    rivets = {"part": "R", "shape": "disc", "diameter": "1 mm", "mass each": "1 g", "count": 5000,
              "set out": "row", "spread": "19 m"}  # fmt: skip
    found = faces(parts=[rivets])

    assert found.front == ()
    assert found.whole.front_m2 == pytest.approx(5000 * math.pi / 4 * 1e-6, rel=2e-3)


def test_nothing_shows_nothing(faces):
    """A job without parts."""
    found = faces(parts=[])

    assert found.whole == (0.0, 0.0)
    assert found.front == ()
