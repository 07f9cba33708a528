"""What the tests of the lookup tables share: our library, and a maker's folder to fill."""

import pytest

from estimator.reference.library import Library
from estimator.reference.materials import find_material


@pytest.fixture(scope="session")
def library():
    """Return the tables as they come with the program."""
    return Library()


@pytest.fixture(scope="session")
def copper(library):
    """Return the copper of the table: no gauge system of its own."""
    return find_material(library, "copper")


@pytest.fixture(scope="session")
def lead(library):
    """Return the lead of the table, whose bare gauge numbers are codes."""
    return find_material(library, "lead")


@pytest.fixture
def makers(tmp_path):
    """Return a function that writes files into a maker's own folder and reads it."""

    def read(**files):
        folder = tmp_path / "mine"
        folder.mkdir(exist_ok=True)
        for name, content in files.items():
            raw = content if isinstance(content, bytes) else content.encode()
            (folder / f"{name}.csv").write_bytes(raw)
        return Library(folder)

    return read
