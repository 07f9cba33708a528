"""What hangs free, as the page tells it: from a record alone."""

import math
import re

import pytest

from estimator.reports import figures, swinging
from estimator.reports.page import page_html
from estimator.reports.sentences import SIGN_OFF, summary

FREE = "free to swing about the line along out through the datum until stops are entered"


def lean(direction_deg, speed, torque_nm, free_deg, stop_n, touches):
    """Return what one wind does."""
    rests_deg = 12.0 if stop_n and any(stop_n) else free_deg
    return {"direction_deg": direction_deg, "speed": speed, "torque_nm": torque_nm,
            "free_deg": free_deg, "rests_deg": rests_deg, "stop_n": stop_n,
            "touches": touches}  # fmt: skip


@pytest.fixture
def stopped():
    """Return the record of a sign with stops."""
    return {
        "assembly": "loom", "axis": "out", "axle_m": [0.0, -0.06, 0.85], "free": "",
        "gravity_torque_nm": 218.2, "plumb_deg": -1.4, "stops_deg": [-12.0, 12.0],
        "stop_arm_m": 0.09, "resting_n": [0.0, 0.0],
        "leans": [
            lean(270.0, 1.0, 688.0, None, [0.0, 7115.9], 0.265),
            lean(270.0, 0.5, 172.0, 51.4, [0.0, 1374.9], 0.265),
            lean(345.0, 1.0, 90.0, 25.0, [0.0, 480.0], 0.514),
            lean(345.0, 0.5, 22.5, 6.0, [0.0, 0.0], 0.514),
        ],
    }  # fmt: skip


@pytest.fixture
def free(stopped):
    """Return the record of the same sign before its stops are entered."""
    leans = [one | {"stop_n": None, "touches": None} for one in stopped["leans"]]
    return stopped | {
        "free": FREE, "stops_deg": None, "stop_arm_m": None, "resting_n": None, "leans": leans,
    }  # fmt: skip


def test_the_summary_says_what_is_free_until_stops_are_entered(document, free, stopped):
    """Once they are, it says what they hold instead."""
    document["swinging"] = [free]
    assert f"loom is {FREE}." in summary(document)

    document["swinging"] = [stopped]
    told = [figures.plain(line) for line in summary(document)]
    assert not [line for line in told if "loom is free" in line]
    assert (
        "loom swings to its stops in 26.5 % of the wind speed used; in the whole of it they hold up"
        " to 7.12 kN at rest, without partial factors."
    ) in told


def test_stops_that_no_wind_reaches_are_not_in_the_summary(document, stopped):
    """A share above one is more wind than there is."""
    for one in stopped["leans"]:
        one.update(touches=1.2, stop_n=[0.0, 0.0])
    document["swinging"] = [stopped]

    assert swinging.summary(document) == []
    assert len(list(swinging.lines(stopped))) == 2


def test_lines_of_a_sign_with_stops(stopped):
    """Weight, stops, and the wind that first brings it to one."""
    assert [figures.plain(line) for line in swinging.lines(stopped)] == [
        (
            "loom: its weight turns it back by at most 218 N m, to -1° from its place as"
            " drawn; a turn above nought carries its foot to the right."
        ),
        "loom: stops at -12° and 12°, 90 mm from its axle.",
        "loom first touches a stop in 26.5 % of the wind speed used.",
    ]


def test_lines_of_a_sign_that_leans_on_its_stop(stopped):
    """The force in still air is told."""
    stopped["resting_n"] = [0.0, 55.0]

    told = [figures.plain(line) for line in swinging.lines(stopped)]
    assert "loom lies against a stop without any wind, with 55 N." in told


def test_lines_of_a_sign_without_stops(free):
    """The first thing told is that it is free."""
    told = list(swinging.lines(free))

    assert told[0] == f"loom is {FREE}."
    assert len(told) == 2


def test_a_row_for_each_side_with_the_lighter_wind_beside(stopped):
    """What cannot be held short of level says so, and what is not touched."""
    first, second = swinging.rows(stopped)

    assert first["free"] == ["beyond 90°", "51°"]
    assert [figures.plain(words) for words in first["stop"]] == ["7.12 kN", "1.37 kN"]
    assert [figures.plain(words) for words in second["stop"]] == ["480 N", "not touched"]
    assert (second["direction_deg"], second["touches"]) == (345.0, 0.514)


def test_a_row_without_stops_says_so(free):
    """No force on a stop that is not there."""
    assert swinging.rows(free)[0]["stop"] == ["no stops entered"] * 2


def points(svg, kind):
    """Return the end of each line from the pin, in the style of a kind of line."""
    width, dashes = {"hidden": ("0.18", "2.2 0.55"), "wide": ("0.5", "")}[kind]
    found = []
    for tag in re.findall(r"<path [^>]*>", svg):
        style = (re.search(r'stroke-width="([\d.]+)"', tag), re.search(r'dasharray="([^"]+)"', tag))
        if (style[0][1], style[1][1] if style[1] else "") == (width, dashes):
            numbers = [
                float(x) for x in re.findall(r"-?[\d.]+", re.search(r' d="([^"]+)"', tag)[1])
            ]
            found.append((numbers[-2] - 56, numbers[-1] - 8))
    return found


@pytest.mark.parametrize(("axis", "way"), [("out", 1), ("across", -1)])
def test_angles_are_drawn_as_they_are(stopped, axis, way):
    """From plumb: stops at -12 and 12 degrees, half the wind at 51.4, seen as it is seen."""
    stopped["axis"] = axis
    stopped["plumb_deg"] = 0.0
    svg = str(swinging.drawing(stopped))

    stops = [math.degrees(math.atan2(x, y)) for x, y in points(svg, "wide")]
    (leaned,) = [math.degrees(math.atan2(x, y)) for x, y in points(svg, "hidden")]
    assert stops == pytest.approx([-12 * way, 12 * way], abs=0.1)
    assert leaned == pytest.approx(51.4 * way, abs=0.1)


def test_what_only_hangs_is_drawn_plumb(free):
    """Without wind and stops there is one line, and the pin."""
    free["leans"] = []
    svg = str(swinging.drawing(free))

    assert "plumb" in svg
    assert "stop" not in svg
    assert "half the wind" not in svg


def test_the_page_says_what_is_not_in_it_and_who_signs(document, stopped):
    """Impact and gusts are left out; the brackets take the whole torque; an engineer signs."""
    document["swinging"] = [stopped]

    moving = re.search(r'<section id="moving">(.*?)</section>', page_html(document), re.DOTALL)[1]
    told = moving[moving.index("Hanging free") :]

    assert "How hard it strikes a stop" in told
    assert "while it swings free none of that torque reaches them" in told
    assert SIGN_OFF in moving


def test_without_brackets_nothing_is_said_of_them(document, stopped):
    """A job without brackets has no such figures."""
    document["swinging"] = [stopped]
    document["brackets"] = []

    assert swinging.context(document)["swing_words"] == [swinging.STATICS]


def test_what_turns_under_a_drive_has_no_such_part(document):
    """Nothing hangs free in the usual job."""
    assert "Hanging free" not in page_html(document)
