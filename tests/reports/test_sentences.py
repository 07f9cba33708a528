"""The words that every report shares."""

import numpy as np
import pytest

from estimator.reports import figures, sentences

SUMMARY = """\
The whole is likely to have a mass of 446 kg; one time in twenty less than 410 kg, one in twenty \
more than 492 kg.
Of this 21.2 kg (5.0 % of what was not weighed as a whole) allows for what is not listed yet.
Of the mass 18.2 kg stood on a scale.
It is least sure for the sizes of what is guessed: were that known, it would be 424 to 479 kg.
To narrow it, measure or weigh T15, T16 as made: these 2 of 6 alone narrow it by 11.0 kg.
Seen from the street its centre of gravity is 2 mm to the left, 789 mm below, 180 mm out from the \
datum on the wall.
The largest wind force on one assembly is 6.94 kN, characteristic, on dial (fixed) with the wind \
from 0° (the street, south-east), pressed on (EN 1991-1-4, 812 Pa).
The largest characteristic pull on the wall is 2.71 kN at bracket D1.
The largest characteristic moment that pulls the top fixings is 245 N m about across at bracket D4.
With partial factors the pull is 4.07 kN at bracket D1 (1.35 G + 1.5 W (EN 1990 6.10); wind from \
0°; rigid sharing).
Bracket set ledge is free to swing about the line through L1 and L2.
The heaviest lift unit is dial and hand: 142 kg, perhaps 153 kg.
The lowest point is 5.87 m above the pavement (ledge, fixed).
The furthest point is 495 mm out from the wall (bird, fixed).
The likely costs add up to GBP 7 200; the mean cost, which allows for overruns, is GBP 8 400.
Price before tax: mean GBP 9 660, from GBP 6 210 to GBP 14 490; no tax is in it.
1 order line has no price yet and is not in the price."""


def test_the_summary_in_full(document):
    """The text is the promise; every number in it is one of the document's."""
    assert figures.plain("\n".join(sentences.summary(document))) == SUMMARY


def test_a_price_without_hours_says_so(document):
    """Materials alone are no price of the work."""
    document["cost"]["hours_lines"] = []

    assert "No hours are counted, so no work is in the price." in sentences.summary(document)


def test_a_job_without_an_issue_is_not_issued(document):
    """What the program put there itself is no name of an issue."""
    assert sentences.issue(document) == "issue C of 2026-05-11"
    document["job"]["date"]["value"] = None
    assert sentences.issue(document) == "issue C"
    document["job"]["issue"] |= {"value": "not issued", "origin": "default"}
    assert sentences.issue(document) == "not issued"
    document["job"]["issue"]["value"] = None
    assert sentences.issue(document) == ""


def test_what_is_not_known_is_not_said(document):
    """A bare job has its mass, and that nobody told a price."""
    document.update(
        mass={**document["mass"], "not_listed_kg": 0.0, "weighed_kg": 0.0, "cg_m": None},
        widest=[],
        assemblies=[], lift_units=[], bracket_envelope=[], bracket_sets=[],
        marks={**document["marks"], "brackets": []},
        plates={**document["plates"], "brackets": []},
        options_table=[],
        wind={**document["wind"], "loads": []},
        cost={**document["cost"], "mean": None, "price_lines": []},
    )  # fmt: skip

    assert sentences.summary(document)[1:] == [
        "No price is told, so there is no cost and no price."
    ]


def test_a_lift_unit_without_a_name_is_told_by_what_is_in_it(document):
    """One thing to lift need not be named."""
    document["lift_units"][0]["lift_unit"] = ""

    assert any(
        "The heaviest lift unit is dial and hand: " in words
        for words in sentences.summary(document)
    )


def test_the_signs_of_moments_are_those_of_the_frame():
    """A pull-out above, left or right of the middle turns as the sentence for its moment says.

    Right-hand rule with axes (across, up, out): the moment is r x F of the pull.
    """
    pull_n = (0.0, 0.0, 1.0)
    tips, swings = (next(m for m in sentences.MEANINGS if w in m) for w in ("tips", "swings"))

    assert np.cross((0.0, 1.0, 0.0), pull_n)[0] > 0
    assert "+ pulls at the top" in tips
    assert np.cross((-1.0, 0.0, 0.0), pull_n)[1] > 0
    assert "+ pulls at the fixings on the left" in swings


def test_ranges_name_the_least_sure_parts_first(document):
    """Widest range first: 55 kg, 9.0 kg, 8.8 kg."""
    straight, widest = (figures.plain(s) for s in sentences.ranges(document))

    assert straight.endswith("worst the same way at once it would be 371 to 547 kg.")
    assert widest == (
        "Least sure: T35 mud ledge, 126 to 181 kg; T01 dial face, 63.0 to 72.0 kg;"
        " T15 body, 11.2 to 20.0 kg."
    )


def test_without_parts_nothing_is_least_sure(document):
    """The sentence is left out."""
    document["parts"] = []

    assert len(sentences.ranges(document)) == 1


def test_the_banner_counts_the_rows_left_out(document, incomplete):
    """One row, three rows; a complete result has no banner."""
    assert sentences.banner(incomplete) == "INCOMPLETE: 1 row of the workbook left out"
    incomplete["rows"]["parts"]["refused"] = 3
    assert sentences.banner(incomplete) == "INCOMPLETE: 3 rows of the workbook left out"
    document["complete"] = True
    assert not sentences.banner(document)


@pytest.mark.parametrize(
    ("direction_deg", "compass", "words"),
    [
        (0.0, "south-east", "0° (the street, south-east)"),
        (90.0, "", "90° (the right)"),
        (180.0, "", "180° (behind)"),
        (270.0, "", "270° (the left)"),
        (22.5, "", "22.5°"),
        (None, "", ""),
    ],
)
def test_a_direction_is_told_from_the_street_and_by_the_compass(direction_deg, compass, words):
    """0 from the street, 90 from the right, 180 from behind, 270 from the left."""
    assert sentences.direction(direction_deg, compass) == words


@pytest.mark.parametrize(
    ("names", "words"), [([], ""), (["a"], "a"), (["a", "b"], "a and b"), ("abc", "a, b and c")]
)
def test_names_are_listed_as_in_speech(names, words):
    """A comma, then and."""
    assert sentences.listed(names) == words


def test_a_fact_nobody_gave_is_empty(document):
    """Neither a missing item nor a null is printed."""
    document["job"]["client"]["value"] = None

    assert sentences.fact(document, "client") == ""
    assert sentences.fact(document, "orography") == ""


def test_a_list_whose_every_row_is_refused_is_not_called_empty(document):
    """Five rows that could not be used are not "no part listed"."""
    document["parts"] = []
    document["rows"]["parts"]["refused"] = 5

    assert sentences.summary(document)[0] == "No part could be used; what is left out says why."


def test_an_empty_list_says_so_instead_of_nothing_weighs_nothing(document):
    """A blank workbook has no mass to be sure of."""
    document["parts"] = []

    document["rows"]["parts"]["refused"] = 0

    assert sentences.summary(document)[0] == "No part is listed yet."
    assert not any("centre of gravity" in words for words in sentences.summary(document))


def test_a_stay_and_its_arm_are_told_apart(document):
    """Where the stay pulls the arm pushes: their sum is not what either of them does."""
    marks = document["marks"]["brackets"]
    marks.append(marks[0] | {"bracket": "L1 stay", "of_stay": True, "pull_out_n": 9000.0})
    (plated,) = (one for one in document["plates"]["brackets"] if one["bracket"] == "L1")
    plated["stay"]["pull"] |= {"pull_n": 9900.0, "sharing": "placed"}
    told = " ".join(figures.plain(words) for words in sentences.summary(document))

    assert "pull on the wall is 9.00 kN at the stay of bracket L1." in told
    assert "With partial factors the pull is 9.90 kN at the stay of bracket L1 (" in told
    assert "; each load at its own place along the arm)." in told


def test_a_pull_without_any_wind_says_so(document):
    """Without a pressure the largest pull is only that of the weights."""
    document["wind"]["loads"] = []
    told = " ".join(figures.plain(words) for words in sentences.summary(document))

    assert "The largest characteristic pull on the wall, without any wind, is" in told


def test_a_wind_at_strength_level_is_not_called_characteristic(document):
    """ASCE 7 winds hold what EN 1990 puts in a partial factor, so no load is characteristic."""
    document["wind"]["level"] = "strength level"
    told = " ".join(figures.plain(words) for words in sentences.summary(document))

    assert "characteristic" not in told
    assert "6.94 kN, at strength level, on dial" in told
    assert "The largest unfactored pull on the wall is 2.71 kN" in told
    assert "own factor in a combination is 1" in sentences.unfactored(document)
    assert (sentences.characteristic(document), sentences.level(document)) == (
        "unfactored", "at strength level",
    )  # fmt: skip


def test_who_works_in_inches_has_pounds_beside(document):
    """Masses, places, forces and pressures in US units after the metric ones."""
    assert not sentences.in_inches(document)
    document["job"]["show_units"] = document["job"]["site"] | {"value": "inch"}
    with figures.us_beside(wanted=sentences.in_inches(document)):
        told = " ".join(figures.plain(words) for words in sentences.summary(document))

    assert "6.94 kN (1 561 lb), characteristic, on dial" in told
    assert "812 Pa (17.0 psf)" in told


def test_what_has_no_price_is_counted(document):
    """A price that leaves things out says how many."""
    lines = document["order"]["lines"]
    for line in lines:
        line["cost"] = 1.0
    lines[0]["cost"] = None
    one = sentences.summary(document)[-1]
    lines[1]["cost"] = None

    assert one == "1 order line has no price yet and is not in the price."
    assert sentences.summary(document)[-1] == (
        "2 order lines have no price yet and are not in the price."
    )
    lines[0]["cost"] = lines[1]["cost"] = 0.0
    assert sentences.summary(document)[-1].startswith("Price before tax")


@pytest.mark.parametrize(
    ("tax", "words"), [(1380.0, "tax is included, 20 % of price"), (0.0, "no tax is in it")]
)
def test_a_price_says_whether_tax_is_in_it(document, tax, words):
    """The line named tax tells; a tax of nothing is no tax."""
    lines = document["cost"]["price_lines"]
    amounts = dict.fromkeys(("low", "likely", "high", "mean"), tax)
    lines += [
        {"name": "tax", **amounts, "how": "20 % of price"},
        {**lines[-1], "name": "price"},
    ]

    (told,) = sentences.priced(document)
    assert told.startswith("Price: mean GBP")
    assert told.endswith(f"; {words}.")


def test_another_way_of_building_makes_it_incomplete_too(document):
    """No row of the way shown is missing, but the table beside it is short."""
    document["complete"] = False
    for sheet in document["rows"].values():
        sheet["refused"] = 0

    assert sentences.banner(document) == (
        "INCOMPLETE: rows of another way of building could not be used"
    )
    assert sentences.shortfall(document).startswith("Totals of the way shown are whole")


def test_a_refused_row_makes_every_total_short(incomplete):
    """What was refused belongs to the way shown."""
    assert sentences.shortfall(incomplete) == "Every total below is short of what they hold."


def test_an_empty_list_reaches_nowhere(document):
    """An assembly that is named but holds nothing has no lowest and no furthest point."""
    document["parts"] = []

    assert not any("point is" in words for words in sentences.summary(document))


@pytest.mark.parametrize(
    ("item", "value", "words"),
    [
        ("quotation_validity", 30, "30\u202fdays"),
        ("years exposed", 50, "50\u202fyears"),
        ("terrain", "II", "II"),
    ],
)
def test_what_a_fact_counts_is_said(document, item, value, words):
    """Days and years are no unit of the document, so they are named here."""
    known = {**document["job"]["title"], "value": value}
    document["job"][item] = known

    assert sentences.fact(document, item) == words
    assert dict(sentences.facts(document))[item.replace("_", " ")] == known


@pytest.mark.parametrize(
    ("item", "used", "words"),
    [
        ("wall stiffness ratio", "nothing", "left out"),
        ("quotation validity", "30", "30\u202fdays"),
        ("years exposed", "as typed", "as typed"),
        ("terrain", "II", "II"),
    ],
)
def test_what_stands_in_for_the_untold(item, used, words):
    """What has nothing in its place is left out; a number has what it counts."""
    assert sentences.stood_in({"item": item, "used": used, "why": ""}) == words


def test_a_default_is_listed_once(document):
    """What stands among the untold is no fact as well; what is typed always is."""
    default = {**document["job"]["title"], "origin": "default", "cell": None}
    document["job"] |= {"terrain": default, "structural_factor": default}

    names = [name for name, _ in sentences.facts(document)]
    assert "terrain" not in names
    assert {"title", "structural factor", "not listed yet"} <= set(names)


def test_what_a_part_is_made_of_is_that_of_its_layers_when_not_typed(document):
    """Each material once, in the order of the layers."""
    part = document["parts"][0]
    assert sentences.made_of(part) == "lead"

    layer = part["layers"][0]
    part |= {"made_of": "", "layers": [layer, layer, {**layer, "material": "wax"}]}
    assert sentences.made_of(part) == "lead, wax"


@pytest.mark.parametrize(
    ("torque_nm", "unbalance_kgm", "words"),
    [
        (18.4, 1.88, ""),
        (0.0, 1.88, "no torque of gravity on an upright axle"),
        (0.0, 0.0, "in balance, so no torque of gravity"),
    ],
)
def test_why_gravity_does_not_turn_a_mover(document, torque_nm, unbalance_kgm, words):
    """Out of balance and yet not turned by its weight: its axle is upright."""
    mover = document["moving"][0]
    mover |= {"gravity_torque_nm": torque_nm, "out_of_balance_kgm": unbalance_kgm}

    assert sentences.no_gravity(mover) == words


def test_a_thin_fact_is_told_in_millimetres():
    """Ice of 0.006 m is 6 mm to whoever reads it; a height stays in metres."""
    ice = {"value": 0.006, "unit": "m"}

    assert figures.plain(sentences.fact_words("ice_thickness", ice)) == "6 mm"
    assert figures.plain(sentences.fact_words("datum_height", ice | {"value": 7.6})) == "7.6 m"
