"""Parts of shape `measured`: what was read on a maquette, as the model of a part at full size."""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

import numpy as np

from estimator.core.problems import Cell, Problem, Severity
from estimator.geometry.maquettes import (
    ENDS,
    SEEN_FROM,
    Doubt,
    Readings,
    box_of,
    doubts,
    ellipsoid_axes,
    model_of,
    overfull,
    quotient,
    shadow_areas,
)
from estimator.geometry.measures import Floats
from estimator.geometry.placing import pointing
from estimator.resolve.names import refusal
from estimator.resolve.readings import (
    FOIL,
    FOIL_PER_M2,
    LINES,
    MEASURED,
    SHADOWS,
    WATER,
    Taken,
    question,
    scale_of,
    taken,
)
from estimator.resolve.records import Indices, Kind, Layer, Modelled, Spread
from estimator.sheets.rows import Row

STREET_FIRST = (2, 0, 1)
"""Axes a shadow is seen along, in the order they are told."""
SIDES = ("length", "width", "depth")
"""Sides of the envelope as the row of the part names them: along, beside, faces."""
SEEN_M = 0.001
"""What is drawn shorter by less than this is not worth a sentence."""
ABOUT: Mapping[str, Sequence[str]] = {
    "skin": (FOIL,), "volume": (WATER,), "shadow": SHADOWS, "balance": LINES,
}  # fmt: skip
"""The readings that a doubt is about, by axis where there are three."""
_SKIN, _VOLUME = f"{FOIL} and {FOIL_PER_M2}", WATER
NEEDS: Mapping[str, str] = {
    **dict.fromkeys(("one face", "both faces", "whole outside"), _SKIN),
    **dict.fromkeys(("solid", "inside"), _VOLUME),
}
"""The readings without which nothing can lie over these."""


def measured_model(
    row: Row,
    readings: Sequence[Row],
    layers: tuple[Layer, ...],
    problems: list[Problem],
    unread: Sequence[Row] = (),
) -> Modelled | None:
    """Return the model of a part of shape `measured`; None, with problems, when there is none.

    Args:
        row: Of the parts sheet.
        readings: Rows of the maquette sheet for the part.
        layers: What it is made of.
        problems: Takes what is wrong, and what should be looked at.
        unread: Rows of the maquette sheet for the part that could not be read.
    """
    found = [_lost(row, other) for other in unread]
    read = taken(readings, found)
    scale = scale_of(row, readings, found)
    full = _readings(read).full_size(scale)
    stands = _stands(row)
    upright_m = np.array([row.number(side) for side in SIDES])[_own_axes(stands)]
    if not _refused(found):
        found += _unsized(row, full, upright_m, stands)
    if not _refused(found):
        found += [*_unlaid(row, full, layers), *_asked(row, readings, full, upright_m, layers)]
    problems += [*found, *_kept_from_use(row, found)]
    if _refused(found):
        return None
    return Modelled(
        key=f"maquette of {row.text('part')}",
        shape=MEASURED,
        model=model_of(full, upright_m, stands),
        scale=scale,
        facts=(*_facts(read, full, upright_m, scale),),
        spreads=_spreads(row.text("part"), read, full),
    )


def with_spreads(layers: tuple[Layer, ...], modelled: Modelled) -> tuple[Layer, ...]:
    """Return the layers of a part with what the readings they lie over may be off.

    Layers over one reading share its cause, so that they err together.
    """
    return tuple(
        replace(layer, spreads=(*layer.spreads, modelled.spreads[layer.over]))
        if layer.over in modelled.spreads
        else layer
        for layer in layers
    )


def _refused(problems: Iterable[Problem]) -> bool:
    return any(problem.severity is Severity.REFUSED for problem in problems)


def _kept_from_use(row: Row, found: Sequence[Problem]) -> Iterable[Problem]:
    """Yield the problem of a part that a reading elsewhere keeps from being used."""
    refused = [problem for problem in found if problem.severity is Severity.REFUSED]
    if refused and all(problem.cell.sheet != row.sheet for problem in refused):
        why = f"the reading at {refused[0].cell} cannot be used; mend that first"
        yield refusal(row, "shape", why, "", "")


def _lost(row: Row, other: Row) -> Problem:
    found = f"row {other.line} of maquette, a reading on it, cannot be used; mend that first"
    return refusal(row, "shape", found, "", "")


def _readings(read: Taken) -> Readings:
    """Return what was read by what it measures, at the size of the maquette."""
    get = read.figures.get
    foil, per_m2 = get(FOIL), get(FOIL_PER_M2)
    return Readings(
        quotient(foil, per_m2) if foil and per_m2 else None,
        get(WATER),
        tuple(get(name) for name in SHADOWS),
        tuple(get(name) for name in LINES),
    )


def _stands(row: Row) -> Floats:
    """Return how the part points; crossed axes are told elsewhere."""
    along, faces = row.text("along"), row.text("faces")
    return pointing() if along and along == faces else pointing(along, faces)


def _own_axes(stands: Floats) -> Indices:
    """Return for each of (across, up, out) the axis of the part's own frame that lies along it."""
    axes: Indices = np.abs(stands).argmax(axis=1)
    return axes


def _unsized(row: Row, full: Readings, upright_m: Floats, stands: Floats) -> list[Problem]:
    """Return which sides nobody gave that are needed."""
    own = [SIDES[i] for i in _own_axes(stands)]
    missing = [side for side, size_m in zip(own, upright_m, strict=True) if math.isnan(size_m)]
    if np.isnan(shadow_areas(full, upright_m)).any():
        blank = " and ".join(side for side in SIDES if side in missing)
        untraced = " and ".join(
            SEEN_FROM[i] for i in STREET_FIRST if full.shadows_m2[i] is None
        )  # fmt: skip
        words = (f"nothing says how large it is: {blank} blank, no shadow area {untraced}",
                 "length, width and depth at full size, or all three shadow areas",
                 "type the sides here, or the shadows on the maquette sheet")  # fmt: skip
        return [refusal(row, missing[0], *words)]
    return [
        refusal(row, side, f"the {line} is measured from the {end}, and this side is not given",
                f"the {side} at full size", "type it")
        for line, end, side, point in zip(LINES, ENDS, own, full.balance_m, strict=True)
        if point is not None and side in missing
    ]  # fmt: skip


def _unlaid(row: Row, full: Readings, layers: Sequence[Layer]) -> Iterable[Problem]:
    """Yield for each reading nobody took the first layer that cannot be laid without it."""
    has = {_SKIN: full.skin_m2, _VOLUME: full.volume_m3}
    told: set[str] = set()
    for layer in layers:
        needs = NEEDS.get(layer.over)
        if needs is None or needs in told or has[needs] is not None:
            continue
        told.add(needs)
        where = "the inside" if layer.over == "inside" else layer.over
        words = (f'the layer "{layer.name}" lies over {where}, and nobody read {needs}',
                 f"{needs} of {row.text('part')} on the maquette sheet",
                 "type what was read, or give a mass each")  # fmt: skip
        at = layer.cell if layer.cell and layer.cell.sheet == row.sheet else row.cell("made_of")
        yield replace(refusal(row, "made_of", *words), cell=at)


def _asked(
    row: Row, readings: Sequence[Row], full: Readings, upright_m: Floats, layers: Sequence[Layer]
) -> list[Problem]:
    """Return what should be looked at, at the cell of the reading."""
    cells: dict[str, Cell] = {}
    for other in readings:
        cells.setdefault(other.text("reading"), other.cell("value"))
    advice = "look at the reading, its unit and the scale: 1:10 is a model a tenth as long"
    found = []
    for doubt in doubts(full, upright_m):
        cell = cells.get(_reading_of(doubt), row.cell("scale"))
        found.append(Problem(Severity.QUESTION, cell, doubt.why, "", advice, row.text("part")))
    for layer in layers:
        if NEEDS.get(layer.over) == _SKIN and (why := overfull(full, layer.thickness_m)):
            sheet = "is that the thickness of the model's own material, times the scale?"
            found.append(question(row, "gauge" if row.has("gauge") else "made_of", why, sheet))
    if row.number("relief", 1.0) > 1 and full.skin_m2:
        why = f"relief {row.number('relief'):g} is counted on top of the skin that was foiled"
        found.append(question(row, "relief", why, "leave it blank if the model has the relief"))
    return found


def _reading_of(doubt: Doubt) -> str:
    """Return the reading a doubt is about; blank for the size of the whole."""
    names = ABOUT.get(doubt.about, ("",))
    return names[doubt.axis]


def _spreads(part: str, read: Taken, full: Readings) -> dict[str, Spread]:
    """Return what each place a layer may lie over varies with; nothing for what is exact."""
    causes = {
        _SKIN: (full.skin_m2, f"foil on the maquette of {part}", (FOIL, FOIL_PER_M2)),
        _VOLUME: (full.volume_m3, f"water displaced by the maquette of {part}", (WATER,)),
    }
    spreads = {}
    for over, needs in NEEDS.items():
        figure, cause, names = causes[needs]
        if figure and figure.half > 0:
            off = figure.share
            spreads[over] = Spread(cause, off, off, Kind.SIZES, why=read.told(names))
    return spreads


def _facts(read: Taken, full: Readings, upright_m: Floats, scale: float) -> Iterable[str]:
    """Yield what there is to say of a model, as sentences for print."""
    if read.figures:
        yield (
            f"Read on a model at 1:{scale:g}: "
            f"areas are taken {scale**2:.7g} times, volumes {scale**3:.7g} times."
        )
    shadows = [(f"Shadow from the {SEEN_FROM[i]}", full.shadows_m2[i], "m2", (SHADOWS[i],))
               for i in STREET_FIRST]  # fmt: skip
    for what, figure, unit, names in (
        ("Skin", full.skin_m2, "m2", (FOIL, FOIL_PER_M2)),
        ("Volume", full.volume_m3, "m3", (WATER,)),
        *shadows,
    ):
        if figure:
            yield (
                f"{what} {figure.value:.3g} {unit}: one in twenty lies below {figure.low:.3g}, "
                f"one in twenty above {figure.high:.3g} ({read.told(names)})."
            )
    yield from _balance_facts(read, full)
    yield from _stand_in_facts(full, upright_m)


def _balance_facts(read: Taken, full: Readings) -> Iterable[str]:
    found = [
        f"{1000 * point.value:.0f} mm from the {end}, "
        f"give or take {1000 * point.half:.0f} mm ({how})"
        for line, end, point in zip(LINES, ENDS, full.balance_m, strict=True)
        if point and (how := read.how[line])
    ]
    if found:
        yield (
            f"Balance point {', '.join(found)}: that of the model, and of the thing itself where "
            "its weight is spread alike."
        )
    if len(found) < len(LINES):
        rest = "the other ways" if found else "across, up and out"
        yield f"No hang line says more: {rest} its weight is taken at the middle of its envelope."


def _stand_in_facts(full: Readings, upright_m: Floats) -> Iterable[str]:
    axes_m, box_m = ellipsoid_axes(shadow_areas(full, upright_m)), box_of(full, upright_m)
    traced = sum(shadow is not None for shadow in full.shadows_m2)
    by = f"{traced} of 3 shadows" if traced else "its envelope alone"
    yield (
        f"Drawn, and met by the wind, as an ellipsoid {_mm(axes_m)} (across, up, out) about the "
        f"middle of its envelope, found from {by}; its envelope is {_mm(box_m)}."
    )
    short_m = float((box_m - axes_m).max()) / 2
    if short_m > SEEN_M:
        yield f"So it is drawn up to {1000 * short_m:.0f} mm short of where it ends."


def _mm(sides_m: Floats) -> str:
    return " x ".join(f"{1000 * side_m:.0f}" for side_m in sides_m) + " mm"
