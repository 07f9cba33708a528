"""Developed blanks: equal area, unrolled sides, gores, and what has none."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from estimator.geometry import loops
from estimator.geometry.blanks import BLANKS, Making, blank, blank_of_model, unrolled_width
from estimator.geometry.measures import Dims
from estimator.geometry.models import Model
from estimator.geometry.pieces import Size
from estimator.geometry.shapes import SHAPES, measure

lengths = st.floats(0.1, 3)
SKIN = Making(over="one face")
OUTSIDE = Making(over="whole outside")


def test_every_shape_has_a_rule():
    """Nothing is left without an answer."""
    assert set(BLANKS) == set(SHAPES)


KINDS = [
    ("sheet", Making(), "rectangle", 1),
    ("disc", Making(), "ring", 1),  # the example has a bore
    ("ring", Making(), "ring", 1),
    ("sector", Making(), "sector", 1),
    ("blade", Making(), "outline", 1),
    ("leaf", Making(), "outline", 1),
    ("flat", Making(), "bar", 1),
    ("hoop", Making(), "bar", 1),
    ("formed", Making(), "bar", 1),
    ("cone", Making(), "sector", 1),
    ("dome", Making(), "disc", 1),
    ("sphere", Making(), "disc", 2),
    ("sphere", Making(pieces=8), "gores", 8),
    ("ellipsoid", Making(), "oval", 2),
    ("ellipsoid", Making(pieces=6), "gores", 6),
    ("torus", Making(), "area", 0),
    ("torus", Making(pieces=2), "area", 0),
    ("torus", Making(pieces=12), "segments", 12),
    ("box", SKIN, "rectangle", 1),
    ("box", OUTSIDE, "faces", 6),
    ("box", OUTSIDE._replace(bent=True), "net", 1),
    ("rod", SKIN, "rectangle", 1),
    ("hollow", SKIN, "rectangle", 1),
    ("formed", SKIN, "area", 0),
    ("hoop", SKIN, "area", 0),
    ("bought", Making(), "area", 0),
]


@pytest.mark.parametrize(("shape", "making", "kind", "pieces"), KINDS)
def test_each_shape_is_cut_from_its_kind(shape, making, kind, pieces, example):
    """What a blank is cut from, in how many pieces, and why."""
    found = blank(shape, example(shape), making)

    assert (found.kind, found.number) == (kind, pieces)
    assert found.why


@pytest.mark.parametrize(
    ("shape", "making"), [(shape, making) for shape, making, *_ in KINDS if shape != "box"]
)
def test_a_blank_has_the_area_of_its_skin(shape, making, example):
    """Nothing is stretched: the area before is the area after; bars and boxes have other rules.

    The example of an ellipsoid is flat: its gores, all alike, are within 4 %.
    """
    dims = example(shape)
    found, measures = blank(shape, dims, making), measure(shape, dims)
    loose = 0.04 if shape == "ellipsoid" and making.pieces > 2 else 1e-9

    if found.kind != "bar" and measures.face is not None:
        assert found.area_m2 == pytest.approx(measures.face.size[0], rel=loose)


@pytest.mark.parametrize("bent", [False, True])
def test_the_faces_of_a_box_are_its_outside(bent, example):
    """In six pieces or folded from one."""
    found = blank("box", example("box"), OUTSIDE._replace(bent=bent))

    assert found.area_m2 == pytest.approx(measure("box", example("box")).outside.size[0])


def test_a_box_in_six_faces_by_hand():
    """1.5 x 0.8 x 0.4: two of each face, and twelve edges of 4 x (1.5 + 0.8 + 0.4)."""
    found = blank("box", Dims.of(length_m=1.5, width_m=0.8, depth_m=0.4), OUTSIDE)

    assert [(p.number, p.length_m, p.width_m) for p in found.pieces] == [
        (2, 1.5, 0.8), (2, 1.5, 0.4), (2, 0.8, 0.4),
    ]  # fmt: skip
    assert (found.seams, found.seam_m) == (12, pytest.approx(10.8))


def test_a_box_folded_from_one_sheet_by_hand():
    """Girth 2 x (0.8 + 0.4), length 1.5 with an end of 0.4 at each; the seams that stay open."""
    found = blank(
        "box", Dims.of(length_m=1.5, width_m=0.8, depth_m=0.4), OUTSIDE._replace(bent=True)
    )
    (piece,) = found.pieces

    assert (piece.length_m, piece.width_m) == pytest.approx((2.4, 2.3))
    assert found.seam_m == pytest.approx(1.5 + 2 * (0.8 + 2 * 0.4))
    assert loops.crossing_m(piece.loops, 1, 0.2) == pytest.approx(0.8)
    assert loops.crossing_m(piece.loops, 1, 1.0) == pytest.approx(2.4)


@given(lengths, lengths, st.floats(0, 1))
def test_a_cone_fits_the_rectangle_it_is_cut_from(length_m, diameter_m, taper):
    """Its sector covers no more than its rectangle, and has the area of the cone's side."""
    dims = Dims.of(length_m=length_m, diameter_m=diameter_m, end_diameter_m=diameter_m * taper)

    found = blank("cone", dims)
    (piece,) = found.pieces

    assert found.area_m2 == pytest.approx(measure("cone", dims).face.size[0], rel=1e-6)
    assert found.area_m2 <= piece.length_m * piece.width_m * (1 + 1e-9)
    assert found.seams == 1


def test_a_right_cone_unrolls_to_a_half_disc():
    """Slant twice the radius: 180 degrees of the slant's circle."""
    found = blank("cone", Dims.of(length_m=np.sqrt(0.75), diameter_m=1.0))
    (piece,) = found.pieces

    assert (piece.length_m, piece.width_m) == pytest.approx((2.0, 1.0))
    assert found.why == "unrolled to a sector of radius 1 m over 180 degrees"
    assert found.sizes == (
        Size("outer radius", pytest.approx(1.0)), Size("inner radius", 0.0),
        Size("angle", pytest.approx(np.pi), "rad"),
    )  # fmt: skip
    assert found.seam_m == pytest.approx(1.0)


def test_a_cone_may_stand_on_its_point():
    """Which end is the wide one does not matter."""
    one = blank("cone", Dims.of(length_m=1.0, diameter_m=0.2, end_diameter_m=0.5))
    other = blank("cone", Dims.of(length_m=1.0, diameter_m=0.5, end_diameter_m=0.2))

    assert one == other


def test_a_rolled_sheet_is_measured_round_its_middle():
    """100 mm outside in 5 mm: pi x 95 mm, and as long as the cylinder."""
    dims = Dims.of(length_m=0.3, diameter_m=0.1, end_diameter_m=0.1)
    (piece,) = blank("cone", dims, Making(gauge_m=0.005)).pieces

    assert piece.length_m == unrolled_width(0.1, 0.005) == pytest.approx(0.095 * np.pi)
    assert piece.width_m == 0.3


def test_a_cone_no_thicker_than_its_sheet_has_a_point():
    """A tip narrower than the sheet is thick is one: its inside would be below nothing."""
    thin = Dims.of(length_m=0.3, diameter_m=0.1, end_diameter_m=0.001)
    sizes = {s.name: s.value for s in blank("cone", thin, Making(gauge_m=0.002)).sizes}

    assert sizes["inner radius"] == 0.0


def test_sheet_round_a_bar_is_its_girth():
    """Round a rod of 100 mm: pi x 100 wide, and one seam along it."""
    found = blank("rod", Dims.of(length_m=2.0, diameter_m=0.1), SKIN)
    (piece,) = found.pieces

    assert (piece.length_m, piece.width_m) == pytest.approx((0.1 * np.pi, 2.0))
    assert (found.seams, found.seam_m) == (1, 2.0)


def test_a_hoop_is_as_long_as_the_middle_of_its_bar():
    """A flat 6 mm thick rolled to 2206 mm over all is 2200 pi mm long."""
    found = blank("hoop", Dims.of(diameter_m=2.206, width_m=0.05, depth_m=0.006))

    assert found.pieces[0].length_m == pytest.approx(2.2 * np.pi)


def test_an_oval_is_shaped_like_the_rim_it_is_raised_to():
    """Half an ellipsoid, parted where it is widest: its rim grown to the area of the half."""
    dims = Dims.of(length_m=0.3, width_m=0.9, depth_m=0.6)
    found = blank("ellipsoid", dims)
    (piece,) = found.pieces

    assert piece.length_m / piece.width_m == pytest.approx(1.5)
    assert np.pi / 4 * piece.length_m * piece.width_m == pytest.approx(
        measure("ellipsoid", dims).face.size[0] / 2
    )


@given(lengths)
def test_a_ball_is_an_ellipsoid_like_any_other(diameter_m):
    """Halves, gores and seams are the same."""
    ball = Dims.of(diameter_m=diameter_m)
    round_ = Dims.of(length_m=diameter_m, width_m=diameter_m, depth_m=diameter_m)

    for pieces in (1, 2, 7):
        one, other = (blank(s, d, Making(pieces=pieces)) for s, d in
                      (("sphere", ball), ("ellipsoid", round_)))  # fmt: skip
        assert one.kind == other.kind
        assert one.area_m2 == pytest.approx(other.area_m2)
        assert one.seam_m == pytest.approx(other.seam_m)


def test_bent_gores_say_how_much_larger_they_are():
    """Six flat sides round a body: tan(30) over pi/6 is 1.103."""
    found = blank("sphere", Dims.of(diameter_m=1.0), Making(pieces=6, bent=True))

    assert found.area_m2 / np.pi == pytest.approx(1.1027, abs=5e-5)
    assert found.why == (
        "6 gores, bent one way, which leaves flat sides: together +10.3 % on the area of the body"
    )


def test_a_ring_of_tube_has_seams_round_it_and_along_its_inside():
    """Twelve girths of pi x 0.1, and the inside of the ring, pi x 0.8 round."""
    found = blank("torus", Dims.of(diameter_m=1.0, end_diameter_m=0.1), Making(pieces=12))

    assert found.seams == 24
    assert found.seam_m == pytest.approx(np.pi * (12 * 0.1 + 0.8))


@given(st.sampled_from(sorted(set(BLANKS) - {"hollow"})), st.floats(0.2, 5))
def test_a_blank_scales_with_the_square(shape, factor):
    """Twice as large in every way takes four times the sheet; a bar twice the length.

    The corners of a hollow section go by its wall and not by its size.
    """
    sizes = {
        "length_m": 1.5, "width_m": 0.5, "depth_m": 0.3, "diameter_m": 0.8, "end_diameter_m": 0.2,
        "wall_m": 0.01, "bore_m": 0.4, "end_width_m": 0.2,
    }  # fmt: skip
    making = Making(pieces=5, over="" if shape in ("run", "bought", "section") else "one face")
    small = blank(shape, Dims.of(**sizes, angle_rad=2.0), making)
    large = blank(
        shape, Dims.of(**{k: v * factor for k, v in sizes.items()}, angle_rad=2.0), making
    )
    grown = small.scaled(factor)

    assert large.area_m2 == pytest.approx(small.area_m2 * factor**2)
    assert grown.area_m2 == pytest.approx(large.area_m2)
    assert grown.seam_m == pytest.approx(large.seam_m)
    for one, other in zip(grown.pieces, large.pieces, strict=True):
        assert (one.length_m, one.width_m) == pytest.approx((other.length_m, other.width_m))
        assert np.array(one.loops).ravel() == pytest.approx(np.array(other.loops).ravel())
    assert [s.value for s in grown.sizes] == pytest.approx([s.value for s in large.sizes])


def test_the_blank_of_an_outline_is_the_outline():
    """A square metre with a hole of a tenth of it keeps its hole for whoever lays it out."""
    ring = shapely.box(2.0, 1.0, 3.0, 2.0).difference(shapely.box(2.1, 1.1, 2.1 + 0.1, 2.1))
    face = measure("sheet", Dims.of(length_m=1.0, width_m=0.9))
    found = blank_of_model(Model(face, outline=shapely.MultiPolygon([ring])))
    notched = blank_of_model(
        Model(face, outline=shapely.MultiPolygon([shapely.box(0, 0, 1, 1).difference(
            shapely.box(0.2, 0.2, 0.3, 0.8))]))
    )  # fmt: skip

    assert found.kind == "outline"
    assert (found.pieces[0].length_m, found.pieces[0].width_m) == (1.0, 1.0)
    assert found.area_m2 == pytest.approx(0.9)
    assert len(notched.pieces[0].loops) == 2
    assert loops.crossing_m(notched.pieces[0].loops, 1, 0.5) == pytest.approx(0.9)


def test_a_model_without_an_outline_is_an_area():
    """Nobody lays out a skin that is bent both ways."""
    ball = measure("sphere", Dims.of(diameter_m=1.0))
    found = blank_of_model(Model(ball))

    assert (found.kind, found.number) == ("area", 0)
    assert found.area_m2 == pytest.approx(np.pi)


def test_the_blank_of_a_fault_is_refused():
    """As measuring it is."""
    with pytest.raises(ValueError, match="needs a diameter above zero"):
        blank("sphere", Dims.of())
