"""Where assemblies are in every position of every mover."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.core.problems import RequestError
from estimator.resolve.records import Assembly
from estimator.stages.posing import MOST_STATES, carried, pose, pose_of

QUARTER = math.pi / 2


def turning(key, carrier="", origin_m=(0.0, 0.0, 0.0), positions=(0.0, QUARTER), axis="out"):
    """Return an assembly that turns."""
    return Assembly(
        key=key, carrier=carrier, origin_m=origin_m, moves="turns", axis=axis, positions=positions
    )


def by_name(*assemblies):
    """Return assemblies by name."""
    return {assembly.key: assembly for assembly in assemblies}


def test_what_is_fixed_is_one_group_as_drawn():
    """Two fixed assemblies stand where they were put, in one position."""
    frame = Assembly(key="frame", origin_m=(1.0, 2.0, 3.0))
    board = Assembly(key="board", carrier="frame", origin_m=(0.1, 0.0, 0.0))

    (group,) = pose((frame, board))

    assert (group.mover, group.members) == ("", (0, 1))
    assert [state.label for state in group.states] == ["as drawn"]
    assert group.origin_m[0] == pytest.approx(np.array([[1.0, 2.0, 3.0], [1.1, 2.0, 3.0]]))
    assert group.rotation[0] == pytest.approx(np.array([np.eye(3)] * 2))


def test_a_mover_takes_along_what_stands_on_it():
    """Turned by 90 degrees anticlockwise, a bill 1 m to the right stands 1 m above."""
    neck = turning("neck", origin_m=(0.5, 0.0, 0.2))
    bill = Assembly(key="bill", carrier="neck", origin_m=(1.0, 0.0, 0.0))

    (group,) = pose((neck, bill))

    assert [state.label for state in group.states] == ["neck at 0 deg", "neck at 90 deg"]
    assert group.origin_m[1] == pytest.approx(np.array([[0.5, 0.0, 0.2], [0.5, 1.0, 0.2]]))
    assert group.rotation[1, 1] @ [1.0, 0.0, 0.0] == pytest.approx([0.0, 1.0, 0.0])


@pytest.mark.parametrize(
    ("axis", "ends_at"),
    [("across", (0.0, 1.0, 1.0)), ("up", (1.0, 1.0, 0.0)), ("out", (-1.0, 0.0, 1.0))],
)
def test_every_axis_turns_by_the_right_hand(axis, ends_at):
    """(0, 1, 1) turned by 90 degrees about across, up and out, by hand."""
    start = {"across": (0.0, 1.0, -1.0), "up": (0.0, 1.0, 1.0), "out": (0.0, 1.0, 1.0)}[axis]
    mover = turning("m", axis=axis)
    hung = Assembly(key="h", carrier="m", origin_m=start)

    _, origin_m = pose_of(hung, {"m": QUARTER}, by_name(mover, hung))

    assert origin_m == pytest.approx(ends_at, abs=1e-12)


def test_a_slider_moves_and_does_not_turn():
    """Half a metre along out, from where it is drawn."""
    slider = Assembly(key="s", origin_m=(0.0, 1.0, 0.0), moves="slides", axis="out",
                      positions=(0.0, 0.5))  # fmt: skip

    (group,) = pose((slider,))

    assert [state.label for state in group.states] == ["s at 0 mm", "s at 500 mm"]
    assert group.origin_m[:, 0] == pytest.approx(np.array([[0.0, 1.0, 0.0], [0.0, 1.0, 0.5]]))


def test_movers_on_movers_take_every_pair_of_positions():
    """Shoulder and elbow, two positions each: four states, worked by hand."""
    shoulder = turning("shoulder", origin_m=(0.0, 1.0, 0.0))
    elbow = turning("elbow", "shoulder", (1.0, 0.0, 0.0))
    hand = Assembly(key="hand", carrier="elbow", origin_m=(0.5, 0.0, 0.0))

    (group,) = pose((shoulder, elbow, hand))

    by_label = dict(zip((s.label for s in group.states), group.origin_m[:, 2], strict=True))
    assert {label: tuple(np.round(at, 9) + 0.0) for label, at in by_label.items()} == {
        "shoulder at 0 deg, elbow at 0 deg": (1.5, 1.0, 0.0),
        "shoulder at 0 deg, elbow at 90 deg": (1.0, 1.5, 0.0),
        "shoulder at 90 deg, elbow at 0 deg": (0.0, 2.5, 0.0),
        "shoulder at 90 deg, elbow at 90 deg": (-0.5, 2.0, 0.0),
    }


def test_movers_apart_are_groups_of_their_own():
    """A hand and a neck on one frame do not multiply each other's positions."""
    frame = Assembly(key="frame")
    groups = pose((frame, turning("hand", "frame"), turning("neck", "frame")))

    assert [(g.mover, len(g.states)) for g in groups] == [("", 1), ("hand", 2), ("neck", 2)]


def test_a_neck_bows_at_both_ends(steps):
    """From -40 to 0 degrees in 3 positions; a head 500 mm out along it, at both ends by hand.

    The position as drawn stands first: it is the one that totals and drawings are of.
    """
    found = steps(
        upto="groups",
        assemblies=[
            {"assembly": "bird", "across": "1 m"},
            {"assembly": "neck", "mounted on": "bird", "up": "2 m", "moves": "turns",
             "axis": "out", "from": "-40 deg", "to": "0 deg", "positions": 3},
            {"assembly": "head", "mounted on": "neck", "across": "500 mm"},
        ],
        parts=[{"part": "H", "assembly": "head", "shape": "bought", "mass each": "1 kg"}],
    )  # fmt: skip
    group = next(g for g in found["groups"] if g.mover == "neck")

    assert [s.label for s in group.states] == ["neck at 0 deg", "neck at -40 deg",
                                               "neck at -20 deg"]  # fmt: skip
    bowed = math.radians(-40)
    at_m = group.origin_m[:2, group.members.index(2)]
    assert at_m[0] == pytest.approx([1.5, 2.0, 0.0])
    assert at_m[1] == pytest.approx([1 + 0.5 * math.cos(bowed), 2 + 0.5 * math.sin(bowed), 0])


def test_a_mover_never_worked_out_as_drawn_keeps_its_order():
    """From 10 to 30 degrees none is as drawn, so the first stays first."""
    (_, swept) = pose((Assembly(key="wall"), turning("hand", positions=(0.2, 0.4, 0.6))))

    assert [state.values["hand"] for state in swept.states] == [0.2, 0.4, 0.6]


def test_too_many_positions_are_refused():
    """Three movers on one another with 12 positions each are 1728: nobody could read that."""
    twelve = tuple(range(12))
    chain = [turning("a", positions=twelve), turning("b", "a", positions=twelve),
             turning("c", "b", positions=twelve)]  # fmt: skip

    sentence = "a, b, c stand on one another and make 1728 positions; ask for fewer of each"
    with pytest.raises(RequestError, match=f"^{sentence}$"):
        pose(chain)
    assert MOST_STATES < 1728


def test_what_carries_what():
    """An assembly and all that carries it, the building's neighbour last."""
    arm, hand = Assembly(key="arm"), Assembly(key="hand", carrier="arm")

    assert carried(hand, by_name(arm, hand)) == ("hand", "arm")


@given(angle=st.floats(-7.0, 7.0), at=st.tuples(*[st.floats(-3.0, 3.0)] * 3))
def test_turning_keeps_distances(angle, at):
    """What turns stays as far from the axle, and its frame stays square."""
    mover = turning("m", origin_m=(0.3, -0.2, 0.1))
    hung = Assembly(key="h", carrier="m", origin_m=at)

    rotation, origin_m = pose_of(hung, {"m": angle}, by_name(mover, hung))

    assert np.linalg.norm(origin_m - [0.3, -0.2, 0.1]) == pytest.approx(np.linalg.norm(at))
    assert rotation @ rotation.T == pytest.approx(np.eye(3), abs=1e-12)
    assert np.linalg.det(rotation) == pytest.approx(1.0)
