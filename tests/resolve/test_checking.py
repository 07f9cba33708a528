"""Checking: problems of every way of building, accounts of the one that is shown."""

import pytest

from estimator.core.problems import RequestError, UnreadableError
from estimator.resolve.checking import check

PARTS = """
    option | part | assembly | count | shape | diameter | made of | gauge
           | D1   | dial     | 1     | disc  | 1 m      | copper  | 1.5 mm
    copper | D2   | dial     | 1     | disc  | 1 m      | coper   | 1.5 mm
    lead   | D2   | dial     | 1     | disc  | 1 m      | lead    | Code 55
    """


@pytest.fixture
def folder(tmp_path, write_job):
    """Return a workbook with something wrong in each of its two options."""
    return write_job(tmp_path / "job", {"parts": PARTS})


@pytest.mark.parametrize("option", [None, "copper", "LEAD"])
def test_problems_of_every_option_are_found(folder, option):
    """Whichever option is shown, what is wrong in the others is told once as well."""
    problems, accounts = check(folder, option)

    said = [str(problem) for problem in problems]
    assert any('"coper" is not in tables/materials.csv' in text for text in said)
    assert any('"Code 55" is not in tables/gauges.csv' in text for text in said)
    assert len(said) == len(set(said))
    assert (accounts["parts"].used, accounts["parts"].other_option) == (1, 1)
    assert accounts["parts"].refused == 1


def test_what_is_wrong_in_another_way_names_it(folder):
    """The row is used in the way that is shown, so its problem says where it is not."""
    problems, _ = check(folder, "copper")

    found = {problem.cell.row: problem.found for problem in problems if problem.cell.row}
    assert found[3] == '"coper" is not in tables/materials.csv'
    assert found[4].endswith('"Code 55" is not in tables/gauges.csv (in the way lead)')


def test_a_makers_own_tables_are_used(folder, tmp_path):
    """A material of the workshop's own folder is known."""
    own = tmp_path / "own"
    own.mkdir()
    (own / "materials.csv").write_text(
        "key,density_kg_m3,source\ncoper,8000,our scale\n", encoding="utf-8"
    )

    problems, _ = check(folder, tables=own)

    assert not any("coper" in str(problem) for problem in problems)


def test_a_path_that_is_no_workbook_is_unreadable(tmp_path):
    """There is nothing to check."""
    with pytest.raises(UnreadableError, match="there is no file"):
        check(tmp_path / "heron.xlsx")


def test_an_option_that_is_not_there_cannot_be_checked(folder):
    """Nothing is checked in its place."""
    with pytest.raises(RequestError, match='no option "zinc" in job; there are copper, lead'):
        check(folder, "zinc")
