"""Brackets from the side, with what they pass on as arrows to scale."""

import re

import pytest

from estimator.reports import elevations
from estimator.reports.elevations import alike, left_out, sign_key


def texts(svg):
    """Return what is written on a drawing, with where it starts."""
    found = re.findall(r'<text x="([\d.-]+)" y="([\d.-]+)"[^>]*>([^<]*)</text>', svg)
    return [(float(x), float(y), words) for x, y, words in found]


def arrows(svg, width):
    """Return the lengths of straight lines of one width in the accent."""
    paths = re.findall(rf'd="M([\d.-]+) ([\d.-]+)L([\d.-]+) ([\d.-]+)" stroke="#b00020"'
                       rf' stroke-width="{width}"', svg)  # fmt: skip
    return [abs(float(c) - float(a)) + abs(float(d) - float(b)) for a, b, c, d in paths]


def test_brackets_that_look_alike_are_drawn_once(document):
    """With the largest of any of them, and its mark."""
    found = elevations.elevations(document)

    assert [drawn.words for drawn in found] == ["L1", "D1, D2"]
    written = [words for _, _, words in texts(found[1].svg)]
    assert "1.80\u202fkN D2" in written
    assert "1.20\u202fkN" in written


def test_each_kind_has_its_own_largest(document):
    """D1 has the larger pull without factors, D2 the larger one with them: both are drawn."""
    document["elevations"][1]["actions"][2] |= {
        "characteristic": [1700.0, -500.0], "factored": [1750.0, -1000.0]
    }  # fmt: skip
    written = [words for _, _, words in texts(elevations.elevations(document)[1].svg)]

    assert "1.70\u202fkN" in written
    assert "1.80\u202fkN D2" in written
    assert "1.75\u202fkN D1" not in written


def test_other_sizes_are_drawn_apart(document):
    """A reach that differs makes a drawing of its own."""
    document["elevations"][2]["reach_m"] = 0.2

    assert [len(rows) for rows in alike(document)] == [1, 1, 1]


def test_arrows_are_to_the_scale_that_is_stated(document):
    """The wide arrows of D1 and D2: 1800 N one way, 1200 N the other, at 200 N to the mm."""
    svg = elevations.elevations(document)[1].svg
    wide, narrow = arrows(svg, "0.4"), arrows(svg, "0.18")

    assert "forces: 1 mm of arrow is 200\u202fN" in [words for _, _, words in texts(svg)]
    assert "moments: 1 mm of arrow is 200\u202fN\u202fm" in [words for _, _, words in texts(svg)]
    # Three forces and three moments both ways, and pull-out and uplift again beside the wall.
    assert sorted(wide) == pytest.approx([6.0] * 6 + [9.0] * 8)
    assert sorted(narrow) == pytest.approx([3.0] * 6 + [6.0] * 8)


def test_nothing_is_cut_off_or_overlaps(document):
    """All that is written lies on the paper, and no two words cross."""
    for drawn in elevations.elevations(document):
        width, height = map(
            float, re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', drawn.svg).groups()
        )
        boxes = []
        for words_at in re.finditer(
            r'<text x="([\d.-]+)" y="([\d.-]+)" font-size="([\d.]+)" text-anchor="(\w+)"[^>]*>'
            r"([^<]*)</text>", drawn.svg
        ):  # fmt: skip
            if "rotate" in words_at[0]:
                continue
            x, y, size = (float(words_at[i]) for i in (1, 2, 3))
            wide = 0.5 * size * len(words_at[5])
            left = x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[words_at[4]]
            boxes.append((left, y - 0.7 * size, left + wide, y))
        for box in boxes:
            assert 0 <= box[0] <= box[2] <= width
            assert 0 <= box[1] <= box[3] <= height
        for i, (a, b, c, d) in enumerate(boxes):
            for e, f, g, h in boxes[i + 1 :]:
                assert c <= e or g <= a or d <= f or h <= b


def test_a_component_that_never_acts_has_no_arrow(document):
    """A weight that is never lifted: the least that hangs there is no uplift."""
    for row in document["elevations"]:
        row["actions"][1] |= {"characteristic": [-200.0, -900.0], "factored": [-150.0, -1200.0]}
    svg = elevations.elevations(document)[1].svg

    assert [words for _, _, words in texts(svg)].count("none") == 2
    assert "down 1.20\u202fkN" in [words for _, _, words in texts(svg)]


def test_a_bracket_that_passes_on_nothing_known_is_still_drawn(document):
    """A set that carries nothing has no actions; nor does one of noughts have arrows."""
    document["elevations"][0]["actions"] = []
    for row in document["elevations"][1:]:
        for action in row["actions"]:
            action |= {"characteristic": [0.0, -0.0], "factored": [0.0, -0.0]}

    first, second = elevations.elevations(document)

    assert "force" not in first.svg
    assert "#b00020" not in second.svg


def test_only_so_many_are_drawn(document):
    """How many are not is said."""
    row = document["elevations"][0]
    document["elevations"] = [{**row, "bracket": f"B{n}", "reach_m": 0.3 + n / 100}
                              for n in range(14)]  # fmt: skip

    assert len(elevations.elevations(document)) == 12
    assert left_out(document) == 2


def test_the_scale_of_the_view_is_a_standard_one(document):
    """420 mm of arm under a stay of 400 mm, in 56 by 34 mm of paper: 1:20."""
    assert elevations.elevations(document)[0].scale == 20


def test_the_signs_are_drawn_in_three_views():
    """A moment in each, and the two forces that show in it."""
    written = [words for _, _, words in texts(sign_key())]

    assert {"about across +", "about up +", "about out +"} <= set(written)
    assert written.count("up: uplift") == written.count("out: pull-out") == 2
