"""The basic shapes of SVG as curves, y down as in the file.

References:
    [SVG] W3C Recommendation Scalable Vector Graphics (SVG) 1.1, second edition, 2011: 7.10 units,
    chapter 9 basic shapes. Clauses from memory.
"""

import math
import re
from collections.abc import Callable, Mapping
from xml.etree.ElementTree import Element

import numpy as np

from estimator.files.curves import METRES, Arc, Curve, Floats, Path, Points
from estimator.files.svg_paths import path_of, plain_numbers, unreadable

LENGTH = re.compile(r"\s*+((?>[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?))\s*+([a-zA-Z]*+)\s*+")
"""A number and its unit."""


def length_of(element: Element, name: str, default: float = 0.0) -> float:
    """Return a length of an element in units of the drawing: [SVG] 7.10."""
    text = element.get(name, "")
    if not text or text == "auto":
        return default
    match = LENGTH.fullmatch(text)
    if match is None or (match[2] or "px") not in METRES:
        typed = f"{name}={text}"
        raise unreadable(typed)
    (number,) = plain_numbers(match[1])
    return number * METRES[match[2] or "px"] / METRES["px"]


def _rect(element: Element) -> tuple[Path, ...]:
    """Return a rectangle, with its corners rounded as [SVG] 9.2 has them."""
    x, y, width, height = (length_of(element, name) for name in ("x", "y", "width", "height"))
    if width <= 0 or height <= 0:
        return ()
    rx, ry = (length_of(element, name, math.nan) for name in ("rx", "ry"))
    rx, ry = (ry if math.isnan(rx) else rx), (rx if math.isnan(ry) else ry)
    rx, ry = (min(max(0.0, np.nan_to_num(r)), side / 2) for r, side in ((rx, width), (ry, height)))
    corners = np.array([[x, y], [x + width, y], [x + width, y + height], [x, y + height]])
    if not (rx and ry):
        return ((Points(np.concatenate((corners, corners[:1]))),),)
    middles = corners + np.array([[rx, ry], [-rx, ry], [-rx, -ry], [rx, -ry]])
    first, second = np.array([rx, 0.0]), np.array([0.0, ry])
    start_rad = np.pi * np.array([1.0, 1.5, 2.0, 2.5])
    arcs = [
        Arc(middle, first, second, start, start + np.pi / 2)
        for middle, start in zip(middles, start_rad.tolist(), strict=True)
    ]
    return (_rounded(arcs),)


def _rounded(arcs: list[Arc]) -> Path:
    """Return quarters of ellipses, and the straight lines from each to the next."""
    curves: list[Curve] = []
    for arc, following in zip(arcs, [*arcs[1:], arcs[0]], strict=True):
        ends = [_on(arc, arc.end_rad), _on(following, following.start_rad)]
        curves += (arc, Points(np.stack(ends)))
    return tuple(curves)


def _on(arc: Arc, at_rad: float) -> Floats:
    return arc.middle + math.cos(at_rad) * arc.first + math.sin(at_rad) * arc.second


def _circle(element: Element) -> tuple[Path, ...]:
    r = length_of(element, "r")
    return _full(element, r, r)


def _ellipse(element: Element) -> tuple[Path, ...]:
    return _full(element, length_of(element, "rx"), length_of(element, "ry"))


def _full(element: Element, rx: float, ry: float) -> tuple[Path, ...]:
    if rx <= 0 or ry <= 0:
        return ()
    middle = np.array([length_of(element, "cx"), length_of(element, "cy")])
    return ((Arc(middle, np.array([rx, 0.0]), np.array([0.0, ry])),),)


def _line(element: Element) -> tuple[Path, ...]:
    ends = [[length_of(element, f"{axis}{end}") for axis in "xy"] for end in "12"]
    return ((Points(np.array(ends)),),)


def _polyline(element: Element) -> tuple[Path, ...]:
    numbers = plain_numbers(element.get("points", ""))
    if len(numbers) % 2:
        raise unreadable(element.get("points", ""))
    points = np.array(numbers).reshape(-1, 2)
    return ((Points(points),),) if len(points) > 1 else ()


def _polygon(element: Element) -> tuple[Path, ...]:
    return tuple(
        (Points(np.concatenate((points.at, points.at[:1]))),)
        for (points,) in _polyline(element)
        if isinstance(points, Points)
    )


def _path(element: Element) -> tuple[Path, ...]:
    return path_of(element.get("d", ""))


SHAPES: Mapping[str, Callable[[Element], tuple[Path, ...]]] = {
    "rect": _rect, "circle": _circle, "ellipse": _ellipse, "line": _line, "polyline": _polyline,
    "polygon": _polygon, "path": _path,
}  # fmt: skip
"""What each basic shape draws."""
