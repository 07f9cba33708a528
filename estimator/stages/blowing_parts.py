"""Wind on an assembly whose parts are added up one by one, each by the rule for its shape."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely

from estimator.geometry.measures import Dims, Floats
from estimator.geometry.solids import corner_radii
from estimator.resolve.parts import DIMENSIONS
from estimator.resolve.records import Part, PartColumns
from estimator.stages.measuring import Shapes
from estimator.stages.outlining import Seen
from estimator.wind.coefficients import SPHERE_NEAR_GROUND, SPHERE_UPLIFT
from estimator.wind.elements import (
    Panel,
    Panels,
    Round,
    Rounds,
    panel_forces,
    round_forces,
    wandering,
)
from estimator.wind.figures import crosswind, moment_about, wind_force
from estimator.wind.likenesses import LIKENESSES
from estimator.wind.shapes import EUROCODE, Body, Book, Caught, caught

_BACKED = frozenset({"solid", "inside"})
"""Layers that only a dome with a flat back has."""
_BOX_TUBES = frozenset({"SHS", "RHS"})
"""Rolled sections with rounded corners."""
_UP = np.array([0.0, 1.0, 0.0])


Raising = Callable[[Floats, Floats], Floats]


class PartWind(NamedTuple):
    """Wind on the parts of one assembly in one position.

    Attributes:
        wrench: (d, k, 6) force and moment about the datum in each direction and place.
        area_m2: (d,) sum of what the parts show.
        raised: (d,) what the force was times for the least pressure, 1 where it was not.
    """

    wrench: Floats
    area_m2: Floats
    raised: Floats


class Stand(NamedTuple):
    """Where an assembly is, and the pressure on it.

    Attributes:
        row: Of the assembly.
        rotation: (3, 3) how its frame is turned.
        origin_m: (3,) of its frame, from the datum.
        pressure_pa: On all of it.
        offsets: (k,) how far off its middle the force on a panel or a figure may act, in widths to
            the right of one who looks along the wind.
        datum_m: The datum above the ground.
        shares: (d,) what of the pressure blows from each direction.
        raise_to: What the rule makes of forces (d,) on areas (d,) that fall short of its least
            pressure, as factors (d,).
    """

    row: int
    rotation: Floats
    origin_m: Floats
    pressure_pa: float
    offsets: Floats
    datum_m: float
    shares: Floats
    raise_to: Raising


@dataclass(frozen=True, slots=True)
class Gathered:
    """The parts of one assembly as the wind meets them, in its own frame.

    Attributes:
        panels: Their flat sides.
        panels_at_m: (n, 3) where each is.
        rounds: Their round lengths.
        rounds_at_m: (m, 3).
        drags: (p,) coefficient of every part of the job that goes by its outline here, else zero.
    """

    panels: Panels
    panels_at_m: Floats
    rounds: Rounds
    rounds_at_m: Floats
    drags: Floats


class _Placed(NamedTuple):
    """An element of one copy of a part: how it is turned, and where it is."""

    element: Panel | Round
    rotation: Floats
    at_m: Floats


def gather(columns: PartColumns, shapes: Shapes, row: int, book: Book = EUROCODE) -> Gathered:
    """Return the parts of an assembly that are in the wind, by the rules for their shapes."""
    places = shapes.places
    placed: list[_Placed] = []
    drags = np.zeros(len(columns.parts))
    for i in np.flatnonzero((columns.assembly == row) & columns.in_wind):
        part = columns.parts[i]
        if part.cut_away >= 1.0:
            continue
        found = caught_by(part, columns, shapes, int(i), book=book)
        if found.by_outline:
            drags[i] = found.sides[0].coefficient.value
        for k in np.flatnonzero(places.part == i):
            turn = places.rotation[k]
            at_m = _bears_at(part, columns, turn, places.at_m[k])
            placed += (_Placed(element, turn, at_m) for element in _elements(part, found))
    panels = [one for one in placed if isinstance(one.element, Panel)]
    rounds = [one for one in placed if isinstance(one.element, Round)]
    return Gathered(
        Panels.of([one.element for one in panels]).turned(_rotations(panels)),  # type: ignore[misc]
        _middles_m(panels),
        Rounds.of([one.element for one in rounds]).turned(_rotations(rounds)),  # type: ignore[misc]
        _middles_m(rounds),
        drags,
    )


def _elements(part: Part, found: Caught) -> Iterator[Panel | Round]:
    """Yield the elements of one place, for all the copies it stands for."""
    alike = 1 if part.set_out[0] else part.count
    for panel in found.panels:
        yield panel._replace(area_m2=alike * panel.area_m2)
    for length in found.rounds:
        yield length._replace(area_m2=alike * length.area_m2)


def _rotations(placed: Sequence[_Placed]) -> Floats:
    return np.array([one.rotation for one in placed]).reshape(-1, 3, 3)


def _middles_m(placed: Sequence[_Placed]) -> Floats:
    return np.array([one.at_m for one in placed]).reshape(-1, 3)


def _bears_at(part: Part, columns: PartColumns, rotation: Floats, at_m: Floats) -> Floats:
    """Return where the wind bears on a copy: a model's own middle is not where it is placed."""
    if not part.model:
        return at_m
    face = columns.models[part.model].model.measures.face
    return at_m if face is None else at_m + rotation @ face.middle_m[0]


def caught_by(
    part: Part,
    columns: PartColumns,
    shapes: Shapes,
    row: int,
    *,
    book: Book,
    speed_m_s: float = 1.0,
) -> Caught:
    """Return how a part catches the wind: by what it is said to be like, or by its shape.

    Args:
        part: The part.
        columns: All parts, with their models.
        shapes: What they measure.
        row: Which of them it is.
        book: What it goes by.
        speed_m_s: Peak speed at its height; only what other rules would give depends on it.
    """
    left = 1.0 - part.cut_away
    drawn = drawn_solidity(part, columns) if part.shape == "outline" else 1.0
    body = body_of(part, columns)._replace(
        # The face as it would be without what hammering and cutting changed, and without holes.
        face_m2=float(shapes.skin_area_m2[row]) / part.relief / left / drawn,
        solidity=left * drawn,
        speed_m_s=speed_m_s,
        book=book,
    )
    return LIKENESSES[part.wind_as].catches(body) if part.wind_as else caught(part.shape, body)


def body_of(part: Part, columns: PartColumns) -> Body:
    """Return a part as the wind sees it, its sizes those of its envelope where it is modelled."""
    sizes = dict(zip(DIMENSIONS, part.dims, strict=True))
    if part.model:
        box_m = columns.models[part.model].model.measures.box_m[0].tolist()
        sizes |= dict(zip(("length", "width", "depth"), box_m, strict=True))
    return Body(
        length_m=sizes["length"],
        width_m=sizes["width"],
        depth_m=sizes["depth"],
        diameter_m=sizes["diameter"],
        bore_m=sizes["bore"],
        end_diameter_m=sizes["end_diameter"],
        angle_rad=sizes["angle"],
        corner_m=_corner_m(part, sizes),
        roughness_m=part.roughness_m,
        closed=any(_closes(layer.over, layer.name) for layer in part.layers),
        family=part.section.family if part.section else "",
    )


def _closes(over: str, name: str) -> bool:
    """Return whether a layer is only on a dome with a flat back: a coat goes all over any."""
    return over in _BACKED or (over == "whole outside" and name != "finish")


def drawn_solidity(part: Part, columns: PartColumns) -> float:
    """Return how much of a flat outline is closed: its area over the same without its holes."""
    outline = columns.models[part.model].model.outline
    filled = shapely.polygons(shapely.get_exterior_ring(shapely.get_parts(outline)))
    return float(shapely.area(outline) / shapely.area(filled).sum())


def _corner_m(part: Part, sizes: Mapping[str, float]) -> float:
    """Return the outside radius of the corners of a rectangular hollow bar; none of any other."""
    wall_m = part.section.wall_m if part.section else sizes["wall"]
    if part.shape != "hollow" and not (part.section and part.section.family in _BOX_TUBES):
        return 0.0
    outer_m, _ = corner_radii(
        Dims.of(width_m=sizes["width"], depth_m=sizes["depth"], wall_m=wall_m)
    )
    return float(outer_m[0])


def blow_parts(
    gathered: Gathered, looks: Sequence[Seen | None], stand: Stand, directions_rad: Floats
) -> PartWind:
    """Return the wind on every part of an assembly that stands clear, added up.

    Flat sides are pushed along their own normal, round lengths square to themselves, and what is
    neither along the wind on the outline it shows. Each acts at its own middle, or, flat sides and
    figures, off it by a share of their own width, all to the same side.

    Args:
        gathered: The parts of the assembly.
        looks: What the assembly covers from each direction, None for nothing.
        stand: Where it is.
        directions_rad: (d,).
    """
    parts = (
        *_panels(gathered, stand, directions_rad),
        *_rounds(gathered, stand, directions_rad),
        *_outlines(gathered, looks, stand, directions_rad),
    )
    middle, turning = (sum(terms) for terms in zip(*parts, strict=True))
    wrench = np.repeat(np.asarray(middle)[:, None], len(stand.offsets), axis=1)
    wrench[..., 3:] += stand.offsets[:, None] * np.asarray(turning)[:, None]
    wrench *= stand.shares[:, None, None]
    area_m2 = np.array([0.0 if seen is None else seen.summed_m2 for seen in looks])
    raised = stand.raise_to(np.linalg.norm(wrench[:, 0, :3], axis=-1), area_m2)
    return PartWind(raised[:, None, None] * wrench, area_m2, raised)


_Terms = tuple[Floats, Floats]
"""(d, 6) force and moment with everything in its middle, and (d, 3) what the moment gains when all
act their own width to the right."""


def _terms(at_m: Floats, force_n: Floats, arms_m: Floats) -> _Terms:
    """Return the terms of forces (n, ..., 3) at a place and with an arm each, summed."""
    moment_nm = moment_about(np.zeros(3), at_m, force_n)
    wrench = np.concatenate([force_n, moment_nm], axis=-1)
    return wrench.sum(axis=0), np.cross(arms_m, force_n).sum(axis=0)


def _panels(gathered: Gathered, stand: Stand, directions_rad: Floats) -> Iterator[_Terms]:
    panels = gathered.panels.turned(stand.rotation)
    at_m = gathered.panels_at_m @ stand.rotation.T + stand.origin_m
    force_n = panel_forces(panels, stand.pressure_pa, directions_rad)
    yield _terms(at_m[:, None], force_n, wandering(panels, directions_rad))


def _rounds(gathered: Gathered, stand: Stand, directions_rad: Floats) -> Iterator[_Terms]:
    rounds = gathered.rounds.turned(stand.rotation)
    at_m = gathered.rounds_at_m @ stand.rotation.T + stand.origin_m
    force_n = round_forces(rounds, stand.pressure_pa, directions_rad)
    # A ball with less than half of itself below it meets more wind, and is lifted.
    below_m = stand.datum_m + at_m[:, 1] - rounds.ball_m / 2
    near = (rounds.ball_m > 0) & (below_m < rounds.ball_m / 2)
    force_n = np.where(near[:, None, None], SPHERE_NEAR_GROUND, 1.0) * force_n
    lift_n = np.where(near, SPHERE_UPLIFT * stand.pressure_pa * rounds.area_m2, 0.0)
    force_n = force_n + (lift_n[:, None] * _UP)[:, None]
    yield _terms(at_m[:, None], force_n, np.zeros_like(force_n))


def _outlines(
    gathered: Gathered, looks: Sequence[Seen | None], stand: Stand, directions_rad: Floats
) -> Iterator[_Terms]:
    """Yield the wind on what goes by its outline, along the wind."""
    wrench, turning = np.zeros((len(looks), 6)), np.zeros((len(looks), 3))
    caught = [(d, seen) for d, seen in enumerate(looks) if seen is not None]
    if caught:
        rows, seen = [d for d, _ in caught], [one for _, one in caught]
        right = crosswind(directions_rad[rows])
        # Every look names the same copies in the same order: (n, d) from here on.
        drags = gathered.drags[seen[0].parts][:, None]
        areas_m2 = np.stack([one.areas_m2 for one in seen], axis=1)
        level_m, up_m = np.nan_to_num([one.middles_m for one in seen]).T[..., None]
        widths_m = 2 * np.stack([one.halves_m[:, 0] for one in seen], axis=1)
        force_n = wind_force(stand.pressure_pa, drags, areas_m2, directions_rad[rows])
        at_m = stand.origin_m + level_m * right + up_m * _UP
        wrench[rows], turning[rows] = _terms(at_m, force_n, widths_m[..., None] * right)
    yield wrench, turning


def outlines_said(columns: PartColumns, row: int) -> str:
    """Return what to say of the flat outlines of an assembly; blank when it has none."""
    found = {
        part.key: drawn_solidity(part, columns)
        for i in np.flatnonzero((columns.assembly == row) & columns.in_wind)
        if (part := columns.parts[i]).shape == "outline"
    }
    if not found:
        return ""
    low, high = (f"{100 * share:.0f}" for share in (min(found.values()), max(found.values())))
    closed = f"{low} %" if low == high else f"{low} to {high} %"
    return (
        f"; {len(found)} of them flat outlines, each a plate as long as its envelope and as wide "
        f"as its area asks for, {closed} of it closed"
    )
