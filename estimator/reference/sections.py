"""Sections: bars, hollow sections, angles and channels, from the table or in closed form."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple

from estimator.reference.finding import Miss, find_row
from estimator.reference.library import Library
from estimator.reference.profiles import (
    Profile,
    box_tube,
    corner_radii_mm,
    flat_bar,
    hot_corners_mm,
    round_bar,
    round_tube,
)
from estimator.reference.rows import Citation, Cited, TableRow, fold

STEEL_KG_M3 = 7850.0
"""Density that mass per metre in section tables stands for: EN 1993-1-1, 3.2.6 (as quoted)."""

_BASIS = "geometry"
"""Source of a section in closed form."""

LARGEST_MM = 1000.0
"""A size above this is a slip of the keyboard, not a bar."""

_NAME = re.compile(r"([a-z]+)((?:[\d.]+x)*[\d.]+)(?:mm)?")


class _Drawn(NamedTuple):
    """A bar or hollow section of given sizes: height, width and wall, and its properties."""

    h_mm: float
    b_mm: float
    t_mm: float
    profile: Profile


def _flat(h_mm: float, b_mm: float) -> _Drawn:
    return _Drawn(h_mm, b_mm, b_mm, flat_bar(h_mm, b_mm))


def _round(d_mm: float) -> _Drawn:
    return _Drawn(d_mm, d_mm, d_mm, round_bar(d_mm))


def _chs(d_mm: float, t_mm: float) -> _Drawn:
    return _Drawn(d_mm, d_mm, t_mm, round_tube(d_mm, t_mm))


def _rhs(h_mm: float, b_mm: float, t_mm: float) -> _Drawn:
    return _Drawn(h_mm, b_mm, t_mm, box_tube(h_mm, b_mm, t_mm))


def _hot_rhs(h_mm: float, b_mm: float, t_mm: float) -> _Drawn:
    return _Drawn(h_mm, b_mm, t_mm, box_tube(h_mm, b_mm, t_mm, hot_corners_mm(t_mm)))


class _Family(NamedTuple):
    """A family that is drawn from its sizes.

    Attributes:
        name: Its family.
        sizes: How many sizes it has.
        draw: How its properties follow from them.
        word: What its key begins with.
    """

    name: str
    sizes: int
    draw: Callable[..., _Drawn]
    word: str


_HOT = "HF"
"""What the key of a hot-finished hollow section begins with; CF stands for a cold-formed one."""
_COLD = {
    "chs": _Family("CHS", 2, _chs, "CHS"),
    "shs": _Family("SHS", 3, _rhs, "SHS"),
    "rhs": _Family("RHS", 3, _rhs, "RHS"),
}
_FINISHED = {
    "chs": _Family("CHS", 2, _chs, "HFCHS"),
    "shs": _Family("SHS", 3, _hot_rhs, "HFSHS"),
    "rhs": _Family("RHS", 3, _hot_rhs, "HFRHS"),
}
_FAMILIES: Mapping[str, _Family] = MappingProxyType(
    {
        "flat": _Family("Flat", 2, _flat, "Flat"),
        "round": _Family("Round", 1, _round, "Round"),
        **{how + name: family for how in ("", "cf", "coldformed")
           for name, family in _COLD.items()},
        **{how + name: family for how in ("hf", "hotfinished")
           for name, family in _FINISHED.items()},
    }
)  # fmt: skip
_RULES: Mapping[str, str] = MappingProxyType(
    {"SHS": "EN 10219-2", "RHS": "EN 10219-2", "HFSHS": "EN 10210-2", "HFRHS": "EN 10210-2"}
)
"""Standard whose corner radii a family is drawn with, by what its key begins with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Section(Cited):
    """A cross-section in SI units; y is the axis of the stronger bending.

    Attributes:
        key: "SHS 60x60x4" for a cold-formed hollow section, "HFSHS 60x60x4" for a hot-finished one.
        family: Flat, Round, CHS, SHS, RHS, L, UPN, UPE or PFC.
        standard: Standard of its sizes; empty for a size in closed form.
        height_m: Size across the y axis.
        width_m: Size across the z axis.
        wall_m: Wall, leg or web thickness; the size itself for a solid bar.
        area_m2: Area of the material.
        iy_m4: Second moment of area, stronger axis.
        iz_m4: Second moment of area, weaker axis (about the legs for an angle).
        it_m4: Torsion constant.
        it_basis: `printed`, `closed form`, or `thin-wall estimate` for an open section.
        wel_y_m3: Elastic modulus, stronger axis.
        wel_z_m3: Elastic modulus, weaker axis.
        mass_kg_m: Mass per metre in steel of 7850 kg/m3; use the area for another metal.
        girth_m: Outline outside, which paint covers; None where the table has none.
        radius_v_m: Smallest radius of gyration of an angle; None for any other.
        centroid_m: Middle of an open section from its back; None where the table has none.
        metal: Family of metal it is made in; blank for steel.
    """

    key: str
    family: str
    standard: str
    height_m: float
    width_m: float
    wall_m: float
    area_m2: float
    iy_m4: float
    iz_m4: float
    it_m4: float
    it_basis: str
    wel_y_m3: float
    wel_z_m3: float
    mass_kg_m: float
    girth_m: float | None
    radius_v_m: float | None = None
    centroid_m: float | None = None
    metal: str = ""

    @property
    def hot(self) -> bool:
        """Return whether it is a hollow section finished hot."""
        return self.key.startswith(_HOT)

    @property
    def made(self) -> str:
        """Return how it is made, in words."""
        if self.hot:
            return "hot-finished"
        if self.family not in _HOLLOW:
            return "hot-rolled"
        return "welded" if self.metal else "cold-formed"


_HOLLOW = frozenset({"CHS", "SHS", "RHS"})


def sections(library: Library) -> tuple[Section, ...]:
    """Return every section of the table."""
    return tuple(_section(row) for row in library.table("sections").rows)


def find_section(library: Library, text: str) -> Section | Miss:
    """Return a section, or why there is none.

    Args:
        library: The tables.
        text: A row of the table ("UPN 100"), or a bar or hollow section of any size: "flat
            50x6", "round 20", "CHS 48.3x3.2", "SHS 60x60x4", "RHS 100x50x4", millimetres.
            Hollow sections are cold-formed (EN 10219-2) unless HF or hot-finished stands before.
    """
    table = library.table("sections")
    drawn = closed_form(text)
    row = find_row(table, drawn.key if drawn else text, _choice)
    if not isinstance(row, Miss):
        return _section(row)
    return drawn or row


def closed_form(text: str) -> Section | None:
    """Return a bar or hollow section of any size, or None when the text names none."""
    match = _NAME.fullmatch(fold(text))
    family = _FAMILIES.get(match.group(1)) if match else None
    if not match or not family:
        return None
    try:
        sizes_mm = [float(size) for size in match.group(2).split("x")]
    except ValueError:
        return None
    sizes_mm.sort(reverse=True)
    if family.name == "SHS" and len(sizes_mm) < family.sizes:
        sizes_mm.insert(0, sizes_mm[0])
    if len(sizes_mm) != family.sizes or not _can_be_made(family, sizes_mm):
        return None
    name = f"{family.word} {'x'.join(f'{size:g}' for size in sizes_mm)}"
    return _drawn(family, name, family.draw(*sizes_mm))


def _can_be_made(family: _Family, sizes_mm: Sequence[float]) -> bool:
    """Return whether the sizes, largest first, leave a hole where there is to be one."""
    *outside_mm, wall_mm = sizes_mm
    if not 0 < wall_mm <= sizes_mm[0] <= LARGEST_MM:
        return False
    if family.name == "SHS" and len(set(outside_mm)) > 1:
        return False
    if family.name in ("Flat", "Round"):
        return True
    corners = hot_corners_mm if family.word.startswith(_HOT) else corner_radii_mm
    inner_mm = 0.0 if family.name == "CHS" else corners(wall_mm).inner_mm
    return outside_mm[-1] - 2 * wall_mm > 2 * inner_mm


def _drawn(family: _Family, name: str, drawn: _Drawn) -> Section:
    profile = drawn.profile
    standard = _RULES.get(family.word)
    rule = f"corner radii of {standard}" if standard else "sizes as typed"
    document = "Plane and solid geometry, in closed form"
    return Section(
        citation=Citation(_BASIS, document, rule, "document"),
        key=name,
        family=family.name,
        standard="",
        height_m=drawn.h_mm * 1e-3,
        width_m=drawn.b_mm * 1e-3,
        wall_m=drawn.t_mm * 1e-3,
        area_m2=profile.area_mm2 * 1e-6,
        iy_m4=profile.iy_mm4 * 1e-12,
        iz_m4=profile.iz_mm4 * 1e-12,
        it_m4=profile.it_mm4 * 1e-12,
        it_basis="closed form",
        wel_y_m3=profile.wel_y_mm3 * 1e-9,
        wel_z_m3=profile.wel_z_mm3 * 1e-9,
        mass_kg_m=profile.area_mm2 * 1e-6 * STEEL_KG_M3,
        girth_m=profile.girth_mm * 1e-3,
    )


def _choice(row: TableRow) -> str:
    return f"{row.key} ({row.need('mass_kg_m'):.4g} kg/m)"


def _section(row: TableRow) -> Section:
    return Section(
        citation=row.citation,
        key=row.key,
        family=row.text("family"),
        standard=row.text("standard"),
        height_m=row.need("height_mm"),
        width_m=row.need("width_mm"),
        wall_m=row.need("wall_mm"),
        area_m2=row.need("area_mm2"),
        iy_m4=row.need("iy_mm4"),
        iz_m4=row.need("iz_mm4"),
        it_m4=row.need("it_mm4"),
        it_basis=row.text("it_basis"),
        wel_y_m3=row.need("wel_y_mm3"),
        wel_z_m3=row.need("wel_z_mm3"),
        mass_kg_m=row.need("mass_kg_m"),
        girth_m=row.si("surface_m2_m"),
        radius_v_m=row.si("radius_v_mm"),
        centroid_m=row.si("centroid_mm"),
        metal=row.text("metal"),
    )
