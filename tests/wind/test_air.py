"""Speeds, pressures and Reynolds numbers by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind.air import reynolds_number, speed_of_pressure
from estimator.wind.en1991 import basic_pressure


@given(st.floats(0.1, 100.0))
def test_speed_and_pressure_are_each_other_undone(speed_m_s):
    """Taking v = sqrt(2 q / rho) undoes q = rho v^2 / 2: EN 1991-1-4 (4.10)."""
    assert speed_of_pressure(basic_pressure(speed_m_s)) == pytest.approx(speed_m_s)


def test_reynolds_number_by_hand():
    """0.1 m at 30 m/s over 15e-6 m2/s is 200 000: EN 1991-1-4 (7.15)."""
    assert reynolds_number(0.1, 30.0) == pytest.approx(2e5)
