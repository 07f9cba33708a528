"""Recording blanks: what each sheet is cut from and weighs, as records for print."""

import math
from collections.abc import Sequence
from typing import Any

from estimator.reference.finding import Miss
from estimator.reference.forming import find_forming
from estimator.reference.library import Library
from estimator.resolve.records import Pattern
from estimator.stages.blanking import Blanked

DRAWN = frozenset({"disc", "oval", "sector", "outline", "gores", "segments", "net"})
"""Kinds of blank whose outline is recorded; the others are rectangles and rings."""


def blank_records(blanks: Sequence[Blanked]) -> list[dict[str, Any]]:
    """Return a record for each sheet of each part."""
    return [_record(one) for one in blanks]


def forming_records(library: Library) -> list[dict[str, Any]]:
    """Return every way of forming, with who says so."""
    found = [find_forming(library, row.key) for row in library.table("forming").rows]
    return [
        {
            "forming": way.key,
            "mass_low": way.mass_low,
            "mass_likely": way.mass_likely,
            "mass_high": way.mass_high,
            "trim_low": way.trim_low,
            "trim_high": way.trim_high,
            "thinning_low": way.thinning_low,
            "thinning_high": way.thinning_high,
            "source": str(way.citation),
        }
        for way in found
        if not isinstance(way, Miss)
    ]


def lap_assumptions(blanks: Sequence[Blanked]) -> list[tuple[str, str, str]]:
    """Return which laps count that nobody typed: what, value, why."""
    found: dict[str, list[str]] = {}
    for one in blanks:
        pattern = one.pattern
        if pattern.seam.stays and not pattern.laps_typed and pattern.joint_share > 0:
            share = f"{one.part.key} {100 * pattern.joint_share:.1f} %"
            found.setdefault(pattern.seam.joint, []).append(share)
    return [
        (
            "laps at joints",
            joint,
            f"no build-up types them, so that those worked out count: {', '.join(all_)}",
        )
        for joint, all_ in found.items()
    ]


def _record(one: Blanked) -> dict[str, Any]:
    """Return the record of one sheet."""
    part, layer, pattern = one.part, one.layer, one.pattern
    return {
        "part": part.key,
        "name": part.name,
        "count": part.count,
        "layer": layer.name,
        "material": layer.material,
        "gauge": layer.gauge,
        "forming": pattern.forming.key if pattern.forming else None,
        "relief": part.relief,
        "kind": pattern.blank.kind,
        "why": pattern.blank.why,
        "sizes": [size._asdict() for size in pattern.blank.sizes],
        "pieces": [
            {
                "number": pattern.copies * piece.number,
                "length_m": piece.length_m,
                "width_m": piece.width_m,
            }
            for piece in pattern.cut.pieces
        ],
        **_joints(pattern),
        "blank_m2": pattern.blank_m2,
        "trim_m2": pattern.trim_m2,
        "finished_m2": pattern.finished_m2,
        "by_blank_kg": one.by_blank_kg,
        "by_area_kg": one.by_area_kg,
        "used": one.used,
        "thickness_m": layer.thickness_m,
        "mean_m": one.mean_m,
        "thinnest_m": one.thinnest_m,
        "warning": one.warning,
        "notes": list(one.notes),
        "outline": _outline(pattern),
    }


def _joints(pattern: Pattern) -> dict[str, Any]:
    """Return how the pieces of one part are joined."""
    seam = pattern.seam
    slope_deg = math.degrees(seam.slope_rad)
    return {
        "joint": seam.joint,
        "joint_low_m": seam.low_m,
        "joint_high_m": seam.high_m,
        "joint_stays": seam.stays,
        "joint_source": seam.why,
        "slope_deg": None if math.isnan(slope_deg) else slope_deg,
        "joints": pattern.copies * pattern.cut.joints,
        "joint_m": pattern.copies * pattern.cut.joint_m,
        "joint_share": pattern.joint_share,
    }


def _outline(pattern: Pattern) -> list[list[list[float]]]:
    """Return the outline of one piece as developed, as loops of points, to a hundredth of a mm."""
    if pattern.blank.kind not in DRAWN:
        return []
    return [[[round(x, 5), round(y, 5)] for x, y in loop] for loop in pattern.blank.pieces[0].loops]
