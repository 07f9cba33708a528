"""Bolts, studs and lines: what fixings weigh, and chain and rope by the metre.

Sizes and masses only. What a fixing or a wall resists is for an engineer and is not here.
"""

from dataclasses import dataclass

from estimator.reference.finding import Miss, find_row
from estimator.reference.library import Library
from estimator.reference.rows import Cited, TableRow


@dataclass(frozen=True, slots=True, kw_only=True)
class Bolt(Cited):
    """A metric coarse thread and what goes with it.

    Attributes:
        key: "M12".
        diameter_m: Nominal diameter.
        pitch_m: Pitch.
        stress_area_m2: Tensile stress area.
        rod_kg_m: Mass per metre of threaded rod.
        shank_kg_m: Mass per metre of plain shank.
        head_kg: Hexagon head.
        nut_kg: One nut.
        washer_kg: One washer.
        hole_m: Medium clearance hole.
    """

    key: str
    diameter_m: float
    pitch_m: float
    stress_area_m2: float
    rod_kg_m: float
    shank_kg_m: float
    head_kg: float
    nut_kg: float
    washer_kg: float
    hole_m: float

    def stud_kg(self, length_m: float, nuts: int = 1, washers: int = 1) -> float:
        """Return the mass of a length of threaded rod with its nuts and washers."""
        return self.rod_kg_m * length_m + self.nut_kg * nuts + self.washer_kg * washers


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthClass(Cited):
    """A property class of bolts.

    Attributes:
        key: "8.8".
        yield_pa: Nominal yield strength or 0.2 % proof stress.
        ultimate_pa: Nominal tensile strength.
    """

    key: str
    yield_pa: float
    ultimate_pa: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Line(Cited):
    """Chain, rope or strand sold by the metre.

    Attributes:
        key: Its name.
        mass_kg_m: Mass of one metre.
    """

    key: str
    mass_kg_m: float


def find_bolt(library: Library, text: str) -> Bolt | Miss:
    """Return a bolt size, or why there is none."""
    row = find_row(library.table("bolts"), text, _bolt_choice)
    if isinstance(row, Miss):
        return row
    return Bolt(
        citation=row.citation,
        key=row.key,
        diameter_m=row.need("diameter_mm"),
        pitch_m=row.need("pitch_mm"),
        stress_area_m2=row.need("stress_area_mm2"),
        rod_kg_m=row.need("rod_kg_m"),
        shank_kg_m=row.need("shank_kg_m"),
        head_kg=row.need("head_g"),
        nut_kg=row.need("nut_g"),
        washer_kg=row.need("washer_g"),
        hole_m=row.need("hole_mm"),
    )


def find_strength_class(library: Library, text: str) -> StrengthClass | Miss:
    """Return a property class, or why there is none."""
    row = find_row(library.table("strength_classes"), text, _class_choice)
    if isinstance(row, Miss):
        return row
    strengths = {"yield_pa": row.need("yield_mpa"), "ultimate_pa": row.need("ultimate_mpa")}
    return StrengthClass(citation=row.citation, key=row.key, **strengths)


def find_line(library: Library, text: str) -> Line | Miss:
    """Return a chain or rope, or why there is none."""
    row = find_row(library.table("lines"), text, _line_choice)
    if isinstance(row, Miss):
        return row
    return Line(citation=row.citation, key=row.key, mass_kg_m=row.need("mass_kg_m"))


def _bolt_choice(row: TableRow) -> str:
    return f"{row.key} ({row.text('rod_kg_m')} kg/m of rod)"


def _class_choice(row: TableRow) -> str:
    return f"{row.key} ({row.text('ultimate_mpa')} MPa)"


def _line_choice(row: TableRow) -> str:
    return f"{row.key} ({row.text('mass_kg_m')} kg/m)"
