"""Meshes and outlines among simple shapes: seen, blown on and drawn as what they are.

A box is tested as a mesh, and a sheet as an outline, against the same part by its dimensions.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.geometry.chunks import Chunks
from estimator.geometry.measures import Dims, Measures, Region
from estimator.geometry.models import Mesh, Model
from estimator.geometry.placing import rotation
from estimator.geometry.shapes import measure
from estimator.geometry.silhouettes import FRONT, PLAN, SIDE, view
from estimator.resolve.parts import columns
from estimator.resolve.records import Modelled
from estimator.stages import picturing
from estimator.stages.blowing import blow
from estimator.stages.blowing_rules import CASES, DIRECTIONS_DEG
from estimator.stages.measuring import measure_parts, pieces_of
from estimator.stages.outlining import Outliner
from estimator.stages.picturing import picture
from estimator.stages.posing import pose
from estimator.wind.coefficients import flat_plate

STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa"}
PRESSURE_PA = 1000.0
FIGURE = 1.8  # with hollows, as far as anybody knows: engineering judgement
HALF_ROUND = len(DIRECTIONS_DEG) // 2
MIDDLE = [k for k, (_, sense, place) in enumerate(CASES)
          if place == "in the middle" and "pressed" in sense]  # fmt: skip
BOX = {"part": "B", "shape": "box", "length": "1 m", "width": "600 mm", "depth": "200 mm",
       "made of": "softwood"}  # fmt: skip
SHEET = {"part": "P", "shape": "sheet", "length": "1 m", "width": "600 mm", "made of": "copper",
         "gauge": "1 mm"}  # fmt: skip
BLOCK = trimesh.creation.box((1.0, 0.6, 0.2))


def mesh_model(made):
    """Return the model of a trimesh body; what it measures is not looked at here."""
    mesh = Mesh(np.array(made.vertices), np.array(made.faces, dtype=np.intp))
    return Model(measure("box", Dims.of(length_m=1.0, width_m=0.6, depth_m=0.2)), mesh)


def outline_model(outline):
    """Return the model of a flat outline: its area, its middle and its envelope."""
    area_m2, (middle,) = shapely.area(outline), shapely.get_coordinates(outline.centroid)[None, 0]
    face = Region(np.array([area_m2]), np.array([[*middle, 0.0]]), np.zeros((1, 3, 3)))
    x0, y0, x1, y1 = outline.bounds
    each = face._replace(size=np.ones(1))
    box_m = np.array([[x1 - x0, y1 - y0, 0.0]])
    return Model(Measures(box_m, each, face=face), outline=shapely.MultiPolygon([outline]))


CORNERS_M = [[x, y, z] for x in (-0.5, 0.5) for y in (-0.3, 0.3) for z in (-0.1, 0.1)]
MODELS = {
    "mesh": mesh_model(BLOCK),
    "outline": outline_model(shapely.box(-0.5, -0.3, 0.5, 0.3)),
    "measured": mesh_model(BLOCK)._replace(mesh=None, stand_in=Chunks(np.array([[CORNERS_M]]))),
}


@pytest.fixture(scope="module")
def made(steps):
    """Return a function that resolves a job, and gives some of its parts models instead of sizes.

    It is given the models by part, each as (shape, model).
    """

    def resolve(models, **sheets):
        resolved = steps(upto="resolved", **({"job": STATED} | sheets))["resolved"]
        told = {key: Modelled(key, shape, model) for key, (shape, model) in models.items()}
        parts = [
            replace(part, shape=told[name].shape, model=name, dims=(math.nan,) * len(part.dims))
            if (name := part.key.split(" ")[0]) in told else part
            for part in resolved.columns.parts
        ]  # fmt: skip
        return replace(resolved, columns=columns(parts, resolved.assemblies, told))

    return resolve


def outliner_of(resolved):
    """Return an outliner of everything."""
    keep = np.ones(len(resolved.columns.parts), dtype=bool)
    return Outliner.of(resolved.columns, measure_parts(resolved.columns), keep)


PAIRS = [("mesh", BOX), ("outline", SHEET), ("measured", BOX)]
PLACES = [
    {"across": "2 m", "up": "1 m", "out": "300 mm", "turn": "30 deg", "tip": "20 deg"},
    {"along": "up", "faces": "across"},
    {"count": 5, "set out": "row", "spread": "3 m", "swing": "25 deg"},
    {"count": 6, "set out": "ring", "spread": "2 m", "start": "10 deg", "tip": "15 deg"},
]


@pytest.mark.parametrize(("shape", "cells"), PAIRS, ids=[shape for shape, _ in PAIRS])
@pytest.mark.parametrize("place", PLACES, ids=["oblique", "pointing", "row", "ring"])
@pytest.mark.parametrize("projection", [FRONT, SIDE, PLAN, view(0.7)])
def test_a_model_is_seen_like_the_shape_it_is(made, shape, cells, place, projection):
    """Area, sum, middle and box of the outline, for one copy and for many."""
    rows = [cells | place]
    turn = rotation(0.2, 0.1, 0.3)
    by_sizes, by_model = (
        outliner_of(made(models, parts=rows))
        for models in ({}, {cells["part"]: (shape, MODELS[shape])})
    )

    one, other = (o.seen(projection, [0], turn)[0] for o in (by_sizes, by_model))
    assert other.area_m2 == pytest.approx(one.area_m2, rel=1e-6)
    assert other.summed_m2 == pytest.approx(one.summed_m2, rel=1e-6)
    for name in ("middle_m", "low_m", "high_m"):
        assert getattr(other, name) == pytest.approx(getattr(one, name), abs=1e-6), name
    assert by_model.boxes([0], turn)[0] == pytest.approx(by_sizes.boxes([0], turn)[0])


def test_a_mirrored_assembly_shows_its_mesh_mirrored(made):
    """A wedge to the right of its middle is to the left of it in the mirror, as high as before."""
    wedge = trimesh.Trimesh([(0, 0, 0), (1, 0, 0), (0, 0.5, 0), (0, 0, 0.2)],
                            [(0, 2, 1), (0, 1, 3), (0, 3, 2), (1, 2, 3)])  # fmt: skip
    resolved = made(
        {"B": ("mesh", mesh_model(wedge))},
        parts=[BOX | {"turn": "20 deg"}],
        assemblies=[{"assembly": "a"}, {"assembly": "b", "same as": "a", "mirrored": "yes"}],
    )

    seen = outliner_of(resolved).seen(FRONT)
    assert seen[1].area_m2 == pytest.approx(seen[0].area_m2)
    assert seen[1].middle_m == pytest.approx(seen[0].middle_m * [-1, 1])
    drawn = {d.assembly: d.loop for d in draw(resolved).views["front"] if d.strokes}
    assert drawn["b"].outer_m[:, 0].min() == pytest.approx(-drawn["a"].outer_m[:, 0].max())


def forms(resolved):
    """Return how many forms, and how many copies of them, are looked at."""
    keep = np.ones(len(resolved.columns.parts), dtype=bool)
    pieces = pieces_of(resolved.columns, measure_parts(resolved.columns), keep)
    return sum(len(np.unique(p.which)) for p in pieces), sum(len(p.which) for p in pieces)


@pytest.mark.parametrize("models", [{}, {"B": ("mesh", MODELS["mesh"])}], ids=["shape", "mesh"])
def test_copies_turned_alike_are_looked_at_once(made, models):
    """A row of five is one form; a ring of six is six, each turned its own way."""
    row, ring = PLACES[2:]

    assert forms(made(models, parts=[BOX | row])) == (1, 5)
    assert forms(made(models, parts=[BOX | ring])) == (6, 6)


def test_parts_of_one_file_turned_alike_are_one_form(made):
    """Two rows of the sheet with the same mesh; by their sizes, only if those are the same."""
    rows = [BOX | {"part": "B 1"}, BOX | {"part": "B 2", "across": "2 m"}]
    longer = [rows[0], rows[1] | {"length": "1.1 m"}]

    assert forms(made({"B": ("mesh", MODELS["mesh"])}, parts=rows)) == (1, 2)
    assert forms(made({}, parts=rows)) == (1, 2)
    assert forms(made({}, parts=longer)) == (2, 2)


def blown(resolved):
    """Return the wind on everything."""
    return blow(resolved, measure_parts(resolved.columns), pose(resolved.assemblies))


MOVER = {"assembly": "a", "stands": "free", "moves": "turns", "axis": "across", "positions": 5}


def test_wind_on_a_mesh_is_wind_on_its_box(made):
    """In every position, direction and case, by its outline."""
    sheets = {"parts": [BOX | {"up": "1 m"}], "assemblies": [MOVER]}
    by_sizes, by_model = (blown(made(m, **sheets)) for m in ({}, {"B": ("mesh", MODELS["mesh"])}))

    for one, other in zip(by_sizes.groups, by_model.groups, strict=True):
        assert other.wrench == pytest.approx(one.wrench, rel=1e-6, abs=1e-6)
        assert other.area_m2 == pytest.approx(one.area_m2, rel=1e-6, abs=1e-9)


def test_a_mesh_by_itself_is_pushed_on_the_outline_it_shows(made):
    """1.8 x 1 kPa x 0.6 m2 from the street, x 0.12 m2 from the right: nobody says it is closed."""
    rows = [{"assembly": "a", "stands": "free", "wind": "parts"}]
    wind = blown(made({"B": ("mesh", MODELS["mesh"])}, parts=[BOX], assemblies=rows))

    force_n = wind.groups[0].wrench[0, 0, MIDDLE, :3]
    assert force_n[DIRECTIONS_DEG.index(0.0), 2] == pytest.approx(-FIGURE * PRESSURE_PA * 0.6)
    assert force_n[DIRECTIONS_DEG.index(90.0), 0] == pytest.approx(-FIGURE * PRESSURE_PA * 0.12)


ANGLE = shapely.Polygon([(0, 0), (1, 0), (1, 0.2), (0.2, 0.2), (0.2, 0.8), (0, 0.8)])
"""An angle of 1 x 0.8 m, 0.2 m wide: 0.32 m2, 40 % of its envelope."""
ANGLE_MIDDLE = ((0.2 * 0.5 + 0.12 * 0.1) / 0.32, (0.2 * 0.1 + 0.12 * 0.5) / 0.32)


def test_an_outline_is_a_plate_pushed_along_its_normal(made):
    """Its own area, as wide as that asks for, at its own middle; what was done is said."""
    rows = [{"assembly": "a", "stands": "free", "wind": "parts"}]
    resolved = made({"P": ("outline", outline_model(ANGLE))}, assemblies=rows,
                    parts=[SHEET | {"across": "2 m"}])  # fmt: skip
    wind = blown(resolved)

    size_n = PRESSURE_PA * flat_plate(1.0, 0.32).value * 0.32
    for direction_deg, share in ((0.0, -1.0), (30.0, -1.0), (90.0, 0.0), (180.0, 1.0)):
        force = wind.groups[0].wrench[0, 0, MIDDLE][DIRECTIONS_DEG.index(direction_deg)]
        assert force[:3] == pytest.approx([0, 0, share * size_n], abs=1e-6)
        at_m = np.array([2.0 + ANGLE_MIDDLE[0], ANGLE_MIDDLE[1], 0.0])
        assert force[3:] == pytest.approx(np.cross(at_m, force[:3]), abs=1e-6)
    said = wind.catches[0].coefficient.rule
    assert "1 of them flat outlines, each a plate as long as its envelope" in said
    assert "100 % of it closed" in said


PIERCED = ANGLE.difference(shapely.box(0.3, 0.05, 0.9, 0.15))
"""The angle with a slot of 0.6 x 0.1 m: 0.26 of 0.32 m2 is closed."""


def test_holes_of_an_outline_are_openings(made):
    """81 % closed: 1 - 0.1875^1.5 of the plate without holes (ASCE 7 Figure 29.3-1, note 1)."""
    rows = [{"assembly": "a", "stands": "free", "wind": "parts"}]
    wind = blown(made({"P": ("outline", outline_model(PIERCED))}, assemblies=rows, parts=[SHEET]))

    size_n = PRESSURE_PA * flat_plate(1.0, 0.32).value * 0.32 * (1 - 0.1875**1.5)
    assert wind.groups[0].wrench[0, 0, MIDDLE][0, 2] == pytest.approx(-size_n)
    assert "81 % of it closed" in wind.catches[0].coefficient.rule


def test_an_outline_is_pushed_like_the_sheet_it_is(made):
    """A square, leaning and turned: force and moment in every direction."""
    rows = [{"assembly": "a", "stands": "free", "wind": "parts"}]
    sheets = {"assemblies": rows, "parts": [SHEET | PLACES[0] | {"cut away": "10 %"}]}
    by_sizes, by_model = (
        blown(made(m, **sheets)) for m in ({}, {"P": ("outline", MODELS["outline"])})
    )

    assert by_model.groups[0].wrench == pytest.approx(by_sizes.groups[0].wrench, abs=1e-6)


def test_outlines_of_many_kinds_are_told_by_their_range(made):
    """81 % and 100 % closed; a part out of the wind is not told."""
    models = {"P": ("outline", outline_model(PIERCED)), "Q": ("outline", MODELS["outline"])}
    rows = [SHEET, SHEET | {"part": "Q"}, SHEET | {"part": "P hidden", "in wind": "no"}]
    sheets = {"assemblies": [{"assembly": "a", "stands": "free", "wind": "parts"}]}
    wind = blown(made(models, parts=rows, **sheets))

    assert "2 of them flat outlines" in wind.catches[0].coefficient.rule
    assert "81 to 100 % of it closed" in wind.catches[0].coefficient.rule


MOVES = [  # how it moves, views drawn: half of the 24 directions
    ({"moves": "slides", "axis": "up", "to": "1 m", "positions": 13}, HALF_ROUND),
    ({"moves": "turns", "axis": "up", "to": "330 deg", "positions": 12}, HALF_ROUND),
    ({"moves": "turns", "axis": "out", "to": "180 deg", "positions": 3}, 3 * HALF_ROUND),
]


@pytest.mark.parametrize(("moves", "views"), MOVES, ids=["slide", "about up", "about out"])
def test_a_view_that_positions_share_is_drawn_once(made, monkeypatch, moves, views):
    """A slide is seen alike from all its positions; about up, one position's front is another's."""
    asked = []
    seen = Outliner.seen
    monkeypatch.setattr(
        Outliner, "seen", lambda *given, **more: asked.append(given) or seen(*given, **more)
    )
    blown(made({}, parts=[BOX], assemblies=[{"assembly": "a", "stands": "free"} | moves]))

    assert len(asked) == views


@settings(max_examples=8, deadline=None)
@given(angle_deg=st.floats(0, 360))
def test_turning_about_up_turns_the_wind(made, angle_deg):
    """What is turned by an angle shows the wind what it showed it from that much further round."""
    slide = {"assembly": "a", "stands": "free", "moves": "turns", "axis": "up", "positions": 2}
    turned = slide | {"from": f"{angle_deg!r} deg", "to": f"{angle_deg + 90!r} deg"}
    wind = blown(made({"B": ("mesh", MODELS["mesh"])}, parts=[BOX], assemblies=[turned]))

    first, second = wind.groups[0].area_m2[:, 0]
    assert np.roll(first, 6) == pytest.approx(second, rel=1e-6, abs=1e-9)


def draw(resolved):
    """Return the pictures of a job."""
    return picture(resolved, measure_parts(resolved.columns), pose(resolved.assemblies))


def test_a_mesh_is_drawn_in_patches(made):
    """A block seen obliquely: the whole and three faces, with lines instead of their outlines."""
    found = draw(made({"B": ("mesh", MODELS["mesh"])}, parts=[BOX | PLACES[0]])).views["front"]

    assert len(found) == 4
    assert found[0].strokes == ()
    assert all(one.strokes for one in found[1:])
    by_sizes = draw(made({}, parts=[BOX | PLACES[0]])).views["front"]
    assert by_sizes[0].strokes is None
    apart = shapely.symmetric_difference(
        *(shapely.Polygon(one.loop.outer_m) for one in (found[0], by_sizes[0]))
    )
    assert shapely.area(apart) < 1e-3


def test_patches_are_drawn_among_other_parts(made):
    """A board between the two arms of a fork: one is nearer than it and one is further."""
    arms = [trimesh.creation.box((0.2, 1.0, 0.1)) for _ in range(2)]
    for arm, out_m in zip(arms, (0.0, 0.6), strict=True):
        arm.apply_translation((0.0, 0.0, out_m))
    board = SHEET | {"out": "300 mm"}
    fork = BOX | {"tip": "10 deg"}
    model = ("mesh", mesh_model(trimesh.util.concatenate(arms)))
    found = draw(made({"B": model}, parts=[fork, board])).views["front"]

    order = [one.part for one in sorted(found, key=lambda one: one.depth_m)]
    assert order.index("P") > order.index("B")
    assert order[-1] == "B"


def test_an_outline_is_drawn_with_its_holes(made):
    """A square with a square hole; from the side a thin line as high as it is."""
    ring = shapely.box(0, 0, 1, 1).difference(shapely.box(0.25, 0.25, 0.75, 0.75))
    views = draw(made({"P": ("outline", outline_model(ring))}, parts=[SHEET])).views

    (front,), (side,) = views["front"], views["side"]
    assert len(front.loop.holes_m) == 1
    assert front.strokes is None
    assert np.ptp(side.loop.outer_m, axis=0) == pytest.approx([1e-3, 1.0], abs=2e-3)


def test_a_small_mesh_shows_its_outline_alone(made):
    """Of a mesh smaller than a sixtieth of the picture nobody could see more."""
    small = ("mesh", mesh_model(trimesh.creation.box((0.3, 0.3, 0.3))))
    far = BOX | {"part": "far", "across": "20 m"}
    found = draw(made({"B": small}, parts=[BOX, far])).views["front"]

    assert [one.strokes for one in found] == [None, None]


def test_many_meshes_show_their_outlines_alone(made, monkeypatch):
    """Where the patches of all would be too many for a page, there is one for each."""
    monkeypatch.setattr(picturing, "MOST_PATCHES", 9)
    found = draw(made({"B": ("mesh", MODELS["mesh"])}, parts=[BOX | PLACES[2]])).views["front"]

    assert [one.strokes for one in found] == 5 * [None]


def test_a_flat_mesh_is_a_thin_line_on_its_edge(made):
    """Without any triangle in sight its hull is drawn, as that of any flat part."""
    flat = trimesh.Trimesh([(0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0)], [(0, 1, 2), (0, 2, 3)])
    (side,) = draw(made({"B": ("mesh", mesh_model(flat))}, parts=[BOX])).views["side"]

    assert side.strokes is None
    assert np.ptp(side.loop.outer_m, axis=0) == pytest.approx([1e-3, 1.0], abs=2e-3)


def test_a_mover_sweeps_with_its_mesh(made):
    """The block 1 m up turns about out: it reaches as far as its outer corners, in all views."""
    rows = [{"assembly": "a", "moves": "turns", "axis": "out", "positions": 24}]
    found = draw(made({"B": ("mesh", MODELS["mesh"])}, parts=[BOX | {"up": "1 m"}],
                      assemblies=rows))  # fmt: skip
    ((_, loop),) = found.sweeps["front"]

    assert np.linalg.norm(loop.outer_m, axis=1).max() == pytest.approx(math.hypot(0.5, 1.3))
    assert found.boxes_m[0][0][0] == pytest.approx(np.array([[-0.5, 0.7, -0.1], [0.5, 1.3, 0.1]]))


def test_lines_of_patches_are_recorded(made):
    """Every line says whether it is part of the outline; what has its own outline has no lines."""
    from estimator.stages.recording import _lines  # noqa: PLC0415 - the part that is new here

    found = draw(made({"B": ("mesh", MODELS["mesh"])}, parts=[BOX | PLACES[0], SHEET]))
    lines = [_lines(one) for one in found.views["front"]]

    assert None in lines
    widths = [line["wide"] for one in lines if one for line in one]
    assert {True, False} == set(widths)
