"""Readings on a maquette against closed forms, and the laws of scaling.

[ARCH]  Archimedes, On the sphere and cylinder I, 33 and 34: a ball has four times the area of its
        great circle, and two thirds of the volume of the cylinder round it.
[LW]    L. H. Loomis and H. Whitney, Bull. Amer. Math. Soc. 55 (1949), 961-962, as quoted at
        en.wikipedia.org/wiki/Loomis-Whitney_inequality: V^2 <= S1 S2 S3, equal for a box.
[OCTA]  Regular octahedron of edge a: skin 2 sqrt(3) a^2 (from memory).
"""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import dblquad

from estimator.geometry.maquettes import (
    Figure,
    Readings,
    averaged,
    box_of,
    doubts,
    ellipsoid_axes,
    faces_m2,
    least_skin_by_shadows_m2,
    least_skin_m2,
    model_of,
    most_volume_m3,
    overfull,
    quotient,
    shadow_areas,
)
from estimator.geometry.measures import Dims
from estimator.geometry.placing import pointing
from estimator.geometry.shapes import measure
from estimator.geometry.silhouettes import silhouettes

UNKNOWN = np.full(3, np.nan)
SIZES = st.floats(0.1, 5.0)
THREE = st.tuples(SIZES, SIZES, SIZES)
BALL = Readings(
    skin_m2=Figure(math.pi),
    volume_m3=Figure(math.pi / 6),
    shadows_m2=(Figure(math.pi / 4),) * 3,
    balance_m=(Figure(0.5),) * 3,
)
"""[ARCH] A ball of 1 m: skin 4 x pi/4, volume 2/3 x pi/4."""


def shadows(*areas_m2, off=0.0):
    """Return three shadows, each so far off; None where there is no area."""
    return tuple(area and Figure(area, off * area) for area in areas_m2)


@given(st.lists(st.floats(1.0, 100.0), min_size=2, max_size=8))
def test_repeats_narrow(values):
    """The same readings taken twice over are surer, about the same mean."""
    assume(max(values) - min(values) > 1e-6)
    once, twice = averaged(values), averaged(values * 2)

    assert twice.value == pytest.approx(once.value)
    assert twice.half < once.half


def test_shares_of_a_quotient_add_as_squares():
    """3 % and 4 % make 5 %."""
    area = quotient(Figure(0.041, 0.03 * 0.041), Figure(0.034, 0.04 * 0.034))

    assert area.value == pytest.approx(41 / 34)
    assert area.share == pytest.approx(0.05)


@given(st.floats(0.5, 100.0), SIZES, SIZES, SIZES)
def test_full_size_goes_by_the_scale(scale, skin_m2, volume_m3, side_m):
    """Lengths by s, areas by s^2, volumes by s^3, and the share each is off stays."""
    read = Readings(
        Figure(skin_m2, 0.1 * skin_m2), Figure(volume_m3), shadows(1.0, None, 3.0),
        (Figure(side_m), None, None),
    ).full_size(scale)  # fmt: skip

    assert read.skin_m2.value == pytest.approx(skin_m2 * scale**2)
    assert read.skin_m2.share == pytest.approx(0.1)
    assert read.volume_m3.value == pytest.approx(volume_m3 * scale**3)
    assert [s and s.value for s in read.shadows_m2] == pytest.approx([scale**2, None, 3 * scale**2])
    assert read.balance_m[0].value == pytest.approx(side_m * scale)
    assert read.balance_m[1:] == (None, None)


def test_what_was_not_read_stays_so():
    """Nothing times a scale is nothing read."""
    assert Readings().full_size(10) == Readings()


def test_a_figure_has_two_ends():
    """The lower one never falls below nothing."""
    assert (Figure(2.0, 0.5).low, Figure(2.0, 0.5).high) == (1.5, 2.5)
    assert Figure(1.0, 3.0).low == 0.0


@given(THREE)
def test_the_axes_of_an_ellipsoid_come_back_from_its_shadows(axes_m):
    """Shadows pi b c, pi a c and pi a b of half axes."""
    half_m = np.array(axes_m) / 2
    areas_m2 = math.pi * half_m.prod() / half_m

    assert ellipsoid_axes(areas_m2) == pytest.approx(axes_m)


@given(THREE)
def test_shadows_nobody_traced_come_from_the_envelope(sides_m):
    """As ellipses within it; so the ellipsoid fills it from end to end."""
    sides_m = np.array(sides_m)

    assert shadow_areas(Readings(), sides_m) == pytest.approx(math.pi / 4 * faces_m2(sides_m))
    assert ellipsoid_axes(shadow_areas(Readings(), sides_m)) == pytest.approx(sides_m)


def test_a_missing_shadow_fills_its_face_as_the_others_do():
    """Faces 2, 3 and 6 m2; 1/2 and 1/8 of two of them are filled, so 1/4 of the third."""
    sides_m = np.array([3.0, 2.0, 1.0])
    read = Readings(shadows_m2=shadows(1.0, 0.375, None))

    assert faces_m2(sides_m) == pytest.approx([2.0, 3.0, 6.0])
    assert shadow_areas(read, sides_m) == pytest.approx([1.0, 0.375, 1.5])


def test_what_nothing_is_known_of_stays_unknown():
    """A front without its height has no face, and nobody traced it."""
    read = Readings(shadows_m2=shadows(1.0, 2.0, None))

    assert np.isnan(shadow_areas(read, np.array([2.0, np.nan, 1.0]))).tolist() == [
        False, False, True,
    ]  # fmt: skip


def test_a_side_nobody_gave_is_that_of_the_ellipsoid():
    """The sides somebody gave are kept."""
    read = Readings(shadows_m2=shadows(*(math.pi / 4,) * 3))

    assert box_of(read, np.array([np.nan, 2.0, np.nan])) == pytest.approx([1.0, 2.0, 1.0])


def test_the_readings_of_a_ball_give_the_ball():
    """[ARCH] Sizes, middle, second moments and outline are those of the shape itself."""
    model = model_of(BALL, np.ones(3), np.eye(3))
    ball = measure("sphere", Dims.of(diameter_m=1.0))

    for name in ("face", "faces", "outside", "solid", "inside", "each"):
        mine, its = getattr(model.measures, name), getattr(ball, name)
        for own, other in zip(mine, its, strict=True):
            assert own == pytest.approx(other, abs=1e-12)
    assert model.measures.box_m == pytest.approx(ball.box_m)
    assert (model.measures.line, model.mesh, model.outline) == (None, None, None)


def ellipsoid_area(half_m):
    """Return the skin of an ellipsoid by quadrature over the ball of directions."""

    def integrand(phi, theta):
        u = np.array([np.sin(theta) * np.cos(phi), np.sin(theta) * np.sin(phi), np.cos(theta)])
        return half_m.prod() * np.sqrt(((u / half_m) ** 2).sum()) * np.sin(theta)

    return 8 * dblquad(integrand, 0, np.pi / 2, 0, np.pi / 2, epsabs=0, epsrel=1e-9)[0]


def test_the_readings_of_an_ellipsoid_give_the_ellipsoid():
    """Its skin by scipy's quadrature and its three shadows; no envelope is typed."""
    half_m = np.array([0.7, 0.5, 0.3])
    read = Readings(
        Figure(ellipsoid_area(half_m)),
        Figure(4 / 3 * math.pi * half_m.prod()),
        shadows(*math.pi * half_m.prod() / half_m),
    )
    sized = Dims.of(length_m=1.4, width_m=1.0, depth_m=0.6)

    own, its = model_of(read, UNKNOWN, np.eye(3)).measures, measure("ellipsoid", sized)

    assert own.face.size == pytest.approx(its.face.size, rel=1e-8)
    assert own.face.second_m2 == pytest.approx(its.face.second_m2)
    assert own.solid.second_m2 == pytest.approx(its.solid.second_m2)
    assert own.box_m == pytest.approx(its.box_m)


@pytest.mark.parametrize(("axis", "projection"), [*enumerate(np.eye(3)[[[1, 2], [0, 2], [0, 1]]])])
@given(THREE)
def test_the_stand_in_throws_the_shadows_that_were_traced(axis, projection, areas_m2):
    """To 0.1 %, the roundness of a silhouette of 72 sides, whatever the envelope."""
    assume(max(areas_m2) < 20 * min(areas_m2))
    model = model_of(Readings(shadows_m2=shadows(*areas_m2)), np.full(3, 4.0), np.eye(3))

    (outline,) = silhouettes(model.stand_in, projection)
    assert outline.area == pytest.approx(areas_m2[axis], rel=2e-3)


def test_what_was_not_read_is_absent():
    """Nobody foiled it, nobody sank it: there is nothing to lay or fill."""
    measures = model_of(Readings(), np.ones(3), np.eye(3)).measures

    assert measures.face is measures.faces is measures.outside is None
    assert measures.solid is measures.inside is None
    assert measures.each.size == [1.0]


def test_both_faces_are_twice_the_skin():
    """A sheet has two."""
    measures = model_of(BALL, np.ones(3), np.eye(3)).measures

    assert measures.faces.size == pytest.approx(2 * measures.face.size)


def test_the_balance_point_is_the_middle_of_everything():
    """0.75 of 3 m from the left is 0.75 left of the middle; nobody hung it the other ways."""
    read = BALL._replace(balance_m=(Figure(0.75), None, None))
    measures = model_of(read, np.array([3.0, 2.0, 1.0]), np.eye(3)).measures

    for region in (measures.face, measures.solid, measures.inside, measures.each):
        assert region.middle_m == pytest.approx(np.array([[-0.75, 0.0, 0.0]]))


@pytest.mark.parametrize(
    "aim", [("across", "out"), ("up", "out"), ("out", "across"), ("up", "across"), ("out", "up")]
)
def test_however_it_points_it_stands_the_same(aim):
    """Turned as the part points, all is again where it was read on the maquette."""
    read = Readings(
        Figure(9.0), Figure(1.0), shadows(1.0, 2.0, 3.0), (Figure(0.4), Figure(0.5), Figure(0.6))
    )
    sides_m, turn = np.array([3.0, 2.0, 1.5]), pointing(*aim)
    straight, aimed = model_of(read, sides_m, np.eye(3)), model_of(read, sides_m, turn)

    for name in ("face", "solid"):
        own, its = getattr(aimed.measures, name), getattr(straight.measures, name)
        assert turn @ own.middle_m[0] == pytest.approx(its.middle_m[0])
        assert turn @ own.second_m2[0] @ turn.T == pytest.approx(its.second_m2[0])
    assert np.abs(turn) @ aimed.measures.box_m[0] == pytest.approx(sides_m)
    axes_m = turn @ aimed.stand_in.axes_m[0, 0, 0]
    its_axes_m = straight.stand_in.axes_m[0, 0, 0]
    assert axes_m @ axes_m.T == pytest.approx(its_axes_m @ its_axes_m.T)


@given(THREE)
def test_bounds_hold_for_boxes_and_ellipsoids(sides_m):
    """[LW] is met by a box; the least skins are passed by both, and by the ball only just."""
    sides_m = np.array(sides_m)
    box_skin_m2, box_volume_m3 = 2 * faces_m2(sides_m).sum(), sides_m.prod()
    round_ = measure("ellipsoid", Dims.of(length_m=sides_m[0], width_m=sides_m[1],
                                          depth_m=sides_m[2]))  # fmt: skip
    skin_m2, volume_m3 = round_.face.size[0], round_.solid.size[0]
    shadows_m2 = math.pi / 4 * faces_m2(sides_m)

    assert most_volume_m3(faces_m2(sides_m)) == pytest.approx(box_volume_m3)
    assert volume_m3 <= most_volume_m3(shadows_m2)
    assert least_skin_m2(box_volume_m3) < box_skin_m2
    assert least_skin_m2(volume_m3) <= skin_m2 * (1 + 1e-9)
    assert least_skin_by_shadows_m2(faces_m2(sides_m)) < box_skin_m2
    assert least_skin_by_shadows_m2(shadows_m2) < skin_m2


def test_the_least_skins_are_met():
    """[ARCH] by a ball, [OCTA] by an octahedron whose corners lie on the axes, 1 m out."""
    assert least_skin_m2(math.pi / 6) == pytest.approx(math.pi)
    assert least_skin_by_shadows_m2([2.0, 2.0, 2.0]) == pytest.approx(2 * math.sqrt(3) * 2)


def test_right_readings_raise_no_doubt():
    """A ball meets the isoperimetric bound and its envelope, and rounding must not matter."""
    assert doubts(BALL, np.ones(3)) == []
    assert doubts(Readings(), np.ones(3)) == []


WRONG = [
    (BALL._replace(skin_m2=Figure(2.5, 0.5)), np.ones(3), ("skin", 0),
     "round 0.524 m3 even a ball has a skin of 3.14 m2, and the foil came to 3 m2 at the most"),
    (Readings(skin_m2=Figure(3.0), shadows_m2=shadows(1.0, 1.0, 1.0)), np.ones(3), ("skin", 0),
     ("what throws these shadows has a skin of 3.46 m2 at least, and the foil came to 3 m2 at the "
      "most")),
    (Readings(volume_m3=Figure(1.2, 0.1)), np.ones(3), ("volume", 0),
     ("what is no larger than its shadows and sides holds at most 1 m3, and the water came to "
      "1.1 m3 at least")),
    (Readings(volume_m3=Figure(0.9), shadows_m2=shadows(0.7, 0.8, 0.9)), UNKNOWN, ("volume", 0),
     ("what is no larger than its shadows and sides holds at most 0.71 m3, and the water came to "
      "0.9 m3 at least")),
    (Readings(shadows_m2=shadows(0.5, 0.5, 1.5)), np.ones(3), ("shadow", 2),
     "the shadow from the front is 1.5 m2 at full size, and the envelope seen from there is 1 m2"),
    (Readings(shadows_m2=shadows(0.02, None, None)), np.ones(3), ("shadow", 0),
     ("the shadow from the side is 0.02 m2 at full size, a small part of its envelope: "
      "the envelope seen from there is 1 m2")),
    (Readings(balance_m=(None, Figure(1.3, 0.1), None)), np.ones(3), ("balance", 1),
     ("the balance point lies 1300 mm from the foot at full size, and the envelope ends at "
      "1000 mm")),
    (Readings(), np.full(3, 0.04), ("size", 0), "at full size it is 0.04 m at its longest"),
    (Readings(), np.array([25.0, 9.0, 9.0]), ("size", 0),
     "at full size it is 25 m at its longest"),
    (Readings(skin_m2=Figure(10 * math.pi)), np.ones(3), ("skin", 0),
     "its skin is 10 times that of an ellipsoid as large"),
    (Readings(skin_m2=Figure(math.pi / 10)), np.ones(3), ("skin", 0),
     "its skin is 0.1 times that of an ellipsoid as large"),
    (Readings(skin_m2=Figure(math.pi * 7.5e-6)), np.ones(3), ("skin", 0),
     "its skin is 0.0000075 times that of an ellipsoid as large"),
    (Readings(volume_m3=Figure(math.pi / 600)), np.ones(3), ("volume", 0),
     "its volume is 0.01 times that of an ellipsoid as large"),
]  # fmt: skip


@pytest.mark.parametrize(("read", "envelope_m", "place", "why"), WRONG)
def test_readings_that_cannot_be_are_doubted(read, envelope_m, place, why):
    """Once each, with the figures that do not go together."""
    (doubt,) = doubts(read, envelope_m)

    assert (doubt.about, doubt.axis) == place
    assert doubt.why == why


def test_readings_within_their_spread_are_not_doubted():
    """Each may be off as far as was read: skin 3 to 3.2 m2 round a ball of 3.14 m2."""
    read = BALL._replace(
        skin_m2=Figure(3.0, 0.2), shadows_m2=shadows(*3 * (1.05 * math.pi / 4,), off=0.1)
    )

    assert doubts(read, np.ones(3)) == []


@given(st.floats(1.5, 20.0))
def test_a_wrong_scale_is_doubted_where_the_envelope_is_typed(times):
    """The front of a ball that was read at too large a scale is larger than its envelope."""
    about = {doubt.about for doubt in doubts(BALL.full_size(times), np.ones(3))}

    assert {"shadow", "volume"} <= about


def test_a_skin_that_takes_more_room_than_the_body_is_asked_about():
    """3.14 m2 of 200 mm are 0.628 m3, and the ball holds 0.524 m3."""
    assert overfull(BALL, 0.2) == (
        "3.14 m2 of sheet 200 mm thick take 0.628 m3, more than the whole body, 0.524 m3"
    )


@pytest.mark.parametrize(
    ("read", "thickness_m"),
    [(BALL, 0.002), (BALL, math.nan), (BALL._replace(skin_m2=None), 0.2),
     (BALL._replace(volume_m3=None), 0.2)],
)  # fmt: skip
def test_a_skin_that_can_be_is_not(read, thickness_m):
    """A sheet, a layer without a thickness, and what nobody foiled or sank."""
    assert overfull(read, thickness_m) == ""
