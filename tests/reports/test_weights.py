"""Assemblies and parts as the page lists them: what differs in its place alone shares a line."""

from estimator.reports import weights
from estimator.reports.figures import plain


def test_a_mover_with_many_positions_has_one_line(document):
    """From the least to the most of each number; a number that stays is printed once."""
    hand = next(row for row in document["assemblies"] if row["assembly"] == "hand")
    at_m = ([-0.05, 0.0, 0.3], [0.05, 0.0, 0.3], [0.0, 0.06, 0.3], [0.0, -0.06, 0.3])
    document["assemblies"] = [
        {**hand, "position": f"hand at {90 * i} deg", "cg_m": list(place), "lowest_m": 6.0 + i}
        for i, place in enumerate(at_m)
    ]

    (line,) = weights.bodies(document)

    assert (line.assembly, line.position) == ("hand", "4 positions")
    assert [plain(number) for number in line.at_mm] == ["-50 to 50", "-60 to 60", "300"]
    assert line.lowest_m == "6.00 to 9.00"


def test_a_few_positions_have_a_line_each(document):
    """Three can be read one by one."""
    hand = next(row for row in document["assemblies"] if row["assembly"] == "hand")
    document["assemblies"] = [{**hand, "position": name} for name in ("open", "half", "shut")]

    assert [line.position for line in weights.bodies(document)] == ["open", "half", "shut"]


def test_a_height_that_is_not_known_is_said(document):
    """Without a datum height there is no lowest point above the pavement."""
    document["assemblies"] = [{**document["assemblies"][0], "lowest_m": None}]

    (line,) = weights.bodies(document)

    assert line.lowest_m == "not known"


def test_parts_alike_share_a_line(document):
    """Their marks stand together, their places go from the least to the most."""
    part = document["parts"][0]
    alike = [{**part, "part": f"B{i} wall plate", "cg_m": [0.5 * i, -1.0, 0.005]} for i in range(3)]

    (line,) = weights.pieces(alike)

    assert line.part == "B0 wall plate, B1 wall plate, B2 wall plate"
    assert [plain(number) for number in line.at_mm] == ["0 to 1 000", "-1 000", "5"]
    assert line.mass == weights.pieces([part])[0].mass


def test_parts_that_differ_in_mass_do_not(document):
    """A heavier one of the same name has its own line."""
    part = document["parts"][0]

    assert len(weights.pieces([part, {**part, "part": "X", "mass_kg": 2 * part["mass_kg"]}])) == 2


def test_no_more_parts_than_asked_for(document):
    """The heaviest are listed, the rest counted."""
    found = weights.context(document, 1)

    assert len(found["pieces"]) == 1
    assert found["more_parts"] == len(document["parts"]) - 1
