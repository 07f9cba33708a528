"""Finding a row: by key first, by alias, or a miss that helps."""

import pytest

from estimator.reference.finding import Miss, Reason, find_row
from estimator.reference.rows import Citation, Table, TableRow

CITATION = Citation("S", "A standard", "", "quoted")
WOODS = {
    "oak European": "oak",
    "oak green": "oak",
    "softwood": "",
    "spruce": "softwood;whitewood",
    "sapele": "",
}
TABLE = Table(
    "woods",
    tuple(
        TableRow("woods", key, {"key": key, "alias": alias}, CITATION)
        for key, alias in WOODS.items()
    ),
)


def found(text):
    """Return what the table of woods says to a name."""
    return find_row(TABLE, text, lambda row: f"{row.key}!")


@pytest.mark.parametrize(
    ("text", "key"),
    [("Spruce", "spruce"), ("white-wood", "spruce"), ("OAK  green", "oak green")],
)
def test_a_name_leads_to_its_row(text, key):
    """Case, spaces and hyphens do not matter."""
    assert found(text).key == key


def test_a_key_is_never_ambiguous():
    """Softwood is a row of its own although spruce goes by it too."""
    assert found("softwood").key == "softwood"


def test_an_alias_of_two_is_asked_about():
    """The choices are all of them, in table order, as the caller describes them."""
    assert found("oak") == Miss("oak", Reason.AMBIGUOUS, ("oak European!", "oak green!"), "woods")


def test_an_unknown_name_gets_its_neighbours():
    """What was typed is quoted, the table named, at most three neighbours given."""
    miss = found("sprucce")

    assert miss.sentence == '"sprucce" is not in tables/woods.csv'
    assert miss.advice == "type one of: spruce!"


def test_a_name_like_none_points_at_the_table():
    """No neighbour is invented."""
    miss = found("qqqq")

    assert miss.choices == ()
    assert miss.advice == "see `estimator tables woods`, or add a row in a folder of your own"


def test_an_ambiguous_name_counts_its_meanings():
    """The sentence goes into a problem as it stands."""
    assert found("oak").sentence == '"oak" could mean 2 things'
