"""Straight solids against outside tables and an independent mesh library.

[EN] EN 10219-2, dimensions and sectional properties of cold formed hollow sections: the rows as
     carried by the open library steelsnakes 0.0.1a11; tables round to three figures.
[TRIMESH] trimesh, triangle meshes: mass properties by its own integrals.
"""

import numpy as np
import pytest
import trimesh

from estimator.geometry.bodies import inertia_from_second
from estimator.geometry.measures import Dims
from estimator.geometry.shapes import measure
from estimator.geometry.solids import corner_radii

FACETS = 512
"""Sides of the mesh of a circle: its area is short by (2 pi / 512)^2 / 6 = 2.5e-5."""


def test_a_square_hollow_section_agrees_with_its_table():
    """[EN] SHS 50 x 50 x 4: A 6.95 cm2, I 23.7 cm4; three figures printed."""
    solid = measure("hollow", Dims.of(length_m=1.0, width_m=0.05, depth_m=0.05, wall_m=0.004)).solid

    assert solid.size[0] * 1e4 == pytest.approx(6.95, rel=0.001)
    assert solid.size[0] * solid.second_m2[0, 1, 1] * 1e8 == pytest.approx(23.7, rel=0.005)


def test_a_round_hollow_section_agrees_with_its_table():
    """[EN] CHS 60.3 x 4: A 7.07 cm2, I 28.2 cm4; three figures printed."""
    solid = measure("tube", Dims.of(length_m=1.0, diameter_m=0.0603, wall_m=0.004)).solid

    assert solid.size[0] * 1e4 == pytest.approx(7.07, rel=0.001)
    assert solid.size[0] * solid.second_m2[0, 2, 2] * 1e8 == pytest.approx(28.2, rel=0.002)


@pytest.mark.parametrize(
    ("wall_mm", "outer_mm", "inner_mm"), [(6, 12, 6), (8, 20, 12), (12.5, 37.5, 25)]
)
def test_corner_radii_step_with_the_wall(wall_mm, outer_mm, inner_mm):
    """[EN] 2.0 / 1.0 t to 6 mm, 2.5 / 1.5 t to 10 mm, 3.0 / 2.0 t above.

    Outer radii are the middles of the limits as quoted at nkcelik.com.tr/en/en-10219-toleranslar;
    inner ones from memory.
    """
    dims = Dims.of(width_m=0.3, depth_m=0.2, wall_m=wall_mm / 1000)

    assert [radius_m[0] * 1000 for radius_m in corner_radii(dims)] == pytest.approx(
        [outer_mm, inner_mm]
    )


def test_a_corner_radius_stays_within_the_section():
    """A wall as thick as a third of the side leaves a round bar with a bore."""
    dims = Dims.of(width_m=0.015, depth_m=0.015, wall_m=0.005)

    assert [radius_m[0] for radius_m in corner_radii(dims)] == pytest.approx([0.0075, 0.0025])


def same_solid(region, mesh):
    """Compare a solid with a mesh, its inertia to the roundness of the mesh."""
    assert region.size[0] == pytest.approx(mesh.volume, rel=1e-4)
    assert region.middle_m[0] == pytest.approx(mesh.center_mass, abs=1e-6)
    inertia = inertia_from_second(region.second_m2[0]) * region.size[0]
    assert inertia == pytest.approx(mesh.moment_inertia, rel=2e-4, abs=1e-9)


def test_a_box_agrees_with_a_mesh():
    """[TRIMESH] box."""
    measures = measure("box", Dims.of(length_m=1.5, width_m=0.8, depth_m=0.3))
    mesh = trimesh.creation.box(extents=(1.5, 0.8, 0.3))

    same_solid(measures.solid, mesh)
    assert measures.outside.size[0] == pytest.approx(mesh.area)


def lying(mesh):
    """Return a mesh with its own third axis laid along the first."""
    return mesh.apply_transform(trimesh.transformations.rotation_matrix(np.pi / 2, (0, 1, 0)))


def test_a_rod_agrees_with_a_mesh():
    """[TRIMESH] cylinder."""
    measures = measure("rod", Dims.of(length_m=1.5, diameter_m=0.4))
    mesh = lying(trimesh.creation.cylinder(radius=0.2, height=1.5, sections=FACETS))

    same_solid(measures.solid, mesh)
    assert measures.outside.size[0] == pytest.approx(mesh.area, rel=1e-4)


def test_a_tube_agrees_with_a_mesh():
    """[TRIMESH] annulus."""
    measures = measure("tube", Dims.of(length_m=1.5, diameter_m=0.4, wall_m=0.05))

    same_solid(
        measures.solid,
        lying(trimesh.creation.annulus(r_min=0.15, r_max=0.2, height=1.5, sections=FACETS)),
    )


def test_skins_that_count_once_and_twice():
    """A solid bar has one skin; a tube has an inside as well."""
    rod = measure("rod", Dims.of(length_m=1.0, diameter_m=0.1))
    tube = measure("tube", Dims.of(length_m=1.0, diameter_m=0.1, wall_m=0.01))

    assert rod.faces.size == pytest.approx(rod.face.size)
    assert tube.faces.size == pytest.approx(2 * tube.face.size)


def test_a_bought_thing_may_be_given_by_its_diameter():
    """A blank size is the diameter; a typed one stands."""
    measures = measure("bought", Dims.of(diameter_m=0.3, depth_m=0.1))

    assert measures.box_m.tolist() == [[0.3, 0.3, 0.1]]


def test_a_bought_thing_without_a_box_is_a_point():
    """Its mass counts where it is placed."""
    measures = measure("bought", Dims.of())

    assert measures.box_m.tolist() == [[0, 0, 0]]
    assert measures.each.second_m2.tolist() == np.zeros((1, 3, 3)).tolist()
