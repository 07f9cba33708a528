"""The whole job larger or smaller: what is drawn grows, what is bought by its size stays.

Lengths, positions, origins, set-outs and ways of slides grow. Gauges, walls, listed sections, what
is given by its mass or bought, brackets and their plates, fixings and reach stay as they are, in
places that grow. Amounts of a build-up stay, so that a core grows with its volume and a skin with
its area. Loads from elsewhere, the height of the datum and the building stay.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TypeAlias

from estimator.geometry import models
from estimator.geometry.shapes import faults
from estimator.reference.finding import Miss
from estimator.reference.library import Library
from estimator.reference.sections import closed_form, find_section
from estimator.resolve.job import Resolved
from estimator.resolve.parts import DIMENSIONS, columns
from estimator.resolve.patterns import patterned
from estimator.resolve.records import Assembly, Bracket, Drive, Modelled, Part, PartColumns
from estimator.resolve.trade import BARS, Offer, Trade, Want
from estimator.shop.three_point import Estimate

Point: TypeAlias = tuple[float, float, float]

KEPT = frozenset({"wall", "angle"})
"""Dimensions that stay: a wall is a gauge, and an angle has no size."""
SECTIONS_OWN = frozenset({"width", "depth"})
"""Dimensions that the table of sections gives."""
PARTS, BRACKETS = "parts", "brackets"
PLAIN_BARS = {
    "Flat": ("flat", "height_m", "width_m"),
    "Round": ("round", "height_m"),
    "CHS": ("CHS", "height_m", ""),
    "SHS": ("SHS", "height_m", "width_m", ""),
    "RHS": ("RHS", "height_m", "width_m", ""),
}
"""How a bar of each family is written, by its sizes that grow; a blank stands for its wall."""


def scaled(resolved: Resolved, times: float) -> Resolved:
    """Return a job so many times as large; hours, costs and quotes stay as listed.

    A bar that grew to a section nobody sells takes, by the kilogram, the price of the one it was.
    """
    parts = [_part(part, times) for part in resolved.columns.parts]
    grown = _models(resolved.columns, times)
    assemblies = tuple(_assembly(assembly, times) for assembly in resolved.assemblies)
    return replace(
        resolved,
        columns=_cut_anew(columns(parts, assemblies, grown), assemblies, resolved),
        assemblies=assemblies,
        brackets=tuple(_bracket(bracket, times) for bracket in resolved.brackets),
        drives={key: _drive(drive, times) for key, drive in resolved.drives.items()},
        extra_loads=tuple(
            replace(load, at_m=_grown(load.at_m, times)) for load in resolved.extra_loads
        ),
        trade=replace(resolved.trade, offers=_offers(resolved.trade, resolved.library, times)),
    )


def _cut_anew(
    table: PartColumns, assemblies: Sequence[Assembly], resolved: Resolved
) -> PartColumns:
    """Return parts of other sizes with blanks of those sizes, unless some part cannot be at all."""
    if any(unfit(table)):
        return table
    rows = resolved.chosen.of("parts")
    parts, _ = patterned(table.parts, rows, resolved.library, table.models)
    return table if len(parts) < len(table.parts) else columns(parts, assemblies, table.models)


def with_hours(resolved: Resolved, times: float) -> Resolved:
    """Return a job whose every activity takes so many times as long."""
    trade = resolved.trade
    activities = tuple(
        activity._replace(hours_each=Estimate(*(times * hours for hours in activity.hours_each)))
        for activity in trade.activities
    )
    return replace(resolved, trade=replace(trade, activities=activities))


def grows(part: Part) -> bool:
    """Return whether a part itself grows, not only its place."""
    given_mass = any(
        layer.over == "each" and layer.cell is not None and layer.cell.sheet == PARTS
        for layer in part.layers
    )
    bought = part.shape == "bought" or part.get_by == "buy"
    return not (bought or given_mass or part.cell.sheet == BRACKETS)


def unfit(table: PartColumns) -> Iterator[str]:
    """Return a sentence without a full stop for each part whose sizes cannot be."""
    for form, rows in table.shape_rows.items():
        if form not in table.models:
            for fault in faults(form, table.dims.taken(rows)):
                yield f"{table.parts[rows[fault.row]].key}: {fault.why}"


def _grown(at_m: Point, times: float) -> Point:
    across_m, up_m, out_m = at_m
    return times * across_m, times * up_m, times * out_m


def _along_wall(at_m: Point, times: float) -> Point:
    """Return a place on the wall; how far it stands out is not a matter of size."""
    across_m, up_m, out_m = at_m
    return times * across_m, times * up_m, out_m


def _part(part: Part, times: float) -> Part:
    if part.cell.sheet == BRACKETS:
        return replace(part, at_m=_along_wall(part.at_m, times))
    kind, spread_m, start_rad = part.set_out
    set_out = (kind, times * spread_m, start_rad)
    placed = replace(part, at_m=_grown(part.at_m, times), set_out=set_out)
    if not grows(part):
        return placed
    stays = KEPT | SECTIONS_OWN if part.shape == "section" else KEPT
    dims = tuple(
        size if name in stays else times * size
        for name, size in zip(DIMENSIONS, part.dims, strict=True)
    )
    return replace(placed, dims=dims, model=_name(part.model, times))


def _name(model: str, times: float) -> str:
    """Return what a model is called once it has grown: what is bought keeps the one it had."""
    return model and f"{model}, {times:g} times as large"


def _models(table: PartColumns, times: float) -> dict[str, Modelled]:
    """Return the models as they were, and those of the parts that grow."""
    wanted = {part.model for part in table.parts if part.model and grows(part)}
    return dict(table.models) | {
        _name(key, times): replace(
            table.models[key],
            key=_name(key, times),
            model=models.scaled(table.models[key].model, times),
            scale=times * table.models[key].scale,
        )
        for key in wanted
    }


def _assembly(assembly: Assembly, times: float) -> Assembly:
    ways = assembly.positions
    if assembly.moves == "slides":
        ways = tuple(times * way_m for way_m in ways)
    return replace(assembly, origin_m=_grown(assembly.origin_m, times), positions=ways)


def _bracket(bracket: Bracket, times: float) -> Bracket:
    return replace(bracket, root_m=_along_wall(bracket.root_m, times))


def _drive(drive: Drive, times: float) -> Drive:
    return replace(drive, radius_m=times * drive.radius_m)


def _offers(trade: Trade, library: Library, times: float) -> Mapping[Want, Sequence[Offer]]:
    """Return what is sold, and what bars are taken to cost that grew."""
    grown: dict[Want, Sequence[Offer]] = {}
    for want, offers in trade.offers.items():
        if want.form == BARS and (larger := _larger_bar(library, str(want.size), times)):
            key, ratio = larger
            grown[want._replace(size=key)] = [
                Offer(offer.size_m, ratio * offer.price) for offer in offers
            ]
    return {**grown, **trade.offers}


def _larger_bar(library: Library, key: str, times: float) -> tuple[str, float] | None:
    """Return a plain bar so many times as large, and how many times its kg/m are as much.

    None for a section of another kind, which does not grow, and for one that cannot be.
    """
    section = find_section(library, key)
    if isinstance(section, Miss) or section.family not in PLAIN_BARS:
        return None
    word, *names = PLAIN_BARS[section.family]
    sizes_m = [times * getattr(section, name) if name else section.wall_m for name in names]
    made = "HF" if section.hot else ""
    words = f"{made}{word} " + "x".join(f"{1000 * size_m:g}" for size_m in sizes_m)
    # A row of the table for such a bar has the same name as its closed form.
    larger = closed_form(words)
    return (larger.key, larger.area_m2 / section.area_m2) if larger else None
