"""Keeping what was weighed: whole or not at all, once for each job."""

import hashlib

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from estimator.cli import main
from estimator.core.problems import RequestError
from estimator.reference.library import Library
from estimator.reference.own_ratios import read_ratios
from estimator.reports import keeping
from estimator.reports.keeping import keep, kept_text

FILE = "own_ratios.csv"
WORKBOOK = {
    "parts": (
        "part,assembly,count,shape,length,width,made of,gauge\nS,a,1,sheet,2 m,1 m,copper,1 mm\n"
    ),
    "weighed": "part,mass,date\nS,18.5 kg,2026-03-04\n",
}


@pytest.fixture
def job(tmp_path):
    """Return a small job, weighed, as a folder of .csv."""
    folder = tmp_path / "vane"
    folder.mkdir()
    for sheet, text in WORKBOOK.items():
        (folder / f"{sheet}.csv").write_text(text, encoding="utf-8")
    return folder


@pytest.fixture
def mine(tmp_path):
    """Return a folder for tables of a maker's own."""
    folder = tmp_path / "mine"
    folder.mkdir()
    return folder


def test_a_weighing_is_kept(document, mine):
    """T21, of one: 1.45 kg worked out and 1.535 weighed; the bird is left out, and why."""
    kept = keep(document, mine)

    job = "tide-dial.xlsx (Tide dial, harbour library gable)"
    assert (mine / FILE).read_text(encoding="utf-8").splitlines() == [
        "key,job,part_or_assembly,material,shape,estimated_kg,weighed_kg,ratio,date",
        f'"{job}: T21","{job}",T21,stainless 304,tube,1.45,1.535,1.0586,2026-04-02',
    ]
    assert kept_text(kept) == (
        f"{mine / FILE}: 1 weighing of this job (0 before), 0 of other jobs.\n"
        "  left out: bird: parts of it were weighed on their own"
    )


def test_keeping_twice_changes_nothing(document, mine):
    """The second time the rows of the job take the place of the first."""
    keep(document, mine)
    first = (mine / FILE).read_bytes()
    kept = keep(document, mine)

    assert (mine / FILE).read_bytes() == first
    assert (kept.kept, kept.before, kept.others) == (1, 1, 0)


names = st.text(st.characters(codec="utf-8", exclude_categories=("C",)), min_size=1).map(str.strip)
weighing = st.fixed_dictionaries({
    "name": names.filter(bool), "count": st.integers(1, 5), "material": st.just("copper"),
    "shape": st.just("disc"), "estimated_kg": st.floats(0.1, 1e4),
    "weighed_kg": st.floats(0.1, 1e4), "ratio": st.floats(0.5, 2.0), "date": st.just(""),
    "not_kept": st.just(""),
})  # fmt: skip


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(jobs=st.lists(st.lists(weighing, max_size=3), min_size=2, max_size=3))
def test_every_job_has_its_last_rows_and_no_others(document, tmp_path_factory, jobs):
    """However often and in whatever order jobs are kept; and all of it can be read again."""
    folder = tmp_path_factory.mktemp("mine")
    for _ in range(2):
        for i, weighings in enumerate(jobs):
            keep({**document, "file": f"job {i}", "weighings": weighings}, folder)

    ratios, problems = read_ratios(Library(folder))
    assert problems == ()
    assert len(ratios) == sum(map(len, jobs))
    for ratio, one in zip(ratios, (w for ws in jobs for w in ws), strict=True):
        assert ratio.weighed_kg == pytest.approx(one["weighed_kg"] / one["count"], rel=1e-5)


def test_what_the_maker_added_stays(document, mine):
    """A column of their own, and rows of other jobs, are written back."""
    (mine / FILE).write_text(
        "key,job,material,shape,estimated_kg,weighed_kg,who\nx: A,x,lead,disc,2,3,Ann\n",
        encoding="utf-8",
    )
    keep(document, mine)

    lines = (mine / FILE).read_text(encoding="utf-8").splitlines()
    assert lines[0].endswith(",ratio,date,who")
    assert lines[1] == "x: A,x,,lead,disc,2,3,,,Ann"
    assert len(lines) == 3


def test_a_record_that_cannot_be_read_is_not_written_over(document, mine):
    """It may hold years of work under a slip of the keyboard."""
    (mine / FILE).write_text("key,job\nx,y,z\n", encoding="utf-8")

    with pytest.raises(RequestError, match="was not written over; mend it, or move it away"):
        keep(document, mine)
    assert (mine / FILE).read_text(encoding="utf-8") == "key,job\nx,y,z\n"


def test_a_failure_leaves_the_old_record(document, mine, monkeypatch):
    """No draft is left, and nothing is half written."""
    keep(document, mine)
    before = (mine / FILE).read_bytes()

    def full(*_, **__):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(keeping.Path, "write_text", full)
    document["weighings"] = []
    with pytest.raises(OSError, match="No space left"):
        keep(document, mine)
    assert [path.name for path in mine.iterdir()] == [FILE]
    assert (mine / FILE).read_bytes() == before


def test_no_text_is_run_by_a_spreadsheet(document, mine):
    """A name that looks like a formula is only a name."""
    document["weighings"][0]["name"] = "=1+1"
    keep(document, mine)

    assert ",'=1+1," in (mine / FILE).read_text(encoding="utf-8")


def test_nothing_weighed_writes_nothing(document, mine):
    """No empty record is made."""
    document["weighings"] = []
    kept = keep(document, mine)

    assert not (mine / FILE).exists()
    assert kept_text(kept).endswith("nothing is on the sheet `weighed` that counts")


def test_the_command_keeps_and_leaves_the_workbook(job, mine, capsys):
    """Exit 0, one row, and the sheets as they were to the byte."""
    before = {path: hashlib.sha256(path.read_bytes()).hexdigest() for path in job.iterdir()}

    assert main(["keep", str(job), "--tables", str(mine)]) == 0
    assert capsys.readouterr().out == (
        f"{mine / FILE}: 1 weighing of this job (0 before), 0 of other jobs.\n"
    )
    assert before == {p: hashlib.sha256(p.read_bytes()).hexdigest() for p in job.iterdir()}
    (ratio,), _ = read_ratios(Library(mine))
    assert (ratio.job, ratio.estimated_kg, ratio.weighed_kg) == ("vane", 17.86, 18.5)


def test_the_command_needs_a_folder(job, mine, capsys):
    """Exit 2 when it is not there; nothing is made."""
    assert main(["keep", str(job), "--tables", str(mine / "none")]) == 2
    assert (
        "is not a folder: --tables wants one that is there, even empty" in capsys.readouterr().err
    )
