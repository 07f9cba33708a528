"""Make the models of the two birds: skins swept along a bent back, and cut wings.

    python examples/tide-birds/make_birds.py

Everything is invented and drawn at 1:10 in millimetres, as a maquette would be. A body is a
chain of ellipses set square to its spine, so that back, neck and head are one closed skin. Wings,
tails and feet are flat and traced: SVG for the wings, DXF for the rest. The files this writes are
the ones in `models/`.
"""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

import numpy as np
import trimesh
from scipy.interpolate import PchipInterpolator, make_interp_spline

HERE = Path(__file__).resolve().parent / "models"
SCALE_MM = 100.0
"""Millimetres of the model for a metre of the bird: 1:10."""
RINGS, SPOKES = 56, 24
"""Cross-sections along a spine, and corners of each."""


class Station(NamedTuple):
    """One cross-section: where the spine is, and half its height and half its depth; metres."""

    across: float
    up: float
    half_height: float
    half_depth: float


STANDING = (
    Station(-0.47, -0.075, 0.008, 0.008),
    Station(-0.40, -0.060, 0.090, 0.075),
    Station(-0.22, -0.015, 0.185, 0.150),
    Station(0.00, 0.010, 0.215, 0.165),
    Station(0.18, 0.060, 0.170, 0.140),
    Station(0.28, 0.170, 0.110, 0.100),
    Station(0.30, 0.320, 0.072, 0.070),
    Station(0.285, 0.470, 0.054, 0.055),
    Station(0.305, 0.610, 0.046, 0.047),
    Station(0.365, 0.700, 0.066, 0.056),
    Station(0.440, 0.705, 0.050, 0.046),
    Station(0.490, 0.690, 0.006, 0.006),
)
"""The standing bird, from its tail to the root of its bill, about the middle of its body."""
BOWING = (
    Station(0.45, -0.060, 0.008, 0.008),
    Station(0.38, -0.050, 0.090, 0.075),
    Station(0.20, -0.010, 0.180, 0.150),
    Station(0.00, 0.000, 0.210, 0.165),
    Station(-0.20, 0.010, 0.165, 0.140),
    Station(-0.36, -0.010, 0.080, 0.080),
    Station(-0.41, -0.025, 0.008, 0.008),
)
"""The body of the bowing bird; its neck is another skin, since it moves."""
NECK = (
    Station(0.080, 0.065, 0.010, 0.010),
    Station(0.000, 0.010, 0.072, 0.070),
    Station(-0.130, -0.060, 0.064, 0.064),
    Station(-0.260, -0.180, 0.054, 0.054),
    Station(-0.360, -0.330, 0.046, 0.046),
    Station(-0.430, -0.430, 0.063, 0.055),
    Station(-0.490, -0.505, 0.046, 0.044),
    Station(-0.515, -0.545, 0.006, 0.006),
)
"""The neck that dips, from its root to the root of its bill, about the axle."""
BILL = (
    Station(0.000, 0.000, 0.014, 0.014),
    Station(0.030, 0.000, 0.018, 0.018),
    Station(0.160, -0.012, 0.012, 0.012),
    Station(0.280, -0.045, 0.005, 0.005),
    Station(0.300, -0.055, 0.003, 0.003),
)
"""A bill that curves down, from its root."""


def swept(stations: Iterable[Station], rings: int = RINGS, spokes: int = SPOKES) -> trimesh.Trimesh:
    """Return the closed skin of ellipses along a smooth spine, in millimetres of the model."""
    rows = np.array(list(stations)) * SCALE_MM
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(rows[:, :2], axis=0), axis=1))])
    spine = make_interp_spline(along, rows[:, :2])
    halves = PchipInterpolator(along, rows[:, 2:])
    # Rings gather at the ends, where the skin closes.
    at = along[-1] * (1 - np.cos(np.pi * np.arange(1, rings + 1) / (rings + 1))) / 2
    middle, tangent = spine(at), spine(at, 1)
    tangent /= np.linalg.norm(tangent, axis=1)[:, None]
    height, depth = halves(at).T
    turn = 2 * np.pi * np.arange(spokes) / spokes
    rise = height[:, None] * np.cos(turn)
    points = np.empty((len(at), spokes, 3))
    points[..., 0] = middle[:, None, 0] - tangent[:, None, 1] * rise
    points[..., 1] = middle[:, None, 1] + tangent[:, None, 0] * rise
    points[..., 2] = depth[:, None] * np.sin(turn)
    return _closed(points, spine(along[[0, -1]]))


def _closed(points: np.ndarray, ends: np.ndarray) -> trimesh.Trimesh:
    """Return rings of points joined by triangles, each end closed to a point."""
    rings, spokes, _ = points.shape
    i, j = np.meshgrid(np.arange(rings - 1), np.arange(spokes), indexing="ij")
    a, b = i * spokes + j, i * spokes + (j + 1) % spokes
    c, d = a + spokes, b + spokes
    sides = np.stack([a, b, d, a, d, c], axis=-1).reshape(-1, 3)
    first, last = rings * spokes, rings * spokes + 1
    j = np.arange(spokes)
    near = np.stack([np.full(spokes, first), (j + 1) % spokes, j], axis=-1)
    base = (rings - 1) * spokes
    far = np.stack([np.full(spokes, last), base + j, base + (j + 1) % spokes], axis=-1)
    tips = np.column_stack([ends, np.zeros(2)])
    mesh = trimesh.Trimesh(
        np.concatenate([points.reshape(-1, 3), tips]),
        np.concatenate([sides, near, far]),
        process=False,
    )
    if mesh.volume < 0:
        mesh.invert()
    return mesh


def wing_svg(length: float, width: float, feathers: int) -> str:
    """Return a wing as SVG in millimetres of the model: a bowed leading edge, scalloped behind.

    Args:
        length: Root to tip, metres of the bird.
        width: At the widest, the same.
        feathers: Scallops of the trailing edge.
    """
    long, wide = length * SCALE_MM, width * SCALE_MM
    step = long / feathers
    scallops = " ".join(
        f"q {-step / 2:.3f} {_bulge(i, feathers) * wide / 3:.3f} {-step:.3f} "
        f"{_rise(i, feathers) * wide:.3f}"
        for i in range(feathers)
    )
    path = (
        f"M 0 {wide * 0.55:.3f} C {long * 0.15:.3f} {-wide * 0.25:.3f} {long * 0.7:.3f} "
        f"{-wide * 0.05:.3f} {long:.3f} {wide * 0.55:.3f} {scallops} Z"
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{long:.3f}mm" height="{wide:.3f}mm" '
        f'viewBox="0 0 {long:.3f} {wide:.3f}">\n<path d="{path}"/>\n</svg>\n'
    )


def _edge(share: float) -> float:
    """Return how far the trailing edge hangs below its ends, a share of the way from the tip."""
    return float(0.40 * np.sin(np.pi * share))


def _rise(i: int, feathers: int) -> float:
    """Return the way down the page from one scallop to the next."""
    return _edge((i + 1) / feathers) - _edge(i / feathers)


def _bulge(i: int, feathers: int) -> float:
    """Return how far a feather hangs below its own ends; the long ones more."""
    return 0.35 + 0.65 * float(np.sin(np.pi * (i + 0.5) / feathers))


def outline_dxf(corners: Sequence[tuple[float, float, float]]) -> str:
    """Return one closed outline as DXF in millimetres of the model.

    Args:
        corners: (across, up, bulge): metres of the bird, and the tangent of a quarter of the
            angle of the arc to the next corner; 0 for a straight line.
    """
    groups = [(0, "SECTION"), (2, "ENTITIES"), (0, "POLYLINE"), (8, "0"), (66, 1), (70, 1)]
    for across, up, bulge in corners:
        place = ((10, f"{across * SCALE_MM:.4f}"), (20, f"{up * SCALE_MM:.4f}"))
        groups += [(0, "VERTEX"), (8, "0"), *place, (42, f"{bulge:.4f}")]
    groups += [(0, "SEQEND"), (0, "ENDSEC"), (0, "EOF")]
    return "".join(f"{code}\n{value}\n" for code, value in groups)


TAIL = (
    (0.0, 0.05, 0.15),
    (-0.33, 0.09, 0.5),
    (-0.30, 0.0, 0.5),
    (-0.33, -0.09, 0.15),
    (0.0, -0.05, 0.0),
)
"""A forked tail, from its root."""
FOOT = (
    (-0.05, 0.0, 0.2),
    (0.03, -0.065, 0.0),
    (0.06, -0.02, 0.0),
    (0.12, 0.0, 0.0),
    (0.06, 0.02, 0.0),
    (0.03, 0.065, 0.2),
)
"""A foot with three toes, seen from below."""


def main() -> None:
    """Write the models."""
    HERE.mkdir(exist_ok=True)
    for name, stations in (("standing.stl", STANDING), ("bowing.stl", BOWING)):
        swept(stations).export(HERE / name)
    for name, stations in (("neck.ply", NECK), ("bill.ply", BILL)):
        swept(stations).export(HERE / name)
    for name, sizes in (("wing-raised.svg", (0.82, 0.28, 7)), ("wing-folded.svg", (0.78, 0.25, 6))):
        (HERE / name).write_text(wing_svg(*sizes), encoding="utf-8")
    for name, corners in (("tail.dxf", TAIL), ("foot.dxf", FOOT)):
        (HERE / name).write_text(outline_dxf(corners), encoding="ascii")


if __name__ == "__main__":
    main()
