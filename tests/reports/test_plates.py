"""Wall plates and fixings in words: the worst of each, walls, rules, drawings and cautions."""

import re

import pytest

from estimator.reports import plates
from estimator.reports.figures import plain
from estimator.reports.page import page_html
from estimator.reports.plate_drawing import plate_drawing
from estimator.reports.sentences import SIGN_OFF


def section(document):
    """Return the section of the page, typed plainly."""
    page = page_html(document)
    start = page.index('<section id="plates">')
    return plain(page[start : page.index("</section>", start)])


def test_the_worst_of_each_fixing(document):
    """Pull with its shear, shear with its pull, each with its own case; service apart."""
    lines = plates.context(document)["plate_fixings"]

    third = lines[2]
    assert (third.bracket, third.number) == ("L1", "3")
    assert [plain(cell) for cell in third.at_mm] == ["-85", "135"]
    assert [plain(cell) for cell in third.pull] == ["7.56 kN", "167 N", "60", "A1a\xa0R"]
    assert [plain(cell) for cell in third.shear] == ["334 N", "3.78 kN", "A2a\xa0R"]
    assert plain(third.service) == "5.04 kN"
    assert len(lines) == 5


def test_cases_are_numbered_once(document):
    """What a figure comes from is written out once: combination with clause, case, state."""
    sources = plates.context(document)["plate_sources"]

    assert sources["Combination"]["A"] == "6.10 sup: wind leading (EN 1990:2002 6.4.3.2)"
    assert "wind from 270" in sources["Case"]["2"]
    assert sources["State"] == {}


def test_walls_and_rules_of_thumb(document):
    """Pull and pressure by stiffness ratio, and both rules beside."""
    first = plates.context(document)["plate_walls"][0]

    assert plain(first.plate) == "250 x 350 x 12"
    assert [plain(cell) for cell in first.pulls] == ["6.04 kN", "7.56 kN"]
    assert first.peaks == ("2.40", "0.90")
    assert (plain(first.edge), plain(first.centroid)) == ("5.29 kN", "9.82 kN")


def test_governing_combinations_by_plate(document):
    """A line a combination that governs, pull and shear of every fixing; room for the most."""
    found = plates.context(document)
    first, second = found["plate_combinations"]

    assert (first.bracket, found["plate_numbers"]) == ("L1", 4)
    assert [plain(cell) for cell in first.pairs] == [
        "3.61 kN / 1.00 kN", "0 N / 1.34 kN", "7.56 kN / 334 N", "2.95 kN / 955 N",
    ]  # fmt: skip
    assert (second.bracket, len(second.pairs)) == ("L2", 1)


def test_plates_alike_are_drawn_once(document):
    """Of those of one set that look alike the one with the largest pull."""
    first = next(one for one in document["plates"]["brackets"] if one["found"])
    governing = first["found"]["governing"]
    larger = {**governing, "pull_n": [9.0 * pull_n for pull_n in governing["pull_n"]]}
    found = {**first["found"], "governing": larger}
    before = len(plates.context(document)["plate_drawings"])
    document["plates"]["brackets"].append({**first, "bracket": "L9", "found": found})

    drawn = plates.context(document)["plate_drawings"]

    assert len(drawn) == before
    assert drawn[0][1].startswith("L9, with the largest pull of L1, L9: ")


def test_stays_at_the_wall(document):
    """Totals only, for how their fixings are set out is not known."""
    (line,) = plates.context(document)["plate_stays"]

    assert [plain(cell) for cell in (*line.pull[:2], *line.shear[:2])] == [
        "800 N", "600 N", "650 N", "700 N",
    ]  # fmt: skip
    assert "so pull and shear are totals" in section(document)


def test_what_is_said(document):
    """What is blank, a turn that one fixing does not hold, and proof tests as information."""
    told = [plain(sentence) for sentence in plates.context(document)["plate_said"]]

    assert told == [
        ("D1: not worked out: plate width, height and thickness blank on the brackets sheet."),
        (
            "L2: a single fixing cannot hold the plate against turning in its own plane, by up to"
            " 373 N m; its shear leaves that out."
        ),
        (
            "Proof tests, for information: 3 of these 5 fixings to 7.56 kN (1.5 times the largest"
            " characteristic pull, where 2.5 % are tested), or 3 of these 5 fixings to 6.30 kN"
            " (1.25 times the largest characteristic pull, where 5.0 % are"
            " tested), and at least three wherever fixing, wall or its state differ (BS 8539:2012"
            " Annex B.3, as quoted on a fixings page; rounded up). They show how well a fixing was"
            " set and say nothing of how strong the wall is; whoever designs the fixings says"
            " whether, where and how many."
        ),
    ]


def test_a_wind_at_strength_level_makes_tests_large(document):
    """Such a wind is not characteristic, and that is said beside the loads of the tests."""
    document["wind"]["level"] = "strength level"

    (told,) = [s for s in plates.context(document)["plate_said"] if s.startswith("Proof")]

    assert "the largest unfactored pull" in told
    assert plates.STRENGTH_LEVEL in told


def test_sign_off_and_cautions_stand_with_the_numbers(document):
    """The sentence first and in the tables; cautions, limits of the model, what made the page."""
    words = section(document)

    assert words.index(SIGN_OFF) < words.index("These are estimates")
    assert words.count(SIGN_OFF) > 1
    for part in ("A softer wall means more pull", "People walk below", "prying", "friction",
                 "as if they were filled", "tests at the real wall",
                 f"from {document['file']} by version {document['program_version']}"):  # fmt: skip
        assert part in words


NEVER = r"\b(safe|ok|okay|pass|passes|fails?|approved|capacity|resistance|anchors?)\b"


def test_nothing_is_judged(document):
    """No verdict, no resistance, no kind of fixing."""
    words = re.sub(r"<[^>]*>", " ", section(document)).lower()

    assert not re.findall(NEVER, words)


def test_nothing_to_say_without_brackets(document):
    """No bracket, no section; plates that nobody described, a sentence and no table."""
    document["plates"]["brackets"] = [document["plates"]["brackets"][2]]
    document["plates"]["proof_tests"] = []
    words = section(document)
    assert "D1: not worked out" in words
    assert "<table" not in words

    document["plates"]["brackets"] = []
    assert '<section id="plates">' not in page_html(document)


def test_drawing(document):
    """To scale, dimensioned, with every fixing numbered and what it carries written beside."""
    one = document["plates"]["brackets"][0]

    words = plain(str(plate_drawing(one)))

    assert ">L1  1:10<" in words
    for text in ("250", "350", "170", "270", "1: 3.61 kN / 1.00 kN",
                 "2: 0 N / 1.34 kN"):  # fmt: skip
        assert f">{text}</text>" in words
    assert words.count("<title>Wall plate of L1</title>") == 1


@pytest.mark.parametrize("outline", [
    [],
    [[-0.125, -0.175], [0.125, -0.175], [0.125, 0.175], [-0.125, 0.175]],
])  # fmt: skip
def test_drawing_hatches_what_presses(document, outline):
    """Nothing pressed, no hatching; all pressed, lines at 45 degrees across the plate."""
    one = document["plates"]["brackets"][0]
    bare = plate_drawing(one | {"found": one["found"] | {"governing": (
        one["found"]["governing"] | {"outline_m": []})}}).count("<path")  # fmt: skip
    one["found"]["governing"]["outline_m"] = outline

    lines = plate_drawing(one).count("<path") - bare

    # 25 x 35 mm on the paper: sums of the two run over 60 mm, a line every 1.5 mm, an outline.
    assert lines == (0 if not outline else pytest.approx(60 / 1.5 + 1, abs=1))


def test_drawing_of_a_fixing_without_shear(document):
    """One fixing, no shear: no arrow, no pitch."""
    one = document["plates"]["brackets"][1]

    words = plain(str(plate_drawing(one)))

    assert "1: 400 N / 0 N" in words
    assert '#b00020" stroke-width' not in words


def test_only_the_plates_that_pull_most_are_drawn(document, monkeypatch):
    """The others are in the tables."""
    monkeypatch.setattr(plates, "MOST_DRAWN", 1)

    ((_, caption),) = plates.context(document)["plate_drawings"]

    assert caption.startswith("L1: 6.10 sup")
    assert "n = 60; peak pressure 0.90 MPa" in caption
