"""Blanking: what each sheet is cut from, and its mass by blanks beside that by finished area."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from estimator.resolve.job import Resolved
from estimator.resolve.patterns import STEEP_RAD
from estimator.resolve.records import Kind, Layer, Part, Pattern
from estimator.resolve.trade import SHEETS
from estimator.stages.measuring import GAINS

BY_BLANK, BY_AREA = "blank less trim", "finished area x gauge"


@dataclass(frozen=True, slots=True, kw_only=True)
class Blanked:
    """One sheet of one part.

    Attributes:
        part: The part.
        layer: The layer.
        pattern: What it is cut from.
        by_blank_kg: Mass of all copies by their blanks, trim off and laps on.
        by_area_kg: Mass of all copies by finished area x gauge, laps on.
        used: Which of the two counts.
        mean_m: Mean thickness after forming.
        thinnest_m: Thickness to be expected where it is thinnest.
        warning: That it comes out thinner than its build-up says; blank when it does not.
        notes: What else to know of it, as sentences.
    """

    part: Part
    layer: Layer
    pattern: Pattern
    by_blank_kg: float
    by_area_kg: float
    used: str
    mean_m: float
    thinnest_m: float
    warning: str
    notes: tuple[str, ...]


def lay_out(resolved: Resolved) -> tuple[Blanked, ...]:
    """Return every sheet over a face of every part, in the order of the parts."""
    return tuple(
        _blanked(part, layer, layer.pattern)
        for part in resolved.columns.parts
        for layer in part.layers
        if layer.pattern is not None and layer.form == SHEETS and layer.over in GAINS
    )


def _blanked(part: Part, layer: Layer, pattern: Pattern) -> Blanked:
    kg_m2 = layer.mass_per_size_kg * (1.0 + layer.laps) * part.count * (1.0 - part.cut_away)
    forming = pattern.forming
    mean_m = layer.thickness_m * (forming.mass_likely if forming else 1.0)
    return Blanked(
        part=part,
        layer=layer,
        pattern=pattern,
        by_blank_kg=kg_m2 * (pattern.blank_m2 - pattern.trim_m2),
        by_area_kg=kg_m2 * pattern.finished_m2,
        used=BY_BLANK if forming else BY_AREA,
        mean_m=mean_m,
        thinnest_m=layer.thickness_m * (1.0 - forming.thinning_high if forming else 1.0),
        warning=_thin(layer, mean_m),
        notes=tuple(_notes(part, layer, pattern)),
    )


def _thin(layer: Layer, mean_m: float) -> str:
    """Return that a sheet comes out thinner than its gauge may be; blank when it does not."""
    off = max((spread.low for spread in layer.spreads if spread.kind is Kind.GAUGE), default=0.0)
    if not mean_m < layer.thickness_m * (1.0 - off):
        return ""
    less = 100 * (1.0 - mean_m / layer.thickness_m)
    return (
        f"its mean thickness is {1000 * mean_m:.2f} mm, {less:.0f} % under the"
        f" {1000 * layer.thickness_m:.2f} mm of the sheet; the sheet itself may be"
        f" {100 * off:.0f} % under"
    )


def _notes(part: Part, layer: Layer, pattern: Pattern) -> Iterator[str]:
    """Yield what was taken for granted of one sheet."""
    if part.relief > 1.0 and pattern.forming is None:
        yield f"hammering adds skin, and no way of forming is named: {BY_AREA} counts"
    if pattern.cut.number > max(part.pieces, pattern.blank.number):
        yield f"in {pattern.cut.number} pieces, for the longest piece that was asked for"
    if pattern.cut.joints:
        yield from _joint_notes(layer, pattern)
    if part.pieces > 1 and pattern.blank.kind == "area":
        yield f"its {part.pieces} pieces are not laid out, so that no joint between them counts"


def _joint_notes(layer: Layer, pattern: Pattern) -> Iterator[str]:
    """Yield what is taken for the joints of one sheet."""
    seam, share = pattern.seam, 100 * pattern.joint_share
    if not seam.joint:
        yield f"no joint of {layer.material} is in the tables, so that nothing is added for it"
        return
    if pattern.laps_typed:
        yield (
            f"its build-up types laps of {100 * layer.laps:.3g} %, which count; worked out they"
            f" come to {share:.1f} %"
        )
    elif seam.stays:
        yield f"laps of {share:.1f} % count in its mass, since its build-up types none"
    if seam.stays and math.isnan(seam.slope_rad):
        yield f"its joints count as on a slope of {math.degrees(STEEP_RAD):.0f} degrees"
