"""Recording the models: which file or readings give the form of which parts, and what they say."""

from typing import Any

from estimator.resolve.records import PartColumns


def model_records(columns: PartColumns) -> list[dict[str, Any]]:
    """Return a record for each model that a part has."""
    parts: dict[str, list[str]] = {}
    for part in columns.parts:
        if part.model:
            parts.setdefault(part.model, []).append(part.key)
    return [
        {
            "parts": names,
            "shape": columns.models[key].shape,
            "file": columns.models[key].file or None,
            "sha256": columns.models[key].sha256 or None,
            "scale": columns.models[key].scale,
            "unit": columns.models[key].unit or None,
            "facts": list(columns.models[key].facts),
        }
        for key, names in parts.items()
    ]
