"""Brackets: each row makes its own arm, wall plate and fixings as parts."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from estimator.core.problems import Problem
from estimator.reference.finding import Miss
from estimator.reference.grades import without_zinc
from estimator.reference.library import Library
from estimator.reference.materials import Material, find_material
from estimator.reference.sections import Section, find_section
from estimator.reference.trials import ALLOWED, is_trial, trial_sections
from estimator.resolve.bracket_doubts import plate_doubts
from estimator.resolve.names import Names, refusal
from estimator.resolve.parts import DIMENSIONS, section_layer
from estimator.resolve.records import (
    Assembly,
    Assumption,
    Bracket,
    Fixings,
    Layer,
    Part,
    Plate,
    Stay,
)
from estimator.sheets.columns import FORMS
from estimator.sheets.converters import folded
from estimator.sheets.rows import Row
from estimator.supports.slackening import MOST

COLUMNS = FORMS["brackets"].columns
STEEL = "mild steel"
NOTHING_TRIED: Mapping[str, str] = MappingProxyType({})
SHEAR_RATIO = 81.0 / 210.0
"""Shear modulus to Young's modulus of steel: EN 1993-1-1, 3.2.6 (from memory)."""
FIXING_LENGTHS = 12.0
"""Length of a fixing in its own diameters, for its mass only: program default, no source."""
PULLS_ONLY = frozenset({"Round", "Flat"})
"""Families of stays too limber to push: they go slack instead. Common practice, no source."""
RESTS = "rests"
"""How a bracket holds what may lift off it."""
BRACKETS = "brackets "
"""How the assembly that a set's own arms and plates make is named."""
NEEDED = ("reach", "section", "holds")
PLATE = ("plate_width", "plate_height", "plate_thickness")
"""What a wall plate needs, as soon as one of them is given."""
STAY = ("stay_from", "stay_to", "stay_section")
"""What describes a stay, as soon as one of them is given."""
STAY_NEEDED = ("stay_from", "stay_section")
WANTED = {
    "reach": "how far the arm reaches from the wall face",
    "bears_at": "where the load bears on the arm: more than zero, no further than its reach",
    "section": "a section of the arm, such as SHS 60x60x4",
    "grade": "the grade of a metal, such as S275",
    "holds": f"one of: {', '.join(next(c for c in COLUMNS if c.field == 'holds').choices)}",
    "plate_width": "the size of the wall plate along the wall",
    "plate_height": "the size of the wall plate upwards",
    "stay_from": "how far above its arm the stay meets the wall, - for below",
    "stay_to": "how far out the stay meets the arm, no further than its reach",
    "stay_section": "a section of the stay, such as round 16",
    "plate_thickness": "the thickness of the wall plate, less than the reach",
}
"""What a bracket needs to know, by field."""


def resolve_brackets(
    rows: Sequence[Row],
    refused: Sequence[Row],
    library: Library,
    tried: Mapping[str, str] = NOTHING_TRIED,
) -> tuple[list[Bracket], list[Part], Names, list[Problem]]:
    """Return brackets, the parts they make, the names of their sets, and problems.

    Args:
        rows: Rows of the `brackets` sheet.
        refused: Rows of it that could not be read; what they name is looked up.
        library: The lookup tables.
        tried: Section of each bracket whose section is to be tried, by its mark; the lightest
            of its family for one that is not there.
    """
    problems: list[Problem] = []
    made = [(row, *_bracket(row, library, tried, problems)) for row in rows]
    for row in refused:
        _look_up(row, library, tried, problems)
    crowded = _crowded([bracket for _, bracket, _ in made if bracket])
    problems.extend(
        _too_many(row, bracket, crowded[folded(bracket.set_name)])
        for row, bracket, _ in made
        if bracket and folded(bracket.set_name) in crowded
    )
    good = [
        (row, bracket, metal)
        for row, bracket, metal in made
        if bracket and metal and folded(bracket.set_name) not in crowded
    ]
    sets = Names.of("set", (row for row, _, _ in good), (*rows, *refused))
    brackets: list[Bracket] = []
    parts: list[Part] = []
    for row, unnamed, metal in good:
        bracket = replace(unnamed, set_name=sets[unnamed.set_name])
        problems.extend(plate_doubts(row, bracket))
        brackets.append(bracket)
        parts.extend(_own_parts(row, bracket, metal))
    return brackets, parts, sets, problems


def _crowded(brackets: Sequence[Bracket]) -> dict[str, int]:
    """Return how many parts work one way only, of sets that have more than can be tried."""
    counts: dict[str, int] = {}
    for one in brackets:
        works = (one.holds == RESTS) + (one.stay is not None and one.stay.pulls_only)
        counts[folded(one.set_name)] = counts.get(folded(one.set_name), 0) + works
    return {name: count for name, count in counts.items() if count > MOST}


def _too_many(row: Row, bracket: Bracket, count: int) -> Problem:
    found = f"{count} rests and stays of the set {bracket.set_name} work one way only"
    return refusal(row, "set", found, f"no more than {MOST} in one set, as each choice of them is "
                   "tried", "split the set, take stays as struts of tube, or say that some hold "
                   "down: welded, pin")  # fmt: skip


def set_metal(sets: Names) -> list[Assembly]:
    """Return the assembly that the arms, plates and fixings of each set make."""
    return [
        Assembly(key=BRACKETS + name, carried_by=name, wind="none", lift_unit=BRACKETS + name)
        for name in sets.usable.values()
    ]


def assumptions(rows: Sequence[Row]) -> list[Assumption]:
    """Return what is taken for granted of any brackets there are."""
    if not rows:
        return []
    return [
        Assumption("fixings, for their mass only", f"{FIXING_LENGTHS:g} diameters of threaded rod",
                   "type and length are for the engineer; nothing here chooses them"),
    ]  # fmt: skip


def _bracket(
    row: Row, library: Library, tried: Mapping[str, str], problems: list[Problem]
) -> tuple[Bracket | None, Material | None]:
    needed = (*NEEDED, *(PLATE if any(row.has(field) for field in PLATE) else ()))
    missing = [field for field in needed if not row.has(field)]
    problems.extend(_blank(row, field) for field in missing)
    material, section = _look_up(row, library, tried, problems)
    if missing or material is None or section is None:
        return None, None
    reach_m, modulus_pa = row.number("reach"), material.youngs_modulus_low_pa
    stay = _stay(row, reach_m, library, problems)
    if row.number("plate_thickness", 0.0) >= reach_m:
        why = "the wall plate is as thick as the arm is long"
        problems.append(_refused(row, "plate_thickness", why, "look at both sizes"))
        return None, None
    if not 0 < row.number("bears_at", reach_m) <= reach_m:
        why = "there is no arm where the load bears"
        problems.append(_refused(row, "bears_at", why, "look at it and at the reach, both from "
                                 "the wall face; blank is the end of the arm"))  # fmt: skip
        return None, None
    if stay is None and _stayed(row):
        return None, None
    if modulus_pa is None:
        why = f"tables/materials.csv has no modulus of elasticity for {material.key}"
        problems.append(_refused(row, "grade", why, "type the grade of a metal"))
        return None, None
    return Bracket(
        key=row.text("bracket"),
        set_name=row.text("set"),
        root_m=(row.number("across"), row.number("up"), 0.0),
        reach_m=reach_m,
        bears_m=row.number("bears_at", reach_m),
        section=section,
        modulus_pa=(modulus_pa, modulus_pa * SHEAR_RATIO),
        holds=row.text("holds"),
        cell=row.cell("bracket"),
        grade=row.text("grade"),
        metal=material.key,
        density_kg_m3=material.density_kg_m3,
        trial=row.text("section") if is_trial(row.text("section")) else "",
        plate=_plate(row),
        fixings=_fixings(row),
        stay=stay,
        stage=row.text("stage"),
    ), material


def _plate(row: Row) -> Plate | None:
    if not row.has("plate_thickness"):
        return None
    return Plate(*(row.number(field) for field in PLATE))


def _fixings(row: Row) -> Fixings | None:
    across, up = (int(row.number(field, 0.0)) for field in ("fixings_across", "fixings_up"))
    if not across * up:
        return None
    sizes = ("pitch_across", "pitch_up", "fixing_diameter")
    return Fixings(across, up, *(row.number(field, math.nan) for field in sizes))


def _stayed(row: Row) -> bool:
    return any(row.has(field) for field in STAY)


def _stay(row: Row, reach_m: float, library: Library, problems: list[Problem]) -> Stay | None:
    """Return the stay of a row; None where it has none, or has one that cannot be."""
    if not _stayed(row):
        return None
    missing = [field for field in STAY_NEEDED if not row.has(field)]
    problems.extend(_blank(row, field) for field in missing)
    section = find_section(library, row.text("stay_section"))
    if isinstance(section, Miss):
        if row.has("stay_section"):
            problems.append(_refused(row, "stay_section", section.sentence, section.advice))
        return None
    from_m, to_m = row.number("stay_from", 0.0), row.number("stay_to", reach_m)
    if missing or (from_m and 0 < to_m <= reach_m):
        pulls_only = section.family in PULLS_ONLY
        return None if missing else Stay(from_m, to_m, section, pulls_only)
    field = "stay_to" if from_m else "stay_from"
    why = "a stay here would not hold the arm"
    problems.append(_refused(row, field, why, "look at the places of both its ends"))
    return None


def _look_up(
    row: Row, library: Library, tried: Mapping[str, str], problems: list[Problem]
) -> tuple[Material | None, Section | None]:
    """Return the metal and the section that a row names, None with a problem where it is none."""
    metal = find_material(library, without_zinc(row.text("grade")) or STEEL)
    if isinstance(metal, Miss):
        problems.append(_refused(row, "grade", metal.sentence, metal.advice))
    material = None if isinstance(metal, Miss) else metal
    section = _section(row, library, tried, material)
    if isinstance(section, Miss):
        if row.has("section"):
            problems.append(_refused(row, "section", section.sentence, section.advice))
        section = None
    if section is None and is_trial(row.text("section")):
        why = f'"{row.text("section")}" names no family that can be tried'
        problems.append(_refused(row, "section", why, f"type {ALLOWED}"))
    return material, section


def _section(
    row: Row, library: Library, tried: Mapping[str, str], material: Material | None
) -> Section | Miss | None:
    """Return the section of an arm: the one named, or the one that is tried now."""
    named = row.text("section")
    if not is_trial(named):
        return find_section(library, named)
    choices = trial_sections(library, named, material.family if material else "")
    now = tried.get(row.text("bracket"))
    return next((one for one in choices if now in (None, one.key)), None)


def _own_parts(row: Row, bracket: Bracket, material: Material) -> list[Part]:
    """Return the arm, the wall plate and the fixings of a bracket."""
    across, up, _ = bracket.root_m
    solid = Layer("solid", material.key, "solid", material.density_kg_m3,
                  amount=f"{material.density_kg_m3:g} kg/m3", sources=(material.source,),
                  cited=(str(material.citation),), skin=False, form="plate")  # fmt: skip
    thick_m = row.number("plate_thickness", 0.0)
    arm = _own(bracket, "arm", "section", (across, up, thick_m + (bracket.reach_m - thick_m) / 2),
               length=bracket.reach_m - thick_m, width=bracket.section.height_m,
               depth=bracket.section.width_m)  # fmt: skip
    parts = [replace(arm, pointing=("out", ""), layers=section_layer(bracket.section, solid))]
    if thick_m:
        plate = _own(bracket, "wall plate", "flat", (across, up, thick_m / 2),
                     length=row.number("plate_width"), width=row.number("plate_height"),
                     depth=thick_m)  # fmt: skip
        gauge = f"{1000 * thick_m:g} mm"
        parts.append(replace(plate, layers=(replace(solid, form="sheet", gauge=gauge),)))
    if bracket.stay:
        parts.append(_stay_part(bracket, bracket.stay, solid))
    fixings = bracket.fixings
    if fixings and fixings.diameter_m > 0:
        diameter_m = fixings.diameter_m
        length_m = FIXING_LENGTHS * diameter_m
        rod = _own(bracket, "fixings", "rod", (across, up, thick_m - length_m / 2),
                   length=length_m, diameter=diameter_m)  # fmt: skip
        count = fixings.across * fixings.up
        parts.append(replace(rod, count=count, pointing=("out", ""), layers=(solid,),
                             get_by="buy"))  # fmt: skip
    return parts


def _stay_part(bracket: Bracket, stay: Stay, solid: Layer) -> Part:
    """Return the stay, its upper end leaning in to the wall or out to the arm."""
    across, up, _ = bracket.root_m
    at_m = (across, up + stay.from_m / 2, stay.to_m / 2)
    part = _own(bracket, "stay", "section", at_m, length=stay.length_m,
                width=stay.section.height_m, depth=stay.section.width_m)  # fmt: skip
    lean_rad = math.atan2(-math.copysign(stay.to_m, stay.from_m), abs(stay.from_m))
    return replace(part, pointing=("up", ""), angles_rad=(0.0, lean_rad, 0.0),
                   made_of=stay.section.key, layers=section_layer(stay.section, solid))  # fmt: skip


def _own(
    bracket: Bracket, what: str, shape: str, at_m: tuple[float, float, float], **sizes: float
) -> Part:
    return Part(
        key=f"{bracket.key} {what}",
        name=f"{what} of the set {bracket.set_name}",
        assembly=BRACKETS + bracket.set_name,
        count=1,
        shape=shape,
        dims=tuple(sizes.get(name, math.nan) for name in DIMENSIONS),
        at_m=at_m,
        in_wind=False,
        made_of=bracket.section.key if what == "arm" else "",
        cell=bracket.cell,
    )


def _blank(row: Row, field: str) -> Problem:
    heading = next(column.heading for column in COLUMNS if column.field == field)
    return _refused(row, field, f'"{heading}" is blank', "it decides what the bracket carries")


def _refused(row: Row, field: str, found: str, advice: str) -> Problem:
    return refusal(row, field, found, WANTED[field], advice)
