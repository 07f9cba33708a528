"""Made over estimated, summed up."""

import math

import pytest

from estimator.masses.ratios import tally


def test_four_ratios():
    """Mean 1.05; squares of the offs 0.0049 + 0.0004 + 0.0049 + 0.0004 = 0.0106, over 3."""
    found = tally([0.98, 1.03, 1.12, 1.07])

    assert (found.number, found.low, found.high) == (4, 0.98, 1.12)
    assert found.mean == pytest.approx(1.05)
    assert found.deviation == pytest.approx(math.sqrt(0.0106 / 3))


@pytest.mark.parametrize("ratios", [[1.1], [1.1, 1.2]])
def test_fewer_than_three_have_no_deviation(ratios):
    """Two things say how far apart they are, and no more."""
    found = tally(ratios)

    assert math.isnan(found.deviation)
    assert (found.low, found.high) == (1.1, ratios[-1])
