"""Paper, scales, lines and words."""

import math
import re
import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.reports import signs
from estimator.reports.drawing import (
    SCALES,
    Drawing,
    Viewport,
    shortened,
    standard_scale,
    text_box,
)

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize(
    ("size_m", "room_mm", "scale"),
    [
        ((4.9, 3.0), (200.0, 150.0), 25),  # 24.5 by the width
        ((1.0, 3.0), (200.0, 150.0), 20),  # 20.0 by the height, which just fits
        ((0.1, 0.1), (200.0, 150.0), 1),
        ((0.0, 0.0), (200.0, 150.0), 1),
        ((900.0, 3.0), (200.0, 150.0), 1000),  # larger than any scale: the smallest picture
    ],
)
def test_the_largest_standard_scale_that_fits_is_taken(size_m, room_mm, scale):
    """Arithmetic: size in mm over room, rounded up to a standard scale."""
    assert standard_scale(size_m, room_mm) == scale


@given(
    st.tuples(st.floats(0.01, 50), st.floats(0.01, 50)),
    st.tuples(st.floats(60, 300), st.floats(60, 300)),
)
def test_what_is_drawn_to_scale_fits_the_paper(size_m, room_mm):
    """At the chosen scale both sides fit, and at the next larger one a side would not."""
    scale = standard_scale(size_m, room_mm)
    viewport = Viewport(0, 0, scale, (0, 0, *size_m))

    _, _, right, bottom = viewport.paper
    assert right <= room_mm[0] * (1 + 1e-9)
    assert bottom <= room_mm[1] * (1 + 1e-9)
    if scale > 1:
        larger = SCALES[SCALES.index(scale) - 1]
        assert any(s * 1000 / larger > room for s, room in zip(size_m, room_mm, strict=True))


def test_up_is_up_and_a_plan_grows_downwards():
    """One metre at 1:10 is 100 mm; y runs up the paper unless the view says down."""
    up = Viewport(10, 20, 10, (-1, -1, 1, 1))
    down = Viewport(10, 20, 10, (-1, -1, 1, 1), y_down=True)

    assert up.at((0, 1)) == (110, 20)
    assert up.at((1, -1)) == (210, 220)
    assert down.at((0, 1)) == (110, 220)
    assert up.paper == (10, 20, 210, 220)


def test_words_typed_by_a_person_cannot_become_markup():
    """Text, labels, tips and the title are escaped."""
    hostile = '<script>alert("x")</script>&'
    drawing = Drawing(100, 100, hostile)
    drawing.text((10, 10), hostile)
    drawing.label((50, 50), hostile)
    drawing.shape("outline", [[(0, 0), (1, 0), (1, 1)]], hostile)

    root = ET.fromstring(drawing.svg())  # noqa: S314 - our own output

    assert not list(root.iter(f"{SVG}script"))
    assert "".join(root.itertext()).count(hostile) == 4


def test_the_paper_is_true_to_size():
    """Width and height are in millimetres and the same as the user units of the picture."""
    root = ET.fromstring(Drawing(246, 150, "sheet").svg())  # noqa: S314 - our own output

    assert (root.get("width"), root.get("height")) == ("246mm", "150mm")
    assert root.get("viewBox") == "0 0 246 150"


def test_labels_do_not_cover_one_another():
    """Eight labels at one place find eight places."""
    drawing = Drawing(120, 120, "labels")
    for i in range(8):
        drawing.label((60, 60), f"label {i}")

    boxes = [text_box(*written) for written in _written(drawing)]
    assert len(boxes) == 8
    for i, first in enumerate(boxes):
        for second in boxes[i + 1 :]:
            assert (
                first[2] <= second[0] + 0.05
                or second[2] <= first[0] + 0.05
                or first[3] <= second[1] + 0.05
                or second[3] <= first[1] + 0.05
            )


def test_a_label_keeps_clear_of_lines():
    """With ink to the right and below, words stand to the left or above, where there is none."""
    drawing = Drawing(120, 120, "labels")
    for i in range(40):
        drawing.line("wide", (62, 40 + i), (110, 40 + i))
        drawing.line("wide", (30, 62 + i / 2), (110, 62 + i / 2))
    drawing.label((60, 60), "label")

    ((start, *_),) = _written(drawing)
    assert start[0] <= 60
    assert start[1] <= 62


def test_white_areas_are_no_lines_to_keep_clear_of():
    """A label stands on a white area as on bare paper: to the right, nearest."""
    bare, covered = Drawing(120, 120, "bare"), Drawing(120, 120, "covered")
    covered.shape("area", [[(50, 50), (110, 50), (110, 70), (50, 70)]])
    for drawing in (bare, covered):
        drawing.label((60, 60), "label")

    assert _written(bare) == _written(covered)


def test_a_leader_does_not_run_through_words():
    """Beyond the bars on the right there is room, but a leader would cross them."""
    drawing = Drawing(200, 120, "leaders")
    for i in range(5):
        drawing.keep_clear((64 + 7 * i, 30, 65 + 7 * i, 90))
    drawing.balloon((60, 60), "1")

    (((x, _), *_),) = _written(drawing)
    assert x < 64


def test_item_numbers_stand_in_circles_that_do_not_meet():
    """Ten items at one place have ten circles, each at the end of its own leader."""
    drawing = Drawing(120, 120, "items")
    for i in range(10):
        drawing.balloon((60, 60), str(i))

    spots = [spot for spot, *_ in _written(drawing)]
    gaps = [math.dist(a, b) for i, a in enumerate(spots) for b in spots[i + 1 :]]
    assert min(gaps) >= 2 * 2.7
    assert drawing.svg().count('d="M60.00 60.00L') == 10


def test_an_item_number_with_no_room_is_written_all_the_same():
    """Its circle lies on the place itself."""
    drawing = Drawing(4, 4, "no room")
    drawing.balloon((2, 2), "7")

    assert ">7<" in drawing.svg()
    assert 'd="M2.00 2.00L' not in drawing.svg()


def test_a_label_with_no_room_is_written_all_the_same():
    """Nothing is left unnamed, however crowded the paper."""
    drawing = Drawing(5, 5, "no room")
    drawing.label((2, 2), "a label wider than the paper")

    assert "a label wider than the paper" in drawing.svg()


def test_long_words_are_cut_with_dots():
    """Short ones are left alone."""
    assert shortened("short", 40) == "short"
    assert shortened("a very long name of an assembly", 20) == "a very lon…"


def test_a_narrow_dimension_has_its_arrows_outside():
    """The heads point at each other from outside, and the number stands clear of the line."""
    drawing = Drawing(100, 50, "dimensions")
    signs.dimension_across(drawing, (50, 40), (52, 40), 20, "80")
    signs.dimension_upright(drawing, (60, 20), (60, 22), 40, "80")

    line = 'd="M47.60 20.00L54.40 20.00"'
    assert line in drawing.svg()
    assert 'd="M40.00 17.60L40.00 24.40"' in drawing.svg()


def test_a_wide_dimension_has_its_number_over_the_middle():
    """Extension lines start a millimetre off the thing that is measured."""
    drawing = Drawing(100, 50, "dimensions")
    signs.dimension_across(drawing, (80, 40), (20, 40), 20, "2 400")

    svg = drawing.svg()
    assert 'd="M20.00 39.00L20.00 19.00"' in svg
    assert 'x="50.00" y="19.20"' in svg
    assert "2 400" in svg


def test_the_scale_bar_is_to_scale():
    """Four steps of 0.2 m at 1:20 are 40 mm long."""
    drawing = Drawing(100, 50, "bar")
    signs.scale_bar(drawing, (10, 20), Viewport(0, 0, 20, (0, 0, 1, 1)))

    assert 'd="M10.00 20.00L20.00 20.00L20.00 18.80L10.00 18.80Z"' in drawing.svg()
    assert [words for _, words, _, _ in _written(drawing)] == ["0", "400", "800", "mm"]


def _written(drawing):
    """Return (place, words, size, anchor) of all that is written."""
    pattern = (
        r'<text x="([-\d.]+)" y="([-\d.]+)" font-size="([\d.]+)" text-anchor="(\w+)"[^>]*>(.*?)<'
    )
    return [
        ((float(x), float(y)), words, float(size), anchor)
        for x, y, size, anchor, words in re.findall(pattern, drawing.svg())
    ]
