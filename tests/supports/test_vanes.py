"""Vanes: moments of two boards about a spindle, by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.supports.vanes import Vane, turning_torque

moments = st.floats(0.0, 5.0)
LEVEL = Vane(0.5, 0.1, 0.0, 0.0, 3.0)


@pytest.mark.parametrize(
    ("tip_m3", "other_m3", "expected"),
    [(0.5, 0.1, "tip"), (0.1, 0.5, "other"), (0.3, 0.3, ""), (0.3, 0.301, "")],
)
def test_the_larger_area_moment_lies_downwind(tip_m3, other_m3, expected):
    """Statics: the side with more area times arm is blown away; within 1 % nobody can tell."""
    assert LEVEL._replace(tip_m3=tip_m3, other_m3=other_m3).settles == expected


@pytest.mark.parametrize(("tip_kgm", "aside_kgm"), [(0.0, 0.0), (0.02, 0.0), (0.0, -0.03)])
def test_a_mass_moment_of_next_to_nothing_is_balance(tip_kgm, aside_kgm):
    """1 % of 3 kg m, the most it could be: program default."""
    assert LEVEL._replace(tip_kgm=tip_kgm, aside_kgm=aside_kgm).balanced
    assert not LEVEL._replace(tip_kgm=tip_kgm + 0.04, aside_kgm=aside_kgm).balanced


@given(moments, moments, st.floats(1.0, 3000.0))
def test_the_torque_is_that_of_two_forces(tip_m3, other_m3, pressure_pa):
    """Statics: each side is pushed at its own middle, against the other; none when alike."""
    vane = LEVEL._replace(tip_m3=tip_m3, other_m3=other_m3)
    turned_round = LEVEL._replace(tip_m3=other_m3, other_m3=tip_m3)

    found = turning_torque(vane, pressure_pa, 1.2)

    assert found == pytest.approx(1.2 * pressure_pa * tip_m3 - 1.2 * pressure_pa * other_m3)
    assert turning_torque(turned_round, pressure_pa, 1.2) == -found
