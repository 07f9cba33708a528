"""How sure sums of masses are: by hand, as laws, and against draws from the model itself.

The draws are split normal: each factor is ``1 + x`` with x half a normal distribution on each
side of nought, its 5 % and 95 % points where the spread says. It is the distribution for which
the rule under test is meant (JCGM 100:2008, G.1 and G.2, from memory: the 5 % points of a sum of
normals add as standard deviations do), and the only one that keeps the likely value the median
and one time in twenty beyond either end. Nothing is taken from the code under test.

How close the draws can come: a quantile at 5 % of n draws has a standard error of
sqrt(0.05 x 0.95 / n) / f, f the density there. For a normal distribution f is 0.103 / sd, and the
half range is 1.645 sd, so that for 200 000 draws the standard error is 0.29 % of the half range.
Four of them are 1.2 %.
"""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from estimator.masses.bands import Offs, band, effects, left_over

DRAWS = 200_000
CLOSE = 0.012
"""Of the half range: four standard errors of the quantile."""
ONE_IN_TWENTY = float(norm.ppf(0.95))


def offs(*entries):
    """Return spreads from rows of mass, cause, low, high."""
    row, cause, low, high = zip(*entries, strict=True) if entries else ((), (), (), ())
    return Offs(np.array(row, int), np.array(cause, int), np.array(low, float),
                np.array(high, float))  # fmt: skip


def whole(mass_kg, *entries):
    """Return the four ends of masses in one group."""
    masses_kg = np.array(mass_kg, float)
    return [float(end[0]) for end in band(masses_kg, np.zeros(len(masses_kg), int), 1,
                                          offs(*entries))]  # fmt: skip


def drawn(mass_kg, entries, *, linear):
    """Return low and high of the sum of masses, from draws of the causes."""
    rng = np.random.default_rng(20260301)
    causes = {cause for _, cause, _, _ in entries}
    ends = {cause: rng.standard_normal(DRAWS) / ONE_IN_TWENTY for cause in sorted(causes)}
    total_kg = np.zeros(DRAWS)
    for row, kg in enumerate(mass_kg):
        own = [(ends[c], low, high) for r, c, low, high in entries if r == row]
        off = [np.where(z < 0, low * z, high * z) for z, low, high in own]
        factor = 1 + sum(off) if linear else np.prod([1 + x for x in off], axis=0)
        total_kg += kg * factor
    return np.quantile(total_kg, [0.05, 0.95])


JOB_KG = (40.0, 25.0, 60.0, 12.0)
"""Two copper skins of one gauge, a timber core, something quoted."""
JOB = [
    (0, 0, 0.05, 0.05), (1, 0, 0.05, 0.05),
    (0, 1, 0.20, 0.20), (1, 2, 0.10, 0.10), (2, 2, 0.10, 0.10), (3, 3, 0.05, 0.05),
    (2, 4, 0.15, 0.15),
]  # fmt: skip


def test_the_rule_gives_what_draws_of_a_plain_sum_give():
    """Causes alike on both sides, each added to its mass: exact but for the draws."""
    low_kg, high_kg = drawn(JOB_KG, JOB, linear=True)
    ends = whole(JOB_KG, *JOB)

    half_kg = (ends[1] - ends[0]) / 2
    assert ends[0] == pytest.approx(low_kg, abs=CLOSE * half_kg)
    assert ends[1] == pytest.approx(high_kg, abs=CLOSE * half_kg)


def test_a_job_of_products_is_off_by_less_than_half_a_per_cent_of_its_mass():
    """Gauge times size, density times size: the causes of a real job, up to 20 % each.

    Both ends of the product lie higher; 0.4 % of 137 kg is less than a tenth of the half range.
    """
    low_kg, high_kg = drawn(JOB_KG, JOB, linear=False)
    ends = whole(JOB_KG, *JOB)

    half_kg = (ends[1] - ends[0]) / 2
    assert 0.0 < low_kg - ends[0] < 0.004 * sum(JOB_KG)
    assert 0.0 < high_kg - ends[1] < 0.004 * sum(JOB_KG)
    assert 0.004 * sum(JOB_KG) < 0.1 * half_kg


PRODUCTS = [  # two factors of one mass, how much higher the product ends: low, high
    (0.20, 0.20, 0.0120, 0.0130),
    (0.10, 0.10, 0.0033, 0.0032),
    (0.20, 0.10, 0.0049, 0.0051),
]


@pytest.mark.parametrize(("one", "other", "low", "high"), PRODUCTS)
def test_how_far_the_linear_form_is_off(one, other, low, high):
    """The figures of the docstring: 1.2 and 1.3 % at 20 % each; numbers from 4 million draws."""
    entries = [(0, 0, one, one), (0, 1, other, other)]
    from_draws = drawn([1.0], entries, linear=False)
    ends = whole([1.0], *entries)

    close = CLOSE * math.hypot(one, other)
    assert from_draws[0] - ends[0] == pytest.approx(low, abs=close)
    assert from_draws[1] - ends[1] == pytest.approx(high, abs=close)


@pytest.mark.parametrize(("low", "high"), [(0.20, 0.10), (0.05, 0.20), (0.23, 0.17)])
def test_uneven_ends_are_met_to_half_a_per_cent(low, high):
    """Two like causes of half the mass each: sides added apart, 0.3 % of the mass off at most."""
    masses_kg, entries = [0.5, 0.5], [(0, 0, low, high), (1, 1, low, high)]
    from_draws = drawn(masses_kg, entries, linear=True)

    assert whole(masses_kg, *entries)[:2] == pytest.approx(from_draws, abs=0.005)


def test_what_shares_a_cause_adds_up_and_the_rest_as_squares():
    """3 and 4 kg of one cause at 10 % are 0.7 kg; of two causes hypot(0.3, 0.4) = 0.5 kg."""
    together = whole([3, 4], (0, 0, 0.1, 0.1), (1, 0, 0.1, 0.1))
    apart = whole([3, 4], (0, 0, 0.1, 0.1), (1, 1, 0.1, 0.1))

    assert together == pytest.approx([6.3, 7.7, 6.3, 7.7])
    assert apart == pytest.approx([6.5, 7.5, 6.3, 7.7])


def test_groups_are_apart():
    """Each group has the range of its own masses; one without any has none."""
    ends = band(np.array([10.0, 20.0]), np.array([0, 2]), 3,
                offs((0, 0, 0.1, 0.2), (1, 0, 0.1, 0.2)))  # fmt: skip

    assert ends.low_kg == pytest.approx([9.0, 0.0, 18.0])
    assert ends.high_kg == pytest.approx([12.0, 0.0, 24.0])


def test_masses_without_a_cause_have_no_range():
    """Nothing is known to vary: all ends are the mass."""
    assert whole([5.0]) == [5.0, 5.0, 5.0, 5.0]
    assert whole([]) == [0.0, 0.0, 0.0, 0.0]


def test_what_goes_the_other_way_takes_away():
    """A cause that lowers 10 kg by 1 and raises 5 kg by 1 leaves the sum as it is."""
    entries = [(0, 0, 0.1, 0.1), (1, 0, -0.2, -0.2)]

    assert whole([10, 5], *entries) == pytest.approx([15.0] * 4)
    assert whole([5], (0, 0, -0.2, -0.1)) == pytest.approx([4.5, 6.0, 4.5, 6.0])


def test_effects_are_by_group_and_cause():
    """Each pair once, its masses summed."""
    found = effects(np.array([10.0, 20.0, 5.0]), np.array([0, 0, 1]),
                    offs((0, 3, 0.1, 0.2), (1, 3, 0.1, 0.2), (2, 1, 0.4, 0.4)))  # fmt: skip

    assert found.group.tolist() == [0, 1]
    assert found.cause.tolist() == [3, 1]
    assert found.down_kg == pytest.approx([3.0, 2.0])
    assert found.up_kg == pytest.approx([6.0, 2.0])


def test_what_is_left_when_a_cause_is_known():
    """Of causes of 3, 4 and 12 kg the last is known: 5 kg are left; half known, hypot(5, 6)."""
    found = effects(np.array([30.0, 40.0, 120.0]), np.zeros(3, int),
                    offs(*((i, i, 0.1, 0.1) for i in range(3))))  # fmt: skip

    assert left_over(found, 2) == pytest.approx((5.0, 5.0))
    assert left_over(found, 2, 0.5) == pytest.approx((math.hypot(5, 6),) * 2)


fractions = st.floats(0.0, 0.5)
spread = st.tuples(st.integers(0, 4), st.integers(0, 3), fractions, fractions)


@given(masses_kg=st.lists(st.floats(0.1, 1e3), min_size=5, max_size=5),
       entries=st.lists(spread, max_size=12), times=st.floats(0.1, 10.0))  # fmt: skip
def test_ends_are_in_order_and_scale(masses_kg, entries, times):
    """Straight below low below likely, likewise above; all masses as much again, so the ends."""
    ends, likely_kg = whole(masses_kg, *entries), sum(masses_kg)
    slack = 1e-9 * likely_kg

    assert ends[2] <= ends[0] + slack <= likely_kg + 2 * slack
    assert likely_kg <= ends[1] + slack <= ends[3] + 2 * slack
    scaled = whole([times * kg for kg in masses_kg], *entries)
    assert scaled == pytest.approx([times * end for end in ends])


@given(masses_kg=st.lists(st.floats(0.1, 1e3), min_size=5, max_size=5),
       entries=st.lists(spread, min_size=1, max_size=12), data=st.data())  # fmt: skip
def test_knowing_a_cause_never_widens(masses_kg, entries, data):
    """The more of a cause is known, the less is left."""
    found = effects(np.array(masses_kg), np.zeros(5, int), offs(*entries))
    at = data.draw(st.integers(0, len(found.cause) - 1))
    left = [left_over(found, at, share) for share in (0.0, 0.4, 1.0)]

    for side in (0, 1):
        sides = [ends[side] for ends in left]
        assert sides == sorted(sides, reverse=True)
