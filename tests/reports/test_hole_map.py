"""The wall as a map of holes."""

import re

from estimator.reports.hole_map import hole_map, sentences, zone_words
from estimator.reports.page import page_html


def test_a_hole_in_a_zone_is_a_sentence(document):
    """With its place, how far in, and who said that nothing may go there."""
    assert sentences(document) == [
        (
            "Hole 1 of L1, at across \N{MINUS SIGN}2\u202f075\u202fmm, up"
            " \N{MINUS SIGN}1\u202f775\u202fmm, reaches 31\u202fmm into the zone not to fix in,"
            " rainwater pipe (J. Marsh, 2026-05-04)."
        ),
        (
            "Hole 2 of L1, at across \N{MINUS SIGN}1\u202f925\u202fmm, up"
            " \N{MINUS SIGN}1\u202f775\u202fmm, reaches 31\u202fmm into the zone not to fix in,"
            " rainwater pipe (J. Marsh, 2026-05-04)."
        ),
    ]


def test_a_zone_without_a_name_goes_by_its_cell(document):
    """It can still be found in the workbook."""
    zone = document["wall"]["zones"][0] | {"zone": ""}

    assert zone_words(zone) == (
        "answers!C3: across \N{MINUS SIGN}2\u202f100 to \N{MINUS SIGN}1\u202f900 mm, up"
        " \N{MINUS SIGN}3\u202f000 to 3\u202f000 mm"
    )


def test_every_plate_names_its_holes(document):
    """On a wall of 4 m the holes of a plate are too close to be numbered one by one."""
    found = hole_map(document)

    assert found.beside
    assert "L1: 1 to 4" in found.svg
    assert "not to fix in: rainwater pipe" in found.svg
    assert "nearest corner 6\u202f200 from the datum; top of wall 3\u202f400" in found.svg


def test_holes_far_apart_are_numbered(document):
    """One plate alone is drawn large enough."""
    wall = document["wall"]
    wall |= {"plates": wall["plates"][:1], "holes": wall["holes"][:4], "zones": []}

    svg = hole_map(document).svg

    assert {"1", "2", "3", "4"} <= set(re.findall(r">([^<]+)</text>", svg))
    assert "L1: 1 to 4" not in svg


def test_a_long_table_stands_below(document):
    """More than fits beside the drawing."""
    wall = document["wall"]
    wall["holes"] = [{**wall["holes"][0], "number": n + 1} for n in range(40)]
    wall["plates"] = [{**wall["plates"][0], "holes": list(range(1, 41))}]

    assert not hole_map(document).beside
    assert page_html(document).count('<th class="n">hole</th>') == 3


def test_a_zone_off_the_paper_is_not_drawn(document):
    """It is told in words all the same."""
    document["wall"]["zones"][0] |= {"box_m": [50.0, 0.0, 51.0, 1.0], "holes": []}
    page = page_html(document)

    assert "phantom" not in hole_map(document).svg
    assert "No hole lies in it." in page


def test_holes_nobody_described_leave_the_plates(document):
    """A wall without corner or top told has no such columns."""
    document["wall"] |= {"holes": [], "zones": [], "corner_m": None, "top_m": None}
    for plate in document["wall"]["plates"]:
        plate["holes"] = []
    page = page_html(document)

    assert 'id="holes"' in page
    assert "to the corner" not in page


def test_a_job_without_brackets_has_no_map(document):
    """Nor an empty section."""
    document["wall"] |= {"holes": [], "zones": [], "plates": []}

    assert hole_map(document) is None
    assert 'id="holes"' not in page_html(document)
