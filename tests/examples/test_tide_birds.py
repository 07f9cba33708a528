"""The birds of the second example: their files, and what the two ways of listing them differ by."""

import importlib.util
import re
from pathlib import Path

import numpy as np
import pytest
import trimesh

import estimator
from estimator.core.problems import Severity
from estimator.files.meshes import read_mesh
from estimator.files.shelf import Shelf

FOLDER = Path(__file__).resolve().parents[2] / "examples" / "tide-birds"
MADE, LISTED = "as meshes", "as ellipsoids and cones"


@pytest.fixture(scope="module")
def script():
    """Return the script that makes the models."""
    spec = importlib.util.spec_from_file_location("make_birds", FOLDER / "make_birds.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def job():
    """Return the job as read."""
    return estimator.read_job(FOLDER)


@pytest.fixture(scope="module")
def document(job):
    """Return the estimate of the birds as meshes."""
    return estimator.estimate(job).document


@pytest.mark.parametrize("name", ["standing.stl", "bowing.stl", "neck.ply", "bill.ply"])
def test_the_script_makes_the_skins_of_the_example(script, name):
    """Corners agree to the single precision that STL keeps, faces exactly; the skins are closed."""
    raw = read_mesh(Shelf(FOLDER / "models").find(name))
    made = script.swept(getattr(script, Path(name).stem.upper()))

    listed = raw.points[raw.faces]
    assert made.is_watertight
    np.testing.assert_allclose(listed, made.triangles, atol=2e-5)


def test_the_script_makes_the_outlines_of_the_example(script):
    """Text files are the same to the letter."""
    models = FOLDER / "models"
    assert (models / "wing-raised.svg").read_text("utf-8") == script.wing_svg(0.82, 0.28, 7)
    assert (models / "wing-folded.svg").read_text("utf-8") == script.wing_svg(0.78, 0.25, 6)
    assert (models / "tail.dxf").read_text("ascii") == script.outline_dxf(script.TAIL)
    assert (models / "foot.dxf").read_text("ascii") == script.outline_dxf(script.FOOT)


def test_every_row_of_the_example_is_used(document, job):
    """Nothing is refused, in either way; the one doubt is the thin bill."""
    assert document["complete"]
    doubts = [p for p in document["problems"] if p["severity"] == Severity.QUESTION]
    assert [p["part"] for p in doubts] == ["S2"]
    assert job.options == (MADE, LISTED)


def test_a_body_weighs_what_an_outside_library_makes_of_its_file(document):
    """Skin area by trimesh, times relief and the layers' kg/m2, to what bending takes from it.

    The skin's own middle lies 0.6 mm inside the surface, which makes it 0.7 % smaller at a mean
    radius of about 90 mm: hence one per cent.
    """
    part = next(p for p in document["parts"] if p["part"] == "S1")
    mesh = trimesh.load_mesh(FOLDER / "models" / "standing.stl")
    area_m2 = mesh.area * 1e-4 * 1.07
    kg_m2 = 0.0012192 * 8930 + 4.0 + 0.25 + 0.02

    assert part["skin_area_m2"] == pytest.approx(area_m2, rel=0.01)
    assert part["skin_area_m2"] < area_m2
    assert part["mass_kg"] == pytest.approx(area_m2 * kg_m2, rel=0.01)


def test_the_page_shows_both_ways_and_their_differences(document):
    """Mass, centre and front area of each bird, one way beside the other."""
    made, listed = document["options_table"]
    assert (made["option"], listed["option"]) == (MADE, LISTED)

    from estimator.reports.page import page_html  # noqa: PLC0415 - only this test prints

    page = page_html(document)
    ways = re.search(r'<section id="options">(.*?)</section>', page, re.DOTALL)[1]
    assert "<svg" in ways
    for assembly in ("bird-left", "bird-right", "neck-right"):
        assert assembly in ways
    difference = 100 * (listed["mass_kg"] / made["mass_kg"] - 1)
    assert f"{difference:+.1f}".replace("-", "\u2212") in ways
