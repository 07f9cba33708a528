"""Smoother terrain upwind: EN 1991-1-4:2005, A.2, procedure 1, as told in a public help text."""

import pytest

from estimator.wind.en1991 import TERRAIN
from estimator.wind.smoother import TERRAINS, governs, reach_m

REACHES = [("0", 1999.0, True), ("0", 2000.0, False), ("II", 999.0, True), ("II", 1000.0, False)]


@pytest.mark.parametrize(("terrain", "distance_m", "expected"), REACHES)
def test_smoother_terrain_reaches_so_far(terrain, distance_m, expected):
    """2 km behind the sea, 1 km behind smooth land."""
    assert governs(terrain, distance_m) is expected


def test_terrains_run_from_smooth_to_rough():
    """The order is that of the roughness lengths of Table 4.1, and only the sea reaches further."""
    lengths = [TERRAIN[key].roughness_m for key in TERRAINS]

    assert lengths == sorted(lengths)
    assert [reach_m(key) for key in TERRAINS] == [2000.0, 1000.0, 1000.0, 1000.0, 1000.0]
