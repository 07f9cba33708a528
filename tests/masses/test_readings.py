"""Scale readings in the place of sums: by hand, as laws, and against draws of what is done."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from estimator.masses.bands import Offs, band
from estimator.masses.readings import OnScale, settle

SCALE, OTHER_SCALE = 8, 9
SCALE_OFF = 0.02
SIZES = {0: 0.20, 1: 0.10, 2: 0.05}
"""Guessed, drawn, quoted: spreads of the classes of confidence, as the program defaults have it."""
LEAST = (sum(off**-2 for off in SIZES.values())) ** -0.5
"""Least that any mix of those classes can be off: weights in proportion to 1 / off2, 4.4 %."""


def offs(entries):
    """Return spreads, alike on both sides, from rows of mass, cause and fraction."""
    row, cause, off = zip(*entries, strict=True)
    return Offs(np.array(row, int), np.array(cause, int), np.array(off), np.array(off))


def on(rows, mass_kg, cause=SCALE):
    """Return a reading."""
    return OnScale(np.array(rows, int), mass_kg, cause, SCALE_OFF)


def ends(masses_kg, spread, rows=None):
    """Return low and high of some masses together."""
    chosen = np.isin(np.arange(len(masses_kg)), np.arange(len(masses_kg)) if rows is None else rows)
    found = band(masses_kg, np.where(chosen, 0, 1), 2, spread)
    return float(found.low_kg[0]), float(found.high_kg[0])


def test_what_stood_on_the_scale_is_brought_to_the_reading():
    """6 and 2 kg that weigh 10 together are 7.5 and 2.5; what was not there stays."""
    found = settle(np.array([6.0, 2.0, 5.0]), offs([(0, 0, 0.2)]), [on([0, 1], 10.0)])

    assert found.mass_kg == pytest.approx([7.5, 2.5, 5.0])
    assert found.factors == pytest.approx((1.25,))


def test_what_was_weighed_on_its_own_keeps_its_reading():
    """6, 2 and 4 kg: the first weighs 5, all weigh 14, so that the others share 9 kg for 6."""
    found = settle(np.array([6.0, 2.0, 4.0]), offs([(0, 0, 0.2)]),
                   [on([0], 5.0), on([0, 1, 2], 14.0)])  # fmt: skip

    assert found.mass_kg == pytest.approx([5.0, 3.0, 6.0])
    assert found.factors == pytest.approx((5 / 6, 1.5))


def test_the_sum_lies_off_by_the_scale_alone():
    """Whatever the parts vary with, 14 kg on a scale of 2 % are 13.72 to 14.28."""
    found = settle(np.array([6.0, 2.0, 4.0]), offs([(0, 0, 0.2), (1, 1, 0.1), (2, 0, 0.2)]),
                   [on([0], 5.0, OTHER_SCALE), on([0, 1, 2], 14.0)])  # fmt: skip

    assert ends(found.mass_kg, found.offs) == pytest.approx((13.72, 14.28))
    assert ends(found.mass_kg, found.offs, [0]) == pytest.approx((4.9, 5.1))


def test_what_all_share_falls_out_of_each():
    """Two skins of one gauge, weighed together: each is as sure as the scale."""
    found = settle(np.array([6.0, 2.0]), offs([(0, 0, 0.05), (1, 0, 0.05)]), [on([0, 1], 8.0)])

    assert ends(found.mass_kg, found.offs, [1]) == pytest.approx((1.96, 2.04))


def test_a_rest_of_nothing_is_a_mistake():
    """Whoever calls has to see that the readings do not contradict each other."""
    with pytest.raises(ValueError, match="-1 kg is left for a rest of 2 kg"):
        settle(np.array([6.0, 2.0]), offs([(0, 0, 0.1)]), [on([0], 5.0), on([0, 1], 4.0)])
    with pytest.raises(ValueError, match="both must be above 0"):
        settle(np.array([0.0]), offs([(0, 0, 0.1)]), [on([0], 5.0)])


def test_the_ranges_are_those_of_draws():
    """Estimates and scales are drawn, the rest multiplied to fit, and quantiles taken.

    Split normal as in the tests of the bands, 200 000 draws; products and quotients of causes up
    to 20 % move the ends by some per cent of the half range more than the 1.2 % of the draws.
    """
    rng = np.random.default_rng(20260302)
    masses_kg = np.array([6.0, 2.0, 4.0, 3.0])
    entries = [(0, 0, 0.2), (1, 1, 0.1), (2, 1, 0.1), (2, 3, 0.05), (3, 0, 0.2), (3, 4, 0.08)]
    found = settle(masses_kg, offs(entries), [on([0], 5.0, OTHER_SCALE), on([0, 1, 2, 3], 18.0)])
    x = rng.standard_normal((10, 200_000)) / norm.ppf(0.95)
    drawn_kg = masses_kg[:, None] * np.ones(200_000)
    for row, cause, off in entries:
        drawn_kg[row] *= 1 + off * x[cause]
    first_kg = 5.0 * (1 + SCALE_OFF * x[OTHER_SCALE])
    rest_kg = 18.0 * (1 + SCALE_OFF * x[SCALE]) - first_kg
    drawn_kg = np.vstack([first_kg, drawn_kg[1:] * rest_kg / drawn_kg[1:].sum(axis=0)])

    for row in range(4):
        low_kg, high_kg = ends(found.mass_kg, found.offs, [row])
        from_draws = np.quantile(drawn_kg[row], [0.05, 0.95])
        assert (low_kg, high_kg) == pytest.approx(from_draws, abs=0.06 * (high_kg - low_kg) / 2)


masses = st.lists(st.floats(0.5, 50.0), min_size=6, max_size=6).map(np.array)
classes = st.lists(st.sampled_from(sorted(SIZES)), min_size=6, max_size=6)
ratio = st.floats(0.5, 2.0)
ASSEMBLY = [0, 1, 2, 3]


def spread_of(own):
    """Return spreads: each mass by its class, and in pairs by a gauge of 5 %."""
    return offs([(i, c, SIZES[c]) for i, c in enumerate(own)]
                + [(i, 3 + i // 2, 0.05) for i in range(len(own))])  # fmt: skip


@given(estimated_kg=masses, own=classes, part=ratio, rest=ratio)
def test_the_group_weighs_its_reading(estimated_kg, own, part, rest):
    """A part, and the assembly it is in, both come to what the scale showed."""
    alone_kg = part * estimated_kg[0]
    all_kg = alone_kg + rest * estimated_kg[1:4].sum()
    found = settle(estimated_kg, spread_of(own), [on([0], alone_kg), on(ASSEMBLY, all_kg)])

    assert found.mass_kg[0] == pytest.approx(alone_kg)
    assert found.mass_kg[ASSEMBLY].sum() == pytest.approx(all_kg)
    assert found.mass_kg[4:] == pytest.approx(estimated_kg[4:])
    assert ends(found.mass_kg, found.offs, ASSEMBLY) == pytest.approx(
        (all_kg * (1 - SCALE_OFF), all_kg * (1 + SCALE_OFF)), rel=1e-9
    )


@given(estimated_kg=masses, own=classes, made=st.lists(ratio, min_size=3, max_size=3))
def test_weighing_never_widens_what_holds_it(estimated_kg, own, made):
    """What stood on the scale, and the whole, are surer than before, made within 0.5 to 2.

    The spreads of the classes can be mixed to 4.4 % at the least; twice the estimate on a scale of
    2 % is 4 % of it. Readings of one scale err together, and still do not make up for that.
    """
    spread = spread_of(own)
    readings = [on([i], made[i] * estimated_kg[i]) for i in (0, 1)]
    readings.append(on([2, 3], made[2] * estimated_kg[[2, 3]].sum()))
    found = settle(estimated_kg, spread, readings)
    assert 2 * SCALE_OFF < LEAST

    for rows in ([0], [2, 3], None):
        low_kg, high_kg = ends(estimated_kg, spread, rows)
        new_low_kg, new_high_kg = ends(found.mass_kg, found.offs, rows)
        assert new_high_kg - new_low_kg <= (high_kg - low_kg) * (1 + 1e-9)


@given(estimated_kg=masses, own=classes)
def test_a_reading_of_what_was_estimated_moves_nothing(estimated_kg, own):
    """Masses stay to the last digits."""
    found = settle(estimated_kg, spread_of(own), [on(ASSEMBLY, estimated_kg[ASSEMBLY].sum())])

    assert found.mass_kg == pytest.approx(estimated_kg)
    assert found.factors == pytest.approx((1.0,))
