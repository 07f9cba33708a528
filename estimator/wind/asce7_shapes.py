"""Parts one by one by ASCE/SEI 7-16 and 7-22: chimney-like bars, boards, box signs, open frames.

What neither edition has a figure for, balls, dishes, cones, ends and figures, stays with the
handbooks and says so. Coefficients multiply the pressure of `asce7.site_pressure`, which holds one
K_d for everything; chimney-like bars have a larger one of their own and are raised to it.
"""

from dataclasses import replace
from functools import partial

import numpy as np

from estimator.wind.asce7 import CHIMNEY_DIRECTIONALITY, SIGN_DIRECTIONALITY
from estimator.wind.asce7_frames import HEIGHTS, chimney, open_sign, round_regime
from estimator.wind.asce7_signs import (
    CASE_B,
    CLEARANCES,
    LEAST_PRESSURE_PA,
    SOLID_FROM,
    box_sign_factor,
    box_sign_offset,
    openings_factor,
    sign_coefficient,
)
from estimator.wind.coefficients import NEARLY_SQUARE, Bar, Tube
from estimator.wind.records import Coefficient, FloatArray
from estimator.wind.shapes import Book

_FIGURE = "ASCE 7, 29.3.1, Figure 29.3-1, as in public transcriptions (CIRSOC 102)"
_BY_ITSELF = 0.05
"""Solidity of a frame of which one member is all: the first column of Figure 29.4-2."""
_SIX_OR_EIGHT = {6: "six sides", 8: "eight sides"}
_AIR_KG_M3 = 1.25
_NOTHING_N = 1e-6
"""A force below this is nought but for rounding, and is not raised to anything."""


def _with_own(found: Coefficient, section: str, directionality: float) -> Coefficient:
    """Return a chimney's coefficient, raised by its own K_d over that in the pressure."""
    own = CHIMNEY_DIRECTIONALITY[section]
    if own <= directionality:
        return found
    return replace(
        found,
        value=found.value * own / directionality,
        rule=f"{found.rule}, C_f {found.value:.3g} times its own K_d of {own:.2f} over the "
        f"{directionality:.2f} in the pressure",
        source=f"{found.source}; K_d from Table 26.6-1",
    )


def _board(long_m: float, wide_m: float) -> Coefficient:
    """Return C_f of a board that may hang any way up and at any height: the largest of them."""
    aspect = long_m / wide_m
    ways = {ratio: sign_coefficient(ratio, CLEARANCES[0]) for ratio in (aspect, 1 / aspect)}
    worst = max(ways, key=ways.__getitem__)
    return Coefficient(
        ways[worst],
        f"solid sign high above the ground, B/s {worst:.2g}",
        _FIGURE,
        confirmed=True,
        others=(("on the ground", sign_coefficient(worst, CLEARANCES[-1])),),
    )


def _plate(long_m: float, wide_m: float, closed: float) -> Coefficient:
    solid = _board(long_m, wide_m)
    if closed == 1.0:
        return solid
    if closed <= SOLID_FROM:
        frame = open_sign(closed)
        return Coefficient(closed * frame.value, frame.rule, frame.source, frame.confirmed,
                           others=(("the same without openings", solid.value),))  # fmt: skip
    return Coefficient(
        solid.value * openings_factor(closed), f"{solid.rule}, {1 - closed:.0%} open",
        f"{_FIGURE} and note 1", confirmed=True,
        others=(("the same without openings", solid.value),),
    )  # fmt: skip


def _tube(directionality: float, tube: Tube, speed_m_s: float) -> Coefficient:
    """Return C_f of a round bar in slow flow, whatever its regime: the dip is never counted on."""
    slender = tube.length_m / tube.diameter_m
    slow = _with_own(chimney("round, rough", slender), "round", directionality)
    regime = round_regime(tube.diameter_m, _AIR_KG_M3 / 2 * speed_m_s**2)
    fast = _with_own(chimney("round, rough", slender, regime), "round", directionality)
    return Coefficient(
        slow.value, slow.rule, slow.source, slow.confirmed,
        others=(
            (f"rough, with D sqrt(q) {regime:.3g} m sqrt(N/m2) against 5.3", fast.value),
            ("round member of an open frame, slow flow", open_sign(_BY_ITSELF, "round").value),
        ),
    )  # fmt: skip


def _bar(directionality: float, bar: Bar) -> Coefficient:
    """Return C_f of a rectangular bar: a square chimney where it is nearly square, else a flat."""
    low, high = NEARLY_SQUARE
    slender = max(bar.length_m, bar.width_m) / min(bar.length_m, bar.width_m)
    square = chimney("square, face to the wind", slender)
    square = _with_own(square, "square", directionality)
    flat = _flat_member()
    if low <= bar.depth_m / bar.width_m <= high:
        return Coefficient(square.value, square.rule, square.source, square.confirmed,
                           others=((flat.rule, flat.value),))  # fmt: skip
    return flat


def _flat_member() -> Coefficient:
    frame, chimneys = open_sign(_BY_ITSELF), chimney("square, face to the wind", HEIGHTS[-1])
    return Coefficient(frame.value, "flat member by itself, as in a frame hardly closed",
                       frame.source, frame.confirmed,
                       others=((chimneys.rule, chimneys.value),))  # fmt: skip


def _box(sides_m: tuple[float, float, float], _corner_m: float) -> tuple[Coefficient, float]:
    """Return a face of a box sign, and how far its force wanders as a share of a board's way."""
    one_m, other_m, deep_m = sides_m
    solid = _board(one_m, other_m)
    factor = box_sign_factor(deep_m / max(one_m, other_m))
    found = Coefficient(
        factor * solid.value,
        f"{solid.rule}, closed box {deep_m / max(one_m, other_m):.2g} as deep",
        f"{_FIGURE} and note 2",
        confirmed=True,
        others=(("one face alone", solid.value), *solid.others),
    )
    return found, box_sign_offset(deep_m / min(one_m, other_m)) / CASE_B


def _polygon(
    directionality: float, by_en: Coefficient, sides: int, slenderness: float
) -> Coefficient:
    """Return C_f of a bar of many sides: six or eight as a chimney, others in slow flow as round.

    Five sides are taken as a square.
    """
    shape, section = "round, rough", "round"
    if sides in _SIX_OR_EIGHT:
        shape, section = "six or eight sides", _SIX_OR_EIGHT[sides]
    elif sides < min(_SIX_OR_EIGHT):
        shape, section = "square, face to the wind", "square"
    found = _with_own(chimney(shape, slenderness), section, directionality)
    rule = found.rule if sides in _SIX_OR_EIGHT else f"{sides} sides, taken as {found.rule}"
    return Coefficient(found.value, rule, found.source, sides in _SIX_OR_EIGHT,
                       others=((by_en.rule, by_en.value), *by_en.others))  # fmt: skip


def american(directionality: float = SIGN_DIRECTIONALITY) -> Book:
    """Return what ASCE 7 goes by: Figures 29.3-1, 29.4-1 and 29.4-2.

    Args:
        directionality: K_d that is in the pressure.

    References:
        ASCE 7-16 and 7-22, 26.6, Table 26.6-1: 0.85 for signs and frames, more for chimneys.
    """
    return Book(
        plate=_plate,
        tube=partial(_tube, directionality),
        bar=partial(_bar, directionality),
        sharp=lambda _length_m, _width_m: _flat_member(),
        box=_box,
        polygon=partial(_polygon, directionality),
    )


def raised(force_n: FloatArray, area_m2: FloatArray) -> FloatArray:
    """Return what forces are times for the least pressure on the area seen from the wind, (d,).

    Args:
        force_n: (d,) size of the force from each direction; none stays none.
        area_m2: (d,) outline seen from there.

    References:
        ASCE 7-16 and 7-22, 29.7: not less than 0.77 kN/m2 (16 psf) times the area; the number of
        the section from memory.
    """
    short = np.ones_like(force_n)
    np.divide(LEAST_PRESSURE_PA * area_m2, force_n, out=short, where=force_n > _NOTHING_N)
    times: FloatArray = np.maximum(short, 1.0)
    return times
