"""Ice: geometry of what lies round bars and bodies, classes, and the two combinations."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind.ice import (
    BEYOND,
    CLASSES,
    COMBINATIONS,
    GLAZE_KG_M3,
    bar_kg_m,
    body_kg,
    grown_m2,
    ice_class,
    iced_wind,
)

sizes = st.floats(0.01, 2.0)
thicknesses = st.floats(0.001, 0.08)


@given(sizes, sizes, thicknesses)
def test_ice_round_a_bar_is_what_the_outline_grows_by(width_m, depth_m, thickness_m):
    """An independent library draws the band round a rectangle; 64 corners a quarter hold 1e-4."""
    section = shapely.box(0, 0, width_m, depth_m)
    band_m2 = section.buffer(thickness_m, quad_segs=64).area - section.area

    found = bar_kg_m(2 * (width_m + depth_m), thickness_m)

    assert found == pytest.approx(GLAZE_KG_M3 * band_m2, rel=2e-4)


@given(sizes, thicknesses)
def test_ice_round_a_rod_is_the_ring_between_two_circles(diameter_m, thickness_m):
    """The expression pi t (D + t) is the larger circle less the smaller."""
    ring_m2 = math.pi / 4 * ((diameter_m + 2 * thickness_m) ** 2 - diameter_m**2)

    found = bar_kg_m(math.pi * diameter_m, thickness_m)

    assert found == pytest.approx(GLAZE_KG_M3 * ring_m2, rel=1e-9)


@given(sizes, thicknesses)
def test_ice_on_a_ball_is_never_too_little(diameter_m, thickness_m):
    """The shell between two balls; skin times thickness alone would be short of it."""
    shell_m3 = math.pi / 6 * ((diameter_m + 2 * thickness_m) ** 3 - diameter_m**3)
    area_m2 = math.pi * diameter_m**2

    found = body_kg(area_m2, 3 * diameter_m, thickness_m)

    assert found >= GLAZE_KG_M3 * shell_m3 > GLAZE_KG_M3 * area_m2 * thickness_m
    assert found <= 1.5 * GLAZE_KG_M3 * shell_m3


@given(sizes, sizes, sizes)
def test_thin_ice_is_skin_times_thickness(length_m, width_m, depth_m):
    """Edges and corners fade with the square of the thickness."""
    area_m2 = 2 * (length_m * width_m + width_m * depth_m + depth_m * length_m)

    found = body_kg(area_m2, length_m + width_m + depth_m, 1e-7)

    assert found == pytest.approx(GLAZE_KG_M3 * area_m2 * 1e-7, rel=1e-3)


def test_arrays_go_through():
    """Many bars at once."""
    found = bar_kg_m(np.array([0.1, 0.2]), 0.01)

    assert found == pytest.approx([bar_kg_m(0.1, 0.01), bar_kg_m(0.2, 0.01)])


NAMED = [(0.001, "G1", 0.40), (0.010, "G1", 0.40), (0.0101, "G2", 0.45), (0.030, "G3", 0.50),
         (0.05, "G5", 0.60), (0.051, "G6", 1.0)]  # fmt: skip


@pytest.mark.parametrize(("thickness_m", "name", "reduction"), NAMED)
def test_the_class_is_the_thinnest_that_covers_it(thickness_m, name, reduction):
    """ISO 12494, from memory: edges belong to their class; beyond the last all of it counts."""
    assert ice_class(thickness_m) == (name, reduction)


def test_a_thickness_read_in_millimetres_meets_its_class():
    """30 mm as a sum of floats is a hair more than 0.03 m."""
    assert ice_class(0.01 + 0.02).name == "G3"


def test_thicker_ice_never_has_less_wind():
    """The share of the pressure rises with the class."""
    shares = [one.reduction for one in (*CLASSES.values(), BEYOND)]
    assert shares == sorted(shares)


@given(st.floats(100, 2000), sizes, st.floats(1.0, 3.0))
def test_wind_with_ice_goes_with_pressure_and_area(pressure_pa, area_m2, times):
    """The product k q c A."""
    found = iced_wind(pressure_pa, 1.8, area_m2, 0.45)

    assert found == pytest.approx(0.45 * pressure_pa * 1.8 * area_m2)
    assert iced_wind(times * pressure_pa, 1.8, area_m2, 0.45) == pytest.approx(times * found)


def test_the_two_combinations():
    """One leads in full, the other goes with half: from memory."""
    assert [tuple(one) for one in COMBINATIONS] == [
        ("ice leading", 1.0, 0.5),
        ("wind leading", 0.5, 1.0),
    ]


def test_no_ice_has_no_class():
    """A thickness of nothing is no ice."""
    with pytest.raises(ValueError, match="thickness_m must be above zero"):
        ice_class(0.0)


@given(st.floats(0.05, 3), st.floats(0.05, 3), st.floats(0.05, 3), st.floats(0, 6.3))
def test_what_ice_adds_from_between_is_never_too_little(wide_m, deep_m, high_m, direction_rad):
    """Against the rim of a block's shadow from that side: 2 (w |cos| + d |sin| + h) t + pi t2."""
    thickness_m = 0.03

    def band_m2(width_m):
        return 2 * (width_m + high_m) * thickness_m + math.pi * thickness_m**2

    across, out = abs(math.sin(direction_rad)), abs(math.cos(direction_rad))
    found = grown_m2((band_m2(wide_m), band_m2(deep_m)), direction_rad)

    assert found >= band_m2(wide_m * out + deep_m * across) - 1e-12


def test_what_ice_adds_from_the_street_and_along_the_wall():
    """There it is what was drawn."""
    assert grown_m2((0.3, 0.1), 0.0) == pytest.approx(0.3)
    assert grown_m2((0.3, 0.1), math.pi / 2) == pytest.approx(0.1)
    assert grown_m2((0.3, 0.1), -math.pi / 2) == pytest.approx(0.1)
