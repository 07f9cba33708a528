"""The commands: what they print, what they write, and the exit codes 0, 1 and 2."""

import csv
import hashlib
import json
import subprocess
import sys
from pathlib import Path

import pytest

from estimator.cli import CANNOT_RUN, FINE, PROBLEMS, main
from estimator.reference.library import Library

HEAVY = ("pandas", "openpyxl", "pint", "scipy", "shapely", "numpy", "python_calamine", "jinja2")
JOB = {
    "job": [
        ["item", "value"],
        ["title", "Small sign"],
        ["datum height", "3 m"],
        ["basic wind speed", "24 m/s"],
    ],
    "assemblies": [
        ["assembly", "stands", "carried by"],
        ["sign", "off wall", "arms"],
    ],
    "parts": [
        ["part", "assembly", "count", "shape", "length [mm]", "width [mm]", "made of", "gauge",
         "out [mm]", "option"],
        ["P1", "sign", "1", "sheet", "900", "600", "copper", "16 SWG", "120", "thick"],
        ["P1", "sign", "1", "sheet", "900", "600", "copper", "18 SWG", "120", "thin"],
        ["P2", "sign", "0", "sheet", "100", "60", "copper", "18 SWG", "120", ""],
    ],
    "brackets": [
        ["bracket", "set", "across [mm]", "up [mm]", "reach [mm]", "bears at [mm]", "section",
         "grade", "holds"],
        ["B1", "arms", "-300", "250", "100", "100", "SHS 40x40x3", "S275", "welded"],
        ["B2", "arms", "300", "250", "100", "100", "SHS 40x40x3", "S275", "welded"],
        ["B3", "arms", "0", "-250", "100", "100", "SHS 40x40x3", "S275", "welded"],
    ],
}  # fmt: skip
BAD_ROW = ["P9", "sign", "1", "sheet", "900", "600", "unobtainium", "16 SWG", "120", ""]


@pytest.fixture
def write_job(tmp_path):
    """Return a function that writes the small sign as a folder of .csv files."""

    def write(*more_parts):
        folder = tmp_path / "small sign"
        folder.mkdir()
        for name, rows in JOB.items():
            more = more_parts if name == "parts" else ()
            with (folder / f"{name}.csv").open("w", encoding="utf-8", newline="") as stream:
                csv.writer(stream).writerows([*rows, *more])
        return folder

    return write


@pytest.fixture
def run(capsys):
    """Return a function that runs a command and returns its exit code and what it printed."""

    def run_command(*arguments):
        code = main([str(argument) for argument in arguments])
        said = capsys.readouterr()
        return code, said.out, said.err

    return run_command


def digests(folder):
    """Return a digest of every file of a folder."""
    return {path: hashlib.sha256(path.read_bytes()).hexdigest() for path in folder.rglob("*.csv")}


def test_check_says_nothing_is_wrong(write_job, run):
    """The account of every row read, a count, and exit 0."""
    code, out, err = run("check", write_job())

    assert code == FINE
    assert err == ""
    lines = out.splitlines()
    assert lines[-1] == "small sign: 0 to put right, 0 to look at, 0 notes."
    (parts,) = (line.split() for line in lines if line.startswith("parts"))
    assert parts == ["parts", "3", "1", "1", "1", "0", "0"]


def test_check_points_at_the_cell(write_job, run):
    """Address and part, what is there, what is wanted; exit 1."""
    code, out, _ = run("check", write_job(BAD_ROW))

    assert code == PROBLEMS
    assert 'parts!G5 (P9): "unobtainium" is not in tables/materials.csv' in out.splitlines()
    assert out.splitlines()[-1].startswith("small sign: 1 to put right")


def test_check_gives_the_same_list_to_another_program(write_job, run):
    """Every field of a problem by name, and the same exit code."""
    code, out, _ = run("check", "--json", write_job(BAD_ROW))

    assert code == PROBLEMS
    (problem,) = json.loads(out)
    assert problem["cell"] == "parts!G5"
    assert problem["part"] == "P9"
    assert problem["severity"] == "refused"
    assert set(problem) == {
        "severity", "sheet", "cell", "part", "found", "expected", "advice"
    }  # fmt: skip


def test_check_finds_what_is_wrong_in_the_other_option_too(write_job, run):
    """Problems are those of every way of building."""
    bad = [*BAD_ROW[:-1], "thin"]

    code, out, _ = run("check", write_job(bad), "--option", "thick")

    assert code == PROBLEMS
    assert "unobtainium" in out


def test_report_writes_beside_the_job_and_says_what_to_open(write_job, run):
    """Two files in a folder named after the job; the page is the last line; exit 0."""
    job = write_job()

    code, out, err = run("report", job)

    folder = job.parent / "small sign report"
    assert (code, err) == (FINE, "")
    assert sorted(path.name for path in folder.iterdir()) == [
        "brackets-factored.csv", "brackets.csv", "estimate.json", "page.html"]  # fmt: skip
    assert out.splitlines()[-1] == f"Open {folder / 'page.html'}"
    assert "Small sign" in out
    assert "engineer" in out
    assert json.loads((folder / "estimate.json").read_text("utf-8"))["complete"] is True


def test_report_with_a_bad_row_is_written_and_marked(write_job, run, tmp_path):
    """INCOMPLETE on the page and in the record, exit 1, what was not refused still there."""
    code, _, _ = run("report", write_job(BAD_ROW), "--out", tmp_path / "out")

    document = json.loads((tmp_path / "out" / "estimate.json").read_text("utf-8"))
    assert code == PROBLEMS
    assert document["complete"] is False
    assert "INCOMPLETE" in (tmp_path / "out" / "page.html").read_text("utf-8")
    assert {part["part"] for part in document["parts"]} >= {"P1"}
    assert document["mass"]["likely_kg"] > 0


def test_report_of_a_named_option_is_about_that_option(write_job, run, tmp_path):
    """The option in any case; 16 SWG is 0.064 in and 18 SWG 0.048 in (BS 3737, as quoted)."""
    job = write_job()
    masses = {}
    for option in ("thick", "THIN"):
        assert run("report", job, "--out", tmp_path / option, "--option", option)[0] == FINE
        document = json.loads((tmp_path / option / "estimate.json").read_text("utf-8"))
        masses[document["option"]] = next(
            part["mass_each_kg"] for part in document["parts"] if part["part"] == "P1"
        )

    assert masses["thick"] / masses["thin"] == pytest.approx(64 / 48, rel=1e-9)


def test_report_writes_every_case_only_when_asked(write_job, run, tmp_path):
    """One row a wind load and one a bracket action, as in the record."""
    run("report", write_job(), "--out", tmp_path / "out", "--cases")

    document = json.loads((tmp_path / "out" / "estimate.json").read_text("utf-8"))
    for name, wanted in (
        ("wind-loads.csv", document["wind"]["loads"]),
        ("brackets.csv", document["brackets"]),
    ):
        with (tmp_path / "out" / name).open(encoding="utf-8", newline="") as stream:
            rows = list(csv.DictReader(stream))
        assert len(rows) == len(wanted) > 0
        out = next(heading for heading in rows[-1] if "force" in heading and "out" in heading)
        assert float(rows[-1][out]) == wanted[-1]["force_n"][2]


def test_report_leaves_the_job_as_it_is(write_job, run):
    """Not a byte of the input changes."""
    job = write_job()
    before = digests(job)

    run("check", job)
    run("report", job)

    assert digests(job) == before


def test_tables_of_the_makers_own_are_used(write_job, run, tmp_path):
    """A material that is only in --tables is found there."""
    own = tmp_path / "own"
    own.mkdir()
    (own / "materials.csv").write_text(
        "key,name,group,density_kg_m3,source,locator,checked\n"
        "unobtainium,unobtainium,metal,5000,our scale,one sheet,document\n",
        encoding="utf-8",
    )

    code, out, _ = run("check", write_job(BAD_ROW), "--tables", own)

    assert code == FINE, out


def test_why_prints_the_sum_behind_a_figure(write_job, run):
    """Of a part its layers, of an assembly its wind; nothing is written; exit 0."""
    job = write_job()
    before = sorted(job.parent.rglob("*"))

    code, out, err = run("why", job, "P1", "mass", "--option", "thin")
    assert (code, err) == (FINE, "")
    # 18 SWG is 1.219 mm (BS 3737, as quoted), copper 8930 kg/m3 (EN 1172, as quoted).
    assert "0.54 m2 x 10.887 kg/m2 = 5.879 kg" in out
    code, out, err = run("why", job, "sign", "wind", "--from", "90", "--position", "as drawn")
    assert (code, err) == (FINE, "")
    assert "Wind on sign, as drawn, from 90" in out
    assert "sign off" in out
    assert sorted(job.parent.rglob("*")) == before


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["P7", "mass"], 'there is no part or assembly "P7"; the nearest names are: P1'),
        (["sign", "wind", "--from", "17"], "the nearest are 15 and 30"),
        (["sign", "wind", "--position", "shut"], "type one of: as drawn"),
    ],
)
def test_why_of_what_is_not_there_names_what_is(write_job, run, arguments, told):
    """Exit 2, nothing on the way out, one line that says what may be typed."""
    code, out, err = run("why", write_job(), *arguments)

    assert (code, out) == (CANNOT_RUN, "")
    assert told in err


def test_why_of_a_job_with_a_bad_row_says_so(write_job, run):
    """Exit 1 as for the report, and INCOMPLETE above the sum."""
    code, out, _ = run("why", write_job(BAD_ROW), "P1", "mass")

    assert code == PROBLEMS
    assert out.startswith("INCOMPLETE")


def test_why_fits_the_terminal(write_job, run, monkeypatch):
    """As wide as it says it is."""
    monkeypatch.setenv("COLUMNS", "60")

    _, out, _ = run("why", write_job(), "sign", "wind")

    assert max(map(len, out.splitlines())) <= 60


@pytest.mark.parametrize("command", ["check", "report"])
def test_an_option_that_is_not_there_cannot_be_run(write_job, run, command):
    """Exit 2, the options there are, and nothing written."""
    job = write_job()

    code, out, err = run(command, job, "--option", "copper")

    assert (code, out) == (CANNOT_RUN, "")
    assert err == 'estimator: no option "copper" in small sign; there are thick, thin\n'
    assert [path.name for path in job.parent.iterdir()] == ["small sign"]


@pytest.mark.parametrize("command", ["check", "report"])
def test_a_file_that_cannot_be_read_writes_nothing(run, tmp_path, command):
    """Exit 2, one sentence, no report folder."""
    job = tmp_path / "job.xlsx"
    job.write_bytes(b"PK\x03\x04 and then nothing that unpacks")

    code, out, err = run(command, job)

    assert (code, out) == (CANNOT_RUN, "")
    assert err.startswith("estimator: ")
    assert "damaged" in err
    assert list(tmp_path.iterdir()) == [job]


@pytest.mark.parametrize("command", ["check", "report"])
def test_a_file_that_is_not_there_cannot_be_read(run, tmp_path, command):
    """Exit 2 and its name."""
    code, _, err = run(command, tmp_path / "none.xlsx")

    assert code == CANNOT_RUN
    assert "none.xlsx" in err


def test_new_makes_a_workbook_that_checks_without_anything_to_put_right(run, tmp_path):
    """The first command a maker types, then the second."""
    path = tmp_path / "heron.xlsx"

    code, out, _ = run("new", path)

    assert code == FINE
    assert str(path) in out
    assert run("check", path)[0] == FINE


def test_new_never_overwrites(run, tmp_path):
    """Exit 2, and the file is as it was."""
    path = tmp_path / "heron.xlsx"
    path.write_bytes(b"a week of work")

    code, _, err = run("new", path)

    assert code == CANNOT_RUN
    assert "is there already" in err
    assert path.read_bytes() == b"a week of work"


@pytest.mark.parametrize("name", ["heron.ods", "missing/heron.xlsx"])
def test_new_says_why_it_cannot(run, tmp_path, name):
    """Another kind of file, or a folder that is not there: exit 2, nothing written."""
    code, _, err = run("new", tmp_path / name)

    assert code == CANNOT_RUN
    assert "heron" in err
    assert list(tmp_path.iterdir()) == []


def test_tables_lists_their_names(run):
    """One a line."""
    code, out, _ = run("tables")

    assert code == FINE
    assert tuple(out.split()) == Library().names


def test_tables_shows_the_rows_of_a_gauge(run, monkeypatch):
    """18 SWG is 1.2192 mm (BS 3737, as quoted in the table), and the line says so."""
    monkeypatch.setenv("COLUMNS", "100")

    code, out, _ = run("tables", "gauges", "18")

    assert code == FINE
    (row,) = (line for line in out.splitlines() if line.startswith("SWG 18"))
    assert "1.2192" in row
    assert "[1] BS 3737" in out
    assert max(map(len, out.splitlines())) <= 100


def test_a_table_that_is_not_there_gets_near_names(run):
    """Exit 2, and what it may have been."""
    code, out, err = run("tables", "gages")

    assert (code, out) == (CANNOT_RUN, "")
    assert err == 'estimator: "gages" is not the name of a table; type one of: gauges\n'


@pytest.mark.parametrize(
    "arguments",
    [[], ["frob"], ["check"], ["check", "job.xlsx", "--frob"], ["report", "job.xlsx", "--option"]],
)
def test_arguments_that_are_none_show_the_usage(capsys, arguments):
    """Exit 2 from the parser itself."""
    with pytest.raises(SystemExit) as stopped:
        main(arguments)

    assert stopped.value.code == CANNOT_RUN
    assert "usage: estimator" in capsys.readouterr().err


@pytest.mark.parametrize("command", ["", "new", "check", "report", "tables"])
def test_help_says_what_a_command_is_for(capsys, command):
    """Exit 0, and the help of every command starts with how to call it."""
    with pytest.raises(SystemExit) as stopped:
        main([*command.split(), "--help"])

    assert stopped.value.code == FINE
    assert capsys.readouterr().out.startswith(f"usage: estimator {command}".rstrip())


def test_help_loads_nothing_heavy():
    """Help must come at once, so what takes time to load is loaded when it is used."""
    asks = (
        "import sys\n"
        "from estimator.cli import main\n"
        "try:\n"
        "    main(['--help'])\n"
        "except SystemExit:\n"
        f"    print(sorted({HEAVY!r} & sys.modules.keys()))\n"
    ).replace(repr(HEAVY), f"set({HEAVY!r})")
    done = subprocess.run(
        [sys.executable, "-c", asks], capture_output=True, text=True, check=True,
        cwd=Path(__file__).parents[1],
    )  # fmt: skip

    assert done.stdout.splitlines()[-1] == "[]"


def test_the_module_runs_as_the_command_does(tmp_path):
    """`python -m estimator` returns the exit code of the command."""
    done = subprocess.run(
        [sys.executable, "-m", "estimator", "check", str(tmp_path / "none.xlsx")],
        capture_output=True, text=True, check=False, cwd=Path(__file__).parents[1],
    )  # fmt: skip

    assert done.returncode == CANNOT_RUN
    assert done.stderr.startswith("estimator: there is no file")


def test_progress_is_shown_only_to_a_person_who_waits(write_job, run, monkeypatch):
    """On a terminal, after the patience has run out, the steps are named and then wiped."""
    monkeypatch.setattr("estimator.cli.PATIENCE_S", -1.0)
    monkeypatch.setattr("sys.stderr.isatty", lambda: True, raising=False)

    _, _, err = run("report", write_job())

    assert "weighing ..." in err
    assert err.endswith("\r")


def test_other_figures_under_the_same_issue_are_told(write_job, tmp_path, capsys):
    """Whoever holds the first of them must not be left with it; a new date clears it."""
    folder, out = write_job(), tmp_path / "out"
    facts = folder / "job.csv"
    told = facts.read_text("utf-8") + "issue,A\ndate,2026-03-04\n"
    facts.write_text(told, "utf-8")
    main(["report", str(folder), "--out", str(out)])
    first = capsys.readouterr().out

    facts.write_text(told.replace("24 m/s", "26 m/s"), "utf-8")
    main(["report", str(folder), "--out", str(out)])
    second = capsys.readouterr().out
    facts.write_text(told.replace("24 m/s", "26 m/s").replace("03-04", "03-05"), "utf-8")
    main(["report", str(folder), "--out", str(out)])
    third = capsys.readouterr().out

    assert first.startswith("Small sign, issue A of 2026-03-04, thick")
    assert "The inputs have changed under the same issue A of 2026-03-04" in second
    assert "inputs have changed" not in first + third
