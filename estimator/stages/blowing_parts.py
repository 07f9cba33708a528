"""Wind on an assembly whose parts are added up one by one, each by the rule for its shape."""

import math
from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from estimator.geometry.measures import Floats
from estimator.resolve.job import Resolved
from estimator.resolve.parts import DIMENSIONS
from estimator.resolve.records import Part, PartColumns
from estimator.stages.measuring import Shapes
from estimator.stages.outlining import Seen
from estimator.wind import coefficients
from estimator.wind.air import speed_of_pressure
from estimator.wind.figures import (
    bar_force,
    crosswind,
    moment_about,
    plate_force,
    wind_force,
)
from estimator.wind.records import Coefficient

PLATES = frozenset({"sheet", "disc", "ring", "sector", "blade", "leaf", "dome", "outline"})
"""Pushed along their own normal."""
ROUND_BARS = frozenset({"rod", "tube", "cone", "formed"})
FLAT_BARS = frozenset({"flat", "hollow", "section"})
"""Pushed square to their length, by the wind that crosses them."""
CLEAR_OF_GROUND_M = 100.0
"""Clearance given to a ball, so that the rule for one near the ground does not apply."""
ALONG, NORMAL = 0, 2
"""Axes of a shape's own frame: its length, and what it faces."""


class PartWind(NamedTuple):
    """Wind on the parts of one assembly in one position.

    Attributes:
        wrench: (d, 6) force and moment about the datum in each direction.
        area_m2: (d,) sum of what the parts show.
    """

    wrench: Floats
    area_m2: Floats


class Stand(NamedTuple):
    """Where an assembly is, and the pressure on it."""

    row: int
    rotation: Floats
    origin_m: Floats
    pressure_pa: float


def blow_parts(
    resolved: Resolved, shapes: Shapes, looks: Sequence[Seen | None], stand: Stand,
    directions_rad: Floats,
) -> PartWind:  # fmt: skip
    """Return the wind on every part of an assembly that stands clear, added up.

    Plates are pushed along their own normal, long bars square to their length, and what is
    neither along the wind on the outline it shows. Each acts at its own middle.

    Args:
        resolved: The job.
        shapes: What its parts measure.
        looks: What the assembly covers from each direction, None for nothing.
        stand: Where it is.
        directions_rad: (d,).
    """
    slender = _slender(resolved.columns, shapes, stand, directions_rad)
    others = _others(resolved.columns, looks, stand, directions_rad)
    return PartWind(slender + others.wrench, others.area_m2)


def _slender(columns: PartColumns, shapes: Shapes, stand: Stand, directions_rad: Floats) -> Floats:
    """Return the force and moment on plates and bars, (d, 6)."""
    places = shapes.places
    total = np.zeros((len(directions_rad), 6))
    speed_m_s = float(speed_of_pressure(stand.pressure_pa))
    for k in np.flatnonzero(columns.assembly[places.part] == stand.row):
        row = int(places.part[k])
        part = columns.parts[row]
        rule = RULES.get(part.shape)
        if rule is None or not columns.in_wind[row] or part.cut_away >= 1.0:
            continue
        turn = stand.rotation @ places.rotation[k]
        share = _alike(part) * (1.0 - part.cut_away) * stand.pressure_pa
        area_m2 = rule.area_m2(part, float(shapes.skin_area_m2[row]))
        drag = coefficient_of(part, columns, speed_m_s).value
        force_n = rule.force(share, drag, area_m2, turn[:, rule.axis], directions_rad)
        centre_m = stand.rotation @ _bears_at(part, columns, places.rotation[k], places.at_m[k])
        moment_nm = moment_about(np.zeros(3), centre_m + stand.origin_m, force_n)
        total += np.concatenate([force_n, moment_nm], axis=-1)
    return total


def _bears_at(part: Part, columns: PartColumns, rotation: Floats, at_m: Floats) -> Floats:
    """Return where the wind bears on a copy: a model's own middle is not where it is placed."""
    if not part.model:
        return at_m
    face = columns.models[part.model].model.measures.face
    return at_m if face is None else at_m + rotation @ face.middle_m[0]


def _others(
    columns: PartColumns, looks: Sequence[Seen | None], stand: Stand, directions_rad: Floats
) -> PartWind:
    """Return the wind on what is neither plate nor bar, and the outline of everything."""
    wrench, area_m2 = np.zeros((len(directions_rad), 6)), np.zeros(len(directions_rad))
    for d, (seen, direction_rad) in enumerate(zip(looks, directions_rad.tolist(), strict=True)):
        if seen is None:
            continue
        area_m2[d] = seen.summed_m2
        for row, shown_m2, middle_m in zip(
            seen.parts, seen.areas_m2.tolist(), seen.middles_m, strict=True
        ):
            part = columns.parts[row]
            if part.shape in RULES:
                continue
            drag = coefficient_of(part, columns, 0.0).value
            force_n = wind_force(stand.pressure_pa, drag, shown_m2, direction_rad)
            at_m = middle_m[0] * crosswind(direction_rad) + np.array([0.0, middle_m[1], 0.0])
            moment_nm = moment_about(np.zeros(3), at_m + stand.origin_m, force_n)
            wrench[d] += np.concatenate([force_n, moment_nm])
    return PartWind(wrench, area_m2)


def _alike(part: Part) -> int:
    """Return how many copies one place stands for."""
    return 1 if part.set_out[0] else part.count


def coefficient_of(part: Part, columns: PartColumns, speed_m_s: float) -> Coefficient:
    """Return the force coefficient of a part by its shape, on the area its rule names.

    Args:
        part: The part.
        columns: All parts, with their models.
        speed_m_s: Peak speed at its height; only round bars ask for it.
    """
    sizes = _sizes(part, columns)
    if part.shape in PLATES:
        return coefficients.flat_plate(*_plate_sides(sizes))
    if part.shape in ROUND_BARS:
        tube = coefficients.Tube(sizes["length"], sizes["diameter"])
        if not math.isnan(part.roughness_m):
            tube = tube._replace(roughness_m=part.roughness_m)
        return coefficients.cylinder(tube, speed_m_s)
    if part.shape in FLAT_BARS:
        narrow, wide = sorted((sizes["width"], sizes["depth"]))
        return coefficients.rectangular_bar(coefficients.Bar(sizes["length"], wide, narrow))
    if part.shape == "sphere":
        return coefficients.sphere(sizes["diameter"], CLEAR_OF_GROUND_M)
    return coefficients.figure(hollows=False)


def _sizes(part: Part, columns: PartColumns) -> dict[str, float]:
    """Return the sizes of a part by name; those of the envelope of what is modelled."""
    sizes = dict(zip(DIMENSIONS, part.dims, strict=True))
    if part.model:
        box_m = columns.models[part.model].model.measures.box_m[0].tolist()
        sizes |= dict(zip(("length", "width", "depth"), box_m, strict=True))
    return sizes


def outlines_said(columns: PartColumns, row: int) -> str:
    """Return what to say of the flat outlines of an assembly; blank when it has none."""
    found = {}
    for i in np.flatnonzero((columns.assembly == row) & columns.in_wind):
        part = columns.parts[i]
        if part.shape == "outline":
            measures = columns.models[part.model].model.measures
            length_m, width_m = measures.box_m[0, :2]
            area_m2 = 0.0 if measures.face is None else float(measures.face.size[0])
            found[part.key] = area_m2 / (length_m * width_m)
    if not found:
        return ""
    low, high = (f"{100 * share:.0f}" for share in (min(found.values()), max(found.values())))
    solid = f"{low} %" if low == high else f"{low} to {high} %"
    return (
        f"; {len(found)} of them flat outlines, each a plate with the sides of its envelope, its "
        f"force on its own area ({solid} of the envelope), holes left out"
    )


def _plate_sides(sizes: Mapping[str, float]) -> tuple[float, float]:
    """Return the two sides of the plate that a flat part is like: a ring is a bent strip."""
    if sizes["length"] > 0:
        return sizes["length"], sizes["width"]
    diameter_m, bore_m = sizes["diameter"], sizes["bore"]
    if not bore_m > 0:
        return diameter_m, diameter_m
    angle_rad = sizes["angle"] if sizes["angle"] > 0 else 2 * math.pi
    return angle_rad * (diameter_m + bore_m) / 4, (diameter_m - bore_m) / 2


class _Rule(NamedTuple):
    """How the wind pushes parts of one kind.

    Attributes:
        force: Of pressure, coefficient, area, axis and directions.
        axis: Axis of the shape's own frame that counts.
        area_m2: What the coefficient is on, from the part and its skin.
    """

    force: Callable[[float, float, float, Floats, Floats], Floats]
    axis: int
    area_m2: Callable[[Part, float], float]


def _face_m2(part: Part, skin_m2: float) -> float:
    """Return what a plate shows face-on, without what hammering and cutting changed."""
    if part.shape == "dome":
        return math.pi * part.dims[3] ** 2 / 4
    return skin_m2 / part.relief / (1.0 - part.cut_away)


def _side_m2(part: Part, _: float) -> float:
    """Return the length of a bar times its width."""
    length_m, width_m, depth_m, diameter_m, *_rest = part.dims
    end_m = part.dims[6]
    if part.shape == "cone":
        return length_m * (diameter_m + (0.0 if math.isnan(end_m) else end_m)) / 2
    wide_m = diameter_m if part.shape in ROUND_BARS else max(width_m, depth_m)
    return length_m * wide_m


RULES: Mapping[str, _Rule] = {
    **dict.fromkeys(PLATES, _Rule(plate_force, NORMAL, _face_m2)),
    **dict.fromkeys(ROUND_BARS | FLAT_BARS, _Rule(bar_force, ALONG, _side_m2)),
}
"""How the wind pushes each shape; what has no rule here is pushed on its outline."""
