"""Arms and sharing against frame analysis and statics.

[FRAME] Runs of the open-source space-frame library PyNiteFEA 3.2.0, with the same sums by a 6 x 6
        stiffness method in numpy 2.4.6. Supports as springs or as real arm members, the body as
        very stiff links; the two routes agree to 1e-7 for forces in the ball-jointed case, 7e-7
        with real arms and 4e-6 with two unequal springs. The single cantilever also agrees with
        textbook formulas to 1e-14.
[STATICS] Three brackets that hold three, two and one directions: plane statics alone.

Printed axes: X out of the wall, Y up, Z to the left of a viewer in the street; N, mm, N mm, MPa.
"""

from typing import NamedTuple

import numpy as np
import pytest

from estimator.supports.arms import Arm, ArmSection, moved, tip_flexibility
from estimator.supports.mechanisms import MechanismError, movement_words
from estimator.supports.sharing import free_movements, imbalance, rigid_sharing
from estimator.supports.stays import stayed_tip_stiffness

XYZ_TO_OURS = np.array([[0, 0, -1], [0, 1, 0], [1, 0, 0]])  # across = -Z, up = Y, out = X
STEEL = (210e9, 81e9)


def ours(xyz, per=1.0):
    """Return printed (X, Y, Z) triples, alone or in pairs, as (across, up, out), each x per."""
    triples = np.reshape(xyz, (*np.shape(xyz)[:-1], -1, 3)) @ XYZ_TO_OURS.T
    return triples.reshape(np.shape(xyz)) * per


def action(six):
    """Return printed force (N) and moment (N mm) in our axes and units."""
    return ours(six) * [1, 1, 1, 1e-3, 1e-3, 1e-3]


def springs(diagonal):
    """Return printed stiffnesses (N/mm and N mm/rad along X, Y, Z) as ours (n, 6, 6)."""
    kept = np.abs(ours(np.asarray(diagonal, dtype=float)))
    return np.array([np.diag(d) for d in kept * [1e3, 1e3, 1e3, 1e-3, 1e-3, 1e-3]])


def load(force, at_mm):
    """Return one printed force and its point as a load about the datum, (1, 6)."""
    return moved(action((*force, 0, 0, 0)), ours(at_mm, 1e-3))[np.newaxis]


class TestSingleCantilever:
    """[FRAME] E 210000, G 81000, A 1470, Iy = Iz 1.37e6, J 2.17e6, L 900 mm."""

    ARM = (0.9, ArmSection(1470e-6, 1.37e-6, 1.37e-6, 2.17e-6), *STEEL)
    FORCE, BEYOND_TIP = (300, -2500, 1200), (150, -400, 100)

    @property
    def tip_action(self):
        """Return the action at the tip."""
        return load(self.FORCE, self.BEYOND_TIP)[0]

    def test_moment_at_the_tip(self):
        """Whole numbers, so rounding only."""
        expected = ours((-230000.0, -150000.0, -255000.0), 1e-3)

        assert self.tip_action[3:] == pytest.approx(expected, rel=1e-12)

    def test_action_on_the_wall(self):
        """Whole numbers, so rounding only."""
        expected = action((300, -2500, 1200, -230000.0, -1230000.0, -2505000.0))

        assert moved(self.tip_action, np.array([0, 0, 0.9])) == pytest.approx(expected, rel=1e-12)

    def test_movement_of_tip_and_load_point(self):
        """Printed to 12 digits and more: 1e-9."""
        movement = tip_flexibility(*self.ARM) @ self.tip_action
        tip_mm = (0.0008746355685131195, -2.470542231491137, 1.2247132429614183)
        turn = (-0.0011776753712237583, -0.0021584984358706985, -0.004316996871741397)
        load_point_mm = (-1.941773956715, -3.00032422513, 2.019558156832)

        at_load = movement[:3] + np.cross(movement[3:], ours(self.BEYOND_TIP, 1e-3))

        assert movement[:3] == pytest.approx(ours(tip_mm, 1e-3), rel=1e-9)
        assert movement[3:] == pytest.approx(ours(turn), rel=1e-9)
        assert at_load == pytest.approx(ours(load_point_mm, 1e-3), rel=1e-9)

    def test_stiffness_takes_the_movement_back_to_the_action(self):
        """The inverse of a 6 x 6 flexibility: rounding only."""
        movement = tip_flexibility(*self.ARM) @ self.tip_action

        assert stayed_tip_stiffness(Arm(*self.ARM), None) @ movement == pytest.approx(
            self.tip_action, rel=1e-9
        )


class Sprung(NamedTuple):
    """A printed case of a rigid body on sprung brackets."""

    points_mm: list
    springs: list
    force: tuple
    at_mm: tuple
    printed: list


TWO_UNEQUAL = Sprung(
    [(600, 500, -400), (600, -300, 350)],
    [(8000, 2500, 2000, 3e8, 2.5e8, 4e8), (5000, 1000, 800, 1e8, 0.9e8, 1.2e8)],
    (900, -3500, 1400),
    (750, 80, 30),
    [
        (
            *(813.7782789485, -2276.5371673295, 1190.6882838789),
            *(125139.1862955033, 82598.3155965885, -166136.4437240107),
        ),
        (
            *(86.2217210515, -1223.4628326705, 209.3117161211),
            *(41713.0620985011, 29735.3936147719, -49840.9331172032),
        ),
    ],
)
THREE_BALLS = Sprung(
    [(500, 600, 0), (500, -200, -450), (500, -250, 500)],
    [(12000, 6000, 6000, 0, 0, 0), (6000, 3000, 2000, 0, 0, 0), (4000, 2000, 1500, 0, 0, 0)],
    (-1500, -4200, 800),
    (680, 60, 40),
    [
        (388.178913738, -2299.145422301, 583.6011970738, 0, 0, 0),
        (-779.0415335463, -1091.3300820217, 125.5054311683, 0, 0, 0),
        (-1109.1373801917, -809.5244956772, 90.8933717579, 0, 0, 0),
    ],
)


@pytest.mark.parametrize("case", [TWO_UNEQUAL, THREE_BALLS], ids=["two unequal", "three balls"])
def test_sprung_brackets(case):
    """[FRAME] Printed to ten decimals by the same method in other code: 1e-8."""
    points_m, stiffness = ours(case.points_mm, 1e-3), springs(case.springs)
    loads = load(case.force, case.at_mm)

    found = rigid_sharing(points_m, stiffness, loads).actions

    expected = action(case.printed)
    assert found[0] == pytest.approx(expected, rel=1e-8, abs=1e-8 * np.abs(expected).max())
    assert imbalance(points_m, found, loads) < 1e-12


def test_two_real_arms_of_different_length():
    """[FRAME] Arms at two heights push and pull; the frame with real arms agrees to 7e-7: 1e-8."""
    arms = [
        (0.9, ArmSection(1470e-6, 1.37e-6, 1.37e-6, 2.17e-6), *STEEL),
        (0.6, ArmSection(1120e-6, 1.6e-6, 0.5e-6, 1.2e-6), *STEEL),  # Iz resists vertical bending
    ]
    stiffness = np.array([stayed_tip_stiffness(Arm(*arm), None) for arm in arms])
    points_m = ours([(900, 450, -300), (600, -350, 250)], 1e-3)
    printed = [
        (
            *(1967.981740041, -838.9713541496, 489.9406299947),
            *(-11215.2701494347, -133309.5851085517, -441047.2949475098),
        ),
        (
            *(-1267.9817400411, -2161.0286458504, 1110.0593700053),
            *(-9302.9890640472, -285300.4578688837, -759567.3130196673),
        ),
    ]

    at_bearing = rigid_sharing(
        points_m, stiffness, load((700, -3000, 1600), (820, 100, -20))
    ).actions
    on_wall = moved(at_bearing[0], np.array([[0, 0, 0.9], [0, 0, 0.6]]))

    assert on_wall == pytest.approx(action(printed), rel=1e-8)


@pytest.mark.parametrize("factors", [(1, 1, 1), (1, 30, 0.2)])
def test_three_two_one_brackets_need_no_stiffness(factors):
    """[STATICS] Six held directions, none spare: the same for any stiffness, 1e-8."""
    points_m = ours([(0.0, 400, -300), (0, 400, 300), (0, -300, 0)], 1e-3)
    held = np.array([(1, 1, 1, 0, 0, 0), (1, 1, 0, 0, 0, 0), (1, 0, 0, 0, 0, 0)]) * 5000.0
    stiffness = springs(held * np.array(factors)[:, np.newaxis])

    found = rigid_sharing(points_m, stiffness, load((600, -2000, 900), (350, 50, 40))).actions

    expected = ours([(1135, -1391.666667, 900), (165, -608.333333, 0), (-700.0, 0, 0)])
    assert found[0, :, :3] == pytest.approx(expected, abs=1e-6)
    assert found[0, :, 3:] == pytest.approx(np.zeros((3, 3)), abs=1e-9)


def test_two_ball_joints_are_refused():
    """[FRAME] Rank 5 of 6: the body turns about the line through both, though six are held."""
    points_m = ours([(0.0, 400, -300), (0, -300, 0)], 1e-3)
    stiffness = springs([(5000, 5000, 5000, 0, 0, 0)] * 2)

    free = free_movements(points_m, stiffness)
    with pytest.raises(MechanismError) as refusal:
        rigid_sharing(points_m, stiffness, np.ones((1, 6)))

    words = "free to swing about the line through B1 and B2"
    assert [movement_words(m, ["B1", "B2"], points_m) for m in free] == [words]
    assert str(refusal.value) == (
        "the brackets do not hold the body: it is "
        "free to swing about the line through bracket 1 and bracket 2"
    )
    assert len(refusal.value.movements) == 1
