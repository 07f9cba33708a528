"""The ways of building side by side: front views to one scale, and what differs."""

import copy
import re

import pytest

from estimator.reports import figures, ways
from estimator.reports.page import page_html


def cells(document, words):
    """Return the cells of one figure, in typewriter characters."""
    row = next(row for row in ways.rows(document) if row.words == words)
    return [(figures.plain(cell.value), figures.plain(cell.reference)) for cell in row.cells]


def test_each_figure_with_how_it_differs(document):
    """90 kg more than 446 kg is 20.2 %; areas and wind as shares; the first has no difference."""
    assert cells(document, "mass, likely") == [("446 kg", ""), ("536 kg", "+90.0 kg (+20.2 %)")]
    assert cells(document, "outline from the street") == [("6.20 m²", ""), ("6.20 m²", "+2.1 %")]
    assert cells(document, "outline along the wall")[1] == ("0.900 m²", "0.0 %")
    assert cells(document, "centre of gravity from the datum")[1][1] == "38 mm away"
    assert cells(document, "largest wind force on everything together")[1] == ("9.40 kN", "")
    assert cells(document, "largest wind force on one assembly")[0] == ("6.94 kN", "dial")


def test_a_mass_of_nothing_has_no_share(document):
    """Where the first way weighs nothing, the difference is told in kg alone."""
    document["options_table"][1]["differs"]["mass_share"] = None

    assert cells(document, "mass, likely")[1][1] == "+90.0 kg"


SIGNED = [(0.0, "0.0 %"), (0.021, "+2.1 %"), (-0.021, "-2.1 %"), (0.0001, "0.0 %")]


@pytest.mark.parametrize(("value", "words"), SIGNED)
def test_signs(value, words):
    """More has a plus, less a minus, and what prints as nought has neither."""
    assert figures.plain(ways.signed(value, figures.percent)) == words


def test_only_what_differs_is_listed_by_assembly(document):
    """The dial is the same in both; the bird stands in both ways, the first one first."""
    found = ways.by_assembly(document)

    assert [(row.assembly, row.option) for row in found] == [
        ("bird", "copper"), ("bird", "lead on wood"),
    ]  # fmt: skip
    assert found[1].figures["differs"]["mass_share"] == 3.0


def test_an_assembly_that_one_way_lacks_is_listed(document):
    """It has no figures in that way."""
    document["options_table"][1]["assemblies"].pop(0)
    found = ways.by_assembly(document)

    assert [(row.assembly, row.figures is None) for row in found][:2] == [
        ("dial", False), ("dial", True),
    ]  # fmt: skip
    assert "not in this way" in page_html(document)


def test_a_single_way_is_not_compared(document):
    """No drawing, no table by assembly, no section."""
    document["options_table"] = document["options_table"][:1]

    assert ways.by_assembly(document) == []
    assert ways.fronts(document) is None
    assert "side by side" not in page_html(document)


def test_fronts_are_to_one_scale_about_one_datum(document):
    """The same part is drawn twice, shifted along the paper alone."""
    found = ways.fronts(document)
    pattern = r'<path d="M([-\d.]+) ([-\d.]+)L[^"]*"[^>]*><title>T35</title>'
    (x1, y1), (x2, y2) = re.findall(pattern, found.svg)

    assert found.scale in (40, 50, 75)
    assert float(x2) - float(x1) == pytest.approx(123.0)
    assert y1 == y2


def test_the_words_below_a_front(document):
    """Its name, what it comes to, and by how much it is more."""
    svg = figures.plain(ways.fronts(document).svg)

    assert ">lead on wood<" in svg
    assert ">536 kg, front 6.20 m²<" in svg
    assert ">+90.0 kg (+20.2 %), front +2.1 %<" in svg


def test_a_front_without_area_tells_mass_alone(document):
    """What has no front in the first way has no share of it."""
    document["options_table"][1]["differs"]["front_share"] = None

    assert ">+90.0 kg (+20.2 %)<" in figures.plain(ways.fronts(document).svg)


def test_wide_things_stand_below_one_another(document):
    """Two ways ten times as wide as high come out larger in two rows than side by side."""
    for way in document["options_table"]:
        way["front"]["box_m"] = [-5.0, 0.0, 5.0, 1.0]
    found = ways.fronts(document)

    assert found.scale == 50  # 240 mm for 10 m; side by side it would be 1 : 100
    lows = re.findall(r'y="([\d.]+)"[^>]*>(?:copper|lead on wood)<', found.svg)
    assert float(lows[1]) > float(lows[0]) + 20


def test_many_ways_in_rows_of_four(document):
    """Six ways are drawn, each with its name, none off the paper."""
    first = document["options_table"][0]
    more = [{**copy.deepcopy(first), "option": f"way {n}"} for n in range(5)]
    document["options_table"] = [first, *more]
    svg = ways.fronts(document).svg
    width, height = map(float, re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', svg).groups())

    assert all(f">way {n}<" in svg for n in range(5))
    for x, y in re.findall(r'<text x="([-\d.]+)" y="([-\d.]+)"', svg):
        assert 0 <= float(x) <= width
        assert 0 <= float(y) <= height


def test_nothing_is_drawn_of_ways_without_outlines(document):
    """Too many parts to tell apart: no drawing, the table all the same."""
    for way in document["options_table"]:
        way["front"] = {"box_m": [0.0] * 4, "shapes": []}

    assert ways.fronts(document) is None
    assert "Ways of building it, side by side" in page_html(document)


def test_rows_that_say_nothing_are_left_out(document):
    """Without brackets, hours or money the table has none of their rows."""
    for way in document["options_table"]:
        way.update(pulls=[], person_hours_likely=0.0, cost_mean=0.0)
    section = re.search(r'<section id="options">(.*?)</section>', page_html(document), re.DOTALL)[1]

    for words in ("pull-out of a bracket", "person-hours", "price, mean"):
        assert words not in section
