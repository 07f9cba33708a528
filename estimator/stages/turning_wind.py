"""More ways for the wind to act on a mover: on its face, hollow, upright, and as a vane."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

from estimator.resolve.weather import Weather
from estimator.stages.blowing_rules import Pressure
from estimator.supports.hands import ECCENTRICITY, Side, face_wind, wind_torque
from estimator.supports.vanes import Vane
from estimator.wind import asce7, en1991, walls
from estimator.wind.handbook import drag

SETTLED = {
    "tip": "settles with its tip downwind",
    "other": "settles with its tip into the wind",
    "": "does not settle: both sides are alike",
}


NEAR_DEG = 45.0
"""Winds so far off a side push a hand as hard as wind straight from it: a plate feels what it feels
face-on up to there (common practice, no source)."""


class Windward(NamedTuple):
    """Where wind comes from that pushes on the face of what turns, and on its edge.

    Attributes:
        square_deg: Onto the face, for print; None for any side.
        along_words: Along the plane of turning.
        square: Sides of wind onto the face.
        along: Sides of wind along the plane.
    """

    square_deg: float | None
    along_words: str
    square: tuple[float, ...]
    along: tuple[float, ...]


WINDWARD: Mapping[str, Windward] = MappingProxyType(
    {
        "out": Windward(0.0, "90 or 270", (0.0, 180.0), (90.0, 270.0)),
        "across": Windward(90.0, "0", (90.0, 270.0), (0.0, 180.0)),
        "up": Windward(None, "any", (0.0, 90.0, 180.0, 270.0), (0.0, 90.0, 180.0, 270.0)),
    }
)
"""By axle."""


def pressure_from(
    pressure: Pressure, sides_deg: tuple[float, ...], directions_deg: Sequence[float], stands: str
) -> float:
    """Return the highest pressure from near some sides; of all sides where none was looked at.

    Args:
        pressure: On what turns.
        sides_deg: Wanted.
        directions_deg: That were looked at.
        stands: How what turns stands: what cannot reach it does not count.
    """
    near = [
        share
        for share, direction_deg in zip(pressure.shares, directions_deg, strict=True)
        if walls.reaches(stands, direction_deg)
        and any(_apart(direction_deg, side_deg) <= NEAR_DEG for side_deg in sides_deg)
    ]
    return pressure.pressure_pa * max(near or pressure.shares)


def _apart(one_deg: float, other_deg: float) -> float:
    return abs((one_deg - other_deg + 180.0) % 360.0 - 180.0)


def face_words(face: tuple[Side, Side], push_pa: float) -> str:
    """Return what wind square to the plane of turning does beside turning: nothing of it turns.

    Args:
        face: Blade and tail, seen along the axle.
        push_pa: Pressure times the coefficient of the face.
    """
    force_n, root_nm, twist_nm = face_wind(*face, push_pa)
    return (
        f"wind square to its face pushes {force_n:.3g} N along the axle, bends the blade at the "
        f"axle by {root_nm:.3g} N m and, {ECCENTRICITY:g} of the width off its middle, twists it "
        f"about its own length by {twist_nm:.3g} N m; none of that turns the axle"
    )


def hollow_torque(edge: tuple[Side, Side], pressure_pa: float) -> tuple[float, str]:
    """Return the torque were the blade a half tube with its hollow along the plane, and why.

    The blade takes the wind in its hollow, the tail on its back, as a cup wheel does.
    """
    into, onto = drag("trough, hollow to the wind"), drag("trough, round to the wind")
    torque_nm = wind_torque(pressure_pa * into.value, *edge, tail_share=onto.value / into.value)
    return torque_nm, (
        f"{into.value:.2f} into the hollow of the blade, {onto.value:.2f} on the back of the tail "
        "(handbook)"
    )


def upright_share(weather: Weather, axle_m: float, face: tuple[Side, Side]) -> float:
    """Return the pressure on the tail below the axle as a share of that on the blade above it.

    Args:
        weather: Of the job.
        axle_m: Axle above the datum.
        face: Blade and tail, seen along the axle.
    """
    axle_m += weather.datum_m
    above, below = (
        _pressure_pa(weather, axle_m + side)
        for side in (face[0].radius_m, -face[1].radius_m)
    )  # fmt: skip
    return below / above


def _pressure_pa(weather: Weather, height_m: float) -> float:
    """Return the pressure of the rule at a height; a stated one is the same at every height."""
    within_m = min(max(height_m, 0.0), en1991.HIGHEST_M)
    if isinstance(weather.site, en1991.Site):
        return en1991.site_pressure(weather.site, within_m).pressure_pa
    if isinstance(weather.site, asce7.Site):
        return asce7.site_pressure(weather.site, within_m).pressure_pa
    return 1.0


def vane_words(vane: Vane) -> str:
    """Return which way a vane settles, and whether it is in balance, with the figures."""
    settled = (
        f"turns freely: area moment about the spindle {vane.tip_m3:.3g} m3 on the side of its tip "
        f"and {vane.other_m3:.3g} m3 on the other, so it {SETTLED[vane.settles]}"
    )
    if vane.balanced:
        return f"{settled}; its mass moment about the spindle is nothing to speak of"
    heavy = "the side of the tip" if vane.tip_kgm > 0 else "the side away from the tip"
    return (
        f"{settled}; its mass moment about the spindle is {abs(vane.tip_kgm):.3g} kg m to {heavy} "
        f"and {abs(vane.aside_kgm):.3g} kg m square to that: it bends the spindle, and a spindle "
        "out of plumb lets that side swing down"
    )
