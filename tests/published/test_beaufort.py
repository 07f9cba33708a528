"""The Beaufort scale.

[BFT] Tables of limits in metres per second, ten-minute means at 10 m: a meteorological fact sheet
      as copied at infotextmanuscripts.org/clio/clio-numbers-12-beaufort-2.html, with the mean of
      each force, and delta-s.org/weer/beaufort.html.
[LAW] v = 0.836 B^1.5: from memory.
"""

import pytest

from estimator.wind.working import LOWER_LIMITS_M_S, beaufort

LIMITS = [
    (1, 0.3, 1.5), (2, 1.6, 3.3), (3, 3.4, 5.4), (4, 5.5, 7.9), (5, 8.0, 10.7), (6, 10.8, 13.8),
    (7, 13.9, 17.1), (8, 17.2, 20.7), (9, 20.8, 24.4), (10, 24.5, 28.4), (11, 28.5, 32.6),
    (12, 32.7, 99.0),
]  # fmt: skip
MEANS = [(5, 10.0), (6, 12.0), (7, 15.0), (8, 19.0), (9, 23.0), (10, 27.0), (11, 31.0)]


@pytest.mark.parametrize(("force", "low_m_s", "high_m_s"), LIMITS)
def test_both_ends_of_each_force(force, low_m_s, high_m_s):
    """[BFT] every limit, so that an edge belongs to the force that begins there."""
    assert (beaufort(low_m_s), beaufort(high_m_s)) == (force, force)
    assert beaufort(low_m_s - 0.01) == force - 1


@pytest.mark.parametrize(("force", "mean_m_s"), MEANS)
def test_the_mean_of_each_force(force, mean_m_s):
    """[BFT] the fact sheet's own means lie in their forces."""
    assert beaufort(mean_m_s) == force


@pytest.mark.parametrize("force", range(1, 12))
def test_the_limits_lie_between_the_speeds_of_the_law(force):
    """[LAW] the limit is where the law is half a force on, within 0.5 m/s."""
    assert LOWER_LIMITS_M_S[force] == pytest.approx(0.836 * (force + 0.5) ** 1.5, abs=0.5)
