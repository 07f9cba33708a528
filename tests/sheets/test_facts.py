"""The items of the job sheet hold together."""

import pytest

from estimator.core.units import KINDS, UnitError
from estimator.sheets.columns import Reads, field_of
from estimator.sheets.converters import reader
from estimator.sheets.facts import JOB_FACTS

NOTHING_STANDS_IN = ["basic_wind_speed", "datum_height", "wall_faces", "stated_pressure"]


@pytest.mark.parametrize("fact", JOB_FACTS.values(), ids=JOB_FACTS)
def test_a_fact_says_why_it_matters_and_can_be_read(fact):
    """Each can be listed under what has not been said, and each has a reader."""
    assert fact.why
    assert all(kind in KINDS for kind in fact.column.kinds)
    assert callable(reader(fact.column))


@pytest.mark.parametrize("fact", JOB_FACTS.values(), ids=JOB_FACTS)
def test_a_default_is_a_value_its_own_column_allows(fact):
    """A default that the sheet would refuse would be a contradiction."""
    column, default = fact.column, fact.default
    if default is None:
        return

    assert isinstance(default, str) == (column.reads in {Reads.TEXT, Reads.CHOICE})
    assert not column.choices or default in column.choices
    assert isinstance(default, str) or column.at_least <= default <= column.at_most


OUT_OF_BOUNDS = [
    ("direction factor", 0.0, '"0" is less than 0.1'),
    ("season factor", 8.0, '"8" is more than 5'),
    ("structural factor", -1.0, '"-1" is less than 0.1'),
    ("orography", 0.4, '"0.4" is less than 0.5'),
    ("orography", 6.0, '"6" is more than 5'),
    ("wall stiffness ratio", 2e6, '"2000000" is more than 1000000'),
    ("margin", "100 %", '"100 %" is more than 99 %'),
    ("datum height", "250 m", '"250 m" is more than 200 m'),
    ("datum height", "-1 m", '"-1 m" is less than 0'),
    ("building height", "250 m", '"250 m" is more than 200 m'),
    ("wall thickness", "0.001 mm", '"0.001 mm" is less than 0.01 mm'),
    ("ice thickness", "-5 mm", '"-5 mm" is less than 0'),
    ("snow load", "-1 kPa", '"-1 kPa" is less than 0'),
    ("kerb distance", "-1 m", '"-1 m" is less than 0'),
    ("years exposed", 20000.0, '"20000" is more than 10000'),
    ("quotation validity", "0 days", '"0" is less than 1'),
    ("wall faces", "99999 deg", '"99999 deg" is too large for anything here'),
]


@pytest.mark.parametrize(("item", "cell", "found"), OUT_OF_BOUNDS)
def test_a_fact_outside_what_makes_sense_is_refused(item, cell, found):
    """A slip there would change every figure of the job."""
    with pytest.raises(UnitError) as caught:
        reader(JOB_FACTS[field_of(item)].column)(cell)

    assert caught.value.found == found


@pytest.mark.parametrize("item", NOTHING_STANDS_IN)
def test_nothing_is_assumed_where_a_guess_would_be_dangerous(item):
    """Wind speed, height and orientation have no stand-in."""
    assert JOB_FACTS[item].default is None
