"""Recording the sum behind the mass of each layer: every factor, who says so, how sure."""

from typing import Any

import numpy as np

from estimator.stages.weighing import Weights

_UNITS = {
    "length": "m",
    "one face": "m2",
    "both faces": "m2",
    "whole outside": "m2",
    "solid": "m3",
    "inside": "m3",
    "each": "",
}
"""Unit of the size of what a layer lies over."""


def layer_sums(weights: Weights) -> list[dict[str, Any]]:
    """Return the sum of each layer: the product of its factors and of the count is its mass."""
    table, sums = weights.layers, weights.sums
    causes: list[list[dict[str, Any]]] = [[] for _ in table.layers]
    offs = zip(table.offs.row, table.offs.cause, table.offs.low, table.offs.high, strict=True)
    for row, number, low, high in offs:
        cause = table.causes[number]
        causes[row].append(
            {"cause": cause.cause, "low": float(low), "high": float(high), "why": cause.why}
        )
    made = np.broadcast_to(weights.as_made.made, len(table.layers))
    return [
        {
            "size": float(sums.size[i]),
            "unit": _UNITS[layer.over],
            "kg_per_size": float(layer.mass_per_size_kg),
            "gained": float(sums.gained[i]),
            "left": float(sums.left[i]),
            "covers": float(layer.covers),
            "laps": 1.0 + float(layer.laps),
            "formed": float(layer.formed),
            "made": float(made[i]),
            "cited": list(layer.cited),
            "causes": causes[i],
        }
        for i, layer in enumerate(table.layers)
    ]
