"""Files of a job, written as bytes and found on its shelf."""

import pytest

from estimator.files.meshes import read_mesh
from estimator.files.shelf import FileError, Shelf


@pytest.fixture
def found(tmp_path):
    """Return a function that writes a file and finds it on the shelf of its folder."""

    def find(name, data):
        (tmp_path / name).write_bytes(data)
        return Shelf(tmp_path).find(name)

    return find


@pytest.fixture
def mesh(found):
    """Return a function that writes a file and reads it as a mesh."""
    return lambda name, data: read_mesh(found(name, data))


@pytest.fixture
def refused(mesh):
    """Return a function that gives what is said of a mesh that cannot be read."""

    def words(name, data):
        with pytest.raises(FileError) as caught:
            mesh(name, data)
        return caught.value.found, caught.value.expected, caught.value.advice

    return words
