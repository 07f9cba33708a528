"""ASCE/SEI 7-16 and 7-22, chapter 26: from a basic wind speed to the pressure on a coefficient.

One function per expression, named for what it gives. The expressions were read in public code
written from both editions and in permit files; the standard itself is for the engineer to check.
SI throughout: 0.613 N/m2 is 0.00256 psf, with the speed in m/s and in mph.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from estimator.wind.asce7_hills import Feature, topographic_factor, topographic_steps
from estimator.wind.records import Numbers, SitePressure, Step

LEAST_HEIGHT_M = 4.6
"""Table 26.10-1: nothing changes below 15 ft."""
HALF_DENSITY_KG_M3 = 0.613
"""(26.10-1.si): half the density of air."""
ALTITUDE_PER_M = 0.000119
"""Table 26.9-1, note 2."""
SIGN_DIRECTIONALITY = 0.85
"""Table 26.6-1: solid and open signs, lattice frames, and components of walls."""
CHIMNEY_DIRECTIONALITY: Mapping[str, float] = MappingProxyType(
    {"square": 0.90, "six sides": 0.95, "eight sides": 1.0, "round": 1.0}
)
"""Table 26.6-1: chimneys, tanks and similar structures by their section, as in four public codes
that agree. The worst wind finds a round thing from any side, so nothing is taken off for that."""
RIGID_GUST_FACTOR = 0.85
"""26.11.1: what is rigid, with a natural frequency of 1 Hz or more (from memory)."""


class Exposure(NamedTuple):
    """An exposure category: exponent alpha of the profile, and the height z_g at which it ends."""

    exponent: float
    gradient_m: float


class Edition(NamedTuple):
    """What sets one edition of ASCE 7 apart from another.

    Attributes:
        name: As the wind rule of a job.
        gradient_coefficient: K_z at z_g.
        exposures: Terrain exposure constants (Table 26.11-1) by category.
        directionality_in_pressure: K_d belongs to the velocity pressure; if not, to the load.
    """

    name: str
    gradient_coefficient: float
    exposures: Mapping[str, Exposure]
    directionality_in_pressure: bool


EDITIONS: Mapping[str, Edition] = MappingProxyType(
    {
        "ASCE 7-16": Edition(
            "ASCE 7-16",
            2.01,
            MappingProxyType(
                {
                    "B": Exposure(7.0, 365.76),
                    "C": Exposure(9.5, 274.32),
                    "D": Exposure(11.5, 213.36),
                }
            ),
            directionality_in_pressure=True,
        ),
        "ASCE 7-22": Edition(
            "ASCE 7-22",
            2.41,
            MappingProxyType(
                {
                    "B": Exposure(7.5, 1000.0),
                    "C": Exposure(9.8, 750.0),
                    "D": Exposure(11.5, 590.0),
                }
            ),
            directionality_in_pressure=False,
        ),
    }
)
"""B town, suburb or wood, C open country, D flat shore. In feet z_g is 1200, 900, 700 in 7-16 and
3280, 2460, 1935 in 7-22."""


@dataclass(frozen=True, slots=True)
class Site:
    """Where the wind blows and how hard.

    Attributes:
        edition: One of `EDITIONS`.
        basic_speed_m_s: V, the 3-second gust at 10 m over exposure C, at strength level, from the
            map of the risk category; never a 10-minute mean.
        exposure: B, C or D.
        topography: K_zt itself, or the hill it follows from; it multiplies the pressure.
        directionality: K_d.
        altitude_m: Ground above the sea, for K_e; None leaves K_e at 1.
        gust_factor: G.
    """

    edition: Edition
    basic_speed_m_s: float
    exposure: str
    topography: float | Feature = 1.0
    directionality: float = SIGN_DIRECTIONALITY
    altitude_m: float | None = None
    gust_factor: float = RIGID_GUST_FACTOR

    def __post_init__(self) -> None:
        """Refuse what no site can have."""
        if self.exposure not in self.edition.exposures:
            msg = f"{self.edition.name} has exposures B, C and D, got {self.exposure!r}"
            raise ValueError(msg)
        positive = {
            "basic_speed_m_s": self.basic_speed_m_s,
            "topography": 1.0 if isinstance(self.topography, Feature) else self.topography,
            "directionality": self.directionality,
            "gust_factor": self.gust_factor,
        }
        for name, value in positive.items():
            if not value > 0:
                msg = f"a site needs {name} above zero, got {value}"
                raise ValueError(msg)


def height_used(height_m: Numbers, exposure: Exposure) -> Numbers:
    """Return the height in m at which the profile is read: from 15 ft up to z_g.

    Raises:
        ValueError: If a height is below the ground.

    References:
        ASCE 7, Table 26.10-1, note 1.
    """
    if not np.all(np.asarray(height_m) >= 0):
        msg = f"heights lie above the ground, got {height_m}"
        raise ValueError(msg)
    used_m: Numbers = np.clip(height_m, LEAST_HEIGHT_M, exposure.gradient_m)
    return used_m


def exposure_coefficient(height_m: Numbers, edition: Edition, category: str) -> Numbers:
    """Return K_z at a height above the ground.

    References:
        ASCE 7-16 and 7-22, 26.10.1, Table 26.10-1, note 1: 2.01 or 2.41 (z / z_g)^(2 / alpha).
    """
    exposure = edition.exposures[category]
    share = height_used(height_m, exposure) / exposure.gradient_m
    coefficient: Numbers = edition.gradient_coefficient * share ** (2 / exposure.exponent)
    return coefficient


def elevation_factor(altitude_m: float | None) -> float:
    """Return K_e, by which thin air lowers the pressure; 1 where no altitude is told.

    References:
        ASCE 7-16 and 7-22, 26.9, Table 26.9-1, note 2: exp(-0.000119 z_e); 1 is always allowed.
    """
    return 1.0 if altitude_m is None else float(np.exp(-ALTITUDE_PER_M * altitude_m))


def velocity_pressure(speed_m_s: Numbers, *factors: Numbers) -> Numbers:
    """Return q_z in Pa: the basic wind speed squared, times every factor K that belongs to it.

    References:
        ASCE 7-16, 26.10.2, (26.10-1.si): 0.613 K_z K_zt K_d K_e V^2. ASCE 7-22: the same without
        K_d, which has moved to the load.
    """
    pressure_pa: Numbers = HALF_DENSITY_KG_M3 * speed_m_s**2
    for factor in factors:
        pressure_pa = pressure_pa * factor
    return pressure_pa


def topography_at(site: Site, height_m: float) -> float:
    """Return K_zt of a site at a height, whether it was entered or follows from a hill."""
    if isinstance(site.topography, Feature):
        return topographic_factor(height_m, site.topography, site.exposure)
    return site.topography


def site_pressure(site: Site, height_m: float) -> SitePressure:
    """Return what a force coefficient multiplies at a height, with every step to it.

    That is q_z G in 7-16 and q_z K_d G in 7-22, so that K_d is in it once.

    References:
        ASCE 7-16, 29.3.1 (29.3-1): F = q_h G C_f A_s. ASCE 7-22: F = q_h K_d G C_f A_s.
    """
    edition = site.edition
    exposure = edition.exposures[site.exposure]
    k_z = float(exposure_coefficient(height_m, edition, site.exposure))
    k_zt = topography_at(site, height_m)
    k_e, k_d, gust = elevation_factor(site.altitude_m), site.directionality, site.gust_factor
    inside, beside = (k_d, 1.0) if edition.directionality_in_pressure else (1.0, k_d)
    q_pa = float(velocity_pressure(site.basic_speed_m_s, k_z, k_zt, k_e, inside))
    acting_pa = q_pa * beside * gust
    directionality = Step("wind directionality factor", "K_d", k_d, "", _KD_CLAUSE, confirmed=True)
    before = (directionality,) if edition.directionality_in_pressure else ()
    after = () if edition.directionality_in_pressure else (directionality,)
    hill = (
        topographic_steps(height_m, site.topography, site.exposure)
        if isinstance(site.topography, Feature)
        else ()
    )
    symbol = "q_h G" if edition.directionality_in_pressure else "q_h K_d G"
    steps = (
        Step("basic wind speed, 3-second gust", "V", site.basic_speed_m_s, "m/s", "26.5.1",
             confirmed=True),
        Step("height used", "z", float(height_used(height_m, exposure)), "m",
             "Table 26.10-1, note 1", confirmed=True),
        Step(f"exposure coefficient in {site.exposure}", "K_z", k_z, "", "26.10.1, Table 26.10-1",
             confirmed=True),
        *hill,
        Step("topographic factor", "K_zt", k_zt, "", "26.8.2, (26.8-1)", confirmed=True),
        Step("ground elevation factor", "K_e", k_e, "", "26.9, Table 26.9-1", confirmed=True),
        *before,
        Step("velocity pressure", "q_h", q_pa, "Pa", "26.10.2, (26.10-1)", confirmed=True),
        *after,
        Step("gust-effect factor", "G", gust, "", "26.11.1, rigid", confirmed=False),
        Step("pressure on the coefficient", symbol, acting_pa, "Pa", "29.3.1, (29.3-1)",
             confirmed=True),
    )  # fmt: skip
    return SitePressure(acting_pa, steps, site_notes(site))


_KD_CLAUSE = "26.6, Table 26.6-1"


def site_notes(site: Site) -> tuple[str, ...]:
    """Return the sentences to read with a pressure at this site."""
    moved = (
        "K_d is in the velocity pressure"
        if site.edition.directionality_in_pressure
        else "K_d is with the load, not in the velocity pressure"
    )
    notes = [
        (
            f"{site.edition.name}: the wind is at strength level, a 3-second gust from the map of "
            f"the risk category; it already holds what EN 1990 puts in a partial factor. {moved}, "
            "once"
        ),
        (
            f"G = {site.gust_factor:g} is for what is rigid, with a natural frequency of 1 Hz or "
            "more (26.11, from memory), which is not known"
        ),
    ]
    if site.altitude_m is None:
        notes.append("K_e = 1: no altitude is told, and 1 is always allowed (26.9)")
    return tuple(notes)
