"""UK National Annex to BS EN 1991-1-4: its factors on the basic wind velocity, as named options."""

import numpy as np

from estimator.wind.records import Numbers


def altitude_factor(altitude_m: float, height_m: Numbers) -> Numbers:
    """Return c_alt, which multiplies the speed of the UK map.

    References:
        UK National Annex to BS EN 1991-1-4:2005+A1:2010, as reproduced in
        scribd.com/document/451235066: 1 + 0.001 A, times (10/z)^0.2 above 10 m.
    """
    highest: Numbers = np.maximum(height_m, 10.0)
    return 1 + 0.001 * altitude_m * (10 / highest) ** 0.2


DIRECTION_FACTORS = (0.78, 0.73, 0.73, 0.74, 0.73, 0.80, 0.85, 0.93, 1.00, 0.99, 0.91, 0.82)


def direction_factor(azimuth_deg: Numbers) -> Numbers:
    """Return c_dir by the compass bearing the wind comes from, clockwise from north.

    References:
        UK National Annex to BS EN 1991-1-4:2005+A1:2010, as reproduced in
        scribd.com/document/451235066: every 30 degrees, interpolated.
    """
    every_30_deg = np.arange(0.0, 360.0, 30.0)
    factor: Numbers = np.interp(azimuth_deg, every_30_deg, DIRECTION_FACTORS, period=360.0)
    return factor
