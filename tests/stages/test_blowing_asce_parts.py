"""Parts one by one by ASCE 7: its shapes, its least pressure, and what a row says it is like."""

import numpy as np
import pytest

from estimator.stages.blowing_rules import SENSES
from estimator.wind.asce7 import EDITIONS, Site, site_pressure
from estimator.wind.asce7_frames import chimney
from estimator.wind.asce7_signs import LEAST_PRESSURE_PA, PLACES
from estimator.wind.sided import half_tube

RULES = sorted(EDITIONS)
POST = {"part": "R", "shape": "rod", "length": "2 m", "diameter": "80 mm", "along": "up",
        "made of": "mild steel"}  # fmt: skip
SHEET = {"part": "P", "shape": "sheet", "length": "2 m", "width": "1 m", "made of": "copper",
         "gauge": "1 mm"}  # fmt: skip
STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}


@pytest.fixture(scope="module")
def blown(steps):
    """Return a function that gives the wind on parts that are added up, by the facts of a job."""

    def blow(*parts, job):
        rows = [{"assembly": "a", "stands": "free", "wind": "parts"}]
        return steps(upto="wind", parts=parts, assemblies=rows, job=job)["wind"]

    return blow


def by(rule, speed="60 m/s"):
    """Return the facts of a job by an edition."""
    return {"wind rule": rule, "basic wind speed": speed, "datum height": "8 m"}


def from_the_street(wind):
    """Return the force in the middle with the wind from the street."""
    number = wind.cases.index((0.0, SENSES[0], PLACES[0]))
    return wind.groups[0].wrench[0, 0, number, :3]


@pytest.mark.parametrize("rule", RULES)
def test_a_post_is_a_chimney_in_slow_flow(blown, rule):
    """Figure 29.4-1 at 25 diameters: 1.2, on length times diameter, at the top 9 m up.

    Its K_d is 1.0 (Table 26.6-1, round chimneys), and is in it once.
    """
    site = Site(EDITIONS[rule], 60.0, "C", directionality=1.0)
    acting_pa = site_pressure(site, 9.0).pressure_pa
    expected_n = acting_pa * chimney("round, rough", 25.0).value * 2.0 * 0.08

    assert chimney("round, rough", 25.0).value == 1.2
    assert from_the_street(blown(POST, job=by(rule)))[2] == pytest.approx(-expected_n)


@pytest.mark.parametrize("rule", RULES)
def test_parts_have_the_least_pressure_as_well(blown, rule):
    """0.77 kN/m2 on what they show, from every side; the record says how many were raised."""
    wind = blown(POST | {"diameter": "300 mm"}, job=by(rule, "38 m/s"))
    force_n = np.linalg.norm(wind.groups[0].wrench[0, 0, :, :3], axis=-1)

    assert force_n == pytest.approx(
        np.full(len(force_n), LEAST_PRESSURE_PA * 0.6), rel=3e-3
    )  # a circle of 36 corners
    assert wind.catches[0].coefficient.rule.endswith(
        "from 24 of 24 sides raised to the least pressure of 0.77 kN/m2 (16 psf) on what its parts "
        "show"
    )


@pytest.mark.parametrize("rule", RULES)
def test_the_record_names_the_american_figures(document, rule):
    """Coefficients, their source, and what the European shape would give are in the document."""
    found = document(
        parts=[SHEET | {"cut away": "50 %"}, POST | {"wind as": "8 sides"}],
        assemblies=[{"assembly": "a", "stands": "free", "wind": "parts"}],
        job=by(rule),
    )["wind"]["coefficients"]
    sheet = next(row for row in found if row["parts"] == ["P"])
    post = next(row for row in found if row["parts"] == ["R"] and row["meets"] != "end to the wind")

    assert (sheet["coefficient"], sheet["confirmed"]) == (pytest.approx(0.5 * 1.6), True)
    assert "Figure 29.4-2" in sheet["source"]
    assert post["rule"].startswith("six or eight sides")
    assert any("regular polygon of 8 sides" in rule for rule, _ in post["others"])


def test_a_gutter_by_the_side_that_meets_the_wind(blown):
    """A sheet said to be a half tube: 1.20 on its round side, 2.30 in its hollow, at 1 kPa."""
    gutter = SHEET | {"width": "200 mm", "along": "up", "wind as": "half tube"}
    wind = blown(gutter, job=STATED)
    force_n = wind.groups[0].wrench[0, 0, :, 2].reshape(24, -1).max(axis=-1)
    least_n = wind.groups[0].wrench[0, 0, :, 2].reshape(24, -1).min(axis=-1)

    assert least_n[0] == pytest.approx(-half_tube().front.value * 0.4 * 1000)
    assert force_n[12] == pytest.approx(half_tube().back.value * 0.4 * 1000)


def test_what_cannot_be_like_that_is_refused(document):
    """The message names the row, what was found and what is wanted."""
    ball = {"part": "B", "shape": "sphere", "diameter": "0.3 m", "made of": "copper",
            "gauge": "1 mm", "wind as": "half tube"}  # fmt: skip
    found = document(parts=[SHEET, ball], job=STATED)
    (problem,) = [row for row in found["problems"] if row["severity"] == "refused"]

    assert problem["part"] == "B"
    assert problem["found"] == (
        'to the wind it cannot be "half tube": a sphere of these sizes has no length with a width '
        "or diameter across it"
    )
    assert problem["expected"] == "another choice of wind as, or none"
