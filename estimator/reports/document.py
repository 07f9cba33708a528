"""The estimate document: its type, and the schema that says what every key holds."""

import json
from collections.abc import Mapping
from importlib.resources import files
from typing import Any

Document = Mapping[str, Any]
"""The estimate, or a record of it, as plain dicts, lists, numbers and text: SI, no NaN."""


def schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of ``estimate.json``."""
    text = files("estimator.reports").joinpath("estimate.schema.json").read_text("utf-8")
    loaded: dict[str, Any] = json.loads(text)
    return loaded
