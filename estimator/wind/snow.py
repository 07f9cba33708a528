"""Snow on ledges and tops: what lies on an outline seen from above.

EN 1991-1-3:2003, 5.2(3), expression 5.1, with its recommended exposure and thermal factors of 1:
s = mu_1 s_k. The shape factor as quoted in a public form for these loads
(designforms.net/WebUser/Pub/ProductInfo.aspx?P=3310) and by others.
"""

from estimator.wind.records import Numbers

FLAT_SHAPE = 0.8
"""mu_1 of what slopes 30 degrees or less, from where snow may slide off: EN 1991-1-3:2003, Table
5.2. Steeper tops carry less, which is not counted. Nor is drift against the wall, which is more."""


def lying_n(ground_pa: float, plan_m2: Numbers) -> Numbers:
    """Return the weight in N of the snow on outlines seen from above.

    Args:
        ground_pa: On the level ground.
        plan_m2: The outlines.
    """
    return FLAT_SHAPE * ground_pa * plan_m2
