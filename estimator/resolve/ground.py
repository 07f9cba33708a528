"""What the job sheet says of the ground about the site: a hill, and smoother terrain close by."""

import math
from collections.abc import Iterator
from typing import NamedTuple

from estimator.core.sourced import Origin
from estimator.resolve.records import Facts
from estimator.wind import directions, slopes
from estimator.wind.orography import Hill
from estimator.wind.smoother import TERRAINS, governs, reach_m

Doubt = tuple[str, str, str]
"""A fact, what was found about it, and what is wanted."""
SIZES = {
    "hill_height": "height",
    "hill_upwind_length": "upwind length",
    "distance_from_crest": "distance from the crest",
}


def orography(facts: Facts) -> float | Hill:
    """Return the orography factor somebody gave, or the hill it follows from."""
    kind = facts.text("hill_or_cliff", "none")
    if kind == "none" or _entered(facts) or any(not facts.has(item) for item in SIZES):
        return facts.number("orography")
    height_m, upwind_m, distance_m = (facts.number(item) for item in SIZES)
    # A hill is as long behind its crest as before it until somebody says otherwise.
    behind_m = None if kind == "cliff" else facts.number("hill_downwind_length", upwind_m)
    return Hill(height_m, upwind_m, distance_m, behind_m)


class Sections(NamedTuple):
    """What the wind from each side meets of a hill.

    Attributes:
        met: From each direction: one section of it, two to take the worse of, or none; empty where
            every wind meets the same.
        note: In a sentence; blank without a hill.
    """

    met: tuple[tuple[Hill, ...], ...] = ()
    note: str = ""


def sections(facts: Facts, directions_deg: tuple[float, ...]) -> Sections:
    """Return what the wind from each side meets of the hill on the job sheet."""
    hill, kind = orography(facts), facts.text("hill_or_cliff", "none")
    if not isinstance(hill, Hill):
        return Sections()
    if not (facts.has("hill_slope_faces") and facts.has("wall_faces")):
        lacks = "hill slope faces" if facts.has("wall_faces") else "hill slope faces and wall faces"
        return Sections(
            note=f"Every wind was taken to climb the slope of the {kind}, whichever side it comes "
            f"from: {lacks} would tell which do"
        )
    wall_deg, slope_deg = (
        math.degrees(facts.number(item)) for item in ("wall_faces", "hill_slope_faces")
    )
    from_deg = directions.bearing(wall_deg, slope_deg)
    met = tuple(
        slopes.met(hill, side - from_deg, round_hill=kind == "hill") for side in directions_deg
    )
    return Sections(met, _said(kind, from_deg, slope_deg))


def _said(kind: str, from_deg: float, slope_deg: float) -> str:
    """Return which winds a hill speeds up."""
    other = (
        "come off the cliff and are not speeded up"
        if kind == "cliff"
        else f"meet the {kind} the other way round"
    )
    between = "take the worse of both" if kind == "hill" else "blow along it and are not speeded up"
    return (
        f"Winds within {slopes.SPREAD_DEG:g} deg of {from_deg:g} deg (bearing {slope_deg:g}) climb "
        f"the slope of the {kind}, winds within as much of the other way {other}, and those between"
        f" {between}; {slopes.SPREAD_DEG:g} deg is engineering judgement"
    )


def _entered(facts: Facts) -> bool:
    fact = facts.values.get("orography")
    return fact is not None and fact.origin is Origin.TYPED


def ground_doubts(facts: Facts) -> Iterator[Doubt]:
    """Yield what looks odd about the ground."""
    yield from hill_doubts(facts)
    item = "distance_to_smoother_terrain"
    if not facts.has(item):
        return
    smoother, terrain = facts.text("smoother_terrain"), facts.text("terrain")
    distance_m = facts.number(item)
    if not smoother:
        yield item, "smoother terrain lies upwind, but not of which category", "smoother terrain"
    elif TERRAINS.index(smoother) < TERRAINS.index(terrain) and governs(smoother, distance_m):
        yield (
            "terrain",
            (
                f"terrain {terrain}, but terrain {smoother} lies {distance_m:.0f} m upwind: within "
                f"{reach_m(smoother):.0f} m the smoother one holds (EN 1991-1-4 A.2, procedure 1)"
            ),
            f"terrain {smoother}",
        )


def hill_doubts(facts: Facts) -> Iterator[Doubt]:
    """Yield what looks odd about a hill."""
    kind = facts.text("hill_or_cliff", "none")
    if kind == "none":
        return
    missing = [words for item, words in SIZES.items() if not facts.has(item)]
    if _entered(facts):
        yield "orography", f"an orography factor and a {kind} were given; the factor was used", ""
    elif missing:
        yield (
            "hill_or_cliff",
            (
                f"a {kind} without its {', '.join(missing)} gives no orography factor; "
                f"{facts.number('orography'):g} was used"
            ),
            "all its sizes, or the orography factor",
        )
    elif (
        kind != "cliff"
        and not facts.has("hill_downwind_length")
        and facts.number("distance_from_crest") > 0
    ):
        yield (
            "hill_or_cliff",
            (
                "how long the slope behind the crest is was not told; it was taken as long as the "
                "one before it"
            ),
            "hill downwind length",
        )
