"""Which rows are printed."""

from estimator.reports import selection


def rows_of(*vectors):
    """Return loads of one assembly."""
    return [{"assembly": "dial", "direction_deg": 0.0, "force_n": list(v)} for v in vectors]


def test_a_full_turn_is_no_turn():
    """360 and 0 are one direction; the larger force of either is kept."""
    rows = rows_of((0, 0, 3), (0, 4, 0), (1, 0, 0))
    rows[1]["direction_deg"] = 360.0
    rows[2]["direction_deg"] = 90.0

    assert selection.by_direction(rows) == [(0.0, 4.0), (90.0, 1.0)]


def test_parts_by_mass_and_by_spread(document):
    """The ledge is both the heaviest and the least sure."""
    assert [p["part"] for p in selection.heaviest(document["parts"], 2)] == ["T35", "T01"]
    assert [p["part"] for p in selection.widest(document["parts"], 2)] == ["T35", "T01"]


def test_the_largest_of_nothing_known_is_none():
    """A key that is null everywhere has no largest."""
    assert selection.largest([{"pull_out_n": None}], "pull_out_n") is None


def test_what_is_said_once_needs_no_note():
    """Only a text that is there again is worth a number; the order is kept."""
    assert selection.repeated(["board", "sign", "board", "rod", "sign"]) == ["board", "sign"]
