"""What a maker says a part is to the wind, where its shape does not say it: a column of its row."""

from collections.abc import Callable, Mapping
from functools import partial
from math import nan
from types import MappingProxyType
from typing import NamedTuple

from estimator.wind.asce7_frames import (
    SOLIDITIES,
    diagonal_factor,
    lattice_tower,
    open_sign,
    round_members_factor,
)
from estimator.wind.coefficients import flat_plate
from estimator.wind.elements import Panel, Round
from estimator.wind.polygons import SIDES, polygonal_bar
from estimator.wind.porous import RULES as PANELS
from estimator.wind.records import Coefficient
from estimator.wind.shapes import (
    ALONG,
    BESIDE,
    FACES,
    Body,
    Caught,
    Side,
    end_panel,
    long_side,
    plate_sides,
    times,
)
from estimator.wind.sided import bar_end, edge_of_bowl, half_tube

NO_DEPTH_STALLS = 1.0
"""Depth over width of a side whose force falls with the cosine from the first."""
_WHOLE = 0.999
"""A lattice is never closed all over: what is not cut away is all but this."""


def _width_m(body: Body) -> float:
    """Return how wide a part is across its length: its width, or its diameter."""
    return body.width_m if body.width_m > 0 else body.diameter_m


def _half_tube(body: Body) -> Caught:
    """Return how a half tube catches the wind: it bulges the way it faces."""
    wide_m, sides, edge = _width_m(body), half_tube(), edge_of_bowl()
    deep_m = body.depth_m if body.depth_m > 0 else wide_m / 2
    face_m2, edge_m2 = body.length_m * wide_m, body.length_m * deep_m
    face = Panel(
        body.solidity * face_m2, FACES, sides.front.value, sides.back.value, ALONG,
        spread_m=(times(body.length_m, ALONG), times(wide_m, BESIDE)),
    )  # fmt: skip
    return Caught(
        (
            Side("hollow to the wind", face_m2, sides.back),
            Side("round side to the wind", face_m2, sides.front),
            Side("edge to the wind", edge_m2, edge),
        ),
        (face, long_side(body.solidity * edge_m2, edge, (BESIDE, ALONG), NO_DEPTH_STALLS)),
    )


def _polygon(sides: int, body: Body) -> Caught:
    wide_m = _width_m(body)
    coefficient = body.book.polygon(polygonal_bar(sides, body.length_m, wide_m), sides,
                                    body.length_m / wide_m)  # fmt: skip
    side_m2, end_m2 = body.length_m * wide_m, wide_m**2
    end = bar_end(body.length_m, wide_m)
    return Caught(
        (Side("across the wind", side_m2, coefficient), Side("end to the wind", end_m2, end)),
        (end_panel(body.solidity * end_m2, ALONG, (end, end)),),
        (Round(body.solidity * side_m2, coefficient.value, ALONG),),
    )


def _tower(body: Body, *, rounds: bool) -> Caught:
    """Return how a lattice tower catches the wind, on what is closed of one face."""
    closed = min(body.solidity, _WHOLE)
    face = lattice_tower("square", closed)
    value = face.value * diagonal_factor(closed) * (round_members_factor(closed) if rounds else 1.0)
    coefficient = Coefficient(
        value,
        f"{face.rule}, wind along the diagonal of its plan" + (", round members" * rounds),
        face.source,
        face.confirmed,
        others=(
            ("face to the wind, flat members", face.value),
            ("triangle in plan, flat members", lattice_tower("triangle", closed).value),
        ),
    )
    wide_m = max(_width_m(body), body.depth_m if body.depth_m > 0 else 0.0)
    closed_m2 = closed * body.length_m * wide_m
    return Caught(
        (Side("what is closed of one face, from any side", closed_m2, coefficient),),
        (),
        (Round(closed_m2, value, ALONG),),
    )


def _wires(body: Body) -> Caught:
    """Return how a panel of round wires catches the wind: the larger of two rules in print."""
    solid = flat_plate(*plate_sides(body))
    mesh = PANELS["round wires"]
    closed = min(body.solidity, SOLIDITIES[-1])
    frame = open_sign(closed, "round")
    ways = (
        (mesh.name, mesh.value(solid.value, body.solidity), mesh.source),
        (frame.rule, frame.value * body.solidity, frame.source),
    )
    (rule, value, source), (other, less, _) = sorted(ways, key=lambda way: way[1], reverse=True)
    coefficient = Coefficient(
        value, f"{body.solidity:.0%} closed, {rule}", source, confirmed=True,
        others=((other, less), ("the same without openings", solid.value)),
    )  # fmt: skip
    across_m = body.diameter_m if body.diameter_m > 0 else nan
    long_m, wide_m = (across_m, across_m) if across_m > 0 else (body.length_m, body.width_m)
    flat = Panel(body.face_m2, FACES, value, value, rounded=across_m > 0,
                 spread_m=(times(long_m, ALONG), times(wide_m, BESIDE)))  # fmt: skip
    return Caught((Side("face on", body.face_m2, coefficient),), (flat,))


class Likeness(NamedTuple):
    """Something that a part may be like.

    Attributes:
        catches: How the wind is caught by it.
        long: It has a length; if not, it is a flat thing.
    """

    catches: Callable[[Body], Caught]
    long: bool = True


LIKENESSES: Mapping[str, Likeness] = MappingProxyType(
    {
        "half tube": Likeness(_half_tube),
        **{f"{sides} sides": Likeness(partial(_polygon, sides)) for sides in SIDES},
        "lattice tower": Likeness(partial(_tower, rounds=False)),
        "lattice tower of rounds": Likeness(partial(_tower, rounds=True)),
        "round wires": Likeness(_wires, long=False),
    }
)
"""What the column of the parts sheet has to choose from."""
FLATS = frozenset({"sheet", "disc", "ring", "sector", "blade", "leaf", "outline"})
"""Shapes of the workbook that can be a panel of wires."""


def unlike(likeness: str, shape: str, sizes: Mapping[str, float]) -> str:
    """Return why a part cannot be like that to the wind; blank where it can.

    Args:
        likeness: One of `LIKENESSES`.
        shape: Of the workbook.
        sizes: Length, width and diameter by these names, NaN for what it has not.
    """
    if not LIKENESSES[likeness].long:
        return "" if shape in FLATS else f"a {shape} is no flat panel"
    if sizes["length"] > 0 and (sizes["width"] > 0 or sizes["diameter"] > 0):
        return ""
    return f"a {shape} of these sizes has no length with a width or diameter across it"
