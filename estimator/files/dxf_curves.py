"""Entities of DXF as curves in space: lines, arcs, ellipses, splines, polylines with bulges.

References:
    [DXF] Autodesk, DXF Reference, ENTITIES section, group codes of each entity; arbitrary axis
    algorithm for the planes that arcs and polylines lie in. From memory, through the library.
"""

import math
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any

import numpy as np

from estimator.files.curves import (
    Arc,
    Curve,
    Floats,
    Path,
    Points,
    Spline,
    between,
    moved,
    refuse_unmeasurable,
)
from estimator.files.shelf import FileError

if TYPE_CHECKING:
    from ezdxf.entities.arc import Arc as ArcEntity
    from ezdxf.entities.circle import Circle
    from ezdxf.entities.dxfgfx import DXFGraphic
    from ezdxf.entities.ellipse import Ellipse
    from ezdxf.entities.line import Line
    from ezdxf.entities.lwpolyline import LWPolyline
    from ezdxf.entities.polyline import Polyline
    from ezdxf.entities.spline import Spline as SplineEntity

HIGHEST_DEGREE = 15
_BAD_SPLINE = (
    "it has a spline whose knots, weights or degree make no curve",
    "splines as the DXF reference has them",
    "turn it into a polyline, and save the drawing again",
)
_FRAME, _IN_SPACE, _MESHES = 16, 8, 16 | 64
"""Flags: a vertex that only guides a fitted polyline; a polyline in space; one that is a mesh."""
_NOTHING_RAD = 1e-6


def _seated(curves: Iterable[Curve], entity: "DXFGraphic", elevation: float) -> Path:
    """Return plane curves where the plane they were drawn in lies in space."""
    axes = entity.ocs()
    linear = np.array([[*axes.ux], [*axes.uy]]).T
    shift = elevation * np.array([*axes.uz])
    return tuple(moved(curve, linear, shift) for curve in curves)


def _line(entity: "Line") -> Path:
    return (Points(np.array([[*entity.dxf.start], [*entity.dxf.end]])),)


def _circle(entity: "Circle") -> Path:
    return _ring(entity, 0.0, 0.0)


def _arc(entity: "ArcEntity") -> Path:
    return _ring(entity, *np.radians([entity.dxf.start_angle, entity.dxf.end_angle]).tolist())


def _ring(entity: "Circle", start_rad: float, end_rad: float) -> Path:
    x, y, elevation = entity.dxf.center
    radius = abs(entity.dxf.radius)
    arc = Arc(np.array([x, y]), np.array([radius, 0.0]), np.array([0.0, radius]),
              start_rad, start_rad + _sweep(start_rad, end_rad))  # fmt: skip
    return _seated((arc,), entity, elevation)


def _sweep(start_rad: float, end_rad: float) -> float:
    """Return the angle that an arc turns by: all round where it ends as it starts."""
    sweep_rad = (end_rad - start_rad) % (2 * math.pi)
    return sweep_rad if sweep_rad > _NOTHING_RAD else 2 * math.pi


def _ellipse(entity: "Ellipse") -> Path:
    dxf = entity.dxf
    first, normal = np.array([*dxf.major_axis]), np.array([*dxf.extrusion])
    second = dxf.ratio * np.cross(normal / np.linalg.norm(normal), first)
    end_rad = dxf.start_param + _sweep(dxf.start_param, dxf.end_param)
    return (Arc(np.array([*dxf.center]), first, second, dxf.start_param, end_rad),)


def _spline(entity: "SplineEntity") -> Path:
    """Return a spline; one that has only points to go through, as drawing programs draw it."""
    tool = entity.construction_tool()
    controls = np.array([[*point] for point in tool.control_points])
    knots, degree = np.array(tool.knots()), int(tool.degree)
    weights = np.array(tool.weights()) if len(tool.weights()) else np.ones(len(controls))
    refuse_unmeasurable(np.concatenate((knots, weights)))
    if not (
        1 <= degree <= min(HIGHEST_DEGREE, len(controls) - 1)
        and len(weights) == len(controls) == len(knots) - degree - 1
        and (np.diff(knots) >= 0).all()
        and knots[degree] < knots[-degree - 1]
        and (weights > 0).all()
    ):
        raise FileError(*_BAD_SPLINE)
    return (Spline(controls, knots, weights, degree),)


def _light_polyline(entity: "LWPolyline") -> Path:
    points = np.array(entity.get_points("xyb")).reshape(-1, 3)
    return _seated(_bulged(points, closed=entity.closed), entity, entity.dxf.elevation)


def _polyline(entity: "Polyline") -> Path | None:
    if entity.dxf.flags & _MESHES:
        return None
    drawn = [v.dxf for v in entity.vertices if not v.dxf.flags & _FRAME]
    points = np.array([[*v.location, v.get("bulge", 0.0)] for v in drawn]).reshape(-1, 4)
    if entity.dxf.flags & _IN_SPACE:
        at = np.concatenate((points, points[:1])) if entity.is_closed else points
        return (Points(at[:, :3]),) if len(at) > 1 else ()
    curves = _bulged(points[:, [0, 1, 3]], closed=entity.is_closed)
    return _seated(curves, entity, entity.dxf.elevation.z)


def _bulged(points: Floats, *, closed: bool) -> Path:
    """Return a polyline from (k, 3) of x, y and the bulge of what follows."""
    refuse_unmeasurable(points)
    if closed:
        points = np.concatenate((points, points[:1]))
    curves, start = list[Curve](), 0
    at, last = points[:, :2], len(points) - 1
    for i in np.flatnonzero(points[:-1, 2]).tolist():
        if i > start:
            curves.append(Points(at[start : i + 1]))
        curves.append(between(at[i], at[i + 1], points[i, 2]))
        start = i + 1
    if start < last:
        curves.append(Points(at[start:]))
    return tuple(curves)


DRAWS: Mapping[str, Callable[[Any], Path | None]] = {
    "LINE": _line, "ARC": _arc, "CIRCLE": _circle, "ELLIPSE": _ellipse, "SPLINE": _spline,
    "LWPOLYLINE": _light_polyline, "POLYLINE": _polyline,
}  # fmt: skip
"""What each kind of entity draws; None for one that is left aside."""
NEEDS: Mapping[str, tuple[str, ...]] = {
    "LINE": ("start", "end"),
    "CIRCLE": ("center", "radius"),
    "ARC": ("center", "radius", "start_angle", "end_angle"),
    "ELLIPSE": ("center", "major_axis", "ratio"),
}
"""What each must say; the library would give it a value of its own."""
