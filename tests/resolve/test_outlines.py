"""Parts of shape outline: what their row must say, what is said of the drawing, what they measure.

A rectangle of 40 x 20 with a hole of 10 x 10 stands for the drawings: at 1:10 in mm it is
0.4 x 0.2 m, has 0.07 m2 of metal and is 1.6 m round.
"""

import subprocess
import sys

import numpy as np
import pytest

from estimator.core.problems import Severity
from estimator.files import curves
from estimator.files.shelf import Shelf
from estimator.resolve import outlines
from estimator.resolve.outlines import outline_model
from estimator.sheets.rows import Row

WHERE = {"file": "J", "file_unit": "L", "length": "G", "width": "H"}
GIVEN = {"part": "B1", "shape": "outline", "file": "leaf.svg", "scale": 10.0}
HEAD = 'width="100mm" height="50mm" viewBox="0 0 100 50"'
HOLED = '<rect x="5" y="5" width="40" height="20"/><rect x="10" y="10" width="10" height="10"/>'
DXF = (
    "0 SECTION 2 HEADER 9 $ACADVER 1 AC1009 {unit} 0 ENDSEC 0 SECTION 2 ENTITIES "
    "0 LINE 8 0 10 0 20 0 11 40 21 0 0 LINE 8 0 10 40 20 0 11 40 21 20 "
    "0 LINE 8 0 10 40 20 20 11 0 21 {end} 0 LINE 8 0 10 0 20 20 11 0 21 0 {more} 0 ENDSEC 0 EOF"
)
ROUND = "m round; curves to within 0.1 mm."
FACTS = (
    f"leaf.svg: 1 outline with 1 hole, 1:10, mm from the file; 400 x 200 mm; 0.07 m2, 1.6 {ROUND}",
    "From the origin of the file it reaches 50 to 450 mm along and -250 to -50 mm beside.",
)


@pytest.fixture
def model(tmp_path):
    """Return a function that gives the model of a row, and its problems."""
    shelf = Shelf(tmp_path)

    def made(inside=HOLED, head=HEAD, **changes):
        (tmp_path / "leaf.svg").write_text(f"<svg {head}>{inside}</svg>")
        values = {name: value for name, value in (GIVEN | changes).items() if value is not None}
        problems = []
        return outline_model(Row("parts", 2, values, WHERE), shelf, (), problems), problems

    return made


@pytest.fixture
def drawn(tmp_path, model):
    """Return a function that does so with a drawing of four lines, 40 x 20, in DXF."""

    def made(unit="", end="20", more="", **changes):
        text = DXF.format(unit=unit, end=end, more=more)
        (tmp_path / "plate.dxf").write_text("\n".join(text.split()))
        return model(file="plate.dxf", **changes)

    return made


@pytest.fixture
def said(model):
    """Return a function that gives the one problem of a row, in full."""

    def words(*args, **changes):
        _, (problem,) = model(*args, **changes)
        return str(problem)

    return words


MM = "9 $INSUNITS 70 4"


def test_a_drawing_becomes_a_model(model):
    """Measured, with its shape, where it came from, and what there is to say of it."""
    found, problems = model()

    assert problems == []
    assert (found.key, found.shape) == ("leaf.svg, mm at 1:10", "outline")
    assert (found.file, found.scale, found.unit) == ("leaf.svg", 10.0, "mm")
    assert len(found.sha256) == 64
    assert found.facts == FACTS
    assert found.model.outline.area == pytest.approx(0.07)
    face = found.model.measures.face
    assert face.size == pytest.approx([0.07])
    assert face.middle_m[0] == pytest.approx(
        [(0.08 * 0.25 - 0.01 * 0.15) / 0.07, -(0.08 * 0.15 - 0.01 * 0.15) / 0.07, 0]
    )


def test_y_of_svg_points_down_and_up_is_up(model):
    """What is drawn lower hangs lower: the hole is near the top."""
    outline = model()[0].model.outline
    hole = outline.geoms[0].interiors[0]

    assert hole.centroid.y == pytest.approx(-0.15)
    assert hole.centroid.y > outline.geoms[0].exterior.centroid.y - 1e-12


def test_lines_in_dxf_are_joined(drawn):
    """Four of them, at full size where no scale is given."""
    found, problems = drawn(MM, scale=None)
    plate = "plate.dxf: 1 outline,"

    assert problems == []
    assert found.facts == (
        f"{plate} 1:1 as no scale is given, mm from the file; 40 x 20 mm; 0.0008 m2, 120 m{ROUND}",
        "From the origin of the file it reaches 0 to 40 mm along and 0 to 20 mm beside.",
    )


def test_a_drawing_is_read_once(model, monkeypatch):
    """For two parts, and for two scales of it; what is wrong with it likewise."""
    reads = []
    reader = outlines.READERS[".svg"]
    counting = {".svg": lambda found: reads.append(found) or reader(found)}
    monkeypatch.setattr(outlines, "READERS", counting)

    first, again, larger = (model(scale=scale)[0] for scale in (10.0, 10.0, 20.0))

    assert len(reads) == 1
    assert first.model.outline is again.model.outline
    assert larger.model.outline.area == pytest.approx(4 * first.model.outline.area)
    assert first.key != larger.key


def test_a_unit_can_be_typed(drawn):
    """A drawing of release 12 says none."""
    found, problems = drawn(file_unit="cm", scale=1.0)

    assert problems == []
    assert found.unit == "cm"
    assert "1:1, cm as typed; 400 x 200 mm" in found.facts[0]


def test_without_a_unit_each_is_tried(drawn):
    """The sizes say which it must be."""
    found, (problem,) = drawn()

    assert found is None
    assert str(problem) == (
        "parts!L2 (B1): plate.dxf does not say in which unit it is drawn\n"
        "    wanted: one of: mm, cm, m, in, ft\n"
        "    at 1:10 it would be 400 x 200 mm in mm, 4 x 2 m in cm, 400 x 200 m in m, "
        "10.16 x 5.08 m in in, 121.9 x 60.96 m in ft"
    )


def test_the_row_wins_over_the_drawing(drawn):
    """The other size is said."""
    found, (problem,) = drawn(MM, file_unit="in")

    assert found.model.measures.box_m[0] == pytest.approx([10.16, 5.08, 0])
    assert problem.severity is Severity.QUESTION
    assert str(problem) == (
        "parts!L2 (B1): plate.dxf is in mm, which makes it 400 x 200 mm; in makes it 10.16 x 5.08 m"
        "\n    wanted: mm\n    in was used, as the row says; look at the size"
    )


def test_the_same_unit_typed_agrees_with_the_drawing(model):
    """Though its coordinates are quarters of it."""
    found, problems = model(head='width="100mm" viewBox="0 0 400 200"', file_unit="mm")

    assert problems == []
    assert found.model.measures.box_m[0] == pytest.approx([0.1, 0.05, 0])


def test_dots_are_asked_about(model):
    """CSS has 96 to the inch, some drawing programs 72."""
    found, (problem,) = model(head="")

    assert found.unit == "px"
    assert "1:10, px of which 96 are taken to the inch; 105.8 x 52.92 mm" in found.facts[0]
    assert problem.severity is Severity.QUESTION
    assert str(problem) == (
        "parts!L2 (B1): leaf.svg does not say how large it is; 96 px to the inch make it "
        "105.8 x 52.92 mm\n    wanted: a drawing with its size in mm\n"
        "    some programs count 72: type a unit, or save it with its width in mm"
    )


def test_dots_can_be_given_a_unit(model):
    """Then there is nothing to ask."""
    found, problems = model(head="", file_unit="mm")

    assert problems == []
    assert found.model.measures.box_m[0] == pytest.approx([0.4, 0.2, 0])


def test_a_gap_is_refused_with_both_its_ends(drawn):
    """In units of the drawing, and how wide it is at full size."""
    found, (problem,) = drawn(MM, end="19.5")

    assert found is None
    assert problem.severity is Severity.REFUSED
    assert str(problem) == (
        "parts!J2 (B1): plate.dxf is open: a line ends at (0.00, 19.50), 5 mm at full size from "
        "one that ends at (0.00, 20.00) (mm in the drawing)\n"
        "    wanted: lines that meet end to end within 0.05 mm\n    join the ends in the drawing"
    )


def test_small_gaps_are_bridged_and_said(drawn):
    """0.04 mm at full size; the same gap in a drawing ten times as large is not."""
    found, problems = drawn(MM, end="19.996")

    assert problems == []
    assert found.facts[2] == "1 gap bridged, 0.04 mm at the widest, full size."
    assert drawn(MM, end="19.996", scale=100.0)[0] is None


def test_more_gaps_are_counted(said):
    """The narrowest is told."""
    words = said('<path d="M0 0h9v9"/><path d="M20 0h9v9"/>')

    assert "; there are 1 more such gaps" in words


def test_a_line_too_much_is_refused_where_it_meets_the_others(drawn):
    """A tail at a corner, whose other end is open."""
    found, problems = drawn(MM, more="0 LINE 8 0 10 40 20 0 11 50 21 0")

    assert found is None
    assert [str(problem).split("\n")[0] for problem in problems] == [
        "parts!J2 (B1): more than two lines of plate.dxf end at (40.00, 0.00) (mm in the drawing)",
        "parts!J2 (B1): plate.dxf is open: a line ends at (50.00, 0.00)",
    ]


def test_a_crossing_is_refused_where_it_is(said):
    """The y of it is given as the drawing has it, downwards."""
    assert said('<path d="M0 0L20 20V0L0 20z"/>') == (
        "parts!J2 (B1): a loop of leaf.svg meets itself at (10.00, 10.00) "
        "(mm in the drawing, y downwards)\n    wanted: loops that neither cross nor touch\n"
        "    unite the shapes in the drawing, or take out the one that is too much"
    )


def test_shapes_that_overlap_are_refused(said):
    """The first three places are told."""
    words = said('<circle cx="20" cy="20" r="9"/><rect y="18" width="40" height="4"/>')

    assert words.startswith("parts!J2 (B1): loops of leaf.svg meet at (")
    assert " and elsewhere (mm in the drawing, y downwards)" in words


def test_lines_drawn_twice_are_asked_about(model):
    """They count once."""
    found, (problem,) = model(HOLED + HOLED)

    assert found.facts[2] == "2 lines drawn twice, and counted once."
    assert str(problem) == (
        "parts!J2 (B1): 2 lines of leaf.svg drawn twice\n    wanted: each line once\n"
        "    it counts once; take the second one out"
    )


def test_slivers_are_asked_about(model):
    """Where they are."""
    found, (problem,) = model(
        HOLED + '<rect x="60" y="9" width="9" height="0.004"/><path d="M1 1z"/>'
    )

    assert found.facts[2] == "Left aside as too small to count: 1 loop and 0 dots."
    assert str(problem) == (
        "parts!J2 (B1): 1 loop of leaf.svg narrower than 0.05 mm, at (60.00, 9.00) "
        "(mm in the drawing, y downwards)\n    it does not count; take it out"
    )


def test_both_edges_of_a_stroke_are_asked_about(said):
    """Between them lies a wire, not a sheet."""
    words = said(
        '<rect width="40" height="20"/><rect x=".02" y=".02" width="39.96" height="19.96"/>'
    )

    assert words == (
        "parts!J2 (B1): what leaf.svg encloses is 0.2 mm wide on the average\n"
        "    wanted: metal wider than 1 mm\n"
        "    if it shows both edges of a pen stroke, take one of them out"
    )


def test_what_was_left_aside_is_noted(model):
    """In the problems as a note, and with the facts."""
    found, (problem,) = model(HOLED + "<text/><text/><image/>")

    assert found.facts[2] == "Left aside: 2 x text, 1 x image."
    assert problem.severity is Severity.NOTE
    assert problem.found == "leaf.svg: left aside: 2 x text, 1 x image"


def test_what_is_not_followed_is_asked_about(model):
    """It may change the shape."""
    found, (problem,) = model("<style>.a{display:none}</style>" + HOLED)

    assert found.facts[2] == (
        "Its style sheet is not read: what that hides or moves counts as drawn."
    )
    assert problem.severity is Severity.QUESTION
    assert str(problem) == (
        "parts!J2 (B1): leaf.svg: Its style sheet is not read: what that hides or moves counts as "
        "drawn\n    look at it in the program it was drawn with"
    )


SIZES = [
    ({"length": 0.4, "width": 0.2}, None),
    ({"length": 0.407, "width": 0.197}, None),
    ({"length": 0.41}, ("G2", "length", "410 mm", "400 mm", "x")),
    ({"width": 1.9}, ("H2", "width", "1.9 m", "200 mm", "y")),
]


@pytest.mark.parametrize(("typed", "words"), SIZES, ids=range(len(SIZES)))
def test_a_size_that_is_typed_is_compared(model, typed, words):
    """More than 2 % off is asked about; the drawing is used."""
    found, problems = model(**typed)

    expected = words and (
        "parts!{} (B1): the {} is typed as {}, and leaf.svg is {} along its {}, taken as mm at 1:10"
        "\n    wanted: the same within 2 %\n"
        "    the drawing was used; look at its scale, its unit and its axes"
    ).format(*words)
    assert [*map(str, problems)] == ([expected] if expected else [])
    assert found.model.measures.box_m[0] == pytest.approx([0.4, 0.2, 0])


@pytest.mark.parametrize(("scale", "size"), [(0.1, "4 x 2 mm"), (2000.0, "80 x 40 m")])
def test_an_unlikely_size_is_asked_about(said, scale, size):
    """As a slip of unit or scale makes it."""
    assert said('<rect width="40" height="20"/>', scale=scale) == (
        f"parts!L2 (B1): leaf.svg is {size} at full size, taken as mm at 1:{scale:g}\n"
        "    wanted: a thing of 5 mm to 50 m\n    look whether the unit and the scale are right"
    )


REFUSED = [
    ({"file": "twig.svg"}, 'there is no file "twig.svg" in the folder of the job'),
    ({"file": "leaf.stl"}, '"leaf.stl" is of no use here'),
    ({"inside": ""}, "leaf.svg shows no lines"),
    ({"inside": "<text/>"}, "leaf.svg shows no lines; left aside: 1 x text"),
    ({"inside": '<circle r="3"><'}, "leaf.svg cannot be used: it is not whole ("),
    ({"inside": '<circle r="0.001"/>'}, "the lines of leaf.svg enclose nothing"),
    ({"inside": "".join(f'<circle r="{i}"/>' for i in range(1, 110))},
     "leaf.svg cannot be used: its loops lie within loops more than 100 deep"),
    ({"inside": '<circle r="1e12"/>'},
     "leaf.svg cannot be used: some of its coordinates are not numbers, or far too large"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "words"), REFUSED, ids=range(len(REFUSED)))
def test_drawings_that_cannot_be_used(model, changes, words):
    """Refused at the cell that names the file."""
    found, problems = model(**changes)

    (problem,) = [problem for problem in problems if problem.severity is Severity.REFUSED]
    assert found is None
    assert str(problem.cell) == "parts!J2"
    assert problem.found.startswith(words)
    assert problem.expected
    assert problem.advice


def test_too_many_points_are_refused(model, monkeypatch):
    """With the name of the drawing."""
    monkeypatch.setattr(curves, "MOST_POINTS", 9)

    found, (problem,) = model()

    assert found is None
    assert problem.found == "leaf.svg cannot be used: its lines have more than 500,000 points"


def test_both_ways_of_drawing_come_to_the_same(model, drawn):
    """The rectangle as four lines in DXF, and as one shape in SVG, a millimetre a unit."""
    plain, lined = model('<rect y="-20" width="40" height="20"/>')[0], drawn(MM)[0]

    for mine, other in zip(plain.model.measures.face, lined.model.measures.face, strict=True):
        assert mine == pytest.approx(other)
    assert plain.model.outline.equals(lined.model.outline)


def test_drawing_libraries_wait_until_a_drawing_is_read():
    """They take their time to load, and most jobs have no drawing."""
    code = (
        "import sys, estimator.resolve.outlines\n"
        "print(*({'ezdxf', 'svgelements', 'defusedxml.ElementTree'} & {*sys.modules}))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert "ezdxf" not in done.stdout
    assert "svgelements" not in done.stdout


def test_an_outline_is_a_part_of_a_job(resolved, tmp_path):
    """From the row of a sheet to the table of parts; what is named twice is one model."""
    (tmp_path / "job").mkdir()
    (tmp_path / "job" / "leaf.svg").write_text(f"<svg {HEAD}>{HOLED}</svg>")
    found = resolved({"parts": """
        part | assembly | count | shape   | file     | scale | made of | gauge
        L1   | dial     | 1     | outline | leaf.svg | 1:10  | copper  | 1.5 mm
        L2   | dial     | 3     | outline | leaf.svg | 1:10  | copper  | 1 mm
        L3   | dial     | 1     | outline | leaf.svg | 1:10  | copper  |
        """})  # fmt: skip

    assert [part.key for part in found.columns.parts] == ["L1", "L2"]
    (key,) = found.columns.models
    assert found.columns.models[key].facts == FACTS
    rows = found.columns.shape_rows[key]
    assert found.columns.measures(key, rows).face.size == pytest.approx(np.full(2, 0.07))
    assert "outline of copper has no gauge" in "".join(map(str, found.problems))
