"""DXF drawings: entities, blocks, layers and units, by another program's writer and by hand.

Lengths of circles, arcs and ellipses are textbook geometry; bulges, knots, $INSUNITS and layer
flags are as the DXF reference of Autodesk has them (from memory). The writer is the open library
that reads as well, so drawings written by hand as text stand beside its own.
"""

import logging
import math

import ezdxf
import numpy as np
import pytest
from scipy.special import ellipe

from estimator.files import drawings
from estimator.files.curves import lines
from estimator.files.drawings import UNITS, read_dxf
from estimator.files.shelf import FileError

HIDDEN = "thing that is hidden, or on a layer that is off or frozen"
LOST = "block that lies in another file, or nowhere"


@pytest.fixture
def written(tmp_path, found):
    """Return a function that has a drawing written, and reads it."""

    def read(draw, version="R2010", units=4, fmt="asc"):
        document = ezdxf.new(version, units=units)
        draw(document, document.modelspace())
        document.saveas(tmp_path / "out.dxf", fmt=fmt)
        return read_dxf(found("a.dxf", (tmp_path / "out.dxf").read_bytes()))

    return read


@pytest.fixture
def drawn(written):
    """Return a function that has a drawing written, and gives its lines."""
    return lambda draw: lines(written(draw).paths, 1e-4)


@pytest.fixture
def by_hand(found):
    """Return a function that reads a drawing from its tags, parted by blanks or lines."""

    def read(entities, before=""):
        tags = f"{before} 0 SECTION 2 ENTITIES {entities} 0 ENDSEC 0 EOF".split()
        return read_dxf(found("a.dxf", "\n".join(tags).encode()))

    return read


@pytest.fixture
def refused(found):
    """Return a function that gives what is said of a drawing that cannot be read."""

    def words(data):
        with pytest.raises(FileError) as caught:
            read_dxf(found("a.dxf", data))
        return caught.value.found, caught.value.expected, caught.value.advice

    return words


def _length(line):
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


POINTS = [(0, 0), (10, 0), (10, 5)]
BULGED = [(0, 0, 0), (10, 0, 1), (10, 4, 0), (0, 4, 1)]
ELLIPSE = 4 * 7 * ellipe(1 - (3 / 7) ** 2)
SLOT = 20 + 4 * math.pi
ENTITIES = [
    (lambda m: m.add_line((1, 2, 9), (4, 6, 9)), 5, (1, 2, 4, 6)),
    (lambda m: m.add_circle((3, 4), 2), 4 * math.pi, (1, 2, 5, 6)),
    (lambda m: m.add_arc((0, 0), 2, 270, 90), 2 * math.pi, (0, -2, 2, 2)),
    (lambda m: m.add_arc((0, 0), 2, 0, 360), 4 * math.pi, (-2, -2, 2, 2)),
    (lambda m: m.add_ellipse((1, 1), (0, 7), 3 / 7), ELLIPSE, (-2, -6, 4, 8)),
    (lambda m: m.add_ellipse((0, 0), (7, 0), 3 / 7, 0, math.pi), ELLIPSE / 2, (-7, 0, 7, 3)),
    (lambda m: m.add_ellipse((0, 0), (7, 0), 3 / 7, 0, 6.2831853072), ELLIPSE, (-7, -3, 7, 3)),
    (lambda m: m.add_lwpolyline(POINTS), 15, (0, 0, 10, 5)),
    (lambda m: m.add_lwpolyline(POINTS, close=True), 15 + math.sqrt(125), (0, 0, 10, 5)),
    (lambda m: m.add_lwpolyline(BULGED, format="xyb", close=True), SLOT, (-2, 0, 12, 4)),
    (lambda m: m.add_polyline2d(BULGED, format="xyb", close=True), SLOT, (-2, 0, 12, 4)),
    (lambda m: m.add_polyline2d(POINTS), 15, (0, 0, 10, 5)),
    (lambda m: m.add_polyline3d(POINTS), 15, (0, 0, 10, 5)),
    (lambda m: m.add_polyline3d(POINTS, close=True), 15 + math.sqrt(125), (0, 0, 10, 5)),
    (lambda m: m.add_open_spline([(0, 0), (3, 0), (6, 0), (9, 0)]), 9, (0, 0, 9, 0)),
    (lambda m: m.add_rational_spline([(2, 0), (2, 2), (0, 2)], [1, math.sqrt(0.5), 1], 2),
     math.pi, (0, 0, 2, 2)),
    (lambda m: m.add_spline([(0, 0), (3, 4), (6, 8)]), 10, (0, 0, 6, 8)),
    (lambda m: m.add_circle((3, 4), 2, dxfattribs={"extrusion": (0, 0, -1)}), 4 * math.pi,
     (-5, 2, -1, 6)),
    (lambda m: m.add_lwpolyline(BULGED, format="xyb", close=True,
                                dxfattribs={"extrusion": (0, 0, -1)}), SLOT, (-12, 0, 2, 4)),
]  # fmt: skip
"""An entity, its length, and its box; one with its plane upside down is a mirror image."""


@pytest.mark.parametrize(("draw", "length", "box"), ENTITIES, ids=range(len(ENTITIES)))
def test_each_entity(drawn, draw, length, box):
    """Chords are 0.02 % of these lengths shorter at the most."""
    (line,) = drawn(lambda _, space: draw(space))

    assert _length(line) == pytest.approx(length, rel=2e-4)
    assert (*line.min(axis=0), *line.max(axis=0)) == pytest.approx(box, abs=1e-3)


@pytest.mark.parametrize("fmt", ["asc", "bin"])
@pytest.mark.parametrize("code", UNITS)
def test_the_unit_of_a_drawing(written, code, fmt):
    """As text or in binary: its $INSUNITS."""
    found = written(lambda _, space: space.add_circle((0, 0), 1), units=code, fmt=fmt)

    assert found.unit == UNITS[code]
    assert not found.falls


@pytest.mark.parametrize("head", ["", "0 SECTION 2 HEADER 9 $ACADVER 1 AC1009 0 ENDSEC"])
def test_a_drawing_without_a_unit(by_hand, head):
    """R12 knows none; the library would say metres where there is no header at all."""
    found = by_hand("0 LINE 8 0 10 1 20 2 11 4 21 6", head)

    assert found.unit == ""
    assert math.isnan(found.unit_m)
    assert lines(found.paths, 1.0)[0].tolist() == [[1, 2], [4, 6]]


def test_a_unit_of_another_trade(written):
    """Light years and the like."""
    found = written(lambda _, space: space.add_circle((0, 0), 1), units=19)

    assert (found.unit, found.notes) == (
        "", ("Its unit is number 19 of DXF, which none of this trade is.",)
    )  # fmt: skip


R12 = """
0 POLYLINE 8 0 66 1 70 1
0 VERTEX 8 0 10 0 20 0
0 VERTEX 8 0 10 10 20 0 42 1
0 VERTEX 8 0 10 10 20 4
0 VERTEX 8 0 10 0 20 4 42 1
0 SEQEND
0 ARC 8 0 10 5 20 2 40 1 50 0 51 180
"""


def test_a_drawing_of_release_12_written_by_hand(by_hand):
    """A slot with round ends and half a circle in it."""
    slot, half = lines(by_hand(R12).paths, 1e-4)

    assert _length(slot) == pytest.approx(SLOT, rel=2e-4)
    assert _length(half) == pytest.approx(math.pi, rel=2e-4)


def test_a_polyline_may_end_in_a_bulge(drawn):
    """The last of an open one says nothing: what would follow it is not there."""
    (line,) = drawn(lambda _, m: m.add_lwpolyline([(0, 0, 1), (2, 0, 1)], format="xyb"))

    assert _length(line) == pytest.approx(math.pi, rel=2e-4)


def test_vertices_that_only_guide_a_fitted_polyline_are_not_on_it(by_hand):
    """Flag 16."""
    found = by_hand("0 POLYLINE 8 0 66 1 70 4 0 VERTEX 8 0 10 0 20 0 70 8 0 VERTEX 8 0 10 5 20 9"
                    " 70 16 0 VERTEX 8 0 10 9 20 0 70 8 0 SEQEND")  # fmt: skip

    assert lines(found.paths, 1.0)[0].tolist() == [[0, 0], [9, 0]]


def test_polylines_of_one_point_draw_nothing(written):
    """Nor do those of none; they are no fault."""

    def draw(_, space):
        space.add_lwpolyline([(1, 1)])
        space.add_lwpolyline([])
        space.add_polyline3d([(1, 1)])

    assert written(draw).paths == ()


PLACES = [
    ({}, (5, 6)),
    ({"xscale": 2, "yscale": -3}, (5 + 1 * 2, 6)),
    ({"rotation": 90}, (5, 7)),
    ({"rotation": 90, "xscale": -1}, (5, 5)),
]


@pytest.mark.parametrize(("how", "end"), PLACES, ids=str)
def test_a_block_is_set_in(drawn, how, end):
    """From its base point, scaled, mirrored, then turned; a line of one unit ends there."""
    shift = 0 if how else 1

    def draw(document, space):
        block = document.blocks.new("B", base_point=(2, 3))
        block.add_line((2, 3), (3, 3))
        space.add_blockref("B", (5, 6), dxfattribs=how)

    (line,) = drawn(draw)

    assert line[1] == pytest.approx((end[0] + shift, end[1]))


def test_blocks_within_blocks_against_the_library(drawn):
    """Each point as the library's own matrices put it: turned, stretched, mirrored, repeated."""
    inner, outer = [], []

    def draw(document, space):
        leaf, tree = document.blocks.new("LEAF", (0.5, 0)), document.blocks.new("TREE", (1, 2))
        leaf.add_line((0, 0), (1, 2))
        leaf.add_circle((0, 0), 1)
        how = {"rotation": 20, "xscale": 2, "yscale": -0.5, "row_count": 2, "row_spacing": 4}
        inner.append(tree.add_blockref("LEAF", (3, 1), dxfattribs=how))
        how = {"rotation": -50, "xscale": 3, "yscale": 3, "extrusion": (0, 0, -1)}
        outer.append(space.add_blockref("TREE", (-4, 5), dxfattribs=how))

    found = drawn(draw)

    ends = []
    for one in inner[0].multi_insert():
        place = one.matrix44() * outer[0].matrix44()
        ends.append([place.transform(point).vec2 for point in ((0, 0), (1, 2))])
    straight = [line for line in found if len(line) == 2]
    assert len(found) == 4
    assert np.array(straight) == pytest.approx(np.array(ends))


def test_an_ellipse_comes_of_a_stretched_circle(drawn):
    """3 by 7."""

    def draw(document, space):
        document.blocks.new("B").add_circle((0, 0), 1)
        space.add_blockref("B", (0, 0), dxfattribs={"xscale": 3, "yscale": 7})

    (line,) = drawn(draw)

    assert _length(line) == pytest.approx(ELLIPSE, rel=2e-4)


def test_layers_that_are_off_or_frozen_are_left_aside(written):
    """And what is hidden by itself; layer 0 in a block is the layer of the block."""

    def draw(document, space):
        document.layers.add("off").off()
        document.layers.add("cold").freeze()
        document.layers.add("on")
        block = document.blocks.new("B")
        block.add_line((0, 0), (1, 0))
        block.add_line((0, 0), (2, 0), dxfattribs={"layer": "on"})
        space.add_line((0, 0), (3, 0), dxfattribs={"layer": "OFF"})
        space.add_line((0, 0), (4, 0), dxfattribs={"layer": "cold"})
        space.add_line((0, 0), (5, 0), dxfattribs={"invisible": 1})
        space.add_line((0, 0), (6, 0), dxfattribs={"layer": "not in the table"})
        space.add_blockref("B", (0, 0), dxfattribs={"layer": "off"})
        space.add_blockref("B", (0, 0), dxfattribs={"layer": "cold"})

    found = written(draw)

    assert [line[1, 0] for line in lines(found.paths, 1.0)] == [6, 2]
    assert found.aside == {HIDDEN: 5}


def test_paper_is_not_looked_at(written):
    """Only the model space is full size."""
    found = written(lambda document, _: document.layout("Layout1").add_circle((0, 0), 1))

    assert found.paths == ()


def test_what_is_no_outline_is_left_aside_and_counted(written):
    """Writing, hatching, dimensions, points, faces in space, pictures of other files."""

    def draw(document, space):
        space.add_text("Heron")
        space.add_mtext("Heron")
        space.add_hatch().paths.add_polyline_path(POINTS)
        space.add_linear_dim((0, 5), (0, 0), (9, 0)).render()
        space.add_point((1, 1))
        space.add_polymesh((2, 2))
        space.add_3dface([(0, 0), (1, 0), (1, 1)])
        space.add_helix(1, 1, 1)
        space.add_blockref("nowhere", (0, 0))
        document.add_xref_def("/etc/hostname.dxf", "OTHER")
        space.add_blockref("OTHER", (0, 0))

    found = written(draw)

    assert found.paths == ()
    assert found.aside == {
        "text": 2, "hatch": 1, "dimension": 1, "point": 1, "mesh": 1, "face in space": 1,
        "thing called HELIX": 1, LOST: 2,
    }  # fmt: skip


def test_wide_polylines_are_spoken_of_once(written):
    """What is drawn with a width counts along its middle."""

    def draw(_, space):
        for _ in range(2):
            space.add_lwpolyline(POINTS, dxfattribs={"const_width": 2})

    found = written(draw)

    assert found.notes == ("Wide polylines count along their middle, without their width.",)


UPRIGHT = [
    lambda m: m.add_line((0, 0, 0), (1, 0, 1)),
    lambda m: m.add_circle((0, 0), 1, dxfattribs={"extrusion": (0, 1, 1)}),
    lambda m: m.add_polyline3d([(0, 0, 0), (1, 0, 0), (1, 1, 0.1)]),
]


@pytest.mark.parametrize("draw", UPRIGHT, ids=("line", "circle", "polyline"))
def test_what_does_not_lie_flat_is_refused(written, draw):
    """Seen from above it would look smaller than it is."""
    with pytest.raises(FileError) as caught:
        written(lambda _, space: draw(space))

    assert caught.value.args == ("some of it does not lie flat in its XY plane",)
    assert caught.value.advice == "flatten it, or make the part a mesh"


MANY = (
    "it draws more than 50,000 things, those in blocks each time they are set in",
    "the outline alone",
    "take out what is not part of the outline",
)
DEEP = (
    "its blocks lie more than 16 deep, or within themselves",
    "the outline alone",
    "explode its blocks, and save it again",
)


def _said(caught):
    return caught.value.found, caught.value.expected, caught.value.advice


def test_a_block_within_itself_is_refused(written):
    """Directly, or in a circle."""

    def draw(document, space):
        document.blocks.new("A").add_blockref("B", (0, 0))
        document.blocks.new("B").add_blockref("A", (0, 0))
        space.add_blockref("A", (0, 0))

    with pytest.raises(FileError) as caught:
        written(draw)

    assert _said(caught) == DEEP


def test_blocks_of_blocks_are_counted(written):
    """Ten times ten times ten ... : a few lines that would be a thousand million."""

    def draw(document, space):
        document.blocks.new("B0").add_line((0, 0), (1, 0))
        for i in range(1, 10):
            block = document.blocks.new(f"B{i}")
            for _ in range(10):
                block.add_blockref(f"B{i - 1}", (0, 0))
        space.add_blockref("B9", (0, 0))

    with pytest.raises(FileError) as caught:
        written(draw)

    assert _said(caught) == MANY


def test_rows_and_columns_are_counted(written):
    """A thousand million of them in one entity, without any way between them."""

    def draw(document, space):
        document.blocks.new("B").add_line((0, 0), (1, 0))
        many = {"row_count": 32000, "column_count": 32000}
        space.add_blockref("B", (0, 0), dxfattribs=many)

    with pytest.raises(FileError) as caught:
        written(draw)

    assert _said(caught) == MANY


def test_many_entities_are_refused(written, monkeypatch):
    """However plain they are."""
    monkeypatch.setattr(drawings, "MOST_ENTITIES", 3)

    with pytest.raises(FileError, match="more than"):
        written(lambda _, space: [space.add_point((0, 0)) for _ in range(4)])


SPLINE = (
    "0 SPLINE 100 AcDbEntity 8 0 100 AcDbSpline 70 8 71 {} 72 6 73 3 74 0 {} "
    "10 0 20 0 30 0 10 1 20 1 30 0 10 2 20 0 30 0"
)
KNOTS = "40 0 40 0 40 0 40 1 40 1 40 1"
BAD_SPLINES = [
    (2, "40 0 40 0 40 0 40 0 40 0 40 0"),
    (2, "40 0 40 0 40 0 40 1 40 .5 40 1"),
    (2, f"{KNOTS} 41 1 41 0 41 1"),
]


def test_a_spline_written_by_hand(by_hand):
    """A parabola over a chord of 2, 1/2 high: its length is sqrt 2 + asinh 1."""
    head = "0 SECTION 2 HEADER 9 $ACADVER 1 AC1015 0 ENDSEC"

    (line,) = lines(by_hand(SPLINE.format(2, KNOTS), head).paths, 1e-6)

    assert _length(line) == pytest.approx(math.sqrt(2) + math.asinh(1), rel=1e-5)


@pytest.mark.parametrize(("degree", "knots"), BAD_SPLINES)
def test_splines_that_make_no_curve_are_refused(by_hand, degree, knots):
    """All knots alike, falling knots, a weight of nothing."""
    head = "0 SECTION 2 HEADER 9 $ACADVER 1 AC1015 0 ENDSEC"
    with pytest.raises(FileError) as caught:
        by_hand(SPLINE.format(degree, knots), head)

    assert _said(caught) == (
        "it has a spline whose knots, weights or degree make no curve",
        "splines as the DXF reference has them",
        "turn it into a polyline, and save the drawing again",
    )


LACKING = ["0 CIRCLE 8 0 10 1 20 2", "0 LINE 8 0 10 1 20 2", "0 ARC 8 0 10 1 20 2 40 3 50 4"]


@pytest.mark.parametrize("entity", LACKING)
def test_what_lacks_a_size_is_refused(by_hand, entity):
    """The library would give it one of its own."""
    with pytest.raises(FileError) as caught:
        by_hand(entity)

    assert caught.value.found == f"it has a {entity.split()[1]} without all its coordinates"
    assert caught.value.advice == "open it in a drawing program, and save it again"


HUGE = ["0 LINE 8 0 10 nan 20 2 11 4 21 6", "0 CIRCLE 8 0 10 0 20 0 40 1e999",
        "0 CIRCLE 8 0 10 1e300 20 0 40 1"]  # fmt: skip


@pytest.mark.parametrize("entities", HUGE)
def test_numbers_that_are_none_are_refused(by_hand, entities):
    """Or far too large."""
    with pytest.raises(FileError, match="not numbers, or far too large"):
        by_hand(entities)


def test_a_block_of_no_size_that_can_be_told_is_refused(written):
    """Scale upon scale."""

    def draw(document, space):
        document.blocks.new("B").add_line((0, 0), (1, 0))
        document.blocks.new("C").add_blockref("B", (0, 0), dxfattribs={"xscale": 1e9})
        space.add_blockref("C", (0, 0), dxfattribs={"xscale": 1e9})

    with pytest.raises(FileError, match="not numbers, or far too large"):
        written(draw)


JUNK = [
    (b"hello", "OSError"),
    (b"0\nSECTION\n", "StopIteration"),
    (b"0\nSECTION\n2\nENTITIES\n0\nLINE\n", "DXFStructureError"),
    (
        b"0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n8\n0\n10\nabc\n0\nENDSEC\n0\nEOF\n",
        "DXFStructureError",
    ),
    (b"AutoCAD Binary DXF\r\n\x1a\x00abc", "error"),
]


@pytest.mark.parametrize(("data", "name"), JUNK)
def test_files_that_are_not_drawings(refused, data, name):
    """Text, half a file, letters for numbers, half a binary file."""
    found, wanted, advice = refused(data)

    assert found.startswith(f"it is not a DXF drawing that can be read ({name}: ")
    assert wanted == "a DXF drawing that is whole"
    assert advice == "open it in a drawing program, and save it again"


def test_what_the_reader_makes_good_is_told(by_hand, capsys):
    """It warns of it; that is passed on, and does not appear on the screen."""
    before = logging.getLogger("ezdxf").propagate
    found = by_hand("0 LINE 5 AB 8 0 10 1 20 2 11 4 21 6 0 LINE 5 AB 8 0 10 1 20 2 11 4 21 7")

    (note,) = found.notes
    assert note.startswith("Its reader says: Found non-unique entity handle #AB")
    assert capsys.readouterr().err == ""
    assert logging.getLogger("ezdxf").propagate is before
