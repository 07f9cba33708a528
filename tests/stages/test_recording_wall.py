"""What the drawings of wall and brackets are made from. All sizes are invented."""

import pytest

LUMP = {"part": "L", "shape": "bought", "mass each": "100 kg", "out": "400 mm"}
ARM = {"set": "s", "up": "500 mm", "reach": "300 mm", "bears at": "200 mm",
       "section": "SHS 60x60x4", "grade": "mild steel", "holds": "welded",
       "plate width": "200 mm", "plate height": "240 mm", "plate thickness": "10 mm",
       "fixings across": 2, "fixings up": 2, "pitch across": "150 mm", "pitch up": "180 mm",
       "fixing diameter": "12 mm"}  # fmt: skip
BARE = {key: value for key, value in ARM.items() if not key.startswith(("plate", "fix", "pitch"))}
ZONE = {"about": "zone not to fix in", "which": "pipe", "who": "J. Marsh", "date": "2026-03-04",
        "answer": "across -1.1 m to -1.05 m, up 0 to 1 m"}  # fmt: skip


@pytest.fixture(scope="module")
def walled(document):
    """Return the document of a lump on two brackets, one of which has no plate."""
    return document(
        job={"datum to nearest corner": "4 m", "datum to top of wall": "2 m"},
        assemblies=[{"assembly": "a", "carried by": "s"}],
        parts=[LUMP],
        brackets=[ARM | {"bracket": "B1", "across": "-1 m", "stay from": "400 mm",
                         "stay to": "280 mm", "stay section": "round 16"},
                  BARE | {"bracket": "B2", "across": "1 m"}],
        answers=[ZONE],
    )  # fmt: skip


def test_plates_and_holes_lie_from_the_datum(walled):
    """Holes are numbered from the bottom left; a bracket without a plate is there without size."""
    wall = walled["wall"]

    assert wall["plates"] == [
        {"bracket": "B1", "set": "s", "at_m": [-1.0, 0.5], "size_m": [0.2, 0.24],
         "holes": [1, 2, 3, 4]},
        {"bracket": "B2", "set": "s", "at_m": [1.0, 0.5], "size_m": None, "holes": []},
    ]  # fmt: skip
    assert [hole["at_m"] for hole in wall["holes"]] == [
        pytest.approx(at_m)
        for at_m in ([-1.075, 0.41], [-0.925, 0.41], [-1.075, 0.59], [-0.925, 0.59])
    ]


def test_distances_to_corner_and_top(walled):
    """The corner may be on either side: the distance is what it is at least."""
    first = walled["wall"]["holes"][0]

    assert (walled["wall"]["corner_m"], walled["wall"]["top_m"]) == (4.0, 2.0)
    assert first["corner_m"] == pytest.approx(4.0 - 1.075)
    assert first["top_m"] == pytest.approx(2.0 - 0.41)


def test_a_zone_names_the_holes_in_it(walled):
    """Those on the left, whose edges reach from its right side 25 + 6 mm in."""
    (zone,) = walled["wall"]["zones"]

    assert (zone["zone"], zone["said_by"]) == ("pipe", "J. Marsh, 2026-03-04")
    assert zone["box_m"] == pytest.approx([-1.1, 0.0, -1.05, 1.0])
    assert zone["holes"] == [
        {"number": 1, "in_by_m": pytest.approx(0.031)},
        {"number": 3, "in_by_m": pytest.approx(0.031)},
    ]


def test_a_bracket_from_the_side(walled):
    """Sizes as typed; what has no plate has no holes, and without a stay there is none."""
    first, second = walled["elevations"]

    assert (first["reach_m"], first["bears_m"], first["depth_m"]) == (0.3, 0.2, 0.06)
    assert first["plate_m"] == [0.2, 0.24, 0.01]
    assert first["hole_levels_m"] == pytest.approx([-0.09, 0.09])
    assert (first["stay"]["from_m"], first["stay"]["to_m"]) == (0.4, 0.28)
    assert first["stay"]["pulls_only"]
    assert (second["plate_m"], second["hole_levels_m"], second["stay"]) == (None, [], None)


def test_what_it_passes_on_is_that_of_the_tables(walled):
    """With partial factors as in the envelope; the characteristic pull as on the drawings.

    There a stay's wall point is marked apart from its arm, here both are one action.
    """
    envelope = {(row["bracket"], row["component"]): row["value"]
                for row in walled["bracket_envelope"]}  # fmt: skip
    marked = {mark["bracket"]: mark["pull_out_n"] for mark in walled["marks"]["brackets"]}
    assert set(marked) == {"B1", "B1 stay", "B2"}
    for bracket in walled["elevations"]:
        assert len(bracket["actions"]) == 6
        for action in bracket["actions"]:
            assert action["factored"] == [
                envelope[bracket["bracket"], name] for name in action["components"]
            ]
        assert bracket["actions"][2]["components"] == ["pull-out", "push-in"]
    assert walled["elevations"][1]["actions"][2]["characteristic"][0] == marked["B2"]


def test_a_wall_nobody_described_has_no_distances(document):
    """Nor is there a plate without brackets."""
    assert document(parts=[LUMP])["wall"] == {
        "corner_m": None, "top_m": None, "plates": [], "holes": [], "zones": [],
    }  # fmt: skip
