"""Recording how sure the mass is: what widens it, what was weighed, what a maker's record says."""

import math
from collections.abc import Mapping
from typing import Any

import numpy as np

from estimator.masses.ratios import tally
from estimator.reference.own_ratios import job_label
from estimator.resolve.job import Resolved
from estimator.resolve.records import Kind
from estimator.stages.narrowing import Widener, narrow
from estimator.stages.reweighing import Weighing, is_told, likeness
from estimator.stages.weighing import Weights


def sure_records(resolved: Resolved, weights: Weights) -> dict[str, Any]:
    """Return the keys of the document that say how sure the mass is."""
    width_kg = float(weights.whole_band.high_kg[0] - weights.whole_band.low_kg[0])
    return {
        "widest": [_widener(one, width_kg) for one in narrow(resolved.columns, weights)],
        "weighings": [_weighing(one, resolved) for one in weights.weighings],
        "own_record": _own_record(resolved, weights),
    }


def weighed_with(weights: Weights) -> dict[int, str]:
    """Return what stood on the scale when a part was weighed, by the row of the part.

    The smallest thing it was weighed with settles it.
    """
    found: dict[int, str] = {}
    for one in weights.weighings:
        for i in one.reading.rows:
            found.setdefault(int(i), one.reading.name)
    return found


def gauge_notes(weights: Weights) -> list[tuple[str, str, str]]:
    """Return how far gauges are taken to lie off, each note once with what it goes for."""
    notes: dict[str, list[str]] = {}
    for cause in weights.layers.causes:
        if cause.kind is Kind.GAUGE:
            notes.setdefault(cause.why, []).append(cause.cause.removeprefix("gauge "))
    return [("tolerance of gauges", note, ", ".join(of)) for note, of in notes.items()]


def _widener(one: Widener, width_kg: float) -> dict[str, Any]:
    known_kg = one.known_high_kg - one.known_low_kg
    chief_kg = one.chief_high_kg - one.chief_low_kg
    return {
        "cause": one.cause.cause,
        "kind": str(one.cause.kind),
        "why": one.cause.why,
        "down_kg": one.down_kg,
        "up_kg": one.up_kg,
        "known_low_kg": one.known_low_kg,
        "known_high_kg": one.known_high_kg,
        "narrower_kg": width_kg - known_kg,
        "narrower_fraction": (width_kg - known_kg) / width_kg,
        "parts": one.parts,
        "chief": [
            {"part": share.part.key, "name": share.part.name, "off_kg": share.off_kg}
            for share in one.chief
        ],
        "chief_narrower_kg": width_kg - chief_kg,
        "samples": [sample._asdict() for sample in one.samples],
    }


def _weighing(one: Weighing, resolved: Resolved) -> dict[str, Any]:
    reading = one.reading
    return {
        "kind": reading.kind,
        "name": reading.name,
        "count": reading.count,
        "times": reading.times,
        "date": reading.date,
        "scale": reading.scale,
        "cell": str(reading.cell),
        "parts": [resolved.columns.parts[i].key for i in reading.rows],
        "estimated_kg": one.estimated_kg,
        "weighed_kg": reading.mass_kg,
        "alone_kg": one.alone_kg,
        "ratio": reading.mass_kg / one.estimated_kg,
        "rest_ratio": one.factor,
        "material": one.material,
        "shape": one.shape,
        "not_kept": one.not_kept,
    }


def _own_record(resolved: Resolved, weights: Weights) -> list[dict[str, Any]]:
    """Return the maker's ratios from other jobs that parts of this one could go by.

    None of them is applied.
    """
    title = resolved.job.facts.get("title")
    ratios: dict[tuple[str, str], list[float]] = {}
    jobs: dict[tuple[str, str], dict[str, None]] = {}
    label = job_label(resolved.job.name, str(title.value) if title else "")
    for one in (one for one in resolved.own_ratios if one.job != label):
        ratios.setdefault((one.material, one.shape), []).append(one.made_per_estimated)
        jobs.setdefault((one.material, one.shape), {})[one.job] = None
    alike = _alike(resolved, weights) if ratios else {}
    return [
        _offer(alike[like], resolved, weights)
        | {"material": like[0], "shape": like[1], "jobs": list(jobs[like])}
        | {name: None if math.isnan(value) else value
           for name, value in tally(ratios[like])._asdict().items()}
        for like in ratios
        if like in alike
    ]  # fmt: skip


def _alike(resolved: Resolved, weights: Weights) -> Mapping[tuple[str, str], list[int]]:
    """Return the parts that were worked out and not weighed, by what ratios are gathered by."""
    weighed = {i for one in weights.weighings for i in one.reading.rows}
    table, parts = weights.layers, resolved.columns.parts
    ends = np.searchsorted(table.part, np.arange(len(parts) + 1))
    found: dict[tuple[str, str], list[int]] = {}
    for i, part in enumerate(parts):
        if i not in weighed and not is_told(part):
            like = likeness(resolved.columns, table, np.arange(ends[i], ends[i + 1]))
            found.setdefault(like, []).append(i)
    return found


def _offer(rows: list[int], resolved: Resolved, weights: Weights) -> dict[str, Any]:
    return {
        "parts": [resolved.columns.parts[i].key for i in rows],
        "estimated_kg": float(weights.parts.mass_kg[rows].sum()),
    }
