"""Which rows are printed."""

from hypothesis import given
from hypothesis import strategies as st

from estimator.reports import selection

forces = st.lists(st.floats(-1e4, 1e4), min_size=3, max_size=3)


def rows_of(*vectors):
    """Return loads of one assembly."""
    return [{"assembly": "dial", "direction_deg": 0.0, "force_n": list(v)} for v in vectors]


def test_a_row_is_printed_once_with_all_that_it_governs():
    """The first row pulls most and lifts most, the second pushes most; the third is smaller."""
    rows = rows_of((0, 5, 90), (0, 0, -80), (0, 0, 60))

    chosen = selection.governing(rows, lambda row: row["assembly"])

    assert [(c.row["force_n"][2], c.because) for c in chosen] == [
        (90, ("pull from the wall", "uplift")),
        (-80, ("push onto the wall",)),
    ]


@given(st.lists(forces, min_size=1, max_size=12))
def test_no_force_left_out_is_larger_than_one_printed(vectors):
    """In each of the six senses the largest force is among the rows chosen."""
    chosen = selection.governing(rows_of(*vectors), lambda row: row["assembly"])
    printed = [c.row["force_n"] for c in chosen]

    for axis in range(3):
        for sign in (1, -1):
            largest = max(sign * v[axis] for v in vectors)
            if largest >= 0.5:
                assert largest == max(sign * v[axis] for v in printed)


def test_groups_are_kept_apart():
    """Each assembly has its own governing rows."""
    rows = rows_of((0, 0, 90), (0, 0, 10))
    rows[1]["assembly"] = "bird"

    assert len(selection.governing(rows, lambda row: row["assembly"])) == 2


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


def test_a_text_said_often_gets_one_number():
    """In the order met, from one; what is empty has none."""
    rows = [{"why": words} for words in ("board", "sign", "", "board")]

    assert selection.numbered(rows, "why") == {"board": 1, "sign": 2}
