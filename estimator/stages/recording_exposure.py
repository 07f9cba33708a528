"""Records of slender parts, of ice and of the wind to work in, for the estimate document."""

from typing import Any

from estimator.stages.icing import Iced, IcedAssembly
from estimator.stages.recording_loads import known, numbers
from estimator.stages.slender import Slender, Slenders, Speeds
from estimator.stages.working import Force, Lift, Working
from estimator.wind import ice, shedding, working


def slender_record(slenders: Slenders) -> dict[str, Any]:
    """Return every slender part, slowest first, and the lines they are held against."""
    return {
        "parts": [_slender(one) for one in slenders.found],
        "lines": [line._asdict() for line in shedding.LINES],
        "decrement": shedding.WELDED_DECREMENT,
        "unknown": [{"part": part, "why": why} for part, why in slenders.unknown],
    }


def _slender(one: Slender) -> dict[str, Any]:
    return {
        "part": one.part,
        "name": one.name,
        "assembly": one.assembly,
        "held": one.held,
        "length_m": one.length_m,
        "across_m": one.across_m,
        "mass_kg_m": one.mass_kg_m,
        "modulus_pa": list(one.modulus_pa),
        "tip": one.tip,
        "tip_kg": one.tip_kg,
        "alone_hz": list(one.alone_hz),
        "hz": list(one.hz),
        "below": [line.rule for line in shedding.LINES if one.hz[0] <= line.hz],
        "speeds": None if one.speeds is None else _speeds(one.speeds),
    }


def _speeds(speeds: Speeds) -> dict[str, Any]:
    return {
        "section": speeds.kind,
        "width_m": speeds.width_m,
        "height_m": known(speeds.height_m),
        "mean_m_s": known(speeds.mean_m_s),
        "strouhal": speeds.strouhal,
        "critical_m_s": list(speeds.critical_m_s),
        "critical_beaufort": [working.beaufort(speed) for speed in speeds.critical_m_s],
        "sheds": speeds.sheds,
        "scruton": speeds.scruton,
        "galloping_factor": known(speeds.galloping_factor),
        "galloping_m_s": known(speeds.galloping_m_s),
        "gallops": speeds.gallops,
    }


def ice_record(iced: Iced) -> dict[str, Any] | None:
    """Return the ice on the job; None where the job sheet states none."""
    if iced.ice_class is None:
        return None
    return {
        "thickness_m": iced.thickness_m,
        "density_kg_m3": iced.density_kg_m3,
        "ice_class": iced.ice_class.name,
        "wind_level": iced.level,
        "reduction": iced.ice_class.reduction,
        "ice_kg": iced.ice_kg,
        "cg_m": numbers(iced.centre_m) if iced.ice_kg > 0 else None,
        "assemblies": [_iced(one) for one in iced.assemblies],
        "parts": [one._asdict() for one in iced.parts],
        "combinations": [combination._asdict() for combination in ice.COMBINATIONS],
        "bare": list(iced.bare),
    }


def _iced(one: IcedAssembly) -> dict[str, Any]:
    return {
        "assembly": one.assembly,
        "ice_kg": one.ice_kg,
        "cg_m": numbers(one.centre_m),
        "weight_n": one.weight_n,
        "front_m2": one.front_m2[0],
        "iced_front_m2": one.front_m2[1],
        "side_m2": one.side_m2[0],
        "iced_side_m2": one.side_m2[1],
        "front_n": known(one.front_n),
        "side_n": known(one.side_n),
    }


def working_record(found: Working) -> dict[str, Any]:
    """Return the winds to work and lift in."""
    return {
        "spoken": [{**one._asdict(), "name": working.NAMES[one.beaufort]} for one in found.spoken],
        "forces": [_force(one) for one in found.forces],
        "height_m": known(found.height_m),
        "lifts": [_lift(one) for one in found.lifts],
        "crane_m_s": known(found.crane_m_s),
        "drag": working.LIFTING_DRAG["unknown"],
        "chart_m2_t": working.CHART_M2_T,
        "altitude_m": known(found.altitude_m),
        "density_kg_m3": known(found.density_kg_m3),
        "used_kg_m3": known(found.used_kg_m3),
    }


def _force(one: Force) -> dict[str, Any]:
    named = {**one._asdict(), "name": working.NAMES[one.beaufort]}
    return {**named, "gust_high_m_s": known(one.gust_high_m_s)}


def _lift(one: Lift) -> dict[str, Any]:
    limits = {"limit_m_s": known(one.limit_m_s), "cautious_m_s": known(one.cautious_m_s)}
    return {**one._asdict(), **limits}
