"""Digitised figures between their points: no jumps, on their own axis, monotone where they must."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.wind.asce7 import EDITIONS, exposure_coefficient
from estimator.wind.asce7_frames import CHIMNEYS, chimney
from estimator.wind.asce7_hills import KINDS, Feature, topographic_factor
from estimator.wind.asce7_signs import CLEARANCES, SIGN_TABLE, Sign, case_c_strips, sign_coefficient
from estimator.wind.asce7_walls import HIGH, LOW, wall_component
from estimator.wind.boards import free_standing_wall
from estimator.wind.orography import Hill, location_factor
from estimator.wind.walls import by_area

STEPS = 2001


def jumps(values):
    """Return the largest step of a figure as a share of all it spans."""
    values = np.asarray(values, dtype=float)
    return np.abs(np.diff(values)).max() / max(np.ptp(values), 1e-9)


FIGURES = [
    (lambda x: sign_coefficient(x, 0.6), np.geomspace(0.03, 60, STEPS)),
    (lambda x: sign_coefficient(3.0, x), np.geomspace(0.05, 1, STEPS)),
    (lambda x: case_c_strips(Sign(x, 1.0, 9.0))[0].coefficient, np.linspace(2.0, 60, STEPS)),
    *((lambda x, s=s: chimney(s, x, 10.0).value, np.linspace(0.5, 30, STEPS)) for s in CHIMNEYS),
    *((lambda x, z=z, w=w: wall_component(x, z, w), np.geomspace(0.3, 90, STEPS))
      for w in (LOW, HIGH) for z in w.zones),
    *((lambda x, z=z: by_area(z, x), np.geomspace(0.3, 30, STEPS)) for z in "ABD"),
    (lambda x: free_standing_wall(x, 1.0)[0].coefficient, np.linspace(1.0, 15, STEPS)),
    (lambda x: free_standing_wall(8.0, 1.0, solidity=x)[0].coefficient,
     np.linspace(0.8, 1, STEPS)),
    (lambda x: float(location_factor(x, Hill(20, 100, -30, 100))), np.linspace(0, 199, STEPS)),
    (lambda x: float(location_factor(10.0, Hill(20, 100, x))), np.linspace(-140, 340, STEPS)),
    *((lambda x, k=k: topographic_factor(10.0, Feature(k, 30, 60, x), "C"),
       np.linspace(-300, 300, STEPS)) for k in KINDS),
]  # fmt: skip


@pytest.mark.parametrize(("figure", "axis"), FIGURES)
def test_no_figure_jumps_between_its_points(figure, axis):
    """A two-thousandth of the axis is less than a fiftieth of what the figure spans."""
    assert jumps([figure(x) for x in axis.tolist()]) < 0.02


@given(st.integers(0, len(CLEARANCES) - 2), st.floats(0.0, 1.0), st.floats(0.03, 60.0))
def test_a_sign_is_never_outside_the_cells_round_it(row, share, aspect):
    """Figure 29.3-1 says linear: between two rows it lies between what they have."""
    low, high = CLEARANCES[row], CLEARANCES[row + 1]
    ends = sorted((sign_coefficient(aspect, low), sign_coefficient(aspect, high)))
    between = sign_coefficient(aspect, low + share * (high - low))

    assert ends[0] - 1e-9 <= between <= ends[1] + 1e-9
    assert min(map(min, SIGN_TABLE)) <= between <= max(map(max, SIGN_TABLE))


@given(st.floats(1.0, 10.0), st.sampled_from("ABD"))
def test_a_wall_is_straight_on_a_logarithm_of_the_area(area_m2, zone):
    """Figure 7.2: the mean of the logarithms has the mean of the coefficients."""
    ends = by_area(zone, 1.0), by_area(zone, area_m2)

    assert by_area(zone, np.sqrt(area_m2)) == pytest.approx(sum(ends) / 2)


@given(st.floats(0.0, 300.0), st.floats(0.0, 300.0), st.sampled_from(sorted(EDITIONS)))
def test_pressure_of_the_american_rule_never_falls_with_height(one_m, other_m, name):
    """And smoother ground never gives less."""
    edition = EDITIONS[name]
    lower, higher = sorted((one_m, other_m))
    for exposure in "BCD":
        assert exposure_coefficient(lower, edition, exposure) <= exposure_coefficient(
            higher, edition, exposure
        )
    town, country, shore = (exposure_coefficient(lower, edition, e) for e in "BCD")
    if lower < 100.0:
        assert town <= country <= shore


@given(st.floats(0.0, 200.0), st.floats(0.0, 200.0))
def test_a_hill_speeds_up_less_higher_above_it_and_further_off(one_m, other_m):
    """On the crest, and away from it, by both rules."""
    lower, higher = sorted((one_m, other_m))
    crest = Feature("hill", 30.0, 60.0)

    assert topographic_factor(lower, crest, "C") >= topographic_factor(higher, crest, "C")
    near, far = (
        topographic_factor(5.0, crest._replace(distance_m=x), "C") for x in (lower, higher)
    )
    assert near >= far
