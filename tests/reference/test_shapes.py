"""Shapes: every shape of the workbook, its columns, and where it points."""

import pytest

from estimator.geometry.shapes import SHAPES as MEASURED
from estimator.reference.finding import find_row

SHAPES = [
    *("sheet", "disc", "ring", "sector", "blade", "leaf", "outline", "box", "flat", "rod"),
    *("tube", "hollow", "section", "hoop", "formed", "cone", "sphere", "dome", "ellipsoid"),
    *("torus", "mesh", "measured", "run", "bought"),
]
COLUMNS = {
    *("length", "width", "depth", "diameter", "bore", "end_width", "end_diameter", "wall"),
    *("angle", "section", "kg_per_m", "file", "scale", "made_of", "mass_each"),
}


def columns(row, heading):
    """Return the columns of the parts sheet that a cell lists."""
    return {word for group in row.words(heading) for word in group.split()}


def test_the_shapes_are_those_of_the_workbook(library):
    """One row a shape, none missing and none besides."""
    assert [row.key for row in library.table("shapes").rows] == SHAPES


def test_every_column_is_a_heading_of_the_parts_sheet(library):
    """Needed, either and optional columns are written as fields of a part."""
    for row in library.table("shapes").rows:
        must = columns(row, "needed") | columns(row, "either")
        assert must | columns(row, "optional") <= COLUMNS, row.key
        assert must, row.key


def test_every_shape_says_where_it_points_and_what_a_face_is(library):
    """One rule for all: along across, facing out."""
    for row in library.table("shapes").rows:
        assert (row.text("along"), row.text("faces")) == ("across", "out")
        assert row.text("one_face")
        assert row.text("formula")


def test_a_hoop_is_a_flat_or_a_round(library):
    """It needs width and depth, or the diameter of the rod it is rolled from."""
    hoop = find_row(library.table("shapes"), "hoop", str)

    assert hoop.words("needed") == ("diameter",)
    assert hoop.words("either") == ("width depth", "end_diameter")
    assert hoop.words("optional") == ("wall",)


@pytest.mark.parametrize(
    ("typed", "key"),
    [("cap", "dome"), ("block", "box"), ("frustum", "cone"), ("ring_sector", "sector")],
)
def test_other_words_for_a_shape(library, typed, key):
    """Words that makers' lists use."""
    assert find_row(library.table("shapes"), typed, str).key == key


def test_only_meshes_and_outlines_are_placed_by_their_file(library):
    """Pieces exported together stay together."""
    rows = library.table("shapes").rows
    placed = {row.key for row in rows if row.text("placed_by") == "file"}

    assert placed == {"mesh", "outline"}


def test_the_table_asks_for_what_the_program_does(library):
    """As whoever looks it up reads it: the same shapes, and all that one cannot be without."""
    rows = {row.key: row for row in library.table("shapes").rows}

    for name, shape in MEASURED.items():
        assert set(shape.needs) <= columns(rows[name], "needed") | columns(rows[name], "either"), (
            name
        )
