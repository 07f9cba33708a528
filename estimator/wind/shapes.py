"""Which rule each shape goes by: shape -> coefficients for print, and elements for the wind.

In a shape's own frame: along its length, beside, and the way it faces.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from math import cos, nan, pi, sin, sqrt
from types import MappingProxyType
from typing import NamedTuple

from estimator.wind.boards import SIGNBOARD
from estimator.wind.coefficients import (
    CLOSED_FIGURE,
    SPHERE_NEAR_GROUND,
    SPHERE_UPLIFT,
    Bar,
    Tube,
    cylinder,
    figure,
    flat_plate,
    rectangular_bar,
    sharp_section,
    sphere,
)
from estimator.wind.elements import NOWHERE, Panel, Round, stall_of
from estimator.wind.handbook import books
from estimator.wind.porous import panel
from estimator.wind.records import Coefficient, Vector
from estimator.wind.sided import bar_end, bowl, cone_end, edge_of_bowl, profile_m2

ALONG: Vector = (1.0, 0.0, 0.0)
BESIDE: Vector = (0.0, 1.0, 0.0)
FACES: Vector = (0.0, 0.0, 1.0)
RING_LENGTHS = 24
"""A hoop is cut in so many straight lengths; the wind on it is then within 0.1 % of a circle's."""
FAR_UP_M = 1e6
"""Clearance of a ball whose rule near the ground is looked at elsewhere."""


_BLOCK_RIVALS = (
    ("as a closed figure", CLOSED_FIGURE),
    ("signboard, EN 1991-1-4 7.4.3", SIGNBOARD),
    *books("cube, face to the wind"),
)
"""What else could be said of any box."""


class Book(NamedTuple):
    """The rule book that bars, plates and boxes go by; what no book has goes by handbooks.

    Attributes:
        plate: Two sides and what is closed of it, on the whole area.
        tube: A round bar across the wind, at the speed of it.
        bar: A rectangular bar.
        sharp: Length and width of an open, sharp-edged section.
        box: One face of a box by its two sides, its depth and the radius of its corners; with how
            much of its width the force may wander by, in that of a board.
        polygon: The coefficient of EN 1991-1-4, the number of sides, and length over width.
    """

    plate: Callable[[float, float, float], Coefficient]
    tube: Callable[[Tube, float], Coefficient]
    bar: Callable[[Bar], Coefficient]
    sharp: Callable[[float, float], Coefficient]
    box: Callable[[tuple[float, float, float], float], tuple[Coefficient, float]]
    polygon: Callable[[Coefficient, int, float], Coefficient]


def _box_face(sides_m: tuple[float, float, float], corner_m: float) -> tuple[Coefficient, float]:
    """Return one face of a box: as a short bar, or end-on, whichever is more."""
    one_m, other_m, deep_m = sides_m
    ways = (
        rectangular_bar(Bar(max(one_m, other_m), min(one_m, other_m), deep_m, corner_m)),
        bar_end(deep_m, sqrt(4 * one_m * other_m / pi)),
    )
    less, more = sorted(ways, key=lambda way: way.value)
    others = (*more.others, (less.rule, less.value), *_BLOCK_RIVALS)
    return replace(more, others=others), 1.0


EUROCODE = Book(
    plate=lambda long_m, wide_m, closed: panel(flat_plate(long_m, wide_m), closed),
    tube=cylinder,
    bar=rectangular_bar,
    sharp=sharp_section,
    box=_box_face,
    polygon=lambda found, _sides, _slenderness: found,
)
"""EN 1991-1-4."""


class Body(NamedTuple):
    """A part as the wind sees it; NaN for a size it does not have.

    Attributes:
        length_m: Along.
        width_m: Beside.
        depth_m: The way it faces.
        diameter_m: Across, or at the near end, or over all.
        bore_m: Of a ring.
        end_diameter_m: At the far end, or of the bar a hoop is bent from.
        angle_rad: Of a sector.
        corner_m: Outside radius of its corners.
        roughness_m: Of its surface.
        face_m2: Of what is flat, one side, with its openings.
        solidity: What of its outline is left after cutting away; of a flat outline what of it is
            closed.
        closed: A dome has a flat back.
        family: Of a rolled section.
        speed_m_s: Peak speed of the wind at its height.
        book: What it goes by.
    """

    length_m: float = nan
    width_m: float = nan
    depth_m: float = nan
    diameter_m: float = nan
    bore_m: float = nan
    end_diameter_m: float = nan
    angle_rad: float = nan
    corner_m: float = 0.0
    roughness_m: float = nan
    face_m2: float = nan
    solidity: float = 1.0
    closed: bool = False
    family: str = ""
    speed_m_s: float = 1.0
    book: Book = EUROCODE


class Side(NamedTuple):
    """One way the wind meets a part.

    Attributes:
        meets: In words.
        area_m2: What the coefficient is on; NaN for the outline, which changes with the direction.
        coefficient: With its rule and its rivals.
    """

    meets: str
    area_m2: float
    coefficient: Coefficient


class Caught(NamedTuple):
    """How a part catches the wind.

    Attributes:
        sides: Every way the wind meets it, the main one first.
        panels: Its flat sides; none of what goes by its outline.
        rounds: Its round lengths.
    """

    sides: tuple[Side, ...]
    panels: tuple[Panel, ...] = ()
    rounds: tuple[Round, ...] = ()

    @property
    def by_outline(self) -> bool:
        """Return whether it is pushed along the wind on the outline it shows."""
        return not self.panels and not self.rounds


def caught(shape: str, body: Body) -> Caught:
    """Return how a part catches the wind, by the rule for its shape.

    Args:
        shape: One of `RULES`.
        body: Its sizes.
    """
    return RULES[shape](body)


def _plate(body: Body) -> Caught:
    sides_m = plate_sides(body)
    coefficient = body.book.plate(*sides_m, body.solidity)
    across_m = body.diameter_m if body.diameter_m > 0 else 0.0
    long_m, wide_m = (across_m, across_m) if across_m else (body.length_m, body.width_m)
    spread = (times(long_m, ALONG), times(wide_m, BESIDE))
    value = coefficient.value
    flat = Panel(body.face_m2, FACES, value, value, spread_m=spread, rounded=across_m > 0)
    return Caught((Side("face on", body.face_m2, coefficient),), (flat,))


def plate_sides(body: Body) -> tuple[float, float]:
    """Return the two sides of the plate that a flat part is like: a ring is a bent strip.

    What tapers is as wide as its area asks for.
    """
    if body.length_m > 0:
        return body.length_m, min(body.width_m, body.face_m2 / body.length_m)
    if not body.bore_m > 0:
        return body.diameter_m, body.diameter_m
    angle_rad = body.angle_rad if body.angle_rad > 0 else 2 * pi
    return angle_rad * (body.diameter_m + body.bore_m) / 4, (body.diameter_m - body.bore_m) / 2


def _bowl(body: Body) -> Caught:
    found = bowl(body.diameter_m, body.depth_m, closed=body.closed)
    front, back = (panel(side, body.solidity) for side in found)
    edge = edge_of_bowl()
    disc_m2, profile = pi * body.diameter_m**2 / 4, profile_m2(body.diameter_m, body.depth_m)
    spread = (times(body.diameter_m, ALONG), times(body.diameter_m, BESIDE))
    face = Panel(disc_m2, FACES, front.value, back.value, spread_m=spread, rounded=True)
    return Caught(
        (
            Side(
                "flat side to the wind" if body.closed else "open side to the wind", disc_m2, back
            ),
            Side("dome to the wind", disc_m2, front),
            Side("edge to the wind", profile, edge),
        ),
        (face,),
        (Round(body.solidity * profile, edge.value, FACES),),
    )


def _round_bar(body: Body) -> Caught:
    coefficient = body.book.tube(_tube(body, body.length_m, body.diameter_m), body.speed_m_s)
    side_m2 = body.length_m * body.diameter_m
    end, end_m2 = bar_end(body.length_m, body.diameter_m), pi * body.diameter_m**2 / 4
    return Caught(
        (Side("across the wind", side_m2, coefficient), Side("end to the wind", end_m2, end)),
        (end_panel(body.solidity * end_m2, ALONG, (end, end)),),
        (Round(body.solidity * side_m2, coefficient.value, ALONG),),
    )


def _cone(body: Body) -> Caught:
    far_m = body.end_diameter_m if body.end_diameter_m > 0 else 0.0
    base_m, tip_m = max(body.diameter_m, far_m), min(body.diameter_m, far_m)
    across = body.book.tube(_tube(body, body.length_m, base_m), body.speed_m_s)
    side_m2 = body.length_m * (base_m + tip_m) / 2
    point, base = cone_end(body.length_m, base_m, tip_m)
    # It narrows along its own axis unless its far end is the wider.
    pointing = times(1.0 if body.diameter_m >= far_m else -1.0, ALONG)
    base_m2 = pi * base_m**2 / 4
    return Caught(
        (
            Side("across the wind", side_m2, across),
            Side("point to the wind", base_m2, point),
            Side("base to the wind", base_m2, base),
        ),
        (end_panel(body.solidity * base_m2, pointing, (point, base)),),
        (Round(body.solidity * side_m2, across.value, ALONG),),
    )


_Section = Callable[[Body, float, float], Coefficient]
"""Of a bar: itself, its width across the wind and its depth along it."""


def _rectangle(body: Body, wide_m: float, deep_m: float) -> Coefficient:
    return body.book.bar(Bar(body.length_m, wide_m, deep_m, body.corner_m))


def _sharp(body: Body, wide_m: float, _deep_m: float) -> Coefficient:
    return body.book.sharp(body.length_m, wide_m)


def _bar(section: _Section) -> Callable[[Body], Caught]:
    """Return the rule for bars of a section, each side by its own width."""

    def rule(body: Body) -> Caught:
        """Return what a bar catches from the side, on its edge and on its end."""
        length_m, wide_m, deep_m = body.length_m, body.width_m, body.depth_m
        faced, edged = section(body, wide_m, deep_m), section(body, deep_m, wide_m)
        end_m2 = wide_m * deep_m
        end = bar_end(length_m, sqrt(4 * end_m2 / pi))
        sides = (
            Side("width across the wind", length_m * wide_m, faced),
            Side("depth across the wind", length_m * deep_m, edged),
            Side("end to the wind", end_m2, end),
        )
        left = body.solidity
        return Caught(
            sides,
            (
                long_side(left * length_m * wide_m, faced, (FACES, ALONG), deep_m / wide_m),
                long_side(left * length_m * deep_m, edged, (BESIDE, ALONG), wide_m / deep_m),
                end_panel(left * end_m2, ALONG, (end, end)),
            ),
        )

    return rule


def _section(body: Body) -> Caught:
    """Return how a rolled section catches the wind: round, rectangular or sharp-edged."""
    return _FAMILIES.get(body.family, _bar(_sharp))(
        body if body.diameter_m > 0 else body._replace(diameter_m=body.width_m)
    )


def _block(body: Body) -> Caught:
    """Return how a box catches the wind: each of its three faces, by itself."""
    edges = ((body.length_m, ALONG), (body.width_m, BESIDE), (body.depth_m, FACES))
    faces = [
        _block_face(body, edges[deep], (edges[deep - 1], edges[deep - 2])) for deep in _FACE_WORDS
    ]
    return Caught(
        tuple(Side(words, face.area_m2 / body.solidity, found)
              for words, (face, found) in zip(_FACE_WORDS.values(), faces, strict=True)),
        tuple(face for face, _ in faces),
    )  # fmt: skip


_FACE_WORDS = {2: "face on", 0: "end to the wind", 1: "top or underside to the wind"}
"""Which edge of a box lies along the wind, and how the wind then meets it."""
_Edge = tuple[float, Vector]


def _block_face(body: Body, deep: _Edge, across: tuple[_Edge, _Edge]) -> tuple[Panel, Coefficient]:
    """Return one face of a box by the book."""
    (deep_m, normal), (one_m, one), (other_m, other) = deep, *across
    area_m2, width_m = one_m * other_m, min(one_m, other_m)
    found, wanders = body.book.box((one_m, other_m, deep_m), body.corner_m)
    value, spread = found.value, (times(wanders * one_m, one), times(wanders * other_m, other))
    stall = stall_of(deep_m / width_m)
    return Panel(body.solidity * area_m2, normal, value, value, NOWHERE, stall, spread), found


def _ring(body: Body) -> Caught:
    """Return how a bent bar catches the wind: straight lengths round a circle, none sheltered."""
    if body.end_diameter_m > 0:
        return _round_ring(body)
    middle_m = body.diameter_m - body.depth_m
    length_m = pi * middle_m
    straight = body._replace(length_m=length_m)
    faced = _rectangle(straight, body.depth_m, body.width_m)
    edged = _rectangle(straight, body.width_m, body.depth_m)
    share = body.solidity * length_m / RING_LENGTHS
    panels = [
        side
        for tangent, out in _round_the_ring()
        for side in (
            long_side(share * body.depth_m, faced, (FACES, tangent), body.width_m / body.depth_m),
            long_side(share * body.width_m, edged, (out, tangent), body.depth_m / body.width_m),
        )
    ]
    return Caught(
        (
            Side("ring face on, all round", length_m * body.depth_m, faced),
            Side("ring edge on, where it crosses the wind", length_m * body.width_m, edged),
        ),
        tuple(panels),
    )


def _round_ring(body: Body) -> Caught:
    length_m = pi * (body.diameter_m - body.end_diameter_m)
    coefficient = body.book.tube(_tube(body, length_m, body.end_diameter_m), body.speed_m_s)
    side_m2 = length_m * body.end_diameter_m
    rounds = tuple(
        Round(body.solidity * side_m2 / RING_LENGTHS, coefficient.value, tangent)
        for tangent, _ in _round_the_ring()
    )
    return Caught((Side("across the wind, all round", side_m2, coefficient),), (), rounds)


def _round_the_ring() -> Sequence[tuple[Vector, Vector]]:
    """Return the way along each length of a ring, and out of it."""
    turns = (2 * pi * (i + 0.5) / RING_LENGTHS for i in range(RING_LENGTHS))
    return [((-sin(turn), cos(turn), 0.0), (cos(turn), sin(turn), 0.0)) for turn in turns]


def _ball(body: Body) -> Caught:
    coefficient = sphere(body.diameter_m, FAR_UP_M)
    told = coefficient.rule + (
        f"; with less than half its diameter below it {SPHERE_NEAR_GROUND:g} times that, and "
        f"{SPHERE_UPLIFT:g} upwards"
    )
    disc_m2 = pi * body.diameter_m**2 / 4
    found = replace(coefficient, rule=told)
    return Caught(
        (Side("from any side", disc_m2, found),),
        (),
        (Round(body.solidity * disc_m2, found.value, NOWHERE, body.diameter_m),),
    )


def _figure(*, hollows: bool) -> Callable[[Body], Caught]:
    """Return the rule for what goes by the outline it shows."""
    return lambda _: Caught((Side("on the outline it shows", nan, figure(hollows=hollows)),))


def _tube(body: Body, length_m: float, diameter_m: float) -> Tube:
    tube = Tube(length_m, diameter_m)
    return tube._replace(roughness_m=body.roughness_m) if body.roughness_m > 0 else tube


def end_panel(area_m2: float, normal: Vector, on: tuple[Coefficient, Coefficient]) -> Panel:
    """Return the end of a bar: front and back have a coefficient each."""
    return Panel(area_m2, normal, on[0].value, on[1].value, stall_rad=0.0)


def long_side(area_m2: float, on: Coefficient, axes: tuple[Vector, Vector], deep: float) -> Panel:
    """Return a long side of a bar, by its normal and the way of the bar, and how deep it is."""
    normal, along = axes
    return Panel(area_m2, normal, on.value, on.value, along, stall_of(deep))


def times(size_m: float, axis: Vector) -> Vector:
    """Return a size along an axis as a vector."""
    return size_m * axis[0], size_m * axis[1], size_m * axis[2]


_FAMILIES: Mapping[str, Callable[[Body], Caught]] = MappingProxyType(
    {
        **dict.fromkeys(("Round", "CHS"), _round_bar),
        **dict.fromkeys(("Flat", "SHS", "RHS"), _bar(_rectangle)),
    }
)
"""Rolled sections that are not sharp-edged open ones."""

RULES: Mapping[str, Callable[[Body], Caught]] = MappingProxyType(
    {
        **dict.fromkeys(("sheet", "disc", "ring", "sector", "blade", "leaf", "outline"), _plate),
        "dome": _bowl,
        **dict.fromkeys(("rod", "tube", "formed"), _round_bar),
        "cone": _cone,
        **dict.fromkeys(("flat", "hollow"), _bar(_rectangle)),
        "section": _section,
        "box": _block,
        **dict.fromkeys(("hoop", "torus"), _ring),
        "sphere": _ball,
        **dict.fromkeys(("ellipsoid", "run", "bought"), _figure(hollows=False)),
        **dict.fromkeys(("mesh", "measured"), _figure(hollows=True)),
    }
)
"""Every shape of the workbook."""
