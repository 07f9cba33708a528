"""EN 1991-1-4:2005+A1:2010, section 4: from a basic wind velocity to a peak pressure.

One function per expression, named for what it gives, with the standard's recommended values as
defaults. The expressions were read in a public steel-design guide with a worked example and in
two open-source codes, which agree; the standard itself is for the engineer to check.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import log
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from estimator.wind import uk_annex
from estimator.wind.orography import Hill, orography_factor, orography_steps
from estimator.wind.records import Numbers, SitePressure, Step

AIR_DENSITY_KG_M3 = 1.25
"""4.5(1) Note 2, recommended value."""
HIGHEST_M = 200.0
"""4.3.2(1): the profile holds up to here."""
LOW_BUILDING_M = 15.0
STIFF_HZ = 5.0
"""6.2(1): below this height, or above this natural frequency, c_s c_d may be taken as 1."""
RETURN_PERIOD_YEARS = 50.0
"""4.2(2)P: what v_b,0 is given for."""


class Terrain(NamedTuple):
    """A terrain category: roughness length and the height below which nothing changes."""

    roughness_m: float
    lowest_m: float


TERRAIN: Mapping[str, Terrain] = MappingProxyType(
    {
        "0": Terrain(0.003, 1.0),
        "I": Terrain(0.01, 1.0),
        "II": Terrain(0.05, 2.0),
        "III": Terrain(0.3, 5.0),
        "IV": Terrain(1.0, 10.0),
    }
)
"""Table 4.1, recommended values: 0 sea, I lakes and flat land, II low vegetation, III suburb, IV
town. National annexes change them (one is known to have 15 m for IV), so a site takes any pair."""


@dataclass(frozen=True, slots=True)
class Site:
    """Where the wind blows and how hard.

    Attributes:
        basic_speed_m_s: v_b,0, the 10-minute mean at 10 m over category II, once in 50 years;
            never a gust. With ``uk_altitude_m``, the speed of the map at sea level.
        terrain: Roughness and lowest height, mostly from ``TERRAIN``.
        direction_factor: c_dir.
        season_factor: c_season.
        return_period_years: Once in how many years the speed is met, above 1.
        orography: c_o itself, or the hill it follows from.
        uk_altitude_m: Altitude for the UK annex's factor; None leaves it out.
        density_kg_m3: Air density.
    """

    basic_speed_m_s: float
    terrain: Terrain
    direction_factor: float = 1.0
    season_factor: float = 1.0
    return_period_years: float = RETURN_PERIOD_YEARS
    orography: float | Hill = 1.0
    uk_altitude_m: float | None = None
    density_kg_m3: float = AIR_DENSITY_KG_M3

    def __post_init__(self) -> None:
        """Refuse what no site can have."""
        positive = {
            "basic_speed_m_s": self.basic_speed_m_s,
            "direction_factor": self.direction_factor,
            "season_factor": self.season_factor,
            "density_kg_m3": self.density_kg_m3,
            "orography": 1.0 if isinstance(self.orography, Hill) else self.orography,
        }
        for name, value in positive.items():
            if not value > 0:
                msg = f"a site needs {name} above zero, got {value}"
                raise ValueError(msg)


class Profile(NamedTuple):
    """Everything section 4 works out, at one height or at many, in its order."""

    fundamental_speed_m_s: float
    altitude_factor: Numbers
    direction_factor: float
    season_factor: float
    probability_factor: float
    basic_speed_m_s: Numbers
    basic_pressure_pa: Numbers
    terrain_factor: float
    height_used_m: Numbers
    roughness_factor: Numbers
    orography_factor: Numbers
    mean_speed_m_s: Numbers
    turbulence_intensity: Numbers
    peak_pressure_pa: Numbers
    exposure_factor: Numbers


LINES: Mapping[str, tuple[str, str, str, str]] = MappingProxyType(
    {
        "fundamental_speed_m_s": ("basic wind velocity before factors", "v_b,0", "m/s", "4.2(1)P"),
        "altitude_factor": ("altitude factor", "c_alt", "", "UK National Annex, NA.2.5"),
        "direction_factor": ("direction factor", "c_dir", "", "4.2(2)P Note 2"),
        "season_factor": ("season factor", "c_season", "", "4.2(2)P Note 3"),
        "probability_factor": ("probability factor", "c_prob", "", "4.2(2)P Note 4, (4.2)"),
        "basic_speed_m_s": ("basic wind velocity", "v_b", "m/s", "4.2(2)P, (4.1)"),
        "basic_pressure_pa": ("basic velocity pressure", "q_b", "Pa", "4.5(1), (4.10)"),
        "terrain_factor": ("terrain factor", "k_r", "", "4.3.2(1), (4.5)"),
        "height_used_m": ("height used", "z", "m", "4.3.2(1), z_min of Table 4.1"),
        "roughness_factor": ("roughness factor", "c_r", "", "4.3.2(1), (4.4)"),
        "orography_factor": ("orography factor", "c_o", "", "4.3.3, A.3"),
        "mean_speed_m_s": ("mean wind velocity", "v_m", "m/s", "4.3.1(1), (4.3)"),
        "turbulence_intensity": ("turbulence intensity", "I_v", "", "4.4(1), (4.7)"),
        "peak_pressure_pa": ("peak velocity pressure", "q_p", "Pa", "4.5(1), (4.8)"),
        "exposure_factor": ("exposure factor", "c_e", "", "4.5(1), (4.9)"),
    }
)
"""How each field of a profile is printed: name, symbol, unit, clause."""
FROM_MEMORY = frozenset({"altitude_factor"})
"""Fields whose clause number was not seen; the UK expression itself was."""


def probability_factor(return_period_years: float) -> float:
    """Return c_prob, which multiplies the basic wind velocity.

    Raises:
        ValueError: If the period is one year or less, where the expression has no meaning.

    References:
        EN 1991-1-4:2005, 4.2(2)P Note 4, expression (4.2), with K = 0.2, n = 0.5, p = 1/T.
    """
    if not return_period_years > 1:
        msg = f"a return period must be longer than one year, got {return_period_years}"
        raise ValueError(msg)

    def reach(years: float) -> float:
        """Return how a speed grows with the years it is waited for."""
        return 1 - 0.2 * log(-log(1 - 1 / years))

    return float((reach(return_period_years) / reach(RETURN_PERIOD_YEARS)) ** 0.5)


def basic_velocity(
    fundamental_speed_m_s: Numbers, direction_factor: float = 1.0, season_factor: float = 1.0
) -> Numbers:
    """Return v_b in m/s.

    References:
        EN 1991-1-4:2005, 4.2(2)P, expression (4.1).
    """
    return direction_factor * season_factor * fundamental_speed_m_s


def basic_pressure(basic_speed_m_s: Numbers, density_kg_m3: float = AIR_DENSITY_KG_M3) -> Numbers:
    """Return q_b in Pa.

    References:
        EN 1991-1-4:2005, 4.5(1), expression (4.10).
    """
    return 0.5 * density_kg_m3 * basic_speed_m_s**2


def terrain_factor(terrain: Terrain) -> float:
    """Return k_r.

    References:
        EN 1991-1-4:2005, 4.3.2(1), expression (4.5), with z_0,II = 0.05 m.
    """
    return float(0.19 * (terrain.roughness_m / TERRAIN["II"].roughness_m) ** 0.07)


def height_used(height_m: Numbers, terrain: Terrain) -> Numbers:
    """Return the height in m at which the profile is read: never below z_min.

    Raises:
        ValueError: If a height is below the ground or above 200 m.

    References:
        EN 1991-1-4:2005, 4.3.2(1).
    """
    height = np.asarray(height_m)
    if not np.all((height >= 0) & (height <= HIGHEST_M)):
        msg = f"heights must lie between 0 and {HIGHEST_M:.0f} m above the ground, got {height_m}"
        raise ValueError(msg)
    used_m: Numbers = np.maximum(height_m, terrain.lowest_m)
    return used_m


def roughness_factor(height_m: Numbers, terrain: Terrain) -> Numbers:
    """Return c_r at a height above the ground.

    References:
        EN 1991-1-4:2005, 4.3.2(1), expression (4.4).
    """
    logarithm: Numbers = np.log(height_used(height_m, terrain) / terrain.roughness_m)
    return terrain_factor(terrain) * logarithm


def mean_velocity(
    basic_speed_m_s: Numbers, roughness: Numbers, orography: Numbers = 1.0
) -> Numbers:
    """Return v_m in m/s.

    References:
        EN 1991-1-4:2005, 4.3.1(1), expression (4.3).
    """
    return roughness * orography * basic_speed_m_s


def turbulence_intensity(
    height_m: Numbers, terrain: Terrain, orography: Numbers = 1.0, turbulence_factor: float = 1.0
) -> Numbers:
    """Return I_v at a height above the ground; ``orography`` is c_o at the height used.

    References:
        EN 1991-1-4:2005, 4.4(1), expression (4.7), with k_I = 1 recommended.
    """
    logarithm: Numbers = np.log(height_used(height_m, terrain) / terrain.roughness_m)
    return turbulence_factor / (orography * logarithm)


def peak_pressure(
    turbulence: Numbers, mean_speed_m_s: Numbers, density_kg_m3: float = AIR_DENSITY_KG_M3
) -> Numbers:
    """Return q_p in Pa.

    References:
        EN 1991-1-4:2005, 4.5(1), expression (4.8).
    """
    return (1 + 7 * turbulence) * 0.5 * density_kg_m3 * mean_speed_m_s**2


def exposure_factor(peak_pressure_pa: Numbers, basic_pressure_pa: Numbers) -> Numbers:
    """Return c_e.

    References:
        EN 1991-1-4:2005, 4.5(1), expression (4.9).
    """
    return peak_pressure_pa / basic_pressure_pa


def orography_at(site: Site, height_m: Numbers) -> Numbers:
    """Return c_o of a site at a height, whether it was entered or follows from a hill."""
    if isinstance(site.orography, Hill):
        return orography_factor(height_m, site.orography)
    return site.orography


def profile(site: Site, height_m: Numbers) -> Profile:
    """Return everything section 4 works out at one height above the ground or at many."""
    used_m = height_used(height_m, site.terrain)
    altitude = (
        1.0
        if site.uk_altitude_m is None
        else uk_annex.altitude_factor(site.uk_altitude_m, height_m)
    )
    probability = probability_factor(site.return_period_years)
    basic_m_s = basic_velocity(
        site.basic_speed_m_s * altitude * probability, site.direction_factor, site.season_factor
    )
    basic_pa = basic_pressure(basic_m_s, site.density_kg_m3)
    roughness = roughness_factor(height_m, site.terrain)
    orography = orography_at(site, height_m)
    mean_m_s = mean_velocity(basic_m_s, roughness, orography)
    # (4.7) is held at z_min as a whole, its c_o included; (4.3) holds only c_r there.
    turbulence = turbulence_intensity(height_m, site.terrain, orography_at(site, used_m))
    peak_pa = peak_pressure(turbulence, mean_m_s, site.density_kg_m3)
    return Profile(
        fundamental_speed_m_s=site.basic_speed_m_s,
        altitude_factor=altitude,
        direction_factor=site.direction_factor,
        season_factor=site.season_factor,
        probability_factor=probability,
        basic_speed_m_s=basic_m_s,
        basic_pressure_pa=basic_pa,
        terrain_factor=terrain_factor(site.terrain),
        height_used_m=used_m,
        roughness_factor=roughness,
        orography_factor=orography,
        mean_speed_m_s=mean_m_s,
        turbulence_intensity=turbulence,
        peak_pressure_pa=peak_pa,
        exposure_factor=exposure_factor(peak_pa, basic_pa),
    )


def site_pressure(site: Site, height_m: float) -> SitePressure:
    """Return the peak pressure at one height above the ground, with every step to it."""
    worked = profile(site, height_m)._asdict()
    steps: list[Step] = []
    for field, (name, symbol, unit, clause) in LINES.items():
        if field == "altitude_factor" and site.uk_altitude_m is None:
            continue
        if field == "orography_factor" and isinstance(site.orography, Hill):
            steps += orography_steps(height_m, site.orography)
        value = float(worked[field])
        steps.append(Step(name, symbol, value, unit, clause, field not in FROM_MEMORY))
    return SitePressure(float(worked["peak_pressure_pa"]), tuple(steps), site_notes(site, height_m))


def site_notes(site: Site, height_m: float) -> tuple[str, ...]:
    """Return the sentences to read with a pressure at this height."""
    notes = [
        "The basic wind velocity is taken as a 10-minute mean; a gust speed would be too high here",
        "Recommended values of EN 1991-1-4; a national annex can differ by 10 % or more",
    ]
    if height_m < site.terrain.lowest_m:
        notes.append(
            f"{height_m:g} m lies below z_min: roughness and turbulence are those at "
            f"{site.terrain.lowest_m:g} m"
        )
    if site.uk_altitude_m is not None:
        notes.append(
            "The UK annex reads the exposure factor from charts of its own (from memory); only its "
            "altitude factor is used here"
        )
    return tuple(notes)


def structural_factor_note(height_m: float, frequency_hz: float | None = None) -> str:
    """Return why the structural factor c_s c_d is taken as 1, or that it should be worked out.

    Args:
        height_m: Height of the building, or of what stands free.
        frequency_hz: Lowest natural frequency of the element, where known.

    References:
        EN 1991-1-4:2005, 6.2(1): 1 for buildings below 15 m, as used in a worked calculation
        (studylib.net/doc/25969297); 1 for elements above 5 Hz, from memory.
    """
    if frequency_hz is not None and frequency_hz <= STIFF_HZ:
        return (
            f"c_s c_d = 1 is not given for an element at {frequency_hz:g} Hz (5 Hz and below, "
            "6.2(1), from memory): it needs working out by an engineer"
        )
    if frequency_hz is not None:
        return f"c_s c_d = 1: the element moves at {frequency_hz:g} Hz, above 5 Hz (from memory)"
    if height_m < LOW_BUILDING_M:
        return (
            f"c_s c_d = 1: {height_m:g} m is below 15 m (6.2(1)); the natural frequency of a "
            "slender element is not known and is to be above 5 Hz (from memory)"
        )
    return (
        f"c_s c_d = 1 is assumed: at {height_m:g} m it wants a natural frequency above 5 Hz "
        "(6.2(1), from memory), which is not known"
    )
