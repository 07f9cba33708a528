"""Three-point costs of an aircraft system, a worked table for cost estimators.

[GAO] Cost Estimating and Assessment Guide, GAO-20-195G, U.S. Government Accountability Office,
      2020, Table 12, thousands of dollars; as quoted at
      gaoinnovations.gov/cost-guide/cost-risk-analysis-data-and-methods.html. The guide prints the
      rows and a likely total of 77 million dollars. Sums and the mean below were worked out
      from its rows with a separate script.
"""

import pytest

from estimator.shop.three_point import ThreePoint, estimated, total

TABLE_12 = {
    "airframe": ThreePoint(17_955, 19_645, 21_785),
    "propulsion": ThreePoint(8_500, 10_553, 13_000),
    "communications": ThreePoint(4_000, 4_306, 5_100),
    "navigation": ThreePoint(4_100, 4_305, 4_650),
    "computer": ThreePoint(550, 600, 650),
    "software": ThreePoint(32_300, 35_547, 52_500),
    "integration": ThreePoint(1_950, 2_136, 2_600),
}


def test_likely_total_of_table_12():
    """[GAO] Printed as 77 million, so half a million either way is all it can show."""
    likely = total(estimated(p) for p in TABLE_12.values()).likely

    assert likely == pytest.approx(77_000, abs=500)


def test_straight_sums_of_table_12():
    """Sums of the printed columns, exact."""
    whole = total(estimated(p) for p in TABLE_12.values())

    assert whole[:3] == pytest.approx((69_355, 77_092, 100_285))


def test_triangular_mean_of_table_12():
    """Mean to the unit, as the separate script gave it."""
    mean = total(estimated(p) for p in TABLE_12.values()).mean

    assert mean == pytest.approx(82_244, abs=0.5)
