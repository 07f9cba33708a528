"""EN 1991-1-4:2005+A1:2010, A.2: smoother terrain upwind of a site, procedure 1."""

TERRAINS = ("0", "I", "II", "III", "IV")
"""Table 4.1, the smoothest first."""
SEA_REACH_M = 2000.0
LAND_REACH_M = 1000.0


def reach_m(terrain: str) -> float:
    """Return how far behind its edge a terrain still gives the wind of a rougher one, m.

    References:
        EN 1991-1-4:2005, A.2(1), procedure 1, as told in a public help text on terrain: 2 km for
        category 0, 1 km for I to III; patches below a tenth of the sector do not count.
    """
    return SEA_REACH_M if terrain == TERRAINS[0] else LAND_REACH_M


def governs(terrain: str, distance_m: float) -> bool:
    """Return whether the wind at a site is still that of smoother terrain so far upwind."""
    return distance_m < reach_m(terrain)
