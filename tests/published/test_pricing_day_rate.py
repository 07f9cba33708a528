"""The arithmetic of a day rate, from a sheet for visual artists.

[DR] An artists' association, "Valuing and paying artists", 2014, as archived (paperzz 7229109).
     Income wanted 24,000 pounds, 11 % and 5 % on top; 260 working days less 8, 25, 5, 15, 15, 10
     and 5 that nobody pays for. The sheet prints 177 days and 157 pounds a day, labour only.
"""

import pytest

from estimator.shop.price import cost_per_billable_day

BILLABLE_DAYS = 260 - (8 + 25 + 5 + 15 + 15 + 10 + 5)


def test_day_rate_of_the_sheet():
    """[DR] Prints whole pounds; 27,840 / 177 is 157.29."""
    rate = cost_per_billable_day(24_000, [0.11, 0.05], BILLABLE_DAYS)

    assert BILLABLE_DAYS == 177
    assert rate == pytest.approx(157, abs=0.5)
    assert rate == pytest.approx(157.29, abs=0.005)
