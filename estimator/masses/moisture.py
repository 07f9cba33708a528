"""Timber at another moisture: heavier for the water, lighter for the swelling."""

WATER_KG_M3 = 1000.0
FIBRE_SATURATION = 0.30
"""Moisture above which wood takes up water without swelling: about 30 % of the dry mass
(https://thewoodshop.biz/wood-works-no-1-moisture-content/)."""
_SWELLING = 0.9


def density_at(gravity: float, moisture: float) -> float:
    """Return the density [kg/m3] of wood.

    Args:
        gravity: Specific gravity, oven-dry.
        moisture: Water as a fraction of the dry mass, 0 or more.

    References:
        NDS form: 62.4 G / (1 + 0.009 G M) x (1 + M/100) lb/ft3 with M in per cent, as quoted at
        americans-world.org/docs/friyy.php. Beyond fibre saturation the swelling stays.
    """
    swollen = 1.0 + _SWELLING * gravity * min(moisture, FIBRE_SATURATION)
    return WATER_KG_M3 * gravity * (1.0 + moisture) / swollen


def gravity_of(density_kg_m3: float, moisture: float) -> float:
    """Return the oven-dry specific gravity of wood: the other way round.

    Args:
        density_kg_m3: Its density.
        moisture: At this moisture.
    """
    swelling = _SWELLING * min(moisture, FIBRE_SATURATION) * density_kg_m3
    return density_kg_m3 / (WATER_KG_M3 * (1.0 + moisture) - swelling)


def moved_to(density_kg_m3: float, moisture: float, wanted: float) -> float:
    """Return the density [kg/m3] of wood at another moisture.

    Args:
        density_kg_m3: Its density.
        moisture: At this moisture.
        wanted: Moisture wanted.
    """
    return density_at(gravity_of(density_kg_m3, moisture), wanted)
