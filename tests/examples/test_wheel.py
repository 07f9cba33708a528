"""The package as people get it: built, installed with its dependencies, run from elsewhere."""

import json
import os
import re
import shutil
import subprocess
import sys
import venv
from pathlib import Path

import pytest

from estimator.reports.document import schema

CHECKOUT = Path(__file__).resolve().parents[2]
EXAMPLE = CHECKOUT / "examples" / "tide-dial" / "tide-dial.xlsx"
LOADED_FROM_ELSEWHERE = re.compile(
    r"""(?:src|href|srcset|data|poster|action)\s*=\s*["']?\s*(?:https?:)?//"""
    r"""|url\(\s*["']?\s*(?:https?:)?//|@import""",
    re.IGNORECASE,
)
BARE = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}


def ran(command, folder):
    """Return a finished process; what it said is shown where it failed."""
    done = subprocess.run(
        [str(word) for word in command], cwd=folder, env=BARE, capture_output=True, text=True,
        check=False,
    )  # fmt: skip
    assert done.returncode == 0, f"{done.stdout}\n{done.stderr}"
    return done


@pytest.fixture(scope="module")
def scripts(tmp_path_factory):
    """Return the folder of commands of a new environment in which the wheel is installed."""
    folder = tmp_path_factory.mktemp("wheel")
    ran([sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", folder], CHECKOUT)
    (wheel,) = folder.glob("estimator-*.whl")
    home = folder / "environment"
    venv.create(home, with_pip=True, symlinks=os.name != "nt")
    commands = home / ("Scripts" if os.name == "nt" else "bin")
    ran([commands / "python", "-m", "pip", "install", "--quiet", wheel], folder)
    return commands


@pytest.fixture(scope="module")
def elsewhere(scripts, tmp_path_factory):
    """Return a folder outside the checkout with the example in it, reported on."""
    folder = tmp_path_factory.mktemp("elsewhere")
    shutil.copy(EXAMPLE, folder)
    ran([scripts / "estimator", "report", EXAMPLE.name], folder)
    return folder


@pytest.fixture(scope="module")
def report(elsewhere):
    """Return the folder of the report."""
    return elsewhere / f"{EXAMPLE.stem} report"


def test_the_installed_package_is_the_one_that_runs(scripts, elsewhere):
    """Code and tables come from the environment, not from the checkout."""
    asks = (
        "import estimator, estimator.reference.library as library;"
        "print(estimator.__file__, library.tables_dir(), sep='\\n')"
    )

    module, tables = map(Path, ran([scripts / "python", "-c", asks], elsewhere).stdout.splitlines())

    assert module.is_relative_to(scripts.parent)
    assert tables == module.parent / "_tables"
    assert sorted(path.name for path in tables.glob("*.csv")) == sorted(
        path.name for path in (CHECKOUT / "tables").glob("*.csv")
    )


def test_the_record_has_every_key(report):
    """What the schema requires is there, and the example has nothing to put right."""
    document = json.loads((report / "estimate.json").read_text("utf-8"))

    assert set(schema()["required"]) <= document.keys()
    assert document["complete"] is True
    assert document["mass"]["low_kg"] < document["mass"]["likely_kg"] < document["mass"]["high_kg"]
    assert document["bracket_envelope"]
    assert document["option"] == "copper"


def test_the_page_loads_nothing_from_elsewhere(report):
    """It opens without a network, and says what it is about."""
    page = (report / "page.html").read_text("utf-8")

    assert LOADED_FROM_ELSEWHERE.findall(page) == []
    assert "Tide dial" in page


def test_the_example_is_left_as_it_was(elsewhere, report):
    """A report changes not a byte of the workbook, and leaves nothing else beside it."""
    assert (elsewhere / EXAMPLE.name).read_bytes() == EXAMPLE.read_bytes()
    assert set(elsewhere.iterdir()) == {elsewhere / EXAMPLE.name, report}


def test_a_blank_workbook_can_be_made_and_checked(scripts, tmp_path):
    """Notes and pick lists need the tables, which came with the wheel."""
    ran([scripts / "estimator", "new", "job.xlsx"], tmp_path)
    done = ran([scripts / "estimator", "check", "job.xlsx"], tmp_path)

    assert "job.xlsx: 0 to put right" in done.stdout


def test_the_commands_say_which_version_they_are(scripts, tmp_path):
    """As the built package is called."""
    assert re.fullmatch(
        r"estimator \d+\.\d+\.\d+",
        ran([scripts / "estimator", "--version"], tmp_path).stdout.strip(),
    )
