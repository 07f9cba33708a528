"""What the engineer said takes the place of what was typed or assumed. All figures are invented."""

import datetime as dt
import math

import pytest

from estimator.core.problems import Cell
from estimator.resolve.answers import resolve_answers
from estimator.resolve.names import Names
from estimator.sheets.rows import Row
from estimator.sheets.topics import Sets

HEAD = "about | which | answer | who | date"


def said_by(*rows):
    """Return an answers sheet, each row signed by one person unless it says otherwise."""
    return "\n".join([HEAD, *rows])


CALM = {"job": "item | value\nwind rule | stated pressure\nstated pressure | 1 kPa"}
"""So that nothing is asked about the wind."""
SIGNED = "J. Marsh | 2026-03-04"
BRACKETS = """
    bracket | set | across | up | reach | section | grade | holds | plate width | plate height \
| plate thickness | fixings across | fixings up | pitch across | pitch up | fixing diameter
    B1 | wall | 0.1 m | 0.5 m | 300 mm | SHS 60x60x4 | S275 | welded | 200 mm | 200 mm | 10 mm \
| 2 | 2 | 150 mm | 150 mm | 12 mm
    """


def test_an_answer_takes_the_place_of_a_fact(resolved, said):
    """What the job sheet says of the same thing is kept beside it."""
    found = resolved({
        "job": "item | value | source\nwall stiffness ratio | 30 | maker",
        "answers": said_by(f"wall stiffness ratio | | 15 | {SIGNED}"),
    })  # fmt: skip

    fact = found.facts.values["wall_stiffness_ratio"]
    assert (fact.value, fact.source, fact.cell) == (
        15.0, "J. Marsh, 2026-03-04", Cell("answers", "C", 2),
    )  # fmt: skip
    (answer,) = found.answers.given
    assert (answer.before.value, answer.before.source) == (30.0, "maker")
    assert "answers" not in said(found)
    assert "wall stiffness ratio" not in {line.item for line in found.untold}


READ = [
    ("not listed yet | | 8 % |", "not_listed_yet", 0.08),
    ("Allowance not listed | | 8 % |", "not_listed_yet", 0.08),
    ("datum height | | 24 ft |", "datum_height", 24 * 0.3048),
    ("terrain | | iii |", "terrain", "III"),
    ("sag limit | | L/250 |", "sag_limit", "L/250"),
    ("direction factor | | 0.9 |", "direction_factor", 0.9),
]


@pytest.mark.parametrize(("row", "item", "value"), READ)
def test_an_answer_is_read_as_the_fact_is(resolved, row, item, value):
    """Its unit stands in the cell; names are found without regard to case."""
    found = resolved({"answers": said_by(f"{row} {SIGNED}")})

    assert found.facts.values[item].value == pytest.approx(value)


def test_a_pressure_is_a_rule_of_its_own(resolved, said):
    """It takes the place of the rule on the job sheet, and of pressures by direction there."""
    found = resolved({
        "job": "item | value\nwind rule | EN 1991-1-4\nstated pressure by direction | 0: 1 kPa",
        "answers": said_by(f"pressure | | 1.1 kPa | {SIGNED}"),
    })  # fmt: skip

    assert (found.weather.rule, found.weather.stated_pa) == ("stated pressure", 1100.0)
    assert found.weather.stated_source == "J. Marsh, 2026-03-04"
    assert not found.facts.has("stated_pressure_by_direction")
    assert said(found) == ""


def test_a_pressure_by_direction_takes_the_place_of_one_for_all(resolved):
    """The larger of those that are named counts between them."""
    found = resolved({
        "answers": said_by(f"pressure by direction | | 0: 900 Pa; 90: 1 kPa | {SIGNED}")
    })  # fmt: skip

    assert found.weather.stated_pa == 1000.0


@pytest.mark.parametrize("row", ["coefficient | dial", "coefficient of DIAL |"])
def test_a_coefficient_goes_to_its_assembly(resolved, row):
    """Which one stands in its own cell, or after "of"."""
    found = resolved({"answers": said_by(f"{row} | 1.4 | {SIGNED}")})

    (assembly,) = found.assemblies
    assert (assembly.coefficient, assembly.coefficient_source) == (1.4, "J. Marsh, 2026-03-04")
    assert found.answers.given[0].before is None


def test_the_coefficient_that_was_typed_is_kept_beside_it(resolved):
    """The register shows what stood there, and who said that."""
    found = resolved({
        "assemblies": "assembly | coefficient | source\ndial | 1.8 | maker",
        "answers": said_by(f"coefficient | dial | 1.4 | {SIGNED}"),
    })  # fmt: skip

    assert found.assemblies[0].coefficient == 1.4
    assert (found.answers.given[0].before.value, found.answers.given[0].before.source) == (
        1.8, "maker",
    )  # fmt: skip


def test_other_assemblies_keep_theirs(resolved):
    """An answer about the dial says nothing of the brackets."""
    found = resolved({
        "brackets": BRACKETS, "answers": said_by(f"coefficient | dial | 1.4 | {SIGNED}"),
    })  # fmt: skip

    assert [math.isnan(one.coefficient) for one in found.assemblies] == [False, True]


def test_factors_and_drift_are_kept_by_their_keys(resolved):
    """Mass and middle may each have an agreed drift of their own."""
    found = resolved(CALM | {
        "answers": said_by(
            f"partial factor variable | | 1.6 | {SIGNED}",
            f"partial factor weight favourable | | 0.9 | {SIGNED}",
            f"agreed drift | | 5 % | {SIGNED}",
            f"drift | | 30 mm | {SIGNED}",
        )
    })  # fmt: skip

    assert {one.topic.key: one.value for one in found.answers.counting(Sets.FACTOR)} == {
        "gamma_q": 1.6, "gamma_g_inf": 0.9,
    }  # fmt: skip
    assert [one.value.value for one in found.answers.counting(Sets.DRIFT)] == [0.05, 0.03]


def test_a_factor_that_the_rule_has_not_is_asked_about(resolved, said):
    """The lines of ASCE 7 hold their own factors."""
    found = resolved({
        "job": "item | value\nwind rule | ASCE 7-22\nbasic wind speed | 51 m/s\n"
        "datum height | 7 m",
        "answers": said_by(f"partial factor variable | | 1.6 | {SIGNED}"),
    })  # fmt: skip

    assert said(found, "question") == (
        "answers!C2 (partial factor variable): the answer changes nothing: ASCE 7-22 strength has"
        " no such factor\n"
        "    wanted: an answer that fits the rules of the job\n"
        "    ask the engineer which rule is meant"
    )


def test_an_answer_that_another_one_makes_idle_is_asked_about(resolved, said):
    """Terrain does not matter to a pressure that somebody stated."""
    found = resolved({
        "answers": said_by(f"pressure | | 1 kPa | {SIGNED}", f"terrain | | III | {SIGNED}")
    })  # fmt: skip

    assert said(found, "question") == (
        "answers!C3 (terrain): the answer changes nothing: the wind rule is stated pressure, and"
        " what goes with this fact is not told or not used\n"
        "    wanted: an answer that fits the rules of the job\n"
        "    ask the engineer which rule is meant"
    )


def test_a_later_wind_rule_takes_the_place_of_an_earlier_pressure(resolved):
    """The order of the rows does not matter."""
    found = resolved({
        "job": "item | value\nbasic wind speed | 24 m/s\ndatum height | 7 m",
        "answers": said_by(
            "wind rule | | EN 1991-1-4 | A. Reeve | 2026-05-01",
            f"pressure | | 1 kPa | {SIGNED}",
        ),
    })  # fmt: skip

    assert found.weather.rule == "EN 1991-1-4"
    assert found.weather.site is not None


def test_the_later_date_counts_and_both_are_told(resolved, said):
    """The order of the rows does not matter; the account shows the one that gave way."""
    found = resolved(CALM | {
        "answers": said_by(
            "not listed yet | | 8 % | A. Reeve | 2026-05-01",
            "allowance | | 4 % | J. Marsh | 2026-03-04",
        )
    })  # fmt: skip

    assert found.facts.number("not_listed_yet") == 0.08
    assert said(found) == (
        'answers!C3 (not listed yet): "4 %" (J. Marsh, 2026-03-04) gave way to "8 %"'
        " (A. Reeve, 2026-05-01) in answers!C2\n"
        "    the later date counts"
    )
    account = found.accounts["answers"]
    assert (account.read, account.used, account.replaced) == (2, 1, 1)


def test_of_two_answers_of_one_day_the_lower_row_counts(resolved, said):
    """Nobody can tell which is later, so it is asked."""
    found = resolved(CALM | {
        "answers": said_by(
            f"not listed yet | | 8 % | {SIGNED}", f"not listed yet | | 4 % | {SIGNED}"
        )
    })  # fmt: skip

    assert found.facts.number("not_listed_yet") == 0.04
    assert said(found, "question") == (
        'answers!C2 (not listed yet): "8 %" (J. Marsh, 2026-03-04) gave way to "4 %"'
        " (J. Marsh, 2026-03-04) in answers!C3\n"
        "    wanted: two dates, of which the later counts\n"
        "    type the date of each"
    )


def test_one_pressure_for_all_and_by_direction_are_one_subject(resolved):
    """The later of both counts."""
    found = resolved(CALM | {
        "answers": said_by(
            "pressure by direction | | 0: 900 Pa | A. Reeve | 2026-05-01",
            "pressure | | 1.1 kPa | J. Marsh | 2026-03-04",
        )
    })  # fmt: skip

    assert found.weather.stated_pa == 900.0
    assert found.answers.replaced == 1


def test_a_dated_answer_counts_before_one_without(resolved, said):
    """The other one is asked about as well."""
    found = resolved(CALM | {
        "answers": said_by(f"sag limit | | L/250 | {SIGNED}", "sag limit | | L/300 | |")
    })  # fmt: skip

    assert found.sag_limit.over == 250
    assert said(found, "question") == (
        'answers!C3 (sag limit): "L/300" (nobody is named, without a date) gave way to "L/250"'
        " (J. Marsh, 2026-03-04) in answers!C2\n"
        "    wanted: two dates, of which the later counts\n"
        "    type the date of each\n"
        'answers!D3 (sag limit): "who" and "date" are blank\n'
        "    wanted: who said so, and when\n"
        "    without both nobody can tell which issue holds it"
    )


def test_a_number_that_came_as_text_is_that_number():
    """An answer is copied from a letter into a cell that is formatted as text."""
    values = {"about": "wall stiffness ratio", "answer": "15", "who": "J. Marsh",
              "date": dt.date(2026, 3, 4)}  # fmt: skip
    found = resolve_answers([Row("answers", 2, values, {"answer": "B"})], {}, Names())

    assert found.facts["wall_stiffness_ratio"].value == 15.0
    assert found.problems == ()


def test_words_with_of_in_them_are_free_text(resolved):
    """Only what belongs to an assembly is parted there."""
    found = resolved({
        "answers": said_by(
            f"state of the wall | | sound | {SIGNED}", f"terrain of dial | | II | {SIGNED}"
        )
    })  # fmt: skip

    assert [one.about for one in found.answers.given] == ["state of the wall", "terrain of dial"]


def test_free_text_is_kept(resolved, said):
    """It may be said more than once; nothing follows from it."""
    found = resolved(CALM | {
        "answers": said_by(
            f"who lifts | | a crane | {SIGNED}", f"who lifts | | not by hand | {SIGNED}"
        )
    })  # fmt: skip

    assert [one.typed for one in found.answers.given] == ["a crane", "not by hand"]
    assert found.answers.replaced == 0
    assert said(found, "note").splitlines()[:2] == [
        'answers!A2 (who lifts): "who lifts" sets no figure; it is kept in the register',
        "    the note on the heading `about` says what can be set",
    ]


WRONG = [
    (
        "altitude | | 30 |",
        (
            'answers!C2 (altitude): "30" has no unit\n'
            "    wanted: a height such as 12 m\n"
            '    type its unit in the cell, as in "30 m"'
        ),
    ),
    (
        "wall stifness ratio | | 15 |",
        (
            'answers!A2 (wall stifness ratio): "wall stifness ratio" is nothing that can be set\n'
            "    wanted: what the answer is about\n"
            '    did you mean "wall stiffness ratio"?'
        ),
    ),
    (
        "coefficient | dail | 1.4 |",
        (
            'answers!B2 (coefficient): "dail" is not an assembly of this workbook\n'
            "    wanted: an assembly of this workbook\n"
            "    type one of: dial"
        ),
    ),
    (
        "coefficient of dail | | 1.4 |",
        (
            'answers!A2 (coefficient of dail): "dail" is not an assembly of this workbook\n'
            "    wanted: an assembly of this workbook\n"
            "    type one of: dial"
        ),
    ),
    (
        "coefficient | | 1.4 |",
        (
            'answers!B2 (coefficient): "coefficient" is of one assembly, and "which" is blank\n'
            "    wanted: the name of an assembly\n"
            "    type one of: dial"
        ),
    ),
    (
        "coefficient | dial | 14 |",
        (
            'answers!C2 (coefficient): "14" is more than 5\n'
            "    wanted: a plain number without a unit, from 0 to 5"
        ),
    ),
    (
        "terrain | dial | II |",
        (
            'answers!B2 (terrain): "terrain" is one for the whole job, and "dial" stands under'
            ' "which"\n'
            "    wanted: a blank cell\n"
            "    empty it, or say it as free text under another name"
        ),
    ),
    (
        "zone not to fix in | pipe | left of the door |",
        (
            'answers!C2 (zone not to fix in): "left of the door" is no rectangle\n'
            "    wanted: a rectangle on the wall face, from the datum: across -300 to 300 mm, up"
            " 0 to 400 mm\n"
            "    type it as in: across -300 to 300 mm, up 0 to 400 mm"
        ),
    ),
]


@pytest.mark.parametrize(("row", "message"), WRONG)
def test_what_cannot_be_read_is_told_at_its_cell(resolved, said, row, message):
    """The row is refused, so that nobody thinks that it counted."""
    found = resolved({"answers": said_by(f"{row} {SIGNED}")})

    assert said(found, "refused") == message
    assert found.answers.given == ()
    assert found.accounts["answers"].refused == 1
    assert not found.complete


def test_an_answer_of_another_way_of_building_does_not_count(resolved):
    """A row with an option belongs to that option alone."""
    sheet = f"option | {HEAD}\nlead | not listed yet | | 8 % | {SIGNED}"

    assert resolved({"answers": sheet}, "lead").facts.number("not_listed_yet") == 0.08
    parts = "option | part | assembly | count | shape\ncopper | X | dial | 0 | disc"
    both = {"answers": sheet, "parts": parts}
    assert resolved(both, "copper").facts.number("not_listed_yet") == 0.05
