"""The sheet with front, side and plan."""

import re

import pytest

from estimator.reports.views import (
    HEIGHT_MM,
    MOST_ITEMS,
    WIDTH_MM,
    assembly_sheet,
    items,
    key,
)


def numbers(path):
    """Return the coordinates of a path as pairs."""
    found = [float(n) for n in re.findall(r"-?\d+\.\d\d", path)]
    return list(zip(found[::2], found[1::2], strict=True))


def paths(svg, tip):
    """Return the places of each shape that carries a tip."""
    pattern = rf'<path d="([^"]*)"[^>]*><title>{re.escape(tip)}</title>'
    return [numbers(path) for path in re.findall(pattern, svg)]


def test_views_are_aligned_in_first_angle_projection(document):
    """The side stands right of the front at the same height, the plan below at the same width."""
    front, side, plan = paths(assembly_sheet(document).svg, "T35, ledge")
    xs, ys = [{x for x, _ in view} for view in (front, plan)], [{y for _, y in front}]
    ys.append({y for _, y in side})

    assert (min(xs[0]), max(xs[0])) == (min(xs[1]), max(xs[1]))
    assert (min(ys[0]), max(ys[0])) == (min(ys[1]), max(ys[1]))
    assert min(x for x, _ in side) > max(xs[0])
    assert min(y for _, y in plan) > max(ys[0])


def test_shapes_are_drawn_to_the_scale_told(document):
    """The ledge is 4.9 m long: at 1:40 that is 122.5 mm."""
    sheet = assembly_sheet(document)
    front, _, _ = paths(sheet.svg, "T35, ledge")

    assert sheet.scale == 40
    assert max(x for x, _ in front) - min(x for x, _ in front) == pytest.approx(122.5, abs=0.02)


def test_everything_lies_on_the_paper(document):
    """No line leaves the sheet."""
    for path in re.findall(r'<path d="([^"]*)"', assembly_sheet(document).svg):
        if "A" not in path:
            assert all(0 <= x <= WIDTH_MM and 0 <= y <= HEIGHT_MM for x, y in numbers(path))


def test_what_is_near_is_drawn_last(document):
    """The hand (0.305 m out) covers the dial face (0.21 m), whatever the order of the rows."""
    document["views"]["front"]["shapes"].reverse()
    svg = assembly_sheet(document).svg

    assert svg.index("T01, dial") < svg.index("T10, hand")


def test_a_patch_of_a_mesh_is_drawn_by_its_lines(document):
    """White without an outline of its own, then its lines: the outline wide, the rest narrow."""
    shape = document["views"]["front"]["shapes"][0]
    ring = shape["outer"]
    shape |= {
        "part": "M1",
        "depth_m": 9.0,
        "lines": [{"wide": True, "points": ring[:2]}, {"wide": False, "points": ring[1:3]}],
    }
    svg = assembly_sheet(document).svg

    white = svg.index('stroke="#fff" stroke-width="0.09" fill="#fff"')
    wide = svg.index('stroke="#000" stroke-width="0.35" fill="none"')
    narrow = svg.index('stroke="#000" stroke-width="0.18" fill="none"', wide)
    assert svg.index("M1, ") > white
    assert white < wide < narrow
    assert svg.count('stroke-width="0.35" fill="none"') == 1


def test_a_bracket_behind_is_shown_dashed(document):
    """Every bracket has its dashed outline in every view."""
    hidden = assembly_sheet(document).svg.count('stroke-dasharray="2.2 0.55"')

    assert hidden == 3 * 6


@pytest.mark.parametrize(
    "words",
    [
        "Front, from the street", "Side, from the left", "Plan, from above",
        "4\u202f900",  # over all across
        "2\u202f960",  # over all up
        "789",  # centre of gravity below the datum
        "180",  # and out from the wall
        "5\u202f870",  # lowest point above the pavement, as the document gives it
        "G 446\u202fkg", "D1", "L2", "4",
        "D1, D2", "pull-out 2.71\u202fkN", "shear 1.01\u202fkN",
        "projection 1\u202f050", "pavement",
    ],
)  # fmt: skip
def test_the_sheet_says(document, words):
    """Dimensions in millimetres from the document's own numbers; every mark has its name."""
    assert f">{words}<" in assembly_sheet(document).svg


def test_items_are_numbered_in_the_order_listed(document):
    """Four assemblies, the hand once though it has two positions."""
    assert [(number, row["assembly"]) for number, row in items(document)] == [
        ("1", "dial"), ("2", "hand"), ("3", "bird"), ("4", "ledge"),
    ]  # fmt: skip


def test_of_many_items_the_heaviest_are_numbered(document):
    """More numbers than a sheet can hold would hide what they name."""
    row = document["assemblies"][0]
    document["assemblies"] = [
        {**row, "assembly": f"A{i}", "mass_kg": float(i)} for i in range(MOST_ITEMS + 5)
    ]

    assert [row["assembly"] for _, row in items(document)] == [
        f"A{i}" for i in range(5, MOST_ITEMS + 5)
    ]


def test_a_sweep_is_drawn_in_long_dashes_and_dots(document):
    """The hand sweeps in all three views; datum and pavement have dash-dot lines of their own."""
    with_sweep = assembly_sheet(document).svg.count('stroke-dasharray="4.3 0.7 0.4 0.7"')
    for view in document["views"].values():
        view["sweeps"] = []

    assert assembly_sheet(document).svg.count('stroke-dasharray="4.3 0.7 0.4 0.7"') == (
        with_sweep - 3
    )


def test_a_pavement_near_enough_is_drawn_to_scale(document):
    """At 1:40 a pavement 3.43 m below the top is 85.75 mm below its 14.5; 0.2 m over it, 5."""
    document["marks"]["ground_m"] = -2.2
    document["marks"]["limits"][0]["value_m"] = 0.2
    svg = assembly_sheet(document).svg
    levels = {
        round(line[0][1], 2)
        for line in map(numbers, re.findall(r'<path d="([^"]*)"', svg))
        if len(line) == 2 and line[0][1] == line[1][1] and line[1][0] - line[0][0] > 20
    }

    assert {100.25, 95.25} <= levels
    assert ">headroom 200<" in svg


def test_a_pavement_far_down_is_drawn_broken(document):
    """7.6 m down at 1:40 would lie off the paper: wall and dimension are broken, 18 mm below."""
    svg = assembly_sheet(document).svg

    assert re.search(r'd="M[\d.]+ 106\.50L[\d.]+ 106\.50" stroke="#000" stroke-width="0\.5"', svg)


def phantoms(svg):
    """Return the places of each line that is drawn as a limit."""
    pattern = r'<path d="([^"]*)"[^>]*stroke-dasharray="4\.3 0\.7 0\.4 0\.7 0\.4 0\.7"'
    return [numbers(path) for path in re.findall(pattern, svg)]


def test_a_headroom_below_the_break_is_noted_and_not_drawn(document):
    """2.6 m above a pavement that is drawn too near has no true place on the paper."""
    svg = assembly_sheet(document).svg

    assert ">not drawn: headroom 2\u202f600<" in svg
    assert len(phantoms(svg)) == 1  # the projection


def test_a_headroom_above_the_break_is_drawn_where_it_is(document):
    """7.0 m above a pavement 7.6 m down is 0.6 m below the datum; top 1.23, at 1:40."""
    document["marks"]["limits"] = [{**document["marks"]["limits"][0], "value_m": 7.0}]
    svg = assembly_sheet(document).svg
    (line,) = phantoms(svg)

    assert [y for _, y in line] == pytest.approx(2 * [14.5 + 1830 / 40], abs=0.01)
    assert ">headroom 7\u202f000<" in svg


def test_a_headroom_without_a_pavement_is_noted(document):
    """Nothing says where the pavement is, so nothing is drawn above it."""
    document["marks"]["ground_m"] = None
    svg = assembly_sheet(document).svg

    assert ">not drawn: headroom 2\u202f600<" in svg
    assert ">pavement<" not in svg


def test_forces_stand_level_however_close_the_brackets(document):
    """A pull is drawn straight off the wall; only the thin leader to its words slants."""
    for i, mark in enumerate(document["marks"]["brackets"]):
        mark["at_m"] = [0.0, 0.1 * i, 0.0]
    document["wind"]["loads"] = []
    svg = assembly_sheet(document).svg
    forces = re.findall(r'd="([^"]*)" stroke="#b00020" stroke-width="0.4"', svg)

    assert len(forces) == 6
    for tail, tip in map(numbers, forces):
        assert tail[1] == tip[1]
        assert tail[0] < tip[0]


def test_many_brackets_at_one_height_are_counted(document):
    """Names that would run over the front view become a number of brackets."""
    for i in range(12):
        mark = {**document["marks"]["brackets"][0], "bracket": f"long name {i}"}
        document["marks"]["brackets"].append(mark)

    assert "14 brackets" in assembly_sheet(document).svg


def test_a_job_with_nothing_in_it_still_has_a_sheet(document):
    """No shapes, no brackets, no ground: views without content, and no failure."""
    for view in document["views"].values():
        view.update(box_m=[0.0, 0.0, 0.0, 0.0], shapes=[], sweeps=[])
    document["assemblies"] = []
    document["marks"] = {
        "cg_m": None, "brackets": [], "wind_centres": [], "limits": [], "ground_m": None,
    }  # fmt: skip

    assert "Front, from the street" in assembly_sheet(document).svg


def test_a_centre_off_to_the_side_is_dimensioned_both_ways(document):
    """Across and up from the datum, out from the wall; at the datum itself only the last."""
    document["marks"]["cg_m"] = [0.31, 0.42, 0.18]
    aside = assembly_sheet(document).svg
    document["marks"]["cg_m"] = [0.0, 0.0, 0.18]

    assert all(f">{words}<" in aside for words in ("310", "420", "180"))
    assert assembly_sheet(document).svg.count(">0<") == 1  # the start of the scale bar


def test_without_a_centre_of_gravity_the_whole_is_still_dimensioned(document):
    """Over all across and up; nothing is measured to a centre that is not known."""
    document["marks"]["cg_m"] = None
    svg = assembly_sheet(document).svg

    assert ">4\u202f900<" in svg
    assert ">789<" not in svg


def test_a_datum_outside_the_picture_is_not_dimensioned(document):
    """With the datum far off, the words give the place of the centre of gravity."""
    for view in ("front", "side"):
        document["views"][view]["box_m"][1] = -1.9
        document["views"][view]["box_m"][3] = -0.2
        document["views"][view]["sweeps"] = []
    document["marks"]["brackets"] = []

    assert ">789<" not in assembly_sheet(document).svg


def test_limits_without_a_place_on_the_paper_are_not_drawn(document):
    """A projection of 9 m is noted; a payload and a door are not of the wall."""
    document["marks"]["limits"] = [
        {"limit": "van payload", "value_m": None, "value_kg": 900.0, "source": "log book"},
        {"limit": "projection", "value_m": 9.0, "value_kg": None, "source": "licence"},
        {"limit": "door width", "value_m": 0.9, "value_kg": None, "source": "measured"},
    ]

    svg = assembly_sheet(document).svg
    assert not phantoms(svg)
    assert ">not drawn: projection 9\u202f000<" in svg
    assert "payload" not in svg
    assert "door" not in svg


def test_the_key_names_every_sign():
    """A sign that is drawn is explained."""
    words = ("centre of gravity", "wind centre", "bracket", "datum", "force", "moment")
    assert all(
        f">{name}<" in key()
        for name in (*words, "outline", "hidden bracket", "sweep of a mover", "limit")
    )
