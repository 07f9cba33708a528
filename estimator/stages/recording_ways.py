"""Recording the ways of building side by side, and by how much each differs from the first."""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

import numpy as np

from estimator.geometry.measures import Floats
from estimator.stages.comparing import Line, One
from estimator.stages.facing import NOTHING, Faced, Faces, Front
from estimator.stages.recording_loads import numbers

DECIMALS = 4
"""Of a metre, in the outlines of a front: a tenth of a millimetre."""


class _Figures(NamedTuple):
    """What is compared, of everything or of one assembly."""

    mass_kg: float
    cg_m: Floats
    faced: Faced
    wind_n: float | None


def way_records(ways: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Return a record for each way of building, with how it differs from the first.

    Args:
        ways: What the steps found of each: `comparison` and `faces`.
    """
    lines: list[tuple[Line, Faces]] = [(way["comparison"], way["faces"]) for way in ways]
    first = lines[0]
    return [_way(line, faces, first if n else None) for n, (line, faces) in enumerate(lines)]


def _way(line: Line, faces: Faces, first: tuple[Line, Faces] | None) -> dict[str, Any]:
    base = {} if first is None else {one.assembly: (one, first[1]) for one in first[0].assemblies}
    return {
        "option": line.option,
        **line_record(line),
        "front_area_m2": faces.whole.front_m2,
        "side_area_m2": faces.whole.side_m2,
        "person_hours_likely": line.person_hours_likely,
        "person_hours_mean": line.person_hours_mean,
        "cost_mean": line.cost_mean,
        "price_mean": line.price_mean,
        "differs": first and _difference(_of_all(line, faces), _of_all(*first)),
        "assemblies": [_assembly(one, faces, base.get(one.assembly)) for one in line.assemblies],
        "front": _front(faces.front),
    }


def line_record(line: Line) -> dict[str, Any]:
    """Return what everything weighs, catches and pulls, in one way of building or at one size."""
    windiest = line.windiest
    return {
        "mass_kg": line.mass_kg,
        "low_kg": line.low_kg,
        "high_kg": line.high_kg,
        "cg_m": numbers(line.cg_m),
        "wind_n": line.wind_n,
        "windiest": None if windiest is None else windiest.assembly,
        "windiest_n": None if windiest is None else windiest.wind_n,
        "pulls": [
            {
                "set": pull.set_name,
                "bracket": pull.bracket,
                "moment_nm": pull.moment_nm,
                "pull_out_n": pull.pull_out_n,
            }
            for pull in line.pulls
        ],
    }


def _of_all(line: Line, faces: Faces) -> _Figures:
    return _Figures(line.mass_kg, line.cg_m, faces.whole, line.wind_n)


def _of_one(one: One, faces: Faces) -> _Figures:
    return _Figures(one.mass_kg, one.cg_m, faces.assemblies.get(one.assembly, NOTHING), one.wind_n)


def _assembly(one: One, faces: Faces, first: tuple[One, Faces] | None) -> dict[str, Any]:
    figures = _of_one(one, faces)
    return {
        "assembly": one.assembly,
        "mass_kg": one.mass_kg,
        "low_kg": one.low_kg,
        "high_kg": one.high_kg,
        "cg_m": numbers(one.cg_m),
        "front_area_m2": figures.faced.front_m2,
        "side_area_m2": figures.faced.side_m2,
        "wind_n": one.wind_n,
        "differs": first and _difference(figures, _of_one(*first)),
    }


def _difference(figures: _Figures, first: _Figures) -> dict[str, Any]:
    """Return by how much figures are more than the first ones: as a share of those, or None."""
    return {
        "mass_kg": figures.mass_kg - first.mass_kg,
        "mass_share": _share(figures.mass_kg, first.mass_kg),
        "cg_m": numbers(figures.cg_m - first.cg_m),
        "moved_m": float(np.linalg.norm(figures.cg_m - first.cg_m)),
        "front_share": _share(figures.faced.front_m2, first.faced.front_m2),
        "side_share": _share(figures.faced.side_m2, first.faced.side_m2),
        "wind_share": _share(figures.wind_n, first.wind_n),
    }


def _share(value: float | None, first: float | None) -> float | None:
    return value / first - 1.0 if value is not None and first else None


def _front(outlines: Sequence[Front]) -> dict[str, Any]:
    """Return what a small front view is drawn from, far outlines first."""
    points_m = [one.loop.outer_m for one in outlines]
    box_m = [0.0] * 4
    if points_m:
        every_m = np.concatenate(points_m)
        box_m = numbers(np.concatenate([every_m.min(axis=0), every_m.max(axis=0)]))
    return {
        "box_m": box_m,
        "shapes": [
            {
                "part": one.part,
                "outer": np.round(one.loop.outer_m, DECIMALS).tolist(),
                "holes": [np.round(hole_m, DECIMALS).tolist() for hole_m in one.loop.holes_m],
            }
            for one in outlines
        ],
    }
