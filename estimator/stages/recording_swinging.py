"""Recording of what hangs free on its axle: what is left free, how far it leans, its stops."""

import math
from typing import Any

from estimator.stages.recording_loads import known
from estimator.stages.swinging import Lean, Swung
from estimator.supports.swinging import StopForce

SIDES = (("to the left", "to the right"), ("below", "above"), ("in", "out"))
"""Names of either way along each axis, for the place of an axle."""


def freedom(swung: Swung) -> str:
    """Return in words what is free to swing, and until when."""
    place = ", ".join(
        f"{1000 * abs(value_m):.0f} mm {SIDES[axis][value_m > 0]}"
        for axis, value_m in enumerate(swung.axle_m)
        if abs(value_m) >= 0.0005  # noqa: PLR2004 - what rounds to nought in print
    )
    where = f"{place} of the datum" if place else "the datum"
    return (
        f"free to swing about the line along {swung.axis} through {where} until stops are entered"
    )


def swinging_record(swung: Swung) -> dict[str, Any]:
    """Return what hangs free on one level axle."""
    stops = swung.stops
    return {
        "assembly": swung.assembly,
        "axis": swung.axis,
        "axle_m": list(swung.axle_m),
        "free": "" if stops else freedom(swung),
        "gravity_torque_nm": swung.hung.greatest_nm,
        "plumb_deg": math.degrees(swung.hung.plumb_rad),
        "stops_deg": [math.degrees(stops.low_rad), math.degrees(stops.high_rad)] if stops else None,
        "stop_arm_m": stops.arm_m if stops else None,
        "resting_n": _pair(swung.resting),
        "leans": [_lean(lean) for lean in swung.leans],
    }


def _lean(lean: Lean) -> dict[str, Any]:
    """Return what one wind does; an angle that is nowhere is None."""
    return {
        "direction_deg": lean.direction_deg,
        "speed": lean.speed,
        "torque_nm": lean.torque_nm,
        "free_deg": _deg(lean.free_rad),
        "rests_deg": _deg(lean.rests_rad),
        "stop_n": _pair(lean.stop_n),
        "touches": known(lean.touches) if math.isfinite(lean.touches) else None,
    }


def _pair(force: StopForce | None) -> list[float] | None:
    return None if force is None else [force.low_n, force.high_n]


def _deg(angle_rad: float) -> float | None:
    return math.degrees(angle_rad) if math.isfinite(angle_rad) else None
