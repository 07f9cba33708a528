"""Which hill a wind meets: laws of turning it round."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind.orography import Hill
from estimator.wind.slopes import feature, met, turned_round

SIZES_M = st.floats(5.0, 500.0)
OFF_DEG = st.floats(-720.0, 720.0)


@given(SIZES_M, SIZES_M, st.floats(-400.0, 400.0), SIZES_M)
def test_a_hill_turned_round_twice_is_itself(height_m, length_m, distance_m, behind_m):
    """What was behind is before, and what lay behind the crest lies before it."""
    hill = Hill(height_m, length_m, distance_m, behind_m)
    (back,) = turned_round(hill)

    assert back.distance_m == -distance_m
    assert turned_round(back) == (hill,)


def test_nothing_is_met_of_a_cliff_from_its_top():
    """The ground before the edge is flat there."""
    assert turned_round(Hill(20.0, 100.0, 10.0)) == ()


@given(OFF_DEG)
def test_opposite_winds_meet_a_ridge_the_other_way_round(off_deg):
    """Half a turn of the wind is half a turn of the ridge."""
    hill = Hill(20.0, 100.0, -30.0, 200.0)
    (back,) = turned_round(hill)

    other = met(back, off_deg, round_hill=False)
    assert met(hill, off_deg + 180.0, round_hill=False) == other


@pytest.mark.parametrize(("off_deg", "count"), [(0, 1), (45, 1), (46, 0), (-90, 0), (134, 0)])
def test_winds_along_a_ridge_are_not_speeded_up(off_deg, count):
    """Up to 45 degrees off the slope it counts in full: engineering judgement."""
    hill = Hill(20.0, 100.0, -30.0, 200.0)

    assert len(met(hill, off_deg, round_hill=False)) == count
    assert len(met(hill, off_deg, round_hill=True)) >= 1


def test_the_american_hill_is_measured_to_half_its_height():
    """A straight slope of 100 m is at half its height 50 m from the crest."""
    assert feature("cliff", Hill(20.0, 100.0, 5.0)) == ("escarpment", 20.0, 50.0, 5.0)
