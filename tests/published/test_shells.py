"""Shells and their blanks against handbooks of sheet metal work.

[SPHERICAL] Sheet and plate metal work, "Spherical bowl", at chestofbooks.com: the blank has the
    area of the finished surface; for a hemisphere its diameter is 1.414 times that of the bowl.
[WRINKLING] The same work, "Wrinkling circle": the circle of a hollowed hemisphere that keeps its
    size lies the diameter over pi below the plane of the rim; 1.6 in for a 5 in bowl.
[ASIAINCH] asiainch.org, glossary of metal craft: blank = mean diameter + height.
[BS1566] BS 1566, thicknesses of hot water cylinders, as quoted in technical data at
    rangecylinders.co.uk: type 7 is 900 x 450 mm, grade 3 has a body of 0.7 mm.
[SWG] Imperial standard wire gauge, 20 SWG = 0.914 mm, as quoted at engineeringtoolbox.com
    (d_1779); density of copper 8930 kg/m3.
[STEEL] 7850 kg/m3, the density section tables are computed with.
"""

import numpy as np
import pytest

from estimator.geometry.blanks import Making, blank, equal_area_diameter, unrolled_width
from estimator.geometry.measures import Dims
from estimator.geometry.shapes import measure


def test_the_blank_of_a_hemisphere():
    """[SPHERICAL] 500 mm: 707.1 mm, as printed to 0.1 mm, and 0.3927 m2."""
    found = blank("dome", Dims.of(diameter_m=0.5, depth_m=0.25))

    assert found.pieces[0].length_m * 1000 == pytest.approx(707.1, abs=0.05)
    assert found.area_m2 == pytest.approx(0.3927, abs=5e-5)


def test_the_blank_of_a_dial_face():
    """[SPHERICAL] the same rule: 2400 mm dished 90 mm: 2406.7 mm and 4.5493 m2."""
    found = blank("dome", Dims.of(diameter_m=2.4, depth_m=0.09))

    assert found.pieces[0].length_m * 1000 == pytest.approx(2406.7, abs=0.05)
    assert found.area_m2 == pytest.approx(4.5493, abs=5e-5)


def test_the_circle_of_a_bowl_that_keeps_its_size():
    """[WRINKLING] 1.6 in for 5 in; it is the middle of the bowl's profile as a bent line.

    The line is a half circle with a hair's thickness; the book rounds to 0.1 in.
    """
    inch_m = 0.0254
    profile = measure(
        "formed", Dims.of(length_m=5 * np.pi / 2 * inch_m, width_m=5 * inch_m, diameter_m=1e-6)
    )

    depth_m = profile.line.middle_m[0, 1] + profile.box_m[0, 1] / 2

    assert depth_m / inch_m == pytest.approx(5 / np.pi, rel=1e-4)
    assert depth_m / inch_m == pytest.approx(1.6, abs=0.05)


def test_the_craft_rule_gives_a_smaller_blank_than_equal_area():
    """[ASIAINCH] for a pot as high as wide: 2.0 d against 2.236 d, area ratio 0.80.

    Equal area from a base and a side: sqrt(d^2 + 4 d h).
    """
    base = measure("disc", Dims.of(diameter_m=1.0)).face.size[0]
    side = measure("rod", Dims.of(length_m=1.0, diameter_m=1.0)).face.size[0]

    equal_m, craft_m = equal_area_diameter(base + side), 1.0 + 1.0

    assert equal_m == pytest.approx(2.236, abs=5e-4)
    assert (craft_m / equal_m) ** 2 == pytest.approx(0.80, rel=1e-3)


def test_a_reclaimed_cylinder_laid_flat():
    """[BS1566] 450 mm outside, 0.7 mm thick: 1411 mm wide, to a millimetre."""
    dims = Dims.of(length_m=0.9, diameter_m=0.45, end_diameter_m=0.45)
    found = blank("cone", dims, Making(gauge_m=0.0007))
    length_m = found.pieces[0].length_m

    assert found.kind == "rectangle"
    assert length_m * 1000 == pytest.approx(1411, abs=1)
    assert length_m == unrolled_width(0.45, 0.0007)
    assert found.area_m2 == pytest.approx(length_m * 0.9)


def test_the_area_of_a_moon():
    """[SWG] a sphere of 220 mm in 20 SWG copper: 0.15205 m2 and 1.242 kg, to 0.1 %."""
    area_m2 = measure("sphere", Dims.of(diameter_m=0.22)).face.size[0]

    assert area_m2 == pytest.approx(0.15205, rel=1e-3)
    assert area_m2 * 0.000914 * 8930 == pytest.approx(1.242, rel=1e-3)


def test_a_metre_of_flat_bar():
    """[STEEL] flat 25 x 3: 0.589 kg/m, to 0.1 %."""
    solid = measure("flat", Dims.of(length_m=1.0, width_m=0.025, depth_m=0.003)).solid

    assert solid.size[0] * 7850 == pytest.approx(0.589, rel=1e-3)
