"""Parts of shape `measured`: readings at full size, and what is refused or asked about.

[ARCH]  Archimedes, On the sphere and cylinder I, 33 and 34: skin of a ball pi d^2, volume
        pi d^3 / 6. A ball of 100 mm at 1:10 is one of 1 m.
[WATER] Fresh water at 20 C: 998.2 kg/m3 (IAPWS-95, from memory).
"""

import math

import numpy as np
import pytest

from estimator.core.problems import Cell
from estimator.resolve.maquettes import measured_model, with_spreads
from estimator.resolve.records import Layer

PART = "part | assembly | count | shape | mass each"
SKIN = Layer("skin", "copper", "whole outside", 10.0, thickness_m=0.0012)
CORE = Layer("core", "softwood", "solid", 480.0, cell=Cell("build-ups", "D", 3))
FILLING = Layer("contents", "sand", "inside", 1600.0, cell=Cell("parts", "H", 2))
BALL = """
    part | scale | reading           | value                  | spread
    T15  | 1:10  | foil mass         | 1.0681415022205297 g   | 3 %
    T15  |       | foil per m2       | 34 g/m2                | 4 %
    T15  | 1:10  | water displaced   | 522.6563 g             | 6 %
    T15  | 1:10  | shadow area front | 7853.981633974483 mm2  | 1 %
    T15  | 1:10  | shadow area side  | 78.53981633974483 cm2  |
    T15  | 1:10  | shadow area top   | 78.53981633974483 cm2  |
    """
"""[ARCH] 34 g/m2 x pi x 0.01 m2 of foil, pi / 6000 m3 of [WATER], pi/4 x 0.01 m2 of shadow."""
HUNG = "part | scale | reading | value | spread\n"


@pytest.fixture
def made(read):
    """Return a function that gives the model of one part, and the text of what is wrong."""

    def make(typed="", readings=BALL, layers=(), headings=""):
        parts = f"{PART}{headings}\nT15 | dial | 1 | measured | 1 kg{typed}"
        job = read({"parts": parts, "maquette": readings or HUNG})
        problems = []
        found = measured_model(
            job.rows["parts"][0], job.rows["maquette"], layers, problems,
            job.refused_rows["maquette"],
        )  # fmt: skip
        return found, problems

    return make


def texts(problems):
    """Return problems as they are printed."""
    return [str(problem) for problem in problems]


def test_the_readings_of_a_ball_give_the_ball(made):
    """[ARCH] and [WATER] to the digits typed: skin pi, volume pi / 6, a box of 1 m."""
    found, problems = made(layers=(SKIN, CORE))
    measures = found.model.measures

    assert problems == []
    assert (found.key, found.shape, found.scale) == ("maquette of T15", "measured", 10.0)
    assert measures.face.size == pytest.approx([math.pi])
    assert measures.outside.size == pytest.approx([math.pi])
    assert measures.faces.size == pytest.approx([2 * math.pi])
    assert measures.solid.size == pytest.approx([math.pi / 6], rel=1e-6)
    assert measures.box_m == pytest.approx(np.ones((1, 3)))
    assert measures.face.second_m2[0] == pytest.approx(np.eye(3) / 12)
    assert measures.face.middle_m == pytest.approx(np.zeros((1, 3)))


def test_layers_over_one_reading_err_together(made):
    """3 % and 4 % of the two foil readings are 5 % of any skin; 6 % of what is filled."""
    found, _ = made()
    gilding = Layer("gilding", "gold", "one face", 1.0)
    paint = Layer("paint", "paint", "both faces", 1.0)
    bolt = Layer("bolt", "steel", "each", 1.0)
    skin, core, gold, coat, each = with_spreads((SKIN, CORE, gilding, paint, bolt), found)

    for layer in (skin, gold, coat):
        ((cause, low, high, *_),) = layer.spreads
        assert cause == "foil on the maquette of T15"
        assert (low, high) == pytest.approx((0.05, 0.05))
    assert core.spreads[0].cause == "water displaced by the maquette of T15"
    assert core.spreads[0][1:3] == pytest.approx((0.06, 0.06))
    assert core.spreads[0].why == "water displaced: as typed"
    assert each is bolt


def test_what_is_exact_spreads_nothing(made):
    """Somebody typed that repeats did not lie apart."""
    found, _ = made(readings=BALL.replace("3 %", "0 %").replace("4 %", "0 %"))

    assert with_spreads((SKIN,), found) == (SKIN,)
    assert {*found.spreads} == {"solid", "inside"}


FACTS = (
    "Read on a model at 1:10: areas are taken 100 times, volumes 1000 times.",
    (
        "Skin 3.14 m2: one in twenty lies below 2.98, one in twenty above 3.3 "
        "(foil mass: as typed; foil per m2: as typed)."
    ),
    (
        "Volume 0.524 m3: one in twenty lies below 0.492, one in twenty above 0.555 "
        "(water displaced: as typed)."
    ),
    (
        "Shadow from the front 0.785 m2: one in twenty lies below 0.778, one in twenty above 0.793 "
        "(shadow area front: as typed)."
    ),
    (
        "Shadow from the side 0.785 m2: one in twenty lies below 0.746, one in twenty above 0.825 "
        "(shadow area side: program default)."
    ),
    (
        "Shadow from the top 0.785 m2: one in twenty lies below 0.746, one in twenty above 0.825 "
        "(shadow area top: program default)."
    ),
    "No hang line says more: across, up and out its weight is taken at the middle of its envelope.",
    (
        "Drawn, and met by the wind, as an ellipsoid 1000 x 1000 x 1000 mm (across, up, out) "
        "about the middle of its envelope, found from 3 of 3 shadows; "
        "its envelope is 1000 x 1000 x 1000 mm."
    ),
)


def test_what_there_is_to_say_is_printed(made):
    """Every figure with its ends, and where those come from."""
    found, _ = made()

    assert found.facts == FACTS


SIDES = " | length | width | depth | along"


def test_hang_lines_give_the_balance_point(made):
    """30 and 120 mm at 1:10 of a thing 1 m across and 2 m up: 0.2 left, 0.2 above the middle."""
    lines = (
        f"{HUNG}T15 | 1:10 | hang line across | 30 mm |\nT15 | 1:10 | hang line up | 120 mm | 4 mm"
    )
    found, problems = made(" | 1 m | 2 m | 1 m | across", lines, headings=SIDES)

    assert problems == []
    assert found.model.measures.each.middle_m[0] == pytest.approx([-0.2, 0.2, 0.0])
    assert found.facts[1:3] == (
        (
            "Balance point 300 mm from the left end, give or take 30 mm (program default), "
            "1200 mm from the foot, give or take 40 mm (as typed): "
            "that of the model, and of the thing itself where its weight is spread alike."
        ),
        "No hang line says more: the other ways its weight is taken at the middle of its envelope.",
    )


def test_three_hang_lines_say_all(made):
    """Nothing is left to be taken at the middle."""
    lines = HUNG + "\n".join(f"T15 | 1:10 | hang line {way} | 50 mm |" for way in
                             ("across", "up", "out"))  # fmt: skip
    found, _ = made(" | 1 m | 1 m | 1 m |", lines, headings=SIDES)

    assert not any("No hang line" in fact for fact in found.facts)


def test_readings_are_of_the_model_as_it_stands(made):
    """A thing 2 m long along up: its length is its height, and `up` is measured along it."""
    lines = (
        f"{HUNG}T15 | 1:10 | hang line up | 120 mm |\nT15 | 1:10 | shadow area front | 150 cm2 |"
    )
    found, problems = made(" | 2 m | 1 m | 0.5 m | up", lines, headings=SIDES)
    measures = found.model.measures

    assert problems == []
    assert measures.box_m[0] == pytest.approx([2.0, 1.0, 0.5])
    assert measures.each.middle_m[0] == pytest.approx([0.2, 0.0, 0.0])
    assert found.facts[-2].endswith(
        "found from 1 of 3 shadows; its envelope is 1000 x 2000 x 500 mm."
    )


def test_what_is_drawn_short_of_its_envelope_is_said(made):
    """Half of the ellipse in 1 x 1 m, pi/8: each half side lacks 1 - 1/sqrt 2 of 500 mm."""
    lines = f"{HUNG}T15 | 1:10 | shadow area front | 39.27 cm2 |"
    found, problems = made(" | 1 m | 1 m | 1 m |", lines, headings=SIDES)

    assert problems == []
    assert found.facts[-1] == "So it is drawn up to 146 mm short of where it ends."


def test_an_envelope_alone_is_enough_to_draw_it(made):
    """Its mass is given, so that no skin is wanted; crossed axes are told elsewhere."""
    found, problems = made(" | 1 m | 2 m | 1 m | out | out", "", headings=f"{SIDES} | faces")

    assert problems == []
    assert (found.model.measures.face, found.model.measures.solid) == (None, None)
    assert found.facts[-1].startswith("Drawn, and met by the wind, as an ellipsoid 1000 x 2000")
    assert "found from its envelope alone" in found.facts[-1]


def test_a_part_of_unknown_size_is_refused(made):
    """The sides and the shadows that are missing are named."""
    lines = f"{HUNG}T15 | 1:10 | shadow area front | 150 cm2 |"
    found, problems = made(" | 1 m | 2 m | |", lines, headings=SIDES)

    assert found is None
    assert texts(problems) == [
        (
            "parts!H2 (T15): nothing says how large it is: "
            "depth blank, no shadow area side and top\n"
            "    wanted: length, width and depth at full size, or all three shadow areas\n"
            "    type the sides here, or the shadows on the maquette sheet"
        ),
    ]


def test_a_hang_line_needs_the_side_it_is_measured_along(made):
    """The ellipsoid of its shadows does not end where the thing ends."""
    found, problems = made(readings=f"{BALL}\nT15 | 1:10 | hang line up | 50 mm |")

    assert found is None
    assert [problem.found for problem in problems] == [
        "the hang line up is measured from the foot, and this side is not given"
    ]
    assert problems[0].expected == "the width at full size"


def test_a_layer_over_what_nobody_read_is_refused(made):
    """Once for each reading, at the part, or at the cell that asks for it."""
    thin = Layer("paint", "paint", "both faces", 0.1)
    found, problems = made(" | 1 m | 2 m | 1 m |", "", (SKIN, thin, FILLING), SIDES)

    assert found is None
    assert texts(problems) == [
        (
            'parts!2 (T15): the layer "skin" lies over whole outside, '
            "and nobody read foil mass and foil per m2\n"
            "    wanted: foil mass and foil per m2 of T15 on the maquette sheet\n"
            "    type what was read, or give a mass each"
        ),
        (
            'parts!H2 (T15): the layer "contents" lies over the inside, '
            "and nobody read water displaced\n"
            "    wanted: water displaced of T15 on the maquette sheet\n"
            "    type what was read, or give a mass each"
        ),
    ]


def test_a_wrong_reading_is_told_at_the_part_as_well(made):
    """The part is not used, so that its own row must say why."""
    found, problems = made(readings=BALL.replace("34 g/m2", "34 g"))

    assert found is None
    assert [str(problem.cell) for problem in problems] == ["maquette!D3", "parts!D2"]
    assert problems[1].found == "the reading at maquette!D3 cannot be used; mend that first"


def test_a_reading_that_was_not_read_keeps_the_part_from_being_used(made):
    """It may be the repeat that changes the mean."""
    found, problems = made(readings=f"{BALL}\nT15 | 1:10 | water displaced | 800 |")

    assert found is None
    assert texts(problems) == [
        "parts!D2 (T15): row 8 of maquette, a reading on it, cannot be used; mend that first"
    ]


def test_readings_that_cannot_all_be_right_are_asked_about(made):
    """At the cell of the reading, with what may be wrong; the part is used as said."""
    found, problems = made(readings=BALL.replace("1.0681415022205297 g", "0.5 g"))

    assert found is not None
    assert {problem.severity for problem in problems} == {"question"}
    assert texts(problems) == [
        (
            "maquette!D2 (T15): round 0.492 m3 even a ball has a skin of 3.01 m2, "
            "and the foil came to 1.54 m2 at the most\n"
            "    look at the reading, its unit and the scale: 1:10 is a model a tenth as long"
        ),
        (
            "maquette!D2 (T15): what throws these shadows has a skin of 2.62 m2 at least, and the "
            "foil came to 1.54 m2 at the most\n"
            "    look at the reading, its unit and the scale: 1:10 is a model a tenth as long"
        ),
    ]


def test_a_size_that_is_hardly_meant_is_asked_about(made):
    """A ball of 100 mm at 1:1000 would be 100 m high: the scale of the part is the cell."""
    found, problems = made(
        " | 1:1000", BALL.replace("1:10 ", ""), headings=" | scale"
    )  # fmt: skip

    assert found.scale == 1000
    assert texts(problems) == [
        (
            "parts!F2 (T15): at full size it is 100 m at its longest\n"
            "    look at the reading, its unit and the scale: 1:10 is a model a tenth as long"
        )
    ]


def test_the_thickness_of_the_model_is_not_that_of_the_skin(made):
    """2 mm of clay times ten times ten: 200 mm of sheet do not go into a ball of 1 m."""
    thick = Layer("skin", "lead", "one face", 2000.0, thickness_m=0.2)
    found, problems = made(layers=(thick, CORE))

    assert found is not None
    assert texts(problems) == [
        (
            "parts!2 (T15): 3.14 m2 of sheet 200 mm thick take 0.597 m3, more than the whole body, "
            "0.524 m3\n"
            "    is that the thickness of the model's own material, times the scale?"
        )
    ]


def test_relief_on_top_of_foil_is_asked_about(made):
    """Foil follows what was modelled."""
    found, problems = made(" | 1.08", headings=" | relief")

    assert found is not None
    assert texts(problems) == [
        (
            "parts!F2 (T15): relief 1.08 is counted on top of the skin that was foiled\n"
            "    leave it blank if the model has the relief"
        )
    ]


def test_a_measured_part_is_weighed_by_its_readings(resolved, said):
    """All the way: a ball of softwood in a build-up, its readings as its model."""
    found = resolved({
        "parts": """
            part | assembly | count | shape    | made of
            T15  | dial     | 2     | measured | clad
            """,
        "build-ups": """
            build-up | layer | material | over          | amount
            clad     | core  | softwood | solid         | 100 %
            clad     | skin  | copper   | whole outside | 1.2 mm
            """,
        "maquette": BALL,
    })  # fmt: skip

    assert said(found, "refused") == ""
    (part,) = found.columns.parts
    core, skin = part.layers
    assert part.form == "maquette of T15"
    assert core.spreads[-1].cause == "water displaced by the maquette of T15"
    assert skin.spreads[-1].cause == "foil on the maquette of T15"
    measures = found.columns.measures(part.form, [0])
    assert measures.outside.size == pytest.approx([math.pi])
