"""Ways of sharing side by side, and what a slack bracket changes, as the page has them."""

from estimator.reports.bracket_states import Worst, set_states


def test_ways_of_sharing_stand_side_by_side(document):
    """Of every bracket pull-out, down and sideways, each by both ways; empty sets are left out."""
    (one,) = set_states(document)

    assert one.name == "dial"
    assert one.sharings == ("rigid", "lever")
    assert [side.bracket for side in one.sides] == ["D1", "D2", "D3", "D4"]
    assert one.sides[1].values == ((1800.0, 1400.0),) * 3


def test_a_slack_bracket_stands_beside_as_built(document):
    """The largest of the others with D2 slack, at D4, beside the larger there as built."""
    (one,) = set_states(document)
    slack, free = one.lines

    assert slack.state == "D2 slack"
    assert slack.worst == (Worst(5200.0, "D4", 3600.0),) * 2
    assert (free.state, free.free) == ("D4 slack", "free to turn about D1")
