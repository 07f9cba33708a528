"""Recording: everything found, as the estimate document that every report is printed from.

Plain dicts, lists, numbers and text in SI; the keys are described by the JSON Schema that the
reports ship. A figure that is not known is None, never NaN.
"""

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from estimator.core.problems import Problem
from estimator.geometry.bodies import Body, inertia_from_second, joined, moved, rotated, six_numbers
from estimator.masses.bands import band
from estimator.resolve.options import of_every_way
from estimator.stages import recording_brackets as brackets
from estimator.stages import recording_loads as loads
from estimator.stages.findings import Findings
from estimator.stages.holding_loads import Desk
from estimator.stages.picturing import Drawn
from estimator.stages.recording_arms import arm_records
from estimator.stages.recording_assumptions import assumption_records, untold_records
from estimator.stages.recording_blanks import blank_records, forming_records
from estimator.stages.recording_chains import chain_records
from estimator.stages.recording_coefficients import coefficient_records
from estimator.stages.recording_combinations import burdens_record, combinations_record
from estimator.stages.recording_exposure import ice_record, slender_record, working_record
from estimator.stages.recording_facts import fact_record
from estimator.stages.recording_models import model_records
from estimator.stages.recording_plates import plates_record
from estimator.stages.recording_register import drift_record, issue_record, register_records
from estimator.stages.recording_sizes import sizes_record
from estimator.stages.recording_sums import layer_sums
from estimator.stages.recording_swinging import freedom, swinging_record
from estimator.stages.recording_wall import elevation_records, wall_record
from estimator.stages.recording_ways import way_records
from estimator.stages.recording_weighings import sure_records, weighed_with
from estimator.stages.whole import in_job

SCHEMA = "1.2"
CAUTIONS = tuple(
    " ".join(caution.split())
    for caution in """
    These are working estimates from the maker's list. They are not a structural design and
    approve nothing.

    A structural engineer must choose and check fixings, brackets, welds, wall and wind figures
    for this place, under the law and the code in force there, and sign for them.

    Loads are characteristic, which is unfactored, unless the heading says otherwise.

    The wall has not been looked at or tested. What it can carry comes from tests at the real
    wall, as the engineer directs.

    Weights are computed where nothing says that they were weighed. Weigh before lifting; whoever
    plans the lift sets the allowance.

    Wind pressure, coefficients, densities and prices are as entered or as cited, on the dates
    shown. Another place or year gives other answers.

    Moving parts were looked at in the listed positions only. Jamming, ice, people and birds may
    give worse.

    People pass below: plan for inspection, corrosion and loosening, and for a second line of
    support.

    Lead, fume, dust, height and lifting carry legal duties for whoever does the work. Look up
    what is in force where you are.
    """.strip().split("\n\n")
)
"""What must be read with the numbers, whatever the job."""


def record(found: Findings, ways: Sequence[Mapping[str, Any]], version: str) -> dict[str, Any]:
    """Return the estimate document of one way of building.

    Args:
        found: What the stages found of it.
        ways: What they found of every way of building, to be set side by side: `resolved`,
            `comparison` and `faces` of each.
        version: Of the program.
    """
    whole = joined(in_job(found.weights, found.groups))
    return {
        "schema": SCHEMA,
        "program_version": version,
        # A row refused in one of the ways makes the table that compares them incomplete too.
        "complete": all(way["resolved"].complete for way in ways),
        "made_on": dt.datetime.now(tz=dt.UTC).date().isoformat(),
        "problems": [problem.record() for problem in _problems(found, ways)],
        "earlier": None,
        "cautions": list(CAUTIONS),
        **_told(found),
        "sources": _sources(found),
        "mass": _mass(found, whole),
        "parts": _parts(found),
        **sure_records(found.resolved, found.weights),
        "assemblies": _assemblies(found),
        "lift_units": _lift_units(found),
        **_loaded(found),
        **_supported(found),
        "blanks": blank_records(found.blanks),
        "order": loads.order_record(found.order),
        "cost": loads.cost_record(found.resolved, found.pricing),
        "options_table": way_records(ways),
        "sizes": sizes_record(found.sizes),
        "views": {name: _view(found, name) for name in found.pictures.views},
        "marks": loads.marks_record(
            found.resolved, found.groups, found.wind, found.held, whole.centre_m
        ),
    }


def _problems(found: Findings, ways: Sequence[Mapping[str, Any]]) -> Sequence[Problem]:
    """Return what is wrong in the way shown, then what is wrong in others alone."""
    resolved = found.resolved
    others = (
        (one.chosen.option, (*one.problems, *way["weights"].problems))
        for way in ways
        if (one := way["resolved"]).chosen.option != resolved.chosen.option
    )
    return of_every_way((*resolved.problems, *found.weights.problems), others, resolved.job)


def _told(found: Findings) -> dict[str, Any]:
    """Return what was typed, what was answered, and what stands in for the rest."""
    resolved = found.resolved
    assumptions, untold = assumption_records(found), untold_records(resolved)
    return {
        "inputs_sha256": resolved.job.inputs_sha256,
        "option": resolved.chosen.option,
        "options": list(resolved.job.options),
        "file": resolved.job.name,
        "job": {item: fact_record(item, fact) for item, fact in resolved.facts.values.items()}
        | {item: _BLANK for item in ("client", "site", "date") if not resolved.facts.has(item)},
        "rows": {sheet: _as_dict(a) for sheet, a in resolved.accounts.items()},
        "assumptions": assumptions,
        "untold": untold,
        "register": register_records(resolved, assumptions, untold),
        "issue": issue_record(resolved),
        "agreed_drift": drift_record(resolved),
        "models": model_records(resolved.columns),
        "formings": forming_records(resolved.library),
        "wall": wall_record(resolved),
    }


def _loaded(found: Findings) -> dict[str, Any]:
    """Return what wind, ice, snow and water do, and to what moves."""
    resolved, wind = found.resolved, found.wind
    return {
        "wind": loads.wind_record(resolved, found.groups, wind)
        | {"coefficients": coefficient_records(resolved, found.shapes, wind)}
        | chain_records(resolved, found.shapes, found.groups, wind),
        "moving": [loads.moving_record(turned) for turned in found.moving],
        "swinging": [swinging_record(swung) for swung in found.swinging],
        "slender": slender_record(found.slender),
        "ice": ice_record(found.iced),
        "burdens": burdens_record(resolved, found.burdens),
        "working_wind": working_record(found.working),
    }


def _supported(found: Findings) -> dict[str, Any]:
    """Return what brackets pass to the wall, and what their arms and plates do."""
    resolved, held = found.resolved, found.held
    return {
        "combinations": combinations_record(_desk(found), held),
        "bracket_sets": [brackets.set_record(one, resolved.facts) for one in held],
        "brackets": [row for one in held for row in brackets.characteristic_records(one)],
        "bracket_envelope": [row for one in held for row in brackets.envelope_records(one)],
        "arms": arm_records(found.arms, resolved.sag_limit),
        "plates": plates_record(found.plates),
        "elevations": elevation_records(held),
    }


_BLANK = {"value": None, "unit": "", "origin": "default", "cell": None, "source": "not given"}


def _desk(found: Findings) -> Desk:
    """Return what the loads at the brackets come from."""
    return Desk(found.resolved, found.weights, found.groups, found.wind, found.burdens)


def _as_dict(record_: Any) -> dict[str, Any]:  # noqa: ANN401 - any frozen record
    return {name: getattr(record_, name) for name in record_.__dataclass_fields__}


def _sources(found: Findings) -> list[dict[str, str]]:
    """Return every document that a figure of this job rests on, with what it was used for."""
    used: dict[str, dict[str, None]] = {}
    for layer in set(found.weights.layers.layers):
        for source in layer.sources:
            used.setdefault(source, {})[layer.material] = None
    for arm in found.arms:
        for source in arm.held_to.sources:
            used.setdefault(source, {})[f"yield of {arm.held_to.grade}"] = None
    documents = found.resolved.library.documents()
    return [
        {
            "id": key,
            "document": documents[key].document,
            "edition": documents[key].edition,
            "publisher": documents[key].publisher,
            "where": documents[key].where,
            "used_for": ", ".join(sorted(used[key])),
        }
        for key in sorted(used)
        if key in documents
    ]


def _mass(found: Findings, whole: Body) -> dict[str, Any]:
    weights = found.weights
    ends = {f"{name}_kg": float(values[0])
            for name, values in zip(("low", "high", "straight_low", "straight_high"),
                                    weights.whole_band, strict=True)}  # fmt: skip
    return ends | {
        "likely_kg": weights.whole_kg,
        "listed_kg": weights.listed_kg,
        "not_listed_kg": weights.not_listed_kg,
        "not_listed_fraction": weights.not_listed,
        "weighed_kg": float(weights.parts.mass_kg[list(weighed_with(weights))].sum()),
        "cg_m": loads.numbers(whole.centre_m) if weights.listed_kg > 0 else None,
    }


def _parts(found: Findings) -> list[dict[str, Any]]:
    """Return a record for each part, movers in their first position."""
    columns, weights = found.resolved.columns, found.weights
    layers: list[list[dict[str, Any]]] = [[] for _ in columns.parts]
    table = weights.layers
    sums = layer_sums(weights)
    for number, (row, layer, mass_kg) in enumerate(
        zip(table.part, table.layers, table.mass_kg, strict=True)
    ):
        layers[row].append(
            {
                "layer": layer.name,
                "material": layer.material,
                "over": layer.over,
                "amount": layer.amount,
                "mass_kg": float(mass_kg),
                "why": _layer_words(layer.covers, layer.laps),
                "sum": sums[number],
            }
        )
    weighed = weighed_with(weights)
    rotation, origin_m = _first_pose(found)
    centres_m = np.einsum("nij,nj->ni", rotation[columns.assembly], weights.parts.centre_m)
    centres_m += origin_m[columns.assembly]
    return [
        {
            "part": part.key,
            "name": part.name,
            "assembly": part.assembly,
            "count": part.count,
            "shape": part.shape,
            "made_of": part.made_of,
            "skin_area_m2": float(found.shapes.skin_area_m2[i]),
            "volume_m3": float(found.shapes.volume_m3[i]),
            "mass_each_kg": float(weights.parts.mass_kg[i]) / part.count,
            "mass_kg": float(weights.parts.mass_kg[i]),
            "low_kg": float(weights.part_band.low_kg[i]),
            "high_kg": float(weights.part_band.high_kg[i]),
            "cg_m": loads.numbers(centres_m[i]),
            "confidence": part.confidence,
            "weighed": weighed.get(i, ""),
            "layers": layers[i],
        }
        for i, part in enumerate(columns.parts)
    ]


def _layer_words(covers: float, laps: float) -> str:
    words = [f"covers {100 * covers:g} %"] if covers < 1.0 else []
    words += [f"laps {100 * laps:g} %"] if laps > 0.0 else []
    return ", ".join(words)


def _first_pose(found: Findings) -> tuple[Any, Any]:
    rows = len(found.resolved.assemblies)
    rotation, origin_m = np.tile(np.eye(3), (rows, 1, 1)), np.zeros((rows, 3))
    for group in found.groups:
        rotation[list(group.members)] = group.rotation[0]
        origin_m[list(group.members)] = group.origin_m[0]
    return rotation, origin_m


def _assemblies(found: Findings) -> list[dict[str, Any]]:
    """Return a record for each assembly in each position."""
    datum_m = found.resolved.facts.number("datum_height")
    free = {swung.assembly: freedom(swung) for swung in found.swinging if not swung.stops}
    records = []
    for group, boxes_m in zip(found.groups, found.pictures.boxes_m, strict=True):
        for s, state in enumerate(group.states):
            rows = list(group.members)
            own = Body(*(values[rows] for values in found.weights.assemblies))
            bodies = moved(rotated(own, group.rotation[s]), group.origin_m[s])
            inertia = six_numbers(inertia_from_second(bodies.second_kgm2))
            for i, row in enumerate(rows):
                box_m = boxes_m[s].get(row, np.tile(bodies.centre_m[i], (2, 1)))
                assembly = found.resolved.assemblies[row]
                angle = state.values.get(assembly.key) if assembly.moves == "turns" else None
                records.append(
                    {
                        "assembly": assembly.key,
                        "position": state.label,
                        "angle_deg": None if angle is None else math.degrees(angle),
                        "mass_kg": float(bodies.mass_kg[i]),
                        "low_kg": float(found.weights.assembly_band.low_kg[row]),
                        "high_kg": float(found.weights.assembly_band.high_kg[row]),
                        "cg_m": loads.numbers(bodies.centre_m[i]),
                        "inertia_kgm2": loads.numbers(inertia[i]),
                        "box_m": [loads.numbers(box_m[0]), loads.numbers(box_m[1])],
                        "lowest_m": None if math.isnan(datum_m) else float(box_m[0][1] + datum_m),
                        "furthest_m": float(box_m[1][2]),
                        "free": free.get(assembly.key, ""),
                    }
                )
    return records


def _lift_units(found: Findings) -> list[dict[str, Any]]:
    """Return a record for each thing that is lifted as one."""
    units: dict[str, list[int]] = {}
    for row, assembly in enumerate(found.resolved.assemblies):
        units.setdefault(assembly.lift_unit, []).append(row)
    bodies = in_job(found.weights, found.groups)
    names = list(units)
    unit_of = {row: names.index(name) for name, rows in units.items() for row in rows}
    table, columns = found.weights.layers, found.resolved.columns
    owner = np.array([unit_of[row] for row in columns.assembly[table.part]], dtype=np.intp)
    bands = band(table.mass_kg, owner, len(units), table.offs)
    records = []
    for number, (name, rows) in enumerate(units.items()):
        whole = joined(Body(*(values[rows] for values in bodies)))
        if not whole.mass_kg > 0:
            continue
        records.append(
            {
                "lift_unit": name,
                "mass_kg": float(whole.mass_kg),
                "low_kg": float(bands.low_kg[number]),
                "high_kg": float(bands.high_kg[number]),
                "cg_m": loads.numbers(whole.centre_m),
                "assemblies": [found.resolved.assemblies[row].key for row in rows],
            }
        )
    return records


def _view(found: Findings, name: str) -> dict[str, Any]:
    """Return the outlines of one view."""
    drawn = found.pictures.views[name]
    return {
        "box_m": _box(drawn),
        "shapes": [
            {
                "part": one.part,
                "assembly": one.assembly,
                "kind": one.kind,
                "depth_m": one.depth_m,
                "outer": np.round(one.loop.outer_m, 5).tolist(),
                "holes": [np.round(hole, 5).tolist() for hole in one.loop.holes_m],
                "lines": _lines(one),
            }
            for one in sorted(drawn, key=lambda one: one.depth_m)
        ],
        "sweeps": [
            {"assembly": mover, "points": np.round(loop.outer_m, 5).tolist()}
            for mover, loop in found.pictures.sweeps[name]
        ],
    }


def _lines(drawn: Drawn) -> list[dict[str, Any]] | None:
    """Return the lines drawn on an area; None where its own outline is drawn."""
    if drawn.strokes is None:
        return None
    return [
        {"wide": stroke.wide, "points": np.round(stroke.points_m, 5).tolist()}
        for stroke in drawn.strokes
    ]


def _box(drawn: Sequence[Drawn]) -> list[float]:
    if not drawn:
        return [0.0, 0.0, 0.0, 0.0]
    points_m = np.concatenate([one.loop.outer_m for one in drawn])
    return loads.numbers(np.concatenate([points_m.min(axis=0), points_m.max(axis=0)]))
