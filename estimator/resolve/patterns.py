"""What each layer of sheet or bar is cut from, how it is formed and joined, and what that weighs.

Laps that a build-up does not type are counted from the joints between the pieces; a way of forming
that a part names changes the mass of its skin.
"""

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple, TypeVar

import numpy as np

from estimator.core.problems import Problem, Severity
from estimator.geometry import placing
from estimator.geometry.blanks import Making, blank, blank_of_model
from estimator.geometry.measures import Dims, Measures
from estimator.geometry.pieces import Blank, Cut, Joining, divided, fewest_pieces, slope_lap_m
from estimator.geometry.shapes import measure
from estimator.reference.allowances import Allowance, find_allowance
from estimator.reference.finding import Miss
from estimator.reference.forming import Forming, find_forming
from estimator.reference.joints import Joint, find_joint, usual_joint
from estimator.reference.library import Library
from estimator.reference.materials import Material, find_material
from estimator.resolve.layers import FITS, FLAT
from estimator.resolve.names import refusal
from estimator.resolve.records import Kind, Layer, Modelled, Part, Pattern, Seam, Spread
from estimator.resolve.trade import BARS, SHEETS
from estimator.sheets.rows import Row

MOST_PIECES = 10_000
"""More pieces than this of one part are a slip of the keyboard."""
STEEP_RAD = math.radians(60.0)
"""Slope that the joints of a body count as, since its faces lie at all slopes: program default."""
FLATTEST_RAD = math.radians(11.0)
"""Slope below which a face counts as level, and no lap keeps its cover."""
MOST_LAPS = 0.25
"""A larger share of laps is asked about: 5 to 15 % is common practice, no source."""
ONE_SLOPE = FLAT - {"dome"}
"""Shapes whose faces all lie at one slope."""
ROUND = frozenset({"sphere", "dome", "ellipsoid", "torus"})
"""Shapes that are round both ways, so that no flat sheet lies on them unless it is stretched."""
GORED = frozenset({"gores", "segments"})
"""Blanks that come near such a shape when they are bent one way only."""
FITTED = "fitted skin"
"""Allowance for a skin that is measured and not laid out."""
FROM_MODELS = frozenset({"mesh", "measured"})
ALIKE = 1e-6
"""Areas this share apart are taken as equal."""
_NO_ROW = Row("parts", 0, {}, {})

Found = TypeVar("Found")


class _Ways(NamedTuple):
    """How a part is made, as far as its row says."""

    row: Row
    forming: Forming | None
    joint: Joint | None
    pieces: int
    longest_m: float


@dataclass
class _Cutter:
    """Looks up how parts are formed and joined, and keeps what was found wrong."""

    library: Library
    models: Mapping[str, Modelled]
    problems: list[Problem] = field(default_factory=list)
    _joints: dict[tuple[str, float], Joint | Miss | None] = field(default_factory=dict)

    def patterned(self, part: Part, row: Row) -> Part | None:
        """Return a part with the patterns of its layers, or None when it cannot be cut so."""
        ways = _Ways(
            row,
            self._named(row, "forming", find_forming),
            self._named(row, "joint", find_joint),
            part.pieces,
            row.number("longest_piece", math.inf),
        )
        layers = tuple(self._layer(part, _plain(layer), ways) for layer in part.layers)
        if None in layers:
            return None
        return replace(part, layers=tuple(layer for layer in layers if layer))

    def _named(
        self, row: Row, column: str, find: Callable[[Library, str], Found | Miss]
    ) -> Found | None:
        """Return what a cell names; a name in vain is asked about, and counts as not said."""
        if not row.has(column):
            return None
        found = find(self.library, row.text(column))
        if not isinstance(found, Miss):
            return found
        self._ask(row, column, f"{found.sentence}, so it counts as not said", found.advice)
        return None

    def _ask(self, row: Row, column: str, found: str, advice: str) -> None:
        asked = refusal(row, column, found, "", advice)
        self.problems.append(replace(asked, severity=Severity.QUESTION))

    def _layer(self, part: Part, layer: Layer, ways: _Ways) -> Layer | None:
        """Return a layer with its pattern; None, with a problem, when it would be in crumbs."""
        if layer.form not in (SHEETS, BARS):
            return layer
        if FITS.get(layer.over) == "surface_mass":
            return self._skin(part, layer, ways)
        flat = self._blank(part, layer, ways)
        if self._crumbs(flat, ways):
            return None
        cut = divided(flat, Joining(ways.pieces, ways.longest_m))
        self._too_long(cut, ways)
        return replace(layer, pattern=Pattern(flat, cut, roll_way=_roll_way(ways)))

    def _blank(self, part: Part, layer: Layer, ways: _Ways) -> Blank:
        """Return the blank of one skin of one part, or of the bar."""
        if part.model:
            return blank_of_model(self.models[part.model].model)
        skin = FITS.get(layer.over) == "surface_mass"
        gauge_m = 0.0 if math.isnan(layer.thickness_m) else layer.thickness_m
        bent = ways.forming is not None and ways.forming.bent
        making = Making(gauge_m, ways.pieces, layer.over if skin else "", bent)
        plate = layer.form == SHEETS and not skin
        return blank("sheet" if plate else part.shape, _dims(part), making)

    def _crumbs(self, flat: Blank, ways: _Ways) -> bool:
        """Return whether the longest piece would make more pieces than can be laid out."""
        number = fewest_pieces(flat, ways.longest_m)
        if number <= MOST_PIECES:
            return False
        found = f"pieces so short would be {number} of them, and cannot be laid out one by one"
        wanted = f"pieces long enough to make {MOST_PIECES} at most"
        advice = "look whether that is what you mean"
        self.problems.append(refusal(ways.row, "longest_piece", found, wanted, advice))
        return True

    def _skin(self, part: Part, layer: Layer, ways: _Ways) -> Layer | None:
        """Return a layer of sheet over a face with its pattern, its laps and its forming."""
        measures = self._measures(part)
        over_m2 = _size(measures, layer.over)
        flat = self._blank(part, layer, ways)
        of_m2 = flat.area_m2 if flat.kind in ("faces", "net") else _size(measures, "one face")
        copies = round(over_m2 / of_m2) if of_m2 > 0 else 0
        if layer.covers < 1.0:
            flat, of_m2, copies = _unlaid(over_m2, "it covers only a share of what it lies over")
        elif not copies or abs(copies * of_m2 - over_m2) > ALIKE * over_m2:
            flat, of_m2, copies = _unlaid(over_m2, "it covers ends that are not laid out")
        self._round_both_ways(part, flat, ways)
        if self._crumbs(flat, ways):
            return None
        developed = flat.area_m2 / of_m2 if of_m2 > 0 else 1.0
        seam = self._seam(part, layer, ways)
        skin = _Skin(part, layer, flat, copies, copies * of_m2 * part.relief * layer.covers)
        pattern = _pattern(skin, ways, seam)._replace(spare=self._spare(part, layer))
        self._too_long(pattern.cut, ways)
        self._limit(layer, pattern, ways)
        self._lapped(pattern, ways)
        return _weighed(layer, pattern, developed)

    def _round_both_ways(self, part: Part, flat: Blank, ways: _Ways) -> None:
        """Ask about a body round both ways that is to be bent one way only, and not in gores."""
        if ways.forming and ways.forming.bent and part.shape in ROUND and flat.kind not in GORED:
            found = f"this {part.shape} is round both ways, and what is {ways.forming.key} is not"
            advice = "type how it is hammered or spun; a ball or a ring can also be bent in pieces"
            self._ask(ways.row, "forming", found, advice)

    def _measures(self, part: Part) -> Measures:
        if part.model:
            return self.models[part.model].model.measures
        return measure(part.shape, _dims(part))

    def _seam(self, part: Part, layer: Layer, ways: _Ways) -> Seam:
        """Return how the pieces of a sheet are joined: as its row says, or as is usual."""
        slope_rad = _slope_rad(part)
        counted_rad = STEEP_RAD if math.isnan(slope_rad) else slope_rad
        joint = ways.joint or self._usual(layer.material, counted_rad)
        if isinstance(joint, Miss):
            self._ask(ways.row, "joint", f"{joint.sentence}, so joints take nothing", joint.advice)
            joint = None
        if joint is None:
            return Seam(slope_rad=slope_rad)
        low_m, high_m = joint.low_m, joint.high_m
        if joint.by_slope:
            low_m = high_m = slope_lap_m(max(counted_rad, FLATTEST_RAD))
        return Seam(joint.key, low_m, high_m, joint.stays, slope_rad, str(joint.citation))

    def _usual(self, material: str, slope_rad: float) -> Joint | Miss | None:
        """Return the usual joint of a material on a slope, looked up once."""
        key = (material, slope_rad)
        if key not in self._joints:
            found = find_material(self.library, material)
            family = found.family if isinstance(found, Material) else ""
            self._joints[key] = usual_joint(self.library, family, slope_rad)
        return self._joints[key]

    def _too_long(self, cut: Cut, ways: _Ways) -> None:
        """Ask about a longest piece that no division keeps to."""
        if cut.longest_m > ways.longest_m * (1 + ALIKE):
            found = f"its pieces come out {1000 * cut.longest_m:.0f} mm long all the same"
            advice = "type a longer one; a ring or a cone is cut in arcs alone: make it two parts"
            self._ask(ways.row, "longest_piece", found, advice)

    def _limit(self, layer: Layer, pattern: Pattern, ways: _Ways) -> None:
        """Ask about pieces longer than their joint is made for."""
        found = find_joint(self.library, pattern.seam.joint)
        if not isinstance(found, Joint) or pattern.cut.longest_m <= found.longest_m * (1 + ALIKE):
            return
        self._ask(
            ways.row,
            "longest_piece",
            f"{layer.material} in pieces of {1000 * pattern.cut.longest_m:.0f} mm; they are to be "
            f"{1000 * found.longest_m:.0f} mm at the most ({found.limit})",
            f"type {1000 * found.longest_m:.0f} mm under longest piece, or more pieces",
        )

    def _lapped(self, pattern: Pattern, ways: _Ways) -> None:
        """Ask about laps that would count in the mass and are more than anybody makes."""
        counts = pattern.seam.stays and not pattern.laps_typed
        if counts and pattern.joint_share > MOST_LAPS:
            self._ask(
                ways.row,
                "joint",
                f"laps worked out for {pattern.seam.joint} are {100 * pattern.joint_share:.0f} % of"
                " the skin, and count in its mass",
                "name the joint it has, or type its laps in a build-up",
            )

    def _spare(self, part: Part, layer: Layer) -> float:
        """Return the extra to buy of what is not laid out: as typed, or as the tables have it."""
        if layer.waste or part.shape not in FROM_MODELS:
            return layer.waste
        found = find_allowance(self.library, FITTED)
        return (found.low + found.high) / 200 if isinstance(found, Allowance) else 0.0


class _Skin(NamedTuple):
    """A layer of sheet with its blank and its finished area."""

    part: Part
    layer: Layer
    flat: Blank
    copies: int
    finished_m2: float


def patterned(
    parts: Iterable[Part],
    rows: Iterable[Row],
    library: Library,
    models: Mapping[str, Modelled],
) -> tuple[list[Part], list[Problem]]:
    """Return parts with what their sheets and bars are cut from, and what is to be asked.

    A part that would be in too many pieces is refused. Parts that have patterns already are given
    new ones, as after their sizes were changed.

    Args:
        parts: As looked up.
        rows: Rows of the parts sheet; a part without one is made as is usual.
        library: The lookup tables.
        models: Models by key.
    """
    cutter = _Cutter(library, models)
    by_cell = {row.cell("part"): row for row in rows}
    made = [cutter.patterned(part, by_cell.get(part.cell, _NO_ROW)) for part in parts]
    return [part for part in made if part is not None], cutter.problems


def _plain(layer: Layer) -> Layer:
    """Return a layer as it was before it had a pattern."""
    if layer.pattern is None:
        return layer
    spreads = tuple(s for s in layer.spreads if s.kind not in (Kind.FORMING, Kind.LAPS))
    laps = layer.laps if layer.pattern.laps_typed else 0.0
    return replace(layer, formed=1.0, laps=laps, spreads=spreads, pattern=None)


def _dims(part: Part) -> Dims:
    return Dims(*(np.array([size]) for size in part.dims))


def _size(measures: Measures, over: str) -> float:
    region = measures.over(over)
    return 0.0 if region is None else float(region.size[0])


def _unlaid(area_m2: float, why: str) -> tuple[Blank, float, int]:
    """Return an area to buy in place of a blank."""
    return Blank("area", (), area_m2, f"not laid out: {why}"), area_m2, 1


def _roll_way(ways: _Ways) -> str:
    way = ways.row.text("roll_way", "any")
    return "" if way == "any" else way


def _slope_rad(part: Part) -> float:
    """Return the slope of a flat part from level as it is drawn; NaN for a body."""
    if part.shape not in ONE_SLOPE:
        return math.nan
    stands = placing.rotation(*part.angles_rad) @ placing.pointing(*part.pointing)
    return math.acos(min(1.0, abs(float(stands[placing.AXES["up"], 2]))))


def _pattern(skin: _Skin, ways: _Ways, seam: Seam) -> Pattern:
    """Return the pattern of a skin: its blank stretched by hammering and trim, and divided."""
    part, layer = skin.part, skin.layer
    moved = ways.forming.mass_likely if ways.forming else 1.0
    trim = ways.forming.trim if ways.forming else 0.0
    net_m2 = skin.copies * skin.flat.area_m2 * part.relief * moved * layer.covers
    typed = layer.laps > 0.0
    grown = skin.flat.scaled(math.sqrt(part.relief * moved * (1 + trim) * (1 + layer.laps)))
    allowance_m = 0.0 if typed else seam.allowance_m
    cut: Cut = divided(grown, Joining(ways.pieces, ways.longest_m, allowance_m))
    spare = math.sqrt((1 + trim) * (1 + layer.laps))  # what the blank is longer than the skin by
    joint_m2 = skin.copies * cut.joint_m / spare * seam.allowance_m
    return Pattern(
        skin.flat,
        cut,
        skin.copies,
        skin.finished_m2,
        net_m2 * (1 + trim),
        net_m2 * trim,
        seam,
        joint_m2 / skin.finished_m2,
        typed,
        ways.forming,
        roll_way=_roll_way(ways),
    )


def _weighed(layer: Layer, pattern: Pattern, developed: float) -> Layer:
    """Return a layer with the mass that its forming and its joints give it."""
    formed, laps, spreads = 1.0, layer.laps, list(layer.spreads)
    forming, seam = pattern.forming, pattern.seam
    if forming is not None:
        formed = forming.mass_likely * developed
        spreads += _spread(
            f"forming: {forming.key}",
            (forming.mass_low, forming.mass_likely, forming.mass_high),
            Kind.FORMING,
            str(forming.citation),
        )
    if seam.stays and not pattern.laps_typed and pattern.joint_share > 0:
        laps = pattern.joint_share
        ends = (1 + laps * end_m / seam.allowance_m for end_m in (seam.low_m, seam.high_m))
        low, high = ends
        spreads += _spread(f"laps: {seam.joint}", (low, 1 + laps, high), Kind.LAPS, seam.why)
    return replace(layer, formed=formed, laps=laps, spreads=tuple(spreads), pattern=pattern)


def _spread(cause: str, ends: tuple[float, float, float], kind: Kind, why: str) -> Sequence[Spread]:
    """Return a spread of a factor; none where it has no range."""
    low, likely, high = ends
    if low == high:
        return ()
    return (Spread(cause, (likely - low) / likely, (high - likely) / likely, kind, likely, why),)
