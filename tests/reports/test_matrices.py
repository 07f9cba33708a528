"""Largest values side by side, each with a short reference to its case."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.reports import matrices
from estimator.reports.document import schema
from estimator.stages.holding_demands import PLACED

numbers = st.floats(-1e4, 1e4)
vectors = st.lists(numbers, min_size=6, max_size=6)


def action(vector, **more):
    """Return a row of forces and moments."""
    row = {
        "assembly": "dial", "position": "as drawn", "direction_deg": 0.0, "compass": "",
        "case": "pulled off", "force_n": list(vector[:3]), "moment_nm": list(vector[3:]),
    }  # fmt: skip
    return {**row, **more}


def value(text):
    """Return a printed number."""
    return float(text.replace("\N{MINUS SIGN}", "-").replace("\u202f", ""))


def governing(component, amount, unit="N", **more):
    """Return a row of an envelope."""
    row = {
        "bracket": "D1", "component": component, "value": amount, "unit": unit,
        "combination": "6.10", "case": "wind", "position": "up", "sharing": "rigid",
        "state": "as built",
    }  # fmt: skip
    return {**row, **more}


@given(st.lists(vectors, min_size=1, max_size=8))
def test_every_sense_holds_its_largest(rows):
    """Each of the twelve columns that are there is the largest of its sense; the rest is nought."""
    table = matrices.wind_loads([action(row) for row in rows])
    printed = {
        heading.words: value(cell.value)
        for heading, cell in zip(table.headings, table.lines[0].cells, strict=True)
    }

    for i, words in enumerate(matrices.BY_THE_WIND):
        axis, sign = divmod(i, 2)[0], -1 if i % 2 else 1
        worst = max(sign * row[axis] for row in rows)
        if words in printed:
            assert sign * printed[words] == pytest.approx(worst, abs=0.5)
        else:
            assert worst < 0.5


def test_a_case_is_listed_once_and_its_mark_stands_beside_each_value():
    """Two assemblies, one case: number one and position a, both times."""
    rows = [action((0, 0, 90, 0, 0, 0)), action((0, 0, 80, 0, 0, 0), assembly="bird")]
    table = matrices.wind_loads(rows)

    assert [line.cells[0] for line in table.lines] == [("90", "1a"), ("80", "1a")]
    assert table.lists == {
        "Case": {"1": "wind from 0° (the street), pulled off"},
        "Position": {"a": "as drawn"},
    }


def test_a_sense_that_nothing_has_takes_no_column():
    """Only the pull, and the moment about up to the minus side, are there."""
    table = matrices.wind_loads([action((0, 0, 90, 0, -7, 0))])

    assert table.headings == (
        ("pull from the wall", "N"), ("moment about up, \N{MINUS SIGN}", "N m"),
    )  # fmt: skip


def test_causes_at_a_bracket_are_lines_and_say_how_they_are_shared(document):
    """Own weight has no case, wind has; R stands for rigid."""
    table = matrices.characteristic(document["brackets"])
    first = {line.names: line for line in table.lines}[("D1", "own weight")]
    down, pull = (
        [heading.words for heading in table.headings].index(name) for name in ("down", "pull-out")
    )

    assert first.cells[down] == ("\N{MINUS SIGN}352", "R")
    wind = {line.names: line for line in table.lines}[("D1", "wind")]
    assert wind.cells[pull] == ("2\u202f493", "2\xa0R")
    assert table.lists["Case"]["2"] == "wind from 0° (the street), pulled off"


def test_a_load_of_its_own_is_told_by_name():
    """A person at a place is neither wind nor named by its cause alone."""
    row = action((0, 5, 0, 0, 0, 0), direction_deg=None, case="person: E1")
    row.update(bracket="D1", cause="person", sharing="lever")

    table = matrices.characteristic([row])

    assert table.lists["Case"] == {"1": "person: E1"}
    assert table.lines[0].cells == (("5", "1\xa0L"),)


def test_an_envelope_has_a_line_for_each_bracket():
    """The reference names combination, case, position and sharing; what is missing is blank."""
    table = matrices.envelope(
        [
            governing("pull-out", 6114.1),
            governing("push-in", -5923.5, case="other wind", sharing="lever"),
            governing("pull-out", 12.0, bracket="D2", combination="EQU", position="down"),
        ]
    )

    assert [line.names for line in table.lines] == [("D1",), ("D2",)]
    assert table.lines[0].cells == (
        ("6\u202f114", "A1a\xa0R"), ("\N{MINUS SIGN}5\u202f924", "A2a\xa0L"),
    )  # fmt: skip
    assert table.lines[1].cells == (("12", "B1b\xa0R"), None)
    assert table.lists["Combination"] == {"A": "6.10", "B": "EQU"}


def test_a_state_other_than_as_built_is_named():
    """With a bracket slack the reference has a mark of its own, before the way of sharing."""
    table = matrices.envelope([governing("pull-out", 6114.1, state="D2 slack")])

    assert table.lines[0].cells == (("6\u202f114", "A1a s1\xa0R"),)
    assert table.lists["State"] == {"s1": "D2 slack"}


def test_what_prints_as_nought_has_no_case():
    """Nothing governs a moment of 0.01 N m; its combination is not listed for its sake."""
    table = matrices.envelope([governing("moment about up, +", 0.01, "N m")])

    assert table.lines[0].cells == (("0.0", ""),)
    assert table.lists == {"Combination": {}, "Case": {}, "Position": {}, "State": {}}


@pytest.mark.parametrize(
    ("amount", "unit", "printed"),
    [(99.94, "N m", "99.9"), (100.4, "N m", "100"), (0.06, "N m", "0.1"), (0.6, "N", "1")],
)
def test_moments_below_a_hundred_have_a_decimal(amount, unit, printed):
    """Forces are printed to the newton, moments to three figures or a tenth."""
    table = matrices.envelope([governing("any", amount, unit)])

    assert table.lines[0].cells[0].value == printed


def test_a_hyphen_for_a_minus_is_set_as_one():
    """At the end and between words; hyphens inside words are left."""
    assert matrices.typeset("pull-out, - pulls -") == (
        "pull-out, \N{MINUS SIGN} pulls \N{MINUS SIGN}"
    )


@pytest.mark.parametrize(
    ("number", "letters"), [(1, "a"), (26, "z"), (27, "aa"), (52, "az"), (53, "ba"), (703, "aaa")]
)
def test_letters_go_on_after_z(number, letters):
    """As the columns of a spreadsheet."""
    assert matrices.small(number) == letters
    assert matrices.capital(number) == letters.upper()


@given(st.integers(1, 20_000), st.integers(1, 20_000))
def test_no_two_numbers_share_their_letters(first, second):
    """A mark points to one text."""
    assert (matrices.small(first) == matrices.small(second)) == (first == second)


def test_every_way_of_sharing_of_the_schema_is_explained():
    """Each has its sentence, and a letter of its own; so has the way along an arm with a stay."""
    among = schema()["properties"]["brackets"]["items"]["properties"]["sharing"]["enum"]
    ways = [*among, PLACED]

    assert set(ways) == set(matrices.SHARINGS)
    assert len({matrices.initial(way) for way in ways}) == len(ways)
