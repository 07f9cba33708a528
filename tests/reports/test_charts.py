"""Range lines, wind by direction, bracket forces, torque by angle."""

import re

import pytest

from estimator.reports import charts, figures


def ends(svg, width):
    """Return the two ends of each straight line of a given pen."""
    pattern = rf'd="M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)" stroke="[^"]*" stroke-width="{width}"'
    return [tuple(float(n) for n in found) for found in re.findall(pattern, svg)]


def test_a_range_line_is_as_long_as_its_range():
    """Of two rows on one axis, the one with twice the spread is twice as long."""
    spans = [charts.Span("a", 50.0, 60.0, 70.0), charts.Span("b", 20.0, 60.0, 60.0)]
    lines = ends(charts.range_lines(spans, figures.kilograms, "masses"), 0.18)
    level = [line for line in lines if line[1] == line[3]]

    lengths = [line[2] - line[0] for line in level]
    assert lengths[1] == pytest.approx(2 * lengths[0], abs=0.02)


def test_a_range_line_says_its_three_numbers():
    """Likely first, the ends in brackets."""
    svg = charts.range_lines([charts.Span("dial", 117.0, 126.0, 136.0)], figures.kilograms, "m")

    assert "126 kg (117 kg to 136 kg)" in figures.plain(svg)
    assert ">dial<" in svg


def test_ranges_of_nothing_are_an_empty_axis():
    """No rows, and rows of nought, do not divide by nought."""
    assert "<svg" in charts.range_lines([], figures.kilograms, "m")
    assert "0 kg" in figures.plain(
        charts.range_lines([charts.Span("a", 0.0, 0.0, 0.0)], figures.kilograms, "m")
    )


def test_wind_from_the_street_points_down_the_page(document):
    """The wall is at the top as in the plan: 0° below the middle, 90° to its right."""
    loads = [load for load in document["wind"]["loads"] if load["assembly"] == "dial"]
    rays = ends(charts.wind_rose("dial", loads), 0.18)
    forces = {(round(r[2] - r[0], 1), round(r[3] - r[1], 1)) for r in rays}

    largest = max(forces, key=lambda f: f[1])
    assert largest[0] == 0
    assert largest[1] > 0
    assert any(x > 0 and abs(y) < 0.1 for x, y in forces)


def test_the_rose_names_the_largest_force_and_its_direction(document):
    """812 Pa x 1.8 x 4.75 m2 = 6.94 kN straight on, by the fixture."""
    loads = [load for load in document["wind"]["loads"] if load["assembly"] == "dial"]

    svg = figures.plain(charts.wind_rose("dial", loads))

    assert ">dial<" in svg
    assert ">6.94 kN from 0°<" in svg


def test_a_rose_without_wind_is_drawn(document):
    """A force of nought everywhere has an inner ring of one newton, an outer of two."""
    calm = {**document["wind"]["loads"][0], "force_n": [0.0, 0.0, 0.0]}

    assert ">2\u202fN<" in charts.wind_rose("dial", [calm])


def test_the_half_behind_the_wall_is_drawn_where_wind_comes_from_it(document):
    """Most jobs have none there: the paper is half as high, and 180° is not written."""
    front = {**document["wind"]["loads"][0], "direction_deg": 0.0}
    behind = {**front, "direction_deg": 157.5}

    half, whole = (charts.wind_rose("dial", loads) for loads in ([front], [front, behind]))
    heights = [float(re.search(r'height="([\d.]+)mm"', svg)[1]) for svg in (half, whole)]

    assert heights[0] < heights[1] - 14
    assert ">180°, behind<" not in half
    assert ">180°, behind<" in whole


def test_a_torque_graph_has_its_ends_on_the_axis(document):
    """The largest torque is written at both ends of the axis, the angles every quarter turn."""
    svg = figures.plain(charts.torque_graph(document["moving"][0]))

    for words in ("18.4", "-18.4", "0°", "90°", "360°", "hand: gravity torque by angle, N m"):
        assert f">{words}<" in svg


def test_a_drawing_with_many_rows_keeps_the_largest_in_order():
    """Sixteen rows fit a sheet; the smallest of thirty are left to the table."""
    spans = [charts.Span(f"row {i}", i, i, i) for i in range(30)]

    ranges = charts.range_lines(spans, figures.kilograms, "masses")

    assert re.findall(r">row (\d+)<", ranges) == [str(i) for i in range(30 - charts.MOST_ROWS, 30)]
