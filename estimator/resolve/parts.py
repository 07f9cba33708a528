"""Rows of the parts sheet joined with the tables: resolved parts, and the table they make."""

import math
from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import NamedTuple

import numpy as np

from estimator.core.problems import Cell, Problem, Severity
from estimator.geometry import placing
from estimator.geometry.measures import OVER, Dims, Measures
from estimator.geometry.shapes import Fault, faults, measure
from estimator.reference.finding import Miss
from estimator.reference.library import Library
from estimator.reference.sections import Section, find_section
from estimator.resolve.layers import WALLED, Maker
from estimator.resolve.modelled import LACKS, MODELLED, Modeller
from estimator.resolve.names import Names, nameless, refusal
from estimator.resolve.records import Assembly, Layer, Modelled, Part, PartColumns
from estimator.sheets.columns import FORMS
from estimator.sheets.rows import Row
from estimator.wind.likenesses import unlike

DIMENSIONS = (
    "length", "width", "depth", "diameter", "bore", "end_width", "end_diameter", "wall", "angle",
)  # fmt: skip
PARTS, BUILD_UPS = "parts", "build-ups"
SOME_SHAPE = "box"
"""Stands in for a shape that could not be read: one that looks up everything there is."""
MOST_COPIES = 10_000
"""More copies set out, or pieces cut, from one row than this are a slip of the keyboard."""
UNFOLDED = frozenset({"run", "bought"})
"""Shapes whose material is only a word when their mass is given."""
OVER_CHOICES = next(column for column in FORMS[BUILD_UPS].columns if column.field == "over").choices
UNLAID = {
    "length": ("a mass by the metre needs a length", "a mass each, or a shape that has a length"),
    "inside": ("contents need an inside", "a shape that can be filled"),
    "solid": ("a plain material needs a solid", "a mass each, a mass by the metre, or a build-up"),
}
"""What to say of a part whose own layer lies over what its shape lacks, and what is wanted."""


class Known(NamedTuple):
    """What parts are looked up in.

    Attributes:
        names: Names of the assemblies.
        library: The lookup tables.
        maker: Looks up what parts are made of, and collects its own problems.
        modeller: Makes the models of parts that a file or readings describe, likewise.
    """

    names: Names
    library: Library
    maker: Maker
    modeller: Modeller


def resolve_parts(rows: Sequence[Row], known: Known) -> tuple[list[Part], list[Problem]]:
    """Return the parts that can be worked out, and what is wrong with the others.

    Args:
        rows: Rows of the parts sheet with a count above zero.
        known: What they are looked up in.
    """
    problems: list[Problem] = []
    parts = {part.key: part for row in rows if (part := _part(row, known, problems)) is not None}
    misfits = [*_misfits([*parts.values()], known.modeller.models)]
    wrong = {part.key for part, _ in misfits}
    made_of = {row.text("part"): row.cell("made_of") for row in rows}
    good = [part for part in parts.values() if part.key not in wrong]
    laid = {layer.cell for part in good for layer in part.layers}
    for part, why in misfits:
        problems += _told(why, made_of[part.key], laid)
    return good, problems


def look_over(rows: Iterable[Row], known: Known) -> list[Problem]:
    """Return what rows that could not be read name in vain.

    Nothing is said of their blanks: what stood there may be what could not be read.
    """
    problems: list[Problem] = []
    unlisted = any(lost.sheet == PARTS for lost in known.names.refused.values())
    for row in rows:
        found = list[Problem]()
        _look_up(row, known, found)
        idle = {"made_of"} if row.text("shape") in UNFOLDED else set()
        idle |= {"assembly"} if unlisted else set()
        cells = {row.cell(name) for name in row.values.keys() - idle}
        problems += [
            problem
            for problem in found
            if problem.cell.sheet != PARTS
            or (problem.cell in cells and problem.severity is Severity.REFUSED)
        ]
    return problems


class _LookedUp(NamedTuple):
    """What a row names; None where it names something in vain."""

    layers: tuple[Layer, ...] | None
    dims: tuple[float, ...]
    model: Modelled | None
    section: Section | None


def _look_up(row: Row, known: Known, problems: list[Problem]) -> _LookedUp:
    """Return the layers, sizes and model of a row; what it names in vain becomes a problem."""
    shape = row.text("shape", SOME_SHAPE)
    if not known.names[row.text("assembly")]:
        problems.append(_unknown_assembly(row, known.names))
    problems.extend(_too_many(row))
    maker, modeller = known.maker, known.modeller
    section = _section(row, known.library, problems) if shape == "section" else None
    if shape == "section":
        layers = _section_layers(row, section, maker)
    else:
        layers = maker.layers_of(row, shape)
    dims, model = _dims(row, section, maker), None
    if shape in MODELLED and (made := modeller.model_of(row, layers or ())):
        model, spread = made
        layers = layers and spread
    # Those that look things up keep each thing once, and hand over what they found of this row.
    for found in (maker.problems, modeller.problems):
        problems += found
        found.clear()
    return _LookedUp(layers, dims, model, section)


def _part(row: Row, known: Known, problems: list[Problem]) -> Part | None:
    """Return one part, or None when its assembly, shape or material cannot be used."""
    before = len(problems)
    layers, dims, model, section = _look_up(row, known, problems)
    if layers is None or any(p.severity is Severity.REFUSED for p in problems[before:]):
        return None
    shape = row.text("shape")
    return Part(
        key=row.text("part"),
        name=row.text("name") or row.text("part"),
        assembly=known.names[row.text("assembly")],
        count=int(row.number("count")),
        shape=shape,
        dims=dims,
        pointing=(row.text("along"), row.text("faces")),
        angles_rad=(row.number("turn", 0.0), row.number("tip", 0.0),
                    row.number("swing", 0.0)),
        at_m=(row.number("across", 0.0), row.number("up", 0.0), row.number("out", 0.0)),
        set_out=(row.text("set_out"), row.number("spread", 0.0), row.number("start", 0.0)),
        relief=row.number("relief", 1.0),
        cut_away=row.number("cut_away", 0.0),
        in_wind=row.text("in_wind", "yes") == "yes",
        confidence=row.text("confidence", "drawn"),
        made_of=row.text("made_of"),
        layers=layers,
        get_by=row.text("get_by", "buy" if shape == "bought" else "make"),
        price_each=row.number("price_each"),
        pieces=int(row.number("pieces", 1.0)),
        roughness_m=known.maker.roughness_m(row),
        model=model.key if model else "",
        section=section,
        wind_as=row.text("wind_as"),
        cell=row.cell("part"),
    )  # fmt: skip


def _dims(row: Row, section: Section | None, maker: Maker) -> tuple[float, ...]:
    """Return the sizes of a part; a section brings its own, a gauge may stand for a wall."""
    sizes = {name: row.number(name) for name in DIMENSIONS}
    if section is not None:
        sizes |= {"width": section.height_m, "depth": section.width_m}
    elif row.text("shape") in WALLED and math.isnan(sizes["wall"]):
        sizes["wall"] = maker.thickness_m(row)
    return tuple(sizes[name] for name in DIMENSIONS)


def _too_many(row: Row) -> Iterable[Problem]:
    """Yield why a row stands for more things than can be placed or cut one by one."""
    wanted = f"{MOST_COPIES} at most"
    if row.has("set_out") and row.number("count") > MOST_COPIES:
        found = f"{row.number('count'):.0f} copies cannot be set out one by one"
        yield refusal(row, "count", found, wanted, "leave set out blank, or make fewer rows of it")
    if row.number("pieces") > MOST_COPIES:
        found = f"{row.number('pieces'):.0f} pieces cannot be laid out one by one"
        yield refusal(row, "pieces", found, wanted, "look whether that is what you mean")


def _section(row: Row, library: Library, problems: list[Problem]) -> Section | None:
    found = find_section(library, row.text("section"))
    if isinstance(found, Miss):
        wanted = "a section of the tables"
        problems.append(refusal(row, "section", found.sentence, wanted, found.advice))
        return None
    return found


def _section_layers(row: Row, section: Section | None, maker: Maker) -> tuple[Layer, ...] | None:
    """Return a section as metal by the length, with its finish by its girth."""
    metal = _section_metal(row, section, maker)
    coats = maker.finish_by_length(row, section.girth_m if section else 0.0)
    return None if metal is None or coats is None else (*metal, *coats)


def _section_metal(row: Row, section: Section | None, maker: Maker) -> tuple[Layer, ...] | None:
    """Return a section by the length, at the density of what it is made of."""
    solid = maker.layers_of(row, "section")
    if solid is None or section is None or row.has("mass_each") or row.has("kg_per_m"):
        return solid
    if len(solid) > 1 or solid[0].over != "solid":
        maker.refuse(
            row,
            "made_of",
            "a section is of one material all through",
            "a material",
            "type the material of the section",
        )
        return None
    return section_layer(section, solid[0])


def section_layer(section: Section, solid: Layer) -> tuple[Layer, ...]:
    """Return the layer of a section made of a solid material."""
    kg_m = section.area_m2 * solid.mass_per_size_kg
    amount = f"{section.key}, {kg_m:.3g} kg/m"
    return (
        replace(solid, name="section", over="length", mass_per_size_kg=kg_m, amount=amount,
                sources=(*solid.sources, section.source), form="bar", gauge=section.key,
                cited=(*solid.cited, str(section.citation))),
    )  # fmt: skip


def _misfits(
    parts: Sequence[Part], models: Mapping[str, Modelled]
) -> Iterable[tuple[Part, Problem]]:
    """Return each part whose sizes, pointing or layers cannot be, with the problem."""
    for form, members in _by_form(parts).items():
        if form in models:
            yield from _unlayable(members, _regions(models[form].model.measures))
        else:
            yield from _misshapen(form, members)
            yield from _unlike_wind(members)


def _unlike_wind(parts: Iterable[Part]) -> Iterable[tuple[Part, Problem]]:
    """Return the parts that cannot be to the wind what their row says."""
    for part in parts:
        sizes = dict(zip(DIMENSIONS, part.dims, strict=True))
        if part.wind_as and (why := unlike(part.wind_as, part.shape, sizes)):
            found = f'to the wind it cannot be "{part.wind_as}": {why}'
            yield part, _part_problem(part, found, "another choice of wind as, or none")


def _misshapen(shape: str, members: Sequence[Part]) -> Iterable[tuple[Part, Problem]]:
    """Return the parts of a shape whose sizes, pointing or layers cannot be."""
    dims = Dims(*np.array([part.dims for part in members]).T)
    bad = faults(shape, dims)
    for fault in bad:
        yield members[fault.row], _size_problem(members[fault.row], fault)
    good = np.setdiff1d(np.arange(len(members)), [fault.row for fault in bad])
    if len(good):
        has = _regions(measure(shape, dims.taken(good[:1])))
        yield from _unlayable((members[i] for i in good), has)


def _regions(measures: Measures) -> set[str]:
    """Return what there is to lay layers over."""
    return {over for over in OVER if measures.over(over) is not None}


def _unlayable(parts: Iterable[Part], has: set[str]) -> Iterable[tuple[Part, Problem]]:
    """Return the parts with a layer over something their shape does not have, or crossed axes."""
    for part in parts:
        along, faces = part.pointing
        if along and along == faces:
            why = f"it cannot run along {along} and face {faces} as well"
            yield part, _part_problem(part, why, "two different axes")
        for layer in part.layers:
            if layer.over not in has:
                yield part, _mislaid(part, layer, has)


def _mislaid(part: Part, layer: Layer, has: set[str]) -> Problem:
    """Return the problem of a layer that has nothing to lie over, where that was said."""
    lacks = LACKS.get(part.shape, f"which the shape {part.shape} lacks")
    cell = layer.cell or part.cell
    if cell.sheet == BUILD_UPS:
        found = f'the layer "{layer.name}" lies over {layer.over}, {lacks}'
        wanted = f"one of: {', '.join(over for over in OVER_CHOICES if over in has)}"
        advice = f"change it, or make {part.key} of something else"
    else:
        needs, wanted = UNLAID[layer.over]
        found, advice = f"{needs}, {lacks}", "mend the row; see `estimator tables shapes`"
    return Problem(Severity.REFUSED, cell, found, wanted, advice, part.key)


def _told(why: Problem, made_of: Cell, laid: Container[Cell | None]) -> Iterable[Problem]:
    """Yield a misfit; that of a layer of a build-up also at the part it keeps from being used.

    The layer itself is only a question where other parts are laid with it.
    """
    if why.cell.sheet != BUILD_UPS:
        yield why
        return
    found = f"the layer at {why.cell} cannot lie over this shape"
    yield Problem(Severity.REFUSED, made_of, found, "", "mend one of the two", why.part)
    yield replace(why, severity=Severity.QUESTION) if why.cell in laid else why


def _by_form(parts: Sequence[Part]) -> dict[str, list[Part]]:
    groups: dict[str, list[Part]] = {}
    for part in parts:
        groups.setdefault(part.form, []).append(part)
    return groups


def _size_problem(part: Part, fault: Fault) -> Problem:
    heading = fault.dimension.replace("_", " ")
    return _part_problem(part, fault.why, f"a value of {heading} that fits the shape")


def _part_problem(part: Part, found: str, expected: str) -> Problem:
    return Problem(
        Severity.REFUSED, part.cell, found, expected, "mend the row; see `estimator tables shapes`",
        part.key,
    )  # fmt: skip


def _unknown_assembly(row: Row, names: Names) -> Problem:
    words = (f'"{row.text("assembly")}" is not on the assemblies sheet',
             "an assembly of that sheet")  # fmt: skip
    return nameless(row, "assembly", (names,), words, sorted(names.all))


def repeats(parts: Sequence[Part], assemblies: Iterable[Assembly]) -> list[Part]:
    """Return the parts of every assembly that is the same as another one."""
    return [
        _repeat(part, assembly)
        for assembly in assemblies
        if assembly.same_as
        for part in parts
        if part.assembly == assembly.same_as
    ]


def _repeat(part: Part, assembly: Assembly) -> Part:
    """Return a part of another assembly, mirrored left to right if that is asked for."""
    again = replace(part, key=f"{part.key} of {assembly.key}", assembly=assembly.key)
    if not assembly.mirrored:
        return again
    kind, spread_m, start_rad = part.set_out
    at_m = (-part.at_m[0], part.at_m[1], part.at_m[2])
    mirrored_start = math.pi - start_rad if kind == "ring" else start_rad
    return replace(again, at_m=at_m, set_out=(kind, spread_m, mirrored_start), mirrored=True)


_FLIPS = {
    **dict.fromkeys(("sector", "formed"), (1.0, 1.0, -1.0)),
    **dict.fromkeys(MODELLED, (1.0, 1.0, 1.0)),
}
"""Axes a shape is turned over to look as before, where that is not its beside axis."""


def _mirror(rotation: np.ndarray, part: Part) -> np.ndarray:
    """Return a rotation seen in a mirror, for a shape that is its own mirror image.

    Every shape is unchanged by turning over its beside axis, except those that are bent in the
    plane of the wall: they are unchanged by turning over the axis they face. A model has no
    such plane, and is itself seen in the mirror. A ring of copies starts from the other
    side, half a turn on.
    """
    flip = np.diag(_FLIPS.get(part.shape, (1.0, -1.0, 1.0)))
    seen: np.ndarray = np.diag([-1.0, 1.0, 1.0]) @ rotation @ flip
    return placing.about_axis("out", math.pi) @ seen if part.set_out[0] == "ring" else seen


def columns(
    parts: Sequence[Part],
    assemblies: Sequence[Assembly],
    models: Mapping[str, Modelled] = MappingProxyType({}),
) -> PartColumns:
    """Return the parts as one table of columns."""
    rows = {assembly.key: i for i, assembly in enumerate(assemblies)}
    shapes = np.array([part.form for part in parts], dtype=object)
    angles = np.array([part.angles_rad for part in parts]).reshape(-1, 3)
    aims: dict[tuple[str, str], np.ndarray] = {}
    for part in parts:
        if part.pointing not in aims:
            aims[part.pointing] = placing.pointing(*part.pointing)
    aimed = np.array([aims[part.pointing] for part in parts]).reshape(-1, 3, 3)
    rotation = placing.rotation(*angles.T) @ aimed
    for i in (n for n, part in enumerate(parts) if part.mirrored):
        rotation[i] = _mirror(rotation[i], parts[i])
    return PartColumns(
        parts=tuple(parts),
        assembly=np.array([rows[part.assembly] for part in parts], dtype=np.intp),
        count=np.array([part.count for part in parts], dtype=float),
        dims=Dims(*np.array([part.dims for part in parts]).reshape(-1, len(DIMENSIONS)).T),
        shape_rows={
            shape: np.flatnonzero(shapes == shape) for shape in dict.fromkeys(shapes.tolist())
        },
        rotation=rotation,
        at_m=np.array([part.at_m for part in parts]).reshape(-1, 3),
        relief=np.array([part.relief for part in parts]),
        cut_away=np.array([part.cut_away for part in parts]),
        in_wind=np.array([part.in_wind for part in parts], dtype=bool),
        models=models,
    )
