"""Shapes: every shape of the workbook, its columns, and where it points."""

import pytest

from estimator.reference.shapes import find_shape, shape_rules

SHAPES = [
    *("sheet", "disc", "ring", "sector", "blade", "leaf", "outline", "box", "flat", "rod"),
    *("tube", "hollow", "section", "hoop", "formed", "cone", "sphere", "dome", "ellipsoid"),
    *("torus", "mesh", "measured", "run", "bought"),
]
COLUMNS = {
    *("length", "width", "depth", "diameter", "bore", "end_width", "end_diameter", "wall"),
    *("angle", "section", "kg_per_m", "file", "scale", "made_of", "mass_each"),
}


def test_the_shapes_are_those_of_the_workbook(library):
    """One row a shape, none missing and none besides."""
    assert list(shape_rules(library)) == SHAPES


def test_every_column_is_a_heading_of_the_parts_sheet(library):
    """Needed, either and optional columns are written as fields of a part."""
    for rule in shape_rules(library).values():
        either = [column for group in rule.either for column in group]
        assert {*rule.needed, *either, *rule.optional} <= COLUMNS, rule.key
        assert rule.needed or rule.either, rule.key


def test_every_shape_says_where_it_points_and_what_a_face_is(library):
    """One rule for all: along across, facing out."""
    for rule in shape_rules(library).values():
        assert (rule.along, rule.faces) == ("across", "out")
        assert rule.one_face
        assert rule.formula


def test_a_hoop_is_a_flat_or_a_round(library):
    """It needs width and depth, or the diameter of the rod it is rolled from."""
    hoop = find_shape(library, "hoop")

    assert hoop.needed == ("diameter",)
    assert hoop.either == (("width", "depth"), ("end_diameter",))
    assert hoop.optional == ("wall",)


@pytest.mark.parametrize(
    ("typed", "key"),
    [("cap", "dome"), ("block", "box"), ("frustum", "cone"), ("ring_sector", "sector")],
)
def test_other_words_for_a_shape(library, typed, key):
    """Words that makers' lists use."""
    assert find_shape(library, typed).key == key


def test_a_miss_shows_the_columns(library):
    """So that the maker sees which one is meant."""
    assert find_shape(library, "discs").choices[0] == "disc (diameter)"
    assert "run (length)" in find_shape(library, "runs").choices


def test_only_meshes_and_outlines_are_placed_by_their_file(library):
    """Pieces exported together stay together."""
    placed = {rule.key for rule in shape_rules(library).values() if rule.placed_by == "file"}

    assert placed == {"mesh", "outline"}
