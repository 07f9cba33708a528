"""Bars bent to an arc against quadrature, straight bars and full rings."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.geometry.bent import bow, half_angle
from estimator.geometry.measures import Dims
from estimator.geometry.shapes import measure

SLOPES = 1e-7
"""The numerical slopes of the integrals."""


def neck(length, chord, near, far):
    """Return side and ends of a bent tapered bar, its origin at the crown of its middle line."""
    half = half_angle(np.array([chord / length]))[0]
    radius = length / (2 * half)

    def bar(s, across, up):
        angle = 2 * half * s
        return np.stack(
            np.broadcast_arrays(
                (radius + across) * np.sin(angle), (radius + across) * np.cos(angle) - radius, up
            ),
            axis=-1,
        )

    def thickness(s):
        return near + (far - near) * (s + 0.5)

    side = (
        lambda u, v: bar(u, thickness(u) * np.cos(v), thickness(u) * np.sin(v)),
        (-0.5, 0.5),
        (2 * np.pi, 0),
    )
    ends = [
        (
            lambda u, v, s=s: bar(s, u * np.cos(v), u * np.sin(v)),
            (0, thickness(s)),
            (0, 2 * np.pi) if s > 0 else (2 * np.pi, 0),
        )
        for s in (-0.5, 0.5)
    ]
    return side, ends


def test_a_neck_agrees_with_its_integrals(example, skin_of, solid_of):
    """Solid volume, middle and second moment exactly; the skin but for taper on a bend.

    The origin of the integrals is the crown, so middles are compared by their differences.
    """
    side, ends = neck(1.5, 1.2, 0.15, 0.05)
    solid, skin = solid_of([side, *ends]), skin_of([side])

    measures = measure("formed", example("formed", wall_m=0.0))

    assert measures.solid.size[0] == pytest.approx(solid.size, rel=SLOPES)
    assert measures.solid.second_m2[0] == pytest.approx(solid.second_m2, abs=1e-7)
    # Leaving out how the bend changes the slope of the skin costs 1e-4 here.
    assert measures.face.size[0] == pytest.approx(skin.size, rel=2e-4)
    assert measures.face.second_m2[0] == pytest.approx(skin.second_m2, abs=1e-4)
    assert measures.solid.middle_m[0] - measures.face.middle_m[0] == pytest.approx(
        solid.middle_m - skin.middle_m, abs=1e-4
    )


def test_the_wall_of_a_neck_leaves_out_its_core(example, solid_of):
    """The material between two bent solids."""
    outer, inner = (
        solid_of([side, *ends]).size
        for side, ends in (neck(1.5, 1.2, 0.15, 0.05), neck(1.5, 1.2, 0.14, 0.04))
    )

    assert measure("formed", example("formed")).solid.size[0] == pytest.approx(outer - inner)


def test_the_origin_is_the_middle_of_the_envelope(example):
    """Points all over the skin reach just as far to both sides."""
    dims = example("formed")
    line = bow(dims, np.linspace(-0.5, 0.5, 301))
    round_the_bar = np.linspace(0, 2 * np.pi, 181)[:, None, None]
    normal, up = line.normal[0], np.array([0, 0, 1.0])
    skin = line.at_m[0] + line.radius_m[0][:, None] * (
        np.cos(round_the_bar) * normal + np.sin(round_the_bar) * up
    )

    low_m, high_m = skin.min(axis=(0, 1)), skin.max(axis=(0, 1))

    assert low_m == pytest.approx(-high_m, abs=1e-4)
    assert high_m - low_m == pytest.approx(measure("formed", dims).box_m[0], abs=1e-4)


@given(st.floats(0.1, 10), st.floats(0.001, 0.05), st.floats(0.0, 0.05))
def test_a_straight_one_is_a_cone(length_m, diameter_m, end_diameter_m):
    """With a chord as long as the bar nothing is bent."""
    bar = {"length_m": length_m, "diameter_m": diameter_m, "end_diameter_m": end_diameter_m}
    formed, cone = (
        measure("formed", Dims.of(width_m=length_m, **bar)),
        measure("cone", Dims.of(**bar)),
    )

    for region in ("line", "face", "outside", "solid"):
        for one, other in zip(getattr(formed, region), getattr(cone, region), strict=True):
            assert one == pytest.approx(other, rel=1e-6, abs=1e-6 * length_m**2)
    assert formed.box_m == pytest.approx(cone.box_m, rel=1e-9)


def test_nearly_a_full_turn_is_a_hoop():
    """A chord of a thousandth of the length closes the ring but for a slit."""
    length_m = 2 * np.pi * 0.5
    formed = measure("formed", Dims.of(length_m=length_m, width_m=length_m / 1e3, diameter_m=0.1))
    hoop = measure("hoop", Dims.of(diameter_m=1.1, end_diameter_m=0.1))

    assert formed.face.size == pytest.approx(hoop.face.size, rel=1e-9)
    assert formed.solid.second_m2 == pytest.approx(hoop.solid.second_m2, rel=0.01, abs=0.001)
    assert formed.box_m == pytest.approx(hoop.box_m, rel=0.002)


@given(st.floats(1e-6, 1 - 1e-6))
@settings(max_examples=50)
def test_the_angle_of_an_arc_gives_back_its_chord(ratio):
    """sin(x) / x = chord / length, the definition."""
    half_rad = half_angle(np.array([ratio]))[0]

    assert np.sin(half_rad) / half_rad == pytest.approx(ratio, rel=1e-9, abs=1e-12)


def test_it_bulges_towards_beside(example):
    """The crown of the arc lies above its ends."""
    at_m = bow(example("formed"), np.array([-0.5, 0.0, 0.5])).at_m[0]

    assert at_m[1, 1] > at_m[0, 1]
    assert at_m[2, 0] - at_m[0, 0] == pytest.approx(1.2)
