"""Balance, torque and inertia of what turns: plane statics worked by hand."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.core.constants import GRAVITY_M_S2
from estimator.wind.coefficients import flat_plate
from estimator.wind.en1991 import TERRAIN, Site, site_pressure

STATED = {"wind rule": "stated pressure", "stated pressure": "600 Pa"}
HAND = {"assembly": "hand", "moves": "turns", "axis": "out", "positions": 12}
SLIM = 2.0  # EN 1991-1-4:2005, Figure 7.23, d/b up to 0.2
DEEP = 0.9  # EN 1991-1-4:2005, Figure 7.23, d/b from 10


def point(key, mass_kg, **cells):
    """Return a part that weighs what it says and has no size."""
    return {"part": key, "assembly": "hand", "shape": "bought", "mass each": f"{mass_kg!r} kg",
            } | cells  # fmt: skip


@pytest.fixture(scope="module")
def turned(steps):
    """Return a function that gives what turns about the first axle."""

    def turn(*parts, drive=None, hand=None, **sheets):
        moving = [{"assembly": "hand"} | drive] if drive else []
        rows = [HAND | (hand or {}), *sheets.pop("others", [])]
        return steps(upto="moving", parts=parts, assemblies=rows, moving=moving, **sheets)[
            "moving"
        ][0]

    return turn


BLADE = point("blade", 14.0, up="620 mm")


def counterweight(mass_kg):
    """Return a counterweight of some mass, 350 mm below the axle."""
    return point("cw", mass_kg, up="-350 mm")


def test_a_blade_without_counterweight(turned):
    """14 kg at 0.62 m: 8.68 kg m, and 8.68 x 9.80665 = 85.121722 Nm level."""
    found = turned(BLADE)

    assert found.unbalance_kgm == pytest.approx([0.0, 8.68, 0.0])
    assert found.gravity_torque_nm == pytest.approx(85.121722, rel=1e-9)
    assert math.isnan(found.counterweight_kg)
    assert found.counterweight == ""


def test_counterweight_that_is_too_light(turned):
    """20 kg at 0.35 m leave 1.68 kg m: 16.475172 Nm at three o'clock; 24.8 kg would balance."""
    found = turned(BLADE, counterweight(20.0), drive={"counterweight part": "cw"})

    assert found.counterweight_kg == pytest.approx(24.8)
    assert found.radius_m == pytest.approx(0.35)
    assert found.gravity_torque_nm == pytest.approx(16.475172, rel=1e-9)
    angles_deg, torques_nm = zip(*found.gravity_by_angle, strict=True)
    assert angles_deg == pytest.approx([15.0 * i for i in range(24)])
    # Anticlockwise by 90 degrees the blade points to the left, and falls on anticlockwise.
    by_hand = 16.475172 * np.sin(np.radians(angles_deg))
    assert torques_nm == pytest.approx(by_hand, rel=1e-9, abs=1e-9)


def test_the_solved_counterweight_brings_balance(turned):
    """Put in at the mass that was printed, the out-of-balance is nothing at every angle."""
    wanted_kg = turned(BLADE, counterweight(20.0), drive={"counterweight part": "cw"})
    found = turned(
        BLADE, counterweight(wanted_kg.counterweight_kg), drive={"counterweight part": "cw"}
    )

    assert found.unbalance_kgm == pytest.approx([0, 0, 0], abs=1e-9)
    assert found.gravity_torque_nm == pytest.approx(0.0, abs=1e-9)
    assert [torque for _, torque in found.gravity_by_angle] == pytest.approx([0.0] * 24, abs=1e-9)


@given(mass_kg=st.floats(0.1, 50.0), up_m=st.floats(0.1, 2.0), arm_m=st.floats(0.05, 1.0))
def test_any_counterweight_that_is_solved_balances(turned, mass_kg, up_m, arm_m):
    """For any blade and any arm, the mass printed brings the out-of-balance to nothing."""
    blade = point("blade", mass_kg, up=f"{up_m!r} m")
    drive = {"counterweight part": "cw"}
    first = turned(blade, point("cw", 1.0, up=f"{-arm_m!r} m"), drive=drive)
    solved = point("cw", first.counterweight_kg, up=f"{-arm_m!r} m")

    left_kgm = turned(blade, solved, drive=drive).unbalance_kgm
    assert left_kgm == pytest.approx([0, 0, 0], abs=1e-9 * mass_kg * up_m + 1e-12)


def test_a_radius_that_is_typed_goes_before_the_drawing(turned):
    """At 0.31 m instead of 0.35 m: 8.68 / 0.31 = 28 kg."""
    drive = {"counterweight part": "cw", "radius": "310 mm"}
    found = turned(BLADE, counterweight(20.0), drive=drive)

    assert found.counterweight_kg == pytest.approx(28.0)
    assert found.radius_m == pytest.approx(0.31)


SAID = [  # parts besides the blade, what is said
    ([], 'the counterweight part "cw" is not among the parts that turn'),
    ([point("cw", 2.0)], "the counterweight sits on the axle and balances nothing"),
]


@pytest.mark.parametrize(("parts", "sentence"), SAID)
def test_a_counterweight_that_cannot_balance(turned, parts, sentence):
    """It is said in words, and no mass is printed."""
    found = turned(BLADE, *parts, drive={"counterweight part": "cw"})

    assert sentence in found.notes
    assert math.isnan(found.counterweight_kg)


def test_a_counterweight_on_the_heavy_side(turned):
    """Where the heavy side already is, it is not wanted."""
    found = turned(BLADE, point("cw", 2.0, up="350 mm"), drive={"counterweight part": "cw"})

    assert any("belongs on the other side" in note for note in found.notes)
    assert found.counterweight_kg == pytest.approx(24.8)


def test_inertia_about_the_axle(turned):
    """14 x 0.62^2 + 24.8 x 0.35^2 = 8.4196 kg m2, wherever the axle is."""
    at = {"across": "1 m", "up": "-2 m", "out": "300 mm"}
    found = turned(BLADE, counterweight(24.8), hand=at)

    assert found.inertia_kgm2 == pytest.approx(8.4196)


def test_inertia_of_a_hand_with_its_own_size(turned):
    """A hand of 14 kg, 1.8 m long, pivoted 0.4 m from its tail: 14 (1.8^2 / 12 + 0.5^2) = 7.28."""
    hand = {"part": "h", "assembly": "hand", "shape": "run", "length": "1.8 m",
            "kg per m": f"{14 / 1.8!r} kg/m", "along": "up", "up": "500 mm"}  # fmt: skip

    assert turned(hand).inertia_kgm2 == pytest.approx(7.28)


DRIVES = [  # cells of the moving sheet, torque at the axle [Nm]
    ({"drive torque": "25 Nm"}, 25.0),
    ({"drive weight": "40 kg", "drum": "180 mm"}, 40 * GRAVITY_M_S2 * 0.09),
    ({"drive weight": "40 kg", "drum": "180 mm", "falls": 2}, 40 * GRAVITY_M_S2 * 0.045),
    ({"drive weight": "40 kg"}, math.nan),
    ({"falls": 2}, math.nan),
    (None, math.nan),
]


@pytest.mark.parametrize(("cells", "torque_nm"), DRIVES)
def test_the_torque_of_the_drive(turned, cells, torque_nm):
    """40 kg on a drum of 0.18 m give 35.303940 Nm, half on two falls."""
    found = turned(BLADE, drive=cells).drive_torque_nm

    assert found == pytest.approx(torque_nm, nan_ok=True)


def test_what_stands_on_a_mover_turns_with_it(turned):
    """A lamp of 2 kg on an arm mounted on the hand, 1 m from the axle: 2 kg m more."""
    lamp = point("lamp", 2.0, up="400 mm") | {"assembly": "arm"}
    arm = {"assembly": "arm", "mounted on": "hand", "up": "600 mm"}

    found = turned(BLADE, lamp, others=[arm])
    assert found.unbalance_kgm == pytest.approx([0.0, 8.68 + 2.0, 0.0])


def test_only_what_turns_is_turned(steps):
    """A slider and a fixed frame have no axle."""
    slider = {"assembly": "hand", "moves": "slides", "axis": "up", "to": "300 mm"}

    assert steps(upto="moving", parts=[BLADE], assemblies=[slider])["moving"] == ()


# A flat hand: a blade of 1 m above the axle and a tail of 0.4 m below, 100 mm wide.
FLAT = {"part": "f", "assembly": "hand", "shape": "sheet", "length": "1.4 m", "width": "100 mm",
        "along": "up", "up": "300 mm", "made of": "copper", "gauge": "1 mm"}  # fmt: skip
FIRST_MOMENT = 0.1 * (1.0**2 - 0.4**2) / 2  # 0.042 m3: blade less tail
BLADE_MOMENT = 0.1 * 1.0**2 / 2  # 0.05 m3: blade alone


def by_mechanism(found):
    """Return the torques by what causes them."""
    return {case.mechanism: case.torque_nm for case in found.cases}


def test_a_flat_blade_square_to_the_wind_is_not_turned(turned):
    """The force is parallel to the axle: nothing, said with its reason."""
    first = turned(FLAT, job=STATED).cases[0]

    assert first.torque_nm == 0.0
    assert first.why == "the force is parallel to the axle, whatever the balance"


@pytest.mark.parametrize(("typed", "twist_deg"), [(None, 2.0), ("6 deg", 6.0)])
def test_a_twisted_blade_is_turned(turned, typed, twist_deg):
    """Pressure x c x sin(twist) x first moment: 0.042 m3 in even wind, 0.05 in a gust on the blade.

    c is that of a flat plate of 1.4 x 0.1 m.
    """
    drive = {"blade twist": typed} if typed else None
    torques = by_mechanism(turned(FLAT, drive=drive, job=STATED))
    push_pa = 600 * flat_plate(1.4, 0.1).value * math.sin(math.radians(twist_deg))

    assert torques["blade twisted, even wind"] == pytest.approx(push_pa * FIRST_MOMENT)
    gust = torques["blade twisted, gust on the blade alone"]
    assert gust == pytest.approx(push_pa * BLADE_MOMENT)
    assert flat_plate(1.4, 0.1).value < SLIM


def test_a_twist_nobody_gave_is_marked(turned):
    """2 degrees are assumed and say so; those that were typed do not."""
    assumed = turned(FLAT, job=STATED).cases[1].why
    typed = turned(FLAT, drive={"blade twist": "2 deg"}, job=STATED).cases[1].why

    assert "2 deg (assumed)" in assumed
    assert "(assumed)" not in typed


def test_wind_along_the_plane_meets_the_edge(turned):
    """Pressure x 0.9 x thickness x (1 - 0.4^2) / 2, edge of 10 mm; on the blade alone 1 / 2."""
    thick = FLAT | {"shape": "flat", "depth": "10 mm", "gauge": ""}
    torques = by_mechanism(turned(thick, job=STATED))

    even = torques["edge wind (from 90 or 270 deg), even"]
    gust = torques["edge wind (from 90 or 270 deg), on the blade alone"]
    assert even == pytest.approx(600 * DEEP * 0.01 * (1 - 0.16) / 2)
    assert gust == pytest.approx(600 * DEEP * 0.01 * 0.5)


def test_a_flag_on_an_upright_axle_meets_the_wind_face_on(turned):
    """A board 20 mm thick, 1 m high, swings about up: c 2.0 to 2.1, not that of an edge.

    The blade is 1 m to the right of the axle: q x c x 1 m2 x 0.5 m. Between d/b 0.02 and 0.2 the
    chart of EN 1991-1-4, Figure 7.23, is level at 2.0.
    """
    flag = point("f", 5.0) | {"shape": "box", "length": "1 m", "width": "1 m", "depth": "20 mm",
                              "across": "500 mm"}  # fmt: skip
    torques = by_mechanism(turned(flag, hand={"axis": "up"}, job=STATED))

    gust = torques["edge wind (from any deg), on the blade alone"]
    assert gust == pytest.approx(600 * SLIM * 1.0 * 0.5, rel=1e-4)


def test_ice_on_one_face_of_the_blade(turned):
    """900 kg/m3 (ISO 12494, from memory) x 6 mm x g x 0.05 m3."""
    torques = by_mechanism(turned(FLAT, job=STATED | {"ice thickness": "6 mm"}))

    assert torques["ice on the blade's face alone"] == pytest.approx(
        900 * 0.006 * GRAVITY_M_S2 * 0.05
    )
    assert "ice on the blade's face alone" not in by_mechanism(turned(FLAT, job=STATED))


def test_the_side_of_the_wind_by_the_axle(turned):
    """Square to a hand on the wall is the street; a vane on an upright axle has no such side."""
    vane = FLAT | {"shape": "box", "along": "across", "up": "", "across": "300 mm",
                   "depth": "100 mm"}  # fmt: skip

    assert turned(FLAT, job=STATED).cases[1].direction_deg == 0.0
    assert turned(vane, hand={"axis": "up"}, job=STATED).cases[1].direction_deg is None


def test_wind_without_a_pressure_or_without_a_blade(turned):
    """No torque is made up: it is said that there is no pressure."""
    sentence = "there is no wind pressure on it, so no torque of wind is given"

    for found in (turned(FLAT), turned(BLADE, job=STATED)):
        assert found.cases == ()
        assert sentence in found.notes


def test_a_blade_seen_only_from_the_side(turned):
    """A hand that lies in the plane of its own axle shows no face, so there is no blade."""
    edge = FLAT | {"faces": "across"}
    found = turned(edge, job=STATED)

    assert found.cases == ()
    assert "it shows no outline along its axle, so no torque of wind is given" in found.notes


def test_gravity_on_an_upright_axle_turns_nothing(turned):
    """What swings about up is out of balance and has no torque of gravity."""
    found = turned(point("b", 14.0, across="620 mm"), hand={"axis": "up"})

    assert np.linalg.norm(found.unbalance_kgm) == pytest.approx(8.68)
    assert found.gravity_torque_nm == pytest.approx(0.0, abs=1e-12)


def test_wind_on_the_face_bends_and_twists_the_blade(turned):
    """Q c = 600 c: 0.14 m2 pushed, root 0.1 x 1 x 0.5, twist 0.1 m2 x a quarter of 0.1 m."""
    push_pa = 600 * flat_plate(1.4, 0.1).value
    notes = turned(FLAT, job=STATED).notes

    assert (
        f"wind square to its face pushes {push_pa * 0.14:.3g} N along the axle, bends the blade at "
        f"the axle by {push_pa * 0.05:.3g} N m and, 0.25 of the width off its middle, twists it "
        f"about its own length by {push_pa * 0.1 * 0.025:.3g} N m; none of that turns the axle"
    ) in notes


def test_wind_that_grows_with_height_turns_an_upright_blade(turned):
    """Blade and tail alike, 1 m each: even wind cancels, the higher wind above does not.

    Terrain III, 8 m: q(8.5) and q(7.5) by EN 1991-1-4 section 4, on the face twisted by 2 degrees.
    """
    alike = FLAT | {"length": "2 m", "up": ""}
    job = {"basic wind speed": "24 m/s", "terrain": "III", "datum height": "8 m"}
    torques = by_mechanism(turned(alike, job=job, hand={"stands": "free"}))
    site = Site(24.0, TERRAIN["III"])
    at_middle, above, below = (site_pressure(site, h).pressure_pa for h in (8.0, 8.5, 7.5))
    push_pa = at_middle * flat_plate(2.0, 0.1).value * math.sin(math.radians(2))

    assert torques["blade twisted, even wind"] == pytest.approx(0.0, abs=1e-9)
    assert torques["blade twisted, blade upright"] == pytest.approx(
        push_pa * (1 - below / above) * 0.05
    )


def test_a_stated_pressure_is_the_same_at_the_tail(turned):
    """Nobody said how it changes with height: no torque by it, and a sentence that says so."""
    found = turned(FLAT, job=STATED)

    assert not any("upright" in mechanism for mechanism in by_mechanism(found))
    assert found.notes[-1] == (
        "the pressure was stated, the same at every height: no wind that grows with height from "
        "tail to blade is in these torques"
    )


BY_SIDE = {
    "wind rule": "stated pressure",
    "stated pressure by direction": "0: 600 Pa; 46: 300 Pa; 90: 300 Pa; 134: 300 Pa; 180: 150 Pa; "
    "226: 300 Pa; 314: 300 Pa",
}


def test_each_torque_goes_by_the_wind_of_its_own_side(turned):
    """600 Pa onto the face and 300 Pa along it; 45 degrees off still counts."""
    both = by_mechanism(turned(FLAT, job=STATED, hand={"stands": "free"}))
    by_side = by_mechanism(turned(FLAT, job=BY_SIDE, hand={"stands": "free"}))
    square, along = "blade twisted, even wind", "edge wind (from 90 or 270 deg), even"

    assert by_side[square] == pytest.approx(both[square])
    assert by_side[along] <= both[along]


def test_a_hollow_blade_is_told_and_not_counted(turned, document):
    """2.30 into the hollow, 1.20 on the back ("Aeronautical Engineer's Data Book", as quoted).

    Edge of 10 mm: 600 x 0.01 x (2.30 x 1 - 1.20 x 0.16) / 2 = 6.324 Nm; it is not this blade's.
    """
    thick = FLAT | {"shape": "flat", "depth": "10 mm", "gauge": ""}
    found = by_mechanism(turned(thick, job=STATED))
    record = document(parts=[thick], assemblies=[HAND], job=STATED)["moving"][0]

    assert found["edge wind, only were the blade a half tube"] == pytest.approx(6.324)
    assert record["wind_torque_nm"] < 6.324


VANE = point("fin", 2.0) | {"shape": "box", "length": "800 mm", "width": "10 mm",
                            "depth": "500 mm", "along": "across", "across": "500 mm"}  # fmt: skip


def test_a_vane_settles_with_its_fin_downwind(turned):
    """Fin 0.8 m long about 0.5 m off the spindle: it reaches from 0.1 to 0.9 m on one side.

    Its box is 0.8 m by the size it has upwards; 2 kg at 0.5 m is 1 kg m, all to that side.
    """
    found = turned(VANE, hand={"axis": "up", "stands": "free"}, job=STATED).vane

    assert "and 0 m3 on the other, so it settles with its tip downwind" in found
    assert "its mass moment about the spindle is 1 kg m to the side of the tip and 0 kg m" in found


def test_a_vane_in_balance(turned):
    """A point of 4 kg at 0.25 m on the other side brings the mass moment to nothing."""
    bob = point("bob", 4.0, across="-250 mm")
    found = turned(VANE, bob, hand={"axis": "up", "stands": "free"}, job=STATED).vane

    assert found.endswith("its mass moment about the spindle is nothing to speak of")


def test_what_is_driven_or_does_not_turn_about_up_is_no_vane(turned):
    """A hand, and a figure that a drive turns, do not settle by the wind."""
    drive = {"drive torque": "20 N m"}

    assert turned(FLAT, job=STATED).vane == ""
    assert turned(VANE, hand={"axis": "up"}, drive=drive, job=STATED).vane == ""
