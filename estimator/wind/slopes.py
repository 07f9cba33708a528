"""Which hill the wind meets from each side: the rules for hills are for wind across the slope."""

from estimator.wind.asce7_hills import Feature
from estimator.wind.directions import FULL_TURN_DEG
from estimator.wind.orography import Hill

SPREAD_DEG = 45.0
"""Winds this far off straight up a slope still meet it in full: engineering judgement."""
HALF_TURN_DEG = FULL_TURN_DEG / 2
FEATURES = {"hill": "hill", "ridge": "ridge", "cliff": "escarpment"}
"""What ASCE 7 Figure 26.8-1 calls each."""


def turned_round(hill: Hill) -> tuple[Hill, ...]:
    """Return a hill as the wind from the other side meets it; none for a cliff it comes off."""
    if hill.downwind_length_m is None:
        return ()
    return (
        Hill(hill.height_m, hill.downwind_length_m, -hill.distance_m, hill.slope_length_m),
    )  # fmt: skip


def met(hill: Hill, off_deg: float, *, round_hill: bool) -> tuple[Hill, ...]:
    """Return what a wind meets of a hill: one section of it, two to take the worse of, or none.

    Within `SPREAD_DEG` of straight up the slope it is the section as told, within as much of the
    other way the same section turned round. The wind between them blows along a ridge or a cliff
    and meets neither; of a round hill it takes the worse of both.

    Args:
        hill: As the wind that climbs the slope meets it.
        off_deg: Between the wind and straight up the slope.
        round_hill: It is as long as it is wide.
    """
    turn_deg = abs((off_deg + HALF_TURN_DEG) % FULL_TURN_DEG - HALF_TURN_DEG)
    if turn_deg <= SPREAD_DEG:
        return (hill,)
    if turn_deg >= HALF_TURN_DEG - SPREAD_DEG:
        return turned_round(hill)
    return (hill, *turned_round(hill)) if round_hill else ()


def feature(kind: str, hill: Hill) -> Feature:
    """Return a hill as ASCE 7 has it: its slope taken as straight, so that L_h is half of L_u."""
    return Feature(FEATURES[kind], hill.height_m, hill.slope_length_m / 2, hill.distance_m)
