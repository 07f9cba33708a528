"""Blanks and forming on the page: rows in words, notes by their marks, and drawings."""

import copy
import re

import pytest

from estimator.reports import patterns
from estimator.reports.figures import plain
from estimator.reports.page import page_html

TIMES = "\N{MULTIPLICATION SIGN}"


@pytest.fixture
def blanks(document):
    """Return a plate, gores and a sunk dome, to be changed."""
    return copy.deepcopy(document["blanks"])


@pytest.fixture
def rows(blanks):
    """Return their rows."""
    return patterns.rows(blanks)[0]


def test_a_plate_is_cut_flat(rows):
    """Nothing is moved, joined or trimmed."""
    plate = rows[0]

    assert (plate.formed, plate.differs, plate.trim_m2, plate.joints, plate.thinnest_mm) == (
        "cut flat", *4 * ("\N{EN DASH}",),
    )  # fmt: skip
    assert plain(plate.blank) == "rectangle: length 1 000, width 500"
    assert plain(plate.pieces) == f"1 of 1 000 {TIMES} 500"
    assert plate.marks == ()


def test_gores_say_that_nobody_said_how_they_are_formed(rows):
    """With the skin that hammering adds, and the joints between them."""
    gores = rows[1]

    assert plain(gores.formed) == "not said, skin +8.0 %"
    assert plain(gores.joints) == "6, 6.65 m: butt weld, 0 to 2 mm"
    assert gores.marks == ("1", "2")


def test_a_sunk_dome_weighs_less_than_its_area(rows):
    """60.5 against 67.2 kg; pieces that differ by the trim of a weld are given as one size."""
    dome = rows[2]

    assert plain(dome.differs) == "-10.0 %"
    assert plain(dome.pieces) == f"4 of 1 216 {TIMES} 1 216"
    assert (dome.mean_mm, dome.thinnest_mm, dome.used) == ("1.10", "0.90", "blank less trim")


def test_notes_are_numbered_once(blanks):
    """The same note twice has one mark."""
    blanks[0]["notes"] = ["no way of forming is named"]
    found, notes = patterns.rows(blanks)

    assert notes == {
        "1": "no way of forming is named",
        "2": "6 gores, hammered hollow",
        "3": "a disc of equal area",
    }
    assert [row.marks for row in found] == [("1",), ("2", "1"), ("3",)]


def test_lengths_that_differ_are_given_apart(blanks):
    """Laps of 75 mm are more than a weld."""
    blanks[0]["pieces"] = [
        {"number": 3, "length_m": 1.325, "width_m": 0.3},
        {"number": 1, "length_m": 1.25, "width_m": 0.3},
    ]
    cut = plain(patterns.pieces(blanks[0])).split(f" {TIMES} 300")

    assert cut == ["3 of 1 325", "; 1 of 1 250", ""]


JOINTS = [  # changes, words
    ({"joint": "lead lap on a wall", "joint_low_m": 0.075, "joint_high_m": 0.075},
     "3, 0.90 m: lead lap on a wall, 75 mm"),
    ({"joint": ""}, "3, 0.90 m"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "words"), JOINTS)
def test_joints_say_what_each_takes(blanks, changes, words):
    """Unless the tables have none for it."""
    blanks[0] |= {"joints": 3, "joint_m": 0.9} | changes

    assert plain(patterns.joints(blanks[0])) == words


def test_what_is_not_laid_out_says_why(blanks):
    """In the note, since it has no sizes."""
    blanks[0] |= {"kind": "area", "sizes": [], "pieces": [], "why": "no one blank; not laid out"}
    found, notes = patterns.rows(blanks[:1])

    assert (found[0].blank, found[0].pieces) == ("not laid out", "")
    assert notes == {"1": "no one blank; not laid out"}


def test_angles_are_in_degrees(blanks):
    """And lengths in millimetres."""
    blanks[0]["sizes"] = [{"name": "angle", "value": 0.5, "unit": "rad"}]

    assert patterns.sizes(blanks[0]) == "angle 28.6°"


def test_a_thin_skin_is_warned_of_in_a_sentence(blanks):
    """With its figure, and what it is."""
    assert patterns.warnings(blanks) == [
        "T01 dial face, sunk: its mean thickness is 1.10 mm, 10 % under the 1.22 mm of the sheet."
    ]


def test_parts_that_are_cut_alike_share_a_line(blanks):
    """Only their marks are told; a name too long for its column is cut short."""
    twin = blanks[0] | {"part": "T88", "name": "its twin"}
    long = blanks[1] | {"part": "T99", "name": "feather 7 of the third row, upper tier", "count": 9}
    found, _ = patterns.rows([blanks[0], twin, long])

    assert [row.part for row in found] == [
        f"{blanks[0]['part']} and T88", "T99 feather 7 of the third row, u…"
    ]  # fmt: skip


def test_parts_that_come_out_alike_thin_share_a_sentence(blanks):
    """So that sixty feathers are one sentence."""
    (thin,) = (blank for blank in blanks if blank["warning"])

    (said,) = patterns.warnings([thin, thin | {"part": "T02"}, thin | {"part": "T03"}])

    assert said.startswith("T01, T02 and T03, each sunk: its mean thickness is 1.10 mm")


def test_forming_that_moves_nothing_is_not_explained(document):
    """Only what changes a mass is."""
    (sentence,) = patterns.formings(document["formings"])

    assert plain(sentence) == (
        "sunk: 0.9 (0.85 to 0.95) of finished area x gauge; trim 3 to 8 % of the blank; where it is"
        " thinnest 10 to 25 % of the thickness is lost (General knowledge (from memory))."
    )


def test_one_blank_of_each_kind_is_drawn(blanks):
    """The largest; flat parts look like themselves and are not."""
    small = copy.deepcopy(blanks[1]) | {"part": "T23", "blank_m2": 0.1}
    found = patterns.drawings([*blanks, small])

    assert [re.search("<title>(.*?)</title>", str(svg)).group(1) for svg in found] == [
        "T15: gores", "T01: disc",
    ]  # fmt: skip
    assert "1\u202f066" in found[0] or "1\u202f067" in found[0]


def test_a_drawing_says_what_its_dimensions_do_not(blanks):
    """Radius and angle of a sector stand below it."""
    blanks[1] |= {
        "kind": "sector",
        "sizes": [{"name": "outer radius", "value": 1.467, "unit": "m"},
                  {"name": "angle", "value": 0.32, "unit": "rad"}],
    }  # fmt: skip
    blanks[1]["pieces"][0]["number"] = 1
    (sector,) = patterns.drawings(blanks[:2])

    assert "outer radius 1\u202f467" in sector
    assert "angle 18.3°" in sector
    assert ">sector<" in sector


def test_the_page_has_the_section(document):
    """The table, the warning, the drawings and what forming does."""
    html = page_html(document)
    section = html[html.index('<section id="blanks">') : html.index('<section id="order">')]

    assert section.count("<tr>") == 4
    assert section.count("<svg") == 2
    assert "T01 dial face, sunk: its mean thickness is 1.10 mm" in section
    assert "Note 1: 6 gores, hammered hollow" in section


def test_a_job_without_sheets_has_no_section(document):
    """Nothing is cut."""
    assert '<section id="blanks">' not in page_html({**document, "blanks": []})
