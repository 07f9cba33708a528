"""Rows of the parts sheet resolved: sizes, places, sections, repeats in a mirror, one table.

[SHS] EN 10219-2, as quoted: SHS 60x60x4 has 855 mm2 and weighs 6.71 kg/m.
"""

import math

import numpy as np
import pytest

from estimator.files.shelf import Shelf
from estimator.geometry.chunks import chunks, placed
from estimator.geometry.measures import OVER, Dims
from estimator.geometry.placing import copies
from estimator.geometry.shapes import SHAPES, measure
from estimator.reference.finishes import find_finish
from estimator.reference.sections import find_section
from estimator.resolve.layers import Maker
from estimator.resolve.modelled import Modeller
from estimator.resolve.names import Names
from estimator.resolve.parts import (
    DIMENSIONS,
    Known,
    columns,
    repeats,
    resolve_parts,
    section_layer,
)
from estimator.resolve.records import Assembly, Layer, Part

ONE_DISC = """
    part | name   | assembly | count | shape | diameter | bore  | made of | gauge
    D1   | a disc | dial     | 2     | disc  | 1 m      | 20 cm | copper  | 1.5 mm
    """


def _one(found):
    (part,) = found.columns.parts
    return part


def test_a_row_becomes_a_part_in_si(resolved):
    """Sizes stand in the order of the table, blank ones as NaN."""
    part = _one(resolved({"parts": ONE_DISC}))

    assert (part.key, part.name, part.assembly, part.count) == ("D1", "a disc", "dial", 2)
    given = dict(zip(DIMENSIONS, part.dims, strict=True))
    assert (given["diameter"], given["bore"]) == pytest.approx((1.0, 0.2))
    assert sum(math.isnan(size) for size in part.dims) == 7
    assert str(part.cell) == "parts!A2"


def test_blank_cells_have_stated_meanings(resolved):
    """At the origin, as drawn, made, not hammered, whole, in the wind."""
    part = _one(resolved({"parts": ONE_DISC}))

    assert (part.at_m, part.angles_rad, part.pointing) == ((0.0,) * 3, (0.0,) * 3, ("", ""))
    assert (part.relief, part.cut_away, part.set_out) == (1.0, 0.0, ("", 0.0, 0.0))
    assert (part.in_wind, part.confidence, part.get_by, part.pieces) == (True, "drawn", "make", 1)
    assert math.isnan(part.price_each)


PLACED = """
    part | assembly | count | shape | length | width | made of | gauge | across | up | out | turn | tip | swing | along | faces | relief | cut away | in wind | confidence | get by | price each | pieces | set out | spread | start
    L1   | dial     | 12    | leaf  | 1 m    | 0.5 m | copper  | 1 mm  | 1 m    | 2 m | 3 in | 90  | 10  | -5    | up    | out   | 1.25   | 30 %     | no      | guess      | rack   | 12.5       | 3      | ring    | 2 m    | 15
    """  # noqa: E501 - one row with every column filled


def test_a_row_keeps_everything_that_was_typed(resolved):
    """Relief and cutting away are kept apart: one gains skin, the other loses outline and mass."""
    found = resolved({"parts": PLACED})
    part = _one(found)

    assert part.at_m == pytest.approx((1.0, 2.0, 0.0762))
    assert np.degrees(part.angles_rad) == pytest.approx((90, 10, -5))
    assert part.pointing == ("up", "out")
    assert (part.relief, part.cut_away, part.in_wind) == (1.25, 0.3, False)
    assert (part.confidence, part.get_by, part.price_each, part.pieces) == (
        "guess",
        "rack",
        12.5,
        3,
    )
    assert part.set_out == ("ring", 2.0, pytest.approx(math.radians(15)))
    assert (found.columns.relief, found.columns.cut_away) == ([1.25], [0.3])
    assert found.columns.in_wind == [False]


def test_what_is_bought_is_got_by_buying(resolved):
    """Unless the row says that it lies on the rack."""
    headings = "part | assembly | count | shape | mass each | get by"
    rows = "M1 | dial | 1 | bought | 2 kg | \nM2 | dial | 1 | bought | 2 kg | rack"
    found = resolved({"parts": f"{headings}\n{rows}"})

    assert [part.get_by for part in found.columns.parts] == ["buy", "rack"]


def test_a_count_of_zero_parks_the_row(resolved, said):
    """It is not looked at, so what is wrong in it does no harm."""
    parked = ONE_DISC.replace("| 2     |", "| 0     |").replace("copper", "coper")
    found = resolved({"parts": parked})

    assert found.columns.parts == ()
    assert found.accounts["parts"].parked == 1
    assert said(found, "refused") == ""


def test_no_part_at_all_makes_an_empty_table(resolved):
    """Every column is there, with no row."""
    found = resolved({"parts": ONE_DISC.replace("| 2     |", "| 0     |")}).columns

    assert (found.rotation.shape, found.at_m.shape) == ((0, 3, 3), (0, 3))
    assert len(found.dims.length_m) == len(found.count) == len(found.assembly) == 0
    assert found.shape_rows == {}


def test_an_unknown_shape_is_refused_with_the_list(resolved, said):
    """Reading finds it, and the row does not count."""
    found = resolved({"parts": ONE_DISC.replace("| disc  |", "| dics |")})

    assert said(found, "refused").startswith(
        'parts!E2 (D1): "dics" is not a choice here\n    wanted: one of: sheet, disc, ring, sector'
    )
    assert said(found, "refused").endswith("\n    did you mean disc?")


SIZES = [
    ("disc", "bore | 1 m", "the shape disc needs a diameter above zero", "diameter"),
    ("ring", "diameter | 1 m", "the shape ring needs a bore above zero", "bore"),
    (
        "ring",
        "diameter | 1 m | bore | 2 m",
        "the shape ring must have a bore smaller than its diameter",
        "bore",
    ),
    (
        "torus",
        "diameter | 1 m | end diameter | 600 mm",
        "the shape torus must have a tube (end diameter) thinner than half its diameter",
        "end diameter",
    ),
    (
        "leaf",
        "length | 1 m | width | 0.5 m | along | up | faces | up",
        "it cannot run along up and face up as well",
        "",
    ),
]


@pytest.mark.parametrize(("shape", "cells", "found", "size"), SIZES)
def test_what_cannot_be_made_is_refused(resolved, said, shape, cells, found, size):
    """Sizes are looked at before anything is measured."""
    headings, values = cells.split("|")[::2], cells.split("|")[1::2]
    table = (f"part|assembly|count|shape|made of|gauge|{'|'.join(headings)}\n"
             f"D1|dial|1|{shape}|copper|1 mm|{'|'.join(values)}")  # fmt: skip
    job = resolved({"parts": table})

    wanted = f"a value of {size} that fits the shape" if size else "two different axes"
    assert said(job, "refused") == (
        f"parts!A2 (D1): {found}\n    wanted: {wanted}\n"
        "    mend the row; see `estimator tables shapes`"
    )
    assert job.accounts["parts"].refused == 1
    assert job.columns.parts == ()


def test_a_layer_over_what_a_shape_lacks_is_refused(resolved, said):
    """A sheet is no solid, so a share of the solid means nothing."""
    table = "build-up|layer|material|over|amount\ncore|filling|softwood|solid|60 %"
    parts = "part|assembly|count|shape|length|width|made of\nS1|dial|1|run|1 m|1 m|core"
    found = resolved({"parts": parts, "build-ups": table})

    assert said(found, "refused") == (
        "parts!G2 (S1): the layer at build-ups!D2 cannot lie over this shape\n"
        "    mend one of the two\n"
        'build-ups!D2 (S1): the layer "filling" lies over solid, which the shape run lacks\n'
        "    wanted: one of: length, each\n"
        "    change it, or make S1 of something else"
    )


STRAPS = "build-up|layer|material|over|amount\n"


def test_a_layer_that_others_are_laid_with_is_only_asked_about(resolved, said):
    """Its row is used, though not for the part that lacks what it lies over."""
    parts = "part|assembly|count|shape|length|width|depth|made of\n"
    found = resolved({
        "parts": parts + "E1|dial|1|ellipsoid|1 m|1 m|1 m|clad\nB1|dial|1|box|1 m|1 m|1 m|Clad",
        "build-ups": STRAPS + "clad|skin|copper|one face|1 mm\nclad|straps|copper|length|0.6 kg/m",
    })  # fmt: skip

    assert said(found, "refused") == (
        "parts!H2 (E1): the layer at build-ups!D3 cannot lie over this shape\n"
        "    mend one of the two"
    )
    assert (
        'build-ups!D3 (E1): the layer "straps" lies over length, which the shape ellipsoid lacks\n'
        "    wanted: one of: one face, both faces, whole outside, solid, each\n"
        "    change it, or make E1 of something else"
    ) in said(found, "question")
    assert [part.key for part in found.columns.parts] == ["B1"]
    assert (found.accounts["parts"].refused, found.accounts["build-ups"].refused) == (1, 0)


LACKING = [
    (
        "ellipsoid|1 m|1 m|1 m||3 kg/m",
        (
            "parts!I2 (E1): a mass by the metre needs a length, which the shape ellipsoid lacks\n"
            "    wanted: a mass each, or a shape that has a length\n"
        ),
    ),
    (
        "run|1 m|||copper|",
        (
            "parts!H2 (E1): a plain material needs a solid, which the shape run lacks\n"
            "    wanted: a mass each, a mass by the metre, or a build-up\n"
        ),
    ),
]


@pytest.mark.parametrize(("cells", "expected"), LACKING)
def test_what_a_part_says_itself_is_told_at_its_own_cell(resolved, said, cells, expected):
    """Not at its mark, and in the words of that column."""
    parts = "part|assembly|count|shape|length|width|depth|made of|kg per m\n"
    found = resolved({"parts": f"{parts}E1|dial|1|{cells}"})

    assert said(found, "refused") == f"{expected}    mend the row; see `estimator tables shapes`"


@pytest.mark.parametrize("shape", sorted(set(SHAPES) - {"run", "bought", "section"}))
def test_a_gauge_and_a_finish_can_lie_on_every_other_shape(shape):
    """So a part is never told that it lacks what its gauge or its finish lies over."""
    sample = measure(shape, _sizes(shape))

    assert sample.over("whole outside") is not None
    assert sample.over("one face") is not None


MANY = "part|assembly|count|shape|length|diameter|made of|set out|spread|pieces\n"
TOO_MANY = [
    (
        "10001|rod|1 m|9 mm|copper|ring|1 m|",
        (
            "parts!C2 (R1): 10001 copies cannot be set out one by one\n"
            "    wanted: 10000 at most\n"
            "    leave set out blank, or make fewer rows of it"
        ),
    ),
    (
        "1|rod|1 m|9 mm|copper|||10001",
        (
            "parts!J2 (R1): 10001 pieces cannot be laid out one by one\n"
            "    wanted: 10000 at most\n"
            "    look whether that is what you mean"
        ),
    ),
    ("10000|rod|1 m|9 mm|copper|row|1 m|10000", ""),
    ("10001|rod|1 m|9 mm|copper|||", ""),
]


@pytest.mark.parametrize(("cells", "expected"), TOO_MANY)
def test_a_row_may_not_stand_for_too_many_things(resolved, said, cells, expected):
    """A slip of the keyboard would keep the program busy for hours."""
    found = resolved({"parts": f"{MANY}R1|dial|{cells}"})

    assert said(found, "refused") == expected


BAR = "part|assembly|count|shape|section|made of|length|gauge|finish|mass each|kg per m\n"


def test_a_section_weighs_by_the_metre(resolved):
    """[SHS] prints 6.71 kg/m; its area times 7850 kg/m3 agrees to 0.1 %, as printed."""
    part = _one(resolved({"parts": BAR + "A1|dial|1|section|shs60x60x4|S275|2 m||||"}))
    (layer,) = part.layers

    assert (layer.name, layer.over, layer.form, layer.gauge) == (
        "section", "length", "bar", "SHS 60x60x4"
    )  # fmt: skip
    assert layer.mass_per_size_kg == pytest.approx(6.71, rel=1e-3)
    assert layer.amount == "SHS 60x60x4, 6.71 kg/m"
    assert part.dims[:3] == pytest.approx((2.0, 0.06, 0.06))


def test_a_section_of_another_metal_weighs_by_its_area(resolved):
    """Aluminium at 2700 kg/m3 (EN 1999-1-1, 3.2.5, as quoted) over the 855 mm2 of [SHS]."""
    part = _one(resolved({"parts": BAR + "A1|dial|1|section|SHS 60x60x4|aluminium|2 m||||"}))

    assert part.layers[0].mass_per_size_kg == pytest.approx(855e-6 * 2700)


@pytest.mark.parametrize(
    ("mass", "over", "size"), [("9 kg|", "each", 9.0), ("|5 kg/m", "length", 5.0)]
)
def test_a_typed_mass_goes_before_that_of_the_section(resolved, mass, over, size):
    """The merchant's figure counts; the section still says how thick the bar is."""
    part = _one(resolved({"parts": BAR + f"A1|dial|1|section|SHS 60x60x4||2 m|||{mass}"}))

    assert [(x.over, x.mass_per_size_kg) for x in part.layers] == [(over, size)]
    assert part.dims[1] == pytest.approx(0.06)


def test_a_finish_on_a_section_goes_by_its_girth(resolved, library):
    """Paint on a metre of bar covers its girth: kg/m2 times the girth the tables print."""
    row = BAR + "A1|dial|1|section|SHS 60x60x4|S275|2 m||alkyd paint system||"
    metal, coat = _one(resolved({"parts": row})).layers
    girth_m = find_section(library, "SHS 60x60x4").girth_m
    kg_m2 = find_finish(library, "alkyd paint system").mass_likely_kg_m2

    assert (metal.over, coat.over) == ("length", "length")
    assert coat.mass_per_size_kg == pytest.approx(kg_m2 * girth_m)


def test_a_finish_on_a_section_of_unknown_girth_is_asked_about(resolved, said):
    """Nothing is added in silence, and nothing left out in silence."""
    row = BAR + "A1|dial|1|section|L 50x50x5|S275|2 m||alkyd paint system||"
    found = resolved({"parts": row})

    assert len(_one(found).layers) == 1
    assert "parts!I2 (A1): the area under this finish over length is not known: no mass" in said(
        found, "question"
    )


REFUSED_BARS = [
    (
        "SHS 60x60x7x|S275",
        (
            'parts!E2 (A1): "SHS 60x60x7x" is not in tables/sections.csv\n'
            "    wanted: a section of the tables\n"
            "    type one of: SHS 60x60x5 (8.13 kg/m), SHS 60x60x4 (6.71 kg/m), SHS 60x60x3 "
            "(5.19 kg/m)"
        ),
    ),
    (
        "|S275",
        (
            'parts!E2 (A1): "" is not in tables/sections.csv\n'
            "    wanted: a section of the tables\n"
            "    see `estimator tables sections`, or add a row in a folder of your own"
        ),
    ),
    (
        "SHS 60x60x4|stel",
        (
            'parts!F2 (A1): "stel" is not in tables/materials.csv\n'
            "    wanted: a material of the tables\n"
            "    type one of: mild steel (7850 kg/m3), slate (2800 kg/m3), sapele (640 kg/m3)"
        ),
    ),
    (
        "SHS 60x60x4|clad",
        (
            "parts!F2 (A1): a section is of one material all through\n"
            "    wanted: a material\n"
            "    type the material of the section"
        ),
    ),
    (
        "SHS 60x60x4|skin",
        (
            "parts!F2 (A1): a section is of one material all through\n"
            "    wanted: a material\n"
            "    type the material of the section"
        ),
    ),
]


@pytest.mark.parametrize(("cells", "expected"), REFUSED_BARS)
def test_a_section_needs_a_name_and_one_metal(resolved, said, cells, expected):
    """A build-up of skins has no mass by the area of a section."""
    skin = (
        "build-up|layer|material|over|amount\nskin|sheet|copper|one face|1 mm\n"
        "clad|bar|steel|solid|100 %\nclad|sheet|copper|one face|1 mm"
    )
    found = resolved({"parts": BAR + f"A1|dial|1|section|{cells}|2 m||||", "build-ups": skin})

    assert said(found, "refused") == expected
    assert found.columns.parts == ()


def test_a_section_may_be_a_share_of_the_solid(resolved):
    """A build-up with one solid layer weighs as that share of the section."""
    half = "build-up|layer|material|over|amount\nhalf|bar|steel|solid|50 %"
    part = _one(resolved({"parts": BAR + "A1|dial|1|section|SHS 60x60x4|half|2 m||||",
                          "build-ups": half}))  # fmt: skip

    assert part.layers[0].mass_per_size_kg == pytest.approx(6.71 / 2, rel=1e-3)


def test_a_section_layer_names_both_of_its_sources(library):
    """The density is one document's, the area another's."""
    solid = Layer("solid", "mild steel", "solid", 7850.0, sources=("EN 1991-1-1",))
    (layer,) = section_layer(find_section(library, "SHS 60x60x4"), solid)

    assert layer.sources == ("EN 1991-1-1", "EN 10219-2")


def test_the_table_has_a_row_for_each_part(resolved):
    """Parts of one shape are found together, and each knows its assembly."""
    rows = (
        ONE_DISC
        + """
    R1   | a ring | hand     | 1     | ring  | 1 m      | 20 cm | copper  | 1.5 mm
    D2   | a disc | hand     | 3     | disc  | 2 m      |       | copper  | 1.5 mm
    """
    )
    found = resolved({"parts": rows})

    assert [a.key for a in found.assemblies] == ["dial", "hand"]
    assert found.columns.assembly.tolist() == [0, 1, 1]
    assert found.columns.count.tolist() == [2.0, 1.0, 3.0]
    assert {key: rows.tolist() for key, rows in found.columns.shape_rows.items()} == {
        "disc": [0, 2], "ring": [1]
    }  # fmt: skip
    assert found.columns.dims.diameter_m.tolist() == [1.0, 1.0, 2.0]


def test_a_row_may_stand_for_nothing(library, tmp_path):
    """Without rows there are neither parts nor problems."""
    known = Known(Names(), library, Maker(library, {}), Modeller(Shelf(tmp_path)))
    assert resolve_parts([], known) == ([], [])


MIRROR = np.diag([-1.0, 1.0, 1.0])
EXAMPLE = Dims.of(
    length_m=1.5, width_m=0.6, depth_m=0.2, diameter_m=1.1, bore_m=0.3, end_width_m=0.1,
    wall_m=0.01, angle_rad=2.0,
)  # fmt: skip
END_DIAMETERS_M = {"hoop": math.nan, "torus": 0.2, "cone": 0.4, "formed": 0.1}
DIAMETERS_M = {"formed": 0.3, "rod": 0.2, "tube": 0.2, "cone": 0.5}
PLACINGS = [
    ("", "", (0.3, -0.4, 0.7)),
    ("up", "out", (0.3, -0.4, 0.7)),
    ("out", "up", (-1.0, 0.2, 0.1)),
    ("across", "up", (0.0, 0.5, -0.6)),
]


def _sizes(shape):
    end_m = np.array([END_DIAMETERS_M.get(shape, math.nan)])
    diameter_m = np.array([DIAMETERS_M.get(shape, 1.1)])
    return EXAMPLE._replace(end_diameter_m=end_m, diameter_m=diameter_m)


def _pair(shape, along="", faces="", angles_rad=(0.0, 0.0, 0.0), set_out=("", 0.0, 0.0)):
    """Return a part and its mirror image, as the two rows of a table."""
    dims = tuple(float(values[0]) for values in _sizes(shape))
    part = Part(key="P", name="P", assembly="left", count=3, shape=shape, dims=dims,
                pointing=(along, faces), angles_rad=angles_rad, at_m=(0.4, 0.5, 0.6),
                set_out=set_out)  # fmt: skip
    pair = [Assembly(key="left"), Assembly(key="right", same_as="left", mirrored=True)]
    return columns([part, *repeats([part], pair)], pair)


def _reach(shape, rotation, at_m, directions):
    """Return how far a placed part reaches in each direction."""
    pieces = placed(chunks(shape, _sizes(shape)), rotation, at_m)
    reach_m = pieces.points_m @ directions.T
    if pieces.axes_m is not None:
        reach_m = reach_m + np.linalg.norm(
            np.swapaxes(pieces.axes_m, -1, -2) @ directions.T, axis=-2
        )
    return reach_m.reshape(-1, len(directions)).max(axis=0)


@pytest.mark.parametrize(("along", "faces", "angles_rad"), PLACINGS)
@pytest.mark.parametrize("shape", SHAPES)
def test_a_mirrored_part_is_its_mirror_image(shape, along, faces, angles_rad):
    """Middle and spread of every region, and the reach every way, are those in the mirror.

    Rotations stay rotations. Circles are polygons of 72 sides, so that reaches agree to 0.1 %.
    """
    pair = _pair(shape, along, faces, angles_rad)
    first, second = pair.rotation

    assert np.linalg.det(second) == pytest.approx(1.0)
    assert pair.at_m.tolist() == [[0.4, 0.5, 0.6], [-0.4, 0.5, 0.6]]
    found = measure(shape, _sizes(shape))
    for region in filter(None, map(found.over, OVER)):
        middle_m, spread_m2 = region.middle_m[0], region.second_m2[0]
        assert second @ middle_m == pytest.approx(MIRROR @ first @ middle_m, abs=1e-12)
        assert second @ spread_m2 @ second.T == pytest.approx(
            MIRROR @ first @ spread_m2 @ first.T @ MIRROR, abs=1e-12
        )
    directions = np.random.default_rng(7).normal(size=(200, 3))
    directions /= np.linalg.norm(directions, axis=1, keepdims=True)
    reach_m = _reach(shape, second, pair.at_m[1], directions)
    seen_m = _reach(shape, first, pair.at_m[0], directions @ MIRROR)
    assert reach_m == pytest.approx(seen_m, abs=2e-3)


@pytest.mark.parametrize(
    "set_out", [("row", 2.0, 0.0), ("ring", 2.0, 0.3), ("scattered", 2.0, 0.0)]
)
def test_copies_are_mirrored_as_a_whole(set_out):
    """Each copy of the mirrored part is the mirror image of a copy of the first."""
    pair = _pair("sector", angles_rad=(0.3, 0.2, 0.1), set_out=set_out)
    middle_m = measure("sector", _sizes("sector")).over("one face").middle_m[0]
    seen = []
    for row, part in enumerate(pair.parts):
        kind, spread_m, start_rad = part.set_out
        stand = copies(kind, part.count, spread_m, start_rad)
        places_m = pair.at_m[row] + stand.offsets_m
        middles_m = places_m + stand.rotations @ pair.rotation[row] @ middle_m
        seen.append(np.hstack((places_m, middles_m)))

    mirrored = seen[0] * np.array([-1, 1, 1, -1, 1, 1])
    gaps_m = np.linalg.norm(seen[1][:, None] - mirrored[None], axis=2).min(axis=1)
    assert gaps_m == pytest.approx(0.0, abs=1e-12)


def test_a_plain_repeat_is_the_same_again(resolved):
    """Only its name and its assembly differ."""
    found = resolved({"parts": PLACED, "assemblies": "assembly|same as\ndial|\ntwin|dial"})

    assert np.array_equal(found.columns.rotation[0], found.columns.rotation[1])
    assert np.array_equal(found.columns.at_m[0], found.columns.at_m[1])
    assert found.columns.assembly.tolist() == [0, 1]


def test_a_mirrored_repeat_is_asked_for_in_the_workbook(resolved):
    """A column of the assemblies sheet turns the repeat over, left to right."""
    sheet = "assembly|same as|mirrored\ndial||\ntwin|dial|yes"
    found = resolved({"parts": PLACED, "assemblies": sheet})

    assert [part.mirrored for part in found.columns.parts] == [False, True]
    assert found.columns.at_m[:, 0] == pytest.approx([1.0, -1.0])
