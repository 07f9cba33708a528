"""Air: its density, the Reynolds number, and speeds that stand for pressures."""

import numpy as np

from estimator.wind.records import Numbers

KINEMATIC_VISCOSITY_M2_S = 15e-6
"""EN 1991-1-4:2005, 7.9.1(1), as used in two independent open-source codes."""

SEA_LEVEL_PRESSURE_PA = 101325.0
SEA_LEVEL_TEMPERATURE_K = 288.15
LAPSE_K_M = 0.0065
DRY_AIR_J_KG_K = 287.053
EARTH_RADIUS_M = 6356766.0
PRESSURE_EXPONENT = 5.25588
TROPOSPHERE_M = 11000.0


def dry_density(pressure_pa: Numbers, temperature_k: Numbers) -> Numbers:
    """Return the density of dry air in kg/m3.

    References:
        Ideal gas law with the gas constant of ISO 2533:1975.
    """
    return pressure_pa / (DRY_AIR_J_KG_K * temperature_k)


def standard_density(altitude_m: Numbers) -> Numbers:
    """Return the density of the standard atmosphere in kg/m3 at a height above the sea.

    EN 1991-1-4 keeps 1.25 kg/m3 at every altitude unless the national annex lowers it, so this
    is for comparison, or for a rule that asks for it.

    Valid for:
        Altitudes up to 11 km.

    Raises:
        ValueError: If the altitude lies above that.

    References:
        ISO 2533:1975, identical to the US Standard Atmosphere 1976 at these heights.
    """
    if not np.all(np.asarray(altitude_m) <= TROPOSPHERE_M):
        msg = f"the standard atmosphere here ends at {TROPOSPHERE_M:.0f} m, got {altitude_m} m"
        raise ValueError(msg)
    geopotential_m = altitude_m * EARTH_RADIUS_M / (EARTH_RADIUS_M + altitude_m)
    temperature_k = SEA_LEVEL_TEMPERATURE_K - LAPSE_K_M * geopotential_m
    fall = (temperature_k / SEA_LEVEL_TEMPERATURE_K) ** PRESSURE_EXPONENT
    return dry_density(SEA_LEVEL_PRESSURE_PA * fall, temperature_k)


def speed_of_pressure(pressure_pa: Numbers, density_kg_m3: float = 1.25) -> Numbers:
    """Return the speed in m/s whose dynamic pressure this is.

    References:
        EN 1991-1-4:2005, Figure 7.28 Note 2: v = sqrt(2 q_p / rho), used for Reynolds numbers.
    """
    speed_m_s: Numbers = np.sqrt(2 * pressure_pa / density_kg_m3)
    return speed_m_s


def reynolds_number(width_m: Numbers, speed_m_s: Numbers) -> Numbers:
    """Return the Reynolds number of a section this wide across the wind.

    References:
        EN 1991-1-4:2005, expression (7.15): Re = b v(z_e) / nu.
    """
    return width_m * speed_m_s / KINEMATIC_VISCOSITY_M2_S


def gust_factor(height_m: Numbers) -> Numbers:
    """Return the 3-second gust over the 10-minute mean at a height above the ground.

    A gust speed must be divided by this before it is used as a basic wind velocity, which
    EN 1991-1-4 defines as a 10-minute mean at 10 m.

    References:
        EN 13000 / FEM 5.016 wind rule, as reproduced in two crane operator manuals:
        v_3s = ((z / 10)^0.14 + 0.4) v_10min.
    """
    return (height_m / 10) ** 0.14 + 0.4
