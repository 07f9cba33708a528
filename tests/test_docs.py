"""The documents say what is there: commands, files, tables and the layout of the project."""

import re
from pathlib import Path

import pytest

from estimator.cli import main
from estimator.pipeline import STAGES
from estimator.reference.library import Library

CHECKOUT = Path(__file__).resolve().parents[1]
PACKAGE = CHECKOUT / "estimator"
README = (CHECKOUT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8")


def test_the_readme_names_every_command_and_no_other(capsys):
    """Whoever reads it can trust that each command is there."""
    with pytest.raises(SystemExit):
        main(["--help"])
    listed = set(re.findall(r"^    (\w+) +\w", capsys.readouterr().out, re.MULTILINE))

    assert set(re.findall(r"bin/estimator (\w+)", README)) == listed


def test_the_readme_shows_every_option_it_names(capsys):
    """An option in the text is one of a command's."""
    offered = ""
    for command in ("check", "report", "why", "tables"):
        with pytest.raises(SystemExit):
            main([command, "--help"])
        offered += capsys.readouterr().out

    own = README.split("## Your own job")[1]
    named = re.findall(r"`[^`\n]*?(--[a-z]+)", own)
    assert named
    for option in named:
        assert option in offered, option


def test_the_first_command_makes_the_example(capsys):
    """The demo job that the first command works out is where it says."""
    (job,) = re.findall(r"estimator report (examples/\S+)", README)

    assert (CHECKOUT / job).is_file()
    assert main(["check", str(CHECKOUT / job)]) == 0
    assert "0 to put right" in capsys.readouterr().out


def test_the_map_names_files_that_are_there():
    """A reader of the contributor guide finds what it points to."""
    places = re.findall(r"`((?:estimator|tests|tables|\w+)/[\w./]*\w)`", DEVELOPERS)
    assert len(places) > 20
    for place in places:
        homes = (CHECKOUT / place, CHECKOUT / "estimator" / place)
        assert any(home.exists() for home in homes), place


def test_the_map_names_every_step_of_the_run():
    """A new step is not left out of the map."""
    modules = {stage.run.__module__.rsplit(".", 1)[-1] for stage in STAGES} - {"job"}

    for module in modules:
        assert f"`{module}`" in DEVELOPERS, module


def test_every_module_is_two_hops_from_the_map():
    """It is named there, or imported by one that is; folders of the run and of formulas."""
    folders = ("stages", "resolve", "wind", "supports", "shop", "masses", "geometry")
    modules = [path for name in folders for path in (PACKAGE / name).glob("[!_]*.py")]
    named = [path for path in modules if re.search(rf"\b{path.stem}\b", DEVELOPERS)]
    read = "".join(path.read_text("utf-8") for path in named)

    for path in modules:
        folder, stem = path.parent.name, path.stem
        imports = rf"^from estimator\.{folder}(\.{stem} import| import .*\b{stem}\b)"
        assert path in named or re.search(imports, read, re.MULTILINE), path


def test_the_map_names_only_tables_there_are():
    """A table in the map can be looked in."""
    known = set(Library().names)
    column = [line.split("|")[3] for line in DEVELOPERS.splitlines() if line.count("|") == 5]
    named = {name for cell in column for name in re.findall(r"`(\w+)`", cell)}

    assert named
    assert named <= known | {"sources"}
