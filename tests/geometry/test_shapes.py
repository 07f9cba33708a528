"""Every shape against surface integrals over its parametrised skin, and its rules.

The integrals are Gauss's rule over patches written here from the shape's description alone: none
of the package's formulas is in them. Solids follow from the same patches by the divergence
theorem. The tolerance is that of the numerical slopes.
"""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.geometry.chunks import CHUNKS
from estimator.geometry.measures import OVER, Dims
from estimator.geometry.shapes import SHAPES, Fault, faults, measure
from estimator.geometry.solids import corner_radii

TAU = 2 * np.pi
SLOPES = 2e-8


def stacked(x, y, z):
    """Return points from three coordinates."""
    return np.stack(np.broadcast_arrays(x, y, z), axis=-1)


def in_plane(x, y, z=0.0):
    """Return a patch function lying across `faces`."""
    return lambda u, v: stacked(x(u, v), y(u, v), z)


def tapered(length, near, far):
    """Return the side and the two ends of a frustum along its axis, outward."""
    radius = lambda s: near + (far - near) * (s + 0.5)  # noqa: E731
    side = (
        lambda u, v: stacked(u * length, radius(u) * np.cos(v), radius(u) * np.sin(v)),
        (0.5, -0.5),
        (0, TAU),
    )
    ends = [
        (
            lambda u, v, e=e: stacked(e * length / 2 + 0 * u, u * np.cos(v), u * np.sin(v)),
            (0, r),
            (0, TAU) if e > 0 else (TAU, 0),
        )
        for e, r in ((-1, near), (1, far))
        if r > 0
    ]
    return [side], ends


def six_faces(a, b, c):
    """Return the faces of a block, the two that look along `faces` first."""
    sizes = np.array([a, b, c]) / 2

    def face(axis, sign):
        first, second = (axis + 1) % 3, (axis + 2) % 3

        def surface(u, v):
            point = [None, None, None]
            point[axis], point[first], point[second] = sign * sizes[axis] + 0 * u, u, v
            return stacked(*point)

        ends = (-sizes[first], sizes[first]), (-sizes[second], sizes[second])
        return (surface, ends[0] if sign > 0 else ends[0][::-1], ends[1])

    return [face(axis, sign) for axis in (2, 0, 1) for sign in (1, -1)]


def ball(a, b, c):
    """Return an ellipsoid's skin."""
    return [
        (
            lambda u, v: stacked(
                a / 2 * np.cos(v) * np.sin(u), b / 2 * np.sin(v) * np.sin(u), c / 2 * np.cos(u)
            ),
            (0, np.pi),
            (0, TAU),
        )
    ]


def cap(diameter, rise):
    """Return the cap of a dome and its base, from the middle of the envelope."""
    rim = diameter / 2
    sphere = (rim**2 + rise**2) / (2 * rise)

    def surface(u, v):
        return stacked(
            sphere * np.sin(u) * np.cos(v),
            sphere * np.sin(u) * np.sin(v),
            sphere * np.cos(u) - sphere + rise / 2 + 0 * v,
        )

    base = in_plane(lambda u, v: u * np.cos(v), lambda u, v: u * np.sin(v), -rise / 2)
    return [(surface, (0, np.arcsin(rim / sphere)), (0, TAU))], [(base, (rim, 0), (0, TAU))]


def doughnut(centre, tube):
    """Return a torus by the radius of its circle and of its tube."""
    return [
        (
            lambda u, v: stacked(
                (centre + tube * np.cos(v)) * np.cos(u),
                (centre + tube * np.cos(v)) * np.sin(u),
                tube * np.sin(v) + 0 * u,
            ),
            (0, TAU),
            (0, TAU),
        )
    ]


def band(diameter, width, depth):
    """Return the four sides of a flat bar rolled to a ring."""
    outer, inner, half = diameter / 2, diameter / 2 - depth, width / 2
    cylinders = [
        (lambda u, v, r=r: stacked(r * np.cos(u), r * np.sin(u), v), ends, (-half, half))
        for r, ends in ((outer, (0, TAU)), (inner, (TAU, 0)))
    ]
    rings = [
        (
            in_plane(lambda u, v: u * np.cos(v), lambda u, v: u * np.sin(v), z),
            ends,
            (0, TAU),
        )
        for z, ends in ((half, (inner, outer)), (-half, (outer, inner)))
    ]
    return [*cylinders, *rings]


def polar(inner, outer, start, stop, up=0.0):
    """Return a piece of a flat ring."""
    return [
        (
            in_plane(lambda u, v: u * np.cos(v), lambda u, v: u * np.sin(v) + up),
            (inner, outer),
            (start, stop),
        )
    ]


FLAT_FACES = {
    "sheet": [(in_plane(lambda u, _: u, lambda _, v: v), (-0.75, 0.75), (-0.4, 0.4))],
    "disc": polar(0.15, 0.55, 0, TAU),
    "ring": polar(0.4, 0.55, 0, TAU),
    "sector": polar(0.15, 0.55, -np.pi / 2 - 1, -np.pi / 2 + 1, up=(0.55 + 0.15 * np.cos(1.0)) / 2),
    "blade": [
        (
            in_plane(lambda u, _: 1.5 * u, lambda u, v: v * (0.3 - 0.2 * (u + 0.5))),
            (-0.5, 0.5),
            (-0.5, 0.5),
        )
    ],
    "leaf": [
        (
            in_plane(lambda u, _: 1.5 * u, lambda u, v: v * 0.3 * (1 - 4 * u**2)),
            (-0.5, 0.5),
            (-0.5, 0.5),
        )
    ],
}
BLOCK, BAR = six_faces(1.5, 0.8, 0.4), six_faces(1.5, 0.08, 0.01)
CLOSED = {
    "box": (BLOCK[:1], BLOCK[1:]),
    "flat": ([*BAR[:2], *BAR[4:]], BAR[2:4]),
    "rod": tapered(1.5, 0.1, 0.1),
    "hoop": (band(2.2, 0.05, 0.006), []),
    "cone": tapered(1.5, 0.25, 0.1),
    "sphere": (ball(0.5, 0.5, 0.5), []),
    "dome": cap(1.1, 0.3),
    "ellipsoid": (ball(1.5, 0.7, 0.3), []),
    "torus": (doughnut(0.45, 0.1), []),
}


def assert_same(region, expected):
    """Compare a region of one part with an integral."""
    scale = np.sqrt(np.trace(expected.second_m2))
    assert region.size[0] == pytest.approx(expected.size, rel=SLOPES)
    assert region.middle_m[0] == pytest.approx(expected.middle_m, abs=SLOPES * scale)
    assert region.second_m2[0] == pytest.approx(expected.second_m2, abs=SLOPES * scale**2)


@pytest.mark.parametrize("shape", FLAT_FACES)
def test_a_flat_face_agrees_with_its_integral(shape, example, skin_of):
    """Area, middle and second moment of one face; both faces are twice that."""
    measures = measure(shape, example(shape))

    assert_same(measures.face, skin_of(FLAT_FACES[shape]))
    assert measures.faces.size == pytest.approx(2 * measures.face.size)
    assert measures.outside == measures.faces
    assert measures.solid is None


@pytest.mark.parametrize("shape", CLOSED)
def test_a_closed_body_agrees_with_its_integrals(shape, example, skin_of, solid_of):
    """Its face, its whole outside with the ends, and the solid inside."""
    face, rest = CLOSED[shape]
    measures = measure(shape, example(shape))

    assert_same(measures.face, skin_of(face))
    assert_same(measures.outside, skin_of([*face, *rest]))
    assert_same(measures.solid, solid_of([*face, *rest]))


def test_both_faces_of_a_box_are_its_front_and_back(example, skin_of):
    """A box is clad on the two sides that look along `faces`."""
    assert_same(measure("box", example("box")).faces, skin_of(BLOCK[:2]))


def test_a_tube_is_a_rod_without_its_core(example, solid_of):
    """The material of a tube, by two integrals."""
    outer, inner = (
        solid_of([*side, *ends]) for side, ends in (tapered(1.5, r, r) for r in (0.1, 0.08))
    )

    solid = measure("tube", example("tube")).solid

    assert solid.size[0] == pytest.approx(outer.size - inner.size, rel=SLOPES)
    assert solid.size[0] * solid.second_m2[0] == pytest.approx(
        outer.size * outer.second_m2 - inner.size * inner.second_m2, rel=1e-6, abs=1e-10
    )


def rounded(width, depth, radius):
    """Return the outline of a rounded rectangle as (straight and round) pieces of a curve."""
    pieces = []
    for quarter, (x, y) in enumerate([(1, 1), (-1, 1), (-1, -1), (1, -1)]):
        cx, cy = x * (width / 2 - radius), y * (depth / 2 - radius)
        start = quarter * np.pi / 2
        pieces.append(
            (
                lambda t, cx=cx, cy=cy: (cx + radius * np.cos(t), cy + radius * np.sin(t)),
                start,
                start + np.pi / 2,
            )
        )
    flat_w, flat_d = width / 2 - radius, depth / 2 - radius
    pieces += [
        (lambda t: (0 * t + width / 2, t), -flat_d, flat_d),
        (lambda t: (-t, 0 * t + depth / 2), -flat_w, flat_w),
        (lambda t: (0 * t - width / 2, -t), -flat_d, flat_d),
        (lambda t: (t, 0 * t - depth / 2), -flat_w, flat_w),
    ]
    return pieces


def prism(length, outline):
    """Return the sides and the two ends of a bar with a given outline, outward."""
    sides = [
        (lambda u, v, c=c: stacked(v, *c(u)), (start, stop), (-length / 2, length / 2))
        for c, start, stop in outline
    ]
    ends = [
        (
            lambda u, v, c=c, e=e: stacked(e * length / 2 + 0 * u, *(v * p for p in c(u))),
            (start, stop) if e < 0 else (stop, start),
            (0, 1),
        )
        for c, start, stop in outline
        for e in (-1, 1)
    ]
    return sides, ends


def test_a_hollow_section_agrees_with_its_integrals(example, skin_of, solid_of):
    """Round corners outside and inside: skin, ends and material."""
    dims = example("hollow")
    (outer,), (inner,) = corner_radii(dims)
    sides, ends = prism(1.5, rounded(0.2, 0.1, outer))
    bore_sides, bore_ends = prism(1.5, rounded(0.184, 0.084, inner))

    measures = measure("hollow", dims)

    full, bore = solid_of([*sides, *ends]), solid_of([*bore_sides, *bore_ends])
    assert (outer, inner) == pytest.approx((0.020, 0.012))
    assert_same(measures.face, skin_of(sides))
    assert_same(measures.outside, skin_of([*sides, *ends]))
    assert measures.solid.size[0] == pytest.approx(full.size - bore.size, rel=1e-6)
    assert measures.solid.size[0] * measures.solid.second_m2[0] == pytest.approx(
        full.size * full.second_m2 - bore.size * bore.second_m2, rel=1e-6, abs=1e-10
    )


@pytest.mark.parametrize("shape", SHAPES)
def test_each_shape_has_a_place_and_an_envelope(shape, example):
    """A given mass can be placed on every shape, and its regions lie within its envelope."""
    measures = measure(shape, example(shape))

    assert measures.each.size == pytest.approx([1.0])
    for where in OVER:
        region = measures.over(where)
        if region is not None:
            assert np.all(region.size > 0)
            assert np.all(np.abs(region.middle_m) <= measures.box_m / 2 + 1e-12)
            spread_m = np.sqrt(np.diagonal(region.second_m2, axis1=1, axis2=2))
            assert np.all(spread_m <= measures.box_m / 2 + 1e-12)


@pytest.mark.parametrize("shape", SHAPES)
@given(scale=st.floats(0.05, 20))
@settings(max_examples=20)
def test_lengths_areas_and_volumes_scale(shape, scale):
    """Sizes grow with the power of their dimension, mean squares with the square.

    A hollow section's corner rule has steps in its wall, so its wall is kept above them.
    """
    base = EXAMPLE_ROWS[shape]
    grown = {k: v * (1 if k == "angle_rad" else scale) for k, v in base.items()}
    small, large = measure(shape, Dims.of(**base)), measure(shape, Dims.of(**grown))

    assert large.box_m == pytest.approx(small.box_m * scale, rel=1e-9)
    for where, power in (("line", 1), ("face", 2), ("faces", 2), ("outside", 2), ("solid", 3)):
        before, after = getattr(small, where), getattr(large, where)
        if before is not None:
            assert after.size == pytest.approx(before.size * scale**power, rel=1e-9)
            assert after.middle_m == pytest.approx(before.middle_m * scale, rel=1e-9, abs=1e-12)
            assert after.second_m2 == pytest.approx(
                before.second_m2 * scale**2, rel=1e-9, abs=1e-12 * scale**2
            )


ROUND = {"diameter_m": 2.0, "bore_m": 0.5, "angle_rad": 1.0, "end_diameter_m": 0.3}
BLOCKY = {"length_m": 9.0, "width_m": 5.0, "depth_m": 0.9, "end_width_m": 1.0, "wall_m": 0.05}
EXAMPLE_ROWS = {
    name: {k: v for k, v in (ROUND | BLOCKY).items() if k[: k.rindex("_")] in (s.needs + s.takes)}
    for name, s in SHAPES.items()
} | {"hollow": {"length_m": 9.0, "width_m": 8.0, "depth_m": 7.0, "wall_m": 0.5}}


@pytest.mark.parametrize("shape", SHAPES)
def test_many_parts_measure_as_each_alone(shape):
    """Nothing passes from one part of a batch to another."""
    grown = {
        k: np.array([v, v * (1 if k == "angle_rad" else 1.5)])
        for k, v in EXAMPLE_ROWS[shape].items()
    }
    dims = Dims.of(**grown)

    both, second = measure(shape, dims), measure(shape, dims.taken([1]))

    for where in OVER.values():
        if getattr(both, where) is not None:
            for together, alone in zip(getattr(both, where), getattr(second, where), strict=True):
                assert together[1] == pytest.approx(alone[0])


FAULTS = [
    ("sheet", {"length_m": 1.0}, [Fault(0, "width", "the shape sheet needs a width above zero")]),
    (
        "sheet",
        {"length_m": [1.0, 0.0], "width_m": [np.inf, 1.0]},
        [
            Fault(0, "width", "the shape sheet needs a width above zero"),
            Fault(1, "length", "the shape sheet needs a length above zero"),
        ],
    ),
    (
        "blade",
        {"length_m": 1.0, "width_m": 0.1, "end_width_m": -0.1},
        [Fault(0, "end_width", "the shape blade cannot have an end width below zero")],
    ),
    (
        "ring",
        {"diameter_m": 1.0, "bore_m": 1.0},
        [Fault(0, "bore", "the shape ring must have a bore smaller than its diameter")],
    ),
    (
        "sector",
        {"diameter_m": 1.0, "angle_rad": 7.0},
        [Fault(0, "angle", "the shape sector must have an angle of at most 360 degrees")],
    ),
    (
        "tube",
        {"length_m": 1.0, "diameter_m": 0.1, "wall_m": 0.06},
        [Fault(0, "wall", "the shape tube must have a wall thinner than half its diameter")],
    ),
    (
        "hollow",
        {"length_m": 1.0, "width_m": 0.2, "depth_m": 0.05, "wall_m": 0.03},
        [Fault(0, "wall", "the shape hollow must have a wall thinner than half its narrower side")],
    ),
    (
        "hoop",
        {"diameter_m": 1.0, "width_m": 0.05},
        [
            Fault(
                0,
                "depth",
                "the shape hoop needs width and depth, or an end diameter when its bar is round",
            )
        ],
    ),
    (
        "hoop",
        {"diameter_m": 1.0, "end_diameter_m": 0.05, "wall_m": 0.03},
        [Fault(0, "wall", "the shape hoop must have a wall thinner than half its end diameter")],
    ),
    (
        "formed",
        {"length_m": 1.0, "width_m": 1.1, "diameter_m": 0.1},
        [Fault(0, "width", "the shape formed must have a chord (width) within its length")],
    ),
    (
        "dome",
        {"diameter_m": 1.0, "depth_m": 0.6},
        [Fault(0, "depth", "the shape dome must rise (depth) at most half its diameter")],
    ),
    (
        "torus",
        {"diameter_m": 1.0, "end_diameter_m": 0.5},
        [
            Fault(
                0,
                "end_diameter",
                "the shape torus must have a tube (end diameter) thinner than half its diameter",
            )
        ],
    ),
]


@pytest.mark.parametrize(("shape", "given_m", "expected"), FAULTS)
def test_what_cannot_be_is_named(shape, given_m, expected):
    """Each fault names the part, the heading and the rule."""
    assert list(faults(shape, Dims.of(**given_m))) == expected


def test_measuring_a_fault_is_refused():
    """The message names the shape, the dimension and what was given."""
    with pytest.raises(
        ValueError, match=r"part 0: the shape rod needs a diameter above zero, got -1\.0"
    ):
        measure("rod", Dims.of(length_m=1.0, diameter_m=-1.0))


def test_an_unknown_shape_is_refused():
    """The message lists the shapes there are."""
    with pytest.raises(ValueError, match="there is no shape 'cube'; the shapes are sheet, disc"):
        measure("cube", Dims.of(length_m=1.0))


@pytest.mark.parametrize(
    ("shape", "given_m"),
    [
        ("sector", {"diameter_m": 1.0, "angle_rad": 2 * np.pi}),
        ("formed", {"length_m": 1.0, "width_m": 1.0, "diameter_m": 0.1}),
        ("dome", {"diameter_m": 1.0, "depth_m": 0.5}),
    ],
)
def test_some_limits_may_be_reached(shape, given_m):
    """A full turn, a straight bar and a hemisphere are the ends of their shapes."""
    assert faults(shape, Dims.of(**given_m)) == ()


def test_each_shape_has_pieces():
    """What can be measured can be seen."""
    assert set(CHUNKS) == set(SHAPES)
