"""Round solids against an independent mesh library, quadrature and closed forms.

[TRIMESH] trimesh, triangle meshes: mass properties by its own integrals.
[KNUD] Knud Thomsen's approximation of an ellipsoid's area, p = 1.6075, good to 1.061 % (from
       memory): a check of size against a formula of another kind.
"""

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import dblquad

from estimator.geometry.bodies import inertia_from_second
from estimator.geometry.measures import Dims
from estimator.geometry.shapes import measure


def same_solid(region, mesh, rel):
    """Compare a solid with a mesh, to the roundness of the mesh."""
    assert region.size[0] == pytest.approx(mesh.volume, rel=rel)
    assert region.middle_m[0] == pytest.approx(mesh.center_mass, abs=1e-4)
    inertia = inertia_from_second(region.second_m2[0]) * region.size[0]
    assert inertia == pytest.approx(mesh.moment_inertia, rel=2 * rel, abs=1e-6)


def test_a_sphere_agrees_with_a_mesh():
    """[TRIMESH] icosphere of 81920 faces, short in volume by 1e-4 or so."""
    measures = measure("sphere", Dims.of(diameter_m=1.0))
    mesh = trimesh.creation.icosphere(subdivisions=6, radius=0.5)

    same_solid(measures.solid, mesh, rel=3e-4)
    assert measures.face.size[0] == pytest.approx(mesh.area, rel=2e-4)


def test_a_cone_agrees_with_a_mesh():
    """[TRIMESH] cone: its base at 0 and its point up, laid along our axis."""
    measures = measure("cone", Dims.of(length_m=1.5, diameter_m=0.6))
    mesh = trimesh.creation.cone(radius=0.3, height=1.5, sections=512)
    mesh.apply_translation((0, 0, -0.75))
    mesh.apply_transform(trimesh.transformations.rotation_matrix(np.pi / 2, (0, 1, 0)))

    same_solid(measures.solid, mesh, rel=1e-4)
    assert measures.outside.size[0] == pytest.approx(mesh.area, rel=1e-4)


def test_a_torus_agrees_with_a_mesh():
    """[TRIMESH] torus of 256 x 256 facets."""
    measures = measure("torus", Dims.of(diameter_m=1.2, end_diameter_m=0.2))
    mesh = trimesh.creation.torus(0.5, 0.1, major_sections=256, minor_sections=256)

    same_solid(measures.solid, mesh, rel=4e-4)
    assert measures.face.size[0] == pytest.approx(mesh.area, rel=4e-4)


def ellipsoid_skin(half_m, axis):
    """Return the integral of 1 or of one coordinate squared over an ellipsoid, by quadrature."""
    a, b, c = half_m

    def integrand(phi, theta):
        u = np.array([np.sin(theta) * np.cos(phi), np.sin(theta) * np.sin(phi), np.cos(theta)])
        area = a * b * c * np.sqrt(((u / half_m) ** 2).sum()) * np.sin(theta)
        return area if axis is None else area * (half_m[axis] * u[axis]) ** 2

    return 8 * dblquad(integrand, 0, np.pi / 2, 0, np.pi / 2, epsabs=0, epsrel=1e-10)[0]


@pytest.mark.parametrize("half_m", [(0.7, 0.5, 0.3), (1.0, 1.0, 0.2), (2.0, 0.4, 0.4)])
def test_the_skin_of_an_ellipsoid_agrees_with_quadrature(half_m):
    """Area and mean squares to 1e-8 of scipy's adaptive rule."""
    length_m, width_m, depth_m = (2 * h for h in half_m)

    face = measure("ellipsoid", Dims.of(length_m=length_m, width_m=width_m, depth_m=depth_m)).face

    assert face.size[0] == pytest.approx(ellipsoid_skin(np.array(half_m), None), rel=1e-8)
    for axis in range(3):
        assert face.size[0] * face.second_m2[0, axis, axis] == pytest.approx(
            ellipsoid_skin(np.array(half_m), axis), rel=1e-8
        )


@given(*3 * [st.floats(0.01, 10)])
def test_the_area_of_any_ellipsoid_is_near_its_approximation(a, b, c):
    """[KNUD] within its 1.061 %."""
    area_m2 = measure("ellipsoid", Dims.of(length_m=2 * a, width_m=2 * b, depth_m=2 * c)).face.size
    p = 1.6075
    mean = ((a * b) ** p + (a * c) ** p + (b * c) ** p) / 3

    assert 4 * np.pi * mean ** (1 / p) == pytest.approx(area_m2[0], rel=0.01062)


@given(st.floats(0.01, 10), st.floats(1e-3, 1e3))
def test_a_slender_or_flat_ellipsoid_keeps_its_bounds(half_m, ratio):
    """The three mean squares over the squares of the axes sum to one, whatever the shape.

    Each point of the skin has x2/a2 + y2/b2 + z2/c2 = 1.
    """
    dims = Dims.of(length_m=2 * half_m * ratio, width_m=2 * half_m, depth_m=half_m)

    second_m2 = measure("ellipsoid", dims).face.second_m2[0]

    axes_m2 = np.array([half_m * ratio, half_m, half_m / 2]) ** 2
    assert (np.diag(second_m2) / axes_m2).sum() == pytest.approx(1.0, rel=1e-9)


def test_an_ellipsoid_of_equal_axes_is_a_sphere():
    """Nothing is left of the elliptic integrals."""
    ball = measure("sphere", Dims.of(diameter_m=0.8))
    equal = measure("ellipsoid", Dims.of(length_m=0.8, width_m=0.8, depth_m=0.8))

    for one, other in zip(equal.face, ball.face, strict=True):
        assert one == pytest.approx(other, rel=1e-12)


def test_a_dome_of_half_its_diameter_is_half_a_sphere():
    """A hemispherical skin balances half-way up, the solid 3/8 r above its rim (from memory)."""
    dome = measure("dome", Dims.of(diameter_m=2.0, depth_m=1.0))

    assert dome.face.size == pytest.approx([2 * np.pi])
    assert dome.face.middle_m[0] == pytest.approx([0, 0, 0], abs=1e-15)
    assert dome.solid.middle_m[0] == pytest.approx([0, 0, 3 / 8 - 1 / 2])
    assert dome.solid.size == pytest.approx([2 / 3 * np.pi])


def test_a_very_flat_dome_is_a_disc():
    """A rise of a hundredth of a millimetre over two metres loses no figures."""
    dome = measure("dome", Dims.of(diameter_m=2.0, depth_m=1e-5))
    disc = measure("disc", Dims.of(diameter_m=2.0))

    assert dome.face.size == pytest.approx(disc.face.size)
    assert dome.face.second_m2 == pytest.approx(disc.face.second_m2, abs=1e-9)


def test_a_round_hoop_is_a_torus():
    """The same bar by its other name."""
    hoop = measure("hoop", Dims.of(diameter_m=1.2, end_diameter_m=0.2))
    torus = measure("torus", Dims.of(diameter_m=1.2, end_diameter_m=0.2))

    for region in ("line", "face", "outside", "solid"):
        for one, other in zip(getattr(hoop, region), getattr(torus, region), strict=True):
            assert one == pytest.approx(other)
    assert hoop.box_m == pytest.approx(torus.box_m)


def test_a_hoop_of_tube_leaves_out_its_core():
    """Two solid hoops on the same circle, one within the other."""
    tube = measure("hoop", Dims.of(diameter_m=1.2, end_diameter_m=0.2, wall_m=0.05)).solid
    outer = measure("torus", Dims.of(diameter_m=1.2, end_diameter_m=0.2)).solid
    inner = measure("torus", Dims.of(diameter_m=1.1, end_diameter_m=0.1)).solid

    assert tube.size == pytest.approx(outer.size - inner.size)
    assert tube.size[0] * tube.second_m2[0] == pytest.approx(
        outer.size[0] * outer.second_m2[0] - inner.size[0] * inner.second_m2[0]
    )


def test_flat_and_round_hoops_are_measured_together():
    """A batch may hold both; a flat hoop is the ring between two cylinders."""
    hoops = measure(
        "hoop",
        Dims.of(
            diameter_m=[1.2, 1.2],
            width_m=[0.3, np.nan],
            depth_m=[0.1, np.nan],
            end_diameter_m=[np.nan, 0.2],
        ),
    )

    assert hoops.solid.size == pytest.approx(
        [np.pi * (0.6**2 - 0.5**2) * 0.3, 2 * np.pi * 0.5 * np.pi * 0.1**2]
    )
    assert hoops.box_m[:, 2] == pytest.approx([0.3, 0.2])
