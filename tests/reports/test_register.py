"""The register as it is printed."""

import re

from estimator.reports.page import page_html
from estimator.reports.register import Line, lines


def test_every_line_says_what_was_used_and_what_was_said(document):
    """An answer with what stood there before; a blank where one is wanted."""
    assert lines(document) == [
        Line(1, "wall stiffness ratio", "15 (before: not told)",
             "A soft wall shares the pull in another way", "J. Marsh, 2026-05-04, answers!C2",
             blank=False),
        Line(2, "terrain", "II", "nothing typed; open country is usual", "", blank=True),
        Line(3, "blade twist", "2°", "hammered hands are not flat", "", blank=True),
    ]  # fmt: skip


def test_what_nothing_stands_in_for_is_left_out(document):
    """And what the maker types on the job sheet needs no blank."""
    document["register"][1] |= {"value": "nothing", "about": "client", "state": "job"}

    assert lines(document)[1][1:] == (
        "client", "left out", "nothing typed; open country is usual", "typed on the job sheet",
        False,
    )  # fmt: skip


def test_an_answer_that_gave_way_says_so(document):
    """Which assembly it was about stands beside what it was about."""
    document["register"][0] |= {"about": "coefficient", "which": "dial", "state": "replaced"}

    assert lines(document)[0][1] == "coefficient: dial"
    assert lines(document)[0].said == "J. Marsh, 2026-05-04, answers!C2; does not count"


def test_the_page_leaves_room_to_write(document):
    """A blank line has three empty cells: answer, by, date."""
    page = page_html(document)
    section = page[page.index('<section id="register">') :]

    assert len(re.findall(r'<tr class="blank">', section)) == 2
    assert section.count("<td></td><td></td><td></td></tr>") == 2


def test_nothing_assumed_is_said(document):
    """An empty register is a sentence, not an empty table."""
    document["register"] = []

    assert "Nothing that was asked for is missing, and nothing was assumed." in page_html(document)
