"""What hangs free on its axle: wind and weight of small signs, worked by hand."""

import math

import pytest

from estimator.core.constants import GRAVITY_M_S2

STATED = {"wind rule": "stated pressure", "stated pressure": "500 Pa"}
SIGN = {"assembly": "sign", "up": "-100 mm", "out": "800 mm", "stands": "projecting",
        "moves": "turns", "axis": "out", "from": "-10 deg", "to": "10 deg", "positions": 3,
        "coefficient": 2.0, "source": "assumed for this test"}  # fmt: skip
BOARD = {"part": "B", "assembly": "sign", "shape": "sheet", "length": "1 m", "width": "600 mm",
         "along": "out", "faces": "across", "up": "-500 mm", "made of": "aluminium",
         "gauge": "3 mm"}  # fmt: skip
LUMP = {"part": "L", "assembly": "sign", "shape": "bought", "mass each": "20 kg", "up": "-500 mm"}
STOPS = {"assembly": "sign", "stops from": "-10 deg", "stops to": "10 deg", "stop arm": "200 mm"}
BOARD_KG = 1.0 * 0.6 * 0.003 * 2700
WEIGHT_NM = (20 + BOARD_KG) * GRAVITY_M_S2 * 0.5
WIND_NM = 500 * 2.0 * 0.6 * 0.5
"""Of the wind from straight beside the board: 0.6 m2 at 0.5 m below the pins."""


@pytest.fixture(scope="module")
def swung(steps):
    """Return a function that gives everything that hangs free."""

    def run(*, moving=(), wind=True, others=(), **sign):
        return steps(
            upto="swinging",
            job=STATED if wind else {},
            parts=[BOARD, LUMP],
            assemblies=[SIGN | sign, *others],
            moving=list(moving),
        )["swinging"]

    return run


def lean(found, direction_deg, speed=1.0):
    """Return what one wind does."""
    (one,) = [x for x in found.leans if (x.direction_deg, x.speed) == (direction_deg, speed)]
    return one


def test_a_sign_in_a_side_wind(swung):
    """300 Nm less 0.5 m x 24.86 kg x g = 121.9 Nm: more than its weight can hold.

    Half the speed is a quarter of the pressure: 75 Nm, at the angle whose sine is 75/121.9.
    """
    (found,) = swung()

    assert found.hung == pytest.approx((WEIGHT_NM, 0.0))
    assert found.axle_m == pytest.approx((0.0, -0.1, 0.8))
    assert lean(found, 270.0).torque_nm == pytest.approx(WIND_NM, rel=0.01)
    assert lean(found, 270.0).free_rad == math.inf
    lighter = lean(found, 270.0, 0.5)
    assert lighter.torque_nm == pytest.approx(WIND_NM / 4, rel=0.01)
    assert lighter.free_rad == pytest.approx(math.asin(WIND_NM / 4 / WEIGHT_NM), rel=0.02)


def test_wind_from_the_right_swings_it_to_the_left(swung):
    """The same the other way: below nought is clockwise seen from the street."""
    (found,) = swung()

    assert lean(found, 90.0).torque_nm == pytest.approx(-lean(found, 270.0).torque_nm)


def test_without_stops_nothing_is_said_of_them(swung):
    """It rests where it rests, and no force on a stop is made up."""
    (found,) = swung()

    assert (found.stops, found.resting) == (None, None)
    assert all(one.stop_n is None and math.isnan(one.touches) for one in found.leans)
    assert all(one.rests_rad == one.free_rad for one in found.leans)


def test_stops_take_what_the_weight_does_not(swung):
    """At 10 degrees the weight holds 121.9 sin 10 deg; the rest, over 0.2 m, is on the stops."""
    (found,) = swung(moving=[STOPS])
    blown = lean(found, 270.0)
    held_nm = WEIGHT_NM * math.sin(math.radians(10))

    assert blown.rests_rad == pytest.approx(math.radians(10))
    assert blown.stop_n.high_n == pytest.approx((blown.torque_nm - held_nm) / 0.2)
    assert blown.stop_n.low_n == 0
    assert blown.touches == pytest.approx(math.sqrt(held_nm / blown.torque_nm))
    assert lean(found, 270.0, 0.5).touches == pytest.approx(blown.touches)
    assert found.resting == (0.0, 0.0)


def test_what_is_mounted_on_it_swings_with_it(swung, steps):
    """A lump on an assembly of its own counts as one on the sign does."""
    apart = steps(
        upto="swinging",
        job=STATED,
        parts=[BOARD, LUMP | {"assembly": "moth"}],
        assemblies=[SIGN, {"assembly": "moth", "mounted on": "sign"}],
    )["swinging"]

    assert apart[0].hung == pytest.approx(swung()[0].hung)


def test_without_a_pressure_it_only_hangs(swung):
    """Where it hangs is known; how far it leans is not."""
    (found,) = swung(wind=False)

    assert found.leans == ()
    assert found.hung.greatest_nm == pytest.approx(WEIGHT_NM)


@pytest.mark.parametrize(
    ("sign", "moving"),
    [
        ({"axis": "up"}, []),
        ({"moves": "fixed"}, []),
        ({}, [{"assembly": "sign", "drive torque": "30 Nm"}]),
        ({}, [{"assembly": "sign", "drive weight": "3 kg", "drum": "100 mm"}]),
    ],
)
def test_what_is_driven_upright_or_fixed_does_not_hang_free(swung, sign, moving):
    """Only what nothing but weight and wind turns."""
    assert swung(moving=moving, **sign) == ()


def test_no_wind_along_the_axle_turns_it(swung):
    """From the street the wind meets the board edge-on and pushes along its pins."""
    (found,) = swung()

    assert not [one for one in found.leans if one.direction_deg == 0]


FREE = (
    "free to swing about the line along out through 100 mm below, 800 mm out of the datum until"
    " stops are entered"
)


@pytest.fixture(scope="module")
def recorded(document):
    """Return a function that gives the estimate document of the sign."""

    def estimate(moving=(), **sign):
        return document(
            job=STATED, parts=[BOARD, LUMP], assemblies=[SIGN | sign], moving=list(moving)
        )

    return estimate


def test_the_document_says_what_is_free(recorded):
    """In the record of the assembly, in every position, and in its own."""
    found = recorded()

    assert [row["free"] for row in found["assemblies"]] == [FREE] * 3
    assert found["swinging"][0]["free"] == FREE
    assert found["swinging"][0]["stops_deg"] is None


def test_with_stops_it_is_no_longer_said_to_be_free(recorded):
    """Then the force on them is in the record."""
    found = recorded(moving=[STOPS])

    assert {row["free"] for row in found["assemblies"]} == {""}
    (swung,) = found["swinging"]
    assert swung["free"] == ""
    assert swung["stops_deg"] == pytest.approx([-10, 10])
    (worst,) = [x for x in swung["leans"] if (x["direction_deg"], x["speed"]) == (90.0, 1.0)]
    assert worst["free_deg"] is None
    assert worst["stop_n"][0] > worst["stop_n"][1] == 0


def test_an_axle_at_the_datum_is_said_to_be_there(recorded):
    """No distance is printed that is nought."""
    found = recorded(up="0 mm", out="0 mm", across="-20 mm")

    assert found["swinging"][0]["free"].startswith(
        "free to swing about the line along out through 20 mm to the left of the datum"
    )
    at_datum = recorded(up="0 mm", out="0 mm")
    assert " through the datum until" in at_datum["swinging"][0]["free"]
