"""Bodies: laws of mass, centre and inertia, and one outside value."""

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

from estimator.geometry.bodies import (
    Body,
    inertia_from_second,
    joined,
    joined_by_group,
    moved,
    rotated,
    set_out,
    six_numbers,
)
from estimator.geometry.measures import Dims
from estimator.geometry.placing import about_axis, copies, rotation
from estimator.geometry.shapes import measure

coordinates = st.floats(-10, 10)
places = hnp.arrays(float, (4, 3), elements=coordinates)
masses = hnp.arrays(float, 4, elements=st.floats(0.01, 100))
angles = hnp.arrays(float, 3, elements=st.floats(-7, 7))


def body_of(mass_kg, region):
    """Return masses spread evenly over the regions of n parts."""
    mass = np.asarray(mass_kg, float) + np.zeros_like(region.size)
    return Body(mass, region.middle_m, mass[..., None, None] * region.second_m2)


def points(mass_kg, centre_m):
    """Return bodies without a size."""
    return Body(mass_kg, centre_m, np.zeros((len(mass_kg), 3, 3)))


def a_block(mass_kg=3.0):
    """Return a block of 1.5 x 0.8 x 0.4 m."""
    dims = Dims.of(length_m=1.5, width_m=0.8, depth_m=0.4)
    return body_of(mass_kg, measure("box", dims).solid)


def test_a_block_has_the_inertia_of_its_textbook():
    """Mass x (b^2 + c^2) / 12 about each axis (any mechanics textbook)."""
    inertia = inertia_from_second(a_block().second_kgm2)

    assert six_numbers(inertia)[0] == pytest.approx(
        [3 * (0.64 + 0.16) / 12, 3 * (2.25 + 0.16) / 12, 3 * (2.25 + 0.64) / 12, 0, 0, 0]
    )


def test_the_six_numbers_keep_the_order_and_the_sign_of_the_tensor():
    """cc, uu, oo, cu, uo, co; a product is minus the integral of the two coordinates."""
    body = joined(points(np.array([1.0, 1.0]), np.array([[1.0, 2, 4], [-1, -2, -4]])))

    assert six_numbers(inertia_from_second(body.second_kgm2)).tolist() == [40, 34, 10, -4, -16, -8]


@given(masses, places)
def test_joining_keeps_mass_and_moment(mass_kg, centre_m):
    """The whole balances where its pieces do."""
    body = joined(points(mass_kg, centre_m))

    assert body.mass_kg == pytest.approx(mass_kg.sum())
    assert body.mass_kg * body.centre_m == pytest.approx(mass_kg @ centre_m, abs=1e-9)


@given(masses, places)
def test_joining_in_steps_is_joining_at_once(mass_kg, centre_m):
    """Two pairs and then the pair of them."""
    four = points(mass_kg, centre_m)

    pairs = joined_by_group(four, np.array([0, 0, 1, 1]), 2)

    for stepped, at_once in zip(joined(pairs), joined(four), strict=True):
        assert stepped == pytest.approx(at_once, rel=1e-9, abs=1e-8)


@given(masses, places, angles)
def test_turning_keeps_the_trace_and_follows_the_parts(mass_kg, centre_m, turned_rad):
    """Turning the whole is turning each piece; no turn changes the sum of the three inertias."""
    matrix = rotation(*turned_rad)
    four = points(mass_kg, centre_m)

    whole, pieces = rotated(joined(four), matrix), joined(rotated(four, matrix))

    for one, other in zip(whole, pieces, strict=True):
        assert one == pytest.approx(other, rel=1e-9, abs=1e-7)
    assert np.trace(whole.second_kgm2) == pytest.approx(
        np.trace(joined(four).second_kgm2), rel=1e-9
    )


@given(masses, places, hnp.arrays(float, 3, elements=coordinates))
def test_moving_changes_the_centre_only(mass_kg, centre_m, by_m):
    """The moment about its own centre goes along."""
    body = joined(points(mass_kg, centre_m))
    far = joined(moved(points(mass_kg, centre_m), by_m))

    assert far.centre_m == pytest.approx(body.centre_m + by_m, abs=1e-9)
    assert far.second_kgm2 == pytest.approx(body.second_kgm2, abs=1e-6)


def test_many_positions_turn_many_bodies():
    """A position axis in front of the bodies."""
    four = points(np.ones(4), np.arange(12.0).reshape(4, 3))

    positions = rotated(four, about_axis("out", np.linspace(0, np.pi, 7))[:, None])

    assert positions.centre_m.shape == (7, 4, 3)
    assert positions.mass_kg.shape == (7, 4)
    assert positions.centre_m[-1] == pytest.approx(four.centre_m * [-1, -1, 1], abs=1e-12)


def test_a_mirror_turns_the_products_over():
    """Mirrored across the middle of the wall, cu and co change their signs."""
    body = joined(points(np.ones(2), np.array([[0.0, 0, 0], [1, 2, 3]])))

    mirrored = rotated(body, np.diag([-1.0, 1, 1]))

    before, after = (six_numbers(inertia_from_second(b.second_kgm2)) for b in (body, mirrored))
    assert after.tolist() == (before * [1, 1, 1, -1, 1, -1]).tolist()


def test_a_group_without_mass_or_bodies_has_a_centre_all_the_same():
    """The plain middle of massless bodies, and the origin for none."""
    bodies = points(np.array([0.0, 0.0, 2.0]), np.array([[1.0, 0, 0], [3, 0, 0], [5, 5, 5]]))

    groups = joined_by_group(bodies, np.array([0, 0, 2]), 3)

    assert groups.mass_kg.tolist() == [0, 0, 2]
    assert groups.centre_m.tolist() == [[2, 0, 0], [0, 0, 0], [5, 5, 5]]


@given(st.integers(2, 12), st.floats(0.1, 5), st.floats(-4, 4))
def test_a_ring_of_copies_balances_on_its_centre(count, spread_m, start_rad):
    """Blades round a hub: the centre stays, and the inertia about the axle is r^2 more each."""
    block = a_block()
    one = Body(block.mass_kg[0], block.centre_m[0], block.second_kgm2[0])

    ring = set_out(one, copies("ring", count, spread_m, start_rad))

    own = inertia_from_second(one.second_kgm2)[2, 2]
    assert ring.centre_m == pytest.approx(np.zeros(3), abs=1e-12)
    assert inertia_from_second(ring.second_kgm2)[2, 2] == pytest.approx(
        count * (own + 3.0 * spread_m**2 / 4)
    )


def test_scattered_copies_are_smeared_over_their_line():
    """Ten small things on 2 m count as a rod of 2 m."""
    one = Body(np.array(0.1), np.zeros(3), np.zeros((3, 3)))

    together = set_out(one, copies("scattered", 10, spread_m=2.0))

    assert together.second_kgm2[0, 0] == pytest.approx(1.0 * 2.0**2 / 12)


def test_a_capsule_is_a_rod_and_two_domes():
    """The capsule of trimesh, a third shape from two of ours: skin, volume and inertia."""
    rod = measure("rod", Dims.of(length_m=1.0, diameter_m=0.5)).solid
    dome = measure("dome", Dims.of(diameter_m=0.5, depth_m=0.25)).solid
    cap = body_of(dome.size, dome)
    ends = [
        moved(rotated(cap, about_axis("up", sign * np.pi / 2)), (sign * 0.625, 0, 0))
        for sign in (1, -1)
    ]
    capsule = joined(
        Body(*(np.concatenate(f) for f in zip(body_of(rod.size, rod), *ends, strict=True)))
    )
    mesh = trimesh.creation.capsule(height=1.0, radius=0.25, count=(256, 256))

    inertia = np.sort(np.linalg.eigvalsh(inertia_from_second(capsule.second_kgm2)))
    assert capsule.mass_kg == pytest.approx(mesh.volume, rel=3e-4)
    assert inertia == pytest.approx(np.sort(mesh.principal_inertia_components), rel=1e-3)
