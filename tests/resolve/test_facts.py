"""Facts: as typed, or the stated default, or absent and listed as not told."""

import pytest

from estimator.core.problems import Cell
from estimator.core.sourced import Origin
from estimator.resolve.facts import PROGRAM_DEFAULT, resolve_facts
from estimator.sheets.facts import JOB_FACTS

SAID = {
    "job": """
    item         | value | source
    datum height | 7.6 m | laser, 3 March
    title        | Heron |
    """
}


def test_a_typed_fact_keeps_its_source_and_its_cell(read):
    """What the maker said stands as it was said."""
    facts, _ = resolve_facts(read(SAID))

    said = facts.values["datum_height"]
    assert facts.number("datum_height") == 7.6
    assert (said.origin, said.source, said.cell) == (
        Origin.TYPED, "laser, 3 March", Cell("job", "B", 2)
    )  # fmt: skip
    assert facts.text("title") == "Heron"


def test_a_fact_nobody_gave_takes_its_default_and_says_so(read):
    """The default is marked as the program's own and listed with what it changes."""
    facts, untold = resolve_facts(read(SAID))

    used = facts.values["not_listed_yet"]
    assert (used.value, used.origin, used.source) == (0.05, Origin.DEFAULT, PROGRAM_DEFAULT)
    told_of = {line.item: line for line in untold}
    assert told_of["not listed yet"].used == used
    assert told_of["not listed yet"].why == "Welds, rivets and what is not drawn yet weigh too"


def test_a_fact_without_a_default_is_absent_and_untold(read):
    """Nothing stands in for a wind speed."""
    facts, untold = resolve_facts(read(SAID))

    assert not facts.has("basic_wind_speed")
    assert facts.number("basic_wind_speed", -1.0) == -1.0
    assert facts.text("basic_wind_speed", "none") == "none"
    told_of = {line.item: line for line in untold}
    assert told_of["basic wind speed"].used is None
    assert told_of["basic wind speed"].why == (
        "Without it there is no wind pressure, and nothing stands in for it"
    )


GATED = {
    "hill height", "hill upwind length", "hill downwind length", "distance from crest",
    "hill slope faces", "smoother terrain", "ice density", "wind with ice",
}  # fmt: skip
STATED = {
    "stated pressure", "stated pressure kind", "stated pressure by direction", *GATED,
}  # fmt: skip
BY_RULE = {
    "basic wind speed", "terrain", "orography", "direction factor", "season factor",
    "years exposed", "national annex", "distance to smoother terrain", "hill or cliff",
    "air density", *GATED,
}  # fmt: skip


@pytest.mark.parametrize(
    ("item", "value", "idle"),
    [
        ("title", "Heron", STATED),
        ("wind rule", "stated pressure", BY_RULE),
        ("mark-up", "20 %", STATED | {"margin"}),
        ("margin", "20 %", STATED | {"mark-up"}),
    ],
)
def test_what_was_not_said_is_told_unless_it_does_not_matter(read, item, value, idle):
    """Every fact that was not typed is listed, but for those whose place another one takes."""
    _, untold = resolve_facts(read({"job": f"item | value\n {item} | {value}"}))

    every = [fact.column.heading for fact in JOB_FACTS.values()]
    assert [line.item for line in untold] == [x for x in every if x not in idle | {item}]


def test_sizes_of_a_hill_are_asked_only_where_there_is_one(read):
    """What hangs on another fact is listed once that one was told."""
    _, untold = resolve_facts(read({"job": "item | value\n hill or cliff | hill"}))

    hilly = {item for item in GATED if "hill" in item or "crest" in item}
    assert hilly <= {line.item for line in untold}
