"""What the job sheet says of the ground about the site: a hill, and smoother terrain close by."""

from collections.abc import Iterator

from estimator.core.sourced import Origin
from estimator.resolve.records import Facts
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
    behind_m = facts.number("hill_downwind_length", upwind_m) if kind == "hill" else None
    return Hill(height_m, upwind_m, distance_m, behind_m)


def _entered(facts: Facts) -> bool:
    fact = facts.values.get("orography")
    return fact is not None and fact.origin is Origin.TYPED


def ground_doubts(facts: Facts) -> Iterator[Doubt]:
    """Yield what looks odd about the ground."""
    yield from _hill_doubts(facts)
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


def _hill_doubts(facts: Facts) -> Iterator[Doubt]:
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
        kind == "hill"
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
