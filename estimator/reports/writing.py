"""The files of a report: written whole or not at all."""

import errno
import json
import math
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any
from uuid import uuid4

from estimator.reports.cases import bracket_files
from estimator.reports.document import Document
from estimator.reports.page import page_html
from estimator.reports.reissue import FILE, with_earlier


def write_reports(
    document: Document, folder: str | Path, more: Mapping[str, str] | None = None
) -> list[Path]:
    """Write ``estimate.json``, ``page.html`` and the .csv files of the actions at the brackets.

    The folder is made when it is not there. Everything is rendered, then written beside its final
    name, then moved there: a reader of the folder sees the old files or the new ones, and a
    failure leaves the old.

    Args:
        document: The estimate document.
        folder: Where to; files of the same names are replaced.
        more: Text of further files, by name.

    Returns:
        The files written.

    Raises:
        ValueError: A number of the document is NaN or infinite.
        OSError: The folder cannot be written to.
    """
    document = with_earlier(document, folder)
    texts = {
        FILE: estimate_json(document),
        "page.html": page_html(document),
        **bracket_files(document),
        **(more or {}),
    }
    home = Path(folder)
    try:
        home.mkdir(parents=True, exist_ok=True)
        _refuse_folders(home / name for name in texts)
        return _written(home, texts)
    except OSError as wrong:
        msg = f"cannot write to {home} ({wrong.strerror or wrong}): give another folder with --out"
        raise OSError(msg) from wrong


def _written(home: Path, texts: Mapping[str, str]) -> list[Path]:
    """Write texts beside their final names, then move all of them there."""
    drafts = {home / name: home / f".{name}.{uuid4().hex}" for name in texts}
    try:
        for path, draft in drafts.items():
            draft.write_text(texts[path.name], encoding="utf-8", newline="\n")
        for path, draft in drafts.items():
            draft.replace(path)
    finally:
        for draft in drafts.values():
            draft.unlink(missing_ok=True)
    return list(drafts)


def _refuse_folders(paths: Iterable[Path]) -> None:
    """Refuse to write over a folder, before anything is replaced."""
    for path in paths:
        if path.is_dir():
            raise IsADirectoryError(errno.EISDIR, f"{path.name} is a folder there")


def estimate_json(document: Document) -> str:
    """Return the document as JSON text: keys sorted, so that two runs compare line by line.

    Raises:
        ValueError: A number of the document is NaN or infinite.
    """
    for place in _unprintable(document, "estimate"):
        msg = f"{place} is not a finite number; nothing was written"
        raise ValueError(msg)
    return json.dumps(document, indent=1, sort_keys=True, ensure_ascii=False) + "\n"


def _unprintable(value: Any, place: str) -> Iterator[str]:  # noqa: ANN401 - any JSON value
    if isinstance(value, Mapping):
        for key, item in value.items():
            yield from _unprintable(item, f"{place}/{key}")
    elif isinstance(value, list | tuple):
        for i, item in enumerate(value):
            yield from _unprintable(item, f"{place}/{i}")
    elif isinstance(value, float) and not math.isfinite(value):
        yield place
