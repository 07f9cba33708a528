"""The job larger and smaller: the table, and the picture of how it grows."""

import re

import pytest

from estimator.reports import figures, sizes
from estimator.reports.page import page_html

TIMES = "\N{MULTIPLICATION SIGN}"


def table(document):
    """Return the rows by their words, in typewriter characters."""
    return {
        row.words: ([figures.plain(cell) for cell in row.cells], row.power)
        for row in sizes.rows(document)
    }


def test_a_figure_at_every_size_and_its_power(document):
    """446 kg at 0.8 is 285 kg as the square; the power stands beside it."""
    found = table(document)

    assert found["mass, likely"] == (["285 kg", "361 kg", "446 kg", "540 kg", "697 kg"], "2.0")
    assert found["one time in twenty lower"][1] == ""
    assert found["centre of gravity from the datum, up"][0][0] == "-800 mm"
    assert found["largest wind force on one assembly, dial"][0][2] == "6.94 kN"
    assert found["largest pull-out of a bracket, set dial"] == (
        ["1.73 kN", "2.20 kN", "2.71 kN", "3.28 kN", "4.23 kN"], "2.0"
    )  # fmt: skip
    moment = found["largest moment about across, which pulls the top fixings, set dial"]
    assert (moment[0][2], moment[1]) == ("245 N m", "3.0")


def test_a_power_that_cannot_be_said_is_a_dash(document):
    """Of the materials not as many lines have a price."""
    assert table(document)["materials and bought-in parts"][1] == "\N{EN DASH}"


def test_money_and_hours_by_both_ways(document):
    """Hours as listed stay 1246; by skin they are 797 at 0.8."""
    found = table(document)

    assert found["likely person-hours, as listed"][0] == ["1 246"] * 5
    assert found["likely person-hours, by skin area"][0][0] == "797"
    assert found["price, mean, hours as listed"][0][2] == "GBP 9 660"
    assert found["price, mean, hours by skin area"][1] == "1.0"
    assert found["order lines without a price, not in it"][0] == ["1"] * 5


def test_what_nobody_told_has_no_row(document):
    """Without wind, brackets, hours and money only mass, centre and skin are left."""
    for line in document["sizes"]["lines"]:
        line.update(wind_n=None, windiest=None, windiest_n=None, pulls=[], material_cost=0.0,
                    unpriced=0, hours_listed=0.0, hours_by_skin=0.0, price_listed=0.0,
                    price_by_skin=0.0)  # fmt: skip
    document["sizes"]["growth"]["pulls"] = []

    assert [*table(document)] == [
        "mass, likely", "one time in twenty lower", "one time in twenty higher",
        "centre of gravity from the datum, across", "centre of gravity from the datum, up",
        "centre of gravity from the datum, out", "skin area of what is made, one face",
    ]  # fmt: skip


def test_the_assembly_with_most_wind_may_change_with_size(document):
    """Both are named."""
    document["sizes"]["lines"][0]["windiest"] = "bird"

    assert "largest wind force on one assembly, bird or dial" in table(document)


def test_how_sizes_are_called(document):
    """As drawn, or so many times."""
    assert [sizes.heading(line) for line in document["sizes"]["lines"]] == [
        f"{TIMES} 0.8", f"{TIMES} 0.9", "as drawn", f"{TIMES} 1.1", f"{TIMES} 1.25",
    ]  # fmt: skip


def test_three_panels_with_ruled_ranges(document):
    """Mass, wind and price; each says its power; the ends of the price ranges are printed."""
    svg = figures.plain(sizes.growth_lines(document))

    assert ">mass, kg: as size to the power 2.0<" in svg
    assert ">wind force on everything, kN: as size to the power 2.0<" in svg
    assert ">price, GBP: as size to the power 0.0 to 1.0<" in svg
    assert {">446<", ">697<", ">9.40<", ">9 660<", ">12 075<", ">9 685<"} <= {
        f">{words}<" for words in re.findall(r">([^<>]+)</text>", svg)
    }


def test_likely_values_lie_on_the_curve_of_their_power(document):
    """Mass and wind go as the square: their lines pass through the ends of its dashed curve."""
    svg = sizes.growth_lines(document)
    paths = re.findall(r'<path d="M([^"Z]+)" stroke="[^"]*" stroke-width="([\d.]+)"([^/]*)/?', svg)
    dashed = [path.split("L") for path, _, rest in paths if "dasharray" in rest]
    lines = [path.split("L") for path, _, rest in paths if "dasharray" not in rest]
    square, likely = dashed[0], next(path for path in lines if len(path) == 5)

    def spot(text):
        return [float(number) for number in text.split()]

    assert spot(likely[0]) == pytest.approx(spot(square[0]), abs=0.02)
    assert spot(likely[-1]) == pytest.approx(spot(square[-1]), abs=0.02)


def test_what_is_nought_has_no_panel(document):
    """Without wind two panels are left, in a narrower drawing."""
    for line in document["sizes"]["lines"]:
        line.update(wind_n=None)
    svg = sizes.growth_lines(document)

    assert "wind force" not in re.sub("<title>.*?</title>", "", svg)
    assert 'width="164mm"' in svg


def test_a_power_that_cannot_be_said_is_left_out_of_the_heading(document):
    """The panel is named alone."""
    document["sizes"]["growth"]["mass_kg"] = None

    assert ">mass, kg<" in sizes.growth_lines(document)


def test_no_picture_of_one_size_or_none(document):
    """There is nothing to compare."""
    document["sizes"]["lines"] = [document["sizes"]["lines"][2]]
    assert sizes.growth_lines(document) is None
    document["sizes"] = {"lines": [], "growth": None, "misfits": []}
    assert sizes.growth_lines(document) is None
    assert sizes.rows(document) == []


def test_the_section_of_the_page(document):
    """It says what stays, what is assumed of the hours, and what could not be worked out."""
    document["sizes"]["misfits"] = [{"times": 0.8, "why": "T: the wall is too thick"}]
    page = page_html(document)
    section = re.search(r'<section id="sizes">(.*?)</section>', page, re.DOTALL)[1]

    assert "Nobody has said how the hours grow" in section
    assert f"Not worked out at {TIMES} 0.8: T: the wall is too thick." in section
    assert "is for the engineer" in section


def test_no_section_without_parts(document):
    """A job without parts has no sizes."""
    document["sizes"] = {"lines": [], "growth": None, "misfits": []}

    assert "If it were larger or smaller" not in page_html(document)
