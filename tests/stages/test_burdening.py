"""Ice, snow and trapped water at the brackets of small jobs, worked by hand."""

import math

import numpy as np
import pytest

from estimator.core.constants import GRAVITY_M_S2
from estimator.supports.arms import moved

BRACKETS = [
    {"bracket": f"B{n}", "set": "s", "across": f"{across} m", "up": "0 m", "reach": "400 mm",
     "section": "SHS 60x60x4", "grade": "mild steel", "holds": "welded"}
    for n, across in enumerate((-1.0, 1.0))
]  # fmt: skip
HUNG = {"assembly": "a", "carried by": "s", "stands": "free"}
LEDGE = {"part": "ledge", "shape": "box", "length": "3 m", "width": "100 mm", "depth": "400 mm",
         "made of": "european oak", "out": "300 mm", "across": "500 mm"}  # fmt: skip
STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa",
          "stated pressure kind": "peak characteristic"}  # fmt: skip
BALL = {"part": "ball", "shape": "sphere", "diameter": "600 mm", "made of": "copper",
        "gauge": "1 mm", "across": "200 mm", "up": "300 mm", "out": "400 mm"}  # fmt: skip
WATER = {"load": "W", "assembly": "a", "cause": "water trapped"}


@pytest.fixture(scope="module")
def held(steps):
    """Return a function that gives everything found up to the brackets of one assembly."""

    def hold(*parts, hung=HUNG, **sheets):
        return steps(upto="held", every_case=True, parts=parts, brackets=BRACKETS,
                     assemblies=hung if isinstance(hung, list) else [hung], **sheets)  # fmt: skip

    return hold


def at_wall(found, cause, case=None, position=None):
    """Return the whole action about the datum of one cause, by rigid sharing."""
    one = found["held"][0]
    roots = {b.key: np.array(b.root_m) for b in one.brackets}
    rows = [r for r in one.characteristic if r.cause == cause and r.sharing == "rigid"
            and case in (None, r.case) and position in (None, r.position)]  # fmt: skip
    assert len(rows) == len(roots), [(r.case, r.position) for r in rows]
    return sum(moved(row.action, roots[row.bracket]) for row in rows)


def cases(found, cause):
    """Return the cases of a cause that are listed."""
    return list(dict.fromkeys(r.case for r in found["held"][0].characteristic if r.cause == cause))


def test_snow_lies_on_the_outline_from_above(held):
    """600 Pa x 0.8 (EN 1991-1-3 Table 5.2, as quoted) on 3.0 m x 0.4 m, at its middle."""
    found = held(LEDGE, job={"snow load": "600 Pa"})

    weight_n = 0.8 * 600 * 3.0 * 0.4
    assert at_wall(found, "snow") == pytest.approx(
        [0, -weight_n, 0, 0.3 * weight_n, 0, -0.5 * weight_n], abs=1e-6 * weight_n
    )
    assert cases(found, "snow") == ["snow: by the outline from above"]
    (row,) = found["burdens"].snowed
    assert (row.assembly, row.plan_m2) == ("a", pytest.approx(1.2))


def test_each_spot_bears_snow_once(held):
    """A second ledge right below the first shows nothing from above."""
    below = LEDGE | {"part": "lower", "up": "-1 m"}
    one, two = (held(*parts, job={"snow load": "600 Pa"}) for parts in ((LEDGE,), (LEDGE, below)))

    assert at_wall(two, "snow") == pytest.approx(at_wall(one, "snow"), abs=1e-6)


def test_snow_on_a_mover_goes_with_it(held):
    """A board that lies level when turned shows 2 m x 1 m; upright, only its edge of 20 mm."""
    board = {"part": "b", "shape": "box", "length": "2 m", "width": "20 mm", "depth": "1 m",
             "made of": "european oak"}  # fmt: skip
    turning = HUNG | {"moves": "turns", "axis": "out", "positions": 4}
    found = held(board, hung=turning, job={"snow load": "1 kPa"})

    flat = at_wall(found, "snow", position="a at 0 deg")
    upright = at_wall(found, "snow", position="a at 90 deg")
    assert (flat[1], upright[1]) == pytest.approx((-0.8e3 * 2.0, -0.8e3 * 0.02))


def test_snow_that_somebody_typed_stands_in_its_place(held):
    """The row says 500 N on that assembly, so the outline counts no more."""
    typed = {"load": "S1", "assembly": "a", "force": "500 N", "cause": "snow"}
    found = held(LEDGE, job={"snow load": "600 Pa"}, extra_loads=[typed])

    assert at_wall(found, "snow")[1] == pytest.approx(-500.0)
    assert cases(found, "snow") == ["snow: S1"]
    assert found["burdens"].said("snow") == {"a"}


def test_ice_weighs_at_the_brackets_what_it_weighs(held):
    """Force and moment of the ice that was worked out, at its own centre."""
    found = held(LEDGE, BALL, job={"ice thickness": "20 mm"})

    iced = found["iced"]
    force_n = np.array([0.0, -iced.ice_kg * GRAVITY_M_S2, 0.0])
    moment_nm = np.cross(iced.centre_m, force_n)
    assert at_wall(found, "ice") == pytest.approx([*force_n, *moment_nm], abs=1e-6)
    assert cases(found, "ice") == ["ice: all over"]


def test_everything_at_once_is_held(held):
    """Wind, ice and the wind with it, snow, water, a person: each case balances to 1e-9."""
    person = {"load": "P", "assembly": "a", "cause": "person", "force": "1 kN", "across": "1 m"}
    job = STATED | {"ice thickness": "20 mm", "snow load": "600 Pa"}
    found = held(LEDGE, BALL, job=job, extra_loads=[WATER, person])

    (one,) = found["held"]
    assert one.residual <= 1e-9
    causes = {row.cause for row in one.characteristic}
    assert causes == {"own weight", "wind", "wind on ice", "ice", "snow",
                      "water trapped", "person"}  # fmt: skip


def test_ice_that_somebody_typed_stands_in_its_place(held):
    """Of the assembly it is typed for; another one keeps its own."""
    typed = {"load": "I1", "assembly": "a", "mass": "30 kg", "cause": "ice"}
    other = {"part": "r", "assembly": "b", "shape": "rod", "length": "1 m", "diameter": "30 mm",
             "made of": "mild steel"}  # fmt: skip
    more = [HUNG, HUNG | {"assembly": "b"}]
    found = held(LEDGE, other, hung=more, job={"ice thickness": "20 mm"}, extra_loads=[typed])

    (kept_n,) = (one.weight_n for one in found["iced"].assemblies if one.assembly == "b")
    assert cases(found, "ice") == ["ice: all over", "ice: all over and I1"]
    assert at_wall(found, "ice", "ice: all over")[1] == pytest.approx(-kept_n)
    both = at_wall(found, "ice", "ice: all over and I1")
    assert both[1] == pytest.approx(-kept_n - 30 * GRAVITY_M_S2)


def test_wind_on_an_iced_board_at_the_wall(held):
    """20 mm (G2): 0.45 of the pressure (ISO 12494, from memory) on what the board has grown to."""
    board = {"part": "b", "shape": "box", "length": "2 m", "width": "1 m", "depth": "100 mm",
             "made of": "european oak", "up": "400 mm"}  # fmt: skip
    at = HUNG | {"stands": "off wall"}
    found = held(board, hung=at, job=STATED | {"ice thickness": "20 mm", "not listed yet": "0 %"})

    case = "pulled off the wall"
    bare, iced = (at_wall_of(found, cause, case) for cause in ("wind", "wind on ice"))
    grown = (2.0 + 2 * 3.0 * 0.02 + math.pi * 0.02**2) / 2.0
    assert iced[2] / bare[2] == pytest.approx(0.45 * grown, rel=1e-3)
    assert iced == pytest.approx(0.45 * grown * bare, rel=1e-3)


def at_wall_of(found, cause, sense):
    """Return the whole action on the assembly alone of wind from the street in one sense."""
    wind = found["wind"]
    number = next(n for n, (d, s, place) in enumerate(wind.cases)
                  if d == 0.0 and s == sense and place == wind.cases[0].place)  # fmt: skip
    row = [a.key for a in found["assemblies"]].index("a")
    for g, group in enumerate(found["groups"]):
        if row in group.members:
            i = group.members.index(row)
            wrenches = wind.groups[g].wrench if cause == "wind" else found["iced"].winds[g]
            return wrenches[0, i, number]
    pytest.fail("the assembly is in no group")


@pytest.mark.parametrize("stands", ["free", "projecting"])
def test_wind_on_an_iced_box_that_stands_clear(held, stands):
    """From the street and along the wall the outline is the one drawn with the ice on."""
    box = {"part": "b", "shape": "box", "length": "2 m", "width": "1 m", "depth": "500 mm",
           "made of": "european oak", "out": "1 m"}  # fmt: skip
    job = STATED | {"ice thickness": "50 mm", "not listed yet": "0 %"}
    found = held(box, hung=HUNG | {"stands": stands}, job=job)

    wind, row = found["wind"], [a.key for a in found["assemblies"]].index("a")
    g, group = next((g, x) for g, x in enumerate(found["groups"]) if row in x.members)
    i = group.members.index(row)
    bare, iced = wind.groups[g].wrench[0, i], found["iced"].winds[g][0, i]
    for direction, (wide_m, high_m) in {0.0: (2.0, 1.0), 90.0: (0.5, 1.0)}.items():
        n = next(n for n, (d, _, _) in enumerate(wind.cases) if d == direction)
        grown = (wide_m + high_m) * 2 * 0.05 + math.pi * 0.05**2
        ratio = 0.60 * (wide_m * high_m + grown) / (wide_m * high_m)
        assert np.linalg.norm(iced[n]) / np.linalg.norm(bare[n]) == pytest.approx(ratio, rel=1e-3)


def test_ice_on_an_edge_is_pushed_along_the_wall(held):
    """A sheet shows nothing edge-on, and 2 x 20 mm of ice: 0.45 x 1 kPa x 1.8 on 1 m of it."""
    sheet = {"part": "b", "shape": "sheet", "length": "2 m", "width": "1 m", "made of": "copper",
             "gauge": "1 mm", "out": "1 m"}  # fmt: skip
    found = held(sheet, job=STATED | {"ice thickness": "20 mm"})

    wind, row = found["wind"], [a.key for a in found["assemblies"]].index("a")
    g, group = next((g, x) for g, x in enumerate(found["groups"]) if row in x.members)
    n = next(n for n, (d, _, _) in enumerate(wind.cases) if d == 90.0)
    force_n = found["iced"].winds[g][0, group.members.index(row), n, :3]
    area_m2 = 1.0 * 0.04 + math.pi * 0.02**2
    assert force_n == pytest.approx([-0.45 * 1000 * 1.8 * area_m2, 0, 0], rel=2e-3, abs=1e-9)


def test_water_fills_the_closed_shapes(held):
    """pi/6 x 0.6^3 = 0.1131 m3 of water, 1000 kg/m3, at the middle of the ball."""
    found = held(BALL, extra_loads=[WATER])

    weight_n = 1000 * math.pi / 6 * 0.6**3 * GRAVITY_M_S2
    assert at_wall(found, "water trapped") == pytest.approx(
        [0, -weight_n, 0, 0.4 * weight_n, 0, -0.2 * weight_n], rel=1e-9, abs=1e-6
    )
    (water,) = found["burdens"].held
    assert (water.parts, water.filled) == (("ball",), ())


def test_water_in_copies_lies_at_the_middle_of_them(held):
    """Three in a row, 1 m apart: thrice the water, and the same middle."""
    three = BALL | {"count": 3, "set out": "row", "spread": "2 m"}
    one, many = (held(ball, extra_loads=[WATER]) for ball in (BALL, three))

    assert at_wall(many, "water trapped") == pytest.approx(3 * at_wall(one, "water trapped"))


def test_what_is_solid_holds_no_water(held):
    """A box of oak is filled by its own wood, and bars and tubes are not counted."""
    tube = {"part": "t", "shape": "tube", "length": "2 m", "diameter": "60 mm", "wall": "3 mm",
            "made of": "mild steel"}  # fmt: skip
    found = held(LEDGE, tube, BALL, extra_loads=[WATER])

    (water,) = found["burdens"].held
    assert (water.parts, water.filled) == (("ball",), ("ledge",))


def test_water_beside_what_fills_a_share(held):
    """Foam in three quarters of it leaves a quarter for water."""
    ball = BALL | {"made of": "shell"}
    layers = [
        {"build-up": "shell", "layer": "skin", "material": "copper", "over": "one face",
         "amount": "1 mm"},
        {"build-up": "shell", "layer": "core", "material": "european oak", "over": "solid",
         "amount": "75 %"},
    ]  # fmt: skip
    del ball["gauge"]
    found = held(ball, build_ups=layers, extra_loads=[WATER])

    assert found["burdens"].held[0].volume_m3 == pytest.approx(math.pi / 6 * 0.6**3 / 4, rel=1e-6)


def test_no_water_where_nothing_is_closed(held):
    """Bars, and what holes are cut in."""
    tube = {"part": "t", "shape": "tube", "length": "2 m", "diameter": "60 mm", "wall": "3 mm",
            "made of": "mild steel"}  # fmt: skip
    found = held(tube, BALL | {"cut away": "5 %"}, extra_loads=[WATER])

    (water,) = found["burdens"].held
    assert (water.parts, water.filled, water.mass_kg) == ((), (), 0.0)
    assert cases(found, "water trapped") == []


def test_a_thing_of_given_mass_counts_as_hollow(held):
    """Nobody knows how much room its mass leaves: all of it, the heavy side."""
    lump = BALL | {"mass each": "20 kg"}
    found = held({k: v for k, v in lump.items() if k not in ("made of", "gauge")},
                 extra_loads=[WATER])  # fmt: skip

    assert found["burdens"].held[0].parts == ("ball",)


def test_water_with_a_mass_is_what_it_says(held):
    """A row with a mass is taken by its mass."""
    found = held(BALL, extra_loads=[WATER | {"mass": "12 kg"}])

    assert at_wall(found, "water trapped")[1] == pytest.approx(-12 * GRAVITY_M_S2)
    assert found["burdens"].held == ()


def test_loads_that_may_act_together_do(held):
    """Two riggers who name each other, and one who works alone."""
    riggers = [
        {"load": f"R{n}", "assembly": "a", "force": "800 N", "cause": "person",
         "together with": names}
        for n, names in enumerate(("R1", "R0", "none"))
    ]  # fmt: skip
    found = held(LEDGE, extra_loads=riggers)

    assert cases(found, "person") == [
        "person: R0", "person: R1", "person: R2", "person: R0 and R1"]  # fmt: skip
    assert at_wall(found, "person", "person: R0 and R1")[1] == pytest.approx(-1600.0)


def test_wind_on_an_iced_mover_is_that_of_its_position(steps):
    """A board turned by 90 degrees is loaded as one that was drawn so, in every case."""
    board = {"part": "b", "shape": "box", "length": "2 m", "width": "400 mm", "depth": "100 mm",
             "made of": "european oak"}  # fmt: skip
    job = STATED | {"ice thickness": "30 mm"}
    turning = {"assembly": "a", "stands": "free", "moves": "turns", "axis": "out", "positions": 4}
    one = steps(upto="iced", parts=[board], assemblies=[turning], job=job)["iced"]
    drawn = steps(upto="iced", parts=[board | {"along": "up", "faces": "out"}], job=job,
                  assemblies=[{"assembly": "a", "stands": "free"}])["iced"]  # fmt: skip

    assert one.winds[0].shape[0] == 4
    assert one.winds[0][1] == pytest.approx(drawn.winds[0][0], abs=1e-6)
    assert not np.allclose(one.winds[0][0], one.winds[0][1])
