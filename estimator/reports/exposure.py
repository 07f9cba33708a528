"""Slender parts, ice and the wind to work in: rows and sentences of one section of the page."""

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

from estimator.reports import figures
from estimator.reports.document import Document

MOST_SLENDER = 12
"""Slender parts in print, the slowest; all are in estimate.json."""
_NONE = "\N{EN DASH}"
_MOST_NAMED = 6
"""Parts a sentence names; it counts the rest."""
_SMALL = 0.1
"""Below this a share of the crane's limit is printed to three digits after the point."""


class Bar(NamedTuple):
    """A slender part as printed."""

    part: str
    name: str
    assembly: str
    held: str
    length: str
    across: str
    alone: str
    tip: str
    hz: str
    below: str
    critical: str
    mean: str
    sheds: str
    scruton: str
    galloping: str
    gallops: str


class Together(NamedTuple):
    """Ice and wind on one assembly in one combination, as printed."""

    name: str
    weight: str
    front: str
    side: str


class Iced(NamedTuple):
    """Ice on one assembly as printed."""

    assembly: str
    mass: str
    at_m: Sequence[float]
    front: tuple[str, str]
    side: tuple[str, str]
    together: tuple[Together, ...]


def context(document: Document) -> dict[str, Any]:
    """Return what the section is printed from."""
    lines = bars(document["slender"]["parts"])
    return {
        "bars": lines[:MOST_SLENDER],
        "more_bars": len(lines[MOST_SLENDER:]),
        "shaking": shaking(document["slender"]),
        "iced": iced(document["ice"]) if document["ice"] else [],
        "icing": icing(document["ice"]) if document["ice"] else [],
        "winds": winds(document["working_wind"]),
        "sails": {lift["lift_unit"]: lift for lift in document["working_wind"]["lifts"]},
        "lifting": lifting(document["working_wind"]),
    }


def bars(parts: Sequence[Document]) -> list[Bar]:
    """Return slender parts as printed; those alike in every figure share a line."""
    groups: dict[Bar, list[str]] = {}
    for one in parts:
        line = _bar(one)
        groups.setdefault(line._replace(part=""), []).append(line.part)
    return [alike._replace(part=", ".join(marks)) for alike, marks in groups.items()]


def _bar(one: Document) -> Bar:
    """Return one slender part as printed."""
    speeds = one["speeds"]
    tip = f"{one['tip']}, {figures.kilograms(one['tip_kg'])}" if one["tip"] else _NONE
    return Bar(
        part=one["part"],
        name=one["name"],
        assembly=one["assembly"],
        held=one["held"],
        length=figures.bare_millimetres(one["length_m"]),
        across=figures.bare(1000 * one["across_m"], "mm", 2),
        alone=_span(one["alone_hz"]),
        tip=tip,
        hz=_span(one["hz"]),
        below=", ".join(one["below"]) or _NONE,
        critical=_NONE if speeds is None else _speeds(speeds["critical_m_s"]),
        mean=_NONE if speeds is None else figures.bare(speeds["mean_m_s"], "m/s"),
        sheds=_NONE if speeds is None else _asked(speeds["sheds"]),
        scruton=_NONE if speeds is None else figures.significant(speeds["scruton"]),
        galloping=_NONE
        if speeds is None or speeds["galloping_m_s"] is None
        else figures.bare(speeds["galloping_m_s"], "m/s"),
        gallops=_NONE if speeds is None else _asked(speeds["gallops"]),
    )


def _asked(met: object) -> str:
    return figures.quantity(met)


def _span(ends: Sequence[float]) -> str:
    """Return a range as one number where its ends are printed alike."""
    low, high = (figures.significant(end) for end in ends)
    return low if low == high else f"{low} to {high}"


def _speeds(ends_m_s: Sequence[float]) -> str:
    """Return a range of speeds likewise, for a column of them."""
    low, high = (figures.bare(end_m_s, "m/s") for end_m_s in ends_m_s)
    return low if low == high else f"{low} to {high}"


def _named(rows: Sequence[str]) -> str:
    """Return the first of some names, and how many more there are."""
    shown = ", ".join(rows[:_MOST_NAMED])
    more = len(rows) - _MOST_NAMED
    return f"{shown} and {more} more" if more > 0 else shown


def shaking(slender: Document) -> list[str]:
    """Return what there is to say of slender parts, with numbers; what matters first."""
    parts = slender["parts"]
    return [
        *_slow(parts, slender["lines"]),
        *_shedding(parts),
        *_galloping(parts),
        *(f"{row['part']} is a long bar, but {row['why']}." for row in slender["unknown"]),
    ]


def _slow(parts: Sequence[Document], lines: Sequence[Document]) -> list[str]:
    """Return a sentence for each rule whose line some parts do not reach."""
    told = []
    for line in lines:
        marks = [
            f"{one['part']} ({_span(one['hz'])})" for one in parts if line["rule"] in one["below"]
        ]
        if marks:
            seen = "" if line["confirmed"] else "; from memory: to be checked"
            told.append(
                f"Not above {line['hz']:g} Hz: {_named(marks)}. Below that {line['asks']}, and an"
                f" engineer must treat it as what answers to gusts ({line['rule']}{seen})."
            )
    return told


def _shedding(parts: Sequence[Document]) -> list[str]:
    """Return which parts vortices can set swinging."""
    met = [one for one in parts if one["speeds"] and one["speeds"]["sheds"]]
    marks = [
        f"{one['part']} at {_speeds(one['speeds']['critical_m_s'])} {figures.head('m/s')}"
        f" (Beaufort {_span_whole(one['speeds']['critical_beaufort'])})"
        for one in met
    ]
    if not marks:
        return []
    return [
        (
            f"Vortices keep step with {_named(marks)}: less than 1.25 times the mean wind there,"
            " so an engineer must look at the swing and at what it does to the foot over the years"
            " (EN 1991-1-4 E.1.2). A part swings the less, the higher its Scruton number is."
        )
    ]


def _span_whole(ends: Sequence[int]) -> str:
    low, high = ends
    return f"{low}" if low == high else f"{low} to {high}"


def _galloping(parts: Sequence[Document]) -> list[str]:
    """Return which parts may gallop."""
    marks = [
        f"{one['part']} from {figures.metres_per_second(one['speeds']['galloping_m_s'])}"
        f" (a_G {one['speeds']['galloping_factor']:g})"
        for one in parts
        if one["speeds"] and one["speeds"]["gallops"]
    ]
    if not marks:
        return []
    return [
        (
            "Galloping, a swing that grows with the wind, may begin within 1.25 times the mean"
            f" wind: {_named(marks)}. An a_G of 10 is the cautious value for a section of which"
            " nothing is known; an engineer can find a better one (EN 1991-1-4 E.2.2, from memory)."
        )
    ]


def iced(ice: Document) -> list[Iced]:
    """Return the ice on each assembly as printed."""
    return [
        Iced(
            one["assembly"],
            figures.mass(one["ice_kg"]),
            one["cg_m"],
            (figures.bare(one["front_m2"], "m²"), figures.bare(one["iced_front_m2"], "m²")),
            (figures.bare(one["side_m2"], "m²"), figures.bare(one["iced_side_m2"], "m²")),
            tuple(_together(one, combination) for combination in ice["combinations"]),
        )
        for one in ice["assemblies"]
    ]


def _together(one: Document, combination: Document) -> Together:
    winds_n = [one["front_n"], one["side_n"]]
    front, side = (
        figures.BLANK if wind_n is None else figures.newtons(combination["wind"] * wind_n)
        for wind_n in winds_n
    )
    return Together(
        combination["name"], figures.newtons(combination["ice"] * one["weight_n"]), front, side
    )


def icing(ice: Document) -> list[str]:
    """Return what there is to say of the ice."""
    where = "" if ice["cg_m"] is None else f", its centre {figures.place(ice['cg_m'])}"
    told = [
        (
            f"Ice {figures.quantity(1000 * ice['thickness_m'], 'mm')} thick on everything in the"
            f" wind weighs {figures.kilograms(ice['ice_kg'])}{where}. Glaze,"
            f" {ice['density_kg_m3']:g} kg/m³, class {ice['ice_class']}, with"
            f" {figures.percent(ice['reduction'])} of the wind"
            " pressure (ISO 12494 and EN 1993-3-1 Annex C, from memory: to be checked)."
        ),
        (
            "Flat parts and shells have ice on both faces, also where one lies on something, and a"
            " core that is not marked as out of the wind has ice too: that is too much rather than"
            " too little. In outlines, openings count as closed by ice."
        ),
        (
            "Its weight, and the wind with it in every case, are causes of their own at the"
            " brackets. Ice on one side of a hand is among the torques of moving parts. Ice falls:"
            " people pass below."
        ),
    ]
    if ice["bare"]:
        told.append(f"No surface is known of {_named(ice['bare'])}, so no ice is on it here.")
    return told


def winds(working: Document) -> list[str]:
    """Return the speeds of the job by the Beaufort scale, and the density of the air."""
    told = [
        f"A wind of {figures.metres_per_second(one['speed_m_s'])}, {one['what']}, is Beaufort"
        f" {one['beaufort']}, {one['name']}."
        for one in working["spoken"]
    ]
    if None not in (working["altitude_m"], working["used_kg_m3"]):
        ratio = working["used_kg_m3"] / working["density_kg_m3"]
        told.append(
            f"At {figures.fixed(working['altitude_m'])} m above the sea the standard atmosphere has"
            f" {figures.fixed(working['density_kg_m3'], 3)} kg/m³. EN 1991-1-4 keeps"
            f" {figures.fixed(working['used_kg_m3'], 2)} kg/m³, which gives"
            f" {figures.percent(ratio - 1)} more pressure; only a national annex lowers it."
        )
    return told


def lifting(working: Document) -> list[str]:
    """Return what there is to say of lifting in the wind; the unit with most sail first."""
    lifts = working["lifts"]
    if not lifts:
        return []
    worst = min(lifts, key=lambda lift: lift["factor"])
    known = working["crane_m_s"]
    factor, cautious = share(worst["factor"]), share(worst["cautious_factor"])
    told = [
        (
            f"{worst['lift_unit']} has most sail for its mass: lifting it must stop at {factor}"
            " times the wind speed on the crane's load chart, by the more cautious rule at"
            f" {cautious} times."
        )
    ]
    if known is None:
        told.append(
            'Nobody has said what that speed is: type it as "lifting wind limit" on the job sheet.'
        )
    else:
        told.append(
            f"The crane's own limit is {figures.metres_per_second(known)}, so that is"
            f" {limit(worst['limit_m_s'])} {figures.head('m/s')}, or"
            f" {limit(worst['cautious_m_s'])} {figures.head('m/s')}, as gusts at"
            " the highest point."
        )
    return told


def share(factor: float) -> str:
    """Return a share of the crane's limit, rounded down: never more than it is."""
    return _floored(factor, 2 if factor >= _SMALL else 3)


def limit(speed_m_s: float) -> str:
    """Return a wind to stop at, rounded down likewise, for a column of speeds."""
    return _floored(speed_m_s / figures.column("m/s")[0], 1 if speed_m_s >= 1 else 2)


def _floored(value: float, digits: int) -> str:
    return figures.fixed(math.floor(value * 10**digits) / 10**digits, digits)
