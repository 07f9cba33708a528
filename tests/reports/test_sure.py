"""How sure the mass is, in words."""

import pytest

from estimator.reports import sure
from estimator.reports.figures import plain
from estimator.reports.page import page_html


def row(document, kind, **cells):
    """Return the second row of what is widest, as another kind of cause."""
    return {**document["widest"][1], "kind": kind} | cells


PIECE = "0.1 m² is likely 1.45 kg, 1.38 to 1.52 kg"
MEASURES = [
    ("gauge", f"gauge it with a micrometer in five places, or weigh a flat piece: {PIECE}"),
    ("density", f"weigh an offcut and measure it: {PIECE}"),
    ("coat", f"weigh a test piece bare and coated; the coat alone: {PIECE}"),
    ("moisture", "put a moisture meter on it, and type `timber moisture` on the job sheet"),
    ("sizes", "measure or weigh T01 as made"),
    ("laps", "measure the laps as they lie on T01"),
    ("forming", "weigh the blank and what was made of it: T01"),
    ("scale", "have the scale checked, or weigh again on another"),
    ("other", "measure or weigh T01"),
]


@pytest.mark.parametrize(("kind", "words"), MEASURES)
def test_what_to_measure(document, kind, words):
    """Every kind of cause has its own way of being known better."""
    assert plain(sure.measure(row(document, kind))) == words


def test_what_a_few_of_many_would_do(document):
    """Two of six guessed parts are told, with what knowing those alone would do."""
    words = plain(sure.measure(document["widest"][0]))

    assert words == ("measure or weigh T15, T16 as made: these 2 of 6 alone narrow it by 11.0 kg")
    assert plain(sure.chiefly(document["widest"][0])) == "T15 ±3.00 kg, T16 ±0.700 kg, and 4 more"
    assert plain(sure.chiefly(document["widest"][1])) == "T01 ±3.40 kg"


def test_the_summary_says_what_to_do_next(document):
    """What stood on a scale, what widens the range most, and how to narrow it."""
    assert [plain(line) for line in sure.summary(document)] == [
        "Of the mass 18.2 kg stood on a scale.",
        (
            "It is least sure for the sizes of what is guessed: were that known, it would be "
            "424 to 479 kg."
        ),
        "To narrow it, measure or weigh T15, T16 as made: these 2 of 6 alone narrow it by 11.0 kg.",
    ]


def test_nothing_weighed_and_nothing_unsure_is_not_mentioned(document):
    """An empty job has no sentence to spare."""
    document["mass"]["weighed_kg"], document["widest"] = 0.0, []

    assert list(sure.summary(document)) == []


def test_the_straight_sum_stands_beside(document):
    """Everything at its worst at once, against one time in twenty."""
    assert plain(sure.straight(document)) == (
        "The whole is 410 to 492 kg, one time in twenty beyond either end. With every cause at its "
        "worst the same way at once it would be 371 to 547 kg."
    )


def test_how_a_part_is_known(document):
    """By itself on a scale, with something, or as sure as the maker said."""
    known = {part["part"]: sure.known_by(part) for part in document["parts"]}

    assert known["T21"] == "weighed"
    assert known["T15"] == "weighed with bird"
    assert known["T01"] == "drawn"


def test_a_weighing_in_words(document):
    """Two alike, the mean of two readings; the whole, with what of it was weighed alone."""
    part, whole = (sure.weighing(one) for one in document["weighings"])

    assert part == {
        "what": "T21, 2 alike", "when": "2026-04-02, mean of 2", "scale": "kitchen",
        "ratio": "1.06", "rest": "1.06", "like": "stainless 304, tube",
    }  # fmt: skip
    assert plain(whole["what"]) == "bird, 3.07 kg of it on its own"
    assert (whole["when"], whole["scale"], whole["rest"]) == ("no date", "not said", "0.89")
    assert whole["like"] == "not kept: parts of it were weighed on their own"


def test_the_own_record_in_words(document):
    """How many, their mean, ends and deviation, from where, and what here is like them."""
    (offer,) = document["own_record"]

    assert plain(sure.offer(offer)) == (
        "copper, hammered, ellipsoid: 4 weighed, made/estimated 1.06 (0.98 to 1.12), standard "
        "deviation 0.06, from heron, vane (Vane). Like it here: T15, T23, worked out at 30.1 kg."
    )
    assert "deviation" not in sure.offer({**offer, "deviation": None})


def test_the_page_has_all_three(document):
    """What widens, what was weighed, what the record offers; none where there is none."""
    page = page_html(document)
    headings = ("What makes the mass of the whole unsure", "What was weighed", "Your own record")
    for words in headings:
        assert words in page

    for key in ("widest", "weighings", "own_record"):
        document[key] = []
    empty = page_html(document)
    for words in headings:
        assert words not in empty
