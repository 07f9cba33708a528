"""Arms of brackets in words: ratios, movements, stays, trials, and the sum behind a ratio."""

import math

import pytest

from estimator.core.problems import RequestError
from estimator.reports import arms
from estimator.reports.figures import plain
from estimator.reports.page import page_html
from estimator.reports.sentences import SIGN_OFF
from estimator.reports.why import why_text


def test_a_line_of_stress(document):
    """The stress ratio with its yield and partial factor; MPa to a tenth."""
    first, second = arms.context(document)["arm_lines"]

    assert (first.bracket, first.ratio, first.yield_mpa, first.gamma) == (
        "L1",
        "0.40",
        "275",
        "1.00",
    )
    assert (first.together, *first.parts) == ("110.0", "109.5", "0.5", "0.5", "0.5")
    assert first.standard == "EN 10219-2, cold-formed"
    assert (second.ratio, second.parts[-1]) == ("not known", "\N{EN DASH}")
    assert first.mark == second.mark


@pytest.mark.parametrize(("ratio", "words"), [
    (0.4, "0.40"), (1.0, "1.00"), (1.24, "1.24, above the yield of the table"), (None, "not known"),
])  # fmt: skip
def test_a_ratio_is_a_number(ratio, words):
    """Above one it says what that means, and judges nothing."""
    assert arms.ratio_words(ratio, 1.0) == words


def test_what_is_said_of_arms(document):
    """Why a ratio is not known, what a grade counts as, what zinc does; alike ones together."""
    notes = [plain(note) for note in arms.context(document)["arm_notes"]]

    assert notes == [
        (
            "L1: galvanised: zinc leaves the yield as it is, and its mass is not counted. Ask the "
            "galvaniser about vent holes and cold-formed corners."
        ),
        "L2: it is twisted.",
        "L2: the grade, mild steel, counts as S235.",
    ]


def test_an_arm_of_which_no_action_is_known(document):
    """It is said; the line of its stress is left away."""
    document["arms"] = [document["arms"][0] | {"stress": None, "ratio": None}]
    found = arms.context(document)

    assert found["arm_lines"] == []
    assert "L1: no factored action is known, so there is no stress." in found["arm_notes"]


def test_movements(document):
    """In tenths of a millimetre, and as a part of the reach."""
    lines = arms.context(document)["arm_moves"]

    assert [line.over for line in lines] == [
        "less than L/2000", "L/160, more than the limit", "L/157, more than the limit",
    ]  # fmt: skip
    assert lines[1].ways == ("2.5", "0.0", "0.0")
    assert lines[1].tilts == ("0.10", "0.00", "\N{MINUS SIGN}0.02")
    assert arms.context(document)["arm_limits"] == ["L/180: the engineer, 2 May"]


def test_what_does_not_move(document):
    """A dash stands for its part of the reach."""
    still = document["arms"][0]["moves"][0] | {"sag_m": 0.0, "over": None}
    document["arms"][0]["moves"] = [still]

    assert arms.context(document)["arm_moves"][0].over == "\N{EN DASH}"


def test_a_stay(document):
    """What it pulls and what it does to its own fixing; a rod never pushes."""
    (line,) = arms.context(document)["stay_lines"]

    assert (plain(line.pull), line.push, line.slack) == ("1.00 kN", "\N{EN DASH}", "12 of 96")
    assert [plain(force) for force in line.at_wall] == ["800 N", "-600 N"]
    assert (line.slenderness, line.euler) == ("\N{EN DASH}", "\N{EN DASH}")


def test_a_strut(document):
    """Where it pushes, its slenderness and Euler load stand beside."""
    document["arms"][0]["stay"] |= {"push_n": 500.0, "pulls_only": False, "slack": 0}
    (line,) = arms.context(document)["stay_lines"]

    assert (plain(line.push), line.slack) == ("500 N", "can push")
    assert (line.slenderness, plain(line.euler)) == ("167", "8.44 kN")


def test_sections_that_were_tried(document):
    """Lightest first, with the price where there is one; the one taken is named above."""
    (table,) = arms.context(document)["arm_trials"]

    assert table.heading == "L1, typed as trial SHS: worked out and priced with SHS 60x60x4"
    assert [row[0] for row in table.rows] == ["SHS 40x40x3", "SHS 60x60x4"]
    assert [row[3] for row in table.rows] == ["1.25, above the yield of the table", "0.40"]
    assert table.rows[0][-1] == "no price"
    assert "9.50" in table.rows[1][-1]
    assert table.more == 0


def test_where_no_section_will_do(document):
    """It is said in the heading."""
    document["arms"][0]["trial"]["fits"] = False
    (table,) = arms.context(document)["arm_trials"]

    assert table.heading.endswith("; none is within both, and the heaviest was taken")


def test_the_page_has_the_section_under_the_sign_off(document):
    """The numbers of arms never stand without who must sign."""
    page = page_html(document)
    section = page[page.index('<section id="arms">') :]
    section = section[: section.index("</section>")]

    assert section.index(SIGN_OFF) < section.index("Stress ratio")
    for words in ("Stress ratio", "SHS 60x60x4", "galloping", "Euler load", "to choose from"):
        assert words in section


def test_a_job_without_brackets_has_no_such_section(document):
    """Nothing is said of nothing."""
    document["arms"] = []

    assert '<section id="arms">' not in page_html(document)


def test_the_sum_behind_a_ratio(document):
    """Every stress as an action over a modulus, and all of them together."""
    told = why_text(document, "l1", "arm", width=200)

    for line in (
        "Stress ratio of the arm of L1: 0.40",
        "SHS 60x60x4, EN 10219-2, cold-formed; its load bears 400 mm from the wall",
        "bending: 1588 N m / 14.5 cm3 + 0 N m / 14.5 cm3 = 109.5 MPa",
        "along: 427.5 N / 855 mm2 = 0.5 MPa",
        "shear: 213.75 N / 427.5 mm2 = 0.5 MPa",
        "twist: 10 N m / 21.88 cm3 = 0.457 MPa",
        "all together: square root of (110 squared + 3 x 0.957 squared) = 110 MPa",
        "Stress ratio: 110 MPa x 1 / 275 MPa = 0.4",
        SIGN_OFF,
    ):
        assert line in told, line


def test_the_sum_of_an_open_section(document):
    """Shear by the root of two squares; no twist, no ratio, the reason at the end."""
    told = why_text(document, "L2", "arm", width=200)

    assert "shear: square root of ((0 N / 427.5 mm2) squared + " in told
    assert "twist" not in told.replace("It is twisted", "")
    assert "It is twisted." in told
    assert math.isclose(document["arms"][1]["stress"]["shear_pa"], 213.75 / 427.5e-6)


def test_the_sum_where_no_action_is_known(document):
    """It is said."""
    document["arms"][0] |= {"stress": None, "ratio": None}

    assert "No factored action is known" in why_text(document, "L1", "arm")


def test_a_bracket_that_is_not_there(document):
    """The nearest names are told."""
    with pytest.raises(RequestError, match=r"no bracket \"L9\" with an arm; .* L2"):
        why_text(document, "L9", "arm")


def test_a_bracket_whose_row_was_refused(document):
    """It is there, and says where to look."""
    document["problems"].append({"severity": "refused", "part": "L9"})

    with pytest.raises(RequestError, match=r'the row "L9" cannot be used; `estimator check`'):
        why_text(document, "L9", "arm")


@pytest.mark.parametrize(("level", "told"), [
    ("strength level", True), ("peak characteristic", False),
])  # fmt: skip
def test_a_wind_at_strength_level_is_told(document, level, told):
    """Movements under it are larger than the rule asks about."""
    document["wind"]["level"] = level

    assert bool(arms.context(document)["arm_level"]) is told


def test_a_factor_on_the_yield_is_told_where_it_matters():
    """What is above one is above the yield over that factor only."""
    words = arms.ratio_words(1.02, 1.1)

    assert words == "1.02, above the yield of the table divided by 1.10"
