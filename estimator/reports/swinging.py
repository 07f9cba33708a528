"""What hangs free on a level axle: in sentences, in a table by side of the wind, and drawn."""

import math
from collections.abc import Iterator, Sequence
from typing import Any

from markupsafe import Markup

from estimator.reports import figures
from estimator.reports.document import Document
from estimator.reports.drawing import SMALL_MM, Drawing, Spot

FOOT = {"out": "to the right", "across": "in to the wall"}
"""Where a turn above nought carries what hangs below the axle, by the axis of the axle."""
SEEN = {"out": ("from the street", 1.0), "across": ("from the left", -1.0)}
"""From where it is drawn, and which way a turn above nought then goes, by the same."""
_PAPER_MM = (112.0, 52.0)
_PIN_MM: Spot = (56.0, 8.0)
_LONG_MM = 30.0
_STOP_MM = 24.0
"""Where along what hangs its stops are drawn; not to scale."""
STATICS = (
    "This is statics, with characteristic wind and the likely weights: where it comes to rest, and"
    " what a stop holds once it lies against it. How hard it strikes a stop, and how it swings in"
    " gusts, is not in it. The torque of the wind is the largest of its positions and is not let"
    " fall as it leans away."
)
BRACKETS = (
    "At the brackets it counts as held still in each of its positions, so the whole torque of the"
    " wind about its axle goes to them, which is cautious: while it swings free none of that torque"
    " reaches them, and at a stop only what its weight does not take: the force on the stop times"
    " its arm. The force of the wind reaches them either way."
)


def context(document: Document) -> dict[str, Any]:
    """Return what the page needs to tell of it."""
    return {
        "swinging": document["swinging"],
        "swing_lines": [line for swung in document["swinging"] for line in lines(swung)],
        "swing_drawings": [drawing(swung) for swung in document["swinging"]],
        "swing_rows": [row for swung in document["swinging"] for row in rows(swung)],
        "swing_words": [STATICS, *([BRACKETS] if document["brackets"] else [])],
    }


def summary(document: Document) -> list[str]:
    """Return what is free to swing, or what its stops feel: a sentence each."""
    return [line for swung in document["swinging"] for line in _told(swung)]


def _told(swung: Document) -> Iterator[str]:
    if swung["free"]:
        yield f"{swung['assembly']} is {swung['free']}."
    touching = _touching(swung)
    if touching:
        share = figures.percent(min(lean["touches"] for lean in touching))
        force = figures.newtons(max(max(lean["stop_n"]) for lean in touching))
        yield (
            f"{swung['assembly']} swings to its stops in {share} of the wind speed used; in the"
            f" whole of it they hold up to {force} at rest, without partial factors."
        )


def lines(swung: Document) -> Iterator[str]:
    """Yield what there is to say of one before its table."""
    name, gravity = swung["assembly"], figures.newton_metres(swung["gravity_torque_nm"])
    if swung["free"]:
        yield f"{name} is {swung['free']}."
    yield (
        f"{name}: its weight turns it back by at most {gravity}, to"
        f" {figures.degrees(swung['plumb_deg'])} from its place as drawn; a turn above nought"
        f" carries its foot {FOOT[swung['axis']]}."
    )
    if swung["stops_deg"]:
        low, high = (figures.degrees(angle) for angle in swung["stops_deg"])
        arm = figures.millimetres(swung["stop_arm_m"])
        yield f"{name}: stops at {low} and {high}, {arm} from its axle."
        if any(swung["resting_n"]):
            force = figures.newtons(max(swung["resting_n"]))
            yield f"{name} lies against a stop without any wind, with {force}."
    touching = _touching(swung)
    if touching:
        share = figures.percent(min(lean["touches"] for lean in touching))
        yield f"{name} first touches a stop in {share} of the wind speed used."


def _touching(swung: Document) -> list[Document]:
    """Return what the wind used does from the sides that bring it to a stop."""
    return [
        lean
        for lean in swung["leans"]
        if lean["speed"] == 1 and lean["touches"] is not None and lean["touches"] <= 1
    ]


def rows(swung: Document) -> list[dict[str, Any]]:
    """Return a row for each side the wind is from: the wind used beside the lighter one."""
    pairs: dict[tuple[float, bool], list[Document]] = {}
    for lean in swung["leans"]:
        pairs.setdefault((lean["direction_deg"], lean["torque_nm"] > 0), []).append(lean)
    return [
        {
            "assembly": swung["assembly"],
            "direction_deg": direction_deg,
            "torque_nm": pair[0]["torque_nm"],
            "free": [angle(lean["free_deg"]) for lean in pair],
            "stop": [_stop(lean["stop_n"]) for lean in pair],
            "touches": pair[0]["touches"],
        }
        for (direction_deg, _), pair in pairs.items()
    ]


def drawing(swung: Document) -> Markup:
    """Return where one hangs: plumb, as drawn, at its stops, and leaned by the lighter wind."""
    from_where, _ = SEEN[swung["axis"]]
    drawn = Drawing(*_PAPER_MM, f"Where {swung['assembly']} hangs, seen {from_where}")
    plumb = _hung(swung, swung["plumb_deg"], _LONG_MM)
    drawn.line("centre", _PIN_MM, plumb)
    drawn.text((plumb[0], plumb[1] + SMALL_MM), "plumb", "middle")
    for angle_deg in swung["stops_deg"] or ():
        drawn.line("wide", _PIN_MM, _hung(swung, angle_deg, _STOP_MM))
        drawn.label(_hung(swung, angle_deg, _STOP_MM), f"stop {figures.degrees(angle_deg)}")
    for lean in _lighter(swung):
        spot = _hung(swung, lean["free_deg"], _LONG_MM)
        drawn.line("hidden", _PIN_MM, spot)
        drawn.label(spot, f"half the wind {figures.degrees(lean['free_deg'])}")
    drawn.circle("edge", _PIN_MM, 1.0)
    drawn.text((2.0, 3.5), f"{swung['assembly']}, seen {from_where}")
    return drawn.svg()


def _hung(swung: Document, angle_deg: float, length_mm: float) -> Spot:
    """Return where on the paper the foot of something so long hangs at an angle."""
    _, way = SEEN[swung["axis"]]
    lean_rad = way * math.radians(angle_deg - swung["plumb_deg"])
    x, y = _PIN_MM
    return x + length_mm * math.sin(lean_rad), y + length_mm * math.cos(lean_rad)


def _lighter(swung: Document) -> list[Document]:
    """Return what the lighter wind does to either side at most, where the weight holds it."""
    held = [x for x in swung["leans"] if x["speed"] < 1 and x["free_deg"] is not None]
    ends = [min(held, key=_torque), max(held, key=_torque)] if held else []
    return [
        lean for lean, way in zip(ends, (-1.0, 1.0), strict=False) if way * lean["torque_nm"] > 0
    ]


def _torque(lean: Document) -> float:
    return float(lean["torque_nm"])


def angle(free_deg: float | None) -> str:
    """Return an angle at which it rests; words where its weight is too little to hold it."""
    return "beyond 90°" if free_deg is None else figures.degrees(free_deg)


def _stop(force_n: Sequence[float] | None) -> str:
    """Return the force on the stops of the side it lies against."""
    if force_n is None:
        return "no stops entered"
    return figures.newtons(max(force_n)) if any(force_n) else "not touched"
