"""Mass, balance, wind, wall-bracket forces, order list and price from a parts list.

The public names are loaded on first use, so that importing the package costs next to nothing.
"""

from importlib import import_module
from typing import Any

_HOMES = {
    "read_job": "estimator.sheets.rows",
    "Job": "estimator.sheets.rows",
    "estimate": "estimator.pipeline",
    "Result": "estimator.pipeline",
    "write_reports": "estimator.reports.writing",
    "UnreadableError": "estimator.core.problems",
}

__all__ = ["Job", "Result", "UnreadableError", "estimate", "read_job", "write_reports"]


def __getattr__(name: str) -> Any:  # noqa: ANN401 - whatever the public name is
    """Return a public name from the module it lives in."""
    if name not in _HOMES:
        msg = f"module 'estimator' has no name {name!r}"
        raise AttributeError(msg)
    return getattr(import_module(_HOMES[name]), name)
