"""Mass properties of a solid given by its triangles against a published numerical example.

[T] F. Tonon, Explicit Exact Formulas for the 3-D Tetrahedron Inertia Tensor in Terms of its Vertex
    Coordinates, Journal of Mathematics and Statistics 1(1), 2005, doi 10.3844/jmssp.2005.8.11:
    a tetrahedron of density 1, its centroid and its inertia about that. As quoted, digit for digit
    alike, in the tests of several public programs; two of them note that equation 2 of the paper
    puts two of the products in each other's place, and that the centroid's x is off in its last
    digit: a quarter of the sum of the printed corners is 15.92495. The volume is as
    quoted in one of them.
"""

import numpy as np
import pytest

from estimator.geometry.meshes import solid
from estimator.geometry.models import Mesh

CORNERS = np.array([
    [8.33220, -11.86875, 0.93355],
    [0.75523, 5.00000, 16.37072],
    [52.61236, 5.00000, -5.38580],
    [2.00000, 5.00000, 3.00000],
])  # fmt: skip
FACES = np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]])
VOLUME = 1873.233236
CENTROID = [15.92492, 0.78281, 3.72962]
MOMENTS = [43520.33257, 194711.28938, 191168.76173]
PRODUCTS = {(0, 1): 11996.20119, (0, 2): -46343.16662, (1, 2): 4417.66150}
"""Integrals of x y, x z and y z over the solid; the inertia tensor has them with a minus."""


def _solid():
    region = solid(Mesh(CORNERS, FACES))
    second = abs(region.size[0]) * region.second_m2[0]
    return region, np.trace(second) * np.eye(3) - second


def test_the_volume_and_the_centroid_are_the_printed_ones():
    """[T] prints its corners to 5e-6, which is 2e-7 of the volume; the centroid see above."""
    region, _ = _solid()

    assert abs(region.size[0]) == pytest.approx(VOLUME, rel=2e-7)
    assert region.middle_m[0] == pytest.approx(CENTROID, abs=3e-5)


def test_the_inertia_is_the_printed_one():
    """[T] prints ten digits of the moments, and its corners to 2e-7 of them."""
    _, inertia = _solid()

    assert np.diag(inertia) == pytest.approx(MOMENTS, rel=2e-7)
    for (i, j), printed in PRODUCTS.items():
        assert inertia[i, j] == pytest.approx(-printed, rel=2e-7)
