"""Ice on what stands in the weather: what it weighs, and the wind on what it has made wider.

ISO 12494 and EN 1993-3-1 Annex C, from memory: neither was seen. The mass is plain geometry.
"""

from collections.abc import Mapping
from math import pi
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from estimator.wind.charts import require_positive
from estimator.wind.records import Numbers

GLAZE_KG_M3 = 900.0
"""Density of glaze, the clear ice of freezing rain: ISO 12494, from memory."""
ACCOMPANYING = 0.5
"""Combination factor of the wind beside ice and of ice beside the wind: EN 1993-3-1 Annex C and
ISO 12494, from memory."""


class IceClass(NamedTuple):
    """A class of glaze.

    Attributes:
        name: G1 to G6.
        reduction: k, the share of the wind pressure that goes with it.
    """

    name: str
    reduction: float


CLASSES: Mapping[float, IceClass] = MappingProxyType(
    {
        0.010: IceClass("G1", 0.40),
        0.020: IceClass("G2", 0.45),
        0.030: IceClass("G3", 0.50),
        0.040: IceClass("G4", 0.55),
        0.050: IceClass("G5", 0.60),
    }
)
"""By the thickest ice of each class in m, thinnest first: ISO 12494, from memory."""
BEYOND = IceClass("G6", 1.0)
"""Thicker ice is for a study of the place (from memory); until then nothing is taken off."""
_ROUNDING_M = 1e-9


class Combination(NamedTuple):
    """Ice and wind together, characteristic.

    Attributes:
        name: Which of the two leads.
        ice: Factor on the weight of the ice.
        wind: Factor on the wind on what is iced, reduced already.
    """

    name: str
    ice: float
    wind: float


COMBINATIONS = (
    Combination("ice leading", 1.0, ACCOMPANYING),
    Combination("wind leading", ACCOMPANYING, 1.0),
)
"""EN 1993-3-1 Annex C / ISO 12494, from memory; partial factors are not in it."""


def ice_class(thickness_m: float) -> IceClass:
    """Return the thinnest class that covers a thickness of glaze."""
    require_positive(thickness_m=thickness_m)
    return next(
        (one for most_m, one in CLASSES.items() if thickness_m <= most_m + _ROUNDING_M), BEYOND
    )


def bar_kg_m(girth_m: Numbers, thickness_m: float, density_kg_m3: float = GLAZE_KG_M3) -> Numbers:
    """Return the mass of ice in kg on each metre of a bar, even all round it.

    Args:
        girth_m: Outline of the section; it may have no hollows outside.
        thickness_m: Of the ice.
        density_kg_m3: Of the ice.

    References:
        A band round a convex outline has the area P t + pi t^2; round a rod of diameter D that is
        pi t (D + t), by which the masses in ISO 12494 can be worked out.
    """
    return density_kg_m3 * (girth_m * thickness_m + pi * thickness_m**2)


def body_kg(
    area_m2: Numbers, sides_m: Numbers, thickness_m: float, density_kg_m3: float = GLAZE_KG_M3
) -> Numbers:
    """Return the mass of ice in kg all over a body or a plate.

    The skin times the thickness, with what lies round its edges and corners: exact for a block and
    for a flat plate, somewhat too much for what is rounder.

    Args:
        area_m2: Its whole outside, both faces of what is flat.
        sides_m: The three sides of its box added up.
        thickness_m: Of the ice.
        density_kg_m3: Of the ice.

    References:
        Steiner's formula for the volume near a convex body, with the mean width of its box.
    """
    edges_m3 = pi * sides_m * thickness_m**2 + 4 / 3 * pi * thickness_m**3
    return density_kg_m3 * (area_m2 * thickness_m + edges_m3)


def grown_m2(added_m2: tuple[float, float], direction_rad: Numbers) -> Numbers:
    """Return what ice adds to an outline seen from a direction, in m2.

    A shadow's rim seen from between is no longer than both rims, each as far as it is seen from
    there; so for what has no hollows this is never too little.

    Args:
        added_m2: To the outline from the street, and to that along the wall.
        direction_rad: The side the wind comes from, 0 from the street.
    """
    front_m2, side_m2 = added_m2
    across, out = np.abs(np.sin(direction_rad)), np.abs(np.cos(direction_rad))
    return np.asarray(front_m2 * out + side_m2 * across)


def iced_wind(
    pressure_pa: float, coefficient: float, iced_area_m2: float, reduction: float
) -> float:
    """Return the wind in N on an outline that ice has widened, at the pressure that goes with ice.

    Args:
        pressure_pa: Peak pressure without ice.
        coefficient: Force coefficient; ice is taken not to change it.
        iced_area_m2: Outline with the ice on.
        reduction: How much of the pressure counts, as its class says or somebody else.
    """
    return reduction * pressure_pa * coefficient * iced_area_m2
