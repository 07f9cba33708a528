"""Vanes: moments of two boards about a spindle, by hand."""

import pytest

from estimator.supports.vanes import Vane

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
