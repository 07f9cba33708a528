"""The largest wind on each assembly as arrows on the drawing."""

import itertools
import re

import pytest

from estimator.reports import winds
from estimator.reports.drawing import FORCE, Drawing, Viewport
from estimator.reports.views import assembly_sheet, items

VIEWS = {
    "front": Viewport(10, 10, 40, (-1.0, -1.0, 1.0, 1.0)),
    "side": Viewport(100, 10, 40, (0.0, -1.0, 1.0, 1.0)),
    "plan": Viewport(10, 80, 40, (-1.0, 0.0, 1.0, 1.0), y_down=True),
}


def job(force_n, moment_nm=(0.0, 0.0, 0.0), at_m=(0.5, 0.25, 0.2)):
    """Return as much of a document as the arrows ask for: one load on one assembly."""
    load = {"assembly": "sign", "position": "fixed", "force_n": force_n, "moment_nm": moment_nm}
    return {
        "assemblies": [{"assembly": "sign", "position": "fixed"}],
        "wind": {"loads": [load]},
        "marks": {"wind_centres": [{"assembly": "sign", "at_m": list(at_m)}]},
    }


def lines(document):
    """Return every force line drawn as (tail, tip), each as (x, y) on the paper."""
    drawing = Drawing(200, 150, "arrows")
    winds.arrows(drawing, VIEWS, document, {"sign": "1"})
    found = re.findall(rf'd="M([\d.L -]+)" stroke="{FORCE}" stroke-width="0.4"', drawing.svg())
    return [[tuple(map(float, spot.split())) for spot in path.split("L")] for path in found]


def test_a_push_to_the_wall_ends_at_the_wind_centre():
    """In the side view and in the plan, with the wall at the left and at the top."""
    side, plan = lines(job([0.0, 0.0, -100.0]))

    assert side[1] == pytest.approx(VIEWS["side"].at((0.2, 0.25)))
    assert side[0][0] > side[1][0]
    assert plan[1] == pytest.approx(VIEWS["plan"].at((0.5, 0.2)))
    assert plan[0][1] > plan[1][1]


def test_a_pull_starts_at_the_wind_centre():
    """Away from the wall it goes."""
    side, plan = lines(job([0.0, 0.0, 100.0]))

    assert side[0] == pytest.approx(VIEWS["side"].at((0.2, 0.25)))
    assert side[1][0] > side[0][0]
    assert plan[1][1] > plan[0][1]


def test_a_force_along_the_wall_is_drawn_in_the_plan_alone():
    """The side view shows none of its length."""
    (plan,) = lines(job([-100.0, 0.0, 0.0]))

    assert plan[0][1] == plan[1][1]
    assert plan[1][0] < plan[0][0]


@pytest.mark.parametrize(
    ("moment_nm", "view", "clockwise"),
    [
        # Right-hand rule: about across up goes to out, about up out to across, about out across
        # to up; the side is seen from the left, out to the right.
        ((10.0, 0.0, 0.0), "side", True),
        ((0.0, 10.0, 0.0), "plan", False),
        ((0.0, 0.0, 10.0), "front", False),
        ((0.0, 0.0, -10.0), "front", True),
    ],
)
def test_a_moment_turns_about_the_datum_as_the_right_hand_rule_says(moment_nm, view, clockwise):
    """Area inside the arc, by the sign it is walked round with on paper that grows downwards."""
    arc = max(lines(job([0.0, 0.0, -100.0], moment_nm)), key=len)
    middle = VIEWS[view].at((0.0, 0.0))
    swept = sum(
        (x0 - middle[0]) * (y1 - middle[1]) - (x1 - middle[0]) * (y0 - middle[1])
        for (x0, y0), (x1, y1) in itertools.pairwise(arc)
    )

    assert len(arc) > 20
    assert (swept > 0) is clockwise


def test_a_moment_that_does_not_show_is_not_drawn():
    """Nor is any of a load without one."""
    assert len(lines(job([0.0, 0.0, -100.0]))) == 2
    assert len(lines(job([0.0, 0.0, -100.0], (10.0, 0.05, 0.0)))) == 3


def test_the_sheet_says_what_its_arrows_are(document):
    """The value stands beside each by its item number, and words name the items."""
    svg = assembly_sheet(document).svg
    drawn = winds.drawn(document)
    numbers = {row["assembly"]: number for number, row in items(document)}

    assert [load["assembly"] for load in drawn] == ["dial", "bird"]
    for load in drawn:
        assert f">{numbers[load['assembly']]}: " in svg
    assert "wind: the largest on" in svg


def test_no_arrow_is_drawn_without_wind(document):
    """Nor is anything said of one."""
    document["wind"]["loads"] = []

    assert winds.drawn(document) == []
    assert "wind: the largest" not in assembly_sheet(document).svg
