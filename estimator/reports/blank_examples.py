"""Example rows of the blank workbook: one small invented dial, by sheet and heading.

The first cell of a row gets the word EXAMPLE before it, which keeps the row from being counted.
"""

import datetime as dt
from collections.abc import Mapping

Filled = Mapping[str, str | float | dt.date]
"""Cells of one row, by field, in the units of the blank workbook's headings."""

MARK = "EXAMPLE"
_DAY = dt.date(2026, 3, 4)
_PRICE: Filled = {
    "priced_on": _DAY,
    "supplier_note": "the merchant's list",
    "note": "an invented price",
}

EXAMPLES: Mapping[str, tuple[Filled, ...]] = {
    "limits": (
        {"limit": "headroom", "value": "2.5 m", "source": "licence of the town", "date": _DAY},
        {"limit": "hand lift", "value": "25 kg", "source": "two of us, on the level"},
    ),
    "assemblies": (
        {"assembly": "dial", "stands": "off wall", "moves": "fixed", "carried_by": "dial arms",
         "lift_unit": "dial", "stage": "1", "note": "no origin typed: it sits at the datum"},
        {"assembly": "hand", "mounted_on": "dial", "across": 0, "up": 0, "out": 160,
         "stands": "off wall", "moves": "turns", "axis": "out", "from": "0 deg", "to": "360 deg",
         "positions": 12, "carried_by": "dial arms", "lift_unit": "hand", "stage": "2",
         "note": "its origin is on the axle"},
        {"assembly": "sign", "across": 1500, "up": -200, "out": 500, "stands": "projecting",
         "moves": "turns", "axis": "out", "from": "0 deg", "to": "0 deg", "positions": 1,
         "carried_by": "sign arm", "stage": "3", "wind": "parts",
         "note": "hangs on a pin along out; what stops it is on the sheet moving"},
    ),
    "parts": (
        {"part": "T1", "name": "dial face", "assembly": "dial", "count": 1, "shape": "disc",
         "diameter": 1200, "made_of": "copper", "gauge": "16 SWG", "finish": "patina + wax",
         "across": 0, "up": 0, "out": 120, "relief": 1.05, "confidence": "drawn"},
        {"part": "T2", "name": "back ring", "assembly": "dial", "count": 1, "shape": "hoop",
         "diameter": 1100, "width": 40, "depth": 6, "made_of": "stainless 316", "across": 0,
         "up": 0, "out": 97, "pieces": 2, "forming": "rolled", "confidence": "drawn"},
        {"part": "T3", "name": "numerals", "assembly": "dial", "count": 12, "shape": "sheet",
         "length": 160, "width": 120, "along": "up", "made_of": "copper", "gauge": "20 SWG",
         "finish": "oil gilding", "across": 0, "up": 0, "out": 130, "set_out": "ring",
         "spread": 950, "start": 15, "cut_away": 0.45, "confidence": "guess",
         "note": "55 of 100 is metal"},
        {"part": "T4", "name": "hand", "assembly": "hand", "count": 1, "shape": "box",
         "length": 560, "width": 90, "depth": 18, "along": "up", "made_of": "clad board",
         "across": 0, "up": 200, "out": 0, "confidence": "drawn",
         "note": "measured from the axle"},
        {"part": "T5", "name": "bearing", "assembly": "dial", "count": 1, "shape": "bought",
         "diameter": 120, "length": 80, "along": "out", "across": 0, "up": 0, "out": 60,
         "in_wind": "no", "get_by": "buy", "mass_each": 1.8, "confidence": "quoted",
         "price_each": 95},
        {"part": "T6", "name": "bird on top", "assembly": "dial", "count": 1, "shape": "measured",
         "length": 300, "width": 200, "depth": 150, "made_of": "copper", "gauge": "20 SWG",
         "across": 0, "up": 700, "out": 120, "confidence": "drawn",
         "note": "its readings are on the sheet maquette"},
        {"part": "T7", "name": "gutter", "assembly": "sign", "count": 1, "shape": "box",
         "length": 400, "width": 80, "depth": 40, "along": "across", "faces": "out",
         "made_of": "lead", "gauge": "Code 4", "across": 0, "up": -300, "out": 0,
         "wind_as": "half tube", "confidence": "drawn",
         "note": "a half tube to the wind, bulging outwards"},
    ),
    "build-ups": (
        {"build_up": "clad board", "layer": "skin", "material": "lead", "over": "whole outside",
         "amount": "Code 4", "laps": 0.08, "waste": 0.12},
        {"build_up": "clad board", "layer": "board", "material": "birch plywood",
         "over": "solid", "amount": "100 %"},
    ),
    "maquette": (
        {"part": "T6", "scale": "1:2", "reading": "foil mass", "value": "1.5 g", "spread": "3 %"},
        {"part": "T6", "scale": "1:2", "reading": "foil per m2", "value": "42 g/m2"},
        {"part": "T6", "scale": "1:2", "reading": "shadow area front", "value": "118 cm2"},
    ),
    "brackets": (
        {"bracket": "B1", "set": "dial arms", "across": -350, "up": 300, "reach": 100,
         "bears_at": 95, "section": "SHS 60x60x4", "grade": "S275", "holds": "welded",
         "plate_width": 160, "plate_height": 160, "plate_thickness": 8, "fixings_across": 2,
         "fixings_up": 2, "pitch_across": 110, "pitch_up": 110, "fixing_diameter": 12,
         "stage": "1"},
        {"bracket": "B2", "set": "dial arms", "across": 350, "up": 300, "reach": 100,
         "bears_at": 95, "section": "flat 60x12", "grade": "S275", "holds": "rests"},
        {"bracket": "B3", "set": "sign arm", "across": 1500, "up": 0, "reach": 1000,
         "bears_at": 500, "section": "trial SHS", "grade": "S275", "holds": "welded",
         "stay_from": 600, "stay_to": 900, "stay_section": "round 16", "stage": "3",
         "note": "the stay is a rod: it only pulls"},
    ),
    "moving": (
        {"assembly": "hand", "drive_torque": 20, "blade_twist": 2, "friction": "10 %"},
        {"assembly": "sign", "stops_from": -10, "stops_to": 10, "stop_arm": 150},
    ),
    "extra loads": (
        {"load": "ladder", "assembly": "dial", "force": 500, "direction": "in", "up": 400,
         "cause": "person", "together_with": "none", "source": "the engineer, by letter"},
        {"load": "somebody pulling", "assembly": "sign", "mass": 75, "direction": "down",
         "cause": "person", "together_with": "none", "note": "never with the ladder"},
    ),
    "answers": (
        {"about": "stated pressure", "answer": "1.1 kPa", "who": "the engineer", "date": _DAY},
        {"about": "zone not to fix in", "which": "rainwater pipe",
         "answer": "across -300 to -150 mm, up -2 m to 3 m", "who": "the engineer", "date": _DAY},
    ),
    "stock": (
        {"material": "copper", "form": "sheet", "gauge": "16 SWG", "size": "2000 x 1000 mm",
         "price": 400, "per": "piece", **_PRICE},
        {"material": "stainless 316", "form": "bar", "section": "flat 40x6", "size": "6 m",
         "price": 48, "per": "piece", **_PRICE},
    ),
    "rack": (
        {"material": "copper", "form": "sheet", "gauge": "20 SWG", "size": "1200 x 600 mm",
         "count": 1, "note": "offcut"},
    ),
    "hours": (
        {"activity": "forming the face", "assembly": "dial", "people": 1, "low": 12, "likely": 16,
         "high": 28, "rate": "bench"},
        {"activity": "gilding", "assembly": "dial", "people": 1, "low": 8, "likely": 10,
         "high": 16, "rate": "bench", "after": "forming the face"},
    ),
    "rates": (
        {"name": "bench", "category": "labour", "low": 34, "likely": 36, "high": 40,
         "per": "hour", "date": _DAY, "note": "an invented rate"},
    ),
    "costs": (
        {"name": "scaffold, one week", "category": "access", "low": 900, "likely": 1100,
         "high": 1600, "per": "job", "date": _DAY, "note": "an invented price"},
    ),
    "quotes": (
        {"name": "bearing", "category": "bought in", "amount": 95, "per": "job", "date": _DAY,
         "source": "supplier, by letter", "note": "an invented price"},
    ),
    "weighed": (
        {"assembly": "hand", "mass": 6.2, "date": _DAY, "scale": "bench scale, checked in March"},
    ),
    "timesheet": (
        {"activity": "forming the face", "hours": 9.5, "date": _DAY},
    ),
}  # fmt: skip
"""Rows to show on each sheet; the `job` sheet lists its items instead."""
