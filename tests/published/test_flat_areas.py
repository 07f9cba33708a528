"""Area, middle and second moment of composite areas, each drawn as DXF or SVG and read.

[BJ-5.5] [BJ-5.6] F. P. Beer, E. R. Johnston, Vector Mechanics for Engineers: Statics, problems
    5.5 and 5.6: solutions as quoted at coursehero.com/file/158757/CHAPTER-5; the places of the
    pieces follow from the areas and centroids printed there.
[BJ-9.5] The same book, worked example 9.5: a rectangle of 240 x 120 mm less half a disc of 90 mm
    radius, I_x = 45.9e6 mm4 (figure from memory; 4.59e7 as quoted in the data set
    nvidia/Nemotron-CC-Math-v1, "Chapter 9: Distributed Forces").
[H-10.25] R. C. Hibbeler, Statics, SI units, problem 10-25: rectangle 300 x 200 mm and triangle
    300 x 200 mm on the axis less a disc of 75 mm radius, I_x = 798.56e6 mm4: sum as quoted at
    questionai.com/amp/textbooksolution-120541/1138478-book-SI-book-Problems.
[L] EN 10056-1, equal angle 50 x 50 x 5 with its root radius of 7 mm and toe radii of 3.5 mm (radii
    from memory): as carried by the open library steelsnakes 0.0.1a11.

Chords change areas by up to 1 in 1,000 where radii are small; the tolerances allow for that, or for
the figures that are printed.
"""

import math

import ezdxf
import pytest

from estimator.files.shelf import Shelf
from estimator.geometry.outlines import moments
from estimator.resolve.outlines import outline_model
from estimator.sheets.rows import Row


@pytest.fixture
def read(tmp_path):
    """Return a function that gives moments in mm of a drawing in mm, at full size."""

    def measured(name):
        problems = []
        row = Row("parts", 2, {"part": "P", "file": name}, {})
        model = outline_model(row, Shelf(tmp_path), (), problems)
        assert model is not None, problems
        found = moments(model.model.outline)
        area = found.area_m2 * 1e6
        return area, found.first_m3 * 1e9 / area, found.second_m4 * 1e12

    return measured


@pytest.fixture
def dxf(tmp_path, read):
    """Return a function that has a DXF drawing in mm drawn, and gives its moments."""

    def measured(draw):
        document = ezdxf.new("R2000", units=4)
        draw(document.modelspace())
        document.saveas(tmp_path / "a.dxf")
        return read("a.dxf")

    return measured


@pytest.fixture
def svg(tmp_path, read):
    """Return a function that gives the moments of an SVG drawing in mm, drawn with y upwards."""

    def measured(shapes):
        upright = f'<g transform="scale(1,-1)">{shapes}</g>'
        text = f'<svg width="1000mm" viewBox="0 0 1000 1000">{upright}</svg>'
        (tmp_path / "a.svg").write_text(text)
        return read("a.svg")

    return measured


def test_rectangle_less_half_a_disc_at_its_side(svg):
    """[BJ-5.5] 120 x 200 mm, half a disc of 60 mm from the right: 18 345 mm2 at 49.4, 93.8 mm."""
    area, (x, y), _ = svg('<path d="M0 0H120V60A60 60 0 0 0 120 180V200H0z"/>')

    assert area == pytest.approx(18_345, rel=5e-4)
    assert (x, y) == pytest.approx((49.4, 93.8), abs=0.05)


def test_quarter_of_a_disc_beside_a_triangle(dxf):
    """[BJ-5.6] Radius 9 and legs of 15 and 9: 131.1, first moments 94.5 and 445.5."""

    def draw(space):
        space.add_lwpolyline([(-9, 0), (15, 0), (0, 9)])
        space.add_arc((0, 0), 9, 90, 180)

    area, (x, y), _ = dxf(draw)

    assert area == pytest.approx(131.1, rel=1e-3)
    # Each is 243 and a multiple of 67.5: chords take a thousandth off the 243.
    assert (x * area, y * area) == pytest.approx((94.5, 445.5), abs=0.25)


def test_rectangle_less_half_a_disc_at_its_top(svg):
    """[BJ-9.5] About the lower side."""
    _, _, second = svg('<path d="M0 0H240V120H210A90 90 0 0 0 30 120H0z"/>')

    assert second[1, 1] == pytest.approx(45.9e6, rel=1e-3)


def test_rectangle_and_triangle_less_a_disc(dxf):
    """[H-10.25] About the lower side; its own sums are rounded to five figures."""

    def draw(space):
        space.add_line((0, 0), (0, 200))
        space.add_lwpolyline([(0, 200), (300, 200), (600, 0), (0, 0)])
        space.add_circle((150, 100), 75)

    _, _, second = dxf(draw)

    assert second[1, 1] == pytest.approx(798.56e6, rel=1e-4)


def test_an_angle_with_its_fillets(dxf):
    """[L] 4.80 cm2, 11.0 cm4 about its middle, 1.40 cm from its back: three figures are printed."""
    bulge = math.tan(math.pi / 8)
    points = [
        (0, 0, 0), (50, 0, 0), (50, 1.5, bulge), (46.5, 5, 0), (12, 5, -bulge), (5, 12, 0),
        (5, 46.5, bulge), (1.5, 50, 0), (0, 50, 0),
    ]  # fmt: skip

    area, (x, y), second = dxf(lambda m: m.add_lwpolyline(points, format="xyb", close=True))

    assert area / 100 == pytest.approx(4.80, abs=0.005)
    assert (x / 10, y / 10) == pytest.approx((1.40, 1.40), abs=0.005)
    assert (second[0, 0] - area * x**2) / 1e4 == pytest.approx(11.0, abs=0.05)
