"""A small estimate document: an invented wall dial with a hand and a bird on a ledge.

The numbers are of a plausible size and agree with each other where a test looks; they are not
the result of a calculation.
"""

import copy
import math
from functools import cache

import pytest


def ellipse(middle, across_m, up_m, sides=36):
    """Return a closed outline as the points of an ellipse."""
    steps = [2 * math.pi * i / sides for i in range(sides)]
    return [
        [middle[0] + across_m / 2 * math.cos(a), middle[1] + up_m / 2 * math.sin(a)] for a in steps
    ]


def rectangle(x0, y0, x1, y1):
    """Return a closed outline as four corners."""
    return [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]


SOLIDS = [  # part, assembly, kind, round in the front view, least and greatest corner
    ("T35", "ledge", "part", False, (-2.45, -1.66, 0.02), (2.45, -1.48, 0.44)),
    ("L1", "ledge", "bracket", False, (-2.03, -1.73, 0.0), (-1.97, -1.67, 0.42)),
    ("L2", "ledge", "bracket", False, (1.97, -1.73, 0.0), (2.03, -1.67, 0.42)),
    ("D1", "dial", "bracket", False, (-0.64, 0.56, 0.0), (-0.56, 0.64, 0.11)),
    ("D2", "dial", "bracket", False, (0.56, 0.56, 0.0), (0.64, 0.64, 0.11)),
    ("D3", "dial", "bracket", False, (-0.64, -0.64, 0.0), (-0.56, -0.56, 0.11)),
    ("D4", "dial", "bracket", False, (0.56, -0.64, 0.0), (0.64, -0.56, 0.11)),
    ("T02", "dial", "part", True, (-1.23, -1.23, 0.10), (1.23, 1.23, 0.14)),
    ("T01", "dial", "part", True, (-1.2, -1.2, 0.12), (1.2, 1.2, 0.21)),
    ("T15", "bird", "part", True, (-2.16, -0.735, 0.165), (-1.24, -0.305, 0.495)),
    ("T16", "bird", "part", False, (-1.50, -0.45, 0.29), (-1.36, 0.19, 0.37)),
    ("T21", "bird", "part", False, (-1.70, -1.48, 0.32), (-1.68, -0.72, 0.34)),
    ("T10", "hand", "mover", False, (-0.075, -0.02, 0.295), (0.075, 0.98, 0.305)),
    ("T12", "hand", "mover", True, (-0.13, -0.49, 0.295), (0.13, -0.23, 0.305)),
]
AXES = {"front": (0, 1, 2, 1), "side": (2, 1, 0, -1), "plan": (0, 2, 1, 1)}


LIFTED = {"combination": "6.10 sup: wind leading", "clause": "EN 1990:2002 6.4.3.2",
          "case": "wind from 90", "position": "as drawn", "sharing": "rigid",
          "state": "as built"}  # fmt: skip
SERVED = LIFTED | {"combination": "6.14b: wind leading", "clause": "EN 1990:2002 6.5.3"}


def moved(share, sag_m):
    """Return how the end of the arm of L1 moves, 400 mm from the wall."""
    return {"share": share, "down_m": sag_m, "up_m": 0.0, "sideways_m": 0.0, "sag_m": sag_m,
            "over": 0.4 / sag_m, "tilt_deg": [0.1, 0.0, -0.02]} | SERVED  # fmt: skip


def tried(section, ratio, sag_m, arm_kg, cost):
    """Return one section that was tried."""
    return {"section": section, "standard": "EN 10219-2", "made": "cold-formed", "ratio": ratio,
            "note": "", "sag_m": sag_m, "over": 0.4 / sag_m, "variable_m": sag_m, "tilt_deg": 0.2,
            "arm_kg": arm_kg, "cost": cost, "within": ratio < 1}  # fmt: skip


ARM = {
    "bracket": "L1", "set": "ledge", "section": "SHS 60x60x4", "standard": "EN 10219-2",
    "made": "cold-formed", "reach_m": 0.42, "bears_m": 0.4, "arm_kg": 2.75,
    "grade": "S275 galvanised", "counted_as": "S275", "yield_pa": 275e6,
    "yield_source": "EN 10025-2, Table 7", "gamma_m0": 1.0, "gamma_source": "EN 1993-1-1, 6.1(1)",
    "galvanised": True, "ratio": 0.400045, "note": "",
    "stress": {"von_mises_pa": 110.0125e6, "axial_pa": 0.5e6, "bending_pa": 109.5e6,
               "shear_pa": 0.5e6, "torsion_pa": 0.457e6, "at_m": 0.0,
               "action": [0.0, -213.75, 427.5, 1587.75, 0.0, -10.0]} | LIFTED,
    "moduli": {"area_m2": 855e-6, "bends_m3": 14.5e-6, "sways_m3": 14.5e-6,
               "shear_up_m2": 427.5e-6, "shear_across_m2": 427.5e-6, "twists_m3": 21.88e-6,
               "is_round": False, "is_hollow": True},
    "moves": [moved("permanent", 0.00005), moved("variable", 0.0025), moved("both", 0.00255)],
    "sag_limit": {"over": 180.0, "source": "the engineer, 2 May"},
    "shaking": {"up_and_down": 30.04, "sideways": 30.04, "arm_kg_m": 6.71, "share_kg": 60.0},
    "stay": {
        "section": "Round 12", "pulls_only": True, "length_m": 0.5, "from_m": 0.3, "to_m": 0.4,
        "ratio": 0.0321, "yield_pa": 275e6, "pull_n": 1000.0, "pull_source": LIFTED,
        "push_n": 0.0, "push_source": None, "at_wall_n": [0.0, -600.0, 800.0],
        "wall_source": LIFTED, "slack": 12, "cases": 96, "slenderness": 166.7, "euler_n": 8437.0,
        "hinged_times": 1.04,
    },
    "trial": {
        "typed": "trial SHS", "pick": "SHS 60x60x4", "fits": True,
        "rows": [tried("SHS 40x40x3", 1.25, 0.009, 1.35, None),
                 tried("SHS 60x60x4", 0.400045, 0.00255, 2.75, 9.5)],
    },
}  # fmt: skip
"""The arm of one bracket, with a stay, its section found by trial."""
BARE = ARM | {
    "bracket": "L2", "section": "UPN 80", "standard": "EN 10365", "made": "hot-rolled",
    "grade": "mild steel", "counted_as": "S235", "yield_pa": 235e6, "galvanised": False,
    "ratio": None, "note": "it is twisted", "moves": [], "shaking": None, "stay": None,
    "trial": None, "stress": ARM["stress"] | {"torsion_pa": None},
    "moduli": ARM["moduli"] | {"twists_m3": None, "is_hollow": False},
}  # fmt: skip
"""The arm of another, an open section that is twisted."""


def carried(pull_n, shear_n, ratio=60.0, source=LIFTED):
    """Return pull and shear of one fixing in one case."""
    return {"pull_n": pull_n, "shear_n": shear_n, "ratio": ratio} | source


def fixing(number, at_m, pull_n, shear_n):
    """Return the worst of one fixing, sheared most where the wind is from the left."""
    other = LIFTED | {"case": "wind from 270"}
    return {"number": number, "at_m": at_m, "pull": carried(pull_n, shear_n / 2),
            "shear": carried(pull_n / 2, shear_n, source=other),
            "service": carried(pull_n / 1.5, shear_n / 3, source=SERVED)}  # fmt: skip


def plate_found(points_m, pulls_n, shears_n, **changes):
    """Return what a plate with some fixings does."""
    return {
        "fixings": [fixing(n, *one) for n, one in enumerate(
            zip(points_m, pulls_n, shears_n, strict=True), start=1)],
        "combinations": [
            {"combination": LIFTED["combination"], "clause": LIFTED["clause"],
             "pull_n": list(pulls_n), "shear_n": list(shears_n)},
            {"combination": "6.10 inf: wind leading", "clause": LIFTED["clause"],
             "pull_n": [pull_n / 2 for pull_n in pulls_n], "shear_n": list(shears_n)},
        ],
        "walls": [{"ratio": ratio, "pull_n": max(pulls_n) * share, "peak_pa": peak_pa,
                   "peak_source": LIFTED}
                  for ratio, share, peak_pa in ((7.0, 0.8, 2.4e6), (60.0, 1.0, 0.9e6))],
        "rules": {"edge_n": 0.7 * max(pulls_n), "centroid_n": 1.3 * max(pulls_n)},
        "governing": {
            "ratio": 60.0, "action": [-1800.0, -2570.5, 0.0, 2699.0, -1890.0, -372.9],
            "pull_n": list(pulls_n), "shear_n": [[0.0, -shear_n] for shear_n in shears_n],
            "outline_m": [[0.04, -0.175], [0.125, -0.175], [0.125, -0.05]],
            "pressed_n": sum(pulls_n), "peak_pa": 0.9e6,
        } | LIFTED,
        "cases": 96, "residual": 2e-15, "turn_nm": 0.0,
    } | changes  # fmt: skip


def wall_plate(bracket, set_, **changes):
    """Return one wall plate of 250 x 350 x 12 mm with M16 fixings."""
    return {
        "bracket": bracket, "set": set_,
        "plate": {"width_m": 0.25, "height_m": 0.35, "thickness_m": 0.012}, "diameter_m": 0.016,
        "area_m2": 156.7e-6, "area_from": "M16, ISO 898-1", "missing": "", "found": None,
        "stay": None, "own": None,
    } | changes  # fmt: skip


PLATES = {
    "stiffness_ratios": [7.0, 60.0], "ratio_told": False,
    "brackets": [
        wall_plate("L1", "ledge", found=plate_found(
            [[-0.085, -0.135], [0.085, -0.135], [-0.085, 0.135], [0.085, 0.135]],
            [3607.2, 0.0, 7555.6, 2952.2], [1000.97, 1342.54, 334.21, 955.07]),
            stay={"pull": carried(800.0, 600.0, None), "shear": carried(700.0, 650.0, None)},
            own={"pull": carried(50.0, 600.0, None), "shear": carried(0.0, 650.0, None)}),
        wall_plate("L2", "ledge", found=plate_found([[0.0, 0.0]], [400.0], [0.0], turn_nm=372.9)),
        wall_plate("D1", "dial", plate=None, diameter_m=None, area_m2=None, area_from="",
                   missing="not worked out: plate width, height and thickness blank on the"
                           " brackets sheet"),
    ],
    "proof_tests": [
        {"share": 0.025, "times": 1.5, "fixings": 5, "tests": 3, "load_n": 7555.6},
        {"share": 0.05, "times": 1.25, "fixings": 5, "tests": 3, "load_n": 6296.3},
    ],
}  # fmt: skip
"""Plates of two brackets, one with a single fixing, and of one that nobody described."""


def view(name):
    """Return one view of the solids."""
    x, y, depth, sense = AXES[name]
    shapes = []
    for part, assembly, kind, is_round, low, high in SOLIDS:
        outer = rectangle(low[x], low[y], high[x], high[y])
        if is_round and name == "front":
            middle = ((low[x] + high[x]) / 2, (low[y] + high[y]) / 2)
            outer = ellipse(middle, high[x] - low[x], high[y] - low[y])
        nearest = max(sense * low[depth], sense * high[depth])
        shape = {"part": part, "assembly": assembly, "kind": kind, "depth_m": nearest}
        shapes.append({**shape, "outer": outer, "holes": [], "lines": None})
    lows = [min(s[4][axis] for s in SOLIDS) for axis in range(3)]
    highs = [max(s[5][axis] for s in SOLIDS) for axis in range(3)]
    sweep = {"front": ellipse((0, 0), 1.96, 1.96), "side": rectangle(0.295, -0.98, 0.305, 0.98)}
    points = sweep.get(name, rectangle(-0.98, 0.295, 0.98, 0.305))
    return {
        "box_m": [lows[x], lows[y], highs[x], highs[y]],
        "shapes": shapes,
        "sweeps": [{"assembly": "hand", "points": points}],
    }


def fact(value, unit="", origin="typed", source="site visit 2 May 2026"):
    """Return one fact of the job."""
    cell = "job!B4" if origin == "typed" else None
    return {"value": value, "unit": unit, "origin": origin, "cell": cell, "source": source}


def job():
    """Return the facts of the job."""
    return {
        "title": fact("Tide dial, harbour library gable"),
        "client": fact("Marrow Quay Harbour Trust"),
        "site": fact("Library gable, Marrow Quay"),
        "issue": fact("C"),
        "date": fact("2026-05-11"),
        "currency": fact("GBP"),
        "datum height": fact(7.6, "m"),
        "building height": fact(11.0, "m"),
        "basic wind speed": fact(24.0, "m/s", source="invented for the example"),
        "kerb distance": fact(2.6, "m"),
        "not listed yet": fact(0.05, "%", "default", "program default"),
    }


PARTS = [  # part, name, assembly, count, made of, skin, volume, mass, low, high, centre
    ("T35", "mud ledge", "ledge", 1, "lead", 4.0, 0.37, 152.0, 126.0, 181.0, (0, -1.57, 0.23)),
    ("T01", "dial face", "dial", 1, "copper 16 SWG", 4.64, 0.0076, 67.5, 63.0, 72.0, (0, 0, 0.165)),
    ("T02", "dial rim", "dial", 1, "copper 16 SWG", 0.92, 0.0009, 13.4, 12.4, 14.5, (0, 0, 0.12)),
    ("T15", "body", "bird", 1, "copper", 1.02, 0.0683, 15.1, 11.2, 20.0, (-1.7, -0.52, 0.33)),
    ("T16", "neck", "bird", 1, "copper", 0.25, 0.0071, 3.71, 2.8, 4.9, (-1.43, -0.13, 0.33)),
    ("T21", "legs", "bird", 2, "stainless", 0.086, 0.0004, 3.07, 3.0, 3.15, (-1.69, -1.09, 0.33)),
    ("T10", "hand blade skins", "hand", 2, "copper", 0.22, 0.0005, 4.79, 4.4, 5.2, (0, 0.48, 0.3)),
    ("T12", "tail crescents", "hand", 2, "copper", 0.11, 0.0001, 1.16, 1.05, 1.27, (0, -0.36, 0.3)),
]  # fmt: skip


def layer_sum(mass_kg):
    """Return a sum that comes to so much: a size of 1.25 m2, a fifth of it gained by hammering."""
    return {
        "size": 1.25, "unit": "m2", "kg_per_size": mass_kg / 1.25 / 1.2, "gained": 1.2,
        "left": 1.0, "covers": 1.0, "laps": 1.0, "formed": 1.0, "made": 1.0,
        "cited": ["EN 1172, Table A (as quoted)", "General knowledge, a guess (from memory)"],
        "causes": [
            {"cause": "the sizes of what is drawn", "low": 0.1, "high": 0.1, "why": "a default"},
            {"cause": "gauge", "low": 0.05, "high": 0.04, "why": ""},
        ],
    }  # fmt: skip


def parts():
    """Return the parts, one layer each."""
    return [
        {
            "part": key, "name": name, "assembly": assembly, "count": count, "shape": "sheet",
            "made_of": made_of, "skin_area_m2": skin_m2, "volume_m3": volume_m3,
            "mass_each_kg": mass_kg / count, "mass_kg": mass_kg, "low_kg": low_kg,
            "high_kg": high_kg, "cg_m": list(cg_m), "confidence": "drawn",
            "weighed": {"T21": "T21", "T15": "bird"}.get(key, ""),
            "layers": [
                {"layer": "skin", "material": made_of, "over": "one face", "amount": "1.6 mm",
                 "mass_kg": mass_kg, "why": "area x thickness x density",
                 "sum": layer_sum(mass_kg / count)}
            ],
        }
        for key, name, assembly, count, made_of, skin_m2, volume_m3, mass_kg, low_kg, high_kg, cg_m
        in PARTS
    ]  # fmt: skip


def body(mass_kg, low_kg, high_kg, cg_m):
    """Return what every record of a mass shares."""
    return {"mass_kg": mass_kg, "low_kg": low_kg, "high_kg": high_kg, "cg_m": list(cg_m)}


def assembly(name, body_of, low_m, high_m, position="fixed", angle_deg=0.0):
    """Return one position of an assembly."""
    return {
        "assembly": name, "position": position, "angle_deg": angle_deg, **body_of,
        "inertia_kgm2": [8.1, 7.9, 15.2, 0.0, 0.1, 0.0], "box_m": [list(low_m), list(high_m)],
        "lowest_m": 7.6 + low_m[1], "furthest_m": high_m[2], "free": "",
    }  # fmt: skip


def assemblies():
    """Return the assemblies, the hand in two positions."""
    dial = body(126.0, 117.0, 136.0, (0, 0, 0.15))
    hand = body(15.7, 14.2, 17.4, (0.0, 0.12, 0.3))
    bird = body(30.0, 23.5, 38.0, (-1.66, -0.55, 0.33))
    ledge = body(152.0, 126.0, 181.0, (0, -1.565, 0.23))
    return [
        assembly("dial", dial, (-1.23, -1.23, 0.1), (1.23, 1.23, 0.21)),
        assembly("hand", hand, (-0.13, -0.49, 0.295), (0.13, 0.98, 0.305), "0°"),
        assembly("hand", hand, (-0.98, -0.13, 0.295), (0.49, 0.13, 0.305), "90°", 90.0),
        assembly("bird", bird, (-2.16, -1.48, 0.165), (-1.24, 0.19, 0.495)),
        assembly("ledge", ledge, (-2.45, -1.73, 0), (2.45, -1.48, 0.44)),
    ]


def step(name, symbol, value, unit, clause, *, confirmed=True):
    """Return one line of the way to the wind pressure."""
    return {
        "name": name, "symbol": symbol, "value": value, "unit": unit, "clause": clause,
        "confirmed": confirmed,
    }  # fmt: skip


COMPASS = {0: "south-east", 90: "north-east", 180: "north-west", 270: "south-west"}


def loads():
    """Return wind loads on three assemblies from every 22.5 degrees in front of the wall."""
    out = []
    for name, area_m2, (across_m, up_m, out_m) in (
        ("dial", 4.75, (0.0, 0.0, 0.16)),
        ("bird", 0.62, (-1.68, -0.5, 0.33)),
        ("hand", 0.31, (0.0, 0.2, 0.3)),
    ):
        for sixteenth in range(-4, 5):
            angle = math.radians(22.5 * sixteenth)
            for case, sense in (("pressed on", -1.0), ("pulled off", 1.0)):
                pull_n = sense * 812.0 * 1.8 * area_m2 * (0.35 + 0.65 * math.cos(angle))
                along_n = -812.0 * 0.09 * area_m2 * math.sin(angle)
                force_n = [along_n, 0.0, pull_n]
                direction = (22.5 * sixteenth) % 360
                out.append(
                    {
                        "assembly": name, "position": "fixed", "direction_deg": direction,
                        "compass": COMPASS.get(int(direction), "between"), "case": case,
                        "force_n": force_n, "area_m2": area_m2, "coefficient": 1.8,
                        "at_m": [across_m, up_m, out_m],
                        "moment_nm": [
                            up_m * pull_n, out_m * along_n - across_m * pull_n, -up_m * along_n,
                        ],
                    }
                )  # fmt: skip
    return out


def wind_steps():
    """Return the way to the pressure."""
    return [
        step("basic wind velocity", "v_b", 24.0, "m/s", "EN 1991-1-4 4.2 (4.1)"),
        step("terrain factor", "k_r", 0.19, "", "EN 1991-1-4 4.3.2 (4.5)"),
        step("mean wind velocity", "v_m", 22.9, "m/s", "EN 1991-1-4 4.3.1 (4.3)"),
        step("turbulence intensity", "I_v", 0.2, "", "EN 1991-1-4 4.4 (4.7)"),
        step("peak pressure", "q_p", 812.0, "Pa", "EN 1991-1-4 4.5 (4.8)", confirmed=False),
    ]


def wind():
    """Return the wind part of the document."""
    return {
        "rule": "EN 1991-1-4",
        "level": "peak characteristic",
        "pressure_pa": 812.0,
        "steps": wind_steps(),
        "loads": loads(),
        "parts": [
            {
                "part_or_assembly": name, "height_m": 7.6, "pressure_pa": 812.0, "coefficient": 1.8,
                "area_m2": area_m2, "summed_area_m2": area_m2 * 1.1,
                "why": "free-standing board, assumed", "others": [["signboard, 7.4.3", 1.8]],
            }
            for name, area_m2 in (("dial", 4.75), ("bird", 0.62), ("hand", 0.31))
        ],
        "coefficients": [
            {
                "assembly": name, "parts": parts, "meets": meets, "area_m2": area_m2,
                "coefficient": value, "rule": "as assumed", "source": "a standard",
                "confirmed": name == "bird", "others": [],
            }
            for name, parts, meets, area_m2, value in (
                ("dial", [], "on its outline", 4.75, 1.8),
                ("bird", ["T15", "T16"], "on the outline it shows", None, 1.3),
                ("hand", [], "on its outline", 0.31, 1.8),
            )
        ],
        "notes": ["No shelter from the parapet was taken."],
        **chains(),
    }  # fmt: skip


def chains():
    """Return how the wind loads came about: one pressure, three assemblies at a wall."""
    along = {
        "value": 1.3, "rule": "as a closed body", "source": "judgement", "confirmed": False,
        "others": [["cube", 1.05]],
    }  # fmt: skip
    outline = {
        "direction_deg": 0.0, "width_m": 2.46, "height_m": 2.46, "area_m2": 4.75,
        "summed_area_m2": 5.225, "filled_area_m2": 4.8, "middle_m": [0.0, 0.0, 0.16], "share": 1.0,
    }  # fmt: skip
    return {
        "pressures": [
            {"height_m": 7.6, "why": "its own middle (7.4.3, from memory)", "pressure_pa": 812.0,
             "steps": wind_steps()}
        ],
        "chains": [
            {"assembly": name, "position": "fixed", "pressure": 0, "stands": "off wall",
             "way": "wall", "along": along, "friction": 0.04, "front_m2": area_m2, "side_m2": 0.3,
             "off_middle": "EN 1991-1-4 7.4.3(3)",
             "outlines": [outline | {"area_m2": area_m2}] if name == "dial" else []}
            for name, area_m2 in (("dial", 4.75), ("bird", 0.62), ("hand", 0.31))
        ],
        "shown": [
            {"assembly": "dial", "position": "fixed", "direction_deg": 0.0,
             "areas": [{"part": "T01", "area_m2": 4.52}], "forces": []}
        ],
    }  # fmt: skip


def moving():
    """Return the one mover."""
    return [
        {
            "assembly": "hand", "out_of_balance_kgm": 1.88, "gravity_torque_nm": 18.4,
            "wind_torque_nm": 42.0, "inertia_kgm2": 1.9, "counterweight_kg": 5.2,
            "counterweight_part": "T13", "counterweight_radius_m": 0.36, "drive_torque_nm": None,
            "vane": "",
            "gravity_by_angle": [
                [a, 18.4 * math.sin(math.radians(a))] for a in range(0, 361, 30)
            ],
            "cases": [
                {"mechanism": "gravity, as listed", "torque_nm": 18.4, "direction_deg": None,
                 "why": "hand level"},
                {"mechanism": "blade twist of 2°", "torque_nm": 42.0, "direction_deg": 45.0,
                 "why": "assumed: hammered hands are not flat"},
            ],
        }
    ]  # fmt: skip


BRACKETS = [  # bracket, set, root, pull-out, shear
    ("D1", "dial", (-0.6, 0.6, 0.0), 2710.0, 352.0),
    ("D2", "dial", (0.6, 0.6, 0.0), 2710.0, 352.0),
    ("D3", "dial", (-0.6, -0.6, 0.0), 2240.0, 352.0),
    ("D4", "dial", (0.6, -0.6, 0.0), 2240.0, 352.0),
    ("L1", "ledge", (-2.0, -1.7, 0.0), 410.0, 1010.0),
    ("L2", "ledge", (2.0, -1.7, 0.0), 155.0, 760.0),
]


def slender():
    """Return one slow tube in the wind."""
    speeds = {
        "section": "round", "width_m": 0.012, "height_m": 6.5, "mean_m_s": 22.4, "strouhal": 0.18,
        "critical_m_s": [0.289, 0.305], "critical_beaufort": [0, 0], "sheds": True,
        "scruton": 41.3, "galloping_factor": None, "galloping_m_s": None, "gallops": False,
    }  # fmt: skip
    tube = {
        "part": "T31", "name": "reed stem", "assembly": "ledge", "held": "one end",
        "length_m": 1.35, "across_m": 0.012, "mass_kg_m": 0.31, "modulus_pa": [117e9, 130e9],
        "tip": "", "tip_kg": 0.0, "alone_hz": [4.33, 4.57], "hz": [4.33, 4.57],
        "below": ["EN 1991-1-4 6.2(1)"], "speeds": speeds,
    }  # fmt: skip
    lines = [
        {"rule": "EN 1991-1-4 6.2(1)", "hz": 5.0, "asks": "a factor of 1 is not given to it",
         "confirmed": False},
        {"rule": "ASCE 7-16 26.11.5", "hz": 1.0, "asks": "it counts as flexible",
         "confirmed": True},
    ]  # fmt: skip
    return {"parts": [tube], "lines": lines, "decrement": 0.012, "unknown": []}


def burdens():
    """Return snow and water on the ledge, and a load on what no bracket carries."""
    return {
        "snow": {"ground_pa": 400.0, "shape": 0.8, "typed": ["bird"],
                 "assemblies": [{"assembly": "ledge", "plan_m2": 2.06, "weight_n": 659.0}]},
        "water": [
            {"load": "W1", "assembly": "bird", "parts": ["T15"], "filled": ["T16"],
             "volume_m3": 0.012, "mass_kg": 12.0},
        ],
        "typed": [
            {"load": "E1", "assembly": "ledge", "cause": "person", "force_n": [0.0, -1000.0, 0.0],
             "at_m": [1.0, 0.0, 0.3], "together": None, "source": "invented"},
        ],
        "not_held": ["E9"],
    }  # fmt: skip


def combinations():
    """Return two expressions of EN 1990 for wind and a person."""
    clause = "EN 1990:2002 6.4.3.2 and Table A1.2(B)"

    def one(name, permanent, variable, weight=1.0, kind="strength"):
        return {"name": name, "clause": clause, "kind": kind, "permanent": permanent,
                "weight": weight, "sets": ["ledge"],
                "variable": [{"action": a, "factor": f} for a, f in variable.items()]}  # fmt: skip

    return {
        "rule": "EN 1990 6.10", "annex": "UK", "wind_level": "peak characteristic",
        "consequence_factor": 1.0, "actions": ["wind", "person"],
        "factors": [
            {"symbol": "gamma_g_sup", "value": 1.35, "annex": "recommended", "source": "EN 1990",
             "locator": "Table A1.2(B), set B", "checked": "quoted"},
            {"symbol": "psi0 person", "value": 0.7, "annex": "recommended", "source": "EN 1990",
             "locator": "Table A1.1, categories A and B", "checked": "memory"},
        ],
        "weights": [{"set": "dial", "low": 1.0, "high": 1.0},
                    {"set": "ledge", "low": 0.85, "high": 1.12}],
        "list": [
            one("6.10 sup (high weight): permanent only", 1.512, {}, 1.12),
            one("6.10 sup (high weight): wind leading", 1.512, {"wind": 1.5}, 1.12),
            one("6.10 sup (high weight): wind leading with person", 1.512,
                {"wind": 1.5, "person": 1.05}, 1.12),
            one("6.10 sup (high weight): person leading with wind", 1.512,
                {"wind": 0.75, "person": 1.5}, 1.12),
            one("6.14b: wind leading", 1.0, {"wind": 1.0}, kind="service"),
        ],
        "notes": ["All that is permanent takes one factor."],
    }  # fmt: skip


def working_wind():
    """Return the wind to work in, the crane's own limit not known."""
    return {
        "spoken": [{"what": "the basic wind speed", "speed_m_s": 24.0, "beaufort": 9,
                    "name": "strong gale"}],
        "forces": [{"beaufort": 5, "name": "fresh breeze", "low_m_s": 8.0, "high_m_s": 10.8,
                    "gust_m_s": 15.12, "gust_high_m_s": None}],
        "height_m": None,
        "lifts": [{"lift_unit": "dial", "mass_kg": 126.0, "outline_m2": 4.75,
                   "direction_deg": 0.0, "sail_m2": 11.4, "factor": 0.1152,
                   "cautious_factor": 0.01326, "limit_m_s": None, "cautious_m_s": None}],
        "crane_m_s": None, "drag": 2.4, "chart_m2_t": 1.2, "altitude_m": None,
        "density_kg_m3": None, "used_kg_m3": 1.25,
    }  # fmt: skip


def brackets():
    """Return the characteristic actions on the wall, by cause."""
    rows = []
    for name, set_, at_m, pull_n, shear_n in BRACKETS:
        for cause, direction, force_n in (
            ("own weight", None, [0.0, -shear_n, 0.08 * pull_n]),
            ("wind", 0.0, [0.0, 0.0, 0.92 * pull_n]),
            ("wind", 90.0, [-0.2 * shear_n, 0.0, 0.4 * pull_n]),
            ("wind", 0.0, [0.0, 0.0, -0.9 * pull_n]),
        ):
            rows.append(
                {
                    "bracket": name, "set": set_, "at_m": list(at_m), "cause": cause,
                    "direction_deg": direction, "case": "pulled off" if direction == 0 else "",
                    "force_n": force_n, "sharing": "rigid", "position": "hand at 0°",
                    "moment_nm": [0.11 * shear_n if cause == "own weight" else 0.0, 0.0, 0.0],
                }
            )  # fmt: skip
    return rows


def envelope():
    """Return the governing combination of each component at each bracket."""
    rows = []
    for name, _, _, pull_n, shear_n in BRACKETS:
        for component, value, unit, sharing in (
            ("pull-out", 1.5 * pull_n, "N", "rigid"),
            ("push-in", -1.3 * pull_n, "N", "lever"),
            ("down", -1.35 * shear_n, "N", "lever"),
            ("moment across", 0.149 * shear_n, "N m", "rigid"),
        ):
            rows.append(
                {
                    "bracket": name, "component": component, "value": value, "unit": unit,
                    "combination": "1.35 G + 1.5 W (EN 1990 6.10)", "case": "wind from 0°",
                    "sharing": sharing, "position": "hand at 90°", "state": "as built",
                }
            )  # fmt: skip
    return rows


def answers():
    """Return the worst of the dial's brackets by both ways of sharing, and with one slack."""
    return [
        {"state": state, "sharing": sharing, "unheld": 0, "brackets": [
            {"bracket": f"D{n + 1}",
             **dict.fromkeys(("pull_out_n", "push_in_n", "down_n", "uplift_n", "sideways_n"),
                             None if state == f"D{n + 1} slack" else times * (n + 1))}
            for n in range(4)
        ]}
        for state, sharing, times in (("as built", "rigid", 900.0), ("as built", "lever", 700.0),
                                      ("D2 slack", "rigid", 1300.0))
    ]  # fmt: skip


def order():
    """Return the order list."""
    line = {
        "material": "copper", "form": "sheet", "size_text": "quarters of a disc",
        "gauge": "16 SWG", "pieces": 4, "count_to_buy": 3, "stock_size": "2000 x 1000 mm",
        "price_each": 268.0, "cost": 804.0, "bound_text": "area asks for 2.6 sheets",
        "mass_kg": 87.1, "offcut_kg": 6.2, "scrap_kg": 11.4, "scrap_money": 62.7,
        "not_laid_out_m2": 0.0, "how": "shelves, turned",
    }  # fmt: skip
    lead = {
        **line, "material": "lead", "gauge": "Code 5", "pieces": 9, "count_to_buy": None,
        "stock_size": None, "price_each": None, "cost": None, "not_laid_out_m2": 4.6,
        "bound_text": "area to buy, not laid out", "size_text": "to lay over the ledge",
    }  # fmt: skip
    return {"lines": [line, lead], "total_cost": 804.0}


def cost():
    """Return hours, costs and price."""
    names = ("making", "materials", "site")
    return {
        "currency": "GBP",
        "lines": [
            {"name": name, "category": name, "low": 900.0 * i, "likely": 1200.0 * i,
             "high": 2100.0 * i, "mean": 1400.0 * i, "how": "triangular"}
            for i, name in enumerate(names, start=1)
        ],
        "hours_lines": [
            {"activity": "hammer the bird", "people": 1, "low": 60.0, "likely": 90.0, "high": 160.0,
             "rate": 35.0, "cost": 3150.0},
            {"activity": "fix on site", "people": 2, "low": 32.0, "likely": 48.0, "high": 80.0,
             "rate": 35.0, "cost": 1680.0},
        ],
        "price_lines": [
            {"name": "cost", "low": 5400.0, "likely": 7200.0, "high": 12600.0, "mean": 8400.0,
             "how": "sum of the lines"},
            {"name": "price before tax", "low": 6210.0, "likely": 8280.0, "high": 14490.0,
             "mean": 9660.0, "how": "mark-up of 15 % on cost"},
        ],
        "sum_of_likely": 7200.0,
        "mean": 8400.0,
    }  # fmt: skip


def front():
    """Return what a small front view is drawn from."""
    whole = view("front")
    shapes = [{key: shape[key] for key in ("part", "outer", "holes")} for shape in whole["shapes"]]
    return {"box_m": whole["box_m"], "shapes": shapes}


def difference(mass_kg=0.0, mass_share=0.0, moved_m=0.0, shares=(0.0, 0.0, 0.0)):
    """Return by how much a way, or an assembly of it, differs from the first."""
    front_share, side_share, wind_share = shares
    return {
        "mass_kg": mass_kg, "mass_share": mass_share, "cg_m": [0.0, moved_m, 0.0],
        "moved_m": moved_m, "front_share": front_share, "side_share": side_share,
        "wind_share": wind_share,
    }  # fmt: skip


def in_a_way(name, body_of, areas_m2, wind_n, differs=None):
    """Return one assembly of one way of building."""
    front_m2, side_m2 = areas_m2
    return {
        "assembly": name, **body_of, "front_area_m2": front_m2, "side_area_m2": side_m2,
        "wind_n": wind_n, "differs": differs,
    }  # fmt: skip


def options_table():
    """Return the two ways of building side by side: the bird is all that differs."""
    dial = body(126.0, 117.0, 136.0, (0, 0, 0.15))
    bird = body(30.0, 23.5, 38.0, (-1.66, -0.55, 0.3))
    lead_bird = body(120.0, 100.0, 145.0, (-1.66, -0.52, 0.3))
    row = {
        "option": "copper", **body(446.0, 410.0, 492.0, (-0.002, -0.789, 0.18)),
        "front_area_m2": 6.2, "side_area_m2": 0.9, "wind_n": 9400.0,
        "windiest": "dial", "windiest_n": 6942.6,
        "pulls": [{"set": "dial", "bracket": "D4", "moment_nm": 245.0, "pull_out_n": 2710.0}],
        "person_hours_likely": 1246.0,
        "person_hours_mean": 1424.0, "cost_mean": 8400.0, "price_mean": 9660.0,
        "differs": None,
        "assemblies": [in_a_way("dial", dial, (4.75, 0.3), 6942.6),
                       in_a_way("bird", bird, (0.62, 0.2), 906.2)],
        "front": front(),
    }  # fmt: skip
    lead = {
        **row, "option": "lead on wood", **body(536.0, 480.0, 601.0, (-0.002, -0.751, 0.18)),
        "pulls": [], "differs": difference(90.0, 90 / 446, 0.038, (0.021, 0.0, None)),
        "assemblies": [
            in_a_way("dial", dial, (4.75, 0.3), 6942.6, difference()),
            in_a_way("bird", lead_bird, (0.75, 0.2), 1096.2,
                     difference(90.0, 3.0, 0.03, (0.21, 0.0, 0.21))),
        ],
    }  # fmt: skip
    return [row, lead]


def sized(times):
    """Return the job at one size: mass by the power 2, wind by 2, hours by skin by 2."""
    square = times**2
    return {
        "times": times, **body(446.0 * square, 410.0 * square, 492.0 * square, (0, -0.8, 0.2)),
        "wind_n": 9400.0 * square, "windiest": "dial", "windiest_n": 6942.6 * square,
        "pulls": [{"set": "dial", "bracket": "D4", "moment_nm": 245.0 * times**3,
                   "pull_out_n": 2710.0 * square}],
        "skin_area_m2": 11.0 * square, "material_cost": 1500.0 + 100.0 * times, "unpriced": 1,
        "hours_listed": 1246.0, "hours_by_skin": 1246.0 * square,
        "price_listed": 9660.0 + 100.0 * (times - 1), "price_by_skin": 9660.0 * times,
    }  # fmt: skip


def sizes():
    """Return the job larger and smaller."""
    return {
        "lines": [sized(times) for times in (0.8, 0.9, 1.0, 1.1, 1.25)],
        "growth": {
            "mass_kg": 2.0, "skin_area_m2": 2.0, "wind_n": 2.0, "windiest_n": 2.0,
            "material_cost": None, "price_listed": 0.01, "price_by_skin": 1.0,
            "pulls": [{"set": "dial", "pull_out_n": 2.0, "moment_nm": 3.0}],
        },
        "misfits": [],
    }  # fmt: skip


def marks():
    """Return what is marked on the views."""
    return {
        "cg_m": [-0.002, -0.789, 0.18],
        "brackets": [
            {"bracket": name, "of_stay": False, "at_m": list(at_m),
             "bears_m": [at_m[0], at_m[1], 0.11], "pull_out_n": pull_n, "shear_n": shear_n}
            for name, _, at_m, pull_n, shear_n in BRACKETS
        ],
        "wind_centres": [
            {"assembly": "dial", "at_m": [0.0, 0.0, 0.16]},
            {"assembly": "bird", "at_m": [-1.68, -0.5, 0.33]},
        ],
        "limits": [
            {"limit": "headroom", "value_m": 2.6, "value_kg": None, "source": "licence, 3 April"},
            {"limit": "projection", "value_m": 1.05, "value_kg": None, "source": "licence"},
        ],
        "ground_m": -7.6,
    }  # fmt: skip


def problem(severity, found, cell="parts!K9", part="T05"):
    """Return one problem of the workbook."""
    return {
        "severity": severity, "sheet": cell.split("!", maxsplit=1)[0], "cell": cell, "part": part,
        "found": found, "expected": "a gauge with its system", "advice": "type 18 SWG or 1.2 mm",
    }  # fmt: skip


def blank(part, name, kind, **changes):
    """Return a sheet that is cut flat from one rectangle, with some keys changed."""
    return {
        "part": part, "name": name, "count": 1, "layer": "skin", "material": "copper",
        "gauge": "18 SWG (1.219 mm, 10.89 kg/m2)", "forming": None, "relief": 1.0, "kind": kind,
        "why": "cut flat",
        "sizes": [{"name": "length", "value": 1.0, "unit": "m"},
                  {"name": "width", "value": 0.5, "unit": "m"}],
        "pieces": [{"number": 1, "length_m": 1.0, "width_m": 0.5}],
        "joint": "butt weld", "joint_low_m": 0.0, "joint_high_m": 0.002, "joint_stays": False,
        "joint_source": "usual", "slope_deg": 90.0, "joints": 0, "joint_m": 0.0,
        "joint_share": 0.0, "blank_m2": 0.5, "trim_m2": 0.0, "finished_m2": 0.5,
        "by_blank_kg": 5.44, "by_area_kg": 5.44, "used": "finished area x gauge",
        "thickness_m": 0.001219, "mean_m": 0.001219, "thinnest_m": 0.001219, "warning": "",
        "notes": [], "outline": [],
    } | changes  # fmt: skip


def blanks():
    """Return a plate, gores with a note, and a sunk dome that comes out thin."""
    return [
        blank("T05", "letters", "rectangle"),
        blank(
            "T15", "body", "gores", relief=1.08, why="6 gores, hammered hollow",
            sizes=[{"name": "length", "value": 1.0665, "unit": "m"},
                   {"name": "width in the middle", "value": 0.2, "unit": "m"}],
            pieces=[{"number": 6, "length_m": 1.108, "width_m": 0.209}],
            joints=6, joint_m=6.65, notes=["no way of forming is named"], slope_deg=None,
            outline=[[[0.0, 0.1], [0.53, 0.0], [1.0665, 0.1], [0.53, 0.2]]],
        ),
        blank(
            "T01", "dial face", "disc", forming="sunk", why="a disc of equal area",
            sizes=[{"name": "diameter", "value": 2.407, "unit": "m"}],
            pieces=[{"number": 3, "length_m": 1.216, "width_m": 1.216},
                    {"number": 1, "length_m": 1.215, "width_m": 1.215}],
            blank_m2=4.3, trim_m2=0.22, by_blank_kg=60.5, by_area_kg=67.2,
            used="blank less trim", mean_m=0.0011, thinnest_m=0.0009,
            warning="its mean thickness is 1.10 mm, 10 % under the 1.22 mm of the sheet",
            outline=[[[0.0, 1.2], [1.2, 0.0], [2.407, 1.2], [1.2, 2.407]]],
        ),
    ]  # fmt: skip


def formings():
    """Return two ways: one that moves metal, one that does not."""
    return [
        {"forming": "flat", "mass_low": 1.0, "mass_likely": 1.0, "mass_high": 1.0,
         "trim_low": 0.0, "trim_high": 0.0, "thinning_low": 0.0, "thinning_high": 0.0,
         "source": "a book"},
        {"forming": "sunk", "mass_low": 0.85, "mass_likely": 0.9, "mass_high": 0.95,
         "trim_low": 0.03, "trim_high": 0.08, "thinning_low": 0.1, "thinning_high": 0.25,
         "source": "General knowledge (from memory)"},
    ]  # fmt: skip


def ledger(**counts):
    """Return the ledger of one sheet."""
    keys = ("read", "used", "other_option", "parked", "replaced", "refused")
    return {key: counts.get(key, 0) for key in keys}


def widest():
    """Return the two causes that make the mass least sure."""
    return [
        {
            "cause": "the sizes of what is guessed", "kind": "sizes", "why": "20 % either way",
            "down_kg": 31.0, "up_kg": 31.0, "known_low_kg": 424.0, "known_high_kg": 479.0,
            "narrower_kg": 27.0, "narrower_fraction": 0.33, "parts": 6, "chief_narrower_kg": 11.0,
            "chief": [{"part": "T15", "name": "body", "off_kg": 3.0},
                      {"part": "T16", "name": "neck", "off_kg": 0.7}],
            "samples": [],
        },
        {
            "cause": "gauge 16 SWG (1.626 mm, 14.52 kg/m2)", "kind": "gauge",
            "why": "program default: 5 % either way", "down_kg": 4.0, "up_kg": 4.0,
            "known_low_kg": 410.4, "known_high_kg": 491.6, "narrower_kg": 0.8,
            "narrower_fraction": 0.01, "parts": 1, "chief_narrower_kg": 0.8,
            "chief": [{"part": "T01", "name": "dial face", "off_kg": 3.4}],
            "samples": [{"piece": "0.1 m²", "likely_kg": 1.452, "low_kg": 1.379,
                         "high_kg": 1.525}],
        },
    ]  # fmt: skip


def weighings():
    """Return a part, weighed twice on one day, and the assembly that it is in."""
    return [
        {
            "kind": "part", "name": "T21", "count": 2, "times": 2, "date": "2026-04-02",
            "scale": "kitchen", "cell": "weighed!D2", "parts": ["T21"], "estimated_kg": 2.9,
            "weighed_kg": 3.07, "alone_kg": 0.0, "ratio": 1.0586, "rest_ratio": 1.0586,
            "material": "stainless 304", "shape": "tube", "not_kept": "",
        },
        {
            "kind": "assembly", "name": "bird", "count": 1, "times": 1, "date": "", "scale": "",
            "cell": "weighed!D4", "parts": ["T15", "T21"], "estimated_kg": 20.0,
            "weighed_kg": 18.2, "alone_kg": 3.07, "ratio": 0.91, "rest_ratio": 0.885,
            "material": "copper, hammered", "shape": "mixed",
            "not_kept": "parts of it were weighed on their own",
        },
    ]  # fmt: skip


def own_record():
    """Return what a maker's own record says of hammered copper."""
    return [
        {
            "material": "copper, hammered", "shape": "ellipsoid", "number": 4, "mean": 1.0625,
            "low": 0.98, "high": 1.12, "deviation": 0.06, "jobs": ["heron", "vane (Vane)"],
            "parts": ["T15", "T23"], "estimated_kg": 30.1,
        }
    ]  # fmt: skip


def register():
    """Return an answer, something nobody told and something assumed."""
    blank = {"which": "", "before": "", "who": "", "date": None, "cell": None}
    return [
        {**blank, "number": 1, "kind": "answer", "about": "wall stiffness ratio", "value": "15",
         "before": "not told", "why": "A soft wall shares the pull in another way",
         "who": "J. Marsh", "date": "2026-05-04", "cell": "answers!C2", "state": "answered"},
        {**blank, "number": 2, "kind": "not told", "about": "terrain", "value": "II",
         "why": "nothing typed; open country is usual", "state": "open"},
        {**blank, "number": 3, "kind": "assumed", "about": "blade twist", "value": "2°",
         "why": "hammered hands are not flat", "state": "open"},
    ]  # fmt: skip


def elevations():
    """Return a ledge arm with a stay, and two dial stubs that look alike, without a plate."""
    forces = ("shear to the right", "shear to the left"), ("uplift", "down"), (
        "pull-out", "push-in",
    )  # fmt: skip
    moments = [(f"moment about {axis}, +", f"moment about {axis}, -") for axis in
               ("across", "up", "out")]  # fmt: skip

    def bracket(name, pull_n, **more):
        return {
            "bracket": name, "set": "dial", "reach_m": 0.11, "bears_m": 0.11, "holds": "welded",
            "section": "SHS 80x80x5", "depth_m": 0.08, "grade": "S275", "trial": False,
            "plate_m": None, "hole_levels_m": [], "stay": None,
            "actions": [
                {"components": list(pair), "unit": unit,
                 "characteristic": [pull_n, -pull_n / 2], "factored": [1.5 * pull_n, -pull_n]}
                for pairs, unit in ((forces, "N"), (moments, "N m"))
                for pair in pairs
            ],
        } | more  # fmt: skip

    return [
        bracket("L1", 800.0, set="ledge", reach_m=0.42, bears_m=0.23, section="SHS 60x60x4",
                depth_m=0.06, plate_m=[0.2, 0.2, 0.01], hole_levels_m=[-0.075, 0.075],
                stay={"from_m": 0.4, "to_m": 0.38, "section": "Round 16", "depth_m": 0.016,
                      "pulls_only": True}),
        bracket("D1", 1000.0),
        bracket("D2", 1200.0),
    ]  # fmt: skip


def wall():
    """Return two plates with four holes each, a pipe beside one of them, and a stub without."""
    holes = []
    for bracket, across_m in (("L1", -2.0), ("L2", 2.0)):
        for up_m in (-1.775, -1.625):
            for off_m in (-0.075, 0.075):
                at_m = [across_m + off_m, up_m]
                holes.append({
                    "number": len(holes) + 1, "bracket": bracket, "at_m": at_m,
                    "diameter_m": 0.012, "corner_m": 6.2 - abs(at_m[0]), "top_m": 3.4 - up_m,
                })  # fmt: skip
    return {
        "corner_m": 6.2, "top_m": 3.4,
        "plates": [
            {"bracket": "L1", "set": "ledge", "at_m": [-2.0, -1.7], "size_m": [0.2, 0.2],
             "holes": [1, 2, 3, 4]},
            {"bracket": "L2", "set": "ledge", "at_m": [2.0, -1.7], "size_m": [0.2, 0.2],
             "holes": [5, 6, 7, 8]},
            {"bracket": "D1", "set": "dial", "at_m": [-0.6, 0.6], "size_m": None, "holes": []},
        ],
        "holes": holes,
        "zones": [
            {"zone": "rainwater pipe", "cell": "answers!C3", "said_by": "J. Marsh, 2026-05-04",
             "box_m": [-2.1, -3.0, -1.9, 3.0],
             "holes": [{"number": 1, "in_by_m": 0.031}, {"number": 2, "in_by_m": 0.031}]},
        ],
    }  # fmt: skip


@cache
def _sample():
    return {
        "schema": "1.0", "program_version": "0.1.0",
        "inputs_sha256": "9f2c" * 16, "option": "copper", "options": ["copper", "lead on wood"],
        "complete": True, "file": "tide-dial.xlsx", "made_on": "2026-05-12", "job": job(),
        "rows": {
            "job": ledger(read=11, used=11),
            "parts": ledger(read=11, used=8, other_option=2, parked=1),
        },
        "problems": [
            problem("note", 'heading "colour" is not known', "parts!Z1", ""),
            problem("question", "the moon is 40 m out", "parts!R12", "T08"),
        ],
        "assumptions": [
            {"what": "blade twist", "value": "2°", "why": "hammered hands are not flat"},
        ],
        "untold": [
            {"item": "terrain", "used": "II", "why": "nothing typed; open country is usual"},
        ],
        "register": register(),
        "issue": {"issue": "C", "date": "2026-05-11", "not_held": [], "undated": []},
        "earlier": None,
        "agreed_drift": {"mass_fraction": None, "cg_m": None},
        "cautions": ["Weigh before lifting. The lift planner sets the allowance."],
        "sources": [
            {"id": "EN1991-1-4", "document": "EN 1991-1-4, Wind actions", "edition": "2005+A1:2010",
             "publisher": "CEN", "where": "library", "used_for": "wind pressure"},
        ],
        "mass": {
            "likely_kg": 446.0, "low_kg": 410.0, "high_kg": 492.0, "straight_low_kg": 371.0,
            "straight_high_kg": 547.0, "listed_kg": 424.8, "not_listed_kg": 21.2,
            "not_listed_fraction": 0.05, "weighed_kg": 18.2, "cg_m": [-0.002, -0.789, 0.18],
        },
        "widest": widest(), "weighings": weighings(), "own_record": own_record(),
        "parts": parts(), "assemblies": assemblies(),
        "models": [
            {
                "parts": ["T15", "T16"],
                "shape": "mesh",
                "file": "models/<bird>.stl",
                "sha256": "0" * 64,
                "scale": 10.0,
                "unit": "mm",
                "facts": ["4,812 triangles, closed.", "Skin 1.31 m2."],
            }
        ],
        "lift_units": [
            {"lift_unit": "dial and hand", **body(141.7, 131.0, 153.0, (0, 0.01, 0.17)),
             "assemblies": ["dial", "hand"]},
            {"lift_unit": "bird", **body(30.0, 23.5, 38.0, (-1.66, -0.55, 0.33)),
             "assemblies": ["bird"]},
        ],
        "wind": wind(), "moving": moving(), "swinging": [],
        "slender": slender(), "ice": None, "working_wind": working_wind(),
        "burdens": burdens(), "combinations": combinations(),
        "bracket_sets": [
            {"set": "dial", "brackets": ["D1", "D2", "D3", "D4"], "long_axis": "across",
             "mechanism": None, "stiffness_note": "stubs as cantilevers", "residual": 1e-12,
             "bending_nm2": None, "cases": 96, "answers": answers(), "one_way": [],
             "free": [{"state": "D4 slack", "words": "free to turn about D1"}]},
            {"set": "ledge", "brackets": ["L1", "L2"], "long_axis": "across",
             "mechanism": "free to swing about the line through L1 and L2",
             "stiffness_note": "arms as cantilevers", "residual": 1e-12,
             "bending_nm2": None, "cases": 0, "answers": [], "free": [], "one_way": []},
        ],
        "brackets": brackets(), "bracket_envelope": envelope(),
        "elevations": elevations(), "wall": wall(),
        "arms": [ARM, BARE], "plates": PLATES,
        "blanks": blanks(), "formings": formings(), "order": order(), "cost": cost(),
        "options_table": options_table(), "sizes": sizes(),
        "views": {name: view(name) for name in AXES},
        "marks": marks(),
    }  # fmt: skip


@pytest.fixture
def document():
    """Return a complete estimate document that a test may change."""
    return copy.deepcopy(_sample())


@pytest.fixture
def incomplete(document):
    """Return the same document with a row of the parts refused."""
    document["complete"] = False
    document["rows"]["parts"] = ledger(read=12, used=8, other_option=2, parked=1, refused=1)
    document["problems"].append(problem("refused", 'gauge "18" does not say which system'))
    return document
