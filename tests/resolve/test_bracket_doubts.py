"""What is asked about the plate and the fixings of a bracket that can be used."""

import pytest

from estimator.core.problems import Severity

HEADINGS = (
    "bracket | set | across | up | reach | section | holds | plate width | plate height "
    "| plate thickness | fixings across | fixings up | pitch across | pitch up | fixing diameter"
)
WHOLE = {
    "width": "160 mm", "height": "220 mm", "thick": "12 mm", "across": "2", "up": "2",
    "pitch_across": "100 mm", "pitch_up": "160 mm", "diameter": "12 mm",
}  # fmt: skip
THEN = "until then nothing is worked out for its plate and fixings; its arm is"


def _sheets(**changed):
    cells = (WHOLE | changed).values()
    row = f"B1 | main | 0 m | 0 m | 300 mm | SHS 60x60x4 | welded | {' | '.join(cells)}"
    return {"brackets": f"{HEADINGS}\n{row}"}


def _asked(found):
    """Return what is asked about brackets; that there is no wind is asked of every such job."""
    return [problem for problem in found.problems if problem.cell.sheet == "brackets"]


OUTSIDE = (
    "brackets!{} (B1): the fixings take {} mm, the wall plate has {} mm, so some stand outside of "
    "it"
)
ASKED = [
    ({"up": ""}, 'brackets!L2 (B1): "fixings up" is blank', "1 or more, as there is the other",
     THEN),
    ({"across": ""}, 'brackets!K2 (B1): "fixings across" is blank',
     "1 or more, as there is the other", THEN),
    ({"width": "", "height": "", "thick": ""},
     "brackets!H2 (B1): there are fixings but no wall plate", "plate width, height and thickness",
     THEN),
    ({"diameter": ""}, 'brackets!O2 (B1): "fixing diameter" is blank',
     "a trial size, for pricing", THEN),
    ({"pitch_across": ""}, 'brackets!M2 (B1): "pitch across" is blank',
     "how far apart the 2 fixings stand", THEN),
    ({"width": "111 mm"},
     OUTSIDE.format("H2", 112, 111), "a wall plate that is larger than its fixings",
     "look at the plate, the pitch and the fixing diameter"),
    ({"height": "171 mm"},
     OUTSIDE.format("I2", 172, 171), "a wall plate that is larger than its fixings",
     "look at the plate, the pitch and the fixing diameter"),
    ({"pitch_up": "10 mm"}, "brackets!N2 (B1): the fixings are 12 mm thick and stand 10 mm apart",
     "more than the fixing diameter", "look at both sizes"),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "found_words", "wanted", "advice"), ASKED)
def test_a_plate_that_cannot_be_worked_out_is_asked_about(
    resolved, changed, found_words, wanted, advice
):
    """The bracket itself is used, for its arm and what the wall carries do not go by them."""
    found = resolved(_sheets(**changed))

    assert list(map(str, _asked(found))) == [f"{found_words}\n    wanted: {wanted}\n    {advice}"]
    assert _asked(found)[0].severity is Severity.QUESTION
    assert len(found.brackets) == 1


FINE = [
    {},
    {"across": "", "up": ""},
    {"across": "1", "pitch_across": ""},
    {"width": "112 mm", "height": "172 mm"},
    {"pitch_across": "12 mm"},
]


@pytest.mark.parametrize("changed", FINE)
def test_nothing_is_asked_of_a_plate_that_can_be(resolved, changed):
    """No fixings, one in a row, a plate that just covers them, fixings that just touch."""
    assert _asked(resolved(_sheets(**changed))) == []


def test_what_several_things_are_wrong_with_is_told_at_once(resolved):
    """A blank pitch hides neither the blank diameter nor the other way of the rows."""
    found = resolved(_sheets(pitch_across="", pitch_up="", diameter=""))

    assert sorted(str(one.cell) for one in _asked(found)) == [
        "brackets!M2",
        "brackets!N2",
        "brackets!O2",
    ]
