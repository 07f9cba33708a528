"""SVG drawings: their shapes, transforms and units, what is left aside, and hostile files.

[SVG] W3C Recommendation Scalable Vector Graphics 1.1, second edition, 2011; clauses from memory.
Lengths of circles, ellipses and polygons are textbook geometry. CSS has 96 px to the inch.
"""

import math

import numpy as np
import pytest
from scipy.special import ellipe

from estimator.files import svg
from estimator.files.curves import lines
from estimator.files.shelf import FileError
from estimator.files.svg import read_svg

XLINK = 'xmlns:xlink="http://www.w3.org/1999/xlink"'
LINE = '<line x2="3" y2="4"/>'


@pytest.fixture
def drawing(found):
    """Return a function that reads what stands inside a drawing of 100 x 50 mm."""

    def read(inside, head='width="100mm" height="50mm" viewBox="0 0 100 50"'):
        text = f'<svg xmlns="http://www.w3.org/2000/svg" {XLINK} {head}>{inside}</svg>'
        return read_svg(found("a.svg", text.encode()))

    return read


@pytest.fixture
def drawn(drawing):
    """Return a function that gives the lines of what stands inside a drawing."""
    return lambda inside: lines(drawing(inside).paths, 1e-4)


@pytest.fixture
def refused(drawing):
    """Return a function that gives what is said of a drawing that cannot be read."""

    def words(inside, *head):
        with pytest.raises(FileError) as caught:
            drawing(inside, *head)
        return caught.value.found, caught.value.expected, caught.value.advice

    return words


def _length(line):
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


ELLIPSE = 4 * 7 * ellipe(1 - (3 / 7) ** 2)
SHAPES = [
    ('<rect x="1" y="2" width="30" height="10"/>', 80, (1, 2, 31, 12)),
    ('<rect width="30" height="10" rx="4"/>', 80 - 32 + 8 * math.pi, (0, 0, 30, 10)),
    ('<rect width="30" height="10" ry="4" rx="auto"/>', 80 - 32 + 8 * math.pi, (0, 0, 30, 10)),
    ('<rect width="14" height="6" rx="99" ry="99"/>', ELLIPSE, (0, 0, 14, 6)),
    ('<rect width="30" height="10" rx="-1" ry="2"/>', 80, (0, 0, 30, 10)),
    ('<circle cx="5" cy="6" r="4"/>', 8 * math.pi, (1, 2, 9, 10)),
    ('<ellipse cx="8" cy="9" rx="7" ry="3"/>', ELLIPSE, (1, 6, 15, 12)),
    ('<line x1="1" y1="1" x2="4" y2="5"/>', 5, (1, 1, 4, 5)),
    ('<polyline points="0,0 3,4 3 9"/>', 10, (0, 0, 3, 9)),
    ('<polygon points="0 0,3 4,0 4"/>', 12, (0, 0, 3, 4)),
    ('<path d="M1 1h2v2h-2z"/>', 8, (1, 1, 3, 3)),
    ('<circle r="0.1in"/>', 2 * math.pi * 9.6, (-9.6, -9.6, 9.6, 9.6)),
]
"""A shape, its length, and its box with y down; circles by their radius, ellipses by E(m)."""


@pytest.mark.parametrize(("inside", "length", "box"), SHAPES)
def test_each_shape(drawn, inside, length, box):
    """[SVG] chapter 9. Chords are 0.02 % of 10 shorter at the most; y is turned to point up."""
    (line,) = drawn(inside)

    assert _length(line) == pytest.approx(length, rel=2e-4)
    low, high = line.min(axis=0), line.max(axis=0)
    assert (low[0], -high[1], high[0], -low[1]) == pytest.approx(box, abs=1e-3)


NOTHING = ['<rect width="0" height="4"/>', '<circle r="0"/>', '<ellipse rx="3"/>', "<path/>",
           '<polygon points="1 2"/>', '<polyline points=""/>', "<defs><circle r='3'/></defs>",
           "<title>bird</title>", "<clipPath><circle r='3'/></clipPath>", "<!-- note -->",
           '<o:path xmlns:o="urn:other" d="M0 0h3"/>']  # fmt: skip


@pytest.mark.parametrize("inside", NOTHING)
def test_what_is_never_drawn(drawing, inside):
    """Nothing, and nothing said: definitions, notes, shapes without size."""
    found = drawing(inside)

    assert (found.paths, found.aside, found.notes) == ((), {}, ())


PLACES = [
    (f'<g transform="translate(10 20)"><g transform="rotate(90)">{LINE}</g></g>', (6, 23)),
    (f'<g transform="scale(2)"><a>{LINE}</a></g>', (6, 8)),
    (f'<defs><g id="l">{LINE}</g></defs><use href="#l" x="1" y="2"/>', (4, 6)),
    (f'<symbol id="l">{LINE}</symbol><use xlink:href="#l" transform="scale(2 1)" x="1"/>', (8, 4)),
    ('<line x2="3" visibility="hidden"/><switch><line x2="1" y2="1"/></switch>', (1, 1)),
]  # fmt: skip


@pytest.mark.parametrize(("inside", "end"), PLACES)
def test_transforms_of_groups_and_copies(drawn, inside, end):
    """[SVG] 7.6 and 5.6: the outermost comes last, a copy is shifted by its x and y first."""
    (line,) = drawn(inside)

    assert line[-1] * (1, -1) == pytest.approx(end)


MM = 0.001
UNITS = [
    ('width="100mm" height="50mm" viewBox="0 0 100 50"', "mm", MM),
    ('width="100mm" height="50mm" viewBox="-5 -5 400 200"', "mm", MM / 4),
    ('width="10cm" viewBox="0,0,100,50"', "cm", MM),
    ('width="100%" height="2in" viewBox="0 0 100 50"', "in", 0.0254 / 25),
    ('width="72pt" height="72pt" viewBox="0 0 10 10"', "pt", 0.00254),
    ('width="100mm" height="100mm" viewBox="0 0 100 50"', "mm", MM),
    ('width="960" height="480" viewBox="0 0 100 50"', "px", 9.6 * 0.0254 / 96),
    ('viewBox="0 0 100 50"', "px", 0.0254 / 96),
    ('width="100mm" height="50mm"', "px", 0.0254 / 96),
    ("", "px", 0.0254 / 96),
    ('width="100mm" height="50mm" viewBox="0 0 100 50" preserveAspectRatio="none"', "mm", MM),
]


@pytest.mark.parametrize(("head", "unit", "metres"), UNITS)
def test_the_unit_of_a_drawing(drawing, head, unit, metres):
    """[SVG] 7.8: the smaller scale of the two, unless it is stretched; a width in px says none."""
    found = drawing(LINE, head)

    assert found.unit == unit
    assert found.unit_m == pytest.approx(metres)
    assert found.falls


HEADS = ['viewBox="0 0 100"', 'viewBox="0 0 a b"', 'width="5em" viewBox="0 0 1 1"',
         'width="0mm" viewBox="0 0 1 1"', f'width="{"9" * 400}mm" viewBox="0 0 1 1"']  # fmt: skip


@pytest.mark.parametrize("head", HEADS)
def test_a_head_that_cannot_be_read(refused, head):
    """Sizes that are no sizes."""
    found, wanted, _ = refused(LINE, head)

    assert found.endswith("cannot be read")
    assert wanted == "path data, transforms and lengths as SVG has them"


def test_a_stretched_drawing_is_refused(refused):
    """[SVG] 7.8: circles in it would be ellipses."""
    head = 'width="100mm" height="100mm" viewBox="0 0 100 50" preserveAspectRatio="none"'

    assert refused(LINE, head) == (
        "it is drawn to one scale across and another one up",
        "one scale both ways",
        "save it without stretching",
    )


ASIDE = [
    ("<text>Heron</text><text/>", {"text": 2}),
    ('<image href="http://example.org/x.png"/>', {"image": 1}),
    ("<script>alert(1)</script>", {"script": 1}),
    ("<foreignObject/>", {"foreign object": 1}),
    (f'<svg viewBox="0 0 1 1">{LINE}</svg>', {"drawing within the drawing": 1}),
    (f'<symbol id="s" viewBox="0 0 1 1">{LINE}</symbol><use href="#s"/>',
     {"symbol fitted to a box": 1}),
    ('<use href="other.svg#bird"/><use href="#nowhere"/><use/>',
     {"copy of what the file lacks": 3}),
    (f'<g display="none">{LINE}{LINE}</g>', {"hidden thing": 1}),
    ('<line style="stroke:red; display : none !important" x2="3"/>', {"hidden thing": 1}),
    ('<line visibility="collapse" x2="3"/>', {"hidden thing": 1}),
    ("<blob/>", {'thing called "blob"': 1}),
]  # fmt: skip


@pytest.mark.parametrize(("inside", "aside"), ASIDE)
def test_what_is_left_aside_is_counted(drawing, inside, aside):
    """No outline is in it, or none that can be followed; nothing is fetched."""
    found = drawing(inside)

    assert (found.paths, found.aside) == ((), aside)


NOTED = [
    ("<style>.a{display:none}</style>" + LINE,
     "Its style sheet is not read: what that hides or moves counts as drawn."),
    ("<g>" + LINE.replace("/>", ' clip-path="url(#c)"/>') * 2 + "</g>",
     "What is clipped or masked counts whole."),
    (LINE.replace("/>", ' style="mask:url(#m)"/>'), "What is clipped or masked counts whole."),
]  # fmt: skip


@pytest.mark.parametrize(("inside", "note"), NOTED)
def test_what_is_not_followed_is_said_once(drawing, inside, note):
    """The lines count as they are drawn."""
    found = drawing(inside)

    assert found.notes == (note,)
    assert found.paths


def test_a_style_sheet_of_colours_is_not_spoken_of(drawing):
    """It moves and hides nothing."""
    assert drawing("<style>.a{fill:red}</style><style/>" + LINE).notes == ()


@pytest.mark.parametrize("how", ['style="transform:rotate(3deg)"', 'transform-origin="3 4"'])
def test_a_move_by_style_is_refused(refused, how):
    """It would be drawn in the wrong place."""
    assert refused(f"<g {how}>{LINE}</g>") == (
        "it moves things by a style, which is not read",
        "transforms as attributes",
        "save it as plain SVG",
    )


BAD = ['<circle r="10%"/>', '<circle r="1em"/>', '<polyline points="1 2 3"/>', '<line x2="a"/>',
       '<path d="M0 0L1"/>', '<g transform="spin(3)"/>']  # fmt: skip


@pytest.mark.parametrize("inside", BAD)
def test_shapes_that_cannot_be_read(refused, inside):
    """Percentages, units of type, odd numbers of numbers."""
    assert refused(inside)[0].endswith("in it cannot be read")


PLAIN = ("a drawing saved as plain SVG", "save it as plain SVG")
LAUGHS = "".join(f'<!ENTITY l{i} "{f"&l{i - 1};" * 10}">' for i in range(1, 10))
FILES = [
    (f'<!DOCTYPE svg [<!ENTITY l0 "ha">{LAUGHS}]><svg>&l9;</svg>',
     "it declares entities or calls for other files, which is not followed"),
    ('<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]><svg><text>&x;</text></svg>',
     "it declares entities or calls for other files, which is not followed"),
    ("<html/>", "it is not an SVG drawing"),
    ("<svg", "it is not whole ("),
    ("", "it is not whole ("),
    ("<svg>&x;</svg>", "it is not whole ("),
    ('<?xml version="1.0" encoding="klingon"?><svg/>',
     "it is not whole ("),
]  # fmt: skip


@pytest.mark.parametrize(("text", "words"), FILES)
def test_files_that_are_not_drawings(found, text, words):
    """A thousand million laughs, files of this machine, other formats, half a file."""
    file = found("a.svg", text.encode() or b" ")
    if not text:
        file.path.write_bytes(b"")

    with pytest.raises(FileError) as caught:
        read_svg(file)

    said = caught.value  # what the parser of XML says goes on in its brackets
    assert (said.found[: len(words)], said.expected, said.advice) == (words, *PLAIN)


def test_the_usual_document_type_is_read(found):
    """Many drawing programs name the DTD of SVG 1.1; it is not fetched."""
    head = ('<?xml version="1.0"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" '
            '"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">')  # fmt: skip

    assert read_svg(found("a.svg", f"{head}<svg>{LINE}</svg>".encode())).paths


DEEP = (
    f"its groups and copies lie more than {svg.DEEPEST} deep, or within themselves",
    "the outline alone",
    "ungroup it, and save it again",
)
MANY = (
    f"it draws more than {svg.MOST_ELEMENTS:,} things",
    "the outline alone",
    "take out what is not part of the outline",
)


def test_groups_without_end_are_refused(refused):
    """Before they are walked through."""
    assert refused("<g>" * 5000 + LINE + "</g>" * 5000) == DEEP


@pytest.mark.parametrize("inside", ['<g id="a"><use href="#a"/></g>',
                                    '<use id="a" href="#b"/><use id="b" href="#a"/>'])  # fmt: skip
def test_copies_of_themselves_are_refused(refused, inside):
    """Directly, or in a circle."""
    assert refused(inside) == DEEP


def test_copies_of_copies_are_counted(refused):
    """Ten times ten times ten ... : a few lines that would be a thousand million."""
    layers = "".join(
        f'<g id="a{i}">{f"<use href=%#a{i - 1}%/>" * 10}</g>'.replace("%", '"')
        for i in range(1, 10)
    )

    assert refused(f'<defs><g id="a0">{LINE}</g>{layers}</defs><use href="#a9"/>') == MANY


def test_many_copies_in_one_symbol_are_counted(refused):
    """What a symbol holds counts each time."""
    symbol = f'<symbol id="s">{LINE * 1000}</symbol>'

    assert refused(symbol + '<use href="#s"/>' * 101) == MANY


def test_many_elements_are_refused(refused):
    """While the file is read, not after."""
    assert refused("<g/>" * 100_001) == MANY


def test_huge_transforms_are_refused(refused):
    """Scale upon scale ends beyond what a number can be."""
    assert refused('<g transform="scale(1e9)">' * 40 + LINE + "</g>" * 40)[0] == (
        "some of its coordinates are not numbers, or far too large"
    )
