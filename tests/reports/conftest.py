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
        shapes.append({**shape, "outer": outer, "holes": []})
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


def parts():
    """Return the parts, one layer each."""
    return [
        {
            "part": key, "name": name, "assembly": assembly, "count": count, "shape": "sheet",
            "made_of": made_of, "skin_area_m2": skin_m2, "volume_m3": volume_m3,
            "mass_each_kg": mass_kg / count, "mass_kg": mass_kg, "low_kg": low_kg,
            "high_kg": high_kg, "cg_m": list(cg_m), "confidence": "drawn",
            "layers": [
                {"layer": "skin", "material": made_of, "over": "one face", "amount": "1.6 mm",
                 "mass_kg": mass_kg, "why": "area x thickness x density"}
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
        "lowest_m": 7.6 + low_m[1], "furthest_m": high_m[2],
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
                        "moment_nm": [
                            up_m * pull_n, out_m * along_n - across_m * pull_n, -up_m * along_n,
                        ],
                    }
                )  # fmt: skip
    return out


def wind():
    """Return the wind part of the document."""
    return {
        "rule": "EN 1991-1-4",
        "pressure_pa": 812.0,
        "steps": [
            step("basic wind velocity", "v_b", 24.0, "m/s", "EN 1991-1-4 4.2 (4.1)"),
            step("terrain factor", "k_r", 0.19, "", "EN 1991-1-4 4.3.2 (4.5)"),
            step("mean wind velocity", "v_m", 22.9, "m/s", "EN 1991-1-4 4.3.1 (4.3)"),
            step("turbulence intensity", "I_v", 0.2, "", "EN 1991-1-4 4.4 (4.7)"),
            step("peak pressure", "q_p", 812.0, "Pa", "EN 1991-1-4 4.5 (4.8)", confirmed=False),
        ],
        "loads": loads(),
        "parts": [
            {
                "part_or_assembly": name, "height_m": 7.6, "pressure_pa": 812.0, "coefficient": 1.8,
                "area_m2": area_m2, "summed_area_m2": area_m2 * 1.1,
                "why": "free-standing board, assumed", "others": [["signboard, 7.4.3", 1.8]],
            }
            for name, area_m2 in (("dial", 4.75), ("bird", 0.62), ("hand", 0.31))
        ],
        "notes": ["No shelter from the parapet was taken."],
    }  # fmt: skip


def moving():
    """Return the one mover."""
    return [
        {
            "assembly": "hand", "out_of_balance_kgm": 1.88, "gravity_torque_nm": 18.4,
            "wind_torque_nm": 42.0, "inertia_kgm2": 1.9, "counterweight_kg": 5.2,
            "counterweight_part": "T13", "counterweight_radius_m": 0.36, "drive_torque_nm": None,
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
                    "sharing": sharing, "position": "hand at 90°",
                }
            )  # fmt: skip
    return rows


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


def options_table():
    """Return the two ways of building side by side."""
    row = {
        "option": "copper", **body(446.0, 410.0, 492.0, (-0.002, -0.789, 0.18)),
        "pulls": [{"set": "dial", "bracket": "D4", "moment_nm": 245.0, "pull_out_n": 2710.0}],
        "person_hours_likely": 1246.0,
        "person_hours_mean": 1424.0, "cost_mean": 8400.0, "price_mean": 9660.0,
    }  # fmt: skip
    lead = {**row, "option": "lead on wood", "mass_kg": 536.0, "low_kg": 480.0, "high_kg": 601.0}
    return [row, {**lead, "pulls": []}]


def marks():
    """Return what is marked on the views."""
    return {
        "cg_m": [-0.002, -0.789, 0.18],
        "brackets": [
            {"bracket": name, "at_m": list(at_m), "bears_m": [at_m[0], at_m[1], 0.11],
             "pull_out_n": pull_n, "shear_n": shear_n}
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


def ledger(**counts):
    """Return the ledger of one sheet."""
    keys = ("read", "used", "other_option", "parked", "replaced", "refused")
    return {key: counts.get(key, 0) for key in keys}


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
        "cautions": ["Weigh before lifting. The lift planner sets the allowance."],
        "sources": [
            {"id": "EN1991-1-4", "document": "EN 1991-1-4, Wind actions", "edition": "2005+A1:2010",
             "publisher": "CEN", "where": "library", "used_for": "wind pressure"},
        ],
        "mass": {
            "likely_kg": 446.0, "low_kg": 410.0, "high_kg": 492.0, "straight_low_kg": 371.0,
            "straight_high_kg": 547.0, "listed_kg": 424.8, "not_listed_kg": 21.2,
            "not_listed_fraction": 0.05, "cg_m": [-0.002, -0.789, 0.18],
        },
        "parts": parts(), "assemblies": assemblies(),
        "lift_units": [
            {"lift_unit": "dial and hand", **body(141.7, 131.0, 153.0, (0, 0.01, 0.17)),
             "assemblies": ["dial", "hand"]},
            {"lift_unit": "bird", **body(30.0, 23.5, 38.0, (-1.66, -0.55, 0.33)),
             "assemblies": ["bird"]},
        ],
        "wind": wind(), "moving": moving(),
        "bracket_sets": [
            {"set": "dial", "brackets": ["D1", "D2", "D3", "D4"], "long_axis": "across",
             "mechanism": None, "stiffness_note": "stubs as cantilevers", "residual": 1e-12},
            {"set": "ledge", "brackets": ["L1", "L2"], "long_axis": "across",
             "mechanism": "free to swing about the line through L1 and L2",
             "stiffness_note": "arms as cantilevers", "residual": 1e-12},
        ],
        "brackets": brackets(), "bracket_envelope": envelope(), "order": order(), "cost": cost(),
        "options_table": options_table(),
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
