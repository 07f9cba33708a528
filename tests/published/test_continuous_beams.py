"""Bodies that bend on brackets, against printed answers for continuous beams.

[THREE] Theorem of three moments, two spans, no overhang; a worked calculation procedure, figure
        44 of its text, at issuhub.com/view/index/4963, page 101 (title of the book not printed
        there). Span of 10 ft with 2 kips/ft and 6 kips in the middle, span of 15 ft with
        3 kips/ft and 10 kips at 9 ft: 4.98, 52.87 and 23.15 kips, support moment 80.2 kip ft.
[FIXED] A. Kassimali, Structural Analysis, Example D.3, as printed at holooly.com/solutions-v20:
        one end fixed; 20 ft with 45 k in the middle, 30 ft with 1.8 k/ft, and an overhang whose
        moment on the last support is 90 k ft: support moments 97.5 and 142.5 k ft. The book is
        named from memory.
[EVEN] J. M. Gere and B. J. Goodno, Mechanics of Materials, Problem 10.4-14, with its answer at
       transtutors.com/questions/13576176: three equal spans, even load: 2 q L / 5, 11 q L / 10.
[OVERHANG] mathalino.com, node 4701, a board problem with four choices for each answer and none
           marked: three supports 3 m apart, 300 N/m, both overhangs such that all reactions are
           equal. One choice of each agrees: 1.319 m and 863.8 N. The overhang follows by hand:
           equal reactions of 100 (6 + 2 x) N and a level middle.
[BED] M. Hetenyi, Beams on Elastic Foundation: bar on an even bed, ends held, load P in the middle
      (formulas from memory): y = P b / 2 k x (sinh - sin) / (cosh + cos), M = P / 4 b x
      (sinh + sin) / (cosh + cos), of b l, with b^4 = k / 4 E I. With the numbers of W. McGuire,
      R. H. Gallagher and R. D. Ziemian, Matrix Structural Analysis, 2nd edition, Example 4.15,
      as quoted in a test of the frame library PyNite: 17 supports 15 in apart, the ends stiff,
      the others of 22.5 kips/in; E 29 000 ksi, I 128.5 in4, 40 kips in the middle. Quoted, and
      met there within 5 %: moment 547 kip in, sinks 0.238 in.
[LEDGE] Ledge 4.9 m long on five brackets 1 m apart, a bird 0.3 m inside each outer bracket (an
        invented job). By hand: rigid 2/5 of one bird on every bracket; simple spans 0.7 on the
        outer one; on brackets that do not give, three moments: 4 M1 + M0 = -0.273 and
        2 M1 + 4 M0 = 0, so M1 = -0.078 and the outer one carries 0.7 - 0.078 = 0.622.
"""

import numpy as np
import pytest

from estimator.supports.beams import Beam, beam_influence
from estimator.supports.lever import lever_shares
from estimator.supports.sharing import rigid_sharing

STIFF = 1e12


def springs(stiffness, about=()):
    """Return supports that hold up by a spring each; those in `about` also hold the slope."""
    others = max(stiffness)
    k = np.array([np.diag([others, k, others, others, others, 0.0]) for k in stiffness])
    k[list(about), 5, 5] = STIFF
    return k


def reactions(places, stiffness, loads, bending=1.0):
    """Return (n, 6) what loads (middle, half length, force up, couple) put on supports."""
    loads = np.array(loads, dtype=float)
    points, at = (np.multiply.outer(np.array(x), [1.0, 0, 0]) for x in (places, loads[:, 0]))
    action = np.zeros((len(loads), 6))
    action[:, 1], action[:, 5] = loads[:, 2], loads[:, 3]
    influence = beam_influence(points, stiffness, Beam(0, bending), at, loads[:, 1])
    return np.einsum("mnij,mj->ni", influence, action)


def test_two_spans_of_many_loads():
    """[THREE] Kips, to the hundredth as printed; the middle one is the sum of two rounded ones."""
    loads = [(5, 5, -20, 0), (5, 0, -6, 0), (17.5, 7.5, -45, 0), (19, 0, -10, 0)]

    up = -reactions([0, 10, 25], springs([STIFF] * 3), loads)[:, 1]

    assert up == pytest.approx([4.98, 52.87, 23.15], abs=0.006)
    assert 26 * 5 - up[0] * 10 == pytest.approx(80.2, abs=0.05)


def test_fixed_end_and_overhang():
    """[FIXED] k ft, printed to the tenth; a slope held and a couple on the last support."""
    loads = [(10, 0, -45, 0), (35, 15, -54, 0), (50, 0, 0, -90)]

    found = reactions([0, 20, 50], springs([STIFF] * 3, about=[0]), loads)

    at_fixed = -found[0, 5]
    over_middle = -at_fixed - found[0, 1] * 20 - 45 * 10
    assert abs(at_fixed) == pytest.approx(97.5, abs=0.05)
    assert over_middle == pytest.approx(-142.5, abs=0.05)


def test_three_even_spans():
    """[EVEN] Exact fractions; the supports give a little: 1e-6."""
    up = -reactions([0, 1, 2, 3], springs([STIFF] * 4), [(1.5, 1.5, -3, 0)])[:, 1]

    assert up == pytest.approx([0.4, 1.1, 1.1, 0.4], rel=1e-6)


def test_overhangs_that_make_all_reactions_equal():
    """[OVERHANG] With 1.319 m all carry 863.8 N; half the last digit of the overhang is 0.5 N."""
    half_m = 3 + 1.319

    up_n = -reactions([-3, 0, 3], springs([STIFF] * 3), [(0, half_m, -600 * half_m, 0)])[:, 1]

    assert up_n == pytest.approx([863.8] * 3, abs=0.5)


def test_bar_on_many_springs():
    """[BED] Fifteen springs for an even bed: 1e-3, the peak of the moment 2 %; quoted: 5 %."""
    places, stiffness = np.arange(17) * 15.0, np.array([1e9, *[22.5] * 15, 1e9])
    bending, bed = 29000 * 128.5, 22.5 / 15

    up = -reactions(places, springs(stiffness), [(120, 0, -40, 0)], bending=bending)[:, 1]
    sinks, moment = up[8] / 22.5, up[:8] @ (120 - places[:8])

    b = (bed / (4 * bending)) ** 0.25
    over = np.cosh(240 * b) + np.cos(240 * b)
    expected = 40 * b / (2 * bed) * (np.sinh(240 * b) - np.sin(240 * b)) / over
    assert sinks == pytest.approx(expected, rel=1e-3)
    expected = 40 / (4 * b) * (np.sinh(240 * b) + np.sin(240 * b)) / over
    assert moment == pytest.approx(expected, rel=0.02)
    assert moment == pytest.approx(547, abs=0.5)
    assert sinks == pytest.approx(0.238, rel=0.05)


class TestLedge:
    """[LEDGE] Of one bird, what each bracket carries."""

    PLACES = np.array([-2.0, -1, 0, 1, 2])
    BIRDS = ((1.7, 0, -1, 0), (-1.7, 0, -1, 0))

    def by_ratio(self, ratio):
        """Return the shares where bracket stiffness x spacing cubed / E I is this."""
        return -reactions(self.PLACES, springs([ratio] * 5), self.BIRDS)[:, 1]

    def test_rigid(self):
        """Two fifths each, and the bar tends to it as it gets stiffer."""
        load = np.array([[0, -2.0, 0, 0, 0, 0]])
        points_m = np.multiply.outer(self.PLACES, [1.0, 0, 0])

        rigid = -rigid_sharing(points_m, springs([1.0] * 5), load).actions[0, :, 1]

        assert rigid == pytest.approx([0.4] * 5, rel=1e-9)
        assert self.by_ratio(1e-7) == pytest.approx([0.4] * 5, rel=1e-6)

    def test_lever_rule(self):
        """Seven tenths on the outer, three on the next."""
        shares = lever_shares(self.PLACES, np.array([1.7, -1.7]), np.zeros(2)).sum(axis=0)

        assert shares == pytest.approx([0.7, 0.3, 0, 0.3, 0.7], abs=1e-8)

    def test_bar_on_brackets_that_do_not_give(self):
        """0.622, 0.495, and the middle bracket pulls the ledge down by 0.234: rounding, 1e-6."""
        expected = [0.622, 0.495, -0.234, 0.495, 0.622]

        assert self.by_ratio(1e9) == pytest.approx(expected, abs=1e-6)

    @pytest.mark.parametrize("ratio", [2.0, 4.0, 1e2, 1e4])
    def test_bar_on_springs_is_about_as_far_from_rigid_as_from_simple_spans(self, ratio):
        """About 0.62 on the outer bracket, whatever the bar, unless it is far stiffer: +-0.03."""
        outer = self.by_ratio(ratio)[[0, -1]]

        assert outer == pytest.approx([0.62, 0.62], abs=0.03)
