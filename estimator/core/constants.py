"""Physical constants that several layers share, each with its source."""

GRAVITY_M_S2 = 9.80665
"""Standard acceleration of gravity: 3rd CGPM (1901), as carried by the pint unit definitions."""
