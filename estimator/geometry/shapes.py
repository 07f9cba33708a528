"""The shapes by name: what each needs to be given, what cannot be, and what it measures."""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from estimator.geometry import bent, flat, solids, turned
from estimator.geometry.measures import Dims, Floats, Measures, given

UP_TO, BELOW = 1e-9, -1e-9
"""How far, in parts of the limit, a dimension may go over it: it may be reached, or it may not."""


class Limit(NamedTuple):
    """A dimension that another one limits.

    Attributes:
        dimension: The one that is limited.
        most_m: The most it can be, from the others.
        why: What holds, as the end of a sentence about the shape.
        slack: `UP_TO` or `BELOW`.
    """

    dimension: str
    most_m: Callable[[Dims], Floats]
    why: str
    slack: float = BELOW


class Shape(NamedTuple):
    """A shape.

    Attributes:
        measure: Its regions and envelope.
        needs: Dimensions it must be given, above zero.
        takes: Dimensions it may be given; blank counts as its measure says.
        limits: What cannot be.
    """

    measure: Callable[[Dims], Measures]
    needs: tuple[str, ...]
    takes: tuple[str, ...] = ()
    limits: tuple[Limit, ...] = ()


class Fault(NamedTuple):
    """A dimension that will not do.

    Attributes:
        row: Which of the n parts.
        dimension: The dimension, as `Shape.needs` names it.
        why: A sentence without a full stop.
    """

    row: int
    dimension: str
    why: str


BORE = Limit("bore", lambda d: d.diameter_m, "must have a bore smaller than its diameter")

SHAPES = {
    "sheet": Shape(flat.sheet, ("length", "width")),
    "disc": Shape(flat.disc, ("diameter",), ("bore",), (BORE,)),
    "ring": Shape(flat.ring, ("diameter", "bore"), (), (BORE,)),
    "sector": Shape(
        flat.sector,
        ("diameter", "angle"),
        ("bore",),
        (
            BORE,
            Limit(
                "angle",
                lambda d: np.full_like(d.angle_rad, 2 * np.pi),
                "must have an angle of at most 360 degrees",
                UP_TO,
            ),
        ),
    ),
    "blade": Shape(flat.blade, ("length", "width"), ("end_width",)),
    "leaf": Shape(flat.leaf, ("length", "width")),
    "box": Shape(solids.box, ("length", "width", "depth")),
    "flat": Shape(solids.flat, ("length", "width", "depth")),
    "rod": Shape(solids.rod, ("length", "diameter")),
    "tube": Shape(
        solids.tube,
        ("length", "diameter", "wall"),
        (),
        (
            Limit(
                "wall",
                lambda d: d.diameter_m / 2,
                "must have a wall thinner than half its diameter",
            ),
        ),
    ),
    "hollow": Shape(
        solids.hollow,
        ("length", "width", "depth", "wall"),
        (),
        (
            Limit(
                "wall",
                lambda d: np.minimum(d.width_m, d.depth_m) / 2,
                "must have a wall thinner than half its narrower side",
            ),
        ),
    ),
    "section": Shape(solids.section, ("length",), ("width", "depth")),
    "hoop": Shape(
        turned.hoop,
        ("diameter",),
        ("width", "depth", "end_diameter", "wall"),
        (
            Limit("depth", lambda d: d.diameter_m / 2, "must be thinner than half its diameter"),
            Limit(
                "end_diameter", lambda d: d.diameter_m / 2, "must be thinner than half its diameter"
            ),
            Limit(
                "wall",
                lambda d: given(d.end_diameter_m, np.inf) / 2,
                "must have a wall thinner than half its end diameter",
            ),
        ),
    ),
    "formed": Shape(
        bent.formed,
        ("length", "width", "diameter"),
        ("end_diameter", "wall"),
        (
            Limit(
                "width", lambda d: d.length_m, "must have a chord (width) within its length", UP_TO
            ),
            Limit(
                "wall",
                lambda d: d.diameter_m / 2,
                "must have a wall thinner than half its diameter",
            ),
        ),
    ),
    "cone": Shape(turned.cone, ("length", "diameter"), ("end_diameter",)),
    "sphere": Shape(turned.sphere, ("diameter",)),
    "dome": Shape(
        turned.dome,
        ("diameter", "depth"),
        (),
        (
            Limit(
                "depth",
                lambda d: d.diameter_m / 2,
                "must rise (depth) at most half its diameter",
                UP_TO,
            ),
        ),
    ),
    "ellipsoid": Shape(turned.ellipsoid, ("length", "width", "depth")),
    "torus": Shape(
        turned.torus,
        ("diameter", "end_diameter"),
        (),
        (
            Limit(
                "end_diameter",
                lambda d: d.diameter_m / 2,
                "must have a tube (end diameter) thinner than half its diameter",
            ),
        ),
    ),
    "run": Shape(solids.run, ("length",)),
    "bought": Shape(solids.bought, (), ("length", "width", "depth", "diameter")),
}
"""Every shape that dimensions alone describe."""


def dimension(dims: Dims, name: str) -> Floats:
    """Return one dimension by the name a part's heading gives it, such as `end_width`."""
    values: Floats = getattr(dims, f"{name}_rad" if name == "angle" else f"{name}_m")
    return values


def faults(shape: str, dims: Dims) -> tuple[Fault, ...]:
    """Return the dimensions that will not do, in the order of the parts.

    Raises:
        ValueError: If there is no such shape.
    """
    found = [
        Fault(int(row), name, why)
        for name, bad, why in _checks(shape, dims)
        for row in np.flatnonzero(bad)
    ]
    return tuple(sorted(found, key=lambda fault: fault.row))


def _shape(name: str) -> Shape:
    """Return a shape by name."""
    if name not in SHAPES:
        msg = f"there is no shape {name!r}; the shapes are {', '.join(SHAPES)}"
        raise ValueError(msg)
    return SHAPES[name]


def _checks(shape: str, dims: Dims) -> list[tuple[str, np.ndarray, str]]:
    """Return for each rule the dimension, which parts break it, and the sentence."""
    rules = _shape(shape)
    checks = []
    for name in rules.needs:
        values = dimension(dims, name)
        bad = ~((values > 0) & np.isfinite(values))
        checks.append((name, bad, f"the shape {shape} needs {_article(name)} above zero"))
    for name in rules.takes:
        values = dimension(dims, name)
        bad = (values < 0) | np.isinf(values)
        checks.append((name, bad, f"the shape {shape} cannot have {_article(name)} below zero"))
    for name, most_m, why, slack in rules.limits:
        bad = dimension(dims, name) > most_m(dims) * (1 + slack)
        checks.append((name, bad, f"the shape {shape} {why}"))
    if shape == "hoop":
        checks.extend(_hoop_checks(dims))
    return checks


def _hoop_checks(dims: Dims) -> list[tuple[str, np.ndarray, str]]:
    """Return the rule that only a hoop has: one kind of cross-section or the other."""
    is_round = dims.end_diameter_m > 0
    why = "the shape hoop needs width and depth, or an end diameter when its bar is round"
    return [(name, ~is_round & ~(dimension(dims, name) > 0), why) for name in ("width", "depth")]


def _article(name: str) -> str:
    """Return a dimension as a maker reads it, with its article."""
    words = name.replace("_", " ")
    return f"an {words}" if words[0] in "aeiou" else f"a {words}"


def measure(shape: str, dims: Dims) -> Measures:
    """Return what n parts of one shape measure.

    Raises:
        ValueError: If there is no such shape or a dimension will not do; `faults` lists them all.
    """
    if bad := faults(shape, dims):
        msg = (
            f"part {bad[0].row}: {bad[0].why}, got {dimension(dims, bad[0].dimension)[bad[0].row]}"
        )
        raise ValueError(msg)
    return SHAPES[shape].measure(dims)
