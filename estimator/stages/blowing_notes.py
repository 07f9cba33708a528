"""What is to be read with the wind figures of a job."""

import math
from collections.abc import Iterator, Mapping

from estimator.resolve.job import Resolved
from estimator.stages.blowing_rules import rule_of
from estimator.wind.en1991 import HIGHEST_M


def notes_on(
    resolved: Resolved, reach_m: tuple[float, float], heights_m: Mapping[str, float]
) -> tuple[str, ...]:
    """Return the sentences to read with every wind number of a job.

    Args:
        resolved: The job.
        reach_m: How far anything in the wind reaches to either side of the datum, and upwards.
        heights_m: Where the pressure on each assembly was read.
    """
    if not resolved.weather.known:
        return ("No wind figures: see what has not been told.",)
    facts, weather = resolved.facts, resolved.weather
    notes = [
        *_edges(resolved, reach_m),
        (
            "Assemblies that stand before one another are each given the full wind: shelter "
            "is not taken"
        ),
    ]
    if resolved.brackets:
        notes.append("Wind on the brackets' own arms and plates is left out")
    notes += rule_of(weather).notes(weather)
    if facts.number("ice_thickness") > 0:
        notes.append(
            "No ice is in these figures: its weight and the wind with it are causes of their own"
        )
    return (*notes, *_odd_heights(resolved, heights_m))


def _edges(resolved: Resolved, reach_m: tuple[float, float]) -> tuple[str, ...]:
    """Return what to say about the corner and the top of the wall."""
    facts = resolved.facts

    def left(item: str, reach: float) -> float | None:
        """Return the way that is left of a told one beyond what hangs; None when nobody told."""
        return facts.number(item) - reach if facts.has(item) else None

    return rule_of(resolved.weather).edges(
        left("datum_to_nearest_corner", reach_m[0]),
        left("datum_to_top_of_wall", reach_m[1]),
        resolved.weather.building_m,
        math.inf if resolved.weather.deep_m is None else resolved.weather.deep_m,
    )


def _odd_heights(resolved: Resolved, heights_m: Mapping[str, float]) -> Iterator[str]:
    """Return a sentence for each thing that lies outside the heights the rule is written for."""
    for assembly, height_m in heights_m.items():
        if height_m in (0.0, HIGHEST_M):
            yield (
                f"{assembly} lies at or below the ground, or above {HIGHEST_M:g} m, by the "
                f"datum height of {resolved.weather.datum_m:g} m: look whether that is right"
            )
