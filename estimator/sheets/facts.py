"""The items of the `job` sheet as data: how each is read, its stated default, why it matters."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from estimator.sheets.columns import SMALLEST_M, Column, Reads


@dataclass(frozen=True, slots=True)
class Fact:
    """One item of the `job` sheet.

    Attributes:
        column: Its name, what its value is read as, and the note on it.
        default: Value used when it is not given, SI or text; None when nothing can be assumed.
        why: What it changes, for the list of what has not been said.
    """

    column: Column
    default: float | str | None
    why: str


def _quantity(item: str, kind: str, words: str, why: str) -> Fact:
    return Fact(Column(item, Reads.QUANTITY, words, (kind,)), None, why)


def _way(
    item: str, kind: str, words: str, why: str, *, default: float | None = None,
    at_most: float = math.inf,
) -> Fact:  # fmt: skip
    column = Column(item, Reads.QUANTITY, words, (kind,), at_least=0.0, at_most=at_most)
    return Fact(column, default, why)


def _size(
    item: str, kind: str, words: str, why: str, *, at_least: float = 0.0, at_most: float = math.inf
) -> Fact:
    column = Column(item, Reads.SIZE, words, (kind,), at_least=at_least, at_most=at_most)
    return Fact(column, None, why)


def _percent(item: str, words: str, why: str, default: float | None) -> Fact:
    column = Column(item, Reads.QUANTITY, words, ("percent",), at_least=0.0)
    return Fact(column, default, why)


def _factor(item: str, words: str, why: str, at_least: float = 0.1) -> Fact:
    return Fact(Column(item, Reads.NUMBER, words, at_least=at_least, at_most=5.0), 1.0, why)


def _choice(
    item: str, choices: tuple[str, ...], why: str, default: str | None = None, words: str = ""
) -> Fact:
    return Fact(Column(item, Reads.CHOICE, words, choices=choices), default, why)


def _text(item: str, why: str, default: str | None = None) -> Fact:
    return Fact(Column(item, Reads.TEXT), default, why)


WIND_RULES = ("EN 1991-1-4", "ASCE 7-16", "ASCE 7-22", "stated pressure")
TERRAINS: Mapping[str, str] = {
    "0": "sea", "I": "lakes or flat", "II": "low vegetation", "III": "suburb or village",
    "IV": "city", "B": "town, suburb or wood", "C": "open country", "D": "flat shore",
}  # fmt: skip
"""Categories 0 to IV as EN 1991-1-4 Table 4.1, exposures B to D as ASCE 7 section 26.7, in words.
"""
_SMOOTHER = ("0", "I", "II", "III")
NATIONAL_ANNEXES = ("none", "UK")
_HILL = "It goes into the orography factor of the hill or cliff"
_HIGHEST_M = 200.0
"""As far up as the rules go: EN 1991-1-4 section 1.1."""
COMBINATION_RULES = (
    "EN 1990 6.10",
    "EN 1990 6.10a/b",
    "ASCE 7-16 strength",
    "ASCE 7-22 strength",
    "ASCE 7-16 ASD",
    "ASCE 7-22 ASD",
)

_ASCE_DEFAULTS: Mapping[str, float | str] = {
    "terrain": "C",
    "direction_factor": 0.85,
    "structural_factor": 0.85,
}
RULE_DEFAULTS: Mapping[str, Mapping[str, float | str]] = {
    "ASCE 7-16": {**_ASCE_DEFAULTS, "combination_rule": "ASCE 7-16 strength"},
    "ASCE 7-22": {**_ASCE_DEFAULTS, "combination_rule": "ASCE 7-22 strength"},
}
"""Defaults that hold with one wind rule in place of those below: open country, K_d of signs, G of
what is rigid, and the combinations of the same edition."""

_TITLE_BLOCK = (
    _text("title", "It heads every sheet", "untitled job"),
    _text("client", "It stands in the title block"),
    _text("site", "It stands in the title block"),
    _text("issue", "It tells one issue of the figures from the next", "not issued"),
    Fact(Column("date", Reads.DATE, "Date of this issue"), None, "It dates the issue"),
    _text("option shown", "It says which way of building the report is about"),
    _text("currency", "It stands beside every price", "GBP"),
    _choice("show units", ("metric", "inch"), "It says in which units sizes are printed", "metric"),
    _choice("paper", ("A4", "Letter"), "It sets the size of the page", "A4"),
)

_SITE = (
    _way("datum height", "height", "Datum above the ground",
         "Wind pressure, headroom and access go by height above the ground", at_most=_HIGHEST_M),
    Fact(
        Column("wall faces", Reads.COMPASS, "Compass point it looks to: SE, 135 deg", ("angle",)),
        None,
        "It names wind directions by the compass",
    ),
    _quantity("altitude", "height", "Ground above the sea", "Air density and snow go by it"),
    _size("building height", "height", "Ground to the top of the building",
          "Some rules take wind pressure at the height of the building", at_most=_HIGHEST_M),
    _size("building width", "height", "Along the wall",
          "Zones of raised suction at the ends of a wall go by it"),
    _size("building depth", "height", "Back from the wall",
          "It can narrow the zones of raised suction at the ends of the wall"),
    _way("datum to nearest corner", "height", "Along the wall to its nearest end",
         "Suction grows towards the corner of a building"),
    _way("datum to top of wall", "height", "Upwards to the parapet or eaves",
         "Suction grows towards the top of a wall"),
    _text("wall build-up", "The engineer needs to know what the fixings go into"),
    _size("wall thickness", "length", "All through",
          "The engineer needs to know what the fixings go into", at_least=SMALLEST_M),
    Fact(
        Column("wall stiffness ratio", Reads.NUMBER,
               "Steel over wall, both as stiff as they are: 7 for concrete, more for brick",
               at_least=1.0, at_most=1e6),
        None, "A softer wall means more pull on the fixings and less pressure on the wall",
    ),
    _size("wall stiffness pull", "spring", "Force that moves a wall plate off the wall by so much",
          "A wall that gives moves load from one bracket to another", at_least=1e3),
    _size("wall stiffness turn", "turn_spring", "Moment that tilts a wall plate by so much",
          "A wall that gives moves load from one bracket to another", at_least=1e2),
    Fact(Column("sag limit", Reads.TEXT, "Movement of an arm's end against its reach: L/180"),
         "L/180", "An arm that moves more is told of, and none that does is picked from a trial"),
    _way("kerb distance", "length", "Wall face to kerb",
         "It limits how far anything may stand out"),
    Fact(Column("timber moisture", Reads.QUANTITY,
                "Water in the timber as a share of its dry mass, by a meter: 17 %", ("percent",),
                at_least=0.0, at_most=1.5),
         0.17, "Damp timber is heavier"),
)  # fmt: skip

_WIND = (
    _choice("wind rule", WIND_RULES, "It says how a wind speed becomes a pressure", "EN 1991-1-4"),
    _size("stated pressure", "pressure", "The pressure somebody gave you",
          "It takes the place of a rule"),
    Fact(Column("stated pressure by direction", Reads.TEXT,
                "By the side the wind comes from, 0 the street, 90 right: 0: 900 Pa; 90: 1 kPa"),
         None, "It takes the place of one pressure for every side"),
    _choice("stated pressure kind", ("peak characteristic", "strength level"),
            "A strength-level pressure already holds the load factor"),
    _size("basic wind speed", "speed", "As the rule's own map gives it: 24 m/s",
          "Without it there is no wind pressure, and nothing stands in for it"),
    Fact(Column("terrain", Reads.CHOICE,
                "Terrain category (EN 1991-1-4) or exposure (ASCE 7; C if left blank)",
                choices=tuple(TERRAINS), meanings=tuple(TERRAINS.values())), "II",
         "Open ground gives more wind than a town"),
    _choice("national annex", NATIONAL_ANNEXES,
            "A country's own factors change the wind speed of EN 1991-1-4", "none",
            "UK: factors for altitude and, by the compass, for direction; and xi and psi_0 of "
            "the combinations"),
    _way("distance to smoother terrain", "height", "Upwind, to where the ground is smoother",
         "Smoother ground close by gives its own, stronger wind"),
    Fact(Column("smoother terrain", Reads.CHOICE, "Its terrain category", choices=_SMOOTHER,
                meanings=tuple(TERRAINS[key] for key in _SMOOTHER)), None,
         "Smoother ground close by gives its own, stronger wind"),
    _choice("hill or cliff", ("none", "hill", "ridge", "cliff"),
            "Hills and cliffs speed the wind up", "none",
            "What the site stands on, a ridge being a long hill: its sizes give the orography "
            "factor, or K_zt of ASCE 7"),
    _size("hill height", "height", "Crest above the foot of the slope the wind climbs", _HILL),
    _size("hill upwind length", "height", "Level length of the slope the wind climbs", _HILL),
    _size("hill downwind length", "height", "Level length of the slope behind the crest", _HILL),
    _quantity("distance from crest", "height",
              "Level: 0 on the crest, below 0 before it, above 0 behind it", _HILL),
    Fact(Column("hill slope faces", Reads.COMPASS,
                "Compass point the slope the wind climbs looks to: SW, 225 deg", ("angle",)), None,
         "Winds along a slope are not speeded up by it; until it is told every wind climbs it"),
    _factor("orography", "Orography factor on the speed, or K_zt of ASCE 7 on the pressure",
            "Hills and cliffs speed the wind up", at_least=0.5),
    _factor("direction factor", "Direction factor of the rule (K_d of ASCE 7; 0.85 if left blank)",
            "Lower than 1 where the map allows it"),
    Fact(Column("wind directions", Reads.TEXT,
                "How many, evenly round, or which: 24, or 0; 45; 90; 270 deg"), "24",
         "The worst direction may lie between two that were looked at"),
    _factor("season factor", "Season factor of the rule", "Lower than 1 only for temporary work"),
    Fact(Column("years exposed", Reads.COUNT, "How long it is to stay up", unit="years",
                at_least=1.0, at_most=1e4), 50.0,
         "A longer exposure meets a stronger wind"),
    _factor("structural factor",
            "Structural factor of the rule (G of ASCE 7; 0.85 if left blank)",
            "Long limber things answer to gusts with more than the still force"),
    Fact(Column("drag along wall", Reads.NUMBER,
                "Drag coefficient on the outline seen along the wall, of what hangs against it",
                at_least=0.1, at_most=5.0),
         1.3, "No rule has one for what hangs against a wall; 1.3, as a closed body, is judgement"),
    Fact(Column("friction along wall", Reads.NUMBER,
                "Friction coefficient on the outline seen from the street, of what hangs against a "
                "wall", at_least=0.0, at_most=0.5),
         0.04, "Smoother things have less: 0.04 is for ribs and folds (EN 1991-1-4 Table 7.10)"),
    Fact(Column("air density", Reads.SIZE, "Of the rule and its national annex: 1.25 kg/m3",
                ("density",), at_least=0.5, at_most=2.0), 1.25,
         "Pressure goes with it; it belongs to the wind speed it comes with"),
    _size("lifting wind limit", "speed", "The crane's own: the gust its load chart is for, 9.8 m/s",
          "Things with much sail are lifted in less wind than that", at_most=100.0),
    _way("ice thickness", "length", "Ice on every side", "Ice adds mass and width", default=0.0),
    Fact(Column("ice density", Reads.SIZE, "Glaze, clear ice: 900 kg/m3; rime is lighter",
                ("density",), at_least=100.0, at_most=950.0), 900.0,
         "The weight of the ice goes with it; 900 is from memory of ISO 12494"),
    Fact(Column("wind with ice", Reads.SHARE, "Share of the wind pressure that goes with ice",
                ("percent",), at_most=1.0), None,
         "Until it is told, 40 to 60 % by the thickness: from memory of ISO 12494"),
    _way("snow load", "pressure", "On level ground, as the rule's own map gives it",
         "Snow lies on ledges and tops", default=0.0),
    _quantity("lowest temperature", "temperature", "Of the metal: -15 C",
              "Long parts shrink and pull on their fixings"),
    _quantity("highest temperature", "temperature", "Of the metal in the sun: 60 C",
              "Long parts grow and push on their fixings"),
    _choice("combination rule", COMBINATION_RULES,
            "It sets the factors of the combinations, and belongs to the wind rule",
            "EN 1990 6.10"),
    Fact(Column("consequence factor", Reads.NUMBER,
                "K_FI of EN 1990: 0.9, 1.0 or 1.1 by the consequence of failure",
                at_least=0.9, at_most=1.1), 1.0,
         "It goes on every factor of what is unfavourable"),
)  # fmt: skip

_PRICE = (
    _percent("not listed yet", "Share of the listed mass",
             "Welds, rivets and what is not drawn yet weigh too", 0.05),
    _percent("overhead", "Share of cost", "Rent and tools are paid from it", 0.0),
    _percent("contingency", "Share of cost", "What goes wrong is paid from it", 0.0),
    _percent("mark-up", "Share of cost", "Added to the cost", None),
    Fact(Column("margin", Reads.SHARE, "Share of the price", ("percent",), at_most=0.99), None,
         "Kept from the price; give this or mark-up, not both"),
    _percent("tax", "Share of the price", "The client pays it on top", 0.0),
    Fact(Column("quotation validity", Reads.COUNT, "Days", unit="days", at_least=1.0,
                at_most=1e4), 30.0,
         "Metal prices move"),
)  # fmt: skip

JOB_FACTS: Mapping[str, Fact] = {
    fact.column.field: fact for fact in (*_TITLE_BLOCK, *_SITE, *_WIND, *_PRICE)
}
"""Every item of the `job` sheet by its key, in the order of the blank workbook."""
