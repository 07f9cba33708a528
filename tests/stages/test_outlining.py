"""Outlines of assemblies from any side: areas of squares worked by hand."""

import math

import numpy as np
import pytest
import shapely

from estimator.geometry.placing import about_axis
from estimator.geometry.silhouettes import FRONT, SIDE
from estimator.stages.outlining import Outliner

SQUARE = {"shape": "sheet", "length": "1 m", "width": "1 m", "made of": "copper", "gauge": "1 mm"}


@pytest.fixture(scope="module")
def outliner(steps):
    """Return a function that makes an outliner for parts."""

    def make(*parts, keep=None, **sheets):
        found = steps(upto="shapes", parts=parts, **sheets)
        columns = found["columns"]
        kept = np.ones(len(parts), dtype=bool) if keep is None else np.array(keep)
        return Outliner.of(columns, found["shapes"], kept)

    return make


def test_an_overlap_counts_once(outliner):
    """Two squares half over one another cover 1.5 m2 and add up to 2; the middle is between."""
    seen = outliner(SQUARE | {"part": "a"}, SQUARE | {"part": "b", "across": "0.5 m"}).seen(FRONT)

    assert seen[0].area_m2 == pytest.approx(1.5)
    assert seen[0].summed_m2 == pytest.approx(2.0)
    assert seen[0].middle_m == pytest.approx([0.25, 0.0])
    assert seen[0].low_m == pytest.approx([-0.5, -0.5])
    assert seen[0].high_m == pytest.approx([1.0, 0.5])


def test_the_middle_of_an_angle(outliner):
    """Three unit squares in an L at (0, 0), (1, 0), (0, 1): the middle is (1/3, 1/3)."""
    rows = [SQUARE | {"part": f"{a}{u}", "across": f"{a} m", "up": f"{u} m"}
            for a, u in ((0, 0), (1, 0), (0, 1))]  # fmt: skip

    assert outliner(*rows).seen(FRONT)[0].middle_m == pytest.approx([1 / 3, 1 / 3])


def test_a_cut_sheet_covers_what_is_left(outliner):
    """Half cut away, alone: 0.5 m2."""
    seen = outliner(SQUARE | {"part": "a", "cut away": "50 %"}).seen(FRONT)[0]

    assert seen.area_m2 == pytest.approx(0.5)
    assert seen.summed_m2 == pytest.approx(0.5)
    assert seen.middle_m == pytest.approx([0.0, 0.0])


def test_what_is_cut_away_is_closed_by_what_stands_behind(outliner):
    """Letters before a board: the board fills the gaps, so that the whole square is covered."""
    letters = SQUARE | {"part": "a", "cut away": "50 %", "out": "100 mm"}
    seen = outliner(letters, SQUARE | {"part": "b"}).seen(FRONT)[0]

    assert seen.area_m2 == pytest.approx(1.0)
    assert seen.summed_m2 == pytest.approx(1.5)


def test_a_cut_sheet_half_before_a_board(outliner):
    """1 m2 of board, and half of the half metre that stands out: 1.25; middle by moments.

    (1 x 0 + 0.5 x 0.5 x 0.75) / 1.25 = 0.15.
    """
    letters = SQUARE | {"part": "a", "cut away": "50 %", "across": "0.5 m"}
    seen = outliner(letters, SQUARE | {"part": "b"}).seen(FRONT)[0]

    assert seen.area_m2 == pytest.approx(1.25)
    assert seen.middle_m == pytest.approx([0.15, 0.0])


def test_all_cut_away_covers_nothing(outliner):
    """With nothing left there is nothing to see."""
    assert outliner(SQUARE | {"part": "a", "cut away": "100 %"}).seen(FRONT) == {}


def test_a_sheet_on_its_edge_covers_nothing(outliner):
    """Seen along the wall a flat sheet has no outline, and is left out."""
    assert outliner(SQUARE | {"part": "a"}).seen(SIDE) == {}


def test_parts_that_are_not_kept_are_not_seen(outliner):
    """A part out of the wind covers nothing."""
    kept = outliner(SQUARE | {"part": "a"}, SQUARE | {"part": "b", "across": "5 m"},
                    keep=[True, False])  # fmt: skip

    assert kept.seen(FRONT)[0].area_m2 == pytest.approx(1.0)


def test_nothing_kept_gives_no_shadows(outliner):
    """No part, no outline."""
    none = outliner(SQUARE | {"part": "a"}, keep=[False])
    parts, drawn = none.shadows(FRONT)

    assert (len(parts), len(drawn)) == (0, 0)
    assert none.seen(FRONT) == {}
    assert none.boxes([0], np.eye(3)) == {}


@pytest.fixture(scope="module")
def two(outliner):
    """Return an outliner of two assemblies, a square in each; b has a rod across as well."""
    rod = {"shape": "rod", "length": "3 m", "diameter": "20 mm", "made of": "mild steel"}
    return outliner(
        SQUARE | {"part": "a"},
        SQUARE | {"part": "b", "assembly": "b"},
        rod | {"part": "r", "assembly": "b", "up": "2 m"},
        assemblies=[{"assembly": "a"}, {"assembly": "b"}],
    )


def test_only_the_members_asked_for(two):
    """Outlines are by assembly; others are left out."""
    assert sorted(two.seen(FRONT)) == [0, 1]
    assert sorted(two.seen(FRONT, [1])) == [1]


@pytest.mark.parametrize("angle_deg", [0.0, 30.0, 60.0, 80.0])
def test_swinging_a_square_narrows_it(two, angle_deg):
    """Turned about up, a flat square shows the cosine of what it is."""
    turn = about_axis("up", math.radians(angle_deg))

    area_m2 = two.seen(FRONT, [0], turn)[0].area_m2
    assert area_m2 == pytest.approx(math.cos(math.radians(angle_deg)))


def test_boxes_enclose_every_part(two):
    """A square of 1 m and a rod of 3 m at 2 m up: from -1.5 to 1.5, -0.5 to 2.01."""
    box = two.boxes([0, 1], np.eye(3))[1]

    assert box[0] == pytest.approx([-1.5, -0.5, -0.01], abs=1e-3)
    assert box[1] == pytest.approx([1.5, 2.01, 0.01], abs=1e-3)


def test_boxes_turn_with_their_frame(two):
    """Turned by 90 degrees about out the rod stands at the left."""
    box = two.boxes([1], about_axis("out", math.pi / 2))[1]

    assert box[0] == pytest.approx([-2.01, -1.5, -0.01], abs=1e-3)


def test_a_disc_keeps_its_area_as_a_polygon(outliner):
    """Circles are drawn as polygons of the same area: pi / 4 x 1.2^2."""
    disc = {"part": "d", "shape": "disc", "diameter": "1.2 m", "made of": "copper",
            "gauge": "1 mm"}  # fmt: skip
    _, drawn = outliner(disc).shadows(FRONT)

    assert float(shapely.area(drawn)[0]) == pytest.approx(math.pi / 4 * 1.2**2, rel=1e-9)


def test_a_view_along_the_same_line_is_known_by_its_turn(two):
    """A quarter turn in its plane: what is covered stays, its middle turns; as drawn anew."""
    upright = np.array([(0.0, 1.0, 0.0), (-1.0, 0.0, 0.0)])
    flat, anew = two.seen(FRONT)[1], two.seen(upright)[1]
    told = anew.as_in(flat, upright @ FRONT.T)

    assert told.area_m2 == pytest.approx(anew.area_m2)
    assert told.middle_m == pytest.approx(anew.middle_m)
    assert told.middle_m == pytest.approx([flat.middle_m[1], -flat.middle_m[0]])
    assert told.middle_m[0] > 0.01
