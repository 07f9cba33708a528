"""Zones not to fix in, and the holes in them. All places are invented."""

import math

import pytest

from estimator.core.problems import Cell
from estimator.core.units import UnitError
from estimator.resolve.zones import Hole, holes, read_zone

AT = Cell("answers", "C", 2)
BRACKETS = """
    bracket | set | across | up | reach | section | grade | holds | plate width | plate height \
| plate thickness | fixings across | fixings up | pitch across | pitch up | fixing diameter
    B1 | wall | 100 mm | 500 mm | 300 mm | SHS 60x60x4 | S275 | welded | 200 mm | 200 mm | 10 mm \
| 2 | 2 | 150 mm | 140 mm | 12 mm
    B2 | wall | 900 mm | 500 mm | 300 mm | SHS 60x60x4 | S275 | welded | | | | | | | |
    B3 | wall | 1.7 m | 500 mm | 300 mm | SHS 60x60x4 | S275 | welded | | | | 1 | 1 | | | 12 mm
    """
READ = [
    ("across -300 to 300 mm, up 0 to 400 mm", (-0.3, 0.0, 0.3, 0.4)),
    ("Across -300 mm to 0.3 m up -1 m to 40 cm", (-0.3, -1.0, 0.3, 0.4)),
    ("across 1 ft to 2 ft; up 0 mm to 12 in", (0.3048, 0.0, 0.6096, 0.3048)),
    ("across \N{MINUS SIGN}20 to -10 cm, up 0 to 1 m", (-0.2, 0.0, -0.1, 1.0)),
]


@pytest.mark.parametrize(("text", "box_m"), READ)
def test_a_zone_is_read(text, box_m):
    """The first of two lengths takes the unit of the second where it has none."""
    assert tuple(read_zone(text, "", AT).rectangle) == pytest.approx(box_m, abs=1e-12)


@pytest.mark.parametrize(
    "text",
    ["", "up 0 to 1 m", "across 300 to -300 mm, up 0 to 1 m", "across 0 to 1, up 0 to 1 m",
     "across 0 to 1 kg, up 0 to 1 m", "across 0 to 1 m, up 1 to 1 m"],
)  # fmt: skip
def test_what_is_no_rectangle_is_refused(text):
    """Nothing is guessed: a place a fixing may not go must be known for sure."""
    with pytest.raises(UnitError):
        read_zone(text, "", AT)


def test_holes_are_numbered_through_from_the_bottom_left(resolved):
    """Plate by plate; a plate without a pattern has none, a single fixing is in its middle."""
    found = list(holes(resolved({"brackets": BRACKETS}).brackets))

    places = [(0.025, 0.43), (0.175, 0.43), (0.025, 0.57), (0.175, 0.57), (1.7, 0.5)]
    assert [hole.number for hole in found] == [1, 2, 3, 4, 5]
    assert [hole.bracket for hole in found] == ["B1", "B1", "B1", "B1", "B3"]
    assert [value for hole in found for value in hole.at_m] == pytest.approx(
        [value for place in places for value in place]
    )


def test_the_edge_of_a_hole_counts():
    """Its middle may be outside; without a diameter the middle alone is known."""
    zone = read_zone("across 0 to 100 mm, up 0 to 100 mm", "", AT)

    assert Hole(1, "B1", (0.105, 0.05), 0.012).in_by(zone) == pytest.approx(0.001)
    assert Hole(1, "B1", (0.105, 0.05), math.nan).in_by(zone) == pytest.approx(-0.005)


def test_holes_in_a_zone_are_told_at_their_bracket(resolved, said):
    """Each with its place, and whose zone it is."""
    found = resolved({
        "brackets": BRACKETS,
        "job": "item | value\nwind rule | stated pressure\nstated pressure | 1 kPa",
        "answers": "about | which | answer | who | date\nzone not to fix in | rainwater pipe"
        " | across 0 to 50 mm, up 0 to 2 m | J. Marsh | 2026-03-04",
    })  # fmt: skip

    assert said(found, "question").startswith(
        "brackets!A2 (B1): hole 1 (across 25, up 430 mm); hole 3 (across 25, up 570 mm): in the"
        " zone not to fix in, rainwater pipe (answers!C2)\n"
        "    wanted: no fixing in it\n"
        "    move the bracket or its fixings, or ask the engineer again\n"
        "brackets!I4 (B3): there are fixings but no wall plate\n"
    )
