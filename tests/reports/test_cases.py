"""Every case as .csv."""

import csv
import io

from estimator.reports.cases import case_files


def rows_of(text):
    """Return the lines of a .csv by heading."""
    return list(csv.DictReader(io.StringIO(text)))


def test_every_case_has_its_line(document):
    """As many as in the document, with force and moment along the three axes."""
    files = case_files(document)
    loads, actions = rows_of(files["wind-loads.csv"]), rows_of(files["bracket-actions.csv"])

    assert len(loads) == len(document["wind"]["loads"])
    assert len(actions) == len(document["brackets"])
    assert float(loads[0]["force_out_n"]) == document["wind"]["loads"][0]["force_n"][2]
    assert float(actions[0]["moment_across_nm"]) == document["brackets"][0]["moment_nm"][0]


def test_no_name_is_run_as_a_formula(document):
    """A name that starts as a formula does is led by an apostrophe; numbers keep their minus."""
    document["wind"]["loads"][0].update(assembly="=1+1", force_n=[-1.0, 0.0, 0.0])
    first = rows_of(case_files(document)["wind-loads.csv"])[0]

    assert first["assembly"] == "'=1+1"
    assert first["force_across_n"] == "-1.0"
