"""Parts of shape mesh: what their row must say, what is said of the file, and what they measure.

Boxes and balls stand for the models, so that every figure is known: a box of 40 x 20 x 10 mm at
1:10 is 0.4 x 0.2 x 0.1 m, has 0.28 m2 of skin and holds 8 litres.
"""

import math
import string
import subprocess
import sys

import numpy as np
import pytest
import trimesh

from estimator.core.problems import Severity
from estimator.files.shelf import Shelf
from estimator.geometry import crossings as comparing
from estimator.resolve import meshes
from estimator.resolve.meshes import mesh_model, skin_thickness_m
from estimator.resolve.records import Layer
from estimator.sheets.columns import FORMS
from estimator.sheets.rows import Row

FIELDS = [column.field for column in FORMS["parts"].columns]
LETTERS = [*string.ascii_uppercase, *(a + b for a in "AB" for b in string.ascii_uppercase)]
WHERE = dict(zip(FIELDS, LETTERS, strict=False))
GIVEN = {"part": "B1", "shape": "mesh", "file": "box.stl", "file_unit": "mm", "scale": 10.0}
BOX = trimesh.creation.box((40, 20, 10))
COPPER = Layer("skin", "copper", "one face", 8.93, thickness_m=0.001)
CORE = Layer("core", "softwood", "solid", 500.0)
GILT = Layer("finish", "oil gilt", "whole outside", 0.05)
BOX_FACTS = (
    "box.stl: 12 triangles, closed; taken as mm at 1:10.",
    "At full size it is 0.4 x 0.2 x 0.1 m along its x, y and z.",
    "What it shows has an area of 0.28 m2 and encloses 0.008 m3.",
)


def _joined(*bodies):
    return trimesh.util.concatenate(bodies)


@pytest.fixture
def model(tmp_path):
    """Return a function that gives the model of a row, and its problems."""
    shelf = Shelf(tmp_path)

    def made(body=BOX, layers=(), **changes):
        if body is not None:
            (tmp_path / "box.stl").write_bytes(trimesh.exchange.stl.export_stl(body))
        values = {name: value for name, value in (GIVEN | changes).items() if value is not None}
        problems = []
        found = mesh_model(Row("parts", 2, values, WHERE), shelf, tuple(layers), problems)
        return found, problems

    return made


@pytest.fixture
def asked(model):
    """Return a function that gives the texts of the problems of a row, each by its severity."""

    def words(*args, **changes):
        _, problems = model(*args, **changes)
        return [(str(problem.severity), str(problem)) for problem in problems]

    return words


def _cell(field):
    return f"parts!{WHERE[field]}2 (B1)"


def test_a_file_becomes_a_model_at_full_size(model):
    """Measures, surface, and where they are from."""
    found, problems = model()
    measures = found.model.measures

    assert problems == []
    assert (found.shape, found.file, found.scale, found.unit) == ("mesh", "box.stl", 10.0, "mm")
    assert len(found.sha256) == 64
    assert measures.box_m[0] == pytest.approx([0.4, 0.2, 0.1])
    assert measures.face.size[0] == pytest.approx(0.28)
    assert measures.solid.size[0] == pytest.approx(0.008)
    assert np.ptp(found.model.mesh.points_m, axis=0) == pytest.approx([0.4, 0.2, 0.1])
    assert found.model.outline is found.model.stand_in is None


def test_what_there_is_to_say_of_it_is_said(model):
    """How it was taken, its size, its skin, and what was done to read it."""
    found, _ = model()

    assert found.facts == (
        *BOX_FACTS,
        "28 corners at the same place as another to the last digit, taken as one with it.",
    )


def test_it_stands_where_its_file_has_it(model):
    """The origin of the file stays its origin, so that pieces drawn together stay together."""
    found, _ = model(BOX.copy().apply_translation((100, 0, 50)))

    assert found.model.measures.solid.middle_m[0] == pytest.approx([1, 0, 0.5], abs=1e-6)


def test_without_a_scale_it_is_full_size(model):
    """As the facts say."""
    found, problems = model(scale=None)

    assert found.scale == 1.0
    assert found.model.measures.box_m[0] == pytest.approx([0.04, 0.02, 0.01])
    assert found.facts[0] == (
        "box.stl: 12 triangles, closed; taken as mm at 1:1, as no scale is given."
    )
    assert problems == []


def test_a_unit_is_never_guessed(asked):
    """What each would make of it is told, so that the right one can be seen."""
    assert asked(file_unit=None) == [("refused", (
        f"{_cell('file_unit')}: nothing says in which unit box.stl is, and such a file does not\n"
        "    wanted: one of: mm, cm, m, in, ft\n"
        "    at 1:10, as mm it is 400 mm long, as cm it is 4 m long, as m it is 400 m long, "
        "as in it is 10.2 m long, as ft it is 122 m long"
    ))]  # fmt: skip


def test_a_file_that_cannot_be_used_is_refused_at_its_cell(asked):
    """Missing, blank, of another kind, or broken."""
    found = [asked(None, file="bird.stl"), asked(None, file=None), asked(None, file="bird.dxf")]

    assert [text.splitlines()[0] for ((_, text),) in found] == [
        f'{_cell("file")}: there is no file "bird.stl" in the folder of the job',
        f"{_cell('file')}: no file is named",
        f'{_cell("file")}: "bird.dxf" is of no use here',
    ]


def test_a_file_without_a_surface_is_refused(asked, tmp_path):
    """Its triangles lie on a line."""
    (tmp_path / "line.obj").write_bytes(b"v 0 0 0\nv 1 0 0\nv 2 0 0\nf 1 2 3\n")

    assert asked(None, file="line.obj") == [("refused", (
        f"{_cell('file')}: the triangles of line.obj have no area\n"
        "    wanted: a surface\n"
        "    look at it in the program it was made with"
    ))]  # fmt: skip


def test_a_file_is_read_once(model, monkeypatch):
    """Rows that name the same file share what was read, also for another way of building."""
    first, _ = model()
    monkeypatch.setattr(meshes, "read_mesh", pytest.fail)
    monkeypatch.setattr(meshes, "crossings", pytest.fail)
    second, _ = model(None, [COPPER])

    assert first.model.mesh is second.model.mesh


def test_the_key_tells_models_apart(model):
    """By file, unit, scale, face shown and thickness of the skin; by nothing else."""
    rows = [{}, {"scale": 5.0}, {"file_unit": "cm"}, {"model_shows": "inside"}]
    keys = [model(**row)[0].key for row in rows]
    keys += [model(layers=[COPPER])[0].key, model(part="B2", layers=[COPPER, GILT])[0].key]

    assert keys[0] == "box.stl, mm at 1:10, outside of 0 mm"
    assert keys[4] == keys[5] == "box.stl, mm at 1:10, outside of 1 mm"
    assert len(set(keys)) == 5


def test_the_skin_is_as_thick_as_what_lies_over_its_faces():
    """Coats and cores add nothing; what covers a quarter counts a quarter, both faces twice."""
    patch = Layer("patch", "lead", "whole outside", 25.0, covers=0.25, thickness_m=0.002)
    lining = Layer("lining", "copper", "both faces", 8.93, thickness_m=0.001)

    assert skin_thickness_m([COPPER, CORE, GILT, patch, lining]) == pytest.approx(0.0035)
    assert skin_thickness_m([]) == 0


BALL = trimesh.creation.icosphere(subdivisions=5, radius=50)


@pytest.mark.parametrize(
    ("shows", "radius_m"), [("outside", 0.4995), ("middle", 0.5), ("inside", 0.5005)]
)
def test_the_skin_is_measured_in_its_middle(model, shows, radius_m):
    """A ball of half a metre with 1 mm of copper: 20 480 triangles come out 6e-4 too small."""
    found, _ = model(BALL, [COPPER], model_shows=shows)

    expected = 4 * math.pi * radius_m**2
    plain, _ = model(BALL)
    ratio = found.model.measures.face.size[0] / plain.model.measures.face.size[0]
    assert ratio == pytest.approx((radius_m / 0.5) ** 2, rel=1e-5)
    assert found.model.measures.face.size[0] == pytest.approx(expected, rel=1e-3)


def test_what_is_seen_is_the_outside_of_the_skin(model):
    """A core of one metre across under 30 mm of boards is 1.06 m across to the wind."""
    boards = Layer("boards", "softwood", "one face", 15.0, thickness_m=0.03)
    found, _ = model(BALL, [boards], model_shows="inside")
    again, _ = model(None, [boards], model_shows="inside")

    assert np.ptp(found.model.mesh.points_m, axis=0) == pytest.approx([1.06] * 3, rel=1e-4)
    assert found.model.measures.box_m[0] == pytest.approx([1.06] * 3)
    assert again.model.mesh is found.model.mesh


def test_an_open_mesh_that_looks_inwards_is_asked_about(model):
    """A bowl cannot be told from a ball that is inside out, so that nothing is turned."""
    _, bare = model(_inverted(_without(BALL, [0])))
    _, (_, wrong) = model(None, [COPPER])

    assert len(bare) == 1
    assert str(wrong) == (
        f"{_cell('file')}: the outside of box.stl is on its hollow side\n"
        "    wanted: an outside that faces outwards\n"
        "    its skin was laid on that side; turn its triangles if it belongs on the other"
    )


def test_the_skin_of_a_hollow_is_told_to_count(model):
    """A figure drawn with both faces of its wall has its skin twice."""
    found, (hollow,) = model(_joined(BOX, _inverted(SMALL)), [COPPER])

    assert found.model.measures.face.size[0] > 0.28
    assert hollow.advice == (
        "that was taken off as hollow, and its skin counts as well; turn it if it is "
        "no hollow, take it out if the skin is to be the outside alone"
    )


def test_the_facts_say_what_the_skin_does(model):
    """A ball: 3.14 m2 outside, 0.4 % less in the middle of 2 mm."""
    found, problems = model(BALL, [COPPER, COPPER])

    assert problems == []
    assert found.facts[3] == (
        "It shows the outside of a skin of 2 mm: 3.13 m2 at the middle of its thickness, "
        "0.4 % less, and 0.517 m3 inside."
    )


def test_a_thick_skin_is_asked_about(asked):
    """30 mm on a ball of half a metre: 5.9 % less in its middle."""
    boards = Layer("boards", "softwood", "one face", 15.0, thickness_m=0.03)

    assert asked(BALL, [boards]) == [("question", (
        f"{_cell('model_shows')}: a skin of 30 mm changes the area that box.stl shows: "
        "5.9 % less\n"
        "    wanted: a skin that is thin beside its bends\n"
        "    it is right for what bends gently; look at `model shows`, the unit and the scale"
    ))]  # fmt: skip


def test_a_sheet_drawn_with_both_faces_is_asked_about(model):
    """Its own thickness leaves no room for a skin on either face."""
    plate = trimesh.creation.box((100, 100, 0.1))
    found, problems = model(plate, [COPPER])

    assert found.model.measures.solid is None
    assert "".join(str(problem) for problem in problems) == (
        f"{_cell('file')}: a skin of 1 mm leaves nothing inside box.stl\n"
        "    wanted: a surface that is one face of the skin\n"
        "    if the file shows both faces of a sheet, its skin counts twice: leave one face"
    )
    assert found.facts[3] == (
        "It shows the outside of a skin of 1 mm: 2 m2 at the middle of its thickness, 0.3 % less."
    )


def test_a_skin_thicker_than_the_thing_is_refused(model):
    """Half a metre of board around a box of a hand's length."""
    boards = Layer("boards", "softwood", "one face", 15.0, thickness_m=0.5)
    found, problems = model(layers=[boards])

    assert found is None
    assert str(problems[0]) == (
        f"{_cell('made_of')}: box.stl is 400 mm long, taken as mm at 1:10: nothing is left of the "
        "surface 250 mm inside it\n"
        "    wanted: a skin that is thinner than the thing itself\n"
        "    look at scale, unit and gauge"
    )


@pytest.mark.parametrize(
    ("unit", "scale", "long"), [("mm", 0.1, "4 mm"), ("m", 10.0, "400 m"), ("ft", 5.0, "61 m")]
)
def test_an_unlikely_size_is_asked_about(asked, unit, scale, long):
    """A slip of the unit or the scale makes a thing of no size at all, or of a town's."""
    ((severity, text),) = asked(file_unit=unit, scale=scale)

    assert severity == "question"
    assert text == (
        f"{_cell('file_unit')}: box.stl is {long} long at full size, taken as {unit} "
        f"at 1:{scale:g}\n"
        "    wanted: a thing of 5 mm to 50 m\n"
        "    look whether the unit and the scale are right"
    )


def test_a_size_typed_beside_it_is_compared(asked):
    """One that agrees within 2 % needs no words."""
    assert asked(length=0.405, width=0.2, depth=0.0985) == []
    assert asked(length=0.5, width=0.2) == [("question", (
        f"{_cell('length')}: the length is typed as 500 mm, and box.stl is 400 mm that way "
        "(x of the file), taken as mm at 1:10\n"
        "    wanted: the same within 2 %\n"
        "    the file was used; look at its scale, its unit and its axes"
    ))]  # fmt: skip


def _without(body, rows):
    return trimesh.Trimesh(body.vertices, np.delete(body.faces, rows, axis=0), process=False)


def test_an_open_mesh_has_a_skin_and_no_volume(model):
    """For a skin it will do: that it is open is only noted."""
    found, problems = model(_without(BOX, [0]), [COPPER])

    assert found.model.measures.solid is found.model.measures.inside is None
    assert found.model.measures.face.size[0] == pytest.approx(0.28, rel=0.2)
    assert [problem.severity for problem in problems] == [Severity.NOTE]  # nor is it hollow
    words = str(problems[0]).splitlines()
    assert words[0].startswith(
        f"{_cell('file')}: box.stl is open: 3 edges of one triangle alone, 524 mm in 1 border; "
        "the longest is 524 mm, about ("
    )
    assert words[1] == ("    its skin and its outline are used; close it if it is to have a volume")
    assert found.facts[0] == "box.stl: 11 triangles, open; taken as mm at 1:10."
    assert "encloses" not in found.facts[2]


def test_an_open_mesh_is_asked_about_where_that_matters(model):
    """A core needs an inside; a coat all round has only the side that is shown."""
    _, (core,) = model(_without(BOX, [0]), [COPPER, CORE])
    _, (coat,) = model(_without(BOX, [0]), [COPPER, GILT])

    assert core.severity == coat.severity == Severity.QUESTION
    assert coat.advice.endswith(
        "; what lies over its whole outside counts on the side that is shown alone"
    )


SMALL = trimesh.creation.box((4, 4, 4))
OUTSIDE = SMALL.copy().apply_translation((100, 0, 0))


def _inverted(body):
    return trimesh.Trimesh(body.vertices, body.faces[:, ::-1], process=False)


def _one_flipped(body):
    faces = body.faces.copy()
    faces[0] = faces[0][::-1]
    return trimesh.Trimesh(body.vertices, faces, process=False)


def _one_twice(body):
    return trimesh.Trimesh(body.vertices, np.vstack([body.faces, body.faces[:1]]), process=False)


FAULTY = [
    ("inside out", _inverted(BOX), True,
     ["all triangles of box.stl have their outside inwards"]),
    ("one flipped", _one_flipped(BOX), False,
     ["neighbours disagree which side is outside at 3 edges of box.stl, such as about"]),
    ("one twice", _one_twice(BOX), False,
     ["more than two triangles meet in 3 edges of box.stl, 0.524 m long, such as about",
      "1 triangle of box.stl, 0.01 m2, with the corners of another, such as about"]),
    ("a hollow", _joined(BOX, _inverted(SMALL)), True,
     ["1 piece of box.stl, 0.000064 m3, inside out within another, such as about (0, 0, 0) mm"]),
    ("a stray piece", _joined(BOX, _inverted(OUTSIDE)), False,
     ["1 piece of box.stl, 0.000064 m3, inside out, such as about (100, 0, 0) mm in the file"]),
    ("one through another", _joined(BOX, SMALL.copy().apply_translation((20, 9, 0))), True,
     ["10 triangles of box.stl running through others, such as about"]),
]  # fmt: skip


@pytest.mark.parametrize(("name", "body", "closed", "words"), FAULTY, ids=[f[0] for f in FAULTY])
def test_what_is_wrong_with_a_mesh_is_asked_about(model, name, body, closed, words):
    """Each fault with its count, and a place in the file where the maker can look."""
    found, problems = model(body)

    assert [problem.severity for problem in problems] == [Severity.QUESTION] * len(words), name
    for problem, said in zip(problems, words, strict=True):
        assert problem.found.startswith(said)
        assert str(problem.cell) == f"parts!{WHERE['file']}2"
    assert (found.model.measures.solid is not None) == closed


def test_a_mesh_inside_out_is_taken_the_other_way_round(model):
    """Its volume, and the surface that others draw, are those of the mesh as it should be."""
    found, _ = model(_inverted(BOX))

    assert found.model.measures.solid.size[0] == pytest.approx(0.008)
    a, b, c = found.model.mesh.points_m[found.model.mesh.faces].transpose(1, 0, 2)
    assert (np.cross(a, b) * c).sum() / 6 == pytest.approx(0.008)


def test_a_mesh_that_disagrees_is_not_called_open(model):
    """It has no border."""
    found, _ = model(_one_flipped(BOX))

    assert found.facts[0] == (
        "box.stl: 12 triangles, not the same side out all over; taken as mm at 1:10."
    )


def test_pieces_and_slivers_are_told(model, tmp_path):
    """How many pieces there are, and what has no area."""
    pieces, _ = model(_joined(BOX, OUTSIDE))
    (tmp_path / "sliver.obj").write_bytes(
        b"v 0 0 0\nv 90 0 0\nv 45 0 0\nv 0 90 0\nf 1 2 3\nf 1 3 4\nf 3 2 4\n"
    )
    sliver, _ = model(None, file="sliver.obj")

    assert pieces.facts[3] == (
        "It is in 2 pieces that share no corner; the largest has 97 % of the area."
    )
    assert "1 triangle of it without an area." in sliver.facts


def test_a_face_that_folds_back_is_asked_about(asked, tmp_path):
    """What the reader doubts is passed on."""
    comb = b"v 0 0 0\nv 5 0 0\nv 5 3 0\nv 4 1 0\nv 3 3 0\nv 2 1 0\nv 1 3 0\nv 0 1 0\n"
    (tmp_path / "comb.obj").write_bytes(comb + b"f 1 2 3 4 5 6 7 8\n")
    ((_, _), (severity, text)) = asked(None, file="comb.obj")

    assert severity == "question"
    assert "comb.obj: 1 face of more than three corners folds back on itself" in text


def test_what_was_not_looked_at_is_told(model, monkeypatch):
    """A very large mesh is compared with itself only so far."""
    monkeypatch.setattr(comparing.crossings, "__defaults__", (0,))
    found, _ = model()

    assert found.facts[3] == (
        "Whether it runs through itself was looked at for 0 of its triangles, the largest."
    )


def test_a_workbook_with_a_mesh_is_resolved(resolved, said, tmp_path):
    """Two birds of copper share one model; a third, with a thicker skin, has one of its own."""
    (tmp_path / "job").mkdir()
    (tmp_path / "job" / "box.stl").write_bytes(trimesh.exchange.stl.export_stl(BOX))
    table = """
        part | assembly | count | shape | made of  | gauge  | file    | file unit | scale
        B1   | birds    | 1     | mesh  | copper   | 1.5 mm | box.stl | mm        | 1:10
        B2   | birds    | 1     | mesh  | copper   | 1.5 mm | box.stl | mm        | 1:10
        B3   | birds    | 1     | mesh  | copper   | 3 mm   | box.stl | mm        | 1:10
        """
    found = resolved({"parts": table})
    columns = found.columns

    assert said(found, "refused") == ""
    assert len(columns.models) == 2
    first, second, third = (part.model for part in columns.parts)
    assert first == second != third
    (area_m2,) = columns.measures(third, [2]).face.size
    assert area_m2 < columns.measures(first, [0, 1]).face.size[0] < 0.28


def test_a_job_without_a_mesh_loads_nothing_for_one():
    """Trees to find neighbours with, and another library's readers, are slow to load."""
    code = "import sys, estimator.pipeline; print({'trimesh', 'scipy.spatial'} & {*sys.modules})"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True)

    assert told.stdout.strip() == b"set()"
