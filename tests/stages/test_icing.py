"""Ice on small jobs: masses, outlines and the wind with it, worked by hand."""

import math

import pytest

from estimator.core.constants import GRAVITY_M_S2

ICE = {"ice thickness": "30 mm"}
STATED = {"wind rule": "stated pressure", "stated pressure": "1 kPa",
          "stated pressure kind": "peak characteristic"}  # fmt: skip
ROD = {"part": "r", "shape": "rod", "length": "2 m", "diameter": "30 mm", "made of": "mild steel"}
BOARD = {"part": "b", "shape": "sheet", "length": "2 m", "width": "1 m", "made of": "copper",
         "gauge": "1 mm"}  # fmt: skip


@pytest.fixture(scope="module")
def iced(steps):
    """Return a function that gives the ice on a job."""

    def ice(*parts, job=ICE, **sheets):
        return steps(upto="iced", parts=parts, job=job, **sheets)["iced"]

    return ice


def test_no_ice_is_none(iced):
    """Nothing typed, nothing on anything."""
    found = iced(ROD, job={})

    assert (found.ice_class, found.parts, found.assemblies, found.ice_kg) == (None, (), (), 0.0)


def test_ice_on_a_rod(iced):
    """30 mm on a rod of 30 mm: 5.09 kg/m (ISO 12494 by its formula), 2 m of it."""
    found = iced(ROD | {"across": "3 m"})

    assert found.ice_kg == pytest.approx(2 * 5.09, rel=1e-3)
    assert found.ice_class.name == "G3"
    assert found.centre_m == pytest.approx([3.0, 0.0, 0.0])
    (assembly,) = found.assemblies
    assert assembly.weight_n == pytest.approx(found.ice_kg * GRAVITY_M_S2)


def test_the_outline_of_a_rod_grows_by_the_ice_all_round(iced):
    """2 m x 30 mm becomes that, with 30 mm at each side and each end, and round corners."""
    (assembly,) = iced(ROD).assemblies

    grown_m2 = 2 * 0.03 + 2 * (2 + 0.03) * 0.03 + math.pi * 0.03**2
    # A circle is drawn with its full area, so that edge-on its corners stand out by 0.25 %.
    assert assembly.front_m2 == pytest.approx((0.06, grown_m2), rel=3e-3)


def test_a_sheet_has_ice_on_both_faces_and_round_its_edge(iced):
    """900 x (4 m2 x 0.03 + pi x 3 m x 0.03^2 + 4/3 pi 0.03^3), and 60 mm seen on its edge."""
    found = iced(BOARD)
    (assembly,) = found.assemblies

    by_hand = 900 * (4 * 0.03 + math.pi * 3 * 0.03**2 + 4 / 3 * math.pi * 0.03**3)
    assert found.ice_kg == pytest.approx(by_hand, rel=1e-6)
    assert assembly.side_m2[0] == pytest.approx(0.0, abs=1e-5)
    assert assembly.side_m2[1] == pytest.approx(1.0 * 0.06 + math.pi * 0.03**2, rel=1e-3)


def test_hammering_adds_skin_and_cutting_takes_ice_away(iced):
    """Twice the skin has more ice; half cut away has half of it."""
    plain, beaten, cut = (
        iced(BOARD | cells).ice_kg for cells in ({}, {"relief": 2}, {"cut away": "50 %"})
    )

    assert beaten - plain == pytest.approx(900 * 4 * 0.03)
    assert cut == pytest.approx(plain / 2)


def test_copies_each_have_their_ice(iced):
    """Three rods in a row, centre at the middle of them."""
    rods = ROD | {"count": 3, "set out": "row", "spread": "2 m", "along": "up"}
    found = iced(rods)

    assert found.ice_kg == pytest.approx(3 * 2 * 5.09, rel=1e-3)
    assert found.centre_m == pytest.approx([0.0, 0.0, 0.0], abs=1e-9)


def test_a_section_goes_by_its_girth(iced):
    """SHS 60x60x4, corners of 8 mm: 0.24 - 2 x 0.008 x (4 - pi) = 0.2263 m round it."""
    shs = {"part": "s", "shape": "section", "section": "SHS 60x60x4", "length": "1 m",
           "made of": "mild steel"}  # fmt: skip

    by_hand = 900 * (0.2263 * 0.03 + math.pi * 0.03**2)
    assert iced(shs).ice_kg == pytest.approx(by_hand, rel=1e-3)


def test_what_is_not_in_the_wind_has_no_ice(iced):
    """A core that is said to be inside stays dry."""
    found = iced(ROD, BOARD | {"in wind": "no"})

    assert [one.part for one in found.parts] == ["r"]
    assert found.bare == ()


def test_what_has_no_surface_is_named(iced):
    """A chain by the metre, and a thing bought."""
    chain = {"part": "c", "shape": "run", "length": "2 m", "kg per m": "1 kg/m"}
    lamp = {"part": "l", "shape": "bought", "mass each": "2 kg"}

    assert iced(ROD, chain, lamp).bare == ("c", "l")


def test_wind_on_a_board_with_ice(iced):
    """Against a wall: 1 kPa x 1.8 x half of it for G3 on 2.06 x 1.06 m with round corners."""
    (assembly,) = iced(BOARD, job=ICE | STATED).assemblies

    area_m2 = 2.0 + 2 * 3.0 * 0.03 + math.pi * 0.03**2
    assert assembly.front_n == pytest.approx(0.5 * 1000 * 1.8 * area_m2, rel=1e-3)
    # Along the wall a coefficient of 1.3 is assumed, as without ice.
    edge_m2 = 0.06 + math.pi * 0.03**2
    assert assembly.side_n == pytest.approx(0.5 * 1000 * 1.3 * edge_m2, rel=1e-3)


def test_what_stands_clear_has_one_coefficient(iced):
    """1.8 for a figure with hollows from every side."""
    rows = [{"assembly": "a", "stands": "free"}]
    (assembly,) = iced(BOARD, job=ICE | STATED, assemblies=rows).assemblies

    assert assembly.side_n / assembly.side_m2[1] == pytest.approx(0.5 * 1000 * 1.8)


def test_without_wind_there_is_ice_alone(iced):
    """No site, no force."""
    (assembly,) = iced(BOARD).assemblies

    assert math.isnan(assembly.front_n)
    assert math.isnan(assembly.side_n)


def test_the_iced_hand_of_turning_keeps_its_own_case(steps):
    """One way of doing it: 900 x 0.03 x 2 m2 less none x g x its middle, blade upwards."""
    hand = [{"assembly": "a", "moves": "turns", "axis": "out", "positions": 4}]
    blade = BOARD | {"along": "up", "up": "1 m"}
    found = steps(upto="moving", parts=[blade], assemblies=hand, job=ICE | STATED)["moving"][0]

    torque_nm = found.cases[-1].torque_nm
    assert torque_nm == pytest.approx(900 * 0.03 * 2.0 * GRAVITY_M_S2 * 1.0, rel=1e-3)


@pytest.mark.parametrize("stands", ["off wall", "free"])
def test_ice_closes_what_is_cut_away(steps, stands):
    """As the page says: 2 m2 half cut away is pushed, iced, as the whole of it with its rim.

    1.80 both ways at a wall (7.4.3) and 1.8 on an open figure, 0.50 of the wind with 30 mm (G3).
    """
    found = steps(
        upto="iced", parts=[BOARD | {"cut away": "50 %"}], job=ICE | STATED,
        assemblies=[{"assembly": "a", "stands": stands}],
    )["iced"]  # fmt: skip
    whole_m2 = 2.0 + 2 * 3.0 * 0.03 + math.pi * 0.03**2

    (assembly,) = found.assemblies
    assert assembly.front_m2 == pytest.approx((1.0, whole_m2), rel=1e-4)
    pushed_n = found.winds[0][0, 0, 0, 2]
    assert pushed_n == pytest.approx(-0.50 * 1000 * 1.8 * whole_m2, rel=1e-4)
    assert assembly.front_n == pytest.approx(-pushed_n)


def test_density_and_share_of_the_wind_can_be_typed(steps):
    """Rime of 500 kg/m3 in the place of 900, and 70 % of the wind in that of 50 (G3)."""
    usual, typed = (
        steps(upto="iced", parts=[BOARD], job=ICE | STATED | more,
              assemblies=[{"assembly": "a", "stands": "free"}])["iced"]
        for more in ({}, {"ice density": "500 kg/m3", "wind with ice": "70 %"})
    )  # fmt: skip

    assert typed.ice_kg == pytest.approx(usual.ice_kg * 500 / 900)
    assert (usual.density_kg_m3, typed.density_kg_m3) == (900.0, 500.0)
    assert typed.winds[0] == pytest.approx(usual.winds[0] * 0.7 / 0.5)
    assert typed.assemblies[0].front_n == pytest.approx(usual.assemblies[0].front_n * 0.7 / 0.5)
    assert "as typed" in typed.ice_class.name
