"""A wall plate that the wall presses and the fixings pull: figures, laws and other routes to them.

Figures marked [C6] to [C9] were worked by four routes: exact polygon moments, a grid of fibres, an
energy minimum and one-sided springs in a frame program; the closed forms beside them by hand.
"""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import minimize

from estimator.supports import contact as module
from estimator.supports.contact import (
    RATIOS,
    NoEquilibriumError,
    UnsolvedError,
    WallPlate,
    contact,
    unheld,
    why_unheld,
    zone,
)

FOUR_M = np.array([(0.085, -0.135), (-0.085, -0.135), (0.085, 0.135), (-0.085, 0.135)])
PLATE = WallPlate(0.25, 0.35, FOUR_M, 157e-6)
BARE = WallPlate(0.3, 0.3, np.zeros((0, 2)), 0.0)
BIAXIAL = np.array([0, 0, 1200, 2500, 900, 0])

metres = st.floats(0.05, 0.6)
shares = st.floats(-0.49, 0.49)
actions = st.lists(st.floats(-5e3, 5e3), min_size=6, max_size=6).map(np.array)


@st.composite
def plates(draw, fewest=1):
    """Draw a plate with up to nine fixings anywhere inside it."""
    width_m, height_m = draw(metres), draw(metres)
    spots = draw(st.lists(st.tuples(shares, shares), min_size=fewest, max_size=9))
    points_m = np.array(spots).reshape(-1, 2) * [width_m, height_m]
    return WallPlate(width_m, height_m, points_m, draw(st.floats(2e-5, 6e-4)))


def unbalanced(plate, action, found):
    """Return pull, moment about across and about up that are left over."""
    pulls, points_m = found.pull_n, plate.points_m
    pressed = 0.0 if not found.pressed_n else found.pressed_n * found.pressed_at_m
    across, up = pulls @ points_m - pressed
    return np.array([pulls.sum() - found.pressed_n, up, -across]) - action[2:5]


def test_biaxial_plate():
    """[C6] Pulls, pressure and where it acts, to eight digits; the zone a triangle."""
    found = contact(PLATE, BIAXIAL)

    assert found.pull_n == pytest.approx(
        [0, 776.5489010191582, 3830.953500266702, 5741.0949223732305], rel=1e-8
    )
    assert found.pressed_n == pytest.approx(9148.597323659087, rel=1e-8)
    assert found.pressed_at_m == pytest.approx([0.07341358448441245, -0.14347637327819368])
    assert found.peak_pa == pytest.approx(2109668.663369323, rel=1e-8)
    legs_m = np.ptp(zone(PLATE, found.plane_pa), axis=0)
    assert legs_m == pytest.approx([0.20634566, 0.12609451], abs=1e-8)


def test_softer_walls_pull_more():
    """[C7] An arm's root on that plate, on walls of n = 7, 15, 30, 60: more pull, less pressure."""
    found = contact(PLATE, [0, 0, 300, 2505, -1230, 0], np.array(RATIOS))

    assert found.pull_n[0] == pytest.approx(
        [1406.4935512045938, 0, 6067.98121005219, 3315.697081608935], rel=1e-6
    )
    assert found.pull_n[:, 2] == pytest.approx([6067.981, 6677.2, 7431.5, 8431.7], rel=1e-4)
    assert found.pressed_n[0] == pytest.approx(10490.171842865711, rel=1e-9)
    assert found.peak_pa[0] == pytest.approx(2442199.8244116834, rel=1e-9)
    assert np.all(np.diff(found.peak_pa) < 0)


# N, M_across, M_up, then the pulls of the four fixings, all in N and Nm
COMBINATIONS = [
    (1350.0, 2226.541748, 108.0, (0, 0, 4098.68, 4311.98)),
    (1350.0, 1380.956850, 108.0, (0, 0, 2629.71, 2852.95)),
    (810.0, 2612.416748, 64.8, (0, 0, 4674.74, 4798.44)),
    (-1350.0, 3171.541748, -108.0, (0, 0, 5266.61, 5075.99)),
    (-1350.0, 2325.956850, -108.0, (0, 0, 3799.39, 3611.75)),
    (-810.0, 3179.416748, -64.8, (0, 0, 5374.98, 5258.57)),
    (0.0, 2699.041748, -1890.0, (2920.45, 0, 7555.57, 2952.21)),
    (0.0, 1853.456850, -1890.0, (3607.20, 0, 6472.66, 1577.79)),
    (0.0, 2895.916748, -1134.0, (941.86, 0, 6406.84, 4067.56)),
    (0.0, 2699.041748, 1890.0, (0, 2920.45, 2952.21, 7555.57)),
    (0.0, 1853.456850, 1890.0, (0, 3607.20, 1577.79, 6472.66)),
    (0.0, 2895.916748, 1134.0, (0, 941.86, 4067.56, 6406.84)),
    (0.0, 2502.166748, 0.0, (0, 0, 4341.83, 4341.83)),
]


def test_no_one_combination_covers_a_plate():
    """[C8] The lower fixings are worst with favourable weight, the upper with unfavourable."""
    table = np.array([(0, 0, *row[:3], 0) for row in COMBINATIONS])

    pulls_n = contact(PLATE, table).pull_n

    assert pulls_n == pytest.approx(np.array([row[3] for row in COMBINATIONS]), abs=0.01)
    assert list(pulls_n.argmax(axis=0)) == [7, 10, 6, 9]


@pytest.mark.parametrize(("pull_n", "each_n"), [(0, 4338.072604), (1500, 4714.457622)])
def test_one_way(pull_n, each_n):
    """[C9] A moment alone by the cracked section; with a pull of 1500 N by the solvers."""
    row = WallPlate(0.25, 0.35, FOUR_M[2:], 157e-6)
    found = contact(row, [0, 0, pull_n, 2500, 0, 0])

    assert found.pull_n == pytest.approx([each_n] * 2, rel=1e-9)
    if not pull_n:
        # Cracked section with one layer of bars: c = (n A / b) (sqrt(1 + 2 b d / (n A)) - 1).
        bed_m = 7 * 314e-6 / 0.25
        zone_m = bed_m * (np.sqrt(1 + 2 * 0.31 / bed_m) - 1)
        assert zone_m * 1e3 == pytest.approx(65.5608, abs=1e-4)
        assert found.pull_n.sum() == pytest.approx(2500 / (0.31 - zone_m / 3), rel=1e-12)
        assert found.peak_pa == pytest.approx(2 * found.pull_n.sum() / (0.25 * zone_m), rel=1e-12)


def test_corner_and_edge_without_fixings():
    """[BR-15, BR-16] A pyramid over a corner, a wedge over an edge; area 0.0288 and 0.045 m2."""
    corner = contact(BARE, [0, 0, -8000, 720, 720, 0])
    edge = contact(BARE, [0, 0, -8000, 800, 0, 0])

    assert corner.peak_pa == pytest.approx(3 * 8000 / (8 * 0.06 * 0.06), rel=1e-12)
    assert edge.peak_pa == pytest.approx(2 * 8000 / (3 * 0.3 * (0.15 - 0.1)), rel=1e-12)
    assert _area_m2(zone(BARE, corner.plane_pa)) == pytest.approx(0.0288, rel=1e-12)
    assert _area_m2(zone(BARE, edge.plane_pa)) == pytest.approx(0.045, rel=1e-12)


def _area_m2(outline):
    across, up = outline.T
    return (across @ np.roll(up, -1) - up @ np.roll(across, -1)) / 2


def test_grid_of_fibres_comes_to_the_same():
    """[C6] 100 x 140 fibres, each pressed in its middle, at the plane found: 1e-3 of the force."""
    found = contact(PLATE, BIAXIAL)
    across, up = ((np.arange(n) + 0.5) / n - 0.5 for n in (100, 140))
    spots = np.stack(np.meshgrid(across * 0.25, up * 0.35), axis=-1)

    pressure = np.maximum(-(found.plane_pa[0] + spots @ found.plane_pa[1:]), 0.0)

    cell_m2 = 0.25 * 0.35 / (100 * 140)
    assert pressure.sum() * cell_m2 == pytest.approx(found.pressed_n, rel=1e-3)
    middle = (pressure[..., None] * spots).sum(axis=(0, 1)) / pressure.sum()
    assert middle == pytest.approx(found.pressed_at_m, abs=1e-4)


def least_energy(plate, action, ratio):
    """Return the pulls where the energy is least, by a quasi-Newton method and Gauss points."""
    nodes, weights = np.polynomial.legendre.leggauss(200)
    u, v = np.meshgrid(nodes, nodes)
    weight = np.outer(weights, weights)
    spots = plate.points_m / plate.half_m
    bed = ratio * plate.area_m2 / plate.half_m.prod()
    load = np.array([action[2], -action[4] / plate.half_m[0], action[3] / plate.half_m[1]])
    size = np.linalg.norm(load)

    def energy(plane):
        press = np.minimum(plane[0] + plane[1] * u + plane[2] * v, 0.0)
        pull = np.maximum(plane[0] + spots @ plane[1:], 0.0)
        held = (weight * press**2).sum() + bed * (pull**2).sum()
        slope = np.array([(weight * press * way).sum() for way in (np.ones_like(u), u, v)])
        slope += bed * np.array([pull.sum(), *(pull @ spots)])
        return held / 2 - plane @ load / size, slope - load / size

    best = minimize(energy, np.zeros(3), jac=True, method="BFGS", options={"gtol": 1e-10}).x
    return bed * np.maximum(best[0] + spots @ best[1:], 0.0) * size


@pytest.mark.parametrize("seed", range(12))
def test_energy_minimum_comes_to_the_same(seed):
    """Pulls within 2e-4 of the largest: 40,000 Gauss points on a pressure with a crease."""
    rng = np.random.default_rng(seed)
    sizes_m = rng.uniform(0.1, 0.5, 2)
    points_m = rng.uniform(-0.45, 0.45, (rng.integers(1, 8), 2)) * sizes_m
    plate = WallPlate(*sizes_m, points_m, rng.uniform(5e-5, 4e-4))
    action = rng.normal(size=6) * [1, 1, 2e3, 500, 500, 1]

    found = contact(plate, action, 15)

    with np.errstate(all="raise"):
        wanted_n = least_energy(plate, action, 15)
    scale_n = max(found.pull_n.max(), np.abs(action[2]))
    assert found.pull_n == pytest.approx(wanted_n, abs=2e-4 * scale_n)


@given(plates(), actions, st.floats(1, 200))
def test_equilibrium(plate, action, ratio):
    """Pulls, pressure and action balance, whatever the plate, the fixings and the wall."""
    found = contact(plate, action, ratio)

    largest = max(found.pressed_n, found.pull_n.sum(), np.abs(action).max(), 1e-9)
    assert np.abs(unbalanced(plate, action, found)).max() <= 1e-9 * largest
    assert found.pull_n.min() >= 0
    assert found.pressed_n >= 0


@given(plates(), actions, st.floats(0.01, 50))
def test_scaling(plate, action, times):
    """So many times the load is so many times every force; the zone stays."""
    once, scaled = contact(plate, action), contact(plate, times * action)

    tol_n = 1e-7 * (1 + times * max(once.pressed_n, once.pull_n.max()))
    assert scaled.pull_n == pytest.approx(times * once.pull_n, abs=tol_n)
    assert scaled.pressed_n == pytest.approx(times * once.pressed_n, abs=tol_n)


@given(plates(), actions)
def test_mirror(plate, action):
    """Plate and load mirrored left to right: the same pulls."""
    mirrored = WallPlate(plate.width_m, plate.height_m, plate.points_m * [-1, 1], plate.area_m2)
    found, other = contact(plate, action), contact(mirrored, action * [1, 1, 1, 1, -1, 1])

    assert other.pull_n == pytest.approx(found.pull_n, abs=1e-7 * (1 + found.pull_n.sum()))


@given(plates(), actions)
def test_quarter_turn(plate, action):
    """Plate and load turned by a quarter: the same pulls."""
    turned = WallPlate(
        plate.height_m, plate.width_m, plate.points_m[:, ::-1] * [-1, 1], plate.area_m2
    )
    about_across, about_up = action[3], action[4]
    action_turned = np.array([0, 0, action[2], -about_up, about_across, 0])

    found, other = contact(plate, action), contact(turned, action_turned)

    assert other.pull_n == pytest.approx(found.pull_n, abs=1e-7 * (1 + found.pull_n.sum()))


@given(st.floats(1, 1e4), st.floats(1, 200))
def test_pull_alone_is_shared_evenly(pull_n, ratio):
    """Pulled off straight, four fixings pull alike and nothing presses."""
    found = contact(PLATE, [0, 0, pull_n, 0, 0, 0], ratio)

    assert found.pull_n == pytest.approx([pull_n / 4] * 4)
    assert found.pressed_n == 0
    assert found.peak_pa == 0
    assert np.isnan(found.pressed_at_m).all()
    assert zone(PLATE, found.plane_pa).shape == (0, 2)


@given(st.floats(1, 1e4))
def test_push_alone_presses_evenly(push_n):
    """Pushed on straight, nothing pulls and the whole plate presses alike."""
    found = contact(PLATE, [0, 0, -push_n, 0, 0, 0])

    assert found.pull_n == pytest.approx([0] * 4, abs=1e-9)
    assert found.peak_pa == pytest.approx(push_n / (0.25 * 0.35))
    assert _area_m2(zone(PLATE, found.plane_pa)) == pytest.approx(0.25 * 0.35)


@given(plates(), st.lists(actions, min_size=2, max_size=5), st.floats(1, 200))
def test_all_at_once_as_one_by_one(plate, table, ratio):
    """Cases do not reach into each other."""
    together = contact(plate, np.array(table), ratio)

    for n, action in enumerate(table):
        alone = contact(plate, action, ratio)
        tol_n = 1e-7 * (1 + alone.pull_n.sum())
        assert together.pull_n[n] == pytest.approx(alone.pull_n, abs=tol_n)


@given(plates(), actions)
def test_stiffer_fixings_give_less(plate, action):
    """On the same wall, the load does less work on its way where the fixings are stiffer."""
    soft, stiff = (contact(plate, action, ratio) for ratio in (7.0, 60.0))

    def give(found):
        half_m = plate.half_m
        load = np.array([action[2], -action[4], action[3]])
        return found.plane_pa @ load / 2 * half_m.prod()

    assert give(stiff) <= give(soft) * (1 + 1e-9) + 1e-9


def test_nothing_acts():
    """No load, no force."""
    found = contact(PLATE, np.zeros((2, 6)))

    assert not found.pull_n.any()
    assert not found.peak_pa.any()
    assert found.steps.tolist() == [0, 0]


UNHELD = [
    ("no fixings, pulled", BARE, [0, 0, 100, 0, 0, 0],
     "no equilibrium: the plate is pulled or turned off the wall, and it has no fixings"),
    ("no fixings, turned", BARE, [0, 0, 0, 0, 50, 0],
     "no equilibrium: the plate is pulled or turned off the wall, and it has no fixings"),
    ("no fixings, beyond", BARE, [0, 0, -100, 20, 0, 0],
     ("no equilibrium: the load presses beyond the bottom side of the plate, and it has no"
      " fixings")),
    ("no fixings, beyond", BARE, [0, 0, -100, 0, 15, 0],
     "no equilibrium: the load presses beyond the right side of the plate, and it has no fixings"),
    ("fixings on the top side alone, beyond it",
     WallPlate(0.3, 0.3, np.array([(-0.1, 0.15), (0.1, 0.15)]), 1e-4), [0, 0, -100, -20, 0, 0],
     ("no equilibrium: the load presses beyond the top side of the plate, and all its fixings"
      " stand on that side")),
]  # fmt: skip


@pytest.mark.parametrize(("name", "plate", "action", "why"), UNHELD)
def test_no_equilibrium(name, plate, action, why):
    """What nothing can balance is said in words, and picked out of a table of cases."""
    held = np.zeros(6)

    assert why_unheld(plate, action) == why, name
    assert unheld(plate, [held, action]).tolist() == [False, True]
    with pytest.raises(NoEquilibriumError) as raised:
        contact(plate, [held, action])
    assert str(raised.value) == why


@given(plates(), actions)
def test_any_fixing_inside_holds(plate, action):
    """One fixing inside the plate balances anything: by prying, however hard it must pull."""
    assert not unheld(plate, action)
    assert why_unheld(plate, action) == ""


@given(st.floats(-0.2, 0.2), st.floats(-0.2, 0.2))
def test_without_fixings_the_push_must_fall_on_the_plate(across_m, up_m):
    """Inside the outline there is a pressure, outside there is none."""
    assume(abs(abs(across_m) - 0.15) > 1e-4)
    assume(abs(abs(up_m) - 0.15) > 1e-4)
    action = [0, 0, -100, -100 * up_m, 100 * across_m, 0]

    inside = abs(across_m) < 0.15 and abs(up_m) < 0.15
    assert unheld(BARE, action) == (not inside)
    if inside:
        assert contact(BARE, action).pressed_at_m == pytest.approx([across_m, up_m], abs=1e-9)


REFUSED = [
    (lambda: WallPlate(0.0, 0.3, FOUR_M, 1e-4), "a plate needs sizes above zero"),
    (lambda: WallPlate(0.3, 0.4, FOUR_M, np.nan), "fixings need an area above zero"),
    (lambda: WallPlate(0.1, 0.4, FOUR_M, 1e-4), "a fixing lies beyond the edge"),
    (lambda: contact(PLATE, [0, 0, np.nan, 0, 0, 0]), "needs actions that are numbers"),
    (lambda: contact(PLATE, BIAXIAL, 0.0), "stiffness ratios above zero"),
]


@pytest.mark.parametrize(("make", "why"), REFUSED)
def test_refused(make, why):
    """Sizes and ratios that cannot be, and what is no number."""
    with pytest.raises(ValueError, match=why):
        make()


def test_unsolved_is_said(monkeypatch):
    """A case that runs out of steps raises, and never comes back as an answer."""
    monkeypatch.setattr(module, "_STEPS", 1)

    with pytest.raises(UnsolvedError, match=r"a plate was not solved: .* out of balance"):
        contact(PLATE, BIAXIAL)


def test_shorter_searches_take_more_steps(monkeypatch):
    """However little a step is searched along, the answer is the same."""
    rng = np.random.default_rng(3)
    table = rng.normal(size=(200, 6)) * [0, 0, 1000, 300, 300, 0]
    wanted_n = contact(PLATE, table).pull_n
    monkeypatch.setattr(module, "_SEARCHES", 1)

    assert contact(PLATE, table).pull_n == pytest.approx(wanted_n, abs=1e-6)


def test_pull_is_not_convex_in_the_load():
    """Halfway between two loads a fixing can pull more than the mean of both.

    So the worst of many loads need not be a corner of their hull, and no plate is screened by it.
    """
    rng = np.random.default_rng(5)
    ends = rng.normal(size=(2, 4000, 6)) * [0, 0, 1000, 300, 300, 0]

    first, last = (contact(PLATE, end).pull_n for end in ends)
    middle = contact(PLATE, ends.mean(axis=0)).pull_n

    above = middle - np.maximum(first, last)
    assert (middle > (first + last) / 2 + 1.0).any()
    assert above.max() > 1.0


def test_cracked_section_library():
    """[C9] and two slanted axes by concreteproperties, whose bars have a real size: 5e-4, 3e-3."""
    properties = pytest.importorskip("concreteproperties")
    profiles = pytest.importorskip("concreteproperties.stress_strain_profile")
    shapes = pytest.importorskip("sectionproperties.pre.library")
    wall = properties.Concrete(
        name="wall",
        density=2.4e-6,
        stress_strain_profile=profiles.ConcreteLinear(elastic_modulus=30e3),
        ultimate_stress_strain_profile=profiles.RectangularStressBlock(40, 0.79, 0.87, 0.003),
        flexural_tensile_strength=0.0,
        colour="grey",
    )
    bar = properties.SteelBar(
        name="bar",
        density=7.85e-6,
        stress_strain_profile=profiles.SteelElasticPlastic(500, 7 * 30e3, 0.05),
        colour="grey",
    )
    section = shapes.rectangular_section(d=350, b=250, material=wall)
    for across in (-85, 85):
        section = properties.add_bar(section, 157, bar, 125 + across, 40, n=32)
    library = properties.ConcreteSection(section)
    plate = WallPlate(0.25, 0.35, np.array([(-0.085, 0.135), (0.085, 0.135)]), 157e-6)

    for theta, tol in ((0.0, 5e-4), (0.2, 3e-3), (-0.15, 3e-3)):
        stress = library.calculate_cracked_stress(
            library.calculate_cracked_properties(theta=theta), m=2.5e6
        )
        bars = np.array(stress.lumped_reinforcement_forces)
        forces = np.vstack([bars, stress.concrete_forces])
        # Upside down beside ours: its bars lie below and are pulled below nought.
        about_across, about_up = (
            forces[:, 0] @ forces[:, 2] / 1e3,
            forces[:, 0] @ forces[:, 1] / 1e3,
        )
        found = contact(plate, [0, 0, 0, about_across, about_up, 0], 7)
        assert found.pull_n == pytest.approx(-bars[:, 0], rel=tol), theta
