"""The files of a report."""

import json
from pathlib import Path

import pytest

from estimator.reports.page import page_html
from estimator.reports.writing import estimate_json, write_reports

NAMES = ["estimate.json", "page.html", "brackets.csv", "brackets-factored.csv"]


def test_a_report_is_four_files_in_a_folder_that_is_made(document, tmp_path):
    """The document, the page, and the actions at the brackets; nothing else is left behind."""
    folder = tmp_path / "jobs" / "tide dial report"

    written = write_reports(document, folder)

    assert written == [folder / name for name in NAMES]
    assert sorted(path.name for path in folder.iterdir()) == sorted(NAMES)
    assert json.loads((folder / "estimate.json").read_text("utf-8")) == document
    assert (folder / "page.html").read_text("utf-8") == page_html(document)


def test_the_file_is_the_same_for_the_same_document(document):
    """Keys are sorted, so the order they were made in does not show."""
    turned = dict(reversed(document.items()))

    assert estimate_json(turned) == estimate_json(document)
    assert list(json.loads(estimate_json(turned))) == sorted(document)


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf")])
def test_a_number_that_is_none_is_refused_and_nothing_is_written(document, tmp_path, number):
    """The message says where it is; the files of the last run stay."""
    write_reports(document, tmp_path)
    before = (tmp_path / "estimate.json").read_text("utf-8")
    document["wind"]["loads"][3]["force_n"][0] = number

    with pytest.raises(ValueError, match="estimate/wind/loads/3/force_n/0 is not a finite number"):
        write_reports(document, tmp_path)

    assert (tmp_path / "estimate.json").read_text("utf-8") == before


def test_a_failure_half_way_leaves_the_old_files(document, tmp_path, monkeypatch):
    """The disk is full at the second file: the first is not replaced, no draft is left."""
    write_reports(document, tmp_path)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    document["mass"]["likely_kg"] = 1.0
    write_text = Path.write_text

    def full(path, *args, **kwargs):
        if "page.html" in path.name:
            msg = "no space left on device"
            raise OSError(msg)
        return write_text(path, *args, **kwargs)

    monkeypatch.setattr(Path, "write_text", full)
    with pytest.raises(OSError, match="no space"):
        write_reports(document, tmp_path)

    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_a_folder_in_the_way_is_said_before_anything_is_replaced(document, tmp_path):
    """A folder named page.html cannot be written over, and the old estimate stays."""
    (tmp_path / "estimate.json").write_text("old", encoding="utf-8")
    (tmp_path / "page.html").mkdir()

    with pytest.raises(OSError, match=r"cannot write to .*page\.html is a folder there.*--out"):
        write_reports(document, tmp_path)

    assert (tmp_path / "estimate.json").read_text(encoding="utf-8") == "old"


def test_a_file_where_the_folder_should_be_is_said(document, tmp_path):
    """Whoever names a file for a folder is told what to do."""
    (tmp_path / "report").write_text("mine", encoding="utf-8")

    with pytest.raises(OSError, match="give another folder with --out"):
        write_reports(document, tmp_path / "report")
