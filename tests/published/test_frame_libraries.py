"""Sharing, stays and bending bodies against two open-source frame libraries, run here.

[PYNITE] PyNiteFEA 3.x, a space-frame library: arms, stays and bodies as members, tension-only
         members, spring supports. Its axes are taken as ours: X across, Y up, Z out.
[ANASTRUCT] anastruct 1.x, a plane-frame library: X out, Y up.

Both solve the whole frame by stiffness; ours condenses every bracket to a 6 x 6 first. Stiff
links of the frames are not quite stiff, which sets the tolerances.
"""

from itertools import pairwise

import numpy as np
import pytest

from estimator.supports.arms import Arm, ArmSection, Root, moved
from estimator.supports.beams import Beam, beam_influence
from estimator.supports.sharing import rigid_sharing
from estimator.supports.slackening import (
    OneWay,
    consistent_state,
    state_sharing,
    states_of,
    stay_sense,
)
from estimator.supports.stays import (
    StayBar,
    arm_action,
    stay_on_wall,
    stay_pull,
    stayed_flexibility,
    stayed_tip_flexibility,
    stayed_tip_stiffness,
)

E_PA, G_PA = 210e9, 81e9
SECTION = ArmSection(1.47e-3, 1.6e-6, 0.9e-6, 2.17e-6)
ROD_M2 = 113.1e-6
FORCES = ("FX", "FY", "FZ", "MX", "MY", "MZ")
REACTIONS = ("RxnFX", "RxnFY", "RxnFZ", "RxnMX", "RxnMY", "RxnMZ")
MOVEMENTS = ("DX", "DY", "DZ", "RX", "RY", "RZ")
CASE = "Combo 1"


def frame():
    """Return an empty space frame with steel, arms, rods and something very stiff."""
    from Pynite import FEModel3D  # noqa: PLC0415

    model = FEModel3D()
    model.add_material("steel", E_PA, G_PA, 0.3, 0)
    model.add_section(
        "arm", SECTION.area_m2, SECTION.i_sideways_m4, SECTION.i_vertical_m4, SECTION.j_m4
    )
    model.add_section("rod", ROD_M2, 1e-12, 1e-12, 1e-12)
    model.add_section("stiff", 1.0, 1.0, 1.0, 1.0)
    return model


def support(model, node, free=()):
    """Hold a node but for some directions."""
    held = {f"support_{way}": way not in free for way in MOVEMENTS}
    model.def_support(node, **held)


def add_arm(model, name, root_m, arm, stay, *, pulls_only=False):
    """Add an arm out from the wall with its stay; its nodes are root, tip, tie and wall."""
    places = {"tip": arm.length_m, "tie": stay.to_m}
    model.add_node(f"{name} root", *root_m)
    last = "root"
    for place in sorted(places, key=places.get):
        model.add_node(f"{name} {place}", *root_m[:2], root_m[2] + places[place])
        model.add_member(f"{name} {place}", f"{name} {last}", f"{name} {place}", "steel", "arm")
        last = place
    model.add_node(f"{name} wall", root_m[0], root_m[1] + stay.from_m, root_m[2])
    rod = f"{name} rod"
    model.add_member(rod, f"{name} tie", f"{name} wall", "steel", "rod", tension_only=pulls_only)
    model.def_releases(rod, Ryi=True, Rzi=True, Ryj=True, Rzj=True)
    for node in ("root", "wall"):
        support(model, f"{name} {node}")


def values(model, node, names):
    """Return six results at a node."""
    return np.array([getattr(model.nodes[node], name)[CASE] for name in names])


def load(model, node, action):
    """Put six numbers on a node."""
    for direction, value in zip(FORCES, action, strict=True):
        model.add_node_load(node, direction, value)


STAYED = {
    "stay above, beyond the load": (StayBar(0.8, 1.0, ROD_M2, E_PA), Root()),
    "stay above, before the load": (StayBar(0.6, 0.5, ROD_M2, E_PA), Root()),
    "strut below": (StayBar(-0.7, 0.65, ROD_M2, E_PA), Root()),
    "wall that gives": (StayBar(0.8, 1.0, ROD_M2, E_PA), Root(4e7, 3e5)),
    "pinned root": (StayBar(0.8, 1.0, ROD_M2, E_PA), Root(pinned=True)),
    "pinned root, wall that gives": (StayBar(0.5, 0.6, ROD_M2, E_PA), Root(4e7, 3e5, pinned=True)),
}


@pytest.mark.parametrize(("stay", "root"), STAYED.values(), ids=STAYED)
def test_stayed_arm_in_space(stay, root):
    """[PYNITE] Movement of tip and tie, root and stay on the wall; its larger equations: 5e-6."""
    arm, action = Arm(0.8, SECTION, E_PA, G_PA), np.array([700.0, -2500, 400, 150, -90, 60])
    model = frame()
    add_arm(model, "a", np.zeros(3), arm, stay)
    gives = np.isfinite(root.out_n_m)
    turns = ("RX",) if root.pinned else ()
    support(model, "a root", free=("DZ", "RX", "RY") if gives else turns)
    if gives:
        support(model, "a wall", free=("DZ",))
        springs = {"DZ": root.out_n_m, "RY": root.turn_nm_rad, "RX": root.turn_nm_rad}
        for way in springs.keys() - turns:
            model.def_support_spring("a root", way, springs[way])
        model.def_support_spring("a wall", "DZ", root.out_n_m)
    load(model, "a tip", action)
    model.analyze(sparse=False)

    pull = np.float64(stay_pull(arm, stay, root) @ action)
    at_root = arm_action(stay, pull, action, arm.length_m)
    tip = stayed_tip_flexibility(arm, stay, root) @ action
    tie = stayed_flexibility(arm, stay, stay.to_m, arm.length_m, root) @ action

    assert tip == pytest.approx(values(model, "a tip", MOVEMENTS), rel=5e-6, abs=1e-10)
    assert tie == pytest.approx(values(model, "a tie", MOVEMENTS), rel=5e-6, abs=1e-10)
    assert -at_root == pytest.approx(values(model, "a root", REACTIONS), rel=5e-6, abs=1e-4)
    wall = values(model, "a wall", REACTIONS)
    assert -stay_on_wall(stay, pull)[:3] == pytest.approx(wall[:3], rel=5e-6, abs=1e-4)


ARMS = (Arm(0.8, SECTION, E_PA, G_PA), Arm(0.7, SECTION, E_PA, G_PA), Arm(0.8, SECTION, E_PA, G_PA))
RODS = (
    StayBar(0.8, 0.75, ROD_M2, E_PA),
    StayBar(-0.6, 0.6, ROD_M2, E_PA),
    StayBar(0.7, 0.9, ROD_M2, E_PA),
)
ROOTS_M = np.array([(-1.1, 0.1, 0.0), (0.2, -0.4, 0.0), (1.0, 0.2, 0.0)])
LOADS = {
    "weight": (0.0, -4000, 0, 0, 0, 0),
    "uplift": (0.0, 3500, 0, 0, 0, 0),
    "turning about out": (100.0, -300, 0, 0, 0, 3000),
    "tilting and wind": (800.0, -1500, 2000, -900, 700, 0),
}


@pytest.mark.parametrize("action", LOADS.values(), ids=LOADS)
def test_rods_that_go_slack_under_a_rigid_body(action):
    """[PYNITE] Its tension-only members, switched off one by one, end in the state found: 1e-5."""
    middle_m = np.array([0.1, 0.3, 0.9])
    model = frame()
    model.add_node("body", *middle_m)
    for n, (root_m, arm, rod) in enumerate(zip(ROOTS_M, ARMS, RODS, strict=True)):
        add_arm(model, str(n), root_m, arm, rod, pulls_only=True)
        model.add_member(f"link {n}", f"{n} tip", "body", "steel", "stiff")
    load(model, "body", action)
    model.analyze(sparse=False)

    points_m = ROOTS_M + [(0, 0, arm.length_m) for arm in ARMS]
    with_rod, without = (
        [
            stayed_tip_stiffness(arm, rod if at_work else None)
            for arm, rod in zip(ARMS, RODS, strict=True)
        ]
        for at_work in (True, False)
    )
    pulls = [stay_pull(arm, rod) for arm, rod in zip(ARMS, RODS, strict=True)]
    ways = [
        OneWay(n, stay_sense(k, p)) for n, (k, p) in enumerate(zip(with_rod, pulls, strict=True))
    ]
    stiffness = np.where(states_of(3)[..., None, None], with_rod, without)
    found = state_sharing(points_m, stiffness, ways, moved(np.array(action), middle_m)[None])
    state = consistent_state(found.carried_n, states_of(3))[0]
    pulls_n, actions = found.carried_n[state, 0] * states_of(3)[state], found.actions[state, 0]

    rods = np.array([-model.members[f"{n} rod"].axial(0, CASE) for n in range(3)])
    assert pulls_n == pytest.approx(rods, rel=1e-5, abs=0.1)
    for n, (arm, rod) in enumerate(zip(ARMS, RODS, strict=True)):
        at_root = arm_action(rod, pulls_n[n], actions[n], arm.length_m)
        assert -at_root == pytest.approx(values(model, f"{n} root", REACTIONS), rel=1e-5, abs=0.1)


def test_rigid_body_on_arms_of_different_length():
    """[PYNITE] Two arms at two heights push and pull; no stays, welded to stiff links: 1e-5."""
    sections = (SECTION, ArmSection(1.12e-3, 1.6e-6, 0.5e-6, 1.2e-6))
    points_m = np.array([(0.3, 0.45, 0.9), (-0.25, -0.35, 0.6)])
    load_m, force_n = np.array([0.02, 0.1, 0.82]), np.array([-1600.0, -3000, 700, 0, 0, 0])
    model = frame()
    model.add_node("load", *load_m)
    for n, (point_m, section) in enumerate(zip(points_m, sections, strict=True)):
        area_m2, vertical_m4, sideways_m4, j_m4 = section
        model.add_section(f"{n}", area_m2, sideways_m4, vertical_m4, j_m4)
        model.add_node(f"{n} root", *point_m[:2], 0)
        model.add_node(f"{n} tip", *point_m)
        model.add_member(f"{n} arm", f"{n} root", f"{n} tip", "steel", f"{n}")
        model.add_member(f"{n} link", f"{n} tip", "load", "steel", "stiff")
        support(model, f"{n} root")
    load(model, "load", force_n)
    model.analyze(sparse=False)

    arms = [Arm(p[2], s, E_PA, G_PA) for p, s in zip(points_m, sections, strict=True)]
    stiffness = np.array([stayed_tip_stiffness(arm, None) for arm in arms])
    found = rigid_sharing(points_m, stiffness, moved(force_n, load_m)[None]).actions[0]

    expected = np.array([-values(model, f"{n} root", REACTIONS) for n in range(2)])
    assert moved(found, points_m * [0, 0, 1]) == pytest.approx(expected, rel=1e-5, abs=0.02)


def test_rigid_body_on_unequal_springs():
    """[PYNITE] Spring supports in all six directions on stiff links: 1e-5."""
    points_m = np.array([(0.4, 0.5, 0.6), (-0.35, -0.3, 0.6)])
    springs = np.array([(2e6, 2.5e6, 8e6, 4e5, 2.5e5, 3e5), (8e5, 1e6, 5e6, 1.2e5, 9e4, 1e5)])
    load_m, force_n = np.array([-0.03, 0.08, 0.75]), np.array([-1400.0, -3500, 900, 0, 0, 0])
    model = frame()
    model.add_node("load", *load_m)
    for n, point_m in enumerate(points_m):
        model.add_node(f"{n}", *point_m)
        model.add_member(f"{n} link", f"{n}", "load", "steel", "stiff")
        for way, k in zip(MOVEMENTS, springs[n], strict=True):
            model.def_support_spring(f"{n}", way, k)
    load(model, "load", force_n)
    model.analyze(sparse=False)

    stiffness = np.array([np.diag(k) for k in springs])
    found = rigid_sharing(points_m, stiffness, moved(force_n, load_m)[None]).actions[0]

    moves = np.array([values(model, f"{n}", MOVEMENTS) for n in range(2)])
    assert found == pytest.approx(springs * moves, rel=1e-5, abs=0.02)


@pytest.mark.parametrize("bending_nm2", [3e4, 3e6], ids=["limber", "stiff"])
def test_body_that_bends_on_real_arms(bending_nm2):
    """[PYNITE] A bar hung by stiff links at odd heights, an even load and one off its axis: 2e-4.

    The bar of the frame must stretch and twist a little; a million times less than it bends.
    """
    points_m = np.array([(-1.5, 0.1, 0.7), (-0.4, -0.2, 0.6), (0.7, 0.06, 0.8), (1.6, 0.12, 0.7)])
    middle_m, stay = points_m.mean(axis=0), StayBar(0.6, 0.5, ROD_M2, E_PA)
    arms = [Arm(out_m, SECTION, E_PA, G_PA) for out_m in points_m[:, 2]]
    spread, single = np.array([300.0, -900, 200]), np.array([200.0, -1000, 500, 40, 30, -60])
    (left_m, right_m), load_m = (-2.0, 2.2), np.array([1.1, 0.4, 1.1])

    model, inertia = frame(), bending_nm2 / E_PA
    model.add_section("bar", 1e6 * inertia, 0.5 * inertia, inertia, 1e6 * inertia)
    stops_m = sorted([left_m, *points_m[:, 0], load_m[0], right_m])
    for x in stops_m:
        model.add_node(f"bar {x}", x, *middle_m[1:])
    for x, y in pairwise(stops_m):
        model.add_member(f"bar {x}", f"bar {x}", f"bar {y}", "steel", "bar")
        for direction, value in zip(FORCES, spread / (right_m - left_m), strict=False):
            model.add_member_dist_load(f"bar {x}", direction, value, value)
    for n, (point_m, arm) in enumerate(zip(points_m, arms, strict=True)):
        add_arm(model, str(n), point_m * [1, 1, 0], arm, stay)
        model.add_member(f"link {n}", f"{n} tip", f"bar {point_m[0]}", "steel", "stiff")
    model.add_node("load", *load_m)
    model.add_member("hanger", f"bar {load_m[0]}", "load", "steel", "stiff")
    load(model, "load", single)
    model.analyze(sparse=False)

    stiffness = np.array([stayed_tip_stiffness(arm, stay) for arm in arms])
    at_m = np.array([((left_m + right_m) / 2, *middle_m[1:]), load_m])
    half_m = np.array([(right_m - left_m) / 2, 0.0])
    bar = Beam(0, np.array([1.0, bending_nm2, 0.5 * bending_nm2]))
    actions = np.array([(*spread, 0, 0, 0), single])
    influence = beam_influence(points_m, stiffness, bar, at_m, half_m)
    found = np.einsum("mnij,mj->ni", influence, actions)

    roots, walls = (
        np.array([values(model, f"{n} {node}", REACTIONS) for n in range(4)])
        for node in ("root", "wall")
    )
    expected = -roots - moved(walls, np.array([0, stay.from_m, 0]))
    size = np.abs(expected).max()
    assert moved(found, points_m * [0, 0, 1]) == pytest.approx(expected, abs=2e-4 * size)


PROPPED = {
    "fixed": (Root(), 5659.6041661606),
    "pinned": (Root(pinned=True), 5901.119297218113),
}


@pytest.mark.parametrize(("root", "once"), PROPPED.values(), ids=PROPPED)
def test_propped_arm_in_its_plane(root, once):
    """[ANASTRUCT] Arm of 1.2 m, stay from 0.8 m up to 1.0 m out, 3000 N at the tip, 120 N/m: 1e-6.

    The pull that version 1.7.0 gave before stands beside it.
    """
    from anastruct import SystemElements  # noqa: PLC0415

    arm = Arm(1.2, SECTION._replace(i_vertical_m4=1.37e-6), E_PA, G_PA)
    stay = StayBar(0.8, 1.0, 113.09733552923255e-6, E_PA)
    plane = SystemElements()
    stiff = {"EA": E_PA * SECTION.area_m2, "EI": E_PA * 1.37e-6}
    plane.add_element([[0, 0], [1.0, 0]], **stiff)
    plane.add_element([[1.0, 0], [1.2, 0]], **stiff)
    plane.add_truss_element([[1.0, 0], [0, 0.8]], EA=E_PA * stay.area_m2)
    (plane.add_support_hinged if root.pinned else plane.add_support_fixed)(1)
    plane.add_support_hinged(4)
    plane.q_load(q=-120, element_id=[1, 2])
    plane.point_load(3, Fy=-3000)
    plane.solve()
    theirs_n = plane.get_element_results(3)["Nmax"]

    at, shares = np.polynomial.legendre.leggauss(2)  # exact for the cubic of each piece
    pieces_m = [((a + b) / 2, (b - a) / 2) for a, b in ((0, stay.to_m), (stay.to_m, arm.length_m))]
    weight_n = -120 * sum(
        half_m * share * stay_pull(arm, stay, root, middle_m + half_m * place)[1]
        for middle_m, half_m in pieces_m
        for place, share in zip(at, shares, strict=True)
    )
    pull_n = stay_pull(arm, stay, root)[1] * -3000 + weight_n

    assert theirs_n == pytest.approx(once, rel=1e-6)
    assert pull_n == pytest.approx(theirs_n, rel=1e-6)


def test_bar_on_springs_in_its_plane():
    """[ANASTRUCT] Five springs, an overhang, a point load and an even load over two spans: 1e-6."""
    from anastruct import SystemElements  # noqa: PLC0415

    places_m, springs_n_m = np.array([0, 1.0, 1.8, 3.0, 3.6]), [2e5, 1e5, 3e5, 2e5, 1e5]
    plane = SystemElements(EA=1e12, EI=4e4)
    for left_m, right_m in ((0, 1.0), (1.0, 1.8), (1.8, 3.0), (3.0, 3.6), (3.6, 4.2)):
        plane.add_element([[left_m, 0], [right_m, 0]])
    for node, k in enumerate(springs_n_m, start=1):
        plane.add_support_spring(node, translation=2, k=k)
    plane.add_support_roll(1, direction="y")
    plane.q_load(q=-500, element_id=[2, 3])
    plane.point_load(6, Fy=-800)
    plane.solve()
    sinks_m = np.array([plane.get_node_displacements(node)["uy"] for node in range(1, 6)])

    stiffness = np.array([np.diag([1e9, k, 1e9, 1e9, 0, 0]) for k in springs_n_m])
    points_m = places_m[:, None] * [1.0, 0, 0]
    at_m, half_m = np.array([(2.0, 0, 0), (4.2, 0, 0)]), np.array([1.0, 0])
    actions = np.zeros((2, 6))
    actions[:, 1] = -1000, -800
    influence = beam_influence(points_m, stiffness, Beam(0, 4e4), at_m, half_m)
    found_n = np.einsum("mnij,mj->ni", influence, actions)

    assert found_n[:, 1] == pytest.approx(sinks_m * springs_n_m, rel=1e-6)
